//! The plain words of the model: rules, acts and facts, without cleverness.
//!
//! A load is a whole number of hundredths of the day's bar unit.

/// A load in hundredths of the bar unit.
pub type Load = i64;
/// A table number.
pub type No = u16;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bar {
    Rising,
    Rounds,
    Free,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key {
    Load,
    Attempt,
    Previous,
    Number,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tie {
    BestAttempt,
    Previous,
    LastSlotLower,
    Bodyweight,
    Earlier,
    Number,
    Shared,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Categories {
    None,
    Flight,
    Iwf2026,
}

/// What the model asks of a format.
#[derive(Debug, Clone)]
pub struct Rules {
    pub weightlifting: bool,
    pub pounds: bool,
    pub law: bool,
    pub bar: Bar,
    pub order: Vec<Key>,
    pub attempts: u8,
    pub judges: usize,
    pub step: Load,
    pub least: bool,
    pub automatic: bool,
    pub declare: bool,

    pub changes: Option<usize>,
    pub final_call: Option<i64>,
    pub within: Option<i64>,
    pub clock: Option<i64>,
    pub following: Option<i64>,
    pub ties_lift: Vec<Tie>,
    pub ties_total: Vec<Tie>,
    pub total: bool,
    pub needs_all: bool,
    pub weighed: bool,
    pub categories: Categories,
    /// Variants of each slot.
    pub slots: Vec<usize>,
    pub platforms: u8,
}

/// Somebody who is entered.
#[derive(Debug, Clone, PartialEq, Eq)]
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
}

/// What somebody does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Act {
    Add(Athlete),
    Weigh(No, i64),
    Roll(No, Roll),
    Withdraw(No, Option<usize>),
    Start(u8, usize, usize),
    Request {
        no: No,
        slot: usize,
        attempt: Option<u8>,
        load: Load,
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
        given: Given,
    },
    Tally {
        no: No,
        slot: usize,
        attempt: Option<u8>,
        load: Option<Load>,
        given: Given,
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
    },
    /// An act by its place in the list.
    Annul(usize),
    Undo(Line),
    Redo(Line),
}

/// What an act did, in full.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fact {
    Entered(Athlete),
    Weighed(No, i64),
    Presence(No, Roll),
    Withdrawn(No, Option<usize>),
    Started(u8, usize, usize),
    Requested {
        no: No,
        slot: usize,
        attempt: u8,
        load: Load,
        change: bool,
    },
    Called {
        platform: u8,
        no: No,
        slot: usize,
        attempt: u8,
        load: Load,
        clock: Option<i64>,
        following: bool,
    },
    CallTakenBack {
        platform: u8,
    },
    ClockMoved(u8, Move),
    Ruled {
        platform: u8,
        no: No,
        slot: usize,
        attempt: u8,
        load: Option<Load>,
        ruling: Ruling,
        lifted: bool,
    },
    Extra(No, usize),
    Void(No, usize, u8),
    Credited(No, usize, u8, Load),
    Reruled(No, usize, u8, Ruling),
    /// An earlier ruling, by its act, was otherwise.
    Corrected {
        target: usize,
        no: No,
        slot: usize,
        attempt: u8,
        load: Option<Load>,
        ruling: Option<Ruling>,
    },
    /// A call that came back: its clock stands at so many milliseconds.
    ClockBack(u8, i64),
}
