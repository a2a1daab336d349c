//! Names from parts and parts from names.
//!
//! Every nameable combination of parts has a list of spellings, made here from
//! the same words; the first is its name. A text is read by looking it up among
//! all of them, so nothing is guessed: what isn't a spelling has no parts.
//!
//! As a technique, *clean* alone starts on the floor and is caught in a full
//! squat; *hang* names the start and *power* the catch. *Snatch* and *clean and
//! jerk* alone are the competition lifts, with any catch. *Power jerk* has no
//! parts: some use it for the push jerk and some only when the feet move.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use super::parts::{Catch, Family, Form, Parts, Start};

/// Computes the name of a lift from its parts, such as "hang power clean".
///
/// `None` when the trade has no name for such parts, as for a clean from a rack.
pub fn name_of(parts: &Parts) -> Option<String> {
    spellings(parts).into_iter().next()
}

/// Reads the parts of a lift from its name or another spelling of it.
///
/// Case, spaces, hyphens and underscores don't matter, and `&` is *and*. `None`
/// for anything that isn't exactly one lift.
pub fn parts_of(text: &str) -> Option<Parts> {
    static SPELLINGS: OnceLock<BTreeMap<String, Parts>> = OnceLock::new();

    SPELLINGS
        .get_or_init(|| {
            all_parts()
                .flat_map(|parts| {
                    spellings(&parts)
                        .into_iter()
                        .map(move |text| (squash(&text), parts))
                })
                .collect()
        })
        .get(&squash(text))
        .copied()
}

/// Reduces a text to what matters in it when lifts are looked up.
pub(super) fn squash(text: &str) -> String {
    let mut squashed = String::with_capacity(text.len());

    for c in text.chars() {
        match c {
            '-' | '_' | '\u{2010}' | '\u{2011}' | '\u{2013}' => {}
            '&' | '+' => squashed.push_str("and"),
            c if c.is_whitespace() => {}
            c => squashed.extend(c.to_lowercase()),
        }
    }

    squashed
}

/// Every combination of parts, with a name or without.
pub(super) fn all_parts() -> impl Iterator<Item = Parts> {
    let forms = || std::iter::once(None).chain(Form::ALL.iter().copied().map(Some));

    Family::ALL.iter().flat_map(move |&family| {
        Start::ALL.iter().flat_map(move |&start| {
            Catch::ALL.iter().flat_map(move |&catch| {
                forms().map(move |form| Parts {
                    family,
                    start,
                    catch,
                    form,
                })
            })
        })
    })
}

/// All spellings of a lift, its name first.
pub(super) fn spellings(parts: &Parts) -> Vec<String> {
    let Some((kinds, base)) = kinds(parts) else {
        return Vec::new();
    };
    let Some((heads, tails)) = places(parts) else {
        return Vec::new();
    };
    let mut found = Vec::new();

    for kind in kinds {
        for head in heads {
            found.push(join(&[head, kind, base]));
            found.push(join(&[kind, head, base]));
        }
        for tail in tails {
            for link in ["from", "from the"] {
                found.push(join(&[kind, base, link, tail]));
            }
        }
    }

    found
}

fn join(words: &[&str]) -> String {
    let words: Vec<&str> = words.iter().copied().filter(|w| !w.is_empty()).collect();

    words.join(" ")
}

