//! The scale's columns, and what a typed cell means as a command.

use super::edge::{Edge, in_other_unit, misses_entered};
use super::owed::{owed, remarks};
use crate::day::{Command, Facts};
use crate::desk::screen::roster::fields::{opener_advice, opener_text, read_opener};
use crate::lift::Slug;
use crate::measure::Length;
use crate::roster::{Change, Entry};
use crate::sheets::setup_names;

/// The bar's length between the sleeves in millimetres (IWF TCRR, men's and
/// women's bar, from memory): no grip is wider.
const BETWEEN_SLEEVES: u16 = 1_310;

/// What a column of the scale holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Field {
    /// The lot, where an athlete is looked for.
    Lot,
    /// The name.
    Name,
    /// The sex.
    Sex,
    /// The category entered for.
    Category,
    /// The bodyweight.
    Bodyweight,
    /// The category by the scale, with the distance from its edge.
    Edge,
    /// The opener in a slot.
    Opener(Slug),
    /// Clearances.
    Clearance,
    /// Caps.
    Cap,
    /// A grip or rack height.
    Setup(String),
    /// What is owed.
    Remark,
}

/// The columns for a day's programme.
pub fn fields(facts: &Facts) -> Vec<Field> {
    let mut list = vec![
        Field::Lot,
        Field::Name,
        Field::Sex,
        Field::Category,
        Field::Bodyweight,
        Field::Edge,
    ];
    if facts.rules.categories == "none" {
        list.retain(|f| *f != Field::Category);
    }
    list.extend(facts.slots.iter().map(|l| Field::Opener(l.slot.clone())));
    list.extend([Field::Clearance, Field::Cap]);
    list.extend(setup_names(facts).into_iter().map(Field::Setup));
    list.push(Field::Remark);
    list
}

