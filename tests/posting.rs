//! What the posting policy hides is in nothing that is posted: no paper, table,
//! workbook or board of the samples, nor of a day made for the purpose.
//!
//! The private versions do have all of it, so the search finds what is there.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;
mod desk_support;
mod pdf;

use std::collections::{BTreeSet, HashMap};
use std::io::{Cursor, Read};

use bin::{ACTS, Folder};
use desk_support::{desk_on, later, press, settings};
use iced::{Size, window};
use iced_test::Simulator;
use iced_test::selector::Candidate;
use maxday::desk::app::{Desk, Message};
use maxday::desk::board::Board;
use pdf::Pdf;

const STRICT: &str = "set,,,,,posting.name=number; posting.bodyweight=no; \
                      posting.category=no,,,,";

/// A word that may not be posted.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Hidden {
    kind: &'static str,
    word: String,
}

fn hide(all: &mut BTreeSet<Hidden>, kind: &'static str, word: &str) {
    if !word.is_empty() {
        let word = word.to_owned();
        let _ = all.insert(Hidden { kind, word });
    }
}

/// What a roster says of its people.
fn hidden_of(roster: &str) -> BTreeSet<Hidden> {
    let mut reader = csv::Reader::from_reader(roster.as_bytes());
    let header = reader.headers().unwrap().clone();
    let mut all = BTreeSet::new();
    for row in reader.records().map(Result::unwrap) {
        for (name, cell) in header.iter().zip(&row) {
            match name.to_lowercase().as_str() {
                "given" | "first name" => hide(&mut all, "given name", cell),
                "family" | "last name" => hide(&mut all, "surname", cell),
                "name" => {
                    let (family, given) = cell.split_once(", ").unwrap();
                    hide(&mut all, "given name", given);
                    hide(&mut all, "surname", family);
                }
                "id" | "student id" => hide(&mut all, "id", cell),
                "born" | "dob" => hide(&mut all, "birth date", cell),
                // A load may be a whole or a half one.
                "bodyweight" if cell.contains('.') && !cell.ends_with(".5") => {
                    hide(&mut all, "bodyweight", cell);
                }
                _ => {}
            }
        }
    }
    all
}

/// Something that was made, in every form in which it can be read.
struct Face {
    name: String,
    texts: Vec<Vec<u8>>,
    /// What a person reads in it.
    read: String,
}

fn text_face(name: &str, text: &str) -> Face {
    Face {
        name: name.to_owned(),
        texts: vec![text.as_bytes().to_vec()],
        read: text.to_owned(),
    }
}

fn file_face(name: &str, bytes: &[u8]) -> Face {
    let end = name.rsplit('.').next().unwrap();
    let (texts, read) = match end {
        "pdf" => {
            let pdf = Pdf::read(bytes);
            let read = pdf.text();
            let mut texts = vec![pdf.plain.clone(), read.clone().into_bytes()];
            for (dict, content) in pdf.streams {
                texts.push(dict.into_bytes());
                // The numbers of a page's own marks are where they stand; its texts
                // are read above.
                if pdf::is_page(&content) {
                    texts.push(without_digits(content));
                } else {
                    texts.push(content);
                }
            }
            (texts, read)
        }
        "xlsx" => {
            let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
            let mut texts = Vec::new();
            for at in 0..archive.len() {
                let mut part = archive.by_index(at).unwrap();
                let mut bytes = Vec::new();
                let _ = part.read_to_end(&mut bytes).unwrap();
                let name = part.name().unwrap().to_string();
                // The writer's own theme names the scripts of the world.
                if !name.contains("theme") {
                    texts.push(bytes);
                }
                texts.push(name.into_bytes());
            }
            let all = texts.concat();
            (texts, String::from_utf8_lossy(&all).into_owned())
        }
        _ => {
            let text = String::from_utf8(bytes.to_vec()).unwrap();
            (vec![bytes.to_vec()], text)
        }
    };
    Face {
        name: name.to_owned(),
        texts,
        read,
    }
}

