//! The desk's state, and who answers which message.

use std::path::{Path, PathBuf};
use std::time::Duration;

use iced::keyboard::{self, Key, key::Named};
use iced::{Event, Subscription, Task, Theme, event, window};

use super::action::{self, Action};
use super::effects::Effects;
use super::keys::Press;
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
use super::windows::Windows;
use super::{see, tell, theme};
use crate::day::{ClockMove, Command, Facts, Light, Line, Outcome, Which};

/// What happens at the desk.
#[derive(Debug, Clone)]
pub enum Message {
    /// A key that no text field has taken.
    Pressed(window::Id, Press),
    /// A file was dropped on a window.
    Dropped(PathBuf),
    /// A window is there.
    Opened(window::Id),
    /// A window is gone.
    Closed(window::Id),
    /// A button was pressed.
    Act(Action),
    /// Time goes on while something runs.
    Tick,
    /// The holder of the file says that it lives.
    Beat,
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

/// The state of the desk.
#[derive(Debug)]
pub struct Desk {
    pub(super) effects: Effects,
    pub(super) windows: Windows,
    /// The screen that is shown; `None` is the first screen.
    pub(super) screen: Option<ScreenId>,
    pub(super) platform: u8,
    pub(super) help: bool,
    pub(super) dark: bool,
    pub(super) said: Option<Result<String, String>>,
    armed: Option<Action>,
    repaint: u32,
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
        let today = effects.now().local().date();
        let first = First::new(effects.remembered(), effects.documents(), today);
        let mut desk = Self {
            windows: Windows::default(),
            screen: effects.is_open().then_some(ScreenId::Table),
            platform: 1,
            help: false,
            dark: false,
            said: None,
            armed: None,
            repaint: 0,
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

    /// The platform in hand.
    pub const fn platform(&self) -> u8 {
        self.platform
    }

    /// The table screen.
    pub const fn table(&self) -> &Table {
        &self.table
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
            Message::Tick | Message::Table(table::Message::Typed(_))
        );
        if !quiet {
            self.repaint = self.repaint.wrapping_add(1);
        }
        if !matches!(
            message,
            Message::Tick
                | Message::Beat
                | Message::Pressed(..)
                | Message::Act(_)
                | Message::Table(table::Message::Pressed(_))
                | Message::Opened(_)
        ) {
            self.armed = None;
        }
        let task = self.dispatch(message);
        self.foresee();
        task
    }

    fn dispatch(&mut self, message: Message) -> Task<Message> {
        match message {
            Message::Pressed(id, press) => self.pressed(id, &press),
            Message::Dropped(path) => self.dropped(path),
            Message::Opened(_) => self.focus(),
            Message::Closed(id) => {
                if self.windows.closed(id) {
                    self.effects.close();
                    return iced::exit();
                }
                self.focus()
            }
            Message::Act(action) => self.act(action, self.windows.main()),
            Message::Tick => Task::none(),
            Message::Beat => {
                let runs = see::moves(self.facts(), self.effects.now());
                if let Err(sentence) = self.effects.beat(runs) {
                    self.say(Err(sentence));
                }
                Task::none()
            }
            Message::First(message) => self.at_first(message),
            Message::Day(message) => {
                let out = self.day.update(message, self.effects.facts());
                let task = self.out(out);
                Task::batch([task, self.day.focus()])
            }
            Message::Table(message) => self.at_table(message),
            Message::Roster(message) => {
                let (task, out) = self.roster.update(message, self.effects.facts());
                let import = self.import();
                let out = self.out(out);
                Task::batch([task.map(Message::Roster), import, out])
            }
            Message::Scale(message) => {
                let (task, out) = self.scale.update(message, self.effects.facts());
                let out = self.out(out);
                Task::batch([task.map(Message::Scale), out])
            }
            Message::Flights(message) => {
                let (task, out) = self.flights.update(message, self.effects.facts());
                let out = self.out(out);
                Task::batch([task.map(Message::Flights), out])
            }
            Message::Cards(message) => {
                let (task, out) = self.cards.update(message, self.effects.facts());
                let out = self.out(out);
                Task::batch([task.map(Message::Cards), out])
            }
            Message::Standings(message) => {
                match self.standings.update(message, self.effects.facts()) {
                    Some(action) => self.act(action, None),
                    None => Task::none(),
                }
            }
            Message::Papers(message) => {
                if self.papers.update(message) {
                    let order = self.papers.order(self.effects.now());
                    let said = self.effects.write_papers(&order);
                    self.say(said);
                }
                self.papers.focus()
            }
            Message::Journal(message) => {
                let context = self.effects.context();
                let out = self.journal.update(message, self.effects.day(), &context);
                self.out(out)
            }
        }
    }

