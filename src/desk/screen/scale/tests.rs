//! Weighing in as it is typed.

use super::edge::{Edge, in_other_unit};
use super::fields::Field;
use super::hand::{InHand, with_room};
use super::*;
use crate::day::Day;
use crate::desk::widget::grid::trial::{enter, keys, max_day, slug, submit};
use crate::measure::{Mass, Unit};
use crate::roster::{Change, Clearance};
use crate::rules::Sex;

fn play(day: &mut Day, scale: &mut Scale, script: &str) -> Vec<String> {
    let mut refusals = Vec::new();
    for event in keys(script) {
        let mut message = Some(Message::Grid(event));
        while let Some(now) = message.take() {
            let (_, out) = scale.update(now, day.facts());
            if let Some(Out::Submit(command)) = out {
                let answer = submit(day, &command);
                refusals.extend(answer.clone().err());
                let _ = scale.answered(answer, day.facts());
                if !scale.waiting.is_empty() {
                    message = Some(Message::Next);
                }
            }
        }
    }
    refusals
}

fn weighed_day() -> Day {
    let mut day = max_day();
    for (number, name) in [(3, "Ann"), (12, "Bea"), (31, "Cleo")] {
        enter(&mut day, number, name, "A", "");
        let sex = Command::Edit {
            number,
            changes: vec![Change::Sex(Some(Sex::F)), Change::Category("63".into())],
        };
        submit(&mut day, &sex).unwrap();
    }
    let set = Command::Set(vec![("categories".into(), "iwf-2026".into())]);
    submit(&mut day, &set).unwrap();
    day
}

#[test]
fn an_athlete_is_found_weighed_and_asked_for_openers() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let script = "12<Enter>62.4<Enter>60<Enter>80<Enter>cl<Enter>58<Enter>";
    assert_eq!(play(&mut day, &mut scale, script), Vec::<String>::new());
    let facts = day.facts();
    let bea = facts.entry_by_number(12).unwrap();
    assert_eq!(bea.bodyweight.as_ref().unwrap().show(Unit::Kg), "62.4");
    assert_eq!(
        bea.slots[&slug("clean")]
            .opener
            .as_ref()
            .unwrap()
            .show(Unit::Kg),
        "60"
    );
    assert_eq!(
        bea.slots[&slug("back-squat")]
            .opener
            .as_ref()
            .unwrap()
            .show(Unit::Kg),
        "80"
    );
    let cleo = facts.entry_by_number(31).unwrap();
    assert_eq!(cleo.bodyweight.as_ref().unwrap().show(Unit::Kg), "58");
    assert!(!scale.has_drafts());
}

#[test]
fn a_bodyweight_outside_the_limits_stays_typed_with_what_is_allowed() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let _ = play(&mut day, &mut scale, "12<Enter>624<Enter>");
    let key = day.facts().numbers[&12].0;
    assert!(
        scale
            .grid
            .refused(key)
            .unwrap()
            .contains("between 15 kg and 300 kg")
    );
    assert_eq!(day.facts().entry_by_number(12).unwrap().bodyweight, None);
}

#[test]
fn the_line_names_the_category_and_the_distance_before_enter() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let _ = play(&mut day, &mut scale, "12<Enter>61.4");
    let line = scale.line(day.facts());
    // iwf-2026, as shipped: women's classes 61 and 69.
    assert!(
        line.contains("category F 69, 7.6 kg under its limit, 0.4 kg over 61"),
        "{line}"
    );
    assert!(line.contains("135.4 lb"), "{line}");
    assert!(line.contains("The entry is for 63."), "{line}");
}

#[test]
fn a_shown_conversion_never_contradicts_the_limit() {
    let day = weighed_day();
    let facts = day.facts();
    // 61 kg are 134.4819 lb; a tenth more would lie over the limit.
    let mass = Mass::parse("61", Unit::Kg).unwrap();
    let text = in_other_unit(facts, Some(Sex::F), mass);
    let shown = Mass::parse(text.trim_end_matches(" lb"), Unit::Lb).unwrap();
    let label = |m| Edge::of(facts, Some(Sex::F), m).unwrap().label;
    assert_eq!((label(shown), label(mass)), ("F 61".into(), "F 61".into()));
    let edge = Edge::of(facts, Some(Sex::F), mass).unwrap();
    assert_eq!(edge.short(Unit::Kg), "F 61, at its limit");
    assert_eq!(Edge::of(facts, None, mass), None);
}

