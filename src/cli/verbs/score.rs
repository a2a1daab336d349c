//! `maxday score`, and the choices of scores that other verbs share

use std::io::Write;
use std::path::Path;

use chrono::NaiveDate;

use crate::cli::args::{Score, ScoreChoices};
use crate::cli::{Failure, moment, print};
use crate::day::Facts;
use crate::exchange::records::read_records;
use crate::lift::{Slug, lift_named};
use crate::measure::{Mass, Unit};
use crate::rules::Sex;
use crate::score::{
    ClassRecords, Equipment, Event, Exponents, Formula, Lifted, NoScore, Scoring,
};
use crate::standings::{day_scores, day_scoring};

/// The heaviest load of one lift, and of a total of three, in kg.
const HEAVIEST: (i64, i64) = (600, 1800);

pub(in crate::cli) fn run(asked: &Score) -> Result<(), Failure> {
    let formula = Formula::parse(needed(&asked.formula, "--formula")?)?;
    let scoring =
        with_choices(Scoring::new(formula), &asked.choices, asked.age.is_some())?;
    let sex = match &asked.sex {
        None => None,
        Some(word) => Some(
            Sex::parse(word)
                .ok_or_else(|| Failure(format!("“{word}” is no sex; write F or M.")))?,
        ),
    };
    let day = match &asked.date {
        None => moment::today(),
        Some(text) => text.trim().parse().map_err(|_| {
            Failure(format!("“{text}” is no date; write it as 2026-11-17."))
        })?,
    };
    let lift = lift(asked)?;
    let event = lift
        .as_ref()
        .map_or(Event::Total, |l| Event::Lift(l.as_str()));
    let lifted = Lifted {
        sex,
        bodyweight: match &asked.bodyweight {
            None => None,
            Some(text) => Some(mass(text, "--bodyweight")?),
        },
        load: load(needed(&asked.load, "--load")?, event)?,
        event,
        day,
        age: asked.age.as_deref().map(age).transpose()?,
        category: None,
    };
    let score = scoring.score(&lifted).map_err(|why| match why {
        NoScore::Sex(_) => with_option(&why, "--sex"),
        NoScore::Records(_) => with_option(&why, "--records FILE"),
        NoScore::NotWeighed(_) => with_option(&why, "--bodyweight 63.2kg"),
        why => Failure(why.to_string()),
    })?;
    say_off_date(&scoring, day);
    print(format!("{}\n", score.shown()).as_bytes())
}

/// The reason with the option that would help, as one sentence.
fn with_option(why: &NoScore, option: &str) -> Failure {
    let why = why.to_string();
    Failure(format!("{}; give {option}.", why.trim_end_matches('.')))
}

/// Says on standard error where the constants are those of other days.
pub(super) fn say_off_date(scoring: &Scoring, day: NaiveDate) {
    if let Some(sentence) = scoring.off_date(day) {
        let _ = writeln!(std::io::stderr(), "maxday: {sentence}");
    }
}

/// The scores that were asked for beside a day's own.
pub(in crate::cli) struct Asked<'a> {
    /// Their names; none means the day's own.
    pub(in crate::cli) names: &'a [String],
    /// What was chosen for them.
    pub(in crate::cli) choices: &'a ScoreChoices,
    /// Whether ages are multiplied in.
    pub(in crate::cli) ages: bool,
}

/// The scores that were named, with what was chosen for them here or by the day;
/// those of the day where none was named.
pub(in crate::cli) fn scorings(
    facts: &Facts,
    asked: &Asked<'_>,
) -> Result<Vec<Scoring>, Failure> {
    let mut all: Vec<Scoring> = Vec::new();
    for name in asked.names {
        let formula = Formula::parse(name)?;
        if all.iter().any(|s| s.formula == formula) {
            return Err(Failure(format!(
                "The score {} is named twice.",
                formula.name()
            )));
        }
        let of_day = day_scoring(facts, formula);
        let scoring = with_choices(of_day, asked.choices, asked.ages)?;
        if formula == Formula::Robi && scoring.records.is_none() {
            return Err(with_option(&NoScore::Records(formula), "--records FILE"));
        }
        all.push(scoring);
    }
    if asked.names.is_empty() && (asked.ages || any(asked.choices)) {
        return Err(Failure(
            "Choices for a score need --score with its name.".to_owned(),
        ));
    }
    if asked.names.is_empty() {
        return Ok(day_scores(facts));
    }
    Ok(all)
}

