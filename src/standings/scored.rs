//! Relative strength: the score of a line, and standings by it.

use std::cmp::Ordering;

use super::{
    Group, Line, Standing, by_lift, category_label, category_set, line, number_of,
    placed_group, places, signature, sort_by_place,
};
use crate::day::Facts;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::EntryKey;
use crate::score::{Event, Formula, Lifted, NoScore, Score, Scoring};

/// What of a line is scored: its load, and the lift where it is one.
///
/// Only what was tested counts, never an estimate. Of a day with one slot the
/// best in it; of several slots the total.
///
/// # Errors
/// [`NoScore::Load`] where nothing counts, [`NoScore::Total`] where the rules
/// add up no total.
pub(super) fn load_of<'a>(
    facts: &Facts,
    line: &'a Line,
    slot: Option<&Slug>,
) -> Result<(Mass, Event<'a>), NoScore> {
    let at = match (slot, facts.slots.len()) {
        (Some(slot), _) => facts.slots.iter().position(|l| l.slot == *slot),
        (None, 1) => Some(0),
        (None, _) if facts.rules.total => {
            return line
                .total
                .map(|total| (total, Event::Total))
                .ok_or(NoScore::Load);
        }
        (None, _) => return Err(NoScore::Total),
    };
    let result = at.and_then(|at| line.slots.get(at)).ok_or(NoScore::Load)?;
    match (&result.lift, result.best) {
        (Some(lift), Some((_, best))) if !result.disqualified => {
            Ok((best, Event::Lift(lift.as_str())))
        }
        _ => Err(NoScore::Load),
    }
}

/// The score of a line: of its best in a slot, else of its total (or of the best
/// in the day's only slot).
///
/// Age is the day's year less the year of birth. The category counts for Robi
/// points where the day has categories, else the one that the bodyweight falls
/// into.
///
/// # Errors
/// [`NoScore`]: why there is none.
pub fn score_of(
    facts: &Facts,
    line: &Line,
    slot: Option<&Slug>,
    scoring: &Scoring,
) -> Result<Score, NoScore> {
    let entry = facts.entries.get(&line.entry).ok_or(NoScore::Load)?;
    let (load, event) = load_of(facts, line, slot)?;
    let label = match category_set(facts) {
        Some(_) if scoring.formula == Formula::Robi => category_label(facts, entry),
        _ => String::new(),
    };
    scoring.score(&Lifted {
        sex: entry.sex,
        bodyweight: entry.bodyweight.as_ref().map(|w| w.mass),
        load,
        event,
        day: facts.date,
        age: entry.born.map(|born| born.age_in_year(facts.date)),
        category: Some(label.as_str()).filter(|l| !l.is_empty()),
    })
}

/// Who has a load but no score, by the reasons, in the order of the table
/// numbers; and whether that is everybody who has a load.
pub fn without_score(
    facts: &Facts,
    slot: Option<&Slug>,
    scoring: &Scoring,
) -> (Vec<(NoScore, Vec<u16>)>, bool) {
    let mut reasons: Vec<(NoScore, Vec<u16>)> = Vec::new();
    let mut all = true;
    for entry in facts.entries_by_number() {
        match score_of(facts, &line(facts, entry), slot, scoring) {
            Ok(_) => all = false,
            Err(NoScore::Load) => {}
            Err(why) => match reasons.iter_mut().find(|(reason, _)| *reason == why) {
                Some((_, lots)) => lots.push(entry.number),
                None => reasons.push((why, vec![entry.number])),
            },
        }
    }
    (reasons, all)
}

/// The standings by a score: all entries in one group, both sexes together;
/// equal scores share a place.
///
/// Who has no score has a line without a place. Variants are different lifts, so
/// a place is among those with the same ones. Where the rules add up no total,
/// every lift is a group of its own.
pub fn standings_by_score(facts: &Facts, scoring: &Scoring) -> Vec<Group> {
    let keys: Vec<EntryKey> = facts.entries_by_number().map(|e| e.key).collect();
    if keys.is_empty() {
        return Vec::new();
    }
    let mut all = placed_group(facts, "all".to_owned(), String::new(), &keys);
    if facts.rules.total || facts.slots.len() == 1 {
        place_scores(facts, &mut all, scoring);
        return vec![all];
    }
    let mut lifts = by_lift::parted(facts, &all);
    for group in &mut lifts {
        place_scores(facts, group, scoring);
    }
    lifts
}

/// Gives places by score and sorts by them.
fn place_scores(facts: &Facts, group: &mut Group, scoring: &Scoring) {
    let slot = group.slot.clone();
    let lines = &mut group.lines;
    let scores: Vec<Option<f64>> = lines
        .iter()
        .map(|l| score_of(facts, l, slot.as_ref(), scoring).ok())
        .map(|score| score.map(|s| s.value))
        .collect();
    let kind = |l: &Line| match slot {
        Some(_) => Vec::new(),
        None => signature(facts, l),
    };
    let mut kinds: Vec<Vec<usize>> = lines.iter().map(kind).collect();
    let of = kinds.clone();
    kinds.sort();
    kinds.dedup();
    lines.iter_mut().for_each(|l| l.place = None);
    for kind in kinds {
        let mut order: Vec<(usize, f64)> = (0..lines.len())
            .filter(|l| of[*l] == kind && lines[*l].standing == Standing::Placed)
            .filter_map(|l| Some((l, scores[l]?)))
            .collect();
        order.sort_by(|(a, x), (b, y)| {
            let number = |l: &usize| number_of(facts, lines[*l].entry);
            higher(*x, *y).then_with(|| number(a).cmp(&number(b)))
        });
        let places = places(&order, |(_, x), (_, y)| higher(*x, *y).is_eq());
        for ((l, _), place) in order.into_iter().zip(places) {
            lines[l].place = Some(place);
        }
    }
    if slot.is_none() {
        sort_by_place(facts, lines);
        return;
    }
    lines.sort_by_key(|l| {
        let last = l.place.unwrap_or(u32::MAX);
        (l.standing, last, number_of(facts, l.entry))
    });
}

/// The higher score first; unrounded ones are compared.
pub(super) fn higher(a: f64, b: f64) -> Ordering {
    b.total_cmp(&a)
}
