//! Random days, run through the model and the engine.

use crate::compare::{Counts, Pair, replay};
use crate::model::{Person, State};
use crate::plain::{
    Act, Athlete, Bar, Categories, Given, Grant, Key, Line, Load, Move, No, Roll, Rules,
    Ruling, Tie,
};
use crate::rng::Rng;

/// Rules at random, near one of the shipped formats.
pub fn rules(r: &mut Rng) -> Rules {
    use Key::{Attempt, Load as ByLoad, Number, Previous};
    let weightlifting = r.percent(50);
    let pounds = r.percent(20);
    let orders = [
        vec![ByLoad, Attempt, Previous, Number],
        vec![Attempt, ByLoad, Number],
        vec![Attempt, ByLoad, Previous, Number],
        vec![ByLoad, Attempt, Number],
        vec![ByLoad, Previous, Number],
        vec![ByLoad, Number],
        vec![Attempt, Number],
        vec![Attempt, Previous, Number],
    ];
    let usual = if weightlifting { 0 } else { 1 };
    let order = if r.percent(60) {
        orders[usual].clone()
    } else {
        r.pick(&orders)
    };
    let own = |r: &mut Rng, usual: bool| if r.percent(75) { usual } else { !usual };
    let seconds = |r: &mut Rng, usual: Option<i64>, list: &[i64]| {
        if r.percent(60) {
            usual
        } else if r.percent(30) {
            None
        } else {
            Some(r.pick(list))
        }
    };
    let on = |s| if weightlifting { Some(s) } else { None };
    let mut chain = |total: bool| {
        let usual = match (weightlifting, total) {
            (false, _) => vec![Tie::Shared],
            (true, false) => vec![Tie::BestAttempt, Tie::Previous, Tie::Number],
            (true, true) => vec![
                Tie::LastSlotLower,
                Tie::BestAttempt,
                Tie::Previous,
                Tie::Number,
            ],
        };
        if r.percent(40) {
            return usual;
        }
        let keys = [
            Tie::BestAttempt,
            Tie::Previous,
            Tie::Bodyweight,
            Tie::Earlier,
            Tie::LastSlotLower,
        ];
        let n = r.below(4);
        let mut list: Vec<Tie> = Vec::new();
        for _ in 0..n {
            let key = r.pick(&keys[..if total { 5 } else { 4 }]);
            if !list.contains(&key) {
                list.push(key);
            }
        }
        if list.is_empty() || r.percent(60) {
            list.push(r.pick(&[Tie::Number, Tie::Shared]));
        }
        list
    };
    let (ties_lift, mut ties_total) = (chain(false), chain(true));
    let needs_all = r.percent(60);
    if !needs_all {
        // How somebody without a best in the last slot ties is left open.
        ties_total.retain(|t| matches!(t, Tie::Bodyweight | Tie::Number | Tie::Shared));
        if ties_total.is_empty() {
            ties_total.push(Tie::Shared);
        }
    }
    let slots = (0..2 + r.below(2))
        .map(|_| 1 + usize::from(r.percent(25)))
        .collect();
    Rules {
        weightlifting,
        pounds,
        law: own(r, weightlifting),
        bar: if r.percent(70) {
            if weightlifting {
                Bar::Rising
            } else {
                Bar::Rounds
            }
        } else {
            r.pick(&[Bar::Rising, Bar::Rounds, Bar::Free])
        },
        order,
        attempts: if r.percent(60) {
            3
        } else {
            r.pick(&[1, 2, 4, 5])
        },
        judges: r.pick(&[1, 3]),
        step: if pounds {
            r.pick(&[500, 250, 100])
        } else {
            r.pick(&[100, 250, 500, 50])
        },
        least: own(r, weightlifting),
        automatic: own(r, weightlifting),
        declare: own(r, weightlifting),
        changes: if r.percent(25) {
            None
        } else {
            Some(r.pick(&[2, 2, 2, 0, 1, 3]))
        },
        final_call: seconds(r, on(30), &[30, 20, 45, 10]),
        within: seconds(r, on(30), &[30, 20, 60]),
        clock: seconds(r, on(60), &[60, 90, 45]),
        following: seconds(r, on(120), &[120, 180, 100]),
        ties_lift,
        ties_total,
        total: r.percent(80),
        needs_all,
        weighed: own(r, weightlifting),
        categories: r.pick(&[Categories::None, Categories::Flight, Categories::Iwf2026]),
        slots,
        platforms: if r.percent(30) { 2 } else { 1 },
    }
}

