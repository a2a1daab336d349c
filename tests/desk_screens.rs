//! Every screen through its widgets: its main words, its main key, and what it
//! says where a day has hardly begun.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use desk_support::{
    desk_with, desk_with_meet, empty_desk, press, pressed, settings, typed,
};
use iced::Size;
use iced_test::Simulator;
use iced_test::selector::Candidate;
use maxday::day::Command;
use maxday::desk::action::{Action, label, row_of};
use maxday::desk::app::{Desk, Message, Sheet};
use maxday::desk::next::next_step;
use maxday::desk::screen::{ScreenId, first, roster};
use maxday::desk::widget::form;

const WINDOW: Size = Size::new(1366.0, 740.0);

fn texts(desk: &Desk) -> Vec<String> {
    let mut all = Vec::new();
    let mut ui = Simulator::with_size(settings(), WINDOW, desk.main());
    let _ = ui.find(|candidate: Candidate<'_>| {
        match candidate {
            Candidate::Text { content, .. } => all.push(content.to_owned()),
            Candidate::TextInput { state, .. } => all.push(state.text().to_owned()),
            _ => {}
        }
        None::<()>
    });
    all
}

#[track_caller]
fn says(desk: &Desk, words: &str) {
    let all = texts(desk);
    assert!(
        all.iter().any(|t| t.contains(words)),
        "{words} isn't in {all:?}"
    );
}

fn at_first(desk: &mut Desk, message: form::Message) {
    let _ = desk.update(Message::First(first::Message::Form(message)));
}

#[test]
fn from_nothing_to_a_lift_by_the_keys_that_are_told() {
    let mut desk = empty_desk("screens-ten-minutes");
    says(&desk, "Ctrl+N: its kind, name, date and unit");
    pressed(&mut desk, "ctrl+n");
    says(&desk, "Kind of day");
    // Kind, name, date and unit, each as it stands; then the day is made.
    for _ in 0..4 {
        at_first(&mut desk, form::Message::Entered);
    }
    says(&desk, "all else can be changed on the Day screen.");
    at_first(&mut desk, form::Message::Entered);
    assert_eq!(desk.screen(), Some(ScreenId::Roster));
    says(&desk, "Roster: nobody is entered yet");
    says(
        &desk,
        "Type the first athlete above. Or take a whole list: Ctrl+I",
    );
    // A list of names alone.
    let folder = desk_support::folder("screens-list");
    let list = folder.join("names.csv");
    std::fs::write(&list, "name\nAna Ruiz\nBo Lind\n").unwrap();
    pressed(&mut desk, "ctrl+i");
    let path = list.display().to_string();
    let _ = desk.update(Message::Roster(roster::Message::PathTyped(path)));
    let _ = desk.update(Message::Roster(roster::Message::PathEntered));
    assert_eq!(desk.facts().entries.len(), 2);
    says(&desk, "Roster: 2 entries");
    says(&desk, "To do: no flight, 3 openers owed.");
    says(&desk, "Nobody is in a flight yet. F5 Flights");
    pressed(&mut desk, "F5");
    let accept = maxday::desk::screen::flights::Message::Accepted;
    let _ = desk.update(Message::Flights(accept));
    assert_eq!(desk.facts().flights.len(), 1);
    says(&desk, "Nothing was lifted yet. F6 Table");
    pressed(&mut desk, "F6");
    typed(&mut desk, "");
    assert!(desk.facts().platforms[0].running.is_some());
    assert_eq!(next_step(desk.facts()), None);
}

