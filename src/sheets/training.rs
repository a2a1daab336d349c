//! What training is written from: shares of each max, as loads for the rack.
//!
//! Private: names and loads are for the athlete and the coach, so there is no
//! such sheet for posting. General education; the coach decides.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

use super::{Align, Cell, Column, Group, Table};
use crate::bar::Loads;
use crate::day::Facts;
use crate::measure::{Mass, Unit};
use crate::roster::{Entry, EntryKey};
use crate::standings::{Max, maxes};

/// The word in place of a load where the share is lighter than the empty bar.
pub const BAR: &str = "bar";

/// The largest share of a max that a table may show, in percent.
const MOST: u8 = 150;

/// The most shares side by side.
const SHARES: usize = 20;

/// Why shares of a max can't be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PercentError {
    /// A word that is no share.
    #[error(
        "“{0}” is no percentage; write whole numbers from 1 to {MOST}, such as 60,70,80."
    )]
    Word(String),
    /// None, or too many.
    #[error(
        "{0} percentages can't be shown; write 1 to {SHARES} of them, such as 60,70,80."
    )]
    Number(usize),
}

/// `resources/training.toml` as it is written.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Book {
    percents: Vec<u8>,
    /// Where the shares come from: for whoever reads the file.
    #[serde(rename = "percents-source")]
    _source: String,
    opener: Opener,
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Opener {
    percent: u8,
    /// Where it comes from: for whoever reads the file.
    #[serde(rename = "source")]
    _source: String,
}

fn book() -> &'static Book {
    static BOOK: OnceLock<Book> = OnceLock::new();
    // Compiled in, and a test reads it.
    BOOK.get_or_init(|| {
        toml::from_str(include_str!("../../resources/training.toml")).unwrap_or_default()
    })
}

/// The usual shares of a max in percent, from the lightest.
///
/// Source: `resources/training.toml`.
pub fn training_percents() -> &'static [u8] {
    &book().percents
}

/// The share of the max, in percent, that is suggested as the next opener.
///
/// Source: `resources/training.toml`.
pub fn next_opener_percent() -> u8 {
    book().opener.percent
}

/// Reads shares of a max; they are put in order, and each is kept once.
///
/// # Errors
/// [`PercentError`] for a word that isn't a whole number from 1 to 150, and
/// for none or more than 20 of them.
pub fn read_percents<'a>(
    words: impl IntoIterator<Item = &'a str>,
) -> Result<Vec<u8>, PercentError> {
    let mut percents = Vec::new();
    for word in words {
        let number = word.trim().trim_end_matches('%').trim_end();
        let plain = number.bytes().all(|b| b.is_ascii_digit());
        let read = number.parse::<u8>().ok().filter(|_| plain);
        let percent = read.filter(|p| (1..=MOST).contains(p));
        percents.push(percent.ok_or_else(|| PercentError::Word(word.trim().to_owned()))?);
    }
    percents.sort_unstable();
    percents.dedup();
    match percents.len() {
        1..=SHARES => Ok(percents),
        number => Err(PercentError::Number(number)),
    }
}

/// A load for training.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Share {
    /// The share is lighter than the empty bar.
    Bar,
    /// What the discs make, never more than the share.
    Load(Mass),
}

impl Share {
    /// The share of a max that can be loaded: rounded down to what the discs on
    /// hand make on the bar.
    ///
    /// ```
    /// use maxday::bar::{Loads, set_of_discs};
    /// use maxday::measure::{Mass, Unit};
    /// use maxday::sheets::Share;
    /// let kg = |n| Mass::whole(n, Unit::Kg);
    /// let discs = &set_of_discs("gym-kg").unwrap().discs;
    /// let loads = Loads::new(discs, kg(20));
    /// // 85 % of 63 kg are 53.55 kg; discs of 15 and 1.25 a side make 52.5 kg.
    /// let half = Mass::parse("52.5", Unit::Kg).unwrap();
    /// assert_eq!(Share::of(kg(63), 85, &loads), Share::Load(half));
    /// assert_eq!(Share::of(kg(36), 55, &loads), Share::Bar);
    /// ```
    pub fn of(max: Mass, percent: u8, loads: &Loads) -> Self {
        let share = max.percent(i64::from(percent));
        loads.at_most(share).map_or(Self::Bar, Self::Load)
    }

