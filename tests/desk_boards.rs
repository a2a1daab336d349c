//! The boards in their windows: what they tell, to whom, and how large.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use desk_support::{desk_of, desk_with, desk_with_meet, later, press, settings, typed};
use iced::{Rectangle, Size, window};
use iced_test::Simulator;
use iced_test::selector::Candidate;
use maxday::day::Command;
use maxday::desk::app::{Desk, Message};
use maxday::desk::board::{Board, LEAST_CAPITAL, hall, loaders, warm_up};
use maxday::desk::{action, font, see};

const WINDOW: Size = Size::new(1280.0, 720.0);

/// The sizes of an old laptop's screen and of a projector.
const SCREENS: [Size; 2] = [Size::new(1366.0, 768.0), Size::new(1920.0, 1080.0)];

/// Every text of a board, in order, with where it lies.
fn laid_out(desk: &Desk, board: Board, size: Size) -> Vec<(String, Rectangle)> {
    let mut all = Vec::new();
    let mut ui = Simulator::with_size(settings(), size, desk.on_board(board));
    let _ = ui.find(|candidate: Candidate<'_>| {
        if let Candidate::Text {
            content, bounds, ..
        } = candidate
        {
            all.push((content.to_owned(), bounds));
        }
        None::<()>
    });
    all
}

fn texts(desk: &Desk, board: Board) -> Vec<String> {
    let all = laid_out(desk, board, WINDOW);
    all.into_iter().map(|(text, _)| text).collect()
}

#[track_caller]
fn says(desk: &Desk, board: Board, words: &[&str]) {
    let all = texts(desk, board);
    for words in words {
        assert!(all.iter().any(|t| t == words), "{words} isn't in {all:?}");
    }
}

fn set(desk: &mut Desk, key: &str, value: &str) {
    let set = Command::Set(vec![(key.into(), value.into())]);
    desk.effects_mut().submit(&set).unwrap();
    later(desk, 0);
}

fn turn(desk: &mut Desk, board: Board) -> Option<window::Id> {
    let _ = desk.update(Message::Act(board.action()));
    desk.windows().window_of(board)
}

fn press_in(desk: &mut Desk, id: window::Id, key: &str) {
    let _ = desk.update(Message::Pressed(id, press(key)));
}

/// A flight of a max day on one bar for women and one for men.
fn mixed(name: &str) -> Desk {
    let roster = "lot,given,family,sex,flight,bodyweight,power-clean
4,Ida,Storm,F,A,56.2,45
9,Ole,Brandt,M,A,71.3,60
2,Una,Falk,F,A,62.1,60
";
    desk_with(name, "Cleans", "max-day", roster)
}

#[test]
fn the_loaders_are_told_in_words_first() {
    let mut desk = desk_with_meet("loaders");
    assert_eq!(texts(&desk, Board::Loaders), ["Loaders", ""]);
    typed(&mut desk, "");
    // A bar of 20 kg with its collars; 15 a side make 50.
    let all = texts(&desk, Board::Loaders);
    assert_eq!(
        all,
        [
            "Loaders",
            "snatch, flight A",
            "Take bar and collars of 20 kg, add 15 each side",
            "One side, from the inside, on bar and collars of 20 kg",
            "15",
            "50 kg",
            "110.2 lb",
            "Ana Ruiz",
            "next, attempt 1 of 3",
            "then 55 kg",
            "Bo Lind",
            "nothing was called yet",
        ]
    );
    typed(&mut desk, "");
    says(
        &desk,
        Board::Loaders,
        &[
            "Nothing to change",
            "called, attempt 1 of 3",
            "the bar stands at 50 kg",
        ],
    );
    // A load that is changed after the call is another one than stands there.
    typed(&mut desk, "3 51");
    says(&desk, Board::Loaders, &["Add 0.5 each side", "51 kg"]);
    typed(&mut desk, "www");
    typed(&mut desk, "60");
    says(
        &desk,
        Board::Loaders,
        &[
            "Add 2.5, take off 0.5 each side",
            "15",
            "2.5",
            "55 kg",
            "Bo Lind",
            "then 58 kg",
            "Cy Marsh",
            "the bar stands at 51 kg",
        ],
    );
    later(&mut desk, 20);
    typed(&mut desk, "");
    says(
        &desk,
        Board::Loaders,
        &[
            "Nothing to change",
            "Not done yet? From 51 kg: add 2.5, take off 0.5 each side.",
        ],
    );
    // A call that is undone never put anything on the bar.
    press_in(&mut desk, window::Id::unique(), "ctrl+z");
    press_in(&mut desk, window::Id::unique(), "ctrl+z");
    says(
        &desk,
        Board::Loaders,
        &["Add 2.5, take off 0.5 each side", "the bar stands at 51 kg"],
    );
}

