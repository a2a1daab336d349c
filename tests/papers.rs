//! The papers of invented days, by their words and by where they stand.

// Helpers stand outside of a test's own functions.
#![allow(clippy::unwrap_used, clippy::expect_used)]

#[path = "papers/days.rs"]
mod days;

use std::fs;
use std::path::PathBuf;

use days::{NOW, Told, big, hard, max_day, meet};
use maxday::papers::documents::{
    Archive, Laid, NAMES, Order, lay, lay_with, make, reasons,
};
use maxday::papers::picture::ready;
use maxday::papers::{Face, Item, Page, Paper, Pen, text_of, width};
use maxday::sheets::{Audience, Table, standings_table, start_list};
use maxday::standings::Basis;

/// Papers that name only who has a result.
const OF_RESULTS: &[&str] = &[
    "training-sheets",
    "training-squad",
    "records",
    "team-result",
    "leader-tables",
    "incident-report",
    "certificates",
];

/// Papers that name nobody.
const OF_NOBODY: &[&str] = &[
    "loading-chart",
    "safety-sheet",
    "judges-sheet",
    "quick-guide",
];

fn order(size: Paper, audience: Audience) -> Order {
    Order {
        size,
        audience,
        made: NOW,
        only: None,
    }
}

fn laid(told: &Told, audience: Audience) -> Vec<Laid> {
    lay(told.facts(), &order(Paper::Letter, audience)).unwrap()
}

fn paper(told: &Told, audience: Audience, name: &str) -> Laid {
    let found = laid(told, audience).into_iter().find(|p| p.name == name);
    found.unwrap()
}

/// The words of the paper for those who run the day.
fn words(told: &Told, name: &str) -> String {
    text_of(&paper(told, Audience::Private, name).pages)
}

/// Every day that is checked for its layout.
fn all_days() -> Vec<Told> {
    vec![
        max_day(),
        meet(),
        big(0, 3, &["snatch", "clean-and-jerk"]),
        big(1, 3, &["deadlift"]),
        big(70, 3, &["power-clean", "back-squat", "bench-press"]),
        big(
            26,
            4,
            &["power-clean", "back-squat", "bench-press", "push-jerk"],
        ),
        big(8, 6, &["front-squat"]),
        big(5, 1, &["strict-press"]),
    ]
}

/// Every paper of these days, in both sizes and for both audiences.
fn every_paper(days: &[Told]) -> Vec<Laid> {
    let mut papers = Vec::new();
    for told in days {
        for size in [Paper::Letter, Paper::A4] {
            for audience in [Audience::Private, Audience::Posted] {
                papers.extend(lay(told.facts(), &order(size, audience)).unwrap());
            }
        }
    }
    papers
}

#[test]
fn papers_read_as_they_did() {
    let folder: PathBuf = [env!("CARGO_MANIFEST_DIR"), "tests", "golden"]
        .iter()
        .collect();
    let write = std::env::var_os("MAXDAY_WRITE_GOLDEN").is_some_and(|v| v == "1");
    let mut differ = Vec::new();
    for (day, told) in [("max-day", max_day()), ("meet", meet())] {
        for audience in [Audience::Private, Audience::Posted] {
            for paper in laid(&told, audience) {
                let word = audience.word().replace(' ', "-");
                let file = folder.join(format!("{day}-{word}-{}.txt", paper.name));
                let text = text_of(&paper.pages).replace('\u{c}', "----\n");
                if write {
                    fs::create_dir_all(&folder).unwrap();
                    fs::write(&file, &text).unwrap();
                }
                let golden = fs::read_to_string(&file).unwrap_or_default();
                if golden.replace("\r\n", "\n") != text {
                    differ.push(file.file_name().unwrap().to_owned());
                }
            }
        }
    }
    assert!(
        differ.is_empty(),
        "{differ:?} are missing or read otherwise; look at them after a run with \
         MAXDAY_WRITE_GOLDEN=1"
    );
}

#[test]
fn a_no_lift_is_struck_through_on_every_paper_that_shows_it() {
    let told = max_day();
    for name in ["rack-cards", "score-sheets", "results"] {
        let text = words(&told, name);
        for load in ["~165~", "~95~", "~185~"] {
            assert!(text.contains(load), "{name}: {load}\n{text}");
        }
        assert!(
            !text.contains("~155~") && !text.contains("~stopped~"),
            "{text}"
        );
    }
    assert!(!words(&told, "score-sheets-blank").contains('~'));
}

