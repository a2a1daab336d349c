//! Clubs: who has lifted enough to join.
//!
//! Nothing is stored of a membership: it follows from the attempts that stand, so
//! it goes with one that is undone or corrected, and comes back with it.

use super::{Line, Standing, line};
use crate::day::Facts;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::{Entry, EntryKey};
use crate::rules::Club;

/// Somebody who has joined a club.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Member {
    /// Who.
    pub entry: EntryKey,
    /// What was lifted: the total, or the sum of the bests.
    pub load: Mass,
}

/// A club with its members.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClubLine<'a> {
    /// Which.
    pub club: &'a Club,
    /// By what was lifted, the heaviest first, then by table number.
    pub members: Vec<Member>,
    /// Whether nobody can join, since the day doesn't have what it needs.
    pub out_of_reach: bool,
}

/// The clubs of the day, in the order of the rules, with who has joined.
///
/// Good attempts of one repetition count, in the very lifts that the club names;
/// estimates never do. Of a club by total the day's total. Guests may join; who
/// was disqualified, be it in one of its lifts, may not. Loads are compared
/// exactly.
pub fn clubs(facts: &Facts) -> Vec<ClubLine<'_>> {
    let lines: Vec<(&Entry, Line)> = facts
        .entries_by_number()
        .map(|entry| (entry, line(facts, entry)))
        .collect();
    facts
        .rules
        .clubs
        .iter()
        .map(|club| {
            let mut members: Vec<Member> = lines
                .iter()
                .filter_map(|(entry, line)| {
                    let load = enough(facts, club, entry, line)?;
                    let entry = entry.key;
                    Some(Member { entry, load })
                })
                .collect();
            // The lines are in the order of the table numbers, and a sort keeps it.
            members.sort_by_key(|m| std::cmp::Reverse(m.load));
            ClubLine {
                club,
                members,
                out_of_reach: out_of_reach(facts, club),
            }
        })
        .collect()
}

/// What somebody lifted, where it is enough.
fn enough(facts: &Facts, club: &Club, entry: &Entry, line: &Line) -> Option<Mass> {
    if line.standing == Standing::Disqualified
        || club.sex.is_some_and(|sex| entry.sex != Some(sex))
    {
        return None;
    }
    let load = if club.lifts.is_empty() {
        line.total?
    } else {
        let mut sum = Mass::ZERO;
        for lift in &club.lifts {
            let slot = slot_of(facts, lift)?;
            if entry.is_disqualified(slot) {
                return None;
            }
            let (_, best) = facts.best_of(entry.key, slot, |l| l == lift)?;
            sum = sum + best.fact.credited.as_ref()?.mass;
        }
        sum
    };
    let body = entry.bodyweight.as_ref().map(|w| w.mass);
    (club.least.met(load, body) == Some(true)).then_some(load)
}

fn out_of_reach(facts: &Facts, club: &Club) -> bool {
    if club.lifts.is_empty() {
        return !facts.rules.total;
    }
    let mut lifts = club.lifts.iter();
    lifts.any(|lift| slot_of(facts, lift).is_none())
}

/// The slot in which a very lift may be done.
fn slot_of<'a>(facts: &'a Facts, lift: &Slug) -> Option<&'a Slug> {
    let mut lines = facts.slots.iter();
    let line = lines.find(|line| line.variants.contains(lift))?;
    Some(&line.slot)
}
