//! The rules of a day.

use crate::measure::{Mass, Unit};

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

/// What the engine asks of a format.
///
/// Every field is one key of a rules file; [`super::keys`] lists them with
/// their words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rules {
    /// Whether the queue binds.
    pub queue: Queue,
    /// When the bar may come down.
    pub bar: BarRule,
    /// Order of call.
    pub order: Vec<OrderKey>,
    /// Which number names an entry.
    pub table_number: TableNumber,
    /// Attempts a slot, 1 to 9.
    pub attempts: u8,
    /// Judges, 1 or 3.
    pub judges: u8,
    /// Smallest increment; requests are multiples of it.
    pub step: Mass,
    /// Unit in which `step` was given.
    pub step_unit: Unit,
    /// Whether a next attempt must rise by a step after a good lift and may
    /// not sink after a no lift.
    pub least_rise: bool,
    /// Whether the next request is filled in: a step more after a good lift,
    /// the same after a no lift.
    pub automatic: bool,
    /// Whether the next attempt must be declared.
    pub declare: bool,
    /// Changes beside the declaration.
    pub changes: Changes,
    /// Changes of a first attempt, where they differ.
    pub changes_first: Option<Changes>,
    /// Changes of the last attempt in the last slot, where they differ.
    pub changes_last: Option<Changes>,
    /// Changes of a first attempt close so many minutes before its flight's
    /// planned start.
    pub first_closes: Option<u32>,
    /// Changes of a later flight's first attempt close when so many attempts
    /// are left in the flight before.
    pub first_closes_left: Option<u32>,
    /// A next attempt must be handed in so many seconds after the last one.
    pub hand_in: Seconds,
    /// When an attempt that is granted for an official error is taken.
    pub again: Again,
    /// Declarations and changes close this long before the clock's end.
    pub final_call: Seconds,
    /// On the long clock the declaration must come in so many first seconds.
    pub declare_within: Seconds,
    /// Clock of an ordinary attempt.
    pub clock: Seconds,
    /// Clock of an athlete who follows himself or herself.
    pub clock_following: Seconds,
    /// Tie chain of a slot.
    pub ties_lift: Vec<TieKey>,
    /// Tie chain of the total.
    pub ties_total: Vec<TieKey>,
    /// Whether bests are added to a total.
    pub total: bool,
    /// Whether the total needs a good attempt in every slot.
    pub total_needs_all: bool,
    /// Whether a slot without a good attempt ends the athlete's day.
    pub out_after_no_good: bool,
    /// How far the openers' sum may lie under the entry total, for girls and
    /// women.
    pub entry_total_f: Option<Allowance>,
    /// The same for boys and men.
    pub entry_total_m: Option<Allowance>,
    /// What decides a category.
    pub category: Judging,
    /// The category set's name, `flight`, `none`, or `auto` (the newest set
    /// of the sport that holds on the day).
    pub categories: String,
    /// What a wrong catch means.
    pub wrong_catch: WrongCatch,
    /// Empty bar with collars, for girls and women.
    pub bar_f: Mass,
    /// Empty bar with collars, for boys and men.
    pub bar_m: Mass,
    /// Largest advised rise over the last max, upper body, in percent.
    pub jump_upper: Option<u32>,
    /// The same for the lower body.
    pub jump_lower: Option<u32>,
    /// Seconds that an attempt takes, for forecasts.
    pub pace: u32,
    /// Seconds of rest advised between two attempts.
    pub rest: u32,
    /// Minutes of the break between two slots.
    pub break_minutes: u32,
    /// What may be posted.
    pub posting: Posting,
    /// How strictly a station check is asked for.
    pub station_check: Gate,
    /// How strictly a clearance is asked for.
    pub clearance: Gate,
}

impl Rules {
    /// Reads rules from the words of every key; `unit` is the bar's.
    ///
    /// # Errors
    /// [`super::KeyError`] for the first key that is missing or has a word
    /// that isn't allowed.
    pub fn from_words(
        words: &std::collections::BTreeMap<String, String>,
        unit: Unit,
    ) -> Result<Self, super::KeyError> {
        let mut rules = Self::blank(unit);
        for key in super::keys() {
            let word = words
                .get(key.name)
                .ok_or_else(|| super::KeyError::Missing(key.name.to_owned()))?;
            rules.set(key.name, word)?;
        }
        Ok(rules)
    }

    /// The words of every key, in the order of [`super::keys`].
    pub fn words(&self) -> std::collections::BTreeMap<String, String> {
        super::keys()
            .iter()
            .map(|key| (key.name.to_owned(), (key.get)(self)))
            .collect()
    }

    /// Sets one key from its word.
    ///
    /// # Errors
    /// [`super::KeyError`], saying what would be allowed.
    pub fn set(&mut self, name: &str, word: &str) -> Result<(), super::KeyError> {
        let key = super::keys()
            .iter()
            .find(|k| k.name == name)
            .ok_or_else(|| super::KeyError::Unknown(name.to_owned()))?;
        if (key.set)(self, word.trim()) {
            Ok(())
        } else {
            Err(super::KeyError::Word {
                key: name.to_owned(),
                word: word.trim().to_owned(),
                allowed: key.allowed.to_owned(),
            })
        }
    }

    /// Placeholder values that [`Rules::from_words`] overwrites, key by key.
    pub(crate) fn blank(unit: Unit) -> Self {
        Self {
            queue: Queue::Advice,
            bar: BarRule::Free,
            order: Vec::new(),
            table_number: TableNumber::Lot,
            attempts: 1,
            judges: 1,
            step: Mass::ZERO,
            step_unit: unit,
            least_rise: false,
            automatic: false,
            declare: false,
            changes: Changes::Any,
            changes_first: None,
            changes_last: None,
            first_closes: None,
            first_closes_left: None,
            hand_in: None,
            again: Again::Now,
            final_call: None,
            declare_within: None,
            clock: None,
            clock_following: None,
            ties_lift: Vec::new(),
            ties_total: Vec::new(),
            total: false,
            total_needs_all: true,
            out_after_no_good: false,
            entry_total_f: None,
            entry_total_m: None,
            category: Judging::Entered,
            categories: "none".to_owned(),
            wrong_catch: WrongCatch::Strict,
            bar_f: Mass::ZERO,
            bar_m: Mass::ZERO,
            jump_upper: None,
            jump_lower: None,
            pace: 60,
            rest: 0,
            break_minutes: 0,
            posting: Posting {
                name: NameShown::Initial,
                bodyweight: false,
                category: false,
            },
            station_check: Gate::Owed,
            clearance: Gate::Owed,
        }
    }
}
