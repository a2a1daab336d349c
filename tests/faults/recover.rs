//! `maxday recover`: what the chain vouches for is saved, and no more.

use rusqlite::Connection;

use super::bin::{Folder, Sheet, has, small_meet};

/// A day of 40 rows or so, many of them on pages of their own.
fn day(folder: &Folder) {
    small_meet(folder);
    for n in 1..=30 {
        folder.write(
            "notes.csv",
            format!(
                "act,athlete,detail,id\nnote,{},remark {n} {},n-{n}\n",
                n % 3 + 1,
                "so it was ".repeat(20)
            ),
        );
        let _ = folder.ok("apply day.maxday notes.csv");
    }
    folder.sound("day.maxday");
}

/// How many rows the journal has.
fn n_rows(folder: &Folder, name: &str) -> u32 {
    let db = Connection::open(folder.file(name)).unwrap();
    db.query_row("SELECT count(*) FROM journal", [], |row| row.get(0))
        .unwrap()
}

/// The acts of a file without those that say where it comes from.
fn acts(folder: &Folder, name: &str) -> Vec<Vec<String>> {
    let sheet = Sheet::read(&folder.ok(&format!("acts {name}")));
    let detail = sheet.column("detail");
    let told = |row: &Vec<String>| !row[detail].contains("were recovered from");
    sheet.rows.into_iter().filter(told).collect()
}

/// Recovers and asserts that the damaged file and its folder are left alone.
fn recovered(folder: &Folder, out: &str) -> String {
    let (bytes, mut names) = (folder.bytes("hurt.maxday"), folder.names());
    let said = folder.ok(&format!("recover hurt.maxday {out}"));
    assert_eq!(folder.bytes("hurt.maxday"), bytes);
    names.push(out.to_owned());
    names.sort();
    assert_eq!(folder.names(), names);
    folder.sound(out);
    said
}

#[test]
fn the_rows_before_the_first_unsound_one_are_saved() {
    let folder = Folder::new();
    day(&folder);
    let rows = n_rows(&folder, "day.maxday");
    let whole = acts(&folder, "day.maxday");
    for (n, (sql, saved, why)) in [
        (
            "UPDATE journal SET body = body || ' ' WHERE seq = 20",
            19,
            "Row 20 is not as it was written",
        ),
        (
            "DELETE FROM journal WHERE seq = 15",
            14,
            "Row 15 is missing",
        ),
        (
            "DELETE FROM journal WHERE seq > 25",
            25,
            "Row 26 is missing",
        ),
        (
            "UPDATE journal SET digest = zeroblob(32) WHERE seq = 9",
            8,
            "Row 9 is not as it was written",
        ),
        (
            "UPDATE journal SET hand = CAST(hand AS BLOB) WHERE seq = 30",
            29,
            "Row 30 is not as it was written",
        ),
    ]
    .into_iter()
    .enumerate()
    {
        folder.write("hurt.maxday", folder.bytes("day.maxday"));
        Connection::open(folder.file("hurt.maxday"))
            .unwrap()
            .execute_batch(sql)
            .unwrap();
        let out = format!("out-{n}.maxday");
        let said = recovered(&folder, &out);
        has(&said, &[why, &format!("Rows 1 to {saved} are saved")]);
        let left = rows - saved - 1;
        if !sql.starts_with("DELETE FROM journal WHERE seq >") {
            has(&said, &[&format!("{left} row")]);
        }
        let got = acts(&folder, &out);
        assert!(whole.starts_with(&got), "{sql}");
        // The new day says where it comes from, and goes on.
        has(&folder.ok(&format!("acts {out}")), &["recovered from"]);
        folder.apply(&out, "note,1,,,,on we go,,,,");
        folder.sound(&out);
        // Neither the damaged file nor what it shows is taken for the truth.
        if !sql.contains("seq > 25") {
            has(&folder.no("standings hurt.maxday"), &["recover"]);
        }
    }
}

#[test]
fn a_sound_day_is_saved_whole() {
    let folder = Folder::new();
    day(&folder);
    folder.write("hurt.maxday", folder.bytes("day.maxday"));
    let said = recovered(&folder, "out.maxday");
    has(&said, &["Nothing was left out"]);
    for what in ["acts", "standings", "attempts"] {
        assert_eq!(
            folder.ok(&format!("{what} day.maxday")),
            folder.ok(&format!("{what} out.maxday"))
        );
    }
}

