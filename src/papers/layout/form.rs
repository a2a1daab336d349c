//! Boxes to write in, pairs of label and value, lines to tick.

use super::block::{Field, Form};
use super::factor;
use super::flow::Piece;
use super::page::{Item, Pen};
use super::text::{self, Type};
use crate::papers::fonts::{CAP_HEIGHT, LEADING};

const LABEL_SIZE: f32 = 7.5;
const VALUE_SIZE: f32 = 12.0;
const PAIR_SIZE: f32 = 11.0;
const PAD: f32 = 4.0;

/// A form: one piece a row, so that a long one can be broken between rows.
pub(super) fn form(form: &Form, width: f32) -> Vec<Piece> {
    let rows = form.rows.iter().filter(|row| !row.is_empty());
    rows.enumerate()
        .map(|(index, row)| Piece {
            height: form.row_height,
            gap: if index == 0 { 8.0 } else { 0.0 },
            items: form_row(row, width, form.row_height),
            // Two rows at least stay together.
            keep: index == 0 && form.rows.len() > 1,
            ..Piece::default()
        })
        .collect()
}

fn form_row(fields: &[Field], width: f32, height: f32) -> Vec<Item> {
    let label = Type::grey(LABEL_SIZE);
    let value = Type::bold(VALUE_SIZE.min(height * 0.5));
    let all: f32 = fields.iter().map(|field| field.weight.max(0.1)).sum();
    let mut items = Vec::new();
    let mut x = 0.0;
    for field in fields {
        let w = width * field.weight.max(0.1) / all;
        items.push(Item::Rect {
            x,
            y: 0.0,
            w,
            h: height,
            pen: Pen::Thin,
        });
        let room = w - 2.0 * PAD;
        if !field.label.is_empty() {
            let y = 3.5 + LABEL_SIZE * CAP_HEIGHT;
            items.push(label.at(x + PAD, y, label.shorten(&field.label, room)));
        }
        if !field.value.is_empty() {
            items.push(value.at(
                x + PAD,
                height - 6.0,
                value.shorten(&field.value, room),
            ));
        }
        x += w;
    }
    items
}

/// Labels and values: labels in one column, values in the next, wrapped.
pub(super) fn key_values(pairs: &[(String, String)], width: f32) -> Vec<Piece> {
    let (key, value) = (Type::grey(PAIR_SIZE), Type::black(PAIR_SIZE));
    let leading = PAIR_SIZE * LEADING;
    let baseline = f32::midpoint(leading, PAIR_SIZE * CAP_HEIGHT);
    let keys = pairs.iter().map(|(k, _)| key.width(&text::clean(k)));
    let key_width = keys.fold(0.0, f32::max).min(width * 0.4);
    let x = key_width + 14.0;
    pairs
        .iter()
        .enumerate()
        .map(|(index, (k, v))| {
            let lines = text::wrap(&text::clean(v), value.size, value.face, width - x);
            let mut items = vec![key.at(0.0, baseline, key.shorten(k, key_width))];
            for (line, words) in lines.iter().enumerate() {
                let y = baseline + factor(line) * leading;
                items.push(value.at(x, y, words.clone()));
            }
            Piece {
                height: leading * factor(lines.len()) + 3.0,
                gap: if index == 0 { 6.0 } else { 0.0 },
                items,
                keep: index == 0 && pairs.len() > 1,
                ..Piece::default()
            }
        })
        .collect()
}

/// Lines with a box to tick before each.
pub(super) fn ticks(lines: &[String], width: f32) -> Vec<Piece> {
    let set = Type::black(PAIR_SIZE);
    let leading = PAIR_SIZE * LEADING;
    let (side, x) = (10.0, 20.0);
    lines
        .iter()
        .enumerate()
        .map(|(index, line)| {
            let words = text::wrap(&text::clean(line), set.size, set.face, width - x);
            let mut items = vec![Item::Rect {
                x: 0.5,
                y: (leading - side) / 2.0 + 3.0,
                w: side,
                h: side,
                pen: Pen::Thin,
            }];
            let baseline = f32::midpoint(leading, PAIR_SIZE * CAP_HEIGHT) + 3.0;
            for (number, line) in words.iter().enumerate() {
                let y = baseline + factor(number) * leading;
                items.push(set.at(x, y, line.clone()));
            }
            Piece {
                height: leading * factor(words.len()) + 6.0,
                gap: if index == 0 { 4.0 } else { 0.0 },
                items,
                ..Piece::default()
            }
        })
        .collect()
}
