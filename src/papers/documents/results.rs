//! Results: places, attempts, bests and totals, by category and by division, and
//! the teams.

use super::revision::{all_sessions, state};
use super::shared::{
    capital, frame_with_units, hide, hide_empty, hide_slot, hide_where, notes_beneath,
    of_slot, repetitions, slot_name, title, whereabouts,
};
use super::team_result;
use super::{Draft, Order};
use crate::day::Facts;
use crate::lift::Slug;
use crate::papers::{Block, TableStyle};
use crate::roster::SlotLine;
use crate::sheets::{
    Audience, Cell, Group, Table, hides_clubs, lift_name, score_notes, score_reasons,
    shows_bodyweight, standing_note, standing_reasons, standings_table, with_notes_by,
};
use crate::standings::{Basis, day_scores, has_divisions, load_chart};

/// More attempts side by side than this need the long edge of the paper.
const UPRIGHT: u8 = 4;

/// More attempts, bests and places side by side than this are parted.
const BESIDE: usize = 18;

/// How many slots' attempts then stand side by side.
const AT_A_TIME: usize = 2;

/// The results: by category (or flight, or all), then by division where there
/// are divisions, then the teams where the rules give them points.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let sessions = all_sessions(facts);
    let mut frame = frame_with_units(facts, order, &title("Results", order.audience))
        .state(state(facts, &sessions, order.audience));
    let mut blocks = Vec::new();
    let mut tables = Vec::new();
    let table = standings_table(facts, Basis::Category, order.audience);
    let attempts: u8 = facts
        .slots
        .iter()
        .filter(|line| tried(&table, line))
        .map(|line| facts.widest(&line.slot))
        .fold(0, u8::saturating_add);
    frame.landscape = attempts > UPRIGHT;
    let divided = has_divisions(facts);
    if !table.is_empty() && attempts == 0 {
        // Pages of empty boxes would say no more; the start list says who comes.
        blocks.push(Block::paragraph("No attempt has been taken yet."));
        tables.push(("results".to_owned(), table));
        if divided {
            let table = standings_table(facts, Basis::Division, order.audience);
            tables.push(("results-by-division".to_owned(), table));
        }
        return Draft::new(frame, blocks, tables);
    }
    section(facts, order, &table, Basis::Category, &mut blocks);
    tables.push(("results".to_owned(), table));
    if divided {
        let table = standings_table(facts, Basis::Division, order.audience);
        blocks.push(Block::PageBreak);
        blocks.push(Block::heading("By division"));
        section(facts, order, &table, Basis::Division, &mut blocks);
        tables.push(("results-by-division".to_owned(), table));
    }
    if let Some(table) = team_result::section(facts, order, &mut blocks) {
        tables.push(("results-by-team".to_owned(), table));
    }
    Draft::new(frame, blocks, tables)
}

fn section(
    facts: &Facts,
    order: &Order,
    table: &Table,
    basis: Basis,
    blocks: &mut Vec<Block>,
) {
    let (slots, untried): (Vec<&SlotLine>, Vec<&SlotLine>) =
        facts.slots.iter().partition(|line| tried(table, line));
    let mut shown = shown(facts, table, basis, order.audience);
    if order.audience == Audience::Posted {
        hide(&mut shown, "sex");
    }
    untried.iter().for_each(|line| hide_slot(&mut shown, line));
    if !untried.is_empty() {
        hide_empty(&mut shown, &["total", "place"]);
    }
    let mut remarks: Vec<String> = one_remark(&mut shown).into_iter().collect();
    remarks.extend(
        untried
            .iter()
            .map(|line| format!("{}: no attempt yet.", slot_name(line))),
    );
    let style = style(&slots, &shown, order);
    let mut words = legend(facts, order, table);
    for remark in remarks {
        words.push(' ');
        words.push_str(&remark);
    }
    let columns: usize = slots
        .iter()
        .map(|l| {
            usize::from(facts.widest(&l.slot)) + 2 + usize::from(estimated(&shown, l))
        })
        .sum();
    if columns <= BESIDE {
        blocks.push(Block::table(shown, style));
        blocks.push(Block::small(words));
        return;
    }
    // All attempts side by side would be too small to read: bests and total
    // first, then the attempts of a few slots at a time.
    let is_attempt = |key: &str| {
        let of = slots.iter().find_map(|line| of_slot(key, line));
        of.is_some_and(|what| what.parse::<u8>().is_ok())
    };
    let mut bests = shown.clone();
    hide_where(&mut bests, is_attempt);
    blocks.push(Block::table(bests, style.clone()));
    blocks.push(Block::small(words.clone()));
    for part in slots.chunks(AT_A_TIME) {
        let mut own = shown.clone();
        hide_where(&mut own, |key| {
            let of_part = part.iter().any(|line| of_slot(key, line).is_some());
            !of_part && !["lot", "name"].contains(&key)
        });
        let names: Vec<String> = part.iter().map(|line| slot_name(line)).collect();
        blocks.push(Block::PageBreak);
        blocks.push(Block::heading(format!("Attempts: {}", names.join(", "))));
        blocks.push(Block::table(own, style.clone()));
        blocks.push(Block::small(words.clone()));
    }
}

