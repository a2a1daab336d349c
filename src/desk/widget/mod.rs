//! Parts that several screens are made of.

pub mod aside;
pub mod field;
pub mod figures;
pub mod form;
pub mod grid;
pub mod lamp;
pub mod list;
pub mod next;
pub mod report;
pub mod sheet;
