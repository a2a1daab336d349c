//! A school's own rules file: starts from a shipped format and changes keys.

use std::collections::BTreeMap;

use toml::Spanned;
use toml::Value;

use super::keys::keys;
use super::{Format, Rules, format_named, formats};
use crate::lift::lift_named;
use crate::measure::Unit;

/// Why a rules file can't be taken: one sentence, with its line.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("line {line}: {why}")]
pub struct OwnRulesError {
    /// The line, from 1.
    pub line: usize,
    /// What is wrong and what would be allowed.
    pub why: String,
}

/// Keys of the file itself, beside the rules'.
const HEAD: [&str; 4] = ["base", "format", "title", "lifts"];

/// Reads a rules file for a bar in `unit`.
///
/// `base` names the shipped format that it starts from; every other key is
/// one of the rules' (`maxday formats` lists them), with a text, a whole
/// number or true and false as its word. `format`, `title` and `lifts` name
/// the school's own.
///
/// # Errors
/// [`OwnRulesError`] for the first thing that is wrong: no TOML, an unknown or
/// doubled key, a wrong type or word, or two keys that contradict each other.
pub fn own_format(text: &str, unit: Unit) -> Result<(Format, Rules), OwnRulesError> {
    let line_at = |at: usize| text[..at.min(text.len())].matches('\n').count() + 1;
    let at = |at: usize, why: String| OwnRulesError {
        line: line_at(at),
        why,
    };
    let read: BTreeMap<Spanned<String>, Spanned<Value>> =
        toml::from_str(text).map_err(|e| {
            let from = e.span().map_or(0, |s| s.start);
            at(from, format!("{}.", first_line(e.message())))
        })?;
    let mut lines: BTreeMap<String, usize> = BTreeMap::new();
    let mut words: BTreeMap<String, (usize, String)> = BTreeMap::new();
    for (key, value) in read {
        let from = key.span().start;
        let name = key.into_inner().replace('.', "-");
        let known =
            HEAD.contains(&name.as_str()) || keys().iter().any(|k| k.name == name);
        if !known {
            let why = dotted(&name, value.get_ref()).unwrap_or_else(|| unknown(&name));
            return Err(at(from, why));
        }
        if let Some(other) = beside_value(value.get_ref()) {
            return Err(at(
                value.span().start,
                format!("{name} has “{other}”; a rule has value and source, no more."),
            ));
        }
        let word = word_of(value.get_ref()).ok_or_else(|| {
            at(
                value.span().start,
                format!(
                    "{name} takes a text, a whole number, or true or false; allowed: {}.",
                    allowed(&name)
                ),
            )
        })?;
        let _ = lines.insert(name.clone(), line_at(from));
        let _ = words.insert(name, (from, word));
    }
    let (_, base) = words.get("base").ok_or_else(|| {
        at(
            0,
            format!(
                "The rules need a base, such as base = \"max-day\"; there is {}.",
                names()
            ),
        )
    })?;
    let base = format_named(base).map_err(|e| {
        at(
            words.get("base").map_or(0, |(from, _)| *from),
            format!("{e}."),
        )
    })?;
    if let Some((from, lifts)) = words.get("lifts") {
        programme(lifts).map_err(|why| at(*from, why))?;
    }
    let mut rules = base.rules(unit).map_err(|e| at(0, format!("{e}.")))?;
    for (name, (from, word)) in &words {
        if !HEAD.contains(&name.as_str()) {
            rules
                .set(name, word)
                .map_err(|e| at(*from, format!("{e}.")))?;
        }
    }
    if let Some((names, why)) = contradiction(&rules) {
        let line = names.iter().find_map(|name| lines.get(*name));
        return Err(OwnRulesError {
            line: line.copied().unwrap_or(1),
            why,
        });
    }
    let own = |name: &str| words.get(name).map(|(_, word)| word.clone());
    let format = Format::own(base, own("format"), own("title"), own("lifts"));
    Ok((format, rules))
}

fn first_line(text: &str) -> String {
    let line = text.lines().next().unwrap_or("this is no TOML");
    line.trim_end_matches('.').to_owned()
}

/// A value as the word of a key.
fn word_of(value: &Value) -> Option<String> {
    match value {
        Value::String(text) => Some(text.clone()),
        Value::Integer(n) => Some(n.to_string()),
        Value::Boolean(true) => Some("yes".to_owned()),
        Value::Boolean(false) => Some("no".to_owned()),
        // As the shipped files write it: a value with its source.
        Value::Table(table) => table.get("value").and_then(word_of),
        Value::Float(_) | Value::Datetime(_) | Value::Array(_) => None,
    }
}

/// What a rule's table has that is neither its value nor its source.
fn beside_value(value: &Value) -> Option<&str> {
    let mut keys = value.as_table()?.keys().map(String::as_str);
    keys.find(|key| !matches!(*key, "value" | "source"))
}

