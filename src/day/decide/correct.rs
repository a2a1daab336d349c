//! Undo, redo, annulment and correction.

use super::{Decided, resolve, rulings};
use crate::day::command::{CorrectionOf, Outcome, Which};
use crate::day::event::{Event, Line, Recorded, RuledFact};
use crate::day::facts::Facts;
use crate::day::{Day, Refusal, Ruling};
use crate::measure::Weight;

/// What a line is called in a sentence.
fn line_words(facts: &Facts, line: Line) -> String {
    match line {
        Line::Platform(n) => facts.platform_label(n),
        Line::Roster => "the roster".to_owned(),
        Line::Scale => "the scale".to_owned(),
        Line::Flights => "the flights".to_owned(),
        Line::Day => "the day's settings".to_owned(),
    }
}

/// Names acts that would hang in the air, at most five.
fn refuse_hanging(day: &Day, hanging: &[u64]) -> Result<(), Refusal> {
    if hanging.is_empty() {
        return Ok(());
    }
    // One name an act, by its last event: a call and its ruling are one act.
    let mut acts: Vec<&Recorded> = Vec::new();
    for recorded in hanging.iter().filter_map(|seq| day.recorded(*seq)) {
        match acts.last_mut() {
            Some(last) if last.act == recorded.act => *last = recorded,
            _ => acts.push(recorded),
        }
    }
    let mut names: Vec<String> = acts
        .iter()
        .take(5)
        .map(|recorded| {
            format!(
                "{} ({}, act {})",
                words(day.facts(), &recorded.event),
                recorded.at.clock_time(),
                recorded.id
            )
        })
        .collect();
    if acts.len() > 5 {
        names.push(format!("and {} more", acts.len() - 5));
    }
    Err(Refusal::Dangling(names.join(", ")))
}

/// An event in a few words.
fn words(facts: &Facts, event: &Event) -> String {
    let lot = |key: &crate::roster::EntryKey| {
        facts
            .entries
            .get(key)
            .map_or_else(|| "somebody".to_owned(), |e| format!("lot {}", e.number))
    };
    match event {
        Event::Ruled(fact) => format!(
            "{} {} attempt {}",
            lot(&fact.entry),
            fact.slot,
            fact.attempt
        ),
        Event::EntryAdded { number, .. } => format!("entry of lot {number}"),
        Event::EntryEdited { entry, .. } => format!("change of {}", lot(entry)),
        Event::Placed { entry, .. } => format!("place of {}", lot(entry)),
        Event::Weighed { entry, .. } => format!("weigh-in of {}", lot(entry)),
        Event::Requested { entry, load, .. } => {
            format!(
                "request of {} for {}",
                lot(entry),
                load.show(facts.bar_unit)
            )
        }
        Event::Called { entry, .. } => format!("call of {}", lot(entry)),
        Event::LoadFound { entry, .. } => format!("load found for {}", lot(entry)),
        Event::Reruled { entry, .. } => format!("new ruling for {}", lot(entry)),
        Event::SlotStarted { slot, flight, .. } => {
            format!("start of {slot} for flight {flight}")
        }
        Event::RollAnswered { entry, .. } => format!("roll of {}", lot(entry)),
        Event::Withdrawn { entry, .. } => format!("withdrawal of {}", lot(entry)),
        Event::Disqualified { entry, .. } => {
            format!("disqualification of {}", lot(entry))
        }
        Event::Numbered { .. } => "start numbers".to_owned(),
        Event::RecordListed { record, .. } => format!("record of {record}"),
        Event::Cleared { entry, .. } => format!("clearance of {}", lot(entry)),
        Event::Capped { entry, .. } => format!("cap of {}", lot(entry)),
        Event::CallWithdrawn { entry, .. } => format!("request of {}", lot(entry)),
        Event::ExtraGranted { entry, .. } => format!("leave for {}", lot(entry)),
        Event::FlightMade { flight, .. } => format!("flight {flight}"),
        Event::Corrected { event, .. } => {
            format!("correction of {}", words(facts, event))
        }
        _ => "an act".to_owned(),
    }
}

