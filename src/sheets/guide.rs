//! The quick guide: one page for somebody new at the table.

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

#[derive(Deserialize)]
struct File {
    part: Vec<Part>,
}

/// The parts of the quick guide, in order.
pub fn quick_guide() -> &'static [Part] {
    static PARTS: OnceLock<Vec<Part>> = OnceLock::new();
    PARTS.get_or_init(|| {
        let file: Result<File, _> =
            toml::from_str(include_str!("../../resources/quick-guide.toml"));
        file.map_or_else(|_| Vec::new(), |file| file.part)
    })
}
