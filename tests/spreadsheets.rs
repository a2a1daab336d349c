//! Files for a spreadsheet: no text in them is run as a formula, numbers stay
//! numbers, and a roster that went through one comes back as it was.

// Helpers stand outside of a test's own functions.
#![allow(clippy::unwrap_used, clippy::expect_used, dead_code)]

mod bin;

use bin::{Folder, Sheet, names};

/// Names, teams and notes that a spreadsheet would run (OWASP, CSV Injection, names
/// the signs), and some that it wouldn't.
const TEXTS: [&str; 8] = [
    "=1+1",
    "@SUM(A1:A9)",
    "+2-1",
    "-2+3",
    "=HYPERLINK(\"\"x\"\")",
    "'=quoted",
    "O'Dell",
    "-5",
];

fn day(folder: &Folder) {
    let _ = folder
        .ok("new day.maxday --format max-day --unit kg --lifts back-squat,bench-press");
    let mut roster =
        "lot,given,family,sex,team,grade,flight,back squat,bench press\n".to_owned();
    for (lot, text) in (1..).zip(TEXTS) {
        // The quote of a quoted text is taken for the spreadsheet's, so it is doubled.
        let text = if text.starts_with('\'') {
            format!("'{text}")
        } else {
            text.to_owned()
        };
        roster.push_str(&format!(
            "{lot},\"{text}\",\"{text}\",F,\"{text}\",\"{text}\",A,60,-\n"
        ));
    }
    let _ = folder.roster("day.maxday", &roster);
    let acts = "tally,1,back-squat,,60,good\n\
                withdraw,2,,,,=HYPERLINK(1)\nnote,1,,,,@note\n";
    folder.apply("day.maxday", acts);
}

fn rows(folder: &Folder, name: &str) -> Vec<Vec<String>> {
    let bytes = folder.bytes(name);
    let text = String::from_utf8(bytes).unwrap();
    let text = text.strip_prefix('\u{FEFF}').unwrap();
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let records = reader.records().map(Result::unwrap);
    records
        .map(|r| r.iter().map(str::to_owned).collect())
        .collect()
}

#[test]
fn no_cell_of_any_file_is_a_formula() {
    let folder = Folder::new();
    day(&folder);
    for options in ["", " --posted"] {
        let _ = folder.ok(&format!("papers day.maxday --out out{options}"));
    }
    let (mut files, mut quoted, mut numbers) = (0, 0, 0);
    for name in names(&folder.file("out")) {
        if !name.ends_with(".csv") {
            continue;
        }
        files += 1;
        for cell in rows(&folder, &format!("out/{name}")).into_iter().flatten() {
            let number = cell.parse::<f64>().is_ok();
            let risky = cell.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']);
            assert!(!risky || number, "{name}: {cell:?}");
            quoted += usize::from(cell.starts_with('\''));
            numbers += usize::from(number);
        }
    }
    assert!(
        files >= 8 && quoted > 40 && numbers > 40,
        "{files} {quoted} {numbers}"
    );
}

#[test]
fn a_list_for_a_spreadsheet_is_read_back_as_it_was() {
    let folder = Folder::new();
    day(&folder);
    let _ = folder.ok("papers day.maxday --out out --only start-list");
    let list = String::from_utf8(folder.bytes("out/start-list.csv")).unwrap();
    assert!(
        list.contains("'=1+1 =1+1") && list.contains(",'-"),
        "{list}"
    );
    let _ = folder
        .ok("new again.maxday --format max-day --unit kg --lifts back-squat,bench-press");
    let _ = folder.ok("roster again.maxday out/start-list.csv");
    let told = |day: &str| Sheet::read(&folder.ok(&format!("standings {day}")));
    let (first, again) = (told("day.maxday"), told("again.maxday"));
    for column in ["lot", "name", "team", "grade"] {
        let sorted = |sheet: &Sheet| {
            let mut all: Vec<String> =
                sheet.all(column).into_iter().map(str::to_owned).collect();
            all.sort();
            all
        };
        assert_eq!(sorted(&first), sorted(&again), "{column}");
    }
    assert!(first.all("team").contains(&"'=quoted"));
}
