//! The plain words of the model: acts and facts, without cleverness.
//!
//! A load is a whole number of hundredths of the day's bar unit.

use crate::rules::Setting;

/// A load in hundredths of the bar unit.
pub type Load = i64;
/// A table number; in facts the number under which somebody was entered.
pub type No = u16;

/// When an act is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct At {
    /// In milliseconds of the day.
    pub ms: i64,
    /// Whether it isn't known well enough to judge a deadline by.
    pub loose: bool,
}

impl From<i64> for At {
    fn from(ms: i64) -> Self {
        Self { ms, loose: false }
    }
}

/// Somebody who is entered.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Athlete {
    pub no: No,
    pub girl: bool,
    /// In hundredths of a kilogram.
    pub bodyweight: Option<i64>,
    /// The label entered for; may be empty.
    pub category: String,
    /// 0 is flight A on platform 1, 1 is flight B on the last platform.
    pub flight: usize,
    /// For each slot the variant and the opener; `None` where not entered.
    pub slots: Vec<Option<(usize, Option<Load>)>>,
    pub guest: bool,
    /// Year, month and day of birth.
    pub born: Option<(i32, u32, u32)>,
    /// 1 to 3, or 0 for none.
    pub team: u8,
    pub entry_total: Option<Load>,
    /// Last known max by slot, of the variant entered first.
    pub last: Vec<Option<(usize, Load)>>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ruling {
    Good,
    No,
    Pass,
    Time,
    Stopped,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Given {
    Lights(Vec<bool>),
    Word(Ruling),
}

/// The outcome of an attempt as it is given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outcome {
    pub given: Given,
    /// Repetitions, where there were several.
    pub reps: Option<u8>,
    /// The variant, where it is named.
    pub variant: Option<usize>,
}

