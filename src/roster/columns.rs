//! The roster's columns: which header means what, and how a cell reads.
//!
//! The importer, the `add` and `edit` acts and the desk's grids all read
//! cells here, so the same text means the same everywhere.

use chrono::NaiveDate;

use super::{Change, Clearance, Sex, SlotLine, split_name};
use crate::lift::{Slug, catalogue};
use crate::measure::{Mass, Unit, Weight};

/// A column that a roster may have.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Column {
    /// Table number.
    Lot,
    /// The school's identifier.
    Id,
    /// A whole name.
    Name,
    /// Given name.
    Given,
    /// Family name.
    Family,
    /// Sex.
    Sex,
    /// Date or year of birth.
    Born,
    /// Grade.
    Grade,
    /// Team.
    Team,
    /// Category entered for.
    Category,
    /// Divisions, several with `;`.
    Division,
    /// Session or class period.
    Session,
    /// Platform or rack.
    Platform,
    /// Flight.
    Flight,
    /// Bodyweight.
    Bodyweight,
    /// Unit of the bodyweight.
    Unit,
    /// Clearance.
    Clearance,
    /// Whether the entry lifts as a guest.
    Guest,
    /// Verified entry total.
    EntryTotal,
    /// Opener of a slot with a variant.
    Opener(Slug, Slug),
    /// Last max of a lift.
    Last(Slug),
    /// A grip or rack height.
    Setup(String),
}

/// A cell that can't be read: what is wrong and what would be allowed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct ColumnError(pub String);

pub(super) fn bad(text: impl Into<String>) -> ColumnError {
    ColumnError(text.into())
}

/// How cells are read: the programme, the units, the order of dates.
#[derive(Debug, Clone, Copy)]
pub struct Reading<'a> {
    /// The day's programme.
    pub slots: &'a [SlotLine],
    /// Unit of a plain load.
    pub bar: Unit,
    /// Unit of a plain bodyweight.
    pub scale: Unit,
    /// The day's date; nobody is born after it.
    pub today: NaiveDate,
    /// For `3/4/2010`: `Some(true)` month first, `Some(false)` day first,
    /// `None` refused where both are possible.
    pub month_first: Option<bool>,
    /// Whether `62,5` is a decimal.
    pub comma_decimals: bool,
}

