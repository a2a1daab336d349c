//! Calls and rulings.

use crate::anew::{correct, loaded, rerule};
use crate::model::{Answer, Model, Person, State};
use crate::plain::{
    Act, Cleared, Fact, Given, Line, Load, No, Outcome, Roll, RuledFact, Ruling,
};
use crate::rules::Gate;

impl Model {
    pub fn ruling_act(&self, s: &State, act: &Act) -> Answer<(Line, Vec<Fact>)> {
        match act {
            Act::Lights {
                platform,
                no,
                load,
                outcome,
            } => self.lights(s, *platform, *no, *load, outcome),
            Act::Tally {
                no,
                slot,
                attempt,
                load,
                outcome,
            } => tally(s, *no, *slot, *attempt, *load, outcome),
            Act::Pass {
                platform,
                who,
                rest,
            } => pass(s, *platform, *who, *rest),
            Act::Stop {
                platform,
                who,
                pain,
            } => stop(s, *platform, *who, *pain),
            Act::Extra(no, slot) => {
                let p = entered(s, *no, *slot)?;
                Ok((Self::line(s, p), vec![Fact::Extra(*no, *slot)]))
            }
            Act::Loaded {
                no,
                slot,
                attempt,
                load,
                grant,
            } => loaded(s, (*no, *slot, *attempt), *load, *grant),
            Act::Rerule {
                no,
                slot,
                attempt,
                good,
                challenge,
            } => {
                let ruling = if *good { Ruling::Good } else { Ruling::No };
                rerule(s, (*no, *slot, *attempt), ruling, *challenge)
            }
            Act::Correct { .. } => correct(s, act),
            _ => Err("not a ruling"),
        }
    }

    pub fn call(
        &self,
        s: &State,
        platform: u8,
        no: Option<No>,
        load: Option<Load>,
    ) -> Answer<Fact> {
        let on = s.on(platform);
        let (flight, slot) = on.running.ok_or("nothing runs")?;
        if on.call.is_some() {
            return Err("somebody is called");
        }
        if s.is_closed(s.rules.session_of(flight)) {
            return Err("closed");
        }
        let queue = s.queue(platform);
        let first = queue.first().ok_or("the queue is empty")?;
        let place = match no {
            None => first,
            Some(no) => queue
                .iter()
                .find(|q| q.no == no)
                .ok_or("not in the queue")?,
        };
        if s.rules.law && place.no != first.no {
            return Err("another is next");
        }
        if s.is_called(place.no, None) {
            return Err("is called elsewhere");
        }
        let p = &s.people[&place.no];
        let named = load.filter(|_| !s.rules.law);
        if place.load.is_none()
            && let Some(load) = named
        {
            // As if it had been asked for first.
            s.may_be_asked(p, slot, place.attempt, load, false)?;
        }
        let asked = place.load.or(named);
        let asked = asked.ok_or("the load is owed")?;
        if load.is_some_and(|l| l != asked) {
            return Err("another load is asked");
        }
        cleared(s, p, slot, asked)?;
        // The bar comes down only to correct an error: TCRR, no reduction.
        let anew = s.excepted(p, slot, place.attempt);
        if asked < s.bar(flight, slot, place.attempt) && !anew {
            return Err("the bar is higher");
        }
        let following = on.lifted_last == Some(place.no);
        let clock = s.rules.clock;
        Ok(Fact::Called {
            platform,
            variant: p.athlete.slots[slot].map_or(0, |(v, _)| v),
            no: place.no,
            slot,
            attempt: place.attempt,
            load: asked,
            clock: if following {
                clock.and(s.rules.following.or(clock))
            } else {
                clock
            },
            following,
        })
    }

    fn lights(
        &self,
        s: &State,
        platform: u8,
        no: Option<No>,
        load: Option<Load>,
        outcome: &Outcome,
    ) -> Answer<(Line, Vec<Fact>)> {
        let ruling = ruling(s, &outcome.given)?;
        let on = s.on(platform);
        let mut facts = Vec::new();
        let (no, slot, attempt, load, own) = match (&on.call, no) {
            (None, None) => return Err("nobody is called"),
            (Some(call), _) => {
                if no.is_some_and(|no| no != call.no) {
                    return Err("somebody else is called");
                }
                if load.is_some_and(|l| l != call.load) {
                    return Err("another load is asked");
                }
                (call.no, call.slot, call.attempt, call.load, call.variant)
            }
            (None, Some(_)) => {
                let fact = self.call(s, platform, no, load)?;
                let Fact::Called {
                    no,
                    slot,
                    attempt,
                    load,
                    variant,
                    ..
                } = fact
                else {
                    return Err("not called");
                };
                facts.push(fact);
                (no, slot, attempt, load, variant)
            }
        };
        let p = s.person(no)?;
        if s.is_closed(s.rules.session_of(p.athlete.flight)) {
            return Err("closed");
        }
        facts.push(Fact::Ruled(RuledFact {
            platform,
            flight: p.athlete.flight,
            no,
            slot,
            attempt,
            variant: variant(s, own, outcome)?,
            load: Some(load),
            ruling,
            reps: reps(s, outcome)?,
            lifted: true,
            card: false,
        }));
        Ok((Line::Platform(platform), facts))
    }
}

/// What the lights or the word add up to.
fn ruling(s: &State, given: &Given) -> Answer<Ruling> {
    match given {
        Given::Word(ruling) => Ok(*ruling),
        Given::Lights(lights) => {
            if lights.len() != s.rules.judges {
                return Err("another number of lights");
            }
            let white = lights.iter().filter(|w| **w).count();
            Ok(if 2 * white > lights.len() {
                Ruling::Good
            } else {
                Ruling::No
            })
        }
    }
}

