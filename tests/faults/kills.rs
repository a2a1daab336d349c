//! The program killed at random moments and inside commits.
//!
//! `MAXDAY_KILLS=5000` kills so often; the table of moments is printed with
//! `--nocapture`.

use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

use maxday::file::{Live, backup, check};

use super::bin::Folder;
use super::chance::{Numbers, asked};
use super::{context, note, stamp};

/// What a process is told to do where it is this test program again.
const CHILD: &str = "MAXDAY_FAULT_CHILD";

const ATHLETES: u32 = 6;

/// When the program is killed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Moment {
    /// At any time.
    Any,
    /// As soon as a rollback journal is seen, or a little later.
    Journal,
}

/// What was counted of one kind of kill.
#[derive(Debug, Default, Clone, Copy)]
struct Count {
    kills: u32,
    /// A rollback journal was left: it was inside a commit.
    inside: u32,
    /// It had ended by itself before.
    too_late: u32,
    /// Acts that were acknowledged.
    acknowledged: u32,
    /// Acts that were stored without an answer any more.
    unanswered: u32,
}

fn day(folder: &Folder) {
    let _ = folder.ok(
        "new day.maxday --format max-day --unit kg --date 2026-11-17 --lifts back-squat",
    );
    let mut roster = "lot,name,flight,back-squat\n".to_owned();
    for lot in 1..=ATHLETES {
        roster += &format!("{lot},Athlete {lot},A,{}\n", 60 + 5 * lot);
    }
    let _ = folder.roster("day.maxday", &roster);
}

/// The acts `act-N` that a day holds, in order; it has to be sound.
fn held(path: &Path, what: &str) -> Vec<u64> {
    let live = Live::open_read(path).unwrap_or_else(|e| panic!("{what}: {e}"));
    let mut held: Vec<u64> = live
        .day()
        .journal()
        .iter()
        .filter_map(|r| r.id.strip_prefix("act-")?.parse().ok())
        .collect();
    held.dedup();
    drop(live);
    sound(path, what);
    held
}

fn sound(path: &Path, what: &str) {
    let report = check(path).unwrap_or_else(|e| panic!("{what}: {e}"));
    assert!(report.is_sound(), "{what}: {report}");
}

/// Waits for the moment, kills, and says whether it was in time.
fn kill(
    child: &mut Child,
    moment: Moment,
    cut_off: &Path,
    numbers: &mut Numbers,
    most: u64,
) {
    match moment {
        Moment::Any => sleep(Duration::from_micros(numbers.below(most))),
        Moment::Journal => {
            // Long enough for any commit; a child that ends ends the wait.
            for _ in 0..2_000_000_u32 {
                if cut_off.exists() || child.try_wait().unwrap().is_some() {
                    break;
                }
            }
            sleep(Duration::from_micros(numbers.below(4) * 300));
        }
    }
    child.kill().unwrap();
}

