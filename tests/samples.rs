//! The sample meets through the program: what comes out is what is expected.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;

use std::path::PathBuf;

use bin::{Folder, Sheet};
use maxday::day::Stamp;
use maxday::samples::{self, Sample};

const SAMPLES: [&str; 3] = ["max-day", "weightlifting", "powerlifting"];

const ATTEMPTS: &str = "lot,id,name,session,platform,flight,slot,lift,attempt,requested,\
loaded,credited,bar unit,ruling,lights,faults,called at,ruled at,by";

fn sample(name: &str, file: &str) -> String {
    let path: PathBuf = [env!("CARGO_MANIFEST_DIR"), "sample-meets", name, file]
        .iter()
        .collect();
    std::fs::read_to_string(path).unwrap()
}

/// The arguments of `new`, in one line.
fn arguments(name: &str) -> String {
    sample(name, "new.txt").trim().to_owned()
}

/// The sample in `day.maxday`, all of it applied.
fn made(name: &str) -> Folder {
    let folder = Folder::new();
    let _ = folder.ok(&format!("new day.maxday {}", arguments(name)));
    folder.write("roster.csv", sample(name, "roster.csv"));
    folder.write("acts.csv", sample(name, "acts.csv"));
    let _ = folder.ok("roster day.maxday roster.csv");
    let _ = folder.ok("apply day.maxday acts.csv");
    folder
}

#[test]
fn standings_are_as_expected_cell_for_cell() {
    for name in SAMPLES {
        let folder = made(name);
        let expected = sample(name, "expected-standings.csv");
        let found = folder.ok("standings day.maxday");
        for (line, (found, expected)) in found.lines().zip(expected.lines()).enumerate() {
            assert_eq!(found, expected, "{name}, line {}", line + 1);
        }
        assert_eq!(found, expected, "{name}");
        folder.sound("day.maxday");
    }
}

/// The score that suits each day, as `expected.py` works it out from the published
/// formula by itself.
#[test]
fn scores_are_as_expected() {
    for name in SAMPLES {
        let folder = made(name);
        let expected = Sheet::read(&sample(name, "expected-scores.csv"));
        let score = expected.header[1].clone();
        folder.apply("day.maxday", "set,,,,,scores=usual,,,Table,");
        let ran = folder.run("standings day.maxday");
        let found = Sheet::read(&ran.out);
        assert_eq!(found.header.last(), Some(&score), "{name}");
        assert_eq!(found.all("lot"), expected.all("lot"), "{name}");
        assert_eq!(found.all(&score), expected.all(&score), "{name}");
        assert!(expected.all(&score).iter().any(|cell| !cell.is_empty()));
        folder.sound("day.maxday");
    }
}

#[test]
fn every_attempt_has_one_row() {
    for name in SAMPLES {
        let folder = made(name);
        let out = folder.ok("attempts day.maxday");
        assert_eq!(out.lines().next(), Some(ATTEMPTS), "{name}");
        let attempts = Sheet::read(&out);
        let standings = Sheet::read(&folder.ok("standings day.maxday"));
        let mut ruled = 0;
        for (at, header) in standings.header.iter().enumerate() {
            let Some(column) = header.strip_suffix(" ruling") else {
                continue;
            };
            let (slot, attempt) = column.rsplit_once(' ').unwrap();
            let lot = standings.column("lot");
            for row in standings.rows.iter().filter(|r| !r[at].is_empty()) {
                ruled += 1;
                let found = attempts.rows.iter().filter(|a| {
                    a[attempts.column("lot")] == row[lot]
                        && a[attempts.column("slot")] == slot
                        && a[attempts.column("attempt")] == attempt
                        && a[attempts.column("ruling")] == row[at]
                });
                // A void attempt that was taken anew has a row of its own.
                assert!(found.count() >= 1, "{name}: lot {}, {column}", row[lot]);
            }
        }
        let acts = sample(name, "acts.csv");
        let void = Sheet::read(&acts)
            .all("detail")
            .iter()
            .filter(|d| matches!(**d, "repeat" | "again"))
            .count();
        assert_eq!(attempts.rows.len(), ruled + void, "{name}");
    }
}

