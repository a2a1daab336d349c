//! Somebody at the keyboard who knows all keys.

use std::collections::BTreeMap;

use maxday::day::{
    Command, Context, Day, Event, Facts, Light, Outcome, Recorded, Source, apply, decide,
    standing_request,
};
use maxday::desk::app::{Desk, Message};
use maxday::desk::call_line::{
    MOST_REASONS, finished, finished_signed, lights_by_key, read, reason_by_key,
    rise_by_key,
};
use maxday::desk::screen::day::DayScreen;
use maxday::desk::screen::journal::{self, Journal};
use maxday::desk::screen::{ScreenId, cards};
use maxday::exchange::acts::{ActRow, command, read_acts, stamp};
use maxday::exchange::tables::{Style, csv};
use maxday::lift::catalogue;
use maxday::measure::{Mass, Weight};
use maxday::roster::Entry;
use maxday::samples::Sample;
use maxday::sheets::{Audience, standings_table};
use maxday::standings::Basis;

use crate::desk_support::{desk_of_sample, press, pressed};

/// What is pressed for one act.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Pressed {
    /// A key by its name.
    Key(String),
    /// A key of a reason that rules by itself.
    Rules(String),
    /// A text on the call line, with Enter.
    Line(String),
}

impl Pressed {
    fn keys(&self) -> usize {
        match self {
            Self::Key(_) | Self::Rules(_) => 1,
            Self::Line(text) => text.chars().count() + 1,
        }
    }
}

pub struct Typist {
    desk: Desk,
    rows: Vec<ActRow>,
    sample: Sample,
    /// All keys, also those at the scale.
    keys: usize,
    /// Keys at the scale, which has a limit of its own.
    at_scale: usize,
    attempts: usize,
    by_act: BTreeMap<String, (usize, usize)>,
    dear: Vec<(usize, String)>,
    /// The sample's names of acts, and the file's.
    ids: Vec<(String, String)>,
    /// All keys, as `window.sh` presses them.
    log: Vec<String>,
    /// On which platform lights were given last by a key.
    lit: u8,
    /// Whether the key that is pressed gives lights, though others like it don't.
    rules: bool,
}

impl Typist {
    pub fn new(sample: Sample) -> Self {
        Self {
            desk: desk_of_sample(sample),
            rows: read_acts(sample.acts()).unwrap(),
            sample,
            keys: 0,
            at_scale: 0,
            attempts: 0,
            by_act: BTreeMap::new(),
            dear: Vec::new(),
            ids: Vec::new(),
            log: Vec::new(),
            lit: 0,
            rules: false,
        }
    }

    pub fn play(&mut self) {
        let rows = self.rows.clone();
        let mut rest = rows.as_slice();
        while let Some(row) = rest.first() {
            // Tallies are cards that came back: a card at a time on the card grid.
            let card = rest.iter().take_while(|r| same_card(row, r)).count();
            if card > 0 {
                self.card(&rest[..card]);
            } else {
                self.act(row);
            }
            rest = &rest[card.max(1)..];
        }
    }

    fn act(&mut self, row: &ActRow) {
        self.at(row);
        let mut row = row.clone();
        for (theirs, ours) in &self.ids {
            row.detail = row.detail.replace(theirs, ours);
        }
        let day = self.desk.effects_mut().day().clone();
        let context = self.desk.effects_mut().context();
        let wanted = command(&day, &row).unwrap_or_else(|why| panic!("{row:?}: {why}"));
        let wants = essence(&day, &wanted, &context, true)
            .unwrap_or_else(|why| panic!("{row:?}: {why}"));
        let (before, acts) = (self.keys, day.journal().len());
        let mut best: Option<Vec<Pressed>> = None;
        for way in self.ways(&day, &row, &wanted, &context, &wants) {
            let keys = |way: &[Pressed]| way.iter().map(Pressed::keys).sum::<usize>();
            if best.as_ref().is_none_or(|b| keys(&way) < keys(b)) {
                best = Some(way);
            }
        }
        match &best {
            Some(way) => way.iter().for_each(|one| self.press(one)),
            None => self.elsewhere(&row, &wanted),
        }
        let entered = self.desk.effects_mut().day().journal().len();
        // A setting may say already what it is set to.
        assert!(
            entered > acts || row.act == "set",
            "{row:?}: {best:?}: {:?}",
            self.desk.table().answer()
        );
        let took = self.keys - before;
        if matches!(row.act.as_str(), "weigh" | "clear" | "cap") {
            self.at_scale += took;
        }
        if matches!(row.act.as_str(), "lights" | "tally" | "pass") {
            self.attempts += 1;
        }
        let sum = self.by_act.entry(row.act.clone()).or_default();
        sum.0 += 1;
        sum.1 += took;
        if took > 6 {
            self.dear.push((took, format!("{} {best:?}", row.act)));
        }
        if !row.id.is_empty() {
            let id = self
                .desk
                .effects_mut()
                .day()
                .journal()
                .last()
                .unwrap()
                .id
                .clone();
            self.ids.push((row.id.clone(), id));
        }
    }