#[test]
fn the_twin_of_a_paper_is_its_table() {
    for told in [
        max_day(),
        meet(),
        big(70, 3, &["power-clean", "back-squat"]),
    ] {
        let facts = told.facts();
        for audience in [Audience::Private, Audience::Posted] {
            let papers = laid(&told, audience);
            let twin = |stem: &str| -> &Table {
                let tables = papers.iter().flat_map(|p| &p.tables);
                &tables.into_iter().find(|(s, _)| s == stem).unwrap().1
            };
            assert_eq!(*twin("start-list"), start_list(facts, audience));
            let standings = standings_table(facts, Basis::Category, audience);
            assert_eq!(*twin("results"), standings);
            for paper in &papers {
                same_words(paper);
            }
        }
    }
}

/// All loads and counts of the twins stand on the paper, and as many are struck.
fn same_words(paper: &Laid) {
    let text = text_of(&paper.pages);
    let cells = || {
        let groups = paper.tables.iter().flat_map(|(_, t)| &t.groups);
        groups.flat_map(|g| &g.rows).flatten()
    };
    let struck = cells().filter(|c| c.struck()).count();
    assert_eq!(
        text.matches('~').count(),
        2 * struck,
        "{}\n{text}",
        paper.name
    );
    let printed: Vec<&str> = text.split([' ', '\n', '~', ',', '.']).collect();
    for (stem, table) in &paper.tables {
        for row in table.groups.iter().flat_map(|g| &g.rows) {
            for (cell, column) in row.iter().zip(&table.columns) {
                let shown = cell.shown();
                if column.attempt || ["lot", "total"].contains(&column.key.as_str()) {
                    for word in shown.split(' ').filter(|w| !w.is_empty()) {
                        let found = printed.contains(&word) || text.contains(word);
                        assert!(found, "{stem}: {word} of {}", column.key);
                    }
                }
            }
        }
    }
}

#[test]
fn what_the_policy_hides_is_on_no_posted_paper() {
    let mut told = meet();
    let shown = text_of(&paper(&told, Audience::Posted, "results").pages);
    assert!(
        shown.contains("Nwokoforah") && shown.contains("62.45"),
        "{shown}"
    );
    for (name, hidden, seen) in [
        ("initial", ["Nwokoforah", "62.45", "F 69"], "Adaeze N."),
        ("number", ["Adaeze", "61.8", "M 75"], "143"),
    ] {
        told.set("posting-name", name);
        told.set("posting-bodyweight", "no");
        told.set("posting-category", "no");
        for paper in laid(&told, Audience::Posted) {
            let mut text = text_of(&paper.pages);
            for (_, table) in &paper.tables {
                for row in table.csv_rows() {
                    text.push_str(&row.join("\n"));
                }
            }
            for word in hidden {
                assert!(!text.contains(word), "{}: {word}\n{text}", paper.name);
            }
            if paper.name == "results" {
                assert!(text.contains(seen), "{text}");
            }
        }
        let private = words(&told, "results");
        assert!(private.contains("Nwokoforah") && private.contains("62.45"));
    }
}

#[test]
fn only_papers_for_posting_are_posted() {
    let told = max_day();
    let names = |audience| -> Vec<String> {
        let papers = laid(&told, audience).into_iter();
        papers.map(|p| p.name).collect()
    };
    let posted = [
        &[
            "start-list",
            "athlete-cards",
            "results",
            "records",
            "leader-tables",
        ],
        OF_NOBODY,
    ]
    .concat();
    let mut posted: Vec<&str> = NAMES
        .iter()
        .copied()
        .filter(|n| posted.contains(n))
        .collect();
    posted.retain(|name| *name != "quick-guide");
    assert_eq!(names(Audience::Posted), posted);
    // A max day gives teams no points.
    let mut all = NAMES.to_vec();
    all.retain(|name| *name != "team-result");
    assert_eq!(names(Audience::Private), all);
    let mut wish = order(Paper::A4, Audience::Posted);
    wish.only = Some(vec!["Results ".to_owned()]);
    assert_eq!(lay(told.facts(), &wish).unwrap().len(), 1);
    for (name, why) in [
        (
            "rack-cards",
            "“rack-cards” isn't for posting; for posting there is start-list, \
             athlete-cards, results, team-result, records, loading-chart, safety-sheet, judges-sheet, leader-tables",
        ),
        (
            "training-sheets",
            "“training-sheets” isn't for posting; for posting there is start-list, \
             athlete-cards, results, team-result, records, loading-chart, safety-sheet, judges-sheet, leader-tables",
        ),
        (
            "result",
            "there is no paper “result”; there is start-list, weigh-in-sheet, athlete-cards, \
             rack-cards, score-sheets, score-sheets-blank, results, team-result, records, training-sheets, training-squad, \
             loading-chart, safety-sheet, judges-sheet, quick-guide, leader-tables, athlete-reports, \
             incident-report, certificates, protocol",
        ),
    ] {
        wish.only = Some(vec![name.to_owned()]);
        assert_eq!(lay(told.facts(), &wish).unwrap_err().to_string(), why);
    }
}

