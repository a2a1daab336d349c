//! What is odd about openers, in words that every face shares.

use super::results::lift_name;
use crate::day::Facts;
use crate::lift::{Body, Slug, catalogue};
use crate::measure::{Mass, Weight};
use crate::roster::Entry;
use crate::rules::{Rules, Sex};

/// An opener as the beginning of a sentence, without a capital.
pub fn opener_words(facts: &Facts, lift: &Slug, opener: &Weight) -> String {
    let load = opener.mass.show_with_unit(facts.bar_unit);
    format!("the opener {load} in the {}", lift_name(lift))
}

/// What is odd about an opener in a lift: off the step, under the empty bar,
/// or a larger jump over the last max than the rules advise.
///
/// What follows [`opener_words`] and “is”, without a full stop; mostly none.
pub fn opener_remarks(
    facts: &Facts,
    entry: &Entry,
    lift: &Slug,
    opener: &Weight,
) -> Vec<String> {
    let rules = &facts.rules;
    let unit = facts.bar_unit;
    let show = |mass: Mass| mass.show_with_unit(unit);
    let mut found = Vec::new();
    if !opener.mass.is_multiple_of(rules.step) {
        let below = opener.mass.floor_to(rules.step);
        let above = show(opener.mass.ceil_to(rules.step));
        let nearest = if below > Mass::ZERO {
            format!("the nearest are {} and {above}", show(below))
        } else {
            format!("the nearest is {above}")
        };
        found.push(format!(
            "not a multiple of {}; {nearest}",
            rules.step.show_with_unit(rules.step_unit)
        ));
    }
    let (bar, whose) = empty_bar(rules, entry.sex);
    if opener.mass < bar {
        found.push(format!("less than the empty bar{whose}, {}", show(bar)));
    }
    let last = entry.last.get(lift);
    let jump = catalogue().get(lift.as_str()).and_then(|l| match l.body {
        Body::Upper => rules.jump_upper,
        Body::Lower => rules.jump_lower,
    });
    if let (Some(last), Some(jump)) = (last, jump) {
        let most = last.mass.percent(100 + i64::from(jump));
        if opener.mass > most {
            found.push(format!(
                "more than {jump} % above the last max, {}; the advice is at \
                 most {}",
                show(last.mass),
                show(advised(most, rules))
            ));
        }
    }
    found
}

/// Openers that add up to too little for the entry total; judged once every
/// lift that is entered has one. Part of a sentence.
pub fn openers_sum_remark(facts: &Facts, entry: &Entry) -> Option<String> {
    let allowance = match entry.sex? {
        Sex::F => facts.rules.entry_total_f?,
        Sex::M => facts.rules.entry_total_m?,
    };
    let unit = facts.bar_unit;
    let total = entry.entry_total.as_ref()?.mass;
    let least = allowance.least(total);
    let openers: Option<Vec<Mass>> = entry
        .slots
        .values()
        .filter(|line| line.variant.is_some())
        .map(|line| line.opener.as_ref().map(|w| w.mass))
        .collect();
    let sum: Mass = openers?.into_iter().sum();
    (sum < least).then(|| {
        format!(
            "the openers add up to {}; with an entry total of {} they need {} or more",
            sum.show_with_unit(unit),
            total.show_with_unit(unit),
            least.show_with_unit(unit)
        )
    })
}

/// That an opener is above what a cap or a clearance allows today; what follows
/// [`opener_words`] and “is”.
pub fn ceiling_remark(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    opener: &Weight,
) -> Option<String> {
    let most = facts.ceiling(entry, slot)?.mass;
    (opener.mass > most).then(|| {
        format!(
            "above {}, the most that is allowed today",
            most.show_with_unit(facts.bar_unit)
        )
    })
}

/// The largest load on the step that isn't above the advice.
fn advised(most: Mass, rules: &Rules) -> Mass {
    let stepped = most.floor_to(rules.step);
    if stepped > Mass::ZERO { stepped } else { most }
}

fn empty_bar(rules: &Rules, sex: Option<Sex>) -> (Mass, &'static str) {
    match sex {
        Some(Sex::F) => (rules.bar_f, " for girls and women"),
        Some(Sex::M) => (rules.bar_m, " for boys and men"),
        None => (rules.bar_f.min(rules.bar_m), ""),
    }
}
