//! A load on the bar in words: the discs of one side, or why there are none.

use crate::bar::{fewest, nearest};
use crate::day::Facts;
use crate::measure::{Mass, Weight};
use crate::roster::Entry;
use crate::rules::Queue;

/// The discs of one side that make a load for an athlete on a platform, from
/// the inside: `25 + 20 + 2.5 each side, on the 20 kg bar`; without a full stop.
///
/// A disc that isn't of the bar's unit has its unit behind it. Where the queue
/// is law the collars are weighed with the bar, and it says so: the bar and
/// collars of 20 kg are a women's bar of 15 kg (TCRR equipment as published).
///
/// # Errors
/// What [`not_made`] says, where the discs on hand can't make the load.
pub fn one_side(
    facts: &Facts,
    platform: u8,
    entry: &Entry,
    load: Mass,
) -> Result<String, String> {
    let bar = facts.empty_bar(platform, entry);
    let Some(side) = fewest(facts.discs(platform), bar, load) else {
        return Err(not_made(facts, platform, entry, load).unwrap_or_default());
    };
    let bar = bar_words(facts, platform, bar);
    if side.is_empty() {
        return Ok(format!("no discs, {bar} alone"));
    }
    let discs: Vec<String> = side.iter().map(|disc| disc_words(facts, disc)).collect();
    Ok(format!("{} each side, on {bar}", discs.join(" + ")))
}

/// What is said of a load that the discs on a platform can't make: `82.5 kg
/// can't be made from the discs on platform 2; 80 kg and 85 kg can`, without a
/// full stop; `None` where they can.
pub fn not_made(
    facts: &Facts,
    platform: u8,
    entry: &Entry,
    load: Mass,
) -> Option<String> {
    let near = nearest_words(facts, platform, entry, load)?;
    Some(format!(
        "{} can't be made from the discs on {}{near}",
        load.show_with_unit(facts.bar_unit),
        facts.platform_label(platform)
    ))
}

/// The loads next to one that can't be made: `; 80 kg and 85 kg can`; `None`
/// where it can.
pub fn nearest_words(
    facts: &Facts,
    platform: u8,
    entry: &Entry,
    load: Mass,
) -> Option<String> {
    let (discs, bar) = (facts.discs(platform), facts.empty_bar(platform, entry));
    if fewest(discs, bar, load).is_some() {
        return None;
    }
    let show = |mass: Mass| mass.show_with_unit(facts.bar_unit);
    let near = nearest(discs, bar, load);
    Some(match (near.below, near.above) {
        (Some(below), Some(above)) => {
            format!("; {} and {} can", show(below), show(above))
        }
        (Some(one), None) | (None, Some(one)) => format!("; {} can", show(one)),
        (None, None) => String::new(),
    })
}

/// A disc's number, with its unit where that isn't the bar's.
pub(super) fn disc_words(facts: &Facts, disc: &Weight) -> String {
    if disc.unit == facts.bar_unit {
        disc.typed.clone()
    } else {
        format!("{}{}", disc.typed, disc.unit)
    }
}

/// The empty bar in words: as it was typed for the platform, else the rules'
/// in the day's unit.
pub fn bar_words(facts: &Facts, platform: u8, bar: Mass) -> String {
    let own = facts
        .platform(platform)
        .and_then(|p| p.bar_on_hand.as_ref())
        .filter(|own| own.mass == bar);
    let unit = own.map_or(facts.bar_unit, |own| own.unit);
    let mass = bar.show_with_unit(unit);
    match facts.rules.queue {
        Queue::Law => format!("bar and collars of {mass}"),
        Queue::Advice => format!("the {mass} bar"),
    }
}
