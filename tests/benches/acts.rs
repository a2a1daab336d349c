//! The acknowledgement of one act against a bare commit of one row.

use maxday::day::Command;
use maxday::file::Live;
use rusqlite::{Connection, params};

use crate::days::{LIFTS, context, write};
use crate::measure::{Clock, Folder, Times, in_turns, line, part};

const RUNS: usize = 400;

/// A database with the pragmas of a meet file.
fn bare(folder: &Folder, name: &str, table: &str) -> Connection {
    let conn = Connection::open(folder.file(name)).unwrap();
    let _: String = conn
        .pragma_update_and_check(None, "journal_mode", "DELETE", |row| row.get(0))
        .unwrap();
    conn.pragma_update(None, "synchronous", "EXTRA").unwrap();
    conn.pragma_update(None, "fullfsync", true).unwrap();
    conn.pragma_update(None, "secure_delete", true).unwrap();
    conn.pragma_update(None, "trusted_schema", false).unwrap();
    conn.execute_batch(table).unwrap();
    conn
}

pub fn run(folder: &Folder) {
    part("An act is acknowledged once it is durable");
    let path = folder.file("acts.maxday");
    write(&path, 64, &LIFTS, &[]);
    let mut live = Live::open(&path, context(10).at, "bench").unwrap();
    let conn = bare(
        folder,
        "bare.db",
        "CREATE TABLE bare (seq INTEGER PRIMARY KEY, body TEXT NOT NULL)",
    );
    // As many bytes as a row of the journal has.
    let body = "x".repeat(600);
    let mut n = 0_i64;
    let (ours, bare) = in_turns(
        Clock::Waited,
        RUNS,
        || {
            n += 1;
            let note = Command::Note {
                number: Some(1),
                act: None,
                text: format!("said {n}"),
                platform: None,
            };
            let _ = live.submit(&note, &context(10 + n), None).unwrap();
        },
        || {
            let _ = conn
                .prepare_cached("INSERT INTO bare (body) VALUES (?1)")
                .unwrap()
                .execute(params![body])
                .unwrap();
        },
    );
    line("a remark", &ours, &bare, "at most 1.3");
    rulings(&mut live, &conn, &body);
}

/// Rulings, which change the day most.
fn rulings(live: &mut Live, conn: &Connection, body: &str) {
    let mut commands = Vec::new();
    for number in 1..=64 {
        commands.extend(crate::days::acts_of(number, LIFTS[0]));
    }
    let (mut ours, mut bare) = (Times::default(), Times::default());
    for (command, seconds) in commands.iter().zip(1_000..) {
        ours.add(crate::measure::waited(|| {
            live.submit(command, &context(seconds), None).unwrap()
        }));
        bare.add(crate::measure::waited(|| {
            conn.prepare_cached("INSERT INTO bare (body) VALUES (?1)")
                .unwrap()
                .execute(params![body])
                .unwrap()
        }));
    }
    line("requests and rulings", &ours, &bare, "at most 1.3");
}
