//! One key, or a few letters, for what is done most.

use super::*;
use crate::desk::call_line::{
    ReasonFor, lights_by_key, reason_by_key, reasons_by_key, rise_by_key,
};
use crate::desk::see;

fn meet_with_a_lift(lights: &str) -> Hall {
    let mut hall = Hall::new("weightlifting", Unit::Kg, None, ROSTER);
    hall.type_in(&["start snatch A", "call", lights]);
    hall
}

#[test]
fn one_judges_light_differs_from_the_others() {
    let mut hall = Hall::new("weightlifting", Unit::Kg, None, ROSTER);
    hall.type_in(&["start snatch A"]);
    hall.type_in(&["call"]);
    let letters = |light, but| {
        let command = lights_by_key(hall.facts(), 1, light, but).unwrap();
        let Command::Lights { outcome, which, .. } = command else {
            panic!("no lights");
        };
        assert_eq!(which.number, None, "the athlete called");
        let letter = |l: &Light| if *l == Light::White { 'w' } else { 'r' };
        outcome.lights.iter().map(letter).collect::<String>()
    };
    assert_eq!(letters(Light::White, None), "www");
    assert_eq!(letters(Light::White, Some(1)), "rww");
    assert_eq!(letters(Light::White, Some(3)), "wwr");
    assert_eq!(letters(Light::Red, Some(2)), "rwr");
    let why = lights_by_key(hall.facts(), 1, Light::White, Some(4)).unwrap_err();
    assert_eq!(why, "There is no judge 4: 3 give lights.");
}

#[test]
fn where_the_queue_is_advice_the_lights_are_for_the_first_in_it() {
    let mut hall = Hall::new(
        "max-day",
        Unit::Lb,
        Some("power-clean,back-squat"),
        ROSTER_MAX,
    );
    hall.type_in(&["start power-clean A"]);
    let command = lights_by_key(hall.facts(), 1, Light::White, None).unwrap();
    assert_eq!(
        say(hall.facts(), 1, &command),
        "Lot 3, Ana Ruiz: good lift."
    );
    hall.enter(&command).unwrap();
    // Lot 7 is next and owes the opener.
    let why = lights_by_key(hall.facts(), 1, Light::White, None).unwrap_err();
    assert_eq!(
        why,
        "Lot 7 is next and owes the load: type it before the lights."
    );
}

#[test]
fn a_reason_goes_by_its_number_and_the_same_takes_it_back() {
    let mut hall = meet_with_a_lift("wrr");
    let (what, reasons) = reasons_by_key(hall.facts(), 1).unwrap();
    assert_eq!(what, ReasonFor::Given(3));
    assert_eq!(reasons.len(), 9);
    for n in [1, 3] {
        let command = reason_by_key(hall.facts(), 1, n).unwrap();
        hall.enter(&command).unwrap();
    }
    let named = |hall: &Hall| -> Vec<String> {
        let (_, _, _, ruled) = see::last_ruled(hall.facts(), 1).unwrap();
        ruled.fact.faults.iter().map(|f| f.code.clone()).collect()
    };
    assert_eq!(named(&hall), [reasons[0].clone(), reasons[2].clone()]);
    let command = reason_by_key(hall.facts(), 1, 1).unwrap();
    hall.enter(&command).unwrap();
    assert_eq!(named(&hall), [reasons[2].clone()]);
    // After white lights there is nothing to name.
    let white = meet_with_a_lift("www");
    assert!(reasons_by_key(white.facts(), 1).is_none());
    assert!(reason_by_key(white.facts(), 1, 1).is_err());
}

