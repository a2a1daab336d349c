//! Pictures of few colours as PNG files, without a library for them.
//!
//! Reads only what it writes: a palette, one sample a byte, rows without a
//! filter, one block with fixed Huffman codes (RFC 1950 and 1951; PNG, third
//! edition, W3C).

/// A picture: its width and height in pixels, and red, green and blue of each.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pixels {
    pub width: usize,
    pub height: usize,
    pub rgb: Vec<[u8; 3]>,
}

const SIGNATURE: &[u8] = b"\x89PNG\r\n\x1a\n";

/// Base and extra bits of the lengths from code 257, and of the distances.
const LENGTHS: [(u16, u8); 29] = [
    (3, 0),
    (4, 0),
    (5, 0),
    (6, 0),
    (7, 0),
    (8, 0),
    (9, 0),
    (10, 0),
    (11, 1),
    (13, 1),
    (15, 1),
    (17, 1),
    (19, 2),
    (23, 2),
    (27, 2),
    (31, 2),
    (35, 3),
    (43, 3),
    (51, 3),
    (59, 3),
    (67, 4),
    (83, 4),
    (99, 4),
    (115, 4),
    (131, 5),
    (163, 5),
    (195, 5),
    (227, 5),
    (258, 0),
];
const DISTANCES: [(u16, u8); 30] = [
    (1, 0),
    (2, 0),
    (3, 0),
    (4, 0),
    (5, 1),
    (7, 1),
    (9, 2),
    (13, 2),
    (17, 3),
    (25, 3),
    (33, 4),
    (49, 4),
    (65, 5),
    (97, 5),
    (129, 6),
    (193, 6),
    (257, 7),
    (385, 7),
    (513, 8),
    (769, 8),
    (1025, 9),
    (1537, 9),
    (2049, 10),
    (3073, 10),
    (4097, 11),
    (6145, 11),
    (8193, 12),
    (12289, 12),
    (16385, 13),
    (24577, 13),
];

/// Writes a picture of at most 256 colours.
pub fn written(picture: &Pixels) -> Vec<u8> {
    let mut palette = picture.rgb.clone();
    palette.sort_unstable();
    palette.dedup();
    assert!(palette.len() <= 256, "{} colours", palette.len());
    let mut rows = Vec::with_capacity(picture.rgb.len() + picture.height);
    for row in picture.rgb.chunks(picture.width) {
        rows.push(0);
        rows.extend(
            row.iter()
                .map(|p| u8::try_from(palette.binary_search(p).unwrap()).unwrap()),
        );
    }
    let mut head = Vec::new();
    head.extend(u32::try_from(picture.width).unwrap().to_be_bytes());
    head.extend(u32::try_from(picture.height).unwrap().to_be_bytes());
    head.extend([8, 3, 0, 0, 0]);
    let mut data = vec![0x78, 0x01];
    data.extend(deflated(&rows));
    data.extend(adler(&rows).to_be_bytes());
    let mut file = SIGNATURE.to_vec();
    chunk(&mut file, b"IHDR", &head);
    chunk(&mut file, b"PLTE", palette.as_flattened());
    chunk(&mut file, b"IDAT", &data);
    chunk(&mut file, b"IEND", &[]);
    file
}

/// Reads a picture; `None` where it isn't as it is written here.
pub fn read(file: &[u8]) -> Option<Pixels> {
    let mut rest = file.strip_prefix(SIGNATURE)?;
    let (mut size, mut palette, mut data) = ((0, 0), Vec::new(), Vec::new());
    while !rest.is_empty() {
        let long = usize::try_from(number(rest)?).ok()?;
        let kind = rest.get(4..8)?;
        let body = rest.get(8..8 + long)?;
        if crc(rest.get(4..8 + long)?) != number(rest.get(8 + long..)?)? {
            return None;
        }
        match kind {
            b"IHDR" if body.get(8..)? == [8, 3, 0, 0, 0] => {
                size = (number(body)?, number(&body[4..])?);
            }
            b"PLTE" => palette = body.as_chunks::<3>().0.to_vec(),
            b"IDAT" => data.extend_from_slice(body),
            b"IEND" => {}
            _ => return None,
        }
        rest = &rest[12 + long..];
    }
    let rows = inflated(data.get(2..data.len().checked_sub(4)?)?)?;
    if adler(&rows) != number(&data[data.len() - 4..])? {
        return None;
    }
    let (width, height) = (size.0 as usize, size.1 as usize);
    let mut rgb = Vec::with_capacity(width * height);
    for row in rows.chunks(width + 1) {
        if row[0] != 0 {
            return None;
        }
        for at in &row[1..] {
            rgb.push(*palette.get(usize::from(*at))?);
        }
    }
    (rgb.len() == width * height).then_some(Pixels { width, height, rgb })
}

fn number(bytes: &[u8]) -> Option<u32> {
    Some(u32::from_be_bytes(bytes.get(..4)?.try_into().ok()?))
}

fn chunk(file: &mut Vec<u8>, kind: &[u8; 4], body: &[u8]) {
    file.extend(u32::try_from(body.len()).unwrap().to_be_bytes());
    let from = file.len();
    file.extend(kind);
    file.extend(body);
    let crc = crc(&file[from..]);
    file.extend(crc.to_be_bytes());
}

