//! The model's acts as the engine's commands.

use chrono::NaiveDate;
use maxday::day::{
    self, Authority, ClockMove, Command, CorrectionOf, Granted, Light, LoadAsked,
    NewEntry, StopFor, Which,
};
use maxday::measure::{Unit, Weight};
use maxday::roster::{Born, Change, Clearance, Sex};

use crate::engine::{Engine, LIFTS, SLOTS, slug};
use crate::plain::{
    Act, Asked, Athlete, Cleared, Edit, Given, Grant, Line, Load, Move, No, Outcome,
    Roll, Ruling,
};
use crate::words::{decimal, word};

fn kilograms(cents: i64) -> Weight {
    Weight::parse(&decimal(cents), Unit::Kg).unwrap()
}

impl Engine {
    fn which(no: No, slot: usize, attempt: Option<u8>) -> Which {
        Which {
            number: Some(no),
            lift: Some(slug(SLOTS[slot])),
            attempt,
        }
    }

    fn slot_change(&self, slot: usize, line: Option<(usize, Option<Load>)>) -> Change {
        Change::Slot {
            slot: slug(SLOTS[slot]),
            variant: line.map(|(v, _)| slug(LIFTS[slot][v])),
            opener: line.and_then(|(_, o)| o).map(|o| self.weight(o)),
        }
    }

    fn last(&self, slot: usize, variant: usize, load: Option<Load>) -> Change {
        Change::Last {
            lift: slug(LIFTS[slot][variant]),
            load: load.map(|l| self.weight(l)),
        }
    }

    fn place(&self, flight: usize) -> day::Place {
        day::Place {
            session: Some(self.rules.session_of(flight).to_string()),
            flight: Some(["A", "B"][flight].to_owned()),
            platform: None,
        }
    }

    fn entry(&self, a: &Athlete) -> NewEntry {
        let mut changes = vec![
            Change::Given("G".to_owned()),
            Change::Family(format!("F{}", a.no)),
            Change::Sex(Some(if a.girl { Sex::F } else { Sex::M })),
        ];
        if let Some(b) = a.bodyweight {
            changes.push(Change::Bodyweight(Some(kilograms(b))));
        }
        if !a.category.is_empty() {
            changes.push(Change::Category(a.category.clone()));
        }
        if let Some((year, month, day)) = a.born {
            let date = NaiveDate::from_ymd_opt(year, month, day).unwrap();
            changes.push(Change::Born(Some(Born::Date(date))));
        }
        if a.team > 0 {
            changes.push(Change::Team(a.team.to_string()));
        }
        if a.guest {
            changes.push(Change::Guest(true));
        }
        if let Some(total) = a.entry_total {
            changes.push(Change::EntryTotal(Some(self.weight(total))));
        }
        for (i, slot) in a.slots.iter().enumerate() {
            changes.push(self.slot_change(i, *slot));
            if let Some((variant, load)) = a.last[i] {
                changes.push(self.last(i, variant, Some(load)));
            }
        }
        NewEntry {
            number: Some(a.no),
            changes,
            place: self.place(a.flight),
        }
    }

    fn outcome(outcome: &Outcome) -> day::Outcome {
        day::Outcome {
            reps: outcome.reps,
            ..given(&outcome.given)
        }
    }

    pub fn command(&self, act: &Act, seqs: &[Option<u64>]) -> Command {
        match act {
            Act::Call { platform, no, load } => Command::Call {
                which: Which {
                    number: *no,
                    ..Which::default()
                },
                load: load.map(|l| self.weight(l)),
                platform: Some(*platform),
            },
            Act::Clock(platform, step) => Command::Clock {
                platform: Some(*platform),
                movement: match step {
                    Move::Stop => ClockMove::Stop,
                    Move::Resume => ClockMove::Resume,
                    Move::Set(s) => ClockMove::Set(s * 1000),
                },
            },
            Act::Start(platform, flight, slot) => Command::Start {
                platform: Some(*platform),
                lift: slug(SLOTS[*slot]),
                session: self.place(*flight).session,
                flight: self.place(*flight).flight,
            },
            Act::Check(platform) => Command::Check {
                platform: Some(*platform),
                who: "Coach Amsel".to_owned(),
            },
            Act::Break(platform, minutes) => Command::Break {
                platform: Some(*platform),
                minutes: *minutes,
            },
            Act::Close(session) => Command::Close {
                session: session.map(|n| n.to_string()),
            },
            Act::Reopen(session) => Command::Reopen {
                session: session.map(|n| n.to_string()),
                reason: "a card turned up".to_owned(),
            },
            Act::Note(no) => Command::Note {
                number: *no,
                act: None,
                text: "chalk is out".to_owned(),
                platform: None,
            },
            Act::Set(setting) => {
                let word = word(&self.rules, setting);
                Command::Set(vec![(setting.key().to_owned(), word)])
            }
            Act::Annul(index) => Command::Annul {
                act: seqs.get(*index).copied().flatten().unwrap_or(u64::MAX),
                reason: "typed by mistake".to_owned(),
            },
            Act::Undo(line) => Command::Undo(line_of(*line)),
            Act::Redo(line) => Command::Redo(line_of(*line)),
            Act::Lights { .. }
            | Act::Tally { .. }
            | Act::Request { .. }
            | Act::Pass { .. }
            | Act::Stop { .. }
            | Act::Extra(..)
            | Act::Loaded { .. }
            | Act::Rerule { .. }
            | Act::Correct { .. } => self.attempt(act),
            _ => self.roster(act),
        }
    }

