//! `maxday apply`

use std::io::{BufReader, Write};
use std::path::Path;
use std::sync::mpsc::{self, RecvTimeoutError};
use std::thread;
use std::time::Duration;

use crate::cli::{Failure, moment};
use crate::day::{Command, Context, Day};
use crate::exchange::Fault;
use crate::exchange::acts::{ActReader, ActRow, command, read_acts, stamp};
use crate::exchange::text::decode;
use crate::file::{FileError, HEARTBEAT_MS, Live, SubmitError};

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
    let mut refused = unread;
    let taken = Live::at_once(file, moment::now(), "", |batch| {
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
///
/// Rows are read on a thread of their own, so that the day's lease is kept
/// alive while nobody says anything.
fn stream(file: &Path) -> Result<(), Failure> {
    let mut live = Live::open(file, moment::now(), "")?;
    if live.is_read_only() {
        let _ =
            live.submit(&Command::Set(Vec::new()), &moment::context("", None), None)?;
    }
    let (send, rows) = mpsc::sync_channel(64);
    let _ = thread::spawn(move || {
        for row in ActReader::new(BufReader::new(std::io::stdin())) {
            if send.send(row).is_err() {
                break;
            }
        }
    });
    let beat_every = Duration::from_millis(HEARTBEAT_MS.unsigned_abs());
    let mut refused = 0;
    let mut beat = moment::now();
    loop {
        match rows.recv_timeout(beat_every) {
            Ok(row) => refused += usize::from(!answer(&mut live, row)?),
            Err(RecvTimeoutError::Timeout) => {}
            Err(RecvTimeoutError::Disconnected) => break,
        }
        let now = moment::now();
        if now.since(beat) >= HEARTBEAT_MS {
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

/// Answers one row; whether it was taken.
fn answer(live: &mut Live, row: Result<ActRow, Fault>) -> Result<bool, Failure> {
    let refused = match row {
        Err(fault) => Some((fault.line.max(1), fault.to_string())),
        Ok(row) => match submit(live, &row)? {
            Ok(()) => {
                crate::cli::print(format!("ok {}\n", row.line).as_bytes())?;
                None
            }
            Err(why) => Some((row.line, why)),
        },
    };
    let Some((line, why)) = refused else {
        return Ok(true);
    };
    let why = why.replace('\n', " ");
    crate::cli::print(format!("refused {line}: {why}\n").as_bytes())?;
    Ok(false)
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
