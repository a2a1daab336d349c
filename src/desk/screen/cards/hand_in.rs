//! How what is typed, pasted or compared is handed in.

use iced::Task;

use super::compare::{self, Case, Compare};
use super::paste::{self, Pasted};
use super::read::{load_column, read_row};
use super::sheet::{self, CardSheet};
use super::{Cards, FIELD, Message, Open, card};
use crate::day::{Command, Context, Day, Facts};
use crate::desk::screen::Out;
use crate::desk::tell;
use crate::desk::widget::grid::{self, Event, Handed, Key, Said, Sheet};
use crate::desk::widget::list;

impl Cards {
    pub(super) fn said(&mut self, said: Said, facts: &Facts) {
        match said {
            Said::Row { row, at } => self.hand_in(row, at.is_some(), facts),
            Said::Cell { .. } => {}
            Said::NotFound(text) => self.find_elsewhere(&text, facts),
        }
    }

    /// Puts a row's acts in the line of those that wait; what differs from
    /// what stands is held, and compared where Enter was pressed.
    fn hand_in(&mut self, row: u32, entered: bool, facts: &Facts) {
        let Some((entry, slot)) = sheet::row_of(facts, row) else {
            return;
        };
        let typed = |column: usize| self.grid.draft(row, column).map(|d| d.text.clone());
        let read = read_row(facts, entry, slot, &typed);
        for step in read.steps {
            let column = load_column(step.attempt);
            self.waiting.push(Handed {
                row,
                columns: vec![column, column + 1],
                what: step.command,
            });
        }
        for (column, sentence) in read.faults {
            self.grid.refuse(row, column, sentence);
        }
        for column in read.same {
            self.grid.settle(row, column);
        }
        self.hold(row, facts);
        if entered && !read.differs.is_empty() {
            let cases = compare::cases(facts, &self.grid);
            let at = cases.iter().position(|case| case.row == row);
            self.compare(at.unwrap_or(0));
        }
        // A cell that was only emptied holds nothing to hand in.
        let blank: Vec<usize> = self
            .grid
            .drafts_of(row)
            .filter(|(_, d)| d.text.trim().is_empty() && d.refused.is_none())
            .map(|(column, _)| column)
            .collect();
        for column in blank {
            self.grid.settle(row, column);
        }
    }

    /// Keeps what differs in a row until somebody decides.
    fn hold(&mut self, row: u32, facts: &Facts) {
        let of_row = |case: &Case| case.row == row;
        let cases = compare::cases(facts, &self.grid);
        for case in cases.into_iter().filter(of_row) {
            let differs = &case.differs;
            for column in &differs.columns {
                let sentence = format!(
                    "Stands: {}; the card says {} (attempt {}). Ctrl+D compares them; Esc \
                     in the cell leaves it as it stands.",
                    differs.stands, differs.card, differs.attempt
                );
                self.grid.hold(row, *column, sentence);
            }
        }
    }

    pub(super) fn hand_in_row_in_hand(&mut self, facts: &Facts) {
        let Some(card) = self.card.clone() else {
            return;
        };
        let sheet = CardSheet::new(facts, &card);
        if self.grid.cursor.row < sheet.rows() {
            let row = sheet.key(self.grid.cursor.row);
            self.hand_in(row, false, facts);
        }
    }

    pub(super) fn next(&mut self) -> Option<Out> {
        self.waiting.send().map(Out::Submit)
    }
}

/// Pasted cells.
impl Cards {
    pub(super) fn paste(&mut self, text: &str, facts: &Facts) {
        let Some(card) = self.card.clone() else {
            return;
        };
        if !self.waiting.is_empty() {
            let sentence = "Attempts are being recorded; paste again in a moment.";
            self.said = Some(Err(sentence.to_owned()));
            return;
        }
        let sheet = CardSheet::new(facts, &card);
        match paste::paste(text, facts, &sheet, &mut self.grid) {
            Ok(pasted) => self.pasted = Some(pasted),
            Err(sentence) => self.said = Some(Err(sentence)),
        }
    }

    /// While pasted cells wait, only Enter and Escape mean something, and
    /// other pasted cells take their place.
    pub(super) fn with_pasted(
        &mut self,
        message: Message,
        facts: &Facts,
    ) -> (Task<Message>, Option<Out>) {
        let out = match message {
            Message::Grid(Event::Pressed(Key::Enter, _)) => self.record_pasted(facts),
            Message::Grid(Event::Pressed(Key::Escape, _)) | Message::Leave => {
                self.drop_pasted();
                None
            }
            Message::Grid(Event::Pasted(text)) => {
                self.drop_pasted();
                self.paste(&text, facts);
                None
            }
            _ => None,
        };
        (grid::focus(FIELD), out)
    }

    fn drop_pasted(&mut self) {
        if let Some(pasted) = self.pasted.take() {
            self.grid = pasted.before;
        }
    }

    fn record_pasted(&mut self, facts: &Facts) -> Option<Out> {
        let pasted = self.pasted.as_ref()?;
        if pasted.line().is_err() {
            return None;
        }
        let commands: Vec<Command> =
            pasted.steps.iter().map(|s| s.command.clone()).collect();
        if commands.is_empty() {
            let _ = self.all_answered(Ok(()), facts);
            return None;
        }
        Some(Out::SubmitAll(commands))
    }

