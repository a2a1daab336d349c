//! The order of 1,000 entries against sorting their keys.

use maxday::day::{Command, queue};
use maxday::lift::Slug;

use crate::days::{LIFTS, acts_of, context, entered, say};
use crate::measure::{Clock, Folder, in_turns, line, part};

pub fn run(_: &Folder) {
    part("The queue of 1,000 entries on one platform");
    for (format, lifts) in [
        ("max-day", &LIFTS[..]),
        ("weightlifting", &["snatch", "clean-and-jerk"][..]),
    ] {
        let day = started(format, 1_000, lifts);
        let facts = day.facts();
        let keys: Vec<_> = queue(facts, 1)
            .into_iter()
            .map(|q| (q.attempt, q.load.map(|w| w.mass), q.number))
            .collect();
        assert_eq!(keys.len(), 1_000);
        // In the order of their lots, as they stand before they are sorted.
        let mut unsorted = keys;
        unsorted.sort_by_key(|(.., number)| *number);
        let (ours, bare) = in_turns(
            Clock::Worked,
            200,
            || queue(facts, 1),
            || {
                let mut keys = unsorted.clone();
                keys.sort();
                keys
            },
        );
        line(format, &ours, &bare, "at most 3");
    }
}

/// A day whose first lift runs for one flight of `n`, with a few attempts done.
pub fn started(format: &str, n: u16, lifts: &[&str]) -> maxday::day::Day {
    let mut day = entered(format, n, lifts, true);
    let start = Command::Start {
        platform: None,
        lift: Slug::new(lifts[0]).unwrap(),
        session: Some("1".to_owned()),
        flight: Some("F0".to_owned()),
    };
    say(&mut day, &start, &context(10));
    for number in (1..n).step_by(10) {
        for command in acts_of(number, lifts[0]).iter().take(2) {
            say(&mut day, command, &context(20 + i64::from(number)));
        }
    }
    day
}
