//! The settings of a day as a list of fields.

use crate::bar::disc_sets;
use crate::day::{Facts, Platform, Revision, Stamp};
use crate::desk::effects::BackupsTold;
use crate::desk::plan;
use crate::desk::widget::form::{Field, Kind};
use crate::rules::{Format, Key, Rules, format_named, key_groups, keys};

/// The key of the field that looks for rules.
pub const FIND: &str = "find";

/// The key of the field that takes in a record book.
pub const BOOK: &str = "book";

/// The key of the field that writes the record book.
pub const WRITE_BOOK: &str = "book/write";

/// Rules that stand in the upper part of the list.
const ABOVE: [&str; 5] = [
    "judges",
    "clock",
    "posting-name",
    "posting-bodyweight",
    "posting-category",
];

/// All settings, as they are now; of the rules those that `find` is in, which
/// then come first.
pub fn fields(facts: &Facts, find: &str, backups: &BackupsTold) -> Vec<Field> {
    let base = format_named(&facts.format)
        .ok()
        .and_then(|format| Some((format, format.rules(facts.bar_unit).ok()?)));
    let rules = RuleFields {
        facts,
        base: base.as_ref().map(|(format, rules)| (*format, rules)),
    };
    let mut list = of_day(facts, &rules);
    list.extend(of_platforms(facts));
    list.extend(of_sessions(facts));
    list.extend(of_backups(backups));
    list.extend(of_records(facts));
    let mut found = rules.found(find);
    if find.is_empty() {
        list.extend(found);
        return list;
    }
    found.extend(list);
    found
}

fn of_day(facts: &Facts, rules: &RuleFields<'_>) -> Vec<Field> {
    let mut list = vec![
        Field::heading("Day"),
        Field::text("name", "Name", &*facts.name, "What the day is called."),
        Field::text(
            "date",
            "Date",
            facts.date.to_string(),
            "Write it as 2026-11-17.",
        ),
        Field::text(
            "venue",
            "Venue",
            &*facts.venue,
            "A line about the place, for papers.",
        )
        .or("none"),
        Field::text(
            "school",
            "School",
            &*facts.school.name,
            "The school's name, for papers; drop a PNG or JPEG on this window for its \
             picture.",
        )
        .or("none"),
    ];
    list.extend(
        [("judges", "Judges"), ("clock", "Clock, seconds")]
            .map(|(name, label)| rules.field(name, label)),
    );
    list.push(Field::heading("Posting"));
    list.extend(
        [
            ("posting-name", "Names on boards and posted papers"),
            ("posting-bodyweight", "Bodyweights posted"),
            ("posting-category", "Categories posted"),
        ]
        .map(|(name, label)| rules.field(name, label)),
    );
    list
}

fn of_platforms(facts: &Facts) -> Vec<Field> {
    let mut list = vec![Field::heading("Platforms")];
    let n = facts.platforms.len();
    list.push(Field::text(
        "platforms",
        "How many",
        n.to_string(),
        "A whole number from 1 to 24.",
    ));
    for (number, platform) in (1..).zip(&facts.platforms) {
        list.push(
            Field::text(
                &format!("platform.{number}"),
                &format!("Label of platform {number}"),
                &*platform.label,
                "Such as Rack 2; blank is the number.",
            )
            .or(format!("platform {number}")),
        );
        list.extend(on_hand(facts, number, platform));
    }
    list
}

