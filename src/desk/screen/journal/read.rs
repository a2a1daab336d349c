//! What is typed into the journal's line.

use super::filter::Filter;
use crate::day::Facts;
use crate::desk::call_line::letters_of;

/// What the line says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Line {
    /// Only some acts.
    Filter(Filter),
    /// Nothing typed.
    Empty,
    /// Annul the act in hand, with a reason.
    Annul(String),
    /// Correct the act in hand.
    Correct {
        /// What it should have said.
        values: Vec<(String, String)>,
        /// Why; may be empty.
        reason: String,
    },
    /// Other lights for the attempt in hand, with their reasons.
    Lights(String),
    /// Not understood; the sentence.
    Wrong(String),
}

/// What is typed, without why it is corrected; and why. After lights `reason=` is
/// why too, since their reasons stand beside them.
pub(super) fn parted(text: &str) -> (String, String) {
    let lights = {
        let given = text.trim();
        let given = given.strip_prefix("lights=").unwrap_or(given);
        let letters = given.split([' ', ':', ';']).next().unwrap_or_default();
        letters_of(&letters.to_lowercase()).is_some()
    };
    let why = |part: &str| {
        let (key, value) = part.split_once('=')?;
        let key = key.trim().to_lowercase();
        let is_why = key == "why" || (lights && key == "reason");
        is_why.then(|| value.trim().to_owned())
    };
    let (mut left, mut whys) = (Vec::new(), Vec::new());
    for part in text.split(';') {
        match why(part) {
            Some(text) => whys.push(text),
            None => left.push(part),
        }
    }
    if whys.is_empty() {
        return (text.to_owned(), String::new());
    }
    (left.join(";").trim().to_owned(), whys.join("; "))
}

/// Reads what is typed into the journal's line.
pub(super) fn read_line(text: &str, facts: &Facts) -> Line {
    let text = text.trim();
    if text.is_empty() {
        return Line::Empty;
    }
    let (word, rest) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    if word.eq_ignore_ascii_case("annul") {
        return Line::Annul(rest.trim().to_owned());
    }
    let given = text.strip_prefix("lights=").unwrap_or(text);
    let letters = given.split([' ', ':']).next().unwrap_or_default();
    if letters_of(&letters.to_lowercase()).is_some() {
        return Line::Lights(given.to_owned());
    }
    let text = if word.eq_ignore_ascii_case("correct") {
        rest.trim()
    } else {
        match Filter::read(text, facts) {
            Ok(Some(filter)) => return Line::Filter(filter),
            Err(sentence) => return Line::Wrong(sentence),
            Ok(None) => text,
        }
    };
    let pairs: Option<Vec<(String, String)>> = text
        .split(';')
        .map(str::trim)
        .filter(|p| !p.is_empty())
        .map(|p| {
            let (key, value) = p.split_once('=')?;
            Some((key.trim().to_lowercase(), value.trim().to_owned()))
        })
        .collect();
    let mut reason = String::new();
    let values = pairs.map(|pairs| {
        let (why, values): (Vec<_>, Vec<_>) =
            pairs.into_iter().partition(|(key, _)| key == "reason");
        reason = why.into_iter().map(|(_, why)| why).collect();
        values
    });
    match values {
        Some(values) if !values.is_empty() => Line::Correct { values, reason },
        _ => Line::Wrong(format!(
            "“{text}” is not understood; write a table number, on and a platform, or an act \
             such as lights, to see only those; annul and a reason; other lights and their reason (rwr press-out); or what \
             the act should have said: load=85; ruling=good or no; behind it ; why=film."
        )),
    }
}
