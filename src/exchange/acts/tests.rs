//! Tests of this room.

use std::collections::BTreeMap;

use super::*;
use crate::day::{
    ClockMove, Command, CorrectionOf, Day, Event, FaultGiven, Granted, Light, Line,
    LoadAsked, Outcome, Recorded, Ruling, StopFor, apply,
};
use crate::lift::Slug;
use crate::measure::{Mass, Unit};
use crate::roster::SlotLine;
use crate::rules::format_named;

fn day() -> Day {
    let slug = |s: &str| Slug::new(s).unwrap();
    let rules = format_named("max-day").unwrap().rules(Unit::Lb).unwrap();
    let event = Event::DayMade {
        name: String::new(),
        date: date(),
        format: "max-day".to_owned(),
        bar_unit: Unit::Lb,
        scale_unit: Unit::Lb,
        rules: rules.words().into_iter().collect::<BTreeMap<_, _>>(),
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
        platforms: 2,
    };
    let mut day = Day::new();
    let at = Stamp::parse("08:00", date(), 0).unwrap();
    apply(
        &mut day,
        &Recorded {
            seq: 1,
            act: 1,
            id: "a; b".to_owned(),
            at,
            happened: None,
            hand: String::new(),
            platform: None,
            event,
        },
    );
    day
}

fn date() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 17).unwrap()
}

/// A row from the cells of act, athlete, lift, attempt, load, detail, platform.
fn row(cells: &str) -> ActRow {
    let text = format!("act|athlete|lift|attempt|load|detail|platform\n{cells}\n");
    read_acts(&text.replace('|', "\t")).unwrap().remove(0)
}

fn ok(cells: &str) -> Command {
    command(&day(), &row(cells)).unwrap()
}

fn why(cells: &str) -> String {
    command(&day(), &row(cells)).unwrap_err()
}

#[test]
fn rows_are_read_in_any_order_of_columns() {
    let rows = read_acts("Detail , ACT,at\n\"a\nb\",note,09:05\n\n,undo\n").unwrap();
    assert_eq!(rows.len(), 2);
    assert_eq!(
        (rows[0].act.as_str(), rows[0].detail.as_str()),
        ("note", "a\nb")
    );
    assert_eq!((rows[0].line, rows[1].line), (2, 5));
    let semicolons = read_acts("act;load\nweigh;62,5\n").unwrap();
    assert_eq!(semicolons[0].load, "62.5");
}

#[test]
fn files_that_cannot_be_read_say_why() {
    let why = |text: &str| read_acts(text).unwrap_err().to_string();
    assert!(why("").contains("There is nothing here"), "{}", why(""));
    assert!(why("athlete,lift\n").starts_with("row 1: The first row must be the header"));
    assert!(
        why("act,atempt\n").starts_with("row 1, column atempt: There is no such column")
    );
    assert!(
        why("act,Act\n").starts_with("row 1, column Act: This column is there twice; ")
    );
    assert!(why("act,load\nundo,1,2\n").starts_with("row 2: This row has more cells"));
    assert!(why("act\n\"x\n").starts_with("row 2: A quote opens"));
    assert!(why("act\nx\0\n").starts_with("row 2: A NUL byte"));
}

#[test]
fn a_stream_gives_each_row_as_it_is_complete() {
    let text =
        "\u{FEFF}act,detail\r\nnote,\"a\r\nb\"\r\nundo,1,2\r\nundo\r\nnote,\"open\n";
    let found: Vec<_> = ActReader::new(text.as_bytes()).collect();
    assert_eq!(found.len(), 4);
    let first = found[0].as_ref().unwrap();
    assert_eq!((first.line, first.detail.as_str()), (2, "a\nb"));
    assert_eq!(found[1].as_ref().unwrap_err().line, 4);
    assert_eq!(found[2].as_ref().unwrap().line, 5);
    assert_eq!(found[3].as_ref().unwrap_err().line, 6);
    let none: Vec<_> = ActReader::new("athlete\n1\n2\n".as_bytes()).collect();
    assert_eq!(none.len(), 1);
    assert!(ActReader::new("".as_bytes()).next().unwrap().is_err());
}

