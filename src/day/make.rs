//! How a new day is made.

use chrono::NaiveDate;

use super::{Event, Facts};
use crate::lift::{Slug, lift_named};
use crate::measure::{Unit, Weight};
use crate::roster::SlotLine;
use crate::rules::{Format, Rules, format_named};

/// What can be chosen for a new day; what is left open follows the format.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewDay {
    /// Its name.
    pub name: String,
    /// Its date.
    pub date: NaiveDate,
    /// The format's name.
    pub format: String,
    /// Bar unit.
    pub bar: Unit,
    /// Scale unit; blank is the bar unit.
    pub scale: Option<Unit>,
    /// Judges, 1 or 3.
    pub judges: Option<u8>,
    /// A category set, `flight` or `none`.
    pub categories: Option<String>,
    /// `bodyweight` or `earliest`.
    pub tie: Option<String>,
    /// The smallest increment.
    pub step: Option<String>,
    /// The programme, such as `clean=power-clean+hang-power-clean,back-squat`.
    pub lifts: Option<String>,
    /// How many platforms; blank is one.
    pub platforms: Option<u8>,
}

/// Makes the event that makes a day.
///
/// # Errors
/// A sentence that says what is wrong and what would be allowed.
pub fn new_day(wish: &NewDay) -> Result<Event, String> {
    let format = format_named(&wish.format).map_err(|e| format!("{e}."))?;
    let rules = format.rules(wish.bar).map_err(|e| format!("{e}."))?;
    new_day_by(format, rules, wish)
}

/// Makes a new day by rules of a school's own.
///
/// # Errors
/// A sentence that says what is wrong and what would be allowed.
pub fn new_day_by(
    format: &Format,
    mut rules: Rules,
    wish: &NewDay,
) -> Result<Event, String> {
    settle(&mut rules, wish)?;
    let slots = read_programme(wish.lifts.as_deref().unwrap_or(&format.lifts))?;
    event(wish, &format.name, &rules, slots, 1)
}

/// Makes a new day with the rules, programme and platforms of an old one.
///
/// # Errors
/// A sentence that says what is wrong and what would be allowed.
pub fn new_day_like(old: &Facts, wish: &NewDay) -> Result<Event, String> {
    let mut rules = old.rules.clone();
    settle(&mut rules, wish)?;
    let slots = match &wish.lifts {
        Some(lifts) => read_programme(lifts)?,
        None => old.slots.clone(),
    };
    let platforms = u8::try_from(old.platforms.len()).unwrap_or(1);
    event(wish, &old.format, &rules, slots, platforms)
}

fn event(
    wish: &NewDay,
    format: &str,
    rules: &Rules,
    slots: Vec<SlotLine>,
    platforms: u8,
) -> Result<Event, String> {
    if wish.name.trim().is_empty() {
        return Err("A day needs a name.".to_owned());
    }
    let platforms = wish.platforms.unwrap_or(platforms);
    if !(1..=24).contains(&platforms) {
        return Err(format!(
            "{platforms} is no number of platforms; allowed: 1 to 24."
        ));
    }
    Ok(Event::DayMade {
        name: wish.name.trim().to_owned(),
        date: wish.date,
        format: format.to_owned(),
        bar_unit: wish.bar,
        scale_unit: wish.scale.unwrap_or(wish.bar),
        rules: rules.words(),
        slots,
        platforms,
    })
}

fn settle(rules: &mut Rules, wish: &NewDay) -> Result<(), String> {
    let mut set =
        |key: &str, word: &str| rules.set(key, word).map_err(|e| format!("{e}."));
    if let Some(judges) = wish.judges {
        set("judges", &judges.to_string())?;
    }
    if let Some(categories) = &wish.categories {
        set("categories", categories).map_err(|e| {
            let sets: Vec<&str> = crate::rules::category_sets()
                .iter()
                .map(|s| s.name.as_str())
                .collect();
            format!("{} The sets are {}.", e, sets.join(", "))
        })?;
        // A set is applied to the bodyweight on the scale.
        if crate::rules::set_named(categories).is_some() {
            set("category", "weighed")?;
        }
    }
    if let Some(tie) = &wish.tie {
        let chain = super::settings::tie_chain(tie)?;
        set("ties-lift", chain)?;
        set("ties-total", chain)?;
    }
    if let Some(step) = &wish.step {
        let _ = Weight::parse(step, wish.bar).map_err(|e| format!("{e}."))?;
        set("step", step)?;
    }
    Ok(())
}

/// Reads a programme: slots parted by commas, each a lift, or a slot's name
/// with its variants behind `=`, parted by `+`.
///
/// A lift is named by slug, name or alias; a school's own begins with `x-`.
///
/// # Errors
/// A sentence that names the word that isn't known.
pub fn read_programme(text: &str) -> Result<Vec<SlotLine>, String> {
    let mut slots: Vec<SlotLine> = Vec::new();
    for part in text.split(',').map(str::trim).filter(|p| !p.is_empty()) {
        let line = match part.split_once('=') {
            Some((slot, variants)) => SlotLine {
                slot: Slug::new(slot.trim()).map_err(|e| format!("{e}."))?,
                variants: variants
                    .split('+')
                    .map(lift_named)
                    .collect::<Result<_, _>>()
                    .map_err(|e| format!("{part}: {e}"))?,
            },
            None => {
                let slug = lift_named(part)?;
                SlotLine {
                    slot: slug.clone(),
                    variants: vec![slug],
                }
            }
        };
        let twice = |slug: &Slug| {
            slots
                .iter()
                .any(|l| l.slot == *slug || l.variants.contains(slug))
        };
        if twice(&line.slot) || line.variants.iter().any(twice) {
            return Err(format!("“{part}” is on the programme twice."));
        }
        slots.push(line);
    }
    if slots.is_empty() {
        return Err(
            "A programme needs at least one lift, such as back-squat,bench-press."
                .to_owned(),
        );
    }
    Ok(slots)
}

/// The settings of an old day that hold for a day like it, beside its rules: the
/// labels of the platforms that the new one has, the venue, and the school's name
/// and picture.
pub fn settings_like(old: &Facts, platforms: Option<u8>) -> Vec<(String, String)> {
    let mut settings: Vec<(String, String)> = (1..)
        .zip(&old.platforms)
        .filter(|(number, platform)| {
            !platform.label.is_empty() && platforms.is_none_or(|n| number <= &n)
        })
        .map(|(number, platform)| (format!("platform.{number}"), platform.label.clone()))
        .collect();
    for (key, value) in [("venue", &old.venue), ("school", &old.school.name)] {
        if !value.is_empty() {
            settings.push((key.to_owned(), value.clone()));
        }
    }
    let picture = old.school.picture.iter();
    settings.extend(picture.map(|p| ("picture".to_owned(), p.words())));
    settings
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_programme_names_slots_and_variants() {
        let slots =
            read_programme("clean=power-clean+hang-power-clean, back squat, x-sled")
                .unwrap();
        assert_eq!(slots.len(), 3);
        assert_eq!(slots[0].default_variant().as_str(), "power-clean");
        assert_eq!(slots[1].slot.as_str(), "back-squat");
        for bad in ["", "sled push", "back-squat,back-squat", "clean=,"] {
            assert!(read_programme(bad).is_err(), "{bad}");
        }
    }
}
