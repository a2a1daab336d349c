//! The table in powerlifting: cards, records, minutes, changes, grants.

use super::*;

const ROSTER_LIFTERS: &str =
    "lot,given,family,flight,platform,sex,bodyweight,clearance,back-squat,bench-press,deadlift
3,Ana,Ruiz,A,1,F,56,yes,100,60,120
7,Bo,Lind,A,1,F,60,yes,105,62.5,130
12,Cy,Marsh,B,1,F,61,yes,110,65,140
";

fn lifters() -> Hall {
    Hall::new("powerlifting", Unit::Kg, None, ROSTER_LIFTERS)
}

fn started() -> Hall {
    let mut hall = lifters();
    hall.type_in(&["check Ms Bell", "start back-squat A"]);
    hall
}

fn codes(hall: &Hall, line: &str) -> Vec<String> {
    let Command::Lights { outcome, .. } = hall.command(line) else {
        panic!("{line}")
    };
    outcome.faults.into_iter().map(|f| f.code).collect()
}

fn remarks_of(hall: &Hall) -> Vec<String> {
    remarks(hall.facts(), 1, hall.now)
}

/// Failure cards as published by affiliates of the IPF: 1 red, 2 blue, 3
/// yellow.
#[test]
fn a_digit_behind_the_lights_names_the_failure_card() {
    let mut hall = started();
    hall.type_in(&["call"]);
    // Card 1 of the squat has one reason.
    assert_eq!(codes(&hall, "wrr 1"), ["not-deep-enough"]);
    assert_eq!(codes(&hall, "wrr 2 knees"), ["knees-not-locked"]);
    assert_eq!(codes(&hall, "wrr 2knees"), ["knees-not-locked"]);
    // A part of the word is enough, and the card parts what is alike.
    assert_eq!(codes(&hall, "wrr 2 bounce"), ["double-bounce"]);
    assert_eq!(
        codes(&hall, "rrr 1 2 down 3 feet"),
        ["not-deep-enough", "downward-movement", "feet-moved"]
    );
    // Every red light may have its own card.
    assert_eq!(
        codes(&hall, "rrr 1 feet 1"),
        ["not-deep-enough", "feet-moved"]
    );
    assert_eq!(
        hall.says("wrr 2"),
        "no: Card 2 blue is knees-not-locked or not-upright or double-bounce or \
         downward-movement; write the start of its word too."
    );
    assert!(
        hall.says("wrr 4").starts_with(
            "no: “4” is no failure card of the back squat; there is 1 red: "
        )
    );
    assert!(
        hall.says("wrr 2 feet")
            .starts_with("no: “feet” is no fault of the back squat; there is 1 red: ")
    );
    // A snatch has no cards.
    let mut meet = Hall::meet();
    meet.type_in(&["start snatch A", "call"]);
    let said = meet.says("rrr 1");
    assert!(
        said.starts_with("no: The snatch has no failure cards; there is "),
        "{said}"
    );
    assert!(said.contains("press-out, not-locked-out"), "{said}");
}

#[test]
fn the_missing_reason_asks_for_the_card_too_and_lists_by_cards() {
    let mut hall = started();
    hall.type_in(&["call", "wrr"]);
    assert!(hall.owed().iter().any(|s| {
        s.ends_with("its word, or fault and its card (1 red, 2 blue, 3 yellow).")
    }));
    assert_eq!(
        hall.says("fault"),
        "no: Write the reason: 1 red: not-deep-enough; 2 blue: knees-not-locked, \
         not-upright, double-bounce, downward-movement; 3 yellow: feet-moved, \
         signal-ignored, elbows-on-legs, spotter-touched, bar-dumped."
    );
    hall.type_in(&["fault 2 double"]);
    assert!(!hall.owed().iter().any(|s| s.contains("The reason")));
}

