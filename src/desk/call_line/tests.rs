//! The shorthand: what is read, what it says, what is owed.

mod finish;
mod keys;
mod powerlifting;
mod words;

use super::*;
use crate::day::{
    Authority, ClockMove, Context, Day, Granted, Light, LoadAsked, NewDay, Recorded,
    Roll, Ruling, Stamp, StopFor, apply, decide, new_day,
};
use crate::measure::{Mass, Unit};

const ROSTER: &str =
    "lot,given,family,team,flight,platform,bodyweight,clearance,snatch,clean-and-jerk
3,Ana,Ruiz,Larks,A,1,56,yes,50,62
7,Bo,Lind,Larks,A,1,60,yes,55,70
12,Cy,Marsh,Herons,A,1,61,no,58,
21,Di,Okoro,Herons,B,2,70,yes,60,80
";

const ROSTER_MAX: &str = "lot,given,family,flight,platform,power-clean,back-squat
3,Ana,Ruiz,A,1,95,135
7,Bo,Lind,A,1,,145
21,Di,Okoro,B,2,105,155
";

#[derive(Clone)]
struct Hall {
    day: Day,
    now: Stamp,
}

impl Hall {
    fn new(format: &str, unit: Unit, lifts: Option<&str>, roster: &str) -> Self {
        let date = chrono::NaiveDate::from_ymd_opt(2026, 11, 21).unwrap();
        let mut hall = Self {
            day: Day::new(),
            now: Stamp::parse("09:00:00", date, 0).unwrap(),
        };
        let event = new_day(&NewDay {
            name: "Hall".into(),
            date,
            format: format.into(),
            bar: unit,
            scale: None,
            judges: None,
            categories: None,
            tie: None,
            step: None,
            lifts: lifts.map(str::to_owned),
            platforms: Some(2),
        })
        .unwrap();
        hall.record(None, vec![event]);
        let read =
            crate::exchange::roster::read_roster(roster.as_bytes(), hall.facts(), None)
                .unwrap();
        hall.enter(&Command::Add(read.entries)).unwrap();
        hall
    }

    fn meet() -> Self {
        Self::new("weightlifting", Unit::Kg, None, ROSTER)
    }

    fn max_day() -> Self {
        Self::new(
            "max-day",
            Unit::Lb,
            Some("power-clean,back-squat"),
            ROSTER_MAX,
        )
    }

    fn facts(&self) -> &crate::day::Facts {
        self.day.facts()
    }

    fn record(&mut self, platform: Option<u8>, events: Vec<crate::day::Event>) {
        let act = self.day.next_seq();
        for event in events {
            let recorded = Recorded {
                seq: self.day.next_seq(),
                act,
                id: act.to_string(),
                at: self.now,
                happened: None,
                hand: "table".into(),
                platform,
                event,
            };
            apply(&mut self.day, &recorded);
        }
    }

    fn enter(&mut self, command: &Command) -> Result<(), String> {
        let context = Context {
            at: self.now,
            hand: "table".into(),
            draw: 1,
        };
        let decided = decide(&self.day, command, &context).map_err(|r| r.to_string())?;
        self.record(decided.platform, decided.events);
        Ok(())
    }

    fn read(&self, text: &str) -> Result<Meaning, String> {
        read(text, self.facts(), 1)
    }

    fn command(&self, text: &str) -> Command {
        let meaning = self.read(text).unwrap();
        meaning
            .command()
            .unwrap_or_else(|| panic!("{text}: {meaning:?}"))
            .clone()
    }

    fn says(&self, text: &str) -> String {
        match self.read(text) {
            Ok(meaning) => meaning.sentence().to_owned(),
            Err(sentence) => format!("no: {sentence}"),
        }
    }

    /// Types lines, each a second after the one before.
    fn type_in(&mut self, lines: &[&str]) {
        for line in lines {
            self.now = self.now.plus_ms(1000);
            let command = self.command(line);
            self.enter(&command)
                .unwrap_or_else(|e| panic!("{line}: {e}"));
        }
    }

    fn owed(&self) -> Vec<String> {
        owed(self.facts(), 1, self.now)
    }
}

#[test]
fn an_empty_line_starts_then_calls_and_never_rules() {
    let mut hall = Hall::meet();
    assert_eq!(hall.says(""), "Starts snatch for flight 1/A on platform 1.");
    hall.type_in(&[""]);
    assert_eq!(
        hall.says("  "),
        "Calls lot 3, Ana Ruiz, attempt 1 at 50 kg."
    );
    hall.type_in(&[""]);
    assert_eq!(
        hall.says(""),
        "no: Lot 3 is called: type the lights, such as wwr; pass; or a new load."
    );
}

