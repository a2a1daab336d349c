//! Workbooks and JSON, in and out, through the program.
//!
//! `tests/spreadsheets/roster.fods` is a roster typed as a spreadsheet holds it:
//! numbers, dates, a truth value, formulas, merged cells, a number format that fills
//! up with zeros. LibreOffice Calc 7.4 made the other two files from it:
//!
//! ```text
//! soffice --headless --convert-to xlsx roster.fods
//! soffice --headless --convert-to 'csv:Text - txt - csv (StarCalc):44,34,76' roster.fods
//! ```

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;

use std::io::{Cursor, Read, Write};

use bin::Folder;
use calamine::{Data, Reader, Xlsx};
use serde_json::Value;

const XLSX: &[u8] = include_bytes!("spreadsheets/roster.xlsx");
const CSV: &[u8] = include_bytes!("spreadsheets/roster.csv");

const NEW: &str = "--format weightlifting --seed 3 --date 2026-11-17 --name Day";

/// Names and parts of a packed file, unpacked.
fn parts(bytes: &[u8]) -> Vec<(String, Vec<u8>)> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    (0..archive.len())
        .map(|at| {
            let mut part = archive.by_index(at).unwrap();
            let mut bytes = Vec::new();
            let _ = part.read_to_end(&mut bytes).unwrap();
            (part.name().unwrap().to_string(), bytes)
        })
        .collect()
}

/// The parts, packed again.
fn packed(parts: &[(String, Vec<u8>)]) -> Vec<u8> {
    let mut writer = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        let options = zip::write::SimpleFileOptions::default();
        writer.start_file(name.as_str(), options).unwrap();
        writer.write_all(bytes).unwrap();
    }
    writer.finish().unwrap().into_inner()
}

/// The sheet of the roster with one text of its XML replaced.
fn changed(from: &str, to: &str) -> Vec<u8> {
    let mut parts = parts(XLSX);
    let sheet = parts
        .iter_mut()
        .find(|(name, _)| name == "xl/worksheets/sheet1.xml")
        .unwrap();
    let text = String::from_utf8(sheet.1.clone()).unwrap();
    assert!(text.contains(from), "{text}");
    sheet.1 = text.replacen(from, to, 1).into_bytes();
    packed(&parts)
}

/// A sheet's cells.
fn cells(bytes: &[u8], sheet: &str) -> Vec<Vec<Data>> {
    let mut book = Xlsx::new(Cursor::new(bytes)).unwrap();
    let range = book.worksheet_range(sheet).unwrap();
    range.rows().map(<[Data]>::to_vec).collect()
}

fn sample(folder: &Folder, meet: &str) {
    let from = format!("{}/sample-meets/{meet}", env!("CARGO_MANIFEST_DIR"));
    let new = std::fs::read_to_string(format!("{from}/new.txt")).unwrap();
    let _ = folder.ok(&format!("new d.maxday {}", new.trim().replace('\'', "\"")));
    let _ = folder.ok(&format!("roster d.maxday \"{from}/roster.csv\""));
    let _ = folder.ok(&format!("apply d.maxday \"{from}/acts.csv\""));
}

#[test]
fn a_roster_saved_as_xlsx_and_as_csv_is_the_same() {
    let folder = Folder::new();
    folder.write("r.xlsx", XLSX);
    folder.write("r.csv", CSV);
    let mut told = Vec::new();
    for kind in ["xlsx", "csv"] {
        let _ = folder.ok(&format!("new {kind}.maxday {NEW}"));
        let report = folder.ok(&format!("roster {kind}.maxday r.{kind}"));
        told.push((report, folder.ok(&format!("standings {kind}.maxday"))));
        folder.sound(&format!("{kind}.maxday"));
    }
    assert_eq!(told[0], told[1]);
    assert!(told[0].0.starts_with("4 entered"), "{}", told[0].0);
    let rows = &told[0].1;
    for part in [
        "00417,Iva Marek-Öst,F",
        ",71.4,",
        "00098,Wren Tolland",
        ",63.1,",
    ] {
        assert!(rows.contains(part), "{part}: {rows}");
    }
}

