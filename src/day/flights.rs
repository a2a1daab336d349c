//! Flights made for you: a proposal, then edited by hand.

use super::facts::Facts;
use crate::measure::{Length, Mass};
use crate::roster::Entry;

/// What a flight has in common.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FlightBy {
    /// Strength: the openers, else the last maxes.
    Strength,
    /// Height of the squat rack, so that it is moved seldom.
    RackHeight,
    /// Sex, then strength.
    Sex,
    /// Bodyweight within the sex.
    Category,
}

/// A proposed flight.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FlightPlan {
    /// Its name.
    pub name: String,
    /// Its platform.
    pub platform: u8,
    /// Its entries, by table number.
    pub numbers: Vec<u16>,
    /// How long all its slots take at the rules' pace, in minutes.
    pub minutes: u32,
}

/// A proposal for a session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proposal {
    /// The flights, in order.
    pub flights: Vec<FlightPlan>,
    /// The longest platform's time, in minutes.
    pub minutes: u32,
    /// Minutes between the session's planned start and end, if it has both.
    pub planned: Option<u32>,
}

/// The largest flight that is proposed where the rules advise none (common
/// practice: a flight larger than this waits too long).
const MOST_IN_FLIGHT: usize = 14;

/// Proposes flights of even size for a session over some platforms.
///
/// Every platform gets the same number of flights, so that all end at about
/// the same time. Sizes differ by one at most. Absent and withdrawn athletes
/// are left out. Names are letters from `first` on.
pub fn propose_flights(
    facts: &Facts,
    session: &str,
    by: FlightBy,
    platforms: &[u8],
    first: char,
) -> Proposal {
    let mut entries: Vec<&Entry> = facts
        .entries_by_number()
        .filter(|e| e.session == session && !e.withdrawn)
        .filter(|e| e.presence != crate::roster::Presence::Absent)
        .collect();
    entries.sort_by_key(|e| (sort_key(by, e), strength(e), e.number));
    let lanes = platforms.len().max(1);
    let advised = facts
        .rules
        .flight_most
        .and_then(|n| usize::try_from(n).ok());
    let most = advised.unwrap_or(MOST_IN_FLIGHT);
    let rows = entries.len().div_ceil(lanes * most).max(1);
    let count = (lanes * rows).min(entries.len()).max(1);
    let mut flights = Vec::new();
    let mut taken = 0;
    for i in 0..count {
        let size = entries.len() / count + usize::from(i < entries.len() % count);
        let group = &entries[taken..taken + size];
        taken += size;
        if size > 0 {
            flights.push(FlightPlan {
                name: letter(first, i),
                platform: platforms.get(i % lanes).copied().unwrap_or(1),
                numbers: group.iter().map(|e| e.number).collect(),
                minutes: minutes(facts, group),
            });
        }
    }
    let lane_minutes = |p: &u8| -> u32 {
        let own = flights.iter().filter(|f| f.platform == *p);
        own.map(|f| f.minutes).sum()
    };
    let longest = platforms.iter().map(lane_minutes).max().unwrap_or(0);
    let plan = facts.sessions.get(session);
    let planned = plan
        .and_then(|s| Some((s.end? - s.start?).num_minutes()))
        .and_then(|m| u32::try_from(m).ok());
    Proposal {
        flights,
        minutes: longest,
        planned,
    }
}

/// Minutes that a group's attempts in all its slots take at the rules' pace.
fn minutes(facts: &Facts, group: &[&Entry]) -> u32 {
    let attempts: usize = group
        .iter()
        .map(|e| facts.slots.iter().filter(|l| e.takes_part(&l.slot)).count())
        .sum::<usize>()
        * usize::from(facts.rules.attempts);
    let seconds = u32::try_from(attempts)
        .unwrap_or(u32::MAX)
        .saturating_mul(facts.rules.pace);
    seconds.div_ceil(60)
}

/// Sum of the openers, each else the last max.
fn strength(entry: &Entry) -> Mass {
    entry
        .slots
        .values()
        .filter_map(|line| {
            let variant = line.variant.as_ref()?;
            let load = line.opener.as_ref().or_else(|| entry.last.get(variant))?;
            Some(load.mass)
        })
        .sum()
}

fn sort_key(by: FlightBy, entry: &Entry) -> (u8, i64) {
    let sex = match entry.sex {
        Some(crate::rules::Sex::F) => 0,
        Some(crate::rules::Sex::M) => 1,
        None => 2,
    };
    match by {
        FlightBy::Strength => (0, 0),
        FlightBy::RackHeight => {
            let height = entry
                .setups
                .iter()
                .filter(|(name, _)| name.starts_with("rack"))
                .find_map(|(_, value)| Length::parse(value).ok());
            (
                u8::from(height.is_none()),
                height.map_or(0, |h| i64::from(h.mm())),
            )
        }
        FlightBy::Sex => (sex, 0),
        FlightBy::Category => (
            sex,
            entry
                .bodyweight
                .as_ref()
                .map_or(i64::MAX, |w| w.mass.counts()),
        ),
    }
}

/// A, B, … Z, then A2, B2, …
fn letter(first: char, i: usize) -> String {
    let from = u8::try_from(first).unwrap_or(b'A').to_ascii_uppercase();
    let from = usize::from(from.saturating_sub(b'A')) + i;
    let c = char::from(b'A' + u8::try_from(from % 26).unwrap_or(0));
    match from / 26 {
        0 => c.to_string(),
        n => format!("{c}{}", n + 1),
    }
}
