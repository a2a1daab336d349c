//! Backups through SQLite's own online copy: whole or not at all.

use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::OpenFlags;
use rusqlite::backup::{Backup, StepResult};
use uuid::Uuid;

use super::error::{FileError, shown};
use super::journal;
use super::live::Live;
use super::open::{self, Store};
use super::views;

/// Pages copied at a time.
const PAGES: i32 = 1_000;

/// How often, and how many times, a copy waits for a locked day.
const PAUSE: Duration = Duration::from_millis(50);
const MOST_PAUSES: u32 = 100;

/// Copies an open day to `to`, replacing a backup that is there.
///
/// The copy is a day of its own that nobody holds, with its read views
/// written. It is made under another name in the same folder and takes its
/// own name once it is whole and on the disk.
///
/// # Errors
/// [`FileError`]; what was at `to` is left as it was.
pub fn backup(live: &Live, to: &Path) -> Result<(), FileError> {
    let name = to
        .file_name()
        .ok_or_else(|| FileError::IsFolder(shown(to)))?;
    let folder = match to.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if !folder.is_dir() {
        return Err(FileError::MissingFolder(shown(folder)));
    }
    if to.is_dir() {
        return Err(FileError::IsFolder(shown(to)));
    }
    if is_same(live.path(), to) {
        return Err(FileError::BackupOntoItself(shown(to)));
    }
    let mut part = name.to_os_string();
    part.push(format!(".{}.part", Uuid::new_v4().simple()));
    let part = folder.join(part);
    let made = copy(live, &part)
        .and_then(|()| std::fs::rename(&part, to).map_err(|e| FileError::of_io(to, &e)));
    if made.is_err() {
        let _ = std::fs::remove_file(&part);
        let _ = std::fs::remove_file(journal_of(&part));
        return made;
    }
    // The new name lasts once its folder is on the disk; where a folder can't
    // be opened so, the system sees to it.
    if let Ok(folder) = std::fs::File::open(folder) {
        let _ = folder.sync_all();
    }
    Ok(())
}

pub(super) fn journal_of(part: &Path) -> PathBuf {
    let mut name = part.as_os_str().to_os_string();
    name.push("-journal");
    name.into()
}

pub(super) fn is_same(a: &Path, b: &Path) -> bool {
    match (a.canonicalize(), b.canonicalize()) {
        (Ok(a), Ok(b)) => a == b,
        _ => false,
    }
}

fn copy(live: &Live, part: &Path) -> Result<(), FileError> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE;
    let mut target = open::connect(part, flags)?;
    open::set_up(&target)?;
    pages(live.store(), &mut target)?;
    let tx = target.begin()?;
    let fail = |e: rusqlite::Error| target.fail(&e);
    let _ = target.conn.execute("DELETE FROM lease", []).map_err(fail)?;
    let last = journal::last_seq(&target)?;
    if last + 1 == live.day().next_seq() {
        views::rebuild(&target, live.day(), last)?;
    }
    tx.commit().map_err(fail)
}

fn pages(from: &Store, to: &mut Store) -> Result<(), FileError> {
    let path = to.path.clone();
    let fail = |e: rusqlite::Error| FileError::of_sql(&path, &e);
    let backup = Backup::new(&from.conn, &mut to.conn).map_err(fail)?;
    let mut pauses = 0;
    loop {
        match backup.step(PAGES).map_err(fail)? {
            StepResult::Done => return Ok(()),
            StepResult::More => {}
            _ if pauses < MOST_PAUSES => {
                pauses += 1;
                std::thread::sleep(PAUSE);
            }
            _ => return Err(FileError::Busy(shown(&from.path))),
        }
    }
}
