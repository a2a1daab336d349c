//! What a typed row of a card means, as commands.

use crate::day::{
    Command, CorrectionOf, Facts, FaultGiven, Light, LoadAsked, Outcome, Ruled, Ruling,
    Which,
};
use crate::desk::call_line::{faults, reps_of};
use crate::lift::Slug;
use crate::measure::Weight;
use crate::roster::Entry;
use crate::sheets::not_made;

/// The column of an attempt's load; its ruling is in the next one.
pub fn load_column(attempt: u8) -> usize {
    usize::from(attempt) * 2
}

/// The attempt of a column, and whether the column is the ruling's.
pub fn attempt_of(column: usize) -> Option<(u8, bool)> {
    let attempt = u8::try_from(column / 2).ok()?;
    (attempt > 0).then_some((attempt, column % 2 == 1))
}

/// One command that a row asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// The attempt.
    pub attempt: u8,
    /// What to do.
    pub command: Command,
    /// The same, in words.
    pub words: String,
}

/// An attempt that is ruled already, and otherwise than the card says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Differs {
    /// The attempt.
    pub attempt: u8,
    /// Where it was typed; never none.
    pub columns: Vec<usize>,
    /// What stands, in words: `good at 82.5 kg`.
    pub stands: String,
    /// What the card says, in words: `good at 85 kg`.
    pub card: String,
    /// What would make it as the card says.
    pub command: Command,
}

/// What a row asks for, and what in it can't be read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RowRead {
    /// Commands in the order of the attempts.
    pub steps: Vec<Step>,
    /// Columns that say what stands already.
    pub same: Vec<usize>,
    /// Attempts that stand otherwise.
    pub differs: Vec<Differs>,
    /// Columns with what is wrong there, as sentences.
    pub faults: Vec<(usize, String)>,
}

/// Reads a row. `typed` gives the draft of a column.
pub fn read_row(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    typed: &dyn Fn(usize) -> Option<String>,
) -> RowRead {
    let mut read = RowRead::default();
    let mut gap: Option<u8> = None;
    for attempt in 1..=facts.attempts_allowed(entry.key, slot) {
        let column = load_column(attempt);
        let cells = Typed {
            attempt,
            load: typed(column),
            ruling: typed(column + 1),
        };
        let ruled = facts
            .attempt(entry.key, slot, attempt)
            .and_then(|a| a.ruled.as_ref());
        let nothing = cells.load.is_none() && cells.ruling.is_none();
        let said = match ruled {
            _ if nothing => {
                if ruled.is_none() {
                    gap = gap.or(Some(attempt));
                }
                continue;
            }
            Some(ruled) => match cells.against(facts, entry, slot, ruled) {
                Ok(Some(differs)) => {
                    read.differs.push(differs);
                    continue;
                }
                Ok(None) => {
                    read.same.extend(cells.columns());
                    continue;
                }
                Err(fault) => Err(fault),
            },
            None => {
                let before = gap;
                if !cells.has_ruling() {
                    gap = gap.or(Some(attempt));
                }
                if cells.asks_the_same(facts, entry, slot) {
                    read.same.extend(cells.columns());
                    continue;
                }
                match before {
                    Some(before) => Err((
                        column,
                        format!(
                            "Attempt {before} of lot {} comes first; type its load and ruling, \
                             or p for a pass.",
                            entry.number
                        ),
                    )),
                    None => cells.new_attempt(facts, entry, slot),
                }
            }
        };
        match said {
            Ok(Some(step)) => read.steps.push(step),
            Ok(None) => {}
            Err(fault) => {
                read.faults.push(fault);
                gap = gap.or(Some(attempt));
            }
        }
    }
    read
}

type Read = Result<Option<Step>, (usize, String)>;

struct Typed {
    attempt: u8,
    load: Option<String>,
    ruling: Option<String>,
}

impl Typed {
    fn which(&self, entry: &Entry, slot: &Slug) -> Which {
        Which {
            number: Some(entry.number),
            lift: Some(slot.clone()),
            attempt: Some(self.attempt),
        }
    }

    /// The columns in which something is typed.
    fn columns(&self) -> Vec<usize> {
        let column = load_column(self.attempt);
        let load = self.load.is_some().then_some(column);
        let ruling = self.ruling.is_some().then_some(column + 1);
        load.into_iter().chain(ruling).collect()
    }

    fn has_ruling(&self) -> bool {
        self.ruling.as_deref().is_some_and(|r| !r.trim().is_empty())
    }

    /// Whether the load alone is typed, and is the request that stands.
    fn asks_the_same(&self, facts: &Facts, entry: &Entry, slot: &Slug) -> bool {
        let asked = facts
            .attempt(entry.key, slot, self.attempt)
            .and_then(|a| a.requests.last());
        match (asked, self.weight(facts)) {
            (Some(asked), Ok(Some(load))) => {
                !self.has_ruling() && asked.load.mass == load.mass
            }
            _ => false,
        }
    }

