//! What the model allows, and what an allowed act does: entries, comings and
//! goings, settings, the platform's frame.

use crate::ask::Asking;
use crate::model::{Answer, Model, Person, State};
use crate::plain::{Act, At, Cleared, Edit, Fact, Line, Load, Move, No, Roll};
use crate::rules::Gate;

impl Model {
    pub fn decide(&self, s: &State, act: &Act, at: At) -> Answer<(Line, Vec<Fact>)> {
        match act {
            Act::Request {
                no,
                slot,
                attempt,
                load,
                record,
            } => {
                let asking = Asking {
                    no: *no,
                    slot: *slot,
                    attempt: *attempt,
                    load: *load,
                    record: *record,
                };
                self.ask(s, &asking, at)
            }
            Act::Call { platform, no, load } => {
                let fact = self.call(s, *platform, *no, *load)?;
                Ok((Line::Platform(*platform), vec![fact]))
            }
            Act::Clock(platform, step) => clock(s, *platform, *step),
            Act::Start(platform, flight, slot) => start(s, *platform, *flight, *slot),
            Act::Check(platform) => {
                Ok((Line::Platform(*platform), vec![Fact::Checked(*platform)]))
            }
            Act::Break(platform, minutes) => {
                if s.on(*platform).call.is_some() {
                    return Err("somebody is called");
                }
                let minutes = minutes.unwrap_or_else(|| s.rules.break_minutes());
                Ok((
                    Line::Platform(*platform),
                    vec![Fact::Break(*platform, minutes)],
                ))
            }
            Act::Close(session) => {
                if s.closed.contains(session) {
                    return Err("closed already");
                }
                if s.calls().any(|c| {
                    let of = s.rules.session_of(s.people[&c.no].athlete.flight);
                    session.is_none_or(|n| n == of)
                }) {
                    return Err("somebody is called");
                }
                Ok((Line::Day, vec![Fact::Closed(*session, true)]))
            }
            Act::Reopen(session) => {
                if !s.closed.contains(session) {
                    return Err("not closed");
                }
                Ok((Line::Day, vec![Fact::Closed(*session, false)]))
            }
            Act::Note(_) => Ok((Line::Day, vec![Fact::Told])),
            Act::Set(setting) => Ok((Line::Day, vec![Fact::Set(setting.clone())])),
            Act::Lights { .. }
            | Act::Tally { .. }
            | Act::Pass { .. }
            | Act::Stop { .. }
            | Act::Extra(..)
            | Act::Loaded { .. }
            | Act::Rerule { .. }
            | Act::Correct { .. } => self.ruling_act(s, act),
            _ => self.roster(s, act),
        }
    }

    fn roster(&self, s: &State, act: &Act) -> Answer<(Line, Vec<Fact>)> {
        let fact = match act {
            Act::Add(athlete) => {
                if s.id(athlete.no).is_ok() || s.people.contains_key(&athlete.no) {
                    return Err("the number is taken");
                }
                Fact::Entered(athlete.clone())
            }
            Act::Edit(no, edit) => {
                let p = s.person(*no)?;
                if let Edit::Slot(slot, line) = edit {
                    let lifted = p.runs[*slot].iter().any(|a| a.ruled.is_some());
                    let variant = |line: Option<(usize, _)>| line.map(|(v, _)| v);
                    let same = variant(*line) == variant(p.athlete.slots[*slot]);
                    if lifted && !same {
                        return Err("has attempts");
                    }
                    if !same && s.is_called(*no, Some(*slot)) {
                        return Err("is called");
                    }
                }
                Fact::Edited(*no, edit.clone())
            }
            Act::Place(no, flight) => {
                let p = s.person(*no)?;
                if s.is_called(*no, None) {
                    return Err("is called");
                }
                if p.athlete.flight == *flight {
                    return Err("is there already");
                }
                return Ok((Line::Flights, vec![Fact::Placed(*no, *flight)]));
            }
            Act::Weigh(no, bodyweight) => {
                let _ = s.person(*no)?;
                return Ok((Line::Scale, vec![Fact::Weighed(*no, *bodyweight)]));
            }
            Act::Roll(no, roll) => {
                let p = s.person(*no)?;
                let roll = if *roll == Roll::Back {
                    Roll::Here
                } else {
                    *roll
                };
                if p.presence == Some(roll) {
                    return Err("is so already");
                }
                if roll != Roll::Here && s.is_called(*no, None) {
                    return Err("is called");
                }
                Fact::Presence(*no, roll)
            }
            Act::Withdraw(no, slot) => {
                let p = leaving(s, *no, *slot)?;
                if p.withdrawn || slot.is_some_and(|slot| p.withdrawn_slots[slot]) {
                    return Err("withdrawn already");
                }
                Fact::Withdrawn(*no, *slot)
            }
            Act::Disqualify(no, slot) => {
                let p = leaving(s, *no, *slot)?;
                if p.disqualified || slot.is_some_and(|slot| p.disqualified_slots[slot]) {
                    return Err("disqualified already");
                }
                Fact::Disqualified(*no, *slot)
            }
            Act::Number(given) => number(s, given)?,
            Act::Clear {
                no,
                slot,
                cleared,
                over,
                signed,
            } => {
                let p = s.person(*no)?;
                if !signed && loosens(p, *slot, *cleared) {
                    return Err("unsigned");
                }
                Fact::Cleared(*no, *slot, *cleared, *over)
            }
            Act::Cap {
                no,
                slot,
                load,
                signed,
            } => {
                let p = s.person(*no)?;
                if load.is_none() && !p.caps.contains_key(slot) {
                    return Err("no cap there");
                }
                if !signed && raises(p, *slot, *load) {
                    return Err("unsigned");
                }
                Fact::Capped(*no, *slot, *load)
            }
            _ => return Err("not decided here"),
        };
        Ok((Line::Roster, vec![fact]))
    }