#[test]
fn a_day_like_the_last_one_has_its_name_units_and_racks() {
    let mut desk = empty_desk("screens-like");
    pressed(&mut desk, "ctrl+n");
    at_first(&mut desk, form::Message::Moved(1));
    at_first(&mut desk, form::Message::Typed("Squat test".into()));
    at_first(&mut desk, form::Message::Entered);
    at_first(&mut desk, form::Message::Moved(1));
    at_first(&mut desk, form::Message::Turned(true));
    at_first(&mut desk, form::Message::Entered);
    at_first(&mut desk, form::Message::Entered);
    assert_eq!(desk.facts().bar_unit.to_string(), "lb");
    let racks = [
        ("platforms", "2"),
        ("platform.2", "Rack B"),
        ("step", "10 lb"),
    ];
    let racks = racks.map(|(key, value)| (key.to_owned(), value.to_owned()));
    desk.effects_mut()
        .submit(&Command::Set(racks.into()))
        .unwrap();
    pressed(&mut desk, "ctrl+o");
    // The last day is the first line; Down twice: like an old one.
    says(&desk, "Go on with the last day");
    for _ in 0..2 {
        at_first(&mut desk, form::Message::Moved(1));
    }
    at_first(&mut desk, form::Message::Entered);
    says(&desk, "Like the day in");
    for _ in 0..4 {
        at_first(&mut desk, form::Message::Entered);
    }
    let file = desk.effects_mut().path().unwrap().to_owned();
    assert!(file.ends_with("Squat test 2026-11-21 2.maxday"), "{file:?}");
    let facts = desk.facts();
    assert_eq!(facts.name, "Squat test");
    assert_eq!(facts.bar_unit.to_string(), "lb");
    assert_eq!(facts.scale_unit.to_string(), "lb");
    assert_eq!(facts.platforms.len(), 2);
    assert_eq!(facts.platforms[1].label, "Rack B");
    assert!(facts.entries.is_empty());
}

#[test]
fn one_key_goes_on_and_one_opens_the_sample() {
    let mut desk = empty_desk("screens-one-key");
    pressed(&mut desk, "ctrl+t");
    assert_eq!(desk.facts().entries.len(), 64);
    assert_eq!(desk.screen(), Some(ScreenId::Table));
    let path = desk.effects_mut().path().unwrap().to_owned();
    pressed(&mut desk, "ctrl+o");
    assert_eq!(desk.screen(), None);
    pressed(&mut desk, "Enter");
    assert_eq!(desk.effects_mut().path(), Some(path.as_path()));
    // Where something is asked for, the sample doesn't open over it.
    pressed(&mut desk, "ctrl+o");
    pressed(&mut desk, "ctrl+n");
    pressed(&mut desk, "ctrl+t");
    assert_eq!(desk.screen(), None);
    says(&desk, "Esc goes back to the first list");
    pressed(&mut desk, "Esc");
    says(&desk, "Go on with the last day");
    pressed(&mut desk, "ctrl+t");
    assert_eq!(desk.screen(), Some(ScreenId::Table));
}

/// The screens in the order of the day, and the rack cards.
fn all_screens() -> Vec<(ScreenId, String)> {
    let screens = ScreenId::ALL.into_iter().chain([ScreenId::Cards]);
    screens
        .map(|screen| {
            let row = row_of(Action::Show(screen)).unwrap();
            (screen, row.key.unwrap().to_string().to_lowercase())
        })
        .collect()
}

fn show(desk: &mut Desk, screen: ScreenId, key: &str) {
    // Function keys are named with a capital.
    let key = match key.strip_prefix('f') {
        Some(number) if number.parse::<u8>().is_ok() => format!("F{number}"),
        _ => key.to_owned(),
    };
    pressed(desk, &key);
    assert_eq!(desk.screen(), Some(screen));
}

#[test]
fn every_screen_says_what_comes_next_with_its_key() {
    let nobody = {
        let roster = "lot,given,family\n1,Ana,Ruiz\n";
        let mut desk = desk_with("screens-nobody", "Day", "max-day", roster);
        for key in ["F3", "ctrl+z", "ctrl+z"] {
            pressed(&mut desk, key);
        }
        assert!(desk.facts().entries.is_empty());
        (desk, Action::Show(ScreenId::Roster))
    };
    let names = "lot,given,family\n1,Ana,Ruiz\n2,Bo,Lind\n";
    let names = desk_with("screens-names", "Day", "max-day", names);
    let flights = "lot,given,family,flight\n1,Ana,Ruiz,A\n2,Bo,Lind,A\n";
    let flights = desk_with("screens-flights", "Day", "max-day", flights);
    for (mut desk, action) in [
        nobody,
        (names, Action::Show(ScreenId::Flights)),
        (flights, Action::Show(ScreenId::Table)),
    ] {
        let key = row_of(action).unwrap().key.unwrap().to_string();
        let step = next_step(desk.facts()).unwrap();
        assert!(step.contains(&label(action)), "{step}");
        for (screen, press) in all_screens() {
            show(&mut desk, screen, &press);
            let all = texts(&desk).join(" ");
            // The tabs name every key, so the words must be in a sentence.
            let told = all.contains(&step) || all.contains(&format!("({key})"));
            let own = match screen {
                ScreenId::Roster if desk.facts().entries.is_empty() => {
                    all.contains("Type the first athlete above.")
                }
                // They take what is typed here, or Enter does the next thing.
                ScreenId::Scale => !desk.facts().entries.is_empty(),
                ScreenId::Cards => all.contains("type the load"),
                ScreenId::Flights => all.contains("Enter places 2 athletes"),
                ScreenId::Table => all.contains("Enter: Starts "),
                _ => false,
            };
            assert!(told || own, "{screen:?} of a day where {step} {all}");
        }
    }
}

