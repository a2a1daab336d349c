//! A formula by its name, what it is given, and what comes of it.

use chrono::{Datelike, NaiveDate};

use super::about::About;
use super::ages::{AgeFactors, age_factor};
use super::powerlifting::{
    self, Polynomial, curve, dots, gl_from, gl_set, ipf_gl, wilks,
};
use super::robi::{self, ClassRecords, robi};
use super::scaling::{self, Exponents, allometric, ratio};
use super::sinclair::{self, cycle_on, cycles, sinclair};
use super::{Ages, Certainty, NoScore};
use crate::measure::Mass;
use crate::rules::{Equipment, Formula, ScoreRules, Sex};

/// All formulas, in the order in which they are listed.
pub const fn formulas() -> &'static [Formula] {
    &Formula::ALL
}

/// The names of all formulas, with commas between.
pub fn formula_names() -> String {
    Formula::ALL.map(Formula::name).join(", ")
}

impl Formula {
    /// Reads a formula's name, any case.
    ///
    /// # Errors
    /// [`NoScore::Name`], which lists the names.
    pub fn parse(text: &str) -> Result<Self, NoScore> {
        let word = text.trim().to_lowercase();
        let found = Self::ALL.into_iter().find(|f| f.name() == word);
        found.ok_or_else(|| NoScore::Name(text.trim().to_owned()))
    }

    /// What it is for, its bounds, source and certainty.
    pub fn about(self) -> &'static About {
        match self {
            Self::Ratio => scaling::about_ratio(),
            Self::Allometric => scaling::about_allometric(),
            Self::Sinclair => sinclair::about(),
            Self::Robi => robi::about(),
            Self::IpfGl => powerlifting::about_gl(),
            Self::Dots => powerlifting::about(Polynomial::Dots),
            Self::Wilks => powerlifting::about(Polynomial::Wilks),
            Self::Wilks2020 => powerlifting::about(Polynomial::Wilks2020),
        }
    }

    /// Its title, for people.
    pub fn title(self) -> &'static str {
        &self.about().title
    }
}

/// What a load was lifted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Event<'a> {
    /// Several lifts, added up.
    Total,
    /// One lift, by its slug.
    Lift(&'a str),
}

impl<'a> Event<'a> {
    /// Whether it is the bench press.
    pub fn is_bench(self) -> bool {
        self == Event::Lift("bench-press")
    }

    /// The lift, where it is one.
    pub const fn lift(self) -> Option<&'a str> {
        match self {
            Self::Total => None,
            Self::Lift(lift) => Some(lift),
        }
    }
}

/// What is to be scored.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lifted<'a> {
    /// The sex, where it is known.
    pub sex: Option<Sex>,
    /// The bodyweight, where it is known.
    pub bodyweight: Option<Mass>,
    /// The load.
    pub load: Mass,
    /// What it was lifted in.
    pub event: Event<'a>,
    /// The day, which picks the constants.
    pub day: NaiveDate,
    /// The age in years, by year of birth, where it is known.
    pub age: Option<i32>,
    /// The bodyweight category's label, where the day has categories.
    pub category: Option<&'a str>,
}

/// A formula with what is chosen for it.
#[derive(Debug, Clone, PartialEq)]
pub struct Scoring {
    /// The formula.
    pub formula: Formula,
    /// The exponents of allometric scaling.
    pub exponents: Exponents,
    /// The records of Robi points.
    pub records: Option<ClassRecords>,
    /// The equipment.
    pub equipment: Equipment,
    /// Whether the age factor is multiplied in.
    pub ages: bool,
}

/// A relative-strength number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Score {
    /// The number, unrounded, by which scores are ordered.
    pub value: f64,
    /// The formula that it comes from.
    pub formula: Formula,
}

impl Score {
    /// The number as it is shown: rounded to the formula's decimals.
    pub fn shown(&self) -> String {
        format!("{:.*}", self.formula.about().decimals, self.value)
    }
}

impl Scoring {
    /// A formula with the usual choices: shipped exponents, no records, classic
    /// equipment, no age factor.
    pub fn new(formula: Formula) -> Self {
        Self {
            formula,
            exponents: Exponents::shipped(),
            records: None,
            equipment: Equipment::default(),
            ages: false,
        }
    }

    /// A formula with what a day has chosen for it. Age factors are left out where
    /// none go with the formula; records of Robi points only as they stand in the
    /// rules.
    pub fn chosen(formula: Formula, rules: &ScoreRules) -> Self {
        let own = match rules.exponents.as_str() {
            "usual" => None,
            text => Exponents::changed(text).ok(),
        };
        Self {
            formula,
            exponents: own.unwrap_or_else(Exponents::shipped),
            records: ClassRecords::listed(&rules.records),
            equipment: rules.equipment,
            ages: rules.ages && formula.about().ages != Ages::None,
        }
    }

    /// The header of a column of its scores: the formula's name, and whether
    /// ages are in it.
    pub fn header(&self) -> String {
        let name = self.formula.name();
        if self.ages {
            format!("{name} with age")
        } else {
            name.to_owned()
        }
    }

    /// The score of a load.
    ///
    /// # Errors
    /// [`NoScore`]: why there is none.
    pub fn score(&self, lifted: &Lifted<'_>) -> Result<Score, NoScore> {
        let formula = self.formula;
        let about = formula.about();
        if lifted.load <= Mass::ZERO {
            return Err(NoScore::Load);
        }
        about.allows(formula, lifted.event)?;
        let value = self.value(lifted)?;
        let factor = if self.ages { self.factor(lifted)? } else { 1.0 };
        Ok(Score {
            value: value * factor,
            formula,
        })
    }

