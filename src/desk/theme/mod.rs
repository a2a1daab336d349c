//! Colours, sizes and styles, by name.

use iced::theme::Palette;
use iced::{Color, Theme, color};

pub mod button;
pub mod container;
#[cfg(test)]
mod contrast;
pub mod field;
pub mod text;

/// Type sizes and distances in logical pixels.
pub mod size {
    /// Remarks and table headings.
    pub const SMALL: f32 = 14.0;
    /// Ordinary text.
    pub const BODY: f32 = 16.0;
    /// Sentences that must be seen.
    pub const LARGE: f32 = 20.0;
    /// Headings and names.
    pub const TITLE: f32 = 28.0;
    /// The athlete in hand.
    pub const NAME: f32 = 40.0;
    /// Load and clock at the table.
    pub const HUGE: f32 = 76.0;
    /// A distance between neighbours.
    pub const GAP: f32 = 8.0;
    /// The height of a row in a list.
    pub const ROW: f32 = 30.0;
}

/// The theme of the desk by day.
pub fn light() -> Theme {
    Theme::custom(
        "light",
        Palette {
            background: color!(0xfcfbf7),
            text: color!(0x1b1b1b),
            primary: color!(0x23456b),
            success: color!(0x1f5c3a),
            warning: color!(0x7a4b00),
            danger: color!(0x9b1c1c),
        },
    )
}

/// The theme of the desk in a dark hall.
pub fn dark() -> Theme {
    Theme::custom(
        "dark",
        Palette {
            background: color!(0x17191c),
            text: color!(0xf2f0ea),
            primary: color!(0x9cc0e8),
            success: color!(0x8fd0a8),
            warning: color!(0xe8c07a),
            danger: color!(0xf0a0a0),
        },
    )
}

/// The theme of boards.
pub fn board() -> Theme {
    Theme::custom(
        "board",
        Palette {
            background: color!(0x0d0f12),
            text: color!(0xffffff),
            primary: color!(0x9cc0e8),
            success: color!(0x8fd0a8),
            warning: color!(0xe8c07a),
            danger: color!(0xf0a0a0),
        },
    )
}

/// Ink for rules and borders.
pub fn ink(theme: &Theme) -> Color {
    theme.palette().text
}

/// Ink at less weight; still 4.5 to 1 on the background and on a tint.
pub fn faint(theme: &Theme) -> Color {
    let palette = theme.palette();
    mix(palette.text, palette.background, 0.34)
}

/// Thin lines.
pub fn line(theme: &Theme) -> Color {
    let palette = theme.palette();
    mix(palette.text, palette.background, 0.75)
}

/// A ground that sets something off from the page.
pub fn tint(theme: &Theme) -> Color {
    let palette = theme.palette();
    mix(palette.text, palette.background, 0.93)
}

fn mix(a: Color, b: Color, part: f32) -> Color {
    let of = |a: f32, b: f32| a * (1.0 - part) + b * part;
    Color::from_rgb(of(a.r, b.r), of(a.g, b.g), of(a.b, b.b))
}
