//! A sheet's table on the screen, a page at a time.

use std::rc::Rc;

use iced::widget::{Row, column, container, responsive, text};
use iced::{Element, Fill, Padding, alignment};

use super::lamp::{self, Shown};
use super::{figures, list};
use crate::desk::font;
use crate::desk::theme::{self, size};
use crate::sheets::{Align, Cell, Table};

/// Pixels of an average character.
const CHARACTER: f32 = 8.6;
/// The same in columns of words.
const LETTER: f32 = 8.2;

/// What parts the columns of one lift from those before, in pixels: a place
/// beside the next lift's first load would read as one number.
const APART: f32 = 12.0;

/// The room before each of the columns that are shown.
fn leads(table: &Table, list: &[(usize, f32)]) -> Vec<f32> {
    let mut before = "";
    let lead = |(at, _): &(usize, f32)| {
        let span = table.columns[*at].span.as_str();
        let figures = table.columns[*at].align == Align::Right;
        let apart = figures && !span.is_empty() && span != before;
        before = span;
        if apart { APART } else { 0.0 }
    };
    list.iter().map(lead).collect()
}

/// One line of a table: a group's heading or a row of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Line {
    /// The heading of a group.
    Head(usize),
    /// A row of a group.
    Row(usize, usize),
}

/// The lines of a table, in order.
pub fn lines(table: &Table) -> Vec<Line> {
    let mut lines = Vec::new();
    for (g, group) in table.groups.iter().enumerate() {
        if !group.label.is_empty() {
            lines.push(Line::Head(g));
        }
        lines.extend((0..group.rows.len()).map(|r| Line::Row(g, r)));
    }
    lines
}

/// The columns that are worth showing, with their widths in pixels.
fn columns(table: &Table, hidden: &[&str]) -> Vec<(usize, f32)> {
    let rows = || table.groups.iter().flat_map(|g| &g.rows);
    table
        .columns
        .iter()
        .enumerate()
        .filter(|(_, c)| !c.label.is_empty() && !hidden.contains(&c.key.as_str()))
        .filter_map(|(at, column)| {
            let widest = rows()
                .filter_map(|r| r.get(at))
                .map(|c| c.shown().chars().count())
                .max()
                .unwrap_or(0);
            if widest == 0 && column.span.is_empty() {
                return None;
            }
            // Attempts take as much room before they are in as after.
            let least = match column.label.as_str() {
                "Lift" => 14,
                label if label.bytes().all(|b| b.is_ascii_digit()) => 4,
                _ => 2,
            };
            // Words are set larger in hand, and need a little more room then.
            let words = usize::from(column.align == Align::Left);
            let chars = widest.max(column.label.chars().count()) + words;
            let chars = chars.clamp(least, 26);
            let chars = u16::try_from(chars).unwrap_or(26);
            let wide = match column.align {
                Align::Left => LETTER,
                Align::Right | Align::Centre => CHARACTER,
            };
            Some((at, f32::from(chars) * wide + 12.0))
        })
        .collect()
}

/// Columns that are left out where a table is wider than its room, the first
/// ones first: what the group says already, then what the roster has; at last
/// the attempts, so that bests, places and the total are always in sight.
const SPARED: [&str; 6] = ["sex", "grade", "category", "division", "session", "team"];

/// The columns that fit into a width.
fn fitting(table: &Table, hidden: &[&str], room: f32) -> Vec<(usize, f32)> {
    let mut list = columns(table, hidden);
    let fits = |list: &[(usize, f32)]| {
        let wide = list.iter().map(|(_, width)| width).sum::<f32>();
        wide + leads(table, list).iter().sum::<f32>() <= room
    };
    for spared in SPARED {
        if !fits(&list) {
            list.retain(|(at, _)| table.columns[*at].key != spared);
        }
    }
    if !fits(&list) {
        let attempt = |label: &str| label.bytes().all(|b| b.is_ascii_digit());
        list.retain(|(at, _)| !attempt(&table.columns[*at].label));
    }
    let leads = leads(table, &list);
    for ((_, width), lead) in list.iter_mut().zip(leads) {
        *width += lead;
    }
    list
}

/// Shows a table; the line at `cursor` is in hand. What doesn't fit into the
/// width is left out by columns.
pub fn view<'a, M: 'a>(
    table: Table,
    hidden: &'static [&'static str],
    cursor: usize,
) -> Element<'a, M> {
    let table = Rc::new(table);
    responsive(move |room| {
        let widths = fitting(&table, hidden, room.width);
        shown(Rc::clone(&table), widths, cursor)
    })
    .into()
}

