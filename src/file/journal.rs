//! The journal's rows: appending, chaining, reading back.
//!
//! A row's `digest` is SHA-256 over the digest before it (32 zero bytes for
//! the first row) and the stored bytes of all its columns but `private` and
//! `digest`, each with its type and length before it. The chain detects
//! damage and careless edits; whoever can write the file can also forge it.
//! `private_digest` is SHA-256 over the stored bytes of `private`, which hold
//! a random salt, so that it tells nothing once the private part is erased.

use chrono::NaiveDate;
use rusqlite::types::ValueRef;
use rusqlite::{Row, params};
use sha2::{Digest, Sha256};
use uuid::{ContextV7, Timestamp, Uuid};

use super::error::{FileError, shown};
use super::open::Store;
use super::shape::{self, Hidden, Marks};
use super::views;
use crate::day::{Recorded, Stamp};

/// A SHA-256 digest.
pub(super) type Digest32 = [u8; 32];

/// The columns in the order in which they are chained, then the rest.
pub(super) const COLUMNS: &str = "seq, id, act, at, \"offset\", happened, hand, device, \
    platform, kind, shape, body, private_digest, private, digest";

/// How many of [`COLUMNS`] the chain covers.
pub(super) const CHAINED: usize = 13;

/// The end of the journal: what the next row builds on.
#[derive(Debug, Clone, Default)]
pub(super) struct Tail {
    /// Place of the last row; 0 before the first.
    pub(super) seq: u64,
    /// Digest of the last row.
    pub(super) digest: Digest32,
    /// Identifier of the newest act.
    pub(super) act: String,
    /// Place of the newest act's first row.
    pub(super) first: u64,
    /// Last step of the newest act.
    pub(super) step: u32,
}

/// Chains the columns of one row.
pub(super) struct Chain(Sha256);

impl Chain {
    /// Begins a row after the one with that digest.
    pub(super) fn after(before: &Digest32) -> Self {
        Self(Sha256::new_with_prefix(before))
    }

    /// Adds a column.
    pub(super) fn put(&mut self, value: ValueRef<'_>) {
        match value {
            ValueRef::Null => self.0.update(b"n"),
            ValueRef::Integer(n) => {
                self.0.update(b"i");
                self.0.update(n.to_be_bytes());
            }
            ValueRef::Real(x) => {
                self.0.update(b"r");
                self.0.update(x.to_bits().to_be_bytes());
            }
            ValueRef::Text(bytes) => self.put_bytes(b"t", bytes),
            ValueRef::Blob(bytes) => self.put_bytes(b"b", bytes),
        }
    }

    fn put_bytes(&mut self, kind: &[u8], bytes: &[u8]) {
        self.0.update(kind);
        self.0.update((bytes.len() as u64).to_be_bytes());
        self.0.update(bytes);
    }

    /// The row's digest.
    pub(super) fn end(self) -> Digest32 {
        self.0.finalize().into()
    }
}

/// The digest of a private part.
pub(super) fn private_digest(private: &str) -> Digest32 {
    Sha256::digest(private.as_bytes()).into()
}

/// A new identifier whose order is about that of `at`.
pub(super) fn new_id(at: Stamp) -> String {
    let ms = u64::try_from(at.ms).unwrap_or(0);
    let nanos = u32::try_from(ms % 1000).unwrap_or(0) * 1_000_000;
    Uuid::new_v7(Timestamp::from_unix(ContextV7::new(), ms / 1000, nanos)).to_string()
}

