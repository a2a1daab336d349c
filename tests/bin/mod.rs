//! The program itself, run as people run it, in folders of its own.

// Each test crate uses its own share of it.
#![allow(dead_code)]

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};

static FOLDERS: AtomicU32 = AtomicU32::new(0);

/// The header of acts.
pub const ACTS: &str = "act,athlete,lift,attempt,load,detail,platform,at,by,id";

/// A folder of its own that goes away with the test.
pub struct Folder {
    path: PathBuf,
}

/// What a run of the program came to.
pub struct Ran {
    /// The exit code; `None` where it was killed.
    pub code: Option<i32>,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
    said: String,
}

impl Folder {
    /// A new, empty folder.
    pub fn new() -> Self {
        let n = FOLDERS.fetch_add(1, Ordering::Relaxed);
        let name = format!("maxday-bin-{}-{n}", std::process::id());
        let path = std::env::temp_dir().join(name);
        let _ = std::fs::remove_dir_all(&path);
        std::fs::create_dir_all(&path).unwrap();
        Self { path }
    }

    /// Where a file of that name is.
    pub fn file(&self, name: &str) -> PathBuf {
        self.path.join(name)
    }

    /// Writes a file.
    pub fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        std::fs::write(self.file(name), bytes).unwrap();
    }

    /// A file's bytes.
    pub fn bytes(&self, name: &str) -> Vec<u8> {
        std::fs::read(self.file(name)).unwrap()
    }

    /// The files in it, in order.
    pub fn names(&self) -> Vec<String> {
        names(&self.path)
    }

    /// The program with its arguments, to be run in this folder.
    pub fn command(&self, line: &str) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_maxday"));
        let _ = command.current_dir(&self.path).args(words(line));
        command
    }

    /// Runs the program in this folder; double quotes keep spaces together.
    pub fn run(&self, line: &str) -> Ran {
        let output = self.command(line).stdin(Stdio::null()).output().unwrap();
        ran(line, output)
    }

    /// Runs the program with a text on its standard input.
    pub fn feed(&self, line: &str, input: impl AsRef<[u8]>) -> Ran {
        let mut child = self
            .command(line)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut stdin = child.stdin.take().unwrap();
        let input = input.as_ref().to_vec();
        let writer = std::thread::spawn(move || {
            let _ = stdin.write_all(&input);
        });
        let output = child.wait_with_output().unwrap();
        writer.join().unwrap();
        ran(line, output)
    }

    /// Starts the program with pipes on all sides.
    pub fn spawn(&self, line: &str) -> Child {
        self.command(line)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap()
    }

    /// Runs what has to succeed; gives standard output.
    #[track_caller]
    pub fn ok(&self, line: &str) -> String {
        self.run(line).ok()
    }

    /// Runs what has to fail with one sentence; gives the sentence.
    #[track_caller]
    pub fn no(&self, line: &str) -> String {
        self.run(line).sentence()
    }

    /// Writes acts (rows without their header) and applies them.
    #[track_caller]
    pub fn apply(&self, day: &str, rows: &str) {
        self.write("these-acts.csv", format!("{ACTS}\n{}\n", rows.trim()));
        let _ = self.ok(&format!("apply {day} these-acts.csv"));
    }

    /// Applies one act that has to be refused; gives the sentence. The day
    /// must say the same as before.
    #[track_caller]
    pub fn refused(&self, day: &str, row: &str) -> String {
        let before = self.ok(&format!("acts {day}"));
        let standings = self.ok(&format!("standings {day}"));
        self.write("this-act.csv", format!("{ACTS}\n{row}\n"));
        let ran = self.run(&format!("apply {day} this-act.csv"));
        assert_ne!(ran.code, Some(0), "taken: {row}");
        let sentence = ran.sentence();
        assert_eq!(
            before,
            self.ok(&format!("acts {day}")),
            "the day changed: {row}"
        );
        assert_eq!(standings, self.ok(&format!("standings {day}")), "{row}");
        sentence
    }

    /// Imports a roster.
    #[track_caller]
    pub fn roster(&self, day: &str, text: &str) -> String {
        self.write("this-roster.csv", text);
        self.ok(&format!("roster {day} this-roster.csv"))
    }

    /// Asserts that the day is sound.
    #[track_caller]
    pub fn sound(&self, day: &str) {
        let out = self.ok(&format!("check {day}"));
        assert_eq!(out.lines().last(), Some("sound"), "{out}");
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.path);
    }
}

impl Ran {
    /// Standard output of what has to succeed without a word of failure.
    #[track_caller]
    pub fn ok(self) -> String {
        assert_eq!(
            self.code,
            Some(0),
            "{}: {}{}",
            self.said,
            self.err,
            self.out
        );
        assert_eq!(self.err, "", "{}", self.said);
        self.out
    }

