//! The journal: acts, newest first; annul or correct one with a preview of
//! all that would change.

mod filter;
mod mend;
mod read;
#[cfg(test)]
mod tests;
mod view;

use iced::Task;
use iced::keyboard::key::Named;
use iced::widget::Id;

use filter::Filter;
use mend::Armed;
use read::{Line, parted, read_line};

use super::Out;
use crate::day::{Command, Context, Day, Facts};
use crate::desk::keys::Press;
use crate::desk::tell;
use crate::desk::widget::list;

/// The name of the journal's text field.
pub const FIELD: &str = "journal-line";

/// What happens on the journal screen.
#[derive(Debug, Clone)]
pub enum Message {
    /// The line was typed into.
    Typed(String),
    /// Enter on the line.
    Entered,
    /// An act was clicked.
    Picked(usize),
    /// The cursor moves.
    Moved(i32),
}

/// One act in the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Act {
    /// The place of its first event.
    pub act: u64,
    /// When, who, where and what, in words.
    pub time: String,
    /// The hand.
    pub hand: String,
    /// The platform's label, or nothing.
    pub place: String,
    /// What.
    pub words: String,
    /// Whether it stands.
    pub stands: bool,
}

/// The state of the journal screen.
#[derive(Debug, Clone, Default)]
pub struct Journal {
    line: String,
    /// What was kept of filters by Enter.
    kept: Filter,
    cursor: usize,
    /// The act that was chosen, however the list changes while something is
    /// typed; the newest where none was.
    chosen: Option<u64>,
    armed: Option<Armed>,
    said: Option<Result<String, String>>,
    /// What was submitted, in words.
    sent: Option<String>,
}

/// How many changes of a preview are shown at once.
const CHANGES: usize = 7;

/// What is typed into the journal's line, for the help sheet.
pub const SHORTHAND: &[(&str, &str)] = &[
    (
        "12, on 2, lights",
        "only acts about lot 12, on platform 2, of that act; also together; Enter keeps it",
    ),
    ("only annul", "only annulments; all acts have their word"),
    (
        "annul why",
        "annuls the act in hand; first shows what changes",
    ),
    (
        "load=85; ruling=no",
        "corrects the act in hand; bodyweight=61.4; reason=why",
    ),
    (
        "rrr press-out; why=film",
        "corrects the lights, the reasons, or either alone; why, or without it",
    ),
    (
        "PageDown, PageUp",
        "on in the list, or in what would change",
    ),
];

impl Journal {
    /// All acts, the newest in hand.
    pub fn new() -> Self {
        Self::default()
    }

    /// Whether something is typed that isn't entered.
    pub fn has_draft(&self) -> bool {
        !self.line.trim().is_empty()
    }

    /// Drops what is typed and the preview, the chosen act stays; where nothing
    /// is typed, the filter.
    pub fn clear(&mut self, day: &Day) {
        if self.has_draft() || self.armed.is_some() {
            self.line.clear();
            self.disarm();
            self.settle(day);
        } else {
            *self = Self::default();
        }
    }

