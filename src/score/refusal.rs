//! Why there is no number.

use super::{Ages, Formula, formula_names, formulas};
use crate::measure::{Mass, Unit};
use crate::rules::Sex;

/// Why somebody gets no score: a typed reason, and a sentence that says what
/// would be allowed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoScore {
    /// Nothing was lifted that counts.
    #[error("There is no load to score; it has to be above 0.")]
    Load,
    /// The rules add up no total, and no lift was named.
    #[error("This day has no total to score; a single lift can be scored instead.")]
    Total,
    /// The formula goes by sex, and it isn't known.
    #[error("The formula {} needs the sex: F or M.", .0.name())]
    Sex(Formula),
    /// The formula goes by bodyweight, and nobody was weighed.
    #[error("The formula {} needs a bodyweight.", .0.name())]
    NotWeighed(Formula),
    /// Outside the bodyweights for which the formula was made.
    #[error("{}", bodyweight(*.formula, *.sex, *.lightest, *.heaviest, *.found))]
    Bodyweight {
        /// The formula.
        formula: Formula,
        /// The sex, where it is known.
        sex: Option<Sex>,
        /// The lightest bodyweight that gets a number.
        lightest: Mass,
        /// The heaviest one.
        heaviest: Mass,
        /// The bodyweight.
        found: Mass,
    },
    /// The formula doesn't score such a lift.
    #[error(
        "The formula {} is for a total{}.",
        .formula.name(),
        if *.bench { " or the bench press" } else { ", not for a single lift" }
    )]
    Event {
        /// The formula.
        formula: Formula,
        /// Whether the bench press alone may be scored.
        bench: bool,
    },
    /// No constants are known for days so early.
    #[error(
        "The formula {} has constants for days from {first} on, not for {year}.",
        .formula.name()
    )]
    Day {
        /// The formula.
        formula: Formula,
        /// The first year.
        first: i32,
        /// The year of the day.
        year: i32,
    },
    /// The formula compares with records, and there are none.
    #[error("The formula {} needs a table of records by category.", .0.name())]
    Records(Formula),
    /// The table of records lacks the category.
    #[error("The table of records has no category for {0}.")]
    Category(String),
    /// No age factors go with the formula.
    #[error(
        "No age factors go with the formula {}; they do with {}.",
        .0.name(),
        with_ages()
    )]
    Ages(Formula),
    /// There is no age factor for that age.
    #[error("There is no age factor for {age} years; there is one for {known}.")]
    Age {
        /// The age in years.
        age: i32,
        /// The ages that have one, in words.
        known: String,
    },
    /// An age factor is asked for, and the age isn't known.
    #[error("An age factor needs the year of birth.")]
    Born,
    /// Not the name of a formula.
    #[error("“{0}” is no formula; allowed: {names}.", names = formula_names())]
    Name(String),
}

fn bodyweight(
    formula: Formula,
    sex: Option<Sex>,
    lightest: Mass,
    heaviest: Mass,
    found: Mass,
) -> String {
    let who = match sex {
        Some(Sex::F) => " for women and girls",
        Some(Sex::M) => " for men and boys",
        None => "",
    };
    format!(
        "A bodyweight of {} kg is outside the bounds of the formula {}; allowed{who}: {} \
         to {} kg.",
        found.shown(Unit::Kg),
        formula.name(),
        lightest.shown(Unit::Kg),
        heaviest.shown(Unit::Kg),
    )
}

/// The formulas with which age factors go.
fn with_ages() -> String {
    let all = formulas().iter();
    let with = all.filter(|f| f.about().ages != Ages::None);
    with.map(|f| f.name()).collect::<Vec<_>>().join(", ")
}
