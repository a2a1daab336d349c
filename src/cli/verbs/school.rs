//! `maxday school`

use std::path::Path;

use crate::cli::{Failure, moment, print};
use crate::day::Command;
use crate::file::Live;
use crate::post;

pub(in crate::cli) fn run(
    file: &Path,
    name: Option<&str>,
    picture: Option<&Path>,
    no_picture: bool,
) -> Result<(), Failure> {
    let mut settings = Vec::new();
    if let Some(name) = name {
        settings.push(("school".to_owned(), name.trim().to_owned()));
    }
    if let Some(path) = picture {
        settings.push((
            "picture".to_owned(),
            post::picture(path).map_err(Failure)?.words(),
        ));
    }
    if no_picture {
        settings.push(("picture".to_owned(), String::new()));
    }
    if !settings.is_empty() {
        let context = moment::context("", None);
        let mut live = Live::open(file, moment::now(), "")?;
        let _ = live.submit(&Command::Set(settings), &context, None)?;
        live.close()?;
    }
    let live = Live::open_read(file)?;
    let facts = live.day().facts();
    let name = match facts.school.name.as_str() {
        "" => "no name",
        name => name,
    };
    let picture = facts.school.picture.as_ref().map_or_else(
        || "no picture".to_owned(),
        |p| {
            let size = p.bytes.len().div_ceil(1024);
            format!("a picture of {} by {} pixels, {size} KB", p.width, p.height)
        },
    );
    print(format!("{name}, {picture}\n").as_bytes())
}
