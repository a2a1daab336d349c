//! What can happen on a day, as facts.
//!
//! Events state facts in full and never point at what a queue said, so that
//! folding them needs no rule.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::{RecordKey, RecordMark, Ruling, Stamp};
use crate::lift::Slug;
use crate::measure::{Unit, Weight};
use crate::roster::{Change, Clearance, EntryKey, Presence, SlotLine};

/// One judge's light.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Light {
    /// Good lift.
    White,
    /// No lift.
    Red,
}

/// A fault that was named, and by which judge if that is known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FaultGiven {
    /// The judge, 1 to 3.
    pub judge: Option<u8>,
    /// The fault's stable code.
    pub code: String,
}

/// How a finished attempt reached the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// Lights, as it happened.
    Lights,
    /// A card that came back filled in.
    Card,
    /// The table's own word: a pass.
    Table,
    /// A stop for technique, pain or by the director.
    Stop,
}

/// A ruled attempt, in full.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuledFact {
    /// Whose.
    pub entry: EntryKey,
    /// The slot.
    pub slot: Slug,
    /// The variant that was attempted.
    pub lift: Slug,
    /// Attempt number, from 1.
    pub attempt: u8,
    /// The session in which it was taken.
    pub session: String,
    /// The flight in which it was taken.
    pub flight: String,
    /// The load that was asked for.
    pub requested: Option<Weight>,
    /// The load that was on the bar.
    pub loaded: Option<Weight>,
    /// The load that counts.
    pub credited: Option<Weight>,
    /// The ruling.
    pub ruling: Ruling,
    /// The judges' lights, in order; empty where none were given.
    pub lights: Vec<Light>,
    /// Named faults.
    pub faults: Vec<FaultGiven>,
    /// When the athlete was called, if so.
    pub called_at: Option<Stamp>,
    /// Repetitions that were lifted or tried; one in a test of the max.
    pub reps: u8,
    /// How it reached the table.
    pub source: Source,
    /// A reason, where the act gives one.
    pub reason: String,
}

/// What is granted for a wrong load; the rules have the list.
pub use crate::rules::Grant as Granted;

/// What was done to the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ClockMove {
    /// Stopped where it stood.
    Stop,
    /// Went on from where it stood.
    Resume,
    /// Set to so many milliseconds left; runs on if it ran.
    Set(i64),
}

/// Who gave a new ruling of an attempt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Authority {
    /// A jury, or the day's director.
    Overrule,
    /// A challenge that was upheld.
    Challenge,
}

