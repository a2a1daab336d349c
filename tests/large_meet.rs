//! A meet of 150 athletes in 14 flights, run through the program at once.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;

use std::collections::BTreeMap;

use bin::{ACTS, Folder, Sheet};
use maxday::day::{
    Command, Context, Day, NewDay, Recorded, Stamp, apply, decide, new_day, queue,
};
use maxday::exchange::acts::{ActRow, command};
use maxday::exchange::roster::read_roster;
use maxday::measure::Unit;

const ATHLETES: u32 = 150;
const FLIGHTS: u32 = 14;
const SLOTS: [&str; 2] = ["snatch", "clean-and-jerk"];

/// 2026-11-21 08:00 in UTC, in milliseconds.
const BEGIN: i64 = 1_795_248_000_000;

fn flight_of(lot: u32) -> (u32, &'static str) {
    let flight = (lot - 1) % FLIGHTS;
    (
        flight / 2 + 1,
        if flight.is_multiple_of(2) { "A" } else { "B" },
    )
}

fn opener(lot: u32, slot: usize) -> u32 {
    if slot == 0 {
        40 + lot * 7 % 61
    } else {
        55 + lot * 11 % 73
    }
}

fn roster() -> String {
    let mut text =
        "lot,given,family,sex,born,team,session,flight,bodyweight,snatch,clean-and-jerk\n"
            .to_owned();
    for lot in 1..=ATHLETES {
        let (session, flight) = flight_of(lot);
        text += &format!(
            "{lot},Given{lot},Family{lot},{},{}-05-{:02},Team {},{session},{flight},{}.{},{},{}\n",
            if lot % 3 == 0 { "M" } else { "F" },
            2008 + lot % 4,
            lot % 28 + 1,
            lot % 9,
            48 + lot % 60,
            lot % 10,
            opener(lot, 0),
            opener(lot, 1),
        );
    }
    text
}

/// The meet while its story is written.
struct Story {
    day: Day,
    now: i64,
    rows: Vec<String>,
    n_lights: u32,
    /// Good loads by lot and slot.
    best: BTreeMap<(u16, usize), u32>,
}

impl Story {
    fn stamp(&self) -> Stamp {
        Stamp {
            ms: BEGIN + self.now * 1000,
            offset: 0,
            loose: false,
        }
    }

    fn record(&mut self, command: &Command) {
        let context = Context {
            at: self.stamp(),
            hand: "Table".to_owned(),
            draw: 1,
        };
        let decided = decide(&self.day, command, &context)
            .unwrap_or_else(|refusal| panic!("{command:?}: {refusal}"));
        let act = self.day.next_seq();
        for (event, seq) in decided.events.into_iter().zip(act..) {
            let recorded = Recorded {
                seq,
                act,
                id: format!("a{act}"),
                at: context.at,
                happened: None,
                hand: context.hand.clone(),
                platform: decided.platform,
                event,
            };
            apply(&mut self.day, &recorded);
        }
    }

    /// Says an act and writes its row.
    fn say(&mut self, row: ActRow) {
        let row = ActRow {
            at: self.stamp().to_string(),
            by: "Table".to_owned(),
            ..row
        };
        let command = command(&self.day, &row).unwrap();
        self.record(&command);
        self.rows.push(row.cells().join(","));
    }

    /// Calls the first in the queue, rules, and takes the next declaration.
    fn attempt(&mut self, slot: usize) -> bool {
        let Some(first) = queue(self.day.facts(), 1).into_iter().next() else {
            return false;
        };
        let (number, attempt) = (first.number, first.attempt);
        let load = first.load.unwrap().mass.exact(Unit::Kg).unwrap();
        self.say(ActRow {
            act: "call".to_owned(),
            athlete: number.to_string(),
            ..ActRow::default()
        });
        self.now += 25;
        let chance =
            (u32::from(number) * 31 + u32::from(attempt) * 17 + self.n_lights) % 10;
        let lights = [
            "www", "wwr", "wrw", "rww", "www", "www", "wwr", "rrw", "rrr", "wrr",
        ];
        let lights = lights[chance as usize];
        let good = chance < 7;
        self.say(ActRow {
            act: "lights".to_owned(),
            detail: lights.to_owned(),
            ..ActRow::default()
        });
        self.n_lights += 1;
        let kilos: u32 = load.parse().unwrap();
        if good {
            let _ = self.best.insert((number, slot), kilos);
        }
        self.now += 5;
        if attempt < 3 {
            let more = if good { 1 + chance % 4 } else { 0 };
            self.say(ActRow {
                act: "request".to_owned(),
                athlete: number.to_string(),
                lift: SLOTS[slot].to_owned(),
                load: (kilos + more).to_string(),
                ..ActRow::default()
            });
        }
        self.now += 5;
        true
    }
}