fn shown<'a, M: 'a>(
    table: Rc<Table>,
    widths: Vec<(usize, f32)>,
    cursor: usize,
) -> Element<'a, M> {
    let all = lines(&table);
    let mut spans = Row::new();
    let mut heads = Row::new();
    let mut before = String::new();
    let leads = leads(&table, &widths);
    for ((at, width), lead) in widths.iter().zip(leads) {
        let column = &table.columns[*at];
        let span = if column.span == before {
            ""
        } else {
            column.span.as_str()
        };
        spans = spans.push(
            container(
                text(span.to_owned())
                    .size(size::SMALL)
                    .font(font::BOLD)
                    .wrapping(text::Wrapping::None),
            )
            .width(*width)
            .padding(Padding::ZERO.left(lead)),
        );
        before.clone_from(&column.span);
        heads = heads.push(boxed(
            text(column.label.clone())
                .size(size::SMALL)
                .style(theme::text::muted)
                .wrapping(text::Wrapping::None)
                .into(),
            *width,
            column.align,
        ));
    }
    let points: Vec<usize> = (0..table.columns.len())
        .map(|at| {
            let rows = table.groups.iter().flat_map(|g| &g.rows);
            figures::most(rows.filter_map(|r| r.get(at)).map(Cell::shown))
        })
        .collect();
    let rows = list::view(all.len(), cursor, move |i| match all.get(i) {
        Some(Line::Head(g)) => {
            let group = &table.groups[*g];
            // What holds for one group after another is said once.
            let before = g.checked_sub(1).and_then(|b| table.groups.get(b));
            let remark = match before {
                Some(before) if before.remark == group.remark => String::new(),
                _ => group.remark.clone(),
            };
            let words = iced::widget::row![
                text(group.label.clone()).size(size::BODY).font(font::BOLD),
                text(remark).size(size::SMALL).style(theme::text::muted),
            ]
            .spacing(14);
            container(words)
                .height(size::ROW)
                .align_y(alignment::Vertical::Bottom)
                .into()
        }
        Some(Line::Row(g, r)) => {
            one_row(&table, (&widths, &points), (*g, *r), i == cursor)
        }
        None => text("").into(),
    });
    column![spans, heads, lamp::heavy(2.0), rows]
        .spacing(2)
        .into()
}

fn one_row<'a, M: 'a>(
    table: &Table,
    (widths, points): (&[(usize, f32)], &[usize]),
    (group, row): (usize, usize),
    in_hand: bool,
) -> Element<'a, M> {
    let cells = &table.groups[group].rows[row];
    let type_size = if in_hand {
        size::BODY + 1.0
    } else {
        size::BODY
    };
    let mut line = Row::new();
    for (at, width) in widths {
        let Some(found) = cells.get(*at) else {
            continue;
        };
        let shown = Shown {
            text: match table.columns[*at].label.as_str() {
                "Lift" => found.shown().replace('-', " "),
                _ => found.shown(),
            },
            struck: found.struck(),
        };
        let align = table.columns[*at].align;
        let after = match align {
            Align::Right => figures::after(&shown.text, points[*at], size::BODY),
            Align::Left | Align::Centre => 0.0,
        };
        let written = container(lamp::written(&shown, type_size))
            .padding(Padding::ZERO.right(after));
        line = line.push(boxed(written.into(), *width, align));
    }
    container(line)
        .height(size::ROW)
        .width(Fill)
        .align_y(alignment::Vertical::Center)
        .style(move |theme: &iced::Theme| {
            if in_hand {
                theme::container::in_hand(theme)
            } else {
                container::Style::default()
            }
        })
        .into()
}

fn boxed<'a, M: 'a>(content: Element<'a, M>, width: f32, align: Align) -> Element<'a, M> {
    let side = match align {
        Align::Left => alignment::Horizontal::Left,
        Align::Right => alignment::Horizontal::Right,
        Align::Centre => alignment::Horizontal::Center,
    };
    container(content)
        .width(width)
        .padding([0, 6])
        .align_x(side)
        .clip(true)
        .into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::Column;

    #[test]
    fn a_place_stands_apart_from_the_next_lifts_first_load() {
        let column =
            |label: &str, span: &str| Column::new(label, label, Align::Right).under(span);
        let table = Table {
            columns: vec![
                column("Lot", ""),
                column("1", "Snatch"),
                column("Pl.", "Snatch"),
                // A column that isn't shown doesn't take the room.
                column("", "Clean and jerk"),
                column("1", "Clean and jerk"),
            ],
            groups: Vec::new(),
        };
        let shown = [0, 1, 2, 4].map(|at| (at, 50.0));
        assert_eq!(
            leads(&table, &shown)
                .iter()
                .map(|lead| *lead > 0.0)
                .collect::<Vec<_>>(),
            [false, true, false, true]
        );
    }
}
