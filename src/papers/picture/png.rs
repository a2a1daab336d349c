//! PNG (third edition, W3C): read in every depth, written in one.

use std::collections::BTreeMap;

use printpdf::{
    DictItem, ExternalStream, ExternalXObject, PdfDocument, PdfSaveOptions, XObject,
    XObjectId,
};

use crate::day::picture::PNG;

/// Most pixels that are read.
const MOST_PIXELS: usize = 16_000_000;

/// Red, green and blue of each pixel, on white.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Pixels {
    pub width: usize,
    pub height: usize,
    pub rgb: Vec<[u8; 3]>,
}

impl Pixels {
    /// The same, no edge longer than so many pixels; each is the mean of those that
    /// it stands for.
    pub(super) fn reduced(&self, edge: usize) -> Self {
        let longest = self.width.max(self.height);
        if longest <= edge {
            return self.clone();
        }
        let to = |n: usize| (n * edge).div_ceil(longest).max(1);
        let (width, height) = (to(self.width), to(self.height));
        let mut rgb = Vec::with_capacity(width * height);
        for y in 0..height {
            let rows = y * self.height / height..((y + 1) * self.height).div_ceil(height);
            for x in 0..width {
                let columns =
                    x * self.width / width..((x + 1) * self.width).div_ceil(width);
                let (mut sum, mut count) = ([0_usize; 3], 0_usize);
                for row in rows.clone() {
                    for pixel in &self.rgb[row * self.width..][columns.clone()] {
                        for (sum, colour) in sum.iter_mut().zip(pixel) {
                            *sum += usize::from(*colour);
                        }
                        count += 1;
                    }
                }
                let mean =
                    |sum: usize| u8::try_from((sum + count / 2) / count).unwrap_or(255);
                rgb.push(sum.map(mean));
            }
        }
        Self { width, height, rgb }
    }
}

/// What the head of a PNG says.
struct Head {
    width: usize,
    height: usize,
    depth: usize,
    kind: u8,
}

impl Head {
    fn read(body: &[u8]) -> Option<Self> {
        let [w1, w2, w3, w4, h1, h2, h3, h4, depth, kind, 0, 0, 0] = *body else {
            return None;
        };
        let number = |four| {
            usize::try_from(u32::from_be_bytes(four))
                .ok()
                .filter(|n| *n > 0)
        };
        let head = Self {
            width: number([w1, w2, w3, w4])?,
            height: number([h1, h2, h3, h4])?,
            depth: usize::from(depth),
            kind,
        };
        let fits = match kind {
            0 => matches!(depth, 1 | 2 | 4 | 8 | 16),
            3 => matches!(depth, 1 | 2 | 4 | 8),
            2 | 4 | 6 => matches!(depth, 8 | 16),
            _ => false,
        };
        fits.then_some(head)
    }

    /// Samples of a pixel.
    const fn samples(&self) -> usize {
        match self.kind {
            2 => 3,
            4 => 2,
            6 => 4,
            _ => 1,
        }
    }

    const fn row_bytes(&self) -> usize {
        (self.width * self.samples() * self.depth).div_ceil(8)
    }
}

/// Reads a PNG.
///
/// # Errors
/// The end of a sentence without a full stop.
pub(super) fn read(bytes: &[u8]) -> Result<Pixels, String> {
    let damaged = "is a damaged PNG";
    let mut chunks = chunks(bytes);
    let first = chunks.next().filter(|(kind, _)| *kind == *b"IHDR");
    let (_, body) = first.ok_or(damaged)?;
    if body.get(12) == Some(&1) {
        return Err("is an interlaced PNG; save it without interlacing".to_owned());
    }
    let head = Head::read(body).ok_or(damaged)?;
    if head.width.saturating_mul(head.height) > MOST_PIXELS {
        return Err(format!(
            "has {} by {} pixels; save it smaller, such as 400 across",
            head.width, head.height
        ));
    }
    let (mut palette, mut clear, mut packed) = (&[][..], &[][..], Vec::new());
    for (kind, body) in chunks {
        match &kind {
            b"PLTE" => palette = body,
            b"tRNS" => clear = body,
            b"IDAT" => packed.extend_from_slice(body),
            _ => {}
        }
    }
    let size = (head.row_bytes() + 1) * head.height;
    let mut rows = unpacked(&packed, size).ok_or(damaged)?;
    if rows.len() < size {
        return Err(damaged.to_owned());
    }
    unfilter(&mut rows, &head).ok_or(damaged)?;
    pixels(&rows, &head, palette, clear).ok_or_else(|| damaged.to_owned())
}