fn athlete(r: &mut Rng, rules: &Rules, no: No, start: Load) -> Athlete {
    let girl = r.percent(50);
    let labels: &[&str] = if girl {
        &["57", "61", "69", "86+"]
    } else {
        &["65", "70", "75", "110+"]
    };
    Athlete {
        no,
        girl,
        bodyweight: r
            .percent(88)
            .then(|| r.pick(&[5700, 5701, 6100, 6100, 6550, 7000, 8601, 8600, 11_001])),
        category: if r.percent(75) {
            r.pick(labels).to_owned()
        } else {
            String::new()
        },
        flight: usize::from(r.percent(25)),
        slots: rules
            .slots
            .iter()
            .map(|variants| {
                r.percent(92).then(|| {
                    let steps = i64::try_from(r.below(5)).unwrap();
                    (
                        r.below(*variants),
                        r.percent(90).then_some(start + steps * rules.step),
                    )
                })
            })
            .collect(),
    }
}

/// Chooses what is done next, mostly what is allowed.
struct Chooser<'a> {
    rules: &'a Rules,
    start: Load,
}

impl Chooser<'_> {
    fn steps(&self, r: &mut Rng, n: usize) -> Load {
        i64::try_from(r.below(n)).unwrap() * self.rules.step
    }

    fn person<'s>(r: &mut Rng, s: &'s State) -> &'s Person {
        let all: Vec<&Person> = s.people.values().collect();
        all[r.below(all.len())]
    }

    /// Somebody of the flight that lifts on a platform.
    fn lifting<'s>(r: &mut Rng, s: &'s State, platform: u8) -> (&'s Person, usize) {
        let running = s.platforms[usize::from(platform) - 1].running;
        if let Some((flight, slot)) = running
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
                        all.push((p.athlete.no, slot, n, load));
                    }
                }
            }
        }
        if all.is_empty() {
            return None;
        }
        // Mostly one of the newest.
        Some(r.pick(&all))
    }

    fn given(&self, r: &mut Rng) -> Given {
        let judges = if r.percent(2) { 2 } else { self.rules.judges };
        let good = r.percent(65);
        Given::Lights(
            (0..judges)
                .map(|_| if r.percent(80) { good } else { !good })
                .collect(),
        )
    }

    fn load(&self, r: &mut Rng, pair: &Pair, s: &State, p: &Person, slot: usize) -> Load {
        let next = pair.model.next(p, slot).unwrap_or(1);
        let least = pair
            .model
            .least_rise(p, slot, next)
            .max(pair.model.bar(s, p.athlete.flight, slot, next))
            .max(self.start);
        // As often as not what somebody else asks for.
        if r.percent(55) {
            let others: Vec<Load> = s
                .people
                .values()
                .filter(|o| o.athlete.no != p.athlete.no && o.takes_part(slot))
                .filter_map(|o| pair.model.request(o, slot, pair.model.next(o, slot)?))
                .filter(|l| *l >= least || r.clone().percent(10))
                .collect();
            if !others.is_empty() {
                return r.pick(&others);
            }
        }
        match r.below(20) {
            0 => least + self.rules.step / 2,
            1 | 2 => (least - self.rules.step).max(self.rules.step),
            _ => least + self.steps(r, 5),
        }
    }

    /// What is done next, without the stories that [`crate::found`] tells.
    fn act(&self, r: &mut Rng, pair: &Pair) -> Act {
        let act = self.any_act(r, pair);
        let s = pair.model.state();
        let moved = s.platforms.iter().filter_map(|p| p.call.as_ref()).any(|c| {
            pair.model.request(&s.people[&c.no], c.slot, c.attempt) != Some(c.load)
        });
        let back = pair
            .model
            .acts
            .iter()
            .any(|a| a.stands && a.undid.is_some() && !a.facts.is_empty());
        match act {
            Act::Stop { platform, .. } | Act::Pass { platform, .. } if moved => {
                Act::Redo(Line::Platform(platform))
            }
            Act::Undo(line @ Line::Platform(_)) if back => Act::Redo(line),
            act => act,
        }
    }

    fn any_act(&self, r: &mut Rng, pair: &Pair) -> Act {
        let s = pair.model.state();
        let platform = if r.percent(70) {
            1
        } else {
            self.rules.platforms
        };
        let on = &s.platforms[usize::from(platform) - 1];
        let called = on.call.as_ref();
        let queue = pair.model.queue(&s, platform);
        if on.running.is_none() || (queue.is_empty() && r.percent(60)) || r.percent(1) {
            let flight = if self.rules.platforms == 2 {
                usize::from(platform == 2)
            } else {
                usize::from(r.percent(30))
            };
            // A lift that was begun isn't begun again.
            let slot = (0..self.rules.slots.len()).find(|slot| {
                let begun = crate::plain::Fact::Started(platform, flight, *slot);
                !pair.model.acts.iter().any(|a| a.facts.contains(&begun))
            });
            let Some(slot) = slot else {
                return Act::Undo(Line::Scale);
            };
            return Act::Start(platform, flight, slot);
        }
        let (p, slot) = Self::lifting(r, &s, platform);
        let no = p.athlete.no;
        match r.below(100) {
            // Requests: of the called athlete in earnest, too.
            0..=23 => {
                let (p, slot) = match called {
                    Some(c) if r.percent(45) => (&s.people[&c.no], c.slot),
                    _ => (p, slot),
                };
                let load = self.load(r, pair, &s, p, slot);
                Act::Request {
                    no: p.athlete.no,
                    slot,
                    attempt: r
                        .percent(15)
                        .then(|| u8::try_from(r.below(4)).unwrap().max(1)),
                    load,
                }
            }
            24..=45 => match called {
                Some(_) if r.percent(92) => Act::Lights {
                    platform,
                    no: None,
                    load: None,
                    given: if r.percent(6) {
                        Given::Word(Ruling::Time)
                    } else {
                        self.given(r)
                    },
                },
                _ => Act::Call {
                    platform,
                    no: if r.percent(70) {
                        None
                    } else if r.percent(50) {
                        queue.first().map(|q| q.no)
                    } else {
                        Some(no)
                    },
                    load: if r.percent(10) {
                        queue.first().and_then(|q| q.load)
                    } else {
                        None
                    },
                },
            },
            46..=59 => {
                let first = queue.first();
                let (no, load) = match first {
                    Some(q) if r.percent(80) => (Some(q.no), q.load),
                    _ => (Some(no), None),
                };
                Act::Lights {
                    platform,
                    no,
                    load: if r.percent(60) {
                        load
                    } else if r.percent(90) {
                        None
                    } else {
                        Some(self.start)
                    },
                    given: self.given(r),
                }
            }
            60..=67 => Act::Tally {
                no,
                slot,
                attempt: r.percent(20).then(|| {
                    // The next, one that is ruled, or one beyond the last.
                    let next = p.ruled_so_far(slot) + 1;
                    r.pick(&[next, next, 1, 9])
                }),
                load: if r.percent(50) {
                    None
                } else {
                    Some(self.load(r, pair, &s, p, slot))
                },
                given: if r.percent(30) {
                    self.given(r)
                } else {
                    Given::Word(r.pick(&[
                        Ruling::Good,
                        Ruling::Good,
                        Ruling::No,
                        Ruling::Pass,
                        Ruling::Time,
                    ]))
                },
            },
            68..=70 => Act::Pass {
                platform,
                who: if called.is_some() && r.percent(40) {
                    None
                } else {
                    Some((no, slot))
                },
                rest: r.percent(20),
            },
            71 => Act::Stop {
                platform,
                who: if called.is_some() && r.percent(60) {
                    None
                } else {
                    Some((no, slot))
                },
                pain: r.percent(40),
            },
            72 => Act::Extra(no, slot),
            73..=76 => match Self::ruled(r, &s, &[Ruling::Good, Ruling::No]) {
                Some((no, slot, attempt, load)) => Act::Loaded {
                    no,
                    slot,
                    attempt,
                    load: (load + self.steps(r, 3) - self.rules.step)
                        .max(self.rules.step),
                    grant: r.pick(&[Grant::Keep, Grant::Repeat, Grant::Again]),
                },
                None => Act::Extra(no, slot),
            },
            77 | 78 => match Self::ruled(r, &s, &[Ruling::Good, Ruling::No]) {
                Some((no, slot, attempt, _)) => Act::Rerule {
                    no,
                    slot,
                    attempt,
                    good: r.percent(50),
                    challenge: r.percent(50),
                },
                None => Act::Undo(Line::Roster),
            },
            79..=82 => {
                match Self::ruled(r, &s, &[Ruling::Good, Ruling::No, Ruling::Time]) {
                    Some((no, slot, attempt, load)) => {
                        let load = r.percent(50).then(|| load + self.steps(r, 3));
                        let ruling = (load.is_none() || r.percent(50))
                            .then(|| r.pick(&[Ruling::Good, Ruling::No, Ruling::Time]));
                        Act::Correct {
                            no,
                            slot,
                            attempt,
                            load,
                            ruling,
                        }
                    }
                    None => Act::Undo(Line::Scale),
                }
            }
            83 | 84 => {
                let n = pair.steps.len();
                let far = if r.percent(70) { 12 } else { n };
                let step = n.saturating_sub(r.below(far) + 1);
                // A call that comes back by annulment is left out.
                let calls = |s: &State| -> Vec<Option<(No, u8)>> {
                    let on = |p: &crate::model::Platform| {
                        p.call.as_ref().map(|c| (c.no, c.attempt))
                    };
                    s.platforms.iter().map(on).collect()
                };
                let mut after = pair.model.clone();
                let index = pair.steps.get(step).copied().flatten();
                let apart = ["start", "call", "lights", "lights time", "stop", "pass"];
                let starts = index.is_some_and(|i| apart.contains(&after.acts[i].name));
                let taken =
                    index.is_some_and(|i| after.try_act(&Act::Annul(i), 0).is_ok());
                if starts || (taken && calls(&after.state()) != calls(&s)) {
                    return Act::Undo(Line::Platform(platform));
                }
                Act::Annul(step)
            }
            85..=89 => Act::Undo(Line::Platform(platform)),
            90 | 91 => Act::Redo(Line::Platform(platform)),
            92 => r.pick(&[
                Act::Undo(Line::Scale),
                Act::Redo(Line::Scale),
                Act::Redo(Line::Roster),
            ]),
            93 => Act::Weigh(no, r.pick(&[5700, 6100, 6101, 7000, 8600])),
            94 | 95 => Act::Roll(
                if r.percent(60) {
                    s.people
                        .values()
                        .find(|p| !p.is_present())
                        .map_or(no, |p| p.athlete.no)
                } else {
                    no
                },
                r.pick(&[Roll::Here, Roll::Absent, Roll::Away, Roll::Back, Roll::Back]),
            ),
            96 => {
                if r.percent(25) && p.runs.iter().all(Vec::is_empty) {
                    Act::Withdraw(no, r.percent(70).then_some(slot))
                } else {
                    Act::Extra(no, slot)
                }
            }
            _ => Act::Clock(
                platform,
                match r.below(3) {
                    0 => Move::Stop,
                    1 => Move::Resume,
                    _ => Move::Set(i64::try_from(r.below(90) + 1).unwrap()),
                },
            ),
        }
    }
}