fn without_digits(mut content: Vec<u8>) -> Vec<u8> {
    content.retain(|b| !b.is_ascii_digit());
    content
}

/// A word as a file may hold it: in UTF-8, in UTF-16, and either in hexadecimal.
fn forms(word: &str) -> Vec<Vec<u8>> {
    let utf16: Vec<u8> = word.encode_utf16().flat_map(u16::to_be_bytes).collect();
    let little: Vec<u8> = word.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let hex = |bytes: &[u8], upper: bool| -> Vec<u8> {
        let digit = |b: &u8| {
            if upper {
                format!("{b:02X}")
            } else {
                format!("{b:02x}")
            }
        };
        bytes.iter().map(digit).collect::<String>().into_bytes()
    };
    let plain = word.as_bytes().to_vec();
    let mut all = vec![utf16.clone(), little];
    for upper in [true, false] {
        all.push(hex(&plain, upper));
        all.push(hex(&utf16, upper));
    }
    all.push(plain);
    all
}

/// A form of a hidden word, to be looked for.
struct Form {
    of: usize,
    bytes: Vec<u8>,
    /// Whether it has to stand as a word or number of its own.
    whole: bool,
}

/// Looks for all hidden words at once.
struct Search<'a> {
    hidden: Vec<&'a Hidden>,
    /// By their first bytes.
    forms: HashMap<[u8; 3], Vec<Form>>,
    /// Whether any form begins with these two bytes.
    begins: Vec<bool>,
}

impl<'a> Search<'a> {
    fn new(hidden: &'a BTreeSet<Hidden>) -> Self {
        let mut search = Self {
            hidden: hidden.iter().collect(),
            forms: HashMap::new(),
            begins: vec![false; 1 << 16],
        };
        for (of, hidden) in hidden.iter().enumerate() {
            let name = ["given name", "surname"].contains(&hidden.kind);
            // A long name is looked for in the middle of words too.
            let whole = !name || hidden.word.chars().count() < 5;
            for bytes in forms(&hidden.word) {
                let begin = [bytes[0], bytes[1], bytes[2]];
                search.begins[pair(begin[0], begin[1])] = true;
                let own = search.forms.entry(begin).or_default();
                own.push(Form { of, bytes, whole });
            }
        }
        search
    }

    /// What of it a face gives away.
    fn given_away(&self, face: &Face) -> BTreeSet<&'a Hidden> {
        let mut found = BTreeSet::new();
        for text in &face.texts {
            for at in 0..text.len().saturating_sub(2) {
                if !self.begins[pair(text[at], text[at + 1])] {
                    continue;
                }
                let begin = [text[at], text[at + 1], text[at + 2]];
                for form in self.forms.get(&begin).into_iter().flatten() {
                    let rest = &text[at..];
                    if rest.starts_with(&form.bytes)
                        && !(form.whole && runs_on(text, at, form.bytes.len()))
                    {
                        let _ = found.insert(self.hidden[form.of]);
                    }
                }
            }
        }
        found
    }
}

fn pair(a: u8, b: u8) -> usize {
    usize::from(a) << 8 | usize::from(b)
}

/// Whether what stands there is a part of a longer word or number.
fn runs_on(text: &[u8], at: usize, length: usize) -> bool {
    let own = |at: Option<usize>| {
        at.and_then(|at| text.get(at))
            .is_some_and(u8::is_ascii_alphanumeric)
    };
    let (first, last) = (Some(at), Some(at + length - 1));
    (own(first) && own(at.checked_sub(1))) || (own(last) && own(Some(at + length)))
}

const FORMULAS: &str = "sinclair,ipf-gl,dots,wilks,wilks-2020,allometric,ratio";

