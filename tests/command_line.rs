//! The verbs, their options and what they print.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;

use bin::{ACTS, Folder, Sheet, has, small_max_day, small_meet};

const STANDINGS_HEAD: [&str; 14] = [
    "group",
    "place",
    "lot",
    "id",
    "name",
    "sex",
    "grade",
    "category",
    "division",
    "team",
    "session",
    "bodyweight",
    "scale unit",
    "bar unit",
];

const QUEUE: &str = "position,platform,session,flight,lot,name,lift,attempt,load,bar unit,\
rests until,predicted";

#[allow(clippy::disallowed_methods)] // What the program says is compared with it.
fn today() -> String {
    chrono::Local::now().date_naive().to_string()
}

/// The settings that the making of a day gave, as its acts say.
fn as_made(folder: &Folder, day: &str) -> String {
    let acts = Sheet::read(&folder.ok(&format!("acts {day}")));
    acts.all("detail")[0].to_owned()
}

#[test]
fn every_verb_explains_itself() {
    let folder = Folder::new();
    let verbs: [(&str, &[&str]); 17] = [
        (
            "",
            &[
                "new",
                "roster",
                "apply",
                "acts",
                "queue",
                "standings",
                "attempts",
                "records",
                "history",
                "papers",
                "training",
                "check",
                "lifts",
                "formats",
                "desk",
            ],
        ),
        ("desk", &["FILE", "--sample"]),
        (
            "new",
            &[
                "FILE",
                "--format",
                "--like",
                "--name",
                "--date",
                "YYYY-MM-DD",
                "--unit",
                "--scale",
                "--judges",
                "--categories",
                "--tie",
                "--step",
                "--lifts",
                "--platforms",
                "--seed",
                "max-day",
                "weightlifting",
                "powerlifting",
                "--rules",
            ],
        ),
        (
            "roster",
            &["FILE", "ROSTER", "--dates", "--update", "iso", "mdy", "dmy"],
        ),
        ("apply", &["FILE", "ACTS", "--keep-going", "-"]),
        ("acts", &["FILE"]),
        ("queue", &["FILE", "--platform", "--at", "--posted"]),
        (
            "standings",
            &[
                "FILE", "--by", "category", "division", "slot", "team", "--posted",
            ],
        ),
        ("attempts", &["FILE", "--posted"]),
        ("records", &["FILE", "--import", "BOOK.csv", "--posted"]),
        (
            "history",
            &["FILE", "--with", "OLD", "--match", "MATCH.csv"],
        ),
        (
            "papers",
            &[
                "FILE", "--out", "--size", "letter", "a4", "--only", "--posted",
            ],
        ),
        ("training", &["FILE", "--team", "--percent", "--posted"]),
        ("school", &["FILE", "--name", "--picture", "--no-picture"]),
        ("check", &["FILE"]),
        ("lifts", &[]),
        ("formats", &[]),
    ];
    for (verb, parts) in verbs {
        let help = folder.ok(&format!("{verb} --help"));
        has(&help, parts);
        has(&help, &["Usage: maxday", "--help"]);
    }
    assert!(folder.names().is_empty(), "help left files");
    has(&folder.ok("--version"), &["maxday "]);
}

#[test]
fn wrong_calls_are_said_in_one_sentence() {
    let folder = Folder::new();
    has(&folder.no("frobnicate"), &["frobnicate"]);
    has(&folder.no("new"), &["FILE"]);
    has(&folder.no("new x.maxday"), &["--format"]);
    has(
        &folder.no("new x.maxday --format max-day --frob"),
        &["--frob"],
    );
    has(&folder.no("standings"), &["FILE"]);
    has(
        &folder.no("new x.maxday --format max-day --like y.maxday"),
        &["--like", "--format"],
    );
    assert!(folder.names().is_empty());
}

#[test]
fn a_new_day_has_the_defaults() {
    let folder = Folder::new();
    let _ = folder.ok("new meet.maxday --format weightlifting");
    let _ = folder.ok("new max.maxday --format max-day");
    for day in ["meet.maxday", "max.maxday"] {
        has(&as_made(&folder, day), &[&format!("date={}", today())]);
        folder.sound(day);
    }
    let roster = "lot,name,bodyweight,snatch,back squat\n1,Una Farrow,60.2,60,80\n";
    let _ = folder.roster("meet.maxday", roster);
    let _ = folder.roster("max.maxday", roster);
    for day in ["meet.maxday", "max.maxday"] {
        let sheet = Sheet::read(&folder.ok(&format!("standings {day}")));
        assert_eq!(sheet.of(1, "bar unit"), "kg", "{day}");
        assert_eq!(sheet.of(1, "scale unit"), "kg", "{day}");
        assert_eq!(sheet.of(1, "session"), "1", "{day}");
    }
    // Three judges in a meet, one on a max day; one platform.
    let sentence = folder.refused("meet.maxday", "tally,1,snatch,1,60,w,,,,");
    has(&sentence, &["3 judges"]);
    let sentence = folder.refused("max.maxday", "tally,1,back-squat,1,80,www,,,,");
    has(&sentence, &["1 judge"]);
    for day in ["meet.maxday", "max.maxday"] {
        let sentence = folder.refused(day, "check,,,,,Ms Reed,2,,,");
        has(&sentence, &["one"]);
    }
    // The programmes of the formats.
    let sheet = Sheet::read(&folder.ok("standings meet.maxday"));
    has(&sheet.header.join(","), &["snatch 1,", "clean-and-jerk 3,"]);
    let sheet = Sheet::read(&folder.ok("standings max.maxday"));
    has(
        &sheet.header.join(","),
        &["clean 1,", "back-squat 1,", "bench-press 3,"],
    );
}

#[test]
fn the_scale_follows_the_bar_unless_it_is_said() {
    let folder = Folder::new();
    let roster = "lot,name,bodyweight\n1,Una Farrow,100\n";
    for (options, bar, scale) in [
        ("", "kg", "kg"),
        ("--unit lb", "lb", "lb"),
        ("--unit lb --scale kg", "lb", "kg"),
        ("--scale lb", "kg", "lb"),
    ] {
        let folder = Folder::new();
        let _ = folder.ok(&format!("new d.maxday --format max-day {options}"));
        let _ = folder.roster("d.maxday", roster);
        let sheet = Sheet::read(&folder.ok("standings d.maxday"));
        assert_eq!(sheet.of(1, "bar unit"), bar, "{options}");
        assert_eq!(sheet.of(1, "scale unit"), scale, "{options}");
        assert_eq!(sheet.of(1, "bodyweight"), "100", "{options}");
    }
    has(
        &folder.no("new d.maxday --format max-day --unit stone"),
        &["kg", "lb"],
    );
}

