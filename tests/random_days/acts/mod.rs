//! The next act of a random day: mostly what a table would do, sometimes not.

mod by_chance;
mod choices;
mod flow;

use maxday::day::{
    Authority, ClockMove, Command, CorrectionOf, Day, Event, Facts, FaultGiven, Granted,
    Light, Line, LoadAsked, Outcome, Place, RecordKey, RecordMark, Roll, Ruling, StopFor,
    Which, limits, queue,
};
use maxday::lift::Slug;
use maxday::measure::{Mass, Unit, Weight};
use maxday::roster::{Change, Clearance, Entry, EntryKey, Presence, Sex};
use maxday::rules::{Gate, TableNumber, WrongCatch};

use crate::dice::Dice;
use crate::scene::{Kind, Scene, any_rule, until};
use crate::support::{lights, ruling, slug};
use crate::tally::Word;

/// Words of the table that come by chance; all others come with the flow.
const BY_CHANCE: [(u32, Word); 27] = [
    (10, Word::Add),
    (12, Word::Edit),
    (11, Word::Place),
    (14, Word::Here),
    (10, Word::Absent),
    (10, Word::Away),
    (20, Word::Back),
    (10, Word::Withdraw),
    (9, Word::Disqualify),
    (5, Word::Number),
    (10, Word::Weigh),
    (13, Word::Clear),
    (13, Word::Cap),
    (16, Word::Set),
    (10, Word::Record),
    (10, Word::Check),
    (14, Word::Break),
    (15, Word::Close),
    (13, Word::Extra),
    (16, Word::Loaded),
    (18, Word::Overrule),
    (18, Word::Challenge),
    (22, Word::Correct),
    (16, Word::Annul),
    (10, Word::Note),
    (30, Word::Undo),
    (20, Word::Redo),
];

/// The next act.
pub fn next(day: &Day, scene: &Scene, dice: &mut Dice) -> (Word, Command) {
    let maker = Maker {
        day,
        facts: day.facts(),
        scene,
    };
    let can_redo = maker.lines().into_iter().any(|l| day.redoable(l).is_some());
    if can_redo && dice.chance(20) {
        return (Word::Redo, maker.redo(dice));
    }
    let closed =
        maker.facts.closed || maker.facts.sessions.values().any(|session| session.closed);
    if dice.chance(if closed { 35 } else { 1 }) {
        return (Word::Reopen, maker.reopen(dice));
    }
    if maker.numbers_are_open() && dice.chance(25) {
        return (Word::Number, maker.by_chance(Word::Number, dice));
    }
    if dice.chance(58) {
        maker.flow(dice)
    } else {
        let word = dice.weighed(&BY_CHANCE);
        (word, maker.by_chance(word, dice))
    }
}

struct Maker<'a> {
    day: &'a Day,
    facts: &'a Facts,
    scene: &'a Scene,
}
