//! `maxday lifts` and `maxday formats`

use crate::cli::{Failure, print};
use crate::exchange::tables::{Style, rows_csv};
use crate::lift::catalogue;
use crate::measure::Unit;
use crate::rules::{formats as all_formats, keys};

pub(in crate::cli) fn lifts() -> Result<(), Failure> {
    let mut rows: Vec<Vec<String>> = vec![
        [
            "slug", "name", "family", "start", "catch", "form", "body", "spotters",
            "aliases", "faults",
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
        ]);
    }
    print_rows(&rows)
}

pub(in crate::cli) fn formats() -> Result<(), Failure> {
    let mut header = vec!["rule".to_owned()];
    header.extend(all_formats().iter().map(|f| f.name.clone()));
    header.extend(["allowed".to_owned(), "meaning".to_owned()]);
    let mut rows = vec![header];
    let words: Vec<_> = all_formats()
        .iter()
        .map(|f| Ok((f.rules(Unit::Kg)?.words(), f.rules(Unit::Lb)?.words())))
        .collect::<Result<_, crate::rules::FormatError>>()?;
    for key in keys() {
        let mut row = vec![key.name.to_owned()];
        for (kg, lb) in &words {
            let (kg, lb) = (&kg[key.name], &lb[key.name]);
            row.push(if kg == lb {
                kg.clone()
            } else {
                format!("{kg} / {lb}")
            });
        }
        row.push(key.allowed.to_owned());
        row.push(key.meaning.to_owned());
        rows.push(row);
    }
    print_rows(&rows)
}

fn print_rows(rows: &[Vec<String>]) -> Result<(), Failure> {
    let rows = rows.iter().map(|r| r.iter().map(String::as_str));
    print(&rows_csv(rows, Style::Stdout))
}
