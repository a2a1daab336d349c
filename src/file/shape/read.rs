//! Stored shapes back into events.

use std::cell::Cell;

use serde::de::DeserializeOwned;
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
use super::{Body, ERASED, Hidden, KINDS, Marks, Salted, ShapeError, details};
use crate::day::{Event, RecordKey, RecordMark, RuledFact};
use crate::roster::{Change, EntryKey};

/// Where the parts of a stored event come from.
trait Source {
    fn body<T: DeserializeOwned>(&self) -> serde_json::Result<T>;
    fn hidden<T: DeserializeOwned>(&self) -> serde_json::Result<Hidden<T>>;
}

/// A row of the journal.
struct Row<'a> {
    body: &'a str,
    private: Hidden<&'a str>,
    marks: Cell<Marks>,
}

impl Source for Row<'_> {
    fn body<T: DeserializeOwned>(&self) -> serde_json::Result<T> {
        let body: Body<T> = serde_json::from_str(self.body)?;
        self.marks.set(Marks {
            loose: body.loose,
            step: body.step,
        });
        Ok(body.fact)
    }

    fn hidden<T: DeserializeOwned>(&self) -> serde_json::Result<Hidden<T>> {
        Ok(match self.private {
            Hidden::None => Hidden::None,
            Hidden::Erased => Hidden::Erased,
            Hidden::Kept(text) => {
                Hidden::Kept(serde_json::from_str::<Salted<T>>(text)?.fact)
            }
        })
    }
}

/// An event inside a correction.
struct Inner {
    body: Value,
    private: Hidden<Value>,
}

impl Source for Inner {
    fn body<T: DeserializeOwned>(&self) -> serde_json::Result<T> {
        serde_json::from_value(self.body.clone())
    }

    fn hidden<T: DeserializeOwned>(&self) -> serde_json::Result<Hidden<T>> {
        Ok(match &self.private {
            Hidden::None => Hidden::None,
            Hidden::Erased => Hidden::Erased,
            Hidden::Kept(value) => Hidden::Kept(serde_json::from_value(value.clone())?),
        })
    }
}

/// Reads a row.
pub(super) fn row(
    kind: &str,
    shape: u32,
    body: &str,
    private: Hidden<&str>,
) -> Result<(Event, Marks), ShapeError> {
    let row = Row {
        body,
        private,
        marks: Cell::new(Marks::default()),
    };
    let event = event(kind, shape, &row)?;
    Ok((event, row.marks.get()))
}

fn event<S: Source>(kind: &str, shape: u32, from: &S) -> Result<Event, ShapeError> {
    let Some((_, newest)) = KINDS.iter().find(|(k, _)| *k == kind) else {
        return Err(ShapeError::UnknownKind(kind.to_owned()));
    };
    if shape > *newest {
        return Err(ShapeError::NewerShape {
            kind: kind.to_owned(),
            shape,
        });
    }
    let unreadable = |why: String| ShapeError::Unreadable {
        kind: kind.to_owned(),
        why,
    };
    if shape == 0 {
        return Err(unreadable("there is no shape 0".into()));
    }
    if kind == "corrected" {
        return corrected(from);
    }
    let found = match of_day(kind, from) {
        Ok(None) => of_entry(kind, from),
        done => done,
    };
    let found = match found {
        Ok(None) => of_attempt(kind, from),
        done => done,
    };
    found
        .map_err(|e| unreadable(e.to_string()))?
        .ok_or_else(|| ShapeError::UnknownKind(kind.to_owned()))
}

fn said<S: Source>(from: &S) -> serde_json::Result<String> {
    Ok(match from.hidden::<Text1>()? {
        Hidden::None => String::new(),
        Hidden::Kept(part) => part.text,
        Hidden::Erased => ERASED.to_owned(),
    })
}

fn corrected<S: Source>(from: &S) -> Result<Event, ShapeError> {
    let fail = |e: serde_json::Error| ShapeError::Unreadable {
        kind: "corrected".to_owned(),
        why: e.to_string(),
    };
    let body: Corrected1 = from.body().map_err(fail)?;
    let (reason, private) = match from.hidden::<Correction1>().map_err(fail)? {
        Hidden::None => (String::new(), Hidden::None),
        Hidden::Kept(part) => (part.text, part.fact.map_or(Hidden::None, Hidden::Kept)),
        Hidden::Erased if body.private => (ERASED.to_owned(), Hidden::Erased),
        Hidden::Erased => (ERASED.to_owned(), Hidden::None),
    };
    let inner = Inner {
        body: body.fact,
        private,
    };
    Ok(Event::Corrected {
        target: body.target,
        event: Box::new(event(&body.kind, body.shape, &inner)?),
        reason,
    })
}

