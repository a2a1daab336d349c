//! The result book of 500 athletes, by the program itself.

use std::path::Path;
use std::process::{Command, Stdio};

use crate::days::{LIFTS, acts, write};
use crate::measure::{Clock, Folder, in_turns, ms, part};

pub fn run(folder: &Folder) {
    part("The result book of 500 athletes as PDF and CSV, by the program");
    let day = folder.file("book.maxday");
    write(&day, 500, &LIFTS, &acts(500, &LIFTS));
    let out = folder.file("papers");
    let (ours, start) = in_turns(
        Clock::Waited,
        9,
        || {
            program(&[
                Path::new("papers"),
                &day,
                Path::new("--only"),
                Path::new("results"),
                Path::new("--out"),
                &out,
            ]);
        },
        || program(&[Path::new("--version")]),
    );
    for (name, of) in [("median", 0.5), ("least", 0.0)] {
        let on_top = ours.at(of).saturating_sub(start.at(of));
        println!(
            "  {name}: whole {}, start alone {}, on top {}   wanted 300 ms on top",
            ms(ours.at(of)),
            ms(start.at(of)),
            ms(on_top)
        );
    }
}

fn program(arguments: &[&Path]) {
    let status = Command::new(env!("CARGO_BIN_EXE_maxday"))
        .args(arguments)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .status()
        .unwrap();
    assert!(status.success(), "{arguments:?}");
}
