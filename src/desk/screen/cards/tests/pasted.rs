//! Cells from a spreadsheet, what differs, and what is missing.

use super::*;
use crate::desk::screen::cards::lay::cells;

fn pasted(day: &mut Day, cards: &mut Cards, text: &str) -> Vec<String> {
    let refusals = tell(day, cards, Message::Grid(Event::Pasted(text.to_owned())));
    cards.foresee(day, &context());
    refusals
}

fn line(cards: &Cards) -> Result<String, String> {
    cards
        .said
        .clone()
        .unwrap_or_else(|| cards.pasted.as_ref().unwrap().line())
}

#[test]
fn clipboard_text_becomes_rows_of_cells() {
    let rows = |text: &str| -> Vec<String> {
        cells(text).into_iter().map(|row| row.join("|")).collect()
    };
    assert_eq!(rows("60\tg\r\n65\t n \r\n"), ["60|g", "65|n", ""]);
    assert_eq!(rows("a\rb\n\nc"), ["a", "b", "", "c"]);
    // A cell in quotes may hold a tab, a line end and doubled quotes.
    assert_eq!(rows("\"6\"\"0\t\n1\"\tg"), ["6\"0\t 1|g"]);
    assert_eq!(rows("6\"\tg"), ["6\"|g"]);
}

#[test]
fn rows_from_a_spreadsheet_are_recorded_all_at_once() {
    let (mut day, mut cards) = started(1..=3, "60");
    let before = day.journal().len();
    let text = "\tg\t65\tno lift\r\n50\tgood\t\t\r\n40\tg\t45\r\n";
    let _ = pasted(&mut day, &mut cards, text);
    assert_eq!(
        line(&cards).unwrap(),
        "3 rows pasted: 4 attempts are new, 1 request is new. Enter records all at once; Esc \
         takes them away."
    );
    // Nothing is recorded yet, and no other key does it.
    assert!(play(&mut day, &mut cards, "<Down>7<Tab><PageDown>").is_empty());
    assert_eq!(day.journal().len(), before);
    assert_eq!(play(&mut day, &mut cards, "<Enter>"), Vec::<String>::new());
    assert_eq!(written(&day, 1, "clean"), ["60 good", "65 no"]);
    assert_eq!(written(&day, 2, "clean"), ["50 good"]);
    assert_eq!(written(&day, 3, "clean"), ["40 good"]);
    assert!(!cards.has_drafts());
    assert_eq!(line(&cards).unwrap(), "5 pasted attempts are recorded.");
}

#[test]
fn escape_takes_pasted_cells_away_and_leaves_what_was_typed() {
    let (mut day, mut cards) = started(1..=2, "");
    let _ = play(&mut day, &mut cards, "61");
    let _ = pasted(&mut day, &mut cards, "60\tg\n50\tg");
    let _ = play(&mut day, &mut cards, "<Escape>");
    let row = sheet_key(&day, &cards, 0);
    assert_eq!(cards.grid.draft(row, 2).unwrap().text, "61");
    assert_eq!(day.facts().runs.len(), 0);
}

#[test]
fn every_cell_that_cant_be_read_is_named_and_nothing_is_pasted() {
    let (mut day, mut cards) = started(1..=2, "");
    let _ = pasted(&mut day, &mut cards, "60\tg\nsixty\tg\n50\tq");
    let sentence = line(&cards).unwrap_err();
    assert!(
        sentence.starts_with(
            "Nothing was pasted: row 2, column 1, lot 2: “sixty” is not a number; "
        ),
        "{sentence}"
    );
    let no_row = "row 3, column 1, the card has no row for it: it ends 2 rows on";
    assert!(sentence.contains(no_row), "{sentence}");
    assert!(
        sentence.ends_with('.') && !sentence.contains(".;"),
        "{sentence}"
    );
    assert!(!cards.has_drafts() && cards.pasted.is_none());
    // Beyond the last attempt, and an attempt before its time.
    let _ = pasted(&mut day, &mut cards, "60\tg\t\t\t65\tg\t70\tg");
    let sentence = line(&cards).unwrap_err();
    assert!(
        sentence.contains("row 1, column 7, the card has no cell for “70”"),
        "{sentence}"
    );
    assert!(
        sentence.contains("row 1, column 5, lot 1: Attempt 2 of lot 1 comes first"),
        "{sentence}"
    );
    // Many faults are all named, the first ones with their reasons.
    let _ = pasted(&mut day, &mut cards, "a\tb\tc\td\te\tf\nx\t\tx\t\tx");
    let sentence = line(&cards).unwrap_err();
    for part in [
        "row 1, column 1, lot 1: “a” is not a number",
        "row 1, column 2, lot 1: “b” is no ruling",
        "row 1, column 3, lot 1: “c” is not a number",
    ] {
        assert!(sentence.contains(part), "{sentence}");
    }
    assert!(
        sentence.ends_with(
            "; also row 1 column 4, row 1 column 5, row 1 column 6, row 2 column 1, row 2 \
             column 3, row 2 column 5."
        ),
        "{sentence}"
    );
    assert_eq!(day.facts().runs.len(), 0);
}

