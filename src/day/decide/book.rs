//! The record book: what is told of it anew.

use super::Decided;
use crate::day::event::Event;
use crate::day::facts::Facts;
use crate::day::{RecordKey, RecordMark, Refusal};

/// Tells records, or strikes them; what the book says already is left out.
pub(super) fn tell(
    facts: &Facts,
    records: &[(RecordKey, Option<RecordMark>)],
) -> Result<Decided, Refusal> {
    let mut events = Vec::new();
    for (record, mark) in records {
        if !record.category.is_empty() && record.sex.is_none() {
            return Err(Refusal::Setting(format!(
                "A record of category {} needs the sex, since categories are F or M.",
                record.category
            )));
        }
        if mark.is_none() && !facts.records.contains_key(record) {
            return Err(Refusal::Setting(format!(
                "The book has no record of {record}, so there is none to strike."
            )));
        }
        if facts.records.get(record) != mark.as_ref() {
            events.push(Event::RecordListed {
                record: record.clone(),
                mark: mark.clone(),
            });
        }
    }
    if events.is_empty() {
        return Err(Refusal::AlreadySo(
            "That is what the record book says already; nothing changes.".to_owned(),
        ));
    }
    Ok(Decided::new(None, events))
}
