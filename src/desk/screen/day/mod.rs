//! Settings of the day: a plain list, filled in by the keyboard.

use iced::widget::{column, container};
use iced::{Element, Task};

use super::Out;
use crate::day::{Command, Facts};
use crate::desk::keys::Press;
use crate::desk::widget::form::{self, Field, Form, Kind};
use crate::rules::keys;

const FIELD: &str = "day-field";

/// What happens on the day screen.
#[derive(Debug, Clone)]
pub enum Message {
    /// Something in the list.
    Form(form::Message),
}

/// The state of the day screen.
#[derive(Debug, Clone, Default)]
pub struct DayScreen {
    form: Form,
}

impl DayScreen {
    /// At the first setting.
    pub fn new() -> Self {
        Self::default()
    }

    /// Whether something is typed that isn't entered.
    pub const fn has_draft(&self) -> bool {
        self.form.has_draft()
    }

    /// Drops what is typed.
    pub fn clear(&mut self) {
        self.form.clear();
    }

    /// Gives the keyboard to the setting in hand.
    pub fn focus<M: Send + 'static>(&self) -> Task<M> {
        Form::focus(FIELD)
    }

    /// Takes a message.
    pub fn update(&mut self, message: Message, facts: &Facts) -> Option<Out> {
        let Message::Form(message) = message;
        let ask = self.form.update(message, &fields(facts))?;
        Some(Out::Submit(command(ask)))
    }

    /// The answer to what was submitted.
    pub fn answered(&mut self, answer: Result<(), String>, facts: &Facts) {
        self.form.answered(answer, &fields(facts));
    }

    /// The message of a key that no text field has taken.
    pub fn key(&self, press: &Press, facts: &Facts) -> Option<Message> {
        self.form.key(press, &fields(facts)).map(Message::Form)
    }

    /// Shows the screen.
    pub fn view<'a>(&'a self, facts: &'a Facts) -> Element<'a, Message> {
        let list = self.form.view(fields(facts), FIELD).map(Message::Form);
        container(column![list].max_width(1100))
            .padding([8, 14])
            .into()
    }
}

/// What a change or a press comes to.
fn command(ask: form::Ask) -> Command {
    match ask {
        form::Ask::Press(key) => Command::Close {
            session: key.strip_prefix("close/").map(str::to_owned),
        },
        form::Ask::Change(key, value) => {
            if let Some(session) = key.strip_prefix("reopen/") {
                return Command::Reopen {
                    session: Some(session.to_owned()),
                    reason: value,
                };
            }
            if key == "reopen" {
                return Command::Reopen {
                    session: None,
                    reason: value,
                };
            }
            if key == "session" {
                let (name, plan) = value
                    .split_once(char::is_whitespace)
                    .unwrap_or((value.as_str(), ""));
                return Command::Set(vec![(
                    format!("session.{name}"),
                    plan.trim().to_owned(),
                )]);
            }
            Command::Set(vec![(key, value)])
        }
    }
}

/// All settings, as they are now.
pub fn fields(facts: &Facts) -> Vec<Field> {
    let mut list = vec![
        Field::heading("Day"),
        Field::text("name", "Name", &*facts.name, "What the day is called."),
        Field::text(
            "date",
            "Date",
            facts.date.to_string(),
            "Write it as 2026-11-17.",
        ),
        Field::text(
            "venue",
            "Venue",
            &*facts.venue,
            "A line about the place, for papers.",
        ),
    ];
    list.push(rule_field(facts, "judges", "Judges"));
    list.push(rule_field(facts, "clock", "Clock, seconds"));
    list.push(Field::heading("Posting"));
    list.push(rule_field(
        facts,
        "posting-name",
        "Names on boards and posted papers",
    ));
    list.push(rule_field(
        facts,
        "posting-bodyweight",
        "Bodyweights posted",
    ));
    list.push(rule_field(facts, "posting-category", "Categories posted"));
    list.push(Field::heading("Platforms"));
    let n = facts.platforms.len();
    list.push(Field::text(
        "platforms",
        "How many",
        n.to_string(),
        "A whole number from 1 to 24.",
    ));
    for (number, platform) in (1..).zip(&facts.platforms) {
        list.push(Field::text(
            &format!("platform.{number}"),
            &format!("Label of platform {number}"),
            &*platform.label,
            "Such as Rack 2; blank is the number.",
        ));
    }
    list.push(Field::heading("Sessions"));
    for (name, session) in &facts.sessions {
        let time = |t: Option<chrono::NaiveTime>| {
            t.map(|t| t.format("%H:%M").to_string()).unwrap_or_default()
        };
        let plan = match (session.start, session.end) {
            (None, None) => String::new(),
            (start, end) => format!("{}-{}", time(start), time(end)),
        };
        list.push(Field::text(
            &format!("session.{name}"),
            &format!("Plan of session {name}"),
            plan,
            "Write it as 10:05-10:50.",
        ));
        list.push(if session.closed {
            Field::text(
                &format!("reopen/{name}"),
                &format!("Session {name} is closed; reopen"),
                "",
                "Type why, and Enter reopens it.",
            )
        } else {
            Field::press(
                &format!("close/{name}"),
                &format!("Close session {name}"),
                "Enter closes it: nothing more is called or ruled in it.",
            )
        });
    }
    list.push(Field::text(
        "session",
        "New session",
        "",
        "Type its name and plan: 2 10:55-11:40.",
    ));
    list.push(if facts.closed {
        Field::text(
            "reopen",
            "The day is closed; reopen",
            "",
            "Type why, and Enter reopens it.",
        )
    } else {
        Field::press(
            "close",
            "Close the day",
            "Enter closes it: results are final until it is reopened with a reason.",
        )
    });
    list.push(Field::heading("Rules"));
    let shown = [
        "judges",
        "clock",
        "posting-name",
        "posting-bodyweight",
        "posting-category",
    ];
    for key in keys().iter().filter(|k| !shown.contains(&k.name)) {
        list.push(rule_field(facts, key.name, &words(key.name)));
    }
    list
}

fn words(name: &str) -> String {
    let mut words = name.replace('-', " ");
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words
}

/// A rule; a short list of single words is chosen, all else is typed.
fn rule_field(facts: &Facts, name: &str, label: &str) -> Field {
    let Some(key) = keys().iter().find(|k| k.name == name) else {
        return Field::heading(label);
    };
    let hint = format!("{} Allowed: {}.", key.meaning, key.allowed);
    let mut field = Field::text(name, label, (key.get)(&facts.rules), &hint);
    let choices: Vec<String> = key.allowed.split(", ").map(str::to_owned).collect();
    if choices.iter().all(|c| !c.contains(' ')) {
        field.kind = Kind::Choice(choices);
    }
    field
}
