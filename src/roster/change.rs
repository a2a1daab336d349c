//! One changed detail of an entry.

use chrono::NaiveDate;

use super::{Born, Clearance, Sex};
use crate::lift::Slug;
use crate::measure::Weight;

/// One changed detail of an entry, as a fact.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Change {
    /// Table number.
    Number(u16),
    /// The school's own identifier.
    Id(String),
    /// Given name.
    Given(String),
    /// Family name.
    Family(String),
    /// Sex.
    Sex(Option<Sex>),
    /// Birth.
    Born(Option<Born>),
    /// Grade.
    Grade(String),
    /// Team.
    Team(String),
    /// Category entered for.
    Category(String),
    /// Divisions.
    Divisions(Vec<String>),
    /// Session and flight.
    Place {
        /// The session's name.
        session: String,
        /// The flight's name within the session; may be empty.
        flight: String,
    },
    /// Bodyweight.
    Bodyweight(Option<Weight>),
    /// Entry total.
    EntryTotal(Option<Weight>),
    /// Entered in a slot with a variant (or not), and the opener if given.
    Slot {
        /// The slot.
        slot: Slug,
        /// The variant; `None` where not entered.
        variant: Option<Slug>,
        /// The opener; `None` where it is owed.
        opener: Option<Weight>,
    },
    /// Last known max of a lift.
    Last {
        /// The lift.
        lift: Slug,
        /// The load; `None` takes it back.
        load: Option<Weight>,
    },
    /// Clearance for a slot, or for all.
    Clearance {
        /// The slot; `None` is all.
        slot: Option<Slug>,
        /// The clearance; `None` takes it back.
        clearance: Option<Clearance>,
        /// The last day on which it holds, if it ends.
        until: Option<NaiveDate>,
    },
    /// Whether the entry lifts as a guest, without a place.
    Guest(bool),
    /// A grip or rack height.
    Setup {
        /// Its name, such as `rack squat`.
        name: String,
        /// Its value; empty takes it back.
        value: String,
    },
}

impl Change {
    /// Whether the detail identifies or describes a person, so that it is
    /// kept apart and can be blanked.
    pub const fn is_private(&self) -> bool {
        matches!(
            self,
            Self::Id(_)
                | Self::Given(_)
                | Self::Family(_)
                | Self::Born(_)
                | Self::Bodyweight(_)
                | Self::Clearance { .. }
                | Self::Setup { .. }
        )
    }
}
