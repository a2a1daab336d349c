//! A school's record book as CSV.

use std::collections::BTreeMap;

use super::text::{Row, decode, sheet};
use super::{Fault, Query};
use crate::day::{Facts, RecordKey, RecordMark, record_lift};
use crate::measure::Unit;
use crate::roster::Reading;
use crate::rules::Sex;
use crate::standings::category_set;

/// The columns of a book, in the order in which they are written.
pub const BOOK_COLUMNS: [&str; 9] = [
    "lift", "sex", "category", "division", "load", "unit", "holder", "date", "place",
];

/// Columns that a printed book has besides, and that say nothing here.
const PASSED: [&str; 6] = [
    "today",
    "old load",
    "old unit",
    "old holder",
    "old date",
    "old place",
];

/// A book that was read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct BookRead {
    /// Its records, in the order of the file.
    pub records: Vec<(RecordKey, RecordMark)>,
    /// Columns that weren't read.
    pub unknown: Vec<String>,
    /// What was read but can't come into play on this day.
    pub queries: Vec<Query>,
}

impl BookRead {
    /// What the day's book doesn't say yet.
    pub fn news(&self, facts: &Facts) -> Vec<(RecordKey, Option<RecordMark>)> {
        self.records
            .iter()
            .filter(|(key, mark)| facts.records.get(key) != Some(mark))
            .map(|(key, mark)| (key.clone(), Some(mark.clone())))
            .collect()
    }
}

/// Whether a file has the columns that a book needs and none with names, as a roster
/// has.
pub fn is_book(bytes: &[u8]) -> bool {
    let Ok(text) = decode(bytes) else {
        return false;
    };
    let Ok(sheet) = sheet(&text) else {
        return false;
    };
    let has = |word: &str| {
        let mut cells = sheet.header.cells.iter();
        cells.any(|cell| cell.trim().eq_ignore_ascii_case(word))
    };
    has("lift") && has("load") && !["name", "given", "family"].into_iter().any(has)
}

/// Reads a book: `lift` and `load` are needed; a blank `sex`, `category` or
/// `division` is open to all, and a blank load is a record that nobody has set.
///
/// A plain load is in `unit`, or in the day's bar unit where that is blank.
///
/// # Errors
/// Every [`Fault`], by row and column; nothing is read then.
pub fn read_book(bytes: &[u8], facts: &Facts) -> Result<BookRead, Vec<Fault>> {
    let text = decode(bytes).map_err(|f| vec![f])?;
    let sheet = sheet(&text).map_err(|f| vec![f])?;
    let mut faults = sheet.faults.clone();
    let mut columns: [Option<usize>; 9] = [None; 9];
    let mut read = BookRead::default();
    for (at, header) in sheet.header.cells.iter().enumerate() {
        let word = header.trim().to_lowercase();
        match BOOK_COLUMNS.iter().position(|c| *c == word) {
            Some(column) if columns[column].is_some() => faults.push(Fault::at(
                sheet.header.place(),
                header,
                format!("there are two columns {word}; leave one of them"),
            )),
            Some(column) => columns[column] = Some(at),
            None if PASSED.contains(&word.as_str()) || word.is_empty() => {}
            None => read.unknown.push(header.trim().to_owned()),
        }
    }
    for (column, needed) in [(0, "lift"), (4, "load")] {
        if columns[column].is_none() {
            faults.push(Fault::whole(format!(
                "The record book has no column {needed}; it needs lift and load, and may \
                 have sex, category, division, unit, holder, date and place."
            )));
        }
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let book = Book {
        facts,
        columns,
        header: &sheet.header,
        commas: sheet.delimiter != ',',
    };
    let mut seen: BTreeMap<RecordKey, u64> = BTreeMap::new();
    for row in sheet.rows.iter().filter(|row| !row.is_blank()) {
        match book.record(row) {
            Ok((key, mark)) => {
                if let Some(first) = seen.insert(key.clone(), row.number) {
                    faults.push(Fault::at(
                        row.place(),
                        "",
                        format!("{key} stands in row {first} already; leave one of them"),
                    ));
                }
                read.queries.extend(book.query(row, &key));
                read.records.push((key, mark));
            }
            Err(mut wrong) => faults.append(&mut wrong),
        }
    }
    if read.records.is_empty() && faults.is_empty() {
        faults.push(Fault::whole(
            "The record book has no row; write one for each record.",
        ));
    }
    if faults.is_empty() {
        Ok(read)
    } else {
        Err(faults)
    }
}

struct Book<'a> {
    facts: &'a Facts,
    columns: [Option<usize>; 9],
    header: &'a Row,
    commas: bool,
}

