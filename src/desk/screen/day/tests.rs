//! The day screen: rules in groups, looked for, with their sources; times and
//! revisions.

use super::*;
use crate::day::{Context, Day, NewDay, Recorded, Stamp, apply, decide, new_day};
use crate::desk::effects::BackupsTold;
use crate::desk::widget::form::Kind;
use crate::measure::Unit;
use crate::rules::{formats, key_groups, keys};

fn enter(day: &mut Day, command: &Command, at: &str) {
    let date = chrono::NaiveDate::from_ymd_opt(2026, 11, 21).unwrap();
    let context = Context {
        at: Stamp::parse(at, date, 0).unwrap(),
        hand: "table".into(),
        draw: 1,
    };
    let decided = decide(day, command, &context).unwrap();
    record(day, decided.events, context.at);
}

fn record(day: &mut Day, events: Vec<crate::day::Event>, at: Stamp) {
    let act = day.next_seq();
    for event in events {
        let recorded = Recorded {
            seq: day.next_seq(),
            act,
            id: act.to_string(),
            at,
            happened: None,
            hand: "table".into(),
            platform: None,
            event,
        };
        apply(day, &recorded);
    }
}

fn day_of(format: &str) -> Day {
    let date = chrono::NaiveDate::from_ymd_opt(2026, 11, 21).unwrap();
    let made = new_day(&NewDay {
        name: "Hall".into(),
        date,
        format: format.into(),
        bar: Unit::Kg,
        scale: None,
        judges: None,
        categories: None,
        tie: None,
        step: None,
        lifts: None,
        platforms: None,
    })
    .unwrap();
    let mut day = Day::new();
    record(
        &mut day,
        vec![made],
        Stamp::parse("08:00:00", date, 0).unwrap(),
    );
    day
}

fn set(day: &mut Day, key: &str, word: &str) {
    let pair = vec![(key.to_owned(), word.to_owned())];
    enter(day, &Command::Set(pair), "08:30:00");
}

fn field<'a>(list: &'a [Field], key: &str) -> &'a Field {
    list.iter()
        .find(|f| f.key == key)
        .unwrap_or_else(|| panic!("{key}"))
}

fn notes(list: &[Field]) -> Vec<String> {
    list.iter()
        .filter(|f| f.kind == Kind::Note)
        .map(|f| format!("{}: {}", f.label, f.value))
        .collect()
}

#[test]
fn every_rule_is_there_once_under_its_group() {
    for format in formats() {
        let day = day_of(&format.name);
        let list = fields::fields(day.facts(), "", &BackupsTold::default());
        for key in keys() {
            let n = list.iter().filter(|f| f.key == key.name).count();
            assert_eq!(n, 1, "{}", key.name);
        }
        let place = |label: &str| list.iter().position(|f| f.label == label).unwrap();
        let headings: Vec<usize> = key_groups()
            .iter()
            .map(|(heading, _)| place(heading))
            .collect();
        assert!(headings.is_sorted(), "{headings:?}");
        // A key stands under the heading of its group.
        let again = list.iter().position(|f| f.key == "again").unwrap();
        assert!(again > place("Official errors and challenges"));
        assert!(again < place("Places, totals and teams"));
    }
}

#[test]
fn a_rule_says_where_its_word_comes_from() {
    let mut day = day_of("powerlifting");
    let list = fields::fields(day.facts(), "", &BackupsTold::default());
    assert!(
        field(&list, "hand-in").hint.ends_with(
            "Source: World Para Powerlifting, WDFPF, IPL: within a minute of finishing."
        ),
        "{}",
        field(&list, "hand-in").hint
    );
    // Every rule of every format has its source there.
    for format in formats() {
        let day = day_of(&format.name);
        let list = fields::fields(day.facts(), "", &BackupsTold::default());
        for key in keys() {
            let hint = &field(&list, key.name).hint;
            assert!(hint.contains(" Source: "), "{} {hint}", format.name);
        }
    }
    set(&mut day, "hand-in", "90");
    let list = fields::fields(day.facts(), "", &BackupsTold::default());
    let hint = &field(&list, "hand-in").hint;
    assert!(
        hint.contains("Set for this day; the format has 60, source: World Para"),
        "{hint}"
    );
}

