//! What several papers share: their frame, the flights, the columns shown.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::Order;
use crate::day::Facts;
use crate::lift::Slug;
use crate::papers::Frame;
use crate::papers::picture::Image;
use crate::roster::{Entry, Presence, SlotLine};
use crate::sheets::{Audience, Cell, Table, lift_name};

/// The frame of a paper with this title: the day, its date and venue, when it
/// was made and the audience.
pub(super) fn frame(facts: &Facts, order: &Order, title: &str) -> Frame {
    let made = order.made.local();
    Frame::new(order.size, title)
        .day(&facts.name, facts.date.format("%A, %-d %B %Y").to_string())
        .school(
            &facts.school.name,
            facts.school.picture.clone().map(Image::new),
        )
        .venue(&facts.venue)
        .foot(
            made.format("printed %H:%M, %-d %B %Y").to_string(),
            order.audience.word(),
        )
}

/// The frame of a paper that names nobody: it may hang anywhere, and its foot says
/// so whoever asks for it.
pub(super) fn frame_for_all(facts: &Facts, order: &Order, title: &str) -> Frame {
    let made = frame(facts, order, title);
    let foot = made.made.clone();
    made.foot(foot, Audience::Posted.word())
}

/// The frame of a paper for a notice board or an archive: the unit of the loads
/// stands at the head of every page, since pages are hung side by side.
pub(super) fn frame_with_units(facts: &Facts, order: &Order, title: &str) -> Frame {
    let mut words = format!("Loads in {}", facts.bar_unit);
    if !facts.venue.is_empty() {
        words.push_str(&format!(" · {}", facts.venue));
    }
    frame(facts, order, title).venue(words)
}

/// The athletes who lift together, or who have no flight yet.
pub(super) struct Squad<'a> {
    pub session: &'a str,
    pub flight: &'a str,
    pub platform: Option<u8>,
    /// By table number; never empty.
    pub entries: Vec<&'a Entry>,
}

/// All flights that have an athlete, by session and name; who has no flight yet
/// comes last in the session.
pub(super) fn squads(facts: &Facts) -> Vec<Squad<'_>> {
    let mut by_place: BTreeMap<(&str, &str), Vec<&Entry>> = BTreeMap::new();
    for entry in facts.entries_by_number() {
        let place = (entry.session.as_str(), entry.flight.as_str());
        by_place.entry(place).or_default().push(entry);
    }
    let mut squads = Vec::new();
    for flight in &facts.flights {
        let place = (flight.session.as_str(), flight.name.as_str());
        if let Some(entries) = by_place.remove(&place) {
            squads.push(Squad {
                session: place.0,
                flight: place.1,
                platform: Some(flight.platform),
                entries,
            });
        }
    }
    let unplaced = by_place.into_iter();
    squads.extend(unplaced.map(|((session, flight), entries)| Squad {
        session,
        flight,
        platform: None,
        entries,
    }));
    squads.sort_by(|a, b| place_order((a.session, a.flight), (b.session, b.flight)));
    squads
}

/// The order of two places, each a session and a flight: numbers by their value
/// and before words, no flight last.
pub(super) fn place_order(a: (&str, &str), b: (&str, &str)) -> Ordering {
    fn key(name: &str) -> (bool, u64, &str) {
        let number = name.parse::<u64>();
        (name.is_empty(), number.unwrap_or(u64::MAX), name)
    }
    (key(a.0), key(a.1)).cmp(&(key(b.0), key(b.1)))
}

/// `Flight A, Rack 1`, with the session before it where there are several.
pub(super) fn squad_label(facts: &Facts, squad: &Squad<'_>) -> String {
    let mut words = Vec::new();
    if facts.sessions.len() > 1 && !squad.session.is_empty() {
        words.push(format!("Session {}", squad.session));
    }
    if squad.flight.is_empty() {
        words.push("no flight yet".to_owned());
    } else {
        words.push(format!("flight {}", squad.flight));
    }
    words.extend(squad.platform.map(|p| facts.platform_label(p)));
    capital(&words.join(", "))
}

/// A slot's name for a heading: the lift's, or the slot's own where it allows
/// several lifts.
pub(super) fn slot_name(line: &SlotLine) -> String {
    match line.variants.as_slice() {
        [only] => capital(&lift_name(only)),
        _ => capital(&line.slot.as_str().replace('-', " ")),
    }
}

/// The text with a capital first letter.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Why somebody who is entered may not be there, in a word; mostly nothing.
pub(super) fn whereabouts(entry: &Entry, slot: Option<&Slug>) -> &'static str {
    let left = |slot: &Slug| entry.withdrawn_slots.contains(slot);
    match entry.presence {
        _ if entry.disqualified || slot.is_some_and(|s| entry.is_disqualified(s)) => {
            "disqualified"
        }
        _ if entry.withdrawn || slot.is_some_and(left) => "withdrawn",
        Presence::Absent => "absent",
        Presence::Away => "away",
        Presence::Expected | Presence::Here => "",
    }
}

/// Takes the heading from the column of notes, which then stand small beneath the
/// names; where no name is shown they keep their column.
pub(super) fn notes_beneath(table: &mut Table) {
    let mut columns = table.columns.iter();
    if columns.any(|c| c.key == "name" && !c.label.is_empty()) {
        hide(table, "note");
    }
}

/// Takes the heading, and so the place on paper, from those of the columns in
/// which no row has anything.
pub(super) fn hide_empty(table: &mut Table, keys: &[&str]) {
    for index in 0..table.columns.len() {
        let filled = table
            .groups
            .iter()
            .flat_map(|g| &g.rows)
            .any(|row| row.get(index).is_some_and(|c| *c != Cell::Blank));
        if !filled && keys.contains(&table.columns[index].key.as_str()) {
            table.columns[index].label.clear();
        }
    }
}

/// Takes the heading, and so the place on paper, from the column of this key.
pub(super) fn hide(table: &mut Table, key: &str) {
    hide_where(table, |k| k == key);
}

/// Takes the headings, and so the place on paper, from all columns of a slot.
pub(super) fn hide_slot(table: &mut Table, line: &SlotLine) {
    hide_where(table, |key| of_slot(key, line).is_some());
}

/// Takes the headings from the columns of such keys.
pub(super) fn hide_where(table: &mut Table, mut wanted: impl FnMut(&str) -> bool) {
    for column in table.columns.iter_mut().filter(|c| wanted(&c.key)) {
        column.label.clear();
        column.span.clear();
    }
}

/// What a column of a slot is about, such as `1` or `best`.
pub(super) fn of_slot<'a>(key: &'a str, line: &SlotLine) -> Option<&'a str> {
    key.strip_prefix(line.slot.as_str())?.strip_prefix(' ')
}

/// The title of a paper that is made for both audiences: the private one says so
/// where it is seen from afar.
pub(super) fn title(title: &str, audience: Audience) -> String {
    match audience {
        Audience::Posted => title.to_owned(),
        Audience::Private => format!("{title}, {}", audience.word()),
    }
}

/// What stands beside a load that was lifted several times, where there is one.
pub(super) fn repetitions(facts: &Facts) -> &'static str {
    let mut runs = facts.runs.values().flat_map(BTreeMap::values);
    let several = runs.any(|run| {
        let mut ruled = run.attempts.values().filter_map(|a| a.ruled.as_ref());
        ruled.any(|r| r.fact.reps > 1)
    });
    if several {
        " x5 beneath a load: so many repetitions, no test of the max."
    } else {
        ""
    }
}
