//! `maxday queue`, `maxday standings` and `maxday attempts`

use std::io::Write;
use std::path::Path;

use super::score::{Asked, scorings};
use crate::cli::args::By;
use crate::cli::{Failure, moment, print};
use crate::day::{Facts, Stamp};
use crate::exchange::tables::{Style, csv};
use crate::file::Live;
use crate::score::{Scoring, formula_names};
use crate::sheets::{
    Audience, attempts_table, hides_clubs, queue_table, score_reasons,
    scored_standings_table, standings_by_score_table, team_table,
};
use crate::standings::Basis;

pub(in crate::cli) fn queue(
    file: &Path,
    platform: Option<u8>,
    at: Option<&str>,
    posted: bool,
) -> Result<(), Failure> {
    let live = Live::open_read(file)?;
    let facts = live.day().facts();
    if let Some(platform) = platform.filter(|p| facts.platform(*p).is_none()) {
        return Err(Failure(format!(
            "There is no platform {platform}; this day has 1 to {}.",
            facts.platforms.len()
        )));
    }
    let now = moment::now();
    let at = match at {
        None => now,
        Some(text) => Stamp::parse(text, facts.date, now.offset)
            .ok_or_else(|| Failure(format!("“{text}” is no time; write it as 09:05.")))?,
    };
    print(&csv(
        &queue_table(facts, platform, at, audience(posted)),
        Style::Stdout,
    ))
}

const fn audience(posted: bool) -> Audience {
    if posted {
        Audience::Posted
    } else {
        Audience::Private
    }
}

pub(in crate::cli) fn standings(
    file: &Path,
    by: By,
    asked: &Asked<'_>,
    posted: bool,
) -> Result<(), Failure> {
    if by == By::Team && !asked.names.is_empty() {
        return Err(Failure(
            "Teams stand by their points, so --score doesn't go with --by team."
                .to_owned(),
        ));
    }
    let live = Live::open_read(file)?;
    let (facts, audience) = (live.day().facts(), audience(posted));
    let scorings = scorings(facts, asked)?;
    let scored = |basis| scored_standings_table(facts, basis, &scorings, audience);
    let table = match by {
        By::Category => scored(Basis::Category),
        By::Division => scored(Basis::Division),
        By::Slot => scored(Basis::Slot),
        By::Score => {
            let (by, more) = scorings.split_first().ok_or_else(|| {
                Failure(format!(
                    "To stand by a score, name it with --score; allowed: {}. The day's \
                     rule scores names none.",
                    formula_names()
                ))
            })?;
            standings_by_score_table(facts, by, more, audience)
        }
        By::Team => {
            let table = team_table(facts, audience);
            if facts.rules.teams.points.is_empty() {
                let _ = writeln!(
                    std::io::stderr(),
                    "maxday: This day's rules give teams no points; team-points does."
                );
            } else if table.is_empty() {
                let _ = writeln!(std::io::stderr(), "maxday: Nobody has a team yet.");
            }
            table
        }
    };
    if by != By::Team {
        let reasons = asked.names.is_empty() && !posted;
        say(
            facts,
            &scorings,
            reasons.then_some(by == By::Slot),
            audience,
        );
    }
    print(&csv(&table, Style::Stdout))
}

/// Says on standard error which constants are those of other days; of the day's own
/// scores also who has none and why, by lift or not, but never for posting, since a
/// reason tells of a body.
fn say(facts: &Facts, scorings: &[Scoring], reasons: Option<bool>, audience: Audience) {
    for scoring in scorings {
        super::score::say_off_date(scoring, facts.date);
    }
    if let Some(by_lift) = reasons {
        for sentence in score_reasons(facts, scorings, by_lift) {
            let _ = writeln!(std::io::stderr(), "maxday: {sentence}");
        }
    }
    if hides_clubs(facts, audience) {
        let _ = writeln!(
            std::io::stderr(),
            "maxday: Clubs by bodyweight are left out, since this day's bodyweights \
             aren't posted."
        );
    }
}

pub(in crate::cli) fn attempts(file: &Path, posted: bool) -> Result<(), Failure> {
    let live = Live::open_read(file)?;
    let table = attempts_table(live.day().facts(), audience(posted));
    print(&csv(&table, Style::Stdout))
}
