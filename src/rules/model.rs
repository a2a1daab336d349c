//! The rules of a day.

use super::choices::{
    Again, Allowance, BarRule, ChallengeCloses, ChangeClock, Changes, Credit,
    ErrorGrants, FollowingEnds, Gate, Judging, Jumps, NameShown, OrderKey, Posting,
    Queue, Reps, Seconds, TableNumber, TeamRules, TeamScores, TieKey, WrongCatch,
};
use super::clubs::Club;
use super::scores::ScoreRules;
use crate::bar::Discs;
use crate::measure::{Mass, Unit};

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
    /// Whether a test of several repetitions may be entered.
    pub reps: Reps,
    /// Judges, 1 or 3.
    pub judges: u8,
    /// Smallest increment; requests are multiples of it.
    pub step: Mass,
    /// Unit in which `step` was given.
    pub step_unit: Unit,
    /// What a request that is made for a record may be a multiple of, where
    /// that is less than the step.
    pub record_step: Option<Mass>,
    /// By how much a load has to be above a record of the school's book to
    /// break it: nothing where an equal load does, the least there is where any
    /// heavier one does.
    pub record_beats: Mass,
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
    /// Whether the load of a called athlete may still be changed or declared.
    pub change_called: bool,
    /// What such a change does to a running clock.
    pub change_clock: ChangeClock,
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
    /// What a wrong load counts when the attempt is kept.
    pub credit: Credit,
    /// What may be granted for a wrong load.
    pub errors: ErrorGrants,
    /// Challenges that an athlete may lose; `None` is as many as are asked.
    pub challenges: Option<u8>,
    /// Until when an attempt may be challenged.
    pub challenge_closes: ChallengeCloses,
    /// Declarations and changes close this long before the clock's end.
    pub final_call: Seconds,
    /// On the long clock the declaration must come in so many first seconds.
    pub declare_within: Seconds,
    /// Clock of an ordinary attempt.
    pub clock: Seconds,
    /// Clock of an athlete who follows himself or herself.
    pub clock_following: Seconds,
    /// What ends the right to the long clock.
    pub following_ends: FollowingEnds,
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
    /// The category set's name, `flight`, `none`, a body's name (its newest
    /// set that holds on the day), or an own set in words.
    pub categories: String,
    /// The own set, where `categories` is one.
    pub own_set: Option<super::CategorySet>,
    /// Which list of a category set is used, such as `youth`; `usual` is
    /// each set's first.
    pub age_group: String,
    /// The set of age groups in which entries stand by their birth year, or
    /// `none`.
    pub ages: String,
    /// What an athlete's places bring the team.
    pub teams: TeamRules,
    /// Scores that compare unlike bodies.
    pub scores: ScoreRules,
    /// Clubs that are joined by lifting enough.
    pub clubs: Vec<Club>,
    /// What a wrong catch means.
    pub wrong_catch: WrongCatch,
    /// Empty bar with collars, for girls and women.
    pub bar_f: Mass,
    /// Empty bar with collars, for boys and men.
    pub bar_m: Mass,
    /// Discs on hand where a platform has no others: their word, and read.
    pub discs: (String, Discs),
    /// Largest advised rise over the last max, upper body, in percent.
    pub jump_upper: Option<u32>,
    /// The same for the lower body.
    pub jump_lower: Option<u32>,
    /// Advised drop after a no lift, upper body, in percent.
    pub drop_upper: Option<u32>,
    /// The same for the lower body.
    pub drop_lower: Option<u32>,
    /// How advised jumps bind.
    pub jumps: Jumps,
    /// A remark after so many maximal attempts.
    pub warn_after: Option<u32>,
    /// The largest advised flight.
    pub flight_most: Option<u32>,
    /// Rest between rounds, in seconds, for flights of at most so many
    /// athletes, the smallest flight first.
    pub round_rest: Vec<(u32, u32)>,
    /// Minutes before a session's planned start at which weigh-in opens.
    pub weigh_in_opens: Option<u32>,
    /// Minutes that weigh-in lasts.
    pub weigh_in_lasts: Option<u32>,
    /// Minutes before the start at which athletes are introduced.
    pub introduction: Option<u32>,
    /// Minutes of the countdown before the first call.
    pub countdown: Option<u32>,
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
            // Of a list the part that isn't allowed is named, where it is one part.
            let alone = |part: &&str| !(key.set)(&mut self.clone(), part);
            let parts = || word.split(';').map(str::trim);
            let wrong = parts().filter(|_| parts().count() > 1).find(alone);
            Err(super::KeyError::Word {
                key: name.to_owned(),
                word: wrong.unwrap_or(word).trim().to_owned(),
                allowed: key.allowed.to_owned(),
            })
        }
    }

    /// The category set of a day on `date`, if the rules have one.
    pub fn category_set(&self, date: chrono::NaiveDate) -> Option<&super::CategorySet> {
        match self.categories.as_str() {
            "none" | "flight" => None,
            body @ ("iwf" | "ipf") => super::newest_set(body, &self.age_group, date),
            name => self.own_set.as_ref().or_else(|| super::set_named(name)),
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
            reps: Reps::Single,
            judges: 1,
            step: Mass::ZERO,
            step_unit: unit,
            record_step: None,
            record_beats: Mass::from_counts(1),
            least_rise: false,
            automatic: false,
            declare: false,
            changes: Changes::Any,
            changes_first: None,
            changes_last: None,
            change_called: true,
            change_clock: ChangeClock::Stop,
            first_closes: None,
            first_closes_left: None,
            hand_in: None,
            again: Again::Now,
            credit: Credit::Loaded,
            errors: ErrorGrants::default(),
            challenges: None,
            challenge_closes: ChallengeCloses::Off,
            final_call: None,
            declare_within: None,
            clock: None,
            clock_following: None,
            following_ends: FollowingEnds::Call,
            ties_lift: Vec::new(),
            ties_total: Vec::new(),
            total: false,
            total_needs_all: true,
            out_after_no_good: false,
            entry_total_f: None,
            entry_total_m: None,
            category: Judging::Entered,
            categories: "none".to_owned(),
            own_set: None,
            age_group: "usual".to_owned(),
            ages: "none".to_owned(),
            teams: TeamRules {
                points: Vec::new(),
                goes_on: false,
                scores: TeamScores::Total,
                best: None,
                per_group: None,
                ties: Vec::new(),
            },
            scores: ScoreRules::usual(),
            clubs: Vec::new(),
            wrong_catch: WrongCatch::Strict,
            bar_f: Mass::ZERO,
            bar_m: Mass::ZERO,
            discs: (String::new(), Discs::default()),
            jump_upper: None,
            jump_lower: None,
            drop_upper: None,
            drop_lower: None,
            jumps: Jumps::Advice,
            warn_after: None,
            flight_most: None,
            round_rest: Vec::new(),
            weigh_in_opens: None,
            weigh_in_lasts: None,
            introduction: None,
            countdown: None,
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