/// Kills `apply -` while acts stream in.
fn stream(moment: Moment, kills: u32, seed: u64) -> Count {
    let folder = Folder::new();
    day(&folder);
    let (path, cut_off) = (folder.file("day.maxday"), folder.file("day.maxday-journal"));
    let mut numbers = Numbers(seed);
    let mut count = Count::default();
    let mut next = 0_u64;
    let mut all: Vec<u64> = Vec::new();
    for round in 0..kills {
        let what = format!("{moment:?}, round {round}");
        let mut child = folder.spawn("apply day.maxday -");
        let mut stdin = child.stdin.take().unwrap();
        let answers = BufReader::new(child.stdout.take().unwrap());
        let mut rows = "act,athlete,lift,load,detail,id\n".to_owned();
        for n in next..next + 60 {
            let lot = n % u64::from(ATHLETES) + 1;
            rows += &match n % 3 {
                0 => format!("request,{lot},back-squat,{},,act-{n}\n", 100 + n % 7 * 10),
                1 => format!("note,{lot},,,said {n},act-{n}\n"),
                _ => format!("weigh,{lot},,{},,act-{n}\n", 50 + n % 90),
            };
        }
        let writer = std::thread::spawn(move || {
            let _ = stdin.write_all(rows.as_bytes());
            stdin
        });
        // Everything that was answered before the end counts.
        let reader = std::thread::spawn(move || {
            let mut n = 0_u64;
            for line in answers.lines().map_while(Result::ok) {
                assert!(line.starts_with("ok "), "{line}");
                n += 1;
            }
            n
        });
        if moment == Moment::Journal {
            sleep(Duration::from_micros(numbers.below(60_000)));
        }
        kill(&mut child, moment, &cut_off, &mut numbers, 150_000);
        let ended = child.wait().unwrap();
        count.inside += u32::from(cut_off.exists());
        count.too_late += u32::from(ended.success());
        drop(writer.join().unwrap());
        let answered = reader.join().unwrap();
        count.kills += 1;
        count.acknowledged += u32::try_from(answered).unwrap();

        let now = held(&path, &what);
        assert!(
            now.starts_with(&all),
            "{what}: what was there before is gone"
        );
        let fresh = (now.len() - all.len()) as u64;
        assert!(
            fresh == answered || fresh == answered + 1,
            "{what}: {answered} acknowledged, {fresh} stored"
        );
        count.unanswered += u32::try_from(fresh - answered).unwrap();
        next = now.iter().max().map_or(0, |n| n + 1);
        all = now;
    }
    // Going on works at once.
    folder.apply("day.maxday", "here,1,,,,,,,,the-last");
    folder.sound("day.maxday");
    assert!(!cut_off.exists());
    count
}

/// Kills something that changes a day all at once, or not at all.
fn at_once(
    line: &str,
    moment: Moment,
    kills: u32,
    seed: u64,
    judge: impl Fn(&Path, bool, &str),
) -> Count {
    let folder = Folder::new();
    day(&folder);
    let whole = folder.bytes("day.maxday");
    let mut roster = "lot,name,flight,back-squat\n".to_owned();
    for lot in 100..400 {
        roster += &format!("{lot},Athlete {lot},B,{}\n", 40 + lot % 50);
    }
    folder.write("many.csv", &roster);
    let (path, cut_off) = (folder.file("d.maxday"), folder.file("d.maxday-journal"));
    let mut numbers = Numbers(seed);
    let mut count = Count::default();
    for round in 0..kills {
        let what = format!("{line}, {moment:?}, round {round}");
        folder.write("d.maxday", &whole);
        let mut child = folder
            .command(line)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        kill(&mut child, moment, &cut_off, &mut numbers, 400_000);
        let ended = child.wait().unwrap();
        count.kills += 1;
        count.inside += u32::from(cut_off.exists());
        count.too_late += u32::from(ended.success());
        count.acknowledged += u32::from(ended.success());
        sound(&path, &what);
        judge(&path, ended.success(), &what);
        assert!(!cut_off.exists(), "{what}");
        std::fs::remove_file(&path).unwrap();
    }
    count
}

fn n_entries(path: &Path) -> usize {
    let live = Live::open(path, stamp(9), "after").unwrap();
    assert!(!live.is_read_only());
    live.day().facts().entries.len()
}

fn imported(path: &Path, done: bool, what: &str) {
    let n = n_entries(path);
    assert!(n == 306 || (n == 6 && !done), "{what}: {n} entries");
}

fn untouched(path: &Path, _: bool, what: &str) {
    assert_eq!(n_entries(path), 6, "{what}");
}

fn erased_or_not(path: &Path, done: bool, what: &str) {
    let live = Live::open_read(path).unwrap();
    let name = live.day().facts().entry_by_number(2).unwrap().name();
    drop(live);
    assert!(
        name == "No. 2" || (name == "Athlete 2" && !done),
        "{what}: {name}"
    );
    assert_eq!(n_entries(path), 6, "{what}");
}

/// What a child of this test program does: enters acts, and backs up after
/// each.
#[test]
fn child_that_backs_up() {
    let Ok(folder) = std::env::var(CHILD) else {
        return;
    };
    let folder = Path::new(&folder);
    let mut live = Live::open(&folder.join("day.maxday"), stamp(5), "Table").unwrap();
    let from = live.day().next_seq();
    for n in from..from + 200 {
        let id = format!("act-{n}");
        let _ = live
            .submit(&note("so it was"), &context(9), Some(&id))
            .unwrap();
        backup(&live, &folder.join("copy.maxday")).unwrap();
        let mut out = std::io::stdout();
        writeln!(out, "backed up {n}").unwrap();
        out.flush().unwrap();
    }
}

