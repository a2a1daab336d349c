//! `maxday norms`, and norms for the athletes' reports

use std::io::Write;
use std::path::Path;

use crate::cli::Failure;
use crate::day::Facts;
use crate::exchange::norms::read_norms;
use crate::exchange::tables::{Style, csv};
use crate::file::Live;
use crate::score::Norms;
use crate::sheets::norms_table;

pub(in crate::cli) fn run(
    file: &Path,
    norms: &Path,
    posted: bool,
) -> Result<(), Failure> {
    if posted {
        return Err(Failure(
            "Norms compare athletes by name, so there is nothing of them to post; leave \
             --posted out."
                .to_owned(),
        ));
    }
    let live = Live::open_read(file)?;
    let facts = live.day().facts();
    let norms = read(norms, facts)?;
    crate::cli::print(&csv(&norms_table(facts, &norms), Style::Stdout))
}

/// Reads a coach's norms; says which columns weren't read.
pub(super) fn read(path: &Path, facts: &Facts) -> Result<Norms, Failure> {
    let shown = path.display();
    let bytes = std::fs::read(path)
        .map_err(|e| Failure(format!("The norms {shown} can't be read: {e}.")))?;
    let mut err = std::io::stderr().lock();
    let read = read_norms(&bytes, facts).map_err(|faults| {
        for fault in &faults {
            let _ = writeln!(err, "{fault}");
        }
        let n = faults.len();
        let s = if n == 1 { "" } else { "s" };
        Failure(format!("The norms {shown} weren't read: {n} fault{s}."))
    })?;
    if !read.unknown.is_empty() {
        let columns = read.unknown.join(", column ");
        let _ = writeln!(err, "maxday: Not read: column {columns}.");
    }
    Ok(read.norms)
}
