//! Relative-strength scores through the program itself: `score`, `formulas`, and
//! scores in the standings.
//!
//! Expected numbers were worked out apart from the program from the published
//! formulas, or are published examples, named beside them.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;

use bin::{Folder, Sheet, has, small_max_day};
use maxday::file::Live;
use maxday::lift::Slug;
use maxday::score::{Formula, Scoring};
use maxday::sheets::{Audience, Table, leaders_table, score_notes};
use maxday::standings::Over;

/// A powerlifting day: two women, three men of whom two are alike in all, one
/// who wasn't weighed, and a guest.
fn meet() -> Folder {
    let folder = Folder::new();
    folder.write(
        "rules.toml",
        "base = \"powerlifting\"\ncategories = \"F 57 +57; M 75 +75\"\n",
    );
    let _ = folder.ok("new d.maxday --rules rules.toml --date 2026-11-14");
    let _ = folder.roster(
        "d.maxday",
        "lot,name,sex,team,born,bodyweight,flight,back-squat,bench-press,deadlift,guest\n\
         1,Ada Quinn,F,Otters,1981,55,A,80,40,100,\n\
         2,Bea Moss,F,Herons,2008,56.5,A,85,42.5,102.5,\n\
         3,Cy Reed,M,Otters,2008,74,A,120,80,150,\n\
         4,Dov Lane,M,Herons,2008,74,B,120,80,150,\n\
         5,Eli Park,M,,1970,80,B,125,80,155,\n\
         6,Fay Wren,F,Herons,2008,,B,60,30,70,\n\
         7,Gil Hart,M,Otters,2008,70,B,150,110,180,yes\n",
    );
    let mut rows = String::new();
    for (lot, loads) in [
        (1, ["80", "40", "100"]),
        (2, ["85", "42.5", "102.5"]),
        (3, ["120", "80", "150"]),
        (4, ["120", "80", "150"]),
        (5, ["125", "80", "155"]),
        (6, ["60", "30", "70"]),
        (7, ["150", "110", "180"]),
    ] {
        for (lift, load) in ["back-squat", "bench-press", "deadlift"].iter().zip(loads) {
            rows.push_str(&format!("tally,{lot},{lift},,{load},good,,,,\n"));
        }
    }
    folder.apply("d.maxday", &rows);
    folder
}

#[test]
fn the_number_alone() {
    let folder = Folder::new();
    for (line, number) in [
        // IWF Sinclair page of 2001-2004.
        (
            "--formula sinclair --sex M --bodyweight 83.5kg --load 390kg --date 2003-06-01",
            "459.028",
        ),
        // From memory: the constants of 2021-2024.
        (
            "--formula sinclair --sex F --bodyweight 60.2 --load 135 --date 2022-06-01",
            "182.328",
        ),
        // A general formula-description page.
        (
            "--formula ipf-gl --sex M --bodyweight 82.5kg --load 550kg",
            "76.37",
        ),
        // Worked out from the constants of 2020: 0.502293 points a kg.
        (
            "--formula ipf-gl --sex M --bodyweight 83kg --load 200kg --event bench",
            "100.46",
        ),
        (
            "--formula ipf-gl --sex F --bodyweight 63kg --load 400kg --equipment equipped",
            "72.21",
        ),
        (
            "--formula dots --sex M --bodyweight 83kg --load 600kg",
            "405.05",
        ),
        (
            "--formula dots --sex f --bodyweight 63 --load 400",
            "430.21",
        ),
        (
            "--formula wilks --sex M --bodyweight 83kg --load 600kg",
            "400.50",
        ),
        (
            "--formula wilks-2020 --sex F --bodyweight 63kg --load 400kg",
            "511.45",
        ),
        // A state affiliate's page: 1.225 at 55; 400.500 x 1.225.
        (
            "--formula wilks --sex M --bodyweight 83kg --load 600kg --age 55",
            "490.61",
        ),
        (
            "--formula ratio --sex M --bodyweight 80kg --load 140kg",
            "1.750",
        ),
        ("--formula ratio --bodyweight 200lb --load 500lb", "2.500"),
        (
            "--formula allometric --sex M --bodyweight 80kg --load 140kg",
            "7.5405",
        ),
        (
            "--formula allometric --sex M --bodyweight 80kg --load 140kg --event bench",
            "12.0865",
        ),
        (
            "--formula allometric --bodyweight 80kg --load 140kg --exponent 0.559",
            "12.0865",
        ),
        (
            "--formula allometric --bodyweight 80kg --load 140kg --lift bench-press",
            "12.0865",
        ),
    ] {
        assert_eq!(
            folder.ok(&format!("score {line}")),
            format!("{number}\n"),
            "{line}"
        );
    }
    // Czech weightlifting federation's page: record 477, total 335.
    folder.write("r.csv", "sex,category,record\nM,105,430\nM,+105,477\n");
    let line = "score --formula robi --sex M --bodyweight 120kg --load 335kg";
    assert_eq!(folder.ok(&format!("{line} --records r.csv")), "309.15\n");
}

