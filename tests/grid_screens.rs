//! The screens that hold a grid, typed into through their widgets.

// Helpers of tests may stop at the first thing that isn't as it should be.
#![allow(clippy::unwrap_used, clippy::expect_used)]

use iced::keyboard::key::Named;
use iced_test::selector::id;
use iced_test::simulator::Simulator;

use maxday::day::{
    Command, Context, Day, Event, NewEntry, Place, Recorded, Stamp, apply, decide,
};
use maxday::desk::screen::Out;
use maxday::desk::screen::cards::{self, Cards};
use maxday::desk::screen::flights::{self, Flights};
use maxday::desk::screen::roster::{self, Roster};
use maxday::desk::screen::scale::{self, Scale};
use maxday::desk::{font, theme};
use maxday::lift::Slug;
use maxday::measure::Unit;
use maxday::roster::{Change, SlotLine};
use maxday::rules::{Sex, format_named};

const SMALL: (f32, f32) = (1366.0, 690.0);
const LARGE: (f32, f32) = (1920.0, 1000.0);

fn settings() -> iced::Settings {
    iced::Settings {
        fonts: vec![font::REGULAR_BYTES.into(), font::BOLD_BYTES.into()],
        default_font: font::REGULAR,
        ..iced::Settings::default()
    }
}

fn slug(text: &str) -> Slug {
    Slug::new(text).unwrap()
}

fn record(day: &mut Day, platform: Option<u8>, events: Vec<Event>) {
    let act = day.next_seq();
    for event in events {
        let seq = day.next_seq();
        let at = Stamp {
            ms: 1_794_000_000_000 + i64::try_from(seq).unwrap() * 1000,
            offset: 0,
            loose: false,
        };
        let recorded = Recorded {
            seq,
            act,
            id: format!("t{seq}"),
            at,
            happened: None,
            hand: "test".into(),
            platform,
            event,
        };
        apply(day, &recorded);
    }
}

fn submit(day: &mut Day, command: &Command) -> Result<(), String> {
    let context = Context {
        at: Stamp {
            ms: 1_794_000_000_000 + i64::try_from(day.next_seq()).unwrap() * 1000,
            offset: 0,
            loose: false,
        },
        hand: "test".into(),
        draw: 7,
    };
    let decided = decide(day, command, &context).map_err(|e| e.to_string())?;
    record(day, decided.platform, decided.events);
    Ok(())
}

/// Invented athletes on a max day with two flights.
fn sample() -> Day {
    let mut day = Day::new();
    let rules = format_named("max-day").unwrap().rules(Unit::Kg).unwrap();
    let line = |slot: &str, variants: &[&str]| SlotLine {
        slot: slug(slot),
        variants: variants.iter().map(|v| slug(v)).collect(),
    };
    let made = Event::DayMade {
        name: "Trial".into(),
        date: chrono::NaiveDate::from_ymd_opt(2026, 11, 17).unwrap(),
        format: "max-day".into(),
        bar_unit: Unit::Kg,
        scale_unit: Unit::Kg,
        rules: rules.words(),
        slots: vec![
            line("clean", &["power-clean", "hang-power-clean"]),
            line("back-squat", &["back-squat"]),
            line("bench-press", &["bench-press"]),
        ],
        platforms: 3,
    };
    record(&mut day, None, vec![made]);
    let set = |key: &str, value: &str| vec![(key.to_owned(), value.to_owned())];
    submit(&mut day, &Command::Set(set("categories", "iwf-2026"))).unwrap();
    submit(&mut day, &Command::Set(set("platform.2", "Rack 2"))).unwrap();
    let given = [
        "Ann", "Bea", "Cleo", "Dana", "Eve", "Finn", "Gus", "Hal", "Ivo", "Jon",
    ];
    let family = ["Oru", "Lund", "Marsh", "Quill", "Pike", "Rowe"];
    for number in 1..=36_u16 {
        let at = usize::from(number);
        let mut changes = vec![
            Change::Given(given[at % 10].into()),
            Change::Family(family[at % 6].into()),
            Change::Sex(Some(if at % 10 < 5 { Sex::F } else { Sex::M })),
            Change::Grade(format!("{}", 9 + at % 4)),
            Change::Team("Owls".into()),
        ];
        for slot in ["clean", "back-squat", "bench-press"] {
            let line = day.facts().slot(slot).unwrap().clone();
            let load = format!("{}", 40 + at * 5 / 2 / 5 * 5);
            changes.push(Change::Slot {
                variant: Some(line.default_variant().clone()),
                slot: line.slot,
                opener: (at % 7 != 0).then(|| day.facts().reading().load(&load).unwrap()),
            });
        }
        let new = NewEntry {
            number: Some(number),
            changes,
            place: Place {
                session: Some("1".into()),
                flight: Some(if number % 3 == 0 { "B" } else { "A" }.into()),
                platform: Some(if number % 3 == 0 { 2 } else { 1 }),
            },
        };
        submit(&mut day, &Command::Add(vec![new])).unwrap();
    }
    day
}

