//! The lifts that Maxday knows, read once from the compiled-in resources.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

use super::cards::{Card, FaultGroup, groups};
use super::naming::{name_of, parts_of, squash};
use super::parts::{Body, Catch, Family, Form, Parts, Start};
use super::slug::Slug;
use super::standard::faults_for;

/// The most characters of a lift's short name.
const SHORT: usize = 14;

/// A barbell lift as it is judged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lift {
    /// The stored name, which never changes.
    pub slug: Slug,
    /// What it is made of.
    pub parts: Parts,
    /// The name for people, computed from the parts: "hang power clean".
    pub name: String,
    /// The name for tight columns, at most 14 characters.
    pub short: String,
    /// Other unambiguous words for it.
    pub aliases: Vec<String>,
    /// Which advice on jumps it follows.
    pub body: Body,
    /// How many spotters it needs at least; 0 for a lift that isn't spotted.
    pub spotters: u8,
    /// Codes of the faults that a judge may name, commonest first.
    pub faults: Vec<String>,
    /// The same in groups, by the failure card that a judge shows.
    groups: Vec<FaultGroup>,
    /// Sentences on safety, general education only; the last one defers to
    /// local policy and the qualified supervisor on site.
    pub cautions: Vec<String>,
    /// The keys of these sentences in `resources/lifts.toml`, one for one.
    pub caution_keys: Vec<String>,
}

/// A reason for a no lift.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fault {
    /// The stored word, which never changes: lowercase letters and hyphens.
    pub code: String,
    /// A few words as shown at the table.
    pub text: String,
    /// The failure card by family, 1 to 3, where one is published.
    #[serde(default)]
    cards: BTreeMap<Family, u8>,
    /// The published rule that it comes from, or "common practice".
    pub source: String,
}

impl Fault {
    /// Returns the failure card for lifts of a family, if there is one.
    pub fn card(&self, family: Family) -> Option<Card> {
        Card::of_number(*self.cards.get(&family)?)
    }
}

impl Lift {
    /// Returns the faults in groups, by the failure card that a judge shows:
    /// card 1 first, and last what has no card. A lift without cards has one
    /// group.
    pub fn fault_groups(&self) -> &[FaultGroup] {
        &self.groups
    }

    /// Returns the failure card of a fault of this lift, if it has one.
    pub fn card(&self, code: &str) -> Option<Card> {
        let group = self
            .groups
            .iter()
            .find(|g| g.faults.iter().any(|c| c == code))?;
        group.card
    }
}

/// All lifts and faults.
#[derive(Debug, Clone)]
pub struct Catalogue {
    lifts: Vec<Lift>,
    faults: Vec<Fault>,
    words: BTreeMap<String, usize>,
}

/// The reason why two resource texts make no catalogue.
#[derive(Debug, thiserror::Error)]
pub enum CatalogueError {
    /// A text isn't the TOML that it should be.
    #[error("the catalogue can't be read")]
    Toml(#[from] toml::de::Error),
    /// The parts of a lift have no name.
    #[error("the lift {0} has parts without a name")]
    Nameless(Slug),
    /// The short name of a lift has more than 14 characters.
    #[error("the lift {0} has a short name of more than 14 characters")]
    Short(Slug),
    /// Two lifts answer to one word.
    #[error("the word {word:?} means both {first} and {second}")]
    Ambiguous {
        /// The word without spaces and hyphens.
        word: String,
        /// The lift that had it first.
        first: Slug,
        /// The lift that claims it too.
        second: Slug,
    },
    /// A lift names a caution that isn't there.
    #[error("the lift {lift} names the caution {key:?}, which doesn't exist")]
    Caution {
        /// The lift.
        lift: Slug,
        /// The missing key.
        key: String,
    },
    /// A lift can be judged for a fault that isn't there.
    #[error("the lift {lift} has the fault {code:?}, which doesn't exist")]
    Fault {
        /// The lift.
        lift: Slug,
        /// The missing code.
        code: String,
    },
    /// A fault names a card that isn't there.
    #[error("the fault {0:?} names a card that isn't 1, 2 or 3")]
    Card(String),
    /// A fault's code comes twice.
    #[error("the fault {0:?} comes twice")]
    FaultTwice(String),
}

/// Returns the catalogue, read at the first call.
pub fn catalogue() -> &'static Catalogue {
    static CATALOGUE: OnceLock<Catalogue> = OnceLock::new();

    CATALOGUE.get_or_init(|| {
        // Both texts are compiled in, and the tests read every row of them.
        #[allow(clippy::expect_used)]
        Catalogue::read(
            include_str!("../../resources/lifts.toml"),
            include_str!("../../resources/faults.toml"),
        )
        .expect("the compiled-in catalogue is sound")
    })
}

