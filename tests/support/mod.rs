//! Builders that tests of whole days share.
//!
//! A [`Table`] holds a day and its clock, says commands and records what was
//! decided, as a face would.

#![allow(dead_code)]

use maxday::day::{
    Command, Context, Day, Decided, Event, Facts, Light, LoadAsked, NewEntry, Outcome,
    Place, Queued, Recorded, Refusal, Ruling, Stamp, Which, apply, decide, queue,
};
use maxday::lift::Slug;
use maxday::measure::{Unit, Weight};
use maxday::roster::{Change, SlotLine};
use maxday::rules::format_named;

/// A slug.
pub fn slug(text: &str) -> Slug {
    Slug::new(text).unwrap()
}

/// So many kilograms.
pub fn kg(text: &str) -> Weight {
    Weight::parse(text, Unit::Kg).unwrap()
}

/// So many pounds.
pub fn lb(text: &str) -> Weight {
    Weight::parse(text, Unit::Lb).unwrap()
}

/// Who, in which lift; the attempt is the next.
pub fn who(number: u16, lift: &str) -> Which {
    Which {
        number: Some(number),
        lift: Some(slug(lift)),
        attempt: None,
    }
}

/// Who, in which lift, which attempt.
pub fn which(number: u16, lift: &str, attempt: u8) -> Which {
    Which {
        attempt: Some(attempt),
        ..who(number, lift)
    }
}

/// Lights as letters: `wwr`.
pub fn lights(letters: &str) -> Outcome {
    Outcome {
        lights: letters
            .chars()
            .map(|c| if c == 'w' { Light::White } else { Light::Red })
            .collect(),
        ..Outcome::default()
    }
}

/// A ruling in words.
pub fn ruling(ruling: Ruling) -> Outcome {
    Outcome {
        ruling: Some(ruling),
        ..Outcome::default()
    }
}

/// An entry in flight A of session 1 on platform 1, with openers.
pub fn entry(number: u16, openers: &[(&str, Weight)]) -> NewEntry {
    entry_in(number, "A", 1, openers)
}

/// An entry in a flight of session 1, with openers by lift.
pub fn entry_in(
    number: u16,
    flight: &str,
    platform: u8,
    openers: &[(&str, Weight)],
) -> NewEntry {
    let mut changes = vec![
        Change::Given(format!("Given{number}")),
        Change::Family(format!("Family{number}")),
    ];
    for (lift, load) in openers {
        changes.push(Change::Slot {
            slot: slug(lift),
            variant: Some(slug(lift)),
            opener: Some(load.clone()),
        });
    }
    NewEntry {
        number: Some(number),
        changes,
        place: Place {
            session: Some("1".to_owned()),
            flight: Some(flight.to_owned()),
            platform: Some(platform),
        },
    }
}

/// The event that makes a day of a shipped format.
///
/// `lifts` is the programme: a slot with its variants, `clean=power-clean+…`,
/// or a lift alone.
pub fn day_made(format: &str, unit: Unit, lifts: &[&str], platforms: u8) -> Event {
    let rules = format_named(format).unwrap().rules(unit).unwrap();
    let slots = lifts
        .iter()
        .map(|line| {
            let (slot, variants) = line.split_once('=').unwrap_or((line, line));
            SlotLine {
                slot: slug(slot),
                variants: variants.split('+').map(slug).collect(),
            }
        })
        .collect();
    Event::DayMade {
        name: "A day".to_owned(),
        date: "2026-11-17".parse().unwrap(),
        format: format.to_owned(),
        bar_unit: unit,
        scale_unit: unit,
        rules: rules.words(),
        slots,
        platforms,
    }
}

/// A point in time, in milliseconds from the day's first moment.
pub const fn at_ms(ms: i64) -> Stamp {
    Stamp {
        ms: 1_795_000_000_000 + ms,
        offset: -360,
        loose: false,
    }
}

/// A day with its clock, and a hand that says commands.
#[derive(Debug, Clone)]
pub struct Table {
    /// The day.
    pub day: Day,
    /// Milliseconds from the day's first moment.
    pub now: i64,
}

impl Table {
    /// A day of a shipped format.
    pub fn new(format: &str, unit: Unit, lifts: &[&str], platforms: u8) -> Self {
        let mut table = Self {
            day: Day::new(),
            now: 0,
        };
        let made = Decided {
            platform: None,
            events: vec![day_made(format, unit, lifts, platforms)],
        };
        let _ = table.record(made, at_ms(0));
        table
    }

    /// A weightlifting meet in kilograms on one platform.
    pub fn meet(entries: Vec<NewEntry>) -> Self {
        let mut table =
            Self::new("weightlifting", Unit::Kg, &["snatch", "clean-and-jerk"], 1);
        let _ = table.ok(Command::Add(entries));
        table
    }

    /// A max day in pounds.
    pub fn max_day(platforms: u8, entries: Vec<NewEntry>) -> Self {
        let lifts = ["clean=power-clean+hang-power-clean", "back-squat"];
        let mut table = Self::new("max-day", Unit::Lb, &lifts, platforms);
        let _ = table.ok(Command::Add(entries));
        table
    }