#[test]
fn options_of_a_new_day_are_taken() {
    let folder = Folder::new();
    let _ = folder.ok(
        "new d.maxday --format weightlifting --name \"Spring meet\" --date 2026-03-07 \
         --judges 1 --categories flight --tie bodyweight --step 2.5 --platforms 3 \
         --lifts snatch,clean-and-jerk --seed 5",
    );
    has(
        &as_made(&folder, "d.maxday"),
        &[
            "name=Spring meet",
            "date=2026-03-07",
            "judges=1",
            "categories=flight",
        ],
    );
    let _ = folder.roster(
        "d.maxday",
        "lot,name,sex,flight,platform,bodyweight,snatch,clean-and-jerk\n\
         1,Una Farrow,F,A,3,61.2,60,75\n2,Ida Quill,F,A,3,60.8,60,75\n",
    );
    folder.apply(
        "d.maxday",
        "tally,1,snatch,1,60,w,,,,\ntally,2,snatch,1,60,w,,,,\n\
         tally,1,clean-and-jerk,1,75,w,,,,\ntally,2,clean-and-jerk,1,75,w,,,,",
    );
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    assert_eq!(sheet.of(1, "group"), "A", "each flight is a placing group");
    assert_eq!(sheet.of(2, "place"), "1", "the lighter athlete is first");
    assert_eq!(sheet.of(1, "place"), "2");
    let sentence = folder.refused("d.maxday", "request,1,snatch,,64,,,,,");
    has(&sentence, &["2.5 kg", "62.5 kg", "65 kg"]);

    // The same lots from the same seed.
    let lots = |name: &str| {
        let _ = folder.ok(&format!("new {name} --format max-day --seed 11"));
        let _ = folder.roster(name, "name\nUna Farrow\nDov Marsh\nIda Quill\nBo Vane\n");
        let sheet = Sheet::read(&folder.ok(&format!("standings {name}")));
        let mut pairs: Vec<(String, String)> = sheet
            .all("name")
            .iter()
            .zip(sheet.all("lot"))
            .map(|(n, l)| ((*n).to_owned(), l.to_owned()))
            .collect();
        pairs.sort();
        pairs
    };
    assert_eq!(lots("one.maxday"), lots("other.maxday"));
}

#[test]
fn ties_are_broken_as_it_is_said() {
    let roster = "lot,name,bodyweight,back-squat\n\
        1,Una Farrow,61.2,80\n2,Ida Quill,60.8,80\n3,Bo Vane,,80\n";
    let acts = "tally,2,back-squat,1,80,good,,2026-11-17T09:02:00,,\n\
        tally,1,back-squat,1,80,good,,2026-11-17T09:01:00,,\n\
        tally,3,back-squat,1,80,good,,2026-11-17T09:03:00,,";
    let places = |options: &str| {
        let folder = Folder::new();
        let _ = folder.ok(&format!(
            "new d.maxday --format max-day --date 2026-11-17 --lifts back-squat {options}"
        ));
        let _ = folder.roster("d.maxday", roster);
        folder.apply("d.maxday", acts);
        let sheet = Sheet::read(&folder.ok("standings d.maxday"));
        [1, 2, 3].map(|lot| sheet.of(lot, "place").to_owned())
    };
    assert_eq!(places(""), ["1", "1", "1"], "a max day shares places");
    assert_eq!(places("--tie earliest")[2], "3", "in the order of lifting");
    let lighter = places("--tie bodyweight");
    assert_eq!((lighter[1].as_str(), lighter[0].as_str()), ("1", "2"));
}

#[test]
fn a_new_day_can_be_like_an_old_one() {
    let folder = Folder::new();
    let _ = folder.ok(
        "new old.maxday --format max-day --unit lb --scale kg --step 10 --platforms 2 \
         --tie earliest --date 2026-03-02 --lifts clean=power-clean+hang-power-clean,deadlift",
    );
    let _ = folder.roster("old.maxday", "lot,name\n1,Una Farrow\n");
    folder.apply(
        "old.maxday",
        "set,,,,,platform.2=Rack by the door; attempts=4,,,Ms Reed,",
    );
    let before = folder.bytes("old.maxday");
    let _ = folder.ok("new next.maxday --like old.maxday --date 2026-11-17 --name Fall");
    assert!(
        before == folder.bytes("old.maxday"),
        "the old day was written"
    );
    let sheet = Sheet::read(&folder.ok("standings next.maxday"));
    assert!(sheet.rows.is_empty(), "nobody is taken over");
    has(
        &sheet.header.join(","),
        &["clean lift", "clean 4,", "deadlift 4,"],
    );
    has(
        &as_made(&folder, "next.maxday"),
        &["name=Fall", "date=2026-11-17"],
    );
    let out = folder.roster(
        "next.maxday",
        "lot,name,platform,flight,hang-power-clean,bodyweight\n1,Bo Vane,2,A,100,70\n",
    );
    has(&out, &["1 entered"]);
    let sheet = Sheet::read(&folder.ok("standings next.maxday"));
    assert_eq!(sheet.of(1, "bar unit"), "lb");
    assert_eq!(sheet.of(1, "scale unit"), "kg");
    has(
        &folder.ok("acts next.maxday"),
        &["platform.2=Rack by the door"],
    );
    let sentence = folder.refused("next.maxday", "request,1,clean,,105,,,,,");
    has(&sentence, &["10 lb"]);
    // Today, if no date is given.
    let _ = folder.ok("new today.maxday --like old.maxday");
    has(&as_made(&folder, "today.maxday"), &[&today()]);
    has(
        &folder.no("new x.maxday --like nobody.maxday"),
        &["nobody.maxday"],
    );
    assert!(!folder.file("x.maxday").exists());
}

