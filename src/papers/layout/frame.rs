//! The paper and what stands at the head and foot of every page.

use super::factor;
use super::page::{Item, Page, Pen};
use super::text::{self, Type};
use crate::papers::fonts::{CAP_HEIGHT, Face};
use crate::papers::picture::Image;

/// Blank edge on all sides: 12 mm.
const MARGIN: f32 = 34.02;

/// From the foot of the body to the lower margin.
const FOOT: f32 = 22.0;
const FOOT_SIZE: f32 = 10.0;

/// Height of a line of the state above the foot, and most lines of it.
const STATE_LINE: f32 = 12.0;
const STATE_LINES: usize = 3;

const TITLE_SIZE: f32 = 24.0;
const DAY_SIZE: f32 = 11.0;
const VENUE_SIZE: f32 = 10.0;
const SLIM_SIZE: f32 = 12.0;
const BARE_SIZE: f32 = 6.5;

/// The box of the picture at the left of a full head, and the blank behind it: the
/// texts begin beside it, so that nothing comes to lie on it.
const PICTURE: (f32, f32) = (84.0, 40.0);
const BESIDE_PICTURE: f32 = 8.0;

/// Least blank between two texts on a line.
const BETWEEN: f32 = 12.0;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 8.5 by 11 inches.
    Letter,
    /// 210 by 297 mm (ISO 216).
    A4,
}

impl Paper {
    /// Reads `letter` or `a4`, in any case.
    pub fn parse(text: &str) -> Option<Self> {
        match text.trim().to_lowercase().as_str() {
            "letter" => Some(Self::Letter),
            "a4" => Some(Self::A4),
            _ => None,
        }
    }

    /// Width and height upright, in points.
    pub const fn upright(self) -> (f32, f32) {
        match self {
            Self::Letter => (612.0, 792.0),
            Self::A4 => (595.276, 841.89),
        }
    }
}

/// How much stands at the head of a page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Head {
    /// Two lines: the day and the date, then the title in large type.
    Full,
    /// One line, for forms that need the room.
    Slim,
    /// Nothing, for cards that are cut apart.
    None,
    /// Nothing, and at the foot only for whom, very small, for what is handed out.
    Bare,
}

/// The paper, and the words at the head and foot of every page.
///
/// All words come from the caller; an empty one leaves its place blank. One that
/// is too long for its place is cut short.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Frame {
    /// Size of the paper.
    pub paper: Paper,
    /// Whether the long edge lies level.
    pub landscape: bool,
    /// How much stands at the head.
    pub head: Head,
    /// What the paper is, such as `Results`.
    pub title: String,
    /// The school's name, before the day's.
    pub school: String,
    /// The school's picture, at the left of a full head.
    pub picture: Option<Image>,
    /// The day's name.
    pub day: String,
    /// The date as printed.
    pub date: String,
    /// The venue or another remark.
    pub venue: String,
    /// Which state of the day it shows, such as `Provisional`, in lines of its
    /// own above the foot.
    pub state: String,
    /// When it was made, such as `printed 14:05, 2026-11-14`.
    pub made: String,
    /// Who it is for, such as `Private` or `For posting`.
    pub audience: String,
}

impl Frame {
    /// An upright paper with a full head that names only its title.
    pub fn new(paper: Paper, title: impl Into<String>) -> Self {
        Self {
            paper,
            landscape: false,
            head: Head::Full,
            title: title.into(),
            school: String::new(),
            picture: None,
            day: String::new(),
            date: String::new(),
            venue: String::new(),
            state: String::new(),
            made: String::new(),
            audience: String::new(),
        }
    }

    /// The same, with the long edge level.
    #[must_use]
    pub fn landscape(mut self) -> Self {
        self.landscape = true;
        self
    }

    /// The same, with another head.
    #[must_use]
    pub fn head(mut self, head: Head) -> Self {
        self.head = head;
        self
    }

    /// The same, for a day of this name and date.
    #[must_use]
    pub fn day(mut self, name: impl Into<String>, date: impl Into<String>) -> Self {
        self.day = name.into();
        self.date = date.into();
        self
    }

    /// The same, at a school of this name and with this picture.
    #[must_use]
    pub fn school(mut self, name: impl Into<String>, picture: Option<Image>) -> Self {
        self.school = name.into();
        self.picture = picture;
        self
    }