    /// The one sentence of what has to fail, without the program's name.
    #[track_caller]
    pub fn sentence(self) -> String {
        assert!(
            self.code.is_some_and(|c| c != 0),
            "{} succeeded: {}",
            self.said,
            self.out
        );
        assert_eq!(self.err.lines().count(), 1, "{}: {:?}", self.said, self.err);
        let line = self.err.trim_end_matches('\n');
        assert!(line.ends_with('.'), "no full stop: {line}");
        assert!(!line.contains("  ") && !line.contains(".."), "odd: {line}");
        assert_eq!(self.out, "", "{}", self.said);
        line.strip_prefix("maxday: ").unwrap_or(line).to_owned()
    }
}

fn ran(line: &str, output: std::process::Output) -> Ran {
    Ran {
        code: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
        said: format!("maxday {line}"),
    }
}

/// The names of the files in a folder, in order.
pub fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|f| f.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

/// Words parted by spaces; double quotes keep spaces.
fn words(line: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for (i, part) in line.split('"').enumerate() {
        if i % 2 == 1 {
            words.push(part.to_owned());
        } else {
            words.extend(part.split_whitespace().map(str::to_owned));
        }
    }
    words
}

/// Asserts that a text has all of these in it.
#[track_caller]
pub fn has(text: &str, parts: &[&str]) {
    for part in parts {
        assert!(text.contains(part), "“{part}” is not in:\n{text}");
    }
}

/// A table that was printed as CSV.
pub struct Sheet {
    /// Its header.
    pub header: Vec<String>,
    /// Its rows.
    pub rows: Vec<Vec<String>>,
}

impl Sheet {
    /// Reads a CSV text.
    #[track_caller]
    pub fn read(text: &str) -> Self {
        let mut rows: Vec<Vec<String>> = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(text.as_bytes())
            .records()
            .map(|r| r.unwrap().iter().map(str::to_owned).collect())
            .collect();
        let header = rows.remove(0);
        Self { header, rows }
    }

    /// The place of a column.
    #[track_caller]
    pub fn column(&self, name: &str) -> usize {
        match self.header.iter().position(|h| h == name) {
            Some(at) => at,
            None => panic!("no column {name} in {:?}", self.header),
        }
    }

    /// A cell of the row that has `value` in the column `key`.
    #[track_caller]
    pub fn cell(&self, key: &str, value: &str, name: &str) -> &str {
        let (key_at, at) = (self.column(key), self.column(name));
        match self.rows.iter().find(|r| r[key_at] == value) {
            Some(row) => &row[at],
            None => panic!("no row with {key} {value}"),
        }
    }

    /// The cell of an athlete, by lot.
    #[track_caller]
    pub fn of(&self, lot: u32, name: &str) -> &str {
        self.cell("lot", &lot.to_string(), name)
    }

    /// All cells of a column.
    #[track_caller]
    pub fn all(&self, name: &str) -> Vec<&str> {
        let at = self.column(name);
        self.rows.iter().map(|r| r[at].as_str()).collect()
    }
}

/// A small weightlifting meet in `day.maxday`: lots 1 to 3 in flight A, the
/// snatch started, nobody called.
pub fn small_meet(folder: &Folder) {
    let _ = folder.ok("new day.maxday --format weightlifting --date 2026-11-21");
    let _ = folder.roster("day.maxday", SMALL_ROSTER);
    folder.apply(
        "day.maxday",
        "start,,snatch,,,A,,2026-11-21T09:00:00,Table,",
    );
}

/// Three athletes whose openers are 60, 62 and 65 kg in the snatch.
pub const SMALL_ROSTER: &str = "\
lot,name,sex,flight,bodyweight,snatch,clean-and-jerk
1,Una Farrow,F,A,60.2,60,75
2,Dov Marsh,M,A,72.4,62,80
3,Ida Quill,F,A,66,65,82
";

/// A small max day in pounds in `day.maxday` on two racks.
pub fn small_max_day(folder: &Folder) {
    let _ = folder.ok(
        "new day.maxday --format max-day --date 2026-11-17 --unit lb --platforms 2 \
         --lifts clean=power-clean+hang-power-clean,back-squat",
    );
    let _ = folder.roster(
        "day.maxday",
        "lot,name,sex,platform,flight,bodyweight,clearance,power-clean,hang-power-clean,back-squat\n\
         1,Una Farrow,F,1,A,132.5,yes,95,,135\n\
         2,Dov Marsh,M,1,A,160,yes,,115,185\n\
         3,Ida Quill,F,2,B,145,up to 150,100,,-\n",
    );
}
