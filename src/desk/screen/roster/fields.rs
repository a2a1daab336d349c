//! The roster's columns, and what a typed cell means as a command.

use crate::day::{Command, Facts, NewEntry, Place, Roll};
use crate::desk::see;
use crate::lift::Slug;
use crate::roster::{Change, Clearance, Column, Entry, Presence, SlotLine};
use crate::sheets::{ceiling_remark, opener_remarks, opener_words, openers_sum_remark};

/// What a column of the grid holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Field {
    /// A detail that reads like a roster's cell.
    Detail(Column),
    /// The session.
    Session,
    /// The flight.
    Flight,
    /// The opener in a slot.
    Opener(Slug),
    /// Comings and goings.
    Roll,
    /// What is owed.
    Remark,
}

/// The columns for a day's programme.
pub fn fields(facts: &Facts) -> Vec<Field> {
    let mut list: Vec<Field> = [
        Column::Lot,
        Column::Given,
        Column::Family,
        Column::Sex,
        Column::Born,
        Column::Grade,
        Column::Team,
        Column::Category,
    ]
    .into_iter()
    .filter(|c| *c != Column::Category || facts.rules.categories != "none")
    .map(Field::Detail)
    .collect();
    list.extend([Field::Session, Field::Flight]);
    list.extend(facts.slots.iter().map(|l| Field::Opener(l.slot.clone())));
    list.extend([Field::Roll, Field::Remark]);
    list
}

impl Field {
    /// What the field holds for an entry, as text.
    pub fn text(&self, facts: &Facts, entry: &Entry) -> String {
        match self {
            Self::Detail(Column::Lot) => entry.number.to_string(),
            Self::Detail(Column::Given) => entry.given.clone(),
            Self::Detail(Column::Family) => entry.family.clone(),
            Self::Detail(Column::Sex) => {
                entry.sex.map(|s| s.to_string()).unwrap_or_default()
            }
            Self::Detail(Column::Born) => {
                entry.born.map(|b| b.to_string()).unwrap_or_default()
            }
            Self::Detail(Column::Grade) => entry.grade.clone(),
            Self::Detail(Column::Team) => entry.team.clone(),
            Self::Detail(Column::Category) => entry.category.clone(),
            Self::Detail(_) => String::new(),
            Self::Session => entry.session.clone(),
            Self::Flight => entry.flight.clone(),
            Self::Opener(slot) => opener_text(facts, entry, slot),
            Self::Roll => roll_text(entry).to_owned(),
            Self::Remark => owed(facts, entry).join(", "),
        }
    }

    /// What a cell that was typed into means.
    ///
    /// `None` where nothing changes.
    ///
    /// # Errors
    /// A sentence that says what would be allowed.
    pub fn command(
        &self,
        facts: &Facts,
        entry: &Entry,
        text: &str,
    ) -> Result<Option<Command>, String> {
        let text = text.trim();
        if text == self.text(facts, entry) {
            return Ok(None);
        }
        let number = entry.number;
        let edit = |changes| Ok(Some(Command::Edit { number, changes }));
        let place = |place| Ok(Some(Command::Place(vec![(number, place)])));
        match self {
            Self::Detail(column) => {
                let changes = facts
                    .reading()
                    .read(column, text, None)
                    .map_err(|e| format!("{e}."))?;
                edit(changes)
            }
            Self::Opener(slot) => {
                edit(vec![read_opener(facts, entry.variant(slot), slot, text)?])
            }
            Self::Session => place(read_session(text)?),
            Self::Flight => place(read_flight(facts, text)?),
            Self::Roll => read_roll(number, text).map(Some),
            Self::Remark => Ok(None),
        }
    }

    /// A remark on what is typed, though it isn't refused.
    pub fn advice(&self, facts: &Facts, entry: &Entry, text: &str) -> Option<String> {
        match self {
            Self::Opener(slot) => opener_advice(facts, entry, slot, text),
            _ => None,
        }
    }
}

