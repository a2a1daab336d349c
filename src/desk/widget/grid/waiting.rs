//! What was handed in and waits for its turn or its answer.

use std::collections::VecDeque;

use super::model::Grid;

/// Something that was typed and is to be made durable.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Handed<C> {
    /// The row's name.
    pub row: u32,
    /// The columns that it was typed in; never none.
    pub columns: Vec<usize>,
    /// What is to be done.
    pub what: C,
}

/// The line of what waits; one goes out at a time.
///
/// Limits: whatever is on its way isn't handed in twice.
#[derive(Debug, Clone)]
pub struct Waiting<C> {
    line: VecDeque<Handed<C>>,
    sent: Option<Handed<C>>,
}

impl<C> Default for Waiting<C> {
    fn default() -> Self {
        Self {
            line: VecDeque::new(),
            sent: None,
        }
    }
}

impl<C: Clone> Waiting<C> {
    /// Puts something at the end of the line, unless it is on its way.
    pub fn push(&mut self, handed: Handed<C>) {
        let on_its_way = self
            .sent
            .iter()
            .chain(&self.line)
            .any(|w| w.row == handed.row && w.columns == handed.columns);
        if !on_its_way {
            self.line.push_back(handed);
        }
    }

    /// How many are on their way.
    pub fn len(&self) -> usize {
        self.line.len() + usize::from(self.sent.is_some())
    }

    /// Whether nothing is on its way.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The next to go out; `None` while an answer is owed.
    pub fn send(&mut self) -> Option<C> {
        if self.sent.is_some() {
            return None;
        }
        let next = self.line.pop_front()?;
        let what = next.what.clone();
        self.sent = Some(next);
        Some(what)
    }

    /// Takes the answer: what is durable is no draft any longer; what is
    /// refused stays typed, and what follows it in its row goes no further.
    ///
    /// Gives back what was answered.
    pub fn answered(
        &mut self,
        answer: &Result<(), String>,
        grid: &mut Grid,
    ) -> Option<Handed<C>> {
        let sent = self.sent.take()?;
        match answer {
            Ok(()) => {
                for column in &sent.columns {
                    grid.settle(sent.row, *column);
                }
            }
            Err(sentence) => {
                let typed = |c: &&usize| grid.draft(sent.row, **c).is_some();
                let at = sent.columns.iter().find(typed).or(sent.columns.first());
                if let Some(at) = at.copied() {
                    grid.refuse(sent.row, at, sentence.clone());
                }
                self.line.retain(|w| w.row != sent.row);
            }
        }
        Some(sent)
    }
}
