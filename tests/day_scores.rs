//! A day's own scores, clubs and norms, through the program and its file.
//!
//! Expected numbers were worked out apart from the program from the published
//! formulas; `sample-meets/expected.py` does the same for whole meets.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;

use bin::{Folder, Sheet, has, small_max_day};
use maxday::day::{Day, Event, Recorded, Stamp};
use maxday::file::Live;
use maxday::measure::Unit;
use maxday::rules::format_named;
use maxday::sheets::standings_on_screen;
use maxday::standings::Basis;

/// A powerlifting meet: two women, two men, one of whom wasn't weighed, and a girl
/// who is lighter than any formula's bounds.
fn meet() -> Folder {
    let folder = Folder::new();
    let _ = folder.ok(
        "new d.maxday --format powerlifting --date 2026-11-14 --categories none --unit kg",
    );
    let _ = folder.roster(
        "d.maxday",
        "lot,name,sex,team,born,grade,division,bodyweight,flight,back-squat,bench-press,deadlift\n\
         1,Ada Quinn,F,Otters,1981,,Masters,55,A,80,40,100\n\
         2,Bea Moss,F,Herons,2008,11,Novice,56.5,A,85,42.5,102.5\n\
         3,Cy Reed,M,Otters,2008,11,,74,A,120,80,150\n\
         4,Dov Lane,M,Herons,2009,10,Novice,,A,120,80,150\n\
         5,Eve Wick,F,Herons,2012,8,,30,A,40,20,50\n",
    );
    let mut rows = String::new();
    for (lot, loads) in [
        (1, ["80", "40", "100"]),
        (2, ["85", "42.5", "102.5"]),
        (3, ["120", "80", "150"]),
        (4, ["120", "80", "150"]),
        (5, ["40", "20", "50"]),
    ] {
        for (lift, load) in ["back-squat", "bench-press", "deadlift"].iter().zip(loads) {
            rows.push_str(&format!("tally,{lot},{lift},,{load},good,,,,\n"));
        }
    }
    folder.apply("d.maxday", &rows);
    folder
}

fn set(folder: &Folder, what: &str) {
    let what = what.replace('"', "\"\"");
    folder.apply("d.maxday", &format!("set,,,,,\"{what}\",,,,"));
}

#[test]
fn a_day_has_no_score_column_until_it_names_one() {
    let folder = meet();
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    assert_eq!(sheet.header.last().unwrap(), "total");
    set(&folder, "scores=dots ipf-gl");
    let ran = folder.run("standings d.maxday");
    let sheet = Sheet::read(&ran.out);
    assert_eq!(
        sheet.header[sheet.header.len() - 3..],
        ["total", "dots", "ipf-gl"]
    );
    // DOTS 225 x 1.17709 at 56.5 kg = 265.04 and 350 x 0.72365 at 74 kg = 253.28
    // (German federation BVDK); IPF GL 350 x 0.146810 = 51.38 (IPF, 2020).
    assert_eq!(sheet.all("lot"), ["3", "4", "2", "1", "5"]);
    assert_eq!(
        (sheet.of(3, "dots"), sheet.of(3, "ipf-gl")),
        ("253.28", "51.38")
    );
    assert_eq!(
        (sheet.of(2, "dots"), sheet.of(1, "dots")),
        ("265.04", "258.09")
    );
    // DOTS counts a lighter woman as 40 kg; IPF GL begins at 35 kg (from memory).
    assert_eq!(sheet.of(5, "ipf-gl"), "");
    assert_eq!((sheet.of(4, "dots"), sheet.of(4, "ipf-gl")), ("", ""));
    has(
        &ran.err,
        &[
            "No DOTS for lot 4: The formula dots needs a bodyweight.",
            "No IPF GL points for lot 5: A bodyweight of 30 kg is outside the bounds",
        ],
    );
    // The leading score ranks where none is named.
    let ran = folder.run("standings d.maxday --by score");
    let sheet = Sheet::read(&ran.out);
    assert_eq!(sheet.all("lot")[..3], ["2", "1", "3"]);
    assert_eq!(sheet.all("place")[..3], ["1", "2", "3"]);
    // Named ones stand in place of the day's.
    let sheet = Sheet::read(&folder.ok("standings d.maxday --score wilks"));
    assert_eq!(sheet.header.last().unwrap(), "wilks");
    folder.sound("d.maxday");
    // An undo takes the setting back, and acts tell it.
    has(&folder.ok("acts d.maxday"), &["scores=dots ipf-gl"]);
    folder.apply("d.maxday", "undo,,,,,day,,,,");
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    assert_eq!(sheet.header.last().unwrap(), "total");
}

