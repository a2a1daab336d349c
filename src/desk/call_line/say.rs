//! A command in words, before it is entered.

use super::words::{Words, load_of};
use crate::day::{
    Authority, ClockMove, Command, CorrectionOf, Facts, Granted, Light, LoadAsked,
    Outcome, Roll, Ruling, StopFor, Which, show_left,
};
use crate::desk::see;
use crate::measure::Weight;
use crate::roster::Change;

/// Says what a command would do, with a full stop.
pub fn say(facts: &Facts, platform: u8, command: &Command) -> String {
    let words = Words { facts, platform };
    match command {
        Command::Request {
            which,
            load,
            record,
            platform,
        } => {
            let leap = match load {
                LoadAsked::Exactly(load) => {
                    let leap = words.leap(which, load);
                    let unmade = words.unmade(which, load.mass, &leap);
                    format!("{leap}{unmade}{}", words.record(which, load.mass))
                }
                LoadAsked::Relative(rise) => match words.risen(which, *rise) {
                    Some(load) => {
                        let load = Weight::computed(load, facts.bar_unit);
                        let leap = words.leap(which, &load);
                        let unmade = words.unmade(which, load.mass, &leap);
                        format!("{leap}{unmade}{}", words.record(which, load.mass))
                    }
                    None => String::new(),
                },
            };
            let load = match load {
                LoadAsked::Exactly(load) => words.load(load),
                LoadAsked::Relative(rise) => {
                    let rises = rise.counts() >= 0;
                    let by = if rises { *rise } else { -*rise };
                    let by = format!(
                        "{} {}",
                        by.show_with_unit(facts.bar_unit),
                        if rises { "more" } else { "less" }
                    );
                    match words.risen(which, *rise) {
                        Some(load) => {
                            format!("{} ({by})", load.show_with_unit(facts.bar_unit))
                        }
                        None => by,
                    }
                }
            };
            let before = words.instead(which, load_of(facts, command));
            let before = before.filter(|_| leap.is_empty()).unwrap_or_default();
            format!(
                "{} asks for {load}{before}{}{}{}{leap}.",
                words.who(which.number),
                if *record { " for a record" } else { "" },
                words.attempt(which),
                words.elsewhere(*platform)
            )
        }
        Command::Lights {
            which,
            load,
            outcome,
            platform,
        } => {
            let record = words.record_by(which, load.as_ref(), outcome);
            let load = load.as_ref().map(|l| format!(" at {}", words.load(l)));
            format!(
                "{}{}: {}{}{}{record}.",
                words.who(which.number),
                load.unwrap_or_default(),
                outcome_words(facts, outcome),
                words.caught(which, outcome),
                words.elsewhere(*platform)
            )
        }
        Command::Call {
            which,
            load,
            platform,
        } => words.call(which, load.as_ref(), *platform),
        Command::Pass { which, rest, .. } => format!(
            "{} passes {}.",
            words.who(which.number),
            match words.attempt_meant(which) {
                _ if *rest => "all attempts that remain in the lift".to_owned(),
                Some(attempt) => format!("attempt {attempt}"),
                None => "this attempt".to_owned(),
            }
        ),
        Command::Tally {
            which,
            load,
            outcome,
            ..
        } => format!(
            "From the card: {}{}{}, {}{}{}.",
            words.who(which.number),
            words.attempt(which),
            load.as_ref()
                .map(|l| format!(" at {}", words.load(l)))
                .unwrap_or_default(),
            outcome_words(facts, outcome),
            words.caught(which, outcome),
            words.record_by(which, load.as_ref(), outcome)
        ),
        Command::Stop { which, stop, .. } => format!(
            "{}: stopped for {}.",
            words.who(which.number),
            match stop {
                StopFor::Technique => "technique",
                StopFor::Pain => "pain; away until back",
                StopFor::Director => "the director's word",
            }
        ),
        Command::Start {
            lift,
            flight,
            session,
            ..
        } => {
            let flight = match (session, flight) {
                (Some(s), Some(f)) => format!(" for flight {s}/{f}"),
                (None, Some(f)) => format!(" for flight {f}"),
                _ => String::new(),
            };
            format!(
                "Starts {}{flight} on {}.",
                see::lift_name(lift),
                facts.platform_label(platform)
            )
        }
        Command::Break { minutes, .. } => format!(
            "A break of {} minutes on {}.",
            minutes.unwrap_or(facts.rules.break_minutes),
            facts.platform_label(platform)
        ),
        Command::Clock { movement, .. } => match movement {
            ClockMove::Stop => "Stops the clock.".to_owned(),
            ClockMove::Resume => "The clock goes on.".to_owned(),
            ClockMove::Set(ms) => format!("Sets the clock to {}.", show_left(*ms)),
        },
        Command::Check { who, .. } => format!(
            "{who} signs the station check of {}.",
            facts.platform_label(platform)
        ),
        Command::Roll { number, roll, .. } => format!(
            "{} is {}.",
            words.who(Some(*number)),
            match roll {
                Roll::Here => "here",
                Roll::Absent => "absent",
                Roll::Away => "away",
                Roll::Back => "back",
            }
        ),
        Command::Close { session } => match session {
            Some(session) => format!("Closes session {session}: its results stand."),
            None => "Closes the day: its results stand.".to_owned(),
        },
        Command::Withdraw {
            number,
            lift,
            reason,
        } => format!(
            "{} withdraws from {}{}.",
            words.who(Some(*number)),
            lift.as_ref()
                .map_or_else(|| "the day".to_owned(), see::lift_name),
            if reason.is_empty() {
                String::new()
            } else {
                format!(": {reason}")
            }
        ),
        Command::Disqualify {
            number,
            lift,
            reason,
        } => format!(
            "{} is disqualified {}: {reason}.",
            words.who(Some(*number)),
            lift.as_ref().map_or_else(
                || "on the day".to_owned(),
                |lift| format!("in {}", see::lift_name(lift))
            )
        ),
        Command::Edit { number, changes } if guest(changes).is_some() => format!(
            "{} {}.",
            words.who(Some(*number)),
            if guest(changes) == Some(true) {
                "lifts as a guest, without a place"
            } else {
                "is no guest and is placed"
            }
        ),
        Command::Number { .. } => {
            "Gives start numbers, session by session in the order of the lots.".to_owned()
        }
        Command::Extra { which, .. } => {
            format!(
                "{} gets one more attempt by leave.",
                words.who(which.number)
            )
        }
        Command::Loaded {
            which,
            load,
            granted,
            ..
        } => format!(
            "{}{}: {} was on the bar; {}.",
            words.who(which.number),
            words.ruled_attempt(which),
            words.load(load),
            match granted {
                Granted::Keep => "the ruling stands, and that load counts",
                Granted::Repeat | Granted::Again => "the attempt is taken again",
            }
        ),
        Command::Rerule {
            which,
            outcome,
            authority,
            ..
        } => format!(
            "{} of {}: {}{}.",
            match authority {
                Authority::Overrule => "Overruling",
                Authority::Challenge => "Challenge",
            },
            words.who(which.number),
            outcome_words(facts, outcome),
            match authority {
                Authority::Challenge if words.stands(which, outcome) => {
                    "; that stands already, so the challenge is lost"
                }
                _ => "",
            }
        ),
        Command::Correct {
            of:
                CorrectionOf::Attempt {
                    which,
                    load,
                    outcome,
                },
            ..
        } => {
            if let (None, Some(outcome)) = (load, outcome)
                && words.same_lights(which, outcome)
            {
                return reasons(&words, which, outcome);
            }
            let load = load.as_ref().map(|l| format!(" {}", words.load(l)));
            let outcome = outcome
                .as_ref()
                .map(|o| format!(" {}", outcome_words(facts, o)));
            format!(
                "Corrects{} of {}:{}{}.",
                words.attempt(which),
                words.who(which.number),
                load.unwrap_or_default(),
                outcome.unwrap_or_default()
            )
        }
        Command::Note {
            number: Some(number),
            text,
            ..
        } => format!("Notes about {}: {text}.", lower(&words.who(Some(*number)))),
        Command::Note { text, .. } => format!("Notes: {text}."),
        Command::Annul { .. } => "Annuls the act.".to_owned(),
        other => format!("Enters {}.", kind(other)),
    }
}

