//! Puts the model and the engine side by side.

use std::collections::BTreeMap;

use crate::engine::{Engine, LIFTS};
use crate::model::{Model, Person, State};
use crate::plain::{Act, At, Fact};
use crate::rules::Rules;

/// What was met on the way.
#[derive(Debug, Default, Clone)]
pub struct Counts(pub BTreeMap<String, u64>);

impl Counts {
    pub fn add(&mut self, what: impl Into<String>) {
        *self.0.entry(what.into()).or_default() += 1;
    }

    pub fn merge(&mut self, other: &Self) {
        for (k, n) in &other.0 {
            *self.0.entry(k.clone()).or_default() += n;
        }
    }
}

/// The model and the engine of one day.
pub struct Pair {
    pub model: Model,
    pub engine: Engine,
    /// For each act that was tried, its place in the model's list.
    pub steps: Vec<Option<usize>>,
    /// The engine's name of each of the model's acts.
    seqs: Vec<Option<u64>>,
    pub counts: Counts,
}

impl Pair {
    pub fn new(rules: &Rules) -> Self {
        Self {
            model: Model::new(rules.clone()),
            engine: Engine::new(rules),
            steps: Vec::new(),
            seqs: Vec::new(),
            counts: Counts::default(),
        }
    }

    /// Does an act on both.
    ///
    /// # Errors
    /// Both answers, where they differ.
    pub fn act(&mut self, act: &Act, at: At) -> Result<bool, String> {
        let seqs: Vec<Option<u64>> = self.seqs.clone();
        let named = match act {
            Act::Annul(step) => Act::Annul(
                self.steps
                    .get(*step)
                    .copied()
                    .flatten()
                    .unwrap_or(usize::MAX),
            ),
            _ => act.clone(),
        };
        let act = &named;
        self.steps.push(None);
        let ours = self.model.try_act(act, at);
        let theirs = self.engine.try_act(act, at, &seqs);
        let name = act.name();
        let seq = match (&ours, &theirs) {
            (Ok(()), Ok(seq)) => *seq,
            (Err(_), Err(refusal)) => {
                self.counts.add(format!("refused {name}"));
                let kind = format!("{refusal:?}");
                let kind: String =
                    kind.chars().take_while(|c| c.is_alphanumeric()).collect();
                self.counts.add(format!("reason {kind}"));
                return Ok(false);
            }
            (Ok(()), Err(refusal)) => {
                return Err(format!("the model takes it, the engine refuses: {refusal}"));
            }
            (Err(why), Ok(_)) => {
                return Err(format!("the engine takes it, the model refuses: {why}"));
            }
        };
        while self.seqs.len() < self.model.acts.len() {
            self.seqs.push(None);
        }
        if self.model.acts.len() > seqs.len()
            && let Some(last) = self.seqs.last_mut()
        {
            *last = seq;
        }
        if self.model.acts.len() > seqs.len()
            && let Some(step) = self.steps.last_mut()
        {
            *step = Some(self.model.acts.len() - 1);
        }
        self.counts.add(format!("taken {name}"));
        self.count_tie(act);
        self.compare(at)?;
        Ok(true)
    }

    /// Counts the requests that equal another that stands beside them.
    fn count_tie(&mut self, act: &Act) {
        let Act::Request { no, slot, .. } = act else {
            return;
        };
        let s = self.model.state();
        let asked = self.model.acts.last().and_then(|a| a.facts.last());
        let (Some(Fact::Requested { load, .. }), Ok(id)) = (asked, s.id(*no)) else {
            return;
        };
        let flight = s.people[&id].athlete.flight;
        let tied = s.people.iter().any(|(other, p)| {
            *other != id
                && p.athlete.flight == flight
                && p.takes_part(*slot)
                && s.next(p, *slot)
                    .and_then(|next| s.request(p, *slot, next))
                    .is_some_and(|l| l == *load)
        });
        self.counts.add("requests counted");
        if tied {
            self.counts.add("requests tied in load");
        }
    }

    fn compare(&mut self, at: At) -> Result<(), String> {
        let s = self.model.state();
        for number in 1..=self.model.rules.platforms {
            self.compare_platform(&s, number, at)?;
        }
        for p in s.people.values() {
            for slot in 0..s.rules.slots.len() {
                if p.athlete.slots[slot].is_some() {
                    self.compare_slot(&s, p, slot)?;
                }
            }
        }
        self.compare_places(&s)
    }