#[test]
fn requests_are_read() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A"]);
    let Command::Request {
        which,
        load,
        platform,
        ..
    } = hall.command("7 57")
    else {
        panic!()
    };
    assert_eq!((which.number, platform), (Some(7), Some(1)));
    let LoadAsked::Exactly(load) = load else {
        panic!()
    };
    assert_eq!(load.mass, Mass::whole(57, Unit::Kg));
    assert_eq!(
        hall.says("7 57"),
        "Lot 7, Bo Lind asks for 57 kg instead of 55 kg."
    );
    assert_eq!(
        hall.says("7 120 lb"),
        "Lot 7, Bo Lind asks for 54.4310844 kg, which the discs on platform 1 can't make; 54 kg and 55 kg can."
    );
    assert_eq!(
        hall.says("7 57,5"),
        "Lot 7, Bo Lind asks for 57.5 kg, which the discs on platform 1 can't make; 57 kg and 58 kg can."
    );
    assert_eq!(
        hall.says("7 570"),
        "Lot 7, Bo Lind asks for 570 kg, 515 kg more than the 55 kg that stands: check the \
         number; the discs on platform 1 can't make it; 425 kg can."
    );
    assert_eq!(
        hall.says("7 +5"),
        "Lot 7, Bo Lind asks for 60 kg (5 kg more) instead of 55 kg."
    );
    assert_eq!(
        hall.says("7 -2"),
        "Lot 7, Bo Lind asks for 53 kg (2 kg less) instead of 55 kg."
    );
    assert_eq!(
        hall.says("7 -2.5"),
        "Lot 7, Bo Lind asks for 52.5 kg (2.5 kg less), which the discs on platform 1 can't \
         make; 52 kg and 53 kg can."
    );
    assert_eq!(
        hall.says("7 clean-and-jerk 72"),
        "Lot 7, Bo Lind asks for 72 kg instead of 70 kg in clean and jerk."
    );
    assert!(
        hall.says("99 60")
            .starts_with("no: No entry has the number 99.")
    );
    // Somebody of another platform: the sentence names it.
    assert!(hall.says("21 62").ends_with("(on platform 2)."));
}

#[test]
fn a_bare_load_is_read_only_while_a_request_is_owed() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A"]);
    assert!(
        hall.says("85")
            .starts_with("no: No entry has the number 85.")
    );
    assert!(
        hall.says("52.5")
            .starts_with("no: Nobody owes a request on platform 1")
    );
    hall.type_in(&["call", "www"]);
    assert_eq!(
        hall.says("53"),
        "Lot 3, Ana Ruiz asks for 53 kg in snatch, attempt 2."
    );
    assert_eq!(
        hall.owed()[0],
        "Lot 3 owes the request for attempt 2: type the load. 51 kg stands until then."
    );
    // No bar is as light as 7 kg: a rise.
    assert!(hall.says("7").starts_with("Lot 3, Ana Ruiz asks for 57 kg"));
    assert!(hall.says("who 7").starts_with("Lot 7: Bo Lind; Larks"));
    hall.type_in(&["53"]);
    assert!(
        hall.says("53")
            .starts_with("no: No entry has the number 53.")
    );
}

#[test]
fn a_number_alone_asks_who_it_is_without_body_or_health() {
    let hall = Hall::meet();
    assert_eq!(
        hall.says("3"),
        "Lot 3: Ana Ruiz; Larks; flight 1/A on platform 1; snatch attempt 1: 50; \
         clean-and-jerk attempt 1: 62."
    );
    let twelve = hall.says("who 12");
    assert!(twelve.ends_with("not cleared."), "{twelve}");
    assert!(!twelve.contains("61"), "{twelve}");
}

#[test]
fn lights_are_read_with_reasons() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A", "call"]);
    let Command::Lights { outcome, .. } = hall.command("wwr press-out") else {
        panic!()
    };
    assert_eq!(outcome.lights, [Light::White, Light::White, Light::Red]);
    assert_eq!(outcome.faults[0].code, "press-out");
    assert_eq!(
        hall.says("wrr"),
        "Lot 3, Ana Ruiz: 1 white, 2 red, no lift."
    );
    assert!(
        hall.says("rrr pr").contains("no lift"),
        "{}",
        hall.says("rrr pr")
    );
    assert!(
        hall.says("rrr sneeze")
            .starts_with("no: “sneeze” is no fault of the snatch")
    );
    assert_eq!(
        hall.says("time"),
        "Lot 3, Ana Ruiz: no lift, the clock ran out."
    );
}

