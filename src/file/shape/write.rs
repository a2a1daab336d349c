//! Events into their newest stored shapes.

use serde::Serialize;
use serde_json::Value;

use super::bodies::{
    Annulled1, Bodyweight1, BreakCalled1, CallWithdrawn1, Called1, Capped1,
    ChallengeLost1, Clearance1, Cleared1, ClockMoved1, Closed1, Corrected1, Correction1,
    DayMade1, Details1, Disqualified1, EntryAdded1, EntryEdited1, ExtraGranted1,
    FlightMade1, Holder1, LoadFound1, Noted1, Numbered1, Placed1, RecordListed1, Redone1,
    Reopened1, Requested1, Reruled1, RollAnswered1, Ruled1, SettingChanged1, Signed1,
    SlotStarted1, StationChecked1, Text1, Undone1, Weighed1, Withdrawn1,
};
use super::words::each;
use super::{ShapeError, details};
use crate::day::{Event, RecordKey, RecordMark, RuledFact};
use crate::roster::{Change, EntryKey};

/// A stored event before it is text.
pub(super) struct Parts {
    pub(super) kind: &'static str,
    pub(super) shape: u32,
    pub(super) body: Value,
    pub(super) private: Option<Value>,
}

/// A part that an event doesn't have.
const NOTHING: Option<Text1> = None;

fn parts_of<B: Serialize, P: Serialize>(
    kind: &'static str,
    body: B,
    private: Option<P>,
) -> Result<Parts, ShapeError> {
    shaped(kind, 1, body, private)
}

fn shaped<B: Serialize, P: Serialize>(
    kind: &'static str,
    shape: u32,
    body: B,
    private: Option<P>,
) -> Result<Parts, ShapeError> {
    let fail = |e: serde_json::Error| ShapeError::Unreadable {
        kind: kind.to_owned(),
        why: e.to_string(),
    };
    Ok(Parts {
        kind,
        shape,
        body: serde_json::to_value(body).map_err(fail)?,
        private: private
            .map(serde_json::to_value)
            .transpose()
            .map_err(fail)?,
    })
}

/// A free text, where there is one.
fn text(text: &str) -> Option<Text1> {
    (!text.is_empty()).then(|| Text1 { text: text.into() })
}

/// Parts an event into its public body and its private part.
pub(super) fn parts(event: &Event) -> Result<Parts, ShapeError> {
    match event.clone() {
        Event::DayMade {
            name,
            date,
            format,
            bar_unit,
            scale_unit,
            rules,
            slots,
            platforms,
        } => {
            let body = DayMade1 {
                name,
                date,
                format,
                bar_unit: bar_unit.into(),
                scale_unit: scale_unit.into(),
                rules,
                slots: each(slots),
                platforms,
            };
            parts_of("day-made", body, NOTHING)
        }
        Event::SettingChanged { key, value } => {
            parts_of("setting-changed", SettingChanged1 { key, value }, NOTHING)
        }
        Event::FlightMade {
            session,
            flight,
            platform,
        } => {
            let body = FlightMade1 {
                session,
                flight,
                platform,
            };
            parts_of("flight-made", body, NOTHING)
        }
        Event::StationChecked { platform, who } => parts_of(
            "station-checked",
            StationChecked1 { platform, who },
            NOTHING,
        ),
        Event::SlotStarted {
            platform,
            session,
            flight,
            slot,
        } => {
            let body = SlotStarted1 {
                platform,
                session,
                flight,
                slot,
            };
            parts_of("slot-started", body, NOTHING)
        }
        Event::BreakCalled { platform, minutes } => {
            parts_of("break-called", BreakCalled1 { platform, minutes }, NOTHING)
        }
        Event::Closed { session } => parts_of("closed", Closed1 { session }, NOTHING),
        Event::Reopened { session, reason } => {
            parts_of("reopened", Reopened1 { session }, text(&reason))
        }
        Event::RecordListed { record, mark } => listed(record, mark),
        Event::Corrected {
            target,
            event,
            reason,
        } => corrected(target, &event, reason),
        Event::Annulled { act, reason } => {
            parts_of("annulled", Annulled1 { act }, text(&reason))
        }
        Event::Undone { act, clock } => {
            parts_of("undone", Undone1 { act, clock }, NOTHING)
        }
        Event::Redone { undo } => parts_of("redone", Redone1 { undo }, NOTHING),
        Event::Noted {
            entry,
            act,
            text: remark,
        } => {
            let body = Noted1 {
                entry: entry.map(|e| e.0),
                act,
            };
            parts_of("noted", body, text(&remark))
        }
        other => of_entry(other),
    }
}

