//! Earlier days: who is who, what changed, and what is published about it.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;

use bin::{Folder, Sheet, has};

const NEW: &str = "--format max-day --step 0.5kg \
                   --lifts clean=power-clean+hang-power-clean,push-press,push-jerk,split-jerk";

/// The earliest of three days, as a file of the office.
const SPRING: &str = "\
id,given,family,born,sex,lift,date,max,unit
b1,Dov,Marsh,2010-03-04,M,power clean,2025-11-18,80,kg
b1,Dov,Marsh,2010-03-04,M,push press,2025-11-18,100,kg
b1,Dov,Marsh,2010-03-04,M,push jerk,2025-11-18,100,kg
b1,Dov,Marsh,2010-03-04,M,split jerk,2025-11-18,100,kg
,Ravi,Okello,2009-07-09,M,power-clean,2025-11-18,80,kg
,Ravi,Okello,2009-07-09,M,push-press,2025-11-18,100,kg
,Ravi,Okello,2009-07-09,M,push-jerk,2025-11-18,100,kg
,Ravi,Okello,2009-07-09,M,split-jerk,2025-11-18,100,kg
g3,Una,Farrow,2010-01-02,F,power-clean,2025-11-18,50,kg
b4,Ian,Prowse,2009-05-05,M,power-clean,2025-11-18,90,kg
g9,Gone,Away,2007-05-05,F,power-clean,2025-11-18,45,kg
";

/// The day between, and the day itself.
fn three_days() -> Folder {
    let folder = Folder::new();
    folder.write("spring.csv", SPRING);
    let roster = |more: &str| {
        format!(
            "lot,id,given,family,born,sex,flight,power-clean,push-press,push-jerk,split-jerk\n\
             1,b1,Dov,Marsh,2010-03-04,M,A,60,60,60,60\n\
             2,,Ravi,Okello,2009-07-09,M,A,60,60,60,60\n\
             3,g3,Una,Farrow,2010-01-02,F,A,40,-,-,-\n\
             4,b4,Ian,Prowse,2009-05-05,M,A,60,-,-,-\n{more}"
        )
    };
    let _ = folder.ok(&format!("new fall.maxday {NEW} --date 2026-05-12"));
    let _ = folder.roster("fall.maxday", &roster(""));
    folder.apply(
        "fall.maxday",
        "tally,1,power-clean,1,82.5,good,,,,\ntally,1,power-clean,2,100,no,,,,\n\
         tally,1,push-press,1,101.5,good,,,,\ntally,1,push-jerk,1,101.5,good,,,,\n\
         tally,1,split-jerk,1,100.5,good,,,,\n\
         tally,2,power-clean,1,85,good,,,,\ntally,2,push-press,1,102,good,,,,\n\
         tally,2,push-jerk,1,105,good,,,,\ntally,2,split-jerk,1,104.5,good,,,,\n\
         tally,3,power-clean,1,60,good,,,,\ntally,4,power-clean,1,81.5,good,,,,",
    );
    let _ = folder.ok(&format!("new day.maxday {NEW} --date 2026-11-17"));
    let _ = folder.roster(
        "day.maxday",
        &roster("5,b5,Kip,Moss,2010,M,A,60,-,-,-\n6,b6,Olu,Vane,2010,M,A,60,-,-,-\n"),
    );
    folder.apply(
        "day.maxday",
        "tally,1,power-clean,1,90,good,,,,\ntally,1,push-press,1,103.5,good,,,,\n\
         tally,1,push-jerk,1,107,good,,,,\ntally,1,split-jerk,1,105,good,,,,\n\
         tally,2,power-clean,1,95,good,,,,\ntally,2,push-press,1,109.5,good,,,,\n\
         tally,2,push-jerk,1,106.5,good,,,,\ntally,2,split-jerk,1,109.5,good,,,,\n\
         tally,3,power-clean,1,62.5,good,,,,\ntally,4,power-clean,1,85,good,,,,\n\
         tally,5,power-clean,1,80,good,,,,\ntally,6,power-clean,1,100,good,,,,",
    );
    folder
}

