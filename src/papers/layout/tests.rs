//! Pages as data: what stands where, and what never parts.

use super::*;
use crate::day::Ruling;
use crate::measure::{Mass, Unit};
use crate::sheets::{Align, Cell, Column, Group, Table};

const NAMES: [&str; 4] = [
    "Łukasz Wiśniewski",
    "Þóra Jónsdóttir",
    "Ελένη Μαύρου",
    "Мария Белая",
];

fn frame(paper: Paper) -> Frame {
    Frame::new(paper, "Results")
        .day("Autumn max day", "2026-11-14")
        .venue("Old gym")
        .foot("printed 14:05, 2026-11-14", "For posting")
}

fn attempt(load: u16, ruling: Ruling) -> Cell {
    Cell::Attempt {
        load: Some(Mass::whole(load.into(), Unit::Kg)),
        unit: Unit::Kg,
        ruling: Some(ruling),
        reps: 1,
    }
}

/// Groups of the given sizes with a name, two attempts and a hidden column.
fn table(sizes: &[usize]) -> Table {
    let columns = vec![
        Column::new("name", "Name", Align::Left),
        Column::new("id", "", Align::Left),
        Column::new("clean 1", "1", Align::Right)
            .under("Clean")
            .attempts(),
        Column::new("clean 2", "2", Align::Right)
            .under("Clean")
            .attempts(),
    ];
    let groups = sizes.iter().enumerate().map(|(number, size)| Group {
        label: format!("Flight {}", number + 1),
        remark: String::new(),
        rows: (0..*size)
            .map(|row| {
                vec![
                    Cell::text(format!("{} {}", NAMES[row % 4], row + 1)),
                    Cell::text("hidden"),
                    attempt(60, Ruling::Good),
                    attempt(65, Ruling::No),
                ]
            })
            .collect(),
    });
    Table {
        columns,
        groups: groups.collect(),
    }
}

fn lay(paper: Paper, sizes: &[usize]) -> Vec<Page> {
    pages(
        &frame(paper),
        &[Block::table(table(sizes), TableStyle::posted())],
    )
}

/// The lines of each page.
fn lines(pages: &[Page]) -> Vec<Vec<String>> {
    text_of(pages)
        .split('\u{c}')
        .map(|page| page.lines().map(str::to_owned).collect())
        .collect()
}

#[test]
fn a_page_reads_from_head_to_foot() {
    let pages = lay(Paper::A4, &[2]);
    assert_eq!(
        text_of(&pages),
        "Autumn max day  2026-11-14\n\
         Results  Old gym\n\
         Clean\n\
         Name  1  2\n\
         Flight 1\n\
         Łukasz Wiśniewski 1  60  ~65~\n\
         Þóra Jónsdóttir 2  60  ~65~\n\
         For posting  printed 14:05, 2026-11-14  page 1 of 1\n"
    );
}

#[test]
fn column_and_group_headings_are_repeated_and_pages_counted() {
    for paper in [Paper::Letter, Paper::A4] {
        let pages = lay(paper, &[70]);
        assert!(pages.len() > 1);
        let count = pages.len();
        let mut rows = 0;
        for (index, page) in lines(&pages).iter().enumerate() {
            assert_eq!(page[2], "Clean");
            assert_eq!(page[3], "Name  1  2");
            let again = if index == 0 {
                "Flight 1"
            } else {
                "Flight 1, continued"
            };
            assert_eq!(page[4], again);
            rows += page.iter().filter(|line| line.contains("~65~")).count();
            let foot = page.last().unwrap();
            assert!(foot.ends_with(&format!("page {} of {count}", index + 1)));
        }
        assert_eq!(rows, 70);
    }
}

#[test]
fn a_group_heading_keeps_two_rows_and_a_last_row_is_never_alone() {
    for first in 1..45 {
        for page in lines(&lay(Paper::Letter, &[first, 5])) {
            let row = |line: &String| line.contains("~65~");
            if let Some(at) = page.iter().position(|l| l == "Flight 2") {
                assert!(
                    row(&page[at + 1]) && row(&page[at + 2]),
                    "{first}: {page:?}"
                );
            }
            if let Some(at) = page.iter().position(|l| l == "Flight 2, continued") {
                assert!(
                    row(&page[at + 1]) && row(&page[at + 2]),
                    "{first}: {page:?}"
                );
            }
        }
    }
}