/// Reads a new row's cells into an entry to be added.
///
/// # Errors
/// The column with the sentence that says what would be allowed.
pub fn new_entry(
    facts: &Facts,
    fields: &[Field],
    typed: &dyn Fn(usize) -> Option<String>,
) -> Result<NewEntry, (usize, String)> {
    let mut new = NewEntry::default();
    for (column, field) in fields.iter().enumerate() {
        let text = typed(column).unwrap_or_default();
        let text = text.trim();
        let wrong = |sentence: String| (column, sentence);
        match field {
            Field::Opener(slot) => {
                let change = read_opener(facts, None, slot, text).map_err(wrong)?;
                new.changes.push(change);
            }
            _ if text.is_empty() => {}
            Field::Session => {
                new.place.session = read_session(text).map_err(wrong)?.session;
            }
            Field::Flight => {
                let place = read_flight(facts, text).map_err(wrong)?;
                new.place.flight = place.flight;
                new.place.platform = place.platform;
            }
            Field::Detail(detail) => {
                let changes = facts
                    .reading()
                    .read(detail, text, None)
                    .map_err(|e| wrong(format!("{e}.")))?;
                for change in changes {
                    match change {
                        Change::Number(number) => new.number = Some(number),
                        other => new.changes.push(other),
                    }
                }
            }
            Field::Roll | Field::Remark => {}
        }
    }
    let is_name = |c: &Change| match c {
        Change::Given(name) | Change::Family(name) => !name.is_empty(),
        _ => false,
    };
    if new.changes.iter().any(is_name) {
        Ok(new)
    } else {
        Err((
            1,
            "An entry needs a name; type the given or the family name.".to_owned(),
        ))
    }
}

/// An opener's cell: the load, `owed`, `-` where not entered; the variant
/// where it isn't the slot's first.
pub fn opener_text(facts: &Facts, entry: &Entry, slot: &Slug) -> String {
    let Some(variant) = entry.variant(slot) else {
        return "-".to_owned();
    };
    let load = entry
        .slots
        .get(slot)
        .and_then(|line| line.opener.as_ref())
        .map_or_else(|| "owed".to_owned(), |w| w.show(facts.bar_unit));
    let usual = facts.slot(slot.as_str()).map(SlotLine::default_variant);
    if usual == Some(variant) {
        load
    } else {
        format!("{load} {variant}")
    }
}

/// The width of an opener's column in characters: more where a variant may be
/// named.
pub fn opener_width(facts: &Facts, slot: &Slug) -> u16 {
    let line = facts.slot(slot.as_str());
    let longest = line
        .into_iter()
        .flat_map(|l| l.variants.iter().skip(1))
        .map(|v| v.as_str().len() + 3)
        .max();
    longest
        .and_then(|n| u16::try_from(n).ok())
        .unwrap_or(0)
        .max(u16::try_from(see::lift_name(slot).chars().count() * 3 / 4 + 1).unwrap_or(0))
        .clamp(9, 20)
}

/// Reads an opener's cell: `95`, `95 hang-power-clean`, `owed`, `-`, or
/// nothing for an opener that is owed.
///
/// # Errors
/// A sentence that says what would be allowed.
pub fn read_opener(
    facts: &Facts,
    now: Option<&Slug>,
    slot: &Slug,
    text: &str,
) -> Result<Change, String> {
    let line = facts
        .slot(slot.as_str())
        .ok_or_else(|| format!("{slot} is not on this day's programme."))?;
    if matches!(text, "-" | "–") {
        return Ok(Change::Slot {
            slot: slot.clone(),
            variant: None,
            opener: None,
        });
    }
    let mut variant = now.unwrap_or(line.default_variant()).clone();
    let mut load = Vec::new();
    for word in text.split_whitespace().filter(|w| *w != "owed") {
        match facts.reading().lift(word) {
            Some((own, named)) if own == *slot => variant = named,
            Some((other, _)) => {
                let allowed: Vec<&str> = line.variants.iter().map(Slug::as_str).collect();
                return Err(format!(
                    "{word} belongs to {other}; in {slot} there is {}.",
                    allowed.join(", ")
                ));
            }
            None => load.push(word),
        }
    }
    let opener = if load.is_empty() {
        None
    } else {
        let load = facts.reading().load(&load.join(" "));
        Some(load.map_err(|e| format!("{e}; - means not entered."))?)
    };
    Ok(Change::Slot {
        slot: slot.clone(),
        variant: Some(variant),
        opener,
    })
}

/// What is to be said of an opener as it is typed, as sentences: above the
/// ceiling, off the step, under the empty bar, a larger jump than is advised,
/// or openers that add up to too little for the entry total.
pub fn opener_advice(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    text: &str,
) -> Option<String> {
    let change = read_opener(facts, entry.variant(slot), slot, text.trim()).ok()?;
    let mut entry = entry.clone();
    entry.apply(&change);
    let mut said = Vec::from_iter(opener_sentence(facts, &entry, slot));
    if facts.clearance(&entry, slot) == Some(&Clearance::No) {
        said.insert(0, "The lift is not cleared today.".to_owned());
    }
    said.extend(openers_sum_remark(facts, &entry).map(sentence));
    (!said.is_empty()).then(|| said.join(" "))
}

