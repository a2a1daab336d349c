//! The only place of the desk that touches a clock, a file or the system.

mod backups;
mod begin;
mod book;
mod together;

pub use backups::{BACKUP_EVERY_MS, BACKUP_RETRY_MS, BackupsTold, Job};
pub use begin::file_stem;

use std::path::{Path, PathBuf};
use std::time::Instant;

use crate::day::{ClockMove, Command, Context, Day, Facts, Stamp};
use crate::exchange::norms::read_norms;
use crate::exchange::roster::{RosterRead, read_roster, read_update, update};
use crate::file::{Live, SubmitError, WhyReadOnly};
use crate::papers::documents::{Archive, Beside, Order};
use crate::post;
use crate::samples::{self, Sample};
use crate::score::Norms;
use crate::sheets::Audience;

/// Whose hand enters what is typed at the desk.
const HAND: &str = "table";

/// Where the time comes from.
#[derive(Debug, Clone, Copy)]
pub enum Moment {
    /// The wall clock at one instant, and the monotonic clock from there.
    Running {
        /// The instant.
        start: Instant,
        /// What the wall clock said then.
        at: Stamp,
    },
    /// A time that stands, for tests.
    Fixed(Stamp),
}

impl Moment {
    /// Anchored to the wall clock now.
    #[allow(clippy::disallowed_methods)] // A face may ask the clock.
    pub fn anchored() -> Self {
        Self::Running {
            start: Instant::now(),
            at: Stamp::from_datetime(chrono::Local::now().fixed_offset()),
        }
    }

    /// The time now.
    pub fn now(self) -> Stamp {
        match self {
            Self::Running { start, at } => {
                let since =
                    i64::try_from(start.elapsed().as_millis()).unwrap_or(i64::MAX);
                at.plus_ms(since)
            }
            Self::Fixed(at) => at,
        }
    }
}

/// Folders that the desk uses.
#[derive(Debug, Clone)]
pub struct Folders {
    /// Where the last day is remembered, if there is a place for it.
    pub config: Option<PathBuf>,
    /// Where new days are put unless another place is typed.
    pub documents: PathBuf,
}

impl Folders {
    /// Those of this user.
    pub fn of_user() -> Self {
        let var = |key: &str| {
            std::env::var_os(key)
                .map(PathBuf::from)
                .filter(|p| p.is_absolute())
        };
        let home = var("HOME").or_else(|| var("USERPROFILE"));
        let mac = home.as_ref().map(|h| h.join("Library/Application Support"));
        let config = var("APPDATA")
            .or_else(|| var("XDG_CONFIG_HOME"))
            .or_else(|| mac.filter(|p| p.is_dir()))
            .or_else(|| home.as_ref().map(|h| h.join(".config")))
            .map(|base| base.join("maxday"));
        let documents = home
            .map(|h| {
                let documents = h.join("Documents");
                if documents.is_dir() { documents } else { h }
            })
            .unwrap_or_else(std::env::temp_dir);
        Self { config, documents }
    }
}

/// Clock, folders and the open day.
#[derive(Debug)]
pub struct Effects {
    moment: Moment,
    folders: Folders,
    live: Option<Live>,
    none: Day,
    backups: backups::Backups,
    /// Nobody holds the day any more that is read along here.
    is_free: bool,
}

impl Effects {
    /// Nothing open yet.
    pub fn new(moment: Moment, folders: Folders) -> Self {
        let mut effects = Self {
            moment,
            folders,
            live: None,
            none: Day::new(),
            backups: backups::Backups::default(),
            is_free: false,
        };
        effects.find_backup_folder();
        effects
    }

    /// The time now.
    pub fn now(&self) -> Stamp {
        self.moment.now()
    }

    /// Moves a fixed time, for tests.
    pub fn set_now(&mut self, now: Stamp) {
        self.moment = Moment::Fixed(now);
    }

    /// The open day; an empty one where none is open.
    pub fn day(&self) -> &Day {
        self.live.as_ref().map_or(&self.none, Live::day)
    }

    /// What is true of the open day.
    pub fn facts(&self) -> &Facts {
        self.day().facts()
    }

    /// Whether a day is open.
    pub const fn is_open(&self) -> bool {
        self.live.is_some()
    }

    /// The open day's file.
    pub fn path(&self) -> Option<&Path> {
        self.live.as_ref().map(Live::path)
    }

    /// The folder for new days.
    pub fn documents(&self) -> &Path {
        &self.folders.documents
    }

    /// Why nothing can be entered, as a sentence; `None` where it can.
    pub fn read_only(&self) -> Option<String> {
        Some(match self.live.as_ref()?.read_only_because()? {
            WhyReadOnly::Asked => "This day was opened to be read.".to_owned(),
            WhyReadOnly::Protected => {
                "The file or its folder is write-protected; this window only reads."
                    .to_owned()
            }
            WhyReadOnly::Held(holder) if self.is_free => {
                format!(
                    "{holder} has let the day go; leave it and open it again to enter here."
                )
            }
            WhyReadOnly::Held(holder) => {
                format!("The day is held by {holder}; this window only reads.")
            }
        })
    }

