//! What is refused: in one sentence, with nothing changed.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;

use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;

use bin::{ACTS, Folder, Sheet, has, small_max_day, small_meet};

/// Every verb that opens a day, with what it needs beside the day.
const READERS: [&str; 6] = [
    "acts DAY",
    "queue DAY",
    "standings DAY",
    "attempts DAY",
    "check DAY",
    "new other.maxday --like DAY",
];
const WRITERS: [&str; 2] = ["roster DAY r.csv", "apply DAY a.csv"];

fn verbs() -> impl Iterator<Item = &'static str> {
    READERS.into_iter().chain(WRITERS)
}

/// A folder with a roster and acts that would be taken.
fn with_inputs() -> Folder {
    let folder = Folder::new();
    folder.write("r.csv", "lot,name\n9,Bo Vane\n");
    folder.write("a.csv", format!("{ACTS}\nhere,1,,,,,,,,\n"));
    folder
}

/// Asserts that no verb takes this as a day; the file stays as it is.
#[track_caller]
fn no_verb_takes(folder: &Folder, name: &str, parts: &[&str]) {
    let before = fs::read(folder.file(name)).ok();
    let names = folder.names();
    let shown = name.split('/').next().unwrap();
    for verb in verbs() {
        let line = verb.replace("DAY", name);
        let sentence = folder.no(&line);
        has(&sentence, &[shown]);
        has(&sentence, parts);
        let after = fs::read(folder.file(name)).ok();
        assert!(before == after, "{line} changed the file");
        assert_eq!(names, folder.names(), "{line} left something");
    }
}

#[test]
fn what_is_no_day_is_named_and_left_alone() {
    let folder = with_inputs();
    folder.write(
        "text.maxday",
        "not a day at all, but long enough to be something\n",
    );
    no_verb_takes(&folder, "text.maxday", &["not a day"]);
    folder.write("short.maxday", "x");
    no_verb_takes(&folder, "short.maxday", &["not a day"]);
    folder.write("empty.maxday", "");
    no_verb_takes(&folder, "empty.maxday", &["empty"]);
    no_verb_takes(&folder, "nobody.maxday", &["no file"]);
    no_verb_takes(&folder, "away/day.maxday", &["no folder"]);
    fs::create_dir(folder.file("folder.maxday")).unwrap();
    no_verb_takes(&folder, "folder.maxday", &["folder"]);

    let other = rusqlite::Connection::open(folder.file("other.db")).unwrap();
    other
        .execute_batch("CREATE TABLE journal (seq); PRAGMA user_version = 1;")
        .unwrap();
    other.close().unwrap();
    no_verb_takes(&folder, "other.db", &["not a day"]);
}

#[test]
fn damaged_and_newer_days_are_named_and_left_alone() {
    let folder = with_inputs();
    small_meet(&folder);
    let whole = folder.bytes("day.maxday");

    folder.write("newer.maxday", &whole);
    let newer = rusqlite::Connection::open(folder.file("newer.maxday")).unwrap();
    newer.pragma_update(None, "user_version", 99).unwrap();
    newer.close().unwrap();
    no_verb_takes(&folder, "newer.maxday", &["newer version", "99"]);

    for length in [100, 1000, 4096, whole.len() / 2, whole.len() - 4096] {
        folder.write("cut.maxday", &whole[..length]);
        let before = folder.bytes("cut.maxday");
        for verb in verbs() {
            let line = verb.replace("DAY", "cut.maxday");
            let ran = folder.run(&line);
            assert_ne!(ran.code, Some(0), "{line} at {length}");
            assert!(!ran.err.is_empty(), "{line} at {length}");
            assert!(
                !ran.err.contains("panicked"),
                "{line} at {length}: {}",
                ran.err
            );
            assert!(before == folder.bytes("cut.maxday"), "{line} at {length}");
        }
    }

    // A byte in the middle of a row is found.
    let mut bent = whole.clone();
    let at = bent
        .windows(10)
        .position(|w| w == b"\"Una\",\"fam" || w == b"Farrow\",\"s");
    let at = at.unwrap_or_else(|| {
        bent.windows(6)
            .position(|w| w == b"Farrow")
            .expect("the name is in the file")
    });
    bent[at] ^= 1;
    folder.write("bent.maxday", &bent);
    let ran = folder.run("check bent.maxday");
    assert_ne!(ran.code, Some(0));
    assert_ne!(ran.out.lines().last(), Some("sound"));
    has(&ran.err, &["bent.maxday", "not sound"]);
    assert_eq!(ran.err.lines().count(), 1);
}

