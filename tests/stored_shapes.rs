//! Every event shape that was ever written still reads to the same event.
//!
//! `tests/corpus/` holds one file for each kind of event and each variant of
//! what is nested in it. Files of the newest shapes are written by running
//! this test with `MAXDAY_WRITE_CORPUS=1`; it never overwrites one, as a file
//! that was written once is frozen.

// Helpers of tests may stop at the first thing that isn't as it should be.
#![allow(clippy::unwrap_used, clippy::expect_used)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use chrono::NaiveDate;
use maxday::day::{
    Authority, ClockMove, Event, FaultGiven, Granted, Light, RecordKey, RecordMark,
    RuledFact, Ruling, Source, Stamp,
};
use maxday::file::shape::{self, Hidden, KINDS, Marks};
use maxday::lift::Slug;
use maxday::measure::{Unit, Weight};
use maxday::roster::{Born, Change, Clearance, EntryKey, Presence, Sex, SlotLine};
use serde_json::{Value, json};

const SALT: &str = "00112233445566778899aabbccddeeff";

fn slug(text: &str) -> Slug {
    Slug::new(text).unwrap()
}

fn kg(text: &str) -> Weight {
    Weight::parse(text, Unit::Kg).unwrap()
}

fn date(y: i32, m: u32, d: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(y, m, d).unwrap()
}

fn stamp(loose: bool) -> Stamp {
    Stamp {
        ms: 1_794_923_130_250,
        offset: -360,
        loose,
    }
}

fn fault(judge: Option<u8>, code: &str) -> FaultGiven {
    FaultGiven {
        judge,
        code: code.into(),
    }
}

fn ruled(change: impl FnOnce(&mut RuledFact)) -> Event {
    let mut fact = RuledFact {
        entry: EntryKey(7),
        slot: slug("clean"),
        lift: slug("power-clean"),
        attempt: 2,
        session: "1".into(),
        flight: "A".into(),
        requested: Some(kg("62.50")),
        loaded: Some(kg("62.5")),
        credited: Some(kg("62.5")),
        ruling: Ruling::Good,
        lights: vec![Light::White, Light::White, Light::Red],
        faults: vec![],
        called_at: None,
        reps: 1,
        source: Source::Lights,
        reason: String::new(),
    };
    change(&mut fact);
    Event::Ruled(Box::new(fact))
}

fn day_made() -> Event {
    Event::DayMade {
        name: "Quillback High fall max day".into(),
        date: date(2026, 11, 17),
        format: "max-day".into(),
        bar_unit: Unit::Lb,
        scale_unit: Unit::Kg,
        rules: BTreeMap::from([
            ("attempts".into(), "3".into()),
            ("queue".into(), "advice".into()),
        ]),
        slots: vec![
            SlotLine {
                slot: slug("clean"),
                variants: vec![slug("power-clean"), slug("hang-power-clean")],
            },
            SlotLine {
                slot: slug("back-squat"),
                variants: vec![slug("back-squat")],
            },
        ],
        platforms: 4,
    }
}

fn all_changes() -> Vec<Change> {
    vec![
        Change::Number(12),
        Change::Id("447-21".into()),
        Change::Given("Inés".into()),
        Change::Family("Arrecife".into()),
        Change::Sex(Some(Sex::F)),
        Change::Born(Some(Born::Date(date(2010, 1, 19)))),
        Change::Grade("11".into()),
        Change::Team("Otters rugby".into()),
        Change::Category("63".into()),
        Change::Divisions(vec!["novice".into(), "grade 11".into()]),
        Change::Place {
            session: "1".into(),
            flight: "E".into(),
        },
        Change::Bodyweight(Some(Weight::parse("143.6", Unit::Lb).unwrap())),
        Change::EntryTotal(Some(kg("120"))),
        Change::Slot {
            slot: slug("clean"),
            variant: Some(slug("power-clean")),
            opener: Some(kg("40")),
        },
        Change::Last {
            lift: slug("power-clean"),
            load: Some(kg("45")),
        },
        Change::Clearance {
            slot: Some(slug("clean")),
            clearance: Some(Clearance::UpTo(kg("50"))),
            until: None,
        },
        Change::Setup {
            name: "rack squat".into(),
            value: "11".into(),
        },
    ]
}

