//! A max day's racks: rounds, cards, advice.

use super::Table;

const RACK: &str = "
    add|||||given=Ida; family=Rook; lot=1; flight=A; power-clean=95; back-squat=135
    add|||||given=Jo; family=Sand; lot=2; flight=A; power-clean=105; back-squat=155
    add|||||given=Kit; family=Tarn; lot=3; flight=B; platform=2; hang-power-clean=65; back-squat=95
    start||clean|||A
    start||clean|||1/B
";

#[test]
fn the_queue_goes_by_rounds_and_is_advice() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "? queue 1: 1@95 2@105
        ? queue 2: 3@65
        lights|2|clean|1|105|w
        ! lights|1|clean|1|95|w => The bar is at 105 lb in this round
        tally|1|clean|1|95|good
        ? bests clean: 1=95 2=105 3=
        ? queue 1: 1@ 2@
        lights|1|clean||105|r:elbow-on-thigh|1
        request|2|clean||115
        ? queue 1: 2@115 1@",
    );
}

#[test]
fn cards_come_late_and_out_of_order() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "tally|1|back-squat|2|155|no
        tally|1|back-squat|1|135|good
        ! tally|1|back-squat|2|155|good => ruled already (no)
        ! tally|1|back-squat|4|165|good => no attempt left
        tally|1|back-squat||150|good
        ? bests back-squat: 1=150 2= 3=
        ! tally|3|power-clean||65|good => entered in
        tally|3|hang-power-clean||65|good
        ? bests clean: 1= 2= 3=65",
    );
}

#[test]
fn undo_on_one_rack_leaves_the_other_alone() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "lights|1|clean|1|95|w|1
        lights|3|clean|1|65|w|2
        undo||||||1
        ? bests clean: 1= 2= 3=65
        ! undo => Say on which platform
        redo||||||1
        ? bests clean: 1=95 2= 3=65",
    );
}

#[test]
fn one_undo_of_the_roster_takes_the_newest_entry_back() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "add|||||given=Lu; family=Vane; lot=4; flight=A; power-clean=95
        undo|||||roster
        ? bests clean: 1= 2= 3=
        ! undo|||||roster => start of clean for flight B
        redo|||||roster
        ? bests clean: 1= 2= 3= 4=",
    );
}

#[test]
fn an_undo_that_would_leave_another_line_hanging_names_the_acts() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "tally|3|clean||65|good
        ! undo|||||roster => lot 3 clean attempt 1
        undo||||||2
        ! undo|||||roster => start of clean for flight B
        undo||||||2
        undo|||||roster
        ? bests clean: 1= 2=",
    );
}

#[test]
fn a_moved_flight_runs_on_one_rack_only_and_takes_its_bar_along() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "add|||||given=Lu; family=Vane; lot=4; flight=A; power-clean=115
        lights|2|clean|1|105|w
        call|4|clean||||1
        set|||||flight.1/A=2
        ! start||clean|||1/A => Lot 4 is called on platform 1
        lights|||||w|1
        start||clean|||1/A
        ? queue 1: 
        ! lights|1|clean|1|95|w|2 => The bar is at 115 lb in this round",
    );
}
