//! The table: run a platform from one line of text.
//!
//! Shows a volunteer no bodyweight and no health detail.

mod elsewhere;
mod line;
mod queue;
mod quick;
mod view;

use iced::Task;
use iced::keyboard::key::Named;
use iced::widget::Id;

use super::Out;
use crate::day::{
    Command, Context, Day, Event, Facts, Ruling, Stamp, Which, decide, show_left,
};
use crate::desk::action::Action;
use crate::desk::call_line::{Meaning, finished, read};
use crate::desk::keys::Press;

/// The name of the call line's text field.
pub const CALL_LINE: &str = "call-line";

/// An empty line is not taken for so long after the last Enter, in
/// milliseconds, so that a key held down calls nobody.
const PAUSE: i64 = 700;

/// How many lines are kept to be shown again.
const HISTORY: usize = 100;

/// What happens on the table screen.
#[derive(Debug, Clone)]
pub enum Message {
    /// The call line was typed into.
    Typed(String),
    /// Enter on the call line.
    Entered,
    /// The line that was entered before.
    Older,
    /// The line that was entered after.
    Newer,
    /// A name or remark is to be finished; the next time by another.
    Finished,
    /// A button was pressed.
    Pressed(Action),
}

/// What the table asks of the shell.
#[derive(Debug, Clone, PartialEq)]
pub enum Ask {
    /// As any screen.
    Out(Out),
    /// An action of the table of actions.
    Act(Action),
}

/// The state of the table screen.
#[derive(Debug, Clone, Default)]
pub struct Table {
    line: String,
    /// What Enter would do, or why it can do nothing.
    promise: Option<Result<String, String>>,
    /// The answer to what was entered last.
    answer: Option<Result<String, String>>,
    sent: Option<String>,
    /// What was entered, oldest first.
    history: Vec<String>,
    /// How far back in it the line is, and what was typed before.
    back: Option<(usize, String)>,
    /// What was typed before it was finished, and how many times it was.
    begun: Option<(String, usize)>,
    /// What finishing the line would make of it.
    finish: Option<String>,
    last_enter: Option<Stamp>,
    /// How many seconds the clock gets with the next call.
    clock_to_come: Option<u32>,
}

impl Table {
    /// An empty line.
    pub fn new() -> Self {
        Self::default()
    }

    /// What is typed.
    pub fn line(&self) -> &str {
        &self.line
    }

    /// Whether something is typed that isn't entered.
    pub fn has_draft(&self) -> bool {
        !self.line.trim().is_empty()
    }

    /// Drops what is typed.
    pub fn clear(&mut self) {
        self.line.clear();
        self.back = None;
        self.begun = None;
        self.answer = None;
    }