/// Whether anybody has taken an attempt in the slot.
fn tried(table: &Table, line: &SlotLine) -> bool {
    let attempt = |key: &str| of_slot(key, line).is_some_and(|n| n.parse::<u8>().is_ok());
    let columns = table.columns.iter().enumerate();
    let columns: Vec<usize> = columns
        .filter(|(_, column)| attempt(&column.key))
        .map(|(index, _)| index)
        .collect();
    let rows = || table.groups.iter().flat_map(|g| &g.rows);
    rows().any(|row| {
        let cell = |at: &usize| row.get(*at).is_some_and(|c| !c.shown().is_empty());
        columns.iter().any(cell)
    })
}

/// Whether anybody has an estimate in the slot.
fn estimated(table: &Table, line: &SlotLine) -> bool {
    let mut columns = table.columns.iter();
    let at = columns.position(|c| of_slot(&c.key, line) == Some("estimate"));
    let mut rows = table.groups.iter().flat_map(|g| &g.rows);
    at.is_some_and(|at| rows.any(|row| row.get(at).is_some_and(|c| *c != Cell::Blank)))
}

/// Takes a remark that all groups share from their headings: once is enough.
fn one_remark(table: &mut Table) -> Option<String> {
    let labelled = || table.groups.iter().filter(|g| !g.remark.is_empty());
    let remark = labelled().next()?.remark.clone();
    if labelled().any(|group| group.remark != remark) {
        return None;
    }
    table.groups.iter_mut().for_each(|g| g.remark.clear());
    Some(format!("{remark}."))
}

/// Parts groups by the lifts of the slots that allow several, since different
/// lifts are placed apart, and names the lifts in the headings instead of in a
/// column.
///
/// Somebody who isn't entered in such a slot stands with its first lift.
fn part_by_lift(facts: &Facts, table: &mut Table) {
    let at_place = table.columns.iter().position(|c| c.key == "place");
    let mut rows = table.groups.iter().flat_map(|g| &g.rows);
    let filled = |row: &Vec<Cell>| {
        let cell = at_place.and_then(|at| row.get(at));
        cell.is_some_and(|c| *c != Cell::Blank)
    };
    let placed = rows.any(filled);
    let choices: Vec<(usize, &SlotLine)> = facts
        .slots
        .iter()
        .filter(|line| line.variants.len() > 1 && (placed || tried(table, line)))
        .filter_map(|line| {
            let key = format!("{} lift", line.slot);
            let at = table.columns.iter().position(|c| c.key == key)?;
            Some((at, line))
        })
        .collect();
    if choices.is_empty() {
        return;
    }
    let lifts = |row: &[Cell]| -> Vec<String> {
        let lift = |(at, line): &(usize, &SlotLine)| match row.get(*at) {
            Some(Cell::Text(slug)) => Slug::new(slug.clone()).ok(),
            _ => line.variants.first().cloned(),
        };
        let lifts = choices.iter().filter_map(lift);
        lifts.map(|slug| lift_name(&slug)).collect()
    };
    let mut parted = Vec::new();
    for group in std::mem::take(&mut table.groups) {
        for rows in group.rows.chunk_by(|a, b| lifts(a) == lifts(b)) {
            let names = rows.first().map(|row| lifts(row)).unwrap_or_default();
            let mut words = vec![group.label.clone()];
            words.extend(names);
            words.retain(|w| !w.is_empty());
            parted.push(Group {
                label: capital(&words.join(", ")),
                remark: group.remark.clone(),
                rows: rows.to_vec(),
            });
        }
    }
    table.groups = parted;
    for (_, line) in choices {
        hide(table, &format!("{} lift", line.slot));
    }
}

