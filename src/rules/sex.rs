//! The sex that a class or an athlete is placed under.

use std::fmt;

use serde::{Deserialize, Serialize};

/// The sex that an athlete is placed under.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
pub enum Sex {
    /// Girls and women.
    F,
    /// Boys and men.
    M,
}

impl Sex {
    /// Reads the usual words for either, any case.
    pub fn parse(text: &str) -> Option<Self> {
        match text.trim().to_lowercase().as_str() {
            "f" | "female" | "girl" | "girls" | "woman" | "women" | "w" => Some(Self::F),
            "m" | "male" | "boy" | "boys" | "man" | "men" => Some(Self::M),
            _ => None,
        }
    }

    /// The letter that is stored and printed.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::F => "F",
            Self::M => "M",
        }
    }
}

impl fmt::Display for Sex {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.letter())
    }
}
