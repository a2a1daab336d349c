//! Words of the call line beside loads and lights, and what is advised.

use super::*;

const ROSTER_CLEAN: &str =
    "lot,given,family,flight,platform,clean,back-squat,back-squat last
3,Ana,Ruiz,A,1,60,100,105
7,Bo,Lind,A,1,65,110,
";

fn with(set: &[(&str, &str)]) -> Hall {
    let mut hall = Hall::new(
        "max-day",
        Unit::Kg,
        Some("clean=power-clean+hang-power-clean,back-squat"),
        &ROSTER_CLEAN.replace(",clean,", ",power-clean,"),
    );
    let set: Vec<_> = set
        .iter()
        .map(|(key, word)| ((*key).to_owned(), (*word).to_owned()))
        .collect();
    if !set.is_empty() {
        hall.enter(&Command::Set(set)).unwrap();
    }
    hall
}

#[test]
fn a_disqualification_needs_a_reason() {
    let mut hall = Hall::meet();
    assert!(
        hall.says("7 disqualify")
            .starts_with("no: A disqualification needs a reason: 7 disqualify why")
    );
    assert!(
        hall.says("7 disqualify snatch")
            .starts_with("no: A disqualification needs a reason")
    );
    assert_eq!(
        hall.says("7 disqualify threw the bar"),
        "Lot 7, Bo Lind is disqualified on the day: threw the bar."
    );
    assert_eq!(
        hall.says("7 disqualify snatch wrong suit"),
        "Lot 7, Bo Lind is disqualified in snatch: wrong suit."
    );
    hall.type_in(&["7 disqualify threw the bar"]);
    assert!(hall.says("who 7").contains("disqualified"));
}

#[test]
fn a_guest_is_named_and_unnamed() {
    let mut hall = Hall::meet();
    assert_eq!(
        hall.says("7 guest"),
        "Lot 7, Bo Lind lifts as a guest, without a place."
    );
    hall.type_in(&["7 guest"]);
    assert!(hall.says("7").contains("; guest"));
    assert_eq!(
        hall.says("7 guest no"),
        "Lot 7, Bo Lind is no guest and is placed."
    );
    hall.type_in(&["7 guest no"]);
    assert!(!hall.says("7").contains("guest"));
    assert!(
        hall.says("7 guest perhaps")
            .starts_with("no: Write 7 guest")
    );
}

#[test]
fn a_challenge_that_changes_nothing_is_said_to_be_lost() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A", "call", "rrw press-out"]);
    assert_eq!(
        hall.says("3 challenge good film"),
        "Challenge of Lot 3, Ana Ruiz: good lift."
    );
    assert_eq!(
        hall.says("3 challenge no film"),
        "Challenge of Lot 3, Ana Ruiz: no lift; that stands already, so the challenge is \
         lost."
    );
    assert!(
        hall.says("3 challenge")
            .ends_with("The ruling that stands is a challenge lost.")
    );
    hall.type_in(&["3 challenge no film"]);
}

#[test]
fn repetitions_are_read_where_they_are_written() {
    let mut hall = with(&[("reps", "multiple")]);
    hall.type_in(&["start back-squat A", "check Mr Iyer"]);
    let tally = |line: &str| match hall.command(line) {
        Command::Tally { load, outcome, .. } => {
            (load.unwrap().typed, outcome.reps, outcome.ruling.unwrap())
        }
        other => panic!("{other:?}"),
    };
    let five = ("85".to_owned(), Some(5), Ruling::Good);
    for line in [
        "3 85x5 good",
        "3 85 x5 good",
        "3 85kg x5 good",
        "3 tally 85x5 good",
        "3 tally 85 good x5",
    ] {
        assert_eq!(tally(line), five, "{line}");
    }
    assert_eq!(tally("3 85 no").2, Ruling::No);
    assert_eq!(
        hall.says("3 85x5 good"),
        "From the card: Lot 3, Ana Ruiz at 85 kg, good lift of 5 repetitions."
    );
    assert_eq!(
        hall.says("3 100x3 w"),
        "Lot 3, Ana Ruiz at 100 kg: good lift of 3 repetitions."
    );
    assert!(hall.says("3 85x5").starts_with("no: Write what became of"));
    assert!(hall.says("3 85x99 good").contains("x2 to x20"));
    hall.type_in(&["3 85x5 good"]);
    let slot = &hall.facts().slots[1].slot;
    let key = hall.facts().numbers[&3];
    let ruled = hall.facts().attempt(key, slot, 1).unwrap();
    assert_eq!(ruled.ruled.as_ref().unwrap().fact.reps, 5);
}

