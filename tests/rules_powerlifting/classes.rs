//! Bodyweight classes, age groups and the weigh-in.

use maxday::measure::{Mass, Unit};
use maxday::rules::{Sex, ages_named, newest_set, set_named};

use super::Table;
use super::script::day_of;

/// Checks every edge of a list: x.00 is still in the class, x.01 in the next.
fn edges(set: &str, sex: Sex, ages: &str, labels: &str) {
    let set = set_named(set).unwrap();
    let labels: Vec<&str> = labels.split_whitespace().collect();
    let kg = |text: &str| Mass::parse(text, Unit::Kg).unwrap();
    let class = |text: &str| set.class(sex, ages, kg(text)).unwrap().1.to_owned();
    for pair in labels.windows(2) {
        let limit = pair[0];
        let hundredth = |text: &str| match text.split_once('.') {
            Some((whole, _)) => format!("{whole}.51"),
            None => format!("{text}.01"),
        };
        assert_eq!(class(limit), limit, "{} {sex} {limit}", set.name);
        let above = hundredth(limit);
        assert_eq!(class(&above), pair[1], "{} {sex} {above}", set.name);
    }
    let group = set.group(sex, ages).unwrap();
    assert_eq!(group.limits.len() + 1, labels.len(), "{} {sex}", set.name);
    assert_eq!(group.open, *labels.last().unwrap());
}

#[test]
fn the_ipfs_classes_to_2010_include_their_limits() {
    // IPF classes before 2011, as a published encyclopedia copy gives them;
    // limits up to and including x.00: World Para Powerlifting and an
    // affiliate's page.
    let men = "52 56 60 67.5 75 82.5 90 100 110 125 125+";
    let women = "44 48 52 56 60 67.5 75 82.5 90 90+";
    edges("ipf-2010", Sex::M, "usual", men);
    edges("ipf-2010", Sex::F, "usual", women);
}

#[test]
fn the_ipfs_classes_from_2011_to_2020_include_their_limits() {
    // IPF General Assembly decisions of 2010.
    edges("ipf-2011", Sex::M, "usual", "59 66 74 83 93 105 120 120+");
    edges("ipf-2011", Sex::F, "usual", "47 52 57 63 72 84 84+");
}

#[test]
fn the_ipfs_classes_from_2021_include_their_limits() {
    // Affiliates' pages; the women's 69 and 76 are from memory, that there
    // are eight open women's classes was read.
    edges("ipf-2021", Sex::M, "usual", "59 66 74 83 93 105 120 120+");
    edges("ipf-2021", Sex::F, "usual", "47 52 57 63 69 76 84 84+");
}

#[test]
fn juniors_have_one_lighter_class_more() {
    // IPF General Assembly decisions of 2010 and affiliates' pages: 53 for
    // boys, 43 for girls; nine classes for junior women from 2021.
    edges(
        "ipf-2011",
        Sex::M,
        "junior",
        "53 59 66 74 83 93 105 120 120+",
    );
    edges("ipf-2011", Sex::F, "junior", "43 47 52 57 63 72 84 84+");
    edges(
        "ipf-2021",
        Sex::M,
        "junior",
        "53 59 66 74 83 93 105 120 120+",
    );
    edges("ipf-2021", Sex::F, "junior", "43 47 52 57 63 69 76 84 84+");
    let mut table = Table::power();
    table.enter("1 A 50 30 60; sex=F; bodyweight=42.5");
    table.play(
        "set|||||categories=ipf
        ? groups: F 47: 1
        set|||||age-group=junior
        ? groups: F 43: 1",
    );
}

#[test]
fn world_para_powerliftings_classes_include_their_limits() {
    // World Para Powerlifting, published list of classes: up to and including
    // x.00; the next begins at x.01.
    let men = "49 54 59 65 72 80 88 97 107 107+";
    let women = "41 45 50 55 61 67 73 79 86 86+";
    edges("world-para", Sex::M, "usual", men);
    edges("world-para", Sex::F, "usual", women);
}

#[test]
fn the_day_picks_the_set_of_the_ipf() {
    // IPF: classes of 2011 from 1 January 2011, of 2021 from 1 January 2021.
    let on = |day: &str| {
        newest_set("ipf", "usual", day_of(day))
            .unwrap()
            .name
            .clone()
    };
    assert_eq!(on("2010-12-31"), "ipf-2010");
    assert_eq!(on("2011-01-01"), "ipf-2011");
    assert_eq!(on("2020-12-31"), "ipf-2011");
    assert_eq!(on("2021-01-01"), "ipf-2021");
    assert_eq!(on("2026-11-21"), "ipf-2021");
}