fn reps(s: &State, outcome: &Outcome) -> Answer<u8> {
    match outcome.reps {
        None => Ok(1),
        Some(_) if !s.rules.multiple => Err("one repetition"),
        Some(n) if (2..=20).contains(&n) => Ok(n),
        Some(_) => Err("so many repetitions aren't a test"),
    }
}

/// The variant that it was: the entered one, or another if the rules enter a
/// wrong catch as what it was.
fn variant(s: &State, own: usize, outcome: &Outcome) -> Answer<usize> {
    match outcome.variant {
        None => Ok(own),
        Some(named) if named == own => Ok(own),
        Some(named) if s.rules.reclassify => Ok(named),
        Some(_) => Err("another variant"),
    }
}

/// Clearances and caps gate calls.
fn cleared(s: &State, p: &Person, slot: usize, load: Load) -> Answer<()> {
    match State::clearance(p, slot) {
        Some(Cleared::No) if s.rules.clearance != Gate::Off => {
            return Err("not cleared");
        }
        None if s.rules.clearance == Gate::Required => return Err("not cleared"),
        _ => {}
    }
    if s.ceiling(p, slot).is_some_and(|most| load > most) {
        return Err("above the cap");
    }
    Ok(())
}

pub fn entered(s: &State, no: No, slot: usize) -> Answer<&Person> {
    let p = s.person(no)?;
    if s.is_closed(s.rules.session_of(p.athlete.flight)) {
        return Err("closed");
    }
    if p.athlete.slots[slot].is_none() {
        return Err("not entered");
    }
    Ok(p)
}

/// Whose attempt is meant: the named one's next, or the called one's.
fn whose(
    s: &State,
    platform: u8,
    who: Option<(No, usize)>,
) -> Answer<(u8, No, usize, u8)> {
    match who {
        Some((no, slot)) => {
            let p = entered(s, no, slot)?;
            let next = s.next(p, slot).ok_or("no attempt left")?;
            Ok((s.rules.platform_of(p.athlete.flight), no, slot, next))
        }
        None => {
            let call = s.on(platform).call.as_ref().ok_or("nobody is called")?;
            let p = entered(s, call.no, call.slot)?;
            let _ = s.next(p, call.slot).ok_or("no attempt left")?;
            Ok((platform, call.no, call.slot, call.attempt))
        }
    }
}

fn tally(
    s: &State,
    no: No,
    slot: usize,
    attempt: Option<u8>,
    load: Option<Load>,
    outcome: &Outcome,
) -> Answer<(Line, Vec<Fact>)> {
    let ruling = ruling(s, &outcome.given)?;
    let p = entered(s, no, slot)?;
    let next = s.next(p, slot).ok_or("no attempt left")?;
    // Cards come late and out of order.
    let next = attempt.unwrap_or(next);
    if next == 0 || next > s.allowed(p, slot) || s.is_ruled(no, slot, next) {
        return Err("not that attempt");
    }
    let load = load
        .or_else(|| s.called_for(no, slot, next).map(|c| c.load))
        .or_else(|| s.request(p, slot, next));
    if load.is_none() && ruling != Ruling::Pass {
        return Err("the load is owed");
    }
    let platform = s.rules.platform_of(p.athlete.flight);
    let (own, _) = p.athlete.slots[slot].ok_or("not entered")?;
    let fact = RuledFact {
        platform,
        flight: p.athlete.flight,
        no,
        slot,
        attempt: next,
        variant: variant(s, own, outcome)?,
        load,
        ruling,
        reps: reps(s, outcome)?,
        lifted: false,
        card: true,
    };
    Ok((Line::Platform(platform), vec![Fact::Ruled(fact)]))
}

/// A ruling without lights, of the entered variant.
fn plain(
    p: &Person,
    of: (u8, No, usize, u8),
    load: Option<Load>,
    ruling: Ruling,
) -> RuledFact {
    let (platform, no, slot, attempt) = of;
    RuledFact {
        platform,
        flight: p.athlete.flight,
        no,
        slot,
        attempt,
        variant: p.athlete.slots[slot].map_or(0, |(v, _)| v),
        load,
        ruling,
        reps: 1,
        lifted: false,
        card: true,
    }
}

fn pass(
    s: &State,
    platform: u8,
    who: Option<(No, usize)>,
    rest: bool,
) -> Answer<(Line, Vec<Fact>)> {
    let (platform, no, slot, next) = whose(s, platform, who)?;
    let p = s.person(no)?;
    let last = if rest { s.allowed(p, slot) } else { next };
    let mut load = None;
    let facts = (next..=last)
        .map(|attempt| {
            let asked = s.request(p, slot, attempt);
            load = asked.or(load);
            let of = (platform, no, slot, attempt);
            Fact::Ruled(plain(p, of, load, Ruling::Pass))
        })
        .collect();
    Ok((Line::Platform(platform), facts))
}

fn stop(
    s: &State,
    platform: u8,
    who: Option<(No, usize)>,
    pain: bool,
) -> Answer<(Line, Vec<Fact>)> {
    let (platform, no, slot, attempt) = whose(s, platform, who)?;
    let p = s.person(no)?;
    let called = s.called_for(no, slot, attempt);
    let load = called
        .map(|c| c.load)
        .or_else(|| s.request(p, slot, attempt));
    let of = (platform, no, slot, attempt);
    let mut facts = vec![Fact::Ruled(RuledFact {
        lifted: called.is_some(),
        card: false,
        ..plain(p, of, load, Ruling::Stopped)
    })];
    // Who is away already needn't be told so again.
    if pain && p.presence != Some(Roll::Away) {
        facts.push(Fact::Presence(no, Roll::Away));
    }
    Ok((Line::Platform(platform), facts))
}
