//! The roster as a grid, with a row at the end for somebody new.

use super::fields::{Field, fields, new_entry, opener_width};
use crate::day::Facts;
use crate::desk::see;
use crate::desk::widget::grid::{Cell, Column as GridColumn, Enter, Grid, Mark, Sheet};
use crate::roster::{Column, Entry, EntryKey};

/// The name of the row for somebody new.
pub const NEW: u32 = u32::MAX;

/// The roster's cells.
pub struct RosterSheet<'a> {
    facts: &'a Facts,
    entries: Vec<&'a Entry>,
    /// What each column holds.
    pub fields: Vec<Field>,
    columns: Vec<GridColumn>,
}

/// The entry of a row's name.
pub fn entry_of(facts: &Facts, key: u32) -> Option<&Entry> {
    facts.entries.get(&EntryKey(key))
}

impl<'a> RosterSheet<'a> {
    /// The cells of the roster.
    pub fn new(facts: &'a Facts) -> Self {
        let fields = fields(facts);
        let columns = fields.iter().map(|f| column(facts, f)).collect();
        Self {
            facts,
            entries: facts.entries_by_number().collect(),
            fields,
            columns,
        }
    }

    fn entry(&self, row: usize) -> Option<&'a Entry> {
        self.entries.get(row).copied()
    }

    /// What Enter will do, as a sentence.
    pub fn line(&self, grid: &Grid) -> String {
        let column = grid.cursor.column;
        let Some(field) = self.fields.get(column) else {
            return String::new();
        };
        let Some(entry) = self.entry(grid.cursor.row) else {
            return self.new_line(grid);
        };
        if let Some(text) = grid.finding() {
            return self.find_line(entry, grid.cursor.row, text);
        }
        let who = format!("lot {}, {}", entry.number, entry.name());
        let name = &self.columns[column].title;
        let Some(draft) = grid.draft(entry.key.0, column) else {
            return match field {
                Field::Detail(Column::Lot) => format!(
                    "Type a lot to go to it, or “to” and a number to give {who} another one."
                ),
                Field::Roll => format!(
                    "Roll of {who}: write here, absent, away, back or withdraw, and a reason."
                ),
                Field::Flight => format!(
                    "Flight of {who}: write its name; “B on 2” makes flight B on platform 2."
                ),
                Field::Opener(_) => format!(
                    "{name} of {who}: the opener, “-” for not entered, a variant's name for \
                     another lift."
                ),
                _ => {
                    // The column of what is owed is narrow.
                    let owed = Field::Remark.text(self.facts, entry);
                    let owed = match owed.is_empty() {
                        true => String::new(),
                        false => format!(" To do: {owed}."),
                    };
                    format!(
                        "{name} of {who}. Typing replaces it; Enter goes down, Tab along.{owed}"
                    )
                }
            };
        };
        match field.command(self.facts, entry, &draft.text) {
            Err(sentence) => sentence,
            Ok(None) => format!("{name} of {who} stays as it is."),
            Ok(Some(_)) => {
                let advice = field
                    .advice(self.facts, entry, &draft.text)
                    .unwrap_or_default();
                let said = if draft.text.trim().is_empty() {
                    "nothing"
                } else {
                    draft.text.trim()
                };
                format!("Enter: {name} of {who} becomes {said}. {advice}")
            }
        }
    }

    fn find_line(&self, entry: &Entry, row: usize, text: &str) -> String {
        if self.found(row, text) {
            return format!("Enter goes to lot {}, {}.", entry.number, entry.name());
        }
        match text.trim().strip_prefix("to ").map(str::trim) {
            Some(number) => format!(
                "Enter gives {} the number {number} instead of {}.",
                entry.name(),
                entry.number
            ),
            None => format!("No lot and no name here begins with {text}."),
        }
    }

    fn new_line(&self, grid: &Grid) -> String {
        let typed = |column: usize| grid.draft(NEW, column).map(|d| d.text.clone());
        if grid.drafts_of(NEW).next().is_none() {
            return "Somebody new: type the given name, Tab, the family name and what else is \
                    known; Enter adds. The lot is drawn if it is left blank."
                .to_owned();
        }
        match new_entry(self.facts, &self.fields, &typed) {
            Err((_, sentence)) => sentence,
            Ok(new) => {
                let named = |column: usize| typed(column).unwrap_or_default();
                let lot = match new.number {
                    Some(number) => format!("with lot {number}"),
                    None => "with a lot that is drawn".to_owned(),
                };
                let name = format!("{} {}", named(1), named(2));
                format!("Enter adds {} {lot}.", name.trim())
            }
        }
    }
}

fn column(facts: &Facts, field: &Field) -> GridColumn {
    match field {
        Field::Detail(Column::Lot) => GridColumn::figures("Lot", 5),
        Field::Detail(Column::Given) => GridColumn::words("Given", 11),
        Field::Detail(Column::Family) => GridColumn::words("Family", 15),
        Field::Detail(Column::Sex) => GridColumn::words("Sex", 3),
        Field::Detail(Column::Born) => GridColumn::words("Born", 10),
        Field::Detail(Column::Grade) => GridColumn::words("Grade", 5),
        Field::Detail(Column::Team) => {
            let letters = facts.entries.values().map(|e| e.team.chars().count());
            let letters = u16::try_from(letters.max().unwrap_or(0)).unwrap_or(u16::MAX);
            // In hand, words are set larger.
            GridColumn::words("Team", letters.saturating_add(2).clamp(8, 18))
        }
        Field::Detail(Column::Category) => GridColumn::words("Category", 8),
        Field::Detail(_) => GridColumn::words("", 4),
        Field::Session => GridColumn::words("Session", 7),
        Field::Flight => GridColumn::words("Flight", 6),
        Field::Opener(slot) => {
            GridColumn::figures(see::lift_name(slot), opener_width(facts, slot))
        }
        Field::Roll => GridColumn::words("Roll", 9),
        Field::Remark => GridColumn::words("Owed", 8).growing(),
    }
}

impl Sheet for RosterSheet<'_> {
    fn columns(&self) -> &[GridColumn] {
        &self.columns
    }

    fn rows(&self) -> usize {
        self.entries.len() + 1
    }

    fn key(&self, row: usize) -> u32 {
        self.entry(row).map_or(NEW, |e| e.key.0)
    }

    fn cell(&self, row: usize, column: usize) -> Cell {
        let Some(field) = self.fields.get(column) else {
            return Cell::default();
        };
        let Some(entry) = self.entry(row) else {
            let hint = if column == 1 { "new athlete" } else { "" };
            return Cell {
                text: hint.to_owned(),
                mark: Mark::Hint,
                open: !matches!(field, Field::Roll | Field::Remark),
                stop: !matches!(
                    field,
                    Field::Detail(Column::Lot) | Field::Roll | Field::Remark
                ),
            };
        };
        let text = field.text(self.facts, entry);
        match field {
            Field::Detail(Column::Lot) | Field::Remark => Cell::fixed(text),
            _ => Cell::open(text),
        }
    }

    fn enter(&self) -> Enter {
        Enter::Down
    }

    fn whole_row(&self, row: usize) -> bool {
        row >= self.entries.len()
    }

    fn finder(&self) -> Option<usize> {
        Some(0)
    }

    fn found(&self, row: usize, text: &str) -> bool {
        let text = text.trim().to_lowercase();
        self.entry(row).is_some_and(|e| {
            e.number.to_string().starts_with(&text)
                || e.family.to_lowercase().starts_with(&text)
                || e.given.to_lowercase().starts_with(&text)
        })
    }
}