#[test]
fn another_bar_is_told_before_the_discs() {
    let mut desk = mixed("bars");
    typed(&mut desk, "");
    says(
        &desk,
        Board::Loaders,
        &[
            "Take the 15 kg bar, add 15 each side",
            "45 kg",
            "then 60 kg",
        ],
    );
    typed(&mut desk, "");
    later(&mut desk, 20);
    typed(&mut desk, "w");
    // Lot 2 has the women's bar at 60 kg, lot 9 the men's.
    says(
        &desk,
        Board::Loaders,
        &["Add 20 and 2.5, take off 15 each side", "Una F."],
    );
    later(&mut desk, 20);
    typed(&mut desk, "");
    later(&mut desk, 20);
    typed(&mut desk, "w");
    says(
        &desk,
        Board::Loaders,
        &[
            "Change to the 20 kg bar, add 20 each side",
            "One side, from the inside, on the 20 kg bar",
            "Ole B.",
        ],
    );
}

#[test]
fn a_load_that_cant_be_made_is_told_with_its_neighbours() {
    let mut desk = mixed("not-made");
    set(&mut desk, "discs.1", "20x2 10x2 5x1");
    set(&mut desk, "bar.1", "20");
    typed(&mut desk, "");
    typed(&mut desk, "4 47.5");
    let all = texts(&desk, Board::Loaders);
    let told = "47.5 kg can't be made from the discs on platform 1; 40 kg and 50 kg can.";
    assert!(all.iter().any(|t| t == told), "{all:?}");
    assert!(!all.iter().any(|t| t.starts_with("One side")), "{all:?}");
}

#[test]
fn the_warm_up_is_told_who_is_called_when() {
    let mut desk = desk_with_meet("warm-up");
    typed(&mut desk, "");
    // A pace of 90 s, give or take 30, before anything was seen: lot 3 is next.
    let now = desk.effects_mut().now();
    let lines = warm_up::lines(desk.facts(), 1, now);
    let told: Vec<String> = lines
        .iter()
        .map(|l| {
            format!(
                "{} {} {} {} out {} at {} +-{}",
                l.number, l.name, l.attempt, l.load, l.out, l.call, l.off
            )
        })
        .collect();
    let pace = desk.facts().rules.pace;
    assert_eq!(pace, 90);
    assert_eq!(
        told,
        [
            "3 Ana Ruiz 1 50 out 0 at 09:00 +-",
            "7 Bo Lind 1 55 out 2 at 09:03 +-1 min",
            "12 Cy Marsh 1 58 out 4 at 09:06 +-1 min",
        ]
    );
    typed(&mut desk, "");
    let all = texts(&desk, Board::WarmUp);
    for words in ["called", "55", "give or take", "call about", "1 min"] {
        assert!(all.iter().any(|t| t == words), "{words} isn't in {all:?}");
    }
    let foot = all.last().unwrap();
    assert!(
        foot.starts_with(
            "Flight A: 9 attempts left, over about 09:14, give or take 2 min."
        ),
        "{foot}"
    );
    // A break is counted down on top.
    typed(&mut desk, "www");
    typed(&mut desk, "break 10");
    later(&mut desk, 60);
    for board in [Board::WarmUp, Board::Hall, Board::Loaders] {
        later(&mut desk, 9);
        let left = texts(&desk, board);
        let left = left.iter().find(|t| t.starts_with("Break, "));
        assert!(left.is_some(), "{board:?}");
    }
}

