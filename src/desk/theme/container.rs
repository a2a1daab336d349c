//! Styles of areas.

use iced::widget::container::Style;
use iced::{Background, Border, Color, Theme, color};

/// An area with a thin rule around it.
pub fn panel(theme: &Theme) -> Style {
    Style {
        border: Border {
            color: super::line(theme),
            width: 1.0,
            radius: 0.0.into(),
        },
        ..Style::default()
    }
}

/// A disc on the bar: its edge is seen from the platform.
pub fn disc(theme: &Theme) -> Style {
    Style {
        border: Border {
            color: super::faint(theme),
            width: 2.0,
            radius: 0.0.into(),
        },
        ..Style::default()
    }
}

/// What is in hand: a heavy rule around it.
pub fn in_hand(theme: &Theme) -> Style {
    Style {
        border: Border {
            color: super::ink(theme),
            width: 3.0,
            radius: 0.0.into(),
        },
        ..Style::default()
    }
}

/// A band across the window.
pub fn band(theme: &Theme) -> Style {
    Style {
        background: Some(Background::Color(super::tint(theme))),
        ..Style::default()
    }
}

/// A heavy line.
pub fn heavy(theme: &Theme) -> Style {
    Style {
        background: Some(Background::Color(super::ink(theme))),
        ..Style::default()
    }
}

/// A thin line.
pub fn hair(theme: &Theme) -> Style {
    Style {
        background: Some(Background::Color(super::line(theme))),
        ..Style::default()
    }
}

/// The page, opaque, over what lies below.
pub fn sheet(theme: &Theme) -> Style {
    Style {
        background: Some(Background::Color(theme.palette().background)),
        border: Border {
            color: super::ink(theme),
            width: 3.0,
            radius: 0.0.into(),
        },
        ..Style::default()
    }
}

fn light(theme: &Theme, ground: Color, ink: Color) -> Style {
    Style {
        background: Some(Background::Color(ground)),
        text_color: Some(ink),
        border: Border {
            color: super::ink(theme),
            width: 3.0,
            radius: 1000.0.into(),
        },
        ..Style::default()
    }
}

/// A white light.
pub fn white_light(theme: &Theme) -> Style {
    light(theme, Color::WHITE, Color::BLACK)
}

/// A red light.
pub fn red_light(theme: &Theme) -> Style {
    light(theme, color!(0xa81414), Color::WHITE)
}

/// A light that isn't given yet.
pub fn no_light(theme: &Theme) -> Style {
    Style {
        background: None,
        text_color: Some(super::faint(theme)),
        border: Border {
            color: super::faint(theme),
            width: 2.0,
            radius: 1000.0.into(),
        },
        ..Style::default()
    }
}
