//! Making and opening the database: its identity, schema and pragmas.

use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior, ffi};

use super::error::{FileError, shown};
use super::views;

/// The extension of a meet file.
pub const EXTENSION: &str = "maxday";

/// The newest layout of the file that this program reads: `user_version`.
pub const FILE_VERSION: u32 = 1;

/// `application_id`, in ASCII `MxDy`.
const APPLICATION: i64 = 0x4d78_4479;

/// How long the writer waits for a foreign reader.
const PATIENCE: Duration = Duration::from_secs(5);

/// The journal, who holds the day, and how far the read views go.
///
/// Of the journal's columns, `at` is in milliseconds since 1970-01-01 UTC and
/// `offset` in minutes east of it; `happened` is a text with its own offset.
const SCHEMA: &str = "
CREATE TABLE journal (
    seq INTEGER PRIMARY KEY,
    id TEXT NOT NULL UNIQUE,
    act TEXT NOT NULL,
    at INTEGER NOT NULL,
    \"offset\" INTEGER NOT NULL,
    happened TEXT,
    hand TEXT NOT NULL,
    device TEXT NOT NULL,
    platform INTEGER,
    kind TEXT NOT NULL,
    shape INTEGER NOT NULL,
    body TEXT NOT NULL,
    private TEXT,
    private_digest BLOB,
    digest BLOB NOT NULL
);
CREATE TABLE lease (
    host TEXT NOT NULL,
    process INTEGER NOT NULL,
    heartbeat INTEGER NOT NULL,
    who TEXT NOT NULL,
    token TEXT NOT NULL
);
CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL);
";

/// An open database with the name under which people know it.
#[derive(Debug)]
pub(super) struct Store {
    /// The connection.
    pub(super) conn: Connection,
    /// Its file.
    pub(super) path: PathBuf,
}

impl Store {
    /// What SQLite said, as a sentence about this file.
    pub(super) fn fail(&self, error: &rusqlite::Error) -> FileError {
        FileError::of_sql(&self.path, error)
    }

    /// Begins to write; rolled back when dropped without a commit.
    pub(super) fn begin(&self) -> Result<Transaction<'_>, FileError> {
        Transaction::new_unchecked(&self.conn, TransactionBehavior::Immediate)
            .map_err(|e| self.fail(&e))
    }

    /// Begins a read that sees one state of the file.
    pub(super) fn look(&self) -> Result<Transaction<'_>, FileError> {
        Transaction::new_unchecked(&self.conn, TransactionBehavior::Deferred)
            .map_err(|e| self.fail(&e))
    }

    /// Whether the file itself is write-protected.
    pub(super) fn is_protected(&self) -> bool {
        self.conn.is_readonly("main").unwrap_or(true)
    }
}

/// Makes an empty database that nobody else has, never over another file.
///
/// It stays empty until the caller's transaction, with [`fill`] in it, is
/// committed.
pub(super) fn make(path: &Path) -> Result<Store, FileError> {
    check_folder(path)?;
    if path.is_dir() {
        return Err(FileError::IsFolder(shown(path)));
    }
    drop(std::fs::File::create_new(path).map_err(|e| FileError::of_io(path, &e))?);
    let made = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE).and_then(|store| {
        set_up(&store)?;
        Ok(store)
    });
    if made.is_err() {
        let _ = std::fs::remove_file(path);
    }
    made
}

/// Lays out the tables and views, inside the caller's transaction.
pub(super) fn fill(store: &Store) -> Result<(), FileError> {
    let lay = || -> rusqlite::Result<()> {
        store
            .conn
            .pragma_update(None, "application_id", APPLICATION)?;
        store
            .conn
            .pragma_update(None, "user_version", FILE_VERSION)?;
        store.conn.execute_batch(SCHEMA)?;
        views::lay_out(&store.conn)
    };
    lay().map_err(|e| store.fail(&e))
}

/// Opens a day to write, or to read where it is write-protected.
pub(super) fn open_to_write(path: &Path) -> Result<Store, FileError> {
    look_at(path)?;
    let store = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    identify(&store).map_err(|e| cut_off(path, e))?;
    if !store.is_protected() {
        set_up(&store)?;
    }
    Ok(store)
}

