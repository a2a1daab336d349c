//! Groups, places, totals and teams.

use super::super::words::{
    Word, age_group, ages, all_or_number, categories, list, points, put, show_all,
    show_list, show_points,
};
use super::Key;

pub(super) static KEYS: &[Key] = &[
    key!(
        "ties-lift",
        "best-attempt, previous, last-slot-lower, bodyweight, earlier, number, shared (several, in order)",
        "The chain that breaks a tie in a slot.",
        |r| show_list(&r.ties_lift),
        |r, w| list(&mut r.ties_lift, w)
    ),
    key!(
        "ties-total",
        "best-attempt, previous, last-slot-lower, bodyweight, earlier, number, shared (several, in order)",
        "The chain that breaks a tie in the total.",
        |r| show_list(&r.ties_total),
        |r, w| list(&mut r.ties_total, w)
    ),
    key!(
        "total",
        "all, none",
        "Whether the bests of all slots are added to a total.",
        |r| if r.total { "all".into() } else { "none".into() },
        |r, w| match w {
            "all" => {
                r.total = true;
                true
            }
            "none" => {
                r.total = false;
                true
            }
            _ => false,
        }
    ),
    key!(
        "no-good",
        "no-total, counts-nothing, out",
        "What a slot without a good attempt means: no total, nothing, or no further slot either.",
        |r| match (r.total_needs_all, r.out_after_no_good) {
            (_, true) => "out".into(),
            (true, false) => "no-total".into(),
            (false, false) => "counts-nothing".into(),
        },
        |r, w| {
            let read = match w {
                "no-total" => (true, false),
                "counts-nothing" => (false, false),
                "out" => (true, true),
                _ => return false,
            };
            (r.total_needs_all, r.out_after_no_good) = read;
            true
        }
    ),
    key!(
        "category",
        "entered, weighed",
        "What decides a bodyweight category.",
        |r| r.category.word().into(),
        |r, w| put(&mut r.category, w)
    ),
    key!(
        "categories",
        "none, flight, iwf or ipf (the newest set that holds on the day), the name of a category set, or an own set such as F 47 57 +57; M 60 75 +75 lb",
        "The bodyweight categories.",
        |r| r.categories.clone(),
        categories
    ),
    key!(
        "age-group",
        "usual, or a list that some set has: senior, open, junior, youth",
        "Which list of a category set is used.",
        |r| r.age_group.clone(),
        age_group
    ),
    key!(
        "ages",
        "none, iwf, ipf: the age groups that body has published",
        "The age groups in which entries with a birth date stand as divisions too.",
        |r| r.ages.clone(),
        ages
    ),
    key!(
        "team-points",
        "none, or points by place such as 12 9 8 7 6 5 4 3 2 1 (with ... behind the last where it goes on)",
        "What an athlete's place brings the team.",
        show_points,
        points
    ),
    key!(
        "team-scores",
        "total, lifts, all",
        "Which places score for a team.",
        |r| r.teams.scores.word().into(),
        |r, w| put(&mut r.teams.scores, w)
    ),
    key!(
        "team-best",
        "all, or a whole number from 1 to 200",
        "How many scores of a team count, the highest first.",
        |r| show_all(r.teams.best),
        |r, w| all_or_number(&mut r.teams.best, w, 200)
    ),
    key!(
        "team-per-group",
        "all, or a whole number from 1 to 200",
        "How many of a team may score in one group.",
        |r| show_all(r.teams.per_group),
        |r, w| all_or_number(&mut r.teams.per_group, w, 200)
    ),
    key!(
        "team-ties",
        "places, sum, shared (several, in order)",
        "The chain that breaks a tie between teams: more first places, then seconds and so on; the sum of the totals that scored.",
        |r| show_list(&r.teams.ties),
        |r, w| list(&mut r.teams.ties, w)
    ),
];
