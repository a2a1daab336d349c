//! The one table of what a person can do by a key.
//!
//! Buttons, key map and help sheet are made from it.

use super::keys::{Chord, Held, Press};
use super::screen::ScreenId;

/// Something that a key or a button does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Action {
    /// Shows or hides the list of keys.
    Help,
    /// Shows or hides the quick guide.
    Guide,
    /// Shows a screen.
    Show(ScreenId),
    /// Calls the next athlete; while one is called, stops the clock or lets it
    /// go on.
    CallOrClock,
    /// Full screen of the window in hand, and back.
    FullScreen,
    /// Opens or closes the hall board.
    HallBoard,
    /// Opens or closes the loader board.
    LoaderBoard,
    /// Opens or closes the warm-up board.
    WarmUpBoard,
    /// All lights white.
    AllWhite,
    /// All lights red.
    AllRed,
    /// White lights but for a red one of this judge, 1 the first.
    OneRed(u8),
    /// Red lights but for a white one of this judge, 1 the first.
    OneWhite(u8),
    /// The reason for the red lights that were given last, by its number in the
    /// list that the table shows; while somebody is called, all red with it.
    Reason(u8),
    /// Who owes a request asks for so many steps more.
    Rise(u8),
    /// The platform of this number is in hand.
    Platform(u8),
    /// Shows what would be undone; the second time undoes it.
    Undo,
    /// Shows what would come back; the second time brings it back.
    Redo,
    /// One more attempt by leave for the athlete in hand.
    Extra,
    /// Asks for a new day.
    NewDay,
    /// Opens a fresh copy of the sample max day.
    Sample,
    /// Gives start numbers in place of the lots.
    StartNumbers,
    /// The next platform is in hand.
    NextPlatform,
    /// Tones at the clock's marks, on or off.
    Sound,
    /// Light or dark.
    Shade,
    /// Leaves the day and shows the first screen.
    Leave,
    /// Leaves what is typed, or the sheet that is shown.
    Escape,
    /// The next way to rank.
    NextRanking,
    /// Writes the papers.
    WritePapers,
    /// The other paper size.
    PaperSize,
    /// For the noticeboard, or for the file.
    Posted,
    /// Annuls the chosen act.
    Annul,
    /// All rack cards, with what is missing from each.
    CardList,
    /// What cards say beside what stands, where they differ.
    Compare,
    /// Asks for a roster's file.
    Import,
    /// Flights by a plan, or by hand.
    PlanOrHand,
    /// Closes the program.
    Quit,
}

impl Action {
    /// The action for the digit of its key, where it has one.
    pub const fn with(self, digit: u8) -> Self {
        match self {
            Self::OneRed(_) => Self::OneRed(digit),
            Self::OneWhite(_) => Self::OneWhite(digit),
            Self::Reason(_) => Self::Reason(digit),
            Self::Rise(_) => Self::Rise(digit),
            Self::Platform(_) => Self::Platform(digit),
            other => other,
        }
    }
}

/// Where an action can be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// Everywhere.
    Everywhere,
    /// On the first screen, before a day is open.
    First,
    /// Wherever a day is open.
    WithDay,
    /// On a screen that has a platform in hand.
    Platform,
    /// On one screen.
    On(ScreenId),
}

/// One row of the table.
#[derive(Debug, Clone, Copy)]
pub struct Row {
    /// What is done.
    pub action: Action,
    /// What it is called.
    pub label: &'static str,
    /// Its key.
    pub key: Option<Chord>,
    /// Where it can be done.
    pub place: Place,
    /// Why it has no key; empty where it has one.
    pub no_key: &'static str,
}

const fn row(action: Action, label: &'static str, key: Chord, place: Place) -> Row {
    Row {
        action,
        label,
        key: Some(key),
        place,
        no_key: "",
    }
}