    fn factor(&self, lifted: &Lifted<'_>) -> Result<f64, NoScore> {
        let sex = lifted.sex.ok_or(NoScore::Sex(self.formula))?;
        if AgeFactors::of(self.formula, sex, lifted.day).is_none() {
            return Err(NoScore::Ages(self.formula));
        }
        let age = lifted.age.ok_or(NoScore::Born)?;
        age_factor(self.formula, sex, age, lifted.day)
    }

    fn value(&self, lifted: &Lifted<'_>) -> Result<f64, NoScore> {
        let formula = self.formula;
        let load = lifted.load;
        let sex = || lifted.sex.ok_or(NoScore::Sex(formula));
        let body = || {
            let body = lifted.bodyweight.ok_or(NoScore::NotWeighed(formula))?;
            formula.about().admits(formula, lifted.sex, body)?;
            Ok(body)
        };
        let polynomial = |which| Ok((body()?, curve(which, sex()?)));
        Ok(match formula {
            Formula::Ratio => ratio(load, body()?),
            Formula::Allometric => {
                let exponent = self.exponents.of(lifted.event.lift());
                allometric(load, body()?, exponent)
            }
            Formula::Sinclair => {
                let sex = sex()?;
                let (cycle, _) = cycle_on(lifted.day).ok_or_else(|| NoScore::Day {
                    formula,
                    first: cycles().first().map_or(0, |c| c.from),
                    year: lifted.day.year(),
                })?;
                sinclair(load, body()?, cycle.of(sex))
            }
            Formula::Robi => robi(load, self.record(lifted, sex()?)?),
            Formula::IpfGl => {
                let set = gl_set(sex()?, self.equipment, lifted.event.is_bench());
                let set = set.ok_or(NoScore::Event {
                    formula,
                    bench: true,
                })?;
                ipf_gl(load, body()?, set)
            }
            Formula::Dots => {
                let (body, curve) = polynomial(Polynomial::Dots)?;
                dots(load, body, curve)
            }
            Formula::Wilks => {
                let (body, curve) = polynomial(Polynomial::Wilks)?;
                wilks(load, body, curve)
            }
            Formula::Wilks2020 => {
                let (body, curve) = polynomial(Polynomial::Wilks2020)?;
                wilks(load, body, curve)
            }
        })
    }

    /// The record of the category: that of the day's, where it has one, else
    /// that into which the bodyweight falls.
    fn record(&self, lifted: &Lifted<'_>, sex: Sex) -> Result<Mass, NoScore> {
        let formula = self.formula;
        let records = self.records.as_ref().ok_or(NoScore::Records(formula))?;
        if let Some(label) = lifted.category {
            return records
                .of_category(sex, label)
                .ok_or_else(|| NoScore::Category(format!("{sex} {label}")));
        }
        let body = lifted.bodyweight.ok_or(NoScore::NotWeighed(formula))?;
        formula.about().admits(formula, lifted.sex, body)?;
        records.of_bodyweight(sex, body).ok_or_else(|| {
            let unit = crate::measure::Unit::Kg;
            NoScore::Category(format!("{sex} at {}", body.show_with_unit(unit)))
        })
    }

    /// Where the day is none of those for which the constants hold: a sentence
    /// that says which were used.
    pub fn off_date(&self, day: NaiveDate) -> Option<String> {
        match self.formula {
            Formula::Sinclair => {
                let (cycle, within) = cycle_on(day)?;
                (!within).then(|| {
                    format!(
                        "Sinclair's constants of {}-{} are used; none are known for {}.",
                        cycle.from,
                        cycle.until,
                        day.year()
                    )
                })
            }
            Formula::IpfGl => {
                let from = gl_from().filter(|from| day < *from)?;
                Some(format!(
                    "IPF GL points hold from {from} on; the day is before that."
                ))
            }
            _ => None,
        }
    }

    /// What a paper with such scores says at its foot, in sentences: which
    /// formula, its source, and what of it is from memory.
    pub fn notes(&self, day: NaiveDate) -> Vec<String> {
        let about = self.formula.about();
        let mut notes = vec![format!("{}: {}.", about.title, about.source)];
        match self.formula {
            Formula::Sinclair => {
                if let Some((cycle, within)) = cycle_on(day) {
                    let span = format!("{}-{}", cycle.from, cycle.until);
                    notes = vec![format!(
                        "{}: constants of {span}, {} ({}).",
                        about.title,
                        cycle.certainty.word(),
                        cycle.source
                    )];
                    if !within {
                        notes.extend(self.off_date(day));
                    }
                }
            }
            _ => {
                notes.extend(self.off_date(day));
                if !about.memory.is_empty() {
                    notes.push(about.memory.clone());
                }
            }
        }
        if self.ages {
            let mut lists: Vec<&AgeFactors> = [Sex::F, Sex::M]
                .into_iter()
                .filter_map(|sex| AgeFactors::of(self.formula, sex, day))
                .collect();
            lists.dedup_by_key(|list| list.name.clone());
            for list in lists {
                let title = &list.title;
                notes.push(format!("Multiplied by the age factors of {title}."));
                if list.certainty != Certainty::Checked && !list.memory.is_empty() {
                    notes.push(list.memory.clone());
                }
            }
        }
        notes
    }
}
