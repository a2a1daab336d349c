//! Athlete reports: half a page for each, with attempts, bests, places and a chart.

use std::collections::BTreeMap;

use super::shared::{
    capital, frame, hide_empty, repetitions, slot_name, title, whereabouts,
};
use super::{Draft, Order};
use crate::day::{Facts, Ruling};
use crate::papers::{Block, Cards, Chart, Head, Panel, Point, TableStyle};
use crate::roster::{Entry, EntryKey, SlotLine};
use crate::score::{Norms, Scoring};
use crate::sheets::{
    Align, Audience, Cell, Column, Group, Table, attempt_cell, lift_name, no_score,
    norm_words, score_notes, scored_standings_table, standing_note,
};
use crate::standings::{
    BandRow, Basis, Line, bands, category_label, clubs, leading_scores, score_of,
    standings,
};

/// One for everybody who is entered, by table number, two a page.
pub(super) fn draft(facts: &Facts, norms: Option<&Norms>, order: &Order) -> Draft {
    let scorings = leading_scores(facts);
    let table =
        scored_standings_table(facts, Basis::Category, &scorings, Audience::Private);
    let bands = norms.map(|norms| bands(facts, norms)).unwrap_or_default();
    let mut lines: BTreeMap<EntryKey, (String, Line)> = BTreeMap::new();
    for group in standings(facts, Basis::Category) {
        for line in group.lines {
            let _ = lines.insert(line.entry, (group.label.clone(), line));
        }
    }
    let cards: Vec<Vec<Block>> = facts
        .entries_by_number()
        .filter_map(|entry| {
            let (label, line) = lines.get(&entry.key)?;
            let own = bands.iter().filter(|row| row.entry == entry.key);
            let own: Vec<BandRow> = own.cloned().collect();
            Some(card(facts, entry, label, line, (&scorings, &own)))
        })
        .collect();
    let frame = frame(facts, order, &title("Athlete reports", Audience::Private))
        .head(Head::Slim);
    let blocks = if cards.is_empty() {
        vec![Block::paragraph("Nobody is entered yet.")]
    } else {
        vec![Block::Cards(Cards::new(1, 2, cards))]
    };
    Draft::new(frame, blocks, vec![("athlete-reports".to_owned(), table)])
}

fn card(
    facts: &Facts,
    entry: &Entry,
    label: &str,
    line: &Line,
    (scorings, bands): (&[Scoring], &[BandRow]),
) -> Vec<Block> {
    let mut blocks = vec![
        Block::heading(format!("{}, lot {}", entry.name(), entry.number)),
        Block::paragraph(about(facts, entry)),
        Block::table(attempts(facts, entry, line), style()),
        Block::paragraph(sums(facts, label, line, scorings)),
    ];
    let norms = norm_words(facts, bands);
    if !norms.is_empty() {
        let norms: Vec<String> = norms.iter().map(|words| capital(words)).collect();
        let words = format!("By the coach's own norms. {}", norms.join(" "));
        blocks.push(Block::paragraph(words));
    }
    let panels: Vec<Panel> = facts
        .slots
        .iter()
        .filter_map(|slot| panel(facts, entry, slot))
        .collect();
    if !panels.is_empty() {
        blocks.push(Block::Chart(Chart { panels }));
    }
    let mut words = format!(
        "{}, {}. Loads in {}. Struck through: no lift. In the chart a heavy bar is a good \
         lift, an open box any other attempt.",
        facts.name,
        facts.date.format("%-d %B %Y"),
        facts.bar_unit
    );
    words.push_str(repetitions(facts));
    for scoring in scorings {
        if score_of(facts, line, None, scoring).is_err() {
            continue;
        }
        let notes = score_notes(facts, std::slice::from_ref(scoring), Audience::Private);
        for note in notes {
            words.push(' ');
            words.push_str(&capital(&note));
        }
    }
    blocks.push(Block::small(words));
    blocks
}

/// Team, group, bodyweight and whatever else is known, on one line.
fn about(facts: &Facts, entry: &Entry) -> String {
    let mut words = Vec::new();
    words.push(entry.team.clone());
    if !entry.grade.is_empty() {
        words.push(format!("grade {}", entry.grade));
    }
    let category = category_label(facts, entry);
    if !category.is_empty() {
        words.push(format!("category {category}"));
    }
    words.push(entry.divisions.join(", "));
    if let Some(weight) = &entry.bodyweight {
        let shown = weight.mass.show_with_unit(facts.scale_unit);
        words.push(format!("bodyweight {shown}"));
    }
    let away = whereabouts(entry, None).to_owned();
    let standing = standing_note(entry);
    if away != standing {
        words.push(away);
    }
    words.push(standing);
    words.retain(|w| !w.is_empty());
    words.join(" · ")
}