#[test]
fn everything_lies_inside_the_margins() {
    let long = "Wolfeschlegelsteinhausenbergerdorff".repeat(3);
    let mut wide = table(&[30, 3]);
    wide.groups[0].rows[3][0] = Cell::text(long.clone());
    for (index, landscape) in [false, true].into_iter().enumerate() {
        let mut frame = frame([Paper::Letter, Paper::A4][index]);
        frame.landscape = landscape;
        frame.title = long.clone();
        frame.venue = long.clone();
        let (width, height) = frame.size();
        let blocks = [
            Block::table(wide.clone(), TableStyle::posted().bold(["name"])),
            Block::paragraph(long.clone()),
            Block::key_values([(long.clone(), long.clone())]),
        ];
        for item in pages(&frame, &blocks).iter().flat_map(|p| &p.items) {
            let (left, right, y) = match item {
                Item::Text {
                    x,
                    y,
                    size,
                    text,
                    bold,
                    ..
                } => {
                    let face = crate::papers::Face::of(*bold);
                    (*x, x + crate::papers::width(text, *size, face), *y)
                }
                Item::Line { x1, x2, y1, .. } => (*x1, *x2, *y1),
                Item::Rect { x, y, w, .. } | Item::Picture { x, y, w, .. } => {
                    (*x, x + w, *y)
                }
            };
            assert!(left > 33.9 && right < width - 33.9, "{item:?}");
            assert!(y > 33.9 && y < height - 33.9, "{item:?}");
        }
    }
}

#[test]
fn a_long_name_is_broken_then_cut_and_numbers_never() {
    let mut table = table(&[1]);
    let name = "Bartholomew Featherstonehaugh ".repeat(6);
    table.groups[0].rows[0][0] = Cell::text(name);
    let text = text_of(&pages(
        &frame(Paper::A4),
        &[Block::table(table, TableStyle::posted())],
    ));
    assert_eq!(text.matches("Bartholomew").count(), 4, "{text}");
    assert!(text.contains("…\n60  ~65~"), "{text}");
}

#[test]
fn the_strike_runs_through_its_text() {
    let pages = lay(Paper::A4, &[1]);
    let items = &pages[0].items;
    let at = items
        .iter()
        .position(|i| {
            matches!(
                i,
                Item::Line {
                    pen: Pen::Strike,
                    ..
                }
            )
        })
        .unwrap();
    let Item::Line { x1, y1, x2, y2, .. } = items[at] else {
        panic!("no line");
    };
    let Item::Text {
        x, y, size, text, ..
    } = &items[at - 1]
    else {
        panic!("no text before the strike");
    };
    assert_eq!(text, "65");
    assert!(x1 < *x && x2 > *x + size);
    assert!((y1 - y2).abs() < 1e-6 && y1 < *y && y1 > *y - size / 2.0);
}

#[test]
fn numbers_line_up_at_the_point_and_right_edges_agree() {
    let mut table = table(&[2]);
    table.groups[0].rows[0][2] = Cell::text("102.5");
    let pages = pages(
        &frame(Paper::A4),
        &[Block::table(table, TableStyle::posted())],
    );
    let right = |wanted: &str, upto: &str| {
        pages[0].items.iter().find_map(|item| match item {
            Item::Text { x, size, text, .. } if text == wanted => {
                Some(x + crate::papers::width(upto, *size, crate::papers::Face::Regular))
            }
            _ => None,
        })
    };
    let whole = right("60", "60").unwrap();
    assert!((right("102.5", "102").unwrap() - whole).abs() < 0.01);
}

#[test]
fn an_empty_table_says_so() {
    for sizes in [&[][..], &[0][..]] {
        let text = text_of(&lay(Paper::Letter, sizes));
        assert!(text.contains("Nothing here yet."), "{text}");
    }
    assert!(!text_of(&lay(Paper::Letter, &[1])).contains("Nothing"));
}

#[test]
fn type_shrinks_only_where_columns_would_not_fit() {
    let size_of = |columns: usize| {
        let mut table = table(&[1]);
        for number in 0..columns {
            table.columns.push(Column::new("x", "Total", Align::Right));
            table.groups[0].rows[0].push(Cell::text(format!("{number}00.25")));
        }
        let pages = pages(
            &frame(Paper::A4),
            &[Block::table(table, TableStyle::posted())],
        );
        pages[0].items.iter().find_map(|item| match item {
            Item::Text { size, text, .. } if text.contains("Wiśn") => Some(*size),
            _ => None,
        })
    };
    assert_eq!(size_of(0), Some(14.0));
    assert!(size_of(10) < Some(14.0) && size_of(10) >= Some(8.5));
    assert!(size_of(16) < Some(8.5));
}

#[test]
fn boxes_to_write_in_share_their_edges() {
    let style = TableStyle::to_fill_in().boxes(["clean 1", "clean 2"]);
    let pages = pages(&frame(Paper::A4), &[Block::table(table(&[2]), style)]);
    let boxes: Vec<_> = pages[0]
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Rect { x, y, w, h, .. } => Some((*x, *y, *w, *h)),
            _ => None,
        })
        .collect();
    assert_eq!(boxes.len(), 4);
    assert!((boxes[0].0 + boxes[0].2 - boxes[1].0).abs() < 0.01);
    assert!((boxes[0].1 + boxes[0].3 - boxes[2].1).abs() < 0.01);
    assert!(boxes[0].2 >= 44.0 && boxes[0].3 >= 28.0);
}

