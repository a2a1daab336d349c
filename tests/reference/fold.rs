//! What each fact does to the state of the day.

use crate::model::{Call, Model, Person, Platform, Request, Ruled, State};
use crate::plain::{At, Edit, Fact, Load, Move, No, Now, Roll, RuledFact};

impl Model {
    /// The newest standing correction of a ruling, made before `end`.
    fn corrected(&self, act: usize, whose: (No, usize, u8), end: usize) -> Option<Now> {
        let mut found = None;
        for done in self.acts[..end].iter().filter(|d| d.stands) {
            for fact in &done.facts {
                if let Fact::Corrected {
                    target,
                    no,
                    slot,
                    attempt,
                    now,
                } = fact
                    && *target == act
                    && (*no, *slot, *attempt) == whose
                {
                    found = Some(*now);
                }
            }
        }
        found
    }

    /// Takes one fact in; `when` is its act and its place in it.
    pub fn fold(
        &self,
        s: &mut State,
        when: (usize, usize),
        at: At,
        fact: &Fact,
        end: usize,
    ) {
        match fact.clone() {
            Fact::Entered(athlete) => {
                let slots = s.rules.slots.len();
                let _ = s.people.insert(athlete.no, Person::new(athlete, slots));
                s.count_doubles();
            }
            Fact::Requested {
                no,
                slot,
                attempt,
                load,
                change,
                record,
            } => s.requested(
                no,
                slot,
                attempt,
                Request {
                    load,
                    change,
                    record,
                },
                at,
            ),
            Fact::Called {
                platform,
                no,
                slot,
                attempt,
                variant,
                load,
                clock,
                following,
            } => s.called(
                (platform, when),
                Call {
                    no,
                    slot,
                    attempt,
                    variant,
                    load,
                    loose: at.loose,
                    following,
                    length: clock.unwrap_or(0) * 1000,
                    clock: clock.map(|c| (c * 1000, Some(at.ms))),
                },
            ),
            Fact::Ruled(fact) => {
                let whose = (fact.no, fact.slot, fact.attempt);
                let corrected = self.corrected(when.0, whose, end);
                s.rule(&fact, corrected, when, at);
            }
            other => s.simple(&other, at),
        }
    }
}

impl State {
    fn whose(&mut self, no: No, change: impl FnOnce(&mut Person)) {
        match self.people.get_mut(&no) {
            Some(p) => change(p),
            None => self.hanging += 1,
        }
    }

