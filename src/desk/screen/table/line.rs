//! The call line on the screen: the field, what Enter would do, the answer,
//! and the keys that are used most.

use iced::widget::{Row, button, column, container, text, text_input};
use iced::{Element, Fill};

use super::{CALL_LINE, Message, Table};
use crate::day::Facts;
use crate::desk::action::{Action, label};
use crate::desk::font;
use crate::desk::screen::ScreenId;
use crate::desk::theme::{self, size};
use crate::desk::widget::aside::aside;
use crate::desk::widget::lamp::heading;
use crate::rules::Queue;

impl Table {
    /// The call line, what Enter would do, the answer, and the keys.
    pub(super) fn call_line<'a>(&'a self, facts: &Facts) -> Element<'a, Message> {
        let field = text_input("", &self.line)
            .id(CALL_LINE)
            .on_input(Message::Typed)
            .on_submit(Message::Entered)
            .size(size::TITLE)
            .font(font::BOLD)
            .padding([6, 10])
            .style(theme::field::plain);
        let promise = match self.promise() {
            Some(Ok(sentence)) => {
                text(format!("Enter: {sentence}")).style(theme::text::promise)
            }
            Some(Err(sentence)) => {
                let shown = text(sentence.clone());
                if self.has_draft() {
                    shown.style(theme::text::warning)
                } else {
                    shown
                }
            }
            None => text(""),
        };
        let answer = match self.answer() {
            Some(Ok(sentence)) => text(sentence.clone()).font(font::BOLD),
            Some(Err(sentence)) => refused(sentence),
            None => text(""),
        };
        // What Tab would write stands under what Enter would do.
        let finish = self.to_finish().map(|line| {
            let line = line.to_owned();
            text(format!("Tab: {line}"))
                .size(size::BODY)
                .style(theme::text::muted)
        });
        // A refusal is said once, right under the line that it is about.
        let (promise, answer, alone) = match (self.promise(), self.answer()) {
            (Some(Err(foreseen)), Some(Err(said))) if foreseen == said => {
                (refused(said), text(""), true)
            }
            (_, None) => (promise, answer, true),
            _ => (promise, answer, false),
        };
        let buttons = [
            Action::CallOrClock,
            Action::AllWhite,
            Action::AllRed,
            Action::Undo,
            Action::Show(ScreenId::Cards),
            Action::HallBoard,
        ];
        let mut bar = Row::new().spacing(6);
        let leave = (facts.rules.queue == Queue::Advice).then_some(Action::Extra);
        for action in buttons.into_iter().chain(leave) {
            bar = bar.push(press(short(action, facts.rules.judges), action));
        }
        // What an undo would take back is read from where the promise is; only a
        // long answer is set smaller.
        let letters = match self.answer() {
            Some(Ok(said) | Err(said)) => said.chars().count(),
            None => 0,
        };
        let answer_size = match letters {
            0..=130 => size::LARGE,
            _ => size::BODY,
        };
        // What Enter would do keeps its place; a long refusal takes all the room.
        let said: Element<'a, Message> = if alone {
            column![promise.size(size::LARGE).width(Fill)]
                .push(finish)
                .into()
        } else {
            column![
                container(promise.size(size::LARGE).width(Fill))
                    .height(54)
                    .clip(true),
                answer.size(answer_size).width(Fill),
            ]
            .spacing(3)
            .into()
        };
        column![
            heading("Call line"),
            aside(field),
            container(said).height(112).clip(true),
            bar.wrap().vertical_spacing(4),
        ]
        .spacing(3)
        .into()
    }
}

fn refused<'a>(sentence: &str) -> text::Text<'a, iced::Theme> {
    text(format!("Refused. {sentence}"))
        .font(font::BOLD)
        .style(theme::text::warning)
}

fn short(action: Action, judges: u8) -> String {
    match action {
        Action::AllWhite if judges == 1 => "Ctrl+G White".to_owned(),
        Action::AllRed if judges == 1 => "Ctrl+R Red".to_owned(),
        Action::CallOrClock => "F10 Call, clock".to_owned(),
        Action::AllWhite => "Ctrl+G All white".to_owned(),
        Action::AllRed => "Ctrl+R All red".to_owned(),
        Action::Undo => "Ctrl+Z Undo".to_owned(),
        Action::Extra => "Ctrl+E One more".to_owned(),
        Action::Show(ScreenId::Cards) => "Ctrl+K Cards".to_owned(),
        other => label(other),
    }
}

/// A button of the table screen, with its key and a word.
pub(super) fn press<'a>(words: String, action: Action) -> Element<'a, Message> {
    button(text(words).size(size::SMALL))
        .padding([4, 8])
        .style(theme::button::plain)
        .on_press(Message::Pressed(action))
        .into()
}
