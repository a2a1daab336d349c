//! `maxday check`

use std::path::Path;

use crate::cli::{Failure, print};
use crate::file::check;

pub(in crate::cli) fn run(file: &Path) -> Result<(), Failure> {
    let report = check(file)?;
    for line in &report.lines {
        print(format!("{line}\n").as_bytes())?;
    }
    if report.is_sound() {
        return print(b"sound\n");
    }
    for fault in &report.faults {
        print(format!("wrong: {fault}\n").as_bytes())?;
    }
    Err(Failure(format!(
        "{} is not sound: {}",
        file.display(),
        report.faults.first().map_or("", String::as_str)
    )))
}
