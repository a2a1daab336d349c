//! By which score leaders are sought where nobody has chosen one.

use std::sync::OnceLock;

use serde::Deserialize;

use super::Formula;
use super::about::shipped;

#[derive(Debug, Default, Deserialize)]
struct Choices {
    other: String,
    meet: Vec<Choice>,
}

#[derive(Debug, Default, Deserialize)]
struct Choice {
    lifts: Vec<String>,
    score: String,
}

fn choices() -> &'static Choices {
    static FILE: OnceLock<Choices> = OnceLock::new();
    FILE.get_or_init(|| shipped(include_str!("../../resources/scores/leaders.toml")))
}

/// The formula for a programme of these lifts, by their slugs in any order.
///
/// A meet in the lifts of a sport has that sport's own; anything else has load
/// over bodyweight.
pub fn leading_formula(lifts: &[&str], meet: bool) -> Formula {
    let same = |choice: &&Choice| {
        let own = &choice.lifts;
        own.len() == lifts.len() && own.iter().all(|l| lifts.contains(&l.as_str()))
    };
    let all = choices();
    let of_meet = all.meet.iter().filter(|_| meet).find(same);
    let name = of_meet.map_or(&all.other, |choice| &choice.score);
    Formula::parse(name).unwrap_or(Formula::Ratio)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sport_has_its_own_score_and_a_max_day_the_ratio() {
        let of = |lifts: &[&str]| leading_formula(lifts, true);
        assert_eq!(of(&["clean-and-jerk", "snatch"]), Formula::Sinclair);
        let three = ["back-squat", "bench-press", "deadlift"];
        assert_eq!(of(&three), Formula::IpfGl);
        assert_eq!(of(&["bench-press"]), Formula::IpfGl);
        assert_eq!(of(&["power-clean", "bench-press"]), Formula::Ratio);
        assert_eq!(leading_formula(&three, false), Formula::Ratio);
    }

    #[test]
    fn every_name_in_the_file_is_a_formula_and_every_lift_is_known() {
        let all = choices();
        assert_eq!(all.other, "ratio");
        assert_eq!(all.meet.len(), 3);
        for choice in &all.meet {
            assert!(Formula::parse(&choice.score).is_ok(), "{choice:?}");
            for lift in &choice.lifts {
                assert!(crate::lift::Slug::new(lift.clone()).is_ok(), "{lift}");
            }
        }
    }
}
