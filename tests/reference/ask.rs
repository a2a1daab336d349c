//! What may be asked for, and until when.

use crate::model::{Answer, Attempt, Model, Person, Request, State};
use crate::plain::{Asked, At, Fact, Line, Load, No};
use crate::rules::{Allowance, Changes};

/// What the table says of a next attempt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    pub least: Option<Load>,
    pub most: Option<Load>,
    pub changes_left: Option<usize>,
}

/// A request as it comes in.
#[derive(Debug, Clone, Copy)]
pub struct Asking {
    pub no: No,
    pub slot: usize,
    pub attempt: Option<u8>,
    pub load: Asked,
    pub record: bool,
}

impl State {
    fn asked<'s>(p: &'s Person, slot: usize, attempt: u8) -> &'s [Request] {
        p.attempt(slot, attempt)
            .map_or(&[], |a: &'s Attempt| &a.requests)
    }

    /// Changes that an attempt allows.
    pub fn changes(&self, slot: usize, attempt: u8) -> Changes {
        let r = &self.rules;
        if attempt == 1 {
            return r.changes_first.unwrap_or(r.changes);
        }
        let last = slot + 1 == r.slots.len() && attempt == r.attempts;
        r.changes_last.filter(|_| last).unwrap_or(r.changes)
    }

    pub fn limits(&self, p: &Person, slot: usize, attempt: u8) -> Limits {
        let least = self.own_least(p, slot, attempt, self.rules.step);
        let least = least.max(self.bar_for(p, slot, attempt));
        let used = Self::asked(p, slot, attempt)
            .iter()
            .filter(|r| r.change)
            .count();
        Limits {
            least: Some(least).filter(|l| *l > 0),
            most: self.ceiling(p, slot),
            changes_left: self
                .changes(slot, attempt)
                .map(|most| most.saturating_sub(used)),
        }
    }

    /// The load that is meant; a rise goes by what was asked, else by what was
    /// lifted before.
    fn meant(&self, p: &Person, slot: usize, attempt: u8, asked: Asked) -> Answer<Load> {
        let rise = match asked {
            Asked::Exactly(load) => return Ok(load),
            Asked::Rise(rise) => rise,
        };
        let before = || p.ruled(slot, attempt - 1)?.load;
        Self::asked(p, slot, attempt)
            .last()
            .map(|r| r.load)
            .or_else(before)
            .or_else(|| self.request(p, slot, attempt))
            .map(|load| load + rise)
            .ok_or("nothing to rise from")
    }

    /// Whether a load may be asked for at all, be it in time or not.
    pub fn may_be_asked(
        &self,
        p: &Person,
        slot: usize,
        attempt: u8,
        load: Load,
        record: bool,
    ) -> Answer<()> {
        let step = if record {
            self.rules.record_step.ok_or("no record step")?
        } else {
            self.rules.step
        };
        let same = self.request(p, slot, attempt) == Some(load);
        if load <= 0 || (load % step != 0 && !same) {
            return Err("off the step");
        }
        if load < self.own_least(p, slot, attempt, step) {
            return Err("too light");
        }
        if self.ceiling(p, slot).is_some_and(|most| load > most) {
            return Err("above the cap");
        }
        if self.jump(p, slot, attempt).is_some_and(|most| load > most) {
            return Err("too great a jump");
        }
        // What stands may be said again.
        if attempt == 1 && self.request(p, slot, attempt) != Some(load) {
            self.openers(p, slot, load)?;
        }
        Ok(())
    }

    /// The openers' sum against the entry total.
    fn openers(&self, p: &Person, slot: usize, load: Load) -> Answer<()> {
        let r = &self.rules;
        let allowance = if p.athlete.girl {
            r.entry_total_f
        } else {
            r.entry_total_m
        };
        let (Some(total), Some(allowance)) = (p.athlete.entry_total, allowance) else {
            return Ok(());
        };
        let mut sum = 0;
        for other in 0..r.slots.len() {
            if other == slot {
                sum += load;
            } else if let Some(opener) = self.request(p, other, 1) {
                sum += opener;
            } else {
                // Whoever isn't in every lift has no total.
                return Ok(());
            }
        }
        let enough = match allowance {
            Allowance::Load(under) => sum >= total - under,
            Allowance::Percent(percent) => 100 * sum >= total * percent,
        };
        if enough {
            Ok(())
        } else {
            Err("too little for the entry total")
        }
    }

    /// The flight that lifts now, if another is the next of its session there.
    fn flight_before(&self, flight: usize, slot: usize) -> Option<usize> {
        let r = &self.rules;
        let (running, of) = self.on(r.platform_of(flight)).running?;
        let next = (0..2).find(|f| {
            r.session_of(*f) == r.session_of(running)
                && r.platform_of(*f) == r.platform_of(running)
                && !self.begun.contains(&(*f, of))
        });
        (of == slot && next == Some(flight)).then_some(running)
    }

    /// Whether the first attempts of a flight are closed to changes.
    fn first_is_closed(&self, p: &Person, slot: usize, at: At) -> bool {
        let r = &self.rules;
        let flight = p.athlete.flight;
        let begun = self.begun.contains(&(flight, slot));
        if begun && (r.first_closes.is_some() || r.first_closes_left.is_some()) {
            return true;
        }
        // What is planned is the first lift's start; later ones follow a break.
        // A later flight of the session follows the one that lifts now.
        let began = self
            .on(r.platform_of(flight))
            .running
            .is_some_and(|(f, sl)| r.session_of(f) == r.session_of(flight) && sl == slot);
        // A break is that of the session that lifts there.
        let own = self
            .on(r.platform_of(flight))
            .running
            .is_some_and(|(f, _)| r.session_of(f) == r.session_of(flight));
        let rested = self.on(r.platform_of(flight)).break_end;
        let planned = r.planned_of(flight).filter(|_| slot == 0 && !began);
        let first = (0..2).find(|f| {
            r.session_of(*f) == r.session_of(flight)
                && r.platform_of(*f) == r.platform_of(flight)
                && !self.begun.contains(&(*f, slot))
        });
        if let Some(minutes) = r.first_closes
            && !at.loose
            && first == Some(flight)
            && let Some(start) = rested.filter(|_| own && !began).unwrap_or(planned)
            && at.ms > start - minutes * 60_000
        {
            return true;
        }
        if let Some(most) = r.first_closes_left
            && let Some(before) = self.flight_before(flight, slot)
        {
            let left: usize = self
                .people
                .values()
                .filter(|o| {
                    o.athlete.flight == before && o.takes_part(slot) && o.is_present()
                })
                .map(|o| {
                    usize::from(
                        self.allowed(o, slot).saturating_sub(o.ruled_so_far(slot)),
                    )
                })
                .sum();
            return left <= most;
        }
        false
    }
}