    fn simple(&mut self, fact: &Fact, at: At) {
        match fact.clone() {
            Fact::Edited(no, edit) => {
                if let (Edit::Slot(slot, line), Some(p)) = (&edit, self.people.get(&no)) {
                    let variant = |line: Option<(usize, _)>| line.map(|(v, _)| v);
                    let lifted = p.runs[*slot].iter().any(|a| a.ruled.is_some());
                    // Nor does a call that comes back survive another variant.
                    let called = self.platforms.iter().any(|p| {
                        p.call.as_ref().is_some_and(|c| {
                            (c.no, c.slot) == (no, *slot)
                                && variant(*line) != Some(c.variant)
                        })
                    });
                    let other = variant(*line) != variant(p.athlete.slots[*slot]);
                    if called || (lifted && other) {
                        self.hanging += 1;
                    }
                }
                self.whose(no, |p| edited(p, edit));
            }
            Fact::Placed(no, flight) => {
                self.whose(no, |p| p.athlete.flight = flight);
                self.end_call(no, None);
            }
            Fact::Weighed(no, b) => self.whose(no, |p| p.athlete.bodyweight = Some(b)),
            Fact::Presence(no, present) => {
                self.whose(no, |p| p.presence = Some(present));
                if !matches!(present, Roll::Here) {
                    self.end_call(no, None);
                }
            }
            Fact::Withdrawn(no, slot) => {
                self.whose(no, |p| match slot {
                    Some(slot) => p.withdrawn_slots[slot] = true,
                    None => p.withdrawn = true,
                });
                self.end_call(no, slot);
            }
            Fact::Disqualified(no, slot) => {
                self.whose(no, |p| match slot {
                    Some(slot) => p.disqualified_slots[slot] = true,
                    None => p.disqualified = true,
                });
                self.end_call(no, slot);
            }
            Fact::Numbered(numbers) => {
                for (no, number) in numbers {
                    self.whose(no, |p| p.number = number);
                }
                self.count_doubles();
            }
            Fact::Cleared(no, slot, cleared, over) => self.whose(no, |p| {
                let _ = p.cleared.insert(slot, (cleared, over));
            }),
            Fact::Capped(no, slot, load) => self.whose(no, |p| {
                let _ = match load {
                    Some(load) => p.caps.insert(slot, load),
                    None => p.caps.remove(&slot),
                };
            }),
            Fact::Set(setting) => {
                setting.apply(&mut self.rules);
            }
            Fact::Checked(platform) => self.platform(platform).checked = true,
            Fact::Started(platform, flight, slot) => {
                self.begun.push((flight, slot));
                self.bar_again(flight, slot);
                let p = self.platform(platform);
                *p = Platform {
                    running: Some((flight, slot)),
                    checked: p.checked,
                    last_call: p.last_call,
                    ..Platform::default()
                };
            }
            Fact::Closed(session, closed) => {
                self.closed.retain(|c| *c != session);
                if closed {
                    self.closed.push(session);
                }
            }
            Fact::Break(platform, minutes) => {
                let end = at.ms + i64::from(minutes) * 60_000;
                self.platform(platform).break_end = Some(Some(end).filter(|_| !at.loose));
            }
            Fact::CallTakenBack { platform, no } => {
                let p = self.platform(platform);
                p.call = p.call.take().filter(|c| c.no != no);
            }
            Fact::ClockMoved(platform, step) => {
                if let Some(call) = &mut self.platform(platform).call {
                    let left = call.left(at.ms);
                    let running = call.clock.is_some_and(|(_, since)| since.is_some());
                    call.clock = left.map(|left| match step {
                        Move::Stop => (left, None),
                        Move::Resume => (left, Some(at.ms)),
                        Move::Set(seconds) => (seconds * 1000, running.then_some(at.ms)),
                    });
                }
            }
            Fact::ClockBack(platform, whose, left) => {
                if let Some(call) = &mut self.platform(platform).call
                    && (call.no, call.slot, call.attempt) == whose
                {
                    call.clock = call.clock.map(|_| (left, None));
                }
            }
            Fact::Extra(no, slot) => self.whose(no, |p| p.extra[slot] += 1),
            Fact::Void(no, slot, attempt) => {
                if !self.is_ruled(no, slot, attempt) {
                    self.hanging += 1;
                } else if let Some(a) = self.attempt_mut(no, slot, attempt) {
                    a.ruled = None;
                    a.void = true;
                    a.found = None;
                    a.reruled = false;
                    // A call for a later attempt has nothing to stand on.
                    self.end_call(no, Some(slot));
                }
            }
            Fact::Credited(no, slot, attempt, load, found) => {
                self.ruled_anew(no, slot, attempt, |r| r.load = Some(load));
                if let Some(a) = self.attempt_mut(no, slot, attempt) {
                    a.found = Some(found);
                }
            }
            Fact::Reruled(no, slot, attempt, ruling, lost) => {
                self.ruled_anew(no, slot, attempt, |r| {
                    // A challenge that is lost leaves all as it was.
                    if !lost {
                        r.ruling = ruling;
                    }
                });
                if lost {
                    self.whose(no, |p| p.lost_challenges += 1);
                }
                if let Some(a) = self.attempt_mut(no, slot, attempt) {
                    a.reruled |= !lost;
                }
            }
            _ => {}
        }
    }

    /// Two of the same number can't be told apart.
    fn count_doubles(&mut self) {
        let mut numbers: Vec<No> = self.people.values().map(|p| p.number).collect();
        numbers.sort_unstable();
        self.hanging += numbers.windows(2).filter(|w| w[0] == w[1]).count();
    }

    /// Whoever is gone isn't called any more.
    fn end_call(&mut self, no: No, slot: Option<usize>) {
        for p in &mut self.platforms {
            let gone = |c: &Call| c.no == no && slot.is_none_or(|s| s == c.slot);
            if p.call.as_ref().is_some_and(gone) {
                p.call = None;
            }
        }
    }

    fn platform(&mut self, platform: u8) -> &mut Platform {
        &mut self.platforms[usize::from(platform) - 1]
    }

    fn ruled_anew(
        &mut self,
        no: No,
        slot: usize,
        attempt: u8,
        change: impl FnOnce(&mut Ruled),
    ) {
        let ruled = self
            .attempt_mut(no, slot, attempt)
            .and_then(|a| a.ruled.as_mut());
        match ruled {
            Some(r) => change(r),
            None => self.hanging += 1,
        }
    }

    fn requested(&mut self, no: No, slot: usize, attempt: u8, request: Request, at: At) {
        let Some(a) = self.attempt_mut(no, slot, attempt) else {
            self.hanging += 1;
            return;
        };
        a.requests.push(request);
        let runs = self.rules.change_runs;
        for p in &mut self.platforms {
            if let Some(call) = &mut p.call
                && (call.no, call.slot, call.attempt) == (no, slot, attempt)
            {
                if call.load != request.load
                    && !runs
                    && let Some(left) = call.left(at.ms)
                {
                    // The clock is stopped for the change (from memory).
                    call.clock = Some((left, None));
                }
                call.load = request.load;
            }
        }
    }

