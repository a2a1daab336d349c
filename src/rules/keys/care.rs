//! The bar, gates, and what may be posted.

use super::super::words::{Word, discs, mass, put, show_mass};
use super::Key;

pub(super) static KEYS: &[Key] = &[
    key!(
        "bar-f",
        "a load up to 100 kg",
        "The empty bar with collars for girls and women.",
        |r| show_mass(r.bar_f, r.step_unit),
        |r, w| mass(&mut r.bar_f, w, r.step_unit)
    ),
    key!(
        "bar-m",
        "a load up to 100 kg",
        "The empty bar with collars for boys and men.",
        |r| show_mass(r.bar_m, r.step_unit),
        |r, w| mass(&mut r.bar_m, w, r.step_unit)
    ),
    key!(
        "discs",
        "the name of a set (weightlifting, powerlifting, gym-kg, gym-lb), or discs with their pairs such as 20x2 10x1 2.5x1",
        "Discs on hand on a platform that names no others, in pairs.",
        |r| r.discs.0.clone(),
        discs
    ),
    key!(
        "station-check",
        "off, owed, required",
        "How strictly a platform's station check is asked for.",
        |r| r.station_check.word().into(),
        |r, w| put(&mut r.station_check, w)
    ),
    key!(
        "clearance",
        "off, owed, required",
        "How strictly a clearance is asked for.",
        |r| r.clearance.word().into(),
        |r, w| put(&mut r.clearance, w)
    ),
    key!(
        "posting-name",
        "full, initial, number",
        "How names are shown on what is posted.",
        |r| r.posting.name.word().into(),
        |r, w| put(&mut r.posting.name, w)
    ),
    key!(
        "posting-bodyweight",
        "yes, no",
        "Whether bodyweights are posted.",
        |r| r.posting.bodyweight.word().into(),
        |r, w| put(&mut r.posting.bodyweight, w)
    ),
    key!(
        "posting-category",
        "yes, no",
        "Whether bodyweight categories are posted.",
        |r| r.posting.category.word().into(),
        |r, w| put(&mut r.posting.category, w)
    ),
];
