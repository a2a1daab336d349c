//! `maxday desk`

use std::path::PathBuf;

use crate::cli::Failure;
use crate::desk::{self, Start};

pub(in crate::cli) fn run(file: Option<PathBuf>, sample: bool) -> Result<(), Failure> {
    let start = match file {
        _ if sample => Start::Sample,
        Some(file) => Start::File(file),
        None => Start::First,
    };
    Ok(desk::run(start)?)
}
