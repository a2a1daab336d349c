//! What compares unlike bodies on a day: its scores and what is chosen for them.

use super::Sex;
use super::words::{Word, put};
use crate::lift::lift_named;
use crate::measure::{Mass, Unit};

/// A published formula of relative strength.
///
/// What each needs and how far it holds is told by its `about`, which
/// `score/` reads from `resources/scores/`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Formula {
    /// Load over bodyweight.
    Ratio,
    /// Load over a power of bodyweight.
    Allometric,
    /// Sinclair totals.
    Sinclair,
    /// Robi points.
    Robi,
    /// IPF GL points.
    IpfGl,
    /// DOTS.
    Dots,
    /// Wilks as first published.
    Wilks,
    /// Wilks of 2020.
    Wilks2020,
}

/// Whether a lifter wears supportive equipment; only IPF GL points ask.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Equipment {
    /// No supportive suit or shirt.
    #[default]
    Classic,
    /// With one.
    Equipped,
}

impl Formula {
    /// All formulas, in the order in which they are listed.
    pub const ALL: [Self; 8] = [
        Self::Ratio,
        Self::Allometric,
        Self::Sinclair,
        Self::Robi,
        Self::IpfGl,
        Self::Dots,
        Self::Wilks,
        Self::Wilks2020,
    ];

    /// Its name, which heads a column of its scores.
    pub fn name(self) -> &'static str {
        self.word()
    }
}

impl Equipment {
    /// Reads `classic` or `equipped`, any case.
    pub fn parse(text: &str) -> Option<Self> {
        Self::read(text.trim())
    }
}

/// Which scores a day has.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum DayScores {
    /// None of its own.
    #[default]
    None,
    /// The one that suits the programme.
    Usual,
    /// These, the leading one first; each once.
    Of(Vec<Formula>),
}

/// A record total that Robi points go by, as it was written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClassTotal {
    /// The sex.
    pub sex: Sex,
    /// The bodyweight category: `63`, `+87`.
    pub category: String,
    /// The record, without its unit.
    pub record: String,
    /// The unit of both.
    pub unit: Unit,
}

/// The scores of a day, and what is chosen for them.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ScoreRules {
    /// Which.
    pub which: DayScores,
    /// Whether age factors are multiplied in where some go with a formula.
    pub ages: bool,
    /// The equipment, for IPF GL points.
    pub equipment: Equipment,
    /// The exponents of allometric scaling, as they are written; `usual` are the
    /// shipped ones.
    pub exponents: String,
    /// The records of Robi points; none means those of the record book.
    pub records: Vec<ClassTotal>,
}

impl ScoreRules {
    /// No score of the day's own, and the usual choices.
    pub(super) fn usual() -> Self {
        Self {
            exponents: "usual".to_owned(),
            ..Self::default()
        }
    }
}

/// Reads `none`, `usual`, or formulas parted by spaces or commas, each once.
pub(super) fn which(place: &mut DayScores, word: &str) -> bool {
    let read = match word.to_lowercase().as_str() {
        "none" => Some(DayScores::None),
        "usual" => Some(DayScores::Usual),
        list => formulas(list).map(DayScores::Of),
    };
    read.map(|read| *place = read).is_some()
}

fn formulas(list: &str) -> Option<Vec<Formula>> {
    let mut found: Vec<Formula> = Vec::new();
    for word in list.split([' ', ',']).filter(|w| !w.is_empty()) {
        let formula = Formula::read(word)?;
        if found.contains(&formula) {
            return None;
        }
        found.push(formula);
    }
    (!found.is_empty()).then_some(found)
}

pub(super) fn show_which(which: &DayScores) -> String {
    match which {
        DayScores::None => "none".to_owned(),
        DayScores::Usual => "usual".to_owned(),
        DayScores::Of(list) => super::words::show_list(list),
    }
}

pub(super) fn equipment(place: &mut Equipment, word: &str) -> bool {
    put(place, word)
}

/// Reads `usual`, an exponent from 0 to 1, or one a lift: `bench-press=0.559`,
/// parted by commas.
pub(super) fn exponents(place: &mut String, word: &str) -> bool {
    let part = |part: &str| match part.split_once('=') {
        Some((lift, value)) => lift_named(lift).is_ok() && is_share(value.trim()),
        None => is_share(part),
    };
    let ok = word == "usual" || word.split(',').all(|text| part(text.trim()));
    if ok {
        word.clone_into(place);
    }
    ok
}

