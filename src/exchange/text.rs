//! Bytes to text, and text to rows of cells.

use encoding_rs::{UTF_16BE, UTF_16LE, WINDOWS_1252};

use super::Fault;

const EMPTY: &str = "The file is empty; it needs a header row and rows under it.";

const SPREADSHEET: &str = "This is a spreadsheet file, not CSV, whatever its name ends \
     in; open it in the spreadsheet program and save it as CSV first.";

/// One row of cells, with where it starts.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Row {
    /// Its number as a spreadsheet counts rows, from 1.
    pub number: u64,
    /// The physical line on which it starts, from 1.
    pub line: u64,
    /// The cells as written, without their quotes; line breaks are `\n`.
    pub cells: Vec<String>,
}

impl Row {
    /// Row number and line, for a fault.
    pub const fn place(&self) -> (u64, u64) {
        (self.number, self.line)
    }

    /// Whether no cell has anything but spaces.
    pub fn is_blank(&self) -> bool {
        self.cells.iter().all(|c| c.trim().is_empty())
    }
}

/// A whole file as rows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// The character between cells: comma, semicolon or tab.
    pub delimiter: char,
    /// The header, without blank cells at its end.
    pub header: Row,
    /// The rows under it that have as many cells as the header; blank ones
    /// are left out.
    pub rows: Vec<Row>,
    /// What is wrong with other rows.
    pub faults: Vec<Fault>,
}

/// Turns a file's bytes into text.
///
/// UTF-8 with or without a byte-order mark, UTF-16 with one, else
/// Windows-1252.
///
/// # Errors
/// [`Fault`] for an empty file, a renamed spreadsheet, NUL bytes, and UTF-16
/// that is cut short.
pub fn decode(bytes: &[u8]) -> Result<String, Fault> {
    if bytes.starts_with(b"PK\x03\x04")
        || bytes.starts_with(b"PK\x05\x06")
        || bytes.starts_with(&[0xD0, 0xCF, 0x11, 0xE0])
    {
        return Err(Fault::whole(SPREADSHEET));
    }
    let utf16 = match bytes {
        [0xFF, 0xFE, rest @ ..] => Some(UTF_16LE.decode_without_bom_handling(rest)),
        [0xFE, 0xFF, rest @ ..] => Some(UTF_16BE.decode_without_bom_handling(rest)),
        _ => None,
    };
    let text = match utf16 {
        Some((_, true)) => {
            return Err(Fault::whole(
                "The file says it is UTF-16 but is damaged; save it as CSV in UTF-8 again.",
            ));
        }
        Some((text, false)) => text.into_owned(),
        None => plain(bytes),
    };
    if let Some(at) = text.find('\0') {
        let line = count(lines(&text[..at])).max(1);
        return Err(Fault::at(
            (line, line),
            "",
            "A NUL byte stands here, so this is no text file; save it as CSV in UTF-8 again.",
        ));
    }
    if text.trim().is_empty() {
        return Err(Fault::whole(EMPTY));
    }
    Ok(text)
}

/// UTF-8 without its byte-order mark, else Windows-1252.
pub(super) fn plain(bytes: &[u8]) -> String {
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    match std::str::from_utf8(bytes) {
        Ok(text) => text.to_owned(),
        Err(_) => WINDOWS_1252
            .decode_without_bom_handling(bytes)
            .0
            .into_owned(),
    }
}

/// Reads a text into a header and its rows.
///
/// # Errors
/// [`Fault`] where there is no header.
pub fn sheet(text: &str) -> Result<Sheet, Fault> {
    let mut assembler = Assembler::default();
    let mut faults = Vec::new();
    let mut header: Option<Row> = None;
    let mut rows = Vec::new();
    for line in lines(text) {
        match assembler.push(line) {
            Some(Ok(row)) if row.is_blank() => {}
            Some(Ok(row)) => match &header {
                None => header = Some(trimmed_header(row)),
                Some(header) => match fit(row, header.cells.len()) {
                    Ok(row) => rows.push(row),
                    Err(fault) => faults.push(fault),
                },
            },
            Some(Err(fault)) => faults.push(fault),
            None => {}
        }
    }
    faults.extend(assembler.finish());
    match header {
        Some(header) => Ok(Sheet {
            delimiter: assembler.delimiter(),
            header,
            rows,
            faults,
        }),
        None => Err(faults.pop().unwrap_or_else(|| Fault::whole(EMPTY))),
    }
}

fn trimmed_header(mut row: Row) -> Row {
    while row.cells.last().is_some_and(|c| c.trim().is_empty()) {
        let _ = row.cells.pop();
    }
    row
}

/// The row with as many cells as the header; blank ones too many are cut.
fn fit(mut row: Row, width: usize) -> Result<Row, Fault> {
    while row.cells.len() > width && row.cells.last().is_some_and(|c| c.trim().is_empty())
    {
        let _ = row.cells.pop();
    }
    if row.cells.len() == width {
        return Ok(row);
    }
    let cells = |n: usize| match n {
        1 => "1 cell".to_owned(),
        n => format!("{n} cells"),
    };
    let hint = if row.cells.len() > width {
        "; quote a cell that has the separator in it"
    } else {
        "; write a separator for every cell, also for a blank one"
    };
    Err(Fault::at(
        row.place(),
        "",
        format!(
            "This row has {}, the header {}{hint}.",
            cells(row.cells.len()),
            cells(width)
        ),
    ))
}