    fn roster(&self, act: &Act) -> Command {
        let reason = "unwell".to_owned();
        let sign = |signed: bool| {
            let text = |t: &str| if signed { t.to_owned() } else { String::new() };
            (text("Coach Amsel"), text("seen today"))
        };
        match act.clone() {
            Act::Add(a) => Command::Add(vec![self.entry(&a)]),
            Act::Edit(number, edit) => Command::Edit {
                number,
                changes: vec![match edit {
                    Edit::Guest(guest) => Change::Guest(guest),
                    Edit::Category(label) => Change::Category(label),
                    Edit::Bodyweight(b) => Change::Bodyweight(b.map(kilograms)),
                    Edit::EntryTotal(total) => {
                        Change::EntryTotal(total.map(|l| self.weight(l)))
                    }
                    Edit::Last(slot, variant, load) => self.last(slot, variant, load),
                    Edit::Slot(slot, line) => self.slot_change(slot, line),
                }],
            },
            Act::Place(no, flight) => Command::Place(vec![(no, self.place(flight))]),
            Act::Weigh(number, b) => Command::Weigh {
                number,
                bodyweight: kilograms(b),
            },
            Act::Roll(number, roll) => Command::Roll {
                number,
                roll: match roll {
                    Roll::Here => day::Roll::Here,
                    Roll::Absent => day::Roll::Absent,
                    Roll::Away => day::Roll::Away,
                    Roll::Back => day::Roll::Back,
                },
                reason: String::new(),
            },
            Act::Withdraw(number, slot) => Command::Withdraw {
                number,
                lift: slot.map(|s| slug(SLOTS[s])),
                reason,
            },
            Act::Disqualify(number, slot) => Command::Disqualify {
                number,
                lift: slot.map(|s| slug(SLOTS[s])),
                reason,
            },
            Act::Number(given) => Command::Number { given },
            Act::Clear {
                no,
                slot,
                cleared,
                over,
                signed,
            } => {
                let (who, why) = sign(signed);
                Command::Clear {
                    number: no,
                    lift: slot.map(|s| slug(SLOTS[s])),
                    clearance: match cleared {
                        Cleared::Yes => Clearance::Yes,
                        Cleared::No => Clearance::No,
                        Cleared::UpTo(load) => Clearance::UpTo(self.weight(load)),
                    },
                    until: over.then(|| NaiveDate::from_ymd_opt(2026, 11, 13).unwrap()),
                    who,
                    why,
                }
            }
            Act::Cap {
                no,
                slot,
                load,
                signed,
            } => {
                let (who, why) = sign(signed);
                Command::Cap {
                    number: no,
                    lift: slot.map(|s| slug(SLOTS[s])),
                    load: load.map(|l| self.weight(l)),
                    who,
                    why,
                }
            }
            other => panic!("no command for {other:?}"),
        }
    }

