//! Acts in words, and what a correction would change.

use crate::day::{Command, Context, Day, Event, Recorded, apply, decide};
use crate::sheets;

pub use crate::sheets::{
    Fate, act_row_words as act_in_full, act_words as act, entry_of, fates,
};

/// What an undo or redo would take back or bring back, as a sentence.
///
/// # Errors
/// The refusal's sentence.
pub fn undo(day: &Day, command: &Command, context: &Context) -> Result<String, String> {
    let told = target(day, command, context)?;
    Ok(match told {
        Some((true, words)) => format!("Would take back: {words}."),
        Some((false, words)) => format!("Would bring back: {words}."),
        None => "Nothing changes.".to_owned(),
    })
}

/// The same once it is done, with the key that turns it round; to be asked
/// before it is entered.
///
/// # Errors
/// The refusal's sentence.
pub fn undone(
    day: &Day,
    command: &Command,
    context: &Context,
    (undo, redo): (&str, &str),
) -> Result<String, String> {
    let told = target(day, command, context)?;
    Ok(match told {
        Some((true, words)) => {
            format!("Taken back: {words}. {redo} brings it again.")
        }
        Some((false, words)) => {
            format!("Brought back: {words}. {undo} takes it back again.")
        }
        None => "Nothing changes.".to_owned(),
    })
}

/// Whether a command takes back (or brings back), and what.
fn target(
    day: &Day,
    command: &Command,
    context: &Context,
) -> Result<Option<(bool, String)>, String> {
    let decided = decide(day, command, context).map_err(|r| r.to_string())?;
    Ok(decided.events.iter().find_map(|e| match e {
        Event::Undone { act: target, .. } => Some((true, act(day, *target))),
        Event::Redone { undo } => match day.recorded(*undo).map(|r| &r.event) {
            Some(Event::Undone { act: target, .. }) => Some((false, act(day, *target))),
            _ => None,
        },
        _ => None,
    }))
}

/// Every best, total, place, queue and record that a command would change, a
/// few words each.
///
/// # Errors
/// The refusal's sentence.
pub fn changes(
    day: &Day,
    command: &Command,
    context: &Context,
) -> Result<Vec<String>, String> {
    let trial =
        trial(day, std::slice::from_ref(command), context).map_err(|(_, why)| why)?;
    Ok(sheets::changes(day.facts(), trial.facts()))
}

/// What a correction would change of what the journal says, without a full stop;
/// `None` where the command is none.
///
/// # Errors
/// The refusal's sentence.
pub fn correction(
    day: &Day,
    command: &Command,
    context: &Context,
) -> Result<Option<String>, String> {
    let decided = decide(day, command, context).map_err(|r| r.to_string())?;
    Ok(decided.events.iter().find_map(|event| match event {
        Event::Corrected { target, event, .. } => {
            let before = day.effective(*target)?;
            Some(sheets::correction_words(day, before, event))
        }
        _ => None,
    }))
}

/// The day as it would be after commands, one after another.
///
/// # Errors
/// Which command is refused, from 0, and the refusal's sentence.
pub fn trial(
    day: &Day,
    commands: &[Command],
    context: &Context,
) -> Result<Day, (usize, String)> {
    let mut trial = day.clone();
    for (at, command) in commands.iter().enumerate() {
        let decided =
            decide(&trial, command, context).map_err(|r| (at, r.to_string()))?;
        let act = trial.next_seq();
        for event in decided.events {
            let recorded = Recorded {
                seq: trial.next_seq(),
                act,
                id: String::new(),
                at: context.at,
                happened: None,
                hand: context.hand.clone(),
                platform: decided.platform,
                event,
            };
            apply(&mut trial, &recorded);
        }
    }
    Ok(trial)
}
