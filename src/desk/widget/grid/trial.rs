//! A day and keys for tests of the screens that hold a grid.

use chrono::NaiveDate;

use super::{Event, Key};
use crate::day::{
    Command, Context, Day, Event as Fact, NewEntry, Place, Recorded, Stamp, apply, decide,
};
use crate::lift::Slug;
use crate::measure::Unit;
use crate::roster::{Change, SlotLine};
use crate::rules::format_named;

/// A slug.
pub(crate) fn slug(text: &str) -> Slug {
    Slug::new(text).unwrap()
}

/// A stamp on the trial day, in seconds from its morning.
pub(crate) fn at(seconds: i64) -> Stamp {
    Stamp {
        ms: 1_794_000_000_000 + seconds * 1000,
        offset: 0,
        loose: false,
    }
}

/// A max day in kg with a clean and a back squat on two platforms.
pub(crate) fn max_day() -> Day {
    let format = format_named("max-day").unwrap();
    let slots = vec![
        SlotLine {
            slot: slug("clean"),
            variants: vec![slug("power-clean"), slug("hang-power-clean")],
        },
        SlotLine {
            slot: slug("back-squat"),
            variants: vec![slug("back-squat")],
        },
    ];
    let mut day = Day::new();
    let made = Fact::DayMade {
        name: "Trial".into(),
        date: NaiveDate::from_ymd_opt(2026, 11, 17).unwrap(),
        format: "max-day".into(),
        bar_unit: Unit::Kg,
        scale_unit: Unit::Kg,
        rules: format.rules(Unit::Kg).unwrap().words(),
        slots,
        platforms: 2,
    };
    record(&mut day, None, vec![made]);
    day
}

fn record(day: &mut Day, platform: Option<u8>, events: Vec<Fact>) {
    let act = day.next_seq();
    for event in events {
        let seq = day.next_seq();
        let recorded = Recorded {
            seq,
            act,
            id: format!("t{seq}"),
            at: at(i64::try_from(seq).unwrap()),
            happened: None,
            hand: "test".into(),
            platform,
            event,
        };
        apply(day, &recorded);
    }
}

/// Does a command, or gives the refusal's sentence.
pub(crate) fn submit(day: &mut Day, command: &Command) -> Result<(), String> {
    let context = Context {
        at: at(i64::try_from(day.next_seq()).unwrap()),
        hand: "test".into(),
        draw: 7,
    };
    let decided = decide(day, command, &context).map_err(|e| e.to_string())?;
    record(day, decided.platform, decided.events);
    Ok(())
}

/// Enters an athlete in every slot, with an opener if `opener` isn't empty.
pub(crate) fn enter(day: &mut Day, number: u16, name: &str, flight: &str, opener: &str) {
    let mut changes = vec![Change::Given(name.into()), Change::Family("Test".into())];
    for line in day.facts().slots.clone() {
        let opener =
            (!opener.is_empty()).then(|| day.facts().reading().load(opener).unwrap());
        changes.push(Change::Slot {
            variant: Some(line.default_variant().clone()),
            slot: line.slot,
            opener,
        });
    }
    let add = NewEntry {
        number: Some(number),
        changes,
        place: Place {
            session: Some("1".into()),
            flight: Some(flight.into()),
            platform: None,
        },
    };
    submit(day, &Command::Add(vec![add])).unwrap();
}

/// The keys of a script: characters, and names in angle brackets such as
/// `<Enter>`.
pub(crate) fn keys(script: &str) -> Vec<Event> {
    let mut keys = Vec::new();
    let mut rest = script;
    while let Some(c) = rest.chars().next() {
        if let Some((name, after)) =
            rest.strip_prefix('<').and_then(|r| r.split_once('>'))
        {
            keys.push(match name {
                "Enter" => Key::Enter,
                "Tab" => Key::Tab,
                "BackTab" => Key::BackTab,
                "Up" => Key::Up,
                "Down" => Key::Down,
                "Left" => Key::Left,
                "Right" => Key::Right,
                "PageUp" => Key::PageUp,
                "PageDown" => Key::PageDown,
                "Home" => Key::Home,
                "End" => Key::End,
                "First" => Key::First,
                "Last" => Key::Last,
                "Escape" => Key::Escape,
                "Backspace" => Key::Backspace,
                "Delete" => Key::Delete,
                other => panic!("no key {other}"),
            });
            rest = after;
        } else {
            keys.push(Key::Char(c));
            rest = &rest[c.len_utf8()..];
        }
    }
    keys.into_iter()
        .map(|key| Event::Pressed(key, 10))
        .collect()
}
