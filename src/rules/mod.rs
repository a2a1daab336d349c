//! A format as data.
//!
//! What the engine asks of a format, read from `resources/rules/*.toml`. The
//! engine never asks which format it is in. Must never know an entry, an
//! attempt or a file on disk.

mod ages;
mod categories;
mod choices;
mod clubs;
mod format;
mod keys;
mod model;
mod own;
mod scores;
mod sex;
mod words;

pub use ages::{AgeGroup, AgeSet, age_sets, ages_named};
pub use categories::{CategoryGroup, CategorySet, category_sets, newest_set, set_named};
pub use choices::{
    Again, Allowance, BarRule, ChallengeCloses, ChangeClock, Changes, Credit,
    ErrorGrants, FollowingEnds, FoundLoad, Gate, Grant, Judging, Jumps, NameShown,
    OrderKey, Posting, Queue, Reps, Seconds, TableNumber, TeamRules, TeamScores, TeamTie,
    TieKey, WrongCatch,
};
pub use clubs::{Club, Least};
pub use format::{Format, FormatError, format_named, formats};
pub use keys::{Key, KeyError, key_groups, keys};
pub use model::Rules;
pub use own::{OwnRulesError, own_format};
pub use scores::{ClassTotal, DayScores, Equipment, Formula, ScoreRules};
pub use sex::Sex;