#[test]
fn boards_obey_the_posting_policy_and_show_no_bodyweight() {
    let mut desk = mixed("boards-posting");
    for line in ["", ""] {
        typed(&mut desk, line);
    }
    for (policy, shows) in [("full", "Ida Storm"), ("initial", "Ida S."), ("number", "")]
    {
        set(&mut desk, "posting-name", policy);
        for board in Board::ALL {
            let all = texts(&desk, board);
            for name in ["Ida Storm", "Ida S."] {
                let there = all.iter().any(|t| t.contains(name));
                assert_eq!(there, name == shows, "{board:?} {policy}: {all:?}");
            }
            let family = all.iter().any(|t| t.contains("Falk"));
            assert_eq!(family, policy == "full", "{board:?} {policy}: {all:?}");
            for weight in ["56.2", "71.3", "62.1"] {
                assert!(!all.iter().any(|t| t.contains(weight)), "{board:?}");
            }
        }
    }
    assert!(texts(&desk, Board::WarmUp).contains(&"4".to_owned()));
    assert!(texts(&desk, Board::Loaders).contains(&"No. 4".to_owned()));
}

#[test]
fn a_board_that_was_closed_opens_again_as_it_was() {
    let mut desk = desk_with_meet("boards-windows");
    for line in ["", ""] {
        typed(&mut desk, line);
    }
    let before: Vec<Vec<String>> = Board::ALL.map(|b| texts(&desk, b)).into();
    let ids: Vec<window::Id> = Board::ALL
        .into_iter()
        .map(|board| turn(&mut desk, board).unwrap())
        .collect();
    for (board, id) in Board::ALL.into_iter().zip(&ids) {
        assert_eq!(desk.windows().board_in(*id), Some(board));
        assert!(desk.title(*id).starts_with(board.label()));
        // Moved, covered and made larger: nothing of it is asked of the desk.
        let _ = desk.update(Message::Resized(*id, SCREENS[1]));
        let mut ui = Simulator::with_size(settings(), WINDOW, desk.view(*id));
        let shown = texts(&desk, board);
        assert!(ui.find(shown[1].as_str()).is_ok());
    }
    // One is closed by its own button, one by its key in its window, one by
    // its key at the table.
    let _ = desk.update(Message::Closed(ids[0]));
    press_in(&mut desk, ids[1], "ctrl+u");
    press_in(&mut desk, window::Id::unique(), "ctrl+w");
    for board in Board::ALL {
        assert_eq!(desk.windows().window_of(board), None, "{board:?}");
    }
    assert_eq!(desk.screen(), Some(maxday::desk::screen::ScreenId::Table));
    for (board, old) in Board::ALL.into_iter().zip(&ids) {
        let id = turn(&mut desk, board).unwrap();
        assert_ne!(id, *old);
        assert!(!desk.windows().is_full(id));
    }
    let after: Vec<Vec<String>> = Board::ALL.map(|b| texts(&desk, b)).into();
    assert_eq!(before, after);
}

#[test]
fn one_key_makes_a_board_full_screen() {
    let mut desk = desk_with_meet("boards-full");
    let ids = Board::ALL.map(|board| turn(&mut desk, board).unwrap());
    for id in ids {
        press_in(&mut desk, id, "F11");
        let full: Vec<bool> = ids.map(|i| desk.windows().is_full(i)).into();
        assert_eq!(full, ids.map(|i| i == id), "only that one");
        press_in(&mut desk, id, "Esc");
        assert!(!desk.windows().is_full(id));
    }
    // Every board is in the one table of actions, with a key.
    for board in Board::ALL {
        let row = action::row_of(board.action()).unwrap();
        assert_eq!(row.label, board.label());
        let key = row.key.unwrap().to_string();
        let told = desk.table().answer().unwrap().clone().unwrap();
        assert!(told.contains("F11 there makes it full-screen"), "{told}");
        assert!(!key.is_empty());
    }
}

