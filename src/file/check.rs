//! Checking a meet file: is it what was written, and does it say one thing?

use std::collections::BTreeSet;
use std::fmt;
use std::path::Path;

use rusqlite::Row;
use rusqlite::types::ValueRef;

use super::error::{FileError, one_line};
use super::journal::{
    self, CHAINED, COLUMNS, Chain, Digest32, RowError, Tail, private_digest,
};
use super::open::{self, Store};
use super::shape::KINDS;
use super::views;
use crate::day::{Day, Event, Recorded, apply};

/// The most faults that a report lists one by one.
const MOST_FAULTS: usize = 20;

/// The most events that are folded over again to compare.
const MOST_STEPS: usize = 5_000_000;

/// What checking a file found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CheckReport {
    /// What was looked at, one sentence each.
    pub lines: Vec<String>,
    /// What is wrong, one sentence each; empty where the file is sound.
    pub faults: Vec<String>,
}

impl CheckReport {
    /// Whether nothing is wrong.
    pub const fn is_sound(&self) -> bool {
        self.faults.is_empty()
    }
}

impl fmt::Display for CheckReport {
    /// Writes all lines; the last one is `sound` where nothing is wrong.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for line in &self.lines {
            writeln!(f, "{line}")?;
        }
        if self.is_sound() {
            return f.write_str("sound");
        }
        for (n, fault) in self.faults.iter().take(MOST_FAULTS).enumerate() {
            if n > 0 {
                writeln!(f)?;
            }
            write!(f, "{fault}")?;
        }
        match self.faults.len().saturating_sub(MOST_FAULTS) {
            0 => Ok(()),
            more => write!(f, "\nand {more} more faults."),
        }
    }
}

/// Checks a meet file without changing it.
///
/// Looks at SQLite's own structure, the chain of the journal, identifiers,
/// private parts, the shape of every event, whether folding twice says the
/// same, and whether the read views say what the fold says.
///
/// # Errors
/// [`FileError`] where the file can't be opened as a day at all.
pub fn check(path: &Path) -> Result<CheckReport, FileError> {
    let store = open::open_to_read(path)?;
    let look = store.look()?;
    let mut report = CheckReport {
        lines: Vec::new(),
        faults: Vec::new(),
    };
    structure(&store, &mut report);
    let rows = match walk(&store, &mut report) {
        Ok(rows) => rows,
        Err(error) => {
            report.faults.push(format!(
                "The journal can't be read to its end: {}.",
                one_line(&error.to_string())
            ));
            return Ok(report);
        }
    };
    folding(&store, &rows, &mut report);
    drop(look);
    Ok(report)
}

fn structure(store: &Store, report: &mut CheckReport) {
    let ask = || -> rusqlite::Result<Vec<String>> {
        let mut query = store.conn.prepare("PRAGMA integrity_check")?;
        query.query_map([], |row| row.get(0))?.collect()
    };
    match ask() {
        Ok(lines) if lines == ["ok"] => report.lines.push("Database: whole.".into()),
        Ok(lines) => {
            // Each answer may be several lines, under one that names the database.
            let found = lines.iter().flat_map(|l| l.lines()).map(str::trim);
            let first = found
                .filter(|l| !l.starts_with("***"))
                .find(|l| !l.is_empty());
            let first = first.unwrap_or("its pages don't fit together");
            report.faults.push(format!(
                "The database is damaged: {}.",
                first.trim_end_matches('.')
            ));
        }
        Err(error) => report.faults.push(format!(
            "The database is damaged: {}.",
            one_line(&error.to_string())
        )),
    }
}

/// What is gathered on the way through the journal.
#[derive(Default)]
struct Walk {
    before: Digest32,
    tail: Tail,
    last: u64,
    n_rows: usize,
    ids: BTreeSet<String>,
    acts: BTreeSet<String>,
    act: String,
    n_private: usize,
    n_erased: usize,
    rows: Vec<Recorded>,
}

fn walk(store: &Store, report: &mut CheckReport) -> rusqlite::Result<Vec<Recorded>> {
    let mut query = store
        .conn
        .prepare(&format!("SELECT {COLUMNS} FROM journal ORDER BY seq"))?;
    let mut rows = query.query([])?;
    let mut walk = Walk::default();
    let faults = report.faults.len();
    while let Some(row) = rows.next()? {
        step(row, &mut walk, &mut report.faults)?;
    }
    if walk.n_rows == 0 {
        report.faults.push("The journal is empty.".into());
    }
    if report.faults.len() == faults {
        report.lines.push(format!(
            "Journal: {} rows in {} acts, their chain whole.",
            walk.n_rows,
            walk.acts.len()
        ));
        report.lines.push(format!(
            "Private parts: {} kept, {} erased.",
            walk.n_private, walk.n_erased
        ));
    }
    Ok(walk.rows)
}

