//! Random days, run through the model and the engine, and made short where
//! the two go apart.

use crate::compare::{Counts, Pair, replay};
use crate::draw;
use crate::drive::Chooser;
use crate::plain::{Act, At, No};
use crate::rng::Rng;
use crate::rules::Rules;
use crate::small::shipped;
use crate::words::words_of;

/// A story and where it went apart.
pub struct Apart {
    pub seed: u64,
    pub rules: Rules,
    pub story: Vec<(At, Act)>,
    pub why: String,
}

/// One random day; its counts, or where the two went apart.
pub fn day(seed: u64) -> Result<Counts, Box<Apart>> {
    let mut r = Rng::new(seed);
    let rules = draw::rules(&mut r);
    let start = rules.step * 40;
    let chooser = Chooser::new(&rules, start);
    let mut pair = Pair::new(&rules);
    let mut story: Vec<(At, Act)> = Vec::new();
    let athletes = 4 + r.below(5);
    let mut at = At::default();
    let mut numbers: Vec<No> = (1..=20).collect();
    for _ in 0..athletes {
        let no = numbers.remove(r.below(numbers.len()));
        let mut new = draw::athlete(&mut r, &rules, no, start);
        if story.len() < 3 {
            new.flight = 0;
        }
        story.push((at, Act::Add(new)));
    }
    let acts = 60 + r.below(60);
    for i in 0..athletes + acts {
        if i >= story.len() {
            at.ms += match r.below(10) {
                0..=4 => r.pick(&[1000, 2000, 3000, 5000, 7000]),
                5..=7 => r.pick(&[10_000, 15_000, 20_000, 30_000]),
                8 => r.pick(&[29_999, 30_001, 45_000, 60_000, 90_000]),
                _ => 0,
            };
            at.loose = r.percent(5);
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
    pair.counts.add(format!("days of {}", rules.format.name()));
    for (key, word) in words_of(&rules) {
        pair.counts.add(format!("rule {key} = {word}"));
    }
    *pair
        .counts
        .0
        .entry("athletes at first".to_owned())
        .or_default() += u64::try_from(athletes).unwrap();
    *pair.counts.0.entry("acts".to_owned()).or_default() +=
        u64::try_from(story.len()).unwrap();
    Ok(pair.counts)
}

impl Apart {
    /// Leaves out every act without which the two still go apart.
    pub fn shorten(&mut self) {
        let differs = |story: &[(At, Act)], rules: &Rules| replay(rules, story).err();
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
        let r = &self.rules;
        let mut text = format!(
            "seed {}: {}\n{}, {:?} variants, {} platforms, sessions apart: {}, planned \
             {:?}\n",
            self.seed,
            self.why,
            r.format.name(),
            r.slots,
            r.platforms,
            r.two_sessions,
            r.planned
        );
        let usual = words_of(&shipped(r.format));
        for (key, word) in words_of(r) {
            let idle = r.idle.iter().any(|(idle, _)| *idle == key);
            if (!idle || key == "rest") && !usual.contains(&(key, word.clone())) {
                text.push_str(&format!("{key}={word}; "));
            }
        }
        text.push('\n');
        for (at, act) in &self.story {
            let loose = if at.loose { "~" } else { " " };
            text.push_str(&format!("{:>8}{loose} ms  {act:?}\n", at.ms));
        }
        text
    }
}

/// A story without one of its acts; annulments still name the same acts.
fn without(story: &[(At, Act)], gone: usize) -> Vec<(At, Act)> {
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
