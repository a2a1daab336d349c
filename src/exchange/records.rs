//! Tables of record totals by category, for points that go by them.

use super::Fault;
use super::text::{decode, sheet};
use crate::measure::Unit;
use crate::score::ClassRecords;

/// Reads a table of records: TOML where the text has a table `[[class]]`, else
/// CSV with the columns `sex`, `category`, `record` and, if need be, `unit`.
///
/// Columns stand in any order; plain numbers are in kg unless `unit` says lb. A
/// decimal comma is read where cells aren't parted by commas.
///
/// # Errors
/// The first [`Fault`], with its row and column.
pub fn read_records(bytes: &[u8]) -> Result<ClassRecords, Fault> {
    let text = decode(bytes)?;
    if text
        .lines()
        .any(|line| line.trim_start().starts_with("[[class]]"))
    {
        return ClassRecords::read(&text).map_err(|e| Fault::whole(e.to_string()));
    }
    let mut table = sheet(&text)?;
    if !table.faults.is_empty() {
        return Err(table.faults.swap_remove(0));
    }
    let column = |names: &[&str]| {
        let mut cells = table.header.cells.iter();
        cells.position(|cell| names.contains(&cell.trim().to_lowercase().as_str()))
    };
    let needed = |names: &[&str], word: &str| {
        column(names).ok_or_else(|| {
            Fault::whole(format!(
                "The table of records has no column {word}; it needs sex, category and \
                 record."
            ))
        })
    };
    let sex = needed(&["sex"], "sex")?;
    let category = needed(&["category", "class"], "category")?;
    let record = needed(&["record", "total"], "record")?;
    let unit = column(&["unit"]);
    let mut records = ClassRecords::default();
    for row in table.rows.iter().filter(|row| !row.is_blank()) {
        let cell = |at: usize| {
            let text = row.cells.get(at).map_or("", |cell| cell.trim());
            if table.delimiter == ',' {
                text.to_owned()
            } else {
                text.replace(',', ".")
            }
        };
        let fault = |at: usize, words: String| {
            let name = table.header.cells.get(at).map_or("", String::as_str);
            Fault::at(row.place(), name, words)
        };
        let own = match unit {
            Some(at) if !cell(at).is_empty() => {
                let word = cell(at);
                Unit::parse(&word).ok_or_else(|| {
                    fault(at, format!("“{word}” is no unit; write kg or lb"))
                })?
            }
            _ => Unit::Kg,
        };
        records
            .add(&cell(sex), &cell(category), &cell(record), own)
            .map_err(|e| Fault::at(row.place(), "", e.to_string()))?;
    }
    if records.is_empty() {
        return Err(Fault::whole(
            "The table of records has no row; write one for each category",
        ));
    }
    Ok(records)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Mass;
    use crate::rules::Sex;

    fn why(text: &str) -> String {
        read_records(text.as_bytes()).unwrap_err().to_string()
    }

    #[test]
    fn csv_and_toml_say_the_same() {
        let csv = read_records(b"Sex,Category,Record\nF,63,215\nF,+63,230.5\n").unwrap();
        let semicolons =
            read_records(b"record;class;sex\n215;63;f\n230,5;63+;F\n").unwrap();
        let toml = "[[class]]\nsex = \"F\"\ncategory = 63\nrecord = 215\n\
                    [[class]]\nsex = \"F\"\ncategory = \"+63\"\nrecord = 230.5\n";
        assert_eq!(csv, semicolons);
        assert_eq!(csv, read_records(toml.as_bytes()).unwrap());
        let pounds = read_records(b"sex,category,record,unit\nM,165,600,lb\n").unwrap();
        assert_eq!(
            pounds.of_category(Sex::M, "165"),
            Some(Mass::whole(600, Unit::Lb))
        );
    }

    #[test]
    fn what_is_wrong_is_named_by_row() {
        assert_eq!(
            why("sex,category\nF,63\n"),
            "The table of records has no column record; it needs sex, category and record."
        );
        assert_eq!(
            why("sex,category,record\nF,63,none\n"),
            "row 2: “none” is no record total; write a load above 0 such as 215 or 470 lb."
        );
        assert_eq!(
            why("sex,category,record,unit\nF,63,100,st\n"),
            "row 2, column unit: “st” is no unit; write kg or lb."
        );
        assert_eq!(
            why("sex,category,record\nF,63,100\nF,63 kg,110\n"),
            "row 3: F 63 stands here twice; write each category once."
        );
        assert!(why("sex,category,record\n").ends_with('.'));
        assert!(why("[[class]]\nsex = 1\n").contains("isn't in shape"));
    }
}
