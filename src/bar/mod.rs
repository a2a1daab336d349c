//! Discs on the bar: what is on hand, and how a load is made from it.
//!
//! Knows masses alone. Must never know an athlete, a rule or a platform.

mod discs;
mod loading;
mod loads;

pub use discs::{DiscError, DiscSet, Discs, disc_sets, set_of_discs};
pub use loading::{Change, Nearest, change, fewest, nearest};
pub use loads::Loads;
