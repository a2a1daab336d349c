//! Corrections as rows.

use super::super::acts::{ActRow, show_id, show_outcome};
use super::events::{outcome_of, pair, row, with_pairs};
use super::{Writer, show};
use crate::day::{Event, Outcome, RuledFact, Ruling};
use crate::measure::Weight;
use crate::roster::Change;

impl Writer<'_> {
    /// A correction as a row; it says what differs from what stood before.
    pub(super) fn corrected(&self, target: u64, event: &Event, reason: &str) -> ActRow {
        let old = self.before.as_ref().and_then(|d| d.effective(target));
        let act = self.day.recorded(target).map_or(target, |r| r.act);
        let id = show_id(self.act_id(act));
        let reason = pair("reason", reason);
        if let (Event::Ruled(new), Some(Event::Ruled(old))) = (event, old) {
            return self.corrected_attempt(target, old, new, &id, reason);
        }
        let pairs = match (event, old) {
            (Event::Weighed { bodyweight, .. }, _) => {
                vec![("bodyweight".to_owned(), show(bodyweight, self.scale))]
            }
            (Event::Requested { load, .. }, _) => {
                vec![("load".to_owned(), self.load(load))]
            }
            (
                Event::EntryAdded {
                    number, changes, ..
                },
                Some(Event::EntryAdded {
                    number: was,
                    changes: before,
                    ..
                }),
            ) => {
                let lot = (number != was).then(|| ("lot".to_owned(), number.to_string()));
                lot.into_iter()
                    .chain(self.changed(beyond(before, changes)))
                    .collect()
            }
            (
                Event::EntryEdited { changes, .. },
                Some(Event::EntryEdited {
                    changes: before, ..
                }),
            ) => self.changed(beyond(before, changes)),
            _ => Vec::new(),
        };
        ActRow {
            detail: with_pairs(&id, pairs.into_iter().chain(reason)),
            ..row("correct")
        }
    }

    /// By athlete, lift and attempt where that names the same ruling and may
    /// change it, else by the act's identifier.
    fn corrected_attempt(
        &self,
        target: u64,
        old: &RuledFact,
        new: &RuledFact,
        id: &str,
        reason: Option<(String, String)>,
    ) -> ActRow {
        let loads = |f: &RuledFact| {
            [&f.requested, &f.loaded, &f.credited].map(|w| w.as_ref().map(|w| w.mass))
        };
        let outcome = (old.ruling != new.ruling
            || old.lights != new.lights
            || old.faults != new.faults
            || old.reps != new.reps
            || old.lift != new.lift)
            .then(|| Outcome {
                reps: (old.reps != new.reps).then_some(new.reps),
                caught: (old.lift != new.lift).then(|| new.lift.clone()),
                ..outcome_of(new)
            });
        let load: Option<&Weight> = new
            .requested
            .as_ref()
            .filter(|_| loads(old) != loads(new))
            .filter(|w| old.requested.as_ref() != Some(w) || outcome.is_none());
        let live = self.before.as_ref().and_then(|day| {
            let attempt = day.facts().attempt(new.entry, &new.slot, new.attempt)?;
            attempt.ruled.as_ref().filter(|r| r.seq == target)
        });
        let by_attempt = live.is_some_and(|r| {
            (r.first.is_none() || outcome.is_none()) && (!r.found || load.is_none())
        });
        let shown = load.map(|w| self.load(w)).unwrap_or_default();
        if by_attempt {
            let outcome = outcome.map(|o| show_outcome(&o)).unwrap_or_default();
            // The outcome stands before the semicolon, also where it is blank.
            let detail = match (&reason, outcome.is_empty()) {
                (Some(_), true) => format!("; {}", with_pairs("", reason)),
                _ => with_pairs(&outcome, reason),
            };
            return ActRow {
                load: shown,
                detail,
                ..self.attempt("correct", new.entry, &new.slot, new.attempt)
            };
        }
        let ruling = outcome.map(|o| o.ruling.unwrap_or(Ruling::No).word().to_owned());
        let pairs = [
            pair("load", &shown),
            ruling.and_then(|r| pair("ruling", &r)),
            reason,
        ];
        ActRow {
            detail: with_pairs(id, pairs.into_iter().flatten()),
            ..row("correct")
        }
    }
}

/// The changes that were added behind the earlier ones.
fn beyond<'a>(before: &[Change], changes: &'a [Change]) -> &'a [Change] {
    if changes.starts_with(before) {
        &changes[before.len()..]
    } else {
        changes
    }
}
