//! The discs of one side, predicted calls and the bell on the table screen.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use desk_support::{desk_of, later, settings, typed};
use iced::Size;
use iced_test::Simulator;
use maxday::day::Command;
use maxday::desk::app::Desk;
use maxday::sheets::{Ending, ending};

const SMALL: Size = Size::new(1366.0, 740.0);

fn shown(desk: &Desk, words: &str) -> bool {
    let mut ui = Simulator::with_size(settings(), SMALL, desk.main());
    ui.find(words).is_ok()
}

fn set(desk: &mut Desk, pairs: &[(&str, &str)]) {
    let pairs = pairs.iter().map(|(k, v)| ((*k).into(), (*v).into()));
    let set = Command::Set(pairs.collect());
    desk.effects_mut().submit(&set).unwrap();
    later(desk, 0);
}

/// Racks 1 to `racks` with two athletes each, in one session; the time is
/// 09:00.
fn racks(name: &str, racks: u16) -> Desk {
    let mut roster = String::from("lot,given,family,sex,flight,platform,back-squat\n");
    for rack in 1..=racks {
        for n in 1..=2 {
            let flight = char::from(b'A' + u8::try_from(rack - 1).unwrap());
            let opener = if (rack, n) == (2, 2) { "" } else { "100" };
            let lot = rack * 10 + n;
            roster.push_str(&format!("{lot},Ann,Row{lot},F,{flight},{rack},{opener}\n"));
        }
    }
    let mut desk = desk_of(
        name,
        "Racks",
        "max-day",
        Some(u8::try_from(racks).unwrap()),
        &roster,
    );
    set(&mut desk, &[("session.1", "08:30-09:10")]);
    if racks >= 3 {
        set(&mut desk, &[("platform.3", "Rack 3")]);
    }
    desk
}

/// Starts the squat of a rack's flight.
fn start(desk: &mut Desk, rack: u8) {
    let start = Command::Start {
        platform: Some(rack),
        lift: desk.facts().slot_of("back-squat").unwrap().0.slot.clone(),
        session: Some("1".into()),
        flight: Some(char::from(b'@' + rack).to_string()),
    };
    desk.effects_mut().submit(&start).unwrap();
    later(desk, 0);
}

/// What is left of a rack's session now.
fn left(desk: &mut Desk, rack: u8) -> Ending {
    let now = desk.effects_mut().now();
    ending(desk.facts(), rack, now).unwrap()
}

#[test]
fn the_discs_of_one_side_stand_under_the_load() {
    let mut desk = desk_support::desk_with_meet("side");
    typed(&mut desk, "");
    // 50 kg on a women's bar of 15 kg with collars of 2.5 kg each.
    assert!(shown(&desk, "15 each side, on bar and collars of 20 kg"));
    set(&mut desk, &[("discs.1", "20x1 10x1"), ("bar.1", "45 lb")]);
    assert!(shown(
        &desk,
        "50 kg can't be made from the discs on platform 1; 40.41165665 kg and 60.41165665 kg \
         can."
    ));
    set(&mut desk, &[("discs.1", "25lbx2 10"), ("bar.1", "30")]);
    assert!(shown(&desk, "10 each side, on bar and collars of 30 kg"));
    set(&mut desk, &[("bar.1", "50")]);
    assert!(shown(&desk, "No discs, bar and collars of 50 kg alone"));
    // On a max day it is the gym's bar, and a pound disc says so.
    let mut desk = racks("gym", 1);
    start(&mut desk, 1);
    assert!(shown(&desk, "20 + 20 + 2.5 each side, on the 15 kg bar"));
    set(&mut desk, &[("discs.1", "45lbx2 20x2"), ("bar.1", "60")]);
    assert!(shown(&desk, "20 each side, on the 60 kg bar"));
    set(
        &mut desk,
        &[("discs.1", "44lbx1"), ("bar.1", "60.08387144 kg")],
    );
    assert!(shown(&desk, "44lb each side, on the 60.08387144 kg bar"));
}

#[test]
fn the_queue_tells_when_calls_are_likely() {
    let mut desk = desk_support::desk_with_meet("about");
    typed(&mut desk, "");
    // Lot 3 begins at 50 and is likely to go to 53 and 56: two attempts come
    // before lot 7's 55; with its own one, four before lot 12's 58.
    let pace = desk.facts().rules.pace;
    assert!(shown(&desk, "About"));
    let minute = |ahead: u32| format!("09:{:02}", (pace * ahead + 30) / 60);
    assert!(shown(&desk, &minute(2)), "{}", minute(2));
    assert!(shown(&desk, &minute(4)), "{}", minute(4));
    let told = format!(
        "First about {}, last about {}, give or take 1 min.",
        minute(2),
        minute(4)
    );
    assert!(shown(&desk, &told), "{told}");
}

#[test]
fn the_bell_is_told_here_and_elsewhere() {
    let mut desk = racks("bell", 3);
    for rack in 1..=3 {
        start(&mut desk, rack);
    }
    let here = left(&mut desk, 1).words();
    assert!(here.contains(", bell in 10"), "{here}");
    assert!(
        shown(&desk, &format!("Left of session 1 here: {here}.")),
        "{here}"
    );
    assert!(shown(&desk, "Rack 3"));
    let there = left(&mut desk, 3).words();
    assert!(shown(&desk, &there), "{there}");
    // What another platform owes comes first.
    assert!(shown(&desk, "1 owed; next: 21 Ann Row21, 100"));
    // Past the bell it is said in words.
    set(&mut desk, &[("session.1", "08:00-08:57")]);
    let late = left(&mut desk, 1).words();
    assert!(late.contains("bell 3 min ago: won't end in time"), "{late}");
    assert!(shown(&desk, &format!("Left of session 1 here: {late}.")));
}

#[test]
fn many_racks_have_a_line_each_with_what_is_owed_first() {
    let mut desk = racks("many", 12);
    let time = left(&mut desk, 12).words();
    assert!(shown(&desk, "Platform 12"));
    assert!(shown(&desk, &time), "{time}");
    // Beside what is owed there is room for the time alone.
    start(&mut desk, 2);
    let time = left(&mut desk, 2).time_words();
    assert!(shown(&desk, &format!("1 owed; {time}")), "{time}");
}