#[test]
fn later_days_say_which_constants_they_used() {
    let folder = Folder::new();
    let line = "score --formula sinclair --sex F --bodyweight 60.2 --load 135";
    let ran = folder.run(&format!("{line} --date 2026-11-14"));
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), "182.328\n"));
    assert_eq!(
        ran.err,
        "maxday: Sinclair's constants of 2021-2024 are used; none are known for 2026.\n"
    );
    assert_eq!(folder.ok(&format!("{line} --date 2024-12-31")), "182.328\n");
    let why = folder.no(&format!("{line} --date 1999-01-01"));
    assert!(why.contains("days from 2001 on"), "{why}");
}

#[test]
fn wrong_input_is_one_sentence_and_exit_code_1() {
    let folder = Folder::new();
    folder.write("bad.csv", "sex,category,record\nM,light,430\n");
    for (line, words) in [
        ("", "--formula is missing"),
        (
            "--formula points",
            "“points” is no formula; allowed: ratio, allometric",
        ),
        (
            "--formula dots --sex M --bodyweight 80kg",
            "--load is missing",
        ),
        ("--formula dots --sex M --load 80kg", "needs a bodyweight"),
        (
            "--formula dots --bodyweight 80kg --load 80kg",
            "needs the sex: F or M",
        ),
        (
            "--formula dots --sex X --bodyweight 80kg --load 80kg",
            "write F or M",
        ),
        (
            "--formula dots --sex M --bodyweight 80st --load 80kg",
            "--bodyweight: “80st”",
        ),
        (
            "--formula dots --sex M --bodyweight 80kg --load heavy",
            "--load: “heavy”",
        ),
        (
            "--formula dots --sex M --bodyweight 80kg --load 0",
            "above 0",
        ),
        (
            "--formula dots --sex M --bodyweight 80kg --load -5kg",
            "above 0",
        ),
        (
            "--formula dots --sex M --bodyweight 80kg --load 1801kg",
            "at most 1800 kg",
        ),
        (
            "--formula dots --sex M --bodyweight 80kg --load 601kg --event bench",
            "at most 600 kg",
        ),
        (
            "--formula ratio --bodyweight 14.9kg --load 50",
            "allowed: 15 to 300 kg",
        ),
        (
            "--formula wilks --sex F --bodyweight 301kg --load 50",
            "15 to 300 kg",
        ),
        (
            "--formula sinclair --sex M --bodyweight 31.9kg --load 50",
            "32 to 300 kg",
        ),
        (
            "--formula sinclair --sex F --bodyweight 27.9kg --load 50",
            "28 to 300 kg",
        ),
        (
            "--formula ipf-gl --sex F --bodyweight 34.9kg --load 50",
            "35 to 300 kg",
        ),
        (
            "--formula sinclair --sex M --bodyweight 80kg --load 50 --event bench",
            "for a total",
        ),
        (
            "--formula ipf-gl --sex M --bodyweight 80kg --load 50 --lift deadlift",
            "for a total or the bench press",
        ),
        (
            "--formula dots --sex M --bodyweight 80 --load 50 --event all",
            "total, bench",
        ),
        (
            "--formula dots --sex M --bodyweight 80 --load 50 --equipment raw",
            "classic, equipped",
        ),
        (
            "--formula dots --sex M --bodyweight 80 --load 50 --age old",
            "from 1 to 120",
        ),
        (
            "--formula dots --sex M --bodyweight 80 --load 50 --age 12",
            "14 to 80, 85, 90",
        ),
        (
            "--formula ratio --sex M --bodyweight 80 --load 50 --age 40",
            "No age factors",
        ),
        (
            "--formula dots --sex M --bodyweight 80 --load 50 --date 14.11.2026",
            "2026-11-17",
        ),
        (
            "--formula robi --sex M --bodyweight 80 --load 50",
            "--records FILE",
        ),
        (
            "--formula robi --sex M --bodyweight 80 --load 50 --records none.csv",
            "can't be read",
        ),
        (
            "--formula robi --sex M --bodyweight 80 --load 50 --records bad.csv",
            "row 2: “light” is no category",
        ),
        (
            "--formula allometric --bodyweight 80 --load 50 --exponent 2",
            "from 0 to 1",
        ),
        (
            "--formula allometric --bodyweight 80 --load 50 --lift sled",
            "no lift",
        ),
    ] {
        let ran = folder.run(&format!("score {line}"));
        assert_eq!(ran.code, Some(1), "{line}");
        let sentence = ran.sentence();
        assert!(sentence.contains(words), "{line}: {sentence}");
    }
}

