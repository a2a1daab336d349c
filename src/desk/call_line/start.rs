//! Words of the shorthand by their start.

use super::read::letters_of;

/// The words with which a line can begin.
const FIRST: &[&str] = &[
    "call", "who", "start", "break", "clock", "check", "fault", "note", "undo", "redo",
    "time", "pass", "rest", "stop", "close", "loaded",
];

/// The words that can follow a number.
const AFTER_NUMBER: &[&str] = &[
    "here",
    "absent",
    "away",
    "back",
    "pass",
    "rest",
    "call",
    "withdraw",
    "disqualify",
    "guest",
    "tally",
    "stop",
    "loaded",
    "extra",
    "overrule",
    "challenge",
    "note",
];

/// The word with which a line begins, where `typed` is the start of it and of
/// no other; else as it was typed.
pub(super) fn first(typed: &str) -> String {
    whole(typed, FIRST)
}

/// The same for a word that follows a number; w and r are lights, and never the start
/// of withdraw or rest.
pub(super) fn after_number(typed: &str) -> String {
    if letters_of(&typed.to_lowercase()).is_some() {
        return typed.to_lowercase();
    }
    whole(typed, AFTER_NUMBER)
}

fn whole(typed: &str, words: &[&str]) -> String {
    let lower = typed.to_lowercase();
    let mut fits = words.iter().filter(|word| word.starts_with(&lower));
    match (fits.next(), fits.next()) {
        (Some(only), None) if !lower.is_empty() => (*only).to_owned(),
        _ => lower,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_start_is_its_word_where_it_is_no_other() {
        assert_eq!(first("p"), "pass");
        assert_eq!(first("B"), "break");
        assert_eq!(first("st"), "st");
        assert_eq!(first("sto"), "stop");
        assert_eq!(first("c"), "c");
        assert_eq!(after_number("wi"), "withdraw");
        assert_eq!(after_number("w"), "w");
        assert_eq!(after_number("r"), "r");
        assert_eq!(after_number("re"), "rest");
        assert_eq!(after_number("a"), "a");
        assert_eq!(after_number("85"), "85");
        assert_eq!(after_number(""), "");
    }

    #[test]
    fn no_word_is_the_start_of_another() {
        for words in [FIRST, AFTER_NUMBER] {
            for word in words {
                assert_eq!(whole(word, words), *word);
            }
        }
    }
}