const fn any(choices: &ScoreChoices) -> bool {
    choices.equipment.is_some() || choices.exponent.is_some() || choices.records.is_some()
}

fn with_choices(
    mut scoring: Scoring,
    choices: &ScoreChoices,
    ages: bool,
) -> Result<Scoring, Failure> {
    scoring.ages |= ages;
    if let Some(word) = &choices.equipment {
        scoring.equipment = Equipment::parse(word).ok_or_else(|| {
            Failure(format!(
                "“{word}” is no equipment; allowed: classic, equipped."
            ))
        })?;
    }
    if let Some(text) = &choices.exponent {
        scoring.exponents = Exponents::changed(text)?;
    }
    if let Some(path) = &choices.records {
        scoring.records = Some(records(path)?);
    }
    Ok(scoring)
}

fn records(path: &Path) -> Result<ClassRecords, Failure> {
    let shown = path.display();
    let bytes = std::fs::read(path)
        .map_err(|e| Failure(format!("The records {shown} can't be read: {e}.")))?;
    read_records(&bytes).map_err(|fault| Failure(format!("{shown}: {fault}")))
}

fn needed<'a>(value: &'a Option<String>, option: &str) -> Result<&'a str, Failure> {
    value.as_deref().ok_or_else(|| {
        Failure(format!(
            "{option} is missing; a score needs --formula, --sex, --bodyweight and --load."
        ))
    })
}

fn mass(text: &str, option: &str) -> Result<Mass, Failure> {
    Mass::parse(text, Unit::Kg).map_err(|e| Failure(format!("{option}: {e}.")))
}

fn load(text: &str, event: Event<'_>) -> Result<Mass, Failure> {
    let load = mass(text, "--load")?;
    let (most, of) = match event {
        Event::Total => (HEAVIEST.1, "a total"),
        Event::Lift(_) => (HEAVIEST.0, "one lift"),
    };
    let bounds = Mass::from_counts(1)..=Mass::whole(most, Unit::Kg);
    if bounds.contains(&load) {
        return Ok(load);
    }
    Err(Failure(format!(
        "A load of {} is outside what can be scored; {of} has to be above 0 and at most \
         {most} kg.",
        load.show_with_unit(Unit::Kg)
    )))
}

/// The lift that was named; `None` is a total.
fn lift(asked: &Score) -> Result<Option<Slug>, Failure> {
    let bench = match asked.event.as_deref().map(str::trim) {
        None => false,
        Some(word) if word.eq_ignore_ascii_case("total") => false,
        Some(word) if word.eq_ignore_ascii_case("bench") => true,
        Some(word) => {
            return Err(Failure(format!(
                "“{word}” is no event; allowed: total, bench."
            )));
        }
    };
    match &asked.lift {
        Some(_) if asked.event.is_some() => Err(Failure(
            "--lift and --event say the same thing; give one of them.".to_owned(),
        )),
        Some(text) => lift_named(text).map(Some).map_err(Failure),
        None if bench => lift_named("bench-press").map(Some).map_err(Failure),
        None => Ok(None),
    }
}

fn age(text: &str) -> Result<i32, Failure> {
    let age = text.trim().parse::<i32>().ok();
    age.filter(|age| (1..=120).contains(age)).ok_or_else(|| {
        Failure(format!(
            "“{text}” is no age; write whole years from 1 to 120."
        ))
    })
}
