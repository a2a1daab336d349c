//! The athlete in hand, with what is typed taken for what stands.

use super::edge::{Edge, in_other_unit};
use super::fields::{Field, clearance_text};
use super::owed::{owed, remarks, to_weigh};
use crate::day::{Command, Facts};
use crate::desk::screen::roster::fields::{opener_sentence, sentence};
use crate::desk::see;
use crate::desk::widget::grid::Grid;
use crate::roster::{Change, Clearance, Entry};
use crate::sheets::openers_sum_remark;

/// One thing that is asked of the athlete, for a box of its own.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked {
    /// Its column in the grid.
    pub column: usize,
    /// What it is.
    pub label: String,
    /// What is typed, else what stands; empty where there is nothing.
    pub value: String,
    /// Whether it is a grip or a height.
    pub setup: bool,
    /// Whether it is owed.
    pub owed: bool,
    /// Whether what is typed was refused.
    pub refused: bool,
}

/// What an official has to see of the athlete in hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InHand {
    /// Table number.
    pub number: u16,
    /// Given, space, family.
    pub name: String,
    /// Sex, grade, team, session and flight, as far as they are known.
    pub detail: String,
    /// Bodyweight, openers, clearance, cap and set-ups.
    pub asked: Vec<Asked>,
    /// The category by the scale with its sex, or why there is none.
    pub category: String,
    /// How far the bodyweight is from the category's edges.
    pub distances: Vec<String>,
    /// The bodyweight in the other unit; empty without a bodyweight.
    pub other: String,
    /// What is owed, as a sentence.
    pub owed: String,
    /// Whether anything is owed.
    pub owes: bool,
    /// What is odd, as sentences; the gravest first.
    pub odd: Vec<String>,
}

/// As many of the sentences as have room in so many characters, and how many
/// more there are.
pub fn with_room(sentences: &[String], room: usize) -> String {
    let mut text = String::new();
    for (at, sentence) in sentences.iter().enumerate() {
        if at > 0 && text.chars().count() + sentence.chars().count() > room {
            let more = sentences.len() - at;
            text.push_str(&format!(" And {more} more, said at each opener."));
            break;
        }
        if at > 0 {
            text.push(' ');
        }
        text.push_str(sentence);
    }
    text
}

impl InHand {
    /// The athlete with what is typed.
    pub fn of(facts: &Facts, entry: &Entry, fields: &[Field], grid: &Grid) -> Self {
        let typed = as_typed(facts, entry, fields, grid);
        let owes = owed(facts, &typed);
        let asked = asked(facts, entry, fields, grid, &|f| {
            owes.iter().any(|o| o.is_at(f))
        });
        let (category, distances, other) = by_the_scale(facts, &typed);
        let words: Vec<String> = owes.iter().map(|o| o.words(entry)).collect();
        let mut odd: Vec<String> =
            remarks(facts, &typed).into_iter().map(sentence).collect();
        // What is being typed is judged on the line.
        let in_hand = fields
            .get(grid.cursor.column)
            .filter(|_| grid.draft(entry.key.0, grid.cursor.column).is_some());
        let lifts = || facts.slots.iter().filter(|l| typed.takes_part(&l.slot));
        let not_cleared: Vec<String> = lifts()
            .filter(|l| facts.clearance(&typed, &l.slot) == Some(&Clearance::No))
            .map(|l| see::lift_name(typed.variant(&l.slot).unwrap_or(&l.slot)))
            .collect();
        if !not_cleared.is_empty() {
            odd.push(format!("Not cleared today: {}.", not_cleared.join(", ")));
        }
        for line in lifts() {
            let typing = in_hand == Some(&Field::Opener(line.slot.clone()));
            if !typing {
                odd.extend(opener_sentence(facts, &typed, &line.slot));
            }
        }
        odd.extend(openers_sum_remark(facts, &typed).map(sentence));
        Self {
            number: entry.number,
            name: entry.name(),
            detail: detail(facts, entry),
            asked,
            category,
            distances,
            other,
            owes: !words.is_empty(),
            owed: if words.is_empty() {
                "Nothing is owed.".to_owned()
            } else {
                format!("Owed: {}.", words.join(", "))
            },
            odd,
        }
    }
}

/// The entry as it will be once what is typed, and can be read, is taken.
fn as_typed(facts: &Facts, entry: &Entry, fields: &[Field], grid: &Grid) -> Entry {
    let mut typed = entry.clone();
    for (column, draft) in grid.drafts_of(entry.key.0) {
        let Some(field) = fields.get(column) else {
            continue;
        };
        match field.command(facts, entry, &draft.text) {
            Ok(Some(Command::Weigh { bodyweight, .. })) => {
                typed.apply(&Change::Bodyweight(Some(bodyweight)));
            }
            Ok(Some(Command::Edit { changes, .. })) => {
                changes.iter().for_each(|change| typed.apply(change));
            }
            Ok(Some(Command::Clear {
                lift,
                clearance,
                until,
                ..
            })) => typed.apply(&Change::Clearance {
                slot: lift,
                clearance: Some(clearance),
                until,
            }),
            // What can't be read is no bodyweight yet.
            Err(_) if *field == Field::Bodyweight => typed.bodyweight = None,
            _ => {}
        }
    }
    typed
}