#[test]
fn openers_are_judged_as_they_are_typed() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let last = Command::Edit {
        number: 12,
        changes: vec![Change::Last {
            lift: slug("power-clean"),
            load: Some(day.facts().reading().load("50").unwrap()),
        }],
    };
    submit(&mut day, &last).unwrap();
    for (typed, part) in [
        (
            "61",
            "not a multiple of 2.5 kg; the nearest are 60 kg and 62.5 kg",
        ),
        ("10", "less than the empty bar for girls and women, 15 kg"),
        (
            "62.5",
            "more than 20 % above the last max, 50 kg; the advice is at most 60 kg",
        ),
        ("x", "is not a number"),
        ("9000", "no load that can be lifted here"),
    ] {
        let mut scale = Scale::new();
        let _ = play(&mut day, &mut scale, &format!("12<Enter><Enter>{typed}"));
        let line = scale.line(day.facts());
        assert!(line.contains(part), "{typed}: {line}");
    }
    let cap = Command::Cap {
        number: 12,
        lift: None,
        load: Some(day.facts().reading().load("40").unwrap()),
        who: "Ms Oru".into(),
        why: "knee".into(),
    };
    submit(&mut day, &cap).unwrap();
    let _ = play(&mut day, &mut scale, "12<Enter><Enter>45");
    let line = scale.line(day.facts());
    assert!(
        line.contains("above 40 kg, the most that is allowed today"),
        "{line}"
    );
}

#[test]
fn clearances_and_set_ups_are_typed() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let script = "12<Enter><Right><Right><Right><Right>back-squat: up to 70; who=Ms Oru; \
                  why=knee<Tab>";
    assert_eq!(play(&mut day, &mut scale, script), Vec::<String>::new());
    let bea = day.facts().entry_by_number(12).unwrap();
    let up_to = Clearance::UpTo(day.facts().reading().load("70").unwrap());
    assert_eq!(
        day.facts().clearance(bea, &slug("back-squat")),
        Some(&up_to)
    );
    let mut scale = Scale::new();
    let script = "12<Enter><End>850<Enter>";
    assert_eq!(play(&mut day, &mut scale, script), Vec::<String>::new());
    let bea = day.facts().entry_by_number(12).unwrap();
    assert_eq!(
        bea.setups.get("rack squat").map(String::as_str),
        Some("850")
    );
}

/// The number of the athlete in whose row the cursor is, and the column.
fn in_hand(day: &Day, scale: &Scale) -> (u16, Field) {
    let sheet = ScaleSheet::new(day.facts());
    let at = scale.grid.cursor;
    (
        sheet.entries()[at.row].number,
        sheet.fields[at.column].clone(),
    )
}

fn opener(slot_name: &str) -> Field {
    Field::Opener(slug(slot_name))
}

#[test]
fn an_athlete_is_found_by_number_and_by_the_beginning_of_a_name() {
    let mut day = weighed_day();
    enter(&mut day, 1, "Anders", "A", "");
    for (typed, number) in [("31", 31), ("1", 1), ("cl", 31), ("be", 12), ("ande", 1)] {
        let mut scale = Scale::new();
        let _ = play(&mut day, &mut scale, &format!("{typed}<Enter>"));
        let found = in_hand(&day, &scale);
        assert_eq!(found, (number, Field::Bodyweight), "{typed}");
    }
    // Family and given name, in either order.
    let mut scale = Scale::new();
    let _ = play(&mut day, &mut scale, "test cleo<Enter>");
    assert_eq!(in_hand(&day, &scale), (31, Field::Bodyweight));
}

#[test]
fn a_beginning_that_several_have_takes_nobody_until_one_is_chosen() {
    let mut day = weighed_day();
    enter(&mut day, 40, "Anders", "A", "");
    let mut scale = Scale::new();
    let _ = play(&mut day, &mut scale, "an<Enter>");
    assert_eq!(in_hand(&day, &scale), (3, Field::Lot));
    assert_eq!(scale.grid.finding(), Some("an"));
    assert_eq!(
        scale.line(day.facts()),
        "“an” may be Ann Test or Anders Test. Type on, or choose with Down; or type the lot."
    );
    let _ = play(&mut day, &mut scale, "<Down><Down>");
    assert_eq!(
        scale.line(day.facts()),
        "Enter goes to lot 40, Anders Test."
    );
    let _ = play(&mut day, &mut scale, "<Enter>");
    assert_eq!(in_hand(&day, &scale), (40, Field::Bodyweight));
    // A whole name goes before the beginning of another one's.
    let mut scale = Scale::new();
    let _ = play(&mut day, &mut scale, "ann<Enter>");
    assert_eq!(in_hand(&day, &scale), (3, Field::Bodyweight));
}

