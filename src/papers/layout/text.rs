//! Texts on lines: cleaning, breaking and cutting short.

use unicode_normalization::UnicodeNormalization;

use super::page::{Ink, Item};
use crate::papers::fonts::{self, Face};

/// The text as it can be set: accents composed, white space and control
/// characters as plain spaces, marks without a shape left out.
///
/// The font is set without shaping, so a decomposed accent would stand beside
/// its letter.
pub(super) fn clean(text: &str) -> String {
    if text.is_ascii() && !text.contains(|c: char| c.is_ascii_control()) {
        return text.to_owned();
    }
    text.nfc()
        .filter(|c| {
            !matches!(c, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}'
                | '\u{2060}'..='\u{2069}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}')
        })
        .map(|c| {
            if c.is_control() || c.is_whitespace() {
                ' '
            } else {
                c
            }
        })
        .collect()
}

/// Breaks a clean text at spaces into lines no wider than `width` points.
///
/// A word that is wider is broken after a hyphen, else between characters. There is always at least
/// one line, and every line has at least one character unless the text is empty.
pub(super) fn wrap(text: &str, size: f32, face: Face, width: f32) -> Vec<String> {
    let space = fonts::width(" ", size, face);
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut used = 0.0;
    for word in text.split(' ').filter(|w| !w.is_empty()) {
        let wide = fonts::width(word, size, face);
        if !line.is_empty() && used + space + wide <= width {
            line.push(' ');
            line.push_str(word);
            used += space + wide;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        if wide <= width {
            line.push_str(word);
            used = wide;
            continue;
        }
        used = 0.0;
        for c in word.chars() {
            let one = fonts::width(c.encode_utf8(&mut [0; 4]), size, face);
            if !line.is_empty() && used + one > width {
                let rest = match line.rfind('-') {
                    Some(at) if c != '-' => line.split_off(at + 1),
                    _ => String::new(),
                };
                lines.push(std::mem::replace(&mut line, rest));
                used = fonts::width(&line, size, face);
            }
            line.push(c);
            used += one;
        }
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// As [`wrap`], but at most `most` lines; the last is cut short if need be.
pub(super) fn wrap_at_most(
    text: &str,
    size: f32,
    face: Face,
    width: f32,
    most: usize,
) -> Vec<String> {
    let mut lines = wrap(text, size, face, width);
    if lines.len() > most {
        lines.truncate(most.saturating_sub(1));
        let words: Vec<&str> = text.split(' ').filter(|w| !w.is_empty()).collect();
        let whole = words.join(" ");
        let mut rest = whole.as_str();
        for line in &lines {
            rest = rest.get(line.len()..).unwrap_or_default().trim_start();
        }
        lines.push(shorten(rest, size, face, width));
    }
    lines
}

/// The text, or its beginning and an ellipsis where it is wider than `width`.
pub(super) fn shorten(text: &str, size: f32, face: Face, width: f32) -> String {
    // A rounding's breadth of leave, or a column fitted to its widest text
    // would cut that text.
    let width = width + 0.05;
    if fonts::width(text, size, face) <= width {
        return text.to_owned();
    }
    let mut used = fonts::width("…", size, face);
    let mut short = String::new();
    for c in text.chars() {
        used += fonts::width(c.encode_utf8(&mut [0; 4]), size, face);
        if used > width {
            break;
        }
        short.push(c);
    }
    short.truncate(short.trim_end().len());
    short.push('…');
    short
}

/// How a text is set.
#[derive(Debug, Clone, Copy)]
pub(super) struct Type {
    /// Size in points.
    pub size: f32,
    /// The face.
    pub face: Face,
    /// How dark.
    pub ink: Ink,
}

impl Type {
    pub(super) const fn black(size: f32) -> Self {
        Self {
            size,
            face: Face::Regular,
            ink: Ink::Black,
        }
    }

    pub(super) const fn bold(size: f32) -> Self {
        Self {
            size,
            face: Face::Bold,
            ink: Ink::Black,
        }
    }

    pub(super) const fn grey(size: f32) -> Self {
        Self {
            size,
            face: Face::Regular,
            ink: Ink::Grey,
        }
    }

    pub(super) fn width(self, text: &str) -> f32 {
        fonts::width(text, self.size, self.face)
    }

    /// The text with its left end at `x` and its baseline at `y`.
    pub(super) fn at(self, x: f32, y: f32, text: String) -> Item {
        Item::Text {
            x,
            y,
            size: self.size,
            bold: self.face == Face::Bold,
            ink: self.ink,
            text,
        }
    }

    /// The text with its right end at `x`.
    pub(super) fn ending_at(self, x: f32, y: f32, text: String) -> Item {
        let left = x - self.width(&text);
        self.at(left, y, text)
    }

    /// The text with its middle at `x`.
    pub(super) fn around(self, x: f32, y: f32, text: String) -> Item {
        let left = x - self.width(&text) / 2.0;
        self.at(left, y, text)
    }

    /// The text, cut short to `width` where it is wider.
    pub(super) fn shorten(self, text: &str, width: f32) -> String {
        shorten(&clean(text), self.size, self.face, width)
    }
}