    /// The ways that do what is wanted.
    fn ways(
        &self,
        day: &Day,
        row: &ActRow,
        wanted: &Command,
        context: &Context,
        wants: &str,
    ) -> Vec<Vec<Pressed>> {
        let facts = day.facts();
        let here = self.desk.platform();
        let there: u8 = row.platform.parse().unwrap_or(here);
        let lines = lines(row, &rises(day, row));
        let mut ways = Vec::new();
        for platform in [here, there] {
            let go = (platform != here)
                .then(|| Pressed::Key(format!("ctrl+F{platform}")))
                .into_iter();
            let same = |command: &Command, whole: bool| {
                let wants = if whole {
                    wants.to_owned()
                } else {
                    essence(day, wanted, context, false).unwrap()
                };
                essence(day, command, context, whole).is_ok_and(|e| e == wants)
            };
            let text = |line: &str| {
                read(line, facts, platform)
                    .ok()
                    .and_then(|m| m.command().cloned())
                    .is_some_and(|command| same(&command, true))
            };
            for line in &lines {
                if text(line) {
                    ways.push(go.clone().chain([Pressed::Line(line.clone())]).collect());
                    if let Some(way) = finishing(line, |begun| finished(begun, day)) {
                        ways.push(go.clone().chain(way).collect());
                    }
                }
            }
            match wanted {
                Command::Undo(_) => {
                    let twice = ["ctrl+z", "ctrl+z"].map(|k| Pressed::Key(k.to_owned()));
                    if platform == there {
                        ways.push(go.chain(twice).collect());
                    }
                }
                Command::Redo(_) => {
                    let twice = ["ctrl+y", "ctrl+y"].map(|k| Pressed::Key(k.to_owned()));
                    if platform == there {
                        ways.push(go.chain(twice).collect());
                    }
                }
                Command::Call { .. } | Command::Clock { .. } => {
                    let key = maxday::desk::doing::call_or_clock(facts, platform);
                    if same(&key, true) {
                        ways.push(go.chain([Pressed::Key("F10".to_owned())]).collect());
                    }
                }
                Command::Lights { outcome, .. } => {
                    let codes = codes(outcome);
                    for n in 1..=9 {
                        let key = reason_by_key(facts, platform, n);
                        if key.is_ok_and(|key| same(&key, true)) {
                            let key = Pressed::Rules(format!("alt+{n}"));
                            ways.push(go.clone().chain([key]).collect());
                        }
                    }
                    for (name, light, but) in light_keys() {
                        let Ok(key) = lights_by_key(facts, platform, light, but) else {
                            continue;
                        };
                        if !same(&key, false) {
                            continue;
                        }
                        let first = go.clone().chain([Pressed::Key(name)]);
                        let lift = lift_of(day, &key, context);
                        let Some(reasons) = reason_keys(&lift, &codes) else {
                            continue;
                        };
                        ways.push(first.chain(reasons).collect());
                    }
                }
                Command::Request { .. } => {
                    for n in 1..=9 {
                        let key = rise_by_key(facts, platform, n);
                        if key.is_ok_and(|key| same(&key, true)) {
                            let key = Pressed::Key(format!("shift+F{n}"));
                            ways.push(go.clone().chain([key]).collect());
                        }
                    }
                }
                _ => {}
            }
        }
        ways
    }