/// Record attempts may be half a kilogram above (IPF outline as published).
#[test]
fn a_request_for_a_record_is_said_as_such() {
    let mut hall = started();
    hall.type_in(&["call", "www"]);
    assert_eq!(
        hall.says("3 103 record"),
        "Lot 3, Ana Ruiz asks for 103 kg for a record."
    );
    assert_eq!(
        hall.says("103 record"),
        "Lot 3, Ana Ruiz asks for 103 kg for a record in back squat, attempt 2."
    );
    assert_eq!(
        hall.says("103 kg record"),
        "Lot 3, Ana Ruiz asks for 103 kg for a record in back squat, attempt 2."
    );
    assert_eq!(
        hall.says("102.75 record"),
        "Lot 3, Ana Ruiz asks for 102.75 kg for a record in back squat, attempt 2, which the discs on platform 1 can't make; 102.5 kg and 103 kg can."
    );
    assert!(matches!(
        hall.command("3 +3 record"),
        Command::Request {
            record: true,
            load: LoadAsked::Relative(_),
            ..
        }
    ));
    assert!(matches!(
        hall.command("3 105"),
        Command::Request { record: false, .. }
    ));
    hall.type_in(&["103 record", "call", "www", "107.5", "call"]);
    assert_eq!(
        remarks_of(&hall)[0],
        "103 kg is asked for a record; it stands now that it is called."
    );
    let next = crate::desk::see::up(hall.facts(), 1, hall.now).unwrap();
    let record = crate::desk::see::for_record(
        hall.facts(),
        next.entry.key,
        &next.slot,
        next.attempt,
    );
    assert!(record);
}

/// Within a minute of finishing (World Para Powerlifting, WDFPF, IPL as
/// published).
#[test]
fn the_minute_for_handing_in_is_counted_down() {
    let mut hall = started();
    hall.type_in(&["call", "www"]);
    hall.now = hall.now.plus_ms(20_000);
    assert_eq!(
        hall.owed()[0],
        "Lot 3 owes the request for attempt 2, to hand in within 60 s (40 left): type the \
         load. 102.5 kg stands until then."
    );
    assert!(hands_in(hall.facts(), 1, hall.now));
    // The next one is on the platform, and lot 3 may still hand in.
    hall.type_in(&["call", "wwr"]);
    assert!(hall.owed()[0].starts_with("Lot 7 owes the request for attempt 2"));
    assert_eq!(hall.owed()[1], "Also to hand in: lot 3, 38 s left.");
    // After the next call nobody is asked first, and who is called hands in
    // nothing any more.
    let mut later = hall.clone();
    later.type_in(&["call"]);
    assert_eq!(
        later.owed()[0],
        "To hand in their next attempts: lot 7, 59 s left."
    );
    // A bare load is the last one's.
    assert!(
        hall.says("110")
            .starts_with("Lot 7, Bo Lind asks for 110 kg")
    );
    hall.type_in(&["110", "3 105"]);
    assert!(!hall.owed().iter().any(|s| s.contains("and in")));

    let mut late = started();
    late.type_in(&["call", "www"]);
    late.now = late.now.plus_ms(61_000);
    assert!(!late.owed().iter().any(|s| s.contains("owes the request")));
    assert!(!hands_in(late.facts(), 1, late.now));
}

#[test]
fn a_called_load_stands_and_the_line_offers_no_other() {
    let mut hall = started();
    hall.type_in(&["call"]);
    assert_eq!(
        hall.says(""),
        "no: Lot 3 is called: type the lights, such as wwr; or pass."
    );
    assert_eq!(remarks_of(&hall)[0], "100 kg stands now that it is called.");
    // Nobody owes a request, so a load alone is none.
    assert!(
        hall.says("105")
            .starts_with("no: No entry has the number 105.")
    );
    assert!(hall.owed().is_empty(), "{:?}", hall.owed());
}

