//! The desk's state, and who answers which message.

use std::path::PathBuf;

use iced::{Size, Task, window};

use super::action::Action;
use super::doing::Held;
use super::effects::{Effects, Job};
use super::keeping::first_screen;
use super::keys::Press;
use super::marks::Marks;
use super::opening::opening;
use super::screen::cards::{self, Cards};
use super::screen::day::{self, DayScreen};
use super::screen::first::{self, First};
use super::screen::flights::{self, Flights};
use super::screen::journal::{self, Journal};
use super::screen::papers::{self, Papers};
use super::screen::roster::{self, Roster};
use super::screen::scale::{self, Scale};
use super::screen::standings::{self, Standings};
use super::screen::table::{self, Table};
use super::screen::{Out, ScreenId};
use super::see;
use super::windows::Windows;
use super::work::Work;
use crate::day::Facts;
use crate::file::Kept;

/// What happens at the desk.
#[derive(Debug, Clone)]
pub enum Message {
    /// A key that no text field has taken.
    Pressed(window::Id, Press),
    /// A file was dropped on a window.
    Dropped(PathBuf),
    /// A window is there.
    Opened(window::Id),
    /// A window has another size.
    Resized(window::Id, Size),
    /// A window is gone.
    Closed(window::Id),
    /// A button was pressed.
    Act(Action),
    /// Something that takes a while is done now, after it was said.
    Now(Work),
    /// Time goes on while something runs.
    Tick,
    /// The holder of the file says that it lives.
    Beat,
    /// A backup was made, or wasn't.
    BackedUp(Job, Result<Kept, String>),
    /// On the first screen.
    First(first::Message),
    /// On the day screen.
    Day(day::Message),
    /// On the table.
    Table(table::Message),
    /// On the roster.
    Roster(roster::Message),
    /// On the scale.
    Scale(scale::Message),
    /// On the flights.
    Flights(flights::Message),
    /// On the card grid.
    Cards(cards::Message),
    /// On the standings.
    Standings(standings::Message),
    /// On the papers.
    Papers(papers::Message),
    /// In the journal.
    Journal(journal::Message),
}

/// A sheet that is shown over the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sheet {
    /// All keys, and what the lines take.
    Keys,
    /// The quick guide.
    Guide,
}

/// The state of the desk.
#[derive(Debug)]
pub struct Desk {
    pub(super) effects: Effects,
    pub(super) windows: Windows,
    /// The screen that is shown; `None` is the first screen.
    pub(super) screen: Option<ScreenId>,
    pub(super) platform: u8,
    /// What is shown over the screen.
    pub(super) sheet: Option<Sheet>,
    pub(super) dark: bool,
    pub(super) said: Option<Result<String, String>>,
    pub(super) armed: Option<Action>,
    pub(super) last_lights: Option<Held>,
    pub(super) repaint: u32,
    /// How much larger than usual all is, in a large window.
    pub(super) zoom: f32,
    pub(super) marks: Marks,
    pub(super) first: First,
    pub(super) day: DayScreen,
    pub(super) table: Table,
    pub(super) roster: Roster,
    pub(super) scale: Scale,
    pub(super) flights: Flights,
    pub(super) cards: Cards,
    pub(super) standings: Standings,
    pub(super) papers: Papers,
    pub(super) journal: Journal,
}

impl Desk {
    /// A desk over what is open, with no window yet.
    pub fn new(effects: Effects) -> Self {
        let first = first_screen(&effects);
        let mut desk = Self {
            windows: Windows::default(),
            screen: effects.is_open().then(|| opening(effects.facts())),
            platform: 1,
            sheet: None,
            dark: false,
            said: None,
            armed: None,
            last_lights: None,
            repaint: 0,
            zoom: 1.0,
            marks: Marks::new(effects.has_time()),
            first,
            day: DayScreen::new(),
            table: Table::new(),
            roster: Roster::new(),
            scale: Scale::new(),
            flights: Flights::new(),
            cards: Cards::new(),
            standings: Standings::new(),
            papers: Papers::new(),
            journal: Journal::new(),
            effects,
        };
        desk.platform = desk.first_platform();
        desk.foresee();
        desk
    }

    /// The desk with its own window.
    pub fn boot(effects: Effects) -> (Self, Task<Message>) {
        let mut desk = Self::new(effects);
        let open = desk.windows.open_main(Message::Opened);
        (desk, open)
    }

    /// What is true of the open day.
    pub fn facts(&self) -> &Facts {
        self.effects.facts()
    }

    /// The screen that is shown; `None` is the first screen.
    pub const fn screen(&self) -> Option<ScreenId> {
        self.screen
    }

    /// The sheet that is shown over the screen.
    pub const fn sheet(&self) -> Option<Sheet> {
        self.sheet
    }

    /// The platform in hand.
    pub const fn platform(&self) -> u8 {
        self.platform
    }

