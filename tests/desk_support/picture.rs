//! Pictures of windows, compared with those in `tests/pictures`.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use iced::{Element, Size, Theme};
use iced_test::core::{Event, clipboard, mouse, renderer, window};
use iced_test::futures::futures::executor::block_on;
use iced_test::renderer::Renderer;
use iced_test::renderer::core::renderer::Headless;
use iced_test::runtime::UserInterface;
use iced_test::runtime::user_interface::Cache;
use maxday::desk::app::Message;

use super::png::{self, Pixels};

/// The variable with which pictures are written anew.
const WRITE: &str = "MAXDAY_WRITE_PICTURES";

/// How near colours are stored as one.
const NEAR: u8 = 8;

/// How much of red, green or blue may differ in a pixel: what colours that are
/// stored as one differ by, and as much again for other machines' arithmetic.
const SHADE: u8 = 20;

/// How many pixels may differ more than that: fewer than one letter has.
const PIXELS: usize = 12;

/// Where the pictures are.
pub fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pictures")
}

/// What a window of that size shows, drawn without a window.
pub fn taken(size: Size, theme: &Theme, view: Element<'_, Message>) -> Pixels {
    let settings = super::settings();
    // A simulator loads the fonts.
    drop(iced_test::Simulator::<Message>::with_size(
        super::settings(),
        size,
        iced::widget::text(""),
    ));
    let mut drawn: Renderer = block_on(<Renderer as Headless>::new(
        settings.default_font,
        settings.default_text_size,
        Some("tiny-skia"),
    ))
    .unwrap();
    let mut ui = UserInterface::build(view, size, Cache::default(), &mut drawn);
    // Buttons learn only from an event of the window that they aren't pointed
    // at; nothing is drawn by the time that it names.
    #[allow(clippy::disallowed_methods)]
    let redraw = window::Event::RedrawRequested(std::time::Instant::now());
    let mut messages = Vec::new();
    let _ = ui.update(
        &[Event::Window(redraw)],
        mouse::Cursor::Unavailable,
        &mut drawn,
        &mut clipboard::Null,
        &mut messages,
    );
    let palette = theme.palette();
    ui.draw(
        &mut drawn,
        theme,
        &renderer::Style {
            text_color: palette.text,
        },
        mouse::Cursor::Unavailable,
    );
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let physical = Size::new(size.width as u32, size.height as u32);
    let rgba = drawn.screenshot(physical, 1.0, palette.background);
    Pixels {
        width: physical.width as usize,
        height: physical.height as usize,
        rgb: rgba
            .as_chunks::<4>()
            .0
            .iter()
            .map(|p| [p[0], p[1], p[2]])
            .collect(),
    }
}

/// A picture in its own most frequent colours; what is near one of them becomes
/// it. So grounds and letters keep their colours, and their edges have few.
pub fn reduced(mut picture: Pixels) -> Pixels {
    let mut counts = BTreeMap::<[u8; 3], usize>::new();
    for color in &picture.rgb {
        *counts.entry(*color).or_default() += 1;
    }
    let mut most: Vec<_> = counts.into_iter().collect();
    most.sort_by_key(|(color, n)| (std::cmp::Reverse(*n), *color));
    let mut kept: Vec<[u8; 3]> = Vec::new();
    let mut instead = BTreeMap::new();
    for (color, _) in most {
        let near = kept.iter().find(|other| apart(&color, other) <= NEAR);
        let _ = instead.insert(color, near.copied().unwrap_or(color));
        if near.is_none() {
            kept.push(color);
        }
    }
    for color in &mut picture.rgb {
        *color = instead[color];
    }
    picture
}

/// How far two colours are apart in the channel in which they differ most.
fn apart(a: &[u8; 3], b: &[u8; 3]) -> u8 {
    let channels = a.iter().zip(b).map(|(a, b)| a.abs_diff(*b));
    channels.max().unwrap_or(0)
}

/// How many pixels differ; `None` where the sizes do.
pub fn differing(a: &Pixels, b: &Pixels) -> Option<usize> {
    let differs = |(a, b): (&[u8; 3], &[u8; 3])| a != b && apart(a, b) > SHADE;
    (a.width == b.width && a.height == b.height).then(|| {
        a.rgb
            .iter()
            .zip(&b.rgb)
            .filter(|pair| differs(*pair))
            .count()
    })
}

/// Compares a picture with the one of that name.
///
/// # Panics
/// Where there is none, or where it looks different; then what was drawn is
/// put into the folder for temporary files.
#[track_caller]
pub fn check(name: &str, size: Size, theme: &Theme, view: Element<'_, Message>) {
    let drawn = taken(size, theme, view);
    let file = folder().join(format!("{name}.png"));
    if std::env::var_os(WRITE).is_some() {
        std::fs::create_dir_all(folder()).unwrap();
        std::fs::write(&file, png::written(&reduced(drawn))).unwrap();
        return;
    }
    let Ok(bytes) = std::fs::read(&file) else {
        panic!("There is no picture {name}; write it with {WRITE}=1 and look at it.");
    };
    let Some(known) = png::read(&bytes) else {
        panic!("The picture {name} can't be read; write it with {WRITE}=1.");
    };
    let differ = differing(&known, &drawn);
    if differ.is_none_or(|n| n > PIXELS) {
        let new = std::env::temp_dir().join(format!("maxday-picture-{name}.png"));
        std::fs::write(&new, png::written(&reduced(drawn))).unwrap();
        let how = match differ {
            Some(n) => format!("{n} pixels differ"),
            None => "its size differs".to_owned(),
        };
        panic!(
            "{name} looks different: {how}; the new picture is {}.",
            new.display()
        );
    }
}
