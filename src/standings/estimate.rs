//! What several repetitions say about a max.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

use crate::day::Facts;
use crate::lift::Slug;
use crate::measure::{Mass, Unit};
use crate::roster::EntryKey;
use crate::rules::Reps;

/// A published table of repetitions and the share of the max they are done at.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
pub struct LoadChart {
    /// Its name.
    pub name: String,
    /// Its title.
    pub title: String,
    /// Where it was read.
    pub source: String,
    percent: BTreeMap<String, i64>,
}

/// The chart by which maxes are estimated.
pub fn load_chart() -> &'static LoadChart {
    static CHART: OnceLock<LoadChart> = OnceLock::new();
    CHART.get_or_init(|| {
        toml::from_str(include_str!("../../resources/reps.toml")).unwrap_or(LoadChart {
            name: String::new(),
            title: String::new(),
            source: String::new(),
            percent: BTreeMap::new(),
        })
    })
}

impl LoadChart {
    /// The percentage of the max at which so many repetitions are done; `None`
    /// where the chart has no row.
    pub fn percent(&self, reps: u8) -> Option<i64> {
        self.percent
            .get(&reps.to_string())
            .copied()
            .filter(|p| *p > 0)
    }

    /// The max that so many repetitions with a load speak for, cut down to a
    /// tenth of the unit; `None` above the chart's last row.
    ///
    /// ```
    /// use maxday::measure::{Mass, Unit};
    /// use maxday::standings::load_chart;
    /// let kg = |n| Mass::whole(n, Unit::Kg);
    /// let max = load_chart().estimate(kg(74), 8, Unit::Kg).unwrap();
    /// assert_eq!(max.show(Unit::Kg), "92.5");
    /// ```
    pub fn estimate(&self, load: Mass, reps: u8, unit: Unit) -> Option<Mass> {
        let percent = i128::from(self.percent(reps)?);
        let counts = i128::from(load.counts()) * 100 / percent;
        let whole = Mass::from_counts(i64::try_from(counts).ok()?);
        let tenth = Mass::from_counts(Mass::whole(1, unit).counts() / 10);
        Some(whole.floor_to(tenth))
    }
}

/// The heaviest estimate of an entry's good tests of several repetitions among
/// some variants: the attempt's number, its variant and the estimate.
///
/// Of equal ones the earlier attempt. Nothing where the rules know only tests
/// of one repetition.
pub(super) fn best_estimate(
    facts: &Facts,
    entry: EntryKey,
    slot: &Slug,
    counts: impl Fn(&Slug) -> bool,
) -> Option<(u8, Slug, Mass)> {
    if facts.rules.reps != Reps::Multiple {
        return None;
    }
    let mut best: Option<(u8, Slug, Mass)> = None;
    for (n, attempt) in &facts.run(entry, slot)?.attempts {
        let Some(fact) = attempt.ruled.as_ref().map(|r| &r.fact) else {
            continue;
        };
        if !fact.ruling.is_good() || fact.reps <= 1 || !counts(&fact.lift) {
            continue;
        }
        let estimate = fact
            .credited
            .as_ref()
            .and_then(|load| load_chart().estimate(load.mass, fact.reps, facts.bar_unit));
        if let Some(mass) = estimate
            && best.as_ref().is_none_or(|(_, _, b)| mass > *b)
        {
            best = Some((*n, fact.lift.clone(), mass));
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_chart_is_the_published_one() {
        // NSCA training load chart as published.
        let published = [100, 95, 93, 90, 87, 85, 83, 80, 77, 75];
        for (reps, percent) in (1..).zip(published) {
            assert_eq!(load_chart().percent(reps), Some(percent), "{reps}");
        }
        for reps in [0, 11, 12, 20] {
            assert_eq!(load_chart().percent(reps), None, "{reps}");
        }
    }

    #[test]
    fn estimates_are_exact_and_cut_down_to_a_tenth() {
        let estimate = |load: &str, unit, reps| {
            let mass = Mass::parse(load, unit).unwrap();
            let max = load_chart().estimate(mass, reps, unit)?;
            Some(max.show(unit))
        };
        // By hand: 80 / 0.87 = 91.954; 100 / 0.95 = 105.263; 225 / 0.75 = 300.
        assert_eq!(estimate("80", Unit::Kg, 5).unwrap(), "91.9");
        assert_eq!(estimate("100", Unit::Kg, 2).unwrap(), "105.2");
        assert_eq!(estimate("225", Unit::Lb, 10).unwrap(), "300");
        assert_eq!(estimate("225", Unit::Lb, 5).unwrap(), "258.6");
        assert_eq!(estimate("225", Unit::Lb, 11), None);
    }
}