    /// Which windows are open.
    pub const fn windows(&self) -> &Windows {
        &self.windows
    }

    /// The table screen.
    pub const fn table(&self) -> &Table {
        &self.table
    }

    /// The day screen.
    pub const fn at_day(&self) -> &DayScreen {
        &self.day
    }

    /// The scale's screen.
    pub const fn at_scale(&self) -> &Scale {
        &self.scale
    }

    /// The rack cards.
    pub const fn at_cards(&self) -> &Cards {
        &self.cards
    }

    /// What was said last, outside the table.
    pub const fn said(&self) -> Option<&Result<String, String>> {
        self.said.as_ref()
    }

    /// Clock, folders and file.
    pub const fn effects_mut(&mut self) -> &mut Effects {
        &mut self.effects
    }

    /// Takes a message.
    pub fn update(&mut self, message: Message) -> Task<Message> {
        let quiet = matches!(
            message,
            Message::Tick | Message::Beat | Message::Table(table::Message::Typed(_))
        );
        if !quiet {
            self.repaint = self.repaint.wrapping_add(1);
        }
        if !matches!(
            message,
            Message::Tick
                | Message::Beat
                | Message::BackedUp(..)
                | Message::Pressed(..)
                | Message::Act(_)
                | Message::Table(table::Message::Pressed(_))
                | Message::Opened(_)
                | Message::Resized(..)
        ) {
            self.armed = None;
        }
        let task = self.dispatch(message);
        self.foresee();
        task
    }

    pub(super) fn dispatch(&mut self, message: Message) -> Task<Message> {
        match message {
            Message::Pressed(id, press) => self.pressed(id, &press),
            Message::Dropped(path) => self.dropped(path),
            Message::Opened(id) => {
                let focus = self.focus();
                if self.windows.main() == Some(id) {
                    return Task::batch([window::maximize(id, true), focus]);
                }
                focus
            }
            Message::Resized(id, size) => {
                if self.windows.main() == Some(id) {
                    self.zoom = zoom_of(size, self.zoom);
                }
                Task::none()
            }
            Message::Closed(id) => {
                if self.windows.closed(id) {
                    self.effects.close();
                    return iced::exit();
                }
                self.focus()
            }
            Message::Act(action) => self.act(action, self.windows.main()),
            Message::Now(work) => self.work(work),
            Message::Tick => {
                self.sound_marks();
                Task::none()
            }
            Message::Beat => {
                let runs = see::moves(self.facts(), self.effects.now());
                if let Err(sentence) = self.effects.beat(runs) {
                    self.say(Err(sentence));
                }
                self.back_up_if_due()
            }
            Message::BackedUp(job, done) => {
                if let Some(sentence) = self.effects.backed_up(&job, done) {
                    self.say(Ok(sentence));
                }
                Task::none()
            }
            Message::First(message) => self.at_first(message),
            Message::Day(message) => {
                let out = self.day.update(message, self.effects.facts());
                self.book();
                let task = self.out(ScreenId::Day, out);
                Task::batch([task, self.day.focus()])
            }
            Message::Table(message) => self.at_table(message),
            Message::Roster(message) => {
                let (task, out) = self.roster.update(message, self.effects.facts());
                let import = self.import();
                let out = self.out(ScreenId::Roster, out);
                Task::batch([task.map(Message::Roster), import, out])
            }
            Message::Scale(message) => {
                let message = self.scale.finishing(message, self.effects.day());
                let (task, out) = self.scale.update(message, self.effects.facts());
                let out = self.out(ScreenId::Scale, out);
                Task::batch([task.map(Message::Scale), out])
            }
            Message::Flights(message) => {
                let (task, out) = self.flights.update(message, self.effects.facts());
                let out = self.out(ScreenId::Flights, out);
                Task::batch([task.map(Message::Flights), out])
            }
            Message::Cards(message) => {
                let (task, out) = self.cards.update(message, self.effects.facts());
                let out = self.out(ScreenId::Cards, out);
                Task::batch([task.map(Message::Cards), out])
            }
            Message::Standings(message) => {
                match self.standings.update(message, self.effects.facts()) {
                    Some(action) => self.act(action, None),
                    None => Task::none(),
                }
            }
            Message::Papers(message) => {
                let written = if self.papers.update(message) {
                    self.papers()
                } else {
                    Task::none()
                };
                Task::batch([written, self.papers.focus()])
            }
            Message::Journal(message) => {
                let context = self.effects.context();
                let out = self.journal.update(message, self.effects.day(), &context);
                self.out(ScreenId::Journal, out)
            }
        }
    }