#[test]
fn acts_replay_to_the_same_day() {
    for name in SAMPLES {
        let folder = made(name);
        let acts = folder.ok("acts day.maxday");
        folder.write("all.csv", &acts);
        let _ = folder.ok(&format!("new again.maxday {}", arguments(name)));
        let _ = folder.ok("apply again.maxday all.csv");
        for verb in ["standings", "attempts", "queue --at 12:00"] {
            let (verb, options) = verb.split_once(' ').unwrap_or((verb, ""));
            assert_eq!(
                folder.ok(&format!("{verb} day.maxday {options}")),
                folder.ok(&format!("{verb} again.maxday {options}")),
                "{name}: {verb}"
            );
        }
        folder.sound("again.maxday");
        let again = folder.ok("acts again.maxday");
        for (line, (one, other)) in acts.lines().zip(again.lines()).enumerate() {
            assert_eq!(one, other, "{name}, line {}", line + 1);
        }
        assert_eq!(acts, again, "{name}");
    }
}

#[test]
fn acts_replay_onto_a_plain_day_of_the_format() {
    let bare = [
        ("max-day", "--format max-day --unit lb"),
        ("weightlifting", "--format weightlifting"),
        ("powerlifting", "--format powerlifting"),
    ];
    for (name, arguments) in bare {
        let folder = made(name);
        let acts = folder.ok("acts day.maxday");
        folder.write("all.csv", &acts);
        let _ = folder.ok(&format!("new again.maxday {arguments}"));
        let _ = folder.ok("apply again.maxday all.csv");
        assert_eq!(
            folder.ok("standings day.maxday"),
            folder.ok("standings again.maxday"),
            "{name}"
        );
        assert_eq!(acts, folder.ok("acts again.maxday"), "{name}");
    }
}

#[test]
fn answers_row_by_row_give_the_same_day() {
    // One sample only: each act waits for the disk.
    for name in ["weightlifting"] {
        let folder = made(name);
        let _ = folder.ok(&format!("new again.maxday {}", arguments(name)));
        let _ = folder.ok("roster again.maxday roster.csv");
        let acts = sample(name, "acts.csv");
        let answers = folder.feed("apply again.maxday -", &acts).ok();
        let rows = acts.lines().count() - 1;
        assert_eq!(answers.lines().count(), rows, "{name}");
        for (line, answer) in (2..).zip(answers.lines()) {
            assert_eq!(answer, format!("ok {line}"), "{name}");
        }
        assert_eq!(
            folder.ok("standings again.maxday"),
            sample(name, "expected-standings.csv"),
            "{name}"
        );
        folder.sound("again.maxday");
    }
}

/// What the powerlifting meet has on purpose, as one row an attempt shows it.
#[test]
fn the_powerlifting_meet_has_every_turn_of_its_rules() {
    let folder = made("powerlifting");
    let attempts = Sheet::read(&folder.ok("attempts day.maxday"));
    let column = |name: &str| attempts.column(name);
    let of = |lot: &str, slot: &str, attempt: &str| -> Vec<Vec<String>> {
        let rows = attempts.rows.iter().filter(|row| {
            row[column("lot")] == lot
                && row[column("slot")] == slot
                && row[column("attempt")] == attempt
        });
        let shown = ["requested", "loaded", "credited", "ruling", "lights"];
        rows.map(|row| shown.map(|name| row[column(name)].clone()).to_vec())
            .collect()
    };
    for (lot, slot, attempt, rows) in [
        // An opener changed in time, by either flight.
        ("3", "back-squat", "1", vec!["70 70 70 good www"]),
        ("7", "back-squat", "1", vec!["145 145 145 good www"]),
        // Nothing handed in: a step more after a good lift, the same after
        // none.
        ("11", "back-squat", "3", vec!["92.5 92.5 92.5 good www"]),
        ("2", "bench-press", "3", vec!["87.5 87.5 87.5 good www"]),
        // A heavier bar that was lifted counts; the step is from there.
        ("8", "back-squat", "2", vec!["85 87.5 87.5 good www"]),
        ("8", "back-squat", "3", vec!["90 90  no rwr"]),
        // A lighter bar and no lift: void, taken anew when the round ends.
        (
            "13",
            "bench-press",
            "2",
            vec!["100 97.5  no rrr", "100 100 100 good www"],
        ),
        ("17", "back-squat", "3", vec!["180.5 180.5 180.5 good www"]),
        ("10", "deadlift", "3", vec!["205 205 205 good www"]),
        ("15", "bench-press", "3", vec!["117.5 117.5 117.5 good wrr"]),
        ("5", "back-squat", "1", vec!["125 125  time "]),
    ] {
        let found: Vec<String> =
            of(lot, slot, attempt).iter().map(|r| r.join(" ")).collect();
        assert_eq!(found, rows, "lot {lot}, {slot} {attempt}");
    }
    // The retake is the last of its round and flight, before the next begins.
    let when = |lot: &str, slot: &str, attempt: &str| -> Vec<String> {
        let rows = attempts.rows.iter().filter(|row| {
            row[column("lot")] == lot
                && row[column("slot")] == slot
                && row[column("attempt")] == attempt
        });
        rows.map(|row| row[column("ruled at")].clone()).collect()
    };
    let anew = when("13", "bench-press", "2").pop().unwrap();
    for lot in ["2", "5", "7", "10", "12", "15", "17"] {
        assert!(when(lot, "bench-press", "2")[0] < anew, "lot {lot}");
        assert!(when(lot, "bench-press", "3")[0] > anew, "lot {lot}");
    }
}