#[test]
fn another_variant_is_entered_as_what_it_was() {
    let mut hall = with(&[("wrong-catch", "reclassify")]);
    hall.type_in(&["start clean A", "check Mr Iyer", "call 3"]);
    for line in ["w as hang-power-clean", "w hang-power-clean"] {
        assert_eq!(
            hall.says(line),
            "Lot 3, Ana Ruiz: good lift, entered as hang power clean.",
            "{line}"
        );
    }
    hall.type_in(&["w as hang-power-clean"]);
    let key = hall.facts().numbers[&3];
    let lift = |hall: &Hall, n| {
        let slot = &hall.facts().slots[0].slot;
        let attempt = hall.facts().attempt(key, slot, n).unwrap();
        attempt.ruled.as_ref().unwrap().fact.lift.to_string()
    };
    assert_eq!(lift(&hall, 1), "hang-power-clean");
    assert_eq!(
        hall.says("3 hang-power-clean 62.5 w"),
        "Lot 3, Ana Ruiz at 62.5 kg: good lift, entered as hang power clean."
    );
    hall.type_in(&["62.5", "3 tally hang-power-clean 62.5 good"]);
    assert_eq!(lift(&hall, 2), "hang-power-clean");
    assert_eq!(hall.says("r"), "The athlete called: no lift.");
}

/// Up to 20 % for the lower body after a good lift; 10 % less after a no lift
/// (published test protocols; the rules' data).
#[test]
fn the_next_load_is_advised_after_a_good_lift_and_after_a_no_lift() {
    let mut hall = with(&[]);
    hall.type_in(&["start back-squat A", "check Mr Iyer", "3 100 w"]);
    let last = |hall: &Hall| remarks(hall.facts(), 1, hall.now);
    assert_eq!(last(&hall), ["Advised for lot 3, attempt 2: up to 120 kg."]);
    assert_eq!(
        hall.says("122.5"),
        "Lot 3, Ana Ruiz asks for 122.5 kg in back squat, attempt 2, 2.5 kg more than the \
         120 kg that is advised."
    );
    hall.type_in(&["110", "3 110 r not-deep"]);
    assert_eq!(
        last(&hall),
        [
            "Advised for lot 3 after the no lift: the same load once more, or down to 97.5 kg."
        ]
    );
    hall.enter(&Command::Set(vec![("jumps".into(), "off".into())]))
        .unwrap();
    assert!(last(&hall).is_empty());
    assert!(!hall.says("3 122.5").contains("advised"));
}

/// Published protocols find the max within 3 to 5 trials.
#[test]
fn many_maximal_attempts_are_remarked_and_leave_is_offered() {
    let mut hall = with(&[("warn-after", "3")]);
    hall.type_in(&[
        "start back-squat A",
        "check Mr Iyer",
        "3 100 w",
        "105",
        "3 105 w",
    ]);
    let list = |hall: &Hall| remarks(hall.facts(), 1, hall.now).join(" ");
    assert!(!list(&hall).contains("maximal"), "{}", list(&hall));
    hall.type_in(&["110", "3 110 w"]);
    assert_eq!(
        list(&hall),
        "Lot 3 has made 3 maximal attempts in back squat. Lot 3 has no attempt left in back squat; \
         Ctrl+E gives one more by leave."
    );
}