/// Everything that the program makes of a day, for posting or private.
fn made(folder: &Folder, posted: bool) -> Vec<Face> {
    let word = if posted { " --posted" } else { "" };
    let mut faces = Vec::new();
    for size in ["letter", "a4"] {
        let out = format!("out{}-{size}", if posted { "-posted" } else { "" });
        let _ = folder.ok(&format!("papers d.maxday --out {out} --size {size}{word}"));
        for name in bin::names(&folder.file(&out)) {
            let bytes = std::fs::read(folder.file(&out).join(&name)).unwrap();
            faces.push(file_face(&format!("{out}/{name}"), &bytes));
        }
    }
    let mut lines: Vec<String> = ["category", "division", "slot"]
        .iter()
        .map(|by| format!("standings d.maxday --by {by}"))
        .collect();
    lines.push(format!("standings d.maxday --score {FORMULAS}"));
    lines.extend(
        FORMULAS
            .split(',')
            .map(|name| format!("standings d.maxday --by score --score {name}")),
    );
    lines.push("standings d.maxday --by team".to_owned());
    for verb in ["attempts", "records", "queue"] {
        lines.push(format!("{verb} d.maxday"));
    }
    for line in lines {
        // A remark on what is left out goes to standard error.
        let ran = folder.run(&format!("{line}{word}"));
        assert_eq!(ran.code, Some(0), "{line}: {}", ran.err);
        faces.push(text_face(&format!("{line}{word}"), &(ran.out + &ran.err)));
    }
    for end in ["xlsx", "json"] {
        let _ = folder.ok(&format!("export d.maxday --out o.{end}{word}"));
        let bytes = folder.bytes(&format!("o.{end}"));
        faces.push(file_face(&format!("export{word} .{end}"), &bytes));
    }
    faces
}

/// Every text of every board, on each platform.
fn boards(desk: &mut Desk) -> Vec<Face> {
    let mut faces = Vec::new();
    let platforms = desk.facts().platforms.len();
    for platform in 1..=platforms {
        let key = format!("ctrl+F{platform}");
        let _ = desk.update(Message::Pressed(window::Id::unique(), press(&key)));
        for board in Board::ALL {
            for size in [Size::new(1366.0, 768.0), Size::new(1920.0, 1080.0)] {
                let mut words = String::new();
                let mut ui = Simulator::with_size(settings(), size, desk.on_board(board));
                let _ = ui.find(|candidate: Candidate<'_>| {
                    if let Candidate::Text { content, .. } = candidate {
                        words.push_str(content);
                        words.push('\n');
                    }
                    None::<()>
                });
                let name = format!("{}, platform {platform}", board.label());
                faces.push(text_face(&name, &words));
            }
        }
    }
    faces
}

/// Asserts that a day, told to here, gives nothing away, and that the search finds
/// what is hidden where it isn't.
fn nothing_given_away(
    folder: &Folder,
    hidden: &BTreeSet<Hidden>,
    only_private: &[&str],
) -> Vec<Face> {
    let private = made(folder, false);
    let search = Search::new(hidden);
    let known: Vec<BTreeSet<&Hidden>> =
        private.iter().map(|face| search.given_away(face)).collect();
    for hidden in hidden {
        let any = known.iter().any(|known| known.contains(hidden));
        assert!(
            any,
            "{hidden:?} is nowhere, so looking for it proves nothing"
        );
    }
    // The texts of a PDF are read too: each surname is on the private lists.
    let list = |faces: &[Face]| -> String {
        let lists = faces.iter().filter(|f| f.name.ends_with("start-list.pdf"));
        lists.map(|f| f.read.as_str()).collect()
    };
    let text: String = list(&private).split_whitespace().collect();
    for hidden in hidden.iter().filter(|h| h.kind == "surname") {
        let word: String = hidden.word.split_whitespace().collect();
        assert!(text.contains(&word), "{word} isn't read:\n{text}");
    }
    for paper in only_private {
        let is = |f: &&Face| f.name.ends_with(&format!("/{paper}.pdf"));
        let at = private.iter().position(|f| is(&f)).unwrap();
        let pdf = known[at].iter().filter(|h| h.kind == "surname");
        assert!(pdf.count() > 3, "{paper} names nobody");
    }
    let posted = made(folder, true);
    assert!(list(&posted).contains("for posting"));
    check(&posted, hidden);
    posted
}

