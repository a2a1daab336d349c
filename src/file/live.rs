//! One open day: what is entered is durable before it is true.

use std::collections::BTreeSet;
use std::path::Path;

use super::batch::Batch;
use super::error::{FileError, SubmitError, shown};
use super::journal::{self, Tail, new_id};
use super::lease::{self, Claim, Holder, Lease};
use super::open::{self, Store};
use super::plan::{Done, Plan, plan, takeover, whole};
use super::{erase, host, views};
use crate::day::{Command, Context, Day, Event, Recorded, Stamp, apply};

/// How many rows a batch must have for the read views to be written with it.
const MANY_ROWS: u64 = 100;

/// Why nothing can be entered in a day that is open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WhyReadOnly {
    /// It was opened to be read.
    Asked,
    /// The file or its folder is write-protected.
    Protected,
    /// Somebody else holds the day.
    Held(Holder),
}

/// A day that is open, with its file.
///
/// Whoever opens it to write holds its lease until it is dropped or closed;
/// every other opener reads along. Read views are written when a day is let
/// go, backed up, and on demand.
#[derive(Debug)]
pub struct Live {
    store: Store,
    day: Day,
    tail: Tail,
    ids: BTreeSet<String>,
    mode: Mode,
    taken_over: Option<Holder>,
    device: String,
}

#[derive(Debug)]
enum Mode {
    Write(Lease),
    Read(WhyReadOnly),
}

impl Live {
    /// Makes a new day and holds it.
    ///
    /// `first` says how the day is made; the context gives time and hand.
    ///
    /// # Errors
    /// [`FileError`]; a file that was there is left as it is, and one that
    /// couldn't be made whole is taken away again.
    pub fn create(
        path: &Path,
        first: Event,
        context: &Context,
    ) -> Result<Self, FileError> {
        let store = open::make(path)?;
        match Self::begin(store, first, context) {
            Ok(live) => Ok(live),
            Err(error) => {
                let _ = std::fs::remove_file(path);
                Err(error)
            }
        }
    }

    fn begin(store: Store, first: Event, context: &Context) -> Result<Self, FileError> {
        let mut live = Self::unread(store, WhyReadOnly::Asked);
        let recorded = Recorded {
            seq: 1,
            act: 1,
            id: new_id(context.at),
            at: context.at,
            happened: None,
            hand: context.hand.clone(),
            platform: None,
            event: first,
        };
        let tx = live.store.begin()?;
        open::fill(&live.store)?;
        let fail = |e| live.store.fail(&e);
        let claimed =
            lease::claim(&live.store.conn, context.at, &context.hand).map_err(fail)?;
        let mut tail = Tail::default();
        journal::append(&live.store, &mut tail, &live.device, &recorded, 1)?;
        tx.commit().map_err(fail)?;
        live.tail = tail;
        live.take(&recorded);
        live.mode = match claimed {
            Claim::Ours(mut lease, _) => {
                lease.stored();
                Mode::Write(lease)
            }
            Claim::Held(holder) => Mode::Read(WhyReadOnly::Held(holder)),
        };
        Ok(live)
    }

    /// Opens a day to write, as `who`.
    ///
    /// Where somebody else holds it, or the file or its folder is
    /// write-protected, it is opened to read; [`Live::read_only_because`]
    /// says why. A lease left by a crash is taken over, and the journal says
    /// so.
    ///
    /// # Errors
    /// [`FileError`]; the file is left as it is.
    pub fn open(path: &Path, now: Stamp, who: &str) -> Result<Self, FileError> {
        let store = open::open_to_write(path)?;
        if store.is_protected() {
            return Self::read(store, WhyReadOnly::Protected);
        }
        let mut live = Self::unread(store, WhyReadOnly::Protected);
        match live.claim(now, who) {
            Ok(()) => Ok(live),
            // A folder that can't be written shows only at the first write.
            Err(FileError::ReadOnly(_) | FileError::Io { .. }) => {
                Self::read(open::open_to_read(path)?, WhyReadOnly::Protected)
            }
            Err(error) => Err(error),
        }
    }

