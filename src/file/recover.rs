//! Saving what a damaged day still vouches for.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use rusqlite::types::{Value, ValueRef};
use rusqlite::{OpenFlags, params_from_iter};
use uuid::Uuid;

use super::error::{FileError, shown};
use super::journal::{self, CHAINED, COLUMNS, Chain, Digest32, Tail, new_id};
use super::open::{self, Store};
use super::plan::whole;
use super::scan::{self, Record};
use super::{host, views};
use crate::day::{Day, Event, Recorded, Stamp};

/// The journal's columns, in the order of the table: where each one of
/// [`COLUMNS`] stands. The private part stands before its digest.
const STORED: [usize; 15] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 12, 14];

/// What was saved of a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recovered {
    /// Rows of the journal, the first ones without a gap.
    pub n_rows: u64,
    /// Acts that they belong to.
    pub n_acts: usize,
    /// Entries of the day as it was then.
    pub n_entries: usize,
    /// What was left out and why, one sentence each; empty where nothing was.
    pub left_out: Vec<String>,
}

/// Saves the rows that the chain vouches for into a new day.
///
/// These are the rows from the first to the one before the first that is
/// missing or isn't as it was written. They are read from the pages
/// themselves, so it works where SQLite calls the file malformed. What a
/// crash had cut off is taken back as usual, in a copy. The file itself is
/// only read.
///
/// # Errors
/// [`FileError`]; there is no new file then.
pub fn recover(path: &Path, to: &Path, now: Stamp) -> Result<Recovered, FileError> {
    open::look_at(path)?;
    let found = scan::records(&settled(path, to)?);
    let upto = had_rows(&found);
    let found = candidates(found);
    let mut sound = Sound::walk(&found);
    if sound.rows.is_empty() {
        return Err(FileError::NothingSound {
            path: shown(path),
            why: sound.stop(&found, upto).unwrap_or_default(),
        });
    }
    if let Some(why) = sound.stop(&found, upto) {
        sound.left_out.insert(0, why);
    }
    let store = open::make(to)?;
    let written = write(&store, path, &sound, now);
    drop(store);
    if written.is_err() {
        let _ = std::fs::remove_file(to);
    }
    written
}

/// The bytes of the file as they are once what a crash cut off is taken back.
///
/// That is SQLite's to do, and changes the file; so a copy of it and of its
/// journal is made beside the new file.
fn settled(path: &Path, to: &Path) -> Result<Vec<u8>, FileError> {
    let read = |path: &Path| std::fs::read(path).map_err(|e| FileError::of_io(path, &e));
    let cut_off = beside(path, "-journal");
    if !cut_off.exists() {
        return read(path);
    }
    let part = beside(to, &format!(".{}.part", Uuid::new_v4().simple()));
    let settle = || -> Result<Vec<u8>, FileError> {
        let fail = |e: std::io::Error| FileError::of_io(to, &e);
        let _ = std::fs::copy(path, &part).map_err(fail)?;
        let _ = std::fs::copy(&cut_off, beside(&part, "-journal")).map_err(fail)?;
        if let Ok(store) = open::connect(&part, OpenFlags::SQLITE_OPEN_READ_WRITE) {
            // Where this fails, what is in the file has to do.
            let _ = store.conn.query_row(
                "SELECT count(*) FROM sqlite_schema",
                [],
                |_| Ok(()),
            );
        }
        read(&part)
    };
    let bytes = settle();
    let _ = std::fs::remove_file(beside(&part, "-journal"));
    let _ = std::fs::remove_file(&part);
    bytes
}

fn beside(path: &Path, end: &str) -> PathBuf {
    let mut name = path.as_os_str().to_os_string();
    name.push(end);
    name.into()
}

/// How many rows the journal had when its read views were written last.
fn had_rows(found: &[Record]) -> u64 {
    let told = found
        .iter()
        .filter_map(|record| match record.columns.as_slice() {
            [Value::Text(key), Value::Text(upto)] if key == "seen_upto" => {
                upto.parse().ok()
            }
            _ => None,
        });
    told.max().unwrap_or(0)
}

/// Rows by their place; several where old bytes still stand somewhere.
type Candidates = BTreeMap<u64, Vec<Vec<Value>>>;

fn candidates(found: Vec<Record>) -> Candidates {
    let mut rows = Candidates::new();
    for record in found {
        let Ok(seq) = u64::try_from(record.row) else {
            continue;
        };
        if record.columns.len() != STORED.len() {
            continue;
        }
        let mut row: Vec<Value> =
            STORED.iter().map(|n| record.columns[*n].clone()).collect();
        row[0] = Value::Integer(record.row);
        let looks_so = matches!(
            (&row[1], &row[9], &row[11], &row[14]),
            (
                Value::Text(_),
                Value::Text(_),
                Value::Text(_),
                Value::Blob(_)
            )
        );
        let rows = rows.entry(seq).or_default();
        if looks_so && !rows.contains(&row) {
            rows.push(row);
        }
    }
    rows.retain(|_, rows| !rows.is_empty());
    rows
}

