//! Rows and cells of the roster.

use super::*;
use crate::day::Day;
use crate::desk::widget::grid::trial::{enter, keys, max_day, slug, submit};

fn play(day: &mut Day, roster: &mut Roster, script: &str) -> Vec<String> {
    let mut refusals = Vec::new();
    for event in keys(script) {
        let mut message = Some(Message::Grid(event));
        while let Some(now) = message.take() {
            let (_, out) = roster.update(now, day.facts());
            if let Some(Out::Submit(command)) = out {
                let answer = submit(day, &command);
                refusals.extend(answer.clone().err());
                let _ = roster.answered(answer, day.facts());
                if !roster.waiting.is_empty() {
                    message = Some(Message::Next);
                }
            }
        }
    }
    refusals
}

#[test]
fn a_new_row_is_added_by_enter_once_it_has_a_name() {
    let (mut day, mut roster) = (max_day(), Roster::new());
    let script = "Ann<Tab>Lee<Tab>F<Tab>2010<Tab>10<Tab>Owls<Tab>2<Tab>B<Tab>60<Tab>-<Enter>\
                  Bea<Enter>";
    assert_eq!(play(&mut day, &mut roster, script), Vec::<String>::new());
    let facts = day.facts();
    assert_eq!(facts.entries.len(), 2);
    let ann = facts.entries.values().find(|e| e.given == "Ann").unwrap();
    assert_eq!(
        (ann.family.as_str(), ann.grade.as_str(), ann.team.as_str()),
        ("Lee", "10", "Owls")
    );
    assert_eq!((ann.session.as_str(), ann.flight.as_str()), ("2", "B"));
    assert_eq!(
        ann.slots[&slug("clean")]
            .opener
            .as_ref()
            .unwrap()
            .show(facts.bar_unit),
        "60"
    );
    assert_eq!(ann.variant(&slug("back-squat")), None);
    let bea = facts.entries.values().find(|e| e.given == "Bea").unwrap();
    assert!(bea.variant(&slug("back-squat")).is_some());
    assert_eq!(roster.grid.cursor, Spot { row: 2, column: 1 });
    assert!(!roster.has_drafts());
}

#[test]
fn a_new_row_without_a_name_stays_typed() {
    let (mut day, mut roster) = (max_day(), Roster::new());
    let _ = play(&mut day, &mut roster, "<Tab><Tab>F<Enter>");
    assert_eq!(day.facts().entries.len(), 0);
    assert!(
        roster
            .grid
            .refused(NEW)
            .unwrap()
            .starts_with("An entry needs a name")
    );
    let _ = play(&mut day, &mut roster, "<BackTab><BackTab>Ann<Enter>");
    assert_eq!(day.facts().entries.len(), 1);
}

#[test]
fn a_cell_is_recorded_when_it_is_left() {
    let (mut day, mut roster) = (max_day(), Roster::new());
    enter(&mut day, 3, "Ann", "A", "60");
    enter(&mut day, 5, "Bea", "A", "60");
    let script = "<First>Amy<Enter>Bo<Tab>Lund<Down>";
    assert_eq!(play(&mut day, &mut roster, script), Vec::<String>::new());
    assert_eq!(day.facts().entry_by_number(3).unwrap().given, "Amy");
    assert_eq!(day.facts().entry_by_number(5).unwrap().name(), "Bo Lund");
}

#[test]
fn what_cannot_be_read_is_refused_at_its_cell() {
    let (mut day, mut roster) = (max_day(), Roster::new());
    enter(&mut day, 3, "Ann", "A", "60");
    let _ = play(&mut day, &mut roster, "<First><Right><Right>Q<Enter>");
    let key = RosterSheet::new(day.facts()).key(0);
    assert!(roster.grid.refused(key).unwrap().contains("write F or M"));
    assert_eq!(roster.grid.draft(key, 3).unwrap().text, "Q");
}

#[test]
fn flights_rolls_variants_and_numbers_are_typed() {
    let (mut day, mut roster) = (max_day(), Roster::new());
    enter(&mut day, 3, "Ann", "A", "60");
    let script = "<First><Home><Right><Tab><Tab><Tab><Tab><Tab><Tab><Tab>C on 2<Tab>\
                  55 hang-power-clean<Tab><Tab>ab flu<Enter>";
    assert_eq!(play(&mut day, &mut roster, script), Vec::<String>::new());
    let facts = day.facts();
    let ann = facts.entry_by_number(3).unwrap();
    assert_eq!(
        (ann.flight.as_str(), facts.platform_of(ann)),
        ("C", Some(2))
    );
    assert_eq!(ann.variant(&slug("clean")), Some(&slug("hang-power-clean")));
    assert_eq!(ann.presence, crate::roster::Presence::Absent);
    let refusals = play(&mut day, &mut roster, "<First><Home>to 14<Enter>");
    assert_eq!(refusals, Vec::<String>::new());
    assert!(day.facts().entry_by_number(14).is_some());
}

#[test]
fn a_taken_number_is_refused_in_words() {
    let (mut day, mut roster) = (max_day(), Roster::new());
    enter(&mut day, 3, "Ann", "A", "60");
    enter(&mut day, 5, "Bea", "A", "60");
    let refusals = play(&mut day, &mut roster, "<First><Home>to 5<Enter>");
    assert!(refusals[0].contains("belongs to Bea Test"), "{refusals:?}");
}

#[test]
fn a_path_is_handed_to_the_shell_once() {
    let (day, mut roster) = (max_day(), Roster::new());
    let _ = roster.update(Message::PathTyped(" \"a b.csv\" ".into()), day.facts());
    let _ = roster.update(Message::PathEntered, day.facts());
    assert_eq!(roster.take_import(), Some(PathBuf::from("a b.csv")));
    assert_eq!(roster.take_import(), None);
    let _ = roster.imported(Err("Row 3, column sex: write F or M.".into()));
    assert!(roster.report.as_ref().unwrap().is_err());
}
