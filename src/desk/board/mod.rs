//! Boards: windows that only show. They hold no text field, and nothing of
//! what they show: a board that was closed opens again as it was.

mod frame;
pub mod hall;
pub mod loaders;
pub mod warm_up;

use iced::Size;

use super::action::Action;
use super::font;

/// Which board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Board {
    /// For the hall: who is up.
    Hall,
    /// For the loaders: what goes on the bar.
    Loaders,
    /// For the warm-up: who is called when.
    WarmUp,
}

impl Board {
    /// All boards.
    pub const ALL: [Self; 3] = [Self::Hall, Self::Loaders, Self::WarmUp];

    /// Its name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Hall => "Hall board",
            Self::Loaders => "Loader board",
            Self::WarmUp => "Warm-up board",
        }
    }

    /// What opens and closes it.
    pub const fn action(self) -> Action {
        match self {
            Self::Hall => Action::HallBoard,
            Self::Loaders => Action::LoaderBoard,
            Self::WarmUp => Action::WarmUpBoard,
        }
    }
}

/// The least height of a capital letter of name, load and clock, as a part
/// of the window's height (legibility across a hall, common practice).
pub const LEAST_CAPITAL: f32 = 1.0 / 20.0;

/// How wide an average bold character is, as a part of the type size.
const WIDTH: f32 = 0.62;

/// The least type size for a window of that height.
pub fn least_size(height: f32) -> f32 {
    height * LEAST_CAPITAL / font::CAP_HEIGHT
}

/// The type size at which words fill a width in one line, never above `most`
/// nor below the least size; there they take more lines.
pub fn fitting(words: &str, width: f32, most: f32, height: f32) -> f32 {
    widest(words, width).min(most).max(least_size(height))
}

/// The type size at which words fill a width in one line.
fn widest(words: &str, width: f32) -> f32 {
    let chars = u16::try_from(words.chars().count().max(1)).unwrap_or(u16::MAX);
    width / (f32::from(chars) * WIDTH)
}

/// What a window is wide between its margins.
fn inner(room: Size) -> f32 {
    room.width - room.height * 2.0 * frame::MARGIN
}
