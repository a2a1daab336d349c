//! Backups in a second folder, and the way back from one.

use std::path::{Path, PathBuf};
use std::time::SystemTime;

use uuid::Uuid;

use super::backup::{backup, is_same, journal_of};
use super::error::{FileError, shown};
use super::journal::{self, Digest32};
use super::live::Live;
use super::open::{self, EXTENSION, Store};
use super::{Holder, lease};
use crate::day::Stamp;

/// How many backups of days of one name a folder can have.
const MOST: u32 = 100;

/// The word behind a day's name in the name of its backup.
const WORD: &str = " backup";

/// A backup that was made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept {
    /// Its file.
    pub path: PathBuf,
    /// How many rows of the journal are in it for sure.
    pub rows: u64,
}

/// Copies the day at `day` into `folder`, as `NAME backup.maxday`.
///
/// An earlier backup is replaced only where the day has all that is in it; one
/// that isn't so, or can't be read, stays, and a number is added to the new
/// one's name. The day may be open meanwhile, here or elsewhere: it is copied
/// beside itself first, so that a slow stick keeps no act waiting.
///
/// # Errors
/// [`FileError`]; earlier backups stay as they were.
pub fn keep(day: &Path, folder: &Path) -> Result<Kept, FileError> {
    if !folder.is_dir() {
        return Err(FileError::MissingFolder(shown(folder)));
    }
    let live = Live::open_read(day)?;
    let path = (1..=MOST)
        .map(|n| folder.join(name(day, n)))
        .find(|path| !path.exists() || goes_on(&live, path))
        .ok_or_else(|| FileError::Exists(shown(&folder.join(name(day, 1)))))?;
    let part = beside(day);
    let copied = backup(&live, &part).and_then(|()| carry(&part, &path));
    let _ = std::fs::remove_file(&part);
    match copied {
        // Nothing can be put beside a day in a protected folder.
        Err(FileError::ReadOnly(at)) if at == shown(&part) => backup(&live, &path)?,
        other => other?,
    }
    Ok(Kept {
        path,
        rows: live.day().next_seq() - 1,
    })
}

/// The newest backup in `folder` of a day of that name, with when it was made.
pub fn newest_backup(day: &Path, folder: &Path) -> Option<(PathBuf, SystemTime)> {
    (1..=MOST)
        .map(|n| folder.join(name(day, n)))
        .map_while(|path| {
            let made = std::fs::metadata(&path).ok()?.modified().ok()?;
            Some((path, made))
        })
        .max_by_key(|(_, made)| *made)
}

/// The name of the day of which a file is the backup, without an extension.
pub fn stem_of_backup(backup: &Path) -> String {
    let stem = stem(backup);
    let plain = stem
        .trim_end_matches(|c: char| c.is_ascii_digit())
        .trim_end();
    match (stem.strip_suffix(WORD), plain.strip_suffix(WORD)) {
        (Some(day), _) | (None, Some(day)) if !day.is_empty() => day.to_owned(),
        _ => stem,
    }
}

/// Puts a copy of `backup` where the day `day` is, or was.
///
/// What was there is kept under another name beside it, which is returned;
/// `now` is for that name. The backup itself stays as it is.
///
/// # Errors
/// [`FileError`] where the backup is no whole day, somebody holds the day, or
/// the folder can't be written; the day stays as it was.
pub fn restore(
    backup_file: &Path,
    day: &Path,
    now: Stamp,
) -> Result<Option<PathBuf>, FileError> {
    let live = Live::open_read(backup_file)?;
    if is_same(backup_file, day) {
        return Err(FileError::BackupOntoItself(shown(day)));
    }
    if let Some(holder) = held(day, now) {
        let path = shown(day);
        return Err(FileError::Held { path, holder });
    }
    let part = beside(day);
    let made = backup(&live, &part).and_then(|()| put(&part, day, now));
    if made.is_err() {
        let _ = std::fs::remove_file(&part);
    }
    made
}

