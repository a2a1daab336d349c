//! Which state of the day a paper shows: provisional, or a numbered revision.

use std::collections::{BTreeMap, BTreeSet};

use crate::day::{Facts, Revision, Stamp};
use crate::rules::NameShown;
use crate::sheets::Audience;

/// The state of what a paper shows of these sessions, as words for its foot.
///
/// Provisional until the day or all of them are closed; every closing after
/// that is a revision, which replaces the one that was withdrawn by reopening.
/// Who reopened is told on private papers alone; the reason, in which a hand may
/// write any name and any bodyweight, also where all of them may be posted.
pub(super) fn state(
    facts: &Facts,
    sessions: &BTreeSet<&str>,
    audience: Audience,
) -> String {
    let private = audience == Audience::Private;
    let posting = &facts.rules.posting;
    let all_posted =
        posting.name == NameShown::Full && posting.bodyweight && posting.category;
    let mut closed = Closed::default();
    let mut standing: Option<(usize, Stamp)> = None;
    let mut withdrawn: Vec<Withdrawn> = Vec::new();
    for turn in turns(facts) {
        let was = closed.covers(sessions);
        let scope = turn.revision.session.as_deref();
        closed.set(scope, turn.back.is_none());
        match (was, closed.covers(sessions), turn.back) {
            (false, true, _) => {
                standing = Some((withdrawn.len() + 1, turn.revision.closed_at));
            }
            (true, false, Some((at, reason, hand))) => {
                if let Some((number, since)) = standing.take() {
                    let hand = Some(hand.as_str()).filter(|_| private);
                    let reason = if private || all_posted { reason } else { "" };
                    withdrawn.push(Withdrawn {
                        number,
                        closed: since,
                        at: *at,
                        why: why(reason, hand),
                    });
                }
            }
            _ => {}
        }
    }
    match (standing, withdrawn.last()) {
        (Some((number, at)), None) => format!("Revision {number}, closed {}", time(at)),
        (Some((number, at)), Some(old)) => format!(
            "Revision {number}, closed {}; replaces revision {} of {}{}",
            time(at),
            old.number,
            time(old.closed),
            old.why
        ),
        (None, Some(old)) => format!(
            "Provisional; revision {} was withdrawn on {}{}",
            old.number,
            time(old.at),
            old.why
        ),
        (None, None) => {
            let some: Vec<&str> = sessions
                .iter()
                .filter(|s| closed.sessions.contains(*s))
                .copied()
                .collect();
            match some.as_slice() {
                [] => "Provisional".to_owned(),
                [one] => format!("Provisional; session {one} is closed"),
                several => {
                    format!("Provisional; sessions {} are closed", several.join(", "))
                }
            }
        }
    }
}

/// The sessions that a paper about the whole day shows: those in which anybody
/// is entered.
pub(super) fn all_sessions(facts: &Facts) -> BTreeSet<&str> {
    let entered = facts.entries.values().map(|e| e.session.as_str());
    let entered: BTreeSet<&str> = entered.filter(|s| !s.is_empty()).collect();
    if entered.is_empty() {
        return facts.sessions.keys().map(String::as_str).collect();
    }
    entered
}

struct Withdrawn {
    number: usize,
    closed: Stamp,
    at: Stamp,
    why: String,
}

/// A closing, or a reopening with when, why and by whose hand.
struct Turn<'a> {
    at: i64,
    revision: &'a Revision,
    back: Option<&'a (Stamp, String, String)>,
}

/// Closings and reopenings in the order in which they were done. Closings are
/// known in that order; a reopening comes after its closing, and before the
/// next one of the same session or day, whatever their times say.
fn turns(facts: &Facts) -> Vec<Turn<'_>> {
    let mut turns = Vec::new();
    let mut last = i64::MIN;
    let mut reopened: BTreeMap<Option<&str>, i64> = BTreeMap::new();
    for revision in &facts.revisions {
        let scope = revision.session.as_deref();
        let before = reopened.get(&scope).copied().unwrap_or(i64::MIN);
        last = last.max(before).max(revision.closed_at.ms);
        turns.push(Turn {
            at: last,
            revision,
            back: None,
        });
        if let Some(back) = &revision.reopened {
            let at = last.max(back.0.ms);
            let _ = reopened.insert(scope, at);
            turns.push(Turn {
                at,
                revision,
                back: Some(back),
            });
        }
    }
    turns.sort_by_key(|turn| turn.at);
    turns
}

/// What is closed.
#[derive(Default)]
struct Closed<'a> {
    day: bool,
    sessions: BTreeSet<&'a str>,
}

impl<'a> Closed<'a> {
    fn set(&mut self, scope: Option<&'a str>, closed: bool) {
        match scope {
            None => self.day = closed,
            Some(session) if closed => drop(self.sessions.insert(session)),
            Some(session) => drop(self.sessions.remove(session)),
        }
    }

    fn covers(&self, sessions: &BTreeSet<&str>) -> bool {
        let all =
            !sessions.is_empty() && sessions.iter().all(|s| self.sessions.contains(s));
        self.day || all
    }
}

/// ` (reason; hand)`, or nothing.
fn why(reason: &str, hand: Option<&str>) -> String {
    let reason = reason.trim().trim_end_matches('.');
    let hand = hand.filter(|h| !h.is_empty());
    let words: Vec<&str> = [Some(reason), hand]
        .into_iter()
        .flatten()
        .filter(|w| !w.is_empty())
        .collect();
    if words.is_empty() {
        return String::new();
    }
    format!(" ({})", words.join("; "))
}

fn time(stamp: Stamp) -> String {
    stamp.local().format("%-d %B %Y, %H:%M").to_string()
}
