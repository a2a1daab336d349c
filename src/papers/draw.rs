//! Pages to PDF.
//!
//! The only file, beside that of pictures, that knows the PDF writer. It goes through [`Canvas`], so that
//! another writer fits in without touching a layout. The same pages and [`Meta`]
//! always give the same bytes.

use std::collections::{BTreeMap, BTreeSet};

use allsorts::binary::read::ReadScope;
use allsorts::font_data::FontData;
use allsorts::subset::{CmapTarget, SubsetProfile, subset};
use printpdf::{
    Color, CustomPdfConformance, FontId, Greyscale, LineDashPattern, LinePoint,
    OffsetDateTime, Op, PaintMode, ParsedFont, PdfConformance, PdfDocument, PdfFont,
    PdfFontHandle, PdfPage, PdfSaveOptions, Point, Pt, TextItem, TextMatrix, XObjectId,
    XObjectTransform,
};
use sha2::{Digest, Sha256};

use super::fonts::{Face, STAND_IN};
use super::layout::{Ink, Item, Page, Pen};
use super::picture::{Image, object};

/// Why a paper couldn't be made.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PaperError {
    /// An embedded font can't be cut down to the characters in use.
    #[error("the font {face} can't be embedded: {why}")]
    Font {
        /// Its PostScript name.
        face: &'static str,
        /// What the font library says.
        why: String,
    },
    /// The PDF couldn't be written into memory.
    #[error("the PDF can't be written: {0}")]
    Write(String),
    /// No paper has that name.
    #[error("there is no paper “{0}”; there is {1}")]
    Unknown(String, String),
    /// A paper that shows more than may be posted was asked for posting.
    #[error("“{0}” isn't for posting; for posting there is {1}")]
    Private(String, String),
}

/// What a PDF says about itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Meta {
    /// Its title.
    pub title: String,
    /// When it was made, in seconds since 1970-01-01 00:00 UTC; stands in the
    /// file's properties only.
    pub made_at: i64,
}

impl Meta {
    /// A title, made at the beginning of 1970.
    pub fn new(title: impl Into<String>) -> Self {
        Self {
            title: title.into(),
            made_at: 0,
        }
    }

    /// The same, made at this second since 1970.
    #[must_use]
    pub const fn made_at(mut self, seconds: i64) -> Self {
        self.made_at = seconds;
        self
    }
}

/// What a page is drawn on; points from the top left corner, y downward.
trait Canvas {
    /// Begins a page of this width and height.
    fn page(&mut self, width: f32, height: f32);
    /// Sets a text with its baseline at `at`.
    fn text(&mut self, at: (f32, f32), size: f32, face: Face, ink: Ink, text: &str);
    /// Draws a straight line.
    fn line(&mut self, from: (f32, f32), to: (f32, f32), pen: Pen);
    /// Draws the edges of a box of this width and height.
    fn rect(&mut self, at: (f32, f32), size: (f32, f32), pen: Pen);

    /// Shows a picture in a box of this width and height.
    fn picture(&mut self, at: (f32, f32), size: (f32, f32), image: &Image);
}

/// Draws the pages as a PDF.
///
/// A character that the font lacks is drawn as a question mark;
/// [`missing`](super::missing) lists them. Only the glyphs in use are embedded.
///
/// # Errors
///
/// [`PaperError`] if a font can't be embedded or the file can't be written;
/// neither depends on the words on the pages.
pub fn pdf(pages: &[Page], meta: &Meta) -> Result<Vec<u8>, PaperError> {
    let mut canvas = PdfCanvas::default();
    for page in pages {
        canvas.page(page.width, page.height);
        for item in &page.items {
            draw(item, &mut canvas);
        }
    }
    canvas.finish(meta)
}

fn draw(item: &Item, canvas: &mut impl Canvas) {
    match item {
        Item::Text {
            x,
            y,
            size,
            bold,
            ink,
            text,
        } => canvas.text((*x, *y), *size, Face::of(*bold), *ink, text),
        Item::Line {
            x1,
            y1,
            x2,
            y2,
            pen,
        } => canvas.line((*x1, *y1), (*x2, *y2), *pen),
        Item::Rect { x, y, w, h, pen } => canvas.rect((*x, *y), (*w, *h), *pen),
        Item::Picture { x, y, w, h, image } => {
            canvas.picture((*x, *y), (*w, *h), image);
        }
    }
}