    /// Opens a day to read; [`Live::refresh`] follows what is entered.
    ///
    /// # Errors
    /// [`FileError`]; the file is left as it is.
    pub fn open_read(path: &Path) -> Result<Self, FileError> {
        Self::read(open::open_to_read(path)?, WhyReadOnly::Asked)
    }

    /// Reads the journal for the first time, without a right to write.
    fn read(store: Store, why: WhyReadOnly) -> Result<Self, FileError> {
        let mut live = Self::unread(store, why);
        live.read_anew()?;
        whole(&live.store, &live.day)?;
        Ok(live)
    }

    fn unread(store: Store, why: WhyReadOnly) -> Self {
        Self {
            store,
            day: Day::new(),
            tail: Tail::default(),
            ids: BTreeSet::new(),
            mode: Mode::Read(why),
            taken_over: None,
            device: host::name(),
        }
    }

    /// Takes the lease and reads the journal in one transaction.
    fn claim(&mut self, now: Stamp, who: &str) -> Result<(), FileError> {
        let tx = self.store.begin()?;
        let fail = |e| self.store.fail(&e);
        let claimed = lease::claim(&self.store.conn, now, who).map_err(fail)?;
        let (mut tail, mut rows) = (Tail::default(), Vec::new());
        let _ = journal::read_on(&self.store, &mut tail, |row| rows.push(row))?;
        journal::reaches_its_end(&self.store, tail.seq)?;
        let mode = match claimed {
            Claim::Held(holder) => {
                drop(tx);
                Mode::Read(WhyReadOnly::Held(holder))
            }
            Claim::Ours(mut lease, before) => {
                if let Some(before) = before {
                    let note = takeover(&before, tail.seq + 1, now, who);
                    journal::append(&self.store, &mut tail, &self.device, &note, 1)?;
                    rows.push(note);
                    self.taken_over = Some(before);
                }
                tx.commit().map_err(fail)?;
                lease.stored();
                Mode::Write(lease)
            }
        };
        self.tail = tail;
        self.mode = mode;
        self.take_all(rows);
        whole(&self.store, &self.day)
    }

    /// Folds a stored row into the day.
    fn take(&mut self, row: &Recorded) {
        let _ = self.ids.insert(row.id.clone());
        apply(&mut self.day, row);
    }

    /// Folds stored rows into the day; the first ones all at once.
    fn take_all(&mut self, rows: Vec<Recorded>) {
        if self.day.has_begun() {
            for row in &rows {
                self.take(row);
            }
        } else {
            self.ids = rows.iter().map(|row| row.id.clone()).collect();
            self.day = Day::from_journal(rows);
        }
    }

    /// The day.
    pub const fn day(&self) -> &Day {
        &self.day
    }

    /// The digest of the journal's last row, in hexadecimal digits.
    pub fn digest(&self) -> String {
        let bytes = self.tail.digest.iter();
        bytes.map(|byte| format!("{byte:02x}")).collect()
    }

    /// The day's file.
    pub fn path(&self) -> &Path {
        &self.store.path
    }

    /// Whether nothing can be entered here.
    pub const fn is_read_only(&self) -> bool {
        matches!(self.mode, Mode::Read(_))
    }

    /// Why nothing can be entered here, if so.
    pub const fn read_only_because(&self) -> Option<&WhyReadOnly> {
        match &self.mode {
            Mode::Write(_) => None,
            Mode::Read(why) => Some(why),
        }
    }

    /// The crashed holder whose lease was taken over on opening.
    ///
    /// Its heartbeat is the last moment at which a clock is known to have run.
    pub const fn taken_over(&self) -> Option<&Holder> {
        self.taken_over.as_ref()
    }

    /// Why nothing can be written, as a failure.
    fn lease(&self) -> Result<&Lease, FileError> {
        let path = shown(&self.store.path);
        match &self.mode {
            Mode::Write(lease) => Ok(lease),
            Mode::Read(WhyReadOnly::Asked) => Err(FileError::OpenedToRead(path)),
            Mode::Read(WhyReadOnly::Protected) => Err(FileError::ReadOnly(path)),
            Mode::Read(WhyReadOnly::Held(holder)) => Err(FileError::Held {
                path,
                holder: holder.clone(),
            }),
        }
    }

