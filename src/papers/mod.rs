//! Printable papers: pages of tables, forms and cards, and their PDF.
//!
//! A paper is made in two steps. [`pages`] lays [`Block`]s out on [`Page`]s of
//! plain [`Item`]s: text, lines and boxes in points from the top left corner.
//! [`pdf`] draws such pages. A document is a [`Frame`] (what stands at the head
//! and foot of every page) and a list of blocks:
//!
//! ```
//! use maxday::papers::{Block, Frame, Meta, Paper, pages, pdf};
//!
//! let frame = Frame::new(Paper::A4, "Start list")
//!     .day("Autumn max day", "2026-11-14")
//!     .foot("printed 09:12, 2026-11-14", "For posting");
//! let pages = pages(&frame, &[Block::heading("Flight A"), Block::space(8.0)]);
//! assert!(pdf(&pages, &Meta::new("Start list"))?.starts_with(b"%PDF"));
//! # Ok::<(), maxday::papers::PaperError>(())
//! ```
//!
//! The engine here knows sheets and fonts; it must never know a day, a file, the
//! time of day or who may see what: every word on a page comes in as an argument.
//! Only [`documents`] knows a day.

pub mod documents;
mod draw;
mod fonts;
mod layout;
pub mod picture;

pub use draw::{Meta, PaperError, pdf};
pub use fonts::{Face, width};
pub use layout::{
    Block, Cards, Chart, Field, Form, Frame, Head, Ink, Item, Page, Panel, Paper, Pen,
    Point, TableStyle, missing, pages, pages_of, text_of,
};
