//! Decides what a command would cause, without causing it.

mod book;
mod clearance;
mod correct;
mod deadlines;
mod errors;
mod numbers;
mod platform;
mod request;
mod resolve;
mod roster;
mod rulings;
mod settings;

use super::command::{Command, Context};
use super::event::Event;
use super::{Day, Refusal};

/// What a command would cause.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Decided {
    /// The platform on which it is undone, if it has one.
    pub platform: Option<u8>,
    /// The events of the act, in order; never empty.
    pub events: Vec<Event>,
}

impl Decided {
    fn new(platform: Option<u8>, events: Vec<Event>) -> Self {
        Self { platform, events }
    }

    #[allow(clippy::unnecessary_wraps)] // Every decision ends in a Result.
    fn one(platform: Option<u8>, event: Event) -> Result<Self, Refusal> {
        Ok(Self::new(platform, vec![event]))
    }
}

/// Decides what a command would cause, without causing it.
///
/// The same day, command and context always give the same answer.
///
/// # Errors
/// A typed [`Refusal`] whose sentence names what would be allowed.
pub fn decide(
    day: &Day,
    command: &Command,
    context: &Context,
) -> Result<Decided, Refusal> {
    let facts = day.facts();
    match command {
        Command::Add(entries) => roster::add(day, entries, context),
        Command::Edit { number, changes } => roster::edit(facts, *number, changes),
        Command::EditMany(edits) => roster::edit_many(facts, edits),
        Command::Place(moves) => roster::place(facts, moves),
        Command::Roll {
            number,
            roll,
            reason,
        } => roster::roll(facts, *number, *roll, reason),
        Command::Withdraw {
            number,
            lift,
            reason,
        } => roster::withdraw(facts, *number, lift.as_ref(), reason),
        Command::Disqualify {
            number,
            lift,
            reason,
        } => roster::disqualify(facts, *number, lift.as_ref(), reason),
        Command::Number { given } => numbers::number(facts, given),
        Command::Weigh { number, bodyweight } => {
            roster::weigh(facts, *number, bodyweight)
        }
        Command::Clear { .. } => clearance::clear(facts, command),
        Command::Cap { .. } => clearance::cap(facts, command),
        Command::Set(values) => settings::set(facts, values),
        Command::Book(records) => book::tell(facts, records),
        Command::Close { session } => settings::close(facts, session.as_deref()),
        Command::Reopen { session, reason } => {
            settings::reopen(facts, session.as_deref(), reason)
        }
        Command::Check { platform, who } => {
            platform::check(facts, *platform, who, context)
        }
        Command::Start { .. } => platform::start(facts, command),
        Command::Break { platform, minutes } => {
            platform::pause(facts, *platform, *minutes)
        }
        Command::Call {
            which,
            load,
            platform,
        } => platform::call(facts, which, load.as_ref(), *platform),
        Command::Clock { platform, movement } => {
            platform::clock(facts, *platform, *movement)
        }
        Command::Request {
            which,
            load,
            record,
            platform,
        } => request::request(facts, which, (load, *record), *platform, context),
        Command::Lights {
            which,
            load,
            outcome,
            platform,
        } => rulings::lights(facts, which, load.as_ref(), outcome, *platform),
        Command::Tally {
            which,
            load,
            outcome,
            platform,
        } => rulings::tally(facts, which, load.as_ref(), outcome, *platform),
        Command::Pass {
            which,
            rest,
            platform,
        } => rulings::pass(facts, which, *rest, *platform),
        Command::Stop { .. } => rulings::stop(facts, command),
        Command::Extra {
            which,
            reason,
            platform,
        } => rulings::extra(facts, which, reason, *platform),
        Command::Loaded {
            which,
            load,
            granted,
            platform,
        } => errors::loaded(facts, which, load, *granted, *platform),
        Command::Rerule { .. } => errors::rerule(facts, command),
        Command::Correct { of, reason } => correct::correct(day, of, reason),
        Command::Annul { act, reason } => correct::annul(day, *act, reason),
        Command::Undo(line) => correct::undo(day, *line),
        Command::Redo(line) => correct::redo(day, *line),
        Command::Note {
            number,
            act,
            text,
            platform,
        } => settings::note(day, *number, *act, text, *platform),
    }
}