#[test]
fn a_pasted_row_that_would_be_refused_holds_back_all() {
    let (mut day, mut cards) = started(1..=2, "");
    let before = day.journal().len();
    let _ = pasted(&mut day, &mut cards, "60\tg\n\tg");
    let sentence = line(&cards).unwrap_err();
    assert!(
        sentence.starts_with("Row 2, column 2 (lot 2): "),
        "{sentence}"
    );
    assert!(sentence.contains("Nothing is recorded"), "{sentence}");
    assert!(play(&mut day, &mut cards, "<Enter>").is_empty());
    // The file answers the same where nobody looked ahead.
    cards.pasted.as_mut().unwrap().tried = None;
    assert_eq!(play(&mut day, &mut cards, "<Enter>").len(), 1);
    assert!(
        line(&cards)
            .unwrap_err()
            .starts_with("Row 2, column 2 (lot 2): ")
    );
    assert_eq!(day.journal().len(), before);
}

#[test]
fn a_block_with_lots_goes_to_its_athletes_in_any_order() {
    let (mut day, mut cards) = started(1..=3, "");
    let text = "Lot\tAthlete\tFirst\tSecond\n3\tTest, Ann\t40 g\t45 kg no caught\n1\tAnn\t60g\tp";
    let _ = play(&mut day, &mut cards, "<Home>");
    let _ = pasted(&mut day, &mut cards, text);
    assert_eq!(play(&mut day, &mut cards, "<Enter>"), Vec::<String>::new());
    assert_eq!(written(&day, 1, "clean"), ["60 good", "pass"]);
    let third = written(&day, 3, "clean");
    assert_eq!(third[0], "40 good");
    assert!(third[1].starts_with("45 no "), "{third:?}");
    assert_eq!(written(&day, 2, "clean"), Vec::<String>::new());

    let _ = play(&mut day, &mut cards, "<Home>");
    let _ = pasted(
        &mut day,
        &mut cards,
        "2\tBea Lund\t40\tg\n9\tAnn\t40\tg\n2\tAnn\t40\tg",
    );
    let sentence = line(&cards).unwrap_err();
    for part in [
        "row 1, column 2, lot 2 is Ann Test here, not “Bea Lund”",
        "row 2, column 1, lot 9 isn't on this card",
        "row 3, column 1, that lot is in row 1 already",
    ] {
        assert!(sentence.contains(part), "{sentence}");
    }
}

