//! Maxday runs the scorer's table on a school's max-testing day or in-house
//! barbell meet.
//!
//! This file is the map. Dependencies run downward only; everything from
//! [`sheets`] down is the pure core, which has no I/O, no clock and no global
//! state.

pub mod bar;
pub mod cli;
pub mod day;
pub mod desk;
pub mod exchange;
pub mod file;
pub mod lift;
pub mod measure;
pub mod papers;
pub mod post;
pub mod roster;
pub mod rules;
pub mod samples;
pub mod score;
pub mod sheets;
pub mod standings;
