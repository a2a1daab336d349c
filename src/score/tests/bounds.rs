//! Who gets no number, and what is said instead.

use super::*;

use Formula::{Allometric, Dots, IpfGl, Ratio, Robi, Sinclair, Wilks, Wilks2020};
use Sex::{F, M};

#[track_caller]
fn none(scoring: &Scoring, lifted: &Lifted<'_>, sentence: &str) {
    let why = scoring.score(lifted).unwrap_err();
    assert_eq!(why.to_string(), sentence);
}

#[test]
fn every_file_reads_and_says_what_it_is() {
    assert_eq!(formulas().len(), 8);
    for formula in formulas() {
        let about = formula.about();
        assert_eq!(about.name, formula.name());
        assert_eq!(Formula::parse(&formula.name().to_uppercase()), Ok(*formula));
        for text in [
            &about.title,
            &about.purpose,
            &about.bounds,
            &about.valid,
            &about.source,
        ] {
            assert!(!text.is_empty(), "{formula:?}");
        }
        let partly =
            !matches!(about.certainty, Certainty::Checked | Certainty::Published);
        assert!(!partly || !about.memory.is_empty(), "{formula:?}");
        assert!(about.heaviest() == kg("300"), "{formula:?}");
        let memory = &about.memory;
        assert!(memory.is_empty() || memory.ends_with('.'), "{formula:?}");
    }
    assert_eq!(cycles().len(), 6);
    for sex in [F, M] {
        for equipment in [Equipment::Classic, Equipment::Equipped] {
            for bench in [false, true] {
                assert!(gl_set(sex, equipment, bench).is_some());
            }
        }
        for which in [Polynomial::Dots, Polynomial::Wilks, Polynomial::Wilks2020] {
            assert!(curve(which, sex).terms.len() >= 5);
        }
    }
    assert_eq!(age_lists().len(), 4);
    assert!(age_lists().iter().all(|l| l.ages().len() > 40));
    assert!(gl_from().is_some());
    assert_eq!(
        Formula::parse("points").unwrap_err().to_string(),
        "“points” is no formula; allowed: ratio, allometric, sinclair, robi, ipf-gl, dots, \
         wilks, wilks-2020."
    );
}

#[test]
fn outside_its_bodies_a_formula_gives_a_reason() {
    // IWF Sinclair page: tables from 32.0 kg for men and 28.0 kg for women.
    for (sex, body, ok) in [
        (M, "32", true),
        (M, "31.99", false),
        (F, "28", true),
        (F, "27.99", false),
    ] {
        let score = Scoring::new(Sinclair).score(&total(sex, body, "60"));
        assert_eq!(score.is_ok(), ok, "{sex} {body}");
    }
    none(
        &Scoring::new(Sinclair),
        &total(M, "30", "60"),
        "A bodyweight of 30 kg is outside the bounds of the formula sinclair; allowed for \
         men and boys: 32 to 300 kg.",
    );
    // From memory: IPF GL points are not defined below 35 kg.
    none(
        &Scoring::new(IpfGl),
        &total(F, "34.9", "60"),
        "A bodyweight of 34.9 kg is outside the bounds of the formula ipf-gl; allowed for \
         women and girls: 35 to 300 kg.",
    );
    for formula in [Ratio, Allometric, Dots, Wilks, Wilks2020] {
        for (body, ok) in [
            ("14.9", false),
            ("15", true),
            ("300", true),
            ("300.1", false),
        ] {
            let score = Scoring::new(formula).score(&total(M, body, "60"));
            assert_eq!(score.is_ok(), ok, "{formula:?} {body}");
        }
    }
}

#[test]
fn dots_and_wilks_stand_still_beyond_their_bodies() {
    // DOTS: checked against a public table of results; Wilks: from memory.
    for (formula, sex, light, heavy) in [
        (Dots, M, "40", "210"),
        (Dots, F, "40", "150"),
        (Wilks, M, "40", "201.9"),
        (Wilks, F, "26.51", "154.53"),
        (Wilks2020, M, "40", "200.95"),
        (Wilks2020, F, "40", "150.95"),
    ] {
        let at = |body| of(formula, sex, body, "200").value.to_bits();
        assert_eq!(at("15"), at(light), "{formula:?} {sex}");
        assert_eq!(at("300"), at(heavy), "{formula:?} {sex}");
        let bits = |text: &str, by: i64| {
            let mut lifted = total(sex, text, "200");
            let edge = kg(text).counts() + by * 10_000_000_000;
            lifted.bodyweight = Some(Mass::from_counts(edge));
            Scoring::new(formula).score(&lifted).unwrap().value
        };
        assert!(bits(light, 1) < bits(light, 0), "{formula:?} {sex}");
        assert!(bits(heavy, -1) > bits(heavy, 0), "{formula:?} {sex}");
    }
}

