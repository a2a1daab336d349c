//! Cells from a spreadsheet, put on a card from the cell in hand.
//!
//! Pure: text in, drafts and commands out. All of it can be read, or a
//! sentence names every cell that can't.

use super::lay::{Fault, cells, place};
use super::read::{load_column, read_row, unreadable};
use super::sheet::CardSheet;
use crate::day::{Command, Facts};
use crate::desk::widget::grid::{Grid, Sheet};

/// How many faults are told with their reason, at most.
const TOLD: usize = 3;

/// How many more are named by their place, at most.
const NAMED: usize = 20;

/// One act that pasted cells ask for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pending {
    /// The row's name.
    pub row: u32,
    /// Where it stands on the card; never none.
    pub columns: Vec<usize>,
    /// Where it stands in what was pasted and what it is, for a sentence.
    pub place: String,
    /// What is to be done.
    pub command: Command,
}

/// What was pasted and isn't recorded yet.
#[derive(Debug, Clone)]
pub struct Pasted {
    /// The grid before, to go back to.
    pub before: Grid,
    /// What is new, in order: recorded together or not at all.
    pub steps: Vec<Pending>,
    /// Cells that say what stands already.
    pub same: Vec<(u32, usize)>,
    /// How many attempts stand otherwise.
    pub differs: usize,
    /// How many rows had something in them.
    pub rows: usize,
    /// Whether it would be refused, as of a place in the journal.
    pub tried: Option<(u64, Result<(), String>)>,
}

impl Pasted {
    /// What Enter will do, as a sentence; or why it can't.
    pub fn line(&self) -> Result<String, String> {
        if let Some((_, Err(sentence))) = &self.tried {
            return Err(format!(
                "{sentence} Nothing is recorded; Esc takes the pasted cells away."
            ));
        }
        let requests = self
            .steps
            .iter()
            .filter(|s| matches!(s.command, Command::Request { .. }))
            .count();
        let mut parts = Vec::new();
        let mut say = |n: usize, one: &str, many: &str| {
            if n > 0 {
                parts.push(format!("{n} {}", if n == 1 { one } else { many }));
            }
        };
        say(
            self.steps.len() - requests,
            "attempt is new",
            "attempts are new",
        );
        say(requests, "request is new", "requests are new");
        say(
            self.differs,
            "attempt stands otherwise",
            "attempts stand otherwise",
        );
        let what = match parts.is_empty() {
            true => "all of it stands already".to_owned(),
            false => parts.join(", "),
        };
        let rows = if self.rows == 1 { "row" } else { "rows" };
        let enter = match (self.steps.is_empty(), self.differs) {
            (true, 0) => "Enter goes on".to_owned(),
            (true, _) => "Enter compares".to_owned(),
            (false, 0) => "Enter records all at once".to_owned(),
            (false, _) => "Enter records what is new at once, then compares".to_owned(),
        };
        let n = self.rows;
        Ok(format!(
            "{n} {rows} pasted: {what}. {enter}; Esc takes them away."
        ))
    }
}

/// Reads what was pasted from a spot of a card on, and types it into the grid.
///
/// # Errors
/// A sentence that names the cells that can't be read, by row and column of
/// what was pasted; the grid is as it was.
pub fn paste(
    text: &str,
    facts: &Facts,
    sheet: &CardSheet<'_>,
    grid: &mut Grid,
) -> Result<Pasted, String> {
    let table = cells(text);
    let mut faults = Vec::new();
    let rows = place(&table, sheet, grid.cursor, &mut faults);
    let mut after = grid.clone();
    for row in &rows {
        for cell in &row.cells {
            after.write(sheet.key(row.at), cell.column, cell.text.clone());
        }
    }
    let mut pasted = Pasted {
        before: grid.clone(),
        steps: Vec::new(),
        same: Vec::new(),
        differs: 0,
        rows: rows.len(),
        tried: None,
    };
    for row in &rows {
        let Some(entry) = sheet.entry(row.at) else {
            continue;
        };
        let unread: Vec<Fault> = row
            .cells
            .iter()
            .filter_map(|cell| {
                let why =
                    unreadable(facts, entry, sheet.slot(), cell.column, &cell.text)?;
                let number = entry.number;
                Some(((row.line, cell.across), format!("lot {number}: {why}")))
            })
            .collect();
        if !unread.is_empty() {
            // What else is wrong in the row may come of these.
            faults.extend(unread);
            continue;
        }
        let key = sheet.key(row.at);
        let typed = |column: usize| after.draft(key, column).map(|d| d.text.clone());
        let read = read_row(facts, entry, sheet.slot(), &typed);
        for (column, sentence) in read.faults {
            faults.push((
                row.place(column),
                format!("lot {}: {sentence}", entry.number),
            ));
        }
        for step in read.steps {
            let column = load_column(step.attempt);
            let (line, across) = row.place(column);
            pasted.steps.push(Pending {
                row: key,
                columns: vec![column, column + 1],
                place: format!("Row {line}, column {across} (lot {})", entry.number),
                command: step.command,
            });
        }
        pasted.same.extend(read.same.into_iter().map(|c| (key, c)));
        pasted.differs += read.differs.len();
    }
    if !faults.is_empty() {
        faults.sort();
        return Err(said(&faults));
    }
    if rows.is_empty() {
        return Err("Nothing is in the cells that were pasted.".to_owned());
    }
    *grid = after;
    Ok(pasted)
}

/// All faults in one sentence: some with their reason, the others by place.
fn said(faults: &[Fault]) -> String {
    let mut parts: Vec<String> = faults
        .iter()
        .take(TOLD)
        .map(|((row, column), why)| {
            let why = why.trim_end_matches('.');
            format!("row {row}, column {column}, {why}")
        })
        .collect();
    let others = faults.get(TOLD..).unwrap_or_default();
    let named: Vec<String> = others
        .iter()
        .take(NAMED)
        .map(|((row, column), _)| format!("row {row} column {column}"))
        .collect();
    if !named.is_empty() {
        let more = match others.len().saturating_sub(NAMED) {
            0 => String::new(),
            n => format!(" and {n} more cells"),
        };
        parts.push(format!("also {}{more}", named.join(", ")));
    }
    format!("Nothing was pasted: {}.", parts.join("; "))
}
