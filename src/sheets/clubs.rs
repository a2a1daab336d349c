//! Clubs and their members, as a table.

use std::collections::BTreeMap;

use super::posting::{Audience, name_for, shows_bodyweight};
use super::{Align, Cell, Column, Group, Table, lift_name};
use crate::day::Facts;
use crate::roster::EntryKey;
use crate::rules::{Club, Least};
use crate::standings::{ClubLine, clubs};

/// Whether a club may be seen.
///
/// Of a club by bodyweight who is in it tells how heavy at most, beside the load,
/// and who isn't how heavy at least; several of them close in on it. So none is
/// shown, not even empty, where bodyweights are hidden.
pub(super) fn shows_club(facts: &Facts, club: &Club, audience: Audience) -> bool {
    !club.least.by_body() || shows_bodyweight(facts, audience)
}

/// Whether the day has clubs that the audience may not see.
pub fn hides_clubs(facts: &Facts, audience: Audience) -> bool {
    let mut all = facts.rules.clubs.iter();
    all.any(|club| !shows_club(facts, club, audience))
}

/// The names of everybody's clubs; `None` where there is none that may be seen.
pub(super) fn clubs_of(
    facts: &Facts,
    audience: Audience,
) -> Option<BTreeMap<EntryKey, Vec<&str>>> {
    let mut rules = facts.rules.clubs.iter();
    if !rules.any(|club| shows_club(facts, club, audience)) {
        return None;
    }
    let mut found: BTreeMap<EntryKey, Vec<&str>> = BTreeMap::new();
    for of in seen(facts, audience) {
        for member in of.members {
            found
                .entry(member.entry)
                .or_default()
                .push(of.club.name.as_str());
        }
    }
    Some(found)
}

fn seen(facts: &Facts, audience: Audience) -> Vec<ClubLine<'_>> {
    let mut all = clubs(facts);
    all.retain(|of| shows_club(facts, of.club, audience));
    all
}

/// The clubs with their members, a group a club, by what was lifted.
///
/// `times` is the load over the bodyweight, cut off behind three decimals, so that it
/// never looks like enough where it isn't.
pub fn clubs_table(facts: &Facts, audience: Audience) -> Table {
    use Align::{Left, Right};
    let columns = vec![
        Column::new("club", "", Left),
        Column::new("needs", "", Left),
        Column::new("lot", "Lot", Right),
        Column::new("name", "Name", Left),
        Column::new("sex", "Sex", Left),
        Column::new("team", "Team", Left),
        Column::new("load", &format!("Load {}", facts.bar_unit), Right),
        Column::new("bar unit", "", Left),
        Column::new("times", "Times body", Right),
    ];
    let groups = seen(facts, audience)
        .into_iter()
        .map(|of| {
            let row = |member: &crate::standings::Member| {
                let entry = facts.entries.get(&member.entry)?;
                let times = entry
                    .bodyweight
                    .as_ref()
                    .filter(|_| of.club.least.by_body())
                    .map(|body| times(member.load.counts(), body.mass.counts()));
                Some(vec![
                    Cell::text(&of.club.name),
                    Cell::text(of.club.needs()),
                    Cell::Count(i64::from(entry.number)),
                    Cell::text(name_for(facts, entry, audience)),
                    Cell::text(entry.sex.map_or("", |s| s.letter())),
                    Cell::text(&entry.team),
                    Cell::mass(Some(member.load), facts.bar_unit),
                    Cell::text(facts.bar_unit.symbol()),
                    Cell::text(times.unwrap_or_default()),
                ])
            };
            Group {
                label: format!("{}: {}", of.club.name, club_needs(of.club)),
                remark: remark(&of),
                rows: of.members.iter().filter_map(row).collect(),
            }
        })
        .collect();
    Table { columns, groups }
}

/// A load over a bodyweight to three decimals, the rest cut off.
fn times(load: i64, body: i64) -> String {
    let n = i128::from(load) * 1000 / i128::from(body.max(1));
    format!("{}.{:03}", n / 1000, n % 1000)
}

/// What a club needs, in words: `back squat of 2 times the bodyweight`.
pub fn club_needs(club: &Club) -> String {
    let lifts: Vec<String> = club.lifts.iter().map(lift_name).collect();
    let of = match lifts.split_last() {
        None => "total".to_owned(),
        Some((only, [])) => only.clone(),
        Some((last, rest)) => format!("{} and {last} together", rest.join(", ")),
    };
    let least = match club.least {
        Least::Load(load, unit) => load.show_with_unit(unit),
        Least::Times(_) => {
            let times = club.least.show();
            format!("{} times the bodyweight", times.trim_end_matches('x'))
        }
    };
    let whose = match club.sex {
        Some(crate::rules::Sex::F) => ", girls and women",
        Some(crate::rules::Sex::M) => ", boys and men",
        None => "",
    };
    format!("{of}, {least}{whose}")
}

fn remark(of: &ClubLine<'_>) -> String {
    if of.out_of_reach {
        let what = if of.club.lifts.is_empty() {
            "this day's rules add up no total"
        } else {
            "not all of it is on this day's programme"
        };
        return format!("nobody can join: {what}");
    }
    String::new()
}
