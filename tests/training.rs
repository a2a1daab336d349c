//! Training loads: what a share of a max is rounded down to.

// Helpers stand outside of a test's own functions.
#![allow(clippy::unwrap_used, clippy::expect_used, dead_code)]

#[path = "bin/mod.rs"]
mod bin;
#[path = "papers/days.rs"]
mod days;

use bin::{Folder, Sheet, has};
use days::{NOW, Told, big, hard, max_day, meet, slug};
use maxday::bar::{Discs, Loads, disc_sets, set_of_discs};
use maxday::day::{Event, RuledFact, Ruling, Source};
use maxday::measure::{Mass, Unit};
use maxday::papers::documents::{Order, lay};
use maxday::papers::{Face, Item, Page, Paper, text_of, width};
use maxday::roster::{EntryKey, Sex};
use maxday::rules::{format_named, formats};
use maxday::sheets::{
    Audience, BAR, Cell, Share, SquadBy, next_opener_percent, training_percents,
    training_rows, training_table,
};

fn mass(text: &str, unit: Unit) -> Mass {
    Mass::parse(text, unit).unwrap()
}

/// Every load that the discs make on a bar, by trying every choice of discs.
fn brute(discs: &Discs, bar: Mass) -> Vec<i64> {
    let mut sides: Vec<i64> = vec![0];
    for (disc, pairs) in discs.kinds() {
        let more = sides.iter().flat_map(|side| {
            (0..=i64::from(*pairs)).map(move |n| side + n * disc.mass.counts())
        });
        sides = more.collect();
    }
    let mut loads: Vec<i64> = sides.iter().map(|s| bar.counts() + 2 * s).collect();
    loads.sort_unstable();
    loads.dedup();
    loads
}

/// All bars of the shipped rules, with collars, and those that are usual in gyms.
fn bars() -> Vec<Mass> {
    let mut bars = vec![
        mass("15", Unit::Kg),
        mass("20", Unit::Kg),
        mass("35", Unit::Lb),
        mass("45", Unit::Lb),
    ];
    for format in formats() {
        for unit in [Unit::Kg, Unit::Lb] {
            let rules = format.rules(unit).unwrap();
            bars.extend([rules.bar_f, rules.bar_m]);
        }
    }
    bars.sort_unstable();
    bars.dedup();
    bars
}

/// Every max from 20 to 300 kg in half kilograms, and from 45 to 600 lb in pounds.
fn every_max() -> Vec<(Mass, Unit)> {
    let half = mass("0.5", Unit::Kg).counts();
    let kg = (40..=600).map(|n| (Mass::from_counts(n * half), Unit::Kg));
    let lb = (45..=600).map(|n| (Mass::whole(n, Unit::Lb), Unit::Lb));
    kg.chain(lb).collect()
}

#[test]
fn no_load_is_printed_that_the_discs_cannot_make() {
    let maxes = every_max();
    assert_eq!(maxes.len(), 561 + 556);
    let bars = bars();
    assert_eq!(bars.len(), 6, "{bars:?}");
    let mut percents: Vec<u8> = (1..=100).collect();
    percents.extend([105, 110, 120, 150]);
    assert!(training_percents().iter().all(|p| percents.contains(p)));
    let (mut tried, mut below) = (0_u32, 0_u32);
    for set in disc_sets() {
        for bar in &bars {
            let loads = Loads::new(&set.discs, *bar);
            let made = brute(&set.discs, *bar);
            for (max, unit) in &maxes {
                for percent in &percents {
                    // The share in ten-trillionths of a kilogram, never rounded.
                    let share = i128::from(max.counts()) * i128::from(*percent);
                    let fits = |load: &&i64| i128::from(**load) * 100 <= share;
                    let want = made.partition_point(|load| fits(&load));
                    let found = Share::of(*max, *percent, &loads);
                    let place = || {
                        let max = max.show_with_unit(*unit);
                        format!("{} on {bar:?}: {percent} % of {max}", set.name)
                    };
                    tried += 1;
                    match (want.checked_sub(1), found) {
                        (None, Share::Bar) => {
                            below += 1;
                            assert!(share < i128::from(bar.counts()) * 100);
                            assert_eq!(found.cell(*unit), Cell::text(BAR));
                        }
                        (Some(at), Share::Load(load)) => {
                            assert_eq!(load.counts(), made[at], "{}", place());
                        }
                        _ => panic!("{}: {found:?}", place()),
                    }
                }
            }
        }
    }
    assert_eq!(tried, 4 * 6 * 1117 * 104);
    assert!(below > 100_000, "{below}");
}

