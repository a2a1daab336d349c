//! The school's name and picture: taken in, kept, printed, carried on.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;
mod pdf;

use bin::{Folder, small_meet};
use pdf::Pdf;

/// A screen's picture, 1366 by 740 pixels with a palette.
const PNG: &[u8] = include_bytes!("pictures/first-light.png");

const TOLD: &str = "Quillback High, a picture of 360 by 196 pixels";

fn school(folder: &Folder) -> String {
    folder.write("logo.png", PNG);
    small_meet(folder);
    folder.ok("school day.maxday --name \"Quillback High\" --picture logo.png")
}

/// Pictures in the paper of a day.
fn pictures(folder: &Folder, day: &str) -> usize {
    let _ = folder.ok(&format!("papers {day} --out out --only results"));
    let bytes = std::fs::read(folder.file("out").join("results.pdf")).unwrap();
    let pdf = Pdf::read(&bytes);
    assert!(pdf.text().contains("Results"));
    pdf.streams
        .iter()
        .filter(|(dict, _)| dict.contains("/Subtype/Image"))
        .count()
}

#[test]
fn name_and_picture_are_kept_printed_and_carried_on() {
    let folder = Folder::new();
    small_meet(&folder);
    assert_eq!(folder.ok("school day.maxday"), "no name, no picture\n");
    assert_eq!(pictures(&folder, "day.maxday"), 0);
    let folder = Folder::new();
    let told = school(&folder);
    assert!(told.starts_with(TOLD), "{told}");
    assert_eq!(pictures(&folder, "day.maxday"), 1);
    folder.sound("day.maxday");
    // Whoever replays the acts, or makes a day like this one, has them too.
    let acts = folder.ok("acts day.maxday");
    folder.write("all.csv", acts);
    let _ = folder.ok("new again.maxday --format weightlifting --date 2026-11-21");
    let _ = folder.ok("apply again.maxday all.csv");
    let _ = folder.ok("new next.maxday --like day.maxday --date 2027-02-20");
    for day in ["again.maxday", "next.maxday"] {
        assert_eq!(folder.ok(&format!("school {day}")), told);
        assert_eq!(pictures(&folder, day), 1);
    }
    // One undo takes it back, and it can be taken away.
    folder.apply("again.maxday", "undo,,,,,day,,,,");
    let _ = folder.ok("school next.maxday --no-picture");
    assert_eq!(pictures(&folder, "next.maxday"), 0);
    let left = folder.ok("school next.maxday");
    assert_eq!(left, "Quillback High, no picture\n");
}

#[test]
fn what_is_no_picture_is_refused_in_one_sentence() {
    let folder = Folder::new();
    let before = school(&folder);
    for (name, bytes, part) in [
        ("a.png", b"GIF89a".to_vec(), "is neither PNG nor JPEG."),
        ("b.png", PNG[..900].to_vec(), "is a damaged PNG."),
        ("c.jpg", b"\xff\xd8\xff\xe0".to_vec(), "is a damaged JPEG."),
        (
            "d.png",
            vec![0; 9_000_000],
            "has 9 MB; at most 8 MB are read.",
        ),
    ] {
        folder.write(name, bytes);
        let why = folder.no(&format!("school day.maxday --picture {name}"));
        assert!(why.ends_with(part), "{why}");
        assert!(why.starts_with(&format!("The picture {name} ")), "{why}");
    }
    let why = folder.no("school day.maxday --picture nowhere.png");
    assert!(
        why.starts_with("The picture nowhere.png can't be read"),
        "{why}"
    );
    let why = folder.refused("day.maxday", "set,,,,,picture=Zm9vYmFy,,,,");
    assert!(
        why.contains("is neither PNG nor JPEG; maxday school makes one"),
        "{why}"
    );
    assert_eq!(folder.ok("school day.maxday"), before);
}