/// The cells of an athlete's line in a lift under some headers, row by row.
fn line(sheet: &Sheet, lot: &str, lift: &str, headers: &[&str]) -> Vec<String> {
    let rows = sheet.rows.iter();
    let (lot_at, lift_at) = (sheet.column("lot"), sheet.column("lift"));
    rows.filter(|row| row[lot_at] == lot && row[lift_at] == lift)
        .map(|row| {
            let cells: Vec<&str> = headers
                .iter()
                .map(|h| row[sheet.column(h)].as_str())
                .collect();
            cells.join(" ")
        })
        .collect()
}

#[test]
fn three_days_with_changes_on_both_sides_of_every_published_error() {
    let folder = three_days();
    let out = folder.ok("history day.maxday --with fall.maxday spring.csv");
    assert_eq!(
        out.lines().next(),
        Some(
            "lot,id,name,lift,date,max,unit,source,source number,change,\
             smallest worthwhile change,typical error,real change,verdict,published,\
             personal best,match,same"
        )
    );
    let sheet = Sheet::read(&out);
    let says = |lot: &str, lift: &str| {
        let headers = [
            "max",
            "change",
            "typical error",
            "real change",
            "verdict",
            "personal best",
        ];
        line(&sheet, lot, lift, &headers)
    };
    // Power clean, boys: typical error 2.9 kg, real from 8 kg (J Strength Cond Res
    // 2012;26(2):432).
    // 82.5 - 80 = 2.5, within 2.9; 90 - 82.5 = 7.5, above 2.9 and short of 8.
    assert_eq!(
        says("1", "power-clean"),
        [
            "80     ",
            "82.5 2.5 2.9 8 within error yes",
            "90 7.5 2.9 8 above error yes"
        ]
    );
    // 85 - 80 = 5, above 2.9; 95 - 85 = 10, real.
    assert_eq!(
        says("2", "power-clean"),
        [
            "80     ",
            "85 5 2.9 8 above error yes",
            "95 10 2.9 8 real yes"
        ]
    );
    // A fall: 81.5 - 90 = -8.5, real; 85 - 81.5 = 3.5, above, and below the 90 kg
    // that stay the best.
    assert_eq!(
        says("4", "power-clean"),
        [
            "90     ",
            "81.5 -8.5 2.9 8 real ",
            "85 3.5 2.9 8 above error "
        ]
    );
    // Push press, men: 1.8 % and 7.1 % of the max before (J Strength Cond Res
    // 2021;35(11):2988).
    // Of 100: 1.8 and 7.1; 101.5 is 1.5 more. Of 101.5: 1.827 and 7.2065; 103.5 is 2
    // more.
    assert_eq!(
        says("1", "push-press"),
        [
            "100     ",
            "101.5 1.5 1.8 7.1 within error yes",
            "103.5 2 1.83 7.21 above error yes"
        ]
    );
    // 102 is 2 more, above 1.8. Of 102: 1.836 and 7.242; 109.5 is 7.5 more.
    assert_eq!(
        says("2", "push-press"),
        [
            "100     ",
            "102 2 1.8 7.1 above error yes",
            "109.5 7.5 1.84 7.24 real yes"
        ]
    );
    // Push jerk, men: 1.5 % and 5.4 %, same study.
    // Of 100: 1.5 and 5.4; 101.5 is exactly 1.5 more, no more than the error. Of
    // 101.5: 1.5225 and 5.481; 107 is 5.5 more.
    assert_eq!(
        says("1", "push-jerk"),
        [
            "100     ",
            "101.5 1.5 1.5 5.4 within error yes",
            "107 5.5 1.52 5.48 real yes"
        ]
    );
    // 105 is 5 more, above 1.5 and short of 5.4. Of 105: 1.575 and 5.67; 106.5 is
    // 1.5 more.
    assert_eq!(
        says("2", "push-jerk"),
        [
            "100     ",
            "105 5 1.5 5.4 above error yes",
            "106.5 1.5 1.58 5.67 within error yes"
        ]
    );
    // Split jerk, men: 0.8 % and 4.6 %, same study.
    // Of 100: 0.8 and 4.6; 100.5 is 0.5 more. Of 100.5: 0.804 and 4.623; 105 is 4.5
    // more.
    assert_eq!(
        says("1", "split-jerk"),
        [
            "100     ",
            "100.5 0.5 0.8 4.6 within error yes",
            "105 4.5 0.8 4.62 above error yes"
        ]
    );
    // 104.5 is 4.5 more, short of 4.6. Of 104.5: 0.836 and 4.807; 109.5 is 5 more.
    assert_eq!(
        says("2", "split-jerk"),
        [
            "100     ",
            "104.5 4.5 0.8 4.6 above error yes",
            "109.5 5 0.84 4.81 real yes"
        ]
    );
    // For girls nothing is published, so there is no verdict.
    assert_eq!(
        says("3", "power-clean"),
        ["50     ", "60 10    yes", "62.5 2.5    yes"]
    );
    // Where each came from, and how it was matched.
    let from = |lot: &str| {
        let headers = ["date", "source", "source number", "match", "same"];
        line(&sheet, lot, "power-clean", &headers)
    };
    assert_eq!(
        from("1"),
        [
            "2025-11-18 spring.csv 2 id ",
            "2026-05-12 fall.maxday 1 id ",
            "2026-11-17 today   "
        ]
    );
    assert_eq!(
        from("2"),
        [
            "2025-11-18 spring.csv 6 name and birth ",
            "2026-05-12 fall.maxday 2 name and birth ",
            "2026-11-17 today   "
        ]
    );
    assert_eq!(from("5"), ["2026-11-17 today   "]);
    assert!(!out.contains("Gone"), "{out}");
    has(
        &out,
        &["J Strength Cond Res 2012;26(2):432: 36 trained boys of 15.9 years on average"],
    );
    // Today's boys in the power clean: 90 95 85 80 100. Mean 90; squares 0 25 25 100
    // 100, together 250; by n - 1 = 4: 62.5; root 7.9057; 0.2 of it 1.58. The days
    // before had 3 boys, too few; girls are apart.
    let worthwhile =
        |lot: &str| line(&sheet, lot, "power-clean", &["smallest worthwhile change"]);
    assert_eq!(worthwhile("1"), ["", "", "1.58"]);
    assert_eq!(worthwhile("6"), ["1.58"]);
    assert_eq!(worthwhile("3"), ["", "", ""]);
}

