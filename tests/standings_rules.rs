//! Places, totals, groups, teams and revisions of small days, with expectations
//! worked out by hand.
//!
//! Every rule here is one of the day's own keys; a published source is named
//! where there is one, everything else is common practice.

// Helpers stand outside of a test's own functions.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;
#[path = "standings_rules/command.rs"]
mod command;
#[path = "standings_rules/day.rs"]
mod day;
#[path = "standings_rules/groups.rs"]
mod groups;
#[path = "standings_rules/reps.rs"]
mod reps;
#[path = "standings_rules/revisions.rs"]
mod revisions;
mod support;
#[path = "standings_rules/teams.rs"]
mod teams;
#[path = "standings_rules/unplaced.rs"]
mod unplaced;
#[path = "standings_rules/variants.rs"]
mod variants;
