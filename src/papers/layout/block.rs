//! What a document is written in, and its pieces.

use super::art;
use super::cards;
use super::flow::Piece;
use super::form;
use super::style::TableStyle;
use super::table;
use super::text::{self, Type};
use crate::papers::fonts::{CAP_HEIGHT, LEADING};
use crate::papers::picture::Image;
use crate::sheets::Table;

const HEADING_SIZE: f32 = 15.0;
const PARAGRAPH_SIZE: f32 = 10.5;
const SMALL_SIZE: f32 = 8.5;

/// One part of a document, from top to bottom.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A heading, never alone at the foot of a page.
    Heading(String),
    /// Running text; a line feed begins a new line.
    Paragraph {
        /// The text.
        text: String,
        /// Whether it is set small and grey: remarks, sources, cautions.
        small: bool,
    },
    /// A table, with its column headings on each page.
    Table(Table, Box<TableStyle>),
    /// Boxes with labels to write in.
    Form(Form),
    /// Labels and their values, one pair a line.
    KeyValues(Vec<(String, String)>),
    /// Lines with a box to tick.
    Ticks(Vec<String>),
    /// Blank space in points, dropped at the head of a page.
    Space(f32),
    /// What follows begins a new page.
    PageBreak,
    /// Blocks that stay on one page if one page can hold them.
    KeepTogether(Vec<Block>),
    /// Several cards a page, to be cut apart.
    Cards(Cards),
    /// A text in the middle of the width.
    Centred {
        /// The text.
        text: String,
        /// Type size in points.
        size: f32,
        /// Whether it is bold.
        bold: bool,
    },
    /// A picture in the middle of the width, in a box of this height in points.
    Picture {
        /// The picture.
        image: Image,
        /// Height of the box.
        height: f32,
    },
    /// Lines to sign on, side by side, each with a label beneath.
    Signatures(Vec<String>),
    /// Charts of attempts, side by side.
    Chart(Chart),
}

impl Block {
    /// A heading.
    pub fn heading(text: impl Into<String>) -> Self {
        Self::Heading(text.into())
    }

    /// Running text.
    pub fn paragraph(text: impl Into<String>) -> Self {
        Self::Paragraph {
            text: text.into(),
            small: false,
        }
    }

    /// A remark in small grey type.
    pub fn small(text: impl Into<String>) -> Self {
        Self::Paragraph {
            text: text.into(),
            small: true,
        }
    }

    /// A table in the given style.
    pub fn table(table: Table, style: TableStyle) -> Self {
        Self::Table(table, Box::new(style))
    }

    /// Labels and their values.
    pub fn key_values<K: Into<String>, V: Into<String>>(
        pairs: impl IntoIterator<Item = (K, V)>,
    ) -> Self {
        let pairs = pairs.into_iter();
        Self::KeyValues(pairs.map(|(k, v)| (k.into(), v.into())).collect())
    }

    /// Lines with a box to tick.
    pub fn ticks<T: Into<String>>(lines: impl IntoIterator<Item = T>) -> Self {
        Self::Ticks(lines.into_iter().map(Into::into).collect())
    }

    /// A text in the middle of the width, in this type size in points.
    pub fn centred(text: impl Into<String>, size: f32, bold: bool) -> Self {
        Self::Centred {
            text: text.into(),
            size,
            bold,
        }
    }

    /// Lines to sign on, side by side.
    pub fn signatures<T: Into<String>>(labels: impl IntoIterator<Item = T>) -> Self {
        Self::Signatures(labels.into_iter().map(Into::into).collect())
    }

    /// Blank space in points.
    pub const fn space(points: f32) -> Self {
        Self::Space(points)
    }
}

/// A grid of boxes to write in, row by row.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Form {
    /// The rows, each with its boxes from left to right.
    pub rows: Vec<Vec<Field>>,
    /// Height of a row in points.
    pub row_height: f32,
}

impl Form {
    /// A form without a row, with rows as high as a hand needs: 34 points.
    pub const fn new() -> Self {
        Self {
            rows: Vec::new(),
            row_height: 34.0,
        }
    }

    /// The same, with rows of this height in points.
    #[must_use]
    pub const fn row_height(mut self, points: f32) -> Self {
        self.row_height = points;
        self
    }

    /// The same, with one more row.
    #[must_use]
    pub fn row(mut self, fields: impl IntoIterator<Item = Field>) -> Self {
        self.rows.push(fields.into_iter().collect());
        self
    }
}

/// One box of a form.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// Small words in its upper corner.
    pub label: String,
    /// What is already printed in it; mostly nothing.
    pub value: String,
    /// Its share of the row's width.
    pub weight: f32,
}

impl Field {
    /// An empty box with a label and the weight 1.
    pub fn new(label: impl Into<String>) -> Self {
        Self {
            label: label.into(),
            value: String::new(),
            weight: 1.0,
        }
    }

    /// The same, with a printed value.
    #[must_use]
    pub fn value(mut self, value: impl Into<String>) -> Self {
        self.value = value.into();
        self
    }

