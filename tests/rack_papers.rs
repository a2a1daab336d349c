//! The papers that hang at a rack: loading chart, safety sheet, judges' sheet.

// Helpers stand outside of a test's own functions.
#![allow(clippy::unwrap_used, clippy::expect_used, dead_code)]

#[path = "papers/days.rs"]
mod days;

use days::{NOW, Told, big, max_day, meet};
use maxday::bar::fewest;
use maxday::lift::catalogue;
use maxday::measure::{Mass, Unit};
use maxday::papers::documents::{Laid, Order, lay};
use maxday::papers::{Item, Paper, text_of};
use maxday::roster::Sex;
use maxday::sheets::{Audience, BAR_ALONE, NO_DISCS, Table, loading_chart};

fn paper(told: &Told, size: Paper, name: &str) -> Laid {
    let order = Order {
        size,
        audience: Audience::Posted,
        made: NOW,
        only: Some(vec![name.to_owned()]),
    };
    lay(told.facts(), &order).unwrap().remove(0)
}

/// Loads and sides of a chart, group by group.
fn chart(table: &Table) -> Vec<(String, Vec<(String, String)>)> {
    let group = |g: &maxday::sheets::Group| {
        let rows = g.rows.iter().map(|r| (r[1].shown(), r[3].shown()));
        (g.label.clone(), rows.collect())
    };
    table.groups.iter().map(group).collect()
}

#[test]
fn every_load_of_a_chart_is_made_by_its_discs() {
    for told in [max_day(), meet(), big(26, 3, &["back-squat", "deadlift"])] {
        let facts = told.facts();
        let table = loading_chart(facts);
        let mut groups = 0;
        for group in &table.groups {
            groups += 1;
            let bar = Mass::parse(&group.rows[0][1].shown(), facts.bar_unit).unwrap();
            assert_eq!(group.rows[0][3].shown(), BAR_ALONE);
            let discs = facts.discs(1);
            let mut before = None;
            for row in &group.rows {
                let load = Mass::parse(&row[1].shown(), facts.bar_unit).unwrap();
                let side = row[3].shown();
                let made = fewest(discs, bar, load);
                if side == NO_DISCS {
                    assert_eq!(made, None);
                } else if side != BAR_ALONE {
                    // The digits add up, and nothing makes it with fewer.
                    let side: Vec<Mass> = side
                        .split(" + ")
                        .map(|d| Mass::parse(d, facts.bar_unit).unwrap())
                        .collect();
                    let sum: Mass = side.iter().copied().sum();
                    assert_eq!(bar + sum + sum, load);
                    assert_eq!(side.len(), made.unwrap().len());
                    assert!(side.is_sorted_by(|a, b| a >= b));
                }
                let step = facts.rules.step;
                assert!(before.is_none_or(|b| b + step == load), "{load:?}");
                before = Some(load);
            }
        }
        assert!(groups > 0);
    }
}

#[test]
fn a_chart_has_one_part_a_bar_and_a_set_of_discs() {
    let mut told = Told::new("Bars", "max-day", Unit::Kg, &["deadlift"], 3);
    told.set("platform.1", "Rack 1");
    let bars = |told: &Told| -> Vec<String> {
        let parts = chart(&loading_chart(told.facts())).into_iter();
        parts.map(|(label, _)| label).collect()
    };
    // Nobody is entered: both bars of the rules.
    assert_eq!(bars(&told), ["the 15 kg bar", "the 20 kg bar"]);
    told.flight("A", 1);
    told.add(1, ("Ida", "Quist"), "A", &["150"]);
    told.body(1, Sex::M, "70", "10", "");
    assert_eq!(bars(&told), ["the 20 kg bar"]);
    told.set("bar.2", "10 kg");
    told.set("discs.3", "20x1 10x1");
    assert_eq!(
        bars(&told),
        [
            "the 10 kg bar, platform 2",
            "the 20 kg bar, Rack 1",
            "the 20 kg bar, platform 3"
        ]
    );
    // An opener of 150 and a tenth is 165; nothing is known of the other racks, so
    // 100 kg there, or what the discs make: 20 and 10 a side on 20 are 80.
    let parts = chart(&loading_chart(told.facts()));
    let last = |n: usize| parts[n].1.last().unwrap().0.clone();
    assert_eq!(
        (last(0), last(1), last(2)),
        ("100".into(), "165".into(), "80".into())
    );
    let side = |load: &str| {
        let rows = parts[2].1.iter();
        rows.clone().find(|(l, _)| l == load).unwrap().1.clone()
    };
    assert_eq!(
        (side("80").as_str(), side("70").as_str()),
        ("20 + 10", NO_DISCS)
    );
}