fn step(
    row: &Row<'_>,
    walk: &mut Walk,
    faults: &mut Vec<String>,
) -> rusqlite::Result<()> {
    walk.n_rows += 1;
    let seq: i64 = row.get(0)?;
    let seq = u64::try_from(seq).unwrap_or(0);
    if seq != walk.last + 1 {
        let missing = walk.last + 1;
        faults.push(match seq.checked_sub(1) {
            Some(before) if before > missing => {
                format!("Rows {missing} to {before} are missing.")
            }
            _ => format!("Row {missing} is missing."),
        });
    }
    walk.last = seq;

    let mut chain = Chain::after(&walk.before);
    for n in 0..CHAINED {
        chain.put(row.get_ref(n)?);
    }
    let stored: Option<Digest32> = match row.get_ref(14)? {
        ValueRef::Blob(bytes) => bytes.try_into().ok(),
        _ => None,
    };
    let is_whole = stored == Some(chain.end());
    let kind = lossy(row.get_ref(9)?);
    if !is_whole {
        let known = KINDS.iter().any(|(k, _)| *k == kind);
        let kind = if known {
            format!(" ({kind})")
        } else {
            String::new()
        };
        faults.push(format!("Row {seq}{kind} is not as it was written."));
    }
    // The next row is judged by what this one says, so that only it is named.
    walk.before = stored.unwrap_or_default();

    if !walk.ids.insert(lossy(row.get_ref(1)?)) {
        faults.push(format!("Row {seq} has the id of an earlier row."));
    }
    let act = lossy(row.get_ref(2)?);
    if act != walk.act {
        if !walk.acts.insert(act.clone()) {
            faults.push(format!(
                "Row {seq} belongs to an act that had ended: {}.",
                one_line(&act)
            ));
        }
        walk.act = act;
    }
    private(row, seq, walk, faults)?;

    match journal::recorded(row, &mut walk.tail) {
        Ok(recorded) => walk.rows.push(recorded),
        Err(RowError::Column(error)) if is_whole => return Err(error),
        Err(error) if is_whole => {
            let error = one_line(&error.to_string());
            faults.push(format!("Row {seq} can't be read: {error}."));
        }
        // It is named already.
        Err(_) => {}
    }
    Ok(())
}

fn private(
    row: &Row<'_>,
    seq: u64,
    walk: &mut Walk,
    faults: &mut Vec<String>,
) -> rusqlite::Result<()> {
    let digest = row.get_ref(12)?;
    match (row.get_ref(13)?, digest) {
        (ValueRef::Null, ValueRef::Null) => {}
        (ValueRef::Null, _) => walk.n_erased += 1,
        (ValueRef::Text(bytes), ValueRef::Blob(digest)) => {
            walk.n_private += 1;
            let text = String::from_utf8_lossy(bytes);
            if private_digest(&text).as_slice() != digest {
                faults.push(format!(
                    "The private part of row {seq} is not as it was written."
                ));
            }
        }
        _ => faults.push(format!(
            "The private part of row {seq} is not as it was written."
        )),
    }
    Ok(())
}

fn lossy(value: ValueRef<'_>) -> String {
    match value {
        ValueRef::Text(bytes) => String::from_utf8_lossy(bytes).into_owned(),
        other => format!("{other:?}"),
    }
}

fn folding(store: &Store, rows: &[Recorded], report: &mut CheckReport) {
    if !matches!(rows.first().map(|r| &r.event), Some(Event::DayMade { .. })) {
        report
            .faults
            .push("The first row doesn't make a day.".into());
        return;
    }
    let day = Day::from_journal(rows.iter().cloned());
    if again(rows).facts() == day.facts() {
        report.lines.push(format!(
            "Day: {} entries; act by act and folded at once, it is the same.",
            day.facts().entries.len()
        ));
    } else {
        report.faults.push(
            "Act by act, the journal gives another day than folded at once.".into(),
        );
    }
    let last = rows.last().map_or(0, |r| r.seq);
    match views::upto(store) {
        Ok(Some(upto)) if upto == last => {
            let differences = views::differences(store, &day);
            if differences.is_empty() {
                report.lines.push("Read views: as the journal says.".into());
            }
            report.faults.extend(differences);
        }
        Ok(Some(upto)) if upto > last => report.faults.push(format!(
            "The journal ends at row {last}, but had {upto} rows when its views were written."
        )),
        Ok(upto) => report.lines.push(format!(
            "Read views: written up to row {}; they follow when the day is next closed.",
            upto.unwrap_or(0)
        )),
        Err(error) => report.faults.push(error.to_string()),
    }
}

/// The day as it was act by act, as long as that is a matter of seconds: each
/// undo and correction folds all before it anew.
fn again(rows: &[Recorded]) -> Day {
    let n_anew = rows
        .iter()
        .filter(|r| r.event.is_about_acts() || matches!(r.event, Event::Corrected { .. }))
        .count();
    if n_anew.saturating_mul(rows.len()) > MOST_STEPS {
        return Day::from_journal(rows.iter().cloned());
    }
    let mut day = Day::new();
    for row in rows {
        apply(&mut day, row);
    }
    day
}
