//! Work that takes a while: first it is said, then it is done.
//!
//! The window stands still while it is done, so the sentence must be on the
//! screen before it begins.

use std::path::PathBuf;
use std::time::Duration;

use iced::Task;

use super::app::{Desk, Message};
use crate::papers::documents::Order;

/// A roster's file of so many bytes, some two hundred rows, takes a while.
pub const LARGE_ROSTER: u64 = 16_000;

/// The papers of so many entries take a while.
pub const LARGE_DAY: usize = 150;

/// How long a window gets to draw the sentence.
const TO_DRAW: Duration = Duration::from_millis(150);

/// Something that takes a while.
#[derive(Debug, Clone)]
pub enum Work {
    /// A roster's file is imported.
    Import(PathBuf),
    /// Papers are written, with a coach's norms from that file.
    Papers(Box<Order>, String),
}

impl Desk {
    /// Writes the papers that the screen of papers has in hand.
    pub(super) fn papers(&mut self) -> Task<Message> {
        let order = self.papers.order(self.effects.now());
        let large = self.facts().entries.len() >= LARGE_DAY;
        let norms = self.papers.norms().to_owned();
        let work = Work::Papers(Box::new(order), norms);
        self.say_then(large, "Writing the papers", work)
    }

    /// Does some work, where it is large after saying so.
    pub(super) fn say_then(
        &mut self,
        large: bool,
        what: &str,
        work: Work,
    ) -> Task<Message> {
        if !large {
            return self.work(work);
        }
        self.said = Some(Ok(format!("{what}; that takes a moment.")));
        Task::perform(async { std::thread::sleep(TO_DRAW) }, move |()| {
            Message::Now(work.clone())
        })
    }

    /// Does the work.
    pub(super) fn work(&mut self, work: Work) -> Task<Message> {
        self.said = None;
        match work {
            Work::Import(path) => {
                let report = self.effects.import(&path);
                self.roster.imported(report).map(Message::Roster)
            }
            Work::Papers(order, norms) => {
                let said = self.effects.write_papers(&order, &norms);
                self.say(said);
                Task::none()
            }
        }
    }
}