#[test]
fn a_new_day_is_never_made_over_something() {
    let folder = with_inputs();
    small_meet(&folder);
    let names = folder.names();
    let before = folder.bytes("day.maxday");
    has(
        &folder.no("new day.maxday --format max-day"),
        &["day.maxday", "there already"],
    );
    has(
        &folder.no("new a.csv --format max-day"),
        &["a.csv", "there already"],
    );
    has(
        &folder.no("new away/day.maxday --format max-day"),
        &["away", "no folder"],
    );
    has(&folder.no("new . --format max-day"), &["folder"]);
    has(
        &folder.no("new day.maxday --like day.maxday"),
        &["day.maxday", "there already"],
    );
    assert_eq!(names, folder.names());
    assert!(before == folder.bytes("day.maxday"));
}

#[cfg(unix)]
fn protect(path: &Path, mode: u32) {
    use std::os::unix::fs::PermissionsExt;
    fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
}

/// Whether this account is held by the permissions of files at all.
#[cfg(unix)]
fn protection_holds(folder: &Folder) -> bool {
    folder.write("probe", "");
    protect(&folder.file("probe"), 0o444);
    let held = fs::OpenOptions::new()
        .append(true)
        .open(folder.file("probe"))
        .is_err();
    fs::remove_file(folder.file("probe")).unwrap();
    held
}

#[cfg(unix)]
#[test]
fn a_write_protected_day_can_be_read_only() {
    let folder = with_inputs();
    small_meet(&folder);
    if !protection_holds(&folder) {
        return;
    }
    let path = folder.file("day.maxday");
    let before = folder.bytes("day.maxday");
    let refuses = |what: &str| {
        for line in WRITERS {
            let sentence = folder.no(&line.replace("DAY", "day.maxday"));
            has(&sentence, &["day.maxday", "write-protected"]);
            assert!(before == folder.bytes("day.maxday"), "{what}: {line}");
        }
        let ran = folder.feed("apply day.maxday -", format!("{ACTS}\nhere,1,,,,,,,,\n"));
        has(&ran.sentence(), &["write-protected"]);
        for line in ["acts", "standings", "queue", "attempts"] {
            let _ = folder.ok(&format!("{line} day.maxday"));
        }
        folder.sound("day.maxday");
    };
    protect(&path, 0o444);
    refuses("file");
    protect(&path, 0o644);
    protect(folder.file("").as_path(), 0o555);
    folder_refuses(&folder, &before);
    has(
        &folder.no("new x.maxday --format max-day"),
        &["write-protected"],
    );
    protect(folder.file("").as_path(), 0o755);
    folder.apply("day.maxday", "here,1,,,,,,,,");
}

#[cfg(unix)]
fn folder_refuses(folder: &Folder, before: &[u8]) {
    for line in WRITERS {
        let sentence = folder.no(&line.replace("DAY", "day.maxday"));
        has(&sentence, &["day.maxday", "write-protected"]);
        assert!(before == folder.bytes("day.maxday"), "{line}");
    }
    let _ = folder.ok("standings day.maxday");
}