    fn attempt(&self, act: &Act) -> Command {
        match act {
            Act::Request {
                no,
                slot,
                attempt,
                load,
                record,
            } => Command::Request {
                which: Self::which(*no, *slot, *attempt),
                load: match load {
                    Asked::Exactly(load) => LoadAsked::Exactly(self.weight(*load)),
                    Asked::Rise(rise) => LoadAsked::Relative(self.weight(*rise).mass),
                },
                record: *record,
                platform: None,
            },
            Act::Lights {
                platform,
                no,
                load,
                outcome,
            } => Command::Lights {
                which: Which {
                    number: *no,
                    lift: None,
                    attempt: None,
                },
                load: load.map(|l| self.weight(l)),
                outcome: day::Outcome {
                    caught: outcome.variant.and_then(|v| {
                        let on = self.day.facts().platform(*platform)?;
                        let called = on.call.as_ref().map(|c| &c.slot);
                        let running = on.running.as_ref().map(|r| &r.slot);
                        let slot = called.or(running)?;
                        let i = SLOTS.iter().position(|s| *s == slot.as_str())?;
                        Some(slug(LIFTS[i][v]))
                    }),
                    ..Self::outcome(outcome)
                },
                platform: Some(*platform),
            },
            Act::Tally {
                no,
                slot,
                attempt,
                load,
                outcome,
            } => {
                Command::Tally {
                    which: Which {
                        number: Some(*no),
                        lift: Some(outcome.variant.map_or_else(
                            || slug(SLOTS[*slot]),
                            |v| slug(LIFTS[*slot][v]),
                        )),
                        attempt: *attempt,
                    },
                    load: load.map(|l| self.weight(l)),
                    outcome: Self::outcome(outcome),
                    platform: None,
                }
            }
            Act::Pass {
                platform,
                who,
                rest,
            } => Command::Pass {
                which: who
                    .map_or_else(Which::default, |(no, s)| Self::which(no, s, None)),
                rest: *rest,
                platform: who.is_none().then_some(*platform),
            },
            Act::Stop {
                platform,
                who,
                pain,
            } => Command::Stop {
                which: who
                    .map_or_else(Which::default, |(no, s)| Self::which(no, s, None)),
                stop: if *pain {
                    StopFor::Pain
                } else {
                    StopFor::Technique
                },
                reason: String::new(),
                platform: who.is_none().then_some(*platform),
            },
            Act::Extra(no, slot) => Command::Extra {
                which: Self::which(*no, *slot, None),
                reason: "spotter's error".to_owned(),
                platform: None,
            },
            Act::Loaded {
                no,
                slot,
                attempt,
                load,
                grant,
            } => Command::Loaded {
                which: Self::which(*no, *slot, Some(*attempt)),
                load: self.weight(*load),
                granted: match grant {
                    Grant::Keep => Granted::Keep,
                    Grant::Repeat => Granted::Repeat,
                    Grant::Again => Granted::Again,
                },
                platform: None,
            },
            Act::Rerule {
                no,
                slot,
                attempt,
                good,
                challenge,
            } => Command::Rerule {
                which: Self::which(*no, *slot, Some(*attempt)),
                outcome: given(&Given::Word(if *good {
                    Ruling::Good
                } else {
                    Ruling::No
                })),
                authority: if *challenge {
                    Authority::Challenge
                } else {
                    Authority::Overrule
                },
                reason: "seen again".to_owned(),
            },
            Act::Correct {
                no,
                slot,
                attempt,
                load,
                ruling,
                reps,
                variant,
            } => Command::Correct {
                of: CorrectionOf::Attempt {
                    which: Self::which(*no, *slot, Some(*attempt)),
                    load: load.map(|l| self.weight(l)),
                    outcome: ruling.map(|r| day::Outcome {
                        reps: *reps,
                        caught: variant.map(|v| slug(LIFTS[*slot][v])),
                        ..given(&Given::Word(r))
                    }),
                },
                reason: String::new(),
            },
            other => panic!("no command for {other:?}"),
        }
    }
}

const fn line_of(line: Line) -> day::Line {
    match line {
        Line::Platform(n) => day::Line::Platform(n),
        Line::Roster => day::Line::Roster,
        Line::Scale => day::Line::Scale,
        Line::Flights => day::Line::Flights,
        Line::Day => day::Line::Day,
    }
}

fn given(given: &Given) -> day::Outcome {
    match given {
        Given::Lights(lights) => day::Outcome {
            lights: lights
                .iter()
                .map(|w| if *w { Light::White } else { Light::Red })
                .collect(),
            ..day::Outcome::default()
        },
        Given::Word(ruling) => day::Outcome {
            ruling: Some(match ruling {
                Ruling::Good => day::Ruling::Good,
                Ruling::No => day::Ruling::No,
                Ruling::Pass => day::Ruling::Pass,
                Ruling::Time => day::Ruling::Time,
                Ruling::Stopped => day::Ruling::Stopped,
            }),
            ..day::Outcome::default()
        },
    }
}
