//! `maxday history`

use std::collections::BTreeSet;
use std::io::Write;
use std::path::{Path, PathBuf};

use crate::cli::Failure;
use crate::day::Facts;
use crate::exchange::Fault;
use crate::exchange::past::{read_answers, read_past};
use crate::exchange::tables::{Style, csv};
use crate::file::Live;
use crate::roster::ERASED;
use crate::sheets::history_table;
use crate::standings::{HistoryRow, Past, history, past_of};

pub(in crate::cli) fn run(
    file: &Path,
    with: &[PathBuf],
    matches: Option<&Path>,
) -> Result<(), Failure> {
    let live = Live::open_read(file)?;
    let facts = live.day().facts();
    let mut seen: BTreeSet<PathBuf> = same_path(file).into_iter().collect();
    let mut pasts: Vec<Past> = Vec::new();
    for path in with {
        if !same_path(path).is_none_or(|whole| seen.insert(whole)) {
            return Err(Failure(format!(
                "{} is there twice, or is the day itself; leave it out once.",
                path.display()
            )));
        }
        let past = earlier(path, facts)?;
        if pasts.iter().any(|p| p.source == past.source) {
            return Err(Failure(format!(
                "Two earlier files are named {}; give one of them another name.",
                past.source
            )));
        }
        pasts.push(past);
    }
    let answers = match matches {
        None => Vec::new(),
        Some(path) => {
            let bytes = bytes_of(path)?;
            read_answers(&bytes, facts, &pasts).map_err(|f| refused(path, &f))?
        }
    };
    let rows = history(facts, &pasts, &answers);
    ask(&rows);
    crate::cli::print(&csv(&history_table(facts, &rows), Style::Stdout))
}

/// Says how many matches wait for an answer, and how one is given.
fn ask(rows: &[HistoryRow]) {
    let doubtful: BTreeSet<_> = rows
        .iter()
        .filter(|row| row.is_doubtful())
        .map(|row| (row.entry, &row.source, row.number))
        .collect();
    if !doubtful.is_empty() {
        let (n, s) = match doubtful.len() {
            1 => (1, " is"),
            n => (n, "es are"),
        };
        let _ = writeln!(
            std::io::stderr(),
            "maxday: {n} match{s} doubtful and left out of the comparison; write yes or no \
             under same and give the table back with --match."
        );
    }
}

fn earlier(path: &Path, facts: &Facts) -> Result<Past, Failure> {
    let name = path.file_name().map(|n| n.to_string_lossy().into_owned());
    let name = name.unwrap_or_else(|| path.display().to_string());
    let is = |end: &str| {
        path.extension()
            .is_some_and(|e| e.eq_ignore_ascii_case(end))
    };
    if is("csv") || is("txt") {
        let bytes = bytes_of(path)?;
        return read_past(&bytes, facts, &name).map_err(|f| refused(path, &f));
    }
    let live = Live::open_read(path)?;
    let mut past = past_of(live.day().facts(), &name);
    // Who was erased is nobody, and never somebody with the same word for a name.
    past.people.retain(|p| p.family != ERASED);
    Ok(past)
}

/// A path that two ways of writing it share; `None` where there is no such file.
fn same_path(path: &Path) -> Option<PathBuf> {
    std::fs::canonicalize(path).ok()
}

fn bytes_of(path: &Path) -> Result<Vec<u8>, Failure> {
    std::fs::read(path)
        .map_err(|e| Failure(format!("{} can't be read: {e}.", path.display())))
}

/// All faults of a file, a line each.
fn refused(path: &Path, faults: &[Fault]) -> Failure {
    let mut err = std::io::stderr().lock();
    for fault in faults {
        let _ = writeln!(err, "{fault}");
    }
    let n = faults.len();
    let s = if n == 1 { "" } else { "s" };
    Failure(format!(
        "Nothing was compared: {n} fault{s} in {}.",
        path.display()
    ))
}
