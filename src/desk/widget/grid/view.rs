//! The grid on the screen: header, rows in sight, the cell in hand, and the
//! line that says what Enter will do.

use iced::widget::text::Wrapping;
use iced::widget::{
    Column as Rows, container, mouse_area, pin, responsive, rich_text, row, space, span,
    stack, text, text_input,
};
use iced::{Element, Fill, Size, Task, alignment, mouse};

use super::guard::Guard;
use super::model::{Event, Grid, Spot};
use super::sheet::{Cell, Column, Mark, Sheet};
use super::waiting::Waiting;
use crate::desk::font;
use crate::desk::theme::{self, size};
use crate::desk::widget::figures;

/// Pixels that a character of ordinary text takes, roughly.
const CHARACTER: f32 = 9.2;
/// Room to the left and right of a cell's text.
const PAD: f32 = 6.0;
/// The height of the line under the grid.
const LINE: f32 = 62.0;

/// What is shown beside the model and its cells.
#[derive(Debug, Clone)]
pub struct Shown {
    /// The text field's name, unique in the program.
    pub id: &'static str,
    /// What Enter will do, or what is to be known, as a sentence.
    pub line: String,
    /// Whether the line says that something is refused or missing; it then
    /// goes before what was refused in the row in hand.
    pub warning: bool,
}

/// Gives the keyboard to the cell in hand.
pub fn focus<M: Send + 'static>(id: &'static str) -> Task<M> {
    iced::widget::operation::focus(iced::widget::Id::new(id))
}

/// Hands in the next of the acts that wait, if there is one.
pub fn go_on<C: Clone, M: Send + 'static>(waiting: &Waiting<C>, next: M) -> Task<M> {
    if waiting.is_empty() {
        Task::none()
    } else {
        Task::done(next)
    }
}

/// Shows a grid. `on` makes a message of what happens to it.
pub fn view<'a, M: Clone + 'a>(
    grid: &'a Grid,
    sheet: impl Sheet + 'a,
    shown: Shown,
    on: fn(Event) -> M,
) -> Element<'a, M> {
    let Shown { id, line, warning } = shown;
    let refused = refused_at(grid, &sheet).filter(|_| !warning);
    let style = if warning || refused.is_some() {
        theme::text::warning
    } else {
        theme::text::promise
    };
    let words = refused.unwrap_or(line);
    let high = under_height(&words);
    let under = container(text(words).size(size::BODY + 1.0).style(style))
        .padding([6.0, PAD])
        .height(high)
        .width(Fill);
    let body = responsive(move |room| rows(grid, &sheet, id, room, on));
    iced::widget::column![
        body,
        container(space())
            .height(2)
            .width(Fill)
            .style(theme::container::heavy),
        under
    ]
    .into()
}

/// The height of the line under the grid: room for two lines, and for more
/// where there are more words.
fn under_height(words: &str) -> f32 {
    let lines = u16::try_from(words.chars().count() / 140 + 1).unwrap_or(u16::MAX);
    LINE.max(f32::from(lines) * (size::BODY + 1.0) * 1.35 + 14.0)
}

/// The refusal at the cell in hand, else the first one of its row.
fn refused_at(grid: &Grid, sheet: &dyn Sheet) -> Option<String> {
    if grid.cursor.row >= sheet.rows() {
        return None;
    }
    let key = sheet.key(grid.cursor.row);
    let here = grid
        .draft(key, grid.cursor.column)
        .and_then(|d| d.refused.as_deref());
    here.or_else(|| grid.refused(key)).map(str::to_owned)
}

/// Widths of the columns in pixels; what is left goes to those that grow.
fn widths(columns: &[Column], room: f32) -> Vec<f32> {
    let own = |c: &Column| f32::from(c.width.max(2)) * CHARACTER + 2.0 * PAD;
    let taken: f32 = columns.iter().map(own).sum();
    if taken > room {
        return columns.iter().map(|c| own(c) * room / taken).collect();
    }
    let growing = u16::try_from(columns.iter().filter(|c| c.grows).count()).unwrap_or(1);
    let each = (room - taken) / f32::from(growing.max(1));
    columns
        .iter()
        .map(|c| if c.grows { own(c) + each } else { own(c) })
        .collect()
}

/// How many rows fit into a height, at least one.
fn rows_in(height: f32) -> usize {
    let mut rows = 1_usize;
    let mut used = 2.0 * size::ROW;
    while used <= height && rows < 200 {
        rows += 1;
        used += size::ROW;
    }
    rows
}