    /// Types the attempts of a card that came back.
    fn card(&mut self, rows: &[ActRow]) {
        let (before, acts) = (self.keys, attempts_in(&self.desk));
        self.at(rows.last().unwrap());
        if self.desk.screen() != Some(ScreenId::Cards) {
            self.key("ctrl+k");
        }
        let entry = self.entry(&rows[0]);
        let slot = self
            .desk
            .facts()
            .slot_of(&rows[0].lift)
            .unwrap()
            .0
            .slot
            .clone();
        let flights = self.desk.facts().flights.len();
        for _ in 0..flights {
            let card = self.desk.at_cards().card().unwrap();
            if card.session == entry.session && card.flight == entry.flight {
                break;
            }
            self.key("PageDown");
        }
        while self.desk.at_cards().card().unwrap().slot != slot {
            self.key("ctrl+PageDown");
        }
        let mut last: Option<u16> = None;
        for row in rows {
            let entry = self.entry(row);
            if last != Some(entry.number) {
                if last.is_some() {
                    self.key("Enter");
                }
                let in_hand = self.desk.at_cards().in_hand(self.desk.facts());
                if in_hand.map(|(e, _)| e.number) != Some(entry.number) {
                    self.key("Home");
                    self.letters(&entry.number.to_string());
                    self.key("Enter");
                }
                last = Some(entry.number);
            }
            let facts = self.desk.facts();
            let next = facts.next_attempt(entry.key, &slot).unwrap();
            let stands = standing_request(facts, &entry, &slot, next);
            let load = Mass::parse(&row.load, facts.bar_unit).ok();
            let first = rows.iter().find(|r| r.athlete == row.athlete) == Some(row);
            let as_asked = stands.map(|s| s.load.mass) == load && first;
            if !as_asked && !row.load.is_empty() {
                self.letters(&row.load);
            }
            let (word, reason) = row.detail.split_once(':').unwrap_or((&row.detail, ""));
            self.letters(if matches!(word, "good" | "w") {
                "g"
            } else {
                "n"
            });
            if !reason.is_empty() {
                let lift = entry.variant(&slot).unwrap();
                let faults = &catalogue().get(lift.as_str()).unwrap().faults;
                self.letters(&format!(" {}", shortest(reason, faults)));
                self.key("Tab");
            }
        }
        self.key("Enter");
        self.key("F6");
        // The window does this by itself, an act at a time.
        for _ in rows {
            let next = Message::Cards(cards::Message::Next);
            let _ = self.desk.update(next);
        }
        let typed = attempts_in(&self.desk) - acts;
        assert_eq!(typed, rows.len(), "{rows:?}: {:?}", self.desk.said());
        for row in rows.iter().filter(|row| !row.id.is_empty()) {
            let day = self.desk.effects_mut().day();
            let id = day.recorded(ruled_by(day, row)).unwrap().id.clone();
            self.ids.push((row.id.clone(), id));
        }
        self.attempts += rows.len();
        let sum = self.by_act.entry("tally".to_owned()).or_default();
        sum.0 += rows.len();
        sum.1 += self.keys - before;
    }

    fn entry(&self, row: &ActRow) -> Entry {
        let number = row.athlete.parse().unwrap();
        self.desk.facts().entry_by_number(number).unwrap().clone()
    }

    fn at(&mut self, row: &ActRow) {
        let at = stamp(row, self.desk.facts().date, 0).unwrap().unwrap();
        self.desk.effects_mut().set_now(at);
    }

    fn letters(&mut self, text: &str) {
        for letter in text.chars() {
            self.key(&letter.to_string());
        }
    }

    /// What is done at the scale: finds the athlete, goes to the column, types.
    fn at_scale(&mut self, row: &ActRow, column: &str, text: &str) {
        self.key("F4");
        self.letters(&row.athlete);
        self.key("Enter");
        for _ in 0..12 {
            let line = self.desk.at_scale().line(self.desk.facts()).to_lowercase();
            if line.starts_with(column) {
                self.signed(text);
                for key in ["Enter", "Esc", "F6"] {
                    self.key(key);
                }
                return;
            }
            self.key("Right");
        }
        panic!("the scale has no {column}");
    }

    /// Types a clearance or a cap with who says so and why, each finished from its
    /// start where that is known.
    fn signed(&mut self, text: &str) {
        let mut parts = text.split_inclusive("; ");
        let mut so_far = String::new();
        if let Some(first) = parts.next() {
            self.letters(first);
            so_far.push_str(first);
        }
        for part in parts {
            let whole = format!("{so_far}{}", part.trim_end_matches("; "));
            let day = self.desk.effects_mut().day().clone();
            let first = |begun: &str| {
                finished_signed(begun, &day)
                    .into_iter()
                    .take(1)
                    .collect::<Vec<_>>()
            };
            match finishing(&whole, first) {
                Some(way) => {
                    let skip = so_far.chars().count();
                    let way: Vec<Pressed> = way.into_iter().skip(skip).collect();
                    // Without the Enter at its end.
                    for one in &way[..way.len() - 1] {
                        self.press(one);
                    }
                    if part.ends_with("; ") {
                        self.letters("; ");
                    }
                }
                None => self.letters(part),
            }
            so_far.push_str(part);
        }
    }

