//! Masses as exact counts, and what was typed beside them.

use std::fmt;
use std::ops::{Add, Neg, Sub};

use serde::{Deserialize, Serialize};

/// A mass unit that a bar, a scale or a paper may use.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(rename_all = "lowercase")]
pub enum Unit {
    /// Kilogram.
    Kg,
    /// Avoirdupois pound, exactly 0.45359237 kg (international yard and pound
    /// agreement of 1959).
    Lb,
}

impl Unit {
    /// The unit's symbol as it is printed.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Kg => "kg",
            Self::Lb => "lb",
        }
    }

    /// The other of the two units.
    pub const fn other(self) -> Self {
        match self {
            Self::Kg => Self::Lb,
            Self::Lb => Self::Kg,
        }
    }

    /// Reads `kg` or `lb` (also `kgs`, `lbs`, any case).
    pub fn parse(text: &str) -> Option<Self> {
        match text.trim().to_lowercase().as_str() {
            "kg" | "kgs" | "kilogram" | "kilograms" => Some(Self::Kg),
            "lb" | "lbs" | "pound" | "pounds" => Some(Self::Lb),
            _ => None,
        }
    }

    /// Counts of 10⁻¹¹ kg in one unit.
    const fn counts(self) -> i64 {
        match self {
            Self::Kg => 100_000_000_000,
            Self::Lb => 45_359_237_000,
        }
    }

    /// How many decimals of this unit are whole counts.
    const fn decimals(self) -> u32 {
        match self {
            Self::Kg => 11,
            Self::Lb => 3,
        }
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}

/// An exact mass: a whole count of 10⁻¹¹ kg.
///
/// Every thousandth of a pound and every 10⁻¹¹ kg is a whole count, so sums,
/// order and ties are exact. Limits: ±92,000,000 kg; sums saturate there.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Default,
    Serialize,
    Deserialize,
)]
#[serde(transparent)]
pub struct Mass(i64);

/// Why a text is no mass.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MassError {
    /// Not a plain decimal number with an optional `kg` or `lb`.
    #[error(
        "“{0}” is not a number; write a plain decimal such as 62.5, with kg or lb behind it if need be"
    )]
    NotANumber(String),
    /// More decimals than can be kept exactly.
    #[error(
        "“{0}” has more decimals than can be kept exactly; at most 3 are allowed for lb and 11 for kg"
    )]
    TooFine(String),
    /// Larger than any mass that is handled.
    #[error("“{0}” is too large for a mass")]
    TooLarge(String),
}

impl Mass {
    /// No mass at all.
    pub const ZERO: Self = Self(0);

    /// Makes a mass from its count of 10⁻¹¹ kg.
    pub const fn from_counts(counts: i64) -> Self {
        Self(counts)
    }

    /// The count of 10⁻¹¹ kg.
    pub const fn counts(self) -> i64 {
        self.0
    }

    /// Makes a mass of `n` whole units; saturates beyond the limits.
    pub const fn whole(n: i64, unit: Unit) -> Self {
        Self(n.saturating_mul(unit.counts()))
    }

    /// Reads a decimal such as `62.5`, `+5`, `187.5 lb` or `85kg`.
    ///
    /// A plain number is in `unit`. The decimal sign is a point.
    ///
    /// # Errors
    /// [`MassError`], naming the text.
    pub fn parse(text: &str, unit: Unit) -> Result<Self, MassError> {
        Weight::parse(text, unit).map(|w| w.mass)
    }

    /// Whether this is a whole multiple of `step` (always, for a zero step).
    pub const fn is_multiple_of(self, step: Self) -> bool {
        step.0 == 0 || self.0 % step.0 == 0
    }

    /// The largest multiple of `step` that isn't above this mass.
    pub const fn floor_to(self, step: Self) -> Self {
        if step.0 <= 0 {
            return self;
        }
        Self(self.0 - self.0.rem_euclid(step.0))
    }

    /// The smallest multiple of `step` that isn't below this mass.
    pub const fn ceil_to(self, step: Self) -> Self {
        if step.0 <= 0 {
            return self;
        }
        let over = self.0.rem_euclid(step.0);
        if over == 0 {
            self
        } else {
            Self(self.0.saturating_add(step.0 - over))
        }
    }

    /// This mass times `percent` hundredths, cut to a whole count.
    pub const fn percent(self, percent: i64) -> Self {
        Self(self.0 / 100 * percent + self.0 % 100 * percent / 100)
    }

    /// This mass as kilograms in floating point, for scores only.
    #[allow(clippy::cast_precision_loss)]
    pub fn kg_f64(self) -> f64 {
        self.0 as f64 / 1e11
    }