#[test]
fn the_usual_score_is_the_sports() {
    let folder = meet();
    set(&folder, "scores=usual");
    let ran = folder.run("standings d.maxday");
    assert_eq!(Sheet::read(&ran.out).header.last().unwrap(), "ipf-gl");
    let folder = Folder::new();
    folder.write(
        "rules.toml",
        "base = \"max-day\"\nscores = \"usual\"\nclubs = \"Two plates: back-squat 100\"\n",
    );
    let _ = folder.ok("new d.maxday --rules rules.toml --lifts back-squat");
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    assert_eq!(sheet.header[sheet.header.len() - 2..], ["ratio", "clubs"]);
    // A rules file's plain load is in the bar unit of the day.
    let live = Live::open_read(&folder.file("d.maxday")).unwrap();
    let words = live.day().facts().rules.words();
    assert_eq!(words["clubs"], "Two plates: back-squat 100 kg");
    let listed = folder.ok("formats");
    has(&listed, &["scores", "score-equipment", "clubs"]);
}

/// A day that was made before there were such rules has its format's; of a school's
/// own format the plainest.
#[test]
fn a_day_made_before_scores_reads_without_any() {
    for format in ["weightlifting", "winter-meet"] {
        let shipped = format_named("weightlifting").unwrap();
        let mut words = shipped.rules(Unit::Kg).unwrap().words();
        words.retain(|key, _| !key.starts_with("score") && key != "clubs");
        let made = Recorded {
            seq: 1,
            act: 1,
            id: "made".into(),
            at: Stamp {
                ms: 0,
                offset: 0,
                loose: false,
            },
            happened: None,
            hand: String::new(),
            platform: None,
            event: Event::DayMade {
                name: "Old".into(),
                date: "2026-10-01".parse().unwrap(),
                format: format.into(),
                bar_unit: Unit::Kg,
                scale_unit: Unit::Kg,
                rules: words,
                slots: Vec::new(),
                platforms: 1,
            },
        };
        let day = Day::from_journal([made]);
        let words = day.facts().rules.words();
        let of = |key: &str| words[key].clone();
        assert_eq!((of("scores"), of("clubs")), ("none".into(), "none".into()));
        assert_eq!(of("score-exponent"), "usual", "{format}");
        assert_eq!(of("score-records"), "book", "{format}");
    }
}