fn listed(record: RecordKey, mark: Option<RecordMark>) -> Result<Parts, ShapeError> {
    let (load, holder) = match mark.clone() {
        Some(mark) => (
            mark.load,
            Some(Holder1 {
                holder: mark.holder,
                date: mark.date,
                place: mark.place,
            }),
        ),
        None => (None, None),
    };
    let body = RecordListed1 {
        lift: record.lift,
        sex: record.sex.map(Into::into),
        category: record.category,
        division: record.division,
        listed: mark.is_some(),
        load: load.map(Into::into),
    };
    parts_of("record-listed", body, holder)
}

fn corrected(target: u64, event: &Event, reason: String) -> Result<Parts, ShapeError> {
    let inner = parts(event)?;
    let body = Corrected1 {
        target,
        kind: inner.kind.into(),
        shape: inner.shape,
        private: inner.private.is_some(),
        fact: inner.body,
    };
    let hidden = (!reason.is_empty() || inner.private.is_some()).then_some(Correction1 {
        text: reason,
        fact: inner.private,
    });
    parts_of("corrected", body, hidden)
}

/// Events about somebody's entry.
fn of_entry(event: Event) -> Result<Parts, ShapeError> {
    match event {
        Event::EntryAdded {
            entry,
            number,
            changes,
        } => {
            let shape = details::shape_of(&changes);
            let (changes, private) = parted(&changes);
            let body = EntryAdded1 {
                entry: entry.0,
                number,
                changes,
            };
            shaped("entry-added", shape, body, private)
        }
        Event::EntryEdited { entry, changes } => {
            let shape = details::shape_of(&changes);
            let (changes, private) = parted(&changes);
            let body = EntryEdited1 {
                entry: entry.0,
                changes,
            };
            shaped("entry-edited", shape, body, private)
        }
        Event::Placed {
            entry,
            session,
            flight,
        } => {
            let body = Placed1 {
                entry: entry.0,
                session,
                flight,
            };
            parts_of("placed", body, NOTHING)
        }
        Event::RollAnswered {
            entry,
            presence,
            back,
            reason,
        } => {
            let body = RollAnswered1 {
                entry: entry.0,
                presence: presence.into(),
                back,
            };
            parts_of("roll-answered", body, text(&reason))
        }
        Event::Withdrawn {
            entry,
            slot,
            reason,
        } => {
            let body = Withdrawn1 {
                entry: entry.0,
                slot,
            };
            parts_of("withdrawn", body, text(&reason))
        }
        Event::Disqualified {
            entry,
            slot,
            reason,
        } => {
            let body = Disqualified1 {
                entry: entry.0,
                slot,
            };
            parts_of("disqualified", body, text(&reason))
        }
        Event::Numbered { numbers } => {
            let body = Numbered1 {
                numbers: numbers.into_iter().map(|(e, n)| (e.0, n)).collect(),
            };
            parts_of("numbered", body, NOTHING)
        }
        Event::Weighed { entry, bodyweight } => {
            let private = Bodyweight1 {
                bodyweight: bodyweight.into(),
            };
            parts_of("weighed", Weighed1 { entry: entry.0 }, Some(private))
        }
        Event::Cleared {
            entry,
            slot,
            clearance,
            until,
            who,
            why,
        } => {
            let body = Cleared1 {
                entry: entry.0,
                slot,
            };
            let private = Clearance1 {
                clearance: clearance.into(),
                who,
                why,
                until,
            };
            let shape = if until.is_some() { 2 } else { 1 };
            shaped("cleared", shape, body, Some(private))
        }
        Event::Capped {
            entry,
            slot,
            load,
            who,
            why,
        } => {
            let body = Capped1 {
                entry: entry.0,
                slot,
                load: load.map(Into::into),
            };
            parts_of("capped", body, Some(Signed1 { who, why }))
        }
        other => of_attempt(other),
    }
}