    /// What only another screen does.
    fn elsewhere(&mut self, row: &ActRow, wanted: &Command) {
        match wanted {
            Command::Correct { .. } | Command::Annul { .. } => {
                self.in_journal(row, wanted);
            }
            Command::Weigh { .. } => self.at_scale(row, "bodyweight", &row.load),
            Command::Clear { .. } => {
                // Who and why need no names where they come in this order.
                let plain = row.detail.replace("who=", "").replace("why=", "");
                self.at_scale(row, "clearance", &plain);
            }
            Command::Cap { .. } => {
                let plain = row.detail.replace("who=", "").replace("why=", "");
                let text = format!("{}: {}; {plain}", row.lift, row.load);
                self.at_scale(row, "cap", &text);
            }
            Command::Place(places) => {
                let (_, place) = &places[0];
                let session = place.session.clone().unwrap_or_default();
                let flight = place.flight.clone().unwrap_or_default();
                self.key("F5");
                self.key("Home");
                self.letters(&row.athlete);
                self.key("Enter");
                self.letters(&format!("{session}/{flight}"));
                self.key("Enter");
                self.key("F6");
            }
            Command::Set(settings) => self.set(settings),
            _ => panic!("{row:?} can't be typed"),
        }
    }

    /// Changes settings on the Day screen: finds each, types or turns it.
    fn set(&mut self, settings: &[(String, String)]) {
        self.key("F2");
        for (key, value) in settings {
            let (key, value) = match key.strip_prefix("session.") {
                Some(name) => ("session".to_owned(), format!("{name} {value}")),
                // Rules are listed by their names.
                None => (key.replacen("posting.", "posting-", 1), value.clone()),
            };
            for step in self.steps_to(&key) {
                self.key(step);
            }
            let says = |typist: &Self| typist.desk.at_day().in_hand(typist.desk.facts());
            if key.starts_with("posting-") {
                for _ in 0..4 {
                    if says(self).unwrap().1 != value {
                        self.key("Right");
                    }
                }
                assert_eq!(says(self).unwrap().1, value, "{key}");
            } else {
                self.letters(&value);
                self.key("Enter");
            }
        }
        self.key("F6");
    }

