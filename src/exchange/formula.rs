//! Texts that a spreadsheet would run as a formula, made harmless and back.
//!
//! A name, a team or a note may begin with a sign by which a spreadsheet knows a
//! formula. Source: OWASP, CSV Injection: no cell may begin with `=`, `+`, `-`,
//! `@`, a tab, a carriage return or a line feed; a single quote before it makes the
//! spreadsheet read it as text. Two things are our choice: a plain number such as
//! `-2.5` stays as it is, since it runs nothing and has to stay a number; and a
//! text that begins with single quotes before such a sign gets one more, so that
//! what is read back is always what was written.

use std::borrow::Cow;

/// The signs by which a spreadsheet knows a formula at the start of a cell.
const SIGNS: [char; 7] = ['=', '+', '-', '@', '\t', '\r', '\n'];

/// The text as it is written for a spreadsheet: with a single quote before it
/// where it would be run as a formula.
///
/// ```
/// use maxday::exchange::formula::{guarded, unguarded};
/// assert_eq!(guarded("=1+1"), "'=1+1");
/// assert_eq!(guarded("-2.5"), "-2.5");
/// assert_eq!(unguarded("'=1+1"), "=1+1");
/// ```
pub fn guarded(text: &str) -> Cow<'_, str> {
    if is_risky(text) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// The text as it was before [`guarded`].
pub fn unguarded(text: &str) -> &str {
    match text.strip_prefix('\'') {
        Some(inner) if is_risky(inner) => inner,
        _ => text,
    }
}

/// Whether a text gets a quote: it begins with a sign, or with quotes before one,
/// and isn't a number.
fn is_risky(text: &str) -> bool {
    let inner = text.trim_start_matches('\'');
    let quoted = inner.len() < text.len();
    inner.starts_with(SIGNS) && (quoted || !is_number(inner))
}

/// Whether a spreadsheet takes the text for a number and nothing else.
fn is_number(text: &str) -> bool {
    let digits = text.bytes().any(|b| b.is_ascii_digit());
    digits && !text.contains(['\t', '\r', '\n']) && text.parse::<f64>().is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_would_be_run_gets_a_quote_and_numbers_none() {
        for text in [
            "=1+1",
            "=cmd|'/c calc'!A1",
            "@SUM(A1)",
            "+1+2",
            "-2+3",
            "-",
            "+",
            "-inf",
            "-NaN",
            "\t=1",
            "\r=1",
            "\n5",
            "-1-1",
            "+49 30 1",
            "=HYPERLINK(\"x\",\"y\")",
            "'=1",
            "''@x",
            "'-5",
        ] {
            assert_eq!(guarded(text), format!("'{text}"));
            assert_eq!(unguarded(&guarded(text)), text);
        }
        for text in [
            "", "+5", "-2.5", "-.5", "-1e3", "O'Dell", "'Abu", "a=b", "5-3", " =1", "–",
        ] {
            assert_eq!(guarded(text), text);
            assert_eq!(unguarded(text), text);
        }
    }

    proptest! {
        #[test]
        fn what_is_written_is_read_back(text in "['=+@\t\r\n0-9a-e. -]{0,8}") {
            let written = guarded(&text);
            prop_assert_eq!(unguarded(&written), &text);
            let starts = written.starts_with(SIGNS);
            prop_assert!(!starts || written.parse::<f64>().is_ok(), "{:?}", written);
        }
    }
}