    fn at_first(&mut self, message: first::Message) -> Task<Message> {
        let Some(ask) = self.first.update(message) else {
            return self.first.focus();
        };
        let done = match ask {
            first::Ask::Open(path) => self.effects.open(&path),
            first::Ask::Make { path, wish, like } => {
                self.effects.create(&path, &wish, like.as_deref())
            }
            first::Ask::Sample(sample) => self.effects.sample(sample),
        };
        self.opened(done)
    }

    fn open(&mut self, path: &Path) -> Task<Message> {
        let done = self.effects.open(path);
        self.opened(done)
    }

    /// After a day was opened, or wasn't.
    fn opened(&mut self, done: Result<(), String>) -> Task<Message> {
        self.first.answered(done.clone());
        if let Err(sentence) = done {
            // The first screen says it at the field in hand.
            if self.screen.is_some() {
                self.say(Err(sentence));
            }
            return self.focus();
        }
        self.said = None;
        self.help = false;
        self.table = Table::new();
        self.day = DayScreen::new();
        self.roster = Roster::new();
        self.scale = Scale::new();
        self.flights = Flights::new();
        self.cards = Cards::new();
        self.standings = Standings::new();
        self.journal = Journal::new();
        self.platform = self.first_platform();
        let fresh = self.facts().entries.is_empty();
        self.show(if fresh {
            ScreenId::Day
        } else {
            ScreenId::Table
        })
    }

    /// The first platform on which something runs or has a flight.
    fn first_platform(&self) -> u8 {
        let facts = self.facts();
        let runs = (1..).zip(&facts.platforms).find(|(_, p)| p.call.is_some());
        let runs = runs.or_else(|| {
            (1..)
                .zip(&facts.platforms)
                .find(|(_, p)| p.running.is_some())
        });
        runs.map(|(n, _)| n)
            .or_else(|| facts.flights.iter().map(|f| f.platform).min())
            .unwrap_or(1)
    }

    fn at_table(&mut self, message: table::Message) -> Task<Message> {
        let now = self.effects.now();
        let typed = matches!(message, table::Message::Typed(_));
        let ask = self
            .table
            .update(message, self.effects.day(), self.platform, now);
        match ask {
            Some(table::Ask::Out(out)) => self.out(Some(out)),
            Some(table::Ask::Act(action)) => {
                let task = self.act(action, self.windows.main());
                Task::batch([task, Table::focus()])
            }
            None if typed => Task::none(),
            None => Table::focus(),
        }
    }

    /// Does what a screen asks.
    fn out(&mut self, out: Option<Out>) -> Task<Message> {
        match out {
            None => Task::none(),
            Some(Out::Go(screen)) => self.show(screen),
            Some(Out::Say(sentence)) => {
                self.say(Ok(sentence));
                Task::none()
            }
            Some(Out::Submit(command)) => {
                let answer = self.effects.submit(&command);
                self.answered(answer)
            }
        }
    }

    /// Hands the answer to the screen that asked.
    fn answered(&mut self, answer: Result<(), String>) -> Task<Message> {
        if answer.is_ok() {
            self.said = None;
        }
        let facts = self.effects.facts();
        match self.screen {
            Some(ScreenId::Table) => {
                self.table.answered(answer);
                Table::focus()
            }
            Some(ScreenId::Day) => {
                self.day.answered(answer, facts);
                Task::none()
            }
            Some(ScreenId::Cards) => {
                self.cards.answered(answer, facts).map(Message::Cards)
            }
            Some(ScreenId::Roster) => {
                self.roster.answered(answer, facts).map(Message::Roster)
            }
            Some(ScreenId::Scale) => {
                self.scale.answered(answer, facts).map(Message::Scale)
            }
            Some(ScreenId::Flights) => {
                self.flights.answered(answer, facts).map(Message::Flights)
            }
            Some(ScreenId::Journal) => {
                self.journal.answered(answer);
                Task::none()
            }
            None | Some(ScreenId::Standings | ScreenId::Papers) => {
                if let Err(sentence) = answer {
                    self.say(Err(sentence));
                }
                Task::none()
            }
        }
    }

