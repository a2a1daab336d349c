//! How long a next attempt can still be handed in.
//!
//! Powerlifting: within a minute of finishing (World Para Powerlifting, WDFPF
//! and IPL as published); the rules' `hand-in` has the seconds.

use super::owed::owes_next;
use crate::day::{Facts, Stamp, limits};
use crate::lift::Slug;
use crate::roster::Entry;

/// How many of those who can still hand in are named.
const MOST: usize = 4;

/// Until when a next attempt can be handed in, as a part of a sentence; empty
/// where there is no limit, `None` once it is too late.
pub(super) fn limit(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
    now: Stamp,
) -> Option<String> {
    let Some(seconds) = facts.rules.hand_in else {
        return Some(String::new());
    };
    match left(facts, entry, slot, attempt, now) {
        Some(left) if left < 0 => None,
        Some(left) => Some(format!(
            ", to hand in within {seconds} s ({} left)",
            in_seconds(left)
        )),
        None => Some(format!(", to hand in within {seconds} s")),
    }
}

/// Those beside the last one who can still hand in their next attempt, who
/// has the least time first.
pub(super) fn others(facts: &Facts, platform: u8, now: Stamp) -> Option<String> {
    let last = owes_next(facts, platform).map(|(e, _, _)| e.number);
    let mut list = open(facts, platform, now);
    list.retain(|(_, number)| Some(*number) != last);
    let words: Vec<String> = list
        .iter()
        .take(MOST)
        .map(|(left, number)| format!("lot {number}, {} s left", in_seconds(*left)))
        .collect();
    let more = list.len().saturating_sub(MOST);
    let more = if more > 0 {
        format!("; {more} more")
    } else {
        String::new()
    };
    let begin = match last {
        Some(_) => "Also to hand in",
        None => "To hand in their next attempts",
    };
    (!words.is_empty()).then(|| format!("{begin}: {}{more}.", words.join("; ")))
}

/// Whether somebody on a platform can still hand in a next attempt, so that
/// what is owed changes by time alone.
pub fn hands_in(facts: &Facts, platform: u8, now: Stamp) -> bool {
    !open(facts, platform, now).is_empty()
}

/// Who can still hand in a next attempt: what is left, in milliseconds, and
/// the number.
fn open(facts: &Facts, platform: u8, now: Stamp) -> Vec<(i64, u16)> {
    let running = facts.platform(platform).and_then(|p| p.running.as_ref());
    let (Some(running), Some(_)) = (running, facts.rules.hand_in) else {
        return Vec::new();
    };
    let slot = &running.slot;
    let call = facts.platform(platform).and_then(|p| p.call.as_ref());
    // Once called, what stands is lifted.
    let called = call.filter(|_| !facts.rules.change_called).map(|c| c.entry);
    let mut list: Vec<(i64, u16)> = facts
        .entries_of(&running.session, &running.flight)
        .filter(|e| e.is_present() && e.takes_part(slot) && Some(e.key) != called)
        .filter_map(|e| {
            let next = facts.next_attempt(e.key, slot)?;
            let left = left(facts, e, slot, next, now).filter(|left| *left >= 0)?;
            let owes = limits(facts, e, slot, next).declaration_owed;
            owes.then_some((left, e.number))
        })
        .collect();
    list.sort_unstable();
    list
}

/// What is left for handing in an attempt, in milliseconds, negative once it
/// is too late; `None` where there is no limit or no exact time to go by.
fn left(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
    now: Stamp,
) -> Option<i64> {
    let seconds = i64::from(facts.rules.hand_in?);
    let before = facts.attempt(entry.key, slot, attempt.checked_sub(1)?)?;
    let ended = before.ruled.as_ref()?.at;
    (!ended.loose && !now.loose).then(|| seconds * 1000 - now.since(ended))
}

fn in_seconds(ms: i64) -> i64 {
    (ms + 999) / 1000
}
