//! The papers of the day: choose, and write them beside the day's file.

use iced::widget::{column, container};
use iced::{Element, Task};

use crate::day::{Facts, Stamp};
use crate::desk::action::{Action, key_words};
use crate::desk::keys::Press;
use crate::desk::see;
use crate::desk::widget::form::{self, Field, Form, Kind};
use crate::desk::widget::next;
use crate::papers::Paper;
use crate::papers::documents::{NAMES, Order};
use crate::sheets::Audience;

const FIELD: &str = "papers-field";

/// The key of the field for a file of norms.
const NORMS: &str = "norms";

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
    /// The file of a coach's own norms; blank is none.
    norms: String,
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
            norms: String::new(),
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

    /// The file of a coach's own norms, as it was typed; blank where there is none.
    pub fn norms(&self) -> &str {
        &self.norms
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
            told(
                "all",
                "Write all papers",
                &format!(
                    "{}: everything below, into a folder beside the day's file",
                    key_words(Action::WritePapers)
                ),
                "Enter writes them, as PDF with their tables as CSV.",
            ),
            Field {
                hint: format!(
                    "Left, Right or Space chooses; {} does from anywhere on this screen.",
                    key_words(Action::PaperSize)
                ),
                ..Field::choice("size", "Paper size", size, &["Letter", "A4"])
            },
            Field {
                hint: format!(
                    "Left, Right or Space chooses; {} does from anywhere. Private papers show \
                     all names and bodyweights; those for posting show what the Day screen \
                     allows.",
                    key_words(Action::Posted)
                ),
                ..Field::choice("posted", "For whom", posted, &["private", "for posting"])
            },
            Field::heading("One paper"),
        ];
        for name in NAMES {
            list.push(told(
                &format!("one/{name}"),
                &see::capital(&name.replace("-blank", ", blank").replace('-', " ")),
                what_for(name),
                "Enter writes this one, as PDF with its tables as CSV.",
            ));
        }
        list.push(Field::heading("The athletes' reports"));
        list.push(
            Field::text(
                NORMS,
                "A coach's own norms",
                &*self.norms,
                "A file (CSV) with lift, percentile and value, such as norms.csv beside the \
                 day's file; each report then says the band. Never on what is posted.",
            )
            .or("none"),
        );
        list
    }

    /// Takes a message; returns whether something is to be written.
    pub fn update(&mut self, message: Message) -> bool {
        let Message::Form(message) = message;
        let fields = self.fields();
        if let form::Message::Typed(text) = &message
            && fields
                .get(self.form.cursor())
                .is_some_and(|f| f.key == NORMS)
        {
            // Taken as it is typed: the key that writes papers may come before Enter.
            text.trim().clone_into(&mut self.norms);
        }
        let picked = matches!(message, form::Message::Picked(_));
        let ask = self.form.update(message, &fields);
        match ask.or_else(|| self.form.pressed(picked, &fields)) {
            None => false,
            Some(form::Ask::Change(key, value)) => {
                match key.as_str() {
                    "size" => self.a4 = value == "A4",
                    "posted" => self.posted = value == "for posting",
                    _ => {}
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
    pub fn view<'a>(&'a self, facts: &'a Facts) -> Element<'a, Message> {
        let list = self.form.view(self.fields(), FIELD).map(Message::Form);
        container(column![next::line(facts), list].max_width(1100))
            .padding([8, 14])
            .into()
    }
}

/// What a paper is for; empty where its name says it.
fn what_for(name: &str) -> &'static str {
    match name {
        "start-list" => "who lifts where and when, by session and flight",
        "weigh-in-sheet" => "bodyweight, openers and set-ups by hand, where the scale is",
        "athlete-cards" => "what each athlete asks for, to be signed; two a page",
        "rack-cards" => "one a rack and lift, to be filled in and typed later",
        "score-sheets" => "for the hand, with what is known so far",
        "score-sheets-blank" => "for the hand, should the computer fail",
        "results" => "places, attempts and bests",
        "team-result" => "teams by their points",
        "warm-up" => "what to lift before the opener",
        "training-sheets" => {
            "each athlete's loads for training, to be cut apart; private"
        }
        "records" => "what the day broke, and the whole book of the school",
        "training-squad" => "the same for whole squads in one table; private",
        "loading-chart" => {
            "every load with the discs of one side, large, for the loaders"
        }
        "safety-sheet" => {
            "a page a lift: clear zone, spotting, how to miss, what to check"
        }
        "judges-sheet" => "a page a lift: start, catch, and what makes it no lift",
        "quick-guide" => "one page for somebody new at the table",
        "leader-tables" => "who leads by relative strength, by sex and division; clubs",
        "athlete-reports" => "half a page for each athlete: attempts, places, a chart",
        "incident-report" => "a blank form, and one begun for each stopped attempt",
        "certificates" => "for everybody who is placed first to third, to be signed",
        "protocol" => "the whole day for the archive, with changes and their reasons",
        _ => "",
    }
}

/// Something to press, with a few words beside it.
fn told(key: &str, label: &str, words: &str, hint: &str) -> Field {
    Field {
        value: words.to_owned(),
        kind: Kind::Press,
        ..Field::text(key, label, "", hint)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_paper_says_what_it_is_for() {
        for name in NAMES {
            assert!(!what_for(name).is_empty(), "{name}");
        }
    }
}
