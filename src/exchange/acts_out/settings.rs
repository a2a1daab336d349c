//! What the making of a day gave, as a `set` row.

use super::super::acts::{ActRow, show_pairs};
use crate::day::{Event, Recorded};
use crate::rules::{format_named, keys};

/// Names the row, so that a day made from these acts doesn't say it twice.
pub(super) const ID: &str = "as-made";

/// The settings of the day that its format alone doesn't give.
///
/// Where the journal has such a row already, nothing is said again: the day
/// was itself made from acts.
pub(super) fn made(first: &Recorded, journal: &[Recorded]) -> Vec<ActRow> {
    let Event::DayMade {
        name,
        date,
        format,
        bar_unit,
        rules,
        platforms,
        ..
    } = &first.event
    else {
        return Vec::new();
    };
    if journal.iter().any(|r| r.id == ID) {
        return Vec::new();
    }
    let mut pairs = Vec::new();
    if !name.is_empty() {
        pairs.push(("name".to_owned(), name.clone()));
    }
    pairs.push(("date".to_owned(), date.to_string()));
    if *platforms != 1 {
        pairs.push(("platforms".to_owned(), platforms.to_string()));
    }
    let usual = format_named(format).and_then(|f| f.rules(*bar_unit));
    let usual = usual.map(|r| r.words()).unwrap_or_default();
    for key in keys() {
        if let Some(word) = rules.get(key.name)
            && usual.get(key.name) != Some(word)
        {
            pairs.push((key.name.to_owned(), word.clone()));
        }
    }
    let row = ActRow {
        act: "set".to_owned(),
        detail: show_pairs(&pairs),
        id: ID.to_owned(),
        ..ActRow::default()
    };
    vec![super::stamped(row, first)]
}