/// Opens a day to read.
///
/// After a crash the first reader lets SQLite finish what was cut off, which
/// needs the right to write.
pub(super) fn open_to_read(path: &Path) -> Result<Store, FileError> {
    look_at(path)?;
    let store = connect(path, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
    if needs_recovery(&store.conn) {
        drop(store);
        let store = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
        identify(&store).map_err(|e| cut_off(path, e))?;
        store
            .conn
            .pragma_update(None, "query_only", true)
            .map_err(|e| store.fail(&e))?;
        return Ok(store);
    }
    identify(&store)?;
    Ok(store)
}

/// Opens a database for a copy of the day.
pub(super) fn connect(path: &Path, flags: OpenFlags) -> Result<Store, FileError> {
    let flags = flags | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let fail = |e: rusqlite::Error| FileError::of_sql(path, &e);
    let conn = Connection::open_with_flags(path, flags).map_err(fail)?;
    conn.busy_timeout(PATIENCE).map_err(fail)?;
    conn.set_prepared_statement_cache_capacity(32);
    Ok(Store {
        conn,
        path: path.to_owned(),
    })
}

/// Sets the pragmas under which an acknowledged act survives a power cut.
pub(super) fn set_up(store: &Store) -> Result<(), FileError> {
    let set = || -> rusqlite::Result<()> {
        let conn = &store.conn;
        // Answers with the mode, so it isn't a plain update.
        let _: String =
            conn.pragma_update_and_check(None, "journal_mode", "DELETE", |row| {
                row.get(0)
            })?;
        conn.pragma_update(None, "synchronous", "EXTRA")?;
        conn.pragma_update(None, "fullfsync", true)?;
        conn.pragma_update(None, "secure_delete", true)?;
        conn.pragma_update(None, "trusted_schema", false)
    };
    set().map_err(|e| store.fail(&e))
}

fn needs_recovery(conn: &Connection) -> bool {
    let found = conn.query_row("SELECT count(*) FROM sqlite_schema", [], |_| Ok(()));
    match found {
        Err(rusqlite::Error::SqliteFailure(error, _)) => {
            error.extended_code == ffi::SQLITE_READONLY_ROLLBACK
                || error.extended_code == ffi::SQLITE_READONLY_RECOVERY
        }
        _ => false,
    }
}

/// What a file that can't be read means where a rollback journal lies beside it.
fn cut_off(path: &Path, error: FileError) -> FileError {
    let mut journal = path.as_os_str().to_os_string();
    journal.push("-journal");
    match error {
        FileError::ReadOnly(_) | FileError::Io { .. } if Path::new(&journal).exists() => {
            FileError::CutOff(shown(path))
        }
        error => error,
    }
}

/// What can be told of a file without opening it.
///
/// The file is never opened other than through SQLite: closing any other
/// handle would drop the locks of a day that this process has open.
pub(super) fn look_at(path: &Path) -> Result<(), FileError> {
    match std::fs::metadata(path) {
        Ok(meta) if meta.is_dir() => Err(FileError::IsFolder(shown(path))),
        Ok(meta) if meta.len() == 0 => Err(FileError::Empty(shown(path))),
        Ok(_) => Ok(()),
        Err(error) => {
            check_folder(path)?;
            Err(FileError::of_io(path, &error))
        }
    }
}

fn check_folder(path: &Path) -> Result<(), FileError> {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() && !folder.is_dir() => {
            Err(FileError::MissingFolder(shown(folder)))
        }
        _ => Ok(()),
    }
}

fn identify(store: &Store) -> Result<(), FileError> {
    let number = |name: &str| -> Result<i64, FileError> {
        store
            .conn
            .pragma_query_value(None, name, |row| row.get(0))
            .map_err(|e| store.fail(&e))
    };
    if number("application_id")? != APPLICATION {
        return Err(FileError::NotADay(shown(&store.path)));
    }
    let version = number("user_version")?;
    if version > i64::from(FILE_VERSION) {
        return Err(FileError::Newer {
            path: shown(&store.path),
            what: format!("file version {version}"),
            known: FILE_VERSION,
        });
    }
    let has_journal = store
        .conn
        .table_exists(None, "journal")
        .map_err(|e| store.fail(&e))?;
    if version < 1 || !has_journal {
        return Err(FileError::Damaged {
            path: shown(&store.path),
            why: "it has no journal".into(),
        });
    }
    Ok(())
}
