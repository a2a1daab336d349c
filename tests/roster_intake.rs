//! Every kind of roster that is taken in, and every kind that is refused, with
//! the sentences that people read.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

use chrono::NaiveDate;
use maxday::day::{
    Command, Context, Day, Event, Facts, Place, Recorded, Stamp, apply, decide,
};
use maxday::exchange::roster::{
    DateOrder, RosterRead, match_update, read_roster, read_update, update,
};
use maxday::lift::Slug;
use maxday::measure::{Mass, Unit};
use maxday::roster::{Born, Change, Clearance, Entry, EntryKey, Sex, SlotLine};
use maxday::rules::format_named;

fn slug(text: &str) -> Slug {
    Slug::new(text).unwrap()
}

fn date() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 17).unwrap()
}

fn at() -> Stamp {
    Stamp::parse("08:00", date(), -360).unwrap()
}

fn push(day: &mut Day, events: Vec<Event>) {
    let act = day.next_seq();
    for event in events {
        let seq = day.next_seq();
        let recorded = Recorded {
            seq,
            act,
            id: format!("a{act}"),
            at: at(),
            happened: None,
            hand: "office".to_owned(),
            platform: None,
            event,
        };
        apply(day, &recorded);
    }
}

/// A max day in pounds with two slots and four platforms.
fn day_with(categories: &str) -> Day {
    let mut rules = format_named("max-day").unwrap().rules(Unit::Lb).unwrap();
    rules.set("categories", categories).unwrap();
    let mut day = Day::new();
    let made = Event::DayMade {
        name: "Fall".to_owned(),
        date: date(),
        format: "max-day".to_owned(),
        bar_unit: Unit::Lb,
        scale_unit: Unit::Lb,
        rules: rules.words().into_iter().collect(),
        slots: vec![
            SlotLine {
                slot: slug("clean"),
                variants: vec![slug("power-clean"), slug("hang-power-clean")],
            },
            SlotLine {
                slot: slug("back-squat"),
                variants: vec![slug("back-squat")],
            },
        ],
        platforms: 4,
    };
    push(&mut day, vec![made]);
    day
}

fn day() -> Day {
    day_with("none")
}

fn context() -> Context {
    Context {
        at: at(),
        hand: "office".to_owned(),
        draw: 7,
    }
}

/// A day that has taken in a roster.
fn day_of(roster: &str) -> Day {
    let mut day = day();
    let read = taken(roster, day.facts());
    let decided = decide(&day, &Command::Add(read.entries), &context()).unwrap();
    push(&mut day, decided.events);
    day
}

fn taken(roster: impl AsRef<[u8]>, facts: &Facts) -> RosterRead {
    let read = read_roster(roster.as_ref(), facts, None);
    read.unwrap_or_else(|faults| {
        let list: Vec<String> = faults.iter().map(ToString::to_string).collect();
        panic!("{list:?}")
    })
}

fn read(roster: impl AsRef<[u8]>) -> RosterRead {
    taken(roster, day().facts())
}

fn faults(roster: impl AsRef<[u8]>) -> Vec<String> {
    faults_on(&day(), roster, None)
}

fn faults_on(
    day: &Day,
    roster: impl AsRef<[u8]>,
    dates: Option<DateOrder>,
) -> Vec<String> {
    let read = read_roster(roster.as_ref(), day.facts(), dates);
    let faults = read.expect_err("the roster should have been refused");
    faults.iter().map(ToString::to_string).collect()
}

fn queries(roster: &str) -> Vec<String> {
    read(roster)
        .queries
        .iter()
        .map(ToString::to_string)
        .collect()
}

/// The entry that a row comes to.
fn entry(read: &RosterRead, at: usize) -> Entry {
    let new = &read.entries[at];
    let mut entry = Entry::new(EntryKey(1), new.number.unwrap_or(0));
    for change in &new.changes {
        entry.apply(change);
    }
    entry
}

fn load(text: &str) -> Mass {
    Mass::parse(text, Unit::Lb).unwrap()
}

fn assert_starts(found: &[String], wanted: &[&str]) {
    assert_eq!(found.len(), wanted.len(), "{found:#?}");
    for (found, wanted) in found.iter().zip(wanted) {
        assert!(found.starts_with(wanted), "{found:?} / {wanted:?}");
        assert!(found.ends_with('.'), "{found:?}");
    }
}

