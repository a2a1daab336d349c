//! A sheet's table as rows on paper.

use std::rc::Rc;

use super::columns::{self, Fit, Measured, Place, SMALL, Shown};
use super::factor;
use super::flow::{Piece, Resume};
use super::page::{Ink, Item, Pen};
use super::style::TableStyle;
use super::text::{self, Type};
use crate::papers::fonts::{CAP_HEIGHT, Face, X_HEIGHT};
use crate::sheets::{Align, Group, Table};

/// Height of a row, as a share of the type size.
const ROW: f32 = 1.75;

/// Size of a group's heading and of its remark, as shares of the type size.
const GROUP: f32 = 1.3;
const REMARK: f32 = 0.8;

/// Most lines of what stands small beneath a cell, and from one to the next as a
/// share of their type size.
const SMALL_LINES: usize = 3;
const SMALL_LEADING: f32 = 1.25;

/// The pieces of a table `width` points wide.
///
/// The heading of a group stays with its first two rows, and the last row of a
/// longer group with the one before it.
pub(super) fn pieces(table: &Table, style: &TableStyle, width: f32) -> Vec<Piece> {
    let groups: Vec<Vec<Vec<Shown>>> = table
        .groups
        .iter()
        .map(|group| group.rows.iter().map(|row| columns::shown(row)).collect())
        .collect();
    let columns = columns::measure(table, style, &groups);
    if columns.is_empty() {
        return Vec::new();
    }
    let setter = Setter {
        fit: columns::fit(&columns, style, width),
        columns,
        style,
        width,
    };
    let head = setter.head();
    let mut pieces = vec![Piece {
        height: head.height,
        gap: 8.0,
        items: head.items.clone(),
        keep: true,
        ..Piece::default()
    }];
    let top = Rc::new(setter.named(head));
    if table.groups.is_empty() {
        pieces.push(setter.note());
    }
    for (index, (group, rows)) in table.groups.iter().zip(&groups).enumerate() {
        setter.group(group, rows, index == 0, &top, &mut pieces);
    }
    pieces
}

/// What a cell shows, from top to bottom.
struct Stack {
    above: String,
    lines: Vec<String>,
    beneath: Vec<String>,
    struck: bool,
}

/// Everything that stays the same from row to row.
struct Setter<'a> {
    columns: Vec<Measured<'a>>,
    fit: Fit,
    style: &'a TableStyle,
    width: f32,
}