fn crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0, |crc: u32, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| {
            (crc >> 1) ^ if crc & 1 == 1 { 0xedb8_8320 } else { 0 }
        })
    })
}

fn adler(bytes: &[u8]) -> u32 {
    let (a, b) = bytes.iter().fold((1, 0), |(a, b): (u32, u32), byte| {
        let a = (a + u32::from(*byte)) % 65521;
        (a, (a + b) % 65521)
    });
    (b << 16) | a
}

#[derive(Default)]
struct Out {
    bytes: Vec<u8>,
    held: u32,
    n: u8,
}

impl Out {
    fn bits(&mut self, value: u32, n: u8) {
        self.held |= value << self.n;
        self.n += n;
        while self.n >= 8 {
            self.bytes.push(self.held.to_le_bytes()[0]);
            self.held >>= 8;
            self.n -= 8;
        }
    }

    /// A Huffman code, which stands with its highest bit first.
    fn code(&mut self, code: u32, n: u8) {
        self.bits(code.reverse_bits() >> (32 - n), n);
    }

    fn symbol(&mut self, symbol: u16) {
        let s = u32::from(symbol);
        match symbol {
            0..=143 => self.code(0x30 + s, 8),
            144..=255 => self.code(0x190 + s - 144, 9),
            256..=279 => self.code(s - 256, 7),
            _ => self.code(0xc0 + s - 280, 8),
        }
    }

    fn valued(&mut self, of: &[(u16, u8)], value: usize, code: impl Fn(&mut Self, u16)) {
        let at = of.partition_point(|(base, _)| usize::from(*base) <= value) - 1;
        let (base, extra) = of[at];
        code(self, u16::try_from(at).unwrap());
        self.bits(u32::try_from(value - usize::from(base)).unwrap(), extra);
    }
}

fn deflated(bytes: &[u8]) -> Vec<u8> {
    const LOOK: usize = 64;
    let mut out = Out::default();
    out.bits(0b011, 3);
    // Where each run of three bytes was last, and where it was before.
    let mut last = std::collections::BTreeMap::<[u8; 3], usize>::new();
    let mut before = vec![usize::MAX; bytes.len()];
    let mut at = 0;
    while at < bytes.len() {
        let (mut longest, mut back) = (0, 0);
        let most = (bytes.len() - at).min(258);
        let mut from = bytes
            .get(at..at + 3)
            .and_then(|run| last.get(run).copied())
            .unwrap_or(usize::MAX);
        for _ in 0..LOOK {
            if from == usize::MAX || at - from > 32768 {
                break;
            }
            let same = |n: &usize| bytes[from + n] == bytes[at + n];
            let long = (0..most).take_while(same).count();
            if long > longest {
                (longest, back) = (long, at - from);
            }
            if long == most {
                break;
            }
            from = before[from];
        }
        let step = if longest >= 3 {
            out.valued(&LENGTHS, longest, |out, at| out.symbol(257 + at));
            out.valued(&DISTANCES, back, |out, at| out.code(u32::from(at), 5));
            longest
        } else {
            out.symbol(u16::from(bytes[at]));
            1
        };
        let end = at + step;
        while at < end {
            if let Some(run) = bytes.get(at..at + 3) {
                let old = last.insert(run.try_into().unwrap(), at);
                before[at] = old.unwrap_or(usize::MAX);
            }
            at += 1;
        }
    }
    out.symbol(256);
    out.bits(0, 7);
    out.bytes
}

struct In<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl In<'_> {
    fn bit(&mut self) -> Option<u32> {
        let byte = self.bytes.get(self.at / 8)?;
        let bit = (byte >> (self.at % 8)) & 1;
        self.at += 1;
        Some(u32::from(bit))
    }

    fn bits(&mut self, n: u8) -> Option<u32> {
        (0..n).try_fold(0, |sum, i| Some(sum | (self.bit()? << i)))
    }

    fn code(&mut self, before: u32, n: u8) -> Option<u32> {
        (0..n).try_fold(before, |sum, _| Some((sum << 1) | self.bit()?))
    }

    fn symbol(&mut self) -> Option<u32> {
        let seven = self.code(0, 7)?;
        if seven < 0x18 {
            return Some(256 + seven);
        }
        let eight = self.code(seven, 1)?;
        match eight {
            0x30..=0xbf => Some(eight - 0x30),
            0xc0..=0xc7 => Some(280 + eight - 0xc0),
            _ => Some(144 + self.code(eight, 1)? - 0x190),
        }
    }

    fn valued(&mut self, of: &[(u16, u8)], at: u32) -> Option<usize> {
        let (base, extra) = *of.get(at as usize)?;
        Some(usize::from(base) + self.bits(extra)? as usize)
    }
}

fn inflated(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut from = In { bytes, at: 0 };
    if from.bits(3)? != 0b011 {
        return None;
    }
    let mut done = Vec::new();
    loop {
        match from.symbol()? {
            byte @ 0..=255 => done.push(u8::try_from(byte).ok()?),
            256 => return Some(done),
            length => {
                let long = from.valued(&LENGTHS, length - 257)?;
                let at = from.code(0, 5)?;
                let back = from.valued(&DISTANCES, at)?;
                for _ in 0..long {
                    done.push(*done.get(done.len().checked_sub(back)?)?);
                }
            }
        }
    }
}
