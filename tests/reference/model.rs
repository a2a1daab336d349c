//! The slow plain model of a day: a list of acts; everything is found by
//! going through those that stand, from the first, every time.

use std::collections::BTreeMap;

use crate::plain::{
    Act, Athlete, Bar, Fact, Given, Grant, Key, Line, Load, Move, No, Roll, Rules, Ruling,
};

/// A ruled attempt as it now is.
#[derive(Debug, Clone)]
pub struct Ruled {
    pub load: Option<Load>,
    pub requested: Option<Load>,
    /// The ruling before it was overruled.
    pub first: Ruling,
    pub ruling: Ruling,
    /// The act that ruled it; a later act has a higher one.
    pub act: usize,
    /// Which fact of that act.
    pub part: usize,
}

impl Ruled {
    /// What orders rulings in time.
    pub const fn when(&self) -> (usize, usize) {
        (self.act, self.part)
    }
}

#[derive(Debug, Clone, Default)]
pub struct Attempt {
    pub requests: Vec<(Load, bool)>,
    pub ruled: Option<Ruled>,
    /// Taken before, and to be taken anew.
    pub void: bool,
    /// Another load was found on the bar.
    pub found: bool,
    /// A new ruling was given.
    pub reruled: bool,
}

#[derive(Debug, Clone)]
pub struct Person {
    pub athlete: Athlete,
    pub presence: Option<Roll>,
    pub withdrawn: bool,
    pub withdrawn_slots: Vec<bool>,
    /// By slot, then by attempt (the first is attempt 1).
    pub runs: Vec<Vec<Attempt>>,
    pub extra: Vec<u8>,
}

#[derive(Debug, Clone)]
pub struct Call {
    pub no: No,
    pub slot: usize,
    pub attempt: u8,
    pub load: Load,
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
}

/// What the standing acts add up to.
#[derive(Debug, Clone, Default)]
pub struct State {
    pub people: BTreeMap<No, Person>,
    pub platforms: Vec<Platform>,
    /// By flight, slot and round: the highest load that was called.
    pub bars: BTreeMap<(usize, usize, u8), Load>,
    /// Facts that hang in the air.
    pub hanging: usize,
}

/// An act that was taken, with what it did.
#[derive(Debug, Clone)]
pub struct Done {
    pub at: i64,
    pub line: Line,
    pub facts: Vec<Fact>,
    pub stands: bool,
    /// For an undo: the act undone.
    pub undid: Option<usize>,
    /// For an annulment: the act annulled.
    pub annulled: Option<usize>,
    pub name: &'static str,
}

#[derive(Debug, Clone)]
pub struct Model {
    pub rules: Rules,
    pub acts: Vec<Done>,
}

/// One place in the queue.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    pub no: No,
    pub attempt: u8,
    pub load: Option<Load>,
    pub called: bool,
}

