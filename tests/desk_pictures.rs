//! One picture of every screen in both themes, and of every board in its own.
//!
//! A missing picture fails, and so does one that nothing is compared with.
//! `MAXDAY_WRITE_PICTURES=1` writes them anew. The size is what a maximised
//! window has on a screen of 1366 by 768; on larger ones all is drawn larger,
//! so nothing else comes to lie elsewhere.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use std::collections::BTreeSet;
use std::path::Path;

use chrono::NaiveDate;
use desk_support::picture::{check, differing, folder, reduced, taken};
use desk_support::png::{Pixels, read, written};
use desk_support::{
    desk_on, desk_with, desk_with_meet, empty_desk, later, line, press, pressed, typed,
};
use iced::Size;
use maxday::day::Stamp;
use maxday::desk::app::{Desk, Message};
use maxday::desk::board::Board;
use maxday::desk::screen::first::First;
use maxday::desk::screen::journal::Message as Journal;
use maxday::desk::theme;
use maxday::samples::{self, Sample};

/// The screens, each of them in both themes.
const SCREENS: [&str; 17] = [
    "first",
    "new-day",
    "day",
    "roster",
    "roster-empty",
    "scale",
    "flights",
    "flights-by-hand",
    "table-max-day",
    "table-meet",
    "cards",
    "standings",
    "standings-meet",
    "papers",
    "journal",
    "keys",
    "guide",
];

/// The boards; they have one theme, whatever the desk's.
const BOARDS: [&str; 4] = [
    "hall-board",
    "hall-board-lights",
    "loader-board",
    "warm-up-board",
];

const WINDOW: Size = Size::new(1366.0, 740.0);
const BOARD: Size = Size::new(1366.0, 768.0);

fn both(name: &str, desk: &Desk) {
    assert!(SCREENS.contains(&name), "{name} isn't listed");
    for (shade, theme) in [("light", theme::light()), ("dark", theme::dark())] {
        check(&format!("{name}-{shade}"), WINDOW, &theme, desk.main());
    }
}

fn board(name: &str, desk: &Desk, board: Board) {
    assert!(BOARDS.contains(&name), "{name} isn't listed");
    check(name, BOARD, &theme::board(), desk.on_board(board));
}

/// A sample day as it was left, at a time shortly after.
fn sample(name: &str, sample: Sample, now: &str) -> Desk {
    let now = Stamp::parse(now, NaiveDate::default(), 0).unwrap();
    let path = desk_support::folder(&format!("pictures-{name}")).join("day.maxday");
    samples::make(&path, sample, now).unwrap();
    let mut desk = desk_on(&path);
    desk.effects_mut().set_now(now);
    later(&mut desk, 0);
    desk
}

fn max_day(name: &str) -> Desk {
    sample(name, Sample::MaxDay, "2026-11-17T08:47:20Z")
}

fn meet(name: &str) -> Desk {
    sample(name, Sample::Meet, "2026-11-21T09:22:10Z")
}

fn max_day_on(key: &str) -> Desk {
    let mut desk = max_day(key);
    pressed(&mut desk, key);
    desk
}

#[test]
fn first() {
    let today = NaiveDate::from_ymd_opt(2026, 11, 21).unwrap();
    let last = Path::new("days").join("Fall max day 2026-11-17.maxday");
    let mut first = First::new(Some(last), Path::new("days"), today);
    let views = |name: &str, first: &First| {
        for (shade, theme) in [("light", theme::light()), ("dark", theme::dark())] {
            let view = first.view().map(Message::First);
            check(&format!("{name}-{shade}"), WINDOW, &theme, view);
        }
    };
    views("first", &first);
    for key in ["Down", "Enter"] {
        let message = first.key(&press(key)).unwrap();
        assert!(first.update(message).is_none());
    }
    views("new-day", &first);
}

#[test]
fn day() {
    both("day", &max_day_on("F2"));
}

#[test]
fn roster() {
    both("roster", &max_day_on("F3"));
    let roster = "lot,given,family\n1,Ana,Ruiz\n";
    let mut desk = desk_with("pictures-empty", "Fall max day", "max-day", roster);
    for key in ["F3", "ctrl+z", "ctrl+z", "Esc"] {
        pressed(&mut desk, key);
    }
    both("roster-empty", &desk);
}

#[test]
fn scale() {
    both("scale", &max_day_on("F4"));
}

#[test]
fn flights() {
    let mut desk = max_day_on("F5");
    both("flights-by-hand", &desk);
    pressed(&mut desk, "ctrl+f");
    both("flights", &desk);
}

#[test]
fn table_of_a_max_day() {
    both("table-max-day", &max_day("F6"));
}

#[test]
fn table_of_a_meet() {
    let mut desk = meet("table-meet");
    line(&mut desk, "7 +1");
    both("table-meet", &desk);
}

