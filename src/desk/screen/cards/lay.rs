//! Where the cells of clipboard text lie on a card.

use std::collections::BTreeMap;

use super::read::{attempt_of, load_column};
use super::sheet::CardSheet;
use crate::desk::widget::grid::{Sheet, Spot};
use crate::measure::Unit;
use crate::roster::Entry;

/// The cells of clipboard text: tabs part them, line ends part rows, a cell
/// in double quotes may hold both, with quotes doubled inside (common practice
/// of spreadsheet programs).
pub fn cells(text: &str) -> Vec<Vec<String>> {
    let mut rows = vec![vec![String::new()]];
    let mut chars = text.chars().peekable();
    let mut quoted = false;
    while let Some(c) = chars.next() {
        let Some(cell) = rows.last_mut().and_then(|row| row.last_mut()) else {
            break;
        };
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => {
                let _ = chars.next();
                cell.push('"');
            }
            '"' if quoted => quoted = false,
            '"' if cell.is_empty() => quoted = true,
            '\r' | '\n' if quoted => cell.push(' '),
            '\t' if !quoted => {
                if let Some(row) = rows.last_mut() {
                    row.push(String::new());
                }
            }
            '\r' | '\n' => {
                if c == '\r' && chars.peek() == Some(&'\n') {
                    let _ = chars.next();
                }
                rows.push(vec![String::new()]);
            }
            c => cell.push(c),
        }
    }
    for cell in rows.iter_mut().flatten() {
        *cell = cell.trim().to_owned();
    }
    rows
}

/// A pasted cell on its place.
pub(super) struct Placed {
    /// Its column on the card.
    pub(super) column: usize,
    /// Its column in what was pasted, from 1.
    pub(super) across: usize,
    /// Its text.
    pub(super) text: String,
}

/// A pasted row on its place.
pub(super) struct PlacedRow {
    /// The row of the card.
    pub(super) at: usize,
    /// The row in what was pasted, from 1.
    pub(super) line: usize,
    /// Its cells that aren't blank.
    pub(super) cells: Vec<Placed>,
}

impl PlacedRow {
    /// Row and column in what was pasted of a column of the card, or of the
    /// attempt that it belongs to.
    pub(super) fn place(&self, column: usize) -> (usize, usize) {
        let own = self.cells.iter().find(|c| c.column == column);
        let same = |c: &&Placed| {
            attempt_of(c.column).map(|a| a.0) == attempt_of(column).map(|a| a.0)
        };
        let near = own.or_else(|| self.cells.iter().find(same));
        (
            self.line,
            near.or(self.cells.first()).map_or(1, |c| c.across),
        )
    }
}

/// Row and column in what was pasted, from 1, and what is wrong there.
pub(super) type Fault = ((usize, usize), String);

/// How a pasted block lies on the card.
struct Lay {
    /// Whether its first column names the lots; then rows may come in any
    /// order.
    by_lot: bool,
    /// Which of its columns has the names, if one has.
    names: Option<usize>,
    /// Its first column with loads or rulings.
    from: usize,
    /// The card's column of that.
    to: usize,
    /// Whether a cell holds a whole attempt, such as `60 g`.
    whole: bool,
}

impl Lay {
    fn of(table: &[Vec<String>], at: Spot) -> Self {
        let by_lot = at.column == 0;
        let names = match at.column {
            0 if has_names(table) => Some(1),
            1 => Some(0),
            _ => None,
        };
        let from = usize::from(by_lot) + usize::from(names.is_some());
        let results = table.iter().flat_map(|row| row.iter().skip(from));
        Self {
            by_lot,
            names,
            from,
            to: at.column.max(load_column(1)),
            whole: results.into_iter().any(|text| split(text).is_some()),
        }
    }

    /// A pasted cell's text on the columns of the card.
    fn cell(&self, across: usize, text: &str) -> Vec<(usize, String)> {
        if !self.whole {
            return vec![(self.to + across - self.from, text.to_owned())];
        }
        let first = attempt_of(self.to).map_or(1, |(attempt, _)| usize::from(attempt));
        let load = (first + across - self.from) * 2;
        match split(text) {
            Some((own, ruling)) => vec![(load, own), (load + 1, ruling)],
            None if text.starts_with(|c: char| c.is_ascii_digit()) => {
                vec![(load, text.to_owned())]
            }
            None => vec![(load + 1, text.to_owned())],
        }
    }
}

