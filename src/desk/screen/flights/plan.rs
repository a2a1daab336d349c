//! The line that asks for flights: text in, a proposal and its acts out.

use crate::day::{Command, Facts, FlightBy, Place, Proposal, propose_flights};
use crate::desk::see;

/// What flights are asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// The session.
    pub session: String,
    /// What a flight has in common.
    pub by: FlightBy,
    /// The platforms.
    pub platforms: Vec<u8>,
    /// The first flight's letter.
    pub first: char,
}

/// The line that is there before anything is typed.
pub fn usual(facts: &Facts) -> String {
    let session = facts
        .entries
        .values()
        .map(|e| e.session.as_str())
        .find(|s| !s.is_empty())
        .unwrap_or("1");
    let platforms: Vec<String> =
        (1..=facts.platforms.len()).map(|n| n.to_string()).collect();
    format!("{session} by strength on {}", platforms.join(" "))
}

/// Reads `1 by strength on 1 2 from A`: a session, then in any order what the
/// flights have in common, the platforms and the first letter.
///
/// # Errors
/// A sentence that says what would be allowed.
pub fn read_plan(facts: &Facts, text: &str) -> Result<Plan, String> {
    let mut plan = Plan {
        session: String::new(),
        by: FlightBy::Strength,
        platforms: Vec::new(),
        first: 'A',
    };
    let mut part = "session";
    for word in text.split([' ', ',']).filter(|w| !w.is_empty()) {
        if let keyword @ ("by" | "on" | "from") = word {
            part = keyword;
            continue;
        }
        match part {
            "by" => plan.by = read_by(word)?,
            "on" if word == "all" => {
                let all = u8::try_from(facts.platforms.len()).unwrap_or(u8::MAX);
                plan.platforms = (1..=all).collect();
            }
            "on" => {
                let platform =
                    crate::desk::screen::roster::fields::read_platform(facts, word)?;
                if !plan.platforms.contains(&platform) {
                    plan.platforms.push(platform);
                }
            }
            "from" => {
                plan.first = word
                    .chars()
                    .next()
                    .filter(|c| c.is_ascii_alphabetic() && word.len() == 1)
                    .ok_or_else(|| {
                        format!(
                            "“{word}” is no flight to begin with; write a letter, A to Z."
                        )
                    })?
                    .to_ascii_uppercase();
            }
            _ => {
                if !plan.session.is_empty() {
                    plan.session.push(' ');
                }
                plan.session.push_str(word);
            }
        }
    }
    if plan.session.is_empty() {
        return Err(
            "Write the session, then by strength, rack, sex or category; on and the platforms; \
             from and the first letter."
                .to_owned(),
        );
    }
    if !facts.entries.values().any(|e| e.session == plan.session) {
        let known: std::collections::BTreeSet<&str> =
            facts.entries.values().map(|e| e.session.as_str()).collect();
        let known: Vec<&str> = known.into_iter().filter(|s| !s.is_empty()).collect();
        return Err(format!(
            "Nobody is entered in session {}; there is {}.",
            plan.session,
            if known.is_empty() {
                "none yet".to_owned()
            } else {
                known.join(", ")
            }
        ));
    }
    if plan.platforms.is_empty() {
        plan.platforms.push(1);
    }
    Ok(plan)
}

fn read_by(word: &str) -> Result<FlightBy, String> {
    let words = [
        ("strength", FlightBy::Strength),
        ("rack", FlightBy::RackHeight),
        ("sex", FlightBy::Sex),
        ("category", FlightBy::Category),
    ];
    let word = word.to_lowercase();
    // An s alone is strength, the usual one.
    let found = words
        .iter()
        .find(|(w, _)| !word.is_empty() && w.starts_with(&word));
    match found {
        Some((_, by)) => Ok(*by),
        None => Err(format!(
            "Flights can't be made by “{word}”; write by strength, rack, sex or category."
        )),
    }
}

