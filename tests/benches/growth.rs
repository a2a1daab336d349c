//! How times grow from 100 entries to as many as there are lots.

use std::time::Duration;

use maxday::day::{Day, queue};
use maxday::file::Live;
use maxday::papers::Paper;
use maxday::papers::documents::{Order, make};
use maxday::sheets::Audience;
use maxday::standings::{Basis, standings};

use crate::days::{LIFTS, acts_of, context, entered, say, write};
use crate::measure::{Folder, Times, ms, part};
use crate::turn::started;

/// Lots go from 1 to 9,999.
const SIZES: [u16; 5] = [100, 316, 1_000, 3_162, 9_999];

const LIFT: &[&str] = &[LIFTS[0]];

pub fn run(folder: &Folder) {
    part(
        "Growth: least time, and time over n log n as a multiple of that at 100 entries",
    );
    let mut rows: Vec<(&str, Vec<Duration>)> = [
        "queue",
        "apply, all acts",
        "open",
        "standings",
        "start list, PDF",
        "results, PDF",
    ]
    .map(|name| (name, Vec::new()))
    .into();
    for n in SIZES {
        for (row, time) in rows.iter_mut().zip(of_size(folder, n)) {
            row.1.push(time);
        }
    }
    print!("  {:<18}", "entries");
    for n in SIZES {
        print!(" {n:>20}");
    }
    println!("   wanted: no more than about 1");
    for (name, times) in rows {
        print!("  {name:<18}");
        let per = |time: &Duration, n: u16| {
            let n = f64::from(n);
            time.as_secs_f64() / (n * n.ln())
        };
        for (time, n) in times.iter().zip(SIZES) {
            let growth = per(time, n) / per(&times[0], SIZES[0]);
            print!(" {:>13} {growth:>6.2}", ms(*time));
        }
        println!();
    }
}

fn of_size(folder: &Folder, n: u16) -> [Duration; 6] {
    let runs = if n > 1_000 { 5 } else { 15 };
    let least = |mut work: Box<dyn FnMut() + '_>| Times::of(runs, &mut work).least();
    let one = started("max-day", n, LIFT);
    let day = lifted(n);
    let facts = day.facts();
    let path = folder.file(&format!("growth-{n}.maxday"));
    let commands: Vec<_> = (1..=n).flat_map(|lot| acts_of(lot, LIFT[0])).collect();
    write(&path, n, LIFT, &commands);
    let paper = |name: &str| {
        let order = Order {
            size: Paper::A4,
            audience: Audience::Private,
            made: context(90_000).at,
            only: Some(vec![name.to_owned()]),
        };
        least(Box::new(move || drop(make(facts, &order).unwrap())))
    };
    [
        least(Box::new(|| drop(queue(one.facts(), 1)))),
        least(Box::new(|| {
            let mut again = Day::new();
            for recorded in day.journal() {
                maxday::day::apply(&mut again, recorded);
            }
        })),
        least(Box::new(|| drop(Live::open_read(&path).unwrap()))),
        least(Box::new(|| drop(standings(facts, Basis::Category)))),
        paper("start-list"),
        paper("results"),
    ]
}

/// A day on which everybody has lifted.
fn lifted(n: u16) -> Day {
    let mut day = entered("max-day", n, LIFT, false);
    let commands = (1..=n).flat_map(|lot| acts_of(lot, LIFT[0]));
    for (command, seconds) in commands.zip(10..) {
        say(&mut day, &command, &context(seconds));
    }
    day
}
