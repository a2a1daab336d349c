//! Several cards a page.

use super::block::{self, Cards};
use super::factor;
use super::flow::{self, Piece, Slot};
use super::page::{Item, Pen};

/// Blank between a card's content and where it is cut.
const INSET: f32 = 12.0;

/// One piece a row of cards.
pub(super) fn pieces(cards: &Cards, width: f32, height: f32) -> Vec<Piece> {
    let across = cards.across.max(1);
    // The outer cards reach to the edges of the body.
    let gutters = 2.0 * INSET * factor(across - 1);
    let inner = (width - gutters) / factor(across);
    let laid: Vec<Vec<Piece>> = cards
        .cards
        .iter()
        .map(|blocks| block::pieces(blocks, inner, height))
        .collect();
    let tallest = laid.iter().map(|p| tall(p)).fold(0.0, f32::max);
    let room = |down: usize| height / factor(down) - 2.0 * INSET;
    let down = (1..=cards.down.max(1))
        .rev()
        .find(|down| tallest <= room(*down))
        .unwrap_or(1);
    let slots: Vec<Slot> = laid
        .into_iter()
        .flat_map(|pieces| flow::flow(pieces, room(down)))
        .collect();
    let row_height = height / factor(down);
    slots
        .chunks(across)
        .enumerate()
        .map(|(index, row)| {
            let mut items = Vec::new();
            for (column, slot) in row.iter().enumerate() {
                let x = factor(column) * (inner + 2.0 * INSET);
                let moved = slot.items.iter().cloned().map(|i| i.moved(x, INSET));
                items.extend(moved);
                if column > 0 {
                    let x = x - INSET;
                    items.push(Item::Line {
                        x1: x,
                        y1: 0.0,
                        x2: x,
                        y2: row_height,
                        pen: Pen::Cut,
                    });
                }
            }
            if index % down != down - 1 {
                items.push(Item::rule(0.0, width, row_height, Pen::Cut));
            }
            Piece {
                height: row_height,
                items,
                ..Piece::default()
            }
        })
        .collect()
}

/// Height of the pieces one below another, without the space above the first.
fn tall(pieces: &[Piece]) -> f32 {
    let first = pieces.first().map_or(0.0, |piece| piece.gap);
    pieces.iter().map(|p| p.gap + p.height).sum::<f32>() - first
}