#[test]
fn what_is_chosen_for_a_score_is_the_days() {
    let folder = meet();
    set(&folder, "scores=ipf-gl; score-equipment=equipped");
    let sheet = Sheet::read(&folder.run("standings d.maxday").out);
    // IPF, 2020, equipped, 74 kg: 350 x 0.123927 = 43.37.
    assert_eq!(sheet.of(3, "ipf-gl"), "43.37");
    // Age factors: 45 years 1.055 (McCulloch, published), so 258.0859 x 1.055; none go
    // with the ratio.
    set(&folder, "scores=dots ratio; score-ages=yes");
    let sheet = Sheet::read(&folder.run("standings d.maxday").out);
    assert_eq!(sheet.of(1, "dots with age"), "272.28");
    assert_eq!(sheet.of(1, "ratio"), "4.000");
    set(
        &folder,
        "scores=allometric; score-exponent=\"back-squat=1\"; score-ages=no",
    );
    let sheet = Sheet::read(&folder.run("standings d.maxday --by slot").out);
    let cells = sheet.cell("group", "all back-squat", "allometric");
    assert_eq!(cells, "1.6216");
    for (what, allowed) in [
        ("scores=points", "none, usual"),
        ("scores=dots dots", "several, in order"),
        ("score-equipment=raw", "classic, equipped"),
        ("score-exponent=2", "from 0 to 1"),
        ("score-records=F 63", "such as F 63:215"),
        ("clubs=Thousand", "such as Thousand: total 1000 lb"),
    ] {
        folder.write("s.csv", format!("{}\nset,,,,,{what},,,,\n", bin::ACTS));
        let sentence = folder.no("apply d.maxday s.csv");
        has(&sentence, &[what.split_once('=').unwrap().0, allowed]);
    }
    // Of several clubs the wrong one is named.
    let clubs = "\"clubs=\"\"Hundred: total 100 kg; Odd: sqaut 2x\"\"\"";
    folder.write("s.csv", format!("{}\nset,,,,,{clubs},,,,\n", bin::ACTS));
    has(
        &folder.no("apply d.maxday s.csv"),
        &["“Odd: sqaut 2x” is not allowed for clubs; allowed: none, or"],
    );
}

#[test]
fn posted_with_bodyweights_hidden_a_score_is_its_place() {
    let folder = meet();
    set(&folder, "scores=dots; posting.bodyweight=yes");
    let shown = Sheet::read(&folder.ok("standings d.maxday --posted"));
    assert_eq!(shown.of(3, "dots"), "253.28");
    assert_eq!(shown.header.last().unwrap(), "dots");
    set(&folder, "posting.bodyweight=no");
    let hidden = Sheet::read(&folder.ok("standings d.maxday --posted"));
    assert!(hidden.all("dots").iter().all(|cell| cell.is_empty()));
    // Among all, both sexes together: 265.04, 258.09, 253.28.
    let places = [2, 1, 3].map(|lot| hidden.of(lot, "dots place"));
    assert_eq!(places, ["1", "2", "3"]);
    assert_eq!(hidden.of(4, "dots place"), "");
    for (file, papers) in [("p", "--posted"), ("q", "")] {
        let _ = folder.ok(&format!(
            "papers d.maxday --out {file} --only results,leader-tables {papers}"
        ));
    }
    let read = |file: &str| {
        let bytes = std::fs::read(folder.file(file)).unwrap();
        String::from_utf8(bytes).unwrap()
    };
    let posted = read("p/results.csv");
    has(&posted, &["dots place"]);
    for number in ["253.28", "265.04", "56.5"] {
        assert!(!posted.contains(number), "{number}");
        assert!(!read("p/leader-tables.csv").contains(number), "{number}");
    }
    has(&read("q/results.csv"), &["253.28", "56.5"]);
    // The JSON and the workbook are the same tables.
    let _ = folder.ok("export d.maxday --out d.json --posted");
    let json = read("d.json");
    has(&json, &["\"dots_place\""]);
    assert!(!json.contains("253.28"), "{json}");
    // The table's own screen shows names, and no more of a body than a posted paper.
    let live = Live::open_read(&folder.file("d.maxday")).unwrap();
    let table = standings_on_screen(live.day().facts(), Basis::Category);
    let shown = format!("{:?}", table.groups);
    assert!(
        shown.contains("Quinn") && !shown.contains("253.28"),
        "{shown}"
    );
}

#[test]
fn leaders_go_by_each_score_of_the_day() {
    let folder = meet();
    set(&folder, "scores=dots wilks");
    let _ = folder.ok("papers d.maxday --out p --only leader-tables");
    let names = bin::names(&folder.file("p"));
    for name in [
        "leader-tables.csv",
        "leader-tables-wilks.csv",
        "leader-tables-by-division.csv",
        "leader-tables-by-division-wilks.csv",
    ] {
        assert!(names.contains(&name.to_owned()), "{name}: {names:?}");
    }
    let first = std::fs::read_to_string(folder.file("p/leader-tables.csv")).unwrap();
    let sheet = Sheet::read(first.trim_start_matches('\u{feff}'));
    assert_eq!(sheet.header.last().unwrap(), "dots");
    assert_eq!(sheet.of(2, "place"), "1");
}

