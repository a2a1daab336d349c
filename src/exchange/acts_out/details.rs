//! Details of entries as `key=value`.

use chrono::NaiveDate;

use super::{Writer, show};
use crate::day::{Event, Recorded};
use crate::lift::Slug;
use crate::roster::{Change, Clearance};

type Pairs = Vec<(String, String)>;

fn put(pairs: &mut Pairs, key: &str, value: impl Into<String>) {
    let value = value.into();
    // The last word counts where a detail is said twice.
    pairs.retain(|(k, _)| k != key);
    pairs.push((key.to_owned(), value));
}

impl Writer<'_> {
    /// The pairs of an `add` row.
    pub(super) fn added(
        &self,
        number: u16,
        changes: &[Change],
        act: &[Recorded],
    ) -> Pairs {
        let mut pairs = vec![("lot".to_owned(), number.to_string())];
        let mut details = self.changed(changes);
        details.retain(|(_, value)| !value.is_empty());
        pairs.append(&mut details);
        for line in &self.day.facts().slots {
            let said = changes.iter().rev().find_map(|c| match c {
                Change::Slot {
                    slot,
                    variant,
                    opener,
                } if *slot == line.slot => Some((variant, opener)),
                _ => None,
            });
            let (key, value) = match said {
                Some((Some(variant), opener)) => {
                    (variant, self.maybe_load(opener.as_ref()))
                }
                _ => (line.default_variant(), "-".to_owned()),
            };
            put(&mut pairs, key.as_str(), value);
        }
        for change in changes {
            if let Change::Place { session, flight } = change {
                self.place_pairs(session, flight, act, &mut pairs);
            }
        }
        pairs
    }

    /// Session, flight, and the platform where the act makes the flight.
    pub(super) fn place_pairs(
        &self,
        session: &str,
        flight: &str,
        act: &[Recorded],
        pairs: &mut Pairs,
    ) {
        if !session.is_empty() {
            put(pairs, "session", session);
        }
        if flight.is_empty() {
            return;
        }
        put(pairs, "flight", flight);
        let made = act.iter().find_map(|r| match &r.event {
            Event::FlightMade {
                session: s,
                flight: f,
                platform,
            } if s == session && f == flight => Some(platform),
            _ => None,
        });
        if let Some(platform) = made {
            put(pairs, "platform", platform.to_string());
        }
    }

    /// Changed details as pairs; places are written apart.
    pub(super) fn changed(&self, changes: &[Change]) -> Pairs {
        let mut pairs = Pairs::new();
        for change in changes {
            match change {
                Change::Number(n) => put(&mut pairs, "lot", n.to_string()),
                Change::Id(text) => put(&mut pairs, "id", text),
                Change::Given(text) => put(&mut pairs, "given", text),
                Change::Family(text) => put(&mut pairs, "family", text),
                Change::Sex(sex) => {
                    put(&mut pairs, "sex", sex.map_or("", |s| s.letter()));
                }
                Change::Born(born) => {
                    let text = born.map(|b| b.to_string()).unwrap_or_default();
                    put(&mut pairs, "born", text);
                }
                Change::Grade(text) => put(&mut pairs, "grade", text),
                Change::Team(text) => put(&mut pairs, "team", text),
                Change::Category(text) => put(&mut pairs, "category", text),
                Change::Divisions(list) => put(&mut pairs, "division", list.join("; ")),
                Change::Bodyweight(weight) => {
                    let text = weight.as_ref().map(|w| show(w, self.scale));
                    put(&mut pairs, "bodyweight", text.unwrap_or_default());
                }
                Change::EntryTotal(weight) => {
                    put(&mut pairs, "entry total", self.maybe_load(weight.as_ref()));
                }
                Change::Slot {
                    slot,
                    variant,
                    opener,
                } => self.slot(&mut pairs, slot, variant.as_ref(), opener.as_ref()),
                Change::Last { lift, load } => {
                    let key = format!("{lift} last");
                    put(&mut pairs, &key, self.maybe_load(load.as_ref()));
                }
                Change::Clearance {
                    slot,
                    clearance,
                    until,
                } => {
                    let word = clearance.as_ref();
                    let word = word.map(|c| self.clearance_word(c, *until));
                    put_clearance(&mut pairs, slot.as_ref(), word);
                }
                Change::Guest(guest) => {
                    put(&mut pairs, "guest", if *guest { "yes" } else { "no" });
                }
                Change::Setup { name, value } => put(&mut pairs, name, value),
                Change::Place { .. } => {}
            }
        }
        pairs
    }

    fn slot(
        &self,
        pairs: &mut Pairs,
        slot: &Slug,
        variant: Option<&Slug>,
        opener: Option<&crate::measure::Weight>,
    ) {
        let line = self.day.facts().slot(slot.as_str());
        // A slot that is said twice counts as it was said last.
        for other in line.iter().flat_map(|l| &l.variants) {
            pairs.retain(|(key, _)| key != other.as_str());
        }
        let default = line.map_or(slot, |l| l.default_variant());
        match variant {
            Some(variant) => put(pairs, variant.as_str(), self.maybe_load(opener)),
            None => put(pairs, default.as_str(), "-"),
        }
    }

    pub(super) fn clearance_word(
        &self,
        clearance: &Clearance,
        until: Option<NaiveDate>,
    ) -> String {
        clearance.words(until, |load| self.load(load))
    }
}

/// Adds a clearance to those of other lifts.
fn put_clearance(pairs: &mut Pairs, slot: Option<&Slug>, word: Option<String>) {
    let key = "clearance";
    let Some(word) = word else {
        put(pairs, key, "");
        return;
    };
    let word = match slot {
        Some(slot) => format!("{slot}: {word}"),
        None => word,
    };
    let earlier = pairs.iter().find(|(k, v)| k == key && !v.is_empty());
    let text = match earlier {
        Some((_, earlier)) => format!("{earlier}; {word}"),
        None => word,
    };
    put(pairs, key, text);
}
