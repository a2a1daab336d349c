//! `maxday erase`: the person goes, the day stays.

use std::io::{BufRead, BufReader, Write};

use maxday::file::Live;
use rusqlite::Connection;

use super::bin::{Folder, Sheet, has};

/// Words that describe lot 2 and nobody else.
const SECRETS: [&str; 15] = [
    "Wilhelmina",
    "Willemijn",
    "57.15",
    "57.25",
    "Oyelaran",
    "Oakenfold",
    "stu-77412",
    "2010-03-14",
    "58.35",
    "57.95",
    "Nurse Adeyemi",
    "sprained wrist",
    "dentist",
    "rack peg nine",
    "chalk allergy",
];

/// A day in which lot 2 was talked about in every way.
fn day(folder: &Folder) {
    let _ = folder.ok(
        "new day.maxday --format max-day --unit kg --date 2026-11-17 --lifts back-squat",
    );
    let _ = folder.roster(
        "day.maxday",
        "lot,id,given,family,sex,born,grade,team,flight,bodyweight,clearance,back-squat\n\
         1,stu-1,Una,Farrow,F,2009-01-02,10,Blue,A,60.2,yes,60\n\
         2,stu-77412,Wilhelmina,Oyelaran,F,2010-03-14,11,Green,A,58.35,yes,70\n\
         3,stu-3,Ida,Quill,F,2009-05-06,10,Blue,A,66,yes,65\n",
    );
    for row in [
        "edit,2,,,,family=Oakenfold,,,,",
        "undo,,,,,roster,,,,",
        "edit,2,,,,grade=12; given=Willemijn,,,,e-1",
        "correct,,,,,e-1; given=Wilhelmina,,,,",
        "weigh,2,,,57.15,,,,,w-1",
        "annul,,,,,w-1; typed for Una,,,,",
        "weigh,2,,,57.25,,,,,",
        "undo,,,,,scale,,,,",
        "redo,,,,,scale,,,,",
        "undo,,,,,scale,,,,",
        "weigh,2,,,57.95,,,,,",
        "clear,2,back-squat,,,no; who=Nurse Adeyemi; why=sprained wrist,,,,",
        "clear,2,back-squat,,,up to 90; who=Nurse Adeyemi; why=taped,,,,",
        "cap,2,back-squat,,80,who=Nurse Adeyemi; why=sprained wrist,,,,",
        "absent,2,,,,dentist,,,,",
        "back,2,,,,,,,,",
        "edit,2,,,,rack squat=rack peg nine,,,,",
        "note,2,,,,chalk allergy,,,,",
        "note,,,,,Wilhelmina Oyelaran spotted for flight B,,,,",
        "note,3,,,,borrowed the belt of Wilhelmina Oyelaran,,,,",
        "record,,back-squat,,85,sex=F; holder=Wilhelmina Oyelaran; date=2025-11-18,,,,",
        "tally,1,back-squat,1,60,good,,,,",
        "tally,2,back-squat,1,70,good,,,,",
        "tally,2,back-squat,2,75,no,,,,",
        "tally,3,back-squat,1,65,good,,,,",
        "overrule,2,back-squat,2,,good: sprained wrist or not it was down,,,,",
        "correct,2,back-squat,1,72,good; reason=dentist,,,,",
    ] {
        folder.apply("day.maxday", row);
    }
}

fn holds(bytes: &[u8], word: &str) -> bool {
    bytes.windows(word.len()).any(|w| w == word.as_bytes())
}

