//! What comes next on a day that has hardly begun, as a sentence with its key.

use super::action::{Action, label};
use super::screen::ScreenId;
use crate::day::Facts;
use crate::rules::Queue;

/// What to do next while nobody is entered, nobody is in a flight or nothing
/// was lifted; `None` after that.
pub fn next_step(facts: &Facts) -> Option<String> {
    let key = |screen| label(Action::Show(screen));
    if facts.entries.is_empty() {
        return Some(format!(
            "Nobody is entered yet. {}: type the first athlete there, or read a list from a \
             file.",
            key(ScreenId::Roster)
        ));
    }
    if facts.entries.values().all(|e| e.flight.is_empty()) {
        return Some(format!(
            "Nobody is in a flight yet. {}: Enter there takes the proposal.",
            key(ScreenId::Flights)
        ));
    }
    let slots = facts.runs.values().flat_map(|slots| slots.values());
    let mut attempts = slots.flat_map(|run| run.attempts.values());
    if facts.begun.is_empty() && !attempts.any(|attempt| attempt.ruled.is_some()) {
        let table = format!(
            "{}: Enter there starts the first flight",
            key(ScreenId::Table)
        );
        return Some(match facts.rules.queue {
            Queue::Law => format!("Nothing was lifted yet. {table}."),
            Queue::Advice => format!(
                "Nothing was lifted yet. {table}; {}: attempts that were written on cards.",
                key(ScreenId::Cards)
            ),
        });
    }
    None
}
