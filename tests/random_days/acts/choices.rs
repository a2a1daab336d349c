//! Parts of a command: who, which lift, which load, which act.

use super::*;

impl Maker<'_> {
    /// The platform as it is named: sometimes not, sometimes wrongly.
    pub(super) fn platform_word(&self, p: u8, dice: &mut Dice) -> Option<u8> {
        match dice.below(100) {
            0 => Some(9),
            1..=3 => None,
            4 => Some(1),
            _ => Some(p),
        }
    }

    pub(super) fn slot(&self, dice: &mut Dice) -> &'static str {
        dice.pick(&self.scene.slots()).copied().unwrap()
    }

    /// A lift as it may be named: slot, variant, or one that isn't there.
    pub(super) fn lift(&self, dice: &mut Dice) -> Option<Slug> {
        match dice.below(100) {
            0..=49 => Some(slug(self.slot(dice))),
            50..=59 => Some(slug(match self.scene.kind {
                Kind::MaxDay => dice.pick(&["power-clean", "hang-power-clean"]).unwrap(),
                Kind::Weightlifting => "snatch",
                Kind::Powerlifting => "back-squat",
            })),
            60 => Some(slug("deadlift")),
            _ => None,
        }
    }

    pub(super) fn number(&self, dice: &mut Dice) -> u16 {
        let numbers: Vec<u16> = self.facts.numbers.keys().copied().collect();
        if dice.chance(2) {
            return 77;
        }
        dice.pick(&numbers).copied().unwrap_or(1)
    }

    /// A load: mostly one of the few, sometimes one that can't be.
    pub(super) fn load(&self, dice: &mut Dice) -> Weight {
        let unit = self.scene.unit();
        let odd = |text| Weight::parse(text, unit).unwrap();
        match dice.below(100) {
            0..=1 => odd("62.3"),
            2 => odd("2000"),
            3 => odd("20"),
            _ => self.scene.load(dice),
        }
    }

    /// Who would be next, or anybody.
    pub(super) fn called_or_some(&self, p: u8, dice: &mut Dice) -> Which {
        let called = self.facts.platform(p).is_some_and(|p| p.call.is_some());
        if called && dice.chance(70) {
            return Which::default();
        }
        Which {
            number: dice.chance(96).then(|| self.number(dice)),
            lift: self.lift(dice),
            attempt: dice.chance(8).then(|| dice.within(0, 5)),
        }
    }

    /// Somebody of the queue with the load that stands.
    pub(super) fn named_with_load(
        &self,
        p: u8,
        dice: &mut Dice,
    ) -> (Which, Option<Weight>) {
        let order = queue(self.facts, p);
        let queued = if dice.chance(60) {
            order.first()
        } else {
            dice.pick(&order)
        };
        let Some(queued) = queued else {
            return (self.called_or_some(p, dice), None);
        };
        let which = Which {
            number: Some(if dice.chance(5) {
                self.number(dice)
            } else {
                queued.number
            }),
            lift: dice.chance(40).then(|| queued.slot.clone()),
            attempt: match dice.below(10) {
                0 => Some(dice.within(1, 4)),
                1..=3 => Some(queued.attempt),
                _ => None,
            },
        };
        let load = match &queued.load {
            Some(load) if dice.chance(90) => dice.chance(60).then(|| load.clone()),
            Some(_) => Some(self.load(dice)),
            None => dice.chance(85).then(|| self.above(queued.entry, dice)),
        };
        (which, load)
    }

    /// A load that the entry could ask for in what runs.
    pub(super) fn above(&self, key: EntryKey, dice: &mut Dice) -> Weight {
        let Some(entry) = self.facts.entries.get(&key) else {
            return self.load(dice);
        };
        let slot = self
            .running_slot(entry)
            .unwrap_or_else(|| slug(self.slot(dice)));
        let Some(attempt) = self.facts.next_attempt(key, &slot) else {
            return self.load(dice);
        };
        let least = limits(self.facts, entry, &slot, attempt).least;
        let load = self.load(dice);
        match least {
            Some(least) if load.mass < least && dice.chance(85) => Weight::computed(
                least.ceil_to(self.facts.rules.step),
                self.facts.bar_unit,
            ),
            _ => load,
        }
    }

    pub(super) fn running_slot(&self, entry: &Entry) -> Option<Slug> {
        let running = self
            .facts
            .platforms
            .iter()
            .filter_map(|p| p.running.as_ref());
        let mut own = running.filter(|r| r.flight == entry.flight);
        own.next().map(|r| r.slot.clone())
    }

    /// An outcome, sometimes of several repetitions or of another variant.
    pub(super) fn given(&self, dice: &mut Dice, live: bool) -> Outcome {
        let mut outcome = self.ruled_or_lights(dice, live);
        let (reps, caught) = match self.scene.kind {
            Kind::MaxDay if self.facts.rules.wrong_catch == WrongCatch::Reclassify => {
                (8, 30)
            }
            Kind::MaxDay => (8, 4),
            Kind::Weightlifting | Kind::Powerlifting => (1, 0),
        };
        outcome.reps = dice.chance(reps).then(|| dice.within(1, 6));
        let variant = if dice.chance(50) {
            "power-clean"
        } else {
            "hang-power-clean"
        };
        outcome.caught = dice.chance(caught).then(|| slug(variant));
        outcome
    }

    /// Lights or words, as many as there are judges.
    fn ruled_or_lights(&self, dice: &mut Dice, live: bool) -> Outcome {
        let judges = self.facts.rules.judges;
        if dice.chance(2) {
            return Outcome::default();
        }
        if !live && dice.chance(60) || dice.chance(8) {
            return ruling(dice.weighed(&[
                (40, Ruling::Good),
                (20, Ruling::No),
                (8, Ruling::Pass),
                (8, Ruling::Time),
                (1, Ruling::Stopped),
            ]));
        }
        let n = if dice.chance(3) { 2 } else { judges };
        let mut outcome = lights("");
        for _ in 0..n {
            outcome.lights.push(if dice.chance(62) {
                Light::White
            } else {
                Light::Red
            });
        }
        if dice.chance(12) {
            outcome.faults.push(FaultGiven {
                judge: None,
                code: dice
                    .weighed(&[(5, "press-out"), (5, "not-deep-enough"), (1, "sneezed")])
                    .to_owned(),
            });
        }
        outcome
    }

    /// Acts of the last few, newest first, that aren't undos.
    pub(super) fn recent_acts(&self, n: usize) -> Vec<u64> {
        let mut acts: Vec<u64> = self
            .day
            .journal()
            .iter()
            .rev()
            .filter(|r| !matches!(r.event, Event::Undone { .. } | Event::Redone { .. }))
            .map(|r| r.act)
            .collect();
        acts.dedup();
        acts.truncate(n);
        acts
    }

    pub(super) fn lines(&self) -> Vec<Line> {
        let mut lines = vec![Line::Roster, Line::Scale, Line::Flights, Line::Day];
        let most = u8::try_from(self.facts.platforms.len()).unwrap();
        lines.extend((1..=most).map(Line::Platform));
        lines
    }

    pub(super) fn line(&self, dice: &mut Dice) -> Line {
        let newest = self
            .recent_acts(1)
            .first()
            .map(|act| self.day.line_of(*act));
        match newest {
            Some(line) if dice.chance(45) => line,
            _ if dice.chance(2) => Line::Platform(9),
            _ if dice.chance(60) => Line::Platform(dice.within(1, self.scene.platforms)),
            _ => *dice.pick(&self.lines()).unwrap(),
        }
    }

    /// A ruled attempt, if there is any.
    pub(super) fn some_ruled(&self, dice: &mut Dice) -> Option<(Which, Ruling)> {
        let mut all = Vec::new();
        for entry in self.facts.entries_by_number() {
            for (slot, run) in self.facts.runs.get(&entry.key).into_iter().flatten() {
                for (n, attempt) in &run.attempts {
                    if let Some(ruled) = &attempt.ruled {
                        let which = Which {
                            number: Some(entry.number),
                            lift: Some(slot.clone()),
                            attempt: Some(*n),
                        };
                        all.push((which, ruled.fact.ruling.clone()));
                    }
                }
            }
        }
        dice.pick(&all).cloned()
    }
}
