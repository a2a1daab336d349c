//! Blocks to pages, without a printer.
//!
//! Everything here is a pure function of its arguments and of the embedded
//! fonts' widths, so a page can be tested as data. Lengths are points (1/72
//! inch) from the top left corner, y downward. Must never know a PDF.

mod art;
mod block;
mod cards;
mod columns;
mod flow;
mod form;
mod frame;
mod page;
mod style;
mod table;
#[cfg(test)]
mod tests;
mod text;

pub use block::{Block, Cards, Chart, Field, Form, Panel, Point};
pub use frame::{Frame, Head, Paper};
pub use page::{Ink, Item, Page, Pen, missing, text_of};
pub use style::TableStyle;

/// Lays the blocks out on as many pages as they need; at least one.
///
/// A block that can't be broken and is taller than a page runs over its foot;
/// of what this module makes, that is only a card that holds a taller form.
pub fn pages(frame: &Frame, blocks: &[Block]) -> Vec<Page> {
    pages_of(&[(frame, blocks)])
}

/// Lays several parts out one after another, each in its own frame on pages of
/// its own, with their pages numbered through.
pub fn pages_of(parts: &[(&Frame, &[Block])]) -> Vec<Page> {
    let mut slots = Vec::new();
    for (frame, blocks) in parts {
        let (width, height) = frame.body();
        let pieces = block::pieces(blocks, width, height);
        let own = flow::flow(pieces, height);
        slots.extend(own.into_iter().map(|slot| (*frame, slot)));
    }
    let count = slots.len();
    slots
        .into_iter()
        .enumerate()
        .map(|(index, (frame, slot))| frame.page(index + 1, count, slot.items))
        .collect()
}

/// A count as a length's factor; beyond 65,535 it stays there.
fn factor(n: usize) -> f32 {
    u16::try_from(n).map_or(f32::from(u16::MAX), f32::from)
}