fn rows<'a, M: Clone + 'a>(
    grid: &'a Grid,
    sheet: &dyn Sheet,
    id: &'static str,
    room: Size,
    on: fn(Event) -> M,
) -> Element<'a, M> {
    let columns = sheet.columns();
    let widths = widths(columns, room.width);
    let in_sight = rows_in(room.height - size::ROW - 2.0);
    let all = sheet.rows();
    let cursor = grid.cursor;
    let first = (cursor.row / in_sight) * in_sight;
    let header = columns.iter().zip(&widths).map(|(column, width)| {
        let title = text(column.title.clone())
            .size(size::SMALL)
            .wrapping(Wrapping::None)
            .style(theme::text::muted);
        cell_box(title.into(), *width, column.figures)
    });
    let mut body = Rows::new().push(row(header)).push(
        container(space())
            .height(1)
            .width(Fill)
            .style(theme::container::heavy),
    );
    let last = all.min(first + in_sight);
    // Figures stand with their points under one another.
    let points: Vec<usize> = (0..columns.len())
        .map(|c| match columns[c].figures {
            true => figures::most((first..last).map(|at| sheet.cell(at, c).text)),
            false => 0,
        })
        .collect();
    for at in first..last {
        body = body.push(one_row(grid, sheet, at, (&widths, &points), on));
    }
    let mut layers = stack![body];
    if cursor.row < all && cursor.column < widths.len() {
        let before = u16::try_from(cursor.row - first).unwrap_or(0);
        let y = size::ROW + 1.0 + f32::from(before) * size::ROW;
        let x: f32 = widths[..cursor.column].iter().sum();
        let frame = container(space())
            .width(room.width)
            .height(size::ROW)
            .style(theme::container::in_hand);
        let sizes = (widths[cursor.column], points[cursor.column]);
        let field = field(grid, sheet, id, sizes, in_sight, on);
        layers = layers
            .push(pin(frame).y(y - 1.0))
            .push(pin(field).x(x).y(y - 1.0));
    }
    mouse_area(layers)
        .on_scroll(move |delta| {
            let up = match delta {
                mouse::ScrollDelta::Lines { y, .. }
                | mouse::ScrollDelta::Pixels { y, .. } => y > 0.0,
            };
            on(Event::Turned(if up { -3 } else { 3 }))
        })
        .into()
}

fn one_row<'a, M: Clone + 'a>(
    grid: &Grid,
    sheet: &dyn Sheet,
    at: usize,
    (widths, points): (&[f32], &[usize]),
    on: fn(Event) -> M,
) -> Element<'a, M> {
    let key = sheet.key(at);
    let in_hand = at == grid.cursor.row;
    let columns = sheet.columns();
    let last = columns.len() - 1;
    let refused = grid.drafts_of(key).find_map(|(_, draft)| {
        let sentence = draft.refused.as_deref()?;
        Some(if draft.held {
            sentence.to_owned()
        } else {
            format!("Refused: {sentence}")
        })
    });
    let cells = columns
        .iter()
        .zip(widths)
        .enumerate()
        .map(|(c, (column, width))| {
            let mut cell = sheet.cell(at, c);
            let mut warn = false;
            if let Some(draft) = grid.draft(key, c) {
                cell.text.clone_from(&draft.text);
                cell.mark = Mark::Plain;
                warn = draft.refused.is_some();
            } else if let Some(sentence) =
                refused.as_ref().filter(|_| c == last && column.grows)
            {
                cell.text = shortened(sentence, *width - 2.0 * PAD, in_hand);
                cell.mark = Mark::Plain;
                warn = true;
            }
            if !column.figures && !warn {
                cell.text = shortened(&cell.text, *width - 2.0 * PAD, in_hand);
            }
            let shown = cell_text(&cell, in_hand, warn);
            let after = figures::after(&cell.text, points[c], size::BODY);
            let shown = container(shown).padding(iced::Padding::ZERO.right(after));
            mouse_area(cell_box(shown.into(), *width, column.figures))
                .on_press(on(Event::Clicked(Spot { row: at, column: c })))
                .into()
        });
    let hair = container(space())
        .height(1)
        .width(Fill)
        .style(theme::container::hair);
    iced::widget::column![container(row(cells)).height(size::ROW - 1.0), hair].into()
}

