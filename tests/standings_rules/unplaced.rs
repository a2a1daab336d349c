//! Guests, and who was disqualified.

use maxday::day::Command;
use maxday::roster::Change;
use maxday::sheets::{Audience, standings_table, with_notes};
use maxday::standings::{Basis, Standing};

use crate::day::{
    cell, disqualify, edit, groups, line, mass, max_day, paper, placed, placed_in,
    somebody, tallied,
};
use crate::support::{Table, request};

const LIFTS: [&str; 2] = ["back-squat", "bench-press"];

/// Squat and bench: lot 1 100 + 60, lot 2 90 + 70, lot 3 80 + 50.
fn three() -> Table {
    let mut table = max_day(&LIFTS);
    let _ = table.ok(Command::Add(
        (1..=3).map(|n| somebody(n, &LIFTS, vec![])).collect(),
    ));
    for (number, squat, bench) in [(1, "100", "60"), (2, "90", "70"), (3, "80", "50")] {
        tallied(&mut table, number, "back-squat", &[squat]);
        tallied(&mut table, number, "bench-press", &[bench]);
    }
    table
}

#[test]
fn a_guest_is_not_placed_and_others_as_if_the_guest_were_not_there() {
    let mut table = three();
    let first = |table: &Table| groups(table, Basis::Category).remove(0);
    // 160, 160, 130: equal totals share the first place on a max day's chain.
    assert_eq!(
        placed_in(&table, &first(&table), 0),
        [(1, Some(1)), (2, Some(2)), (3, Some(3))]
    );
    edit(&mut table, 1, vec![Change::Guest(true)]);
    let group = first(&table);
    assert_eq!(
        placed(&table, &group),
        [(2, Some(1)), (3, Some(2)), (1, None)]
    );
    assert_eq!(
        placed_in(&table, &group, 0),
        [(2, Some(1)), (3, Some(2)), (1, None)]
    );
    assert_eq!(
        placed_in(&table, &group, 1),
        [(2, Some(1)), (3, Some(2)), (1, None)]
    );
    let guest = line(&table, 1);
    assert_eq!(guest.standing, Standing::Guest);
    assert_eq!(guest.total, Some(mass("160")));
    assert_eq!(guest.slots[0].best, Some((1, mass("100"))));
    edit(&mut table, 1, vec![Change::Guest(false)]);
    assert_eq!(line(&table, 1).slots[0].place, Some(1));
}

#[test]
fn a_guest_stays_in_the_group_after_who_is_placed_and_who_has_no_total() {
    let mut table = three();
    let _ = table.ok(Command::Add(vec![somebody(4, &LIFTS, vec![])]));
    edit(&mut table, 1, vec![Change::Guest(true)]);
    disqualify(&mut table, 2, None, "left the hall");
    let group = groups(&table, Basis::Category).remove(0);
    assert_eq!(
        placed(&table, &group),
        [(3, Some(1)), (4, None), (1, None), (2, None)]
    );
}

#[test]
fn disqualified_on_the_day_has_no_place_and_no_total_but_keeps_its_bests() {
    let mut table = three();
    disqualify(&mut table, 2, None, "left the hall");
    let out = line(&table, 2);
    assert_eq!(out.standing, Standing::Disqualified);
    assert_eq!((out.place, out.total), (None, None));
    assert!(
        out.slots
            .iter()
            .all(|s| s.place.is_none() && s.disqualified)
    );
    assert_eq!(out.slots[1].best, Some((1, mass("70"))));
    assert_eq!(line(&table, 1).place, Some(1));
    assert_eq!(line(&table, 3).place, Some(2));
    assert_eq!(line(&table, 1).slots[1].place, Some(1));
}

#[test]
fn disqualified_in_a_lift_is_still_placed_in_the_others() {
    let mut table = three();
    disqualify(&mut table, 1, Some("bench-press"), "struck the bar");
    let out = line(&table, 1);
    assert_eq!(out.standing, Standing::Placed);
    assert_eq!((out.place, out.total), (None, None));
    assert_eq!(out.slots[0].place, Some(1));
    assert_eq!(out.slots[1].place, None);
    assert_eq!(line(&table, 2).slots[1].place, Some(1));
    assert_eq!(line(&table, 3).slots[1].place, Some(2));
    assert_eq!(line(&table, 2).place, Some(1));
    // Asked for nothing more there, but goes on elsewhere.
    let kg = crate::support::kg("105");
    let _ = table.no(request(1, "bench-press", &kg));
    table.request(1, "back-squat", &kg);
}

#[test]
fn a_lift_that_is_taken_back_counts_again() {
    let mut table = three();
    disqualify(&mut table, 1, None, "left the hall");
    assert_eq!(line(&table, 1).total, None);
    let _ = table.ok(Command::Undo(maxday::day::Line::Roster));
    assert_eq!(line(&table, 1).total, Some(mass("160")));
    assert_eq!(line(&table, 1).standing, Standing::Placed);
}

#[test]
fn the_csv_keeps_its_columns_and_leaves_place_and_total_blank() {
    let mut table = three();
    let before = standings_table(table.facts(), Basis::Category, Audience::Private);
    edit(&mut table, 1, vec![Change::Guest(true)]);
    disqualify(&mut table, 2, None, "left the hall");
    let sheet = standings_table(table.facts(), Basis::Category, Audience::Private);
    assert_eq!(sheet.csv_header(), before.csv_header());
    assert_eq!(cell(&sheet, 1, "place"), "");
    assert_eq!(cell(&sheet, 1, "total"), "160");
    assert_eq!(cell(&sheet, 2, "total"), "");
    assert_eq!(cell(&sheet, 2, "back-squat best"), "90");
    assert_eq!(cell(&sheet, 2, "back-squat place"), "");
    assert_eq!(cell(&sheet, 3, "place"), "1");
    let noted = with_notes(sheet, table.facts());
    assert_eq!(cell(&noted, 1, "note"), "guest");
    assert_eq!(cell(&noted, 2, "note"), "disqualified");
    assert_eq!(cell(&noted, 3, "note"), "");
}

#[test]
fn papers_say_guest_and_disqualified_and_why_only_in_the_archive() {
    let mut table = three();
    edit(&mut table, 1, vec![Change::Guest(true)]);
    disqualify(&mut table, 2, None, "left the hall");
    disqualify(&mut table, 3, Some("bench-press"), "struck the bar");
    for audience in [Audience::Private, Audience::Posted] {
        let text = paper(&table, "results", audience);
        for words in ["guest", "disqualified", "disqualified in bench press"] {
            assert!(text.contains(words), "{words}\n{text}");
        }
        let told = text.contains("left the hall") && text.contains("struck the bar");
        let hidden = !text.contains("left the hall") && !text.contains("struck the bar");
        match audience {
            Audience::Private => assert!(told, "{text}"),
            Audience::Posted => assert!(hidden, "{text}"),
        }
        let text = paper(&table, "start-list", audience);
        assert!(text.contains("guest") && !text.contains("hall"), "{text}");
    }
    let text = paper(&table, "score-sheets", Audience::Private);
    assert!(text.contains("guest") && text.contains("disqualified"));
    // By number alone there is no name under which the word could stand.
    table.set("posting-name", "number");
    let text = paper(&table, "results", Audience::Posted);
    assert!(
        text.contains("guest") && text.contains("disqualified"),
        "{text}"
    );
}
