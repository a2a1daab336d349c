//! The one wrapper around text fields: a caret that stands, and a say in what
//! the field hears.

use std::time::Duration;

use iced::advanced::layout::{self, Layout};
use iced::advanced::widget::{Operation, Tree, tree};
use iced::advanced::{Clipboard, Shell, Widget, mouse, overlay, renderer};
use iced::time::Instant;
use iced::widget::text_input;
use iced::{Element, Event, Length, Rectangle, Renderer, Size, Theme, Vector, window};

/// What a text field remembers from one view to the next.
pub type FieldState =
    text_input::State<<Renderer as iced::advanced::text::Renderer>::Paragraph>;

/// Hears an event before the field does; whether the field is not to hear it.
type Before<'a, M> = Box<
    dyn Fn(&mut FieldState, &Event, &mut dyn Clipboard, &mut Shell<'_, M>) -> bool + 'a,
>;

/// Wraps a text field so that its caret stands.
///
/// A caret that blinks asks for two frames a second as long as the field has the
/// keyboard, which at a table it always has: with nothing to show that is new, all
/// of the window would be looked through for it.
pub struct Field<'a, M> {
    field: Element<'a, M>,
    before: Option<Before<'a, M>>,
}

impl<'a, M> Field<'a, M> {
    /// Wraps a text field, which hears everything.
    pub fn new(field: impl Into<Element<'a, M>>) -> Self {
        Self {
            field: field.into(),
            before: None,
        }
    }

    /// Events go to `before` first; where that says so, the field doesn't hear them.
    #[must_use]
    pub fn before(
        self,
        before: impl Fn(
            &mut FieldState,
            &Event,
            &mut dyn Clipboard,
            &mut Shell<'_, M>,
        ) -> bool
        + 'a,
    ) -> Self {
        Self {
            before: Some(Box::new(before)),
            ..self
        }
    }
}

/// A text field whose caret stands.
pub fn steady<'a, M: 'a>(field: impl Into<Element<'a, M>>) -> Element<'a, M> {
    Field::new(field).into()
}

/// The earliest moment that can be told, to a thousandth of a second.
///
/// A system may count from its own start, and tells nothing before it.
fn earliest(now: Instant) -> Instant {
    (0..40).rev().fold(now, |at, step| {
        at.checked_sub(Duration::from_millis(1 << step))
            .unwrap_or(at)
    })
}

impl<M> Widget<M, Theme, Renderer> for Field<'_, M> {
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
        if let Some(before) = &self.before {
            let state = tree.state.downcast_mut::<FieldState>();
            if before(state, event, clipboard, shell) {
                return;
            }
        }
        // The caret is drawn by the time since the last key. A frame that is always
        // told to be from before that key shows it, and the next one isn't needed.
        let Event::Window(window::Event::RedrawRequested(now)) = event else {
            self.field.as_widget_mut().update(
                tree, event, layout, cursor, renderer, clipboard, shell, viewport,
            );
            return;
        };
        let early = Event::Window(window::Event::RedrawRequested(earliest(*now)));
        let asked = shell.redraw_request();
        self.field.as_widget_mut().update(
            tree, &early, layout, cursor, renderer, clipboard, shell, viewport,
        );
        Shell::replace_redraw_request(shell, asked);
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

impl<'a, M: 'a> From<Field<'a, M>> for Element<'a, M> {
    fn from(field: Field<'a, M>) -> Self {
        Element::new(field)
    }
}
