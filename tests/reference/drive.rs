//! Chooses what is done next, mostly what is allowed.

use crate::compare::Pair;
use crate::model::{Person, State};
use crate::plain::{
    Act, Asked, Fact, Given, Grant, Line, Load, Move, No, Outcome, Ruling,
};
use crate::rng::Rng;
use crate::rules::{Gate, Rules};

pub struct Chooser<'a> {
    pub rules: &'a Rules,
    /// The openers' least load.
    pub start: Load,
}

/// How often each kind of act is chosen.
const KINDS: &[(usize, Kind)] = &[
    (250, Kind::Request),
    (220, Kind::Call),
    (140, Kind::Lights),
    (80, Kind::Tally),
    (25, Kind::Pass),
    (12, Kind::Stop),
    (14, Kind::Extra),
    (45, Kind::Loaded),
    (30, Kind::Rerule),
    (36, Kind::Correct),
    (20, Kind::Annul),
    (50, Kind::Undo),
    (20, Kind::Redo),
    (12, Kind::OtherUndo),
    (8, Kind::Weigh),
    (20, Kind::Roll),
    (5, Kind::Withdraw),
    (5, Kind::Disqualify),
    (25, Kind::Clock),
    (5, Kind::Number),
    (10, Kind::Clear),
    (10, Kind::Cap),
    (12, Kind::Edit),
    (6, Kind::Place),
    (12, Kind::Set),
    (3, Kind::Check),
    (3, Kind::Break),
    (4, Kind::Close),
    (4, Kind::Note),
    (3, Kind::Add),
];

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Request,
    Call,
    Lights,
    Tally,
    Pass,
    Stop,
    Extra,
    Loaded,
    Rerule,
    Correct,
    Annul,
    Undo,
    Redo,
    OtherUndo,
    Weigh,
    Roll,
    Withdraw,
    Disqualify,
    Clock,
    Number,
    Clear,
    Cap,
    Edit,
    Place,
    Set,
    Check,
    Break,
    Close,
    Note,
    Add,
}

fn kind(r: &mut Rng) -> Kind {
    let mut n = r.below(KINDS.iter().map(|k| k.0).sum());
    for (weight, kind) in KINDS {
        if n < *weight {
            return *kind;
        }
        n -= weight;
    }
    Kind::Note
}

impl<'a> Chooser<'a> {
    pub const fn new(rules: &'a Rules, start: Load) -> Self {
        Self { rules, start }
    }

    pub fn steps(&self, r: &mut Rng, n: usize) -> Load {
        i64::try_from(r.below(n)).unwrap() * self.rules.step
    }

