//! What the loaders do: from the bar as it stands to the load that is next.

use std::collections::BTreeMap;

use super::on_bar::{bar_words, disc_words, not_made};
use crate::bar::{Change, fewest};
use crate::day::{Day, Event, Facts, Recorded, Source, queue};
use crate::lift::Slug;
use crate::measure::{Mass, Weight};
use crate::roster::{Entry, EntryKey};

/// What is told where the bar stands as it should.
const NOTHING: &str = "nothing to change";

/// A load that a bar was made up for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MadeUp {
    /// For whom, which says the empty bar.
    pub entry: EntryKey,
    /// The slot.
    pub slot: Slug,
    /// Attempt number.
    pub attempt: u8,
    /// The load.
    pub load: Mass,
}

/// The bar of a platform, as far as the journal tells.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Standing {
    /// The last load that was called or ruled; `None` before the first call.
    pub now: Option<MadeUp>,
    /// What the bar stood at before the last call.
    pub before: Option<MadeUp>,
}

/// The bar of a platform as it stands: the last load that was called or ruled
/// there by an act that stands, or that was found on the bar.
///
/// A fold over the whole journal, with the corrections made to it. A load that
/// is asked for after the call isn't on the bar before the ruling says so, and
/// neither cards nor passes put anything on it.
pub fn standing_bar(day: &Day, platform: u8) -> Standing {
    let stands = |r: &&Recorded| day.stands_now(r.seq);
    let mut corrected: BTreeMap<u64, &Event> = BTreeMap::new();
    for r in day.journal().iter().filter(stands) {
        if let Event::Corrected { target, event, .. } = &r.event {
            let _ = corrected.insert(*target, event);
        }
    }
    let acts = day.journal().iter().filter(stands);
    acts.fold(Standing::default(), |bar, r| {
        let event = corrected.get(&r.seq).copied().unwrap_or(&r.event);
        bar.after(event, r.platform == Some(platform))
    })
}

impl Standing {
    /// The bar after one more event, on this platform or elsewhere.
    fn after(mut self, event: &Event, here: bool) -> Self {
        match event {
            Event::Called {
                entry,
                slot,
                attempt,
                load,
                ..
            } if here => {
                self.before = self.now.replace(MadeUp {
                    entry: *entry,
                    slot: slot.clone(),
                    attempt: *attempt,
                    load: load.mass,
                });
            }
            Event::Ruled(fact) if here => {
                let live = match fact.source {
                    Source::Lights => true,
                    Source::Stop => fact.called_at.is_some(),
                    Source::Card | Source::Table => false,
                };
                if let Some(load) = fact.loaded.as_ref().filter(|_| live) {
                    self.now = Some(MadeUp {
                        entry: fact.entry,
                        slot: fact.slot.clone(),
                        attempt: fact.attempt,
                        load: load.mass,
                    });
                }
            }
            Event::LoadFound {
                entry,
                slot,
                attempt,
                loaded,
                ..
            } => {
                if let Some(now) = self.now.as_mut()
                    && (now.entry, &now.slot, now.attempt) == (*entry, slot, *attempt)
                {
                    now.load = loaded.mass;
                }
            }
            _ => {}
        }
        self
    }
}

/// What the loaders of a platform are told.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Loading {
    /// Whose load it is.
    pub entry: EntryKey,
    /// Attempt number.
    pub attempt: u8,
    /// Attempts allowed.
    pub allowed: u8,
    /// Whether the athlete is called.
    pub called: bool,
    /// The load; `None` where it is owed.
    pub load: Option<Mass>,
    /// What to do, without a full stop; `Err` where the load can't be made.
    pub words: Result<String, String>,
    /// From which load what was to be done before the call, where the bar
    /// stands as called.
    pub was: Option<(Mass, String)>,
    /// The discs of one side from the inside, each as a number; empty where
    /// there are none.
    pub side: Vec<String>,
    /// The empty bar in words, as it is known on the platform.
    pub bar: String,
    /// The load that the bar stands at.
    pub stands: Option<Mass>,
    /// Who comes after, and at which load; `None` in it where it is owed.
    pub then: Option<(EntryKey, Option<Mass>)>,
}

