//! Pictures of the table and the hall board, compared with those in
//! `pictures`.
//!
//! A missing picture fails. `MAXDAY_WRITE_PICTURES=1` writes them anew.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use std::path::Path;

use desk_support::{desk_with_meet, later, settings, typed};
use iced::{Element, Size, Theme};
use iced_test::Simulator;
use maxday::desk::app::Message;
use maxday::desk::theme;

fn check(name: &str, size: Size, theme: &Theme, view: Element<'_, Message>) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pictures");
    let file = folder.join(format!("{name}-tiny-skia.png"));
    if std::env::var_os("MAXDAY_WRITE_PICTURES").is_some() {
        let _ = std::fs::remove_file(&file);
    } else {
        assert!(
            file.exists(),
            "there is no picture {name}; write it with MAXDAY_WRITE_PICTURES=1 and look at it"
        );
    }
    let mut ui = Simulator::with_size(settings(), size, view);
    let picture = ui.snapshot(theme).unwrap();
    let same = picture.matches_image(folder.join(name)).unwrap();
    if !same {
        let other = std::env::temp_dir()
            .join(format!("maxday-picture-{name}-{}", std::process::id()));
        let _ = picture.matches_image(&other);
        panic!(
            "{name} looks different; the new picture is {}-tiny-skia.png",
            other.display()
        );
    }
}

#[test]
fn the_table_and_the_board_look_as_they_did() {
    let mut desk = desk_with_meet("pictures");
    for line in ["", "check Ms Bell", "", "wwr press-out", "53", ""] {
        typed(&mut desk, line);
    }
    later(&mut desk, 20);
    desk_support::line(&mut desk, "7 54");
    check(
        "table",
        Size::new(1366.0, 740.0),
        &theme::light(),
        desk.main(),
    );
    desk_support::line(&mut desk, "");
    typed(&mut desk, "rrw");
    later(&mut desk, 2);
    check(
        "hall-board",
        Size::new(1280.0, 720.0),
        &theme::board(),
        desk.board(),
    );
}
