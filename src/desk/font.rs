//! The embedded typeface; the only place that names it.

use iced::Font;
use iced::font::Weight;

/// Regular, as bytes.
pub const REGULAR_BYTES: &[u8] =
    include_bytes!("../../resources/fonts/NotoSans-Regular.ttf");

/// Bold, as bytes.
pub const BOLD_BYTES: &[u8] = include_bytes!("../../resources/fonts/NotoSans-Bold.ttf");

/// Regular.
pub const REGULAR: Font = Font::with_name("Noto Sans");

/// Bold.
pub const BOLD: Font = Font {
    weight: Weight::Bold,
    ..REGULAR
};

/// The height of a capital letter, as a part of the type size.
pub const CAP_HEIGHT: f32 = 0.714;