/// Discs and bar of a platform: its own, or blank for the rules'.
fn on_hand(facts: &Facts, number: u8, platform: &Platform) -> [Field; 2] {
    let unit = facts.bar_unit;
    let discs = platform.discs.as_ref().map(|discs| discs.show(unit));
    let bar = platform
        .bar_on_hand
        .as_ref()
        .map(|bar| match bar.unit == unit {
            true => bar.typed.clone(),
            false => format!("{} {}", bar.typed, bar.unit),
        });
    let sets: Vec<&str> = disc_sets().iter().map(|set| set.name.as_str()).collect();
    let (usual, _) = &facts.rules.discs;
    let (f, m) = (facts.rules.bar_f, facts.rules.bar_m);
    [
        Field::text(
            &format!("discs.{number}"),
            &format!("Discs on hand on platform {number}"),
            discs.unwrap_or_default(),
            &format!(
                "In pairs, such as 20x5 10x2 2.5, or a set: {}; blank is the rules' {usual}.",
                sets.join(", ")
            ),
        )
        .or(format!("by the rules: {usual}")),
        Field::text(
            &format!("bar.{number}"),
            &format!("Only bar of platform {number}, with collars"),
            bar.unwrap_or_default(),
            &format!(
                "Such as 45 lb; blank is the rules': {} for women, {} for men.",
                f.show_with_unit(unit),
                m.show_with_unit(unit)
            ),
        )
        .or(match f == m {
            true => format!("by the rules: {}", f.show_with_unit(unit)),
            false => format!(
                "by the rules: {} for women, {} for men",
                f.show_with_unit(unit),
                m.show_with_unit(unit)
            ),
        }),
    ]
}

fn of_sessions(facts: &Facts) -> Vec<Field> {
    let mut list = vec![Field::heading("Sessions")];
    for (name, session) in &facts.sessions {
        let time = |t: Option<chrono::NaiveTime>| {
            t.map(|t| t.format("%H:%M").to_string()).unwrap_or_default()
        };
        let plan = match (session.start, session.end) {
            (None, None) => String::new(),
            (start, end) => format!("{}-{}", time(start), time(end)),
        };
        list.push(
            Field::text(
                &format!("session.{name}"),
                &format!("Plan of session {name}"),
                plan,
                "Write it as 10:05-10:50.",
            )
            .or("no times"),
        );
        if let Some(times) = plan::times(facts, name, None) {
            list.push(Field::note("Before it", format!("{}.", times.join(", "))));
        }
        list.extend(revisions(facts, Some(name)));
        list.push(if session.closed {
            Field::text(
                &format!("reopen/{name}"),
                &format!("Session {name} is closed; reopen"),
                "",
                "Type why, and Enter reopens it.",
            )
        } else {
            Field::press(
                &format!("close/{name}"),
                &format!("Close session {name}"),
                "Enter closes it: nothing more is called or ruled in it.",
            )
        });
    }
    list.push(Field::text(
        "session",
        "New session",
        "",
        "Type its name and plan: 2 10:55-11:40.",
    ));
    list.extend(revisions(facts, None));
    list.push(if facts.closed {
        Field::text(
            "reopen",
            "The day is closed; reopen",
            "",
            "Type why, and Enter reopens it.",
        )
    } else {
        Field::press(
            "close",
            "Close the day",
            "Enter closes it: results are final until it is reopened with a reason.",
        )
    });
    list
}

fn of_backups(told: &BackupsTold) -> Vec<Field> {
    let mut list = vec![
        Field::heading("Backups"),
        Field::text(
            "backup.folder",
            "Folder for backups",
            &*told.folder,
            "A folder on another disk, such as a stick: a copy is put there every five \
             minutes, at breaks and at the end. Blank: none.",
        )
        .or("none: nothing is copied"),
    ];
    if told.folder.is_empty() {
        return list;
    }
    let mut last = told.age.clone();
    if let Some(file) = &told.file {
        last = format!("{last}: {}", file.display());
    }
    if told.failing {
        last.push_str("; the folder can't be written now, and it is tried again");
    }
    list.push(Field::note("Last backup", last));
    list.push(Field::press(
        "backup.now",
        "Back up now",
        "Enter makes one at once.",
    ));
    list.push(Field::text(
        "backup.restore",
        "Go on from a backup",
        "",
        "Type the word last, or a backup's file: a copy of it takes the place of this \
         day, which is kept under another name.",
    ));
    list
}

/// The record book: how much there is of it, in from a file, out to one.
fn of_records(facts: &Facts) -> Vec<Field> {
    let n = facts.records.len();
    let s = if n == 1 { "" } else { "s" };
    let mut list = vec![
        Field::heading("Records of the school"),
        Field::text(
            BOOK,
            "Take in a record book",
            "",
            "The path of its .csv file, then Enter; or drop the file on this window. A record \
             that it doesn't name stays.",
        )
        .or(format!("{n} record{s} in the book")),
    ];
    if n > 0 {
        list.push(Field::press(
            WRITE_BOOK,
            "Write the record book",
            "Enter writes it as it now stands, with what today broke, beside the day's file; \
             the next day takes it in.",
        ));
    }
    list
}

