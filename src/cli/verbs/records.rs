//! `maxday records`

use std::io::Write;
use std::path::Path;

use crate::cli::{Failure, moment};
use crate::day::Command;
use crate::exchange::Fault;
use crate::exchange::book::read_book;
use crate::exchange::tables::{Style, csv};
use crate::file::Live;
use crate::sheets::{Audience, hides_records, records_table};

pub(in crate::cli) fn print(file: &Path, posted: bool) -> Result<(), Failure> {
    let live = Live::open_read(file)?;
    let facts = live.day().facts();
    let audience = if posted {
        Audience::Posted
    } else {
        Audience::Private
    };
    if hides_records(facts, audience) {
        let _ = writeln!(
            std::io::stderr(),
            "maxday: Records by bodyweight category are left out, since this day's \
             categories aren't posted."
        );
    }
    crate::cli::print(&csv(&records_table(facts, audience), Style::Stdout))
}

pub(in crate::cli) fn import(file: &Path, book: &Path) -> Result<(), Failure> {
    let bytes = std::fs::read(book).map_err(|e| {
        Failure(format!(
            "The record book {} can't be read: {e}.",
            book.display()
        ))
    })?;
    let (read, changed) = Live::at_once(file, moment::now(), "", |batch| {
        let facts = batch.day().facts();
        let read = read_book(&bytes, facts).map_err(|faults| refused(&faults))?;
        let told = read.news(facts);
        let context = moment::context("", facts.seed);
        let changed = told.len();
        if changed > 0 {
            let _ = batch.submit(&Command::Book(told), &context, None)?;
        }
        Ok::<_, Failure>((read, changed))
    })?;
    let mut out = std::io::stdout().lock();
    let _ = writeln!(
        out,
        "{} read, {changed} new or changed.",
        counted(read.records.len(), "record")
    );
    if !read.unknown.is_empty() {
        let _ = writeln!(out, "Not read: column {}.", read.unknown.join(", column "));
    }
    for query in &read.queries {
        let _ = writeln!(out, "asked: {query}");
    }
    Ok(())
}

/// All faults, a line each; nothing of the file was taken.
fn refused(faults: &[Fault]) -> Failure {
    let mut err = std::io::stderr().lock();
    for fault in faults {
        let _ = writeln!(err, "{fault}");
    }
    let n = counted(faults.len(), "fault");
    Failure(format!("Nothing was imported: {n} in the record book."))
}

fn counted(n: usize, what: &str) -> String {
    let s = if n == 1 { "" } else { "s" };
    format!("{n} {what}{s}")
}
