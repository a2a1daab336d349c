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
    /// A relative-strength score, both sexes together; needs --score.
    Score,
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
    /// Import a roster (CSV, or the first sheet of an .xlsx workbook).
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
        /// Show only what may be posted.
        #[arg(long)]
        posted: bool,
    },
    /// Print the standings as CSV.
    Standings {
        /// The day.
        file: PathBuf,
        /// What they are grouped by.
        #[arg(long, value_enum, default_value_t = By::Category)]
        by: By,
        /// Columns of these scores at the end, by the names that maxday formulas
        /// lists; --by score ranks by the first.
        #[arg(long, value_name = "NAME", value_delimiter = ',')]
        score: Vec<String>,
        #[command(flatten)]
        choices: ScoreChoices,
        /// Multiply by the age factors that go with the formula.
        #[arg(long)]
        age_factors: bool,
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
        /// A coach's own norms for the athletes' reports, as maxday norms reads them.
        #[arg(long, value_name = "NORMS.csv", conflicts_with = "posted")]
        norms: Option<PathBuf>,
        /// Only what may be posted.
        #[arg(long)]
        posted: bool,
    },
    /// Write results, attempts and start list as .xlsx, or the whole day as .json.
    Export {
        /// The day.
        file: PathBuf,
        /// The file to write; it ends in .xlsx or .json.
        #[arg(long)]
        out: PathBuf,
        /// Only what may be posted.
        #[arg(long)]
        posted: bool,
    },
    /// Print the school's record book, with what the day has broken, as CSV.
    Records {
        /// The day.
        file: PathBuf,
        /// Take this book (CSV) in instead; records that it doesn't name stay.
        #[arg(long, value_name = "BOOK.csv", conflicts_with = "posted")]
        import: Option<PathBuf>,
        /// Show only what may be posted.
        #[arg(long)]
        posted: bool,
    },
    /// Print each athlete's maxes over earlier days with their changes, as CSV.
    History {
        /// The day.
        file: PathBuf,
        /// Earlier days, or CSV with lift, date, max and id or name.
        #[arg(long, value_name = "OLD", num_args = 1..)]
        with: Vec<PathBuf>,
        /// Answers about doubtful matches (CSV): lot, source, source number, same.
        #[arg(long = "match", value_name = "MATCH.csv")]
        matches: Option<PathBuf>,
    },
    /// Print training loads, percentages of each max, as CSV.
    Training {
        /// The day.
        file: PathBuf,
        /// One team only.
        #[arg(long)]
        team: Option<String>,
        /// These percentages of the max, such as 60,70,80.
        #[arg(
            long,
            value_name = "PERCENT",
            value_delimiter = ',',
            allow_hyphen_values = true
        )]
        percent: Vec<String>,
        /// Refused: training loads are for the athlete and the coach.
        #[arg(long)]
        posted: bool,
    },
    /// Print into which band of a coach's own norms each result falls, as CSV.
    ///
    /// The norms are CSV, one row a percentile: lift (or total), percentile (1 to 99)
    /// and value (the load from which it is reached, or 1.5x for times the
    /// bodyweight); and where need be unit, sex, age (15, 14-15, 16+), grade and group
    /// (a division or a team), which are open to all where they are blank.
    Norms {
        /// The day.
        file: PathBuf,
        /// The norms.
        #[arg(value_name = "NORMS.csv")]
        norms: PathBuf,
        /// Refused: norms compare athletes by name.
        #[arg(long)]
        posted: bool,
    },
    /// Put the school's name and picture at the head of the papers, or tell which
    /// they are.
    School {
        /// The day.
        file: PathBuf,
        /// The school's name; blank takes it away.
        #[arg(long)]
        name: Option<String>,
        /// A PNG, which is reduced, or a JPEG of at most 64 KB; the day's file keeps
        /// it.
        #[arg(long, conflicts_with = "no_picture")]
        picture: Option<PathBuf>,
        /// Take the picture away.
        #[arg(long)]
        no_picture: bool,
    },
    /// Check that a day is sound.
    Check {
        /// The day.
        file: PathBuf,
    },
    /// Erase a person's name and all else that describes them, for good.
    ///
    /// Names, the school's identifier, birth date, bodyweight, clearances, set-ups,
    /// remarks and reasons go from every row of the journal. What was lifted stays under
    /// the number, with sex, grade, team and category. Backups, papers and exports that
    /// were made before are not reached.
    Erase {
        /// The day.
        file: PathBuf,
        /// The table number.
        number: u16,
        /// Do it: without this, it only says what would be erased.
        #[arg(long)]
        yes: bool,
    },
    /// Save what a damaged day still vouches for into a new one.
    ///
    /// Takes the journal's rows up to the first that is missing or isn't as it was
    /// written, says what was left out, and never touches the damaged file.
    Recover {
        /// The damaged day.
        file: PathBuf,
        /// The new day; must not be there yet.
        out: PathBuf,
    },
    /// Print a relative-strength score, the number alone.
    Score(Box<Score>),
    /// List the formulas with what they are for and how sure they are, as CSV.
    Formulas,
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

/// What can be chosen for a formula.
#[derive(Debug, Args)]
pub(super) struct ScoreChoices {
    /// classic or equipped, for ipf-gl; classic if not given.
    #[arg(long)]
    pub(super) equipment: Option<String>,
    /// Exponents for allometric: 0.67, or bench-press=0.559,back-squat=0.5.
    #[arg(long, value_name = "EXPONENT")]
    pub(super) exponent: Option<String>,
    /// Record totals for robi: CSV with sex, category, record and unit, or TOML.
    #[arg(long, value_name = "FILE")]
    pub(super) records: Option<PathBuf>,
}

/// What is scored.
#[derive(Debug, Args)]
pub(super) struct Score {
    /// The formula, as maxday formulas lists it.
    #[arg(long, value_name = "NAME")]
    pub(super) formula: Option<String>,
    /// F or M.
    #[arg(long)]
    pub(super) sex: Option<String>,
    /// The bodyweight, such as 63.2kg or 139.3lb; a plain number is in kg.
    #[arg(long, allow_hyphen_values = true)]
    pub(super) bodyweight: Option<String>,
    /// The load, such as 180kg or 400lb; a plain number is in kg.
    #[arg(long, allow_hyphen_values = true)]
    pub(super) load: Option<String>,
    /// total or bench; total if not given.
    #[arg(long)]
    pub(super) event: Option<String>,
    /// The one lift that the load was lifted in, instead of --event.
    #[arg(long)]
    pub(super) lift: Option<String>,
    #[command(flatten)]
    pub(super) choices: ScoreChoices,
    /// The age in years, by year of birth; multiplies by the age factor.
    #[arg(long, allow_hyphen_values = true)]
    pub(super) age: Option<String>,
    /// The day, which picks the constants; today if not given.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub(super) date: Option<String>,
}
