//! Backups in a second folder and the way back, at the desk; and a second
//! opener who reads along, in another process.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;
mod desk_support;

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};

use bin::has;
use desk_support::{
    desk_on, desk_with_meet, empty_desk, later, pressed, settings, typed,
};
use iced::Size;
use iced_test::Simulator;
use maxday::day::{Command, Event, Stamp};
use maxday::desk::app::{Desk, Message};
use maxday::desk::effects::{BACKUP_EVERY_MS, BACKUP_RETRY_MS};
use maxday::desk::screen::{ScreenId, day};
use maxday::desk::widget::form;
use maxday::file::{
    FileError, Live, check, keep, newest_backup, restore, stem_of_backup,
};

/// Higher than any window, so that all settings are shown.
const ALL: Size = Size::new(1366.0, 9000.0);

fn now() -> Stamp {
    desk_support::start()
}

fn note(text: &str) -> Command {
    Command::Note {
        number: None,
        act: None,
        text: text.to_owned(),
        platform: None,
    }
}

fn sound(path: &Path) {
    let report = check(path).unwrap().to_string();
    assert!(report.ends_with("\nsound"), "{report}");
}

/// The remarks in a day's journal.
fn notes(path: &Path) -> Vec<String> {
    let live = Live::open_read(path).unwrap();
    let rows = live.day().journal().iter();
    rows.filter_map(|r| match &r.event {
        Event::Noted { text, .. } => Some(text.clone()),
        _ => None,
    })
    .collect()
}

fn shown(desk: &Desk, words: &str) -> bool {
    Simulator::with_size(settings(), ALL, desk.main())
        .find(words)
        .is_ok()
}

/// Everything that stands in the window, one text a line.
fn texts(desk: &Desk) -> String {
    let mut ui = Simulator::with_size(settings(), ALL, desk.main());
    let mut all = Vec::new();
    let _ = ui.find(|candidate: iced_test::selector::Candidate<'_>| {
        if let iced_test::selector::Candidate::Text { content, .. } = candidate {
            all.push(content.to_owned());
        }
        None::<()>
    });
    all.join("\n")
}

/// Goes to a setting of the day, types a word and presses Enter.
fn set(desk: &mut Desk, label: &str, word: &str) {
    pressed(desk, "F2");
    let mut ui = Simulator::with_size(settings(), ALL, desk.main());
    let _ = ui.click(label).unwrap();
    for message in ui.into_messages().collect::<Vec<_>>() {
        let _ = desk.update(message);
    }
    for message in [
        form::Message::Typed(word.to_owned()),
        form::Message::Entered,
    ] {
        let _ = desk.update(Message::Day(day::Message::Form(message)));
    }
}

fn beat(desk: &mut Desk) {
    let _ = desk.update(Message::Beat);
}

/// A desk with a meet, and a folder beside it for backups.
fn with_stick(name: &str) -> (Desk, PathBuf) {
    let mut desk = desk_with_meet(name);
    let day = desk.effects_mut().path().unwrap().to_owned();
    let stick = day.with_file_name("stick");
    std::fs::create_dir_all(&stick).unwrap();
    set(
        &mut desk,
        "Folder for backups",
        &stick.display().to_string(),
    );
    (desk, stick.join("meet backup.maxday"))
}

fn rows(path: &Path) -> usize {
    Live::open_read(path).unwrap().day().journal().len()
}

fn minutes(desk: &mut Desk, ms: i64) {
    later(desk, ms / 1000);
    beat(desk);
}