fn of_day<S: Source>(kind: &str, from: &S) -> serde_json::Result<Option<Event>> {
    Ok(Some(match kind {
        "day-made" => {
            let b: DayMade1 = from.body()?;
            Event::DayMade {
                name: b.name,
                date: b.date,
                format: b.format,
                bar_unit: b.bar_unit.into(),
                scale_unit: b.scale_unit.into(),
                rules: b.rules,
                slots: each(b.slots),
                platforms: b.platforms,
            }
        }
        "setting-changed" => {
            let SettingChanged1 { key, value } = from.body()?;
            Event::SettingChanged { key, value }
        }
        "flight-made" => {
            let b: FlightMade1 = from.body()?;
            Event::FlightMade {
                session: b.session,
                flight: b.flight,
                platform: b.platform,
            }
        }
        "station-checked" => {
            let StationChecked1 { platform, who } = from.body()?;
            Event::StationChecked { platform, who }
        }
        "slot-started" => {
            let b: SlotStarted1 = from.body()?;
            Event::SlotStarted {
                platform: b.platform,
                session: b.session,
                flight: b.flight,
                slot: b.slot,
            }
        }
        "break-called" => {
            let BreakCalled1 { platform, minutes } = from.body()?;
            Event::BreakCalled { platform, minutes }
        }
        "closed" => {
            let Closed1 { session } = from.body()?;
            Event::Closed { session }
        }
        "reopened" => {
            let Reopened1 { session } = from.body()?;
            Event::Reopened {
                session,
                reason: said(from)?,
            }
        }
        "record-listed" => listed(from)?,
        "annulled" => {
            let Annulled1 { act } = from.body()?;
            Event::Annulled {
                act,
                reason: said(from)?,
            }
        }
        "undone" => {
            let Undone1 { act, clock } = from.body()?;
            Event::Undone { act, clock }
        }
        "redone" => {
            let Redone1 { undo } = from.body()?;
            Event::Redone { undo }
        }
        "noted" => {
            let Noted1 { entry, act } = from.body()?;
            Event::Noted {
                entry: entry.map(EntryKey),
                act,
                text: said(from)?,
            }
        }
        _ => return Ok(None),
    }))
}

fn of_entry<S: Source>(kind: &str, from: &S) -> serde_json::Result<Option<Event>> {
    Ok(Some(match kind {
        "entry-added" => {
            let b: EntryAdded1 = from.body()?;
            let (hidden, erased) = private_details(from)?;
            let mut changes = details::join(b.changes, hidden);
            if erased {
                changes.push(Change::Family(ERASED.to_owned()));
            }
            Event::EntryAdded {
                entry: EntryKey(b.entry),
                number: b.number,
                changes,
            }
        }
        "entry-edited" => {
            let b: EntryEdited1 = from.body()?;
            let (hidden, _) = private_details(from)?;
            Event::EntryEdited {
                entry: EntryKey(b.entry),
                changes: details::join(b.changes, hidden),
            }
        }
        "placed" => {
            let b: Placed1 = from.body()?;
            Event::Placed {
                entry: EntryKey(b.entry),
                session: b.session,
                flight: b.flight,
            }
        }
        "roll-answered" => {
            let b: RollAnswered1 = from.body()?;
            Event::RollAnswered {
                entry: EntryKey(b.entry),
                presence: b.presence.into(),
                back: b.back,
                reason: said(from)?,
            }
        }
        "withdrawn" => {
            let b: Withdrawn1 = from.body()?;
            Event::Withdrawn {
                entry: EntryKey(b.entry),
                slot: b.slot,
                reason: said(from)?,
            }
        }
        "disqualified" => {
            let b: Disqualified1 = from.body()?;
            Event::Disqualified {
                entry: EntryKey(b.entry),
                slot: b.slot,
                reason: said(from)?,
            }
        }
        "numbered" => {
            let b: Numbered1 = from.body()?;
            Event::Numbered {
                numbers: b
                    .numbers
                    .into_iter()
                    .map(|(e, n)| (EntryKey(e), n))
                    .collect(),
            }
        }
        "weighed" => {
            let b: Weighed1 = from.body()?;
            match from.hidden::<Bodyweight1>()? {
                Hidden::Kept(part) => Event::Weighed {
                    entry: EntryKey(b.entry),
                    bodyweight: part.bodyweight.into(),
                },
                Hidden::None | Hidden::Erased => nothing_left(b.entry),
            }
        }
        "cleared" => {
            let b: Cleared1 = from.body()?;
            match from.hidden::<Clearance1>()? {
                Hidden::Kept(part) => Event::Cleared {
                    entry: EntryKey(b.entry),
                    slot: b.slot,
                    clearance: part.clearance.into(),
                    until: part.until,
                    who: part.who,
                    why: part.why,
                },
                Hidden::None | Hidden::Erased => nothing_left(b.entry),
            }
        }
        "capped" => {
            let b: Capped1 = from.body()?;
            let (who, why) = match from.hidden::<Signed1>()? {
                Hidden::Kept(part) => (part.who, part.why),
                Hidden::None | Hidden::Erased => (ERASED.to_owned(), ERASED.to_owned()),
            };
            Event::Capped {
                entry: EntryKey(b.entry),
                slot: b.slot,
                load: b.load.map(Into::into),
                who,
                why,
            }
        }
        _ => return Ok(None),
    }))
}

