//! What the journal screen shows.

use iced::widget::{Column, column, container, row, text, text_input};
use iced::{Element, Fill, alignment};

use super::filter::Filter;
use super::read::{Line, read_line};
use super::{Armed, CHANGES, FIELD, Journal, Message};
use crate::day::{Day, Facts};
use crate::desk::see;
use crate::desk::tell::{self, Fate};
use crate::desk::theme::{self, size};
use crate::desk::widget::field::steady;
use crate::desk::widget::lamp::{cell, heading, heavy};
use crate::desk::widget::{list, next};

/// How many letters of an act a line has room for, about.
const ROOM: usize = 110;

/// How many letters of an act there is room for beside what became of it.
fn room(fate: Option<&String>) -> usize {
    ROOM - fate.map_or(0, |words| words.chars().count().min(ROOM / 2))
}

impl Journal {
    /// Shows the screen.
    pub fn view<'a>(&'a self, day: &'a Day) -> Element<'a, Message> {
        let acts = self.acts(day);
        let total = acts.len();
        let facts = day.facts();
        let words = self.filter(facts).words(facts);
        let title = match total {
            1 => format!("1 {}", words.replacen("acts", "act", 1)),
            _ => format!("{total} {words}, newest first"),
        };
        let head = row![
            cell("Time", 84, size::SMALL, false, false),
            cell("Where", 110, size::SMALL, false, false),
            cell("By", 190, size::SMALL, false, false),
            cell("What", Fill, size::SMALL, false, false),
        ]
        .padding([0, 6]);
        let fates = tell::fates(day);
        let rows = list::view(total, self.cursor, move |at| {
            match acts.get(at).and_then(|act| Self::shown(day, *act)) {
                Some(act) => self.row(at, &act, fates.get(&act.act)),
                None => text("").into(),
            }
        });
        let (said, warning) = match &self.said {
            Some(Ok(sentence)) => (sentence.clone(), false),
            Some(Err(sentence)) => (sentence.clone(), true),
            None => (self.promise(facts, self.cut_off(day)), false),
        };
        let field = text_input("", &self.line)
            .id(FIELD)
            .on_input(Message::Typed)
            .on_submit(Message::Entered)
            .size(size::LARGE)
            .padding([6, 10])
            .style(theme::field::plain);
        let under = text(said).size(size::BODY).style(if warning {
            theme::text::warning
        } else {
            theme::text::promise
        });
        container(
            column![
                next::line(facts),
                heading(title),
                head,
                heavy(2.0),
                // In one place, so that the field keeps its own in the tree of widgets, and
                // with it the keyboard.
                column![rows]
                    .push(self.armed.as_ref().filter(|a| !a.changes.is_empty()).map(changes))
                    .spacing(4),
            ]
            .push(heading(
                "To see fewer: 12, on 2, lights. For the act in hand: annul and why; or what it \
                 should have said, such as load=85, or rrw press-out; why=film",
            ))
            .push(steady(field))
            .push(container(under).padding([0, 2]))
            .spacing(4),
        )
        .padding([8, 14])
        .into()
    }

    /// The act in hand in full, where its line has no room for it.
    fn cut_off(&self, day: &Day) -> Option<String> {
        let act = Self::shown(day, *self.acts(day).get(self.cursor)?)?;
        let fate = tell::fates(day).get(&act.act).map(Fate::words);
        if act.words.chars().count() <= room(fate.as_ref()) {
            return None;
        }
        Some(match fate {
            Some(fate) => format!("{}; {fate}", act.words),
            None => act.words,
        })
    }

    fn promise(&self, facts: &Facts, cut_off: Option<String>) -> String {
        match (read_line(&self.line, facts), cut_off) {
            (Line::Empty, Some(words)) => format!("{}.", see::capital(&words)),
            (line, _) => self.promise_of(line, facts),
        }
    }

    fn promise_of(&self, line: Line, facts: &Facts) -> String {
        match line {
            Line::Empty => {
                let kept = if self.kept == Filter::default() {
                    String::new()
                } else {
                    " Esc shows all acts.".to_owned()
                };
                format!(
                    "Up and Down choose an act; Ctrl+D shows what annulling it would \
                     change.{kept}"
                )
            }
            Line::Filter(filter) => format!(
                "Shows only {}; Enter keeps that, Esc shows all.",
                filter.words(facts)
            ),
            Line::Annul(_) => {
                "Enter shows what annulling the act in hand would change.".to_owned()
            }
            Line::Correct { .. } | Line::Lights(_) => {
                "Enter shows what correcting the act in hand would change.".to_owned()
            }
            Line::Wrong(sentence) => sentence,
        }
    }

    fn row<'a>(
        &self,
        at: usize,
        act: &super::Act,
        fate: Option<&Fate>,
    ) -> Element<'a, Message> {
        let in_hand = at == self.cursor;
        let fate = fate.map(Fate::words);
        let words = &act.words;
        let what = text(match words.char_indices().nth(room(fate.as_ref())) {
            Some((end, _)) => format!("{}…", words[..end].trim_end()),
            None => words.clone(),
        })
        .size(size::BODY)
        .wrapping(text::Wrapping::None)
        .style(if act.stands {
            |_: &iced::Theme| text::Style::default()
        } else {
            theme::text::muted
        });
        let line = row![
            cell(act.time.clone(), 84, size::BODY, in_hand, false),
            cell(act.place.clone(), 110, size::BODY, false, false),
            cell(act.hand.clone(), 190, size::BODY, false, false),
            container(what).width(Fill).clip(true),
        ]
        .push(fate.map(|words| {
            let words = text(words).size(size::SMALL).wrapping(text::Wrapping::None);
            container(words).padding([0, 8])
        }))
        .align_y(alignment::Vertical::Center)
        .height(size::ROW - 2.0);
        list::pickable(line, in_hand, Message::Picked(at))
    }
}

/// What would change, a page of it, a line each.
fn changes<'a>(armed: &Armed) -> Element<'a, Message> {
    let n = armed.changes.len();
    let shown = armed.changes.iter().skip(armed.from).take(CHANGES);
    let last = armed.from + shown.len();
    let head = if n > CHANGES {
        format!(
            "What would change, {} to {last} of {n}; PageDown and PageUp show the others",
            armed.from + 1
        )
    } else {
        "What would change".to_owned()
    };
    let lines = shown.map(|change| {
        text(format!("{}.", see::capital(change)))
            .size(size::BODY)
            .into()
    });
    container(column![heading(head), Column::with_children(lines).spacing(2)].spacing(3))
        .padding([6, 10])
        .width(Fill)
        .max_height(230.0)
        .clip(true)
        .style(theme::container::in_hand)
        .into()
}
