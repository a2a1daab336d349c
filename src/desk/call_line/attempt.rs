//! Shorthand about a finished attempt: a tally, a stop, what was on the bar,
//! a new ruling.

use super::read::{Line, letters_of, reps_of};
use super::{Meaning, remarks};
use crate::day::{Authority, Command, Granted, Outcome, Ruling, StopFor, Which};
use crate::lift::Slug;
use crate::roster::Entry;

impl Line<'_> {
    pub(super) fn tally(
        &self,
        which: Which,
        entry: &Entry,
        words: &[&str],
    ) -> Result<Meaning, String> {
        let mut which = which;
        let mut words = words;
        if let Some((line, variant)) = words
            .first()
            .and_then(|w| self.facts.slot_of(&w.to_lowercase()))
        {
            which.lift = Some(variant.unwrap_or(&line.slot).clone());
            words = &words[1..];
        }
        let (load, used) = match self.load(words) {
            Some((load, used)) => (Some(load), used),
            None => (None, 0),
        };
        let words = &words[used..];
        let reps = words.first().and_then(|w| reps_of(w)).transpose()?;
        let lift = self.lift_of(entry, which.lift.as_ref());
        let mut outcome = self.outcome(&words[usize::from(reps.is_some())..], lift)?;
        outcome.reps = reps.or(outcome.reps);
        Ok(self.done(Command::Tally {
            which,
            load,
            outcome,
            platform: Some(self.platform_of(entry)),
        }))
    }

    /// `good`, `no`, `no:code`, `no code`, `pass`, `time`, or lights.
    pub(super) fn outcome(
        &self,
        words: &[&str],
        lift: Option<Slug>,
    ) -> Result<Outcome, String> {
        let allowed = "write good, no, no:reason, pass, time, or the lights";
        let Some((word, faults)) = words.split_first() else {
            return Err(format!("The outcome is missing; {allowed}."));
        };
        let lower = word.to_lowercase();
        let (head, code) = lower.split_once(':').unwrap_or((lower.as_str(), ""));
        let faults: Vec<&str> = std::iter::once(code)
            .filter(|c| !c.is_empty())
            .chain(faults.iter().copied())
            .collect();
        let outcome = match (ruling_of(head), letters_of(head)) {
            (Some(ruling), _) => Outcome {
                ruling: Some(ruling),
                ..Outcome::default()
            },
            (None, Some(lights)) => Outcome {
                lights,
                ..Outcome::default()
            },
            (None, None) => return Err(format!("“{word}” is no outcome; {allowed}.")),
        };
        self.with_faults(outcome, &faults, lift)
    }

    pub(super) fn stop(&self, which: Which, rest: &[&str]) -> Result<Meaning, String> {
        let word = rest.first().map(|w| w.to_lowercase()).unwrap_or_default();
        let stop = match word.as_str() {
            "technique" => StopFor::Technique,
            "pain" => StopFor::Pain,
            "director" => StopFor::Director,
            _ => {
                return Err(
                    "Write what for: stop technique, stop pain, or stop director."
                        .to_owned(),
                );
            }
        };
        let platform = which
            .number
            .and_then(|n| self.facts.entry_by_number(n))
            .map_or(self.platform, |e| self.platform_of(e));
        Ok(self.done(Command::Stop {
            which,
            stop,
            reason: rest[1..].join(" "),
            platform: Some(platform),
        }))
    }

    pub(super) fn loaded(
        &self,
        which: Which,
        entry: &Entry,
        rest: &[&str],
    ) -> Result<Meaning, String> {
        let n = entry.number;
        let Some((load, used)) = self.load(rest) else {
            return Err(format!(
                "Write what was on the bar and what is granted: {n} loaded 87 keep (or \
                 repeat, again)."
            ));
        };
        let granted = match rest[used..].first().map(|w| w.to_lowercase()).as_deref() {
            Some(word) if starts("keep", word) => Granted::Keep,
            Some(word) if starts("repeat", word) => Granted::Repeat,
            Some(word) if starts("again", word) => Granted::Again,
            _ => {
                let allowed = remarks::grants(self.facts, entry, &which, load.mass);
                let allowed =
                    allowed.unwrap_or_else(|| "keep, repeat or again".to_owned());
                return Err(format!(
                    "Write what was on the bar and what is granted, {n} loaded {} and: \
                     {allowed}.",
                    load.typed
                ));
            }
        };
        Ok(self.done(Command::Loaded {
            which,
            load,
            granted,
            platform: None,
        }))
    }

    pub(super) fn rerule(
        &self,
        which: Which,
        word: &str,
        rest: &[&str],
    ) -> Result<Meaning, String> {
        let given = rest.first().map(|w| w.to_lowercase()).unwrap_or_default();
        let ruling = match given.trim_end_matches(':') {
            "g" | "good" => Ruling::Good,
            "n" | "no" => Ruling::No,
            _ => {
                return Err(format!(
                    "Write the ruling and why: 12 {word} good saw it on film.{}",
                    if word == "challenge" {
                        " The ruling that stands is a challenge lost."
                    } else {
                        ""
                    }
                ));
            }
        };
        let authority = if word == "overrule" {
            Authority::Overrule
        } else {
            Authority::Challenge
        };
        Ok(self.done(Command::Rerule {
            which,
            outcome: Outcome {
                ruling: Some(ruling),
                ..Outcome::default()
            },
            authority,
            reason: rest[1..].join(" "),
        }))
    }
}

/// The ruling that a word names; `g` is good and `n` is no, as on a card.
pub(super) fn ruling_of(word: &str) -> Option<Ruling> {
    match word {
        "g" => Some(Ruling::Good),
        "n" => Some(Ruling::No),
        word => Ruling::parse(word),
    }
}

/// Whether a word is the start of another.
fn starts(whole: &str, word: &str) -> bool {
    !word.is_empty() && whole.starts_with(word)
}
