//! Several cards a page.

use super::block::{self, Cards};
use super::factor;
use super::flow::{self, Piece, Slot};
use super::page::{Item, Pen};

/// Blank between a card's content and where it is cut.
const INSET: f32 = 12.0;

/// One piece a row of cards.
///
/// A row has its share of the height, and a larger one only where a card of it is
/// taller: one long name doesn't make all cards larger.
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
    let share = |down: usize| height / factor(down);
    let room = |down: usize| share(down) - 2.0 * INSET;
    let mut rows: Vec<(f32, Vec<Slot>)> = Vec::new();
    for row in laid.chunks(across) {
        let tallest = row.iter().map(|p| tall(p)).fold(0.0, f32::max);
        let fits = |down: &usize| tallest <= room(*down);
        let down = (1..=cards.down.max(1)).rev().find(fits);
        let down = down.unwrap_or(1);
        let slots: Vec<Slot> = row
            .iter()
            .flat_map(|pieces| flow::flow(pieces.clone(), room(down)))
            .collect();
        rows.extend(slots.chunks(across).map(|row| (share(down), row.to_vec())));
    }
    let mut pieces = Vec::new();
    let mut used = 0.0;
    for (index, (row_height, row)) in rows.iter().enumerate() {
        let fresh = index > 0 && used + row_height > height + 0.01;
        if fresh {
            used = 0.0;
        }
        used += row_height;
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
                    y2: *row_height,
                    pen: Pen::Cut,
                });
            }
        }
        // Cut where something can stand below, if only another page's worth.
        if used < height - 0.01 {
            items.push(Item::rule(0.0, width, *row_height, Pen::Cut));
        }
        pieces.push(Piece {
            height: *row_height,
            items,
            fresh,
            ..Piece::default()
        });
    }
    pieces
}

/// Height of the pieces one below another, without the space above the first.
fn tall(pieces: &[Piece]) -> f32 {
    let first = pieces.first().map_or(0.0, |piece| piece.gap);
    pieces.iter().map(|p| p.gap + p.height).sum::<f32>() - first
}
