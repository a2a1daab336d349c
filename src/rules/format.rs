//! The formats that are shipped.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

use super::{KeyError, Rules};
use crate::measure::Unit;

/// A format: the words of every rule, before the day's unit is known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Format {
    /// Its name, as `new` takes it.
    pub name: String,
    /// Its title, as a screen shows it.
    pub title: String,
    /// Its own lifts, as `--lifts` takes them.
    pub lifts: String,
    /// The words of its keys.
    words: BTreeMap<String, String>,
    /// Where each of them comes from.
    sources: BTreeMap<String, String>,
}

/// A rule in a format's file: its word and where that comes from.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Sourced {
    value: String,
    source: String,
}

/// A format's file.
#[derive(Debug, Deserialize)]
struct FormatFile {
    format: String,
    title: String,
    lifts: String,
    #[serde(flatten)]
    rules: BTreeMap<String, Sourced>,
}

/// Why a format can't be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FormatError {
    /// No format of that name.
    #[error("there is no format “{0}”; there is {1}")]
    Unknown(String, String),
    /// A file that isn't in shape.
    #[error("{0}")]
    Shape(String),
    /// A key that isn't right.
    #[error(transparent)]
    Key(#[from] KeyError),
}

const SHIPPED: [&str; 3] = [
    include_str!("../../resources/rules/max-day.toml"),
    include_str!("../../resources/rules/weightlifting.toml"),
    include_str!("../../resources/rules/powerlifting.toml"),
];

/// All shipped formats, in the order in which they are listed.
pub fn formats() -> &'static [Format] {
    static FORMATS: OnceLock<Vec<Format>> = OnceLock::new();
    FORMATS.get_or_init(|| {
        SHIPPED
            .iter()
            .filter_map(|text| Format::read(text).ok())
            .collect()
    })
}

/// The shipped format of that name.
///
/// # Errors
/// [`FormatError::Unknown`], with the list of what there is.
pub fn format_named(name: &str) -> Result<&'static Format, FormatError> {
    formats().iter().find(|f| f.name == name).ok_or_else(|| {
        let names: Vec<&str> = formats().iter().map(|f| f.name.as_str()).collect();
        FormatError::Unknown(name.to_owned(), names.join(", "))
    })
}

impl Format {
    /// Reads a format from its file's text.
    ///
    /// # Errors
    /// [`FormatError::Shape`] where the text has no name, title and lifts, or a
    /// rule without a value and a source.
    pub fn read(text: &str) -> Result<Self, FormatError> {
        let file: FormatFile =
            toml::from_str(text).map_err(|e| FormatError::Shape(e.to_string()))?;
        let (mut words, mut sources) = (BTreeMap::new(), BTreeMap::new());
        for (key, rule) in file.rules {
            let _ = words.insert(key.clone(), rule.value);
            let _ = sources.insert(key, rule.source);
        }
        Ok(Self {
            name: file.format,
            title: file.title,
            lifts: file.lifts,
            words,
            sources,
        })
    }

    /// Where the value of a rule comes from, for a bar in `unit`.
    pub fn source(&self, key: &str, unit: Unit) -> &str {
        self.sources
            .get(key)
            .or_else(|| self.sources.get(&format!("{key}-{unit}")))
            .map_or("", String::as_str)
    }

    /// A school's own format on the base of another.
    pub(super) fn own(
        base: &Self,
        name: Option<String>,
        title: Option<String>,
        lifts: Option<String>,
    ) -> Self {
        Self {
            name: name.unwrap_or_else(|| format!("own-{}", base.name)),
            title: title.unwrap_or_else(|| base.title.clone()),
            lifts: lifts.unwrap_or_else(|| base.lifts.clone()),
            words: base.words.clone(),
            sources: base.sources.clone(),
        }
    }

    /// The rules of this format for a bar in `unit`.
    ///
    /// Keys that end in `-kg` or `-lb` give the value for that unit.
    ///
    /// # Errors
    /// [`FormatError::Key`] for the first key that is missing or wrong.
    pub fn rules(&self, unit: Unit) -> Result<Rules, FormatError> {
        let (own, other) = (format!("-{unit}"), format!("-{}", unit.other()));
        let words = self
            .words
            .iter()
            .filter(|(key, _)| !key.ends_with(&other))
            .map(|(key, word)| {
                let key = key.strip_suffix(&own).unwrap_or(key);
                (key.to_owned(), word.clone())
            })
            .collect();
        Ok(Rules::from_words(&words, unit)?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shipped_format_reads_in_both_units() {
        assert_eq!(formats().len(), SHIPPED.len());
        for format in formats() {
            for unit in [Unit::Kg, Unit::Lb] {
                let rules = format.rules(unit).unwrap();
                let again = Rules::from_words(&rules.words(), unit).unwrap();
                assert_eq!(rules, again, "{} in {unit}", format.name);
                for key in super::super::keys() {
                    let source = format.source(key.name, unit);
                    assert!(!source.is_empty(), "{}: {}", format.name, key.name);
                }
            }
        }
    }

    #[test]
    fn an_unknown_format_names_what_there_is() {
        let error = format_named("javelin").unwrap_err().to_string();
        assert!(
            error.contains("max-day, weightlifting, powerlifting"),
            "{error}"
        );
    }
}
