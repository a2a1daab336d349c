//! What is typed about the act in hand, as commands.

use super::super::Out;
use super::read::Line;
use crate::day::{
    ClockMove, Command, Context, CorrectionOf, Day, Event, FaultGiven, Outcome,
    RuledFact, Ruling, Which,
};
use crate::desk::call_line::{faults, lights_words, reasons_words};
use crate::desk::tell;
use crate::measure::Weight;
use crate::roster::Entry;

/// What was previewed; Enter again enters it.
#[derive(Debug, Clone)]
pub(super) struct Armed {
    /// What is entered.
    pub(super) command: Command,
    /// What is entered with it.
    and: Vec<Command>,
    /// The same in words.
    pub(super) does: String,
    /// All that would change.
    pub(super) changes: Vec<String>,
    /// The first of them that is shown.
    pub(super) from: usize,
}

impl Armed {
    /// A command with all that it would change.
    ///
    /// # Errors
    /// The refusal's sentence.
    pub(super) fn new(
        command: Command,
        day: &Day,
        context: &Context,
    ) -> Result<Self, String> {
        let changes = tell::changes(day, &command, context)?;
        let mut and = Vec::new();
        let does = match &command {
            Command::Annul { act, reason } => {
                let mut words = tell::act(day, *act);
                if let Some(fate) = tell::fates(day).get(act) {
                    words.push_str(&format!(", {}", fate.words()));
                }
                let mut does = because(&words, reason);
                if let Some((left, clock)) = clock_as_ruled(day, *act, &command, context)
                {
                    does.push_str(&format!(
                        " The call stands again, with its clock stopped at {}.",
                        crate::day::show_left(left)
                    ));
                    and = clock;
                }
                format!("Annuls: {does}")
            }
            Command::Correct { reason, .. } => {
                let words = tell::correction(day, &command, context)?;
                format!("Corrects: {}", because(&words.unwrap_or_default(), reason))
            }
            other => crate::desk::call_line::say(day.facts(), 1, other),
        };
        Ok(Self {
            command,
            and,
            does,
            changes,
            from: 0,
        })
    }

    /// What is asked of the shell, and the same in words.
    pub(super) fn out(self) -> (Out, String) {
        let out = if self.and.is_empty() {
            Out::Submit(self.command)
        } else {
            let mut all = vec![self.command];
            all.extend(self.and);
            Out::SubmitAll(all)
        };
        (out, self.does)
    }
}

/// Words with why, and a full stop.
fn because(words: &str, reason: &str) -> String {
    match reason.trim().trim_end_matches('.') {
        "" => format!("{words}."),
        reason => format!("{words}; {reason}."),
    }
}

/// What stops the clock of a call that comes back where it stood when its ruling
/// came, as an undo of the ruling does, and how much that is; `None` where no clock
/// would run on.
///
/// Else it would have run ever since, and time would be up.
fn clock_as_ruled(
    day: &Day,
    act: u64,
    annul: &Command,
    context: &Context,
) -> Option<(i64, Vec<Command>)> {
    let (at, platform, fact) = day.act(act).find_map(|r| match &r.event {
        Event::Ruled(fact) => Some((r.at, r.platform?, fact)),
        _ => None,
    })?;
    let after = tell::trial(day, std::slice::from_ref(annul), context).ok()?;
    let call = after.facts().platform(platform)?.call.as_ref()?;
    let clock = call
        .clock
        .filter(|c| c.runs() && call.is(fact.entry, &fact.slot, fact.attempt))?;
    let left = clock.left_at(at);
    let moved = |movement| Command::Clock {
        platform: Some(platform),
        movement,
    };
    let moves = vec![moved(ClockMove::Stop), moved(ClockMove::Set(left))];
    Some((left, moves))
}

/// The command of a line about an act; `None` where it says nothing about one.
///
/// # Errors
/// A sentence that says what isn't understood, and what would be.
pub(super) fn command(
    day: &Day,
    act: u64,
    line: Line,
    text: &str,
    why: &str,
) -> Result<Option<Command>, String> {
    let mut command = about(day, act, line, text)?;
    if let Some(Command::Correct { reason, .. } | Command::Annul { reason, .. }) =
        &mut command
        && !why.is_empty()
    {
        if !reason.is_empty() {
            reason.push_str("; ");
        }
        reason.push_str(why);
    }
    Ok(command)
}

