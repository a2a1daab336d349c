//! How the desk begins a day: a new one, or one like an old one.

use std::path::{Path, PathBuf};

use super::Effects;
use crate::day::{Command, Event, NewDay, new_day, new_day_like, settings_like};
use crate::file::Live;

impl Effects {
    /// Makes a day and opens it.
    ///
    /// # Errors
    /// A sentence that says what is wrong.
    pub fn create(
        &mut self,
        path: &Path,
        wish: &NewDay,
        like: Option<&Path>,
    ) -> Result<(), String> {
        self.begin(Some(path), wish, like)
    }

    /// Makes a day and opens it; without a path it is kept in the folder for
    /// new days, under its name and date.
    ///
    /// A day like an old one has its units, and its name where none is given.
    ///
    /// # Errors
    /// A sentence that says what is wrong.
    pub fn begin(
        &mut self,
        path: Option<&Path>,
        wish: &NewDay,
        like: Option<&Path>,
    ) -> Result<(), String> {
        let mut wish = wish.clone();
        let mut settings = Vec::new();
        let event = match like {
            None => new_day(&wish)?,
            Some(old) => {
                let old = Live::open_read(old).map_err(|e| e.to_string())?;
                let facts = old.day().facts();
                if wish.name.trim().is_empty() {
                    wish.name.clone_from(&facts.name);
                }
                wish.bar = facts.bar_unit;
                wish.scale = Some(facts.scale_unit);
                settings = settings_like(facts, wish.platforms);
                new_day_like(facts, &wish)?
            }
        };
        let path = path.map_or_else(
            || self.free_path(&format!("{} {}", wish.name.trim(), wish.date)),
            Path::to_owned,
        );
        self.make(&path, event, settings)
    }

    fn make(
        &mut self,
        path: &Path,
        event: Event,
        settings: Vec<(String, String)>,
    ) -> Result<(), String> {
        let context = self.context();
        let mut live = Live::create(path, event, &context).map_err(|e| e.to_string())?;
        if !settings.is_empty() {
            let _ = live
                .submit(&Command::Set(settings), &context, None)
                .map_err(|e| e.to_string())?;
        }
        self.close();
        self.live = Some(live);
        self.remember(path);
        Ok(())
    }

    /// Takes a file's picture as the school's, for the papers.
    ///
    /// # Errors
    /// A sentence: what is wrong with the file, or why the day didn't take it.
    pub fn take_picture(&mut self, path: &Path) -> Result<String, String> {
        let picture = crate::post::picture(path)?;
        let value = picture.words();
        self.submit(&Command::Set(vec![("picture".to_owned(), value)]))?;
        Ok(format!(
            "The school's picture, {} by {} pixels, stands at the head of the papers.",
            picture.width, picture.height
        ))
    }

    /// A free file name for a day of that name in the folder for new days.
    pub fn free_path(&self, name: &str) -> PathBuf {
        let clean = file_stem(name);
        let plain = self.folders.documents.join(format!("{clean}.maxday"));
        if !plain.exists() {
            return plain;
        }
        (2..1000)
            .map(|n| self.folders.documents.join(format!("{clean} {n}.maxday")))
            .find(|p| !p.exists())
            .unwrap_or(plain)
    }
}

/// A name as a file's name without its extension, legal everywhere.
pub fn file_stem(name: &str) -> String {
    let clean: String = name
        .chars()
        .map(|c| {
            if c.is_alphanumeric() || matches!(c, ' ' | '-' | '_') {
                c
            } else {
                '-'
            }
        })
        .take(60)
        .collect();
    match clean.trim() {
        "" => "day".to_owned(),
        clean => clean.to_owned(),
    }
}