/// Everything, in the order of the help sheet.
pub const ACTIONS: &[Row] = &[
    row(
        Action::Help,
        "Keys and shorthand",
        Chord::Function(1),
        Place::Everywhere,
    ),
    row(
        Action::Guide,
        "Quick guide",
        Chord::Ctrl('h'),
        Place::Everywhere,
    ),
    row(Action::NewDay, "New day", Chord::Ctrl('n'), Place::First),
    row(
        Action::Sample,
        "Try the sample max day",
        Chord::Ctrl('t'),
        Place::First,
    ),
    row(
        Action::Show(ScreenId::Day),
        "Day",
        Chord::Function(2),
        Place::WithDay,
    ),
    row(
        Action::Show(ScreenId::Roster),
        "Roster",
        Chord::Function(3),
        Place::WithDay,
    ),
    row(
        Action::Show(ScreenId::Scale),
        "Scale",
        Chord::Function(4),
        Place::WithDay,
    ),
    row(
        Action::Show(ScreenId::Flights),
        "Flights",
        Chord::Function(5),
        Place::WithDay,
    ),
    row(
        Action::Show(ScreenId::Table),
        "Table",
        Chord::Function(6),
        Place::WithDay,
    ),
    row(
        Action::Show(ScreenId::Standings),
        "Standings",
        Chord::Function(7),
        Place::WithDay,
    ),
    row(
        Action::Show(ScreenId::Papers),
        "Papers",
        Chord::Function(8),
        Place::WithDay,
    ),
    row(
        Action::Show(ScreenId::Journal),
        "Journal",
        Chord::Function(9),
        Place::WithDay,
    ),
    row(
        Action::Show(ScreenId::Cards),
        "Rack cards",
        Chord::Ctrl('k'),
        Place::WithDay,
    ),
    row(
        Action::CallOrClock,
        "Call next; stop or go on with the clock",
        Chord::Function(10),
        Place::Platform,
    ),
    row(
        Action::AllWhite,
        "All lights white",
        Chord::Ctrl('g'),
        Place::Platform,
    ),
    row(
        Action::AllRed,
        "All lights red",
        Chord::Ctrl('r'),
        Place::Platform,
    ),
    row(
        Action::OneRed(0),
        "White lights, red from judge 1, 2, 3 alone",
        Chord::Digit {
            held: Held::Ctrl,
            most: 3,
        },
        Place::On(ScreenId::Table),
    ),
    row(
        Action::OneWhite(0),
        "Red lights, white from judge 1, 2, 3 alone",
        Chord::Digit {
            held: Held::CtrlShift,
            most: 3,
        },
        Place::On(ScreenId::Table),
    ),
    row(
        Action::Rise(0),
        "The next load: so many steps more",
        Chord::ShiftFunction(9),
        Place::On(ScreenId::Table),
    ),
    row(
        Action::Reason(0),
        "Reason by number; alone, all red with it",
        Chord::Digit {
            held: Held::Alt,
            most: 9,
        },
        Place::On(ScreenId::Table),
    ),
    row(
        Action::Extra,
        "One more attempt by leave for the athlete in hand",
        Chord::Ctrl('e'),
        Place::Platform,
    ),
    row(
        Action::NextPlatform,
        "Next platform",
        Chord::Ctrl('p'),
        Place::Platform,
    ),
    row(
        Action::Platform(0),
        "Platform 1 to 8",
        Chord::CtrlFunction(8),
        Place::Platform,
    ),
    row(
        Action::Undo,
        "Undo (first shows what)",
        Chord::Ctrl('z'),
        Place::WithDay,
    ),
    row(
        Action::Redo,
        "Redo (first shows what)",
        Chord::Ctrl('y'),
        Place::WithDay,
    ),
    row(
        Action::FullScreen,
        "Full screen of this window",
        Chord::Function(11),
        Place::Everywhere,
    ),
    row(
        Action::HallBoard,
        "Hall board",
        Chord::Function(12),
        Place::WithDay,
    ),
    row(
        Action::LoaderBoard,
        "Loader board",
        Chord::Ctrl('u'),
        Place::WithDay,
    ),
    row(
        Action::WarmUpBoard,
        "Warm-up board",
        Chord::Ctrl('w'),
        Place::WithDay,
    ),
    row(
        Action::Import,
        "Import a roster's file",
        Chord::Ctrl('i'),
        Place::On(ScreenId::Roster),
    ),
    row(
        Action::StartNumbers,
        "Give start numbers (first shows what)",
        Chord::Ctrl('n'),
        Place::On(ScreenId::Scale),
    ),
    row(
        Action::PlanOrHand,
        "By a plan, or by hand",
        Chord::Ctrl('f'),
        Place::On(ScreenId::Flights),
    ),
    row(
        Action::NextRanking,
        "Rank another way",
        Chord::Ctrl('t'),
        Place::On(ScreenId::Standings),
    ),
    row(
        Action::WritePapers,
        "Write all papers",
        Chord::Ctrl('s'),
        Place::On(ScreenId::Papers),
    ),
    row(
        Action::PaperSize,
        "Letter or A4",
        Chord::Ctrl('t'),
        Place::On(ScreenId::Papers),
    ),
    row(
        Action::Posted,
        "For posting, or for the file",
        Chord::Ctrl('b'),
        Place::On(ScreenId::Papers),
    ),
    row(
        Action::Annul,
        "Annul the chosen act (first shows what changes)",
        Chord::Ctrl('d'),
        Place::On(ScreenId::Journal),
    ),
    row(
        Action::CardList,
        "All rack cards, and what is missing from each",
        Chord::Ctrl('j'),
        Place::On(ScreenId::Cards),
    ),
    row(
        Action::Compare,
        "Compare a card with what stands, where they differ",
        Chord::Ctrl('d'),
        Place::On(ScreenId::Cards),
    ),
    row(
        Action::Sound,
        "Tones at the final call and at the end of the clock, on or off",
        Chord::Ctrl('m'),
        Place::WithDay,
    ),
    row(
        Action::Shade,
        "Light or dark",
        Chord::Ctrl('l'),
        Place::Everywhere,
    ),
    row(
        Action::Escape,
        "Clear what is typed; close this sheet",
        Chord::Escape,
        Place::Everywhere,
    ),
    row(
        Action::Leave,
        "Another day",
        Chord::Ctrl('o'),
        Place::WithDay,
    ),
    Row {
        action: Action::Quit,
        label: "Close the program",
        key: None,
        place: Place::Everywhere,
        no_key: "close its window",
    },
];

