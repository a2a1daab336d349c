//! Closing and reopening.

use super::racks;

#[test]
fn a_closed_session_takes_nothing_and_is_reopened_with_a_reason() {
    // This program's own promise: results that were posted have a revision.
    racks().play(
        "lights|1|||95|w
        ? revisions:
        call|3
        ! close|||||1 => Lot 3 is called
        lights|||||w|1
        close|||||1
        ? revisions: 1
        ! close|||||1 => Session 1 is closed
        ! lights|2|||105|w => Session 1 is closed
        ! tally|2|clean||105|good => Session 1 is closed
        ! request|1|||105 => Session 1 is closed
        ! reopen|||||1 => needs a reason
        ! reopen|||||9; reason=a card turned up => There is no session 9
        reopen|||||1; reason=a card turned up
        ? revisions: 1 (a card turned up)
        tally|2|clean||105|good
        close|||||1
        ? revisions: 1 (a card turned up), 1
        ? bests clean: 1=95 2=105 3=100 7=",
    );
}

#[test]
fn the_day_is_closed_and_reopened_as_a_whole() {
    // This program's own promise.
    racks().play(
        "! reopen|||||reason=nothing was closed => The day is not closed
        close
        ! tally|2|clean||105|good => The day is closed
        ! start||back-squat|||A => The day is closed
        reopen|||||reason=the scale was wrong
        close
        reopen|||||reason=a name was wrong
        ? revisions: day (the scale was wrong), day (a name was wrong)
        tally|2|clean||105|good",
    );
}

#[test]
fn what_is_closed_can_still_be_corrected() {
    // This program's own promise: a correction is always possible.
    racks().play(
        "tally|2|clean||105|good
        close
        correct|2|clean|1|110|
        ? bests clean: 1= 2=110 3= 7=
        undo|||||day
        ? revisions:",
    );
}

#[test]
fn an_undone_closing_leaves_no_revision() {
    // This program's own promise: an undone act never was.
    racks().play(
        "close|||||1
        ? revisions: 1
        undo|||||day
        ? revisions:
        tally|2|clean||105|good
        redo|||||day
        ? revisions: 1",
    );
}
