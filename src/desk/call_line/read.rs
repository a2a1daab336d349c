//! Reads a line of shorthand.

use super::say::say;
use super::{Meaning, ReasonFor, by_key, by_name, faults, owed, start};
use crate::day::{Command, Facts, FaultGiven, Light, Outcome, Ruling, Which};
use crate::desk::see;
use crate::lift::Slug;
use crate::measure::{Mass, Unit, Weight};
use crate::roster::Entry;
use crate::rules::WrongCatch;

/// Reads what is typed while a platform is in hand.
///
/// An empty line means the suggestion, where there is one.
///
/// # Errors
/// A sentence that says what isn't understood and what would be.
pub fn read(text: &str, facts: &Facts, platform: u8) -> Result<Meaning, String> {
    let parted = parted(text);
    let words: Vec<&str> = parted.split_whitespace().collect();
    let Some((first, rest)) = words.split_first() else {
        return owed::suggestion(facts, platform)
            .ok_or_else(|| owed::hint(facts, platform));
    };
    let line = Line { facts, platform };
    let lower = first.to_lowercase();
    if first.bytes().all(|b| b.is_ascii_digit()) {
        return line.number(first, rest);
    }
    if let Some(lights) = letters_of(&lower) {
        return line.lights(lights, rest);
    }
    let word = start::first(&lower);
    match word.as_str() {
        "call" => line.call(rest),
        "who" => line.who(rest),
        "start" => line.start(rest),
        "break" => line.pause(rest),
        "clock" => line.clock(rest),
        "check" => line.check(rest),
        "fault" | "why" => line.fault(rest),
        "note" => line.note(None, rest),
        "undo" => Ok(Meaning::Undo),
        "redo" => Ok(Meaning::Redo),
        "time" => Ok(line.done(Command::Lights {
            which: Which::default(),
            load: None,
            outcome: Outcome {
                ruling: Some(Ruling::Time),
                ..Outcome::default()
            },
            platform: Some(platform),
        })),
        "pass" | "rest" => Ok(line.done(Command::Pass {
            which: line.who_passes(),
            rest: passes_all(&word, rest)?,
            platform: Some(platform),
        })),
        "to" => line.next_to(rest),
        "loaded" => line.last_loaded(rest),
        "stop" => line.stop(Which::default(), rest),
        "close" => line.close(rest),
        _ => line
            .bare_load(&words)
            .or_else(|| line.bare_rise(&words))
            .or_else(|| line.bare_reason(&words))
            .or_else(|| {
                let named = by_name::numbered(&words, facts)?;
                Some(named.and_then(|line| read(&line, facts, platform)))
            })
            .unwrap_or_else(|| {
                Err(format!(
                    "“{text}” is not understood; write a lot number and a load (12 85), \
                     the lights (wwr), or press F1 for the whole list."
                ))
            }),
    }
}

pub(super) struct Line<'a> {
    pub(super) facts: &'a Facts,
    pub(super) platform: u8,
}

impl<'a> Line<'a> {
    pub(super) fn done(&self, command: Command) -> Meaning {
        Meaning::Do {
            sentence: say(self.facts, self.platform, &command),
            command: Box::new(command),
        }
    }