fn blank_changes() -> Vec<Change> {
    vec![
        Change::Sex(None),
        Change::Sex(Some(Sex::M)),
        Change::Born(None),
        Change::Born(Some(Born::Year(2011))),
        Change::Divisions(vec![]),
        Change::Bodyweight(None),
        Change::EntryTotal(None),
        Change::Slot {
            slot: slug("clean"),
            variant: None,
            opener: None,
        },
        Change::Last {
            lift: slug("back-squat"),
            load: None,
        },
        Change::Clearance {
            slot: None,
            clearance: None,
            until: None,
        },
        Change::Clearance {
            slot: None,
            clearance: Some(Clearance::Yes),
            until: None,
        },
        Change::Clearance {
            slot: Some(slug("back-squat")),
            clearance: Some(Clearance::No),
            until: None,
        },
    ]
}

/// Details of the second shape: a guest, and clearances that end.
fn later_changes() -> Vec<Change> {
    vec![
        Change::Number(12),
        Change::Given("Inés".into()),
        Change::Guest(true),
        Change::Clearance {
            slot: Some(slug("clean")),
            clearance: Some(Clearance::UpTo(kg("50"))),
            until: Some(last_day()),
        },
        Change::Clearance {
            slot: None,
            clearance: Some(Clearance::Yes),
            until: None,
        },
    ]
}

fn last_day() -> NaiveDate {
    date(2026, 12, 1)
}

fn listed(stands: bool) -> Event {
    Event::RecordListed {
        record: RecordKey::new(slug("power-clean"), Some(Sex::F), "+87", "novice"),
        mark: stands.then(|| RecordMark {
            load: Some(Weight::parse("142.5", Unit::Lb).unwrap()),
            holder: "Odile Ferreira".into(),
            date: "spring 2019".into(),
            place: "Bellweather gym".into(),
        }),
    }
}

fn requested(record: bool) -> Event {
    Event::Requested {
        entry: EntryKey(7),
        slot: slug("clean"),
        attempt: 2,
        load: kg("62.50"),
        change: true,
        record,
    }
}

fn disqualified(slot: Option<Slug>, reason: &str) -> Event {
    Event::Disqualified {
        entry: EntryKey(7),
        slot,
        reason: reason.into(),
    }
}

fn roll(presence: Presence, back: bool, reason: &str) -> Event {
    Event::RollAnswered {
        entry: EntryKey(7),
        presence,
        back,
        reason: reason.into(),
    }
}

fn cleared(slot: Option<Slug>, clearance: Clearance) -> Event {
    cleared_until(slot, clearance, None)
}

fn cleared_until(
    slot: Option<Slug>,
    clearance: Clearance,
    until: Option<NaiveDate>,
) -> Event {
    Event::Cleared {
        entry: EntryKey(7),
        slot,
        clearance,
        until,
        who: "Ms Bellweather".into(),
        why: "back from a sprained wrist".into(),
    }
}

fn found(granted: Granted) -> Event {
    Event::LoadFound {
        entry: EntryKey(7),
        slot: slug("clean"),
        attempt: 2,
        loaded: kg("60"),
        credited: kg("60"),
        granted,
    }
}

fn moved(movement: ClockMove) -> Event {
    Event::ClockMoved { movement }
}

fn reruled(authority: Authority) -> Event {
    Event::Reruled {
        entry: EntryKey(7),
        slot: slug("clean"),
        attempt: 2,
        ruling: Ruling::No,
        faults: vec![fault(Some(3), "press-out")],
        authority,
        reason: "seen on the film".into(),
    }
}

fn corrected(event: Event, reason: &str) -> Event {
    Event::Corrected {
        target: 40,
        event: Box::new(event),
        reason: reason.into(),
    }
}