#[test]
fn a_day_that_is_held_can_be_read_only() {
    let folder = with_inputs();
    small_meet(&folder);
    let mut holder = folder.spawn("apply day.maxday -");
    let mut stdin = holder.stdin.take().unwrap();
    let mut answers = BufReader::new(holder.stdout.take().unwrap());
    writeln!(stdin, "act,athlete\nhere,1").unwrap();
    let mut answer = String::new();
    let _ = answers.read_line(&mut answer).unwrap();
    assert_eq!(answer, "ok 2\n");

    let before = folder.bytes("day.maxday");
    for line in WRITERS {
        let sentence = folder.no(&line.replace("DAY", "day.maxday"));
        has(
            &sentence,
            &["day.maxday", "held by", &holder.id().to_string()],
        );
        assert!(before == folder.bytes("day.maxday"), "{line}");
    }
    let ran = folder.feed("apply day.maxday -", format!("{ACTS}\nhere,2,,,,,,,,\n"));
    has(&ran.sentence(), &["held by"]);
    // Everybody else reads along.
    for line in ["acts", "standings", "queue", "attempts"] {
        let _ = folder.ok(&format!("{line} day.maxday"));
    }
    has(&folder.ok("acts day.maxday"), &["here,1,"]);
    folder.sound("day.maxday");

    // The holder goes on undisturbed, and lets go.
    writeln!(stdin, "here,3").unwrap();
    answer.clear();
    let _ = answers.read_line(&mut answer).unwrap();
    assert_eq!(answer, "ok 3\n");
    drop(stdin);
    assert!(holder.wait().unwrap().success());
    folder.apply("day.maxday", "here,2,,,,,,,,");
    folder.sound("day.maxday");
}

#[test]
fn what_is_refused_leaves_the_very_bytes() {
    let folder = with_inputs();
    small_meet(&folder);
    folder.write(
        "bad-acts.csv",
        format!("{ACTS}\nhere,1,,,,,,,,\nhere,99,,,,,,,,\n"),
    );
    folder.write("no-acts.csv", "act,frob\nhere,1\n");
    folder.write(
        "bad-roster.csv",
        "lot,name,bodyweight\n8,Al Reed,70\n9,Bo Vane,7\n",
    );
    let before = folder.bytes("day.maxday");
    for line in [
        "apply day.maxday bad-acts.csv",
        "apply day.maxday no-acts.csv",
        "apply day.maxday not-there.csv",
        "roster day.maxday bad-roster.csv",
        "roster day.maxday not-there.csv",
        "roster day.maxday r.csv --dates frob",
        "queue day.maxday --platform 7",
        "standings day.maxday --by frob",
    ] {
        let ran = folder.run(line);
        assert_ne!(ran.code, Some(0), "{line}");
        assert!(
            before == folder.bytes("day.maxday"),
            "{line} wrote to the day"
        );
    }
    for line in [
        "acts day.maxday",
        "check day.maxday",
        "standings day.maxday",
        "attempts day.maxday",
        "queue day.maxday",
        "new next.maxday --like day.maxday",
    ] {
        let _ = folder.ok(line);
        assert!(
            before == folder.bytes("day.maxday"),
            "{line} wrote to the day"
        );
    }
}

#[test]
fn the_queue_of_a_meet_is_law() {
    let folder = Folder::new();
    small_meet(&folder);
    let no = |row: &str, parts: &[&str]| {
        let sentence = folder.refused("day.maxday", row);
        has(&sentence, &["Nothing was applied; line 2: "]);
        has(&sentence, parts);
    };
    no("lights,,,,,www,,,,", &["Nobody is called"]);
    no("lights,2,snatch,1,62,www,,,,", &["lot 1", "60 kg"]);
    no("call,2,,,,,,,,", &["lot 1", "attempt 1", "60 kg"]);
    no("lights,1,snatch,1,61,www,,,,", &["60 kg", "61 kg"]);
    no("lights,1,snatch,2,60,www,,,,", &["ttempt 2", "1"]);
    no("lights,1,clean-and-jerk,1,75,www,,,,", &["snatch"]);
    no("lights,1,snatch,1,60,ww,,,,", &["2 lights", "3"]);
    no("lights,1,snatch,1,60,wwww,,,,", &["4 lights", "3"]);
    no("lights,1,snatch,1,60,wwx,,,,", &["wwx", "w or r"]);
    no("lights,1,snatch,1,60,wwr:frob,,,,", &["frob", "press-out"]);
    no("lights,9,snatch,1,60,www,,,,", &["9"]);
    no("clock,,,,,stop,,,,", &["clock"]);

    folder.apply("day.maxday", "call,,,,,,,2026-11-21T09:01:00,,");
    no("call,,,,,,,,,", &["Lot 1", "60 kg"]);
    no("lights,,,,,w,,,,", &["1 light", "3"]);
    // On the clock of 60 seconds, changes close 30 s before its end.
    no(
        "request,1,snatch,1,63,,,2026-11-21T09:01:31,,",
        &["Too late", "lot 1", "60 kg stands"],
    );
    folder.apply(
        "day.maxday",
        "request,1,snatch,1,61,,,2026-11-21T09:01:29,,",
    );
    // What has no time of its own is not judged by the clock.
    folder.apply("day.maxday", "request,1,snatch,1,62,,,,,");
    no(
        "request,1,snatch,1,63,,,2026-11-21T09:01:30,,",
        &["no change", "62 kg"],
    );
    no("request,1,snatch,1,50,,,2026-11-21T09:01:20,,", &["ot 1"]);
}