impl Model {
    pub fn ask(&self, s: &State, asking: &Asking, at: At) -> Answer<(Line, Vec<Fact>)> {
        let Asking {
            no, slot, record, ..
        } = *asking;
        let p = taking_part(s, no, slot)?;
        let r = &s.rules;
        let flight = p.athlete.flight;
        if s.is_closed(r.session_of(flight)) {
            return Err("closed");
        }
        let next = s.next(p, slot).ok_or("no attempt left")?;
        if asking.attempt.is_some_and(|a| a != next) {
            return Err("not that attempt");
        }
        let load = s.meant(p, slot, next, asking.load)?;
        s.may_be_asked(p, slot, next, load, record)?;
        let bar = s.bar_for(p, slot, next);
        if load < bar {
            return Err("too light");
        }
        // The first after a ruling is the declaration; each later one with a
        // different load is one change. An opener is declared on the card.
        let asked = State::asked(p, slot, next);
        let opener = next == 1 && p.athlete.slots[slot].is_some_and(|(_, o)| o.is_some());
        let declared = opener || !asked.is_empty();
        let stands = s.request(p, slot, next);
        let called = s.called_for(no, slot, next);
        // A record that was overtaken: down to the step below (a quiz page).
        let rounded = !record
            && !asked.is_empty()
            && s.is_record(p, slot, next)
            && stands.is_some_and(|l| l % r.step != 0 && load == l / r.step * r.step);
        // Whoever must go up because the bar has gone up loses no change.
        let rise = if s.is_record(p, slot, next) {
            r.record_step.unwrap_or(r.step)
        } else {
            r.step
        };
        let least = bar.max(s.own_least(p, slot, next, rise));
        let forced = stands.is_some_and(|l| l < least);
        let change = declared && stands != Some(load) && !rounded;
        if change
            && !forced
            && let Some(most) = s.changes(slot, next)
        {
            let used = asked.iter().filter(|r| r.change).count();
            if used >= most {
                return Err("no change left");
            }
        }
        if stands != Some(load) || !declared {
            s.in_time_called(p, slot, next, declared, at)?;
            if !rounded {
                s.in_time(p, slot, next, declared, at)?;
            }
        }
        let platform = r.platform_of(flight);
        let mut facts = vec![Fact::Requested {
            no,
            slot,
            attempt: next,
            load,
            change,
            record,
        }];
        if r.law && called.is_some_and(|c| c.load != load) {
            // As it would be without the call: is another first now? An owed
            // load in front leaves the call as it is.
            let mut after = s.clone();
            let there = (1..=r.platforms)
                .find(|n| s.on(*n).call.as_ref().is_some_and(|c| c.no == no))
                .unwrap_or(platform);
            after.platforms[usize::from(there) - 1].call = None;
            if let Some(a) = after.attempt_mut(no, slot, next) {
                a.requests.push(Request {
                    load,
                    change,
                    record,
                });
            }
            if after
                .queue(there)
                .first()
                .is_some_and(|f| f.no != no && f.load.is_some())
            {
                facts.insert(
                    0,
                    Fact::CallTakenBack {
                        platform: there,
                        no,
                    },
                );
            }
        }
        Ok((Line::Platform(platform), facts))
    }
}

