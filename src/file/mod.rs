//! The meet file: one SQLite database, extension `.maxday`.
//!
//! Keeps the journal of a day durable, whole and readable for years. Knows
//! the day and what it says of itself; must never know a screen, a paper, a
//! CSV file or the time of day (which comes in with every call).
//!
//! An act is acknowledged only when it survives a power cut. After a crash
//! the `-journal` file beside the day belongs to it: open the day once where
//! it is before copying it.

mod backup;
mod batch;
mod check;
mod erase;
mod error;
mod host;
mod journal;
mod keep;
mod lease;
mod live;
mod open;
mod plan;
mod recover;
mod scan;
pub mod shape;
mod views;

pub use backup::backup;
pub use batch::Batch;
pub use check::{CheckReport, check};
pub use erase::{EraseError, Erased, erasable, erase};
pub use error::{FileError, SubmitError};
pub use keep::{Kept, keep, newest_backup, restore, stem_of_backup};
pub use lease::{HEARTBEAT_MS, Holder, STALE_MS};
pub use live::{Live, WhyReadOnly};
pub use open::{EXTENSION, FILE_VERSION};
pub use plan::Done;
pub use recover::{Recovered, recover};
