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

/// The only file that may ask which system it runs on.
const SYSTEM: &str = "desk/sound.rs";

/// Code that is built, or does something, on one system alone.
const OF_ONE_SYSTEM: [&str; 9] = [
    "cfg(windows",
    "cfg(unix",
    "cfg(not(windows",
    "cfg(not(unix",
    "target_os",
    "target_family",
    "cfg!(",
    "std::os::",
    "consts::OS",
];

#[test]
fn one_file_alone_knows_the_system() {
    let mut wrong = Vec::new();
    for (file, text) in all_sources() {
        for word in OF_ONE_SYSTEM {
            let names = code_lines(without_tests(&text)).any(|l| l.contains(word));
            if names && file != SYSTEM {
                wrong.push(format!("{file} names {word}; that belongs to {SYSTEM}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn built_for_one_system_alone_are_no_dependencies() {
    let manifest = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    let parts = manifest.lines().filter(|l| l.starts_with("[target"));
    assert_eq!(parts.collect::<Vec<_>>(), [""; 0]);
}

/// Licences that let the program be given away under its own; of several that
/// may be chosen one is enough, and each that is joined by AND counts.
const ALLOWED: [&str; 9] = [
    "MIT",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Zlib",
    "0BSD",
    "Unicode-3.0",
    "BSL-1.0",
];

/// Whether a licence expression can be met by [`ALLOWED`].
fn is_allowed(expression: &str) -> bool {
    let expression = expression.replace('/', " OR ").replace(['(', ')'], "");
    // None of the trees has an OR outside an AND without brackets, so an AND
    // parts what has to be met each for itself.
    expression
        .split(" AND ")
        .all(|part| part.split(" OR ").any(|one| ALLOWED.contains(&one.trim())))
}

#[test]
fn all_crates_may_be_given_away_with_the_program() {
    assert!(is_allowed("MIT OR GPL-3.0-only"));
    assert!(is_allowed("(MIT OR Apache-2.0) AND Unicode-3.0"));
    assert!(is_allowed("Unlicense/MIT"));
    assert!(!is_allowed("MIT AND GPL-3.0-only"));
    assert!(!is_allowed("MPL-2.0"));
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned());
    let output = std::process::Command::new(cargo)
        .args(["metadata", "--locked", "--offline", "--format-version", "1"])
        .arg("--manifest-path")
        .arg(root().join("Cargo.toml"))
        .arg("--filter-platform")
        .arg(platform())
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    let all: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let crates = all["packages"].as_array().unwrap();
    assert!(crates.len() > 100);
    let wrong: Vec<String> = crates
        .iter()
        .filter(|krate| !krate["license"].as_str().is_some_and(is_allowed))
        .map(|krate| format!("{} has the licence {}", krate["name"], krate["license"]))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The platform that the tests were built for, as Cargo names it.
fn platform() -> String {
    let output = std::process::Command::new("rustc")
        .arg("-vV")
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    let host = text.lines().find_map(|l| l.strip_prefix("host: "));
    host.unwrap().to_owned()
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