#[test]
fn what_agrees_is_left_and_what_differs_is_compared() {
    let (mut day, mut cards) = started(1..=2, "82.5");
    let _ = play(&mut day, &mut cards, "g82.5n<Enter>80g<Enter>");
    cards.grid.go(Spot { row: 0, column: 2 });
    let _ = pasted(&mut day, &mut cards, "85\tg\t85\tn\t90\tg\n80\tg\t82.5\tg");
    assert_eq!(
        line(&cards).unwrap(),
        "2 rows pasted: 2 attempts are new, 2 attempts stand otherwise. Enter records what is \
         new at once, then compares; Esc takes them away."
    );
    let _ = play(&mut day, &mut cards, "<Enter>");
    assert_eq!(
        written(&day, 1, "clean"),
        ["82.5 good", "82.5 no", "90 good"]
    );
    assert_eq!(written(&day, 2, "clean"), ["80 good", "82.5 good"]);
    let shown = |cards: &Cards, day: &Day| {
        let case = cards.case(day.facts()).unwrap();
        let differs = case.differs;
        (case.who, differs.attempt, differs.stands, differs.card)
    };
    let lot = "lot 1 Ann Test".to_owned();
    assert_eq!(
        shown(&cards, &day),
        (
            lot.clone(),
            1,
            "good at 82.5 kg".to_owned(),
            "good at 85 kg".to_owned()
        )
    );
    let _ = tell(&mut day, &mut cards, Message::Moved(1));
    assert_eq!(
        shown(&cards, &day),
        (
            lot,
            2,
            "no lift at 82.5 kg".to_owned(),
            "no lift at 85 kg".to_owned()
        )
    );
    // One is kept, the other corrected.
    let _ = tell(&mut day, &mut cards, Message::Keep);
    assert_eq!(cards.differing(day.facts()), 1);
    assert_eq!(
        tell(&mut day, &mut cards, Message::Correct),
        Vec::<String>::new()
    );
    assert_eq!(written(&day, 1, "clean"), ["85 good", "82.5 no", "90 good"]);
    assert!(!cards.has_drafts());
    // The same once more: nothing is left to do.
    cards.grid.go(Spot { row: 0, column: 2 });
    let _ = pasted(
        &mut day,
        &mut cards,
        "85\tg\t82.5\tn\t90\tg\n80\tg\t82.5\tg",
    );
    assert_eq!(
        line(&cards).unwrap(),
        "2 rows pasted: all of it stands already. Enter goes on; Esc takes them away."
    );
    let before = day.journal().len();
    let _ = play(&mut day, &mut cards, "<Enter>");
    assert_eq!((day.journal().len(), cards.has_drafts()), (before, false));
}

#[test]
fn a_correction_that_is_refused_leaves_both_readings() {
    let (mut day, mut cards) = started(1..=1, "60");
    let _ = play(&mut day, &mut cards, "g<Enter>");
    cards.grid.go(Spot { row: 0, column: 2 });
    let _ = play(&mut day, &mut cards, "700<Enter>");
    let row = sheet_key(&day, &cards, 0);
    // Too heavy to be a load at all: said at its cell.
    assert!(cards.grid.draft(row, 2).unwrap().refused.is_some());
    assert!(cards.case(day.facts()).is_none());
    assert_eq!(written(&day, 1, "clean"), ["60 good"]);
}

#[test]
fn a_card_says_who_owes_which_attempt() {
    let (mut day, mut cards) = started(1..=4, "60");
    let sentence = |day: &Day, cards: &Cards| {
        Count::of(day.facts(), cards.card().unwrap()).sentence()
    };
    assert_eq!(
        sentence(&day, &cards),
        "0 of 12 attempts are in; lots 1, 2, 3, 4 owe the first."
    );
    let _ = play(&mut day, &mut cards, "g65g<Enter>g<Enter>g65n<Enter>");
    assert_eq!(
        sentence(&day, &cards),
        "5 of 12 attempts are in; lot 4 owes the first, lot 2 the second, lots 1, 3 the third."
    );
    let _ = play(&mut day, &mut cards, "ppp<Enter>");
    assert!(
        sentence(&day, &cards)
            .starts_with("8 of 12 attempts are in; lot 2 owes the second,"),
        "{}",
        sentence(&day, &cards)
    );
}

#[test]
fn all_cards_are_in_reach_by_key() {
    let (mut day, mut cards) = started(1..=2, "60");
    enter(&mut day, 30, "Bea", "B", "50");
    let key = |cards: &mut Cards, day: &Day, named: Named| {
        cards.key(&Press::named(named), day.facts()).unwrap()
    };
    let _ = play(&mut day, &mut cards, "62.5");
    let _ = tell(&mut day, &mut cards, Message::List);
    // The row that was left was handed in: a request.
    assert!(!cards.has_drafts());
    let all = card::all(day.facts());
    let names: Vec<String> = all
        .iter()
        .map(|id| format!("{} {}", id.flight, id.slot))
        .collect();
    assert_eq!(
        names,
        ["A clean", "A back-squat", "B clean", "B back-squat"]
    );
    for named in [
        Named::ArrowDown,
        Named::ArrowDown,
        Named::ArrowDown,
        Named::ArrowUp,
    ] {
        let message = key(&mut cards, &day, named);
        let _ = tell(&mut day, &mut cards, message);
    }
    let message = key(&mut cards, &day, Named::Enter);
    let _ = tell(&mut day, &mut cards, message);
    assert_eq!(cards.card(), Some(&all[2]));
    assert_eq!(play(&mut day, &mut cards, "g<Enter>"), Vec::<String>::new());
    assert_eq!(written(&day, 30, "clean"), ["50 good"]);
}
