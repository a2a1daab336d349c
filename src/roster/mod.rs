//! Athletes, their entries, clearances and set-ups.
//!
//! Knows measures, lifts and the words of the roster's columns; must never
//! know a queue, an attempt, a file or a screen.

mod change;
mod columns;
mod dates;
mod entry;
mod person;

pub use crate::rules::Sex;
pub use change::Change;
pub use columns::{Column, ColumnError, Reading, last_day};
pub use entry::{Clearance, ERASED, Entered, Entry, EntryKey, Presence, SlotLine};
pub use person::{Born, split_name};
