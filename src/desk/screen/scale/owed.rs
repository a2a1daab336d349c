//! What is owed at the scale, and where Enter goes on.

use super::edge::{Edge, misses_entered};
use super::fields::Field;
use crate::day::Facts;
use crate::desk::see;
use crate::lift::Slug;
use crate::roster::{Entry, Presence};

/// Something that is owed of an athlete.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Owed {
    /// The bodyweight.
    Bodyweight,
    /// The opener in a slot.
    Opener(Slug),
    /// A clearance.
    Clearance,
    /// The sex, without which there is no category.
    Sex,
}

impl Owed {
    /// In words, as part of a list.
    pub fn words(&self, entry: &Entry) -> String {
        match self {
            Self::Bodyweight => "bodyweight".to_owned(),
            Self::Opener(slot) => {
                let lift = see::lift_name(entry.variant(slot).unwrap_or(slot));
                format!("opener in {lift}")
            }
            Self::Clearance => "clearance".to_owned(),
            Self::Sex => "sex (roster, F3)".to_owned(),
        }
    }

    /// Whether it is typed into this column.
    pub fn is_at(&self, field: &Field) -> bool {
        match (self, field) {
            (Self::Bodyweight, Field::Bodyweight)
            | (Self::Clearance, Field::Clearance) => true,
            (Self::Opener(own), Field::Opener(slot)) => own == slot,
            _ => false,
        }
    }
}

/// What is owed of an athlete, in the order in which it is asked; nothing of
/// one who has withdrawn.
pub fn owed(facts: &Facts, entry: &Entry) -> Vec<Owed> {
    let mut owed = Vec::new();
    if entry.withdrawn || entry.disqualified {
        return owed;
    }
    if entry.bodyweight.is_none() {
        owed.push(Owed::Bodyweight);
    }
    let lifts = || facts.slots.iter().filter(|l| entry.takes_part(&l.slot));
    let open = |slot: &Slug| entry.slots.get(slot).is_none_or(|l| l.opener.is_none());
    let openers = lifts().filter(|l| open(&l.slot));
    owed.extend(openers.map(|l| Owed::Opener(l.slot.clone())));
    if facts.gates_on && lifts().any(|l| facts.clearance(entry, &l.slot).is_none()) {
        owed.push(Owed::Clearance);
    }
    if entry.sex.is_none() && crate::standings::category_set(facts).is_some() {
        owed.push(Owed::Sex);
    }
    owed
}

/// What is to be known of an entry besides what is owed, in few words.
pub fn remarks(facts: &Facts, entry: &Entry) -> Vec<String> {
    let mut words = Vec::new();
    if entry.withdrawn {
        words.push("withdrawn".to_owned());
    }
    if entry.disqualified {
        words.push("disqualified".to_owned());
    }
    match entry.presence {
        Presence::Absent => words.push("absent".to_owned()),
        Presence::Away => words.push("away".to_owned()),
        Presence::Expected | Presence::Here => {}
    }
    if let Some(weight) = &entry.bodyweight
        && let Some(edge) = Edge::of(facts, entry.sex, weight.mass)
        && misses_entered(entry, &edge)
    {
        words.push(format!("entered for {}", entry.category));
    }
    words
}

/// Whether an athlete is still to be weighed: expected today, with no
/// bodyweight.
pub fn to_weigh(entry: &Entry) -> bool {
    entry.bodyweight.is_none()
        && !entry.withdrawn
        && !entry.disqualified
        && entry.presence != Presence::Absent
}

/// The column to which Enter goes from `column`, once what is typed there is
/// taken; `None` where nothing more is asked of the athlete.
///
/// From the bodyweight to the first thing that is owed, or, where all is
/// there, to the first opener, which can be confirmed or changed. After an
/// opener that was typed, to the next lift; where nothing was typed, the
/// openers stand and only what is owed is asked for.
pub fn after(
    facts: &Facts,
    entry: &Entry,
    fields: &[Field],
    column: usize,
    typed: bool,
) -> Option<usize> {
    let owed = owed(facts, entry);
    let is_owed = |at: usize| owed.iter().any(|o| o.is_at(&fields[at]));
    let opener = |at: usize| match &fields[at] {
        Field::Opener(slot) => entry.takes_part(slot),
        _ => false,
    };
    let here = fields.get(column)?;
    let mut later = column + 1..fields.len();
    match here {
        Field::Opener(_) if typed => {
            let next = |at: &usize| opener(*at) || is_owed(*at);
            later.find(next)
        }
        Field::Setup(_) if typed => {
            later.find(|at| matches!(fields[*at], Field::Setup(_)))
        }
        Field::Opener(_) | Field::Setup(_) | Field::Clearance | Field::Cap => {
            later.find(|at| is_owed(*at))
        }
        Field::Lot | Field::Name | Field::Sex | Field::Category => {
            later.find(|at| fields[*at] == Field::Bodyweight)
        }
        Field::Bodyweight | Field::Edge | Field::Remark => {
            let first_opener = later.clone().find(|at| opener(*at));
            let first_owed = later.find(|at| is_owed(*at));
            match (first_owed, first_opener) {
                // Openers are gone through before what comes behind them.
                (Some(owed), Some(_)) if opener(owed) => Some(owed),
                (owed, opener) => opener.or(owed),
            }
        }
    }
}

/// The row of the athlete who is to be weighed after the one in `from`: the
/// next number in the same session, else the first one of another.
pub fn next_to_weigh(entries: &[&Entry], from: usize) -> Option<usize> {
    let session = entries.get(from).map(|e| e.session.as_str());
    let waits = |row: &usize| to_weigh(entries[*row]);
    let same = |row: &usize| Some(entries[*row].session.as_str()) == session;
    let around = || (from + 1..entries.len()).chain(0..from.min(entries.len()));
    let here = || (from..entries.len()).take(1);
    around()
        .filter(same)
        .find(waits)
        .or_else(|| here().find(waits))
        .or_else(|| (0..entries.len()).find(waits))
}

/// The row of the first athlete after `from`, round to the first, of whom
/// anything is owed that is typed at the scale; with its column.
pub fn next_owing(
    facts: &Facts,
    entries: &[&Entry],
    fields: &[Field],
    from: usize,
) -> Option<(usize, usize)> {
    let here = from.min(entries.len());
    let around = (here + 1..entries.len()).chain(0..=here);
    around.filter(|row| *row < entries.len()).find_map(|row| {
        let owed = owed(facts, entries[row]);
        let at = |field: &Field| owed.iter().any(|o| o.is_at(field));
        fields.iter().position(at).map(|column| (row, column))
    })
}