#[test]
fn a_variant_is_another_lift_and_a_pound_day_counts_in_kilograms() {
    let folder = three_days();
    let _ = folder.ok(&format!(
        "new winter.maxday {NEW} --date 2026-02-10 --unit lb"
    ));
    let _ = folder.roster(
        "winter.maxday",
        "lot,id,name,sex,flight,power-clean,hang-power-clean\n\
         7,b1,Dov Marsh,M,A,,150\n9,b4,Ian Prowse,M,A,180,\n",
    );
    folder.apply(
        "winter.maxday",
        "set,,,,,wrong-catch=reclassify,,,,\n\
         tally,7,hang-power-clean,1,165,good,,,,\ntally,9,power-clean,1,180,good,,,,",
    );
    let out = folder.ok("history day.maxday --with winter.maxday");
    let sheet = Sheet::read(&out);
    let of = |lot: &str, lift: &str| line(&sheet, lot, lift, &["max", "unit", "change"]);
    // Dov's hang power clean has a line of its own.
    assert_eq!(of("1", "hang-power-clean"), ["165 lb "]);
    assert_eq!(of("1", "power-clean"), ["90 kg "]);
    // 180 lb are 81.6466266 kg; 85 - 81.6466266 = 3.3533734.
    assert_eq!(of("4", "power-clean"), ["180 lb ", "85 kg 3.3533734"]);
    // Exactly as far as a real change isn't: 3.35 is above 2.9.
    assert_eq!(
        line(&sheet, "4", "power-clean", &["verdict"]),
        ["", "above error"]
    );
}

