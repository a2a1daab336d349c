//! A power cut at every step of a commit, with writes lost and out of order.
//!
//! What a session does to the disk is written down; each of its beginnings is
//! then played again with some of the writes that weren't synced yet dropped,
//! sector by sector. `MAXDAY_CUTS=50` tries so many random choices a step.

use std::collections::BTreeMap;
use std::path::Path;

use maxday::day::{Command, NewEntry, Place};
use maxday::file::{Live, check};
use maxday::roster::Change;

use super::bin::{Folder, small_max_day};
use super::chance::{Numbers, asked};
use super::shim::{Op, Watch};
use super::{context, note, stamp};

/// What a disk writes as one.
const SECTOR: usize = 512;

/// A change that may or may not have reached the disk.
#[derive(Debug, Clone)]
enum Change1 {
    Make(String),
    Write(String, u64, Vec<u8>),
    Truncate(String, u64),
    Delete(String),
}

impl Change1 {
    fn file(&self) -> &str {
        match self {
            Self::Make(f)
            | Self::Write(f, ..)
            | Self::Truncate(f, _)
            | Self::Delete(f) => f,
        }
    }

    const fn is_name(&self) -> bool {
        matches!(self, Self::Make(_) | Self::Delete(_))
    }

    fn apply(&self, files: &mut BTreeMap<String, Vec<u8>>) {
        match self {
            Self::Make(file) => {
                let _ = files.insert(file.clone(), Vec::new());
            }
            Self::Delete(file) => {
                let _ = files.remove(file);
            }
            Self::Truncate(file, size) => {
                if let Some(bytes) = files.get_mut(file) {
                    bytes.resize(usize::try_from(*size).unwrap(), 0);
                }
            }
            Self::Write(file, at, new) => {
                let Some(bytes) = files.get_mut(file) else {
                    return;
                };
                let at = usize::try_from(*at).unwrap();
                if bytes.len() < at + new.len() {
                    bytes.resize(at + new.len(), 0);
                }
                bytes[at..at + new.len()].copy_from_slice(new);
            }
        }
    }
}

/// A disk: what is on it for good, and what is on its way.
#[derive(Debug, Clone)]
struct Disk {
    safe: BTreeMap<String, Vec<u8>>,
    pending: Vec<Change1>,
}

impl Disk {
    fn take(&mut self, op: &Op) {
        match op {
            Op::Make(file) => self.pending.push(Change1::Make(file.clone())),
            Op::Truncate(file, size) => {
                self.pending.push(Change1::Truncate(file.clone(), *size));
            }
            Op::Delete(file) => self.pending.push(Change1::Delete(file.clone())),
            Op::Write(file, at, bytes) => {
                // Sectors of one write may arrive apart from each other.
                let mut from = 0;
                while from < bytes.len() {
                    let place = usize::try_from(*at).unwrap() + from;
                    let until = (from + SECTOR - place % SECTOR).min(bytes.len());
                    self.pending.push(Change1::Write(
                        file.clone(),
                        place as u64,
                        bytes[from..until].to_vec(),
                    ));
                    from = until;
                }
            }
            Op::Sync(file) => self.settle(|change| change.file() == file),
            Op::SyncFolder => self.settle(Change1::is_name),
            Op::Acknowledged => {}
        }
    }

    /// Puts pending changes on the disk for good, in order.
    fn settle(&mut self, which: impl Fn(&Change1) -> bool) {
        let mut left = Vec::new();
        for change in self.pending.drain(..) {
            if which(&change) {
                change.apply(&mut self.safe);
            } else {
                left.push(change);
            }
        }
        self.pending = left;
    }

    /// The files after a power cut in which only some changes had arrived.
    fn image(&self, arrived: impl Fn(usize) -> bool) -> BTreeMap<String, Vec<u8>> {
        let mut files = self.safe.clone();
        for (n, change) in self.pending.iter().enumerate() {
            if arrived(n) {
                change.apply(&mut files);
            }
        }
        files
    }
}

fn entry(number: u16) -> NewEntry {
    NewEntry {
        number: Some(number),
        changes: vec![
            Change::Given(format!("Given{number}")),
            Change::Family(format!("Family{number}")),
        ],
        place: Place {
            session: Some("1".to_owned()),
            flight: Some("A".to_owned()),
            platform: Some(1),
        },
    }
}

/// What a session does, with the identifiers of its acts in order.
///
/// Single acts, an import that fills many pages and writes the read views, and
/// the giving back of the lease.
fn session(path: &Path, watch: &Watch) -> Vec<String> {
    let mut ids = Vec::new();
    let mut live = Live::open(path, stamp(10), "Table").unwrap();
    for n in 0..4_u32 {
        let id = format!("n-{n}");
        let done = live.submit(&note(&format!("remark {n}")), &context(20), Some(&id));
        let _ = done.unwrap();
        watch.acknowledge();
        ids.push(id);
    }
    let many = Command::Add((100..160).map(entry).collect());
    live.batch(|batch| batch.submit(&many, &context(30), Some("many")).map(drop))
        .map_err(|e: maxday::file::SubmitError| e)
        .unwrap();
    watch.acknowledge();
    ids.push("many".to_owned());
    live.heartbeat(stamp(40)).unwrap();
    for n in 4..6_u32 {
        let id = format!("n-{n}");
        let long = "so it was ".repeat(900);
        let _ = live.submit(&note(&long), &context(50), Some(&id)).unwrap();
        watch.acknowledge();
        ids.push(id);
    }
    live.close().unwrap();
    ids
}