#[test]
fn attempts_beyond_the_rules_are_refused() {
    let folder = Folder::new();
    small_meet(&folder);
    folder.apply(
        "day.maxday",
        "lights,1,snatch,1,60,www,,,,\nrequest,1,snatch,2,61,,,,,\n\
         lights,1,snatch,2,61,rrr,,,,\nlights,1,snatch,3,61,www,,,,",
    );
    let no = |row: &str, parts: &[&str]| {
        has(&folder.refused("day.maxday", row), parts);
    };
    no("lights,1,snatch,4,63,www,,,,", &["ot 1", "3", "extra"]);
    no(
        "tally,1,snatch,,63,good,,,,",
        &["ot 1", "snatch", "3", "extra"],
    );
    no("tally,1,snatch,4,63,good,,,,", &["ot 1", "snatch", "3"]);
    no("request,1,snatch,,63,,,,,", &["ot 1", "3"]);
    no("pass,1,snatch,,,,,,,", &["ot 1"]);
    no(
        "tally,1,snatch,2,61,good,,,,",
        &["Attempt 2", "ruled already", "no"],
    );
    no(
        "overrule,2,snatch,1,,good: jury,,,,",
        &["Attempt 1", "lot 2", "no ruling"],
    );
    no("request,2,snatch,,61.5,,,,,", &["61 kg", "62 kg"]);
    no("request,2,snatch,,601,,,,,", &["600 kg"]);
    no("request,2,snatch,,0,,,,,", &["above 0"]);
    no("request,2,snatch,,-5,,,,,", &["61 kg"]);
    no("request,2,snatch,,60,,,,,", &["61 kg"]);
    no("loaded,2,snatch,1,60,keep,,,,", &["lot 2"]);
    folder.apply("day.maxday", "extra,1,snatch,,,bar slipped in the rack,,,,");
    folder.apply("day.maxday", "tally,1,snatch,4,63,good,,,,");
    no("tally,1,snatch,,64,good,,,,", &["ot 1", "extra"]);
}

