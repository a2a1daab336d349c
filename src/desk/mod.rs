//! The desk: windows for the scorer's table.
//!
//! Faces are thin: a screen shows sheets and facts and emits commands. Only
//! `effects` touches a clock, a file or a task of the system.

pub mod action;
pub mod app;
pub mod board;
pub mod call_line;
pub mod doing;
pub mod effects;
pub mod font;
mod guide;
mod hearing;
mod keeping;
pub mod keys;
pub mod marks;
pub mod next;
mod opening;
pub mod plan;
pub mod screen;
pub mod see;
pub mod sound;
pub mod tell;
pub mod theme;
mod view;
pub mod widget;
pub mod windows;
pub mod work;

use std::panic::{self, AssertUnwindSafe};
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};

use app::Desk;
use effects::{Effects, Folders, Moment};

use crate::samples::Sample;

/// What the desk begins with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Start {
    /// The first screen.
    First,
    /// A day.
    File(PathBuf),
    /// A fresh copy of the sample day.
    Sample,
}

/// Why the desk can't be run.
#[derive(Debug, thiserror::Error)]
pub enum DeskError {
    /// The day can't be opened; the sentence says why.
    #[error("{0}")]
    Day(String),
    /// No window can be shown.
    #[error("No window can be shown: {0}.")]
    Window(String),
}

/// Runs the desk until its window is closed.
///
/// # Errors
/// [`DeskError`] where the day can't be opened or no window can be shown.
pub fn run(start: Start) -> Result<(), DeskError> {
    let mut effects = Effects::new(Moment::anchored(), Folders::of_user());
    match start {
        Start::First => Ok(()),
        Start::File(path) => effects.open(&path),
        Start::Sample => effects.sample(Sample::MaxDay),
    }
    .map_err(DeskError::Day)?;
    // The toolkit may ask for the first state only once, but by a function
    // that could be called again.
    let once = Mutex::new(Some(effects));
    let shown = Arc::new(AtomicBool::new(false));
    let began = Arc::clone(&shown);
    let boot = move || {
        began.store(true, Ordering::Relaxed);
        let effects = once.lock().ok().and_then(|mut slot| slot.take());
        Desk::boot(
            effects
                .unwrap_or_else(|| Effects::new(Moment::anchored(), Folders::of_user())),
        )
    };
    let daemon = iced::daemon(boot, Desk::update, Desk::view)
        .title(Desk::title)
        .theme(Desk::theme)
        .style(Desk::style)
        .scale_factor(Desk::scale)
        .subscription(Desk::subscription)
        .settings(settings());
    in_a_window(&shown, || daemon.run())
}

/// Runs `windows`, and says in one sentence where there is no display.
///
/// The toolkit panics where it finds neither a display nor its library; that
/// is a machine without a desktop, not a fault of the program. Once a window
/// was asked for, a panic is one again.
fn in_a_window(
    shown: &Arc<AtomicBool>,
    windows: impl FnOnce() -> iced::Result,
) -> Result<(), DeskError> {
    let usual = panic::take_hook();
    let loud = Arc::clone(shown);
    panic::set_hook(Box::new(move |info| {
        if loud.load(Ordering::Relaxed) {
            usual(info);
        }
    }));
    match panic::catch_unwind(AssertUnwindSafe(windows)) {
        Ok(result) => result.map_err(|e| DeskError::Window(e.to_string())),
        Err(payload) if shown.load(Ordering::Relaxed) => panic::resume_unwind(payload),
        Err(_) => Err(DeskError::Window(
            "there is no display, or on Linux no libX11, libXcursor, libXi or \
             libxkbcommon-x11 (README)"
                .to_owned(),
        )),
    }
}

/// Fonts and sizes of every window.
pub fn settings() -> iced::Settings {
    iced::Settings {
        fonts: vec![font::REGULAR_BYTES.into(), font::BOLD_BYTES.into()],
        default_font: font::REGULAR,
        default_text_size: theme::size::BODY.into(),
        antialiasing: true,
        ..iced::Settings::default()
    }
}
