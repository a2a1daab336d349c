//! How often every act word and every refusal came.

use std::collections::BTreeMap;
use std::fmt;

use maxday::day::{Authority, Command, Day, Refusal, Roll};

use crate::met;
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
    /// `record`.
    Record,
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
pub const WORDS: [Word; 36] = [
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
    Word::Record,
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

/// Refusals that a run need not meet, with the reason.
const RARE: [(&str, &str); 1] = [("NoFreeNumber", "it takes 9999 entries")];

#[test]
fn every_refusal_has_to_come() {
    let source = include_str!("../../src/day/refusal.rs");
    let begin = source.find("pub enum Refusal {").unwrap();
    let variants: Vec<&str> = source[begin..]
        .lines()
        .skip(1)
        .take_while(|line| *line != "}")
        .filter_map(|line| line.strip_prefix("    "))
        .filter(|line| line.starts_with(|c: char| c.is_ascii_uppercase()))
        .map(|line| line.split(|c: char| !c.is_alphanumeric()).next().unwrap())
        .collect();
    assert!(variants.len() > 50, "{variants:?}");
    for name in &variants {
        let rare = RARE.iter().any(|(rare, _)| rare == name);
        assert!(COMMON.contains(name) != rare, "say whether {name} comes");
    }
    assert_eq!(variants.len(), COMMON.len() + RARE.len());
}

impl Word {
    /// The word of a command; a new command has to be drawn somewhere.
    pub const fn of(command: &Command) -> Self {
        match command {
            Command::Add(_) => Self::Add,
            Command::Edit { .. } | Command::EditMany(_) => Self::Edit,
            Command::Place(_) => Self::Place,
            Command::Roll { roll, .. } => match roll {
                Roll::Here => Self::Here,
                Roll::Absent => Self::Absent,
                Roll::Away => Self::Away,
                Roll::Back => Self::Back,
            },
            Command::Withdraw { .. } => Self::Withdraw,
            Command::Disqualify { .. } => Self::Disqualify,
            Command::Number { .. } => Self::Number,
            Command::Weigh { .. } => Self::Weigh,
            Command::Clear { .. } => Self::Clear,
            Command::Cap { .. } => Self::Cap,
            Command::Set(_) => Self::Set,
            Command::Book(_) => Self::Record,
            Command::Check { .. } => Self::Check,
            Command::Start { .. } => Self::Start,
            Command::Break { .. } => Self::Break,
            Command::Close { .. } => Self::Close,
            Command::Reopen { .. } => Self::Reopen,
            Command::Request { .. } => Self::Request,
            Command::Call { .. } => Self::Call,
            Command::Clock { .. } => Self::Clock,
            Command::Lights { .. } => Self::Lights,
            Command::Tally { .. } => Self::Tally,
            Command::Pass { .. } => Self::Pass,
            Command::Stop { .. } => Self::Stop,
            Command::Extra { .. } => Self::Extra,
            Command::Loaded { .. } => Self::Loaded,
            Command::Rerule { authority, .. } => match authority {
                Authority::Overrule => Self::Overrule,
                Authority::Challenge => Self::Challenge,
            },
            Command::Correct { .. } => Self::Correct,
            Command::Annul { .. } => Self::Annul,
            Command::Undo(_) => Self::Undo,
            Command::Redo(_) => Self::Redo,
            Command::Note { .. } => Self::Note,
        }
    }

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
    met: BTreeMap<String, u32>,
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

    /// Counts a day, by what it was and what came on it.
    pub fn day(&mut self, kind: Kind, day: &Day) {
        self.days += 1;
        let events = day.journal().iter();
        let met = events.flat_map(|r| met::of(day, &r.event));
        for what in met.chain([format!("a day: {kind:?}")]) {
            *self.met.entry(what).or_default() += 1;
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
        for (what, n) in &other.met {
            *self.met.entry(what.clone()).or_default() += n;
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
        let met = |what: &str| self.met.get(what).copied().unwrap_or(0);
        for what in met::OFTEN {
            let n = met(what);
            assert!(n * 20 >= self.days, "{what}: {n} on {} days", self.days);
        }
        for what in met::once() {
            assert!(met(&what) > 0, "never: {what}");
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
        for (what, n) in &self.met {
            writeln!(f, "{what:40} {n:>8}")?;
        }
        writeln!(f, "{:20} {:>8}", "refusal", "times")?;
        for (name, n) in &self.refusals {
            writeln!(f, "{name:20} {n:>8}")?;
        }
        Ok(())
    }
}
