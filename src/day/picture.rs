//! The school's picture, as the day keeps it.
//!
//! It is kept among the day's settings, as text, so that it goes wherever the
//! journal goes: into backups, replays and the next day like this one. So it is
//! small: a JPEG of one or three colours, or a PNG of 8 bits without transparency.

use std::sync::Arc;

/// Most bytes of a picture that is kept.
pub const MOST_BYTES: usize = 64 * 1024;

/// Most pixels along an edge of a picture that is kept.
pub const MOST_PIXELS: u32 = 2_000;

/// The school whose day it is.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct School {
    /// Its name; may be empty.
    pub name: String,
    /// Its picture.
    pub picture: Option<Arc<Picture>>,
}

/// How a picture is packed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Packing {
    /// JPEG (ITU-T T.81), as it is.
    Jpeg,
    /// PNG (third edition, W3C): 8 bits, grey or three colours, not interlaced.
    Png,
}

/// A small picture that can be printed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// How it is packed.
    pub packing: Packing,
    /// Pixels across, 1 to [`MOST_PIXELS`].
    pub width: u32,
    /// Pixels down, 1 to [`MOST_PIXELS`].
    pub height: u32,
    /// Colours of a pixel: 1 is grey, 3 are red, green and blue.
    pub colours: u8,
    /// The file's bytes, at most [`MOST_BYTES`].
    pub bytes: Vec<u8>,
}

impl Picture {
    /// Reads a file's bytes.
    ///
    /// # Errors
    /// What is wrong, as the end of a sentence without a full stop.
    pub fn read(bytes: &[u8]) -> Result<Self, String> {
        if bytes.len() > MOST_BYTES {
            return Err(format!(
                "has {} KB; at most {} KB are kept",
                bytes.len().div_ceil(1024),
                MOST_BYTES / 1024
            ));
        }
        let (packing, (width, height, colours)) = if bytes.starts_with(PNG) {
            (Packing::Png, png_head(bytes).ok_or(UNREADABLE)?)
        } else if bytes.starts_with(JPEG) {
            (Packing::Jpeg, jpeg_head(bytes)?)
        } else {
            return Err("is neither PNG nor JPEG".to_owned());
        };
        if width == 0 || height == 0 || width > MOST_PIXELS || height > MOST_PIXELS {
            return Err(format!(
                "has {width} by {height} pixels; allowed are 1 to {MOST_PIXELS} along an \
                 edge"
            ));
        }
        Ok(Self {
            packing,
            width,
            height,
            colours,
            bytes: bytes.to_vec(),
        })
    }

    /// Reads what [`words`](Self::words) wrote.
    ///
    /// # Errors
    /// As [`read`](Self::read).
    pub fn parse(words: &str) -> Result<Self, String> {
        let bytes = from_base64(words).ok_or("is no picture in base64")?;
        Self::read(&bytes)
    }

    /// The picture as text: base64 (RFC 4648, section 4) without padding.
    pub fn words(&self) -> String {
        to_base64(&self.bytes)
    }
}

/// How a PNG and a JPEG begin.
pub const PNG: &[u8] = b"\x89PNG\r\n\x1a\n";
/// How a JPEG begins: start of image, then a marker.
pub const JPEG: &[u8] = b"\xff\xd8\xff";

const UNREADABLE: &str = "is damaged, or in a form of PNG that isn't kept";

/// Width, height and colours of a PNG of the kind that is kept.
fn png_head(bytes: &[u8]) -> Option<(u32, u32, u8)> {
    let head = bytes.get(8..33)?;
    if head.get(4..8)? != b"IHDR" || !bytes.windows(4).any(|w| w == b"IDAT") {
        return None;
    }
    let number = |at: usize| {
        let four: [u8; 4] = head.get(at..at + 4)?.try_into().ok()?;
        Some(u32::from_be_bytes(four))
    };
    let colours = match head.get(16..21)? {
        [8, 0, 0, 0, 0] => 1,
        [8, 2, 0, 0, 0] => 3,
        _ => return None,
    };
    Some((number(8)?, number(12)?, colours))
}

