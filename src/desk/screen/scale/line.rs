//! The scale's line: what Enter will do, as a sentence.

use super::fields::Field;
use super::find::Found;
use super::owed::{after, owed, to_weigh};
use super::sheet::ScaleSheet;
use super::{FINDER, Scale};
use crate::day::Facts;
use crate::desk::see;
use crate::desk::widget::grid::Sheet;
use crate::roster::Entry;

impl Scale {
    /// What Enter will do, as a sentence.
    pub fn line(&self, facts: &Facts) -> String {
        let sheet = ScaleSheet::new(facts);
        let at = self.grid.cursor;
        let (Some(entry), Some(field)) =
            (sheet.entries().get(at.row), sheet.fields.get(at.column))
        else {
            return "Nobody is entered yet.".to_owned();
        };
        if let Some(text) = self.grid.finding() {
            return self.looking(&sheet, text);
        }
        if at.column == FINDER {
            return self.nobody_yet(facts, &sheet);
        }
        let who = named(entry);
        let name = match field {
            Field::Bodyweight => format!("bodyweight in {}", facts.scale_unit),
            Field::Opener(slot) => {
                let lift = entry.variant(slot).unwrap_or(slot);
                format!("opener in {}", see::lift_name(lift))
            }
            _ => sheet.columns()[at.column].title.clone(),
        };
        let Some(draft) = self.grid.draft(entry.key.0, at.column) else {
            return untouched(facts, entry, field, &name, &sheet, at.column);
        };
        match field.command(facts, entry, &draft.text) {
            Err(sentence) => sentence,
            Ok(None) => format!("{} of {who} stays as it is.", see::capital(&name)),
            Ok(Some(_)) => {
                let advice = field.advice(facts, entry, &draft.text).unwrap_or_default();
                let typed = draft.text.trim();
                let said = if typed.is_empty() { "nothing" } else { typed };
                let old = match field {
                    Field::Bodyweight => entry.bodyweight.as_ref(),
                    Field::Opener(slot) => {
                        entry.slots.get(slot).and_then(|l| l.opener.as_ref())
                    }
                    _ => None,
                };
                let old = old.map_or_else(String::new, |old| {
                    let unit = match field {
                        Field::Bodyweight => facts.scale_unit,
                        _ => facts.bar_unit,
                    };
                    format!(" in place of {}", old.show(unit))
                });
                format!("Enter records {said}{old} as the {name} of {who}. {advice}")
                    .trim_end()
                    .to_owned()
            }
        }
    }

    /// Something is typed to look for somebody.
    fn looking(&self, sheet: &ScaleSheet<'_>, text: &str) -> String {
        let text = text.trim();
        let all = sheet.entries();
        match (sheet.find(text), self.chosen) {
            (Found::One(row), _) => match all.get(row) {
                Some(entry) => format!("Enter goes to {}.", named(entry)),
                None => String::new(),
            },
            (Found::Several(rows), Some(chosen)) if rows.contains(&chosen) => {
                format!("Enter goes to {}.", named(all[chosen]))
            }
            (Found::Several(rows), _) if text.bytes().all(|b| b.is_ascii_digit()) => {
                let numbers: Vec<String> =
                    rows.iter().map(|r| all[*r].number.to_string()).collect();
                format!(
                    "There is no lot {text}; {} {} with it. Type on, or choose with Down.",
                    listed(&numbers, "and"),
                    if numbers.len() == 1 {
                        "begins"
                    } else {
                        "begin"
                    }
                )
            }
            (Found::Several(rows), _) => {
                let names: Vec<String> = rows.iter().map(|r| all[*r].name()).collect();
                format!(
                    "“{text}” may be {}. Type on, or choose with Down; or type the lot.",
                    listed(&names, "or")
                )
            }
            (Found::Nobody, _) => format!(
                "No lot is “{text}” and no name begins with it. Esc clears it; new athletes \
                 are entered on the roster, F3."
            ),
        }
    }

