//! The failure cards: which of three groups a reason for a no lift is in.

use std::fmt;

use super::catalogue::Fault;
use super::parts::Family;

/// A judge's failure card, by which a group of reasons is shown.
///
/// Published by affiliates of the IPF: red is reason 1, blue reason 2, yellow
/// reason 3.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Card {
    /// Card 1.
    Red,
    /// Card 2.
    Blue,
    /// Card 3.
    Yellow,
}

impl Card {
    /// The three cards, by number.
    pub const ALL: [Self; 3] = [Self::Red, Self::Blue, Self::Yellow];

    /// Returns its number, 1 to 3.
    pub const fn number(self) -> u8 {
        match self {
            Self::Red => 1,
            Self::Blue => 2,
            Self::Yellow => 3,
        }
    }

    /// Returns its colour in a word.
    pub const fn colour(self) -> &'static str {
        match self {
            Self::Red => "red",
            Self::Blue => "blue",
            Self::Yellow => "yellow",
        }
    }

    /// Returns the card of a number, 1 to 3.
    pub fn of_number(number: u8) -> Option<Self> {
        Self::ALL.into_iter().find(|card| card.number() == number)
    }
}

impl fmt::Display for Card {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.number(), self.colour())
    }
}

/// Reasons for a no lift that share a card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FaultGroup {
    /// The card; `None` for reasons that have none.
    pub card: Option<Card>,
    /// Codes of the faults, commonest first.
    pub faults: Vec<String>,
}

/// Groups the faults of a lift by their cards: card 1 first, and last what
/// has no card. No group is empty.
pub(super) fn groups(
    family: Family,
    codes: &[String],
    faults: &[Fault],
) -> Vec<FaultGroup> {
    let card = |code: &String| {
        let fault = faults.iter().find(|f| f.code == *code)?;
        fault.card(family)
    };
    Card::ALL
        .into_iter()
        .map(Some)
        .chain([None])
        .map(|of| FaultGroup {
            card: of,
            faults: codes.iter().filter(|c| card(c) == of).cloned().collect(),
        })
        .filter(|group| !group.faults.is_empty())
        .collect()
}
