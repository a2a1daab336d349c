//! Boards: windows that only show. They hold no text field.

pub mod hall;
