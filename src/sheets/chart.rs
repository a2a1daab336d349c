//! The loading chart: every load of the day with the discs of one side.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use serde::Deserialize;

use super::on_bar::{bar_words, disc_words};
use super::{Align, Cell, Column, Group, Table};
use crate::bar::{Discs, Loads, fewest};
use crate::day::{Facts, standing_request};
use crate::measure::{Mass, Unit};
use crate::roster::{Entry, Sex};

/// What stands in place of discs that can't make a load.
pub const NO_DISCS: &str = "–";

/// What stands where no disc is on the bar.
pub const BAR_ALONE: &str = "bar alone";

/// `resources/loading-chart.toml` as it is written.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Book {
    beyond: u8,
    at_least_kg: i64,
    at_least_lb: i64,
    /// Where the numbers come from: for whoever reads the file.
    #[serde(rename = "source")]
    _source: String,
}

fn book() -> &'static Book {
    static BOOK: OnceLock<Book> = OnceLock::new();
    // Compiled in, and a test reads it.
    BOOK.get_or_init(|| {
        toml::from_str(include_str!("../../resources/loading-chart.toml"))
            .unwrap_or_default()
    })
}

/// A bar with discs, and the platforms that have both.
struct Station<'a> {
    bar: Mass,
    discs: &'a Discs,
    platforms: Vec<u8>,
}

/// Every load from the empty bar to somewhat above the heaviest that is known
/// of the day, in the day's step, with the discs of one side from the inside.
///
/// One group a bar and a set of discs, named with its platforms where there are
/// several groups. A bar always carries the fewest discs (IWF equipment rules as
/// rendered by a broadcaster's guide). A load that the discs can't make has a
/// dash; a bar that isn't a multiple of the step stands first all the same, and
/// where the discs then make no multiple at all, steps are counted from the bar.
pub fn loading_chart(facts: &Facts) -> Table {
    let stations = stations(facts);
    let several = stations.len() > 1;
    let groups = stations.iter().map(|station| {
        let first = station.platforms.first().copied().unwrap_or(1);
        let mut label = bar_words(facts, first, station.bar);
        if several && station.platforms.len() < facts.platforms.len() {
            let names = station.platforms.iter().map(|p| facts.platform_label(*p));
            label.push_str(&format!(", {}", names.collect::<Vec<_>>().join(", ")));
        }
        Group {
            rows: rows(facts, station, &label),
            label,
            ..Group::default()
        }
    });
    Table {
        columns: vec![
            Column::new("bar", "", Align::Left),
            Column::new("load", "Load", Align::Right),
            Column::new("bar unit", "", Align::Left),
            Column::new("each side", "Each side", Align::Left),
        ],
        groups: groups.collect(),
    }
}

/// The bars and discs of the day, each pair once, the lightest bar first.
fn stations(facts: &Facts) -> Vec<Station<'_>> {
    let mut sexes: BTreeSet<Sex> = facts.entries.values().filter_map(|e| e.sex).collect();
    if sexes.is_empty() {
        sexes.extend([Sex::F, Sex::M]);
    }
    let mut stations: Vec<Station<'_>> = Vec::new();
    for number in (1..).take(facts.platforms.len()) {
        let own = facts.platform(number).and_then(|p| p.bar_on_hand.as_ref());
        let bars: BTreeSet<Mass> = match own {
            Some(own) => BTreeSet::from([own.mass]),
            None => {
                let of = |sex: &Sex| match sex {
                    Sex::F => facts.rules.bar_f,
                    Sex::M => facts.rules.bar_m,
                };
                sexes.iter().map(of).collect()
            }
        };
        let discs = facts.discs(number);
        for bar in bars {
            let known = |s: &&mut Station<'_>| s.bar == bar && s.discs == discs;
            match stations.iter_mut().find(known) {
                Some(station) => station.platforms.push(number),
                None => stations.push(Station {
                    bar,
                    discs,
                    platforms: vec![number],
                }),
            }
        }
    }
    stations.sort_by_key(|s| (s.bar, s.platforms.first().copied()));
    stations
}

fn rows(facts: &Facts, station: &Station<'_>, label: &str) -> Vec<Vec<Cell>> {
    let unit = facts.bar_unit;
    let step = facts.rules.step;
    let most = most(facts, station);
    let loads = Loads::new(station.discs, station.bar);
    let in_step = |from: Mass| {
        // The next multiple above this load.
        (from + Mass::from_counts(1)).ceil_to(step)
    };
    let all = |next: &dyn Fn(Mass) -> Mass| -> Vec<Mass> {
        let next = |load: &Mass| Some(next(*load)).filter(|load| *load <= most);
        std::iter::successors(Some(station.bar), next).collect()
    };
    let mut wanted = all(&in_step);
    if !wanted.iter().skip(1).any(|load| loads.makes(*load)) {
        wanted = all(&|load| load + step);
    }
    let mut rows = Vec::new();
    for load in wanted {
        let side = fewest(station.discs, station.bar, load).map(|side| {
            let discs: Vec<String> = side.iter().map(|d| disc_words(facts, d)).collect();
            discs.join(" + ")
        });
        let side = match side {
            None => NO_DISCS.to_owned(),
            Some(discs) if discs.is_empty() => BAR_ALONE.to_owned(),
            Some(discs) => discs,
        };
        rows.push(vec![
            Cell::text(label),
            Cell::Mass(load, unit),
            Cell::text(unit.symbol()),
            Cell::text(side),
        ]);
    }
    rows
}

/// How far the chart of a bar goes.
fn most(facts: &Facts, station: &Station<'_>) -> Mass {
    let at_least = match facts.bar_unit {
        Unit::Kg => Mass::whole(book().at_least_kg, Unit::Kg),
        Unit::Lb => Mass::whole(book().at_least_lb, Unit::Lb),
    };
    let here = |entry: &&Entry| {
        let platform = facts.platform_of(entry).unwrap_or(1);
        station.platforms.contains(&platform)
            && facts.empty_bar(platform, entry) == station.bar
    };
    let heaviest = facts.entries.values().filter(here);
    let heaviest = heaviest.filter_map(|entry| heaviest_of(facts, entry)).max();
    let beyond = heaviest.map_or(Mass::ZERO, |load| {
        load.percent(100 + i64::from(book().beyond))
            .ceil_to(facts.rules.step)
    });
    at_least
        .max(beyond)
        .min(Loads::new(station.discs, station.bar).most())
}

/// The heaviest load that is known of an athlete.
fn heaviest_of(facts: &Facts, entry: &Entry) -> Option<Mass> {
    let mut loads: Vec<Mass> = entry.last.values().map(|w| w.mass).collect();
    for line in &facts.slots {
        let slot = &line.slot;
        let asked = facts
            .next_attempt(entry.key, slot)
            .and_then(|n| standing_request(facts, entry, slot, n));
        loads.extend(asked.map(|asked| asked.load.mass));
        let ruled = facts.run(entry.key, slot).into_iter();
        let ruled = ruled.flat_map(|run| run.attempts.values());
        let ruled = ruled.filter_map(|attempt| attempt.ruled.as_ref());
        loads.extend(ruled.filter_map(|r| r.fact.loaded.as_ref()).map(|w| w.mass));
    }
    loads.into_iter().max()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_resource_says_how_far_a_chart_goes() {
        let book = book();
        assert!((1..=50).contains(&book.beyond));
        assert!(book.at_least_kg > 0 && book.at_least_lb > book.at_least_kg);
    }
}
