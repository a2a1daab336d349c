//! Published results of real competitions, lifted again by the engine.
//!
//! Sources, as anonymous figures in the CSV files beside this one:
//! `weightlifting-*.csv` from a public database of United States national
//! weightlifting results (GitHub: stevejarvis/usa-weightlifting-results), six
//! meets from 1998 to 2010; `powerlifting-2017-women.csv` from the
//! public-domain data set tidytuesday 2019-10-08 (`ipf_lifts.csv`), twelve
//! classes of one world championship.
//!
//! What the sheets don't hold is made up here: lots, times and the split of
//! the lights. The order of call comes from the engine's queue alone. Places
//! are those among the rows in the files; every weightlifter there made a
//! total.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod meet;
mod powerlifting;
mod sheet;
#[path = "../support/mod.rs"]
mod support;
mod weightlifting;
