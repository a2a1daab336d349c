//! Styles of text fields.

use iced::widget::text_input::{Status, Style};
use iced::{Background, Border, Theme};

/// A text field; a heavy rule where it has the keyboard.
pub fn plain(theme: &Theme, status: Status) -> Style {
    let palette = theme.palette();
    let focused = matches!(status, Status::Focused { .. });
    Style {
        background: Background::Color(palette.background),
        border: Border {
            color: if focused {
                super::ink(theme)
            } else {
                super::faint(theme)
            },
            width: if focused { 2.0 } else { 1.0 },
            radius: 2.0.into(),
        },
        icon: palette.text,
        placeholder: super::faint(theme),
        value: palette.text,
        selection: super::line(theme),
    }
}
