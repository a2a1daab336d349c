//! The weigh-in sheet: bodyweight, openers and set-ups, to be written and signed.
//!
//! For where the scale stands apart from the computer. No bodyweight is printed on
//! it, not even one that is known: it lies open beside the scale.

use super::shared::{
    Squad, capital, frame, hide_empty, squad_label, squads, whereabouts,
};
use super::{Draft, Order};
use crate::day::Facts;
use crate::papers::{Block, Field, Form, Head, TableStyle};
use crate::roster::Entry;
use crate::sheets::{Align, Cell, Column, Group, Table, lift_short, setup_names};

/// Height of a row in points: 11 mm.
const ROW: f32 = 31.0;

/// Everybody who is entered, flight by flight; a session begins a page.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let frame = frame(facts, order, "Weigh-in sheet, private")
        .landscape()
        .head(Head::Slim);
    let setups = setup_names(facts);
    let mut table = Table {
        columns: columns(facts, &setups),
        groups: Vec::new(),
    };
    let mut parts: Vec<(String, Vec<Group>)> = Vec::new();
    for squad in squads(facts) {
        let rows = squad.entries.iter();
        let group = Group {
            label: squad_label(facts, &squad),
            remark: remark(facts, &squad),
            rows: rows.map(|e| row(facts, &squad, e, &setups)).collect(),
        };
        table.groups.push(group.clone());
        match parts.last_mut() {
            Some((session, groups)) if session == squad.session => groups.push(group),
            _ => parts.push((squad.session.to_owned(), vec![group])),
        }
    }
    let mut shown = table.clone();
    hide_empty(&mut shown, &["sex", "category", "note"]);
    let style = style(facts, &setups);
    let mut blocks = Vec::new();
    for (_, groups) in parts {
        if !blocks.is_empty() {
            blocks.push(Block::PageBreak);
        }
        let own = Table {
            columns: shown.columns.clone(),
            groups,
        };
        blocks.push(Block::table(own, style.clone()));
        blocks.push(Block::KeepTogether(foot(facts)));
    }
    if blocks.is_empty() {
        blocks.push(Block::paragraph("Nobody is entered yet."));
    }
    Draft::new(frame, blocks, vec![("weigh-in-sheet".to_owned(), table)])
}

fn columns(facts: &Facts, setups: &[String]) -> Vec<Column> {
    use Align::{Left, Right};
    let mut columns = vec![
        Column::new("session", "", Left),
        Column::new("flight", "", Left),
        Column::new("platform", "", Right),
        Column::new("lot", "Lot", Right),
        Column::new("name", "Name", Left),
        Column::new("note", "", Left),
        Column::new("sex", "Sex", Left),
        Column::new("category", "Entered", Left),
        Column::new(
            "bodyweight",
            &format!("Bodyweight {}", facts.scale_unit),
            Right,
        ),
    ];
    for line in &facts.slots {
        let slot = line.slot.as_str();
        let name = match line.variants.as_slice() {
            [only] => lift_short(only),
            _ => slot.replace('-', " "),
        };
        columns.push(Column::new(&format!("{slot} known"), "", Right));
        let label = format!("{} {}", capital(&name), facts.bar_unit);
        columns.push(Column::new(&format!("{slot} opener"), &label, Right));
    }
    for name in setups {
        columns.push(Column::new(&format!("{name} known"), "", Right));
        columns.push(Column::new(name, &capital(name), Right));
    }
    columns.push(Column::new("signed", "Signed by the athlete", Left));
    columns
}

fn row(facts: &Facts, squad: &Squad<'_>, entry: &Entry, setups: &[String]) -> Vec<Cell> {
    let mut row = vec![
        Cell::text(squad.session),
        Cell::text(squad.flight),
        Cell::count(squad.platform),
        Cell::Count(i64::from(entry.number)),
        Cell::text(entry.name()),
        Cell::text(capital(whereabouts(entry, None))),
        Cell::text(entry.sex.map_or("", |s| s.letter())),
        Cell::text(&entry.category),
        Cell::Blank,
    ];
    for line in &facts.slots {
        let slot = &line.slot;
        let opener = entry.slots.get(slot).and_then(|e| e.opener.as_ref());
        let takes_part = entry.takes_part(slot);
        let opener = opener.filter(|_| takes_part).map(|w| w.mass);
        row.push(Cell::mass(opener, facts.bar_unit));
        row.push(Cell::text(if takes_part { "" } else { "–" }));
    }
    for name in setups {
        let known = entry.setups.get(name).map_or("", String::as_str);
        row.push(Cell::text(known));
        row.push(Cell::Blank);
    }
    row.push(Cell::Blank);
    row
}

/// When the session weighs in, where its start is planned and the rules say.
fn remark(facts: &Facts, squad: &Squad<'_>) -> String {
    facts
        .weigh_in(squad.session)
        .map_or_else(String::new, |(from, to)| {
            format!(
                "weighs in from {} to {}",
                from.format("%H:%M"),
                to.format("%H:%M")
            )
        })
}

fn style(facts: &Facts, setups: &[String]) -> TableStyle {
    let mut style = TableStyle::to_fill_in().row_height(ROW);
    let mut boxes = vec!["bodyweight".to_owned(), "signed".to_owned()];
    let mut widths = vec![("bodyweight".to_owned(), 74.0)];
    for line in &facts.slots {
        let key = format!("{} opener", line.slot);
        style = style.above(key.clone(), format!("{} known", line.slot));
        widths.push((key.clone(), 58.0));
        boxes.push(key);
    }
    for name in setups {
        style = style.above(name.clone(), format!("{name} known"));
        widths.push((name.clone(), 46.0));
        boxes.push(name.clone());
    }
    style
        .boxes(boxes)
        .box_width(110.0)
        .widths(widths)
        .parted(["bodyweight", "signed"])
        .bold(["lot", "name"])
        .beneath("name", "note")
        .lines(3)
}

fn foot(facts: &Facts) -> Vec<Block> {
    let form = Form::new().row_height(30.0).row([
        Field::new("Scale read by").weight(1.4),
        Field::new("Second reader").weight(1.4),
        Field::new("Scale tested with, at").weight(1.4),
        Field::new("Begun at").weight(0.7),
        Field::new("Ended at").weight(0.7),
        Field::new("Typed by").weight(0.8),
    ]);
    let words = format!(
        "Private: never left lying open. Small at the top left of a box: what is known; \
         write only what is new. Openers in {}, in steps of {}. A dash: not entered.",
        facts.bar_unit,
        facts.rules.step.show(facts.bar_unit)
    );
    vec![Block::Form(form), Block::small(words)]
}