#[test]
fn pairs_read_and_print() {
    let text = "a=1; last max=\"x; y = \"\"z\"\"\"; b=; c=d=e";
    let read = pairs(text).unwrap();
    let pair = |k: &str, v: &str| (k.to_owned(), v.to_owned());
    assert_eq!(
        read,
        [
            pair("a", "1"),
            pair("last max", "x; y = \"z\""),
            pair("b", ""),
            pair("c", "d=e")
        ]
    );
    assert_eq!(pairs(&show_pairs(&read)).unwrap(), read);
    let plan = pairs("session.2=start 10:05; end 10:50; judges=1").unwrap();
    assert_eq!(plan[0].1, "start 10:05; end 10:50");
    assert!(
        pairs("a=1; b")
            .unwrap_err()
            .contains("“b” is not key=value")
    );
    assert!(pairs("a=\"x").unwrap_err().contains("never closed"));
    assert!(pairs("a=1; A=2").unwrap_err().contains("twice"));
    assert!(pairs("a=\"x\"y").unwrap_err().contains("quoted value"));
    assert!(pairs("=1").unwrap_err().contains("no key"));
    assert_eq!(
        split_id("\"a; \"\"b\"\"\"; rest; more"),
        ("a; \"b\"".to_owned(), "rest; more")
    );
    assert_eq!(split_id("id"), ("id".to_owned(), ""));
}

#[test]
fn outcomes_read_and_print() {
    for text in [
        "good",
        "no",
        "no:press-out",
        "no:press-out,late",
        "pass",
        "time",
        "w",
        "r:press-out",
        "wwr",
        "wwr:press-out",
        "w,r.press-out,w",
        "r.a.b,w,r.c",
        "w,r.a,w:b",
        "good; reps=5",
        "no:press-out; reps=3",
        "wwr; as=power-clean",
        "w,r.a,w:b; reps=2; as=hang-power-clean",
    ] {
        assert_eq!(show_outcome(&parse_outcome(text).unwrap()), text);
    }
    assert_eq!(
        parse_outcome("W,R.Press-Out,w").unwrap(),
        Outcome {
            ruling: None,
            lights: vec![Light::White, Light::Red, Light::White],
            faults: vec![FaultGiven {
                judge: Some(2),
                code: "press-out".to_owned()
            }],
            reps: None,
            caught: None,
        }
    );
    assert_eq!(
        parse_outcome("no.press-out").unwrap().ruling,
        Some(Ruling::No)
    );
    let spaced = parse_outcome(" Good ;as = Power-Clean; REPS = 5 ").unwrap();
    assert_eq!(show_outcome(&spaced), "good; reps=5; as=power-clean");
    for bad in [
        "",
        "maybe",
        "wxr",
        "wwrwwr",
        "w,rr,w",
        ":press-out",
        "w,,w",
        "; reps=5",
        "good; reps=0",
        "good; reps=21",
        "good; reps=five",
        "good; reps",
        "good; sets=3",
        "good; as=",
        "good; as=power clean",
    ] {
        assert!(parse_outcome(bad).is_err(), "{bad}");
    }
}

#[test]
fn groups_are_told_by_their_numbers() {
    assert_eq!(group_of("imp/2"), Some(("imp", 2)));
    assert_eq!(group_of("a/b/12"), Some(("a/b", 12)));
    for alone in ["imp", "imp/", "/2", "imp/0", "imp/x", "imp/-1", "imp/+1"] {
        assert_eq!(group_of(alone), None, "{alone}");
    }
}

