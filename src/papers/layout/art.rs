//! What isn't running text: centred lines, lines to sign on, charts of attempts.

use super::block::{Chart, Panel};
use super::factor;
use super::flow::Piece;
use super::page::{Item, Pen};
use super::text::{self, Type};
use crate::papers::fonts::{CAP_HEIGHT, LEADING};
use crate::papers::picture::Image;

const LABEL: f32 = 8.5;
const TITLE: f32 = 10.0;

/// Height of a chart's marks, from the highest to the lowest load.
const PLOT: f32 = 46.0;

/// Most panels side by side.
const ACROSS: usize = 4;

/// Lines of text in the middle of the width.
pub(super) fn centred(words: &str, size: f32, bold: bool, width: f32) -> Vec<Piece> {
    let set = if bold {
        Type::bold(size)
    } else {
        Type::black(size)
    };
    let leading = size * LEADING;
    let baseline = f32::midpoint(leading, size * CAP_HEIGHT);
    let lines = text::wrap(&text::clean(words), set.size, set.face, width);
    let count = lines.len();
    lines
        .into_iter()
        .enumerate()
        .map(|(index, line)| Piece {
            height: leading,
            gap: if index == 0 { 4.0 } else { 0.0 },
            items: vec![set.around(width / 2.0, baseline, line)],
            keep: index + 1 < count,
            ..Piece::default()
        })
        .collect()
}

/// A picture in the middle.
pub(super) fn picture(image: &Image, height: f32, width: f32) -> Vec<Piece> {
    let (w, h) = image.within(width, height);
    vec![Piece {
        height,
        items: vec![Item::Picture {
            x: (width - w) / 2.0,
            y: (height - h) / 2.0,
            w,
            h,
            image: image.clone(),
        }],
        ..Piece::default()
    }]
}

/// Lines to sign on, side by side, each with its label beneath.
pub(super) fn signatures(labels: &[String], width: f32) -> Vec<Piece> {
    let count = labels.len().max(1);
    let gutter = 36.0;
    let each = (width - gutter * factor(count - 1)) / factor(count);
    let set = Type::grey(LABEL);
    let mut items = Vec::new();
    for (index, label) in labels.iter().enumerate() {
        let x = factor(index) * (each + gutter);
        items.push(Item::rule(x, x + each, 34.0, Pen::Thin));
        items.push(set.at(x, 45.0, set.shorten(label, each)));
    }
    vec![Piece {
        height: 49.0,
        gap: 6.0,
        items,
        ..Piece::default()
    }]
}

/// The panels of a chart, in rows.
pub(super) fn chart(chart: &Chart, width: f32) -> Vec<Piece> {
    let across = chart.panels.len().clamp(1, ACROSS);
    let gutter = 18.0;
    let each = (width - gutter * factor(across - 1)) / factor(across);
    let rows = chart.panels.chunks(across);
    rows.map(|row| {
        let mut items = Vec::new();
        for (index, one) in row.iter().enumerate() {
            let x = factor(index) * (each + gutter);
            items.extend(panel(one, each).into_iter().map(|i| i.moved(x, 0.0)));
        }
        Piece {
            height: TITLE + 16.0 + PLOT + 34.0,
            gap: 8.0,
            items,
            ..Piece::default()
        }
    })
    .collect()
}

/// One lift: a mark an attempt, the higher the heavier, with its load above it and
/// its number and word below. Good attempts are joined, and their mark is a heavy
/// bar; any other is an open box.
fn panel(panel: &Panel, width: f32) -> Vec<Item> {
    let (title, load) = (Type::bold(TITLE), Type::black(LABEL));
    let word = Type::grey(7.5);
    let mut items = vec![title.at(0.0, TITLE * 0.8, title.shorten(&panel.title, width))];
    let top = TITLE + 18.0;
    let axis = top + PLOT + 8.0;
    items.push(Item::rule(0.0, width, axis, Pen::Hair));
    let heights = || panel.points.iter().filter_map(|point| point.height);
    let low = heights().fold(f32::MAX, f32::min);
    let high = heights().fold(f32::MIN, f32::max);
    let span = (high - low).max(f32::MIN_POSITIVE);
    let y = |height: f32| {
        if high > low {
            top + PLOT * (high - height) / span
        } else {
            top + PLOT / 2.0
        }
    };
    let step = width / factor(panel.points.len().max(1));
    let half = (step * 0.16).clamp(3.0, 9.0);
    let mut last: Option<(f32, f32)> = None;
    for (index, point) in panel.points.iter().enumerate() {
        let x = step * (factor(index) + 0.5);
        if let Some(height) = point.height {
            let y = y(height);
            if point.good {
                if let Some((x1, y1)) = last {
                    items.push(Item::Line {
                        x1,
                        y1,
                        x2: x - half,
                        y2: y,
                        pen: Pen::Thin,
                    });
                }
                items.push(Item::rule(x - half, x + half, y, Pen::Heavy));
                last = Some((x + half, y));
            } else {
                items.push(Item::Rect {
                    x: x - 3.5,
                    y: y - 3.5,
                    w: 7.0,
                    h: 7.0,
                    pen: Pen::Thin,
                });
            }
            items.push(load.around(x, y - 6.0, load.shorten(&point.load, step - 2.0)));
        }
        let number = (index + 1).to_string();
        items.push(word.around(x, axis + 10.0, number));
        items.push(word.around(x, axis + 20.0, word.shorten(&point.word, step - 2.0)));
    }
    items
}
