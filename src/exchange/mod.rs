//! CSV and workbooks in and out: rosters, acts, record books, earlier maxes and tables.
//!
//! Pure functions over bytes and texts. Must never know a file's path, a
//! window or the time of day.

pub mod acts;
pub mod acts_out;
pub mod book;
pub mod day_json;
mod entry;
mod fault;
pub mod formula;
pub mod norms;
pub mod past;
pub mod records;
pub mod roster;
pub mod tables;
pub mod text;
pub mod workbook;
pub mod workbook_out;

pub use fault::{Fault, Query};

use crate::day::Facts;

/// The text in one line, without spaces around it.
fn one_line(text: &str) -> String {
    if text.contains(['\n', '\r', '\t']) {
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    } else {
        text.trim().to_owned()
    }
}

/// A platform by its number or label: `2`, `Rack 2`, `platform 2`.
///
/// Errors: a sentence that says what would be allowed.
fn platform(facts: &Facts, text: &str) -> Result<u8, String> {
    let most = facts.platforms.len();
    let text = text.trim();
    let labelled = facts
        .platforms
        .iter()
        .position(|p| !p.label.is_empty() && p.label.eq_ignore_ascii_case(text));
    let word = text.to_lowercase();
    let digits = ["platform", "rack"]
        .iter()
        .find_map(|w| word.strip_prefix(w))
        .unwrap_or(&word)
        .trim();
    let number = labelled
        .map(|at| at + 1)
        .or_else(|| digits.parse::<usize>().ok())
        .filter(|n| (1..=most).contains(n))
        .and_then(|n| u8::try_from(n).ok());
    number.ok_or_else(|| match most {
        1 => format!("“{text}” is no platform of this day; it has one, platform 1."),
        most => format!("“{text}” is no platform of this day; write 1 to {most}."),
    })
}
