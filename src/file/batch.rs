//! Many acts in one transaction: all or none.

use std::collections::BTreeSet;
use std::path::Path;

use super::error::{FileError, SubmitError, shown};
use super::journal::{self, Tail};
use super::lease::{self, Claim};
use super::live::Live;
use super::open::{self, Store};
use super::plan::{Done, plan, takeover, whole};
use super::{host, views};
use crate::day::{Command, Context, Day, Stamp, apply};

/// Many acts that are stored together; see [`Live::batch`](super::Live::batch).
#[derive(Debug)]
pub struct Batch<'a> {
    pub(super) store: &'a Store,
    pub(super) device: &'a str,
    pub(super) day: Day,
    pub(super) tail: Tail,
    pub(super) ids: BTreeSet<String>,
    /// The first write that failed; nothing of the batch is stored then.
    pub(super) broken: Option<FileError>,
}

impl Batch<'_> {
    /// The day with what the batch did so far.
    pub const fn day(&self) -> &Day {
        &self.day
    }

    /// As [`Live::submit`](super::Live::submit), durable once the whole batch is.
    ///
    /// # Errors
    /// [`SubmitError::Refused`] leaves the batch as it was;
    /// [`SubmitError::Failed`] undoes all of it.
    pub fn submit(
        &mut self,
        command: &Command,
        context: &Context,
        id: Option<&str>,
    ) -> Result<Done, SubmitError> {
        if let Some(error) = &self.broken {
            return Err(error.clone().into());
        }
        let plan = plan(&self.day, &self.tail, &self.ids, command, context, id)?;
        if let Err(error) = plan.write(self.store, &mut self.tail, self.device) {
            self.broken = Some(error.clone());
            return Err(error.into());
        }
        let done = plan.done.clone();
        if !plan.is_empty() {
            let _ = self.ids.insert(done.id.clone());
        }
        for row in plan.into_rows() {
            apply(&mut self.day, &row);
        }
        Ok(done)
    }
}

impl Live {
    /// Opens a day, does `work` in one transaction, and lets the day go.
    ///
    /// Where `work` fails, not a byte of the file has changed. A lease left by
    /// a crash is taken over, and the journal says so.
    ///
    /// # Errors
    /// What `work` returns, or [`FileError`] where the day can't be opened,
    /// is held by somebody else, or can't be written.
    pub fn at_once<T, E: From<FileError>>(
        path: &Path,
        now: Stamp,
        who: &str,
        work: impl FnOnce(&mut Batch<'_>) -> Result<T, E>,
    ) -> Result<T, E> {
        let store = open::open_to_write(path)?;
        let protected = |error| match error {
            // A folder that can't be written shows only at the first write.
            FileError::Io { path, .. } => FileError::ReadOnly(path),
            error => error,
        };
        let tx = store.begin().map_err(protected)?;
        let (lease, before) = match lease::claim(&store.conn, now, who) {
            Ok(Claim::Ours(lease, before)) => (lease, before),
            Ok(Claim::Held(holder)) => {
                let path = shown(path);
                return Err(FileError::Held { path, holder }.into());
            }
            Err(error) => return Err(protected(store.fail(&error)).into()),
        };
        let mut tail = Tail::default();
        let mut rows = Vec::new();
        let _ = journal::read_on(&store, &mut tail, |row| rows.push(row))?;
        journal::reaches_its_end(&store, tail.seq)?;
        let device = host::name();
        if let Some(before) = before {
            let note = takeover(&before, tail.seq + 1, now, who);
            journal::append(&store, &mut tail, &device, &note, 1)?;
            rows.push(note);
        }
        let ids = rows.iter().map(|row| row.id.clone()).collect();
        let day = Day::from_journal(rows);
        whole(&store, &day)?;
        let mut batch = Batch {
            store: &store,
            device: &device,
            day,
            tail,
            ids,
            broken: None,
        };
        let value = work(&mut batch)?;
        let Batch {
            day, tail, broken, ..
        } = batch;
        if let Some(error) = broken {
            return Err(error.into());
        }
        views::follow(&store, &day, tail.seq)?;
        let fail = |e| store.fail(&e);
        lease.release(&store.conn).map_err(fail)?;
        tx.commit().map_err(fail)?;
        lease.given_back();
        Ok(value)
    }
}