type Answer<T> = Result<T, &'static str>;

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
            platforms: vec![Platform::default(); usize::from(self.rules.platforms)],
            ..State::default()
        };
        for (index, act) in self.acts[..end].iter().enumerate() {
            if act.stands {
                for (part, fact) in act.facts.iter().enumerate() {
                    self.fold(&mut s, index, part, act.at, fact, end);
                }
            }
        }
        s
    }

    /// The newest standing correction of a ruling, made before `end`.
    fn corrected(
        &self,
        act: usize,
        whose: (No, usize, u8),
        end: usize,
    ) -> (Option<Load>, Option<Ruling>) {
        let mut found = (None, None);
        for done in self.acts[..end].iter().filter(|d| d.stands) {
            for fact in &done.facts {
                if let Fact::Corrected {
                    target,
                    no,
                    slot,
                    attempt,
                    load,
                    ruling,
                } = fact
                    && *target == act
                    && (*no, *slot, *attempt) == whose
                {
                    found = (load.or(found.0), ruling.or(found.1));
                }
            }
        }
        found
    }

    fn fold(
        &self,
        s: &mut State,
        act: usize,
        part: usize,
        at: i64,
        fact: &Fact,
        end: usize,
    ) {
        match fact.clone() {
            Fact::Entered(athlete) => {
                let slots = self.rules.slots.len();
                let _ = s.people.insert(
                    athlete.no,
                    Person {
                        athlete,
                        presence: None,
                        withdrawn: false,
                        withdrawn_slots: vec![false; slots],
                        runs: vec![Vec::new(); slots],
                        extra: vec![0; slots],
                    },
                );
            }
            Fact::Weighed(no, bodyweight) => match s.people.get_mut(&no) {
                Some(p) => p.athlete.bodyweight = Some(bodyweight),
                None => s.hanging += 1,
            },
            Fact::Presence(no, present) => match s.people.get_mut(&no) {
                Some(p) => p.presence = Some(present),
                None => s.hanging += 1,
            },
            Fact::Withdrawn(no, slot) => match (s.people.get_mut(&no), slot) {
                (Some(p), Some(slot)) => p.withdrawn_slots[slot] = true,
                (Some(p), None) => p.withdrawn = true,
                (None, _) => s.hanging += 1,
            },
            Fact::Started(platform, flight, slot) => {
                let p = &mut s.platforms[usize::from(platform) - 1];
                *p = Platform {
                    running: Some((flight, slot)),
                    ..Platform::default()
                };
            }
            Fact::Requested {
                no,
                slot,
                attempt,
                load,
                change,
            } => {
                if !s.people.contains_key(&no) {
                    s.hanging += 1;
                    return;
                }
                if let Some(a) = s.attempt(no, slot, attempt) {
                    a.requests.push((load, change));
                }
                for p in &mut s.platforms {
                    if let Some(call) = &mut p.call
                        && (call.no, call.slot, call.attempt) == (no, slot, attempt)
                    {
                        if call.load != load
                            && let Some(left) = call.left(at)
                        {
                            // The clock is stopped for the change (from memory).
                            call.clock = Some((left, None));
                        }
                        call.load = load;
                    }
                }
            }
            Fact::Called {
                platform,
                no,
                slot,
                attempt,
                load,
                clock,
                following,
            } => {
                if !s.people.contains_key(&no) {
                    s.hanging += 1;
                    return;
                }
                if attempt > 1 && !s.is_ruled(no, slot, attempt - 1) {
                    s.hanging += 1;
                }
                if s.is_ruled(no, slot, attempt)
                    || attempt > self.allowed(&s.people[&no], slot)
                {
                    s.hanging += 1;
                }
                let flight = s.people[&no].athlete.flight;
                if attempt <= self.rules.attempts {
                    s.raise(flight, slot, attempt, load);
                }
                let p = &mut s.platforms[usize::from(platform) - 1];
                if p.lifted_last != Some(no) {
                    p.lifted_last = None;
                }
                p.call = Some(Call {
                    no,
                    slot,
                    attempt,
                    load,
                    following,
                    length: clock.unwrap_or(0) * 1000,
                    clock: clock.map(|c| (c * 1000, Some(at))),
                });
            }
            Fact::CallTakenBack { platform } => {
                s.platforms[usize::from(platform) - 1].call = None;
            }
            Fact::ClockMoved(platform, step) => {
                if let Some(call) = &mut s.platforms[usize::from(platform) - 1].call {
                    let left = call.left(at);
                    let running = call.clock.is_some_and(|(_, since)| since.is_some());
                    call.clock = left.map(|left| match step {
                        Move::Stop => (left, None),
                        Move::Resume => (left, Some(at)),
                        Move::Set(seconds) => (seconds * 1000, running.then_some(at)),
                    });
                }
            }
            Fact::ClockBack(platform, left) => {
                if let Some(call) = &mut s.platforms[usize::from(platform) - 1].call {
                    call.clock = call.clock.map(|_| (left, None));
                }
            }
            Fact::Ruled {
                platform,
                no,
                slot,
                attempt,
                load,
                ruling,
                lifted,
            } => {
                let (new_load, new_ruling) =
                    self.corrected(act, (no, slot, attempt), end);
                if !s.people.contains_key(&no) || s.is_ruled(no, slot, attempt) {
                    s.hanging += 1;
                    return;
                }
                if attempt > 1 && !s.is_ruled(no, slot, attempt - 1) {
                    s.hanging += 1;
                }
                if attempt > self.allowed(&s.people[&no], slot) {
                    s.hanging += 1;
                }
                let called = s.platforms.iter().any(|p| {
                    p.call
                        .as_ref()
                        .is_some_and(|c| (c.no, c.slot, c.attempt) == (no, slot, attempt))
                });
                if called
                    && lifted
                    && attempt <= self.rules.attempts
                    && let Some(load) = new_load.or(load)
                {
                    let flight = s.people[&no].athlete.flight;
                    s.raise(flight, slot, attempt, load);
                }
                if let Some(a) = s.attempt(no, slot, attempt) {
                    a.ruled = Some(Ruled {
                        load: new_load.or(load),
                        requested: new_load.or(load),
                        ruling: new_ruling.unwrap_or(ruling),
                        first: new_ruling.unwrap_or(ruling),
                        act,
                        part,
                    });
                }
                for p in &mut s.platforms {
                    if p.call
                        .as_ref()
                        .is_some_and(|c| (c.no, c.slot, c.attempt) == (no, slot, attempt))
                    {
                        p.call = None;
                    }
                }
                if lifted {
                    s.platforms[usize::from(platform) - 1].lifted_last = Some(no);
                }
            }
            Fact::Extra(no, slot) => match s.people.get_mut(&no) {
                Some(p) => p.extra[slot] += 1,
                None => s.hanging += 1,
            },
            Fact::Void(no, slot, attempt) => {
                if s.is_ruled(no, slot, attempt) {
                    if let Some(a) = s.attempt(no, slot, attempt) {
                        a.ruled = None;
                        a.void = true;
                        a.found = false;
                        a.reruled = false;
                    }
                } else {
                    s.hanging += 1;
                }
            }
            Fact::Credited(no, slot, attempt, load) => {
                match s.ruled_mut(no, slot, attempt) {
                    Some(r) => r.load = Some(load),
                    None => s.hanging += 1,
                }
                if let Some(a) = s.attempt(no, slot, attempt) {
                    a.found = true;
                }
            }
            Fact::Reruled(no, slot, attempt, ruling) => {
                match s.ruled_mut(no, slot, attempt) {
                    Some(r) => r.ruling = ruling,
                    None => s.hanging += 1,
                }
                if let Some(a) = s.attempt(no, slot, attempt) {
                    a.reruled = true;
                }
            }
            Fact::Corrected { .. } => {}
        }
    }

    /// How many attempts somebody has in a slot.
    pub fn allowed(&self, p: &Person, slot: usize) -> u8 {
        self.rules.attempts + p.extra[slot]
    }

    /// The attempt that comes next.
    pub fn next(&self, p: &Person, slot: usize) -> Option<u8> {
        let n = p.ruled_so_far(slot) + 1;
        (n <= self.allowed(p, slot)).then_some(n)
    }

    /// The request that stands for an attempt.
    pub fn request(&self, p: &Person, slot: usize, attempt: u8) -> Option<Load> {
        if let Some(a) = p.runs[slot].get(usize::from(attempt) - 1)
            && let Some((load, _)) = a.requests.last()
        {
            return Some(*load);
        }
        if attempt == 1 {
            return p.athlete.slots[slot].and_then(|(_, opener)| opener);
        }
        if !self.rules.automatic {
            return None;
        }
        // A step more after a good lift, the same after a no lift: TCRR 6.5 (the
        // second from memory).
        let before = p.runs[slot].get(usize::from(attempt) - 2)?.ruled.as_ref()?;
        let load = match before.ruling {
            Ruling::Good => before.load? + self.rules.step,
            _ => before
                .requested
                .or_else(|| self.request(p, slot, attempt - 1))?,
        };
        // Requests are whole steps, so an odd load goes up to the next.
        let load = load.max(self.least_rise(p, slot, attempt));
        let step = self.rules.step;
        Some(match before.ruling {
            Ruling::Good => (load + step - 1) / step * step,
            _ => load,
        })
    }

    /// The least load that the athlete's own attempts allow.
    pub fn least_rise(&self, p: &Person, slot: usize, attempt: u8) -> Load {
        if !self.rules.least {
            return 0;
        }
        let mut least = 0;
        for n in 1..attempt {
            if let Some(r) = p.runs[slot]
                .get(usize::from(n) - 1)
                .and_then(|a| a.ruled.as_ref())
                && let Some(load) = r.load
            {
                let asked = r.requested.unwrap_or(load);
                least = least.max(match r.ruling {
                    Ruling::Good => load + self.rules.step,
                    Ruling::No | Ruling::Time | Ruling::Stopped => asked,
                    Ruling::Pass => 0,
                });
            }
        }
        least
    }

    /// Where the bar is for an attempt in a flight and slot.
    pub fn bar(&self, s: &State, flight: usize, slot: usize, attempt: u8) -> Load {
        match self.rules.bar {
            Bar::Free => 0,
            Bar::Rounds => s.bars.get(&(flight, slot, attempt)).copied().unwrap_or(0),
            Bar::Rising => s
                .bars
                .iter()
                .filter(|((f, sl, _), _)| (*f, *sl) == (flight, slot))
                .map(|(_, load)| *load)
                .max()
                .unwrap_or(0),
        }
    }

    /// The order from now on; a call changes nothing in it.
    pub fn queue(&self, s: &State, platform: u8) -> Vec<Place> {
        let p = &s.platforms[usize::from(platform) - 1];
        let Some((flight, slot)) = p.running else {
            return Vec::new();
        };
        let mut all: Vec<Place> = Vec::new();
        for person in s.people.values() {
            let called = p
                .call
                .as_ref()
                .filter(|c| c.no == person.athlete.no && c.slot == slot);
            if person.athlete.flight != flight
                || !person.is_present()
                || !person.takes_part(slot)
            {
                continue;
            }
            if let Some(attempt) = self.next(person, slot) {
                all.push(Place {
                    no: person.athlete.no,
                    attempt,
                    // What was announced stays, whatever came of what was before.
                    load: called
                        .filter(|c| c.attempt == attempt)
                        .map(|c| c.load)
                        .or_else(|| self.request(person, slot, attempt)),
                    called: called.is_some(),
                });
            }
        }
        all.sort_by(|a, b| {
            let mut order = std::cmp::Ordering::Equal;
            for key in &self.rules.order {
                order = order.then_with(|| match key {
                    // A load that is still owed comes after all that are known.
                    Key::Load => {
                        (a.load.is_none(), a.load).cmp(&(b.load.is_none(), b.load))
                    }
                    Key::Attempt => a.attempt.cmp(&b.attempt),
                    Key::Previous => s
                        .previous(a.no, slot, a.attempt)
                        .cmp(&s.previous(b.no, slot, b.attempt)),
                    Key::Number => a.no.cmp(&b.no),
                });
            }
            order.then(a.no.cmp(&b.no))
        });
        all
    }

    /// Tries an act at a time in milliseconds; takes it if it is allowed.
    pub fn try_act(&mut self, act: &Act, at: i64) -> Answer<()> {
        let s = self.state();
        match act {
            Act::Annul(target) => return self.annul(*target, at),
            Act::Undo(line) => return self.undo(*line, at),
            Act::Redo(line) => return self.redo(*line, at),
            _ => {}
        }
        let (line, facts) = self.decide(&s, act, at)?;
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
            name: act.name(),
        });
        Ok(())
    }

    fn annul(&mut self, target: usize, at: i64) -> Answer<()> {
        let hanging = self.state().hanging;
        let Some(act) = self
            .acts
            .get(target)
            .filter(|a| a.stands && a.undid.is_none())
        else {
            return Err("no such act stands");
        };
        let line = act.line;
        self.stand(target, false);
        if self.state().hanging > hanging {
            self.stand(target, true);
            return Err("later acts hang on it");
        }
        self.acts.push(Done {
            at,
            line,
            facts: Vec::new(),
            stands: true,
            undid: None,
            annulled: Some(target),
            name: "annul",
        });
        Ok(())
    }

    /// Lets an act stand or not; an annulment takes its act the other way.
    fn stand(&mut self, index: usize, stands: bool) {
        self.acts[index].stands = stands;
        if let Some(other) = self.acts[index].annulled {
            self.stand(other, !stands);
        }
    }

    fn undo(&mut self, line: Line, at: i64) -> Answer<()> {
        let before = self.state();
        let Some(target) = self
            .acts
            .iter()
            .rposition(|a| a.stands && a.undid.is_none() && a.line == line)
        else {
            return Err("nothing to undo");
        };
        self.stand(target, false);
        let mut facts = Vec::new();
        let after = self.state();
        if after.hanging > before.hanging {
            self.stand(target, true);
            return Err("later acts hang on it");
        }
        let then = self.state_before(target);
        for number in 1..=self.rules.platforms {
            let p = usize::from(number) - 1;
            let who = |s: &State| {
                s.platforms[p]
                    .call
                    .as_ref()
                    .map(|c| (c.no, c.slot, c.attempt))
            };
            let ruled = |f: &Fact| matches!(f, Fact::Ruled { .. });
            if let Some(call) = &then.platforms[p].call
                && self.acts[target].facts.iter().any(ruled)
                && who(&after).is_some()
                && who(&after) != who(&before)
                && let Some(left) = call.left(self.acts[target].at)
            {
                facts.push(Fact::ClockBack(number, left));
            }
        }
        self.acts.push(Done {
            at,
            line,
            facts,
            stands: true,
            undid: Some(target),
            annulled: None,
            name: "undo",
        });
        Ok(())
    }

    fn redo(&mut self, line: Line, _at: i64) -> Answer<()> {
        let hanging = self.state().hanging;
        let newest = self
            .acts
            .iter()
            .rposition(|a| a.undid.is_none() && a.line == line);
        let undo = self
            .acts
            .iter()
            .rposition(|a| a.stands && a.undid.is_some() && a.line == line);
        match undo {
            Some(undo) if newest.is_none_or(|n| n < undo) => {
                self.acts[undo].stands = false;
                if let Some(target) = self.acts[undo].undid {
                    self.stand(target, true);
                    if self.state().hanging > hanging {
                        self.stand(target, false);
                        self.acts[undo].stands = true;
                        return Err("later acts hang on it");
                    }
                }
                Ok(())
            }
            _ => Err("nothing to redo"),
        }
    }
}

