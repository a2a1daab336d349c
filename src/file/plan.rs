//! What a submitted command comes to, before it is written.

use std::collections::BTreeSet;
use std::ops::Range;

use super::error::{FileError, shown};
use super::journal::{self, Tail, new_id};
use super::lease::Holder;
use super::open::Store;
use crate::day::{Command, Context, Day, Event, Recorded, Refusal, Stamp, decide};

/// An act that is stored.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Done {
    /// The act, by the place of its first event.
    pub act: u64,
    /// Its identifier.
    pub id: String,
    /// The places of the events that this step of it added; may be empty.
    pub seqs: Range<u64>,
}

/// The rows of a decided command.
#[derive(Debug)]
pub(super) struct Plan {
    rows: Vec<Recorded>,
    step: u32,
    pub(super) done: Done,
}

/// Where a step of an act belongs.
struct Belongs {
    id: String,
    /// Place of the act's first row, where the act has begun.
    act: Option<u64>,
    step: u32,
}

/// Decides a command and lays out its rows.
pub(super) fn plan(
    day: &Day,
    tail: &Tail,
    ids: &BTreeSet<String>,
    command: &Command,
    context: &Context,
    id: Option<&str>,
) -> Result<Plan, Refusal> {
    let belongs = place(tail, ids, command, context, id)?;
    let decided = decide(day, command, context)?;
    let from = tail.seq + 1;
    let act = belongs.act.unwrap_or(from);
    let rows: Vec<Recorded> = (from..)
        .zip(decided.events)
        .map(|(seq, event)| Recorded {
            seq,
            act,
            id: belongs.id.clone(),
            at: context.at,
            happened: None,
            hand: context.hand.clone(),
            platform: decided.platform,
            event,
        })
        .collect();
    let until = rows.last().map_or(from, |r| r.seq + 1);
    Ok(Plan {
        rows,
        step: belongs.step,
        done: Done {
            act,
            id: belongs.id,
            seqs: from..until,
        },
    })
}

impl Plan {
    /// Whether there is nothing to write.
    pub(super) const fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// Writes the rows inside the caller's transaction.
    pub(super) fn write(
        &self,
        store: &Store,
        tail: &mut Tail,
        device: &str,
    ) -> Result<(), FileError> {
        for row in &self.rows {
            journal::append(store, tail, device, row, self.step)?;
        }
        Ok(())
    }

    /// Gives the rows away, to be folded into the day.
    pub(super) fn into_rows(self) -> Vec<Recorded> {
        self.rows
    }
}

/// Finds out to which act an identifier belongs.
///
/// An act of many entries comes from an acts file as several rows with the
/// identifiers `X/1`, `X/2` …: those go on with the act `X` as long as it is
/// the newest one. All other identifiers name an act of their own.
fn place(
    tail: &Tail,
    ids: &BTreeSet<String>,
    command: &Command,
    context: &Context,
    id: Option<&str>,
) -> Result<Belongs, Refusal> {
    let Some(id) = id.map(str::trim).filter(|id| !id.is_empty()) else {
        return Ok(Belongs {
            id: new_id(context.at),
            act: None,
            step: 1,
        });
    };
    if let Some((whole, step)) = step_of(id).filter(|_| comes_in_steps(command)) {
        let used = ids.contains(whole);
        if used && tail.act == whole && step > tail.step {
            return Ok(Belongs {
                id: whole.to_owned(),
                act: Some(tail.first),
                step,
            });
        }
        if !used {
            return Ok(Belongs {
                id: whole.to_owned(),
                act: None,
                step,
            });
        }
        return Err(taken(id));
    }
    if ids.contains(id) {
        return Err(taken(id));
    }
    Ok(Belongs {
        id: id.to_owned(),
        act: None,
        step: 1,
    })
}

fn taken(id: &str) -> Refusal {
    Refusal::AlreadySo(format!(
        "The id “{id}” belongs to an act of this day already; leave it blank or write another."
    ))
}

/// The act's identifier and the step, in `X/2`.
fn step_of(id: &str) -> Option<(&str, u32)> {
    let (whole, step) = id.rsplit_once('/')?;
    let is_number = step.bytes().all(|b| b.is_ascii_digit()) && !step.starts_with('0');
    let step: u32 = step.parse().ok().filter(|_| is_number)?;
    (!whole.is_empty()).then_some((whole, step))
}

/// Whether one act may hold several such commands.
const fn comes_in_steps(command: &Command) -> bool {
    matches!(
        command,
        Command::Add(_)
            | Command::Edit { .. }
            | Command::EditMany(_)
            | Command::Place(_)
            | Command::Set(_)
    )
}

/// Makes sure that a journal begins with the making of its day.
pub(super) fn whole(store: &Store, day: &Day) -> Result<(), FileError> {
    match day.journal().first().map(|r| &r.event) {
        Some(Event::DayMade { .. }) => Ok(()),
        _ => Err(FileError::Damaged {
            path: shown(&store.path),
            why: "its first row doesn't make a day".into(),
        }),
    }
}

/// The row that says that a crashed holder's lease was taken over.
pub(super) fn takeover(before: &Holder, seq: u64, now: Stamp, who: &str) -> Recorded {
    let last = Stamp {
        ms: before.heartbeat,
        ..now
    };
    Recorded {
        seq,
        act: seq,
        id: new_id(now),
        at: now,
        happened: None,
        hand: who.to_owned(),
        platform: None,
        event: Event::Noted {
            entry: None,
            act: None,
            text: format!(
                "The day was taken over from {before}, which ended without closing it; \
                 last heard from at {}.",
                last.clock_time()
            ),
        },
    }
}
