//! Key presses, and what action each of them is.
//!
//! Pure: a press and a place in, an action out. A focused text field keeps
//! printable keys, so global actions are function keys and Ctrl with a letter.

use std::fmt;

use iced::keyboard::{Key, Modifiers, key::Named};

/// A key press that no text field has taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Press {
    /// The key.
    pub key: Key,
    /// What is held with it.
    pub modifiers: Modifiers,
    /// Whether the key is only held down.
    pub repeat: bool,
}

impl Press {
    /// A press of a named key alone.
    pub const fn named(named: Named) -> Self {
        Self {
            key: Key::Named(named),
            modifiers: Modifiers::empty(),
            repeat: false,
        }
    }

    /// The printable character of the press, if it types one.
    pub fn typed(&self) -> Option<&str> {
        match &self.key {
            Key::Character(text)
                if !self.modifiers.command() && !self.modifiers.alt() =>
            {
                Some(text.as_str())
            }
            _ => None,
        }
    }

    /// Whether it is this named key, with nothing held but perhaps Shift.
    pub fn is(&self, named: Named) -> bool {
        self.key == Key::Named(named) && (self.modifiers - Modifiers::SHIFT).is_empty()
    }
}

/// A key with what is held with it, as the table of actions names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Chord {
    /// A function key, 1 to 12.
    Function(u8),
    /// Ctrl (Cmd on macOS) with a letter.
    Ctrl(char),
    /// Escape.
    Escape,
}

impl Chord {
    /// Whether a press is this chord.
    pub fn is(self, press: &Press) -> bool {
        let alone = press.modifiers.is_empty();
        match self {
            Self::Function(n) => alone && function(&press.key) == Some(n),
            Self::Escape => alone && press.key == Key::Named(Named::Escape),
            Self::Ctrl(letter) => {
                let only_command = press.modifiers == Modifiers::COMMAND
                    || press.modifiers == Modifiers::CTRL;
                only_command
                    && matches!(&press.key, Key::Character(c)
                        if c.chars().next().map(|c| c.to_ascii_lowercase()) == Some(letter))
            }
        }
    }
}

impl fmt::Display for Chord {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Function(n) => write!(f, "F{n}"),
            Self::Ctrl(letter) => write!(f, "Ctrl+{}", letter.to_ascii_uppercase()),
            Self::Escape => write!(f, "Esc"),
        }
    }
}

fn function(key: &Key) -> Option<u8> {
    const KEYS: [Named; 12] = [
        Named::F1,
        Named::F2,
        Named::F3,
        Named::F4,
        Named::F5,
        Named::F6,
        Named::F7,
        Named::F8,
        Named::F9,
        Named::F10,
        Named::F11,
        Named::F12,
    ];
    let Key::Named(named) = key else { return None };
    let at = KEYS.iter().position(|k| k == named)?;
    u8::try_from(at + 1).ok()
}
