//! The act `record`: one record of the school's book.

use super::{ActRow, pairs, words};
use crate::day::{Command, Facts, RecordKey, RecordMark, record_lift};
use crate::rules::Sex;

/// Reads a row; a blank load is a record that nobody has set yet.
pub(super) fn command(facts: &Facts, row: &ActRow) -> Result<Command, String> {
    let (mut sex, mut category, mut division) = (None, String::new(), String::new());
    let mut mark = RecordMark {
        load: words::load(facts, &row.load)?,
        ..RecordMark::default()
    };
    let mut struck = false;
    for (key, value) in pairs(row.detail.trim())? {
        match key.to_lowercase().as_str() {
            "sex" => {
                let read = Sex::parse(&value);
                sex = Some(read.ok_or_else(|| {
                    format!("“{value}” is no sex; write F or M, or leave sex out.")
                })?);
            }
            "category" => category = value,
            "division" => division = value,
            "holder" => mark.holder = value,
            "date" => mark.date = value,
            "place" => mark.place = value,
            "strike" => {
                struck = match value.to_lowercase().as_str() {
                    "yes" => true,
                    "no" => false,
                    _ => return Err(format!("“{value}” isn't yes or no.")),
                }
            }
            _ => {
                return Err(format!(
                    "“{key}” is no detail of a record; there is sex, category, division, \
                     holder, date, place, strike."
                ));
            }
        }
    }
    if struck && mark != RecordMark::default() {
        return Err(
            "A record that is struck has no load, holder, date or place; leave them out."
                .to_owned(),
        );
    }
    let key = RecordKey::new(record_lift(&row.lift)?, sex, &category, &division);
    Ok(Command::Book(vec![(key, (!struck).then_some(mark))]))
}