/// One of each, by the name of its file less the shape's number.
fn samples() -> Vec<(&'static str, Event)> {
    let entry = EntryKey(7);
    let clean = || slug("clean");
    let weighed = || Event::Weighed {
        entry,
        bodyweight: Weight::parse("143.60", Unit::Lb).unwrap(),
    };
    let called = |clock, following| Event::Called {
        entry,
        slot: clean(),
        lift: slug("power-clean"),
        attempt: 2,
        load: kg("62.5"),
        clock,
        following,
    };
    vec![
        ("day-made", day_made()),
        (
            "setting-changed",
            Event::SettingChanged {
                key: "platform.1".into(),
                value: "Rack 1".into(),
            },
        ),
        (
            "flight-made",
            Event::FlightMade {
                session: "1".into(),
                flight: "A".into(),
                platform: 2,
            },
        ),
        (
            "entry-added",
            Event::EntryAdded {
                entry,
                number: 12,
                changes: all_changes(),
            },
        ),
        (
            "entry-added.no-private",
            Event::EntryAdded {
                entry,
                number: 12,
                changes: vec![],
            },
        ),
        (
            "entry-edited",
            Event::EntryEdited {
                entry,
                changes: blank_changes(),
            },
        ),
        (
            "entry-added.guest",
            Event::EntryAdded {
                entry,
                number: 12,
                changes: later_changes(),
            },
        ),
        (
            "entry-edited.guest",
            Event::EntryEdited {
                entry,
                changes: vec![Change::Guest(false)],
            },
        ),
        (
            "entry-edited.until",
            Event::EntryEdited {
                entry,
                changes: later_changes().split_off(3),
            },
        ),
        (
            "placed",
            Event::Placed {
                entry,
                session: "2".into(),
                flight: "B".into(),
            },
        ),
        ("roll-answered.expected", roll(Presence::Expected, true, "")),
        ("roll-answered.here", roll(Presence::Here, false, "")),
        ("roll-answered.absent", roll(Presence::Absent, false, "ill")),
        ("roll-answered.away", roll(Presence::Away, false, "exam")),
        (
            "withdrawn.slot",
            Event::Withdrawn {
                entry,
                slot: Some(clean()),
                reason: "sore wrist".into(),
            },
        ),
        (
            "withdrawn.day",
            Event::Withdrawn {
                entry,
                slot: None,
                reason: String::new(),
            },
        ),
        (
            "disqualified.slot",
            disqualified(Some(clean()), "threw the bar"),
        ),
        (
            "disqualified.day",
            disqualified(None, "two warnings; the second for words"),
        ),
        (
            "numbered",
            Event::Numbered {
                numbers: vec![(entry, 2), (EntryKey(9), 1)],
            },
        ),
        ("record-listed", listed(true)),
        ("record-listed.open", {
            let key = RecordKey::new(slug("x-sled-push"), None, "", "");
            Event::RecordListed {
                record: key,
                mark: Some(RecordMark::default()),
            }
        }),
        ("record-listed.struck", listed(false)),
        ("weighed", weighed()),
        ("cleared.yes", cleared(None, Clearance::Yes)),
        ("cleared.no", cleared(Some(clean()), Clearance::No)),
        (
            "cleared.up-to",
            cleared(Some(clean()), Clearance::UpTo(kg("50"))),
        ),
        (
            "cleared.until",
            cleared_until(Some(clean()), Clearance::Yes, Some(last_day())),
        ),
        (
            "capped",
            Event::Capped {
                entry,
                slot: Some(clean()),
                load: Some(kg("50")),
                who: "Coach Ferreira-Holm".into(),
                why: "first day back".into(),
            },
        ),
        (
            "capped.lifted",
            Event::Capped {
                entry,
                slot: None,
                load: None,
                who: String::new(),
                why: String::new(),
            },
        ),
        (
            "station-checked",
            Event::StationChecked {
                platform: 1,
                who: "Mr Tavakenui".into(),
            },
        ),
        (
            "slot-started",
            Event::SlotStarted {
                platform: 1,
                session: "1".into(),
                flight: "A".into(),
                slot: clean(),
            },
        ),
        (
            "break-called",
            Event::BreakCalled {
                platform: 1,
                minutes: 10,
            },
        ),
        (
            "closed.session",
            Event::Closed {
                session: Some("1".into()),
            },
        ),
        ("closed.day", Event::Closed { session: None }),
        (
            "reopened.session",
            Event::Reopened {
                session: Some("1".into()),
                reason: "one card was missing".into(),
            },
        ),
        (
            "reopened.day",
            Event::Reopened {
                session: None,
                reason: "a late bus".into(),
            },
        ),
        ("requested", requested(false)),
        ("requested.record", requested(true)),
        ("called", called(Some(60), true)),
        ("called.no-clock", called(None, false)),
        (
            "call-withdrawn",
            Event::CallWithdrawn {
                entry,
                slot: clean(),
                attempt: 2,
            },
        ),
        ("clock-moved.stop", moved(ClockMove::Stop)),
        ("clock-moved.resume", moved(ClockMove::Resume)),
        ("clock-moved.set", moved(ClockMove::Set(42_000))),
        (
            "ruled.good",
            ruled(|f| {
                f.faults =
                    vec![fault(Some(3), "press-out"), fault(None, "elbow-on-thigh")];
                f.called_at = Some(stamp(false));
            }),
        ),
        (
            "ruled.no",
            ruled(|f| {
                f.ruling = Ruling::No;
                f.credited = None;
                f.source = Source::Card;
                f.lights = vec![];
                f.called_at = Some(stamp(true));
            }),
        ),
        (
            "ruled.pass",
            ruled(|f| {
                f.ruling = Ruling::Pass;
                (f.requested, f.loaded, f.credited) = (None, None, None);
                f.source = Source::Table;
                f.lights = vec![];
            }),
        ),
        ("ruled.time", ruled(|f| f.ruling = Ruling::Time)),
        (
            "ruled.stopped",
            ruled(|f| {
                f.ruling = Ruling::Stopped;
                f.source = Source::Stop;
                f.reason = "pain: left knee".into();
            }),
        ),
        (
            "ruled.other",
            ruled(|f| f.ruling = Ruling::Other("withheld".into())),
        ),
        (
            "ruled.reps",
            ruled(|f| {
                f.reps = 5;
                f.source = Source::Card;
                f.lights = vec![];
            }),
        ),
        (
            "extra-granted",
            Event::ExtraGranted {
                entry,
                slot: clean(),
                reason: "the rack was jolted".into(),
            },
        ),
        ("load-found.keep", found(Granted::Keep)),
        ("load-found.repeat", found(Granted::Repeat)),
        ("load-found.again", found(Granted::Again)),
        ("reruled.overrule", reruled(Authority::Overrule)),
        ("reruled.challenge", reruled(Authority::Challenge)),
        (
            "challenge-lost",
            Event::ChallengeLost {
                entry,
                slot: clean(),
                attempt: 2,
                ruling: Ruling::No,
                reason: "the film shows the press-out".into(),
            },
        ),
        (
            "corrected",
            corrected(ruled(|f| f.attempt = 3), "the card says 3"),
        ),
        (
            "corrected.reps",
            corrected(ruled(|f| f.reps = 5), "five, not one"),
        ),
        ("corrected.private", corrected(weighed(), "")),
        ("corrected.plain", corrected(ruled(|f| f.attempt = 1), "")),
        (
            "corrected.twice",
            corrected(corrected(weighed(), "misread"), "misread again"),
        ),
        (
            "annulled",
            Event::Annulled {
                act: 40,
                reason: "typed for the wrong athlete".into(),
            },
        ),
        (
            "undone",
            Event::Undone {
                act: 40,
                clock: Some(18_250),
            },
        ),
        (
            "undone.no-clock",
            Event::Undone {
                act: 40,
                clock: None,
            },
        ),
        ("redone", Event::Redone { undo: 41 }),
        (
            "noted",
            Event::Noted {
                entry: Some(entry),
                act: Some(40),
                text: "chalk on the bar".into(),
            },
        ),
        (
            "noted.day",
            Event::Noted {
                entry: None,
                act: None,
                text: "hall doors open".into(),
            },
        ),
    ]
}

