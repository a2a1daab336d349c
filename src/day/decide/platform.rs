//! What runs on a platform: station check, start, break, call and clock.

use super::{Decided, deadlines, request, resolve};
use crate::day::command::{Command, Context, Which};
use crate::day::event::{ClockMove, Event};
use crate::day::facts::{Facts, Flight};
use crate::day::queue::queue;
use crate::day::requests::bar_now;
use crate::day::{Queued, Refusal};
use crate::measure::Weight;
use crate::roster::Entry;
use crate::rules::{BarRule, Gate, Queue};

pub(super) fn check(
    facts: &Facts,
    platform: Option<u8>,
    who: &str,
    context: &Context,
) -> Result<Decided, Refusal> {
    let platform = resolve::platform(facts, platform, None)?;
    let who = if who.trim().is_empty() {
        &context.hand
    } else {
        who
    };
    if who.trim().is_empty() {
        return Err(Refusal::ReasonNeeded);
    }
    Decided::one(
        Some(platform),
        Event::StationChecked {
            platform,
            who: who.trim().to_owned(),
        },
    )
}

pub(super) fn start(facts: &Facts, command: &Command) -> Result<Decided, Refusal> {
    let Command::Start {
        platform,
        lift,
        session,
        flight,
    } = command
    else {
        return Err(Refusal::NoOutcome);
    };
    let line = facts
        .slot_of(lift.as_str())
        .ok_or_else(|| Refusal::NoSuchLift {
            lift: lift.to_string(),
            allowed: resolve::programme(facts),
        })?
        .0;
    if let Some(platform) = platform {
        let _ = resolve::existing(facts, *platform)?;
    }
    let flight = the_flight(facts, *platform, session.as_deref(), flight.as_deref())?;
    resolve::open_session(facts, &flight.session)?;
    let number = flight.platform;
    if let Some(named) = platform.filter(|p| *p != number) {
        return Err(Refusal::NoSuchFlight {
            flight: format!(
                "{}/{} on {}",
                flight.session,
                flight.name,
                facts.platform_label(named)
            ),
            allowed: format!("it on {}", facts.platform_label(number)),
        });
    }
    let place = facts.platform(number).ok_or(Refusal::NoSuchPlatform {
        platform: number,
        most: 1,
    })?;
    if let Some(call) = &place.call {
        return Err(somebody_called(facts, number, call));
    }
    // Where the flight ran before it was moved, nobody may be left called.
    let left = facts.platforms.iter().zip(1_u8..).find_map(|(p, n)| {
        let ran = p.running.as_ref()?;
        let here = ran.session == flight.session && ran.flight == flight.name;
        p.call.as_ref().filter(|_| here).map(|call| (call, n))
    });
    if let Some((call, n)) = left {
        return Err(somebody_called(facts, n, call));
    }
    if facts.rules.station_check == Gate::Required && place.checked.is_none() {
        return Err(Refusal::NotChecked {
            platform: facts.platform_label(number),
        });
    }
    let same = place.running.as_ref().is_some_and(|r| {
        r.slot == line.slot && r.session == flight.session && r.flight == flight.name
    });
    if same {
        return Err(Refusal::AlreadySo(format!(
            "{} of flight {} runs on {} already.",
            line.slot,
            flight.name,
            facts.platform_label(number)
        )));
    }
    Decided::one(
        Some(number),
        Event::SlotStarted {
            platform: number,
            session: flight.session.clone(),
            flight: flight.name.clone(),
            slot: line.slot.clone(),
        },
    )
}

pub(super) fn somebody_called(
    facts: &Facts,
    platform: u8,
    call: &crate::day::Call,
) -> Refusal {
    Refusal::SomebodyIsCalled {
        number: facts.entries.get(&call.entry).map_or(0, |e| e.number),
        platform: facts.platform_label(platform),
        load: call.load.mass.show_with_unit(facts.bar_unit),
    }
}