    /// Makes sure, inside a transaction, that the file is still ours.
    fn still_ours(&self) -> Result<(), FileError> {
        let lease = self.lease()?;
        let fail = |e| self.store.fail(&e);
        if lease.is_ours(&self.store.conn).map_err(fail)? {
            return Ok(());
        }
        let path = shown(&self.store.path);
        match lease::holder(&self.store.conn).map_err(fail)? {
            Some(holder) => Err(FileError::Held { path, holder }),
            None => Err(FileError::Io {
                path,
                why: "another opener has taken the day meanwhile; open it again".into(),
            }),
        }
    }

    /// Decides a command, stores its act, and only then folds it into the day.
    ///
    /// The act is one transaction; when this returns, it survives a power
    /// cut. `id` is any text that no act of this day has; without one, the
    /// act gets a new one. `X/2` goes on with the act `X` where that is the
    /// newest and both are of a kind that comes in steps (entries, details,
    /// places, settings).
    ///
    /// # Errors
    /// [`SubmitError::Refused`] where the day's rules forbid it, and
    /// [`SubmitError::Failed`] where the file couldn't take it; file and day
    /// are then as before.
    pub fn submit(
        &mut self,
        command: &Command,
        context: &Context,
        id: Option<&str>,
    ) -> Result<Done, SubmitError> {
        let _ = self.lease()?;
        let plan = plan(&self.day, &self.tail, &self.ids, command, context, id)?;
        if plan.is_empty() {
            return Ok(plan.done);
        }
        self.tail = match self.store_plan(&plan) {
            Ok(tail) => tail,
            Err(error) => {
                self.after_failure(&error);
                return Err(error.into());
            }
        };
        let done = plan.done.clone();
        for row in plan.into_rows() {
            self.take(&row);
        }
        Ok(done)
    }

    fn store_plan(&self, plan: &Plan) -> Result<Tail, FileError> {
        let tx = self.store.begin()?;
        self.still_ours()?;
        let mut tail = self.tail.clone();
        plan.write(&self.store, &mut tail, &self.device)?;
        tx.commit().map_err(|e| self.store.fail(&e))?;
        Ok(tail)
    }

    /// Sees to it that the day says what the file says after a failed write.
    fn after_failure(&mut self, error: &FileError) {
        if let FileError::Held { holder, .. } = error {
            self.mode = Mode::Read(WhyReadOnly::Held(holder.clone()));
        }
        let _ = self.read_on();
    }

