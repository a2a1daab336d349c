//! Which cards there are, and what is missing from one.

use std::collections::{BTreeMap, BTreeSet};

use crate::day::Facts;
use crate::lift::Slug;
use crate::roster::Entry;

/// Names a card: a flight in a slot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CardId {
    /// The session.
    pub session: String,
    /// The flight; empty for those who have none yet.
    pub flight: String,
    /// The slot.
    pub slot: Slug,
}

/// Sessions and flights that have entries, by name; in each session those
/// without a flight come first.
pub fn flights(facts: &Facts) -> Vec<(String, String)> {
    let used: BTreeSet<(&str, &str)> = facts
        .entries
        .values()
        .map(|e| (e.session.as_str(), e.flight.as_str()))
        .collect();
    let owned = |(session, flight): (&str, &str)| (session.to_owned(), flight.to_owned());
    used.into_iter().map(owned).collect()
}

/// The card that is at hand first: what runs, else the first with an attempt
/// that isn't in.
pub fn first(facts: &Facts) -> Option<CardId> {
    let running = facts.platforms.iter().find_map(|p| p.running.as_ref());
    if let Some(running) = running {
        return Some(CardId {
            session: running.session.clone(),
            flight: running.flight.clone(),
            slot: running.slot.clone(),
        });
    }
    let all = || {
        facts.slots.iter().flat_map(|line| {
            flights(facts).into_iter().map(|(session, flight)| CardId {
                session,
                flight,
                slot: line.slot.clone(),
            })
        })
    };
    all()
        .find(|id| Count::of(facts, id).is_short())
        .or_else(|| all().next())
}

/// All cards that anybody is on: by session and platform, each flight in the
/// order of the programme.
pub fn all(facts: &Facts) -> Vec<CardId> {
    let mut flights = flights(facts);
    let platform = |(session, flight): &(String, String)| {
        let known = facts.flight(session, flight);
        known.map_or(u8::MAX, |f| f.platform)
    };
    flights.sort_by_key(|flight| (flight.0.clone(), platform(flight)));
    let cards = flights.into_iter().flat_map(|(session, flight)| {
        facts.slots.iter().map(move |line| CardId {
            session: session.clone(),
            flight: flight.clone(),
            slot: line.slot.clone(),
        })
    });
    cards.filter(|id| !entries(facts, id).is_empty()).collect()
}

/// The entries on a card, by table number.
pub fn entries<'a>(facts: &'a Facts, id: &'a CardId) -> Vec<&'a Entry> {
    facts
        .entries_of(&id.session, &id.flight)
        .filter(|e| e.variant(&id.slot).is_some())
        .collect()
}

/// How far a card is filled in.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Count {
    /// Attempts that are in.
    pub entered: usize,
    /// Attempts of all who are there.
    pub all: usize,
    /// Numbers of those there who have attempts left, by the attempt that is
    /// the next one to come in.
    pub owed: BTreeMap<u8, Vec<u16>>,
}

impl Count {
    /// Counts a card.
    pub fn of(facts: &Facts, id: &CardId) -> Self {
        let mut count = Self::default();
        for entry in entries(facts, id) {
            let ruled = facts.run(entry.key, &id.slot).map_or(0, |run| {
                run.attempts.values().filter(|a| a.ruled.is_some()).count()
            });
            count.entered += ruled;
            if !entry.is_present() || !entry.takes_part(&id.slot) {
                count.all += ruled;
                continue;
            }
            let allowed = usize::from(facts.attempts_allowed(entry.key, &id.slot));
            count.all += allowed.max(ruled);
            if ruled < allowed
                && let Some(next) = facts.next_attempt(entry.key, &id.slot)
            {
                count.owed.entry(next).or_default().push(entry.number);
            }
        }
        count
    }

    /// Whether an attempt isn't in yet.
    pub fn is_short(&self) -> bool {
        self.entered < self.all
    }

    /// What is missing, as a sentence: `7 of 12 attempts are in; lot 3 owes
    /// the second, lots 4, 9 the third.`
    pub fn sentence(&self) -> String {
        if self.all == 0 {
            return "Nobody is entered here.".to_owned();
        }
        let missing = match self.missing() {
            words if words.is_empty() => words,
            words => format!("; {words}"),
        };
        format!("{} of {} attempts are in{missing}.", self.entered, self.all)
    }

    /// Who owes what next, without a full stop; empty where all is in.
    pub fn missing(&self) -> String {
        let mut parts = Vec::new();
        for (attempt, numbers) in &self.owed {
            let lots = if numbers.len() == 1 { "lot" } else { "lots" };
            let owe = match (parts.is_empty(), numbers.len()) {
                (false, _) => "",
                (true, 1) => "owes ",
                (true, _) => "owe ",
            };
            let which = ordinal(*attempt);
            parts.push(format!("{lots} {} {owe}{which}", list(numbers)));
        }
        parts.join(", ")
    }
}

/// `the third`; `attempt 12` where it has no word here.
fn ordinal(attempt: u8) -> String {
    const WORDS: [&str; 9] = [
        "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth",
        "ninth",
    ];
    let at = usize::from(attempt).checked_sub(1);
    match at.and_then(|at| WORDS.get(at)) {
        Some(word) => format!("the {word}"),
        None => format!("attempt {attempt}"),
    }
}

/// Numbers with commas; a dozen at most, and how many more.
fn list(numbers: &[u16]) -> String {
    let most = 12;
    let mut words: Vec<String> = numbers.iter().take(most).map(u16::to_string).collect();
    if numbers.len() > most {
        words.push(format!("and {} more", numbers.len() - most));
    }
    words.join(", ")
}

/// The card's flight in words: its platform, session and name.
pub fn words(facts: &Facts, session: &str, flight: &str) -> String {
    let many_sessions = facts.sessions.len() > 1;
    let session_words = if many_sessions {
        format!(", session {session}")
    } else {
        String::new()
    };
    match facts.flight(session, flight) {
        Some(known) => format!(
            "{}{session_words}, flight {flight}",
            capital(&facts.platform_label(known.platform))
        ),
        None if flight.is_empty() => format!("No flight{session_words}"),
        None => format!("Flight {flight}{session_words}"),
    }
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    match chars.next() {
        Some(first) => first.to_uppercase().chain(chars).collect(),
        None => String::new(),
    }
}