/// Records of the school's book serve as the table of Robi points: the total of a
/// category that nobody divides further (Czech federation's page: half a record is
/// 100 points, the record 1000).
#[test]
fn robi_points_go_by_the_record_book_of_the_day() {
    let folder = Folder::new();
    folder.write(
        "rules.toml",
        "base = \"weightlifting\"\ncategories = \"F 64 +64; M 73 +73\"\nscores = \"robi\"\n",
    );
    let _ = folder.ok("new d.maxday --rules rules.toml --date 2022-11-21");
    let _ = folder.roster("d.maxday", bin::SMALL_ROSTER);
    let mut rows = String::new();
    for (lot, loads) in [(1, ["60", "75"]), (2, ["62", "80"]), (3, ["65", "82"])] {
        for (lift, load) in ["snatch", "clean-and-jerk"].iter().zip(loads) {
            rows.push_str(&format!("tally,{lot},{lift},,{load},good,,,,\n"));
        }
    }
    folder.apply("d.maxday", &rows);
    let ran = folder.run("standings d.maxday");
    has(
        &ran.err,
        &["No Robi points: ", "weightlifting-total in the record book"],
    );
    folder.write(
        "book.csv",
        "lift,sex,category,division,load\n\
         weightlifting-total,F,64,,270\n\
         weightlifting-total,F,64,novice,90\n\
         weightlifting-total,F,+64,,147\n\
         snatch,M,73,,50\n",
    );
    let _ = folder.ok("records d.maxday --import book.csv");
    let ran = folder.run("standings d.maxday");
    let sheet = Sheet::read(&ran.out);
    assert_eq!(sheet.of(1, "robi"), "100.00");
    assert_eq!(sheet.of(3, "robi"), "1000.00");
    assert_eq!(sheet.of(2, "robi"), "");
    has(
        &ran.err,
        &["No Robi points for lot 2: The table of records has no category for M 73."],
    );
    // Named on the command line, without a table of its own.
    let named = Sheet::read(&folder.ok("standings d.maxday --by score --score robi"));
    assert_eq!(named.all("place"), ["1", "2", ""]);
    // The rules' own table comes before the book.
    set(&folder, "score-records=\"F 64:135 +64:294; M 73:142\"");
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    assert_eq!(
        [1, 2, 3].map(|lot| sheet.of(lot, "robi")),
        ["1000.00", "1000.00", "100.00"]
    );
    let _ =
        folder.ok("papers d.maxday --out p --only results,leader-tables,athlete-reports");
    let csv = std::fs::read_to_string(folder.file("p/leader-tables.csv")).unwrap();
    has(&csv, &["robi", "1000.00"]);
}

