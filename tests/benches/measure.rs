//! Clock, medians and the lines of the table.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// A folder on the disk of the package, which goes away at the end.
///
/// The folder for temporary files may be in memory, where a commit costs
/// nothing; `MAXDAY_BENCH_DIR` names another disk.
pub struct Folder(PathBuf);

impl Folder {
    pub fn new() -> Self {
        let base = std::env::var_os("MAXDAY_BENCH_DIR").map_or_else(
            || Path::new(env!("CARGO_TARGET_TMPDIR")).into(),
            PathBuf::from,
        );
        let path = base.join(format!("maxday-bench-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&path);
        std::fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    pub fn file(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// The time that passes in one run, with whatever is waited for.
#[allow(clippy::disallowed_methods)] // Measuring needs the clock.
pub fn waited<T>(work: impl FnOnce() -> T) -> Duration {
    let begin = Instant::now();
    let made = work();
    let took = begin.elapsed();
    drop(std::hint::black_box(made));
    took
}

/// How long a run must be for the system's own count to be exact enough.
const COUNTED: Duration = Duration::from_millis(10);

/// The time of one run: what this thread was given of the processor, where the
/// system tells it and the run is long enough, so that a machine that does
/// other things too gives the same numbers; else the time that passes.
pub fn time<T>(work: impl FnOnce() -> T) -> Duration {
    let before = given();
    let took = waited(work);
    match (before, given()) {
        (Some(before), Some(after)) if after - before > COUNTED => {
            took.min(after - before)
        }
        _ => took,
    }
}

/// What this thread was given of the processor so far.
fn given() -> Option<Duration> {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    let nanos = text.split_whitespace().next()?.parse().ok()?;
    Some(Duration::from_nanos(nanos))
}

/// Times of several runs.
#[derive(Default)]
pub struct Times(Vec<Duration>);

impl Times {
    pub fn add(&mut self, time: Duration) {
        self.0.push(time);
    }

    /// So many runs of the same.
    pub fn of<T>(runs: usize, mut work: impl FnMut() -> T) -> Self {
        Self((0..runs).map(|_| time(&mut work)).collect())
    }

    /// The time that a share of the runs doesn't exceed.
    pub fn at(&self, share: f64) -> Duration {
        let mut sorted = self.0.clone();
        sorted.sort();
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        #[allow(clippy::cast_precision_loss)]
        let place = ((sorted.len() - 1) as f64 * share).round() as usize;
        sorted[place]
    }

    pub fn least(&self) -> Duration {
        self.at(0.0)
    }

    pub fn median(&self) -> Duration {
        self.at(0.5)
    }
}

/// What is measured.
#[derive(Clone, Copy)]
pub enum Clock {
    /// The time that passes: disks and other processes are part of it.
    Waited,
    /// The work alone.
    Worked,
}

impl Clock {
    fn run<T>(self, work: impl FnOnce() -> T) -> Duration {
        match self {
            Self::Waited => waited(work),
            Self::Worked => time(work),
        }
    }
}

/// Two things measured in turns, so that both meet the same disk and the same
/// neighbours.
pub fn in_turns<A, B>(
    clock: Clock,
    runs: usize,
    mut ours: impl FnMut() -> A,
    mut bare: impl FnMut() -> B,
) -> (Times, Times) {
    let (mut a, mut b) = (Times::default(), Times::default());
    for n in 0..runs {
        if n % 2 == 0 {
            a.add(clock.run(&mut ours));
            b.add(clock.run(&mut bare));
        } else {
            b.add(clock.run(&mut bare));
            a.add(clock.run(&mut ours));
        }
    }
    (a, b)
}

pub fn ms(time: Duration) -> String {
    format!("{:.3} ms", time.as_secs_f64() * 1000.0)
}

/// Begins a part of the table.
pub fn part(title: &str) {
    println!("\n{title}");
}

/// A line: what, our time, the bare one, their ratios and what is wanted.
///
/// On a machine that does other things too the least times are the ones to
/// trust; where a disk is waited for it is the medians.
pub fn line(what: &str, ours: &Times, bare: &Times, wanted: &str) {
    let ratio = |a: Duration, b: Duration| a.as_secs_f64() / b.as_secs_f64();
    println!(
        "  {what:<44} median {:>11} least {:>11}   bare {:>11} {:>11}   ratio {:.2}, {:.2}   wanted {wanted}",
        ms(ours.median()),
        ms(ours.least()),
        ms(bare.median()),
        ms(bare.least()),
        ratio(ours.median(), bare.median()),
        ratio(ours.least(), bare.least()),
    );
}

/// A line without a counterpart.
pub fn alone(what: &str, ours: &Times, wanted: &str) {
    println!(
        "  {what:<44} median {:>11} least {:>11}   wanted {wanted}",
        ms(ours.median()),
        ms(ours.least()),
    );
}
