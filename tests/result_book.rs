//! The papers of a large day: sound as files, with small fonts, in little time.
//!
//! The time is measured by hand, since no test asserts one:
//!
//! ```text
//! cargo test --release --locked --test result_book -- --ignored --nocapture
//! ```

// A test may panic, and this one measures.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::disallowed_methods)]

mod bin;
mod pdf;

use std::fmt::Write;
use std::io::{ErrorKind, Write as _};
use std::process::Command;
use std::time::{Duration, Instant};

use bin::{ACTS, Folder, names};
use pdf::Pdf;

/// Every attempt of a meet of so many athletes, ten to a flight, tallied.
fn meet(folder: &Folder, athletes: u32) {
    let mut roster = "lot,given,family,sex,born,grade,team,division,session,flight,\
                      bodyweight,snatch,clean-and-jerk\n"
        .to_owned();
    let mut acts = format!("{ACTS}\n");
    for lot in 1..=athletes {
        let flight = (lot - 1) / 10;
        let letter = char::from(b'A' + u8::try_from(flight % 10).unwrap());
        let (snatch, jerk) = (40 + lot * 7 % 61, 55 + lot * 11 % 73);
        writeln!(
            roster,
            "{lot},Given{lot},Family-Of-{lot},{},{}-05-{:02},{},Team {},{},{},{letter},\
             {}.{},{snatch},{jerk}",
            if lot % 3 == 0 { "M" } else { "F" },
            2008 + lot % 4,
            lot % 28 + 1,
            9 + lot % 4,
            lot % 9,
            if lot % 2 == 0 { "novice" } else { "varsity" },
            flight / 10 + 1,
            48 + lot % 60,
            lot % 10,
        )
        .unwrap();
        for (slot, opener) in [("snatch", snatch), ("clean-and-jerk", jerk)] {
            for n in 0..3 {
                let word = if (lot + n) % 4 == 0 { "no" } else { "good" };
                writeln!(acts, "tally,{lot},{slot},,{},{word},,,,", opener + 2 * n)
                    .unwrap();
            }
        }
    }
    let _ = folder.ok("new d.maxday --format weightlifting --date 2026-11-21 --seed 3");
    folder.write("r.csv", roster);
    let _ = folder.ok("roster d.maxday r.csv");
    folder.write("a.csv", acts);
    let _ = folder.ok("apply d.maxday a.csv");
}

/// The shortest of some runs: what else the machine does only adds to it.
fn shortest(folder: &Folder, line: &str) -> Duration {
    let run = || {
        let begun = Instant::now();
        let _ = folder.ok(line);
        begun.elapsed()
    };
    (0..9).map(|_| run()).min().unwrap()
}

fn pages(bytes: &[u8]) -> usize {
    let pdf = Pdf::read(bytes);
    let plain = String::from_utf8_lossy(&pdf.plain).into_owned();
    plain.matches("/Type/Page/").count() + plain.matches("/Type/Page>").count()
}

#[test]
#[ignore = "measures; see the head of this file"]
fn the_result_book_of_five_hundred_takes_so_long() {
    let folder = Folder::new();
    meet(&folder, 500);
    let papers = |out: &str, only: &str| {
        format!("papers d.maxday --out {out} --only {only} --posted")
    };
    let start = shortest(&folder, "lifts");
    let opened = shortest(&folder, "records d.maxday");
    println!("the program's start: {start:?}; with the day opened: {opened:?}");
    let mut wanted: Vec<(&str, &str)> = maxday::papers::documents::NAMES
        .iter()
        .map(|n| (*n, ""))
        .collect();
    wanted.push(("results,team-result,leader-tables", "the result book: "));
    for (only, what) in wanted {
        let line = papers("out", only);
        let line = if folder.run(&line).code == Some(0) {
            line
        } else {
            line.replace(" --posted", "")
        };
        let took = shortest(&folder, &line);
        let (mut size, mut count) = (0, 0);
        for name in only.split(',') {
            let bytes = std::fs::read(folder.file("out").join(format!("{name}.pdf")));
            let bytes = bytes.unwrap();
            count += pages(&bytes);
            size += bytes.len();
        }
        println!(
            "{what}{only}: {:?} on top of the start, {:?} on top of the opened day, \
             {count} pages of {} bytes",
            took.saturating_sub(start),
            took.saturating_sub(opened),
            size / count.max(1)
        );
    }
}

/// Every paper of the samples and of a large day, in both sizes.
fn all_papers(mut each: impl FnMut(&str, &std::path::Path, &[u8])) {
    for meet_name in ["max-day", "weightlifting", "powerlifting", "large"] {
        let folder = Folder::new();
        if meet_name == "large" {
            meet(&folder, 40);
        } else {
            let from = format!("{}/sample-meets/{meet_name}", env!("CARGO_MANIFEST_DIR"));
            let new = std::fs::read_to_string(format!("{from}/new.txt")).unwrap();
            let new = new.trim().replace('\'', "\"");
            let _ = folder.ok(&format!("new d.maxday {new}"));
            let _ = folder.ok(&format!("roster d.maxday \"{from}/roster.csv\""));
            let _ = folder.ok(&format!("apply d.maxday \"{from}/acts.csv\""));
        }
        folder.write("p.png", include_bytes!("pictures/first-light.png"));
        let _ = folder.ok("school d.maxday --name \"Old Mill\" --picture p.png");
        for size in ["letter", "a4"] {
            let _ = folder.ok(&format!("papers d.maxday --out {size} --size {size}"));
            let out = folder.file(size);
            for name in names(&out).iter().filter(|n| n.ends_with(".pdf")) {
                let path = out.join(name);
                let bytes = std::fs::read(&path).unwrap();
                each(&format!("{meet_name} {size} {name}"), &path, &bytes);
            }
        }
    }
}

#[test]
fn every_paper_is_a_sound_file_with_small_fonts() {
    let mut checked = 0;
    let mut without_qpdf = false;
    all_papers(|name, path, bytes| {
        let (fonts, largest) = Pdf::read(bytes).fonts();
        assert!(!fonts.is_empty(), "{name} has no font");
        for font in &fonts {
            // Six capitals and a plus mark a subset (ISO 32000-1, 9.6.4).
            let (tag, rest) = font.split_once('+').unwrap_or(("", font));
            let tagged = tag.len() == 6 && tag.bytes().all(|b| b.is_ascii_uppercase());
            assert!(tagged && rest.starts_with("NotoSans"), "{name}: {font}");
        }
        // Each whole face has half a megabyte.
        assert!((1..60_000).contains(&largest), "{name}: {largest}");
        match Command::new("qpdf").arg("--check").arg(path).output() {
            Ok(ran) => {
                let said = String::from_utf8_lossy(&ran.stdout).into_owned();
                let said = said + &String::from_utf8_lossy(&ran.stderr);
                assert!(ran.status.success(), "{name}: {said}");
                assert!(!said.contains("WARNING"), "{name}: {said}");
                checked += 1;
            }
            Err(error) if error.kind() == ErrorKind::NotFound => without_qpdf = true,
            Err(error) => panic!("qpdf: {error}"),
        }
    });
    if without_qpdf {
        // Past the test's own capture, so that it is always seen.
        let said = "\nqpdf isn't there: no file was checked by it, only its fonts here\n";
        std::io::stderr().write_all(said.as_bytes()).unwrap();
    } else {
        assert!(checked > 100, "{checked} files");
    }
}
