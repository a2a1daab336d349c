//! Typed cells and the table that every face shows.

use crate::day::Ruling;
use crate::measure::{Mass, Unit};

/// One cell of a sheet.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Cell {
    /// Nothing to say.
    #[default]
    Blank,
    /// A text.
    Text(String),
    /// A whole number: a place, a lot, an attempt number.
    Count(i64),
    /// A decimal without a unit, as it is shown: a score.
    Decimal(String),
    /// A mass, shown in the given unit.
    Mass(Mass, Unit),
    /// An attempt: its load in the unit, and its ruling once there is one.
    Attempt {
        /// Credited load of a ruled attempt, else the request; `None` where
        /// there is no load to show.
        load: Option<Mass>,
        /// Unit of the load.
        unit: Unit,
        /// The ruling, once there is one.
        ruling: Option<Ruling>,
        /// Repetitions; more than one is marked, since it is no test of the max.
        reps: u8,
    },
    /// A max that was estimated from several repetitions, in the given unit.
    Estimate(Mass, Unit),
}

impl Cell {
    /// A text cell; an empty text is [`Cell::Blank`].
    pub fn text(text: impl Into<String>) -> Self {
        let text = text.into();
        if text.is_empty() {
            Self::Blank
        } else {
            Self::Text(text)
        }
    }

    /// A count, or blank.
    pub fn count(n: Option<impl Into<i64>>) -> Self {
        n.map_or(Self::Blank, |n| Self::Count(n.into()))
    }

    /// A mass, or blank.
    pub fn mass(mass: Option<Mass>, unit: Unit) -> Self {
        mass.map_or(Self::Blank, |m| Self::Mass(m, unit))
    }

    /// What a screen or paper shows: plain text, no unit.
    ///
    /// An attempt without a load shows its ruling's word; one of several
    /// repetitions shows them behind the load.
    pub fn shown(&self) -> String {
        match self {
            Self::Blank => String::new(),
            Self::Text(text) | Self::Decimal(text) => text.clone(),
            Self::Count(n) => n.to_string(),
            Self::Mass(mass, unit) => mass.shown(*unit),
            Self::Estimate(mass, unit) => format!("est. {}", mass.shown(*unit)),
            Self::Attempt {
                load,
                unit,
                ruling,
                reps,
            } => {
                let load = load.map(|l| l.shown(*unit));
                let word = match ruling {
                    None => None,
                    Some(Ruling::Good | Ruling::No) if load.is_some() => None,
                    Some(ruling) => Some(ruling.word().to_owned()),
                };
                let times = load.as_ref().and_then(|_| times(*reps));
                let words: Vec<String> =
                    [load, times, word].into_iter().flatten().collect();
                words.join(" ")
            }
        }
    }

    /// Whether the text is struck through: an attempt ruled no lift.
    pub fn struck(&self) -> bool {
        matches!(self, Self::Attempt { ruling: Some(r), .. } if r.is_no_lift())
    }

    /// The cell's CSV fields: one, or two for an attempt (load and ruling).
    pub fn csv(&self) -> Vec<String> {
        match self {
            Self::Attempt {
                load,
                unit,
                ruling,
                reps,
            } => vec![
                load.map(|m| m.show(*unit)).unwrap_or_default(),
                ruling
                    .as_ref()
                    .map(|r| ruling_words(r, *reps))
                    .unwrap_or_default(),
            ],
            Self::Mass(mass, unit) | Self::Estimate(mass, unit) => vec![mass.show(*unit)],
            Self::Blank | Self::Text(_) | Self::Decimal(_) | Self::Count(_) => {
                vec![self.shown()]
            }
        }
    }
}

/// `x5`, where there were several repetitions.
fn times(reps: u8) -> Option<String> {
    (reps > 1).then(|| format!("x{reps}"))
}

