//! A long list of rows of one height, shown a page at a time.

use iced::widget::{Column, button, responsive};
use iced::{Element, Fill};

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
        let in_sight = rows_in(room.height - spare);
        let first = page_of(cursor, in_sight);
        let last = total.min(first + in_sight);
        Column::with_children((first..last).map(&row))
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
