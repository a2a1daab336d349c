//! Which revision of the results a paper shows.

use maxday::day::{Command, Place};
use maxday::sheets::Audience;

use crate::day::{max_day, paper, somebody, tallied};
use crate::support::Table;

fn day() -> Table {
    let mut table = max_day(&["deadlift"]);
    let _ = table.ok(Command::Add(vec![somebody(1, &["deadlift"], vec![])]));
    tallied(&mut table, 1, "deadlift", &["100"]);
    table
}

fn close(table: &mut Table, session: Option<&str>) {
    let session = session.map(str::to_owned);
    let _ = table.ok(Command::Close { session });
}

fn reopen(table: &mut Table, session: Option<&str>, reason: &str) {
    let _ = table.ok(Command::Reopen {
        session: session.map(str::to_owned),
        reason: reason.to_owned(),
    });
}

/// The line above the foot of a paper's first page.
fn state(table: &Table, name: &str, audience: Audience) -> String {
    let text = paper(table, name, audience);
    let page = text.split('\u{c}').next().unwrap().to_owned();
    let lines: Vec<&str> = page.lines().collect();
    let from = lines
        .iter()
        .position(|l| l.starts_with("Provisional") || l.starts_with("Revision"))
        .unwrap_or_else(|| panic!("no state\n{text}"));
    lines[from..lines.len() - 1].join(" ")
}

const PAPERS: [&str; 3] = ["results", "start-list", "score-sheets"];

#[test]
fn a_closed_day_is_a_revision_and_reopening_withdraws_it() {
    // The day's first moment is 2026-11-18 05:06 at the table.
    let mut table = day();
    let all = |table: &Table, words: &str| {
        for name in PAPERS {
            assert_eq!(state(table, name, Audience::Private), words, "{name}");
        }
    };
    all(&table, "Provisional");
    let _ = table.wait(600);
    close(&mut table, None);
    // What is printed later names the closing, not the printing.
    let _ = table.wait(3600);
    all(&table, "Revision 1, closed 18 November 2026, 05:16");
    reopen(&mut table, None, "Lot 1 had 102.5.");
    all(
        &table,
        "Provisional; revision 1 was withdrawn on 18 November 2026, 06:16 (Lot 1 had 102.5; \
         Table)",
    );
    let _ = table.wait(300);
    close(&mut table, None);
    all(
        &table,
        "Revision 2, closed 18 November 2026, 06:21; replaces revision 1 of 18 November 2026, 05:16 \
         (Lot 1 had 102.5; Table)",
    );
    reopen(&mut table, None, "again");
    all(
        &table,
        "Provisional; revision 2 was withdrawn on 18 November 2026, 06:21 (again; Table)",
    );
    close(&mut table, None);
    all(
        &table,
        "Revision 3, closed 18 November 2026, 06:21; replaces revision 2 of 18 November 2026, 06:21 \
         (again; Table)",
    );
}

#[test]
fn posted_papers_name_no_hand() {
    let mut table = day();
    close(&mut table, None);
    reopen(&mut table, None, "Lot 1 had 102.5.");
    for name in ["results", "start-list"] {
        assert_eq!(
            state(&table, name, Audience::Posted),
            // A hand may have written a name or a bodyweight into the reason.
            "Provisional; revision 1 was withdrawn on 18 November 2026, 05:06"
        );
    }
}

#[test]
fn an_undone_closing_never_was() {
    let mut table = day();
    close(&mut table, None);
    let _ = table.ok(Command::Undo(maxday::day::Line::Day));
    assert_eq!(state(&table, "results", Audience::Private), "Provisional");
    close(&mut table, None);
    assert!(state(&table, "results", Audience::Private).starts_with("Revision 1,"));
}

#[test]
fn the_only_session_closes_the_papers_too() {
    let mut table = day();
    let _ = table.wait(600);
    close(&mut table, Some("1"));
    let words = "Revision 1, closed 18 November 2026, 05:16";
    assert_eq!(state(&table, "results", Audience::Private), words);
    // The day's own closing changes nothing that was printed.
    let _ = table.wait(600);
    close(&mut table, None);
    assert_eq!(state(&table, "results", Audience::Private), words);
    reopen(&mut table, None, "a late card");
    assert_eq!(state(&table, "results", Audience::Private), words);
    let _ = table.wait(600);
    reopen(&mut table, Some("1"), "a late card");
    assert_eq!(
        state(&table, "results", Audience::Private),
        "Provisional; revision 1 was withdrawn on 18 November 2026, 05:36 (a late card; Table)"
    );
}

#[test]
fn of_two_sessions_each_sheet_has_its_own_state() {
    let mut table = day();
    let mut two = somebody(2, &["deadlift"], vec![]);
    two.place = Place {
        session: Some("2".to_owned()),
        flight: Some("B".to_owned()),
        platform: Some(1),
    };
    let _ = table.ok(Command::Add(vec![two]));
    tallied(&mut table, 2, "deadlift", &["90"]);
    close(&mut table, Some("1"));
    assert_eq!(
        state(&table, "results", Audience::Private),
        "Provisional; session 1 is closed"
    );
    let text = paper(&table, "score-sheets", Audience::Private);
    let pages: Vec<&str> = text.split('\u{c}').collect();
    assert_eq!(pages.len(), 2, "{text}");
    assert!(
        pages[0].contains("Revision 1, closed 18 November 2026, 05:06"),
        "{text}"
    );
    assert!(pages[0].contains("page 1 of 2"), "{text}");
    assert!(pages[1].contains("Provisional\n"), "{text}");
    assert!(pages[1].contains("page 2 of 2"), "{text}");
    close(&mut table, Some("2"));
    assert_eq!(
        state(&table, "results", Audience::Private),
        "Revision 1, closed 18 November 2026, 05:06"
    );
    // One session reopened: all results are provisional, the other's sheet stands.
    reopen(&mut table, Some("2"), "a card was missing");
    assert!(state(&table, "results", Audience::Private).starts_with("Provisional; rev"));
    let text = paper(&table, "score-sheets", Audience::Private);
    assert!(text.contains("Revision 1, closed") && text.contains("was withdrawn"));
}

#[test]
fn blank_sheets_and_cards_show_no_state() {
    let table = day();
    for name in ["score-sheets-blank", "rack-cards"] {
        let text = paper(&table, name, Audience::Private);
        assert!(!text.contains("Provisional"), "{name}\n{text}");
        assert!(text.contains("printed 05:06, 18 November 2026"), "{text}");
    }
}