/// The canvas that collects a PDF.
#[derive(Default)]
struct PdfCanvas {
    pages: Vec<(f32, f32, Vec<Op>)>,
    used: BTreeMap<Face, BTreeSet<char>>,
    /// The pictures, each once.
    images: Vec<Image>,
    /// The pen and the ink in force on the page.
    pen: Option<Pen>,
    ink: Option<Ink>,
    font: Option<(Face, f32)>,
}

impl Canvas for PdfCanvas {
    fn page(&mut self, width: f32, height: f32) {
        self.pages.push((width, height, Vec::new()));
        (self.pen, self.ink, self.font) = (None, None, None);
    }

    fn text(&mut self, at: (f32, f32), size: f32, face: Face, ink: Ink, text: &str) {
        let shown: String = text.chars().map(|c| face.shown(c)).collect();
        let used = self.used.entry(face).or_default();
        used.extend(shown.chars());
        let font = (self.font != Some((face, size))).then(|| Op::SetFont {
            font: PdfFontHandle::External(font_id(face)),
            size: Pt(tidy(size)),
        });
        let fill = (self.ink != Some(ink)).then(|| Op::SetFillColor {
            col: grey(match ink {
                Ink::Black => 0.0,
                Ink::Grey => 0.33,
            }),
        });
        self.ink = Some(ink);
        self.font = Some((face, size));
        let matrix = TextMatrix::Translate(Pt(tidy(at.0)), Pt(self.up(at.1)));
        let ops = self.ops();
        ops.extend(fill);
        ops.push(Op::StartTextSection);
        ops.extend(font);
        ops.push(Op::SetTextMatrix { matrix });
        ops.push(Op::ShowText {
            items: vec![TextItem::Text(shown)],
        });
        ops.push(Op::EndTextSection);
    }

    fn line(&mut self, from: (f32, f32), to: (f32, f32), pen: Pen) {
        self.take(pen);
        let points = vec![self.point(from), self.point(to)];
        self.ops().push(Op::DrawLine {
            line: printpdf::Line {
                points,
                is_closed: false,
            },
        });
    }

    fn rect(&mut self, at: (f32, f32), size: (f32, f32), pen: Pen) {
        self.take(pen);
        let rectangle = printpdf::Rect {
            x: Pt(tidy(at.0)),
            y: Pt(self.up(at.1 + size.1)),
            width: Pt(tidy(size.0)),
            height: Pt(tidy(size.1)),
            mode: Some(PaintMode::Stroke),
            winding_order: None,
        };
        self.ops().push(Op::DrawRectangle { rectangle });
    }

    fn picture(&mut self, at: (f32, f32), size: (f32, f32), image: &Image) {
        let known = self.images.iter().position(|own| own == image);
        let index = known.unwrap_or_else(|| {
            self.images.push(image.clone());
            self.images.len() - 1
        });
        // A picture is drawn in a square of one point that is stretched.
        let transform = XObjectTransform {
            translate_x: Some(Pt(tidy(at.0))),
            translate_y: Some(Pt(self.up(at.1 + size.1))),
            scale_x: Some(tidy(size.0)),
            scale_y: Some(tidy(size.1)),
            no_auto_scale: true,
            ..XObjectTransform::default()
        };
        let id = image_id(index);
        self.ops().push(Op::UseXobject { id, transform });
    }
}

impl PdfCanvas {
    fn ops(&mut self) -> &mut Vec<Op> {
        if self.pages.is_empty() {
            self.page(0.0, 0.0);
        }
        let last = self.pages.len() - 1;
        &mut self.pages[last].2
    }

    /// A distance from the top as one from the bottom.
    fn up(&self, y: f32) -> f32 {
        tidy(self.pages.last().map_or(0.0, |page| page.1) - y)
    }

