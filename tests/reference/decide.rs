//! What the model allows, and what an allowed act does.

use crate::model::{Attempt, Call, Model, Person, State};
use crate::plain::{Act, Fact, Given, Grant, Line, Load, Move, No, Roll, Ruling};

type Answer<T> = Result<T, &'static str>;

impl Model {
    /// The platform on which a flight lifts.
    pub const fn platform_of(&self, flight: usize) -> u8 {
        if flight == 0 { 1 } else { self.rules.platforms }
    }

    pub fn decide(&self, s: &State, act: &Act, at: i64) -> Answer<(Line, Vec<Fact>)> {
        match act {
            Act::Add(athlete) => {
                if s.people.contains_key(&athlete.no) {
                    return Err("the number is taken");
                }
                Ok((Line::Roster, vec![Fact::Entered(athlete.clone())]))
            }
            Act::Weigh(no, bodyweight) => {
                let _ = person(s, *no)?;
                Ok((Line::Scale, vec![Fact::Weighed(*no, *bodyweight)]))
            }
            Act::Roll(no, roll) => {
                let p = person(s, *no)?;
                let roll = if *roll == Roll::Back {
                    Roll::Here
                } else {
                    *roll
                };
                if p.presence == Some(roll) {
                    return Err("is so already");
                }
                if roll != Roll::Here && is_called(s, *no, None) {
                    return Err("is called");
                }
                Ok((Line::Roster, vec![Fact::Presence(*no, roll)]))
            }
            Act::Withdraw(no, slot) => {
                let p = person(s, *no)?;
                if let Some(slot) = slot
                    && p.athlete.slots[*slot].is_none()
                {
                    return Err("not entered");
                }
                if is_called(s, *no, None) {
                    return Err("is called");
                }
                if p.withdrawn || slot.is_some_and(|slot| p.withdrawn_slots[slot]) {
                    return Err("withdrawn already");
                }
                Ok((Line::Roster, vec![Fact::Withdrawn(*no, *slot)]))
            }
            Act::Start(platform, flight, slot) => {
                let on = &s.platforms[usize::from(*platform) - 1];
                if on.call.is_some() {
                    return Err("somebody is called");
                }
                if on.running == Some((*flight, *slot)) {
                    return Err("runs already");
                }
                Ok((
                    Line::Platform(*platform),
                    vec![Fact::Started(*platform, *flight, *slot)],
                ))
            }
            Act::Request {
                no,
                slot,
                attempt,
                load,
            } => self.ask(s, *no, *slot, *attempt, *load, at),
            Act::Call { platform, no, load } => {
                let fact = self.call(s, *platform, *no, *load)?;
                Ok((Line::Platform(*platform), vec![fact]))
            }
            Act::Clock(platform, step) => {
                let call = s.platforms[usize::from(*platform) - 1]
                    .call
                    .as_ref()
                    .filter(|c| c.clock.is_some())
                    .ok_or("no clock")?;
                let running = call.clock.is_some_and(|(_, since)| since.is_some());
                match step {
                    Move::Stop if !running => return Err("stopped already"),
                    Move::Resume if running => return Err("runs already"),
                    _ => {}
                }
                Ok((
                    Line::Platform(*platform),
                    vec![Fact::ClockMoved(*platform, *step)],
                ))
            }
            Act::Lights {
                platform,
                no,
                load,
                given,
            } => self.lights(s, *platform, *no, *load, given),
            Act::Tally {
                no,
                slot,
                attempt,
                load,
                given,
            } => self.tally(s, *no, *slot, *attempt, *load, given),
            Act::Pass {
                platform,
                who,
                rest,
            } => {
                let (platform, no, slot, next) = self.whose(s, *platform, *who)?;
                let p = person(s, no)?;
                let last = if *rest { self.allowed(p, slot) } else { next };
                let mut load = None;
                let facts = (next..=last)
                    .map(|attempt| Fact::Ruled {
                        platform,
                        no,
                        slot,
                        attempt,
                        load: {
                            let asked = self.request(p, slot, attempt);
                            load = asked.or(load.filter(|_| self.rules.automatic));
                            load
                        },
                        ruling: Ruling::Pass,
                        lifted: false,
                    })
                    .collect();
                Ok((Line::Platform(platform), facts))
            }
            Act::Stop {
                platform,
                who,
                pain,
            } => {
                let (platform, no, slot, attempt) = self.whose(s, *platform, *who)?;
                let p = person(s, no)?;
                let called = called_for(s, no, slot, attempt);
                let mut facts = vec![Fact::Ruled {
                    platform,
                    no,
                    slot,
                    attempt,
                    load: called
                        .map(|c| c.load)
                        .or_else(|| self.request(p, slot, attempt)),
                    ruling: Ruling::Stopped,
                    lifted: called.is_some(),
                }];
                if *pain {
                    facts.push(Fact::Presence(no, Roll::Away));
                }
                Ok((Line::Platform(platform), facts))
            }
            Act::Extra(no, slot) => {
                let p = person(s, *no)?;
                if p.athlete.slots[*slot].is_none() {
                    return Err("not entered");
                }
                Ok((self.line(p), vec![Fact::Extra(*no, *slot)]))
            }
            Act::Loaded {
                no,
                slot,
                attempt,
                load,
                grant,
            } => {
                let p = person(s, *no)?;
                if !s.is_ruled(*no, *slot, *attempt) {
                    return Err("not ruled");
                }
                let fact = match grant {
                    Grant::Keep => Fact::Credited(*no, *slot, *attempt, *load),
                    Grant::Repeat | Grant::Again => {
                        if is_called(s, *no, Some(*slot)) {
                            return Err("is called");
                        }
                        let later = attempt + 1..=self.allowed(p, *slot);
                        if later.into_iter().any(|n| s.is_ruled(*no, *slot, n)) {
                            return Err("a later attempt is ruled");
                        }
                        Fact::Void(*no, *slot, *attempt)
                    }
                };
                Ok((self.line(p), vec![fact]))
            }
            Act::Rerule {
                no,
                slot,
                attempt,
                good,
                ..
            } => {
                let p = person(s, *no)?;
                let ruled = s.ruled(*no, *slot, *attempt).ok_or("not ruled")?;
                let ruling = if *good { Ruling::Good } else { Ruling::No };
                if ruled.ruling == ruling {
                    return Err("changes nothing");
                }
                Ok((
                    self.line(p),
                    vec![Fact::Reruled(*no, *slot, *attempt, ruling)],
                ))
            }
            Act::Correct {
                no,
                slot,
                attempt,
                load,
                ruling,
            } => {
                let p = person(s, *no)?;
                let ruled = s.ruled(*no, *slot, *attempt).ok_or("not ruled")?;
                if load.is_none_or(|l| ruled.load == Some(l))
                    && ruling.is_none_or(|r| ruled.ruling == r)
                {
                    return Err("changes nothing");
                }
                let run = &p.runs[*slot][usize::from(*attempt) - 1];
                if ruling.is_some() && run.reruled {
                    return Err("was ruled anew");
                }
                if load.is_some() && run.found {
                    return Err("found to be another");
                }
                Ok((
                    self.line(p),
                    vec![Fact::Corrected {
                        target: ruled.act,
                        no: *no,
                        slot: *slot,
                        attempt: *attempt,
                        load: load.or(ruled.requested),
                        ruling: ruling.or(Some(ruled.first)),
                    }],
                ))
            }
            Act::Annul(_) | Act::Undo(_) | Act::Redo(_) => Err("not decided here"),
        }
    }

