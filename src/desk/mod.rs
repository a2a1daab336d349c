//! The desk: windows for the scorer's table.
//!
//! Faces are thin: a screen shows sheets and facts and emits commands. Only
//! `effects` touches a clock, a file or a task of the system.

pub mod font;
pub mod keys;
pub mod screen;
pub mod theme;
