//! `12 to 3`: another platform for an athlete, with all attempts.

use super::Meaning;
use super::read::Line;
use crate::day::{Command, queue};
use crate::desk::see;
use crate::roster::Entry;
use crate::sheets::place_on;

impl Line<'_> {
    /// An athlete who is named goes to the platform that the words name.
    pub(super) fn to(&self, entry: &Entry, words: &[&str]) -> Result<Meaning, String> {
        let platform = self.platform_named(&words.join(" "))?;
        let label = self.facts.platform_label(platform);
        let number = entry.number;
        if self.facts.platform_of(entry) == Some(platform) {
            return Err(format!("Lot {number} is on {label} already."));
        }
        let place = place_on(self.facts, entry, platform);
        let flight = match &place.flight {
            Some(flight) => format!("flight {flight}"),
            None => "a flight of its own".to_owned(),
        };
        let running = self
            .facts
            .platform(platform)
            .and_then(|p| p.running.as_ref());
        let runs = match running {
            Some(running) if running.session != entry.session => {
                format!(" Session {} runs there.", running.session)
            }
            Some(running) => {
                format!(
                    " {} runs there.",
                    see::capital(&see::lift_name(&running.slot))
                )
            }
            None => String::new(),
        };
        Ok(Meaning::Do {
            command: Box::new(Command::Place(vec![(number, place)])),
            sentence: format!(
                "Lot {number} {} goes to {label}, {flight}, with all attempts.{runs} The \
                 Flights screen (F5) undoes it.",
                entry.name()
            ),
        })
    }

    /// `to 3`: the athlete who is called, else the next one, goes.
    pub(super) fn next_to(&self, words: &[&str]) -> Result<Meaning, String> {
        let order = queue(self.facts, self.platform);
        let first = order.iter().find(|q| q.called).or(order.first());
        match first.and_then(|q| self.facts.entries.get(&q.entry)) {
            Some(entry) => self.to(entry, words),
            None => Err(format!(
                "Nobody is up on {}; write the lot number first: 12 to 3.",
                self.facts.platform_label(self.platform)
            )),
        }
    }

    /// A platform by its number or its label.
    fn platform_named(&self, words: &str) -> Result<u8, String> {
        let named = (1..).zip(&self.facts.platforms).map(|(n, _)| n).find(|n| {
            let label = self.facts.platform_label(*n);
            words == n.to_string() || words.eq_ignore_ascii_case(&label)
        });
        let many = self.facts.platforms.len();
        named.ok_or_else(|| match (words.is_empty(), many) {
            (_, 1) => {
                "There is one platform only; the Day screen (F2) adds more.".to_owned()
            }
            (true, _) => {
                format!("To which platform? Write its number, 1 to {many}: 12 to 2.")
            }
            (false, _) => {
                format!("There is no platform “{words}”; write its number, 1 to {many}.")
            }
        })
    }
}
