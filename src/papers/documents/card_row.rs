//! The rows of a rack card: what is known of each athlete and attempt.

use super::shared::{Squad, whereabouts};
use super::warm_up;
use crate::day::{Facts, Ruled, Ruling, standing_request};
use crate::lift::{Fault, Lift, Slug, catalogue};
use crate::measure::Mass;
use crate::roster::{Clearance, Entry, Sex, SlotLine};
use crate::rules::Gate;
use crate::sheets::{Align, Cell, Column, attempt_cell, lift_short};

/// Most reasons that are listed at the foot of a card.
const REASONS: usize = 10;

/// Places of the small line's columns.
pub(super) const NOTE: usize = 7;
pub(super) const WARM: usize = 8;

/// The reasons for a no lift that are listed on the card of a slot, numbered
/// from 1 in this order.
pub fn reasons(line: &SlotLine) -> Vec<&'static Fault> {
    let mut faults: Vec<&'static Fault> = Vec::new();
    for lift in lifts(line) {
        for code in &lift.faults {
            let fault = catalogue().fault(code);
            faults.extend(fault.filter(|f| !faults.contains(f)));
        }
    }
    faults.truncate(REASONS);
    faults
}

/// The catalogue's lifts of a slot.
pub(super) fn lifts(line: &SlotLine) -> Vec<&'static Lift> {
    let known = |slug: &Slug| catalogue().get(slug.as_str());
    line.variants.iter().filter_map(known).collect()
}

/// The columns of all cards, for so many attempts.
pub(super) fn columns(attempts: u8) -> Vec<Column> {
    use Align::{Centre, Left, Right};
    let mut columns = vec![
        Column::new("session", "", Left),
        Column::new("flight", "", Left),
        Column::new("platform", "", Right),
        Column::new("slot", "", Left),
        Column::new("lot", "Lot", Right),
        Column::new("name", "Name", Left),
        Column::new("lift", "Lift", Left),
        Column::new("note", "", Left),
        Column::new("warm-up", "", Left),
        Column::new("rack", "Rack", Centre),
        Column::new("arms", "Arms", Centre),
    ];
    for n in 1..=attempts {
        let span = format!("Attempt {n}");
        columns.push(
            Column::new(&format!("{n} load"), "Load", Right)
                .under(&span)
                .attempts(),
        );
        columns.push(Column::new(&format!("{n} good"), "Good", Centre).under(&span));
        columns.push(Column::new(&format!("{n} no"), "No lift", Centre).under(&span));
        columns.push(Column::new(&format!("{n} reason"), "Reason", Left).under(&span));
    }
    columns
}

/// The row of an athlete, for so many attempts.
pub(super) fn row(
    facts: &Facts,
    squad: &Squad<'_>,
    line: &SlotLine,
    entry: &Entry,
    most: u8,
) -> Vec<Cell> {
    let slot = &line.slot;
    let barred = barred(facts, entry, slot);
    let setups = |word| setup(entry, word, lifts(line).first().copied());
    let warm = standing_request(facts, entry, slot, 1).filter(|_| !barred);
    let warm = warm.map(|s| {
        let bar = empty_bar(facts, entry.sex);
        warm_up(s.load.mass, bar, facts.rules.step, facts.bar_unit).join(", ")
    });
    let variant = entry.variant(slot);
    let mut row = vec![
        Cell::text(squad.session),
        Cell::text(squad.flight),
        Cell::count(squad.platform),
        Cell::text(slot.as_str()),
        Cell::Count(i64::from(entry.number)),
        Cell::text(entry.name()),
        Cell::text(variant.map(lift_short).unwrap_or_default()),
        Cell::text(note(facts, entry, slot, barred)),
        Cell::text(warm.unwrap_or_default()),
        Cell::text(setups("rack")),
        Cell::text(setups("arms")),
    ];
    for n in 1..=most {
        row.extend(attempt(facts, entry, slot, n, barred));
    }
    row
}

