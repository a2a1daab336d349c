//! Scores that compare unlike bodies, and clubs.

use super::super::clubs::{clubs, show_clubs};
use super::super::scores::{
    equipment, exponents, records, show_records, show_which, which,
};
use super::super::words::{Word, put};
use super::Key;

pub(super) static KEYS: &[Key] = &[
    key!(
        "scores",
        "none, usual (the one that suits the lifts), or ratio, allometric, sinclair, robi, ipf-gl, dots, wilks, wilks-2020 (several, in order)",
        "Scores that compare unlike bodies: a column each in standings and results, leader tables by each; without any, the leader tables go by the usual one.",
        |r| show_which(&r.scores.which),
        |r, w| which(&mut r.scores.which, w)
    ),
    key!(
        "score-ages",
        "yes, no",
        "Whether scores are multiplied by the age factors that go with them.",
        |r| r.scores.ages.word().into(),
        |r, w| put(&mut r.scores.ages, w)
    ),
    key!(
        "score-equipment",
        "classic, equipped",
        "Whether lifters wear supportive equipment, for IPF GL points.",
        |r| r.scores.equipment.word().into(),
        |r, w| equipment(&mut r.scores.equipment, w)
    ),
    key!(
        "score-exponent",
        "usual, an exponent from 0 to 1 such as 0.67, or one a lift such as bench-press=0.559,back-squat=0.5",
        "The powers of bodyweight of allometric scores.",
        |r| r.scores.exponents.clone(),
        |r, w| exponents(&mut r.scores.exponents, w)
    ),
    key!(
        "score-records",
        "book (the weightlifting totals by category in the record book), or record totals such as F 63:215 +63:230; M 73:300 (with lb at the end for pounds)",
        "The record totals by bodyweight category that Robi points go by.",
        |r| show_records(&r.scores.records),
        |r, w| records(&mut r.scores.records, w)
    ),
    key!(
        "clubs",
        "none, or clubs such as Thousand: total 1000 lb; Double squat: F back-squat 2x; Three lifts: back-squat+bench-press+deadlift 400 kg",
        "Clubs that are joined by lifting so much: the total or a sum of lifts, or so many times the own bodyweight.",
        |r| show_clubs(&r.clubs),
        |r, w| clubs(&mut r.clubs, w, r.step_unit)
    ),
];
