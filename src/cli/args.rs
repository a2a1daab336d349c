//! The words of the command line.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

/// The scorer's table for a school's max-testing day or in-house meet.
///
/// Without a verb it opens the desk.
#[derive(Debug, Parser)]
#[command(name = "maxday", version, disable_help_subcommand = true)]
pub(super) struct Arguments {
    #[command(subcommand)]
    pub(super) verb: Option<Verb>,
}

/// What standings are grouped by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum By {
    /// Bodyweight category (or flight, or all, as the day's rules say).
    Category,
    /// Division.
    Division,
    /// Each lift by itself, within the category.
    Slot,
    /// Teams, by the points that the day's rules give.
    Team,
}

#[derive(Debug, Subcommand)]
pub(super) enum Verb {
    /// Open the desk.
    Desk {
        /// The day to open.
        file: Option<PathBuf>,
        /// Open a fresh copy of the built-in sample day.
        #[arg(long, conflicts_with = "file")]
        sample: bool,
    },
    /// Make a new day.
    New(Box<New>),
    /// Import a roster (CSV).
    Roster {
        /// The day.
        file: PathBuf,
        /// The roster.
        roster: PathBuf,
        /// How 3/4/2009 is meant: iso, mdy or dmy.
        #[arg(long)]
        dates: Option<String>,
        /// Change entries that match by id, lot or name; removes nobody.
        #[arg(long)]
        update: bool,
    },
    /// Replay acts from a file, or from standard input (-).
    Apply {
        /// The day.
        file: PathBuf,
        /// The acts (CSV), or - for standard input, answered row by row.
        acts: PathBuf,
        /// Go on after a refused act instead of taking nothing.
        #[arg(long)]
        keep_going: bool,
    },
    /// Print the journal as acts that replay to the same day.
    Acts {
        /// The day.
        file: PathBuf,
    },
    /// Print the order of call as CSV.
    Queue {
        /// The day.
        file: PathBuf,
        /// One platform only.
        #[arg(long)]
        platform: Option<u8>,
        /// The time from which calls are predicted; now if not given.
        #[arg(long)]
        at: Option<String>,
    },
    /// Print the standings as CSV.
    Standings {
        /// The day.
        file: PathBuf,
        /// What they are grouped by.
        #[arg(long, value_enum, default_value_t = By::Category)]
        by: By,
        /// Show only what may be posted.
        #[arg(long)]
        posted: bool,
    },
    /// Print every attempt as CSV.
    Attempts {
        /// The day.
        file: PathBuf,
        /// Show only what may be posted.
        #[arg(long)]
        posted: bool,
    },
    /// Make the papers as PDF, each table with its CSV.
    Papers {
        /// The day.
        file: PathBuf,
        /// The folder for them; made if it isn't there.
        #[arg(long)]
        out: PathBuf,
        /// letter or a4.
        #[arg(long, default_value = "letter")]
        size: String,
        /// Only these papers.
        #[arg(long, value_delimiter = ',')]
        only: Vec<String>,
        /// Only what may be posted.
        #[arg(long)]
        posted: bool,
    },
    /// Check that a day is sound.
    Check {
        /// The day.
        file: PathBuf,
    },
    /// List the lifts that are known, as CSV.
    Lifts,
    /// List the formats and their rules, as CSV.
    Formats,
}

/// Reads a number of platforms, in words for people.
fn platforms(text: &str) -> Result<u8, String> {
    text.trim()
        .parse()
        .ok()
        .filter(|n| (1..=24).contains(n))
        .ok_or_else(|| "write a whole number from 1 to 24".to_owned())
}

/// What can be chosen for a new day.
#[derive(Debug, Args)]
pub(super) struct New {
    /// The file to make.
    pub(super) file: PathBuf,
    /// The format: max-day, weightlifting or powerlifting.
    #[arg(long, required_unless_present_any = ["like", "rules"], conflicts_with_all = ["like", "rules"])]
    pub(super) format: Option<String>,
    /// Take rules, lifts and platforms from an older day.
    #[arg(long, value_name = "OLD")]
    pub(super) like: Option<PathBuf>,
    /// A school's own rules: a file that starts from a format and changes keys.
    #[arg(long, value_name = "RULES.toml", conflicts_with = "like")]
    pub(super) rules: Option<PathBuf>,
    /// The day's name; the file's name if not given.
    #[arg(long)]
    pub(super) name: Option<String>,
    /// The date; today if not given.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub(super) date: Option<String>,
    /// Bar unit: kg or lb.
    #[arg(long)]
    pub(super) unit: Option<String>,
    /// Scale unit: kg or lb; as the bar unit if not given.
    #[arg(long)]
    pub(super) scale: Option<String>,
    /// Judges: 1 or 3.
    #[arg(long)]
    pub(super) judges: Option<u8>,
    /// A category set, flight, or none.
    #[arg(long)]
    pub(super) categories: Option<String>,
    /// What breaks a tie: bodyweight or earliest.
    #[arg(long)]
    pub(super) tie: Option<String>,
    /// The smallest increment, least rise and automatic increase.
    #[arg(long, value_name = "LOAD")]
    pub(super) step: Option<String>,
    /// The programme: clean=power-clean+hang-power-clean,back-squat.
    #[arg(long)]
    pub(super) lifts: Option<String>,
    /// How many platforms or racks.
    #[arg(long, value_parser = platforms)]
    pub(super) platforms: Option<u8>,
    /// Makes the drawing of lots repeatable.
    #[arg(long)]
    pub(super) seed: Option<u64>,
}