fn corpus() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/corpus")
}

fn marks_of(name: &str) -> Marks {
    Marks {
        loose: name == "ruled.no",
        step: if name == "entry-edited" { 3 } else { 0 },
    }
}

/// The text of a corpus file.
fn file_text(name: &str, event: &Event) -> (u32, String) {
    let stored = shape::store(event, marks_of(name), SALT).unwrap();
    let parse = |text: &str| serde_json::from_str::<Value>(text).unwrap();
    let file = json!({
        "kind": stored.kind,
        "shape": stored.shape,
        "body": parse(&stored.body),
        "private": stored.private.as_deref().map(parse),
    });
    let text = serde_json::to_string_pretty(&file).unwrap() + "\n";
    (stored.shape, text)
}

fn read(file: &Value, erased: bool) -> (Event, Marks) {
    let private = file["private"].to_string();
    let private = match (&file["private"], erased) {
        (Value::Null, _) => Hidden::None,
        (_, true) => Hidden::Erased,
        (_, false) => Hidden::Kept(private.as_str()),
    };
    let shape = u32::try_from(file["shape"].as_u64().unwrap()).unwrap();
    let body = file["body"].to_string();
    shape::read(file["kind"].as_str().unwrap(), shape, &body, private)
        .unwrap_or_else(|e| panic!("{file}: {e}"))
}

