//! The desk: windows for the scorer's table.
//!
//! Faces are thin: a screen shows sheets and facts and emits commands. Only
//! `effects` touches a clock, a file or a task of the system.

pub mod action;
pub mod call_line;
pub mod effects;
pub mod font;
pub mod keys;
pub mod papers;
pub mod sample;
pub mod screen;
pub mod see;
pub mod theme;
pub mod widget;