#[test]
fn nobody_reads_why_somebody_is_not_cleared() {
    let told = max_day();
    for audience in [Audience::Private, Audience::Posted] {
        for paper in laid(&told, audience) {
            let text = text_of(&paper.pages);
            for word in ["knee operated", "Nurse", "ill\n"] {
                assert!(!text.contains(word), "{}: {word}", paper.name);
            }
        }
    }
    let cards = words(&told, "rack-cards");
    // Once for each of three attempts, on two lines of the box.
    assert_eq!(cards.matches("not\ncleared").count(), 3, "{cards}");
    assert!(
        cards.contains("At most 155") && cards.contains("Absent"),
        "{cards}"
    );
}

#[test]
fn every_page_says_what_it_is() {
    for told in all_days() {
        let day = &told.facts().name;
        for audience in [Audience::Private, Audience::Posted] {
            for paper in laid(&told, audience) {
                if paper.name == "certificates" {
                    for page in text_of(&paper.pages).split('\u{c}') {
                        // It hangs on somebody's wall for years.
                        assert!(!page.contains("rivate") && !page.contains("printed"));
                    }
                    continue;
                }
                let count = paper.pages.len();
                let text = text_of(&paper.pages);
                // What names nobody may hang anywhere, and says so.
                let audience = match paper.name.as_str() {
                    "loading-chart" | "safety-sheet" | "judges-sheet" => Audience::Posted,
                    _ => audience,
                };
                for (number, page) in (1..).zip(text.split('\u{c}')) {
                    for word in [
                        paper.title.as_str(),
                        day,
                        "Tuesday, 17 November 2026",
                        &told.facts().venue,
                        "printed 14:05, 17 November 2026",
                        audience.word(),
                        &format!("page {number} of {count}"),
                    ] {
                        assert!(page.contains(word), "{}: {word}\n{page}", paper.name);
                    }
                }
            }
        }
    }
}

#[test]
fn headings_are_repeated_on_every_page() {
    let told = big(70, 3, &["power-clean", "back-squat", "bench-press"]);
    for (name, heading) in [
        ("start-list", "Lot  Name  Sex  Grade"),
        ("rack-cards", "Load  Good"),
        ("score-sheets", "Lot  Name"),
        ("results", "Place  Lot  Name"),
    ] {
        let text = words(&told, name);
        let pages: Vec<&str> = text.split('\u{c}').collect();
        assert!(pages.len() > 2, "{name}: {} pages", pages.len());
        for page in pages {
            assert!(page.contains(heading), "{name}\n{page}");
        }
    }
}

#[test]
fn a_card_is_one_page_with_its_own_judge_and_room_for_a_pencil() {
    for told in all_days() {
        let facts = told.facts();
        let cards = paper(&told, Audience::Private, "rack-cards");
        let text = text_of(&cards.pages);
        let (mut lots, mut expected) = (0, 0);
        for line in &facts.slots {
            let takes_part = |e: &&maxday::roster::Entry| e.takes_part(&line.slot);
            let sheets = usize::from(facts.rules.attempts.div_ceil(4));
            expected += facts.entries.values().filter(takes_part).count() * sheets;
        }
        for (page, text) in cards.pages.iter().zip(text.split('\u{c}')) {
            if facts.entries.is_empty() {
                continue;
            }
            assert_eq!(text.matches(": Flight").count(), 1, "{text}");
            for word in [
                "Signed by the judge",
                "local policy and the qualified supervisor on site come first",
                "Loads in",
                "rounded down",
            ] {
                assert!(text.contains(word), "{word}\n{text}");
            }
            lots += rows_of(page);
        }
        assert_eq!(lots, expected);
    }
}

