//! Whether a change of a max means something: published errors of retests, and
//! the smallest change that is worthwhile.

use std::sync::OnceLock;

use serde::Deserialize;

use super::about::shipped;
use crate::measure::{Mass, Unit};
use crate::rules::Sex;

/// A load, or a share of the max before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(try_from = "String")]
pub enum Amount {
    /// So much.
    Load(Mass),
    /// So many thousandths of the max before.
    Thousandths(i64),
}

/// What a study found when a max was tested again.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reliability {
    /// The lift's slug.
    pub lift: String,
    /// The sex of who was tested.
    pub sex: Sex,
    /// The typical error: the spread of a max that didn't change.
    pub error: Amount,
    /// The least change that is real.
    pub real: Amount,
    /// Who was tested.
    pub who: String,
    /// Where it is published.
    pub source: String,
}

/// What a published error says of a change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// At most the typical error.
    Within,
    /// More than the typical error and less than a real change.
    Above,
    /// A real change.
    Real,
}

impl Verdict {
    /// The word of it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Within => "within error",
            Self::Above => "above error",
            Self::Real => "real",
        }
    }
}

/// How the smallest worthwhile change comes about.
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Worthwhile {
    /// The share of the standard deviation between athletes.
    pub share: f64,
    /// The least number of athletes.
    pub least: usize,
    /// Where it is published.
    pub source: String,
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Shipped {
    worthwhile: Worthwhile,
    published: Vec<Reliability>,
}

impl TryFrom<String> for Amount {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        let wrong = || format!("“{text}” is no amount; write 2.9 kg or 1.8 %");
        if let Some(percent) = text.strip_suffix('%') {
            let (whole, tenth) = percent.trim().split_once('.').unwrap_or((percent, "0"));
            let digits = |t: &str| t.trim().parse::<i64>().ok();
            return match (digits(whole), digits(tenth), tenth.len()) {
                (Some(whole), Some(tenth), 1) => {
                    Ok(Self::Thousandths(whole * 10 + tenth))
                }
                _ => Err(wrong()),
            };
        }
        let load = Mass::parse(&text, Unit::Kg).map_err(|_| wrong())?;
        Ok(Self::Load(load))
    }
}

impl Amount {
    /// What it comes to for a max before.
    pub fn of(self, before: Mass) -> Mass {
        match self {
            Self::Load(load) => load,
            Self::Thousandths(n) => {
                let counts = i128::from(before.counts()) * i128::from(n) / 1000;
                Mass::from_counts(i64::try_from(counts).unwrap_or(i64::MAX))
            }
        }
    }

    /// How a change compares with it, exactly.
    fn compare(self, before: Mass, change: Mass) -> std::cmp::Ordering {
        let size = i128::from(change.counts()).abs();
        match self {
            Self::Load(load) => size.cmp(&i128::from(load.counts())),
            Self::Thousandths(n) => {
                let share = i128::from(before.counts()) * i128::from(n);
                (size * 1000).cmp(&share)
            }
        }
    }
}

impl Reliability {
    /// What it says of a change from a max before; a fall counts as a rise does.
    pub fn verdict(&self, before: Mass, change: Mass) -> Verdict {
        if self.real.compare(before, change).is_ge() {
            Verdict::Real
        } else if self.error.compare(before, change).is_gt() {
            Verdict::Above
        } else {
            Verdict::Within
        }
    }
}

fn table() -> &'static Shipped {
    static TABLE: OnceLock<Shipped> = OnceLock::new();
    TABLE.get_or_init(|| shipped(include_str!("../../resources/reliability.toml")))
}

/// What is published for a lift and a sex, if anything is.
pub fn reliability(lift: &str, sex: Sex) -> Option<&'static Reliability> {
    let mut all = table().published.iter();
    all.find(|r| r.lift == lift && r.sex == sex)
}

/// Everything that is published.
pub fn reliabilities() -> &'static [Reliability] {
    &table().published
}

/// How the smallest worthwhile change comes about.
pub fn worthwhile() -> &'static Worthwhile {
    &table().worthwhile
}

/// The smallest worthwhile change among the maxes of one day, one lift and one
/// sex, in kg: 0.2 of their standard deviation (with n - 1).
///
/// `None` for fewer than five, since their spread says little.
pub fn smallest_worthwhile(maxes: &[Mass]) -> Option<f64> {
    let rule = worthwhile();
    if maxes.len() < rule.least || maxes.len() < 2 {
        return None;
    }
    let n = f64::from(u32::try_from(maxes.len()).ok()?);
    let mean = maxes.iter().map(|m| m.kg_f64()).sum::<f64>() / n;
    let squares: f64 = maxes
        .iter()
        .map(|m| (m.kg_f64() - mean) * (m.kg_f64() - mean))
        .sum();
    Some(rule.share * libm::sqrt(squares / (n - 1.0)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kg(text: &str) -> Mass {
        Mass::parse(text, Unit::Kg).unwrap()
    }

    #[test]
    fn every_published_row_is_of_a_known_lift() {
        for row in reliabilities() {
            assert!(crate::lift::catalogue().get(&row.lift).is_some(), "{row:?}");
            assert!(row.error.of(kg("100")) < row.real.of(kg("100")), "{row:?}");
        }
        assert_eq!(reliabilities().len(), 4);
        assert!(reliability("power-clean", Sex::F).is_none());
        assert!(reliability("clean", Sex::M).is_none());
    }

    /// J Strength Cond Res 2012;26(2):432 gives both numbers; the least real change
    /// is 1.96 x 1.414 x 2.9 = 8.04 by general statistics.
    #[test]
    fn both_edges_are_exact() {
        let boys = reliability("power-clean", Sex::M).unwrap();
        let says = |change: &str| boys.verdict(kg("80"), kg(change));
        assert_eq!(says("2.9"), Verdict::Within);
        assert_eq!(says("-2.9"), Verdict::Within);
        assert_eq!(says("2.90001"), Verdict::Above);
        assert_eq!(says("7.9999"), Verdict::Above);
        assert_eq!(says("8"), Verdict::Real);
        assert_eq!(says("-8"), Verdict::Real);
        // 1.8 % and 7.1 % of 90 kg are 1.62 and 6.39 kg.
        let press = reliability("push-press", Sex::M).unwrap();
        let says = |change: &str| press.verdict(kg("90"), kg(change));
        assert_eq!(says("1.62"), Verdict::Within);
        assert_eq!(says("1.63"), Verdict::Above);
        assert_eq!(says("6.38"), Verdict::Above);
        assert_eq!(says("6.39"), Verdict::Real);
        assert_eq!(press.real.of(kg("90")), kg("6.39"));
    }

    /// 60 65 70 75 80: mean 70, squares 100 + 25 + 0 + 25 + 100 = 250, by n - 1 =
    /// 62.5, root 7.9057, a fifth of it 1.5811.
    #[test]
    fn the_smallest_worthwhile_change_is_a_fifth_of_the_deviation() {
        let maxes: Vec<Mass> = ["60", "65", "70", "75", "80"].map(kg).to_vec();
        let found = smallest_worthwhile(&maxes).unwrap();
        assert!((found - 1.581_138_83).abs() < 1e-8, "{found}");
        assert_eq!(smallest_worthwhile(&maxes[..4]), None);
    }
}
