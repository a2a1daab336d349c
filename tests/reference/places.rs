//! Bests, totals and places of the model.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use crate::model::{Model, Person, State};
use crate::plain::{Categories, Load, No, Ruling, Tie};

/// The best with its attempt, and the place.
pub type SlotResult = (Option<(u8, Load)>, Option<u32>);

/// What stands behind one number.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Result {
    pub group: String,
    /// By slot: the best with its attempt, and the place.
    pub slots: Vec<SlotResult>,
    pub total: Option<Load>,
    pub place: Option<u32>,
}

impl Model {
    /// The heaviest good attempt; of two that are equal, the first.
    pub fn best(&self, p: &Person, slot: usize) -> Option<(u8, Load)> {
        let mut best: Option<(u8, Load)> = None;
        for (n, a) in (1_u8..).zip(&p.runs[slot]) {
            if let Some(r) = &a.ruled
                && r.ruling == Ruling::Good
                && let Some(load) = r.load
                && best.is_none_or(|(_, b)| load > b)
            {
                best = Some((n, load));
            }
        }
        best
    }

    /// The class of a bodyweight; a limit belongs to its class (from memory
    /// for weightlifting, read for powerlifting).
    fn class(girl: bool, bodyweight: i64) -> &'static str {
        let limits: [(i64, &str); 7] = if girl {
            [
                (49, "49"),
                (53, "53"),
                (57, "57"),
                (61, "61"),
                (69, "69"),
                (77, "77"),
                (86, "86"),
            ]
        } else {
            [
                (60, "60"),
                (65, "65"),
                (70, "70"),
                (75, "75"),
                (85, "85"),
                (95, "95"),
                (110, "110"),
            ]
        };
        for (limit, label) in limits {
            if bodyweight <= limit * 100 {
                return label;
            }
        }
        if girl { "86+" } else { "110+" }
    }

    fn group(&self, p: &Person) -> String {
        match self.rules.categories {
            Categories::None => "all".to_owned(),
            Categories::Flight => ["A", "B"][p.athlete.flight].to_owned(),
            Categories::Iwf2026 => {
                let weighed = p
                    .athlete
                    .bodyweight
                    .map(|b| Self::class(p.athlete.girl, b).to_owned());
                let entered = Some(p.athlete.category.clone())
                    .filter(|c| !c.is_empty() && !self.rules.weighed);
                let class = entered.or(weighed);
                let sex = if p.athlete.girl { "F" } else { "M" };
                class.map_or_else(String::new, |c| format!("{sex} {c}"))
            }
        }
    }

    /// The loads before the best, walking back.
    fn before(p: &Person, slot: usize, best: u8) -> Vec<Load> {
        (1..best)
            .rev()
            .filter_map(|n| p.runs[slot].get(usize::from(n) - 1))
            .filter_map(|a| a.ruled.as_ref())
            // An attempt that was passed counts with the load it was asked for.
            .map(|r| r.load.unwrap_or(0))
            .collect()
    }

    fn when(p: &Person, slot: usize, best: u8) -> Option<(usize, usize)> {
        Some(
            p.runs[slot]
                .get(usize::from(best) - 1)?
                .ruled
                .as_ref()?
                .when(),
        )
    }

    /// Compares two by one key; `slot` is the one that is placed, or the last
    /// where the total is.
    fn by(&self, tie: Tie, a: &Person, b: &Person, slot: usize, total: bool) -> Ordering {
        let last = self.rules.slots.len() - 1;
        match tie {
            Tie::BestAttempt => {
                let of = |p| self.best(p, slot).map_or(u8::MAX, |(n, _)| n);
                of(a).cmp(&of(b))
            }
            Tie::Previous => {
                let of = |p| {
                    let best = self.best(p, slot);
                    (best.is_none(), best.map(|(n, _)| Self::before(p, slot, n)))
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
                        .filter_map(|s| Self::when(p, s, self.best(p, s)?.0))
                        .max()
                };
                of(a).cmp(&of(b))
            }
            Tie::Number => a.athlete.no.cmp(&b.athlete.no),
            Tie::Shared => Ordering::Equal,
        }
    }

    fn rank(
        &self,
        mut list: Vec<(&Person, Load)>,
        chain: &[Tie],
        slot: usize,
        total: bool,
    ) -> Vec<(No, u32)> {
        let chain: Vec<Tie> = chain
            .iter()
            .copied()
            .take_while(|t| *t != Tie::Shared)
            .collect();
        let order = |a: &(&Person, Load), b: &(&Person, Load)| {
            let mut order = b.1.cmp(&a.1);
            for tie in &chain {
                order = order.then_with(|| self.by(*tie, a.0, b.0, slot, total));
            }
            order
        };
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

    fn total(&self, p: &Person) -> Option<Load> {
        if !self.rules.total {
            return None;
        }
        let bests: Vec<Option<(u8, Load)>> = (0..self.rules.slots.len())
            .map(|s| self.best(p, s))
            .collect();
        if self.rules.needs_all && bests.iter().any(Option::is_none) {
            return None;
        }
        let good: Vec<Load> = bests.into_iter().flatten().map(|(_, l)| l).collect();
        (!good.is_empty()).then(|| good.iter().sum())
    }

    /// Everybody's results.
    pub fn standings(&self, s: &State) -> BTreeMap<No, Result> {
        let slots = self.rules.slots.len();
        let mut all: BTreeMap<No, Result> = BTreeMap::new();
        for p in s.people.values() {
            let _ = all.insert(
                p.athlete.no,
                Result {
                    group: self.group(p),
                    slots: (0..slots).map(|i| (self.best(p, i), None)).collect(),
                    total: self.total(p),
                    place: None,
                },
            );
        }
        let groups: std::collections::BTreeSet<String> =
            all.values().map(|r| r.group.clone()).collect();
        for group in groups.iter().filter(|g| !g.is_empty()) {
            let members: Vec<&Person> = s
                .people
                .values()
                .filter(|p| &self.group(p) == group)
                .collect();
            for slot in 0..slots {
                // Variants never share a ranking.
                for variant in 0..self.rules.slots[slot] {
                    let list = members
                        .iter()
                        .filter(|p| {
                            p.athlete.slots[slot].is_some_and(|(v, _)| v == variant)
                        })
                        .filter_map(|p| Some((*p, self.best(p, slot)?.1)))
                        .collect();
                    for (no, place) in self.rank(list, &self.rules.ties_lift, slot, false)
                    {
                        if let Some(r) = all.get_mut(&no) {
                            r.slots[slot].1 = Some(place);
                        }
                    }
                }
            }
            // Totals of the same lifts are placed together.
            let mut by_lifts: BTreeMap<Vec<usize>, Vec<(&Person, Load)>> =
                BTreeMap::new();
            for p in &members {
                if let Some(total) = self.total(p) {
                    let lifts = (0..slots)
                        .map(|s| p.athlete.slots[s].map_or(0, |(v, _)| v))
                        .collect();
                    by_lifts.entry(lifts).or_default().push((*p, total));
                }
            }
            for list in by_lifts.into_values() {
                for (no, place) in
                    self.rank(list, &self.rules.ties_total, slots - 1, true)
                {
                    if let Some(r) = all.get_mut(&no) {
                        r.place = Some(place);
                    }
                }
            }
        }
        all
    }
}