#[test]
fn a_word_finds_rules_and_an_empty_field_shows_all_again() {
    let day = day_of("powerlifting");
    let mut screen = DayScreen::new();
    let all = screen.fields(day.facts()).len();
    let at = |screen: &DayScreen| {
        let list = screen.fields(day.facts());
        list.iter().position(|f| f.key == FIND).unwrap()
    };
    let find = |screen: &mut DayScreen, word: &str| {
        let picked = Message::Form(form::Message::Picked(at(screen)));
        assert_eq!(screen.update(picked, day.facts()), None);
        let typed = Message::Form(form::Message::Typed(word.to_owned()));
        assert_eq!(screen.update(typed, day.facts()), None);
        let entered = Message::Form(form::Message::Entered);
        assert_eq!(screen.update(entered, day.facts()), None);
    };
    find(&mut screen, "Record");
    let list = screen.fields(day.facts());
    assert!(list.len() < all);
    // What is found stands at the top, in sight of the field.
    assert_eq!(list[1].key, FIND);
    assert_eq!(screen.form.cursor(), 1);
    let step = list.iter().position(|f| f.key == "record-step");
    assert!(step.unwrap() < list.iter().position(|f| f.key == "date").unwrap());
    assert!(!list.iter().any(|f| f.key == "pace"));
    // A rule of the upper part is found as well.
    find(&mut screen, "judges");
    let list = screen.fields(day.facts());
    assert_eq!(list.iter().filter(|f| f.key == "judges").count(), 2);
    find(&mut screen, "hyperbole");
    let list = screen.fields(day.facts());
    assert!(notes(&list).contains(&"No rule has that word.: ".to_owned()));
    find(&mut screen, "");
    assert_eq!(screen.fields(day.facts()).len(), all);
}

#[test]
fn the_cursor_never_rests_on_a_line_that_is_only_read() {
    let mut day = day_of("powerlifting");
    set(&mut day, "session.1", "10:00-12:00");
    let mut screen = DayScreen::new();
    let n = screen.fields(day.facts()).len();
    for by in [1, -1] {
        for _ in 0..n {
            let moved = Message::Form(form::Message::Moved(by));
            let _ = screen.update(moved, day.facts());
            let kind = &screen.fields(day.facts())[screen.form.cursor()].kind;
            assert!(!matches!(kind, Kind::Heading | Kind::Note));
        }
    }
}

#[test]
fn times_before_a_session_and_revisions_are_shown() {
    let mut day = day_of("powerlifting");
    set(&mut day, "session.1", "10:00-12:00");
    let list = fields::fields(day.facts(), "", &BackupsTold::default());
    assert_eq!(
        notes(&list),
        ["Before it: weigh-in 08:00 to 09:30, start 10:00."]
    );
    let close = |session: Option<&str>| Command::Close {
        session: session.map(str::to_owned),
    };
    let reopen = |session: Option<&str>, reason: &str| Command::Reopen {
        session: session.map(str::to_owned),
        reason: reason.to_owned(),
    };
    enter(&mut day, &close(Some("1")), "12:05:00");
    enter(&mut day, &reopen(Some("1"), "wrong load typed"), "12:20:00");
    enter(&mut day, &close(Some("1")), "12:25:00");
    enter(&mut day, &close(None), "12:30:00");
    assert_eq!(
        notes(&fields::fields(day.facts(), "", &BackupsTold::default()))[1..],
        [
            "Revision 1: closed 2026-11-21 12:05; reopened 2026-11-21 12:20 by table: wrong \
             load typed",
            "Revision 2: closed 2026-11-21 12:25",
            "Revision 1: closed 2026-11-21 12:30",
        ]
    );
    let list = fields::fields(day.facts(), "", &BackupsTold::default());
    assert!(list.iter().any(|f| f.label == "The day is closed; reopen"));
}

#[test]
fn discs_and_bar_of_a_platform_are_typed_beside_its_label() {
    let mut day = day_of("max-day");
    let list = fields::fields(day.facts(), "", &BackupsTold::default());
    let at = |key: &str| list.iter().position(|f| f.key == key).unwrap();
    assert_eq!(at("discs.1"), at("platform.1") + 1);
    assert_eq!(at("bar.1"), at("platform.1") + 2);
    assert_eq!(field(&list, "discs.1").value, "");
    assert!(field(&list, "discs.1").hint.ends_with("the rules' gym-kg."));
    let mut screen = DayScreen::new();
    let mut typed = |day: &mut Day, at: usize, text: &str| {
        let mut out = None;
        for message in [
            form::Message::Picked(at),
            form::Message::Typed(text.to_owned()),
            form::Message::Entered,
        ] {
            out = screen.update(Message::Form(message), day.facts()).or(out);
        }
        let Some(Out::Submit(command)) = out else {
            panic!("{text} is nothing that is entered")
        };
        enter(day, &command, "09:00:00");
        screen.answered(Ok(()), day.facts());
    };
    typed(&mut day, at("discs.1"), "20x5 45lbx1 10x2");
    typed(&mut day, at("bar.1"), "45 lb");
    let list = fields::fields(day.facts(), "", &BackupsTold::default());
    assert_eq!(field(&list, "discs.1").value, "45lbx1 20x5 10x2");
    assert_eq!(field(&list, "bar.1").value, "45 lb");
    // An empty field is the rules' own again.
    typed(&mut day, at("discs.1"), "");
    typed(&mut day, at("bar.1"), "");
    assert_eq!(day.facts().platforms[0].discs, None);
    assert_eq!(day.facts().platforms[0].bar_on_hand, None);
}
