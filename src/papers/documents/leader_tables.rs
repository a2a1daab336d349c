//! Who leads by a score that compares unlike bodies: by sex, and by division.

use super::revision::{all_sessions, state};
use super::shared::{capital, frame_with_units, hide, hide_empty, slot_name, title};
use super::{Draft, Order, clubs};
use crate::day::Facts;
use crate::lift::Slug;
use crate::papers::{Block, TableStyle};
use crate::rules::{Formula, Queue};
use crate::score::Scoring;
use crate::sheets::{
    Audience, Table, leaders_table, lift_name, score_notes, score_reasons, shows_score,
};
use crate::standings::{Over, has_divisions, leading_scores};

/// The last place that is printed; all who share it are.
const MOST: u32 = 10;

/// The leaders by each score of the day: by sex, then by division where there are
/// divisions; then the clubs, where the day has any.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let scorings = leading_scores(facts);
    let mut blocks = Vec::new();
    let mut tables = Vec::new();
    for (at, scoring) in scorings.iter().enumerate() {
        let one = by_score(facts, order, scoring, at == 0, &mut tables);
        if at > 0 && !one.is_empty() {
            blocks.push(Block::PageBreak);
        }
        blocks.extend(one);
    }
    if blocks.is_empty() {
        blocks.push(Block::paragraph(nobody(facts)));
    }
    blocks.push(Block::small(words(facts, order, &scorings)));
    if let Some(table) = clubs::section(facts, order, &mut blocks) {
        tables.push(("clubs".to_owned(), table));
    }
    let frame = frame_with_units(facts, order, &title("Leader tables", order.audience))
        .state(state(facts, &all_sessions(facts), order.audience));
    Draft::new(frame, blocks, tables)
}

/// The leaders by one score; nothing where there is none. The tables of the first
/// score have the paper's own names.
fn by_score(
    facts: &Facts,
    order: &Order,
    scoring: &Scoring,
    first: bool,
    tables: &mut Vec<(String, Table)>,
) -> Vec<Block> {
    let mut blocks = Vec::new();
    let known = facts.entries.values().any(|entry| entry.sex.is_some());
    let over = if known { Over::Sex } else { Over::All };
    let mut parts = vec![("leader-tables", "By sex", over)];
    if has_divisions(facts) {
        parts.push(("leader-tables-by-division", "By division", Over::Division));
    }
    let several = parts.len() > 1;
    for (stem, heading, over) in parts {
        let table = table(facts, scoring, over, order.audience);
        if !table.is_empty() {
            if several && over != Over::All {
                blocks.push(Block::heading(heading));
            }
            blocks.push(Block::table(shown(facts, &table), style(order)));
        }
        let stem = if first {
            stem.to_owned()
        } else {
            format!("{stem}-{}", scoring.formula.name())
        };
        tables.push((stem, table));
    }
    if !blocks.is_empty() {
        // Without the scores beside them the places would look wrong.
        let by = match scoring.formula {
            // Not a name, so it goes on in small letters.
            Formula::Ratio => scoring.formula.title().to_lowercase(),
            _ => scoring.formula.title().to_owned(),
        };
        blocks.insert(
            0,
            Block::paragraph(format!("Places by relative strength: {by}.")),
        );
    }
    blocks
}

/// The leaders by the total of a meet; of any other day by the total, where it
/// has one, and by every lift.
fn table(facts: &Facts, scoring: &Scoring, over: Over, audience: Audience) -> Table {
    let of = |slot: Option<&Slug>| {
        leaders_table(facts, scoring, slot, over, Some(MOST), audience)
    };
    let mut table = of(None);
    if facts.slots.len() > 1 && (facts.rules.queue != Queue::Law || !facts.rules.total) {
        let own: Vec<String> = facts
            .slots
            .iter()
            .map(|line| lift_name(line.default_variant()))
            .collect();
        for group in &mut table.groups {
            group.label = match group.label.split_once(", ") {
                // What isn't the programme's own is enough to tell them apart.
                Some((who, lifts)) => {
                    let other = |lift: &&str| !own.iter().any(|name| name == lift);
                    let other: Vec<&str> = lifts.split(", ").filter(other).collect();
                    format!("{who}, total with {}", other.join(", "))
                }
                None => format!("{}, total", group.label),
            };
        }
        for line in &facts.slots {
            table.groups.extend(of(Some(&line.slot)).groups);
        }
    }
    table
}

