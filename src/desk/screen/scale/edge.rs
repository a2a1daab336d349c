//! A bodyweight beside the category's limits.

use crate::day::Facts;
use crate::measure::{Mass, Unit};
use crate::roster::Entry;
use crate::rules::Sex;

/// Where a bodyweight lies among the categories.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edge {
    /// The category's label with its sex, such as `F 63`.
    pub label: String,
    /// What is left to the category's own limit; `None` where it has none.
    pub under: Option<Mass>,
    /// What lies above the next lighter category's limit, and its label.
    pub over: Option<(Mass, String)>,
}

impl Edge {
    /// Finds the category; `None` without a sex or without categories.
    pub fn of(facts: &Facts, sex: Option<Sex>, bodyweight: Mass) -> Option<Self> {
        let sex = sex?;
        let rules = &facts.rules;
        let set = rules.category_set(facts.date)?;
        let group = set.group(sex, &rules.age_group)?;
        let (rank, label) = group.class(bodyweight);
        let limit = group.limits.get(rank).map(|(limit, _)| *limit);
        let lighter = rank.checked_sub(1).and_then(|r| group.limits.get(r));
        Some(Self {
            label: format!("{sex} {label}"),
            under: limit.map(|limit| limit - bodyweight),
            over: lighter.map(|(limit, label)| (bodyweight - *limit, label.clone())),
        })
    }

    /// In a few words: `F 63, 0.6 under`.
    pub fn short(&self, unit: Unit) -> String {
        match (self.under, &self.over) {
            (Some(Mass::ZERO), _) => format!("{}, at its limit", self.label),
            (Some(under), _) => format!("{}, {} under", self.label, apart(under, unit)),
            (None, Some((over, _))) => {
                format!("{}, {} over", self.label, apart(*over, unit))
            }
            (None, None) => self.label.clone(),
        }
    }

    /// The distances from the lower and the upper limit, in words for large
    /// type: `0.4 kg over 61`, `7.6 kg under its limit`.
    pub fn distances(&self, unit: Unit) -> Vec<String> {
        let mut words = Vec::new();
        if let Some((over, label)) = &self.over {
            words.push(format!("{} {unit} over {label}", apart(*over, unit)));
        }
        match self.under {
            Some(Mass::ZERO) => words.push("exactly at its limit".to_owned()),
            Some(under) => {
                words.push(format!("{} {unit} under its limit", apart(under, unit)));
            }
            None => words.push("no upper limit".to_owned()),
        }
        words
    }

    /// As part of a sentence.
    pub fn long(&self, unit: Unit) -> String {
        let mut words = format!("category {}", self.label);
        match self.under {
            Some(Mass::ZERO) => words.push_str(", exactly at its limit"),
            Some(under) => {
                words.push_str(&format!(
                    ", {} {unit} under its limit",
                    apart(under, unit)
                ));
            }
            None => {}
        }
        if let Some((over, label)) = &self.over {
            words.push_str(&format!(", {} {unit} over {label}", apart(*over, unit)));
        }
        words
    }
}

/// A difference: exact where it has at most five decimals. Else, as between a
/// limit in kg and a scale in lb, cut to two, or to three where two would show
/// a difference as none; so never more than there is.
fn apart(mass: Mass, unit: Unit) -> String {
    let decimals = |text: &String| text.split_once('.').map_or(0, |(_, d)| d.len()) <= 5;
    if let Some(exact) = mass.exact(unit).filter(decimals) {
        return exact;
    }
    ["0.01", "0.001"]
        .iter()
        .filter_map(|step| Mass::parse(step, unit).ok())
        .map(|step| mass.floor_to(step))
        .find(|cut| *cut > Mass::ZERO)
        .and_then(|cut| cut.exact(unit))
        .unwrap_or_else(|| "less than 0.001".to_owned())
}

/// A bodyweight in the other unit, to a tenth, or to as many more places as
/// it takes not to contradict the category's limit.
pub fn in_other_unit(facts: &Facts, sex: Option<Sex>, bodyweight: Mass) -> String {
    let other = facts.scale_unit.other();
    let own = Edge::of(facts, sex, bodyweight).map(|e| e.label);
    let agrees = |text: &str| {
        let shown = Mass::parse(text, other).ok();
        shown.and_then(|m| Edge::of(facts, sex, m)).map(|e| e.label) == own
    };
    let text = (1..=6)
        .map(|places| bodyweight.rounded(other, places))
        .find(|text| agrees(text))
        .unwrap_or_else(|| bodyweight.rounded(other, 6));
    format!("{text} {other}")
}

/// Whether the entry was entered for another category than the scale says.
pub fn misses_entered(entry: &Entry, edge: &Edge) -> bool {
    let entered = entry.category.trim();
    let bare = edge.label.split_once(' ').map_or("", |(_, label)| label);
    !entered.is_empty() && entered != edge.label && entered != bare
}
