//! The first screen: go on, make a day, open one, try the sample.

use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use iced::widget::{column, container, text};
use iced::{Element, Fill, Task};

use crate::day::NewDay;
use crate::desk::font;
use crate::desk::keys::Press;
use crate::desk::theme::size;
use crate::desk::widget::form::{self, Field, Form};
use crate::desk::widget::lamp;
use crate::measure::Unit;
use crate::rules::{format_named, formats};
use crate::samples::Sample;

const FIELD: &str = "first-field";

/// What happens on the first screen.
#[derive(Debug, Clone)]
pub enum Message {
    /// Something in the list.
    Form(form::Message),
}

/// What the first screen asks of the shell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Ask {
    /// Open this day.
    Open(PathBuf),
    /// Make this day, perhaps like an old one.
    Make {
        /// Its file.
        path: PathBuf,
        /// What was chosen.
        wish: Box<NewDay>,
        /// The old day.
        like: Option<PathBuf>,
    },
    /// Make and open a sample.
    Sample(Sample),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Page {
    Menu,
    New,
    Like,
    Open,
}

/// The state of the first screen.
#[derive(Debug, Clone)]
pub struct First {
    page: Page,
    form: Form,
    last: Option<PathBuf>,
    documents: PathBuf,
    new: Wish,
}

#[derive(Debug, Clone)]
struct Wish {
    name: String,
    date: String,
    format: String,
    unit: String,
    scale: String,
    lifts: String,
    platforms: String,
    file: String,
    old: String,
}

impl First {
    /// The list of what can be done, on a date.
    pub fn new(last: Option<PathBuf>, documents: &Path, today: NaiveDate) -> Self {
        let format = formats().first();
        let mut first = Self {
            page: Page::Menu,
            form: Form::new(),
            new: Wish {
                name: format.map_or_else(|| "Max day".to_owned(), |f| f.title.clone()),
                date: today.to_string(),
                format: format.map(|f| f.name.clone()).unwrap_or_default(),
                unit: "kg".to_owned(),
                scale: "kg".to_owned(),
                lifts: format.map(|f| f.lifts.clone()).unwrap_or_default(),
                platforms: "1".to_owned(),
                file: String::new(),
                old: last
                    .as_ref()
                    .map(|p| p.display().to_string())
                    .unwrap_or_default(),
            },
            last,
            documents: documents.to_owned(),
        };
        first.name_file();
        first
    }

    fn name_file(&mut self) {
        let name = format!("{} {}", self.new.name, self.new.date);
        let clean: String = name
            .chars()
            .map(|c| {
                if c.is_alphanumeric() || " -_".contains(c) {
                    c
                } else {
                    '-'
                }
            })
            .collect();
        let file = self.documents.join(format!("{}.maxday", clean.trim()));
        self.new.file = file.display().to_string();
    }

    /// Whether a field is filled in rather than chosen from the menu.
    pub fn has_draft(&self) -> bool {
        self.page != Page::Menu
    }

    /// Back to the menu.
    pub fn clear(&mut self) {
        self.page = Page::Menu;
        self.form = Form::new();
    }

