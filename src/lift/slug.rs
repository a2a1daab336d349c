//! The stored name of a lift.

use std::borrow::Borrow;
use std::fmt;
use std::sync::Arc;

use serde::{Deserialize, Serialize};

/// The most characters that a slug may have.
const LONGEST: usize = 48;

/// The stored name of a lift, such as `hang-power-clean`.
///
/// Limits:
/// - 1 to 48 characters: lowercase ASCII letters, digits and single hyphens;
/// - no hyphen at the beginning or the end.
///
/// A school's own lift begins with `x-`, so that it never meets one of ours.
/// A slug says nothing about whether the catalogue has such a lift.
///
/// A day has thousands of them and few different ones, so a clone shares its text.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Slug(Arc<str>);

/// The reason why a text is no slug.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SlugError {
    /// There is no text.
    #[error("a lift's slug is empty; write it like power-clean")]
    Empty,
    /// The text is longer than 48 characters.
    #[error("the slug {0:?} is too long; at most 48 characters are allowed")]
    TooLong(String),
    /// The text has a character that a slug can't have.
    #[error(
        "the slug {text:?} has the character {found:?}; \
         only a to z, 0 to 9 and '-' are allowed"
    )]
    Character {
        /// The text as given.
        text: String,
        /// The first character that isn't allowed.
        found: char,
    },
    /// A hyphen stands at the beginning, at the end or beside another one.
    #[error("the slug {0:?} has a hyphen that joins nothing; write it like power-clean")]
    Hyphen(String),
}

impl Slug {
    /// Makes a slug of a text that already is one.
    ///
    /// # Errors
    ///
    /// [`SlugError`] says which of the limits the text breaks. Nothing is put
    /// right silently: `Power Clean` is refused.
    pub fn new(text: impl Into<String>) -> Result<Self, SlugError> {
        let text = text.into();

        if text.is_empty() {
            return Err(SlugError::Empty);
        }
        if let Some(found) = text
            .chars()
            .find(|c| !(c.is_ascii_lowercase() || c.is_ascii_digit() || *c == '-'))
        {
            return Err(SlugError::Character { text, found });
        }
        if text.len() > LONGEST {
            return Err(SlugError::TooLong(text));
        }
        if text.split('-').any(str::is_empty) {
            return Err(SlugError::Hyphen(text));
        }

        Ok(Self(text.into()))
    }

    /// Returns the slug as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Returns whether this is a school's own lift, which begins with `x-`.
    pub fn is_own(&self) -> bool {
        self.0.starts_with("x-")
    }
}

impl fmt::Display for Slug {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

impl AsRef<str> for Slug {
    fn as_ref(&self) -> &str {
        &self.0
    }
}

impl Borrow<str> for Slug {
    fn borrow(&self) -> &str {
        &self.0
    }
}

impl From<Slug> for String {
    fn from(slug: Slug) -> Self {
        slug.0.as_ref().to_owned()
    }
}

impl TryFrom<String> for Slug {
    type Error = SlugError;

    fn try_from(text: String) -> Result<Self, SlugError> {
        Self::new(text)
    }
}

impl std::str::FromStr for Slug {
    type Err = SlugError;

    fn from_str(text: &str) -> Result<Self, SlugError> {
        Self::new(text)
    }
}