/// A ruling's word, with the repetitions behind it where there were several:
/// `good x5`.
pub fn ruling_words(ruling: &Ruling, reps: u8) -> String {
    let mut words = ruling.word().to_owned();
    if let Some(times) = times(reps) {
        words.push(' ');
        words.push_str(&times);
    }
    words
}

/// How a column's cells stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// Flush left: names, words.
    Left,
    /// Flush right: numbers.
    Right,
    /// Centred: short marks.
    Centre,
}

/// One column of a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// The CSV header; an attempt column adds `<key> ruling` behind it.
    pub key: String,
    /// The heading on screens and papers; empty hides the column there.
    pub label: String,
    /// A heading that spans neighbouring columns that share it, or empty.
    pub span: String,
    /// How its cells stand.
    pub align: Align,
    /// Whether its cells are [`Cell::Attempt`].
    pub attempt: bool,
}

impl Column {
    /// A plain column.
    pub fn new(key: &str, label: &str, align: Align) -> Self {
        Self {
            key: key.to_owned(),
            label: label.to_owned(),
            span: String::new(),
            align,
            attempt: false,
        }
    }

    /// The same column under a spanning heading.
    #[must_use]
    pub fn under(mut self, span: &str) -> Self {
        span.clone_into(&mut self.span);
        self
    }

    /// The same column, holding attempts.
    #[must_use]
    pub const fn attempts(mut self) -> Self {
        self.attempt = true;
        self
    }
}

/// Rows that belong together under one heading.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Group {
    /// The heading, such as `F 63` or `Flight A`; may be empty.
    pub label: String,
    /// A remark under the heading, such as the set the category is from.
    pub remark: String,
    /// The rows; each has one cell a column.
    pub rows: Vec<Vec<Cell>>,
}

/// A table, computed once for every face.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Table {
    /// The columns, in order.
    pub columns: Vec<Column>,
    /// The groups, in order.
    pub groups: Vec<Group>,
}

impl Table {
    /// The CSV header.
    pub fn csv_header(&self) -> Vec<String> {
        let mut header = Vec::new();
        for column in &self.columns {
            header.push(column.key.clone());
            if column.attempt {
                header.push(format!("{} ruling", column.key));
            }
        }
        header
    }

    /// The CSV rows, group by group.
    pub fn csv_rows(&self) -> impl Iterator<Item = Vec<String>> + '_ {
        self.groups.iter().flat_map(|g| &g.rows).map(|row| {
            row.iter()
                .zip(&self.columns)
                .flat_map(|(cell, column)| {
                    let mut fields = cell.csv();
                    fields.resize(if column.attempt { 2 } else { 1 }, String::new());
                    fields
                })
                .collect()
        })
    }

    /// How many rows there are in all groups.
    pub fn len(&self) -> usize {
        self.groups.iter().map(|g| g.rows.len()).sum()
    }

    /// Whether there is no row.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_attempt_is_two_csv_fields_and_struck_when_no_lift() {
        let cell = Cell::Attempt {
            load: Some(Mass::whole(85, Unit::Kg)),
            unit: Unit::Kg,
            ruling: Some(Ruling::No),
            reps: 1,
        };
        assert_eq!(cell.csv(), ["85", "no"]);
        assert!(cell.struck());
        assert_eq!(cell.shown(), "85");
    }

    #[test]
    fn several_repetitions_and_estimates_are_marked() {
        let mass = Mass::whole(85, Unit::Kg);
        let cell = |ruling| Cell::Attempt {
            load: Some(mass),
            unit: Unit::Kg,
            ruling: Some(ruling),
            reps: 5,
        };
        assert_eq!(cell(Ruling::Good).csv(), ["85", "good x5"]);
        assert_eq!(cell(Ruling::Good).shown(), "85 x5");
        assert_eq!(cell(Ruling::Stopped).shown(), "85 x5 stopped");
        let estimate = Cell::Estimate(mass, Unit::Kg);
        assert_eq!(estimate.csv(), ["85"]);
        assert_eq!(estimate.shown(), "est. 85");
    }
}