/// The flight that is meant: by name, or the only one on the platform (or of
/// the session there).
fn the_flight<'a>(
    facts: &'a Facts,
    platform: Option<u8>,
    session: Option<&str>,
    name: Option<&str>,
) -> Result<&'a Flight, Refusal> {
    let fits: Vec<&Flight> = facts
        .flights
        .iter()
        .filter(|f| name.is_none_or(|n| f.name == n))
        .filter(|f| session.is_none_or(|s| f.session == s))
        .filter(|f| platform.is_none_or(|p| f.platform == p))
        .collect();
    match fits.as_slice() {
        [only] => Ok(only),
        _ => {
            let pool: &[&Flight] = if fits.is_empty() {
                &facts.flights.iter().collect::<Vec<_>>()
            } else {
                &fits
            };
            let list: Vec<String> = pool
                .iter()
                .map(|f| {
                    format!(
                        "{}/{} ({})",
                        f.session,
                        f.name,
                        facts.platform_label(f.platform)
                    )
                })
                .collect();
            Err(Refusal::NoSuchFlight {
                flight: match (session, name) {
                    (Some(s), Some(n)) => format!("{s}/{n} alone"),
                    (_, Some(n)) => format!("{n} alone"),
                    (Some(s), None) => format!("of session {s} alone"),
                    (None, None) => "that is the only one".to_owned(),
                },
                allowed: if list.is_empty() {
                    "none yet; make flights first".to_owned()
                } else {
                    list.join(", ")
                },
            })
        }
    }
}

pub(super) fn pause(
    facts: &Facts,
    platform: Option<u8>,
    minutes: Option<u32>,
) -> Result<Decided, Refusal> {
    let platform = resolve::platform(facts, platform, None)?;
    let minutes = minutes.unwrap_or(facts.rules.break_minutes);
    if !(1..=240).contains(&minutes) {
        return Err(Refusal::NoBreak);
    }
    if let Some(call) = facts.platform(platform).and_then(|p| p.call.as_ref()) {
        return Err(somebody_called(facts, platform, call));
    }
    Decided::one(Some(platform), Event::BreakCalled { platform, minutes })
}

pub(super) fn clock(
    facts: &Facts,
    platform: Option<u8>,
    movement: ClockMove,
) -> Result<Decided, Refusal> {
    let platform = resolve::platform(facts, platform, None)?;
    let clock = facts
        .platform(platform)
        .and_then(|p| p.call.as_ref())
        .and_then(|c| c.clock)
        .ok_or_else(|| Refusal::NoClock(facts.platform_label(platform)))?;
    let already = match movement {
        ClockMove::Stop => (!clock.runs()).then_some("The clock stands already."),
        ClockMove::Resume => clock.runs().then_some("The clock runs already."),
        ClockMove::Set(_) => None,
    };
    if let Some(sentence) = already {
        return Err(Refusal::AlreadySo(sentence.to_owned()));
    }
    if let ClockMove::Set(left) = movement
        && !(0..=600_000).contains(&left)
    {
        return Err(Refusal::AlreadySo(
            "A clock can be set from 0:00 to 10:00.".to_owned(),
        ));
    }
    Decided::one(Some(platform), Event::ClockMoved { movement })
}

pub(super) fn call(
    facts: &Facts,
    which: &Which,
    load: Option<&Weight>,
    platform: Option<u8>,
) -> Result<Decided, Refusal> {
    let platform = resolve::platform(facts, platform, which.number)?;
    let (event, _) = called(facts, which, load, platform, true)?;
    Decided::one(Some(platform), event)
}

