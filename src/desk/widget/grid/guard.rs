//! Takes the grid's keys before the text field gets them.

use iced::advanced::{Clipboard, Shell, clipboard};
use iced::keyboard::key::{Named, Physical};
use iced::keyboard::{self, Modifiers};
use iced::widget::text_input;
use iced::widget::text_input::cursor::State as Caret;
use iced::{Element, Event};

use super::model::Key;
use super::press::{is_taken, key_of};
use crate::desk::widget::field::{Field, FieldState};

/// A text field whose arrows, Tab and Enter belong to the grid around it.
///
/// A text field keeps Left, Right, Home and End to itself, so they have to be
/// taken before it sees them. What is typed at the end of the text goes to
/// the grid one character at a time: the field would add characters that
/// come in one burst to a text that has moved on meanwhile.
pub(super) struct Guard<'a, M> {
    /// What is typed in the cell in hand, if anything is.
    typed: Option<String>,
    on_key: Box<dyn Fn(Key) -> M + 'a>,
    on_paste: Box<dyn Fn(String) -> M + 'a>,
}

impl<'a, M: 'a> Guard<'a, M> {
    /// A guard; `typed` is the draft of the cell in hand. Clipboard text of several
    /// cells goes to `on_paste`: the field would run them together.
    pub(super) fn new(
        typed: Option<&str>,
        on_key: impl Fn(Key) -> M + 'a,
        on_paste: impl Fn(String) -> M + 'a,
    ) -> Self {
        Self {
            typed: typed.map(str::to_owned),
            on_key: Box::new(on_key),
            on_paste: Box::new(on_paste),
        }
    }

    /// Stands before a field.
    pub(super) fn over(self, field: impl Into<Element<'a, M>>) -> Element<'a, M> {
        Field::new(field)
            .before(move |state, event, clipboard, shell| {
                self.takes(state, event, clipboard, shell)
            })
            .into()
    }

    /// Whether the caret stands behind the last character.
    fn is_at_end(&self, state: &FieldState) -> bool {
        let value = text_input::Value::new(self.typed.as_deref().unwrap_or(""));
        match state.cursor().state(&value) {
            Caret::Index(at) => at >= value.len(),
            Caret::Selection { .. } => false,
        }
    }

    /// Whether the field is not to hear an event.
    fn takes(
        &self,
        state: &mut FieldState,
        event: &Event,
        clipboard: &mut dyn Clipboard,
        shell: &mut Shell<'_, M>,
    ) -> bool {
        let Event::Keyboard(keyboard::Event::KeyPressed {
            key,
            physical_key,
            modifiers,
            text,
            repeat,
            ..
        }) = event
        else {
            return false;
        };
        if !state.is_focused() {
            return false;
        }
        if pastes(key, *physical_key, *modifiers)
            && let Some(text) = clipboard.read(clipboard::Kind::Standard)
            && text
                .trim_end_matches(['\r', '\n'])
                .contains(['\t', '\r', '\n'])
        {
            shell.publish((self.on_paste)(text));
            shell.capture_event();
            return true;
        }
        let typing = self.typed.is_some();
        let mut taken: Vec<Key> = key_of(key, *modifiers)
            .into_iter()
            .filter(|key| is_taken(key, typing))
            .collect();
        if *repeat && taken == [Key::Enter] {
            // An Enter that is held down does nothing twice.
            shell.capture_event();
            return true;
        }
        if taken == [Key::Escape] {
            // The field would give the keyboard away; the shell has this
            // key, and asks the screen.
            return true;
        }
        if taken.is_empty() && self.is_at_end(state) {
            taken = characters(text.as_deref(), *modifiers);
            if taken.is_empty() && key_of(key, *modifiers) == Some(Key::Backspace) {
                taken = vec![Key::Backspace];
            }
        }
        if taken.is_empty() {
            return false;
        }
        state.move_cursor_to(usize::MAX);
        for key in taken {
            shell.publish((self.on_key)(key));
        }
        shell.capture_event();
        true
    }
}

/// Whether a key takes in the clipboard: Ctrl (Cmd on macOS) and V, or Shift and
/// Insert.
fn pastes(key: &keyboard::Key, physical: Physical, modifiers: Modifiers) -> bool {
    if modifiers.alt() {
        return false;
    }
    let v = modifiers.command() && key.to_latin(physical) == Some('v');
    v || (modifiers.shift() && *key == keyboard::Key::Named(Named::Insert))
}

/// The characters that a key types; none where a command is meant.
fn characters(text: Option<&str>, modifiers: Modifiers) -> Vec<Key> {
    // Ctrl and Alt together are the third level of a keyboard.
    if modifiers.control() != modifiers.alt() || modifiers.logo() {
        return Vec::new();
    }
    text.unwrap_or("")
        .chars()
        .filter(|c| !c.is_control())
        .map(Key::Char)
        .collect()
}