fn about(day: &Day, act: u64, line: Line, text: &str) -> Result<Option<Command>, String> {
    match line {
        Line::Empty | Line::Filter(_) => Ok(None),
        Line::Lights(text) => lights(day, act, &text).map(Some),
        // Reasons alone: the lights stand.
        Line::Wrong(sentence) => reasons(day, act, text).map(Some).ok_or(sentence),
        Line::Annul(reason) => Ok(Some(Command::Annul { act, reason })),
        Line::Correct { values, reason } => details(day, act, values, reason).map(Some),
    }
}

/// Details of an act. `ruling=no` with reasons of the lift names those.
fn details(
    day: &Day,
    act: u64,
    values: Vec<(String, String)>,
    reason: String,
) -> Result<Command, String> {
    if let Some(fact) = stands_ruled(day, act)
        && let Some(asked) = no_lift(day, &values)
        && !reason.trim().is_empty()
    {
        let words: Vec<&str> = reason.split_whitespace().collect();
        let is_no = fact.ruling == Ruling::No;
        match faults::codes(&words, Some(&fact.lift)) {
            Ok(codes) => {
                let outcome = Outcome {
                    ruling: Some(Ruling::No),
                    lights: if is_no {
                        fact.lights.clone()
                    } else {
                        Vec::new()
                    },
                    faults: codes.into_iter().map(fault).collect(),
                    ..Outcome::default()
                };
                if let Some(of) = attempt_of(day, fact, asked.load, outcome) {
                    return Ok(Command::Correct {
                        of,
                        reason: String::new(),
                    });
                }
            }
            // It is a no lift already, so the reason is all that could change.
            Err(sentence) if is_no && asked.load.is_none() => return Err(sentence),
            // Why it is corrected.
            Err(_) => {}
        }
    }
    Ok(Command::Correct {
        of: CorrectionOf::Act { act, values },
        reason,
    })
}

struct NoLift {
    load: Option<Weight>,
}

/// What `ruling=no` asks for, with or without `load=`; `None` where anything else
/// is asked.
fn no_lift(day: &Day, values: &[(String, String)]) -> Option<NoLift> {
    let mut asked = None;
    let mut load = None;
    for (key, value) in values {
        match key.as_str() {
            "ruling" => asked = Ruling::parse(value),
            "load" => load = Some(day.facts().reading().load(value).ok()?),
            _ => return None,
        }
    }
    (asked == Some(Ruling::No)).then_some(NoLift { load })
}

fn fault(code: String) -> FaultGiven {
    FaultGiven { judge: None, code }
}

fn attempt_of(
    day: &Day,
    fact: &RuledFact,
    load: Option<Weight>,
    outcome: Outcome,
) -> Option<CorrectionOf> {
    let entry = day.facts().entries.get(&fact.entry)?;
    Some(CorrectionOf::Attempt {
        which: Which {
            number: Some(entry.number),
            lift: Some(fact.slot.clone()),
            attempt: Some(fact.attempt),
        },
        load,
        outcome: Some(outcome),
    })
}

/// The attempt that an act ruled as the journal now says, where it stands.
fn stands_ruled(day: &Day, act: u64) -> Option<&RuledFact> {
    let ruled = day
        .act(act)
        .find(|r| matches!(r.event, Event::Ruled(_)) && day.stands_now(r.seq))?;
    match day.effective(ruled.seq)? {
        Event::Ruled(fact) => Some(fact),
        _ => None,
    }
}

/// Other reasons for the attempt that an act ruled, whose lights stand; `None`
/// where a word is no reason of its lift.
fn reasons(day: &Day, act: u64, text: &str) -> Option<Command> {
    let (fact, entry) = ruled_by(day, act)?;
    let text = text.trim();
    let words = text.strip_prefix("reason=").unwrap_or(text);
    reasons_words(words, day.facts(), entry, fact)
}

/// The attempt that an act ruled, and whose it is.
fn ruled_by(day: &Day, act: u64) -> Option<(&RuledFact, &Entry)> {
    let fact = day.act(act).find_map(|r| match &r.event {
        Event::Ruled(fact) => Some(fact),
        _ => None,
    })?;
    Some((fact, day.facts().entries.get(&fact.entry)?))
}

/// Other lights for the attempt that an act ruled, with their reasons.
fn lights(day: &Day, act: u64, text: &str) -> Result<Command, String> {
    let Some((fact, _)) = ruled_by(day, act) else {
        return Err("Only an attempt has lights; choose one in the list.".to_owned());
    };
    let outcome = lights_words(text, &fact.lift).map_err(|why| {
        format!("{why} Why it is corrected goes behind it: ; why=film.")
    })?;
    let of = attempt_of(day, fact, None, outcome)
        .ok_or("That athlete is no longer entered.")?;
    Ok(Command::Correct {
        of,
        reason: String::new(),
    })
}
