//! Desks over days in a folder for temporary files, with a time that stands.
// Each test crate uses its own share of it.
#![allow(dead_code)]

pub mod picture;
pub mod png;

use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use iced::keyboard::{Key, Modifiers, key::Named};
use maxday::day::{Command, NewDay, Stamp};
use maxday::desk::action::of_press;
use maxday::desk::app::{Desk, Message};
use maxday::desk::effects::{Effects, Folders, Moment};
use maxday::desk::keys::Press;
use maxday::desk::screen::table;
use maxday::exchange::roster::read_roster;
use maxday::measure::Unit;
use maxday::samples::{self, Sample};

const ROSTER: &str =
    "lot,given,family,sex,team,flight,session,bodyweight,snatch,clean-and-jerk
3,Ana,Ruiz,F,Larks,A,1,56,50,62
7,Bo,Lind,F,Larks,A,1,60,55,70
12,Cy,Marsh,F,Herons,A,1,61,58,
";

pub fn start() -> Stamp {
    Stamp::parse("2026-11-21T09:00:00Z", NaiveDate::default(), 0).unwrap()
}

pub fn folder(name: &str) -> PathBuf {
    let folder =
        std::env::temp_dir().join(format!("maxday-desk-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

fn effects(folder: &Path) -> Effects {
    Effects::new(
        Moment::Fixed(start()),
        Folders {
            config: Some(folder.join("config")),
            documents: folder.to_owned(),
        },
    )
}

pub fn empty_desk(name: &str) -> Desk {
    Desk::new(effects(&folder(name)))
}

pub fn desk_on(path: &Path) -> Desk {
    let mut effects = effects(path.parent().unwrap());
    effects.open(path).unwrap();
    Desk::new(effects)
}

pub fn desk_with_meet(name: &str) -> Desk {
    desk_with(name, "Meet of three", "weightlifting", ROSTER)
}

/// A desk over a day of a format with a roster.
pub fn desk_with(name: &str, title: &str, format: &str, roster: &str) -> Desk {
    desk_of(name, title, format, None, roster)
}

/// The same with so many platforms.
pub fn desk_of(
    name: &str,
    title: &str,
    format: &str,
    platforms: Option<u8>,
    roster: &str,
) -> Desk {
    let folder = folder(name);
    let mut effects = effects(&folder);
    let wish = NewDay {
        name: title.to_owned(),
        date: NaiveDate::from_ymd_opt(2026, 11, 21).unwrap(),
        format: format.to_owned(),
        bar: Unit::Kg,
        scale: None,
        judges: None,
        categories: None,
        tie: None,
        step: None,
        lifts: None,
        platforms,
    };
    effects
        .create(&folder.join("meet.maxday"), &wish, None)
        .unwrap();
    let read = read_roster(roster.as_bytes(), effects.facts(), None).unwrap();
    effects.submit(&Command::Add(read.entries)).unwrap();
    Desk::new(effects)
}

/// A desk over a sample's day, before its first act.
pub fn desk_of_sample(sample: Sample) -> Desk {
    let folder = folder(sample.file_stem());
    let mut effects = effects(&folder);
    let wish = samples::wish(sample.arguments()).unwrap();
    effects
        .create(&folder.join("day.maxday"), &wish, None)
        .unwrap();
    let read = read_roster(sample.roster().as_bytes(), effects.facts(), None).unwrap();
    effects.submit(&Command::Add(read.entries)).unwrap();
    Desk::new(effects)
}

pub fn settings() -> iced::Settings {
    maxday::desk::settings()
}

/// A press by name: `F6`, `ctrl+g`, `ctrl+shift+1`, `alt+2`, `shift+F3`, `Esc`,
/// `Enter`, `g`.
pub fn press(name: &str) -> Press {
    let held = [
        ("ctrl+shift+", Modifiers::CTRL | Modifiers::SHIFT),
        ("ctrl+F", Modifiers::CTRL),
        ("ctrl+P", Modifiers::CTRL),
        ("alt+", Modifiers::ALT),
        ("shift+", Modifiers::SHIFT),
    ];
    for (prefix, modifiers) in held {
        if let Some(key) = name.strip_prefix(prefix) {
            return Press {
                modifiers,
                ..press(if prefix.ends_with(['F', 'P']) {
                    &name[prefix.len() - 1..]
                } else {
                    key
                })
            };
        }
    }
    if let Some(letter) = name.strip_prefix("ctrl+") {
        return Press {
            key: Key::Character(letter.into()),
            modifiers: Modifiers::CTRL,
            repeat: false,
        };
    }
    let named = match name {
        "F1" => Named::F1,
        "F2" => Named::F2,
        "F3" => Named::F3,
        "F4" => Named::F4,
        "F5" => Named::F5,
        "F6" => Named::F6,
        "F7" => Named::F7,
        "F8" => Named::F8,
        "F9" => Named::F9,
        "F10" => Named::F10,
        "F11" => Named::F11,
        "F12" => Named::F12,
        "Esc" => Named::Escape,
        "Enter" => Named::Enter,
        "PageDown" => Named::PageDown,
        "PageUp" => Named::PageUp,
        "Tab" => Named::Tab,
        "Home" => Named::Home,
        "End" => Named::End,
        "Up" => Named::ArrowUp,
        "Down" => Named::ArrowDown,
        "Left" => Named::ArrowLeft,
        "Right" => Named::ArrowRight,
        "Backspace" => Named::Backspace,
        other => {
            return Press {
                key: Key::Character(other.into()),
                modifiers: Modifiers::empty(),
                repeat: false,
            };
        }
    };
    Press::named(named)
}

pub fn pressed(desk: &mut Desk, name: &str) {
    let press = press(name);
    // A keyboard sends the keys that are held first, each by itself.
    for held in held_keys(press.modifiers) {
        let _ = desk.update(Message::Pressed(iced::window::Id::unique(), held));
    }
    let _ = of_press(&press, desk.screen());
    let _ = desk.update(Message::Pressed(iced::window::Id::unique(), press));
}

/// The presses of the keys that are held with another.
pub fn held_keys(modifiers: Modifiers) -> Vec<Press> {
    let held = [
        (Modifiers::CTRL, Named::Control),
        (Modifiers::SHIFT, Named::Shift),
        (Modifiers::ALT, Named::Alt),
    ];
    let mut so_far = Modifiers::empty();
    let mut presses = Vec::new();
    for (modifier, named) in held {
        if modifiers.contains(modifier) {
            so_far |= modifier;
            presses.push(Press {
                modifiers: so_far,
                ..Press::named(named)
            });
        }
    }
    presses
}

pub fn line(desk: &mut Desk, text: &str) {
    let _ = desk.update(Message::Table(table::Message::Typed(text.to_owned())));
}

/// Types a line and presses Enter, a second after what was before.
pub fn typed(desk: &mut Desk, text: &str) {
    later(desk, 1);
    line(desk, text);
    let _ = desk.update(Message::Table(table::Message::Entered));
}

pub fn later(desk: &mut Desk, seconds: i64) {
    let now = desk.effects_mut().now().plus_ms(seconds * 1000);
    desk.effects_mut().set_now(now);
    let _ = desk.update(Message::Tick);
}