/// A screen as the shell drives it.
trait Driven {
    type Message: Clone;
    fn show(
        &self,
        day: &Day,
        size: (f32, f32),
        keys: &dyn Fn(&mut Sim<'_, Self::Message>),
    ) -> Vec<Self::Message>;
    fn take(&mut self, message: Self::Message, day: &mut Day) -> Option<String>;
}

type Sim<'a, M> = Simulator<'a, M, iced::Theme, iced::Renderer>;

macro_rules! driven {
    ($screen:ty, $messages:ident) => {
        impl Driven for $screen {
            type Message = $messages::Message;
            fn show(
                &self,
                day: &Day,
                size: (f32, f32),
                keys: &dyn Fn(&mut Sim<'_, Self::Message>),
            ) -> Vec<Self::Message> {
                let size = iced::Size::new(size.0, size.1);
                let view = self.view(day.facts());
                let mut simulator = Simulator::with_size(settings(), size, view);
                keys(&mut simulator);
                simulator.into_messages().collect()
            }
            fn take(&mut self, message: Self::Message, day: &mut Day) -> Option<String> {
                let (_, out) = self.update(message, day.facts());
                let mut out = out;
                let mut refused = None;
                while let Some(Out::Submit(command)) = out {
                    let answer = submit(day, &command);
                    refused = refused.or(answer.clone().err());
                    let _ = self.answered(answer, day.facts());
                    out = self.update($messages::Message::Next, day.facts()).1;
                }
                refused
            }
        }
    };
}

driven!(Cards, cards);
driven!(Roster, roster);
driven!(Scale, scale);
driven!(Flights, flights);

/// Clicks the field, does the keys in one burst, and takes what comes of it.
fn play<S: Driven>(
    screen: &mut S,
    day: &mut Day,
    field: &'static str,
    keys: impl Fn(&mut Sim<'_, S::Message>),
) -> Vec<String> {
    let messages = screen.show(day, SMALL, &|simulator| {
        let _ = simulator.click(id(field)).unwrap();
        keys(simulator);
    });
    messages
        .into_iter()
        .filter_map(|message| screen.take(message, day))
        .collect()
}

/// Writes a picture where `MAXDAY_LOOK` names a folder, to be looked at.
fn look<S: Driven>(screen: &S, day: &Day, name: &str) {
    let Some(folder) = std::env::var_os("MAXDAY_LOOK") else {
        return;
    };
    for (size, word) in [(SMALL, "small"), (LARGE, "large")] {
        let path = std::path::Path::new(&folder).join(format!("{name}-{word}"));
        let _ = screen.show(day, size, &|simulator| {
            let shot = simulator.snapshot(&theme::light()).unwrap();
            assert!(shot.matches_image(&path).unwrap_or(true));
        });
    }
}

fn text<M>(simulator: &mut Sim<'_, M>, part: &str) -> bool {
    simulator.find(part).is_ok()
}

#[test]
fn a_card_is_typed_in_one_burst() {
    let (mut day, mut screen) = (sample(), Cards::new());
    let _ = screen.shown(day.facts());
    look(&screen, &day, "cards-empty");
    let refused = play(&mut screen, &mut day, cards::FIELD, |simulator| {
        let _ = simulator.typewrite("135g145n150g");
        let _ = simulator.tap_key(Named::Enter);
        let _ = simulator.typewrite("g45n");
        let _ = simulator.tap_key(Named::Enter);
        let _ = simulator.typewrite("62.5x");
        let _ = simulator.tap_key(Named::Enter);
    });
    assert_eq!(refused, Vec::<String>::new());
    let facts = day.facts();
    let key = facts.numbers[&1];
    let ruled = |n| {
        let attempt = facts.attempt(key, &slug("clean"), n).unwrap();
        let fact = &attempt.ruled.as_ref().unwrap().fact;
        format!(
            "{} {}",
            fact.credited.as_ref().unwrap().show(Unit::Kg),
            fact.ruling
        )
    };
    assert_eq!(
        [ruled(1), ruled(2), ruled(3)],
        ["135 good", "145 no", "150 good"]
    );
    assert!(screen.has_drafts());
    look(&screen, &day, "cards-typed");
    let _ = screen.show(&day, SMALL, &|simulator| {
        assert!(text(simulator, "Rack card: Platform 1, flight A, clean"));
    });
}

#[test]
fn arrows_and_tab_belong_to_the_grid_until_something_is_typed() {
    let (mut day, mut screen) = (sample(), Roster::new());
    let refused = play(&mut screen, &mut day, roster::FIELD, |simulator| {
        for key in [Named::Home, Named::ArrowRight, Named::ArrowDown, Named::Tab] {
            let status = simulator.tap_key(key);
            assert_eq!(status, iced::event::Status::Captured, "{key:?}");
        }
        let _ = simulator.typewrite("Hill");
        let _ = simulator.tap_key(Named::Tab);
        // Escape and function keys are left to the shell.
        assert_eq!(
            simulator.tap_key(Named::Escape),
            iced::event::Status::Ignored
        );
        assert_eq!(simulator.tap_key(Named::F5), iced::event::Status::Ignored);
    });
    assert_eq!(refused, Vec::<String>::new());
    assert_eq!(day.facts().entry_by_number(2).unwrap().family, "Hill");
    look(&screen, &day, "roster");
}

#[test]
fn a_click_takes_a_cell_in_hand() {
    let (mut day, mut screen) = (sample(), Roster::new());
    let messages = screen.show(&day, SMALL, &|simulator| {
        let _ = simulator.click("Cleo").unwrap();
    });
    for message in messages {
        let _ = screen.take(message, &mut day);
    }
    let _ = play(&mut screen, &mut day, roster::FIELD, |simulator| {
        let _ = simulator.typewrite("Zoe");
        let _ = simulator.tap_key(Named::Enter);
    });
    assert_eq!(day.facts().entry_by_number(2).unwrap().given, "Zoe");
}

#[test]
fn a_roster_file_is_named_in_its_field() {
    let (mut day, mut screen) = (sample(), Roster::new());
    let _ = play(&mut screen, &mut day, roster::FILE, |simulator| {
        let _ = simulator.typewrite("period1.csv");
    });
    let _ = play(&mut screen, &mut day, roster::FILE, |simulator| {
        let _ = simulator.tap_key(Named::Enter);
    });
    assert_eq!(screen.take_import(), Some("period1.csv".into()));
    let _ = screen.imported(Err("Row 3, sex: “Q” is not a sex; write F or M.".into()));
    look(&screen, &day, "roster-report");
    let _ = screen.show(&day, SMALL, &|simulator| {
        assert!(text(simulator, "Nothing was imported."));
    });
}

#[test]
fn the_scale_weighs_and_says_how_far_from_the_edge() {
    let (mut day, mut screen) = (sample(), Scale::new());
    let refused = play(&mut screen, &mut day, scale::FIELD, |simulator| {
        let _ = simulator.typewrite("12");
        let _ = simulator.tap_key(Named::Enter);
        let _ = simulator.typewrite("60.4");
        let _ = simulator.tap_key(Named::Enter);
        let _ = simulator.typewrite("62");
    });
    assert_eq!(refused, Vec::<String>::new());
    assert!(
        day.facts()
            .entry_by_number(12)
            .unwrap()
            .bodyweight
            .is_some()
    );
    look(&screen, &day, "scale");
    let _ = screen.show(&day, SMALL, &|simulator| {
        assert!(text(simulator, "F 61, 0.6 under"));
        assert!(text(simulator, "35 of 36 still to weigh"));
    });
}

#[test]
fn flights_are_proposed_accepted_and_put_right_by_hand() {
    let (mut day, mut screen) = (sample(), Flights::new());
    look(&screen, &day, "flights-proposal");
    let messages = screen.show(&day, SMALL, &|simulator| {
        let _ = simulator.click(id(flights::PLAN)).unwrap();
        let _ = simulator.tap_key(Named::End);
        let _ = simulator.typewrite(" from D");
        let _ = simulator.tap_key(Named::Enter);
    });
    let refused: Vec<String> = messages
        .into_iter()
        .filter_map(|message| screen.take(message, &mut day))
        .collect();
    assert_eq!(refused, Vec::<String>::new());
    assert_eq!(day.facts().entries_of("1", "D").count(), 12);
    let _ = play(&mut screen, &mut day, flights::FIELD, |simulator| {
        let _ = simulator.typewrite("E");
        let _ = simulator.tap_key(Named::Enter);
    });
    assert_eq!(day.facts().entry_by_number(1).unwrap().flight, "E");
    look(&screen, &day, "flights-hand");
}
