//! How often every act word and every refusal came.

use std::collections::BTreeMap;
use std::fmt;

use maxday::day::{Authority, Day, Event, Refusal};
use maxday::roster::Change;

use crate::scene::Kind;

/// A word of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Word {
    /// `add`.
    Add,
    /// `edit`.
    Edit,
    /// `place`.
    Place,
    /// `here`.
    Here,
    /// `absent`.
    Absent,
    /// `away`.
    Away,
    /// `back`.
    Back,
    /// `withdraw`.
    Withdraw,
    /// `disqualify`.
    Disqualify,
    /// `number`.
    Number,
    /// `weigh`.
    Weigh,
    /// `clear`.
    Clear,
    /// `cap`.
    Cap,
    /// `set`.
    Set,
    /// `check`.
    Check,
    /// `start`.
    Start,
    /// `break`.
    Break,
    /// `close`.
    Close,
    /// `reopen`.
    Reopen,
    /// `request`.
    Request,
    /// `call`.
    Call,
    /// `clock`.
    Clock,
    /// `lights`.
    Lights,
    /// `tally`.
    Tally,
    /// `pass`.
    Pass,
    /// `stop`.
    Stop,
    /// `extra`.
    Extra,
    /// `loaded`.
    Loaded,
    /// `overrule`.
    Overrule,
    /// `challenge`.
    Challenge,
    /// `correct`.
    Correct,
    /// `annul`.
    Annul,
    /// `note`.
    Note,
    /// `undo`.
    Undo,
    /// `redo`.
    Redo,
}

/// All words.
pub const WORDS: [Word; 35] = [
    Word::Add,
    Word::Edit,
    Word::Place,
    Word::Here,
    Word::Absent,
    Word::Away,
    Word::Back,
    Word::Withdraw,
    Word::Disqualify,
    Word::Number,
    Word::Weigh,
    Word::Clear,
    Word::Cap,
    Word::Set,
    Word::Check,
    Word::Start,
    Word::Break,
    Word::Close,
    Word::Reopen,
    Word::Request,
    Word::Call,
    Word::Clock,
    Word::Lights,
    Word::Tally,
    Word::Pass,
    Word::Stop,
    Word::Extra,
    Word::Loaded,
    Word::Overrule,
    Word::Challenge,
    Word::Correct,
    Word::Annul,
    Word::Note,
    Word::Undo,
    Word::Redo,
];

/// Refusals that a run must meet. Left out is only that all 9999 numbers are
/// taken.
const COMMON: [&str; 56] = [
    "NoSuchNumber",
    "NumberTaken",
    "NoName",
    "NoSuchLift",
    "NotEntered",
    "NobodyCalled",
    "NoSuchPlatform",
    "WhichPlatform",
    "WhichLift",
    "NoSuchFlight",
    "NoSuchSession",
    "NothingRuns",
    "SomebodyIsCalled",
    "NotNext",
    "QueueEmpty",
    "OtherLoad",
    "LoadOwed",
    "TooLight",
    "OffStep",
    "AboveCap",
    "LoadOutOfRange",
    "NotCleared",
    "OverrideUnsigned",
    "NotPresent",
    "NoChangeLeft",
    "TooLate",
    "OpenersTooLow",
    "NoAttemptLeft",
    "NotThatAttempt",
    "RuledAlready",
    "NotRuled",
    "WrongLights",
    "NoOutcome",
    "WrongOutcome",
    "NoSuchFault",
    "NoClock",
    "NoBreak",
    "NotChecked",
    "IsClosed",
    "NotClosed",
    "ReasonNeeded",
    "AlreadySo",
    "Setting",
    "NothingTo",
    "NoSuchAct",
    "NotCorrectable",
    "Dangling",
    "LaterAttemptRuled",
    "NoRecordStep",
    "CalledAlready",
    "JumpTooBig",
    "NotGranted",
    "NoChallenge",
    "OneRepetition",
    "NoStartNumbers",
    "BarIsHigher",
];

/// What an event is of [`KINDS`].
fn kinds_of(day: &Day, event: &Event) -> Vec<&'static str> {
    match event {
        Event::Requested { record: true, .. } => vec!["a request for a record"],
        Event::Ruled(fact) => {
            let entry = day.facts().entries.get(&fact.entry);
            let entered = entry.and_then(|e| e.variant(&fact.slot));
            let other = entered.is_some_and(|lift| *lift != fact.lift);
            [
                (fact.reps > 1).then_some("several repetitions"),
                other.then_some("another variant than the one entered"),
            ]
            .into_iter()
            .flatten()
            .collect()
        }
        Event::ChallengeLost { .. } => vec!["a lost challenge"],
        Event::Reruled {
            authority: Authority::Challenge,
            ..
        } => vec!["an upheld challenge"],
        Event::EntryAdded { changes, .. } | Event::EntryEdited { changes, .. } => {
            if changes.contains(&Change::Guest(true)) {
                vec!["a guest"]
            } else {
                vec![]
            }
        }
        Event::Cleared { until: Some(_), .. } => vec!["a clearance that ends"],
        Event::Numbered { .. } => vec!["start numbers"],
        Event::LoadFound {
            loaded, credited, ..
        } if loaded != credited => vec!["a wrong load that counts less"],
        _ => vec![],
    }
}

