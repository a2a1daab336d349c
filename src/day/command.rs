//! What a person at the table can do: the act words, as typed values.

use chrono::NaiveDate;

use super::event::{Authority, ClockMove, FaultGiven, Granted, Light};
use super::{Line, RecordKey, RecordMark, Ruling, Stamp};
use crate::lift::Slug;
use crate::measure::{Mass, Weight};
use crate::roster::{Change, Clearance, EntryKey};

/// Who and which attempt; what is left open is settled by the day.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Which {
    /// Table number; blank is the athlete called, or first in the queue.
    pub number: Option<u16>,
    /// Slot or variant; blank is the slot that runs for the athlete.
    pub lift: Option<Slug>,
    /// Attempt number; blank is the next (or, for a ruled one, the last).
    pub attempt: Option<u8>,
}

/// A load, or a rise over what stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LoadAsked {
    /// So much.
    Exactly(Weight),
    /// So much more (or less) than the last attempt or request.
    Relative(Mass),
}

/// Where somebody is to lift; what is blank stays.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Place {
    /// Session.
    pub session: Option<String>,
    /// Flight.
    pub flight: Option<String>,
    /// Platform of the flight, if it has to be made.
    pub platform: Option<u8>,
}

/// The outcome of an attempt, as it is given.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Outcome {
    /// The ruling; `None` where only lights are given.
    pub ruling: Option<Ruling>,
    /// Lights, one a judge.
    pub lights: Vec<Light>,
    /// Named faults.
    pub faults: Vec<FaultGiven>,
    /// Repetitions, where there were several.
    pub reps: Option<u8>,
    /// The variant that it was, where it was caught as another one than the
    /// one entered.
    pub caught: Option<Slug>,
}

/// Coming and going.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Roll {
    /// Answers the roll.
    Here,
    /// Isn't there.
    Absent,
    /// Was called away.
    Away,
    /// Is back.
    Back,
}

/// Why an attempt was stopped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StopFor {
    /// The technique broke down.
    Technique,
    /// Pain or injury.
    Pain,
    /// The day's director said so.
    Director,
}

/// What a correction is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CorrectionOf {
    /// A ruled attempt: a new load, a new outcome, or both.
    Attempt {
        /// Which.
        which: Which,
        /// The load that it really was.
        load: Option<Weight>,
        /// The outcome that it really had.
        outcome: Option<Outcome>,
    },
    /// Details of any act, as `key=value`.
    Act {
        /// The act, by the place of its first event.
        act: u64,
        /// The keys with their new words.
        values: Vec<(String, String)>,
    },
}