    pub(super) fn entry(&self, word: &str) -> Result<&'a Entry, String> {
        let number: u16 = word.parse().map_err(|_| {
            format!("“{word}” is no table number; it is a whole number from 1 to 9999.")
        })?;
        self.facts
            .entry_by_number(number)
            .ok_or_else(|| format!("No entry has the number {number}."))
    }

    /// The platform of an entry's flight, else the one in hand.
    pub(super) fn platform_of(&self, entry: &Entry) -> u8 {
        self.facts.platform_of(entry).unwrap_or(self.platform)
    }

    pub(super) fn load(&self, words: &[&str]) -> Option<(Weight, usize)> {
        let (first, rest) = words.split_first()?;
        let first = first.replace(',', ".");
        if !first.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
            return None;
        }
        if let Some(unit) = rest.first().and_then(|w| Unit::parse(w)) {
            return Weight::parse(&first, unit).ok().map(|w| (w, 2));
        }
        Weight::parse(&first, self.facts.bar_unit)
            .ok()
            .map(|w| (w, 1))
    }

    /// Who passes where nobody is named: the athlete called, else the one who owes
    /// a request.
    fn who_passes(&self) -> Which {
        let place = self.facts.platform(self.platform);
        if place.is_some_and(|place| place.call.is_some()) {
            return Which::default();
        }
        let asked = owed::asked(self.facts, self.platform);
        asked.map_or_else(Which::default, |asked| Which {
            number: Some(asked.number),
            lift: Some(asked.slot),
            attempt: Some(asked.attempt),
        })
    }

    /// What was on the bar for the attempt ruled last on the platform.
    fn last_loaded(&self, rest: &[&str]) -> Result<Meaning, String> {
        let Some((entry, slot, attempt, _)) = see::last_ruled(self.facts, self.platform)
        else {
            return Err(format!(
                "No attempt was ruled on {} yet; write the lot number first.",
                self.facts.platform_label(self.platform)
            ));
        };
        let which = Which {
            number: Some(entry.number),
            lift: Some(slot),
            attempt: Some(attempt),
        };
        self.loaded(which, entry, rest)
    }

    /// A bare load, which only the athlete who owes a request can mean.
    fn bare_load(&self, words: &[&str]) -> Option<Result<Meaning, String>> {
        let (load, used) = self.load(words)?;
        let record = matches!(&words[used..], ["record"]);
        if used != words.len() && !record {
            return None;
        }
        Some(match owed::asked(self.facts, self.platform) {
            Some(asked) => Ok(self.done(asked.request(load, record))),
            None => Err(format!(
                "Nobody owes a request on {}; write the lot number before the load: 12 {}.",
                self.facts.platform_label(self.platform),
                load.typed
            )),
        })
    }

    /// A rise alone, `+5`, which only the athlete who owes a request can mean.
    fn bare_rise(&self, words: &[&str]) -> Option<Result<Meaning, String>> {
        let (first, record) = match words {
            [first] => (first, false),
            [first, "record"] => (first, true),
            _ => return None,
        };
        if !first.starts_with(['+', '-']) {
            return None;
        }
        let rise = match Mass::parse(&first.replace(',', "."), self.facts.bar_unit) {
            Ok(rise) => rise,
            Err(e) => return Some(Err(format!("{e}."))),
        };
        Some(match owed::asked(self.facts, self.platform) {
            Some(asked) => Ok(self.done(asked.rise(rise, record))),
            None => Err(format!(
                "Nobody owes a request on {}; write the lot number before the rise: 12 \
                 {first}.",
                self.facts.platform_label(self.platform)
            )),
        })
    }

    /// The start of a reason's word, while the red lights given last have none.
    fn bare_reason(&self, words: &[&str]) -> Option<Result<Meaning, String>> {
        let (_, _, _, ruled) = see::last_ruled(self.facts, self.platform)?;
        let names = by_key::reasons_by_key(self.facts, self.platform);
        let of_given = matches!(names, Some((ReasonFor::Given(_), _)));
        if !of_given || !ruled.fact.faults.is_empty() {
            return None;
        }
        let _ = faults::codes(words, Some(&ruled.fact.lift)).ok()?;
        Some(self.fault(words))
    }

    /// The variant of an attempt: another one than was entered where it is
    /// named and the rules enter a wrong catch as what it was.
    pub(super) fn lift_of(&self, entry: &Entry, named: Option<&Slug>) -> Option<Slug> {
        if let Some(caught) = named.and_then(|n| caught_as(self.facts, entry, n)) {
            return Some(caught);
        }
        let running = self
            .facts
            .platform(self.platform_of(entry))
            .and_then(|p| p.running.as_ref())
            .map(|r| &r.slot);
        let named = named.and_then(|n| self.facts.slot_of(n.as_str()));
        let slot = named.map(|(line, _)| &line.slot).or(running);
        slot.and_then(|s| entry.variant(s)).cloned()
    }

    /// Puts the reasons to an outcome; also `x5` for five repetitions, and
    /// the variant that was caught (`as hang-clean`, or its word alone).
    pub(super) fn with_faults(
        &self,
        mut outcome: Outcome,
        words: &[&str],
        lift: Option<Slug>,
    ) -> Result<Outcome, String> {
        let mut reasons = Vec::new();
        for word in words {
            let named = self.facts.slot_of(&word.to_lowercase());
            if let Some(reps) = reps_of(word) {
                outcome.reps = Some(reps?);
            } else if let Some(variant) = named.and_then(|(_, variant)| variant) {
                outcome.caught = Some(variant.clone());
            } else if *word != "as" {
                reasons.push(*word);
            }
        }
        let lift = outcome.caught.clone().or(lift);
        for code in faults::codes(&reasons, lift.as_ref())? {
            outcome.faults.push(FaultGiven { judge: None, code });
        }
        Ok(outcome)
    }

    /// The lights of the athlete called.
    fn lights(&self, lights: Vec<Light>, rest: &[&str]) -> Result<Meaning, String> {
        let call = self.facts.platform(self.platform);
        let call = call.and_then(|p| p.call.as_ref());
        let outcome = Outcome {
            lights,
            ..Outcome::default()
        };
        let outcome = self.with_faults(outcome, rest, call.map(|c| c.lift.clone()))?;
        Ok(self.done(Command::Lights {
            which: Which::default(),
            load: None,
            outcome,
            platform: Some(self.platform),
        }))
    }
}