    fn weight(&self, facts: &Facts) -> Result<Option<Weight>, (usize, String)> {
        match self.load.as_deref().map(str::trim) {
            None | Some("") => Ok(None),
            Some(text) => facts
                .reading()
                .load(text)
                .map(Some)
                .map_err(|e| (load_column(self.attempt), format!("{e}."))),
        }
    }

    fn outcome(
        &self,
        facts: &Facts,
        lift: &Slug,
    ) -> Result<Option<Outcome>, (usize, String)> {
        match self.ruling.as_deref().map(str::trim) {
            None | Some("") => Ok(None),
            Some(text) => read_ruling(facts, lift, text)
                .map(Some)
                .map_err(|e| (load_column(self.attempt) + 1, e)),
        }
    }

    fn new_attempt(&self, facts: &Facts, entry: &Entry, slot: &Slug) -> Read {
        let lift = entry.variant(slot).unwrap_or(slot);
        let load = self.weight(facts)?;
        let outcome = self.outcome(facts, lift)?;
        let attempt = self.attempt;
        let which = self.which(entry, slot);
        let Some(outcome) = outcome else {
            let Some(load) = load else { return Ok(None) };
            let platform = facts.platform_of(entry).unwrap_or(1);
            let unmade = not_made(facts, platform, entry, load.mass)
                .map(|words| format!(" ({words})"))
                .unwrap_or_default();
            let words = format!(
                "asks for {} in attempt {attempt}{unmade}",
                load.mass.show_with_unit(facts.bar_unit)
            );
            return Ok(Some(Step {
                attempt,
                command: Command::Request {
                    which,
                    load: LoadAsked::Exactly(load),
                    record: false,
                    platform: None,
                },
                words,
            }));
        };
        let standing = crate::day::standing_request(facts, entry, slot, attempt);
        let at = at_words(facts, load.as_ref().or(standing.as_ref().map(|s| &s.load)));
        let words = format!("attempt {attempt} {}{at}", outcome_words(&outcome));
        Ok(Some(Step {
            attempt,
            command: Command::Tally {
                which,
                load,
                outcome,
                platform: None,
            },
            words,
        }))
    }

    /// How what is typed differs from the ruling that stands; `None` where it
    /// says the same, or less.
    fn against(
        &self,
        facts: &Facts,
        entry: &Entry,
        slot: &Slug,
        ruled: &Ruled,
    ) -> Result<Option<Differs>, (usize, String)> {
        let load = self.weight(facts)?;
        let outcome = self.outcome(facts, &ruled.fact.lift)?;
        if load.is_none() && outcome.is_none() {
            return Err((
                load_column(self.attempt) + usize::from(self.load.is_none()),
                "A ruled attempt can't be emptied here; its act can be annulled in the journal."
                    .to_owned(),
            ));
        }
        let stands = load_of(ruled);
        let load = load.filter(|l| stands.is_none_or(|s| s.mass != l.mass));
        let outcome = outcome.filter(|o| !is_said_by(o, ruled));
        if load.is_none() && outcome.is_none() {
            return Ok(None);
        }
        let word = outcome.as_ref().map_or_else(
            || ruling_words(&ruled.fact.ruling).to_owned(),
            outcome_words,
        );
        let passed =
            outcome.as_ref().and_then(|o| o.ruling.as_ref()) == Some(&Ruling::Pass);
        let at = load.as_ref().or(stands).filter(|_| !passed);
        Ok(Some(Differs {
            attempt: self.attempt,
            columns: self.columns(),
            stands: ruled_words(facts, ruled),
            card: format!("{word}{}", at_words(facts, at)),
            command: Command::Correct {
                of: CorrectionOf::Attempt {
                    which: self.which(entry, slot),
                    load,
                    outcome,
                },
                reason: "as on the card".to_owned(),
            },
        }))
    }
}

/// The load of a ruled attempt that counts, else the one that was asked for.
fn load_of(ruled: &Ruled) -> Option<&Weight> {
    let fact = &ruled.fact;
    fact.credited.as_ref().or(fact.requested.as_ref())
}

/// Whether a ruling that stands says all that a card says.
fn is_said_by(card: &Outcome, ruled: &Ruled) -> bool {
    let fact = &ruled.fact;
    let ruling = match &card.ruling {
        Some(ruling) => *ruling == fact.ruling,
        None => card.lights == fact.lights,
    };
    let named = |code: &str| fact.faults.iter().any(|f| f.code == code);
    ruling
        && card.faults.iter().all(|f| named(&f.code))
        && card.reps.is_none_or(|reps| reps == fact.reps)
}

