//! Discs on hand, in pairs.

use std::fmt::Write as _;
use std::sync::OnceLock;

use serde::Deserialize;

use crate::measure::{Mass, Unit, Weight};

/// The most kinds of discs that a stock may have.
const MOST_KINDS: usize = 24;

/// The most pairs of one kind.
const MOST_PAIRS: u8 = 30;

/// Discs on hand: kinds from the heaviest, each with its pairs.
///
/// A pair is one disc for each side. Kilogram and pound discs may be mixed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Discs {
    kinds: Vec<(Weight, u8)>,
}

/// Why a stock of discs can't be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "“{word}” is no pair of discs; write a mass, x, and how many pairs, such as 20x2 or 45lb x3"
)]
pub struct DiscError {
    /// What can't be read.
    pub word: String,
}

impl Discs {
    /// Reads `20x2 10x1 2.5`, a plain mass in `unit`; `lb` or `kg` may follow
    /// a mass. One pair where no number follows.
    ///
    /// # Errors
    /// [`DiscError`] for the first word that is no pair: a mass outside 0.05
    /// to 50 kg, more than 30 pairs, a kind that is there twice, or more than
    /// 24 kinds.
    pub fn parse(text: &str, unit: Unit) -> Result<Self, DiscError> {
        let mut kinds: Vec<(Weight, u8)> = Vec::new();
        for word in text
            .split([' ', ',', ';'])
            .map(str::trim)
            .filter(|w| !w.is_empty())
        {
            let wrong = || DiscError {
                word: word.to_owned(),
            };
            let (mass, pairs) = match word.split_once(['x', 'X']) {
                Some((mass, pairs)) => (mass, pairs.parse::<u8>().map_err(|_| wrong())?),
                None => (word, 1),
            };
            let mass = Weight::parse(mass, unit).map_err(|_| wrong())?;
            let least = Mass::from_counts(Mass::whole(1, Unit::Kg).counts() / 20);
            let known = kinds.iter().any(|(m, _)| m.mass == mass.mass);
            if mass.mass < least
                || mass.mass > Mass::whole(50, Unit::Kg)
                || pairs > MOST_PAIRS
                || known
                || kinds.len() >= MOST_KINDS
            {
                return Err(wrong());
            }
            if pairs > 0 {
                kinds.push((mass, pairs));
            }
        }
        kinds.sort_by_key(|(mass, _)| std::cmp::Reverse(mass.mass));
        Ok(Self { kinds })
    }

    /// Reads a shipped set's name, or as [`Discs::parse`].
    ///
    /// # Errors
    /// As [`Discs::parse`].
    pub fn named(word: &str, unit: Unit) -> Result<Self, DiscError> {
        match set_of_discs(word.trim()) {
            Some(set) => Ok(set.discs.clone()),
            None => Self::parse(word, unit),
        }
    }

    /// Kinds from the heaviest with their pairs.
    pub fn kinds(&self) -> &[(Weight, u8)] {
        &self.kinds
    }

    /// Writes the stock so that [`Discs::parse`] reads it back, with units
    /// where they aren't `unit`.
    pub fn show(&self, unit: Unit) -> String {
        let mut text = String::new();
        for (mass, pairs) in &self.kinds {
            if !text.is_empty() {
                text.push(' ');
            }
            let _ = match mass.unit == unit {
                true => write!(text, "{}x{pairs}", mass.typed),
                false => write!(text, "{}{}x{pairs}", mass.typed, mass.unit),
            };
        }
        text
    }
}

/// A set of discs that is shipped.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DiscSet {
    /// Its name.
    pub name: String,
    /// Its title.
    pub title: String,
    /// Where it comes from.
    pub source: String,
    /// The discs.
    pub discs: Discs,
}

#[derive(Deserialize)]
struct File {
    set: Vec<SetRow>,
}

#[derive(Deserialize)]
struct SetRow {
    name: String,
    title: String,
    source: String,
    unit: Unit,
    pairs: String,
}

/// All shipped sets.
pub fn disc_sets() -> &'static [DiscSet] {
    static SETS: OnceLock<Vec<DiscSet>> = OnceLock::new();
    SETS.get_or_init(|| {
        let file: Result<File, _> =
            toml::from_str(include_str!("../../resources/discs.toml"));
        file.map_or_else(
            |_| Vec::new(),
            |file| {
                file.set
                    .into_iter()
                    .filter_map(|row| {
                        Some(DiscSet {
                            discs: Discs::parse(&row.pairs, row.unit).ok()?,
                            name: row.name,
                            title: row.title,
                            source: row.source,
                        })
                    })
                    .collect()
            },
        )
    })
}

/// The shipped set of that name.
pub fn set_of_discs(name: &str) -> Option<&'static DiscSet> {
    disc_sets().iter().find(|s| s.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shipped_set_reads() {
        assert_eq!(disc_sets().len(), 4);
        assert!(disc_sets().iter().all(|s| s.discs.kinds().len() >= 6));
    }

    #[test]
    fn a_stock_is_read_and_written() {
        let discs = Discs::parse("2.5x1, 20x2 45lbx3 10", Unit::Kg).unwrap();
        assert_eq!(discs.show(Unit::Kg), "45lbx3 20x2 10x1 2.5x1");
        assert_eq!(Discs::parse(&discs.show(Unit::Kg), Unit::Kg), Ok(discs));
        assert_eq!(Discs::parse("", Unit::Kg), Ok(Discs::default()));
        for wrong in ["20x", "x2", "20x31", "0x1", "51x1", "20x1 20x2", "twenty"] {
            assert!(Discs::parse(wrong, Unit::Kg).is_err(), "{wrong}");
        }
    }
}