/// The table as it stands on the paper: parted by lifts, no column that says
/// nothing, groups named in words.
fn shown(facts: &Facts, table: &Table, basis: Basis, audience: Audience) -> Table {
    let mut shown = with_notes_by(table.clone(), facts, |entry| {
        // Why somebody didn't lift is on no board.
        let away = match audience {
            Audience::Private => whereabouts(entry, None),
            Audience::Posted => "",
        };
        let standing = standing_note(entry);
        match (standing.as_str(), away) {
            (_, "" | "disqualified") => standing,
            ("", away) => away.to_owned(),
            (standing, away) => format!("{standing}, {away}"),
        }
    });
    let mut spare = vec!["name", "sex", "grade", "category", "division", "team"];
    spare.push("bodyweight");
    let places: Vec<String> = facts
        .slots
        .iter()
        .map(|l| format!("{} place", l.slot))
        .collect();
    spare.extend(places.iter().map(String::as_str));
    let estimates: Vec<String> = facts
        .slots
        .iter()
        .map(|l| format!("{} estimate", l.slot))
        .collect();
    spare.extend(estimates.iter().map(String::as_str));
    if !facts.rules.total {
        spare.extend(["total", "place"]);
    }
    let mut scores = Vec::new();
    for scoring in day_scores(facts) {
        let header = scoring.header();
        scores.push(format!("{header} place"));
        scores.push(header);
    }
    spare.extend(scores.iter().map(String::as_str));
    spare.push("clubs");
    hide_empty(&mut shown, &spare);
    notes_beneath(&mut shown);
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
    for column in &mut shown.columns {
        if column.key == "bodyweight" && !column.label.is_empty() {
            column.label.push_str(&format!(" {}", facts.scale_unit));
        }
    }
    part_by_lift(facts, &mut shown);
    shown
}

fn style(slots: &[&SlotLine], shown: &Table, order: &Order) -> TableStyle {
    let mut bold = vec!["place".to_owned(), "name".to_owned(), "total".to_owned()];
    bold.extend(slots.iter().map(|l| format!("{} best", l.slot)));
    let style = match order.audience {
        Audience::Posted => TableStyle::posted(),
        Audience::Private => TableStyle::working().size(11.5).row_height(18.0),
    };
    let first = |line: &&SlotLine| {
        let mut columns = shown.columns.iter().filter(|c| !c.label.is_empty());
        columns.find(|c| of_slot(&c.key, line).is_some())
    };
    let parted: Vec<String> = slots
        .iter()
        .filter_map(|line| Some(first(line)?.key.clone()))
        .chain(["total".to_owned()])
        .collect();
    style
        .bold(bold)
        .parted(parted)
        .beneath("name", "note")
        .lines(3)
        .empty("No result yet.")
}

fn legend(facts: &Facts, order: &Order, table: &Table) -> String {
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
    words.push_str(repetitions(facts));
    if facts.slots.iter().any(|line| estimated(table, line)) {
        words.push_str(&format!(
            " est.: estimated from several repetitions ({}); placed after every \
             tested max, and never part of a total.",
            load_chart().title
        ));
    }
    if facts.entries.values().any(|e| e.guest) {
        words.push_str(" Guests lift without being placed.");
    }
    scores_in_words(facts, order, &mut words);
    if order.audience == Audience::Private {
        for entry in facts.entries_by_number() {
            for reason in standing_reasons(entry) {
                let reason = reason.trim_end_matches('.');
                words.push_str(&format!(" Lot {} disqualified: {reason}.", entry.number));
            }
        }
    }
    words
}

/// What the columns of scores and clubs are, where they come from, and who has no
/// score and why.
fn scores_in_words(facts: &Facts, order: &Order, words: &mut String) {
    let scorings = day_scores(facts);
    for note in score_notes(facts, &scorings, order.audience) {
        words.push(' ');
        words.push_str(&capital(&note));
    }
    if !scorings.is_empty() {
        words.push_str(
            " Scores are shown rounded; a place by a score is among all, both sexes \
             together.",
        );
    }
    if order.audience == Audience::Private {
        for reason in score_reasons(facts, &scorings, false) {
            words.push_str(&format!(" {reason}"));
        }
    }
    if hides_clubs(facts, order.audience) {
        words
            .push_str(" Clubs by bodyweight aren't posted where bodyweights are hidden.");
    }
}