/// What the loaders of a platform do for the athlete who is called there, else
/// for the next in the queue; `None` where nobody is.
///
/// A bar always carries the fewest discs that make its load (IWF TCRR as
/// rendered by a broadcaster's guide), so what is told here is what stands
/// when the next load is told.
pub fn loading(day: &Day, platform: u8) -> Option<Loading> {
    let facts = day.facts();
    let order = queue(facts, platform);
    let call = facts.platform(platform)?.call.as_ref();
    let (key, slot, attempt, load) = match (call, order.first()) {
        (Some(c), _) => (c.entry, &c.slot, c.attempt, Some(c.load.mass)),
        (None, Some(q)) => {
            let load = q.load.as_ref().map(|w| w.mass);
            (q.entry, &q.slot, q.attempt, load)
        }
        (None, None) => return None,
    };
    let entry = facts.entries.get(&key)?;
    let bar = standing_bar(day, platform);
    let told = load.map(|load| tell(facts, platform, entry, load, bar.now.as_ref()));
    let as_called = call.is_some() && bar.now.as_ref().map(|b| b.load) == load;
    let was = bar.before.filter(|_| as_called).and_then(|before| {
        let (_, words) = tell(facts, platform, entry, load?, Some(&before)).ok()?;
        (words != NOTHING).then_some((before.load, words))
    });
    let then = order.iter().find(|q| q.entry != key);
    let (side, words) = match told {
        None => (Vec::new(), Ok("wait, the load is owed".to_owned())),
        Some(Err(sentence)) => (Vec::new(), Err(sentence)),
        Some(Ok((change, words))) => {
            let side = change.side.iter().map(|d| disc_words(facts, d));
            (side.collect(), Ok(words))
        }
    };
    Some(Loading {
        entry: key,
        attempt,
        allowed: facts.attempts_allowed(key, slot),
        called: call.is_some(),
        load,
        words,
        was,
        side,
        bar: bar_words(facts, platform, facts.empty_bar(platform, entry)),
        stands: bar.now.map(|b| b.load),
        then: then.map(|q| (q.entry, q.load.as_ref().map(|w| w.mass))),
    })
}

/// The change of each side and its words; the sentence where a load can't be
/// made.
fn tell(
    facts: &Facts,
    platform: u8,
    entry: &Entry,
    load: Mass,
    stands: Option<&MadeUp>,
) -> Result<(Change, String), String> {
    let discs = facts.discs(platform);
    let bar = facts.empty_bar(platform, entry);
    let Some(side) = fewest(discs, bar, load) else {
        return Err(not_made(facts, platform, entry, load).unwrap_or_default());
    };
    // Somebody who isn't known any more had the same bar.
    let old = stands.map(|s| {
        let old = facts.entries.get(&s.entry).unwrap_or(entry);
        (facts.empty_bar(platform, old), s.load)
    });
    let words = bar_words(facts, platform, bar);
    let (first, now) = match old {
        Some((old, stood)) if old == bar => match fewest(discs, bar, stood) {
            Some(now) => (None, now),
            None => (Some("take all discs off".to_owned()), Vec::new()),
        },
        Some(_) => (Some(format!("change to {words}")), Vec::new()),
        None => (Some(format!("take {words}")), Vec::new()),
    };
    let change = between(&now, side);
    let moves = [
        list(facts, "add", &change.on),
        list(facts, "take off", &change.off),
    ];
    let each = moves.iter().any(Option::is_some);
    let parts = first.into_iter().chain(moves.into_iter().flatten());
    let words = match parts.collect::<Vec<String>>().join(", ") {
        words if words.is_empty() => NOTHING.to_owned(),
        words if each => format!("{words} each side"),
        words => words,
    };
    Ok((change, words))
}

/// What comes off and goes on between two sides, both from the inside.
fn between(now: &[Weight], side: Vec<Weight>) -> Change {
    let same = now.iter().zip(&side).take_while(|(a, b)| a == b).count();
    Change {
        off: now[same..].iter().rev().cloned().collect(),
        on: side[same..].to_vec(),
        side,
    }
}