/// The rows that the chain vouches for.
struct Sound {
    rows: Vec<Vec<Value>>,
    left_out: Vec<String>,
}

impl Sound {
    fn walk(found: &Candidates) -> Self {
        let mut sound = Self {
            rows: Vec::new(),
            left_out: Vec::new(),
        };
        let mut before = Digest32::default();
        for seq in 1.. {
            let Some(rows) = found.get(&seq) else { break };
            let mut chained: Vec<&Vec<Value>> =
                rows.iter().filter(|r| is_chained(r, &before)).collect();
            // A part that was erased stays so, whatever old bytes still say.
            chained.sort_by_key(|row| match private(row) {
                Private::Erased | Private::None => 0,
                Private::Kept => 1,
                Private::Damaged => 2,
            });
            let Some(row) = chained.first() else { break };
            let mut row = (*row).clone();
            if let Private::Damaged = private(&row) {
                row[13] = Value::Null;
                sound.left_out.push(format!(
                    "The private part of row {seq} is not as it was written and was left out \
                     as if it had been erased."
                ));
            }
            if let Value::Blob(digest) = &row[14] {
                before = digest.as_slice().try_into().unwrap_or_default();
            }
            sound.rows.push(row);
        }
        sound
    }

    /// Why it ends there, if anything says that there was more.
    fn stop(&self, found: &Candidates, upto: u64) -> Option<String> {
        let next = self.rows.len() as u64 + 1;
        let behind = found.range(next + 1..).count();
        let rows = |n: usize| match n {
            1 => "1 row".to_owned(),
            n => format!("{n} rows"),
        };
        let mut text = if found.contains_key(&next) {
            format!("Row {next} is not as it was written")
        } else if behind > 0 || upto >= next {
            format!("Row {next} is missing or can't be read")
        } else if next == 1 {
            return Some("It has no row of a journal that can be read".to_owned());
        } else {
            return None;
        };
        if behind > 0 {
            text += &format!(", so {} behind it can't be vouched for", rows(behind));
        } else if upto > next {
            text += &format!("; the journal once had {upto} rows");
        }
        if next > 1 {
            text.push('.');
        }
        Some(text)
    }
}

enum Private {
    None,
    Kept,
    Erased,
    Damaged,
}

fn private(row: &[Value]) -> Private {
    match (&row[13], &row[12]) {
        (Value::Null, Value::Null) => Private::None,
        (Value::Null, _) => Private::Erased,
        (Value::Text(text), Value::Blob(digest))
            if journal::private_digest(text).as_slice() == digest =>
        {
            Private::Kept
        }
        _ => Private::Damaged,
    }
}

fn is_chained(row: &[Value], before: &Digest32) -> bool {
    let mut chain = Chain::after(before);
    for value in &row[..CHAINED] {
        chain.put(ValueRef::from(value));
    }
    matches!(&row[14], Value::Blob(digest) if *digest == chain.end())
}

/// Writes the new day in one transaction.
fn write(
    store: &Store,
    from: &Path,
    sound: &Sound,
    now: Stamp,
) -> Result<Recovered, FileError> {
    let fail = |e: rusqlite::Error| store.fail(&e);
    let tx = store.begin()?;
    open::fill(store)?;
    let marks = ["?"; STORED.len()].join(", ");
    let mut insert = store
        .conn
        .prepare(&format!("INSERT INTO journal ({COLUMNS}) VALUES ({marks})"))
        .map_err(fail)?;
    for row in &sound.rows {
        let _ = insert.execute(params_from_iter(row)).map_err(fail)?;
    }
    let mut tail = Tail::default();
    let mut rows = Vec::new();
    let n_rows = journal::read_on(store, &mut tail, |row| rows.push(row))?;
    let mut acts: Vec<&str> = rows.iter().map(|r| r.id.as_str()).collect();
    acts.dedup();
    let n_acts = acts.len();
    if !sound.left_out.is_empty() {
        let note = note(from, n_rows, &sound.left_out, &tail, now);
        journal::append(store, &mut tail, &host::name(), &note, 1)?;
        rows.push(note);
    }
    let day = Day::from_journal(rows);
    whole(store, &day)?;
    views::rebuild(store, &day, tail.seq)?;
    let recovered = Recovered {
        n_rows: n_rows as u64,
        n_acts,
        n_entries: day.facts().entries.len(),
        left_out: sound.left_out.clone(),
    };
    tx.commit().map_err(fail)?;
    Ok(recovered)
}

/// The row that says where the new day comes from.
fn note(
    from: &Path,
    n_rows: usize,
    left_out: &[String],
    tail: &Tail,
    now: Stamp,
) -> Recorded {
    let from = from.file_name().unwrap_or(from.as_os_str());
    let seq = tail.seq + 1;
    Recorded {
        seq,
        act: seq,
        id: new_id(now),
        at: now,
        happened: None,
        hand: String::new(),
        platform: None,
        event: Event::Noted {
            entry: None,
            act: None,
            text: format!(
                "Rows 1 to {n_rows} were recovered from {}. {}",
                from.display(),
                left_out.join(" ")
            ),
        },
    }
}