/// A text that is too long for its cell, with an ellipsis at its end.
///
/// A text without letters is left whole: a date that is cut tells nothing.
pub fn shortened(text: &str, room: f32, bold: bool) -> String {
    let larger = if bold { 1.14 } else { 1.0 };
    let wide = |text: &str| text.chars().map(wide).sum::<f32>() * larger;
    if wide(text) <= room || !text.chars().any(char::is_alphabetic) {
        return text.to_owned();
    }
    let mut kept = text.to_owned();
    while !kept.is_empty() && wide(&kept) + 11.0 > room {
        let _ = kept.pop();
    }
    format!("{}…", kept.trim_end())
}

/// About how many pixels a character takes in ordinary type.
fn wide(letter: char) -> f32 {
    match letter {
        'i' | 'j' | 'l' | 'I' | ' ' | '.' | ',' | '\'' | ':' | ';' | '(' | ')' => 4.5,
        'f' | 'r' | 't' | '-' | 's' => 6.4,
        'm' | 'w' | 'M' | 'W' => 14.0,
        letter if letter.is_uppercase() => 10.2,
        _ => 9.2,
    }
}

fn cell_text<'a, M: 'a>(cell: &Cell, in_hand: bool, warn: bool) -> Element<'a, M> {
    let font = if in_hand { font::BOLD } else { font::REGULAR };
    let size = if in_hand {
        size::BODY + 1.0
    } else {
        size::BODY
    };
    if cell.mark == Mark::Struck {
        return rich_text::<(), _, _, _>([span(cell.text.clone())
            .strikethrough(true)
            .font(font)
            .size(size)])
        .wrapping(Wrapping::None)
        .into();
    }
    let words = match cell.mark {
        Mark::Asked if !cell.text.is_empty() => format!("asks {}", cell.text),
        _ => cell.text.clone(),
    };
    let shown = text(words).font(font).size(size).wrapping(Wrapping::None);
    match cell.mark {
        _ if warn => shown.style(theme::text::warning).into(),
        Mark::Asked | Mark::Hint => shown.style(theme::text::muted).into(),
        Mark::Plain | Mark::Struck => shown.into(),
    }
}

fn cell_box<'a, M: 'a>(
    content: Element<'a, M>,
    width: f32,
    figures: bool,
) -> Element<'a, M> {
    let side = if figures {
        alignment::Horizontal::Right
    } else {
        alignment::Horizontal::Left
    };
    container(content)
        .width(width)
        .height(size::ROW - 1.0)
        .padding([0.0, PAD])
        .align_x(side)
        .align_y(alignment::Vertical::Center)
        .clip(true)
        .into()
}

/// The text field over the cell in hand. It stays where it is in the tree of
/// widgets, so that it never loses the keyboard when the cursor moves.
fn field<'a, M: Clone + 'a>(
    grid: &'a Grid,
    sheet: &dyn Sheet,
    id: &'static str,
    (width, points): (f32, usize),
    in_sight: usize,
    on: fn(Event) -> M,
) -> Element<'a, M> {
    let Spot { row, column } = grid.cursor;
    let cell = sheet.cell(row, column);
    let value = grid.in_hand(sheet).unwrap_or("");
    let figures = sheet.columns().get(column).is_some_and(|c| c.figures);
    let side = if figures {
        alignment::Horizontal::Right
    } else {
        alignment::Horizontal::Left
    };
    let placeholder = match cell.mark {
        Mark::Asked if !cell.text.is_empty() => format!("asks {}", cell.text),
        _ => cell.text.clone(),
    };
    let shown = if value.is_empty() { &cell.text } else { value };
    let after = figures::after(shown, points, size::BODY);
    let input = text_input(&placeholder, value)
        .id(id)
        .on_input(move |text| on(Event::Typed(text)))
        .font(font::BOLD)
        .size(size::BODY + 1.0)
        .padding(iced::Padding::from([3.5, PAD]).right(PAD + after))
        .align_x(side)
        .width(width.max(60.0))
        .style(|theme, status| {
            let mut style = theme::field::plain(theme, status);
            style.placeholder = theme::ink(theme);
            style.border.width = 3.0;
            style
        });
    let on_key = move |key| on(Event::Pressed(key, in_sight));
    let on_paste = move |text| on(Event::Pasted(text));
    Guard::new(grid.in_hand(sheet), on_key, on_paste).over(input)
}
