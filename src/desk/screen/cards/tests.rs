//! Typed like a spreadsheet: the rack card.

mod pasted;

use super::*;
use crate::day::{Context, Day, Ruling};
use crate::desk::widget::grid::trial::{enter, keys, max_day, slug, submit};

/// Types a script and answers every act, as the shell does; gives the
/// refusals.
fn play(day: &mut Day, cards: &mut Cards, script: &str) -> Vec<String> {
    let messages = keys(script).into_iter().map(Message::Grid);
    messages.flat_map(|m| tell(day, cards, m)).collect()
}

/// Gives one message and answers every act that comes of it.
fn tell(day: &mut Day, cards: &mut Cards, message: Message) -> Vec<String> {
    let mut refusals = Vec::new();
    let mut message = Some(message);
    while let Some(now) = message.take() {
        let (_, out) = cards.update(now, day.facts());
        match out {
            Some(Out::Submit(command)) => {
                let answer = submit(day, &command);
                refusals.extend(answer.clone().err());
                let _ = cards.answered(answer, day.facts());
                if !cards.waiting.is_empty() {
                    message = Some(Message::Next);
                }
            }
            Some(Out::SubmitAll(commands)) => {
                // As the file does it: all or none.
                let mut trial = day.clone();
                let mut all = commands.iter().enumerate();
                let refused =
                    all.find_map(|(n, c)| Some((Some(n), submit(&mut trial, c).err()?)));
                if refused.is_none() {
                    *day = trial;
                }
                refusals.extend(refused.clone().map(|(_, sentence)| sentence));
                let _ = cards.all_answered(refused.map_or(Ok(()), Err), day.facts());
            }
            _ => {}
        }
    }
    refusals
}

fn context() -> Context {
    Context {
        at: crate::desk::widget::grid::trial::at(9000),
        hand: "test".into(),
        draw: 7,
    }
}

fn started(numbers: std::ops::RangeInclusive<u16>, opener: &str) -> (Day, Cards) {
    let mut day = max_day();
    for number in numbers {
        enter(&mut day, number, "Ann", "A", opener);
    }
    let mut cards = Cards::new();
    let _ = cards.shown(day.facts());
    (day, cards)
}

fn written(day: &Day, number: u16, slot: &str) -> Vec<String> {
    let facts = day.facts();
    let entry = facts.entry_by_number(number).unwrap();
    let Some(run) = facts.run(entry.key, &slug(slot)) else {
        return Vec::new();
    };
    run.attempts
        .values()
        .filter_map(|a| a.ruled.as_ref())
        .map(|r| {
            let load = r.fact.credited.as_ref().map(|w| w.show(facts.bar_unit));
            let faults: Vec<&str> =
                r.fact.faults.iter().map(|f| f.code.as_str()).collect();
            format!(
                "{} {} {}",
                load.unwrap_or_default(),
                r.fact.ruling,
                faults.join(",")
            )
            .trim()
            .to_owned()
        })
        .collect()
}

#[test]
fn a_row_is_typed_without_tab_and_recorded_on_enter() {
    let (mut day, mut cards) = started(1..=2, "");
    let refusals = play(&mut day, &mut cards, "60g65n70g");
    assert_eq!(refusals, Vec::<String>::new());
    assert!(cards.has_drafts());
    let _ = play(&mut day, &mut cards, "<Enter>");
    assert_eq!(written(&day, 1, "clean"), ["60 good", "65 no", "70 good"]);
    assert_eq!(cards.grid.cursor, Spot { row: 1, column: 2 });
    assert!(!cards.has_drafts());
}

#[test]
fn tab_works_as_well_and_enter_ends_a_short_row() {
    let (mut day, mut cards) = started(1..=2, "");
    let refusals = play(
        &mut day,
        &mut cards,
        "60<Tab>g65<Tab>n<Enter>50<Tab>p<Enter>",
    );
    assert_eq!(refusals, Vec::<String>::new());
    assert_eq!(written(&day, 1, "clean"), ["60 good", "65 no"]);
    assert_eq!(written(&day, 2, "clean").len(), 1);
}