#[test]
fn a_number_that_nobody_has_takes_nobody() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let _ = play(&mut day, &mut scale, "12<Enter>62<Enter><Escape>");
    let _ = play(&mut day, &mut scale, "1<Enter>");
    assert_eq!(scale.grid.finding(), Some("1"));
    assert_eq!(
        scale.line(day.facts()),
        "There is no lot 1; 12 begins with it. Type on, or choose with Down."
    );
    let _ = play(&mut day, &mut scale, "<Escape>3<Backspace>62.4<Enter>");
    assert_eq!(scale.grid.finding(), Some("62.4"));
    assert!(scale.lost(day.facts()));
    // Whoever was in hand before is in hand again once that is dropped.
    let _ = play(&mut day, &mut scale, "<Escape>");
    assert_eq!(in_hand(&day, &scale), (12, Field::Lot));
    let line = scale.line(day.facts());
    assert!(
        line.starts_with("Enter goes to lot 31, Cleo Test, the next"),
        "{line}"
    );
}

#[test]
fn enter_asks_for_what_is_owed_and_then_looks_for_the_next() {
    let mut day = weighed_day();
    let clear = |number| Command::Clear {
        number,
        lift: None,
        clearance: Clearance::Yes,
        until: None,
        who: String::new(),
        why: String::new(),
    };
    submit(&mut day, &clear(3)).unwrap();
    let squat = Change::Slot {
        slot: slug("back-squat"),
        variant: Some(slug("back-squat")),
        opener: Some(day.facts().reading().load("80").unwrap()),
    };
    let changes = vec![squat];
    submit(
        &mut day,
        &Command::Edit {
            number: 12,
            changes,
        },
    )
    .unwrap();
    let mut scale = Scale::new();
    let mut step = |day: &mut Day, script: &str| {
        assert_eq!(play(day, &mut scale, script), Vec::<String>::new());
        in_hand(day, &scale)
    };
    assert_eq!(step(&mut day, "12<Enter>61<Enter>"), (12, opener("clean")));
    // One that was typed goes on to the next lift, which stands.
    assert_eq!(step(&mut day, "60<Enter>"), (12, opener("back-squat")));
    // Clearances are kept on this day, and this one is owed.
    assert_eq!(step(&mut day, "<Enter>"), (12, Field::Clearance));
    assert_eq!(step(&mut day, "y<Enter>"), (12, Field::Lot));
    // Nothing typed: the next to be weighed, round to the first.
    assert_eq!(step(&mut day, "<Enter>"), (31, Field::Bodyweight));
    assert_eq!(step(&mut day, "<Escape><Enter>"), (3, Field::Bodyweight));
    // All that was owed is there: one Enter confirms every opener.
    let again = step(&mut day, "<Escape>12<Enter><Enter>");
    assert_eq!(again, (12, opener("clean")));
    assert_eq!(step(&mut day, "<Enter>"), (12, Field::Lot));
}