/// A story and where it went apart.
pub struct Apart {
    pub seed: u64,
    pub rules: Rules,
    pub story: Vec<(i64, Act)>,
    pub why: String,
}

/// One random day; its counts, or where the two went apart.
pub fn day(seed: u64) -> Result<Counts, Box<Apart>> {
    let mut r = Rng::new(seed);
    let rules = rules(&mut r);
    let start = rules.step * 40;
    let chooser = Chooser {
        rules: &rules,
        start,
    };
    let mut pair = Pair::new(&rules);
    let mut story: Vec<(i64, Act)> = Vec::new();
    let athletes = 4 + r.below(5);
    let mut at = 0;
    let mut numbers: Vec<No> = (1..=20).collect();
    for _ in 0..athletes {
        let no = numbers.remove(r.below(numbers.len()));
        let mut new = athlete(&mut r, &rules, no, start);
        if story.len() < 3 {
            new.flight = 0;
        }
        story.push((at, Act::Add(new)));
    }
    let acts = 60 + r.below(60);
    for i in 0..athletes + acts {
        if i >= story.len() {
            at += match r.below(10) {
                0..=4 => r.pick(&[1000, 2000, 3000, 5000, 7000]),
                5..=7 => r.pick(&[10_000, 15_000, 20_000, 30_000]),
                8 => r.pick(&[29_999, 30_001, 45_000, 60_000, 90_000]),
                _ => 0,
            };
            let act = chooser.act(&mut r, &pair);
            story.push((at, act));
        }
        let (at, act) = story[i].clone();
        if let Err(why) = pair.act(&act, at) {
            return Err(Box::new(Apart {
                seed,
                rules,
                story,
                why,
            }));
        }
    }
    pair.counts.add("days");
    Ok(pair.counts)
}