/// Kinds and bodies of the chunks; ends where one isn't whole.
fn chunks(bytes: &[u8]) -> impl Iterator<Item = ([u8; 4], &[u8])> {
    let mut rest = bytes.get(PNG.len()..).unwrap_or_default();
    std::iter::from_fn(move || {
        let length = u32::from_be_bytes(rest.get(..4)?.try_into().ok()?);
        let length = usize::try_from(length).ok()?;
        let kind: [u8; 4] = rest.get(4..8)?.try_into().ok()?;
        let body = rest.get(8..length.checked_add(8)?)?;
        rest = rest.get(length + 12..).unwrap_or_default();
        Some((kind, body))
    })
}

/// The packed data of a PNG.
pub(super) fn data(bytes: &[u8]) -> Vec<u8> {
    let data = chunks(bytes).filter(|(kind, _)| kind == b"IDAT");
    data.flat_map(|(_, body)| body.to_vec()).collect()
}

/// Takes the filters from the rows, in place; section 9 of the standard.
fn unfilter(rows: &mut [u8], head: &Head) -> Option<()> {
    let step = (head.samples() * head.depth).div_ceil(8);
    let length = head.row_bytes();
    let mut before = vec![0_u8; length];
    for row in rows.chunks_exact_mut(length + 1) {
        let (filter, row) = row.split_first_mut()?;
        for at in 0..length {
            let left = if at < step { 0 } else { row[at - step] };
            let corner = if at < step { 0 } else { before[at - step] };
            let above = before[at];
            let guess = match filter {
                0 => 0,
                1 => left,
                2 => above,
                3 => u8::midpoint(left, above),
                4 => paeth(left, above, corner),
                _ => return None,
            };
            row[at] = row[at].wrapping_add(guess);
        }
        before.copy_from_slice(row);
    }
    Some(())
}

fn paeth(left: u8, above: u8, corner: u8) -> u8 {
    let guess = i16::from(left) + i16::from(above) - i16::from(corner);
    let off = |of: u8| (guess - i16::from(of)).abs();
    if off(left) <= off(above) && off(left) <= off(corner) {
        left
    } else if off(above) <= off(corner) {
        above
    } else {
        corner
    }
}

/// The rows as pixels on white.
fn pixels(rows: &[u8], head: &Head, palette: &[u8], clear: &[u8]) -> Option<Pixels> {
    let most = (1_u32 << head.depth.min(8)) - 1;
    let mut rgb = Vec::with_capacity(head.width * head.height);
    for row in rows.chunks_exact(head.row_bytes() + 1) {
        let row = &row[1..];
        // Of 16 bits the upper 8 are kept.
        let sample = |at: usize| -> u8 {
            match head.depth {
                16 => row[at * 2],
                8 => row[at],
                depth => {
                    let bit = at * depth;
                    let byte = u32::from(row[bit / 8]);
                    let value = (byte >> (8 - depth - bit % 8)) & most;
                    u8::try_from(value).unwrap_or(0)
                }
            }
        };
        let grey = |value: u8| {
            let scaled = u32::from(value) * 255 / most;
            [u8::try_from(scaled).unwrap_or(255); 3]
        };
        // One colour may be named that is clear; its upper halves count.
        let named = |values: &[u8]| {
            let same = |(n, value): (usize, &u8)| {
                let at = n * 2 + usize::from(head.depth != 16);
                clear.get(at) == Some(value)
            };
            !clear.is_empty() && values.iter().enumerate().all(same)
        };
        let solid = |is_clear: bool| if is_clear { 0 } else { 255 };
        for x in 0..head.width {
            let (colour, alpha) = match head.kind {
                0 => {
                    let value = sample(x);
                    (grey(value), solid(named(&[value])))
                }
                2 => {
                    let colour = [0, 1, 2].map(|n| sample(x * 3 + n));
                    (colour, solid(named(&colour)))
                }
                3 => {
                    let index = usize::from(sample(x));
                    let colour = palette.get(index * 3..index * 3 + 3)?;
                    let alpha = clear.get(index).copied().unwrap_or(255);
                    (colour.try_into().ok()?, alpha)
                }
                4 => ([sample(x * 2); 3], sample(x * 2 + 1)),
                _ => ([0, 1, 2].map(|n| sample(x * 4 + n)), sample(x * 4 + 3)),
            };
            rgb.push(colour.map(|c| on_white(c, alpha)));
        }
    }
    Some(Pixels {
        width: head.width,
        height: head.height,
        rgb,
    })
}

fn on_white(colour: u8, alpha: u8) -> u8 {
    let mixed = u32::from(colour) * u32::from(alpha) + 255 * (255 - u32::from(alpha));
    u8::try_from((mixed + 127) / 255).unwrap_or(255)
}