#[test]
fn a_reason_by_its_number_rules_whoever_is_called() {
    let mut hall = meet_with_a_lift("wrr");
    hall.type_in(&["call"]);
    let called = hall.facts().platform(1).unwrap().call.clone().unwrap();
    let number = hall.facts().entries[&called.entry].number;
    let (what, reasons) = reasons_by_key(hall.facts(), 1).unwrap();
    assert_eq!(what, ReasonFor::Red(number));
    let command = reason_by_key(hall.facts(), 1, 2).unwrap();
    hall.enter(&command).unwrap();
    let (entry, _, attempt, ruled) = see::last_ruled(hall.facts(), 1).unwrap();
    assert_eq!((entry.number, attempt), (number, called.attempt));
    assert_eq!(ruled.fact.lights, [Light::Red; 3]);
    assert_eq!(ruled.fact.faults[0].code, reasons[1]);
    assert!(reason_by_key(hall.facts(), 1, 10).is_err());
}

#[test]
fn the_word_of_a_reason_alone_is_read_while_it_is_missing() {
    let mut hall = meet_with_a_lift("wwr");
    assert!(
        hall.says("press").contains("press"),
        "{}",
        hall.says("press")
    );
    hall.type_in(&["press"]);
    let (_, _, _, ruled) = see::last_ruled(hall.facts(), 1).unwrap();
    assert_eq!(ruled.fact.faults[0].code, "press-out");
    assert!(ruled.fact.ruling.is_good(), "two white lights");
}

#[test]
fn the_next_load_is_a_few_steps_more() {
    let hall = meet_with_a_lift("www");
    // 50 was good; a step is a kilogram.
    let two = rise_by_key(hall.facts(), 1, 2).unwrap();
    assert_eq!(say(hall.facts(), 1, &two), hall.says("2"));
    assert_eq!(hall.says("2"), hall.says("+2"));
    assert!(hall.says("2").contains("52 kg"), "{}", hall.says("2"));
    // What is filled in is declared by an empty line.
    assert!(hall.says("").contains("51 kg"), "{}", hall.says(""));
    // An opener has nothing to rise over.
    let opener = Hall::new("weightlifting", Unit::Kg, None, ROSTER);
    assert!(rise_by_key(opener.facts(), 1, 1).is_err());
}

#[test]
fn an_athlete_goes_by_the_start_of_a_name() {
    let roster = "lot,given,family,flight,platform,snatch,clean-and-jerk
3,Ana,Ruiz-Dorn,A,1,50,62
7,Björn,Lind,A,1,55,70
12,Anton,Marsh,A,1,58,75
";
    let hall = Hall::new("weightlifting", Unit::Kg, None, roster);
    assert_eq!(hall.says("ruiz snatch 52"), hall.says("3 snatch 52"));
    assert_eq!(hall.says("dorn snatch 52"), hall.says("3 snatch 52"));
    assert_eq!(hall.says("BJO away"), hall.says("7 away"));
    assert_eq!(hall.says("marsh"), hall.says("who 12"));
    assert_eq!(
        hall.says("an snatch 52"),
        "no: “an” could be lot 3 Ana Ruiz-Dorn, lot 12 Anton Marsh; write more of the \
         name, or the number."
    );
    assert!(hall.says("zz snatch 52").contains("not understood"));
}

#[test]
fn words_and_lifts_go_by_their_start() {
    let hall = meet_with_a_lift("www");
    assert_eq!(
        hall.says("3 wi c sore wrist"),
        hall.says("3 withdraw clean-and-jerk sore wrist")
    );
    assert_eq!(hall.says("7 p"), hall.says("7 pass"));
    assert_eq!(hall.says("b 10"), hall.says("break 10"));
    assert_eq!(hall.says("7 c 72"), hall.says("7 clean-and-jerk 72"));
    // The first word of a reason isn't taken for a lift.
    assert!(hall.says("3 withdraw clean break").contains("clean break"));
}

#[test]
fn an_earlier_attempt_is_named_by_its_number() {
    let mut hall = meet_with_a_lift("www");
    hall.type_in(&["", "call 3"]);
    assert!(
        hall.says("3 1 l 51 k").contains("attempt 1"),
        "{}",
        hall.says("3 1 l 51 k")
    );
    assert_eq!(
        hall.command("3 snatch 1 overrule no press-out"),
        hall.command("3 snatch 1 o n press-out")
    );
}