pub(super) fn undo(day: &Day, line: Line) -> Result<Decided, Refusal> {
    let platform = the_line(day, line)?;
    let act = day.undoable(line).ok_or_else(|| Refusal::NothingTo {
        what: "undo",
        line: line_words(day.facts(), line),
    })?;
    let (after, hanging) = day.without(act);
    if !day.is_newest(act) {
        refuse_hanging(day, &hanging)?;
    }
    // A ruling that is undone leaves the athlete called, with the clock where
    // it stood when the ruling came.
    let clock = day.act(act).find_map(|r| {
        let Event::Ruled(fact) = &r.event else {
            return None;
        };
        let call = after.platform(platform?)?.call.as_ref()?;
        let ruled = call.is(fact.entry, &fact.slot, fact.attempt);
        call.clock.filter(|_| ruled).map(|c| c.left_at(r.at))
    });
    Decided::one(platform, Event::Undone { act, clock })
}

pub(super) fn redo(day: &Day, line: Line) -> Result<Decided, Refusal> {
    let platform = the_line(day, line)?;
    let undo = day.redoable(line).ok_or_else(|| Refusal::NothingTo {
        what: "redo",
        line: line_words(day.facts(), line),
    })?;
    let (_, hanging) = day.without(undo);
    if !day.is_newest(undo) {
        refuse_hanging(day, &hanging)?;
    }
    Decided::one(platform, Event::Redone { undo })
}

/// The platform of a line. A line of a screen's kind is told by the event
/// that is undone, so its undo carries no platform.
fn the_line(day: &Day, line: Line) -> Result<Option<u8>, Refusal> {
    match line {
        Line::Platform(n) => resolve::existing(day.facts(), n).map(Some),
        Line::Roster | Line::Scale | Line::Flights | Line::Day => Ok(None),
    }
}

/// The identifier by which people know an act.
fn id_of(day: &Day, seq: u64) -> String {
    day.recorded(seq)
        .map_or_else(|| seq.to_string(), |r| r.id.clone())
}

pub(super) fn annul(day: &Day, act: u64, reason: &str) -> Result<Decided, Refusal> {
    let first = day
        .recorded(act)
        .filter(|r| r.act == act && day.stands_now(act))
        .ok_or_else(|| Refusal::NoSuchAct(id_of(day, act)))?;
    match first.event {
        Event::DayMade { .. } => {
            return Err(Refusal::NotCorrectable(
                "it made the day; settings can be changed".to_owned(),
            ));
        }
        Event::Undone { .. } | Event::Redone { .. } => {
            return Err(Refusal::NotCorrectable(
                "it is an undo or a redo; undo and redo do that".to_owned(),
            ));
        }
        _ => {}
    }
    let (_, hanging) = day.without(act);
    refuse_hanging(day, &hanging)?;
    Decided::one(
        first.platform,
        Event::Annulled {
            act,
            reason: reason.trim().to_owned(),
        },
    )
}

pub(super) fn correct(
    day: &Day,
    of: &CorrectionOf,
    reason: &str,
) -> Result<Decided, Refusal> {
    let (target, event) = match of {
        CorrectionOf::Attempt {
            which,
            load,
            outcome,
        } => of_attempt(day, which, load.as_ref(), outcome.as_ref())?,
        CorrectionOf::Act { act, values } => of_act(day, *act, values)?,
    };
    if day.effective(target) == Some(&event) {
        return Err(Refusal::AlreadySo(
            "That is what the journal says already; nothing changes.".to_owned(),
        ));
    }
    let (_, hanging) = day.with_correction(target, &event);
    refuse_hanging(day, &hanging)?;
    let platform = day.recorded(target).and_then(|r| r.platform);
    Decided::one(
        platform,
        Event::Corrected {
            target,
            event: Box::new(event),
            reason: reason.trim().to_owned(),
        },
    )
}