/// The age groups of somebody born on a day.
fn ages(born: &str, day: &str) -> Vec<String> {
    use chrono::Datelike;
    let (born, day) = (day_of(born), day_of(day));
    let set = ages_named("ipf").unwrap();
    let groups = set.groups_of(born.year(), Some(born), day);
    groups.map(|g| g.name.clone()).collect()
}

#[test]
fn age_groups_go_by_the_fourteenth_birthday_and_then_by_the_year() {
    // IPF Technical Rules 2007, article 1, and affiliates' pages: open and
    // sub-junior from the 14th birthday, sub-junior to the end of the year of
    // 18, junior 19 to 23, masters 40-49, 50-59, 60-69, 70 and over.
    let day = "2026-11-21";
    assert_eq!(ages("2012-11-22", day), Vec::<String>::new());
    assert_eq!(ages("2012-11-21", day), ["Open", "Sub-junior"]);
    assert_eq!(ages("2008-01-01", day), ["Open", "Sub-junior"]);
    assert_eq!(ages("2007-12-31", day), ["Open", "Junior"]);
    assert_eq!(ages("2003-01-01", day), ["Open", "Junior"]);
    assert_eq!(ages("2002-12-31", day), ["Open"]);
    assert_eq!(ages("1987-01-01", day), ["Open"]);
    for (born, group) in [
        ("1986-12-31", "Master I"),
        ("1977-01-01", "Master I"),
        ("1976-12-31", "Master II"),
        ("1967-01-01", "Master II"),
        ("1966-12-31", "Master III"),
        ("1957-01-01", "Master III"),
        ("1956-12-31", "Master IV"),
        ("1940-01-01", "Master IV"),
    ] {
        assert_eq!(ages(born, day), ["Open", group], "{born}");
    }
}

#[test]
fn an_entry_stands_in_its_age_groups_too() {
    // IPF Technical Rules 2007, article 1: a junior is in the open too.
    let mut table = Table::power();
    table.enter(
        "1 A 50 30 60; sex=F; born=2005-03-01
        2 A 50 30 60; sex=F; born=1980-03-01",
    );
    table.play("? divisions: F Open: 1 2; F Junior: 1; F Master I: 2");
}

#[test]
fn weigh_in_opens_two_hours_before_and_lasts_an_hour_and_a_half() {
    // WDFPF 2007 and national guides.
    Table::power().play(
        "? weigh-in 1: none
        set|||||session.1=\"10:00-13:00\"
        ? weigh-in 1: 08:00-09:30
        ? before 1: none none",
    );
}

#[test]
fn a_second_weighing_inside_the_weigh_in_counts() {
    // WDFPF 2007 and national guides: re-weighing is allowed inside it.
    let mut table = Table::power();
    table.enter("1 A 50 30 60; sex=M");
    table.play(
        "set|||||categories=ipf
        weigh|1|||74.02
        ? groups: M 83: 1
        weigh|1|||74
        ? groups: M 74: 1",
    );
}

#[test]
fn a_bar_is_twenty_five_kilograms_with_its_collars() {
    // WDFPF 2007 and a rendering of the IPF's equipment rules. It is data.
    Table::power().play(
        "? rule bar-f: 25 kg
        ? rule bar-m: 25 kg
        set|||||bar-m=20 kg
        ? rule bar-m: 20 kg",
    );
}

#[test]
fn the_published_discs_load_every_step_and_every_record() {
    // A rendering of the IPF's equipment rules: 1.25 2.5 5 10 15 20 25 kg and
    // record chips; from the bar of 25 kg by 2.5 kg, and by 0.5 kg for records.
    use maxday::bar::{fewest, set_of_discs};
    let discs = &set_of_discs("powerlifting").unwrap().discs;
    for disc in ["1.25", "2.5", "5", "10", "15", "20", "25"] {
        let known = discs.kinds().iter().any(|(w, _)| w.typed == disc);
        assert!(known, "{disc}");
    }
    let kg = |text: &str| Mass::parse(text, Unit::Kg).unwrap();
    let (mut load, step) = (kg("27.5"), kg("0.5"));
    while load <= kg("300") {
        assert!(fewest(discs, kg("25"), load).is_some(), "{load:?}");
        load = load + step;
    }
}
