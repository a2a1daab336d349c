//! Relative-strength scores: beside the standings, as standings, and who leads.

use std::collections::BTreeMap;

use super::clubs::clubs_of;
use super::posting::{Audience, name_for, shows_category, shows_score};
use super::results::{lift_name, table_of};
use super::{Align, Cell, Column, Group, Table};
use crate::day::Facts;
use crate::lift::Slug;
use crate::roster::{EntryKey, SlotLine};
use crate::score::{Formula, NoScore, Scoring};
use crate::standings::{
    Basis, Leaders, Line, Over, day_scores, leaders, score_of, standings,
    standings_by_score, without_score,
};

/// The standings with a column for each score at their end: of the lift where
/// they stand by lift, else of the total.
///
/// A cell is blank where there is no score, and where the audience may not see
/// it; a column with the place by the score then stands behind.
pub fn scored_standings_table(
    facts: &Facts,
    basis: Basis,
    scorings: &[Scoring],
    audience: Audience,
) -> Table {
    let groups = standings(facts, basis);
    let beside = Beside::new(facts, scorings.to_vec(), audience);
    table_of(facts, groups, basis == Basis::Division, beside, audience)
}

/// The standings by a score, with its column and those of more scores at their
/// end.
///
/// The column `place` is the place by the first score. Where the audience may
/// not see scores, their columns are blank and the places stand alone.
pub fn standings_by_score_table(
    facts: &Facts,
    by: &Scoring,
    more: &[Scoring],
    audience: Audience,
) -> Table {
    by_score(facts, by, more, audience, audience)
}

/// The standings for the table's own screen: names in full, but of what describes a
/// body only what may be posted, since anybody may look at a screen.
pub fn standings_on_screen(facts: &Facts, basis: Basis) -> Table {
    let groups = standings(facts, basis);
    let beside = Beside::new(facts, day_scores(facts), Audience::Posted);
    let divisions = basis == Basis::Division;
    table_of(facts, groups, divisions, beside, Audience::Private)
}

/// The standings by a score for the table's own screen.
pub fn standings_by_score_on_screen(facts: &Facts, by: &Scoring) -> Table {
    by_score(facts, by, &[], Audience::Private, Audience::Posted)
}

fn by_score(
    facts: &Facts,
    by: &Scoring,
    more: &[Scoring],
    audience: Audience,
    bodies: Audience,
) -> Table {
    let mut scorings = vec![by.clone()];
    scorings.extend(more.iter().cloned());
    let groups = standings_by_score(facts, by);
    let mut beside = Beside::new(facts, scorings, bodies);
    beside.placed = true;
    // Its groups are no bodyweight categories, so their names hide nothing.
    table_of(facts, groups, true, beside, audience)
}

/// Places by a score among all, by entry and, where one lift is scored, by lift.
type Places = BTreeMap<(EntryKey, Option<Slug>), u32>;

/// What stands beside the results in a table of standings: scores, then clubs.
pub(super) struct Beside<'a> {
    facts: &'a Facts,
    scorings: Vec<Scoring>,
    /// Who may see what describes a body.
    bodies: Audience,
    /// Whether the rows stand by the first score already.
    placed: bool,
    /// Places by the scores that are hidden, by slot.
    places: BTreeMap<(usize, Option<Slug>), Places>,
    /// Clubs by their members; `None` where there is none to show.
    clubs: Option<BTreeMap<EntryKey, Vec<&'a str>>>,
}

impl<'a> Beside<'a> {
    pub(super) fn new(
        facts: &'a Facts,
        scorings: Vec<Scoring>,
        bodies: Audience,
    ) -> Self {
        Self {
            facts,
            scorings,
            bodies,
            placed: false,
            places: BTreeMap::new(),
            clubs: clubs_of(facts, bodies),
        }
    }

    /// Whether the place by a score has a column of its own: beside a number that
    /// is hidden.
    fn has_place(&self, at: usize, scoring: &Scoring) -> bool {
        let told = self.placed && at == 0;
        !told && !shows_score(self.facts, scoring, self.bodies)
    }

    pub(super) fn columns(&self) -> Vec<Column> {
        let mut columns = Vec::new();
        for (at, scoring) in self.scorings.iter().enumerate() {
            let label = short_name(scoring);
            columns.push(Column::new(&scoring.header(), &label, Align::Right));
            if self.has_place(at, scoring) {
                let key = format!("{} place", scoring.header());
                let label = format!("{label} place");
                columns.push(Column::new(&key, &label, Align::Right));
            }
        }
        if self.clubs.is_some() {
            columns.push(Column::new("clubs", "Clubs", Align::Left));
        }
        columns
    }