#[test]
fn a_day_is_copied_when_a_folder_is_chosen_and_every_few_minutes() {
    let (mut desk, backup) = with_stick("timer");
    assert!(backup.is_file(), "{}", texts(&desk));
    sound(&backup);
    let first = rows(&backup);
    assert!(
        shown(&desk, "Meet of three, backup just now"),
        "{}",
        texts(&desk)
    );

    // Nothing new: nothing is copied, however late it is.
    let made = std::fs::metadata(&backup).unwrap().modified().unwrap();
    minutes(&mut desk, 3 * BACKUP_EVERY_MS);
    assert_eq!(
        std::fs::metadata(&backup).unwrap().modified().unwrap(),
        made
    );
    assert!(
        shown(&desk, "Meet of three, backup 15 min ago"),
        "{}",
        texts(&desk)
    );

    pressed(&mut desk, "F6");
    typed(&mut desk, "note the bar is bent");
    beat(&mut desk);
    assert_eq!(rows(&backup), first + 1);
    typed(&mut desk, "note another bar");
    minutes(&mut desk, BACKUP_EVERY_MS - 5_000);
    assert_eq!(rows(&backup), first + 1, "too soon");
    minutes(&mut desk, 5_000);
    assert_eq!(rows(&backup), first + 2);
    sound(&backup);
    // Nobody holds the copy, and no part of it is left about.
    let copy = Live::open(&backup, now(), "office").unwrap();
    assert!(!copy.is_read_only() && copy.taken_over().is_none());
    drop(copy);
    let names = bin::names(backup.parent().unwrap());
    assert_eq!(names, ["meet backup.maxday"]);
}

#[test]
fn a_break_and_the_end_of_the_day_are_copied_at_once() {
    let (mut desk, backup) = with_stick("break");
    pressed(&mut desk, "F6");
    typed(&mut desk, "");
    beat(&mut desk);
    let before = rows(&backup);
    typed(&mut desk, "break 10");
    beat(&mut desk);
    assert!(rows(&backup) > before, "{}", texts(&desk));

    let before = rows(&backup);
    typed(&mut desk, "note so far");
    beat(&mut desk);
    assert_eq!(rows(&backup), before);
    typed(&mut desk, "close");
    beat(&mut desk);
    assert!(rows(&backup) > before + 1);
    let closed = Live::open_read(&backup).unwrap();
    assert!(closed.day().facts().closed, "{}", texts(&desk));
    drop(closed);

    // Whatever comes last is copied when the day is let go.
    set(&mut desk, "The day is closed; reopen", "a protest");
    let day = desk.effects_mut().path().unwrap().to_owned();
    drop(desk);
    assert_eq!(rows(&backup), rows(&day));
    assert!(!Live::open_read(&backup).unwrap().day().facts().closed);
}

#[test]
fn a_stick_that_is_gone_is_said_and_tried_again_and_the_day_goes_on() {
    let (mut desk, backup) = with_stick("gone");
    let stick = backup.parent().unwrap().to_owned();
    let away = stick.with_file_name("pulled out");
    std::fs::rename(&stick, &away).unwrap();
    pressed(&mut desk, "F6");
    typed(&mut desk, "note first");
    minutes(&mut desk, BACKUP_EVERY_MS);
    let said = desk.table().answer().unwrap().clone().unwrap();
    has(&said, &["No backup could be made", "stick", "tried again"]);
    let bar = format!(
        "No backup can be made in {}; the day goes on, and it is tried again.",
        stick.display()
    );
    assert!(shown(&desk, &bar), "{}", texts(&desk));

    // The day goes on, and nothing is said twice.
    typed(&mut desk, "note second");
    minutes(&mut desk, BACKUP_RETRY_MS);
    let said = desk.table().answer().unwrap().clone().unwrap();
    assert!(!said.contains("backup"), "{said}");
    assert!(shown(&desk, &bar));
    assert!(!stick.exists());

    std::fs::rename(&away, &stick).unwrap();
    minutes(&mut desk, BACKUP_RETRY_MS);
    let said = desk.table().answer().unwrap().clone().unwrap();
    has(&said, &["Backups are made again", "meet backup.maxday"]);
    assert!(!shown(&desk, &bar));
    assert_eq!(notes(&backup), ["first", "second"]);
}