    /// As [`Share::of`], for a suggested opener: a multiple of the day's step
    /// too, since a request has to be one.
    pub fn opener(max: Mass, loads: &Loads, step: Mass) -> Self {
        let share = max.percent(i64::from(next_opener_percent()));
        let load = loads.at_most_in_steps(share, step);
        load.map_or(Self::Bar, Self::Load)
    }

    /// As a cell: the load, or the word [`BAR`].
    pub fn cell(self, unit: Unit) -> Cell {
        match self {
            Self::Bar => Cell::text(BAR),
            Self::Load(load) => Cell::Mass(load, unit),
        }
    }
}

/// One max with its loads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TrainingRow {
    /// Who.
    pub entry: EntryKey,
    /// The max, tested or estimated.
    pub max: Max,
    /// The empty bar that the loads are on.
    pub bar: Mass,
    /// A load a share, in their order.
    pub shares: Vec<Share>,
    /// The opener suggested for the next test; advice.
    pub opener: Share,
    /// Whether the discs on hand end below the heaviest share.
    pub short: bool,
}

/// The loads of all maxes, by table number and then by the programme.
///
/// The bar and the discs are those of the athlete's flight's platform, else of
/// platform 1.
pub fn training_rows(facts: &Facts, percents: &[u8]) -> Vec<TrainingRow> {
    let mut known: BTreeMap<(u8, Mass), Loads> = BTreeMap::new();
    let mut rows = Vec::new();
    for entry in facts.entries_by_number() {
        let platform = facts.platform_of(entry).unwrap_or(1);
        let bar = facts.empty_bar(platform, entry);
        for max in maxes(facts, entry) {
            let loads = known
                .entry((platform, bar))
                .or_insert_with(|| Loads::new(facts.discs(platform), bar));
            let shares = percents.iter().map(|p| Share::of(max.mass, *p, loads));
            let heaviest = percents.last().map_or(0, |p| i64::from(*p));
            rows.push(TrainingRow {
                entry: entry.key,
                bar,
                shares: shares.collect(),
                opener: Share::opener(max.mass, loads, facts.rules.step),
                short: max.mass.percent(heaviest) > loads.most(),
                max,
            });
        }
    }
    rows
}

/// What the athletes of a day are parted by for training.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SquadBy {
    /// Their team.
    Team,
    /// Their grade.
    Grade,
    /// Their flight.
    Flight,
}

impl SquadBy {
    /// The first of team, grade and flight that anybody has.
    pub fn of(facts: &Facts) -> Self {
        let any = |has: fn(&Entry) -> bool| facts.entries.values().any(has);
        if any(|e| !e.team.is_empty()) {
            Self::Team
        } else if any(|e| !e.grade.is_empty()) {
            Self::Grade
        } else {
            Self::Flight
        }
    }

    /// An entry's squad as a heading.
    fn label(self, entry: &Entry) -> String {
        let (what, name) = match self {
            Self::Team => ("", &entry.team),
            Self::Grade => ("grade ", &entry.grade),
            Self::Flight => ("flight ", &entry.flight),
        };
        match (self, name.is_empty()) {
            (Self::Team, true) => "no team".to_owned(),
            (Self::Grade, true) => "no grade".to_owned(),
            (Self::Flight, true) => "no flight".to_owned(),
            (_, false) => format!("{what}{name}"),
        }
    }

    /// What squads stand in order by: numbers by their value and before words,
    /// nothing last.
    fn rank(self, entry: &Entry) -> (bool, u64, String) {
        let name = match self {
            Self::Team => &entry.team,
            Self::Grade => &entry.grade,
            Self::Flight => &entry.flight,
        };
        let number = name.parse::<u64>();
        (name.is_empty(), number.unwrap_or(u64::MAX), name.clone())
    }
}

