//! What is stored: a versioned shape for every kind of event.
//!
//! The core's types aren't what is stored. Every shape that was ever written
//! is read for good; a fact that changes its form gets the next shape number.
//! An event is parted into a public body and a private part. Both are JSON:
//! `{"fact": …}`, in the body with the marks of [`Marks`] beside it, in the
//! private part with a `salt` that makes its digest unguessable once the part
//! is erased.

mod bodies;
mod details;
mod read;
mod words;
mod write;

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

use crate::day::Event;
pub use crate::roster::ERASED;

/// All kinds of events with their newest shape.
///
/// A newer shape that only adds to the one before is written where an event
/// needs it, and the one before everywhere else.
pub const KINDS: [(&str, u32); 33] = [
    ("day-made", 1),
    ("setting-changed", 1),
    ("flight-made", 1),
    ("entry-added", 2),
    ("entry-edited", 2),
    ("placed", 1),
    ("roll-answered", 1),
    ("withdrawn", 1),
    ("disqualified", 1),
    ("numbered", 1),
    ("weighed", 1),
    ("cleared", 2),
    ("capped", 1),
    ("station-checked", 1),
    ("slot-started", 1),
    ("break-called", 1),
    ("closed", 1),
    ("reopened", 1),
    ("requested", 2),
    ("called", 1),
    ("call-withdrawn", 1),
    ("clock-moved", 1),
    ("ruled", 2),
    ("extra-granted", 1),
    ("load-found", 1),
    ("reruled", 1),
    ("challenge-lost", 1),
    ("record-listed", 1),
    ("corrected", 1),
    ("annulled", 1),
    ("undone", 1),
    ("redone", 1),
    ("noted", 1),
];

/// Why a stored event can't be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ShapeError {
    /// A kind that this program doesn't know.
    #[error("an event of the kind “{0}”")]
    UnknownKind(String),
    /// A shape that this program doesn't know.
    #[error("shape {shape} of “{kind}”")]
    NewerShape {
        /// The kind.
        kind: String,
        /// The shape.
        shape: u32,
    },
    /// Not in the shape that it should have.
    #[error("“{kind}” is not in its shape: {why}")]
    Unreadable {
        /// The kind.
        kind: String,
        /// What is wrong.
        why: String,
    },
}

/// What a row's body says beside the fact.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Marks {
    /// `~`: the time isn't known well enough to judge a deadline by it.
    pub loose: bool,
    /// `+`: which step of its act the row belongs to, where an act came in
    /// several steps; 0 and 1 are the first and aren't written.
    pub step: u32,
}

/// An event in its stored form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredEvent {
    /// Its kind.
    pub kind: &'static str,
    /// The number of its shape.
    pub shape: u32,
    /// The public body, as JSON.
    pub body: String,
    /// The private part, as JSON, where it has one.
    pub private: Option<String>,
}

/// The private part of a row, as it is found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hidden<T> {
    /// It never had one.
    None,
    /// It has one.
    Kept(T),
    /// It had one that was erased.
    Erased,
}

/// The body as it is stored.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Body<T> {
    #[serde(rename = "+", default)]
    step: u32,
    #[serde(rename = "~", default)]
    loose: bool,
    fact: T,
}

/// The private part as it is stored.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Salted<T> {
    #[serde(rename = "salt")]
    _salt: String,
    fact: T,
}

/// Puts an event into the shape of its kind that it needs.
///
/// `salt` goes into the private part; it must not be guessable.
///
/// # Errors
/// [`ShapeError::Unreadable`] where a fact can't be put into JSON.
pub fn store(event: &Event, marks: Marks, salt: &str) -> Result<StoredEvent, ShapeError> {
    let parts = write::parts(event)?;
    let mut body = Map::new();
    let _ = body.insert("fact".into(), parts.body);
    if marks.loose {
        let _ = body.insert("~".into(), true.into());
    }
    if marks.step > 1 {
        let _ = body.insert("+".into(), marks.step.into());
    }
    let private = parts.private.map(|fact| {
        let mut private = Map::new();
        let _ = private.insert("fact".into(), fact);
        let _ = private.insert("salt".into(), salt.into());
        Value::Object(private).to_string()
    });
    Ok(StoredEvent {
        kind: parts.kind,
        shape: parts.shape,
        body: Value::Object(body).to_string(),
        private,
    })
}

/// Reads a stored event of any shape that was ever written.
///
/// Where the private part was erased, names and reasons read as [`ERASED`]
/// and other private details are left out.
///
/// # Errors
/// [`ShapeError`], naming the kind.
pub fn read(
    kind: &str,
    shape: u32,
    body: &str,
    private: Hidden<&str>,
) -> Result<(Event, Marks), ShapeError> {
    read::row(kind, shape, body, private)
}