fn of_attempt(
    day: &Day,
    which: &Which,
    load: Option<&Weight>,
    outcome: Option<&Outcome>,
) -> Result<(u64, Event), Refusal> {
    let facts = day.facts();
    let number = which.number.ok_or(Refusal::ReasonNeeded)?;
    let entry = resolve::entry(facts, number)?;
    let (slot, _) = resolve::slot(facts, entry, which.lift.as_ref())?;
    let (attempt, ruled) = resolve::ruled(facts, entry, &slot, which.attempt)?;
    if ruled.first.is_some() && outcome.is_some() {
        return Err(Refusal::NotCorrectable(format!(
            "attempt {attempt} of lot {number} was overruled; overrule it again, or annul the overruling"
        )));
    }
    if ruled.found && load.is_some() {
        return Err(Refusal::NotCorrectable(format!(
            "the load of attempt {attempt} of lot {number} was found to be another; say loaded again, or annul that"
        )));
    }
    if load.is_none() && outcome.is_none() {
        return Err(Refusal::NoOutcome);
    }
    let seq = ruled.seq;
    let Some(Event::Ruled(fact)) = day.effective(seq) else {
        return Err(Refusal::NoSuchAct(id_of(day, seq)));
    };
    let mut fact = fact.as_ref().clone();
    if let Some(load) = load {
        resolve::liftable(facts, load.mass)?;
        fact.requested = Some(load.clone());
        fact.loaded = Some(load.clone());
        fact.credited = Some(load.clone());
    }
    if let Some(outcome) = outcome {
        if let caught @ Some(_) = outcome.caught.as_ref() {
            fact.lift = resolve::slot_as_lifted(facts, entry, Some(&slot), caught)?.1;
        }
        new_outcome(facts, &mut fact, outcome)?;
    }
    Ok((seq, Event::Ruled(Box::new(fact))))
}

fn new_outcome(
    facts: &Facts,
    fact: &mut RuledFact,
    outcome: &Outcome,
) -> Result<(), Refusal> {
    let allowed = [Ruling::Good, Ruling::No, Ruling::Pass, Ruling::Time];
    let ruling = rulings::ruling_of(facts, outcome, &allowed)?;
    resolve::faults_of(&fact.lift, &outcome.faults)?;
    if ruling == Ruling::Pass {
        fact.loaded = None;
        fact.credited = None;
    } else if fact.credited.is_none() {
        if fact.requested.is_none() {
            return Err(Refusal::LoadOwed {
                number: facts.entries.get(&fact.entry).map_or(0, |e| e.number),
                attempt: fact.attempt,
            });
        }
        fact.loaded.clone_from(&fact.requested);
        fact.credited.clone_from(&fact.requested);
    }
    // The same ruling in words alone says nothing new of lights and faults.
    let says_more = !outcome.lights.is_empty() || !outcome.faults.is_empty();
    if ruling != fact.ruling || says_more {
        fact.lights.clone_from(&outcome.lights);
        fact.faults.clone_from(&outcome.faults);
    }
    fact.ruling = ruling;
    if outcome.reps.is_some() {
        fact.reps = rulings::reps_of(facts, outcome)?;
    }
    Ok(())
}

