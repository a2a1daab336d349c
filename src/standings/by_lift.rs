//! A group's standings parted by lifts.

use super::{Group, Line, SlotResult, estimate, number_of, place_slot};
use crate::day::Facts;
use crate::lift::Slug;
use crate::roster::SlotLine;

/// A category's group, a lift at a time.
///
/// Somebody who was reclassified in some attempts stands in both lifts; so the
/// places of a lift are among all who made it, not only among those for whom
/// it counts in the category.
pub(super) fn parted(facts: &Facts, group: &Group) -> Vec<Group> {
    let mut lifts = Vec::new();
    for (i, slot) in facts.slots.iter().enumerate() {
        for variant in &slot.variants {
            let mut lines: Vec<Line> = group
                .lines
                .iter()
                .filter_map(|l| in_variant(facts, l, i, slot, variant))
                .collect();
            if lines.is_empty() {
                continue;
            }
            if !group.label.is_empty() {
                place_slot(facts, &mut lines, i, variant);
            }
            lines.sort_by_key(|l| {
                let result = &l.slots[i];
                (
                    result.disqualified,
                    l.standing,
                    result.place.unwrap_or(u32::MAX),
                    number_of(facts, l.entry),
                )
            });
            lifts.push(Group {
                label: format!("{} {variant}", group.label).trim().to_owned(),
                remark: group.remark.clone(),
                slot: Some(slot.slot.clone()),
                lines,
            });
        }
    }
    lifts
}

/// The line with its result in this variant; `None` where it has none.
pub(super) fn in_variant(
    facts: &Facts,
    line: &Line,
    i: usize,
    slot: &SlotLine,
    variant: &Slug,
) -> Option<Line> {
    let counted = &line.slots[i];
    let lift = counted.lift.as_ref()?;
    if lift == variant {
        return Some(line.clone());
    }
    let best = facts
        .best_of(line.entry, &slot.slot, |l| l == variant)
        .and_then(|(n, r)| r.fact.credited.as_ref().map(|load| (n, load.mass)));
    let estimate =
        estimate::best_estimate(facts, line.entry, &slot.slot, |l| l == variant)
            .map(|(n, _, mass)| (n, mass));
    if best.is_none() && estimate.is_none() {
        return None;
    }
    let mut line = line.clone();
    line.slots[i] = SlotResult {
        lift: Some(variant.clone()),
        best,
        estimate,
        place: None,
        disqualified: counted.disqualified,
    };
    Some(line)
}
