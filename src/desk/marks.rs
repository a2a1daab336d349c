//! The clock's marks as the desk tells them: a tone beside what the table
//! shows.

use std::collections::BTreeMap;

use super::action::Action;
use super::action::key_words;
use super::app::Desk;
use super::sound::Sound;
use crate::day::{Clock, Facts, Stamp};
use crate::sheets::{ClockMark, mark_between};

/// What the clocks said when they were looked at last.
#[derive(Debug)]
pub struct Marks {
    sound: Sound,
    /// Milliseconds left by platform, of clocks that run.
    left: BTreeMap<u8, i64>,
}

impl Marks {
    /// Nothing was looked at yet; `real` where tones may be made.
    pub fn new(real: bool) -> Self {
        Self {
            sound: Sound::new(real),
            left: BTreeMap::new(),
        }
    }

    /// The marks that were sounded, where no tones are made.
    pub fn sounded(&self) -> &[ClockMark] {
        self.sound.sounded()
    }

    /// Looks at all clocks, and sounds what they passed.
    fn look(&mut self, facts: &Facts, now: Stamp) {
        let mut left = BTreeMap::new();
        let mut passed = None;
        for (number, platform) in (1_u8..).zip(&facts.platforms) {
            let clock = platform.call.as_ref().and_then(|call| call.clock);
            let Some(clock) = clock.filter(Clock::runs) else {
                continue;
            };
            let reads = clock.left_at(now);
            if let Some(before) = self.left.get(&number) {
                passed = passed.max(mark_between(&facts.rules, *before, reads));
            }
            let _ = left.insert(number, reads);
        }
        self.left = left;
        if let Some(mark) = passed {
            self.sound.play(mark);
        }
    }
}

impl Desk {
    /// The clock's marks, with what was sounded.
    pub const fn marks(&self) -> &Marks {
        &self.marks
    }

    pub(super) fn sound_marks(&mut self) {
        let now = self.effects.now();
        self.marks.look(self.effects.facts(), now);
    }

    /// Tones on or off; where they are on, one is made at once to be heard.
    pub(super) fn turn_sound(&mut self) {
        self.marks.sound.turn();
        let key = key_words(Action::Sound);
        let sentence = if self.marks.sound.is_on() {
            self.marks.sound.play(ClockMark::FinalCall);
            format!(
                "Tones at the final call and at the end of the clock are on, where this \
                 computer can make them; one was just tried. {key} turns them off."
            )
        } else {
            format!("Tones are off; the table shows the final call. {key} turns them on.")
        };
        self.say(Ok(sentence));
    }
}
