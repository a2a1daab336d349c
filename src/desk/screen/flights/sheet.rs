//! The flights by hand, as a grid.

use crate::day::{Command, Facts, Place};
use crate::desk::screen::roster::fields::opener_width;
use crate::desk::see;
use crate::desk::widget::grid::{Cell, Column, Enter, Grid, Sheet};
use crate::roster::Entry;

/// The column of the session; the flight's is the next.
const SESSION: usize = 2;
const FLIGHT: usize = 3;

/// The cells of the flights by hand.
pub struct FlightSheet<'a> {
    facts: &'a Facts,
    entries: Vec<&'a Entry>,
    columns: Vec<Column>,
}

impl<'a> FlightSheet<'a> {
    /// The cells of a day.
    pub fn new(facts: &'a Facts) -> Self {
        let mut columns = vec![
            Column::figures("Lot", 5),
            Column::words("Athlete", 21),
            Column::words("Session", 9),
            Column::words("Flight", 9),
            Column::words("Platform", 12),
            Column::words("Sex", 3),
            Column::words("Category", 8),
            Column::words("Rack height", 9),
        ];
        for line in &facts.slots {
            let width = opener_width(facts, &line.slot);
            columns.push(Column::figures(see::lift_name(&line.slot), width));
        }
        columns.push(Column::words("", 8).growing());
        Self {
            facts,
            entries: facts.entries_by_number().collect(),
            columns,
        }
    }

    fn entry(&self, row: usize) -> Option<&'a Entry> {
        self.entries.get(row).copied()
    }

    /// What Enter will do, as a sentence.
    pub fn line(&self, grid: &Grid) -> String {
        let Some(entry) = self.entry(grid.cursor.row) else {
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
        let column = grid.cursor.column;
        match grid.draft(entry.key.0, column).map(|d| d.text.as_str()) {
            Some(text) => match command(self.facts, entry, column, text) {
                Ok(Some(_)) if column == SESSION => {
                    format!("Enter places {who} in session {}.", text.trim())
                }
                Ok(Some(_)) => format!("Enter places {who} in flight {}.", text.trim()),
                Ok(None) => format!("{who} stays where they are."),
                Err(sentence) => sentence,
            },
            None if column == 0 => {
                "Type a lot or the beginning of a name; Enter goes there.".to_owned()
            }
            None => format!(
                "Type a flight's name beside {who}; “C on 2” makes flight C on platform 2."
            ),
        }
    }
}

/// What a cell that was typed into means; `None` where nothing changes.
///
/// # Errors
/// A sentence that says what would be allowed.
pub fn command(
    facts: &Facts,
    entry: &Entry,
    column: usize,
    text: &str,
) -> Result<Option<Command>, String> {
    use crate::desk::screen::roster::fields::Field;
    let text = text.trim();
    match column {
        SESSION => Field::Session.command(facts, entry, text),
        FLIGHT => match text.split_once('/') {
            Some((session, flight)) if !session.is_empty() && !flight.is_empty() => {
                let place = Place {
                    session: Some(session.trim().to_owned()),
                    flight: Some(flight.trim().to_owned()),
                    platform: None,
                };
                Ok(Some(Command::Place(vec![(entry.number, place)])))
            }
            _ => Field::Flight.command(facts, entry, text),
        },
        _ => Ok(None),
    }
}

impl Sheet for FlightSheet<'_> {
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
        let Some(entry) = self.entry(row) else {
            return Cell::default();
        };
        match column {
            0 => Cell::fixed(entry.number.to_string()),
            1 => Cell::fixed(entry.name()),
            SESSION => Cell {
                stop: false,
                ..Cell::open(entry.session.clone())
            },
            FLIGHT => Cell::open(entry.flight.clone()),
            4 => {
                let platform = self.facts.platform_of(entry);
                Cell::fixed(
                    platform.map_or_else(String::new, |p| self.facts.platform_label(p)),
                )
            }
            5 => Cell::fixed(entry.sex.map(|s| s.to_string()).unwrap_or_default()),
            6 => Cell::fixed(entry.category.clone()),
            7 => {
                let rack = entry
                    .setups
                    .iter()
                    .find(|(name, _)| name.starts_with("rack"));
                Cell::fixed(rack.map_or("", |(_, value)| value))
            }
            other => match self.facts.slots.get(other - 8) {
                Some(line) => {
                    let text = crate::desk::screen::roster::fields::opener_text(
                        self.facts, entry, &line.slot,
                    );
                    Cell::fixed(text)
                }
                None => Cell::default(),
            },
        }
    }

    fn enter(&self) -> Enter {
        Enter::Down
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

/// The column in which flights are typed.
pub const fn flight_column() -> usize {
    FLIGHT
}
