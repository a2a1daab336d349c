//! The next act of a random day: mostly what a table would do, sometimes not.

use maxday::day::{
    Authority, ClockMove, Command, CorrectionOf, Day, Event, Facts, FaultGiven, Granted,
    Light, Line, LoadAsked, Outcome, Place, Roll, Ruling, StopFor, Which, limits, queue,
};
use maxday::lift::Slug;
use maxday::measure::{Unit, Weight};
use maxday::roster::{Change, Clearance, Entry, EntryKey, Presence};

use crate::dice::Dice;
use crate::scene::Scene;
use crate::support::{lights, ruling, slug};
use crate::tally::Word;

/// Words of the table that come by chance; all others come with the flow.
const BY_CHANCE: [(u32, Word); 24] = [
    (10, Word::Add),
    (12, Word::Edit),
    (11, Word::Place),
    (14, Word::Here),
    (10, Word::Absent),
    (10, Word::Away),
    (20, Word::Back),
    (10, Word::Withdraw),
    (10, Word::Weigh),
    (13, Word::Clear),
    (13, Word::Cap),
    (16, Word::Set),
    (10, Word::Check),
    (14, Word::Break),
    (15, Word::Close),
    (13, Word::Extra),
    (16, Word::Loaded),
    (18, Word::Overrule),
    (18, Word::Challenge),
    (22, Word::Correct),
    (16, Word::Annul),
    (10, Word::Note),
    (30, Word::Undo),
    (20, Word::Redo),
];

/// The next act.
pub fn next(day: &Day, scene: &Scene, dice: &mut Dice) -> (Word, Command) {
    let maker = Maker {
        day,
        facts: day.facts(),
        scene,
    };
    let can_redo = maker.lines().into_iter().any(|l| day.redoable(l).is_some());
    if can_redo && dice.chance(20) {
        return (Word::Redo, maker.redo(dice));
    }
    let closed =
        maker.facts.closed || maker.facts.sessions.values().any(|session| session.closed);
    if dice.chance(if closed { 35 } else { 1 }) {
        return (Word::Reopen, maker.reopen(dice));
    }
    if dice.chance(58) {
        maker.flow(dice)
    } else {
        let word = dice.weighed(&BY_CHANCE);
        (word, maker.by_chance(word, dice))
    }
}

struct Maker<'a> {
    day: &'a Day,
    facts: &'a Facts,
    scene: &'a Scene,
}

