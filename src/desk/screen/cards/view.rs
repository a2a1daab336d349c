//! The card grid on the screen.

use iced::widget::{button, column, container, row, text};
use iced::{Element, Fill};

use super::card::{self, CardId, Count};
use super::paste::Pasted;
use super::sheet::CardSheet;
use super::{Cards, FIELD, Message, Open};
use crate::day::Facts;
use crate::desk::see;
use crate::desk::theme::{self, size};
use crate::desk::widget::grid::{self, Shown};
use crate::desk::widget::next;

impl Cards {
    /// Shows the card in hand.
    pub fn view<'a>(&'a self, facts: &'a Facts) -> Element<'a, Message> {
        let Some(card) = &self.card else {
            if facts.entries.is_empty() {
                return next::alone(facts);
            }
            let words = "No card is in hand; press PageDown.";
            return container(text(words).size(size::LARGE)).padding(24).into();
        };
        match &self.open {
            Open::Card => {}
            Open::List(at) => return self.list(facts, *at),
            Open::Compare(compare) => return self.compared(facts, compare),
        }
        let count = Count::of(facts, card);
        let title = format!(
            "Rack card: {}, {}",
            card::words(facts, &card.session, &card.flight),
            see::lift_name(&card.slot)
        );
        let head = row![
            text(title)
                .size(size::TITLE)
                .font(crate::desk::font::BOLD)
                .width(Fill),
            text(self.waits(facts))
                .size(size::BODY)
                .style(theme::text::warning),
        ]
        .spacing(size::GAP);
        let sheet = CardSheet::new(facts, card);
        let said = self.said.clone();
        let said = said.or_else(|| self.pasted.as_ref().map(Pasted::line));
        let warning = matches!(said, Some(Err(_)));
        let line = match said {
            Some(Ok(sentence) | Err(sentence)) => sentence,
            None => sheet.line(&self.grid),
        };
        let shown = Shown {
            id: FIELD,
            line,
            warning,
        };
        column![
            head,
            strip(facts, card),
            text(count.sentence()).size(size::BODY),
            grid::view(&self.grid, sheet, shown, Message::Grid),
            text(
                "Enter or leaving the row records it; Ctrl+V pastes cells. PageDown and PageUp: \
                 other flights. Ctrl+PageDown: next lift. Ctrl+J: all cards. Home, then a lot: \
                 go to it. F6: the call line."
            )
            .size(size::SMALL)
            .style(theme::text::muted),
        ]
        .spacing(6)
        .padding([10, 14])
        .into()
    }

    /// What isn't durable on other rows and cards.
    fn waits(&self, facts: &Facts) -> String {
        let waiting = self.waiting.len();
        let differing = match self.pasted {
            Some(_) => 0,
            None => self.differing(facts),
        };
        match (waiting, differing) {
            (2.., _) => format!("{waiting} attempts are being recorded."),
            (_, 0) => String::new(),
            (_, 1) => "1 attempt differs from what stands: Ctrl+D.".to_owned(),
            (_, n) => format!("{n} attempts differ from what stands: Ctrl+D."),
        }
    }
}

/// The flights' cards of this slot, and the slots, with how many attempts are
/// in.
fn strip<'a>(facts: &'a Facts, card: &'a CardId) -> Element<'a, Message> {
    let here = |same: bool| {
        if same {
            theme::button::tab_in_hand
        } else {
            theme::button::tab
        }
    };
    let slots = facts.slots.iter().map(|line| {
        let to = CardId {
            slot: line.slot.clone(),
            ..card.clone()
        };
        let same = to == *card;
        button(text(see::lift_name(&line.slot)).size(size::BODY))
            .padding([3, 10])
            .style(here(same))
            .on_press(Message::Open(to))
            .into()
    });
    let flights = card::flights(facts).into_iter().map(|(session, flight)| {
        let to = CardId {
            session,
            flight,
            slot: card.slot.clone(),
        };
        let count = Count::of(facts, &to);
        let name = if to.flight.is_empty() {
            "none"
        } else {
            &to.flight
        };
        let label = if facts.sessions.len() > 1 {
            format!("{}/{name} {} of {}", to.session, count.entered, count.all)
        } else {
            format!("{name} {} of {}", count.entered, count.all)
        };
        let same = to == *card;
        button(text(label).size(size::BODY))
            .padding([3, 10])
            .style(here(same))
            .on_press(Message::Open(to))
            .into()
    });
    column![row(slots).spacing(4), row(flights).spacing(4).wrap()]
        .spacing(4)
        .into()
}