    /// What is true now.
    pub fn facts(&self) -> &Facts {
        self.day.facts()
    }

    /// Lets time pass.
    pub fn wait(&mut self, seconds: i64) -> &mut Self {
        self.now += seconds * 1000;
        self
    }

    /// The moment that it is.
    pub fn stamp(&self) -> Stamp {
        at_ms(self.now)
    }

    /// Time, hand and draw of a command that is said now.
    pub fn context(&self) -> Context {
        Context {
            at: self.stamp(),
            hand: "Table".to_owned(),
            draw: 7,
        }
    }

    /// Says a command; records what was decided.
    pub fn say(&mut self, command: &Command) -> Result<u64, Refusal> {
        let context = self.context();
        let decided = decide(&self.day, command, &context)?;
        Ok(self.record(decided, context.at))
    }

    /// Records what was decided as one act; returns its place.
    pub fn record(&mut self, decided: Decided, at: Stamp) -> u64 {
        let act = self.day.next_seq();
        for (event, seq) in decided.events.into_iter().zip(act..) {
            let recorded = Recorded {
                seq,
                act,
                id: format!("a{act}"),
                at,
                happened: None,
                hand: "Table".to_owned(),
                platform: decided.platform,
                event,
            };
            apply(&mut self.day, &recorded);
        }
        act
    }

    /// Says a command that has to be taken; returns its place.
    #[track_caller]
    pub fn ok(&mut self, command: Command) -> u64 {
        match self.say(&command) {
            Ok(act) => act,
            Err(refusal) => panic!("refused: {refusal}\n{command:?}"),
        }
    }

    /// Says a command that has to be refused.
    #[track_caller]
    pub fn no(&mut self, command: Command) -> Refusal {
        match self.say(&command) {
            Ok(_) => panic!("not refused: {command:?}"),
            Err(refusal) => refusal,
        }
    }

    /// `set`.
    #[track_caller]
    pub fn set(&mut self, key: &str, value: &str) {
        let _ = self.ok(Command::Set(vec![(key.to_owned(), value.to_owned())]));
    }

    /// `start` of a slot for flight A of session 1.
    #[track_caller]
    pub fn start(&mut self, lift: &str) {
        self.start_for(lift, "A");
    }

    /// `start` of a slot for a flight of session 1.
    #[track_caller]
    pub fn start_for(&mut self, lift: &str, flight: &str) {
        let _ = self.ok(Command::Start {
            platform: None,
            lift: slug(lift),
            session: Some("1".to_owned()),
            flight: Some(flight.to_owned()),
        });
    }

    /// `call` of the first in the queue of platform 1; returns the number.
    #[track_caller]
    pub fn call(&mut self) -> u16 {
        let _ = self.ok(call_first());
        self.called().unwrap()
    }

    /// Who is called on platform 1.
    pub fn called(&self) -> Option<u16> {
        let call = self.facts().platform(1)?.call.as_ref()?;
        self.facts().entries.get(&call.entry).map(|e| e.number)
    }

    /// `lights` for the athlete called on platform 1.
    #[track_caller]
    pub fn lights(&mut self, letters: &str) {
        let _ = self.ok(Command::Lights {
            which: Which::default(),
            load: None,
            outcome: lights(letters),
            platform: Some(1),
        });
    }

    /// Calls the first, who must be that number, and rules; half a minute.
    #[track_caller]
    pub fn lift(&mut self, number: u16, letters: &str) {
        assert_eq!(self.call(), number, "another was first in the queue");
        let _ = self.wait(20);
        self.lights(letters);
        let _ = self.wait(10);
    }

    /// `request` of the next attempt.
    #[track_caller]
    pub fn request(&mut self, number: u16, lift: &str, load: &Weight) {
        let _ = self.ok(request(number, lift, load));
    }

    /// The queue of platform 1 as numbers.
    pub fn order(&self) -> Vec<u16> {
        queue(self.facts(), 1).iter().map(|q| q.number).collect()
    }

    /// The queue of platform 1.
    pub fn queue(&self) -> Vec<Queued> {
        queue(self.facts(), 1)
    }

    /// What is left on platform 1's clock, in seconds.
    pub fn left(&self) -> i64 {
        let call = self.facts().platform(1).unwrap().call.as_ref().unwrap();
        call.clock.unwrap().left_at(self.stamp()) / 1000
    }
}

/// `request` of the next attempt.
pub fn request(number: u16, lift: &str, load: &Weight) -> Command {
    Command::Request {
        which: who(number, lift),
        load: LoadAsked::Exactly(load.clone()),
        record: false,
        platform: None,
    }
}

/// `call` of the first in the queue of platform 1.
pub fn call_first() -> Command {
    Command::Call {
        which: Which::default(),
        load: None,
        platform: Some(1),
    }
}

/// `tally` of an attempt.
pub fn tally(which: Which, load: Option<Weight>, outcome: Outcome) -> Command {
    Command::Tally {
        which,
        load,
        outcome,
        platform: None,
    }
}
