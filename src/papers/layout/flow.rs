//! Pieces onto slots: where pages end.

use std::rc::Rc;

use super::page::Item;

/// What is repeated above a piece that begins a page: column headings, and the
/// heading of the group that goes on.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Resume {
    pub height: f32,
    pub items: Vec<Item>,
}

/// Something that is never broken: a line, a row, a form.
///
/// Its items are placed from its own top left corner.
#[derive(Debug, Clone, Default)]
pub(super) struct Piece {
    pub height: f32,
    /// Space above it, dropped at the head of a slot.
    pub gap: f32,
    pub items: Vec<Item>,
    /// Whether it stays with the next piece.
    pub keep: bool,
    /// Whether it stays with the next piece unless both are part of something
    /// taller than a slot.
    pub together: bool,
    /// Whether it begins a new slot.
    pub fresh: bool,
    pub resume: Option<Rc<Resume>>,
}

/// The pieces of one page, or of one card.
#[derive(Debug, Clone, Default)]
pub(super) struct Slot {
    pub items: Vec<Item>,
    /// How much of its height is used.
    pub used: f32,
}

/// How tightly pieces hold together.
#[derive(Debug, Clone, Copy)]
enum Bond {
    Together,
    Keep,
    None,
}

impl Bond {
    fn holds(self, piece: &Piece) -> bool {
        match self {
            Self::Together => piece.keep || piece.together,
            Self::Keep => piece.keep,
            Self::None => false,
        }
    }

    fn looser(self) -> Self {
        match self {
            Self::Together => Self::Keep,
            Self::Keep | Self::None => Self::None,
        }
    }
}

/// Fills slots of the given height; at least one, and none without a piece but
/// the first.
pub(super) fn flow(pieces: Vec<Piece>, height: f32) -> Vec<Slot> {
    let mut flow = Flow {
        height,
        done: Vec::new(),
        slot: Slot::default(),
        begun: false,
    };
    flow.place(pieces, Bond::Together);
    flow.done.push(flow.slot);
    flow.done
}

struct Flow {
    height: f32,
    done: Vec<Slot>,
    slot: Slot,
    /// Whether the slot has a piece.
    begun: bool,
}

impl Flow {
    fn place(&mut self, pieces: Vec<Piece>, bond: Bond) {
        let mut chain = Vec::new();
        for piece in pieces {
            if piece.fresh {
                self.place_chain(std::mem::take(&mut chain), bond);
                self.turn();
            }
            let held = bond.holds(&piece);
            chain.push(piece);
            if !held {
                self.place_chain(std::mem::take(&mut chain), bond);
            }
        }
        self.place_chain(chain, bond);
    }

    fn place_chain(&mut self, chain: Vec<Piece>, bond: Bond) {
        if chain.is_empty() {
            return;
        }
        let tall: f32 = chain.iter().map(|p| p.gap + p.height).sum();
        let first = chain.first().map_or(0.0, |p| p.gap);
        let resume = chain.first().and_then(|p| p.resume.as_ref());
        let fresh = tall - first + resume.map_or(0.0, |r| r.height);
        let needed = if self.begun { tall } else { fresh };
        if self.slot.used + needed <= self.height + 0.01 {
            chain.into_iter().for_each(|piece| self.put(piece));
        } else if fresh <= self.height || chain.len() == 1 {
            self.turn();
            chain.into_iter().for_each(|piece| self.put(piece));
        } else {
            self.place(chain, bond.looser());
        }
    }

    /// Ends the slot, if it has a piece.
    fn turn(&mut self) {
        if self.begun {
            self.done.push(std::mem::take(&mut self.slot));
            self.begun = false;
        }
    }

    fn put(&mut self, piece: Piece) {
        if self.begun {
            self.slot.used += piece.gap;
        } else if let Some(resume) = &piece.resume {
            let moved = resume.items.iter().cloned();
            self.slot.items.extend(moved);
            self.slot.used += resume.height;
        }
        let top = self.slot.used;
        let moved = piece.items.into_iter().map(|item| item.moved(0.0, top));
        self.slot.items.extend(moved);
        self.slot.used += piece.height;
        self.begun = true;
    }
}