fn attempts(facts: &Facts, entry: &Entry, line: &Line) -> Table {
    use Align::{Left, Right};
    let own = |slot: &SlotLine| entry.takes_part(&slot.slot) || tried(facts, entry, slot);
    let most = facts
        .slots
        .iter()
        .filter(|slot| own(slot))
        .map(|slot| {
            let run = facts.run(entry.key, &slot.slot);
            let last = run.and_then(|run| run.attempts.keys().next_back().copied());
            facts
                .attempts_allowed(entry.key, &slot.slot)
                .max(last.unwrap_or(0))
        })
        .max()
        .unwrap_or(0);
    let mut columns = vec![Column::new("lift", "Lift", Left)];
    for n in 1..=most {
        let column = Column::new(&n.to_string(), &n.to_string(), Right);
        columns.push(column.under("Attempts").attempts());
    }
    columns.push(Column::new("best", "Best", Right));
    columns.push(Column::new("estimate", "Est.", Right));
    columns.push(Column::new("place", "Place", Right));
    let mut rows = Vec::new();
    for (slot, result) in facts.slots.iter().zip(&line.slots) {
        if !own(slot) {
            continue;
        }
        let lift = result.lift.as_ref().map(lift_name);
        let mut row = vec![Cell::text(capital(
            &lift.unwrap_or_else(|| slot_name(slot)),
        ))];
        for n in 1..=most {
            row.push(attempt_cell(facts, entry, &slot.slot, n));
        }
        let unit = facts.bar_unit;
        row.push(Cell::mass(result.best.map(|(_, mass)| mass), unit));
        row.push(
            result
                .estimate
                .map_or(Cell::Blank, |(_, mass)| Cell::Estimate(mass, unit)),
        );
        row.push(Cell::count(result.place));
        rows.push(row);
    }
    let mut table = Table {
        columns,
        groups: vec![Group {
            rows,
            ..Group::default()
        }],
    };
    hide_empty(&mut table, &["estimate", "place"]);
    table
}

fn tried(facts: &Facts, entry: &Entry, slot: &SlotLine) -> bool {
    let run = facts.run(entry.key, &slot.slot);
    run.is_some_and(|run| run.attempts.values().any(|a| a.ruled.is_some()))
}

fn style() -> TableStyle {
    TableStyle::working()
        .size(11.0)
        .row_height(16.0)
        .bold(["best"])
        .parted(["best"])
        .empty("Entered in no lift.")
}

/// Total, place and score as sentences.
fn sums(facts: &Facts, label: &str, line: &Line, scorings: &[Scoring]) -> String {
    let mut words = Vec::new();
    let several = facts.slots.len() > 1;
    if several && facts.rules.total {
        words.push(match line.total {
            Some(total) => format!("Total {}.", total.show_with_unit(facts.bar_unit)),
            None => "No total.".to_owned(),
        });
    }
    let group = match label {
        "" | "all" => "among all".to_owned(),
        label if facts.rules.categories == "flight" => format!("in flight {label}"),
        label => format!("in {label}"),
    };
    if let Some(place) = line.place {
        words.push(format!("Place {place} {group}."));
    } else if line.slots.iter().any(|slot| slot.place.is_some()) {
        words.push(format!("Places in the lifts are {group}."));
    }
    for scoring in scorings {
        match score_of(facts, line, None, scoring) {
            Ok(score) => {
                let title = scoring.formula.title();
                words.push(format!("{title}: {}.", score.shown()));
            }
            Err(why) if line.total.is_some() => words.push(no_score(scoring, &why, &[])),
            Err(_) => {}
        }
    }
    let clubs = clubs_of(facts, line.entry);
    if !clubs.is_empty() {
        let s = if clubs.len() == 1 { "" } else { "s" };
        words.push(format!("Club{s}: {}.", clubs.join("; ")));
    }
    if words.is_empty() {
        return "No result yet.".to_owned();
    }
    words.join(" ")
}

/// The clubs that somebody has joined, in the order of the rules.
fn clubs_of(facts: &Facts, entry: EntryKey) -> Vec<String> {
    let all = clubs(facts).into_iter();
    let own = all.filter(|of| of.members.iter().any(|m| m.entry == entry));
    own.map(|of| of.club.name.clone()).collect()
}

/// The attempts that were taken in a slot.
fn panel(facts: &Facts, entry: &Entry, slot: &SlotLine) -> Option<Panel> {
    let run = facts.run(entry.key, &slot.slot)?;
    let last = run
        .attempts
        .iter()
        .filter(|(_, a)| a.ruled.is_some())
        .map(|(n, _)| *n)
        .max()?;
    let points = (1..=last).map(|n| {
        let Some(ruled) = run.attempts.get(&n).and_then(|a| a.ruled.as_ref()) else {
            return Point::default();
        };
        let fact = &ruled.fact;
        let weight = fact.credited.as_ref().or(fact.loaded.as_ref());
        let weight = weight.or(fact.requested.as_ref());
        let weight = weight.filter(|_| fact.ruling != Ruling::Pass);
        let shown = weight.map(|w| w.mass.shown(facts.bar_unit));
        Point {
            height: shown.as_ref().and_then(|shown| shown.parse().ok()),
            load: shown.unwrap_or_default(),
            good: fact.ruling.is_good(),
            word: match &fact.ruling {
                Ruling::No => "no lift".to_owned(),
                other => other.word().to_owned(),
            },
        }
    });
    Some(Panel {
        title: entry
            .variant(&slot.slot)
            .map_or_else(|| slot_name(slot), |lift| capital(&lift_name(lift))),
        points: points.collect(),
    })
}