#[test]
fn faults_of_a_workbook_are_named_by_row_and_column() {
    let folder = Folder::new();
    let _ = folder.ok(&format!("new d.maxday {NEW}"));
    let empty = folder.ok("acts d.maxday");
    for (from, to, fault) in [
        ("<v>61.2</v>", "<v>612</v>", "row 2, column Bodyweight: "),
        ("<v>2010</v>", "<v>1.5</v>", "row 3, column DOB: "),
    ] {
        folder.write("r.xlsx", changed(from, to));
        let ran = folder.run("roster d.maxday r.xlsx");
        assert_ne!(ran.code, Some(0));
        assert!(ran.err.starts_with(fault), "{}", ran.err);
        assert!(ran.err.contains("1 fault in the roster."), "{}", ran.err);
        assert_eq!(folder.ok("acts d.maxday"), empty);
    }
}

#[test]
fn a_workbook_that_is_none_is_one_sentence() {
    let folder = Folder::new();
    let _ = folder.ok(&format!("new d.maxday {NEW}"));
    let locked: Vec<u8> = [0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1]
        .into_iter()
        .chain("EncryptedPackage".bytes().flat_map(|b| [b, 0]))
        .collect();
    let bomb = packed(&[
        ("[Content_Types].xml".to_owned(), Vec::new()),
        ("xl/sharedStrings.xml".to_owned(), vec![b' '; 120_000_000]),
    ]);
    assert!(bomb.len() < 1_000_000);
    for (bytes, part) in [
        (locked, "protected by a password"),
        (b"\xD0\xCF\x11\xE0".to_vec(), "old form (.xls)"),
        (XLSX[..XLSX.len() / 2].to_vec(), "damaged"),
        (changed("<sheetData>", "<sheetDat"), "damaged"),
        (bomb, "too large"),
        (
            packed(&[("mimetype".to_owned(), Vec::new())]),
            "no .xlsx workbook",
        ),
    ] {
        folder.write("r.xlsx", bytes);
        let ran = folder.run("roster d.maxday r.xlsx");
        assert_ne!(ran.code, Some(0), "{part}");
        assert!(ran.err.contains(part), "{part}: {}", ran.err);
        assert_eq!(ran.err.lines().count(), 2, "{}", ran.err);
    }
    folder.sound("d.maxday");
}

