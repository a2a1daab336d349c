//! Key presses, and what action each of them is.
//!
//! Pure: a press and a place in, an action out. A focused text field keeps
//! printable keys, so global actions are function keys and Ctrl with a letter.

use std::fmt;

use iced::keyboard::key::{Code, Named, Physical};
use iced::keyboard::{Key, Modifiers};

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

    /// Whether the key only goes with others, as Ctrl and Shift do: alone it
    /// means nothing, and it comes before every press of a chord.
    pub const fn is_held_only(&self) -> bool {
        matches!(
            self.key,
            Key::Named(
                Named::Control
                    | Named::Shift
                    | Named::Alt
                    | Named::AltGraph
                    | Named::Super
                    | Named::Meta
                    | Named::Hyper
                    | Named::Symbol
                    | Named::Fn
                    | Named::FnLock
                    | Named::CapsLock
                    | Named::NumLock
                    | Named::ScrollLock
            )
        )
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
    /// Shift with a function key, from 1 to this one.
    ShiftFunction(u8),
    /// Ctrl (Cmd on macOS) with a function key, from 1 to this one.
    CtrlFunction(u8),
    /// Ctrl (Cmd on macOS) with a letter.
    Ctrl(char),
    /// A digit from 1 to `most`, with a key held.
    Digit {
        /// What is held.
        held: Held,
        /// The highest digit that means something.
        most: u8,
    },
    /// Escape.
    Escape,
}

/// What is held with a digit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Held {
    /// Ctrl (Cmd on macOS).
    Ctrl,
    /// Ctrl (Cmd on macOS) and Shift.
    CtrlShift,
    /// Alt (Option on macOS).
    Alt,
}

impl Held {
    fn is(self, modifiers: Modifiers) -> bool {
        let command = modifiers - Modifiers::SHIFT;
        let command = command == Modifiers::COMMAND || command == Modifiers::CTRL;
        match self {
            Self::Ctrl => command && !modifiers.shift(),
            Self::CtrlShift => command && modifiers.shift(),
            Self::Alt => modifiers == Modifiers::ALT,
        }
    }
}

impl fmt::Display for Held {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Ctrl => "Ctrl",
            Self::CtrlShift => "Ctrl+Shift",
            Self::Alt => "Alt",
        })
    }
}

impl Chord {
    /// The digit of a press that is this chord; 0 where the chord has none.
    pub fn digit(self, press: &Press) -> Option<u8> {
        match (self, &press.key) {
            (Self::Digit { held, most }, Key::Character(text)) => {
                let digit = text.parse().ok().filter(|n| (1..=most).contains(n));
                digit.filter(|_| held.is(press.modifiers))
            }
            (Self::Digit { .. }, _) => None,
            (Self::ShiftFunction(most), key) => function(key)
                .filter(|n| *n <= most && press.modifiers == Modifiers::SHIFT),
            (Self::CtrlFunction(most), key) => {
                function(key).filter(|n| *n <= most && Held::Ctrl.is(press.modifiers))
            }
            _ => self.is(press).then_some(0),
        }
    }

    /// Whether a press is this chord.
    pub fn is(self, press: &Press) -> bool {
        let alone = press.modifiers.is_empty();
        match self {
            Self::Function(n) => alone && function(&press.key) == Some(n),
            Self::Escape => alone && press.key == Key::Named(Named::Escape),
            Self::Digit { .. } | Self::ShiftFunction(_) | Self::CtrlFunction(_) => {
                self.digit(press).is_some()
            }
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
            Self::CtrlFunction(n) => write!(f, "Ctrl+F1 to F{n}"),
            Self::ShiftFunction(n) => write!(f, "Shift+F1 to F{n}"),
            Self::Digit { held, most } => write!(f, "{held}+1 to {most}"),
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

/// The digit that a physical key stands for, of the row or of the number pad,
/// whatever a layout or a held key makes of it.
pub const fn physical_digit(physical: Physical) -> Option<u8> {
    let Physical::Code(code) = physical else {
        return None;
    };
    Some(match code {
        Code::Digit1 | Code::Numpad1 => 1,
        Code::Digit2 | Code::Numpad2 => 2,
        Code::Digit3 | Code::Numpad3 => 3,
        Code::Digit4 | Code::Numpad4 => 4,
        Code::Digit5 | Code::Numpad5 => 5,
        Code::Digit6 | Code::Numpad6 => 6,
        Code::Digit7 | Code::Numpad7 => 7,
        Code::Digit8 | Code::Numpad8 => 8,
        Code::Digit9 | Code::Numpad9 => 9,
        _ => return None,
    })
}

/// Whether a digit pressed with these keys is a command rather than text.
///
/// Ctrl and Alt together are the third level of a keyboard.
pub fn commands(modifiers: Modifiers) -> bool {
    modifiers.control() != modifiers.alt() || modifiers.logo()
}
