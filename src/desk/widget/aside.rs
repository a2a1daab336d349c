//! A text field that leaves the desk's own digits alone.

use iced::keyboard;
use iced::{Element, Event};

use super::field::Field;
use crate::desk::keys::{commands, physical_digit};

/// Lets digits with Ctrl or Alt held go past a field.
///
/// A text field would type such a digit, and nobody else would hear of it.
pub fn aside<'a, M: 'a>(field: impl Into<Element<'a, M>>) -> Element<'a, M> {
    Field::new(field)
        .before(|_, event, _, _| is_command_digit(event))
        .into()
}

fn is_command_digit(event: &Event) -> bool {
    let Event::Keyboard(keyboard::Event::KeyPressed {
        physical_key,
        modifiers,
        ..
    }) = event
    else {
        return false;
    };
    commands(*modifiers) && physical_digit(*physical_key).is_some()
}