impl Catalogue {
    /// Reads a catalogue from the texts of its two resources.
    ///
    /// # Errors
    ///
    /// [`CatalogueError`] names the first row that isn't sound.
    pub fn read(lifts: &str, faults: &str) -> Result<Self, CatalogueError> {
        let book: LiftBook = toml::from_str(lifts)?;
        let faults = toml::from_str::<FaultBook>(faults)?.fault;

        for (i, fault) in faults.iter().enumerate() {
            if faults[..i].iter().any(|f| f.code == fault.code) {
                return Err(CatalogueError::FaultTwice(fault.code.clone()));
            }
            if fault.cards.values().any(|n| Card::of_number(*n).is_none()) {
                return Err(CatalogueError::Card(fault.code.clone()));
            }
        }

        let mut found = Self {
            lifts: Vec::with_capacity(book.lift.len()),
            faults,
            words: BTreeMap::new(),
        };
        for row in book.lift {
            found.take(row, &book.caution)?;
        }
        Ok(found)
    }

    /// Returns all lifts, in the order of the resource.
    pub fn lifts(&self) -> &[Lift] {
        &self.lifts
    }

    /// Returns all faults, in the order of the resource.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// Returns the lift with exactly this slug.
    pub fn get(&self, slug: &str) -> Option<&Lift> {
        let index = self.words.get(&squash(slug))?;

        self.lifts.get(*index).filter(|l| l.slug.as_str() == slug)
    }

    /// Returns the lift that a person means by a slug, name or alias.
    ///
    /// Case, spaces, hyphens and underscores don't matter. Other spellings of a
    /// name count too ("power clean from the hang"), as far as [`parts_of`] is
    /// sure of them; nothing is guessed.
    pub fn find(&self, text: &str) -> Option<&Lift> {
        match self.words.get(&squash(text)) {
            Some(index) => self.lifts.get(*index),
            None => self.of(&parts_of(text)?),
        }
    }

    /// Returns the lift that is made of exactly these parts.
    pub fn of(&self, parts: &Parts) -> Option<&Lift> {
        self.lifts.iter().find(|l| l.parts == *parts)
    }

    /// Returns the fault with this code.
    pub fn fault(&self, code: &str) -> Option<&Fault> {
        self.faults.iter().find(|f| f.code == code)
    }

    fn take(
        &mut self,
        row: LiftRow,
        texts: &BTreeMap<String, String>,
    ) -> Result<(), CatalogueError> {
        let parts = Parts {
            family: row.family,
            start: row.start,
            catch: row.catch,
            form: row.form,
        };
        let slug = row.slug;

        let Some(name) = name_of(&parts) else {
            return Err(CatalogueError::Nameless(slug));
        };
        let short = row.short.unwrap_or_else(|| name.clone());
        if short.chars().count() > SHORT {
            return Err(CatalogueError::Short(slug));
        }

        let mut cautions = Vec::with_capacity(row.cautions.len());
        for key in &row.cautions {
            match texts.get(key) {
                Some(text) => cautions.push(text.clone()),
                None => {
                    let key = key.clone();
                    return Err(CatalogueError::Caution { lift: slug, key });
                }
            }
        }

        let faults: Vec<String> =
            faults_for(&parts).into_iter().map(str::to_owned).collect();
        if let Some(code) = faults.iter().find(|c| self.fault(c).is_none()) {
            let code = code.clone();
            return Err(CatalogueError::Fault { lift: slug, code });
        }

        let index = self.lifts.len();
        let words = [slug.as_str(), &name].into_iter();
        for word in words.chain(row.aliases.iter().map(String::as_str)) {
            let word = squash(word);
            let earlier = self.words.insert(word.clone(), index);
            if let Some(first) = earlier.filter(|e| *e != index) {
                let first = self.lifts[first].slug.clone();
                let second = slug.clone();
                return Err(CatalogueError::Ambiguous {
                    word,
                    first,
                    second,
                });
            }
        }

        self.lifts.push(Lift {
            slug,
            parts,
            name,
            short,
            aliases: row.aliases,
            body: row.body,
            spotters: row.spotters,
            groups: groups(parts.family, &faults, &self.faults),
            faults,
            cautions,
            caution_keys: row.cautions,
        });
        Ok(())
    }
}

/// The lift that a word names by slug, name or alias; a school's own begins
/// with `x-`.
///
/// # Errors
/// A sentence that names the word that isn't known.
pub fn lift_named(text: &str) -> Result<Slug, String> {
    let text = text.trim();
    if let Some(lift) = catalogue().find(text) {
        return Ok(lift.slug.clone());
    }
    match Slug::new(text) {
        Ok(slug) if slug.is_own() => Ok(slug),
        _ => Err(format!(
            "“{text}” is no lift that is known; `maxday lifts` lists them, and a school's own begins with x-."
        )),
    }
}

/// `resources/lifts.toml` as it is written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LiftBook {
    caution: BTreeMap<String, String>,
    lift: Vec<LiftRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LiftRow {
    slug: Slug,
    family: Family,
    start: Start,
    catch: Catch,
    form: Option<Form>,
    short: Option<String>,
    #[serde(default)]
    aliases: Vec<String>,
    body: Body,
    #[serde(default)]
    spotters: u8,
    cautions: Vec<String>,
}

/// `resources/faults.toml` as it is written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FaultBook {
    fault: Vec<Fault>,
}
