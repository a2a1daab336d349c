//! `maxday queue`, `maxday standings` and `maxday attempts`

use std::path::Path;

use crate::cli::args::By;
use crate::cli::{Failure, moment, print};
use crate::day::Stamp;
use crate::exchange::tables::{Style, csv};
use crate::file::Live;
use crate::sheets::{Audience, attempts_table, queue_table, standings_table};
use crate::standings::Basis;

pub(in crate::cli) fn queue(
    file: &Path,
    platform: Option<u8>,
    at: Option<&str>,
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
        &queue_table(facts, platform, at, Audience::Private),
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
    posted: bool,
) -> Result<(), Failure> {
    let live = Live::open_read(file)?;
    let basis = match by {
        By::Category => Basis::Category,
        By::Division => Basis::Division,
        By::Slot => Basis::Slot,
    };
    let table = standings_table(live.day().facts(), basis, audience(posted));
    print(&csv(&table, Style::Stdout))
}

pub(in crate::cli) fn attempts(file: &Path, posted: bool) -> Result<(), Failure> {
    let live = Live::open_read(file)?;
    let table = attempts_table(live.day().facts(), audience(posted));
    print(&csv(&table, Style::Stdout))
}
