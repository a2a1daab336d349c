//! `maxday erase`

use std::path::Path;

use crate::cli::{Failure, moment, print};
use crate::file::{Erased, erasable, erase};

pub(in crate::cli) fn run(file: &Path, number: u16, yes: bool) -> Result<(), Failure> {
    if !yes {
        let Erased {
            who,
            n_parts,
            n_texts,
            ..
        } = erasable(file, number)?;
        return Err(Failure(format!(
            "Nothing was erased: this would blank {} of number {number} ({who}) for good; add \
             --yes to do it.",
            counted(n_parts + n_texts, "private part")
        )));
    }
    let erased = erase(file, number, moment::now(), "")?;
    let mut text = match erased.n_parts + erased.n_texts {
        0 => format!(
            "Number {number} was erased before; the file was rewritten once more.\n"
        ),
        n => format!(
            "Number {number} is erased: {} blanked, and the file rewritten.\n",
            counted(n, "private part")
        ),
    };
    if !erased.still.is_empty() {
        let rows: Vec<String> = erased.still.iter().map(u64::to_string).collect();
        text += &format!(
            "The family name still stands in the journal's row {}, where it belongs to somebody \
             else or to what can't be blanked.\n",
            rows.join(", row ")
        );
    }
    text += "Kept: what was lifted, with sex, grade, team and category.\n\
             Not reached: backups and copies of this file, papers and exports made before; \
             erase this number in each backup too, and destroy the rest.\n";
    print(text.as_bytes())
}

fn counted(n: usize, what: &str) -> String {
    let s = if n == 1 { "" } else { "s" };
    format!("{n} {what}{s}")
}