    /// Gives the keyboard to the line.
    pub fn focus<M: Send + 'static>(&self) -> Task<M> {
        iced::widget::operation::focus(Id::new(FIELD))
    }

    /// The screen is shown again: the chosen act is in hand, whatever was entered
    /// meanwhile.
    pub fn shown_again(&mut self, day: &Day) {
        if self.chosen.is_some() {
            self.settle(day);
        }
    }

    /// What is listed: what is typed, else what was kept.
    fn filter(&self, facts: &Facts) -> Filter {
        match read_line(&parted(&self.line).0, facts) {
            Line::Filter(filter) => filter,
            _ => self.kept.clone(),
        }
    }

    /// The acts that are listed, newest first.
    pub fn acts(&self, day: &Day) -> Vec<u64> {
        let filter = self.filter(day.facts());
        let all = filter == Filter::default();
        let mut acts: Vec<u64> = day
            .journal()
            .iter()
            .filter(|r| all || filter.takes(day, r))
            .map(|r| r.act)
            .collect();
        acts.dedup();
        acts.reverse();
        acts
    }

    /// An act as it is listed.
    pub fn shown(day: &Day, act: u64) -> Option<Act> {
        let first = day.recorded(act)?;
        Some(Act {
            act,
            time: first.at.local().format("%H:%M:%S").to_string(),
            hand: first.hand.clone(),
            place: first
                .platform
                .map(|p| day.facts().platform_label(p))
                .unwrap_or_default(),
            words: tell::act_in_full(day, act),
            stands: day.stands_now(act),
        })
    }

    fn in_hand(&self, day: &Day) -> Option<u64> {
        self.acts(day).get(self.cursor).copied()
    }

    /// Takes a message.
    pub fn update(
        &mut self,
        message: Message,
        day: &Day,
        context: &Context,
    ) -> Option<Out> {
        match message {
            Message::Typed(text) => {
                let before = self.filter(day.facts());
                self.line = text;
                self.disarm();
                if self.filter(day.facts()) != before {
                    self.settle(day);
                }
                None
            }
            Message::Picked(at) => {
                self.cursor = at;
                self.chosen = self.in_hand(day);
                self.disarm();
                None
            }
            Message::Moved(by) if by.abs() > 1 && self.pages() => {
                self.turn_page(by > 0);
                None
            }
            Message::Moved(by) => {
                self.cursor = list::moved(self.cursor, by, self.acts(day).len());
                self.chosen = self.in_hand(day);
                self.disarm();
                None
            }
            Message::Entered => self.entered(day, context),
        }
    }

    /// Keeps the chosen act in hand where it is listed, else the newest.
    fn settle(&mut self, day: &Day) {
        let acts = self.acts(day);
        let at = self
            .chosen
            .and_then(|act| acts.iter().position(|a| *a == act));
        self.cursor = at.unwrap_or(0);
    }

    fn disarm(&mut self) {
        self.armed = None;
        self.said = None;
    }

    /// Whether a preview is longer than what is shown of it.
    fn pages(&self) -> bool {
        let armed = self.armed.as_ref();
        armed.is_some_and(|armed| armed.changes.len() > CHANGES)
    }

    /// On or back in what would change.
    fn turn_page(&mut self, on: bool) {
        let Some(armed) = &mut self.armed else { return };
        let next = armed.from + CHANGES;
        if !on {
            armed.from = armed.from.saturating_sub(CHANGES);
        } else if next < armed.changes.len() {
            armed.from = next;
        }
    }

    fn entered(&mut self, day: &Day, context: &Context) -> Option<Out> {
        if let Some(armed) = self.armed.take() {
            return Some(self.enter(armed));
        }
        let (text, why) = parted(&self.line);
        let line = read_line(&text, day.facts());
        if let Line::Filter(filter) = line {
            self.kept = filter;
            self.line.clear();
            return None;
        }
        let act = self.in_hand(day)?;
        self.chosen = Some(act);
        match mend::command(day, act, line, &text, &why) {
            Ok(None) => {}
            Ok(Some(command)) => self.preview(command, day, context),
            Err(sentence) => self.said = Some(Err(sentence)),
        }
        None
    }

    fn enter(&mut self, armed: Armed) -> Out {
        let (out, does) = armed.out();
        self.sent = Some(does);
        out
    }

    /// Annuls the act in hand: the first time shows what would change.
    pub fn annul(&mut self, day: &Day, context: &Context) -> Option<Out> {
        let again = self
            .armed
            .take_if(|a| matches!(a.command, Command::Annul { .. }));
        if let Some(armed) = again {
            return Some(self.enter(armed));
        }
        let act = self.in_hand(day)?;
        self.chosen = Some(act);
        let reason = match read_line(&self.line, day.facts()) {
            Line::Annul(reason) => reason,
            _ => String::new(),
        };
        self.preview(Command::Annul { act, reason }, day, context);
        None
    }

    fn preview(&mut self, command: Command, day: &Day, context: &Context) {
        match Armed::new(command, day, context) {
            Ok(armed) => {
                let none = if armed.changes.is_empty() {
                    " No best, total, place, queue or record changes."
                } else {
                    ""
                };
                let again = match armed.command {
                    Command::Annul { .. } => "Ctrl+D or Enter",
                    _ => "Enter",
                };
                let does = &armed.does;
                self.said = Some(Ok(format!("{does}{none} {again} again does it.")));
                self.armed = Some(armed);
            }
            Err(sentence) => {
                self.armed = None;
                self.said = Some(Err(sentence));
            }
        }
    }

    /// The answer to what was submitted: a refusal keeps the text; the chosen act
    /// stays in hand.
    pub fn answered(&mut self, answer: Result<(), String>, day: &Day) {
        let sent = self.sent.take();
        self.said = Some(match answer {
            Ok(()) => {
                self.line.clear();
                self.settle(day);
                Ok(format!("Entered: {}", sent.unwrap_or_default()))
            }
            Err(sentence) => Err(sentence),
        });
    }

    /// The message of a key that the line has not taken.
    pub fn key(&self, press: &Press) -> Option<Message> {
        if press.is(Named::Enter) {
            return Some(Message::Entered);
        }
        let by = [
            (Named::ArrowUp, -1),
            (Named::ArrowDown, 1),
            (Named::PageUp, -15),
            (Named::PageDown, 15),
        ];
        if let Some((_, by)) = by.iter().find(|(named, _)| press.is(*named)) {
            return Some(Message::Moved(*by));
        }
        press
            .typed()
            .map(|typed| Message::Typed(format!("{}{typed}", self.line)))
    }
}
