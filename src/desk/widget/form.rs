//! A list of settings that is filled in by the keyboard, one field at a time.

use iced::keyboard::key::Named;
use iced::widget::{column, container, row, text, text_input};
use iced::{Element, Fill, Task, alignment};

use super::field::steady;
use super::list;
use crate::desk::font;
use crate::desk::keys::Press;
use crate::desk::theme::{self, size};

/// The height of what stands under the field in hand: three lines.
const HINT: f32 = 64.0;

/// How a field is filled in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Kind {
    /// By typing.
    Text,
    /// By choosing one of these with Left, Right or Space.
    Choice(Vec<String>),
    /// By pressing Enter on it.
    Press,
    /// Not at all: a heading.
    Heading,
    /// Not at all: a line to read.
    Note,
}

/// One field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Field {
    /// What it is called inside.
    pub key: String,
    /// What it is called on the screen.
    pub label: String,
    /// What it says now.
    pub value: String,
    /// What is allowed, or what it means.
    pub hint: String,
    /// What holds while it says nothing.
    pub blank: String,
    /// How it is filled in.
    pub kind: Kind,
}

impl Field {
    /// A field that is typed.
    pub fn text(key: &str, label: &str, value: impl Into<String>, hint: &str) -> Self {
        Self {
            key: key.to_owned(),
            label: label.to_owned(),
            value: value.into(),
            hint: hint.to_owned(),
            blank: String::new(),
            kind: Kind::Text,
        }
    }

    /// With what holds while it says nothing.
    pub fn or(self, blank: impl Into<String>) -> Self {
        Self {
            blank: blank.into(),
            ..self
        }
    }

    /// A field that is chosen.
    pub fn choice(key: &str, label: &str, value: impl Into<String>, of: &[&str]) -> Self {
        Self {
            kind: Kind::Choice(of.iter().map(|s| (*s).to_owned()).collect()),
            ..Self::text(key, label, value, "Left, Right or Space chooses.")
        }
    }

    /// A field that does something.
    pub fn press(key: &str, label: &str, hint: &str) -> Self {
        Self {
            kind: Kind::Press,
            ..Self::text(key, label, "", hint)
        }
    }

    /// A heading over the fields that follow.
    pub fn heading(label: &str) -> Self {
        Self {
            kind: Kind::Heading,
            ..Self::text("", label, "", "")
        }
    }

    /// A line that is only read.
    pub fn note(label: &str, value: impl Into<String>) -> Self {
        Self {
            kind: Kind::Note,
            ..Self::text("", label, value, "")
        }
    }
}

/// What happened to a form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Message {
    /// Something was typed into the field in hand.
    Typed(String),
    /// Enter.
    Entered,
    /// A field was clicked.
    Picked(usize),
    /// The cursor moves.
    Moved(i32),
    /// The next choice, or the one before.
    Turned(bool),
}

/// What a form asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Ask {
    /// A field should say this.
    Change(String, String),
    /// A field was pressed.
    Press(String),
}

/// The state of a form: what is in hand and what is typed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Form {
    cursor: usize,
    draft: Option<String>,
    refused: Option<String>,
}

impl Form {
    /// At the first field.
    pub fn new() -> Self {
        Self::default()
    }

    /// Which field is in hand.
    pub const fn cursor(&self) -> usize {
        self.cursor
    }

    /// Which field is in hand, once it is off headings.
    pub fn settled(&self, fields: &[Field]) -> usize {
        let mut settled = self.clone();
        settled.settle(fields, true);
        settled.cursor
    }

    /// Puts the cursor on a field.
    pub fn go(&mut self, cursor: usize) {
        self.cursor = cursor;
        self.draft = None;
    }

    /// Whether something is typed that isn't entered.
    pub const fn has_draft(&self) -> bool {
        self.draft.is_some()
    }

    /// Drops what is typed.
    pub fn clear(&mut self) {
        self.draft = None;
        self.refused = None;
    }

