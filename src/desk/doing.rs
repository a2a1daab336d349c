//! What the desk does for each action of the table of actions.

use iced::keyboard::key::Named;
use iced::{Task, window};

use super::action::{Action, key_words};
use super::app::{Desk, Message, Sheet};
use super::board::Board;
use super::keeping::first_screen;
use super::keys::Press;
use super::screen::first;
use super::screen::{ScreenId, cards, flights, roster};
use super::{call_line, see, tell};
use crate::day::{ClockMove, Command, Facts, Light, Line, Stamp, Which, decide};
use crate::lift::Slug;
use crate::roster::Entry;
use crate::rules::Queue;
use crate::samples::Sample;

impl Desk {
    /// Does an action; `window` is the one in hand.
    pub(super) fn act(
        &mut self,
        action: Action,
        window: Option<window::Id>,
    ) -> Task<Message> {
        let twice = matches!(action, Action::Undo | Action::Redo | Action::StartNumbers);
        if !twice || self.armed != Some(action) {
            self.armed = None;
        }
        // What is done must be seen, so a sheet makes way for it.
        let over = matches!(
            action,
            Action::Help
                | Action::Guide
                | Action::Escape
                | Action::Shade
                | Action::FullScreen
        );
        if !over {
            self.sheet = None;
        }
        match action {
            Action::Help => self.turn_sheet(Sheet::Keys),
            Action::Guide => self.turn_sheet(Sheet::Guide),
            Action::Show(screen) => self.show(screen),
            Action::CallOrClock => self.enter(call_or_clock(self.facts(), self.platform)),
            Action::AllWhite => self.lights(Light::White, None),
            Action::AllRed => self.lights(Light::Red, None),
            Action::OneRed(judge) => self.lights(Light::White, Some(judge)),
            Action::OneWhite(judge) => self.lights(Light::Red, Some(judge)),
            Action::Reason(n) => {
                self.lights_by(|facts, on| call_line::reason_by_key(facts, on, n))
            }
            Action::Rise(n) => self.by_key(call_line::rise_by_key, n),
            Action::Platform(n) => self.take_platform(n),
            Action::Extra => self.extra(),
            Action::StartNumbers => self.start_numbers(),
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
            Action::HallBoard => self.turn_board(Board::Hall),
            Action::LoaderBoard => self.turn_board(Board::Loaders),
            Action::WarmUpBoard => self.turn_board(Board::WarmUp),
            Action::Sound => {
                self.turn_sound();
                Task::none()
            }
            Action::Shade => {
                self.dark = !self.dark;
                Task::none()
            }
            Action::NewDay => {
                self.first.ask_new();
                self.focus()
            }
            Action::Sample if self.first.has_draft() => {
                let busy =
                    "Esc goes back to the first list; the sample opens from there.";
                self.first.answered(Err(busy.to_owned()));
                self.focus()
            }
            Action::Sample => self.at_first_asked(first::Ask::Sample(Sample::MaxDay)),
            Action::Leave => {
                self.effects.close();
                self.first = first_screen(&self.effects);
                self.screen = None;
                self.focus()
            }
            Action::Escape => {
                match window.filter(|id| self.windows.board_in(*id).is_some()) {
                    Some(board) => self.windows.leave_full(board),
                    None => self.escape(),
                }
            }
            Action::CardList => self.dispatch(Message::Cards(cards::Message::List)),
            Action::Compare => self.dispatch(Message::Cards(cards::Message::Compare)),
            Action::Import => {
                let message = roster::Message::FileInHand;
                self.dispatch(Message::Roster(message))
            }
            Action::PlanOrHand => {
                let message = flights::Message::Turned;
                self.dispatch(Message::Flights(message))
            }
            Action::NextRanking => {
                self.standings.turn(self.effects.facts());
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
                self.papers.ask_all();
                self.papers()
            }
            Action::Annul => {
                let context = self.effects.context();
                let out = self.journal.annul(self.effects.day(), &context);
                self.out(ScreenId::Journal, out)
            }
            Action::Quit => {
                self.effects.close();
                iced::exit()
            }
        }
    }

    /// Shows a sheet over the screen, or takes it away.
    fn turn_sheet(&mut self, sheet: Sheet) -> Task<Message> {
        self.sheet = (self.sheet != Some(sheet)).then_some(sheet);
        self.focus()
    }

    /// Opens a board, or closes it; the table keeps the keyboard.
    fn turn_board(&mut self, board: Board) -> Task<Message> {
        let task = self.windows.turn_board(board, Message::Opened);
        if self.windows.window_of(board).is_some() {
            let label = board.label().to_lowercase();
            let (full, key) = (key_words(Action::FullScreen), key_words(board.action()));
            self.say(Ok(format!(
                "The {label} is open: move it to its screen; {full} there makes it \
                 full-screen, Esc there leaves that, {key} closes it."
            )));
        }
        match self.windows.main() {
            Some(main) => task.chain(window::gain_focus(main)),
            None => task,
        }
    }

    /// Enters a command of a key; its answer shows where the eye is.
    fn enter(&mut self, command: Command) -> Task<Message> {
        let sentence = call_line::say(self.facts(), self.platform, &command);
        let said = self
            .effects
            .submit(&command)
            .map(|()| format!("Entered: {sentence}"));
        self.say(said);
        Task::none()
    }

    /// Lights of one colour, but for one judge's.
    ///
    /// Where nobody need be called, they are for the first in the queue: a
    /// second press at once would rule somebody else, so it isn't taken.
    fn lights(&mut self, light: Light, but: Option<u8>) -> Task<Message> {
        self.lights_by(|facts, on| call_line::lights_by_key(facts, on, light, but))
    }