#[test]
fn a_standing_request_is_taken_by_the_letter_alone() {
    let (mut day, mut cards) = started(1..=1, "60");
    assert_eq!(play(&mut day, &mut cards, "g<Enter>"), Vec::<String>::new());
    assert_eq!(written(&day, 1, "clean"), ["60 good"]);
}

#[test]
fn a_load_alone_is_a_request() {
    let (mut day, mut cards) = started(1..=1, "60");
    assert_eq!(
        play(&mut day, &mut cards, "g62.5<Enter>"),
        Vec::<String>::new()
    );
    let facts = day.facts();
    let entry = facts.entry_by_number(1).unwrap();
    let standing = crate::day::standing_request(facts, entry, &slug("clean"), 2).unwrap();
    assert_eq!(standing.load.show(facts.bar_unit), "62.5");
}

#[test]
fn a_no_lift_may_name_its_reason() {
    let (mut day, mut cards) = started(1..=2, "60");
    let script = "n caught<Tab>62.5n60n caught<Enter>";
    assert_eq!(play(&mut day, &mut cards, script), Vec::<String>::new());
    let lines = written(&day, 1, "clean");
    assert_eq!(lines.len(), 3, "{lines:?}");
    assert!(
        lines[0].starts_with("60 no ") && lines[0].len() > 8,
        "{lines:?}"
    );
    assert_eq!(lines[1], "62.5 no");
    assert_eq!(
        lines[0].split_once("no").unwrap().1,
        lines[2].split_once("no").unwrap().1
    );
}

#[test]
fn the_last_ruling_of_a_row_gives_way_to_the_next_row() {
    let (mut day, mut cards) = started(1..=3, "");
    assert_eq!(
        play(&mut day, &mut cards, "60g65g70n50gpp40g"),
        Vec::<String>::new()
    );
    assert_eq!(written(&day, 1, "clean"), ["60 good", "65 good", "70 no"]);
    assert_eq!(written(&day, 2, "clean"), ["50 good", "pass", "pass"]);
    let _ = play(&mut day, &mut cards, "<Enter>");
    assert_eq!(written(&day, 3, "clean"), ["40 good"]);
}

#[test]
fn refusals_stay_at_their_cells_with_the_text() {
    let (mut day, mut cards) = started(1..=2, "");
    let _ = play(&mut day, &mut cards, "60x<Enter>");
    let row = sheet_key(&day, &cards, 0);
    assert_eq!(cards.grid.draft(row, 2).unwrap().text, "60x");
    let sentence = cards.grid.refused(row).unwrap();
    assert!(sentence.contains("is not a number"), "{sentence}");
    // A ruling without a load, and an attempt before its time.
    let _ = play(&mut day, &mut cards, "g<Enter>");
    let second = sheet_key(&day, &cards, 1);
    assert!(
        cards
            .grid
            .refused(second)
            .unwrap()
            .contains("has not asked for a load")
    );
    assert_eq!(cards.grid.draft(second, 3).unwrap().text, "g");
    assert_eq!(day.facts().runs.len(), 0);
}

#[test]
fn a_reason_that_the_lift_does_not_have_is_refused_at_the_ruling() {
    let (mut day, mut cards) = started(1..=1, "60");
    let _ = play(&mut day, &mut cards, "n luck<Enter>");
    let row = sheet_key(&day, &cards, 0);
    let refused = cards.grid.draft(row, 3).and_then(|d| d.refused.clone());
    assert!(
        refused
            .unwrap()
            .contains("“luck” is no fault of the power clean")
    );
    assert_eq!(written(&day, 1, "clean"), Vec::<String>::new());
}

fn sheet_key(day: &Day, cards: &Cards, row: usize) -> u32 {
    CardSheet::new(day.facts(), cards.card().unwrap()).key(row)
}

#[test]
fn an_attempt_out_of_order_is_refused_with_the_one_that_comes_first() {
    let (mut day, mut cards) = started(1..=1, "");
    let _ = play(&mut day, &mut cards, "<Tab><Tab>60g<Enter>");
    let key = sheet_key(&day, &cards, 0);
    let sentence = cards.grid.refused(key).unwrap();
    assert!(
        sentence.starts_with("Attempt 1 of lot 1 comes first"),
        "{sentence}"
    );
}

