//! Entries, comings and goings, the scale and places.

use std::collections::BTreeSet;

use super::{Decided, resolve};
use crate::day::command::{Context, NewEntry, Place, Roll};
use crate::day::event::Event;
use crate::day::facts::Facts;
use crate::day::fold::presence_after;
use crate::day::{Day, Refusal};
use crate::lift::Slug;
use crate::measure::Weight;
use crate::roster::{Change, Entry, EntryKey, Presence};

pub(super) fn add(
    day: &Day,
    entries: &[NewEntry],
    context: &Context,
) -> Result<Decided, Refusal> {
    let facts = day.facts();
    if entries.is_empty() {
        return Err(Refusal::NoName);
    }
    let mut taken: BTreeSet<u16> = facts.numbers.keys().copied().collect();
    for entry in entries {
        if let Some(number) = entry.number
            && !taken.insert(number)
        {
            return Err(number_taken(facts, number, &taken));
        }
    }
    let blank = entries.iter().filter(|e| e.number.is_none()).count();
    let mut drawn = draw(&taken, blank, context.draw)?.into_iter();
    let mut events = Vec::new();
    let mut made: BTreeSet<(String, String)> = BTreeSet::new();
    for (new, key) in entries.iter().zip(day.next_key()..) {
        let named = new.changes.iter().any(|c| match c {
            Change::Given(n) | Change::Family(n) => !n.trim().is_empty(),
            _ => false,
        });
        if !named {
            return Err(Refusal::NoName);
        }
        let number = match new.number {
            Some(number) => in_range(number)?,
            None => drawn.next().ok_or(Refusal::NoFreeNumber)?,
        };
        let (place, flight_made) = settle(facts, &new.place, None, &mut made)?;
        events.extend(flight_made);
        let mut changes: Vec<Change> = new
            .changes
            .iter()
            .filter(|c| !matches!(c, Change::Number(_)))
            .cloned()
            .collect();
        changes.push(place);
        events.push(Event::EntryAdded {
            entry: EntryKey(key),
            number,
            changes,
        });
    }
    Ok(Decided::new(None, events))
}

fn number_taken(facts: &Facts, number: u16, taken: &BTreeSet<u16>) -> Refusal {
    let free = (1..=9_999).find(|n| !taken.contains(n));
    match free {
        Some(free) => Refusal::NumberTaken {
            number,
            name: facts
                .entry_by_number(number)
                .map_or_else(|| "another new entry".to_owned(), Entry::name),
            free,
        },
        None => Refusal::NoFreeNumber,
    }
}

/// Refuses a table number that no entry can have.
fn in_range(number: u16) -> Result<u16, Refusal> {
    if (1..=9_999).contains(&number) {
        return Ok(number);
    }
    Err(Refusal::Setting(format!(
        "{number} is no lot; a lot is a whole number from 1 to 9999."
    )))
}

/// Draws `count` free numbers at random; the same seed draws the same.
fn draw(taken: &BTreeSet<u16>, count: usize, seed: u64) -> Result<Vec<u16>, Refusal> {
    let mut pool: Vec<u16> = (1..=9_999)
        .filter(|n| !taken.contains(n))
        .take(count)
        .collect();
    if pool.len() < count {
        return Err(Refusal::NoFreeNumber);
    }
    let mut state = seed;
    for i in (1..pool.len()).rev() {
        let bound = i as u64 + 1;
        let j = usize::try_from(next_random(&mut state) % bound).unwrap_or(0);
        pool.swap(i, j);
    }
    Ok(pool)
}

