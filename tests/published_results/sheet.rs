//! The sheets as they were published.

use maxday::measure::{Mass, Unit, Weight};
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
    /// Total as published; `None` without one.
    pub total: Option<Mass>,
    /// Place as published; `None` without one.
    pub place: Option<u32>,
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

/// A powerlifter's row.
#[derive(Debug, Clone)]
pub struct Lifter {
    /// Number of the row.
    pub no: u16,
    /// Sex.
    pub sex: Sex,
    /// Label of the bodyweight class.
    pub category: String,
    /// Division.
    pub division: String,
    /// Bodyweight.
    pub bodyweight: Weight,
    /// Tries in the squat, the bench press and the deadlift; `None` was not
    /// taken.
    pub tries: [[Option<Try>; 3]; 3],
    /// Best squat, bench press and deadlift as published; `None` is no good
    /// attempt.
    pub bests: [Option<Mass>; 3],
    /// Total as published; `None` without one.
    pub total: Option<Mass>,
    /// Place as published; `None` without one.
    pub place: Option<u32>,
    /// Whether the row is a guest's.
    pub guest: bool,
}

impl Lifter {
    /// The class as standings name it.
    pub fn class(&self) -> String {
        format!("{} {}", self.sex, self.category)
    }

    /// Division and class, in which the row is placed.
    pub fn group(&self) -> String {
        format!("{} {}", self.division, self.class())
    }
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

fn sex(text: &str) -> Sex {
    if text == "F" { Sex::F } else { Sex::M }
}

fn tried(text: &str) -> Option<Try> {
    let text = filled(text)?;
    let load = text.strip_prefix('-');
    Some(Try {
        load: kg(load.unwrap_or(text)),
        good: load.is_none(),
    })
}

/// Reads the sheet of a weightlifting meet; the place is in that column.
pub fn weightlifting(text: &str, place: &str) -> Vec<Row> {
    rows(text)
        .iter()
        .map(|row| Row {
            no: cell(row, "no").parse().unwrap(),
            sex: sex(cell(row, "sex")),
            category: cell(row, "category").to_owned(),
            bodyweight: kg(cell(row, "bodyweight_kg")),
            tries: [["s1", "s2", "s3"], ["j1", "j2", "j3"]]
                .map(|names| names.map(|name| tried(cell(row, name)))),
            total: filled(cell(row, "total")).map(|total| kg(total).mass),
            place: filled(cell(row, place)).map(|place| place.parse().unwrap()),
        })
        .collect()
}

/// Reads a powerlifting sheet that has every attempt.
pub fn powerlifting(text: &str) -> Vec<Lifter> {
    rows(text)
        .iter()
        .map(|row| Lifter {
            no: cell(row, "no").parse().unwrap(),
            sex: sex(cell(row, "sex")),
            category: cell(row, "category").to_owned(),
            division: cell(row, "division").to_owned(),
            bodyweight: kg(cell(row, "bodyweight_kg")),
            tries: [["s1", "s2", "s3"], ["b1", "b2", "b3"], ["d1", "d2", "d3"]]
                .map(|names| names.map(|name| tried(cell(row, name)))),
            bests: ["squat", "bench", "deadlift"]
                .map(|name| filled(cell(row, name)).map(|best| kg(best).mass)),
            total: filled(cell(row, "total")).map(|total| kg(total).mass),
            place: cell(row, "place").parse().ok(),
            guest: cell(row, "place") == "G",
        })
        .collect()
}

/// Reads a sheet of women's best lifts; the attempts on the way to a best are
/// made up.
pub fn best_lifts(text: &str) -> Vec<Lifter> {
    (1..)
        .zip(&rows(text))
        .map(|(no, row): (u16, _)| {
            let bests = ["squat_kg", "bench_kg", "deadlift_kg"]
                .map(|name| filled(cell(row, name)).map(|best| kg(best).mass));
            let whole = bests.iter().all(Option::is_some);
            Lifter {
                no,
                sex: Sex::F,
                category: cell(row, "class").to_owned(),
                division: cell(row, "division").to_owned(),
                bodyweight: kg(cell(row, "bodyweight_kg")),
                tries: bests.map(|best| on_the_way(best, no)),
                bests,
                total: whole.then(|| bests.iter().flatten().copied().sum()),
                place: filled(cell(row, "place")).map(|text| text.parse().unwrap()),
                guest: false,
            }
        })
        .collect()
}

/// Three tries that end in this best, in one of six ways; without a best,
/// three misses.
fn on_the_way(best: Option<Mass>, way: u16) -> [Option<Try>; 3] {
    let step = kg("2.5").mass;
    let try_at = |mass: Mass, good: bool| {
        Some(Try {
            load: Weight::computed(mass, Unit::Kg),
            good,
        })
    };
    let Some(best) = best else {
        return [60, 60, 65].map(|load| try_at(Mass::whole(load, Unit::Kg), false));
    };
    let less = |by: i64| (best - Mass::whole(by, Unit::Kg)).floor_to(step);
    let more = (best + step).ceil_to(step);
    // Whoever lifted little has no room for lighter tries.
    match if best < kg("40").mass { 1 } else { way % 6 } {
        0 => [
            try_at(less(7), true),
            try_at(best, true),
            try_at(more, false),
        ],
        1 => [try_at(best, false), try_at(best, true), try_at(more, false)],
        2 => [
            try_at(less(5), false),
            try_at(less(5), true),
            try_at(best, true),
        ],
        3 => [
            try_at(less(10), true),
            try_at(less(5), true),
            try_at(best, true),
        ],
        4 => [try_at(less(3), true), try_at(best, true), None],
        _ => [try_at(best, true), None, None],
    }
}