/// With a small letter at its head.
fn lower(text: &str) -> String {
    text.replacen("Lot", "lot", 1)
}

/// The reasons that are named for lights which stand.
fn reasons(words: &Words<'_>, which: &Which, outcome: &Outcome) -> String {
    let named: Vec<String> = outcome
        .faults
        .iter()
        .map(|f| see::fault_words(&f.code))
        .collect();
    format!(
        "{}{}: {}.",
        words.who(which.number),
        words.ruled_attempt(which),
        if named.is_empty() {
            "no reason is named".to_owned()
        } else {
            format!("the reason is {}", named.join(", "))
        }
    )
}

/// The act word of a command that needs no sentence of its own.
fn kind(command: &Command) -> &'static str {
    match command {
        Command::Add(_) => "new entries",
        Command::Edit { .. } | Command::EditMany(_) => "changed details",
        Command::Place(_) => "places",
        Command::Weigh { .. } => "a bodyweight",
        Command::Clear { .. } => "a clearance",
        Command::Cap { .. } => "a cap",
        Command::Set(_) => "settings",
        Command::Book(_) => "records of the book",
        Command::Close { .. } => "a close",
        Command::Reopen { .. } => "a reopening",
        _ => "an act",
    }
}

/// A ruling or lights in words: good lift, no lift, with the reasons.
pub(super) fn outcome_words(facts: &Facts, outcome: &Outcome) -> String {
    let faults: Vec<String> = outcome
        .faults
        .iter()
        .map(|f| see::fault_words(&f.code))
        .collect();
    let faults = if faults.is_empty() {
        String::new()
    } else {
        format!(", {}", faults.join(", "))
    };
    let ruling = match &outcome.ruling {
        Some(ruling) => ruling_words(ruling).to_owned(),
        None => {
            let white = outcome
                .lights
                .iter()
                .filter(|l| **l == Light::White)
                .count();
            let red = outcome.lights.len() - white;
            let ruling = if white > red { "good lift" } else { "no lift" };
            if facts.rules.judges == 1 {
                ruling.to_owned()
            } else {
                format!("{white} white, {red} red, {ruling}")
            }
        }
    };
    let reps = outcome.reps.filter(|n| *n > 1);
    let reps = reps.map(|n| format!(" of {n} repetitions"));
    format!("{ruling}{}{faults}", reps.unwrap_or_default())
}

/// A ruling in the table's words.
pub(super) fn ruling_words(ruling: &Ruling) -> &str {
    match ruling {
        Ruling::Good => "good lift",
        Ruling::No => "no lift",
        Ruling::Pass => "pass",
        Ruling::Time => "no lift, the clock ran out",
        Ruling::Stopped => "stopped",
        Ruling::Other(word) => word,
    }
}

/// What a changed detail makes of a guest, where it is the only one.
fn guest(changes: &[Change]) -> Option<bool> {
    match changes {
        [Change::Guest(guest)] => Some(*guest),
        _ => None,
    }
}
