//! The first screen: go on, make a day, open one, try the sample.

mod fields;

use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use iced::widget::{column, container, text};
use iced::{Element, Fill, Task};

use crate::day::NewDay;
use crate::desk::action::{Action, key_words};
use crate::desk::font;
use crate::desk::keys::Press;
use crate::desk::theme::size;
use crate::desk::widget::form::{self, Form};
use crate::desk::widget::lamp;
use crate::measure::Unit;
use crate::rules::formats;
use crate::samples::Sample;

const FIELD: &str = "first-field";

/// What a page that asks for something says above.
const ASKED: &str = "Enter takes each line as it stands and goes on; Up goes back to one. \
                     Esc goes back to the first list.";

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
        /// Its file; `None` is the folder for new days, by name and date.
        path: Option<PathBuf>,
        /// What was chosen.
        wish: Box<NewDay>,
        /// The old day.
        like: Option<PathBuf>,
    },
    /// Make and open a sample.
    Sample(Sample),
    /// Go on from this backup.
    Restore(PathBuf),
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
    /// The last day's newest backup, and when it was made.
    backup: Option<(PathBuf, String)>,
    documents: PathBuf,
    new: Wish,
}

/// What is chosen for a new day so far, as text.
#[derive(Debug, Clone)]
struct Wish {
    /// The name where one was typed; else the kind of day gives it.
    name: Option<String>,
    date: String,
    format: String,
    unit: String,
    scale: String,
    lifts: String,
    platforms: String,
    /// The file where one was typed; else name and date give it.
    file: Option<String>,
    old: String,
}

impl First {
    /// The list of what can be done, on a date.
    pub fn new(last: Option<PathBuf>, documents: &Path, today: NaiveDate) -> Self {
        let format = formats().first();
        Self {
            page: Page::Menu,
            form: Form::new(),
            new: Wish {
                name: None,
                date: today.to_string(),
                format: format.map(|f| f.name.clone()).unwrap_or_default(),
                unit: "kg".to_owned(),
                scale: "kg".to_owned(),
                lifts: format.map(|f| f.lifts.clone()).unwrap_or_default(),
                platforms: "1".to_owned(),
                file: None,
                old: last
                    .as_ref()
                    .map(|p| p.display().to_string())
                    .unwrap_or_default(),
            },
            last,
            backup: None,
            documents: documents.to_owned(),
        }
    }

    /// With the last day's newest backup, and when it was made in words.
    pub fn with_backup(self, backup: Option<(PathBuf, String)>) -> Self {
        Self { backup, ..self }
    }

    /// Asks for a new day.
    pub fn ask_new(&mut self) {
        if self.page == Page::Menu {
            self.page = Page::New;
            self.form = Form::new();
        }
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
            // A name that nobody types follows the kind of day.
            "name" => new.name = Some(value).filter(|name| !name.is_empty()),
            "date" => {
                let _: NaiveDate = value.parse().map_err(|_| {
                    format!("“{value}” is no date; write it as 2026-11-17.")
                })?;
                new.date = value;
            }
            "kind" => {
                let format = formats().iter().find(|f| f.title == value);
                let format =
                    format.ok_or_else(|| format!("“{value}” is no kind of day."))?;
                new.lifts.clone_from(&format.lifts);
                new.format.clone_from(&format.name);
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
            "file" => {
                let path = path_of(&value).display().to_string();
                new.file = Some(path).filter(|path| !path.is_empty());
            }
            "old" => new.old = path_of(&value).display().to_string(),
            _ => {}
        }
        Ok(())
    }

    fn press(&mut self, key: &str) -> Option<Ask> {
        match key {
            "last" => return self.last.clone().map(Ask::Open),
            "backup" => return self.backup.clone().map(|(file, _)| Ask::Restore(file)),
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
            path: new.file.as_ref().map(PathBuf::from),
            wish: Box::new(NewDay {
                name: match (&new.name, fresh) {
                    (Some(name), _) => name.clone(),
                    (None, true) => self.kind().to_owned(),
                    // The old day gives it.
                    (None, false) => String::new(),
                },
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
                format!(
                    "The scorer's table for a max-testing day or an in-house meet. Up and \
                     Down move, Enter chooses; {}: quick guide, {}: keys.",
                    key_words(Action::Guide),
                    key_words(Action::Help),
                ),
            ),
            Page::New => ("New day", ASKED.to_owned()),
            Page::Like => ("New day like an old one", ASKED.to_owned()),
            Page::Open => ("Open a day", "Esc goes back.".to_owned()),
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
