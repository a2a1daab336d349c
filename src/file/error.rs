//! What can go wrong with a meet file, each as one sentence for a person.

use std::path::Path;

use rusqlite::{ErrorCode, ffi};

use super::lease::Holder;
use super::shape::ShapeError;
use crate::day::Refusal;

/// Why a meet file can't be made, opened, read or written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FileError {
    /// No such file.
    #[error("There is no file {0}.")]
    NotFound(String),
    /// The folder isn't there.
    #[error("There is no folder {0}; make it first, or choose another.")]
    MissingFolder(String),
    /// A file of that name is there already.
    #[error("{0} is there already and is left as it is; choose another name.")]
    Exists(String),
    /// A folder where a file should be.
    #[error("{0} is a folder, not a day; name the file in it.")]
    IsFolder(String),
    /// A file without content.
    #[error("{0} is empty (0 bytes) and holds no day.")]
    Empty(String),
    /// Another kind of file.
    #[error("{0} is not a day: it is no meet file of this program.")]
    NotADay(String),
    /// Written by a newer program.
    #[error(
        "{path} was written by a newer version of this program ({what}); this one reads up to version {known}."
    )]
    Newer {
        /// The file.
        path: String,
        /// What is newer, such as `file version 2`.
        what: String,
        /// The newest file version that this program reads.
        known: u32,
    },
    /// Cut short or damaged.
    #[error(
        "{path} is cut short or damaged ({why}); keep it, and go on with the newest backup or \
         with what maxday recover saves of it."
    )]
    Damaged {
        /// The file.
        path: String,
        /// What was found.
        why: String,
    },
    /// Nothing in it can be vouched for.
    #[error(
        "Nothing can be saved of {path}: {why}; go on with the newest backup, and keep this file."
    )]
    NothingSound {
        /// The file.
        path: String,
        /// Where it ends at once.
        why: String,
    },
    /// The file or its folder can't be written.
    #[error(
        "{0} can only be read: the file or its folder is write-protected, so nothing can be entered."
    )]
    ReadOnly(String),
    /// A crash cut something off, and it can't be taken back where the file is.
    #[error(
        "{0} was cut off by a crash, and nothing can be written where it is, so what was cut off \
         can't be taken back: copy it together with {0}-journal into another folder, and open it \
         there."
    )]
    CutOff(String),
    /// It was opened to be looked at.
    #[error("{0} was opened to be read only, so nothing can be entered.")]
    OpenedToRead(String),
    /// Somebody else holds the day.
    #[error(
        "{path} is held by {holder}, so nothing can be entered here; it can be read."
    )]
    Held {
        /// The file.
        path: String,
        /// Who.
        holder: Holder,
    },
    /// Another program keeps the file locked.
    #[error(
        "{0} is locked by another program that reads or copies it; nothing was stored: close that program, then try again."
    )]
    Busy(String),
    /// No space is left.
    #[error("The disk with {0} is full; nothing was stored: make room, then try again.")]
    DiskFull(String),
    /// The file was taken away from under the program.
    #[error(
        "{0} was moved, removed or replaced while it was open; nothing was stored: save a backup \
         of what is open here under another name, then open that."
    )]
    Moved(String),
    /// A person was erased, but the file couldn't be written anew.
    #[error(
        "The private parts are blanked, but {path} couldn't be rewritten, so old bytes may still \
         be in it: do it again; what stood in the way: {why}"
    )]
    NotRewritten {
        /// The file.
        path: String,
        /// What happened, as a sentence.
        why: String,
    },
    /// A backup onto the day itself.
    #[error("{0} is the day itself; choose another name or folder for the backup.")]
    BackupOntoItself(String),
    /// Anything else that the disk or the system says.
    #[error("{path} can't be read or written: {why}.")]
    Io {
        /// The file.
        path: String,
        /// What the system said.
        why: String,
    },
}

/// Why an act was not taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SubmitError {
    /// The day's rules forbid it: an answer, not a failure.
    #[error(transparent)]
    Refused(#[from] Refusal),
    /// The file couldn't take it: the act is not stored.
    #[error(transparent)]
    Failed(#[from] FileError),
}

/// The file as people are told of it.
pub(super) fn shown(path: &Path) -> String {
    path.display().to_string()
}

/// A text on one line, without what can't be printed and a stop at its end.
pub(super) fn one_line(text: &str) -> String {
    let words = text.split(|c: char| c.is_whitespace() || c.is_control());
    let words: Vec<&str> = words.filter(|w| !w.is_empty()).collect();
    words.join(" ").trim_end_matches('.').to_owned()
}

impl FileError {
    /// What SQLite said about the file at `path`.
    pub(super) fn of_sql(path: &Path, error: &rusqlite::Error) -> Self {
        let path = shown(path);
        if let rusqlite::Error::SqliteFailure(failure, _) = error
            && failure.extended_code == ffi::SQLITE_READONLY_DBMOVED
        {
            return Self::Moved(path);
        }
        match error.sqlite_error_code() {
            Some(ErrorCode::NotADatabase) => Self::NotADay(path),
            Some(ErrorCode::DatabaseCorrupt) => Self::Damaged {
                path,
                why: "its pages don't fit together".into(),
            },
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Busy(path),
            Some(ErrorCode::DiskFull) => Self::DiskFull(path),
            Some(ErrorCode::ReadOnly | ErrorCode::PermissionDenied) => {
                Self::ReadOnly(path)
            }
            _ => Self::Io {
                path,
                // What is quoted from a damaged file may be anything.
                why: one_line(&error.to_string()),
            },
        }
    }

    /// What the system said about the file at `path`.
    pub(super) fn of_io(path: &Path, error: &std::io::Error) -> Self {
        use std::io::ErrorKind;
        let text = shown(path);
        match error.kind() {
            ErrorKind::NotFound => Self::NotFound(text),
            ErrorKind::AlreadyExists => Self::Exists(text),
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
                Self::ReadOnly(text)
            }
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => Self::DiskFull(text),
            _ => Self::Io {
                path: text,
                why: error.to_string(),
            },
        }
    }

    /// What a stored event of row `seq` says.
    pub(super) fn of_shape(path: &Path, seq: u64, error: &ShapeError) -> Self {
        let path = shown(path);
        match error {
            ShapeError::UnknownKind(_) | ShapeError::NewerShape { .. } => Self::Newer {
                path,
                what: error.to_string(),
                known: super::open::FILE_VERSION,
            },
            ShapeError::Unreadable { .. } => Self::Damaged {
                path,
                why: format!("row {seq}: {error}"),
            },
        }
    }
}
