//! Rows of typed cells, computed once for every face.
//!
//! A screen, a board, a paper and a CSV file of the same thing show the same
//! sheet. Knows the day and the standings; must never know a file, a window or
//! a font.

mod cell;
mod changes;
mod guide;
mod history;
mod loading;
mod notes;
mod on_bar;
mod order;
mod posting;
mod records;
mod results;
mod scores;
mod team;
mod time;

pub use cell::{Align, Cell, Column, Group, Table, ruling_words};
pub use changes::changes;
pub use guide::{Part, quick_guide};
pub use history::history_table;
pub use loading::{Loading, MadeUp, Standing, loading, standing_bar};
pub use notes::{standing_note, standing_reasons, with_notes};
pub use on_bar::{nearest_words, not_made, one_side};
pub use order::{queue_table, start_list};
pub use posting::{Audience, name_for, shows_bodyweight, shows_category, shows_score};
pub use records::{hides_records, new_records_table, records_table};
pub use results::{
    attempt_cell, attempts_table, lift_name, lift_short, lights_word, standings_table,
};
pub use scores::{
    leaders_table, score_notes, scored_standings_table, standings_by_score_table,
};
pub use team::team_table;
pub use time::{Ending, InTime, ending, expected_words, to_minute};
