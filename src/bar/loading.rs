//! How a load is made: with the fewest discs, or with the fewest moves.

use std::collections::{BTreeMap, BTreeSet};

use super::Discs;
use crate::measure::{Mass, Weight};

/// The loads next to one that can't be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Nearest {
    /// The heaviest load below it that can be made.
    pub below: Option<Mass>,
    /// The lightest load above it that can be made.
    pub above: Option<Mass>,
}

/// What the loaders do on each side, from the outside.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// Discs that come off, the outermost first.
    pub off: Vec<Weight>,
    /// Discs that go on, the innermost first.
    pub on: Vec<Weight>,
    /// Each side afterwards, from the inside.
    pub side: Vec<Weight>,
}

/// A disc that may still be used: its mass and pairs, with its place among
/// the kinds.
type Kind = (Mass, u8, usize);

/// The discs of one side, from the inside (heaviest first), that make `load`
/// on a bar of `bar` with the fewest discs; of equal numbers the one with the
/// heavier discs. `None` where the discs on hand can't make it exactly.
///
/// A largest-first choice isn't always the fewest: 60 lb a side are
/// 45 + 10 + 5, but also 35 + 25.
pub fn fewest(discs: &Discs, bar: Mass, load: Mass) -> Option<Vec<Weight>> {
    let side = half(load - bar)?;
    let chosen = search(&kinds(discs), side)?;
    Some(weights(discs, &chosen))
}

/// What changes on each side to come from `now` (from the inside) to `load`
/// with the fewest discs moved, heavier discs always inside lighter ones; of
/// equal moves the one that leaves fewer discs on the bar. `None` where the
/// load can't be made.
pub fn change(discs: &Discs, bar: Mass, now: &[Weight], load: Mass) -> Option<Change> {
    let target = half(load - bar)?;
    let mut best: Option<(usize, usize, Change)> = None;
    for keep in (0..=now.len()).rev() {
        let kept = &now[..keep];
        let Some((left, stock)) = after(discs, kept, target) else {
            continue;
        };
        let off = now.len() - keep;
        // Nothing that moves more can be better.
        if best.as_ref().is_some_and(|(moves, ..)| off >= *moves) {
            break;
        }
        let Some(on) = search(&stock, left) else {
            continue;
        };
        let on = weights(discs, &on);
        let moves = off + on.len();
        let count = keep + on.len();
        if best
            .as_ref()
            .is_none_or(|(m, c, _)| (moves, count) < (*m, *c))
        {
            let side = kept.iter().chain(&on).cloned().collect();
            let off = now[keep..].iter().rev().cloned().collect();
            best = Some((moves, count, Change { off, on, side }));
        }
    }
    best.map(|(_, _, change)| change)
}

/// The loads next to `load` that the discs on hand can make on a bar of
/// `bar`; both are `load` itself where it can be made.
pub fn nearest(discs: &Discs, bar: Mass, load: Mass) -> Nearest {
    let sums = sums(discs);
    let of = |side: Mass| bar + side + side;
    let below = sums.iter().rev().map(|s| of(*s)).find(|m| *m <= load);
    let above = sums.iter().map(|s| of(*s)).find(|m| *m >= load);
    Nearest { below, above }
}

/// What one side carries, where both carry the same.
fn half(both: Mass) -> Option<Mass> {
    let counts = both.counts();
    (counts >= 0 && counts % 2 == 0).then(|| Mass::from_counts(counts / 2))
}

fn kinds(discs: &Discs) -> Vec<Kind> {
    let kinds = discs.kinds().iter().enumerate();
    kinds.map(|(i, (w, pairs))| (w.mass, *pairs, i)).collect()
}

/// The discs of a choice, heaviest first.
fn weights(discs: &Discs, chosen: &[usize]) -> Vec<Weight> {
    chosen.iter().map(|i| discs.kinds()[*i].0.clone()).collect()
}

/// What is left to put on outside `kept`, and the kinds that may go there:
/// those on hand that aren't heavier than the last one kept.
fn after(discs: &Discs, kept: &[Weight], target: Mass) -> Option<(Mass, Vec<Kind>)> {
    let mut left = target;
    let mut stock = kinds(discs);
    for disc in kept {
        left = left - disc.mass;
        let kind = stock.iter_mut().find(|(m, ..)| *m == disc.mass)?;
        kind.1 = kind.1.checked_sub(1)?;
    }
    if left < Mass::ZERO {
        return None;
    }
    if let Some(last) = kept.last() {
        stock.retain(|(m, ..)| *m <= last.mass);
    }
    Some((left, stock))
}