    /// Time, hand and a random draw for a command that is entered now.
    pub fn context(&self) -> Context {
        Context {
            at: self.now(),
            hand: HAND.to_owned(),
            draw: uuid::Uuid::new_v4().as_u64_pair().0,
        }
    }

    /// Enters a command; on success it is stored.
    ///
    /// # Errors
    /// The sentence of the refusal or of the failure.
    pub fn submit(&mut self, command: &Command) -> Result<(), String> {
        let context = self.context();
        self.submit_at(command, &context)
    }

    fn submit_at(&mut self, command: &Command, context: &Context) -> Result<(), String> {
        let Some(live) = &mut self.live else {
            return Err("No day is open.".to_owned());
        };
        live.submit(command, context, None)
            .map(drop)
            .map_err(|e| e.to_string())
    }

    /// Opens a day.
    ///
    /// A clock that ran when the program ended so stands stopped at the last
    /// moment at which it is known to have run.
    ///
    /// # Errors
    /// A sentence that says what is wrong.
    pub fn open(&mut self, path: &Path) -> Result<(), String> {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        if self.path() == Some(path.as_path()) {
            return Ok(());
        }
        let live = Live::open(&path, self.now(), HAND).map_err(|e| e.to_string())?;
        self.close();
        self.live = Some(live);
        self.is_free = false;
        self.stop_clocks_left_running();
        self.remember(&path);
        Ok(())
    }

    /// Makes a fresh copy of a sample day and opens it.
    ///
    /// # Errors
    /// A sentence that says what is wrong.
    pub fn sample(&mut self, sample: Sample) -> Result<(), String> {
        let stamp = self.now().local().format("%Y%m%d-%H%M%S").to_string();
        let folder = &self.folders.documents;
        let path = (1..100)
            .map(|n| {
                let more = if n == 1 {
                    String::new()
                } else {
                    format!("-{n}")
                };
                folder.join(format!("{}-{stamp}{more}.maxday", sample.file_stem()))
            })
            .find(|p| !p.exists())
            .ok_or("No free name for the sample day was found.")?;
        samples::make(&path, sample, self.now())?;
        self.open(&path)
    }

    fn stop_clocks_left_running(&mut self) {
        let Some(live) = &self.live else { return };
        if live.is_read_only() {
            return;
        }
        let last = live
            .day()
            .journal()
            .last()
            .map_or_else(|| self.now(), |r| r.at);
        let mut at = last;
        if let Some(holder) = live.taken_over() {
            at.ms = at.ms.max(holder.heartbeat);
        }
        let context = Context {
            at,
            ..self.context()
        };
        self.stop_clocks(&context);
    }

    fn stop_clocks(&mut self, context: &Context) {
        let running: Vec<u8> = (1..)
            .zip(&self.facts().platforms)
            .filter(|(_, p)| {
                p.call
                    .as_ref()
                    .and_then(|c| c.clock)
                    .is_some_and(|c| c.runs())
            })
            .map(|(n, _)| n)
            .collect();
        for platform in running {
            // A clock that can't be stopped here stands all the same when the
            // file is opened again.
            let _ = self.submit_at(
                &Command::Clock {
                    platform: Some(platform),
                    movement: ClockMove::Stop,
                },
                context,
            );
        }
    }

    /// Lets the day go; a clock that runs stops now.
    pub fn close(&mut self) {
        if self.live.as_ref().is_some_and(|l| !l.is_read_only()) {
            let context = self.context();
            self.stop_clocks(&context);
        }
        let Some(live) = self.live.take() else { return };
        let day = live.path().to_owned();
        let rows = live.day().next_seq() - 1;
        let is_ours = !live.is_read_only();
        let _ = live.close();
        if is_ours {
            self.backup_at_the_end(day, rows);
        }
        self.find_backup_folder();
    }

    /// Lets the day go without a last backup: it is about to make way for one.
    fn let_go(&mut self) {
        let _ = self.backups.take_folder();
        self.close();
    }

    /// Says that this holder lives, or reads on where another one writes.
    ///
    /// # Errors
    /// A sentence where the day was lost to somebody else.
    pub fn beat(&mut self, clock_runs: bool) -> Result<(), String> {
        if !clock_runs && matches!(self.moment, Moment::Running { .. }) {
            self.moment = Moment::anchored();
        }
        let now = self.now();
        let Some(live) = &mut self.live else {
            return Ok(());
        };
        if live.is_read_only() {
            let read = live.refresh().map(drop);
            self.is_free = live.living_holder(now).is_ok_and(|h| h.is_none());
            read.map_err(|e| e.to_string())
        } else {
            live.heartbeat(now).map_err(|e| e.to_string())
        }
    }

    /// The last day that was open, if its file is still there.
    pub fn remembered(&self) -> Option<PathBuf> {
        let file = self.folders.config.as_ref()?.join("last-day.txt");
        let text = std::fs::read_to_string(file).ok()?;
        let path = PathBuf::from(text.trim());
        path.is_file().then_some(path)
    }