    /// The exact decimal in `unit`, or `None` where it has none.
    ///
    /// No trailing zeros; `62.5`, never `62.50`.
    pub fn exact(self, unit: Unit) -> Option<String> {
        let scale = 10_i128.pow(unit.decimals());
        let scaled = i128::from(self.0) * scale;
        let per = i128::from(unit.counts());
        if scaled % per != 0 {
            return None;
        }
        Some(decimal(scaled / per, unit.decimals()))
    }

    /// The decimal in `unit` rounded half away from zero to `places` decimals
    /// (at most 6), without trailing zeros.
    pub fn rounded(self, unit: Unit, places: u32) -> String {
        let places = places.min(6);
        let scaled = i128::from(self.0) * 10_i128.pow(places);
        let per = i128::from(unit.counts());
        let half = if scaled < 0 { -per / 2 } else { per / 2 };
        decimal((scaled + half) / per, places)
    }

    /// The decimal in `unit`: exact where it has one, else to 2 places.
    ///
    /// ```
    /// use maxday::measure::{Mass, Unit};
    /// assert_eq!(Mass::whole(100, Unit::Kg).show(Unit::Kg), "100");
    /// assert_eq!(Mass::whole(100, Unit::Kg).show(Unit::Lb), "220.46");
    /// ```
    pub fn show(self, unit: Unit) -> String {
        self.exact(unit).unwrap_or_else(|| self.rounded(unit, 2))
    }

    /// The decimal in `unit` for a table or a board: exact where that takes at
    /// most 3 decimals, else rounded to 2.
    ///
    /// A load that was typed in the other unit has many more.
    pub fn shown(self, unit: Unit) -> String {
        match self.exact(unit) {
            Some(text) if text.split_once('.').is_none_or(|(_, d)| d.len() <= 3) => text,
            _ => self.rounded(unit, 2),
        }
    }

    /// As [`Mass::show`], with the unit's symbol behind it.
    pub fn show_with_unit(self, unit: Unit) -> String {
        format!("{} {unit}", self.show(unit))
    }
}

impl Add for Mass {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Mass {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Mass {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl std::iter::Sum for Mass {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        iter.fold(Self::ZERO, Add::add)
    }
}

/// A mass together with what was typed: the value's text and its unit.
///
/// Two weights are equal when their masses are; the typed form is kept for
/// the record and decides nothing.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Weight {
    /// The exact mass.
    #[serde(rename = "m")]
    pub mass: Mass,
    /// The number as typed, without its unit.
    #[serde(rename = "t")]
    pub typed: String,
    /// The unit that the number was in.
    #[serde(rename = "u")]
    pub unit: Unit,
}

impl Weight {
    /// A weight that nobody typed, such as an automatic request.
    pub fn computed(mass: Mass, unit: Unit) -> Self {
        Self {
            mass,
            typed: mass.show(unit),
            unit,
        }
    }

    /// Reads a number with an optional unit; a plain number is in `unit`.
    ///
    /// # Errors
    /// [`MassError`], naming the text.
    pub fn parse(text: &str, unit: Unit) -> Result<Self, MassError> {
        let text = text.trim();
        let lower = text.to_lowercase();
        let at = lower
            .find(|c: char| c.is_ascii_alphabetic())
            .unwrap_or(lower.len());
        let (number, symbol) = lower.split_at(at);
        let unit = if symbol.is_empty() {
            unit
        } else {
            Unit::parse(symbol).ok_or_else(|| MassError::NotANumber(text.to_owned()))?
        };
        let number = number.trim();
        let mass = Mass(parse_counts(number, unit, text)?);
        Ok(Self {
            mass,
            typed: number.to_owned(),
            unit,
        })
    }