#[test]
fn a_folder_that_is_none_is_refused_and_the_choice_is_remembered() {
    let (mut desk, backup) = with_stick("choice");
    let day = desk.effects_mut().path().unwrap().to_owned();
    let stick = backup.parent().unwrap().display().to_string();
    set(&mut desk, "Folder for backups", "/no/such/folder");
    has(&texts(&desk), &["There is no folder /no/such/folder"]);
    let own = day.parent().unwrap().display().to_string();
    set(&mut desk, "Folder for backups", &own);
    has(&texts(&desk), &["the day's own folder"]);
    assert_eq!(desk.effects_mut().backups_told().folder, stick);
    drop(desk);
    let mut again = desk_on(&day);
    assert_eq!(again.effects_mut().backups_told().folder, stick);
    beat(&mut again);
    assert_eq!(rows(&backup), rows(&day));
    // An empty folder ends it.
    set(&mut again, "Folder for backups", "");
    assert_eq!(again.effects_mut().backups_told().folder, "");
    again.effects_mut().submit(&note("more")).unwrap();
    minutes(&mut again, 2 * BACKUP_EVERY_MS);
    assert!(rows(&backup) < rows(&day));
}

#[test]
fn the_day_screen_goes_on_from_a_backup_and_keeps_what_was() {
    let (mut desk, backup) = with_stick("restore");
    let day = desk.effects_mut().path().unwrap().to_owned();
    pressed(&mut desk, "F6");
    typed(&mut desk, "note kept for later");
    set(&mut desk, "Go on from a backup", "last");
    assert_eq!(desk.screen(), Some(ScreenId::Day));
    let said = desk.said().unwrap().clone().unwrap();
    has(
        &said,
        &[
            "meet backup.maxday",
            "is kept in",
            "meet before 20261121-09",
        ],
    );
    assert_eq!(desk.effects_mut().path(), Some(day.as_path()));

    // The day is the backup, and says so in its journal; it can be gone on
    // with.
    let told = notes(&day);
    assert_eq!(told.len(), 1, "{told:?}");
    has(&told[0], &["This is the backup", "is kept in"]);
    desk.effects_mut().submit(&note("goes on")).unwrap();
    sound(&day);
    let folder = day.parent().unwrap();
    let names = bin::names(folder);
    let kept: Vec<&String> = names
        .iter()
        .filter(|n| n.starts_with("meet before"))
        .collect();
    assert_eq!(kept.len(), 1, "{names:?}");
    let kept = folder.join(kept[0]);
    assert_eq!(notes(&kept), ["kept for later"]);
    sound(&kept);
    assert!(names.iter().all(|n| !n.ends_with(".part")), "{names:?}");

    // What isn't a backup of this day is refused, and nothing happens.
    let other = folder.join("other.maxday");
    let sample = maxday::samples::Sample::Meet;
    maxday::samples::make(&other, sample, now()).unwrap();
    set(
        &mut desk,
        "Go on from a backup",
        &other.display().to_string(),
    );
    has(&texts(&desk), &["is a backup of another day"]);
    set(&mut desk, "Go on from a backup", "/no/such/file.maxday");
    has(&texts(&desk), &["There is no"]);
    assert_eq!(notes(&day).len(), 2);
    assert!(backup.is_file());
}

#[test]
fn the_first_screen_goes_on_from_the_last_days_backup_also_where_the_day_is_gone() {
    let (mut desk, backup) = with_stick("first");
    let day = desk.effects_mut().path().unwrap().to_owned();
    pressed(&mut desk, "ctrl+o");
    assert!(desk.screen().is_none());
    assert!(shown(&desk, "Go on from its backup"), "{}", texts(&desk));
    // The laptop's file is damaged: half of it is gone.
    let bytes = std::fs::read(&day).unwrap();
    std::fs::write(&day, &bytes[..bytes.len() / 2]).unwrap();
    click(&mut desk, "Go on from its backup");
    assert!(desk.screen().is_some(), "{}", texts(&desk));
    assert_eq!(desk.effects_mut().path(), Some(day.as_path()));
    sound(&day);
    assert_eq!(rows(&day), rows(&backup) + 1);
    // Now it is gone altogether.
    pressed(&mut desk, "ctrl+o");
    drop(desk);
    std::fs::remove_file(&day).unwrap();
    let mut desk = again(&day);
    click(&mut desk, "Go on from its backup");
    assert_eq!(desk.effects_mut().path(), Some(day.as_path()));
    sound(&day);
}

/// A desk on its first screen over the folder of a day.
fn again(day: &Path) -> Desk {
    use maxday::desk::effects::{Effects, Folders, Moment};
    let folder = day.parent().unwrap();
    let folders = Folders {
        config: Some(folder.join("config")),
        documents: folder.to_owned(),
    };
    Desk::new(Effects::new(Moment::Fixed(now()), folders))
}

