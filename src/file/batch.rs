//! Many acts in one transaction: all or none.

use std::collections::BTreeSet;

use super::error::{FileError, SubmitError};
use super::journal::Tail;
use super::open::Store;
use super::plan::{Done, plan};
use crate::day::{Command, Context, Day, apply};

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
