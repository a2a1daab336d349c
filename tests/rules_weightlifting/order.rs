//! The order of call and the bar that never comes down.

use maxday::day::{Command, Granted, Refusal};

use super::support::{kg, which, who};
use super::{meet, refused, snatch};

#[test]
fn the_lowest_load_is_called_first() {
    // TCRR on the order of call: lowest weight first.
    let table = snatch(&[(1, "62"), (2, "60"), (3, "61")]);
    assert_eq!(table.order(), [2, 3, 1]);
}

#[test]
fn at_the_same_load_the_lower_attempt_goes_first() {
    // TCRR on the order of call: a first attempt before a second.
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    table.lift(1, "www");
    table.request(1, "snatch", &kg("61"));
    assert_eq!(table.order(), [2, 1]);
    table.lift(2, "rrr");
    // Both take a second attempt at 61 now; lot 1 took the first one earlier.
    assert_eq!(table.order(), [1, 2]);
}

#[test]
fn at_the_same_attempt_who_took_the_previous_one_earlier_goes_first() {
    // TCRR on the order of call, the item before art. 6.5.9.
    let mut table = snatch(&[(1, "61"), (2, "60")]);
    table.lift(2, "www");
    table.request(2, "snatch", &kg("63"));
    table.lift(1, "www");
    table.request(1, "snatch", &kg("63"));
    assert_eq!(table.order(), [2, 1], "lot 2 has rested longer");
}

#[test]
fn equal_openers_are_called_by_number() {
    // TCRR on the order of call: start number; an older text says lot.
    let table = snatch(&[(9, "60"), (4, "60"), (7, "60")]);
    assert_eq!(table.order(), [4, 7, 9]);
}

#[test]
fn the_queue_is_law() {
    // TCRR 6.5: the order of call is binding.
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    let refusal = table.no(Command::Call {
        which: who(2, "snatch"),
        load: None,
        platform: Some(1),
    });
    assert!(
        matches!(refusal, Refusal::NotNext { number: 1, .. }),
        "{refusal}"
    );
}

#[test]
fn the_bar_never_comes_down_once_a_load_was_called() {
    // Published guide to the sport: the weight is never reduced.
    let mut table = snatch(&[(1, "60"), (2, "64"), (3, "70")]);
    table.lift(1, "rrr");
    table.request(1, "snatch", &kg("70"));
    table.lift(2, "www");
    let refusal = refused(&mut table, 3, "63");
    assert!(
        matches!(&refusal, Refusal::TooLight { least, .. } if least == "64 kg"),
        "{refusal}"
    );
    table.request(3, "snatch", &kg("64"));
}

#[test]
fn a_called_load_binds_although_the_call_is_taken_back() {
    // "Once a weight has been called": from memory of the wording.
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    assert_eq!(table.call(), 1);
    table.request(1, "snatch", &kg("65"));
    assert_eq!(table.called(), None, "lot 2 is next at 61");
    let refusal = refused(&mut table, 2, "59");
    assert!(
        matches!(&refusal, Refusal::TooLight { least, .. } if least == "60 kg"),
        "{refusal}"
    );
}

#[test]
fn the_bar_comes_down_only_to_put_an_official_error_right() {
    // "Except to correct an official error": from memory.
    let mut table = snatch(&[(1, "60"), (2, "62"), (3, "70")]);
    table.lift(1, "rrr");
    table.request(1, "snatch", &kg("70"));
    table.lift(2, "www");
    // The bar had 65 for lot 1, who may take that attempt again at 60.
    let _ = table.ok(Command::Loaded {
        which: which(1, "snatch", 1),
        load: kg("65"),
        granted: Granted::Repeat,
        platform: None,
    });
    assert_eq!(table.order()[0], 1);
    assert_eq!(table.call(), 1);
    let facts = table.facts();
    let call = facts.platform(1).unwrap().call.as_ref().unwrap();
    assert_eq!((call.attempt, &call.load), (1, &kg("60")));
}

#[test]
fn the_order_of_call_is_data() {
    // TCRR on the order of call, step 3: that it walks back in time is an
    // interpretation, from memory. Without that key the number decides.
    let script = "lights|2|||60|www
        request|2|||63
        lights|1|||61|www
        request|1|||63";
    let mut table = meet("1 A 61 90\n2 A 60 90");
    table.play(script);
    table.play("? queue 1: 2@63 1@63");
    let mut table = meet("1 A 61 90\n2 A 60 90");
    table.play("set|||||order=load attempt number");
    table.play(script);
    table.play("? queue 1: 1@63 2@63");
}

#[test]
fn whether_the_bar_may_come_down_is_data() {
    // Published guide to the sport: never. A school may say otherwise.
    let mut table = meet("1 A 60 90\n2 A 64 90");
    table.play(
        "lights|1|||60|www
        request|1|||70
        lights|2|||64|www
        ! request|1|||63 => the bar is at 64 kg
        set|||||bar=free
        request|1|||63",
    );
}