/// Corrects details of any act by `key=value`.
fn of_act(
    day: &Day,
    act: u64,
    values: &[(String, String)],
) -> Result<(u64, Event), Refusal> {
    let facts = day.facts();
    if !day.stands_now(act) {
        return Err(Refusal::NoSuchAct(id_of(day, act)));
    }
    let correctable = |event: &Event| {
        matches!(
            event,
            Event::EntryAdded { .. }
                | Event::EntryEdited { .. }
                | Event::Weighed { .. }
                | Event::Requested { .. }
        )
    };
    let ruled = day.act(act).find(|r| matches!(r.event, Event::Ruled(_)));
    if let Some(ruled) = ruled {
        return ruled_by_words(day, ruled.seq, values);
    }
    let target = day
        .act(act)
        .find(|r| correctable(&r.event))
        .map(|r| r.seq)
        .ok_or_else(|| {
            Refusal::NotCorrectable(
                "only entries, details, weigh-ins, requests and attempts have details to correct; annul it and enter it anew"
                    .to_owned(),
            )
        })?;
    let mut event = day
        .effective(target)
        .cloned()
        .ok_or_else(|| Refusal::NoSuchAct(id_of(day, act)))?;
    for (key, value) in values {
        correct_detail(facts, &mut event, key, value)?;
    }
    Ok((target, event))
}

fn correct_detail(
    facts: &Facts,
    event: &mut Event,
    key: &str,
    value: &str,
) -> Result<(), Refusal> {
    let reading = facts.reading();
    let sentence = |e: crate::roster::ColumnError| Refusal::Setting(format!("{e}."));
    match event {
        Event::Weighed { bodyweight, .. } if key == "bodyweight" || key == "load" => {
            *bodyweight = reading.bodyweight(value, None).map_err(sentence)?;
            Ok(())
        }
        Event::Requested { load, .. } if key == "load" => {
            *load = reading.load(value).map_err(sentence)?;
            Ok(())
        }
        Event::EntryAdded {
            changes, number, ..
        } => {
            let column = column(facts, key)?;
            let new = reading.read(&column, value, None).map_err(sentence)?;
            for change in new {
                match change {
                    crate::roster::Change::Number(n) => *number = n,
                    other => changes.push(other),
                }
            }
            Ok(())
        }
        Event::EntryEdited { changes, .. } => {
            let column = column(facts, key)?;
            changes.extend(reading.read(&column, value, None).map_err(sentence)?);
            Ok(())
        }
        _ => Err(Refusal::NotCorrectable(format!("it has no detail “{key}”"))),
    }
}

fn column(facts: &Facts, key: &str) -> Result<crate::roster::Column, Refusal> {
    crate::roster::Column::named(key, &facts.slots)
        .ok_or_else(|| Refusal::NotCorrectable(format!("there is no detail “{key}”")))
}

fn ruled_by_words(
    day: &Day,
    seq: u64,
    values: &[(String, String)],
) -> Result<(u64, Event), Refusal> {
    let facts = day.facts();
    let Some(Event::Ruled(fact)) = day.effective(seq) else {
        return Err(Refusal::NoSuchAct(id_of(day, seq)));
    };
    let mut fact = fact.as_ref().clone();
    let overruled = facts
        .attempt(fact.entry, &fact.slot, fact.attempt)
        .and_then(|a| a.ruled.as_ref())
        .is_some_and(|r| r.seq == seq && r.first.is_some());
    if overruled && values.iter().any(|(key, _)| key == "ruling") {
        return Err(Refusal::NotCorrectable(
            "that attempt was overruled; overrule it again, or annul the overruling"
                .to_owned(),
        ));
    }
    for (key, value) in values {
        match key.as_str() {
            "load" => {
                let load = facts
                    .reading()
                    .load(value)
                    .map_err(|e| Refusal::Setting(format!("{e}.")))?;
                fact.requested = Some(load.clone());
                fact.loaded = Some(load.clone());
                fact.credited = Some(load);
            }
            "ruling" => {
                let outcome = Outcome {
                    ruling: Ruling::parse(value),
                    ..Outcome::default()
                };
                new_outcome(facts, &mut fact, &outcome)?;
            }
            other => {
                return Err(Refusal::NotCorrectable(format!(
                    "an attempt has load and ruling, not “{other}”"
                )));
            }
        }
    }
    Ok((seq, Event::Ruled(Box::new(fact))))
}
