//! The scores that a day has: by its rules, else the one that suits its lifts.

use crate::day::{Facts, plain_category};
use crate::roster::SlotLine;
use crate::rules::{DayScores, Queue};
use crate::score::{ClassRecords, Formula, Scoring, leading_formula};

/// The lift in a record book whose records Robi points go by.
const ROBI: &str = "weightlifting-total";

/// The scores that the day's rules name, the leading one first; none where they
/// name none.
pub fn day_scores(facts: &Facts) -> Vec<Scoring> {
    let formulas = match &facts.rules.scores.which {
        DayScores::None => Vec::new(),
        DayScores::Usual => vec![usual(facts)],
        DayScores::Of(list) => list.clone(),
    };
    let formulas = formulas.into_iter();
    formulas.map(|f| day_scoring(facts, f)).collect()
}

/// The scores by which leaders are sought: the day's, else the usual one for its
/// lifts; never none.
pub fn leading_scores(facts: &Facts) -> Vec<Scoring> {
    let own = day_scores(facts);
    if own.is_empty() {
        return vec![day_scoring(facts, usual(facts))];
    }
    own
}

/// A formula with what the day has chosen for it; Robi points have the records of
/// its rules, else those of its record book as it was when the day began.
pub fn day_scoring(facts: &Facts, formula: Formula) -> Scoring {
    let mut scoring = Scoring::chosen(formula, &facts.rules.scores);
    if formula == Formula::Robi && scoring.records.is_none() {
        scoring.records = of_book(facts);
    }
    scoring
}

fn usual(facts: &Facts) -> Formula {
    let lifts: Vec<&str> = facts
        .slots
        .iter()
        .map(SlotLine::default_variant)
        .map(crate::lift::Slug::as_str)
        .collect();
    leading_formula(&lifts, facts.rules.queue == Queue::Law)
}

/// The totals by sex and bodyweight category in the record book; a record of a
/// division is another one.
fn of_book(facts: &Facts) -> Option<ClassRecords> {
    let mut records = ClassRecords::default();
    for (key, mark) in &facts.records {
        let (Some(sex), Some(load)) = (key.sex, &mark.load) else {
            continue;
        };
        if key.lift.as_str() != ROBI
            || key.category.is_empty()
            || !key.division.is_empty()
        {
            continue;
        }
        let category = plain_category(&key.category);
        // A category that is no limit of bodyweight can't be one of the table.
        let shown = load.mass.show(load.unit);
        drop(records.add(sex.letter(), &category, &shown, load.unit));
    }
    (!records.is_empty()).then_some(records)
}
