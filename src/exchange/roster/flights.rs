//! Sessions, flights and platforms of a roster.

use std::collections::BTreeMap;

use super::super::Fault;
use super::RosterRead;
use super::header::Head;
use crate::day::{Facts, Place};
use crate::roster::{Column, Entry, EntryKey};

/// The session of a row that names none.
const FIRST: &str = "1";

/// Where a row is to lift, as far as it says so.
struct Wanted {
    session: String,
    flight: String,
    platform: Option<u8>,
}

/// Settles which flights have to be made and where, and fills in the
/// sessions and platforms of `read`'s entries.
pub(super) fn settle(
    facts: &Facts,
    read: &mut RosterRead,
    matched: &[Option<EntryKey>],
    head: &Head,
    faults: &mut Vec<Fault>,
) {
    // Platform by session and flight, with the row that said it first.
    let mut told: BTreeMap<(String, String), (u8, u64)> = BTreeMap::new();
    let mut made: Vec<(String, String)> = Vec::new();
    let label = head.label(|c| *c == Column::Platform).to_owned();
    for at in 0..read.rows.len() {
        let row = read.rows[at].clone();
        let known = matched.get(at).copied().flatten();
        let known = known.and_then(|key| facts.entries.get(&key));
        let place = &row.place;
        let wanted = Wanted {
            session: place
                .session
                .clone()
                .or_else(|| known.map(|e| e.session.clone()).filter(|s| !s.is_empty()))
                .unwrap_or_else(|| FIRST.to_owned()),
            flight: flight_of(facts, place, known),
            platform: place.platform,
        };
        read.entries[at].place.session = Some(wanted.session.clone());
        if wanted.flight.is_empty() {
            continue;
        }
        read.entries[at].place.flight = Some(wanted.flight.clone());
        if place.platform.is_some() {
            read.rows[at].place.flight = Some(wanted.flight.clone());
        }
        let key = (wanted.session.clone(), wanted.flight.clone());
        if facts.flight(&key.0, &key.1).is_none() && !made.contains(&key) {
            made.push(key.clone());
        }
        let Some(platform) = wanted.platform else {
            continue;
        };
        if let Some(message) = clash(facts, &wanted, platform, &told) {
            faults.push(Fault::at((row.row, row.line), &label, message));
        }
        let _ = told.entry(key).or_insert((platform, row.row));
    }
    for key in made {
        let platform = told.get(&key).map_or(1, |(platform, _)| *platform);
        for entry in &mut read.entries {
            let place = &mut entry.place;
            if place.session.as_ref() == Some(&key.0)
                && place.flight.as_ref() == Some(&key.1)
            {
                place.platform = Some(platform);
            }
        }
        read.flights.push((key.0, key.1, platform));
    }
}

/// The flight that a row means: the one named, else the one that it has, else
/// one on the platform that it names, which is `P2` where there is none yet.
fn flight_of(facts: &Facts, place: &Place, known: Option<&Entry>) -> String {
    if let Some(flight) = &place.flight {
        return flight.clone();
    }
    let stays = |e: &&Entry| place.session.as_ref().is_none_or(|s| *s == e.session);
    let has = known
        .filter(stays)
        .map(|e| (e.flight.clone(), facts.platform_of(e)));
    let Some(platform) = place.platform else {
        return has.map(|(flight, _)| flight).unwrap_or_default();
    };
    if let Some((flight, on)) = has
        && on == Some(platform)
    {
        return flight;
    }
    let session = place
        .session
        .as_deref()
        .or(known.map(|e| e.session.as_str()))
        .filter(|s| !s.is_empty())
        .unwrap_or(FIRST);
    facts
        .flights
        .iter()
        .find(|f| f.session == session && f.platform == platform)
        .map_or_else(|| format!("P{platform}"), |f| f.name.clone())
}

/// Why the flight can't be on that platform.
fn clash(
    facts: &Facts,
    wanted: &Wanted,
    platform: u8,
    told: &BTreeMap<(String, String), (u8, u64)>,
) -> Option<String> {
    let Wanted {
        session, flight, ..
    } = wanted;
    if let Some(there) = facts.flight(session, flight) {
        return (there.platform != platform).then(|| {
            format!(
                "Flight {flight} of session {session} lifts on {} on this day, and a \
                 flight lifts on one platform; write {}, or another flight",
                facts.platform_label(there.platform),
                there.platform
            )
        });
    }
    let (first, row) = told.get(&(session.clone(), flight.clone()))?;
    (*first != platform).then(|| {
        format!(
            "Flight {flight} of session {session} is on {} in row {row}, and a flight \
             lifts on one platform; write {first}, or another flight",
            facts.platform_label(*first)
        )
    })
}