    fn remember(&self, path: &Path) {
        let Some(folder) = &self.folders.config else {
            return;
        };
        // Not remembering a file is no reason to stop anybody.
        let _ = std::fs::create_dir_all(folder);
        let _ = std::fs::write(
            folder.join("last-day.txt"),
            path.to_string_lossy().as_bytes(),
        );
    }

    /// Writes papers into a folder beside the day's file; the athletes' reports with a
    /// coach's norms, where a file of them is named. A name without a folder is beside
    /// the day's file too.
    ///
    /// # Errors
    /// A sentence that says what is wrong.
    pub fn write_papers(&self, order: &Order, norms: &str) -> Result<String, String> {
        let path = self.path().ok_or("No day is open.")?;
        let stem = path
            .file_stem()
            .map_or_else(|| "day".to_owned(), |s| s.to_string_lossy().into_owned());
        let folder = path.with_file_name(format!("{stem} papers"));
        let digest = self.live.as_ref().map(Live::digest).unwrap_or_default();
        let archive = Archive {
            day: self.day(),
            digest: &digest,
        };
        let norms = match norms.trim() {
            "" => None,
            _ if order.audience == Audience::Posted => None,
            name => Some(self.norms(&path.with_file_name(name))?),
        };
        let beside = Beside {
            archive: Some(&archive),
            norms: norms.as_ref(),
        };
        let written = post::papers_beside(self.facts(), &beside, order, &folder)?;
        let mut sentence =
            format!("{} files are in {}.", written.files.len(), folder.display());
        if !written.missing.is_empty() {
            let missing: String = written.missing.iter().collect();
            sentence.push_str(&format!(
                " The font has no {missing}; a question mark stands in its place."
            ));
        }
        Ok(sentence)
    }

    fn norms(&self, path: &Path) -> Result<Norms, String> {
        let bytes = std::fs::read(path)
            .map_err(|e| format!("The norms {} can't be read: {e}.", path.display()))?;
        let read = read_norms(&bytes, self.facts());
        read.map(|read| read.norms).map_err(|faults| {
            let n = faults.len();
            let s = if n == 1 { "" } else { "s" };
            let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
            format!("{n} fault{s} in the norms:\n{}", lines.join("\n"))
        })
    }

    /// Takes in a roster's file: all of it or, with its faults named, none.
    ///
    /// Where there are entries already, it is an update: matching entries are
    /// changed, the others are added, nobody is removed.
    ///
    /// # Errors
    /// The faults, a line each.
    pub fn import(&mut self, path: &Path) -> Result<String, String> {
        let bytes = std::fs::read(path)
            .map_err(|e| format!("The roster {} can't be read: {e}.", path.display()))?;
        let facts = self.facts();
        let updates = !facts.entries.is_empty();
        let context = Context {
            draw: facts.seed.unwrap_or(self.context().draw),
            ..self.context()
        };
        let read = if updates {
            read_update(&bytes, facts, None)
        } else {
            read_roster(&bytes, facts, None)
        };
        let read = read.map_err(|faults| {
            let n = faults.len();
            let s = if n == 1 { "" } else { "s" };
            let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
            format!("{n} fault{s} in the list:\n{}", lines.join("\n"))
        })?;
        let Some(live) = &mut self.live else {
            return Err("No day is open.".to_owned());
        };
        let counts = if updates {
            let changes = update(live.day().facts(), &read);
            let counts = (changes.added.len(), changes.changed.len());
            live.batch(|batch| {
                if !changes.changed.is_empty() {
                    let edit = Command::EditMany(changes.changed);
                    let _ = batch.submit(&edit, &context, None)?;
                }
                if !changes.added.is_empty() {
                    let _ = batch.submit(&Command::Add(changes.added), &context, None)?;
                }
                Ok::<(), SubmitError>(())
            })
            .map_err(|e| e.to_string())?;
            counts
        } else {
            let _ = live
                .submit(&Command::Add(read.entries.clone()), &context, None)
                .map_err(|e| e.to_string())?;
            (read.entries.len(), 0)
        };
        Ok(report(&read, counts))
    }
}

/// What an import took in and what is owed, a line each.
fn report(read: &RosterRead, (added, changed): (usize, usize)) -> String {
    let mut lines = vec![format!("{added} entered, {changed} changed.")];
    let flights = read.flights.iter();
    let flights: Vec<String> = flights
        .map(|(session, flight, platform)| {
            format!("{session}/{flight} on platform {platform}")
        })
        .collect();
    if !flights.is_empty() {
        lines.push(format!("Flights made: {}.", flights.join(", ")));
    }
    if !read.has_clearance {
        lines.push("No column for clearances: their gates are off.".to_owned());
    }
    if !read.unknown.is_empty() {
        lines.push(format!(
            "Not read: column {}.",
            read.unknown.join(", column ")
        ));
    }
    lines.extend(read.queries.iter().map(|q| format!("Owed: {q}")));
    lines.join("\n")
}

impl Drop for Effects {
    fn drop(&mut self) {
        self.close();
    }
}
