//! One act's events as rows.

use super::super::acts::{ActRow, show_id, show_outcome, show_pairs};
use super::{Writer, show};
use crate::day::{
    Authority, ClockMove, Event, Line, Outcome, RecordKey, RecordMark, Recorded,
    RuledFact, Source,
};
use crate::lift::Slug;
use crate::roster::{Change, EntryKey, Presence};
use crate::rules::WrongCatch;

pub(super) fn row(act: &str) -> ActRow {
    ActRow {
        act: act.to_owned(),
        ..ActRow::default()
    }
}

pub(super) fn pair(key: &str, value: &str) -> Option<(String, String)> {
    (!value.is_empty()).then(|| (key.to_owned(), value.to_owned()))
}

/// `first; key=value` without the parts that are blank.
pub(super) fn with_pairs(
    first: &str,
    pairs: impl IntoIterator<Item = (String, String)>,
) -> String {
    let pairs: Vec<(String, String)> = pairs.into_iter().collect();
    let rest = show_pairs(&pairs);
    match (first.is_empty(), rest.is_empty()) {
        (_, true) => first.to_owned(),
        (true, false) => rest,
        (false, false) => format!("{first}; {rest}"),
    }
}

impl Writer<'_> {
    /// A ruled attempt as the act that ruled it.
    pub(super) fn ruled(&self, fact: &RuledFact) -> ActRow {
        let act = match fact.source {
            Source::Lights => "lights",
            Source::Card => "tally",
            Source::Table => "pass",
            Source::Stop => "stop",
        };
        let mut row = self.attempt(act, fact.entry, &fact.slot, fact.attempt);
        match fact.source {
            Source::Table => {}
            Source::Stop => row.detail.clone_from(&fact.reason),
            Source::Lights | Source::Card => {
                let load = fact.loaded.as_ref().or(fact.requested.as_ref());
                row.load = self.maybe_load(load);
                let mut outcome = outcome_of(fact);
                if self.says_variant(fact) {
                    outcome.caught = Some(fact.lift.clone());
                }
                row.detail = show_outcome(&outcome);
            }
        }
        row
    }

    /// Whether an attempt's variant has to be said: where the rules enter what
    /// was caught, or where it isn't the one entered.
    fn says_variant(&self, fact: &RuledFact) -> bool {
        let facts = self.before.as_ref().unwrap_or(self.day).facts();
        let several = facts
            .slot(fact.slot.as_str())
            .is_some_and(|line| line.variants.len() > 1);
        let entered = facts.entries.get(&fact.entry);
        several
            && (facts.rules.wrong_catch == WrongCatch::Reclassify
                || entered.is_some_and(|e| e.variant(&fact.slot) != Some(&fact.lift)))
    }

    pub(super) fn attempt(
        &self,
        act: &str,
        entry: EntryKey,
        slot: &Slug,
        attempt: u8,
    ) -> ActRow {
        ActRow {
            attempt: attempt.to_string(),
            ..self.lift(act, entry, Some(slot))
        }
    }

    fn lift(&self, act: &str, entry: EntryKey, slot: Option<&Slug>) -> ActRow {
        ActRow {
            athlete: self.number(entry),
            lift: slot.map(Slug::to_string).unwrap_or_default(),
            ..row(act)
        }
    }

    /// An event that isn't a ruling or a setting, as rows.
    pub(super) fn event(&self, event: &Event, act: &[Recorded]) -> Vec<ActRow> {
        if self.says_nothing(event) {
            return Vec::new();
        }
        let mut row = match event {
            Event::EntryAdded {
                number, changes, ..
            } => ActRow {
                detail: show_pairs(&self.added(*number, changes, act)),
                ..row("add")
            },
            Event::EntryEdited { entry, changes } => {
                return self.edited(*entry, changes, act);
            }
            Event::Placed {
                entry,
                session,
                flight,
            } => self.placed(*entry, session, flight, act),
            Event::RollAnswered {
                entry,
                presence,
                back,
                reason,
            } => {
                let word = match presence {
                    Presence::Absent => "absent",
                    Presence::Away => "away",
                    Presence::Here | Presence::Expected if *back => "back",
                    Presence::Here | Presence::Expected => "here",
                };
                ActRow {
                    detail: reason.clone(),
                    ..self.lift(word, *entry, None)
                }
            }
            Event::Withdrawn {
                entry,
                slot,
                reason,
            } => ActRow {
                detail: reason.clone(),
                ..self.lift("withdraw", *entry, slot.as_ref())
            },
            Event::Disqualified {
                entry,
                slot,
                reason,
            } => ActRow {
                detail: reason.clone(),
                ..self.lift("disqualify", *entry, slot.as_ref())
            },
            Event::Numbered { numbers } => {
                let pairs: Vec<(String, String)> = numbers
                    .iter()
                    .map(|(e, n)| (self.number(*e), n.to_string()))
                    .collect();
                ActRow {
                    detail: show_pairs(&pairs),
                    ..row("number")
                }
            }
            Event::Weighed { entry, bodyweight } => ActRow {
                load: show(bodyweight, self.scale),
                ..self.lift("weigh", *entry, None)
            },
            Event::Cleared {
                entry,
                slot,
                clearance,
                until,
                who,
                why,
            } => ActRow {
                detail: with_pairs(
                    &self.clearance_word(clearance, *until),
                    [pair("who", who), pair("why", why)].into_iter().flatten(),
                ),
                ..self.lift("clear", *entry, slot.as_ref())
            },
            Event::Capped {
                entry,
                slot,
                load,
                who,
                why,
            } => ActRow {
                load: self.maybe_load(load.as_ref()),
                detail: with_pairs(
                    "",
                    [pair("who", who), pair("why", why)].into_iter().flatten(),
                ),
                ..self.lift("cap", *entry, slot.as_ref())
            },
            _ => match self.platform_event(event) {
                Some(row) => row,
                None => return self.about(event).into_iter().collect(),
            },
        };
        row.detail = row.detail.trim().to_owned();
        vec![row]
    }

    fn edited(
        &self,
        entry: EntryKey,
        changes: &[Change],
        act: &[Recorded],
    ) -> Vec<ActRow> {
        let pairs = self.changed(changes);
        let edit = (!pairs.is_empty()).then(|| ActRow {
            detail: show_pairs(&pairs),
            ..self.lift("edit", entry, None)
        });
        let place = changes.iter().find_map(|c| match c {
            Change::Place { session, flight } => {
                Some(self.placed(entry, session, flight, act))
            }
            _ => None,
        });
        edit.into_iter().chain(place).collect()
    }

    fn placed(
        &self,
        entry: EntryKey,
        session: &str,
        flight: &str,
        act: &[Recorded],
    ) -> ActRow {
        let mut pairs = Vec::new();
        self.place_pairs(session, flight, act, &mut pairs);
        ActRow {
            detail: show_pairs(&pairs),
            ..self.lift("place", entry, None)
        }
    }

    /// What happens on a platform, but for rulings.
    fn platform_event(&self, event: &Event) -> Option<ActRow> {
        Some(match event {
            Event::StationChecked { platform, who } => ActRow {
                platform: platform.to_string(),
                detail: who.clone(),
                ..row("check")
            },
            Event::SlotStarted {
                platform,
                session,
                flight,
                slot,
            } => ActRow {
                platform: platform.to_string(),
                lift: slot.to_string(),
                detail: format!("{session}/{flight}"),
                ..row("start")
            },
            Event::BreakCalled { platform, minutes } => ActRow {
                platform: platform.to_string(),
                detail: minutes.to_string(),
                ..row("break")
            },
            Event::Requested {
                entry,
                slot,
                attempt,
                load,
                record,
                ..
            } => ActRow {
                load: self.load(load),
                detail: if *record { "record" } else { "" }.to_owned(),
                ..self.attempt("request", *entry, slot, *attempt)
            },
            Event::Called {
                entry,
                slot,
                attempt,
                load,
                ..
            } => ActRow {
                load: self.load(load),
                ..self.attempt("call", *entry, slot, *attempt)
            },
            Event::ClockMoved { movement } => ActRow {
                detail: match movement {
                    ClockMove::Stop => "stop".to_owned(),
                    ClockMove::Resume => "resume".to_owned(),
                    ClockMove::Set(ms) => minutes_seconds(*ms),
                },
                ..row("clock")
            },
            Event::ExtraGranted {
                entry,
                slot,
                reason,
            } => ActRow {
                detail: reason.clone(),
                ..self.lift("extra", *entry, Some(slot))
            },
            Event::LoadFound {
                entry,
                slot,
                attempt,
                loaded,
                granted,
                ..
            } => ActRow {
                load: self.load(loaded),
                detail: granted.word().to_owned(),
                ..self.attempt("loaded", *entry, slot, *attempt)
            },
            Event::Reruled {
                entry,
                slot,
                attempt,
                ruling,
                faults,
                authority,
                reason,
            } => {
                let word = match authority {
                    Authority::Overrule => "overrule",
                    Authority::Challenge => "challenge",
                };
                let codes: Vec<&str> = std::iter::once(ruling.word())
                    .chain(faults.iter().map(|f| f.code.as_str()))
                    .collect();
                ActRow {
                    detail: format!("{}: {reason}", codes.join(".")),
                    ..self.attempt(word, *entry, slot, *attempt)
                }
            }
            Event::ChallengeLost {
                entry,
                slot,
                attempt,
                ruling,
                reason,
            } => ActRow {
                detail: format!("{}: {reason}", ruling.word()),
                ..self.attempt("challenge", *entry, slot, *attempt)
            },
            _ => return None,
        })
    }

    /// Settings of sessions, remarks, and what is said about other acts.
    fn about(&self, event: &Event) -> Option<ActRow> {
        Some(match event {
            Event::Closed { session } => ActRow {
                detail: session.clone().unwrap_or_default(),
                ..row("close")
            },
            Event::Reopened { session, reason } => ActRow {
                detail: with_pairs(
                    &session.as_deref().map(show_id).unwrap_or_default(),
                    pair("reason", reason),
                ),
                ..row("reopen")
            },
            Event::RecordListed { record, mark } => self.listed(record, mark.as_ref()),
            Event::Corrected {
                target,
                event,
                reason,
            } => self.corrected(*target, event, reason),
            Event::Annulled { act, reason } => ActRow {
                detail: self.of_act(*act, reason),
                ..row("annul")
            },
            Event::Undone { act, .. } => self.line("undo", *act),
            Event::Redone { undo } => self.line("redo", *undo),
            Event::Noted { entry, act, text } => ActRow {
                athlete: entry.map(|e| self.number(e)).unwrap_or_default(),
                detail: match act {
                    Some(act) if !self.is_silent(*act) => self.of_act(*act, text),
                    _ if text.contains(';') => format!("; {text}"),
                    _ => text.clone(),
                },
                ..row("note")
            },
            // These only come with another event that says them.
            _ => return None,
        })
    }

    fn listed(&self, record: &RecordKey, mark: Option<&RecordMark>) -> ActRow {
        let sex = record.sex.map_or("", |s| s.letter());
        let key = [
            pair("sex", sex),
            pair("category", &record.category),
            pair("division", &record.division),
        ];
        let rest = match mark {
            None => vec![pair("strike", "yes")],
            Some(mark) => vec![
                pair("holder", &mark.holder),
                pair("date", &mark.date),
                pair("place", &mark.place),
            ],
        };
        let pairs: Vec<_> = key.into_iter().chain(rest).flatten().collect();
        ActRow {
            lift: record.lift.to_string(),
            load: self.maybe_load(mark.and_then(|m| m.load.as_ref())),
            detail: show_pairs(&pairs),
            ..row("record")
        }
    }

    pub(super) fn act_id(&self, act: u64) -> &str {
        self.day.recorded(act).map_or("", |r| r.id.as_str())
    }

    /// `ID; text`.
    fn of_act(&self, act: u64, text: &str) -> String {
        let id = show_id(self.act_id(act));
        if text.is_empty() {
            id
        } else {
            format!("{id}; {text}")
        }
    }

    fn line(&self, word: &str, act: u64) -> ActRow {
        let act = self.day.recorded(act).map_or(act, |r| r.act);
        let mut row = row(word);
        match self.day.line_of(act) {
            Line::Platform(n) => row.platform = n.to_string(),
            Line::Roster => "roster".clone_into(&mut row.detail),
            Line::Scale => "scale".clone_into(&mut row.detail),
            Line::Flights => "flights".clone_into(&mut row.detail),
            Line::Day => "day".clone_into(&mut row.detail),
        }
        row
    }
}

pub(super) fn outcome_of(fact: &RuledFact) -> Outcome {
    Outcome {
        ruling: Some(fact.ruling.clone()),
        lights: fact.lights.clone(),
        faults: fact.faults.clone(),
        reps: (fact.reps > 1).then_some(fact.reps),
        caught: None,
    }
}

/// `0:42`, with thousandths only where there are some.
fn minutes_seconds(ms: i64) -> String {
    let (seconds, part) = (ms.max(0) / 1000, ms.max(0) % 1000);
    let whole = format!("{}:{:02}", seconds / 60, seconds % 60);
    if part == 0 {
        whole
    } else {
        format!("{whole}.{part:03}")
    }
}
