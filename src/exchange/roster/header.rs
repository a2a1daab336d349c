//! A roster's header: which column means what.

use super::super::entry::Given;
use super::super::text::Row;
use super::super::{Fault, one_line};
use crate::roster::{Column, SlotLine};

/// The columns of a file that are known, with their places.
pub(super) struct Head {
    columns: Vec<(usize, String, Column)>,
    /// Headers that mean nothing here.
    pub(super) unknown: Vec<String>,
}

impl Head {
    /// Reads a header; what is wrong in it is added to `faults`.
    pub(super) fn read(row: &Row, slots: &[SlotLine], faults: &mut Vec<Fault>) -> Self {
        let mut head = Self {
            columns: Vec::new(),
            unknown: Vec::new(),
        };
        for (at, cell) in row.cells.iter().enumerate() {
            let label = one_line(cell);
            let Some(column) = Column::named(&label, slots) else {
                head.unknown.push(if label.is_empty() {
                    format!("column {} without a header", at + 1)
                } else {
                    label
                });
                continue;
            };
            let twice = head.columns.iter().find(|(_, _, c)| *c == column);
            if let Some((_, first, _)) = twice {
                let message = if *first == label {
                    "This column is there twice; leave one of them".to_owned()
                } else {
                    format!(
                        "This column and “{first}” both mean {}; leave one of them",
                        column.word()
                    )
                };
                faults.push(Fault::at(row.place(), &label, message));
                continue;
            }
            head.columns.push((at, label, column));
        }
        if !head.has_name() {
            faults.push(Fault::at(
                row.place(),
                "",
                format!(
                    "No column is headed name, or given and family; the header has {}.",
                    headers(row)
                ),
            ));
        }
        head
    }

    /// Whether any column gives a name.
    pub(super) fn has_name(&self) -> bool {
        [Column::Name, Column::Given, Column::Family]
            .iter()
            .any(|c| self.has(c))
    }

    /// Whether there is such a column.
    pub(super) fn has(&self, column: &Column) -> bool {
        self.columns.iter().any(|(_, _, c)| c == column)
    }

    /// The header, as written, of the first column that is meant.
    pub(super) fn label(&self, meant: impl Fn(&Column) -> bool) -> &str {
        self.columns
            .iter()
            .find(|(_, _, c)| meant(c))
            .map_or("", |(_, label, _)| label.as_str())
    }

    /// The known cells of a row.
    pub(super) fn cells<'a>(&'a self, row: &'a Row) -> impl Iterator<Item = Given<'a>> {
        self.columns.iter().map(|(at, label, column)| Given {
            column,
            label,
            text: row.cells.get(*at).map(|c| one_line(c)).unwrap_or_default(),
        })
    }
}

fn headers(row: &Row) -> String {
    let quoted: Vec<String> = row
        .cells
        .iter()
        .map(|c| format!("“{}”", one_line(c)))
        .collect();
    quoted.join(", ")
}