/// Something that happened.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Event {
    /// The day was made.
    DayMade {
        /// Its name.
        name: String,
        /// Its date.
        date: NaiveDate,
        /// The format's name, for show.
        format: String,
        /// Bar unit.
        bar_unit: Unit,
        /// Scale unit.
        scale_unit: Unit,
        /// The words of every rule.
        rules: BTreeMap<String, String>,
        /// The programme.
        slots: Vec<SlotLine>,
        /// How many platforms.
        platforms: u8,
    },
    /// A setting was changed.
    SettingChanged {
        /// The key.
        key: String,
        /// Its new word.
        value: String,
    },
    /// A flight was made.
    FlightMade {
        /// Its session.
        session: String,
        /// Its name.
        flight: String,
        /// Its platform.
        platform: u8,
    },
    /// Somebody was entered.
    EntryAdded {
        /// The lasting name.
        entry: EntryKey,
        /// The table number.
        number: u16,
        /// All details.
        changes: Vec<Change>,
    },
    /// Details of an entry changed.
    EntryEdited {
        /// Whose.
        entry: EntryKey,
        /// The changed details.
        changes: Vec<Change>,
    },
    /// An entry went to another flight, with its attempts.
    Placed {
        /// Whose.
        entry: EntryKey,
        /// The session.
        session: String,
        /// The flight.
        flight: String,
    },
    /// Somebody came, went, or answered the roll.
    RollAnswered {
        /// Who.
        entry: EntryKey,
        /// Where the athlete is now.
        presence: Presence,
        /// Whether it was said as coming back.
        back: bool,
        /// A reason, if given.
        reason: String,
    },
    /// Somebody withdrew.
    Withdrawn {
        /// Who.
        entry: EntryKey,
        /// From one slot, or from the day.
        slot: Option<Slug>,
        /// A reason, if given.
        reason: String,
    },
    /// Somebody was disqualified.
    Disqualified {
        /// Who.
        entry: EntryKey,
        /// In one slot, or on the day.
        slot: Option<Slug>,
        /// Why.
        reason: String,
    },
    /// Start numbers were given in place of the lots.
    Numbered {
        /// Each entry's number from now on.
        numbers: Vec<(EntryKey, u16)>,
    },
    /// Somebody was weighed.
    Weighed {
        /// Who.
        entry: EntryKey,
        /// Bodyweight.
        bodyweight: Weight,
    },
    /// A clearance was recorded.
    Cleared {
        /// Whose.
        entry: EntryKey,
        /// The slot, or all.
        slot: Option<Slug>,
        /// The clearance.
        clearance: Clearance,
        /// The last day on which it holds, if it ends.
        until: Option<NaiveDate>,
        /// Who gave it.
        who: String,
        /// Why.
        why: String,
    },
    /// A cap was set or lifted.
    Capped {
        /// Whose.
        entry: EntryKey,
        /// The slot, or all.
        slot: Option<Slug>,
        /// The load not to be exceeded; `None` lifts the cap.
        load: Option<Weight>,
        /// Who set it.
        who: String,
        /// Why.
        why: String,
    },
    /// A platform's station check was signed.
    StationChecked {
        /// The platform.
        platform: u8,
        /// Who signed.
        who: String,
    },
    /// A slot was opened for a flight on its platform.
    SlotStarted {
        /// The platform.
        platform: u8,
        /// The session.
        session: String,
        /// The flight.
        flight: String,
        /// The slot.
        slot: Slug,
    },
    /// A break was called.
    BreakCalled {
        /// The platform.
        platform: u8,
        /// How long, in minutes.
        minutes: u32,
    },
    /// A session or the day was closed.
    Closed {
        /// The session, or the day.
        session: Option<String>,
    },
    /// A session or the day was opened again.
    Reopened {
        /// The session, or the day.
        session: Option<String>,
        /// Why.
        reason: String,
    },
    /// A load was asked for.
    Requested {
        /// By whom.
        entry: EntryKey,
        /// The slot.
        slot: Slug,
        /// For which attempt.
        attempt: u8,
        /// The load.
        load: Weight,
        /// Whether it uses up one of the allowed changes.
        change: bool,
        /// Whether it is made for a record.
        record: bool,
    },
    /// An athlete was called.
    Called {
        /// Who.
        entry: EntryKey,
        /// The slot.
        slot: Slug,
        /// The variant.
        lift: Slug,
        /// Attempt number.
        attempt: u8,
        /// The announced load.
        load: Weight,
        /// Clock that began to run, in seconds; `None` where there is none.
        clock: Option<u32>,
        /// Whether the athlete follows himself or herself.
        following: bool,
    },
    /// A call was taken back because the order changed.
    CallWithdrawn {
        /// Whose.
        entry: EntryKey,
        /// The slot.
        slot: Slug,
        /// Attempt number.
        attempt: u8,
    },
    /// The clock was moved.
    ClockMoved {
        /// How.
        movement: ClockMove,
    },
    /// An attempt was ruled.
    Ruled(Box<RuledFact>),
    /// One more attempt by leave.
    ExtraGranted {
        /// To whom.
        entry: EntryKey,
        /// The slot.
        slot: Slug,
        /// Why.
        reason: String,
    },
    /// Another load was on the bar than was asked for.
    LoadFound {
        /// Whose attempt.
        entry: EntryKey,
        /// The slot.
        slot: Slug,
        /// Attempt number.
        attempt: u8,
        /// What was on the bar.
        loaded: Weight,
        /// What counts.
        credited: Weight,
        /// What is granted.
        granted: Granted,
    },
    /// An attempt got a new ruling.
    Reruled {
        /// Whose.
        entry: EntryKey,
        /// The slot.
        slot: Slug,
        /// Attempt number.
        attempt: u8,
        /// The new ruling.
        ruling: Ruling,
        /// Named faults.
        faults: Vec<FaultGiven>,
        /// By whom.
        authority: Authority,
        /// Why.
        reason: String,
    },
    /// An attempt was challenged, and its ruling stands.
    ChallengeLost {
        /// Whose.
        entry: EntryKey,
        /// The slot.
        slot: Slug,
        /// Attempt number.
        attempt: u8,
        /// The ruling that stands.
        ruling: Ruling,
        /// Why.
        reason: String,
    },
    /// A record of the school's book was told, or struck from it.
    RecordListed {
        /// Which.
        record: RecordKey,
        /// What stands there from now on; `None` strikes it.
        mark: Option<RecordMark>,
    },
    /// An earlier event was not as the journal said.
    Corrected {
        /// The event's place in the journal.
        target: u64,
        /// What it should have said.
        event: Box<Event>,
        /// Why.
        reason: String,
    },
    /// An earlier act is annulled.
    Annulled {
        /// The act, by the place of its first event.
        act: u64,
        /// Why.
        reason: String,
    },
    /// The newest act of a line was undone.
    Undone {
        /// The act, by the place of its first event.
        act: u64,
        /// What is left on the clock of a call that came back, in
        /// milliseconds.
        clock: Option<i64>,
    },
    /// The newest undo of a line was taken back.
    Redone {
        /// The undo, by the place of its event.
        undo: u64,
    },
    /// A remark.
    Noted {
        /// About whom.
        entry: Option<EntryKey>,
        /// About which act, by the place of its first event.
        act: Option<u64>,
        /// The remark.
        text: String,
    },
}

