//! All loads that the discs on hand make on one bar.

use super::Discs;
use super::loading::sums;
use crate::measure::Mass;

/// The loads that the discs on hand make on one bar, from the empty bar on.
///
/// Made once for many questions; [`nearest`](super::nearest) answers one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Loads {
    loads: Vec<Mass>,
}

impl Loads {
    /// All loads of the discs on a bar of this mass, to 300 kg a side.
    pub fn new(discs: &Discs, bar: Mass) -> Self {
        let sides = sums(discs).into_iter();
        Self {
            loads: sides.map(|side| bar + side + side).collect(),
        }
    }

    /// The heaviest load that isn't above `load`; `None` below the empty bar.
    pub fn at_most(&self, load: Mass) -> Option<Mass> {
        let above = self.loads.partition_point(|made| *made <= load);
        above.checked_sub(1).map(|at| self.loads[at])
    }

    /// The heaviest load that isn't above `load` and is a multiple of `step`;
    /// `None` where there is none. The empty bar counts as it is.
    pub fn at_most_in_steps(&self, load: Mass, step: Mass) -> Option<Mass> {
        let bar = self.loads.first().copied();
        let fits = |made: &&Mass| made.is_multiple_of(step) || Some(**made) == bar;
        let above = self.loads.partition_point(|made| *made <= load);
        self.loads[..above].iter().rev().find(fits).copied()
    }

    /// Whether the discs make exactly this load.
    pub fn makes(&self, load: Mass) -> bool {
        self.loads.binary_search(&load).is_ok()
    }

    /// The heaviest load of all; the empty bar where there are no discs.
    pub fn most(&self) -> Mass {
        self.loads.last().copied().unwrap_or(Mass::ZERO)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Unit;

    #[test]
    fn loads_are_cut_down_and_never_below_the_bar() {
        // By hand: a side carries 0, 5, 10, 20, 25 or 30, so that a bar of 20 makes
        // 20, 30, 40, 50 (5 and 10), 60, 70, 80 and 90.
        let discs = Discs::parse("20x1 10x1 5x1", Unit::Kg).unwrap();
        let kg = |n| Mass::whole(n, Unit::Kg);
        let loads = Loads::new(&discs, kg(20));
        assert_eq!(loads.at_most(kg(19)), None);
        assert_eq!(loads.at_most(kg(20)), Some(kg(20)));
        assert_eq!(loads.at_most(kg(59)), Some(kg(50)));
        assert_eq!(loads.at_most(kg(500)), Some(kg(90)));
        assert_eq!(loads.most(), kg(90));
        assert!(loads.makes(kg(70)) && !loads.makes(kg(75)));
        assert_eq!(loads.at_most_in_steps(kg(79), kg(20)), Some(kg(60)));
        assert_eq!(loads.at_most_in_steps(kg(25), kg(15)), Some(kg(20)));
        assert_eq!(loads.at_most_in_steps(kg(19), kg(1)), None);
    }
}