#[test]
fn a_whole_row_is_read() {
    let read = read(
        "Lot,Student ID,First Name,Last Name,GENDER,DOB,Gr,Squad,Category,Division,Period,\
         Rack,Flight,BW,Unit,Clearance,Entry Total,Power Clean,hang-power-clean,Back Squat,\
         back-squat last,Rack squat\n\
         12,A7,Ann Marie,Lee,girl,2009-04-03,11,Otters,63,novice; team B,2,3,C,62.5,kg,\
         \"yes; back squat: up to 150\",300kg,95,,-,60 kg,1450\n",
    );
    let ann = entry(&read, 0);
    assert_eq!((ann.number, ann.id.as_str()), (12, "A7"));
    assert_eq!(
        (ann.given.as_str(), ann.family.as_str()),
        ("Ann Marie", "Lee")
    );
    assert_eq!(ann.sex, Some(Sex::F));
    assert_eq!(ann.born.unwrap().to_string(), "2009-04-03");
    assert_eq!((ann.grade.as_str(), ann.team.as_str()), ("11", "Otters"));
    assert_eq!(ann.divisions, ["novice", "team B"]);
    assert_eq!(ann.bodyweight.as_ref().unwrap().mass, load("62.5kg"));
    assert_eq!(ann.clearance[&None], Clearance::Yes);
    assert!(ann.clearance.contains_key(&Some(slug("back-squat"))));
    assert_eq!(ann.entry_total.as_ref().unwrap().mass, load("300kg"));
    assert_eq!(ann.variant(&slug("clean")), Some(&slug("power-clean")));
    assert_eq!(ann.variant(&slug("back-squat")), None);
    assert_eq!(ann.last[&slug("back-squat")].mass, load("60kg"));
    assert_eq!(ann.setups["rack squat"], "1450");
    assert_eq!(
        read.entries[0].place,
        Place {
            session: Some("2".to_owned()),
            flight: Some("C".to_owned()),
            platform: Some(3),
        }
    );
    assert_eq!(read.flights, [("2".to_owned(), "C".to_owned(), 3)]);
    assert!(read.has_clearance && read.unknown.is_empty());
}

#[test]
fn any_common_file_is_taken() {
    let wanted = "Zoë Nuñez";
    let latin = |text: &str| -> Vec<u8> {
        text.chars()
            .map(|c| u8::try_from(u32::from(c)).unwrap())
            .collect()
    };
    let wide = |text: &str| -> Vec<u8> {
        let units = std::iter::once(0xFEFF).chain(text.encode_utf16());
        units.flat_map(u16::to_le_bytes).collect()
    };
    let files: Vec<Vec<u8>> = vec![
        b"name,sex\nZo\xC3\xAB Nu\xC3\xB1ez,F\n".to_vec(),
        b"\xEF\xBB\xBFname,sex\r\nZo\xC3\xAB Nu\xC3\xB1ez,F\r\n".to_vec(),
        latin("name,sex\r\nZoë Nuñez,F"),
        wide("name\tsex\r\nZoë Nuñez\tF\r\n"),
        "name;sex\nZoë Nuñez;F\n".into(),
        "name\tsex\nZoë Nuñez\tF\n".into(),
        "  NAME ,  Gender \n  Zoë Nuñez  , female \n".into(),
        "name,sex\n\"Nuñez, Zoë\",F\n".into(),
        "name,sex\n\"Nuñez,\r\nZoë\",F\r\n".into(),
        "First\u{a0}Name,Surname,Sex\nZoë,Nuñez,W\n".into(),
        "Name,Surname,Sex\nZoë,Nuñez,F\n".into(),
        "sep=;\nname;sex\nZoë Nuñez;F\n".into(),
        "\nname,sex,,\n,,,\nZoë Nuñez,F,,\n\n".into(),
        "sex,name\rF,Zoë Nuñez\r".into(),
    ];
    for file in files {
        let read = read(&file);
        let zoe = entry(&read, 0);
        let text = String::from_utf8_lossy(&file).into_owned();
        assert_eq!(
            (read.entries.len(), zoe.name().as_str()),
            (1, wanted),
            "{text:?}"
        );
        assert_eq!(zoe.sex, Some(Sex::F), "{text:?}");
    }
}