/// Load, good, no lift and reason of an attempt.
fn attempt(facts: &Facts, entry: &Entry, slot: &Slug, n: u8, barred: bool) -> [Cell; 4] {
    let blank = || Cell::Blank;
    if n > facts.attempts_allowed(entry.key, slot) {
        return [Cell::text("–"), blank(), blank(), blank()];
    }
    let ruled = facts
        .attempt(entry.key, slot, n)
        .and_then(|a| a.ruled.as_ref());
    if let Some(ruled) = ruled {
        let good = ruled.fact.ruling.is_good();
        let no = ruled.fact.ruling == Ruling::No;
        return [
            attempt_cell(facts, entry, slot, n),
            Cell::text(if good { "good" } else { "" }),
            Cell::text(if no { "no" } else { "" }),
            // On a good attempt one judge may have named a fault: no reason then.
            Cell::text(if no {
                fault_number(facts, slot, ruled)
            } else {
                String::new()
            }),
        ];
    }
    if barred {
        return [Cell::text("not cleared"), blank(), blank(), blank()];
    }
    let asked = standing_request(facts, entry, slot, n);
    let load = Cell::Attempt {
        load: asked.map(|s| s.load.mass),
        unit: facts.bar_unit,
        ruling: None,
        reps: 1,
    };
    [load, blank(), blank(), blank()]
}

/// The number on the card of the first fault that was named.
fn fault_number(facts: &Facts, slot: &Slug, ruled: &Ruled) -> String {
    let Some(fault) = ruled.fact.faults.first() else {
        return String::new();
    };
    let listed = facts.slot(slot.as_str()).map(reasons).unwrap_or_default();
    let at = listed.iter().position(|f| f.code == fault.code);
    at.map_or_else(String::new, |at| (at + 1).to_string())
}

/// Whether the slot may not be attempted; the reason is nobody's business here.
pub(super) fn barred(facts: &Facts, entry: &Entry, slot: &Slug) -> bool {
    match (facts.rules.clearance, facts.clearance(entry, slot)) {
        (Gate::Off, _) | (_, Some(Clearance::Yes | Clearance::UpTo(_))) => false,
        (_, Some(Clearance::No)) | (Gate::Required, None) => true,
        (Gate::Owed, None) => false,
    }
}

fn note(facts: &Facts, entry: &Entry, slot: &Slug, barred: bool) -> String {
    let mut words = Vec::new();
    let away = whereabouts(entry, Some(slot));
    if !away.is_empty() {
        words.push(away.to_owned());
    }
    let owed = facts.gates_on && facts.rules.clearance == Gate::Owed;
    if !barred && owed && facts.clearance(entry, slot).is_none() {
        words.push("clearance owed".to_owned());
    }
    if let Some(most) = facts.ceiling(entry, slot).filter(|_| !barred) {
        words.push(format!("at most {}", most.show(facts.bar_unit)));
    }
    words.join(", ")
}

/// The empty bar; where the sex isn't known the heavier one, so that no load is
/// printed that it can't be loaded to.
fn empty_bar(facts: &Facts, sex: Option<Sex>) -> Mass {
    match sex {
        Some(Sex::F) => facts.rules.bar_f,
        Some(Sex::M) => facts.rules.bar_m,
        None => facts.rules.bar_f.max(facts.rules.bar_m),
    }
}

/// A height on the athlete's card that is meant for the lift: `rack squat` for
/// any squat, `rack` for everything that starts from a rack.
fn setup(entry: &Entry, word: &str, lift: Option<&Lift>) -> String {
    let Some(lift) = lift else {
        return String::new();
    };
    let family = lift.parts.family.word();
    let value = |wanted: &str| entry.setups.get(wanted).cloned();
    let spaced = lift.slug.as_str().replace('-', " ");
    [
        format!("{word} {}", lift.slug),
        format!("{word} {spaced}"),
        format!("{word} {family}"),
        word.to_owned(),
    ]
    .iter()
    .find_map(|name| value(name))
    .unwrap_or_default()
}
