//! Points of the teams.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use crate::model::State;
use crate::plain::{Load, No};
use crate::rules::{Scores, TeamTie};

/// A team's place and points.
pub type TeamResult = (Option<u32>, u32);

/// A place that brings points.
#[derive(Debug, Clone, Copy)]
struct Score {
    no: No,
    load: Load,
    place: u32,
    points: u32,
}

impl State {
    fn points(&self, place: u32) -> u32 {
        let teams = &self.rules.teams;
        let at = usize::try_from(place).unwrap() - 1;
        match teams.points.get(at) {
            Some(points) => *points,
            None if teams.goes_on => *teams.points.last().unwrap(),
            None => 0,
        }
    }

    /// All places of each team by the ranking in which they were won.
    fn scores(&self) -> BTreeMap<u8, BTreeMap<(String, usize), Vec<Score>>> {
        let slots = self.rules.slots.len();
        let of = self.rules.teams.scores;
        let mut all: BTreeMap<u8, BTreeMap<_, Vec<Score>>> = BTreeMap::new();
        for (no, line) in self.standings() {
            let team = self.people[&no].athlete.team;
            if team == 0 || line.group.is_empty() {
                continue;
            }
            let mut add = |ranking: usize, place: Option<u32>, load: Load| {
                let Some(place) = place else {
                    return;
                };
                let points = self.points(place);
                if points == 0 {
                    return;
                }
                let rankings = all.entry(team).or_default();
                let key = (line.group.clone(), ranking);
                rankings.entry(key).or_default().push(Score {
                    no,
                    load,
                    place,
                    points,
                });
            };
            if of != Scores::Lifts {
                add(slots, line.place, line.total.unwrap_or(0));
            }
            if of != Scores::Total {
                for (i, s) in line.slots.iter().enumerate() {
                    let load = s.best.or(s.estimate).map_or(0, |(_, load)| load);
                    add(i, s.place, load);
                }
            }
        }
        all
    }

    /// The teams by name, with place and points.
    pub fn teams(&self) -> BTreeMap<u8, TeamResult> {
        let teams = &self.rules.teams;
        if teams.points.is_empty() {
            return BTreeMap::new();
        }
        let mut lines: Vec<(u8, u32, Vec<Score>, Load)> = Vec::new();
        let scores = self.scores();
        let named = self.people.values().map(|p| p.athlete.team);
        let named: std::collections::BTreeSet<u8> = named.filter(|t| *t > 0).collect();
        for team in named {
            let mut counted: Vec<Score> = Vec::new();
            for list in scores.get(&team).into_iter().flat_map(BTreeMap::values) {
                let mut list = list.clone();
                list.sort_by_key(|s| (s.place, std::cmp::Reverse(s.load), s.no));
                list.truncate(teams.per_group.unwrap_or(usize::MAX));
                counted.extend(list);
            }
            counted.sort_by_key(|s| {
                (
                    std::cmp::Reverse(s.points),
                    s.place,
                    std::cmp::Reverse(s.load),
                    s.no,
                )
            });
            counted.truncate(teams.best.unwrap_or(usize::MAX));
            let points = counted.iter().map(|s| s.points).sum();
            let who: std::collections::BTreeSet<No> =
                counted.iter().map(|s| s.no).collect();
            let sum = who
                .iter()
                .filter_map(|no| self.total(&self.people[no]))
                .sum();
            lines.push((team, points, counted, sum));
        }
        let order = |a: &(u8, u32, Vec<Score>, Load), b: &(u8, u32, Vec<Score>, Load)| {
            let mut order = b.1.cmp(&a.1);
            for tie in &teams.ties {
                order = order.then_with(|| match tie {
                    TeamTie::Places => more_places(&a.2, &b.2),
                    TeamTie::Sum => b.3.cmp(&a.3),
                });
            }
            order
        };
        let (mut placed, none): (Vec<_>, Vec<_>) =
            lines.into_iter().partition(|l| !l.2.is_empty());
        placed.sort_by(order);
        let mut all: BTreeMap<u8, TeamResult> =
            none.into_iter().map(|l| (l.0, (None, 0))).collect();
        let mut place = 0;
        for (i, line) in placed.iter().enumerate() {
            if i == 0 || order(&placed[i - 1], line) != Ordering::Equal {
                place = u32::try_from(i + 1).unwrap();
            }
            let _ = all.insert(line.0, (Some(place), line.1));
        }
        all
    }
}

/// More first places, then more seconds, and so on.
fn more_places(a: &[Score], b: &[Score]) -> Ordering {
    let count =
        |list: &[Score], place: u32| list.iter().filter(|s| s.place == place).count();
    (1..=40)
        .map(|place| count(b, place).cmp(&count(a, place)))
        .find(|o| *o != Ordering::Equal)
        .unwrap_or(Ordering::Equal)
}
