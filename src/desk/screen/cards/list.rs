//! The list of all cards with what is missing, and two readings of an attempt
//! side by side, on the screen.

use iced::widget::{Column, button, column, container, row, text};
use iced::{Element, Fill, FillPortion};

use super::card::{self, Count};
use super::compare::{CHANGES, Case, Compare};
use super::{Cards, Message};
use crate::day::Facts;
use crate::desk::theme::{self, size};
use crate::desk::widget::lamp::{cell, hair, heading, heavy};
use crate::desk::widget::list;
use crate::desk::{font, see};

impl Cards {
    /// All cards, the one at `at` in hand.
    pub(super) fn list<'a>(
        &'a self,
        facts: &'a Facts,
        at: usize,
    ) -> Element<'a, Message> {
        let cards = card::all(facts);
        let short = cards.iter().filter(|id| Count::of(facts, id).is_short());
        let title = format!(
            "{} of {} rack cards aren't full yet",
            short.count(),
            cards.len()
        );
        let head = row![
            cell("Card", 330, size::SMALL, false, false),
            cell("Lift", 170, size::SMALL, false, false),
            cell("Attempts in", 110, size::SMALL, false, false),
            cell("What is missing", Fill, size::SMALL, false, false),
        ];
        let total = cards.len();
        let rows = list::view(total, at, move |n| match cards.get(n) {
            Some(id) => {
                let count = Count::of(facts, id);
                let missing = match (count.is_short(), count.all) {
                    (false, 0) => "nobody is there".to_owned(),
                    (false, _) => "nothing".to_owned(),
                    (true, _) => count.missing(),
                };
                let bold = n == at;
                let in_words = format!("{} of {}", count.entered, count.all);
                let words = card::words(facts, &id.session, &id.flight);
                let line = row![
                    cell(words, 330, size::BODY, bold, false),
                    cell(see::lift_name(&id.slot), 170, size::BODY, bold, false),
                    cell(in_words, 110, size::BODY, bold, false),
                    cell(missing, Fill, size::BODY, bold, false),
                ];
                list::pickable(line, bold, Message::Open(id.clone()))
            }
            None => text("").into(),
        });
        column![
            text(title).size(size::TITLE).font(font::BOLD),
            container(head).padding([0, 6]),
            heavy(2.0),
            rows,
            text("Up and Down: another card. Enter: type it. Esc or Ctrl+J: back.")
                .size(size::SMALL)
                .style(theme::text::muted),
        ]
        .spacing(6)
        .padding([10, 14])
        .into()
    }

    /// One attempt as it stands and as the card says it.
    pub(super) fn compared<'a>(
        &'a self,
        facts: &'a Facts,
        compare: &'a Compare,
    ) -> Element<'a, Message> {
        let many = self.differing(facts);
        let Some(case) = self.case(facts) else {
            return text("Nothing differs from what stands; Esc goes back.")
                .size(size::LARGE)
                .into();
        };
        let title = format!(
            "Card and record differ, {} of {many}: {}, {}, attempt {}",
            compare.at + 1,
            case.who,
            see::lift_name(&case.slot),
            case.differs.attempt
        );
        let (said, style): (String, fn(&iced::Theme) -> _) = match &self.said {
            Some(Err(sentence)) => (format!("Refused. {sentence}"), theme::text::warning),
            Some(Ok(sentence)) => (sentence.clone(), theme::text::promise),
            None => (String::new(), theme::text::promise),
        };
        column![
            text(title).size(size::TITLE).font(font::BOLD),
            sides(&case),
            changes(compare),
            text(said).size(size::BODY).style(style),
            text(
                "K keeps what stands. C corrects it to what the card says. Up and Down: \
                 others that differ. Esc: back to the card, undecided."
            )
            .size(size::SMALL)
            .style(theme::text::muted),
        ]
        .spacing(12)
        .padding([10, 14])
        .into()
    }
}

fn sides<'a>(case: &Case) -> Element<'a, Message> {
    let side = |title: &str, what: &str, below: String, label: &str, does: Message| {
        column![
            heading(title.to_owned()),
            heavy(2.0),
            text(what.to_owned())
                .size(size::TITLE + 8.0)
                .font(font::BOLD),
            text(below).size(size::SMALL).style(theme::text::muted),
            button(text(label.to_owned()).size(size::BODY))
                .padding([4, 12])
                .style(theme::button::plain)
                .on_press(does),
        ]
        .spacing(6)
        .width(FillPortion(1))
    };
    let differs = &case.differs;
    row![
        side(
            "Stands",
            &differs.stands,
            case.typed.clone(),
            "K Keep what stands",
            Message::Keep
        ),
        side(
            "The card says",
            &differs.card,
            "typed or pasted now; not recorded".to_owned(),
            "C Correct to the card",
            Message::Correct
        ),
    ]
    .spacing(28)
    .into()
}

/// What correcting would change.
fn changes<'a>(compare: &'a Compare) -> Element<'a, Message> {
    let mut lines = Column::new()
        .spacing(3)
        .width(Fill)
        .push(heading("Correcting it would change"))
        .push(hair());
    let say = |words: String| text(words).size(size::BODY);
    match compare.changes() {
        None => {}
        Some(Err(sentence)) => {
            let words = format!("It would be refused. {sentence}");
            lines = lines.push(say(words).style(theme::text::warning));
        }
        Some(Ok(changes)) if changes.is_empty() => {
            lines = lines.push(say("No best, total, place, queue or record.".to_owned()));
        }
        Some(Ok(changes)) => {
            for change in changes.iter().skip(compare.from).take(CHANGES) {
                lines = lines.push(say(change.clone()));
            }
            if changes.len() > CHANGES {
                let last = changes.len().min(compare.from + CHANGES);
                let words = format!(
                    "{} to {last} of {}; PageDown and PageUp show the others.",
                    compare.from + 1,
                    changes.len()
                );
                lines = lines.push(text(words).size(size::SMALL));
            }
        }
    }
    lines.into()
}
