//! The papers of the day: choose, and write them beside the day's file.

use iced::widget::{column, container};
use iced::{Element, Task};

use crate::day::Stamp;
use crate::desk::keys::Press;
use crate::desk::widget::form::{self, Field, Form};
use crate::papers::Paper;
use crate::papers::documents::{NAMES, Order};
use crate::sheets::Audience;

const FIELD: &str = "papers-field";

/// What happens on the papers screen.
#[derive(Debug, Clone)]
pub enum Message {
    /// Something in the list.
    Form(form::Message),
}

/// The state of the papers screen.
#[derive(Debug, Clone)]
pub struct Papers {
    form: Form,
    a4: bool,
    posted: bool,
    only: Option<String>,
}

impl Default for Papers {
    fn default() -> Self {
        Self::new()
    }
}

impl Papers {
    /// All papers, Letter, for the file.
    pub fn new() -> Self {
        Self {
            form: Form::new(),
            a4: false,
            posted: false,
            only: None,
        }
    }

    /// The other size.
    pub fn turn_size(&mut self) {
        self.a4 = !self.a4;
    }

    /// For posting, or for the file.
    pub fn turn_posted(&mut self) {
        self.posted = !self.posted;
    }

    /// All papers are asked for, not the one that was written last.
    pub fn ask_all(&mut self) {
        self.only = None;
    }

    /// What would be written.
    pub fn order(&self, made: Stamp) -> Order {
        Order {
            size: if self.a4 { Paper::A4 } else { Paper::Letter },
            audience: if self.posted {
                Audience::Posted
            } else {
                Audience::Private
            },
            made,
            only: self.only.clone().map(|name| vec![name]),
        }
    }

    /// Gives the keyboard to the list.
    pub fn focus<M: Send + 'static>(&self) -> Task<M> {
        Form::focus(FIELD)
    }

    fn fields(&self) -> Vec<Field> {
        let size = if self.a4 { "A4" } else { "Letter" };
        let posted = if self.posted {
            "for posting"
        } else {
            "private"
        };
        let mut list = vec![
            Field::choice("size", "Paper size", size, &["Letter", "A4"]),
            Field::choice("posted", "For whom", posted, &["private", "for posting"]),
            Field::press(
                "all",
                "Write all papers",
                "Enter writes them into a folder beside the day's file.",
            ),
            Field::heading("One paper"),
        ];
        for name in NAMES {
            let label = name.replace('-', " ");
            list.push(Field::press(
                &format!("one/{name}"),
                &label,
                "Enter writes this one, as PDF with its tables as CSV.",
            ));
        }
        list
    }

    /// Takes a message; returns whether something is to be written.
    pub fn update(&mut self, message: Message) -> bool {
        let Message::Form(message) = message;
        let fields = self.fields();
        let picked = matches!(message, form::Message::Picked(_));
        let ask = self.form.update(message, &fields);
        match ask.or_else(|| self.form.pressed(picked, &fields)) {
            None => false,
            Some(form::Ask::Change(key, value)) => {
                match key.as_str() {
                    "size" => self.a4 = value == "A4",
                    _ => self.posted = value == "for posting",
                }
                false
            }
            Some(form::Ask::Press(key)) => {
                self.only = key.strip_prefix("one/").map(str::to_owned);
                true
            }
        }
    }

    /// The message of a key that no text field has taken.
    pub fn key(&self, press: &Press) -> Option<Message> {
        self.form.key(press, &self.fields()).map(Message::Form)
    }

    /// Shows the screen.
    pub fn view(&self) -> Element<'_, Message> {
        let list = self.form.view(self.fields(), FIELD).map(Message::Form);
        container(column![list].max_width(1100))
            .padding([8, 14])
            .into()
    }
}