    fn compare_platform(&mut self, s: &State, n: u8, at: At) -> Result<(), String> {
        let ours: Vec<_> = s
            .queue(n)
            .iter()
            .map(|q| (q.number, q.attempt, q.load, q.called))
            .collect();
        let theirs = self.engine.queue(n);
        if ours != theirs {
            return Err(format!(
                "queue of platform {n}: model {ours:?}, engine {theirs:?}"
            ));
        }
        for pair in ours.windows(2) {
            self.counts.add("neighbours");
            if pair[0].2.is_some() && pair[0].2 == pair[1].2 {
                self.counts.add("neighbours tied in load");
            }
        }
        let ours = s.on(n).call.as_ref().and_then(|c| c.left(at.ms));
        let theirs = self.engine.left(n, at).map(|l| l.max(0));
        let ours = ours.map(|l| l.max(0));
        if ours != theirs {
            return Err(format!(
                "clock of platform {n}: model {ours:?}, engine {theirs:?}"
            ));
        }
        Ok(())
    }

    fn compare_slot(&self, s: &State, p: &Person, slot: usize) -> Result<(), String> {
        let no = p.number;
        let next = s.next(p, slot);
        let request = next.and_then(|n| s.request(p, slot, n));
        let theirs = self.engine.request(no, slot);
        if (next, request) != theirs {
            return Err(format!(
                "next attempt and request of lot {no} in slot {slot}: model {:?}, \
                 engine {theirs:?}",
                (next, request)
            ));
        }
        if let Some(next) = next {
            let ours = s.limits(p, slot, next);
            let theirs = self.engine.limits(no, slot, next);
            if ours != theirs {
                return Err(format!(
                    "limits of lot {no} in slot {slot}: model {ours:?}, engine \
                     {theirs:?}"
                ));
            }
        }
        let ours: Vec<_> = (1_u8..)
            .zip(&p.runs[slot])
            .filter_map(|(n, a)| {
                let r = a.ruled.as_ref()?;
                let word = format!("{:?}", r.ruling).to_lowercase();
                Some((n, LIFTS[slot][r.variant].to_owned(), word, r.load))
            })
            .collect();
        let theirs = self.engine.rulings(no, slot);
        let same = ours.len() == theirs.len()
            && ours.iter().zip(&theirs).all(|(a, b)| {
                (a.0, &a.1, &a.2) == (b.0, &b.1, &b.2) && (a.2 == "pass" || a.3 == b.3)
            });
        if !same {
            return Err(format!(
                "rulings of lot {no} in slot {slot}: model {ours:?}, engine {theirs:?}"
            ));
        }
        Ok(())
    }

    fn compare_places(&self, s: &State) -> Result<(), String> {
        let ours = s.standings();
        let theirs = self.engine.standings();
        if ours.len() != theirs.len() {
            return Err(format!("standings: model {ours:?}, engine {theirs:?}"));
        }
        for (id, a) in &ours {
            let no = s.people[id].number;
            if theirs.get(&no) != Some(a) {
                return Err(format!(
                    "standing of lot {no}: model {a:?}, engine {:?}",
                    theirs.get(&no)
                ));
            }
        }
        let theirs = self.engine.divisions();
        let ours: BTreeMap<_, _> = s
            .divisions()
            .into_iter()
            .map(|((label, id), line)| ((label, s.people[&id].number), line))
            .collect();
        if ours != theirs {
            let apart = ours.iter().find(|(k, v)| theirs.get(*k) != Some(*v));
            let theirs = apart.and_then(|(k, _)| theirs.get(k));
            return Err(format!("division: model {apart:?}, engine {theirs:?}"));
        }
        let (ours, theirs) = (s.teams(), self.engine.teams());
        if ours != theirs {
            return Err(format!("teams: model {ours:?}, engine {theirs:?}"));
        }
        Ok(())
    }
}

/// Runs a story through both from the start.
///
/// # Errors
/// Which act they differ on, and how.
pub fn replay(rules: &Rules, story: &[(At, Act)]) -> Result<Counts, (usize, String)> {
    let mut pair = Pair::new(rules);
    for (i, (at, act)) in story.iter().enumerate() {
        let _ = pair.act(act, *at).map_err(|e| (i, e))?;
    }
    Ok(pair.counts)
}
