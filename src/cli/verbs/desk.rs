//! `maxday desk`

use std::path::PathBuf;

use crate::cli::Failure;

pub(in crate::cli) fn run(_file: Option<PathBuf>, _sample: bool) -> Result<(), Failure> {
    Err(Failure("The desk isn't there yet.".to_owned()))
}
