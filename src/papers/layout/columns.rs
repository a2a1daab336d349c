//! How wide the columns of a table are, and in which type size.
//!
//! Everything is measured once in ems; a width at a size is a product.

use super::factor;
use super::style::TableStyle;
use super::text::clean;
use crate::papers::fonts::{self, Face};
use crate::sheets::{Align, Cell, Column, Table};

/// Column headings, as a share of the table's type size.
const HEADING: f32 = 0.76;

/// The smallest type of a heading, in points.
const LEAST_HEADING: f32 = 6.0;

/// Size of what stands small above or beneath a cell, as a share of the table's
/// type size.
pub(super) const SMALL: f32 = 0.74;

/// Blank before a column that is parted from the one before it, in points.
const GAP: f32 = 7.0;

/// Blank at each side of a cell, in ems.
const PAD: f32 = 0.45;

/// Wider texts than this many ems don't make the whole table smaller; they are
/// broken into lines.
const LONG: f32 = 15.0;

/// What a column of texts is narrowed to at the least, in ems.
const NARROW: f32 = 6.0;

/// The smallest type, in points, to which a table is set so that no word need be
/// broken.
const LEGIBLE: f32 = 7.5;

/// How much smaller than its smallest size a table is set so that no name need be
/// broken, as a share.
const WHOLE: f32 = 0.88;

/// The smallest type that is tried when numbers don't fit.
const TINY: f32 = 5.0;

/// A clean cell.
#[derive(Debug, Clone)]
pub(super) struct Shown {
    pub text: String,
    pub struck: bool,
}

/// A column that is shown, with its cells' measures in ems.
#[derive(Debug)]
pub(super) struct Measured<'a> {
    pub column: &'a Column,
    /// Its place in the rows of the sheet.
    pub index: usize,
    pub face: Face,
    pub boxed: bool,
    /// Places in the rows of what stands small above and beneath its cells.
    pub above: Option<usize>,
    pub beneath: Option<usize>,
    /// Blank before it, in points.
    gap: f32,
    /// The width of a box that has its own, in points.
    fixed: Option<f32>,
    /// Widest part after a decimal point, in ems.
    pub fraction: f32,
    /// Widest cell.
    cells: f32,
    /// Widest number.
    numbers: f32,
    /// Widest word, or part of one up to a hyphen.
    word: f32,
    /// The heading on at most two lines.
    heading: f32,
}

/// Where a column stands at the chosen size, in points.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place {
    pub x: f32,
    pub w: f32,
}

/// The chosen size and places.
#[derive(Debug)]
pub(super) struct Fit {
    pub size: f32,
    pub pad: f32,
    pub places: Vec<Place>,
}

/// The type size of the headings of a table in this size.
pub(super) fn heading_size(size: f32) -> f32 {
    (size * HEADING).max(LEAST_HEADING)
}

/// Where a plain decimal's fraction begins; `None` for anything but a number.
pub(super) fn fraction_start(text: &str) -> Option<usize> {
    let number = text.chars().all(|c| c.is_ascii_digit() || c == '.');
    (number && !text.is_empty()).then(|| text.find('.').unwrap_or(text.len()))
}

