//! An athlete by the start of a name, instead of the number.

use unicode_normalization::UnicodeNormalization as _;
use unicode_normalization::char::is_combining_mark;

use crate::day::Facts;
use crate::roster::Entry;

/// How many that a name could mean are listed.
const LISTED: usize = 5;

/// The line with an athlete's number in place of the name with which it begins;
/// `None` where it begins with no name of an entry.
///
/// The start of a given or family name is enough; accents and case don't
/// matter.
///
/// # Errors
/// A sentence that lists the athletes, where several could be meant.
pub(super) fn numbered(words: &[&str], facts: &Facts) -> Option<Result<String, String>> {
    let (typed, rest) = words.split_first()?;
    let start = plain(typed);
    if start.chars().count() < 2 || !typed.starts_with(char::is_alphabetic) {
        return None;
    }
    let fits: Vec<&Entry> = facts
        .entries
        .values()
        .filter(|entry| {
            [&entry.family, &entry.given]
                .into_iter()
                .flat_map(|name| name.split([' ', '-']))
                .any(|part| plain(part).starts_with(&start))
        })
        .collect();
    match fits.as_slice() {
        [] => None,
        [only] => {
            let number = only.number.to_string();
            let line: Vec<&str> = std::iter::once(number.as_str())
                .chain(rest.iter().copied())
                .collect();
            // Alone it asks who that is, also while a request is owed.
            Some(Ok(if rest.is_empty() {
                format!("who {number}")
            } else {
                line.join(" ")
            }))
        }
        several => {
            let mut list: Vec<String> = several
                .iter()
                .take(LISTED)
                .map(|e| format!("lot {} {}", e.number, e.name()))
                .collect();
            let more = several.len().saturating_sub(LISTED);
            if more > 0 {
                list.push(format!("{more} more"));
            }
            Some(Err(format!(
                "“{typed}” could be {}; write more of the name, or the number.",
                list.join(", ")
            )))
        }
    }
}

/// A name without accents and case.
pub(super) fn plain(name: &str) -> String {
    name.nfd()
        .filter(|c| !is_combining_mark(*c))
        .flat_map(char::to_lowercase)
        .collect()
}
