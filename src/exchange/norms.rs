//! A coach's norms as CSV.

use super::Fault;
use super::text::{Row, decode, sheet};
use crate::day::Facts;
use crate::lift::lift_named;
use crate::measure::Unit;
use crate::rules::{Least, Sex};
use crate::score::{NormOf, Norms};

/// The columns of a file of norms; the first three are needed.
pub const NORM_COLUMNS: [&str; 8] = [
    "lift",
    "percentile",
    "value",
    "unit",
    "sex",
    "age",
    "grade",
    "group",
];

/// Norms that were read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct NormsRead {
    /// The norms.
    pub norms: Norms,
    /// Columns that weren't read.
    pub unknown: Vec<String>,
}

/// A column by its place among [`NORM_COLUMNS`].
struct Columns([Option<usize>; 8]);

impl Columns {
    fn cell<'r>(&self, row: &'r Row, column: usize) -> &'r str {
        let cell = self.0[column].and_then(|at| row.cells.get(at));
        cell.map_or("", |c| c.trim())
    }
}

/// Reads norms, one step a row, in any order: `lift` (or `total`), `percentile` from 1
/// to 99 and `value`, the load from which it is reached or `1.5x` for times the
/// bodyweight; `unit`, `sex`, `age` (`15`, `14-15`, `16+`), `grade` and `group` (a
/// division or a team) may be there, and are open to all where they are blank.
///
/// A plain load is in `unit`, or in the day's bar unit where that is blank.
///
/// # Errors
/// Every [`Fault`], by row and column; nothing is read then.
pub fn read_norms(bytes: &[u8], facts: &Facts) -> Result<NormsRead, Vec<Fault>> {
    let text = decode(bytes).map_err(|f| vec![f])?;
    let sheet = sheet(&text).map_err(|f| vec![f])?;
    let mut faults = sheet.faults.clone();
    let mut read = NormsRead::default();
    let mut columns = Columns([None; 8]);
    for (at, header) in sheet.header.cells.iter().enumerate() {
        let word = header.trim().to_lowercase();
        match NORM_COLUMNS.iter().position(|c| *c == word) {
            Some(column) if columns.0[column].is_some() => faults.push(Fault::at(
                sheet.header.place(),
                header,
                format!("there are two columns {word}; leave one of them"),
            )),
            Some(column) => columns.0[column] = Some(at),
            None if word.is_empty() => {}
            None => read.unknown.push(header.trim().to_owned()),
        }
    }
    for (name, column) in NORM_COLUMNS.iter().zip(columns.0).take(3) {
        if column.is_none() {
            faults.push(Fault::whole(format!(
                "The norms have no column {name}; they need lift, percentile and value."
            )));
        }
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let mut rows = 0;
    for row in sheet.rows.iter().filter(|row| !row.is_blank()) {
        rows += 1;
        match step(row, &columns, sheet.delimiter, facts) {
            Ok((of, step)) => {
                if let Err(why) = read.norms.add(of, step) {
                    faults.push(Fault::at(row.place(), "", why.to_string()));
                }
            }
            Err(more) => faults.extend(more),
        }
    }
    if rows == 0 {
        faults.push(Fault::whole(
            "The norms have no row; write one for each percentile.",
        ));
    }
    if faults.is_empty() {
        Ok(read)
    } else {
        Err(faults)
    }
}

/// A row as a step of the table that it belongs to; all that is wrong in it.
fn step(
    row: &Row,
    columns: &Columns,
    delimiter: char,
    facts: &Facts,
) -> Result<(NormOf, (u8, Least)), Vec<Fault>> {
    let mut faults = Vec::new();
    let mut wrong = |column: usize, sentence: String| {
        faults.push(Fault::at(row.place(), NORM_COLUMNS[column], sentence));
    };
    let lift = match columns.cell(row, 0) {
        word if word.eq_ignore_ascii_case("total") => None,
        word => lift_named(word).map_err(|why| wrong(0, why)).ok(),
    };
    let percentile = columns.cell(row, 1);
    let percent = percentile
        .parse::<u8>()
        .ok()
        .filter(|p| (1..=99).contains(p));
    if percent.is_none() {
        wrong(
            1,
            format!("“{percentile}” is no percentile; write a whole number from 1 to 99"),
        );
    }
    let unit = match columns.cell(row, 3) {
        "" => Some(facts.bar_unit),
        word => {
            let unit = Unit::parse(word);
            if unit.is_none() {
                wrong(3, format!("“{word}” is no unit; write kg or lb"));
            }
            unit
        }
    };
    let value = columns.cell(row, 2);
    let plain = if delimiter == ',' {
        value.to_owned()
    } else {
        value.replace(',', ".")
    };
    let least = Least::parse(&plain, unit.unwrap_or(facts.bar_unit));
    if least.is_none() {
        wrong(
            2,
            format!(
                "“{value}” is no value; write a load above 0 such as 102.5 or 225 lb, or \
                 times the bodyweight such as 1.5x"
            ),
        );
    }
    let sex = match columns.cell(row, 4) {
        "" => None,
        word => {
            let sex = Sex::parse(word);
            if sex.is_none() {
                wrong(
                    4,
                    format!("“{word}” is no sex; write F or M, or leave it blank"),
                );
            }
            sex
        }
    };
    let ages = match columns.cell(row, 5) {
        "" => None,
        word => {
            let ages = ages(word);
            if ages.is_none() {
                wrong(
                    5,
                    format!("“{word}” is no age; write years such as 15, 14-15 or 16+"),
                );
            }
            ages
        }
    };
    if let (Some(percent), Some(least), true) = (percent, least, faults.is_empty()) {
        let of = NormOf {
            lift,
            sex,
            ages,
            grade: columns.cell(row, 6).to_owned(),
            group: columns.cell(row, 7).to_owned(),
        };
        return Ok((of, (percent, least)));
    }
    Err(faults)
}

/// `15`, `14-15` or `16+`, from 1 to 120.
fn ages(word: &str) -> Option<(i32, Option<i32>)> {
    let year = |text: &str| {
        let year = text.trim().parse::<i32>().ok();
        year.filter(|y| (1..=120).contains(y))
    };
    if let Some(from) = word.strip_suffix('+') {
        return Some((year(from)?, None));
    }
    match word.split_once(['-', '–']) {
        Some((from, to)) => {
            let (from, to) = (year(from)?, year(to)?);
            (from <= to).then_some((from, Some(to)))
        }
        None => year(word).map(|age| (age, Some(age))),
    }
}
