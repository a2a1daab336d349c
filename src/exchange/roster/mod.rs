//! A roster's CSV or workbook into entries.

mod flights;
mod header;
mod queries;
mod update;

pub use update::{Edited, Matched, Update, match_update, update};

use std::collections::BTreeMap;

use super::entry::{Given, Said, said};
use super::formula::unguarded;
use super::text::{self, Row, Sheet};
use super::workbook::{is_workbook, workbook_sheet};
use super::{Fault, Query};
use crate::day::{Facts, NewEntry, Place};
use crate::roster::{Change, Column, Reading};
use header::Head;

/// How dates with the year last are written in a roster.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DateOrder {
    /// Year first only: `2009-04-03`.
    Iso,
    /// Month first: `4/3/2009`.
    MonthFirst,
    /// Day first: `3/4/2009`.
    DayFirst,
}

impl DateOrder {
    /// Reads `iso`, `mdy` or `dmy`.
    pub fn parse(word: &str) -> Option<Self> {
        match word.trim().to_lowercase().as_str() {
            "iso" => Some(Self::Iso),
            "mdy" => Some(Self::MonthFirst),
            "dmy" => Some(Self::DayFirst),
            _ => None,
        }
    }
}

/// One row of a roster as it is written: only what its filled cells say.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RosterRow {
    /// The row as a spreadsheet counts it.
    pub row: u64,
    /// The physical line on which it starts.
    pub line: u64,
    /// Table number, if it gives one.
    pub number: Option<u16>,
    /// Details of filled cells.
    pub told: Vec<Change>,
    /// Session, flight and platform, where they are filled.
    pub place: Place,
}

/// A roster that was read whole.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RosterRead {
    /// The rows as new entries, with every slot of the programme.
    pub entries: Vec<NewEntry>,
    /// The same rows as they are written.
    pub rows: Vec<RosterRow>,
    /// What was taken in but is owed an answer.
    pub queries: Vec<Query>,
    /// Headers that mean nothing here, as written.
    pub unknown: Vec<String>,
    /// Whether there is a column for clearances; without one, gates are off.
    pub has_clearance: bool,
    /// Flights that have to be made: session, flight, platform.
    pub flights: Vec<(String, String, u8)>,
}

/// What a text file for a spreadsheet has quoted comes back as it was.
fn as_it_was(mut sheet: Sheet) -> Sheet {
    for cell in sheet.rows.iter_mut().flat_map(|row| &mut row.cells) {
        let plain = unguarded(cell);
        if plain.len() < cell.len() {
            *cell = plain.to_owned();
        }
    }
    sheet
}

/// Reads a roster of new entries.
///
/// `dates` says how `3/4/2009` is meant; without it a date that could be two
/// days is refused.
///
/// # Errors
/// All [`Fault`]s of the file, in the order of its rows; nothing of such a
/// file is taken in.
pub fn read_roster(
    bytes: &[u8],
    facts: &Facts,
    dates: Option<DateOrder>,
) -> Result<RosterRead, Vec<Fault>> {
    read(bytes, facts, dates, false)
}

/// Reads a roster that changes entries which the day already has.
///
/// As [`read_roster`], but a number may be the matched entry's own; what is to
/// be changed is told by [`update`].
///
/// # Errors
/// All [`Fault`]s of the file, in the order of its rows.
pub fn read_update(
    bytes: &[u8],
    facts: &Facts,
    dates: Option<DateOrder>,
) -> Result<RosterRead, Vec<Fault>> {
    read(bytes, facts, dates, true)
}

fn read(
    bytes: &[u8],
    facts: &Facts,
    dates: Option<DateOrder>,
    update: bool,
) -> Result<RosterRead, Vec<Fault>> {
    let sheet = if is_workbook(bytes) {
        workbook_sheet(bytes)
    } else {
        text::decode(bytes)
            .and_then(|text| text::sheet(&text))
            .map(as_it_was)
    };
    let mut sheet = sheet.map_err(|f| vec![f])?;
    let mut faults = std::mem::take(&mut sheet.faults);
    let head = Head::read(&sheet.header, &facts.slots, &mut faults);
    if sheet.rows.is_empty() && faults.is_empty() {
        faults.push(Fault::whole(
            "The file has a header but no row under it; write one row an athlete.",
        ));
    }
    let mut intake = Intake {
        facts,
        reading: Reading {
            month_first: match dates {
                Some(DateOrder::MonthFirst) => Some(true),
                Some(DateOrder::DayFirst) => Some(false),
                Some(DateOrder::Iso) | None => None,
            },
            comma_decimals: sheet.delimiter != ',',
            ..facts.reading()
        },
        iso: dates == Some(DateOrder::Iso),
        update,
        head: &head,
        lots: BTreeMap::new(),
        faults,
        found: Vec::new(),
    };
    intake.rows(&sheet);
    intake.finish()
}