    /// Nothing is typed to look for somebody.
    fn nobody_yet(&self, facts: &Facts, sheet: &ScaleSheet<'_>) -> String {
        let all = sheet.entries();
        match self.next(sheet).and_then(|row| all.get(row)) {
            Some(entry) if to_weigh(entry) => format!(
                "Enter goes to {}, the next to be weighed. Or type a lot or the beginning of \
                 a name.",
                named(entry)
            ),
            Some(entry) => format!(
                "Enter goes to {}. Or type a lot or the beginning of a name.",
                named(entry)
            ),
            None => match self.owing(facts, sheet) {
                Some((row, _)) => {
                    let entry = all[row];
                    let owed = owed(facts, entry);
                    let words: Vec<String> =
                        owed.iter().map(|o| o.words(entry)).collect();
                    format!(
                        "All are weighed. Enter goes to {}, who owes: {}. Or type a lot or a \
                         name.",
                        named(entry),
                        words.join(", ")
                    )
                }
                None => {
                    "All are weighed. Type a lot or the beginning of a name.".to_owned()
                }
            },
        }
    }
}

fn named(entry: &Entry) -> String {
    format!("lot {}, {}", entry.number, entry.name())
}

/// The first few as a list for a sentence: `10, 11 and 12`.
fn listed(words: &[String], last: &str) -> String {
    const NAMED: usize = 4;
    if words.len() > NAMED {
        let more = words.len() - NAMED;
        return format!("{} {last} {more} more", words[..NAMED].join(", "));
    }
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., end] => format!("{} {last} {end}", first.join(", ")),
    }
}

/// Nothing is typed in the cell in hand.
fn untouched(
    facts: &Facts,
    entry: &Entry,
    field: &Field,
    name: &str,
    sheet: &ScaleSheet<'_>,
    column: usize,
) -> String {
    let who = named(entry);
    match field {
        Field::Clearance => format!(
            "Clearance of {who}: yes, no, or up to and a load; “back-squat: no” for one lift; \
             then ; who; why (Tab finishes them)."
        ),
        Field::Cap => format!(
            "Cap of {who}: a load that isn't to be exceeded; “back-squat: 100” for one lift; \
             then ; who; why (Tab finishes them)."
        ),
        Field::Setup(setup) if setup.starts_with("grip") => format!(
            "{} of {who}, in millimetres (850) or centimetres (85 cm).",
            see::capital(setup)
        ),
        Field::Setup(setup) => format!(
            "{} of {who}, in millimetres (850) or as the rack counts.",
            see::capital(setup)
        ),
        Field::Lot | Field::Edge | Field::Remark | Field::Name | Field::Sex => format!(
            "{who}: {name}. Type a lot or the beginning of a name to look for an athlete."
        ),
        Field::Opener(slot)
            if entry.slots.get(slot).is_some_and(|l| l.opener.is_some()) =>
        {
            standing(facts, entry, &sheet.fields, name, column)
        }
        Field::Bodyweight | Field::Category | Field::Opener(_) => format!(
            "{} of {who}. Right and End go to clearance, cap and set-ups; Esc looks for \
             another athlete.",
            see::capital(name)
        ),
    }
}

/// An opener stands and can be confirmed.
fn standing(
    facts: &Facts,
    entry: &Entry,
    fields: &[Field],
    name: &str,
    column: usize,
) -> String {
    let loads: Vec<String> = facts
        .slots
        .iter()
        .filter(|l| entry.takes_part(&l.slot))
        .filter_map(|l| entry.slots.get(&l.slot)?.opener.as_ref())
        .map(|load| load.show(facts.bar_unit))
        .collect();
    let stand = match loads.as_slice() {
        [one] => format!("The opener {one} {} stands", facts.bar_unit),
        _ => format!(
            "The openers {} {} stand",
            listed(&loads, "and"),
            facts.bar_unit
        ),
    };
    let then = match after(facts, entry, fields, column, false) {
        None => "Enter looks for the next athlete".to_owned(),
        Some(to) => {
            let next = owed(facts, entry)
                .into_iter()
                .find(|o| fields.get(to).is_some_and(|f| o.is_at(f)));
            let words = next.map(|o| o.words(entry)).unwrap_or_default();
            format!("Enter goes to the {words}")
        }
    };
    // Tab goes through the openers one by one.
    let next = fields.iter().skip(column + 1).find_map(|f| match f {
        Field::Opener(slot) if entry.takes_part(slot) => entry.variant(slot),
        _ => None,
    });
    let tab = next.map_or_else(String::new, |lift| {
        format!("; Tab goes on to {}", see::lift_name(lift))
    });
    format!("{stand}: {then}. Type a load to change the {name}{tab}.")
}