/// One step of the SplitMix64 generator (Steele, Lea and Flood, 2014).
fn next_random(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mut z = *state;
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// Settles a place; a flight that isn't there yet is made.
///
/// `now` is the entry that moves; what is left blank stays as it is for it.
fn settle(
    facts: &Facts,
    place: &Place,
    now: Option<&Entry>,
    made: &mut BTreeSet<(String, String)>,
) -> Result<(Change, Option<Event>), Refusal> {
    let session = place
        .session
        .clone()
        .filter(|s| !s.trim().is_empty())
        .or_else(|| now.map(|e| e.session.clone()).filter(|s| !s.is_empty()))
        .unwrap_or_else(|| "1".to_owned());
    if let Some(platform) = place.platform {
        let _ = resolve::existing(facts, platform)?;
    }
    let named = place.flight.clone().filter(|f| !f.trim().is_empty());
    let flight = match (named, place.platform) {
        (Some(flight), _) => flight,
        (None, Some(platform)) => {
            let there = facts
                .flights
                .iter()
                .find(|f| f.session == session && f.platform == platform);
            match there {
                Some(flight) => flight.name.clone(),
                None => format!("P{platform}"),
            }
        }
        (None, None) => match now {
            Some(entry) if entry.session == session => entry.flight.clone(),
            _ => String::new(),
        },
    };
    let change = Change::Place {
        session: session.clone(),
        flight: flight.clone(),
    };
    if flight.is_empty() {
        return Ok((change, None));
    }
    if let Some(known) = facts.flight(&session, &flight) {
        if let Some(platform) = place.platform.filter(|p| *p != known.platform) {
            return Err(Refusal::NoSuchFlight {
                flight: format!(
                    "{session}/{flight} on {}",
                    facts.platform_label(platform)
                ),
                allowed: format!("it on {}", facts.platform_label(known.platform)),
            });
        }
        return Ok((change, None));
    }
    if !made.insert((session.clone(), flight.clone())) {
        return Ok((change, None));
    }
    let platform = place
        .platform
        .or_else(|| now.and_then(|e| facts.platform_of(e)))
        .unwrap_or(1);
    let event = Event::FlightMade {
        session,
        flight,
        platform,
    };
    Ok((change, Some(event)))
}

pub(super) fn edit(
    facts: &Facts,
    number: u16,
    changes: &[Change],
) -> Result<Decided, Refusal> {
    let entry = resolve::entry(facts, number)?;
    let changes = checked_changes(facts, entry, changes)?;
    Decided::one(
        None,
        Event::EntryEdited {
            entry: entry.key,
            changes,
        },
    )
}

fn checked_changes(
    facts: &Facts,
    entry: &Entry,
    changes: &[Change],
) -> Result<Vec<Change>, Refusal> {
    if changes.is_empty() {
        return Err(Refusal::AlreadySo(format!(
            "Nothing was said that changes lot {}.",
            entry.number
        )));
    }
    let mut after = entry.clone();
    for change in changes {
        after.apply(change);
    }
    let _ = in_range(after.number)?;
    if after.given.trim().is_empty() && after.family.trim().is_empty() {
        return Err(Refusal::NoName);
    }
    if facts
        .entry_by_number(after.number)
        .is_some_and(|other| other.key != entry.key)
    {
        let taken = facts.numbers.keys().copied().collect();
        return Err(number_taken(facts, after.number, &taken));
    }
    // A variant with attempts can't become another lift, nor one that is called.
    for change in changes {
        if let Change::Slot { slot, variant, .. } = change
            && entry.variant(slot) != variant.as_ref()
        {
            not_called_in(facts, entry, slot)?;
        }
        if let Change::Slot { slot, variant, .. } = change
            && entry.variant(slot) != variant.as_ref()
            && has_attempts(facts, entry, slot)
        {
            return Err(Refusal::NotCorrectable(format!(
                "lot {} has attempts in {slot} as {}",
                entry.number,
                entry.variant(slot).map_or("nothing", Slug::as_str)
            )));
        }
    }
    Ok(changes.to_vec())
}

fn has_attempts(facts: &Facts, entry: &Entry, slot: &Slug) -> bool {
    facts
        .run(entry.key, slot)
        .is_some_and(|run| run.attempts.values().any(|a| a.ruled.is_some()))
}

pub(super) fn edit_many(
    facts: &Facts,
    edits: &[(EntryKey, Vec<Change>, Place)],
) -> Result<Decided, Refusal> {
    let mut events = Vec::new();
    let mut made = BTreeSet::new();
    let mut given: BTreeSet<u16> = BTreeSet::new();
    for (key, changes, place) in edits {
        let entry = facts.entries.get(key).ok_or(Refusal::NoSuchNumber(0))?;
        if !changes.is_empty() {
            let changes = checked_changes(facts, entry, changes)?;
            for change in &changes {
                if let Change::Number(number) = change
                    && !given.insert(*number)
                {
                    let taken = facts.numbers.keys().copied().chain(given).collect();
                    return Err(number_taken(facts, *number, &taken));
                }
            }
            events.push(Event::EntryEdited {
                entry: *key,
                changes,
            });
        }
        if *place != Place::default() {
            let (change, flight) = settle(facts, place, Some(entry), &mut made)?;
            events.extend(flight);
            events.extend(placed(entry, change));
        }
    }
    if events.is_empty() {
        return Err(Refusal::AlreadySo("Nothing changes.".to_owned()));
    }
    Ok(Decided::new(None, events))
}

fn placed(entry: &Entry, change: Change) -> Option<Event> {
    match change {
        Change::Place { session, flight }
            if session != entry.session || flight != entry.flight =>
        {
            Some(Event::Placed {
                entry: entry.key,
                session,
                flight,
            })
        }
        _ => None,
    }
}

pub(super) fn place(facts: &Facts, moves: &[(u16, Place)]) -> Result<Decided, Refusal> {
    let mut events = Vec::new();
    let mut made = BTreeSet::new();
    for (number, place) in moves {
        let entry = resolve::entry(facts, *number)?;
        let call = facts.platforms.iter().zip(1_u8..).find_map(|(p, n)| {
            p.call
                .as_ref()
                .filter(|c| c.entry == entry.key)
                .map(|c| (c, n))
        });
        if let Some((call, platform)) = call {
            return Err(super::platform::somebody_called(facts, platform, call));
        }
        let (change, flight) = settle(facts, place, Some(entry), &mut made)?;
        events.extend(flight);
        events.extend(placed(entry, change));
    }
    if events.is_empty() {
        return Err(Refusal::AlreadySo(
            "Everybody named is in that flight already.".to_owned(),
        ));
    }
    // The act belongs to the flights even where it makes one first.
    Ok(Decided::new(None, events))
}

pub(super) fn roll(
    facts: &Facts,
    number: u16,
    roll: Roll,
    reason: &str,
) -> Result<Decided, Refusal> {
    let entry = resolve::entry(facts, number)?;
    let presence = presence_after(roll);
    if entry.presence == presence {
        let word = match presence {
            Presence::Absent => "absent",
            Presence::Away => "away",
            Presence::Expected | Presence::Here => "here",
        };
        return Err(Refusal::AlreadySo(format!(
            "Lot {number} is {word} already."
        )));
    }
    if matches!(presence, Presence::Absent | Presence::Away) {
        not_called(facts, entry)?;
    }
    Decided::one(
        None,
        Event::RollAnswered {
            entry: entry.key,
            presence,
            back: roll == Roll::Back,
            reason: reason.trim().to_owned(),
        },
    )
}

fn not_called(facts: &Facts, entry: &Entry) -> Result<(), Refusal> {
    for (place, number) in facts.platforms.iter().zip(1_u8..) {
        if let Some(call) = place.call.as_ref().filter(|c| c.entry == entry.key) {
            return Err(super::platform::somebody_called(facts, number, call));
        }
    }
    Ok(())
}

fn not_called_in(facts: &Facts, entry: &Entry, slot: &Slug) -> Result<(), Refusal> {
    let called = facts.platforms.iter().zip(1_u8..).find_map(|(p, n)| {
        let call = p.call.as_ref()?;
        (call.entry == entry.key && call.slot == *slot).then_some((call, n))
    });
    match called {
        Some((call, n)) => Err(super::platform::somebody_called(facts, n, call)),
        None => Ok(()),
    }
}

/// Who leaves, and which slot; no slot is the whole day.
fn leaver<'a>(
    facts: &'a Facts,
    number: u16,
    lift: Option<&Slug>,
) -> Result<(&'a Entry, Option<Slug>), Refusal> {
    let entry = resolve::entry(facts, number)?;
    let slot = match lift {
        Some(lift) => Some(resolve::slot(facts, entry, Some(lift))?.0),
        None => None,
    };
    Ok((entry, slot))
}

