//! Reads a line of shorthand.

use super::say::say;
use super::{Meaning, owed};
use crate::day::{
    Command, Facts, FaultGiven, Light, LoadAsked, Outcome, Roll, Ruling, Which,
};
use crate::lift::{Slug, catalogue};
use crate::measure::{Mass, Unit, Weight};
use crate::roster::Entry;

/// Reads what is typed while a platform is in hand.
///
/// An empty line means the suggestion, where there is one.
///
/// # Errors
/// A sentence that says what isn't understood and what would be.
pub fn read(text: &str, facts: &Facts, platform: u8) -> Result<Meaning, String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let Some((first, rest)) = words.split_first() else {
        return owed::suggestion(facts, platform)
            .ok_or_else(|| owed::hint(facts, platform));
    };
    let line = Line { facts, platform };
    let lower = first.to_lowercase();
    if first.bytes().all(|b| b.is_ascii_digit()) {
        return line.number(first, rest);
    }
    if let Some(lights) = lights_of(&lower) {
        let lift = line.lift_in_hand();
        let outcome = line.with_faults(
            Outcome {
                lights,
                ..Outcome::default()
            },
            rest,
            lift,
        )?;
        return Ok(line.done(Command::Lights {
            which: Which::default(),
            load: None,
            outcome,
            platform: Some(platform),
        }));
    }
    match lower.as_str() {
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
            which: Which::default(),
            rest: lower == "rest" || rest.first() == Some(&"rest"),
            platform: Some(platform),
        })),
        "stop" => line.stop(Which::default(), rest),
        _ => line.bare_load(&words).unwrap_or_else(|| {
            Err(format!(
                "“{text}” is not understood; write a lot number and a load (12 85), the \
                 lights (wwr), or press F1 for the whole list."
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

    fn lift_in_hand(&self) -> Option<Slug> {
        let call = self.facts.platform(self.platform)?.call.as_ref()?;
        Some(call.lift.clone())
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

    /// A bare load, which only the athlete who owes a request can mean.
    fn bare_load(&self, words: &[&str]) -> Option<Result<Meaning, String>> {
        let (load, used) = self.load(words)?;
        if used != words.len() {
            return None;
        }
        Some(match owed::asked(self.facts, self.platform) {
            Some(asked) => Ok(self.done(asked.request(load))),
            None => Err(format!(
                "Nobody owes a request on {}; write the lot number before the load: 12 {}.",
                self.facts.platform_label(self.platform),
                load.typed
            )),
        })
    }

    fn number(&self, first: &str, rest: &[&str]) -> Result<Meaning, String> {
        if rest.is_empty() || (rest.len() == 1 && Unit::parse(rest[0]).is_some()) {
            return self.number_alone(first, rest);
        }
        let entry = self.entry(first)?;
        let mut which = Which {
            number: Some(entry.number),
            ..Which::default()
        };
        let mut rest = rest;
        if let Some((slot, _)) = self.facts.slot_of(&rest[0].to_lowercase()) {
            which.lift = Some(slot.slot.clone());
            rest = &rest[1..];
            if rest.is_empty() {
                return Ok(Meaning::Know(owed::who(self.facts, entry)));
            }
        }
        let platform = Some(self.platform_of(entry));
        let (word, after) = (rest[0].to_lowercase(), &rest[1..]);
        if let Some(command) = self.roll(entry, &word, after) {
            return Ok(self.done(command));
        }
        match word.as_str() {
            "pass" | "rest" => Ok(self.done(Command::Pass {
                which,
                rest: word == "rest" || after.first() == Some(&"rest"),
                platform,
            })),
            "call" => Ok(self.done(Command::Call {
                which,
                load: self.load(after).map(|(w, _)| w),
                platform,
            })),
            "tally" => self.tally(which, entry, after),
            "stop" => self.stop(which, after),
            "loaded" => self.loaded(which, after),
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
    fn number_alone(&self, first: &str, unit: &[&str]) -> Result<Meaning, String> {
        let words: Vec<&str> =
            std::iter::once(first).chain(unit.iter().copied()).collect();
        if let Some(asked) = owed::asked(self.facts, self.platform)
            && let Some((load, _)) = self.load(&words)
        {
            let lightest = self.facts.rules.bar_f.min(self.facts.rules.bar_m);
            let a_lot = first
                .parse::<u16>()
                .is_ok_and(|n| self.facts.entry_by_number(n).is_some());
            if !(a_lot && unit.is_empty() && load.mass < lightest) {
                return Ok(self.done(asked.request(load)));
            }
        }
        if !unit.is_empty() {
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

    fn roll(&self, entry: &Entry, word: &str, after: &[&str]) -> Option<Command> {
        let roll = match word {
            "here" => Roll::Here,
            "absent" => Roll::Absent,
            "away" => Roll::Away,
            "back" => Roll::Back,
            "withdraw" => {
                let lift = after
                    .first()
                    .and_then(|w| self.facts.slot_of(&w.to_lowercase()))
                    .map(|(line, _)| line.slot.clone());
                let skip = usize::from(lift.is_some());
                return Some(Command::Withdraw {
                    number: entry.number,
                    lift,
                    reason: after[skip..].join(" "),
                });
            }
            _ => return None,
        };
        Some(Command::Roll {
            number: entry.number,
            roll,
            reason: after.join(" "),
        })
    }

    /// `85`, `+5`, `85 w`, `w press-out`.
    fn load_or_lights(
        &self,
        which: Which,
        entry: &Entry,
        rest: &[&str],
    ) -> Result<Meaning, String> {
        let platform = Some(self.platform_of(entry));
        let first = rest[0];
        if first.starts_with(['+', '-']) && rest.len() == 1 {
            let rise = Mass::parse(&first.replace(',', "."), self.facts.bar_unit)
                .map_err(|e| format!("{e}."))?;
            return Ok(self.done(Command::Request {
                which,
                load: LoadAsked::Relative(rise),
                platform,
            }));
        }
        let (load, used) = match self.load(rest) {
            Some((load, used)) => (Some(load), used),
            None => (None, 0),
        };
        let after = &rest[used..];
        match (load, after.split_first()) {
            (Some(load), None) => Ok(self.done(Command::Request {
                which,
                load: LoadAsked::Exactly(load),
                platform,
            })),
            (load, Some((word, faults))) => {
                let Some(lights) = lights_of(&word.to_lowercase()) else {
                    return Err(format!(
                        "“{word}” is not understood after the number; write a load (12 85), \
                         +5, pass, rest, call, tally, away, back, here, absent, withdraw, \
                         or a load and the lights (12 85 w)."
                    ));
                };
                let lift = self.lift_of(entry, which.lift.as_ref());
                let outcome = self.with_faults(
                    Outcome {
                        lights,
                        ..Outcome::default()
                    },
                    faults,
                    lift,
                )?;
                Ok(self.done(Command::Lights {
                    which,
                    load,
                    outcome,
                    platform,
                }))
            }
            (None, None) => Err("Write a load after the number.".to_owned()),
        }
    }

    pub(super) fn lift_of(&self, entry: &Entry, slot: Option<&Slug>) -> Option<Slug> {
        let running = self
            .facts
            .platform(self.platform_of(entry))
            .and_then(|p| p.running.as_ref())
            .map(|r| &r.slot);
        slot.or(running).and_then(|s| entry.variant(s)).cloned()
    }

    pub(super) fn with_faults(
        &self,
        mut outcome: Outcome,
        words: &[&str],
        lift: Option<Slug>,
    ) -> Result<Outcome, String> {
        for word in words {
            let code = fault_of(word, lift.as_ref())?;
            outcome.faults.push(FaultGiven { judge: None, code });
        }
        Ok(outcome)
    }
}

/// Lights of a word that is made of the letters w and r, at most five.
pub(super) fn lights_of(word: &str) -> Option<Vec<Light>> {
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

pub(super) fn faults_of(lift: Option<&Slug>) -> Vec<&'static str> {
    let known = lift.and_then(|l| catalogue().get(l.as_str()));
    match known {
        Some(lift) => lift.faults.iter().map(String::as_str).collect(),
        None => catalogue()
            .faults()
            .iter()
            .map(|f| f.code.as_str())
            .collect(),
    }
}

/// The fault that a word, or the start of one, names.
fn fault_of(word: &str, lift: Option<&Slug>) -> Result<String, String> {
    let word = word.trim_matches([':', ',']).to_lowercase();
    let all = faults_of(lift);
    let fits: Vec<&&str> = all.iter().filter(|c| c.starts_with(&word)).collect();
    if let Some(exact) = fits.iter().find(|c| ***c == word) {
        return Ok((**exact).to_owned());
    }
    match fits.as_slice() {
        [only] => Ok((**only).to_owned()),
        [] => Err(format!(
            "“{word}” is no reason here; there is {}.",
            all.join(", ")
        )),
        several => {
            let list: Vec<&str> = several.iter().map(|c| **c).collect();
            Err(format!(
                "“{word}” could be {}; write more of it.",
                list.join(" or ")
            ))
        }
    }
}
