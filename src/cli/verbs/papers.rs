//! `maxday papers`

use std::io::Write;
use std::path::Path;

use crate::cli::{Failure, moment, print};
use crate::file::Live;
use crate::papers::Paper;
use crate::papers::documents::{Archive, Beside, Order};
use crate::post;
use crate::sheets::Audience;

pub(in crate::cli) fn run(
    file: &Path,
    out: &Path,
    size: &str,
    only: &[String],
    norms: Option<&Path>,
    posted: bool,
) -> Result<(), Failure> {
    let size = Paper::parse(size)
        .ok_or_else(|| Failure(format!("“{size}” is no size; allowed: letter, a4.")))?;
    let live = Live::open_read(file)?;
    let order = Order {
        size,
        audience: if posted {
            Audience::Posted
        } else {
            Audience::Private
        },
        made: moment::now(),
        only: Some(only.to_vec()).filter(|only| !only.is_empty()),
    };
    let digest = live.digest();
    let archive = Archive {
        day: live.day(),
        digest: &digest,
    };
    let facts = live.day().facts();
    let norms = norms.map(|p| super::norms::read(p, facts)).transpose()?;
    let beside = Beside {
        archive: Some(&archive),
        norms: norms.as_ref(),
    };
    let written = post::papers_beside(facts, &beside, &order, out).map_err(Failure)?;
    if !written.missing.is_empty() {
        let missing: String = written.missing.iter().collect();
        let _ = writeln!(
            std::io::stderr(),
            "maxday: the font has no {missing}; a question mark stands in its place."
        );
    }
    for name in &written.files {
        print(format!("{name}\n").as_bytes())?;
    }
    Ok(())
}