#[test]
fn what_is_missing_is_named() {
    let mut lifted = total(M, "80", "200");
    lifted.sex = None;
    none(
        &Scoring::new(Dots),
        &lifted,
        "The formula dots needs the sex: F or M.",
    );
    // These compare without it.
    assert!(Scoring::new(Ratio).score(&lifted).is_ok());
    assert!(Scoring::new(Allometric).score(&lifted).is_ok());
    lifted.bodyweight = None;
    none(
        &Scoring::new(Ratio),
        &lifted,
        "The formula ratio needs a bodyweight.",
    );
    let mut lifted = total(M, "80", "0");
    none(
        &Scoring::new(Ratio),
        &lifted,
        "There is no load to score; it has to be above 0.",
    );
    lifted.load = kg("100");
    lifted.event = Event::Lift("bench-press");
    none(
        &Scoring::new(Sinclair),
        &lifted,
        "The formula sinclair is for a total, not for a single lift.",
    );
    assert!(Scoring::new(IpfGl).score(&lifted).is_ok());
    lifted.event = Event::Lift("back-squat");
    none(
        &Scoring::new(IpfGl),
        &lifted,
        "The formula ipf-gl is for a total or the bench press.",
    );
    lifted.event = Event::Total;
    lifted.day = in_year(1999);
    none(
        &Scoring::new(Sinclair),
        &lifted,
        "The formula sinclair has constants for days from 2001 on, not for 1999.",
    );
}

#[test]
fn robi_goes_by_the_record_of_the_category() {
    let mut scoring = Scoring::new(Robi);
    let mut lifted = total(M, "70", "150");
    none(
        &scoring,
        &lifted,
        "The formula robi needs a table of records by category.",
    );
    scoring.records = Some(
        ClassRecords::read(
            "[[class]]\nsex = \"M\"\ncategory = 71\nrecord = 300\n\
             [[class]]\nsex = \"M\"\ncategory = \"+71\"\nrecord = \"330.5\"\n",
        )
        .unwrap(),
    );
    // Half the record is 100 points.
    assert_eq!(scoring.score(&lifted).unwrap().shown(), "100.00");
    lifted.bodyweight = Some(kg("71.01"));
    lifted.load = kg("330.5");
    assert_eq!(scoring.score(&lifted).unwrap().shown(), "1000.00");
    // The category of the day comes before the bodyweight; it needs no scale.
    lifted.bodyweight = None;
    lifted.category = Some("71");
    lifted.load = kg("300");
    assert_eq!(scoring.score(&lifted).unwrap().shown(), "1000.00");
    lifted.category = Some("71+");
    assert!(scoring.score(&lifted).is_ok());
    lifted.category = Some("60");
    none(
        &scoring,
        &lifted,
        "The table of records has no category for M 60.",
    );
    lifted.category = None;
    lifted.sex = Some(F);
    lifted.bodyweight = Some(kg("50"));
    none(
        &scoring,
        &lifted,
        "The table of records has no category for F at 50 kg.",
    );
}