/// The percent tables of all maxes as one table, squad by squad.
///
/// Columns: who, the lift, the max and whether it was tested or estimated, the
/// bar, one column a share, and the opener suggested for the next test.
pub fn training_table(facts: &Facts, percents: &[u8], by: SquadBy) -> Table {
    let mut squads: BTreeMap<(bool, u64, String), Group> = BTreeMap::new();
    for row in training_rows(facts, percents) {
        let Some(entry) = facts.entries.get(&row.entry) else {
            continue;
        };
        let squad = squads.entry(by.rank(entry)).or_insert_with(|| Group {
            label: by.label(entry),
            ..Group::default()
        });
        squad.rows.push(cells(facts, entry, &row));
    }
    Table {
        columns: columns(percents),
        groups: squads.into_values().collect(),
    }
}

fn columns(percents: &[u8]) -> Vec<Column> {
    use Align::{Left, Right};
    let mut columns = vec![
        Column::new("team", "", Left),
        Column::new("grade", "", Left),
        Column::new("session", "", Left),
        Column::new("flight", "", Left),
        Column::new("lot", "Lot", Right),
        Column::new("id", "", Left),
        Column::new("name", "Name", Left),
        Column::new("slot", "", Left),
        Column::new("lift", "Lift", Left),
        Column::new("max", "Max", Right),
        Column::new("max from", "", Left),
        Column::new("bar unit", "", Left),
        Column::new("bar", "", Right),
    ];
    columns.extend(percents.iter().map(|p| {
        // No space in a heading, which would be broken there.
        Column::new(&format!("{p} %"), &format!("{p} %"), Right)
    }));
    columns.push(Column::new("next opener", "Next opener", Right));
    columns
}

fn cells(facts: &Facts, entry: &Entry, row: &TrainingRow) -> Vec<Cell> {
    let unit = facts.bar_unit;
    let (max, from) = if row.max.estimated {
        (Cell::Estimate(row.max.mass, unit), "estimate")
    } else {
        (Cell::Mass(row.max.mass, unit), "test")
    };
    let mut cells = vec![
        Cell::text(&entry.team),
        Cell::text(&entry.grade),
        Cell::text(&entry.session),
        Cell::text(&entry.flight),
        Cell::Count(i64::from(entry.number)),
        Cell::text(&entry.id),
        Cell::text(entry.name()),
        Cell::text(row.max.slot.as_str()),
        Cell::text(row.max.lift.as_str()),
        max,
        Cell::text(from),
        Cell::text(unit.symbol()),
        Cell::Mass(row.bar, unit),
    ];
    cells.extend(row.shares.iter().map(|share| share.cell(unit)));
    cells.push(row.opener.cell(unit));
    cells
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shares_are_what_the_resource_says() {
        let percents = training_percents();
        assert!(!percents.is_empty() && percents.is_sorted());
        assert!(percents.iter().all(|p| (1..=MOST).contains(p)));
        assert!((1..100).contains(&next_opener_percent()));
    }

    #[test]
    fn shares_are_read_in_any_order_and_kept_once() {
        let read = |text: &str| read_percents(text.split(','));
        assert_eq!(read("80, 60%,70 %,60"), Ok(vec![60, 70, 80]));
        assert_eq!(read("150"), Ok(vec![150]));
        for wrong in ["", "0", "151", "-5", "+60", "72.5", "sixty", "%", "60,,70"] {
            let told = read(wrong).unwrap_err().to_string();
            assert!(told.ends_with("such as 60,70,80."), "{wrong}: {told}");
        }
        let many: Vec<String> = (1..=21).map(|n| n.to_string()).collect();
        let many = read_percents(many.iter().map(String::as_str));
        assert_eq!(many, Err(PercentError::Number(21)));
        assert_eq!(read_percents([]), Err(PercentError::Number(0)));
    }
}
