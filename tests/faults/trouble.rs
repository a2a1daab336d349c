//! Full disks, folders that can't be written, files that go away, clocks that
//! are set back, two programs at once: one sentence, and nothing is lost.

use std::path::Path;
use std::process::Stdio;

use maxday::file::{FileError, Live, SubmitError, backup, check};
use rusqlite::{Connection, ffi};

use super::bin::{Folder, Sheet, small_max_day};
use super::chance::asked;
use super::shim::{Call, Trouble, Watch};
use super::{context, note, stamp};

fn ids(live: &Live) -> Vec<String> {
    let journal = live.day().journal().iter();
    journal
        .map(|r| r.id.clone())
        .filter(|id| id.starts_with("n-"))
        .collect()
}

fn sentence(error: &impl std::fmt::Display) -> String {
    let text = error.to_string();
    assert!(text.ends_with('.'), "{text}");
    assert_eq!(text.lines().count(), 1, "{text}");
    text
}

/// What can go wrong in which call, and what a person is told.
const TROUBLES: [(Call, i32, &str); 9] = [
    (Call::Write, ffi::SQLITE_FULL, "is full"),
    (Call::Write, ffi::SQLITE_IOERR_WRITE, "can't be"),
    (Call::Sync, ffi::SQLITE_IOERR_FSYNC, "can't be"),
    (Call::Sync, ffi::SQLITE_FULL, "is full"),
    (Call::Make, ffi::SQLITE_CANTOPEN, "can't be"),
    (Call::Make, ffi::SQLITE_FULL, "is full"),
    (Call::Truncate, ffi::SQLITE_IOERR_TRUNCATE, "can't be"),
    (Call::Delete, ffi::SQLITE_IOERR_DELETE, "can't be"),
    (Call::Write, ffi::SQLITE_READONLY, "can only be read"),
];

/// Opens the day, enters three acts while the disk makes trouble, and says
/// which were acknowledged, or why it couldn't be opened.
fn enter(path: &Path, round: u32, words: &str) -> Result<Vec<String>, FileError> {
    let mut live = Live::open(path, stamp(10 * i64::from(round)), "Table")?;
    let mut taken = Vec::new();
    for n in 0..3_u32 {
        let id = format!("n-{round}-{n}");
        let before = live.day().facts().clone();
        match live.submit(&note("so it was"), &context(20), Some(&id)) {
            Ok(_) => taken.push(id),
            Err(SubmitError::Failed(error)) => {
                let text = sentence(&error);
                assert!(
                    text.contains(words) || text.contains("can only be read"),
                    "{text}"
                );
                assert_eq!(live.day().facts(), &before, "{text}");
            }
            Err(SubmitError::Refused(refusal)) => panic!("{refusal}"),
        }
    }
    Ok(taken)
}

#[test]
fn a_disk_that_fails_in_any_call_loses_no_act() {
    let folder = Folder::new();
    small_max_day(&folder);
    let path = folder.file("day.maxday");
    let watch = Watch::new(path.parent().unwrap());
    let (mut round, mut struck) = (0, 0);
    let all_calls = asked("MAXDAY_TROUBLE", 0) > 0;
    let mut all: Vec<String> = Vec::new();
    for (call, code, words) in TROUBLES {
        for lasts in [false, true] {
            // Every call with `MAXDAY_TROUBLE=1`, else fewer of the later ones.
            let mut after = 0_u32;
            loop {
                round += 1;
                let what = format!("{call:?} {code} after {after}, lasts: {lasts}");
                watch.trouble(Trouble {
                    call,
                    after,
                    lasts,
                    code,
                });
                let entered = enter(&path, round, words);
                let n = watch.peace();
                match entered {
                    Ok(taken) => all.extend(taken),
                    Err(error) => {
                        assert!(n > 0, "{what}: {error}");
                        let _ = sentence(&error);
                    }
                }
                let live =
                    Live::open_read(&path).unwrap_or_else(|e| panic!("{what}: {e}"));
                let held = ids(&live);
                drop(live);
                // What failed may be in the file where only the last step did.
                let mut missing = all.iter().filter(|id| !held.contains(id));
                assert_eq!(missing.next(), None, "{what}: an act is gone");
                let report = check(&path).unwrap_or_else(|e| panic!("{what}: {e}"));
                assert!(report.is_sound(), "{what}: {report}");
                struck += u32::from(n > 0);
                if n == 0 {
                    break;
                }
                assert!(after < 2_000, "{what}: no end");
                after += if all_calls { 1 } else { 1 + after / 3 };
            }
        }
    }
    println!(
        "{round} runs, {struck} of them with trouble; {} acts",
        all.len()
    );
    assert!(struck > 50, "{struck}");
    drop(watch);
    folder.sound("day.maxday");
}

