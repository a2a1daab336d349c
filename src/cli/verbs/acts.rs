//! `maxday acts`

use std::path::Path;

use crate::cli::{Failure, print};
use crate::exchange::acts_out::rows;
use crate::exchange::tables::{Style, acts_csv};
use crate::file::Live;

pub(in crate::cli) fn run(file: &Path) -> Result<(), Failure> {
    let live = Live::open_read(file)?;
    print(&acts_csv(&rows(live.day()), Style::Stdout))
}
