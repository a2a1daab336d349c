//! The sheets as they were published.

use maxday::measure::{Mass, Weight};
use maxday::rules::Sex;

use crate::support::kg;

/// One try in a sheet.
#[derive(Debug, Clone)]
pub struct Try {
    /// The load.
    pub load: Weight,
    /// Whether it was a good lift.
    pub good: bool,
}

/// An athlete's row in the sheet of a weightlifting meet.
#[derive(Debug, Clone)]
pub struct Row {
    /// Number of the row.
    pub no: u16,
    /// Sex.
    pub sex: Sex,
    /// Label of the bodyweight category.
    pub category: String,
    /// Bodyweight.
    pub bodyweight: Weight,
    /// Tries in the snatch and in the clean and jerk; `None` was not taken.
    pub tries: [[Option<Try>; 3]; 2],
    /// Total as published.
    pub total: Mass,
    /// Place as published.
    pub place: u32,
}

impl Row {
    /// The group that the row is placed in, as standings name it.
    pub fn group(&self) -> String {
        format!("{} {}", self.sex, self.category)
    }

    /// The heaviest good try of a lift: its number and load.
    pub fn best(&self, lift: usize) -> Option<(u8, Mass)> {
        let mut best: Option<(u8, Mass)> = None;
        for (tried, n) in self.tries[lift].iter().zip(1..) {
            if let Some(tried) = tried.as_ref().filter(|t| t.good)
                && best.is_none_or(|(_, mass)| tried.load.mass > mass)
            {
                best = Some((n, tried.load.mass));
            }
        }
        best
    }
}

/// A powerlifter's row: best lifts and place.
#[derive(Debug, Clone)]
pub struct BestRow {
    /// Division and class.
    pub group: String,
    /// Bodyweight.
    pub bodyweight: Weight,
    /// Best squat, bench press and deadlift; `None` is no good attempt.
    pub bests: [Option<Weight>; 3],
    /// Place as published; `None` without a total.
    pub place: Option<u32>,
}

/// The cells of a file's rows, each behind its column's name.
fn rows(text: &str) -> Vec<Vec<(String, String)>> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes());
    let header = reader.headers().unwrap().clone();
    reader
        .records()
        .map(|record| {
            let record = record.unwrap();
            let cells = header.iter().zip(record.iter());
            cells.map(|(h, c)| (h.to_owned(), c.to_owned())).collect()
        })
        .collect()
}

fn cell<'a>(row: &'a [(String, String)], name: &str) -> &'a str {
    &row.iter().find(|(h, _)| h == name).unwrap().1
}

fn filled(text: &str) -> Option<&str> {
    (!text.is_empty()).then_some(text)
}

fn tried(text: &str) -> Option<Try> {
    let text = filled(text)?;
    let load = text.strip_prefix('-');
    Some(Try {
        load: kg(load.unwrap_or(text)),
        good: load.is_none(),
    })
}

/// Reads the sheet of a weightlifting meet.
pub fn weightlifting(text: &str) -> Vec<Row> {
    rows(text)
        .iter()
        .map(|row| Row {
            no: cell(row, "no").parse().unwrap(),
            sex: if cell(row, "sex") == "F" {
                Sex::F
            } else {
                Sex::M
            },
            category: cell(row, "category").to_owned(),
            bodyweight: kg(cell(row, "bodyweight_kg")),
            tries: [["s1", "s2", "s3"], ["j1", "j2", "j3"]]
                .map(|names| names.map(|name| tried(cell(row, name)))),
            total: kg(cell(row, "total")).mass,
            place: cell(row, "place").parse().unwrap(),
        })
        .collect()
}

/// Reads the sheet of best lifts.
pub fn powerlifting(text: &str) -> Vec<BestRow> {
    rows(text)
        .iter()
        .map(|row| BestRow {
            group: format!("{} {}", cell(row, "division"), cell(row, "class")),
            bodyweight: kg(cell(row, "bodyweight_kg")),
            bests: ["squat_kg", "bench_kg", "deadlift_kg"]
                .map(|name| filled(cell(row, name)).map(kg)),
            place: filled(cell(row, "place")).map(|text| text.parse().unwrap()),
        })
        .collect()
}