#[test]
fn teams_are_as_expected() {
    let folder = made("powerlifting");
    let found = Sheet::read(&folder.ok("standings day.maxday --by team"));
    let expected = Sheet::read(&sample("powerlifting", "expected-teams.csv"));
    for column in ["place", "team", "points"] {
        assert_eq!(found.all(column), expected.all(column), "{column}");
    }
}

/// The desk's copies: they stop in the middle of their day.
#[test]
fn every_sample_makes_a_day_to_go_on_with() {
    let folder = Folder::new();
    let now = Stamp {
        ms: 1_795_000_000_000,
        offset: -360,
        loose: false,
    };
    for sample in Sample::ALL {
        let name = format!("{}.maxday", sample.file_stem());
        samples::make(&folder.file(&name), sample, now).unwrap();
        folder.sound(&name);
        let queue = Sheet::read(&folder.ok(&format!("queue {name} --at 12:00")));
        assert!(queue.rows.len() > 4, "{name}: nobody is left to lift");
        let attempts = Sheet::read(&folder.ok(&format!("attempts {name}")));
        assert!(attempts.rows.len() > 10, "{name}: nothing has happened");
    }
}

#[test]
fn what_is_posted_hides_what_the_policy_hides() {
    let folder = made("max-day");
    let posted = folder.ok("standings day.maxday --posted");
    let attempts = folder.ok("attempts day.maxday --posted");
    let sheet = Sheet::read(&posted);
    let private = Sheet::read(&folder.ok("standings day.maxday"));
    assert_eq!(sheet.header, private.header);
    assert_eq!(sheet.rows.len(), private.rows.len());
    assert_eq!(sheet.of(20, "name"), "Elijah C.");
    assert_eq!(private.of(20, "name"), "Elijah Copperleigh-Nakai");
    for column in ["bodyweight", "category", "id"] {
        assert!(sheet.all(column).iter().all(|c| c.is_empty()), "{column}");
    }
    for (posted, private) in sheet.rows.iter().zip(&private.rows) {
        assert_eq!(posted.last(), private.last(), "totals stay");
    }
    let family = |name: &str| name.split(' ').skip(1).collect::<Vec<_>>().join(" ");
    for name in private.all("name") {
        let family = family(name);
        if family.chars().count() > 2 {
            assert!(!posted.contains(&family), "{family} was posted");
            assert!(!attempts.contains(&family), "{family} was posted");
        }
    }
    for id in private.all("id") {
        assert!(!posted.contains(id) && !attempts.contains(id), "{id}");
    }

    folder.apply("day.maxday", "set,,,,,posting.name=number,,,Table,");
    let posted = Sheet::read(&folder.ok("standings day.maxday --posted"));
    assert!(posted.all("name").iter().all(|n| n.is_empty()));

    // A meet shows all by its format, and hides what its day says.
    let folder = made("weightlifting");
    let posted = Sheet::read(&folder.ok("standings day.maxday --posted"));
    assert_eq!(posted.of(7, "name"), "Þóra Brimisdóttir");
    assert_eq!(posted.of(7, "bodyweight"), "56.4");
    assert_eq!(posted.of(7, "category"), "57");
    folder.apply(
        "day.maxday",
        "set,,,,,posting.bodyweight=no; posting.category=no,,,Table,",
    );
    let out = folder.ok("standings day.maxday --posted");
    let posted = Sheet::read(&out);
    assert_eq!(posted.of(7, "name"), "Þóra Brimisdóttir");
    for column in ["bodyweight", "category"] {
        assert!(posted.all(column).iter().all(|c| c.is_empty()), "{column}");
    }
    assert!(!out.contains("F 57") && !out.contains("56.4"), "{out}");
}

