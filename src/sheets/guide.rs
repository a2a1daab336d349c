//! The quick guide: one page for somebody new at the table.
//!
//! Its text names what a key does, in braces; which key that is comes from
//! whoever shows it, or from the list that the text brings along.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

/// A part of the quick guide.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
pub struct Part {
    /// Its title.
    pub title: String,
    /// A sentence or two before its lines; may be empty.
    pub text: String,
    /// What is pressed or typed, and what that does.
    pub lines: Vec<(String, String)>,
}

#[derive(Default, Deserialize)]
struct File {
    keys: BTreeMap<String, String>,
    part: Vec<Part>,
}

/// The parts of the quick guide, in order, with the keys that its own list
/// gives.
pub fn quick_guide() -> &'static [Part] {
    static PARTS: OnceLock<Vec<Part>> = OnceLock::new();
    PARTS.get_or_init(|| quick_guide_with(|_| None))
}

/// The same with the keys of whoever shows it, by what they do; where that
/// gives none, the guide's own list does.
pub fn quick_guide_with(key_of: impl Fn(&str) -> Option<String>) -> Vec<Part> {
    let file = file();
    let fill = |text: &str| {
        filled(text, |what| {
            key_of(what).or_else(|| file.keys.get(what).cloned())
        })
    };
    let lines = |part: &Part| {
        let lines = part.lines.iter();
        lines.map(|(key, what)| (fill(key), fill(what))).collect()
    };
    let parts = file.part.iter().map(|part| Part {
        title: fill(&part.title),
        text: fill(&part.text),
        lines: lines(part),
    });
    parts.collect()
}

/// The guide's own list: what a key does, and the key.
pub fn quick_guide_keys() -> &'static BTreeMap<String, String> {
    &file().keys
}

fn file() -> &'static File {
    static FILE: OnceLock<File> = OnceLock::new();
    FILE.get_or_init(|| {
        toml::from_str(include_str!("../../resources/quick-guide.toml"))
            .unwrap_or_default()
    })
}

/// A text with the keys in place of what stands in braces.
fn filled(text: &str, key_of: impl Fn(&str) -> Option<String>) -> String {
    let mut done = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        done.push_str(before);
        let Some((what, after)) = after.split_once('}') else {
            done.push('{');
            rest = after;
            continue;
        };
        match key_of(what) {
            Some(key) => done.push_str(&key),
            None => done.push_str(what),
        }
        rest = after;
    }
    done.push_str(rest);
    done
}