#[test]
fn typing_over_a_ruled_attempt_is_compared_before_it_corrects() {
    let (mut day, mut cards) = started(1..=2, "60");
    let _ = play(&mut day, &mut cards, "g<Enter>");
    // Row 1, load of attempt 1.
    let _ = play(&mut day, &mut cards, "<Up>65");
    let line = CardSheet::new(day.facts(), cards.card().unwrap()).line(&cards.grid);
    assert_eq!(
        line,
        "Enter, lot 1: attempt 1 stands as good at 60 kg, the card says good at 65 kg: compares \
         them."
    );
    // Leaving doesn't correct, and Enter only compares.
    let _ = play(&mut day, &mut cards, "<Down>");
    assert_eq!(written(&day, 1, "clean"), ["60 good"]);
    assert!(cards.has_drafts());
    let row = sheet_key(&day, &cards, 0);
    assert!(cards.grid.draft(row, 2).unwrap().held);
    assert_eq!(
        play(&mut day, &mut cards, "<Up><Enter>"),
        Vec::<String>::new()
    );
    assert_eq!(written(&day, 1, "clean"), ["60 good"]);
    let case = cards.case(day.facts()).unwrap();
    assert_eq!(
        (case.differs.stands.as_str(), case.differs.card.as_str()),
        ("good at 60 kg", "good at 65 kg")
    );
    // What it would change, before it does.
    cards.foresee(&day, &context());
    let Open::Compare(compare) = &cards.open else {
        panic!("{:?}", cards.open)
    };
    assert_eq!(
        compare.changes().unwrap().as_ref().unwrap()[0],
        "lot 1 best in clean: 65 kg instead of 60 kg"
    );
    assert_eq!(
        tell(&mut day, &mut cards, Message::Correct),
        Vec::<String>::new()
    );
    assert_eq!(written(&day, 1, "clean"), ["65 good"]);
    assert!(!cards.has_drafts());
    assert!(matches!(cards.open, Open::Card));
}

#[test]
fn cards_turn_and_a_lot_is_found_on_another_card() {
    let (mut day, mut cards) = started(1..=2, "60");
    enter(&mut day, 30, "Bea", "B", "50");
    let _ = play(&mut day, &mut cards, "65<PageDown>");
    assert_eq!(cards.card().unwrap().flight, "B");
    // The row that was left by turning was handed in: a request.
    let entry = day.facts().entry_by_number(1).unwrap();
    assert_eq!(
        day.facts()
            .attempt(entry.key, &slug("clean"), 1)
            .unwrap()
            .requests
            .len(),
        1
    );
    let _ = play(&mut day, &mut cards, "<PageDown><Home>30<Enter>g<Enter>");
    assert_eq!(written(&day, 30, "clean"), ["50 good"]);
    let (_, _) = cards.update(Message::Slot(1), day.facts());
    assert_eq!(cards.card().unwrap().slot, slug("back-squat"));
}

#[test]
fn twelve_cards_of_sixty_attempts_take_less_than_five_minutes_at_five_keys_a_second() {
    let mut day = max_day();
    for number in 1..=20_u16 {
        let flight = format!("F{:02}", (number - 1) / 5);
        enter(&mut day, number, "Ann", &flight, "");
    }
    // Four flights, three rounds: twelve cards of five attempts each.
    let mut cards = Cards::new();
    let _ = cards.shown(day.facts());
    let mut script = String::new();
    for round in 0..3 {
        for _ in 0..4 {
            for athlete in 0..5 {
                let load = 100 + round * 10 + athlete;
                let ruling = if athlete == 3 { "n" } else { "g" };
                script.push_str(&format!("{load}{ruling}<Enter>"));
            }
            script.push_str("<PageDown>");
        }
    }
    let count = keys(&script).len();
    assert!(count < 5 * 60 * 5, "{count} keys");
    assert_eq!(count, 60 * 5 + 12);
    assert_eq!(play(&mut day, &mut cards, &script), Vec::<String>::new());
    let ruled = day
        .journal()
        .iter()
        .filter(|r| matches!(r.event, crate::day::Event::Ruled(_)))
        .count();
    assert_eq!(ruled, 60);
    assert_eq!(
        written(&day, 1, "clean"),
        ["100 good", "110 good", "120 good"]
    );
    assert_eq!(written(&day, 4, "clean"), ["103 no", "113 no", "123 no"]);
}