#[test]
fn times_are_read_on_the_day() {
    let at = |text: &str| {
        let row = ActRow {
            at: text.to_owned(),
            ..ActRow::default()
        };
        stamp(&row, date(), -360)
    };
    assert_eq!(at(" ").unwrap(), None);
    assert_eq!(
        at("09:05").unwrap().unwrap().to_string(),
        "2026-11-17T09:05:00-06:00"
    );
    assert!(at("2026-11-17T09:05:00~").unwrap().unwrap().loose);
    assert!(
        at("noon")
            .unwrap_err()
            .contains("write it as 2026-11-17T09:05:30")
    );
}

#[test]
fn commands_are_read() {
    assert!(matches!(
        ok("request|12|Power Clean|2||+5|Rack 2"),
        Command::Request { which, load: LoadAsked::Relative(rise), platform: Some(2), .. }
            if rise == Mass::whole(5, Unit::Lb)
                && which.lift.as_ref().unwrap().as_str() == "power-clean"
                && which.attempt == Some(2)
    ));
    assert!(matches!(
        ok("request|12|clean||85kg||"),
        Command::Request { load: LoadAsked::Exactly(w), .. } if w.mass == Mass::whole(85, Unit::Kg)
    ));
    assert!(matches!(
        ok("clock|||||1:05.25|1"),
        Command::Clock {
            movement: ClockMove::Set(65_250),
            ..
        }
    ));
    assert!(matches!(
        ok("stop|12|clean|||Pain; wrist; left|"),
        Command::Stop { stop: StopFor::Pain, reason, .. } if reason == "wrist; left"
    ));
    assert!(matches!(
        ok("loaded|12|clean|1|95|again|"),
        Command::Loaded {
            granted: Granted::Again,
            ..
        }
    ));
    assert!(matches!(
        ok("overrule|12|clean|1||no.press-out: clear to see: twice|"),
        Command::Rerule { reason, outcome, .. }
            if reason == "clear to see: twice" && outcome.faults.len() == 1
    ));
    assert_eq!(ok("undo||||||2"), Command::Undo(Line::Platform(2)));
    assert_eq!(ok("redo|||||Roster|"), Command::Redo(Line::Roster));
    assert!(matches!(
        ok("annul|||||\"\"\"a; b\"\"; twice\"|"),
        Command::Annul { act: 1, reason } if reason == "twice"
    ));
    assert!(matches!(
        ok("note|||||looks; odd|"),
        Command::Note { act: None, text, .. } if text == "looks; odd"
    ));
    assert!(matches!(
        ok("note|||||\"\"\"a; b\"\"; odd\"|"),
        Command::Note { act: Some(1), text, .. } if text == "odd"
    ));
    assert!(matches!(
        ok("start||clean|||2/B|1"),
        Command::Start { session: Some(s), flight: Some(f), .. } if s == "2" && f == "B"
    ));
    assert!(matches!(
        ok("reopen|||||reason=late|"),
        Command::Reopen { session: None, .. }
    ));
    assert!(matches!(
        ok("break||||||1"),
        Command::Break { minutes: None, .. }
    ));
    assert!(
        matches!(ok("edit|12||||grade=; sex=f|"), Command::Edit { changes, .. }
        if changes.len() == 2)
    );
}

#[test]
fn a_request_may_be_made_for_a_record() {
    let asked = |cells: &str| match ok(cells) {
        Command::Request { load, record, .. } => (load, record),
        other => panic!("{other:?}"),
    };
    let exactly = |text: &str| {
        LoadAsked::Exactly(crate::measure::Weight::parse(text, Unit::Lb).unwrap())
    };
    let rise = |text: &str| LoadAsked::Relative(Mass::parse(text, Unit::Lb).unwrap());
    for (cells, load, record) in [
        ("request|12|clean||182.5|record|", exactly("182.5"), true),
        ("request|12|clean|||182.5 record|", exactly("182.5"), true),
        ("request|12|clean|||+2.5 record|", rise("2.5"), true),
        ("request|12|clean||+2.5|record|", rise("2.5"), true),
        ("request|12|clean||182.5||", exactly("182.5"), false),
    ] {
        assert_eq!(asked(cells), (load, record), "{cells}");
    }
}