    /// Stores many acts in one transaction: all or none.
    ///
    /// Where `work` returns an error or any write failed, file and day are as
    /// before. A refused command inside leaves the batch as it was before it.
    ///
    /// # Errors
    /// What `work` returns, or [`FileError`] where the file couldn't take it.
    pub fn batch<T, E: From<FileError>>(
        &mut self,
        work: impl FnOnce(&mut Batch<'_>) -> Result<T, E>,
    ) -> Result<T, E> {
        match self.run_batch(work) {
            Ok(result) => result,
            Err(error) => {
                self.after_failure(&error);
                Err(error.into())
            }
        }
    }

    /// The outer error is the file's, the inner one that of the work.
    fn run_batch<T, E>(
        &mut self,
        work: impl FnOnce(&mut Batch<'_>) -> Result<T, E>,
    ) -> Result<Result<T, E>, FileError> {
        let _ = self.lease()?;
        let tx = self.store.begin()?;
        self.still_ours()?;
        let mut batch = Batch {
            store: &self.store,
            device: &self.device,
            day: self.day.clone(),
            tail: self.tail.clone(),
            ids: self.ids.clone(),
            broken: None,
        };
        let result = work(&mut batch);
        let Batch {
            day,
            tail,
            ids,
            broken,
            ..
        } = batch;
        if let Some(error) = broken {
            return Err(error);
        }
        let Ok(value) = result else {
            return Ok(result);
        };
        if tail.seq - self.tail.seq >= MANY_ROWS {
            views::rebuild(&self.store, &day, tail.seq)?;
        }
        tx.commit().map_err(|e| self.store.fail(&e))?;
        (self.day, self.tail, self.ids) = (day, tail, ids);
        Ok(Ok(value))
    }

    /// Picks up what was entered elsewhere; returns how many rows.
    ///
    /// # Errors
    /// [`FileError`]; the day stays as it is.
    pub fn refresh(&mut self) -> Result<usize, FileError> {
        let n = self.read_on()?;
        whole(&self.store, &self.day)?;
        Ok(n)
    }

    fn read_on(&mut self) -> Result<usize, FileError> {
        let (mut tail, mut rows) = (self.tail.clone(), Vec::new());
        let n = journal::read_on(&self.store, &mut tail, |row| rows.push(row))?;
        if n > 0 && erase::was_since(&self.store, self.tail.seq)? {
            // Nobody goes on showing a name that was read before it went.
            return self.read_anew().map(|()| n);
        }
        self.tail = tail;
        self.take_all(rows);
        Ok(n)
    }

    /// Reads the whole journal as it is at one moment.
    fn read_anew(&mut self) -> Result<(), FileError> {
        let (mut tail, mut rows) = (Tail::default(), Vec::new());
        let look = self.store.look()?;
        let _ = journal::read_on(&self.store, &mut tail, |row| rows.push(row))?;
        journal::reaches_its_end(&self.store, tail.seq)?;
        drop(look);
        (self.tail, self.day) = (tail, Day::new());
        self.take_all(rows);
        Ok(())
    }

    /// Says that the holder lives; to be called every
    /// [`HEARTBEAT_MS`](super::HEARTBEAT_MS). Does nothing for a reader.
    ///
    /// # Errors
    /// [`FileError::Held`] where somebody else took the day over meanwhile:
    /// it can only be read from then on.
    pub fn heartbeat(&mut self, now: Stamp) -> Result<(), FileError> {
        let Mode::Write(lease) = &self.mode else {
            return Ok(());
        };
        if lease
            .beat(&self.store.conn, now)
            .map_err(|e| self.store.fail(&e))?
        {
            return Ok(());
        }
        let lost = self.still_ours();
        if let Err(error) = &lost {
            self.after_failure(error);
        }
        lost
    }

    /// Writes the read views `v1_athlete`, `v1_attempt` and `v1_standing` as
    /// the day stands now.
    ///
    /// # Errors
    /// [`FileError`]; the views stay as they were.
    pub fn refresh_views(&mut self) -> Result<(), FileError> {
        let tx = self.store.begin()?;
        self.still_ours()?;
        views::follow(&self.store, &self.day, self.tail.seq)?;
        tx.commit().map_err(|e| self.store.fail(&e))
    }

    /// Lets the day go: writes its read views and gives the lease back.
    ///
    /// # Errors
    /// [`FileError`] where that couldn't be written; no act is lost by it.
    pub fn close(mut self) -> Result<(), FileError> {
        self.let_go()
    }

    fn let_go(&mut self) -> Result<(), FileError> {
        let mode = std::mem::replace(&mut self.mode, Mode::Read(WhyReadOnly::Asked));
        let Mode::Write(lease) = mode else {
            return Ok(());
        };
        let fail = |e| self.store.fail(&e);
        let tx = self.store.begin()?;
        if !lease.is_ours(&self.store.conn).map_err(fail)? {
            lease.given_back();
            return Ok(());
        }
        views::follow(&self.store, &self.day, self.tail.seq)?;
        lease.release(&self.store.conn).map_err(fail)?;
        tx.commit().map_err(fail)?;
        lease.given_back();
        Ok(())
    }

    pub(super) const fn store(&self) -> &Store {
        &self.store
    }
}

impl Drop for Live {
    /// As [`Live::close`]; a failure only leaves a lease that goes stale.
    fn drop(&mut self) {
        let _ = self.let_go();
    }
}
