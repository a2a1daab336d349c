//! Who may see what: the day's posting policy.

use crate::day::Facts;
use crate::roster::Entry;
use crate::rules::NameShown;
use crate::score::Scoring;

/// Whether a sheet is for posting or for those who run the day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Audience {
    /// Anybody may see it: the posting policy rules.
    Posted,
    /// For the table and the archive: shows all, and says that it is private.
    Private,
}

impl Audience {
    /// The word on a paper's foot.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Posted => "for posting",
            Self::Private => "private",
        }
    }
}

/// An entry's name, as the audience may see it.
///
/// Under a number-only policy it is empty: the number stands beside it.
pub fn name_for(facts: &Facts, entry: &Entry, audience: Audience) -> String {
    match (audience, facts.rules.posting.name) {
        (Audience::Private, _) | (_, NameShown::Full) => entry.name(),
        (Audience::Posted, NameShown::Initial) => entry.first_and_initial(),
        (Audience::Posted, NameShown::Number) => String::new(),
    }
}

/// Whether bodyweights may be seen.
pub fn shows_bodyweight(facts: &Facts, audience: Audience) -> bool {
    audience == Audience::Private || facts.rules.posting.bodyweight
}

/// Whether bodyweight categories may be seen.
pub fn shows_category(facts: &Facts, audience: Audience) -> bool {
    audience == Audience::Private || facts.rules.posting.category
}

/// Whether relative scores may be seen.
///
/// Beside its load a score gives the bodyweight away, and with an age factor in
/// it the age, which is never posted; so only its place may be shown then.
pub fn shows_score(facts: &Facts, scoring: &Scoring, audience: Audience) -> bool {
    shows_bodyweight(facts, audience) && (audience == Audience::Private || !scoring.ages)
}
