//! The standings as a plain table.

use iced::keyboard::key::Named;
use iced::widget::{button, column, container, row, text};
use iced::{Element, alignment};

use crate::day::Facts;
use crate::desk::action::{Action, label};
use crate::desk::font;
use crate::desk::keys::Press;
use crate::desk::see;
use crate::desk::theme::{self, size};
use crate::desk::widget::{list, next, sheet};
use crate::lift::Slug;
use crate::score::{NoScore, Scoring};
use crate::sheets::{
    Audience, Cell, Table, no_score, shows_score, standings_by_score_on_screen,
    standings_on_screen, team_table, with_notes,
};
use crate::standings::{
    Basis, category_set, day_scores, leading_scores, score_of, standings,
};

/// Columns that the screen leaves to the papers: what describes a body, and
/// what only files need.
const HIDDEN: &[&str] = &[
    "id",
    "bodyweight",
    "scale unit",
    "bar unit",
    "group",
    "athletes",
];

/// What happens on the standings screen.
#[derive(Debug, Clone)]
pub enum Message {
    /// The cursor moves.
    Moved(i32),
    /// A button was pressed.
    Pressed(Action),
}

/// What is ranked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ranked {
    /// Athletes.
    By(Basis),
    /// Athletes, by a score: which of [`leading_scores`].
    Score(usize),
    /// Teams, by their points.
    Teams,
}

/// The state of the standings screen.
#[derive(Debug, Clone)]
pub struct Standings {
    /// What was asked for; `None` is what suits the day.
    asked: Option<Ranked>,
    cursor: usize,
}

impl Default for Standings {
    fn default() -> Self {
        Self::new()
    }
}

impl Standings {
    /// By category; by lift where the rules have no bodyweight categories or no
    /// total.
    pub const fn new() -> Self {
        Self {
            asked: None,
            cursor: 0,
        }
    }

    /// The next way to rank.
    pub fn turn(&mut self, facts: &Facts) {
        self.asked = Some(match self.ranked(facts) {
            Ranked::By(Basis::Category) => Ranked::By(Basis::Division),
            Ranked::By(Basis::Division) => Ranked::By(Basis::Slot),
            Ranked::By(Basis::Slot) => Ranked::Teams,
            Ranked::Teams => Ranked::Score(0),
            Ranked::Score(at) if at + 1 < leading_scores(facts).len() => {
                Ranked::Score(at + 1)
            }
            Ranked::Score(_) => Ranked::By(Basis::Category),
        });
        self.cursor = 0;
    }

    fn ranked(&self, facts: &Facts) -> Ranked {
        let usual = if facts.rules.total && category_set(facts).is_some() {
            Basis::Category
        } else {
            Basis::Slot
        };
        self.asked.unwrap_or(Ranked::By(usual))
    }

    fn table(&self, facts: &Facts) -> Table {
        match self.ranked(facts) {
            Ranked::By(basis) => {
                let mut table = with_notes(standings_on_screen(facts, basis), facts);
                if basis == Basis::Slot {
                    for group in &mut table.groups {
                        group.label = lift_first(&group.label);
                    }
                }
                table
            }
            Ranked::Score(at) => {
                let by = scoring(facts, at);
                let mut table =
                    with_notes(standings_by_score_on_screen(facts, &by), facts);
                for group in &mut table.groups {
                    group.label = lift_first(&group.label);
                }
                table
            }
            Ranked::Teams => team_table(facts, Audience::Private),
        }
    }

    /// What is said about scores: whether only places are shown, and why the athlete
    /// in hand has none.
    fn of_scores(&self, facts: &Facts, ranked: Ranked, table: &Table) -> Vec<String> {
        let scorings = match ranked {
            Ranked::By(_) => day_scores(facts),
            Ranked::Score(at) => vec![scoring(facts, at)],
            Ranked::Teams => Vec::new(),
        };
        let mut words = Vec::new();
        let hidden = |s: &Scoring| !shows_score(facts, s, Audience::Posted);
        if scorings.iter().any(hidden) {
            words.push(
                "Scores are shown by their places: beside a load the number would tell \
                 the bodyweight or the age. The papers that aren't for posting have it."
                    .to_owned(),
            );
        }
        words.extend(scorings.iter().filter_map(|s| s.off_date(facts.date)));
        // Where single lifts are ranked, the total's reason would be another one.
        if scorings.is_empty() || ranked == Ranked::By(Basis::Slot) {
            return words;
        }
        let Some(sheet::Line::Row(group, row)) =
            sheet::lines(table).get(self.cursor).copied()
        else {
            return words;
        };
        let at = table.columns.iter().position(|c| c.key == "lot");
        let cells = table.groups.get(group).and_then(|g| g.rows.get(row));
        let lot = match (at, cells) {
            (Some(at), Some(cells)) => cells.get(at).cloned(),
            _ => None,
        };
        let Some(Cell::Count(lot)) = lot else {
            return words;
        };
        let entry = u16::try_from(lot)
            .ok()
            .and_then(|n| facts.entry_by_number(n));
        let lines = standings(facts, Basis::Category);
        let mut lines = lines.iter().flat_map(|g| &g.lines);
        let line = lines.find(|l| entry.is_some_and(|e| e.key == l.entry));
        if let (Some(line), Some(entry)) = (line, entry) {
            for scoring in &scorings {
                if let Err(why) = score_of(facts, line, None, scoring) {
                    words.extend(without(scoring, &why, entry.number));
                }
            }
        }
        words
    }

