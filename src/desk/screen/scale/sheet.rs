//! The scale as a grid.

use super::fields::{Field, fields};
use super::find::{Found, find};
use crate::day::Facts;
use crate::desk::screen::roster::fields::opener_width;
use crate::desk::see;
use crate::desk::widget::grid::{Cell, Column, Sheet};
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

    /// All entries, by number.
    pub fn entries(&self) -> &[&'a Entry] {
        &self.entries
    }

    /// Who is meant by a number or the beginning of a name.
    pub fn find(&self, text: &str) -> Found {
        find(&self.entries, text)
    }
}

fn column(facts: &Facts, field: &Field) -> Column {
    match field {
        Field::Lot => Column::figures("Lot", 5),
        Field::Name => Column::words("Athlete", 23),
        Field::Sex => Column::words("Sex", 3),
        Field::Category => Column::words("Category", 8),
        Field::Bodyweight => Column::figures(format!("Weight {}", facts.scale_unit), 9),
        Field::Edge if crate::standings::category_set(facts).is_none() => {
            Column::figures(format!("In {}", facts.scale_unit.other()), 7)
        }
        Field::Edge => Column::words("By the scale", 18),
        Field::Opener(slot) => {
            // In hand, words are set larger.
            Column::figures(see::lift_name(slot), opener_width(facts, slot) + 2)
        }
        Field::Clearance => {
            // What is cut off here may be a “no”.
            let all = facts.entries.values().map(|e| field.text(facts, e));
            let letters = all.map(|text| text.chars().count()).max().unwrap_or(0);
            let letters = u16::try_from(letters).unwrap_or(u16::MAX);
            Column::words("Cleared", letters.clamp(9, 14))
        }
        Field::Cap => Column::words("Cap", 5),
        Field::Setup(name) => Column::words(name.clone(), 9),
        Field::Remark => Column::words("Owed", 9).growing(),
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
            Field::Category | Field::Clearance | Field::Cap | Field::Setup(_) => Cell {
                stop: false,
                ..Cell::open(text)
            },
        }
    }

    fn finder(&self) -> Option<usize> {
        Some(super::FINDER)
    }
}
