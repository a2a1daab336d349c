//! Results: places, attempts, bests and totals, by category and by division.

use super::shared::{
    capital, frame, hide, hide_empty, hide_where, of_slot, slot_name, title,
};
use super::{Draft, Order};
use crate::day::Facts;
use crate::lift::Slug;
use crate::papers::{Block, TableStyle};
use crate::sheets::{
    Audience, Cell, Table, lift_short, shows_bodyweight, standings_table,
};
use crate::standings::Basis;

/// More attempts side by side than this need the long edge of the paper.
const UPRIGHT: u8 = 4;

/// More attempts, bests and places side by side than this are parted.
const BESIDE: usize = 18;

/// How many slots' attempts then stand side by side.
const AT_A_TIME: usize = 2;

/// The results: by category (or flight, or all), then by division where there
/// are divisions.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let mut frame = frame(facts, order, &title("Results", order.audience));
    let attempts: u8 = facts
        .slots
        .iter()
        .map(|line| facts.widest(&line.slot))
        .fold(0, u8::saturating_add);
    frame.landscape = attempts > UPRIGHT;
    let mut blocks = Vec::new();
    let mut tables = Vec::new();
    let table = standings_table(facts, Basis::Category, order.audience);
    section(facts, order, &table, Basis::Category, &mut blocks);
    tables.push(("results".to_owned(), table));
    if facts.entries.values().any(|e| !e.divisions.is_empty()) {
        let table = standings_table(facts, Basis::Division, order.audience);
        blocks.push(Block::PageBreak);
        blocks.push(Block::heading("By division"));
        section(facts, order, &table, Basis::Division, &mut blocks);
        tables.push(("results-by-division".to_owned(), table));
    }
    Draft {
        frame,
        blocks,
        tables,
    }
}

fn section(
    facts: &Facts,
    order: &Order,
    table: &Table,
    basis: Basis,
    blocks: &mut Vec<Block>,
) {
    let mut shown = shown(facts, table, basis);
    if order.audience == Audience::Posted {
        hide(&mut shown, "sex");
    }
    let style = style(facts, order);
    let columns: usize = facts
        .slots
        .iter()
        .map(|l| usize::from(facts.widest(&l.slot)) + 2)
        .sum();
    if columns <= BESIDE {
        blocks.push(Block::table(shown, style));
        blocks.push(Block::small(legend(facts, order)));
        return;
    }
    // All attempts side by side would be too small to read: bests and total
    // first, then the attempts of a few slots at a time.
    let is_attempt = |key: &str| {
        let of = facts.slots.iter().find_map(|line| of_slot(key, line));
        of.is_some_and(|what| what.parse::<u8>().is_ok())
    };
    let mut bests = shown.clone();
    hide_where(&mut bests, is_attempt);
    blocks.push(Block::table(bests, style.clone()));
    blocks.push(Block::small(legend(facts, order)));
    for part in facts.slots.chunks(AT_A_TIME) {
        let mut own = shown.clone();
        hide_where(&mut own, |key| {
            let of_part = part.iter().any(|line| of_slot(key, line).is_some());
            !of_part && !["lot", "name"].contains(&key)
        });
        let names: Vec<String> = part.iter().map(slot_name).collect();
        blocks.push(Block::PageBreak);
        blocks.push(Block::heading(format!("Attempts: {}", names.join(", "))));
        blocks.push(Block::table(own, style.clone()));
        blocks.push(Block::small(legend(facts, order)));
    }
}

/// The table as it stands on the paper: short names of lifts, no column that
/// says nothing, groups named in words.
fn shown(facts: &Facts, table: &Table, basis: Basis) -> Table {
    let mut shown = table.clone();
    let lifts: Vec<String> = facts
        .slots
        .iter()
        .map(|l| format!("{} lift", l.slot))
        .collect();
    for (index, column) in shown.columns.iter().enumerate() {
        if !lifts.contains(&column.key) {
            continue;
        }
        for row in shown.groups.iter_mut().flat_map(|g| &mut g.rows) {
            if let Some(cell) = row.get_mut(index)
                && let Cell::Text(slug) = cell
                && let Ok(slug) = Slug::new(slug.clone())
            {
                *cell = Cell::text(lift_short(&slug));
            }
        }
    }
    let mut spare = vec!["name", "sex", "grade", "category", "division", "team"];
    spare.push("bodyweight");
    let places: Vec<String> = facts
        .slots
        .iter()
        .map(|l| format!("{} place", l.slot))
        .collect();
    spare.extend(places.iter().map(String::as_str));
    if !facts.rules.total {
        spare.extend(["total", "place"]);
    }
    hide_empty(&mut shown, &spare);
    let by_class = !matches!(facts.rules.categories.as_str(), "none" | "flight");
    match basis {
        Basis::Category => {
            // The group's heading says both.
            if by_class {
                hide(&mut shown, "category");
                hide(&mut shown, "sex");
            }
            hide(&mut shown, "division");
        }
        Basis::Division => hide(&mut shown, "division"),
        Basis::Slot => {}
    }
    let flights = basis == Basis::Category && facts.rules.categories == "flight";
    for group in &mut shown.groups {
        group.label = match group.label.as_str() {
            "" => "No group yet".to_owned(),
            "all" => String::new(),
            label if flights => format!("Flight {label}"),
            label => capital(label),
        };
        if group.label == "No group yet" {
            group.remark.clear();
        }
    }
    shown
}

fn style(facts: &Facts, order: &Order) -> TableStyle {
    let mut bold = vec!["place".to_owned(), "name".to_owned(), "total".to_owned()];
    bold.extend(facts.slots.iter().map(|l| format!("{} best", l.slot)));
    let style = match order.audience {
        Audience::Posted => TableStyle::posted(),
        Audience::Private => TableStyle::working().size(11.5).row_height(18.0),
    };
    let parted: Vec<String> = facts
        .slots
        .iter()
        .map(|line| {
            let first = if line.variants.len() > 1 { "lift" } else { "1" };
            format!("{} {first}", line.slot)
        })
        .chain(["total".to_owned()])
        .collect();
    style
        .bold(bold)
        .parted(parted)
        .lines(3)
        .empty("No result yet.")
}

fn legend(facts: &Facts, order: &Order) -> String {
    let mut words = format!("Loads in {}. Struck through: no lift.", facts.bar_unit);
    let weighed = facts.entries.values().any(|e| e.bodyweight.is_some());
    if weighed && shows_bodyweight(facts, order.audience) {
        words.push_str(&format!(" Bodyweight in {}.", facts.scale_unit));
    }
    if facts.slots.iter().any(|l| l.variants.len() > 1) {
        words.push_str(" Different lifts are placed apart.");
    }
    if facts.rules.total && facts.rules.total_needs_all && facts.slots.len() > 1 {
        words.push_str(" No total without a good attempt in every lift.");
    }
    words
}