    /// The answer to pasted cells: all of them are durable, or none.
    pub fn all_answered(
        &mut self,
        answer: Result<(), (Option<usize>, String)>,
        facts: &Facts,
    ) -> Task<Message> {
        if let Err((at, sentence)) = answer {
            let step = at.zip(self.pasted.as_ref());
            let step = step.and_then(|(at, pasted)| pasted.steps.get(at));
            let place = step.map(|s| format!("{}: ", s.place)).unwrap_or_default();
            self.said = Some(Err(format!(
                "{place}{sentence} Nothing was recorded; Esc takes the pasted cells away."
            )));
            return Task::none();
        }
        let Some(pasted) = self.pasted.take() else {
            return Task::none();
        };
        for step in &pasted.steps {
            for column in &step.columns {
                self.grid.settle(step.row, *column);
            }
        }
        for (row, column) in &pasted.same {
            self.grid.settle(*row, *column);
        }
        for row in self.grid.rows_with_drafts() {
            self.hold(row, facts);
        }
        let n = pasted.steps.len();
        let words = match n {
            0 => "All of it stood already.".to_owned(),
            1 => "1 pasted attempt is recorded.".to_owned(),
            n => format!("{n} pasted attempts are recorded."),
        };
        if n > 0 || pasted.differs == 0 {
            self.said = Some(Ok(words));
        }
        if pasted.differs > 0 {
            self.compare(0);
            return Task::none();
        }
        grid::focus(FIELD)
    }

    /// Whether something is asked that [`Cards::foresee`] answers.
    pub fn asks_ahead(&self) -> bool {
        self.pasted.is_some() || matches!(self.open, Open::Compare(_))
    }

    /// Works out whether pasted cells would be refused, and what a correction
    /// would change.
    pub fn foresee(&mut self, day: &Day, context: &Context) {
        if let Some(pasted) = &mut self.pasted {
            try_pasted(pasted, day, context);
        }
        if let Open::Compare(compare) = &mut self.open {
            let cases = compare::cases(day.facts(), &self.grid);
            if let Some(case) = cases.get(compare.at) {
                compare.foresee(case, day, context);
            }
        }
    }
}

fn try_pasted(pasted: &mut Pasted, day: &Day, context: &Context) {
    let seq = day.next_seq();
    if pasted.tried.as_ref().is_some_and(|(at, _)| *at == seq) {
        return;
    }
    let commands: Vec<Command> = pasted.steps.iter().map(|s| s.command.clone()).collect();
    let answer = tell::trial(day, &commands, context).map(drop);
    let answer = answer.map_err(|(at, sentence)| match pasted.steps.get(at) {
        Some(step) => format!("{}: {sentence}", step.place),
        None => sentence,
    });
    pasted.tried = Some((seq, answer));
}

/// The list of cards, and what differs.
impl Cards {
    pub(super) fn turn_list(&mut self, facts: &Facts) {
        if matches!(self.open, Open::List(_)) {
            self.open = Open::Card;
            return;
        }
        self.hand_in_row_in_hand(facts);
        let cards = card::all(facts);
        let at = cards.iter().position(|id| Some(id) == self.card.as_ref());
        self.open = Open::List(at.unwrap_or(0));
    }

    pub(super) fn turn_compare(&mut self, facts: &Facts) {
        if matches!(self.open, Open::Compare(_)) {
            self.open = Open::Card;
            return;
        }
        self.hand_in_row_in_hand(facts);
        if self.differing(facts) == 0 {
            let sentence = "Nothing that is typed differs from what stands.";
            self.said = Some(Ok(sentence.to_owned()));
        } else {
            self.compare(0);
        }
    }

    fn compare(&mut self, at: usize) {
        self.open = Open::Compare(Box::new(Compare::at(at)));
    }

    pub(super) fn moved(&mut self, by: i32, facts: &Facts) {
        let many = self.differing(facts);
        match &mut self.open {
            Open::Card => {}
            Open::List(at) => *at = list::moved(*at, by, card::all(facts).len()),
            Open::Compare(compare) if by.abs() > 1 => compare.page(by > 0),
            Open::Compare(compare) => compare.turn(by > 0, many),
        }
    }

    pub(super) fn entered(&mut self, facts: &Facts) {
        if let Open::List(at) = self.open
            && let Some(card) = card::all(facts).get(at)
        {
            self.take_up(card.clone(), facts);
        }
    }

    /// The case that is compared.
    pub(super) fn case(&self, facts: &Facts) -> Option<Case> {
        let Open::Compare(compare) = &self.open else {
            return None;
        };
        let mut cases = compare::cases(facts, &self.grid);
        (compare.at < cases.len()).then(|| cases.swap_remove(compare.at))
    }

    pub(super) fn keep(&mut self, facts: &Facts) {
        let Some(case) = self.case(facts) else { return };
        for column in &case.differs.columns {
            self.grid.settle(case.row, *column);
        }
        let _ = self.settle_compare(facts);
        self.said = Some(Ok(format!(
            "Attempt {} of {} stays as it stands, {}.",
            case.differs.attempt, case.who, case.differs.stands
        )));
    }

    pub(super) fn correct(&mut self, facts: &Facts) {
        let Some(case) = self.case(facts) else { return };
        // A refusal says so in its place.
        self.said = Some(Ok(format!(
            "Attempt {} of {} is corrected to {}.",
            case.differs.attempt, case.who, case.differs.card
        )));
        self.waiting.push(Handed {
            row: case.row,
            columns: case.differs.columns,
            what: case.differs.command,
        });
    }

    /// Goes back to the card where nothing differs any longer.
    pub(super) fn settle_compare(&mut self, facts: &Facts) -> Task<Message> {
        let many = self.differing(facts);
        match &mut self.open {
            Open::Compare(_) if many == 0 => {
                self.open = Open::Card;
                grid::focus(FIELD)
            }
            Open::Compare(compare) => {
                compare.at = compare.at.min(many - 1);
                Task::none()
            }
            Open::Card | Open::List(_) => Task::none(),
        }
    }
}
