//! Bests, totals and places of the model.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use crate::ages::ages;
use crate::model::{Person, State};
use crate::plain::{Load, No, Ruling};
use crate::rules::{AgeGroup, Categories, NoGood, Tie};

/// What stands in one slot.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct SlotResult {
    /// The variant that counts, for whoever is entered.
    pub variant: Option<usize>,
    /// The attempt and its load.
    pub best: Option<(u8, Load)>,
    /// What several repetitions let expect, in tenths.
    pub estimate: Option<(u8, Load)>,
    pub place: Option<u32>,
}

/// What stands behind one number.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Result {
    pub group: String,
    pub slots: Vec<SlotResult>,
    pub total: Option<Load>,
    pub place: Option<u32>,
}

const IWF_F: &[i64] = &[49, 53, 57, 61, 69, 77, 86];
const IWF_M: &[i64] = &[60, 65, 70, 75, 85, 95, 110];
const IWF_2025_F: &[i64] = &[48, 53, 58, 63, 69, 77, 86];
const IWF_2025_M: &[i64] = &[60, 65, 71, 79, 88, 94, 110];
const YOUTH_2025_F: &[i64] = &[44, 48, 53, 58, 63, 69, 77];
const YOUTH_2025_M: &[i64] = &[56, 60, 65, 71, 79, 88, 94];
const JUNIOR_F: &[i64] = &[43, 47, 52, 57, 63, 69, 76, 84];
const JUNIOR_M: &[i64] = &[53, 59, 66, 74, 83, 93, 105, 120];
const IPF_F: &[i64] = &[47, 52, 57, 63, 69, 76, 84];
const IPF_M: &[i64] = &[59, 66, 74, 83, 93, 105, 120];
/// The own set, `F 57 61 +61; M 65 75 +75`.
const OWN_F: &[i64] = &[57, 61];
const OWN_M: &[i64] = &[65, 75];

/// Tenths are as exact as an estimate is shown.
const fn estimate(load: Load, percent: i64) -> Load {
    load * 100 / percent / 10 * 10
}

/// Somebody with what is placed: tested or estimated, and the load.
type Marked<'a> = (&'a Person, (bool, Load));

/// The load of so many repetitions in percent of the max: NSCA's chart.
fn percent(reps: u8) -> Option<i64> {
    let chart = [100, 95, 93, 90, 87, 85, 83, 80, 77, 75];
    if reps == 1 {
        return None;
    }
    chart.get(usize::from(reps) - 1).copied()
}

impl State {
    /// The variant that counts: the entered one if it has a good single, else
    /// that of the heaviest good single, the first of equals.
    pub fn counted(&self, p: &Person, slot: usize) -> Option<usize> {
        let (entered, _) = p.athlete.slots[slot]?;
        if Self::best_of(p, slot, Some(entered)).is_some() {
            return Some(entered);
        }
        let heaviest = Self::best_of(p, slot, None).or_else(|| {
            // Without any tested max the estimates tell.
            match Self::estimate_of(p, slot, Some(entered)) {
                Some(own) => Some(own),
                None => Self::estimate_of(p, slot, None),
            }
        });
        let variant = heaviest
            .and_then(|(n, _)| p.ruled(slot, n))
            .map(|r| r.variant);
        Some(variant.unwrap_or(entered))
    }

    /// The heaviest good single of a variant; of two that are equal, the first.
    fn best_of(p: &Person, slot: usize, variant: Option<usize>) -> Option<(u8, Load)> {
        let mut best: Option<(u8, Load)> = None;
        for (n, a) in (1_u8..).zip(&p.runs[slot]) {
            if let Some(r) = &a.ruled
                && r.ruling == Ruling::Good
                && r.reps == 1
                && variant.is_none_or(|v| v == r.variant)
                && let Some(load) = r.load
                && best.is_none_or(|(_, b)| load > b)
            {
                best = Some((n, load));
            }
        }
        best
    }

    pub fn best(&self, p: &Person, slot: usize) -> Option<(u8, Load)> {
        Self::best_of(p, slot, Some(self.counted(p, slot)?))
    }

    fn estimate(&self, p: &Person, slot: usize) -> Option<(u8, Load)> {
        Self::estimate_of(p, slot, Some(self.counted(p, slot)?))
    }

    /// The heaviest estimate from several repetitions of a variant.
    fn estimate_of(
        p: &Person,
        slot: usize,
        variant: Option<usize>,
    ) -> Option<(u8, Load)> {
        let mut best: Option<(u8, Load)> = None;
        for (n, a) in (1_u8..).zip(&p.runs[slot]) {
            if let Some(r) = &a.ruled
                && r.ruling == Ruling::Good
                && variant.is_none_or(|v| v == r.variant)
                && let Some(percent) = percent(r.reps)
                && let Some(load) = r.load
                && best.is_none_or(|(_, b)| estimate(load, percent) > b)
            {
                best = Some((n, estimate(load, percent)));
            }
        }
        best
    }