#[test]
fn a_missing_reason_is_owed_and_given_afterwards() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A", "call", "rrw"]);
    assert!(
        hall.owed()
            .iter()
            .any(|s| s.contains("The reason for the no lift of lot 3"))
    );
    hall.type_in(&["fault press-out"]);
    assert!(!hall.owed().iter().any(|s| s.contains("The reason")));
    let ruled = hall
        .facts()
        .entries
        .values()
        .find(|e| e.number == 3)
        .unwrap();
    let slot = &hall.facts().slots[0].slot;
    let ruled = hall
        .facts()
        .attempt(ruled.key, slot, 1)
        .unwrap()
        .ruled
        .as_ref()
        .unwrap();
    assert_eq!(ruled.fact.lights.len(), 3);
    assert_eq!(ruled.fact.ruling, Ruling::No);
}

#[test]
fn the_deadline_of_the_called_is_told() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A", "7 60", "7 61", "check Ms Bell", "call"]);
    hall.now = hall.now.plus_ms(10_000);
    assert_eq!(
        hall.owed(),
        ["50 kg is the opener; 2 changes left; closes in 20 s."]
    );
    hall.type_in(&["3 51"]);
    // The clock stops for a change and goes on when the bar is loaded.
    assert_eq!(
        hall.owed(),
        ["51 kg declared; 1 change left; the clock stands, 19 s before it closes."]
    );
    hall.type_in(&["clock go"]);
    assert_eq!(
        hall.owed(),
        ["51 kg declared; 1 change left; closes in 19 s."]
    );
    hall.now = hall.now.plus_ms(19_000);
    assert_eq!(hall.owed(), ["51 kg stands; changes are closed."]);
    hall.type_in(&["clock 0:42"]);
    assert_eq!(
        hall.owed(),
        ["51 kg declared; 1 change left; closes in 12 s."]
    );
    hall.type_in(&["clock stop"]);
    assert!(hall.owed()[0].contains("the clock stands, 11 s before it closes"));
}

#[test]
fn passes_stops_and_comings_and_goings() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A", "call"]);
    let rest = |t: &str| match hall.command(t) {
        Command::Pass { rest, which, .. } => (which.number, rest),
        other => panic!("{other:?}"),
    };
    assert_eq!(rest("pass"), (None, false));
    assert_eq!(rest("7 pass"), (Some(7), false));
    assert_eq!(rest("7 rest"), (Some(7), true));
    assert_eq!(rest("7 pass rest"), (Some(7), true));
    for (text, stop) in [
        ("stop pain", StopFor::Pain),
        ("7 stop technique", StopFor::Technique),
        ("stop director", StopFor::Director),
    ] {
        assert!(matches!(hall.command(text), Command::Stop { stop: s, .. } if s == stop));
    }
    assert!(hall.says("stop").starts_with("no: Write what for"));
    for (text, roll) in [
        ("7 here", Roll::Here),
        ("7 absent", Roll::Absent),
        ("7 away", Roll::Away),
        ("7 back", Roll::Back),
    ] {
        assert!(matches!(hall.command(text), Command::Roll { roll: r, .. } if r == roll));
    }
    assert_eq!(
        hall.says("7 withdraw"),
        "Lot 7, Bo Lind withdraws from the day."
    );
    assert_eq!(
        hall.says("7 withdraw snatch"),
        "Lot 7, Bo Lind withdraws from snatch."
    );
}

#[test]
fn tallies_and_what_became_of_attempts() {
    let hall = Hall::meet();
    let Command::Tally {
        which,
        load,
        outcome,
        ..
    } = hall.command("7 tally snatch 55 no:press-out")
    else {
        panic!()
    };
    assert_eq!(which.lift.unwrap().as_str(), "snatch");
    assert_eq!(load.unwrap().typed, "55");
    assert_eq!(outcome.ruling, Some(Ruling::No));
    assert_eq!(outcome.faults[0].code, "press-out");
    assert!(matches!(
        hall.command("7 tally good"),
        Command::Tally { load: None, .. }
    ));
    assert!(
        hall.says("7 tally 55")
            .starts_with("no: The outcome is missing")
    );
    assert!(
        hall.says("7 tally 55 maybe")
            .starts_with("no: “maybe” is no outcome")
    );
    assert!(matches!(
        hall.command("7 loaded 57 keep"),
        Command::Loaded {
            granted: Granted::Keep,
            ..
        }
    ));
    assert!(
        hall.says("7 loaded 57")
            .starts_with("no: Write what was on the bar")
    );
    assert!(matches!(
        hall.command("7 overrule good film"),
        Command::Rerule { authority: Authority::Overrule, reason, .. } if reason == "film"
    ));
    assert!(matches!(
        hall.command("7 challenge no elbow"),
        Command::Rerule {
            authority: Authority::Challenge,
            ..
        }
    ));
    assert!(
        matches!(hall.command("7 extra timing"), Command::Extra { reason, .. } if reason == "timing")
    );
}

