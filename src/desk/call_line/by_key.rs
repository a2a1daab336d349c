//! Lights and reasons that are given by one key.

use super::faults;
use super::owed::asked;
use super::read::letters_of;
use crate::day::{
    Command, CorrectionOf, Facts, FaultGiven, Light, Outcome, Ruled, RuledFact, Source,
    Which, queue,
};
use crate::desk::see;
use crate::lift::{Slug, catalogue};
use crate::measure::Mass;
use crate::roster::Entry;
use crate::rules::Queue;

/// Lights of one colour, but for one judge's, 1 the first.
///
/// They are for the athlete called; where nobody is and the queue is advice,
/// for the first in it.
///
/// # Errors
/// A sentence where the judge doesn't sit, or nobody could be meant.
pub fn lights_by_key(
    facts: &Facts,
    platform: u8,
    light: Light,
    but: Option<u8>,
) -> Result<Command, String> {
    let judges = facts.rules.judges;
    let mut lights = vec![light; usize::from(judges)];
    if let Some(judge) = but {
        let Some(one) = lights.get_mut(usize::from(judge) - 1) else {
            return Err(format!(
                "There is no judge {judge}: {judges} {} lights.",
                if judges == 1 { "gives" } else { "give" }
            ));
        };
        *one = match light {
            Light::White => Light::Red,
            Light::Red => Light::White,
        };
    }
    let called = facts
        .platform(platform)
        .is_some_and(|place| place.call.is_some());
    let mut which = Which::default();
    if !called && facts.rules.queue == Queue::Law {
        let label = facts.platform_label(platform);
        return Err(match see::last_ruled(facts, platform) {
            Some((entry, ..)) => format!(
                "Nobody is called on {label}. The lights of lot {} stand; Ctrl+Z twice \
                 takes them back.",
                entry.number
            ),
            None => format!("Nobody is called on {label} yet; F10 calls the next."),
        });
    }
    if !called && facts.rules.queue == Queue::Advice {
        let Some(first) = queue(facts, platform).into_iter().next() else {
            return Err(format!(
                "Nobody is next on {}.",
                facts.platform_label(platform)
            ));
        };
        if first.load.is_none() {
            return Err(format!(
                "Lot {} is next and owes the load: type it before the lights.",
                first.number
            ));
        }
        which = Which {
            number: Some(first.number),
            lift: Some(first.slot),
            attempt: Some(first.attempt),
        };
    }
    Ok(Command::Lights {
        which,
        load: None,
        outcome: Outcome {
            lights,
            ..Outcome::default()
        },
        platform: Some(platform),
    })
}

/// The request of so many steps more than the last load, for the athlete who owes
/// one.
///
/// # Errors
/// A sentence where nobody owes one, or there is no last load.
pub fn rise_by_key(facts: &Facts, platform: u8, steps: u8) -> Result<Command, String> {
    let Some(asked) = asked(facts, platform) else {
        if let Some((entry, slot, _, _)) = see::last_ruled(facts, platform)
            && facts.next_attempt(entry.key, &slot).is_none()
        {
            return Err(format!(
                "Lot {} has no attempt left in the {}.",
                entry.number,
                see::lift_name(&slot)
            ));
        }
        return Err(format!(
            "Nobody owes a request on {}; write the lot number and the load: 12 85.",
            facts.platform_label(platform)
        ));
    };
    if asked.attempt == 1 {
        return Err(format!(
            "Lot {} owes the opener: type the load.",
            asked.number
        ));
    }
    let rise = (0..steps).fold(Mass::ZERO, |sum, _| sum + facts.rules.step);
    Ok(asked.rise(rise, false))
}

/// How many reasons have a key.
pub const MOST_REASONS: usize = 9;

/// What a key with the number of a reason does just now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReasonFor {
    /// Names the reason of the red lights that this number was given last.
    Given(u16),
    /// Gives this number all red lights, for that reason.
    Red(u16),
}

/// The reasons that the keys name, as codes, commonest first, and what naming
/// one does; `None` where a key has nothing to name.
///
/// The athlete called is ruled by it. Where nobody is called it belongs to the
/// red lights given last; after others, where the queue is advice, it rules the
/// first.
pub fn reasons_by_key(facts: &Facts, platform: u8) -> Option<(ReasonFor, Vec<String>)> {
    let place = facts.platform(platform)?;
    let given = see::last_ruled(facts, platform).filter(|(_, _, _, ruled)| {
        let red = ruled.fact.lights.contains(&Light::Red);
        red && matches!(ruled.fact.source, Source::Lights)
    });
    let (what, lift) = match (&place.call, given) {
        (Some(call), _) => {
            let number = facts.entries.get(&call.entry)?.number;
            (ReasonFor::Red(number), call.lift.clone())
        }
        (None, Some((entry, _, _, ruled))) => {
            (ReasonFor::Given(entry.number), ruled.fact.lift.clone())
        }
        (None, None) if facts.rules.queue == Queue::Advice => {
            let first = queue(facts, platform).into_iter().next()?;
            let _ = first.load?;
            (ReasonFor::Red(first.number), first.lift)
        }
        (None, None) => return None,
    };
    let mut codes = catalogue().get(lift.as_str())?.faults.clone();
    codes.truncate(MOST_REASONS);
    (!codes.is_empty()).then_some((what, codes))
}

