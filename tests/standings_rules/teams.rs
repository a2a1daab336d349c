//! Teams: what places bring them, and how ties between them are broken.

use maxday::day::Command;
use maxday::measure::Unit;
use maxday::roster::Change;
use maxday::sheets::{Audience, team_table};
use maxday::standings::{ScoredIn, teams};

use crate::day::{
    body, disqualify, edit, mass, max_day, paper, printed, somebody, tallied, team,
};
use crate::support::Table;

/// A deadlift in two classes, for 5, 3, 2 and 1 points.
fn day(entries: &[(u16, &str, &str, &str)]) -> Table {
    let mut table = max_day(&["deadlift"]);
    table.set("categories", "F 60 +60; M 70 +70");
    table.set("team-points", "5 3 2 1");
    table.set("ties-total", "shared");
    let new = entries.iter().map(|(number, class, name, _)| {
        let mut details = body(if *class == "F" { "F 60" } else { "M 70" });
        details.push(team(name));
        somebody(*number, &["deadlift"], details)
    });
    let _ = table.ok(Command::Add(new.collect()));
    for (number, _, _, load) in entries {
        tallied(&mut table, *number, "deadlift", &[load]);
    }
    table
}

/// Ash 120 (1st), Birch 110 (2nd) and 100 (3rd); in the other class Cedar 200
/// (1st): 5 points each.
fn three() -> Table {
    day(&[
        (1, "F", "Ash", "120"),
        (2, "F", "Birch", "110"),
        (3, "F", "Birch", "100"),
        (4, "M", "Cedar", "200"),
    ])
}

fn result(table: &Table) -> Vec<(Option<u32>, String, u32)> {
    let lines = teams(table.facts()).into_iter();
    lines.map(|l| (l.place, l.team, l.points)).collect()
}

fn expected(lines: &[(u32, &str, u32)]) -> Vec<(Option<u32>, String, u32)> {
    lines
        .iter()
        .map(|(place, team, points)| (Some(*place), (*team).to_owned(), *points))
        .collect()
}

#[test]
fn more_first_places_then_the_sum_then_shared() {
    let mut table = three();
    table.set("team-ties", "places sum shared");
    // Ash and Cedar have a first place each, Birch none; Cedar lifted 200, Ash 120.
    assert_eq!(
        result(&table),
        expected(&[(1, "Cedar", 5), (2, "Ash", 5), (3, "Birch", 5)])
    );
    table.set("team-ties", "places shared");
    assert_eq!(
        result(&table),
        expected(&[(1, "Ash", 5), (1, "Cedar", 5), (3, "Birch", 5)])
    );
    // Birch lifted 210 together.
    table.set("team-ties", "sum shared");
    assert_eq!(
        result(&table),
        expected(&[(1, "Birch", 5), (2, "Cedar", 5), (3, "Ash", 5)])
    );
    table.set("team-ties", "shared");
    assert_eq!(
        result(&table),
        expected(&[(1, "Ash", 5), (1, "Birch", 5), (1, "Cedar", 5)])
    );
}

#[test]
fn equal_first_places_go_by_seconds_and_then_thirds() {
    // Ash 1st and 4th (6 points), Birch 1st and 4th, Cedar 2nd and 2nd (6), Dogwood
    // 3rd and 3rd (4).
    let mut table = day(&[
        (1, "F", "Ash", "120"),
        (2, "F", "Cedar", "110"),
        (3, "F", "Dogwood", "100"),
        (4, "F", "Birch", "90"),
        (5, "M", "Birch", "220"),
        (6, "M", "Cedar", "210"),
        (7, "M", "Dogwood", "200"),
        (8, "M", "Ash", "190"),
    ]);
    table.set("team-ties", "places shared");
    assert_eq!(
        result(&table),
        expected(&[
            (1, "Ash", 6),
            (1, "Birch", 6),
            (3, "Cedar", 6),
            (4, "Dogwood", 4)
        ])
    );
    // 120 + 190 and 90 + 220 are equal too; Cedar has 110 + 210 = 320.
    table.set("team-ties", "places sum shared");
    assert_eq!(result(&table)[1].0, Some(1));
    table.set("team-ties", "sum places shared");
    assert_eq!(result(&table)[0].1, "Cedar");
}

#[test]
fn only_the_best_scores_of_a_team_count() {
    let mut table = three();
    table.set("team-best", "1");
    assert_eq!(
        result(&table),
        expected(&[(1, "Ash", 5), (1, "Cedar", 5), (3, "Birch", 3)])
    );
    let birch = teams(table.facts()).remove(2);
    assert_eq!(birch.scores.len(), 1);
    assert_eq!((birch.scores[0].place, birch.sum), (2, mass("110")));
    assert_eq!(birch.scores[0].of, ScoredIn::Total);
    assert_eq!(birch.scores[0].group, "F 60");
}

#[test]
fn at_most_so_many_of_a_team_score_in_a_group() {
    let mut table = three();
    table.set("team-per-group", "1");
    // Birch's third place brings nothing; the place itself stays taken.
    let lines = teams(table.facts());
    assert_eq!(lines[2].points, 3);
    assert_eq!(lines[2].sum, mass("110"));
    // In another class Birch may score again: 2nd there, 3 more.
    let mut details = body("M 70");
    details.push(team("Birch"));
    let _ = table.ok(Command::Add(vec![somebody(9, &["deadlift"], details)]));
    tallied(&mut table, 9, "deadlift", &["150"]);
    assert_eq!(result(&table)[0], (Some(1), "Birch".to_owned(), 6));
}

