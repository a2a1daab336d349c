//! A text field that leaves the desk's own digits alone.

use iced::advanced::layout::{self, Layout};
use iced::advanced::widget::{Operation, Tree, tree};
use iced::advanced::{Clipboard, Shell, Widget, mouse, overlay, renderer};
use iced::keyboard;
use iced::{Element, Event, Length, Rectangle, Renderer, Size, Theme, Vector};

use crate::desk::keys::{commands, physical_digit};

/// Wraps a field so that a digit with Ctrl or Alt held goes past it.
///
/// A text field would type that digit, and nobody else would hear of it.
pub struct Aside<'a, M> {
    field: Element<'a, M>,
}

/// Lets digits with Ctrl or Alt held go past a field.
pub fn aside<'a, M: 'a>(field: impl Into<Element<'a, M>>) -> Element<'a, M> {
    Element::new(Aside {
        field: field.into(),
    })
}

impl<M> Widget<M, Theme, Renderer> for Aside<'_, M> {
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
            physical_key,
            modifiers,
            ..
        }) = event
            && commands(*modifiers)
            && physical_digit(*physical_key).is_some()
        {
            return;
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
