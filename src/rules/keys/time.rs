//! Clocks, breaks and times of the day.

use super::super::words::{
    Word, number, optional, put, round_rest, show_optional, show_round_rest,
};
use super::Key;

pub(super) static KEYS: &[Key] = &[
    key!(
        "clock",
        "off, or seconds from 1 to 600",
        "The clock of an attempt.",
        |r| show_optional(r.clock),
        |r, w| {
            if w.eq_ignore_ascii_case("on") {
                r.clock = r.clock.or(Some(60));
                true
            } else {
                optional(&mut r.clock, w, 600)
            }
        }
    ),
    key!(
        "clock-following",
        "off, or seconds from 1 to 600",
        "The clock of an athlete who follows himself or herself.",
        |r| show_optional(r.clock_following),
        |r, w| optional(&mut r.clock_following, w, 600)
    ),
    key!(
        "following-ends",
        "call, ruling",
        "What ends the right to the long clock: a call of somebody else in between, or only a ruling.",
        |r| r.following_ends.word().into(),
        |r, w| put(&mut r.following_ends, w)
    ),
    key!(
        "final-call",
        "off, or seconds from 1 to 600",
        "Declarations and changes of the called athlete close so many seconds before the clock's end.",
        |r| show_optional(r.final_call),
        |r, w| optional(&mut r.final_call, w, 600)
    ),
    key!(
        "declare-within",
        "off, or seconds from 1 to 600",
        "On the long clock the declaration must come in so many first seconds.",
        |r| show_optional(r.declare_within),
        |r, w| optional(&mut r.declare_within, w, 600)
    ),
    key!(
        "change-clock",
        "stop, run",
        "What a change of the called athlete's load does to a running clock.",
        |r| r.change_clock.word().into(),
        |r, w| put(&mut r.change_clock, w)
    ),
    key!(
        "pace",
        "seconds from 0 to 3600",
        "Seconds that an attempt takes, for forecasts.",
        |r| r.pace.to_string(),
        |r, w| number(&mut r.pace, w, 3600)
    ),
    key!(
        "rest",
        "seconds from 0 to 3600",
        "Seconds of rest advised between two attempts of one athlete.",
        |r| r.rest.to_string(),
        |r, w| number(&mut r.rest, w, 3600)
    ),
    key!(
        "break",
        "minutes from 0 to 240",
        "Minutes of the break between two slots.",
        |r| r.break_minutes.to_string(),
        |r, w| number(&mut r.break_minutes, w, 240)
    ),
    key!(
        "round-rest",
        "none, or athletes:seconds such as 3:180 4:120 5:60",
        "Rest at the end of a round for flights of at most so many athletes.",
        |r| show_round_rest(&r.round_rest),
        |r, w| round_rest(&mut r.round_rest, w)
    ),
    key!(
        "weigh-in-opens",
        "off, or minutes from 1 to 240",
        "Minutes before a session's planned start at which weigh-in opens.",
        |r| show_optional(r.weigh_in_opens),
        |r, w| optional(&mut r.weigh_in_opens, w, 240)
    ),
    key!(
        "weigh-in-lasts",
        "off, or minutes from 1 to 240",
        "Minutes that weigh-in lasts.",
        |r| show_optional(r.weigh_in_lasts),
        |r, w| optional(&mut r.weigh_in_lasts, w, 240)
    ),
    key!(
        "introduction",
        "off, or minutes from 1 to 240",
        "Minutes before the planned start at which athletes are introduced.",
        |r| show_optional(r.introduction),
        |r, w| optional(&mut r.introduction, w, 240)
    ),
    key!(
        "countdown",
        "off, or minutes from 1 to 240",
        "Minutes of the countdown before the first call.",
        |r| show_optional(r.countdown),
        |r, w| optional(&mut r.countdown, w, 240)
    ),
    key!(
        "flight-most",
        "off, or athletes from 1 to 200",
        "The largest advised flight.",
        |r| show_optional(r.flight_most),
        |r, w| optional(&mut r.flight_most, w, 200)
    ),
];
