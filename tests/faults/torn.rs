//! Torn and rotten files: opened with what is sound, or refused in words.
//!
//! `MAXDAY_FLIPS=100000` flips so many bytes; `MAXDAY_LENGTHS=1` tries every
//! length.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;

use maxday::day::{Facts, Recorded};
use maxday::file::{CheckReport, Live, check, recover};

use super::bin::{Folder, small_max_day};
use super::chance::{Numbers, asked};
use super::{context, note, stamp};

/// A small day on few pages, its facts and its story.
struct Original {
    bytes: Vec<u8>,
    facts: Facts,
    story: Vec<Recorded>,
}

impl Original {
    fn new(folder: &Folder) -> Self {
        small_max_day(folder);
        for row in [
            "weigh,1,,,134.5,,,,,",
            "tally,1,power-clean,1,95,good,,,,",
            "tally,2,hang-power-clean,1,115,no,,,,",
            "undo,,,,,,1,,,",
            "note,3,,,,left knee taped,,,,",
        ] {
            folder.apply("day.maxday", row);
        }
        folder.sound("day.maxday");
        let live = Live::open_read(&folder.file("day.maxday")).unwrap();
        Self {
            bytes: folder.bytes("day.maxday"),
            facts: live.day().facts().clone(),
            story: live.day().journal().to_vec(),
        }
    }
}

/// What became of damaged files.
#[derive(Debug, Default)]
struct Tally {
    unseen: u32,
    opened_unsound: u32,
    refused: u32,
    saved_whole: u32,
    saved_part: u32,
    nothing_saved: u32,
}

fn sentence(text: &str, what: &str) {
    assert!(text.ends_with('.'), "{what}: {text}");
    assert_eq!(text.lines().count(), 1, "{what}: {text}");
    assert!(text.chars().count() > 12, "{what}: {text}");
}

/// Opens and checks a damaged file in every way.
fn judge(
    bytes: &[u8],
    path: &Path,
    original: &Original,
    what: &str,
    saves: bool,
    tally: &mut Tally,
) {
    std::fs::write(path, bytes).unwrap();
    let quietly = || {
        let opened = Live::open_read(path).map(|live| live.day().clone());
        (opened, check(path))
    };
    let Ok((opened, checked)) = catch_unwind(AssertUnwindSafe(quietly)) else {
        panic!("{what}: the program panicked")
    };
    let is_sound = checked.as_ref().is_ok_and(CheckReport::is_sound);
    match &opened {
        Ok(day) => {
            // Whatever is shown happened, in that order, and word for word.
            assert!(original.story.starts_with(day.journal()), "{what}");
            if is_sound {
                assert_eq!(day.facts(), &original.facts, "{what}: a silent change");
                tally.unseen += 1;
            } else {
                tally.opened_unsound += 1;
            }
        }
        Err(error) => {
            assert!(!is_sound, "{what}: sound, but {error}");
            sentence(&error.to_string(), what);
            tally.refused += 1;
        }
    }
    match checked {
        Ok(report) => {
            for fault in &report.faults {
                sentence(fault, what);
            }
        }
        Err(error) => sentence(&error.to_string(), what),
    }
    assert_eq!(
        std::fs::read(path).unwrap(),
        bytes,
        "{what}: it was written"
    );
    if saves {
        saving(path, original, what, tally);
        going_on(path, original, what);
    }
    std::fs::remove_file(path).unwrap();
}

/// Goes on with it, where the program does: over nothing that was there.
fn going_on(path: &Path, original: &Original, what: &str) {
    let go_on = || {
        let mut live = Live::open(path, stamp(99_000), "Table").ok()?;
        if live.is_read_only() {
            return None;
        }
        assert_eq!(live.day().journal(), original.story, "{what}");
        let done = live.submit(&note("on we go"), &context(99_001), None);
        done.ok().map(drop)
    };
    let Ok(went_on) = catch_unwind(AssertUnwindSafe(go_on)) else {
        panic!("{what}: going on panicked, or went on from another story")
    };
    if went_on.is_some() {
        let live = Live::open_read(path).unwrap();
        let story = live.day().journal();
        assert!(story.starts_with(&original.story), "{what}");
        assert_eq!(story.len(), original.story.len() + 1, "{what}");
    }
}

/// Saves what is sound of it.
fn saving(path: &Path, original: &Original, what: &str, tally: &mut Tally) {
    let out = path.with_extension("saved");
    let saved = catch_unwind(AssertUnwindSafe(|| recover(path, &out, stamp(0))));
    let Ok(saved) = saved else {
        panic!("{what}: recover panicked")
    };
    match saved {
        Ok(saved) => {
            let n = usize::try_from(saved.n_rows).unwrap();
            let live = Live::open_read(&out).unwrap();
            let story = live.day().journal();
            assert!(check(&out).unwrap().is_sound(), "{what}");
            let private = saved.left_out.iter().any(|l| l.contains("private part"));
            if !private {
                assert_eq!(story[..n], original.story[..n], "{what}");
            }
            if n == original.story.len() && !private {
                tally.saved_whole += 1;
            } else {
                assert!(!saved.left_out.is_empty() || n < original.story.len());
                tally.saved_part += 1;
            }
            drop(live);
            std::fs::remove_file(&out).unwrap();
        }
        Err(error) => {
            sentence(&error.to_string(), what);
            assert!(!out.exists(), "{what}");
            tally.nothing_saved += 1;
        }
    }
}