    /// The decimal in `unit`.
    pub fn show(&self, unit: Unit) -> String {
        self.mass.show(unit)
    }
}

impl PartialEq for Weight {
    fn eq(&self, other: &Self) -> bool {
        self.mass == other.mass
    }
}

impl Eq for Weight {}

fn parse_counts(number: &str, unit: Unit, whole_text: &str) -> Result<i64, MassError> {
    let bad = || MassError::NotANumber(whole_text.to_owned());
    let (negative, digits) = match number.as_bytes().first() {
        Some(b'-') => (true, &number[1..]),
        Some(b'+') => (false, &number[1..]),
        _ => (false, number),
    };
    let (int, frac) = digits.split_once('.').unwrap_or((digits, ""));
    let all_digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    if int.is_empty() && frac.is_empty() || !all_digits(int) || !all_digits(frac) {
        return Err(bad());
    }
    let frac = frac.trim_end_matches('0');
    let places = unit.decimals();
    if frac.len() > places as usize {
        return Err(MassError::TooFine(whole_text.to_owned()));
    }
    if int.trim_start_matches('0').len() > 8 {
        return Err(MassError::TooLarge(whole_text.to_owned()));
    }
    let mut value: i128 = 0;
    for byte in int.bytes().chain(frac.bytes()) {
        value = value * 10 + i128::from(byte - b'0');
    }
    let missing = places as usize - frac.len();
    for _ in 0..missing {
        value *= 10;
    }
    let per_step = i128::from(unit.counts()) / 10_i128.pow(places);
    let counts = i64::try_from(value * per_step)
        .map_err(|_| MassError::TooLarge(whole_text.to_owned()))?;
    Ok(if negative { -counts } else { counts })
}

/// Prints `scaled` / 10^`places` without trailing zeros.
fn decimal(scaled: i128, places: u32) -> String {
    let scale = 10_i128.pow(places);
    let sign = if scaled < 0 { "-" } else { "" };
    let abs = scaled.abs();
    let (int, frac) = (abs / scale, abs % scale);
    if frac == 0 {
        return format!("{sign}{int}");
    }
    let frac = format!("{frac:0width$}", width = places as usize);
    format!("{sign}{int}.{}", frac.trim_end_matches('0'))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn one_pound_is_exact() {
        // International yard and pound agreement, 1959: 1 lb = 0.45359237 kg.
        assert_eq!(
            Mass::whole(1, Unit::Lb),
            Mass::parse("0.45359237", Unit::Kg).unwrap()
        );
        assert_eq!(Mass::whole(225, Unit::Lb).rounded(Unit::Kg, 2), "102.06");
        assert_eq!(Mass::whole(405, Unit::Lb).rounded(Unit::Kg, 2), "183.7");
        assert_eq!(Mass::whole(100, Unit::Kg).rounded(Unit::Lb, 2), "220.46");
    }

    #[test]
    fn parses_units_signs_and_decimals() {
        let kg = |t| Mass::parse(t, Unit::Kg);
        assert_eq!(kg("85"), Ok(Mass::whole(85, Unit::Kg)));
        assert_eq!(kg(" 187.5 LB "), Ok(Mass(8_504_856_937_500)));
        assert_eq!(kg("+2.5").unwrap() + kg("-2.5").unwrap(), Mass::ZERO);
        assert_eq!(kg(".5").unwrap().exact(Unit::Kg).unwrap(), "0.5");
        assert_eq!(kg("62.5000000000000").unwrap().show(Unit::Kg), "62.5");
        for bad in [
            "", "kg", "8 5", "1e3", "1,5", "--2", "5 st", "٣", "1.2.3", ".",
        ] {
            assert!(matches!(kg(bad), Err(MassError::NotANumber(_))), "{bad}");
        }
        assert!(matches!(kg("1.0005 lb"), Err(MassError::TooFine(_))));
        assert!(matches!(kg("0.000000000001"), Err(MassError::TooFine(_))));
        assert!(matches!(kg("999999999"), Err(MassError::TooLarge(_))));
    }

    #[test]
    fn what_was_typed_is_kept() {
        let w = Weight::parse("62.50 kg", Unit::Lb).unwrap();
        assert_eq!((w.typed.as_str(), w.unit), ("62.50", Unit::Kg));
    }

    #[test]
    fn a_table_shows_few_decimals_and_a_file_all() {
        let mass = Mass::whole(120, Unit::Lb);
        assert_eq!(mass.show(Unit::Kg), "54.4310844");
        assert_eq!(mass.shown(Unit::Kg), "54.43");
        assert_eq!(
            Mass::parse("62.5", Unit::Kg).unwrap().shown(Unit::Kg),
            "62.5"
        );
        assert_eq!(
            Mass::parse("0.125", Unit::Kg).unwrap().shown(Unit::Kg),
            "0.125"
        );
    }

    #[test]
    fn steps_round_down_and_up() {
        let m = Mass::parse("62.3", Unit::Kg).unwrap();
        let step = Mass::parse("2.5", Unit::Kg).unwrap();
        assert_eq!(m.floor_to(step).show(Unit::Kg), "60");
        assert_eq!(m.ceil_to(step).show(Unit::Kg), "62.5");
        assert!(Mass::whole(60, Unit::Kg).is_multiple_of(step));
        assert!(!m.is_multiple_of(step));
    }

    proptest! {
        #[test]
        fn show_then_parse_is_identity(n in -2_000_000_i64..2_000_000, lb in any::<bool>()) {
            let unit = if lb { Unit::Lb } else { Unit::Kg };
            let mass = Mass(n * (unit.counts() / 1000));
            let text = mass.exact(unit).unwrap();
            prop_assert_eq!(Mass::parse(&text, unit).unwrap(), mass);
        }
    }
}