/// A roster while it is read.
struct Intake<'a> {
    facts: &'a Facts,
    reading: Reading<'a>,
    iso: bool,
    update: bool,
    head: &'a Head,
    /// Table numbers of the file, with the rows that have them.
    lots: BTreeMap<u16, u64>,
    faults: Vec<Fault>,
    found: Vec<(RosterRow, Said)>,
}

impl Intake<'_> {
    fn rows(&mut self, sheet: &Sheet) {
        for row in &sheet.rows {
            let given: Vec<Given<'_>> = self.head.cells(row).collect();
            let (said, wrong) = said(&given, self.facts, &self.reading);
            for (column, message) in wrong {
                self.faults.push(Fault::at(row.place(), &column, message));
            }
            // A name or a team of a broken formula would be taken for what it says.
            for cell in given.iter().filter(|c| is_error(&c.text)) {
                if !self
                    .faults
                    .iter()
                    .any(|f| f.row == row.number && f.column == cell.label)
                {
                    self.faults.push(Fault::at(
                        row.place(),
                        cell.label,
                        format!(
                            "“{}” is a spreadsheet's error; put its formula right, or \
                             write the value",
                            cell.text
                        ),
                    ));
                }
            }
            self.checks(row, &given, &said);
            self.found.push((
                RosterRow {
                    row: row.number,
                    line: row.line,
                    number: said.number,
                    told: said.told(),
                    place: said.place.clone(),
                },
                said,
            ));
        }
    }

    /// What no cell can know alone: a name, the lot, the form of dates.
    fn checks(&mut self, row: &Row, given: &[Given<'_>], said: &Said) {
        let mut fault = |column: &str, message: String| {
            self.faults.push(Fault::at(row.place(), column, message));
        };
        if said.name().is_empty() && self.head.has_name() {
            fault(
                self.head.label(|c| {
                    matches!(c, Column::Name | Column::Family | Column::Given)
                }),
                "There is no name; an athlete needs a given or a family name.".to_owned(),
            );
        }
        let born = given.iter().find(|c| *c.column == Column::Born);
        if let Some(cell) = born.filter(|c| self.iso && !year_first(&c.text)) {
            // An impossible one is named by the cell's own reading.
            if self.reading.read(&Column::Born, &cell.text, None).is_ok() {
                fault(
                    cell.label,
                    format!(
                        "“{}” doesn't begin with the year; write it as 2009-04-03, or say \
                         --dates mdy or --dates dmy",
                        cell.text
                    ),
                );
            }
        }
        let Some(number) = said.number else { return };
        let lot = self.head.label(|c| *c == Column::Lot);
        if let Some(first) = self.lots.get(&number) {
            fault(
                lot,
                format!(
                    "{number} is the lot of row {first} already; every athlete needs a \
                     number of their own, or a blank to have one drawn"
                ),
            );
        } else {
            let _ = self.lots.insert(number, row.number);
        }
        if let Some(holder) = self.facts.entry_by_number(number).filter(|_| !self.update)
        {
            let free = (1..=9_999).find(|n| !self.facts.numbers.contains_key(n));
            let free = free.map_or_else(String::new, |n| format!("{n} is free; "));
            fault(
                lot,
                format!(
                    "{number} belongs to {} already; {free}leave it blank to have one \
                     drawn, or say --update to change that entry",
                    holder.name()
                ),
            );
        }
    }

    fn finish(mut self) -> Result<RosterRead, Vec<Fault>> {
        let mut read = RosterRead {
            unknown: self.head.unknown.clone(),
            has_clearance: self.head.has(&Column::Clearance),
            ..RosterRead::default()
        };
        for (row, said) in self.found {
            read.rows.push(row);
            read.entries.push(NewEntry {
                number: said.number,
                changes: said.for_new(),
                place: said.place,
            });
        }
        let matched = if self.update {
            update::matches(self.facts, &read, self.head, &mut self.faults)
        } else {
            vec![None; read.rows.len()]
        };
        flights::settle(self.facts, &mut read, &matched, self.head, &mut self.faults);
        if !self.faults.is_empty() {
            self.faults.sort_by_key(|f| (f.line, f.row));
            return Err(self.faults);
        }
        read.queries = queries::of(self.facts, &read, &matched);
        Ok(read)
    }
}

/// Whether a cell shows what a spreadsheet writes for a formula that failed.
fn is_error(text: &str) -> bool {
    [
        "#N/A", "#REF!", "#VALUE!", "#NAME?", "#DIV/0!", "#NUM!", "#NULL!",
    ]
    .contains(&text)
}

/// Whether a date begins with its year, or is a year alone.
fn year_first(text: &str) -> bool {
    let first = text.split(['-', '/', '.']).next().unwrap_or_default();
    text.is_empty() || first.trim().len() == 4
}

#[cfg(test)]
mod tests;