/// How many rows have boxes that aren't those of the foot; each is 9 mm at least.
fn rows_of(page: &Page) -> usize {
    let mut tops: Vec<f32> = Vec::new();
    for item in &page.items {
        let Item::Rect { y, h, w, .. } = item else {
            continue;
        };
        if (h - 30.0).abs() < 0.01 {
            continue;
        }
        assert!(*h >= 9.0 * 72.0 / 25.4 && *w >= 20.0, "{item:?}");
        if !tops.iter().any(|top| (top - y).abs() < 0.01) {
            tops.push(*y);
        }
    }
    tops.len()
}

#[test]
fn warm_up_loads_come_from_the_opener_and_never_below_the_bar() {
    let cards = words(&max_day(), "rack-cards");
    // 50, 70, 80, 90 % of 75 and of 315 lb, rounded down to 5 lb over a 45 lb bar.
    assert!(cards.contains("Warm-up bar, 50, 60, 65"), "{cards}");
    let squat: String = cards.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(squat.contains("Warm-up 155, 220, 250, 280"), "{cards}");
}

#[test]
fn a_reason_is_printed_by_its_number_on_the_card() {
    let told = max_day();
    let line = told.facts().slot("clean").unwrap();
    let listed = reasons(line);
    assert_eq!(listed[0].code, "caught-too-low");
    let cards = words(&told, "rack-cards");
    assert!(cards.contains("1 caught at or below parallel"), "{cards}");
    assert!(cards.contains("~165~  no  1\n"), "{cards}");
}

#[test]
fn no_two_texts_overlap_and_all_lie_on_the_paper() {
    let mut days = all_days();
    days.push(hard());
    for mut told in [hard(), meet(), max_day()] {
        told.set("school", &"Quillback and district high school ".repeat(3));
        told.set("picture", &picture());
        days.push(told);
    }
    for paper in every_paper(&days) {
        for page in &paper.pages {
            let texts: Vec<(f32, f32, f32, f32, &str)> = page
                .items
                .iter()
                .filter_map(|item| match item {
                    Item::Text {
                        x,
                        y,
                        size,
                        bold,
                        text,
                        ..
                    } => {
                        let right = x + width(text, *size, Face::of(*bold));
                        Some((*x, right, y - size * 0.7, *y, text.as_str()))
                    }
                    Item::Picture { x, y, w, h, .. } => {
                        Some((*x, x + w, *y, y + h, "a picture"))
                    }
                    _ => None,
                })
                .collect();
            for (index, a) in texts.iter().enumerate() {
                let inside = a.0 > 33.0 && a.1 < page.width - 33.0 && a.2 > 33.0;
                let inside = inside && a.3 < page.height - 33.0;
                assert!(inside, "{}: “{}” is off the page", paper.name, a.4);
                for b in &texts[index + 1..] {
                    let apart = a.1 <= b.0 + 0.3 || b.1 <= a.0 + 0.3;
                    let apart = apart || a.3 <= b.2 + 0.1 || b.3 <= a.2 + 0.1;
                    assert!(apart, "{}: “{}” on “{}”", paper.name, a.4, b.4);
                }
            }
        }
    }
}

#[test]
fn no_number_and_no_heading_is_cut_short() {
    for paper in every_paper(&all_days()) {
        let text = text_of(&paper.pages);
        // Only a name may be, and none of these days has one that long.
        let cut = text.split(['\n', '\u{c}']).find(|l| l.contains('…'));
        assert_eq!(cut, None, "{}", paper.name);
    }
}

#[test]
fn struck_texts_have_a_line_through_them() {
    let told = meet();
    let page = &paper(&told, Audience::Private, "results").pages[0];
    for pair in page.items.windows(2) {
        if let [
            before,
            Item::Line {
                x1, x2, y1, pen, ..
            },
        ] = pair
            && *pen == Pen::Strike
        {
            let Item::Text {
                x, y, size, text, ..
            } = before
            else {
                panic!("{before:?}");
            };
            assert!(text.starts_with(|c: char| c.is_ascii_digit()), "{text}");
            assert!(x1 < x && *x2 > x + size && y1 < y && *y1 > y - size);
        }
    }
}

