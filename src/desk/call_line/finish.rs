//! Finishes a name or a remark from its start.
//!
//! What was typed before on the day comes first, the newest before the older;
//! then the usual remarks of `resources/remarks.toml`. Nothing is ever put in by
//! itself: a key asks for it, and again for the next that fits.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

use super::by_name::plain;
use super::start;
use crate::day::{Day, Event, Facts, Source};

/// What is being typed at the end of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Wanted {
    /// Who signs.
    Name,
    /// Why, or a remark, of this kind.
    Remark(&'static str),
}

#[derive(Default, Deserialize)]
struct File {
    remarks: BTreeMap<String, Vec<String>>,
}

fn usual(kind: &str) -> &'static [String] {
    static FILE: OnceLock<File> = OnceLock::new();
    let file = FILE.get_or_init(|| {
        toml::from_str(include_str!("../../../resources/remarks.toml"))
            .unwrap_or_default()
    });
    file.remarks.get(kind).map_or(&[], Vec::as_slice)
}

/// The call line with its last words finished, by each name or remark that
/// fits; empty where nothing does.
pub fn finished(line: &str, day: &Day) -> Vec<String> {
    match on_the_line(line, day.facts()) {
        Some((at, wanted)) => with(line, at, wanted, day),
        None => Vec::new(),
    }
}

/// The same for who and why behind a clearance or a cap, with or without `who=` and
/// `why=`.
pub fn finished_signed(text: &str, day: &Day) -> Vec<String> {
    let Some(from) = text.rfind(';').map(|at| at + 1) else {
        return Vec::new();
    };
    let part = &text[from..];
    let at = from + (part.len() - part.trim_start().len());
    let rest = &text[at..];
    let second = text[..from].matches(';').count() > 1;
    let (skip, wanted) = if rest.starts_with("who=") {
        ("who=".len(), Wanted::Name)
    } else if rest.starts_with("why=") {
        ("why=".len(), Wanted::Remark("clear"))
    } else if second {
        (0, Wanted::Remark("clear"))
    } else {
        (0, Wanted::Name)
    };
    // With nothing typed, Tab still goes on.
    if rest[skip..].is_empty() {
        return Vec::new();
    }
    with(text, at + skip, wanted, day)
}

fn with(line: &str, at: usize, wanted: Wanted, day: &Day) -> Vec<String> {
    let (head, tail) = line.split_at(at);
    let start = plain(tail.trim());
    let known = known(wanted, day);
    let fits = known.into_iter().filter(|text| {
        let text = plain(text);
        let mut words = text.split([' ', '-']).scan(0, |from, word| {
            let here = *from;
            *from += word.len() + 1;
            Some(here)
        });
        text != start && words.any(|from| text[from..].starts_with(&start))
    });
    fits.map(|text| format!("{head}{text}")).collect()
}

/// All that could be meant, each once.
fn known(wanted: Wanted, day: &Day) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    let mut put = |text: &str| {
        let text = text.trim();
        if !text.is_empty() && !list.iter().any(|other| other == text) {
            list.push(text.to_owned());
        }
    };
    for recorded in day.journal().iter().rev() {
        match wanted {
            Wanted::Name => {
                if let Some(who) = signer(&recorded.event) {
                    put(who);
                }
            }
            Wanted::Remark(kind) => {
                if let Some((_, text)) =
                    remark(&recorded.event).filter(|(of, _)| *of == kind)
                {
                    put(text);
                }
            }
        }
    }
    match wanted {
        // Hands that entered something, after those that signed.
        Wanted::Name => {
            let hands = day.journal().iter().rev().map(|r| r.hand.as_str());
            hands.filter(|hand| hand.contains(' ')).for_each(&mut put);
        }
        Wanted::Remark(kind) => usual(kind).iter().for_each(|text| put(text)),
    }
    list
}

fn signer(event: &Event) -> Option<&str> {
    match event {
        Event::StationChecked { who, .. }
        | Event::Cleared { who, .. }
        | Event::Capped { who, .. } => Some(who),
        _ => None,
    }
}

/// The kind of an event's remark, and the remark.
fn remark(event: &Event) -> Option<(&'static str, &str)> {
    Some(match event {
        Event::Withdrawn { reason, .. } => ("withdraw", reason),
        Event::Disqualified { reason, .. } => ("disqualify", reason),
        Event::RollAnswered { reason, .. } => ("roll", reason),
        Event::ExtraGranted { reason, .. } => ("extra", reason),
        Event::Ruled(fact) if fact.source == Source::Stop => ("stop", &fact.reason),
        Event::Reruled { reason, .. } | Event::ChallengeLost { reason, .. } => {
            ("overrule", reason)
        }
        Event::Noted { text, .. } => ("note", text),
        Event::Cleared { why, .. } | Event::Capped { why, .. } => ("clear", why),
        Event::Corrected { reason, .. } | Event::Annulled { reason, .. } => {
            ("correct", reason)
        }
        _ => return None,
    })
}

/// Where the name or remark begins on the call line, and what it is.
fn on_the_line(line: &str, facts: &Facts) -> Option<(usize, Wanted)> {
    // Without a space at its end the last word is still being typed.
    let words = places(line);
    let word = |n: usize| words.get(n).map(|(_, word)| word.to_lowercase());
    let from = |n: usize| match words.get(n) {
        Some((at, _)) => Some(*at),
        None => line.ends_with(' ').then_some(line.len()),
    };
    let numbered = |word: &str| {
        word.bytes().all(|b| b.is_ascii_digit()) || word.chars().count() >= 2
    };
    match start::first(&word(0)?).as_str() {
        "check" => return Some((from(1)?, Wanted::Name)),
        "note" => return Some((from(1)?, Wanted::Remark("note"))),
        "stop" => return Some((from(2)?, Wanted::Remark("stop"))),
        first if !numbered(first) => return None,
        _ => {}
    }
    let lift = |n: usize| {
        let typed = word(n).unwrap_or_default();
        let known = facts.slots.iter().any(|line| {
            line.slot.as_str() == typed
                || (typed.len() == 2 && line.slot.as_str().starts_with(&typed))
        });
        usize::from(known && words.len() > n)
    };
    let (at, kind) = match start::after_number(&word(1)?).as_str() {
        "withdraw" => (2 + lift(2), "withdraw"),
        "disqualify" => (2 + lift(2), "disqualify"),
        "absent" | "away" | "here" | "back" => (2, "roll"),
        "extra" => (2, "extra"),
        "stop" => (3, "stop"),
        "overrule" | "challenge" => (3, "overrule"),
        "note" => (2, "note"),
        _ => return None,
    };
    Some((from(at)?, Wanted::Remark(kind)))
}

/// The words of a line, each with where it begins.
fn places(line: &str) -> Vec<(usize, &str)> {
    let mut list = Vec::new();
    let mut at = 0;
    for word in line.split(' ') {
        if !word.is_empty() {
            list.push((at, word));
        }
        at += word.len() + 1;
    }
    list
}
