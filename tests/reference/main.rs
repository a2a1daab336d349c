//! A slow plain model of the rules beside the engine, day after random day.
//!
//! The model knows the published rules and no line of the engine. Where the
//! two differ, one of them is wrong.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod ages;
mod anew;
mod ask;
mod command;
mod compare;
mod decide;
mod draw;
mod drive;
mod engine;
mod fold;
mod found;
mod frame;
mod model;
mod places;
mod plain;
mod rng;
mod rules;
mod rulings;
mod small;
mod story;
mod teams;
mod turns;
mod undo;
mod words;

use compare::Counts;

fn number(name: &str, usual: u64) -> u64 {
    std::env::var(name)
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(usual)
}

#[test]
fn random_days_agree_with_the_model() {
    let first = number("MAXDAY_SEED", 1);
    let days = number("MAXDAY_MODEL_DAYS", 100);
    let all = std::env::var("MAXDAY_MODEL_ALL").is_ok();
    let mut counts = Counts::default();
    let mut kinds: std::collections::BTreeMap<String, (u64, String)> =
        std::collections::BTreeMap::new();
    for seed in first..first + days {
        match story::day(seed) {
            Ok(day) => counts.merge(&day),
            Err(mut apart) => {
                if !all {
                    apart.shorten();
                    panic!("{}", apart.show());
                }
                let act = apart.story.last().map_or("", |(_, a)| a.name());
                let cut: String = apart
                    .why
                    .chars()
                    .filter(|c| !c.is_ascii_digit())
                    .take(if apart.why.starts_with("standing") {
                        16
                    } else {
                        70
                    })
                    .collect();
                let kind = format!("{act}: {cut}");
                let entry = kinds.entry(kind).or_insert_with(|| {
                    apart.shorten();
                    (0, apart.show())
                });
                entry.0 += 1;
            }
        }
    }
    let mut shown: Vec<_> = kinds.iter().collect();
    shown.sort_by_key(|(_, (n, _))| std::cmp::Reverse(*n));
    for (kind, (n, show)) in shown {
        println!("=== {n} x {kind}\n{show}");
    }
    let mut words: std::collections::BTreeMap<&str, Vec<String>> =
        std::collections::BTreeMap::new();
    for (what, n) in &counts.0 {
        match what.strip_prefix("rule ").and_then(|w| w.split_once(" = ")) {
            Some((key, word)) => {
                words.entry(key).or_default().push(format!("{word} ({n})"));
            }
            None => println!("{n:>9}  {what}"),
        }
    }
    for (key, drawn) in words {
        let first: Vec<&str> = drawn.iter().take(10).map(String::as_str).collect();
        println!("rule {key}: {} words: {}", drawn.len(), first.join("; "));
    }
    assert!(kinds.is_empty(), "{} kinds of differences", kinds.len());
}

#[test]
fn all_small_days_agree_with_the_model() {
    // MAXDAY_SMALL_STRIDE=1 runs every one of them, in a minute or two.
    let stride = usize::try_from(number("MAXDAY_SMALL_STRIDE", 16)).unwrap();
    let days = small::all(stride);
    println!("{days} small days");
    let all = 3 * (3 * 9 + 9 * 81 + 27 * 729 / stride.max(1) - 27);
    assert!(days >= all, "{days}");
}