    fn point(&self, (x, y): (f32, f32)) -> LinePoint {
        LinePoint {
            p: Point {
                x: Pt(tidy(x)),
                y: Pt(self.up(y)),
            },
            bezier: false,
        }
    }

    /// Takes the pen in hand, unless it is.
    fn take(&mut self, pen: Pen) {
        if self.pen == Some(pen) {
            return;
        }
        let dashed = self.pen == Some(Pen::Cut);
        self.pen = Some(pen);
        let (width, shade) = match pen {
            Pen::Hair => (0.4, 0.6),
            Pen::Thin => (0.7, 0.0),
            Pen::Heavy => (1.8, 0.0),
            Pen::Strike => (0.8, 0.0),
            Pen::Cut => (0.5, 0.4),
        };
        let ops = self.ops();
        ops.push(Op::SetOutlineThickness { pt: Pt(width) });
        ops.push(Op::SetOutlineColor { col: grey(shade) });
        if pen == Pen::Cut {
            let dash = LineDashPattern::new(0.0, &[4.0, 4.0]);
            ops.push(Op::SetLineDashPattern { dash });
        } else if dashed {
            let dash = LineDashPattern::solid();
            ops.push(Op::SetLineDashPattern { dash });
        }
    }

    fn finish(self, meta: &Meta) -> Result<Vec<u8>, PaperError> {
        let mut document = PdfDocument::new(&meta.title);
        for (face, used) in &self.used {
            let font = PdfFont::new(embedded(*face, used)?);
            let _ = document.resources.fonts.map.insert(font_id(*face), font);
        }
        for (index, image) in self.images.iter().enumerate() {
            let objects = &mut document.resources.xobjects.map;
            let _ = objects.insert(image_id(index), object(image));
        }
        let info = &mut document.metadata.info;
        // The writer's own choice would claim PDF/X, which this isn't.
        info.conformance = PdfConformance::Custom(CustomPdfConformance {
            requires_icc_profile: false,
            requires_xmp_metadata: false,
            ..CustomPdfConformance::default()
        });
        info.creator = "Maxday".to_owned();
        info.producer = "Maxday".to_owned();
        if let Ok(made) = OffsetDateTime::from_unix_timestamp(meta.made_at) {
            info.creation_date = made;
            info.modification_date = made;
            info.metadata_date = made;
        }
        document.pages = self.pages.into_iter().map(page).collect();
        write(&document)
    }
}

fn page((width, height, ops): (f32, f32, Vec<Op>)) -> PdfPage {
    let edge = printpdf::Rect::from_wh(Pt(width), Pt(height));
    PdfPage {
        media_box: edge.clone(),
        trim_box: edge.clone(),
        crop_box: edge,
        ops,
    }
}

/// The file's bytes, with an identity made from its content, since the writer
/// would count its files.
fn write(document: &PdfDocument) -> Result<Vec<u8>, PaperError> {
    let mut warnings = Vec::new();
    let options = PdfSaveOptions::default();
    let mut file = printpdf::to_lopdf_doc(document, &options, &mut warnings);
    file.version = "1.5".to_owned();
    if let Ok(info) = file.trailer.get(b"Info")
        && let Ok(info) = info.as_reference()
        && let Ok(info) = file.get_dictionary_mut(info)
    {
        for key in [b"GTS_PDFXVersion".as_slice(), b"Identifier"] {
            let _ = info.remove(key);
        }
    }
    let mut digest = Sha256::new();
    for object in file.objects.values() {
        if let Ok(stream) = object.as_stream() {
            digest.update(&stream.content);
        }
    }
    let identity = digest.finalize()[..16].to_vec();
    if let Ok(ids) = file.trailer.get_mut(b"ID")
        && let Ok(ids) = ids.as_array_mut()
    {
        for id in ids.iter_mut().filter_map(|id| id.as_str_mut().ok()) {
            id.clone_from(&identity);
        }
    }
    file.compress();
    let mut bytes = Vec::new();
    file.save_to(&mut bytes)
        .map_err(|error| PaperError::Write(error.to_string()))?;
    Ok(bytes)
}

