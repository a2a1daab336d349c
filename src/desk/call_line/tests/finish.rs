//! Names and remarks that are finished from their start.

use super::*;
use crate::desk::call_line::{finished, finished_signed};

#[test]
fn who_signed_before_is_finished_from_any_word_of_the_name() {
    let mut hall = Hall::meet();
    assert!(finished("check h", &hall.day).is_empty(), "nobody signed");
    hall.type_in(&["check Coach Orla Hartwick"]);
    hall.type_in(&["check Ms Hale"]);
    // The newest before the older.
    let names = finished("ch h", &hall.day);
    assert_eq!(names, ["ch Ms Hale", "ch Coach Orla Hartwick"]);
    assert_eq!(
        finished("check orla h", &hall.day),
        ["check Coach Orla Hartwick"]
    );
    assert_eq!(finished("check ", &hall.day).len(), 2);
    assert!(finished("check Ms Hale", &hall.day).is_empty());
    assert!(finished("check", &hall.day).is_empty());
    assert_eq!(
        finished_signed("no; orl", &hall.day),
        ["no; Coach Orla Hartwick"]
    );
    assert_eq!(
        finished_signed("no; who=ms", &hall.day),
        ["no; who=Ms Hale"]
    );
    assert!(finished_signed("no; ", &hall.day).is_empty());
    assert!(finished_signed("no", &hall.day).is_empty());
}

#[test]
fn a_remark_is_finished_by_what_was_said_before_then_by_what_is_usual() {
    let mut hall = Hall::meet();
    let usual = finished("3 withdraw sn so", &hall.day);
    assert!(
        usual.contains(&"3 withdraw sn sore wrist".to_owned()),
        "{usual:?}"
    );
    hall.type_in(&["7 withdraw snatch sore from yesterday"]);
    let now = finished("3 wi snatch so", &hall.day);
    assert_eq!(now[0], "3 wi snatch sore from yesterday");
    assert_eq!(now.len(), usual.len() + 1);
    // Each kind has its own; a load or lights have none.
    assert!(finished("3 extra sore", &hall.day).is_empty());
    assert!(!finished("3 extra a sp", &hall.day).is_empty());
    for line in ["3 85", "wwr ", "3 85 w", "call 3", "", "start sn", "3 w so"] {
        assert!(finished(line, &hall.day).is_empty(), "{line}");
    }
    assert!(finished_signed("yes; Ms Hale; orm is", &hall.day).is_empty());
    assert_eq!(
        finished_signed("yes; Ms Hale; the form is", &hall.day),
        ["yes; Ms Hale; the form is on file"]
    );
}

#[test]
fn what_is_finished_is_what_enter_takes() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A", "call", "wrr"]);
    let number = hall.facts().entries_by_number().next().unwrap().number;
    let line = format!("{number} overrule good the dep");
    let whole = finished(&line, &hall.day);
    assert_eq!(
        whole[0],
        format!("{number} overrule good the depth was reached")
    );
    let meaning = read(&whole[0], hall.facts(), 1).unwrap();
    let Some(Command::Rerule { reason, .. }) = meaning.command() else {
        panic!("{meaning:?}");
    };
    assert_eq!(reason, "the depth was reached");
}

#[test]
fn a_pass_without_a_number_is_of_whoever_owes_a_request() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A", "call", "www"]);
    let owes = crate::desk::call_line::asked(hall.facts(), 1).unwrap();
    let meaning = read("pass", hall.facts(), 1).unwrap();
    let Some(Command::Pass { which, .. }) = meaning.command() else {
        panic!("{meaning:?}");
    };
    assert_eq!(which.number, Some(owes.number));
    hall.type_in(&["pass"]);
    let entry = hall.facts().entry_by_number(owes.number).unwrap();
    assert_eq!(hall.facts().next_attempt(entry.key, &owes.slot), Some(3));
}

#[test]
fn no_word_behind_a_pass_is_lost() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A"]);
    let rest = |line: &str| match read(line, hall.facts(), 1).unwrap().command() {
        Some(Command::Pass { rest, .. }) => *rest,
        other => panic!("{other:?}"),
    };
    assert!(!rest("3 pass"));
    for line in ["3 pass all", "3 rest", "3 rest all", "3 pass rest"] {
        assert!(rest(line), "{line}");
    }
    let why = read("3 rest sore shoulder", hall.facts(), 1).unwrap_err();
    assert!(why.contains("“sore shoulder” would be lost"), "{why}");
    let note = hall.says("3 note sore shoulder");
    assert!(note.starts_with("Notes about lot 3, "), "{note}");
}