/// The words for the kind, and the word that they stand before.
///
/// An empty word means that the lift is meant when nothing is said.
fn kinds(parts: &Parts) -> Option<(&'static [&'static str], &'static str)> {
    let found: (&[&str], &str) =
        match (parts.family, parts.start, parts.catch, parts.form) {
            (Family::Snatch, Start::Floor, Catch::Any, None) => (&[""], "snatch"),
            (Family::Snatch, Start::Floor, Catch::Full, None) => {
                (&["full", "squat"], "snatch")
            }
            (Family::Snatch, _, Catch::Full, None) => (&["", "full", "squat"], "snatch"),
            (Family::Snatch, _, Catch::Power, None) => (&["power"], "snatch"),
            (Family::Snatch, _, Catch::Split, None) => (&["split"], "snatch"),
            (Family::Snatch, _, Catch::Press, None) => (&["muscle"], "snatch"),

            (Family::Clean, _, Catch::Full, None) => (&["", "full", "squat"], "clean"),
            (Family::Clean, _, Catch::Power, None) => (&["power"], "clean"),
            (Family::Clean, _, Catch::Split, None) => (&["split"], "clean"),

            (Family::CleanAndJerk, _, Catch::Any, None) => (&[""], "clean and jerk"),

            (Family::Jerk, _, Catch::Any, None) => (&[""], "jerk"),
            (Family::Jerk, _, Catch::Push, None) => (&["push"], "jerk"),
            (Family::Jerk, _, Catch::Split, None) => (&["split"], "jerk"),
            (Family::Jerk, _, Catch::Full, None) => (&["squat"], "jerk"),

            (Family::Press, _, Catch::Press, Some(Form::Strict)) => {
                (&["strict"], "press")
            }
            (Family::Press, _, Catch::Press, Some(Form::Push)) => (&["push"], "press"),

            (Family::Squat, _, Catch::None, Some(Form::Back)) => (&["back"], "squat"),
            (Family::Squat, _, Catch::None, Some(Form::Front)) => (&["front"], "squat"),
            (Family::Squat, _, Catch::None, Some(Form::Overhead)) => {
                (&["overhead"], "squat")
            }
            (Family::Squat, _, Catch::None, Some(Form::Box)) => (&["box"], "squat"),

            (Family::Bench, _, Catch::None, Some(Form::Flat)) => {
                (&["", "flat"], "bench press")
            }
            (Family::Bench, _, Catch::None, Some(Form::Incline)) => {
                (&["incline"], "bench press")
            }
            (Family::Bench, _, Catch::None, Some(Form::Decline)) => {
                (&["decline"], "bench press")
            }
            (Family::Bench, _, Catch::None, Some(Form::CloseGrip)) => {
                (&["close-grip"], "bench press")
            }

            (Family::Deadlift, _, Catch::None, Some(Form::Conventional)) => {
                (&["", "conventional"], "deadlift")
            }
            (Family::Deadlift, _, Catch::None, Some(Form::Sumo)) => {
                (&["sumo"], "deadlift")
            }
            (Family::Deadlift, _, Catch::None, Some(Form::HexBar)) => {
                (&["hex-bar", "trap-bar"], "deadlift")
            }

            (Family::Row, _, Catch::None, Some(Form::BentOver)) => {
                (&["bent-over"], "row")
            }
            (Family::Row, _, Catch::None, Some(Form::Prone)) => (&[""], "bench pull"),

            _ => return None,
        };

    Some(found)
}

/// The words for the start: before the name, and after "from".
///
/// The usual start of a family needs no word.
fn places(parts: &Parts) -> Option<(&'static [&'static str], &'static [&'static str])> {
    let found: (&[&str], &[&str]) = match (parts.family, parts.start) {
        (Family::Snatch | Family::Clean | Family::CleanAndJerk, Start::Floor) => {
            (&[""], &["floor"])
        }
        (Family::Snatch | Family::Clean, Start::Hang) => (&["hang"], &["hang"]),
        (Family::Snatch | Family::Clean, Start::LowHang) => {
            (&["low hang"], &["low hang"])
        }
        (Family::Snatch | Family::Clean, Start::MidHang) => {
            (&["mid hang"], &["mid hang"])
        }
        (Family::Snatch | Family::Clean, Start::HighHang) => {
            (&["high hang"], &["high hang"])
        }
        (Family::Snatch | Family::Clean | Family::Deadlift, Start::Blocks) => {
            (&["block"], &["blocks"])
        }

        (Family::Jerk | Family::Press, Start::Rack) => (&[""], &["rack"]),
        (Family::Jerk | Family::Press, Start::Blocks) => (&["block"], &["blocks"]),

        (Family::Squat | Family::Bench, Start::Rack) => (&[""], &[]),
        (Family::Deadlift, Start::Floor) => (&[""], &["floor"]),

        // A bent-over row begins on the floor; the bar of a bench pull hangs in
        // stands under the bench.
        (Family::Row, Start::Floor) if parts.form == Some(Form::BentOver) => (&[""], &[]),
        (Family::Row, Start::Rack) if parts.form == Some(Form::Prone) => (&[""], &[]),

        _ => return None,
    };

    Some(found)
}