/// What stays of an event whose whole fact was erased: it changes nothing.
fn nothing_left(entry: u32) -> Event {
    Event::EntryEdited {
        entry: EntryKey(entry),
        changes: Vec::new(),
    }
}

fn private_details<S: Source>(
    from: &S,
) -> serde_json::Result<(Vec<details::Detail>, bool)> {
    Ok(match from.hidden::<Details1>()? {
        Hidden::None => (Vec::new(), false),
        Hidden::Kept(part) => (part.changes, false),
        Hidden::Erased => (Vec::new(), true),
    })
}

fn of_attempt<S: Source>(kind: &str, from: &S) -> serde_json::Result<Option<Event>> {
    Ok(Some(match kind {
        "requested" => {
            let b: Requested1 = from.body()?;
            Event::Requested {
                entry: EntryKey(b.entry),
                slot: b.slot,
                attempt: b.attempt,
                load: b.load.into(),
                change: b.change,
                record: b.record,
            }
        }
        "called" => {
            let b: Called1 = from.body()?;
            Event::Called {
                entry: EntryKey(b.entry),
                slot: b.slot,
                lift: b.lift,
                attempt: b.attempt,
                load: b.load.into(),
                clock: b.clock,
                following: b.following,
            }
        }
        "call-withdrawn" => {
            let b: CallWithdrawn1 = from.body()?;
            Event::CallWithdrawn {
                entry: EntryKey(b.entry),
                slot: b.slot,
                attempt: b.attempt,
            }
        }
        "clock-moved" => {
            let ClockMoved1 { movement } = from.body()?;
            Event::ClockMoved {
                movement: movement.into(),
            }
        }
        "ruled" => {
            let body: Ruled1 = from.body()?;
            Event::Ruled(Box::new(ruled(body, said(from)?)))
        }
        "extra-granted" => {
            let b: ExtraGranted1 = from.body()?;
            Event::ExtraGranted {
                entry: EntryKey(b.entry),
                slot: b.slot,
                reason: said(from)?,
            }
        }
        "load-found" => {
            let b: LoadFound1 = from.body()?;
            Event::LoadFound {
                entry: EntryKey(b.entry),
                slot: b.slot,
                attempt: b.attempt,
                loaded: b.loaded.into(),
                credited: b.credited.into(),
                granted: b.granted.into(),
            }
        }
        "reruled" => {
            let b: Reruled1 = from.body()?;
            Event::Reruled {
                entry: EntryKey(b.entry),
                slot: b.slot,
                attempt: b.attempt,
                ruling: b.ruling,
                faults: each(b.faults),
                authority: b.authority.into(),
                reason: said(from)?,
            }
        }
        "challenge-lost" => {
            let b: ChallengeLost1 = from.body()?;
            Event::ChallengeLost {
                entry: EntryKey(b.entry),
                slot: b.slot,
                attempt: b.attempt,
                ruling: b.ruling,
                reason: said(from)?,
            }
        }
        _ => return Ok(None),
    }))
}

fn listed<S: Source>(from: &S) -> serde_json::Result<Event> {
    let b: RecordListed1 = from.body()?;
    let mut mark = RecordMark {
        load: b.load.map(Into::into),
        ..RecordMark::default()
    };
    match from.hidden::<Holder1>()? {
        Hidden::None => {}
        Hidden::Kept(part) => {
            (mark.holder, mark.date, mark.place) = (part.holder, part.date, part.place);
        }
        Hidden::Erased => ERASED.clone_into(&mut mark.holder),
    }
    Ok(Event::RecordListed {
        record: RecordKey {
            lift: b.lift,
            sex: b.sex.map(Into::into),
            category: b.category,
            division: b.division,
        },
        mark: b.listed.then_some(mark),
    })
}

fn ruled(body: Ruled1, reason: String) -> RuledFact {
    RuledFact {
        entry: EntryKey(body.entry),
        slot: body.slot,
        lift: body.lift,
        attempt: body.attempt,
        session: body.session,
        flight: body.flight,
        requested: body.requested.map(Into::into),
        loaded: body.loaded.map(Into::into),
        credited: body.credited.map(Into::into),
        ruling: body.ruling,
        lights: each(body.lights),
        faults: each(body.faults),
        called_at: body.called_at.map(Into::into),
        reps: body.reps.unwrap_or(1),
        source: body.source.into(),
        reason,
    }
}
