//! One act's events as rows: which of them one row says together.

use super::super::acts::{ActRow, show_pairs};
use super::events::row;
use super::{Writer, stamped};
use crate::day::{Event, Recorded, RuledFact, Source};
use crate::roster::Presence;

impl Writer<'_> {
    /// The rows of an act; each is stamped as its own events are, since the
    /// rows of one card may come at several times.
    pub(super) fn act(&mut self, act: &[Recorded]) -> Vec<ActRow> {
        let mut rows = Vec::new();
        let mut at = 0;
        while let Some(first) = act.get(at) {
            let rest = &act[at..];
            let (found, count) = self.together(rest, act);
            rows.extend(found.into_iter().map(|row| stamped(row, first)));
            for recorded in &rest[..count] {
                self.pass(recorded);
            }
            at += count;
        }
        rows
    }

    /// The rows that the first of some events comes to, and how many events
    /// they say.
    fn together(&self, rest: &[Recorded], act: &[Recorded]) -> (Vec<ActRow>, usize) {
        let events: Vec<&Event> = rest.iter().map(|r| &r.event).collect();
        match events.as_slice() {
            [Event::Called { .. }, Event::Ruled(fact), ..] if calls_too(fact) => {
                (vec![self.ruled(fact)], 2)
            }
            [Event::Ruled(fact), next, ..] if stops_for_pain(fact, next) => {
                (vec![self.ruled(fact)], 2)
            }
            [Event::Ruled(fact), ..] if fact.source == Source::Table => {
                self.passed(fact, rest)
            }
            [Event::Ruled(fact), ..] => (vec![self.ruled(fact)], 1),
            [Event::SettingChanged { .. }, ..] => set(rest),
            [event, ..] => (self.event(event, act), 1),
            [] => (Vec::new(), 1),
        }
    }

    /// A pass, or all that remained in the slot.
    fn passed(&self, first: &RuledFact, rest: &[Recorded]) -> (Vec<ActRow>, usize) {
        let run: Vec<&RuledFact> = rest
            .iter()
            .map_while(|r| match &r.event {
                Event::Ruled(fact)
                    if fact.source == Source::Table
                        && fact.entry == first.entry
                        && fact.slot == first.slot
                        && r.at == rest[0].at =>
                {
                    Some(fact.as_ref())
                }
                _ => None,
            })
            .collect();
        let mut row = self.ruled(first);
        let to_the_last = run
            .last()
            .is_some_and(|last| last.attempt >= self.day.facts().rules.attempts);
        if run.len() > 1 && to_the_last {
            "rest".clone_into(&mut row.detail);
            return (vec![row], run.len());
        }
        (vec![row], 1)
    }
}

/// Whether the ruling came in the same row as its call: an athlete who was
/// called before has a time of the call.
fn calls_too(fact: &RuledFact) -> bool {
    fact.source == Source::Lights && fact.called_at.is_none()
}

/// Whether the next event is the one that a stop for pain brings with it.
fn stops_for_pain(fact: &RuledFact, next: &Event) -> bool {
    fact.source == Source::Stop
        && fact.reason.starts_with("pain")
        && matches!(next, Event::RollAnswered { entry, presence: Presence::Away, .. }
            if *entry == fact.entry)
}

/// Settings in one row; a key that comes twice begins another.
fn set(rest: &[Recorded]) -> (Vec<ActRow>, usize) {
    let mut pairs: Vec<(String, String)> = Vec::new();
    for recorded in rest {
        let Event::SettingChanged { key, value } = &recorded.event else {
            break;
        };
        let twice = pairs.iter().any(|(k, _)| k.eq_ignore_ascii_case(key));
        if twice || recorded.at != rest[0].at {
            break;
        }
        pairs.push((key.clone(), value.clone()));
    }
    let count = pairs.len();
    let set = ActRow {
        detail: show_pairs(&pairs),
        ..row("set")
    };
    (vec![set], count)
}
