//! Random days: hundreds of days of random acts, most of them plausible, with
//! the rules of the house checked after every act.
//!
//! `MAXDAY_DAYS` sets how many days are run (default 300), `MAXDAY_SEED`
//! which ones. With `MAXDAY_DAYS`, undo and redo are tried after every act, not
//! after every third. The run prints how often every act word was taken and refused
//! and how often every refusal came.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod acts;
mod checks;
mod dice;
mod found;
mod met;
mod records;
mod scene;
#[path = "../support/mod.rs"]
mod support;
mod tally;

use proptest::prelude::*;
use proptest::test_runner::{
    Config, RngAlgorithm, TestCaseError, TestError, TestRng, TestRunner,
};
use std::cell::RefCell;

use maxday::day::Command;

use checks::Watched;
use dice::Dice;
use scene::Scene;
use tally::Tally;

fn number(name: &str, default: u32) -> u32 {
    std::env::var(name).map_or(default, |text| text.parse().unwrap())
}

/// After how many acts undo and redo are tried: after every one on a long run.
fn every() -> u64 {
    if std::env::var_os("MAXDAY_DAYS").is_some() {
        1
    } else {
        3
    }
}

/// One command of a day, with its moment.
#[derive(Debug, Clone)]
struct Said {
    ms: i64,
    loose: bool,
    command: Command,
}

/// One day from its seeds, act by act; the error is what doesn't hold.
fn run(scene: u64, acts: &[u64], tally: &mut Tally) -> Result<(), String> {
    let scene = Scene::of(&mut Dice::new(scene));
    let mut watched = Watched::new(scene.open(), every());
    let mut story = Vec::new();
    watched.whole()?;
    for seed in acts {
        let mut dice = Dice::new(*seed);
        let (word, command) = acts::next(&watched.table.day, &scene, &mut dice);
        assert_eq!(word, tally::Word::of(&command), "{command:?}");
        watched.table.now += i64::from(dice.below(40)) * 1000;
        let said = Said {
            ms: watched.table.now,
            loose: dice.chance(5),
            command,
        };
        story.push(said.clone());
        match watched.say(&said.command, said.loose) {
            Ok(outcome) => tally.count(word, outcome.as_ref().err()),
            Err(why) => return Err(shortest(&scene, story, &why)),
        }
    }
    tally.day(scene.kind, &watched.table.day);
    Ok(())
}

/// What doesn't hold in a story, if anything.
fn retell(scene: &Scene, story: &[Said]) -> Option<String> {
    let mut watched = Watched::new(scene.open(), every());
    story.iter().find_map(|said| {
        watched.table.now = said.ms;
        watched.say(&said.command, said.loose).err()
    })
}

/// The story without all that it doesn't need to fail in the same way.
fn shortest(scene: &Scene, mut story: Vec<Said>, why: &str) -> String {
    let same = |why: &str| why.chars().take(24).collect::<String>();
    let mut size = story.len() / 2;
    while size > 0 {
        let mut from = 0;
        while from < story.len() {
            let mut trial = story.clone();
            let _ = trial.drain(from..(from + size).min(story.len()));
            if retell(scene, &trial).is_some_and(|w| same(&w) == same(why)) {
                story = trial;
            } else {
                from += size;
            }
        }
        size /= 2;
    }
    let why = retell(scene, &story).unwrap_or_else(|| why.to_owned());
    let mut lines = vec![why, format!("{scene:?}")];
    for said in &story {
        let mark = if said.loose { "~" } else { "" };
        lines.push(format!("{:>6}{mark} s {:?}", said.ms / 1000, said.command));
    }
    lines.join("\n")
}

/// So many days with one seed; what was counted.
fn days(cases: u32, seed: u32) -> Tally {
    let tally = RefCell::new(Tally::default());
    let mut bytes = [7; 32];
    bytes[..4].copy_from_slice(&seed.to_le_bytes());
    let config = Config {
        cases,
        failure_persistence: None,
        // A story is shortened act by act instead, see `shortest`.
        max_shrink_iters: 0,
        ..Config::default()
    };
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &bytes);
    let mut runner = TestRunner::new_with_rng(config, rng);
    let acts = prop::collection::vec(any::<u64>().no_shrink(), 80..=140);
    let day = (any::<u64>().no_shrink(), acts);
    let result = runner.run(&day, |(scene, acts)| {
        run(scene, &acts, &mut tally.borrow_mut()).map_err(TestCaseError::fail)
    });
    match result {
        Ok(()) => {}
        Err(TestError::Fail(why, _)) => panic!("{why}"),
        Err(TestError::Abort(why)) => panic!("{why}"),
    }
    tally.into_inner()
}

#[test]
fn random_days_keep_the_rules_of_the_house() {
    let cases = number("MAXDAY_DAYS", 300);
    let seed = number("MAXDAY_SEED", 1);
    let threads = 2;
    let mut whole = Tally::default();
    std::thread::scope(|scope| {
        let runs: Vec<_> = (0..threads)
            .map(|i| scope.spawn(move || days(cases / threads + 1, seed * threads + i)))
            .collect();
        for run in runs {
            match run.join() {
                Ok(tally) => whole.add(&tally),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
    });
    println!("{whole}");
    whole.nothing_is_rare();
}
