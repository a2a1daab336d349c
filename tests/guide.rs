//! The tables of the contributor's guide are made from the program's own.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use maxday::desk::action::{ACTIONS, Place};
use maxday::desk::call_line::SHORTHAND;
use maxday::desk::screen::journal;
use maxday::measure::Unit;
use maxday::rules::{category_sets, formats, key_groups, keys, own_format};

fn key_table() -> String {
    let mut table = String::from("| key | what it does | where |\n|---|---|---|\n");
    for row in ACTIONS {
        let key = match row.key {
            Some(chord) => format!("`{chord}`"),
            None => format!("none: {}", row.no_key),
        };
        let place = match row.place {
            Place::Everywhere => "everywhere".to_owned(),
            Place::First => "on the first screen".to_owned(),
            Place::WithDay => "wherever a day is open".to_owned(),
            Place::Platform => "with a platform in hand".to_owned(),
            Place::On(screen) => format!("{screen:?}"),
        };
        writeln!(table, "| {key} | {} | {place} |", row.label).unwrap();
    }
    table
}

fn shorthand_table(shorthand: &[(&str, &str)]) -> String {
    let mut table = String::from("| typed | meaning |\n|---|---|\n");
    for (typed, meaning) in shorthand {
        writeln!(table, "| `{typed}` | {meaning} |").unwrap();
    }
    table
}

/// A text as a cell of a table.
fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

/// What both units say, or what each of them says.
fn both(kg: &str, lb: &str, between: &str) -> String {
    if kg == lb {
        cell(kg)
    } else {
        cell(&format!("{kg}{between}{lb}"))
    }
}

fn rules_table() -> String {
    let mut table = String::new();
    for (group, keys) in key_groups() {
        write!(table, "\n{group}:\n\n| key |").unwrap();
        for format in formats() {
            write!(table, " {} |", format.name).unwrap();
        }
        table.push_str(" allowed | meaning |\n|---|---|---|");
        table.push_str(&"---|".repeat(formats().len()));
        table.push('\n');
        for key in keys {
            write!(table, "| `{}` |", key.name).unwrap();
            for format in formats() {
                let word = |unit| format.rules(unit).unwrap().words()[key.name].clone();
                let value = both(&word(Unit::Kg), &word(Unit::Lb), " / ");
                write!(table, " {value} |").unwrap();
            }
            writeln!(table, " {} | {} |", cell(key.allowed), cell(key.meaning)).unwrap();
        }
    }
    table.push('\n');
    table
}

fn sources_table() -> String {
    let mut table =
        String::from("| key | format | value | source |\n|---|---|---|---|\n");
    for key in keys() {
        for format in formats() {
            let word = |unit| format.rules(unit).unwrap().words()[key.name].clone();
            let source = |unit| format.source(key.name, unit);
            writeln!(
                table,
                "| `{}` | {} | {} | {} |",
                key.name,
                format.name,
                both(&word(Unit::Kg), &word(Unit::Lb), " / "),
                both(source(Unit::Kg), source(Unit::Lb), " / "),
            )
            .unwrap();
        }
    }
    table
}

/// A school's own rules, as the guide shows them.
const OWN_RULES: &str = r#"# Our winter meet: squat, bench press and deadlift in pounds.
base = "powerlifting"
format = "winter-meet"
title = "Winter meet"
lifts = "back-squat, bench-press, deadlift"

attempts = 2
posting-bodyweight = false
ties-total = "bodyweight shared"
categories = "F 105 114 123 +123; M 132 148 165 +165 lb"

[clock]
value = 90
source = "our loaders are new"
"#;

/// Mistakes in a rules file that starts `base = "powerlifting"`.
const MISTAKES: [&str; 14] = [
    "attemps = 4",
    "shoes = \"red\"",
    "attempts = 12",
    "judges = [1, 3]",
    "step = 2.5",
    "queue = \"law",
    "clock = 60\nclock = 90",
    "categories = \"F 57 47 +47\"",
    "record-step = \"2.5 kg\"",
    "order = \"load number\"",
    "order = \"attempt rest\"",
    "bar = \"free\"",
    "final-call = 60",
    "ties-total = \"shared bodyweight\"",
];

fn own_rules() -> String {
    let _ = own_format(OWN_RULES, Unit::Lb).unwrap();
    format!("```toml\n{OWN_RULES}```\n")
}

fn mistakes_table() -> String {
    let mut table = String::from("| written | what is said |\n|---|---|\n");
    for mistake in MISTAKES {
        let file = format!("base = \"powerlifting\"\n{mistake}\n");
        let said = own_format(&file, Unit::Kg).unwrap_err();
        let written = mistake.replace('\n', "`, `");
        writeln!(table, "| `{written}` | {} |", cell(&said.to_string())).unwrap();
    }
    table
}

fn sets_table() -> String {
    let mut table = String::from(
        "| name | holds | lists | title | source |\n|---|---|---|---|---|\n",
    );
    for set in category_sets() {
        let holds = [("from", set.from), ("to", set.until)]
            .into_iter()
            .filter_map(|(word, day)| Some(format!("{word} {}", day?)))
            .collect::<Vec<_>>();
        let mut lists: Vec<&str> = set.groups.iter().map(|g| g.ages.as_str()).collect();
        lists.sort_unstable();
        lists.dedup();
        writeln!(
            table,
            "| `{}` | {} | {} | {} | {} |",
            set.name,
            holds.join(" "),
            lists.join(", "),
            cell(&set.title),
            cell(&set.source),
        )
        .unwrap();
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
        ("call line", shorthand_table(SHORTHAND)),
        ("journal line", shorthand_table(journal::SHORTHAND)),
        ("rules", rules_table()),
        ("sources", sources_table()),
        ("own rules", own_rules()),
        ("mistakes", mistakes_table()),
        ("sets", sets_table()),
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
