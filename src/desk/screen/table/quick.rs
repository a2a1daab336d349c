//! What one key does just now, as buttons: the next loads, and the reasons for
//! red lights.

use iced::widget::{Row, button, row, text};
use iced::{Element, alignment};

use super::Message;
use crate::day::{Command, Facts};
use crate::desk::action::Action;
use crate::desk::call_line::{
    ReasonFor, asked, load_of, reasons_by_key, rise_by_key, suggestion,
};
use crate::desk::theme::{self, size};
use crate::desk::{font, see};

/// How many rises are shown; there are keys for more.
const RISES: u8 = 5;

/// The loads that a key asks for, where a request is owed.
pub(super) fn loads<'a>(facts: &Facts, platform: u8) -> Option<Element<'a, Message>> {
    let asked = asked(facts, platform).filter(|a| a.attempt > 1)?;
    let mut list = Row::new().spacing(6).align_y(alignment::Vertical::Center);
    // Somebody else may be up by now: whose load it is stands out.
    let whose = format!("Lot {}, the next load:", asked.number);
    list = list.push(text(whose).size(size::BODY).font(font::BOLD));
    let filled_in = suggestion(facts, platform)
        .and_then(|meaning| load_asked(facts, meaning.command()?));
    if let Some(load) = &filled_in {
        list = list.push(chip("Enter", load, None, false));
    }
    list = list.push(text("Shift+").size(size::SMALL));
    for n in 1..=RISES {
        let Ok(command) = rise_by_key(facts, platform, n) else {
            continue;
        };
        let Some(load) = load_asked(facts, &command) else {
            continue;
        };
        if Some(&load) != filled_in.as_ref() {
            let key = format!("F{n}");
            list = list.push(chip(&key, &load, Some(Action::Rise(n)), false));
        }
    }
    Some(list.wrap().vertical_spacing(4).into())
}

/// The load that a request is for, in words.
fn load_asked(facts: &Facts, command: &Command) -> Option<String> {
    let Command::Request { .. } = command else {
        return None;
    };
    load_of(facts, command).map(|mass| see::load(facts, mass))
}

/// The reasons that a key names, and what naming one does.
pub(super) fn reasons<'a>(facts: &Facts, platform: u8) -> Option<Element<'a, Message>> {
    let (what, codes) = reasons_by_key(facts, platform)?;
    let ruled = match what {
        ReasonFor::Given(_) => see::last_ruled(facts, platform).map(|(.., ruled)| ruled),
        ReasonFor::Red(_) => None,
    };
    let mut list = Row::new().spacing(5);
    for (n, code) in (1..).zip(&codes) {
        let named =
            ruled.is_some_and(|ruled| ruled.fact.faults.iter().any(|f| f.code == *code));
        let words = code.replace('-', " ");
        let key = n.to_string();
        list = list.push(chip(&key, &words, Some(Action::Reason(n)), named));
    }
    Some(list.wrap().vertical_spacing(3).into())
}

fn chip<'a>(
    key: &str,
    words: &str,
    action: Option<Action>,
    named: bool,
) -> Element<'a, Message> {
    let weight = if named { font::BOLD } else { font::REGULAR };
    let label = row![
        text(key.to_owned()).size(size::SMALL - 2.0),
        text(words.to_owned()).size(size::SMALL).font(weight),
    ]
    .spacing(5)
    .align_y(alignment::Vertical::Center);
    button(label)
        .padding([1, 6])
        .style(if named {
            theme::button::tab_in_hand
        } else {
            theme::button::plain
        })
        .on_press(action.map_or(Message::Entered, Message::Pressed))
        .into()
}
