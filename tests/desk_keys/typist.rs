//! Somebody at the keyboard who knows all keys.

use std::collections::BTreeMap;

use maxday::day::{Command, Context, Day, Event, Light, Outcome, decide};
use maxday::desk::app::{Desk, Message};
use maxday::desk::call_line::{MOST_REASONS, lights_by_key, read, rise_by_key};
use maxday::desk::screen::journal::{self, Journal};
use maxday::exchange::acts::{ActRow, command, read_acts, stamp};
use maxday::exchange::tables::{Style, csv};
use maxday::lift::catalogue;
use maxday::measure::Mass;
use maxday::samples::Sample;
use maxday::sheets::{Audience, standings_table};
use maxday::standings::Basis;

use crate::desk_support::{desk_of_sample, press};

/// What is pressed for one act.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Pressed {
    /// A key by its name.
    Key(String),
    /// A text on the call line, with Enter.
    Line(String),
}

impl Pressed {
    fn keys(&self) -> usize {
        match self {
            Self::Key(_) => 1,
            Self::Line(text) => text.chars().count() + 1,
        }
    }
}

pub struct Typist {
    desk: Desk,
    rows: Vec<ActRow>,
    sample: Sample,
    keys: usize,
    attempts: usize,
    /// Whether the first station check is signed.
    begun: bool,
    by_act: BTreeMap<String, (usize, usize)>,
    dear: Vec<(usize, String)>,
    /// The sample's names of acts, and the file's.
    ids: Vec<(String, String)>,
}

impl Typist {
    pub fn new(sample: Sample) -> Self {
        Self {
            desk: desk_of_sample(sample),
            rows: read_acts(sample.acts()).unwrap(),
            sample,
            keys: 0,
            attempts: 0,
            begun: false,
            by_act: BTreeMap::new(),
            dear: Vec::new(),
            ids: Vec::new(),
        }
    }

    pub fn play(&mut self) {
        for row in self.rows.clone() {
            self.act(&row);
        }
    }

    fn act(&mut self, row: &ActRow) {
        let facts = self.desk.facts();
        let at = stamp(row, facts.date, 0).unwrap().unwrap();
        self.desk.effects_mut().set_now(at);
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
        assert!(
            entered > acts,
            "{row:?}: {best:?}: {:?}",
            self.desk.table().answer()
        );
        // What comes before the first station check belongs to making the day and
        // to the scale, which has its own count.
        self.begun |= row.act == "check";
        if !self.begun {
            self.keys = 0;
            return;
        }
        let took = self.keys - before;
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

    /// What only another screen does.
    fn elsewhere(&mut self, row: &ActRow, wanted: &Command) {
        match wanted {
            Command::Correct { .. } | Command::Annul { .. } => {
                self.in_journal(row, wanted);
            }
            _ => {
                self.keys += 4 + row.detail.chars().count() + row.load.chars().count();
                self.dear.push((0, format!("elsewhere {row:?}")));
                self.desk.effects_mut().submit(wanted).unwrap();
            }
        }
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
        let press = press(name);
        let _ = self
            .desk
            .update(Message::Pressed(iced::window::Id::unique(), press));
    }

    pub fn report(&self) {
        let (keys, attempts) = (self.keys, self.attempts);
        let mean = self.keys_an_attempt();
        println!(
            "{:?}: {keys} keys, {attempts} attempts, {mean:.2} each",
            self.sample
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
    }

    pub fn keys_an_attempt(&self) -> f64 {
        self.keys as f64 / self.attempts as f64
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
    let detail = row.detail.replace("; ", " ");
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
            lines.push(format!(
                "{n} {} {}",
                starts(&row.act),
                detail.replacen(':', "", 1)
            ));
        }
        "close" => lines.push(format!("clos {detail}").trim().to_owned()),
        "loaded" => lines.push(format!("{n} l {load} {}", &detail[..1])),
        "call" => lines.push(format!("call {n}")),
        _ => {}
    }
    lines
}
