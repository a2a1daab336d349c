//! Folds one event into the facts.
//!
//! Total: an event that stands is a fact, so there is nothing to refuse. What
//! refers to somebody unknown changes nothing.

mod attempts;

use super::clock::Clock;
use super::event::{Event, Recorded};
use super::facts::{
    Call, Facts, Flight, Platform, Request, Revision, Ruled, Running, Session,
};
use super::{ClockMove, Stamp, settings};
use crate::lift::Slug;
use crate::roster::{Change, Entry, EntryKey, Presence};
use crate::rules::{ChangeClock, Rules};
use attempts::{bar_so_far, called, load_found, ruled};

/// Folds `event`, recorded as `recorded`, into the facts.
///
/// The event is passed apart because a correction may have replaced the one
/// that was recorded.
pub(super) fn fold(facts: &mut Facts, recorded: &Recorded, event: &Event) {
    match event {
        Event::DayMade { .. } => made(facts, event),
        Event::SettingChanged { key, value } => drop(settings::set(facts, key, value)),
        Event::FlightMade {
            session,
            flight,
            platform,
        } => make_flight(facts, session, flight, *platform),
        Event::EntryAdded {
            entry,
            number,
            changes,
        } => {
            let _ = facts.entries.insert(*entry, Entry::new(*entry, *number));
            let _ = facts.numbers.insert(*number, *entry);
            change(facts, *entry, changes);
        }
        Event::EntryEdited { entry, changes } => change(facts, *entry, changes),
        Event::Placed {
            entry,
            session,
            flight,
        } => {
            change(
                facts,
                *entry,
                &[Change::Place {
                    session: session.clone(),
                    flight: flight.clone(),
                }],
            );
            leave_call(facts, *entry, None);
        }
        Event::RollAnswered {
            entry, presence, ..
        } => {
            with_entry(facts, *entry, |e| e.presence = *presence);
            if matches!(presence, Presence::Absent | Presence::Away) {
                leave_call(facts, *entry, None);
            }
        }
        Event::Withdrawn { entry, slot, .. } => {
            with_entry(facts, *entry, |e| match slot {
                Some(slot) => drop(e.withdrawn_slots.insert(slot.clone())),
                None => e.withdrawn = true,
            });
            leave_call(facts, *entry, slot.as_ref());
        }
        Event::Disqualified {
            entry,
            slot,
            reason,
        } => {
            with_entry(facts, *entry, |e| {
                match slot {
                    Some(slot) => drop(e.disqualified_slots.insert(slot.clone())),
                    None => e.disqualified = true,
                }
                let _ = e.disqualified_why.insert(slot.clone(), reason.clone());
            });
            leave_call(facts, *entry, slot.as_ref());
        }
        Event::Numbered { numbers } => numbered(facts, numbers),
        Event::Weighed { entry, bodyweight } => {
            with_entry(facts, *entry, |e| e.bodyweight = Some(bodyweight.clone()));
        }
        Event::Cleared {
            entry,
            slot,
            clearance,
            until,
            ..
        } => change(
            facts,
            *entry,
            &[Change::Clearance {
                slot: slot.clone(),
                clearance: Some(clearance.clone()),
                until: *until,
            }],
        ),
        Event::Capped {
            entry, slot, load, ..
        } => with_entry(facts, *entry, |e| match load {
            Some(load) => drop(e.caps.insert(slot.clone(), load.clone())),
            None => drop(e.caps.remove(slot)),
        }),
        Event::Closed { session } => {
            close(facts, session.as_deref(), true);
            facts.revisions.push(Revision {
                session: session.clone(),
                closed_at: recorded.at,
                reopened: None,
            });
        }
        Event::Reopened { session, reason } => {
            close(facts, session.as_deref(), false);
            let last = facts.revisions.iter_mut().rev();
            if let Some(revision) = last.into_iter().find(|r| r.session == *session) {
                revision.reopened =
                    Some((recorded.at, reason.clone(), recorded.hand.clone()));
            }
        }
        Event::RecordListed { record, mark } => match mark {
            Some(mark) => drop(facts.records.insert(record.clone(), mark.clone())),
            None => drop(facts.records.remove(record)),
        },
        Event::Noted { text, .. } => facts.notes.push(text.clone()),
        Event::Corrected { .. } | Event::Annulled { .. } | Event::Redone { .. } => {}
        _ => on_platform(facts, recorded, event),
    }
}

