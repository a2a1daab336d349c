//! What must hold of the record book on any day, worked out from the attempts anew.

use maxday::day::{Facts, RecordKey};
use maxday::measure::Mass;
use maxday::roster::Entry;
use maxday::standings::{broken_by, records, would_break};

/// The loads of good attempts of one repetition in a record's lift, by those who
/// are neither guests nor disqualified.
fn loads<'a>(facts: &'a Facts, key: &RecordKey) -> Vec<(&'a Entry, u64, Mass)> {
    let mut found = Vec::new();
    for (who, runs) in &facts.runs {
        let entry = &facts.entries[who];
        for (slot, run) in runs {
            let out = entry.guest
                || entry.disqualified
                || entry.disqualified_slots.contains(slot);
            for ruled in run.attempts.values().filter_map(|a| a.ruled.as_ref()) {
                let good = ruled.fact.ruling.is_good()
                    && ruled.fact.reps <= 1
                    && ruled.fact.lift == key.lift;
                if let Some(load) = ruled.fact.credited.as_ref().filter(|_| good && !out)
                {
                    found.push((entry, ruled.seq, load.mass));
                }
            }
        }
    }
    found.sort_by_key(|(_, seq, _)| *seq);
    found
}

/// Whether somebody may set a record of the kinds that random days have: of a sex,
/// a division or open; one by category is told apart by the program alone.
fn may(key: &RecordKey, entry: &Entry) -> bool {
    key.sex.is_none_or(|sex| entry.sex == Some(sex))
        && (key.division.is_empty() || entry.divisions.contains(&key.division))
}

/// What must hold of the book.
pub fn book_is_sound(facts: &Facts) -> Result<(), String> {
    let beats = facts.rules.record_beats;
    for line in records(facts) {
        let key = line.key;
        let loads = loads(facts, key);
        if key.category.is_empty() {
            // Those of equal loads by a lighter athlete aside, records only rise.
            let mut stands = line.mark.load.as_ref().map(|w| w.mass);
            for (_, _, load) in loads.iter().filter(|(entry, ..)| may(key, entry)) {
                if stands.is_none_or(|s| *load - s >= beats) {
                    stands = Some(*load);
                }
            }
            if stands != line.stands() {
                return Err(format!(
                    "{key} stands at {:?}, not {stands:?}",
                    line.stands()
                ));
            }
        }
        for set in &line.set {
            let entry = &facts.entries[&set.entry];
            let made = loads
                .iter()
                .any(|(e, _, load)| e.key == entry.key && *load == set.load.mass);
            if !made || (!key.category.is_empty() && entry.bodyweight.is_none()) {
                return Err(format!(
                    "{key} was set by lot {} with nothing",
                    entry.number
                ));
            }
            let broken = broken_by(facts, entry, &set.slot, set.attempt);
            if !broken.contains(&(key, set.before)) {
                return Err(format!("{key}: attempt {} doesn't know it", set.attempt));
            }
        }
        // What was lifted breaks nothing again, unless an equal load does.
        for (entry, _, load) in loads.iter().filter(|_| beats > Mass::ZERO) {
            let again = would_break(facts, entry, &key.lift, *load);
            if again.iter().any(|(k, _)| *k == key) {
                return Err(format!(
                    "{key} would fall once more to lot {}",
                    entry.number
                ));
            }
        }
    }
    Ok(())
}