/// All corpus files: name, shape, content.
fn files() -> Vec<(String, u32, Value)> {
    let mut files: Vec<_> = std::fs::read_dir(corpus())
        .unwrap()
        .map(|file| {
            let path = file.unwrap().path();
            let stem = path.file_stem().unwrap().to_str().unwrap().to_owned();
            let (name, shape) = stem.rsplit_once(".v").unwrap();
            let text = std::fs::read_to_string(&path).unwrap();
            let value = serde_json::from_str(&text).unwrap();
            (name.to_owned(), shape.parse().unwrap(), value)
        })
        .collect();
    files.sort_by(|a, b| (&a.0, a.1).cmp(&(&b.0, b.1)));
    files
}

#[test]
fn every_newest_shape_has_its_file_and_is_written_as_it_says() {
    let writing = std::env::var("MAXDAY_WRITE_CORPUS").is_ok_and(|v| v == "1");
    for (name, event) in samples() {
        let (shape, text) = file_text(name, &event);
        let path = corpus().join(format!("{name}.v{shape}.json"));
        if writing && !path.exists() {
            std::fs::write(&path, &text).unwrap();
        }
        let frozen = std::fs::read_to_string(&path).unwrap_or_else(|e| {
            panic!("{name}.v{shape}.json is missing ({e}); write it with MAXDAY_WRITE_CORPUS=1")
        });
        assert_eq!(
            frozen.replace("\r\n", "\n"),
            text,
            "{name}: give the new form a new shape"
        );
    }
}

#[test]
fn every_kind_has_a_sample() {
    let sampled: BTreeSet<&str> = samples()
        .iter()
        .map(|(name, _)| name.split('.').next().unwrap())
        .collect();
    let kinds: BTreeSet<&str> = KINDS.iter().map(|(kind, _)| *kind).collect();
    assert_eq!(sampled, kinds);
    for (name, event) in samples() {
        let stored = shape::store(&event, Marks::default(), SALT).unwrap();
        assert_eq!(stored.kind, name.split('.').next().unwrap(), "{name}");
    }
}

/// Kinds whose second shape only adds to the first, with what it adds.
const ADDED: [(&str, &[&str]); 5] = [
    ("requested", &["record"]),
    ("ruled", &["reps"]),
    ("cleared", &["until"]),
    ("entry-added", &["guest", "until"]),
    ("entry-edited", &["guest", "until"]),
];

#[test]
fn a_second_shape_is_written_only_where_its_fact_is() {
    let twice: Vec<&str> = ADDED.iter().map(|(kind, _)| *kind).collect();
    let newest: Vec<&str> = KINDS
        .iter()
        .filter(|(_, shape)| *shape > 1)
        .map(|(kind, _)| *kind)
        .collect();
    let sorted = |mut kinds: Vec<&'static str>| {
        kinds.sort_unstable();
        kinds
    };
    assert_eq!(sorted(twice), sorted(newest), "say what the shape adds");
    let mut met = BTreeSet::new();
    for (name, event) in samples() {
        let stored = shape::store(&event, Marks::default(), SALT).unwrap();
        let Some((kind, words)) = ADDED.iter().find(|(k, _)| *k == stored.kind) else {
            assert_eq!(stored.shape, 1, "{name}");
            continue;
        };
        let whole = format!("{}{}", stored.body, stored.private.unwrap_or_default());
        let uses = words.iter().any(|w| whole.contains(&format!("\"{w}\":")));
        assert_eq!(stored.shape, if uses { 2 } else { 1 }, "{name}: {whole}");
        let _ = met.insert((*kind, stored.shape));
    }
    assert_eq!(met.len(), 2 * ADDED.len(), "both shapes of each: {met:?}");
}