    /// Whether the bar may come down for an attempt: only to correct an error
    /// (TCRR, no reduction), so for one that is taken anew or by leave.
    fn excepted(&self, p: &Person, slot: usize, attempt: u8) -> bool {
        attempt > self.rules.attempts
            || p.runs[slot]
                .get(usize::from(attempt) - 1)
                .is_some_and(|a| a.void)
    }

    const fn line(&self, p: &Person) -> Line {
        Line::Platform(self.platform_of(p.athlete.flight))
    }

    /// Whose attempt is meant: the named one's next, or the called one's.
    fn whose(
        &self,
        s: &State,
        platform: u8,
        who: Option<(No, usize)>,
    ) -> Answer<(u8, No, usize, u8)> {
        match who {
            Some((no, slot)) => {
                let p = person(s, no)?;
                if p.athlete.slots[slot].is_none() {
                    return Err("not entered");
                }
                let next = self.next(p, slot).ok_or("no attempt left")?;
                Ok((self.platform_of(p.athlete.flight), no, slot, next))
            }
            None => {
                let call = s.platforms[usize::from(platform) - 1]
                    .call
                    .as_ref()
                    .ok_or("nobody is called")?;
                Ok((platform, call.no, call.slot, call.attempt))
            }
        }
    }

    fn ask(
        &self,
        s: &State,
        no: No,
        slot: usize,
        attempt: Option<u8>,
        load: Load,
        at: i64,
    ) -> Answer<(Line, Vec<Fact>)> {
        let p = taking_part(s, no, slot)?;
        let next = self.next(p, slot).ok_or("no attempt left")?;
        if attempt.is_some_and(|a| a != next) {
            return Err("not that attempt");
        }
        if load <= 0
            || (load % self.rules.step != 0 && self.request(p, slot, next) != Some(load))
        {
            return Err("off the step");
        }
        let flight = p.athlete.flight;
        let bar = self.bar(s, flight, slot, next);
        // A bar that isn't on the platform now holds nobody.
        let here = s.platforms[usize::from(self.platform_of(flight)) - 1].running
            == Some((flight, slot));
        let free = !here || self.excepted(p, slot, next);
        let bar = if free { 0 } else { bar };
        if load < bar.max(self.least_rise(p, slot, next)) {
            return Err("too light");
        }
        // The first after a ruling is the declaration; each later one with a
        // different load is one change. An opener is declared on the card.
        let asked: &[(Load, bool)] = p.runs[slot]
            .get(usize::from(next) - 1)
            .map_or(&[], |a| &a.requests);
        let opener = next == 1 && p.athlete.slots[slot].is_some_and(|(_, o)| o.is_some());
        let declared = opener || !asked.is_empty();
        let stands = self.request(p, slot, next);
        // Whoever must go up because the bar has gone up loses no change.
        let least = bar.max(self.least_rise(p, slot, next));
        let forced = stands.is_some_and(|l| l < least);
        let change = declared && stands != Some(load);
        if change
            && !forced
            && let Some(most) = self.rules.changes
        {
            let used = asked.iter().filter(|(_, change)| *change).count();
            if used >= most {
                return Err("no change left");
            }
        }
        if (stands != Some(load) || !declared)
            && let Some(call) = called_for(s, no, slot, next)
            && let Some(left) = call.left(at)
        {
            // Before the final call: TCRR 6.5.11-12.
            if self.rules.final_call.is_some_and(|f| left < f * 1000) {
                return Err("after the final call");
            }
            // In the first seconds of the long clock, otherwise the changes
            // are lost: notice of 2007.
            if call.following
                && !declared
                && self
                    .rules
                    .within
                    .is_some_and(|w| call.length - left.max(0) > w * 1000)
            {
                return Err("not declared in time");
            }
        }
        let platform = self.platform_of(flight);
        let mut facts = vec![Fact::Requested {
            no,
            slot,
            attempt: next,
            load,
            change,
        }];
        if self.rules.law && called_for(s, no, slot, next).is_some_and(|c| c.load != load)
        {
            // As it would be without the call: is another first now?
            let mut after = s.clone();
            after.platforms[usize::from(platform) - 1].call = None;
            if let Some(q) = after.people.get_mut(&no) {
                let run = &mut q.runs[slot];
                while run.len() < usize::from(next) {
                    run.push(Attempt::default());
                }
                run[usize::from(next) - 1].requests.push((load, change));
            }
            if self
                .queue(&after, platform)
                .first()
                .is_some_and(|f| f.no != no)
            {
                facts.insert(0, Fact::CallTakenBack { platform });
            }
        }
        Ok((Line::Platform(platform), facts))
    }

