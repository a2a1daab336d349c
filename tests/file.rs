//! The meet file: durable, whole, held by one, readable by all.

// Helpers of tests may stop at the first thing that isn't as it should be.
#![allow(clippy::unwrap_used, clippy::expect_used)]

use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use maxday::day::{
    Command, Context, Event, Line, NewEntry, Outcome, Place, Refusal, Ruling, Stamp,
    Which,
};
use maxday::file::{FileError, Live, SubmitError, WhyReadOnly, backup, check};
use maxday::lift::Slug;
use maxday::measure::{Unit, Weight};
use maxday::roster::{Change, SlotLine};
use maxday::rules::format_named;
use rusqlite::Connection;
use rusqlite::types::ValueRef;
use sha2::{Digest, Sha256};

/// A folder of its own that goes away with the test.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir()
            .join(format!("maxday-test-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&path);
        std::fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    fn file(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(&self.0)
            .unwrap()
            .map(|f| f.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// Whether an error is the one that is expected.
type Fits = fn(&FileError) -> bool;

fn slug(text: &str) -> Slug {
    Slug::new(text).unwrap()
}

fn kg(text: &str) -> Weight {
    Weight::parse(text, Unit::Kg).unwrap()
}

fn at(seconds: i64) -> Stamp {
    Stamp {
        ms: 1_794_923_000_000 + seconds * 1000,
        offset: -360,
        loose: false,
    }
}

fn context(seconds: i64) -> Context {
    Context {
        at: at(seconds),
        hand: "Coach Ferreira-Holm".into(),
        draw: 7,
    }
}

fn day_made() -> Event {
    let rules = format_named("max-day").unwrap().rules(Unit::Kg).unwrap();
    Event::DayMade {
        name: "Quillback High fall max day".into(),
        date: NaiveDate::from_ymd_opt(2026, 11, 17).unwrap(),
        format: "max-day".into(),
        bar_unit: Unit::Kg,
        scale_unit: Unit::Lb,
        rules: rules.words(),
        slots: vec![SlotLine {
            slot: slug("back-squat"),
            variants: vec![slug("back-squat")],
        }],
        platforms: 2,
    }
}

fn new_entry(number: u16, family: &str) -> NewEntry {
    NewEntry {
        number: Some(number),
        changes: vec![
            Change::Given("Inés".into()),
            Change::Family(family.into()),
            Change::Bodyweight(Some(Weight::parse("143.6", Unit::Lb).unwrap())),
            Change::Slot {
                slot: slug("back-squat"),
                variant: Some(slug("back-squat")),
                opener: Some(kg("60")),
            },
        ],
        place: Place {
            session: Some("1".into()),
            flight: Some("A".into()),
            platform: Some(1),
        },
    }
}

fn add(number: u16) -> Command {
    Command::Add(vec![new_entry(number, "Arrecife")])
}

fn tally(number: u16, load: &str, ruling: Ruling) -> Command {
    Command::Tally {
        which: Which {
            number: Some(number),
            lift: Some(slug("back-squat")),
            attempt: None,
        },
        load: Some(kg(load)),
        outcome: Outcome {
            ruling: Some(ruling),
            ..Outcome::default()
        },
        platform: Some(1),
    }
}

fn note(text: &str) -> Command {
    Command::Note {
        number: None,
        act: None,
        text: text.into(),
        platform: None,
    }
}

fn make(path: &Path) -> Live {
    Live::create(path, day_made(), &context(0)).unwrap()
}

/// A day with two entries and two attempts.
fn filled(path: &Path) -> Live {
    let mut live = make(path);
    for (n, command) in [
        add(3),
        add(5),
        tally(3, "60", Ruling::Good),
        tally(3, "70", Ruling::No),
    ]
    .iter()
    .enumerate()
    {
        let seconds = i64::try_from(n).unwrap() + 1;
        let _ = live.submit(command, &context(seconds), None).unwrap();
    }
    live
}

fn say(path: &Path) -> String {
    check(path).unwrap().to_string()
}

/// Runs SQL on a day as another program would.
fn meddle(path: &Path, sql: &str) {
    Connection::open(path).unwrap().execute_batch(sql).unwrap();
}

/// Changes the last row and chains it anew, as a newer program would write it.
fn write_last_row(path: &Path, sql: &str) {
    meddle(
        path,
        &format!("UPDATE journal SET {sql} WHERE seq = (SELECT max(seq) FROM journal)"),
    );
    let db = Connection::open(path).unwrap();
    let digest = |hash: Sha256, what: &str| -> Vec<u8> {
        db.query_row(
            &format!("SELECT {what} FROM journal ORDER BY seq DESC LIMIT 1"),
            [],
            |row| {
                let mut hash = hash.clone();
                for n in 0..row.as_ref().column_count() {
                    match row.get_ref(n).unwrap() {
                        ValueRef::Null => hash.update(b"n"),
                        ValueRef::Integer(n) => {
                            hash.update(b"i");
                            hash.update(n.to_be_bytes());
                        }
                        ValueRef::Text(bytes) => {
                            hash.update(b"t");
                            hash.update((bytes.len() as u64).to_be_bytes());
                            hash.update(bytes);
                        }
                        ValueRef::Blob(bytes) => {
                            hash.update(b"b");
                            hash.update((bytes.len() as u64).to_be_bytes());
                            hash.update(bytes);
                        }
                        ValueRef::Real(_) => panic!("no such column"),
                    }
                }
                Ok(hash.finalize().to_vec())
            },
        )
        .unwrap()
    };
    let before: Vec<u8> = db
        .query_row(
            "SELECT digest FROM journal ORDER BY seq DESC LIMIT 1 OFFSET 1",
            [],
            |row| row.get(0),
        )
        .unwrap();
    let new = digest(
        Sha256::new_with_prefix(before),
        "seq, id, act, at, \"offset\", happened, hand, device, platform, kind, shape, body, \
         private_digest",
    );
    let n = db
        .execute(
            "UPDATE journal SET digest = ?1 WHERE seq = (SELECT max(seq) FROM journal)",
            [new],
        )
        .unwrap();
    assert_eq!(n, 1);
}

#[test]
fn what_was_entered_is_there_after_opening_again() {
    let folder = Folder::new("again");
    let path = folder.file("a.maxday");
    let live = filled(&path);
    let before = (live.day().facts().clone(), live.day().journal().to_vec());
    live.close().unwrap();

    let live = Live::open(&path, at(60), "Ms Bellweather").unwrap();
    assert!(!live.is_read_only());
    assert_eq!(live.taken_over(), None);
    assert_eq!(live.day().facts(), &before.0);
    assert_eq!(live.day().journal(), before.1);
    drop(live);
    assert!(say(&path).ends_with("\nsound"), "{}", say(&path));
    assert_eq!(folder.names(), ["a.maxday"]);
}

#[test]
fn a_day_is_never_made_over_another_file() {
    let folder = Folder::new("over");
    let path = folder.file("a.maxday");
    std::fs::write(&path, "a letter").unwrap();
    let error = Live::create(&path, day_made(), &context(0)).unwrap_err();
    assert!(matches!(error, FileError::Exists(_)), "{error}");
    assert_eq!(std::fs::read(&path).unwrap(), b"a letter");
    let error =
        Live::create(&folder.file("no/a.maxday"), day_made(), &context(0)).unwrap_err();
    assert!(matches!(error, FileError::MissingFolder(_)), "{error}");
    let error = Live::create(&folder.0, day_made(), &context(0)).unwrap_err();
    assert!(matches!(error, FileError::IsFolder(_)), "{error}");
    assert_eq!(folder.names(), ["a.maxday"]);
}

#[test]
fn every_acknowledged_act_survives_a_kill() {
    let folder = Folder::new("kill");
    let path = folder.file("a.maxday");
    let mut live = make(&path);
    for n in 1..6 {
        let _ = live.submit(&add(n), &context(n.into()), None).unwrap();
        // What is on the disk now is what a killed process leaves.
        let copy = folder.file(&format!("{n}.maxday"));
        let _ = std::fs::copy(&path, &copy).unwrap();
        let seen = Live::open_read(&copy).unwrap();
        assert_eq!(seen.day().facts(), live.day().facts());
        assert!(say(&copy).ends_with("\nsound"));
    }
}

#[test]
fn a_crashed_holder_is_taken_over_and_the_journal_says_so() {
    let folder = Folder::new("crash");
    let path = folder.file("a.maxday");
    let live = filled(&path);
    let copy = folder.file("b.maxday");
    let _ = std::fs::copy(&path, &copy).unwrap();
    // The copy's holder lives, but on another computer it would be unknown.
    meddle(&copy, "UPDATE lease SET host = 'GYM-LAPTOP'");

    let held = Live::open(&copy, at(15), "Ms Bellweather").unwrap();
    assert!(
        matches!(held.read_only_because(), Some(WhyReadOnly::Held(h)) if h.host == "GYM-LAPTOP")
    );
    drop(held);

    let taken = Live::open(&copy, at(21), "Ms Bellweather").unwrap();
    assert!(!taken.is_read_only());
    assert_eq!(taken.taken_over().unwrap().who, "Coach Ferreira-Holm");
    let last = taken.day().journal().last().unwrap();
    assert_eq!(last.hand, "Ms Bellweather");
    assert!(
        matches!(&last.event, Event::Noted { text, .. } if text.contains("GYM-LAPTOP")),
        "{last:?}"
    );
    drop(taken);
    assert!(say(&copy).ends_with("\nsound"));
    drop(live);
}

#[test]
fn a_dead_process_on_this_computer_is_known_at_once() {
    let folder = Folder::new("dead");
    let path = folder.file("a.maxday");
    let live = filled(&path);
    let copy = folder.file("b.maxday");
    let _ = std::fs::copy(&path, &copy).unwrap();
    drop(live);
    let token: String = Connection::open(&copy)
        .unwrap()
        .query_row("SELECT token FROM lease", [], |row| row.get(0))
        .unwrap();
    // A killed process leaves its file, but not its lock.
    let left = std::env::temp_dir().join(format!("maxday-{token}.held"));
    std::fs::write(&left, "").unwrap();
    let taken = Live::open(&copy, at(1), "Ms Bellweather").unwrap();
    assert!(taken.taken_over().is_some());
    assert!(!left.exists());
}

#[test]
fn a_second_opener_reads_along() {
    let folder = Folder::new("second");
    let path = folder.file("a.maxday");
    let mut live = filled(&path);
    let mut second = Live::open(&path, at(3_600), "Ms Bellweather").unwrap();
    let Some(WhyReadOnly::Held(holder)) = second.read_only_because().cloned() else {
        panic!("{:?}", second.read_only_because());
    };
    assert_eq!(holder.who, "Coach Ferreira-Holm");
    assert_eq!(holder.process, std::process::id());
    let failed = second.submit(&add(9), &context(9), None).unwrap_err();
    assert!(
        failed.to_string().contains("Coach Ferreira-Holm"),
        "{failed}"
    );

    let _ = live.submit(&add(8), &context(10), None).unwrap();
    let _ = live
        .submit(&Command::Undo(Line::Roster), &context(11), None)
        .unwrap();
    live.heartbeat(at(12)).unwrap();
    assert!(second.refresh().unwrap() >= 2);
    assert_eq!(second.refresh().unwrap(), 0);
    assert_eq!(second.day().facts(), live.day().facts());
    assert_eq!(second.holder().unwrap().unwrap().heartbeat, at(12).ms);
    drop(live);
    assert_eq!(second.holder().unwrap(), None);
}

#[test]
fn a_lost_lease_ends_writing() {
    let folder = Folder::new("lost");
    let path = folder.file("a.maxday");
    let mut live = filled(&path);
    meddle(
        &path,
        "UPDATE lease SET token = 'other', who = 'Mr Tavakenui'",
    );
    let before = live.day().facts().clone();
    let failed = live.submit(&add(9), &context(9), None).unwrap_err();
    assert!(
        matches!(&failed, SubmitError::Failed(FileError::Held { holder, .. }) if holder.who == "Mr Tavakenui"),
        "{failed}"
    );
    assert!(live.is_read_only());
    assert_eq!(live.day().facts(), &before);
}

#[test]
fn a_refusal_stores_nothing() {
    let folder = Folder::new("refusal");
    let path = folder.file("a.maxday");
    let mut live = filled(&path);
    let seq = live.day().next_seq();
    let refused = live.submit(&add(3), &context(9), None).unwrap_err();
    assert!(
        matches!(refused, SubmitError::Refused(Refusal::NumberTaken { .. })),
        "{refused}"
    );
    assert_eq!(live.day().next_seq(), seq);
}

#[test]
fn a_batch_is_all_or_nothing() {
    let folder = Folder::new("batch");
    let path = folder.file("a.maxday");
    let mut live = filled(&path);
    let (facts, seq) = (live.day().facts().clone(), live.day().next_seq());

    let failed: Result<(), SubmitError> = live.batch(|batch| {
        let _ = batch.submit(&add(10), &context(20), Some("ten"))?;
        assert!(batch.day().facts().entry_by_number(10).is_some());
        let _ = batch.submit(&add(10), &context(21), None)?;
        Ok(())
    });
    assert!(matches!(failed, Err(SubmitError::Refused(_))));
    assert_eq!(live.day().facts(), &facts);
    assert_eq!(live.day().next_seq(), seq);
    assert_eq!(Live::open_read(&path).unwrap().day().facts(), &facts);

    // The identifier is free again, and a refusal that is passed over leaves the rest.
    let done: Result<_, SubmitError> = live.batch(|batch| {
        let done = batch.submit(&add(10), &context(20), Some("ten"))?;
        let _ = batch.submit(&add(10), &context(21), None).unwrap_err();
        let _ = batch.submit(&add(11), &context(22), None)?;
        Ok(done)
    });
    assert_eq!(done.unwrap().seqs.start, seq);
    let seen = Live::open_read(&path).unwrap();
    assert_eq!(seen.day().facts(), live.day().facts());
    assert!(seen.day().facts().entry_by_number(11).is_some());
}

#[test]
fn identifiers_are_unique_and_steps_go_on_with_their_act() {
    let folder = Folder::new("ids");
    let path = folder.file("a.maxday");
    let mut live = make(&path);
    let first = live.submit(&add(1), &context(1), Some("import/1")).unwrap();
    let second = live.submit(&add(2), &context(2), Some("import/2")).unwrap();
    assert_eq!((first.act, first.id.as_str()), (second.act, "import"));
    assert_eq!(second.id, "import");
    let again = live
        .submit(&add(3), &context(3), Some("import/2"))
        .unwrap_err();
    assert!(again.to_string().contains("import/2"), "{again}");
    let _ = live
        .submit(&note("doors open"), &context(4), Some("n/1"))
        .unwrap();
    let _ = live
        .submit(&note("doors shut"), &context(5), Some("n/2"))
        .unwrap();
    assert!(live.submit(&note("?"), &context(6), Some("n/1")).is_err());
    assert!(live.submit(&add(4), &context(7), Some("import/3")).is_err());

    // Known after opening again too; one undo takes the whole act back.
    let _ = live.submit(&add(5), &context(8), Some("late/1")).unwrap();
    drop(live);
    let mut live = Live::open(&path, at(9), "x").unwrap();
    assert!(live.submit(&add(6), &context(10), Some("late/1")).is_err());
    assert!(live.submit(&note("?"), &context(10), Some("n/2")).is_err());
    let _ = live.submit(&add(6), &context(10), Some("late/2")).unwrap();
    let _ = live
        .submit(&Command::Undo(Line::Roster), &context(11), None)
        .unwrap();
    let numbers: Vec<u16> = live.day().facts().numbers.keys().copied().collect();
    assert_eq!(numbers, [1, 2]);
    drop(live);
    assert!(say(&path).ends_with("\nsound"), "{}", say(&path));
}

#[test]
fn loose_times_stay_loose() {
    let folder = Folder::new("loose");
    let path = folder.file("a.maxday");
    let mut live = make(&path);
    let mut context = context(1);
    context.at = context.at.loosely();
    let _ = live.submit(&add(1), &context, None).unwrap();
    let seen = Live::open_read(&path).unwrap();
    assert_eq!(seen.day().journal(), live.day().journal());
    assert!(seen.day().journal().last().unwrap().at.loose);
}

#[test]
fn one_changed_byte_is_found_and_named() {
    let folder = Folder::new("byte");
    let path = folder.file("a.maxday");
    drop(filled(&path));
    // Rows: 1 day, 2 flight, 3 and 4 entries, 5 and 6 attempts.
    for (sql, row) in [
        (
            "UPDATE journal SET body = replace(body, '\"attempt\":1', '\"attempt\":2') WHERE seq = 5",
            "Row 5",
        ),
        (
            "UPDATE journal SET body = 'x' || body WHERE seq = 5",
            "Row 5",
        ),
        ("UPDATE journal SET hand = 'Nobody' WHERE seq = 4", "Row 4"),
        ("UPDATE journal SET at = at + 1 WHERE seq = 6", "Row 6"),
        (
            "UPDATE journal SET hand = CAST(hand AS BLOB) WHERE seq = 6",
            "Row 6",
        ),
        (
            "UPDATE journal SET private_digest = NULL, private = NULL WHERE seq = 3",
            "Row 3",
        ),
        (
            "UPDATE journal SET private = replace(private, 'Arrecife', 'Arrecifa') WHERE seq = 3",
            "private part of row 3",
        ),
        (
            "UPDATE journal SET digest = zeroblob(32) WHERE seq = 2",
            "Row 2",
        ),
        ("DELETE FROM journal WHERE seq = 5", "Row 5 is missing"),
        ("DELETE FROM journal WHERE seq = 6", "ends at row 5"),
        ("UPDATE seen_athlete SET family = 'Other'", "v1_athlete"),
        ("DELETE FROM seen_standing", "v1_standing"),
    ] {
        let copy = folder.file("b.maxday");
        let _ = std::fs::copy(&path, &copy).unwrap();
        meddle(&copy, sql);
        let bytes = std::fs::read(&copy).unwrap();
        let said = say(&copy);
        assert!(said.contains(row), "{sql}: {said}");
        assert!(!said.ends_with("sound"), "{sql}: {said}");
        assert_eq!(std::fs::read(&copy).unwrap(), bytes, "{sql}");
    }
}

#[test]
fn an_erased_private_part_leaves_the_day_sound() {
    let folder = Folder::new("erased");
    let path = folder.file("a.maxday");
    drop(filled(&path));
    meddle(
        &path,
        "PRAGMA secure_delete = ON; UPDATE journal SET private = NULL WHERE seq = 3; \
         DELETE FROM meta WHERE key = 'seen_upto'; DELETE FROM seen_athlete;",
    );
    let mut live = Live::open(&path, at(60), "x").unwrap();
    let entry = live.day().facts().entry_by_number(3).unwrap();
    assert_eq!(entry.name(), "No. 3");
    assert_eq!(entry.bodyweight, None);
    let squat = slug("back-squat");
    let best = live.day().facts().best(entry.key, &squat).unwrap();
    assert_eq!(best.1.fact.credited, Some(kg("60")));
    live.refresh_views().unwrap();
    drop(live);
    assert!(say(&path).contains("1 erased"), "{}", say(&path));
    assert!(say(&path).ends_with("\nsound"), "{}", say(&path));
}

#[test]
fn read_views_say_what_the_day_says() {
    let folder = Folder::new("views");
    let path = folder.file("a.maxday");
    let mut live = filled(&path);
    live.refresh_views().unwrap();
    let other = Connection::open(&path).unwrap();
    let one =
        |sql: &str| -> String { other.query_row(sql, [], |row| row.get(0)).unwrap() };
    assert_eq!(
        one(
            "SELECT family || bodyweight || bodyweight_unit FROM v1_athlete WHERE lot = 3"
        ),
        "Arrecife143.6lb"
    );
    assert_eq!(
        one("SELECT group_concat(loaded || loaded_unit || ruling) FROM v1_attempt"),
        "60kggood,70kgno"
    );
    assert_eq!(
        one("SELECT best || unit FROM v1_standing WHERE lot = 3 AND slot = 'back-squat'"),
        "60kg"
    );
    let id: i64 = other
        .query_row("PRAGMA application_id", [], |row| row.get(0))
        .unwrap();
    assert_eq!(id, 0x4d78_4479);
}

#[test]
fn what_is_no_day_is_named_and_left_as_it_is() {
    let folder = Folder::new("foreign");
    let day = folder.file("day.maxday");
    drop(filled(&day));
    let whole = std::fs::read(&day).unwrap();
    let file = |name: &str, bytes: &[u8]| {
        let path = folder.file(name);
        std::fs::write(&path, bytes).unwrap();
        path
    };
    let empty = file("empty.maxday", b"");
    let letter = file("letter.maxday", &b"Dear coach, ".repeat(200));
    let cut = file("cut.maxday", &whole[..whole.len() / 2]);
    let stub = file("stub.maxday", &whole[..60]);
    let other = folder.file("other.maxday");
    meddle(&other, "CREATE TABLE journal (x)");
    let newer = file("newer.maxday", &whole);
    meddle(&newer, "PRAGMA user_version = 2");
    let shape = file("shape.maxday", &whole);
    write_last_row(&shape, "shape = 9");
    let kind = file("kind.maxday", &whole);
    write_last_row(&kind, "kind = 'sung'");
    let missing = folder.file("missing.maxday");
    let nowhere = folder.file("nowhere/day.maxday");

    let cases: [(&Path, Fits); 11] = [
        (&empty, |e| matches!(e, FileError::Empty(_))),
        (&letter, |e| matches!(e, FileError::NotADay(_))),
        (&stub, |e| matches!(e, FileError::NotADay(_))),
        (&cut, |e| matches!(e, FileError::Damaged { .. })),
        (&other, |e| matches!(e, FileError::NotADay(_))),
        (&newer, |e| e.to_string().contains("file version 2")),
        (&shape, |e| e.to_string().contains("shape 9")),
        (&kind, |e| e.to_string().contains("sung")),
        (&missing, |e| matches!(e, FileError::NotFound(_))),
        (&nowhere, |e| matches!(e, FileError::MissingFolder(_))),
        (&folder.0, |e| matches!(e, FileError::IsFolder(_))),
    ];
    for (path, fits) in cases {
        let before = std::fs::read(path).ok();
        let names = folder.names();
        for error in [
            Live::open(path, at(60), "x").unwrap_err(),
            Live::open_read(path).unwrap_err(),
        ] {
            assert!(fits(&error), "{error:?}");
            assert!(error.to_string().ends_with('.'), "{error}");
        }
        assert_eq!(std::fs::read(path).ok(), before, "{}", path.display());
        assert_eq!(folder.names(), names);
    }
}

#[test]
fn a_write_protected_day_can_still_be_read() {
    let folder = Folder::new("protected");
    let path = folder.file("a.maxday");
    drop(filled(&path));
    let mut rights = std::fs::metadata(&path).unwrap().permissions();
    rights.set_readonly(true);
    std::fs::set_permissions(&path, rights).unwrap();
    // Somebody who may do anything may write it all the same.
    let may_write = std::fs::File::options().append(true).open(&path).is_ok();

    let before = std::fs::read(&path).unwrap();
    let mut live = Live::open(&path, at(60), "x").unwrap();
    assert!(live.day().facts().entry_by_number(3).is_some());
    if !may_write {
        assert_eq!(live.read_only_because(), Some(&WhyReadOnly::Protected));
        let failed = live.submit(&add(9), &context(9), None).unwrap_err();
        assert!(
            matches!(failed, SubmitError::Failed(FileError::ReadOnly(_))),
            "{failed}"
        );
    }
    drop(live);
    let mut live = Live::open_read(&path).unwrap();
    let failed = live.submit(&add(9), &context(9), None).unwrap_err();
    assert!(
        matches!(failed, SubmitError::Failed(FileError::OpenedToRead(_))),
        "{failed}"
    );
    drop(live);
    if !may_write {
        assert_eq!(std::fs::read(&path).unwrap(), before);
    }
}

#[test]
fn what_was_cut_off_inside_a_commit_is_rolled_back() {
    let folder = Folder::new("hot");
    let path = folder.file("a.maxday");
    drop(filled(&path));
    let facts = Live::open_read(&path).unwrap().day().facts().clone();

    // A transaction that has reached the file, but not its end.
    let other = Connection::open(&path).unwrap();
    other
        .execute_batch(
            "PRAGMA cache_size = 1; PRAGMA cache_spill = 1; BEGIN IMMEDIATE; \
             CREATE TABLE filler (x); \
             WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 3000) \
             INSERT INTO filler SELECT hex(randomblob(200)) FROM n; \
             UPDATE journal SET hand = 'half written';",
        )
        .unwrap();
    let copy = folder.file("b.maxday");
    let _ = std::fs::copy(&path, &copy).unwrap();
    let _ = std::fs::copy(
        folder.file("a.maxday-journal"),
        folder.file("b.maxday-journal"),
    )
    .unwrap();
    drop(other);

    let seen = Live::open_read(&copy).unwrap();
    assert_eq!(seen.day().facts(), &facts);
    drop(seen);
    assert!(say(&copy).ends_with("\nsound"), "{}", say(&copy));
    assert!(!folder.names().contains(&"b.maxday-journal".to_owned()));
}

#[test]
fn a_foreign_lock_is_named_and_the_act_is_not_stored() {
    let folder = Folder::new("busy");
    let path = folder.file("a.maxday");
    let mut live = filled(&path);
    let other = Connection::open(&path).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    let seq = live.day().next_seq();
    let failed = live.submit(&add(9), &context(9), None).unwrap_err();
    assert!(
        matches!(failed, SubmitError::Failed(FileError::Busy(_))),
        "{failed}"
    );
    assert_eq!(live.day().next_seq(), seq);
    other.execute_batch("ROLLBACK").unwrap();
    let done = live.submit(&add(9), &context(9), None).unwrap();
    assert_eq!(done.seqs.start, seq);
}

#[test]
fn a_backup_is_a_whole_day_that_nobody_holds() {
    let folder = Folder::new("backup");
    let path = folder.file("a.maxday");
    let mut live = filled(&path);
    let to = folder.file("b.maxday");
    backup(&live, &to).unwrap();
    assert!(
        say(&to).contains("Read views: as the journal says."),
        "{}",
        say(&to)
    );
    assert!(say(&to).ends_with("\nsound"));
    let _ = live.submit(&add(9), &context(9), None).unwrap();
    backup(&live, &to).unwrap();
    let copy = Live::open(&to, at(10), "x").unwrap();
    assert!(!copy.is_read_only());
    assert_eq!(copy.taken_over(), None);
    assert_eq!(copy.day().facts(), live.day().facts());
    drop(copy);

    let error = backup(&live, &path).unwrap_err();
    assert!(matches!(error, FileError::BackupOntoItself(_)), "{error}");
    let error = backup(&live, &folder.file("no/b.maxday")).unwrap_err();
    assert!(matches!(error, FileError::MissingFolder(_)), "{error}");
    assert_eq!(folder.names(), ["a.maxday", "b.maxday"]);
}