impl Place {
    /// Whether the place takes in a screen; `None` is the first screen.
    pub fn holds(self, screen: Option<ScreenId>) -> bool {
        match self {
            Self::Everywhere => true,
            Self::First => screen.is_none(),
            Self::WithDay => screen.is_some(),
            Self::Platform => {
                matches!(screen, Some(ScreenId::Table | ScreenId::Cards))
            }
            Self::On(id) => screen == Some(id),
        }
    }
}

impl Place {
    /// Where, in words; empty where it is nearly everywhere.
    pub fn words(self) -> String {
        match self {
            Self::Everywhere | Self::WithDay => String::new(),
            Self::First => "on the first screen".to_owned(),
            Self::Platform => "at a platform".to_owned(),
            Self::On(screen) => format!("on {}", screen.label()),
        }
    }
}

/// The row of an action.
pub fn row_of(action: Action) -> Option<&'static Row> {
    ACTIONS.iter().find(|r| r.action == action.with(0))
}

/// The key of an action as it is written; empty where it has none.
pub fn key_words(action: Action) -> String {
    let key = row_of(action).and_then(|row| row.key);
    key.map(|key| key.to_string()).unwrap_or_default()
}

/// The key of the action with a label, as it is written.
pub fn key_of_label(label: &str) -> Option<String> {
    let row = ACTIONS.iter().find(|row| row.label == label)?;
    row.key.map(|key| key.to_string())
}

/// The label of an action with its key, as a button shows it.
pub fn label(action: Action) -> String {
    row_of(action).map_or_else(String::new, |row| match row.key {
        Some(key) => format!("{key} {}", row.label),
        None => row.label.to_owned(),
    })
}

/// What a press means on a screen; `None` is the first screen.
pub fn of_press(press: &Press, screen: Option<ScreenId>) -> Option<Action> {
    ACTIONS
        .iter()
        .filter(|row| row.place.holds(screen))
        .find_map(|row| Some(row.action.with(row.key?.digit(press)?)))
}
