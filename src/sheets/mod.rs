//! Rows of typed cells, computed once for every face.
//!
//! A screen, a board, a paper and a CSV file of the same thing show the same
//! sheet. Knows the day and the standings; must never know a file, a window or
//! a font.

mod cell;
mod changes;
mod chart;
mod clubs;
mod guide;
mod history;
mod judging;
mod loading;
mod marks;
mod mended;
mod moves;
mod norms;
mod notes;
mod on_bar;
mod openers;
mod order;
mod posting;
mod records;
mod results;
mod safety;
mod scores;
mod setups;
mod team;
mod time;
mod told;
mod training;
mod warm_up;

pub use cell::{Align, Cell, Column, Group, Table, ruling_words};
pub use changes::changes;
pub use chart::{BAR_ALONE, NO_DISCS, loading_chart};
pub use clubs::{club_needs, clubs_table, hides_clubs};
pub use guide::{Part, quick_guide, quick_guide_keys, quick_guide_with};
pub use history::history_table;
pub use judging::{JudgingSheet, NoLift, judging_sheets, judging_table};
pub use loading::{Loading, MadeUp, Standing, loading, standing_bar};
pub use marks::{ClockMark, mark_at, mark_between};
pub use mended::{Fate, act_row_words, corrected_words, correction_words, fates};
pub use moves::{Move, place_on, suggested_move};
pub use norms::{norm_words, norms_table};
pub use notes::{standing_note, standing_reasons, with_notes, with_notes_by};
pub use on_bar::{bar_words, nearest_words, not_made, one_side};
pub use openers::{ceiling_remark, opener_remarks, opener_words, openers_sum_remark};
pub use order::{queue_table, start_list};
pub use posting::{Audience, name_for, shows_bodyweight, shows_category, shows_score};
pub use records::{hides_records, new_records_table, records_table};
pub use results::{
    attempt_cell, attempts_table, lift_name, lift_short, lights_word, standings_table,
};
pub use safety::{SafetySheet, safety_policy, safety_sheets, safety_table};
pub use scores::{
    leaders_table, no_score, score_notes, score_reasons, scored_standings_table,
    standings_by_score_on_screen, standings_by_score_table, standings_on_screen,
};
pub use setups::setup_names;
pub use team::{team_scores_table, team_table};
pub use time::{Ending, InTime, ending, expected_words, to_minute};
pub use told::{act as act_words, entry_of, event as event_words};
pub use training::{
    BAR, PercentError, Share, SquadBy, TrainingRow, next_opener_percent, read_percents,
    training_percents, training_rows, training_table,
};
pub use warm_up::{
    Step, WarmUpRow, WarmUpSet, warm_up_rows, warm_up_sets, warm_up_steps,
};