    /// The fewest presses from the setting in hand to another.
    fn steps_to(&self, key: &str) -> Vec<&'static str> {
        let facts = self.desk.facts();
        let mut ways = vec![(self.desk.at_day().clone(), Vec::new())];
        for _ in 0..40 {
            let mut next = Vec::new();
            for (screen, way) in ways {
                let (in_hand, _) = screen.in_hand(facts).unwrap();
                if in_hand == key {
                    return way;
                }
                for name in ["Down", "PageDown", "Up", "PageUp"] {
                    let mut screen = screen.clone();
                    let message = screen.key(&press(name), facts).unwrap();
                    let _ = screen.update(message, facts);
                    let mut way = way.clone();
                    way.push(name);
                    let at = screen.in_hand(facts);
                    let known = next
                        .iter()
                        .any(|(s, _): &(DayScreen, Vec<&str>)| s.in_hand(facts) == at);
                    if !known {
                        next.push((screen, way));
                    }
                }
            }
            ways = next;
        }
        panic!("the Day screen has no {key}");
    }

    /// Corrects or annuls an act in the journal: finds it, says what, and enters
    /// it after the preview.
    fn in_journal(&mut self, row: &ActRow, wanted: &Command) {
        let day = self.desk.effects_mut().day().clone();
        let (act, line) = match wanted {
            Command::Annul { act, reason } => (*act, format!("annul {reason}")),
            _ => (ruled_by(&day, row), format!("ruling={}", row.detail)),
        };
        let context = self.desk.effects_mut().context();
        let place = |filter: &str| {
            let mut journal = Journal::new();
            if !filter.is_empty() {
                let typed = journal::Message::Typed(filter.to_owned());
                let _ = journal.update(typed, &day, &context);
                let _ = journal.update(journal::Message::Entered, &day, &context);
            }
            journal.acts(&day).iter().position(|a| *a == act)
        };
        let filters = [
            "".to_owned(),
            row.athlete.clone(),
            format!("{}, lights", row.athlete),
        ];
        let way = filters.iter().filter_map(|filter| {
            let downs = vec![Pressed::Key("Down".to_owned()); place(filter)?];
            let find = (!filter.is_empty()).then(|| Pressed::Line(filter.clone()));
            let mut way = vec![Pressed::Key("F9".to_owned())];
            way.extend(find);
            way.extend(downs);
            way.push(Pressed::Line(line.clone()));
            // Esc leaves no filter behind for the next visit.
            way.extend(["Enter", "Esc", "F6"].map(|key| Pressed::Key(key.to_owned())));
            Some(way)
        });
        let way = way.min_by_key(|way| way.iter().map(Pressed::keys).sum::<usize>());
        for one in way.expect("the act is in the journal") {
            self.press(&one);
        }
    }

    fn press(&mut self, one: &Pressed) {
        match one {
            Pressed::Key(name) => self.key(name),
            Pressed::Rules(name) => {
                self.rules = true;
                self.key(name);
                self.rules = false;
            }
            Pressed::Line(text) => {
                for letter in text.chars() {
                    self.key(&letter.to_string());
                }
                self.key("Enter");
            }
        }
    }

    fn key(&mut self, name: &str) {
        self.keys += 1;
        self.note(name);
        pressed(&mut self.desk, name);
    }

    /// Writes a key down; a pause before it where the desk takes no second one
    /// of its kind at once.
    fn note(&mut self, name: &str) {
        let lights = light_keys().iter().any(|(key, ..)| key == name) || self.rules;
        let empty = name == "Enter" && self.desk.table().line().is_empty();
        let again = lights && self.lit == self.desk.platform();
        if again || (empty && self.desk.screen() == Some(ScreenId::Table)) {
            self.log.push("pause".to_owned());
        }
        if lights {
            self.lit = self.desk.platform();
        }
        self.log.push(name.to_owned());
    }

    /// Writes all keys, one a line.
    pub fn write_keys(&self, path: &str) {
        std::fs::write(path, self.log.join("\n") + "\n").unwrap();
    }

    pub fn report(&self) {
        let (keys, attempts) = (self.keys, self.attempts);
        let mean = self.keys_an_attempt();
        let scale = self.at_scale;
        println!(
            "{:?}: {keys} keys, {scale} of them at the scale; {attempts} attempts, \
             {mean:.2} each without the scale, {:.2} with it",
            self.sample,
            keys as f64 / attempts as f64,
        );
        for (act, (rows, keys)) in &self.by_act {
            println!("  {act}: {rows} acts, {keys} keys");
        }
        for (keys, what) in &self.dear {
            println!("    {keys} {what}");
        }
    }

    /// The day that stands is the sample's own.
    pub fn check(&self) {
        let facts = self.desk.facts();
        let table = standings_table(facts, Basis::Category, Audience::Private);
        let table = String::from_utf8(csv(&table, Style::Stdout)).unwrap();
        let folder = match self.sample {
            Sample::MaxDay => "max-day",
            Sample::Meet => "weightlifting",
            Sample::Powerlifting => "powerlifting",
        };
        let expected = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("sample-meets")
            .join(folder)
            .join("expected-standings.csv");
        assert_eq!(table, std::fs::read_to_string(expected).unwrap());
        let applied = applied(self.sample);
        assert_eq!(attempts(facts), attempts(applied.facts()));
        assert_eq!(set_up(facts), set_up(applied.facts()));
    }

    /// Keys of the table, cards, corrections and settings for an attempt.
    pub fn keys_an_attempt(&self) -> f64 {
        (self.keys - self.at_scale) as f64 / self.attempts as f64
    }

    /// Keys at the scale for an athlete of the day.
    pub fn scale_keys_an_athlete(&self) -> f64 {
        self.at_scale as f64 / self.desk.facts().entries.len() as f64
    }
}

