//! Rulings and lights as text.

use crate::day::{FaultGiven, Light, Outcome, Ruling};
use crate::lift::Slug;

/// Reads an outcome: `good`, `no`, `no:code`, `pass`, `time`, `stopped`, or
/// lights: `wwr`, `wwr:press-out`, `w,r.press-out,w`.
///
/// # Errors
/// A sentence that shows what is allowed.
pub fn parse_outcome(text: &str) -> Result<Outcome, String> {
    let text = text.trim();
    let lower = text.to_lowercase();
    let mut parts = lower.split(';').map(str::trim);
    let lower = parts.next().unwrap_or("").to_owned();
    let (mut reps, mut caught) = (None, None);
    for part in parts.filter(|p| !p.is_empty()) {
        match part.strip_prefix("as").map(str::trim_start) {
            Some(lift) if lift.starts_with('=') => {
                caught = Some(read_caught(&lift[1..])?);
            }
            _ => reps = Some(read_reps(part)?),
        }
    }
    let (head, codes) = match lower.split_once(':') {
        Some((head, codes)) => (head.trim(), codes),
        None => (lower.as_str(), ""),
    };
    let mut faults: Vec<FaultGiven> = Vec::new();
    let (word, dotted) = head.split_once('.').unwrap_or((head, ""));
    let mut outcome = Outcome::default();
    if let Some(ruling) = Ruling::parse(word) {
        outcome.ruling = Some(ruling);
        faults.extend(codes_of(dotted, &['.', ',', ' ']).map(|c| fault(None, c)));
    } else {
        outcome.lights = lights(head, &mut faults).ok_or_else(|| {
            format!(
                "“{text}” is no outcome; write good, no, no:code, pass, time, or one letter \
                 a judge, w or r, such as wwr or wwr:press-out."
            )
        })?;
    }
    faults.extend(codes_of(codes, &[',', ' ']).map(|c| fault(None, c)));
    outcome.faults = faults;
    outcome.reps = reps;
    outcome.caught = caught;
    Ok(outcome)
}

/// An outcome with what stands behind it; `None` where both are blank.
pub(super) fn with_more(outcome: &str, more: &[(String, String)]) -> Option<String> {
    let more = more.iter().map(|(key, value)| format!("; {key}={value}"));
    Some(more.fold(outcome.to_owned(), |text, part| text + &part))
        .filter(|text| !text.is_empty())
}

/// Writes an outcome so that [`parse_outcome`] reads it back.
///
/// Where there are lights they are written; the ruling follows from them.
pub fn show_outcome(outcome: &Outcome) -> String {
    let mut text = String::new();
    let by_judge = outcome.faults.iter().any(|f| f.judge.is_some());
    match (&outcome.ruling, outcome.lights.as_slice()) {
        (Some(ruling), []) => text.push_str(ruling.word()),
        (_, lights) => {
            for (judge, light) in (1_u8..).zip(lights) {
                if by_judge && judge > 1 {
                    text.push(',');
                }
                text.push(letter(*light));
                for fault in outcome.faults.iter().filter(|f| f.judge == Some(judge)) {
                    text.push('.');
                    text.push_str(&fault.code);
                }
            }
        }
    }
    let judges = outcome.lights.len();
    let others: Vec<&str> = outcome
        .faults
        .iter()
        .filter(|f| f.judge.is_none_or(|j| usize::from(j) > judges))
        .map(|f| f.code.as_str())
        .collect();
    if !others.is_empty() {
        text.push(':');
        text.push_str(&others.join(","));
    }
    if let Some(reps) = outcome.reps {
        text.push_str(&format!("; reps={reps}"));
    }
    if let Some(caught) = &outcome.caught {
        text.push_str(&format!("; as={caught}"));
    }
    text
}

/// `as=clean`: the variant that it was.
fn read_caught(text: &str) -> Result<Slug, String> {
    Slug::new(text.trim()).map_err(|_| {
        format!(
            "“{}” is no lift; write as= and a variant of the slot.",
            text.trim()
        )
    })
}

/// `reps=5`: one to 20 repetitions.
fn read_reps(text: &str) -> Result<u8, String> {
    let text = text.trim();
    let n = text.strip_prefix("reps").map(str::trim_start);
    n.and_then(|n| n.strip_prefix('='))
        .and_then(|n| n.trim().parse().ok())
        .filter(|n| (1..=20).contains(n))
        .ok_or_else(|| {
            format!("“{text}” can't stand behind an outcome; write reps= and 1 to 20, or as= and the variant that it was.")
        })
}

const fn letter(light: Light) -> char {
    match light {
        Light::White => 'w',
        Light::Red => 'r',
    }
}

fn fault(judge: Option<u8>, code: &str) -> FaultGiven {
    FaultGiven {
        judge,
        code: code.to_owned(),
    }
}

fn codes_of<'a>(text: &'a str, between: &'a [char]) -> impl Iterator<Item = &'a str> {
    text.split(between).map(str::trim).filter(|c| !c.is_empty())
}

fn lights(text: &str, faults: &mut Vec<FaultGiven>) -> Option<Vec<Light>> {
    let light = |c: char| match c {
        'w' => Some(Light::White),
        'r' => Some(Light::Red),
        _ => None,
    };
    if !text.contains([',', '.']) {
        let letters: Vec<char> = text.chars().filter(|c| !c.is_whitespace()).collect();
        if letters.is_empty() || letters.len() > 5 {
            return None;
        }
        return letters.into_iter().map(light).collect();
    }
    let mut found = Vec::new();
    for (judge, part) in (1_u8..).zip(text.split(',')) {
        let (word, codes) = part.trim().split_once('.').unwrap_or((part.trim(), ""));
        let mut letters = word.chars();
        found.push(light(letters.next()?)?);
        if letters.next().is_some() {
            return None;
        }
        faults.extend(codes_of(codes, &['.', ' ']).map(|c| fault(Some(judge), c)));
    }
    Some(found)
}