#[test]
fn rows_that_cannot_be_read_are_refused() {
    let folder = Folder::new();
    small_meet(&folder);
    for (row, parts) in [
        ("frob,1,,,,,,,,", ["frob", "lights", "request"]),
        (",1,,,,,,,,", ["act", "lights", "request"]),
        ("here,,,,,,,,,", ["number", "", ""]),
        ("here,9,,,,,,,,", ["9", "", ""]),
        ("here,one,,,,,,,,", ["one", "1", "9999"]),
        ("here,0,,,,,,,,", ["0", "1", "9999"]),
        ("here,1,,,,,,noon,,", ["noon", "09:05", ""]),
        (
            "request,1,bench,,80,,,,,",
            ["bench", "snatch", "clean-and-jerk"],
        ),
        ("request,1,snatch,x,80,,,,,", ["x", "", ""]),
        ("request,1,snatch,,80 st,,,,,", ["80 st", "kg", "lb"]),
        ("request,1,snatch,,,,,,,", ["load", "", ""]),
        ("tally,1,snatch,1,60,great,,,,", ["great", "good", "no"]),
        ("tally,1,snatch,1,60,,,,,", ["good", "no", ""]),
        ("pass,1,snatch,,,later,,,,", ["later", "rest", ""]),
        ("stop,1,snatch,1,,bored,,,,", ["bored", "technique", "pain"]),
        ("loaded,1,snatch,1,60,maybe,,,,", ["maybe", "keep", "again"]),
        ("clock,,,,,backwards,,,,", ["backwards", "stop", "resume"]),
        ("break,,,,,long,,,,", ["long", "minutes", ""]),
        ("weigh,1,,,14,,,,,", ["14", "15 kg", "300 kg"]),
        ("weigh,1,,,301kg,,,,,", ["301", "15 kg", "300 kg"]),
        ("clear,1,,,,perhaps,,,,", ["perhaps", "yes", "up to"]),
        ("cap,1,snatch,,heavy,,,,,", ["heavy", "number", ""]),
        ("set,,,,,frob=1,,,,", ["frob", "judges", "name"]),
        ("set,,,,,judges=2,,,,", ["judges", "1", "3"]),
        ("set,,,,,judges,,,,", ["judges", "=", ""]),
        ("set,,,,,tie=frob,,,,", ["frob", "bodyweight", "shared"]),
        ("add,,,,,lot=1; family=Reed,,,,", ["1", "Una Farrow", "4"]),
        ("add,,,,,lot=10000; family=Reed,,,,", ["10000", "9999", ""]),
        ("add,,,,,grade=9,,,,", ["name", "", ""]),
        (
            "add,,,,,family=Reed; frob=1,,,,",
            ["frob", "bodyweight", "snatch"],
        ),
        ("edit,1,,,,bodyweight=900,,,,", ["900", "300 kg", ""]),
        ("place,1,,,,platform=2,,,,", ["2", "one", ""]),
        ("start,,snatch,,,Q,,,,", ["Q", "A", ""]),
        ("start,,bench-press,,,A,,,,", ["bench-press", "snatch", ""]),
        ("start,,,,,A,,,,", ["lift", "", ""]),
        ("close,,,,,9,,,,", ["9", "1", ""]),
        ("reopen,,,,,1,,,,", ["not closed", "", ""]),
        ("note,1,,,,,,,,", ["reason", "", ""]),
        ("correct,1,snatch,1,61,,,,,", ["ttempt 1", "lot 1", ""]),
        ("correct,,,,61,,,,,", ["athlete", "id", ""]),
        ("annul,,,,,no-such-act,,,,", ["no-such-act", "", ""]),
        ("undo,,,,,frob,,,,", ["frob", "roster", "scale"]),
        ("redo,,,,,,,,,", ["redo", "", ""]),
        ("overrule,1,snatch,1,,good,,,,", ["ttempt 1", "", ""]),
        ("check,,,,,,5,,,", ["5", "one", ""]),
    ] {
        has(&folder.refused("day.maxday", row), &parts);
    }
    // A rule cannot be changed to nonsense by a row that also sets sense.
    let sentence = folder.refused("day.maxday", "set,,,,,name=X; judges=9,,,,");
    has(&sentence, &["judges"]);
    folder.sound("day.maxday");
}

#[test]
fn acts_files_that_cannot_be_read_are_refused() {
    let folder = Folder::new();
    small_meet(&folder);
    let before = folder.ok("acts day.maxday");
    for (text, parts) in [
        ("act,frob\nhere,1\n", ["column frob", "athlete"]),
        ("athlete,lift\n1,snatch\n", ["header", "act"]),
        ("act,act\nhere,here\n", ["twice", "act"]),
        ("act,athlete\nhere,1,2\n", ["row 2", "2"]),
        ("act,athlete\nhere,1\nhere,\"2\n", ["row 3", "quote"]),
        ("", ["empty", "header"]),
        ("\n\n", ["empty", "header"]),
        ("act,athlete\nhere,1\nhe\0re,2\n", ["NUL", "3"]),
        ("PK\u{3}\u{4}....", ["spreadsheet", "CSV"]),
    ] {
        folder.write("a.csv", text);
        has(&folder.no("apply day.maxday a.csv"), &parts);
        assert_eq!(before, folder.ok("acts day.maxday"), "{text:?}");
    }
    has(&folder.no("apply day.maxday nowhere.csv"), &["nowhere.csv"]);
    has(&folder.no("apply day.maxday ."), &["."]);
    // An id that is taken.
    folder.apply("day.maxday", "here,1,,,,,,,,mine");
    has(
        &folder.refused("day.maxday", "here,2,,,,,,,,mine"),
        &["mine"],
    );
}

