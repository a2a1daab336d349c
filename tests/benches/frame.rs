//! One frame of the table at 1920 by 1080, drawn by the software renderer into
//! memory, as the window's own presenter does it.

use std::path::PathBuf;
use std::time::Duration;

use iced::advanced::renderer::Style;
use iced::advanced::widget::{Id, Operation};
use iced::widget::{Column, Row, space, text};
use iced::{Element, Rectangle, Size, Theme, mouse};
use iced_test::runtime::user_interface::{Cache, UserInterface};
use iced_tiny_skia::graphics::{Viewport, damage};
use iced_tiny_skia::{Layer, Renderer};
use maxday::desk::app::{Desk, Message};
use maxday::desk::board::Board;
use maxday::desk::effects::{Effects, Folders, Moment};
use maxday::desk::screen::{ScreenId, table};
use maxday::desk::{font, settings, theme};

use crate::days::{context, write};
use crate::measure::{Folder, Times, alone, line, part, time};

const WIDTH: u32 = 1920;
const HEIGHT: u32 = 1080;

/// How much larger than usual the desk is drawn at that size.
const ZOOM: f32 = 1.4;

/// A window without a screen.
struct Window {
    renderer: Renderer,
    cache: Cache,
    viewport: Viewport,
    shown: Option<(Vec<Layer>, iced::Color)>,
    pixels: tiny_skia::Pixmap,
    mask: tiny_skia::Mask,
}

impl Window {
    fn new(zoom: f32) -> Self {
        Self {
            renderer: Renderer::new(font::REGULAR, settings().default_text_size),
            cache: Cache::default(),
            viewport: Viewport::with_physical_size(Size::new(WIDTH, HEIGHT), zoom),
            shown: None,
            pixels: tiny_skia::Pixmap::new(WIDTH, HEIGHT).unwrap(),
            mask: tiny_skia::Mask::new(WIDTH, HEIGHT).unwrap(),
        }
    }

    /// Lays a view out and draws what differs from the frame before: the times
    /// before and in drawing.
    fn frame(
        &mut self,
        view: Element<'_, Message>,
        theme: &Theme,
        style: iced::theme::Style,
    ) -> (Duration, Duration) {
        let size = self.viewport.logical_size();
        let laid = time(|| {
            let cache = std::mem::take(&mut self.cache);
            let mut ui = UserInterface::build(view, size, cache, &mut self.renderer);
            let text_color = style.text_color;
            ui.draw(
                &mut self.renderer,
                theme,
                &Style { text_color },
                mouse::Cursor::Unavailable,
            );
            self.cache = ui.into_cache();
        });
        let drawn = time(|| {
            let whole = Rectangle::with_size(size);
            let layers = self.renderer.layers().to_vec();
            let changed = match &self.shown {
                Some((before, color)) if *color == style.background_color => {
                    damage::diff(
                        before,
                        &layers,
                        |layer| vec![layer.bounds],
                        Layer::damage,
                    )
                }
                _ => vec![whole],
            };
            if !changed.is_empty() {
                let changed = damage::group(changed, whole);
                self.renderer.draw(
                    &mut self.pixels.as_mut(),
                    &mut self.mask,
                    &self.viewport,
                    &changed,
                    style.background_color,
                );
            }
            self.shown = Some((layers, style.background_color));
        });
        (laid, drawn)
    }

    /// All texts that are shown, with where they are.
    fn texts(&mut self, view: Element<'_, Message>) -> Vec<(Rectangle, String)> {
        let size = self.viewport.logical_size();
        let cache = std::mem::take(&mut self.cache);
        let mut ui = UserInterface::build(view, size, cache, &mut self.renderer);
        let mut found = Texts(Vec::new());
        ui.operate(&self.renderer, &mut found);
        self.cache = ui.into_cache();
        let whole = Rectangle::with_size(size);
        found.0.retain(|(at, _)| at.is_within(&whole));
        found.0
    }
}

struct Texts(Vec<(Rectangle, String)>);

impl Operation for Texts {
    fn traverse(&mut self, operate: &mut dyn FnMut(&mut dyn Operation)) {
        operate(self);
    }

    fn text(&mut self, _: Option<&Id>, at: Rectangle, text: &str) {
        self.0.push((at, text.to_owned()));
    }
}

/// A desk at the table of a day with 150 athletes on ten platforms, the first
/// flight of the first lift started.
fn desk(folder: &Folder) -> Desk {
    let path: PathBuf = folder.file("frame.maxday");
    let lifts = ["snatch", "clean-and-jerk"];
    write(&path, 150, &lifts, &[]);
    let folders = Folders {
        config: None,
        documents: path.parent().unwrap().to_owned(),
    };
    let mut effects = Effects::new(Moment::Fixed(context(10).at), folders);
    effects.open(&path).unwrap();
    let mut desk = Desk::new(effects);
    enter(&mut desk, "start snatch F0");
    desk
}