/// A key that was written with a dot, which is a table in TOML.
fn dotted(name: &str, value: &Value) -> Option<String> {
    let meant = value.as_table()?.keys().find_map(|key| {
        let whole = format!("{name}-{key}");
        keys()
            .iter()
            .any(|k| k.name == whole)
            .then_some((key, whole))
    });
    meant.map(|(key, whole)| {
        format!("There is no rule “{name}.{key}”; write it with a hyphen: {whole}.")
    })
}

/// Refuses a programme with a lift that isn't known, or one that is on it
/// twice: slots parted by commas, with their variants behind `=`.
fn programme(text: &str) -> Result<(), String> {
    let mut slots: Vec<Vec<String>> = Vec::new();
    for part in text.split(',').map(str::trim).filter(|p| !p.is_empty()) {
        let (slot, variants) = part.split_once('=').unwrap_or((part, part));
        let mut names = Vec::new();
        for variant in variants.split('+') {
            names.push(lift_named(variant)?.to_string());
        }
        if part.contains('=') {
            names.push(slot.trim().to_owned());
        }
        if names.iter().any(|n| slots.iter().flatten().any(|s| s == n)) {
            return Err(format!("“{part}” is on the programme twice."));
        }
        slots.push(names);
    }
    if slots.is_empty() {
        return Err(
            "A programme needs at least one lift, such as back-squat, bench-press."
                .to_owned(),
        );
    }
    Ok(())
}

fn names() -> String {
    let names: Vec<&str> = formats().iter().map(|f| f.name.as_str()).collect();
    names.join(", ")
}

fn allowed(name: &str) -> String {
    keys()
        .iter()
        .find(|k| k.name == name)
        .map_or_else(|| "a text".to_owned(), |k| k.allowed.to_owned())
}

/// An unknown key, with the nearest known one where one is near.
fn unknown(name: &str) -> String {
    let near = keys()
        .iter()
        .map(|k| k.name)
        .chain(HEAD)
        .map(|known| (distance(name, known), known))
        // In a short word few letters are a slip; more of them are another word.
        .filter(|(d, _)| *d <= 3 && *d * 3 <= name.len())
        .min();
    match near {
        Some((_, known)) => format!("There is no rule “{name}”; {known} may be meant."),
        None => {
            format!("There is no rule “{name}”; `maxday formats` lists the rules.")
        }
    }
}

/// How many letters have to be changed, put in or left out (Levenshtein 1966).
fn distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.chars().enumerate() {
        let mut before = row[0];
        row[0] = i + 1;
        for (j, y) in b.iter().enumerate() {
            let swapped = before + usize::from(x != *y);
            before = row[j + 1];
            row[j + 1] = swapped.min(before + 1).min(row[j] + 1);
        }
    }
    row[b.len()]
}