/// Refuses to say again that somebody is out of the day or of the slot.
fn not_out_already(
    entry: &Entry,
    of_day: bool,
    of_slots: &BTreeSet<Slug>,
    slot: Option<&Slug>,
    word: &str,
) -> Result<(), Refusal> {
    if of_day || slot.is_some_and(|s| of_slots.contains(s)) {
        return Err(Refusal::AlreadySo(format!(
            "Lot {} is {word} already.",
            entry.number
        )));
    }
    Ok(())
}

pub(super) fn withdraw(
    facts: &Facts,
    number: u16,
    lift: Option<&Slug>,
    reason: &str,
) -> Result<Decided, Refusal> {
    let (entry, slot) = leaver(facts, number, lift)?;
    let slots = &entry.withdrawn_slots;
    not_out_already(entry, entry.withdrawn, slots, slot.as_ref(), "withdrawn")?;
    not_called(facts, entry)?;
    Decided::one(
        None,
        Event::Withdrawn {
            entry: entry.key,
            slot,
            reason: reason.trim().to_owned(),
        },
    )
}

/// Disqualifies an athlete in one lift or on the day; a reason is needed.
pub(super) fn disqualify(
    facts: &Facts,
    number: u16,
    lift: Option<&Slug>,
    reason: &str,
) -> Result<Decided, Refusal> {
    let (entry, slot) = leaver(facts, number, lift)?;
    if reason.trim().is_empty() {
        return Err(Refusal::ReasonNeeded);
    }
    let slots = &entry.disqualified_slots;
    not_out_already(
        entry,
        entry.disqualified,
        slots,
        slot.as_ref(),
        "disqualified",
    )?;
    not_called(facts, entry)?;
    Decided::one(
        None,
        Event::Disqualified {
            entry: entry.key,
            slot,
            reason: reason.trim().to_owned(),
        },
    )
}

pub(super) fn weigh(
    facts: &Facts,
    number: u16,
    bodyweight: &Weight,
) -> Result<Decided, Refusal> {
    let entry = resolve::entry(facts, number)?;
    let text = format!("{} {}", bodyweight.typed, bodyweight.unit);
    let _ = facts
        .reading()
        .bodyweight(&text, None)
        .map_err(|e| Refusal::Setting(format!("{e}.")))?;
    Decided::one(
        None,
        Event::Weighed {
            entry: entry.key,
            bodyweight: bodyweight.clone(),
        },
    )
}