#[test]
fn lifts_give_slots_and_variants() {
    let folder = Folder::new();
    let _ = folder.ok(
        "new d.maxday --format max-day \
         --lifts \"clean=power-clean+hang-power-clean,back-squat,bench-press,x-sled-push\"",
    );
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    let mut expected: Vec<String> =
        STANDINGS_HEAD.iter().map(|h| (*h).to_owned()).collect();
    for slot in ["clean", "back-squat", "bench-press", "x-sled-push"] {
        expected.push(format!("{slot} lift"));
        for n in 1..=3 {
            expected.push(format!("{slot} {n}"));
            expected.push(format!("{slot} {n} ruling"));
        }
        expected.push(format!("{slot} best"));
        expected.push(format!("{slot} place"));
    }
    expected.push("total".to_owned());
    assert_eq!(sheet.header, expected);
    let out = folder.roster(
        "d.maxday",
        "lot,name,clean,hang power clean,back squat,bench-press,x-sled-push,bodyweight\n\
         1,Una Farrow,60,,90,-,100,70\n2,Dov Marsh,,50,,45,,71\n",
    );
    has(&out, &["2 entered"]);
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    assert_eq!(
        sheet.of(1, "clean lift"),
        "power-clean",
        "the first is the default"
    );
    assert_eq!(sheet.of(2, "clean lift"), "hang-power-clean");
    assert_eq!(sheet.of(1, "bench-press lift"), "", "a dash is not entered");
    assert_eq!(
        sheet.of(2, "back-squat lift"),
        "back-squat",
        "blank is entered"
    );

    for (lifts, part) in [
        ("frobnication", "frobnication"),
        ("back-squat,back-squat", "back-squat"),
        ("clean=", "clean"),
        ("clean=power-clean+frob", "frob"),
        (",", "lift"),
    ] {
        let sentence = folder.no(&format!(
            "new x.maxday --format max-day --lifts \"{lifts}\""
        ));
        has(&sentence, &[part]);
        assert!(!folder.file("x.maxday").exists(), "{lifts}");
    }
}

#[test]
fn values_of_new_are_refused_with_what_is_allowed() {
    let folder = Folder::new();
    for (options, parts) in [
        ("--format javelin", ["javelin", "max-day", "powerlifting"]),
        ("--format max-day --judges 2", ["2", "1", "3"]),
        ("--format max-day --judges 5", ["5", "1", "3"]),
        (
            "--format max-day --date 2026-02-30",
            ["2026-02-30", "date", "-"],
        ),
        (
            "--format max-day --date 7/3/2026",
            ["7/3/2026", "date", "-"],
        ),
        ("--format max-day --unit st", ["st", "kg", "lb"]),
        ("--format max-day --scale st", ["st", "kg", "lb"]),
        (
            "--format max-day --tie frob",
            ["frob", "bodyweight", "earliest"],
        ),
        ("--format max-day --step 0", ["0", "step", "above 0"]),
        ("--format max-day --step -5", ["-5", "", ""]),
        ("--format max-day --step many", ["many", "number", ""]),
        (
            "--format max-day --categories frob",
            ["frob", "flight", "iwf-2026"],
        ),
        ("--format max-day --platforms 0", ["0", "1", "24"]),
        ("--format max-day --platforms 999", ["999", "", ""]),
        ("--format max-day --seed x", ["x", "--seed", ""]),
    ] {
        let sentence = folder.no(&format!("new x.maxday {options}"));
        has(&sentence, &parts);
        assert!(folder.names().is_empty(), "{options}");
    }
}

#[test]
fn rosters_are_taken_as_offices_write_them() {
    let folder = Folder::new();
    let _ = folder.ok("new d.maxday --format max-day --unit lb --date 2026-11-17");
    // Semicolons, a byte-order mark, CRLF, a quoted line break, an unknown
    // column and one that is never guessed.
    let out = folder.roster(
        "d.maxday",
        "\u{FEFF}Last Name;First Name;Student ID;DOB;Gr;Gender;Class;Locker;Weight;Unit;\
         Power Clean;back-squat;bench-press\r\n\
         Farrow;Una;A-1;2010-04-03;10;F;3;\"12\nupper\";60,5;kg;95;-;\r\n\
         \"Marsh\";Dov;A-2;2009;11;M;4;;160;;115;185;100\r\n",
    );
    has(&out, &["2 entered", "Class", "Locker"]);
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    let una = |name: &str| sheet.cell("name", "Una Farrow", name).to_owned();
    assert_eq!(una("id"), "A-1");
    assert_eq!(una("grade"), "10");
    assert_eq!(una("division"), "", "a column class is never guessed");
    assert_eq!(una("clean lift"), "power-clean");
    assert_eq!(una("back-squat lift"), "");
    assert_eq!(una("bench-press lift"), "bench-press");
    assert_eq!(una("scale unit"), "lb");
    assert!(
        una("bodyweight").starts_with("133.3"),
        "{}",
        una("bodyweight")
    );
    assert_eq!(sheet.cell("name", "Dov Marsh", "bodyweight"), "160");
    has(
        &folder.ok("acts d.maxday"),
        &["bodyweight=60.5 kg", "born=2009;", "born=2010-04-03"],
    );
    folder.sound("d.maxday");

    // Tabs and Windows-1252; a name that is split; a single word.
    let _ = folder.ok("new e.maxday --format max-day");
    folder.write(
        "e.csv",
        b"name\tteam\nM\xFCller, J\xF6rg\tA\nAna Mar\xEDa Le\xF3n\tB\nCher\tC\n",
    );
    let _ = folder.ok("roster e.maxday e.csv");
    let acts = folder.ok("acts e.maxday");
    has(
        &acts,
        &[
            "given=Jörg; family=Müller",
            "given=Ana María; family=León",
            "family=Cher",
        ],
    );
    let sheet = Sheet::read(&folder.ok("standings e.maxday"));
    let mut lots: Vec<&str> = sheet.all("lot");
    lots.sort_unstable();
    lots.dedup();
    assert_eq!(lots.len(), 3, "every entry got a lot");
}