    /// What somebody is placed by in a slot: every tested max before every
    /// estimate.
    fn mark(&self, p: &Person, slot: usize) -> Option<(u8, (bool, Load))> {
        self.best(p, slot)
            .map(|(n, load)| (n, (true, load)))
            .or_else(|| self.estimate(p, slot).map(|(n, load)| (n, (false, load))))
    }

    /// The class of a bodyweight; a limit belongs to its class (from memory
    /// for weightlifting, read for powerlifting).
    fn class(&self, girl: bool, bodyweight: i64) -> String {
        let usual = self.rules.age_group == AgeGroup::Usual;
        let limits = match (self.rules.categories, usual, girl) {
            (Categories::Ipf, true, true) => IPF_F,
            (Categories::Ipf, true, false) => IPF_M,
            (Categories::Ipf, false, true) => JUNIOR_F,
            (Categories::Ipf, false, false) => JUNIOR_M,
            (Categories::Own, _, true) => OWN_F,
            (Categories::Own, _, false) => OWN_M,
            (Categories::Iwf2025, true, true) => IWF_2025_F,
            (Categories::Iwf2025, true, false) => IWF_2025_M,
            (Categories::Iwf2025, false, true) => YOUTH_2025_F,
            (Categories::Iwf2025, false, false) => YOUTH_2025_M,
            (_, _, true) => IWF_F,
            (_, _, false) => IWF_M,
        };
        for limit in limits {
            if bodyweight <= limit * 100 {
                return limit.to_string();
            }
        }
        format!("{}+", limits[limits.len() - 1])
    }

    fn group(&self, p: &Person) -> String {
        match self.rules.categories {
            Categories::None => "all".to_owned(),
            Categories::Flight => ["A", "B"][p.athlete.flight].to_owned(),
            _ => {
                let weighed = p.athlete.bodyweight.map(|b| self.class(p.athlete.girl, b));
                let entered = Some(p.athlete.category.clone())
                    .filter(|c| !c.is_empty() && !self.rules.weighed);
                let class = entered.or(weighed);
                let sex = if p.athlete.girl { "F" } else { "M" };
                class.map_or_else(String::new, |c| format!("{sex} {c}"))
            }
        }
    }

    /// Whether somebody may be placed: in a slot, or in the total.
    fn is_placed(p: &Person, slot: Option<usize>) -> bool {
        let out = match slot {
            Some(slot) => p.disqualified_slots[slot],
            None => p.disqualified_slots.iter().any(|d| *d),
        };
        !p.athlete.guest && !p.disqualified && !out
    }

    /// The loads before the best, walking back.
    fn loads_before(p: &Person, slot: usize, best: u8) -> Vec<Load> {
        (1..best)
            .rev()
            .filter_map(|n| p.ruled(slot, n))
            // An attempt that was passed counts with the load it was asked for.
            .map(|r| r.load.unwrap_or(0))
            .collect()
    }

    fn when(p: &Person, slot: usize, best: u8) -> Option<(usize, usize)> {
        Some(p.ruled(slot, best)?.when())
    }

    /// Compares two by one key; `slot` is the one that is placed, or the last
    /// where the total is.
    fn by(&self, tie: Tie, a: &Person, b: &Person, slot: usize, total: bool) -> Ordering {
        let last = self.rules.slots.len() - 1;
        match tie {
            Tie::BestAttempt => {
                let of = |p| self.mark(p, slot).map_or(u8::MAX, |(n, _)| n);
                of(a).cmp(&of(b))
            }
            Tie::Previous => {
                let of = |p| {
                    let best = self.mark(p, slot);
                    (
                        best.is_none(),
                        best.map(|(n, _)| Self::loads_before(p, slot, n)),
                    )
                };
                of(a).cmp(&of(b))
            }
            Tie::LastSlotLower => {
                let of = |p| self.best(p, last).map(|(_, load)| load);
                of(a).cmp(&of(b))
            }
            // Whoever wasn't weighed isn't the lighter one.
            Tie::Bodyweight => {
                let of =
                    |p: &Person| (p.athlete.bodyweight.is_none(), p.athlete.bodyweight);
                of(a).cmp(&of(b))
            }
            Tie::Earlier => {
                // The total is reached with the last of its bests.
                let of = |p: &Person| {
                    let slots = if total { 0..=last } else { slot..=slot };
                    slots
                        .filter_map(|s| Self::when(p, s, self.mark(p, s)?.0))
                        .max()
                };
                of(a).cmp(&of(b))
            }
            Tie::Number => a.number.cmp(&b.number),
            Tie::Shared => Ordering::Equal,
        }
    }