    fn called(&mut self, (platform, when): (u8, (usize, usize)), call: Call) {
        let (no, slot, attempt) = (call.no, call.slot, call.attempt);
        if !self.people.contains_key(&no) {
            self.hanging += 1;
            return;
        }
        if attempt > 1 && !self.is_ruled(no, slot, attempt - 1) {
            self.hanging += 1;
        }
        if self.is_ruled(no, slot, attempt)
            || attempt > self.allowed(&self.people[&no], slot)
            || self.people[&no].athlete.slots[slot].map(|(v, _)| v) != Some(call.variant)
            || self.on(platform).running != Some((self.people[&no].athlete.flight, slot))
        {
            self.hanging += 1;
        }
        if attempt <= self.rules.attempts {
            self.raise(platform, no, (slot, attempt), call.load);
        }
        // Nobody is called in two places.
        self.end_call(no, None);
        let by_ruling = self.rules.following_by_ruling;
        let p = self.platform(platform);
        if !by_ruling && p.lifted_last != Some(no) {
            p.lifted_last = None;
        }
        p.break_end = None;
        p.last_call = Some(when);
        p.call = Some(call);
    }

    /// Where the bar was by what is ruled, as a lift is begun again.
    fn bar_again(&mut self, flight: usize, slot: usize) {
        self.bars
            .retain(|(f, sl, _), _| (*f, *sl) != (flight, slot));
        let mut loads: Vec<(u8, Load)> = Vec::new();
        for p in self.people.values() {
            for (n, a) in (1_u8..).zip(&p.runs[slot]) {
                if let Some(r) = &a.ruled
                    && r.flight == flight
                    && r.lifted
                    && n <= self.rules.attempts
                    && let Some(load) = a.found.or(r.load)
                {
                    loads.push((n, load));
                }
            }
        }
        for (n, load) in loads {
            let bar = self.bars.entry((flight, slot, n)).or_insert(load);
            *bar = (*bar).max(load);
        }
    }

    /// The bar of the flight that lifts there goes up.
    fn raise(&mut self, platform: u8, no: No, of: (usize, u8), load: Load) {
        let own = self.people[&no].athlete.flight;
        let (slot, attempt) = of;
        let flight = match self.on(platform).running {
            Some((flight, running)) if running == slot => flight,
            _ => own,
        };
        let bar = self.bars.entry((flight, slot, attempt)).or_insert(load);
        *bar = (*bar).max(load);
    }

    fn rule(
        &mut self,
        fact: &RuledFact,
        corrected: Option<Now>,
        when: (usize, usize),
        at: At,
    ) {
        let (no, slot, attempt) = (fact.no, fact.slot, fact.attempt);
        if !self.people.contains_key(&no) || self.is_ruled(no, slot, attempt) {
            self.hanging += 1;
            return;
        }
        if attempt > 1 && !self.is_ruled(no, slot, attempt - 1) {
            self.hanging += 1;
        }
        let p = &self.people[&no];
        let called = self.calls().any(|c| fact.is_of(c));
        let beyond = attempt > self.allowed(p, slot) && !called;
        if beyond || p.athlete.slots[slot].is_none() {
            self.hanging += 1;
        }
        let Now {
            load,
            ruling,
            reps,
            variant,
        } = corrected.unwrap_or(Now {
            load: fact.load,
            ruling: fact.ruling,
            reps: fact.reps,
            variant: fact.variant,
        });
        if called
            && !fact.card
            && attempt <= self.rules.attempts
            && let Some(load) = load
        {
            self.raise(fact.platform, no, (slot, attempt), load);
        }
        if let Some(a) = self.attempt_mut(no, slot, attempt) {
            a.ruled = Some(Ruled {
                variant,
                reps,
                load,
                requested: load,
                ruling,
                first: ruling,
                act: when.0,
                part: when.1,
                at,
                platform: fact.platform,
                card: fact.card,
                flight: fact.flight,
                lifted: fact.lifted,
            });
        }
        for p in &mut self.platforms {
            if p.call.as_ref().is_some_and(|c| fact.is_of(c)) {
                p.call = None;
            }
        }
        // At the bar is who was called there.
        let here = self.on(fact.platform).running.map(|run| run.1) == Some(slot);
        if fact.lifted && called && here {
            self.platform(fact.platform).lifted_last = Some(no);
        }
    }
}

fn edited(p: &mut Person, edit: Edit) {
    match edit {
        Edit::Guest(guest) => p.athlete.guest = guest,
        Edit::Category(label) => p.athlete.category = label,
        Edit::Bodyweight(b) => p.athlete.bodyweight = b,
        Edit::EntryTotal(total) => p.athlete.entry_total = total,
        Edit::Last(slot, variant, load) => {
            p.athlete.last[slot] = load.map(|l| (variant, l));
        }
        Edit::Slot(slot, line) => p.athlete.slots[slot] = line,
    }
}