    /// Takes a message.
    pub fn update(&mut self, message: Message, facts: &Facts) -> Option<Action> {
        match message {
            Message::Moved(by) => {
                let total = sheet::lines(&self.table(facts)).len();
                self.cursor = list::moved(self.cursor, by, total);
                None
            }
            Message::Pressed(action) => Some(action),
        }
    }

    /// The message of a key.
    pub fn key(&self, press: &Press) -> Option<Message> {
        let by = [
            (Named::ArrowUp, -1),
            (Named::ArrowDown, 1),
            (Named::PageUp, -15),
            (Named::PageDown, 15),
            (Named::Home, -100_000),
            (Named::End, 100_000),
        ];
        by.iter()
            .find(|(named, _)| press.is(*named))
            .map(|(_, by)| Message::Moved(*by))
    }

    /// Shows the screen.
    pub fn view<'a>(&'a self, facts: &'a Facts) -> Element<'a, Message> {
        let ranked = self.ranked(facts);
        let by = match ranked {
            Ranked::By(Basis::Category) => "By category".to_owned(),
            Ranked::By(Basis::Division) => "By division".to_owned(),
            Ranked::By(Basis::Slot) => "By lift".to_owned(),
            Ranked::Score(at) => {
                format!("By score: {}", scoring(facts, at).formula.title())
            }
            Ranked::Teams => "Teams".to_owned(),
        };
        let head = row![
            text(by).size(size::TITLE).font(font::BOLD),
            button(text(label(Action::NextRanking)).size(size::SMALL))
                .padding([4, 10])
                .style(theme::button::plain)
                .on_press(Message::Pressed(Action::NextRanking)),
        ]
        .align_y(alignment::Vertical::Center)
        .spacing(16);
        if facts.entries.is_empty() {
            return next::alone(facts);
        }
        let table = self.table(facts);
        if ranked == Ranked::Teams && table.is_empty() {
            let words = if facts.rules.teams.points.is_empty() {
                "Teams get no points under these rules; the rule team points is on the Day \
                 screen."
            } else {
                "No team has points yet."
            };
            return container(column![head, text(words).size(size::BODY)].spacing(8))
                .padding([10, 14])
                .into();
        }
        let mut page = column![head, next::line(facts)].spacing(8);
        if ranked == Ranked::Teams {
            page = page.push(text(of_team(&table, self.cursor)).size(size::BODY));
        }
        for words in self.of_scores(facts, ranked, &table) {
            page = page.push(text(words).size(size::SMALL).style(theme::text::muted));
        }
        container(page.push(sheet::view(table, HIDDEN, self.cursor)))
            .padding([10, 14])
            .into()
    }
}

/// Why somebody has no score, in words that tell no bodyweight and no age; nothing
/// where there is no load yet.
fn without(scoring: &Scoring, why: &NoScore, lot: u16) -> Option<String> {
    let title = scoring.formula.title();
    match why {
        NoScore::Load => None,
        NoScore::Bodyweight { .. } => Some(format!(
            "No {title} for lot {lot}: the bodyweight is outside what the formula is for."
        )),
        NoScore::Age { .. } => Some(format!(
            "No {title} for lot {lot}: no age factor goes with the age."
        )),
        why => Some(no_score(scoring, why, &[lot])),
    }
}

/// A score by its place among those that lead.
fn scoring(facts: &Facts, at: usize) -> Scoring {
    let mut all = leading_scores(facts);
    all.swap_remove(at.min(all.len().saturating_sub(1)))
}

/// The label of a group of one lift with the lift's name before it; it ends
/// with the lift's slug.
fn lift_first(label: &str) -> String {
    let (group, slug) = label.rsplit_once(' ').unwrap_or(("", label));
    let lift = Slug::new(slug).map_or_else(|_| slug.to_owned(), |s| see::lift_name(&s));
    let lift = see::capital(&lift);
    match group {
        "" | "all" => lift,
        group => format!("{lift}, {group}"),
    }
}

/// Whose places brought the points of the team in hand, as a sentence.
fn of_team(table: &Table, cursor: usize) -> String {
    let at = |key: &str| table.columns.iter().position(|c| c.key == key);
    let row = table
        .groups
        .first()
        .and_then(|group| group.rows.get(cursor));
    let cell = |key: &str| Some(row?.get(at(key)?)?.shown());
    match (cell("team"), cell("athletes")) {
        (Some(team), Some(list)) if !list.is_empty() => format!("{team}: {list}."),
        _ => "No place brings points yet.".to_owned(),
    }
}
