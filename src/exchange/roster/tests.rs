//! Tests of this room.

use super::*;
use crate::measure::Weight;
use crate::roster::Clearance;

// What is taken and what is refused is driven, file by file, by the tests of
// the roster's intake; here stands what needs a look inside.

#[test]
fn orders_of_dates_have_words() {
    assert_eq!(DateOrder::parse(" MDY "), Some(DateOrder::MonthFirst));
    assert_eq!(DateOrder::parse("dmy"), Some(DateOrder::DayFirst));
    assert_eq!(DateOrder::parse("iso"), Some(DateOrder::Iso));
    assert_eq!(DateOrder::parse("ymd"), None);
}

#[test]
fn a_date_begins_with_its_year_or_not() {
    for text in ["2009-04-03", "2009/4/3", "2009", ""] {
        assert!(year_first(text), "{text}");
    }
    for text in ["3/4/2009", "13.4.2009", "3-4-2009"] {
        assert!(!year_first(text), "{text}");
    }
}

#[test]
fn a_change_differs_only_by_what_it_means() {
    let row = RosterRow::default();
    assert_eq!(row.told, []);
    let weight = |text: &str| Weight::parse(text, crate::measure::Unit::Kg).unwrap();
    let changes = [
        Change::Bodyweight(Some(weight("62.50"))),
        Change::Clearance {
            slot: None,
            clearance: Some(Clearance::UpTo(weight("100"))),
            until: None,
        },
    ];
    assert_eq!(changes[0], Change::Bodyweight(Some(weight("62.5"))));
    assert_ne!(changes[0], changes[1]);
}