    fn at_table(&mut self, message: table::Message) -> Task<Message> {
        let now = self.effects.now();
        let typed = matches!(message, table::Message::Typed(_));
        let ask = self
            .table
            .update(message, self.effects.day(), self.platform, now);
        match ask {
            Some(table::Ask::Out(out)) => self.out(ScreenId::Table, Some(out)),
            Some(table::Ask::Act(action)) => {
                let task = self.act(action, self.windows.main());
                Task::batch([task, Table::focus()])
            }
            None if typed => Task::none(),
            None => Table::focus(),
        }
    }

    /// Does what a screen asks; the answer goes to that screen, also where
    /// another is shown by now.
    pub(super) fn out(&mut self, asked: ScreenId, out: Option<Out>) -> Task<Message> {
        match out {
            None => Task::none(),
            Some(Out::Go(screen)) => self.show(screen),
            Some(Out::Say(sentence)) => {
                self.say(Ok(sentence));
                Task::none()
            }
            Some(Out::Submit(command)) => {
                let answer = self.effects.submit(&command);
                self.answered(asked, answer)
            }
            Some(Out::Backup(asked)) => self.at_backups(asked),
            Some(Out::SubmitAll(commands)) => {
                let answer = self.effects.submit_all(&commands);
                let facts = self.effects.facts();
                match asked {
                    ScreenId::Cards => {
                        self.cards.all_answered(answer, facts).map(Message::Cards)
                    }
                    _ => self.answered(asked, answer.map_err(|(_, sentence)| sentence)),
                }
            }
        }
    }

    /// Hands the answer to the screen that asked.
    fn answered(&mut self, asked: ScreenId, answer: Result<(), String>) -> Task<Message> {
        if answer.is_ok() {
            self.said = None;
        } else if self.screen != Some(asked) {
            // Nobody sees the screen that asked, so it is said here as well.
            self.say(answer.clone().map(|()| String::new()));
        }
        let facts = self.effects.facts();
        match asked {
            ScreenId::Table => {
                self.table.answered(answer);
                Table::focus()
            }
            ScreenId::Day => {
                self.day.answered(answer, facts);
                Task::none()
            }
            ScreenId::Cards => self.cards.answered(answer, facts).map(Message::Cards),
            ScreenId::Roster => self.roster.answered(answer, facts).map(Message::Roster),
            ScreenId::Scale => self.scale.answered(answer, facts).map(Message::Scale),
            ScreenId::Flights => {
                self.flights.answered(answer, facts).map(Message::Flights)
            }
            ScreenId::Journal => {
                self.journal.answered(answer, self.effects.day());
                Task::none()
            }
            ScreenId::Standings | ScreenId::Papers => Task::none(),
        }
    }

    pub(super) fn say(&mut self, said: Result<String, String>) {
        if self.screen == Some(ScreenId::Table) {
            self.table.say(said);
        } else {
            self.said = Some(said);
        }
    }

    fn foresee(&mut self) {
        self.day.know(self.effects.backups_told());
        if self.screen == Some(ScreenId::Cards) && self.cards.asks_ahead() {
            let context = self.effects.context();
            self.cards.foresee(self.effects.day(), &context);
        }
        if self.screen == Some(ScreenId::Table) {
            let context = self.effects.context();
            self.table
                .foresee(self.effects.day(), self.platform, &context);
        }
    }

    pub(super) fn show(&mut self, screen: ScreenId) -> Task<Message> {
        if !self.effects.is_open() {
            return Task::none();
        }
        self.sheet = None;
        self.said = None;
        self.screen = Some(screen);
        if screen == ScreenId::Journal {
            self.journal.shown_again(self.effects.day());
        }
        self.focus()
    }

    /// Gives the keyboard to the field of the screen.
    pub(super) fn focus(&mut self) -> Task<Message> {
        if self.sheet.is_some() {
            return Task::none();
        }
        match self.screen {
            None => self.first.focus(),
            Some(ScreenId::Day) => self.day.focus(),
            Some(ScreenId::Table) => Table::focus(),
            Some(ScreenId::Cards) => {
                self.cards.shown(self.effects.facts()).map(Message::Cards)
            }
            Some(ScreenId::Roster) => {
                self.roster.shown(self.effects.facts()).map(Message::Roster)
            }
            Some(ScreenId::Scale) => {
                self.scale.shown(self.effects.facts()).map(Message::Scale)
            }
            Some(ScreenId::Flights) => self
                .flights
                .shown(self.effects.facts())
                .map(Message::Flights),
            Some(ScreenId::Papers) => self.papers.focus(),
            Some(ScreenId::Journal) => self.journal.focus(),
            Some(ScreenId::Standings) => Task::none(),
        }
    }
}

/// How much larger all is drawn in a window of that size, which was measured
/// at the scale `now`: the usual size fills 1366 by 740.
fn zoom_of(size: Size, now: f32) -> f32 {
    let wide = size.width * now / 1366.0;
    let high = size.height * now / 740.0;
    ((wide.min(high) * 20.0).floor() / 20.0).clamp(1.0, 2.5)
}