/// What comes of a command, without how its numbers were typed; the reasons
/// only where all is `whole`.
fn essence(
    day: &Day,
    command: &Command,
    context: &Context,
    whole: bool,
) -> Result<String, String> {
    let decided = decide(day, command, context).map_err(|why| why.to_string())?;
    let mut said = String::new();
    for event in &decided.events {
        let mut event = event.clone();
        if let Event::Ruled(fact) = &mut event {
            let mut codes: Vec<String> =
                fact.faults.iter().map(|f| f.code.clone()).collect();
            codes.sort();
            codes.dedup();
            fact.faults.clear();
            if whole {
                said.push_str(&codes.join(" "));
            }
        }
        said.push_str(&format!("{event:?}"));
    }
    let mut plain = String::new();
    let mut rest = said.as_str();
    while let Some(at) = rest.find("typed: \"") {
        plain.push_str(&rest[..at]);
        let after = &rest[at + 8..];
        rest = &after[after.find('"').unwrap() + 1..];
    }
    plain.push_str(rest);
    Ok(plain)
}

/// The act that ruled the attempt that a row names.
fn ruled_by(day: &Day, row: &ActRow) -> u64 {
    let facts = day.facts();
    let entry = facts
        .entry_by_number(row.athlete.parse().unwrap())
        .unwrap()
        .key;
    let slot = facts.slot_of(&row.lift).unwrap().0.slot.clone();
    let attempt: u8 = row.attempt.parse().unwrap();
    let ruled = day.journal().iter().rev().find(|r| {
        matches!(&r.event, Event::Ruled(fact)
            if fact.entry == entry && fact.slot == slot && fact.attempt == attempt)
            && day.stands_now(r.act)
    });
    ruled.unwrap().act
}

/// The day of a sample's acts as they are applied from their file.
fn applied(sample: Sample) -> Day {
    let mut day = desk_of_sample(sample).effects_mut().day().clone();
    for row in &read_acts(sample.acts()).unwrap() {
        let context = Context {
            at: stamp(row, day.facts().date, 0).unwrap().unwrap(),
            hand: row.by.clone(),
            draw: 7,
        };
        let command = command(&day, row).unwrap();
        let decided = decide(&day, &command, &context).unwrap();
        let act = day.journal().last().unwrap().seq + 1;
        for (seq, event) in (act..).zip(decided.events) {
            let first = seq == act && !row.id.is_empty();
            let recorded = Recorded {
                seq,
                id: if first {
                    row.id.clone()
                } else {
                    format!("e{seq}")
                },
                act,
                at: context.at,
                happened: None,
                hand: context.hand.clone(),
                platform: decided.platform,
                event,
            };
            apply(&mut day, &recorded);
        }
    }
    day
}

/// All attempts with what a judge and a loader know of them.
fn attempts(facts: &Facts) -> Vec<String> {
    let mut list = Vec::new();
    for entry in facts.entries.values() {
        for line in &facts.slots {
            let run = facts.run(entry.key, &line.slot);
            for (n, attempt) in run.iter().flat_map(|run| &run.attempts) {
                let Some(ruled) = &attempt.ruled else {
                    continue;
                };
                let fact = &ruled.fact;
                let mass = |w: &Option<Weight>| w.as_ref().map(|w| w.mass);
                let mut codes: Vec<&str> =
                    fact.faults.iter().map(|f| f.code.as_str()).collect();
                codes.sort_unstable();
                codes.dedup();
                list.push(format!(
                    "{} {} {n} {} {:?} {:?} {:?} {:?} {:?} {codes:?}",
                    entry.number,
                    line.slot,
                    fact.lift,
                    mass(&fact.requested),
                    mass(&fact.loaded),
                    mass(&fact.credited),
                    fact.ruling,
                    // A card's letter is no light of a judge.
                    (fact.source == Source::Lights).then_some(&fact.lights),
                ));
            }
        }
    }
    list
}

/// The fewest keys for a line of which the end is finished from its start, where
/// that takes fewer than its letters; with Enter.
fn finishing(line: &str, finished: impl Fn(&str) -> Vec<String>) -> Option<Vec<Pressed>> {
    let all = line.chars().count();
    let starts = line.char_indices().map(|(at, _)| &line[..at]);
    let ways = starts.filter_map(|begun| {
        let tabs = finished(begun).iter().position(|whole| whole == line)? + 1;
        let typed = begun.chars().count();
        (typed + tabs < all).then_some((typed + tabs, begun, tabs))
    });
    let (_, begun, tabs) = ways.min()?;
    let mut way: Vec<Pressed> =
        begun.chars().map(|c| Pressed::Key(c.to_string())).collect();
    way.extend(std::iter::repeat_n(Pressed::Key("Tab".to_owned()), tabs));
    way.push(Pressed::Key("Enter".to_owned()));
    Some(way)
}

