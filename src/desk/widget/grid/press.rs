//! Which key of the keyboard is which key of the grid.

use iced::keyboard::key::Named;
use iced::keyboard::{Key as Pressed, Modifiers};

use super::model::Key;

/// The grid's key for a key of the keyboard; `None` where it means nothing to
/// a grid. Function keys never do.
pub fn key_of(key: &Pressed, modifiers: Modifiers) -> Option<Key> {
    let control = modifiers.command() || modifiers.control();
    if modifiers.alt() && !control {
        return None;
    }
    match key {
        Pressed::Named(Named::Home) if control => Some(Key::First),
        Pressed::Named(Named::End) if control => Some(Key::Last),
        Pressed::Named(_) if control => None,
        Pressed::Named(Named::Tab) if modifiers.shift() => Some(Key::BackTab),
        Pressed::Named(named) => named_key(*named),
        Pressed::Character(text) if !control => text.chars().next().map(Key::Char),
        Pressed::Character(_) | Pressed::Unidentified => None,
    }
}

fn named_key(named: Named) -> Option<Key> {
    Some(match named {
        Named::Enter => Key::Enter,
        Named::Tab => Key::Tab,
        Named::ArrowUp => Key::Up,
        Named::ArrowDown => Key::Down,
        Named::ArrowLeft => Key::Left,
        Named::ArrowRight => Key::Right,
        Named::PageUp => Key::PageUp,
        Named::PageDown => Key::PageDown,
        Named::Home => Key::Home,
        Named::End => Key::End,
        Named::Escape => Key::Escape,
        Named::Backspace => Key::Backspace,
        Named::Delete => Key::Delete,
        Named::Space => Key::Char(' '),
        _ => return None,
    })
}

/// Whether the grid takes a key from the text field that has the keyboard.
///
/// While something is typed, the field keeps the keys that edit it.
pub(super) fn is_taken(key: &Key, typing: bool) -> bool {
    match key {
        Key::Enter
        | Key::Tab
        | Key::BackTab
        | Key::Up
        | Key::Down
        | Key::PageUp
        | Key::PageDown
        | Key::First
        | Key::Last
        | Key::Escape => true,
        Key::Left | Key::Right | Key::Home | Key::End | Key::Backspace | Key::Delete => {
            !typing
        }
        Key::Char(_) => false,
    }
}
