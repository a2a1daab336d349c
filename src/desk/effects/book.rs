//! The school's record book, in from a file and out to one.

use std::path::{Path, PathBuf};

use super::Effects;
use crate::day::Command;
use crate::exchange::book::{is_book, read_book};
use crate::exchange::tables::{Style, csv};
use crate::sheets::{Audience, records_table};

impl Effects {
    /// Takes in a record book: all of it as one act or, with its faults named,
    /// nothing.
    ///
    /// # Errors
    /// The faults, a line each.
    pub fn import_book(&mut self, path: &Path) -> Result<String, String> {
        let bytes = std::fs::read(path).map_err(|e| {
            format!("The record book {} can't be read: {e}.", path.display())
        })?;
        let facts = self.facts();
        let read = read_book(&bytes, facts).map_err(|faults| {
            let n = faults.len();
            let s = if n == 1 { "" } else { "s" };
            let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
            format!("{n} fault{s} in the record book:\n{}", lines.join("\n"))
        })?;
        let news = read.news(facts);
        let changed = news.len();
        if changed > 0 {
            self.submit(&Command::Book(news))?;
        }
        let n = read.records.len();
        let s = if n == 1 { "" } else { "s" };
        let mut lines = vec![format!("{n} record{s} read, {changed} new or changed.")];
        if !read.unknown.is_empty() {
            lines.push(format!(
                "Not read: column {}.",
                read.unknown.join(", column ")
            ));
        }
        lines.extend(read.queries.iter().map(|q| format!("Asked: {q}")));
        Ok(lines.join("\n"))
    }

    /// Whether a file is a record book and no roster.
    pub fn is_book(path: &Path) -> bool {
        std::fs::read(path).is_ok_and(|bytes| is_book(&bytes))
    }

    /// Writes the book as it now stands beside the day's file; where it is then.
    ///
    /// # Errors
    /// A sentence that says what is wrong.
    pub fn write_book(&self) -> Result<PathBuf, String> {
        let path = self.path().ok_or("No day is open.")?;
        let stem = path
            .file_stem()
            .map_or_else(|| "day".to_owned(), |s| s.to_string_lossy().into_owned());
        let out = path.with_file_name(format!("{stem} record book.csv"));
        let table = records_table(self.facts(), Audience::Private);
        std::fs::write(&out, csv(&table, Style::File)).map_err(|e| {
            format!(
                "{} can't be written: {e}; close it where it is open, and try again.",
                out.display()
            )
        })?;
        Ok(out)
    }
}
