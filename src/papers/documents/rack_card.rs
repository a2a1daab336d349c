//! Rack cards: athletes down, attempts across, to be written on with a pencil.
//!
//! A card is one flight in one slot. It comes back filled in and is typed at the
//! table, so every sheet stands for itself: it has its own head, its own judge
//! and signature, and never goes on on a sheet without names.

use super::card_row::{NOTE, WARM, columns, lifts, reasons, row};
use super::shared::{Squad, capital, frame, slot_name, squad_label, squads};
use super::{Draft, Order};
use crate::day::{Facts, standing_request};
use crate::lift::{Family, Lift, Slug, Start};
use crate::papers::{Block, Field, Form, Frame, Head, TableStyle, pages};
use crate::roster::{Entry, EntryKey, SlotLine};
use crate::sheets::{Cell, Column, Group, Table, warm_up_steps};

/// Heights of a row in points, the first that fits: 16, 14, 12 and 10 mm.
const ROWS: [f32; 4] = [46.0, 40.0, 34.0, 29.0];

/// Most attempts on one sheet; more go on on another.
const ACROSS: u8 = 4;

/// All rack cards, each on a page of its own.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let frame = frame(facts, order, "Rack cards, private")
        .landscape()
        .head(Head::Slim);
    let most = facts.slots.iter().map(|l| facts.widest(&l.slot)).max();
    let mut all = Table {
        columns: columns(most.unwrap_or(0)),
        groups: Vec::new(),
    };
    let mut blocks = Vec::new();
    for squad in squads(facts) {
        for line in &facts.slots {
            let entries = entries_of(facts, &squad, &line.slot);
            if entries.is_empty() {
                continue;
            }
            let card = Card::new(facts, &squad, line, &entries, most.unwrap_or(0));
            card.sheets(&frame, &all.columns, &mut blocks);
            all.groups.push(card.group);
        }
    }
    if blocks.is_empty() {
        blocks.push(Block::paragraph("Nobody is entered in a lift yet."));
    }
    Draft::new(frame, blocks, vec![("rack-cards".to_owned(), all)])
}

/// Who stands on the card of a flight in a slot, in the order of its rows: the
/// lightest opener first, since the bar goes up within a round; openers that are
/// owed last; equal ones by table number.
pub fn card_order(
    facts: &Facts,
    session: &str,
    flight: &str,
    slot: &Slug,
) -> Vec<EntryKey> {
    let wanted = |s: &Squad<'_>| s.session == session && s.flight == flight;
    let squad = squads(facts).into_iter().find(wanted);
    squad.map_or_else(Vec::new, |squad| {
        let entries = entries_of(facts, &squad, slot);
        entries.into_iter().map(|e| e.key).collect()
    })
}

fn entries_of<'a>(facts: &Facts, squad: &Squad<'a>, slot: &Slug) -> Vec<&'a Entry> {
    let opener = |e: &Entry| standing_request(facts, e, slot, 1).map(|s| s.load.mass);
    let mut entries: Vec<&Entry> = squad
        .entries
        .iter()
        .copied()
        .filter(|e| e.takes_part(slot))
        .collect();
    entries.sort_by_cached_key(|e| {
        let load = opener(e);
        (load.is_none(), load, e.number)
    });
    entries
}

/// One flight in one slot.
struct Card<'a> {
    facts: &'a Facts,
    line: &'a SlotLine,
    lifts: Vec<&'static Lift>,
    title: String,
    attempts: u8,
    group: Group,
}

impl<'a> Card<'a> {
    fn new(
        facts: &'a Facts,
        squad: &Squad<'_>,
        line: &'a SlotLine,
        entries: &[&Entry],
        most: u8,
    ) -> Self {
        let allowed = |e: &&Entry| facts.attempts_allowed(e.key, &line.slot);
        let attempts = entries.iter().map(allowed).max().unwrap_or(0);
        let rows = entries.iter().map(|e| row(facts, squad, line, e, most));
        let label = squad_label(facts, squad);
        Self {
            facts,
            line,
            lifts: lifts(line),
            title: format!("{}: {label}", slot_name(line)),
            attempts,
            group: Group {
                label: format!("{}, {}", label, line.slot),
                remark: String::new(),
                rows: rows.collect(),
            },
        }
    }

