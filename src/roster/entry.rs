//! A person's participation in this day.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::{Born, Change, Sex};
use crate::lift::Slug;
use crate::measure::Weight;

/// Names an entry in the journal for good, whatever its table number becomes.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct EntryKey(pub u32);

/// One line of the day's programme: a slot and the lifts allowed in it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SlotLine {
    /// The slot's own slug.
    pub slot: Slug,
    /// The lift variants allowed in it; the first is the default.
    pub variants: Vec<Slug>,
}

impl SlotLine {
    /// The variant of an entry that names none.
    pub fn default_variant(&self) -> &Slug {
        self.variants.first().unwrap_or(&self.slot)
    }
}

/// Whether, and up to what load, an athlete may attempt a slot.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Clearance {
    /// Cleared.
    Yes,
    /// Not cleared.
    No,
    /// Cleared up to a load.
    UpTo(Weight),
}

impl Clearance {
    /// In the words of a roster's column: `up to 40 kg until 2026-12-01`.
    pub fn words(
        &self,
        until: Option<NaiveDate>,
        load: impl Fn(&Weight) -> String,
    ) -> String {
        let word = match self {
            Self::Yes => "yes".to_owned(),
            Self::No => "no".to_owned(),
            Self::UpTo(most) => format!("up to {}", load(most)),
        };
        match until {
            Some(last) => format!("{word} until {last}"),
            None => word,
        }
    }
}

/// Where an athlete is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Presence {
    /// Nothing was said; stands in the queue.
    #[default]
    Expected,
    /// Answered the roll.
    Here,
    /// Not there; not in the queue.
    Absent,
    /// Called away for now; not in the queue.
    Away,
}

/// An entry's line in one slot.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Entered {
    /// The variant that will be attempted; `None` where not entered.
    pub variant: Option<Slug>,
    /// The first request, if it was given.
    pub opener: Option<Weight>,
}

/// The family name, and any private text, of somebody who was erased.
pub const ERASED: &str = "erased";

/// A person's participation in this day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its lasting name.
    pub key: EntryKey,
    /// Table number: the lot, 1 to 9999.
    pub number: u16,
    /// The school's own identifier.
    pub id: String,
    /// Given name.
    pub given: String,
    /// Family name.
    pub family: String,
    /// Sex.
    pub sex: Option<Sex>,
    /// Birth.
    pub born: Option<Born>,
    /// Grade or year, as the school writes it.
    pub grade: String,
    /// Team or squad.
    pub team: String,
    /// The category entered for, if one was named.
    pub category: String,
    /// Divisions.
    pub divisions: Vec<String>,
    /// Session and flight, once placed.
    pub session: String,
    /// Flight, once placed; empty before.
    pub flight: String,
    /// Bodyweight, once weighed in.
    pub bodyweight: Option<Weight>,
    /// The verified entry total.
    pub entry_total: Option<Weight>,
    /// Lines in the slots.
    pub slots: BTreeMap<Slug, Entered>,
    /// Last known max by lift.
    pub last: BTreeMap<Slug, Weight>,
    /// Clearances by slot; under `None`, all slots that have none of their own.
    pub clearance: BTreeMap<Option<Slug>, Clearance>,
    /// Last days of the clearances that end, by slot.
    pub clearance_until: BTreeMap<Option<Slug>, NaiveDate>,
    /// Caps by slot; under `None`, all slots that have none of their own.
    pub caps: BTreeMap<Option<Slug>, Weight>,
    /// Grips, rack and safety-arm heights, by name.
    pub setups: BTreeMap<String, String>,
    /// Where the athlete is.
    pub presence: Presence,
    /// Withdrawn from the day.
    pub withdrawn: bool,
    /// Slots withdrawn from.
    pub withdrawn_slots: BTreeSet<Slug>,
    /// Disqualified on the day.
    pub disqualified: bool,
    /// Slots disqualified in.
    pub disqualified_slots: BTreeSet<Slug>,
    /// Why, by slot; under `None`, on the day.
    pub disqualified_why: BTreeMap<Option<Slug>, String>,
    /// Lifts without being placed.
    pub guest: bool,
    /// The lot, where a start number took its place.
    pub lot: Option<u16>,
}

impl Entry {
    /// A new entry of which only the number is known.
    pub fn new(key: EntryKey, number: u16) -> Self {
        Self {
            key,
            number,
            id: String::new(),
            given: String::new(),
            family: String::new(),
            sex: None,
            born: None,
            grade: String::new(),
            team: String::new(),
            category: String::new(),
            divisions: Vec::new(),
            session: String::new(),
            flight: String::new(),
            bodyweight: None,
            entry_total: None,
            slots: BTreeMap::new(),
            last: BTreeMap::new(),
            clearance: BTreeMap::new(),
            clearance_until: BTreeMap::new(),
            caps: BTreeMap::new(),
            setups: BTreeMap::new(),
            presence: Presence::Expected,
            withdrawn: false,
            withdrawn_slots: BTreeSet::new(),
            disqualified: false,
            disqualified_slots: BTreeSet::new(),
            disqualified_why: BTreeMap::new(),
            guest: false,
            lot: None,
        }
    }