#[test]
fn only_a_name_is_required() {
    let read = read("name\nOru\n");
    let oru = entry(&read, 0);
    assert_eq!((oru.given.as_str(), oru.family.as_str()), ("", "Oru"));
    assert_eq!(read.entries[0].number, None);
    assert_eq!(read.entries[0].place.session.as_deref(), Some("1"));
    assert_eq!(oru.variant(&slug("clean")), Some(&slug("power-clean")));
    assert_eq!(oru.variant(&slug("back-squat")), Some(&slug("back-squat")));
    assert!(oru.slots.values().all(|s| s.opener.is_none()));
    assert!(read.queries.is_empty() && read.flights.is_empty() && !read.has_clearance);
}

#[test]
fn commas_are_decimals_where_they_do_not_part_cells() {
    let read = read("name;bodyweight;back-squat last\nLee;62,5kg;102,5 kg\n");
    let lee = entry(&read, 0);
    assert_eq!(lee.bodyweight.unwrap().mass, load("62.5kg"));
    assert_eq!(lee.last[&slug("back-squat")].mass, load("102.5kg"));
    assert_starts(
        &faults("name,bodyweight\nLee,\"162,5\"\n"),
        &["row 2, column bodyweight: “162,5” is not a number; write a plain decimal"],
    );
}

#[test]
fn openers_say_who_is_entered_as_what() {
    let head = "name,clean,hang-power-clean,back-squat\n";
    let cases: [(&str, Option<(&str, &str)>); 8] = [
        ("95,,", Some(("power-clean", "95"))),
        (",110,", Some(("hang-power-clean", "110"))),
        ("-,110,", Some(("hang-power-clean", "110"))),
        ("95,-,", Some(("power-clean", "95"))),
        (",,", Some(("power-clean", ""))),
        ("-,-,", None),
        ("-,,", Some(("hang-power-clean", ""))),
        (",–,", Some(("power-clean", ""))),
    ];
    for (cells, wanted) in cases {
        let read = read(format!("{head}Lee,{cells}\n"));
        let lee = entry(&read, 0);
        let line = &lee.slots[&slug("clean")];
        let opener = line
            .opener
            .as_ref()
            .map(|w| w.typed.as_str())
            .unwrap_or_default();
        let found = line.variant.as_ref().map(|v| (v.as_str(), opener));
        assert_eq!(found, wanted, "{cells}");
        assert_eq!(lee.variant(&slug("back-squat")), Some(&slug("back-squat")));
    }
    assert_starts(
        &faults(format!("{head}Lee,95,110,\n")),
        &[
            "row 2, column hang-power-clean: power-clean and hang-power-clean both have an \
           opener, but an athlete takes one lift in clean; leave the other blank.",
        ],
    );
}

#[test]
fn dates_are_taken_or_refused_but_never_guessed() {
    let born = |cell: &str, dates| {
        let file = format!("name,DOB\nLee,{cell}\n");
        read_roster(file.as_bytes(), day().facts(), dates)
            .map(|r| entry(&r, 0).born.map(|b: Born| b.to_string()))
            .map_err(|f| f[0].to_string())
    };
    let ok = |text: &str| Ok(Some(text.to_owned()));
    assert_eq!(born("2009-04-03", None), ok("2009-04-03"));
    assert_eq!(born("13/4/2009", None), ok("2009-04-13"));
    assert_eq!(born("2009", None), ok("2009"));
    assert_eq!(born("", None), Ok(None));
    assert_eq!(
        born("3/4/2009", Some(DateOrder::MonthFirst)),
        ok("2009-03-04")
    );
    assert_eq!(
        born("3/4/2009", Some(DateOrder::DayFirst)),
        ok("2009-04-03")
    );
    assert_eq!(born("2009-04-03", Some(DateOrder::Iso)), ok("2009-04-03"));
    for (cell, dates, sentence) in [
        (
            "3/4/2009",
            None,
            "could be 2009-03-04 or 2009-04-03; write it as",
        ),
        (
            "13/4/2009",
            Some(DateOrder::Iso),
            "doesn't begin with the year; write it as",
        ),
        (
            "13/4/2009",
            Some(DateOrder::MonthFirst),
            "is not a day of the calendar",
        ),
        (
            "2009-02-30",
            None,
            "is not a day of the calendar; write it as 2009-04-03",
        ),
        ("2027-01-01", None, "lies after the day itself (2026-11-17)"),
        (
            "1/2/09",
            None,
            "is no date; write it as 2009-04-03, or only the year",
        ),
        (
            "spring",
            None,
            "is no date; write it as 2009-04-03, or only the year",
        ),
    ] {
        let found = born(cell, dates).unwrap_err();
        let wanted = format!("row 2, column DOB: “{cell}” {sentence}");
        assert!(found.starts_with(&wanted), "{found:?}");
    }
}

