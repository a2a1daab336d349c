//! What must hold of any input, and the sound inputs that are spoilt.

use std::path::PathBuf;

use maxday::day::{
    Command, Context, Day, Recorded, Stamp, apply, decide, new_day, queue,
};
use maxday::desk::call_line;
use maxday::exchange::acts::{command, read_acts, stamp};
use maxday::exchange::roster::{read_roster, read_update, update};
use maxday::exchange::{acts_out, text};
use maxday::file::shape::{self, Hidden};
use maxday::file::{Live, check};
use maxday::measure::{Mass, MassError, Unit, Weight};
use maxday::rules::{Rules, own_format};
use maxday::samples::{self, Sample};
use maxday::sheets::{Audience, standings_table};
use maxday::standings::Basis;

fn context(n: i64) -> Context {
    Context {
        at: Stamp {
            ms: 1_794_902_400_000 + n * 1_000,
            offset: 0,
            loose: false,
        },
        hand: "table".to_owned(),
        draw: 7,
    }
}

/// Enters a command; whether it was taken.
fn enter(day: &mut Day, command: &Command, context: &Context) -> bool {
    let Ok(decided) = decide(day, command, context) else {
        return false;
    };
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
    true
}

/// A sample's day, made and with its roster.
fn begun(sample: Sample) -> Day {
    let mut day = Day::new();
    let event = new_day(&samples::wish(sample.arguments()).unwrap()).unwrap();
    let made = Recorded {
        seq: 1,
        act: 1,
        id: "made".to_owned(),
        at: context(0).at,
        happened: None,
        hand: String::new(),
        platform: None,
        event,
    };
    apply(&mut day, &made);
    let read = read_roster(sample.roster().as_bytes(), day.facts(), None).unwrap();
    assert!(enter(&mut day, &Command::Add(read.entries), &context(1)));
    day
}

/// Everything that a face asks of a day; none of it may panic.
fn look_at(day: &Day) {
    let facts = day.facts();
    for number in 1..=facts.platforms.len() {
        let number = u8::try_from(number).unwrap_or(u8::MAX);
        drop(queue(facts, number));
        drop(call_line::owed(facts, number, context(5_000).at));
        drop(call_line::suggestion(facts, number));
    }
    for basis in [Basis::Category, Basis::Slot] {
        drop(standings_table(facts, basis, Audience::Private));
    }
}

/// A sentence for a person.
fn says(sentence: &str) {
    assert!(!sentence.trim().is_empty(), "nothing is said");
    assert!(
        !sentence.contains("panicked") && !sentence.contains("Err("),
        "not for people: {sentence}"
    );
}

fn texts(list: &[&str]) -> Vec<Vec<u8>> {
    list.iter().map(|text| text.as_bytes().to_vec()).collect()
}

// Rosters.

pub const ROSTER_WORDS: &[&str] = &[
    "lot",
    "name",
    "given",
    "family",
    "sex",
    "born",
    "grade",
    "team",
    "category",
    "division",
    "session",
    "platform",
    "flight",
    "bodyweight",
    "unit",
    "clearance",
    "entry total",
    "power-clean",
    "back-squat last",
    "yes",
    "no",
    "up to 135",
    "kg",
    "lb",
    "F",
    "M",
    "2009-02-29",
    "31.12.2009",
    "12/31/2009",
    "-",
    "power-clean: no",
];

pub fn roster_seeds() -> Vec<Vec<u8>> {
    let mut seeds: Vec<Vec<u8>> = Sample::ALL
        .iter()
        .map(|sample| sample.roster().as_bytes().to_vec())
        .collect();
    seeds.extend(texts(&[
        "name\nAnn Lee\n",
        "lot;given;family;sex;born;bodyweight;clearance\n1;Ann;Lee;F;2009-04-03;63,2;yes\n",
        "\u{feff}name\tsex\tback-squat\tback-squat last\r\n\"Lee, Ann\"\tF\t60\t70 lb\r\n",
        "lot,name,flight,session,platform,back-squat\n1,\"Ann\nLee\",A,1,2,-\n2,B C,B,2,1,\n",
    ]));
    let utf16: Vec<u8> = "lot,name\n1,Ann Lee\n"
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    seeds.push([vec![0xff, 0xfe], utf16].concat());
    seeds.push(b"lot,name\n1,Andr\xe9 M\xfcller\n".to_vec());
    seeds
}

