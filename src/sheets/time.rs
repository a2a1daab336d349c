//! When something is likely to happen, in words: calls, and whether a session
//! ends before its bell.

use crate::day::pace::{Expected, session_end};
use crate::day::{Facts, Stamp};

/// Further from its bell than this, in milliseconds, nothing is said of it:
/// the day is then looked at on another one, or long before it.
const FAR: i64 = 6 * 3_600_000;

/// A minute in milliseconds.
const MINUTE: i64 = 60_000;

/// The full minute that is nearest to a stamp.
#[must_use]
pub fn to_minute(at: Stamp) -> Stamp {
    Stamp {
        ms: (at.ms + MINUTE / 2).div_euclid(MINUTE) * MINUTE,
        ..at
    }
}

/// When, and how far off that may be: `10:24, give or take 3 min`; the time
/// alone where nothing lies between now and then.
pub fn expected_words(expected: &Expected) -> String {
    let at = to_minute(expected.at).clock_time();
    match up(expected.give_or_take) {
        0 => at,
        off => format!("{at}, give or take {off} min"),
    }
}

/// Whether a session ends on a platform before its bell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InTime {
    /// As far as can be told.
    Yes,
    /// The bell lies within the give-or-take.
    Doubtful,
    /// Not at this pace.
    No,
}

/// What is left of a session on a platform.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ending {
    /// The session.
    pub session: String,
    /// How many attempts are left, in all lifts of the programme.
    pub attempts: u32,
    /// Milliseconds that they are likely to take, breaks included.
    pub takes: i64,
    /// When they are likely to be done.
    pub done: Expected,
    /// Milliseconds to the planned end (below 0 where it is past), if one is
    /// planned within some hours.
    pub bell: Option<i64>,
}

/// What is left of a platform's session: the one that runs, else the first
/// with a flight there that isn't closed and has attempts left. `None` where
/// there is none.
pub fn ending(facts: &Facts, platform: u8, now: Stamp) -> Option<Ending> {
    let running = facts.platform(platform)?.running.as_ref();
    let runs = running.map(|r| &r.session).into_iter();
    let (session, attempts, done) =
        runs.chain(facts.sessions.keys()).find_map(|name| {
            let open = facts.sessions.get(name).is_some_and(|s| !s.closed);
            let end = session_end(facts, platform, name, now).filter(|_| open);
            let (attempts, done) = end.filter(|(attempts, _)| *attempts > 0)?;
            Some((name, attempts, done))
        })?;
    Some(Ending {
        session: session.clone(),
        attempts,
        takes: done.at.since(now),
        done,
        bell: bell(facts, session, now).filter(|left| left.abs() <= FAR),
    })
}

/// Milliseconds to a session's planned end, on the day's date.
fn bell(facts: &Facts, session: &str, now: Stamp) -> Option<i64> {
    let end = facts.sessions.get(session)?.end?;
    let text = end.format("%H:%M").to_string();
    let end = Stamp::parse(&text, facts.date, now.offset)?;
    Some(end.since(now))
}

impl Ending {
    /// Whether it ends before its bell; `None` where no end is planned.
    pub fn in_time(&self) -> Option<InTime> {
        let left = self.bell?;
        let off = self.done.give_or_take;
        Some(if self.takes + off <= left {
            InTime::Yes
        } else if self.takes - off <= left {
            InTime::Doubtful
        } else {
            InTime::No
        })
    }

    /// What is left, in words without a full stop: `9 attempts, about 11 min,
    /// bell in 8: won't end in time`.
    pub fn words(&self) -> String {
        let s = if self.attempts == 1 { "" } else { "s" };
        format!("{} attempt{s}, {}", self.attempts, self.time_words())
    }

    /// The same without the attempts: `about 11 min, bell in 8: won't end in
    /// time`.
    pub fn time_words(&self) -> String {
        let mut words = format!("about {}", long(self.takes));
        if let Some(bell) = self.bell {
            words.push_str(&match bell {
                0..3_600_000 => format!(", bell in {}", bell / MINUTE),
                3_600_000.. => format!(", bell in {}", long(bell)),
                past => format!(", bell {} ago", long(-past)),
            });
        }
        match self.in_time() {
            Some(InTime::No) => words.push_str(": won't end in time"),
            Some(InTime::Doubtful) => words.push_str(": may not end in time"),
            Some(InTime::Yes) | None => {}
        }
        words
    }
}

/// Whole minutes, rounded up.
fn up(ms: i64) -> i64 {
    (ms.max(0) + MINUTE - 1) / MINUTE
}

/// `11 min`, or `1 h 05 min`.
fn long(ms: i64) -> String {
    let minutes = up(ms);
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, minutes) => format!("{hours} h {minutes:02} min"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const AT: i64 = 1_795_256_640_000;

    fn stamp(ms: i64) -> Stamp {
        Stamp {
            ms: AT + ms,
            offset: -360,
            loose: false,
        }
    }

    fn left(attempts: u32, minutes: i64, off: i64, bell: Option<i64>) -> Ending {
        Ending {
            session: "2".into(),
            attempts,
            takes: minutes * MINUTE,
            done: Expected {
                at: stamp(minutes * MINUTE),
                give_or_take: off * MINUTE,
            },
            bell: bell.map(|b| b * MINUTE),
        }
    }

    #[test]
    fn times_are_told_to_the_minute() {
        let at = |ms, off| {
            let (at, give_or_take) = (stamp(ms), off);
            expected_words(&Expected { at, give_or_take })
        };
        assert_eq!(at(0, 0), "04:24");
        assert_eq!(at(29_999, 0), "04:24");
        assert_eq!(at(30_000, 1), "04:25, give or take 1 min");
        assert_eq!(at(90_000, 150_000), "04:26, give or take 3 min");
    }

    #[test]
    fn a_session_that_ends_too_late_is_marked_in_words() {
        assert_eq!(left(9, 11, 2, None).words(), "9 attempts, about 11 min");
        let words = |minutes, off, bell| left(9, minutes, off, Some(bell)).words();
        assert_eq!(words(6, 2, 8), "9 attempts, about 6 min, bell in 8");
        assert_eq!(
            words(7, 2, 8),
            "9 attempts, about 7 min, bell in 8: may not end in time"
        );
        assert_eq!(
            words(11, 2, 8),
            "9 attempts, about 11 min, bell in 8: won't end in time"
        );
        assert_eq!(
            words(65, 2, -3),
            "9 attempts, about 1 h 05 min, bell 3 min ago: won't end in time"
        );
        assert_eq!(
            left(1, 2, 1, Some(95)).words(),
            "1 attempt, about 2 min, bell in 1 h 35 min"
        );
    }
}