/// What is set on the Day screen and at the scale.
fn set_up(facts: &Facts) -> Vec<String> {
    let mut list = vec![format!("{:?}", facts.rules)];
    list.extend(facts.platforms.iter().map(|p| p.label.clone()));
    list.extend(
        facts
            .sessions
            .iter()
            .map(|(name, s)| format!("{name} {s:?}")),
    );
    list.extend(facts.entries.values().map(|e| {
        let weighed = e.bodyweight.as_ref().map(|w| w.mass);
        format!(
            "{} {weighed:?} {:?} {:?}",
            e.number, e.clearance, e.presence
        )
    }));
    list
}

/// How many attempts are ruled.
fn attempts_in(desk: &Desk) -> usize {
    let facts = desk.facts();
    let entries = facts.entries.values();
    let runs = entries
        .flat_map(|e| facts.slots.iter().filter_map(|s| facts.run(e.key, &s.slot)));
    runs.flat_map(|run| run.attempts.values())
        .filter(|a| a.ruled.is_some())
        .count()
}

/// Whether two rows are attempts on one card.
fn same_card(first: &ActRow, row: &ActRow) -> bool {
    let of = |row: &ActRow| (row.act.clone(), row.lift.clone(), row.platform.clone());
    first.act == "tally" && of(first) == of(row)
}

/// The reasons of an outcome, each once.
fn codes(outcome: &Outcome) -> Vec<String> {
    let mut codes: Vec<String> = outcome.faults.iter().map(|f| f.code.clone()).collect();
    codes.sort();
    codes.dedup();
    codes
}

fn light_keys() -> Vec<(String, Light, Option<u8>)> {
    let mut keys = vec![
        ("ctrl+g".to_owned(), Light::White, None),
        ("ctrl+r".to_owned(), Light::Red, None),
    ];
    for judge in 1..=3 {
        keys.push((format!("ctrl+{judge}"), Light::White, Some(judge)));
        keys.push((format!("ctrl+shift+{judge}"), Light::Red, Some(judge)));
    }
    keys
}

/// The lift that an attempt is ruled in.
fn lift_of(day: &Day, command: &Command, context: &Context) -> String {
    let decided = decide(day, command, context).unwrap();
    let lift = decided.events.iter().find_map(|event| match event {
        Event::Ruled(fact) => Some(fact.lift.as_str().to_owned()),
        _ => None,
    });
    lift.unwrap()
}

/// The keys that name reasons after the lights; they are typed where one of them
/// has no key.
fn reason_keys(lift: &str, codes: &[String]) -> Option<Vec<Pressed>> {
    let faults = &catalogue().get(lift)?.faults;
    let keys: Option<Vec<Pressed>> = codes
        .iter()
        .map(|one| {
            let at = faults.iter().position(|f| f == one)?;
            (at < MOST_REASONS).then(|| Pressed::Key(format!("alt+{}", at + 1)))
        })
        .collect();
    keys.or_else(|| {
        let words: Vec<String> = codes.iter().map(|c| shortest(c, faults)).collect();
        Some(vec![Pressed::Line(format!("f {}", words.join(" ")))])
    })
}

/// The shortest start of a word that means no other.
fn shortest(word: &str, of: &[String]) -> String {
    (1..=word.len())
        .map(|n| &word[..n])
        .find(|start| {
            of.iter().filter(|other| other.starts_with(start)).count() == 1
                && !matches!(*start, "w" | "r")
        })
        .unwrap_or(word)
        .to_owned()
}

/// The rises that come to what a row asks for: over any load that the athlete
/// has had.
fn rises(day: &Day, row: &ActRow) -> Vec<String> {
    let facts = day.facts();
    let Ok(load) = Mass::parse(&row.load, facts.bar_unit) else {
        return Vec::new();
    };
    let entry = row
        .athlete
        .parse()
        .ok()
        .and_then(|n| facts.entry_by_number(n));
    let Some((entry, slot)) = entry.zip(facts.slot_of(&row.lift)) else {
        return Vec::new();
    };
    let Some(run) = facts.run(entry.key, &slot.0.slot) else {
        return Vec::new();
    };
    let mut had: Vec<Mass> = Vec::new();
    for attempt in run.attempts.values() {
        had.extend(attempt.requests.iter().map(|r| r.load.mass));
        let ruled = attempt.ruled.iter();
        had.extend(ruled.filter_map(|r| Some(r.fact.requested.as_ref()?.mass)));
    }
    let over = had.into_iter().filter(|mass| *mass < load);
    let mut rises: Vec<String> = over
        .map(|mass| (load - mass).show(facts.bar_unit))
        .collect();
    rises.sort();
    rises.dedup();
    rises
}

