//! What comes next on a platform.

use super::*;

impl Maker<'_> {
    /// What comes next on some platform.
    pub(super) fn flow(&self, dice: &mut Dice) -> (Word, Command) {
        let most = u8::try_from(self.facts.platforms.len()).unwrap();
        let p = dice.within(1, most);
        let platform = self.facts.platform(p).unwrap();
        let order = queue(self.facts, p);
        let required = self.facts.rules.station_check == Gate::Required;
        if required && platform.checked.is_none() && dice.chance(60) {
            return (Word::Check, self.by_chance(Word::Check, dice));
        }
        let word = if platform.running.is_none() {
            dice.weighed(&[(20, Word::Start), (2, Word::Tally), (1, Word::Call)])
        } else if platform.call.is_some() {
            dice.weighed(&[
                (50, Word::Lights),
                (11, Word::Clock),
                (9, Word::Request),
                (4, Word::Pass),
                (4, Word::Stop),
                (2, Word::Call),
                (1, Word::Start),
                (1, Word::Break),
                (5, Word::Tally),
            ])
        } else if order.is_empty() {
            dice.weighed(&[(10, Word::Start), (1, Word::Call), (2, Word::Tally)])
        } else {
            dice.weighed(&[
                (26, Word::Request),
                (42, Word::Call),
                (9, Word::Lights),
                (13, Word::Tally),
                (3, Word::Pass),
                (2, Word::Stop),
                (1, Word::Clock),
                (2, Word::Start),
            ])
        };
        (word, self.on_platform(word, p, dice))
    }

    pub(super) fn on_platform(&self, word: Word, p: u8, dice: &mut Dice) -> Command {
        let called = self.facts.platform(p).and_then(|p| p.call.as_ref());
        let named = self.platform_word(p, dice);
        match word {
            Word::Start => self.start(p, dice),
            Word::Break => self.pause(p, dice),
            Word::Request => self.request(p, dice),
            Word::Call => self.call(p, dice),
            Word::Clock => Command::Clock {
                platform: named,
                movement: dice.weighed(&[
                    (4, ClockMove::Stop),
                    (4, ClockMove::Resume),
                    (2, ClockMove::Set(42_000)),
                    (1, ClockMove::Set(-5)),
                ]),
            },
            Word::Lights => {
                let blank = called.is_some() && dice.chance(85) || dice.chance(5);
                let (which, load) = if blank {
                    (Which::default(), None)
                } else {
                    self.named_with_load(p, dice)
                };
                Command::Lights {
                    which,
                    load,
                    outcome: self.given(dice, true),
                    platform: named,
                }
            }
            Word::Pass => Command::Pass {
                which: self.called_or_some(p, dice),
                rest: dice.chance(20),
                platform: named,
            },
            Word::Stop => Command::Stop {
                which: self.called_or_some(p, dice),
                stop: dice.weighed(&[
                    (2, StopFor::Technique),
                    (2, StopFor::Pain),
                    (1, StopFor::Director),
                ]),
                reason: String::new(),
                platform: named,
            },
            _ => self.tally(dice),
        }
    }

    pub(super) fn start(&self, p: u8, dice: &mut Dice) -> Command {
        let flights: Vec<_> = self
            .facts
            .flights
            .iter()
            .filter(|f| f.platform == p)
            .collect();
        let flight = dice.pick(&flights).copied();
        let named = dice.chance(90);
        let runs = self.facts.platform(p).and_then(|p| p.running.as_ref());
        let other = self
            .scene
            .slots()
            .into_iter()
            .find(|slot| runs.is_some_and(|r| r.slot.as_str() != *slot));
        let lift = match other {
            _ if dice.chance(3) => "deadlift",
            Some(other) if dice.chance(70) => other,
            _ => self.slot(dice),
        };
        Command::Start {
            platform: if dice.chance(50) { Some(p) } else { None },
            lift: slug(lift),
            session: flight.filter(|_| named).map(|f| f.session.clone()),
            flight: flight.filter(|_| named).map(|f| f.name.clone()),
        }
    }

    pub(super) fn pause(&self, p: u8, dice: &mut Dice) -> Command {
        Command::Break {
            platform: self.platform_word(p, dice),
            minutes: dice.weighed(&[(4, Some(10)), (4, None), (1, Some(0))]),
        }
    }

    pub(super) fn request(&self, p: u8, dice: &mut Dice) -> Command {
        let call = self.facts.platform(p).and_then(|p| p.call.as_ref());
        let order = queue(self.facts, p);
        let owed: Vec<_> = order.iter().filter(|q| q.load.is_none()).collect();
        let key = match call {
            Some(call) if dice.chance(70) => Some(call.entry),
            _ if !owed.is_empty() && dice.chance(60) => dice.pick(&owed).map(|q| q.entry),
            _ => dice.pick(&order).map(|q| q.entry),
        };
        let number = key
            .and_then(|k| self.facts.entries.get(&k))
            .map(|e| e.number);
        let load = match (key, dice.below(10)) {
            (_, 0) => LoadAsked::Relative(self.facts.rules.step),
            (Some(key), 1..=8) => LoadAsked::Exactly(self.above(key, dice)),
            _ => LoadAsked::Exactly(self.load(dice)),
        };
        let known = self.facts.rules.record_step.is_some();
        let record = dice.chance(if known { 25 } else { 8 });
        let load = match load {
            LoadAsked::Exactly(load) if record && dice.chance(60) => {
                let little = self.facts.rules.record_step.unwrap_or(Mass::ZERO);
                let unit = self.facts.bar_unit;
                LoadAsked::Exactly(Weight::computed(load.mass + little, unit))
            }
            load => load,
        };
        Command::Request {
            which: Which {
                number: if dice.chance(92) {
                    number
                } else {
                    Some(self.number(dice))
                },
                lift: if dice.chance(75) {
                    None
                } else {
                    self.lift(dice)
                },
                attempt: dice.chance(4).then(|| dice.within(1, 4)),
            },
            load,
            record,
            platform: match dice.below(20) {
                0 => Some(1),
                1..=9 => Some(p),
                _ => None,
            },
        }
    }

    pub(super) fn call(&self, p: u8, dice: &mut Dice) -> Command {
        let owed = queue(self.facts, p)
            .first()
            .is_some_and(|q| q.load.is_none());
        let (which, load) = if dice.chance(if owed { 20 } else { 65 }) {
            (Which::default(), None)
        } else {
            self.named_with_load(p, dice)
        };
        Command::Call {
            which,
            load,
            platform: self.platform_word(p, dice),
        }
    }

    pub(super) fn tally(&self, dice: &mut Dice) -> Command {
        let number = self.number(dice);
        let lift = if dice.chance(55) {
            Some(slug(self.slot(dice)))
        } else {
            self.lift(dice)
        };
        let next = lift.as_ref().and_then(|lift| {
            let entry = self.facts.entry_by_number(number)?;
            let slot = &self.facts.slot_of(lift.as_str())?.0.slot;
            self.facts.next_attempt(entry.key, slot)
        });
        let attempt = match dice.below(20) {
            0 => Some(dice.within(0, 5)),
            1..=2 => next.map(|n| n + 1),
            3..=5 => next,
            _ => None,
        };
        Command::Tally {
            which: Which {
                number: dice.chance(99).then_some(number),
                lift,
                attempt,
            },
            load: dice.chance(85).then(|| self.load(dice)),
            outcome: self.given(dice, false),
            platform: dice
                .chance(25)
                .then(|| dice.within(1, self.scene.platforms)),
        }
    }
}