/// Rules that can't hold together: the keys to look at, and why.
fn contradiction(rules: &Rules) -> Option<(&'static [&'static str], String)> {
    if let (Some(clock), Some(call)) = (rules.clock, rules.final_call)
        && call >= clock
    {
        return Some((
            &["final-call", "clock"],
            format!(
                "The final call at {call} s can't come within a clock of {clock} s; allowed: off, or less than {clock}."
            ),
        ));
    }
    if let (Some(clock), Some(long)) = (rules.clock, rules.clock_following)
        && long < clock
    {
        return Some((
            &["clock-following", "clock"],
            format!(
                "Who follows himself or herself would have less time ({long} s) than anybody else ({clock} s); allowed: off, or {clock} and more."
            ),
        ));
    }
    if rules.clock.is_none()
        && (rules.final_call.is_some() || rules.clock_following.is_some())
    {
        return Some((
            &["clock", "final-call", "clock-following"],
            "Without a clock there is no final call and no long clock; set those to off too, or set a clock.".to_owned(),
        ));
    }
    if let (Some(long), Some(within)) = (rules.clock_following, rules.declare_within)
        && within >= long
    {
        return Some((
            &["declare-within", "clock-following"],
            format!(
                "A declaration within {within} s of a clock of {long} s is no limit; allowed: off, or less than {long}."
            ),
        ));
    }
    if rules.least_rise && rules.bar == super::BarRule::Free {
        return Some((
            &["bar", "least-rise"],
            "A bar that is free comes down, but least-rise = step forbids it; set least-rise to none, or bar to rising or rounds.".to_owned(),
        ));
    }
    if rules.bar == super::BarRule::Rounds
        && !rules.order.starts_with(&[super::OrderKey::Attempt])
    {
        return Some((
            &["order", "bar"],
            "With bar = rounds the order has to begin with attempt, so that a round ends before the next begins.".to_owned(),
        ));
    }
    if rules.order.contains(&super::OrderKey::Rest) && rules.bar != super::BarRule::Free {
        return Some((
            &["order", "bar"],
            "An order by rest moves the bar up and down; set bar to free, or leave rest out of the order.".to_owned(),
        ));
    }
    if let Some(record) = rules.record_step
        && record >= rules.step
    {
        return Some((
            &["record-step", "step"],
            format!(
                "A record's step of {} is no less than the step; allowed: off, or less than {}.",
                record.show_with_unit(rules.step_unit),
                rules.step.show_with_unit(rules.step_unit)
            ),
        ));
    }
    let early = |chain: &[super::TieKey]| {
        chain
            .iter()
            .position(|k| matches!(k, super::TieKey::Shared | super::TieKey::Number))
            .is_some_and(|at| at + 1 < chain.len())
    };
    let chains: [(&[&str], _); 2] = [
        (&["ties-lift"], &rules.ties_lift),
        (&["ties-total"], &rules.ties_total),
    ];
    for (name, chain) in chains {
        if early(chain) {
            return Some((
                name,
                "Nothing can follow shared or number in a chain of ties; they end it."
                    .to_owned(),
            ));
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(text: &str) -> String {
        own_format(text, Unit::Kg).unwrap_err().to_string()
    }

    #[test]
    fn a_schools_own_rules_start_from_a_shipped_format() {
        let text = "# ours\nbase = \"max-day\"\ntitle = \"Spring test\"\nattempts = 4\n\
                    judges = 3\ndeclare = true\nposting.name = \"number\"\n";
        // A dotted key is a table in TOML; ours are written with a hyphen.
        assert!(own_format(text, Unit::Kg).is_err());
        // A rule may be written with its source, as the shipped files do.
        let sourced =
            "base = \"max-day\"\n[attempts]\nvalue = \"5\"\nsource = \"ours\"\n";
        assert_eq!(own_format(sourced, Unit::Kg).unwrap().1.attempts, 5);
        let text = text.replace("posting.name", "posting-name");
        let (format, rules) = own_format(&text, Unit::Kg).unwrap();
        assert_eq!(format.title, "Spring test");
        assert_eq!((rules.attempts, rules.judges, rules.declare), (4, 3, true));
        assert_eq!(rules.bar, super::super::BarRule::Rounds);
    }

    #[test]
    fn ten_mistakes_are_each_told_with_their_line() {
        let base = "base = \"max-day\"\n";
        for (text, line, part) in [
            ("attempts = 4\n", 1, "need a base"),
            (
                "base = \"javelin\"\n",
                1,
                "there is max-day, weightlifting, powerlifting",
            ),
            (
                "base = \"max-day\"\nattemps = 4\n",
                2,
                "attempts may be meant.",
            ),
            (
                "base = \"max-day\"\n\nattempts = 12\n",
                3,
                "a whole number from 1 to 9",
            ),
            ("base = \"max-day\"\njudges = [1]\n", 2, "allowed: 1, 3"),
            (
                "base = \"max-day\"\nqueue = \"maybe\"\n",
                2,
                "allowed: law, advice",
            ),
            ("base = \"max-day\"\nqueue = \"law\nbar = \"free\"\n", 2, ""),
            (
                "base = \"max-day\"\nqueue = \"law\"\nqueue = \"advice\"\n",
                3,
                "duplicate",
            ),
            (
                "base = \"weightlifting\"\nclock = 30\n",
                2,
                "final call at 30 s",
            ),
            (
                "base = \"weightlifting\"\nfinal-call = 90\n",
                2,
                "less than 60",
            ),
            (
                "base = \"weightlifting\"\nbar = \"free\"\n",
                2,
                "least-rise",
            ),
            (
                "base = \"max-day\"\norder = \"load number\"\n",
                2,
                "begin with attempt",
            ),
            (
                "base = \"max-day\"\nties-lift = \"shared number\"\n",
                2,
                "end it",
            ),
            (
                "base = \"max-day\"\norder = \"attempt rest number\"\n",
                2,
                "set bar to free",
            ),
            (
                "base = \"powerlifting\"\n\nrecord-step = \"2.5 kg\"\n",
                3,
                "less than 2.5 kg",
            ),
            (
                "base = \"max-day\"\ncategories = \"F 57 47 +47\"\n",
                2,
                "an own set such as",
            ),
            (
                "base = \"max-day\"\nlifts = \"back-squat, sqaut\"\n",
                2,
                "“sqaut” is no lift",
            ),
            (
                "base = \"max-day\"\nlifts = \"clean=power-clean, power-clean\"\n",
                2,
                "“power-clean” is on the programme twice.",
            ),
            (
                "base = \"max-day\"\nlifts = \" , \"\n",
                2,
                "at least one lift",
            ),
            (
                "base = \"max-day\"\nposting.name = \"number\"\n",
                2,
                "with a hyphen: posting-name.",
            ),
            (
                "base = \"max-day\"\nattempts = { value = 3, why = \"ours\" }\n",
                2,
                "“why”; a rule has value and source",
            ),
            (
                "base = \"max-day\"\nages = \"school\"\n",
                2,
                "none, iwf, ipf",
            ),
            (
                "base = \"max-day\"\nflibbertigibbet = 1\n",
                2,
                "maxday formats",
            ),
        ] {
            let why = refused(text);
            assert!(why.starts_with(&format!("line {line}: ")), "{text} → {why}");
            assert!(why.contains(part), "{text} → {why}");
        }
        assert!(own_format(base, Unit::Lb).is_ok());
    }
}
