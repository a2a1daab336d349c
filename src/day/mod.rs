//! The state machine of a day: command → decide → event → apply → day.
//!
//! Time, the acting hand and random draws come in as arguments, so every day
//! can be replayed. Must never know a file, a clock on the wall, a screen or
//! a printed text other than its refusals' sentences.

pub mod advice;
mod book;
mod clock;
mod command;
mod decide;
mod event;
mod facts;
mod flights;
mod fold;
mod make;
mod openers;
pub mod pace;
pub mod picture;
mod queue;
mod refusal;
mod requests;
mod ruling;
mod settings;
mod stamp;
mod stands;
mod story;

pub use book::{
    RecordKey, RecordMark, TOTALS, lifts_of_total, plain_category, record_lift,
};
pub use clock::{Clock, show_left};
pub use command::{
    Command, Context, CorrectionOf, LoadAsked, NewEntry, Outcome, Place, Roll, StopFor,
    Which,
};
pub use decide::{Decided, decide};
pub use event::{
    Authority, ClockMove, Event, FaultGiven, Granted, Light, Line, Recorded, RuledFact,
    Source,
};
pub use facts::{
    Attempt, Call, Facts, Flight, Platform, Request, Revision, Ruled, Run, Running,
    Session,
};
pub use flights::{FlightBy, FlightPlan, Proposal, propose_flights};
pub use make::{
    NewDay, new_day, new_day_by, new_day_like, read_programme, settings_like,
};
pub use openers::{Opener, openers};
pub use queue::{Queued, queue};
pub use refusal::Refusal;
pub use requests::{
    Limits, Origin, Standing, changes_of, limits, rise_base, standing_request,
};
pub use ruling::Ruling;
pub use stamp::Stamp;
pub use stands::{Dangling, stands};
pub use story::{Day, apply};