/// Every cell of a workbook says what the CSV of the same table says, and what is a
/// number there is one here.
#[test]
fn a_workbook_has_the_cells_of_the_csv_as_numbers() {
    for meet in ["max-day", "weightlifting", "powerlifting"] {
        let folder = Folder::new();
        sample(&folder, meet);
        for posted in ["", " --posted"] {
            let _ = folder.ok(&format!("export d.maxday --out o.xlsx{posted}"));
            let bytes = folder.bytes("o.xlsx");
            for (sheet, verb) in [("Results", "standings"), ("Attempts", "attempts")] {
                let csv = folder.ok(&format!("{verb} d.maxday{posted}"));
                let mut reader = csv::ReaderBuilder::new()
                    .has_headers(false)
                    .from_reader(csv.as_bytes());
                let rows: Vec<csv::StringRecord> =
                    reader.records().map(Result::unwrap).collect();
                let cells = cells(&bytes, sheet);
                assert_eq!(rows.len(), cells.len());
                let header = &rows[0];
                for (row, own) in rows.iter().zip(&cells) {
                    for (at, text) in row.iter().enumerate() {
                        let place = format!("{meet} {sheet} {}: {text}", &header[at]);
                        let texts = ["id", "name", "category", "flight", "group"];
                        match own.get(at).unwrap_or(&Data::Empty) {
                            Data::Empty => assert_eq!(text, "", "{place}"),
                            Data::Float(n) => {
                                assert_eq!(Ok(*n), text.parse(), "{place}");
                            }
                            Data::String(own) => {
                                assert_eq!(own, text, "{place}");
                                assert!(
                                    texts.contains(&&header[at])
                                        || text.parse::<f64>().is_err(),
                                    "a number as text: {place}"
                                );
                            }
                            other => panic!("{place}: {other:?}"),
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn nothing_hidden_is_in_what_is_posted() {
    let folder = Folder::new();
    let _ = folder.ok(&format!("new d.maxday {NEW} --lifts snatch"));
    let _ = folder.roster(
        "d.maxday",
        "lot,id,given,family,sex,born,bodyweight,clearance,team,division,flight,snatch\n\
         1,QX77,Zelmira,Quorthal,F,2009-05-06,61.37,yes,Reds,novice,A,40\n\
         2,QX78,Yorwick,=Vantross(1),M,2008-07-08,73.19,up to 41.5,Blues,novice,A,50\n",
    );
    folder.apply(
        "d.maxday",
        "set,,,,,posting.name=number; posting.bodyweight=no; posting.category=no,,,,\n\
         note,1,,,,Quorthal was late,,,,\n\
         tally,1,snatch,1,40,good,,,,\n\
         tally,2,snatch,1,50,no,,,,",
    );
    let hidden = [
        "Quorthal", "Vantross", "Zelmira", "Yorwick", "QX77", "61.37", "73.19", "41.5",
        "2009-05", "2008-07",
    ];
    let shown = |bytes: &[u8]| {
        let text = String::from_utf8_lossy(bytes).into_owned();
        hidden.into_iter().filter(move |word| text.contains(word))
    };
    for posted in ["", " --posted"] {
        for kind in ["xlsx", "json"] {
            let _ = folder.ok(&format!("export d.maxday --out o.{kind}{posted}"));
            let bytes = folder.bytes(&format!("o.{kind}"));
            let all: Vec<u8> = match kind {
                "xlsx" => parts(&bytes)
                    .into_iter()
                    .flat_map(|(name, bytes)| [name.into_bytes(), bytes].concat())
                    .collect(),
                _ => bytes.clone(),
            };
            let found: Vec<&str> = shown(&all).collect();
            if posted.is_empty() {
                // The search finds what is there.
                assert!(found.contains(&"Quorthal"), "{kind}: {found:?}");
                assert!(found.contains(&"61.37"), "{kind}: {found:?}");
            } else {
                assert!(found.is_empty(), "{kind}: {found:?}");
            }
            let word = if posted.is_empty() {
                "private"
            } else {
                "for posting"
            };
            assert!(String::from_utf8_lossy(&all).contains(word), "{kind}");
        }
    }
    // What begins like a formula is a text, and no cell is a formula.
    let _ = folder.ok("export d.maxday --out o.xlsx");
    let bytes = folder.bytes("o.xlsx");
    let names: Vec<Data> = cells(&bytes, "Results")
        .iter()
        .map(|r| r[4].clone())
        .collect();
    assert!(names.contains(&Data::String("Yorwick =Vantross(1)".to_owned())));
    for (name, part) in parts(&bytes) {
        assert!(!String::from_utf8_lossy(&part).contains("<f>"), "{name}");
    }
}

#[test]
fn the_day_as_json_has_its_version_and_exact_masses() {
    let folder = Folder::new();
    sample(&folder, "max-day");
    let _ = folder.ok("export d.maxday --out o.json");
    let day: Value = serde_json::from_slice(&folder.bytes("o.json")).unwrap();
    assert_eq!(day["version"], 1);
    assert_eq!(day["audience"], "private");
    let unit = day["day"]["bar_unit"].as_str().unwrap();
    let attempts = day["attempts"].as_array().unwrap();
    let rows = folder.ok("attempts d.maxday").lines().count() - 1;
    assert_eq!(attempts.len(), rows);
    let load = &attempts[0][format!("loaded_{unit}")];
    assert!(load.as_str().unwrap().parse::<f64>().unwrap() > 0.0);
    assert_eq!(
        day["athletes"].as_array().unwrap().len(),
        day["results"].as_array().unwrap().len()
    );
}

#[test]
fn another_kind_of_file_is_refused_and_nothing_written() {
    let folder = Folder::new();
    let _ = folder.ok(&format!("new d.maxday {NEW}"));
    let why = folder.no("export d.maxday --out o.ods");
    assert!(why.contains("it may end in .xlsx or .json"), "{why}");
    let _ = folder.no("export nowhere.maxday --out o.xlsx");
    assert_eq!(folder.names(), ["d.maxday"]);
}