/// The kinds of the fewest discs that add up to `side`, heaviest first.
fn search(kinds: &[Kind], side: Mass) -> Option<Vec<usize>> {
    let mut known = BTreeMap::new();
    let _ = count(kinds, 0, side, &mut known)?;
    // The way back: of each kind as many as the fewest allow, heaviest first.
    let mut chosen = Vec::new();
    let mut left = side;
    for (i, (mass, pairs, kind)) in kinds.iter().enumerate() {
        let total = count(kinds, i, left, &mut known)?;
        let used = (0..=*pairs).rev().find(|n| {
            let rest = left - times(*mass, *n);
            rest >= Mass::ZERO
                && count(kinds, i + 1, rest, &mut known)
                    .is_some_and(|c| c + usize::from(*n) == total)
        })?;
        left = left - times(*mass, used);
        chosen.extend(std::iter::repeat_n(*kind, usize::from(used)));
    }
    Some(chosen)
}

fn times(mass: Mass, n: u8) -> Mass {
    Mass::from_counts(mass.counts() * i64::from(n))
}

/// The fewest discs from `kinds[from..]` that add up to `left`.
fn count(
    kinds: &[Kind],
    from: usize,
    left: Mass,
    known: &mut BTreeMap<(usize, Mass), Option<usize>>,
) -> Option<usize> {
    if left == Mass::ZERO {
        return Some(0);
    }
    let (mass, pairs, _) = kinds.get(from)?;
    if let Some(found) = known.get(&(from, left)) {
        return *found;
    }
    let most = u8::try_from(left.counts() / mass.counts()).unwrap_or(u8::MAX);
    let best = (0..=most.min(*pairs))
        .filter_map(|n| {
            let rest = count(kinds, from + 1, left - times(*mass, n), known)?;
            Some(rest + usize::from(n))
        })
        .min();
    let _ = known.insert((from, left), best);
    best
}