#[test]
fn the_day_shows_its_settings_and_takes_one() {
    let mut desk = desk_with_meet("screens-day");
    pressed(&mut desk, "F2");
    for words in ["Meet of three", "Posting", "Platforms", "2026-11-21"] {
        says(&desk, words);
    }
    // What is blank shows what holds.
    says(&desk, "by the rules: ");
    // There is more than fits: it says so.
    says(&desk, "PageDown and PageUp show the others.");
    pressed(&mut desk, "Down");
    says(&desk, "Write it as 2026-11-17.");
}

#[test]
fn the_flights_of_a_day_that_has_them_are_shown_by_hand() {
    let mut desk = desk_with_meet("screens-flights-there");
    pressed(&mut desk, "F5");
    says(&desk, "A: 3 on platform 1.");
    says(&desk, "Ctrl+F: a proposal for all flights.");
    pressed(&mut desk, "ctrl+f");
    says(&desk, "Enter places 3 athletes in flight A");
    // It stays as it was left.
    pressed(&mut desk, "F6");
    pressed(&mut desk, "F5");
    says(&desk, "Enter places 3 athletes in flight A");
}

#[test]
fn the_scale_lists_who_is_weighed_and_goes_to_a_lot() {
    let mut desk = desk_with_meet("screens-scale");
    pressed(&mut desk, "F4");
    says(&desk, "All are weighed");
    says(&desk, "Cy Marsh");
    says(
        &desk,
        "Bodyweights are shown here and nowhere else at the table.",
    );
}

#[test]
fn standings_begin_by_lift_where_there_are_no_categories() {
    let roster = "lot,given,family,flight,back-squat\n1,Ana,Ruiz,A,60\n2,Bo,Lind,A,80\n";
    let mut desk = desk_with("screens-by-lift", "Squats", "max-day", roster);
    pressed(&mut desk, "F7");
    says(&desk, "By lift");
    assert!(texts(&desk).contains(&"Back squat".to_owned()));
    assert!(!texts(&desk).contains(&"all back-squat".to_owned()));
    pressed(&mut desk, "ctrl+t");
    says(&desk, "Teams");
    // The usual score of a max day, whose number would tell the bodyweight.
    pressed(&mut desk, "ctrl+t");
    says(&desk, "By score: Load over bodyweight");
    says(&desk, "Scores are shown by their places");
    pressed(&mut desk, "ctrl+t");
    says(&desk, "By category");
    let mut meet = desk_with_meet("screens-by-category");
    pressed(&mut meet, "F7");
    says(&meet, "By category");
}

#[test]
fn the_papers_are_written_by_one_key() {
    let mut desk = desk_with_meet("screens-papers");
    pressed(&mut desk, "F8");
    says(
        &desk,
        "Ctrl+S: everything below, into a folder beside the day's file",
    );
    says(&desk, "one page for somebody new at the table");
    pressed(&mut desk, "ctrl+t");
    says(&desk, "A4");
    pressed(&mut desk, "ctrl+b");
    says(&desk, "for posting");
    pressed(&mut desk, "ctrl+s");
    let said = desk.said().unwrap().clone().unwrap();
    assert!(said.contains(" files are in "), "{said}");
    says(&desk, &said);
}