#[test]
fn dates_are_read_as_it_is_said() {
    let folder = Folder::new();
    folder.write("r.csv", "lot,name,born\n1,Una Farrow,3/4/2010\n");
    for (option, born) in [("mdy", "2010-03-04"), ("dmy", "2010-04-03")] {
        let day = format!("{option}.maxday");
        let _ = folder.ok(&format!("new {day} --format max-day --date 2026-11-17"));
        let _ = folder.ok(&format!("roster {day} r.csv --dates {option}"));
        has(
            &folder.ok(&format!("acts {day}")),
            &[&format!("born={born}")],
        );
    }
    let _ = folder.ok("new d.maxday --format max-day --date 2026-11-17");
    let before = folder.ok("acts d.maxday");
    for options in ["", "--dates iso"] {
        let ran = folder.run(&format!("roster d.maxday r.csv {options}"));
        assert_ne!(ran.code, Some(0), "{options}");
        has(&ran.err, &["row 2", "column born", "3/4/2010"]);
    }
    has(
        &folder.no("roster d.maxday r.csv --dates ydm"),
        &["iso", "mdy", "dmy"],
    );
    assert_eq!(before, folder.ok("acts d.maxday"));
}

#[test]
fn queries_are_taken_in_and_listed_as_owed() {
    let folder = Folder::new();
    let _ = folder.ok("new d.maxday --format max-day --unit lb --categories iwf-2026");
    let out = folder.roster(
        "d.maxday",
        "lot,name,sex,clearance,back-squat,back-squat last,bench-press\n\
         1,Una Farrow,F,yes,137,,30\n2,Dov Marsh,M,yes,225,150,100\n",
    );
    let owed: Vec<&str> = out.lines().filter(|l| l.starts_with("owed: ")).collect();
    let of = |row: &str| {
        owed.iter()
            .filter(|l| l.contains(row))
            .copied()
            .collect::<Vec<_>>()
            .join("\n")
    };
    has(
        &of("row 2"),
        &[
            "Una Farrow",
            "137 lb",
            "5 lb",
            "30 lb",
            "empty bar",
            "bodyweight",
        ],
    );
    has(
        &of("row 3"),
        &["Dov Marsh", "225 lb", "150 lb", "bodyweight"],
    );
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    assert_eq!(sheet.rows.len(), 2, "queries import");
    assert_eq!(sheet.of(1, "category"), "");
}

#[test]
fn an_update_changes_and_never_removes() {
    let folder = Folder::new();
    let _ = folder.ok("new d.maxday --format max-day --date 2026-11-17");
    let _ = folder.roster(
        "d.maxday",
        "lot,id,given,family,born,team,bodyweight\n\
         1,A1,Una,Farrow,2010-04-03,Reds,60\n\
         2,A2,Dov,Marsh,2009-01-09,Reds,72\n\
         3,,Ida,Quill,2011-05-06,Blues,66\n",
    );
    // The same athlete by id, by lot, and by name with the date of birth.
    folder.write(
        "u.csv",
        "lot,id,given,family,born,team\n\
         ,A1,Una,Farrow,2010-04-03,Greens\n\
         2,,Dov,Marsh,,Greens\n\
         ,,Ida,Quill,2011-05-06,Greens\n\
         ,A9,Bo,Vane,2010-02-02,Greens\n",
    );
    let out = folder.ok("roster d.maxday u.csv --update");
    has(&out, &["1 entered", "3 changed"]);
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    assert_eq!(sheet.rows.len(), 4);
    assert!(sheet.all("team").iter().all(|t| *t == "Greens"));
    assert_eq!(sheet.of(1, "bodyweight"), "60", "what isn't named stays");
    // One undo takes the update back whole, and its story replays.
    let updated = folder.ok("standings d.maxday");
    folder.apply("d.maxday", "undo,,,,,roster,,,,");
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    assert_eq!(sheet.rows.len(), 3);
    assert_eq!(sheet.of(1, "team"), "Reds");
    folder.apply("d.maxday", "redo,,,,,roster,,,,");
    assert_eq!(updated, folder.ok("standings d.maxday"));
    folder.write("all.csv", folder.ok("acts d.maxday"));
    let _ = folder.ok("new again.maxday --format max-day --date 2026-11-17");
    let _ = folder.ok("apply again.maxday all.csv");
    assert_eq!(updated, folder.ok("standings again.maxday"));
    assert_eq!(folder.ok("acts d.maxday"), folder.ok("acts again.maxday"));
    // Once more changes nothing, and removes nobody.
    folder.write("one.csv", "id,given,family,team\nA1,Una,Farrow,Greens\n");
    let before = folder.ok("acts d.maxday");
    let out = folder.ok("roster d.maxday one.csv --update");
    has(&out, &["0 entered", "0 changed"]);
    assert_eq!(before, folder.ok("acts d.maxday"));
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    assert_eq!(sheet.rows.len(), 4);
}

#[test]
fn one_undo_takes_an_import_back_whole() {
    let folder = Folder::new();
    small_meet(&folder);
    let _ = folder.roster("day.maxday", "lot,name\n7,Bo Vane\n8,Al Reed\n");
    assert_eq!(
        Sheet::read(&folder.ok("standings day.maxday")).rows.len(),
        5
    );
    folder.apply("day.maxday", "undo,,,,,roster,,,,");
    assert_eq!(
        Sheet::read(&folder.ok("standings day.maxday")).rows.len(),
        3
    );
    folder.apply("day.maxday", "redo,,,,,roster,,,,");
    assert_eq!(
        Sheet::read(&folder.ok("standings day.maxday")).rows.len(),
        5
    );
    folder.sound("day.maxday");
}

