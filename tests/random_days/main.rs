//! Random days: hundreds of days of random acts, most of them plausible, with
//! the rules of the house checked after every act.
//!
//! `MAXDAY_DAYS` sets how many days are run (default 300), `MAXDAY_SEED`
//! which ones. The run prints how often every act word was taken and refused
//! and how often every refusal came.

#![allow(clippy::unwrap_used, clippy::expect_used)]

mod acts;
mod checks;
mod dice;
mod found;
mod scene;
#[path = "../support/mod.rs"]
mod support;
mod tally;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestRng, TestRunner};
use std::cell::RefCell;

use checks::Watched;
use dice::Dice;
use scene::Scene;
use tally::Tally;

fn number(name: &str, default: u32) -> u32 {
    std::env::var(name).map_or(default, |text| text.parse().unwrap())
}

/// One day from its seeds, act by act.
fn run(scene: u64, acts: &[u64], tally: &mut Tally) -> Result<(), String> {
    let scene = Scene::of(&mut Dice::new(scene));
    let mut watched = Watched::new(scene.open());
    watched.whole()?;
    for seed in acts {
        let mut dice = Dice::new(*seed);
        let (word, command) = acts::next(&watched.table.day, &scene, &mut dice);
        watched.table.now += i64::from(dice.below(40)) * 1000;
        let loose = dice.chance(5);
        let outcome = watched
            .say(&command, loose)
            .map_err(|e| format!("{e}\nafter {}: {command:?}\non {scene:?}", word.name()))?;
        tally.count(word, outcome.as_ref().err());
    }
    tally.day();
    Ok(())
}

/// So many days with one seed; what was counted.
fn days(cases: u32, seed: u32) -> Tally {
    let tally = RefCell::new(Tally::default());
    let mut bytes = [7; 32];
    bytes[..4].copy_from_slice(&seed.to_le_bytes());
    let config = Config {
        cases,
        failure_persistence: None,
        max_shrink_iters: 3000,
        ..Config::default()
    };
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &bytes);
    let mut runner = TestRunner::new_with_rng(config, rng);
    let day = (any::<u64>(), prop::collection::vec(any::<u64>(), 80..=140));
    let result = runner.run(&day, |(scene, acts)| {
        run(scene, &acts, &mut tally.borrow_mut()).map_err(TestCaseError::fail)
    });
    if let Err(error) = result {
        panic!("{error}");
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
