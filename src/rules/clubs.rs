//! Clubs that are joined by lifting enough.

use super::Sex;
use crate::lift::{Slug, lift_named};
use crate::measure::{Mass, Unit, Weight};

/// A club that is joined by lifting enough: a total or a sum of lifts, or so many
/// times the own bodyweight.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Club {
    /// What it is called.
    pub name: String,
    /// For whom; `None` is for all.
    pub sex: Option<Sex>,
    /// The lifts whose bests are added; none is the day's total.
    pub lifts: Vec<Slug>,
    /// What is needed.
    pub least: Least,
}

/// How much is enough: a load, or so many times the own bodyweight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Least {
    /// A load.
    Load(Mass, Unit),
    /// Thousandths of the own bodyweight.
    Times(i64),
}

impl Least {
    /// Reads `225 lb`, `102.5` in `unit`, or `1.5x`; above 0, at most 3000 kg or 20
    /// bodyweights. `None` for anything else.
    pub fn parse(text: &str, unit: Unit) -> Option<Self> {
        let text = text.trim();
        if let Some(times) = text.strip_suffix(['x', 'X']) {
            return thousandths(times.trim()).map(Self::Times);
        }
        let load = Weight::parse(text, unit).ok()?;
        let bounds = Mass::from_counts(1)..=Mass::whole(MOST.0, Unit::Kg);
        bounds
            .contains(&load.mass)
            .then_some(Self::Load(load.mass, load.unit))
    }

    /// Whether a load is enough; compared exactly. `None` where that needs a
    /// bodyweight and there is none.
    pub fn met(self, load: Mass, bodyweight: Option<Mass>) -> Option<bool> {
        match self {
            Self::Load(least, _) => Some(load >= least),
            Self::Times(thousandths) => {
                let body = i128::from(bodyweight?.counts());
                let needed = body * i128::from(thousandths);
                Some(i128::from(load.counts()) * 1000 >= needed)
            }
        }
    }

    /// The load or the thousandths, for comparing two of one kind.
    pub const fn amount(self) -> i64 {
        match self {
            Self::Load(load, _) => load.counts(),
            Self::Times(n) => n,
        }
    }

    /// Whether it goes by the bodyweight.
    pub const fn by_body(self) -> bool {
        matches!(self, Self::Times(_))
    }

    /// In words: `1000 lb`, `2x`.
    pub fn show(self) -> String {
        match self {
            Self::Load(least, unit) => least.show_with_unit(unit),
            Self::Times(n) => {
                let text = format!("{}.{:03}", n / 1000, n % 1000);
                let text = text.trim_end_matches('0').trim_end_matches('.');
                format!("{text}x")
            }
        }
    }
}

impl Club {
    /// What it needs, in the words of its rule: `F back-squat+bench-press 400 lb`.
    pub fn needs(&self) -> String {
        let sex = self
            .sex
            .map_or(String::new(), |s| format!("{} ", s.letter()));
        let lifts: Vec<&str> = self.lifts.iter().map(Slug::as_str).collect();
        let of = if lifts.is_empty() {
            "total".to_owned()
        } else {
            lifts.join("+")
        };
        format!("{sex}{of} {}", self.least.show())
    }
}

/// The heaviest load, in kg, and the most thousandths of a bodyweight.
const MOST: (i64, i64) = (3000, 20_000);

/// Reads `none`, or clubs parted by semicolons: a name, a colon, F or M where it
/// is for one sex, `total` or lifts with `+` between, and a load or `2x`.
pub(super) fn clubs(place: &mut Vec<Club>, word: &str, unit: Unit) -> bool {
    if word.eq_ignore_ascii_case("none") {
        place.clear();
        return true;
    }
    let read: Option<Vec<Club>> = word.split(';').map(|part| club(part, unit)).collect();
    let Some(read) = read else {
        return false;
    };
    for (i, one) in read.iter().enumerate() {
        if read[..i]
            .iter()
            .any(|c| c.name.eq_ignore_ascii_case(&one.name))
        {
            return false;
        }
    }
    *place = read;
    true
}

