//! The quick guide: one page, and true to the program's keys and shorthand.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;
mod support;

use iced::Size;
use iced_test::Simulator;
use iced_test::selector::Candidate;
use maxday::desk::action::{ACTIONS, Action, key_of_label, key_words};
use maxday::desk::app::{Desk, Sheet};
use maxday::desk::call_line::SHORTHAND;
use maxday::desk::screen::ScreenId;
use maxday::measure::Unit;
use maxday::papers::Paper;
use maxday::papers::documents::{Order, lay};
use maxday::sheets::{Audience, quick_guide, quick_guide_keys, quick_guide_with};

use desk_support::{desk_with_meet, empty_desk, pressed, settings};
use support::{Table, at_ms};

#[test]
fn it_is_one_page_in_both_sizes() {
    let table = Table::new("max-day", Unit::Lb, &["back-squat"], 1);
    for size in [Paper::Letter, Paper::A4] {
        let order = Order {
            size,
            audience: Audience::Private,
            made: at_ms(0),
            only: Some(vec!["quick-guide".to_owned()]),
        };
        let laid = lay(table.facts(), &order).unwrap();
        assert_eq!(laid[0].pages.len(), 1, "{size:?}");
    }
}

#[test]
fn every_key_and_word_in_it_is_the_programs_own() {
    let chords: Vec<String> = ACTIONS
        .iter()
        .filter_map(|row| row.key)
        .map(|chord| chord.to_string())
        .collect();
    let words: Vec<&str> = SHORTHAND
        .iter()
        .flat_map(|(typed, meaning)| [*typed, *meaning])
        .collect();
    let mut checked = 0;
    for part in quick_guide() {
        for (typed, meaning) in &part.lines {
            let is_key = chords.contains(typed);
            let is_word = words.iter().any(|w| {
                w.split([';', ','])
                    .any(|piece| piece.trim().starts_with(typed))
            });
            assert!(is_key || is_word, "{typed}");
            for word in meaning.split([' ', ':', ',', ';', '.']) {
                if word.starts_with("Ctrl+")
                    || (word.len() <= 3
                        && word.starts_with('F')
                        && word[1..].parse::<u8>().is_ok())
                {
                    assert!(chords.contains(&word.to_owned()), "{word}");
                }
            }
            checked += 1;
        }
    }
    assert!(checked >= 20, "{checked}");
}

#[test]
fn its_own_list_of_keys_is_the_table_of_actions() {
    for (what, key) in quick_guide_keys() {
        assert_eq!(key_of_label(what).as_ref(), Some(key), "{what}");
    }
    // Nothing is left in braces, and another key would be shown.
    let other = quick_guide_with(|_| Some("Ctrl+Pause".to_owned()));
    for (part, other) in quick_guide().iter().zip(&other) {
        let all = part.lines.iter().zip(&other.lines);
        for ((typed, meaning), (other, _)) in all {
            assert!(!format!("{typed}{meaning}").contains(['{', '}']), "{typed}");
            let is_key = quick_guide_keys().values().any(|key| key == typed);
            assert_eq!(is_key, other == "Ctrl+Pause", "{typed}");
        }
    }
}

/// Every text that is shown, with where it ends.
fn shown(desk: &Desk, size: Size) -> Vec<(String, f32)> {
    let mut all = Vec::new();
    let mut ui = Simulator::with_size(settings(), size, desk.main());
    let _ = ui.find(|candidate: Candidate<'_>| {
        if let Candidate::Text {
            content, bounds, ..
        } = candidate
        {
            all.push((content.to_owned(), bounds.y + bounds.height));
        }
        None::<()>
    });
    all
}

#[test]
fn the_desk_shows_it_whole_from_everywhere() {
    let key = key_words(Action::Guide);
    assert!(!key.is_empty());
    let key = key.to_lowercase();
    let mut first = empty_desk("guide-first");
    let mut open = desk_with_meet("guide-open");
    let places = ["F2", "F3", "F4", "F5", "F6", "ctrl+k", "F7", "F8", "F9"];
    for at in places.map(Some).into_iter().chain([None]) {
        let desk = if at.is_some() { &mut open } else { &mut first };
        if let Some(at) = at {
            pressed(desk, at);
        }
        let screen = desk.screen();
        pressed(desk, &key);
        assert_eq!(desk.sheet(), Some(Sheet::Guide), "{at:?}");
        // Nothing is below the edge of an old laptop's screen.
        let all = shown(desk, Size::new(1366.0, 700.0));
        for part in quick_guide() {
            for words in [&part.title, &part.text] {
                assert!(words.is_empty() || all.iter().any(|(t, _)| t == words));
            }
            for (typed, meaning) in &part.lines {
                assert!(all.iter().any(|(t, _)| t == typed), "{typed}");
                assert!(all.iter().any(|(t, _)| t == meaning), "{meaning}");
            }
        }
        for (text, low) in &all {
            assert!(*low <= 700.0, "{text} ends at {low}");
        }
        pressed(desk, "F1");
        assert_eq!(desk.sheet(), Some(Sheet::Keys));
        pressed(desk, &key);
        pressed(desk, "Esc");
        assert_eq!((desk.sheet(), desk.screen()), (None, screen), "{at:?}");
    }
}

#[test]
fn what_a_key_does_is_seen_so_the_guide_makes_way() {
    let mut desk = desk_with_meet("guide-way");
    pressed(&mut desk, "ctrl+h");
    pressed(&mut desk, "F10");
    assert_eq!(desk.sheet(), None);
    assert_eq!(desk.screen(), Some(ScreenId::Table));
}