#[test]
fn formulas_lists_what_is_known_and_how_sure() {
    let folder = Folder::new();
    let sheet = Sheet::read(&folder.ok("formulas"));
    assert_eq!(
        sheet.header,
        [
            "name",
            "for",
            "bounds",
            "validity",
            "source",
            "certainty",
            "kind"
        ]
    );
    let names = sheet.all("name");
    assert_eq!(
        names[..8],
        [
            "ratio",
            "allometric",
            "sinclair",
            "robi",
            "ipf-gl",
            "dots",
            "wilks",
            "wilks-2020"
        ]
    );
    assert!(
        sheet
            .rows
            .iter()
            .all(|row| row.iter().all(|cell| !cell.is_empty()))
    );
    let of = |name: &str, column: &str| sheet.cell("name", name, column).to_owned();
    assert_eq!(of("dots", "certainty"), "checked");
    assert_eq!(of("sinclair 2001-2004", "certainty"), "published");
    assert_eq!(of("sinclair 2021-2024", "certainty"), "from memory");
    has(
        &of("wilks-2020", "certainty"),
        &["partly from memory", "600"],
    );
    has(&of("sinclair", "validity"), &["later days use 2021-2024"]);
    has(&of("foster-mcculloch", "bounds"), &["14 to 80, 85, 90"]);
    has(
        &of("mayhew", "bounds"),
        &["1 to 10 repetitions", "2.7 to 3.2 kg"],
    );
    let kinds = sheet.all("kind");
    assert_eq!(kinds.iter().filter(|k| **k == "score").count(), 8);
    assert_eq!(
        kinds
            .iter()
            .filter(|k| **k == "max from repetitions")
            .count(),
        8
    );
}

#[test]
fn a_score_is_one_column_at_the_end() {
    let folder = meet();
    let plain = Sheet::read(&folder.ok("standings d.maxday"));
    assert_eq!(plain.header.last().unwrap(), "total");
    let sheet = Sheet::read(&folder.ok("standings d.maxday --score dots,ipf-gl"));
    let n = plain.header.len();
    assert_eq!(sheet.header[..n], plain.header);
    assert_eq!(sheet.header[n..], ["dots", "ipf-gl"]);
    for (mine, theirs) in sheet.rows.iter().zip(&plain.rows) {
        assert_eq!(mine[..n], theirs[..]);
    }
    for (lot, total, dots, gl) in [
        (1, "220", "258.09", "53.04"),
        (2, "230", "265.04", "54.31"),
        (3, "350", "253.28", "51.38"),
        (4, "350", "253.28", "51.38"),
        (5, "360", "248.24", "50.77"),
        // Not weighed: no number.
        (6, "160", "", ""),
    ] {
        assert_eq!(sheet.of(lot, "total"), total);
        assert_eq!(sheet.of(lot, "dots"), dots, "{lot}");
        assert_eq!(sheet.of(lot, "ipf-gl"), gl, "{lot}");
    }
    // By division and by lift too; a lift's column is of that lift.
    let sheet = Sheet::read(&folder.ok("standings d.maxday --by slot --score ratio"));
    let (group, lot, ratio) = (
        sheet.column("group"),
        sheet.column("lot"),
        sheet.column("ratio"),
    );
    let row = |label: &str, n: &str| {
        let mut rows = sheet.rows.iter();
        rows.find(|r| r[group] == label && r[lot] == n).unwrap()[ratio].clone()
    };
    // 80 / 55 and 100 / 55.
    assert_eq!(row("F 57 back-squat", "1"), "1.455");
    assert_eq!(row("F 57 deadlift", "1"), "1.818");
    let sheet = Sheet::read(&folder.ok("standings d.maxday --by slot --score ipf-gl"));
    let with = |lift: &str| {
        let of_lift = sheet.rows.iter().filter(|r| r[group].ends_with(lift));
        of_lift.filter(|r| !r.last().unwrap().is_empty()).count()
    };
    assert_eq!((with("bench-press"), with("back-squat")), (6, 0));
}

