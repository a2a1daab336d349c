//! One stored shape per kind of event: the public body and the private part.
//!
//! Frozen: a changed fact gets a new struct with the next shape number, and
//! the old one stays. What describes a person is in the private part alone.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::details::Detail;
use super::words::{
    Authority, Clearance, Fault, Granted, Light, Load, Movement, Presence, Sex, Slot,
    Source, Time, Unit,
};
use crate::day::Ruling;
use crate::lift::Slug;

#[allow(clippy::trivially_copy_pass_by_ref)] // As serde hands it over.
fn is_no(value: &bool) -> bool {
    !value
}

macro_rules! bodies {
    ($($(#[$about:meta])* $name:ident { $($(#[$how:meta])* $field:ident: $type:ty),* $(,)? })+) => {$(
        $(#[$about])*
        #[derive(Debug, Serialize, Deserialize)]
        #[serde(deny_unknown_fields)]
        pub(super) struct $name {
            $($(#[$how])* pub(super) $field: $type,)*
        }
    )+};
}

bodies! {
    DayMade1 {
        name: String,
        date: NaiveDate,
        format: String,
        bar_unit: Unit,
        scale_unit: Unit,
        rules: BTreeMap<String, String>,
        slots: Vec<Slot>,
        platforms: u8,
    }
    SettingChanged1 { key: String, value: String }
    FlightMade1 { session: String, flight: String, platform: u8 }
    EntryAdded1 { entry: u32, number: u16, changes: Vec<Detail> }
    EntryEdited1 { entry: u32, changes: Vec<Detail> }
    Placed1 { entry: u32, session: String, flight: String }
    RollAnswered1 { entry: u32, presence: Presence, back: bool }
    Withdrawn1 { entry: u32, slot: Option<Slug> }
    Disqualified1 { entry: u32, slot: Option<Slug> }
    Numbered1 { numbers: Vec<(u32, u16)> }
    Weighed1 { entry: u32 }
    Cleared1 { entry: u32, slot: Option<Slug> }
    Capped1 { entry: u32, slot: Option<Slug>, load: Option<Load> }
    StationChecked1 { platform: u8, who: String }
    SlotStarted1 { platform: u8, session: String, flight: String, slot: Slug }
    BreakCalled1 { platform: u8, minutes: u32 }
    Closed1 { session: Option<String> }
    Reopened1 { session: Option<String> }
    /// Shape 2 has `record`, and is written where that is so.
    Requested1 {
        entry: u32,
        slot: Slug,
        attempt: u8,
        load: Load,
        change: bool,
        #[serde(default, skip_serializing_if = "is_no")]
        record: bool,
    }
    Called1 {
        entry: u32,
        slot: Slug,
        lift: Slug,
        attempt: u8,
        load: Load,
        clock: Option<u32>,
        following: bool,
    }
    CallWithdrawn1 { entry: u32, slot: Slug, attempt: u8 }
    ClockMoved1 { movement: Movement }
    /// Shape 2 has `reps`, and is written where there were several.
    Ruled1 {
        entry: u32,
        slot: Slug,
        lift: Slug,
        attempt: u8,
        session: String,
        flight: String,
        requested: Option<Load>,
        loaded: Option<Load>,
        credited: Option<Load>,
        ruling: Ruling,
        lights: Vec<Light>,
        faults: Vec<Fault>,
        called_at: Option<Time>,
        source: Source,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        reps: Option<u8>,
    }
    ExtraGranted1 { entry: u32, slot: Slug }
    LoadFound1 {
        entry: u32,
        slot: Slug,
        attempt: u8,
        loaded: Load,
        credited: Load,
        granted: Granted,
    }
    Reruled1 {
        entry: u32,
        slot: Slug,
        attempt: u8,
        ruling: Ruling,
        faults: Vec<Fault>,
        authority: Authority,
    }
    ChallengeLost1 { entry: u32, slot: Slug, attempt: u8, ruling: Ruling }
    /// `listed` is false where the record was struck from the book.
    RecordListed1 {
        lift: Slug,
        sex: Option<Sex>,
        category: String,
        division: String,
        listed: bool,
        load: Option<Load>,
    }
    /// The corrected event in full; `private` says whether it has such a part.
    Corrected1 { target: u64, kind: String, shape: u32, private: bool, fact: Value }
    Annulled1 { act: u64 }
    Undone1 { act: u64, clock: Option<i64> }
    Redone1 { undo: u64 }
    Noted1 { entry: Option<u32>, act: Option<u64> }

    /// Private part: details of an entry, in order.
    Details1 { changes: Vec<Detail> }
    /// Private part: a bodyweight.
    Bodyweight1 { bodyweight: Load }
    /// Private part: a clearance.
    ///
    /// Shape 2 of its event has `until`, and is written where it ends.
    Clearance1 {
        clearance: Clearance,
        who: String,
        why: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        until: Option<NaiveDate>,
    }
    /// Private part: who and why.
    Signed1 { who: String, why: String }
    /// Private part: who holds a record, since when and where.
    Holder1 { holder: String, date: String, place: String }
    /// Private part: a free text.
    Text1 { text: String }
    /// Private part of a correction: why, and that of the corrected event.
    Correction1 { text: String, fact: Option<Value> }
}