impl State {
    /// What closes for somebody called.
    fn in_time_called(
        &self,
        p: &Person,
        slot: usize,
        next: u8,
        declared: bool,
        at: At,
    ) -> Answer<()> {
        let r = &self.rules;
        if let Some(call) = self.called_for(p.athlete.no, slot, next) {
            if !r.change_called {
                return Err("is called already");
            }
            if let Some(left) = call.left(at.ms)
                && !at.loose
                && !call.loose
            {
                // Before the final call: TCRR 6.5.11-12.
                if r.final_call.is_some_and(|f| left < f * 1000) {
                    return Err("after the final call");
                }
                // In the first seconds of the long clock, otherwise the changes
                // are lost: notice of 2007.
                if call.following
                    && !declared
                    && r.within
                        .is_some_and(|w| call.length - left.max(0) > w * 1000)
                {
                    return Err("not declared in time");
                }
            }
        }
        Ok(())
    }

    /// What closes before the call.
    fn in_time(
        &self,
        p: &Person,
        slot: usize,
        next: u8,
        declared: bool,
        at: At,
    ) -> Answer<()> {
        let r = &self.rules;
        if next == 1 && declared && self.first_is_closed(p, slot, at) {
            return Err("first attempts are closed");
        }
        // Handed in within a minute of finishing: World Para, WDFPF, IPL.
        if next > 1
            && !declared
            && !at.loose
            && let Some(seconds) = r.hand_in
            && let Some(before) = p.ruled(slot, next - 1)
            && !before.at.loose
            && at.ms - before.at.ms > seconds * 1000
        {
            return Err("not handed in in time");
        }
        Ok(())
    }
}

fn taking_part(s: &State, no: No, slot: usize) -> Answer<&Person> {
    let p = s.person(no)?;
    if p.athlete.slots[slot].is_none() {
        return Err("not entered");
    }
    if !p.takes_part(slot) {
        return Err("withdrawn");
    }
    Ok(p)
}