impl From<Given> for Outcome {
    fn from(given: Given) -> Self {
        Self {
            given,
            reps: None,
            variant: None,
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grant {
    Keep,
    Repeat,
    Again,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Roll {
    Here,
    Absent,
    Away,
    Back,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Move {
    Stop,
    Resume,
    /// To so many seconds left.
    Set(i64),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Line {
    Platform(u8),
    Roster,
    Scale,
    Flights,
    Day,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cleared {
    Yes,
    No,
    UpTo(Load),
}

/// A changed detail of an entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Edit {
    Guest(bool),
    Category(String),
    Bodyweight(Option<i64>),
    EntryTotal(Option<Load>),
    Last(usize, usize, Option<Load>),
    /// The slot, and the variant with the opener.
    Slot(usize, Option<(usize, Option<Load>)>),
}

/// What is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked {
    Exactly(Load),
    /// So much more or less.
    Rise(Load),
}

/// What somebody does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Act {
    Add(Athlete),
    Edit(No, Edit),
    Place(No, usize),
    Weigh(No, i64),
    Roll(No, Roll),
    Withdraw(No, Option<usize>),
    Disqualify(No, Option<usize>),
    /// Start numbers: none is by session and lot.
    Number(Vec<(No, No)>),
    Clear {
        no: No,
        slot: Option<usize>,
        cleared: Cleared,
        /// Whether it ended before the day.
        over: bool,
        signed: bool,
    },
    Cap {
        no: No,
        slot: Option<usize>,
        load: Option<Load>,
        signed: bool,
    },
    Set(Setting),
    Check(u8),
    Start(u8, usize, usize),
    Break(u8, Option<u32>),
    /// A session, or the day.
    Close(Option<u8>),
    Reopen(Option<u8>),
    Note(Option<No>),
    Request {
        no: No,
        slot: usize,
        attempt: Option<u8>,
        load: Asked,
        record: bool,
    },
    Call {
        platform: u8,
        no: Option<No>,
        load: Option<Load>,
    },
    Clock(u8, Move),
    Lights {
        platform: u8,
        no: Option<No>,
        load: Option<Load>,
        outcome: Outcome,
    },
    Tally {
        no: No,
        slot: usize,
        attempt: Option<u8>,
        load: Option<Load>,
        outcome: Outcome,
    },
    Pass {
        platform: u8,
        who: Option<(No, usize)>,
        rest: bool,
    },
    Stop {
        platform: u8,
        who: Option<(No, usize)>,
        pain: bool,
    },
    Extra(No, usize),
    Loaded {
        no: No,
        slot: usize,
        attempt: u8,
        load: Load,
        grant: Grant,
    },
    Rerule {
        no: No,
        slot: usize,
        attempt: u8,
        good: bool,
        challenge: bool,
    },
    Correct {
        no: No,
        slot: usize,
        attempt: u8,
        load: Option<Load>,
        ruling: Option<Ruling>,
        reps: Option<u8>,
        variant: Option<usize>,
    },
    /// An act by its place in the list.
    Annul(usize),
    Undo(Line),
    Redo(Line),
}

/// An attempt that was ruled, in full.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuledFact {
    pub platform: u8,
    /// The flight in which it was taken.
    pub flight: usize,
    pub no: No,
    pub slot: usize,
    pub attempt: u8,
    pub variant: usize,
    pub load: Option<Load>,
    pub ruling: Ruling,
    pub reps: u8,
    /// Whether the athlete went to the bar.
    pub lifted: bool,
    /// Whether it came from a card or the table, not from the platform.
    pub card: bool,
}

/// What a ruled attempt was in truth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Now {
    pub load: Option<Load>,
    pub ruling: Ruling,
    pub reps: u8,
    pub variant: usize,
}

/// What an act did, in full.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fact {
    Entered(Athlete),
    Edited(No, Edit),
    Placed(No, usize),
    Weighed(No, i64),
    Presence(No, Roll),
    Withdrawn(No, Option<usize>),
    Disqualified(No, Option<usize>),
    Numbered(Vec<(No, No)>),
    Cleared(No, Option<usize>, Cleared, bool),
    Capped(No, Option<usize>, Option<Load>),
    Set(Setting),
    Checked(u8),
    Started(u8, usize, usize),
    Closed(Option<u8>, bool),
    /// So many minutes.
    Break(u8, u32),
    /// A remark.
    Told,
    Requested {
        no: No,
        slot: usize,
        attempt: u8,
        load: Load,
        change: bool,
        record: bool,
    },
    Called {
        platform: u8,
        no: No,
        slot: usize,
        attempt: u8,
        variant: usize,
        load: Load,
        clock: Option<i64>,
        following: bool,
    },
    CallTakenBack {
        platform: u8,
        no: No,
    },
    ClockMoved(u8, Move),
    Ruled(RuledFact),
    Extra(No, usize),
    Void(No, usize, u8),
    /// What counts, and what was on the bar.
    Credited(No, usize, u8, Load, Load),
    Reruled(No, usize, u8, Ruling, bool),
    /// An earlier ruling, by its act, was otherwise.
    Corrected {
        target: usize,
        no: No,
        slot: usize,
        attempt: u8,
        now: Now,
    },
    /// A call that came back: its clock stands at so many milliseconds.
    ClockBack(u8, (No, usize, u8), i64),
}

impl Act {
    /// The act's word.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Add(_) => "add",
            Self::Edit(..) => "edit",
            Self::Place(..) => "place",
            Self::Weigh(..) => "weigh",
            Self::Roll(_, Roll::Here) => "here",
            Self::Roll(_, Roll::Absent) => "absent",
            Self::Roll(_, Roll::Away) => "away",
            Self::Roll(_, Roll::Back) => "back",
            Self::Withdraw(..) => "withdraw",
            Self::Disqualify(..) => "disqualify",
            Self::Number(_) => "number",
            Self::Clear { .. } => "clear",
            Self::Cap { .. } => "cap",
            Self::Set(_) => "set",
            Self::Check(_) => "check",
            Self::Start(..) => "start",
            Self::Break(..) => "break",
            Self::Close(_) => "close",
            Self::Reopen(_) => "reopen",
            Self::Note(_) => "note",
            Self::Request { record: true, .. } => "request record",
            Self::Request {
                load: Asked::Rise(_),
                ..
            } => "request by a rise",
            Self::Request { .. } => "request",
            Self::Call { .. } => "call",
            Self::Clock(..) => "clock",
            Self::Lights {
                outcome:
                    Outcome {
                        given: Given::Word(_),
                        ..
                    },
                ..
            } => "lights time",
            Self::Lights { .. } => "lights",
            Self::Tally { .. } => "tally",
            Self::Pass { rest: true, .. } => "pass rest",
            Self::Pass { .. } => "pass",
            Self::Stop { .. } => "stop",
            Self::Extra(..) => "extra",
            Self::Loaded {
                grant: Grant::Keep, ..
            } => "loaded keep",
            Self::Loaded {
                grant: Grant::Repeat,
                ..
            } => "loaded repeat",
            Self::Loaded { .. } => "loaded again",
            Self::Rerule {
                challenge: true, ..
            } => "challenge",
            Self::Rerule { .. } => "overrule",
            Self::Correct { .. } => "correct",
            Self::Annul(_) => "annul",
            Self::Undo(_) => "undo",
            Self::Redo(_) => "redo",
        }
    }
}
