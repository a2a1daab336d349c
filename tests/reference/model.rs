//! The slow plain model of a day: a list of acts; everything is found by
//! going through those that stand, from the first, every time.

use std::collections::BTreeMap;

use crate::plain::{
    Act, At, Athlete, Cleared, Fact, Line, Load, No, Roll, RuledFact, Ruling,
};
use crate::rules::Rules;

/// A ruled attempt as it now is.
#[derive(Debug, Clone)]
pub struct Ruled {
    pub variant: usize,
    pub reps: u8,
    pub load: Option<Load>,
    pub requested: Option<Load>,
    /// The ruling before it was overruled.
    pub first: Ruling,
    pub ruling: Ruling,
    /// The act that ruled it; a later act has a higher one.
    pub act: usize,
    /// Which fact of that act.
    pub part: usize,
    pub at: At,
    pub platform: u8,
    /// Whether it came from a card or the table, not from the platform.
    pub card: bool,
    /// The flight in which it was taken.
    pub flight: usize,
    /// Whether the athlete was at the bar.
    pub lifted: bool,
}

impl Ruled {
    /// What orders rulings in time.
    pub const fn when(&self) -> (usize, usize) {
        (self.act, self.part)
    }
}

/// One request.
#[derive(Debug, Clone, Copy)]
pub struct Request {
    pub load: Load,
    pub change: bool,
    pub record: bool,
}

#[derive(Debug, Clone, Default)]
pub struct Attempt {
    pub requests: Vec<Request>,
    pub ruled: Option<Ruled>,
    /// Taken before, and to be taken anew.
    pub void: bool,
    /// Another load was found on the bar.
    pub found: Option<Load>,
    /// A new ruling was given.
    pub reruled: bool,
}

#[derive(Debug, Clone)]
pub struct Person {
    /// The table number now.
    pub number: No,
    pub athlete: Athlete,
    pub presence: Option<Roll>,
    pub withdrawn: bool,
    pub withdrawn_slots: Vec<bool>,
    pub disqualified: bool,
    pub disqualified_slots: Vec<bool>,
    /// By slot, then by attempt (the first is attempt 1).
    pub runs: Vec<Vec<Attempt>>,
    pub extra: Vec<u8>,
    /// By slot, or for all; with whether it ended before the day.
    pub cleared: BTreeMap<Option<usize>, (Cleared, bool)>,
    pub caps: BTreeMap<Option<usize>, Load>,
    pub lost_challenges: usize,
}

#[derive(Debug, Clone)]
pub struct Call {
    pub no: No,
    pub slot: usize,
    pub attempt: u8,
    pub variant: usize,
    pub load: Load,
    /// Whether it isn't known well when it was called.
    pub loose: bool,
    pub following: bool,
    /// Its length in milliseconds.
    pub length: i64,
    /// What was left when it was last touched, and since when it has run.
    pub clock: Option<(i64, Option<i64>)>,
}

impl Call {
    pub fn left(&self, now: i64) -> Option<i64> {
        self.clock.map(|(left, since)| match since {
            Some(since) => left - (now - since).max(0),
            None => left,
        })
    }
}

#[derive(Debug, Clone, Default)]
pub struct Platform {
    pub running: Option<(usize, usize)>,
    pub call: Option<Call>,
    /// Who lifted last, if nobody else was called since.
    pub lifted_last: Option<No>,
    pub checked: bool,
    /// When the break ends that was called since the last start, if that is
    /// known well enough.
    pub break_end: Option<Option<i64>>,
    /// The last call, whatever came of it.
    pub last_call: Option<(usize, usize)>,
}

/// What the standing acts add up to.
#[derive(Debug, Clone)]
pub struct State {
    pub rules: Rules,
    pub people: BTreeMap<No, Person>,
    pub platforms: Vec<Platform>,
    /// By flight, slot and round: the highest load that was called.
    pub bars: BTreeMap<(usize, usize, u8), Load>,
    /// Flights and slots that began.
    pub begun: Vec<(usize, usize)>,
    pub closed: Vec<Option<u8>>,
    /// Facts that hang in the air.
    pub hanging: usize,
}

/// An act that was taken, with what it did.
#[derive(Debug, Clone)]
pub struct Done {
    pub at: At,
    pub line: Line,
    pub facts: Vec<Fact>,
    pub stands: bool,
    /// For an undo: the act undone.
    pub undid: Option<usize>,
    /// For an annulment: the act annulled.
    pub annulled: Option<usize>,
}

#[derive(Debug, Clone)]
pub struct Model {
    /// The rules at the day's beginning.
    pub rules: Rules,
    pub acts: Vec<Done>,
}

pub type Answer<T> = Result<T, &'static str>;

impl Model {
    pub const fn new(rules: Rules) -> Self {
        Self {
            rules,
            acts: Vec::new(),
        }
    }

    pub fn state(&self) -> State {
        self.state_before(self.acts.len())
    }

    /// Goes through the standing acts before the one at `end`.
    pub fn state_before(&self, end: usize) -> State {
        let mut s = State {
            rules: self.rules.clone(),
            people: BTreeMap::new(),
            platforms: vec![Platform::default(); usize::from(self.rules.platforms)],
            bars: BTreeMap::new(),
            begun: Vec::new(),
            closed: Vec::new(),
            hanging: 0,
        };
        for (index, act) in self.acts[..end].iter().enumerate() {
            if act.stands {
                for (part, fact) in act.facts.iter().enumerate() {
                    self.fold(&mut s, (index, part), act.at, fact, end);
                }
            }
        }
        s
    }