    fn rank(
        &self,
        list: Vec<Marked<'_>>,
        chain: &[Tie],
        slot: usize,
        total: bool,
    ) -> Vec<(No, u32)> {
        let chain: Vec<Tie> = chain
            .iter()
            .copied()
            .take_while(|t| *t != Tie::Shared)
            .collect();
        let order = |a: &Marked<'_>, b: &Marked<'_>| {
            let mut order = b.1.cmp(&a.1);
            for tie in &chain {
                order = order.then_with(|| self.by(*tie, a.0, b.0, slot, total));
            }
            order
        };
        let mut list = list;
        list.sort_by(order);
        let mut places: Vec<(No, u32)> = Vec::new();
        for (i, item) in list.iter().enumerate() {
            let place = if i > 0 && order(&list[i - 1], item) == Ordering::Equal {
                places[i - 1].1
            } else {
                u32::try_from(i + 1).unwrap_or(u32::MAX)
            };
            places.push((item.0.athlete.no, place));
        }
        places
    }

    pub fn total(&self, p: &Person) -> Option<Load> {
        let out = p.disqualified || p.disqualified_slots.iter().any(|d| *d);
        if !self.rules.total || out {
            return None;
        }
        let bests: Vec<Option<(u8, Load)>> = (0..self.rules.slots.len())
            .map(|s| self.best(p, s))
            .collect();
        let needs_all = self.rules.no_good != NoGood::Nothing;
        if needs_all && bests.iter().any(Option::is_none) {
            return None;
        }
        let good: Vec<Load> = bests.into_iter().flatten().map(|(_, l)| l).collect();
        (!good.is_empty()).then(|| good.iter().sum())
    }

    /// Everybody's results, by the number under which they were entered.
    pub fn standings(&self) -> BTreeMap<No, Result> {
        let mut groups: BTreeMap<String, Vec<&Person>> = BTreeMap::new();
        for p in self.people.values() {
            groups.entry(self.group(p)).or_default().push(p);
        }
        let mut all: BTreeMap<No, Result> = BTreeMap::new();
        for (group, members) in groups {
            for (no, mut result) in self.placed(&members, !group.is_empty()) {
                result.group.clone_from(&group);
                let _ = all.insert(no, result);
            }
        }
        all
    }

    /// Results in the age groups.
    pub fn divisions(&self) -> BTreeMap<(String, No), Result> {
        let mut all = BTreeMap::new();
        for group in ages(self.rules.ages) {
            // Girls and boys aren't placed together by age.
            let mut by_sex: BTreeMap<String, Vec<&Person>> = BTreeMap::new();
            for p in self.people.values() {
                if p.athlete.born.is_some_and(|born| group.has(born)) {
                    let sex = if p.athlete.girl { "F" } else { "M" };
                    let label = format!("{sex} {}", group.name);
                    by_sex.entry(label).or_default().push(p);
                }
            }
            for (label, members) in by_sex {
                for (no, mut result) in self.placed(&members, true) {
                    result.group.clone_from(&label);
                    let _ = all.insert((label.clone(), no), result);
                }
            }
        }
        all
    }

    /// The results of some who are placed together, or not at all.
    fn placed(&self, members: &[&Person], together: bool) -> BTreeMap<No, Result> {
        let slots = self.rules.slots.len();
        let mut all: BTreeMap<No, Result> = BTreeMap::new();
        for p in members {
            let result = Result {
                group: String::new(),
                slots: (0..slots)
                    .map(|i| SlotResult {
                        variant: self.counted(p, i),
                        best: self.best(p, i),
                        estimate: self.estimate(p, i),
                        place: None,
                    })
                    .collect(),
                total: self.total(p),
                place: None,
            };
            let _ = all.insert(p.athlete.no, result);
        }
        if together {
            for slot in 0..slots {
                self.place_slot(members, slot, &mut all);
            }
            self.place_totals(members, &mut all);
        }
        all
    }

    fn place_slot(
        &self,
        members: &[&Person],
        slot: usize,
        all: &mut BTreeMap<No, Result>,
    ) {
        // Variants never share a ranking.
        for variant in 0..self.rules.slots[slot] {
            let list = members
                .iter()
                .filter(|p| Self::is_placed(p, Some(slot)))
                .filter(|p| self.counted(p, slot) == Some(variant))
                .filter_map(|p| Some((*p, self.mark(p, slot)?.1)))
                .collect();
            for (no, place) in self.rank(list, &self.rules.ties_lift, slot, false) {
                if let Some(r) = all.get_mut(&no) {
                    r.slots[slot].place = Some(place);
                }
            }
        }
    }

    fn place_totals(&self, members: &[&Person], all: &mut BTreeMap<No, Result>) {
        // Totals of the same lifts are placed together.
        let slots = self.rules.slots.len();
        let mut by_lifts: BTreeMap<Vec<usize>, Vec<Marked<'_>>> = BTreeMap::new();
        for p in members.iter().filter(|p| Self::is_placed(p, None)) {
            if let Some(total) = self.total(p) {
                let lifts = (0..slots)
                    .map(|s| self.counted(p, s).unwrap_or(0))
                    .collect();
                by_lifts.entry(lifts).or_default().push((*p, (true, total)));
            }
        }
        for list in by_lifts.into_values() {
            for (no, place) in self.rank(list, &self.rules.ties_total, slots - 1, true) {
                if let Some(r) = all.get_mut(&no) {
                    r.place = Some(place);
                }
            }
        }
    }
}
