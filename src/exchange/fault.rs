//! What is wrong in a file, and where.

use std::fmt;

/// Something in a file that can't be read: where, what, and what would be
/// allowed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The row as a spreadsheet counts it, the header being row 1; 0 where the
    /// whole file is meant.
    pub row: u64,
    /// The physical line on which the row starts, from 1; 0 where the whole
    /// file is meant.
    pub line: u64,
    /// The column's header as it is written in the file; may be empty.
    pub column: String,
    /// The sentence.
    pub message: String,
}

impl Fault {
    /// A fault of the whole file.
    pub fn whole(message: impl Into<String>) -> Self {
        Self {
            row: 0,
            line: 0,
            column: String::new(),
            message: message.into(),
        }
    }

    /// A fault of a row, at its place.
    pub fn at((row, line): (u64, u64), column: &str, message: impl Into<String>) -> Self {
        Self {
            row,
            line,
            column: column.to_owned(),
            message: message.into(),
        }
    }
}

impl fmt::Display for Fault {
    /// `row 5, column DOB: ….`; the line stands behind the row only where
    /// quoted line breaks above it make the two differ.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.row > 0 {
            write!(f, "row {}", self.row)?;
            if self.line != self.row {
                write!(f, " (line {})", self.line)?;
            }
            if !self.column.is_empty() {
                write!(f, ", column {}", self.column)?;
            }
            f.write_str(": ")?;
        }
        f.write_str(&sentence(&self.message))
    }
}

impl std::error::Error for Fault {}

/// Something that was taken in but is owed an answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Query {
    /// The row as a spreadsheet counts it.
    pub row: u64,
    /// The physical line on which the row starts.
    pub line: u64,
    /// The athlete's name.
    pub who: String,
    /// The sentence.
    pub message: String,
}

impl fmt::Display for Query {
    /// `row 5, Ann Lee: ….`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "row {}", self.row)?;
        if self.line != self.row {
            write!(f, " (line {})", self.line)?;
        }
        write!(f, ", {}: {}", self.who, sentence(&self.message))
    }
}

/// The text with a full stop at its end.
fn sentence(text: &str) -> String {
    let text = text.trim_end();
    if text.ends_with(['.', '?', '!']) {
        text.to_owned()
    } else {
        format!("{text}.")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_says_where() {
        let fault = Fault::at((5, 5), "DOB", "“x” is no date");
        assert_eq!(fault.to_string(), "row 5, column DOB: “x” is no date.");
        let fault = Fault::at((5, 7), "", "6 cells");
        assert_eq!(fault.to_string(), "row 5 (line 7): 6 cells.");
        assert_eq!(Fault::whole("It is empty.").to_string(), "It is empty.");
    }
}
