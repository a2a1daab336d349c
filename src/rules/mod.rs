//! A format as data.
//!
//! What the engine asks of a format, read from `resources/rules/*.toml`. The
//! engine never asks which format it is in. Must never know an entry, an
//! attempt or a file on disk.

mod categories;
mod format;
mod keys;
mod model;
mod own;
mod sex;
mod words;

pub use categories::{CategoryGroup, CategorySet, category_sets, newest_set, set_named};
pub use format::{Format, FormatError, format_named, formats};
pub use keys::{Key, KeyError, keys};
pub use model::{
    Again, Allowance, BarRule, Changes, Gate, Judging, NameShown, OrderKey, Posting,
    Queue, Rules, Seconds, TableNumber, TieKey, WrongCatch,
};
pub use own::{OwnRulesError, own_format};
pub use sex::Sex;