pub fn roster() -> impl FnMut(&[u8]) {
    let full = begun(Sample::MaxDay);
    let mut empty = Day::new();
    apply(&mut empty, &full.journal()[0].clone());
    move |input| {
        match read_roster(input, empty.facts(), None) {
            Ok(read) => {
                let mut day = empty.clone();
                // A refusal names what is wrong; taken, it must be a day.
                if enter(&mut day, &Command::Add(read.entries), &context(2)) {
                    look_at(&day);
                }
            }
            Err(faults) => {
                assert!(!faults.is_empty());
                faults.iter().for_each(|fault| says(&fault.to_string()));
            }
        }
        if let Ok(read) = read_update(input, full.facts(), None) {
            let changes = update(full.facts(), &read);
            let mut day = full.clone();
            let _ = enter(&mut day, &Command::EditMany(changes.changed), &context(2));
            let _ = enter(&mut day, &Command::Add(changes.added), &context(3));
            look_at(&day);
        }
    }
}

// Acts.

pub const ACTS_WORDS: &[&str] = &[
    "add",
    "edit",
    "place",
    "here",
    "absent",
    "away",
    "back",
    "withdraw",
    "disqualify",
    "number",
    "weigh",
    "clear",
    "cap",
    "set",
    "record",
    "check",
    "start",
    "break",
    "close",
    "reopen",
    "request",
    "call",
    "clock",
    "lights",
    "tally",
    "pass",
    "stop",
    "extra",
    "loaded",
    "overrule",
    "challenge",
    "correct",
    "annul",
    "note",
    "undo",
    "redo",
    "good",
    "no",
    "no:press-out",
    "wwr:press-out",
    "time",
    "; reps=5",
    "; as=hang-power-clean",
    "up to 135",
    "platforms=24",
    "step=0.5",
    "attempts=9",
    "roster",
    "scale",
    "rest",
    "pain",
    "keep",
    "repeat",
    "again",
    "0:42",
    "+5",
    "-2.5",
];

pub fn acts_seeds() -> Vec<Vec<u8>> {
    Sample::ALL
        .iter()
        .map(|sample| sample.acts().as_bytes().to_vec())
        .collect()
}

pub fn acts() -> impl FnMut(&[u8]) {
    let days = Sample::ALL.map(begun);
    move |input| {
        let Ok(words) = text::decode(input) else {
            return;
        };
        let rows = match read_acts(&words) {
            Ok(rows) => rows,
            Err(fault) => return says(&fault.to_string()),
        };
        let mut day = days[input.len() % days.len()].clone();
        for (row, n) in rows.iter().take(400).zip(10..) {
            let at = stamp(row, day.facts().date, 0);
            match command(&day, row) {
                Ok(command) => {
                    let at = at.ok().flatten().unwrap_or(context(n).at);
                    let context = Context { at, ..context(n) };
                    let _ = enter(&mut day, &command, &context);
                }
                Err(sentence) => says(&sentence),
            }
        }
        look_at(&day);
        // Folded at once, the journal gives the same day.
        let again = Day::from_journal(day.journal().iter().cloned());
        assert!(again.facts() == day.facts(), "folded at once it differs");
        drop(acts_out::rows(&day));
    }
}

// The call line.

pub const LINE_WORDS: &[&str] = &[
    "12",
    "3",
    "85",
    "+5",
    "w",
    "r",
    "wwr",
    "call",
    "pass",
    "rest",
    "time",
    "stop",
    "pain",
    "fault",
    "press-out",
    "to",
    "away",
    "back",
    "here",
    "absent",
    "withdraw",
    "disqualify",
    "guest",
    "tally",
    "good",
    "no",
    "85x5",
    "loaded",
    "keep",
    "repeat",
    "again",
    "extra",
    "overrule",
    "challenge",
    "start",
    "snatch",
    "A",
    "break",
    "check",
    "close",
    "clock",
    "0:42",
    "go",
    "note",
    "undo",
    "redo",
    "as",
    "record",
    "who",
    " ",
];

pub fn line_seeds() -> Vec<Vec<u8>> {
    let mut seeds: Vec<Vec<u8>> = call_line::SHORTHAND
        .iter()
        .map(|(typed, _)| typed.as_bytes().to_vec())
        .collect();
    seeds.extend(texts(&[
        "",
        "start snatch 1/A",
        "12 clear yes",
        "1 2 3 4 5",
        "3 85 www",
    ]));
    seeds
}

pub fn line() -> impl FnMut(&[u8]) {
    let days = Sample::ALL.map(|sample| {
        let mut day = begun(sample);
        let rows = read_acts(sample.acts()).unwrap();
        for (row, n) in rows.iter().take(150).zip(10..) {
            if let Ok(command) = command(&day, row) {
                let _ = enter(&mut day, &command, &context(n));
            }
        }
        day
    });
    let mut day = days[0].clone();
    let mut n = 0_usize;
    move |input| {
        n += 1;
        // Every now and then a fresh day, so that they don't all end closed.
        if n.is_multiple_of(64) {
            day = days[n / 64 % days.len()].clone();
        }
        let typed = String::from_utf8_lossy(input);
        let seconds = 10_000 + i64::try_from(n % 64).unwrap();
        for platform in [1, 2, 9] {
            match call_line::read(&typed, day.facts(), platform) {
                Ok(meaning) => {
                    says(meaning.sentence());
                    if let Some(command) = meaning.command() {
                        says(&call_line::say(day.facts(), platform, command));
                        if platform == 1 {
                            let _ = enter(&mut day, command, &context(seconds));
                        }
                    }
                }
                Err(sentence) => says(&sentence),
            }
        }
        if n.is_multiple_of(16) {
            look_at(&day);
        }
    }
}