#[test]
fn breaks_and_spaces_make_no_empty_page() {
    let blocks = [
        Block::PageBreak,
        Block::space(20.0),
        Block::heading("One"),
        Block::PageBreak,
        Block::PageBreak,
        Block::paragraph("Two"),
        Block::PageBreak,
    ];
    let pages = pages(&frame(Paper::Letter), &blocks);
    assert_eq!(pages.len(), 2);
    let lines = lines(&pages);
    assert_eq!((lines[0][2].as_str(), lines[1][2].as_str()), ("One", "Two"));
    assert_eq!(super::pages(&frame(Paper::A4), &[]).len(), 1);
}

#[test]
fn kept_blocks_move_to_the_next_page_together() {
    let kept = Block::KeepTogether(vec![
        Block::heading("Signatures"),
        Block::Form(
            Form::new()
                .row([Field::new("Director")])
                .row([Field::new("Judge")]),
        ),
        Block::small("Both sign."),
    ]);
    let pages = pages(
        &frame(Paper::Letter),
        &[
            Block::space(1.0),
            Block::Form(Form::new().row_height(600.0).row([Field::new("Notes")])),
            kept,
        ],
    );
    assert_eq!(pages.len(), 2);
    assert_eq!(
        lines(&pages)[1][2..6],
        ["Signatures", "Director", "Judge", "Both sign."]
    );
}

#[test]
fn something_taller_than_a_page_is_broken_and_nothing_is_lost() {
    let kept =
        Block::KeepTogether(vec![Block::table(table(&[90]), TableStyle::posted())]);
    let pages = pages(&frame(Paper::Letter), &[kept]);
    assert!(pages.len() > 2);
    assert_eq!(text_of(&pages).matches("~65~").count(), 90);
}

#[test]
fn cards_fill_a_grid_with_lines_to_cut() {
    let card = |n: usize| vec![Block::heading(format!("Card {n}"))];
    let cards = Cards::new(2, 3, (1..=7).map(card).collect());
    let pages = pages(&frame(Paper::A4).head(Head::None), &[Block::Cards(cards)]);
    assert_eq!(pages.len(), 2);
    assert_eq!(
        lines(&pages)[0][..3],
        ["Card 1  Card 2", "Card 3  Card 4", "Card 5  Card 6"]
    );
    let cuts = pages[0]
        .items
        .iter()
        .filter(|i| matches!(i, Item::Line { pen: Pen::Cut, .. }));
    // Two across the page, and one upright in each of the three rows.
    assert_eq!(cuts.count(), 5);
}

#[test]
fn a_card_that_needs_more_room_gets_it() {
    let card = |rows: usize| vec![Block::table(table(&[rows]), TableStyle::to_fill_in())];
    let with = |rows: usize| {
        let cards = Cards::new(1, 4, vec![card(rows), card(1), card(1), card(1)]);
        pages(
            &frame(Paper::Letter).head(Head::None),
            &[Block::Cards(cards)],
        )
    };
    assert_eq!(with(1).len(), 1);
    assert_eq!(with(8).len(), 2);
    let long = with(40);
    // Two for itself; the short ones share the next as before.
    assert_eq!(long.len(), 3);
    assert_eq!(text_of(&long[2..]).matches("Flight 1").count(), 3);
    assert!(text_of(&long).contains("Flight 1, continued"));
}

#[test]
fn accents_are_composed_and_missing_characters_named() {
    let blocks = [Block::paragraph("Jose\u{301}\u{200b} 金\t木 金")];
    let pages = pages(&frame(Paper::A4), &blocks);
    assert!(text_of(&pages).contains("José 金 木 金"));
    assert_eq!(missing(&pages), ['木', '金']);
}

#[test]
fn a_paragraph_leaves_no_line_alone() {
    for space in 0..40_u16 {
        let words = "word ".repeat(80);
        let above = Block::Form(
            Form::new()
                .row_height(540.0 + 2.0 * f32::from(space))
                .row([Field::new("x")]),
        );
        let pages = pages(&frame(Paper::Letter), &[above, Block::paragraph(words)]);
        for page in lines(&pages) {
            let count = page.iter().filter(|l| l.starts_with("word")).count();
            assert_ne!(count, 1, "{space}: {page:?}");
        }
    }
}

#[test]
fn a_slim_head_gives_up_the_weekday_and_the_school_before_the_day() {
    let head = |name: &str| {
        let frame = Frame::new(Paper::A4, "Athlete reports, private")
            .day(name, "Saturday, 21 November 2026")
            .school("Quillback High School", None)
            .head(Head::Slim);
        text_of(&pages(&frame, &[Block::paragraph("Nothing.")]))
    };
    assert!(head("Meet").contains("Quillback High School · Meet · Saturday, 21 "));
    for letters in 1..=36 {
        let name = "n".repeat(letters);
        let text = head(&name);
        assert!(text.contains(&format!("{name} · ")), "{text}");
        assert!(text.contains("21 November 2026"), "{text}");
    }
    let last = head(&"n".repeat(36));
    assert!(
        !last.contains("Saturday") && !last.contains("Quillback"),
        "{last}"
    );
}