/// Whether the second column of a block that begins with lots has names.
fn has_names(table: &[Vec<String>]) -> bool {
    let second = || {
        table
            .iter()
            .filter_map(|row| row.get(1))
            .filter(|t| !t.is_empty())
    };
    let name = |text: &String| {
        text.chars().count() > 1
            && text.starts_with(char::is_alphabetic)
            && !matches!(
                text.to_lowercase().as_str(),
                "good" | "no" | "pass" | "time"
            )
    };
    second().next().is_some() && second().all(name)
}

/// Load and ruling of a cell that holds both: `60 g`, `62.5 kg no`.
fn split(text: &str) -> Option<(String, String)> {
    if !text.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let at = text.find(char::is_alphabetic)?;
    let (load, rest) = text.split_at(at);
    let word = rest
        .split(|c: char| !c.is_alphabetic())
        .next()
        .unwrap_or("");
    let (load, rest) = match Unit::parse(&word.to_lowercase()) {
        Some(_) => text.split_at(at + word.len()),
        None => (load, rest),
    };
    let ruling = rest.trim();
    (!ruling.is_empty()).then(|| (load.trim().to_owned(), ruling.to_owned()))
}

/// Puts a block on the card; what has no place there is a fault.
pub(super) fn place(
    table: &[Vec<String>],
    sheet: &CardSheet<'_>,
    at: Spot,
    faults: &mut Vec<Fault>,
) -> Vec<PlacedRow> {
    let header = at.column == 0 && is_header(table);
    let lay = Lay::of(&table[usize::from(header)..], at);
    let mut rows = Vec::new();
    let mut seen: BTreeMap<usize, usize> = BTreeMap::new();
    for (n, row) in table.iter().enumerate().skip(usize::from(header)) {
        let line = n + 1;
        if row.iter().all(String::is_empty) {
            continue;
        }
        let to = match lay.by_lot {
            true => lot_row(&row[0], sheet),
            false => Some(at.row + n)
                .filter(|at| *at < sheet.rows())
                .ok_or_else(|| {
                    format!(
                        "the card has no row for it: it ends {} rows on",
                        sheet.rows() - at.row
                    )
                }),
        };
        let to = match to {
            Ok(to) => to,
            Err(why) => {
                faults.push(((line, 1), why));
                continue;
            }
        };
        if let Some(before) = seen.insert(to, line) {
            faults.push(((line, 1), format!("that lot is in row {before} already")));
            continue;
        }
        let entry = sheet.entry(to);
        if let (Some(entry), Some(column)) = (entry, lay.names)
            && let Some(name) = row.get(column)
            && !is_name_of(name, entry)
        {
            let (lot, own) = (entry.number, entry.name());
            faults.push((
                (line, column + 1),
                format!("lot {lot} is {own} here, not “{name}”"),
            ));
        }
        let mut cells = Vec::new();
        for (across, text) in row.iter().enumerate().skip(lay.from) {
            if text.is_empty() {
                continue;
            }
            for (column, text) in lay.cell(across, text) {
                let across = across + 1;
                if sheet.cell(to, column).open {
                    cells.push(Placed {
                        column,
                        across,
                        text,
                    });
                } else {
                    faults.push((
                        (line, across),
                        format!("the card has no cell for “{text}”"),
                    ));
                }
            }
        }
        if !cells.is_empty() {
            rows.push(PlacedRow {
                at: to,
                line,
                cells,
            });
        }
    }
    rows
}

/// Whether the first row has titles.
fn is_header(table: &[Vec<String>]) -> bool {
    let first = table.first().and_then(|row| row.first());
    first.is_some_and(|text| {
        let title = text.to_lowercase();
        matches!(
            title.as_str(),
            "lot" | "no" | "no." | "number" | "start number"
        )
    })
}

fn lot_row(text: &str, sheet: &CardSheet<'_>) -> Result<usize, String> {
    let number = text.parse::<u16>().map_err(|_| {
        format!(
            "“{text}” is no lot; paste from a load's cell where the lots aren't copied"
        )
    })?;
    let row = sheet.row_of_number(number);
    row.ok_or_else(|| format!("lot {number} isn't on this card"))
}

/// Whether a word of a name is one of the athlete's.
fn is_name_of(text: &str, entry: &Entry) -> bool {
    let words = |text: &str| -> Vec<String> {
        let parts = text.split(|c: char| !c.is_alphanumeric());
        parts
            .filter(|w| !w.is_empty())
            .map(str::to_lowercase)
            .collect()
    };
    let own = words(&entry.name());
    let given = words(text);
    given.is_empty() || given.iter().any(|word| own.contains(word))
}