#[test]
fn a_full_disk_says_so_and_goes_on_once_there_is_room() {
    let folder = Folder::new();
    small_max_day(&folder);
    let path = folder.file("day.maxday");
    let watch = Watch::new(path.parent().unwrap());
    let mut live = Live::open(&path, stamp(0), "Table").unwrap();
    watch.trouble(Trouble {
        call: Call::Write,
        after: 0,
        lasts: true,
        code: ffi::SQLITE_FULL,
    });
    let failed = live
        .submit(&note("lost?"), &context(1), Some("n-1"))
        .unwrap_err();
    assert!(
        matches!(failed, SubmitError::Failed(FileError::DiskFull(_))),
        "{failed}"
    );
    assert!(sentence(&failed).contains("make room"));
    // A backup onto the same full disk fails in words, and leaves no part.
    let failed = backup(&live, &folder.file("copy.maxday")).unwrap_err();
    let _ = sentence(&failed);
    let _ = watch.peace();
    assert_eq!(
        folder.names().iter().filter(|n| n.contains("copy")).count(),
        0
    );
    let _ = live
        .submit(&note("kept"), &context(2), Some("n-1"))
        .unwrap();
    assert_eq!(ids(&live), ["n-1"]);
    live.close().unwrap();
    folder.sound("day.maxday");
}

#[test]
fn a_day_that_is_taken_away_while_open_takes_no_act_and_can_be_saved() {
    for replaced in [false, true] {
        let folder = Folder::new();
        small_max_day(&folder);
        let path = folder.file("day.maxday");
        let mut live = Live::open(&path, stamp(0), "Table").unwrap();
        let _ = live
            .submit(&note("before"), &context(1), Some("n-1"))
            .unwrap();
        let gone = if replaced {
            folder.write("other.maxday", folder.bytes("day.maxday"));
            std::fs::rename(folder.file("other.maxday"), &path)
        } else {
            std::fs::rename(&path, folder.file("elsewhere.maxday"))
        };
        if gone.is_err() {
            // A system that keeps open files where they are needs no more.
            continue;
        }
        let failed = live
            .submit(&note("after"), &context(2), Some("n-2"))
            .unwrap_err();
        assert!(
            matches!(failed, SubmitError::Failed(FileError::Moved(_))),
            "{failed}"
        );
        let text = sentence(&failed);
        assert!(text.contains("nothing was stored"), "{text}");
        assert_eq!(ids(&live), ["n-1"]);
        // What the sentence advises works.
        backup(&live, &folder.file("saved.maxday")).unwrap();
        drop(live);
        folder.sound("saved.maxday");
        let saved = Live::open_read(&folder.file("saved.maxday")).unwrap();
        assert_eq!(ids(&saved), ["n-1"]);
    }
}

#[test]
fn a_folder_that_takes_no_new_file_opens_a_day_to_read() {
    let folder = Folder::new();
    small_max_day(&folder);
    let path = folder.file("day.maxday");
    let bytes = folder.bytes("day.maxday");
    let watch = Watch::new(path.parent().unwrap());
    watch.trouble(Trouble {
        call: Call::Make,
        after: 0,
        lasts: true,
        code: ffi::SQLITE_CANTOPEN,
    });
    let mut live = Live::open(&path, stamp(0), "Table").unwrap();
    assert!(live.is_read_only());
    assert_eq!(live.day().facts().entries.len(), 3);
    let failed = live.submit(&note("no"), &context(1), None).unwrap_err();
    assert!(
        matches!(failed, SubmitError::Failed(FileError::ReadOnly(_))),
        "{failed}"
    );
    let _ = sentence(&failed);
    drop(live);
    assert!(watch.peace() > 0);
    assert_eq!(folder.bytes("day.maxday"), bytes);
}

