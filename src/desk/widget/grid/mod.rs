//! The one editable grid of the desk: rows by columns, typed like a
//! spreadsheet.
//!
//! [`Grid`] is the pure model: the cursor, a draft a cell, the sentence of a
//! refusal at its cell, and the moves. A [`Sheet`] says what the cells hold.
//! Must never know a command, an athlete or a lift.

mod guard;
mod model;
mod moves;
mod press;
mod sheet;
mod view;
mod waiting;

#[cfg(test)]
mod tests;
#[cfg(test)]
pub(crate) mod trial;

pub use model::{Draft, Event, Grid, Key, Said, Spot};
pub use press::key_of;
pub use sheet::{Cell, Column, Enter, Mark, Sheet};
pub use view::{Shown, focus, go_on, shortened, view};
pub use waiting::{Handed, Waiting};