impl Setter<'_> {
    fn group(
        &self,
        group: &Group,
        rows: &[Vec<Shown>],
        first: bool,
        top: &Rc<Resume>,
        pieces: &mut Vec<Piece>,
    ) {
        let mut resume = Rc::clone(top);
        let gap = if first { 0.0 } else { self.fit.size };
        if !group.label.is_empty() {
            let (height, items) = self.group_heading(group, "");
            pieces.push(Piece {
                height,
                gap,
                items,
                keep: true,
                resume: Some(Rc::clone(top)),
                ..Piece::default()
            });
            let (height, items) = self.group_heading(group, ", continued");
            let mut again = (**top).clone();
            let lower = items.into_iter().map(|i| i.moved(0.0, again.height));
            again.items.extend(lower);
            again.height += height;
            resume = Rc::new(again);
        }
        if rows.is_empty() {
            pieces.push(self.note());
        }
        for (index, row) in rows.iter().enumerate() {
            let mut piece = self.row(row);
            let after = rows.len() - index - 1;
            piece.keep = after > 0 && (index == 0 || after == 1);
            piece.together = after > 0 && self.style.whole;
            piece.resume = Some(Rc::clone(&resume));
            if index == 0 && group.label.is_empty() {
                piece.gap = gap;
            }
            pieces.push(piece);
        }
    }

    /// The column headings, with the spanning ones above them.
    fn head(&self) -> Resume {
        let set = Type {
            size: columns::heading_size(self.fit.size),
            face: Face::Bold,
            ink: Ink::Grey,
        };
        let leading = set.size * 1.2;
        let mut items = Vec::new();
        let mut upper = 0.0;
        if self.columns.iter().any(|c| !c.column.span.is_empty()) {
            upper = leading + 4.0;
            self.spans(set, leading, &mut items);
        }
        let labels: Vec<Vec<String>> = self
            .columns
            .iter()
            .zip(&self.fit.places)
            .map(|(column, place)| {
                let room = self.room(*place);
                let label = text::clean(&column.column.label);
                // The small surplus forgives the rounding of a fitted heading.
                text::wrap_at_most(&label, set.size, set.face, room + 0.1, 2)
            })
            .collect();
        let most = labels.iter().map(Vec::len).max().unwrap_or(1);
        let bottom = upper + leading * factor(most);
        for ((column, place), lines) in
            self.columns.iter().zip(&self.fit.places).zip(labels)
        {
            let count = lines.len();
            for (index, line) in lines.into_iter().enumerate() {
                let y = bottom - leading * factor(count - 1 - index) - leading * 0.2;
                let align = if column.boxed {
                    Align::Centre
                } else {
                    column.column.align
                };
                items.push(self.aligned(set, align, *place, y, line));
            }
        }
        let height = bottom + 3.0;
        items.push(Item::rule(0.0, self.width, height, Pen::Thin));
        Resume { height, items }
    }

    /// The column headings as they begin another page: the table's name above them.
    fn named(&self, head: Resume) -> Resume {
        if self.style.name.is_empty() {
            return head;
        }
        let set = Type::bold(self.fit.size * GROUP);
        let lower = set.size * 1.7;
        let words = format!("{}, continued", self.style.name);
        let words = set.shorten(&words, self.width);
        let mut items = vec![set.at(0.0, set.size, words)];
        items.extend(head.items.into_iter().map(|i| i.moved(0.0, lower)));
        Resume {
            height: head.height + lower,
            items,
        }
    }

    fn spans(&self, set: Type, leading: f32, items: &mut Vec<Item>) {
        let mut start = 0;
        while let Some(column) = self.columns.get(start) {
            let span = &column.column.span;
            let run = self.columns[start..]
                .iter()
                .take_while(|c| c.column.span == *span)
                .count();
            let end = start + run;
            if let (false, Some(first), Some(last)) = (
                span.is_empty(),
                self.fit.places.get(start),
                self.fit.places.get(end - 1),
            ) {
                let (x, right) = (first.x + self.fit.pad, last.x + last.w - self.fit.pad);
                let word = set.shorten(span, right - x);
                items.push(set.around(f32::midpoint(x, right), leading * 0.8, word));
                items.push(Item::rule(x, right, leading + 1.5, Pen::Hair));
            }
            start = end;
        }
    }

    fn group_heading(&self, group: &Group, after: &str) -> (f32, Vec<Item>) {
        let size = self.fit.size;
        let label = Type::bold(size * GROUP);
        let remark = Type::grey(size * REMARK);
        let height = size * GROUP * 1.55;
        let baseline = height - size * GROUP * 0.35;
        let room = self.width - 2.0 * self.fit.pad;
        let words = label.shorten(&format!("{}{after}", group.label), room);
        let x = self.fit.pad + label.width(&words) + size;
        let mut items = vec![label.at(self.fit.pad, baseline, words)];
        let room = self.width - self.fit.pad - x;
        if !group.remark.is_empty() && room > 4.0 * size {
            items.push(remark.at(x, baseline, remark.shorten(&group.remark, room)));
        }
        items.push(Item::rule(0.0, self.width, height, Pen::Thin));
        (height, items)
    }

    /// What stands where there is no row.
    fn note(&self) -> Piece {
        let set = Type::grey(self.fit.size);
        let height = self.style.row_height.max(self.fit.size * ROW);
        let baseline = f32::midpoint(height, set.size * CAP_HEIGHT);
        let words = set.shorten(&self.style.empty, self.width - self.fit.pad);
        Piece {
            height,
            items: vec![set.at(self.fit.pad, baseline, words)],
            ..Piece::default()
        }
    }

    fn row(&self, row: &[Shown]) -> Piece {
        let size = self.fit.size;
        let leading = size * 1.2;
        let small = Type::grey(size * SMALL);
        let places = || self.columns.iter().zip(&self.fit.places);
        let cells: Vec<Stack> = places()
            .map(|(column, place)| self.stack(column, *place, row))
            .collect();
        let tall = |stack: &Stack| {
            leading * factor(stack.lines.len().saturating_sub(1))
                + small.size * SMALL_LEADING * factor(stack.beneath.len())
                + small.size * factor(usize::from(!stack.above.is_empty()))
        };
        let most = cells.iter().map(tall).fold(0.0, f32::max);
        let height = self.style.row_height.max(size * ROW + most);
        // The rule comes first, so that the edges of boxes lie over it.
        let mut items = vec![Item::rule(0.0, self.width, height, Pen::Hair)];
        for ((column, place), stack) in places().zip(cells) {
            if column.boxed {
                items.push(Item::Rect {
                    x: place.x,
                    y: 0.0,
                    w: place.w,
                    h: height,
                    pen: Pen::Thin,
                });
            }
            let set = Type {
                size,
                face: column.face,
                ink: Ink::Black,
            };
            let left = place.x + self.fit.pad;
            // Where some have something above, all leave room for it.
            let mut top = 0.0;
            if column.above.is_some() {
                top = 3.0 + small.size * CAP_HEIGHT;
                if !stack.above.is_empty() {
                    items.push(small.at(left, top, stack.above.clone()));
                }
            }
            let block = leading * factor(stack.lines.len().saturating_sub(1))
                + small.size * SMALL_LEADING * factor(stack.beneath.len());
            let mut y = (height + top - block + size * CAP_HEIGHT) / 2.0;
            let count = stack.lines.len();
            for (index, line) in stack.lines.into_iter().enumerate() {
                let set = Type {
                    size: columns::part_size(size, column.column, index),
                    ..set
                };
                let item = self.cell(column, set, *place, y, line);
                // Of a load and its ruling's word only the load is struck.
                let struck = stack.struck && (index == 0 || !column.column.attempt);
                let strike = struck.then(|| strike(set, &item)).flatten();
                items.push(item);
                items.extend(strike);
                if index + 1 < count {
                    y += leading;
                }
            }
            for line in stack.beneath {
                y += small.size * SMALL_LEADING;
                let black = Type::black(small.size);
                items.push(black.at(left, y, line));
            }
        }
        Piece {
            height,
            items,
            ..Piece::default()
        }
    }

    /// All that a cell shows.
    fn stack(&self, column: &Measured<'_>, place: Place, row: &[Shown]) -> Stack {
        let small = Type::grey(self.fit.size * SMALL);
        let room = self.room(place) + 0.1;
        let text = |at: Option<usize>| {
            at.and_then(|at| row.get(at))
                .map_or("", |c| c.text.as_str())
        };
        let beneath = match text(column.beneath) {
            "" => Vec::new(),
            words => text::wrap_at_most(words, small.size, small.face, room, SMALL_LINES),
        };
        Stack {
            above: text::shorten(text(column.above), small.size, small.face, room),
            lines: self.lines(column, place, row),
            beneath,
            struck: row.get(column.index).is_some_and(|cell| cell.struck),
        }
    }

    /// The lines of a cell; none where it is blank.
    fn lines(&self, column: &Measured<'_>, place: Place, row: &[Shown]) -> Vec<String> {
        let Some(cell) = row.get(column.index).filter(|c| !c.text.is_empty()) else {
            return Vec::new();
        };
        let (size, face) = (self.fit.size, column.face);
        // The small surplus forgives the rounding of a fitted column.
        let room = self.room(place) + 0.1;
        if column.flexible() {
            let most = self.style.lines.max(1);
            text::wrap_at_most(&cell.text, size, face, room, most)
        } else {
            columns::parts(column.column, &cell.text)
                .into_iter()
                .enumerate()
                .map(|(line, part)| {
                    let size = columns::part_size(size, column.column, line);
                    text::shorten(part, size, face, room)
                })
                .collect()
        }
    }

    /// A line of a cell; numbers that stand flush right line up at the point.
    fn cell(
        &self,
        column: &Measured<'_>,
        set: Type,
        place: Place,
        y: f32,
        line: String,
    ) -> Item {
        let align = column.column.align;
        let mut place = place;
        if align == Align::Right
            && let Some(at) = columns::fraction_start(&line)
        {
            let own = set.width(&line[at..]);
            place.w -= (column.fraction * set.size - own).max(0.0);
        }
        self.aligned(set, align, place, y, line)
    }

    fn aligned(&self, set: Type, align: Align, at: Place, y: f32, text: String) -> Item {
        match align {
            Align::Left => set.at(at.x + self.fit.pad, y, text),
            Align::Right => set.ending_at(at.x + at.w - self.fit.pad, y, text),
            Align::Centre => set.around(at.x + at.w / 2.0, y, text),
        }
    }

    fn room(&self, place: Place) -> f32 {
        place.w - 2.0 * self.fit.pad
    }
}

/// The line through a text, at half the height of its small letters.
fn strike(set: Type, item: &Item) -> Option<Item> {
    let Item::Text { x, y, text, .. } = item else {
        return None;
    };
    let over = set.size * 0.12;
    Some(Item::rule(
        x - over,
        x + set.width(text) + over,
        y - set.size * X_HEIGHT / 2.0,
        Pen::Strike,
    ))
}
