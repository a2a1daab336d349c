//! `maxday roster`

use std::io::Write;
use std::path::Path;

use crate::cli::{Failure, moment};
use crate::day::{Command, Context};
use crate::exchange::Fault;
use crate::exchange::roster::{DateOrder, RosterRead, read_roster, read_update, update};
use crate::file::{Batch, Live};

pub(in crate::cli) fn run(
    file: &Path,
    roster: &Path,
    dates: Option<&str>,
    updates: bool,
) -> Result<(), Failure> {
    let dates = match dates {
        None => None,
        Some(word) => Some(DateOrder::parse(word).ok_or_else(|| {
            Failure(format!(
                "“{word}” is no order of dates; allowed: iso, mdy, dmy."
            ))
        })?),
    };
    let bytes = std::fs::read(roster).map_err(|e| {
        Failure(format!(
            "The roster {} can't be read: {e}.",
            roster.display()
        ))
    })?;
    let (read, (added, changed)) = Live::at_once(file, moment::now(), "", |batch| {
        let facts = batch.day().facts();
        let read = if updates {
            read_update(&bytes, facts, dates)
        } else {
            read_roster(&bytes, facts, dates)
        };
        let read = read.map_err(|faults| refused(&faults))?;
        let context = moment::context("", facts.seed);
        let counts = if updates {
            take_update(batch, &read, &context)?
        } else {
            let _ = batch.submit(&Command::Add(read.entries.clone()), &context, None)?;
            (read.entries.len(), 0)
        };
        Ok::<_, Failure>((read, counts))
    })?;
    report(&read, added, changed);
    Ok(())
}

/// All faults, a line each; nothing of the file was taken.
fn refused(faults: &[Fault]) -> Failure {
    let mut err = std::io::stderr().lock();
    for fault in faults {
        let _ = writeln!(err, "{fault}");
    }
    let n = faults.len();
    let s = if n == 1 { "" } else { "s" };
    Failure(format!("Nothing was imported: {n} fault{s} in the roster."))
}

fn take_update(
    batch: &mut Batch<'_>,
    read: &RosterRead,
    context: &Context,
) -> Result<(usize, usize), Failure> {
    let changes = update(batch.day().facts(), read);
    let counts = (changes.added.len(), changes.changed.len());
    // Steps of one act, so that one undo takes the import back whole.
    let id = uuid::Uuid::new_v4();
    if !changes.changed.is_empty() {
        let id = format!("{id}/1");
        let _ = batch.submit(&Command::EditMany(changes.changed), context, Some(&id))?;
    }
    if !changes.added.is_empty() {
        let id = format!("{id}/2");
        let _ = batch.submit(&Command::Add(changes.added), context, Some(&id))?;
    }
    Ok(counts)
}

fn report(read: &RosterRead, added: usize, changed: usize) {
    let mut out = std::io::stdout().lock();
    let _ = writeln!(out, "{added} entered, {changed} changed.");
    for (session, flight, platform) in &read.flights {
        let _ = writeln!(
            out,
            "Flight {session}/{flight} made on platform {platform}."
        );
    }
    if !read.has_clearance {
        let _ = writeln!(out, "No column for clearances: their gates are off.");
    }
    if !read.unknown.is_empty() {
        let _ = writeln!(out, "Not read: column {}.", read.unknown.join(", column "));
    }
    for query in &read.queries {
        let _ = writeln!(out, "owed: {query}");
    }
}