/// Width, height and colours of a JPEG, from the head of its frame.
fn jpeg_head(bytes: &[u8]) -> Result<(u32, u32, u8), String> {
    let damaged = || "is a damaged JPEG".to_owned();
    let mut at = 2;
    loop {
        let (marker, body) = segment(bytes, at).ok_or_else(damaged)?;
        // Frames: baseline, extended and progressive; the rest is rare.
        if matches!(marker, 0xC0..=0xC2) {
            let [8, h1, h2, w1, w2, colours, ..] = *body else {
                return Err("has more than 8 bits a colour; save it with 8".to_owned());
            };
            if colours != 1 && colours != 3 {
                return Err(format!(
                    "has {colours} colours a pixel; save it as RGB or grey"
                ));
            }
            let number = |a, b| u32::from(u16::from_be_bytes([a, b]));
            return Ok((number(w1, w2), number(h1, h2), colours));
        }
        if marker == 0xDA || marker == 0xD9 {
            return Err(damaged());
        }
        at += 4 + body.len();
    }
}

/// The marker at a place of a JPEG and what belongs to it.
pub fn segment(bytes: &[u8], at: usize) -> Option<(u8, &[u8])> {
    let [0xFF, marker, a, b] = *bytes.get(at..at + 4)? else {
        return None;
    };
    let length = usize::from(u16::from_be_bytes([a, b]));
    let body = bytes.get(at + 4..(at + 2).checked_add(length)?)?;
    Some((marker, body))
}

const DIGITS: &[u8; 64] =
    b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

fn to_base64(bytes: &[u8]) -> String {
    let mut words = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let part = |at: usize| u32::from(three.get(at).copied().unwrap_or(0));
        let all = part(0) << 16 | part(1) << 8 | part(2);
        for n in 0..=three.len() {
            let digit = (all >> (18 - 6 * n)) & 63;
            let digit = usize::try_from(digit).unwrap_or(0);
            words.push(char::from(DIGITS[digit]));
        }
    }
    words
}

fn from_base64(words: &str) -> Option<Vec<u8>> {
    let words = words.trim().trim_end_matches('=').as_bytes();
    let mut bytes = Vec::with_capacity(words.len() * 3 / 4);
    for four in words.chunks(4) {
        let mut all = 0_u32;
        for digit in four {
            let value = match digit {
                b'A'..=b'Z' => digit - b'A',
                b'a'..=b'z' => digit - b'a' + 26,
                b'0'..=b'9' => digit - b'0' + 52,
                b'+' => 62,
                b'/' => 63,
                _ => return None,
            };
            all = all << 6 | u32::from(value);
        }
        all <<= 6 * (4 - four.len());
        let three = all.to_be_bytes();
        match four.len() {
            4 => bytes.extend_from_slice(&three[1..4]),
            3 => bytes.extend_from_slice(&three[1..3]),
            2 => bytes.extend_from_slice(&three[1..2]),
            _ => return None,
        }
    }
    Some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_written_as_text_is_read_back() {
        for length in 0..40_u8 {
            let bytes: Vec<u8> = (0..length).map(|n| n.wrapping_mul(83)).collect();
            assert_eq!(from_base64(&to_base64(&bytes)), Some(bytes));
        }
        // RFC 4648, section 10.
        assert_eq!(to_base64(b"foobar"), "Zm9vYmFy");
        assert_eq!(from_base64("Zm9vYg=="), Some(b"foob".to_vec()));
        assert_eq!(from_base64("Zm9v!mFy"), None);
    }

    #[test]
    fn what_is_no_small_picture_is_named() {
        let why = |bytes: &[u8]| Picture::read(bytes).unwrap_err();
        assert_eq!(why(b"GIF89a"), "is neither PNG nor JPEG");
        assert_eq!(why(b"\xff\xd8\xff\xe0\x00"), "is a damaged JPEG");
        assert!(why(PNG).starts_with("is damaged"));
        assert!(why(&[0; MOST_BYTES + 1]).contains("65 KB; at most 64 KB"));
        // The head of a frame with four colours.
        let four = [
            0xFF, 0xD8, 0xFF, 0xC0, 0, 11, 8, 0, 5, 0, 7, 4, 0, 0, 0, 0, 0,
        ];
        assert!(why(&four).contains("4 colours"), "{}", why(&four));
        let mut three = four;
        three[11] = 3;
        let read = Picture::read(&three).unwrap();
        assert_eq!((read.width, read.height, read.colours), (7, 5, 3));
    }
}
