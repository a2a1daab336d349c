//! The papers of the day: choose, and write them beside the day's file.

use iced::widget::{column, container};
use iced::{Element, Task};

use crate::desk::keys::Press;
use crate::desk::papers::{self, Order};
use crate::desk::widget::form::{self, Field, Form};

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

    /// What would be written.
    pub fn order(&self) -> Order {
        Order {
            only: self.only.clone().into_iter().collect(),
            a4: self.a4,
            posted: self.posted,
        }
    }

    /// Gives the keyboard to the list.
    pub fn focus<M: Send + 'static>(&self) -> Task<M> {
        Form::focus(FIELD)
    }

    fn fields(&self) -> Vec<Field> {
        let size = if self.a4 { "A4" } else { "Letter" };
        let posted = if self.posted { "for posting" } else { "private" };
        let mut list = vec![
            Field::choice("size", "Paper size", size, &["Letter", "A4"]),
            Field::choice("posted", "For whom", posted, &["private", "for posting"]),
            Field::press("all", "Write all papers", "Enter writes them into a folder beside the day's file."),
            Field::heading("One paper"),
        ];
        for (name, what) in papers::list() {
            let mut field = Field::press(&format!("one/{name}"), &name, "Enter writes this one.");
            field.value = what;
            list.push(field);
        }
        list
    }

    /// Takes a message; returns what is to be written.
    pub fn update(&mut self, message: Message) -> Option<Order> {
        let Message::Form(message) = message;
        let fields = self.fields();
        match self.form.update(message, &fields)? {
            form::Ask::Change(key, value) => {
                match key.as_str() {
                    "size" => self.a4 = value == "A4",
                    _ => self.posted = value == "for posting",
                }
                None
            }
            form::Ask::Press(key) => {
                self.only = key.strip_prefix("one/").map(str::to_owned);
                Some(self.order())
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