/// Names the reason of this number, 1 the first: with all red lights for whoever
/// they are still owed to, else for the red lights given last, where a reason that
/// is named already is taken back.
///
/// # Errors
/// A sentence where nothing is to be named, or the number has no reason.
pub fn reason_by_key(facts: &Facts, platform: u8, n: u8) -> Result<Command, String> {
    let Some((what, codes)) = reasons_by_key(facts, platform) else {
        return Err(
            "A reason by its number rules the athlete called, or follows red lights; name \
             an older one by fault, or in the Journal (F9)."
                .to_owned(),
        );
    };
    let Some(code) = codes.get(usize::from(n) - 1).cloned() else {
        return Err(format!("There is no reason {n} in the list."));
    };
    let fault = FaultGiven { judge: None, code };
    let given = match what {
        ReasonFor::Given(_) => see::last_ruled(facts, platform),
        ReasonFor::Red(_) => None,
    };
    let Some((entry, slot, attempt, ruled)) = given else {
        let mut command = lights_by_key(facts, platform, Light::Red, None)?;
        if let Command::Lights { outcome, .. } = &mut command {
            outcome.faults.push(fault);
        }
        return Ok(command);
    };
    let mut outcome = given_again(ruled);
    outcome.faults = ruled.fact.faults.clone();
    let named = outcome.faults.len();
    outcome.faults.retain(|other| other.code != fault.code);
    if outcome.faults.len() == named {
        outcome.faults.push(fault);
    }
    Ok(corrected((entry, slot, attempt), outcome))
}

/// Lights with their reasons, as they are typed for an attempt that is ruled.
///
/// # Errors
/// A sentence that says what isn't a light or a reason.
pub fn lights_words(text: &str, lift: &Slug) -> Result<Outcome, String> {
    let mut words = text.split([' ', ':']).filter(|word| !word.is_empty());
    let letters = words.next().unwrap_or_default().to_lowercase();
    let lights = letters_of(&letters)
        .ok_or_else(|| format!("“{letters}” is no lights; write them as rwr."))?;
    let words: Vec<&str> = words.collect();
    let faults = faults::codes(&words, Some(lift))?
        .into_iter()
        .map(|code| FaultGiven { judge: None, code })
        .collect();
    Ok(Outcome {
        lights,
        faults,
        ..Outcome::default()
    })
}

/// Other reasons for a ruled attempt whose lights stand; `None` where a word is no
/// reason of its lift, or the attempt is ruled no more.
pub fn reasons_words(
    text: &str,
    facts: &Facts,
    entry: &Entry,
    fact: &RuledFact,
) -> Option<Command> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let codes = faults::codes(&words, Some(&fact.lift)).ok()?;
    let attempt = facts.attempt(entry.key, &fact.slot, fact.attempt)?;
    let mut outcome = given_again(attempt.ruled.as_ref()?);
    outcome.faults = codes
        .into_iter()
        .map(|code| FaultGiven { judge: None, code })
        .collect();
    (!outcome.faults.is_empty())
        .then(|| corrected((entry, fact.slot.clone(), fact.attempt), outcome))
}

/// What was given, without its reasons.
pub(super) fn given_again(ruled: &Ruled) -> Outcome {
    let fact = &ruled.fact;
    Outcome {
        ruling: fact.lights.is_empty().then(|| fact.ruling.clone()),
        lights: fact.lights.clone(),
        reps: (fact.reps > 1).then_some(fact.reps),
        ..Outcome::default()
    }
}

/// An attempt with another outcome.
pub(super) fn corrected(of: (&Entry, Slug, u8), outcome: Outcome) -> Command {
    let (entry, slot, attempt) = of;
    Command::Correct {
        of: CorrectionOf::Attempt {
            which: Which {
                number: Some(entry.number),
                lift: Some(slot),
                attempt: Some(attempt),
            },
            load: None,
            outcome: Some(outcome),
        },
        reason: String::new(),
    }
}
