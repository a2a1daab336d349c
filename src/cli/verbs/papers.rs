//! `maxday papers`

use std::path::Path;

use crate::cli::Failure;

pub(in crate::cli) fn run(
    _file: &Path,
    _out: &Path,
    _size: &str,
    _only: &[String],
    _posted: bool,
) -> Result<(), Failure> {
    Err(Failure("Papers aren't there yet.".to_owned()))
}