/// Whether a text is a plain decimal from 0 to 1.
fn is_share(text: &str) -> bool {
    let (whole, decimals) = text.split_once('.').unwrap_or((text, "0"));
    let digits = !decimals.is_empty()
        && decimals.len() <= 16
        && decimals.bytes().all(|b| b.is_ascii_digit());
    digits && (whole == "0" || (whole == "1" && decimals.bytes().all(|b| b == b'0')))
}

/// Reads `book`, or record totals such as `F 63:215 +63:230; M 73:300`, with a
/// unit for all at the end where it isn't kg.
pub(super) fn records(place: &mut Vec<ClassTotal>, word: &str) -> bool {
    if word.eq_ignore_ascii_case("book") {
        place.clear();
        return true;
    }
    let (list, unit) = match word.rsplit_once(' ') {
        Some((list, "lb")) => (list, Unit::Lb),
        Some((list, "kg")) => (list, Unit::Kg),
        _ => (word, Unit::Kg),
    };
    let mut read: Vec<ClassTotal> = Vec::new();
    for part in list.split(';') {
        let Some(rows) = class_totals(part, unit) else {
            return false;
        };
        read.extend(rows);
    }
    for (i, row) in read.iter().enumerate() {
        let same = |r: &ClassTotal| r.sex == row.sex && r.category == row.category;
        if read[..i].iter().any(same) {
            return false;
        }
    }
    *place = read;
    true
}

fn class_totals(part: &str, unit: Unit) -> Option<Vec<ClassTotal>> {
    let mut words = part.split([' ', ',']).filter(|w| !w.is_empty());
    let sex = Sex::parse(words.next()?)?;
    let mut rows = Vec::new();
    for word in words {
        let (category, record) = word.split_once(':')?;
        let above = |text: &str| {
            let mass = Mass::parse(text, unit).ok();
            mass.is_some_and(|m| m > Mass::ZERO)
        };
        let open = category.starts_with('+') || category.ends_with('+');
        let limit = category.trim_matches('+');
        if !above(limit) || !above(record) {
            return None;
        }
        rows.push(ClassTotal {
            sex,
            category: if open {
                format!("+{limit}")
            } else {
                limit.to_owned()
            },
            record: record.to_owned(),
            unit,
        });
    }
    (!rows.is_empty()).then_some(rows)
}

pub(super) fn show_records(records: &[ClassTotal]) -> String {
    let Some(first) = records.first() else {
        return "book".to_owned();
    };
    let mut words: Vec<String> = Vec::new();
    for rows in records.chunk_by(|a, b| a.sex == b.sex) {
        let list = rows.iter().map(|r| format!("{}:{}", r.category, r.record));
        let list: Vec<String> = list.collect();
        let sex = rows.first().map_or("", |r| r.sex.letter());
        words.push(format!("{sex} {}", list.join(" ")));
    }
    let unit = match first.unit {
        Unit::Kg => "",
        Unit::Lb => " lb",
    };
    format!("{}{unit}", words.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scores_and_their_choices_are_words() {
        let mut list = DayScores::None;
        for word in ["none", "usual", "sinclair", "dots ipf-gl wilks-2020"] {
            assert!(which(&mut list, word));
            assert_eq!(show_which(&list), word);
        }
        for wrong in ["", "points", "dots dots", "none dots"] {
            assert!(!which(&mut list, wrong), "{wrong}");
        }
        let mut text = String::new();
        for word in ["usual", "0.67", "1", "bench-press=0.559,back squat=0.5"] {
            assert!(exponents(&mut text, word), "{word}");
        }
        for wrong in ["", "1.5", "-0.5", "sqaut=0.5", "0.", "big"] {
            assert!(!exponents(&mut text, wrong), "{wrong}");
        }
        let mut rows = Vec::new();
        for word in ["book", "F 63:215 +63:230.5; M 73:300", "M 165:600 lb"] {
            assert!(records(&mut rows, word), "{word}");
            assert_eq!(show_records(&rows), word);
        }
        for wrong in [
            "",
            "F",
            "F 63",
            "63:215",
            "F 63:0",
            "F 63:1 63:2",
            "X 63:215",
        ] {
            assert!(!records(&mut rows, wrong), "{wrong}");
        }
    }
}