    fn say(&mut self, said: Result<String, String>) {
        if self.screen == Some(ScreenId::Table) {
            self.table.say(said);
        } else {
            self.said = Some(said);
        }
    }

    fn foresee(&mut self) {
        if self.screen == Some(ScreenId::Table) {
            let context = self.effects.context();
            self.table
                .foresee(self.effects.day(), self.platform, &context);
        }
    }

    fn pressed(&mut self, id: window::Id, press: &Press) -> Task<Message> {
        if let Some(action) = action::of_press(press, self.screen) {
            // A key that is held down does nothing twice.
            if press.repeat {
                return Task::none();
            }
            return self.act(action, Some(id));
        }
        if self.windows.is_board(id) {
            return Task::none();
        }
        self.armed = None;
        if self.help {
            return Task::none();
        }
        let facts = self.effects.facts();
        let message = match self.screen {
            None => self.first.key(press).map(Message::First),
            Some(ScreenId::Day) => self.day.key(press, facts).map(Message::Day),
            Some(ScreenId::Table) => self.table.key(press).map(Message::Table),
            Some(ScreenId::Cards) => self.cards.key(press, facts).map(Message::Cards),
            Some(ScreenId::Standings) => {
                self.standings.key(press).map(Message::Standings)
            }
            Some(ScreenId::Papers) => self.papers.key(press).map(Message::Papers),
            Some(ScreenId::Journal) => self.journal.key(press).map(Message::Journal),
            Some(ScreenId::Roster) => self.roster.key(press, facts).map(Message::Roster),
            Some(ScreenId::Scale) => self.scale.key(press, facts).map(Message::Scale),
            Some(ScreenId::Flights) => {
                self.flights.key(press, facts).map(Message::Flights)
            }
        };
        let Some(message) = message else {
            return Task::none();
        };
        // The grids keep the keyboard where they want it.
        let grid = matches!(
            self.screen,
            Some(
                ScreenId::Cards | ScreenId::Roster | ScreenId::Scale | ScreenId::Flights
            )
        );
        let task = self.dispatch(message);
        if grid {
            task
        } else {
            Task::batch([task, self.focus()])
        }
    }

    /// A file was dropped: a day is opened, anything else is a roster.
    fn dropped(&mut self, path: PathBuf) -> Task<Message> {
        let day = path
            .extension()
            .is_some_and(|e| e.eq_ignore_ascii_case(crate::file::EXTENSION));
        if day || !self.effects.is_open() {
            return self.open(&path);
        }
        let shown = self.show(ScreenId::Roster);
        self.roster.dropped(path);
        Task::batch([shown, self.import()])
    }

    /// Imports the roster that the roster's screen asks for, if it does.
    fn import(&mut self) -> Task<Message> {
        let Some(path) = self.roster.take_import() else {
            return Task::none();
        };
        let report = self.effects.import(&path);
        self.roster.imported(report).map(Message::Roster)
    }

    /// Does an action; `window` is the one in hand.
    fn act(&mut self, action: Action, window: Option<window::Id>) -> Task<Message> {
        if !matches!(action, Action::Undo | Action::Redo) || self.armed != Some(action) {
            self.armed = None;
        }
        match action {
            Action::Help => {
                self.help = !self.help;
                self.focus()
            }
            Action::Show(screen) => self.show(screen),
            Action::CallOrClock => self.enter(call_or_clock(self.facts(), self.platform)),
            Action::AllWhite => self.enter(self.all(Light::White)),
            Action::AllRed => self.enter(self.all(Light::Red)),
            Action::NextPlatform => {
                let n = u8::try_from(self.facts().platforms.len()).unwrap_or(1);
                self.platform = if self.platform >= n {
                    1
                } else {
                    self.platform + 1
                };
                self.focus()
            }
            Action::Undo | Action::Redo => self.undo(action),
            Action::FullScreen => match window.or(self.windows.main()) {
                Some(id) => self.windows.turn_full(id),
                None => Task::none(),
            },
            Action::HallBoard => {
                let task = self.windows.turn_board(Message::Opened);
                match self.windows.main() {
                    Some(main) => task.chain(window::gain_focus(main)),
                    None => task,
                }
            }
            Action::Shade => {
                self.dark = !self.dark;
                Task::none()
            }
            Action::Leave => {
                self.effects.close();
                let today = self.effects.now().local().date();
                self.first = First::new(
                    self.effects.remembered(),
                    self.effects.documents(),
                    today,
                );
                self.screen = None;
                self.focus()
            }
            Action::Escape => self.escape(),
            Action::Import => {
                let message = roster::Message::FileInHand;
                self.dispatch(Message::Roster(message))
            }
            Action::PlanOrHand => {
                let message = flights::Message::Turned;
                self.dispatch(Message::Flights(message))
            }
            Action::NextRanking => {
                self.standings.turn();
                Task::none()
            }
            Action::PaperSize => {
                self.papers.turn_size();
                Task::none()
            }
            Action::Posted => {
                self.papers.turn_posted();
                Task::none()
            }
            Action::WritePapers => {
                let order = self.papers.order(self.effects.now());
                let said = self.effects.write_papers(&order);
                self.say(said);
                Task::none()
            }
            Action::Annul => {
                let context = self.effects.context();
                let out = self.journal.annul(self.effects.day(), &context);
                self.out(out)
            }
            Action::Quit => {
                self.effects.close();
                iced::exit()
            }
        }
    }