/// What is odd about an entry's opener in a slot, as one sentence.
pub fn opener_sentence(facts: &Facts, entry: &Entry, slot: &Slug) -> Option<String> {
    let line = entry.slots.get(slot)?;
    let (lift, opener) = (line.variant.as_ref()?, line.opener.as_ref()?);
    let odd: Vec<String> = ceiling_remark(facts, entry, slot, opener)
        .into_iter()
        .chain(opener_remarks(facts, entry, lift, opener))
        .collect();
    let what = opener_words(facts, lift, opener);
    let whole = format!("{what} is {}", odd.join("; it is "));
    (!odd.is_empty()).then(|| sentence(whole))
}

/// Part of a sentence as a sentence.
pub fn sentence(part: String) -> String {
    format!("{}.", see::capital(&part))
}

fn read_session(text: &str) -> Result<Place, String> {
    if text.is_empty() {
        return Err("A session can't be blank; write its name, such as 1.".to_owned());
    }
    Ok(Place {
        session: Some(text.to_owned()),
        ..Place::default()
    })
}

/// Reads `B`, or `B on 2` for a flight that is made on platform 2.
fn read_flight(facts: &Facts, text: &str) -> Result<Place, String> {
    if text.is_empty() {
        return Err("A flight can't be blank; write its name, such as A.".to_owned());
    }
    let (flight, platform) = match text.rsplit_once(" on ") {
        Some((flight, word)) => (flight.trim(), Some(read_platform(facts, word)?)),
        None => (text, None),
    };
    Ok(Place {
        flight: Some(flight.to_owned()),
        platform,
        ..Place::default()
    })
}

/// Reads a platform's number.
///
/// # Errors
/// A sentence that says how many there are.
pub fn read_platform(facts: &Facts, word: &str) -> Result<u8, String> {
    word.trim()
        .parse::<u8>()
        .ok()
        .filter(|n| facts.platform(*n).is_some())
        .ok_or_else(|| {
            format!(
                "There is no platform {}; this day has 1 to {}.",
                word.trim(),
                facts.platforms.len()
            )
        })
}

fn roll_text(entry: &Entry) -> &'static str {
    if entry.withdrawn {
        return "withdrawn";
    }
    match entry.presence {
        Presence::Expected => "",
        Presence::Here => "here",
        Presence::Absent => "absent",
        Presence::Away => "away",
    }
}

/// Reads `here`, `absent`, `away`, `back` or `withdraw`, or the beginning of
/// one, and a reason behind it.
fn read_roll(number: u16, text: &str) -> Result<Command, String> {
    let (word, reason) = text.split_once([' ', ';']).unwrap_or((text, ""));
    let word = word.to_lowercase();
    let reason = reason.trim().to_owned();
    let words = ["here", "absent", "away", "back", "withdraw"];
    let mut found = words
        .iter()
        .filter(|w| !word.is_empty() && w.starts_with(&word));
    let only = match (found.next(), found.next()) {
        (Some(only), None) => *only,
        _ => "",
    };
    let roll = match only {
        "here" => Roll::Here,
        "absent" => Roll::Absent,
        "away" => Roll::Away,
        "back" => Roll::Back,
        "withdraw" => {
            return Ok(Command::Withdraw {
                number,
                lift: None,
                reason,
            });
        }
        _ => {
            return Err(format!(
                "“{word}” is no answer to the roll; write here, absent, away, back or withdraw."
            ));
        }
    };
    Ok(Command::Roll {
        number,
        roll,
        reason,
    })
}

/// What is still owed of an entry, in words.
fn owed(facts: &Facts, entry: &Entry) -> Vec<String> {
    let mut owed = Vec::new();
    if entry.sex.is_none() && facts.rules.categories != "none" {
        owed.push("sex owed".to_owned());
    }
    if entry.flight.is_empty() {
        owed.push("no flight".to_owned());
    }
    let openers = entry
        .slots
        .values()
        .filter(|l| l.variant.is_some() && l.opener.is_none())
        .count();
    match openers {
        0 => {}
        1 => owed.push("1 opener owed".to_owned()),
        n => owed.push(format!("{n} openers owed")),
    }
    owed
}
