//! The flights on the screen.

use iced::widget::text::Wrapping;
use iced::widget::{
    Column, button, column, container, row, scrollable, text, text_input,
};
use iced::{Element, Fill};

use super::sheet::FlightSheet;
use super::{FIELD, Flights, Message, PLAN, plan};
use crate::day::{Facts, FlightPlan, Proposal};
use crate::desk::action::{Action, key_words};
use crate::desk::font;
use crate::desk::theme::{self, size};
use crate::desk::widget::field::steady;
use crate::desk::widget::grid::{self, Shown};
use crate::desk::widget::lamp::cell;
use crate::desk::widget::next;

/// The width of a flight's column of names.
const FLIGHT_WIDTH: f32 = 260.0;

impl Flights {
    /// Shows the proposal, or the flights by hand.
    pub fn view<'a>(&'a self, facts: &'a Facts) -> Element<'a, Message> {
        if facts.entries.is_empty() {
            return next::alone(facts);
        }
        let tab = |label: &'static str, in_hand: bool| {
            let style = if in_hand {
                theme::button::tab_in_hand
            } else {
                theme::button::tab
            };
            button(text(label).size(size::BODY))
                .padding([3, 10])
                .style(style)
                .on_press_maybe((!in_hand).then_some(Message::Turned))
        };
        let head = row![
            text("Flights")
                .size(size::TITLE)
                .font(font::BOLD)
                .width(Fill),
            tab("Proposal", !self.by_hand),
            tab("By hand", self.by_hand),
        ]
        .spacing(size::GAP)
        .align_y(iced::Center);
        let body = if self.by_hand {
            self.hand(facts)
        } else {
            self.proposal(facts)
        };
        column![head, body, self.foot(facts),]
            .spacing(6)
            .padding([10, 14])
            .into()
    }

    /// What Ctrl+F does; once there are flights, what comes next.
    fn foot<'a>(&self, facts: &Facts) -> Element<'a, Message> {
        let turn = key_words(Action::PlanOrHand);
        let turn = if self.by_hand {
            format!("{turn}: a proposal for all flights.")
        } else {
            format!("{turn}: the flights by hand.")
        };
        let turn = text(turn).size(size::SMALL).style(theme::text::muted);
        if self.by_hand {
            column![next::line(facts), turn].spacing(6).into()
        } else {
            turn.into()
        }
    }

    fn hand<'a>(&'a self, facts: &'a Facts) -> Element<'a, Message> {
        let sheet = FlightSheet::new(facts);
        let line = sheet.line(&self.grid);
        let shown = Shown {
            id: FIELD,
            line,
            warning: false,
        };
        column![
            text(sizes(facts)).size(size::BODY),
            grid::view(&self.grid, sheet, shown, Message::Grid),
        ]
        .spacing(6)
        .into()
    }

    fn proposal<'a>(&'a self, facts: &'a Facts) -> Element<'a, Message> {
        let typed = self.plan_text(facts);
        let field = text_input("1 by strength on 1 2 from A", &typed)
            .id(PLAN)
            .on_input(Message::PlanTyped)
            .on_submit(Message::Accepted)
            .size(size::LARGE)
            .padding([6, 8])
            .style(theme::field::plain);
        let read = plan::read_plan(facts, &typed);
        let (sentence, good) = match (&self.refused, &read) {
            (Some(refused), _) => (refused.clone(), false),
            (None, Ok(plan)) => {
                let proposal = plan.propose(facts);
                let good = plan.accept(facts, &proposal).is_ok();
                (plan.sentence(facts, &proposal), good)
            }
            (None, Err(sentence)) => (sentence.clone(), false),
        };
        let style = if good {
            theme::text::promise
        } else {
            theme::text::warning
        };
        let columns: Element<'a, Message> = match &read {
            Ok(plan) => proposed(facts, &plan.propose(facts)),
            Err(_) => text("").into(),
        };
        column![
            text("Session, by strength, rack, sex or category, on platforms, from a letter:")
                .size(size::SMALL)
                .style(theme::text::muted),
            steady(field),
            text(sentence).size(size::BODY + 1.0).style(style),
            container(columns).height(Fill),
        ]
        .spacing(6)
        .into()
    }
}

/// One column of names a flight.
fn proposed<'a>(facts: &'a Facts, proposal: &Proposal) -> Element<'a, Message> {
    let flights = proposal
        .flights
        .iter()
        .map(|flight| one_flight(facts, flight));
    scrollable(row(flights).spacing(size::GAP).wrap())
        .width(Fill)
        .height(Fill)
        .into()
}

fn one_flight<'a>(facts: &'a Facts, flight: &FlightPlan) -> Element<'a, Message> {
    let head = format!(
        "Flight {}, {}",
        flight.name,
        facts.platform_label(flight.platform)
    );
    let about = format!(
        "{} athletes, {} minutes",
        flight.numbers.len(),
        flight.minutes
    );
    let names = flight.numbers.iter().map(|number| {
        let name = facts
            .entry_by_number(*number)
            .map(|entry| grid::shortened(&entry.name(), FLIGHT_WIDTH - 56.0, false));
        row![
            cell(number.to_string(), 38, size::BODY, false, true),
            cell(name.unwrap_or_default(), Fill, size::BODY, false, false),
        ]
        .spacing(8)
        .into()
    });
    container(
        column![
            text(head)
                .size(size::BODY)
                .font(font::BOLD)
                .wrapping(Wrapping::None),
            text(about).size(size::SMALL).style(theme::text::muted),
            Column::with_children(names),
        ]
        .spacing(2),
    )
    .width(FLIGHT_WIDTH)
    .padding(8)
    .clip(true)
    .style(theme::container::panel)
    .into()
}

/// How large the flights are now, as a sentence.
fn sizes(facts: &Facts) -> String {
    let mut flights: Vec<_> = facts.flights.iter().collect();
    flights.sort_by_key(|flight| (&flight.session, &flight.name));
    let mut parts: Vec<String> = flights
        .into_iter()
        .map(|flight| {
            (
                flight,
                facts.entries_of(&flight.session, &flight.name).count(),
            )
        })
        .filter(|(_, many)| *many > 0)
        .map(|(flight, many)| {
            let platform = facts.platform_label(flight.platform);
            if facts.sessions.len() > 1 {
                format!("{}/{}: {many} on {platform}", flight.session, flight.name)
            } else {
                format!("{}: {many} on {platform}", flight.name)
            }
        })
        .collect();
    let none = facts
        .entries
        .values()
        .filter(|e| e.flight.is_empty())
        .count();
    if none > 0 {
        parts.push(format!("no flight: {none}"));
    }
    if parts.is_empty() {
        "There is no flight yet.".to_owned()
    } else {
        format!("{}.", parts.join("; "))
    }
}