/// As much of a word as tells it from the others.
fn starts(word: &str) -> &str {
    match word {
        "break" => "b",
        "check" => "ch",
        "clock" => "cl",
        "withdraw" => "wi",
        "disqualify" => "d",
        "absent" => "ab",
        "here" => "h",
        "away" => "aw",
        "back" => "b",
        "extra" => "e",
        "stop" => "s",
        "overrule" => "o",
        "note" => "n",
        other => other,
    }
}

/// What could be typed for a row; what doesn't do what is wanted is left out
/// by who asks.
fn lines(row: &ActRow, rises: &[String]) -> Vec<String> {
    let (n, load, lift) = (&row.athlete, &row.load, &row.lift);
    let detail = match row.act.as_str() {
        "note" => row.detail.clone(),
        _ => row.detail.replace("; ", " "),
    };
    let mut lines = vec![String::new()];
    match row.act.as_str() {
        "request" => {
            for rise in rises {
                lines.push(rise.clone());
                lines.push(format!("{n} +{rise}"));
            }
            lines.extend([load.clone(), format!("{n} {load}")]);
            lines.extend([format!("{load} rec"), format!("{n} {load} rec")]);
            lines.extend((1..=lift.len()).map(|i| format!("{n} {} {load}", &lift[..i])));
        }
        "lights" => {
            let (lights, reasons) = detail.split_once(':').unwrap_or((&detail, ""));
            let start = |n: usize| reasons.get(..n).unwrap_or(reasons).to_owned();
            for reason in [start(2), start(3), start(4), start(7), reasons.to_owned()] {
                lines.push(format!("{lights} {reason}").trim().to_owned());
                lines.push(format!("{n} {lights} {reason}").trim().to_owned());
                lines.push(format!("{n} {load} {lights} {reason}").trim().to_owned());
            }
            lines.push(detail.clone());
        }
        "tally" => {
            let outcome = detail.replace(':', " ");
            let (word, reason) = outcome.split_once(' ').unwrap_or((&outcome, ""));
            let start = |n: usize| reason.get(..n).unwrap_or(reason).to_owned();
            for reason in [start(2), start(3), start(4), start(7), reason.to_owned()] {
                for word in [word, "good", "no", "g", "n", "w", "r"] {
                    lines.push(format!("{n} {load} {word} {reason}").trim().to_owned());
                    lines.push(
                        format!("{n} {lift} {load} {word} {reason}")
                            .trim()
                            .to_owned(),
                    );
                }
            }
        }
        "pass" => {
            for word in ["p", "re"] {
                lines.extend([word.to_owned(), format!("{n} {word}")]);
            }
        }
        "start" => {
            lines.push(format!("start {lift}"));
            lines.push(format!("start {lift} {detail}"));
        }
        "break" | "check" | "clock" => {
            lines.push(starts(&row.act).to_owned());
            lines.push(format!("{} {detail}", starts(&row.act)));
        }
        "withdraw" | "disqualify" => {
            let lift = lift.get(..2).unwrap_or(lift);
            lines.push(
                format!("{n} {} {lift} {detail}", starts(&row.act)).replace("  ", " "),
            );
        }
        "absent" | "here" | "away" | "back" | "extra" | "stop" | "overrule" | "note" => {
            lines.push(
                format!("{n} {} {detail}", starts(&row.act))
                    .trim()
                    .to_owned(),
            );
            let plain = detail.replacen(':', "", 1);
            lines.push(format!("{n} {} {plain}", starts(&row.act)));
            let (ruling, why) = plain.split_once(' ').unwrap_or((&plain, ""));
            let letter = ruling.get(..1).unwrap_or(ruling);
            lines.push(format!("{n} {} {letter} {why}", starts(&row.act)));
        }
        "close" => lines.push(format!("clos {detail}").trim().to_owned()),
        "loaded" => {
            for at in ["".to_owned(), format!("{} ", row.attempt)] {
                lines.push(format!("{n} {at}l {load} {}", &detail[..1]));
            }
            lines.push(format!("l {load} {}", &detail[..1]));
        }
        "call" => lines.push(format!("call {n}")),
        _ => {}
    }
    lines
}
