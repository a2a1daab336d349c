//! Where the cursor goes next.

use super::model::Spot;
use super::sheet::Sheet;

/// The next cell of the row that is to be filled in.
pub(super) fn along(from: Spot, sheet: &dyn Sheet) -> Option<Spot> {
    (from.column + 1..sheet.columns().len())
        .find(|c| sheet.cell(from.row, *c).stop)
        .map(|column| Spot { column, ..from })
}

/// The cell before that is to be filled in, in this row or one above.
pub(super) fn back(from: Spot, sheet: &dyn Sheet) -> Option<Spot> {
    let stop = |row: usize, below: usize| {
        (0..below)
            .rev()
            .find(|c| sheet.cell(row, *c).stop)
            .map(|column| Spot { row, column })
    };
    stop(from.row, from.column).or_else(|| {
        let above = from.row.checked_sub(1)?;
        stop(above, sheet.columns().len())
    })
}

/// The first cell of the next row that is to be filled in.
pub(super) fn next_row(from: Spot, sheet: &dyn Sheet) -> Spot {
    let after = (from.row + 1..sheet.rows())
        .find(|row| has_stop(*row, sheet))
        .unwrap_or((from.row + 1).min(sheet.rows() - 1));
    first_stop(after, sheet)
}

fn has_stop(row: usize, sheet: &dyn Sheet) -> bool {
    (0..sheet.columns().len()).any(|c| sheet.cell(row, c).stop)
}

/// The first cell of a row that is to be filled in, else its first column.
pub(super) fn first_stop(row: usize, sheet: &dyn Sheet) -> Spot {
    let column = (0..sheet.columns().len()).find(|c| sheet.cell(row, *c).stop);
    Spot {
        row,
        column: column.unwrap_or(0),
    }
}
