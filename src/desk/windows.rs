//! The desk's windows: the table's own, and the hall board.

use iced::{Size, Task, window};

/// Which windows are open, and how.
#[derive(Debug, Clone, Default)]
pub struct Windows {
    main: Option<window::Id>,
    board: Option<window::Id>,
    main_full: bool,
    board_full: bool,
}

impl Windows {
    /// Opens the table's own window.
    pub fn open_main<M: Send + 'static>(
        &mut self,
        opened: fn(window::Id) -> M,
    ) -> Task<M> {
        let (id, task) = window::open(window::Settings {
            size: Size::new(1366.0, 740.0),
            min_size: Some(Size::new(1000.0, 640.0)),
            maximized: true,
            ..window::Settings::default()
        });
        self.main = Some(id);
        task.map(opened)
    }

    /// The table's own window.
    pub const fn main(&self) -> Option<window::Id> {
        self.main
    }

    /// Whether this is the hall board.
    pub fn is_board(&self, id: window::Id) -> bool {
        self.board == Some(id)
    }

    /// Whether the hall board is open.
    pub const fn has_board(&self) -> bool {
        self.board.is_some()
    }

    /// Opens the hall board, or closes it.
    ///
    /// It opens as a plain window, to be moved to the projector and made
    /// full-screen there: no system can be asked for a certain screen.
    pub fn turn_board<M: Send + 'static>(
        &mut self,
        opened: fn(window::Id) -> M,
    ) -> Task<M> {
        if let Some(id) = self.board.take() {
            return window::close(id);
        }
        let (id, task) = window::open(window::Settings {
            size: Size::new(1280.0, 720.0),
            min_size: Some(Size::new(480.0, 300.0)),
            ..window::Settings::default()
        });
        self.board = Some(id);
        self.board_full = false;
        task.map(opened)
    }

    /// Leaves full screen of a window; nothing where it isn't full.
    pub fn leave_full<M: Send + 'static>(&mut self, id: window::Id) -> Task<M> {
        let full = if self.is_board(id) {
            self.board_full
        } else {
            self.main_full
        };
        if full {
            self.turn_full(id)
        } else {
            Task::none()
        }
    }

    /// Full screen of a window, and back.
    pub fn turn_full<M: Send + 'static>(&mut self, id: window::Id) -> Task<M> {
        let full = if self.is_board(id) {
            &mut self.board_full
        } else {
            &mut self.main_full
        };
        *full = !*full;
        let mode = if *full {
            window::Mode::Fullscreen
        } else {
            window::Mode::Windowed
        };
        window::set_mode(id, mode)
    }

    /// A window is gone; true if it was the table's own.
    pub fn closed(&mut self, id: window::Id) -> bool {
        if self.is_board(id) {
            self.board = None;
        }
        if self.main == Some(id) {
            self.main = None;
            return true;
        }
        false
    }
}