/// A coach's own norms stand on the athletes' reports, and what is wrong in them is told
/// before anything is written.
#[test]
fn norms_are_named_at_the_end_of_the_papers() {
    use maxday::desk::screen::papers;
    let mut desk = desk_with_meet("screens-norms");
    let day = desk.effects_mut().path().unwrap().to_path_buf();
    let told = |desk: &mut Desk, message| {
        let _ = desk.update(Message::Papers(papers::Message::Form(message)));
    };
    std::fs::write(
        day.with_file_name("norms.csv"),
        "lift,percentile,value\nsnatch,0,40\n",
    )
    .unwrap();
    pressed(&mut desk, "F8");
    told(&mut desk, form::Message::Moved(1000));
    says(&desk, "A coach's own norms");
    told(&mut desk, form::Message::Typed("norms.csv".to_owned()));
    pressed(&mut desk, "ctrl+s");
    let refused = desk.said().unwrap().clone().unwrap_err();
    assert!(
        refused.contains("row 2, column percentile: “0” is no percentile"),
        "{refused}"
    );
    let papers = day.with_file_name("meet papers");
    assert!(!papers.exists());
    std::fs::write(
        day.with_file_name("norms.csv"),
        "lift,percentile,value\nsnatch,50,40\n",
    )
    .unwrap();
    pressed(&mut desk, "ctrl+s");
    let said = desk.said().unwrap().clone().unwrap();
    assert!(said.contains(" files are in "), "{said}");
    assert!(papers.join("athlete-reports.pdf").exists());
}

#[test]
fn what_takes_a_while_is_said_before_it_is_done() {
    let mut roster = String::from("lot,given,family\n");
    for lot in 1..=160 {
        roster.push_str(&format!("{lot},Given,Family{lot}\n"));
    }
    let mut desk = desk_with("screens-while", "Large", "max-day", &roster);
    pressed(&mut desk, "F8");
    pressed(&mut desk, "ctrl+s");
    says(&desk, "Writing the papers; that takes a moment.");
    let folder = desk
        .effects_mut()
        .path()
        .unwrap()
        .with_file_name("meet papers");
    assert!(!folder.exists());
    // The same with a long list: nobody is entered until it was said.
    let list = desk_support::folder("screens-long-list").join("long.csv");
    let mut long = String::from("name,team\n");
    for n in 0..400 {
        long.push_str(&format!("Given Other{n},A team with a long enough name\n"));
    }
    std::fs::write(&list, long).unwrap();
    let _ = desk.update(Message::Dropped(list.clone()));
    says(&desk, "Reading the roster ");
    assert_eq!(desk.facts().entries.len(), 160);
    let work = maxday::desk::work::Work::Import(list);
    let _ = desk.update(Message::Now(work));
    assert_eq!(desk.facts().entries.len(), 560);
    assert!(desk.said().is_none());
}

#[test]
fn the_journal_narrows_to_an_athlete() {
    let mut desk = desk_with_meet("screens-journal");
    for line in ["", "", "www"] {
        typed(&mut desk, line);
    }
    pressed(&mut desk, "F9");
    says(&desk, "newest first");
    says(
        &desk,
        "lot 3, Ana Ruiz, snatch attempt 1 at 50 kg: good lift",
    );
    pressed(&mut desk, "ctrl+d");
    says(&desk, "What would change");
}

#[test]
fn the_list_of_keys_is_whole_on_an_old_laptops_screen() {
    let mut desk = desk_with_meet("screens-keys");
    pressed(&mut desk, "F1");
    assert_eq!(desk.sheet(), Some(Sheet::Keys));
    let mut low = 0.0_f32;
    let mut ui = Simulator::with_size(settings(), WINDOW, desk.main());
    let _ = ui.find(|candidate: Candidate<'_>| {
        if let Candidate::Text { bounds, .. } = candidate {
            low = low.max(bounds.y + bounds.height);
        }
        None::<()>
    });
    assert!(low <= WINDOW.height, "it ends at {low}");
    drop(ui);
    for row in maxday::desk::action::ACTIONS {
        says(&desk, row.label);
    }
    let escape = press("Esc");
    let _ = desk.update(Message::Pressed(iced::window::Id::unique(), escape));
    assert_eq!(desk.sheet(), None);
}