#[test]
fn acts_of_disqualification_numbers_and_ends_are_read() {
    let slug = |text: &str| Slug::new(text).unwrap();
    assert_eq!(
        ok("disqualify|12||||threw the bar|"),
        Command::Disqualify {
            number: 12,
            lift: None,
            reason: "threw the bar".to_owned()
        }
    );
    assert!(matches!(
        ok("disqualify|12|clean|||belt|"),
        Command::Disqualify { lift: Some(lift), .. } if lift == slug("clean")
    ));
    assert_eq!(ok("number||||||"), Command::Number { given: vec![] });
    assert_eq!(
        ok("number|||||12=1; 5 = 2|"),
        Command::Number {
            given: vec![(12, 1), (5, 2)]
        }
    );
    let last = NaiveDate::from_ymd_opt(2026, 12, 1);
    for cells in [
        "clear|12||||yes; until=2026-12-01; who=Ms Q|",
        "clear|12||||yes until 2026-12-01; who=Ms Q|",
    ] {
        assert!(
            matches!(ok(cells), Command::Clear { until, who, .. }
                if until == last && who == "Ms Q"),
            "{cells}"
        );
    }
    assert!(matches!(
        ok("tally|12|clean||95|good; reps=5|"),
        Command::Tally { outcome, .. } if outcome.reps == Some(5)
    ));
    assert!(matches!(
        ok("lights|12|clean|||w; as=power-clean|"),
        Command::Lights { outcome, .. } if outcome.caught == Some(slug("power-clean"))
    ));
    assert!(matches!(
        ok("edit|12||||guest=yes|"),
        Command::Edit { changes, .. } if changes == [crate::roster::Change::Guest(true)]
    ));
}

#[test]
fn a_correction_takes_its_parts_in_any_order() {
    let parts = |detail: &str| match ok(&format!("correct|12|clean|1|95|{detail}|")) {
        Command::Correct {
            of: CorrectionOf::Attempt { outcome, .. },
            reason,
        } => (outcome.map(|o| show_outcome(&o)), reason),
        other => panic!("{other:?}"),
    };
    let good =
        |outcome: &str, reason: &str| (Some(outcome.to_owned()), reason.to_owned());
    for (detail, outcome, reason) in [
        ("good; reps=5", "good; reps=5", ""),
        ("good; reason=misheard; reps=5", "good; reps=5", "misheard"),
        ("good; reps=5; reason=misheard", "good; reps=5", "misheard"),
        ("no:press-out; reason=film", "no:press-out", "film"),
        (
            "w; as=hang-power-clean; reps=2; reason=film",
            "w; reps=2; as=hang-power-clean",
            "film",
        ),
    ] {
        assert_eq!(parts(detail), good(outcome, reason), "{detail}");
    }
    assert_eq!(parts("; reason=misheard"), (None, "misheard".to_owned()));
    assert_eq!(parts(""), (None, String::new()));
}