/// What stands in the cells is what the discs make, digit by digit, in the unit
/// that the discs are in.
#[test]
fn the_digits_in_a_cell_are_a_load_too() {
    for set in disc_sets() {
        let unit = set.discs.kinds()[0].0.unit;
        let bars = bars().into_iter();
        // A bar of the other unit has no short number in this one.
        for bar in bars.filter(|b| b.exact(unit).is_some_and(|t| t.len() < 6)) {
            let loads = Loads::new(&set.discs, bar);
            let made = brute(&set.discs, bar);
            for (max, _) in every_max().into_iter().filter(|(_, u)| *u == unit) {
                for percent in training_percents() {
                    let cell = Share::of(max, *percent, &loads).cell(unit);
                    for shown in [cell.shown(), cell.csv()[0].clone()] {
                        if shown == BAR {
                            assert!(max.percent(i64::from(*percent)) < bar);
                        } else {
                            let load = mass(&shown, unit).counts();
                            assert!(made.binary_search(&load).is_ok(), "{shown}");
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn a_suggested_opener_is_a_load_in_the_days_step() {
    for format in formats() {
        for unit in [Unit::Kg, Unit::Lb] {
            let rules = format.rules(unit).unwrap();
            for bar in [rules.bar_f, rules.bar_m] {
                let loads = Loads::new(&rules.discs.1, bar);
                let made = brute(&rules.discs.1, bar);
                for (max, _) in every_max().into_iter().filter(|(_, u)| *u == unit) {
                    let share =
                        i128::from(max.counts()) * i128::from(next_opener_percent());
                    let step = rules.step.counts();
                    let fits = |load: &&i64| {
                        i128::from(**load) * 100 <= share
                            && (*load % step == 0 || **load == bar.counts())
                    };
                    let want = made.iter().rfind(fits);
                    let found = Share::opener(max, &loads, rules.step);
                    let found = match found {
                        Share::Bar => None,
                        Share::Load(load) => Some(load.counts()),
                    };
                    assert_eq!(found.as_ref(), want, "{} {max:?}", format.name);
                }
            }
        }
    }
}

/// Whole days: each row's loads are made by the discs of the athlete's own platform
/// on the athlete's own bar.
#[test]
fn every_load_of_a_day_is_made_where_the_athlete_lifts() {
    let mut mixed = big(26, 3, &["power-clean", "back-squat"]);
    mixed.set("discs.2", "45x1 25x1 10x1");
    mixed.set("bar.3", "35 lb");
    let mut rows = 0;
    for told in [max_day(), meet(), hard(), mixed] {
        let facts = told.facts();
        for row in training_rows(facts, training_percents()) {
            let entry = &facts.entries[&row.entry];
            let platform = facts.platform_of(entry).unwrap();
            assert_eq!(row.bar, facts.empty_bar(platform, entry));
            let made = brute(facts.discs(platform), row.bar);
            for share in row.shares.iter().chain([&row.opener]) {
                if let Share::Load(load) = share {
                    assert!(made.binary_search(&load.counts()).is_ok(), "{row:?}");
                }
            }
            rows += 1;
        }
    }
    assert!(rows > 60, "{rows}");
}

/// One athlete in one lift, worked by hand.
#[test]
fn a_worked_example() {
    // A max of 82.5 kg on a bar of 20 kg with the gym's kilogram discs, of which
    // the smallest pair is 1.25 kg: loads come in steps of 2.5 kg.
    //   50 %  41.25   so 40      75 %  61.875  so 60
    //   55 %  45.375  so 45      80 %  66      so 65
    //   60 %  49.5    so 47.5    85 %  70.125  so 70
    //   65 %  53.625  so 52.5    90 %  74.25   so 72.5
    //   70 %  57.75   so 57.5    95 %  78.375  so 77.5
    let loads = |text: &str, max: &str, unit| -> Vec<String> {
        let set = if unit == Unit::Kg { "gym-kg" } else { "gym-lb" };
        let loads = Loads::new(&set_of_discs(set).unwrap().discs, mass(text, unit));
        let max = mass(max, unit);
        let shares = training_percents()
            .iter()
            .map(|p| Share::of(max, *p, &loads));
        shares.map(|share| share.cell(unit).shown()).collect()
    };
    assert_eq!(
        loads("20", "82.5", Unit::Kg),
        [
            "40", "45", "47.5", "52.5", "57.5", "60", "65", "70", "72.5", "77.5"
        ]
    );
    // A max of 85 lb on a bar of 45 lb: 50 % are 42.5, less than the bar; 55 % are
    // 46.75, the bar with nothing on it; 60 % are 51, so 50; 65 % 55.25, so 55;
    // 70 % 59.5, so 55; 75 % 63.75, so 60; 80 % 68, so 65; 85 % 72.25, so 70;
    // 90 % 76.5, so 75; 95 % 80.75, so 80.
    assert_eq!(
        loads("45", "85", Unit::Lb),
        ["bar", "45", "50", "55", "55", "60", "65", "70", "75", "80"]
    );
}

/// The load that a rack can carry ends, and the sheet says so.
#[test]
fn a_rack_without_enough_discs_is_marked() {
    let mut told = Told::new("Small", "max-day", Unit::Kg, &["deadlift"], 1);
    told.set("discs.1", "20x1 10x1");
    told.flight("A", 1);
    told.add(1, ("Ida", "Quist"), "A", &["80"]);
    told.body(1, Sex::M, "70", "10", "");
    told.lifts(1, "deadlift", &["80"]);
    // The bar of 20 with both discs is 80; 95 % of it are 76, so 60.
    let rows = training_rows(told.facts(), &[95]);
    assert_eq!(rows[0].shares, [Share::Load(mass("60", Unit::Kg))]);
    assert!(!rows[0].short);
    assert!(training_rows(told.facts(), &[105])[0].short);
}

fn several(told: &mut Told, number: u16, lift: &str, attempt: u8, load: &str, reps: u8) {
    let load = Some(told.weight(load));
    told.tell(Event::Ruled(Box::new(RuledFact {
        entry: EntryKey(u32::from(number)),
        slot: slug(lift),
        lift: slug(lift),
        attempt,
        session: "1".to_owned(),
        flight: "A".to_owned(),
        requested: load.clone(),
        loaded: load.clone(),
        credited: load,
        ruling: Ruling::Good,
        lights: Vec::new(),
        faults: Vec::new(),
        called_at: None,
        reps,
        source: Source::Card,
        reason: String::new(),
    })));
}

#[test]
fn estimates_are_marked_and_give_way_to_a_test() {
    let mut told = Told::new("Reps", "max-day", Unit::Kg, &["back-squat"], 1);
    told.set("reps", "multiple");
    told.flight("A", 1);
    for number in [1, 2] {
        told.add(number, ("Ida", "Quist"), "A", &["80"]);
        told.body(number, Sex::M, "70", "10", "");
        several(&mut told, number, "back-squat", 1, "80", 5);
    }
    several(&mut told, 2, "back-squat", 2, "90", 1);
    let rows = training_rows(told.facts(), &[90]);
    // By hand: 80 / 0.87 (NSCA load chart, 5 repetitions) = 91.954, cut to 91.9;
    // 90 % are 82.71, so 82.5 from discs of 20 10 1.25 a side; 90 % of 90 are 81.
    assert!(rows[0].max.estimated && !rows[1].max.estimated);
    let loads = |n: usize| rows[n].shares[0].cell(Unit::Kg).shown();
    assert_eq!((loads(0).as_str(), loads(1).as_str()), ("82.5", "80"));
    let table = training_table(told.facts(), &[90], SquadBy::Grade);
    let at = |key: &str| table.columns.iter().position(|c| c.key == key).unwrap();
    let cells = &table.groups[0].rows;
    assert_eq!(cells[0][at("max")].shown(), "est. 91.9");
    assert_eq!(cells[0][at("max from")].shown(), "estimate");
    assert_eq!(cells[1][at("max from")].shown(), "test");
}

#[test]
fn squads_are_teams_else_grades_else_flights() {
    let told = max_day();
    let facts = told.facts();
    assert_eq!(SquadBy::of(facts), SquadBy::Team);
    let labels = |by| -> Vec<String> {
        let table = training_table(facts, training_percents(), by);
        table.groups.into_iter().map(|g| g.label).collect()
    };
    assert_eq!(
        labels(SquadBy::Team),
        ["Otters rugby", "Otters track", "no team"]
    );
    // Numbers by their value: 9 before 10.
    assert_eq!(
        labels(SquadBy::Grade),
        ["grade 9", "grade 10", "grade 11", "grade 12"]
    );
    assert_eq!(labels(SquadBy::Flight), ["flight A"]);
    let plain = Told::new("Plain", "max-day", Unit::Kg, &["deadlift"], 1);
    assert_eq!(SquadBy::of(plain.facts()), SquadBy::Flight);
}

#[test]
fn variants_are_different_lifts() {
    let told = max_day();
    let rows = training_rows(told.facts(), &[100]);
    let of = |number: u32| -> Vec<(String, String)> {
        let own = rows.iter().filter(|r| r.entry == EntryKey(number));
        own.map(|r| {
            let max = &r.max;
            (max.lift.to_string(), max.mass.show(Unit::Lb))
        })
        .collect()
    };
    let pair = |lift: &str, load: &str| (lift.to_owned(), load.to_owned());
    // A no lift at 165 is no max; neither is one that was stopped.
    assert_eq!(
        of(4),
        [pair("power-clean", "155"), pair("back-squat", "225")]
    );
    assert_eq!(of(7), [pair("hang-power-clean", "90")]);
    assert_eq!(of(12), [pair("power-clean", "95")]);
    assert_eq!(of(21), []);
    let bars: Vec<Mass> = rows.iter().map(|r| r.bar).collect();
    let rules = format_named("max-day").unwrap().rules(Unit::Lb).unwrap();
    assert!(bars.iter().all(|bar| *bar == rules.bar_f));
}

/// The sheets of athletes whose names fill two lines, on this size of paper.
fn long_names(size: Paper) -> Vec<Page> {
    let mut told = big(12, 3, &["power-clean", "back-squat", "bench-press"]);
    for number in 13..=20 {
        let name = ("Maximiliana-Konstantina", "Featherstonehaugh-Wierzbicka");
        told.add(number, name, "A", &["45", "95", "70"]);
        told.body(number, Sex::F, "131.5", "10", "Otters track and field");
        for lift in ["power-clean", "back-squat", "bench-press"] {
            told.lifts(number, lift, &["45"]);
        }
    }
    let order = Order {
        size,
        audience: Audience::Private,
        made: NOW,
        only: Some(vec!["training-sheets".to_owned()]),
    };
    let papers = lay(told.facts(), &order).unwrap();
    let found = papers.into_iter().find(|p| p.name == "training-sheets");
    found.unwrap().pages
}

#[test]
fn a_long_name_costs_no_card_its_place() {
    for size in [Paper::Letter, Paper::A4] {
        let pages = long_names(size);
        let text = text_of(&pages);
        assert!(text.contains("Maximiliana-Konstantina\n"), "{text}");
        let cards = text.matches("\nMax  ").count();
        assert_eq!(cards, 16, "{text}");
        assert_eq!(pages.len(), cards.div_ceil(4), "{text}");
        // A lift stands at the same place on every card of a column.
        for page in &pages {
            for half in [true, false] {
                let ends: Vec<f32> = ends(page, "press")
                    .into_iter()
                    .filter(|x| (*x < page.width / 2.0) == half)
                    .collect();
                let spread = ends.iter().fold(0.0_f32, |s, x| s.max((x - ends[0]).abs()));
                assert!(ends.len() == 2 && spread < 1.0, "{ends:?}");
            }
        }
    }
}

/// Where the texts that end so end, in points from the left.
fn ends(page: &Page, word: &str) -> Vec<f32> {
    let items = page.items.iter().filter_map(|item| match item {
        Item::Text {
            x,
            text,
            size,
            bold,
            ..
        } if text.ends_with(word) => Some(x + width(text, *size, Face::of(*bold))),
        _ => None,
    });
    items.collect()
}

#[test]
fn the_verb_prints_loads_and_refuses_what_it_cannot() {
    let folder = Folder::new();
    let _ = folder.ok("new day.maxday --format max-day --unit kg --lifts back-squat");
    folder.write(
        "roster.csv",
        "lot,name,sex,team,flight,back squat\n1,Ann Lee,F,Otters,A,60\n2,Bo Li,M,Voles,A,100\n",
    );
    let _ = folder.ok("roster day.maxday roster.csv");
    folder.write(
        "acts.csv",
        "act,athlete,lift,load,detail\ntally,1,back-squat,62.5,good\ntally,2,back-squat,110,good\n",
    );
    let _ = folder.ok("apply day.maxday acts.csv");
    let all = Sheet::read(&folder.ok("training day.maxday"));
    assert_eq!(all.all("lot"), ["1", "2"]);
    assert_eq!(all.all("max"), ["62.5", "110"]);
    assert_eq!(all.all("bar"), ["15", "20"]);
    // By hand: 95 % of 62.5 are 59.375, so 57.5 on the bar of 15 (side 21.25);
    // 95 % of 110 are 104.5, so 102.5 on the bar of 20.
    assert_eq!(all.all("95 %"), ["57.5", "102.5"]);
    assert_eq!(all.all("next opener"), ["55", "97.5"]);
    let some =
        Sheet::read(&folder.ok("training day.maxday --team otters --percent 70,20,70"));
    assert_eq!(some.all("name"), ["Ann Lee"]);
    // 20 % are 12.5, less than the bar; 70 % are 43.75, so 42.5.
    assert_eq!(
        (some.all("20 %"), some.all("70 %")),
        (vec!["bar"], vec!["42.5"])
    );
    for (options, parts) in [
        ("--percent 60,seventy", ["“seventy”", "1 to 150"]),
        ("--percent 72.5", ["“72.5”", "whole numbers"]),
        ("--team owls", ["“owls”", "Otters, Voles"]),
        ("--posted", ["never posted", "leave --posted out"]),
    ] {
        has(
            &folder.no(&format!("training day.maxday {options}")),
            &parts,
        );
    }
}