#[test]
fn a_shared_place_scores_as_that_place() {
    let table = day(&[
        (1, "F", "Ash", "120"),
        (2, "F", "Birch", "110"),
        (3, "F", "Cedar", "110"),
        (4, "F", "Dogwood", "100"),
    ]);
    // 1st, 2nd, 2nd, 4th.
    assert_eq!(
        result(&table),
        expected(&[
            (1, "Ash", 5),
            (2, "Birch", 3),
            (2, "Cedar", 3),
            (4, "Dogwood", 1)
        ])
    );
}

#[test]
fn guests_the_disqualified_and_those_without_a_team_bring_nothing() {
    let mut table = three();
    edit(&mut table, 1, vec![Change::Guest(true)]);
    // Birch moves up: 1st and 2nd; Ash has nothing and no place.
    assert_eq!(
        result(&table),
        vec![
            (Some(1), "Birch".to_owned(), 8),
            (Some(2), "Cedar".to_owned(), 5),
            (None, "Ash".to_owned(), 0),
        ]
    );
    edit(&mut table, 1, vec![Change::Guest(false)]);
    disqualify(&mut table, 2, None, "left the hall");
    // Ash 1st (5), Birch's other one 2nd (3).
    assert_eq!(
        result(&table),
        expected(&[(1, "Ash", 5), (1, "Cedar", 5), (3, "Birch", 3)])
    );
    // Without a team the place is taken all the same.
    edit(&mut table, 1, vec![team("")]);
    assert_eq!(
        result(&table),
        expected(&[(1, "Cedar", 5), (2, "Birch", 3)])
    );
}

#[test]
fn points_may_go_on_behind_the_last_or_end_there() {
    let mut table = day(&[
        (1, "F", "Ash", "120"),
        (2, "F", "Birch", "110"),
        (3, "F", "Cedar", "100"),
    ]);
    table.set("team-points", "4 1...");
    let points = |table: &Table| -> Vec<u32> {
        teams(table.facts()).iter().map(|l| l.points).collect()
    };
    assert_eq!(points(&table), [4, 1, 1]);
    table.set("team-points", "4 1");
    assert_eq!(points(&table), [4, 1, 0]);
    assert_eq!(teams(table.facts())[2].place, None);
    table.set("team-points", "none");
    assert!(teams(table.facts()).is_empty());
}

/// Snatch 40, 50 and clean and jerk 70, 60 for Ash and Birch in one class.
fn two_lifts() -> Table {
    let lifts = ["snatch", "clean-and-jerk"];
    let mut table = Table::new("weightlifting", Unit::Kg, &lifts, 1);
    table.set("categories", "none");
    table.set("team-points", "5 3 2 1");
    let new = [(1, "Ash"), (2, "Birch")].map(|(n, t)| somebody(n, &lifts, vec![team(t)]));
    let _ = table.ok(Command::Add(new.to_vec()));
    for (n, snatch, jerk) in [(1, "40", "70"), (2, "50", "58")] {
        tallied(&mut table, n, "snatch", &[snatch]);
        tallied(&mut table, n, "clean-and-jerk", &[jerk]);
    }
    table
}

#[test]
fn the_total_the_lifts_or_both_score() {
    let mut table = two_lifts();
    // Snatch: Birch 50, Ash 40. Clean and jerk: Ash 70, Birch 58. Total: Ash 110,
    // Birch 108.
    for (scores, ash, birch) in [("total", 5, 3), ("lifts", 8, 8), ("all", 13, 11)] {
        table.set("team-scores", scores);
        let lines = teams(table.facts());
        let points = |name: &str| lines.iter().find(|l| l.team == name).unwrap().points;
        assert_eq!((points("Ash"), points("Birch")), (ash, birch), "{scores}");
        let line = &lines[0];
        assert_eq!(line.sum, mass("110"), "an athlete's total counts once");
    }
}

#[test]
fn the_team_sheet_follows_the_posting_policy() {
    let mut table = two_lifts();
    table.set("team-scores", "all");
    let sheet = |table: &Table, audience| printed(&team_table(table.facts(), audience));
    assert_eq!(
        sheet(&table, Audience::Private),
        "place,team,points,athletes\n\
         1,Ash,13,Given1 Family1 (5 + 5 + 3)\n\
         2,Birch,11,Given2 Family2 (5 + 3 + 3)\n"
    );
    table.set("posting-name", "initial");
    let posted = sheet(&table, Audience::Posted);
    assert!(posted.contains("Given1 F. (5 + 5 + 3)"), "{posted}");
    table.set("posting-name", "number");
    let posted = sheet(&table, Audience::Posted);
    assert!(posted.contains("lot 1 (5 + 5 + 3)"), "{posted}");
    assert!(!posted.contains("Given"), "{posted}");
    let text = paper(&table, "results", Audience::Posted);
    assert!(
        text.contains("Team result") && !text.contains("Given"),
        "{text}"
    );
    assert!(
        text.contains("in each lift and in the total: 5 3 2 1"),
        "{text}"
    );
}

#[test]
fn the_team_result_is_on_the_paper_only_where_points_and_teams_are() {
    let mut table = three();
    let says = |table: &Table| {
        paper(table, "results", Audience::Private).contains("Team result")
    };
    assert!(says(&table));
    table.set("team-points", "none");
    assert!(!says(&table));
    table.set("team-points", "3 2 1");
    for n in 1..=4 {
        edit(&mut table, n, vec![team("")]);
    }
    assert!(!says(&table));
}
