//! Settings of the day: a plain list, filled in by the keyboard.

mod fields;
#[cfg(test)]
mod tests;

use std::path::PathBuf;

use iced::widget::{column, container};
use iced::{Element, Padding, Task};

use fields::{BOOK, FIND, WRITE_BOOK};

use super::{Backup, Out};
use crate::day::{Command, Facts};
use crate::desk::effects::BackupsTold;
use crate::desk::keys::Press;
use crate::desk::widget::form::{self, Field, Form};
use crate::desk::widget::{next, report};

const FIELD: &str = "day-field";

/// What happens on the day screen.
#[derive(Debug, Clone)]
pub enum Message {
    /// Something in the list.
    Form(form::Message),
    /// The report on a record book was read.
    ReportRead,
}

/// What is asked about the record book.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Book {
    /// Take in this file.
    Import(PathBuf),
    /// Write it.
    Write,
}

/// The state of the day screen.
#[derive(Debug, Clone, Default)]
pub struct DayScreen {
    form: Form,
    /// The word that is looked for among the rules.
    find: String,
    /// What is known of the backups.
    backups: BackupsTold,
    book: Option<Book>,
    report: Option<Result<String, String>>,
}

impl DayScreen {
    /// At the first setting.
    pub fn new() -> Self {
        Self::default()
    }

    /// Takes what is known of the backups.
    pub fn know(&mut self, backups: BackupsTold) {
        self.backups = backups;
    }

    /// Whether something is typed that isn't entered.
    pub const fn has_draft(&self) -> bool {
        self.form.has_draft()
    }

    /// Closes a report, then drops what is typed, then what is looked for.
    pub fn clear(&mut self) {
        if self.report.take().is_some() {
            return;
        }
        if !self.has_draft() && !self.find.is_empty() {
            self.find.clear();
            self.form.go(0);
        }
        self.form.clear();
    }

    /// Gives the keyboard to the setting in hand.
    pub fn focus<M: Send + 'static>(&self) -> Task<M> {
        Form::focus(FIELD)
    }

    /// Takes a message.
    pub fn update(&mut self, message: Message, facts: &Facts) -> Option<Out> {
        let Message::Form(message) = message else {
            self.report = None;
            return None;
        };
        let fields = self.fields(facts);
        let ask = self.form.update(message, &fields)?;
        match &ask {
            form::Ask::Change(key, path) if key == BOOK => {
                let path = path.trim_matches('"');
                if path.is_empty() {
                    self.form.clear();
                } else {
                    self.book = Some(Book::Import(PathBuf::from(path)));
                }
                return None;
            }
            form::Ask::Press(key) if key == WRITE_BOOK => {
                self.book = Some(Book::Write);
                return None;
            }
            _ => {}
        }
        if let form::Ask::Change(key, word) = &ask
            && key == FIND
        {
            self.find.clone_from(word);
            // Stays on the field, so that another word can be looked for.
            let fields = self.fields(facts);
            let at = fields.iter().position(|f| f.key == FIND);
            self.form.go(at.unwrap_or_default());
            return None;
        }
        Some(backup(&ask).map_or_else(|| Out::Submit(command(ask)), Out::Backup))
    }

    fn fields(&self, facts: &Facts) -> Vec<Field> {
        fields::fields(facts, &self.find, &self.backups)
    }

    /// The setting in hand: its key and what it says.
    pub fn in_hand(&self, facts: &Facts) -> Option<(String, String)> {
        let mut fields = self.fields(facts);
        let at = self.form.settled(&fields);
        (at < fields.len()).then(|| {
            let field = fields.swap_remove(at);
            (field.key, field.value)
        })
    }

    /// A record book was dropped on the window.
    pub fn dropped(&mut self, path: PathBuf) {
        self.book = Some(Book::Import(path));
    }

    /// What the shell is to do about the record book now, once.
    pub const fn take_book(&mut self) -> Option<Book> {
        self.book.take()
    }

    /// What came of taking in a record book: what came in, or why nothing did; several
    /// lines. What was typed stays where nothing did.
    pub fn imported(&mut self, report: Result<String, String>) {
        if report.is_ok() {
            self.form.clear();
        }
        self.report = Some(report);
    }

    /// The answer to what was submitted.
    pub fn answered(&mut self, answer: Result<(), String>, facts: &Facts) {
        let fields = self.fields(facts);
        self.form.answered(answer, &fields);
    }

    /// The message of a key that no text field has taken.
    pub fn key(&self, press: &Press, facts: &Facts) -> Option<Message> {
        self.form.key(press, &self.fields(facts)).map(Message::Form)
    }

    /// Shows the screen.
    pub fn view<'a>(&'a self, facts: &'a Facts) -> Element<'a, Message> {
        let list = self.form.view(self.fields(facts), FIELD).map(Message::Form);
        let report = self.report.as_ref().map(|report| {
            let panel = report::panel(report, Message::ReportRead);
            container(panel).padding(Padding::ZERO.bottom(6))
        });
        let page = column![next::line(facts)].push(report).push(list);
        container(page.max_width(1100)).padding([8, 14]).into()
    }
}

/// What is asked about backups, if it is about them.
fn backup(ask: &form::Ask) -> Option<Backup> {
    match ask {
        form::Ask::Press(key) => (key == "backup.now").then_some(Backup::Now),
        form::Ask::Change(key, word) => match key.as_str() {
            "backup.folder" => Some(Backup::Into(word.clone())),
            "backup.restore" => Some(Backup::Restore(match word.trim() {
                "last" => String::new(),
                file => file.to_owned(),
            })),
            _ => None,
        },
    }
}

/// What a change or a press comes to.
fn command(ask: form::Ask) -> Command {
    match ask {
        form::Ask::Press(key) => Command::Close {
            session: key.strip_prefix("close/").map(str::to_owned),
        },
        form::Ask::Change(key, value) => {
            if let Some(session) = key.strip_prefix("reopen/") {
                return Command::Reopen {
                    session: Some(session.to_owned()),
                    reason: value,
                };
            }
            if key == "reopen" {
                return Command::Reopen {
                    session: None,
                    reason: value,
                };
            }
            if key == "session" {
                let (name, plan) = value
                    .split_once(char::is_whitespace)
                    .unwrap_or((value.as_str(), ""));
                return Command::Set(vec![(
                    format!("session.{name}"),
                    plan.trim().to_owned(),
                )]);
            }
            Command::Set(vec![(key, value)])
        }
    }
}