fn enter(desk: &mut Desk, words: &str) {
    let now = desk.effects_mut().now().plus_ms(1_000);
    desk.effects_mut().set_now(now);
    let typed = table::Message::Typed(words.to_owned());
    let _ = desk.update(Message::Table(typed));
    let _ = desk.update(Message::Table(table::Message::Entered));
}

pub fn run(folder: &Folder) {
    part("Frames at 1920 by 1080, software renderer");
    let settings = settings();
    {
        let mut fonts = iced_tiny_skia::graphics::text::font_system()
            .write()
            .unwrap();
        for font in settings.fonts {
            fonts.load_font(font);
        }
    }
    let mut desk = desk(folder);
    let light = theme::light();
    let mut window = Window::new(ZOOM);
    let _ = window.frame(desk.main(), &light, desk.style(&light));

    let [mut act, mut laid, mut drawn, mut all] = [(); 4].map(|()| Times::default());
    let mut board = Window::new(1.0);
    let [mut hall, mut tick] = [(); 2].map(|()| Times::default());
    for n in 0..90 {
        // A whole lift without the line: call, lights, declaration.
        let words = ["", "w", ""][n % 3];
        let acted = time(|| enter(&mut desk, words));
        let (a, b) = window.frame(desk.main(), &light, desk.style(&light));
        act.add(acted);
        laid.add(a);
        drawn.add(b);
        all.add(a + b);
        let theme = theme::board();
        let view = desk.on_board(Board::Hall);
        let (a, b) = board.frame(view, &theme, desk.style(&theme));
        hall.add(a + b);
        // Nothing but time.
        let now = desk.effects_mut().now().plus_ms(250);
        desk.effects_mut().set_now(now);
        let _ = desk.update(Message::Tick);
        let (a, b) = window.frame(desk.main(), &light, desk.style(&light));
        tick.add(a + b);
    }
    alone(
        "an act and what it changes, file included",
        &act,
        "(no target)",
    );
    alone(
        "table, one changed attempt: laid out",
        &laid,
        "(a part of it)",
    );
    alone(
        "table, one changed attempt: drawn",
        &drawn,
        "(a part of it)",
    );
    alone("table, one changed attempt: frame", &all, "16 ms");
    alone("table, time goes on", &tick, "16 ms");
    alone("hall board, one changed attempt: frame", &hall, "16 ms");
    screens(&mut desk);
}

/// Whole screens against a bare window with the same text.
fn screens(desk: &mut Desk) {
    let light = theme::light();
    for screen in ScreenId::ALL {
        let action = maxday::desk::action::Action::Show(screen);
        let _ = desk.update(Message::Act(action));
        let mut window = Window::new(ZOOM);
        let texts = window.texts(desk.main());
        let mut bare_window = Window::new(ZOOM);
        let (mut ours, mut bare) = (Times::default(), Times::default());
        for n in 0..15_u8 {
            let mut style = desk.style(&light);
            // The whole window is drawn where its ground differs.
            style.background_color.a = 1.0 - 1e-6 * f32::from(n);
            let (a, b) = window.frame(desk.main(), &light, style);
            let (c, d) = bare_window.frame(plain(&texts), &light, style);
            if n > 2 {
                ours.add(a + b);
                bare.add(c + d);
            }
        }
        let what = format!("{}, whole ({} texts)", screen.label(), texts.len());
        line(&what, &ours, &bare, "at most 1.5");
    }
}

/// The same texts in the same lines and nothing else.
fn plain<'a>(texts: &[(Rectangle, String)]) -> Element<'a, Message> {
    let mut sorted: Vec<&(Rectangle, String)> = texts.iter().collect();
    sorted.sort_by(|(a, _), (b, _)| a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x)));
    let mut page = Column::new();
    let mut y = 0.0;
    for line in sorted.chunk_by(|(a, _), (b, _)| (a.y - b.y).abs() < 2.0) {
        let top = line[0].0.y;
        page = page.push(space().height((top - y).max(0.0)));
        let mut row = Row::new();
        let mut x = 0.0;
        let mut high: f32 = 0.0;
        for (at, words) in line {
            row = row.push(space().width((at.x - x).max(0.0)));
            row = row.push(
                text(words.clone())
                    .size((at.height / 1.3).min(16.0))
                    .wrapping(text::Wrapping::None),
            );
            x = at.x + at.width;
            high = high.max(at.height);
        }
        page = page.push(row);
        y = top + high;
    }
    page.into()
}
