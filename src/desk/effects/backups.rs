//! Backups of the open day in a second folder, and the way back from one.

use std::path::{Path, PathBuf};
use std::sync::mpsc;
use std::time::Duration;

use super::Effects;
use crate::day::{Command, Context, Day, Facts, Stamp};
use crate::file::{self, EXTENSION, Kept, Live};

/// How long after a backup the next one is made, in milliseconds.
pub const BACKUP_EVERY_MS: i64 = 300_000;

/// How long after one that failed it is tried again, in milliseconds.
pub const BACKUP_RETRY_MS: i64 = 15_000;

/// How long the last backup of a day that is let go may take.
const AT_THE_END: Duration = Duration::from_secs(10);

const REMEMBERED: &str = "backup-folder.txt";

/// What is known of the backups of the open day.
#[derive(Debug, Default)]
pub(super) struct Backups {
    folder: Option<PathBuf>,
    last: Option<(Kept, Stamp)>,
    failed: Option<String>,
    tried: Option<Stamp>,
    /// What had ended, and which breaks ran, when one was asked for last.
    stones: Vec<Option<Stamp>>,
    /// One is being made.
    busy: bool,
}

impl Backups {
    /// No backups until the folder is given back.
    pub(super) const fn take_folder(&mut self) -> Option<PathBuf> {
        self.folder.take()
    }
}

/// A backup to be made, on any thread.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Job {
    day: PathBuf,
    folder: PathBuf,
}

impl Job {
    /// Makes it.
    ///
    /// # Errors
    /// The failure's sentence.
    pub fn run(&self) -> Result<Kept, String> {
        file::keep(&self.day, &self.folder).map_err(|e| e.to_string())
    }
}

/// What a screen says of the backups.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct BackupsTold {
    /// The folder; empty where there is none.
    pub folder: String,
    /// How old the last one is, or why there is none, in a few words.
    pub age: String,
    /// The file of the last one.
    pub file: Option<PathBuf>,
    /// The folder can't be reached; it is tried again.
    pub failing: bool,
}

impl Effects {
    /// The folder for backups that this user has chosen.
    pub(super) fn find_backup_folder(&mut self) {
        let file = self.folders.config.as_ref().map(|c| c.join(REMEMBERED));
        let text = file.and_then(|file| std::fs::read_to_string(file).ok());
        self.backups = Backups {
            folder: text
                .map(|text| PathBuf::from(text.trim()))
                .filter(|path| path.is_absolute()),
            ..Backups::default()
        };
    }

    /// Chooses the folder for backups; an empty text means none.
    ///
    /// # Errors
    /// A sentence; the folder stays as it was.
    pub fn set_backup_folder(&mut self, text: &str) -> Result<(), String> {
        let text = text.trim().trim_matches(['"', '\'']);
        let folder = if text.is_empty() {
            None
        } else {
            let folder = std::path::absolute(text).unwrap_or_else(|_| text.into());
            if !folder.is_dir() {
                return Err(format!(
                    "There is no folder {}; plug the stick in or make the folder first.",
                    folder.display()
                ));
            }
            let own = self.path().and_then(Path::parent);
            let same = |own: &Path| own.canonicalize().ok() == folder.canonicalize().ok();
            if own.is_some_and(same) {
                return Err(format!(
                    "{} is the day's own folder; choose one on another disk, such as a \
                     stick.",
                    folder.display()
                ));
            }
            Some(folder)
        };
        if let Some(config) = &self.folders.config {
            let _ = std::fs::create_dir_all(config);
            let text = folder
                .as_ref()
                .map(|f| f.to_string_lossy().into_owned())
                .unwrap_or_default();
            std::fs::write(config.join(REMEMBERED), text)
                .map_err(|e| format!("The choice of a folder can't be kept: {e}."))?;
        }
        self.backups = Backups {
            folder,
            ..Backups::default()
        };
        Ok(())
    }

    /// The backup that is due now: some minutes after the last one, at a break,
    /// when a session or the day is closed, and again after one that failed.
    pub fn backup_due(&mut self) -> Option<Job> {
        let now = self.now();
        let live = self.live.as_ref()?;
        if live.is_read_only() || self.backups.busy {
            return None;
        }
        let stones = stones(live.day().facts());
        let rows = live.day().next_seq() - 1;
        let kept = &self.backups;
        let past = |then: Stamp, ms: i64| now.since(then).abs() >= ms;
        let due = match (&kept.failed, kept.tried, &kept.last) {
            (Some(_), Some(tried), _) => past(tried, BACKUP_RETRY_MS),
            (_, _, Some((last, at))) => {
                last.rows < rows && (past(*at, BACKUP_EVERY_MS) || stones != kept.stones)
            }
            (_, _, None) => true,
        };
        if !due {
            return None;
        }
        self.job(now, stones)
    }

    /// A backup that is asked for now.
    pub fn backup_now(&mut self) -> Option<Job> {
        let stones = stones(self.facts());
        self.job(self.now(), stones)
    }

    fn job(&mut self, now: Stamp, stones: Vec<Option<Stamp>>) -> Option<Job> {
        let job = Job {
            day: self.path()?.to_owned(),
            folder: self.backups.folder.clone()?,
        };
        self.backups.busy = true;
        self.backups.tried = Some(now);
        self.backups.stones = stones;
        Some(job)
    }