/// Writes pixels as a PNG of 8 bits, grey where all are.
pub(super) fn write(pixels: &Pixels) -> Vec<u8> {
    let grey = pixels.rgb.iter().all(|[r, g, b]| r == g && g == b);
    let mut rows = Vec::new();
    for row in pixels.rgb.chunks(pixels.width) {
        rows.push(0);
        for pixel in row {
            rows.extend_from_slice(if grey { &pixel[..1] } else { pixel });
        }
    }
    let edge = |n: usize| u32::try_from(n).unwrap_or(u32::MAX).to_be_bytes();
    let mut head = [edge(pixels.width), edge(pixels.height)].concat();
    head.extend_from_slice(&[8, if grey { 0 } else { 2 }, 0, 0, 0]);
    let mut bytes = PNG.to_vec();
    for (kind, body) in [
        (b"IHDR", head),
        (b"IDAT", packed(&rows)),
        (b"IEND", Vec::new()),
    ] {
        bytes.extend_from_slice(&edge(body.len()));
        let own = [kind.as_slice(), &body].concat();
        bytes.extend_from_slice(&own);
        bytes.extend_from_slice(&crc(&own).to_be_bytes());
    }
    bytes
}

/// The checksum of a chunk; annex D of the standard.
fn crc(bytes: &[u8]) -> u32 {
    let mut crc = u32::MAX;
    for byte in bytes {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            let low = crc & 1;
            crc >>= 1;
            if low == 1 {
                crc ^= 0xEDB8_8320;
            }
        }
    }
    !crc
}

/// Unpacks zlib's form (RFC 1950) to at most so many bytes and what is padding; the
/// PDF writer's own library does it.
fn unpacked(packed: &[u8], size: usize) -> Option<Vec<u8>> {
    let filter = DictItem::Name(b"FlateDecode".to_vec());
    let document = one_stream(
        BTreeMap::from([("Filter".to_owned(), filter)]),
        packed,
        false,
    );
    let file =
        printpdf::to_lopdf_doc(&document, &PdfSaveOptions::default(), &mut Vec::new());
    let mut streams = file.objects.values().filter_map(|o| o.as_stream().ok());
    let own = streams.find(|s| s.content == packed)?;
    own.decompressed_content_with_limit(size.checked_add(65_536)?)
        .ok()
}

/// Packs into zlib's form.
fn packed(bytes: &[u8]) -> Vec<u8> {
    let document = one_stream(BTreeMap::new(), bytes, true);
    let mut file =
        printpdf::to_lopdf_doc(&document, &PdfSaveOptions::default(), &mut Vec::new());
    let of = |o: &(_, _)| -> bool { matches!(o, (_, true)) };
    let ids: Vec<_> = file
        .objects
        .iter()
        .map(|(id, o)| (*id, o.as_stream().is_ok_and(|s| s.content == bytes)))
        .filter(of)
        .collect();
    file.compress();
    let own = ids.first().and_then(|(id, _)| file.objects.get(id));
    let own = own.and_then(|o| o.as_stream().ok());
    match own.filter(|s| s.is_compressed()) {
        Some(own) => own.content.clone(),
        None => stored(bytes),
    }
}

fn one_stream(
    dict: BTreeMap<String, DictItem>,
    content: &[u8],
    compress: bool,
) -> PdfDocument {
    let mut document = PdfDocument::new("");
    let object = XObject::External(ExternalXObject {
        stream: ExternalStream {
            dict,
            content: content.to_vec(),
            compress,
        },
        width: None,
        height: None,
        dpi: None,
    });
    let id = XObjectId("one".to_owned());
    let _ = document.resources.xobjects.map.insert(id, object);
    document
}

/// zlib's form without packing, for what doesn't get smaller: a few bytes.
fn stored(bytes: &[u8]) -> Vec<u8> {
    let mut out = vec![0x78, 0x01];
    let mut blocks = bytes.chunks(0xFFFF).peekable();
    while let Some(block) = blocks.next() {
        let length = u16::try_from(block.len()).unwrap_or(u16::MAX);
        out.push(u8::from(blocks.peek().is_none()));
        out.extend_from_slice(&length.to_le_bytes());
        out.extend_from_slice(&(!length).to_le_bytes());
        out.extend_from_slice(block);
    }
    let (mut a, mut b) = (1_u32, 0_u32);
    for byte in bytes {
        a = (a + u32::from(*byte)) % 65_521;
        b = (b + a) % 65_521;
    }
    out.extend_from_slice(&(b << 16 | a).to_be_bytes());
    out
}
