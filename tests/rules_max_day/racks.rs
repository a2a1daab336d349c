//! Racks, cards, slots and variants, and the order, which is advice.

use maxday::measure::Unit;

use super::{Table, racks};

#[test]
fn on_a_rack_the_queue_is_advice() {
    // Common practice: nobody is refused for being early.
    racks().play(
        "? queue 1: 1@95 3@100 2@105
        call|3
        lights|||||w|1
        lights|2|||105|w
        ? bests clean: 1= 2=105 3=100 7=",
    );
}

#[test]
fn each_athlete_has_slots_and_variants_of_his_or_her_own() {
    // Trade naming: catch, lift, start; variants are different lifts and never
    // share a ranking. Lot 4 hangs, lot 3 doesn't squat.
    let mut table = racks();
    table.play(
        "add|||||given=Lu; family=Vane; lot=4; flight=A; hang-power-clean=95; back-squat=135
        ? queue 1: 1@95 4@95 3@100 2@105
        ! tally|4|power-clean||95|good => not entered in power-clean
        tally|4|hang-power-clean||115|good
        tally|1|clean||95|good
        tally|2|clean||105|good
        ! tally|3|back-squat||135|good => not entered in back-squat; entered in power-clean
        ? places clean: 1=2 2=1 3= 4=1 7=
        ? lifts: all power-clean: 2 1 3 7; all hang-power-clean: 4; all back-squat: 1 2 4 7",
    );
    let mut table = racks();
    table.play(
        "edit|1||||power-clean=-
        edit|1||||hang-power-clean=85
        ? queue 1: 1@85 3@100 2@105
        start||back-squat|||A
        ? queue 1: 1@135 2@155",
    );
}

#[test]
fn cards_come_late_and_on_any_rack() {
    // Common practice: a card is entered when it comes back.
    racks().play(
        "tally|7|back-squat|2|105|no
        tally|7|back-squat|1|95|good
        tally|1|clean|1|95|good|2
        tally|1|clean|2|105|good
        tally|1|clean|3|110|no
        ? attempts 1 clean: 95 good, 105 good, 110 no
        ? bests clean: 1=105 2= 3= 7=
        ? bests back-squat: 1= 2= 3= 7=95",
    );
}

/// A day in pounds whose order is by rest, with a free bar.
fn by_rest() -> Table {
    let mut table = Table::by_rules(
        "base = \"max-day\"
        bar = \"free\"
        order = \"attempt rest number\"
        lifts = \"back-squat\"
        rest = 180",
        Unit::Lb,
    );
    table.enter("1 A 300\n2 A 200\n3 A 250");
    table.play("start||back-squat|||A");
    table
}

#[test]
fn by_rest_whoever_is_rested_first_goes_first() {
    // NSCA's protocol: 2 to 4 minutes between attempts; 3 are set here.
    by_rest().play(
        "? rests 1: 1=now 2=now 3=now
        ? queue 1: 1@300 2@200 3@250
        @10:00:00 lights|2|||200|w
        @10:00:30 lights|1|||300|w
        @10:01:00 lights|3|||250|w
        ? queue 1: 2@ 1@ 3@
        ? rests 1: 2=10:03:00 1=10:03:30 3=10:04:00
        request|1|||320
        request|2|||220
        ? queue 1: 2@220 1@320 3@
        @10:04:30 lights|2|||220|r
        ? queue 1: 1@320 3@ 2@",
    );
}

#[test]
fn a_day_may_go_by_rest_alone() {
    // Common practice on a rack: whoever is rested.
    let mut table = Table::by_rules(
        "base = \"max-day\"
        bar = \"free\"
        order = \"rest number\"
        lifts = \"back-squat\"",
        Unit::Lb,
    );
    table.enter("1 A 300\n2 A 200");
    table.play(
        "start||back-squat|||A
        @10:00:00 lights|1|||300|w
        @10:01:00 lights|2|||200|w
        @10:03:00 lights|1|||315|w
        ? rests 1: 2=10:03:00 1=10:05:00
        @10:03:30 lights|1|||320|r
        ? bests back-squat: 1=315 2=200",
    );
}

#[test]
fn an_order_by_rest_needs_a_bar_that_is_free() {
    // By rest the bar goes up and down.
    for bar in ["rounds", "rising"] {
        let text = format!(
            "base = \"max-day\"\nbar = \"{bar}\"\norder = \"attempt rest number\"\n"
        );
        let why = maxday::rules::own_format(&text, Unit::Lb).unwrap_err();
        assert!(why.to_string().contains("set bar to free"), "{why}");
    }
}

#[test]
fn one_more_attempt_is_given_by_leave() {
    // Common practice: the director gives leave, with a reason. The bar may
    // come down for it.
    racks().play(
        "tally|1|clean|1|95|good
        tally|1|clean|2|105|no
        tally|1|clean|3|105|no
        ! tally|1|clean||105|good => no attempt left in clean: 3 were allowed; one more needs leave
        ? queue 1: 3@100 2@105
        extra|1|clean|||the rack slipped
        ? allowed 1 clean: 4
        ? queue 1: 3@100 2@105 1@
        request|1|clean||105
        lights|1|clean||105|w
        ? bests clean: 1=105 2= 3= 7=
        undo||||||1
        undo||||||1
        undo||||||1
        ? allowed 1 clean: 3",
    );
}