#[test]
fn rest_is_marked_in_the_queue() {
    let mut hall = with(&[("rest", "120")]);
    hall.type_in(&["start back-squat A", "check Mr Iyer", "3 100 w", "105"]);
    hall.now = hall.now.plus_ms(39_000);
    let marks = |hall: &Hall| {
        crate::day::queue(hall.facts(), 1)
            .iter()
            .map(|q| crate::desk::see::mark(hall.facts(), q, hall.now))
            .collect::<Vec<_>>()
    };
    assert_eq!(marks(&hall), ["", "rests 1:20"]);
    assert!(crate::desk::see::moves(hall.facts(), hall.now));
    hall.now = hall.now.plus_ms(80_000);
    assert_eq!(marks(&hall), ["", "rested"]);
    assert!(!crate::desk::see::moves(hall.facts(), hall.now));
}

/// Weigh-in from two hours before the start to half an hour before it, then
/// introduction and countdown (IWF as published; the rules' data).
#[test]
fn the_times_before_a_session_are_counted_down() {
    let mut hall = Hall::meet();
    let set = [
        ("session.1", "10:30-12:00"),
        ("weigh-in-opens", "120"),
        ("weigh-in-lasts", "60"),
        ("introduction", "15"),
        ("countdown", "10"),
    ];
    let set = set.map(|(k, v)| (k.to_owned(), v.to_owned())).to_vec();
    hall.enter(&Command::Set(set)).unwrap();
    let told = |hall: &Hall| remarks(hall.facts(), 1, hall.now).join(" ");
    assert_eq!(
        told(&hall),
        "Session 1: weigh-in 08:30 to 09:30 (open, 30 min left), introduction 10:15 (in 1 h \
         15 min), countdown 10:20 (in 1 h 20 min), start 10:30 (in 1 h 30 min)."
    );
    hall.now = hall.now.plus_ms(85 * 60_000);
    assert_eq!(
        told(&hall),
        "Session 1: weigh-in 08:30 to 09:30 (over), introduction 10:15, countdown 10:20, \
         start 10:30 (in 5:00)."
    );
    assert!(crate::desk::see::moves(hall.facts(), hall.now));
    hall.type_in(&["start snatch A"]);
    assert_eq!(told(&hall), "");
}

#[test]
fn a_load_that_the_discs_cant_make_is_said_with_its_neighbours() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A"]);
    assert_eq!(
        hall.says("7 57"),
        "Lot 7, Bo Lind asks for 57 kg instead of 55 kg."
    );
    let few = vec![
        ("discs.1".into(), "10x1 5x1 2.5x1".into()),
        ("bar.1".into(), "25 kg".into()),
        ("platform.1".into(), "Rack 1".into()),
    ];
    hall.enter(&Command::Set(few)).unwrap();
    assert_eq!(
        hall.says("7 57"),
        "Lot 7, Bo Lind asks for 57 kg, which the discs on Rack 1 can't make; \
         55 kg and 60 kg can."
    );
    assert_eq!(
        hall.says("7 60"),
        "Lot 7, Bo Lind asks for 60 kg instead of 55 kg."
    );
    assert_eq!(
        hall.says("7 62"),
        "Lot 7, Bo Lind asks for 62 kg, which the discs on Rack 1 can't make; 60 kg can."
    );
    // A rise is counted from what stands.
    assert_eq!(
        hall.says("7 +5"),
        "Lot 7, Bo Lind asks for 60 kg (5 kg more) instead of 55 kg."
    );
    assert_eq!(
        hall.says("7 +2"),
        "Lot 7, Bo Lind asks for 57 kg (2 kg more), which the discs on Rack 1 can't make; \
         55 kg and 60 kg can."
    );
    // Beside another remark both are said.
    assert_eq!(
        hall.says("7 162"),
        "Lot 7, Bo Lind asks for 162 kg, 107 kg more than the 55 kg that stands: check the \
         number; the discs on Rack 1 can't make it; 60 kg can."
    );
    // It is said, never refused.
    hall.type_in(&["7 62"]);
}