/// The columns with a heading, measured.
pub(super) fn measure<'a>(
    table: &'a Table,
    style: &TableStyle,
    groups: &[Vec<Vec<Shown>>],
) -> Vec<Measured<'a>> {
    let columns = table.columns.iter().enumerate();
    let mut measured: Vec<Measured<'a>> = columns
        .filter(|(_, column)| !column.label.is_empty())
        .map(|(index, column)| {
            let face = Face::of(style.bold.contains(&column.key));
            let (mut whole, mut fraction, mut words) = (0.0_f32, 0.0_f32, 0.0_f32);
            let mut word = 0.0_f32;
            for cell in groups.iter().flatten().filter_map(|row| row.get(index)) {
                for (line, text) in parts(column, &cell.text).into_iter().enumerate() {
                    let size = part_size(1.0, column, line);
                    let pieces = text.split(' ').flat_map(|w| w.split_inclusive('-'));
                    word = pieces
                        .map(|w| fonts::width(w, size, face))
                        .fold(word, f32::max);
                    match fraction_start(text).filter(|_| column.align == Align::Right) {
                        Some(at) => {
                            let (left, right) = text.split_at(at);
                            whole = whole.max(fonts::width(left, 1.0, face));
                            fraction = fraction.max(fonts::width(right, 1.0, face));
                        }
                        None => words = words.max(fonts::width(text, size, face)),
                    }
                }
            }
            let small = |pairs: &[(String, String)]| {
                let (_, key) = pairs.iter().find(|(of, _)| *of == column.key)?;
                table.columns.iter().position(|c| c.key == *key)
            };
            let beneath = small(&style.beneath);
            for row in groups.iter().flatten() {
                let Some(cell) = beneath.and_then(|at| row.get(at)) else {
                    continue;
                };
                words = words.max(fonts::width(&cell.text, SMALL, Face::Regular));
            }
            let own = |(key, _): &&(String, f32)| *key == column.key;
            let parted = style.parted.contains(&column.key);
            Measured {
                column,
                index,
                face,
                boxed: style.boxes.contains(&column.key),
                above: small(&style.above),
                beneath,
                gap: if parted { GAP } else { 0.0 },
                fixed: style.widths.iter().find(own).map(|(_, width)| *width),
                fraction,
                cells: words.max(whole + fraction),
                heading: heading_width(&clean(&column.label)),
                numbers: whole + fraction,
                word,
            }
        })
        .collect();
    // Attempts stand evenly, also those that nobody has taken yet.
    let attempts = measured.iter().filter(|c| c.column.attempt);
    let widest = attempts.map(|c| c.numbers).fold(0.0, f32::max);
    for column in measured.iter_mut().filter(|c| c.column.attempt) {
        column.cells = column.cells.max(widest);
    }
    widen_under_spans(&mut measured);
    measured
}

/// Makes room for spanning headings that are wider than their columns.
fn widen_under_spans(columns: &mut [Measured<'_>]) {
    for run in columns.chunk_by_mut(|a, b| a.column.span == b.column.span) {
        let Some(first) = run.first().filter(|c| !c.column.span.is_empty()) else {
            continue;
        };
        let span = clean(&first.column.span);
        let wanted = fonts::width(&span, HEADING, Face::Bold) + 2.0 * PAD;
        let wide = |c: &Measured<'_>| c.cells.max(c.heading * HEADING);
        let have: f32 = run.iter().map(|c| wide(c) + 2.0 * PAD).sum();
        let more = (wanted - have).max(0.0) / factor(run.len());
        for column in run.iter_mut().filter(|_| more > 0.0) {
            column.cells = wide(column) + more;
        }
    }
}

/// A cell's parts, each of which has a line of its own: an attempt's load and
/// its ruling's word; of anything else the whole.
pub(super) fn parts<'a>(column: &Column, text: &'a str) -> Vec<&'a str> {
    if column.attempt {
        text.splitn(2, ' ').collect()
    } else {
        vec![text]
    }
}

/// The type size of a line of a cell: the word of an attempt's ruling stands
/// small under its load.
pub(super) fn part_size(size: f32, column: &Column, line: usize) -> f32 {
    if column.attempt && line > 0 {
        size * SMALL
    } else {
        size
    }
}

/// The cells of a row as they are shown.
pub(super) fn shown(row: &[Cell]) -> Vec<Shown> {
    row.iter()
        .map(|cell| Shown {
            text: clean(&cell.shown()),
            struck: cell.struck(),
        })
        .collect()
}

/// Width of a heading on at most two lines, in ems of its own size.
fn heading_width(label: &str) -> f32 {
    let wide = |text: &str| fonts::width(text, 1.0, Face::Bold);
    label
        .match_indices(' ')
        .map(|(at, _)| {
            let (first, second) = label.split_at(at);
            wide(first).max(wide(second.trim_start()))
        })
        .fold(wide(label), f32::min)
}

impl Measured<'_> {
    /// Whether its texts may be broken: words, not numbers.
    pub(super) fn flexible(&self) -> bool {
        self.column.align == Align::Left && !self.boxed
    }

    /// The width that shows everything on one line, in points.
    fn natural(&self, size: f32, style: &TableStyle) -> f32 {
        let inner = (self.cells * size).max(self.heading * heading_size(size));
        let width = inner + 2.0 * PAD * size;
        let least = match self.fixed {
            Some(fixed) => fixed,
            None if self.boxed => style.box_width,
            None => 0.0,
        };
        width.max(least) + self.gap
    }

    /// The width that it asks for when the size is chosen.
    fn wanted(&self, size: f32, style: &TableStyle) -> f32 {
        let natural = self.natural(size, style);
        if self.flexible() {
            natural.min(LONG * size)
        } else {
            natural
        }
    }

    /// The width below which it isn't narrowed.
    fn least(&self, size: f32, style: &TableStyle) -> f32 {
        let wanted = self.wanted(size, style);
        if self.flexible() {
            let heading = self.heading * heading_size(size) + 2.0 * PAD * size;
            // Words stay whole as long as the type can be read without effort.
            let word = if size > LEGIBLE {
                self.word.min(LONG) * size + 2.0 * PAD * size
            } else {
                0.0
            };
            wanted.min(heading.max(NARROW * size).max(word) + self.gap)
        } else {
            wanted
        }
    }
}