#[test]
fn one_act_is_handed_in_after_another() {
    let (day, mut cards) = started(1..=2, "60");
    let mut outs = Vec::new();
    for event in keys("g65g70g<Enter>") {
        let (_, out) = cards.update(Message::Grid(event), day.facts());
        outs.extend(out);
    }
    // Only the first goes out until its answer is there.
    let Out::Submit(Command::Tally { which, outcome, .. }) = &outs[0] else {
        panic!("{outs:?}")
    };
    assert_eq!((outs.len(), which.attempt), (1, Some(1)));
    assert_eq!(outcome.ruling, Some(Ruling::Good));
    let _ = cards.answered(Err("No.".into()), day.facts());
    let (_, out) = cards.update(Message::Next, day.facts());
    assert_eq!(out, None);
}

/// Failure cards as published by affiliates of the IPF; the power clean has
/// none.
#[test]
fn a_ruling_cell_takes_failure_cards_and_repetitions() {
    let (day, _) = started(1..=1, "60");
    let lift = |slug: &str| crate::lift::Slug::new(slug).unwrap();
    let read =
        |slug: &str, text: &str| super::read::read_ruling(day.facts(), &lift(slug), text);
    let codes = |slug: &str, text: &str| -> Vec<String> {
        let outcome = read(slug, text).unwrap();
        outcome.faults.into_iter().map(|f| f.code).collect()
    };
    assert_eq!(codes("back-squat", "n 1"), ["not-deep-enough"]);
    assert_eq!(codes("back-squat", "n 2 knees"), ["knees-not-locked"]);
    assert_eq!(codes("back-squat", "n:3feet"), ["feet-moved"]);
    assert!(
        read("back-squat", "n 2")
            .unwrap_err()
            .starts_with("Card 2 blue is")
    );
    assert!(
        read("power-clean", "n 1")
            .unwrap_err()
            .contains("no failure cards")
    );
    let outcome = read("back-squat", "g x5").unwrap();
    assert_eq!(
        (outcome.ruling, outcome.reps),
        (Some(Ruling::Good), Some(5))
    );
    assert!(
        read("back-squat", "g x50")
            .unwrap_err()
            .contains("x2 to x20")
    );
    assert!(
        read("back-squat", "g 1")
            .unwrap_err()
            .contains("Only a no lift")
    );
}

#[test]
fn a_load_that_the_discs_cant_make_is_said_and_taken() {
    let (mut day, mut cards) = started(1..=1, "60");
    let few = vec![
        ("discs.1".into(), "20x1 10x1 5x1".into()),
        ("bar.1".into(), "20".into()),
    ];
    submit(&mut day, &Command::Set(few)).unwrap();
    let line = |day: &Day, cards: &Cards| {
        CardSheet::new(day.facts(), cards.card().unwrap()).line(&cards.grid)
    };
    let remark = |day: &Day, cards: &Cards| {
        let sheet = CardSheet::new(day.facts(), cards.card().unwrap());
        sheet.cell(0, sheet.columns().len() - 1).text
    };
    assert!(!line(&day, &cards).contains("can't"));
    let refusals = play(&mut day, &mut cards, "g72.5");
    assert_eq!(refusals, Vec::<String>::new());
    assert_eq!(
        line(&day, &cards),
        "Enter, lot 1: attempt 1 good at 60 kg; asks for 72.5 kg in attempt 2 (72.5 kg can't be made from the discs on \
         platform 1; 70 kg and 80 kg can)."
    );
    // Taken all the same; the remark stays beside the row.
    assert_eq!(play(&mut day, &mut cards, "<Enter>"), Vec::<String>::new());
    assert_eq!(remark(&day, &cards), "best 60, discs can't make 72.5");
    cards.grid.go(Spot { row: 0, column: 4 });
    assert!(
        line(&day, &cards).ends_with(
            "72.5 kg can't be made from the discs on platform 1; 70 kg and 80 kg can."
        ),
        "{}",
        line(&day, &cards)
    );
}