/// The letters and digits of a header, in lower case.
fn squeeze(text: &str) -> String {
    text.chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

impl Column {
    /// The column that a header names; `class` is never guessed.
    pub fn named(header: &str, slots: &[SlotLine]) -> Option<Self> {
        let header = header.trim();
        let found = match squeeze(header).as_str() {
            "lot" | "lotno" | "lotnumber" => Some(Self::Lot),
            "id" | "studentid" | "studentno" | "studentnumber" | "pupilid" => {
                Some(Self::Id)
            }
            "name" | "fullname" | "studentname" | "athlete" | "student" => {
                Some(Self::Name)
            }
            "given" | "givenname" | "first" | "firstname" | "forename" => {
                Some(Self::Given)
            }
            "family" | "familyname" | "last" | "lastname" | "surname" => {
                Some(Self::Family)
            }
            "sex" | "gender" => Some(Self::Sex),
            "born" | "dob" | "dateofbirth" | "birthdate" | "birthday" | "yearofbirth"
            | "birthyear" => Some(Self::Born),
            "grade" | "gr" | "gradelevel" => Some(Self::Grade),
            "team" | "squad" => Some(Self::Team),
            "category" | "bodyweightcategory" => Some(Self::Category),
            "division" | "divisions" => Some(Self::Division),
            "session" | "period" | "classperiod" => Some(Self::Session),
            "platform" | "rack" => Some(Self::Platform),
            "flight" => Some(Self::Flight),
            "bodyweight" | "bw" | "bodymass" | "weight" => Some(Self::Bodyweight),
            "unit" | "units" => Some(Self::Unit),
            "clearance" | "cleared" => Some(Self::Clearance),
            "guest" => Some(Self::Guest),
            "entrytotal" => Some(Self::EntryTotal),
            _ => None,
        };
        if found.is_some() {
            return found;
        }
        let lower = header.to_lowercase();
        for kind in ["grip", "rack", "arms"] {
            let name = lower.strip_prefix(kind).and_then(|n| n.strip_prefix(' '));
            if let Some(name) = name {
                return Some(Self::Setup(format!("{kind} {}", name.trim())));
            }
        }
        if let Some(lift) = lower
            .strip_suffix(" last")
            .or(lower.strip_suffix(" last max"))
        {
            return lift_slug(lift, slots).map(|(_, variant)| Self::Last(variant));
        }
        let lift = lower.strip_suffix(" opener").unwrap_or(&lower);
        lift_slug(lift, slots).map(|(slot, variant)| Self::Opener(slot, variant))
    }

    /// The word that names the column in a file or an act.
    pub fn word(&self) -> String {
        match self {
            Self::Lot => "lot".into(),
            Self::Id => "id".into(),
            Self::Name => "name".into(),
            Self::Given => "given".into(),
            Self::Family => "family".into(),
            Self::Sex => "sex".into(),
            Self::Born => "born".into(),
            Self::Grade => "grade".into(),
            Self::Team => "team".into(),
            Self::Category => "category".into(),
            Self::Division => "division".into(),
            Self::Session => "session".into(),
            Self::Platform => "platform".into(),
            Self::Flight => "flight".into(),
            Self::Bodyweight => "bodyweight".into(),
            Self::Unit => "unit".into(),
            Self::Clearance => "clearance".into(),
            Self::Guest => "guest".into(),
            Self::EntryTotal => "entry total".into(),
            Self::Opener(_, variant) => variant.to_string(),
            Self::Last(lift) => format!("{lift} last"),
            Self::Setup(name) => name.clone(),
        }
    }
}

/// The slot and variant that a text names in this programme.
///
/// A slot's own name means the variant of that name, else its default one; a lift's slug, name or alias
/// means that variant where a slot allows it.
fn lift_slug(text: &str, slots: &[SlotLine]) -> Option<(Slug, Slug)> {
    let hyphened = text.trim().to_lowercase().replace([' ', '_'], "-");
    if let Some(line) = slots.iter().find(|l| l.slot.as_str() == hyphened) {
        let own = line.variants.iter().find(|v| **v == line.slot);
        let variant = own.unwrap_or_else(|| line.default_variant());
        return Some((line.slot.clone(), variant.clone()));
    }
    let known = catalogue().find(text).map(|l| l.slug.as_str().to_owned());
    let wanted = known.unwrap_or(hyphened);
    slots.iter().find_map(|line| {
        let variant = line.variants.iter().find(|v| v.as_str() == wanted)?;
        Some((line.slot.clone(), variant.clone()))
    })
}

impl Reading<'_> {
    /// The slot and variant that a text names in this programme.
    pub fn lift(&self, text: &str) -> Option<(Slug, Slug)> {
        lift_slug(text, self.slots)
    }

    /// Reads one cell into the details that it changes.
    ///
    /// `unit` is the row's own unit for the bodyweight, if it has one.
    /// Session, flight, platform and unit are settled by the caller and give
    /// no change here.
    ///
    /// # Errors
    /// [`ColumnError`], saying what would be allowed.
    pub fn read(
        &self,
        column: &Column,
        text: &str,
        unit: Option<Unit>,
    ) -> Result<Vec<Change>, ColumnError> {
        let text = text.trim();
        let change = match column {
            Column::Lot => Change::Number(read_lot(text)?),
            Column::Id => Change::Id(text.to_owned()),
            Column::Name => {
                let (given, family) = split_name(text);
                return Ok(vec![Change::Given(given), Change::Family(family)]);
            }
            Column::Given => Change::Given(text.to_owned()),
            Column::Family => Change::Family(text.to_owned()),
            Column::Sex if text.is_empty() => Change::Sex(None),
            Column::Sex => Change::Sex(Some(Sex::parse(text).ok_or_else(|| {
                bad(format!(
                    "“{text}” is not a sex that is placed here; write F or M"
                ))
            })?)),
            Column::Born if text.is_empty() => Change::Born(None),
            Column::Born => Change::Born(Some(self.born(text)?)),
            Column::Grade => Change::Grade(text.to_owned()),
            Column::Team => Change::Team(text.to_owned()),
            Column::Category => Change::Category(text.to_owned()),
            Column::Division => Change::Divisions(
                text.split(';')
                    .map(|d| d.trim().to_owned())
                    .filter(|d| !d.is_empty())
                    .collect(),
            ),
            Column::Session | Column::Platform | Column::Flight | Column::Unit => {
                return Ok(Vec::new());
            }
            Column::Bodyweight if text.is_empty() => Change::Bodyweight(None),
            Column::Bodyweight => Change::Bodyweight(Some(self.bodyweight(text, unit)?)),
            Column::Clearance => return self.clearance(text),
            Column::Guest => Change::Guest(guest(text)?),
            Column::EntryTotal if text.is_empty() => Change::EntryTotal(None),
            Column::EntryTotal => Change::EntryTotal(Some(self.total(text)?)),
            Column::Opener(slot, variant) => self.opener(slot, variant, text)?,
            Column::Last(lift) => Change::Last {
                lift: lift.clone(),
                load: (!text.is_empty() && text != "-")
                    .then(|| self.load(text))
                    .transpose()?,
            },
            Column::Setup(name) => Change::Setup {
                name: name.clone(),
                value: text.to_owned(),
            },
        };
        Ok(vec![change])
    }

    fn opener(
        &self,
        slot: &Slug,
        variant: &Slug,
        text: &str,
    ) -> Result<Change, ColumnError> {
        let (variant, opener) = match text {
            "-" | "–" => (None, None),
            "" => (Some(variant.clone()), None),
            text => (Some(variant.clone()), Some(self.load(text)?)),
        };
        Ok(Change::Slot {
            slot: slot.clone(),
            variant,
            opener,
        })
    }

    fn number(&self, text: &str) -> String {
        if self.comma_decimals && !text.contains('.') {
            text.replace(',', ".")
        } else {
            text.to_owned()
        }
    }

    /// Reads a load: above 0 and at most 600 kg.
    ///
    /// # Errors
    /// [`ColumnError`] for anything else.
    pub fn load(&self, text: &str) -> Result<Weight, ColumnError> {
        let weight = Weight::parse(&self.number(text), self.bar)
            .map_err(|e| bad(e.to_string()))?;
        let most = Mass::whole(600, Unit::Kg);
        if weight.mass <= Mass::ZERO || weight.mass > most {
            return Err(bad(format!(
                "“{text}” is no load that can be lifted here; a load is above 0 and at most {}",
                limit(most, self.bar)
            )));
        }
        Ok(weight)
    }

    fn total(&self, text: &str) -> Result<Weight, ColumnError> {
        let weight = Weight::parse(&self.number(text), self.bar)
            .map_err(|e| bad(e.to_string()))?;
        let most = Mass::whole(1_800, Unit::Kg);
        if weight.mass <= Mass::ZERO || weight.mass > most {
            return Err(bad(format!(
                "“{text}” is no total; a total is above 0 and at most {}",
                limit(most, self.bar)
            )));
        }
        Ok(weight)
    }

    /// Reads a bodyweight: 15 to 300 kg.
    ///
    /// # Errors
    /// [`ColumnError`] for anything else.
    pub fn bodyweight(
        &self,
        text: &str,
        unit: Option<Unit>,
    ) -> Result<Weight, ColumnError> {
        let unit = unit.unwrap_or(self.scale);
        let weight =
            Weight::parse(&self.number(text), unit).map_err(|e| bad(e.to_string()))?;
        let (least, most) = (Mass::whole(15, Unit::Kg), Mass::whole(300, Unit::Kg));
        if weight.mass < least || weight.mass > most {
            return Err(bad(format!(
                "“{text}” is no bodyweight; it must lie between {} and {}",
                limit(least, unit),
                limit(most, unit)
            )));
        }
        Ok(weight)
    }

    fn clearance(&self, text: &str) -> Result<Vec<Change>, ColumnError> {
        let mut changes = Vec::new();
        for part in text.split(';').map(str::trim).filter(|p| !p.is_empty()) {
            let (slot, word) = match part.split_once(':') {
                Some((lift, word)) => {
                    let (slot, _) = self.lift(lift).ok_or_else(|| {
                        bad(format!(
                            "“{}” is no lift of this day; write one of {}",
                            lift.trim(),
                            self.slot_words()
                        ))
                    })?;
                    (Some(slot), word.trim())
                }
                None => (None, part),
            };
            let (clearance, until) = self.clearance_word(word)?;
            changes.push(Change::Clearance {
                slot,
                clearance: Some(clearance),
                until,
            });
        }
        if changes.is_empty() {
            changes.push(Change::Clearance {
                slot: None,
                clearance: None,
                until: None,
            });
        }
        Ok(changes)
    }

    /// Reads `yes`, `no` or `up to LOAD`, with `until YYYY-MM-DD` behind it
    /// where it ends.
    ///
    /// # Errors
    /// [`ColumnError`] for anything else.
    pub fn clearance_word(
        &self,
        word: &str,
    ) -> Result<(Clearance, Option<NaiveDate>), ColumnError> {
        let lower = word.to_lowercase();
        let (lower, until) = match lower.rsplit_once("until") {
            Some((rest, date)) => (rest.trim(), Some(last_day(date)?)),
            None => (lower.as_str(), None),
        };
        let clearance = match lower {
            "yes" | "y" | "cleared" => Clearance::Yes,
            "no" | "n" | "not cleared" => Clearance::No,
            other => match other.strip_prefix("up to") {
                Some(load) => Clearance::UpTo(self.load(load.trim())?),
                None => {
                    return Err(bad(format!(
                        "“{word}” is no clearance; write yes, no, or up to and a load, \
                         and until and a date such as 2026-12-01 where it ends"
                    )));
                }
            },
        };
        Ok((clearance, until))
    }

    /// The programme's slots, as a list for a sentence.
    pub fn slot_words(&self) -> String {
        let words: Vec<&str> = self.slots.iter().map(|l| l.slot.as_str()).collect();
        words.join(", ")
    }
}