/// An event with its place in the journal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recorded {
    /// Place in the journal, from 1.
    pub seq: u64,
    /// The act it belongs to: the place of the act's first event.
    pub act: u64,
    /// The act's own identifier: any text that is unique in the day.
    pub id: String,
    /// When it was entered.
    pub at: Stamp,
    /// When it took place, if that was earlier.
    pub happened: Option<Stamp>,
    /// Whose hand entered it.
    pub hand: String,
    /// The platform it belongs to, if any.
    pub platform: Option<u8>,
    /// What happened.
    pub event: Event,
}

/// Acts that undo one after another: a platform's, or a screen's kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Line {
    /// What was done on a platform.
    Platform(u8),
    /// Entries, comings and goings, clearances and caps.
    Roster,
    /// Weigh-in.
    Scale,
    /// Flights.
    Flights,
    /// Settings, closing and reopening, notes.
    Day,
}

impl Recorded {
    /// The line on which this event is undone.
    pub fn line(&self) -> Line {
        if let Some(platform) = self.platform {
            return Line::Platform(platform);
        }
        self.event.kind_line()
    }
}

impl Event {
    /// The line of an event that has no platform.
    pub fn kind_line(&self) -> Line {
        match self {
            Self::Weighed { .. } => Line::Scale,
            Self::Placed { .. } | Self::FlightMade { .. } => Line::Flights,
            Self::EntryAdded { .. }
            | Self::EntryEdited { .. }
            | Self::RollAnswered { .. }
            | Self::Withdrawn { .. }
            | Self::Disqualified { .. }
            | Self::Numbered { .. }
            | Self::Cleared { .. }
            | Self::Capped { .. } => Line::Roster,
            Self::Corrected { event, .. } => event.kind_line(),
            _ => Line::Day,
        }
    }

    /// Whether the event only says what becomes of other acts.
    pub const fn is_about_acts(&self) -> bool {
        matches!(
            self,
            Self::Annulled { .. } | Self::Undone { .. } | Self::Redone { .. }
        )
    }
}
