//! Pictures on papers: how one is made ready to be kept, and how it is drawn.

mod embed;
mod png;

use std::sync::Arc;

use crate::day::picture::{JPEG, MOST_BYTES, PNG, Packing, Picture, segment};

pub(super) use embed::object;

/// Most bytes of a file that is made ready.
pub const MOST_FILE: usize = 8 * 1024 * 1024;

/// Edges in pixels to which a PNG is reduced, the first that is small enough: at the
/// head of a page 360 are more than any printer shows.
const EDGES: [usize; 4] = [360, 240, 160, 100];

/// A picture on a page; copies share its bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Image(Arc<Picture>);

impl Image {
    /// A picture to be drawn.
    pub const fn new(picture: Arc<Picture>) -> Self {
        Self(picture)
    }

    /// Width and height in points of the picture in a box of this size, with its own
    /// proportions.
    pub fn within(&self, width: f32, height: f32) -> (f32, f32) {
        let edge = |pixels: u32| f32::from(u16::try_from(pixels).unwrap_or(u16::MAX));
        let (across, down) = (edge(self.0.width), edge(self.0.height));
        let scale = (width / across).min(height / down);
        (across * scale, down * scale)
    }

    /// What is drawn.
    pub fn picture(&self) -> &Picture {
        &self.0
    }

    /// The packed pixels as a PDF holds them: a JPEG whole, of a PNG its data.
    pub(super) fn data(&self) -> Vec<u8> {
        match self.0.packing {
            Packing::Jpeg => self.0.bytes.clone(),
            Packing::Png => png::data(&self.0.bytes),
        }
    }
}

/// Makes a file's picture ready to be kept and printed.
///
/// A PNG is reduced, put on white where it is transparent, and packed anew; a JPEG
/// stays as it is, without what a camera tells of itself and of where it was.
///
/// # Errors
/// What is wrong with the file, as the end of a sentence without a full stop.
pub fn ready(bytes: &[u8]) -> Result<Picture, String> {
    if bytes.len() > MOST_FILE {
        return Err(format!(
            "has {} MB; at most {} MB are read",
            bytes.len().div_ceil(1024 * 1024),
            MOST_FILE / 1024 / 1024
        ));
    }
    if bytes.starts_with(JPEG) {
        let bare = bare_jpeg(bytes).ok_or("is a damaged JPEG")?;
        if bare.len() > MOST_BYTES {
            return Err(format!(
                "has {} KB; a JPEG may have {}, so save it smaller, or as PNG, which is \
                 reduced here",
                bare.len().div_ceil(1024),
                MOST_BYTES / 1024
            ));
        }
        return Picture::read(&bare);
    }
    if !bytes.starts_with(PNG) {
        return Err("is neither PNG nor JPEG".to_owned());
    }
    let pixels = png::read(bytes)?;
    for edge in EDGES {
        let packed = png::write(&pixels.reduced(edge));
        if packed.len() <= MOST_BYTES {
            return Picture::read(&packed);
        }
    }
    Err("can't be made small enough".to_owned())
}

/// A JPEG without remarks and what applications added; what says how its colours
/// are meant stays.
fn bare_jpeg(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut bare = bytes.get(..2)?.to_vec();
    let mut at = 2;
    loop {
        let (marker, body) = segment(bytes, at)?;
        if marker == 0xDA {
            bare.extend_from_slice(&bytes[at..]);
            return Some(bare);
        }
        let end = at + 4 + body.len();
        // APP0 (JFIF) and APP14 (the transform of the colours) stay.
        if !matches!(marker, 0xE1..=0xED | 0xEF | 0xFE) {
            bare.extend_from_slice(&bytes[at..end]);
        }
        at = end;
    }
}

#[cfg(test)]
mod tests;
