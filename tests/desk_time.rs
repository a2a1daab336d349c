//! The discs of one side, predicted calls and the bell on the table screen.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use desk_support::{desk_of, later, settings, typed};
use iced::Size;
use iced_test::Simulator;
use maxday::day::Command;
use maxday::desk::app::Desk;

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
    set(
        &mut desk,
        &[("session.1", "08:30-09:10"), ("platform.3", "Rack 3")],
    );
    desk
}

#[test]
fn the_queue_tells_when_calls_are_likely() {
    let mut desk = desk_support::desk_with_meet("about");
    typed(&mut desk, "");
    // A pace of 120 s: lot 3 is next, lots 7 and 12 follow.
    let pace = desk.facts().rules.pace;
    assert!(shown(&desk, "About"));
    let minute = |ahead: u32| format!("09:{:02}", (pace * ahead + 30) / 60);
    assert!(shown(&desk, &minute(1)), "{}", minute(1));
    assert!(shown(&desk, &minute(2)), "{}", minute(2));
    let told = format!(
        "The first about {}, give or take 1 min; the last about {}, give or take 1 min.",
        minute(1),
        minute(2)
    );
    assert!(shown(&desk, &told), "{told}");
}

#[test]
fn many_racks_have_a_line_each_with_what_is_owed_first() {
    let desk = racks("many", 12);
    let time = maxday::sheets::ending(desk.facts(), 12, desk_support::start());
    let time = time.unwrap().words();
    assert!(shown(&desk, "platform 12"));
    assert!(shown(&desk, &time), "{time}");
}
