//! Runs a target for a while and keeps what it finds.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

use crate::mutate::{Dice, spoilt};

/// An input that takes so long is a finding too.
const SLOW: Duration = Duration::from_secs(2);

/// So many findings are enough for one run.
const ENOUGH: usize = 5;

fn from_env(key: &str, usual: u64) -> u64 {
    std::env::var(key)
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(usual)
}

#[allow(clippy::disallowed_methods)] // How long it runs is a matter of the clock.
fn now() -> Instant {
    Instant::now()
}

/// Tries spoilt inputs for `MAXDAY_FUZZ_SECONDS`, 60 if it isn't set.
pub fn run(name: &str, seeds: &[Vec<u8>], words: &[&str], mut target: impl FnMut(&[u8])) {
    let time = Duration::from_secs(from_env("MAXDAY_FUZZ_SECONDS", 60));
    let mut dice = Dice::new(from_env("MAXDAY_SEED", 1));
    // The sound ones must pass first.
    for seed in seeds {
        target(seed);
    }
    let begin = now();
    let (mut n, mut slowest) = (0_u64, Duration::ZERO);
    let mut found: Vec<String> = Vec::new();
    while begin.elapsed() < time && found.len() < ENOUGH {
        let input = spoilt(&mut dice, seeds, words);
        let began = now();
        let done = catch_unwind(AssertUnwindSafe(|| target(&input)));
        let took = began.elapsed();
        slowest = slowest.max(took);
        n += 1;
        let why = match done {
            Err(payload) => payload
                .downcast_ref::<String>()
                .cloned()
                .or_else(|| payload.downcast_ref::<&str>().map(|s| (*s).to_owned()))
                .unwrap_or_default(),
            Ok(()) if took > SLOW => format!("took {took:?}"),
            Ok(()) => continue,
        };
        let path =
            std::env::temp_dir().join(format!("maxday-fuzz-{name}-{}", found.len()));
        std::fs::write(&path, &input).unwrap();
        found.push(format!("{}: {why}", path.display()));
    }
    println!(
        "{name}: {n} inputs, the slowest took {slowest:?}, {} findings",
        found.len()
    );
    assert!(found.is_empty(), "{}", found.join("\n"));
}