    fn call(
        &self,
        s: &State,
        platform: u8,
        no: Option<No>,
        load: Option<Load>,
    ) -> Answer<Fact> {
        let on = &s.platforms[usize::from(platform) - 1];
        let (flight, slot) = on.running.ok_or("nothing runs")?;
        if on.call.is_some() {
            return Err("somebody is called");
        }
        let queue = self.queue(s, platform);
        let first = queue.first().ok_or("the queue is empty")?;
        let place = match no {
            None => first,
            Some(no) => queue
                .iter()
                .find(|q| q.no == no)
                .ok_or("not in the queue")?,
        };
        if self.rules.law && place.no != first.no {
            return Err("another is next");
        }
        let named = load.filter(|_| !self.rules.law);
        if place.load.is_none()
            && let Some(load) = named
        {
            // As if it had been asked for first.
            let p = &s.people[&place.no];
            if load % self.rules.step != 0
                || load < self.least_rise(p, slot, place.attempt)
            {
                return Err("not to be asked for");
            }
        }
        let asked = place.load.or(named);
        let asked = asked.ok_or("the load is owed")?;
        if load.is_some_and(|l| l != asked) {
            return Err("another load is asked");
        }
        // The bar comes down only to correct an error: TCRR, no reduction.
        let anew = self.excepted(&s.people[&place.no], slot, place.attempt);
        if asked < self.bar(s, flight, slot, place.attempt) && !anew {
            return Err("the bar is higher");
        }
        let following = on.lifted_last == Some(place.no);
        let clock = if following {
            self.rules
                .clock
                .and(self.rules.following.or(self.rules.clock))
        } else {
            self.rules.clock
        };
        Ok(Fact::Called {
            platform,
            no: place.no,
            slot,
            attempt: place.attempt,
            load: asked,
            clock,
            following,
        })
    }

