//! Training sheets: each athlete's percent table on a card, to be cut apart.

use super::shared::{capital, frame};
use super::{Draft, Order};
use crate::day::Facts;
use crate::papers::{Block, Cards, Frame, Head, TableStyle, pages};
use crate::roster::Entry;
use crate::sheets::{
    Align, BAR, Cell, Column, Group, SquadBy, Table, TrainingRow, bar_words, lift_name,
    lift_short, next_opener_percent, training_percents, training_rows, training_table,
};

/// Most lifts side by side on a card; more go on on another.
const BESIDE: usize = 4;

/// Type sizes of the loads in points, the largest that fits first.
const SIZES: [f32; 4] = [9.5, 9.0, 8.5, 8.0];

/// Widths of a lift's column in points where so many lifts stand side by side, and
/// where more do: the columns stand at the same places on every card, whatever
/// their names and loads.
const LIFT_WIDTHS: [(usize, f32); 2] = [(2, 72.0), (3, 58.0)];
const NARROWEST: f32 = 46.0;

/// Cards side by side, and one above another.
const GRID: (usize, usize) = (2, 2);

/// What is said where there is no max.
pub(super) const EMPTY: &str =
    "No result yet. Training loads are made from what was lifted.";

/// All training sheets, squad by squad, so that a coach gets them in one pile.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let frame = frame(facts, order, "Training sheets, private").head(Head::Slim);
    let percents = training_percents();
    let twin = training_table(facts, percents, SquadBy::of(facts));
    let rows = training_rows(facts, percents);
    let cards: Vec<Vec<Block>> = entries(facts, &twin)
        .into_iter()
        .flat_map(|entry| {
            let own: Vec<&TrainingRow> =
                rows.iter().filter(|row| row.entry == entry.key).collect();
            let parts = own.chunks(BESIDE);
            let cards = parts.map(|rows| {
                fitted(&frame, |size| card(facts, entry, rows, percents, size))
            });
            cards.collect::<Vec<_>>()
        })
        .collect();
    let blocks = if cards.is_empty() {
        vec![Block::paragraph(EMPTY)]
    } else {
        vec![Block::Cards(Cards::new(GRID.0, GRID.1, cards))]
    };
    Draft::new(frame, blocks, vec![("training-sheets".to_owned(), twin)])
}

/// The athletes of a table, each once, in its order.
fn entries<'a>(facts: &'a Facts, table: &Table) -> Vec<&'a Entry> {
    let at = table.columns.iter().position(|c| c.key == "lot");
    let mut entries: Vec<&Entry> = Vec::new();
    for row in table.groups.iter().flat_map(|g| &g.rows) {
        let lot = match at.and_then(|at| row.get(at)) {
            Some(Cell::Count(lot)) => u16::try_from(*lot).ok(),
            _ => None,
        };
        let entry = lot.and_then(|lot| facts.entry_by_number(lot));
        if let Some(entry) =
            entry.filter(|e| entries.last().is_none_or(|l| l.key != e.key))
        {
            entries.push(entry);
        }
    }
    entries
}

/// The card in the largest type with which as many stand on a page as should: a name
/// on two lines costs its card a little type, not half a page.
fn fitted(frame: &Frame, card: impl Fn(f32) -> Vec<Block>) -> Vec<Block> {
    let fits = |card: &Vec<Block>| {
        // The first card of every row of a page.
        let mut page = vec![Vec::new(); GRID.0 * (GRID.1 - 1) + 1];
        page.iter_mut()
            .step_by(GRID.0)
            .for_each(|c| c.clone_from(card));
        let page = [Block::Cards(Cards::new(GRID.0, GRID.1, page))];
        pages(frame, &page).len() == 1
    };
    let largest = card(SIZES[0]);
    if fits(&largest) {
        return largest;
    }
    SIZES[1..]
        .iter()
        .map(|size| card(*size))
        .find(fits)
        .unwrap_or(largest)
}