#[test]
fn cells_that_cannot_be_read_are_named_with_what_is_allowed() {
    for (head, cell, sentence) in [
        (
            "Gender",
            "x",
            "“x” is not a sex that is placed here; write F or M.",
        ),
        (
            "lot",
            "0",
            "“0” is no lot; write a whole number from 1 to 9999.",
        ),
        (
            "lot",
            "10000",
            "“10000” is no lot; write a whole number from 1 to 9999.",
        ),
        (
            "lot",
            "7a",
            "“7a” is no lot; write a whole number from 1 to 9999.",
        ),
        (
            "BW",
            "heavy",
            "“heavy” is not a number; write a plain decimal",
        ),
        ("BW", "20", "“20” is no bodyweight; it must lie between"),
        (
            "BW",
            "301 kg",
            "“301 kg” is no bodyweight; it must lie between",
        ),
        (
            "Back Squat",
            "0",
            "“0” is no load that can be lifted here; a load is above 0",
        ),
        (
            "Back Squat",
            "601kg",
            "“601kg” is no load that can be lifted here",
        ),
        ("Back Squat", "lots", "“lots” is not a number"),
        (
            "back-squat last",
            "-5",
            "“-5” is no load that can be lifted here",
        ),
        (
            "Clearance",
            "maybe",
            "“maybe” is no clearance; write yes, no, or up to and a load, and until and a date such as 2026-12-01 where it ends.",
        ),
        (
            "Clearance",
            "yes until spring",
            "“spring” is no last day; write a date such as 2026-12-01.",
        ),
        (
            "Clearance",
            "clean: up to 600kg until 1/12/2026",
            "“1/12/2026” is no last day; write a date such as 2026-12-01.",
        ),
        (
            "Guest",
            "perhaps",
            "“perhaps” can't be read; write yes or no.",
        ),
        (
            "Clearance",
            "rowing: no",
            "“rowing” is no lift of this day; write one of clean",
        ),
        (
            "Unit",
            "st",
            "“st” is no unit of a bodyweight; write kg or lb.",
        ),
        ("Rack", "5", "“5” is no platform of this day; write 1 to 4."),
    ] {
        let found = faults(format!("name,{head}\nLee,{cell}\n"));
        assert_starts(&found, &[&format!("row 2, column {head}: {sentence}")]);
    }
}

#[test]
fn guests_and_clearances_that_end_are_read() {
    let read = read(
        "name,guest,clearance\n\
         Ann Lee,yes,yes until 2026-12-01\n\
         Bo Ek,,no; clean: up to 95 until 2026-11-16\n\
         Cy Roe,N,\n",
    );
    let clean = slug("clean");
    let on = |text: &str| text.parse::<NaiveDate>().unwrap();
    let (ann, bo, cy) = (entry(&read, 0), entry(&read, 1), entry(&read, 2));
    assert_eq!((ann.guest, bo.guest, cy.guest), (true, false, false));
    assert_eq!(
        ann.clearance_on(&clean, on("2026-12-01")),
        Some(&Clearance::Yes),
        "the last day is still in it"
    );
    assert_eq!(ann.clearance_on(&clean, on("2026-12-02")), None);
    // The lift's own has ended on the day, so the one for all holds again.
    assert!(matches!(
        bo.clearance_on(&clean, on("2026-11-16")),
        Some(Clearance::UpTo(_))
    ));
    assert_eq!(bo.clearance_on(&clean, date()), Some(&Clearance::No));
    assert_eq!(cy.clearance_on(&clean, date()), None);
}

#[test]
fn rows_without_a_name_and_numbers_twice_are_named() {
    assert_starts(
        &faults("given,family,lot\n,,3\nAnn,Lee,4\nBo,Ek,4\n"),
        &[
            "row 2, column given: There is no name; an athlete needs a given or a family name.",
            "row 4, column lot: 4 is the lot of row 3 already; every athlete needs a number",
        ],
    );
    let day = day_of("name,lot\nAnn Lee,1\n");
    assert_starts(
        &faults_on(&day, "name,lot\nBo Ek,1\n", None),
        &[
            "row 2, column lot: 1 belongs to Ann Lee already; 2 is free; leave it blank to have \
           one drawn, or say --update to change that entry.",
        ],
    );
}

