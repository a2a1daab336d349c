//! Styles of text.

use iced::Theme;
use iced::widget::text::Style;

/// Remarks.
pub fn muted(theme: &Theme) -> Style {
    Style {
        color: Some(super::faint(theme)),
    }
}

/// What is owed or refused; always beside words that say so.
pub fn warning(theme: &Theme) -> Style {
    Style {
        color: Some(theme.palette().danger),
    }
}

/// What will be done.
pub fn promise(theme: &Theme) -> Style {
    Style {
        color: Some(theme.palette().primary),
    }
}
