//! Athletes who go to another rack from the table, end to end.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use desk_support::{desk_of, later, line, pressed, settings, typed};
use iced::Size;
use iced_test::Simulator;
use maxday::day::{Command, Stamp, queue};
use maxday::desk::app::Desk;
use maxday::file::Live;
use maxday::sheets::{ending, suggested_move};

const SMALL: Size = Size::new(1366.0, 740.0);

fn shown(desk: &Desk, words: &str) -> bool {
    let mut ui = Simulator::with_size(settings(), SMALL, desk.main());
    ui.find(words).is_ok()
}

/// Racks with so many athletes each, in one session that ends at 09:40; the
/// squat is started everywhere; the time is 09:00.
fn racks(name: &str, athletes: &[u16]) -> Desk {
    let mut roster = String::from("lot,given,family,sex,flight,platform,back-squat\n");
    for (rack, many) in (1_u16..).zip(athletes) {
        let flight = char::from(b'@' + u8::try_from(rack).unwrap());
        for n in 1..=*many {
            let lot = rack * 10 + n;
            roster.push_str(&format!("{lot},Ann,Row{lot},F,{flight},{rack},100\n"));
        }
    }
    let racks = u8::try_from(athletes.len()).unwrap();
    let mut desk = desk_of(name, "Racks", "max-day", Some(racks), &roster);
    set(&mut desk, "session.1", "08:30-09:40");
    for rack in 1..=racks {
        let start = Command::Start {
            platform: Some(rack),
            lift: desk.facts().slot_of("back-squat").unwrap().0.slot.clone(),
            session: Some("1".into()),
            flight: Some(char::from(b'@' + rack).to_string()),
        };
        desk.effects_mut().submit(&start).unwrap();
    }
    later(&mut desk, 0);
    desk
}

fn set(desk: &mut Desk, key: &str, value: &str) {
    let set = Command::Set(vec![(key.into(), value.into())]);
    desk.effects_mut().submit(&set).unwrap();
    later(desk, 0);
}

fn on(desk: &Desk, rack: u8) -> Vec<u16> {
    let order = queue(desk.facts(), rack);
    order.iter().map(|q| q.number).collect()
}

fn suggested(desk: &mut Desk, from: u8) -> Option<(u16, u8)> {
    let now: Stamp = desk.effects_mut().now();
    suggested_move(desk.facts(), from, now).map(|m| (m.number, m.to))
}

#[test]
fn an_athlete_goes_to_another_rack_by_one_line() {
    let mut desk = racks("moves", &[3, 2, 2]);
    typed(&mut desk, "12 100 w");
    line(&mut desk, "12 to 3");
    let promise = "Lot 12 Ann Row12 goes to platform 3, flight C, with all attempts. Back squat \
                   runs there. The Flights screen (F5) undoes it.";
    assert_eq!(desk.table().promise(), Some(&Ok(promise.to_owned())));
    typed(&mut desk, "12 to 3");
    assert!(!on(&desk, 1).contains(&12));
    let order = queue(desk.facts(), 3);
    let moved = order.iter().find(|q| q.number == 12).unwrap();
    // The attempt that is in came along.
    assert_eq!(moved.attempt, 2);
    // So it is in the file.
    let path = desk.effects_mut().path().unwrap().to_owned();
    let live = Live::open_read(&path).unwrap();
    let facts = live.day().facts();
    assert_eq!(
        facts.platform_of(facts.entry_by_number(12).unwrap()),
        Some(3)
    );
    // One undo on the Flights screen takes it back.
    pressed(&mut desk, "F5");
    pressed(&mut desk, "ctrl+z");
    pressed(&mut desk, "ctrl+z");
    assert!(on(&desk, 1).contains(&12));
}

#[test]
fn whoever_is_next_goes_without_a_number() {
    let mut desk = racks("next", &[2, 2]);
    set(&mut desk, "platform.2", "Rack 2");
    let first = on(&desk, 1)[0];
    typed(&mut desk, "to rack 2");
    assert!(on(&desk, 2).contains(&first), "{:?}", on(&desk, 2));
    // Who is called stays until that attempt is over.
    typed(&mut desk, "call");
    let before = on(&desk, 1);
    typed(&mut desk, "to 2");
    assert!(
        matches!(desk.table().answer(), Some(Err(_))),
        "{:?}",
        desk.table().answer()
    );
    assert_eq!(on(&desk, 1), before);
}

#[test]
fn a_rack_that_isnt_there_is_named() {
    let mut desk = racks("none", &[2, 2]);
    for (text, said) in [
        (
            "11 to",
            "To which platform? Write its number, 1 to 2: 12 to 2.",
        ),
        (
            "11 to 5",
            "There is no platform “5”; write its number, 1 to 2.",
        ),
        ("11 to 1", "Lot 11 is on platform 1 already."),
    ] {
        line(&mut desk, text);
        assert_eq!(desk.table().promise(), Some(&Err(said.to_owned())));
    }
}

/// By hand: three lifts of three attempts, 45 s an attempt, a third of it off
/// each, two breaks of 5 min. Rack 1 has 6 athletes, 54 attempts: 40.5 and 10
/// make 50.5 min, give or take 1.75 (the root of 54 is 7, of 15 s each), and
/// the bell in 40: it won't end in time. Rack 2 has 18 attempts, 23.5 min; with
/// the nine of one more, 6.75 min, it ends in 30.25, give or take 1, and rack 1
/// in 43.75. Rack 3 has 27 attempts: 30.25 and then 37 min.
#[test]
fn a_move_is_suggested_only_where_it_is_clearly_right() {
    let mut desk = racks("suggested", &[6, 2, 3]);
    let now = desk.effects_mut().now();
    let minutes =
        |rack| ending(desk.facts(), rack, now).map(|e| (e.attempts, e.takes / 1000));
    assert_eq!(minutes(1), Some((54, 3030)));
    assert_eq!(minutes(2), Some((18, 1410)));
    let last = *on(&desk, 1).last().unwrap();
    assert_eq!(suggested(&mut desk, 1), Some((last, 2)));
    let words =
        format!("Platform 2 has time for lot {last} of platform 1: type {last} to 2.");
    assert!(shown(&desk, &words), "{words}");
    // It is the same where another rack is in hand.
    pressed(&mut desk, "ctrl+p");
    assert!(shown(&desk, &words), "{words}");
    typed(&mut desk, &format!("{last} to 2"));
    // Rack 1 still ends too late, in 43.75, give or take 1.5; both others would
    // end in 37 with one more, as rack 1 then would: the first of them.
    assert_eq!(suggested(&mut desk, 1).map(|m| m.1), Some(2));
    // Nobody is sent where it would be too late there as well.
    set(&mut desk, "session.1", "08:30-09:37");
    assert_eq!(suggested(&mut desk, 1), None);
    // Nor where all ends in time, or where no end is planned.
    set(&mut desk, "session.1", "08:30-10:00");
    assert_eq!(suggested(&mut desk, 1), None);
}