    /// Takes the outcome of a job; what has to be said of it, if anything: the
    /// first failure, and the first success after one.
    pub fn backed_up(&mut self, job: &Job, done: Result<Kept, String>) -> Option<String> {
        if self.backups.folder.as_ref() != Some(&job.folder)
            || self.path() != Some(job.day.as_path())
        {
            return None;
        }
        let now = self.now();
        self.backups.busy = false;
        match done {
            Ok(kept) => {
                let path = kept.path.display().to_string();
                self.backups.last = Some((kept, now));
                let failed = self.backups.failed.take();
                failed.map(|_| format!("Backups are made again: {path}."))
            }
            Err(sentence) => {
                let first = self.backups.failed.replace(sentence.clone()).is_none();
                first.then(|| {
                    format!(
                        "No backup could be made: {sentence} The day goes on, and it is \
                         tried again by itself."
                    )
                })
            }
        }
    }

    /// What a screen says of the backups now.
    pub fn backups_told(&self) -> BackupsTold {
        let kept = &self.backups;
        let Some(folder) = kept.folder.as_ref().filter(|_| self.is_open()) else {
            return BackupsTold::default();
        };
        let age = match &kept.last {
            Some((_, at)) => format!("backup {}", age(self.now().since(*at))),
            None => "no backup yet".to_owned(),
        };
        BackupsTold {
            folder: folder.display().to_string(),
            age,
            file: kept.last.as_ref().map(|(kept, _)| kept.path.clone()),
            failing: kept.failed.is_some(),
        }
    }

    /// A last backup of a day that was let go, if it has more than the one
    /// before; a folder that doesn't answer is left after some seconds.
    pub(super) fn backup_at_the_end(&mut self, day: PathBuf, rows: u64) {
        let last = self.backups.last.take();
        let has_all = last.is_some_and(|(kept, _)| kept.rows >= rows);
        let folder = self.backups.folder.clone().filter(|_| !has_all);
        let Some(folder) = folder else { return };
        let job = Job { day, folder };
        let (done, wait) = mpsc::channel();
        let _ = std::thread::spawn(move || {
            let _ = job.run();
            let _ = done.send(());
        });
        let _ = wait.recv_timeout(AT_THE_END);
    }

    /// The newest backup of the last day, with what the first screen says of
    /// it.
    pub fn last_backup(&self) -> Option<(PathBuf, String)> {
        let day = self.last_path()?;
        let (path, made) = file::newest_backup(&day, self.backups.folder.as_deref()?)?;
        let made = chrono::DateTime::<chrono::Local>::from(made);
        let said = format!("made {}", made.format("%Y-%m-%d %H:%M"));
        Some((path, said))
    }

    /// Goes on from a backup: a copy of it takes the place of its day, which is
    /// kept under another name.
    ///
    /// From the first screen it is the last day's place where the names fit,
    /// else one in the folder for new days.
    ///
    /// # Errors
    /// A sentence; all files and the open day stay as they were.
    pub fn restore(&mut self, backup: &Path) -> Result<String, String> {
        let now = self.now();
        if let Some(sentence) = self.read_only() {
            return Err(sentence);
        }
        // What can't be gone on from is said before the day is let go.
        let whole = Live::open_read(backup).map_err(|e| e.to_string())?;
        let open = self.path().map(Path::to_owned);
        let day = match &open {
            Some(day) if is_same(self.day(), whole.day()) => day.clone(),
            Some(_) => {
                return Err(format!(
                    "{} is a backup of another day, {}; leave this one and go on from it \
                     on the first screen.",
                    backup.display(),
                    whole.day().facts().name
                ));
            }
            None => self.place_of(backup, whole.day()),
        };
        drop(whole);
        self.let_go();
        let done = file::restore(backup, &day, now).map_err(|e| e.to_string());
        if let (Err(sentence), None) = (&done, &open) {
            return Err(sentence.clone());
        }
        self.open(&day)?;
        let kept = done?;
        let mut said = format!("This is the backup {} again.", backup.display());
        if let Some(kept) = kept {
            said.push_str(&format!(
                " What the day was before is kept in {}.",
                kept.display()
            ));
        }
        let note = Command::Note {
            number: None,
            act: None,
            text: said.clone(),
            platform: None,
        };
        let context: Context = self.context();
        self.submit_at(&note, &context)?;
        Ok(said)
    }

    /// Where the day of a backup is, or is to be: the last day's place if it is
    /// that day or can't be read, else one in the folder for new days.
    fn place_of(&self, backup: &Path, whole: &Day) -> PathBuf {
        let stem = file::stem_of_backup(backup);
        let fits = |day: &PathBuf| {
            day.file_stem().is_some_and(|s| *s == *stem)
                && Live::open_read(day).map_or(true, |live| is_same(live.day(), whole))
        };
        let last = self.last_path().filter(fits);
        last.unwrap_or_else(|| self.free_path(&stem))
    }

    /// The last day's file, whether it is still there or not.
    fn last_path(&self) -> Option<PathBuf> {
        let file = self.folders.config.as_ref()?.join("last-day.txt");
        let text = std::fs::read_to_string(file).ok()?;
        let path = PathBuf::from(text.trim());
        path.extension()
            .is_some_and(|e| e == EXTENSION)
            .then_some(path)
    }
}

/// Whether two journals are of one day: they begin with the same row.
fn is_same(a: &Day, b: &Day) -> bool {
    let first = |day: &Day| day.journal().first().map(|r| r.id.clone());
    first(a).is_some() && first(a) == first(b)
}

/// Breaks that run, and what is closed: a change of them is a good moment.
fn stones(facts: &Facts) -> Vec<Option<Stamp>> {
    let breaks = facts.platforms.iter().map(|p| p.break_until);
    let closed = facts.revisions.iter().map(|r| Some(r.closed_at));
    breaks.chain(closed).collect()
}

/// An age in milliseconds as words.
fn age(ms: i64) -> String {
    match ms / 60_000 {
        i64::MIN..=0 => "just now".to_owned(),
        minutes @ 1..=119 => format!("{minutes} min ago"),
        minutes => format!("{} h ago", minutes / 60),
    }
}