/// The physical lines of a text without their ends (`\n`, `\r\n` or `\r`).
pub fn lines(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = text;
    std::iter::from_fn(move || {
        if rest.is_empty() {
            return None;
        }
        let Some(at) = rest.find(['\n', '\r']) else {
            return Some(std::mem::take(&mut rest));
        };
        let line = &rest[..at];
        let end = if rest[at..].starts_with("\r\n") { 2 } else { 1 };
        rest = &rest[at + end..];
        Some(line)
    })
}

fn count<'a>(lines: impl Iterator<Item = &'a str>) -> u64 {
    lines.fold(0, |n, _| n + 1)
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum State {
    /// Before the first character of a cell.
    #[default]
    Start,
    /// In a cell without quotes.
    Plain,
    /// Between quotes.
    Quoted,
    /// Behind the closing quote.
    Closed,
}

/// Puts rows together from physical lines, as they come in.
///
/// The separator is found in the first row: whichever of comma, semicolon and
/// tab stands there most often outside quotes (or what a line `sep=;` says).
#[derive(Debug, Default)]
pub struct Assembler {
    delimiter: Option<char>,
    /// Lines of a header whose quotes aren't closed yet.
    waiting: Vec<String>,
    line: u64,
    number: u64,
    state: State,
    /// Where the quote opened that isn't closed.
    opened: u64,
    cell: String,
    row: Row,
    /// Text behind a closing quote was met in this row.
    spoilt: bool,
}

impl Assembler {
    /// The separator; a comma as long as it isn't known.
    pub fn delimiter(&self) -> char {
        self.delimiter.unwrap_or(',')
    }

    /// Takes the next physical line, without its end; gives the row that it
    /// completes.
    ///
    /// # Errors
    /// [`Fault`] where the row's quotes are wrong; reading goes on behind it.
    pub fn push(&mut self, line: &str) -> Option<Result<Row, Fault>> {
        if self.delimiter.is_some() {
            return self.take(line);
        }
        let bare = line.trim();
        if self.waiting.is_empty() {
            if bare.is_empty() {
                return self.take(line);
            }
            if let Some(sep) = bare.strip_prefix("sep=").and_then(|s| s.chars().next()) {
                self.line += 1;
                self.delimiter = Some(sep);
                return None;
            }
        }
        self.waiting.push(line.to_owned());
        let quotes: usize = self.waiting.iter().map(|l| l.matches('"').count()).sum();
        if quotes % 2 == 1 {
            return None;
        }
        self.settle()
    }

    /// Finds the separator in the lines that wait, and reads them.
    fn settle(&mut self) -> Option<Result<Row, Fault>> {
        let waiting = std::mem::take(&mut self.waiting);
        self.delimiter = Some(delimiter_of(&waiting.join("\n")));
        let mut found = None;
        for line in waiting {
            found = self.take(&line).or(found);
        }
        found
    }

    /// What is wrong at the end of the file.
    pub fn finish(&mut self) -> Option<Fault> {
        if !self.waiting.is_empty() {
            let _ = self.settle();
        }
        if self.state != State::Quoted {
            return None;
        }
        let message = if self.opened == self.row.line {
            "A quote opens in this row and is never closed; close it, or double a quote \
             that belongs to the text."
                .to_owned()
        } else {
            format!(
                "A quote opens on line {} and is never closed; close it, or double a \
                 quote that belongs to the text.",
                self.opened
            )
        };
        Some(Fault::at(self.row.place(), "", message))
    }

    fn take(&mut self, line: &str) -> Option<Result<Row, Fault>> {
        self.line += 1;
        if self.state == State::Quoted {
            self.cell.push('\n');
        } else {
            self.number += 1;
            self.row = Row {
                number: self.number,
                line: self.line,
                cells: Vec::new(),
            };
            self.spoilt = false;
            self.state = State::Start;
        }
        let delimiter = self.delimiter();
        let mut chars = line.chars().peekable();
        while let Some(c) = chars.next() {
            match self.state {
                State::Quoted if c == '"' => {
                    if chars.next_if_eq(&'"').is_some() {
                        self.cell.push('"');
                    } else {
                        self.state = State::Closed;
                    }
                }
                State::Quoted => self.cell.push(c),
                _ if c == delimiter => self.end_cell(),
                State::Start if c == '"' => {
                    self.cell.clear();
                    self.opened = self.line;
                    self.state = State::Quoted;
                }
                State::Start => {
                    self.cell.push(c);
                    if !c.is_whitespace() {
                        self.state = State::Plain;
                    }
                }
                State::Plain => self.cell.push(c),
                State::Closed => self.spoilt |= !c.is_whitespace(),
            }
        }
        if self.state == State::Quoted {
            return None;
        }
        self.end_cell();
        let row = std::mem::take(&mut self.row);
        if self.spoilt {
            return Some(Err(Fault::at(
                row.place(),
                "",
                "Text stands behind a closing quote; double a quote that belongs to the text.",
            )));
        }
        Some(Ok(row))
    }

    fn end_cell(&mut self) {
        self.row.cells.push(std::mem::take(&mut self.cell));
        self.state = State::Start;
    }
}

/// The separator that stands most often outside quotes; of equals the comma.
fn delimiter_of(header: &str) -> char {
    let mut counts = [(',', 0), (';', 0), ('\t', 0)];
    let mut quoted = false;
    for c in header.chars() {
        quoted ^= c == '"';
        for (delimiter, n) in &mut counts {
            *n += i32::from(c == *delimiter && !quoted);
        }
    }
    let best = counts.iter().rev().max_by_key(|(_, n)| *n);
    best.map_or(',', |(delimiter, _)| *delimiter)
}

#[cfg(test)]
#[path = "text_tests.rs"]
mod tests;
