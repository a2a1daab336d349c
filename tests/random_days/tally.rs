//! How often every act word and every refusal came.

use std::collections::BTreeMap;
use std::fmt;

use maxday::day::Refusal;

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
pub const WORDS: [Word; 33] = [
    Word::Add,
    Word::Edit,
    Word::Place,
    Word::Here,
    Word::Absent,
    Word::Away,
    Word::Back,
    Word::Withdraw,
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
const COMMON: [&str; 48] = [
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
    "BarIsHigher",
];

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
}

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

    /// Counts a day.
    pub const fn day(&mut self) {
        self.days += 1;
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
        writeln!(f, "{:20} {:>8}", "refusal", "times")?;
        for (name, n) in &self.refusals {
            writeln!(f, "{name:20} {n:>8}")?;
        }
        Ok(())
    }
}
