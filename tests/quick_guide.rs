//! The quick guide: one page, and true to the program's keys and shorthand.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod support;

use maxday::desk::action::ACTIONS;
use maxday::desk::call_line::SHORTHAND;
use maxday::measure::Unit;
use maxday::papers::Paper;
use maxday::papers::documents::{Order, lay};
use maxday::sheets::{Audience, quick_guide};

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