    pub(super) fn cells(&mut self, line: &Line, slot: Option<&Slug>) -> Vec<Cell> {
        let mut cells = Vec::new();
        for (at, scoring) in self.scorings.iter().enumerate() {
            cells.push(score_cell(self.facts, line, slot, scoring, self.bodies));
            if !self.has_place(at, scoring) {
                continue;
            }
            let places = self
                .places
                .entry((at, slot.cloned()))
                .or_insert_with(|| places_by(self.facts, scoring, slot));
            let lift = slot.and_then(|slot| {
                let at = self.facts.slots.iter().position(|l| l.slot == *slot)?;
                line.slots.get(at)?.lift.clone()
            });
            cells.push(Cell::count(places.get(&(line.entry, lift)).copied()));
        }
        if let Some(clubs) = &self.clubs {
            let own = clubs.get(&line.entry);
            cells.push(Cell::text(own.map_or_else(String::new, |c| c.join("; "))));
        }
        cells
    }
}

fn places_by(facts: &Facts, scoring: &Scoring, slot: Option<&Slug>) -> Places {
    let mut places = Places::new();
    for group in leaders(facts, scoring, slot, Over::All, None) {
        let lift = slot.and_then(|_| group.lifts.first().cloned());
        for leader in group.leaders {
            let _ = places.insert((leader.entry, lift.clone()), leader.place);
        }
    }
    places
}

/// A formula's name for a narrow heading.
fn short_name(scoring: &Scoring) -> String {
    let short = scoring.formula.about().short.clone();
    if scoring.ages {
        format!("{short}, age")
    } else {
        short
    }
}

/// Why some have a load and no score, a sentence each; for those who run the day,
/// since a reason tells of a body.
///
/// `by_lift` asks for the scores of single lifts.
pub fn score_reasons(facts: &Facts, scorings: &[Scoring], by_lift: bool) -> Vec<String> {
    let slots: Vec<Option<&Slug>> = if by_lift {
        facts.slots.iter().map(|line| Some(&line.slot)).collect()
    } else {
        vec![None]
    };
    let mut sentences: Vec<String> = Vec::new();
    for scoring in scorings {
        for slot in &slots {
            let (reasons, nobody) = without_score(facts, *slot, scoring);
            let only = nobody && reasons.len() == 1;
            for (why, lots) in reasons {
                let sentence = no_score(scoring, &why, if only { &[] } else { &lots });
                if !sentences.contains(&sentence) {
                    sentences.push(sentence);
                }
            }
        }
    }
    sentences
}

/// Why there is no score, as a sentence; of some lots where any are named.
pub fn no_score(scoring: &Scoring, why: &NoScore, lots: &[u16]) -> String {
    let whose = match lots {
        [] => String::new(),
        [one] => format!(" for lot {one}"),
        several => {
            let lots: Vec<String> = several.iter().map(u16::to_string).collect();
            format!(" for lots {}", lots.join(", "))
        }
    };
    let title = scoring.formula.title();
    let hint = match why {
        NoScore::Records(_) => {
            " Name them with the rule score-records, or as weightlifting-total in the \
             record book."
        }
        _ => "",
    };
    format!("No {title}{whose}: {why}{hint}")
}

/// The column of a score.
fn score_column(scoring: &Scoring) -> Column {
    let header = scoring.header();
    let label = scoring.formula.title();
    Column::new(&header, label, Align::Right)
}

/// A line's score as a cell: blank where there is none, or where the audience
/// may not see it.
fn score_cell(
    facts: &Facts,
    line: &Line,
    slot: Option<&Slug>,
    scoring: &Scoring,
    audience: Audience,
) -> Cell {
    if !shows_score(facts, scoring, audience) {
        return Cell::Blank;
    }
    match score_of(facts, line, slot, scoring) {
        Ok(score) => Cell::Decimal(score.shown()),
        Err(_) => Cell::Blank,
    }
}

