//! What the making of a day gave, as a `set` row.

use super::super::acts::{ActRow, show_pairs};
use crate::day::{Event, Recorded};
use crate::rules::{format_named, keys};

/// Names the row, so that a day made from these acts doesn't say it twice.
const ID: &str = "as-made";

/// The settings of the day that its format alone doesn't give.
///
/// `next` is the act behind the making; where it is such a row itself, what
/// it sets isn't said again.
pub(super) fn made(first: &Recorded, next: Option<&Recorded>) -> Vec<ActRow> {
    let Event::DayMade {
        name,
        date,
        format,
        bar_unit,
        rules,
        ..
    } = &first.event
    else {
        return Vec::new();
    };
    if next.is_some_and(|r| r.id == ID) {
        return Vec::new();
    }
    let mut pairs = Vec::new();
    if !name.is_empty() {
        pairs.push(("name".to_owned(), name.clone()));
    }
    pairs.push(("date".to_owned(), date.to_string()));
    let usual = format_named(format).and_then(|f| f.rules(*bar_unit));
    let usual = usual.map(|r| r.words()).unwrap_or_default();
    for key in keys() {
        if let Some(word) = rules.get(key.name)
            && usual.get(key.name) != Some(word)
        {
            pairs.push((key.name.to_owned(), word.clone()));
        }
    }
    vec![ActRow {
        act: "set".to_owned(),
        detail: show_pairs(&pairs),
        id: ID.to_owned(),
        ..ActRow::default()
    }]
}