#[test]
fn boards_ask_for_ticks_only_while_a_clock_runs() {
    let mut desk = desk_with_meet("boards-ticks");
    let still = desk.subscription().units();
    for board in Board::ALL {
        let _ = turn(&mut desk, board);
        assert_eq!(desk.subscription().units(), still, "{board:?}");
    }
    typed(&mut desk, "");
    assert_eq!(desk.subscription().units(), still, "nothing runs yet");
    typed(&mut desk, "");
    assert_eq!(desk.subscription().units(), still + 1, "the clock runs");
    typed(&mut desk, "www");
    later(&mut desk, 600);
    let now = desk.effects_mut().now();
    assert!(!see::moves(desk.facts(), now));
    assert_eq!(desk.subscription().units(), still, "all is shown");
}

const NAMES: [&str; 3] = [
    "Bo",
    "Ana Ruiz",
    "Wilhelmina Featherstonehaugh-Cholmondeley",
];

const WORDS: [&str; 3] = [
    "Nothing to change",
    "Add 10, take off 2.5 each side",
    "182.5 kg can't be made from the discs on platform 2; 180 kg and 185 kg can.",
];

#[test]
fn what_is_read_from_afar_has_capitals_of_a_twentieth_of_the_window() {
    let some: Vec<String> = ["25", "20", "2.5"].map(String::from).into();
    let many: Vec<String> = vec!["22.5".to_owned(); 12];
    for room in SCREENS {
        let large = |what: &str, size: f32| {
            let capital = size * font::CAP_HEIGHT;
            let least = room.height * LEAST_CAPITAL;
            assert!(capital >= least - 0.01, "{what} in {room:?}: {capital}");
        };
        for name in NAMES {
            let sizes = hall::sizes(name, room);
            large("the hall's name", sizes.name);
            large("the hall's load", sizes.load);
            large("the hall's clock", sizes.clock);
            large("the hall's break", sizes.times);
            for (words, discs) in WORDS.iter().zip([&some, &many, &Vec::new()]) {
                let sizes = loaders::sizes(words, discs, name, room);
                large("the loaders' words", sizes.words);
                large("the loaders' discs", sizes.discs);
                large("the loaders' load", sizes.load);
                large("the loaders' name", sizes.name);
                large("the load after", sizes.then);
            }
        }
        for rows in 1..=7 {
            large("a row", warm_up::layout(rows, false, room).size);
        }
        for rows in 1..=6 {
            large(
                "a row under a break",
                warm_up::layout(rows, true, room).size,
            );
        }
    }
    assert!((LEAST_CAPITAL - 0.05).abs() < f32::EPSILON);
    assert!((font::CAP_HEIGHT - 0.714).abs() < f32::EPSILON);
}

/// The same from what is laid out: a text is as high as its lines, which are
/// `line` times the type size.
#[test]
fn what_is_laid_out_has_the_computed_sizes() {
    let mut desk = desk_with_meet("boards-laid-out");
    for line in ["", ""] {
        typed(&mut desk, line);
    }
    for room in SCREENS {
        for (board, words, line) in [
            (Board::Hall, "Ana Ruiz", 1.15),
            (Board::Hall, "50 kg", 1.1),
            (Board::Hall, "1:00", 1.1),
            (Board::Loaders, "Nothing to change", 1.2),
            (Board::Loaders, "15", 1.15),
            (Board::Loaders, "50 kg", 1.1),
            (Board::Loaders, "Ana Ruiz", 1.15),
            (Board::Loaders, "then 55 kg", 1.3),
            (Board::WarmUp, "Ana Ruiz", 1.3),
            (Board::WarmUp, "50", 1.3),
            (Board::WarmUp, "called", 1.3),
        ] {
            let all = laid_out(&desk, board, room);
            let found = all.iter().find(|(text, _)| text == words);
            let (_, at) = found.unwrap_or_else(|| panic!("{words}: {all:?}"));
            let capital = at.height / line * font::CAP_HEIGHT;
            assert!(
                capital >= room.height / 20.0 - 0.01,
                "{board:?} {words}: {capital} of {room:?}"
            );
        }
    }
}

