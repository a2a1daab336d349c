//! Teams: what their athletes' places bring them.

use std::cmp::{Ordering, Reverse};
use std::collections::BTreeMap;

use super::{Basis, Line, Standing, number_of, placed_groups, places};
use crate::day::Facts;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::EntryKey;
use crate::rules::{TeamScores, TeamTie};

/// What a place was won in.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum ScoredIn {
    /// In a slot.
    Slot(Slug),
    /// In the total.
    Total,
}

/// One place that counts for a team.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Score {
    /// Whose.
    pub entry: EntryKey,
    /// The group's label.
    pub group: String,
    /// What for.
    pub of: ScoredIn,
    /// The load: a best, an estimate, or the total.
    pub load: Mass,
    /// The place.
    pub place: u32,
    /// Its points, from 1.
    pub points: u32,
}

/// A team's line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TeamLine {
    /// Its place; `None` while nothing of it scored.
    pub place: Option<u32>,
    /// Its name.
    pub team: String,
    /// The sum of the points that count.
    pub points: u32,
    /// The scores that count, the highest first.
    pub scores: Vec<Score>,
    /// The sum of the totals of the athletes who scored, each once.
    pub sum: Mass,
}

/// The teams by their points; none where the rules give none.
///
/// A place in a group brings its points; a shared place those of that place.
/// Of each ranking of a group (a lift's or the total's) the team's best placed
/// score, as many as the rules say; of these the highest count. Guests, who
/// was disqualified and who has no team bring nothing. Equal teams are parted
/// by the rules' chain, and share the place where that ends.
pub fn teams(facts: &Facts) -> Vec<TeamLine> {
    let rules = &facts.rules.teams;
    if rules.points.is_empty() {
        return Vec::new();
    }
    let mut scores: BTreeMap<&str, Vec<Score>> = facts
        .teams()
        .into_iter()
        .map(|team| (team, Vec::new()))
        .collect();
    let mut totals: BTreeMap<EntryKey, Mass> = BTreeMap::new();
    for group in placed_groups(facts, Basis::Category) {
        let mut ranked = ranked(facts, &group.label, &group.lines);
        // The best placed of a team come first, by any ranking.
        ranked.sort_by_key(|s| {
            (
                s.of.clone(),
                s.place,
                Reverse(s.load),
                number_of(facts, s.entry),
            )
        });
        let mut taken: BTreeMap<(ScoredIn, &str), u32> = BTreeMap::new();
        for score in ranked {
            let Some(entry) = facts.entries.get(&score.entry) else {
                continue;
            };
            let team = entry.team.as_str();
            let Some(list) = scores.get_mut(team) else {
                continue;
            };
            let count = taken.entry((score.of.clone(), team)).or_default();
            if rules.per_group.is_none_or(|most| *count < most) {
                *count = count.saturating_add(1);
                list.push(score);
            }
        }
        for line in group.lines {
            if let Some(total) = line.total {
                let _ = totals.insert(line.entry, total);
            }
        }
    }
    let mut lines: Vec<TeamLine> = scores
        .into_iter()
        .map(|(team, scores)| team_line(facts, team, scores, &totals))
        .collect();
    let order = |a: &TeamLine, b: &TeamLine| compare(&rules.ties, a, b);
    // The sort is stable, so equal ones stay by name.
    lines.sort_by(order);
    let ranks = places(&lines, |a, b| order(a, b).is_eq());
    for (line, place) in lines.iter_mut().zip(ranks) {
        line.place = Some(place).filter(|_| !line.scores.is_empty());
    }
    lines
}

/// The places of a group's lines that bring points.
fn ranked(facts: &Facts, group: &str, lines: &[Line]) -> Vec<Score> {
    let rules = &facts.rules.teams;
    let mut ranked = Vec::new();
    let placed = lines.iter().filter(|l| l.standing == Standing::Placed);
    for line in placed {
        let mut add = |of: ScoredIn, load: Option<Mass>, place: Option<u32>| {
            let points = place.map_or(0, |place| rules.points_of(place));
            if let (Some(load), Some(place), true) = (load, place, points > 0) {
                ranked.push(Score {
                    entry: line.entry,
                    group: group.to_owned(),
                    of,
                    load,
                    place,
                    points,
                });
            }
        };
        if matches!(rules.scores, TeamScores::Lifts | TeamScores::All) {
            for (slot, result) in facts.slots.iter().zip(&line.slots) {
                let load = result.mark().map(|(_, mass, _)| mass);
                add(ScoredIn::Slot(slot.slot.clone()), load, result.place);
            }
        }
        if matches!(rules.scores, TeamScores::Total | TeamScores::All) {
            add(ScoredIn::Total, line.total, line.place);
        }
    }
    ranked
}

fn team_line(
    facts: &Facts,
    team: &str,
    mut scores: Vec<Score>,
    totals: &BTreeMap<EntryKey, Mass>,
) -> TeamLine {
    scores.sort_by_key(|s| {
        let total = totals.get(&s.entry).copied();
        (
            Reverse(s.points),
            s.place,
            Reverse(total),
            number_of(facts, s.entry),
            s.of.clone(),
        )
    });
    if let Some(best) = facts.rules.teams.best {
        scores.truncate(usize::try_from(best).unwrap_or(usize::MAX));
    }
    let mut athletes: Vec<EntryKey> = scores.iter().map(|s| s.entry).collect();
    athletes.sort();
    athletes.dedup();
    TeamLine {
        place: None,
        team: team.to_owned(),
        points: scores
            .iter()
            .fold(0, |sum, s| u32::saturating_add(sum, s.points)),
        sum: athletes
            .iter()
            .filter_map(|key| totals.get(key).copied())
            .sum(),
        scores,
    }
}

fn compare(ties: &[TeamTie], a: &TeamLine, b: &TeamLine) -> Ordering {
    let mut order = b.points.cmp(&a.points);
    for tie in ties {
        if order.is_ne() {
            return order;
        }
        order = match tie {
            TeamTie::Places => places_won(a, b),
            TeamTie::Sum => b.sum.cmp(&a.sum),
            TeamTie::Shared => return Ordering::Equal,
        };
    }
    order
}

/// More first places, then more seconds, and so on.
fn places_won(a: &TeamLine, b: &TeamLine) -> Ordering {
    let won = |line: &TeamLine| -> Vec<u32> {
        let mut won: Vec<u32> = line.scores.iter().map(|s| s.place).collect();
        won.sort_unstable();
        won
    };
    let (a, b) = (won(a), won(b));
    // The first place at which two rising lists part decides: the lower one has
    // more of that place; where one list ends, the longer has more.
    for (mine, other) in a.iter().zip(&b) {
        if mine != other {
            return mine.cmp(other);
        }
    }
    b.len().cmp(&a.len())
}
