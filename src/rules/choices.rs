//! What a rule can be: the choices behind the words.

use std::cmp::Ordering;

use super::words::Word;
use crate::measure::Mass;

/// Whether the queue binds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Queue {
    /// Only the first in the queue may be called.
    Law,
    /// Anybody whose turn it could be may be called.
    Advice,
}

/// When the bar may come down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BarRule {
    /// Never within a flight.
    Rising,
    /// Never within a round of a flight.
    Rounds,
    /// Whenever somebody asks.
    Free,
}

/// One key of the order of call; the smaller goes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OrderKey {
    /// Requested load; nobody's load is unknown before it is owed.
    Load,
    /// Attempt number.
    Attempt,
    /// Who took the previous attempt earlier.
    Previous,
    /// Table number.
    Number,
    /// Who rests until earlier.
    Rest,
}

/// Which number names an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TableNumber {
    /// The lot.
    Lot,
    /// A start number given inside the session.
    Start,
}

/// How many changes an attempt allows beside its declaration.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Changes {
    /// As many as are asked.
    Any,
    /// So many.
    Of(u8),
}

/// When an attempt that is granted for an official error is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Again {
    /// At once, by the order of call.
    Now,
    /// At the end of its round.
    RoundEnd,
}

/// What ends the right to the long clock of an athlete who would follow
/// himself or herself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FollowingEnds {
    /// A call of somebody else in between.
    Call,
    /// A ruling of somebody else in between.
    Ruling,
}

/// What a change of the called athlete's load does to a running clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChangeClock {
    /// It is stopped for the loaders.
    Stop,
    /// It runs on.
    Run,
}

/// What a wrong load counts when the attempt is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Credit {
    /// What was on the bar.
    Loaded,
    /// The multiple of the step below it.
    Step,
}

/// How a load that was found compares with the one that was asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FoundLoad {
    /// Less than was asked for.
    Lighter,
    /// More than was asked for.
    Heavier,
    /// As asked for: uneven, or the attempt was disturbed.
    Same,
}

/// What may be granted for a wrong load, by what was found and what was ruled.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ErrorGrants {
    /// A lighter bar, lifted.
    pub lighter_good: Vec<Grant>,
    /// A lighter bar, not lifted.
    pub lighter_no: Vec<Grant>,
    /// A heavier bar, lifted.
    pub heavier_good: Vec<Grant>,
    /// A heavier bar, not lifted.
    pub heavier_no: Vec<Grant>,
    /// An uneven bar or a disturbance, lifted.
    pub same_good: Vec<Grant>,
    /// An uneven bar or a disturbance, not lifted.
    pub same_no: Vec<Grant>,
}

impl ErrorGrants {
    /// What may be granted.
    pub fn allowed(&self, found: FoundLoad, good: bool) -> &[Grant] {
        match (found, good) {
            (FoundLoad::Lighter, true) => &self.lighter_good,
            (FoundLoad::Lighter, false) => &self.lighter_no,
            (FoundLoad::Heavier, true) => &self.heavier_good,
            (FoundLoad::Heavier, false) => &self.heavier_no,
            (FoundLoad::Same, true) => &self.same_good,
            (FoundLoad::Same, false) => &self.same_no,
        }
    }
}

impl FoundLoad {
    /// How a load that was found compares with the one asked for.
    pub fn of(found: Mass, asked: Mass) -> Self {
        match found.cmp(&asked) {
            Ordering::Less => Self::Lighter,
            Ordering::Greater => Self::Heavier,
            Ordering::Equal => Self::Same,
        }
    }

    /// In words: `a lighter bar`.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Lighter => "a lighter bar",
            Self::Heavier => "a heavier bar",
            Self::Same => "an uneven bar or a disturbance",
        }
    }
}

/// What is granted for an official error.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grant {
    /// The ruling stands.
    Keep,
    /// The athlete may take the attempt again.
    Repeat,
    /// A new attempt for one that the error spoilt.
    Again,
}

