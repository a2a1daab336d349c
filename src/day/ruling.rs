//! What the judges' decisions add up to.

use std::fmt;

use serde::{Deserialize, Serialize};

/// The outcome of an attempt.
///
/// Stored as a word; a reader keeps words that it doesn't know.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(from = "String", into = "String")]
pub enum Ruling {
    /// A good lift.
    Good,
    /// No lift.
    No,
    /// The athlete passed this attempt.
    Pass,
    /// The clock ran out before the bar was raised: no lift.
    Time,
    /// Stopped for technique, pain, or by the day's director.
    Stopped,
    /// A word from a newer program; counts as no result.
    Other(String),
}

impl Ruling {
    /// The word that is stored and printed.
    pub fn word(&self) -> &str {
        match self {
            Self::Good => "good",
            Self::No => "no",
            Self::Pass => "pass",
            Self::Time => "time",
            Self::Stopped => "stopped",
            Self::Other(word) => word,
        }
    }

    /// Reads one of the five words that can be given today.
    pub fn parse(text: &str) -> Option<Self> {
        match text.trim().to_lowercase().as_str() {
            "good" => Some(Self::Good),
            "no" => Some(Self::No),
            "pass" => Some(Self::Pass),
            "time" => Some(Self::Time),
            "stopped" => Some(Self::Stopped),
            _ => None,
        }
    }

    /// Whether the attempt counts for a best.
    pub const fn is_good(&self) -> bool {
        matches!(self, Self::Good)
    }

    /// Whether it is a no lift, which paper prints struck through.
    pub const fn is_no_lift(&self) -> bool {
        matches!(self, Self::No | Self::Time)
    }
}

impl From<String> for Ruling {
    fn from(word: String) -> Self {
        Self::parse(&word).unwrap_or(Self::Other(word))
    }
}

impl From<Ruling> for String {
    fn from(ruling: Ruling) -> Self {
        ruling.word().to_owned()
    }
}

impl fmt::Display for Ruling {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_unknown_word_is_kept() {
        let ruling = Ruling::from("withheld".to_owned());
        assert_eq!(ruling, Ruling::Other("withheld".to_owned()));
        assert_eq!(String::from(ruling), "withheld");
    }
}
