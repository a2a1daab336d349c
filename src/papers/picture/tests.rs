//! Pictures that were made here and back again, and what is none.

use super::*;

/// A picture whose pixels all differ.
fn pixels(width: usize, height: usize) -> png::Pixels {
    let colour = |n: usize| {
        let byte = |n: usize| u8::try_from(n % 251).unwrap();
        [byte(n * 7), byte(n * 11), byte(n * 13)]
    };
    png::Pixels {
        width,
        height,
        rgb: (0..width * height).map(colour).collect(),
    }
}

/// A PNG with these fields behind its edges, and chunks.
fn made(width: u8, height: u8, kind: [u8; 5], chunks: &[(&[u8; 4], &[u8])]) -> Vec<u8> {
    let mut bytes = PNG.to_vec();
    let mut head = vec![0, 0, 0, width, 0, 0, 0, height];
    head.extend_from_slice(&kind);
    let all = [(b"IHDR", head.as_slice())];
    for (kind, body) in all.iter().chain(chunks) {
        bytes.extend_from_slice(&u32::try_from(body.len()).unwrap().to_be_bytes());
        bytes.extend_from_slice(*kind);
        bytes.extend_from_slice(body);
        bytes.extend_from_slice(&[0; 4]);
    }
    bytes
}

/// Rows without packing, as zlib has them.
fn rows(bytes: &[u8]) -> Vec<u8> {
    let length = u16::try_from(bytes.len()).unwrap();
    let mut out = vec![0x78, 0x01, 1];
    out.extend_from_slice(&length.to_le_bytes());
    out.extend_from_slice(&(!length).to_le_bytes());
    out.extend_from_slice(bytes);
    let (mut a, mut b) = (1_u32, 0_u32);
    for byte in bytes {
        a = (a + u32::from(*byte)) % 65_521;
        b = (b + a) % 65_521;
    }
    out.extend_from_slice(&(b << 16 | a).to_be_bytes());
    out
}

#[test]
fn what_is_written_is_read_back() {
    for (width, height) in [(1, 1), (3, 2), (97, 41)] {
        let own = pixels(width, height);
        assert_eq!(png::read(&png::write(&own)), Ok(own));
    }
}

#[test]
fn every_kind_of_pixel_is_read_on_white() {
    let read = |kind, chunks: &[(&[u8; 4], &[u8])]| {
        png::read(&made(2, 1, kind, chunks)).unwrap().rgb
    };
    let idat = |bytes: &[u8]| rows(bytes);
    // Grey of one bit: black, white.
    let grey = read([1, 0, 0, 0, 0], &[(b"IDAT", &idat(&[0, 0b0100_0000]))]);
    assert_eq!(grey, [[0; 3], [255; 3]]);
    // A palette whose second colour is half clear.
    let own = read(
        [8, 3, 0, 0, 0],
        &[
            (b"PLTE", &[10, 20, 30, 0, 0, 0]),
            (b"tRNS", &[255, 128]),
            (b"IDAT", &idat(&[0, 0, 1])),
        ],
    );
    assert_eq!(own, [[10, 20, 30], [127; 3]]);
    // Colours with their own transparency: red, and nothing at all.
    let clear = read(
        [8, 6, 0, 0, 0],
        &[(b"IDAT", &idat(&[0, 255, 0, 0, 255, 1, 2, 3, 0]))],
    );
    assert_eq!(clear, [[255, 0, 0], [255; 3]]);
    // Sixteen bits, and a filter: the second pixel is the first and 1 more.
    let deep = read([16, 0, 0, 0, 0], &[(b"IDAT", &idat(&[1, 0x40, 0, 1, 0]))]);
    assert_eq!(deep, [[0x40; 3], [0x41; 3]]);
}

#[test]
fn a_large_picture_is_reduced_and_small_enough() {
    // Noise that can't be packed.
    let mut noise = pixels(900, 300);
    let mut state = 12_345_u32;
    for pixel in &mut noise.rgb {
        for colour in pixel {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            *colour = state.to_be_bytes()[0];
        }
    }
    let kept = ready(&png::write(&noise)).unwrap();
    assert!(kept.bytes.len() <= MOST_BYTES);
    assert_eq!(kept.width, kept.height * 3);
    assert!(kept.width >= 100);
    // The same file gives the same bytes, and text gives the picture back.
    assert_eq!(ready(&png::write(&noise)).unwrap(), kept);
    assert_eq!(Picture::parse(&kept.words()), Ok(kept));
    // A flat one keeps its edge.
    let mut flat = pixels(720, 720);
    flat.rgb.fill([0, 40, 90]);
    let kept = ready(&png::write(&flat)).unwrap();
    assert_eq!((kept.width, kept.height, kept.colours), (360, 360, 3));
    assert_eq!(png::read(&kept.bytes).unwrap().rgb[0], [0, 40, 90]);
}

#[test]
fn what_cant_be_read_is_said_in_one_piece() {
    let why = |bytes: &[u8]| ready(bytes).unwrap_err();
    assert_eq!(why(b"%PDF"), "is neither PNG nor JPEG");
    assert_eq!(why(PNG), "is a damaged PNG");
    let interlaced = made(2, 1, [8, 0, 0, 0, 1], &[]);
    assert!(
        why(&interlaced).contains("interlac"),
        "{}",
        why(&interlaced)
    );
    let whole = png::write(&pixels(9, 9));
    for end in 0..whole.len() - 16 {
        assert!(ready(&whole[..end]).is_err(), "{end}");
    }
    // A little file that would unpack to very much.
    let bomb = made(255, 255, [8, 2, 0, 0, 0], &[(b"IDAT", &rows(&[0; 40]))]);
    assert_eq!(why(&bomb), "is a damaged PNG");
}

#[test]
fn a_jpeg_keeps_no_word_of_its_camera() {
    let mut bytes = vec![0xFF, 0xD8];
    let segments: [(u8, &[u8]); 4] = [
        (0xE0, b"JFIF\0\x01\x01\0\0\x01\0\x01\0\0"),
        (0xE1, b"Exif\0\0 taken at Quorthalline's house"),
        (0xFE, b"a remark"),
        (
            0xC0,
            &[8, 0, 5, 0, 7, 3, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0],
        ),
    ];
    for (marker, body) in segments {
        let length = u16::try_from(body.len() + 2).unwrap().to_be_bytes();
        bytes.extend_from_slice(&[0xFF, marker, length[0], length[1]]);
        bytes.extend_from_slice(body);
    }
    bytes.extend_from_slice(&[0xFF, 0xDA, 0, 2, 1, 2, 3, 0xFF, 0xD9]);
    let kept = ready(&bytes).unwrap();
    assert_eq!((kept.width, kept.height, kept.colours), (7, 5, 3));
    let text = String::from_utf8_lossy(&kept.bytes).into_owned();
    assert!(text.contains("JFIF") && !text.contains("house") && !text.contains("remark"));
    assert!(kept.bytes.ends_with(&[1, 2, 3, 0xFF, 0xD9]));
}