/// Papers and their tables, for a spreadsheet and a printer.
#[test]
fn papers_are_pdfs_with_their_tables() {
    for name in SAMPLES {
        let folder = made(name);
        let _ = folder.ok("papers day.maxday --out papers");
        let names = bin::names(&folder.file("papers"));
        let of = |end: &str| -> Vec<&String> {
            names.iter().filter(|n| n.ends_with(end)).collect()
        };
        assert!(!of(".pdf").is_empty(), "{name}: {names:?}");
        assert!(!of(".csv").is_empty(), "{name}: {names:?}");
        for file in &names {
            assert!(
                file.bytes()
                    .all(|b| b.is_ascii_alphanumeric() || b"-_. ".contains(&b)),
                "{file} is no name everywhere"
            );
        }
        for file in of(".pdf") {
            let bytes = std::fs::read(folder.file("papers").join(file)).unwrap();
            assert!(bytes.starts_with(b"%PDF-"), "{name}: {file}");
            let end = &bytes[bytes.len().saturating_sub(16)..];
            assert!(String::from_utf8_lossy(end).contains("%%EOF"), "{file}");
        }
        for file in of(".csv") {
            let bytes = std::fs::read(folder.file("papers").join(file)).unwrap();
            assert!(bytes.starts_with(b"\xEF\xBB\xBF"), "{name}: {file}");
            let text = String::from_utf8(bytes).unwrap();
            assert!(text.ends_with("\r\n"), "{name}: {file}");
            let bare = text.replace("\r\n", "");
            assert!(!bare.contains('\r'), "{name}: {file}");
            let stem = file.trim_end_matches(".csv");
            let has_paper = of(".pdf")
                .iter()
                .any(|pdf| stem.starts_with(pdf.trim_end_matches(".pdf")));
            assert!(has_paper, "{name}: {file} has no paper");
        }
        // The quick guide alone has no table.
        for file in of(".pdf").into_iter().filter(|f| *f != "quick-guide.pdf") {
            let stem = file.trim_end_matches(".pdf");
            let has_table = of(".csv").iter().any(|csv| csv.starts_with(stem));
            assert!(has_table, "{name}: {file} has no table");
        }
    }
}

#[test]
fn papers_that_cannot_be_made_are_refused() {
    let folder = made("weightlifting");
    let names = folder.names();
    for (options, parts) in [
        (
            "--out papers --only frob",
            ["frob", "results", "start-list"],
        ),
        ("--out papers --size a5", ["a5", "letter", "a4"]),
        ("--out roster.csv", ["roster.csv", "", ""]),
        ("", ["--out", "", ""]),
    ] {
        bin::has(&folder.no(&format!("papers day.maxday {options}")), &parts);
        assert_eq!(names, folder.names(), "{options}");
    }
    let _ = folder.ok("papers day.maxday --out some --only results");
    let made = bin::names(&folder.file("some"));
    assert!(made.iter().all(|n| n.starts_with("results")), "{made:?}");
    assert!(made.contains(&"results.pdf".to_owned()), "{made:?}");
}

#[test]
fn posted_papers_hide_what_the_policy_hides() {
    let folder = made("max-day");
    let _ = folder.ok("papers day.maxday --out posted --posted --size a4");
    let folder_of = folder.file("posted");
    for file in bin::names(&folder_of) {
        let bytes = std::fs::read(folder_of.join(&file)).unwrap();
        let text = String::from_utf8_lossy(&bytes);
        for hidden in ["Copperleigh", "197.8", "446496"] {
            assert!(!text.contains(hidden), "{hidden} stands in {file}");
        }
    }
}