#[test]
fn a_table_of_records_says_what_is_wrong() {
    let why = |text: &str| ClassRecords::read(text).unwrap_err();
    assert_eq!(why(""), RecordError::Empty);
    assert!(matches!(why("x = 1"), RecordError::Shape(_)));
    let row = |sex: &str, category: &str, record: &str| {
        let mut records = ClassRecords::default();
        records.add("F", "+87", "200", Unit::Kg).unwrap();
        records.add(sex, category, record, Unit::Kg).unwrap_err()
    };
    assert_eq!(row("X", "63", "100"), RecordError::Sex("X".into()));
    assert_eq!(
        row("F", "light", "1"),
        RecordError::Category("light".into())
    );
    assert_eq!(row("F", "63", "0"), RecordError::Record("0".into()));
    assert_eq!(row("F", "87 +", "210"), RecordError::Twice("F +87".into()));
    // A table in pounds.
    let text = "unit = \"lb\"\n[[class]]\nsex = \"F\"\ncategory = 132\nrecord = 300";
    let records = ClassRecords::read(text).unwrap();
    assert_eq!(
        records.of_bodyweight(F, Mass::whole(132, Unit::Lb)),
        Some(Mass::whole(300, Unit::Lb))
    );
    assert_eq!(records.of_bodyweight(F, kg("60")), None);
}

#[test]
fn ages_count_only_where_switched_on_and_known() {
    let mut scoring = Scoring::new(Wilks);
    let mut lifted = total(M, "83", "600");
    lifted.age = Some(55);
    let plain = scoring.score(&lifted).unwrap().value;
    assert_eq!(scoring.header(), "wilks");
    scoring.ages = true;
    let aged = scoring.score(&lifted).unwrap().value;
    assert_eq!(aged.to_bits(), (plain * 1.225).to_bits());
    assert_eq!(scoring.header(), "wilks with age");
    lifted.age = Some(13);
    none(
        &scoring,
        &lifted,
        "There is no age factor for 13 years; there is one for 14 to 80, 85, 90.",
    );
    lifted.age = Some(82);
    assert!(scoring.score(&lifted).is_err());
    lifted.age = None;
    none(&scoring, &lifted, "An age factor needs the year of birth.");
    scoring.formula = Ratio;
    none(
        &scoring,
        &lifted,
        "No age factors go with the formula ratio; they do with sinclair, ipf-gl, dots, \
         wilks, wilks-2020.",
    );
    scoring.formula = Sinclair;
    lifted.age = Some(91);
    none(
        &scoring,
        &lifted,
        "There is no age factor for 91 years; there is one for up to 90.",
    );
}

#[test]
fn exponents_can_be_changed() {
    let shipped = Exponents::shipped();
    assert_eq!(shipped.of(Some("back-squat")).to_string(), "0.496");
    assert_eq!(shipped.of(Some("power-clean")).to_string(), "0.287");
    let usual = shipped.of(None);
    assert!((usual - 2.0 / 3.0).abs() < 1e-12);
    assert_eq!(shipped.of(Some("snatch")).to_bits(), usual.to_bits());
    let own = Exponents::changed("back-squat=0.6, x-yoke=0.5").unwrap();
    assert_eq!(own.of(Some("x-yoke")).to_string(), "0.5");
    assert_eq!(own.of(Some("back-squat")).to_string(), "0.6");
    assert_eq!(own.of(Some("bench-press")).to_string(), "0.559");
    let one = Exponents::changed("0.67").unwrap();
    assert_eq!(one.of(Some("bench-press")).to_string(), "0.67");
    for bad in ["", "x", "1.1", "-0.5", "=0.5", "back-squat=", "nan", "0.5,"] {
        assert!(Exponents::changed(bad).is_err(), "{bad}");
    }
}

#[test]
fn a_foot_says_what_is_from_memory() {
    let notes = |formula, year| Scoring::new(formula).notes(in_year(year)).join(" ");
    assert_eq!(
        notes(Sinclair, 2026),
        "Sinclair total: constants of 2021-2024, from memory (men's A to six decimals on a \
         page whose b is of the older cycle). Sinclair's constants of 2021-2024 are used; \
         none are known for 2026."
    );
    assert!(notes(Sinclair, 2003).contains("published (IWF Sinclair page"));
    assert!(notes(Wilks2020, 2022).contains("The factor 600"));
    assert!(!notes(Dots, 2022).contains("memory"));
    assert!(notes(IpfGl, 2019).contains("hold from 2020-05-01 on"));
    let mut aged = Scoring::new(Sinclair);
    aged.ages = true;
    let notes = aged.notes(in_year(2022)).join(" ");
    assert!(notes.contains("Sinclair-Malone-Huebner-Faber"), "{notes}");
    assert!(
        notes.contains("All factors but those of 30 and 60"),
        "{notes}"
    );
}
