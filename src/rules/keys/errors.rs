//! Official errors and challenges.

use super::super::words::{Word, any_or_small, list, put, show_any, show_list};
use super::Key;

pub(super) static KEYS: &[Key] = &[
    key!(
        "again",
        "now, round-end",
        "When an attempt that is granted for an official error is taken.",
        |r| r.again.word().into(),
        |r, w| put(&mut r.again, w)
    ),
    key!(
        "credit",
        "loaded, step",
        "What a wrong load counts when the attempt is kept: the load that was on the bar, or the multiple of the step below it.",
        |r| r.credit.word().into(),
        |r, w| put(&mut r.credit, w)
    ),
    key!(
        "error-lighter-good",
        "keep, repeat, again (several)",
        "What may be granted for a lighter bar and a good lift.",
        |r| show_list(&r.errors.lighter_good),
        |r, w| list(&mut r.errors.lighter_good, w)
    ),
    key!(
        "error-lighter-no",
        "keep, repeat, again (several)",
        "What may be granted for a lighter bar and no lift.",
        |r| show_list(&r.errors.lighter_no),
        |r, w| list(&mut r.errors.lighter_no, w)
    ),
    key!(
        "error-heavier-good",
        "keep, repeat, again (several)",
        "What may be granted for a heavier bar and a good lift.",
        |r| show_list(&r.errors.heavier_good),
        |r, w| list(&mut r.errors.heavier_good, w)
    ),
    key!(
        "error-heavier-no",
        "keep, repeat, again (several)",
        "What may be granted for a heavier bar and no lift.",
        |r| show_list(&r.errors.heavier_no),
        |r, w| list(&mut r.errors.heavier_no, w)
    ),
    key!(
        "error-same-good",
        "keep, repeat, again (several)",
        "What may be granted for an uneven bar or a disturbance and a good lift.",
        |r| show_list(&r.errors.same_good),
        |r, w| list(&mut r.errors.same_good, w)
    ),
    key!(
        "error-same-no",
        "keep, repeat, again (several)",
        "What may be granted for an uneven bar or a disturbance and no lift.",
        |r| show_list(&r.errors.same_no),
        |r, w| list(&mut r.errors.same_no, w)
    ),
    key!(
        "challenges",
        "any, or a whole number from 0 to 9",
        "Challenges that an athlete may lose.",
        |r| show_any(r.challenges.map(u32::from)),
        |r, w| any_or_small(&mut r.challenges, w)
    ),
    key!(
        "challenge-closes",
        "call, off",
        "Until when an attempt may be challenged: the next call on its platform, or at any time.",
        |r| r.challenge_closes.word().into(),
        |r, w| put(&mut r.challenge_closes, w)
    ),
];