#[test]
fn an_empty_day_says_so_on_one_page_each() {
    let told = big(0, 3, &["snatch", "clean-and-jerk"]);
    for paper in laid(&told, Audience::Private) {
        if OF_NOBODY.contains(&paper.name.as_str()) || paper.name == "incident-report" {
            continue;
        }
        assert_eq!(paper.pages.len(), 1, "{}", paper.name);
        let text = text_of(&paper.pages);
        let says = text.contains("Nobody is entered") || text.contains("No result yet.");
        assert!(says, "{text}");
        assert!(paper.tables.iter().all(|(_, table)| table.is_empty()));
    }
}

#[test]
fn shared_places_are_printed_alike() {
    let mut told = Told::new(
        "Tie",
        "max-day",
        maxday::measure::Unit::Lb,
        &["deadlift"],
        1,
    );
    told.flight("A", 1);
    for (number, name, load) in [(1, "Ida", "200"), (2, "Uma", "210"), (3, "Eva", "200")]
    {
        told.add(number, (name, "Quist"), "A", &[load]);
        told.lifts(number, "deadlift", &[load]);
    }
    let text = words(&told, "results");
    let places: Vec<&str> = text
        .lines()
        .filter(|l| l.contains("Quist"))
        .filter_map(|l| l.split("  ").next())
        .collect();
    assert_eq!(places, ["1", "2", "2"], "{text}");
}

#[test]
fn the_same_order_gives_the_same_files() {
    let told = max_day();
    let wish = order(Paper::Letter, Audience::Private);
    let first = make(told.facts(), &wish).unwrap();
    assert_eq!(first.len(), NAMES.len() - 1);
    assert!(first == make(told.facts(), &wish).unwrap());
    for made in &first {
        assert!(made.pdf.starts_with(b"%PDF"));
        assert!(made.missing.is_empty(), "{:?}", made.missing);
        let of_the_day = made.name != "quick-guide";
        assert_eq!(!made.tables.is_empty(), of_the_day, "{}", made.name);
    }
}

#[test]
fn characters_without_a_shape_are_named() {
    let mut told = meet();
    told.add(44, ("明", "Li"), "A", &["40", "50"]);
    let wish = order(Paper::A4, Audience::Private);
    let made = make(told.facts(), &wish).unwrap();
    for made in &made {
        // Who has no result yet has no training sheet either.
        let named = !OF_NOBODY.contains(&made.name.as_str());
        let named = named && !OF_RESULTS.contains(&made.name.as_str());
        let missing = if named { vec!['明'] } else { vec![] };
        assert_eq!(made.missing, missing, "{}", made.name);
    }
}

#[test]
fn flights_stand_by_session_and_name_however_they_were_made() {
    let mut told = Told::new(
        "Order",
        "max-day",
        maxday::measure::Unit::Lb,
        &["deadlift"],
        2,
    );
    for (number, flight) in [(1, "C"), (2, "10"), (3, ""), (4, "A"), (5, "2")] {
        if !flight.is_empty() {
            told.flight(flight, 1);
        }
        told.add(number, ("Ida", "Quist"), flight, &["200"]);
    }
    let order = [
        "flight 2",
        "flight 10",
        "flight a",
        "flight c",
        "no flight yet",
    ];
    for name in ["start-list", "rack-cards", "score-sheets"] {
        let text = words(&told, name).to_lowercase();
        let found: Vec<usize> = order.iter().map(|f| text.find(f).unwrap()).collect();
        assert!(found.is_sorted(), "{name}\n{text}");
    }
}

#[test]
fn the_protocol_tells_what_was_annulled_and_why_and_the_digest() {
    let mut told = max_day();
    let last = told.day().journal().last().unwrap().act;
    told.tell(maxday::day::Event::Annulled {
        act: last,
        reason: "typed on the wrong line".to_owned(),
    });
    let mut wish = order(Paper::A4, Audience::Private);
    wish.only = Some(vec!["protocol".to_owned()]);
    let archive = Archive {
        day: told.day(),
        digest: "0123abcd",
    };
    let papers = lay_with(told.facts(), Some(&archive), &wish).unwrap();
    let text = text_of(&papers[0].pages);
    for word in ["Annulled", "typed on the wrong line", "0123abcd", "Digest"] {
        assert!(text.contains(word), "{word}\n{text}");
    }
    let acts = &papers[0].tables.iter().find(|(s, _)| s == "protocol-acts");
    assert_eq!(acts.unwrap().1.len(), 1);
    let without = text_of(&lay(told.facts(), &wish).unwrap()[0].pages);
    assert!(without.contains("The journal wasn't at hand"), "{without}");
}