    /// Gives the keyboard to the field in hand.
    pub fn focus<M: Send + 'static>(&self) -> Task<M> {
        Form::focus(FIELD)
    }

    fn fields(&self) -> Vec<Field> {
        let new = &self.new;
        let made = || {
            Field::press(
                "make",
                "Make the day",
                "Enter makes the file and opens the day.",
            )
        };
        let back = || Field::press("back", "Back", "Enter goes back to the first list.");
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
            Page::Like => vec![
                Field::text(
                    "old",
                    "Like the day in",
                    &*new.old,
                    "The old day's file: its rules, lifts and platforms are taken.",
                ),
                Field::text(
                    "name",
                    "Name",
                    &*new.name,
                    "What the day is called on papers and boards.",
                ),
                Field::text("date", "Date", &*new.date, "Write it as 2026-11-17."),
                Field::text("file", "File", &*new.file, "Where the day is kept."),
                made(),
                back(),
            ],
            Page::New => {
                let names: Vec<&str> =
                    formats().iter().map(|f| f.name.as_str()).collect();
                vec![
                    Field::text(
                        "name",
                        "Name",
                        &*new.name,
                        "What the day is called on papers and boards.",
                    ),
                    Field::text("date", "Date", &*new.date, "Write it as 2026-11-17."),
                    Field::choice("format", "Format", &*new.format, &names),
                    Field::text(
                        "lifts",
                        "Lifts",
                        &*new.lifts,
                        "Lifts with a comma between; a slot with several: clean=power-clean+hang-power-clean.",
                    ),
                    Field::choice("unit", "Bar unit", &*new.unit, &["kg", "lb"]),
                    Field::choice("scale", "Scale unit", &*new.scale, &["kg", "lb"]),
                    Field::text(
                        "platforms",
                        "Platforms or racks",
                        &*new.platforms,
                        "A whole number from 1 to 24.",
                    ),
                    Field::text("file", "File", &*new.file, "Where the day is kept."),
                    made(),
                    back(),
                ]
            }
        }
    }

    fn menu(&self) -> Vec<Field> {
        let mut list = Vec::new();
        if let Some(last) = &self.last {
            let mut field = Field::press(
                "last",
                "Go on with the last day",
                "Enter opens it as it was left.",
            );
            field.value = last.display().to_string();
            list.push(field);
        }
        list.extend([
            Field::press("new", "New day", "Enter asks for name, date, format, unit and platforms."),
            Field::press("like", "New day like an old one", "Enter asks for the old day; rules, lifts and platforms are taken from it."),
            Field::press("browse", "Open a day", "Enter asks for the file; a file can also be dropped on this window."),
            Field::press("sample", "Try the sample max day", "Enter makes a fresh copy of an invented day on four racks and opens it."),
            Field::press("meet", "Try the sample meet", "Enter makes a fresh copy of an invented weightlifting meet and opens it."),
            Field::press("powerlifting", "Try the sample powerlifting meet", "Enter makes a fresh copy of an invented powerlifting meet of two flights and opens it."),
        ]);
        list
    }

    /// Takes a message.
    pub fn update(&mut self, message: Message) -> Option<Ask> {
        let Message::Form(message) = message;
        let picked = matches!(message, form::Message::Picked(_));
        let fields = self.fields();
        let ask = self.form.update(message, &fields);
        // One click is enough for what is only pressed.
        let ask = ask.or_else(|| self.form.pressed(picked, &fields));
        match ask? {
            form::Ask::Change(key, value) if key == "open" => {
                Some(Ask::Open(path_of(&value)))
            }
            form::Ask::Change(key, value) => {
                let done = self.change(&key, &value);
                let fields = self.fields();
                self.form.answered(done, &fields);
                None
            }
            form::Ask::Press(key) => self.press(&key),
        }
    }

    fn change(&mut self, key: &str, value: &str) -> Result<(), String> {
        let value = value.to_owned();
        let new = &mut self.new;
        match key {
            "name" if value.is_empty() => return Err("A day needs a name.".to_owned()),
            "name" => new.name = value,
            "date" => {
                let _: NaiveDate = value.parse().map_err(|_| {
                    format!("“{value}” is no date; write it as 2026-11-17.")
                })?;
                new.date = value;
            }
            "format" => {
                let format = format_named(&value).map_err(|e| format!("{e}."))?;
                // A name that nobody typed follows the format.
                let untouched = formats().iter().any(|f| f.title == new.name);
                if untouched {
                    new.name.clone_from(&format.title);
                }
                new.lifts.clone_from(&format.lifts);
                new.format = value;
                if untouched {
                    self.name_file();
                }
            }
            "unit" => {
                new.scale.clone_from(&value);
                new.unit = value;
            }
            "scale" => new.scale = value,
            "lifts" => new.lifts = value,
            "platforms" => {
                if !value.parse::<u8>().is_ok_and(|n| (1..=24).contains(&n)) {
                    return Err(format!(
                        "“{value}” is no number of platforms; allowed: 1 to 24."
                    ));
                }
                new.platforms = value;
            }
            "file" => new.file = path_of(&value).display().to_string(),
            "old" => new.old = path_of(&value).display().to_string(),
            _ => {}
        }
        if matches!(key, "name" | "date") {
            self.name_file();
        }
        Ok(())
    }

    fn press(&mut self, key: &str) -> Option<Ask> {
        match key {
            "last" => return self.last.clone().map(Ask::Open),
            "sample" => return Some(Ask::Sample(Sample::MaxDay)),
            "meet" => return Some(Ask::Sample(Sample::Meet)),
            "powerlifting" => return Some(Ask::Sample(Sample::Powerlifting)),
            "make" => return self.make(),
            "new" => self.page = Page::New,
            "like" => self.page = Page::Like,
            "browse" => self.page = Page::Open,
            _ => self.page = Page::Menu,
        }
        self.form = Form::new();
        None
    }

    fn make(&mut self) -> Option<Ask> {
        let new = &self.new;
        let like = (self.page == Page::Like).then(|| PathBuf::from(&new.old));
        let date = new.date.parse().ok()?;
        let fresh = like.is_none();
        Some(Ask::Make {
            path: PathBuf::from(&new.file),
            wish: Box::new(NewDay {
                name: new.name.clone(),
                date,
                format: new.format.clone(),
                bar: Unit::parse(&new.unit).unwrap_or(Unit::Kg),
                scale: Unit::parse(&new.scale).filter(|_| fresh),
                judges: None,
                categories: None,
                tie: None,
                step: None,
                lifts: Some(new.lifts.clone()).filter(|l| fresh && !l.is_empty()),
                platforms: new.platforms.parse().ok().filter(|_| fresh),
            }),
            like,
        })
    }

    /// The answer to what was asked.
    pub fn answered(&mut self, answer: Result<(), String>) {
        let fields = self.fields();
        self.form.answered(answer, &fields);
    }

    /// The message of a key that no text field has taken.
    pub fn key(&self, press: &Press) -> Option<Message> {
        self.form.key(press, &self.fields()).map(Message::Form)
    }

    /// Shows the screen.
    pub fn view(&self) -> Element<'_, Message> {
        let (title, remark) = match self.page {
            Page::Menu => (
                "Maxday",
                "The scorer's table for a max-testing day or an in-house meet. Up and Down \
                 move, Enter chooses, F1 lists the keys.",
            ),
            Page::New => ("New day", "Up and Down move, Enter takes what is typed."),
            Page::Like => (
                "New day like an old one",
                "Up and Down move, Enter takes what is typed.",
            ),
            Page::Open => ("Open a day", ""),
        };
        let body = column![
            text(title).size(size::NAME).font(font::BOLD),
            text(remark).size(size::BODY),
            lamp::heavy(4.0),
            self.form.view(self.fields(), FIELD).map(Message::Form),
        ]
        .spacing(10)
        .max_width(1000);
        container(body)
            .padding(40)
            .width(Fill)
            .height(Fill)
            .center_x(Fill)
            .into()
    }
}

/// A typed path; a leading tilde isn't known to the system, quotes of a
/// pasted path are not part of it.
fn path_of(text: &str) -> PathBuf {
    let text = text.trim().trim_matches(['"', '\'']);
    let path = PathBuf::from(text);
    if path.extension().is_none() && !text.is_empty() && !path.exists() {
        return path.with_extension(crate::file::EXTENSION);
    }
    path
}
