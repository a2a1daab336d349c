//! What a grid shows: its columns and cells, and how it is filled in.

/// How a cell's text is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Mark {
    /// Plain: what counts.
    #[default]
    Plain,
    /// Struck through: a no lift.
    Struck,
    /// Not entered yet: what would be taken if nothing is typed.
    Asked,
    /// What a blank cell is for.
    Hint,
}

/// What a cell holds.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Cell {
    /// Its text.
    pub text: String,
    /// How it is set.
    pub mark: Mark,
    /// Whether something can be typed here.
    pub open: bool,
    /// Whether Tab and the jumps stop here: open, and still to be filled in.
    pub stop: bool,
}

impl Cell {
    /// A cell that can't be typed in.
    pub fn fixed(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            ..Self::default()
        }
    }

    /// A cell that can be typed in.
    pub fn open(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            open: true,
            stop: true,
            ..Self::default()
        }
    }
}

/// A column of the grid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its header.
    pub title: String,
    /// Its width in characters of ordinary text, at least 2.
    pub width: u16,
    /// Whether it takes the room that is left over.
    pub grows: bool,
    /// Whether it holds figures, set to the right.
    pub figures: bool,
}

impl Column {
    /// A column of words.
    pub fn words(title: impl Into<String>, width: u16) -> Self {
        Self {
            title: title.into(),
            width,
            grows: false,
            figures: false,
        }
    }

    /// A column of figures.
    pub fn figures(title: impl Into<String>, width: u16) -> Self {
        Self {
            figures: true,
            ..Self::words(title, width)
        }
    }

    /// The same column, taking the room that is left over.
    #[must_use]
    pub fn growing(mut self) -> Self {
        self.grows = true;
        self
    }
}

/// What Enter does after it has committed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Enter {
    /// To the same column of the next row.
    Down,
    /// To the next cell of the row that can be filled in; at its end to the
    /// next row.
    Along,
    /// To the first cell of the next row that is still to be filled in.
    NextRow,
}

/// What a grid shows and how it is filled in.
pub trait Sheet {
    /// The columns, in order; never none.
    fn columns(&self) -> &[Column];
    /// How many rows there are.
    fn rows(&self) -> usize;
    /// The lasting name of a row: it stays the row's own when others come or
    /// go.
    fn key(&self, row: usize) -> u32;
    /// What a cell holds.
    fn cell(&self, row: usize, column: usize) -> Cell;
    /// What Enter does.
    fn enter(&self) -> Enter {
        Enter::Along
    }
    /// Whether a row is handed in whole, when it is left or on Enter, rather
    /// than cell by cell.
    fn whole_row(&self, _row: usize) -> bool {
        false
    }
    /// The column in which typing looks for a row, if there is one.
    fn finder(&self) -> Option<usize> {
        None
    }
    /// Whether a row is the one that is looked for with `text`.
    fn found(&self, _row: usize, _text: &str) -> bool {
        false
    }
    /// Whether what is typed in a cell is complete, so that the cursor may
    /// move on by itself.
    fn complete(&self, _row: usize, _column: usize, _text: &str) -> bool {
        false
    }
    /// Where a text stops to belong to its cell: what follows is typed into
    /// the next cell that is to be filled in.
    fn spill(&self, _row: usize, _column: usize, _text: &str) -> Option<usize> {
        None
    }
    /// Whether a blank typed at the beginning of a cell goes on with what was
    /// typed in the cell before.
    fn extends(&self, _row: usize, _column: usize, _text: &str) -> bool {
        false
    }
}