/// Who lives and holds a day that can be read.
fn held(day: &Path, now: Stamp) -> Option<Holder> {
    let store = open::open_to_read(day).ok()?;
    lease::living(&store.conn, now).ok().flatten()
}

/// Gives `part` the name of the day, and what had it another one.
fn put(part: &Path, day: &Path, now: Stamp) -> Result<Option<PathBuf>, FileError> {
    let kept = if day.exists() {
        Some(free(day, now).ok_or_else(|| FileError::Exists(shown(day)))?)
    } else {
        None
    };
    let rename = |from: &Path, to: &Path| {
        std::fs::rename(from, to).map_err(|e| FileError::of_io(to, &e))
    };
    // What a crash left beside the file belongs to it and goes with it.
    let away = |from: &Path, to: &Path| -> Result<(), FileError> {
        let left = journal_of(from);
        if left.exists() {
            rename(&left, &journal_of(to))?;
        }
        rename(from, to)
    };
    if let Some(kept) = &kept {
        away(day, kept)?;
    }
    if let Err(error) = rename(part, day) {
        if let Some(kept) = &kept {
            away(kept, day)?;
        }
        return Err(error);
    }
    sync_folder(day);
    Ok(kept)
}

/// A free name for a day that makes way.
fn free(day: &Path, now: Stamp) -> Option<PathBuf> {
    let at = now.local().format("%Y%m%d-%H%M%S");
    let stem = stem(day);
    (1..=MOST)
        .map(|n| match n {
            1 => format!("{stem} before {at}.{EXTENSION}"),
            n => format!("{stem} before {at} {n}.{EXTENSION}"),
        })
        .map(|name| day.with_file_name(name))
        .find(|path| !path.exists())
}

/// Copies a file that nobody has open to its place on another disk.
fn carry(part: &Path, to: &Path) -> Result<(), FileError> {
    let there = beside(to);
    let copy = || -> std::io::Result<()> {
        let _ = std::fs::copy(part, &there)?;
        std::fs::File::options()
            .write(true)
            .open(&there)?
            .sync_all()?;
        std::fs::rename(&there, to)
    };
    let copied = copy().map_err(|e| FileError::of_io(to, &e));
    if copied.is_err() {
        let _ = std::fs::remove_file(&there);
    } else {
        sync_folder(to);
    }
    copied
}

/// A name lasts once its folder is on the disk; where a folder can't be opened
/// so, the system sees to it.
fn sync_folder(path: &Path) {
    if let Some(Ok(folder)) = path.parent().map(std::fs::File::open) {
        let _ = folder.sync_all();
    }
}

fn stem(path: &Path) -> String {
    path.file_stem()
        .map_or_else(|| "day".to_owned(), |s| s.to_string_lossy().into_owned())
}

fn name(day: &Path, n: u32) -> String {
    let stem = stem(day);
    match n {
        1 => format!("{stem}{WORD}.{EXTENSION}"),
        n => format!("{stem}{WORD} {n}.{EXTENSION}"),
    }
}

fn beside(path: &Path) -> PathBuf {
    path.with_file_name(format!("{}.{}.part", stem(path), Uuid::new_v4().simple()))
}

/// Whether the day has all that is in a backup: its last row, and with it, by
/// the chain, all before.
fn goes_on(live: &Live, backup: &Path) -> bool {
    let there = || -> Option<(u64, Digest32)> {
        let store = open::open_to_read(backup).ok()?;
        let last = journal::last_seq(&store).ok()?;
        Some((last, digest(&store, last)?))
    };
    there().is_some_and(|(last, there)| digest(live.store(), last) == Some(there))
}

fn digest(store: &Store, seq: u64) -> Option<Digest32> {
    let seq = i64::try_from(seq).ok()?;
    store
        .conn
        .query_row("SELECT digest FROM journal WHERE seq = ?1", [seq], |row| {
            row.get(0)
        })
        .ok()
}