#[test]
fn standings_by_score_rank_both_sexes_and_share_ties() {
    let folder = meet();
    let sheet = Sheet::read(&folder.ok("standings d.maxday --by score --score dots"));
    assert_eq!(sheet.header.last().unwrap(), "dots");
    assert!(sheet.all("group").iter().all(|g| *g == "all"));
    assert_eq!(sheet.all("lot"), ["2", "1", "3", "4", "5", "6", "7"]);
    // Equal in all: a shared place, and the next one stays free. No bodyweight, or
    // a guest: a row without a place.
    assert_eq!(sheet.all("place"), ["1", "2", "3", "3", "5", "", ""]);
    assert_eq!(
        sheet.all("dots")[..6],
        ["265.04", "258.09", "253.28", "253.28", "248.24", ""]
    );
    // A coach's other formula ranks otherwise.
    let sheet =
        Sheet::read(&folder.ok("standings d.maxday --by score --score ratio,dots"));
    assert_eq!(sheet.all("lot"), ["3", "4", "5", "2", "1", "6", "7"]);
    assert_eq!(sheet.header[sheet.header.len() - 2..], ["ratio", "dots"]);
    // Disqualified: neither place nor score.
    folder.apply("d.maxday", "disqualify,2,,,,threw the bar,,,,");
    let sheet = Sheet::read(&folder.ok("standings d.maxday --by score --score dots"));
    assert_eq!((sheet.of(2, "place"), sheet.of(2, "dots")), ("", ""));
    assert_eq!(sheet.of(1, "place"), "1");
}

#[test]
fn age_factors_are_switched_on_by_name() {
    let folder = meet();
    let line = "standings d.maxday --by score --score dots --age-factors";
    let sheet = Sheet::read(&folder.ok(line));
    assert_eq!(sheet.header.last().unwrap(), "dots with age");
    // From memory, but the anchors 45 and 1.06 at 18: 258.09 x 1.055 (born 1981),
    // 248.24 x 1.246 (born 1970, 56 years), 265.04 x 1.06 (18 years).
    let of = |lot| sheet.of(lot, "dots with age").parse::<f64>().unwrap();
    for (lot, aged) in [(1, 258.09 * 1.055), (2, 265.04 * 1.06), (5, 248.24 * 1.246)] {
        assert!((of(lot) - aged).abs() < 0.02, "{lot}: {}", of(lot));
    }
    assert_eq!(sheet.of(5, "place"), "1");
    // Posted, the number would give the age away beside the load.
    let posted = Sheet::read(&folder.ok(&format!("{line} --posted")));
    assert!(
        posted
            .all("dots with age")
            .iter()
            .all(|cell| cell.is_empty())
    );
    assert_eq!(posted.all("place"), sheet.all("place"));
}

#[test]
fn posted_with_bodyweight_hidden_only_the_place_is_left() {
    let folder = meet();
    let shown = Sheet::read(
        &folder.ok("standings d.maxday --by score --score dots,ratio --posted"),
    );
    assert_eq!(shown.all("dots")[0], "265.04");
    folder.apply("d.maxday", "set,,,,,posting.bodyweight=no,,,,");
    for (by, score) in [
        ("score", "dots,ratio"),
        ("category", "sinclair"),
        ("slot", "allometric"),
        ("division", "wilks"),
    ] {
        let line = format!("standings d.maxday --by {by} --score {score} --posted");
        let ran = folder.run(&line);
        assert_eq!(ran.code, Some(0), "{line}: {}", ran.err);
        let sheet = Sheet::read(&ran.out);
        for name in score.split(',').chain(["bodyweight"]) {
            assert!(sheet.all(name).iter().all(|cell| cell.is_empty()), "{line}");
        }
    }
    let hidden = Sheet::read(
        &folder.ok("standings d.maxday --by score --score dots,ratio --posted"),
    );
    assert_eq!(hidden.all("place"), shown.all("place"));
    assert_eq!(hidden.all("total"), shown.all("total"));
    // The archive still shows all.
    let sheet = Sheet::read(&folder.ok("standings d.maxday --by score --score dots"));
    assert_eq!(sheet.all("dots")[0], "265.04");
}