#[test]
fn clubs_are_joined_and_left_with_the_attempts() {
    let folder = Folder::new();
    small_max_day(&folder);
    folder.apply(
        "day.maxday",
        "set,,,,,\"clubs=\"\"Three hundred: total 300 lb; Squat: back-squat 135; \
         Girls: F power-clean+back-squat 104.4 kg; Body: back-squat 1x; Bench: bench-press 100\"\"\",,,,\n\
         tally,1,power-clean,,95,good,,,,\n\
         tally,1,back-squat,,135,good,,,,\n\
         tally,2,hang-power-clean,,115,good,,,,\n\
         tally,2,back-squat,,185,good,,,,\n\
         tally,3,power-clean,,100,good,,,,",
    );
    let clubs = || {
        let sheet = Sheet::read(&folder.ok("standings day.maxday"));
        [1, 2, 3].map(|lot| sheet.of(lot, "clubs").to_owned())
    };
    // 230 lb is 104.326 kg: a hair less than 104.4 kg. 135 lb at 132.5 lb, 185 at 160.
    assert_eq!(clubs(), ["Squat; Body", "Three hundred; Squat; Body", ""]);
    // Heavier by 5 lb: the girls' club too.
    folder.apply("day.maxday", "tally,1,back-squat,,140,good,,,,");
    assert_eq!(clubs()[0], "Squat; Girls; Body");
    // A correction takes it back, to the lift that is left.
    folder.apply("day.maxday", "correct,1,back-squat,2,,no,,,,");
    assert_eq!(clubs()[0], "Squat; Body");
    folder.apply("day.maxday", "correct,1,back-squat,1,,no,,,,");
    assert_eq!(clubs()[0], "");
    folder.apply("day.maxday", "undo,,,,,,1,,,");
    assert_eq!(clubs()[0], "Squat; Body");
    // Heavier on the scale than the load: out of the club by bodyweight alone.
    folder.apply("day.maxday", "weigh,1,,,135.2,,,,,");
    assert_eq!(clubs()[0], "Squat");
    folder.apply("day.maxday", "weigh,1,,,135,,,,,");
    assert_eq!(clubs()[0], "Squat; Body");
    folder.sound("day.maxday");
    let _ = folder.ok("papers day.maxday --out p --only leader-tables,athlete-reports");
    let csv = std::fs::read_to_string(folder.file("p/clubs.csv")).unwrap();
    let sheet = Sheet::read(csv.trim_start_matches('\u{feff}'));
    assert_eq!(
        sheet.all("club"),
        ["Three hundred", "Squat", "Squat", "Body", "Body"]
    );
    assert_eq!(sheet.all("lot"), ["2", "2", "1", "2", "1"]);
    // 185 / 160 = 1.15625, cut off.
    assert_eq!(sheet.all("times"), ["", "", "", "1.156", "1.000"]);
    // Whoever is in a club by bodyweight, and whoever isn't, tells of a body.
    let ran = folder.run("standings day.maxday --posted");
    has(&ran.err, &["Clubs by bodyweight are left out"]);
    let posted = Sheet::read(&ran.out);
    assert_eq!(
        [1, 2, 3].map(|l| posted.of(l, "clubs")),
        ["Squat", "Three hundred; Squat", ""]
    );
    let _ = folder.ok("papers day.maxday --out q --only leader-tables --posted");
    let csv = std::fs::read_to_string(folder.file("q/clubs.csv")).unwrap();
    assert!(!csv.contains("Body") && csv.contains("Squat"), "{csv}");
    // Somebody who was disqualified has left.
    folder.apply("day.maxday", "disqualify,2,,,,threw the bar,,,,");
    assert_eq!(clubs()[1], "");
}

const NORMS: &str = "\
lift,percentile,value,unit,sex,age,grade,group
back-squat,50,80,,F,,,
back-squat,25,60,,F,,,
back-squat,75,100,,F,,,
back-squat,50,1.5x,,,,,
back-squat,90,2x,,,,,
bench-press,50,95,lb,F,14+,,
bench-press,50,70,,M,,11,
total,50,200,,,17-18,,Novice
";