#[test]
fn gates_of_a_max_day_are_kept() {
    let folder = Folder::new();
    small_max_day(&folder);
    let no = |row: &str, parts: &[&str]| {
        has(&folder.refused("day.maxday", row), parts);
    };
    // Gates are for what is to come; a card says what was lifted.
    no("request,3,clean,,155,,,,,", &["ot 3", "150 lb", "clean"]);
    no(
        "tally,3,back-squat,1,100,good,,,,",
        &["ot 3", "back-squat", "clean"],
    );
    no(
        "tally,1,bench-press,1,100,good,,,,",
        &["bench-press", "back-squat"],
    );
    no("undo,,,,,,,,,", &["platform", "1 to 2"]);
    no("check,,,,,Ms Reed,3,,,", &["3", "1 to 2"]);
    no("lights,1,clean,1,95,www,1,,,", &["3 lights", "1"]);
    folder.apply(
        "day.maxday",
        "cap,1,clean,,90,who=Coach Hale; why=sore wrist,,,,",
    );
    no("request,1,clean,,95,,,,,", &["ot 1", "90 lb", "clean"]);
    folder.apply("day.maxday", "clear,2,,,,no,,,,");
    folder.apply("day.maxday", "start,,clean,,,A,,,,");
    no("call,2,,,,,1,,,", &["ot 2", "not cleared"]);
    no("lights,2,clean,1,115,w,1,,,", &["ot 2", "not cleared"]);
    folder.apply("day.maxday", "withdraw,2,,,,ill,,,,");
    no("call,2,,,,,1,,,", &["ot 2", "withdrawn"]);
    no("request,2,back-squat,,190,,,,,", &["ot 2", "withdrawn"]);
    folder.apply("day.maxday", "close,,,,,,,,,");
    no("tally,1,back-squat,1,135,good,,,,", &["closed", "reopen"]);
    no("reopen,,,,,,,,,", &["reason"]);
}

#[test]
fn later_facts_keep_what_they_hang_on() {
    let folder = Folder::new();
    small_max_day(&folder);
    folder.apply(
        "day.maxday",
        "tally,1,back-squat,1,135,good,,,,first\ntally,1,back-squat,2,145,no,,,,second",
    );
    has(
        &folder.refused("day.maxday", "annul,,,,,first,,,,"),
        &["second"],
    );
    folder.apply(
        "day.maxday",
        "annul,,,,,second; typed twice,,,,\nannul,,,,,first,,,,",
    );
    has(
        &folder.refused("day.maxday", "annul,,,,,first,,,,"),
        &["first"],
    );
    folder.sound("day.maxday");
}

