//! `maxday export`

use std::path::Path;

use crate::cli::{Failure, moment};
use crate::exchange::day_json::day_json;
use crate::exchange::workbook_out::{About, workbook};
use crate::file::Live;
use crate::sheets::{Audience, attempts_table, standings_table, start_list, team_table};
use crate::standings::{Basis, has_divisions};

pub(in crate::cli) fn run(file: &Path, out: &Path, posted: bool) -> Result<(), Failure> {
    let audience = if posted {
        Audience::Posted
    } else {
        Audience::Private
    };
    let is = |end: &str| out.extension().is_some_and(|e| e.eq_ignore_ascii_case(end));
    if !is("xlsx") && !is("json") {
        return Err(Failure(format!(
            "{} names no kind of file that can be made; it may end in .xlsx or .json.",
            out.display()
        )));
    }
    let live = Live::open_read(file)?;
    let facts = live.day().facts();
    let made = moment::now();
    let bytes = if is("json") {
        day_json(facts, audience, made)
    } else {
        let mut sheets = vec![
            ("Results", standings_table(facts, Basis::Category, audience)),
            ("Attempts", attempts_table(facts, audience)),
            ("Start list", start_list(facts, audience)),
        ];
        if has_divisions(facts) {
            let table = standings_table(facts, Basis::Division, audience);
            sheets.push(("By division", table));
        }
        if !facts.rules.teams.points.is_empty() {
            sheets.push(("Teams", team_table(facts, audience)));
        }
        let about = About {
            title: &facts.name,
            audience: audience.word(),
            made,
        };
        workbook(&sheets, &about).map_err(Failure)?
    };
    std::fs::write(out, bytes).map_err(|e| {
        Failure(format!(
            "{} can't be written: {e}; close it where it is open, and try again.",
            out.display()
        ))
    })
}