#[test]
fn a_coachs_norms_tell_the_band_of_each_result() {
    let folder = meet();
    folder.write("norms.csv", NORMS);
    let sheet = Sheet::read(&folder.ok("norms d.maxday norms.csv"));
    let bands: Vec<(&str, &str, &str, &str, &str)> = sheet
        .rows
        .iter()
        .map(|r| {
            let at = |name: &str| r[sheet.column(name)].as_str();
            (at("lot"), at("lift"), at("norm"), at("band"), at("remark"))
        })
        .collect();
    // Worked out by hand: 80 / 55 = 1.4545, 85 / 56.5 = 1.504, 120 / 74 = 1.62,
    // 40 / 30 = 1.33; 95 lb is 43.09 kg.
    assert_eq!(
        bands,
        [
            ("1", "back-squat", "F", "50 to 75", ""),
            ("1", "back-squat", "all, times bodyweight", "below 50", ""),
            ("1", "bench-press", "F, age 14+", "below 50", ""),
            ("1", "deadlift", "", "", "no norm"),
            ("2", "back-squat", "F", "50 to 75", ""),
            ("2", "back-squat", "all, times bodyweight", "50 to 90", ""),
            ("2", "bench-press", "F, age 14+", "below 50", ""),
            ("2", "deadlift", "", "", "no norm"),
            ("2", "total", "age 17-18, Novice", "50 and above", ""),
            ("3", "back-squat", "all, times bodyweight", "50 to 90", ""),
            ("3", "bench-press", "M, grade 11", "50 and above", ""),
            ("3", "deadlift", "", "", "no norm"),
            (
                "4",
                "back-squat",
                "all, times bodyweight",
                "",
                "no bodyweight"
            ),
            ("4", "bench-press", "", "", "no norm"),
            ("4", "deadlift", "", "", "no norm"),
            ("4", "total", "age 17-18, Novice", "50 and above", ""),
            ("5", "back-squat", "F", "below 25", ""),
            ("5", "back-squat", "all, times bodyweight", "below 50", ""),
            ("5", "bench-press", "F, age 14+", "below 50", ""),
            ("5", "deadlift", "", "", "no norm"),
        ]
    );
    assert_eq!(sheet.of(2, "from percentile"), "50");
    assert_eq!(sheet.of(2, "below percentile"), "75");
    has(
        &folder.no("norms d.maxday norms.csv --posted"),
        &["nothing of them to post"],
    );
    // On the athletes' own reports.
    let _ = folder.ok("papers d.maxday --out p --only athlete-reports --norms norms.csv");
    let with = std::fs::read(folder.file("p/athlete-reports.pdf")).unwrap();
    let _ = folder.ok("papers d.maxday --out q --only athlete-reports");
    let without = std::fs::read(folder.file("q/athlete-reports.pdf")).unwrap();
    assert!(with.len() > without.len());
    assert_ne!(
        folder
            .run("papers d.maxday --out r --norms norms.csv --posted")
            .code,
        Some(0)
    );
}

#[test]
fn what_is_wrong_in_norms_is_told_by_row_and_column() {
    let folder = meet();
    let why = |text: &str| {
        folder.write("n.csv", text);
        let ran = folder.run("norms d.maxday n.csv");
        assert_eq!((ran.code, ran.out.as_str()), (Some(1), ""), "{text}");
        ran.err
    };
    let row =
        |cells: &str| why(&format!("lift,percentile,value,unit,sex,age\n{cells}\n"));
    for (cells, words) in [
        ("sqaut,50,80,,,", "row 2, column lift: “sqaut” is no lift"),
        (
            "back-squat,0,80,,,",
            "row 2, column percentile: “0” is no percentile; write a whole number from 1 to 99.",
        ),
        (
            "back-squat,50,heavy,,,",
            "row 2, column value: “heavy” is no value",
        ),
        (
            "back-squat,50,80,st,,",
            "row 2, column unit: “st” is no unit; write kg or lb.",
        ),
        ("back-squat,50,80,,X,", "row 2, column sex: “X” is no sex"),
        (
            "back-squat,50,80,,,15-14",
            "row 2, column age: “15-14” is no age",
        ),
        (
            "back-squat,50,80,,,\nback-squat,50,90,,,",
            "row 3: the percentile 50 stands there twice",
        ),
        (
            "back-squat,50,80,,,\nback-squat,75,80,,,",
            "row 3: 80 kg at the percentile 75 doesn't fit 80 kg at 50",
        ),
    ] {
        let err = row(cells);
        has(&err, &[words, "weren't read: 1 fault."]);
        assert!(err.lines().all(|line| line.ends_with('.')), "{err}");
    }
    has(
        &why("lift,value\nback-squat,80\n"),
        &["have no column percentile"],
    );
    has(&why("lift,percentile,value\n"), &["no row"]);
    has(
        &why("lift,percentile,value,lift\na,1,2,b\n"),
        &["two columns lift"],
    );
    let ran = folder.run("norms d.maxday none.csv");
    has(&ran.sentence(), &["can't be read"]);
}
