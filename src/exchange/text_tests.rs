//! Tests of this room.

use super::*;

fn read(text: &str) -> Sheet {
    sheet(text).unwrap()
}

fn cells(sheet: &Sheet) -> Vec<Vec<&str>> {
    sheet
        .rows
        .iter()
        .map(|r| r.cells.iter().map(String::as_str).collect())
        .collect()
}

#[test]
fn encodings_are_told_apart() {
    for bytes in [
        "Zoë".as_bytes().to_vec(),
        b"\xEF\xBB\xBFZo\xC3\xAB".to_vec(),
        b"Zo\xEB".to_vec(),
        b"\xFF\xFEZ\0o\0\xEB\0".to_vec(),
        b"\xFE\xFF\0Z\0o\0\xEB".to_vec(),
    ] {
        assert_eq!(decode(&bytes).unwrap(), "Zoë", "{bytes:?}");
    }
    // 0x92 is the curly apostrophe in Windows-1252 (WHATWG Encoding Standard).
    assert_eq!(decode(b"O\x92Dell").unwrap(), "O’Dell");
}

#[test]
fn what_is_no_text_is_refused() {
    let why = |bytes: &[u8]| decode(bytes).unwrap_err().to_string();
    assert!(why(b"").starts_with("The file is empty"));
    assert!(why(b"\xEF\xBB\xBF \r\n").starts_with("The file is empty"));
    assert!(why(b"PK\x03\x04rest").contains("save it as CSV first."));
    assert!(why(b"\xD0\xCF\x11\xE0rest").contains("save it as CSV first."));
    assert!(why(b"name\nAnn\0\n").starts_with("row 2: A NUL byte"));
    assert!(why(b"\xFF\xFEa\0b").contains("damaged"));
    assert!(decode(b"PK,name\n").is_ok());
}

#[test]
fn separators_are_found_outside_quotes() {
    assert_eq!(read("a,b\n1,2").delimiter, ',');
    assert_eq!(read("a;\"b,c,d\"\n1;2").delimiter, ';');
    assert_eq!(read("a\tb\n1\t2").delimiter, '\t');
    assert_eq!(read("a\n1").delimiter, ',');
    assert_eq!(read("sep=;\na;b\n1;2").delimiter, ';');
    let multi = read("\"Last\nName\";First\nLee;Ann\n");
    assert_eq!((multi.delimiter, multi.rows[0].line), (';', 3));
    assert_eq!(multi.header.cells, ["Last\nName", "First"]);
}

#[test]
fn quotes_hold_separators_quotes_and_line_breaks() {
    let sheet = read("a,b\r\n\"x, \"\"y\"\"\r\nz\", \"w\" \r\n\r\n1,2\r\n");
    assert_eq!(cells(&sheet), [["x, \"y\"\nz", "w"], ["1", "2"]]);
    let places: Vec<_> = sheet.rows.iter().map(Row::place).collect();
    assert_eq!(places, [(2, 2), (4, 5)]);
    assert!(sheet.faults.is_empty());
}

#[test]
fn an_old_line_end_is_one_too() {
    assert_eq!(cells(&read("a,b\r1,2\r3,4")), [["1", "2"], ["3", "4"]]);
}

#[test]
fn quotes_that_are_wrong_are_named() {
    let open = read("a,b\n1,2\n3,\"4\n5,6\n");
    assert_eq!(cells(&open), [["1", "2"]]);
    let why = open.faults[0].to_string();
    assert!(why.starts_with("row 3: A quote opens in this row"), "{why}");
    let open = read("a,b\n\"1\n1\",\"4\n5,6\n");
    let why = open.faults[0].to_string();
    assert!(why.starts_with("row 2: A quote opens on line 3"), "{why}");
    let behind = read("a,b\n\"1\"x,2\n3,4\n");
    let why = behind.faults[0].to_string();
    assert!(why.starts_with("row 2: Text stands behind"), "{why}");
    assert_eq!(cells(&behind), [["3", "4"]]);
    assert!(
        sheet("\"a,b\n1,2\n")
            .unwrap_err()
            .to_string()
            .contains("never closed")
    );
    assert_eq!(cells(&read("a\n5'10\"\n")), [["5'10\""]]);
}

#[test]
fn ragged_rows_are_named_and_blank_ones_skipped() {
    let sheet = read("a,b,,\n1,2\n,,\n\n3,4,,,\n5\n6,7,8\n9,\n");
    assert_eq!(cells(&sheet), [["1", "2"], ["3", "4"], ["9", ""]]);
    let faults: Vec<String> = sheet.faults.iter().map(Fault::to_string).collect();
    assert_eq!(
        faults,
        [
            "row 6: This row has 1 cell, the header 2 cells; write a separator for every \
             cell, also for a blank one.",
            "row 7: This row has 3 cells, the header 2 cells; quote a cell that has the \
             separator in it.",
        ]
    );
}
