//! An entry from cells, whether a roster's row or an `add` act's keys.

use crate::day::{Facts, Place};
use crate::lift::Slug;
use crate::measure::Unit;
use crate::roster::{Change, Column, Reading};

/// A cell with its column and the column's name as the person wrote it.
#[derive(Debug, Clone)]
pub(super) struct Given<'a> {
    pub(super) column: &'a Column,
    pub(super) label: &'a str,
    pub(super) text: String,
}

/// What the cells of one entry say.
#[derive(Debug, Clone, Default)]
pub(super) struct Said {
    /// Table number.
    pub(super) number: Option<u16>,
    /// Details from filled cells, but for the slots.
    pub(super) details: Vec<Change>,
    /// Slots of which a cell says something.
    pub(super) slots: Vec<Change>,
    /// All slots of the programme, as a new entry gets them.
    pub(super) all_slots: Vec<Change>,
    /// Session, flight and platform as written.
    pub(super) place: Place,
}

impl Said {
    /// All details of a new entry.
    pub(super) fn for_new(&self) -> Vec<Change> {
        [self.details.as_slice(), &self.all_slots].concat()
    }

    /// The details of which a cell says something.
    pub(super) fn told(&self) -> Vec<Change> {
        [self.details.as_slice(), &self.slots].concat()
    }

    /// Given name, space, family name.
    pub(super) fn name(&self) -> String {
        let mut name = (String::new(), String::new());
        for change in &self.details {
            match change {
                Change::Given(text) => name.0.clone_from(text),
                Change::Family(text) => name.1.clone_from(text),
                _ => {}
            }
        }
        format!("{} {}", name.0, name.1).trim().to_owned()
    }
}

/// A column's name and what is wrong in it.
pub(super) type Wrong = (String, String);

/// Reads an entry's cells; a blank cell says nothing, but for openers.
pub(super) fn said(
    given: &[Given<'_>],
    facts: &Facts,
    reading: &Reading<'_>,
) -> (Said, Vec<Wrong>) {
    let mut said = Said::default();
    let mut wrong = Vec::new();
    let unit = unit_of(given, &mut wrong);
    names(given, &mut said);
    for cell in given.iter().filter(|c| !c.text.is_empty()) {
        let mut fault = |message: String| wrong.push((cell.label.to_owned(), message));
        match cell.column {
            Column::Name | Column::Given | Column::Family => {}
            Column::Unit | Column::Opener(..) => {}
            Column::Session => said.place.session = Some(cell.text.clone()),
            Column::Flight => said.place.flight = Some(cell.text.clone()),
            Column::Platform => match super::platform(facts, &cell.text) {
                Ok(platform) => said.place.platform = Some(platform),
                Err(message) => fault(message),
            },
            column => match reading.read(column, &cell.text, unit) {
                Ok(changes) => {
                    for change in changes {
                        match change {
                            Change::Number(number) => said.number = Some(number),
                            change => said.details.push(change),
                        }
                    }
                }
                Err(error) => fault(error.to_string()),
            },
        }
    }
    for line in &facts.slots {
        slot(
            &line.slot,
            line.default_variant(),
            given,
            reading,
            &mut said,
            &mut wrong,
        );
    }
    (said, wrong)
}

fn unit_of(given: &[Given<'_>], wrong: &mut Vec<Wrong>) -> Option<Unit> {
    let cell = given
        .iter()
        .find(|c| *c.column == Column::Unit && !c.text.is_empty())?;
    let unit = Unit::parse(&cell.text);
    if unit.is_none() {
        wrong.push((
            cell.label.to_owned(),
            format!("“{}” is no unit of a bodyweight; write kg or lb", cell.text),
        ));
    }
    unit
}

/// Given and family name from a whole name, or from one of their own.
///
/// Beside a column for one half, `name` is the other half.
fn names(given: &[Given<'_>], said: &mut Said) {
    let has = |column: &Column| given.iter().any(|c| c.column == column);
    let text = |column: &Column| {
        given
            .iter()
            .find(|c| c.column == column)
            .map(|c| c.text.clone())
            .unwrap_or_default()
    };
    let whole = text(&Column::Name);
    let (mut first, mut last) = (text(&Column::Given), text(&Column::Family));
    match (has(&Column::Given), has(&Column::Family)) {
        (true, false) if has(&Column::Name) => last = whole,
        (false, true) if has(&Column::Name) => first = whole,
        _ if first.is_empty() && last.is_empty() => {
            (first, last) = crate::roster::split_name(&whole);
        }
        _ => {}
    }
    if !first.is_empty() || !last.is_empty() {
        said.details.push(Change::Given(first));
        said.details.push(Change::Family(last));
    }
}

/// What the opener cells of one slot come to.
fn slot(
    slot: &Slug,
    default: &Slug,
    given: &[Given<'_>],
    reading: &Reading<'_>,
    said: &mut Said,
    wrong: &mut Vec<Wrong>,
) {
    let mut filled: Option<(&Given<'_>, &Slug)> = None;
    let mut blank: Vec<&Slug> = Vec::new();
    let mut dashes = 0_usize;
    for cell in given {
        let variant = match cell.column {
            Column::Opener(of, variant) if of == slot => variant,
            _ => continue,
        };
        match cell.text.as_str() {
            "" => blank.push(variant),
            "-" | "–" | "—" => dashes += 1,
            _ => match filled {
                None => filled = Some((cell, variant)),
                Some((_, first)) => wrong.push((
                    cell.label.to_owned(),
                    format!(
                        "{first} and {variant} both have an opener, but an athlete takes \
                         one lift in {slot}; leave the other blank"
                    ),
                )),
            },
        }
    }
    let change = |variant: Option<&Slug>, opener| Change::Slot {
        slot: slot.clone(),
        variant: variant.cloned(),
        opener,
    };
    if let Some((cell, variant)) = filled {
        match reading.load(&cell.text) {
            Ok(load) => {
                let change = change(Some(variant), Some(load));
                said.slots.push(change.clone());
                said.all_slots.push(change);
            }
            Err(error) => wrong.push((cell.label.to_owned(), error.to_string())),
        }
        return;
    }
    if dashes > 0 && blank.is_empty() {
        said.slots.push(change(None, None));
        said.all_slots.push(change(None, None));
        return;
    }
    let variant = if blank.is_empty() || blank.contains(&default) {
        default
    } else {
        blank[0]
    };
    said.all_slots.push(change(Some(variant), None));
}
