//! Shorthand that begins with a table number.

use super::attempt::ruling_of;
use super::read::{Line, letters_of, passes_all, reps_of};
use super::{Meaning, owed, start};
use crate::day::{Command, LoadAsked, Outcome, Roll, Ruling, Which};
use crate::measure::{Mass, Unit};
use crate::roster::{Change, Entry};

impl Line<'_> {
    pub(super) fn number(&self, first: &str, rest: &[&str]) -> Result<Meaning, String> {
        let alone = match rest {
            [] | ["record"] => true,
            [one] | [one, "record"] => Unit::parse(one).is_some(),
            _ => false,
        };
        if alone {
            return self.number_alone(first, rest);
        }
        let entry = self.entry(first)?;
        let mut which = Which {
            number: Some(entry.number),
            ..Which::default()
        };
        let mut rest = rest;
        let before_a_load = rest.len() > 1 && self.load(&rest[1..]).is_some();
        let lift = match self.slot_by_start(rest[0]).filter(|_| before_a_load) {
            Some(slot) => slot.to_string(),
            None => rest[0].to_lowercase(),
        };
        if let Some((line, variant)) = self.facts.slot_of(&lift) {
            // A variant is named as such: it may be the one that was caught.
            which.lift = Some(variant.unwrap_or(&line.slot).clone());
            rest = &rest[1..];
            if rest.is_empty() {
                return Ok(Meaning::Know(owed::who(self.facts, entry)));
            }
        }
        if let Some(attempt) = earlier(rest) {
            which.attempt = Some(attempt);
            rest = &rest[1..];
        }
        let platform = Some(self.platform_of(entry));
        let (word, after) = (start::after_number(rest[0]), &rest[1..]);
        if let Some(command) = roll(entry, &word, after) {
            return Ok(self.done(command));
        }
        match word.as_str() {
            "pass" | "rest" => Ok(self.done(Command::Pass {
                which,
                rest: passes_all(&word, after)?,
                platform,
            })),
            "call" => Ok(self.done(Command::Call {
                which,
                load: self.load(after).map(|(w, _)| w),
                platform,
            })),
            "withdraw" => {
                let (lift, reason) = self.lift_and_reason(after);
                Ok(self.done(Command::Withdraw {
                    number: entry.number,
                    lift,
                    reason,
                }))
            }
            "disqualify" => self.disqualify(entry, after),
            "guest" => self.guest(entry, after),
            "to" => self.to(entry, after),
            "tally" => self.tally(which, entry, after),
            "stop" => self.stop(which, after),
            "loaded" => self.loaded(which, entry, after),
            "extra" => Ok(self.done(Command::Extra {
                which,
                reason: after.join(" "),
                platform,
            })),
            "overrule" | "challenge" => self.rerule(which, &word, after),
            "note" => self.note(Some(entry.number), after),
            _ => self.load_or_lights(which, entry, rest),
        }
    }

    /// A number and nothing else: the load that is owed, or a question.
    fn number_alone(&self, first: &str, rest: &[&str]) -> Result<Meaning, String> {
        let record = rest.last() == Some(&"record");
        let unit = &rest[..rest.len() - usize::from(record)];
        let words: Vec<&str> =
            std::iter::once(first).chain(unit.iter().copied()).collect();
        if let Some(asked) = owed::asked(self.facts, self.platform)
            && let Some((load, _)) = self.load(&words)
        {
            // No bar is as light as that: a rise over the last load is meant.
            let lightest = self.facts.rules.bar_f.min(self.facts.rules.bar_m);
            if load.mass < lightest && unit.is_empty() && asked.attempt > 1 {
                return Ok(self.done(asked.rise(load.mass, record)));
            }
            let a_lot = first
                .parse::<u16>()
                .is_ok_and(|n| self.facts.entry_by_number(n).is_some());
            if !(a_lot && unit.is_empty() && load.mass < lightest) {
                return Ok(self.done(asked.request(load, record)));
            }
        }
        if !rest.is_empty() {
            return Err(format!(
                "Nobody owes a request on {}; write the lot number before the load.",
                self.facts.platform_label(self.platform)
            ));
        }
        self.entry(first)
            .map(|e| Meaning::Know(owed::who(self.facts, e)))
            .map_err(|e| {
                format!("{e} A load alone is a request only while one is owed here.")
            })
    }

    /// The slot of the programme, or the variant, whose name begins like this
    /// and no other's does.
    fn slot_by_start(&self, typed: &str) -> Option<&crate::lift::Slug> {
        let typed = typed.to_lowercase();
        let mut fits = self.facts.slots.iter().flat_map(|line| {
            let variants = line.variants.iter().filter(|v| **v != line.slot);
            std::iter::once(&line.slot)
                .chain(variants)
                .filter(|slug| slug.as_str().starts_with(&typed))
        });
        match (fits.next(), fits.next()) {
            (Some(only), None) => Some(only),
            _ => None,
        }
    }

    /// A lift of the programme, where the words begin with one, and the rest
    /// as a reason.
    fn lift_and_reason(&self, words: &[&str]) -> (Option<crate::lift::Slug>, String) {
        // A longer start may be the first word of a reason: back hurts.
        let start = |word: &&str| {
            (word.len() <= 2)
                .then(|| self.slot_by_start(word))
                .flatten()
        };
        let lift = words.first().and_then(|w| {
            let whole = self.facts.slot_of(&w.to_lowercase());
            whole.map(|(line, _)| &line.slot).or_else(|| start(w))
        });
        let skip = usize::from(lift.is_some());
        (lift.cloned(), words[skip..].join(" "))
    }

    fn disqualify(&self, entry: &Entry, words: &[&str]) -> Result<Meaning, String> {
        let (lift, reason) = self.lift_and_reason(words);
        if reason.is_empty() {
            return Err(format!(
                "A disqualification needs a reason: {} disqualify why, for the day; or {} \
                 disqualify LIFT why.",
                entry.number, entry.number
            ));
        }
        Ok(self.done(Command::Disqualify {
            number: entry.number,
            lift,
            reason,
        }))
    }

    fn guest(&self, entry: &Entry, words: &[&str]) -> Result<Meaning, String> {
        let guest = match words {
            [] | ["yes"] => true,
            ["no"] => false,
            _ => {
                return Err(format!(
                    "Write {} guest, or {} guest no.",
                    entry.number, entry.number
                ));
            }
        };
        Ok(self.done(Command::Edit {
            number: entry.number,
            changes: vec![Change::Guest(guest)],
        }))
    }

    /// `85`, `+5`, `85 w`, `w press-out`, `85x5 good`.
    fn load_or_lights(
        &self,
        which: Which,
        entry: &Entry,
        rest: &[&str],
    ) -> Result<Meaning, String> {
        let platform = Some(self.platform_of(entry));
        let first = rest[0];
        if first.starts_with(['+', '-']) && matches!(rest, [_] | [_, "record"]) {
            let rise = Mass::parse(&first.replace(',', "."), self.facts.bar_unit)
                .map_err(|e| format!("{e}."))?;
            return Ok(self.done(Command::Request {
                which,
                load: LoadAsked::Relative(rise),
                record: rest.len() > 1,
                platform,
            }));
        }
        let (load, used) = match self.load(rest) {
            Some((load, used)) => (Some(load), used),
            None => (None, 0),
        };
        let after = &rest[used..];
        let reps = after.first().and_then(|w| reps_of(w)).transpose()?;
        let after = &after[usize::from(reps.is_some())..];
        match (load, after.split_first()) {
            (Some(load), None | Some((&"record", []))) if reps.is_none() => Ok(self
                .done(Command::Request {
                    which,
                    load: LoadAsked::Exactly(load),
                    record: !after.is_empty(),
                    platform,
                })),
            (_, None) if reps.is_some() => Err(format!(
                "Write what became of the repetitions: {} 85x5 good, or the lights.",
                entry.number
            )),
            (Some(load), Some((word, _))) if is_outcome(word) => {
                let lift = self.lift_of(entry, which.lift.as_ref());
                let mut outcome = self.outcome(after, lift)?;
                outcome.reps = reps.or(outcome.reps);
                Ok(self.done(Command::Tally {
                    which,
                    load: Some(load),
                    outcome,
                    platform,
                }))
            }
            (load, Some((word, faults))) => {
                let Some(lights) = letters_of(&word.to_lowercase()) else {
                    return Err(format!(
                        "“{word}” is not understood after the number; write a load (12 85), \
                         +5, pass, rest, call, tally, away, back, here, absent, withdraw, \
                         or a load and the lights (12 85 w)."
                    ));
                };
                let lift = self.lift_of(entry, which.lift.as_ref());
                let mut outcome = self.with_faults(
                    Outcome {
                        lights,
                        ..Outcome::default()
                    },
                    faults,
                    lift,
                )?;
                outcome.reps = reps.or(outcome.reps);
                Ok(self.done(Command::Lights {
                    which,
                    load,
                    outcome,
                    platform,
                }))
            }
            (_, None) => Err("Write a load after the number.".to_owned()),
        }
    }
}

/// The number of an attempt that was ruled, where what follows is about one:
/// `2 loaded 87 keep`.
fn earlier(words: &[&str]) -> Option<u8> {
    let [number, word, ..] = words else {
        return None;
    };
    let about = matches!(
        start::after_number(word).as_str(),
        "loaded" | "overrule" | "challenge"
    );
    let number = number.parse().ok().filter(|n| (1..=9).contains(n));
    number.filter(|_| about)
}

/// Whether a word is the outcome of a finished attempt: `good`, `no`,
/// `no:code`, `time`.
fn is_outcome(word: &str) -> bool {
    let lower = word.to_lowercase();
    let head = lower.split(':').next().unwrap_or_default();
    matches!(
        ruling_of(head),
        Some(Ruling::Good | Ruling::No | Ruling::Time)
    )
}

fn roll(entry: &Entry, word: &str, after: &[&str]) -> Option<Command> {
    let roll = match word {
        "here" => Roll::Here,
        "absent" => Roll::Absent,
        "away" => Roll::Away,
        "back" => Roll::Back,
        _ => return None,
    };
    Some(Command::Roll {
        number: entry.number,
        roll,
        reason: after.join(" "),
    })
}