/// All sums that one side can carry.
pub(super) fn sums(discs: &Discs) -> BTreeSet<Mass> {
    let mut sums: BTreeSet<Mass> = BTreeSet::from([Mass::ZERO]);
    let most = Mass::whole(300, crate::measure::Unit::Kg);
    for (disc, pairs) in discs.kinds() {
        let mut more = BTreeSet::new();
        for sum in &sums {
            for n in 1..=*pairs {
                let side = *sum + times(disc.mass, n);
                if side <= most {
                    let _ = more.insert(side);
                }
            }
        }
        sums.extend(more);
    }
    sums
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bar::set_of_discs;
    use crate::measure::Unit;

    fn mass(text: &str, unit: Unit) -> Mass {
        Mass::parse(text, unit).unwrap()
    }

    fn typed(side: &[Weight]) -> Vec<String> {
        side.iter().map(|w| w.typed.clone()).collect()
    }

    /// The fewest discs by trying every choice there is.
    fn brute(discs: &Discs, side: Mass) -> Option<usize> {
        fn go(kinds: &[(Weight, u8)], left: Mass) -> Option<usize> {
            let Some(((disc, pairs), rest)) = kinds.split_first() else {
                return (left == Mass::ZERO).then_some(0);
            };
            (0..=*pairs)
                .filter_map(|n| {
                    let left = left - times(disc.mass, n);
                    if left < Mass::ZERO {
                        return None;
                    }
                    go(rest, left).map(|c| c + usize::from(n))
                })
                .min()
        }
        go(discs.kinds(), side)
    }

    #[test]
    fn pounds_are_loaded_with_fewer_discs_than_largest_first() {
        // Published gym plates: largest-first takes three discs for 60 lb.
        let discs = &set_of_discs("gym-lb").unwrap().discs;
        let bar = mass("45", Unit::Lb);
        for (side, want) in [
            ("60", vec!["35", "25"]),
            ("62.5", vec!["35", "25", "2.5"]),
            ("105", vec!["45", "35", "25"]),
            ("107.5", vec!["45", "35", "25", "2.5"]),
            ("150", vec!["45", "45", "35", "25"]),
            ("152.5", vec!["45", "45", "35", "25", "2.5"]),
            ("90", vec!["45", "45"]),
        ] {
            let side = mass(side, Unit::Lb);
            let found = fewest(discs, bar, bar + side + side).unwrap();
            assert_eq!(typed(&found), want);
        }
    }

    #[test]
    fn every_load_of_small_stocks_agrees_with_trying_everything() {
        let mut tried = 0;
        for pairs in [
            "45x2 35x1 25x1 10x2 5x1 2.5x1",
            "45x1 35x2 25x2 10x1 5x2",
            "20x2 15x1 10x1 5x1 2.5x1 1.25x1",
            "25x1 20x1 15x2 10x2 5x2 2x2 1.5x1 1x1 0.5x1",
            "10x3 4x3 3x2",
            "7x1",
            "",
        ] {
            let discs = Discs::parse(pairs, Unit::Lb).unwrap();
            let quarter = mass("0.25", Unit::Lb);
            let bar = mass("45", Unit::Lb);
            for n in 0..=800_i64 {
                let side = Mass::from_counts(quarter.counts() * n);
                let load = bar + side + side;
                let found = fewest(&discs, bar, load);
                let count = found.as_ref().map(Vec::len);
                assert_eq!(count, brute(&discs, side), "{pairs}: {n} quarters");
                if let Some(found) = found {
                    let sum: Mass = found.iter().map(|w| w.mass).sum();
                    assert_eq!(sum, side);
                    assert!(found.is_sorted_by(|a, b| a.mass >= b.mass));
                }
                let near = nearest(&discs, bar, load);
                if count.is_some() {
                    assert_eq!((near.below, near.above), (Some(load), Some(load)));
                } else {
                    assert!(near.below.is_none_or(|m| m < load));
                    assert!(near.above.is_none_or(|m| m > load));
                }
                tried += 1;
            }
        }
        assert_eq!(tried, 7 * 801);
    }

    #[test]
    fn a_full_kilogram_set_is_loaded_largest_first() {
        // Every load to 250 kg a side: largest-first is the fewest (computed).
        let all = "25x20 20x20 15x20 10x20 5x20 2.5x20 2x20 1.5x20 1x20 0.5x20";
        let discs = Discs::parse(all, Unit::Kg).unwrap();
        for halves in 0..=500_i64 {
            let side = Mass::from_counts(Mass::whole(1, Unit::Kg).counts() / 2 * halves);
            let mut left = side;
            let mut greedy = 0_i64;
            for (disc, _) in discs.kinds() {
                greedy += left.counts() / disc.mass.counts();
                left = Mass::from_counts(left.counts() % disc.mass.counts());
            }
            let found = fewest(&discs, Mass::ZERO, side + side).unwrap();
            assert_eq!(i64::try_from(found.len()).unwrap(), greedy, "{halves}");
        }
    }

    #[test]
    fn the_fewest_moves_keep_what_can_stay() {
        let discs = &set_of_discs("gym-kg").unwrap().discs;
        let bar = mass("20", Unit::Kg);
        let load = |text| mass(text, Unit::Kg);
        // 60 is 20 a side; 70 adds a five.
        let now = fewest(discs, bar, load("60")).unwrap();
        let next = change(discs, bar, &now, load("70")).unwrap();
        assert_eq!(typed(&next.on), ["5"]);
        assert!(next.off.is_empty());
        // 80 is 30 a side: a second five is one move, a ten for it two.
        let then = change(discs, bar, &next.side, load("80")).unwrap();
        assert_eq!(
            (typed(&then.off), typed(&then.on)),
            (vec![], vec!["5".into()])
        );
        // 100 is 40 a side: both fives come off for a second twenty.
        let then = change(discs, bar, &then.side, load("100")).unwrap();
        assert_eq!(
            (typed(&then.off).len(), typed(&then.on)),
            (2, vec!["20".into()])
        );
        let then = change(discs, bar, &next.side, load("80")).unwrap();
        assert_eq!(change(discs, bar, &then.side, load("80.1")), None);
        let none = change(discs, bar, &then.side, load("80")).unwrap();
        assert!(none.off.is_empty() && none.on.is_empty());
    }

    #[test]
    fn moves_agree_with_trying_every_stack() {
        let discs = Discs::parse("20x1 10x2 5x2 2.5x1", Unit::Kg).unwrap();
        let half = mass("2.5", Unit::Kg);
        let side = |n: i64| Mass::from_counts(half.counts() * n);
        // Every stack that the stock allows, heavier discs inside.
        let mut stacks: Vec<Vec<Weight>> = vec![Vec::new()];
        for (disc, pairs) in discs.kinds() {
            let before = stacks.clone();
            for n in 1..=*pairs {
                for stack in &before {
                    let mut more = stack.clone();
                    more.extend(std::iter::repeat_n(disc.clone(), usize::from(n)));
                    stacks.push(more);
                }
            }
        }
        let sum = |stack: &[Weight]| stack.iter().map(|w| w.mass).sum::<Mass>();
        for now in &stacks {
            for n in 0..=21 {
                let load = side(n) + side(n);
                let want = stacks
                    .iter()
                    .filter(|s| sum(s) == side(n))
                    .map(|s| {
                        let same = now.iter().zip(s.iter()).take_while(|(a, b)| a == b);
                        let same = same.count();
                        now.len() - same + s.len() - same
                    })
                    .min();
                let found = change(&discs, Mass::ZERO, now, load);
                let moves = found.as_ref().map(|c| c.off.len() + c.on.len());
                assert_eq!(moves, want, "{:?} to {n}", typed(now));
            }
        }
    }

    #[test]
    fn what_can_not_be_made_has_its_neighbours() {
        let discs = Discs::parse("20x1 10x1", Unit::Kg).unwrap();
        let bar = mass("20", Unit::Kg);
        let kg = |text| mass(text, Unit::Kg);
        let near = nearest(&discs, bar, kg("45"));
        assert_eq!((near.below, near.above), (Some(kg("40")), Some(kg("60"))));
        let near = nearest(&discs, bar, kg("15"));
        assert_eq!((near.below, near.above), (None, Some(kg("20"))));
        let near = nearest(&discs, bar, kg("100"));
        assert_eq!((near.below, near.above), (Some(kg("80")), None));
    }
}
