//! How the desk keeps backups and goes on from one.

use iced::Task;
use iced::futures::channel::oneshot;

use super::app::{Desk, Message};
use super::effects::{Effects, Job};
use super::screen::first::First;
use super::screen::{Backup, ScreenId};

/// The first screen with what this user had last.
pub(super) fn first_screen(effects: &Effects) -> First {
    let today = effects.now().local().date();
    First::new(effects.remembered(), effects.documents(), today)
        .with_backup(effects.last_backup())
}

impl Desk {
    /// Makes the backup that is due, if one is.
    pub(super) fn back_up_if_due(&mut self) -> Task<Message> {
        let due = self.effects.backup_due();
        self.back_up(due)
    }

    /// Makes a backup on a thread of its own, since a stick may be slow or
    /// never answer; where the time stands, at once.
    fn back_up(&mut self, job: Option<Job>) -> Task<Message> {
        let Some(job) = job else {
            return Task::none();
        };
        if !self.effects.has_time() {
            let done = job.run();
            return self.dispatch(Message::BackedUp(job, done));
        }
        let (done, answer) = oneshot::channel();
        let on_thread = job.clone();
        let _ = std::thread::spawn(move || {
            let _ = done.send(on_thread.run());
        });
        Task::perform(answer, move |done| {
            let ended = || Err("The backup ended before it was made.".to_owned());
            Message::BackedUp(job.clone(), done.unwrap_or_else(|_| ended()))
        })
    }

    /// Does what the day screen asks about backups.
    pub(super) fn at_backups(&mut self, asked: Backup) -> Task<Message> {
        match asked {
            Backup::Into(folder) => {
                let answer = self.effects.set_backup_folder(&folder);
                let job = answer.is_ok().then(|| self.effects.backup_now());
                self.day.know(self.effects.backups_told());
                self.day.answered(answer, self.effects.facts());
                self.back_up(job.flatten())
            }
            Backup::Now => {
                let job = self.effects.backup_now();
                self.said = job.is_none().then(|| {
                    Err("There is no folder for backups; type one above.".to_owned())
                });
                self.back_up(job)
            }
            Backup::Restore(file) => {
                let last = self.effects.backups_told().file;
                let typed = Some(file.trim_matches(['"', '\'']).into());
                let file = if file.is_empty() { last } else { typed };
                let answer = match file {
                    Some(file) => self.effects.restore(&file),
                    None => Err("There is no backup yet; type its file.".to_owned()),
                };
                if answer.is_err() {
                    let refused = answer.map(drop);
                    self.day.answered(refused, self.effects.facts());
                    return Task::none();
                }
                let shown = self.opened(Ok(()));
                let day = self.show(ScreenId::Day);
                self.said = Some(answer);
                Task::batch([shown, day])
            }
        }
    }
}