/// The table as it is printed.
fn shown(facts: &Facts, table: &Table) -> Table {
    let mut shown = table.clone();
    for group in &mut shown.groups {
        let label = group.label.clone();
        let (sex, rest) = label.split_once(", ").unwrap_or((&label, ""));
        let sex = match sex {
            "F" => "Girls and women",
            "M" => "Boys and men",
            "all" => "All together",
            other => other,
        };
        group.label = if rest.is_empty() {
            capital(sex)
        } else {
            format!("{}: {rest}", capital(sex))
        };
    }
    hide_empty(&mut shown, &["name", "team", "sex"]);
    let alike = |group: &crate::sheets::Group| {
        let at = shown.columns.iter().position(|c| c.key == "sex");
        let sexes = at.map(|at| group.rows.iter().map(move |row| row.get(at)));
        sexes.is_none_or(|mut sexes| {
            let first = sexes.next().flatten();
            sexes.all(|sex| sex == first)
        })
    };
    if shown.groups.iter().all(alike) {
        hide(&mut shown, "sex");
    }
    for column in &mut shown.columns {
        if column.key == "load" {
            let meet = facts.rules.queue == Queue::Law && facts.rules.total;
            let total = meet && facts.slots.len() > 1;
            column.label = if total { "Total" } else { "Load" }.to_owned();
        }
    }
    shown
}

fn style(order: &Order) -> TableStyle {
    let style = match order.audience {
        Audience::Posted => TableStyle::posted(),
        Audience::Private => TableStyle::working().size(11.5).row_height(18.0),
    };
    style
        .bold(["place", "name"])
        .parted(["load"])
        .lines(3)
        .whole_groups()
}

/// Why there is no leader.
fn nobody(facts: &Facts) -> String {
    if facts.entries.is_empty() {
        return "Nobody is entered yet.".to_owned();
    }
    let weighed = facts.entries.values().any(|e| e.bodyweight.is_some());
    let why = if weighed {
        "nobody who was weighed has a result yet"
    } else {
        "nobody was weighed, and a score needs the bodyweight"
    };
    format!("There is no leader: {why}.")
}

fn words(facts: &Facts, order: &Order, scorings: &[Scoring]) -> String {
    let what = match facts.slots.as_slice() {
        [one] => format!("the best {}", slot_name(one).to_lowercase()),
        _ if !facts.rules.total => "the best of each lift".to_owned(),
        _ if facts.rules.queue == Queue::Law => "the total".to_owned(),
        _ => "the total, and the best of each lift".to_owned(),
    };
    let titles: Vec<&str> = scorings.iter().map(|s| s.formula.title()).collect();
    let mut words = format!(
        "{} ({what}); compared unrounded, equal ones share a place. The first {MOST} \
         places; none for guests, for who was disqualified and for who wasn't weighed.",
        titles.join(", ")
    );
    for note in score_notes(facts, scorings, order.audience) {
        words.push(' ');
        words.push_str(&capital(&note));
    }
    for scoring in scorings {
        if shows_score(facts, scoring, order.audience) {
            let whose = match scorings {
                [_] => "Holds".to_owned(),
                _ => format!("{} holds", scoring.formula.title()),
            };
            let bounds = scoring.formula.about().bounds.trim_end_matches('.');
            words.push_str(&format!(" {whose} for {bounds}."));
        }
    }
    if order.audience == Audience::Private {
        // The leaders of single lifts lack what the day's total has and the other
        // way round; the sentences say of what.
        for reason in score_reasons(facts, scorings, false) {
            words.push_str(&format!(" {reason}"));
        }
    }
    words
}