fn click(desk: &mut Desk, label: &str) {
    let mut ui = Simulator::with_size(settings(), ALL, desk.main());
    let _ = ui.click(label).unwrap();
    for message in ui.into_messages().collect::<Vec<_>>() {
        let _ = desk.update(message);
    }
}

#[test]
fn an_earlier_backup_is_replaced_only_by_what_goes_on_from_it() {
    let (mut desk, backup) = with_stick("branch");
    let day = desk.effects_mut().path().unwrap().to_owned();
    let old = day.with_file_name("old.maxday");
    let _ = std::fs::copy(&day, &old).unwrap();
    desk.effects_mut().submit(&note("newer")).unwrap();
    minutes(&mut desk, BACKUP_EVERY_MS);
    assert_eq!(notes(&backup), ["newer"]);
    drop(desk);
    // Somebody goes on from an older copy under the same name.
    std::fs::remove_file(&day).unwrap();
    std::fs::rename(&old, &day).unwrap();
    let folder = backup.parent().unwrap();
    let kept = keep(&day, folder).unwrap();
    assert_eq!(kept.path, folder.join("meet backup 2.maxday"));
    assert_eq!(notes(&backup), ["newer"]);
    let again = keep(&day, folder).unwrap();
    assert_eq!(again.path, kept.path);
    // A torn file isn't written over either.
    std::fs::write(&kept.path, "torn").unwrap();
    let third = keep(&day, folder).unwrap();
    assert_eq!(third.path, folder.join("meet backup 3.maxday"));
    assert_eq!(std::fs::read(&kept.path).unwrap(), b"torn");
    let newest = newest_backup(&day, folder).unwrap().0;
    assert!(newest == third.path || newest == kept.path, "{newest:?}");
    for (file, stem) in [
        ("meet backup.maxday", "meet"),
        ("meet backup 12.maxday", "meet"),
        ("meet 2.maxday", "meet 2"),
        ("backup.maxday", "backup"),
    ] {
        assert_eq!(stem_of_backup(Path::new(file)), stem);
    }
}

#[test]
fn what_a_crash_left_beside_the_day_goes_with_it() {
    let (desk, backup) = with_stick("hot");
    drop(desk);
    let day = backup.parent().unwrap().with_file_name("meet.maxday");
    let left = day.with_file_name("meet.maxday-journal");
    // Nothing of the file has reached the disk but its name.
    std::fs::write(&day, "").unwrap();
    std::fs::write(&left, "cut off").unwrap();
    let kept = restore(&backup, &day, now()).unwrap().unwrap();
    assert!(!left.exists());
    assert_eq!(std::fs::read(&kept).unwrap(), b"");
    let mut name = kept.into_os_string();
    name.push("-journal");
    assert_eq!(std::fs::read(PathBuf::from(name)).unwrap(), b"cut off");
    sound(&day);
}

#[test]
fn a_day_that_somebody_holds_is_not_put_away() {
    let (mut desk, backup) = with_stick("held");
    let day = desk.effects_mut().path().unwrap().to_owned();
    let before = rows(&day);
    let error = restore(&backup, &day, now()).unwrap_err();
    assert!(matches!(error, FileError::Held { .. }), "{error}");
    assert_eq!(rows(&day), before);
    let error = restore(&day, &day, now()).unwrap_err();
    assert!(matches!(error, FileError::BackupOntoItself(_)), "{error}");
    let none = backup.with_file_name("none.maxday");
    assert!(matches!(
        restore(&none, &day, now()),
        Err(FileError::NotFound(_))
    ));
}

/// Another process that holds a day and enters what it is told.
struct Holder {
    child: std::process::Child,
    answers: BufReader<std::process::ChildStdout>,
    said: u32,
}