    /// Enters a command of a key; its answer shows where the eye is.
    fn enter(&mut self, command: Command) -> Task<Message> {
        let sentence = super::call_line::say(self.facts(), self.platform, &command);
        let said = self
            .effects
            .submit(&command)
            .map(|()| format!("Entered: {sentence}"));
        self.say(said);
        Task::none()
    }

    fn all(&self, light: Light) -> Command {
        Command::Lights {
            which: Which::default(),
            load: None,
            outcome: Outcome {
                lights: vec![light; usize::from(self.facts().rules.judges)],
                ..Outcome::default()
            },
            platform: Some(self.platform),
        }
    }

    /// Shows what would be undone; the second time undoes it.
    fn undo(&mut self, action: Action) -> Task<Message> {
        if self.has_draft() {
            self.say(Err(
                "Something is typed; enter it or clear it with Esc before an undo."
                    .to_owned(),
            ));
            return Task::none();
        }
        let Some(line) = self.line() else {
            self.say(Err(
                "Undo works on the screen where something was entered; an older act can be annulled in the journal.".to_owned(),
            ));
            return Task::none();
        };
        let (command, key) = if action == Action::Undo {
            (Command::Undo(line), "Ctrl+Z")
        } else {
            (Command::Redo(line), "Ctrl+Y")
        };
        let told = tell::undo(self.effects.day(), &command, &self.effects.context());
        if self.armed == Some(action) {
            self.armed = None;
            let said = self.effects.submit(&command).and(told);
            self.say(said);
            return Task::none();
        }
        if told.is_ok() {
            self.armed = Some(action);
        }
        self.say(told.map(|sentence| format!("{sentence} {key} again does it.")));
        Task::none()
    }

    /// The line on which this screen undoes.
    fn line(&self) -> Option<Line> {
        match self.screen? {
            ScreenId::Table => Some(Line::Platform(self.platform)),
            ScreenId::Cards => {
                let card = self.cards.card()?;
                let flight = self.facts().flight(&card.session, &card.flight);
                Some(Line::Platform(flight.map_or(self.platform, |f| f.platform)))
            }
            ScreenId::Roster => Some(Line::Roster),
            ScreenId::Scale => Some(Line::Scale),
            ScreenId::Flights => Some(Line::Flights),
            ScreenId::Day => Some(Line::Day),
            ScreenId::Standings | ScreenId::Papers | ScreenId::Journal => None,
        }
    }

    fn has_draft(&self) -> bool {
        match self.screen {
            Some(ScreenId::Table) => self.table.has_draft(),
            Some(ScreenId::Day) => self.day.has_draft(),
            Some(ScreenId::Cards) => self.cards.has_drafts(),
            Some(ScreenId::Roster) => self.roster.has_drafts(),
            Some(ScreenId::Scale) => self.scale.has_drafts(),
            Some(ScreenId::Flights) => self.flights.has_drafts(),
            Some(ScreenId::Journal) => self.journal.has_draft(),
            None | Some(ScreenId::Standings | ScreenId::Papers) => false,
        }
    }

    fn escape(&mut self) -> Task<Message> {
        self.said = None;
        if self.help {
            self.help = false;
            return self.focus();
        }
        match self.screen {
            None => self.first.clear(),
            Some(ScreenId::Table) => self.table.clear(),
            Some(ScreenId::Day) => self.day.clear(),
            Some(ScreenId::Journal) => self.journal.clear(),
            Some(
                ScreenId::Cards | ScreenId::Roster | ScreenId::Scale | ScreenId::Flights,
            ) => {
                return self.escape_in_grid();
            }
            Some(ScreenId::Standings | ScreenId::Papers) => {}
        }
        self.focus()
    }

