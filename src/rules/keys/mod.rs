//! The keys of a rules file: name, meaning, allowed words, reading, printing.
//!
//! One table serves the shipped files, the `set` act, the stored day and the
//! printed list of formats.

use super::model::Rules;
macro_rules! key {
    ($name:literal, $allowed:literal, $meaning:literal, $get:expr, $set:expr) => {
        Key {
            name: $name,
            meaning: $meaning,
            allowed: $allowed,
            get: $get,
            set: $set,
        }
    };
}

mod care;
mod errors;
mod order;
mod places;
mod requests;
mod scores;
mod time;

use std::sync::OnceLock;

/// One key of a rules file.
#[derive(Debug, Clone, Copy)]
pub struct Key {
    /// Its name.
    pub name: &'static str,
    /// What it means, in one sentence.
    pub meaning: &'static str,
    /// The words that are allowed.
    pub allowed: &'static str,
    /// Prints its word.
    pub get: fn(&Rules) -> String,
    /// Reads a word; false where it isn't allowed.
    pub set: fn(&mut Rules, &str) -> bool,
}

/// Why a key can't be taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KeyError {
    /// No such key.
    #[error("there is no rule “{0}”")]
    Unknown(String),
    /// A key that every format must give.
    #[error("the rule “{0}” is missing")]
    Missing(String),
    /// A word that the key doesn't allow.
    #[error("“{word}” is not allowed for {key}; allowed: {allowed}")]
    Word {
        /// The key.
        key: String,
        /// The word.
        word: String,
        /// What would be allowed.
        allowed: String,
    },
}

/// All keys in groups of one subject, each under its heading, in the order in
/// which they are listed.
pub const fn key_groups() -> [(&'static str, &'static [Key]); 7] {
    [
        ("Order of call and attempts", order::KEYS),
        ("Requests", requests::KEYS),
        ("Clocks and times", time::KEYS),
        ("Official errors and challenges", errors::KEYS),
        ("Places, totals and teams", places::KEYS),
        ("Scores and clubs", scores::KEYS),
        ("Bar, gates and posting", care::KEYS),
    ]
}

/// All keys, in the order in which they are listed.
pub fn keys() -> &'static [Key] {
    static ALL: OnceLock<Vec<Key>> = OnceLock::new();
    ALL.get_or_init(|| key_groups().map(|(_, keys)| keys).concat())
}