impl Holder {
    fn of(day: &Path) -> Self {
        let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_maxday"))
            .args([Path::new("apply"), day, Path::new("-")])
            .stdin(std::process::Stdio::piped())
            .stdout(std::process::Stdio::piped())
            .spawn()
            .unwrap();
        let mut stdin = child.stdin.as_ref().unwrap();
        writeln!(stdin, "act,athlete,lift,load,detail").unwrap();
        let answers = BufReader::new(child.stdout.take().unwrap());
        Self {
            child,
            answers,
            said: 1,
        }
    }

    fn say(&mut self, row: &str) {
        self.said += 1;
        writeln!(self.child.stdin.as_ref().unwrap(), "{row}").unwrap();
        let mut answer = String::new();
        let _ = self.answers.read_line(&mut answer).unwrap();
        assert_eq!(answer, format!("ok {}\n", self.said));
    }
}

#[test]
fn a_desk_reads_along_while_another_process_holds_the_day() {
    let (desk, _) = with_stick("along");
    let day = desk_support_path(desk);
    let mut holder = Holder::of(&day);
    holder.say("here,3,,,");
    let mut desk = desk_on(&day);
    let told = desk.effects_mut().read_only().unwrap();
    has(
        &told,
        &["held by", &holder.child.id().to_string(), "only reads"],
    );
    assert!(shown(&desk, &told), "{}", texts(&desk));

    // Nothing can be entered, nor put away, nor copied over.
    let refused = desk.effects_mut().submit(&note("mine")).unwrap_err();
    has(&refused, &["held by"]);
    assert_eq!(desk.effects_mut().backup_due(), None);

    // What the other enters is here with the next beat.
    assert!(
        desk.facts()
            .entries
            .values()
            .all(|e| e.bodyweight.is_some())
    );
    holder.say("weigh,7,,61.5,");
    holder.say("start,,snatch,,A");
    holder.say("call,,,,");
    assert!(desk.facts().platforms[0].call.is_none());
    beat(&mut desk);
    let facts = desk.facts();
    assert!(facts.platforms[0].call.is_some());
    let lot7 = facts.entries.values().find(|e| e.number == 7).unwrap();
    assert_eq!(lot7.bodyweight.as_ref().unwrap().typed, "61.5");
    pressed(&mut desk, "F6");
    assert!(shown(&desk, "Ana Ruiz"), "{}", texts(&desk));

    // It ends as it should: the reader is told, and can take the day.
    drop(holder.child.stdin.take());
    assert!(holder.child.wait().unwrap().success());
    beat(&mut desk);
    let told = desk.effects_mut().read_only().unwrap();
    has(&told, &["has let the day go", "open it again"]);
    pressed(&mut desk, "ctrl+o");
    desk.effects_mut().open(&day).unwrap();
    assert_eq!(desk.effects_mut().read_only(), None);
    desk.effects_mut().submit(&note("mine")).unwrap();
    assert_eq!(notes(&day), ["mine"]);
}

#[test]
fn a_killed_process_is_taken_over_by_the_desk_and_the_journal_says_so() {
    let (desk, _) = with_stick("killed");
    let day = desk_support_path(desk);
    let mut holder = Holder::of(&day);
    holder.say("here,3,,,");
    let id = holder.child.id().to_string();
    holder.child.kill().unwrap();
    let _ = holder.child.wait().unwrap();
    let mut desk = desk_on(&day);
    assert_eq!(desk.effects_mut().read_only(), None);
    let told = notes(&day);
    assert_eq!(told.len(), 1, "{told:?}");
    has(&told[0], &["taken over", &id]);
    desk.effects_mut().submit(&note("goes on")).unwrap();
    drop(desk);
    sound(&day);
}

/// Lets a desk's day go; where it is.
fn desk_support_path(mut desk: Desk) -> PathBuf {
    let day = desk.effects_mut().path().unwrap().to_owned();
    drop(desk);
    day
}

#[test]
fn without_a_folder_nothing_is_copied_or_said() {
    let mut desk = empty_desk("none");
    beat(&mut desk);
    assert_eq!(desk.effects_mut().backup_due(), None);
    assert!(!shown(&desk, "Go on from its backup"));
    let mut desk = desk_with_meet("plain");
    beat(&mut desk);
    assert!(shown(&desk, "Meet of three"), "{}", texts(&desk));
    assert_eq!(desk.said(), None);
}