impl Plan {
    /// The proposal.
    pub fn propose(&self, facts: &Facts) -> Proposal {
        propose_flights(facts, &self.session, self.by, &self.platforms, self.first)
    }

    /// The one act that accepts a proposal.
    ///
    /// # Errors
    /// A sentence where a flight of that name lifts on another platform.
    pub fn accept(&self, facts: &Facts, proposal: &Proposal) -> Result<Command, String> {
        for flight in &proposal.flights {
            if let Some(known) = facts.flight(&self.session, &flight.name)
                && known.platform != flight.platform
            {
                return Err(format!(
                    "Flight {} is on {} already; write “from {}” for flights with new letters.",
                    flight.name,
                    facts.platform_label(known.platform),
                    free_letter(facts, &self.session)
                ));
            }
        }
        let moves: Vec<(u16, Place)> = proposal
            .flights
            .iter()
            .flat_map(|flight| {
                flight.numbers.iter().map(|number| {
                    let place = Place {
                        session: Some(self.session.clone()),
                        flight: Some(flight.name.clone()),
                        platform: Some(flight.platform),
                    };
                    (*number, place)
                })
            })
            .collect();
        if moves.is_empty() {
            return Err(format!(
                "Nobody in session {} is there to be placed.",
                self.session
            ));
        }
        Ok(Command::Place(moves))
    }

    /// What is to be known before athletes of a session that has begun are
    /// moved; nothing where no attempt is in, or nobody changes flight.
    pub fn begun(&self, facts: &Facts, proposal: &Proposal) -> Option<String> {
        let of_session = || facts.entries.values().filter(|e| e.session == self.session);
        let attempts: usize = of_session()
            .flat_map(|e| facts.slots.iter().map(move |l| (e.key, &l.slot)))
            .map(|(entry, slot)| {
                see::written(facts, entry, slot).iter().flatten().count()
            })
            .sum();
        let moved = proposal.flights.iter().flat_map(|flight| {
            flight.numbers.iter().filter(|number| {
                facts
                    .entry_by_number(**number)
                    .is_some_and(|e| e.flight != flight.name)
            })
        });
        let moved = moved.count();
        (attempts > 0 && moved > 0).then(|| {
            format!(
                "Session {} has begun, with {attempts} attempt{}; this would put {moved} \
                 athletes into other flights. Enter again does it; Ctrl+F leaves it.",
                self.session,
                if attempts == 1 { "" } else { "s" }
            )
        })
    }

    /// What Enter will do, as a sentence.
    pub fn sentence(&self, facts: &Facts, proposal: &Proposal) -> String {
        if let Err(sentence) = self.accept(facts, proposal) {
            return sentence;
        }
        let athletes: usize = proposal.flights.iter().map(|f| f.numbers.len()).sum();
        let flights = match proposal.flights.as_slice() {
            [only] => format!("flight {}", only.name),
            all => {
                let first = all.first().map_or("", |f| f.name.as_str());
                let last = all.last().map_or("", |f| f.name.as_str());
                format!("{} flights, {first} to {last}", all.len())
            }
        };
        let planned = match proposal.planned {
            Some(planned) if proposal.minutes > planned => format!(
                ", {} more than the {planned} that are planned",
                proposal.minutes - planned
            ),
            Some(planned) => format!(" of the {planned} that are planned"),
            None => String::new(),
        };
        format!(
            "Enter places {athletes} athletes in {flights}; the longest platform takes {} \
             minutes{planned}.",
            proposal.minutes
        )
    }
}

/// The first letter from which on no flight of the session is named.
fn free_letter(facts: &Facts, session: &str) -> char {
    let used = |c: char| {
        facts.flights.iter().any(|f| {
            f.session == session
                && f.name
                    .chars()
                    .next()
                    .is_some_and(|n| n >= c && n.is_ascii_uppercase())
        })
    };
    ('A'..='Z').find(|c| !used(*c)).unwrap_or('A')
}
