//! What the Papers screen can write.

use std::path::Path;

use crate::day::{Facts, Stamp};

/// Which papers, how large, and for whom.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Order {
    /// Names of the papers; none means all.
    pub only: Vec<String>,
    /// Whether the sheets are A4; else Letter.
    pub a4: bool,
    /// Whether they are for posting.
    pub posted: bool,
}

/// The papers that there are: name and what it is.
pub fn list() -> Vec<(String, String)> {
    Vec::new()
}

/// Writes papers into a folder; returns how many files.
///
/// # Errors
/// A sentence that says what is wrong.
pub fn write(
    facts: &Facts,
    now: Stamp,
    order: &Order,
    folder: &Path,
) -> Result<usize, String> {
    let _ = (facts, now, order, folder);
    Err("The papers aren't there yet.".to_owned())
}