    /// Takes a message; returns what is asked for.
    pub fn update(&mut self, message: Message, fields: &[Field]) -> Option<Ask> {
        self.refused = None;
        self.settle(fields, true);
        match message {
            Message::Typed(text) => {
                self.draft = Some(text);
                None
            }
            Message::Picked(at) => self.leave(fields, |form| form.cursor = at),
            Message::Moved(by) => self.leave(fields, |form| {
                form.cursor = list::moved(form.cursor, by, fields.len());
                form.settle(fields, by >= 0);
            }),
            Message::Turned(forward) => self.turned(forward, fields),
            Message::Entered => {
                let field = fields.get(self.cursor)?;
                match &field.kind {
                    Kind::Press => Some(Ask::Press(field.key.clone())),
                    Kind::Text => {
                        let ask = self.change(field);
                        if ask.is_none() {
                            self.next(fields);
                        }
                        ask
                    }
                    Kind::Choice(_) | Kind::Heading | Kind::Note => {
                        self.next(fields);
                        None
                    }
                }
            }
        }
    }

    fn change(&self, field: &Field) -> Option<Ask> {
        let draft = self.draft.as_ref()?;
        (draft.trim() != field.value)
            .then(|| Ask::Change(field.key.clone(), draft.trim().to_owned()))
    }

    /// Leaves the field in hand; what was typed is asked for.
    fn leave(&mut self, fields: &[Field], go: impl FnOnce(&mut Self)) -> Option<Ask> {
        let ask = fields.get(self.cursor).and_then(|f| self.change(f));
        if ask.is_none() {
            self.draft = None;
            go(self);
        }
        ask
    }

    fn turned(&self, forward: bool, fields: &[Field]) -> Option<Ask> {
        let field = fields.get(self.cursor)?;
        let Kind::Choice(choices) = &field.kind else {
            return None;
        };
        let n = choices.len().max(1);
        let at = choices.iter().position(|c| *c == field.value).unwrap_or(0);
        let to = if forward { at + 1 } else { at + n - 1 } % n;
        Some(Ask::Change(field.key.clone(), choices.get(to)?.clone()))
    }

    fn next(&mut self, fields: &[Field]) {
        self.draft = None;
        self.cursor = list::moved(self.cursor, 1, fields.len());
        self.settle(fields, true);
    }

    /// Moves off headings and lines that are only read.
    fn settle(&mut self, fields: &[Field], forward: bool) {
        self.cursor = self.cursor.min(fields.len().saturating_sub(1));
        let heading = |at: usize| {
            fields
                .get(at)
                .is_some_and(|f| matches!(f.kind, Kind::Heading | Kind::Note))
        };
        let mut forward = forward;
        for _ in 0..fields.len() {
            if !heading(self.cursor) {
                return;
            }
            if self.cursor == 0 {
                forward = true;
            } else if self.cursor + 1 == fields.len() {
                forward = false;
            }
            self.cursor =
                list::moved(self.cursor, if forward { 1 } else { -1 }, fields.len());
        }
    }

    /// The answer to what was asked: a refusal keeps what is typed.
    pub fn answered(&mut self, answer: Result<(), String>, fields: &[Field]) {
        match answer {
            Ok(()) => {
                let typed = fields
                    .get(self.cursor)
                    .is_some_and(|f| f.kind == Kind::Text);
                self.refused = None;
                self.draft = None;
                if typed {
                    self.next(fields);
                }
            }
            Err(sentence) => self.refused = Some(sentence),
        }
    }

    /// What a click on the field in hand asks for, where it is only pressed.
    pub fn pressed(&self, picked: bool, fields: &[Field]) -> Option<Ask> {
        let field = fields.get(self.cursor).filter(|_| picked)?;
        (field.kind == Kind::Press).then(|| Ask::Press(field.key.clone()))
    }

    /// The message of a key that no text field has taken.
    pub fn key(&self, press: &Press, fields: &[Field]) -> Option<Message> {
        let chosen = matches!(
            fields.get(self.cursor).map(|f| &f.kind),
            Some(Kind::Choice(_))
        );
        if press.is(Named::ArrowUp) {
            return Some(Message::Moved(-1));
        }
        if press.is(Named::ArrowDown) {
            return Some(Message::Moved(1));
        }
        if press.is(Named::Tab) {
            return Some(Message::Moved(if press.modifiers.shift() { -1 } else { 1 }));
        }
        if press.is(Named::PageUp) {
            return Some(Message::Moved(-10));
        }
        if press.is(Named::PageDown) {
            return Some(Message::Moved(10));
        }
        if press.is(Named::Enter) {
            return Some(Message::Entered);
        }
        let space = press.is(Named::Space) || press.typed() == Some(" ");
        if chosen && (press.is(Named::ArrowRight) || space) {
            return Some(Message::Turned(true));
        }
        if chosen && press.is(Named::ArrowLeft) {
            return Some(Message::Turned(false));
        }
        // What is typed goes into the field in hand even where that had lost the
        // keyboard.
        let field = fields
            .get(self.cursor)
            .filter(|field| field.kind == Kind::Text)?;
        let mut text = self.draft.clone().unwrap_or_else(|| field.value.clone());
        if press.is(Named::Backspace) {
            let _ = text.pop();
        } else if press.is(Named::Space) {
            text.push(' ');
        } else {
            text.push_str(press.typed()?);
        }
        Some(Message::Typed(text))
    }