/// Chooses the type size and the widths for a table `width` wide.
///
/// First the largest size in which every column gets what it wants; then, in
/// the smallest size, columns of texts are narrowed; then the type shrinks on
/// until the numbers fit; only then is everything narrowed alike.
pub(super) fn fit(columns: &[Measured<'_>], style: &TableStyle, width: f32) -> Fit {
    let sum = |widths: &[f32]| widths.iter().sum::<f32>();
    let mut size = style.size;
    let widths = loop {
        let mut widths: Vec<f32> =
            columns.iter().map(|c| c.wanted(size, style)).collect();
        if sum(&widths) <= width {
            spread(&mut widths, columns, size, style, width);
            break widths;
        }
        if size <= style.smallest {
            // Rather a slightly smaller type than all names on two lines.
            let floor = (style.smallest * WHOLE).max(LEGIBLE);
            let smaller = |steps: u8| size - 0.5 * f32::from(steps);
            let wide = |size: f32| {
                let wanted = columns.iter().map(|c| c.wanted(size, style));
                wanted.sum::<f32>()
            };
            let whole = (1..=2).map(smaller).filter(|size| *size >= floor);
            if let Some(whole) = whole.into_iter().find(|size| wide(*size) <= width) {
                size = whole;
                continue;
            }
            let least: Vec<f32> = columns.iter().map(|c| c.least(size, style)).collect();
            if sum(&least) <= width {
                narrow(&mut widths, &least, width);
                break widths;
            }
            if size <= TINY {
                let share = width / sum(&least);
                break least.iter().map(|w| w * share).collect();
            }
        }
        size = (size - 0.5).max(TINY.min(style.smallest));
    };
    let mut x = 0.0;
    let places = widths
        .into_iter()
        .zip(columns)
        .map(|(w, column)| {
            let gap = column.gap.min(w);
            let place = Place {
                x: x + gap,
                w: w - gap,
            };
            x += w;
            place
        })
        .collect();
    Fit {
        size,
        pad: PAD * size,
        places,
    }
}

/// Takes what is too much from the columns that have most above their least.
fn narrow(widths: &mut [f32], least: &[f32], width: f32) {
    let spare: f32 = widths.iter().zip(least).map(|(w, l)| w - l).sum();
    let excess = widths.iter().sum::<f32>() - width;
    if spare > 0.0 {
        for (w, l) in widths.iter_mut().zip(least) {
            *w -= (*w - l) * excess / spare;
        }
    }
}

/// Gives away what is left: first to texts that would be broken, then to boxes,
/// then to all alike up to two ems, and the rest to the texts.
fn spread(
    widths: &mut [f32],
    columns: &[Measured<'_>],
    size: f32,
    style: &TableStyle,
    width: f32,
) {
    let mut left = width - widths.iter().sum::<f32>();
    for (w, column) in widths.iter_mut().zip(columns) {
        let more = (column.natural(size, style) - *w).clamp(0.0, left.max(0.0));
        *w += more;
        left -= more;
    }
    let free = |c: &Measured<'_>| c.fixed.is_none();
    let boxed: Vec<bool> = columns.iter().map(|c| c.boxed && free(c)).collect();
    let texts: Vec<bool> = columns.iter().map(Measured::flexible).collect();
    let all: Vec<bool> = columns.iter().map(free).collect();
    for (takers, most) in [
        (&boxed, 60.0),
        (&all, 2.0 * size),
        (&texts, f32::MAX),
        (&all, f32::MAX),
    ] {
        let count = takers.iter().filter(|takes| **takes).count();
        if count == 0 || left <= 0.0 {
            continue;
        }
        let each = (left / factor(count)).min(most);
        for (w, _) in widths.iter_mut().zip(takers).filter(|(_, takes)| **takes) {
            *w += each;
        }
        left -= each * factor(count);
    }
}