fn asked(
    facts: &Facts,
    entry: &Entry,
    fields: &[Field],
    grid: &Grid,
    owes: &dyn Fn(&Field) -> bool,
) -> Vec<Asked> {
    let mut list = Vec::new();
    for (column, field) in fields.iter().enumerate() {
        let label = match field {
            Field::Bodyweight => format!("Bodyweight {}", facts.scale_unit),
            Field::Opener(slot) => match entry.variant(slot) {
                Some(lift) => see::lift_name(lift),
                None => see::lift_name(slot),
            },
            Field::Clearance => "Cleared".to_owned(),
            Field::Cap => "Cap".to_owned(),
            Field::Setup(name) => name.clone(),
            Field::Lot
            | Field::Name
            | Field::Sex
            | Field::Category
            | Field::Edge
            | Field::Remark => continue,
        };
        let draft = grid.draft(entry.key.0, column);
        let owed = owes(field);
        let value = match (draft, field) {
            (Some(draft), _) => draft.text.clone(),
            (None, Field::Opener(slot)) => opener(facts, entry, field, slot, owed),
            (None, Field::Clearance) if owed => {
                let words = clearance_text(facts, entry);
                if words.is_empty() {
                    "owed".to_owned()
                } else {
                    words
                }
            }
            (None, Field::Bodyweight) if owed => "owed".to_owned(),
            (None, _) => field.text(facts, entry),
        };
        list.push(Asked {
            column,
            label: see::capital(&label),
            value,
            setup: matches!(field, Field::Setup(_)),
            owed,
            refused: draft.is_some_and(|d| d.refused.is_some()),
        });
    }
    list
}

/// An opener without the name of its variant, which the label has.
fn opener(
    facts: &Facts,
    entry: &Entry,
    field: &Field,
    slot: &crate::lift::Slug,
    owed: bool,
) -> String {
    let load = entry.slots.get(slot).and_then(|l| l.opener.as_ref());
    match load {
        Some(load) if entry.variant(slot).is_some() => load.show(facts.bar_unit),
        None if owed => "owed".to_owned(),
        _ => match field.text(facts, entry).as_str() {
            "-" => "not entered".to_owned(),
            other => other.to_owned(),
        },
    }
}

fn detail(facts: &Facts, entry: &Entry) -> String {
    let mut words = Vec::new();
    if let Some(sex) = entry.sex {
        words.push(sex.to_string());
    }
    if !entry.category.is_empty() {
        words.push(format!("entered for {}", entry.category));
    }
    if !entry.grade.is_empty() {
        words.push(format!("grade {}", entry.grade));
    }
    if !entry.team.is_empty() {
        words.push(entry.team.clone());
    }
    if let Some(total) = &entry.entry_total {
        let total = total.mass.show_with_unit(facts.bar_unit);
        words.push(format!("entry total {total}"));
    }
    if facts.sessions.len() > 1 {
        words.push(format!("session {}", entry.session));
    }
    if !entry.flight.is_empty() {
        words.push(format!("flight {}", entry.flight));
    }
    words.join(", ")
}

/// The category or why there is none, the distances from its edges, and the
/// bodyweight in the other unit.
fn by_the_scale(facts: &Facts, entry: &Entry) -> (String, Vec<String>, String) {
    let set = crate::standings::category_set(facts);
    let Some(weight) = &entry.bodyweight else {
        let words = match set {
            Some(_) => "Category: not weighed yet",
            None => "Not weighed yet",
        };
        return (words.to_owned(), Vec::new(), String::new());
    };
    let other = in_other_unit(facts, entry.sex, weight.mass);
    match Edge::of(facts, entry.sex, weight.mass) {
        Some(edge) => {
            let distances = edge.distances(facts.scale_unit);
            (format!("Category {}", edge.label), distances, other)
        }
        None if set.is_some() && entry.sex.is_none() => {
            ("No category without the sex".to_owned(), Vec::new(), other)
        }
        None => (format!("That is {other}"), Vec::new(), String::new()),
    }
}

/// How many are still to be weighed, as words: of the session in hand where
/// there are several, and below it who they are, once they are few, and how
/// many of the day.
pub fn to_weigh_words(facts: &Facts, session: &str) -> (String, String) {
    const FEW: usize = 6;
    let waiting = |of: &dyn Fn(&Entry) -> bool| {
        let list = facts.entries_by_number();
        let list: Vec<&Entry> = list.filter(|e| of(e)).collect();
        let lots = list.iter().filter(|e| to_weigh(e)).map(|e| e.number);
        (lots.collect::<Vec<u16>>(), list.len())
    };
    let words = |(lots, all): &(Vec<u16>, usize)| match lots.len() {
        0 => "All are weighed".to_owned(),
        n => format!("{n} of {all} still to weigh"),
    };
    let day = waiting(&|_| true);
    let several = facts.sessions.len() > 1;
    let here = if several {
        waiting(&|e| e.session == session)
    } else {
        day.clone()
    };
    let mut below = Vec::new();
    if (1..=FEW).contains(&here.0.len()) {
        let lots: Vec<String> = here.0.iter().map(ToString::to_string).collect();
        below.push(format!("Lot {}", lots.join(", ")));
    }
    if several {
        below.push(match day.0.len() {
            0 => "all of the day are weighed".to_owned(),
            n => format!("{n} of {} over the day", day.1),
        });
    }
    let title = if several {
        let words = words(&here).replacen('A', "a", 1);
        format!("Session {session}: {words}")
    } else {
        words(&here)
    };
    (title, below.join("; "))
}