impl Field {
    /// What the field holds for an entry, as text.
    pub fn text(&self, facts: &Facts, entry: &Entry) -> String {
        match self {
            Self::Lot => entry.number.to_string(),
            Self::Name => entry.name(),
            Self::Sex => entry.sex.map(|s| s.to_string()).unwrap_or_default(),
            Self::Category => entry.category.clone(),
            Self::Bodyweight => entry
                .bodyweight
                .as_ref()
                .map(|w| w.show(facts.scale_unit))
                .unwrap_or_default(),
            Self::Edge => {
                let Some(weight) = &entry.bodyweight else {
                    return String::new();
                };
                match Edge::of(facts, entry.sex, weight.mass) {
                    Some(edge) => edge.short(facts.scale_unit),
                    None => {
                        // The column's head says the unit.
                        let words = in_other_unit(facts, entry.sex, weight.mass);
                        let number = words.split(' ').next();
                        number.unwrap_or_default().to_owned()
                    }
                }
            }
            Self::Opener(slot) => opener_text(facts, entry, slot),
            Self::Clearance => clearance_text(facts, entry),
            Self::Setup(name) => entry.setups.get(name).cloned().unwrap_or_default(),
            Self::Cap => cap_text(facts, entry),
            Self::Remark => {
                let owed = owed(facts, entry);
                let mut words: Vec<String> =
                    owed.iter().map(|o| o.words(entry)).collect();
                words.extend(remarks(facts, entry));
                words.join(", ")
            }
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
        let edit = |change| {
            Ok(Some(Command::Edit {
                number,
                changes: vec![change],
            }))
        };
        match self {
            Self::Bodyweight if text.is_empty() => edit(Change::Bodyweight(None)),
            Self::Bodyweight => {
                let bodyweight = facts
                    .reading()
                    .bodyweight(text, None)
                    .map_err(|e| format!("{e}."))?;
                Ok(Some(Command::Weigh { number, bodyweight }))
            }
            Self::Category => edit(Change::Category(text.to_owned())),
            Self::Opener(slot) => {
                edit(read_opener(facts, entry.variant(slot), slot, text)?)
            }
            Self::Clearance => read_clearance(facts, entry, text).map(Some),
            Self::Cap => read_cap(facts, entry, text).map(Some),
            Self::Setup(name) => {
                check_setup(name, text)?;
                edit(Change::Setup {
                    name: name.clone(),
                    value: text.to_owned(),
                })
            }
            Self::Lot | Self::Name | Self::Sex | Self::Edge | Self::Remark => Ok(None),
        }
    }

    /// What else is to be known of what is typed, as sentences.
    pub fn advice(&self, facts: &Facts, entry: &Entry, text: &str) -> Option<String> {
        match self {
            Self::Opener(slot) => opener_advice(facts, entry, slot, text),
            Self::Bodyweight => weight_advice(facts, entry, text),
            _ => None,
        }
    }
}

fn weight_advice(facts: &Facts, entry: &Entry, text: &str) -> Option<String> {
    let weight = facts.reading().bodyweight(text.trim(), None).ok()?;
    let other = in_other_unit(facts, entry.sex, weight.mass);
    let Some(edge) = Edge::of(facts, entry.sex, weight.mass) else {
        return Some(format!("That is {other}."));
    };
    let entered = if misses_entered(entry, &edge) {
        format!(" The entry is for {}.", entry.category)
    } else {
        String::new()
    };
    Some(format!(
        "That is {other}: {}.{entered}",
        edge.long(facts.scale_unit)
    ))
}

fn check_setup(name: &str, text: &str) -> Result<(), String> {
    if text.chars().count() > 24 {
        return Err("A set-up has at most 24 characters.".to_owned());
    }
    if !name.starts_with("grip") || text.is_empty() {
        return Ok(());
    }
    let length = Length::parse(text).map_err(|e| format!("{e}."))?;
    if length.mm() > BETWEEN_SLEEVES {
        return Err(format!(
            "{length} is wider than the bar between its sleeves; at most {BETWEEN_SLEEVES} mm \
             is possible."
        ));
    }
    Ok(())
}

/// Clearances in the words of a roster.
pub fn clearance_text(facts: &Facts, entry: &Entry) -> String {
    entry.clearance_words(|load| load.show(facts.bar_unit))
}

fn cap_text(facts: &Facts, entry: &Entry) -> String {
    let words = entry.caps.iter().map(|(slot, load)| {
        let load = load.show(facts.bar_unit);
        match slot {
            Some(slot) => format!("{slot}: {load}"),
            None => load,
        }
    });
    words.collect::<Vec<_>>().join("; ")
}

/// Reads `yes`, `no`, `up to 60`, with a lift and a colon before it where it
/// is for one lift, and `who; why` or `who=…; why=…` behind it.
fn read_clearance(facts: &Facts, entry: &Entry, text: &str) -> Result<Command, String> {
    let Signed {
        lift,
        word,
        who,
        why,
    } = signed(facts, text, "clearance")?;
    let (clearance, until) = facts
        .reading()
        .clearance_word(word)
        .map_err(|e| format!("{e}."))?;
    Ok(Command::Clear {
        number: entry.number,
        lift,
        clearance,
        until,
        who,
        why,
    })
}

/// Reads a load that isn't to be exceeded, for all lifts or, with a lift and a
/// colon before it, for one; nothing lifts the cap.
fn read_cap(facts: &Facts, entry: &Entry, text: &str) -> Result<Command, String> {
    let Signed {
        lift,
        word,
        who,
        why,
    } = signed(facts, text, "cap")?;
    let load = match word {
        "" => None,
        word => Some(facts.reading().load(word).map_err(|e| {
            format!("{e}; a cap is a load, or nothing where it is lifted.")
        })?),
    };
    Ok(Command::Cap {
        number: entry.number,
        lift,
        load,
        who,
        why,
    })
}

/// Whether a part looks like a second clearance or cap rather than a name.
fn begins_one(part: &str) -> bool {
    let first = part.split_whitespace().next().unwrap_or("").to_lowercase();
    part.contains(':')
        || matches!(first.as_str(), "yes" | "no" | "up")
        || first.starts_with(|c: char| c.is_ascii_digit())
}

/// A word for all lifts or one, with who says so and why.
struct Signed<'a> {
    lift: Option<Slug>,
    word: &'a str,
    who: String,
    why: String,
}

fn signed<'a>(facts: &Facts, text: &'a str, what: &str) -> Result<Signed<'a>, String> {
    let mut parts = text.split(';').map(str::trim);
    let first = parts.next().unwrap_or("");
    let (lift, word) = match first.split_once(':') {
        Some((lift, word)) => {
            let (slot, _) = facts.reading().lift(lift).ok_or_else(|| {
                format!(
                    "“{}” is no lift of this day; write one of {}.",
                    lift.trim(),
                    facts.reading().slot_words()
                )
            })?;
            (Some(slot), word.trim())
        }
        None => (None, first),
    };
    let (mut who, mut why) = (String::new(), String::new());
    for part in parts.filter(|p| !p.is_empty()) {
        match part.split_once('=').map(|(k, v)| (k.trim(), v.trim())) {
            Some(("who", value)) => value.clone_into(&mut who),
            Some(("why", value)) => value.clone_into(&mut why),
            // Without their names they come in this order.
            None if who.is_empty() && !begins_one(part) => part.clone_into(&mut who),
            None if why.is_empty() && !begins_one(part) => part.clone_into(&mut why),
            _ => {
                return Err(format!(
                    "“{part}” can't be read; one {what} at a time, and behind it \
                     who; why, or who=name; why=reason."
                ));
            }
        }
    }
    Ok(Signed {
        lift,
        word,
        who,
        why,
    })
}