impl Word {
    /// The word as it is typed.
    pub fn name(self) -> String {
        format!("{self:?}").to_lowercase()
    }
}

/// What was counted.
#[derive(Debug, Clone, Default)]
pub struct Tally {
    days: u32,
    taken: BTreeMap<Word, u32>,
    refused: BTreeMap<Word, u32>,
    refusals: BTreeMap<String, u32>,
    kinds: BTreeMap<&'static str, u32>,
}

/// What a run must meet beside words and refusals, as a part of an event.
const KINDS: [&str; 12] = [
    "a day of powerlifting",
    "a day of weightlifting",
    "a max day",
    "a request for a record",
    "several repetitions",
    "another variant than the one entered",
    "a lost challenge",
    "an upheld challenge",
    "a guest",
    "a clearance that ends",
    "start numbers",
    "a wrong load that counts less",
];

impl Tally {
    /// Counts a word that was taken, or why it was refused.
    pub fn count(&mut self, word: Word, refusal: Option<&Refusal>) {
        match refusal {
            None => *self.taken.entry(word).or_default() += 1,
            Some(refusal) => {
                *self.refused.entry(word).or_default() += 1;
                let text = format!("{refusal:?}");
                let end = text
                    .find(|c: char| !c.is_alphanumeric())
                    .unwrap_or(text.len());
                *self.refusals.entry(text[..end].to_owned()).or_default() += 1;
            }
        }
    }

    /// Counts a day, by what it was and what came on it.
    pub fn day(&mut self, kind: Kind, day: &Day) {
        self.days += 1;
        let kind = match kind {
            Kind::MaxDay => "a max day",
            Kind::Weightlifting => "a day of weightlifting",
            Kind::Powerlifting => "a day of powerlifting",
        };
        let events = day.journal().iter();
        let met = events.flat_map(|r| kinds_of(day, &r.event)).chain([kind]);
        for kind in met {
            *self.kinds.entry(kind).or_default() += 1;
        }
    }

    /// Adds what was counted elsewhere.
    pub fn add(&mut self, other: &Self) {
        self.days += other.days;
        for (word, n) in &other.taken {
            *self.taken.entry(*word).or_default() += n;
        }
        for (word, n) in &other.refused {
            *self.refused.entry(*word).or_default() += n;
        }
        for (kind, n) in &other.kinds {
            *self.kinds.entry(kind).or_default() += n;
        }
        for (name, n) in &other.refusals {
            *self.refusals.entry(name.clone()).or_default() += n;
        }
    }

    fn acts(&self) -> u32 {
        self.taken.values().sum()
    }

    /// Fails if a word or a refusal is too rare to be tested by the run.
    pub fn nothing_is_rare(&self) {
        let all = self.acts();
        assert!(all >= 60 * self.days, "{all} acts on {} days", self.days);
        for word in WORDS {
            let n = self.taken.get(&word).copied().unwrap_or(0);
            assert!(n * 200 >= all, "{}: {n} of {all} acts", word.name());
        }
        for kind in KINDS {
            let n = self.kinds.get(kind).copied().unwrap_or(0);
            assert!(n * 20 >= self.days, "{kind}: {n} on {} days", self.days);
        }
        for name in COMMON {
            assert!(self.refusals.contains_key(name), "{name} never came");
        }
    }
}

impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let all = self.acts();
        writeln!(
            f,
            "{} days, {all} acts taken ({} a day)",
            self.days,
            all / self.days.max(1)
        )?;
        writeln!(f, "{:12} {:>8} {:>8} {:>7}", "act", "taken", "refused", "‰")?;
        for word in WORDS {
            let taken = self.taken.get(&word).copied().unwrap_or(0);
            let refused = self.refused.get(&word).copied().unwrap_or(0);
            let share = u64::from(taken) * 1000 / u64::from(all.max(1));
            writeln!(f, "{:12} {taken:>8} {refused:>8} {share:>7}", word.name())?;
        }
        for (kind, n) in &self.kinds {
            writeln!(f, "{kind:40} {n:>8}")?;
        }
        writeln!(f, "{:20} {:>8}", "refusal", "times")?;
        for (name, n) in &self.refusals {
            writeln!(f, "{name:20} {n:>8}")?;
        }
        Ok(())
    }
}
