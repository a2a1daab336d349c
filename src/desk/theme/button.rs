//! Styles of buttons.

use iced::widget::button::{Status, Style};
use iced::{Background, Border, Theme};

/// A button like any other.
pub fn plain(theme: &Theme, status: Status) -> Style {
    let ground = match status {
        Status::Hovered | Status::Pressed => super::line(theme),
        Status::Active | Status::Disabled => super::tint(theme),
    };
    let ink = if status == Status::Disabled {
        super::faint(theme)
    } else {
        super::ink(theme)
    };
    Style {
        background: Some(Background::Color(ground)),
        text_color: ink,
        border: Border {
            color: super::line(theme),
            width: 1.0,
            radius: 3.0.into(),
        },
        ..Style::default()
    }
}

/// A tab that leads elsewhere.
pub fn tab(theme: &Theme, status: Status) -> Style {
    let ground = match status {
        Status::Hovered | Status::Pressed => Some(Background::Color(super::line(theme))),
        Status::Active | Status::Disabled => None,
    };
    Style {
        background: ground,
        text_color: super::ink(theme),
        ..Style::default()
    }
}

/// The tab of the screen that is shown.
pub fn tab_in_hand(theme: &Theme, _status: Status) -> Style {
    Style {
        background: Some(Background::Color(super::ink(theme))),
        text_color: theme.palette().background,
        ..Style::default()
    }
}

/// A row of a list that can be chosen.
pub fn row(theme: &Theme, status: Status) -> Style {
    Style {
        background: matches!(status, Status::Hovered | Status::Pressed)
            .then(|| Background::Color(super::tint(theme))),
        text_color: super::ink(theme),
        ..Style::default()
    }
}

/// The chosen row of a list: a heavy rule around it.
pub fn row_in_hand(theme: &Theme, _status: Status) -> Style {
    Style {
        background: None,
        text_color: super::ink(theme),
        border: Border {
            color: super::ink(theme),
            width: 2.0,
            radius: 0.0.into(),
        },
        ..Style::default()
    }
}