#[test]
fn cards() {
    both("cards", &max_day_on("ctrl+k"));
}

#[test]
fn standings() {
    both("standings", &max_day_on("F7"));
    let mut desk = meet("standings");
    pressed(&mut desk, "F7");
    both("standings-meet", &desk);
}

#[test]
fn papers() {
    both("papers", &max_day_on("F8"));
}

#[test]
fn journal() {
    let mut desk = max_day_on("F9");
    // Of the newest acts: a request is undone, an attempt corrected twice, another
    // annulled.
    pressed(&mut desk, "ctrl+z");
    pressed(&mut desk, "ctrl+z");
    for (down, line) in [
        (3, "ruling=no; reason=deep"),
        (0, "ruling=no; reason=spotter"),
        (3, "annul typed for the wrong athlete"),
    ] {
        for _ in 0..down {
            pressed(&mut desk, "Down");
        }
        for message in [
            Journal::Typed(line.into()),
            Journal::Entered,
            Journal::Entered,
        ] {
            let _ = desk.update(Message::Journal(message));
        }
    }
    both("journal", &desk);
}

#[test]
fn keys() {
    let mut desk = max_day("keys");
    pressed(&mut desk, "F1");
    both("keys", &desk);
}

#[test]
fn guide() {
    let mut desk = empty_desk("pictures-guide");
    pressed(&mut desk, "ctrl+h");
    both("guide", &desk);
}

#[test]
fn boards() {
    let mut desk = desk_with_meet("pictures-boards");
    for line in ["", "check Ms Bell", "", "www", "60"] {
        typed(&mut desk, line);
    }
    later(&mut desk, 20);
    board("loader-board", &desk, Board::Loaders);
    board("warm-up-board", &desk, Board::WarmUp);
    typed(&mut desk, "");
    later(&mut desk, 20);
    board("hall-board", &desk, Board::Hall);
    typed(&mut desk, "rrw");
    later(&mut desk, 2);
    board("hall-board-lights", &desk, Board::Hall);
}

#[test]
fn every_picture_is_there_and_compared() {
    let mut listed: BTreeSet<String> = BOARDS.iter().map(ToString::to_string).collect();
    for name in SCREENS {
        listed.extend(["light", "dark"].map(|shade| format!("{name}-{shade}")));
    }
    let there: BTreeSet<String> = std::fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .map(|path| path.file_stem().unwrap().to_string_lossy().into_owned())
        .collect();
    // While they are written anew, they appear one after the other.
    if std::env::var_os("MAXDAY_WRITE_PICTURES").is_none() {
        let missing: Vec<_> = listed.difference(&there).collect();
        assert!(missing.is_empty(), "there is no picture of {missing:?}");
    }
    let idle: Vec<_> = there.difference(&listed).collect();
    assert!(
        idle.is_empty(),
        "nothing is compared with {idle:?}; delete them"
    );
}

#[test]
#[should_panic(expected = "no picture")]
fn a_missing_picture_fails() {
    let desk = empty_desk("pictures-missing");
    let write = std::env::var_os("MAXDAY_WRITE_PICTURES").is_some();
    assert!(!write, "no picture of it is written");
    check("of-nothing", WINDOW, &theme::light(), desk.main());
}

#[test]
fn another_theme_or_one_more_letter_is_seen() {
    let mut desk = desk_with_meet("pictures-seen");
    let of = |desk: &Desk, theme| taken(WINDOW, &theme, desk.main());
    let light = of(&desk, theme::light());
    assert_eq!(differing(&light, &of(&desk, theme::light())), Some(0));
    assert!(differing(&light, &of(&desk, theme::dark())).unwrap() > 100_000);
    line(&mut desk, "1");
    assert!(differing(&light, &of(&desk, theme::light())).unwrap() > 12);
    // What is stored differs from what is drawn by less than is let pass.
    let stored = reduced(light.clone());
    assert_eq!(differing(&light, &stored), Some(0));
    assert_eq!(read(&written(&stored)), Some(stored));
}

#[test]
fn a_picture_file_is_read_as_it_was_written() {
    // Runs of all lengths and colours without a pattern.
    let mut seed = 7_u32;
    let mut rgb = Vec::new();
    while rgb.len() < 300 * 200 {
        seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let shade = seed.to_be_bytes()[0];
        let long = usize::from(seed.to_be_bytes()[1]) * usize::from(shade % 3);
        rgb.extend(std::iter::repeat_n([shade, shade / 2, 0], long + 1));
    }
    rgb.truncate(300 * 200);
    let picture = Pixels {
        width: 300,
        height: 200,
        rgb,
    };
    let mut file = written(&picture);
    assert_eq!(read(&file), Some(picture));
    let middle = file.len() / 2;
    file[middle] ^= 1;
    assert_eq!(read(&file), None, "a damaged file");
}