#[test]
fn the_rosters_last_max_begins_a_line_that_no_earlier_day_has() {
    let folder = Folder::new();
    let _ = folder.ok(&format!("new day.maxday {NEW} --date 2026-11-17"));
    let _ = folder.roster(
        "day.maxday",
        "lot,id,name,sex,flight,power-clean,power-clean last\n1,b1,Dov Marsh,M,A,60,80\n",
    );
    folder.apply("day.maxday", "tally,1,power-clean,1,85,good,,,,");
    let headers = ["date", "max", "source", "change", "verdict"];
    let says = |out: &str| line(&Sheet::read(out), "1", "power-clean", &headers);
    assert_eq!(
        says(&folder.ok("history day.maxday")),
        [" 80 roster  ", "2026-11-17 85 today 5 above error"]
    );
    folder.write(
        "old.csv",
        "id,lift,date,max\nb1,power-clean,2025-11-18,82.5\n",
    );
    // Known by id, where nothing else is said.
    let out = folder.ok("history day.maxday --with old.csv");
    assert_eq!(
        line(&Sheet::read(&out), "1", "power-clean", &["max", "match"]),
        ["82.5 id", "85 "]
    );
}

#[test]
fn doubtful_matches_are_asked_about_and_never_guessed() {
    let folder = Folder::new();
    let _ = folder.ok(&format!("new day.maxday {NEW} --date 2026-11-17"));
    let _ = folder.roster(
        "day.maxday",
        "lot,id,given,family,born,sex,flight,power-clean\n\
         1,b1,Dov,Marsh,2010-03-04,M,A,60\n\
         2,,Ravi,Okello,2009,M,A,60\n\
         3,g3,Una,Farrow,2010-01-02,F,A,40\n\
         4,,Ian,Prowse,,M,A,60\n\
         5,,Kip,Moss,2010,M,A,60\n\
         6,,Kip,Moss,2010,M,A,60\n",
    );
    folder.apply(
        "day.maxday",
        "tally,1,power-clean,1,90,good,,,,\ntally,2,power-clean,1,90,good,,,,\n\
         tally,3,power-clean,1,50,good,,,,\ntally,4,power-clean,1,90,good,,,,\n\
         tally,5,power-clean,1,90,good,,,,\ntally,6,power-clean,1,91,good,,,,",
    );
    folder.write(
        "old.csv",
        "id,name,born,sex,lift,date,max\n\
         b1,Dov Larkspur,,M,power-clean,2025-11-18,80\n\
         ,ravi  okello,2009-07-09,M,power-clean,2025-11-18,80\n\
         g7,Una Farrow,2010-01-02,F,power-clean,2025-11-18,40\n\
         ,Ian Prowse,2009-05-05,M,power-clean,2025-11-18,80\n\
         ,Kip Moss,2010,M,power-clean,2025-11-18,80\n\
         ,Una Farrow,1999-01-02,F,power-clean,2025-11-18,40\n\
         ,Odd One,,M,power-clean,2025-11-18,40\n",
    );
    let ran = folder.run("history day.maxday --with old.csv");
    assert_eq!(ran.code, Some(0));
    assert_eq!(
        ran.err,
        "maxday: 6 matches are doubtful and left out of the comparison; write yes or no \
         under same and give the table back with --match.\n"
    );
    let sheet = Sheet::read(&ran.out);
    let asked = |sheet: &Sheet, lot: &str| {
        let headers = ["max", "change", "source number", "match", "same"];
        line(sheet, lot, "power-clean", &headers)
    };
    for (lot, wanted) in [
        ("1", "80  2 doubtful: same id, another name ?"),
        (
            "2",
            "80  3 doubtful: same name and year of birth, one of them without a date ?",
        ),
        ("3", "40  4 doubtful: same name, another id ?"),
        ("4", "80  5 doubtful: same name, no birth to go by ?"),
        ("5", "80  6 doubtful: several athletes are alike ?"),
        ("6", "80  6 doubtful: several athletes are alike ?"),
    ] {
        let rows = asked(&sheet, lot);
        assert_eq!(rows.len(), 2, "{rows:?}");
        assert_eq!(rows[1], wanted);
        // What is doubtful is no base of a change.
        assert!(rows[0].ends_with("    "), "{rows:?}");
    }
    // The answers are written into the table itself; whoever is told is nobody else.
    let mut answered = ran.out.clone();
    for (of, answer) in [
        ("1,b1,Dov Marsh", "yes"),
        ("2,,Ravi Okello", "yes"),
        ("3,g3,Una Farrow", "no"),
        ("5,,Kip Moss", "yes"),
    ] {
        let row = answered
            .lines()
            .find(|l| l.starts_with(of) && l.ends_with('?'))
            .unwrap();
        let said = format!("{}{answer}", row.trim_end_matches('?'));
        answered = answered.replace(row, &said);
    }
    folder.write("same.csv", &answered);
    let ran = folder.run("history day.maxday --with old.csv --match same.csv");
    has(&ran.err, &["1 match is doubtful"]);
    let sheet = Sheet::read(&ran.out);
    assert_eq!(asked(&sheet, "1"), ["80  2 told yes", "90 10   "]);
    assert_eq!(asked(&sheet, "3"), ["50    "]);
    assert_eq!(asked(&sheet, "4").len(), 2);
    assert_eq!(asked(&sheet, "5"), ["80  6 told yes", "90 10   "]);
    assert_eq!(asked(&sheet, "6"), ["91    "]);
    // Somebody whom nothing hints at, such as with a new name, can be told too.
    folder.write(
        "more.csv",
        "lot,source,source number,same\n6,old.csv,8,yes\n",
    );
    let ran = folder.run("history day.maxday --with old.csv --match more.csv");
    let sheet = Sheet::read(&ran.out);
    assert_eq!(asked(&sheet, "6")[0], "40  8 told yes");
    // What is wrong in them.
    folder.write(
        "bad.csv",
        "lot,source,source number,same\n77,old.csv,2,yes\n1,new.csv,2,yes\n\
         1,old.csv,99,no\n1,old.csv,2,perhaps\n1,old.csv,2,yes\n2,old.csv,2,yes\n",
    );
    let ran = folder.run("history day.maxday --with old.csv --match bad.csv");
    assert_eq!(ran.code, Some(1));
    assert_eq!(ran.out, "");
    assert_eq!(
        ran.err,
        "row 2, column lot: there is no lot “77” today.\n\
         row 3, column source: “new.csv” is none of the earlier files; there is old.csv.\n\
         row 4, column source number: there is nobody with number “99” in old.csv.\n\
         row 5, column same: “perhaps” is no answer; write yes or no.\n\
         row 7, column same: number 2 of old.csv has another answer above; leave one of them.\n\
         maxday: Nothing was compared: 5 faults in bad.csv.\n"
    );
}

