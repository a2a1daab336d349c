//! The scale as a grid.

use super::fields::{Field, fields};
use crate::day::Facts;
use crate::desk::screen::roster::fields::opener_width;
use crate::desk::see;
use crate::desk::widget::grid::{Cell, Column, Enter, Grid, Sheet};
use crate::roster::Entry;

/// The scale's cells.
pub struct ScaleSheet<'a> {
    facts: &'a Facts,
    entries: Vec<&'a Entry>,
    /// What each column holds.
    pub fields: Vec<Field>,
    columns: Vec<Column>,
}

impl<'a> ScaleSheet<'a> {
    /// The cells of the scale.
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
        let (Some(entry), Some(field)) =
            (self.entry(grid.cursor.row), self.fields.get(column))
        else {
            return "Nobody is entered yet.".to_owned();
        };
        let who = format!("lot {}, {}", entry.number, entry.name());
        if let Some(text) = grid.finding() {
            return if self.found(grid.cursor.row, text) {
                format!("Enter goes to {who}.")
            } else {
                format!("No lot and no name begins with {text}.")
            };
        }
        let name = match field {
            Field::Bodyweight => format!("bodyweight in {}", self.facts.scale_unit),
            Field::Opener(_) => format!("opener in {}", self.columns[column].title),
            _ => self.columns[column].title.clone(),
        };
        let Some(draft) = grid.draft(entry.key.0, column) else {
            return match field {
                Field::Lot => {
                    "Type a lot or the beginning of a name; Enter goes there.".to_owned()
                }
                Field::Clearance => format!(
                    "Clearance of {who}: yes, no, or up to and a load; “back-squat: no” for one \
                     lift; then who=name; why=reason."
                ),
                Field::Setup(setup) => {
                    format!(
                        "{setup} of {who}, in millimetres (850) or as the rack counts."
                    )
                }
                Field::Edge | Field::Remark | Field::Name | Field::Sex => {
                    format!("{who}: {name}.")
                }
                _ => format!(
                    "{} of {who}. Enter goes along the row, Right to clearance and set-ups, \
                     Home to the next lot.",
                    capital(&name)
                ),
            };
        };
        match field.command(self.facts, entry, &draft.text) {
            Err(sentence) => sentence,
            Ok(None) => format!("{} of {who} stays as it is.", capital(&name)),
            Ok(Some(_)) => {
                let advice = field
                    .advice(self.facts, entry, &draft.text)
                    .unwrap_or_default();
                let typed = draft.text.trim();
                let said = if typed.is_empty() { "nothing" } else { typed };
                format!("Enter records {said} as the {name} of {who}. {advice}")
            }
        }
    }
}

/// The same words with a capital at the beginning.
fn capital(text: &str) -> String {
    let mut chars = text.chars();
    match chars.next() {
        Some(first) => first.to_uppercase().chain(chars).collect(),
        None => String::new(),
    }
}

fn column(facts: &Facts, field: &Field) -> Column {
    match field {
        Field::Lot => Column::figures("Lot", 5),
        Field::Name => Column::words("Athlete", 21),
        Field::Sex => Column::words("Sex", 3),
        Field::Category => Column::words("Category", 8),
        Field::Bodyweight => Column::figures(format!("Weight {}", facts.scale_unit), 9),
        Field::Edge if crate::standings::category_set(facts).is_none() => {
            Column::words(format!("In {}", facts.scale_unit.other()), 9)
        }
        Field::Edge => Column::words("By the scale", 18),
        Field::Opener(slot) => {
            Column::figures(see::lift_name(slot), opener_width(facts, slot))
        }
        Field::Clearance => Column::words("Cleared", 9),
        Field::Setup(name) => Column::words(name.clone(), 8),
        Field::Remark => Column::words("Owed", 15).growing(),
    }
}

impl Sheet for ScaleSheet<'_> {
    fn columns(&self) -> &[Column] {
        &self.columns
    }

    fn rows(&self) -> usize {
        self.entries.len()
    }

    fn key(&self, row: usize) -> u32 {
        self.entry(row).map_or(u32::MAX, |e| e.key.0)
    }

    fn cell(&self, row: usize, column: usize) -> Cell {
        let (Some(entry), Some(field)) = (self.entry(row), self.fields.get(column))
        else {
            return Cell::default();
        };
        let text = field.text(self.facts, entry);
        match field {
            Field::Lot | Field::Name | Field::Sex | Field::Edge | Field::Remark => {
                Cell::fixed(text)
            }
            Field::Bodyweight => Cell::open(text),
            Field::Opener(slot) => Cell {
                stop: entry.takes_part(slot),
                ..Cell::open(text)
            },
            Field::Category | Field::Clearance | Field::Setup(_) => Cell {
                stop: false,
                ..Cell::open(text)
            },
        }
    }

    fn enter(&self) -> Enter {
        Enter::Along
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
