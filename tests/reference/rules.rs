//! The rules of the model: what a format says, and what `set` changes.

use crate::plain::{Grant, Load};

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Format {
    MaxDay,
    Weightlifting,
    Powerlifting,
}

impl Format {
    pub const ALL: [Self; 3] = [Self::MaxDay, Self::Weightlifting, Self::Powerlifting];

    pub const fn name(self) -> &'static str {
        match self {
            Self::MaxDay => "max-day",
            Self::Weightlifting => "weightlifting",
            Self::Powerlifting => "powerlifting",
        }
    }
}

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
    Rest,
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
    Iwf,
    Iwf2025,
    Iwf2026,
    Ipf,
    /// An own set: `F 57 61 +61; M 65 75 +75`.
    Own,
}

/// Which list of a category set is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AgeGroup {
    Usual,
    Junior,
    Youth,
}

/// In which age groups entries stand by their birth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ages {
    None,
    Iwf,
    Ipf,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoGood {
    NoTotal,
    Nothing,
    Out,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gate {
    Off,
    Owed,
    Required,
}

/// How far the openers may lie under the entry total.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Allowance {
    Load(Load),
    Percent(i64),
}

/// How a load that was found compares with the one that was asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Found {
    Lighter,
    Heavier,
    Same,
}

/// What may be granted: for a good lift, and for anything else.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grants {
    pub good: Vec<Grant>,
    pub no: Vec<Grant>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scores {
    Total,
    Lifts,
    All,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TeamTie {
    Places,
    Sum,
}

/// What places bring a team; none without points.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Teams {
    pub points: Vec<u32>,
    /// Whether the last goes on.
    pub goes_on: bool,
    pub scores: Scores,
    pub best: Option<usize>,
    pub per_group: Option<usize>,
    /// Then the place is shared.
    pub ties: Vec<TeamTie>,
}

/// Changes of an attempt: as many as are asked, or so many.
pub type Changes = Option<usize>;

/// What the model asks of a format.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rules {
    pub format: Format,
    pub pounds: bool,
    pub law: bool,
    pub bar: Bar,
    pub order: Vec<Key>,
    pub start_numbers: bool,
    pub attempts: u8,
    pub multiple: bool,
    pub judges: usize,
    pub reclassify: bool,
    pub step: Load,
    pub record_step: Option<Load>,
    pub least: bool,
    pub automatic: bool,
    pub declare: bool,
    pub changes: Changes,
    pub changes_first: Option<Changes>,
    pub changes_last: Option<Changes>,
    pub change_called: bool,
    /// In minutes.
    pub first_closes: Option<i64>,
    pub first_closes_left: Option<usize>,
    /// In seconds, as all that follow.
    pub hand_in: Option<i64>,
    pub entry_total_f: Option<Allowance>,
    pub entry_total_m: Option<Allowance>,
    pub jumps: Gate,
    pub jump_upper: Option<i64>,
    pub jump_lower: Option<i64>,
    pub clock: Option<i64>,
    pub following: Option<i64>,
    pub following_by_ruling: bool,
    pub final_call: Option<i64>,
    pub within: Option<i64>,
    pub change_runs: bool,
    pub round_end: bool,
    pub credit_step: bool,
    /// Lighter, heavier, same.
    pub grants: [Grants; 3],
    pub challenges: Option<usize>,
    pub challenge_closes: bool,
    pub ties_lift: Vec<Tie>,
    pub ties_total: Vec<Tie>,
    pub total: bool,
    pub no_good: NoGood,
    pub weighed: bool,
    pub categories: Categories,
    pub age_group: AgeGroup,
    pub ages: Ages,
    pub teams: Teams,
    pub station_check: Gate,
    pub clearance: Gate,
    /// Words of keys that change no outcome.
    pub idle: Vec<(&'static str, &'static str)>,

    /// Variants of each slot.
    pub slots: Vec<usize>,
    pub platforms: u8,
    /// Whether flight B is in a session of its own.
    pub two_sessions: bool,
    /// When each session is to begin, in milliseconds.
    pub planned: [Option<i64>; 2],
}

impl Rules {
    pub fn grants(&self, found: Found, good: bool) -> &[Grant] {
        let of = match found {
            Found::Lighter => &self.grants[0],
            Found::Heavier => &self.grants[1],
            Found::Same => &self.grants[2],
        };
        if good { &of.good } else { &of.no }
    }