/// ` at 85 kg`; nothing where there is no load.
fn at_words(facts: &Facts, load: Option<&Weight>) -> String {
    load.map(|w| format!(" at {}", w.mass.show_with_unit(facts.bar_unit)))
        .unwrap_or_default()
}

/// A ruled attempt in words: `good at 135 kg`.
pub fn ruled_words(facts: &Facts, ruled: &Ruled) -> String {
    let load = load_of(ruled).filter(|_| ruled.fact.ruling != Ruling::Pass);
    let faults: Vec<&str> = ruled.fact.faults.iter().map(|f| f.code.as_str()).collect();
    let why = match faults.is_empty() {
        true => String::new(),
        false => format!(" for {}", faults.join(" and ")),
    };
    let reps = match ruled.fact.reps {
        0 | 1 => String::new(),
        reps => format!(" x{reps}"),
    };
    let word = ruling_words(&ruled.fact.ruling);
    format!("{word}{reps}{why}{}", at_words(facts, load))
}

fn ruling_words(ruling: &Ruling) -> &str {
    match ruling {
        Ruling::No => "no lift",
        other => other.word(),
    }
}

fn outcome_words(outcome: &Outcome) -> String {
    let word = match &outcome.ruling {
        Some(ruling) => ruling_words(ruling).to_owned(),
        None => {
            let letter = |l: &Light| if *l == Light::White { 'w' } else { 'r' };
            format!(
                "lights {}",
                outcome.lights.iter().map(letter).collect::<String>()
            )
        }
    };
    let reps = outcome.reps.filter(|n| *n > 1);
    let reps = reps.map(|n| format!(" x{n}")).unwrap_or_default();
    let word = format!("{word}{reps}");
    let faults: Vec<&str> = outcome.faults.iter().map(|f| f.code.as_str()).collect();
    if faults.is_empty() {
        word
    } else {
        format!("{word} for {}", faults.join(" and "))
    }
}

/// Why a cell's text can't be read by itself, as a sentence.
pub fn unreadable(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    column: usize,
    text: &str,
) -> Option<String> {
    let (attempt, ruling) = attempt_of(column)?;
    if !ruling {
        let read = facts.reading().load(text);
        return read.err().map(|e| format!("{e}."));
    }
    let ruled = facts.attempt(entry.key, slot, attempt);
    let lift = ruled.and_then(|a| a.ruled.as_ref()).map(|r| &r.fact.lift);
    let lift = lift.or(entry.variant(slot)).unwrap_or(slot);
    read_ruling(facts, lift, text).err()
}

/// Reads `g`, `n`, `n press-out`, `p`, `t`, or the lights; a reason may be
/// named by its failure card too (`n 2 knees`), and `g x5` is a test of five
/// repetitions.
///
/// # Errors
/// A sentence that says what would be allowed.
pub fn read_ruling(facts: &Facts, lift: &Slug, text: &str) -> Result<Outcome, String> {
    let text = text.trim().to_lowercase();
    let (word, reasons) = text.split_once([' ', ':']).unwrap_or((&text, ""));
    // A spreadsheet may have it in two words.
    let reasons = match reasons.strip_prefix("lift") {
        Some(rest) if word == "no" => rest.trim_start_matches([' ', ':']),
        _ => reasons,
    };
    let mut outcome = Outcome::default();
    match word {
        "g" | "good" => outcome.ruling = Some(Ruling::Good),
        "n" | "no" => outcome.ruling = Some(Ruling::No),
        "p" | "pass" => outcome.ruling = Some(Ruling::Pass),
        "t" | "time" => outcome.ruling = Some(Ruling::Time),
        lights
            if !lights.is_empty() && lights.chars().all(|c| matches!(c, 'w' | 'r')) =>
        {
            let light = |c| if c == 'w' { Light::White } else { Light::Red };
            outcome.lights = lights.chars().map(light).collect();
        }
        _ => {
            return Err(format!(
                "“{text}” is no ruling; type g good, n no lift, p pass, t time, or {} w or r.",
                match facts.rules.judges {
                    1 => "the light".to_owned(),
                    n => format!("{n} lights"),
                }
            ));
        }
    }
    let reasons: Vec<&str> = reasons
        .split([',', ' '])
        .map(str::trim)
        .filter(|r| !r.is_empty())
        .collect();
    let mut codes = Vec::new();
    for reason in reasons {
        match reps_of(reason) {
            Some(reps) => outcome.reps = Some(reps?),
            None => codes.push(reason),
        }
    }
    for code in faults::codes(&codes, Some(lift))? {
        outcome.faults.push(FaultGiven { judge: None, code });
    }
    if !outcome.faults.is_empty()
        && outcome.ruling.as_ref().is_some_and(|r| !r.is_no_lift())
    {
        return Err(
            "Only a no lift has a reason; type n, a blank and the reason.".to_owned(),
        );
    }
    Ok(outcome)
}