fn story(roster: &str) -> Story {
    let wish = NewDay {
        name: "day".to_owned(),
        date: "2026-11-21".parse().unwrap(),
        format: "weightlifting".to_owned(),
        bar: Unit::Kg,
        scale: None,
        judges: None,
        categories: None,
        tie: None,
        step: None,
        lifts: None,
        platforms: None,
    };
    let mut story = Story {
        day: Day::new(),
        now: 0,
        rows: Vec::new(),
        n_lights: 0,
        best: BTreeMap::new(),
    };
    let made = Recorded {
        seq: 1,
        act: 1,
        id: "made".to_owned(),
        at: story.stamp(),
        happened: None,
        hand: String::new(),
        platform: None,
        event: new_day(&wish).unwrap(),
    };
    apply(&mut story.day, &made);
    let read = read_roster(roster.as_bytes(), story.day.facts(), None).unwrap();
    story.record(&Command::Add(read.entries));
    for flight in 0..FLIGHTS {
        let (session, name) = flight_of(flight + 1);
        for (slot, lift) in SLOTS.iter().enumerate() {
            story.say(ActRow {
                act: "start".to_owned(),
                lift: (*lift).to_owned(),
                detail: format!("{session}/{name}"),
                ..ActRow::default()
            });
            while story.attempt(slot) {}
        }
    }
    story
}

#[allow(clippy::disallowed_methods)] // The time is only printed.
fn now() -> std::time::Instant {
    std::time::Instant::now()
}

#[test]
fn a_large_meet_runs_through_at_once() {
    let roster = roster();
    let story = story(&roster);
    assert_eq!(story.n_lights, ATHLETES * 6);
    let folder = Folder::new();
    folder.write("roster.csv", &roster);
    folder.write("acts.csv", format!("{ACTS}\n{}\n", story.rows.join("\n")));
    // For whoever wants to time it by hand.
    if let Ok(copy) = std::env::var("MAXDAY_LARGE_MEET") {
        std::fs::write(format!("{copy}/roster.csv"), &roster).unwrap();
        std::fs::write(format!("{copy}/acts.csv"), folder.bytes("acts.csv")).unwrap();
    }
    let begin = now();
    let _ = folder.ok("new day.maxday --format weightlifting --date 2026-11-21");
    let _ = folder.ok("roster day.maxday roster.csv");
    let imported = now();
    let _ = folder.ok("apply day.maxday acts.csv");
    let applied = now();
    let out = folder.ok("standings day.maxday");
    let stood = now();
    println!(
        "{} acts: made and imported in {:?}, applied in {:?}, standings in {:?}",
        story.rows.len(),
        imported - begin,
        applied - imported,
        stood - applied
    );
    folder.sound("day.maxday");

    let sheet = Sheet::read(&out);
    assert_eq!(sheet.rows.len(), ATHLETES as usize);
    for lot in 1..=ATHLETES {
        let number = u16::try_from(lot).unwrap();
        let bests: Vec<Option<u32>> = (0..SLOTS.len())
            .map(|slot| story.best.get(&(number, slot)).copied())
            .collect();
        for (slot, best) in SLOTS.iter().zip(&bests) {
            let shown = sheet.of(lot, &format!("{slot} best"));
            let expected = best.map(|b| b.to_string()).unwrap_or_default();
            assert_eq!(shown, expected, "lot {lot}, {slot}");
            for n in 1..=3 {
                let ruling = sheet.of(lot, &format!("{slot} {n} ruling"));
                assert!(matches!(ruling, "good" | "no"), "lot {lot}: {ruling}");
            }
        }
        let total = match bests.as_slice() {
            [Some(one), Some(other)] => (one + other).to_string(),
            _ => String::new(),
        };
        assert_eq!(sheet.of(lot, "total"), total, "lot {lot}");
        assert_eq!(
            sheet.of(lot, "place").is_empty(),
            total.is_empty(),
            "lot {lot}"
        );
    }
    places_follow_totals(&sheet);
    let attempts = Sheet::read(&folder.ok("attempts day.maxday"));
    assert_eq!(attempts.rows.len(), (ATHLETES * 6) as usize);
    assert!(Sheet::read(&folder.ok("queue day.maxday")).rows.is_empty());
}

/// In each group the places are 1, 2, 3 … and no total is larger than one
/// before it.
fn places_follow_totals(sheet: &Sheet) {
    let mut groups: BTreeMap<String, Vec<(u32, u32)>> = BTreeMap::new();
    let at = |name: &str| sheet.column(name);
    for row in &sheet.rows {
        if let (Ok(place), Ok(total)) =
            (row[at("place")].parse(), row[at("total")].parse())
        {
            groups
                .entry(row[at("group")].clone())
                .or_default()
                .push((place, total));
        }
    }
    assert!(groups.len() > 8, "{:?}", groups.keys());
    for (label, lines) in groups {
        let places: Vec<u32> = lines.iter().map(|(p, _)| *p).collect();
        let expected: Vec<u32> = (1..).take(lines.len()).collect();
        assert_eq!(places, expected, "{label}");
        assert!(lines.is_sorted_by(|a, b| a.1 >= b.1), "{label}: {lines:?}");
    }
}

