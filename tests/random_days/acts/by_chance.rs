//! Words that come by chance, at any time.

use super::*;

impl Maker<'_> {
    pub(super) fn by_chance(&self, word: Word, dice: &mut Dice) -> Command {
        let reason = if dice.chance(85) { "as seen" } else { "" }.to_owned();
        match word {
            Word::Add => {
                let number = match dice.below(10) {
                    0 => Some(self.number(dice)),
                    1..=4 => Some(100 + u16::from(dice.within(0, 50))),
                    _ => None,
                };
                let flight = dice.within(0, 4);
                let mut new = self.scene.entry(number, flight, dice);
                if dice.chance(10) {
                    new.changes.clear();
                }
                Command::Add(vec![new])
            }
            Word::Edit => self.edit(dice),
            Word::Place => Command::Place(vec![(
                self.number(dice),
                Place {
                    session: dice.chance(8).then(|| "2".to_owned()),
                    flight: dice
                        .chance(85)
                        .then(|| dice.pick(&self.scene.flights()).unwrap().to_string()),
                    platform: dice.chance(25).then(|| dice.within(1, 5)),
                },
            )]),
            Word::Here | Word::Back => {
                let roll = if word == Word::Here {
                    Roll::Here
                } else {
                    Roll::Back
                };
                let gone: Vec<u16> = self
                    .facts
                    .entries_by_number()
                    .filter(|e| matches!(e.presence, Presence::Absent | Presence::Away))
                    .map(|e| e.number)
                    .collect();
                let number = match dice.pick(&gone) {
                    Some(number) if dice.chance(85) => *number,
                    _ => self.number(dice),
                };
                Command::Roll {
                    number,
                    roll,
                    reason: String::new(),
                }
            }
            Word::Absent | Word::Away => Command::Roll {
                number: self.number(dice),
                roll: if word == Word::Absent {
                    Roll::Absent
                } else {
                    Roll::Away
                },
                reason,
            },
            Word::Withdraw => Command::Withdraw {
                number: self.number(dice),
                lift: dice.chance(70).then(|| slug(self.slot(dice))),
                reason,
            },
            Word::Disqualify => Command::Disqualify {
                number: self.number(dice),
                lift: dice.chance(75).then(|| slug(self.slot(dice))),
                reason,
            },
            Word::Record => Command::Book(self.book(dice)),
            Word::Number => Command::Number {
                given: self.start_numbers(dice),
            },
            Word::Weigh => Command::Weigh {
                number: self.number(dice),
                bodyweight: Weight::parse(
                    dice.weighed(&[(5, "63.2kg"), (5, "140lb"), (1, "9kg")]),
                    Unit::Kg,
                )
                .unwrap(),
            },
            Word::Clear => Command::Clear {
                number: self.number(dice),
                lift: if dice.chance(50) {
                    None
                } else {
                    self.lift(dice)
                },
                clearance: match dice.below(10) {
                    0..=3 => Clearance::Yes,
                    4..=5 => Clearance::No,
                    _ => Clearance::UpTo(self.scene.load(dice)),
                },
                until: until(dice),
                who: if dice.chance(85) { "Nurse" } else { "" }.to_owned(),
                why: reason,
            },
            Word::Cap => Command::Cap {
                number: self.number(dice),
                lift: if dice.chance(50) {
                    None
                } else {
                    self.lift(dice)
                },
                load: dice.chance(70).then(|| self.load(dice)),
                who: if dice.chance(85) { "Coach" } else { "" }.to_owned(),
                why: reason,
            },
            Word::Set => self.set(dice),
            Word::Check => Command::Check {
                platform: self.platform_word(dice.within(1, self.scene.platforms), dice),
                who: "Coach".to_owned(),
            },
            Word::Break => self.pause(dice.within(1, self.scene.platforms), dice),
            Word::Close => Command::Close {
                session: dice
                    .weighed(&[(8, Some("1")), (2, Some("2")), (3, None)])
                    .map(str::to_owned),
            },
            Word::Annul => self.annul(dice),
            Word::Note => self.note(dice),
            Word::Undo => Command::Undo(self.line(dice)),
            Word::Redo => self.redo(dice),
            Word::Correct => self.correct(dice),
            _ => self.of_ruled(word, reason, dice),
        }
    }

    pub(super) fn edit(&self, dice: &mut Dice) -> Command {
        let number = self.number(dice);
        let slot = self.slot(dice);
        let change = match dice.below(11) {
            0 => Change::Number(self.number(dice)),
            1 => Change::Number(200 + u16::from(dice.within(0, 30))),
            2..=4 => Change::Slot {
                slot: slug(slot),
                variant: Some(slug(if slot == "clean" { "power-clean" } else { slot })),
                opener: dice.chance(80).then(|| self.scene.load(dice)),
            },
            5 => Change::Slot {
                slot: slug(slot),
                variant: None,
                opener: None,
            },
            6 => Change::Last {
                lift: slug("back-squat"),
                load: Some(self.scene.load(dice)),
            },
            7 => Change::Place {
                session: "1".to_owned(),
                flight: "A".to_owned(),
            },
            8 => Change::Guest(dice.chance(60)),
            _ => Change::Team(format!("Team {}", dice.below(3))),
        };
        let mut changes = vec![change];
        if dice.chance(8) {
            changes.push(Change::Given(String::new()));
            changes.push(Change::Family(String::new()));
        }
        let other = self.facts.entry_by_number(self.number(dice));
        match (self.facts.entry_by_number(number), other) {
            (Some(one), Some(two)) if dice.chance(25) => {
                let flight = dice.pick(&self.scene.flights()).unwrap().to_string();
                let place = Place {
                    flight: dice.chance(50).then_some(flight),
                    ..Place::default()
                };
                Command::EditMany(vec![
                    (one.key, changes.clone(), place.clone()),
                    (two.key, changes, place),
                ])
            }
            _ => Command::Edit { number, changes },
        }
    }

    /// Whether start numbers may still be given: nobody was called yet.
    pub(super) fn numbers_are_open(&self) -> bool {
        let runs = self.facts.runs.values().flat_map(|runs| runs.values());
        self.facts.rules.table_number == TableNumber::Start
            && self.facts.platforms.iter().all(|p| p.call.is_none())
            && !runs
                .flat_map(|run| run.attempts.values())
                .any(|a| a.ruled.is_some())
    }

    /// Old and new numbers; mostly none, that is by session and lot.
    fn start_numbers(&self, dice: &mut Dice) -> Vec<(u16, u16)> {
        let (one, two) = (self.number(dice), self.number(dice));
        match dice.below(10) {
            0 => vec![(one, two)],
            1 if one != two => vec![(one, two), (two, one)],
            2 => vec![(one, 300 + u16::from(dice.within(0, 50)))],
            _ => vec![],
        }
    }

    /// Some records of the lifts at hand; now and then one is struck.
    fn book(&self, dice: &mut Dice) -> Vec<(RecordKey, Option<RecordMark>)> {
        let mut told = Vec::new();
        for _ in 0..dice.within(1, 3) {
            let lift = slug(self.slot(dice));
            let (sex, category, division) = dice.weighed(&[
                (4, (Some(Sex::F), "", "")),
                (2, (None, "", "")),
                (2, (Some(Sex::M), "", "novice")),
                (2, (Some(Sex::F), "63", "")),
                (1, (None, "63", "")),
            ]);
            let mark = dice.chance(80).then(|| RecordMark {
                load: dice.chance(80).then(|| self.load(dice)),
                holder: "Odile Farrow".to_owned(),
                ..RecordMark::default()
            });
            told.push((RecordKey::new(lift, sex, category, division), mark));
        }
        told
    }

    pub(super) fn set(&self, dice: &mut Dice) -> Command {
        if dice.chance(40) {
            let (key, value) = any_rule(self.scene.kind, dice);
            return Command::Set(vec![(key.to_owned(), value)]);
        }
        let (key, value) = dice.weighed(&[
            (1, ("table-number", "lot")),
            (1, ("table-number", "start")),
            (1, ("record-step", "off")),
            (1, ("reps", "multiple")),
            (1, ("reps", "single")),
            (1, ("wrong-catch", "strict")),
            (1, ("wrong-catch", "reclassify")),
            (1, ("challenges", "0")),
            (1, ("challenges", "any")),
            (1, ("jumps", "advice")),
            (1, ("credit", "step")),
            (1, ("no-good", "no-total")),
            (1, ("again", "round-end")),
            (1, ("error-same-no", "repeat again")),
            (1, ("error-same-no", "forgive")),
            (1, ("categories", "F 47 57 +57; M 60 75 +75 lb")),
            (1, ("categories", "F 57 47 +47")),
            (1, ("team-points", "12 9 8...")),
            (1, ("date", "2026-12-02")),
            (4, ("judges", "1")),
            (4, ("judges", "3")),
            (3, ("tie", "bodyweight")),
            (3, ("tie", "shared")),
            (2, ("clock", "on")),
            (1, ("clock", "off")),
            (3, ("posting.name", "number")),
            (3, ("platform.1", "Rack 2")),
            (1, ("platform.9", "Rack 9")),
            (2, ("session.1", "10:05-10:50")),
            (1, ("session.2", "10:05-09:50")),
            (2, ("station-check", "owed")),
            (1, ("station-check", "required")),
            (2, ("clearance", "owed")),
            (1, ("clearance", "required")),
            (2, ("platforms", "4")),
            (1, ("platforms", "1")),
            (2, ("flight.1/A", "1")),
            (2, ("flight.1/A", "2")),
            (1, ("flight.1/Z", "1")),
            (2, ("name", "The other day")),
            (1, ("name", "")),
            (1, ("date", "someday")),
            (1, ("colour", "red")),
        ]);
        Command::Set(vec![(key.to_owned(), value.to_owned())])
    }

    pub(super) fn reopen(&self, dice: &mut Dice) -> Command {
        let shut = self.facts.sessions.iter().find(|(_, s)| s.closed);
        let session = if self.facts.closed {
            None
        } else {
            shut.map(|(name, _)| name.clone())
        };
        Command::Reopen {
            session: if dice.chance(5) {
                Some("9".to_owned())
            } else {
                session
            },
            reason: if dice.chance(90) { "one more" } else { "" }.to_owned(),
        }
    }

    pub(super) fn annul(&self, dice: &mut Dice) -> Command {
        let standing: Vec<u64> = self
            .recent_acts(if dice.chance(80) { 12 } else { 1000 })
            .into_iter()
            .filter(|act| self.day.stands_now(*act) && *act > 1)
            .collect();
        Command::Annul {
            act: match dice.pick(&standing) {
                Some(act) if dice.chance(95) => *act,
                _ => dice.below(100).into(),
            },
            reason: "typed wrongly".to_owned(),
        }
    }

    pub(super) fn note(&self, dice: &mut Dice) -> Command {
        Command::Note {
            number: dice.chance(40).then(|| self.number(dice)),
            act: dice
                .chance(30)
                .then(|| dice.pick(&self.recent_acts(5)).copied().unwrap_or(1)),
            text: if dice.chance(93) { "bar bent" } else { " " }.to_owned(),
            platform: dice
                .chance(50)
                .then(|| dice.within(1, self.scene.platforms)),
        }
    }

    pub(super) fn redo(&self, dice: &mut Dice) -> Command {
        let can: Vec<Line> = self
            .lines()
            .into_iter()
            .filter(|line| self.day.redoable(*line).is_some())
            .collect();
        Command::Redo(match dice.pick(&can) {
            Some(line) if dice.chance(95) => *line,
            _ => self.line(dice),
        })
    }

    pub(super) fn of_ruled(
        &self,
        word: Word,
        reason: String,
        dice: &mut Dice,
    ) -> Command {
        let some = self.some_ruled(dice).filter(|_| dice.chance(93));
        let (which, now) = some.unwrap_or_else(|| {
            let which = Which {
                number: Some(self.number(dice)),
                lift: self.lift(dice),
                attempt: dice.chance(50).then(|| dice.within(1, 3)),
            };
            (which, Ruling::Good)
        });
        match word {
            Word::Extra => Command::Extra {
                which: Which {
                    attempt: None,
                    ..which
                },
                reason,
                platform: None,
            },
            Word::Loaded => Command::Loaded {
                which,
                load: if dice.chance(25) {
                    Weight::parse("62.3", self.scene.unit()).unwrap()
                } else {
                    self.load(dice)
                },
                granted: dice.weighed(&[
                    (2, Granted::Keep),
                    (2, Granted::Repeat),
                    (1, Granted::Again),
                ]),
                platform: None,
            },
            _ => {
                let other = if now == Ruling::Good {
                    Ruling::No
                } else {
                    Ruling::Good
                };
                Command::Rerule {
                    which,
                    outcome: ruling(
                        dice.weighed(&[(12, &other), (1, &Ruling::Pass), (4, &now)])
                            .clone(),
                    ),
                    authority: if word == Word::Overrule {
                        Authority::Overrule
                    } else {
                        Authority::Challenge
                    },
                    reason,
                }
            }
        }
    }

    pub(super) fn correct(&self, dice: &mut Dice) -> Command {
        let of = if dice.chance(60) {
            let some = self.some_ruled(dice);
            CorrectionOf::Attempt {
                which: some.map_or_else(Which::default, |(which, _)| which),
                load: dice.chance(60).then(|| self.load(dice)),
                outcome: dice.chance(60).then(|| self.given(dice, false)),
            }
        } else {
            let acts: Vec<u64> = self
                .day
                .journal()
                .iter()
                .filter(|r| {
                    matches!(
                        r.event,
                        Event::Weighed { .. }
                            | Event::EntryAdded { .. }
                            | Event::EntryEdited { .. }
                            | Event::Requested { .. }
                            | Event::Ruled(_)
                    )
                })
                .map(|r| r.act)
                .collect();
            let (key, value) = dice.weighed(&[
                (4, ("load", "135")),
                (2, ("bodyweight", "64.5")),
                (2, ("team", "Blue")),
                (1, ("lot", "3")),
                (1, ("lot", "301")),
                (1, ("ruling", "no")),
                (1, ("shoes", "red")),
            ]);
            CorrectionOf::Act {
                act: dice.pick(&acts).copied().unwrap_or(1),
                values: vec![(key.to_owned(), value.to_owned())],
            }
        };
        Command::Correct {
            of,
            reason: "card misread".to_owned(),
        }
    }
}
