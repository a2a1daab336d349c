//! What is worth knowing at the table and isn't owed.

use super::owed::owes_next;
use super::records;
use crate::day::{Facts, Ruled, Ruling, Stamp, Which, advice, limits};
use crate::desk::{plan, see};
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::{Entry, Presence};
use crate::rules::{FoundLoad, Jumps, Queue};

/// What is worth knowing on a platform, the nearest in time first.
pub fn remarks(facts: &Facts, platform: u8, now: Stamp) -> Vec<String> {
    let mut list = Vec::new();
    list.extend(away(facts, platform));
    list.extend(of_call(facts, platform));
    list.extend(records::remarks(facts, platform));
    list.extend(of_next(facts, platform));
    list.extend(of_jump(facts, platform));
    list.extend(of_many(facts, platform));
    list.extend(plan::openers_close(facts, platform, now));
    if facts
        .platform(platform)
        .is_some_and(|p| p.running.is_none())
    {
        list.extend(
            plan::session_of(facts, platform)
                .and_then(|session| plan::before_start(facts, session, Some(now))),
        );
    }
    list
}

/// Who of the running flight is away, and how to say that they are back.
fn away(facts: &Facts, platform: u8) -> Option<String> {
    let running = facts.platform(platform)?.running.as_ref()?;
    let away: Vec<String> = facts
        .entries_of(&running.session, &running.flight)
        .filter(|e| e.presence == Presence::Away && !e.withdrawn)
        .map(|e| e.number.to_string())
        .collect();
    let first = away.first()?;
    let lots = if away.len() == 1 { "lot" } else { "lots" };
    Some(format!(
        "Away: {lots} {}; type {first} back when here again.",
        away.join(", ")
    ))
}

/// What stands for the athlete called.
fn of_call(facts: &Facts, platform: u8) -> Option<String> {
    let call = facts.platform(platform)?.call.as_ref()?;
    let load = see::load(facts, call.load.mass);
    let record = see::for_record(facts, call.entry, &call.slot, call.attempt);
    match (record, facts.rules.change_called) {
        (true, true) => Some(format!("{load} is asked for a record.")),
        (true, false) => Some(format!(
            "{load} is asked for a record; it stands now that it is called."
        )),
        (false, false) => Some(format!("{load} stands now that it is called.")),
        (false, true) => None,
    }
}

/// How often the next athlete may still change, where changes are counted and
/// end with the call.
fn of_next(facts: &Facts, platform: u8) -> Option<String> {
    if facts.rules.change_called {
        return None;
    }
    let next = crate::day::queue(facts, platform)
        .into_iter()
        .find(|q| !q.called)?;
    let entry = facts.entries.get(&next.entry)?;
    let limits = limits(facts, entry, &next.slot, next.attempt);
    let load = see::load(facts, next.load.as_ref()?.mass);
    let changes = match limits.changes_left? {
        // An opener closes by its own time, which is told elsewhere.
        _ if next.attempt == 1 => return None,
        0 => return None,
        1 => "1 change left".to_owned(),
        n => format!("{n} changes left"),
    };
    Some(format!(
        "Next, lot {}: {load}, {changes} until the call.",
        next.number
    ))
}

/// What is advised for the next attempt of the athlete who was ruled last.
fn of_jump(facts: &Facts, platform: u8) -> Option<String> {
    if facts.rules.jumps == Jumps::Off {
        return None;
    }
    let (entry, slot, attempt) = match owes_next(facts, platform) {
        Some(owes) => owes,
        None => {
            let (entry, slot, _, _) = see::last_ruled(facts, platform)?;
            let next = facts.next_attempt(entry.key, &slot)?;
            (entry, slot, next)
        }
    };
    let number = entry.number;
    if let Some(most) = advice::most(facts, entry, &slot, attempt) {
        let word = match facts.rules.jumps {
            Jumps::Required => "Allowed",
            Jumps::Advice | Jumps::Off => "Advised",
        };
        return Some(format!(
            "{word} for lot {number}, attempt {attempt}: up to {}.",
            see::load(facts, most)
        ));
    }
    let less = advice::less(facts, entry, &slot, attempt)?;
    Some(format!(
        "Advised for lot {number} after the no lift: the same load once more, or down to {}.",
        see::load(facts, less)
    ))
}

/// That an athlete has made many maximal attempts, and how to grant one more
/// where none is left.
fn of_many(facts: &Facts, platform: u8) -> Option<String> {
    let (entry, slot, _, _) = see::last_ruled(facts, platform)?;
    let many = advice::many(facts, entry, &slot).map(|n| {
        let s = if n == 1 { "" } else { "s" };
        format!(
            "Lot {} has made {n} maximal attempt{s} in {}.",
            entry.number,
            see::lift_name(&slot)
        )
    });
    let leave = facts.next_attempt(entry.key, &slot).is_none().then(|| {
        let more = match facts.rules.queue {
            Queue::Advice => "; Ctrl+E gives one more by leave",
            Queue::Law => "",
        };
        format!(
            "Lot {} has no attempt left in {}{more}.",
            entry.number,
            see::lift_name(&slot)
        )
    });
    let both: Vec<String> = many.into_iter().chain(leave).collect();
    (!both.is_empty()).then(|| both.join(" "))
}

/// The ruled attempt that is meant: the one named, else the last in the slot
/// that is named or runs.
pub(super) fn ruled<'a>(facts: &'a Facts, which: &Which) -> Option<&'a Ruled> {
    let entry = facts.entry_by_number(which.number?)?;
    let running = || {
        let place = facts.platform(facts.platform_of(entry)?)?;
        Some(&place.running.as_ref()?.slot)
    };
    let slot: &Slug = match &which.lift {
        Some(lift) => &facts.slot_of(lift.as_str())?.0.slot,
        None => running()?,
    };
    let run = facts.run(entry.key, slot)?;
    match which.attempt {
        Some(n) => run.attempts.get(&n)?.ruled.as_ref(),
        None => run.attempts.values().rev().find_map(|a| a.ruled.as_ref()),
    }
}

/// What the rules grant for a load that was found on the bar, in words:
/// `keep or repeat (a lighter bar, good lift)`.
pub(super) fn grants(
    facts: &Facts,
    entry: &Entry,
    which: &Which,
    found: Mass,
) -> Option<String> {
    let which = Which {
        number: Some(entry.number),
        ..which.clone()
    };
    let fact = &ruled(facts, &which)?.fact;
    if fact.ruling == Ruling::Pass {
        return None;
    }
    let asked = fact.requested.as_ref()?.mass;
    let how = FoundLoad::of(found, asked);
    let good = fact.ruling.is_good();
    let allowed = facts.rules.errors.allowed(how, good);
    let words: Vec<&str> = allowed.iter().map(|g| g.word()).collect();
    let words = if words.is_empty() {
        "nothing is granted".to_owned()
    } else {
        words.join(" or ")
    };
    let ruling = if good { "good lift" } else { "no lift" };
    Some(format!("{words} ({}, {ruling})", how.words()))
}