#[test]
fn rosters_are_taken_whole_or_not_at_all() {
    let folder = Folder::new();
    let _ = folder.ok("new d.maxday --format max-day --unit kg --date 2026-11-17");
    let _ = folder.roster("d.maxday", "lot,name\n1,Una Farrow\n");
    let before = folder.ok("acts d.maxday");
    let head = "lot,name,born,bodyweight,clearance,back-squat,platform\n";
    for (row, column, parts) in [
        ("7,Bo Vane,,14,,,", "bodyweight", ["14", "15 kg", "300 kg"]),
        (
            "7,Bo Vane,,301,,,",
            "bodyweight",
            ["301", "15 kg", "300 kg"],
        ),
        ("7,Bo Vane,,heavy,,,", "bodyweight", ["heavy", "number", ""]),
        ("7,Bo Vane,,,,0,", "back-squat", ["0", "above 0", "600 kg"]),
        (
            "7,Bo Vane,,,,601,",
            "back-squat",
            ["601", "above 0", "600 kg"],
        ),
        (
            "7,Bo Vane,,,,ninety,",
            "back-squat",
            ["ninety", "number", ""],
        ),
        ("0,Bo Vane,,,,,", "lot", ["0", "1", "9999"]),
        ("10000,Bo Vane,,,,,", "lot", ["10000", "1", "9999"]),
        ("7.5,Bo Vane,,,,,", "lot", ["7.5", "whole number", "9999"]),
        ("1,Bo Vane,,,,,", "lot", ["1", "Una Farrow", "--update"]),
        ("7,,,,,,", "name", ["name", "", ""]),
        (
            "7,Bo Vane,2009-02-30,,,,",
            "born",
            ["2009-02-30", "2009-04-03", ""],
        ),
        ("7,Bo Vane,2031-01-01,,,,", "born", ["2031-01-01", "", ""]),
        (
            "7,Bo Vane,,,perhaps,,",
            "clearance",
            ["perhaps", "yes", "up to"],
        ),
        ("7,Bo Vane,,,,,4", "platform", ["4", "one", ""]),
    ] {
        // The sound row before it isn't imported either.
        folder.write("r.csv", format!("{head}6,Al Reed,,70,yes,80,1\n{row}\n"));
        let ran = folder.run("roster d.maxday r.csv");
        assert_ne!(ran.code, Some(0), "{row}");
        has(&ran.err, &["row 3", &format!("column {column}")]);
        has(&ran.err, &parts);
        assert_eq!(ran.out, "", "{row}");
        assert!(ran.err.lines().all(|l| l.ends_with('.')), "{}", ran.err);
        assert_eq!(before, folder.ok("acts d.maxday"), "{row}");
    }
    // All faults at once, each with its row and column.
    folder.write(
        "r.csv",
        format!("{head}0,Al Reed,,70,,,\n7,\"Bo\nVane\",,7,,,\n8,Cy Dunn,,,,1000,\n"),
    );
    let ran = folder.run("roster d.maxday r.csv");
    assert_ne!(ran.code, Some(0));
    has(
        &ran.err,
        &[
            "row 2, column lot",
            "row 3, column bodyweight",
            "row 4",
            "column back-squat",
        ],
    );
    assert_eq!(before, folder.ok("acts d.maxday"));

    for (text, parts) in [
        ("lot,name\n", ["row", "header"]),
        ("", ["empty", "header"]),
        ("lot,team\n7,Reds\n", ["name", "given"]),
        ("lot,name,Lot No\n7,Bo Vane,7\n", ["Lot No", "lot"]),
        ("PK\u{3}\u{4}....", ["spreadsheet", "CSV"]),
    ] {
        folder.write("r.csv", text);
        let ran = folder.run("roster d.maxday r.csv");
        assert_ne!(ran.code, Some(0), "{text:?}");
        has(&ran.err, &parts);
        assert_eq!(before, folder.ok("acts d.maxday"), "{text:?}");
    }
    has(&folder.no("roster d.maxday nowhere.csv"), &["nowhere.csv"]);
    has(&folder.no("roster d.maxday ."), &["."]);
    folder.sound("d.maxday");
}

#[test]
fn a_file_is_taken_whole_unless_it_is_to_keep_going() {
    let folder = Folder::new();
    small_meet(&folder);
    let rows = format!(
        "{ACTS}\nhere,1,,,,,,,,\nhere,9,,,,,,,,\n\"note\",2,,,,\"two\nlines\",,,,\n\
         frob,1,,,,,,,,\nhere,3,,,,,,,,\n"
    );
    folder.write("a.csv", rows);
    let before = folder.ok("acts day.maxday");
    let ran = folder.run("apply day.maxday a.csv");
    assert_eq!(ran.code, Some(1));
    has(&ran.sentence(), &["line 3", "9"]);
    assert_eq!(before, folder.ok("acts day.maxday"));

    let ran = folder.run("apply day.maxday a.csv --keep-going");
    assert_eq!(ran.code, Some(1), "rows were refused");
    has(&ran.err, &["line 3: ", "line 6: ", "2 acts refused"]);
    has(&ran.out, &["3 acts applied"]);
    let acts = folder.ok("acts day.maxday");
    has(&acts, &["here,1,", "note,2,", "here,3,"]);
    assert_eq!(
        Sheet::read(&acts).rows.len(),
        Sheet::read(&before).rows.len() + 3
    );
    folder.write("a.csv", format!("{ACTS}\nhere,2,,,,,,,,\n"));
    assert_eq!(
        folder.run("apply day.maxday a.csv --keep-going").code,
        Some(0)
    );
    folder.sound("day.maxday");
}