impl Book<'_> {
    fn cell<'r>(&self, row: &'r Row, column: usize) -> &'r str {
        let at = self.columns.get(column).copied().flatten();
        at.and_then(|at| row.cells.get(at)).map_or("", |c| c.trim())
    }

    fn fault(&self, row: &Row, column: usize, words: impl Into<String>) -> Fault {
        let at = self.columns.get(column).copied().flatten();
        let name = at.and_then(|at| self.header.cells.get(at));
        Fault::at(row.place(), name.map_or("", |n| n.trim()), words)
    }

    fn record(&self, row: &Row) -> Result<(RecordKey, RecordMark), Vec<Fault>> {
        let mut wrong = Vec::new();
        let lift = record_lift(self.cell(row, 0))
            .map_err(|words| wrong.push(self.fault(row, 0, words)))
            .ok();
        let sex = match self.cell(row, 1) {
            "" => None,
            text => {
                let sex = Sex::parse(text);
                if sex.is_none() {
                    let words = format!(
                        "“{text}” is no sex; write F or M, or leave it blank for both"
                    );
                    wrong.push(self.fault(row, 1, words));
                }
                sex
            }
        };
        let category = self.cell(row, 2);
        if !category.is_empty() && self.cell(row, 1).is_empty() {
            let words = "a record by category needs the sex; write F or M";
            wrong.push(self.fault(row, 1, words));
        }
        let unit = match self.cell(row, 5) {
            "" => self.facts.bar_unit,
            text => Unit::parse(text).unwrap_or_else(|| {
                let words = format!("“{text}” is no unit; write kg or lb");
                wrong.push(self.fault(row, 5, words));
                self.facts.bar_unit
            }),
        };
        let reading = Reading {
            bar: unit,
            comma_decimals: self.commas,
            ..self.facts.reading()
        };
        let load = match self.cell(row, 4) {
            "" => None,
            text => reading
                .load(text)
                .map_err(|e| wrong.push(self.fault(row, 4, e.to_string())))
                .ok(),
        };
        let mark = RecordMark {
            load,
            holder: super::one_line(self.cell(row, 6)),
            date: super::one_line(self.cell(row, 7)),
            place: super::one_line(self.cell(row, 8)),
        };
        if self.cell(row, 4).is_empty() && !mark.holder.is_empty() {
            let words = format!(
                "{} holds this record with no load; write the load, or leave both blank",
                mark.holder
            );
            wrong.push(self.fault(row, 4, words));
        }
        match lift {
            Some(lift) if wrong.is_empty() => {
                let key = RecordKey::new(lift, sex, category, self.cell(row, 3));
                Ok((key, mark))
            }
            _ => Err(wrong),
        }
    }

    /// A category that nobody can lift in today.
    fn query(&self, row: &Row, key: &RecordKey) -> Option<Query> {
        let set = category_set(self.facts)?;
        let sex = key.sex.filter(|_| !key.category.is_empty())?;
        let known = set.known(sex, &self.facts.rules.age_group, &key.category);
        known.is_none().then(|| Query {
            row: row.number,
            line: row.line,
            who: key.to_string(),
            message: format!(
                "there is no category {sex} {} on this day ({}); the record stays in the book \
                 and can't fall today",
                key.category, set.title
            ),
        })
    }
}
