//! How a table looks.

/// The look of a table: type size, row height, boxes to write in.
///
/// Columns are named by their key. The type is set as large as asked for, and
/// smaller only where the columns wouldn't fit side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct TableStyle {
    /// Type size in points, where the columns fit.
    pub size: f32,
    /// The smallest type size before texts are broken into lines.
    pub smallest: f32,
    /// Least height of a row in points.
    pub row_height: f32,
    /// Columns whose cells are boxes to write in.
    pub boxes: Vec<String>,
    /// Least width of such a box in points.
    pub box_width: f32,
    /// Columns of a width of their own in points, mostly boxes, which get no share
    /// of what is left over.
    pub widths: Vec<(String, f32)>,
    /// Columns with a gap before them.
    pub parted: Vec<String>,
    /// Columns and what stands small above their cells, at the left.
    pub above: Vec<(String, String)>,
    /// Columns and what stands small beneath their cells, on three lines at most.
    pub beneath: Vec<(String, String)>,
    /// Columns set in bold.
    pub bold: Vec<String>,
    /// Most lines of a cell; a longer text is cut short.
    pub lines: usize,
    /// What stands where there is no row.
    pub empty: String,
    /// Whether a group stays on one page if one page can hold it.
    pub whole: bool,
    /// What the table is called on the pages on which it goes on; mostly nothing,
    /// where the groups' headings or the page's title say enough.
    pub name: String,
}

impl TableStyle {
    /// For a notice board: 14 points where that fits, ample rows.
    pub fn posted() -> Self {
        Self::with(14.0, 9.5, 22.0)
    }

    /// For a desk: 10 points, close rows.
    pub fn working() -> Self {
        Self::with(10.0, 7.5, 16.0)
    }

    /// For a pencil: 11 points, rows of 28 points.
    pub fn to_fill_in() -> Self {
        Self::with(11.0, 8.5, 28.0)
    }

    fn with(size: f32, smallest: f32, row_height: f32) -> Self {
        Self {
            size,
            smallest,
            row_height,
            boxes: Vec::new(),
            box_width: 44.0,
            widths: Vec::new(),
            parted: Vec::new(),
            above: Vec::new(),
            beneath: Vec::new(),
            bold: Vec::new(),
            lines: 2,
            empty: "Nothing here yet.".to_owned(),
            whole: false,
            name: String::new(),
        }
    }

    /// The same, in another type size; the smallest follows if it is larger.
    #[must_use]
    pub const fn size(mut self, points: f32) -> Self {
        self.size = points;
        self.smallest = self.smallest.min(points);
        self
    }

    /// The same, with rows at least this high in points.
    #[must_use]
    pub const fn row_height(mut self, points: f32) -> Self {
        self.row_height = points;
        self
    }

    /// The same, with boxes to write in for the columns of these keys.
    #[must_use]
    pub fn boxes<K: Into<String>>(mut self, keys: impl IntoIterator<Item = K>) -> Self {
        self.boxes = keys.into_iter().map(Into::into).collect();
        self
    }

    /// The same, with boxes at least this wide in points.
    #[must_use]
    pub const fn box_width(mut self, points: f32) -> Self {
        self.box_width = points;
        self
    }

    /// The same, with these columns exactly so many points wide, where their cells
    /// fit.
    #[must_use]
    pub fn widths<K: Into<String>>(
        mut self,
        widths: impl IntoIterator<Item = (K, f32)>,
    ) -> Self {
        self.widths = widths.into_iter().map(|(k, w)| (k.into(), w)).collect();
        self
    }

    /// The same, with a gap before the columns of these keys.
    #[must_use]
    pub fn parted<K: Into<String>>(mut self, keys: impl IntoIterator<Item = K>) -> Self {
        self.parted = keys.into_iter().map(Into::into).collect();
        self
    }

    /// The same, with the second column's cell small above the first one's.
    ///
    /// The second column needs no heading, so that it isn't shown on its own.
    #[must_use]
    pub fn above(mut self, column: impl Into<String>, small: impl Into<String>) -> Self {
        self.above.push((column.into(), small.into()));
        self
    }

    /// The same, with the second column's cell small beneath the first one's.
    ///
    /// The second column needs no heading, so that it isn't shown on its own.
    #[must_use]
    pub fn beneath(
        mut self,
        column: impl Into<String>,
        small: impl Into<String>,
    ) -> Self {
        self.beneath.push((column.into(), small.into()));
        self
    }

    /// The same, with the columns of these keys in bold.
    #[must_use]
    pub fn bold<K: Into<String>>(mut self, keys: impl IntoIterator<Item = K>) -> Self {
        self.bold = keys.into_iter().map(Into::into).collect();
        self
    }

    /// The same, with cells of at most so many lines; 0 counts as 1.
    #[must_use]
    pub const fn lines(mut self, most: usize) -> Self {
        self.lines = most;
        self
    }

    /// The same, with no group broken over pages that one page can hold.
    #[must_use]
    pub const fn whole_groups(mut self) -> Self {
        self.whole = true;
        self
    }

    /// The same, with its name and `, continued` above the column headings of every
    /// page on which it goes on.
    #[must_use]
    pub fn goes_on_as(mut self, name: impl Into<String>) -> Self {
        self.name = name.into();
        self
    }

    /// The same, with other words where there is no row.
    #[must_use]
    pub fn empty(mut self, words: impl Into<String>) -> Self {
        self.empty = words.into();
        self
    }
}
