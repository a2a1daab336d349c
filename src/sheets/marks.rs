//! The marks of a clock: the final call, and the end.

use crate::rules::Rules;

/// A moment that is told by sign and sound.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ClockMark {
    /// The rules' final call.
    FinalCall,
    /// No time is left.
    Up,
}

/// The mark that a clock has passed with so many milliseconds left.
pub fn mark_at(rules: &Rules, left: i64) -> Option<ClockMark> {
    let final_call = rules.final_call.map(|seconds| i64::from(seconds) * 1000);
    if left <= 0 {
        Some(ClockMark::Up)
    } else if final_call.is_some_and(|mark| left <= mark) {
        Some(ClockMark::FinalCall)
    } else {
        None
    }
}

/// The mark that lies between two readings of a clock that ran from one to
/// the other, in milliseconds left; the later one where there are two.
pub fn mark_between(rules: &Rules, before: i64, now: i64) -> Option<ClockMark> {
    let passed = mark_at(rules, now)?;
    (before > now && mark_at(rules, before) != Some(passed)).then_some(passed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Unit;
    use crate::rules::format_named;

    /// Weightlifting: a warning when 30 s are left (IWF TCRR, as the rules file
    /// has it).
    #[test]
    fn a_mark_is_passed_once() {
        let rules = format_named("weightlifting")
            .unwrap()
            .rules(Unit::Kg)
            .unwrap();
        assert_eq!(rules.final_call, Some(30));
        let between = |before, now| mark_between(&rules, before, now);
        assert_eq!(between(60_000, 30_001), None);
        assert_eq!(between(30_001, 30_000), Some(ClockMark::FinalCall));
        assert_eq!(between(30_000, 29_750), None);
        assert_eq!(between(250, 0), Some(ClockMark::Up));
        assert_eq!(between(0, 0), None);
        // A reading that comes late tells the end alone.
        assert_eq!(between(40_000, 0), Some(ClockMark::Up));
        // A clock that was set back passed nothing.
        assert_eq!(between(10_000, 20_000), None);
        assert_eq!(mark_at(&rules, 29_000), Some(ClockMark::FinalCall));
    }

    #[test]
    fn without_a_final_call_the_end_alone_is_marked() {
        let mut rules = format_named("weightlifting")
            .unwrap()
            .rules(Unit::Kg)
            .unwrap();
        rules.final_call = None;
        assert_eq!(mark_between(&rules, 31_000, 1), None);
        assert_eq!(mark_between(&rules, 1, 0), Some(ClockMark::Up));
    }
}
