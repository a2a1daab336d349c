//! What may be asked for, and until when.

use super::super::words::{
    Word, allowance, changes, load_or_off, optional, own_changes, put, record_beats,
    show_allowance, show_changes, show_load, show_mass, show_optional, show_own_changes,
    show_record_beats, step, step_or_none,
};
use super::Key;

pub(super) static KEYS: &[Key] = &[
    key!(
        "step",
        "a load above 0 and at most 50 kg",
        "The smallest increment, the least rise and the automatic increase after a good lift.",
        |r| show_mass(r.step, r.step_unit),
        step
    ),
    key!(
        "record-step",
        "off, or a load above 0 and at most 50 kg",
        "What a request that is made for a record may be a multiple of, and by how much it must rise.",
        |r| show_load(r.record_step, r.step_unit),
        |r, w| load_or_off(&mut r.record_step, w, r.step_unit)
    ),
    key!(
        "record-beats",
        "equal, above, or by how much: a load above 0 and at most 50 kg",
        "What breaks a record of the school's book: an equal load, any heavier one, or one that is heavier by so much.",
        |r| show_record_beats(r.record_beats, r.step_unit),
        |r, w| record_beats(&mut r.record_beats, w, r.step_unit)
    ),
    key!(
        "least-rise",
        "step, none",
        "Whether the next attempt must rise by a step after a good lift and may not sink after a no lift.",
        |r| if r.least_rise {
            "step".into()
        } else {
            "none".into()
        },
        |r, w| step_or_none(&mut r.least_rise, w)
    ),
    key!(
        "automatic",
        "step, none",
        "Whether the next request is filled in: a step more after a good lift, the same after a no lift.",
        |r| if r.automatic {
            "step".into()
        } else {
            "none".into()
        },
        |r, w| step_or_none(&mut r.automatic, w)
    ),
    key!(
        "declare",
        "yes, no",
        "Whether the next attempt must be declared.",
        |r| r.declare.word().into(),
        |r, w| put(&mut r.declare, w)
    ),
    key!(
        "changes",
        "any, or a whole number from 0 to 9",
        "Changes of a declared attempt.",
        |r| show_changes(r.changes),
        |r, w| changes(w).map(|c| r.changes = c).is_some()
    ),
    key!(
        "changes-first",
        "same, any, or a whole number from 0 to 9",
        "Changes of a first attempt, where they differ.",
        |r| show_own_changes(r.changes_first),
        |r, w| own_changes(&mut r.changes_first, w)
    ),
    key!(
        "changes-last",
        "same, any, or a whole number from 0 to 9",
        "Changes of the last attempt in the last slot, where they differ.",
        |r| show_own_changes(r.changes_last),
        |r, w| own_changes(&mut r.changes_last, w)
    ),
    key!(
        "change-called",
        "yes, no",
        "Whether the load of a called athlete may still be declared or changed.",
        |r| r.change_called.word().into(),
        |r, w| put(&mut r.change_called, w)
    ),
    key!(
        "first-closes",
        "off, or minutes from 1 to 240",
        "Changes of a first attempt close so many minutes before its flight's planned start.",
        |r| show_optional(r.first_closes),
        |r, w| optional(&mut r.first_closes, w, 240)
    ),
    key!(
        "first-closes-left",
        "off, or attempts from 1 to 100",
        "Changes of a later flight's first attempt close when so many attempts are left in the flight before.",
        |r| show_optional(r.first_closes_left),
        |r, w| optional(&mut r.first_closes_left, w, 100)
    ),
    key!(
        "hand-in",
        "off, or seconds from 1 to 600",
        "A next attempt must be handed in so many seconds after the last one.",
        |r| show_optional(r.hand_in),
        |r, w| optional(&mut r.hand_in, w, 600)
    ),
    key!(
        "entry-total-f",
        "off, a load, or percent such as 80%",
        "How far the openers' sum may lie under the entry total, for girls and women.",
        |r| show_allowance(r.entry_total_f, r.step_unit),
        |r, w| allowance(&mut r.entry_total_f, w, r.step_unit)
    ),
    key!(
        "entry-total-m",
        "off, a load, or percent such as 80%",
        "How far the openers' sum may lie under the entry total, for boys and men.",
        |r| show_allowance(r.entry_total_m, r.step_unit),
        |r, w| allowance(&mut r.entry_total_m, w, r.step_unit)
    ),
    key!(
        "jumps",
        "off, advice, required",
        "How advised jumps bind: not said, shown, or a cause to refuse.",
        |r| r.jumps.word().into(),
        |r, w| put(&mut r.jumps, w)
    ),
    key!(
        "jump-upper",
        "off, or percent from 1 to 100",
        "The largest advised rise in an upper-body lift: an opener over the last max, a next attempt over a good one.",
        |r| show_optional(r.jump_upper),
        |r, w| optional(&mut r.jump_upper, w, 100)
    ),
    key!(
        "jump-lower",
        "off, or percent from 1 to 100",
        "The largest advised rise in a lower-body lift.",
        |r| show_optional(r.jump_lower),
        |r, w| optional(&mut r.jump_lower, w, 100)
    ),
    key!(
        "drop-upper",
        "off, or percent from 1 to 50",
        "The advised drop after a no lift in an upper-body lift.",
        |r| show_optional(r.drop_upper),
        |r, w| optional(&mut r.drop_upper, w, 50)
    ),
    key!(
        "drop-lower",
        "off, or percent from 1 to 50",
        "The advised drop after a no lift in a lower-body lift.",
        |r| show_optional(r.drop_lower),
        |r, w| optional(&mut r.drop_lower, w, 50)
    ),
    key!(
        "warn-after",
        "off, or attempts from 1 to 20",
        "After so many maximal attempts of one athlete in a lift the table says so.",
        |r| show_optional(r.warn_after),
        |r, w| optional(&mut r.warn_after, w, 20)
    ),
];