fn on_platform(facts: &mut Facts, recorded: &Recorded, event: &Event) {
    let at = recorded.at;
    match event {
        Event::StationChecked { platform, who } => {
            if let Some(p) = facts.platform_mut(*platform) {
                p.checked = Some(who.clone());
            }
        }
        Event::SlotStarted {
            platform,
            session,
            flight,
            slot,
        } => {
            // A flight that was moved runs on one platform only.
            for p in &mut facts.platforms {
                let moved = p
                    .running
                    .as_ref()
                    .is_some_and(|r| r.session == *session && r.flight == *flight);
                if moved {
                    p.running = None;
                    p.call = None;
                }
            }
            let _ = facts
                .begun
                .insert((session.clone(), flight.clone(), slot.clone()));
            let bar = bar_so_far(facts, session, flight, slot);
            if let Some(p) = facts.platform_mut(*platform) {
                p.running = Some(Running {
                    session: session.clone(),
                    flight: flight.clone(),
                    slot: slot.clone(),
                });
                p.call = None;
                p.bar = bar;
                p.last = None;
                p.break_until = None;
            }
        }
        Event::BreakCalled { platform, minutes } => {
            if let Some(p) = facts.platform_mut(*platform) {
                p.break_until = Some(at.plus_ms(i64::from(*minutes) * 60_000));
            }
        }
        Event::Requested {
            entry,
            slot,
            attempt,
            load,
            change,
            record,
        } => {
            let request = Request {
                load: load.clone(),
                change: *change,
                record: *record,
                at,
            };
            facts
                .attempt_mut(*entry, slot, *attempt)
                .requests
                .push(request);
            let stops = facts.rules.change_clock == ChangeClock::Stop;
            for p in &mut facts.platforms {
                if let Some(call) =
                    p.call.as_mut().filter(|c| c.is(*entry, slot, *attempt))
                    && call.load != *load
                {
                    call.load = load.clone();
                    // The bar is changed now; the clock waits for the loaders.
                    if let Some(clock) = call.clock.as_mut().filter(|_| stops) {
                        clock.stop(at);
                    }
                }
            }
        }
        Event::Called { .. } => called(facts, recorded, event),
        Event::CallWithdrawn { entry, slot, .. } => leave_call(facts, *entry, Some(slot)),
        Event::ClockMoved { movement } => {
            if let Some(clock) = clock_of(facts, recorded.platform) {
                match movement {
                    ClockMove::Stop => clock.stop(at),
                    ClockMove::Resume => clock.resume(at),
                    ClockMove::Set(left) => clock.set(*left, at),
                }
            }
        }
        Event::Undone {
            clock: Some(left), ..
        } => {
            if let Some(clock) = clock_of(facts, recorded.platform) {
                clock.left = *left;
                clock.anchor = None;
            }
        }
        Event::Ruled(fact) => ruled(facts, recorded, fact),
        Event::ExtraGranted { entry, slot, .. } => {
            let runs = facts.runs.entry(*entry).or_default();
            let run = runs.entry(slot.clone()).or_default();
            run.extra = run.extra.saturating_add(1);
        }
        Event::ChallengeLost { entry, slot, .. } => {
            let runs = facts.runs.entry(*entry).or_default();
            let run = runs.entry(slot.clone()).or_default();
            run.challenges_lost = run.challenges_lost.saturating_add(1);
        }
        Event::LoadFound { .. } => load_found(facts, event),
        Event::Reruled {
            entry,
            slot,
            attempt,
            ruling,
            faults,
            ..
        } => {
            if let Some(ruled) = facts.attempt_mut(*entry, slot, *attempt).ruled.as_mut()
            {
                let old = std::mem::replace(&mut ruled.fact.ruling, ruling.clone());
                ruled.first = ruled.first.take().or(Some(old));
                ruled.fact.faults.clone_from(faults);
            }
        }
        _ => {}
    }
}

