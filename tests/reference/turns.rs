//! Whose turn it is and what for: next attempts, requests that stand, the
//! bar, the order of call.

use std::cmp::Ordering;

use crate::model::{Person, Ruled, State};
use crate::plain::{Cleared, Load, No, Ruling};
use crate::rules::{Bar, Gate, Key, NoGood};

/// One place in the queue.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    pub no: No,
    pub number: No,
    pub attempt: u8,
    pub load: Option<Load>,
    pub called: bool,
}

impl State {
    /// How many attempts somebody has in a slot.
    pub fn allowed(&self, p: &Person, slot: usize) -> u8 {
        self.rules.attempts + p.extra[slot]
    }

    /// The attempt that comes next.
    pub fn next(&self, p: &Person, slot: usize) -> Option<u8> {
        let n = p.ruled_so_far(slot) + 1;
        (n <= self.allowed(p, slot)).then_some(n)
    }

    /// Whether a slot without a good attempt ended the athlete's day before
    /// this slot.
    pub fn is_out(&self, p: &Person, slot: usize) -> bool {
        self.rules.no_good == NoGood::Out
            && (0..slot).any(|before| {
                p.takes_part(before)
                    && self.next(p, before).is_none()
                    && self.best(p, before).is_none()
            })
    }

    /// The request that stands for an attempt.
    pub fn request(&self, p: &Person, slot: usize, attempt: u8) -> Option<Load> {
        if let Some(a) = p.attempt(slot, attempt)
            && let Some(request) = a.requests.last()
        {
            return Some(request.load);
        }
        if attempt == 1 {
            return p.athlete.slots[slot].and_then(|(_, opener)| opener);
        }
        if !self.rules.automatic {
            return None;
        }
        // A step more after a good lift, the same after a no lift: TCRR 6.5 (the
        // second from memory).
        let before = p.ruled(slot, attempt - 1)?;
        let step = self.rules.step;
        let load = match before.ruling {
            Ruling::Good => before.load? + step,
            _ => before.requested?,
        };
        // Requests are whole steps, so an odd load goes up to the next.
        let least = self.own_least(p, slot, attempt, step);
        Some(if before.ruling == Ruling::Good || load < least {
            up_to_step(load.max(least), step)
        } else {
            load
        })
    }

    /// Whether the request that stands for an attempt is made for a record; one
    /// that is filled in after a no lift is what was asked before.
    pub fn is_record(&self, p: &Person, slot: usize, attempt: u8) -> bool {
        if let Some(request) = p.attempt(slot, attempt).and_then(|a| a.requests.last()) {
            return request.record;
        }
        attempt > 1
            && self.rules.automatic
            && p.ruled(slot, attempt - 1).is_some_and(|r| {
                r.ruling != Ruling::Good && r.requested == self.request(p, slot, attempt)
            })
            && self.is_record(p, slot, attempt - 1)
    }

    /// The least load that the athlete's own attempts allow.
    pub fn own_least(&self, p: &Person, slot: usize, attempt: u8, rise: Load) -> Load {
        if !self.rules.least {
            return 0;
        }
        let mut least = 0;
        for n in 1..attempt {
            if let Some(r) = p.ruled(slot, n)
                && let Some(load) = r.load
            {
                let asked = r.requested.unwrap_or(load);
                least = least.max(match r.ruling {
                    Ruling::Good => load + rise,
                    Ruling::No | Ruling::Time | Ruling::Stopped => asked,
                    Ruling::Pass => 0,
                });
            }
        }
        least
    }

    /// Where the bar is for an attempt in a flight and slot.
    pub fn bar(&self, flight: usize, slot: usize, attempt: u8) -> Load {
        match self.rules.bar {
            Bar::Free => 0,
            Bar::Rounds => self
                .bars
                .get(&(flight, slot, attempt))
                .copied()
                .unwrap_or(0),
            Bar::Rising => self
                .bars
                .iter()
                .filter(|((f, sl, _), _)| (*f, *sl) == (flight, slot))
                .map(|(_, load)| *load)
                .max()
                .unwrap_or(0),
        }
    }

    /// Whether the bar may come down for an attempt: only to correct an error
    /// (TCRR, no reduction), so for one that is taken anew or by leave.
    pub fn excepted(&self, p: &Person, slot: usize, attempt: u8) -> bool {
        attempt > self.rules.attempts || Self::is_anew(p, slot, attempt)
    }

    fn is_anew(p: &Person, slot: usize, attempt: u8) -> bool {
        p.attempt(slot, attempt).is_some_and(|a| a.void)
    }

