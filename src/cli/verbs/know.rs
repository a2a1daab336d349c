//! `maxday lifts` and `maxday formats`

use crate::cli::{Failure, print};
use crate::exchange::tables::{Style, rows_csv};
use crate::lift::catalogue;
use crate::measure::Unit;
use crate::rules::{Format, formats as all_formats, key_groups};

pub(in crate::cli) fn lifts() -> Result<(), Failure> {
    let mut rows: Vec<Vec<String>> = vec![
        [
            "slug", "name", "family", "start", "catch", "form", "body", "spotters",
            "aliases", "faults", "cards",
        ]
        .map(str::to_owned)
        .to_vec(),
    ];
    for lift in catalogue().lifts() {
        rows.push(vec![
            lift.slug.to_string(),
            lift.name.clone(),
            lift.parts.family.to_string(),
            lift.parts.start.to_string(),
            lift.parts.catch.to_string(),
            lift.parts.form.map(|f| f.to_string()).unwrap_or_default(),
            lift.body.to_string(),
            lift.spotters.to_string(),
            lift.aliases.join("; "),
            lift.faults.join("; "),
            cards(lift),
        ]);
    }
    print_rows(&rows)
}

/// The faults by failure card: `1 red: not-deep-enough; 2 blue: ...`.
fn cards(lift: &crate::lift::Lift) -> String {
    let groups = lift.fault_groups().iter();
    let words =
        groups.filter_map(|g| Some(format!("{}: {}", g.card?, g.faults.join(", "))));
    words.collect::<Vec<_>>().join("; ")
}

/// Every rule with its value in each format and where that comes from.
pub(in crate::cli) fn formats() -> Result<(), Failure> {
    let mut header = vec!["rule".to_owned(), "group".to_owned()];
    header.extend(all_formats().iter().map(|f| f.name.clone()));
    header.extend(all_formats().iter().map(|f| format!("{} source", f.name)));
    header.extend(["allowed".to_owned(), "meaning".to_owned()]);
    let mut rows = vec![header];
    let words: Vec<_> = all_formats()
        .iter()
        .map(|f| Ok((f.rules(Unit::Kg)?.words(), f.rules(Unit::Lb)?.words())))
        .collect::<Result<_, crate::rules::FormatError>>()?;
    for (group, keys) in key_groups() {
        for key in keys {
            let mut row = vec![key.name.to_owned(), group.to_owned()];
            row.extend(words.iter().map(|(kg, lb)| {
                let (kg, lb) = (&kg[key.name], &lb[key.name]);
                if kg == lb {
                    kg.clone()
                } else {
                    format!("{kg} / {lb}")
                }
            }));
            row.extend(all_formats().iter().map(|f| source(f, key.name)));
            row.push(key.allowed.to_owned());
            row.push(key.meaning.to_owned());
            rows.push(row);
        }
    }
    print_rows(&rows)
}

/// Where a rule's value comes from; both, where it has one a unit.
fn source(format: &Format, key: &str) -> String {
    let [kg, lb] = [Unit::Kg, Unit::Lb].map(|unit| format.source(key, unit));
    if kg == lb {
        kg.to_owned()
    } else {
        format!("kg: {kg}; lb: {lb}")
    }
}

pub(super) fn print_rows(rows: &[Vec<String>]) -> Result<(), Failure> {
    let rows = rows.iter().map(|r| r.iter().map(String::as_str));
    print(&rows_csv(rows, Style::Stdout))
}
