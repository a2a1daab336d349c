//! Tables and acts as CSV.

use super::acts::{ActRow, COLUMNS};
use super::formula::guarded;
use crate::sheets::{Cell, Table};

/// Where a CSV goes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Style {
    /// To another program: plain UTF-8, `\n`.
    Stdout,
    /// To a file for a spreadsheet: UTF-8 with a byte-order mark, CRLF, and
    /// texts that look like formulas made harmless.
    File,
}

/// A table as CSV, its groups one under the other.
pub fn csv(table: &Table, style: Style) -> Vec<u8> {
    let mut out = Out::new(style);
    out.row(table.csv_header().iter().map(String::as_str));
    for row in table.groups.iter().flat_map(|g| &g.rows) {
        let mut fields: Vec<String> = Vec::new();
        for (cell, column) in row.iter().zip(&table.columns) {
            let mut cell_fields = match cell {
                Cell::Text(text) if style == Style::File => {
                    vec![guarded(text).into_owned()]
                }
                cell => cell.csv(),
            };
            cell_fields.resize(if column.attempt { 2 } else { 1 }, String::new());
            fields.extend(cell_fields);
        }
        out.row(fields.iter().map(String::as_str));
    }
    out.bytes()
}

/// Acts as CSV, with their header.
///
/// Cells stay as they are in either style, since they are read again.
pub fn acts_csv<'a>(rows: impl IntoIterator<Item = &'a ActRow>, style: Style) -> Vec<u8> {
    let mut out = Out::new(style);
    out.row(COLUMNS);
    for row in rows {
        out.row(row.cells());
    }
    out.bytes()
}

/// Any rows as CSV.
pub fn rows_csv<'a, R>(rows: impl IntoIterator<Item = R>, style: Style) -> Vec<u8>
where
    R: IntoIterator<Item = &'a str>,
{
    let mut out = Out::new(style);
    for row in rows {
        match style {
            Style::Stdout => out.row(row),
            Style::File => {
                let cells: Vec<_> = row.into_iter().map(guarded).collect();
                out.row(cells.iter().map(AsRef::as_ref));
            }
        }
    }
    out.bytes()
}

/// Rows on their way to bytes. Writing into memory can't fail, and rows may
/// differ in length, so there is no error to pass on.
struct Out(csv::Writer<Vec<u8>>);

impl Out {
    fn new(style: Style) -> Self {
        let (start, end) = match style {
            Style::Stdout => ("", csv::Terminator::Any(b'\n')),
            Style::File => ("\u{FEFF}", csv::Terminator::CRLF),
        };
        Self(
            csv::WriterBuilder::new()
                .flexible(true)
                .terminator(end)
                .from_writer(start.as_bytes().to_vec()),
        )
    }

    fn row<'a>(&mut self, cells: impl IntoIterator<Item = &'a str>) {
        let _ = self.0.write_record(cells);
    }

    fn bytes(self) -> Vec<u8> {
        self.0.into_inner().unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::day::Ruling;
    use crate::measure::{Mass, Unit};
    use crate::sheets::{Align, Column, Group};

    fn table() -> Table {
        Table {
            columns: vec![
                Column::new("name", "Name", Align::Left),
                Column::new("clean 1", "1", Align::Right).attempts(),
                Column::new("place", "Place", Align::Right),
            ],
            groups: vec![Group {
                rows: vec![
                    vec![
                        Cell::text("=cmd \"x\", y"),
                        Cell::Attempt {
                            load: Some(Mass::whole(85, Unit::Kg)),
                            unit: Unit::Kg,
                            ruling: Some(Ruling::No),
                            reps: 1,
                        },
                        Cell::Blank,
                    ],
                    vec![Cell::text("-5"), Cell::Blank, Cell::Count(-1)],
                ],
                ..Group::default()
            }],
        }
    }

    #[test]
    fn stdout_is_plain() {
        let text = String::from_utf8(csv(&table(), Style::Stdout)).unwrap();
        assert_eq!(
            text,
            "name,clean 1,clean 1 ruling,place\n\"=cmd \"\"x\"\", y\",85,no,\n-5,,,-1\n"
        );
    }

    #[test]
    fn files_open_right_in_a_spreadsheet() {
        let text = String::from_utf8(csv(&table(), Style::File)).unwrap();
        assert_eq!(
            text,
            "\u{FEFF}name,clean 1,clean 1 ruling,place\r\n\
             \"'=cmd \"\"x\"\", y\",85,no,\r\n-5,,,-1\r\n"
        );
    }

    #[test]
    fn any_rows_are_made_harmless_in_files_alone() {
        let rows = || [["@x", "-5"]];
        let text = |style| String::from_utf8(rows_csv(rows(), style)).unwrap();
        assert_eq!(text(Style::Stdout), "@x,-5\n");
        assert_eq!(text(Style::File), "\u{FEFF}'@x,-5\r\n");
    }

    #[test]
    fn acts_are_written_as_they_are_read() {
        let row = ActRow {
            act: "request".to_owned(),
            load: "+5".to_owned(),
            detail: "a, \"b\"\nc".to_owned(),
            ..ActRow::default()
        };
        let text = String::from_utf8(acts_csv([&row], Style::File)).unwrap();
        let read =
            super::super::acts::read_acts(text.trim_start_matches('\u{FEFF}')).unwrap();
        assert_eq!(read, [ActRow { line: 2, ..row }]);
    }
}
