//! Killed at any instant: what was acknowledged is in the file.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;

use std::io::{BufRead, BufReader, Write};

use bin::{Folder, Sheet, has};

/// How often the program is killed: `MAXDAY_KILLS`, or 30 times.
fn kills() -> u32 {
    std::env::var("MAXDAY_KILLS")
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(30)
}

/// A small generator of numbers, so that a failure can be had again.
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, n: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        (self.0 >> 33) % n
    }
}

const ATHLETES: u32 = 6;

fn day(folder: &Folder) {
    let _ = folder.ok(
        "new day.maxday --format max-day --unit kg --date 2026-11-17 --lifts back-squat",
    );
    let mut roster = "lot,name,flight,back-squat\n".to_owned();
    for lot in 1..=ATHLETES {
        roster += &format!("{lot},Athlete {lot},A,{}\n", 60 + 5 * lot);
    }
    let _ = folder.roster("day.maxday", &roster);
}

/// The ids of acts that the file holds, in order.
fn ids(folder: &Folder) -> Vec<String> {
    let acts = Sheet::read(&folder.ok("acts day.maxday"));
    acts.all("id")
        .iter()
        .filter(|id| id.starts_with("act-"))
        .map(|id| (*id).to_owned())
        .collect()
}

/// One act by its number: requests, notes and bodyweights, which can always be
/// taken.
fn act(n: u64) -> String {
    let lot = n % u64::from(ATHLETES) + 1;
    match n % 3 {
        0 => format!("request,{lot},back-squat,{},,act-{n}", 100 + n % 7 * 10),
        1 => format!("note,{lot},,,said {n},act-{n}"),
        _ => format!("weigh,{lot},,{},,act-{n}", 50 + n % 90),
    }
}

#[test]
fn what_was_acknowledged_survives_a_kill() {
    let folder = Folder::new();
    day(&folder);
    let mut numbers = Numbers(2_026);
    let mut acknowledged: Vec<String> = Vec::new();
    let mut next = 0_u64;
    for round in 1..=kills() {
        let mut child = folder.spawn("apply day.maxday -");
        let mut stdin = child.stdin.take().unwrap();
        let mut answers = BufReader::new(child.stdout.take().unwrap());
        // All at once, so that the program is busy when it is killed.
        let from = next;
        let until = from + 25;
        let mut rows = "act,athlete,lift,load,detail,id\n".to_owned();
        for n in from..until {
            rows += &act(n);
            rows.push('\n');
        }
        let writer = std::thread::spawn(move || {
            let _ = stdin.write_all(rows.as_bytes());
            stdin
        });
        let killed_after = numbers.below(24);
        for n in from..=from + killed_after {
            let mut answer = String::new();
            let _ = answers.read_line(&mut answer).unwrap();
            assert_eq!(answer, format!("ok {}\n", n - from + 2), "round {round}");
            acknowledged.push(format!("act-{n}"));
        }
        // Sometimes in the middle of the next commit.
        let pause = numbers.below(4) * 500;
        std::thread::sleep(std::time::Duration::from_micros(pause));
        child.kill().unwrap();
        assert!(!child.wait().unwrap().success());
        drop(writer.join().unwrap());

        // Whoever comes first after the crash may be a reader or a writer.
        if round % 3 == 0 {
            folder.sound("day.maxday");
        }
        let held = ids(&folder);
        assert!(
            held.starts_with(&acknowledged),
            "round {round}: acknowledged {:?}, held {:?}",
            acknowledged.last(),
            held.last()
        );
        assert!(held.len() <= acknowledged.len() + 25, "round {round}");
        // What was stored but not answered any more is in the file as well.
        acknowledged = held;
        next = acknowledged
            .iter()
            .map(|id| id["act-".len()..].parse::<u64>().unwrap() + 1)
            .max()
            .unwrap();
        folder.sound("day.maxday");
    }
    // Going on works at once, and the journal says that somebody crashed.
    folder.apply("day.maxday", "here,1,,,,,,,,act-last");
    let acts = folder.ok("acts day.maxday");
    has(&acts, &["taken over"]);
    folder.sound("day.maxday");
    assert!(
        !folder.file("day.maxday-journal").exists(),
        "what was cut off is still there"
    );
}

#[test]
fn a_crash_is_taken_over_without_a_question() {
    let folder = Folder::new();
    day(&folder);
    let mut child = folder.spawn("apply day.maxday -");
    let mut stdin = child.stdin.take().unwrap();
    let mut answers = BufReader::new(child.stdout.take().unwrap());
    writeln!(stdin, "act,athlete,id\nhere,1,act-1").unwrap();
    let mut answer = String::new();
    let _ = answers.read_line(&mut answer).unwrap();
    let id = child.id();
    // As long as it lives, the day is held.
    has(
        &folder.refused("day.maxday", "here,2,,,,,,,,"),
        &["held by", &id.to_string()],
    );
    child.kill().unwrap();
    let _ = child.wait().unwrap();
    let out = folder
        .feed("apply day.maxday -", "act,athlete,id\nhere,2,act-2\n")
        .ok();
    assert_eq!(out, "ok 2\n");
    let acts = Sheet::read(&folder.ok("acts day.maxday"));
    let details = acts.all("detail").join("\n");
    has(&details, &["taken over", &id.to_string()]);
    assert_eq!(ids(&folder), ["act-1", "act-2"]);
    folder.sound("day.maxday");
    // The story replays onto another day.
    folder.write("all.csv", folder.ok("acts day.maxday"));
    let _ = folder.ok(
        "new again.maxday --format max-day --unit kg --date 2026-11-17 --lifts back-squat",
    );
    let _ = folder.ok("apply again.maxday all.csv");
    assert_eq!(folder.ok("acts again.maxday"), folder.ok("acts day.maxday"));
}

#[test]
fn a_killed_import_or_batch_is_there_whole_or_not_at_all() {
    let folder = Folder::new();
    day(&folder);
    let mut roster = "lot,name,flight,back-squat\n".to_owned();
    for lot in 100..1100 {
        roster += &format!("{lot},Athlete {lot},B,{}\n", 40 + lot % 50);
    }
    folder.write("many.csv", &roster);
    let mut numbers = Numbers(7);
    for round in 0..kills().div_ceil(3) {
        let day = format!("day-{round}.maxday");
        let _ = std::fs::copy(folder.file("day.maxday"), folder.file(&day)).unwrap();
        let mut child = folder.spawn(&format!("roster {day} many.csv"));
        std::thread::sleep(std::time::Duration::from_millis(numbers.below(250)));
        child.kill().unwrap();
        let _ = child.wait().unwrap();
        folder.sound(&day);
        let rows = Sheet::read(&folder.ok(&format!("standings {day}")))
            .rows
            .len();
        assert!(rows == 6 || rows == 1006, "round {round}: {rows} entries");
        folder.apply(&day, "here,1,,,,,,,,");
        folder.sound(&day);
        std::fs::remove_file(folder.file(&day)).unwrap();
    }
}