#[test]
fn a_day_cut_short_at_any_length_is_never_taken_for_a_whole_one() {
    let folder = Folder::new();
    let original = Original::new(&folder);
    let path = folder.file("cut.maxday");
    let whole = original.bytes.len();
    let step = if asked("MAXDAY_LENGTHS", 0) > 0 {
        1
    } else {
        397
    };
    let mut tally = Tally::default();
    let near = |n: usize| (n.saturating_sub(2)..n + 3).filter(move |n| *n < whole);
    let mut lengths: Vec<usize> = (0..whole).step_by(step).collect();
    for page in (0..=whole).step_by(4096) {
        lengths.extend(near(page));
    }
    lengths.sort_unstable();
    lengths.dedup();
    for length in &lengths {
        let what = format!("cut to {length} of {whole} bytes");
        judge(
            &original.bytes[..*length],
            &path,
            &original,
            &what,
            length % 5 == 0,
            &mut tally,
        );
    }
    println!("{} lengths of {whole} bytes: {tally:?}", lengths.len());
    assert_eq!(tally.unseen, 0, "a day that is cut short passed as sound");
}

#[test]
fn a_flipped_byte_is_seen_or_changes_nothing() {
    let folder = Folder::new();
    let original = Original::new(&folder);
    let path = folder.file("rot.maxday");
    let flips = asked("MAXDAY_FLIPS", 300);
    let mut numbers = Numbers(u64::from(asked("MAXDAY_SEED", 7)));
    let mut tally = Tally::default();
    let whole = original.bytes.len();
    // Most of a small file is empty: three of four go where something stands.
    let used: Vec<usize> = (0..whole).filter(|at| original.bytes[*at] != 0).collect();
    for n in 0..flips {
        let mut bytes = original.bytes.clone();
        let at = if n % 4 == 0 {
            usize::try_from(numbers.below(whole as u64)).unwrap()
        } else {
            used[usize::try_from(numbers.below(used.len() as u64)).unwrap()]
        };
        let with = u8::try_from(numbers.below(255) + 1).unwrap();
        bytes[at] ^= with;
        let what = format!("flip {n}: byte {at} of {whole} xor {with:#x}");
        judge(&bytes, &path, &original, &what, n % 8 == 0, &mut tally);
    }
    println!("{flips} flips in {whole} bytes: {tally:?}");
    assert!(tally.refused > 0 && tally.unseen < flips);
}

#[test]
fn rot_in_many_places_at_once_panics_nowhere() {
    let folder = Folder::new();
    let original = Original::new(&folder);
    let path = folder.file("rot.maxday");
    let mut numbers = Numbers(11);
    let mut tally = Tally::default();
    let whole = original.bytes.len();
    let runs = asked("MAXDAY_FLIPS", 300) / 6;
    for n in 0..runs {
        let mut bytes = original.bytes.clone();
        let what = match n % 3 {
            // A sector of noise, as a dying disk gives it.
            0 => {
                let at =
                    usize::try_from(numbers.below(whole as u64 / 512)).unwrap() * 512;
                bytes[at..at + 512]
                    .fill_with(|| u8::try_from(numbers.below(256)).unwrap());
                format!("run {n}: noise at {at}")
            }
            // A sector of nothing.
            1 => {
                let at =
                    usize::try_from(numbers.below(whole as u64 / 512)).unwrap() * 512;
                bytes[at..at + 512].fill(0);
                format!("run {n}: nothing at {at}")
            }
            // Two pages changed places.
            _ => {
                let pages = whole as u64 / 4096;
                let (a, b) = (numbers.below(pages), numbers.below(pages));
                let (a, b) = (usize::try_from(a).unwrap(), usize::try_from(b).unwrap());
                for i in 0..4096 {
                    bytes.swap(a * 4096 + i, b * 4096 + i);
                }
                format!("run {n}: pages {a} and {b} changed places")
            }
        };
        judge(&bytes, &path, &original, &what, true, &mut tally);
    }
    println!("{runs} times noise, nothing or changed places: {tally:?}");
}

#[test]
fn what_can_be_worked_out_anew_keeps_nobody_from_the_day() {
    let folder = Folder::new();
    let original = Original::new(&folder);
    let path = folder.file("day.maxday");
    for sql in [
        "UPDATE meta SET value = x'35'",
        "UPDATE meta SET key = x'35' || key",
        "DELETE FROM meta",
    ] {
        let db = rusqlite::Connection::open(&path).unwrap();
        db.execute_batch(sql).unwrap();
        drop(db);
        let live = Live::open_read(&path).unwrap();
        assert_eq!(live.day().facts(), &original.facts, "{sql}");
        drop(live);
        // Whoever has the day next writes it anew.
        Live::open(&path, stamp(99_000), "Table")
            .unwrap()
            .close()
            .unwrap();
        let report = check(&path).unwrap().to_string();
        assert!(
            report.contains("Read views: as the journal says."),
            "{report}"
        );
        assert!(report.ends_with("sound"), "{sql}: {report}");
    }
}