    /// The same, with a venue or remark.
    #[must_use]
    pub fn venue(mut self, venue: impl Into<String>) -> Self {
        self.venue = venue.into();
        self
    }

    /// The same, with the words of the foot: when it was made and who it is for.
    #[must_use]
    pub fn foot(mut self, made: impl Into<String>, audience: impl Into<String>) -> Self {
        self.made = made.into();
        self.audience = audience.into();
        self
    }

    /// The same, saying above the foot which state of the day it shows.
    #[must_use]
    pub fn state(mut self, words: impl Into<String>) -> Self {
        self.state = words.into();
        self
    }

    /// Width and height of the paper as it lies, in points.
    pub fn size(&self) -> (f32, f32) {
        let (width, height) = self.paper.upright();
        if self.landscape {
            (height, width)
        } else {
            (width, height)
        }
    }

    /// Width and height of the body between head and foot, in points.
    pub fn body(&self) -> (f32, f32) {
        let (width, height) = self.size();
        (
            width - 2.0 * MARGIN,
            height - 2.0 * MARGIN - FOOT - self.state_height() - self.head_height(),
        )
    }

    /// The lines of the state.
    fn state_lines(&self) -> Vec<String> {
        if self.state.is_empty() {
            return Vec::new();
        }
        let width = self.size().0 - 2.0 * MARGIN;
        let words = text::clean(&self.state);
        text::wrap_at_most(&words, FOOT_SIZE, Face::Bold, width, STATE_LINES)
    }

    fn state_height(&self) -> f32 {
        STATE_LINE * factor(self.state_lines().len())
    }

    fn head_height(&self) -> f32 {
        match self.head {
            Head::Full => 52.0,
            Head::Slim => 24.0,
            Head::None | Head::Bare => 0.0,
        }
    }

    /// Page `number` of `count` with the body's marks, which are placed from
    /// the body's top left corner.
    pub(super) fn page(&self, number: usize, count: usize, body: Vec<Item>) -> Page {
        let (width, height) = self.size();
        let mut items = self.head_items(width);
        let top = MARGIN + self.head_height();
        items.extend(body.into_iter().map(|item| item.moved(MARGIN, top)));
        self.foot_items(width, height, number, count, &mut items);
        Page {
            width,
            height,
            items,
        }
    }

    fn head_items(&self, width: f32) -> Vec<Item> {
        let (edge, right) = (MARGIN, width - MARGIN);
        let mut left = edge;
        let mut items = Vec::new();
        let named = [self.school.as_str(), &self.day];
        let named: Vec<&str> = named.into_iter().filter(|w| !w.is_empty()).collect();
        let named = named.join(" · ");
        match self.head {
            Head::Full => {
                if let Some(image) = &self.picture {
                    let (w, h) = image.within(PICTURE.0, PICTURE.1);
                    items.push(Item::Picture {
                        x: left,
                        y: MARGIN + (PICTURE.1 - h) / 2.0,
                        w,
                        h,
                        image: image.clone(),
                    });
                    left += w + BESIDE_PICTURE;
                }
                let y = MARGIN + DAY_SIZE * CAP_HEIGHT;
                let day = Type::bold(DAY_SIZE);
                let date = Type::black(DAY_SIZE);
                pair(
                    &mut items,
                    (left, right, y),
                    (day, &named),
                    (date, &self.date),
                );
                let y = MARGIN + 35.0;
                let title = Type::bold(TITLE_SIZE);
                let venue = Type::grey(VENUE_SIZE);
                pair(
                    &mut items,
                    (left, right, y),
                    (title, &self.title),
                    (venue, &self.venue),
                );
                items.push(Item::rule(edge, right, MARGIN + 44.0, Pen::Heavy));
            }
            Head::Slim => {
                let y = MARGIN + SLIM_SIZE * CAP_HEIGHT;
                let (title, remark) = (Type::bold(SLIM_SIZE), Type::black(VENUE_SIZE));
                let beside = right - left - title.width(&text::clean(&self.title));
                let room = (beside - BETWEEN).max((right - left) * 0.45);
                let remarks = self.remarks(&named, remark, room);
                pair(
                    &mut items,
                    (left, right, y),
                    (title, &self.title),
                    (remark, &remarks),
                );
                items.push(Item::rule(left, right, MARGIN + 15.0, Pen::Heavy));
            }
            Head::None | Head::Bare => {}
        }
        items
    }

