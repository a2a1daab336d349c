//! Clearances, caps, roll, station checks, closing.

use super::Table;

const RACK: &str = "
    add|||||given=Ida; family=Rook; lot=1; flight=A; power-clean=95; back-squat=135; clearance=\"yes; back-squat: no\"
    add|||||given=Jo; family=Sand; lot=2; flight=A; power-clean=105; back-squat=155; clearance=up to 110
    start||clean|||A
";

#[test]
fn who_isnt_cleared_cant_be_called_and_an_override_is_signed() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "start||back-squat|||A
        ! lights|1|back-squat|1|135|w => not cleared for back-squat
        ! clear|1|back-squat|||yes => name and a reason
        clear|1|back-squat|||yes; who=Dr Odalys Brandt; why=seen today
        lights|1|back-squat|1|135|w
        ? bests back-squat: 1=135 2=",
    );
}

#[test]
fn a_cap_bars_the_request_and_the_call() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "lights|1|clean|1|95|w
        lights|2|clean|1|105|w
        ! request|2|clean||115 => at most 110 lb
        request|2|clean||110
        cap|2|clean||105
        ! lights|2|clean|2|110|w => at most 105 lb
        ! cap|2|clean||200 => name and a reason
        cap|2|clean||110|who=Coach Amsel; why=back to the clearance
        lights|2|clean|2|110|w",
    );
}

#[test]
fn the_absent_and_the_away_are_not_in_the_queue() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "? queue 1: 1@95 2@105
        away|1
        ? queue 1: 2@105
        ! call|1|clean => say back first
        back|1
        ? queue 1: 1@95 2@105
        absent|2
        ? queue 1: 1@95
        here|2
        withdraw|2|clean
        ? queue 1: 1@95
        ! here|9 => No entry has the number 9",
    );
}

#[test]
fn a_stop_for_pain_takes_the_athlete_out_until_back() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "call|1|clean
        stop|||||pain|1
        ? queue 1: 2@105
        undo||||||1
        ? called 1: 1@95
        stop|||||technique|1
        ? queue 1: 2@105 1@",
    );
}

#[test]
fn a_required_station_check_bars_the_start() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "set|||||station-check=required
        ! start||back-squat|||A => no signed station check
        check|||||Ms Quist|1
        start||back-squat|||A",
    );
}

#[test]
fn a_closed_session_takes_nothing_until_reopened_with_a_reason() {
    let mut table = Table::racks();
    table.play(RACK);
    table.play(
        "close|||||1
        ! lights|1|clean|1|95|w => Session 1 is closed
        ! tally|1|clean|1|95|good => Session 1 is closed
        ! reopen|||||1 => reason
        reopen|||||1; reason=a card turned up
        tally|1|clean|1|95|good
        ? bests clean: 1=95 2=",
    );
}