    /// The card's sheets: as few as hold all rows, with about as many rows each.
    fn sheets(&self, frame: &Frame, columns: &[Column], blocks: &mut Vec<Block>) {
        let rows = &self.group.rows;
        let parts = self.attempts.div_ceil(ACROSS).max(1);
        let per = self.attempts.div_ceil(parts).max(1);
        for part in 0..parts {
            let from = part * per + 1;
            let to = (from + per - 1).min(self.attempts);
            let sheets_of = |count: usize, height: f32| -> Vec<Vec<Block>> {
                let chunks: Vec<&[Vec<Cell>]> =
                    rows.chunks(rows.len().div_ceil(count)).collect();
                let of = chunks.len();
                let chunks = chunks.into_iter().enumerate();
                chunks
                    .map(|(i, rows)| {
                        self.sheet(columns, rows, (from, to), (i + 1, of), height)
                    })
                    .collect()
            };
            let fits = |sheets: &Vec<Vec<Block>>| {
                sheets.iter().all(|blocks| pages(frame, blocks).len() == 1)
            };
            let found = (1..=rows.len())
                .flat_map(|count| ROWS.map(|height| (count, height)))
                .map(|(count, height)| sheets_of(count, height))
                .find(fits);
            // One athlete on a sheet always fits, unless a name fills it.
            let sheets = found.unwrap_or_else(|| sheets_of(rows.len(), ROWS[3]));
            for sheet in sheets {
                if !blocks.is_empty() {
                    blocks.push(Block::PageBreak);
                }
                blocks.extend(sheet);
            }
        }
    }

    fn sheet(
        &self,
        columns: &[Column],
        rows: &[Vec<Cell>],
        (from, to): (u8, u8),
        (sheet, of): (usize, usize),
        height: f32,
    ) -> Vec<Block> {
        let mut title = self.title.clone();
        if self.attempts > ACROSS {
            title.push_str(&format!(", attempts {from} to {to}"));
        }
        if of > 1 {
            title.push_str(&format!(", sheet {sheet} of {of}"));
        }
        let table = Table {
            columns: self.columns(columns, from, to),
            groups: vec![Group {
                rows: rows.iter().map(|row| self.printed(row)).collect(),
                ..Group::default()
            }],
        };
        let mut blocks = vec![
            Block::heading(title),
            Block::table(table, self.style(from, to, height)),
        ];
        blocks.extend(self.foot());
        blocks
    }

    /// The columns with headings only where the card shows them.
    fn columns(&self, columns: &[Column], from: u8, to: u8) -> Vec<Column> {
        let racked = self.lifts.iter().any(|l| l.parts.start == Start::Rack);
        let armed = |l: &&Lift| matches!(l.parts.family, Family::Squat | Family::Bench);
        let armed = self.lifts.iter().any(armed);
        let number =
            |key: &str| key.split_once(' ').and_then(|(n, _)| n.parse::<u8>().ok());
        let mut columns = columns.to_vec();
        for column in &mut columns {
            let seen = match column.key.as_str() {
                "lift" => self.line.variants.len() > 1,
                "rack" => racked,
                "arms" => armed,
                key => number(key).is_none_or(|n| (from..=to).contains(&n)),
            };
            if !seen {
                column.label.clear();
                column.span.clear();
            }
        }
        columns
    }