    /// Gives the keyboard to the field in hand.
    pub fn focus<M: Send + 'static>(id: &'static str) -> Task<M> {
        Task::batch([
            iced::widget::operation::focus(iced::widget::Id::new(id)),
            iced::widget::operation::move_cursor_to_end(iced::widget::Id::new(id)),
        ])
    }

    /// Shows the form.
    pub fn view<'a>(
        &'a self,
        fields: Vec<Field>,
        id: &'static str,
    ) -> Element<'a, Message> {
        let mut settled = self.clone();
        settled.settle(&fields, true);
        let cursor = settled.cursor;
        let in_hand = fields.get(cursor).cloned();
        let (line, warning) = match (&self.refused, &in_hand) {
            (Some(sentence), _) => (sentence.clone(), true),
            (None, Some(field)) => (field.hint.clone(), false),
            (None, None) => (String::new(), false),
        };
        let total = fields.len();
        list::with_spare(total, cursor, HINT, move |at| {
            let Some(field) = fields.get(at) else {
                return text("").into();
            };
            let row = self.row(at, at == cursor, field, id);
            if at != cursor {
                return row;
            }
            let under = text(line.clone()).size(size::SMALL).style(if warning {
                theme::text::warning
            } else {
                theme::text::muted
            });
            column![row, container(under).padding([3, 8]).height(HINT)].into()
        })
    }

    fn row<'a>(
        &'a self,
        at: usize,
        in_hand: bool,
        field: &Field,
        id: &'static str,
    ) -> Element<'a, Message> {
        if field.kind == Kind::Heading {
            return container(
                text(field.label.clone()).font(font::BOLD).size(size::BODY),
            )
            .height(size::ROW)
            .align_y(alignment::Vertical::Bottom)
            .padding([2, 6])
            .into();
        }
        if field.kind == Kind::Note {
            let words = |words: &str| {
                text(words.to_owned())
                    .size(size::BODY)
                    .style(theme::text::muted)
                    .wrapping(text::Wrapping::None)
            };
            return container(row![words(&field.label).width(320), words(&field.value)])
                .height(size::ROW)
                .align_y(alignment::Vertical::Center)
                .padding([0, 6])
                .clip(true)
                .into();
        }
        let label = text(field.label.clone())
            .font(if in_hand { font::BOLD } else { font::REGULAR })
            .size(size::BODY)
            .wrapping(text::Wrapping::None)
            .width(320);
        let value: Element<'a, Message> = match &field.kind {
            Kind::Text if in_hand => {
                let shown = self.draft.clone().unwrap_or_else(|| field.value.clone());
                steady(
                    text_input(&field.blank, &shown)
                        .id(id)
                        .on_input(Message::Typed)
                        .on_submit(Message::Entered)
                        .size(size::BODY)
                        .padding([2, 6])
                        .style(theme::field::plain),
                )
            }
            Kind::Choice(choices) if in_hand => {
                let words = choices.iter().map(|c| {
                    let here = *c == field.value;
                    text(c.clone())
                        .size(size::BODY)
                        .font(if here { font::BOLD } else { font::REGULAR })
                        .style(if here {
                            theme::text::promise
                        } else {
                            theme::text::muted
                        })
                        .into()
                });
                row(words).spacing(18).into()
            }
            Kind::Text | Kind::Choice(_) | Kind::Press | Kind::Heading | Kind::Note => {
                let blank = field.value.is_empty();
                let words = if blank { &field.blank } else { &field.value };
                let style = move |theme: &iced::Theme| match blank {
                    true => theme::text::muted(theme),
                    false => text::Style::default(),
                };
                text(words.clone()).size(size::BODY).style(style).into()
            }
        };
        let content = row![label, container(value).width(Fill)]
            .align_y(alignment::Vertical::Center)
            .height(size::ROW - 2.0);
        list::pickable(content, in_hand, Message::Picked(at))
    }
}