#[test]
fn an_erased_person_is_in_no_byte_of_the_file() {
    let folder = Folder::new();
    day(&folder);
    let before = folder.bytes("day.maxday");
    for secret in SECRETS {
        assert!(holds(&before, secret), "{secret} was never in the file");
    }
    let acts = Sheet::read(&folder.ok("acts day.maxday"));

    let said = folder.ok("erase day.maxday 2 --yes");
    has(&said, &["Number 2 is erased", "rewritten", "backup"]);
    folder.sound("day.maxday");
    has(&folder.ok("check day.maxday"), &["chain whole", "erased"]);
    let after = folder.bytes("day.maxday");
    for secret in SECRETS {
        assert!(!holds(&after, secret), "{secret} is still in the file");
    }
    assert!(!folder.file("day.maxday-journal").exists());
    assert!(said.len() < 700 && !said.contains("still stands"), "{said}");

    // The number stands for the person; the results are what they were.
    let standings = Sheet::read(&folder.ok("standings day.maxday"));
    assert_eq!(standings.of(2, "name"), "No. 2");
    assert_eq!(standings.of(2, "id"), "");
    assert_eq!(standings.of(2, "bodyweight"), "");
    assert_eq!(standings.of(2, "back-squat best"), "75");
    assert_eq!(standings.of(2, "place"), "1");
    assert_eq!(standings.of(1, "name"), "Una Farrow");
    assert_eq!(standings.of(1, "bodyweight"), "60.2");

    // The others' rows are as they were, but for the remark that named her.
    let others = |sheet: &Sheet| -> Vec<Vec<String>> {
        let at = sheet.column("athlete");
        let of = |row: &&Vec<String>| row[at] == "1" || row[at] == "3";
        sheet.rows.iter().filter(of).cloned().collect()
    };
    let now = Sheet::read(&folder.ok("acts day.maxday"));
    let (was, is) = (others(&acts), others(&now));
    let changed: Vec<_> = was.iter().zip(&is).filter(|(a, b)| a != b).collect();
    assert_eq!(was.len(), is.len());
    assert_eq!(changed.len(), 1, "{changed:?}");
    assert!(changed[0].0.iter().any(|c| c.contains("borrowed the belt")));

    // Whatever is made of the day from now on shows the number alone.
    let _ = folder.ok("papers day.maxday --out papers");
    let _ = folder.ok("export day.maxday --out day.json");
    let mut made = vec![folder.bytes("day.json")];
    for name in super::bin::names(&folder.file("papers")) {
        made.push(std::fs::read(folder.file("papers").join(name)).unwrap());
    }
    assert!(made.len() > 5);
    for (bytes, secret) in made.iter().flat_map(|m| SECRETS.map(|s| (m, s))) {
        assert!(!holds(bytes, secret), "{secret} in what was made");
    }
    let db = Connection::open(folder.file("day.maxday")).unwrap();
    let seen: String = db
        .query_row(
            "SELECT given || '/' || family || '/' || ifnull(bodyweight, '-') || '/' || \
             ifnull(born, '-') FROM v1_athlete WHERE lot = 2",
            [],
            |row| row.get(0),
        )
        .unwrap_or_default();
    assert!(!seen.contains("Oyelaran"), "{seen}");
    drop(db);

    // The story that is left replays to the same day.
    folder.write("all.csv", folder.ok("acts day.maxday"));
    let _ = folder.ok(
        "new again.maxday --format max-day --unit kg --date 2026-11-17 --lifts back-squat",
    );
    let _ = folder.ok("apply again.maxday all.csv");
    assert_eq!(
        folder.ok("standings again.maxday"),
        folder.ok("standings day.maxday")
    );
}

#[test]
fn erasing_is_asked_for_plainly_and_may_be_done_again() {
    let folder = Folder::new();
    day(&folder);
    let bytes = folder.bytes("day.maxday");
    has(
        &folder.no("erase day.maxday 2"),
        &["Nothing was erased", "Wilhelmina Oyelaran", "--yes"],
    );
    has(
        &folder.no("erase day.maxday 9 --yes"),
        &["number 9", "1, 2, 3"],
    );
    has(
        &folder.no("erase other.maxday 2 --yes"),
        &["There is no file"],
    );
    has(&folder.no("erase day.maxday Una --yes"), &["Una"]);
    assert_eq!(folder.bytes("day.maxday"), bytes);

    let _ = folder.ok("erase day.maxday 2 --yes");
    let rows = folder.ok("acts day.maxday");
    has(
        &folder.ok("erase day.maxday 2 --yes"),
        &["was erased before"],
    );
    assert_eq!(folder.ok("acts day.maxday"), rows);
    folder.sound("day.maxday");

    // What is entered afterwards is erased by the next time.
    folder.apply("day.maxday", "weigh,2,,,61.85,,,,,");
    folder.apply(
        "day.maxday",
        "edit,2,,,,family=Oyelaran; given=Wilhelmina,,,,",
    );
    let standings = Sheet::read(&folder.ok("standings day.maxday"));
    assert_eq!(standings.of(2, "name"), "Wilhelmina Oyelaran");
    let _ = folder.ok("erase day.maxday 2 --yes");
    let after = folder.bytes("day.maxday");
    for secret in ["61.85", "Oyelaran", "Wilhelmina"] {
        assert!(!holds(&after, secret), "{secret}");
    }
    folder.sound("day.maxday");
}

