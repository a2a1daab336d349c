//! The desk's windows: the table's own, and one for each board.

use std::collections::BTreeMap;

use iced::{Size, Task, window};

use super::board::Board;

/// Which windows are open, and how.
#[derive(Debug, Clone, Default)]
pub struct Windows {
    main: Option<window::Id>,
    main_full: bool,
    boards: BTreeMap<Board, Shown>,
}

/// A board's window.
#[derive(Debug, Clone, Copy)]
struct Shown {
    id: window::Id,
    full: bool,
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

    /// The board that a window shows; `None` where it shows none.
    pub fn board_in(&self, id: window::Id) -> Option<Board> {
        let mut boards = self.boards.iter();
        boards.find(|(_, at)| at.id == id).map(|(board, _)| *board)
    }

    /// The window of a board, while it is open.
    pub fn window_of(&self, board: Board) -> Option<window::Id> {
        self.boards.get(&board).map(|at| at.id)
    }

    /// Opens a board, or closes it.
    ///
    /// It opens as a plain window, to be moved to its screen and made
    /// full-screen there: no system can be asked for a certain screen.
    pub fn turn_board<M: Send + 'static>(
        &mut self,
        board: Board,
        opened: fn(window::Id) -> M,
    ) -> Task<M> {
        if let Some(at) = self.boards.remove(&board) {
            return window::close(at.id);
        }
        let (id, task) = window::open(window::Settings {
            size: Size::new(1280.0, 720.0),
            min_size: Some(Size::new(480.0, 300.0)),
            ..window::Settings::default()
        });
        let _ = self.boards.insert(board, Shown { id, full: false });
        task.map(opened)
    }

    /// Whether a window is full-screen.
    pub fn is_full(&self, id: window::Id) -> bool {
        let board = self.boards.values().find(|at| at.id == id);
        board.map_or(self.main_full, |at| at.full)
    }

    /// Leaves full screen of a window; nothing where it isn't full.
    pub fn leave_full<M: Send + 'static>(&mut self, id: window::Id) -> Task<M> {
        if self.is_full(id) {
            self.turn_full(id)
        } else {
            Task::none()
        }
    }

    /// Full screen of a window, and back.
    pub fn turn_full<M: Send + 'static>(&mut self, id: window::Id) -> Task<M> {
        let board = self.boards.values_mut().find(|at| at.id == id);
        let full = board.map_or(&mut self.main_full, |at| &mut at.full);
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
        self.boards.retain(|_, at| at.id != id);
        if self.main == Some(id) {
            self.main = None;
            return true;
        }
        false
    }
}