fn check(faces: &[Face], hidden: &BTreeSet<Hidden>) {
    let mut leaks = Vec::new();
    let search = Search::new(hidden);
    for face in faces {
        for hidden in search.given_away(face) {
            leaks.push(format!(
                "{} has the {} {}",
                face.name, hidden.kind, hidden.word
            ));
        }
    }
    assert!(leaks.is_empty(), "{}", leaks.join("\n"));
}

/// A sample's day, of its acts the first so many hundredths.
fn sample(meet: &str, percent: usize) -> (Folder, String) {
    let folder = Folder::new();
    let from = format!("{}/sample-meets/{meet}", env!("CARGO_MANIFEST_DIR"));
    let read = |name: &str| std::fs::read_to_string(format!("{from}/{name}")).unwrap();
    let new = read("new.txt").trim().replace('\'', "\"");
    let _ = folder.ok(&format!("new d.maxday {new}"));
    let _ = folder.ok(&format!("roster d.maxday \"{from}/roster.csv\""));
    let acts = read("acts.csv");
    let lines: Vec<&str> = acts.lines().collect();
    let mut part = lines[..lines.len() * percent / 100].join("\n");
    part.push('\n');
    part.push_str(STRICT);
    folder.write("acts.csv", part);
    let _ = folder.ok("apply d.maxday acts.csv");
    let roster = read("roster.csv");
    (folder, roster.trim_start_matches('\u{feff}').to_owned())
}

fn sample_gives_nothing_away(meet: &str) {
    let (folder, roster) = sample(meet, 100);
    let mut hidden = hidden_of(&roster);
    assert!(hidden.len() > 60, "{hidden:?}");
    // Who typed and who judged are people too.
    for act in ["Coach Ferreira-Holm", "Wetherbury"] {
        let acts = folder.ok("acts d.maxday");
        if acts.contains(act) && folder.ok("attempts d.maxday").contains(act) {
            hide(&mut hidden, "hand", act);
        }
    }
    let _ = nothing_given_away(&folder, &hidden, &["rack-cards", "results"]);
    // Halfway, somebody is up and the boards are full.
    for percent in [30, 60] {
        let (folder, _) = sample(meet, percent);
        let mut desk = desk_on(&folder.file("d.maxday"));
        later(&mut desk, 1);
        let faces = boards(&mut desk);
        let full: String = faces.iter().map(|f| f.read.as_str()).collect();
        assert!(full.contains("Next") && full.contains("One side"), "{full}");
        check(&faces, &hidden);
    }
}

#[test]
fn the_sample_max_day_gives_nothing_away() {
    sample_gives_nothing_away("max-day");
}

#[test]
fn the_sample_weightlifting_meet_gives_nothing_away() {
    sample_gives_nothing_away("weightlifting");
}

#[test]
fn the_sample_powerlifting_meet_gives_nothing_away() {
    sample_gives_nothing_away("powerlifting");
}

const PLANTED: &str = "\
lot,id,given,family,sex,born,grade,team,division,flight,bodyweight,clearance,snatch,clean-and-jerk
1,QX7701,Zelmira,Quorthalline,F,2009-05-06,11,Reds,novice,A,61.37,yes,40,50
2,QX7702,Yorwicke,Vantrosseau,M,2008-07-08,12,Blues,novice,A,73.19,up to 41.83,50,60
3,QX7703,Xanthippa,Brumwellich,F,2010-01-02,10,Reds,varsity,A,55.43,yes,41,52
4,QX7704,Wolfgangus,Ostrokovic,M,2009-11-12,11,Blues,varsity,A,88.71,no,70,90
5,QX7705,Ululani,Drachenfeldt,F,2009-03-04,11,Reds,novice,B,64.59,yes,44,54
6,QX7706,Thaddeusz,Kirschbaumer,M,2008-09-10,12,Blues,varsity,B,81.13,yes,65,80
";