/// Puts an image into a folder and asserts that nothing is lost.
fn judge(
    folder: &Folder,
    image: &BTreeMap<String, Vec<u8>>,
    ids: &[String],
    acknowledged: usize,
    n: u32,
    what: &str,
) {
    for name in folder.names() {
        std::fs::remove_file(folder.file(&name)).unwrap();
    }
    for (name, bytes) in image {
        folder.write(name, bytes);
    }
    let path = folder.file("day.maxday");
    // Whoever comes first after the cut may be a reader or a writer.
    let live = if n.is_multiple_of(2) {
        Live::open_read(&path)
    } else {
        Live::open(&path, stamp(500), "Table")
    };
    let live = live.unwrap_or_else(|e| panic!("{what}: {e}"));
    let mut held: Vec<&str> =
        live.day().journal().iter().map(|r| r.id.as_str()).collect();
    held.dedup();
    held.retain(|id| ids.iter().any(|i| i == id));
    assert!(
        held.len() == acknowledged || held.len() == acknowledged + 1,
        "{what}: {acknowledged} acknowledged, {} held",
        held.len()
    );
    assert!(held.iter().zip(ids).all(|(a, b)| a == b), "{what}");
    if held.contains(&"many") {
        assert_eq!(
            live.day().facts().entries.len(),
            63,
            "{what}: half an import"
        );
    }
    drop(live);
    let report = check(&path).unwrap_or_else(|e| panic!("{what}: {e}"));
    assert!(report.is_sound(), "{what}: {report}");
}

#[test]
fn a_power_cut_at_any_step_loses_nothing_that_was_acknowledged() {
    let folder = Folder::new();
    small_max_day(&folder);
    let path = folder.file("day.maxday");
    let watch = Watch::new(path.parent().unwrap());
    let mut disk = Disk {
        safe: BTreeMap::from([("day.maxday".to_owned(), folder.bytes("day.maxday"))]),
        pending: Vec::new(),
    };
    watch.record();
    let ids = session(&path, &watch);
    let ops = watch.ops();
    drop(watch);
    let n_syncs = ops.iter().filter(|o| matches!(o, Op::Sync(_))).count();
    assert!(n_syncs > 20, "{n_syncs} syncs: {ops:?}");
    // All at once is what is there now.
    let mut whole = disk.clone();
    ops.iter().for_each(|op| whole.take(op));
    let image = whole.image(|_| true);
    assert_eq!(image["day.maxday"], folder.bytes("day.maxday"));
    assert_eq!(image.len(), 1);

    let choices = asked("MAXDAY_CUTS", 1);
    let after = Folder::new();
    let mut numbers = Numbers(u64::from(asked("MAXDAY_SEED", 3)));
    let (mut images, mut acknowledged) = (0_u32, 0);
    let mut table: BTreeMap<&str, (u32, u32)> = BTreeMap::new();
    for (step, op) in std::iter::once(None)
        .chain(ops.iter().map(Some))
        .enumerate()
    {
        if let Some(op) = op {
            disk.take(op);
            acknowledged += usize::from(matches!(op, Op::Acknowledged));
        }
        let word = op.map_or("before", Op::word);
        let what = format!("cut after step {step} ({word})");
        let row = table.entry(word).or_default();
        row.0 += 1;
        let n = disk.pending.len();
        let mut try_one = |arrived: &dyn Fn(usize) -> bool, how: &str| {
            let image = disk.image(arrived);
            let what = format!("{what}, {how} of {n} unsynced changes");
            judge(&after, &image, &ids, acknowledged, images, &what);
            images += 1;
            row.1 += 1;
        };
        // What a kill leaves: all that was written, synced or not.
        try_one(&|_| true, "all");
        if n == 0 {
            continue;
        }
        // What the strictest power cut leaves.
        try_one(&|_| false, "none");
        for _ in 0..choices {
            let lost = usize::try_from(numbers.below(n as u64)).unwrap();
            let bits: Vec<bool> = (0..n).map(|_| numbers.below(2) == 0).collect();
            try_one(&|i| bits[i], "some");
            if choices > 1 {
                try_one(&|i| i != lost, "all but one");
                try_one(&|i| i == lost, "one");
                try_one(&|i| i < lost, "the first");
                try_one(&|i| i >= lost, "the last");
            }
        }
    }
    assert_eq!(acknowledged, ids.len());
    println!(
        "{} steps, {images} images: {}",
        ops.len(),
        table
            .iter()
            .map(|(word, (steps, images))| format!(
                "{word} {steps} steps {images} images"
            ))
            .collect::<Vec<_>>()
            .join("; ")
    );
    assert!(images > 300, "{images}");
}

#[test]
fn a_disk_that_forgets_what_it_said_was_safe_is_found_out() {
    // The test of the test: without syncs the same session does lose acts.
    let folder = Folder::new();
    small_max_day(&folder);
    let path = folder.file("day.maxday");
    let watch = Watch::new(path.parent().unwrap());
    let mut disk = Disk {
        safe: BTreeMap::from([("day.maxday".to_owned(), folder.bytes("day.maxday"))]),
        pending: Vec::new(),
    };
    watch.record();
    let ids = session(&path, &watch);
    let ops = watch.ops();
    for op in ops
        .iter()
        .filter(|op| !matches!(op, Op::Sync(_) | Op::SyncFolder))
    {
        disk.take(op);
    }
    let after = Folder::new();
    for (name, bytes) in disk.image(|_| false) {
        after.write(&name, bytes);
    }
    let live = Live::open_read(&after.file("day.maxday")).unwrap();
    let held = live.day().journal().iter().filter(|r| ids.contains(&r.id));
    assert_eq!(held.count(), 0);
}
