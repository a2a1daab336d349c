//! Keeps the house tidy: walls between the rooms, file sizes, the top level.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The rooms from the ground up; what shares a number must not know each
/// other.
const ROOMS: [(&str, u8); 17] = [
    ("measure", 0),
    ("bar", 1),
    ("lift", 1),
    ("rules", 2),
    ("score", 3),
    ("roster", 3),
    ("day", 4),
    ("standings", 5),
    ("sheets", 6),
    ("file", 7),
    ("exchange", 7),
    ("papers", 8),
    ("post", 9),
    ("samples", 9),
    ("desk", 10),
    ("cli", 11),
    ("lib", 99),
];

/// Crates that only one room may name.
const OWNERS: [(&str, &str); 11] = [
    ("iced", "desk"),
    ("clap", "cli"),
    ("rusqlite", "file"),
    ("printpdf", "papers"),
    ("allsorts", "papers"),
    ("ttf_parser", "papers"),
    ("csv", "exchange"),
    ("calamine", "exchange"),
    ("rust_xlsxwriter", "exchange"),
    ("zip", "exchange"),
    ("libm", "score"),
];

/// Longest file, tests not counted.
const MOST_LINES: usize = 500;

/// Files that are longer; this list may only shrink.
const TOO_LONG: [&str; 0] = [];

const TOP: [&str; 15] = [
    "Cargo.toml",
    "Cargo.lock",
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
    "src",
    "resources",
    "tests",
    "sample-meets",
    ".ci",
    ".gitignore",
    ".gitattributes",
    ".cargo",
    "clippy.toml",
    "rustfmt.toml",
];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    let mut entries: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
}

fn all_sources() -> Vec<(String, String)> {
    let mut found = Vec::new();
    sources(&root().join("src"), &mut found);
    found
        .into_iter()
        .map(|path| {
            let name = path.strip_prefix(root().join("src")).unwrap();
            let name = name.to_string_lossy().replace('\\', "/");
            (name, fs::read_to_string(path).unwrap())
        })
        .collect()
}

fn room_of(file: &str) -> &str {
    file.split('/').next().unwrap().trim_end_matches(".rs")
}

/// The part of a file before its tests.
fn without_tests(text: &str) -> &str {
    text.split("#[cfg(test)]").next().unwrap()
}

fn code_lines(text: &str) -> impl Iterator<Item = &str> {
    text.lines().filter(|l| !l.trim_start().starts_with("//"))
}

#[test]
fn dependencies_run_downward_only() {
    let ranks: BTreeMap<&str, u8> = ROOMS.into_iter().collect();
    let mut wrong = Vec::new();
    for (file, text) in all_sources() {
        let room = room_of(&file);
        if room == "main" || room == "lib" {
            continue;
        }
        let rank = *ranks.get(room).unwrap_or_else(|| {
            panic!("{file} is in a room that has no place in the house")
        });
        for line in code_lines(without_tests(&text)) {
            for used in line.split("crate::").skip(1) {
                let used: String = used
                    .chars()
                    .take_while(|c| c.is_alphanumeric() || *c == '_')
                    .collect();
                if let Some(other) = ranks.get(used.as_str())
                    && used != room
                    && *other >= rank
                {
                    wrong.push(format!("{file} looks up (or aside) at {used}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn foreign_crates_stay_in_their_rooms() {
    let mut wrong = Vec::new();
    for (file, text) in all_sources() {
        for (krate, owner) in OWNERS {
            let names = code_lines(without_tests(&text)).any(|l| {
                l.contains(&format!("use {krate}::"))
                    || l.contains(&format!(" {krate}::"))
            });
            if names && room_of(&file) != owner {
                wrong.push(format!("{file} names {krate}, which belongs to {owner}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_core_knows_no_file_and_no_clock() {
    let core = [
        "measure",
        "lift",
        "rules",
        "roster",
        "score",
        "day",
        "standings",
        "sheets",
    ];
    let forbidden = [
        "std::fs",
        "std::io",
        "std::env",
        "std::thread",
        "std::net",
        "Instant",
        "SystemTime",
        "Local::now",
        "Utc::now",
        "new_v4",
        "HashMap",
    ];
    let mut wrong = Vec::new();
    for (file, text) in all_sources() {
        if core.contains(&room_of(&file)) {
            for word in forbidden {
                if code_lines(without_tests(&text)).any(|l| l.contains(word)) {
                    wrong.push(format!("{file} names {word}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn files_have_one_subject() {
    let mut wrong = Vec::new();
    for (file, text) in all_sources() {
        let tests = file.ends_with("tests.rs") || file.contains("/tests/");
        let lines = without_tests(&text).lines().count();
        if !tests && lines > MOST_LINES && !TOO_LONG.contains(&file.as_str()) {
            wrong.push(format!(
                "{file} has {lines} lines; look for its second subject"
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_module_says_what_it_is() {
    for (file, text) in all_sources() {
        assert!(
            text.starts_with("//!"),
            "{file} doesn't open with what it is"
        );
    }
}

#[test]
fn the_top_level_is_the_agreed_one() {
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        let known = TOP.contains(&name.as_str()) || name.starts_with("LICENSE");
        let local = [".git", "target"].contains(&name.as_str());
        assert!(known || local, "{name} doesn't belong at the top level");
    }
}

#[test]
fn the_readme_and_ci_name_the_same_test_command() {
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    let ci = fs::read_to_string(root().join(".ci/run")).unwrap();
    assert!(readme.contains("cargo test --locked"));
    assert!(ci.contains("cargo test --locked"));
}