#[test]
fn files_of_earlier_maxes_are_read_or_refused_by_row_and_column() {
    let folder = three_days();
    folder.write(
        "bad.csv",
        "id;name;born;sex;lift;date;max;unit\n\
         b1;Dov Marsh;2010-03-04;M;power clean;2025-11-18;82,5;kg\n\
         b1;Dov Marsh;2010-03-04;M;power-clean;2025-11-18;85;kg\n\
         ;;;M;power clean;2025-11-18;82,5;kg\n\
         b2;Ravi Okello;long ago;M;power clean;2025-11-18;80;kg\n\
         b2;Ravi Okello;;M;power cleat;18 November;heavy;st\n",
    );
    let ran = folder.run("history day.maxday --with bad.csv");
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), ""));
    let lines: Vec<&str> = ran.err.lines().collect();
    let wanted = [
        "row 3, column lift: there is a max in power-clean of 2025-11-18 for that athlete",
        "row 4, column id: nobody is named; write an id or a name.",
        "row 5, column born: ",
        "row 6, column lift: “power cleat” is no lift",
        "row 6, column date: “18 November” is no date; write it as 2026-11-17.",
        "row 6, column unit: “st” is no unit; write kg or lb.",
        "row 6, column max: ",
        "maxday: Nothing was compared: 7 faults in bad.csv.",
    ];
    assert_eq!(lines.len(), wanted.len(), "{}", ran.err);
    for (line, wanted) in lines.iter().zip(wanted) {
        assert!(line.starts_with(wanted), "{line}\n{wanted}");
    }
    has(
        &folder.no("history day.maxday --with none.maxday"),
        &["none.maxday"],
    );
    has(
        &folder.no("history day.maxday --with day.maxday"),
        &["day.maxday is there twice, or is the day itself"],
    );
    has(
        &folder.no("history day.maxday --with fall.maxday fall.maxday"),
        &["fall.maxday is there twice"],
    );
}
