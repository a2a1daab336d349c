//! The stored forms of small things: loads, times, lights, details.
//!
//! Frozen: a form that is written once is read for good. A slug, a ruling and
//! a date are stored as the one text that they have.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::day;
use crate::lift::Slug;
use crate::measure::{self, Mass};
use crate::roster;
use crate::rules;

/// Declares a stored enum of words that mirrors one of the core's.
macro_rules! words {
    ($name:ident = $core:ty { $($word:literal $variant:ident),+ $(,)? }) => {
        #[derive(Debug, Clone, Copy, Serialize, Deserialize)]
        pub(super) enum $name {
            $(#[serde(rename = $word)] $variant,)+
        }

        impl From<$core> for $name {
            fn from(value: $core) -> Self {
                match value {
                    $(<$core>::$variant => Self::$variant,)+
                }
            }
        }

        impl From<$name> for $core {
            fn from(value: $name) -> Self {
                match value {
                    $($name::$variant => Self::$variant,)+
                }
            }
        }
    };
}

words!(Unit = measure::Unit { "kg" Kg, "lb" Lb });
words!(Light = day::Light { "w" White, "r" Red });
words!(Source = day::Source { "lights" Lights, "card" Card, "table" Table, "stop" Stop });
words!(Granted = day::Granted { "keep" Keep, "repeat" Repeat, "again" Again });
words!(Authority = day::Authority { "overrule" Overrule, "challenge" Challenge });
words!(Presence = roster::Presence {
    "expected" Expected, "here" Here, "absent" Absent, "away" Away
});
words!(Sex = rules::Sex { "F" F, "M" M });

/// A load or bodyweight: counts of 10⁻¹¹ kg, and what was typed.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Load {
    m: i64,
    t: String,
    u: Unit,
}

impl From<measure::Weight> for Load {
    fn from(weight: measure::Weight) -> Self {
        Self {
            m: weight.mass.counts(),
            t: weight.typed,
            u: weight.unit.into(),
        }
    }
}

impl From<Load> for measure::Weight {
    fn from(load: Load) -> Self {
        Self {
            mass: Mass::from_counts(load.m),
            typed: load.t,
            unit: load.u.into(),
        }
    }
}

/// A point in time: milliseconds UTC, minutes east, `~` where it is loose.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Time {
    ms: i64,
    offset: i16,
    #[serde(rename = "~", default, skip_serializing_if = "std::ops::Not::not")]
    loose: bool,
}

impl From<day::Stamp> for Time {
    fn from(stamp: day::Stamp) -> Self {
        Self {
            ms: stamp.ms,
            offset: stamp.offset,
            loose: stamp.loose,
        }
    }
}

impl From<Time> for day::Stamp {
    fn from(time: Time) -> Self {
        Self {
            ms: time.ms,
            offset: time.offset,
            loose: time.loose,
        }
    }
}

/// What was done to the clock; `set` is in milliseconds left.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Movement {
    Stop,
    Resume,
    Set(i64),
}

impl From<day::ClockMove> for Movement {
    fn from(movement: day::ClockMove) -> Self {
        match movement {
            day::ClockMove::Stop => Self::Stop,
            day::ClockMove::Resume => Self::Resume,
            day::ClockMove::Set(left) => Self::Set(left),
        }
    }
}

impl From<Movement> for day::ClockMove {
    fn from(movement: Movement) -> Self {
        match movement {
            Movement::Stop => Self::Stop,
            Movement::Resume => Self::Resume,
            Movement::Set(left) => Self::Set(left),
        }
    }
}

/// A named fault, and by which judge if that is known.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Fault {
    judge: Option<u8>,
    code: String,
}

impl From<day::FaultGiven> for Fault {
    fn from(fault: day::FaultGiven) -> Self {
        Self {
            judge: fault.judge,
            code: fault.code,
        }
    }
}

impl From<Fault> for day::FaultGiven {
    fn from(fault: Fault) -> Self {
        Self {
            judge: fault.judge,
            code: fault.code,
        }
    }
}

/// A line of the programme.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Slot {
    slot: Slug,
    variants: Vec<Slug>,
}

impl From<roster::SlotLine> for Slot {
    fn from(line: roster::SlotLine) -> Self {
        Self {
            slot: line.slot,
            variants: line.variants,
        }
    }
}

impl From<Slot> for roster::SlotLine {
    fn from(line: Slot) -> Self {
        Self {
            slot: line.slot,
            variants: line.variants,
        }
    }
}

/// Whether, and up to what load, an athlete may attempt a slot.
#[derive(Debug, Serialize, Deserialize)]
pub(super) enum Clearance {
    #[serde(rename = "yes")]
    Yes,
    #[serde(rename = "no")]
    No,
    #[serde(rename = "up to")]
    UpTo(Load),
}

impl From<roster::Clearance> for Clearance {
    fn from(clearance: roster::Clearance) -> Self {
        match clearance {
            roster::Clearance::Yes => Self::Yes,
            roster::Clearance::No => Self::No,
            roster::Clearance::UpTo(load) => Self::UpTo(load.into()),
        }
    }
}

impl From<Clearance> for roster::Clearance {
    fn from(clearance: Clearance) -> Self {
        match clearance {
            Clearance::Yes => Self::Yes,
            Clearance::No => Self::No,
            Clearance::UpTo(load) => Self::UpTo(load.into()),
        }
    }
}

/// When somebody was born: a date, or only the year.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Born {
    Date(NaiveDate),
    Year(i32),
}

impl From<roster::Born> for Born {
    fn from(born: roster::Born) -> Self {
        match born {
            roster::Born::Date(date) => Self::Date(date),
            roster::Born::Year(year) => Self::Year(year),
        }
    }
}

impl From<Born> for roster::Born {
    fn from(born: Born) -> Self {
        match born {
            Born::Date(date) => Self::Date(date),
            Born::Year(year) => Self::Year(year),
        }
    }
}

/// Turns an optional or listed thing into its stored form, or back.
pub(super) fn each<A, B, L, M>(list: L) -> M
where
    L: IntoIterator<Item = A>,
    B: From<A>,
    M: FromIterator<B>,
{
    list.into_iter().map(B::from).collect()
}