/// Appends a row inside the caller's transaction and moves the tail.
pub(super) fn append(
    store: &Store,
    tail: &mut Tail,
    device: &str,
    recorded: &Recorded,
    step: u32,
) -> Result<(), FileError> {
    let marks = Marks {
        loose: recorded.at.loose,
        step,
    };
    let salt = Uuid::new_v4().simple().to_string();
    let stored = shape::store(&recorded.event, marks, &salt)
        .map_err(|e| FileError::of_shape(&store.path, recorded.seq, &e))?;
    let too_far = |_| FileError::Io {
        path: shown(&store.path),
        why: "the journal is longer than it can be".into(),
    };
    let seq = i64::try_from(recorded.seq).map_err(too_far)?;
    let id = new_id(recorded.at);
    let happened = recorded.happened.map(|h| h.to_string());
    let private_digest = stored.private.as_deref().map(private_digest);

    let mut chain = Chain::after(&tail.digest);
    chain.put(ValueRef::Integer(seq));
    chain.put(ValueRef::Text(id.as_bytes()));
    chain.put(ValueRef::Text(recorded.id.as_bytes()));
    chain.put(ValueRef::Integer(recorded.at.ms));
    chain.put(ValueRef::Integer(recorded.at.offset.into()));
    chain.put(happened.as_deref().map_or(ValueRef::Null, ValueRef::from));
    chain.put(ValueRef::Text(recorded.hand.as_bytes()));
    chain.put(ValueRef::Text(device.as_bytes()));
    chain.put(
        recorded
            .platform
            .map_or(ValueRef::Null, |p| ValueRef::Integer(p.into())),
    );
    chain.put(ValueRef::Text(stored.kind.as_bytes()));
    chain.put(ValueRef::Integer(stored.shape.into()));
    chain.put(ValueRef::Text(stored.body.as_bytes()));
    chain.put(
        private_digest
            .as_ref()
            .map_or(ValueRef::Null, |d| ValueRef::Blob(d)),
    );
    let digest = chain.end();

    let insert = || -> rusqlite::Result<usize> {
        store
            .conn
            .prepare_cached(&format!(
                "INSERT INTO journal ({COLUMNS}) \
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15)"
            ))?
            .execute(params![
                seq,
                id,
                recorded.id,
                recorded.at.ms,
                recorded.at.offset,
                happened,
                recorded.hand,
                device,
                recorded.platform,
                stored.kind,
                stored.shape,
                stored.body,
                private_digest.as_ref().map(<[u8; 32]>::as_slice),
                stored.private,
                digest.as_slice(),
            ])
    };
    let _ = insert().map_err(|e| store.fail(&e))?;
    tail.follow(recorded.seq, &recorded.id, step, digest);
    Ok(())
}

impl Tail {
    /// Moves on to a row.
    fn follow(&mut self, seq: u64, act: &str, step: u32, digest: Digest32) {
        if self.act != act || self.seq == 0 {
            self.act = act.to_owned();
            self.first = seq;
        }
        self.seq = seq;
        self.step = step.max(1);
        self.digest = digest;
    }
}

/// Why a row can't be used.
#[derive(Debug)]
pub(super) enum RowError {
    /// A column isn't what it should be.
    Column(rusqlite::Error),
    /// The stored event can't be read.
    Shape(shape::ShapeError),
    /// A time or a number out of range.
    Value(&'static str),
}

impl From<rusqlite::Error> for RowError {
    fn from(error: rusqlite::Error) -> Self {
        Self::Column(error)
    }
}

impl std::fmt::Display for RowError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Column(error) => write!(f, "{error}"),
            Self::Shape(error) => write!(f, "{error}"),
            Self::Value(what) => write!(f, "its {what} can't be read"),
        }
    }
}

/// Reads a row of [`COLUMNS`]; the tail gives the act's first place.
pub(super) fn recorded(row: &Row<'_>, tail: &mut Tail) -> Result<Recorded, RowError> {
    let text = |n: usize| -> Result<&str, RowError> {
        row.get_ref(n)?
            .as_str()
            .map_err(|_| RowError::Value("text"))
    };
    let seq: i64 = row.get(0)?;
    let seq = u64::try_from(seq).map_err(|_| RowError::Value("place"))?;
    let private = match (row.get_ref(13)?, row.get_ref(12)?) {
        (ValueRef::Null, ValueRef::Null) => Hidden::None,
        (ValueRef::Null, _) => Hidden::Erased,
        _ => Hidden::Kept(text(13)?),
    };
    let (event, marks) = shape::read(text(9)?, row.get(10)?, text(11)?, private)
        .map_err(RowError::Shape)?;
    let happened = match row.get_ref(5)? {
        ValueRef::Null => None,
        _ => Some(
            Stamp::parse(text(5)?, NaiveDate::MIN, 0)
                .ok_or(RowError::Value("happened time"))?,
        ),
    };
    let digest: Digest32 = row
        .get_ref(14)?
        .as_blob()
        .ok()
        .and_then(|d| d.try_into().ok())
        .ok_or(RowError::Value("digest"))?;
    let act = text(2)?;
    tail.follow(seq, act, marks.step, digest);
    Ok(Recorded {
        seq,
        act: tail.first,
        id: act.to_owned(),
        at: Stamp {
            ms: row.get(3)?,
            offset: row.get(4)?,
            loose: marks.loose,
        },
        happened,
        hand: text(6)?.to_owned(),
        platform: row.get(8)?,
        event,
    })
}