/// The call of an athlete on a platform, or why it can't be made.
///
/// With `announce`, the clock of the rules starts.
pub(super) fn called<'a>(
    facts: &'a Facts,
    which: &Which,
    load: Option<&Weight>,
    platform: u8,
    announce: bool,
) -> Result<(Event, &'a Entry), Refusal> {
    let place = facts
        .platform(platform)
        .ok_or(Refusal::NoSuchPlatform { platform, most: 1 })?;
    if let Some(call) = &place.call {
        return Err(somebody_called(facts, platform, call));
    }
    let running = place.running.as_ref().ok_or_else(|| Refusal::NothingRuns {
        platform: facts.platform_label(platform),
    })?;
    resolve::open_session(facts, &running.session)?;
    let order = queue(facts, platform);
    let first = order.first();
    let (entry, queued) = match which.number {
        None => {
            let first = first
                .ok_or_else(|| Refusal::QueueEmpty(facts.platform_label(platform)))?
                .clone();
            let entry = facts
                .entries
                .get(&first.entry)
                .ok_or(Refusal::NoSuchNumber(0))?;
            (entry, first)
        }
        Some(number) => {
            let entry = resolve::entry(facts, number)?;
            let lift = which.lift.as_ref().unwrap_or(&running.slot);
            let (slot, _) = resolve::slot(facts, entry, Some(lift))?;
            let queued = resolve::in_queue(facts, entry, &slot)?;
            if slot != running.slot
                || entry.session != running.session
                || entry.flight != running.flight
            {
                return Err(Refusal::NotPresent {
                    number,
                    state: format!(
                        "not in what runs on {}",
                        facts.platform_label(platform)
                    ),
                    allowed: format!(
                        "flight {} lifts {}; start the lift for that flight, or enter the attempt from the card (tally)",
                        running.flight, running.slot
                    ),
                });
            }
            (entry, queued)
        }
    };
    let elsewhere = facts.platforms.iter().zip(1_u8..).find_map(|(p, n)| {
        p.call
            .as_ref()
            .filter(|c| c.entry == entry.key)
            .map(|c| (c, n))
    });
    if let Some((call, n)) = elsewhere {
        return Err(somebody_called(facts, n, call));
    }
    if let Some(attempt) = which.attempt.filter(|a| *a != queued.attempt) {
        return Err(Refusal::NotThatAttempt {
            number: entry.number,
            slot: queued.slot.to_string(),
            attempt,
            next: queued.attempt,
        });
    }
    if facts.rules.queue == Queue::Law
        && let Some(first) = first
        && first.entry != queued.entry
    {
        return Err(not_next(facts, entry, first));
    }
    let load = load_of_call(facts, entry, &queued, load)?;
    gates(facts, entry, &queued, &load)?;
    let following = place
        .last
        .as_ref()
        .is_some_and(|(last, slot, _)| *last == entry.key && *slot == queued.slot);
    let clock = facts.rules.clock.filter(|_| announce).map(|ordinary| {
        if following {
            facts.rules.clock_following.unwrap_or(ordinary)
        } else {
            ordinary
        }
    });
    let event = Event::Called {
        entry: entry.key,
        slot: queued.slot,
        lift: queued.lift,
        attempt: queued.attempt,
        load,
        clock,
        following,
    };
    Ok((event, entry))
}

fn not_next(facts: &Facts, asked: &Entry, first: &Queued) -> Refusal {
    match &first.load {
        Some(load) => Refusal::NotNext {
            asked: asked.number,
            number: first.number,
            attempt: first.attempt,
            load: load.mass.show_with_unit(facts.bar_unit),
        },
        None => Refusal::LoadOwed {
            number: first.number,
            attempt: first.attempt,
        },
    }
}

/// The load of a call: the request that stands, which a named load must
/// equal. Where nothing was asked for yet and the queue is advice, the named
/// load is the request.
fn load_of_call(
    facts: &Facts,
    entry: &Entry,
    queued: &Queued,
    named: Option<&Weight>,
) -> Result<Weight, Refusal> {
    if let Some(requested) = &queued.load {
        resolve::same_load(facts, entry, requested, named)?;
        return Ok(requested.clone());
    }
    match named {
        Some(named) if facts.rules.queue == Queue::Advice => {
            request::allowed_load(facts, entry, &queued.slot, queued.attempt, named)?;
            request::jump_allowed(facts, entry, &queued.slot, queued.attempt, named)?;
            if queued.attempt == 1 {
                deadlines::openers_sum(facts, entry, &queued.slot, named)?;
            }
            Ok(named.clone())
        }
        _ => Err(Refusal::LoadOwed {
            number: entry.number,
            attempt: queued.attempt,
        }),
    }
}

/// Clearance, cap, and the bar that can't come down.
fn gates(
    facts: &Facts,
    entry: &Entry,
    queued: &Queued,
    load: &Weight,
) -> Result<(), Refusal> {
    resolve::cleared(facts, entry, &queued.slot)?;
    resolve::under_cap(facts, entry, &queued.slot, load.mass)?;
    if let Some(bar) = bar_now(facts, entry, &queued.slot, queued.attempt)
        && load.mass < bar
    {
        return Err(Refusal::BarIsHigher {
            number: entry.number,
            bar: bar.show_with_unit(facts.bar_unit),
            what: if facts.rules.bar == BarRule::Rising {
                "flight"
            } else {
                "round"
            },
            load: load.mass.show_with_unit(facts.bar_unit),
        });
    }
    Ok(())
}