#[test]
fn a_certificate_hides_the_category_where_it_may_not_be_posted() {
    let mut told = meet();
    let shown = words(&told, "certificates");
    assert!(shown.contains("First place, total 143 kg"), "{shown}");
    assert!(shown.contains("category"), "{shown}");
    told.set("posting-category", "no");
    told.set("posting-bodyweight", "no");
    let hidden = words(&told, "certificates");
    assert!(!hidden.contains("category"), "{hidden}");
    assert!(hidden.contains("Adaeze Nwokoforah"), "{hidden}");
    assert!(!hidden.contains("61.8"), "{hidden}");
}

#[test]
fn only_a_stop_for_technique_or_pain_begins_an_incident_report() {
    let told = max_day();
    let text = words(&told, "incident-report");
    // The blank form, and the one stopped attempt of the day.
    assert_eq!(text.matches("no medical record").count(), 2, "{text}");
    assert!(text.contains("100 lb"), "{text}");
    assert_eq!(
        words(&meet(), "incident-report")
            .matches("Who was told")
            .count(),
        1
    );
}

#[test]
fn leaders_are_without_score_where_bodyweight_is_hidden() {
    let mut told = meet();
    let posted =
        |told: &Told| text_of(&paper(told, Audience::Posted, "leader-tables").pages);
    assert!(posted(&told).contains("188.730"));
    told.set("posting-bodyweight", "no");
    let hidden = posted(&told);
    assert!(
        !hidden.contains("188.730") && !hidden.contains("189.957"),
        "{hidden}"
    );
    assert!(
        hidden.contains("Only places by score are shown"),
        "{hidden}"
    );
}

/// A picture of 360 by 195 pixels, as the day keeps it.
fn picture() -> String {
    let file = include_bytes!("pictures/first-light.png");
    ready(file).unwrap().words()
}

#[test]
fn the_school_stands_at_the_head_of_every_page_and_moves_nothing() {
    let plain = meet();
    let mut told = meet();
    told.set("school", "Quillback High");
    told.set("picture", &picture());
    for audience in [Audience::Private, Audience::Posted] {
        for (own, before) in laid(&told, audience).iter().zip(laid(&plain, audience)) {
            assert_eq!(own.pages.len(), before.pages.len(), "{}", own.name);
            for (page, text) in own.pages.iter().zip(text_of(&own.pages).split('\u{c}')) {
                assert!(text.contains("Quillback High"), "{}: {text}", own.name);
                let pictures = page.items.iter().filter_map(|item| match item {
                    Item::Picture { w, h, .. } => Some((*w, *h)),
                    _ => None,
                });
                let pictures: Vec<(f32, f32)> = pictures.collect();
                // A head of one line has no room for it.
                let slim = text.lines().next().unwrap().contains(" · ")
                    && own.name != "certificates"
                    && !text.starts_with("Quillback High · ");
                assert_eq!(pictures.len(), usize::from(!slim), "{}: {text}", own.name);
                for (w, h) in pictures {
                    assert!((w / h - 360.0 / 195.0).abs() < 0.01, "{w} by {h}");
                    assert!(h <= 46.0 && w <= 90.0, "{w} by {h}");
                }
            }
        }
    }
    // Each file has it once, packed as it is kept.
    let wish = order(Paper::A4, Audience::Private);
    let with = make(told.facts(), &wish).unwrap();
    let without = make(plain.facts(), &wish).unwrap();
    let bytes = told.facts().school.picture.as_ref().unwrap().bytes.len();
    for (with, without) in with.iter().zip(&without) {
        let more = with.pdf.len().saturating_sub(without.pdf.len());
        assert!(more < bytes + 3_000, "{}: {more} more", with.name);
    }
    assert!(with == make(told.facts(), &wish).unwrap());
}
