//! What is granted for errors, decided anew, or corrected.

use crate::model::{Answer, State};
use crate::plain::{Act, Fact, Grant, Line, Load, No, Now, Ruling};
use crate::rules::Found;
use crate::rulings::entered;

pub fn loaded(
    s: &State,
    of: (No, usize, u8),
    load: Load,
    grant: Grant,
) -> Answer<(Line, Vec<Fact>)> {
    let (no, slot, attempt) = of;
    let p = entered(s, no, slot)?;
    let ruled = p.ruled(slot, attempt).ok_or("not ruled")?;
    if ruled.ruling == Ruling::Pass {
        return Err("a pass is no lift");
    }
    // Undone where it was lifted.
    let line = Line::Platform(ruled.platform);
    let good = ruled.ruling == Ruling::Good;
    let asked = ruled.requested.or(ruled.load).unwrap_or(load);
    let found = match load.cmp(&asked) {
        std::cmp::Ordering::Less => Found::Lighter,
        std::cmp::Ordering::Greater => Found::Heavier,
        std::cmp::Ordering::Equal => Found::Same,
    };
    if !s.rules.grants(found, good).contains(&grant) {
        return Err("not to be granted");
    }
    let fact = match grant {
        Grant::Keep => {
            let step = if s.is_record(p, slot, attempt) {
                s.rules.record_step.unwrap_or(s.rules.step)
            } else {
                s.rules.step
            };
            let counts = if s.rules.credit_step {
                load / step * step
            } else {
                load
            };
            Fact::Credited(no, slot, attempt, counts, load)
        }
        Grant::Repeat | Grant::Again => {
            if s.is_called(no, Some(slot)) {
                return Err("is called");
            }
            let later = p.runs[slot].iter().skip(usize::from(attempt));
            if later.into_iter().any(|a| a.ruled.is_some()) {
                return Err("a later attempt is ruled");
            }
            Fact::Void(no, slot, attempt)
        }
    };
    Ok((line, vec![fact]))
}

pub fn rerule(
    s: &State,
    of: (No, usize, u8),
    ruling: Ruling,
    challenge: bool,
) -> Answer<(Line, Vec<Fact>)> {
    let (no, slot, attempt) = of;
    let p = s.person(no)?;
    let ruled = p.ruled(slot, attempt).ok_or("not ruled")?;
    let lost = challenge && ruled.ruling == ruling;
    if !challenge && ruled.ruling == ruling {
        return Err("changes nothing");
    }
    if challenge {
        if s.rules.challenges.is_some_and(|n| p.lost_challenges >= n) {
            return Err("no challenge left");
        }
        if s.rules.challenge_closes && !ruled.card {
            // Before the next athlete is on the stage with the clock started.
            if s.on(ruled.platform).last_call > Some(ruled.when()) {
                return Err("challenged too late");
            }
        }
    }
    let fact = Fact::Reruled(no, slot, attempt, ruling, lost);
    Ok((Line::Platform(ruled.platform), vec![fact]))
}

pub fn correct(s: &State, act: &Act) -> Answer<(Line, Vec<Fact>)> {
    let Act::Correct {
        no,
        slot,
        attempt,
        load,
        ruling,
        reps,
        variant,
    } = *act
    else {
        return Err("not a correction");
    };
    let p = s.person(no)?;
    let ruled = p.ruled(slot, attempt).ok_or("not ruled")?;
    if reps.is_some() && !s.rules.multiple {
        return Err("one repetition");
    }
    let (entered, _) = p.athlete.slots[slot].ok_or("not entered")?;
    if variant.is_some_and(|v| entered != v) && !s.rules.reclassify {
        return Err("another variant");
    }
    if load.is_none_or(|l| ruled.load == Some(l))
        && ruling.is_none_or(|r| ruled.ruling == r)
        && reps.is_none_or(|n| ruled.reps == n)
        && variant.is_none_or(|v| ruled.variant == v)
    {
        return Err("changes nothing");
    }
    let run = p.attempt(slot, attempt).ok_or("not ruled")?;
    if ruling.is_some() && run.reruled {
        return Err("was ruled anew");
    }
    if load.is_some() && run.found.is_some() {
        return Err("found to be another");
    }
    Ok((
        Line::Platform(ruled.platform),
        vec![Fact::Corrected {
            target: ruled.act,
            no,
            slot,
            attempt,
            now: Now {
                load: load.or(ruled.requested),
                ruling: ruling.unwrap_or(ruled.first),
                reps: reps.unwrap_or(ruled.reps),
                variant: variant.unwrap_or(ruled.variant),
            },
        }],
    ))
}