// Masses.

pub const MASS_WORDS: &[&str] = &[
    "kg",
    "lb",
    "KG",
    " ",
    ".",
    ",",
    "0.00000000001",
    "453592.37",
    "1/2",
    "-",
    "+",
];

pub fn mass_seeds() -> Vec<Vec<u8>> {
    texts(&[
        "100",
        "62.5",
        "62,5",
        "0.001 lb",
        "135 lb",
        "85kg",
        "1310",
        "0.5",
        "45lb",
        "600",
        "0.45359237",
        "99999999",
    ])
}

pub fn mass() -> impl FnMut(&[u8]) {
    |input| {
        let typed = String::from_utf8_lossy(input);
        drop(Mass::parse(&typed, Unit::Kg));
        for unit in [Unit::Kg, Unit::Lb] {
            match Weight::parse(&typed, unit) {
                Ok(weight) => {
                    let exact = weight.mass.exact(weight.unit);
                    let shown = exact.unwrap_or_else(|| panic!("{typed} isn't exact"));
                    let again = Weight::parse(&shown, weight.unit).unwrap();
                    assert_eq!(again.mass, weight.mass, "{typed} as {shown}");
                    for unit in [Unit::Kg, Unit::Lb] {
                        says(&weight.show(unit));
                        says(&weight.mass.show_with_unit(unit));
                        says(&weight.mass.rounded(unit, 1));
                        // The largest mass in kg has more digits in lb.
                        let exact = weight.mass.exact(unit);
                        match exact.map(|exact| Mass::parse(&exact, unit)) {
                            Some(Ok(again)) => assert_eq!(again, weight.mass),
                            Some(Err(MassError::TooLarge(_))) | None => {}
                            Some(Err(error)) => panic!("{typed}: {error}"),
                        }
                    }
                }
                Err(error) => says(&error.to_string()),
            }
        }
    }
}

// Rules files.

pub const RULES_WORDS: &[&str] = &[
    "base",
    "max-day",
    "weightlifting",
    "powerlifting",
    "format",
    "title",
    "lifts",
    "true",
    "false",
    "= ",
    "[",
    "]",
    "{",
    "}",
    "'''",
    "step",
    "attempts",
    "order",
    "judges",
    "clock",
    "categories",
    "load attempt",
    "law",
    "advice",
];

pub fn rules_seeds() -> Vec<Vec<u8>> {
    let all = |unit: Unit, base: &str| {
        let rules = maxday::rules::format_named(base)
            .unwrap()
            .rules(unit)
            .unwrap();
        let mut text = format!("base = \"{base}\"\n");
        for (key, word) in rules.words() {
            text += &format!("{key} = {word:?}\n");
        }
        text.into_bytes()
    };
    let mut seeds: Vec<Vec<u8>> = ["max-day", "weightlifting", "powerlifting"]
        .into_iter()
        .flat_map(|base| [all(Unit::Kg, base), all(Unit::Lb, base)])
        .collect();
    seeds.extend(texts(&[
        "base = \"max-day\"\nattempts = 5\nclock = false\n",
        "base = \"weightlifting\"\ntitle = \"House cup\"\nlifts = \"snatch,clean-and-jerk\"\n",
    ]));
    seeds
}

pub fn rules() -> impl FnMut(&[u8]) {
    |input| {
        let text = String::from_utf8_lossy(input);
        for unit in [Unit::Kg, Unit::Lb] {
            match own_format(&text, unit) {
                Ok((_, rules)) => {
                    let words = rules.words();
                    let again = Rules::from_words(&words, unit);
                    let again = again.unwrap_or_else(|e| panic!("{e}: {words:?}"));
                    assert_eq!(again, rules, "{words:?}");
                }
                Err(error) => {
                    says(&error.why);
                    assert!(error.line >= 1);
                }
            }
        }
    }
}

// Stored events.

pub const EVENT_WORDS: &[&str] = &[
    "null",
    "true",
    "{}",
    "[]",
    "\"\"",
    "\"kg\"",
    "\"lb\"",
    "1e400",
    "-1",
    "256",
    "4294967296",
    "\"good\"",
    "\"power-clean\"",
    "\"+\":2,",
    "\"~\":true,",
    "\"m\":",
];

