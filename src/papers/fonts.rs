//! The two embedded faces: what they hold and how wide it is.
//!
//! Noto Sans Regular and Bold lie inside the program, so a paper looks the same
//! on every computer. Text is shown without kerning, so a width is exactly the
//! sum of the advances. Knows no page.

use std::sync::LazyLock;

/// What stands in place of a character that neither face has.
pub const STAND_IN: char = '?';

/// One of the embedded faces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// Noto Sans Regular.
    Regular,
    /// Noto Sans Bold.
    Bold,
}

/// Height of a capital letter, as a share of the type size.
///
/// Source: table OS/2 of the embedded Noto Sans 2.004, `sCapHeight` 714.
pub const CAP_HEIGHT: f32 = 0.714;

/// Height of a small letter, as a share of the type size.
///
/// Source: table OS/2 of the embedded Noto Sans 2.004, `sxHeight` 536.
pub const X_HEIGHT: f32 = 0.536;

/// From one baseline to the next, as a share of the type size.
pub const LEADING: f32 = 1.3;

/// The characters whose advances are looked up once and kept: Latin, Greek,
/// Cyrillic and what lies between.
const KEPT: u16 = 0x0530;

struct Metrics {
    face: Option<ttf_parser::Face<'static>>,
    /// Units of one em.
    em: f32,
    /// Advance of each kept character, `None` where the face lacks it.
    kept: Vec<Option<u16>>,
}

static REGULAR: LazyLock<Metrics> = LazyLock::new(|| Metrics::new(Face::Regular));
static BOLD: LazyLock<Metrics> = LazyLock::new(|| Metrics::new(Face::Bold));

impl Face {
    /// Bold where asked for, else regular.
    pub const fn of(bold: bool) -> Self {
        if bold { Self::Bold } else { Self::Regular }
    }

    /// The font file.
    pub const fn bytes(self) -> &'static [u8] {
        match self {
            Self::Regular => include_bytes!("../../resources/fonts/NotoSans-Regular.ttf"),
            Self::Bold => include_bytes!("../../resources/fonts/NotoSans-Bold.ttf"),
        }
    }

    /// The PostScript name of the face.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Regular => "NotoSans-Regular",
            Self::Bold => "NotoSans-Bold",
        }
    }

    /// Whether the face has the character.
    pub fn has(self, c: char) -> bool {
        self.metrics().advance(c).is_some()
    }

    /// The character itself, or `?` where the face lacks it.
    pub fn shown(self, c: char) -> char {
        if self.has(c) { c } else { STAND_IN }
    }

    /// The glyph of the character, or of `?` where the face lacks it.
    pub fn glyph(self, c: char) -> Option<u16> {
        let face = self.metrics().face.as_ref()?;
        face.glyph_index(self.shown(c)).map(|glyph| glyph.0)
    }

    fn metrics(self) -> &'static Metrics {
        match self {
            Self::Regular => &REGULAR,
            Self::Bold => &BOLD,
        }
    }
}

impl Metrics {
    fn new(face: Face) -> Self {
        let face = ttf_parser::Face::parse(face.bytes(), 0).ok();
        let em = face.as_ref().map_or(1000, ttf_parser::Face::units_per_em);
        let mut metrics = Self {
            face,
            em: f32::from(em),
            kept: Vec::new(),
        };
        metrics.kept = (0..KEPT)
            .map(|code| char::from_u32(u32::from(code)).and_then(|c| metrics.look_up(c)))
            .collect();
        metrics
    }

    fn look_up(&self, c: char) -> Option<u16> {
        let face = self.face.as_ref()?;
        face.glyph_hor_advance(face.glyph_index(c)?)
    }

    fn advance(&self, c: char) -> Option<u16> {
        let kept = usize::try_from(u32::from(c))
            .ok()
            .and_then(|code| self.kept.get(code));
        kept.map_or_else(|| self.look_up(c), |kept| *kept)
    }
}

/// The width of a text in points at the size in points.
///
/// A missing character is as wide as the `?` that is drawn for it. The
/// text is taken as it is: compose accents first.
pub fn width(text: &str, size: f32, face: Face) -> f32 {
    let metrics = face.metrics();
    let stand_in = metrics.advance(STAND_IN).unwrap_or(500);
    let units: f32 = text
        .chars()
        .map(|c| f32::from(metrics.advance(c).unwrap_or(stand_in)))
        .sum();
    units * size / metrics.em
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_faces_hold_the_scripts_of_a_roster() {
        for c in "Łukasz Þóra Ελένη Мария ğışçö…–·½".chars() {
            assert!(Face::Regular.has(c) && Face::Bold.has(c), "{c} is missing");
        }
        assert!(!Face::Regular.has('金'));
        assert_eq!(Face::Bold.shown('金'), '?');
    }

    #[test]
    fn digits_are_equally_wide_so_that_columns_of_numbers_line_up() {
        for face in [Face::Regular, Face::Bold] {
            let one = width("1", 10.0, face);
            for digit in ["0", "4", "7", "8"] {
                assert!((width(digit, 10.0, face) - one).abs() < 1e-4);
            }
        }
    }

    #[test]
    fn a_width_is_the_sum_of_the_advances() {
        // Advances of Noto Sans 2.004 Regular: A 639, V 600; no kerning.
        assert!((width("AV", 100.0, Face::Regular) - 123.9).abs() < 1e-3);
    }

    #[test]
    fn heights_are_those_of_the_font_file() {
        for face in [Face::Regular, Face::Bold] {
            let parsed = ttf_parser::Face::parse(face.bytes(), 0).unwrap();
            let em = f32::from(parsed.units_per_em());
            let cap = f32::from(parsed.capital_height().unwrap()) / em;
            assert!((cap - CAP_HEIGHT).abs() < 1e-4, "{cap}");
            let x = f32::from(parsed.x_height().unwrap()) / em;
            assert!((x - X_HEIGHT).abs() < 0.015, "{x}");
        }
    }
}
