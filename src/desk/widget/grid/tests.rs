//! Moves, drafts and commits of the grid.

use super::model::{Grid, Said, Spot};
use super::sheet::{Cell, Column, Enter, Sheet};
use super::trial::keys;

/// Words that can be typed over; column 0 is fixed and is where rows are
/// looked for.
struct Words {
    columns: Vec<Column>,
    rows: Vec<Vec<&'static str>>,
    enter: Enter,
    whole: bool,
}

impl Words {
    fn new(enter: Enter, whole: bool) -> Self {
        Self {
            columns: vec![
                Column::figures("no", 4),
                Column::words("a", 8),
                Column::words("b", 8),
            ],
            rows: vec![vec!["7", "x", ""], vec!["12", "y", ""], vec!["15", "z", ""]],
            enter,
            whole,
        }
    }
}

impl Sheet for Words {
    fn columns(&self) -> &[Column] {
        &self.columns
    }
    fn rows(&self) -> usize {
        self.rows.len()
    }
    fn key(&self, row: usize) -> u32 {
        u32::try_from(row).unwrap() + 100
    }
    fn cell(&self, row: usize, column: usize) -> Cell {
        let text = self.rows[row][column];
        if column == 0 {
            Cell::fixed(text)
        } else {
            Cell::open(text)
        }
    }
    fn enter(&self) -> Enter {
        self.enter
    }
    fn whole_row(&self, _row: usize) -> bool {
        self.whole
    }
    fn finder(&self) -> Option<usize> {
        Some(0)
    }
    fn found(&self, row: usize, text: &str) -> bool {
        self.rows[row][0].starts_with(text)
    }
}

fn play(grid: &mut Grid, sheet: &Words, script: &str) -> Vec<Said> {
    keys(script)
        .into_iter()
        .flat_map(|event| grid.update(event, sheet))
        .collect()
}

fn cell(row: u32, column: usize, text: &str) -> Said {
    Said::Cell {
        row,
        column,
        text: text.into(),
    }
}

#[test]
fn typing_replaces_and_enter_commits_and_goes_along() {
    let sheet = Words::new(Enter::Along, false);
    let mut grid = Grid::new();
    let said = play(&mut grid, &sheet, "<Right>ab<Enter>c<Enter>");
    assert_eq!(said, vec![cell(100, 1, "ab"), cell(100, 2, "c")]);
    assert_eq!(grid.cursor, Spot { row: 1, column: 1 });
}

#[test]
fn enter_goes_down_where_the_sheet_says_so() {
    let sheet = Words::new(Enter::Down, false);
    let mut grid = Grid::new();
    let said = play(
        &mut grid,
        &sheet,
        "<Right>ab<Enter>cd<Enter><Enter>e<Enter>",
    );
    assert_eq!(
        said,
        vec![cell(100, 1, "ab"), cell(101, 1, "cd"), cell(102, 1, "e")]
    );
    assert_eq!(grid.cursor, Spot { row: 2, column: 1 });
}

#[test]
fn escape_drops_only_the_draft_in_hand() {
    let sheet = Words::new(Enter::Along, true);
    let mut grid = Grid::new();
    let said = play(&mut grid, &sheet, "<Right>ab<Tab>cd<Escape>");
    assert_eq!(said, vec![]);
    assert_eq!(grid.drafts_of(100).count(), 1);
    let said = play(&mut grid, &sheet, "<Down>");
    assert_eq!(said, vec![Said::Row { row: 100, at: None }]);
}

#[test]
fn a_refusal_keeps_the_text_at_its_cell() {
    let sheet = Words::new(Enter::Along, false);
    let mut grid = Grid::new();
    let _ = play(&mut grid, &sheet, "<Right>ab<Enter>");
    grid.refuse(100, 1, "No.");
    assert_eq!(grid.refused(100), Some("No."));
    let said = play(&mut grid, &sheet, "<BackTab>c<Enter>");
    assert_eq!(said, vec![cell(100, 1, "abc")]);
    assert_eq!(grid.refused(100), None);
    grid.settle(100, 1);
    assert!(!grid.has_drafts());
}

#[test]
fn backspace_opens_the_text_and_delete_empties_it() {
    let sheet = Words::new(Enter::Along, false);
    let mut grid = Grid::new();
    let said = play(&mut grid, &sheet, "<Right><Backspace>!<Enter>");
    assert_eq!(said, vec![cell(100, 1, "x!")]);
    grid.settle(100, 1);
    let said = play(&mut grid, &sheet, "<BackTab><Delete><Enter>");
    assert_eq!(said, vec![cell(100, 1, "")]);
}

#[test]
fn typing_a_number_looks_for_its_row() {
    let sheet = Words::new(Enter::Along, false);
    let mut grid = Grid::new();
    let said = play(&mut grid, &sheet, "<Home>15");
    assert_eq!((said, grid.cursor.row), (vec![], 2));
    assert_eq!(grid.finding(), Some("15"));
    let said = play(&mut grid, &sheet, "<Enter>q<Enter>");
    assert_eq!(said, vec![cell(102, 1, "q")]);
    let said = play(&mut grid, &sheet, "<Home>99<Enter>");
    assert_eq!(said, vec![Said::NotFound("99".into())]);
}

#[test]
fn moves_stay_inside() {
    let sheet = Words::new(Enter::Along, false);
    let mut grid = Grid::new();
    for (script, row, column) in [
        ("<Up><Left>", 0, 0),
        ("<Last><Down><PageDown>", 2, 0),
        ("<Right><Right><Right><Right>", 2, 2),
        ("<Tab>", 2, 1),
        ("<First>", 0, 1),
        ("<BackTab>", 0, 1),
        ("<End>", 0, 2),
        ("<Home>", 0, 0),
    ] {
        let said = play(&mut grid, &sheet, script);
        assert_eq!(
            (said, grid.cursor),
            (vec![], Spot { row, column }),
            "{script}"
        );
    }
}

#[test]
fn a_sheet_without_rows_takes_nothing() {
    let mut sheet = Words::new(Enter::Along, false);
    sheet.rows.clear();
    let mut grid = Grid::new();
    assert_eq!(play(&mut grid, &sheet, "a<Enter><Down>"), vec![]);
    assert_eq!(grid.in_hand(&sheet), None);
}
