//! Published results of real competitions, lifted again by the engine.
//!
//! Sources, as anonymous figures in the CSV files beside this one:
//! `weightlifting-1998-*.csv` to `weightlifting-2010-*.csv` from a public
//! database of United States national weightlifting results (GitHub:
//! stevejarvis/usa-weightlifting-results), six meets;
//! `weightlifting-2017-youth.csv` from a public database of the IWF's results
//! (GitHub: euanwm/OpenWeightlifting), one continental youth championship;
//! `powerlifting-2016-summer.csv` from the public-domain data of the
//! OpenPowerlifting project (meet nipf/1602), one meet in Northern Ireland;
//! `powerlifting-2017-women.csv` from the public-domain data set tidytuesday
//! 2019-10-08 (`ipf_lifts.csv`), twelve classes of one world championship,
//! best lifts only.
//!
//! What the sheets don't hold is made up here: lots, times and the split of
//! the lights, and for the sheet of best lifts the attempts on the way. The
//! order of call comes from the engine's queue alone. Places are those among
//! the rows in the files.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod meet;
mod powerlifting;
mod rounds;
mod sheet;
#[path = "../support/mod.rs"]
mod support;
mod weightlifting;
mod youth;
