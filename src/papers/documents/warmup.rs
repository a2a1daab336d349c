//! Warm-up loads from the opener.

use crate::measure::{Mass, Unit};
use crate::sheets::{Step, warm_up_steps};

/// What is printed for a load that isn't above the empty bar.
const BAR: &str = "bar";

/// The loads of the steps before an opener, as plain decimals in `unit`.
///
/// Each is rounded down to a multiple of `step`; what isn't above the empty bar
/// is the word `bar`.
pub fn warm_up(opener: Mass, bar: Mass, step: Mass, unit: Unit) -> Vec<String> {
    let load = |s: &Step| opener.percent(i64::from(s.percent)).floor_to(step);
    let shown = |load: Mass| {
        if load > bar {
            load.show(unit)
        } else {
            BAR.to_owned()
        }
    };
    warm_up_steps().iter().map(|s| shown(load(s))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_steps_rise_and_stay_below_the_opener() {
        let percents: Vec<u8> = warm_up_steps().iter().map(|s| s.percent).collect();
        assert_eq!(percents, [50, 70, 80, 90]);
        assert!(warm_up_steps().iter().all(|s| !s.repetitions.is_empty()));
    }

    #[test]
    fn loads_are_rounded_down_and_never_below_the_bar() {
        let whole = |n| Mass::whole(n, Unit::Lb);
        let loads = |opener| warm_up(whole(opener), whole(45), whole(5), Unit::Lb);
        // 50, 70, 80, 90 % of 185: 92.5, 129.5, 148, 166.5.
        assert_eq!(loads(185), ["90", "125", "145", "165"]);
        // 35, 49, 56, 63: the first two are no more than the bar.
        assert_eq!(loads(70), ["bar", "bar", "55", "60"]);
        assert_eq!(loads(45), ["bar"; 4]);
        let kg = |text: &str| Mass::parse(text, Unit::Kg).unwrap();
        // 50, 70, 80, 90 % of 62.5: 31.25, 43.75, 50, 56.25.
        assert_eq!(
            warm_up(kg("62.5"), kg("20"), kg("2.5"), Unit::Kg),
            ["30", "42.5", "50", "55"]
        );
    }
}
