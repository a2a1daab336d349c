//! Which acts are listed: those about an athlete, of a platform, with an act
//! word.

use crate::day::{Authority, Day, Event, Facts, Recorded, Source};
use crate::desk::tell;
use crate::exchange::acts::WORDS;
use crate::roster::{EntryKey, Presence};

/// Which acts are listed; nothing lists all.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Filter {
    /// About this table number.
    pub number: Option<u16>,
    /// Of this platform.
    pub platform: Option<u8>,
    /// With this act word, as a file of acts has it.
    pub word: Option<String>,
}

impl Filter {
    /// Reads `12`, `on 2`, a platform's label, an act word, or several of
    /// them; `only` may come first. `None` where it is something else.
    ///
    /// # Errors
    /// A sentence, where it begins with `only` and can't be read.
    pub fn read(text: &str, facts: &Facts) -> Result<Option<Self>, String> {
        let lower = text.trim().to_lowercase();
        let words: Vec<&str> = lower.split_whitespace().collect();
        let (asked, words) = match words.as_slice() {
            ["only", rest @ ..] => (true, rest),
            all => (false, all),
        };
        match Self::of_words(words, facts) {
            Ok(filter) => Ok(Some(filter).filter(|f| *f != Self::default())),
            Err(word) if asked => Err(format!(
                "“{word}” is no table number, platform or act; the acts are {}.",
                WORDS.join(", ")
            )),
            Err(_) => Ok(None),
        }
    }

    fn of_words(words: &[&str], facts: &Facts) -> Result<Self, String> {
        let mut filter = Self::default();
        let mut rest = words;
        while let Some((word, after)) = rest.split_first() {
            let label = filter.platform.is_none().then(|| labelled(rest, facts));
            if let Some((platform, used)) = label.flatten() {
                filter.platform = Some(platform);
                rest = &rest[used..];
                continue;
            }
            match word.parse::<u16>() {
                Ok(number) if filter.number.is_none() => filter.number = Some(number),
                Err(_) if filter.word.is_none() && WORDS.contains(word) => {
                    filter.word = Some((*word).to_owned());
                }
                _ => return Err((*word).to_owned()),
            }
            rest = after;
        }
        Ok(filter)
    }

    /// What is listed, in words: `lights about lot 12 on Rack 2`.
    pub fn words(&self, facts: &Facts) -> String {
        let mut words = match &self.word {
            Some(word) => format!("acts “{word}”"),
            None => "acts".to_owned(),
        };
        if let Some(number) = self.number {
            words.push_str(&format!(" about lot {number}"));
        }
        if let Some(platform) = self.platform {
            words.push_str(&format!(" on {}", facts.platform_label(platform)));
        }
        words
    }

    /// Whether an event is listed.
    pub fn takes(&self, day: &Day, recorded: &Recorded) -> bool {
        let number = self.number.is_none_or(|number| {
            let wanted = day.facts().numbers.get(&number);
            wanted.is_some_and(|key| is_about(day, &recorded.event, *key))
        });
        number
            && self.platform.is_none_or(|p| recorded.platform == Some(p))
            && (self.word.as_deref()).is_none_or(|word| word_of(&recorded.event) == word)
    }
}

/// A platform that words begin with, `on 2` or its label, and how many words
/// that takes.
fn labelled(words: &[&str], facts: &Facts) -> Option<(u8, usize)> {
    let numbers = (1_u8..).zip(&facts.platforms).map(|(n, _)| n);
    if let ["on" | "platform", number, ..] = words
        && let Ok(number) = number.parse::<u8>()
    {
        return facts.platform(number).map(|_| (number, 2));
    }
    let skip = usize::from(words.first() == Some(&"on"));
    let words = &words[skip..];
    numbers
        .filter_map(|number| {
            let label = facts.platform_label(number).to_lowercase();
            let label: Vec<&str> = label.split_whitespace().collect();
            // A label that is only a number is a table number unless `on`
            // comes first.
            let plain =
                skip == 0 && matches!(&label[..], [one] if one.parse::<u16>().is_ok());
            (!plain && !label.is_empty() && words.starts_with(&label))
                .then_some((number, label.len() + skip))
        })
        .max_by_key(|(_, used)| *used)
}

/// Whether an event, or the act that it annuls or brings back, is about
/// somebody.
fn is_about(day: &Day, event: &Event, key: EntryKey) -> bool {
    if tell::entry_of(event) == Some(key) {
        return true;
    }
    let target = match event {
        Event::Annulled { act, .. } | Event::Undone { act, .. } => Some(*act),
        Event::Redone { undo } => match day.recorded(*undo).map(|r| &r.event) {
            Some(Event::Undone { act, .. }) => Some(*act),
            _ => None,
        },
        _ => None,
    };
    target.is_some_and(|act| day.act(act).any(|r| tell::entry_of(&r.event) == Some(key)))
}

/// The act word of an event, as a file of acts has it; empty for the making
/// of the day.
pub fn word_of(event: &Event) -> &'static str {
    match event {
        Event::DayMade { .. } => "",
        Event::SettingChanged { .. } => "set",
        Event::FlightMade { .. } | Event::Placed { .. } => "place",
        Event::EntryAdded { .. } => "add",
        Event::EntryEdited { .. } => "edit",
        Event::RollAnswered { presence, back, .. } => match presence {
            _ if *back => "back",
            Presence::Absent => "absent",
            Presence::Away => "away",
            Presence::Here | Presence::Expected => "here",
        },
        Event::Withdrawn { .. } => "withdraw",
        Event::Disqualified { .. } => "disqualify",
        Event::Numbered { .. } => "number",
        Event::RecordListed { .. } => "record",
        Event::Weighed { .. } => "weigh",
        Event::Cleared { .. } => "clear",
        Event::Capped { .. } => "cap",
        Event::StationChecked { .. } => "check",
        Event::SlotStarted { .. } => "start",
        Event::BreakCalled { .. } => "break",
        Event::Closed { .. } => "close",
        Event::Reopened { .. } => "reopen",
        Event::Requested { .. } => "request",
        Event::Called { .. } | Event::CallWithdrawn { .. } => "call",
        Event::ClockMoved { .. } => "clock",
        Event::Ruled(fact) => match fact.source {
            Source::Lights => "lights",
            Source::Card => "tally",
            Source::Table => "pass",
            Source::Stop => "stop",
        },
        Event::ExtraGranted { .. } => "extra",
        Event::LoadFound { .. } => "loaded",
        Event::Reruled { authority, .. } => match authority {
            Authority::Overrule => "overrule",
            Authority::Challenge => "challenge",
        },
        Event::ChallengeLost { .. } => "challenge",
        Event::Corrected { .. } => "correct",
        Event::Annulled { .. } => "annul",
        Event::Undone { .. } => "undo",
        Event::Redone { .. } => "redo",
        Event::Noted { .. } => "note",
    }
}