#[test]
fn what_cannot_be_ranked_is_refused_in_a_sentence() {
    let folder = meet();
    for (line, words) in [
        ("--by score", "name it with --score; allowed: ratio"),
        ("--by score --score points", "no formula"),
        ("--score dots,dots", "named twice"),
        ("--score robi", "--records FILE"),
        ("--by team --score dots", "--by team"),
        ("--age-factors", "--score"),
        ("--score ipf-gl --equipment raw", "classic, equipped"),
        ("--score allometric --exponent big", "no exponent"),
    ] {
        let ran = folder.run(&format!("standings d.maxday {line}"));
        assert_eq!(ran.code, Some(1), "{line}");
        has(&ran.sentence(), &[words]);
    }
    let _ = Folder::new().no("standings none.maxday --score dots");
}

#[test]
fn robi_points_go_by_the_coachs_own_table() {
    let folder = Folder::new();
    folder.write(
        "rules.toml",
        "base = \"weightlifting\"\ncategories = \"F 64 +64; M 73 +73\"\n",
    );
    let _ = folder.ok("new w.maxday --rules rules.toml --date 2022-11-21");
    let _ = folder.roster("w.maxday", bin::SMALL_ROSTER);
    let mut rows = String::new();
    for (lot, loads) in [(1, ["60", "75"]), (2, ["62", "80"]), (3, ["65", "82"])] {
        for (lift, load) in ["snatch", "clean-and-jerk"].iter().zip(loads) {
            rows.push_str(&format!("tally,{lot},{lift},,{load},good,,,,\n"));
        }
    }
    folder.apply("w.maxday", &rows);
    folder.write(
        "r.toml",
        "[[class]]\nsex = \"F\"\ncategory = 64\nrecord = 135\n\
         [[class]]\nsex = \"F\"\ncategory = \"64+\"\nrecord = 294\n\
         [[class]]\nsex = \"M\"\ncategory = 73\nrecord = 142\n",
    );
    let line = "standings w.maxday --by score --score robi,sinclair --records r.toml";
    let sheet = Sheet::read(&folder.ok(line));
    // Records of their own, and half a record (Czech federation's page: 100
    // points).
    assert_eq!(sheet.all("lot"), ["1", "2", "3"]);
    assert_eq!(sheet.all("place"), ["1", "1", "3"]);
    assert_eq!(sheet.all("robi"), ["1000.00", "1000.00", "100.00"]);
    // From memory: the constants of 2021-2024.
    assert_eq!(sheet.all("sinclair"), ["182.328", "192.391", "187.710"]);
}

#[test]
fn lifts_of_unlike_variants_never_share_a_ranking() {
    let folder = Folder::new();
    small_max_day(&folder);
    folder.apply(
        "day.maxday",
        "set,,,,,total=none,,,,\n\
         tally,1,power-clean,,95,good,,,,\n\
         tally,2,hang-power-clean,,115,good,,,,\n\
         tally,3,power-clean,,100,good,,,,\n\
         tally,1,back-squat,,135,good,,,,\n\
         tally,2,back-squat,,185,good,,,,",
    );
    let line = "standings day.maxday --by score --score allometric";
    let sheet = Sheet::read(&folder.ok(line));
    let rows: Vec<(&str, &str, &str, &str)> = sheet
        .rows
        .iter()
        .map(|r| {
            let at = |name: &str| r[sheet.column(name)].as_str();
            (at("group"), at("lot"), at("place"), at("allometric"))
        })
        .collect();
    // College football players of the first division: 0.287 and 0.496; worked out
    // apart from the program: 100 lb at 145 lb are 13.6424.
    assert_eq!(
        rows,
        [
            ("all power-clean", "3", "1", "13.6424"),
            ("all power-clean", "1", "2", "13.3000"),
            ("all hang-power-clean", "2", "1", "15.2517"),
            ("all back-squat", "2", "1", "10.0205"),
            ("all back-squat", "1", "2", "8.0292"),
        ]
    );
    // An exponent of one's own.
    let sheet = Sheet::read(&folder.ok(&format!("{line} --exponent back-squat=1")));
    assert!(sheet.all("allometric").contains(&"1.0189"));
}