#[test]
fn a_file_that_sqlite_calls_malformed_gives_what_its_pages_hold() {
    let folder = Folder::new();
    day(&folder);
    let whole = folder.bytes("day.maxday");
    let acts_before = acts(&folder, "day.maxday");
    // The first page tells where all tables are; without it SQLite is lost.
    let mut hurt = whole.clone();
    hurt[..4096].fill(0);
    folder.write("hurt.maxday", &hurt);
    let _ = folder.no("check hurt.maxday");
    has(&recovered(&folder, "a.maxday"), &["Nothing was left out"]);
    assert_eq!(acts(&folder, "a.maxday"), acts_before);

    // Each page in turn: nothing but a beginning of the story is ever told.
    let mut shorter = 0;
    for page in 1..whole.len() / 4096 {
        let mut hurt = whole.clone();
        hurt[page * 4096..(page + 1) * 4096].fill(0xa5);
        folder.write("hurt.maxday", &hurt);
        let out = format!("p{page}.maxday");
        let ran = folder.run(&format!("recover hurt.maxday {out}"));
        if ran.code == Some(0) {
            let _ = ran.ok();
            folder.sound(&out);
            let got = acts(&folder, &out);
            assert!(acts_before.starts_with(&got), "page {page}");
            shorter += usize::from(got.len() < acts_before.len());
        } else {
            has(&ran.sentence(), &["Nothing can be saved", "backup"]);
            assert!(!folder.file(&out).exists());
            shorter += 1;
        }
    }
    assert!(shorter > 2, "{shorter}");
    // Cut short.
    folder.write("hurt.maxday", &whole[..whole.len() - 4 * 4096]);
    let _ = folder.no("check hurt.maxday");
    let _ = recovered(&folder, "cut.maxday");
    assert!(acts_before.starts_with(&acts(&folder, "cut.maxday")));
}

#[test]
fn what_was_cut_off_is_taken_back_in_a_copy() {
    let folder = Folder::new();
    day(&folder);
    let before = acts(&folder, "day.maxday");
    let other = Connection::open(folder.file("day.maxday")).unwrap();
    other
        .execute_batch(
            "PRAGMA cache_size = 1; PRAGMA cache_spill = 1; BEGIN IMMEDIATE; \
             CREATE TABLE filler (x); \
             WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 3000) \
             INSERT INTO filler SELECT hex(randomblob(200)) FROM n; \
             UPDATE journal SET hand = 'half written';",
        )
        .unwrap();
    folder.write("hurt.maxday", folder.bytes("day.maxday"));
    folder.write("hurt.maxday-journal", folder.bytes("day.maxday-journal"));
    let journal = folder.bytes("day.maxday-journal");
    drop(other);
    has(&recovered(&folder, "out.maxday"), &["Nothing was left out"]);
    assert_eq!(folder.bytes("hurt.maxday-journal"), journal);
    assert_eq!(acts(&folder, "out.maxday"), before);
}

#[test]
fn a_damaged_private_part_counts_as_erased() {
    let folder = Folder::new();
    day(&folder);
    folder.write("hurt.maxday", folder.bytes("day.maxday"));
    Connection::open(folder.file("hurt.maxday"))
        .unwrap()
        .execute_batch(
            "UPDATE journal SET private = replace(private, 'remark 7 ', 'remark 8 ')",
        )
        .unwrap();
    let said = recovered(&folder, "out.maxday");
    has(
        &said,
        &["private part of row", "left out as if it had been erased"],
    );
    has(&folder.ok("check out.maxday"), &["1 erased"]);
}

#[test]
fn what_can_t_be_saved_is_said_and_nothing_is_made() {
    let folder = Folder::new();
    day(&folder);
    folder.write("hurt.maxday", b"Dear coach, ".repeat(500));
    folder.write("empty.maxday", "");
    let names = folder.names();
    has(
        &folder.no("recover hurt.maxday out.maxday"),
        &["Nothing can be saved"],
    );
    has(&folder.no("recover empty.maxday out.maxday"), &["empty"]);
    has(
        &folder.no("recover none.maxday out.maxday"),
        &["There is no file"],
    );
    has(
        &folder.no("recover day.maxday hurt.maxday"),
        &["is there already"],
    );
    has(
        &folder.no("recover day.maxday day.maxday"),
        &["is there already"],
    );
    has(
        &folder.no("recover day.maxday no/out.maxday"),
        &["no folder"],
    );
    assert_eq!(folder.names(), names);
}