    /// The same, with another share of the row's width; at least 0.1.
    #[must_use]
    pub const fn weight(mut self, weight: f32) -> Self {
        self.weight = weight.max(0.1);
        self
    }
}

/// Cards that are cut apart, in reading order.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cards {
    /// How many stand side by side; 0 counts as 1.
    pub across: usize,
    /// How many stand one above another at most; 0 counts as 1. A card that
    /// needs more room makes fewer; one that is taller than a page goes on on
    /// the next one.
    pub down: usize,
    /// What is on each card.
    pub cards: Vec<Vec<Block>>,
}

impl Cards {
    /// Cards in a grid of so many across and so many down.
    pub const fn new(across: usize, down: usize, cards: Vec<Vec<Block>>) -> Self {
        Self {
            across,
            down,
            cards,
        }
    }
}

/// Attempts by their loads, a panel a lift.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Chart {
    /// The panels, from left to right, then in rows.
    pub panels: Vec<Panel>,
}

/// The attempts of a lift.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Panel {
    /// Its title.
    pub title: String,
    /// The attempts in order.
    pub points: Vec<Point>,
}

/// One attempt of a chart.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Point {
    /// The load as a height in any unit; `None` has no mark.
    pub height: Option<f32>,
    /// The load in words.
    pub load: String,
    /// Whether it was good; any other has an open mark.
    pub good: bool,
    /// What became of it, in a word.
    pub word: String,
}

/// The pieces of the blocks for a column `width` wide on slots `height` high.
pub(super) fn pieces(blocks: &[Block], width: f32, height: f32) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    let (mut space, mut fresh) = (0.0, false);
    for (index, block) in blocks.iter().enumerate() {
        let mut more = match block {
            Block::Space(points) => {
                space += points.max(0.0);
                continue;
            }
            Block::PageBreak => {
                fresh = true;
                continue;
            }
            Block::Heading(text) => heading(text, width),
            Block::Paragraph { text, small } => paragraph(text, *small, width),
            Block::Table(table, style) => table::pieces(table, style, width),
            Block::Form(form) => form::form(form, width),
            Block::KeyValues(pairs) => form::key_values(pairs, width),
            Block::Ticks(lines) => form::ticks(lines, width),
            Block::KeepTogether(blocks) => together(blocks, width, height),
            Block::Cards(cards) => cards::pieces(cards, width, height),
            Block::Centred { text, size, bold } => {
                art::centred(text, *size, *bold, width)
            }
            Block::Picture { image, height } => art::picture(image, *height, width),
            Block::Signatures(labels) => art::signatures(labels, width),
            Block::Chart(chart) => art::chart(chart, width),
        };
        let remark = matches!(
            blocks.get(index + 1),
            Some(Block::Paragraph { small: true, .. })
        );
        if remark && let (Block::Table(..), Some(last)) = (block, more.last_mut()) {
            // No page has the remark on a table and none of its rows.
            last.keep = true;
        }
        if let Some(first) = more.first_mut() {
            first.gap += space;
            first.fresh |= fresh;
            (space, fresh) = (0.0, false);
        }
        pieces.append(&mut more);
    }
    pieces
}

fn together(blocks: &[Block], width: f32, height: f32) -> Vec<Piece> {
    let mut pieces = pieces(blocks, width, height);
    let last = pieces.len().saturating_sub(1);
    for piece in pieces.iter_mut().take(last) {
        piece.together = true;
    }
    pieces
}

fn heading(text: &str, width: f32) -> Vec<Piece> {
    let mut pieces = lines(text, Type::bold(HEADING_SIZE), width, 14.0);
    for piece in &mut pieces {
        piece.keep = true;
    }
    pieces
}

fn paragraph(text: &str, small: bool, width: f32) -> Vec<Piece> {
    let set = if small {
        Type::grey(SMALL_SIZE)
    } else {
        Type::black(PARAGRAPH_SIZE)
    };
    let mut pieces = lines(text, set, width, 6.0);
    // No first line alone at the foot, no last line alone at the head.
    let count = pieces.len();
    for (index, piece) in pieces.iter_mut().enumerate() {
        piece.keep = count > 1 && (index == 0 || index + 2 == count);
    }
    pieces
}

/// The lines of a text, each a piece, with a gap above the first.
fn lines(text: &str, set: Type, width: f32, gap: f32) -> Vec<Piece> {
    let leading = set.size * LEADING;
    // The baseline that centres capitals in the line.
    let baseline = f32::midpoint(leading, set.size * CAP_HEIGHT);
    let broken = text
        .split('\n')
        .flat_map(|line| text::wrap(&text::clean(line), set.size, set.face, width));
    broken
        .enumerate()
        .map(|(index, line)| Piece {
            height: leading,
            gap: if index == 0 { gap } else { 0.0 },
            items: if line.is_empty() {
                Vec::new()
            } else {
                vec![set.at(0.0, baseline, line)]
            },
            ..Piece::default()
        })
        .collect()
}
