//! What the first screen lists, and what it asks for on its pages.

use super::{First, Page};
use crate::desk::action::{Action, key_words};
use crate::desk::effects::file_stem;
use crate::desk::widget::form::{Field, Kind};
use crate::rules::formats;

impl First {
    /// The kind of day that is chosen, in words.
    pub(super) fn kind(&self) -> &str {
        let format = formats().iter().find(|f| f.name == self.new.format);
        format.map_or("Max day", |f| f.title.as_str())
    }

    /// Where a new day is kept if nothing else is typed.
    fn file(&self) -> String {
        let name = self.new.name.as_deref().unwrap_or_else(|| self.kind());
        let stem = file_stem(&format!("{name} {}", self.new.date));
        let file = self.documents.join(format!("{stem}.maxday"));
        file.display().to_string()
    }

    pub(super) fn fields(&self) -> Vec<Field> {
        match self.page {
            Page::Menu => self.menu(),
            Page::Open => vec![
                Field::text(
                    "open",
                    "File",
                    "",
                    "Type the file's whole path, or drop the file on this window.",
                ),
                back(),
            ],
            Page::Like => self.like(),
            Page::New => self.new_day(),
        }
    }

    fn menu(&self) -> Vec<Field> {
        let mut list = Vec::new();
        if let Some(last) = &self.last {
            list.push(told(
                "last",
                "Go on with the last day",
                last.display().to_string(),
                "Enter opens it as it was left.",
            ));
        }
        let key = |action: Action, words: &str| format!("{}: {words}", key_words(action));
        let backup = self.backup.as_ref().map(|(file, made)| {
            told(
                "backup",
                "Go on from its backup",
                format!("{made}: {}", file.display()),
                "Enter puts a copy of it in the day's place and opens it; what the day is \
                 now is kept under another name.",
            )
        });
        list.extend([
            told(
                "new",
                "New day",
                key(Action::NewDay, "its kind, name, date and unit"),
                "Enter asks for them; each has a usual value already.",
            ),
            told(
                "like",
                "New day like an old one",
                "its rules, lifts, units and platforms again".to_owned(),
                "Enter asks for the old day and the new date.",
            ),
            told(
                "browse",
                "Open a day",
                "a .maxday file; one can also be dropped on this window".to_owned(),
                "Enter asks for the file.",
            ),
            told(
                "sample",
                "Try the sample max day",
                key(
                    Action::Sample,
                    "64 invented athletes on four racks, half done",
                ),
                "Enter makes a fresh copy and opens it; nothing in it is real.",
            ),
            told(
                "meet",
                "Try the sample meet",
                "an invented weightlifting meet, in the middle of the snatch".to_owned(),
                "Enter makes a fresh copy and opens it; nothing in it is real.",
            ),
            told(
                "powerlifting",
                "Try the sample powerlifting meet",
                "an invented meet of two flights".to_owned(),
                "Enter makes a fresh copy and opens it; nothing in it is real.",
            ),
        ]);
        list.extend(backup);
        list
    }

    fn like(&self) -> Vec<Field> {
        let new = &self.new;
        vec![
            Field::text(
                "old",
                "Like the day in",
                &*new.old,
                "The old day's file: its rules, lifts, units and platforms are taken, no \
                 entries.",
            ),
            Field::text(
                "name",
                "Name",
                new.name.clone().unwrap_or_default(),
                "Blank: as the old day is called.",
            ),
            Field::text("date", "Date", &*new.date, "Write it as 2026-11-17."),
            made("Enter makes the file and opens the day."),
            Field::heading("Only where it must be otherwise"),
            Field::text(
                "file",
                "File",
                new.file.clone().unwrap_or_default(),
                &format!("Blank: in {}, by name and date.", self.documents.display()),
            ),
            back(),
        ]
    }

    fn new_day(&self) -> Vec<Field> {
        let new = &self.new;
        let kinds: Vec<&str> = formats().iter().map(|f| f.title.as_str()).collect();
        let mut kind = Field::choice("kind", "Kind of day", self.kind(), &kinds);
        kind.hint = format!(
            "Left, Right or Space chooses. Lifts: {}.",
            in_words(&new.lifts)
        );
        let mut unit = Field::choice("unit", "Unit", &*new.unit, &["kg", "lb"]);
        unit.hint =
            "Left, Right or Space chooses: the unit of bar and scale; the other is shown \
             beside it."
                .to_owned();
        let several = if new.platforms == "1" { "" } else { "s" };
        vec![
            kind,
            Field::text(
                "name",
                "Name",
                new.name.clone().unwrap_or_else(|| self.kind().to_owned()),
                "What the day is called on papers and boards.",
            ),
            Field::text("date", "Date", &*new.date, "Write it as 2026-11-17."),
            unit,
            made(&format!(
                "Enter makes it with {} on {} platform{several}. Lifts and units then stay; \
                 all else can be changed on the Day screen.",
                in_words(&new.lifts),
                new.platforms
            )),
            Field::heading("Only where it must be otherwise"),
            Field::text(
                "lifts",
                "Lifts",
                &*new.lifts,
                "Lifts with a comma between; a slot with several: \
                 clean=power-clean+hang-power-clean.",
            ),
            Field::choice("scale", "Scale unit", &*new.scale, &["kg", "lb"]),
            Field::text(
                "platforms",
                "Platforms or racks",
                &*new.platforms,
                "A whole number from 1 to 24.",
            ),
            Field::text(
                "file",
                "File",
                new.file.clone().unwrap_or_else(|| self.file()),
                if new.file.is_some() {
                    "Where the day is kept; blank is the usual place."
                } else {
                    "Where the day is kept; a number is added where that name is taken."
                },
            ),
            back(),
        ]
    }
}

/// The lifts as they are said: `clean (power clean or hang power clean), back
/// squat`.
fn in_words(lifts: &str) -> String {
    let said = lifts
        .split(',')
        .map(|lift| match lift.trim().split_once('=') {
            Some((slot, of)) => format!("{slot} ({})", of.replace('+', " or ")),
            None => lift.trim().to_owned(),
        });
    said.collect::<Vec<_>>().join(", ").replace('-', " ")
}

fn made(hint: &str) -> Field {
    Field::press("make", "Make the day", hint)
}

fn back() -> Field {
    Field::press("back", "Back", "Enter goes back to the first list.")
}

/// Something to press, with a few words beside it.
fn told(key: &str, label: &str, words: String, hint: &str) -> Field {
    Field {
        value: words,
        kind: Kind::Press,
        ..Field::text(key, label, "", hint)
    }
}