/// Whether a pass is for all attempts that remain.
///
/// # Errors
/// A sentence where more is written: a pass has no remark.
pub(super) fn passes_all(word: &str, after: &[&str]) -> Result<bool, String> {
    match after {
        [] => Ok(word == "rest"),
        [all] if matches!(all.to_lowercase().as_str(), "rest" | "all") => Ok(true),
        more => Err(format!(
            "A pass takes no words behind it, and “{}” would be lost; enter {word} alone, \
             then the remark: 12 note and the words.",
            more.join(" ")
        )),
    }
}

/// The variant that a word names, where it is another than the one entered
/// and the rules enter a wrong catch as what it was.
pub(super) fn caught_as(facts: &Facts, entry: &Entry, named: &Slug) -> Option<Slug> {
    if facts.rules.wrong_catch != WrongCatch::Reclassify {
        return None;
    }
    let (line, variant) = facts.slot_of(named.as_str())?;
    let variant = variant.filter(|v| **v != line.slot)?;
    (entry.variant(&line.slot)? != variant).then(|| variant.clone())
}

/// Lights of a word that is made of the letters w and r, at most five.
pub fn letters_of(word: &str) -> Option<Vec<Light>> {
    if word.is_empty() || word.len() > 5 {
        return None;
    }
    word.chars()
        .map(|c| match c {
            'w' => Some(Light::White),
            'r' => Some(Light::Red),
            _ => None,
        })
        .collect()
}

/// The repetitions that a word such as `x5` names; `None` for other words.
///
/// Limits: 2 to 20; the sentence for another number says so.
pub fn reps_of(word: &str) -> Option<Result<u8, String>> {
    let number = word.strip_prefix(['x', 'X'])?;
    if number.is_empty() || !number.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    let reps = number.parse().ok().filter(|n| (2..=20).contains(n));
    Some(reps.ok_or_else(|| {
        format!("“{word}” is no number of repetitions; write x2 to x20: 12 85x5 good.")
    }))
}

/// Parts `85x5` into a load and its repetitions; the start of `record` at the end
/// is the whole word.
fn parted(text: &str) -> String {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let at = word.find(['x', 'X']).filter(|at| {
            *at > 0
                && word.starts_with(|c: char| c.is_ascii_digit())
                && reps_of(&word[*at..]).is_some()
        });
        match at {
            Some(at) => words.extend([word[..at].to_owned(), word[at..].to_owned()]),
            None => words.push(word.to_owned()),
        }
    }
    if let Some(last) = words.last_mut().filter(|w| w.len() >= 3)
        && "record".starts_with(last.to_lowercase().as_str())
    {
        *last = "record".to_owned();
    }
    words.join(" ")
}