#[test]
fn what_it_knows_is_listed_as_csv() {
    let folder = Folder::new();
    let lifts = Sheet::read(&folder.ok("lifts"));
    for column in [
        "slug", "name", "family", "start", "catch", "aliases", "faults",
    ] {
        let _ = lifts.column(column);
    }
    for slug in [
        "snatch",
        "power-snatch",
        "hang-snatch",
        "hang-power-snatch",
        "clean",
        "power-clean",
        "hang-clean",
        "hang-power-clean",
        "clean-and-jerk",
        "push-press",
        "push-jerk",
        "split-jerk",
        "back-squat",
        "front-squat",
        "overhead-squat",
        "bench-press",
        "deadlift",
        "sumo-deadlift",
        "hex-bar-deadlift",
        "strict-press",
    ] {
        assert!(lifts.all("slug").contains(&slug), "{slug}");
    }
    let of = |slug: &str, column: &str| lifts.cell("slug", slug, column).to_owned();
    assert_eq!(of("hang-power-clean", "start"), "hang");
    assert_eq!(of("hang-power-clean", "catch"), "power");
    assert_eq!(of("clean", "catch"), "full");
    assert_eq!(of("clean-and-jerk", "catch"), "any");
    assert!(lifts.rows.iter().all(|r| r.len() == lifts.header.len()));

    let formats = Sheet::read(&folder.ok("formats"));
    let rule = |key: &str, format: &str| formats.cell("rule", key, format).to_owned();
    assert_eq!(rule("judges", "weightlifting"), "3");
    assert_eq!(rule("judges", "max-day"), "1");
    assert_eq!(rule("queue", "weightlifting"), "law");
    assert_eq!(rule("queue", "max-day"), "advice");
    let shipped = ["max-day", "weightlifting", "powerlifting"];
    for format in shipped {
        assert_eq!(rule("table-number", format), "lot");
    }
    let sources = shipped.map(|f| format!("{f} source"));
    let mut header = vec!["rule", "group"];
    header.extend(shipped);
    header.extend(sources.iter().map(String::as_str));
    header.extend(["allowed", "meaning"]);
    assert_eq!(formats.header, header);
    assert!(formats.rows.len() > 60, "{}", formats.rows.len());
    for row in &formats.rows {
        assert!(row.iter().all(|cell| !cell.is_empty()), "{row:?}");
    }
    assert_eq!(rule("step", "max-day"), "2.5 kg / 5 lb");
    assert_eq!(
        rule("order", "group"),
        "Order of call and attempts",
        "rules are listed in groups"
    );
    let source = rule("step", "powerlifting source");
    assert!(
        source.starts_with("kg: ") && source.contains("; lb: "),
        "{source}"
    );
    assert!(!rule("clock", "powerlifting source").contains("; lb: "));
}

#[test]
fn the_queue_is_csv() {
    let folder = Folder::new();
    small_meet(&folder);
    let out = folder.ok("queue day.maxday --at 09:10");
    assert_eq!(out.lines().next(), Some(QUEUE));
    let queue = Sheet::read(&out);
    assert_eq!(queue.all("lot"), ["1", "2", "3"]);
    assert_eq!(queue.all("position"), ["1", "2", "3"]);
    assert_eq!(queue.all("load"), ["60", "62", "65"]);
    assert_eq!(queue.all("attempt"), ["1", "1", "1"]);
    assert_eq!(queue.of(1, "lift"), "snatch");
    assert_eq!(queue.of(1, "name"), "Una Farrow");
    assert_eq!(queue.of(1, "rests until"), "");
    assert_eq!(queue.of(1, "predicted"), "2026-11-21T09:10:00");
    assert!(queue.of(3, "predicted") > queue.of(2, "predicted"));

    folder.apply(
        "day.maxday",
        "lights,1,snatch,1,60,wwr,,2026-11-21T09:11:00,,\naway,2,,,,nurse,,,,",
    );
    let queue = Sheet::read(&folder.ok("queue day.maxday --platform 1 --at 09:12"));
    assert_eq!(queue.all("lot"), ["1", "3"]);
    assert_eq!(queue.of(1, "load"), "61", "a step more after a good lift");
    assert_eq!(queue.of(1, "attempt"), "2");
    assert_eq!(queue.of(1, "rests until"), "2026-11-21T09:13:00");
    has(&folder.no("queue day.maxday --platform 2"), &["2", "1"]);
    has(&folder.no("queue day.maxday --at noon"), &["noon"]);

    // A day that has not begun has an empty queue, and so has the other rack.
    small_max_day(&Folder::new());
    let folder = Folder::new();
    small_max_day(&folder);
    assert_eq!(folder.ok("queue day.maxday").trim_end(), QUEUE);
    folder.apply("day.maxday", "start,,back-squat,,,A,,2026-11-17T08:00:00,,");
    let queue = Sheet::read(&folder.ok("queue day.maxday"));
    assert_eq!(queue.all("platform"), ["1", "1"]);
    assert!(
        Sheet::read(&folder.ok("queue day.maxday --platform 2"))
            .rows
            .is_empty()
    );
}

#[test]
fn standard_output_is_plain_and_numbers_are_decimals() {
    let folder = Folder::new();
    small_max_day(&folder);
    folder.apply(
        "day.maxday",
        "tally,1,clean,1,95.25,good,,2026-11-17T08:01:00,,\n\
         tally,2,clean,1,52.5kg,no,,2026-11-17T08:02:00,,\n\
         tally,2,clean,2,115 lb,good,,2026-11-17T08:03:00,,\n\
         set,,,,,team-points=3 2 1,,,,\nedit,1,,,,team=Otters,,,,\n\
         start,,back-squat,,,A,,2026-11-17T08:04:00,,",
    );
    let lines = [
        "standings day.maxday",
        "standings day.maxday --by division",
        "standings day.maxday --by slot",
        "standings day.maxday --by team",
        "standings day.maxday --posted",
        "attempts day.maxday",
        "attempts day.maxday --posted",
        "queue day.maxday",
        "acts day.maxday",
        "lifts",
        "formats",
    ];
    for line in lines {
        let out = folder.ok(line);
        assert!(!out.starts_with('\u{FEFF}'), "{line}: a byte-order mark");
        assert!(!out.contains('\r'), "{line}: a carriage return");
        assert!(out.ends_with('\n'), "{line}: no line break at the end");
        let sheet = Sheet::read(&out);
        assert!(
            sheet.rows.iter().all(|r| r.len() == sheet.header.len()),
            "{line}"
        );
    }
    let attempts = Sheet::read(&folder.ok("attempts day.maxday"));
    for column in ["requested", "loaded", "credited"] {
        for cell in attempts.all(column).iter().filter(|c| !c.is_empty()) {
            assert!(
                cell.chars().all(|c| c.is_ascii_digit() || c == '.'),
                "{column}: {cell}"
            );
        }
    }
    assert_eq!(attempts.rows[0][attempts.column("loaded")], "95.25");
    assert_eq!(
        attempts.rows[1][attempts.column("loaded")],
        "115.74",
        "52.5 kg in lb"
    );
    assert_eq!(attempts.rows[1][attempts.column("credited")], "");
}

