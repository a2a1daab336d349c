//! What a formula is for, how far it holds and how sure that is.

use serde::{Deserialize, Deserializer};

use super::{Event, Formula, NoScore};
use crate::measure::{Mass, Unit};
use crate::rules::Sex;

/// How sure a formula's constants are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
pub enum Certainty {
    /// Compared with independent published values, to their last digit.
    #[serde(rename = "checked")]
    Checked,
    /// Read in a published page.
    #[serde(rename = "published")]
    Published,
    /// Some of it was read, some not.
    #[serde(rename = "partly from memory")]
    Partly,
    /// Not verified.
    #[default]
    #[serde(rename = "from memory")]
    Memory,
}

impl Certainty {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Checked => "checked",
            Self::Published => "published",
            Self::Partly => "partly from memory",
            Self::Memory => "from memory",
        }
    }
}

/// What is scored by a formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
enum Events {
    /// A total, or any single lift.
    #[default]
    #[serde(rename = "any")]
    Any,
    /// A total alone.
    #[serde(rename = "total")]
    Total,
    /// A total, or the bench press.
    #[serde(rename = "total or bench press")]
    Bench,
}

/// The family of age factors that goes with a formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Ages {
    /// None was published.
    #[default]
    None,
    /// Those of weightlifting's masters.
    Masters,
    /// Those of powerlifting's young and masters.
    Powerlifting,
}

/// A formula's description, as its file has it.
#[derive(Debug, Clone, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct About {
    /// Its name, which a column of its scores has as a header.
    pub name: String,
    /// Its title.
    pub title: String,
    /// A short title, for a narrow column.
    pub short: String,
    /// What it compares.
    #[serde(rename = "for")]
    pub purpose: String,
    /// The lifts of the total that it is made for; empty where any will do.
    #[serde(default)]
    pub lifts: Vec<String>,
    /// Its bounds, in words.
    pub bounds: String,
    /// On which days it holds, in words.
    pub valid: String,
    /// Where it was read.
    pub source: String,
    /// How sure that is.
    pub certainty: Certainty,
    /// What of it is from memory, as a sentence; empty where nothing is.
    pub memory: String,
    /// How many decimals are shown.
    pub decimals: usize,
    /// The age factors that go with it.
    pub ages: Ages,
    #[serde(deserialize_with = "kilograms")]
    lightest_f: Mass,
    #[serde(deserialize_with = "kilograms")]
    lightest_m: Mass,
    #[serde(deserialize_with = "kilograms")]
    heaviest: Mass,
    events: Events,
}

impl About {
    /// The lightest bodyweight that gets a number; the lower one of both sexes
    /// where the sex isn't known.
    pub fn lightest(&self, sex: Option<Sex>) -> Mass {
        match sex {
            Some(Sex::F) => self.lightest_f,
            Some(Sex::M) => self.lightest_m,
            None => self.lightest_f.min(self.lightest_m),
        }
    }

    /// The heaviest bodyweight that gets a number.
    pub const fn heaviest(&self) -> Mass {
        self.heaviest
    }

    /// Checks that this formula scores such a thing.
    ///
    /// # Errors
    /// [`NoScore::Event`].
    pub(super) fn allows(
        &self,
        formula: Formula,
        event: Event<'_>,
    ) -> Result<(), NoScore> {
        let allowed = match (self.events, event) {
            (Events::Any, _) | (_, Event::Total) => true,
            (Events::Bench, lift) => lift.is_bench(),
            (Events::Total, _) => false,
        };
        if allowed {
            return Ok(());
        }
        Err(NoScore::Event {
            formula,
            bench: self.events == Events::Bench,
        })
    }

    /// Checks a bodyweight against the bounds, which belong to them.
    ///
    /// # Errors
    /// [`NoScore::Bodyweight`].
    pub(super) fn admits(
        &self,
        formula: Formula,
        sex: Option<Sex>,
        bodyweight: Mass,
    ) -> Result<(), NoScore> {
        let (lightest, heaviest) = (self.lightest(sex), self.heaviest());
        if (lightest..=heaviest).contains(&bodyweight) {
            return Ok(());
        }
        Err(NoScore::Bodyweight {
            formula,
            sex,
            lightest,
            heaviest,
            found: bodyweight,
        })
    }
}

/// Reads a mass in kilograms from its text, which keeps it exact.
fn kilograms<'de, D: Deserializer<'de>>(file: D) -> Result<Mass, D::Error> {
    let text = String::deserialize(file)?;
    Mass::parse(&text, Unit::Kg).map_err(serde::de::Error::custom)
}

/// Reads a shipped file; what isn't in shape reads as nothing, which a test
/// would find.
pub(super) fn shipped<T: Default + for<'a> Deserialize<'a>>(text: &str) -> T {
    toml::from_str(text).unwrap_or_default()
}