    /// Gives the keyboard to the call line.
    pub fn focus<M: Send + 'static>() -> Task<M> {
        Task::batch([
            iced::widget::operation::focus(Id::new(CALL_LINE)),
            iced::widget::operation::move_cursor_to_end(Id::new(CALL_LINE)),
        ])
    }

    /// Takes a message.
    pub fn update(
        &mut self,
        message: Message,
        day: &Day,
        platform: u8,
        now: Stamp,
    ) -> Option<Ask> {
        match message {
            Message::Typed(text) => {
                self.line = text;
                self.back = None;
                self.begun = None;
                self.answer = None;
                None
            }
            Message::Finished => {
                self.finish(day);
                None
            }
            Message::Older => {
                self.turn_back();
                None
            }
            Message::Newer => {
                self.turn_on();
                None
            }
            Message::Pressed(action) => Some(Ask::Act(action)),
            Message::Entered => self.entered(day, platform, now),
        }
    }

    /// Finishes a name or remark; the next time by the next that fits, at last
    /// what was typed again.
    fn finish(&mut self, day: &Day) {
        let (typed, times) = match self.begun.take() {
            Some(begun) => begun,
            None => (self.line.clone(), 0),
        };
        let all = finished(&typed, day);
        if all.is_empty() {
            return;
        }
        match all.get(times) {
            Some(line) => {
                self.line.clone_from(line);
                self.begun = Some((typed, times + 1));
            }
            None => self.line = typed,
        }
        self.back = None;
        self.answer = None;
    }

    /// What Tab would write, where a name or remark is begun.
    pub fn to_finish(&self) -> Option<&str> {
        self.finish.as_deref()
    }

    /// Shows the line that was entered before; what is typed isn't lost.
    fn turn_back(&mut self) {
        let (at, draft) = match self.back.take() {
            Some((at, draft)) => (at, draft),
            None => (self.history.len(), self.line.clone()),
        };
        let before = at.saturating_sub(1);
        if let Some(line) = self.history.get(before) {
            self.line.clone_from(line);
            self.answer = None;
            self.back = Some((before, draft));
        }
    }

    /// Shows the line that was entered after; at last what was typed.
    fn turn_on(&mut self) {
        let Some((at, draft)) = self.back.take() else {
            return;
        };
        self.answer = None;
        if let Some(line) = self.history.get(at + 1) {
            self.line.clone_from(line);
            self.back = Some((at + 1, draft));
        } else {
            self.line = draft;
        }
    }

    /// Keeps the line among those that were entered.
    fn remember(&mut self) {
        self.back = None;
        self.begun = None;
        let line = self.line.trim();
        if !line.is_empty() && self.history.last().is_none_or(|last| last != line) {
            self.history.push(line.to_owned());
        }
        if self.history.len() > HISTORY {
            let _ = self.history.remove(0);
        }
    }

    fn entered(&mut self, day: &Day, platform: u8, now: Stamp) -> Option<Ask> {
        let held = self
            .last_enter
            .is_some_and(|last| (0..PAUSE).contains(&now.since(last)));
        self.last_enter = Some(now);
        if !self.has_draft() && held {
            return None;
        }
        match read(&self.line, day.facts(), platform) {
            Ok(Meaning::Do { command, sentence }) => {
                self.sent = Some(sentence);
                Some(Ask::Out(Out::Submit(*command)))
            }
            Ok(Meaning::Know(sentence)) => {
                self.remember();
                self.line.clear();
                self.answer = Some(Ok(sentence));
                None
            }
            Ok(Meaning::Undo) => {
                self.line.clear();
                Some(Ask::Act(Action::Undo))
            }
            Ok(Meaning::Redo) => {
                self.line.clear();
                Some(Ask::Act(Action::Redo))
            }
            Err(sentence) => {
                self.answer = Some(Err(sentence));
                None
            }
        }
    }

    /// The answer to what was submitted: a refusal keeps the text.
    pub fn answered(&mut self, answer: Result<(), String>) {
        let sent = self.sent.take();
        match answer {
            Ok(()) => {
                self.remember();
                self.line.clear();
                self.answer = sent.map(|s| Ok(format!("Entered: {s}")));
            }
            Err(sentence) => self.answer = Some(Err(sentence)),
        }
    }

    /// Says something where the eye is.
    pub fn say(&mut self, said: Result<String, String>) {
        self.answer = Some(said);
    }

    /// The message of a key that the call line has not taken: what is typed
    /// goes into the line even where it had lost the keyboard.
    pub fn key(&self, press: &Press) -> Option<Message> {
        if press.is(Named::Enter) && !press.repeat {
            return Some(Message::Entered);
        }
        if press.is(Named::Tab) {
            return Some(Message::Finished);
        }
        if press.is(Named::ArrowUp) {
            return Some(Message::Older);
        }
        if press.is(Named::ArrowDown) {
            return Some(Message::Newer);
        }
        if press.is(Named::Backspace) {
            let mut text = self.line.clone();
            let _ = text.pop();
            return Some(Message::Typed(text));
        }
        let typed = if press.is(Named::Space) {
            Some(" ")
        } else {
            press.typed()
        };
        typed.map(|typed| Message::Typed(format!("{}{typed}", self.line)))
    }

    /// Works out again what Enter would do.
    ///
    /// Asks the rules too, so that a refusal is seen before Enter.
    pub fn foresee(&mut self, day: &Day, platform: u8, context: &Context) {
        let facts = day.facts();
        let fits = finished(&self.line, day);
        self.finish = match &self.begun {
            Some(_) => None,
            None => fits.into_iter().next(),
        };
        self.clock_to_come = clock_to_come(day, platform, context);
        self.promise = Some(match read(&self.line, facts, platform) {
            Err(_) if !self.has_draft() && time_is_up(facts, platform, context.at) => {
                Err(
                    "The time is up: type time, unless the bar was lifted in time."
                        .to_owned(),
                )
            }
            Err(sentence) => Err(sentence),
            Ok(Meaning::Do { command, sentence }) => {
                match decide(day, &command, context) {
                    Ok(decided) if ends_a_call(&decided.events) => Ok(format!(
                        "{sentence} The call ends: somebody else is first then."
                    )),
                    Ok(_) => Ok(with_time(sentence, &command, facts, platform, context)),
                    Err(refusal) => Err(refusal.to_string()),
                }
            }
            Ok(meaning) => Ok(meaning.sentence().to_owned()),
        });
    }

    /// What Enter would do, or why it can do nothing.
    pub const fn promise(&self) -> Option<&Result<String, String>> {
        self.promise.as_ref()
    }

    /// The answer to what was entered last.
    pub const fn answer(&self) -> Option<&Result<String, String>> {
        self.answer.as_ref()
    }
}

/// How many seconds the next call would give: somebody who lifts twice running
/// has more.
fn clock_to_come(day: &Day, platform: u8, context: &Context) -> Option<u32> {
    let call = Command::Call {
        which: Which::default(),
        load: None,
        platform: Some(platform),
    };
    let decided = decide(day, &call, context).ok()?;
    decided.events.iter().find_map(|event| match event {
        Event::Called { clock, .. } => *clock,
        _ => None,
    })
}

/// The sentence, and how much the clock still shows where the time is said to be up.
fn with_time(
    sentence: String,
    command: &Command,
    facts: &Facts,
    platform: u8,
    context: &Context,
) -> String {
    let Command::Lights { outcome, .. } = command else {
        return sentence;
    };
    let call = facts.platform(platform).and_then(|p| p.call.as_ref());
    let left = call.and_then(|c| c.clock).map(|c| c.left_at(context.at));
    match left.filter(|left| *left > 0) {
        Some(left) if outcome.ruling == Some(Ruling::Time) => {
            format!("{sentence} The clock still shows {}.", show_left(left))
        }
        _ => sentence,
    }
}

/// Whether somebody is called whose clock has run out.
fn time_is_up(facts: &Facts, platform: u8, now: Stamp) -> bool {
    let call = facts.platform(platform).and_then(|p| p.call.as_ref());
    call.and_then(|c| c.clock)
        .is_some_and(|clock| clock.left_at(now) <= 0)
}

/// Whether an act takes a call back because the order changes.
fn ends_a_call(events: &[Event]) -> bool {
    events
        .iter()
        .any(|event| matches!(event, Event::CallWithdrawn { .. }))
}
