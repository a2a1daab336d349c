//! Why a command is refused: an answer, not a failure.

/// A typed reason for a refusal; its sentence names what would be allowed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// No entry has that table number.
    #[error("No entry has the number {0}.")]
    NoSuchNumber(u16),
    /// The number is taken.
    #[error("The number {number} belongs to {name}; {free} is free.")]
    NumberTaken {
        /// The number.
        number: u16,
        /// Whose it is.
        name: String,
        /// A free one.
        free: u16,
    },
    /// All numbers are taken.
    #[error("All table numbers from 1 to 9999 are taken.")]
    NoFreeNumber,
    /// An entry without a name.
    #[error("An entry needs a name.")]
    NoName,
    /// The lift is not on the programme.
    #[error("“{lift}” is not on this day's programme; there is {allowed}.")]
    NoSuchLift {
        /// What was named.
        lift: String,
        /// The programme.
        allowed: String,
    },
    /// The athlete isn't entered in the slot.
    #[error("Lot {number} is not entered in {slot}; entered in {entered}.")]
    NotEntered {
        /// Table number.
        number: u16,
        /// The slot.
        slot: String,
        /// Slots entered in.
        entered: String,
    },
    /// Nobody was named and nothing tells who is meant.
    #[error("Nobody is called on {platform}: name the athlete's number.")]
    NobodyCalled {
        /// The platform.
        platform: String,
    },
    /// The platform isn't there.
    #[error("There is no platform {platform}; this day has 1 to {most}.")]
    NoSuchPlatform {
        /// What was named.
        platform: u8,
        /// How many there are.
        most: u8,
    },
    /// It isn't clear which platform is meant.
    #[error("Say which platform: this day has 1 to {0}.")]
    WhichPlatform(u8),
    /// It isn't clear which slot is meant.
    #[error("Say which lift is meant: {0}.")]
    WhichLift(String),
    /// The flight isn't there.
    #[error("There is no flight {flight}; there is {allowed}.")]
    NoSuchFlight {
        /// What was named.
        flight: String,
        /// What there is.
        allowed: String,
    },
    /// The session isn't there.
    #[error("There is no session {session}; there is {allowed}.")]
    NoSuchSession {
        /// What was named.
        session: String,
        /// What there is.
        allowed: String,
    },
    /// Nothing was started on the platform.
    #[error("Nothing runs on {platform}: start a lift for a flight first.")]
    NothingRuns {
        /// The platform.
        platform: String,
    },
    /// Somebody is called; that has to be settled first.
    #[error(
        "Lot {number} is called on {platform} for {load}; rule that attempt, pass it, or undo the call first."
    )]
    SomebodyIsCalled {
        /// Table number.
        number: u16,
        /// The platform.
        platform: String,
        /// The load, with unit.
        load: String,
    },
    /// The queue is law and another is next.
    #[error(
        "Lot {asked} is not next: the queue calls lot {number}, attempt {attempt}, at {load}."
    )]
    NotNext {
        /// Who was named.
        asked: u16,
        /// Who is next.
        number: u16,
        /// The attempt.
        attempt: u8,
        /// The load, with unit.
        load: String,
    },
    /// The queue is empty.
    #[error("Nobody is left in the queue of {0}.")]
    QueueEmpty(String),
    /// The named load isn't the requested one.
    #[error(
        "Lot {number} asked for {requested}, not {named}; enter {requested}, or a request for {named} first."
    )]
    OtherLoad {
        /// Table number.
        number: u16,
        /// What is requested, with unit.
        requested: String,
        /// What was named, with unit.
        named: String,
    },
    /// No load was asked for yet.
    #[error(
        "Lot {number} has not asked for a load yet for attempt {attempt}; enter the request first."
    )]
    LoadOwed {
        /// Table number.
        number: u16,
        /// The attempt.
        attempt: u8,
    },
    /// The load is below what is allowed.
    #[error("Lot {number} may ask for {least} or more{why}.")]
    TooLight {
        /// Table number.
        number: u16,
        /// The least load, with unit.
        least: String,
        /// Why, such as `: the bar is at 80 kg`; may be empty.
        why: String,
    },
    /// The load isn't a multiple of the step.
    #[error("{load} is not a multiple of {step}; the nearest are {below} and {above}.")]
    OffStep {
        /// What was asked, with unit.
        load: String,
        /// The step, with unit.
        step: String,
        /// The nearest below, with unit.
        below: String,
        /// The nearest above, with unit.
        above: String,
    },
    /// The load is above a cap or what the athlete is cleared for.
    #[error("Lot {number} may attempt at most {most} in {slot} today.")]
    AboveCap {
        /// Table number.
        number: u16,
        /// The slot.
        slot: String,
        /// The cap, with unit.
        most: String,
    },
    /// The load lies outside what a bar can be; the load, and the most.
    #[error("{0} is no load that can be lifted here; a load is above 0 and at most {1}.")]
    LoadOutOfRange(String, String),
    /// Not cleared.
    #[error("Lot {number} is not cleared for {slot}; a clearance needs who gives it.")]
    NotCleared {
        /// Table number.
        number: u16,
        /// The slot.
        slot: String,
    },
    /// An override needs a name and a reason.
    #[error("Overriding a clearance or a cap needs a name and a reason: who=…; why=….")]
    OverrideUnsigned,
    /// Not there, away or withdrawn.
    #[error("Lot {number} is {state}; {allowed}.")]
    NotPresent {
        /// Table number.
        number: u16,
        /// `absent`, `away`, `withdrawn`.
        state: String,
        /// What would help.
        allowed: String,
    },
    /// No change is left.
    #[error("Lot {number} has no change left for attempt {attempt}: {load} stands.")]
    NoChangeLeft {
        /// Table number.
        number: u16,
        /// The attempt.
        attempt: u8,
        /// What stands, with unit.
        load: String,
    },
    /// Too late on the clock.
    #[error("Too late for lot {number}: {what} closed {limit}; {load} stands.")]
    TooLate {
        /// Table number.
        number: u16,
        /// `declaration` or `changes`.
        what: String,
        /// When it closed.
        limit: String,
        /// What stands, with unit.
        load: String,
    },
    /// The openers add up to too little for the entry total.
    #[error(
        "The openers of lot {number} would add up to {sum}; with an entry total of {entry_total} they need {least} or more."
    )]
    OpenersTooLow {
        /// Table number.
        number: u16,
        /// The openers' sum, with unit.
        sum: String,
        /// The least sum, with unit.
        least: String,
        /// The entry total, with unit.
        entry_total: String,
    },
    /// No attempt is left.
    #[error(
        "Lot {number} has no attempt left in {slot}: {allowed} were allowed; one more needs leave (extra)."
    )]
    NoAttemptLeft {
        /// Table number.
        number: u16,
        /// The slot.
        slot: String,
        /// How many were allowed.
        allowed: u8,
    },
    /// The attempt isn't the next one.
    #[error(
        "Attempt {attempt} of lot {number} in {slot} can't be entered now; the next one is {next}."
    )]
    NotThatAttempt {
        /// Table number.
        number: u16,
        /// The slot.
        slot: String,
        /// What was named.
        attempt: u8,
        /// The next one.
        next: u8,
    },
    /// The attempt has a ruling already.
    #[error(
        "Attempt {attempt} of lot {number} in {slot} is ruled already ({ruling}); correct it, or enter attempt {next}."
    )]
    RuledAlready {
        /// Table number.
        number: u16,
        /// The slot.
        slot: String,
        /// The attempt.
        attempt: u8,
        /// Its ruling.
        ruling: String,
        /// The next attempt, as words.
        next: String,
    },
    /// The attempt has no ruling yet.
    #[error(
        "Attempt {attempt} of lot {number} in {slot} has no ruling yet; ruled so far: {ruled}."
    )]
    NotRuled {
        /// Table number.
        number: u16,
        /// The slot.
        slot: String,
        /// The attempt.
        attempt: u8,
        /// Attempts that are ruled.
        ruled: String,
    },
    /// Wrong number of lights.
    #[error(
        "{given} lights were given; this platform has {judges} judges, so write {judges} letters, w or r."
    )]
    WrongLights {
        /// How many were given.
        given: u8,
        /// How many there should be.
        judges: u8,
    },
    /// Neither a ruling nor lights.
    #[error("No outcome was given; write good, no, pass, time or the lights.")]
    NoOutcome,
    /// An outcome that this act can't give.
    #[error("“{given}” can't be given here; allowed: {allowed}.")]
    WrongOutcome {
        /// What was given.
        given: String,
        /// What would be allowed.
        allowed: String,
    },
    /// A fault that the lift doesn't have.
    #[error("“{code}” is no fault of the {lift}; its faults are {allowed}.")]
    NoSuchFault {
        /// The code.
        code: String,
        /// The lift.
        lift: String,
        /// Its faults.
        allowed: String,
    },
    /// No clock here.
    #[error("No clock runs on {0}: call an athlete first, or set a clock for the day.")]
    NoClock(String),
    /// A break that isn't one.
    #[error("A break lasts 1 to 240 minutes.")]
    NoBreak,
    /// Station check required.
    #[error(
        "{platform} has no signed station check: collars, safety arms, floor clear, spotters named."
    )]
    NotChecked {
        /// The platform.
        platform: String,
    },
    /// A closed session or day.
    #[error("{what} is closed; reopen it with a reason first.")]
    IsClosed {
        /// `Session 1` or `The day`.
        what: String,
    },
    /// Not closed.
    #[error("{what} is not closed.")]
    NotClosed {
        /// `Session 1` or `The day`.
        what: String,
    },
    /// A reason is needed.
    #[error("This needs a reason, written in the detail.")]
    ReasonNeeded,
    /// Already so.
    #[error("{0}")]
    AlreadySo(String),
    /// A setting that isn't right.
    #[error("{0}")]
    Setting(String),
    /// Nothing to undo or redo.
    #[error("Nothing is left to {what} on {line}.")]
    NothingTo {
        /// `undo` or `redo`.
        what: &'static str,
        /// The line.
        line: String,
    },
    /// The act isn't there, or can't be named so.
    #[error(
        "There is no act “{0}” that stands; the journal lists the acts with their ids."
    )]
    NoSuchAct(String),
    /// Such an act can't be corrected so.
    #[error("That act can't be corrected so: {0}.")]
    NotCorrectable(String),
    /// A later act would hang in the air.
    #[error("Later acts hang on it: {0}; settle those first.")]
    Dangling(String),
    /// An attempt that others build on can't be taken anew.
    #[error(
        "Attempt {later} of lot {number} is ruled already, so attempt {attempt} can't be taken again; grant one more attempt (extra) instead."
    )]
    LaterAttemptRuled {
        /// Table number.
        number: u16,
        /// The attempt.
        attempt: u8,
        /// The later attempt.
        later: u8,
    },
    /// A record's step where the rules have none.
    #[error("This day has no step for records; ask for a multiple of {step}.")]
    NoRecordStep {
        /// The step, with unit.
        step: String,
    },
    /// The load of a called athlete stands.
    #[error(
        "Lot {number} is called to {load}, which stands under these rules once the bar is called."
    )]
    CalledAlready {
        /// Table number.
        number: u16,
        /// The announced load, with unit.
        load: String,
    },
    /// A jump that the rules forbid.
    #[error("{load} is too far up for lot {number}; {most} or less is allowed.")]
    JumpTooBig {
        /// Table number.
        number: u16,
        /// The load, with unit.
        load: String,
        /// The most, with unit.
        most: String,
    },
    /// What can't be granted for a wrong load.
    #[error("For {what} the rules don't grant “{granted}”; allowed: {allowed}.")]
    NotGranted {
        /// What was found and ruled.
        what: String,
        /// What was asked for.
        granted: &'static str,
        /// What may be granted.
        allowed: String,
    },
    /// No challenge is left, or it comes too late.
    #[error("Lot {number} can't challenge attempt {attempt}: {why}.")]
    NoChallenge {
        /// Table number.
        number: u16,
        /// The attempt.
        attempt: u8,
        /// Why.
        why: String,
    },
    /// Several repetitions where the rules want one.
    #[error("These rules know one repetition only; {0} can't be entered.")]
    OneRepetition(u8),
    /// Start numbers can't be given.
    #[error("Start numbers can't be given: {0}.")]
    NoStartNumbers(String),
    /// The bar can't come down.
    #[error(
        "The bar is at {bar} in this {what}, so lot {number} can't be called at {load}; let the athlete ask for {bar} or more, or enter the attempt from the card (tally)."
    )]
    BarIsHigher {
        /// Table number.
        number: u16,
        /// The bar, with unit.
        bar: String,
        /// `flight` or `round`.
        what: &'static str,
        /// The load, with unit.
        load: String,
    },
}