    /// The platform on which a flight lifts.
    pub const fn platform_of(&self, flight: usize) -> u8 {
        if flight == 0 { 1 } else { self.platforms }
    }

    /// When a flight's session is to begin.
    pub fn planned_of(&self, flight: usize) -> Option<i64> {
        self.planned[usize::from(self.session_of(flight)) - 1]
    }

    /// Whether anybody has to rest at all.
    pub fn rests(&self) -> bool {
        !self.idle.contains(&("rest", "0"))
    }

    /// The break's usual length.
    pub fn break_minutes(&self) -> u32 {
        let word = self.idle.iter().find(|(key, _)| *key == "break");
        word.map_or(10, |(_, word)| word.parse().unwrap_or(10))
    }

    pub const fn session_of(&self, flight: usize) -> u8 {
        if flight == 1 && self.two_sessions {
            2
        } else {
            1
        }
    }

    /// The lifted body half: cleans and squats are lower, bench presses upper.
    pub const fn jump(&self, slot: usize) -> Option<i64> {
        if slot == 2 {
            self.jump_upper
        } else {
            self.jump_lower
        }
    }
}

/// A rule that is changed in mid-day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Setting {
    Law(bool),
    Bar(Bar),
    Order(Vec<Key>),
    Attempts(u8),
    Judges(usize),
    Step(Load),
    Least(bool),
    Automatic(bool),
    Changes(Changes),
    ChangeCalled(bool),
    ChangeRuns(bool),
    Clock(Option<i64>),
    FinalCall(Option<i64>),
    RoundEnd(bool),
    CreditStep(bool),
    Challenges(Option<usize>),
    Reclassify(bool),
    TiesLift(Vec<Tie>),
    Total(bool),
    NoGood(NoGood),
    Weighed(bool),
    Categories(Categories),
    Clearance(Gate),
    StationCheck(Gate),
}

impl Setting {
    pub const fn key(&self) -> &'static str {
        match self {
            Self::Law(_) => "queue",
            Self::Bar(_) => "bar",
            Self::Order(_) => "order",
            Self::Attempts(_) => "attempts",
            Self::Judges(_) => "judges",
            Self::Step(_) => "step",
            Self::Least(_) => "least-rise",
            Self::Automatic(_) => "automatic",
            Self::Changes(_) => "changes",
            Self::ChangeCalled(_) => "change-called",
            Self::ChangeRuns(_) => "change-clock",
            Self::Clock(_) => "clock",
            Self::FinalCall(_) => "final-call",
            Self::RoundEnd(_) => "again",
            Self::CreditStep(_) => "credit",
            Self::Challenges(_) => "challenges",
            Self::Reclassify(_) => "wrong-catch",
            Self::TiesLift(_) => "ties-lift",
            Self::Total(_) => "total",
            Self::NoGood(_) => "no-good",
            Self::Weighed(_) => "category",
            Self::Categories(_) => "categories",
            Self::Clearance(_) => "clearance",
            Self::StationCheck(_) => "station-check",
        }
    }

    pub fn apply(&self, r: &mut Rules) {
        match self.clone() {
            Self::Law(v) => r.law = v,
            Self::Bar(v) => r.bar = v,
            Self::Order(v) => r.order = v,
            Self::Attempts(v) => r.attempts = v,
            Self::Judges(v) => r.judges = v,
            Self::Step(v) => r.step = v,
            Self::Least(v) => r.least = v,
            Self::Automatic(v) => r.automatic = v,
            Self::Changes(v) => r.changes = v,
            Self::ChangeCalled(v) => r.change_called = v,
            Self::ChangeRuns(v) => r.change_runs = v,
            Self::Clock(v) => r.clock = v,
            Self::FinalCall(v) => r.final_call = v,
            Self::RoundEnd(v) => r.round_end = v,
            Self::CreditStep(v) => r.credit_step = v,
            Self::Challenges(v) => r.challenges = v,
            Self::Reclassify(v) => r.reclassify = v,
            Self::TiesLift(v) => r.ties_lift = v,
            Self::Total(v) => r.total = v,
            Self::NoGood(v) => r.no_good = v,
            Self::Weighed(v) => r.weighed = v,
            Self::Categories(v) => r.categories = v,
            Self::Clearance(v) => r.clearance = v,
            Self::StationCheck(v) => r.station_check = v,
        }
    }
}
