//! What differs between two states of a day: bests, totals, records, places,
//! teams, queues and calls, in words.

use std::collections::BTreeMap;

use super::lift_name;
use super::records::record_name;
use crate::day::{Facts, Queued, queue};
use crate::standings::{Basis, has_divisions, records, standings, teams};

/// What is compared: its rank in the list, a table number or platform, and
/// what it is called.
type Key = (u8, u16, String);

/// Every best, total, record, place, queue and call that differs, a few words
/// each without a full stop: what is weighed and added first, then records,
/// places and teams, then what is still to come.
pub fn changes(before: &Facts, after: &Facts) -> Vec<String> {
    let mut list = of_results(&results(before), &results(after));
    let most = before.platforms.len().max(after.platforms.len());
    for number in (1_u8..).take(most) {
        list.extend(of_queue(before, after, number));
        list.extend(of_call(before, after, number));
    }
    list
}

fn of_results(
    before: &BTreeMap<Key, String>,
    after: &BTreeMap<Key, String>,
) -> Vec<String> {
    let nothing = || "nothing".to_owned();
    let mut keys: Vec<&Key> = before.keys().chain(after.keys()).collect();
    keys.sort();
    keys.dedup();
    keys.into_iter()
        .filter(|key| before.get(key) != after.get(key))
        .map(|key| {
            let of = |map: &BTreeMap<Key, String>| {
                map.get(key).cloned().unwrap_or_else(nothing)
            };
            format!("{}: {} instead of {}", key.2, of(after), of(before))
        })
        .collect()
}

/// Bests, totals, records and places as texts by what they are.
fn results(facts: &Facts) -> BTreeMap<Key, String> {
    let mut map = BTreeMap::new();
    let mut say = |rank: u8, number: u16, what: String, text: String| {
        let _ = map.insert((rank, number, what), text);
    };
    let mut bases = vec![Basis::Category];
    bases.extend(has_divisions(facts).then_some(Basis::Division));
    for basis in bases {
        for group in standings(facts, basis) {
            let among = match basis {
                Basis::Division if !group.label.is_empty() => {
                    format!(" among {}", group.label)
                }
                _ => String::new(),
            };
            for line in &group.lines {
                let n = facts.entries.get(&line.entry).map_or(0, |e| e.number);
                for (slot, result) in facts.slots.iter().zip(&line.slots) {
                    let lift = lift_name(&slot.slot);
                    if let Some((_, mass)) = result.best {
                        let best = mass.show_with_unit(facts.bar_unit);
                        say(0, n, format!("lot {n} best in {lift}"), best);
                    }
                    if let Some(place) = result.place {
                        let what = format!("lot {n} place in {lift}{among}");
                        say(2, n, what, place.to_string());
                    }
                }
                if let Some(total) = line.total {
                    let total = total.show_with_unit(facts.bar_unit);
                    say(0, n, format!("lot {n} total"), total);
                }
                if let Some(place) = line.place {
                    say(2, n, format!("lot {n} place{among}"), place.to_string());
                }
            }
        }
    }
    for (what, text) in asked_for_records(facts) {
        say(1, what.0, what.1, text);
    }
    for line in records(facts) {
        let what = format!(
            "record in {}, {}",
            record_name(&line.key.lift),
            line.key.label()
        );
        let by = line.set.last().and_then(|s| facts.entries.get(&s.entry));
        let by = by.map_or_else(String::new, |e| format!(" by lot {}", e.number));
        let load = line.stands().map_or_else(
            || "none yet".to_owned(),
            |mass| mass.show_with_unit(facts.bar_unit),
        );
        say(1, 0, what, format!("{load}{by}"));
    }
    for line in teams(facts) {
        let team = &line.team;
        say(3, 0, format!("team {team} points"), line.points.to_string());
        if let Some(place) = line.place {
            say(3, 0, format!("team {team} place"), place.to_string());
        }
    }
    map
}

/// Good attempts for which a record was asked, and those that are still to
/// come.
fn asked_for_records(facts: &Facts) -> Vec<((u16, String), String)> {
    let mut list = Vec::new();
    for (key, runs) in &facts.runs {
        let Some(entry) = facts.entries.get(key) else {
            continue;
        };
        for (slot, run) in runs {
            for (attempt, it) in &run.attempts {
                let Some(asked) = it.requests.last().filter(|r| r.record) else {
                    continue;
                };
                let n = entry.number;
                let what =
                    format!("lot {n} record in {}, attempt {attempt}", lift_name(slot));
                let load = asked.load.mass.show_with_unit(facts.bar_unit);
                let text = match &it.ruled {
                    Some(ruled) if ruled.fact.ruling.is_good() => {
                        let made = ruled.fact.credited.as_ref().map(|w| w.mass);
                        let made = made.unwrap_or(asked.load.mass);
                        format!("{} made", made.show_with_unit(facts.bar_unit))
                    }
                    Some(_) => format!("{load} not made"),
                    None => format!("{load} asked for"),
                };
                list.push(((n, what), text));
            }
        }
    }
    list
}

/// A platform's queue from the first place at which it differs to the last.
fn of_queue(before: &Facts, after: &Facts, platform: u8) -> Option<String> {
    let words = |facts: &Facts| -> Vec<String> {
        queue(facts, platform)
            .iter()
            .map(|queued| queued_words(facts, queued))
            .collect()
    };
    let (old, new) = (words(before), words(after));
    if old == new {
        return None;
    }
    let same = old.iter().zip(&new).take_while(|(a, b)| a == b).count();
    let (old, new) = (&old[same..], &new[same..]);
    let ends = old.iter().rev().zip(new.iter().rev());
    let tail = ends.take_while(|(a, b)| a == b).count();
    let said = |list: &[String]| match &list[..list.len() - tail] {
        [] => "nobody".to_owned(),
        list => list.join(", "),
    };
    let from = match same {
        0 => String::new(),
        _ => format!(" from place {}", same + 1),
    };
    Some(format!(
        "queue of {}{from}: {} instead of {}",
        after.platform_label(platform),
        said(new),
        said(old)
    ))
}

fn queued_words(facts: &Facts, queued: &Queued) -> String {
    let load = match &queued.load {
        Some(load) => format!(" at {}", load.mass.show_with_unit(facts.bar_unit)),
        None => ", load owed".to_owned(),
    };
    format!("lot {} attempt {}{load}", queued.number, queued.attempt)
}

fn of_call(before: &Facts, after: &Facts, platform: u8) -> Option<String> {
    let called = |facts: &Facts| {
        let call = facts.platform(platform)?.call.as_ref()?;
        facts.entries.get(&call.entry).map(|e| e.number)
    };
    let (old, new) = (called(before), called(after));
    let said =
        |n: Option<u16>| n.map_or_else(|| "nobody".to_owned(), |n| format!("lot {n}"));
    (old != new).then(|| {
        format!(
            "called on {}: {} instead of {}",
            after.platform_label(platform),
            said(new),
            said(old)
        )
    })
}
