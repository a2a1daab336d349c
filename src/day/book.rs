//! A school's record book: what a record is of, and what stands there.

use std::fmt;

use crate::lift::{Slug, lift_named};
use crate::measure::Weight;
use crate::rules::Sex;

/// What a record is of: a lift, and who may set it.
///
/// Each part that is blank is open to all. A variant is a lift of its own.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct RecordKey {
    /// The lift, as it is judged, or one of [`TOTALS`].
    pub lift: Slug,
    /// The sex; `None` is both.
    pub sex: Option<Sex>,
    /// The bodyweight category in its plain form: `63`, `87+`.
    pub category: String,
    /// A division or age group.
    pub division: String,
}

/// The totals that may stand in a book in place of a lift, with their lifts.
pub const TOTALS: [(&str, &[&str]); 2] = [
    ("weightlifting-total", &["snatch", "clean-and-jerk"]),
    (
        "powerlifting-total",
        &["back-squat", "bench-press", "deadlift"],
    ),
];

/// The lifts of a total by its slug; `None` for a lift.
pub fn lifts_of_total(slug: &str) -> Option<&'static [&'static str]> {
    let mut totals = TOTALS.iter();
    totals
        .find(|(name, _)| *name == slug)
        .map(|(_, lifts)| *lifts)
}

/// The lift, or the total, that a word of a book names.
///
/// # Errors
/// A sentence that names the word that isn't known.
pub fn record_lift(text: &str) -> Result<Slug, String> {
    let word = text.trim().to_lowercase().replace([' ', '_'], "-");
    if lifts_of_total(&word).is_some()
        && let Ok(slug) = Slug::new(word)
    {
        return Ok(slug);
    }
    lift_named(text)
}

/// What the book says of a record.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RecordMark {
    /// The load; `None` where nobody has set it yet.
    pub load: Option<Weight>,
    /// Who holds it, as text.
    pub holder: String,
    /// When it was set, as text.
    pub date: String,
    /// Where it was set, as text.
    pub place: String,
}

impl RecordKey {
    /// A record's key, with its category and division in their plain form.
    pub fn new(lift: Slug, sex: Option<Sex>, category: &str, division: &str) -> Self {
        Self {
            lift,
            sex,
            category: plain_category(category),
            division: division.split_whitespace().collect::<Vec<_>>().join(" "),
        }
    }

    /// Whether it is of a total.
    pub fn is_total(&self) -> bool {
        lifts_of_total(self.lift.as_str()).is_some()
    }

    /// Who may set it: `F 63`, `F novice`, `M open`, `open`.
    pub fn label(&self) -> String {
        let sex = self.sex.map_or("", |s| s.letter());
        let open = self.category.is_empty() && self.division.is_empty();
        let parts = [
            sex,
            &self.category,
            &self.division,
            if open { "open" } else { "" },
        ];
        let parts: Vec<&str> = parts.into_iter().filter(|p| !p.is_empty()).collect();
        parts.join(" ")
    }
}

impl fmt::Display for RecordKey {
    /// `back-squat, F 63`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, {}", self.lift, self.label())
    }
}

/// A category's label in one form: no spaces, no `kg`, and the plus of the
/// class without a limit at its end (`+87`, `>87` and `87+` are one).
///
/// A label that is no number stays as it is.
pub fn plain_category(label: &str) -> String {
    let bare: String = label.split_whitespace().collect();
    let lower = bare.to_lowercase();
    let number = lower.strip_suffix("kg").unwrap_or(&lower);
    let open = number.starts_with(['+', '>']) || number.ends_with('+');
    let limit = number.trim_matches(['+', '>']);
    let limit = limit.strip_suffix("kg").unwrap_or(limit);
    if limit.is_empty() || !limit.bytes().all(|b| b.is_ascii_digit() || b == b'.') {
        return label.split_whitespace().collect::<Vec<_>>().join(" ");
    }
    format!("{limit}{}", if open { "+" } else { "" })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_category_has_one_form() {
        for open in ["+87", "87+", " > 87", "+87 kg", "87kg+"] {
            assert_eq!(plain_category(open), "87+", "{open}");
        }
        assert_eq!(plain_category(" 67.5 kg"), "67.5");
        assert_eq!(plain_category("light  girls"), "light girls");
    }

    #[test]
    fn a_label_says_who_may_set_it() {
        let key = |sex, category, division| {
            let lift = Slug::new("snatch").unwrap();
            RecordKey::new(lift, sex, category, division).label()
        };
        assert_eq!(key(Some(Sex::F), "63", ""), "F 63");
        assert_eq!(key(Some(Sex::F), "", "novice"), "F novice");
        assert_eq!(key(Some(Sex::M), "", ""), "M open");
        assert_eq!(key(None, "", ""), "open");
    }
}
