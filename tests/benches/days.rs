//! Days of any size, in memory and as files.

use std::path::Path;

use chrono::NaiveDate;
use maxday::day::{
    Command, Context, Day, NewDay, Outcome, Recorded, Ruling, Stamp, Which, apply,
    decide, new_day,
};
use maxday::exchange::roster::read_roster;
use maxday::file::{Live, SubmitError};
use maxday::lift::Slug;
use maxday::measure::{Unit, Weight};

/// The lifts of a large day.
pub const LIFTS: [&str; 3] = ["power-clean", "back-squat", "bench-press"];

/// 2026-11-17 08:00 UTC, in milliseconds.
const BEGIN: i64 = 1_794_902_400_000;

pub fn context(seconds: i64) -> Context {
    Context {
        at: Stamp {
            ms: BEGIN + seconds * 1000,
            offset: 0,
            loose: false,
        },
        hand: "table".to_owned(),
        draw: 7,
    }
}

pub fn wish(format: &str, lifts: &[&str], platforms: u8) -> NewDay {
    NewDay {
        name: "Large day".to_owned(),
        date: NaiveDate::from_ymd_opt(2026, 11, 17).unwrap(),
        format: format.to_owned(),
        bar: Unit::Kg,
        scale: None,
        judges: None,
        categories: None,
        tie: None,
        step: None,
        lifts: Some(lifts.join(",")),
        platforms: Some(platforms),
    }
}

/// A number that looks like chance and is always the same.
pub fn chance(seed: u32, below: u32) -> u32 {
    let mut x = seed.wrapping_mul(2_654_435_761) ^ 0x9e37_79b9;
    x ^= x >> 15;
    x = x.wrapping_mul(0x85eb_ca6b);
    x ^= x >> 13;
    x % below
}

/// A roster of `n` athletes in as many flights of 40 as it takes, `platforms`
/// side by side; all in one flight where `one_flight`.
pub fn roster(n: u16, lifts: &[&str], platforms: u16, one_flight: bool) -> String {
    let mut text = format!(
        "lot,given,family,sex,born,grade,team,session,platform,flight,bodyweight,{}\n",
        lifts.join(",")
    );
    for lot in 1..=n {
        let flight = if one_flight { 0 } else { (lot - 1) / 40 };
        let seed = u32::from(lot);
        text += &format!(
            "{lot},Given{},Family{lot},{},2009-05-{:02},{},Team {},1,{},F{flight},{}.{}",
            chance(seed, 97),
            if lot % 2 == 0 { "F" } else { "M" },
            lot % 28 + 1,
            9 + lot % 4,
            lot % 23,
            flight % platforms + 1,
            45 + chance(seed + 1, 60),
            lot % 10,
        );
        for (i, _) in (1..).zip(lifts) {
            text += &format!(",{}", 40 + 5 * chance(seed + 7 * i, 20));
        }
        text.push('\n');
    }
    text
}

/// Says a command to a day in memory.
pub fn say(day: &mut Day, command: &Command, context: &Context) {
    let decided = decide(day, command, context)
        .unwrap_or_else(|refusal| panic!("{command:?}: {refusal}"));
    let act = day.next_seq();
    for event in decided.events {
        let recorded = Recorded {
            seq: day.next_seq(),
            act,
            id: format!("a{act}"),
            at: context.at,
            happened: None,
            hand: context.hand.clone(),
            platform: decided.platform,
            event,
        };
        apply(day, &recorded);
    }
}

/// A day in memory with `n` entries and no attempt.
pub fn entered(format: &str, n: u16, lifts: &[&str], one_flight: bool) -> Day {
    let mut day = Day::new();
    let made = Recorded {
        seq: 1,
        act: 1,
        id: "made".to_owned(),
        at: context(0).at,
        happened: None,
        hand: String::new(),
        platform: None,
        event: new_day(&wish(format, lifts, 10)).unwrap(),
    };
    apply(&mut day, &made);
    let text = roster(n, lifts, 10, one_flight);
    let read = read_roster(text.as_bytes(), day.facts(), None).unwrap();
    say(&mut day, &Command::Add(read.entries), &context(1));
    day
}

/// A finished attempt as a card tells it.
pub fn tally(number: u16, lift: &str, attempt: u8, kilos: u32, good: bool) -> Command {
    Command::Tally {
        which: Which {
            number: Some(number),
            lift: Some(Slug::new(lift).unwrap()),
            attempt: Some(attempt),
        },
        load: Some(Weight::parse(&kilos.to_string(), Unit::Kg).unwrap()),
        outcome: Outcome {
            ruling: Some(if good { Ruling::Good } else { Ruling::No }),
            ..Outcome::default()
        },
        platform: None,
    }
}

/// The acts of an athlete in a lift: attempts with the request before each but
/// the first, and a remark where it makes the number of acts even.
pub fn acts_of(number: u16, lift: &str) -> Vec<Command> {
    let which = |attempt| Which {
        number: Some(number),
        lift: Some(Slug::new(lift).unwrap()),
        attempt: Some(attempt),
    };
    let mut list = Vec::new();
    let mut kilos = 40 + 5 * chance(u32::from(number), 20);
    for attempt in 1..=3_u8 {
        list.push(Command::Request {
            which: which(attempt),
            load: maxday::day::LoadAsked::Exactly(
                Weight::parse(&kilos.to_string(), Unit::Kg).unwrap(),
            ),
            record: false,
            platform: None,
        });
        let good = chance(u32::from(number) * 3 + u32::from(attempt), 10) < 7;
        list.push(tally(number, lift, attempt, kilos, good));
        if good {
            kilos += 5;
        }
    }
    list
}

/// All acts of a day of `n` athletes: `2 + 6 * lifts` each.
pub fn acts(n: u16, lifts: &[&str]) -> Vec<Command> {
    let mut list = Vec::new();
    for number in 1..=n {
        list.push(Command::Roll {
            number,
            roll: maxday::day::Roll::Here,
            reason: String::new(),
        });
        list.push(Command::Note {
            number: Some(number),
            act: None,
            text: "belt too thick, changed".to_owned(),
            platform: None,
        });
    }
    for lift in lifts {
        for number in 1..=n {
            list.extend(acts_of(number, lift));
        }
    }
    list
}

/// A day as a file, let go again.
pub fn write(path: &Path, n: u16, lifts: &[&str], commands: &[Command]) {
    let event = new_day(&wish("max-day", lifts, 10)).unwrap();
    let mut live = Live::create(path, event, &context(0)).unwrap();
    let text = roster(n, lifts, 10, false);
    let read = read_roster(text.as_bytes(), live.day().facts(), None).unwrap();
    live.batch(|batch| {
        let _ = batch.submit(&Command::Add(read.entries), &context(1), None)?;
        for (command, seconds) in commands.iter().zip(2..) {
            let _ = batch.submit(command, &context(seconds), None)?;
        }
        Ok::<(), SubmitError>(())
    })
    .unwrap();
    live.close().unwrap();
}