/// At 90 s an attempt with nine attempts of others before it, lot 9's snatch is
/// far out: 50, 70, 80 and 90 % of 80 are 40, 56, 64 and 72 kg.
#[test]
fn the_warm_up_is_told_which_set_is_due() {
    let mut roster = String::from("lot,given,family,sex,flight,session,snatch\n");
    for (lot, opener) in [(1, 50), (2, 52), (3, 54), (9, 80)] {
        roster.push_str(&format!("{lot},Ann,Row{lot},F,A,1,{opener}\n"));
    }
    let mut desk = desk_with("warm-up-sets", "Sets", "weightlifting", &roster);
    typed(&mut desk, "");
    let now = desk.effects_mut().now();
    let told: Vec<String> = warm_up::sets::lines(desk.facts(), 1, now)
        .iter()
        .map(|l| {
            format!(
                "{} {} {} {}: {} at {}, {} out",
                l.number, l.name, l.lift, l.set, l.load, l.at, l.out
            )
        })
        .collect();
    // The call of lot 9 comes after the nine attempts of the others, in 13.5
    // minutes; a set is taken 3, 6, 9 and 12 minutes before: the first now plus
    // 1.5, that is 8 attempts out.
    let ninth = told.iter().find(|t| t.starts_with("9 ")).unwrap();
    assert_eq!(ninth, "9 Ann Row9 snatch 1 of 4: 40 kg x 5 at 09:02, 8 out");
    says(&desk, Board::WarmUp, &["1 of 4", "40 kg x 5", "09:02"]);
}

#[test]
fn however_many_are_still_to_lift_they_stay_in_the_window() {
    for room in SCREENS {
        for rows in 1..=60 {
            let layout = warm_up::layout(rows, true, room);
            assert!(layout.size >= room.height * 0.03 - 0.01, "{rows}");
            assert!(layout.columns == 2 || layout.rows == rows);
        }
        let many = warm_up::layout(60, true, room);
        assert!(many.rows * many.columns >= 28, "{many:?}");
    }
    let mut roster = String::from("lot,given,family,sex,flight,back-squat\n");
    for lot in 1..=40 {
        roster.push_str(&format!("{lot},Given,Family{lot},F,A,{}\n", 40 + 5 * lot));
    }
    let mut desk = desk_of("boards-many", "Many", "max-day", None, &roster);
    typed(&mut desk, "");
    let all = texts(&desk, Board::WarmUp);
    let rows = all.iter().filter(|t| t.starts_with("Given ")).count();
    let foot = all.last().unwrap();
    assert!(
        rows < 40 && foot.starts_with(&format!("And {} more.", 40 - rows)),
        "{foot}"
    );
}

/// The longest of everything: names, discs, words, a break and many rows.
#[test]
fn nothing_runs_out_of_the_window() {
    let mut roster = String::from("lot,given,family,sex,flight,power-clean\n");
    for lot in 1..=16 {
        let name = "Wilhelmina,Featherstonehaugh-Cholmondeley";
        roster.push_str(&format!("{lot},{name},F,A,{}\n", 180 + 5 * lot));
    }
    let mut desk = desk_of("boards-long", "Long", "max-day", Some(2), &roster);
    set(&mut desk, "posting-name", "full");
    let inside = |desk: &Desk, what: &str| {
        for room in [SCREENS[0], SCREENS[1], WINDOW] {
            for board in Board::ALL {
                for (text, at) in laid_out(desk, board, room) {
                    let low = at.y + at.height;
                    assert!(low <= room.height * 0.98, "{what} {board:?} {text}: {low}");
                    assert!(at.x >= 0.0 && at.x <= room.width, "{board:?} {text}");
                }
            }
        }
    };
    inside(&desk, "nothing runs");
    set(&mut desk, "discs.1", "20x1 15x1 10x2 5x2 2.5x4 1.25x2");
    typed(&mut desk, "");
    inside(&desk, "the first load");
    typed(&mut desk, "break 10");
    inside(&desk, "a break");
    typed(&mut desk, "");
    inside(&desk, "called");
    typed(&mut desk, "w");
    later(&mut desk, 20);
    inside(&desk, "the next load");
    set(&mut desk, "discs.1", "20x1");
    inside(&desk, "not made");
}