#[test]
fn a_crash_in_a_folder_that_is_now_write_protected_is_named() {
    let folder = Folder::new();
    small_max_day(&folder);
    let path = folder.file("hot.maxday");
    let other = Connection::open(folder.file("day.maxday")).unwrap();
    other
        .execute_batch(
            "PRAGMA cache_size = 1; PRAGMA cache_spill = 1; BEGIN IMMEDIATE; \
             CREATE TABLE filler (x); \
             WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 500) \
             INSERT INTO filler SELECT hex(randomblob(200)) FROM n; \
             UPDATE journal SET hand = 'half written';",
        )
        .unwrap();
    folder.write("hot.maxday", folder.bytes("day.maxday"));
    folder.write("hot.maxday-journal", folder.bytes("day.maxday-journal"));
    drop(other);
    let watch = Watch::new(path.parent().unwrap());
    watch.trouble(Trouble {
        call: Call::Delete,
        after: 0,
        lasts: true,
        code: ffi::SQLITE_IOERR_DELETE,
    });
    for failed in [
        Live::open_read(&path).unwrap_err(),
        Live::open(&path, stamp(0), "Table").unwrap_err(),
        check(&path).unwrap_err(),
    ] {
        assert!(matches!(failed, FileError::CutOff(_)), "{failed}");
        assert!(sentence(&failed).contains("hot.maxday-journal"));
    }
    assert!(watch.peace() > 0);
    // Once something can be written there, it opens as ever.
    let live = Live::open_read(&path).unwrap();
    assert_eq!(live.day().facts().entries.len(), 3);
    drop(live);
    folder.sound("hot.maxday");
    assert!(!folder.file("hot.maxday-journal").exists());
}

#[test]
fn a_clock_that_is_set_back_costs_no_act() {
    let folder = Folder::new();
    small_max_day(&folder);
    let path = folder.file("day.maxday");
    let mut live = Live::open(&path, stamp(5_000), "Table").unwrap();
    for (n, at) in [5_000, 5_001, 1_400, 1_401, -900_000, 5_002]
        .into_iter()
        .enumerate()
    {
        live.heartbeat(stamp(at)).unwrap();
        let id = format!("n-{n}");
        let _ = live.submit(&note("so"), &context(at), Some(&id)).unwrap();
    }
    live.close().unwrap();
    folder.sound("day.maxday");
    // A lease of another computer whose clock ran ahead isn't waited for.
    let _ = Connection::open(&path)
        .unwrap()
        .execute(
            "INSERT INTO lease VALUES ('elsewhere', 7, ?1, 'Ann', 'gone')",
            [stamp(90_000).ms],
        )
        .unwrap();
    let mut live = Live::open(&path, stamp(1_000), "Table").unwrap();
    assert!(!live.is_read_only());
    assert_eq!(live.taken_over().unwrap().host, "elsewhere");
    let _ = live
        .submit(&note("so"), &context(1_001), Some("n-6"))
        .unwrap();
    assert_eq!(ids(&live).len(), 7);
    live.close().unwrap();
    folder.sound("day.maxday");
}

#[test]
fn programs_that_all_want_the_same_day_lose_nothing() {
    const PROGRAMS: usize = 6;
    const ACTS: usize = 8;
    let folder = Folder::new();
    small_max_day(&folder);
    // Each is held off while another has the day, and tries again.
    let work = |program: usize| {
        let mut held_off = 0_u32;
        for n in 0..ACTS {
            let file = format!("{program}-{n}.csv");
            folder.write(
                &file,
                format!("act,athlete,detail,id\nnote,1,said,p{program}-{n}\n"),
            );
            loop {
                let ran = folder
                    .command(&format!("apply day.maxday {file}"))
                    .stdin(Stdio::null())
                    .output()
                    .unwrap();
                if ran.status.success() {
                    break;
                }
                let text = String::from_utf8(ran.stderr).unwrap();
                assert!(
                    text.contains("held by") || text.contains("locked by"),
                    "{text}"
                );
                assert_eq!(text.lines().count(), 1, "{text}");
                held_off += 1;
                assert!(held_off < 1_000, "{text}");
            }
        }
    };
    std::thread::scope(|scope| {
        for program in 0..PROGRAMS {
            let _ = scope.spawn(move || work(program));
        }
    });
    let acts = Sheet::read(&folder.ok("acts day.maxday"));
    for program in 0..PROGRAMS {
        let mine: Vec<&str> = acts
            .all("id")
            .into_iter()
            .filter(|id| id.starts_with(&format!("p{program}-")))
            .collect();
        let expected: Vec<String> =
            (0..ACTS).map(|n| format!("p{program}-{n}")).collect();
        assert_eq!(mine, expected);
    }
    folder.sound("day.maxday");
}