    /// The bar for a request: one that isn't on the platform now holds nobody.
    pub fn bar_for(&self, p: &Person, slot: usize, attempt: u8) -> Load {
        let flight = p.athlete.flight;
        let here =
            self.on(self.rules.platform_of(flight)).running == Some((flight, slot));
        if !here || self.excepted(p, slot, attempt) {
            return 0;
        }
        self.bar(flight, slot, attempt)
    }

    /// The clearance that holds for a slot.
    pub fn clearance(p: &Person, slot: usize) -> Option<Cleared> {
        [Some(slot), None]
            .iter()
            .filter_map(|key| p.cleared.get(key))
            .find(|(_, over)| !over)
            .map(|(cleared, _)| *cleared)
    }

    /// The load that neither a cap nor a clearance lets anybody exceed.
    pub fn ceiling(&self, p: &Person, slot: usize) -> Option<Load> {
        let cap = p.caps.get(&Some(slot)).or_else(|| p.caps.get(&None));
        let cleared = match Self::clearance(p, slot) {
            Some(Cleared::UpTo(load)) => Some(load),
            _ => None,
        };
        cap.copied().into_iter().chain(cleared).min()
    }

    /// The largest rise that the rules allow, where they forbid more.
    pub fn jump(&self, p: &Person, slot: usize, attempt: u8) -> Option<Load> {
        let percent = self.rules.jump(slot)?;
        if self.rules.jumps != Gate::Required {
            return None;
        }
        let base = if attempt == 1 {
            let (variant, _) = p.athlete.slots[slot]?;
            p.athlete.last[slot]
                .filter(|(v, _)| *v == variant)
                .map(|(_, load)| load)?
        } else {
            p.ruled(slot, attempt - 1)
                .filter(|r| r.ruling == Ruling::Good)?
                .load?
        };
        let step = self.rules.step;
        Some((base * (100 + percent) / 100).max(up_to_step(base + step, step)))
    }

    /// Whether an attempt waits for the end of its round.
    fn waits(&self, p: &Person, slot: usize, attempt: u8) -> bool {
        self.rules.round_end && Self::is_anew(p, slot, attempt)
    }

    /// The order from now on; a call changes nothing in it.
    pub fn queue(&self, platform: u8) -> Vec<Place> {
        let on = self.on(platform);
        let Some((flight, slot)) = on.running else {
            return Vec::new();
        };
        let mut all: Vec<Place> = Vec::new();
        for (no, person) in &self.people {
            let called = self.calls().find(|c| c.no == *no && c.slot == slot);
            if person.athlete.flight != flight
                || !person.is_present()
                || !person.takes_part(slot)
                || self.is_out(person, slot)
            {
                continue;
            }
            if let Some(attempt) = self.next(person, slot) {
                all.push(Place {
                    no: *no,
                    number: person.number,
                    attempt,
                    // What was announced stays, whatever came of what was before.
                    load: called
                        .filter(|c| c.attempt == attempt)
                        .map(|c| c.load)
                        .or_else(|| self.request(person, slot, attempt)),
                    called: called.is_some(),
                });
            }
        }
        all.sort_by(|a, b| self.before(a, b, slot));
        all
    }

    fn before(&self, a: &Place, b: &Place, slot: usize) -> Ordering {
        let mut order = Ordering::Equal;
        for key in &self.rules.order {
            order = order.then_with(|| match key {
                // A load that is still owed comes after all that are known.
                Key::Load => (a.load.is_none(), a.load).cmp(&(b.load.is_none(), b.load)),
                // Granted for an error: at the end of the round.
                Key::Attempt => {
                    let of = |p: &Place| {
                        let waits = self.waits(&self.people[&p.no], slot, p.attempt);
                        (p.attempt, waits)
                    };
                    of(a).cmp(&of(b))
                }
                Key::Previous => {
                    let of = |p: &Place| self.previous(p, slot).map(Ruled::when);
                    of(a).cmp(&of(b))
                }
                Key::Number => a.number.cmp(&b.number),
                Key::Rest => {
                    let of = |p: &Place| {
                        let before = self.previous(p, slot);
                        before.filter(|_| self.rules.rests()).map(|r| r.at.ms)
                    };
                    of(a).cmp(&of(b))
                }
            });
        }
        order.then(a.number.cmp(&b.number))
    }

    /// The attempt before; nothing before a first attempt.
    fn previous(&self, place: &Place, slot: usize) -> Option<&Ruled> {
        self.ruled(place.no, slot, place.attempt - 1)
    }
}

/// The next multiple of a step that isn't less.
pub const fn up_to_step(load: Load, step: Load) -> Load {
    (load + step - 1) / step * step
}