impl Apart {
    /// Leaves out every act without which the two still go apart.
    pub fn shorten(&mut self) {
        let differs = |story: &[(i64, Act)], rules: &Rules| replay(rules, story).err();
        let mut changed = true;
        while changed {
            changed = false;
            let mut i = self.story.len();
            while i > 0 {
                i -= 1;
                let mut less = without(&self.story, i);
                if let Some((at, why)) = differs(&less, &self.rules)
                    && kind(&why) == kind(&self.why)
                {
                    less.truncate(at + 1);
                    self.story = less;
                    self.why = why;
                    changed = true;
                    i = i.min(self.story.len());
                }
            }
        }
    }

    pub fn show(&self) -> String {
        let mut text = format!("seed {}: {}\n{:?}\n", self.seed, self.why, self.rules);
        for (at, act) in &self.story {
            text.push_str(&format!("{at:>8} ms  {act:?}\n"));
        }
        text
    }
}

/// A story without one of its acts; annulments still name the same acts.
fn without(story: &[(i64, Act)], gone: usize) -> Vec<(i64, Act)> {
    let mut less = story.to_vec();
    let _ = less.remove(gone);
    for (_, act) in &mut less {
        if let Act::Annul(target) = act {
            *target = match (*target).cmp(&gone) {
                std::cmp::Ordering::Less => *target,
                std::cmp::Ordering::Equal => usize::MAX,
                std::cmp::Ordering::Greater if *target == usize::MAX => *target,
                std::cmp::Ordering::Greater => *target - 1,
            };
        }
    }
    less
}

/// What sort of difference it is, without its numbers and names.
pub fn kind(why: &str) -> String {
    why.chars()
        .filter(|c| !c.is_ascii_digit())
        .take(70)
        .collect::<String>()
        .replace("bench", "lift")
        .replace("squat", "lift")
        .replace("clean", "lift")
}