impl Grant {
    /// Its word in rules and acts.
    pub fn word(self) -> &'static str {
        Word::word(self)
    }
}

/// How advised jumps bind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Jumps {
    /// Nothing is said.
    Off,
    /// Shown.
    Advice,
    /// A cause to refuse.
    Required,
}

/// Until when an attempt may be challenged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChallengeCloses {
    /// Until the next call on the platform.
    Call,
    /// At any time.
    Off,
}

/// Whether attempts of several repetitions may be entered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reps {
    /// One repetition only.
    Single,
    /// Several too, as estimates.
    Multiple,
}

/// Which places score for a team.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TeamScores {
    /// The total's.
    Total,
    /// Each lift's.
    Lifts,
    /// Each lift's and the total's.
    All,
}

/// One key of the chain that breaks a tie between teams.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TeamTie {
    /// More first places, then more seconds, and so on.
    Places,
    /// The higher sum of the scoring athletes' totals.
    Sum,
    /// The place is shared.
    Shared,
}

/// What a team's athletes bring it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TeamRules {
    /// Points by place, from the first; empty where teams aren't scored.
    pub points: Vec<u32>,
    /// Whether all further places score as the last one named.
    pub goes_on: bool,
    /// Which places score.
    pub scores: TeamScores,
    /// How many scores count; `None` is all.
    pub best: Option<u32>,
    /// How many of a team may score in one group; `None` is all.
    pub per_group: Option<u32>,
    /// The chain of ties between teams.
    pub ties: Vec<TeamTie>,
}

impl TeamRules {
    /// The points of a place, from 1.
    pub fn points_of(&self, place: u32) -> u32 {
        let at = usize::try_from(place.saturating_sub(1)).unwrap_or(usize::MAX);
        match self.points.get(at) {
            Some(points) => *points,
            None if self.goes_on => self.points.last().copied().unwrap_or(0),
            None => 0,
        }
    }
}

/// How far the openers' sum may lie under the verified entry total.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Allowance {
    /// By so much.
    Load(Mass),
    /// Down to so many percent of it.
    Percent(u32),
}

impl Allowance {
    /// The least sum of the openers for an entry total.
    pub fn least(self, entry_total: Mass) -> Mass {
        match self {
            Self::Load(load) => entry_total - load,
            Self::Percent(percent) => entry_total.percent(i64::from(percent)),
        }
    }
}

/// A length of time in whole seconds, or none.
pub type Seconds = Option<u32>;

/// One key of a chain that breaks ties; the smaller goes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TieKey {
    /// Attempt number of the best, lower first.
    BestAttempt,
    /// Load of the attempts before the best, lower first, walking back.
    Previous,
    /// Lower best in the last slot: who completed the total first.
    LastSlotLower,
    /// Lighter bodyweight.
    Bodyweight,
    /// Who lifted the best earlier.
    Earlier,
    /// Table number; never a tie.
    Number,
    /// The place is shared.
    Shared,
}

/// What a caught-wrong variant means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WrongCatch {
    /// No lift.
    Strict,
    /// Entered as the variant that it was, if the slot allows it.
    Reclassify,
}

/// How strictly something is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gate {
    /// Not asked.
    Off,
    /// Shown until it is given.
    Owed,
    /// A cause to refuse.
    Required,
}

/// What decides a bodyweight category.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Judging {
    /// The category that was entered for.
    Entered,
    /// The bodyweight on the scale.
    Weighed,
}

/// How names are shown on what is posted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NameShown {
    /// Given and family name.
    Full,
    /// First name and initial.
    Initial,
    /// The table number only.
    Number,
}

/// What may be posted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Posting {
    /// How names are shown.
    pub name: NameShown,
    /// Whether bodyweights are shown.
    pub bodyweight: bool,
    /// Whether bodyweight categories are shown.
    pub category: bool,
}
