//! Takes the grid's keys before the text field gets them.

use iced::advanced::layout::{self, Layout};
use iced::advanced::widget::{Operation, Tree, tree};
use iced::advanced::{Clipboard, Shell, Widget, clipboard, mouse, overlay, renderer};
use iced::keyboard::key::{Named, Physical};
use iced::keyboard::{self, Modifiers};
use iced::widget::text_input;
use iced::widget::text_input::cursor::State as Caret;
use iced::{Element, Event, Length, Rectangle, Renderer, Size, Theme, Vector};

use super::model::Key;
use super::press::{is_taken, key_of};

type FieldState =
    text_input::State<<Renderer as iced::advanced::text::Renderer>::Paragraph>;

/// A text field whose arrows, Tab and Enter belong to the grid around it.
///
/// A text field keeps Left, Right, Home and End to itself, so they have to be
/// taken before it sees them. What is typed at the end of the text goes to
/// the grid one character at a time: the field would add characters that
/// come in one burst to a text that has moved on meanwhile.
pub(super) struct Guard<'a, M> {
    field: Element<'a, M>,
    /// What is typed in the cell in hand, if anything is.
    typed: Option<String>,
    on_key: Box<dyn Fn(Key) -> M + 'a>,
    on_paste: Box<dyn Fn(String) -> M + 'a>,
}

impl<'a, M> Guard<'a, M> {
    /// Guards a field; `typed` is the draft of the cell in hand. Clipboard text
    /// of several cells goes to `on_paste`: the field would run them together.
    pub(super) fn new(
        field: impl Into<Element<'a, M>>,
        typed: Option<&str>,
        on_key: impl Fn(Key) -> M + 'a,
        on_paste: impl Fn(String) -> M + 'a,
    ) -> Self {
        Self {
            field: field.into(),
            typed: typed.map(str::to_owned),
            on_key: Box::new(on_key),
            on_paste: Box::new(on_paste),
        }
    }
}

impl<M> Guard<'_, M> {
    /// Whether the caret stands behind the last character.
    fn is_at_end(&self, tree: &Tree) -> bool {
        let value = text_input::Value::new(self.typed.as_deref().unwrap_or(""));
        let caret = tree.state.downcast_ref::<FieldState>().cursor();
        match caret.state(&value) {
            Caret::Index(at) => at >= value.len(),
            Caret::Selection { .. } => false,
        }
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

impl<M> Widget<M, Theme, Renderer> for Guard<'_, M> {
    fn tag(&self) -> tree::Tag {
        self.field.as_widget().tag()
    }

    fn state(&self) -> tree::State {
        self.field.as_widget().state()
    }

    fn children(&self) -> Vec<Tree> {
        self.field.as_widget().children()
    }

    fn diff(&self, tree: &mut Tree) {
        self.field.as_widget().diff(tree);
    }

    fn size(&self) -> Size<Length> {
        self.field.as_widget().size()
    }

    fn layout(
        &mut self,
        tree: &mut Tree,
        renderer: &Renderer,
        limits: &layout::Limits,
    ) -> layout::Node {
        self.field.as_widget_mut().layout(tree, renderer, limits)
    }

    fn operate(
        &mut self,
        tree: &mut Tree,
        layout: Layout<'_>,
        renderer: &Renderer,
        operation: &mut dyn Operation,
    ) {
        self.field
            .as_widget_mut()
            .operate(tree, layout, renderer, operation);
    }

    fn update(
        &mut self,
        tree: &mut Tree,
        event: &Event,
        layout: Layout<'_>,
        cursor: mouse::Cursor,
        renderer: &Renderer,
        clipboard: &mut dyn Clipboard,
        shell: &mut Shell<'_, M>,
        viewport: &Rectangle,
    ) {
        if let Event::Keyboard(keyboard::Event::KeyPressed {
            key,
            physical_key,
            modifiers,
            text,
            repeat,
            ..
        }) = event
            && tree.state.downcast_ref::<FieldState>().is_focused()
        {
            if pastes(key, *physical_key, *modifiers)
                && let Some(text) = clipboard.read(clipboard::Kind::Standard)
                && text
                    .trim_end_matches(['\r', '\n'])
                    .contains(['\t', '\r', '\n'])
            {
                shell.publish((self.on_paste)(text));
                shell.capture_event();
                return;
            }
            let typing = self.typed.is_some();
            let mut taken: Vec<Key> = key_of(key, *modifiers)
                .into_iter()
                .filter(|key| is_taken(key, typing))
                .collect();
            if *repeat && taken == [Key::Enter] {
                // An Enter that is held down does nothing twice.
                shell.capture_event();
                return;
            }
            if taken == [Key::Escape] {
                // The field would give the keyboard away; the shell has this
                // key, and asks the screen.
                return;
            }
            if taken.is_empty() && self.is_at_end(tree) {
                taken = characters(text.as_deref(), *modifiers);
                if taken.is_empty() && key_of(key, *modifiers) == Some(Key::Backspace) {
                    taken = vec![Key::Backspace];
                }
            }
            if !taken.is_empty() {
                tree.state
                    .downcast_mut::<FieldState>()
                    .move_cursor_to(usize::MAX);
                for key in taken {
                    shell.publish((self.on_key)(key));
                }
                shell.capture_event();
                return;
            }
        }
        self.field.as_widget_mut().update(
            tree, event, layout, cursor, renderer, clipboard, shell, viewport,
        );
    }

    fn mouse_interaction(
        &self,
        tree: &Tree,
        layout: Layout<'_>,
        cursor: mouse::Cursor,
        viewport: &Rectangle,
        renderer: &Renderer,
    ) -> mouse::Interaction {
        self.field
            .as_widget()
            .mouse_interaction(tree, layout, cursor, viewport, renderer)
    }

    fn draw(
        &self,
        tree: &Tree,
        renderer: &mut Renderer,
        theme: &Theme,
        style: &renderer::Style,
        layout: Layout<'_>,
        cursor: mouse::Cursor,
        viewport: &Rectangle,
    ) {
        self.field
            .as_widget()
            .draw(tree, renderer, theme, style, layout, cursor, viewport);
    }

    fn overlay<'b>(
        &'b mut self,
        tree: &'b mut Tree,
        layout: Layout<'b>,
        renderer: &Renderer,
        viewport: &Rectangle,
        translation: Vector,
    ) -> Option<overlay::Element<'b, M, Theme, Renderer>> {
        self.field
            .as_widget_mut()
            .overlay(tree, layout, renderer, viewport, translation)
    }
}

impl<'a, M: 'a> From<Guard<'a, M>> for Element<'a, M> {
    fn from(guard: Guard<'a, M>) -> Self {
        Element::new(guard)
    }
}