#[test]
fn a_stream_is_answered_row_by_row() {
    let folder = Folder::new();
    small_meet(&folder);
    // Lines: 1-2 the header with a quoted line break behind it, 3 good, 4-6 one
    // row, 7 blank, 8 refused, 9-10 refused, 11 unreadable, 12 good.
    let input = "\u{FEFF}ACT;Athlete;detail;\"at\n\"\r\n\
        here;1;;\r\n\
        note;2;\"three\nlines\nof text\";\n\
        \n\
        here;9;;\n\
        note;9;\"two\nlines\";\n\
        here;1;;;;;;x\n\
        here;3;;";
    let ran = folder.feed("apply day.maxday -", input);
    assert_eq!(ran.code, Some(1), "{}{}", ran.out, ran.err);
    let answers: Vec<&str> = ran.out.lines().collect();
    assert_eq!(answers.len(), 6, "{}", ran.out);
    assert_eq!(answers[0], "ok 3");
    assert_eq!(answers[1], "ok 4");
    assert!(answers[2].starts_with("refused 8: "), "{}", answers[2]);
    assert!(answers[3].starts_with("refused 9: "), "{}", answers[3]);
    assert!(answers[4].starts_with("refused 11: "), "{}", answers[4]);
    assert_eq!(answers[5], "ok 12");
    for answer in answers {
        assert!(
            answer.starts_with("ok ") || answer.ends_with('.'),
            "{answer}"
        );
    }
    has(&folder.ok("acts day.maxday"), &["here,3,"]);

    // Nothing but good rows: exit 0 and no word on standard error.
    let out = folder
        .feed("apply day.maxday -", "act,athlete\nhere,2\n")
        .ok();
    assert_eq!(out, "ok 2\n");
    // Only a header has nothing to answer.
    assert_eq!(
        folder.feed("apply day.maxday -", format!("{ACTS}\n")).ok(),
        ""
    );
    // A header that can't be read ends all.
    let ran = folder.feed("apply day.maxday -", "act,frob\nhere,1\n");
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.starts_with("refused 1: "), "{}", ran.out);
    has(&ran.out, &["frob"]);
    assert_eq!(ran.out.lines().count(), 1);
    let ran = folder.feed("apply day.maxday -", "");
    assert_eq!(ran.code, Some(1));
    folder.sound("day.maxday");
}

#[test]
fn an_answer_comes_before_the_next_row() {
    let folder = Folder::new();
    small_meet(&folder);
    let mut child = folder.spawn("apply day.maxday -");
    let mut stdin = child.stdin.take().unwrap();
    let mut answers = BufReader::new(child.stdout.take().unwrap());
    let mut say = |text: &str| {
        stdin.write_all(text.as_bytes()).unwrap();
        let mut answer = String::new();
        let _ = answers.read_line(&mut answer).unwrap();
        answer
    };
    assert_eq!(say("act,athlete,detail\nhere,1,\n"), "ok 2\n");
    // It is durable: another process sees it.
    has(&folder.ok("acts day.maxday"), &["here,1,"]);
    assert!(say("here,9,\n").starts_with("refused 3: "));
    assert_eq!(say("note,1,\"a\nb\"\n"), "ok 4\n");
    assert_eq!(say("here,2,\n"), "ok 6\n");
    has(&folder.ok("acts day.maxday"), &["here,2,"]);
    drop(stdin);
    assert_eq!(child.wait().unwrap().code(), Some(1));
}