    /// What the lights or the word add up to.
    pub fn ruling(&self, given: &Given) -> Answer<Ruling> {
        match given {
            Given::Word(ruling) => Ok(*ruling),
            Given::Lights(lights) => {
                if lights.len() != self.rules.judges {
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

    fn lights(
        &self,
        s: &State,
        platform: u8,
        no: Option<No>,
        load: Option<Load>,
        given: &Given,
    ) -> Answer<(Line, Vec<Fact>)> {
        let ruling = self.ruling(given)?;
        let on = &s.platforms[usize::from(platform) - 1];
        let mut facts = Vec::new();
        let (no, slot, attempt, load) = match (&on.call, no) {
            (None, None) => return Err("nobody is called"),
            (Some(call), _) => {
                if no.is_some_and(|no| no != call.no) {
                    return Err("somebody else is called");
                }
                if load.is_some_and(|l| l != call.load) {
                    return Err("another load is asked");
                }
                (call.no, call.slot, call.attempt, call.load)
            }
            (None, Some(_)) => {
                let fact = self.call(s, platform, no, load)?;
                let Fact::Called {
                    no,
                    slot,
                    attempt,
                    load,
                    ..
                } = fact
                else {
                    return Err("not called");
                };
                facts.push(fact);
                (no, slot, attempt, load)
            }
        };
        facts.push(Fact::Ruled {
            platform,
            no,
            slot,
            attempt,
            load: Some(load),
            ruling,
            lifted: true,
        });
        Ok((Line::Platform(platform), facts))
    }

    fn tally(
        &self,
        s: &State,
        no: No,
        slot: usize,
        attempt: Option<u8>,
        load: Option<Load>,
        given: &Given,
    ) -> Answer<(Line, Vec<Fact>)> {
        let ruling = self.ruling(given)?;
        let p = person(s, no)?;
        if p.athlete.slots[slot].is_none() {
            return Err("not entered");
        }
        let next = self.next(p, slot).ok_or("no attempt left")?;
        // Cards come late and out of order.
        let next = attempt.unwrap_or(next);
        if next == 0 || next > self.allowed(p, slot) || s.is_ruled(no, slot, next) {
            return Err("not that attempt");
        }
        let load = load
            .or_else(|| called_for(s, no, slot, next).map(|c| c.load))
            .or_else(|| self.request(p, slot, next));
        if load.is_none() && ruling != Ruling::Pass {
            return Err("the load is owed");
        }
        let platform = self.platform_of(p.athlete.flight);
        Ok((
            Line::Platform(platform),
            vec![Fact::Ruled {
                platform,
                no,
                slot,
                attempt: next,
                load,
                ruling,
                lifted: false,
            }],
        ))
    }
}

fn person(s: &State, no: No) -> Answer<&Person> {
    s.people.get(&no).ok_or("no such number")
}

fn taking_part(s: &State, no: No, slot: usize) -> Answer<&Person> {
    let p = person(s, no)?;
    if p.athlete.slots[slot].is_none() {
        return Err("not entered");
    }
    if !p.takes_part(slot) {
        return Err("withdrawn");
    }
    Ok(p)
}

fn is_called(s: &State, no: No, slot: Option<usize>) -> bool {
    s.platforms
        .iter()
        .filter_map(|p| p.call.as_ref())
        .any(|c| c.no == no && slot.is_none_or(|s| s == c.slot))
}

fn called_for(s: &State, no: No, slot: usize, attempt: u8) -> Option<&Call> {
    s.platforms
        .iter()
        .filter_map(|p| p.call.as_ref())
        .find(|c| (c.no, c.slot, c.attempt) == (no, slot, attempt))
}