/// One card: who, the loads, and what they are.
fn card(
    facts: &Facts,
    entry: &Entry,
    rows: &[&TrainingRow],
    percents: &[u8],
    size: f32,
) -> Vec<Block> {
    let wide = LIFT_WIDTHS
        .iter()
        .find(|(most, _)| rows.len() <= *most)
        .map_or(NARROWEST, |(_, width)| *width);
    let style = TableStyle::working()
        .size(size)
        .row_height(14.0)
        .bold(["share"])
        .widths(rows.iter().map(|row| (row.max.lift.as_str(), wide)))
        .lines(3);
    let mut blocks = vec![
        Block::heading(entry.name()),
        Block::small(who(facts, entry)),
    ];
    blocks.push(Block::table(table(facts, rows, percents), style));
    blocks.push(Block::small(remarks(facts, entry, rows)));
    blocks
}

/// `Lot 12 · Otters track · grade 10 · flight A · 17 Nov 2026`.
fn who(facts: &Facts, entry: &Entry) -> String {
    let mut words = vec![format!("Lot {}", entry.number)];
    let mut add = |what: &str, name: &str| {
        if !name.is_empty() {
            words.push(format!("{what}{name}"));
        }
    };
    add("", &entry.team);
    add("grade ", &entry.grade);
    add("flight ", &entry.flight);
    add("", &facts.date.format("%-d %b %Y").to_string());
    words.join(" · ")
}

/// Shares down, lifts across.
fn table(facts: &Facts, rows: &[&TrainingRow], percents: &[u8]) -> Table {
    let unit = facts.bar_unit;
    let mut columns = vec![Column::new("share", "Share", Align::Left)];
    columns.extend(rows.iter().map(|row| {
        let name = lift_name(&row.max.lift);
        let name = match rows.len() {
            1 | 2 => name,
            _ => lift_short(&row.max.lift),
        };
        Column::new(row.max.lift.as_str(), &capital(&name), Align::Right)
    }));
    let line = |words: String, cells: Vec<Cell>| -> Vec<Cell> {
        std::iter::once(Cell::text(words)).chain(cells).collect()
    };
    let max = |row: &&TrainingRow| match row.max.estimated {
        true => Cell::Estimate(row.max.mass, unit),
        false => Cell::Mass(row.max.mass, unit),
    };
    let mut lines = vec![line("Max".to_owned(), rows.iter().map(max).collect())];
    for (index, percent) in percents.iter().enumerate() {
        let share = |row: &&TrainingRow| {
            row.shares.get(index).map_or(Cell::Blank, |s| s.cell(unit))
        };
        lines.push(line(
            format!("{percent} %"),
            rows.iter().map(share).collect(),
        ));
    }
    let openers = rows.iter().map(|row| row.opener.cell(unit));
    lines.push(line("Next opener".to_owned(), openers.collect()));
    Table {
        columns,
        groups: vec![Group {
            rows: lines,
            ..Group::default()
        }],
    }
}

/// What the loads of a card are, in small type.
fn remarks(facts: &Facts, entry: &Entry, rows: &[&TrainingRow]) -> String {
    let unit = facts.bar_unit;
    let platform = facts.platform_of(entry).unwrap_or(1);
    let bar = bar_words(facts, platform, facts.empty_bar(platform, entry));
    let mut words = format!(
        "Private: for the athlete and the coach. Loads in {unit} on {bar}, rounded down to \
         the discs on hand."
    );
    words.push_str(&legend(rows.iter().copied()));
    words
}

/// What the words and marks in the cells mean, as far as any row has them.
pub(super) fn legend<'a>(rows: impl Iterator<Item = &'a TrainingRow> + Clone) -> String {
    use crate::sheets::Share;
    let mut words = String::new();
    let bar =
        |row: &TrainingRow| row.shares.contains(&Share::Bar) || row.opener == Share::Bar;
    if rows.clone().any(bar) {
        words.push_str(&format!(" The word {BAR}: less than the empty bar."));
    }
    if rows.clone().any(|row| row.max.estimated) {
        words.push_str(" Est.: from several repetitions, not tested.");
    }
    if rows.clone().any(|row| row.short) {
        words.push_str(" The heaviest shares are beyond the discs on hand.");
    }
    words.push_str(&format!(
        " Next opener: {} % of the max, as advice; the coach decides.",
        next_opener_percent()
    ));
    words
}
