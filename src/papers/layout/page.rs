//! What a laid-out page is made of.

use std::collections::BTreeSet;

use crate::papers::fonts::Face;
use crate::papers::picture::Image;

/// How dark a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// Black: what is read.
    Black,
    /// Dark grey that survives a photocopier: labels and remarks.
    Grey,
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pen {
    /// Between rows: very thin and light.
    Hair,
    /// Under headings and around boxes to write in: thin, black.
    Thin,
    /// Under the head of a page: heavy, black.
    Heavy,
    /// Through the text before it: a no lift.
    Strike,
    /// Where cards are cut apart: thin, dashed.
    Cut,
}

/// One mark on a page; points from the top left corner, y downward.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// A text on one line.
    Text {
        /// Left end.
        x: f32,
        /// Baseline.
        y: f32,
        /// Type size.
        size: f32,
        /// Whether it is set in the bold face.
        bold: bool,
        /// How dark it is.
        ink: Ink,
        /// The text, with composed accents; may hold characters that the font
        /// lacks.
        text: String,
    },
    /// A straight line.
    Line {
        /// One end, across.
        x1: f32,
        /// One end, down.
        y1: f32,
        /// The other end, across.
        x2: f32,
        /// The other end, down.
        y2: f32,
        /// How it is drawn.
        pen: Pen,
    },
    /// An empty box.
    Rect {
        /// Left edge.
        x: f32,
        /// Upper edge.
        y: f32,
        /// Width.
        w: f32,
        /// Height.
        h: f32,
        /// How its edges are drawn.
        pen: Pen,
    },
    /// A picture.
    Picture {
        /// Left edge.
        x: f32,
        /// Upper edge.
        y: f32,
        /// Width.
        w: f32,
        /// Height.
        h: f32,
        /// What is shown.
        image: Image,
    },
}

impl Item {
    /// The same mark, moved.
    #[must_use]
    pub fn moved(mut self, dx: f32, dy: f32) -> Self {
        match &mut self {
            Self::Text { x, y, .. }
            | Self::Rect { x, y, .. }
            | Self::Picture { x, y, .. } => {
                *x += dx;
                *y += dy;
            }
            Self::Line { x1, y1, x2, y2, .. } => {
                *x1 += dx;
                *x2 += dx;
                *y1 += dy;
                *y2 += dy;
            }
        }
        self
    }

    /// A level line.
    pub const fn rule(x1: f32, x2: f32, y: f32, pen: Pen) -> Self {
        Self::Line {
            x1,
            y1: y,
            x2,
            y2: y,
            pen,
        }
    }
}

/// One page.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// Width in points.
    pub width: f32,
    /// Height in points.
    pub height: f32,
    /// The marks, in reading order.
    pub items: Vec<Item>,
}

/// The words of the pages in reading order, for tests and for a quick look.
///
/// Texts on one baseline make one line, two spaces apart; what is struck
/// through stands between tildes; a form feed stands between pages.
pub fn text_of(pages: &[Page]) -> String {
    let mut out = String::new();
    for (index, page) in pages.iter().enumerate() {
        if index > 0 {
            out.push('\u{c}');
        }
        let mut baseline: Option<f32> = None;
        let mut start = 0;
        for item in &page.items {
            match item {
                Item::Text { y, text, .. } => {
                    match baseline {
                        Some(last) if (last - y).abs() < 0.5 => out.push_str("  "),
                        Some(_) => out.push('\n'),
                        None => {}
                    }
                    baseline = Some(*y);
                    start = out.len();
                    out.push_str(text);
                }
                Item::Line {
                    pen: Pen::Strike, ..
                } => {
                    out.insert(start, '~');
                    out.push('~');
                }
                Item::Line { .. } | Item::Rect { .. } | Item::Picture { .. } => {}
            }
        }
        out.push('\n');
    }
    out
}

/// The characters on the pages that the font lacks, in code order, each once.
///
/// A question mark is drawn for each; the caller should say so.
pub fn missing(pages: &[Page]) -> Vec<char> {
    let mut lacking = BTreeSet::new();
    for page in pages {
        for item in &page.items {
            if let Item::Text { text, bold, .. } = item {
                let face = Face::of(*bold);
                lacking.extend(text.chars().filter(|c| !face.has(*c)));
            }
        }
    }
    lacking.into_iter().collect()
}