    pub const fn line(s: &State, p: &Person) -> Line {
        Line::Platform(s.rules.platform_of(p.athlete.flight))
    }
}

/// Whether a clearance gives more than the one that holds; one for all lifts,
/// than any that holds.
fn loosens(p: &Person, slot: Option<usize>, cleared: Cleared) -> bool {
    let eases = |holds: Cleared| match (holds, cleared) {
        (Cleared::Yes, _) | (_, Cleared::No) => false,
        (Cleared::No, _) | (Cleared::UpTo(_), Cleared::Yes) => true,
        (Cleared::UpTo(before), Cleared::UpTo(now)) => now > before,
    };
    match slot {
        Some(slot) => State::clearance(p, slot).is_some_and(eases),
        None => p
            .cleared
            .values()
            .any(|(holds, over)| !over && eases(*holds)),
    }
}

/// Whether a cap lets an athlete lift more than may be lifted now.
fn raises(p: &Person, slot: Option<usize>, load: Option<Load>) -> bool {
    match (p.caps.get(&slot), load) {
        (None, _) => false,
        (Some(_), None) => true,
        (Some(before), Some(now)) => now > *before,
    }
}

fn leaving(s: &State, no: No, slot: Option<usize>) -> Answer<&Person> {
    let p = s.person(no)?;
    if let Some(slot) = slot
        && p.athlete.slots[slot].is_none()
    {
        return Err("not entered");
    }
    if s.is_called(no, None) {
        return Err("is called");
    }
    Ok(p)
}

/// Start numbers: by session and lot, or as they are given.
fn number(s: &State, given: &[(No, No)]) -> Answer<Fact> {
    if !s.rules.start_numbers {
        return Err("numbers are lots");
    }
    if s.calls().next().is_some() {
        return Err("somebody is called");
    }
    let ruled = |p: &Person| p.runs.iter().flatten().any(|a| a.ruled.is_some());
    if s.people.values().any(ruled) {
        return Err("an attempt is ruled");
    }
    if !given.is_empty() {
        let after = |id: No, p: &Person| {
            given
                .iter()
                .find(|(old, _)| *old == id)
                .map_or(p.number, |(_, new)| *new)
        };
        let mut all: Vec<No> = s.people.iter().map(|(id, p)| after(*id, p)).collect();
        all.sort_unstable();
        if all.windows(2).any(|w| w[0] == w[1]) {
            return Err("a number is given twice");
        }
        return Ok(Fact::Numbered(given.to_vec()));
    }
    // Whoever is entered has the lot for good.
    let mut all: Vec<(u8, No)> = s
        .people
        .iter()
        .map(|(id, p)| (s.rules.session_of(p.athlete.flight), *id))
        .collect();
    all.sort_unstable();
    Ok(Fact::Numbered(
        (1..).zip(all).map(|(n, (_, id))| (id, n)).collect(),
    ))
}

fn clock(s: &State, platform: u8, step: Move) -> Answer<(Line, Vec<Fact>)> {
    let call = s
        .on(platform)
        .call
        .as_ref()
        .filter(|c| c.clock.is_some())
        .ok_or("no clock")?;
    let running = call.clock.is_some_and(|(_, since)| since.is_some());
    match step {
        Move::Stop if !running => return Err("stopped already"),
        Move::Resume if running => return Err("runs already"),
        _ => {}
    }
    Ok((
        Line::Platform(platform),
        vec![Fact::ClockMoved(platform, step)],
    ))
}

fn start(
    s: &State,
    platform: u8,
    flight: usize,
    slot: usize,
) -> Answer<(Line, Vec<Fact>)> {
    let on = s.on(platform);
    if on.call.is_some() {
        return Err("somebody is called");
    }
    if on.running == Some((flight, slot)) {
        return Err("runs already");
    }
    if s.is_closed(s.rules.session_of(flight)) {
        return Err("closed");
    }
    if s.rules.station_check == Gate::Required && !on.checked {
        return Err("not checked");
    }
    Ok((
        Line::Platform(platform),
        vec![Fact::Started(platform, flight, slot)],
    ))
}
