//! Lengths on the athlete's card: grip widths, rack heights.

use serde::{Deserialize, Serialize};

/// A length in whole millimetres, from 1 to 9,999.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Length(u16);

/// Why a text is no length.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{0}” is no length; write millimetres (850) or centimetres (85 cm)")]
pub struct LengthError(String);

impl Length {
    /// Makes a length of `mm` millimetres.
    pub const fn from_mm(mm: u16) -> Self {
        Self(mm)
    }

    /// The length in millimetres.
    pub const fn mm(self) -> u16 {
        self.0
    }

    /// Reads `850`, `850 mm` or `85 cm`; a plain number is millimetres.
    ///
    /// # Errors
    /// [`LengthError`] where the text is anything else, or outside 1-9,999 mm.
    pub fn parse(text: &str) -> Result<Self, LengthError> {
        let error = || LengthError(text.trim().to_owned());
        let lower = text.trim().to_lowercase();
        let (digits, factor) = if let Some(rest) = lower.strip_suffix("mm") {
            (rest.trim_end(), 1)
        } else if let Some(rest) = lower.strip_suffix("cm") {
            (rest.trim_end(), 10)
        } else {
            (lower.as_str(), 1)
        };
        let n: u16 = digits.parse().map_err(|_| error())?;
        let mm = n.checked_mul(factor).ok_or_else(error)?;
        if (1..=9_999).contains(&mm) {
            Ok(Self(mm))
        } else {
            Err(error())
        }
    }
}

impl std::fmt::Display for Length {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} mm", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_millimetres_and_centimetres() {
        assert_eq!(Length::parse("850"), Ok(Length::from_mm(850)));
        assert_eq!(Length::parse("85 cm"), Ok(Length::from_mm(850)));
        assert_eq!(Length::parse("850mm"), Ok(Length::from_mm(850)));
        for bad in ["", "0", "8.5", "-3", "99999", "85 in"] {
            assert!(Length::parse(bad).is_err(), "{bad}");
        }
    }
}