#[test]
fn a_late_row_takes_the_whole_meet_back() {
    let roster = roster();
    let story = story(&roster);
    let folder = Folder::new();
    folder.write("roster.csv", &roster);
    let rows = story.rows.join("\n");
    folder.write("acts.csv", format!("{ACTS}\n{rows}\nhere,999,,,,,,,,\n"));
    let _ = folder.ok("new day.maxday --format weightlifting --date 2026-11-21");
    let _ = folder.ok("roster day.maxday roster.csv");
    let before = folder.ok("acts day.maxday");
    let sentence = folder.no("apply day.maxday acts.csv");
    let line = format!("line {}", story.rows.len() + 2);
    bin::has(&sentence, &[&line, "999"]);
    assert_eq!(before, folder.ok("acts day.maxday"));
    folder.sound("day.maxday");
}

/// Larger than any school: so many athletes, platforms and lifts.
const MOST: (u32, u32) = (1_000, 10);
const LIFTS: [&str; 3] = ["power-clean", "back-squat", "bench-press"];

/// The roster and 20 acts for each athlete of the largest day, with the best
/// good loads by lot and lift.
fn largest() -> (String, String, BTreeMap<(u32, usize), u32>) {
    let mut roster = format!(
        "lot,given,family,sex,grade,session,platform,flight,{}\n",
        LIFTS.join(",")
    );
    let opener = |lot: u32, lift: usize| {
        let more = lot * (7 + 4 * u32::try_from(lift).unwrap()) % 17;
        40 + 5 * more
    };
    for lot in 1..=MOST.0 {
        let flight = (lot - 1) / 25;
        roster += &format!(
            "{lot},Given{},Family{lot},{},{},1,{},F{flight},{},{},{}\n",
            lot % 131,
            if lot % 2 == 0 { "M" } else { "F" },
            9 + lot % 4,
            flight % MOST.1 + 1,
            opener(lot, 0),
            opener(lot, 1),
            opener(lot, 2),
        );
    }
    let mut acts = format!("{ACTS}\n");
    let mut best = BTreeMap::new();
    for lot in 1..=MOST.0 {
        acts += &format!(
            "here,{lot},,,,,,,,\nweigh,{lot},,,{}.5,,,,,\n",
            45 + lot % 70
        );
    }
    for (at, lift) in LIFTS.iter().enumerate() {
        for lot in 1..=MOST.0 {
            let mut kilos = opener(lot, at);
            for attempt in 1..=3 {
                let good = (lot * 31 + attempt * 17) % 10 < 7;
                let word = if good { "good" } else { "no" };
                acts += &format!("request,{lot},{lift},{attempt},{kilos},,,,,\n");
                acts += &format!("tally,{lot},{lift},{attempt},{kilos},{word},,,,\n");
                if good {
                    let _ = best.insert((lot, at), kilos);
                    kilos += 5;
                }
            }
        }
    }
    (roster, acts, best)
}

#[test]
#[ignore = "20,000 acts through the program: some minutes unless built for release"]
fn the_largest_day_runs_through_the_program() {
    let (roster, acts, best) = largest();
    assert_eq!(acts.lines().count(), 20_001);
    let folder = Folder::new();
    folder.write("roster.csv", &roster);
    folder.write("acts.csv", &acts);
    let lifts = LIFTS.join(",");
    let new = |day: &str| {
        let _ = folder.ok(&format!(
            "new {day} --format max-day --unit kg --date 2026-11-17 --platforms {} \
             --lifts {lifts}",
            MOST.1
        ));
    };
    let timed = |line: &str| {
        let begin = now();
        let out = folder.ok(line);
        println!("{line}: {:?}", now() - begin);
        out
    };
    new("day.maxday");
    let _ = timed("roster day.maxday roster.csv");
    let _ = timed("apply day.maxday acts.csv");
    let standings = timed("standings day.maxday");
    let sheet = Sheet::read(&standings);
    assert_eq!(sheet.rows.len(), MOST.0 as usize);
    let lots = sheet.column("lot");
    for row in &sheet.rows {
        let lot: u32 = row[lots].parse().unwrap();
        for (at, lift) in LIFTS.iter().enumerate() {
            let shown = &row[sheet.column(&format!("{lift} best"))];
            let expected = best.get(&(lot, at)).map(ToString::to_string);
            assert_eq!(*shown, expected.unwrap_or_default(), "lot {lot}, {lift}");
        }
    }
    let attempts = Sheet::read(&timed("attempts day.maxday"));
    assert_eq!(attempts.rows.len(), 9_000);
    for platform in 1..=MOST.1 {
        let _ = folder.ok(&format!("queue day.maxday --platform {platform}"));
    }
    let _ = timed("papers day.maxday --out papers --only results,start-list");
    assert!(folder.bytes("papers/results.pdf").starts_with(b"%PDF"));
    let checked = timed("check day.maxday");
    assert_eq!(checked.lines().last(), Some("sound"), "{checked}");
    // The story gives the same day again.
    folder.write("all.csv", timed("acts day.maxday"));
    new("again.maxday");
    let _ = timed("apply again.maxday all.csv");
    assert_eq!(folder.ok("standings again.maxday"), standings);
}
