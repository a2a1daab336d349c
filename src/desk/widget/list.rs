//! A long list of rows of one height, shown a page at a time.

use iced::widget::{Column, button, container, responsive, text};
use iced::{Element, Fill, alignment};

use crate::desk::theme::{self, size};

/// How many rows fit into a height, at least one.
pub fn rows_in(height: f32) -> usize {
    let mut rows = 1_usize;
    let mut used = 2.0 * size::ROW;
    while used <= height && rows < 400 {
        rows += 1;
        used += size::ROW;
    }
    rows
}

/// The first row of the page that holds a row.
pub const fn page_of(row: usize, in_sight: usize) -> usize {
    (row / in_sight) * in_sight
}

/// A row that can be picked, marked where it is in hand.
pub fn pickable<'a, M: Clone + 'a>(
    content: impl Into<Element<'a, M>>,
    in_hand: bool,
    picked: M,
) -> Element<'a, M> {
    button(content)
        .padding([0, 6])
        .height(size::ROW)
        .width(Fill)
        .style(if in_hand {
            theme::button::row_in_hand
        } else {
            theme::button::row
        })
        .on_press(picked)
        .into()
}

/// Shows the page of rows that holds `cursor`; other rows aren't made.
pub fn view<'a, M: 'a>(
    total: usize,
    cursor: usize,
    row: impl Fn(usize) -> Element<'a, M> + 'a,
) -> Element<'a, M> {
    with_spare(total, cursor, 0.0, row)
}

/// As [`view`], where one row of the page is higher than the others by
/// `spare` pixels.
pub fn with_spare<'a, M: 'a>(
    total: usize,
    cursor: usize,
    spare: f32,
    row: impl Fn(usize) -> Element<'a, M> + 'a,
) -> Element<'a, M> {
    responsive(move |room| {
        let all = rows_in(room.height - spare);
        if total <= all {
            let rows = (0..total).map(&row);
            return Column::with_children(rows).width(Fill).into();
        }
        // The last line says that there is more than is in sight.
        let in_sight = (all - 1).max(1);
        let first = page_of(cursor, in_sight);
        let last = total.min(first + in_sight);
        let more = text(format!(
            "{} to {last} of {total} lines; PageDown and PageUp show the others.",
            first + 1
        ));
        let more = container(more.size(size::SMALL).style(theme::text::muted))
            .height(size::ROW)
            .align_y(alignment::Vertical::Center)
            .padding([0, 6]);
        Column::with_children((first..last).map(&row))
            .push(more)
            .width(Fill)
            .into()
    })
    .into()
}

/// Where the cursor goes by a step, within the list.
pub fn moved(cursor: usize, by: i32, total: usize) -> usize {
    let by_abs = usize::try_from(by.unsigned_abs()).unwrap_or(0);
    let to = if by < 0 {
        cursor.saturating_sub(by_abs)
    } else {
        cursor.saturating_add(by_abs)
    };
    to.min(total.saturating_sub(1))
}