    /// Enters what a key of the lights means on the platform in hand.
    fn lights_by(
        &mut self,
        meant: impl FnOnce(&Facts, u8) -> Result<Command, String>,
    ) -> Task<Message> {
        let now = self.effects.now();
        let held = self
            .last_lights
            .is_some_and(|last| last.holds(self.platform, now));
        match meant(self.facts(), self.platform) {
            Ok(Command::Lights { ref which, .. }) if held && which.number.is_some() => {
                Task::none()
            }
            Ok(command) => {
                if matches!(command, Command::Lights { .. }) {
                    self.last_lights = Some(Held(self.platform, now));
                }
                self.enter(command)
            }
            Err(sentence) => self.refuse(sentence),
        }
    }

    /// What a key with a number means on the platform in hand.
    fn by_key(
        &mut self,
        meant: fn(&Facts, u8, u8) -> Result<Command, String>,
        n: u8,
    ) -> Task<Message> {
        match meant(self.facts(), self.platform, n) {
            Ok(command) => self.enter(command),
            Err(sentence) => self.refuse(sentence),
        }
    }

    fn take_platform(&mut self, n: u8) -> Task<Message> {
        let there = self.facts().platforms.len();
        if usize::from(n) > there {
            let what = if there == 1 { "platform" } else { "platforms" };
            return self.refuse(format!("The day has {there} {what}."));
        }
        self.platform = n;
        self.focus()
    }

    fn refuse(&mut self, sentence: String) -> Task<Message> {
        self.say(Err(sentence));
        Task::none()
    }

    /// One more attempt by leave, where the queue is advice: on a rack card for
    /// its row in hand, at the table for the athlete called, else for the one
    /// ruled last.
    fn extra(&mut self) -> Task<Message> {
        let facts = self.facts();
        let in_hand = match self.screen {
            Some(ScreenId::Cards) => self.cards.in_hand(facts),
            _ => in_hand(facts, self.platform),
        };
        match extra(facts, self.platform, in_hand) {
            Ok(command) => self.enter(command),
            Err(sentence) => self.refuse(sentence),
        }
    }

    /// Says how start numbers would be given; the second time gives them.
    fn start_numbers(&mut self) -> Task<Message> {
        let command = Command::Number { given: Vec::new() };
        if self.armed == Some(Action::StartNumbers) {
            self.armed = None;
            return self.enter(command);
        }
        let sentence = call_line::say(self.facts(), self.platform, &command);
        let allowed = decide(self.effects.day(), &command, &self.effects.context())
            .map(|_| {
                format!("{sentence} Ctrl+N again does it; the Roster screen undoes it.")
            })
            .map_err(|refusal| refusal.to_string());
        if allowed.is_ok() {
            self.armed = Some(Action::StartNumbers);
        }
        self.say(allowed);
        Task::none()
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
        let key = key_words(action);
        let command = if action == Action::Undo {
            Command::Undo(line)
        } else {
            Command::Redo(line)
        };
        let context = self.effects.context();
        if self.armed == Some(action) {
            self.armed = None;
            let keys = (key_words(Action::Undo), key_words(Action::Redo));
            let keys = (keys.0.as_str(), keys.1.as_str());
            let told = tell::undone(self.effects.day(), &command, &context, keys);
            let said = self.effects.submit(&command).and(told);
            self.say(said);
            return Task::none();
        }
        let told = tell::undo(self.effects.day(), &command, &context);
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

    pub(super) fn has_draft(&self) -> bool {
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

    pub(super) fn escape(&mut self) -> Task<Message> {
        self.said = None;
        if self.sheet.take().is_some() {
            return self.focus();
        }
        match self.screen {
            None => self.first.clear(),
            Some(ScreenId::Table) => self.table.clear(),
            Some(ScreenId::Day) => self.day.clear(),
            Some(ScreenId::Journal) => self.journal.clear(self.effects.day()),
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
}

/// Where and when lights were given last by a key.
#[derive(Debug, Clone, Copy)]
pub(super) struct Held(u8, Stamp);

impl Held {
    /// How long a second press isn't taken, in milliseconds.
    const PAUSE: i64 = 700;

    /// Whether the same press would come too soon.
    fn holds(self, platform: u8, now: Stamp) -> bool {
        self.0 == platform && (0..Self::PAUSE).contains(&now.since(self.1))
    }
}

/// Who is called on a platform, else who was ruled last there.
fn in_hand(facts: &Facts, platform: u8) -> Option<(&Entry, Slug)> {
    let call = facts.platform(platform).and_then(|p| p.call.as_ref());
    let called = call.and_then(|c| Some((facts.entries.get(&c.entry)?, c.slot.clone())));
    called.or_else(|| see::last_ruled(facts, platform).map(|(e, slot, ..)| (e, slot)))
}

/// One more attempt by leave for the athlete in hand.
///
/// Where the queue is law the key does nothing: a slip of the hand would cost
/// too much there.
fn extra(
    facts: &Facts,
    platform: u8,
    in_hand: Option<(&Entry, Slug)>,
) -> Result<Command, String> {
    let Some((entry, slot)) = in_hand else {
        return Err(format!(
            "Nobody is in hand on {} yet; type the number, extra and why.",
            facts.platform_label(platform)
        ));
    };
    if facts.rules.queue == Queue::Law {
        return Err(format!(
            "Where the queue is law one more attempt needs its reason: type {} extra and why.",
            entry.number
        ));
    }
    Ok(Command::Extra {
        which: Which {
            number: Some(entry.number),
            lift: Some(slot),
            attempt: None,
        },
        reason: "by leave".to_owned(),
        platform: facts.platform_of(entry),
    })
}

/// Calls the next athlete; while one is called, stops the clock or lets it go
/// on.
pub fn call_or_clock(facts: &Facts, platform: u8) -> Command {
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
