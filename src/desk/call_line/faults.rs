//! The reasons for a no lift, by their words or by the failure card.

use crate::lift::{Card, FaultGroup, Lift, Slug, catalogue};

/// The reasons that words name for a lift; of any lift where none is known.
///
/// A word is a code, the start of one, or a part of one. A digit names the
/// judge's failure card: alone where the card has one reason, else with the
/// start of the reason's word (`2 knees`, `2knees`).
///
/// # Errors
/// A sentence that lists what there is.
pub fn codes(words: &[&str], lift: Option<&Slug>) -> Result<Vec<String>, String> {
    let lift = lift.and_then(|l| catalogue().get(l.as_str()));
    let mut found: Vec<String> = Vec::new();
    let mut words = words.iter().map(|w| tidy(w)).peekable();
    while let Some(word) = words.next() {
        let code = match digit(&word) {
            None => of_word(&word, &all(lift), lift)?,
            Some((card, start)) => {
                let group = group(card, lift)?;
                let next = words.peek().filter(|_| start.is_empty());
                let takes = next.is_some_and(|next| {
                    digit(next).is_none()
                        && (group.faults.len() > 1
                            || !fits(next, &group.faults).is_empty())
                });
                let start = if takes {
                    words.next().unwrap_or_default()
                } else {
                    start
                };
                of_card(&start, group, lift)?
            }
        };
        if !found.contains(&code) {
            found.push(code);
        }
    }
    Ok(found)
}

/// The reasons of a lift as a list: by failure card where it has cards.
pub fn list(lift: Option<&Slug>) -> String {
    listed(lift.and_then(|l| catalogue().get(l.as_str())))
}

/// Whether a judge shows a failure card for a lift.
pub fn has_cards(lift: &Slug) -> bool {
    catalogue()
        .get(lift.as_str())
        .is_some_and(|l| l.fault_groups().iter().any(|g| g.card.is_some()))
}

fn listed(lift: Option<&Lift>) -> String {
    let Some(lift) = lift else {
        return all(None).join(", ");
    };
    let groups: Vec<String> = lift
        .fault_groups()
        .iter()
        .map(|group| match group.card {
            Some(card) => format!("{card}: {}", group.faults.join(", ")),
            None => group.faults.join(", "),
        })
        .collect();
    groups.join("; ")
}

fn all(lift: Option<&Lift>) -> Vec<String> {
    match lift {
        Some(lift) => lift.faults.clone(),
        None => {
            let faults = catalogue().faults().iter();
            faults.map(|f| f.code.clone()).collect()
        }
    }
}

fn tidy(word: &str) -> String {
    word.trim_matches([':', ',']).to_lowercase()
}

/// The digit with which a word begins, and what follows it.
fn digit(word: &str) -> Option<(u8, String)> {
    let first = word.chars().next()?;
    let number = u8::try_from(first.to_digit(10)?).ok()?;
    let rest = word[1..].trim_start_matches(['-', '.', ':']);
    Some((number, rest.to_owned()))
}

fn group(number: u8, lift: Option<&Lift>) -> Result<&FaultGroup, String> {
    let Some(lift) = lift else {
        return Err(format!(
            "“{number}” is a failure card, but no lift is known; write the reason's word."
        ));
    };
    let card = Card::of_number(number);
    let groups = lift.fault_groups().iter();
    groups
        .clone()
        .find(|g| g.card.is_some() && g.card == card)
        .ok_or_else(|| {
            if groups.clone().all(|g| g.card.is_none()) {
                format!(
                    "The {} has no failure cards; there is {}.",
                    lift.name,
                    listed(Some(lift))
                )
            } else {
                format!(
                    "“{number}” is no failure card of the {}; there is {}.",
                    lift.name,
                    listed(Some(lift))
                )
            }
        })
}

fn of_card(
    start: &str,
    group: &FaultGroup,
    lift: Option<&Lift>,
) -> Result<String, String> {
    if let ([only], true) = (group.faults.as_slice(), start.is_empty()) {
        return Ok(only.clone());
    }
    if start.is_empty() {
        let card = group.card.map(|c| c.to_string()).unwrap_or_default();
        return Err(format!(
            "Card {card} is {}; write the start of its word too.",
            group.faults.join(" or ")
        ));
    }
    of_word(start, &group.faults, lift)
}

/// The codes that begin with a word; where none does, those that hold it.
fn fits<'a>(word: &str, of: &'a [String]) -> Vec<&'a String> {
    if let Some(exact) = of.iter().find(|c| *c == word) {
        return vec![exact];
    }
    let begin: Vec<&String> = of.iter().filter(|c| c.starts_with(word)).collect();
    if begin.is_empty() {
        return of.iter().filter(|c| c.contains(word)).collect();
    }
    begin
}

fn of_word(word: &str, of: &[String], lift: Option<&Lift>) -> Result<String, String> {
    match fits(word, of).as_slice() {
        [only] => Ok((*only).clone()),
        [] => Err(format!(
            "“{word}” is no fault of {}; there is {}.",
            lift.map_or_else(|| "any lift".to_owned(), |l| format!("the {}", l.name)),
            listed(lift)
        )),
        several => {
            let list: Vec<&str> = several.iter().map(|c| c.as_str()).collect();
            Err(format!(
                "“{word}” could be {}; write more of it.",
                list.join(" or ")
            ))
        }
    }
}