/// Where the parts of a stored event are parted.
const PARTED: u8 = 0x1e;

pub fn event_seeds() -> Vec<Vec<u8>> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/corpus");
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "json"))
        .collect();
    paths.sort();
    let seeds: Vec<Vec<u8>> = paths
        .iter()
        .map(|path| {
            let text = std::fs::read_to_string(path).unwrap();
            let stored: serde_json::Value = serde_json::from_str(&text).unwrap();
            let parts = [
                stored["kind"].as_str().unwrap().to_owned(),
                stored["shape"].to_string(),
                stored["body"].to_string(),
                match &stored["private"] {
                    serde_json::Value::Null => String::new(),
                    private => private.to_string(),
                },
            ];
            parts.map(String::into_bytes).join(&PARTED)
        })
        .collect();
    assert!(seeds.len() > 50);
    seeds
}

pub fn event() -> impl FnMut(&[u8]) {
    let day = begun(Sample::MaxDay);
    move |input| {
        let parts: Vec<_> = input.split(|b| *b == PARTED).collect();
        let text = |n: usize| {
            parts
                .get(n)
                .map(|part| String::from_utf8_lossy(part).into_owned())
                .unwrap_or_default()
        };
        let (kind, body, kept) = (text(0), text(2), text(3));
        let shape = text(1).parse().unwrap_or(1);
        let private = if kept.is_empty() {
            Hidden::None
        } else {
            Hidden::Kept(kept.as_str())
        };
        for private in [private, Hidden::Erased] {
            let (event, marks) = match shape::read(&kind, shape, &body, private) {
                Ok(read) => read,
                Err(error) => {
                    says(&error.to_string());
                    continue;
                }
            };
            // Written anew it reads the same.
            let stored = shape::store(&event, marks, "salt").unwrap();
            let private = stored.private.as_deref();
            let private = private.map_or(Hidden::None, Hidden::Kept);
            let again = shape::read(stored.kind, stored.shape, &stored.body, private);
            assert_eq!(again.unwrap().0, event);
            // Whatever is told can be folded.
            let mut day = day.clone();
            for _ in 0..2 {
                let seq = day.next_seq();
                let recorded = Recorded {
                    seq,
                    act: seq,
                    id: format!("a{seq}"),
                    at: context(9).at,
                    happened: None,
                    hand: String::new(),
                    platform: Some(1),
                    event: event.clone(),
                };
                apply(&mut day, &recorded);
            }
            look_at(&day);
        }
    }
}

// Whole days as files.

pub const DAY_WORDS: &[&str] = &[
    "journal",
    "lease",
    "meta",
    "CREATE TABLE",
    "SQLite format 3\0",
    "MxDy",
    "tally",
    "v1_standing",
    "entry-added",
    "{\"fact\":",
    "\0\0\0\x01",
];

pub fn day_seeds() -> Vec<Vec<u8>> {
    let folder = scratch("seeds");
    let seeds = Sample::ALL
        .iter()
        .map(|sample| {
            let path = folder.join(format!("{}.maxday", sample.file_stem()));
            samples::make(&path, *sample, context(0).at).unwrap();
            std::fs::read(&path).unwrap()
        })
        .collect();
    std::fs::remove_dir_all(&folder).unwrap();
    seeds
}

fn scratch(name: &str) -> PathBuf {
    let name = format!("maxday-fuzz-{}-{name}", std::process::id());
    let folder = std::env::temp_dir().join(name);
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

pub fn day_file() -> impl FnMut(&[u8]) {
    let folder = scratch("days");
    let path = folder.join("day.maxday");
    move |input| {
        let _ = std::fs::remove_file(folder.join("day.maxday-journal"));
        std::fs::write(&path, input).unwrap();
        let sound = match check(&path) {
            Ok(report) => {
                let said = report.to_string();
                says(&said);
                said.ends_with("\nsound")
            }
            Err(error) => {
                says(&error.to_string());
                false
            }
        };
        let read = Live::open_read(&path);
        match &read {
            Ok(live) => look_at(live.day()),
            Err(error) => {
                says(&error.to_string());
                assert!(!sound, "sound, and can't be read: {error}");
            }
        }
        drop(read);
        // Nothing of this has written to it.
        assert!(std::fs::read(&path).unwrap() == input, "the file changed");
        let note = Command::Note {
            number: None,
            act: None,
            text: "goes on".to_owned(),
            platform: None,
        };
        if let Ok(mut live) = Live::open(&path, context(90_000).at, "fuzz")
            && let Err(error) = live.submit(&note, &context(90_001), None)
        {
            says(&error.to_string());
        }
    }
}