/// Two changes of the third deadlift (WDFPF 2007), until the call.
#[test]
fn changes_of_the_third_deadlift_are_counted_until_the_call() {
    let mut hall = lifters();
    hall.type_in(&[
        "check Ms Bell",
        "3 back-squat rest",
        "7 back-squat rest",
        "3 bench-press rest",
        "7 bench-press rest",
        "start deadlift A",
        "call",
        "www",
        "122.5",
        "call",
        "www",
        "132.5",
        "call",
        "www",
        "125",
        "call",
        "www",
        "135",
    ]);
    assert!(
        remarks_of(&hall)
            .iter()
            .any(|s| s == "Next, lot 3: 125 kg, 2 changes left until the call.")
    );
    hall.type_in(&["3 127.5"]);
    assert!(
        remarks_of(&hall)
            .iter()
            .any(|s| s == "Next, lot 3: 127.5 kg, 1 change left until the call.")
    );
    hall.type_in(&["3 130"]);
    assert!(!remarks_of(&hall).iter().any(|s| s.starts_with("Next")));
}

/// Openers close 5 minutes before the first flight, and with 5 attempts left
/// in the flight before (WDFPF 2007).
#[test]
fn the_openers_deadline_is_told() {
    let mut hall = lifters();
    hall.enter(&Command::Set(vec![(
        "session.1".to_owned(),
        "9:20-11:00".to_owned(),
    )]))
    .unwrap();
    hall.now = hall.now.plus_ms(10 * 60_000);
    let list = remarks_of(&hall);
    assert_eq!(
        list[0],
        "Openers close 5 minutes before the start, in 5:00."
    );
    assert_eq!(
        list[1],
        "Session 1: weigh-in 07:20 to 08:50 (over), start 09:20 (in 10 min)."
    );
    hall.now = hall.now.plus_ms(6 * 60_000);
    assert_eq!(remarks_of(&hall)[0], "Openers are closed.");

    let mut hall = started();
    assert!(remarks_of(&hall).iter().any(|s| s
        == "Openers of flight B close with 5 attempts left in flight A; 6 are left."));
    hall.type_in(&["call", "www"]);
    assert!(
        remarks_of(&hall)
            .iter()
            .any(|s| s == "Openers of flight B are closed.")
    );
}

/// A reprint of the IPF's loading errors: a lighter bar and a good lift may be
/// accepted or repeated; a miss is a new attempt.
#[test]
fn what_may_be_granted_is_listed() {
    let mut hall = started();
    hall.type_in(&["call", "www", "call", "rrw 1"]);
    assert_eq!(
        hall.says("3 loaded 97.5"),
        "no: Write what was on the bar and what is granted, 3 loaded 97.5 and: keep or \
         repeat (a lighter bar, good lift)."
    );
    assert!(
        hall.says("3 loaded 105")
            .contains("keep (a heavier bar, good lift)")
    );
    assert!(
        hall.says("7 loaded 107.5")
            .contains("repeat or again (a heavier bar, no lift)")
    );
    assert!(
        hall.says("7 loaded 105 which")
            .contains("(an uneven bar or a disturbance, no lift)")
    );
    assert_eq!(
        hall.says("3 loaded 97.5 keep"),
        "Lot 3, Ana Ruiz, attempt 1: 97.5 kg was on the bar; the ruling stands, and that load counts."
    );
}

#[test]
fn rounds_are_told_and_come_from_call_queue_or_the_last_ruling() {
    let round = |hall: &Hall| crate::desk::see::round(hall.facts(), 1);
    let mut hall = lifters();
    assert_eq!(round(&hall), None);
    hall.type_in(&["check Ms Bell", "start back-squat A"]);
    assert_eq!(round(&hall), Some(1));
    hall.type_in(&["call", "www", "102.5", "call", "www", "107.5"]);
    assert_eq!(round(&hall), Some(2));
    hall.type_in(&["call"]);
    assert_eq!(round(&hall), Some(2));
    hall.type_in(&["www", "3 rest", "7 rest"]);
    assert_eq!(round(&hall), Some(2));
    // Weightlifting has no rounds.
    let mut meet = Hall::meet();
    meet.type_in(&["start snatch A"]);
    assert_eq!(round(&meet), None);
}