impl Maker<'_> {
    /// What comes next on some platform.
    fn flow(&self, dice: &mut Dice) -> (Word, Command) {
        let most = u8::try_from(self.facts.platforms.len()).unwrap();
        let p = dice.within(1, most);
        let platform = self.facts.platform(p).unwrap();
        let order = queue(self.facts, p);
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

    fn on_platform(&self, word: Word, p: u8, dice: &mut Dice) -> Command {
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

    /// The platform as it is named: sometimes not, sometimes wrongly.
    fn platform_word(&self, p: u8, dice: &mut Dice) -> Option<u8> {
        match dice.below(100) {
            0 => Some(9),
            1..=3 => None,
            4 => Some(1),
            _ => Some(p),
        }
    }

    fn start(&self, p: u8, dice: &mut Dice) -> Command {
        let flights: Vec<_> = self.facts.flights.iter().filter(|f| f.platform == p).collect();
        let flight = dice.pick(&flights).copied();
        let named = dice.chance(90);
        let lift = if dice.chance(3) { "deadlift" } else { self.slot(dice) };
        Command::Start {
            platform: if dice.chance(50) { Some(p) } else { None },
            lift: slug(lift),
            session: flight.filter(|_| named).map(|f| f.session.clone()),
            flight: flight.filter(|_| named).map(|f| f.name.clone()),
        }
    }

    fn pause(&self, p: u8, dice: &mut Dice) -> Command {
        Command::Break {
            platform: self.platform_word(p, dice),
            minutes: dice.weighed(&[(4, Some(10)), (4, None), (1, Some(0))]),
        }
    }

    fn slot(&self, dice: &mut Dice) -> &'static str {
        dice.pick(&self.scene.slots()).copied().unwrap()
    }

    /// A lift as it may be named: slot, variant, or one that isn't there.
    fn lift(&self, dice: &mut Dice) -> Option<Slug> {
        match dice.below(100) {
            0..=49 => Some(slug(self.slot(dice))),
            50..=54 => Some(slug(if self.scene.sport { "snatch" } else { "power-clean" })),
            55 => Some(slug("deadlift")),
            _ => None,
        }
    }

    fn number(&self, dice: &mut Dice) -> u16 {
        let numbers: Vec<u16> = self.facts.numbers.keys().copied().collect();
        if dice.chance(2) {
            return 77;
        }
        dice.pick(&numbers).copied().unwrap_or(1)
    }

    /// A load: mostly one of the few, sometimes one that can't be.
    fn load(&self, dice: &mut Dice) -> Weight {
        let unit = if self.scene.sport { Unit::Kg } else { Unit::Lb };
        let odd = |text| Weight::parse(text, unit).unwrap();
        match dice.below(100) {
            0..=1 => odd("62.3"),
            2 => odd("2000"),
            3 => odd("20"),
            _ => self.scene.load(dice),
        }
    }

    /// Who would be next, or anybody.
    fn called_or_some(&self, p: u8, dice: &mut Dice) -> Which {
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
    fn named_with_load(&self, p: u8, dice: &mut Dice) -> (Which, Option<Weight>) {
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
    fn above(&self, key: EntryKey, dice: &mut Dice) -> Weight {
        let Some(entry) = self.facts.entries.get(&key) else {
            return self.load(dice);
        };
        let slot = self.running_slot(entry).unwrap_or_else(|| slug(self.slot(dice)));
        let Some(attempt) = self.facts.next_attempt(key, &slot) else {
            return self.load(dice);
        };
        let least = limits(self.facts, entry, &slot, attempt).least;
        let load = self.load(dice);
        match least {
            Some(least) if load.mass < least && dice.chance(85) => {
                Weight::computed(least.ceil_to(self.facts.rules.step), self.facts.bar_unit)
            }
            _ => load,
        }
    }

    fn running_slot(&self, entry: &Entry) -> Option<Slug> {
        let running = self.facts.platforms.iter().filter_map(|p| p.running.as_ref());
        let mut own = running.filter(|r| r.flight == entry.flight);
        own.next().map(|r| r.slot.clone())
    }

    fn request(&self, p: u8, dice: &mut Dice) -> Command {
        let call = self.facts.platform(p).and_then(|p| p.call.as_ref());
        let order = queue(self.facts, p);
        let owed: Vec<_> = order.iter().filter(|q| q.load.is_none()).collect();
        let key = match call {
            Some(call) if dice.chance(70) => Some(call.entry),
            _ if !owed.is_empty() && dice.chance(60) => dice.pick(&owed).map(|q| q.entry),
            _ => dice.pick(&order).map(|q| q.entry),
        };
        let number = key.and_then(|k| self.facts.entries.get(&k)).map(|e| e.number);
        let load = match (key, dice.below(10)) {
            (_, 0) => LoadAsked::Relative(self.facts.rules.step),
            (Some(key), 1..=8) => LoadAsked::Exactly(self.above(key, dice)),
            _ => LoadAsked::Exactly(self.load(dice)),
        };
        Command::Request {
            which: Which {
                number: if dice.chance(92) {
                    number
                } else {
                    Some(self.number(dice))
                },
                lift: if dice.chance(75) { None } else { self.lift(dice) },
                attempt: dice.chance(4).then(|| dice.within(1, 4)),
            },
            load,
            platform: match dice.below(20) {
                0 => Some(1),
                1..=9 => Some(p),
                _ => None,
            },
        }
    }

    fn call(&self, p: u8, dice: &mut Dice) -> Command {
        let owed = queue(self.facts, p).first().is_some_and(|q| q.load.is_none());
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

    /// Lights or words, as many as there are judges.
    fn given(&self, dice: &mut Dice, live: bool) -> Outcome {
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
                code: dice.weighed(&[
                    (5, "press-out"),
                    (5, "not-deep-enough"),
                    (1, "sneezed"),
                ])
                .to_owned(),
            });
        }
        outcome
    }

    fn tally(&self, dice: &mut Dice) -> Command {
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
            platform: dice.chance(25).then(|| dice.within(1, self.scene.platforms)),
        }
    }

    fn by_chance(&self, word: Word, dice: &mut Dice) -> Command {
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
                let roll = if word == Word::Here { Roll::Here } else { Roll::Back };
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
                roll: if word == Word::Absent { Roll::Absent } else { Roll::Away },
                reason,
            },
            Word::Withdraw => Command::Withdraw {
                number: self.number(dice),
                lift: dice.chance(70).then(|| slug(self.slot(dice))),
                reason,
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
                lift: if dice.chance(50) { None } else { self.lift(dice) },
                clearance: match dice.below(10) {
                    0..=3 => Clearance::Yes,
                    4..=5 => Clearance::No,
                    _ => Clearance::UpTo(self.scene.load(dice)),
                },
                who: if dice.chance(85) { "Nurse" } else { "" }.to_owned(),
                why: reason,
            },
            Word::Cap => Command::Cap {
                number: self.number(dice),
                lift: if dice.chance(50) { None } else { self.lift(dice) },
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
                session: dice.weighed(&[(8, Some("1")), (2, Some("2")), (3, None)])
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

    fn edit(&self, dice: &mut Dice) -> Command {
        let number = self.number(dice);
        let slot = self.slot(dice);
        let change = match dice.below(10) {
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
            _ => Change::Team(format!("Team {}", dice.below(3))),
        };
        let mut changes = vec![change];
        if dice.chance(8) {
            changes.push(Change::Given(String::new()));
            changes.push(Change::Family(String::new()));
        }
        Command::Edit { number, changes }
    }

    fn set(&self, dice: &mut Dice) -> Command {
        let (key, value) = dice.weighed(&[
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

    fn reopen(&self, dice: &mut Dice) -> Command {
        let shut = self.facts.sessions.iter().find(|(_, s)| s.closed);
        let session = if self.facts.closed {
            None
        } else {
            shut.map(|(name, _)| name.clone())
        };
        Command::Reopen {
            session: if dice.chance(5) { Some("9".to_owned()) } else { session },
            reason: if dice.chance(90) { "one more" } else { "" }.to_owned(),
        }
    }

    /// Acts of the last few, newest first, that aren't undos.
    fn recent_acts(&self, n: usize) -> Vec<u64> {
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

    fn annul(&self, dice: &mut Dice) -> Command {
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

    fn note(&self, dice: &mut Dice) -> Command {
        Command::Note {
            number: dice.chance(40).then(|| self.number(dice)),
            act: dice
                .chance(30)
                .then(|| dice.pick(&self.recent_acts(5)).copied().unwrap_or(1)),
            text: if dice.chance(93) { "bar bent" } else { " " }.to_owned(),
            platform: dice.chance(50).then(|| dice.within(1, self.scene.platforms)),
        }
    }

    fn lines(&self) -> Vec<Line> {
        let mut lines = vec![Line::Roster, Line::Scale, Line::Flights, Line::Day];
        let most = u8::try_from(self.facts.platforms.len()).unwrap();
        lines.extend((1..=most).map(Line::Platform));
        lines
    }

    fn line(&self, dice: &mut Dice) -> Line {
        let newest = self.recent_acts(1).first().map(|act| self.day.line_of(*act));
        match newest {
            Some(line) if dice.chance(45) => line,
            _ if dice.chance(2) => Line::Platform(9),
            _ if dice.chance(60) => Line::Platform(dice.within(1, self.scene.platforms)),
            _ => *dice.pick(&self.lines()).unwrap(),
        }
    }

    fn redo(&self, dice: &mut Dice) -> Command {
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

    /// A ruled attempt, if there is any.
    fn some_ruled(&self, dice: &mut Dice) -> Option<(Which, Ruling)> {
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

    fn of_ruled(&self, word: Word, reason: String, dice: &mut Dice) -> Command {
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
                load: self.load(dice),
                granted: dice.weighed(&[
                    (2, Granted::Keep),
                    (2, Granted::Repeat),
                    (1, Granted::Again),
                ]),
                platform: None,
            },
            _ => {
                let other = if now == Ruling::Good { Ruling::No } else { Ruling::Good };
                Command::Rerule {
                    which,
                    outcome: ruling(dice.weighed(&[
                        (12, &other),
                        (1, &Ruling::Pass),
                        (1, &Ruling::Good),
                    ])
                    .clone()),
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

    fn correct(&self, dice: &mut Dice) -> Command {
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