#[test]
fn files_that_are_no_roster_are_refused() {
    for (file, sentence) in [
        (
            &b""[..],
            "The file is empty; it needs a header row and rows under it.",
        ),
        (b"\xEF\xBB\xBF\r\n \r\n", "The file is empty"),
        (
            b"name,sex\n",
            "The file has a header but no row under it; write one row an athlete.",
        ),
        (
            b"name,sex\n,\n\n",
            "The file has a header but no row under it",
        ),
        (
            b"PK\x03\x04\x14\0",
            "The workbook is damaged and can't be read; open it in the spreadsheet program",
        ),
        (
            b"\xD0\xCF\x11\xE0\xA1\xB1",
            "This is a spreadsheet of the old form (.xls); save it as .xlsx or as CSV.",
        ),
        (
            b"name\nL\0ee\n",
            "row 2: A NUL byte stands here, so this is no text file",
        ),
        (b"n\0a\0m\0e\0", "row 1: A NUL byte stands here"),
        (
            b"lot,sex\n1,F\n",
            "row 1: No column is headed name, or given and family; the header \
           has “lot”, “sex”.",
        ),
        (
            b"name,sex\nLee,F\n\"Ek,M\nOru,F\n",
            "row 3: A quote opens in this row and is never \
           closed",
        ),
        (
            b"name,sex\n\"Lee\" x,F\n",
            "row 2: Text stands behind a closing quote",
        ),
        (
            b"name,sex,lot\nLee,F\n",
            "row 2: This row has 2 cells, the header 3 cells",
        ),
        (
            b"name,sex\nLee, Ann,F\n",
            "row 2: This row has 3 cells, the header 2 cells; quote a \
           cell that has the separator in it.",
        ),
        (
            b"name,sex,Gender\nLee,F,F\n",
            "row 1, column Gender: This column and “sex” both mean \
           sex; leave one of them.",
        ),
        (
            b"name,sex,sex\nLee,F,F\n",
            "row 1, column sex: This column is there twice; leave one",
        ),
        (
            b"name,clean,Power Clean\nLee,95,\n",
            "row 1, column Power Clean: This column and \
           “clean” both mean power-clean",
        ),
    ] {
        let found = faults(file);
        assert_starts(&found, &[sentence]);
    }
}

#[test]
fn all_faults_of_a_file_are_named_at_once() {
    let found = faults(
        "name,DOB,sex,back-squat\n\
         \"Lee\nAnn\",2030-01-01,x,135\n\
         Ek,,,lots\n\
         Oru,2009\n\
         ,2009,F,\n\
         \"Ott,2009,F,\n",
    );
    assert_starts(
        &found,
        &[
            "row 2, column DOB: “2030-01-01” lies after the day itself",
            "row 2, column sex: “x” is not a sex",
            "row 3 (line 4), column back-squat: “lots” is not a number",
            "row 4 (line 5): This row has 2 cells",
            "row 5 (line 6), column name: There is no name",
            "row 6 (line 7): A quote opens in this row and is never closed",
        ],
    );
}

#[test]
fn unknown_columns_are_named_and_class_is_never_guessed() {
    let read = read("name,Class,Locker,,bench-press\nLee,63,12,x,100\n");
    assert_eq!(
        read.unknown,
        [
            "Class",
            "Locker",
            "column 4 without a header",
            "bench-press"
        ]
    );
    assert_eq!(entry(&read, 0).category, "");
}

#[test]
fn odd_openers_are_taken_in_and_asked_about() {
    let head = "name,sex,back-squat,back-squat last\n";
    assert_eq!(
        queries(&format!("{head}Ann Lee,F,135,120\nBo Ek,M,45,\n")),
        [""; 0]
    );
    assert_eq!(
        queries(&format!(
            "{head}Ann Lee,F,137.5,\nBo Ek,M,40,\nOru,,150,120\n"
        )),
        [
            "row 2, Ann Lee: the opener 137.5 lb in the back squat is not a multiple of 5 lb; \
             the nearest are 135 lb and 140 lb.",
            "row 3, Bo Ek: the opener 40 lb in the back squat is less than the empty bar for \
             boys and men, 45 lb.",
            "row 4, Oru: the opener 150 lb in the back squat is more than 20 % above the last \
             max, 120 lb; the advice is at most 140 lb.",
        ]
    );
    let day = day_with("iwf-2026");
    let read = taken("name,bodyweight\nLee,\nEk,150\n", day.facts());
    let found: Vec<String> = read.queries.iter().map(ToString::to_string).collect();
    assert_eq!(
        found,
        ["row 2, Lee: no bodyweight, so no category is known; weigh the athlete in."]
    );
    assert_eq!(read.entries.len(), 2);
}