/// One thing that a person does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Command {
    /// `add`: new entries; one act, however many.
    Add(Vec<NewEntry>),
    /// `edit`: changed details.
    Edit {
        /// Whose, by table number.
        number: u16,
        /// The details.
        changes: Vec<Change>,
    },
    /// Changed details of several entries in one act (an updated roster).
    EditMany(Vec<(EntryKey, Vec<Change>, Place)>),
    /// `place`: to another flight or platform; one act, however many.
    Place(Vec<(u16, Place)>),
    /// `here`, `absent`, `away`, `back`.
    Roll {
        /// Who.
        number: u16,
        /// Which of the four.
        roll: Roll,
        /// A reason.
        reason: String,
    },
    /// `withdraw`.
    Withdraw {
        /// Who.
        number: u16,
        /// From a lift, or from the day.
        lift: Option<Slug>,
        /// A reason.
        reason: String,
    },
    /// `disqualify`.
    Disqualify {
        /// Who.
        number: u16,
        /// In a lift, or on the day.
        lift: Option<Slug>,
        /// Why.
        reason: String,
    },
    /// `number`: start numbers in place of the lots.
    Number {
        /// Old and new numbers; none is by session and lot.
        given: Vec<(u16, u16)>,
    },
    /// `weigh`.
    Weigh {
        /// Who.
        number: u16,
        /// Bodyweight.
        bodyweight: Weight,
    },
    /// `clear`.
    Clear {
        /// Whose.
        number: u16,
        /// The lift, or all.
        lift: Option<Slug>,
        /// The clearance.
        clearance: Clearance,
        /// The last day on which it holds.
        until: Option<NaiveDate>,
        /// Who gives it.
        who: String,
        /// Why.
        why: String,
    },
    /// `cap`.
    Cap {
        /// Whose.
        number: u16,
        /// The lift, or all.
        lift: Option<Slug>,
        /// The load; `None` lifts the cap.
        load: Option<Weight>,
        /// Who sets it.
        who: String,
        /// Why.
        why: String,
    },
    /// `set`.
    Set(Vec<(String, String)>),
    /// `record`: records of the school's book; `None` strikes one. One act,
    /// however many.
    Book(Vec<(RecordKey, Option<RecordMark>)>),
    /// `check`.
    Check {
        /// The platform.
        platform: Option<u8>,
        /// Who signs.
        who: String,
    },
    /// `start`.
    Start {
        /// The platform, if the flight doesn't tell it.
        platform: Option<u8>,
        /// The slot.
        lift: Slug,
        /// The session, if named.
        session: Option<String>,
        /// The flight, if named.
        flight: Option<String>,
    },
    /// `break`.
    Break {
        /// The platform.
        platform: Option<u8>,
        /// Minutes; blank is what the rules say.
        minutes: Option<u32>,
    },
    /// `close`.
    Close {
        /// The session, or the day.
        session: Option<String>,
    },
    /// `reopen`.
    Reopen {
        /// The session, or the day.
        session: Option<String>,
        /// Why.
        reason: String,
    },
    /// `request`.
    Request {
        /// Whose, and for which attempt.
        which: Which,
        /// The load.
        load: LoadAsked,
        /// Whether it is made for a record.
        record: bool,
        /// The platform in hand.
        platform: Option<u8>,
    },
    /// `call`.
    Call {
        /// Who; blank is the first in the queue.
        which: Which,
        /// The load, if it is to be checked.
        load: Option<Weight>,
        /// The platform.
        platform: Option<u8>,
    },
    /// `clock`.
    Clock {
        /// The platform.
        platform: Option<u8>,
        /// The movement.
        movement: ClockMove,
    },
    /// `lights`.
    Lights {
        /// Who; blank is the athlete called.
        which: Which,
        /// The load, if named.
        load: Option<Weight>,
        /// Lights, or the word `time`.
        outcome: Outcome,
        /// The platform.
        platform: Option<u8>,
    },
    /// `tally`.
    Tally {
        /// Who and which.
        which: Which,
        /// The load; blank is the request.
        load: Option<Weight>,
        /// The outcome.
        outcome: Outcome,
        /// The platform, if it isn't the flight's.
        platform: Option<u8>,
    },
    /// `pass`.
    Pass {
        /// Who.
        which: Which,
        /// All attempts that remain in the slot.
        rest: bool,
        /// The platform.
        platform: Option<u8>,
    },
    /// `stop`.
    Stop {
        /// Who.
        which: Which,
        /// What for.
        stop: StopFor,
        /// A remark.
        reason: String,
        /// The platform.
        platform: Option<u8>,
    },
    /// `extra`.
    Extra {
        /// Who and in which slot.
        which: Which,
        /// Why.
        reason: String,
        /// The platform.
        platform: Option<u8>,
    },
    /// `loaded`.
    Loaded {
        /// Whose and which attempt.
        which: Which,
        /// What was on the bar.
        load: Weight,
        /// What is granted.
        granted: Granted,
        /// The platform.
        platform: Option<u8>,
    },
    /// `overrule` and `challenge`.
    Rerule {
        /// Whose and which attempt.
        which: Which,
        /// The new ruling.
        outcome: Outcome,
        /// By whom.
        authority: Authority,
        /// Why.
        reason: String,
    },
    /// `correct`.
    Correct {
        /// What.
        of: CorrectionOf,
        /// Why.
        reason: String,
    },
    /// `annul`.
    Annul {
        /// The act, by the place of its first event.
        act: u64,
        /// Why.
        reason: String,
    },
    /// `undo`.
    Undo(Line),
    /// `redo`.
    Redo(Line),
    /// `note`.
    Note {
        /// About whom.
        number: Option<u16>,
        /// About which act.
        act: Option<u64>,
        /// The remark.
        text: String,
        /// The platform in hand.
        platform: Option<u8>,
    },
}

/// An entry to be added.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct NewEntry {
    /// Table number; drawn where it is blank.
    pub number: Option<u16>,
    /// All other details.
    pub changes: Vec<Change>,
    /// Session, flight and platform.
    pub place: Place,
}

/// What comes in with a command: time, hand and random draws.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Context {
    /// When.
    pub at: Stamp,
    /// Whose hand.
    pub hand: String,
    /// Seed of random draws.
    pub draw: u64,
}
