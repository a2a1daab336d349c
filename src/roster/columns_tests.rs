//! Headers and cells as offices write them.

use super::*;

fn slots() -> Vec<SlotLine> {
    let slug = |s: &str| Slug::new(s).unwrap();
    vec![
        SlotLine {
            slot: slug("clean"),
            variants: vec![slug("power-clean"), slug("hang-power-clean")],
        },
        SlotLine {
            slot: slug("back-squat"),
            variants: vec![slug("back-squat")],
        },
    ]
}

fn reading(slots: &[SlotLine]) -> Reading<'_> {
    Reading {
        slots,
        bar: Unit::Lb,
        scale: Unit::Lb,
        today: NaiveDate::from_ymd_opt(2026, 11, 17).unwrap(),
        month_first: None,
        comma_decimals: false,
    }
}

#[test]
fn an_offices_header_words_are_known() {
    let slots = slots();
    let named = |h: &str| Column::named(h, &slots).map(|c| c.word());
    for (header, word) in [
        ("Last Name", "family"),
        ("First Name", "given"),
        ("Student ID", "id"),
        ("DOB", "born"),
        (" gr ", "grade"),
        ("GENDER", "sex"),
        ("Period", "session"),
        ("Rack", "platform"),
        ("clean", "power-clean"),
        ("Hang Power Clean", "hang-power-clean"),
        ("Back Squat last", "back-squat last"),
        ("entry total", "entry total"),
    ] {
        assert_eq!(named(header).as_deref(), Some(word), "{header}");
    }
    for header in ["class", "Class", "bench-press", "notes", ""] {
        assert_eq!(named(header), None, "{header}");
    }
}

#[test]
fn dates_are_read_or_refused_but_never_guessed() {
    let slots = slots();
    let r = reading(&slots);
    let born = |t: &str| r.born(t).map(|b| b.to_string()).map_err(|e| e.0);
    assert_eq!(born("2009-04-03").unwrap(), "2009-04-03");
    assert_eq!(born("13/4/2009").unwrap(), "2009-04-13");
    assert_eq!(born("4/4/2009").unwrap(), "2009-04-04");
    assert_eq!(born("2009").unwrap(), "2009");
    assert!(
        born("3/4/2009")
            .unwrap_err()
            .contains("could be 2009-03-04 or 2009-04-03")
    );
    for text in [
        "2009-02-30",
        "31/31/2009",
        "2030-01-01",
        "1/2/09",
        "x",
        "1850",
    ] {
        assert!(born(text).is_err(), "{text}");
    }
    let mdy = Reading {
        month_first: Some(true),
        ..r
    };
    assert_eq!(mdy.born("3/4/2009").unwrap().to_string(), "2009-03-04");
}

#[test]
fn numbers_outside_human_range_are_refused() {
    let slots = slots();
    let r = reading(&slots);
    assert!(r.load("0").is_err());
    assert!(r.load("-5").is_err());
    assert!(r.load("601kg").is_err());
    assert!(r.load("600 kg").is_ok());
    assert!(r.bodyweight("14.9kg", None).is_err());
    assert!(r.bodyweight("150", None).is_ok());
    assert!(r.bodyweight("301", Some(Unit::Kg)).is_err());
    assert!(
        read_lot("0").is_err() && read_lot("10000").is_err() && read_lot("7").is_ok()
    );
}

#[test]
fn clearances_read_per_lift() {
    let slots = slots();
    let r = reading(&slots);
    let changes = r.clearance("yes; back squat: up to 135").unwrap();
    assert_eq!(changes.len(), 2);
    assert!(r.clearance("maybe").is_err());
    assert!(r.clearance("rowing: no").is_err());
}