/// What was closed and reopened, a line each, numbered from 1.
fn revisions(facts: &Facts, session: Option<&str>) -> Vec<Field> {
    let of = |r: &&Revision| r.session.as_deref() == session;
    (1..)
        .zip(facts.revisions.iter().filter(of))
        .map(|(n, revision)| {
            let mut words = format!("closed {}", moment(revision.closed_at));
            if let Some((at, why, hand)) = &revision.reopened {
                words.push_str(&format!("; reopened {} by {hand}: {why}", moment(*at)));
            }
            Field::note(&format!("Revision {n}"), words)
        })
        .collect()
}

fn moment(stamp: Stamp) -> String {
    stamp.local().format("%Y-%m-%d %H:%M").to_string()
}

/// Rules as fields, each with its meaning and where its word comes from.
struct RuleFields<'a> {
    facts: &'a Facts,
    /// The shipped format that the day was made by, with its own rules.
    base: Option<(&'a Format, &'a Rules)>,
}

impl RuleFields<'_> {
    /// The rules in their groups; those that a word is in, where one is looked for.
    fn found(&self, find: &str) -> Vec<Field> {
        let find = find.to_lowercase();
        let shown = |key: &&Key| {
            if find.is_empty() {
                return !ABOVE.contains(&key.name);
            }
            let name = words(key.name).to_lowercase();
            key.name.contains(&find)
                || name.contains(&find)
                || key.meaning.to_lowercase().contains(&find)
        };
        let groups: Vec<(&str, Vec<&Key>)> = key_groups()
            .into_iter()
            .map(|(heading, keys)| (heading, keys.iter().filter(shown).collect()))
            .filter(|(_, keys): &(&str, Vec<&Key>)| !keys.is_empty())
            .collect();
        let n: usize = groups.iter().map(|(_, keys)| keys.len()).sum();
        let title = self.facts.format.replace('-', " ");
        let mut list = vec![
            Field::heading(&format!("Rules, begun as {title}")),
            Field::text(
                FIND,
                "Find a rule",
                find.clone(),
                "Type a word that is in its name or meaning, such as record; an empty field \
             shows all rules again.",
            ),
        ];
        match n {
            0 => list.push(Field::note("No rule has that word.", "")),
            1 if !find.is_empty() => list.push(Field::note("1 rule has it.", "")),
            n if !find.is_empty() => {
                list.push(Field::note(&format!("{n} rules have it."), ""));
            }
            _ => {}
        }
        for (heading, keys) in groups {
            list.push(Field::heading(heading));
            let fields = keys.into_iter();
            list.extend(fields.map(|key| self.field(key.name, &words(key.name))));
        }
        list
    }

    /// A rule; a short list of single words is chosen, all else is typed.
    fn field(&self, name: &str, label: &str) -> Field {
        let Some(key) = keys().iter().find(|k| k.name == name) else {
            return Field::heading(label);
        };
        let now = (key.get)(&self.facts.rules);
        let hint = format!(
            "{} Allowed: {}.{}",
            key.meaning,
            key.allowed,
            self.source(key, &now)
        );
        let mut field = Field::text(name, label, now, &hint);
        let choices: Vec<String> = key.allowed.split(", ").map(str::to_owned).collect();
        if choices.iter().all(|c| !c.contains(' ')) {
            field.kind = Kind::Choice(choices);
        }
        field
    }

    /// Where a rule's word comes from: the format's source, or what the format
    /// has where the day has another word.
    fn source(&self, key: &Key, now: &str) -> String {
        let Some((format, rules)) = self.base else {
            return String::new();
        };
        let own = (key.get)(rules);
        let source = format.source(key.name, self.facts.bar_unit);
        match (own == now, source.is_empty()) {
            (true, true) => String::new(),
            (true, false) => format!(" Source: {source}."),
            (false, true) => format!(" Set for this day; the format has {own}."),
            (false, false) => {
                format!(" Set for this day; the format has {own}, source: {source}.")
            }
        }
    }
}

fn words(name: &str) -> String {
    let mut words = name.replace('-', " ");
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words
}