/// Names stand where people write them: in remarks, reasons, the record book.
const PLANTED_ACTS: &str = "\
note,1,,,,Quorthalline was late,,,Hollenzweig,
weigh,3,,,55.47,,,,Hollenzweig,
clear,4,,,,no; who=Fennimoredoc; why=Ostrokovic has a sore wrist,,,Hollenzweig,
";

fn planted() -> (Folder, BTreeSet<Hidden>) {
    let folder = Folder::new();
    let _ = folder.ok(
        "new d.maxday --format weightlifting --seed 3 --date 2026-11-17 --name Day \
         --categories iwf-2026 --platforms 2",
    );
    let _ = folder.roster("d.maxday", PLANTED);
    let acts: Vec<String> = PLANTED_ACTS
        .lines()
        .map(str::to_owned)
        .chain(
            [
                STRICT,
                "set,,,,,clearance=off; team-points=28 25 23,,,Hollenzweig,",
                "record,,snatch,,38,sex=F; holder=Perpetua Nachtigaller; date=2019-05-04,,,,",
                "record,,snatch,,38,sex=F; category=63; holder=Perpetua Nachtigaller,,,,",
                "start,,snatch,,,A,1,,Hollenzweig,",
                "tally,1,snatch,1,40,good,,,Hollenzweig,",
                "tally,3,snatch,1,41,no:press-out,,,Hollenzweig,",
                "tally,2,snatch,1,41,good,,,Hollenzweig,",
                "overrule,3,snatch,1,,good: Brumwellich held it,,,Hollenzweig,",
                "withdraw,5,,,,Drachenfeldt is ill,,,Hollenzweig,",
                "disqualify,6,,,,Kirschbaumer left the room,,,Hollenzweig,",
                "close,,,,,,,,Hollenzweig,",
                "reopen,,,,,reason=Brumwellich was weighed at 55.43,,,Hollenzweig,",
            ]
            .map(str::to_owned),
        )
        .collect();
    folder.write("acts.csv", format!("{ACTS}\n{}\n", acts.join("\n")));
    let _ = folder.ok("apply d.maxday acts.csv");
    let mut hidden = hidden_of(PLANTED);
    for (kind, word) in [
        ("surname", "Nachtigaller"),
        ("bodyweight", "55.47"),
        ("cap", "41.83"),
        ("hand", "Hollenzweig"),
        ("hand", "Fennimoredoc"),
    ] {
        hide(&mut hidden, kind, word);
    }
    let standings = bin::Sheet::read(&folder.ok("standings d.maxday"));
    for label in standings.all("group") {
        hide(&mut hidden, "category", label);
    }
    (folder, hidden)
}

#[test]
fn nothing_that_was_planted_is_posted() {
    let (folder, hidden) = planted();
    let categories = hidden.iter().filter(|h| h.kind == "category").count();
    assert!(categories > 2, "{hidden:?}");
    // Names that somebody wrote by hand are told privately, not on every paper.
    let on_start_list: BTreeSet<Hidden> = hidden
        .iter()
        .filter(|h| !["Nachtigaller", "55.43", "Fennimoredoc"].contains(&h.word.as_str()))
        .cloned()
        .collect();
    let posted = nothing_given_away(&folder, &on_start_list, &["rack-cards"]);
    check(&posted, &hidden);
    let mut desk = desk_on(&folder.file("d.maxday"));
    later(&mut desk, 1);
    let _ = desk.update(Message::Pressed(window::Id::unique(), press("F10")));
    let faces = boards(&mut desk);
    let full: String = faces.iter().map(|f| f.read.as_str()).collect();
    assert!(full.contains("Next") && full.contains("One side"), "{full}");
    check(&faces, &hidden);
    for board in Board::ALL {
        let _ = desk.update(Message::Act(board.action()));
        let id = desk.windows().window_of(board).unwrap();
        check(&[text_face("a title", &desk.title(id))], &hidden);
    }
}
