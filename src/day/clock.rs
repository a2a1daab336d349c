//! The attempt clock, as facts: it is computed, never counted down.

use super::Stamp;

/// A clock: what is left at a moment, and whether it runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clock {
    /// Its whole length, in milliseconds.
    pub allowance: i64,
    /// What was left at `anchor`, in milliseconds.
    pub left: i64,
    /// When it began to run on from `left`; `None` while it stands.
    pub anchor: Option<Stamp>,
}

impl Clock {
    /// A clock of `seconds` that starts at `at`.
    pub fn started(seconds: u32, at: Stamp) -> Self {
        let allowance = i64::from(seconds) * 1000;
        Self {
            allowance,
            left: allowance,
            anchor: Some(at),
        }
    }

    /// What is left at `now`, in milliseconds, never below 0.
    pub fn left_at(&self, now: Stamp) -> i64 {
        match self.anchor {
            Some(anchor) => (self.left - now.since(anchor).max(0)).max(0),
            None => self.left,
        }
    }

    /// Whether it runs.
    pub const fn runs(&self) -> bool {
        self.anchor.is_some()
    }

    /// Stops where it stands at `now`.
    pub fn stop(&mut self, now: Stamp) {
        self.left = self.left_at(now);
        self.anchor = None;
    }

    /// Goes on at `now`.
    pub fn resume(&mut self, now: Stamp) {
        if self.anchor.is_none() {
            self.anchor = Some(now);
        }
    }

    /// Sets what is left; runs on if it ran.
    pub fn set(&mut self, left: i64, now: Stamp) {
        self.left = left.max(0);
        if self.anchor.is_some() {
            self.anchor = Some(now);
        }
    }
}

/// `0:42` for what is left, in milliseconds, rounded up to the second.
pub fn show_left(ms: i64) -> String {
    let seconds = (ms.max(0) + 999) / 1000;
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(ms: i64) -> Stamp {
        Stamp {
            ms,
            offset: 0,
            loose: false,
        }
    }

    #[test]
    fn stops_and_goes_on_from_where_it_stood() {
        let mut clock = Clock::started(60, at(0));
        assert_eq!(clock.left_at(at(18_000)), 42_000);
        clock.stop(at(18_000));
        assert_eq!(clock.left_at(at(90_000)), 42_000);
        clock.resume(at(100_000));
        assert_eq!(clock.left_at(at(110_000)), 32_000);
        assert_eq!(show_left(clock.left_at(at(110_001))), "0:32");
        assert_eq!(clock.left_at(at(999_000)), 0);
    }
}
