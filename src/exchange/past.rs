//! Earlier maxes, and answers about doubtful matches, as CSV.

use chrono::NaiveDate;

use super::Fault;
use super::text::{Row, Sheet, decode, sheet};
use crate::day::Facts;
use crate::lift::lift_named;
use crate::measure::Unit;
use crate::roster::{Born, Change, Column, Reading, split_name};
use crate::rules::Sex;
use crate::standings::{Answer, Past, PastMax, PastPerson};

/// Columns of a file of earlier maxes.
const PAST: [&str; 10] = [
    "id", "name", "given", "family", "born", "sex", "lift", "date", "max", "unit",
];

/// Columns of a file of answers.
const ANSWERS: [&str; 4] = ["lot", "source", "source number", "same"];

/// A sheet whose columns are found by their headers.
struct Found<const N: usize> {
    sheet: Sheet,
    words: [&'static str; N],
    at: [Option<usize>; N],
}

impl<const N: usize> Found<N> {
    fn read(
        bytes: &[u8],
        words: [&'static str; N],
        needed: &[&str],
        what: &str,
    ) -> Result<Self, Vec<Fault>> {
        let text = decode(bytes).map_err(|f| vec![f])?;
        let sheet = sheet(&text).map_err(|f| vec![f])?;
        let mut faults = sheet.faults.clone();
        let mut at = [None; N];
        for (place, header) in sheet.header.cells.iter().enumerate() {
            let word = header.trim().to_lowercase();
            if let Some(column) = words.iter().position(|w| *w == word) {
                if at[column].is_some() {
                    let words =
                        format!("there are two columns {word}; leave one of them");
                    faults.push(Fault::at(sheet.header.place(), header, words));
                }
                at[column] = Some(place);
            }
        }
        for word in needed {
            let column = words.iter().position(|w| w == word);
            if column.is_none_or(|c| at[c].is_none()) {
                faults.push(Fault::whole(format!(
                    "{what} has no column {word}; it needs {}.",
                    needed.join(", ")
                )));
            }
        }
        if faults.is_empty() {
            Ok(Self { sheet, words, at })
        } else {
            Err(faults)
        }
    }

    fn place(&self, word: &str) -> Option<usize> {
        let column = self.words.iter().position(|w| *w == word)?;
        self.at[column]
    }

    fn cell<'r>(&self, row: &'r Row, word: &str) -> &'r str {
        let cell = self.place(word).and_then(|at| row.cells.get(at));
        cell.map_or("", |c| c.trim())
    }

    fn fault(&self, row: &Row, word: &str, sentence: impl Into<String>) -> Fault {
        let header = self
            .place(word)
            .and_then(|at| self.sheet.header.cells.get(at));
        Fault::at(row.place(), header.map_or(word, |h| h.trim()), sentence)
    }
}

/// Reads earlier maxes, one a row: `lift`, `date` and `max` are needed, and `id` or
/// a name; `name`, or `given` and `family`, `born`, `sex` and `unit` may be there.
///
/// Rows with the same person are one person, under the number of the first row. A
/// plain max is in the day's bar unit.
///
/// # Errors
/// Every [`Fault`], by row and column.
pub fn read_past(bytes: &[u8], facts: &Facts, source: &str) -> Result<Past, Vec<Fault>> {
    let what = "The file of earlier maxes";
    let found = Found::read(bytes, PAST, &["lift", "date", "max"], what)?;
    let mut faults = Vec::new();
    let mut past = Past {
        source: source.to_owned(),
        people: Vec::new(),
    };
    for row in found.sheet.rows.iter().filter(|row| !row.is_blank()) {
        let read = (person(&found, row, facts), max(&found, row, facts));
        let (person, max) = match read {
            (Ok(person), Ok(max)) => (person, max),
            (person, max) => {
                faults.extend(person.err());
                faults.extend(max.err().unwrap_or_default());
                continue;
            }
        };
        let same = |p: &&mut PastPerson| {
            p.id == person.id
                && p.given == person.given
                && p.family == person.family
                && p.born == person.born
                && p.sex == person.sex
        };
        match past.people.iter_mut().find(same) {
            None => past.people.push(PastPerson {
                maxes: vec![max],
                ..person
            }),
            Some(known) => {
                let twice = known
                    .maxes
                    .iter()
                    .any(|m| m.lift == max.lift && m.date == max.date);
                if twice {
                    faults.push(found.fault(
                        row,
                        "lift",
                        format!(
                            "there is a max in {} of {} for that athlete already; leave one \
                             of them",
                            max.lift, max.date
                        ),
                    ));
                }
                known.maxes.push(max);
            }
        }
    }
    if past.people.is_empty() && faults.is_empty() {
        faults.push(Fault::whole(format!("{what} has no row.")));
    }
    if faults.is_empty() {
        Ok(past)
    } else {
        Err(faults)
    }
}