    /// Day, date and venue on one line; the date is never cut, the venue has at
    /// most half of the rest where not all have room. Where the day's name doesn't
    /// fit, first the weekday goes, then the school; only then is it cut.
    fn remarks(&self, named: &str, set: Type, room: f32) -> String {
        let dot = " · ";
        let wide = |words: &str| set.width(&text::clean(words));
        let alone = self.date.split_once(", ");
        let alone = alone.map_or(self.date.as_str(), |(_, date)| date);
        let day = Some(self.day.as_str()).filter(|day| !day.is_empty());
        let shorter = [
            (named, self.date.as_str()),
            (named, alone),
            (day.unwrap_or(named), alone),
        ];
        let venue = if self.venue.is_empty() {
            0.0
        } else {
            wide(&self.venue).min(room / 3.0) + wide(dot)
        };
        let fits = |(named, date): &(&str, &str)| {
            wide(named) + wide(dot) + wide(date) + venue <= room
        };
        let (named, date) = shorter.into_iter().find(fits).unwrap_or(shorter[2]);
        let dots = 1 + usize::from(!self.venue.is_empty());
        let fixed = wide(date) + factor(dots) * wide(dot);
        let rest = (room - fixed).max(0.0);
        let venue = wide(&self.venue).min((rest / 2.0).max(rest - wide(named)));
        let parts = [
            set.shorten(named, rest - venue + 0.1),
            date.to_owned(),
            set.shorten(&self.venue, venue + 0.1),
        ];
        let parts: Vec<String> = parts.into_iter().filter(|w| !w.is_empty()).collect();
        parts.join(dot)
    }

    fn foot_items(
        &self,
        width: f32,
        height: f32,
        number: usize,
        count: usize,
        items: &mut Vec<Item>,
    ) {
        let (left, right) = (MARGIN, width - MARGIN);
        let y = height - MARGIN;
        if self.head == Head::Bare {
            if !self.audience.is_empty() {
                let set = Type::grey(BARE_SIZE);
                items.push(set.at(left, y, set.shorten(&self.audience, right - left)));
            }
            return;
        }
        let third = (right - left) / 3.0 - 6.0;
        let (bold, plain) = (Type::bold(FOOT_SIZE), Type::grey(FOOT_SIZE));
        if self.head != Head::None {
            items.push(Item::rule(left, right, y - 12.5, Pen::Hair));
        }
        let state = self.state_lines();
        let top = y - 17.0 - STATE_LINE * factor(state.len().saturating_sub(1));
        for (index, line) in state.into_iter().enumerate() {
            items.push(bold.at(left, top + STATE_LINE * factor(index), line));
        }
        if !self.audience.is_empty() {
            items.push(bold.at(left, y, bold.shorten(&self.audience, third)));
        }
        if !self.made.is_empty() {
            let made = plain.shorten(&self.made, third);
            items.push(plain.around(f32::midpoint(left, right), y, made));
        }
        items.push(plain.ending_at(right, y, format!("page {number} of {count}")));
    }
}

/// One text flush left and one flush right on a baseline.
///
/// The right one may take what the left one leaves, and 45 % of the width in any
/// case. A left one that is too wide is first set down to six tenths of its size,
/// then cut short.
fn pair(
    items: &mut Vec<Item>,
    (left, right, y): (f32, f32, f32),
    (mut first, first_text): (Type, &str),
    (second, second_text): (Type, &str),
) {
    let wide = first.width(&text::clean(first_text));
    let width = right - left;
    let second_text =
        second.shorten(second_text, (width - wide - BETWEEN).max(width * 0.45));
    let mut room = width;
    if !second_text.is_empty() {
        room -= second.width(&second_text) + BETWEEN;
    }
    if !first_text.is_empty() {
        if wide > room {
            first.size *= (room / wide).max(0.6);
        }
        items.push(first.at(left, y, first.shorten(first_text, room)));
    }
    if !second_text.is_empty() {
        items.push(second.ending_at(right, y, second_text));
    }
}
