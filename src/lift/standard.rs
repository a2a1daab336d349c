//! The judging standard: which faults a judge may name, derived from the parts.
//!
//! The texts and the source of each code are in `resources/faults.toml`. The
//! commonest come first, so that a table can show them in this order.

use super::parts::{Catch, Family, Form, Parts, Start};

/// Lists the codes of the faults that a judge may name for a lift with such parts.
///
/// Each code is in the catalogue's faults, and none comes twice. A wrong catch is
/// among them (`caught-too-low` in a power variant), for days that judge it
/// strictly.
pub fn faults_for(parts: &Parts) -> Vec<&'static str> {
    let mut codes = Vec::new();

    codes.extend_from_slice(of_catch(parts));
    codes.extend_from_slice(of_family(parts));
    codes.extend_from_slice(of_start(parts));
    codes.extend_from_slice(of_platform(parts.family));

    let mut once = Vec::with_capacity(codes.len());
    for code in codes {
        if !once.contains(&code) {
            once.push(code);
        }
    }
    once
}

/// Faults that make it another lift than the one that was entered.
fn of_catch(parts: &Parts) -> &'static [&'static str] {
    match (parts.family, parts.catch) {
        (Family::Snatch | Family::Clean, Catch::Power) => &["caught-too-low"],
        (Family::Snatch | Family::Clean | Family::Jerk, Catch::Full) => {
            &["caught-too-high"]
        }
        (Family::Snatch | Family::Clean | Family::Jerk, Catch::Split) => &["not-split"],
        (Family::Jerk, Catch::Push) => &["not-re-bent", "feet-split"],
        (Family::Snatch, Catch::Press) => &["knees-re-bent"],
        (Family::Press, Catch::Press) if parts.form == Some(Form::Push) => {
            &["knees-re-bent"]
        }
        _ => &[],
    }
}

fn of_family(parts: &Parts) -> &'static [&'static str] {
    match parts.family {
        // The arms of a muscle snatch press by nature.
        Family::Snatch if parts.catch == Catch::Press => &[
            "not-locked-out",
            "lowered-early",
            "paused-in-pull",
            "head-touched",
        ],
        Family::Snatch => &[
            "press-out",
            "not-locked-out",
            "elbows-re-bent",
            "lowered-early",
            "paused-in-pull",
            "paused-in-extension",
            "head-touched",
        ],
        Family::Clean => &[
            "elbow-on-thigh",
            "lowered-early",
            "cleaned-in-two",
            "chest-before-turn",
            "trunk-touched",
        ],
        Family::Jerk => &[
            "press-out",
            "not-locked-out",
            "elbows-re-bent",
            "lowered-early",
            "not-motionless",
            "jerk-not-completed",
            "bar-bounced",
            "paused-in-extension",
        ],
        Family::CleanAndJerk => &[
            "press-out",
            "not-locked-out",
            "elbow-on-thigh",
            "elbows-re-bent",
            "lowered-early",
            "not-motionless",
            "jerk-not-completed",
            "cleaned-in-two",
            "chest-before-turn",
            "trunk-touched",
            "bar-bounced",
            "paused-in-extension",
        ],
        Family::Press => match parts.form {
            Some(Form::Push) => &[
                "not-locked-out",
                "dipped-twice",
                "not-motionless",
                "downward-movement",
                "feet-moved",
                "lowered-early",
            ],
            _ => &[
                "knees-helped",
                "not-locked-out",
                "leaned-back",
                "downward-movement",
                "feet-moved",
                "lowered-early",
            ],
        },
        Family::Squat => match parts.form {
            Some(Form::Box) => &[
                "not-on-box",
                "bounced-off-box",
                "knees-not-locked",
                "downward-movement",
                "feet-moved",
                "signal-ignored",
                "elbows-on-legs",
                "spotter-touched",
                "bar-dumped",
            ],
            Some(Form::Overhead) => &[
                "not-deep-enough",
                "elbows-re-bent",
                "knees-not-locked",
                "double-bounce",
                "downward-movement",
                "feet-moved",
                "signal-ignored",
                "lowered-early",
            ],
            _ => &[
                "not-deep-enough",
                "knees-not-locked",
                "not-upright",
                "double-bounce",
                "downward-movement",
                "feet-moved",
                "signal-ignored",
                "elbows-on-legs",
                "spotter-touched",
                "bar-dumped",
            ],
        },
        Family::Bench => match parts.form {
            Some(Form::CloseGrip) => &[
                "chest-not-touched",
                "grip-too-wide",
                "not-locked-out",
                "downward-movement",
                "bar-heaved",
                "body-moved",
                "feet-moved",
                "signal-ignored",
                "spotter-touched",
                "belt-touched",
                "feet-on-bench",
            ],
            _ => &[
                "chest-not-touched",
                "not-locked-out",
                "downward-movement",
                "bar-heaved",
                "body-moved",
                "feet-moved",
                "signal-ignored",
                "spotter-touched",
                "belt-touched",
                "feet-on-bench",
            ],
        },
        Family::Deadlift => match parts.form {
            // There is no bar in front of the thighs on which to rest it.
            Some(Form::HexBar) => &[
                "knees-not-locked",
                "not-erect",
                "downward-movement",
                "lowered-early",
                "let-drop",
                "feet-moved",
            ],
            _ => &[
                "knees-not-locked",
                "not-erect",
                "downward-movement",
                "thighs-helped",
                "lowered-early",
                "let-drop",
                "feet-moved",
            ],
        },
        Family::Row => match parts.form {
            Some(Form::Prone) => &["bench-not-touched", "body-moved", "lowered-early"],
            _ => &[
                "trunk-not-touched",
                "trunk-rose",
                "knees-helped",
                "feet-moved",
            ],
        },
    }
}

/// Faults of where a pull began.
fn of_start(parts: &Parts) -> &'static [&'static str] {
    match (parts.family, parts.start) {
        (Family::Snatch | Family::Clean | Family::CleanAndJerk, Start::Floor) => {
            &["pulled-from-hang", "pull-not-completed"]
        }
        (Family::Snatch | Family::Clean, Start::Hang) => &["started-from-floor"],
        (
            Family::Snatch | Family::Clean,
            Start::LowHang | Start::MidHang | Start::HighHang,
        ) => &["wrong-height", "started-from-floor"],
        (Family::Snatch | Family::Clean | Family::Deadlift, Start::Blocks) => {
            &["not-off-blocks"]
        }
        _ => &[],
    }
}

/// Faults of the lifts that need a platform to themselves.
fn of_platform(family: Family) -> &'static [&'static str] {
    match family {
        Family::Snatch | Family::Clean | Family::Jerk | Family::CleanAndJerk => &[
            "feet-not-in-line",
            "body-touched-floor",
            "off-platform",
            "dropped-early",
            "bar-off-platform",
            "foot-on-bar",
            "lubricant",
        ],
        Family::Press
        | Family::Squat
        | Family::Bench
        | Family::Deadlift
        | Family::Row => &[],
    }
}