fn parted(changes: &[Change]) -> (Vec<details::Detail>, Option<Details1>) {
    let (open, hidden) = details::part(changes);
    let hidden = (!hidden.is_empty()).then_some(Details1 { changes: hidden });
    (open, hidden)
}

/// Events on a platform.
fn of_attempt(event: Event) -> Result<Parts, ShapeError> {
    match event {
        Event::Requested {
            entry,
            slot,
            attempt,
            load,
            change,
            record,
        } => {
            let body = Requested1 {
                entry: entry.0,
                slot,
                attempt,
                load: load.into(),
                change,
                record,
            };
            let shape = if record { 2 } else { 1 };
            shaped("requested", shape, body, NOTHING)
        }
        Event::Called {
            entry,
            slot,
            lift,
            attempt,
            load,
            clock,
            following,
        } => {
            let body = Called1 {
                entry: entry.0,
                slot,
                lift,
                attempt,
                load: load.into(),
                clock,
                following,
            };
            parts_of("called", body, NOTHING)
        }
        Event::CallWithdrawn {
            entry,
            slot,
            attempt,
        } => {
            let EntryKey(entry) = entry;
            let body = CallWithdrawn1 {
                entry,
                slot,
                attempt,
            };
            parts_of("call-withdrawn", body, NOTHING)
        }
        Event::ClockMoved { movement } => {
            let body = ClockMoved1 {
                movement: movement.into(),
            };
            parts_of("clock-moved", body, NOTHING)
        }
        Event::Ruled(fact) => ruled(*fact),
        Event::ExtraGranted {
            entry,
            slot,
            reason,
        } => {
            let body = ExtraGranted1 {
                entry: entry.0,
                slot,
            };
            parts_of("extra-granted", body, text(&reason))
        }
        Event::LoadFound {
            entry,
            slot,
            attempt,
            loaded,
            credited,
            granted,
        } => {
            let body = LoadFound1 {
                entry: entry.0,
                slot,
                attempt,
                loaded: loaded.into(),
                credited: credited.into(),
                granted: granted.into(),
            };
            parts_of("load-found", body, NOTHING)
        }
        Event::Reruled {
            entry,
            slot,
            attempt,
            ruling,
            faults,
            authority,
            reason,
        } => {
            let body = Reruled1 {
                entry: entry.0,
                slot,
                attempt,
                ruling,
                faults: each(faults),
                authority: authority.into(),
            };
            parts_of("reruled", body, text(&reason))
        }
        Event::ChallengeLost {
            entry,
            slot,
            attempt,
            ruling,
            reason,
        } => {
            let body = ChallengeLost1 {
                entry: entry.0,
                slot,
                attempt,
                ruling,
            };
            parts_of("challenge-lost", body, text(&reason))
        }
        // All other kinds were taken before; a new kind has no shape yet.
        other => Err(ShapeError::UnknownKind(format!("{other:?}"))),
    }
}

fn ruled(fact: RuledFact) -> Result<Parts, ShapeError> {
    let reps = (fact.reps > 1).then_some(fact.reps);
    let body = Ruled1 {
        entry: fact.entry.0,
        slot: fact.slot,
        lift: fact.lift,
        attempt: fact.attempt,
        session: fact.session,
        flight: fact.flight,
        requested: fact.requested.map(Into::into),
        loaded: fact.loaded.map(Into::into),
        credited: fact.credited.map(Into::into),
        ruling: fact.ruling,
        lights: each(fact.lights),
        faults: each(fact.faults),
        called_at: fact.called_at.map(Into::into),
        source: fact.source.into(),
        reps,
    };
    let shape = if reps.is_some() { 2 } else { 1 };
    shaped("ruled", shape, body, text(&fact.reason))
}