#[test]
fn flights_are_made_where_the_rows_say() {
    let read = read(
        "name,session,flight,platform\nA,,A,\nB,,A,2\nC,2,A,Rack 3\nD,2,B,\nE,,,4\n",
    );
    let flight = |s: &str, f: &str, p: u8| (s.to_owned(), f.to_owned(), p);
    assert_eq!(
        read.flights,
        [
            flight("1", "A", 2),
            flight("2", "A", 3),
            flight("2", "B", 1),
            flight("1", "P4", 4)
        ]
    );
    assert_eq!(read.entries[0].place.platform, Some(2));
    let mut day = day();
    let decided = decide(&day, &Command::Add(read.entries), &context()).unwrap();
    push(&mut day, decided.events);
    for (session, name, platform) in &read.flights {
        assert_eq!(
            day.facts().flight(session, name).unwrap().platform,
            *platform
        );
    }
    assert_starts(
        &faults("name,flight,Rack\nA,A,1\nB,A,2\n"),
        &[
            "row 3, column Rack: Flight A of session 1 is on platform 1 in row 2, and a flight \
           lifts on one platform; write 1, or another flight.",
        ],
    );
    assert_starts(
        &faults_on(&day, "name,flight,platform\nZ,A,1\n", None),
        &[
            "row 2, column platform: Flight A of session 1 lifts on platform 2 on this day",
        ],
    );
}

#[test]
fn an_update_changes_only_what_differs_and_removes_nobody() {
    let day = day_of(
        "lot,id,name,DOB,sex,grade,flight,back-squat\n\
         1,A1,Ann Lee,2009,F,10,A,135\n\
         2,,Bo Ek,2008,M,11,A,185\n\
         3,,Oru,,F,9,B,\n\
         4,A4,Una Ott,2009,F,9,B,95\n",
    );
    let file = "lot,id,name,DOB,sex,grade,flight,back-squat\n\
         9,A1,Ann Lee-Moor,,,11,,\n\
         2,B2,Bo Ek,2008,M,11,A,185.0\n\
         ,,ORU,,F,,A,-\n\
         ,A5,Una Ott,2009,F,9,B,100\n\
         4,,Una Ott,,,,,\n";
    let read = read_update(file.as_bytes(), day.facts(), None).unwrap();
    let key = |n: u16| day.facts().numbers[&n];
    let matched: Vec<_> = match_update(day.facts(), &read)
        .iter()
        .map(|m| m.entry)
        .collect();
    assert_eq!(
        matched,
        [Some(key(1)), Some(key(2)), Some(key(3)), None, Some(key(4))]
    );
    let found = update(day.facts(), &read);
    let to_a = Place {
        session: None,
        flight: Some("A".to_owned()),
        platform: None,
    };
    assert_eq!(
        found.changed,
        [
            (
                key(1),
                vec![
                    Change::Number(9),
                    Change::Family("Lee-Moor".to_owned()),
                    Change::Grade("11".to_owned()),
                ],
                Place::default(),
            ),
            (key(2), vec![Change::Id("B2".to_owned())], Place::default()),
            (
                key(3),
                vec![
                    Change::Family("ORU".to_owned()),
                    Change::Slot {
                        slot: slug("back-squat"),
                        variant: None,
                        opener: None,
                    },
                ],
                to_a,
            ),
        ]
    );
    assert_eq!(found.added.len(), 1);
    let queries: Vec<String> = read.queries.iter().map(ToString::to_string).collect();
    assert_starts(
        &queries,
        &["row 5, Una Ott: lot 4 has the same name; if it is the same"],
    );
    let mut after = day.clone();
    let decided = decide(&after, &Command::EditMany(found.changed), &context()).unwrap();
    push(&mut after, decided.events);
    assert_eq!(after.facts().entries.len(), 4);
}

