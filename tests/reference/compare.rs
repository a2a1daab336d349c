//! Puts the model and the engine side by side.

use std::collections::BTreeMap;

use crate::engine::Engine;
use crate::model::Model;
use crate::plain::{Act, Rules};

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
    pub fn act(&mut self, act: &Act, at: i64) -> Result<bool, String> {
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
        self.compare(at)?;
        Ok(true)
    }

    fn compare(&mut self, at: i64) -> Result<(), String> {
        let s = self.model.state();
        for number in 1..=self.model.rules.platforms {
            let ours: Vec<_> = self
                .model
                .queue(&s, number)
                .iter()
                .map(|q| (q.no, q.attempt, q.load, q.called))
                .collect();
            let theirs = self.engine.queue(number);
            if ours != theirs {
                return Err(format!(
                    "queue of platform {number}: model {ours:?}, engine {theirs:?}"
                ));
            }
            for pair in ours.windows(2) {
                self.counts.add("neighbours");
                if pair[0].2.is_some() && pair[0].2 == pair[1].2 {
                    self.counts.add("neighbours tied in load");
                }
            }
            let ours = s.platforms[usize::from(number) - 1]
                .call
                .as_ref()
                .and_then(|c| c.left(at))
                .map(|l| l.max(0));
            let theirs = self.engine.left(number, at).map(|l| l.max(0));
            if ours != theirs {
                return Err(format!(
                    "clock of platform {number}: model {ours:?}, engine {theirs:?}"
                ));
            }
        }
        for p in s.people.values() {
            let no = p.athlete.no;
            for slot in 0..self.engine.slots() {
                if p.athlete.slots[slot].is_none() {
                    continue;
                }
                let next = self.model.next(p, slot);
                let request = next.and_then(|n| self.model.request(p, slot, n));
                let theirs = self.engine.request(no, slot);
                if (next, request) != theirs {
                    return Err(format!(
                        "next attempt and request of lot {no} in slot {slot}: model \
                         {:?}, engine {theirs:?}",
                        (next, request)
                    ));
                }
                let ours: Vec<_> = (1_u8..)
                    .zip(&p.runs[slot])
                    .filter_map(|(n, a)| {
                        let r = a.ruled.as_ref()?;
                        Some((n, format!("{:?}", r.ruling).to_lowercase(), r.load))
                    })
                    .collect();
                let theirs = self.engine.rulings(no, slot);
                let same = ours.len() == theirs.len()
                    && ours.iter().zip(&theirs).all(|(a, b)| {
                        (a.0, &a.1) == (b.0, &b.1) && (a.1 == "pass" || a.2 == b.2)
                    });
                if !same {
                    return Err(format!(
                        "rulings of lot {no} in slot {slot}: model {ours:?}, engine \
                         {theirs:?}"
                    ));
                }
            }
        }
        let ours = self.model.standings(&s);
        let theirs = self.engine.standings();
        if ours.len() != theirs.len() {
            return Err(format!("standings: model {ours:?}, engine {theirs:?}"));
        }
        for (no, a) in &ours {
            let Some(b) = theirs.get(no) else {
                return Err(format!("lot {no} isn't in the engine's standings"));
            };
            // Whether those without a group are placed is left open.
            let alone = a.group.is_empty() && {
                let bests = |r: &crate::places::Result| {
                    let slots: Vec<_> = r.slots.iter().map(|s| s.0).collect();
                    (r.group.clone(), slots, r.total)
                };
                bests(a) == bests(b)
            };
            if a != b && !alone {
                return Err(format!("standing of lot {no}: model {a:?}, engine {b:?}"));
            }
        }
        Ok(())
    }
}

/// Runs a story through both from the start.
///
/// # Errors
/// Which act they differ on, and how.
pub fn replay(rules: &Rules, story: &[(i64, Act)]) -> Result<Counts, (usize, String)> {
    let mut pair = Pair::new(rules);
    for (i, (at, act)) in story.iter().enumerate() {
        let _ = pair.act(act, *at).map_err(|e| (i, e))?;
    }
    Ok(pair.counts)
}