#[test]
fn what_was_typed_is_kept_beside_the_mass() {
    let folder = Folder::new();
    small_max_day(&folder);
    folder.apply(
        "day.maxday",
        "tally,2,back-squat,1,85kg,good,,2026-11-17T08:02:00,,\n\
         tally,1,back-squat,1,187.3932kg,good,,2026-11-17T08:03:00,,\n\
         weigh,2,,,72.5 kg,,,,,",
    );
    let acts = folder.ok("acts day.maxday");
    has(&acts, &["85 kg", "187.3932 kg", "72.5 kg"]);
    let sheet = Sheet::read(&folder.ok("standings day.maxday"));
    assert_eq!(sheet.of(2, "bar unit"), "lb");
    let best: f64 = sheet.of(2, "back-squat best").parse().unwrap();
    assert!((best - 85.0 / 0.453_592_37).abs() < 0.01, "{best}");
    // Ties compare exact masses: 100 kg is not 220.46 lb.
    folder.apply(
        "day.maxday",
        "correct,2,back-squat,1,100kg,,,,,\ncorrect,1,back-squat,1,220.46,,,,,",
    );
    let sheet = Sheet::read(&folder.ok("standings day.maxday"));
    assert_eq!(sheet.of(2, "back-squat place"), "1");
    assert_eq!(sheet.of(1, "back-squat place"), "2");
    let sentence =
        folder.refused("day.maxday", "tally,1,back-squat,,200.0001 lb,good,,,,");
    has(&sentence, &["200.0001"]);
    folder.sound("day.maxday");
}

#[test]
fn times_are_kept_and_stamped_ones_are_marked() {
    let folder = Folder::new();
    small_meet(&folder);
    folder.apply(
        "day.maxday",
        "here,1,,,,,,09:30,Ms Reed,\nhere,2,,,,,,2026-11-21T09:31:05-06:00,,\n\
         here,3,,,,,,,,\nnote,1,,,,late bus,,09:40~,,mine",
    );
    let acts = folder.ok("acts day.maxday");
    assert_eq!(acts.lines().next(), Some(ACTS));
    let sheet = Sheet::read(&acts);
    let at = |lot: &str, act: &str| {
        let (a, l, t) = (
            sheet.column("act"),
            sheet.column("athlete"),
            sheet.column("at"),
        );
        let row = sheet
            .rows
            .iter()
            .find(|r| r[a] == act && r[l] == lot)
            .unwrap();
        row[t].clone()
    };
    assert!(at("1", "here").starts_with("2026-11-21T09:30:00"));
    assert!(!at("1", "here").ends_with('~'));
    assert_eq!(at("2", "here"), "2026-11-21T09:31:05-06:00");
    assert!(at("3", "here").ends_with('~'), "{}", at("3", "here"));
    assert!(at("1", "note").ends_with('~'));
    assert_eq!(sheet.cell("id", "mine", "detail"), "late bus");
    assert_eq!(sheet.cell("at", &at("1", "here"), "by"), "Ms Reed");
}

#[test]
fn odd_names_and_texts_survive_a_replay() {
    let new = "--format max-day --unit lb --platforms 2 --date 2026-11-17";
    let folder = Folder::new();
    let _ = folder.ok(&format!("new day.maxday {new}"));
    let _ = folder.roster(
        "day.maxday",
        "lot,given,family,division,session,flight,platform,unit,bodyweight,clearance,\
         entry total,back-squat,back-squat last\n\
         1,\"=cmd; x=1\",\"O\"\"Neil\",\"Novice; Grade 9\",1/a,\"B, C\",1,kg,60.25,\
         \"yes; back-squat: up to 150\",400,137.5,\n\
         2,\"two\nlines\",-Lee,,1,A/B,2,,150.25,no,,187.5lb,85kg\n\
         3,x,\"y \"\"quoted; a=b\"\"\",,,,,,,,,,\n4,@at,,,,,,,,,,,\n",
    );
    folder.apply(
        "day.maxday",
        "edit,3,,,,\"family=\"\"Semi; colon=\"\"; team=\"\"a b\"\"\",,,\"Ms \"\"Q\"\", R\",e1\n\
         note,3,,,,\"e1; a note; with = and \"\"quotes\"\"\",,,,\n\
         note,,,,,\"plain; x=1\",,,,\n\
         set,,,,,\"platform.2=\"\"Rack; by = door\"\"; session.1/a=10:05-10:50\",,,,\n\
         start,,back-squat,,,A/B,,,,\n\
         start,,back-squat,,,\"1/a/B, C\",,,,\n\
         tally,2,back-squat,1,187.5lb,good,,,,\n\
         tally,1,back-squat,1,62.37kg,no:not-deep-enough,,,,",
    );
    let standings = folder.ok("standings day.maxday");
    let sheet = Sheet::read(&standings);
    assert_eq!(sheet.of(1, "name"), "=cmd; x=1 O\"Neil");
    assert_eq!(sheet.of(2, "name"), "two lines -Lee");
    assert_eq!(sheet.of(3, "name"), "x Semi; colon=");
    assert_eq!(sheet.of(2, "back-squat best"), "187.5");
    let acts = folder.ok("acts day.maxday");
    folder.write("all.csv", &acts);
    let _ = folder.ok(&format!("new again.maxday {new}"));
    let _ = folder.ok("apply again.maxday all.csv");
    assert_eq!(acts, folder.ok("acts again.maxday"));
    assert_eq!(standings, folder.ok("standings again.maxday"));
    folder.sound("again.maxday");
}

#[test]
fn days_have_any_name_and_place() {
    let folder = Folder::new();
    std::fs::create_dir(folder.file("Spring term")).unwrap();
    for name in [
        "Spring term/Día 1.maxday",
        "no-extension",
        "two.dots.maxday",
    ] {
        let _ = folder.ok(&format!("new \"{name}\" --format max-day"));
        folder.sound(&format!("\"{name}\""));
        let stem = std::path::Path::new(name).file_stem().unwrap();
        let stem = stem.to_str().unwrap();
        has(
            &as_made(&folder, &format!("\"{name}\"")),
            &[&format!("name={stem};")],
        );
    }
    assert_eq!(
        folder.names(),
        ["Spring term", "no-extension", "two.dots.maxday"]
    );
}