#[test]
fn the_platform_is_run() {
    let hall = Hall::meet();
    assert!(matches!(
        hall.command("start clean-and-jerk 1/A"),
        Command::Start { session: Some(s), flight: Some(f), .. } if s == "1" && f == "A"
    ));
    assert!(
        hall.says("start")
            .starts_with("no: Write which lift starts: snatch")
    );
    assert!(
        hall.says("start bench")
            .starts_with("no: “bench” is not on this day's programme")
    );
    assert!(matches!(
        hall.command("break 12"),
        Command::Break {
            minutes: Some(12),
            ..
        }
    ));
    assert_eq!(hall.says("break"), "A break of 10 minutes on platform 1.");
    assert!(
        hall.says("break soon")
            .starts_with("no: “soon” is no number of minutes")
    );
    assert!(matches!(
        hall.command("clock 0:42"),
        Command::Clock {
            movement: ClockMove::Set(42_000),
            ..
        }
    ));
    assert!(matches!(
        hall.command("clock stop"),
        Command::Clock {
            movement: ClockMove::Stop,
            ..
        }
    ));
    assert!(matches!(
        hall.command("clock go"),
        Command::Clock {
            movement: ClockMove::Resume,
            ..
        }
    ));
    assert!(
        hall.says("clock 0:75")
            .starts_with("no: “0:75” is no clock time")
    );
    assert!(
        matches!(hall.command("check Ms Bell"), Command::Check { who, .. } if who == "Ms Bell")
    );
    assert!(
        matches!(hall.command("note bar bent"), Command::Note { text, .. } if text == "bar bent")
    );
    assert_eq!(hall.read("undo"), Ok(Meaning::Undo));
    assert_eq!(hall.read("REDO"), Ok(Meaning::Redo));
    assert!(hall.says("frobnicate").contains("press F1"));
    assert!(hall.owed()[0].starts_with("The station check of platform 1 is not signed"));
}

#[test]
fn where_the_queue_is_advice_one_line_calls_and_rules() {
    let mut hall = Hall::max_day();
    hall.type_in(&["start power-clean A", "check Mr Iyer"]);
    assert_eq!(hall.owed(), ["Lot 7 owes the opener."]);
    assert_eq!(hall.says("3 95 w"), "Lot 3, Ana Ruiz at 95 lb: good lift.");
    hall.type_in(&["3 95 w"]);
    assert_eq!(
        hall.owed()[0],
        "Lot 3 owes the request for attempt 2: type the load."
    );
    hall.type_in(&["105", "7 100", "call 7"]);
    assert_eq!(hall.says("r"), "Lot 7, Bo Lind: no lift.");
    hall.type_in(&["r"]);
    assert_eq!(
        hall.says("95"),
        "Lot 7, Bo Lind asks for 95 lb in power clean, attempt 2."
    );
}

#[test]
fn the_next_lift_is_suggested_when_one_is_done() {
    let mut hall = Hall::max_day();
    hall.type_in(&["start power-clean A", "3 rest", "7 rest"]);
    assert_eq!(
        hall.says(""),
        "Starts back squat for flight 1/A on platform 1."
    );
}

#[test]
fn nothing_ever_panics_and_every_sentence_ends() {
    let mut hall = Hall::meet();
    hall.type_in(&["start snatch A", "call"]);
    let words = [
        "3", "w", "r", "call", "tally", "+", "-", "kg", "85", "0", "99999", ":", "start",
        "clock", "é", "rest", "loaded", "stop",
    ];
    for a in words {
        for b in words {
            for c in words {
                let said = hall.says(&format!("{a} {b} {c}"));
                assert!(said.ends_with('.'), "{a} {b} {c}: {said}");
            }
        }
    }
}
