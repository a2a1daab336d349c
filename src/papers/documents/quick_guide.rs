//! The quick guide on one page.

use super::shared::frame;
use super::{Draft, Order};
use crate::day::Facts;
use crate::papers::Block;
use crate::sheets::quick_guide;

/// What somebody needs who was put at the keyboard ten minutes ago.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let frame = frame(facts, order, "Quick guide to the table");
    let mut blocks = Vec::new();
    for part in quick_guide() {
        let mut together = vec![Block::heading(&part.title)];
        if !part.text.is_empty() {
            together.push(Block::paragraph(&part.text));
        }
        together.push(Block::key_values(part.lines.iter().cloned()));
        blocks.push(Block::KeepTogether(together));
    }
    blocks.push(Block::small(
        "General education. Local policy and the qualified supervisor on site come first.",
    ));
    Draft::new(frame, blocks, Vec::new())
}