#[test]
fn standings_are_grouped_as_it_is_said() {
    let folder = Folder::new();
    folder.write(
        "r.toml",
        "base = \"max-day\"\nteam-points = \"5 3 1...\"\nteam-scores = \"lifts\"\n",
    );
    let _ = folder.ok("new d.maxday --rules r.toml --lifts back-squat,deadlift");
    let _ = folder.roster(
        "d.maxday",
        "lot,name,team,division,flight,back-squat,deadlift,guest\n\
         1,Una Farrow,Otters,Novice,A,80,100,\n2,Ida Quill,Herons,Open,A,85,-,\n\
         3,Eve Sand,Otters,Novice,A,90,120,yes\n4,Dov Marsh,Herons,Open,A,75,110,\n",
    );
    let mut rows = String::new();
    for (lot, lift, load, detail) in [
        (1, "back-squat", 80, "good"),
        (2, "back-squat", 85, "good"),
        (3, "back-squat", 90, "good"),
        (4, "back-squat", 75, "no:not-deep-enough"),
        (1, "deadlift", 100, "good"),
        (3, "deadlift", 120, "good"),
        (4, "deadlift", 110, "good"),
    ] {
        rows.push_str(&format!("tally,{lot},{lift},1,{load},{detail},,,,\n"));
    }
    folder.apply("d.maxday", &rows);
    // A guest takes no place and scores nothing: squat 85, 80; deadlift 110, 100.
    assert_eq!(
        folder.ok("standings d.maxday --by team"),
        "place,team,points,athletes\n\
         1,Herons,10,Ida Quill (5); Dov Marsh (5)\n2,Otters,6,Una Farrow (3 + 3)\n"
    );
    let sheet = |by: &str| Sheet::read(&folder.ok(&format!("standings d.maxday{by}")));
    let by_slot = sheet(" --by slot");
    assert_eq!(by_slot.header[..3], STANDINGS_HEAD[..3]);
    let place = by_slot.column("back-squat place");
    let squat: Vec<(&str, &str)> = by_slot
        .rows
        .iter()
        .filter(|row| row[0].contains("back-squat"))
        .map(|row| (row[place].as_str(), row[2].as_str()))
        .collect();
    assert_eq!(squat, [("1", "2"), ("2", "1"), ("", "4"), ("", "3")]);
    let divisions = sheet(" --by division");
    assert_eq!(divisions.of(1, "group"), "Novice");
    assert_eq!(divisions.of(1, "back-squat place"), "1");
    assert_eq!(divisions.of(3, "back-squat place"), "");
    assert_eq!(sheet("").of(1, "back-squat place"), "2");
    has(
        &folder.no("standings d.maxday --by club"),
        &["club", "category", "division", "slot", "team"],
    );
    folder.sound("d.maxday");
}

/// The rules of a school's winter meet, with its own classes in pounds.
const WINTER_MEET: &str = "\
# Our winter meet.
base = \"powerlifting\"
format = \"winter-meet\"
title = \"Winter meet\"

record-step = \"1 lb\"
ties-total = \"bodyweight shared\"
categories = \"F 105 114 +114; M 132 165 +165 lb\"
posting-bodyweight = false

[attempts]
value = 2
source = \"our gym has two hours\"
";

