//! Every pair of text and ground that the themes define has enough contrast:
//! 4.5 to 1, also in large type, for which 3 to 1 would do (WCAG 2.2, success
//! criterion 1.4.3 and its definition of relative luminance, from memory).

// Each list of pairs names its own kind of style beside it, and what was
// rounded to hundredths is compared as it is written.
#![allow(clippy::items_after_statements, clippy::float_cmp)]

use iced::widget::{button as buttons, container as areas, text_input};
use iced::{Background, Color, Theme};

use super::{board, button, container, dark, field, light, text};

/// A pair: what it is, its ink, its ground, and the least contrast.
type Pair = (String, Color, Color, f64);

const TEXT: f64 = 4.5;
/// Lines and marks that tell something (success criterion 1.4.11).
const MARK: f64 = 3.0;

fn luminance(color: Color) -> f64 {
    let of = |c: f32| {
        let c = f64::from(c);
        if c <= 0.04045 {
            c / 12.92
        } else {
            ((c + 0.055) / 1.055).powf(2.4)
        }
    };
    0.2126 * of(color.r) + 0.7152 * of(color.g) + 0.0722 * of(color.b)
}

fn contrast(a: Color, b: Color) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn ground(background: Option<Background>, below: Color) -> Color {
    match background {
        Some(Background::Color(color)) => {
            assert!(color.a >= 1.0, "a ground that shows what is below it");
            color
        }
        Some(Background::Gradient(_)) => panic!("no theme has gradients"),
        None => below,
    }
}

/// The grounds on which plain text is set: page and band, and the grounds of
/// rows, which hold styled text.
fn grounds(theme: &Theme) -> Vec<(String, Color)> {
    let page = theme.palette().background;
    let mut list = vec![("page".to_owned(), page)];
    type Area = fn(&Theme) -> areas::Style;
    let areas: [(&str, Area); 4] = [
        ("panel", container::panel),
        ("in hand", container::in_hand),
        ("band", container::band),
        ("sheet", container::sheet),
    ];
    for (name, style) in areas {
        list.push((name.to_owned(), ground(style(theme).background, page)));
    }
    for status in STATUS {
        for (name, style) in [
            ("row", button::row as fn(&Theme, _) -> _),
            ("row in hand", button::row_in_hand),
        ] {
            let name = format!("{name} {status:?}");
            let style: buttons::Style = style(theme, status);
            list.push((name, ground(style.background, page)));
        }
    }
    list
}

const STATUS: [buttons::Status; 4] = [
    buttons::Status::Active,
    buttons::Status::Hovered,
    buttons::Status::Pressed,
    buttons::Status::Disabled,
];

fn pairs(theme: &Theme) -> Vec<Pair> {
    let page = theme.palette().background;
    let mut list: Vec<Pair> = Vec::new();
    // Styled and plain text on every ground.
    type Ink = fn(&Theme) -> iced::widget::text::Style;
    let inks: [(&str, Ink); 3] = [
        ("muted", text::muted),
        ("warning", text::warning),
        ("promise", text::promise),
    ];
    for (place, ground) in grounds(theme) {
        for (name, ink) in inks {
            let ink = ink(theme).color.unwrap();
            list.push((format!("{name} on {place}"), ink, ground, TEXT));
        }
        list.push((format!("text on {place}"), super::ink(theme), ground, TEXT));
    }
    // What is written on buttons; tabs lie on the band.
    let band = ground(container::band(theme).background, page);
    type Button = fn(&Theme, buttons::Status) -> buttons::Style;
    let all: [(&str, Button, Color); 7] = [
        ("button", button::plain, page),
        ("tab", button::tab, page),
        ("tab on the band", button::tab, band),
        ("tab in hand", button::tab_in_hand, page),
        ("row", button::row, page),
        ("row on the band", button::row, band),
        ("row in hand", button::row_in_hand, page),
    ];
    for (name, style, below) in all {
        for status in STATUS {
            let style = style(theme, status);
            let ground = ground(style.background, below);
            list.push((format!("{name} {status:?}"), style.text_color, ground, TEXT));
        }
    }
    // Fields: what is typed, also where it is chosen, and their borders.
    for status in [
        text_input::Status::Active,
        text_input::Status::Hovered,
        text_input::Status::Focused { is_hovered: false },
        text_input::Status::Focused { is_hovered: true },
        text_input::Status::Disabled,
    ] {
        let style = field::plain(theme, status);
        let ground = ground(Some(style.background), page);
        let name = |what: &str| format!("field {status:?}: {what}");
        list.push((name("typed"), style.value, ground, TEXT));
        list.push((name("chosen"), style.value, style.selection, TEXT));
        list.push((name("prompt"), style.placeholder, ground, TEXT));
        list.push((name("border"), style.border.color, page, MARK));
    }
    // Lights have their word in them, and a ring around them.
    type Area = fn(&Theme) -> areas::Style;
    let lights: [(&str, Area); 3] = [
        ("white light", container::white_light),
        ("red light", container::red_light),
        ("no light", container::no_light),
    ];
    for (name, style) in lights {
        let style = style(theme);
        let ground = ground(style.background, page);
        list.push((name.to_owned(), style.text_color.unwrap(), ground, TEXT));
        list.push((format!("ring of {name}"), style.border.color, page, MARK));
    }
    // What is in hand is told by its rule.
    for (name, color) in [
        ("heavy rule", container::heavy(theme).background),
        (
            "rule of what is in hand",
            Some(container::in_hand(theme).border.color.into()),
        ),
        (
            "edge of a disc",
            Some(container::disc(theme).border.color.into()),
        ),
    ] {
        list.push((name.to_owned(), ground(color, page), page, MARK));
    }
    list
}

#[test]
fn luminance_is_that_of_the_definition() {
    let of = |a, b| (contrast(a, b) * 100.0).round() / 100.0;
    // The two ends, and a grey that is known to be just enough on white.
    assert_eq!(of(Color::BLACK, Color::WHITE), 21.0);
    assert_eq!(of(Color::from_rgb8(0x76, 0x76, 0x76), Color::WHITE), 4.54);
    assert_eq!(of(Color::from_rgb8(0x77, 0x77, 0x77), Color::WHITE), 4.48);
}

#[test]
fn every_pair_of_text_and_ground_has_enough_contrast() {
    let mut wrong = Vec::new();
    let mut n = 0;
    for theme in [light(), dark(), board()] {
        for (name, ink, ground, least) in pairs(&theme) {
            n += 1;
            let has = contrast(ink, ground);
            if has < least {
                wrong.push(format!("{theme}: {name} has {has:.2}, needs {least}"));
            }
        }
    }
    assert!(n > 250, "{n}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The styles that the pairs are taken from are all there are.
#[test]
fn no_style_is_left_out() {
    let own = include_str!("contrast.rs");
    for (module, source) in [
        ("button", include_str!("button.rs")),
        ("container", include_str!("container.rs")),
        ("field", include_str!("field.rs")),
        ("text", include_str!("text.rs")),
    ] {
        for line in source.lines().filter_map(|l| l.strip_prefix("pub fn ")) {
            let name = line.split('(').next().unwrap();
            // A thin line is no text and tells nothing by itself.
            if (module, name) != ("container", "hair") {
                assert!(
                    own.contains(&format!("{module}::{name}")),
                    "{module}::{name}"
                );
            }
        }
    }
}