fn club(part: &str, unit: Unit) -> Option<Club> {
    let (name, needs) = part.split_once(':')?;
    let name: Vec<&str> = name.split_whitespace().collect();
    let name = name.join(" ");
    if name.is_empty() || name.chars().count() > 40 {
        return None;
    }
    let mut words: Vec<&str> = needs.split_whitespace().collect();
    let last = words.pop()?;
    // A unit may stand apart from its number.
    let least = match Unit::parse(last) {
        Some(_) => Least::parse(&format!("{}{last}", words.pop()?), unit)?,
        None => Least::parse(last, unit)?,
    };
    let sex = match words.first() {
        Some(&"F" | &"f") => Some(Sex::F),
        Some(&"M" | &"m") => Some(Sex::M),
        _ => None,
    };
    if sex.is_some() {
        let _ = words.remove(0);
    }
    let of = words.join(" ");
    let mut lifts: Vec<Slug> = Vec::new();
    if !of.eq_ignore_ascii_case("total") {
        for lift in of.split('+') {
            let lift = lift_named(lift).ok()?;
            if lifts.contains(&lift) {
                return None;
            }
            lifts.push(lift);
        }
    }
    Some(Club {
        name,
        sex,
        lifts,
        least,
    })
}

/// A plain decimal of at most three places, in thousandths; above 0.
fn thousandths(text: &str) -> Option<i64> {
    let (whole, decimals) = text.split_once('.').unwrap_or((text, "0"));
    let digits = |t: &str| !t.is_empty() && t.bytes().all(|b| b.is_ascii_digit());
    if !digits(whole) || !digits(decimals) || whole.len() > 2 || decimals.len() > 3 {
        return None;
    }
    let n: i64 = format!("{whole}{decimals:0<3}").parse().ok()?;
    (1..=MOST.1).contains(&n).then_some(n)
}

pub(super) fn show_clubs(clubs: &[Club]) -> String {
    if clubs.is_empty() {
        return "none".to_owned();
    }
    let list = clubs.iter().map(|c| format!("{}: {}", c.name, c.needs()));
    list.collect::<Vec<_>>().join("; ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read_clubs(word: &str) -> Option<Vec<Club>> {
        let mut list = Vec::new();
        clubs(&mut list, word, Unit::Lb).then_some(list)
    }

    #[test]
    fn clubs_are_written_as_they_are_read() {
        for word in [
            "none",
            "Thousand: total 1000 lb",
            "Thousand: back-squat+bench-press+power-clean 1000 lb; Double: F back-squat 2x",
            "Odd: M bench-press 1.125x",
            "Hundred: x-yoke 100 kg",
        ] {
            let list = read_clubs(word).unwrap_or_else(|| panic!("{word}"));
            assert_eq!(show_clubs(&list), word);
        }
        // A plain load is in the bar unit; a lift goes by any of its names.
        let list = read_clubs("A:  bench press 225").unwrap();
        assert_eq!(show_clubs(&list), "A: bench-press 225 lb");
        for wrong in [
            "",
            "Thousand",
            "Thousand: 1000 lb",
            ": total 1000 lb",
            "A: total 0",
            "A: total 0x",
            "A: total 1.2345x",
            "A: sqaut 2x",
            "A: total 1 lb; a: total 2 lb",
            "A: back-squat+back-squat 2x",
            "A: total 9000 kg",
            "A: total lb",
        ] {
            assert_eq!(read_clubs(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn enough_is_compared_exactly() {
        // 1.5 x 142.7 lb is 214.05 lb: 214 isn't enough, and 214.05 is.
        let least = Least::Times(1500);
        let lb = |text| Mass::parse(text, Unit::Lb).unwrap();
        let met = |load| least.met(lb(load), Some(lb("142.7")));
        assert_eq!(met("214"), Some(false));
        assert_eq!(met("214.05"), Some(true));
        assert_eq!(least.met(lb("300"), None), None);
        let load = Least::Load(lb("1000"), Unit::Lb);
        // 453.592 kg is less than 1000 lb by a hair, 453.6 kg is more.
        let kg = |text| Mass::parse(text, Unit::Kg).unwrap();
        assert_eq!(load.met(kg("453.592"), None), Some(false));
        assert_eq!(load.met(kg("453.6"), None), Some(true));
    }
}