#[test]
fn a_school_may_write_its_own_rules() {
    let folder = Folder::new();
    folder.write("winter.toml", WINTER_MEET);
    let new = |day: &str, by: &str| {
        let line = format!("new {day} {by} --unit lb --scale kg --date 2026-11-21");
        let _ = folder.ok(&line);
    };
    new("d.maxday", "--rules winter.toml");
    // 114 lb are exactly 51.70953018 kg; the limit itself is in the class.
    let _ = folder.roster(
        "d.maxday",
        "lot,name,sex,flight,bodyweight,unit,back-squat,bench-press,deadlift\n\
         1,Una Farrow,F,A,114,lb,100,60,120\n\
         2,Ida Quill,F,A,51.70,kg,105,60,120\n\
         3,Eve Sand,F,A,51.71,kg,110,60,120\n\
         4,Dov Marsh,M,A,132.001,lb,200,100,225\n",
    );
    let groups = |day: &str| {
        let sheet = Sheet::read(&folder.ok(&format!("standings {day}")));
        (1..=4)
            .map(|lot| sheet.of(lot, "group").to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(groups("d.maxday"), ["F 114", "F 114", "F 114+", "M 165"]);
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    assert!(sheet.header.iter().any(|h| h == "deadlift 2"));
    assert!(
        !sheet.header.iter().any(|h| h == "deadlift 3"),
        "two attempts"
    );
    has(
        &as_made(&folder, "d.maxday"),
        &[
            "categories=\"F 105 114 +114; M 132 165 +165 lb\"",
            "attempts=2;",
            "record-step=1 lb;",
            "posting-bodyweight=no",
            "queue=law;",
        ],
    );
    // Two attempts a lift; a record's step of a pound.
    folder.apply(
        "d.maxday",
        "start,,back-squat,,,A,,2026-11-21T09:00:00,T,\n\
         lights,1,,,,www,,2026-11-21T09:01:00,T,\n\
         request,1,,2,106,record,,2026-11-21T09:01:30,T,",
    );
    folder.write(
        "third.csv",
        format!("{ACTS}\ntally,1,back-squat,3,110,good,,2026-11-21T09:05:00,T,\n"),
    );
    has(
        &folder.no("apply d.maxday third.csv"),
        &["no attempt left", "2"],
    );
    folder.sound("d.maxday");

    // The acts replay on the same rules, and on the format that they start from.
    folder.write("all.csv", folder.ok("acts d.maxday"));
    new("e.maxday", "--rules winter.toml");
    new("f.maxday", "--format powerlifting");
    for day in ["e.maxday", "f.maxday"] {
        let _ = folder.ok(&format!("apply {day} all.csv"));
        assert_eq!(
            folder.ok(&format!("standings {day}")),
            folder.ok("standings d.maxday")
        );
    }

    // The same by `set`, in the middle of the day.
    folder.apply(
        "d.maxday",
        "set,,,,,\"categories=\"\"F 100 +100; M 150 +150 lb\"\"; attempts=3; \
         team-points=12 9 8...\",,,T,",
    );
    assert_eq!(groups("d.maxday"), ["F 100+", "F 100+", "F 100+", "M 150"]);
    folder.apply("d.maxday", "tally,1,back-squat,3,110,good,,,T,");
    folder.apply("d.maxday", "set,,,,,categories=none,,,T,");
    assert_eq!(groups("d.maxday"), ["all", "all", "all", "all"]);
    folder.write(
        "wrong.csv",
        format!("{ACTS}\nset,,,,,\"categories=\"\"F 57 47 +47\"\"\",,,,\n"),
    );
    has(
        &folder.no("apply d.maxday wrong.csv"),
        &["line 2", "“F 57 47 +47”", "an own set such as"],
    );
    folder.sound("d.maxday");
}

#[test]
fn mistakes_in_rules_are_told_by_their_line() {
    let folder = Folder::new();
    let own = "an own set such as F 47 57 +57; M 60 75 +75 lb";
    for (line, rules, parts) in [
        (1, "attempts = 4", ["need a base", "powerlifting"]),
        (1, "base = 'javelin'", ["“javelin”", "weightlifting"]),
        (
            4,
            "base = 'max-day'\n# ours\n\nattemps = 4",
            ["“attemps”", "attempts may be meant."],
        ),
        (
            2,
            "base = 'max-day'\nrounds-rest = '3:180'",
            ["rounds-rest", "round-rest may be meant."],
        ),
        (
            2,
            "base = 'max-day'\nshoes = 'red'",
            ["“shoes”", "maxday formats"],
        ),
        (
            3,
            "base = 'max-day'\ntitle = 'Ours'\nposting.name = 'number'",
            ["“posting.name”", "posting-name"],
        ),
        (
            2,
            "base = 'max-day'\nattempts = { value = 4, why = 'time' }",
            ["“why”", "value and source"],
        ),
        (
            4,
            "base = 'max-day'\n\n# two\nlifts = 'back-squat, sqaut'",
            ["“sqaut” is no lift", "maxday lifts"],
        ),
        (
            2,
            "base = 'max-day'\nlifts = 'clean=power-clean, power-clean'",
            ["“power-clean”", "twice"],
        ),
        (
            2,
            "base = 'max-day'\nages = 'ours'",
            ["“ours”", "none, iwf, ipf"],
        ),
        (
            2,
            "base = 'max-day'\nattempts = 12",
            ["“12”", "from 1 to 9"],
        ),
        (
            3,
            "base = 'max-day'\n\njudges = [1, 3]",
            ["judges", "allowed: 1, 3"],
        ),
        (
            2,
            "base = 'max-day'\nstep = 2.5",
            ["step takes a text", "at most 50 kg"],
        ),
        (2, "base = 'max-day'\nqueue = \"law", ["invalid", "string"]),
        (
            3,
            "base = 'max-day'\nclock = 60\nclock = 90",
            ["duplicate", "key"],
        ),
        (
            2,
            "base = 'max-day'\n[attempts]\nsource = 'ours'",
            ["attempts", "from 1 to 9"],
        ),
        (
            2,
            "base = 'max-day'\nposting-name = 'nick'",
            ["“nick”", "initial"],
        ),
        (
            2,
            "base = 'max-day'\ncategories = 'F 57 47 +47'",
            ["“F 57 47 +47”", own],
        ),
        (
            2,
            "base = 'max-day'\ncategories = 'F 47 57'",
            ["“F 47 57”", own],
        ),
        (
            2,
            "base = 'max-day'\ncategories = 'F 47 +47; F 52 +52'",
            ["F 52", own],
        ),
        (
            2,
            "base = 'max-day'\nround-rest = '4:120 3:60'",
            ["round-rest", "3:180 4:120"],
        ),
        (
            2,
            "base = 'max-day'\nteam-best = 0",
            ["“0”", "from 1 to 200"],
        ),
        (
            2,
            "base = 'powerlifting'\nerror-lighter-good = 'keep forgive'",
            ["“keep forgive”", "keep, repeat, again"],
        ),
        (
            2,
            "base = 'powerlifting'\nrecord-step = '5 lb'",
            ["no less than", "less than 5 lb"],
        ),
        (
            2,
            "base = 'powerlifting'\norder = 'load number'",
            ["bar = rounds", "attempt"],
        ),
        (
            2,
            "base = 'powerlifting'\norder = 'attempt rest'",
            ["order by rest", "free"],
        ),
        (
            2,
            "base = 'powerlifting'\nbar = 'free'",
            ["least-rise", "none"],
        ),
        (
            2,
            "base = 'powerlifting'\nclock = 'off'\nfinal-call = 30",
            ["Without a clock", "off"],
        ),
        (
            2,
            "base = 'weightlifting'\nfinal-call = 90",
            ["90 s", "less than 60"],
        ),
        (
            2,
            "base = 'weightlifting'\nclock-following = 30",
            ["30 s", "60 and more"],
        ),
        (
            2,
            "base = 'max-day'\nties-total = 'shared bodyweight'",
            ["shared", "end it"],
        ),
    ] {
        folder.write("r.toml", rules);
        let sentence = folder.no("new d.maxday --rules r.toml --unit lb");
        let begin = format!("The rules r.toml can't be taken: line {line}: ");
        assert!(sentence.starts_with(&begin), "{rules}: {sentence}");
        has(&sentence, &parts);
        assert_eq!(folder.names(), ["r.toml"], "{rules}");
    }
    has(
        &folder.no("new d.maxday --rules none.toml"),
        &["none.toml", "can't be read"],
    );
    folder.write("x.toml", b"base = \"max-day\"\ntitle = \"\xFF\"\n");
    has(
        &folder.no("new d.maxday --rules x.toml"),
        &["x.toml", "UTF-8"],
    );
    // As an editor of another system writes it.
    folder.write("bom.toml", "\u{FEFF}base = 'max-day'\r\nattempts = 5\r\n");
    let _ = folder.ok("new d.maxday --rules bom.toml");
    has(&as_made(&folder, "d.maxday"), &["attempts=5;"]);
}
