//! The tables of the contributor's guide are made from the program's own.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use maxday::desk::action::{ACTIONS, Place};
use maxday::desk::call_line::SHORTHAND;
use maxday::measure::Unit;
use maxday::rules::{formats, keys};

fn key_table() -> String {
    let mut table = String::from("| key | what it does | where |\n|---|---|---|\n");
    for row in ACTIONS {
        let key = match row.key {
            Some(chord) => format!("`{chord}`"),
            None => format!("none: {}", row.no_key),
        };
        let place = match row.place {
            Place::Everywhere => "everywhere".to_owned(),
            Place::WithDay => "wherever a day is open".to_owned(),
            Place::Platform => "with a platform in hand".to_owned(),
            Place::On(screen) => format!("{screen:?}"),
        };
        writeln!(table, "| {key} | {} | {place} |", row.label).unwrap();
    }
    table
}

fn shorthand_table() -> String {
    let mut table = String::from("| typed | meaning |\n|---|---|\n");
    for (typed, meaning) in SHORTHAND {
        writeln!(table, "| `{typed}` | {meaning} |").unwrap();
    }
    table
}

fn rules_table() -> String {
    let mut table = String::from("| key |");
    for format in formats() {
        write!(table, " {} |", format.name).unwrap();
    }
    table.push_str(" allowed | meaning |\n|---|---|---|");
    table.push_str(&"---|".repeat(formats().len()));
    table.push('\n');
    for key in keys() {
        write!(table, "| `{}` |", key.name).unwrap();
        for format in formats() {
            let word = |unit| format.rules(unit).unwrap().words()[key.name].clone();
            let (kg, lb) = (word(Unit::Kg), word(Unit::Lb));
            if kg == lb {
                write!(table, " {kg} |").unwrap();
            } else {
                write!(table, " {kg} / {lb} |").unwrap();
            }
        }
        writeln!(table, " {} | {} |", key.allowed, key.meaning).unwrap();
    }
    table
}

#[test]
fn the_guides_tables_are_the_programs_own() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("DEVELOPERS.md");
    let guide = fs::read_to_string(&path).unwrap();
    let mut made = guide.clone();
    for (name, table) in [
        ("keys", key_table()),
        ("call line", shorthand_table()),
        ("rules", rules_table()),
    ] {
        let (open, close) = (format!("<!-- {name} -->\n"), format!("<!-- /{name} -->"));
        let from = made.find(&open).expect("the guide lacks a table's mark") + open.len();
        let to = made.find(&close).expect("the guide lacks a table's end");
        made.replace_range(from..to, &table);
    }
    if std::env::var_os("MAXDAY_WRITE_GUIDE").is_some() {
        fs::write(&path, &made).unwrap();
    } else {
        assert_eq!(
            guide, made,
            "run MAXDAY_WRITE_GUIDE=1 cargo test --test guide"
        );
    }
}