/// Whether a row of [`COLUMNS`] and its private part are as they were written
/// behind the row with that digest.
pub(super) fn is_as_written(row: &Row<'_>, before: &Digest32) -> rusqlite::Result<bool> {
    let mut chain = Chain::after(before);
    for n in 0..CHAINED {
        chain.put(row.get_ref(n)?);
    }
    let is_chained = match row.get_ref(14)? {
        ValueRef::Blob(bytes) => bytes == chain.end(),
        _ => false,
    };
    Ok(is_chained
        && match (row.get_ref(13)?, row.get_ref(12)?) {
            (ValueRef::Null, _) => true,
            (ValueRef::Text(private), ValueRef::Blob(digest)) => {
                Sha256::digest(private).as_slice() == digest
            }
            _ => false,
        })
}

/// Reads all rows after the tail and moves it.
///
/// A row that isn't as it was written ends it: nothing that was changed behind
/// the program's back is ever shown as what happened.
pub(super) fn read_on(
    store: &Store,
    tail: &mut Tail,
    mut each: impl FnMut(Recorded),
) -> Result<usize, FileError> {
    let fail = |e: rusqlite::Error| store.fail(&e);
    let mut query = store
        .conn
        .prepare_cached(&format!(
            "SELECT {COLUMNS} FROM journal WHERE seq > ?1 ORDER BY seq"
        ))
        .map_err(fail)?;
    let mut rows = query.query([place(tail.seq)]).map_err(fail)?;
    let mut n = 0;
    while let Some(row) = rows.next().map_err(fail)? {
        let expected = tail.seq + 1;
        let damaged = |why: String| FileError::Damaged {
            path: shown(&store.path),
            why,
        };
        if row.get_ref(0).map_err(fail)? != ValueRef::Integer(place(expected)) {
            return Err(damaged(format!("row {expected} is missing")));
        }
        // First of all, so that damage isn't taken for something newer.
        if !is_as_written(row, &tail.digest).map_err(fail)? {
            return Err(damaged(format!("row {expected} is not as it was written")));
        }
        let recorded = recorded(row, tail).map_err(|e| match e {
            RowError::Shape(e) => FileError::of_shape(&store.path, expected, &e),
            other => damaged(format!("row {expected}: {other}")),
        })?;
        each(recorded);
        n += 1;
    }
    Ok(n)
}

/// A place in the journal as it is stored.
fn place(seq: u64) -> i64 {
    i64::try_from(seq).unwrap_or(i64::MAX)
}

/// Makes sure that no row stands behind the last one that was read.
///
/// A damaged page may hide the newest rows without a word, and what is entered
/// next would then take their places. The index of identifiers and the read
/// views know of them from another side.
pub(super) fn reaches_its_end(store: &Store, last: u64) -> Result<(), FileError> {
    let indexed: i64 = store
        .conn
        .query_row(
            "SELECT count(*) FROM journal INDEXED BY sqlite_autoindex_journal_1",
            [],
            |row| row.get(0),
        )
        .map_err(|e| store.fail(&e))?;
    let indexed = u64::try_from(indexed).unwrap_or(0);
    let told = views::upto(store)?.unwrap_or(0);
    if indexed == last && told <= last {
        return Ok(());
    }
    Err(FileError::Damaged {
        path: shown(&store.path),
        why: format!(
            "the journal ends at row {last}, but had {} rows",
            indexed.max(told)
        ),
    })
}

/// The place of the last row that is stored.
pub(super) fn last_seq(store: &Store) -> Result<u64, FileError> {
    let last: Option<i64> = store
        .conn
        .prepare_cached("SELECT max(seq) FROM journal")
        .and_then(|mut query| query.query_row([], |row| row.get(0)))
        .map_err(|e| store.fail(&e))?;
    Ok(last.and_then(|n| u64::try_from(n).ok()).unwrap_or(0))
}