    fn person<'s>(r: &mut Rng, s: &'s State) -> &'s Person {
        let all: Vec<&Person> = s.people.values().collect();
        all[r.below(all.len())]
    }

    /// Somebody of the flight that lifts on a platform.
    fn lifting<'s>(r: &mut Rng, s: &'s State, platform: u8) -> (&'s Person, usize) {
        if let Some((flight, slot)) = s.on(platform).running
            && r.percent(92)
        {
            let all: Vec<&Person> = s
                .people
                .values()
                .filter(|p| p.athlete.flight == flight)
                .collect();
            if !all.is_empty() {
                return (all[r.below(all.len())], slot);
            }
        }
        let p = Self::person(r, s);
        (p, r.below(p.runs.len()))
    }

    /// An attempt that is ruled, if there is one.
    fn ruled(r: &mut Rng, s: &State, of: &[Ruling]) -> Option<(No, usize, u8, Load)> {
        let mut all = Vec::new();
        for p in s.people.values() {
            for (slot, run) in p.runs.iter().enumerate() {
                for (n, a) in (1_u8..).zip(run) {
                    if let Some(ruled) = &a.ruled
                        && of.contains(&ruled.ruling)
                        && let Some(load) = ruled.load
                    {
                        all.push((ruled.when(), (p.number, slot, n, load)));
                    }
                }
            }
        }
        all.sort_unstable();
        if all.is_empty() {
            return None;
        }
        // As often as not one of the newest.
        let from = if r.percent(50) {
            all.len().saturating_sub(2)
        } else {
            0
        };
        Some(all[from + r.below(all.len() - from)].1)
    }

    fn outcome(&self, r: &mut Rng, s: &State, slot: usize) -> Outcome {
        let judges = if r.percent(2) { 2 } else { s.rules.judges };
        let good = r.percent(65);
        Outcome {
            given: Given::Lights(
                (0..judges)
                    .map(|_| if r.percent(80) { good } else { !good })
                    .collect(),
            ),
            ..self.manner(r, slot)
        }
    }

    /// How many repetitions, and as which variant.
    fn manner(&self, r: &mut Rng, slot: usize) -> Outcome {
        let several = if self.rules.multiple { 25 } else { 1 };
        let named = if self.rules.slots[slot] > 1 { 20 } else { 2 };
        Outcome {
            given: Given::Word(Ruling::Good),
            reps: r
                .percent(several)
                .then(|| r.pick(&[2, 3, 5, 8, 10, 10, 12])),
            variant: r.percent(named).then(|| r.below(self.rules.slots[slot])),
        }
    }

    fn load(&self, r: &mut Rng, s: &State, p: &Person, slot: usize) -> Load {
        let next = s.next(p, slot).unwrap_or(1);
        let step = s.rules.step;
        let least = s
            .own_least(p, slot, next, step)
            .max(s.bar(p.athlete.flight, slot, next))
            .max(self.start);
        let most = s.jump(p, slot, next).unwrap_or(Load::MAX);
        // More often than not what somebody else asks for.
        if r.percent(70) {
            let others: Vec<Load> = s
                .people
                .values()
                .filter(|o| o.athlete.no != p.athlete.no && o.takes_part(slot))
                .filter(|o| o.athlete.flight == p.athlete.flight)
                .filter_map(|o| s.request(o, slot, s.next(o, slot)?))
                .filter(|l| (*l >= least && *l <= most) || r.clone().percent(10))
                .collect();
            if !others.is_empty() {
                return r.pick(&others);
            }
        }
        match r.below(20) {
            0 => least + step / 2,
            1 | 2 => (least - step).max(step),
            _ => (least + step - 1) / step * step + self.steps(r, 3),
        }
    }

    fn request(&self, r: &mut Rng, s: &State, platform: u8) -> Act {
        let (p, slot) = match &s.on(platform).call {
            Some(c) if r.percent(35) => (&s.people[&c.no], c.slot),
            _ => Self::lifting(r, s, platform),
        };
        let next = s.next(p, slot).unwrap_or(1);
        let standing = s.request(p, slot, next);
        let record = r.percent(if self.rules.record_step.is_some() {
            20
        } else {
            1
        });
        let mut load = Asked::Exactly(self.load(r, s, p, slot));
        if record && r.percent(70) {
            let finer = self.rules.record_step.unwrap_or(1);
            let base = s.own_least(p, slot, next, finer).max(self.start);
            load = Asked::Exactly(base + finer * i64::try_from(r.below(4)).unwrap());
        } else if r.percent(12) {
            load = Asked::Rise(r.pick(&[1, 1, 2, 0, -1, 3]) * self.rules.step);
        } else if let Some(standing) = standing
            && s.is_record(p, slot, next)
            && r.percent(50)
        {
            load = Asked::Exactly(standing / s.rules.step * s.rules.step);
        }
        Act::Request {
            no: p.number,
            slot,
            attempt: r
                .percent(15)
                .then(|| u8::try_from(r.below(4)).unwrap().max(1)),
            load,
            record,
        }
    }

    fn call(&self, r: &mut Rng, s: &State, platform: u8, no: No) -> Act {
        let queue = s.queue(platform);
        if let Some(call) = &s.on(platform).call
            && r.percent(92)
        {
            let mut outcome = self.outcome(r, s, call.slot);
            if r.percent(6) {
                outcome.given = Given::Word(Ruling::Time);
            }
            return Act::Lights {
                platform,
                no: None,
                load: None,
                outcome,
            };
        }
        Act::Call {
            platform,
            no: if r.percent(70) {
                None
            } else if r.percent(50) {
                queue.first().map(|q| q.number)
            } else {
                Some(no)
            },
            load: if r.percent(10) {
                queue.first().and_then(|q| q.load)
            } else {
                None
            },
        }
    }

    /// What begins next on a platform, if nothing runs or all is done.
    fn begin(&self, r: &mut Rng, pair: &Pair, s: &State, platform: u8) -> Act {
        if s.rules.station_check == Gate::Required
            && !s.on(platform).checked
            && r.percent(70)
        {
            return Act::Check(platform);
        }
        let flight = if self.rules.platforms == 2 {
            usize::from(platform == 2)
        } else {
            usize::from(r.percent(30))
        };
        // A lift that was begun is seldom begun again.
        if r.percent(4) {
            return Act::Start(platform, flight, r.below(self.rules.slots.len()));
        }
        let slot = (0..self.rules.slots.len()).find(|slot| {
            let begun = Fact::Started(platform, flight, *slot);
            !pair.model.acts.iter().any(|a| a.facts.contains(&begun))
        });
        match slot {
            Some(slot) => Act::Start(platform, flight, slot),
            None => Act::Undo(Line::Scale),
        }
    }

    /// Chooses an act; four stay entered.
    pub fn act(&self, r: &mut Rng, pair: &Pair) -> Act {
        let s = pair.model.state();
        let act = self.any_act(r, pair, &s);
        let facts = |i: usize| pair.model.acts[i].facts.iter();
        let gone = match act {
            Act::Undo(line) => pair
                .model
                .acts
                .iter()
                .rposition(|a| a.stands && a.undid.is_none() && a.line == line),
            Act::Annul(step) => pair.steps.get(step).copied().flatten(),
            _ => None,
        };
        let Some(gone) = gone else {
            return act;
        };
        let entered = facts(gone).any(|f| matches!(f, Fact::Entered(_)));
        // Left out: an act that was annulled and came back is undone.
        let again = pair.model.acts.iter().any(|a| a.annulled == Some(gone));
        if (s.people.len() <= 4 && entered) || again {
            return Act::Redo(Line::Roster);
        }
        act
    }

    fn any_act(&self, r: &mut Rng, pair: &Pair, s: &State) -> Act {
        let platform = if r.percent(70) {
            1
        } else {
            self.rules.platforms
        };
        if self.rules.start_numbers && pair.steps.len() < 12 && r.percent(30) {
            return self.number(r, s);
        }
        if s.on(platform).running.is_none()
            || (s.queue(platform).is_empty() && r.percent(60))
            || r.percent(1)
        {
            // Openers are changed before a flight begins, too.
            if r.percent(30) {
                return self.request(r, s, platform);
            }
            return self.begin(r, pair, s, platform);
        }
        if !s.closed.is_empty() && r.percent(40) {
            return Act::Reopen(r.pick(&s.closed));
        }
        let (p, slot) = Self::lifting(r, s, platform);
        let (p, no) = (p.clone(), p.number);
        let called = s.on(platform).call.clone();
        let who = |r: &mut Rng, percent: usize| {
            if called.is_some() && r.percent(percent) {
                None
            } else {
                Some((no, slot))
            }
        };
        match kind(r) {
            Kind::Request => self.request(r, s, platform),
            Kind::Call => self.call(r, s, platform, no),
            Kind::Lights => {
                let queue = s.queue(platform);
                let (no, load) = match queue.first() {
                    Some(q) if r.percent(80) => (Some(q.number), q.load),
                    _ => (Some(no), None),
                };
                let load = if r.percent(60) {
                    load
                } else if r.percent(90) {
                    None
                } else {
                    Some(self.start)
                };
                let running = s.on(platform).running.map_or(0, |run| run.1);
                Act::Lights {
                    platform,
                    no,
                    load,
                    outcome: self.outcome(r, s, running),
                }
            }
            Kind::Tally => self.tally(r, s, &p, slot),
            Kind::Pass => Act::Pass {
                platform,
                who: who(r, 40),
                rest: r.percent(20),
            },
            Kind::Stop => Act::Stop {
                platform,
                who: who(r, 60),
                pain: r.percent(40),
            },
            Kind::Extra => Act::Extra(no, slot),
            Kind::Annul => {
                let n = pair.steps.len();
                let far = if r.percent(70) { 12 } else { n };
                Act::Annul(n.saturating_sub(r.below(far) + 1))
            }
            Kind::Undo => Act::Undo(Line::Platform(platform)),
            Kind::Redo => Act::Redo(Line::Platform(platform)),
            Kind::OtherUndo => {
                let line = r.pick(&[Line::Scale, Line::Roster, Line::Flights, Line::Day]);
                if r.percent(60) {
                    Act::Undo(line)
                } else {
                    Act::Redo(line)
                }
            }
            Kind::Loaded | Kind::Rerule | Kind::Correct => self.anew(r, s),
            Kind::Clock => Act::Clock(
                platform,
                match r.below(3) {
                    0 => Move::Stop,
                    1 => Move::Resume,
                    _ => Move::Set(i64::try_from(r.below(90) + 1).unwrap()),
                },
            ),
            kind => self.frame(r, pair, s, (kind, platform, &p, slot)),
        }
    }

    fn tally(&self, r: &mut Rng, s: &State, p: &Person, slot: usize) -> Act {
        let outcome = if r.percent(30) {
            self.outcome(r, s, slot)
        } else {
            let words = [
                Ruling::Good,
                Ruling::Good,
                Ruling::No,
                Ruling::Pass,
                Ruling::Time,
            ];
            Outcome {
                given: Given::Word(r.pick(&words)),
                ..self.manner(r, slot)
            }
        };
        Act::Tally {
            no: p.number,
            slot,
            attempt: r.percent(20).then(|| {
                // The next, one that is ruled, or one beyond the last.
                let next = p.ruled_so_far(slot) + 1;
                r.pick(&[next, next, 1, 9])
            }),
            load: if r.percent(50) {
                None
            } else {
                Some(self.load(r, s, p, slot))
            },
            outcome,
        }
    }

    fn anew(&self, r: &mut Rng, s: &State) -> Act {
        let rulings = [Ruling::Good, Ruling::No, Ruling::Time, Ruling::Stopped];
        let Some((no, slot, attempt, load)) = Self::ruled(r, s, &rulings) else {
            return Act::Undo(Line::Roster);
        };
        match r.below(10) {
            0..=3 => {
                let off = r.pick(&[0, 0, 1, 2, -1]) * s.rules.step;
                let odd = if r.percent(25) { s.rules.step / 5 } else { 0 };
                Act::Loaded {
                    no,
                    slot,
                    attempt,
                    load: (load + off + odd).max(s.rules.step),
                    grant: r.pick(&[Grant::Keep, Grant::Repeat, Grant::Again]),
                }
            }
            4..=6 => Act::Rerule {
                no,
                slot,
                attempt,
                good: r.percent(50),
                challenge: r.percent(60),
            },
            _ => {
                let load = r.percent(50).then(|| load + self.steps(r, 3));
                let ruling = (load.is_none() || r.percent(50))
                    .then(|| r.pick(&[Ruling::Good, Ruling::No, Ruling::Time]));
                let manner = self.manner(r, slot);
                Act::Correct {
                    no,
                    slot,
                    attempt,
                    load,
                    ruling,
                    reps: manner.reps.filter(|_| ruling.is_some()),
                    variant: manner.variant.filter(|_| ruling.is_some()),
                }
            }
        }
    }
}
