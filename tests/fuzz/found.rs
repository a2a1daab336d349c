//! What spoilt inputs have found, as ordinary tests.

use maxday::measure::Unit;
use maxday::rules::{Rules, own_format};

#[test]
fn a_bar_in_one_unit_is_the_same_in_the_words_of_a_day_in_the_other() {
    // A day stores the words of its rules; 25 kg came back as 55.12 lb.
    for (unit, load) in [
        (Unit::Lb, "25 kg"),
        (Unit::Lb, "20.5 kg"),
        (Unit::Kg, "45 lb"),
        (Unit::Kg, "35 lb"),
    ] {
        let text = format!("base = \"powerlifting\"\nbar-f = \"{load}\"\n");
        let (_, rules) = own_format(&text, unit).unwrap();
        assert_eq!(
            rules.bar_f.exact(unit.other()).unwrap() + " " + unit.other().symbol(),
            load
        );
        let words = rules.words();
        assert_eq!(words["bar-f"], load);
        assert_eq!(Rules::from_words(&words, unit).unwrap(), rules);
    }
    // In the day's own unit nothing changes.
    let text = "base = \"powerlifting\"\nbar-f = \"45\"\n";
    let (_, rules) = own_format(text, Unit::Lb).unwrap();
    assert_eq!(rules.words()["bar-f"], "45 lb");
}
