//! The stored form of an entry's details, with the private ones set apart.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::words::{Born, Clearance, Load, Sex};
use crate::lift::Slug;
use crate::roster::Change;

/// A detail of an entry.
///
/// In a public list `private` keeps the place of one that is in the private
/// part, so that the order stays.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Detail {
    Private,
    Number(u16),
    Id(String),
    Given(String),
    Family(String),
    Sex(Option<Sex>),
    Born(Option<Born>),
    Grade(String),
    Team(String),
    Category(String),
    Divisions(Vec<String>),
    Place {
        session: String,
        flight: String,
    },
    Bodyweight(Option<Load>),
    EntryTotal(Option<Load>),
    Slot {
        slot: Slug,
        variant: Option<Slug>,
        opener: Option<Load>,
    },
    Last {
        lift: Slug,
        load: Option<Load>,
    },
    Clearance {
        slot: Option<Slug>,
        clearance: Option<Clearance>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        until: Option<NaiveDate>,
    },
    Guest(bool),
    Setup {
        name: String,
        value: String,
    },
}

impl From<Change> for Detail {
    fn from(change: Change) -> Self {
        match change {
            Change::Number(n) => Self::Number(n),
            Change::Id(text) => Self::Id(text),
            Change::Given(text) => Self::Given(text),
            Change::Family(text) => Self::Family(text),
            Change::Sex(sex) => Self::Sex(sex.map(Into::into)),
            Change::Born(born) => Self::Born(born.map(Into::into)),
            Change::Grade(text) => Self::Grade(text),
            Change::Team(text) => Self::Team(text),
            Change::Category(text) => Self::Category(text),
            Change::Divisions(list) => Self::Divisions(list),
            Change::Place { session, flight } => Self::Place { session, flight },
            Change::Bodyweight(weight) => Self::Bodyweight(weight.map(Into::into)),
            Change::EntryTotal(weight) => Self::EntryTotal(weight.map(Into::into)),
            Change::Slot {
                slot,
                variant,
                opener,
            } => Self::Slot {
                slot,
                variant,
                opener: opener.map(Into::into),
            },
            Change::Last { lift, load } => Self::Last {
                lift,
                load: load.map(Into::into),
            },
            Change::Clearance {
                slot,
                clearance,
                until,
            } => Self::Clearance {
                slot,
                clearance: clearance.map(Into::into),
                until,
            },
            Change::Guest(guest) => Self::Guest(guest),
            Change::Setup { name, value } => Self::Setup { name, value },
        }
    }
}

impl Detail {
    /// The detail, unless it only keeps a place.
    fn change(self) -> Option<Change> {
        Some(match self {
            Self::Private => return None,
            Self::Number(n) => Change::Number(n),
            Self::Id(text) => Change::Id(text),
            Self::Given(text) => Change::Given(text),
            Self::Family(text) => Change::Family(text),
            Self::Sex(sex) => Change::Sex(sex.map(Into::into)),
            Self::Born(born) => Change::Born(born.map(Into::into)),
            Self::Grade(text) => Change::Grade(text),
            Self::Team(text) => Change::Team(text),
            Self::Category(text) => Change::Category(text),
            Self::Divisions(list) => Change::Divisions(list),
            Self::Place { session, flight } => Change::Place { session, flight },
            Self::Bodyweight(weight) => Change::Bodyweight(weight.map(Into::into)),
            Self::EntryTotal(weight) => Change::EntryTotal(weight.map(Into::into)),
            Self::Slot {
                slot,
                variant,
                opener,
            } => Change::Slot {
                slot,
                variant,
                opener: opener.map(Into::into),
            },
            Self::Last { lift, load } => Change::Last {
                lift,
                load: load.map(Into::into),
            },
            Self::Clearance {
                slot,
                clearance,
                until,
            } => Change::Clearance {
                slot,
                clearance: clearance.map(Into::into),
                until,
            },
            Self::Guest(guest) => Change::Guest(guest),
            Self::Setup { name, value } => Change::Setup { name, value },
        })
    }
}

/// The shape of an event with these details: 2 where one of them came after
/// the first shape.
pub(super) fn shape_of(changes: &[Change]) -> u32 {
    let later = changes.iter().any(|c| {
        matches!(
            c,
            Change::Guest(_) | Change::Clearance { until: Some(_), .. }
        )
    });
    if later { 2 } else { 1 }
}

/// Parts a list of details into what may be seen and what is kept apart.
pub(super) fn part(changes: &[Change]) -> (Vec<Detail>, Vec<Detail>) {
    let mut open = Vec::with_capacity(changes.len());
    let mut hidden = Vec::new();
    for change in changes {
        if change.is_private() {
            open.push(Detail::Private);
            hidden.push(change.clone().into());
        } else {
            open.push(change.clone().into());
        }
    }
    (open, hidden)
}

/// Puts a parted list together again; erased details are left out.
pub(super) fn join(open: Vec<Detail>, hidden: Vec<Detail>) -> Vec<Change> {
    let mut hidden = hidden.into_iter();
    open.into_iter()
        .filter_map(|detail| match detail {
            Detail::Private => hidden.next().and_then(Detail::change),
            other => other.change(),
        })
        .collect()
}