impl Person {
    pub const fn is_present(&self) -> bool {
        !matches!(self.presence, Some(Roll::Absent | Roll::Away))
    }

    pub fn takes_part(&self, slot: usize) -> bool {
        !self.withdrawn
            && !self.withdrawn_slots[slot]
            && self.athlete.slots[slot].is_some()
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
    fn attempt(&mut self, no: No, slot: usize, attempt: u8) -> Option<&mut Attempt> {
        let run = &mut self.people.get_mut(&no)?.runs[slot];
        while run.len() < usize::from(attempt) {
            run.push(Attempt::default());
        }
        run.get_mut(usize::from(attempt) - 1)
    }

    fn ruled_mut(&mut self, no: No, slot: usize, attempt: u8) -> Option<&mut Ruled> {
        self.people.get_mut(&no)?.runs[slot]
            .get_mut(usize::from(attempt) - 1)?
            .ruled
            .as_mut()
    }

    pub fn ruled(&self, no: No, slot: usize, attempt: u8) -> Option<&Ruled> {
        self.people.get(&no)?.runs[slot]
            .get(usize::from(attempt).checked_sub(1)?)?
            .ruled
            .as_ref()
    }

    pub fn is_ruled(&self, no: No, slot: usize, attempt: u8) -> bool {
        self.ruled(no, slot, attempt).is_some()
    }

    fn raise(&mut self, flight: usize, slot: usize, attempt: u8, load: Load) {
        let bar = self.bars.entry((flight, slot, attempt)).or_insert(load);
        *bar = (*bar).max(load);
    }

    /// When the attempt before was taken; nothing before a first attempt.
    fn previous(&self, no: No, slot: usize, attempt: u8) -> Option<(usize, usize)> {
        self.ruled(no, slot, attempt - 1).map(Ruled::when)
    }
}

impl Act {
    /// The act's word.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Add(_) => "add",
            Self::Weigh(..) => "weigh",
            Self::Roll(_, Roll::Here) => "here",
            Self::Roll(_, Roll::Absent) => "absent",
            Self::Roll(_, Roll::Away) => "away",
            Self::Roll(_, Roll::Back) => "back",
            Self::Withdraw(..) => "withdraw",
            Self::Start(..) => "start",
            Self::Request { .. } => "request",
            Self::Call { .. } => "call",
            Self::Clock(..) => "clock",
            Self::Lights {
                given: Given::Word(_),
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