    /// Given, space, family; the number, as `No. 12`, of somebody who was erased.
    pub fn name(&self) -> String {
        if self.is_erased() {
            return format!("No. {}", self.number);
        }
        format!("{} {}", self.given, self.family).trim().to_owned()
    }

    /// Whether names and all else that describes the person were erased.
    pub fn is_erased(&self) -> bool {
        self.given.is_empty() && self.family == ERASED
    }

    /// First name and the family name's first letter, as a public board may
    /// show it.
    pub fn first_and_initial(&self) -> String {
        if self.is_erased() {
            return self.name();
        }
        if self.given.is_empty() {
            let initial: String = self.family.chars().take(1).collect();
            return format!("{initial}.");
        }
        match self.family.chars().next() {
            Some(initial) => format!("{} {initial}.", self.given),
            None => self.given.clone(),
        }
    }

    /// The variant entered in `slot`, if any.
    pub fn variant(&self, slot: &Slug) -> Option<&Slug> {
        self.slots.get(slot).and_then(|e| e.variant.as_ref())
    }

    /// Whether the entry may still be called: not absent, away, withdrawn or
    /// disqualified.
    pub fn is_present(&self) -> bool {
        !self.withdrawn
            && !self.disqualified
            && !matches!(self.presence, Presence::Absent | Presence::Away)
    }

    /// Whether the entry was disqualified in `slot` or on the day.
    pub fn is_disqualified(&self, slot: &Slug) -> bool {
        self.disqualified || self.disqualified_slots.contains(slot)
    }

    /// Whether the entry takes part in `slot`: entered, and neither withdrawn
    /// nor disqualified.
    pub fn takes_part(&self, slot: &Slug) -> bool {
        !self.withdrawn
            && !self.is_disqualified(slot)
            && !self.withdrawn_slots.contains(slot)
            && self.variant(slot).is_some()
    }

    /// The clearance that holds for `slot` on a day, if any was recorded that
    /// hasn't ended; the slot's own comes before the one for all.
    pub fn clearance_on(&self, slot: &Slug, day: NaiveDate) -> Option<&Clearance> {
        let holds = |key: &Option<Slug>| {
            self.clearance_until
                .get(key)
                .is_none_or(|last| *last >= day)
        };
        [Some(slot.clone()), None]
            .iter()
            .filter(|key| holds(key))
            .find_map(|key| self.clearance.get(key))
    }

    /// All clearances in the words of a roster's column, as they were
    /// recorded: `yes; clean: up to 40 kg`.
    pub fn clearance_words(&self, load: impl Fn(&Weight) -> String) -> String {
        let words = self.clearance.iter().map(|(slot, clearance)| {
            let until = self.clearance_until.get(slot).copied();
            let word = clearance.words(until, &load);
            match slot {
                Some(slot) => format!("{slot}: {word}"),
                None => word,
            }
        });
        words.collect::<Vec<_>>().join("; ")
    }

    /// The lowest load that neither a cap nor a clearance lets the athlete
    /// exceed in `slot` on a day.
    pub fn ceiling_on(&self, slot: &Slug, day: NaiveDate) -> Option<&Weight> {
        let cap = self
            .caps
            .get(&Some(slot.clone()))
            .or_else(|| self.caps.get(&None));
        let cleared = match self.clearance_on(slot, day) {
            Some(Clearance::UpTo(load)) => Some(load),
            Some(Clearance::Yes | Clearance::No) | None => None,
        };
        cap.into_iter().chain(cleared).min_by_key(|w| w.mass)
    }

    /// Applies a changed detail.
    pub fn apply(&mut self, change: &Change) {
        match change.clone() {
            Change::Number(n) => self.number = n,
            Change::Id(text) => self.id = text,
            Change::Given(text) => self.given = text,
            Change::Family(text) => self.family = text,
            Change::Sex(sex) => self.sex = sex,
            Change::Born(born) => self.born = born,
            Change::Grade(text) => self.grade = text,
            Change::Team(text) => self.team = text,
            Change::Category(text) => self.category = text,
            Change::Divisions(list) => self.divisions = list,
            Change::Place { session, flight } => {
                self.session = session;
                self.flight = flight;
            }
            Change::Bodyweight(weight) => self.bodyweight = weight,
            Change::EntryTotal(weight) => self.entry_total = weight,
            Change::Slot {
                slot,
                variant,
                opener,
            } => {
                let _ = self.slots.insert(slot, Entered { variant, opener });
            }
            Change::Last { lift, load } => match load {
                Some(load) => drop(self.last.insert(lift, load)),
                None => drop(self.last.remove(&lift)),
            },
            Change::Clearance {
                slot,
                clearance,
                until,
            } => {
                match until.filter(|_| clearance.is_some()) {
                    Some(last) => drop(self.clearance_until.insert(slot.clone(), last)),
                    None => drop(self.clearance_until.remove(&slot)),
                }
                match clearance {
                    Some(clearance) => drop(self.clearance.insert(slot, clearance)),
                    None => drop(self.clearance.remove(&slot)),
                }
            }
            Change::Guest(guest) => self.guest = guest,
            Change::Setup { name, value } => {
                if value.is_empty() {
                    let _ = self.setups.remove(&name);
                } else {
                    let _ = self.setups.insert(name, value);
                }
            }
        }
    }
}