#[test]
fn what_is_refused_stays_in_hand_and_nothing_is_recorded() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let before = day.facts().clone();
    let _ = play(&mut day, &mut scale, "12<Enter>624<Enter>");
    assert_eq!(in_hand(&day, &scale), (12, Field::Bodyweight));
    let key = day.facts().numbers[&12].0;
    assert_eq!(scale.grid.draft(key, 4).unwrap().text, "624");
    assert_eq!(day.facts().entries, before.entries);
    // It is put right where it stands.
    let _ = play(&mut day, &mut scale, "<Backspace>.4<Enter>");
    let bea = day.facts().entry_by_number(12).unwrap();
    assert_eq!(bea.bodyweight.as_ref().unwrap().show(Unit::Kg), "62.4");
    // What the day refuses comes back into hand as well: a cap that is eased
    // has to be signed.
    let _ = play(
        &mut day,
        &mut scale,
        "<Escape>12<Enter><Right><Right><Right><Right><Right>",
    );
    let refused = play(&mut day, &mut scale, "40<Enter>12<Enter>");
    assert_eq!(refused, Vec::<String>::new());
    let _ = play(&mut day, &mut scale, "<Right><Right><Right><Right><Right>");
    let refused = play(&mut day, &mut scale, "50<Enter>");
    assert!(
        refused[0].contains("needs a name and a reason"),
        "{refused:?}"
    );
    assert_eq!(in_hand(&day, &scale), (12, Field::Cap));
    assert_eq!(scale.grid.refused(key), Some(refused[0].as_str()));
    let refused = play(&mut day, &mut scale, "; who=Ms Oru; why=healed<Enter>");
    assert_eq!(refused, Vec::<String>::new());
    let bea = day.facts().entry_by_number(12).unwrap();
    assert_eq!(bea.caps[&None].show(Unit::Kg), "50");
}

#[test]
fn typing_where_nothing_can_be_typed_looks_for_an_athlete() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let _ = play(&mut day, &mut scale, "12<Enter><Left><Left>31<Enter>");
    assert_eq!(in_hand(&day, &scale), (31, Field::Bodyweight));
}

#[test]
fn a_grip_that_the_bar_has_no_room_for_is_said_as_it_is_typed() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let changes = vec![Change::Setup {
        name: "grip snatch".into(),
        value: "820".into(),
    }];
    submit(&mut day, &Command::Edit { number: 3, changes }).unwrap();
    // The set-ups stand in the order of the lifts, then the others.
    let _ = play(&mut day, &mut scale, "12<Enter><End>");
    assert_eq!(in_hand(&day, &scale).1, Field::Setup("grip snatch".into()));
    let _ = play(&mut day, &mut scale, "131 cm");
    assert!(scale.line(day.facts()).starts_with("Enter records"));
    // 1,310 mm between the sleeves (IWF TCRR, from memory).
    let _ = play(&mut day, &mut scale, "<Escape>1311");
    let sentence =
        "1311 mm is wider than the bar between its sleeves; at most 1310 mm is possible.";
    assert_eq!(scale.line(day.facts()), sentence);
    let _ = play(&mut day, &mut scale, "<Enter>");
    let key = day.facts().numbers[&12].0;
    assert_eq!(scale.grid.refused(key), Some(sentence));
    assert!(day.facts().entry_by_number(12).unwrap().setups.is_empty());
}

#[test]
fn distances_from_the_edges_are_exact() {
    let day = weighed_day();
    let facts = day.facts();
    let edge = |kg: &str| {
        let mass = Mass::parse(kg, Unit::Kg).unwrap();
        let edge = Edge::of(facts, Some(Sex::F), mass).unwrap();
        (edge.label.clone(), edge.distances(Unit::Kg).join("; "))
    };
    // iwf-2026, as shipped: women's classes 61 and 69.
    assert_eq!(edge("61").1, "4 kg over 57; exactly at its limit");
    assert_eq!(
        edge("61.001"),
        (
            "F 69".to_owned(),
            "0.001 kg over 61; 7.999 kg under its limit".to_owned()
        )
    );
    assert!(edge("140").1.ends_with("no upper limit"));
    // On a scale in lb the limits in kg have no end of decimals: they are cut,
    // so that nobody has less room than is shown. 61 kg are 134.48198… lb.
    let mass = Mass::parse("134.47", Unit::Lb).unwrap();
    let edge = Edge::of(facts, Some(Sex::F), mass).unwrap();
    let words = edge.distances(Unit::Lb);
    assert_eq!(words[1], "0.01 lb under its limit");
    let mass = Mass::parse("134.481", Unit::Lb).unwrap();
    let edge = Edge::of(facts, Some(Sex::F), mass).unwrap();
    assert_eq!(
        edge.distances(Unit::Lb)[1],
        "less than 0.001 lb under its limit"
    );
}