/// `add 25 twice and 5`; `None` without discs.
fn list(facts: &Facts, verb: &str, discs: &[Weight]) -> Option<String> {
    let kinds = discs.chunk_by(|a, b| a == b).map(|same| {
        let disc = disc_words(facts, &same[0]);
        match same.len() {
            1 => disc,
            2 => format!("{disc} twice"),
            n => format!("{disc} {n} times"),
        }
    });
    let kinds: Vec<String> = kinds.collect();
    (!kinds.is_empty()).then(|| format!("{verb} {}", kinds.join(" and ")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::day::{Granted, RuledFact, Ruling};
    use crate::measure::Unit;

    const ONE: EntryKey = EntryKey(1);
    const TWO: EntryKey = EntryKey(2);

    fn slot() -> Slug {
        Slug::new("snatch").unwrap()
    }

    fn kg(text: &str) -> Weight {
        Weight::parse(text, Unit::Kg).unwrap()
    }

    fn called(entry: EntryKey, attempt: u8, load: &str) -> Event {
        Event::Called {
            entry,
            slot: slot(),
            lift: slot(),
            attempt,
            load: kg(load),
            clock: None,
            following: false,
        }
    }

    fn ruled(entry: EntryKey, attempt: u8, load: &str, source: Source) -> Event {
        Event::Ruled(Box::new(RuledFact {
            entry,
            slot: slot(),
            lift: slot(),
            attempt,
            session: "1".into(),
            flight: "A".into(),
            requested: Some(kg(load)),
            loaded: Some(kg(load)),
            credited: Some(kg(load)),
            ruling: Ruling::Good,
            lights: Vec::new(),
            faults: Vec::new(),
            called_at: None,
            reps: 1,
            source,
            reason: String::new(),
        }))
    }

    fn found(entry: EntryKey, attempt: u8, loaded: &str) -> Event {
        Event::LoadFound {
            entry,
            slot: slot(),
            attempt,
            loaded: kg(loaded),
            credited: kg(loaded),
            granted: Granted::Keep,
        }
    }

    /// Loads of the bar as it stands and as it stood before the call.
    fn stands(events: &[(Event, bool)]) -> (Option<String>, Option<String>) {
        let bar = events
            .iter()
            .fold(Standing::default(), |bar, (e, here)| bar.after(e, *here));
        let show = |made: Option<MadeUp>| made.map(|m| m.load.show(Unit::Kg));
        (show(bar.now), show(bar.before))
    }

    fn some(now: &str, before: &str) -> (Option<String>, Option<String>) {
        let given = |t: &str| (!t.is_empty()).then(|| t.to_owned());
        (given(now), given(before))
    }

    #[test]
    fn the_bar_stands_at_what_was_called_or_ruled_last() {
        let mut events = vec![];
        assert_eq!(stands(&events), some("", ""));
        events.push((called(ONE, 1, "50"), true));
        assert_eq!(stands(&events), some("50", ""));
        // What was asked for after the call is known by the ruling.
        events.push((ruled(ONE, 1, "52", Source::Lights), true));
        assert_eq!(stands(&events), some("52", ""));
        events.push((called(TWO, 1, "55"), true));
        assert_eq!(stands(&events), some("55", "52"));
        // Other platforms, cards and passes put nothing on this bar.
        events.push((called(ONE, 2, "90"), false));
        events.push((ruled(ONE, 2, "90", Source::Lights), false));
        events.push((ruled(ONE, 2, "91", Source::Card), true));
        events.push((ruled(ONE, 2, "92", Source::Table), true));
        assert_eq!(stands(&events), some("55", "52"));
    }

    #[test]
    fn a_load_that_was_found_is_what_stands_if_it_is_the_last() {
        let mut events = vec![
            (called(ONE, 1, "50"), true),
            (ruled(ONE, 1, "50", Source::Lights), true),
            (found(ONE, 1, "60"), true),
        ];
        assert_eq!(stands(&events), some("60", ""));
        events.push((called(TWO, 1, "55"), true));
        events.push((found(ONE, 1, "45"), true));
        assert_eq!(stands(&events), some("55", "60"));
    }

    #[test]
    fn what_lies_between_two_sides_is_what_is_moved() {
        let side = |discs: &[&str]| discs.iter().map(|d| kg(d)).collect::<Vec<_>>();
        let change = between(&side(&["25", "15", "2.5"]), side(&["25", "20"]));
        assert_eq!(change.off, side(&["2.5", "15"]));
        assert_eq!(change.on, side(&["20"]));
        let change = between(&side(&["25"]), side(&["25"]));
        assert!(change.off.is_empty() && change.on.is_empty());
        let change = between(&side(&["25", "25"]), side(&["25", "25", "25"]));
        assert_eq!(change.on, side(&["25"]));
    }
}