fn font_id(face: Face) -> FontId {
    FontId(
        match face {
            Face::Regular => "Regular",
            Face::Bold => "Bold",
        }
        .to_owned(),
    )
}

fn image_id(index: usize) -> XObjectId {
    XObjectId(format!("Picture{index}"))
}

/// The face with no more glyphs than the characters in use need.
fn embedded(face: Face, used: &BTreeSet<char>) -> Result<ParsedFont, PaperError> {
    let fault = |why: String| PaperError::Font {
        face: face.name(),
        why,
    };
    let mut glyphs: BTreeSet<u16> = used.iter().filter_map(|c| face.glyph(*c)).collect();
    let _ = glyphs.insert(0);
    glyphs.extend(face.glyph(STAND_IN));
    let glyphs: Vec<u16> = glyphs.into_iter().collect();
    let data = ReadScope::new(face.bytes())
        .read::<FontData<'_>>()
        .map_err(|error| fault(error.to_string()))?;
    let tables = data
        .table_provider(0)
        .map_err(|error| fault(error.to_string()))?;
    let bytes = subset(&tables, &glyphs, &SubsetProfile::Pdf, CmapTarget::Unicode)
        .map_err(|error| fault(error.to_string()))?;
    let mut font = ParsedFont::from_bytes(&bytes, 0, &mut Vec::new())
        .ok_or_else(|| fault("the subset can't be read back".to_owned()))?;
    // Six capitals and a plus mark a subset (ISO 32000-1, 9.6.4).
    font.font_name = Some(format!("MAXDAY+{}", face.name()));
    Ok(font)
}

fn grey(shade: f32) -> Color {
    Color::Greyscale(Greyscale::new(shade, None))
}

/// Rounded to a hundredth of a point, which no printer shows and which keeps
/// the file small.
fn tidy(points: f32) -> f32 {
    (points * 100.0).round() / 100.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::papers::{Block, Frame, Paper, pages};

    fn three_pages() -> Vec<Page> {
        let block = |text: &str| [Block::paragraph(text), Block::PageBreak];
        let texts = ["Łukasz, Þóra", "Ελένη, Мария", "金"];
        let blocks: Vec<Block> = texts.into_iter().flat_map(block).collect();
        pages(&Frame::new(Paper::A4, "Names"), &blocks)
    }

    fn holds(bytes: &[u8], wanted: &str) -> bool {
        bytes.windows(wanted.len()).any(|w| w == wanted.as_bytes())
    }

    #[test]
    fn a_pdf_embeds_only_the_glyphs_in_use() {
        let pages = three_pages();
        assert_eq!(pages.len(), 3);
        let bytes = pdf(&pages, &Meta::new("Names")).unwrap();
        assert!(bytes.starts_with(b"%PDF-1.5"));
        assert!(holds(&bytes, "MAXDAY+NotoSans-Regular"));
        assert!(holds(&bytes, "MAXDAY+NotoSans-Bold"));
        assert!(bytes.len() < 40_000, "{} bytes", bytes.len());
        let font = embedded(Face::Regular, &"Łukasz".chars().collect()).unwrap();
        assert!(font.original_bytes.len() * 20 < Face::Regular.bytes().len());
    }

    #[test]
    fn the_same_pages_give_the_same_bytes() {
        let meta = Meta::new("Names").made_at(1_794_650_000);
        let first = pdf(&three_pages(), &meta).unwrap();
        assert!(first == pdf(&three_pages(), &meta).unwrap());
        assert!(holds(&first, "D:20261114"));
        assert!(first != pdf(&three_pages()[..1], &meta).unwrap());
    }

    #[test]
    fn it_claims_no_print_standard() {
        let bytes = pdf(&three_pages(), &Meta::new("Names")).unwrap();
        assert!(!holds(&bytes, "PDFX") && !holds(&bytes, "OutputIntents"));
    }

    #[test]
    fn no_page_is_a_pdf_too() {
        assert!(
            pdf(&[], &Meta::new("Nothing"))
                .unwrap()
                .starts_with(b"%PDF")
        );
    }
}