#[test]
fn rows_that_cannot_be_right_say_what_would_be() {
    for (cells, sentence) in [
        (
            "lift|||||",
            "“lift” is no act; there is add, edit, place, here",
        ),
        (
            "here||||||",
            "The act here needs an athlete; write the table number.",
        ),
        (
            "here|x|||||",
            "“x” is no table number; write a whole number from 1 to 9999.",
        ),
        (
            "call|1|snatch||||",
            "“snatch” is not on this day's programme; there is clean, back-squat.",
        ),
        (
            "call|1|clean|x|||",
            "“x” is no attempt; write its number, 1 for the first.",
        ),
        (
            "call|1|clean|1|heavy||",
            "“heavy” is not a number; write a plain decimal",
        ),
        (
            "call|1|clean|1|2000||",
            "“2000” is no load that can be lifted here",
        ),
        (
            "call||||||3",
            "“3” is no platform of this day; write 1 to 2.",
        ),
        (
            "request|1|clean||||",
            "Say the load, such as 85, or a rise over what stands, such as +5.",
        ),
        (
            "clock|||||fast|",
            "“fast” can't be done to a clock; write stop, resume, or what is left",
        ),
        ("lights|||||wx|", "“wx” is no outcome; write good, no"),
        (
            "pass|||||all|",
            "“all” can't stand in detail here; write blank, rest.",
        ),
        (
            "stop|||||tired|",
            "“tired” can't stand in detail here; write technique, pain, director",
        ),
        (
            "loaded|1|clean|1||keep|",
            "Say in load what was really on the bar.",
        ),
        (
            "undo||||||",
            "Say on which platform, 1 to 2, or write roster, scale, flights or day",
        ),
        (
            "undo|||||lights|",
            "“lights” has nothing to undo; name the platform",
        ),
        (
            "annul|||||zz|",
            "There is no act “zz”; the journal lists the acts with their ids.",
        ),
        (
            "correct||||||",
            "Say what is corrected: athlete, lift and attempt",
        ),
        (
            "edit|1||||flight=B|",
            "“flight” is changed by the act place, not by edit.",
        ),
        (
            "edit|1||||colour=red|",
            "“colour” is no detail of an entry; there is lot, id",
        ),
        (
            "edit|1||||sex=X|",
            "sex: “X” is not a sex that is placed here; write F or M.",
        ),
        (
            "add|||||sex=F|",
            "An entry needs a name; write given=…; family=….",
        ),
        (
            "add|||||name=A; born=3/4/2010|",
            "born: “3/4/2010” could be 2010-03-04 or 2010-04-03",
        ),
        (
            "add|||||name=A; clean=90; power-clean=95|",
            "“clean” and “power-clean” both mean",
        ),
        (
            "add|||||name=A; power-clean=90; hang-power-clean=95|",
            "hang-power-clean: power-clean and",
        ),
        (
            "add|2||||name=A; lot=3|",
            "athlete says 2 and lot says 3; leave one of them.",
        ),
        (
            "place|1||||rack=2|",
            "“rack” is no place; write flight=…; platform=…; session=…",
        ),
        (
            "place|1|||||",
            "Say where to: flight=…; platform=…; session=….",
        ),
        ("start||||||", "Say which lift is meant: clean, back-squat."),
        (
            "break|||||long|",
            "“long” is no length of a break; write whole minutes",
        ),
        (
            "clear|1||||perhaps|",
            "“perhaps” is no clearance; write yes, no, or up to and a load, and until",
        ),
        (
            "clear|1||||yes; when=now|",
            "“when” can't stand here; write who=…; why=….",
        ),
        (
            "clear|1||||yes; until=spring|",
            "“spring” is no last day; write a date such as 2026-12-01.",
        ),
        (
            "number|||||12=first|",
            "“first” is no table number; write 1 to 9999, such as 12=1.",
        ),
        (
            "number|||||0=3|",
            "“0” is no table number; write 1 to 9999, such as 12=1.",
        ),
        ("number|||||by lot|", "“by lot” is not key=value"),
        ("disqualify||||||", "The act disqualify needs an athlete"),
        (
            "request|1|clean|||record|",
            "Say the load, such as 85, or a rise over what stands, such as +5.",
        ),
        (
            "tally|1|clean|1|95|good; reps=21|",
            "“reps=21” can't stand behind an outcome; write reps= and 1 to 20",
        ),
        (
            "correct|1|clean|1||good; colour=red|",
            "“colour” can't stand here; write reason=….",
        ),
        (
            "correct|1|clean|1||; reps=5|",
            "“; reps=5” is no outcome; write good, no",
        ),
        (
            "edit|1||||guest=perhaps|",
            "guest: “perhaps” can't be read; write yes or no.",
        ),
        ("|||||x|", "The act is blank; there is add"),
    ] {
        let found = why(cells);
        assert!(found.starts_with(sentence), "{cells}: {found}");
        assert!(found.ends_with('.'), "{found}");
    }
}
