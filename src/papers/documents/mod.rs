//! The papers of a day: lists, cards, sheets, results, and what hangs at a rack.
//!
//! Each is laid out from the day's facts by the sheets that screens and files
//! show too, so that a paper and its CSV twin never differ. Who may see what is
//! settled by the audience of the order. Must never know a file or the time of
//! day: when a paper is made comes in with the order, and which revision of the
//! results it shows is one of the day's facts.

mod athlete_cards;
mod athlete_report;
mod card_row;
mod certificate;
mod clubs;
mod incident_report;
mod judges_sheet;
mod leader_tables;
mod loading_chart;
mod protocol;
mod quick_guide;
mod rack_card;
mod records;
mod results;
mod revision;
mod safety_sheet;
mod score_sheet;
mod shared;
mod start_list;
mod team_result;
mod training_sheets;
mod training_squad;
mod warmup;
mod weigh_in_sheet;

use super::{Block, Frame, Meta, Page, Paper, PaperError, missing, pages_of, pdf};
use crate::day::{Day, Facts, Stamp};
use crate::score::Norms;
use crate::sheets::{Audience, Table};

pub use card_row::reasons;
pub use rack_card::card_order;
pub use warmup::warm_up;

/// The names of all papers, in the order in which they are made.
pub const NAMES: &[&str] = &[
    "start-list",
    "weigh-in-sheet",
    "athlete-cards",
    "rack-cards",
    "score-sheets",
    "score-sheets-blank",
    "results",
    "team-result",
    "records",
    "training-sheets",
    "training-squad",
    "loading-chart",
    "safety-sheet",
    "judges-sheet",
    "quick-guide",
    "leader-tables",
    "athlete-reports",
    "incident-report",
    "certificates",
    "protocol",
];

/// The papers that may be posted.
const POSTED: &[&str] = &[
    "start-list",
    "athlete-cards",
    "results",
    "team-result",
    "records",
    "loading-chart",
    "safety-sheet",
    "judges-sheet",
    "leader-tables",
];

/// What is to be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Order {
    /// Size of the paper.
    pub size: Paper,
    /// For whom; for posting, only papers that may be posted are made.
    pub audience: Audience,
    /// When; every page names it.
    pub made: Stamp,
    /// Names of the papers; `None` is all that the audience may see (records only
    /// where the day has a book, the team result only where teams get points).
    pub only: Option<Vec<String>>,
}

/// The day's story, which the protocol tells.
#[derive(Debug, Clone, Copy)]
pub struct Archive<'a> {
    /// The day with its journal.
    pub day: &'a Day,
    /// Digest of the journal's last row, as the file has it.
    pub digest: &'a str,
}

/// What papers tell beside the day's facts, where it is there.
#[derive(Debug, Clone, Copy, Default)]
pub struct Beside<'a> {
    /// The day's story, for the protocol.
    pub archive: Option<&'a Archive<'a>>,
    /// A coach's norms, for the athletes' reports.
    pub norms: Option<&'a Norms>,
}

/// A paper as pages, before it is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Laid {
    /// Its name, which is its file's stem.
    pub name: String,
    /// Its title.
    pub title: String,
    /// Its pages; at least one.
    pub pages: Vec<Page>,
    /// Its tables, each under its CSV file's stem.
    pub tables: Vec<(String, Table)>,
}

/// A finished paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Made {
    /// Its name, which is its file's stem.
    pub name: String,
    /// Its title.
    pub title: String,
    /// The PDF.
    pub pdf: Vec<u8>,
    /// Its tables, each under its CSV file's stem.
    pub tables: Vec<(String, Table)>,
    /// Characters that the font lacks, in code order; each is printed as a
    /// question mark, and the one who prints should be told.
    pub missing: Vec<char>,
}

/// Makes the papers of an order, in the order of [`NAMES`].
///
/// The same facts and order always give the same bytes.
///
/// # Errors
/// As [`lay`], and [`PaperError`] if a PDF can't be written.
pub fn make(facts: &Facts, order: &Order) -> Result<Vec<Made>, PaperError> {
    make_with(facts, None, order)
}

/// As [`make`], with the day's story for the protocol.
///
/// # Errors
/// As [`make`].
pub fn make_with(
    facts: &Facts,
    archive: Option<&Archive<'_>>,
    order: &Order,
) -> Result<Vec<Made>, PaperError> {
    let norms = None;
    make_beside(facts, &Beside { archive, norms }, order)
}