#[test]
fn what_a_first_shape_lacks_reads_as_it_was() {
    for (name, shape, file) in files().into_iter().filter(|(_, shape, _)| *shape == 1) {
        let (event, marks) = read(&file, false);
        match &event {
            Event::Requested { record, .. } => assert!(!record, "{name}"),
            Event::Ruled(fact) => assert_eq!(fact.reps, 1, "{name}"),
            Event::Cleared { until, .. } => assert_eq!(*until, None, "{name}"),
            _ => {}
        }
        // A first shape is stored again as it was.
        let stored = shape::store(&event, marks, SALT).unwrap();
        let body: Value = serde_json::from_str(&stored.body).unwrap();
        assert_eq!(
            (stored.shape, body),
            (shape, file["body"].clone()),
            "{name}"
        );
    }
}

#[test]
fn every_file_reads_to_its_event() {
    let samples: BTreeMap<_, _> = samples().into_iter().collect();
    let files = files();
    assert!(files.len() >= samples.len(), "files are missing");
    for (name, shape, file) in files {
        assert_eq!(file["shape"], shape, "{name}");
        let expected = samples
            .get(name.as_str())
            .unwrap_or_else(|| panic!("{name} has no sample any more"));
        let (event, marks) = read(&file, false);
        // The printed form also compares what was typed beside each load.
        assert_eq!(
            format!("{event:?}"),
            format!("{expected:?}"),
            "{name}.v{shape}"
        );
        assert_eq!(marks, marks_of(&name), "{name}.v{shape}");
    }
}

#[test]
fn nothing_private_is_in_a_public_body() {
    for (name, _, file) in files() {
        let body = file["body"].to_string();
        for word in [
            "Inés",
            "Arrecife",
            "447-21",
            "2010",
            "143.6",
            "rack squat",
            "sprained",
            "sore",
            "ill\"",
            "exam",
            "knee",
            "Ferreira",
            "Bellweather",
            "chalk",
            "up to",
            "2026-12-01",
            "threw",
            "warnings",
            "film",
            "Odile",
            "spring",
        ] {
            assert!(!body.contains(word), "{name}: {word}");
        }
    }
}

#[test]
fn an_erased_private_part_still_reads() {
    for (name, shape, file) in files() {
        let (event, _) = read(&file, true);
        let kept = format!("{event:?}");
        for word in [
            "Inés",
            "447-21",
            "143.6",
            "sprained",
            "knee",
            "chalk",
            "2026-12-01",
            "threw",
            "Odile",
            "spring",
        ] {
            assert!(!kept.contains(word), "{name}.v{shape}: {kept}");
        }
        if name == "entry-added" {
            assert!(kept.contains(shape::ERASED), "{kept}");
            assert!(kept.contains("Otters rugby"), "{kept}");
        }
    }
}

#[test]
fn an_unknown_kind_or_shape_or_field_is_refused() {
    let fails = |kind: &str, shape: u32, body: &str| {
        shape::read(kind, shape, body, Hidden::None)
            .unwrap_err()
            .to_string()
    };
    assert!(fails("sung", 1, "{}").contains("sung"));
    assert!(fails("ruled", 99, "{}").contains("shape 99"));
    assert!(fails("redone", 0, r#"{"fact":{"undo":1}}"#).contains("redone"));
    assert!(fails("redone", 1, r#"{"fact":{"undo":1,"why":2}}"#).contains("redone"));
    assert!(fails("redone", 1, r#"{"fact":{"undo":-1}}"#).contains("redone"));
}
