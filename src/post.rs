//! Writes papers and the CSV twins of their tables into a folder, and reads the
//! picture that they bear.

use std::fs;
use std::path::Path;

use crate::day::Facts;
use crate::day::picture::Picture;
use crate::exchange::tables::{Style, csv};
use crate::papers::documents::{Archive, Beside, Order, make_beside};
use crate::papers::picture::{MOST_FILE, ready};

/// What was written.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Written {
    /// Names of the files, in order.
    pub files: Vec<String>,
    /// Characters that the embedded font doesn't have, shown as `?`.
    pub missing: Vec<char>,
}

/// Makes the ordered papers and writes them with their CSV twins; the protocol
/// tells the story where there is one.
///
/// The folder is made where it isn't there. All papers are made before the
/// first is written, so that a paper that can't be made leaves the folder as
/// it was.
///
/// # Errors
/// A sentence that says which paper or file it is.
pub fn papers(
    facts: &Facts,
    archive: Option<&Archive<'_>>,
    order: &Order,
    folder: &Path,
) -> Result<Written, String> {
    let beside = Beside {
        archive,
        norms: None,
    };
    papers_beside(facts, &beside, order, folder)
}

/// As [`papers`], with all that papers may tell beside the day's facts.
///
/// # Errors
/// As [`papers`].
pub fn papers_beside(
    facts: &Facts,
    beside: &Beside<'_>,
    order: &Order,
    folder: &Path,
) -> Result<Written, String> {
    let made = make_beside(facts, beside, order).map_err(|e| sentence(&e.to_string()))?;
    fs::create_dir_all(folder)
        .map_err(|e| format!("The folder {} can't be made: {e}.", folder.display()))?;
    let mut written = Written::default();
    let mut put = |name: String, bytes: &[u8]| {
        let path = folder.join(&name);
        fs::write(&path, bytes).map_err(|e| {
            format!(
                "{} can't be written: {e}; close it where it is open, and try again.",
                path.display()
            )
        })?;
        if !written.files.contains(&name) {
            written.files.push(name);
        }
        Ok::<(), String>(())
    };
    for paper in &made {
        put(format!("{}.pdf", paper.name), &paper.pdf)?;
        for (stem, table) in &paper.tables {
            put(format!("{stem}.csv"), &csv(table, Style::File))?;
        }
    }
    for c in made.iter().flat_map(|m| &m.missing) {
        if !written.missing.contains(c) {
            written.missing.push(*c);
        }
    }
    Ok(written)
}

/// Reads a file's picture as the day keeps it.
///
/// # Errors
/// A sentence that says what is wrong and what would be allowed.
pub fn picture(path: &Path) -> Result<Picture, String> {
    let shown = path.display();
    let unread = |e: &std::io::Error| format!("The picture {shown} can't be read: {e}.");
    let size = fs::metadata(path).map_err(|e| unread(&e))?.len();
    let bytes = if usize::try_from(size).is_ok_and(|size| size <= MOST_FILE) {
        fs::read(path).map_err(|e| unread(&e))?
    } else {
        return Err(format!(
            "The picture {shown} has {} MB; at most {} MB are read.",
            size.div_ceil(1024 * 1024),
            MOST_FILE / 1024 / 1024
        ));
    };
    ready(&bytes).map_err(|why| format!("The picture {shown} {why}."))
}

/// An error's text as a sentence.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => {
            let text: String = first.to_uppercase().chain(letters).collect();
            format!("{}.", text.trim_end_matches('.'))
        }
        None => String::new(),
    }
}
