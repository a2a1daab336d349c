//! Order of call and what an attempt is.

use super::super::words::{Word, list, put, show_list, small};
use super::Key;

pub(super) static KEYS: &[Key] = &[
    key!(
        "queue",
        "law, advice",
        "Whether only the first in the queue may be called.",
        |r| r.queue.word().into(),
        |r, w| put(&mut r.queue, w)
    ),
    key!(
        "bar",
        "rising, rounds, free",
        "Whether the bar may come down: never within a flight, never within a round, or freely.",
        |r| r.bar.word().into(),
        |r, w| put(&mut r.bar, w)
    ),
    key!(
        "order",
        "load, attempt, previous, number, rest (several, in order)",
        "The keys of the order of call, the first deciding first; rest is who rests until earlier.",
        |r| show_list(&r.order),
        |r, w| list(&mut r.order, w)
    ),
    key!(
        "table-number",
        "lot, start",
        "The number that names an entry at the table: the lot, or a start number that the act number gives.",
        |r| r.table_number.word().into(),
        |r, w| put(&mut r.table_number, w)
    ),
    key!(
        "attempts",
        "a whole number from 1 to 9",
        "Attempts in each slot.",
        |r| r.attempts.to_string(),
        |r, w| small(&mut r.attempts, w, 1..=9)
    ),
    key!(
        "reps",
        "single, multiple",
        "Whether a test of several repetitions may be entered; its estimate is shown apart.",
        |r| r.reps.word().into(),
        |r, w| put(&mut r.reps, w)
    ),
    key!(
        "judges",
        "1, 3",
        "Judges at a platform.",
        |r| r.judges.to_string(),
        |r, w| matches!(w, "1" | "3") && small(&mut r.judges, w, 1..=3)
    ),
    key!(
        "wrong-catch",
        "strict, reclassify",
        "Whether a lift caught as another variant is no lift or entered as that variant.",
        |r| r.wrong_catch.word().into(),
        |r, w| put(&mut r.wrong_catch, w)
    ),
];