#[test]
fn somebody_whose_entry_was_undone_is_erased_too() {
    let folder = Folder::new();
    day(&folder);
    folder.apply(
        "day.maxday",
        "add,,,,,given=Bartholomew; family=Nkemelu; lot=8; back-squat=50; flight=A,,,,",
    );
    folder.apply("day.maxday", "undo,,,,,roster,,,,");
    assert!(holds(&folder.bytes("day.maxday"), "Nkemelu"));
    let _ = folder.ok("erase day.maxday 8 --yes");
    assert!(!holds(&folder.bytes("day.maxday"), "Nkemelu"));
    assert!(!holds(&folder.bytes("day.maxday"), "Bartholomew"));
    folder.sound("day.maxday");
    // Also where somebody else has the number now.
    for row in [
        "add,,,,,given=Cuthbert; family=Vandersloot; lot=7; back-squat=50; flight=A,,,,",
        "undo,,,,,roster,,,,",
        "add,,,,,given=Rosalind; family=Ekwueme; lot=7; back-squat=50; flight=A,,,,",
    ] {
        folder.apply("day.maxday", row);
    }
    has(&folder.no("erase day.maxday 7"), &["Rosalind Ekwueme"]);
    let _ = folder.ok("erase day.maxday 7 --yes");
    for secret in ["Cuthbert", "Vandersloot", "Rosalind", "Ekwueme"] {
        assert!(!holds(&folder.bytes("day.maxday"), secret), "{secret}");
    }
    folder.sound("day.maxday");
    let standings = Sheet::read(&folder.ok("standings day.maxday"));
    assert_eq!(standings.of(2, "name"), "Wilhelmina Oyelaran");
}

#[test]
fn a_name_that_others_bear_or_the_chain_covers_is_named() {
    let folder = Folder::new();
    day(&folder);
    folder.apply(
        "day.maxday",
        "add,,,,,given=Tobias; family=Oyelaran; lot=9; back-squat=50; flight=A,,,,",
    );
    let said = folder.ok("erase day.maxday 2 --yes");
    has(&said, &["still stands in the journal's row"]);
    let standings = Sheet::read(&folder.ok("standings day.maxday"));
    assert_eq!(standings.of(9, "name"), "Tobias Oyelaran");
    assert!(!holds(&folder.bytes("day.maxday"), "Wilhelmina"));
    folder.sound("day.maxday");
}

#[test]
fn a_day_that_is_held_is_left_alone() {
    let folder = Folder::new();
    day(&folder);
    let mut child = folder.spawn("apply day.maxday -");
    let mut stdin = child.stdin.take().unwrap();
    let mut answers = BufReader::new(child.stdout.take().unwrap());
    writeln!(stdin, "act,athlete,id\nhere,1,act-1").unwrap();
    let mut answer = String::new();
    let _ = answers.read_line(&mut answer).unwrap();
    has(&folder.no("erase day.maxday 2 --yes"), &["held by"]);
    drop(stdin);
    assert!(child.wait().unwrap().success());
    assert!(holds(&folder.bytes("day.maxday"), "Oyelaran"));
    let _ = folder.ok("erase day.maxday 2 --yes");
    folder.sound("day.maxday");
}

#[test]
fn whoever_reads_along_forgets_the_name_too() {
    let folder = Folder::new();
    day(&folder);
    let mut reader = Live::open_read(&folder.file("day.maxday")).unwrap();
    let name = |live: &Live| live.day().facts().entry_by_number(2).unwrap().name();
    assert_eq!(name(&reader), "Wilhelmina Oyelaran");
    let _ = folder.ok("erase day.maxday 2 --yes");
    assert_eq!(reader.refresh().unwrap(), 1);
    assert_eq!(name(&reader), "No. 2");
    let fresh = Live::open_read(&folder.file("day.maxday")).unwrap();
    assert_eq!(reader.day().journal(), fresh.day().journal());
    assert_eq!(reader.day().facts(), fresh.day().facts());
    assert_eq!(reader.digest(), fresh.digest());
    folder.apply("day.maxday", "weigh,1,,,61,,,,,");
    assert_eq!(reader.refresh().unwrap(), 1);
    assert_eq!(name(&reader), "No. 2");
}