    /// Tries an act; takes it if it is allowed.
    pub fn try_act(&mut self, act: &Act, at: At) -> Answer<()> {
        match act {
            Act::Annul(target) => return self.annul(*target, at),
            Act::Undo(line) => return self.undo(*line, at),
            Act::Redo(line) => return self.redo(*line),
            _ => {}
        }
        let s = self.state();
        let (line, facts) = self.decide(&s, &s.by_name(act)?, at)?;
        if facts.is_empty() {
            return Ok(());
        }
        self.acts.push(Done {
            at,
            line,
            facts,
            stands: true,
            undid: None,
            annulled: None,
        });
        Ok(())
    }
}

impl Person {
    pub fn new(athlete: Athlete, slots: usize) -> Self {
        Self {
            number: athlete.no,
            athlete,
            presence: None,
            withdrawn: false,
            withdrawn_slots: vec![false; slots],
            disqualified: false,
            disqualified_slots: vec![false; slots],
            runs: vec![Vec::new(); slots],
            extra: vec![0; slots],
            cleared: BTreeMap::new(),
            caps: BTreeMap::new(),
            lost_challenges: 0,
        }
    }

    pub const fn is_present(&self) -> bool {
        !matches!(self.presence, Some(Roll::Absent | Roll::Away))
    }

    pub fn takes_part(&self, slot: usize) -> bool {
        !self.withdrawn
            && !self.disqualified
            && !self.withdrawn_slots[slot]
            && !self.disqualified_slots[slot]
            && self.athlete.slots[slot].is_some()
    }

    pub fn attempt(&self, slot: usize, attempt: u8) -> Option<&Attempt> {
        self.runs[slot].get(usize::from(attempt).checked_sub(1)?)
    }

    pub fn ruled(&self, slot: usize, attempt: u8) -> Option<&Ruled> {
        self.attempt(slot, attempt)?.ruled.as_ref()
    }

    /// How many attempts are ruled, counted from the first without a gap.
    pub fn ruled_so_far(&self, slot: usize) -> u8 {
        let n = self.runs[slot]
            .iter()
            .take_while(|a| a.ruled.is_some())
            .count();
        u8::try_from(n).unwrap_or(u8::MAX)
    }
}

impl State {
    /// Who is entered under a table number.
    pub fn id(&self, number: No) -> Answer<No> {
        self.people
            .iter()
            .find(|(_, p)| p.number == number)
            .map(|(id, _)| *id)
            .ok_or("no such number")
    }

    /// An act that names athletes as facts do.
    fn by_name(&self, act: &Act) -> Answer<Act> {
        let mut act = act.clone();
        match &mut act {
            Act::Edit(no, _)
            | Act::Place(no, _)
            | Act::Weigh(no, _)
            | Act::Roll(no, _)
            | Act::Withdraw(no, _)
            | Act::Disqualify(no, _)
            | Act::Clear { no, .. }
            | Act::Cap { no, .. }
            | Act::Note(Some(no))
            | Act::Request { no, .. }
            | Act::Call { no: Some(no), .. }
            | Act::Lights { no: Some(no), .. }
            | Act::Tally { no, .. }
            | Act::Pass {
                who: Some((no, _)), ..
            }
            | Act::Stop {
                who: Some((no, _)), ..
            }
            | Act::Extra(no, _)
            | Act::Loaded { no, .. }
            | Act::Rerule { no, .. }
            | Act::Correct { no, .. } => *no = self.id(*no)?,
            Act::Number(given) => {
                for (old, _) in given {
                    *old = self.id(*old)?;
                }
            }
            _ => {}
        }
        Ok(act)
    }

    pub fn attempt_mut(
        &mut self,
        no: No,
        slot: usize,
        attempt: u8,
    ) -> Option<&mut Attempt> {
        let run = &mut self.people.get_mut(&no)?.runs[slot];
        while run.len() < usize::from(attempt) {
            run.push(Attempt::default());
        }
        run.get_mut(usize::from(attempt) - 1)
    }

    pub fn ruled(&self, no: No, slot: usize, attempt: u8) -> Option<&Ruled> {
        self.people.get(&no)?.ruled(slot, attempt)
    }

    pub fn is_ruled(&self, no: No, slot: usize, attempt: u8) -> bool {
        self.ruled(no, slot, attempt).is_some()
    }

    pub fn person(&self, no: No) -> Answer<&Person> {
        self.people.get(&no).ok_or("no such number")
    }

    pub fn on(&self, platform: u8) -> &Platform {
        &self.platforms[usize::from(platform) - 1]
    }

    pub fn calls(&self) -> impl Iterator<Item = &Call> {
        self.platforms.iter().filter_map(|p| p.call.as_ref())
    }

    pub fn is_called(&self, no: No, slot: Option<usize>) -> bool {
        self.calls()
            .any(|c| c.no == no && slot.is_none_or(|s| s == c.slot))
    }

    pub fn called_for(&self, no: No, slot: usize, attempt: u8) -> Option<&Call> {
        self.calls()
            .find(|c| (c.no, c.slot, c.attempt) == (no, slot, attempt))
    }

    /// Whether a session, or the whole day, is closed.
    pub fn is_closed(&self, session: u8) -> bool {
        self.closed.contains(&None) || self.closed.contains(&Some(session))
    }
}

impl RuledFact {
    /// Whether a call is for this attempt.
    pub fn is_of(&self, call: &Call) -> bool {
        (call.no, call.slot, call.attempt) == (self.no, self.slot, self.attempt)
    }
}