/// Who leads by a score in each group, for boards and papers.
///
/// Each with the load that was scored (`load`) and the score; where the audience
/// may not see the score, the place stands beside the load alone. A hidden
/// bodyweight category is named only by a running number.
pub fn leaders_table(
    facts: &Facts,
    scoring: &Scoring,
    slot: Option<&Slug>,
    over: Over,
    most: Option<u32>,
    audience: Audience,
) -> Table {
    use Align::{Left, Right};
    let shown = shows_score(facts, scoring, audience);
    let mut columns = vec![
        Column::new("group", "", Left),
        Column::new("place", "Place", Right),
        Column::new("lot", "Lot", Right),
        Column::new("name", "Name", Left),
        Column::new("sex", "Sex", Left),
        Column::new("team", "Team", Left),
        Column::new("load", &format!("Load {}", facts.bar_unit), Right),
        Column::new("bar unit", "", Left),
    ];
    if shown {
        columns.push(score_column(scoring));
    }
    let hides = over == Over::Category
        && !shows_category(facts, audience)
        && !matches!(facts.rules.categories.as_str(), "none" | "flight");
    let mut numbers: Vec<String> = Vec::new();
    let groups = leaders(facts, scoring, slot, over, most)
        .into_iter()
        .map(|mut of| {
            if hides {
                if !numbers.contains(&of.label) {
                    numbers.push(of.label.clone());
                }
                let at = numbers.iter().position(|l| *l == of.label);
                of.label = format!("group {}", at.unwrap_or_default() + 1);
            }
            let label = heading(facts, &of, slot);
            let row = |l: &crate::standings::Leader| {
                let entry = facts.entries.get(&l.entry)?;
                let mut row = vec![
                    Cell::text(&label),
                    Cell::count(Some(l.place)),
                    Cell::Count(i64::from(entry.number)),
                    Cell::text(name_for(facts, entry, audience)),
                    Cell::text(entry.sex.map_or("", |s| s.letter())),
                    Cell::text(&entry.team),
                    Cell::mass(Some(l.load), facts.bar_unit),
                    Cell::text(facts.bar_unit.symbol()),
                ];
                if shown {
                    row.push(Cell::Decimal(l.score.shown()));
                }
                Some(row)
            };
            Group {
                rows: of.leaders.iter().filter_map(row).collect(),
                remark: String::new(),
                label,
            }
        })
        .collect();
    Table { columns, groups }
}

/// The group's label, with the lifts where they aren't the programme's own or
/// where only one of a programme of several is scored.
fn heading(facts: &Facts, of: &Leaders, slot: Option<&Slug>) -> String {
    let own = facts.slots.iter().map(SlotLine::default_variant);
    if slot.is_none() && of.lifts.iter().eq(own) {
        return of.label.clone();
    }
    let names: Vec<String> = of.lifts.iter().map(lift_name).collect();
    format!("{}, {}", of.label, names.join(", "))
}

/// What a sheet with such scores says at its foot, in sentences: formulas,
/// sources, what of them is from memory, and why scores may be missing.
pub fn score_notes(
    facts: &Facts,
    scorings: &[Scoring],
    audience: Audience,
) -> Vec<String> {
    let mut notes = Vec::new();
    for scoring in scorings {
        notes.extend(scoring.notes(facts.date));
        if !suits(facts, scoring.formula) {
            notes.push(format!(
                "{} compare {}; this day's lifts are others.",
                plural(scoring.formula.title()),
                scoring.formula.about().purpose
            ));
        }
        if scoring.formula == Formula::Robi && scoring.records.is_some() {
            notes.push(
                "The records of Robi points are the school's own table.".to_owned(),
            );
        }
    }
    if scorings.iter().any(|s| !shows_score(facts, s, audience)) {
        notes.push(
            "Only places by score are shown: beside a load the score would give the \
             bodyweight or the age away."
                .to_owned(),
        );
    }
    notes
}

/// Whether the day's lifts are those that a formula was made for.
fn suits(facts: &Facts, formula: Formula) -> bool {
    let own = &formula.about().lifts;
    let lifts: Vec<&str> = facts
        .slots
        .iter()
        .map(|line| line.default_variant().as_str())
        .collect();
    let single = lifts.len() == 1;
    own.is_empty()
        || single
        || (own.len() == lifts.len() && own.iter().all(|l| lifts.contains(&l.as_str())))
}

/// A title in the plural: `Sinclair totals`.
fn plural(title: &str) -> String {
    match title.strip_suffix("total") {
        Some(_) => format!("{title}s"),
        None => title.to_owned(),
    }
}