#[test]
fn openers_too_low_for_the_entry_total_are_said_as_they_are_typed() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let set = Command::Set(vec![("entry-total-f".into(), "20 kg".into())]);
    submit(&mut day, &set).unwrap();
    let total = day.facts().reading().load("150").unwrap();
    let changes = vec![Change::EntryTotal(Some(total))];
    submit(
        &mut day,
        &Command::Edit {
            number: 12,
            changes,
        },
    )
    .unwrap();
    let _ = play(&mut day, &mut scale, "12<Enter>61<Enter>50<Enter>77.5");
    let said = "The openers add up to 127.5 kg; with an entry total of 150 kg they need \
                130 kg or more.";
    let line = scale.line(day.facts());
    assert!(line.ends_with(said), "{line}");
    // It is said, not refused: the official decides.
    let _ = play(&mut day, &mut scale, "<Enter>");
    let facts = day.facts();
    let bea = facts.entry_by_number(12).unwrap();
    let sheet = ScaleSheet::new(facts);
    let hand = InHand::of(facts, bea, &sheet.fields, &scale.grid);
    assert_eq!(hand.odd, ["Entered for 63.", said]);
}

#[test]
fn what_is_typed_counts_for_the_athlete_in_hand_before_enter() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let hand = |day: &Day, scale: &Scale| {
        let facts = day.facts();
        let bea = facts.entry_by_number(12).unwrap();
        InHand::of(facts, bea, &ScaleSheet::new(facts).fields, &scale.grid)
    };
    let _ = play(&mut day, &mut scale, "12<Enter>");
    let before = hand(&day, &scale);
    assert_eq!(before.category, "Category: not weighed yet");
    assert_eq!(
        before.owed,
        "Owed: bodyweight, opener in power clean, opener in back squat."
    );
    let _ = play(&mut day, &mut scale, "61.4");
    let typed = hand(&day, &scale);
    assert_eq!(typed.category, "Category F 69");
    assert_eq!(
        typed.distances,
        ["0.4 kg over 61", "7.6 kg under its limit"]
    );
    assert_eq!(
        typed.owed,
        "Owed: opener in power clean, opener in back squat."
    );
    assert_eq!(typed.odd, ["Entered for 63."]);
    // What can't be a bodyweight has no category.
    let _ = play(&mut day, &mut scale, "<Backspace><Backspace>4");
    assert_eq!(hand(&day, &scale).category, "Category: not weighed yet");
}

#[test]
fn once_all_are_weighed_enter_goes_to_who_still_owes() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let script = "3<Enter>50<Enter>40<Enter>60<Enter>\
                  12<Enter>61<Enter><Enter>80<Enter>\
                  31<Enter>58<Enter>45<Enter>70<Enter>";
    assert_eq!(play(&mut day, &mut scale, script), Vec::<String>::new());
    assert_eq!(
        scale.line(day.facts()),
        "All are weighed. Enter goes to lot 12, Bea Test, who owes: opener in power clean. Or \
         type a lot or a name."
    );
    let _ = play(&mut day, &mut scale, "<Enter>");
    assert_eq!(in_hand(&day, &scale), (12, opener("clean")));
    let _ = play(&mut day, &mut scale, "60<Enter><Enter>");
    assert_eq!(
        scale.line(day.facts()),
        "All are weighed. Type a lot or the beginning of a name."
    );
    // Nobody is left, so Enter stays.
    let _ = play(&mut day, &mut scale, "<Enter>");
    assert_eq!(in_hand(&day, &scale), (12, Field::Lot));
}

#[test]
fn tab_goes_through_the_openers_and_never_on_to_another_athlete() {
    let (mut day, mut scale) = (weighed_day(), Scale::new());
    let _ = play(&mut day, &mut scale, "12<Enter>61<Tab>60<Tab>80");
    assert_eq!(in_hand(&day, &scale), (12, opener("back-squat")));
    let _ = play(&mut day, &mut scale, "<Tab>");
    assert_eq!(in_hand(&day, &scale), (12, Field::Lot));
    let bea = day.facts().entry_by_number(12).unwrap();
    let squat = bea.slots[&slug("back-squat")].opener.as_ref().unwrap();
    assert_eq!(squat.show(Unit::Kg), "80");
}

#[test]
fn what_has_no_room_is_counted() {
    let sentences = ["One is odd.", "Two is odd.", "Three is odd."].map(str::to_owned);
    let all = "One is odd. Two is odd. Three is odd.";
    assert_eq!(with_room(&sentences, 100), all);
    let few = "One is odd. And 2 more, said at each opener.";
    assert_eq!(with_room(&sentences, 15), few);
    assert_eq!(with_room(&[], 15), "");
}