fn person(found: &Found<10>, row: &Row, facts: &Facts) -> Result<PastPerson, Fault> {
    let cell = |word: &str| found.cell(row, word);
    let (mut given, mut family) = split_name(cell("name"));
    if cell("name").is_empty() {
        (given, family) = (cell("given").to_owned(), cell("family").to_owned());
    }
    let id = cell("id").to_owned();
    if id.is_empty() && family.is_empty() {
        return Err(found.fault(row, "id", "nobody is named; write an id or a name"));
    }
    let born: Option<Born> = match cell("born") {
        "" => None,
        text => {
            let read = facts.reading().read(&Column::Born, text, None);
            let read = read.map_err(|e| found.fault(row, "born", e.to_string()))?;
            read.into_iter().find_map(|change| match change {
                Change::Born(born) => born,
                _ => None,
            })
        }
    };
    let sex = match cell("sex") {
        "" => None,
        text => Some(Sex::parse(text).ok_or_else(|| {
            let words = format!("“{text}” is no sex; write F or M, or leave it blank");
            found.fault(row, "sex", words)
        })?),
    };
    Ok(PastPerson {
        number: row.number,
        id,
        given,
        family,
        born,
        sex,
        maxes: Vec::new(),
    })
}

fn max(found: &Found<10>, row: &Row, facts: &Facts) -> Result<PastMax, Vec<Fault>> {
    let cell = |word: &str| found.cell(row, word);
    let mut wrong = Vec::new();
    let lift = lift_named(cell("lift"))
        .map_err(|words| wrong.push(found.fault(row, "lift", words)))
        .ok();
    let date: Option<NaiveDate> = cell("date").parse().ok();
    if date.is_none() {
        let words = format!("“{}” is no date; write it as 2026-11-17", cell("date"));
        wrong.push(found.fault(row, "date", words));
    }
    let unit = match cell("unit") {
        "" => facts.bar_unit,
        text => Unit::parse(text).unwrap_or_else(|| {
            let words = format!("“{text}” is no unit; write kg or lb");
            wrong.push(found.fault(row, "unit", words));
            facts.bar_unit
        }),
    };
    let reading = Reading {
        bar: unit,
        comma_decimals: found.sheet.delimiter != ',',
        ..facts.reading()
    };
    let load = reading
        .load(cell("max"))
        .map_err(|e| wrong.push(found.fault(row, "max", e.to_string())))
        .ok();
    match (lift, date, load) {
        (Some(lift), Some(date), Some(load)) if wrong.is_empty() => Ok(PastMax {
            lift,
            date,
            max: load.mass,
            unit: load.unit,
        }),
        _ => Err(wrong),
    }
}

/// Reads answers about doubtful matches: `lot`, `source`, `source number` and `same`
/// (`yes` or `no`); a row without an answer, or with `?`, is passed over, so that a
/// printed history in which the answers were written can be given back.
///
/// # Errors
/// Every [`Fault`], by row and column.
pub fn read_answers(
    bytes: &[u8],
    facts: &Facts,
    pasts: &[Past],
) -> Result<Vec<Answer>, Vec<Fault>> {
    let found = Found::read(bytes, ANSWERS, &ANSWERS, "The file of matches")?;
    let mut faults = Vec::new();
    let mut answers: Vec<Answer> = Vec::new();
    for row in &found.sheet.rows {
        let same = match found.cell(row, "same").to_lowercase().as_str() {
            "yes" | "y" => true,
            "no" | "n" => false,
            "" | "?" => continue,
            other => {
                let words = format!("“{other}” is no answer; write yes or no");
                faults.push(found.fault(row, "same", words));
                continue;
            }
        };
        match answer(&found, row, facts, pasts, same) {
            Err(fault) => faults.push(fault),
            Ok(answer) => {
                let clash = answers.iter().any(|a| {
                    let of = a.source == answer.source && a.number == answer.number;
                    of && ((a.same && answer.same && a.lot != answer.lot)
                        || (a.lot == answer.lot && a.same != answer.same))
                });
                if clash {
                    let words = format!(
                        "number {} of {} has another answer above; leave one of them",
                        answer.number, answer.source
                    );
                    faults.push(found.fault(row, "same", words));
                }
                if !answers.contains(&answer) {
                    answers.push(answer);
                }
            }
        }
    }
    if faults.is_empty() {
        Ok(answers)
    } else {
        Err(faults)
    }
}

fn answer(
    found: &Found<4>,
    row: &Row,
    facts: &Facts,
    pasts: &[Past],
    same: bool,
) -> Result<Answer, Fault> {
    let cell = |word: &str| found.cell(row, word);
    let lot: Option<u16> = cell("lot").parse().ok();
    let lot = lot.filter(|lot| facts.entry_by_number(*lot).is_some());
    let lot = lot.ok_or_else(|| {
        let words = format!("there is no lot “{}” today", cell("lot"));
        found.fault(row, "lot", words)
    })?;
    let past = pasts.iter().find(|p| p.source == cell("source"));
    let past = past.ok_or_else(|| {
        let names: Vec<&str> = pasts.iter().map(|p| p.source.as_str()).collect();
        let words = format!(
            "“{}” is none of the earlier files; there is {}",
            cell("source"),
            names.join(", ")
        );
        found.fault(row, "source", words)
    })?;
    let number: Option<u64> = cell("source number").parse().ok();
    let number = number.filter(|n| past.people.iter().any(|p| p.number == *n));
    let number = number.ok_or_else(|| {
        let words = format!(
            "there is nobody with number “{}” in {}",
            cell("source number"),
            past.source
        );
        found.fault(row, "source number", words)
    })?;
    Ok(Answer {
        lot,
        source: past.source.clone(),
        number,
        same,
    })
}
