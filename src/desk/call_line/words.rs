//! The parts of a sentence: who, what load, which attempt.

use super::read::caught_as;
use super::{records, remarks};
use crate::day::{
    Command, Facts, Light, LoadAsked, Origin, Outcome, Which, advice, queue, rise_base,
    standing_request,
};
use crate::desk::see;
use crate::lift::Slug;
use crate::measure::{Mass, Weight};
use crate::roster::Entry;
use crate::rules::Jumps;
use crate::sheets;

/// Says who, what load and which attempt.
pub(super) struct Words<'a> {
    pub(super) facts: &'a Facts,
    pub(super) platform: u8,
}

impl Words<'_> {
    pub(super) fn load(&self, load: &Weight) -> String {
        load.mass.show_with_unit(self.facts.bar_unit)
    }

    pub(super) fn who(&self, number: Option<u16>) -> String {
        let entry = match number {
            Some(number) => self.facts.entry_by_number(number),
            None => self
                .facts
                .platform(self.platform)
                .and_then(|p| p.call.as_ref())
                .and_then(|c| self.facts.entries.get(&c.entry)),
        };
        match (entry, number) {
            (Some(e), _) => format!("Lot {}, {},", e.number, e.name()),
            (None, Some(n)) => format!("Lot {n}"),
            (None, None) => "The athlete called".to_owned(),
        }
        .trim_end_matches(',')
        .to_owned()
    }

    /// A warning where a load is far above what stands for the attempt (a
    /// digit too many is the dearest slip of the hand), else a word where it
    /// is above what is advised.
    pub(super) fn leap(&self, which: &Which, load: &Weight) -> String {
        let Some((entry, slot, attempt)) = self.meant(which) else {
            return String::new();
        };
        let unit = self.facts.bar_unit;
        let stands = standing_request(self.facts, entry, slot, attempt);
        if let Some(before) = stands.map(|s| s.load.mass)
            && load.mass.counts() > before.counts() / 4 * 5
        {
            return format!(
                ", {} more than the {} that stands: check the number",
                (load.mass - before).show_with_unit(unit),
                before.show_with_unit(unit)
            );
        }
        match advice::most(self.facts, entry, slot, attempt) {
            Some(most) if self.facts.rules.jumps != Jumps::Off && load.mass > most => {
                format!(
                    ", {} more than the {} that is advised",
                    (load.mass - most).show_with_unit(unit),
                    most.show_with_unit(unit)
                )
            }
            _ => String::new(),
        }
    }

    /// A word where the discs on hand can't make a load, with the loads next to
    /// it that they can. What goes before it may end a clause already.
    pub(super) fn unmade(&self, which: &Which, load: Mass, before: &str) -> String {
        let Some((entry, _, _)) = self.meant(which) else {
            return String::new();
        };
        let platform = self.facts.platform_of(entry).unwrap_or(self.platform);
        let Some(near) = sheets::nearest_words(self.facts, platform, entry, load) else {
            return String::new();
        };
        let label = self.facts.platform_label(platform);
        if before.is_empty() {
            format!(", which the discs on {label} can't make{near}")
        } else {
            format!("; the discs on {label} can't make it{near}")
        }
    }

    /// The attempt that is meant: the next one where none is named.
    pub(super) fn attempt_meant(&self, which: &Which) -> Option<u8> {
        let place = self.facts.platform(self.platform)?;
        match (which.number, &place.call) {
            (None, Some(call)) => Some(call.attempt),
            _ => self.meant(which).map(|(_, _, attempt)| attempt),
        }
    }

    /// Which ruled attempt is meant, with a comma before it.
    pub(super) fn ruled_attempt(&self, which: &Which) -> String {
        let ruled = remarks::ruled(self.facts, which);
        ruled.map_or_else(String::new, |r| format!(", attempt {}", r.fact.attempt))
    }

    /// Whether the lights of an outcome are those that stand for the attempt.
    pub(super) fn same_lights(&self, which: &Which, outcome: &Outcome) -> bool {
        let ruled = remarks::ruled(self.facts, which);
        ruled.is_some_and(|r| {
            !outcome.lights.is_empty() && r.fact.lights == outcome.lights
        })
    }

    /// The load that was asked for before, where somebody did.
    pub(super) fn instead(&self, which: &Which, load: Option<Mass>) -> Option<String> {
        let (entry, slot, attempt) = self.meant(which)?;
        let stands = standing_request(self.facts, entry, slot, attempt)?;
        let asked = stands.origin != Origin::Automatic && Some(stands.load.mass) != load;
        let before = stands.load.mass.show_with_unit(self.facts.bar_unit);
        asked.then(|| format!(" instead of {before}"))
    }

    /// Which record a good lift of a requested load would break.
    pub(super) fn record(&self, which: &Which, load: Mass) -> String {
        let words = || {
            let (entry, slot, _) = self.meant(which)?;
            records::would_be(self.facts, entry, entry.variant(slot)?, load)
        };
        words().map_or_else(String::new, |words| format!("; it {words}"))
    }

    /// Which record an attempt breaks, where it is good: of whoever is named, else
    /// of the athlete called.
    pub(super) fn record_by(
        &self,
        which: &Which,
        load: Option<&Weight>,
        outcome: &Outcome,
    ) -> String {
        let white = |o: &Outcome| {
            let white = o.lights.iter().filter(|l| **l == Light::White).count();
            white > o.lights.len() - white
        };
        let good = match &outcome.ruling {
            Some(ruling) => ruling.is_good(),
            None => white(outcome),
        };
        if !good || outcome.reps.is_some_and(|n| n > 1) {
            return String::new();
        }
        let call = self.facts.platform(self.platform);
        let call = call.and_then(|p| p.call.as_ref());
        let words = || {
            let (entry, lift, asked) = match (which.number, call) {
                (None, Some(call)) => {
                    let entry = self.facts.entries.get(&call.entry)?;
                    (entry, &call.lift, Some(call.load.mass))
                }
                _ => {
                    let (entry, slot, attempt) = self.meant(which)?;
                    let stands = standing_request(self.facts, entry, slot, attempt);
                    (entry, entry.variant(slot)?, stands.map(|s| s.load.mass))
                }
            };
            let lift = outcome.caught.as_ref().unwrap_or(lift);
            let load = load.map(|l| l.mass).or(asked)?;
            records::breaks(self.facts, entry, lift, load)
        };
        words().map_or_else(String::new, |words| format!("; {words}"))
    }

    /// The load that a rise comes to.
    pub(super) fn risen(&self, which: &Which, rise: Mass) -> Option<Mass> {
        let (entry, slot, attempt) = self.meant(which)?;
        Some(rise_base(self.facts, entry, slot, attempt)? + rise)
    }

    /// Whose attempt is meant, in which slot; an open one, the next.
    fn meant(&self, which: &Which) -> Option<(&Entry, &Slug, u8)> {
        let entry = self.facts.entry_by_number(which.number?)?;
        let running = self.facts.platform_of(entry);
        let running = self.facts.platform(running.unwrap_or(self.platform))?;
        let slot = match &which.lift {
            Some(lift) => &self.facts.slot_of(lift.as_str())?.0.slot,
            None => &running.running.as_ref()?.slot,
        };
        let attempt = which
            .attempt
            .or_else(|| self.facts.next_attempt(entry.key, slot))?;
        Some((entry, slot, attempt))
    }

    /// The variant that was caught, where it is another than the one entered.
    pub(super) fn caught(&self, which: &Which, outcome: &Outcome) -> String {
        let call = self.facts.platform(self.platform);
        let call = call.and_then(|p| p.call.as_ref());
        let caught = || {
            if let Some(caught) = &outcome.caught {
                return Some(caught.clone());
            }
            let entry = self.facts.entry_by_number(which.number?)?;
            caught_as(self.facts, entry, which.lift.as_ref()?)
        };
        let called = call.filter(|_| which.number.is_none()).map(|c| &c.lift);
        match caught().filter(|lift| Some(lift) != called) {
            Some(lift) => format!(", entered as {}", see::lift_name(&lift)),
            None => String::new(),
        }
    }

    /// Whether a ruling is the one that stands for the attempt that is meant.
    pub(super) fn stands(&self, which: &Which, outcome: &Outcome) -> bool {
        let ruled = remarks::ruled(self.facts, which);
        ruled.is_some_and(|r| Some(&r.fact.ruling) == outcome.ruling.as_ref())
    }

    pub(super) fn attempt(&self, which: &Which) -> String {
        let lift = which
            .lift
            .as_ref()
            .map(|l| format!(" in {}", l.as_str().replace('-', " ")));
        let attempt = which.attempt.map(|n| format!(", attempt {n}"));
        format!(
            "{}{}",
            lift.unwrap_or_default(),
            attempt.unwrap_or_default()
        )
    }

    pub(super) fn elsewhere(&self, platform: Option<u8>) -> String {
        match platform.filter(|p| *p != self.platform) {
            Some(p) => format!(" (on {})", self.facts.platform_label(p)),
            None => String::new(),
        }
    }

    pub(super) fn call(
        &self,
        which: &Which,
        load: Option<&Weight>,
        platform: Option<u8>,
    ) -> String {
        let here = platform.unwrap_or(self.platform);
        let order = queue(self.facts, here);
        let queued = match which.number {
            Some(number) => order.iter().find(|q| q.number == number),
            None => order.first(),
        };
        let Some(queued) = queued else {
            return match which.number {
                Some(_) => format!("Calls {}.", self.who(which.number)),
                None => "Calls the next athlete.".to_owned(),
            };
        };
        let load = load.or(queued.load.as_ref());
        let load = load.map(|l| format!(" at {}", self.load(l)));
        let who = self.who(Some(queued.number));
        format!(
            "Calls {}, attempt {}{}{}.",
            who.replacen("Lot", "lot", 1),
            queued.attempt,
            load.unwrap_or_default(),
            self.elsewhere(platform)
        )
    }
}

/// The load that a request comes to; `None` for other commands, and where a rise
/// has nothing to rise over.
pub fn load_of(facts: &Facts, command: &Command) -> Option<Mass> {
    let Command::Request {
        which,
        load,
        platform,
        ..
    } = command
    else {
        return None;
    };
    let words = Words {
        facts,
        platform: platform.unwrap_or(1),
    };
    match load {
        LoadAsked::Exactly(load) => Some(load.mass),
        LoadAsked::Relative(rise) => words.risen(which, *rise),
    }
}