fn made(facts: &mut Facts, event: &Event) {
    let Event::DayMade {
        name,
        date,
        format,
        bar_unit,
        scale_unit,
        rules,
        slots,
        platforms,
    } = event
    else {
        return;
    };
    let mut made = Facts::empty();
    name.clone_into(&mut made.name);
    made.date = *date;
    format.clone_into(&mut made.format);
    made.bar_unit = *bar_unit;
    made.scale_unit = *scale_unit;
    // A word from a newer program leaves the shipped format's own.
    made.rules = Rules::from_words(rules, *bar_unit).unwrap_or_else(|_| {
        let mut known = crate::rules::format_named(format)
            .and_then(|f| f.rules(*bar_unit))
            .unwrap_or_else(|_| Rules::blank(*bar_unit));
        for (key, word) in rules {
            drop(known.set(key, word));
        }
        known
    });
    made.slots.clone_from(slots);
    made.platforms = vec![Platform::default(); usize::from(*platforms).max(1)];
    let _ = made.sessions.insert("1".to_owned(), Session::default());
    *facts = made;
}

fn make_flight(facts: &mut Facts, session: &str, flight: &str, platform: u8) {
    let _ = facts.sessions.entry(session.to_owned()).or_default();
    if facts.flight(session, flight).is_none() {
        facts.flights.push(Flight {
            session: session.to_owned(),
            name: flight.to_owned(),
            platform,
        });
    }
}

fn change(facts: &mut Facts, key: EntryKey, changes: &[Change]) {
    let Some(entry) = facts.entries.get_mut(&key) else {
        return;
    };
    let old = entry.number;
    for change in changes {
        entry.apply(change);
        if matches!(
            change,
            Change::Clearance {
                clearance: Some(_),
                ..
            }
        ) {
            facts.gates_on = true;
        }
    }
    // Whoever is no longer entered as called isn't called any more: an edit
    // came between a call that was undone and its redo.
    for p in &mut facts.platforms {
        let other = p
            .call
            .as_ref()
            .is_some_and(|c| c.entry == key && entry.variant(&c.slot) != Some(&c.lift));
        if other {
            p.call = None;
        }
    }
    let number = entry.number;
    if number != old {
        if facts.numbers.get(&old) == Some(&key) {
            let _ = facts.numbers.remove(&old);
        }
        let _ = facts.numbers.insert(number, key);
    }
}

/// Start numbers take the place of the lots, which are kept.
fn numbered(facts: &mut Facts, numbers: &[(EntryKey, u16)]) {
    for (key, number) in numbers {
        with_entry(facts, *key, |e| {
            e.lot = e.lot.or(Some(e.number));
            e.number = *number;
        });
    }
    facts.numbers = facts.entries.values().map(|e| (e.number, e.key)).collect();
}

fn with_entry(facts: &mut Facts, key: EntryKey, f: impl FnOnce(&mut Entry)) {
    if let Some(entry) = facts.entries.get_mut(&key) {
        f(entry);
    }
}

fn close(facts: &mut Facts, session: Option<&str>, closed: bool) {
    match session {
        Some(name) => {
            if let Some(session) = facts.sessions.get_mut(name) {
                session.closed = closed;
            }
        }
        None => facts.closed = closed,
    }
}

/// Ends a live call of the entry, in one slot or in any.
fn leave_call(facts: &mut Facts, entry: EntryKey, slot: Option<&Slug>) {
    for p in &mut facts.platforms {
        if p.call
            .as_ref()
            .is_some_and(|c| c.entry == entry && slot.is_none_or(|s| c.slot == *s))
        {
            p.call = None;
        }
    }
}

fn clock_of(facts: &mut Facts, platform: Option<u8>) -> Option<&mut Clock> {
    facts.platform_mut(platform?)?.call.as_mut()?.clock.as_mut()
}

impl Call {
    /// Whether the call is for this attempt.
    pub fn is(&self, entry: EntryKey, slot: &Slug, attempt: u8) -> bool {
        self.entry == entry && self.slot == *slot && self.attempt == attempt
    }
}

/// Presence after an answer to the roll.
pub(super) const fn presence_after(roll: super::Roll) -> Presence {
    match roll {
        super::Roll::Here | super::Roll::Back => Presence::Here,
        super::Roll::Absent => Presence::Absent,
        super::Roll::Away => Presence::Away,
    }
}

/// When an attempt counts as taken, for ties by time: its place in the
/// journal, since times may be typed late.
pub(super) const fn taken(ruled: &Ruled) -> (u64, Stamp) {
    (ruled.seq, ruled.at)
}