    fn escape_in_grid(&mut self) -> Task<Message> {
        let key = Press::named(Named::Escape);
        let facts = self.effects.facts();
        let message = match self.screen {
            Some(ScreenId::Cards) => self.cards.key(&key, facts).map(Message::Cards),
            Some(ScreenId::Roster) => self.roster.key(&key, facts).map(Message::Roster),
            Some(ScreenId::Scale) => self.scale.key(&key, facts).map(Message::Scale),
            Some(ScreenId::Flights) => {
                self.flights.key(&key, facts).map(Message::Flights)
            }
            _ => None,
        };
        match message {
            Some(message) => self.dispatch(message),
            None => self.focus(),
        }
    }

    fn show(&mut self, screen: ScreenId) -> Task<Message> {
        if !self.effects.is_open() {
            return Task::none();
        }
        self.help = false;
        self.said = None;
        self.screen = Some(screen);
        self.focus()
    }

    /// Gives the keyboard to the field of the screen.
    fn focus(&mut self) -> Task<Message> {
        if self.help {
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

    /// What the desk listens to.
    pub fn subscription(&self) -> Subscription<Message> {
        let mut list = vec![event::listen_with(hear)];
        if self.effects.is_open() {
            list.push(iced::time::every(Duration::from_secs(5)).map(|_| Message::Beat));
            if see::moves(self.facts(), self.effects.now()) {
                list.push(
                    iced::time::every(Duration::from_millis(250)).map(|_| Message::Tick),
                );
            }
        }
        Subscription::batch(list)
    }

    /// The title of a window.
    pub fn title(&self, id: window::Id) -> String {
        let name = &self.facts().name;
        match (self.windows.is_board(id), name.is_empty()) {
            (true, _) => format!("Hall board, {name}"),
            (false, true) => "Maxday".to_owned(),
            (false, false) => format!("Maxday, {name}"),
        }
    }

    /// The theme of a window.
    pub fn theme(&self, id: window::Id) -> Theme {
        if self.windows.is_board(id) {
            theme::board()
        } else if self.dark {
            theme::dark()
        } else {
            theme::light()
        }
    }

    /// The style of every window.
    ///
    /// The software renderer leaves stale pixels where rows move, unless the
    /// background changes: then the whole window is painted. So it changes by
    /// less than can be seen.
    pub fn style(&self, theme: &Theme) -> iced::theme::Style {
        let mut style = iced::theme::Style {
            background_color: theme.palette().background,
            text_color: theme.palette().text,
        };
        let step = u16::try_from(self.repaint % 64).unwrap_or(0);
        style.background_color.a -= 1e-6 * f32::from(step);
        style
    }
}

/// Calls the next athlete; while one is called, stops the clock or lets it go
/// on.
fn call_or_clock(facts: &Facts, platform: u8) -> Command {
    let call = facts.platform(platform).and_then(|p| p.call.as_ref());
    match call.map(|c| c.clock) {
        Some(Some(clock)) => Command::Clock {
            platform: Some(platform),
            movement: if clock.runs() {
                ClockMove::Stop
            } else {
                ClockMove::Resume
            },
        },
        Some(None) | None => Command::Call {
            which: Which::default(),
            load: None,
            platform: Some(platform),
        },
    }
}

/// Turns what the windows say into messages.
fn hear(event: Event, status: event::Status, id: window::Id) -> Option<Message> {
    match event {
        Event::Keyboard(keyboard::Event::KeyPressed {
            key,
            modified_key,
            physical_key,
            modifiers,
            repeat,
            ..
        }) => {
            let escape = key == Key::Named(Named::Escape);
            if status == event::Status::Captured && !escape {
                return None;
            }
            let key = if modifiers.command() {
                match key.to_latin(physical_key) {
                    Some(letter) => Key::Character(letter.to_string().into()),
                    None => key,
                }
            } else if matches!(modified_key, Key::Character(_)) {
                modified_key
            } else {
                key
            };
            Some(Message::Pressed(
                id,
                Press {
                    key,
                    modifiers,
                    repeat,
                },
            ))
        }
        Event::Window(window::Event::FileDropped(path)) => Some(Message::Dropped(path)),
        Event::Window(window::Event::Closed) => Some(Message::Closed(id)),
        _ => None,
    }
}