#[test]
fn a_pound_bar_with_kilogram_discs_has_a_chart() {
    let mut told = Told::new("Mixed", "max-day", Unit::Kg, &["deadlift"], 1);
    told.set("bar.1", "45 lb");
    let parts = chart(&loading_chart(told.facts()));
    // 45 lb are 20.41165665 kg; no multiple of 2.5 kg can be made on them.
    let first: Vec<(&str, &str)> = parts[0]
        .1
        .iter()
        .map(|(l, s)| (l.as_str(), s.as_str()))
        .take(3)
        .collect();
    assert_eq!(
        first,
        [("20.41", BAR_ALONE), ("22.91", "1.25"), ("25.41", "2.5")]
    );
    assert!(parts[0].1.iter().all(|(_, side)| side != NO_DISCS));
}

#[test]
fn a_chart_is_read_from_one_and_a_half_metres() {
    // A letter is read by normal sight at five minutes of arc (eye charts); twice
    // that at 1.5 m is 4.4 mm, and a capital is seven tenths of the type size.
    let least = 1500.0 * (10.0_f32 / 60.0).to_radians().tan();
    for told in [max_day(), meet(), big(70, 3, &["deadlift"])] {
        for size in [Paper::Letter, Paper::A4] {
            let paper = paper(&told, size, "loading-chart");
            let numbers =
                paper
                    .pages
                    .iter()
                    .flat_map(|p| &p.items)
                    .filter_map(|i| match i {
                        Item::Text {
                            text,
                            size,
                            bold: true,
                            ..
                        } if text.parse::<f32>().is_ok() => Some(*size),
                        _ => None,
                    });
            let sizes: Vec<f32> = numbers.collect();
            assert!(sizes.len() > 30);
            let millimetres = |points: f32| points * 0.71 * 25.4 / 72.0;
            assert!(sizes.iter().all(|s| millimetres(*s) >= least), "{sizes:?}");
        }
    }
}

#[test]
fn every_lift_of_the_catalogue_has_one_page_of_each() {
    let slugs: Vec<&str> = catalogue()
        .lifts()
        .iter()
        .map(|l| l.slug.as_str())
        .collect();
    for rules in ["max-day", "powerlifting"] {
        let mut told = Told::new("All", rules, Unit::Kg, &slugs, 1);
        told.set("wrong-catch", "reclassify");
        for size in [Paper::Letter, Paper::A4] {
            for name in ["safety-sheet", "judges-sheet"] {
                let paper = paper(&told, size, name);
                assert_eq!(paper.pages.len(), slugs.len(), "{name}");
                let text = text_of(&paper.pages);
                for (page, lift) in text.split('\u{c}').zip(catalogue().lifts()) {
                    assert!(page.contains(&format!(": {}", lift.name)), "{page}");
                    if name == "safety-sheet" {
                        let all = page.split_whitespace().collect::<Vec<_>>().join(" ");
                        assert!(
                            all.contains("the qualified supervisor on site come first")
                        );
                        assert!(
                            page.contains("Station check") && page.contains("Checked by")
                        );
                    } else {
                        let counted = lift.faults.iter().filter(|c| page.contains(*c));
                        assert_eq!(counted.count(), lift.faults.len(), "{page}");
                    }
                }
            }
        }
    }
}

#[test]
fn a_school_s_own_lift_has_its_pages_too() {
    let told = Told::new("Own", "max-day", Unit::Kg, &["x-tyre-flip", "deadlift"], 1);
    for (name, words) in [
        ("safety-sheet", "school's own lift"),
        ("judges-sheet", "The school's own lift"),
    ] {
        let paper = paper(&told, Paper::Letter, name);
        assert_eq!(paper.pages.len(), 2);
        assert!(text_of(&paper.pages).contains(words));
    }
}