    /// A row with its small line in words.
    fn printed(&self, row: &[Cell]) -> Vec<Cell> {
        let mut row = row.to_vec();
        let text = |cell: Option<&Cell>| cell.map(Cell::shown).unwrap_or_default();
        let (note, warm) = (text(row.get(NOTE)), text(row.get(WARM)));
        let mut words = Vec::new();
        if !note.is_empty() {
            words.push(capital(&note));
        }
        if !warm.is_empty() {
            words.push(format!("Warm-up {warm}"));
        }
        if let Some(cell) = row.get_mut(NOTE) {
            *cell = Cell::text(words.join(". "));
        }
        row
    }

    fn style(&self, from: u8, to: u8, height: f32) -> TableStyle {
        let tight = to - from + 1 >= ACROSS;
        let (load, mark, reason) = if tight {
            (42.0, 25.0, 36.0)
        } else {
            (50.0, 30.0, 46.0)
        };
        let mut boxes = vec!["rack".to_owned(), "arms".to_owned()];
        let mut widths = vec![("rack".to_owned(), 32.0), ("arms".to_owned(), 32.0)];
        let mut parted = vec!["rack".to_owned()];
        for n in from..=to {
            let key = |what: &str| format!("{n} {what}");
            parted.push(key("load"));
            boxes.extend(["load", "good", "no", "reason"].map(key));
            widths.extend([(key("good"), mark), (key("no"), mark)]);
            widths.extend([(key("load"), load), (key("reason"), reason)]);
        }
        TableStyle::to_fill_in()
            // A name and the line beneath it fit in the height.
            .size((height * 0.36).min(13.0))
            .row_height(height)
            .boxes(boxes)
            .widths(widths)
            .parted(parted)
            .bold(["lot", "name"])
            .beneath("name", "note")
            .lines(3)
    }

    /// Who was there, what the numbers mean, and the cautions.
    fn foot(&self) -> Vec<Block> {
        let spotters = self.lifts.iter().map(|l| l.spotters).max().unwrap_or(0);
        let spotters = match spotters {
            0 => "Spotters: none for this lift".to_owned(),
            1 => "Spotter, at least 1".to_owned(),
            n => format!("Spotters, at least {n}"),
        };
        let judges = if self.facts.rules.judges > 1 {
            "Judges"
        } else {
            "Judge"
        };
        let form = Form::new().row_height(30.0).row([
            Field::new(judges).weight(1.3),
            Field::new(spotters).weight(1.6),
            Field::new("Loaders"),
            Field::new("Signed by the judge").weight(1.3),
            Field::new("Done at").weight(0.6),
            Field::new("Typed by").weight(0.6),
        ]);
        let reasons: Vec<String> = (1..)
            .zip(reasons(self.line))
            .map(|(n, fault)| format!("{n} {}", fault.text))
            .collect();
        let steps: Vec<String> = warm_up_steps()
            .iter()
            .map(|s| format!("{} % × {}", s.percent, s.repetitions))
            .collect();
        let facts = self.facts;
        let mut words = format!(
            "Loads in {}, in steps of {}.",
            facts.bar_unit,
            facts.rules.step.show(facts.bar_unit)
        );
        if self.attempts > 0 && !steps.is_empty() {
            words.push_str(&format!(
                " Warm-up: {} of the opener, rounded down.",
                steps.join(", ")
            ));
        }
        if !reasons.is_empty() {
            words.push_str(&format!("\nReason, by its number: {}.", reasons.join(", ")));
        }
        let mut cautions: Vec<&str> = Vec::new();
        for lift in &self.lifts {
            // The last one defers to local policy, as the first words here do.
            let own = lift.cautions.split_last().map_or(&[][..], |(_, own)| own);
            for caution in own {
                if !cautions.contains(&caution.as_str()) {
                    cautions.push(caution);
                }
            }
        }
        let policy = "General education only: local policy and the qualified supervisor \
                      on site come first.";
        vec![
            Block::Form(form),
            Block::small(words),
            Block::small(format!("{policy} {}", cautions.join(" "))),
        ]
    }
}