/// Kills a program that backs up; the last whole backup has to be there.
fn backups(kills: u32, seed: u64) -> Count {
    let folder = Folder::new();
    day(&folder);
    let path = folder.file("day.maxday");
    let copy = folder.file("copy.maxday");
    let mut numbers = Numbers(seed);
    let mut count = Count::default();
    for round in 0..kills {
        let what = format!("backup, round {round}");
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["kills::child_that_backs_up", "--exact", "--nocapture"])
            .env(CHILD, path.parent().unwrap())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let answers = BufReader::new(child.stdout.take().unwrap());
        let reader = std::thread::spawn(move || {
            answers
                .lines()
                .map_while(Result::ok)
                .filter_map(|l| l.rsplit_once("backed up ")?.1.parse().ok())
                .collect::<Vec<u64>>()
        });
        kill(&mut child, Moment::Any, &path, &mut numbers, 200_000);
        let _ = child.wait().unwrap();
        let answered = reader.join().unwrap();
        count.kills += 1;
        let parts: Vec<String> = folder
            .names()
            .into_iter()
            .filter(|n| n.contains(".part") || n.ends_with("-journal"))
            .collect();
        count.inside += u32::from(!parts.is_empty());
        let now = held(&path, &what);
        assert!(
            answered.iter().all(|n| now.contains(n)),
            "{what}: an act is gone"
        );
        count.acknowledged += u32::try_from(answered.len()).unwrap();
        if let Some(last) = answered.last() {
            let saved = held(&copy, &what);
            assert!(saved.contains(last), "{what}: the backup of {last} is gone");
        } else if copy.exists() {
            let _ = held(&copy, &what);
        }
        for part in parts.iter().filter(|p| p.contains(".part")) {
            std::fs::remove_file(folder.file(part)).unwrap();
        }
    }
    count
}

#[test]
fn whatever_was_acknowledged_is_there_after_a_kill() {
    let kills = asked("MAXDAY_KILLS", 200);
    let share = |part: u32| (kills * part / 20).max(1);
    let seed = u64::from(asked("MAXDAY_SEED", 2_026));
    let roster = "roster d.maxday many.csv";
    let table = [
        ("apply -, any moment", stream(Moment::Any, share(5), seed)),
        (
            "apply -, at a journal",
            stream(Moment::Journal, share(5), seed + 1),
        ),
        (
            "roster, any moment",
            at_once(roster, Moment::Any, share(2), seed + 2, imported),
        ),
        (
            "roster, at a journal",
            at_once(roster, Moment::Journal, share(2), seed + 3, imported),
        ),
        (
            "papers, any moment",
            at_once(
                "papers d.maxday --out papers",
                Moment::Any,
                share(1),
                seed + 4,
                untouched,
            ),
        ),
        (
            "erase, any moment",
            at_once(
                "erase d.maxday 2 --yes",
                Moment::Any,
                share(1),
                seed + 5,
                erased_or_not,
            ),
        ),
        (
            "erase, at a journal",
            at_once(
                "erase d.maxday 2 --yes",
                Moment::Journal,
                share(2),
                seed + 6,
                erased_or_not,
            ),
        ),
        ("backup, any moment", backups(share(2), seed + 7)),
    ];
    println!(
        "{:24}{:>8}{:>16}{:>10}{:>14}{:>12}",
        "killed in",
        "kills",
        "inside a commit",
        "had ended",
        "acknowledged",
        "unanswered"
    );
    let mut inside = 0;
    for (name, count) in table {
        println!(
            "{name:24}{:>8}{:>10} ({:>2} %){:>10}{:>14}{:>12}",
            count.kills,
            count.inside,
            count.inside * 100 / count.kills.max(1),
            count.too_late,
            count.acknowledged,
            count.unanswered
        );
        inside += count.inside;
    }
    if kills >= 200 {
        assert!(inside > 0, "no kill hit a commit");
    }
}
