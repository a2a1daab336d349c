//! The journal: acts, newest first; annul or correct one with a preview.

mod view;

use iced::Task;
use iced::keyboard::key::Named;
use iced::widget::Id;

use super::Out;
use crate::day::{Command, Context, CorrectionOf, Day};
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

/// What the line says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Line {
    /// Only acts about this table number.
    Filter(u16),
    /// Nothing typed.
    Empty,
    /// Annul the act in hand, with a reason.
    Annul(String),
    /// Correct the act in hand.
    Correct(Vec<(String, String)>),
    /// Not understood; the sentence.
    Wrong(String),
}

/// The state of the journal screen.
#[derive(Debug, Clone, Default)]
pub struct Journal {
    line: String,
    filter: Option<u16>,
    cursor: usize,
    /// What was previewed; Enter again enters it.
    armed: Option<Command>,
    said: Option<Result<String, String>>,
}

/// Reads what is typed into the journal's line.
pub fn read_line(text: &str) -> Line {
    let text = text.trim();
    if text.is_empty() {
        return Line::Empty;
    }
    if let Ok(number) = text.parse::<u16>() {
        return Line::Filter(number);
    }
    let (word, rest) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    if word.eq_ignore_ascii_case("annul") {
        return Line::Annul(rest.trim().to_owned());
    }
    let text = if word.eq_ignore_ascii_case("correct") {
        rest.trim()
    } else {
        text
    };
    let pairs: Option<Vec<(String, String)>> = text
        .split(';')
        .map(str::trim)
        .filter(|p| !p.is_empty())
        .map(|p| {
            let (key, value) = p.split_once('=')?;
            Some((key.trim().to_lowercase(), value.trim().to_owned()))
        })
        .collect();
    match pairs {
        Some(pairs) if !pairs.is_empty() => Line::Correct(pairs),
        _ => Line::Wrong(format!(
            "“{text}” is not understood; write a table number to see only its acts, annul and \
             a reason, or what the act should have said: load=85; ruling=good."
        )),
    }
}

impl Journal {
    /// All acts, the newest in hand.
    pub fn new() -> Self {
        Self::default()
    }

    /// Whether something is typed that isn't entered.
    pub fn has_draft(&self) -> bool {
        !self.line.trim().is_empty()
    }

    /// Drops what is typed, the preview and the filter.
    pub fn clear(&mut self) {
        *self = Self::default();
    }

    /// Gives the keyboard to the line.
    pub fn focus<M: Send + 'static>(&self) -> Task<M> {
        iced::widget::operation::focus(Id::new(FIELD))
    }

    /// The acts that are listed, newest first.
    pub fn acts(&self, day: &Day) -> Vec<u64> {
        let facts = day.facts();
        let wanted = self.filter.and_then(|n| facts.numbers.get(&n)).copied();
        let mut acts: Vec<u64> = day
            .journal()
            .iter()
            .filter(|r| {
                self.filter.is_none()
                    || (wanted.is_some() && tell::entry_of(&r.event) == wanted)
            })
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
            words: tell::act(day, act),
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
                self.line = text;
                self.armed = None;
                self.said = None;
                if let Line::Filter(number) = read_line(&self.line) {
                    self.filter = Some(number);
                    self.cursor = 0;
                } else if self.line.trim().is_empty() {
                    self.filter = None;
                }
                None
            }
            Message::Picked(at) => {
                self.cursor = at;
                self.disarm();
                None
            }
            Message::Moved(by) => {
                self.cursor = list::moved(self.cursor, by, self.acts(day).len());
                self.disarm();
                None
            }
            Message::Entered => self.entered(day, context),
        }
    }

    fn disarm(&mut self) {
        self.armed = None;
        self.said = None;
    }

    fn entered(&mut self, day: &Day, context: &Context) -> Option<Out> {
        if let Some(command) = self.armed.take() {
            return Some(Out::Submit(command));
        }
        let act = self.in_hand(day)?;
        let command = match read_line(&self.line) {
            Line::Empty | Line::Filter(_) => return None,
            Line::Wrong(sentence) => {
                self.said = Some(Err(sentence));
                return None;
            }
            Line::Annul(reason) => Command::Annul { act, reason },
            Line::Correct(values) => Command::Correct {
                of: CorrectionOf::Act { act, values },
                reason: String::new(),
            },
        };
        self.preview(command, day, context);
        None
    }

    /// Annuls the act in hand: the first time shows what would change.
    pub fn annul(&mut self, day: &Day, context: &Context) -> Option<Out> {
        if let Some(command @ Command::Annul { .. }) = &self.armed {
            let command = command.clone();
            self.armed = None;
            return Some(Out::Submit(command));
        }
        let act = self.in_hand(day)?;
        let reason = match read_line(&self.line) {
            Line::Annul(reason) => reason,
            _ => String::new(),
        };
        self.preview(Command::Annul { act, reason }, day, context);
        None
    }

    fn preview(&mut self, command: Command, day: &Day, context: &Context) {
        match tell::changes(day, &command, context) {
            Ok(sentence) => {
                let again = match &command {
                    Command::Annul { act, .. } => format!(
                        "Annuls: {}. {sentence} Ctrl+D or Enter again does it.",
                        tell::act(day, *act)
                    ),
                    _ => format!("{sentence} Enter again does it."),
                };
                self.said = Some(Ok(again));
                self.armed = Some(command);
            }
            Err(sentence) => {
                self.armed = None;
                self.said = Some(Err(sentence));
            }
        }
    }

    /// The answer to what was submitted: a refusal keeps the text.
    pub fn answered(&mut self, answer: Result<(), String>) {
        self.said = Some(match answer {
            Ok(()) => {
                self.line.clear();
                self.filter = None;
                Ok("Entered.".to_owned())
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