#[test]
fn an_update_that_is_not_clear_is_refused() {
    let day = day_of("lot,id,name\n1,A1,Ann Lee\n2,A2,Bo Ek\n");
    let why = |file: &str| -> Vec<String> {
        let faults = read_update(file.as_bytes(), day.facts(), None).unwrap_err();
        faults.iter().map(ToString::to_string).collect()
    };
    assert_starts(
        &why("lot,id,name\n2,A1,Ann Lee\n"),
        &[
            "row 2, column lot: 2 belongs to Bo Ek, who isn't this row's athlete; write another",
        ],
    );
    assert_starts(
        &why("id,name\nA1,Ann Lee\nA1,Ann Leigh\n"),
        &["row 3: This row and row 2 are both about lot 1, Ann Lee; leave one of them."],
    );
    assert!(read_update(b"lot,id,name\n1,A1,Ann Lee\n", day.facts(), None).is_ok());
}

#[test]
fn a_roster_that_is_already_there_is_asked_about() {
    let day = day_of("lot,id,name\n1,A1,Ann Lee\n");
    let read = taken("id,name\nA1,Ann Lee\n", day.facts());
    assert_eq!(
        read.queries[0].to_string(),
        "row 2, Ann Lee: lot 1 has the same id; if it is the same person, undo this import and \
         say --update."
    );
}

#[test]
fn the_sample_rosters_are_taken_whole() {
    for (file, format, unit, slots, rows) in [
        (
            "max-day/roster.csv",
            "max-day",
            Unit::Lb,
            "clean=power-clean+hang-power-clean,back-squat=back-squat,bench-press=bench-press",
            None,
        ),
        (
            "weightlifting/roster.csv",
            "weightlifting",
            Unit::Kg,
            "snatch=snatch,clean-and-jerk=clean-and-jerk",
            Some("4"),
        ),
    ] {
        let path = format!("{}/sample-meets/{file}", env!("CARGO_MANIFEST_DIR"));
        let Ok(bytes) = std::fs::read(&path) else {
            continue;
        };
        let mut day = Day::new();
        let rules = format_named(format).unwrap().rules(unit).unwrap();
        let made = Event::DayMade {
            name: String::new(),
            date: NaiveDate::from_ymd_opt(2026, 11, 21).unwrap(),
            format: format.to_owned(),
            bar_unit: unit,
            scale_unit: unit,
            rules: rules.words().into_iter().collect(),
            slots: slots
                .split(',')
                .filter_map(|s| s.split_once('='))
                .map(|(s, v)| SlotLine {
                    slot: slug(s),
                    variants: v.split('+').map(slug).collect(),
                })
                .collect(),
            platforms: 4,
        };
        push(&mut day, vec![made]);
        let read = taken(&bytes, day.facts());
        assert!(read.unknown.is_empty(), "{:?}", read.unknown);
        let count = bytes.iter().filter(|b| **b == b'\n').count() - 1;
        assert_eq!(read.entries.len(), count, "{file}");
        if let Some(lot) = rows {
            let polish = read
                .entries
                .iter()
                .position(|e| e.number == lot.parse().ok());
            assert_eq!(entry(&read, polish.unwrap()).name(), "Łukasz Świerkowicz");
        }
    }
}

#[test]
fn openers_too_far_under_the_entry_total_are_owed() {
    // IWF TCRR as published: an entry total of 139 needs openers of 119.
    let event = maxday::day::new_day(&maxday::day::NewDay {
        name: "Meet".into(),
        date: date(),
        format: "weightlifting".into(),
        bar: Unit::Kg,
        scale: None,
        judges: None,
        categories: Some("none".into()),
        tie: None,
        step: None,
        lifts: None,
        platforms: None,
    })
    .unwrap();
    let mut day = Day::new();
    apply(
        &mut day,
        &Recorded {
            seq: 1,
            act: 1,
            id: "made".into(),
            at: at(),
            happened: None,
            hand: String::new(),
            platform: None,
            event,
        },
    );
    let roster = "name,sex,entry total,snatch,clean-and-jerk\n\
                  Ann Lee,F,139,54,64\nBea Kell,F,139,54,65\nCid Moor,M,139,54,\n";
    let read = read_roster(roster.as_bytes(), day.facts(), None).unwrap();
    let told: Vec<String> = read.queries.iter().map(ToString::to_string).collect();
    assert_eq!(told.len(), 1, "{told:#?}");
    assert!(
        told[0].contains("118 kg") && told[0].contains("119 kg"),
        "{told:#?}"
    );
}
