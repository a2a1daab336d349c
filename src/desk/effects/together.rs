//! Commands that are entered together, and whether time goes on.

use super::{Effects, Moment};
use crate::day::Command;
use crate::file::SubmitError;

impl Effects {
    /// Whether the time goes on; it stands in tests.
    pub const fn has_time(&self) -> bool {
        matches!(self.moment, Moment::Running { .. })
    }

    /// Enters commands in one transaction: all of them are stored, or none.
    ///
    /// # Errors
    /// Which one is refused, from 0 (`None` where the file failed), and the
    /// sentence.
    pub fn submit_all(
        &mut self,
        commands: &[Command],
    ) -> Result<(), (Option<usize>, String)> {
        let context = self.context();
        let Some(live) = &mut self.live else {
            return Err((None, "No day is open.".to_owned()));
        };
        let mut at = 0;
        let done = live.batch(|batch| {
            for command in commands {
                let _ = batch.submit(command, &context, None)?;
                at += 1;
            }
            Ok::<(), SubmitError>(())
        });
        done.map_err(|error| match error {
            SubmitError::Refused(_) => (Some(at), error.to_string()),
            SubmitError::Failed(_) => (None, error.to_string()),
        })
    }
}