/// Reads the last day of a clearance.
///
/// # Errors
/// [`ColumnError`] where it is no date such as 2026-12-01.
pub fn last_day(text: &str) -> Result<NaiveDate, ColumnError> {
    let text = text.trim();
    text.parse().map_err(|_| {
        bad(format!(
            "“{text}” is no last day; write a date such as 2026-12-01"
        ))
    })
}

fn guest(text: &str) -> Result<bool, ColumnError> {
    match text.to_lowercase().as_str() {
        "yes" | "y" | "guest" => Ok(true),
        "" | "no" | "n" => Ok(false),
        _ => Err(bad(format!("“{text}” can't be read; write yes or no"))),
    }
}

/// Reads a table number: a whole number from 1 to 9999.
fn read_lot(text: &str) -> Result<u16, ColumnError> {
    text.parse::<u16>()
        .ok()
        .filter(|n| (1..=9_999).contains(n))
        .ok_or_else(|| {
            bad(format!(
                "“{text}” is no lot; write a whole number from 1 to 9999"
            ))
        })
}

/// A limit in `unit`, with one more digit where rounding would contradict it.
fn limit(mass: Mass, unit: Unit) -> String {
    match mass.exact(unit) {
        Some(text) => format!("{text} {unit}"),
        None => format!("{} {unit}", mass.rounded(unit, 2)),
    }
}

#[cfg(test)]
#[path = "columns_tests.rs"]
mod tests;
