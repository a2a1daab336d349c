//! `maxday recover`

use std::path::Path;

use crate::cli::{Failure, moment, print};
use crate::file::recover;

pub(in crate::cli) fn run(file: &Path, out: &Path) -> Result<(), Failure> {
    let saved = recover(file, out, moment::now())?;
    let s = |n: usize| if n == 1 { "" } else { "s" };
    let entries = match saved.n_entries {
        1 => "1 entry".to_owned(),
        n => format!("{n} entries"),
    };
    let mut text = format!(
        "Rows 1 to {} are saved in {}: {} act{}, {entries}.\n",
        saved.n_rows,
        out.display(),
        saved.n_acts,
        s(saved.n_acts),
    );
    if saved.left_out.is_empty() {
        text += "Nothing was left out.\n";
    }
    for why in &saved.left_out {
        text += &format!("left out: {why}\n");
    }
    print(text.as_bytes())
}
