//! Rows of an acts file, whole or as they come in.

use std::collections::VecDeque;
use std::io::BufRead;

use super::super::text::{Assembler, Row, lines, plain};
use super::super::{Fault, one_line};
use super::{ActRow, COLUMNS};

/// Reads a whole acts file.
///
/// # Errors
/// The first [`Fault`]: no header, a header with an unknown column, a quote
/// that is never closed, a row with more cells than the header.
pub fn read_acts(text: &str) -> Result<Vec<ActRow>, Fault> {
    let mut rows = Rows::default();
    let mut found = Vec::new();
    for line in lines(text) {
        if let Some(row) = rows.push(line) {
            found.push(row?);
        }
    }
    if let Some(row) = rows.finish() {
        found.push(row?);
    }
    Ok(found)
}

/// Reads acts from a stream; each row comes out as soon as it is complete.
///
/// A row that can't be read is an error of its own, with the line on which it
/// starts; reading goes on behind it. Only a header that can't be read ends
/// everything.
#[derive(Debug)]
pub struct ActReader<R> {
    input: R,
    rows: Rows,
    over: bool,
    left: VecDeque<Result<ActRow, Fault>>,
}

impl<R: BufRead> ActReader<R> {
    /// A reader of `input`, which begins with the header.
    pub fn new(input: R) -> Self {
        Self {
            input,
            rows: Rows::default(),
            over: false,
            left: VecDeque::new(),
        }
    }

    fn end(&mut self) {
        self.over = true;
        self.left.extend(self.rows.finish());
    }
}

impl<R: BufRead> Iterator for ActReader<R> {
    type Item = Result<ActRow, Fault>;

    fn next(&mut self) -> Option<Self::Item> {
        while !self.over {
            let mut bytes = Vec::new();
            match self.input.read_until(b'\n', &mut bytes) {
                Ok(0) => self.end(),
                Ok(_) => {
                    let line = plain(&bytes);
                    let line = line.strip_suffix('\n').unwrap_or(&line);
                    let line = line.strip_suffix('\r').unwrap_or(line);
                    let row = self.rows.push(line);
                    self.over |= self.rows.dead;
                    if row.is_some() {
                        return row;
                    }
                }
                Err(error) => {
                    self.over = true;
                    return Some(Err(Fault::whole(format!(
                        "The acts can't be read further: {error}."
                    ))));
                }
            }
        }
        self.left.pop_front()
    }
}

/// Rows from lines.
#[derive(Debug, Default)]
struct Rows {
    assembler: Assembler,
    header: Option<Vec<Option<usize>>>,
    /// The header couldn't be read, so no row can.
    dead: bool,
    line: u64,
}

impl Rows {
    fn push(&mut self, line: &str) -> Option<Result<ActRow, Fault>> {
        self.line += 1;
        if self.dead {
            return None;
        }
        if line.contains('\0') {
            return Some(Err(Fault::at(
                (self.line, self.line),
                "",
                "A NUL byte stands here, so this is no text; save it as CSV in UTF-8 again.",
            )));
        }
        match self.assembler.push(line)? {
            Ok(row) if row.is_blank() => None,
            Ok(row) => self.row(&row),
            Err(fault) => {
                self.dead |= self.header.is_none();
                Some(Err(fault))
            }
        }
    }

    fn row(&mut self, row: &Row) -> Option<Result<ActRow, Fault>> {
        match &self.header {
            Some(header) => Some(act_row(header, row, self.assembler.delimiter() != ',')),
            None => match read_header(row) {
                Ok(columns) => {
                    self.header = Some(columns);
                    None
                }
                Err(fault) => {
                    self.dead = true;
                    Some(Err(fault))
                }
            },
        }
    }

    fn finish(&mut self) -> Option<Result<ActRow, Fault>> {
        if self.dead {
            return None;
        }
        if let Some(fault) = self.assembler.finish() {
            return Some(Err(fault));
        }
        self.header.is_none().then(|| {
            Err(Fault::whole(format!(
                "There is nothing here; acts need a header row with act, and any of {}.",
                COLUMNS[1..].join(", ")
            )))
        })
    }
}

fn read_header(row: &Row) -> Result<Vec<Option<usize>>, Fault> {
    let mut columns: Vec<Option<usize>> = Vec::new();
    for cell in &row.cells {
        let word = one_line(cell).to_lowercase();
        let column = COLUMNS.iter().position(|c| *c == word);
        if column.is_none() && !word.is_empty() {
            return Err(Fault::at(
                row.place(),
                &one_line(cell),
                format!("There is no such column; there is {}.", COLUMNS.join(", ")),
            ));
        }
        if column.is_some() && columns.contains(&column) {
            return Err(Fault::at(
                row.place(),
                &one_line(cell),
                "This column is there twice; leave one of them.",
            ));
        }
        columns.push(column);
    }
    if !columns.contains(&Some(0)) {
        return Err(Fault::at(
            row.place(),
            "",
            format!(
                "The first row must be the header, with act and any of {}.",
                COLUMNS[1..].join(", ")
            ),
        ));
    }
    Ok(columns)
}

fn act_row(header: &[Option<usize>], row: &Row, commas: bool) -> Result<ActRow, Fault> {
    let mut found = ActRow {
        line: row.line,
        ..ActRow::default()
    };
    for (at, cell) in row.cells.iter().enumerate() {
        let cell = cell.trim();
        if cell.is_empty() {
            continue;
        }
        let place = header.get(at).copied().flatten();
        let Some(place) = place.and_then(|column| found.cell_mut(column)) else {
            return Err(Fault::at(
                row.place(),
                "",
                format!(
                    "This row has more cells than the header's {}; quote a cell that has the \
                     separator in it.",
                    header.len()
                ),
            ));
        };
        cell.clone_into(place);
    }
    if commas && !found.load.contains('.') {
        found.load = found.load.replace(',', ".");
    }
    Ok(found)
}