/// The table of leaders of a day.
fn led(
    folder: &Folder,
    formula: Formula,
    slot: Option<&str>,
    over: Over,
    audience: Audience,
) -> Table {
    let live = Live::open_read(&folder.file("d.maxday")).unwrap();
    let slot = slot.map(|s| Slug::new(s).unwrap());
    leaders_table(
        live.day().facts(),
        &Scoring::new(formula),
        slot.as_ref(),
        over,
        Some(1),
        audience,
    )
}

fn first(table: &Table) -> Vec<(String, String, String)> {
    let groups = table.groups.iter();
    groups
        .flat_map(|g| g.rows.iter().map(move |row| (g, row)))
        .map(|(g, row)| (g.label.clone(), row[1].shown(), row[2].shown()))
        .collect()
}

#[test]
fn leaders_over_any_group() {
    let folder = meet();
    let of = |over| first(&led(&folder, Formula::Dots, None, over, Audience::Private));
    let three = |rows: &[(&str, &str, &str)]| -> Vec<(String, String, String)> {
        let own = |t: &(&str, &str, &str)| (t.0.into(), t.1.into(), t.2.into());
        rows.iter().map(own).collect()
    };
    assert_eq!(of(Over::All), three(&[("all", "1", "2")]));
    assert_eq!(
        of(Over::Sex),
        three(&[("F", "1", "2"), ("M", "1", "3"), ("M", "1", "4")])
    );
    assert_eq!(
        of(Over::Category),
        three(&[
            ("F 57", "1", "2"),
            ("M 75", "1", "3"),
            ("M 75", "1", "4"),
            ("M 75+", "1", "5")
        ])
    );
    assert_eq!(
        of(Over::Team),
        three(&[("Herons", "1", "2"), ("Otters", "1", "1")])
    );
    assert_eq!(of(Over::Flight), three(&[("A", "1", "2"), ("B", "1", "4")]));
    // One lift alone; a guest leads nothing.
    let table = led(
        &folder,
        Formula::IpfGl,
        Some("bench-press"),
        Over::All,
        Audience::Private,
    );
    assert_eq!(first(&table).len(), 2);
    assert_eq!(table.groups[0].label, "all, bench press");
    assert_eq!(table.columns.last().unwrap().key, "ipf-gl");
    let hidden = led(
        &folder,
        Formula::IpfGl,
        Some("deadlift"),
        Over::All,
        Audience::Private,
    );
    assert!(hidden.is_empty());
}

#[test]
fn posted_leaders_keep_to_the_policy() {
    let folder = meet();
    folder.apply(
        "d.maxday",
        "set,,,,,posting.bodyweight=no; posting.category=no; posting.name=number,,,,",
    );
    let table = led(
        &folder,
        Formula::Dots,
        None,
        Over::Category,
        Audience::Posted,
    );
    let keys: Vec<&str> = table.columns.iter().map(|c| c.key.as_str()).collect();
    assert!(
        !keys.contains(&"dots") && keys.contains(&"load"),
        "{keys:?}"
    );
    assert_eq!(
        table
            .groups
            .iter()
            .map(|g| g.label.as_str())
            .collect::<Vec<_>>(),
        ["group 1", "group 2", "group 3"]
    );
    let text = format!("{:?}", table.groups);
    assert!(!text.contains("Quinn") && !text.contains("265.0"), "{text}");
    let live = Live::open_read(&folder.file("d.maxday")).unwrap();
    let scorings = [Scoring::new(Formula::Sinclair), Scoring::new(Formula::Dots)];
    let notes = score_notes(live.day().facts(), &scorings, Audience::Posted).join(" ");
    has(
        &notes,
        &[
            "constants of 2021-2024, from memory",
            "none are known for 2026",
            "DOTS: German federation BVDK",
            "Only places by score are shown",
        ],
    );
    assert!(
        score_notes(live.day().facts(), &scorings, Audience::Private)
            .iter()
            .all(|note| note.ends_with('.') && !note.contains("Only places"))
    );
}