/// As [`make`], with all that papers may tell beside the day's facts.
///
/// # Errors
/// As [`make`].
pub fn make_beside(
    facts: &Facts,
    beside: &Beside<'_>,
    order: &Order,
) -> Result<Vec<Made>, PaperError> {
    let laid = lay_beside(facts, beside, order)?;
    laid.into_iter()
        .map(|paper| {
            let title = format!("{}, {}", paper.title, facts.name);
            let meta = Meta::new(title).made_at(order.made.ms.div_euclid(1000));
            Ok(Made {
                pdf: pdf(&paper.pages, &meta)?,
                missing: missing(&paper.pages),
                name: paper.name,
                title: paper.title,
                tables: paper.tables,
            })
        })
        .collect()
}

/// Lays the papers of an order out without drawing them.
///
/// # Errors
/// [`PaperError::Unknown`] for a name that isn't one of [`NAMES`], and
/// [`PaperError::Private`] for one that may not be posted.
pub fn lay(facts: &Facts, order: &Order) -> Result<Vec<Laid>, PaperError> {
    lay_with(facts, None, order)
}

/// As [`lay`], with the day's story for the protocol.
///
/// # Errors
/// As [`lay`].
pub fn lay_with(
    facts: &Facts,
    archive: Option<&Archive<'_>>,
    order: &Order,
) -> Result<Vec<Laid>, PaperError> {
    let norms = None;
    lay_beside(facts, &Beside { archive, norms }, order)
}

/// As [`lay`], with all that papers may tell beside the day's facts.
///
/// # Errors
/// As [`lay`].
pub fn lay_beside(
    facts: &Facts,
    beside: &Beside<'_>,
    order: &Order,
) -> Result<Vec<Laid>, PaperError> {
    let allowed = match order.audience {
        Audience::Posted => POSTED,
        Audience::Private => NAMES,
    };
    let mut wanted = allowed.to_vec();
    if let Some(only) = &order.only {
        let only: Vec<String> = only.iter().map(|n| n.trim().to_lowercase()).collect();
        for name in &only {
            if !NAMES.contains(&name.as_str()) {
                return Err(PaperError::Unknown(name.clone(), NAMES.join(", ")));
            }
            if !allowed.contains(&name.as_str()) {
                return Err(PaperError::Private(name.clone(), allowed.join(", ")));
            }
        }
        wanted.retain(|name| only.iter().any(|o| o == name));
    } else {
        // Without a book or points for teams, these are only for who asks for them.
        let book = !facts.records.is_empty();
        let teams = !facts.rules.teams.points.is_empty();
        wanted.retain(|name| match *name {
            "records" => book,
            "team-result" => teams,
            _ => true,
        });
    }
    Ok(wanted
        .into_iter()
        .map(|name| {
            let draft = match name {
                "start-list" => start_list::draft(facts, order),
                "quick-guide" => quick_guide::draft(facts, order),
                "safety-sheet" => safety_sheet::draft(facts, order),
                "judges-sheet" => judges_sheet::draft(facts, order),
                "loading-chart" => loading_chart::draft(facts, order),
                "training-sheets" => training_sheets::draft(facts, order),
                "training-squad" => training_squad::draft(facts, order),
                "rack-cards" => rack_card::draft(facts, order),
                "athlete-cards" => athlete_cards::draft(facts, order),
                "weigh-in-sheet" => weigh_in_sheet::draft(facts, order),
                "team-result" => team_result::draft(facts, order),
                "records" => records::draft(facts, order),
                "leader-tables" => leader_tables::draft(facts, order),
                "athlete-reports" => athlete_report::draft(facts, beside.norms, order),
                "protocol" => protocol::draft(facts, beside.archive, order),
                "certificates" => certificate::draft(facts, order),
                "incident-report" => incident_report::draft(facts, order),
                "score-sheets" => score_sheet::draft(facts, order, false),
                "score-sheets-blank" => score_sheet::draft(facts, order, true),
                _ => results::draft(facts, order),
            };
            let parts = draft.parts.iter();
            let parts: Vec<(&Frame, &[Block])> = parts
                .map(|(frame, blocks)| (frame, blocks.as_slice()))
                .collect();
            Laid {
                name: name.to_owned(),
                pages: pages_of(&parts),
                title: draft.title,
                tables: draft.tables,
            }
        })
        .collect())
}

/// A paper in blocks, in one part or in several with frames of their own.
struct Draft {
    title: String,
    parts: Vec<(Frame, Vec<Block>)>,
    tables: Vec<(String, Table)>,
}

impl Draft {
    /// A paper in one part.
    fn new(frame: Frame, blocks: Vec<Block>, tables: Vec<(String, Table)>) -> Self {
        Self {
            title: frame.title.clone(),
            parts: vec![(frame, blocks)],
            tables,
        }
    }
}
