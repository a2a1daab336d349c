//! Opening a day: an ordinary one, and one as large as a school's can be.

use std::path::Path;

use maxday::file::Live;
use maxday::samples::{self, Sample};
use rusqlite::{Connection, OpenFlags};

use crate::days::{LIFTS, acts, context, write};
use crate::measure::{Clock, Folder, Times, alone, in_turns, line, part};

pub fn run(folder: &Folder) {
    part("Opening, against reading all bytes of its rows");
    let sample = folder.file("sample.maxday");
    samples::make(&sample, Sample::MaxDay, context(0).at).unwrap();
    opened("the sample max day, 64 athletes", &sample, "50 ms");

    let large = folder.file("large.maxday");
    let commands = acts(1_000, &LIFTS);
    write(&large, 1_000, &LIFTS, &commands);
    let what = format!("1,000 athletes, {} acts", commands.len() + 2);
    opened(&what, &large, "300 ms");
}

fn opened(what: &str, path: &Path, wanted: &str) {
    let (read, bare) = in_turns(
        Clock::Worked,
        11,
        || Live::open_read(path).unwrap(),
        || bytes(path),
    );
    line(&format!("{what}, to read"), &read, &bare, wanted);
    let mut times = Times::default();
    for n in 0..11 {
        let mut live = None;
        times.add(crate::measure::time(|| {
            live = Some(Live::open(path, context(100_000 + n).at, "bench").unwrap());
        }));
        drop(live);
    }
    alone(&format!("{what}, to write"), &times, wanted);
}

/// All bytes of the journal, as SQLite hands them over.
fn bytes(path: &Path) -> usize {
    let conn =
        Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_ONLY).unwrap();
    let mut query = conn.prepare("SELECT * FROM journal ORDER BY seq").unwrap();
    let mut rows = query.query([]).unwrap();
    let mut n = 0;
    while let Some(row) = rows.next().unwrap() {
        for column in 0..15 {
            n += row
                .get_ref(column)
                .unwrap()
                .as_bytes()
                .map_or(8, <[u8]>::len);
        }
    }
    n
}
