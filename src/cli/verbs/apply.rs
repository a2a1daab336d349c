//! `maxday apply`

use std::io::{BufReader, Write};
use std::path::Path;

use crate::cli::{Failure, moment};
use crate::day::{Command, Context, Day};
use crate::exchange::acts::{ActReader, ActRow, command, read_acts, stamp};
use crate::exchange::text::decode;
use crate::file::{FileError, Live, SubmitError};

pub(in crate::cli) fn run(
    file: &Path,
    acts: &Path,
    keep_going: bool,
) -> Result<(), Failure> {
    if acts.as_os_str() == "-" {
        return stream(file);
    }
    let bytes = std::fs::read(acts).map_err(|e| {
        Failure(format!("The acts {} can't be read: {e}.", acts.display()))
    })?;
    let text = decode(&bytes)?;
    let (rows, unread) = rows_of(&text, keep_going)?;
    let mut live = Live::open(file, moment::now(), "")?;
    let mut refused = unread;
    let taken = live.batch(|batch| {
        for row in &rows {
            let answer = reading(batch.day(), row).and_then(|(command, context)| {
                match batch.submit(&command, &context, id(row)) {
                    Ok(_) => Ok(()),
                    Err(SubmitError::Refused(refusal)) => {
                        Err(Stop::Row(refusal.to_string()))
                    }
                    Err(SubmitError::Failed(error)) => Err(Stop::File(error)),
                }
            });
            match answer {
                Ok(()) => {}
                Err(Stop::Row(why)) if keep_going => {
                    refused += 1;
                    say(row, &why);
                }
                Err(Stop::Row(why)) => {
                    return Err(Stop::Row(format!("line {}: {why}", row.line)));
                }
                Err(stop) => return Err(stop),
            }
        }
        Ok(())
    });
    match taken {
        Ok(()) => {}
        Err(Stop::Row(why)) => {
            return Err(Failure(format!("Nothing was applied; {why}")));
        }
        Err(Stop::File(error)) => return Err(Failure(error.to_string())),
    }
    live.close()?;
    let applied = rows.len() + unread - refused;
    let s = if applied == 1 { "" } else { "s" };
    crate::cli::print(format!("{applied} act{s} applied.\n").as_bytes())?;
    if refused > 0 {
        let s = if refused == 1 { "" } else { "s" };
        return Err(Failure(format!("{refused} act{s} refused.")));
    }
    Ok(())
}

/// The rows of an acts file, and how many couldn't be read and were said.
fn rows_of(text: &str, keep_going: bool) -> Result<(Vec<ActRow>, usize), Failure> {
    if !keep_going {
        return Ok((read_acts(text)?, 0));
    }
    let (mut rows, mut unread) = (Vec::new(), 0);
    for row in ActReader::new(text.as_bytes()) {
        match row {
            Ok(row) => rows.push(row),
            Err(fault) => {
                unread += 1;
                let _ =
                    writeln!(std::io::stderr(), "line {}: {fault}", fault.line.max(1));
            }
        }
    }
    Ok((rows, unread))
}

/// Why a batch ends.
enum Stop {
    Row(String),
    File(FileError),
}

impl From<FileError> for Stop {
    fn from(error: FileError) -> Self {
        Self::File(error)
    }
}

fn say(row: &ActRow, why: &str) {
    let _ = writeln!(std::io::stderr(), "line {}: {why}", row.line);
}

fn id(row: &ActRow) -> Option<&str> {
    Some(row.id.trim()).filter(|id| !id.is_empty())
}

/// The command of a row, and its context: the row's own time, else the wall
/// clock's, by which no deadline is judged.
fn reading(day: &Day, row: &ActRow) -> Result<(Command, Context), Stop> {
    let facts = day.facts();
    let now = moment::now();
    let at = stamp(row, facts.date, now.offset).map_err(Stop::Row)?;
    let command = command(day, row).map_err(Stop::Row)?;
    let context = Context {
        at: at.unwrap_or_else(|| now.loosely()),
        hand: row.by.trim().to_owned(),
        draw: facts.seed.unwrap_or_else(moment::fresh_seed) ^ day.next_seq(),
    };
    Ok((command, context))
}

/// Answers each row once it is durable.
fn stream(file: &Path) -> Result<(), Failure> {
    let mut live = Live::open(file, moment::now(), "")?;
    if live.is_read_only() {
        let _ =
            live.submit(&Command::Set(Vec::new()), &moment::context("", None), None)?;
    }
    let mut refused = 0;
    let mut beat = moment::now();
    for row in ActReader::new(BufReader::new(std::io::stdin().lock())) {
        let answer = match row {
            Err(fault) => Err((fault.line.max(1), fault.to_string())),
            Ok(row) => submit(&mut live, &row)?
                .map_err(|why| (row.line, why))
                .map(|()| row.line),
        };
        let line = match answer {
            Ok(line) => format!("ok {line}\n"),
            Err((line, why)) => {
                refused += 1;
                format!("refused {line}: {}\n", why.replace('\n', " "))
            }
        };
        crate::cli::print(line.as_bytes())?;
        let now = moment::now();
        if now.since(beat) >= crate::file::HEARTBEAT_MS {
            live.heartbeat(now)?;
            beat = now;
        }
    }
    live.close()?;
    if refused > 0 {
        return Err(Failure(String::new()));
    }
    Ok(())
}

/// The inner error is a refusal; the outer one ends the stream.
fn submit(live: &mut Live, row: &ActRow) -> Result<Result<(), String>, Failure> {
    let (command, context) = match reading(live.day(), row) {
        Ok(read) => read,
        Err(Stop::Row(why)) => return Ok(Err(why)),
        Err(Stop::File(error)) => return Err(error.into()),
    };
    match live.submit(&command, &context, id(row)) {
        Ok(_) => Ok(Ok(())),
        Err(SubmitError::Refused(refusal)) => Ok(Err(refusal.to_string())),
        Err(SubmitError::Failed(error)) => Err(error.into()),
    }
}
