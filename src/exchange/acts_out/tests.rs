//! Tests of this room.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::*;
use crate::day::{Context, Stamp, decide};
use crate::exchange::acts::{command, group_of, read_acts, stamp};
use crate::lift::Slug;
use crate::measure::Unit;
use crate::roster::SlotLine;
use crate::rules::format_named;

fn date() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 17).unwrap()
}

fn noon() -> Stamp {
    Stamp::parse("12:00", date(), -360).unwrap()
}

fn slot(text: &str) -> SlotLine {
    let (name, lifts) = text.split_once('=').unwrap_or((text, text));
    SlotLine {
        slot: Slug::new(name).unwrap(),
        variants: lifts.split('+').map(|l| Slug::new(l).unwrap()).collect(),
    }
}

fn made(format: &str, unit: Unit, slots: &[&str], platforms: u8) -> Day {
    let rules = format_named(format).unwrap().rules(unit).unwrap().words();
    let mut day = Day::new();
    let event = Event::DayMade {
        name: String::new(),
        date: date(),
        format: format.to_owned(),
        bar_unit: unit,
        scale_unit: unit,
        rules: rules.into_iter().collect::<BTreeMap<_, _>>(),
        slots: slots.iter().map(|s| slot(s)).collect(),
        platforms,
    };
    push(&mut day, "made", None, noon(), "", None, event);
    day
}

fn push(
    day: &mut Day,
    id: &str,
    act: Option<u64>,
    at: Stamp,
    hand: &str,
    platform: Option<u8>,
    event: Event,
) {
    let seq = day.next_seq();
    let recorded = Recorded {
        seq,
        act: act.unwrap_or(seq),
        id: id.to_owned(),
        at,
        happened: None,
        hand: hand.to_owned(),
        platform,
        event,
    };
    apply(day, &recorded);
}

fn run(day: &mut Day, rows: &[ActRow]) {
    for (row, n) in rows.iter().zip(1..) {
        let given = group_of(&row.id).map_or(row.id.as_str(), |(id, _)| id);
        let id = if given.is_empty() {
            format!("n{n}")
        } else {
            given.to_owned()
        };
        let place = |e: String| format!("line {}: {e} ({row:?})", row.line);
        let wanted = command(day, row).map_err(place).unwrap();
        let at = stamp(row, date(), -360)
            .unwrap()
            .unwrap_or(noon().loosely());
        let context = Context {
            at,
            hand: row.by.clone(),
            draw: 7,
        };
        let decided = decide(day, &wanted, &context);
        let decided = decided.map_err(|e| place(e.to_string())).unwrap();
        let mut act = day
            .journal()
            .last()
            .filter(|r| r.id == id && group_of(&row.id).is_some())
            .map(|r| r.act);
        for event in decided.events {
            let first = act.unwrap_or(day.next_seq());
            act = Some(first);
            push(day, &id, act, at, &row.by, decided.platform, event);
        }
    }
}

/// Runs acts, writes the journal, replays it on a day made anew, and compares.
fn round_trip(make: impl Fn() -> Day, text: &str) -> Vec<ActRow> {
    let mut day = make();
    run(&mut day, &read_acts(text).unwrap());
    let written = rows(&day);
    let csv = crate::exchange::tables::acts_csv(
        &written,
        crate::exchange::tables::Style::Stdout,
    );
    let read = read_acts(std::str::from_utf8(&csv).unwrap()).unwrap();
    let mut again = make();
    run(&mut again, &read);
    let (found, wanted) = (again.facts(), seq_free(day.facts(), again.facts()));
    for (found, wanted) in format!("{found:#?}")
        .lines()
        .zip(format!("{wanted:#?}").lines())
    {
        assert_eq!(found, wanted);
    }
    assert!(*found == wanted);
    assert_eq!(rows(&again), written);
    written
}

/// The facts with the other's places in the journal, which the row of the
/// settings moves.
fn seq_free(facts: &crate::day::Facts, like: &crate::day::Facts) -> crate::day::Facts {
    let mut facts = facts.clone();
    for (place, other) in facts.platforms.iter_mut().zip(&like.platforms) {
        place.last_call = place.last_call.and(other.last_call);
    }
    for (key, runs) in &mut facts.runs {
        for (slot, run) in runs {
            for (n, attempt) in &mut run.attempts {
                let other = like.attempt(*key, slot, *n);
                let mut seqs = other
                    .iter()
                    .flat_map(|a| a.void.iter().chain(&a.ruled))
                    .map(|r| r.seq);
                for ruled in attempt.void.iter_mut().chain(&mut attempt.ruled) {
                    ruled.seq = seqs.next().unwrap_or(0);
                }
            }
        }
    }
    facts
}

fn max_day() -> Day {
    made(
        "max-day",
        Unit::Lb,
        &["clean=power-clean+hang-power-clean", "back-squat"],
        2,
    )
}

fn meet() -> Day {
    made("weightlifting", Unit::Kg, &["snatch", "clean-and-jerk"], 1)
}

const HEAD: &str = "act,athlete,lift,attempt,load,detail,platform,at,by,id\n";

#[test]
fn a_max_day_replays_to_the_same_day() {
    let text = format!(
        "{HEAD}\
set,,,,,\"name=\"\"Fall; max day\"\"; judges=1\",,08:00,Coach,
set,,,,,\"platform.1=Rack 1; session.2=\"\"start 10:05; end 10:50\"\"\",,08:01,Coach,
add,,,,,\"given=Ann; family=Lee; sex=F; lot=12; grade=10; flight=A; platform=2; bodyweight=130.4; power-clean=95; back-squat=135 ; back-squat last=60kg; division=\"\"novice; team B\"\"; clearance=\"\"yes; back-squat: up to 150\"\"; born=2010\",,08:02,Office,imp/1
add,,,,,\"name=\"\"van Dam, Piet\"\"; lot=3; sex=M; flight=A; hang-power-clean=115; back-squat=-; rack squat=1450\",,08:02,Office,imp/2
add,,,,,name=Oru; flight=B,,08:03,Office,late
undo,,,,,roster,,08:03,Office,
redo,,,,,roster,,08:03,Office,
edit,3,,,,lot=4; team=Otters; back-squat=150 lb; grade=,,08:04,Office,
place,4,,,,flight=C; platform=1,,08:05,Office,
place,4,,,,flight=A,,08:05,Office,
here,12,,,,,,08:06,T,
away,4,,,,nurse,,08:06,T,
back,4,,,,,,08:07,T,
absent,1,,,,ill; late,,08:07,T,
weigh,12,,,59 kg,,,08:08,T,w1
weigh,12,,,131.5,,,08:09,T,
undo,,,,,scale,,08:09,T,
correct,,,,,w1; bodyweight=130; reason=misread,,08:10,T,
clear,4,back-squat,,,up to 200; who=Ms Q; why=form,,08:10,Nurse,
cap,4,,,190,who=Ms Q; why=knee,,08:10,Nurse,
cap,4,,,,\"who=Ms Q; why=\"\"fine = again\"\"\",,08:11,Nurse,
check,,,,,Mr T,2,08:12,Mr T,
start,,clean,,,1/A,2,08:13,Mr T,
lights,12,clean,1,95,w,2,08:14,Mr T,
lights,4,clean,1,115,r:FAULT,2,08:15,Mr T,x1
"
    );
    let known = crate::lift::catalogue().get("hang-power-clean").unwrap();
    let text = text.replace("FAULT", &known.faults[0]);
    let rest = "\
request,12,clean,,,+10,2,08:16,Mr T,
tally,12,clean,2,110,good,,08:17,Mr T,
loaded,12,clean,2,105,keep,,08:18,Mr T,
overrule,4,clean,1,,good: seen from the side,,08:19,Coach,
pass,12,clean,,,rest,,08:20,Mr T,
stop,4,clean,,,pain; wrist,2,08:21,Mr T,
pass,1,back-squat,,,rest,,08:21,Mr T,
extra,12,clean,,,wrong load,,08:22,Coach,
break,,,,,5,2,08:23,Mr T,
tally,12,back-squat,1,135,no,,08:30,Mr T,sq
tally,12,back-squat,2,135,good,,08:30,Mr T,
correct,12,back-squat,1,140,good; reason=misheard,,08:31,Mr T,
correct,12,back-squat,2,,no,,08:31,Mr T,
correct,,,,,sq; load=145,,08:32,Mr T,
loaded,12,back-squat,2,140,repeat,,08:33,Mr T,
tally,12,back-squat,2,140,pass,,08:34,Mr T,sq2
annul,,,,,sq2; wrong athlete,,08:35,Mr T,
note,12,,,,a; b,,08:36,Mr T,
note,,,,,sq; looked low,,08:36,Mr T,
withdraw,12,back-squat,,,shoulder,,08:37,Mr T,
close,,,,,1,,08:38,Coach,
reopen,,,,,1; reason=late card,,,Coach,
close,,,,,,,08:40,Coach,
undo,,,,,day,,08:41,Coach,
";
    let written = round_trip(max_day, &format!("{text}{rest}"));
    let row = |act: &str| {
        let found = written.iter().filter(|r| r.act == act);
        found.cloned().collect::<Vec<_>>()
    };
    assert_eq!(
        row("lights")[0].cells()[..6],
        ["lights", "12", "clean", "1", "95", "w"]
    );
    assert_eq!(row("stop")[0].detail, "pain; wrist");
    let passes = row("pass");
    assert_eq!(
        (passes[0].detail.as_str(), passes[0].attempt.as_str()),
        ("", "3")
    );
    assert_eq!(
        (passes[1].detail.as_str(), passes[1].attempt.as_str()),
        ("rest", "1")
    );
    assert_eq!(row("here").len(), 1);
    assert_eq!(row("away").len(), 1);
    assert_eq!(row("undo")[0].detail, "roster");
    assert_eq!(row("place")[0].detail, "session=1; flight=C; platform=1");
    let adds = row("add");
    assert_eq!(
        (adds[0].id.as_str(), adds[1].id.as_str()),
        ("imp/1", "imp/2")
    );
    assert_eq!(
        adds[1].detail,
        "lot=3; given=Piet; family=van Dam; sex=M; rack squat=1450; hang-power-clean=115; \
         back-squat=-; session=1; flight=A; platform=2"
    );
    assert_eq!(
        adds[0].detail,
        "lot=12; given=Ann; family=Lee; sex=F; grade=10; bodyweight=130.4; back-squat \
         last=60 kg; division=\"novice; team B\"; clearance=\"yes; back-squat: up to 150\"; \
         born=2010; power-clean=95; back-squat=135; session=1; flight=A; platform=2"
    );
    assert!(row("reopen")[0].at.ends_with('~'));
    let last = row("correct").pop().unwrap();
    assert_eq!(
        last.cells()[..6],
        ["correct", "12", "back-squat", "1", "145", ""]
    );
    assert_eq!(written[0].act, "set");
    assert_eq!(written[0].detail, "date=2026-11-17; platforms=2");
}

#[test]
fn a_meet_replays_to_the_same_day() {
    let text = format!(
        "{HEAD}\
add,,,,,name=Ada Noor; lot=1; sex=F; snatch=50; clean-and-jerk=60; flight=A; bodyweight=55,,08:00,O,
add,,,,,name=Bea Quist; lot=2; sex=F; snatch=52; clean-and-jerk=62; flight=A; bodyweight=56,,08:00,O,
start,,snatch,,,,,09:00,T,
call,,,,,,,09:01,T,
clock,,,,,stop,,09:01:20,T,
clock,,,,,0:42,,09:01:30,T,
clock,,,,,resume,,09:01:31,T,
request,1,,,53,,,09:01:32,T,
call,2,snatch,1,52,,,09:02,T,
lights,,,,,wwr,,09:02:30,T,
undo,,,,,,,09:02:40,T,
lights,,,,,\"w,r.press-out,r.press-out\",,09:02:50,T,
request,2,,,,+1,,09:03,T,
call,1,,,,,,09:03:10,T,
lights,,,,,time,,09:04:10,T,
challenge,1,snatch,1,,good: seen again,,09:05,Jury,
undo,,,,,,1,09:05:30,T,
redo,,,,,,1,09:05:40,T,
pass,2,snatch,2,,,,09:06,T,
correct,2,snatch,1,,www,,09:07,T,
"
    );
    let written = round_trip(meet, &text);
    let details: Vec<&str> = written
        .iter()
        .filter(|r| {
            matches!(r.act.as_str(), "lights" | "clock" | "challenge" | "correct")
        })
        .map(|r| r.detail.as_str())
        .collect();
    assert_eq!(
        details,
        [
            "stop",
            "0:42",
            "resume",
            "wwr",
            "w,r.press-out,r.press-out",
            "time",
            "good: seen again",
            "www"
        ]
    );
}

fn found(written: &[ActRow], act: &str) -> Vec<ActRow> {
    written.iter().filter(|r| r.act == act).cloned().collect()
}

fn details(written: &[ActRow], act: &str) -> Vec<String> {
    found(written, act).into_iter().map(|r| r.detail).collect()
}

#[test]
fn tests_of_several_repetitions_and_other_variants_replay() {
    let text = format!(
        "{HEAD}\
set,,,,,wrong-catch=reclassify; reps=multiple; judges=1,,08:00,O,
add,,,,,name=Ann Lee; lot=1; power-clean=95; back-squat=135; flight=A,,08:00,O,
add,,,,,name=Bo Dorn; lot=2; hang-power-clean=115; flight=A; guest=yes,,08:00,O,
start,,clean,,,A,1,08:01,T,
call,1,clean,1,,,1,08:02,T,
lights,1,,,,w; as=hang-power-clean,1,08:03,T,
lights,1,clean,2,100,w,1,08:04,T,
tally,1,hang-power-clean,3,105,good,1,08:05,T,
tally,2,clean,1,115,good; reps=5,1,08:06,T,
tally,2,clean,2,120,no; reps=3; as=power-clean,1,08:07,T,
correct,2,clean,1,,good; reps=4; reason=misheard,,08:08,T,
correct,2,clean,1,,good; reps=1,,08:09,T,
correct,2,clean,2,,no; as=hang-power-clean,,08:10,T,
correct,1,clean,3,110,good; as=power-clean; reps=2,,08:11,T,
set,,,,,wrong-catch=strict,,08:12,O,
edit,2,,,,guest=no,,08:14,O,
tally,2,clean,3,125,good; reps=2,1,08:15,T,
"
    );
    let written = round_trip(max_day, &text);
    assert_eq!(
        details(&written, "lights"),
        ["w; as=hang-power-clean", "w; as=power-clean"]
    );
    assert_eq!(
        details(&written, "tally"),
        [
            "good; as=hang-power-clean",
            "good; reps=5; as=hang-power-clean",
            "no; reps=3; as=power-clean",
            // Strict by now: the variant that is entered goes without saying.
            "good; reps=2"
        ]
    );
    assert_eq!(
        details(&written, "correct"),
        [
            "good; reps=4; reason=misheard",
            "good; reps=1",
            "no; as=hang-power-clean",
            "good; reps=2; as=power-clean"
        ]
    );
}

#[test]
fn start_numbers_replay_and_every_act_has_the_number_of_its_time() {
    let text = format!(
        "{HEAD}\
set,,,,,table-number=start,,08:00,O,
add,,,,,name=Ada Noor; lot=9; sex=F; snatch=50; clean-and-jerk=60; flight=A; bodyweight=55,,08:00,O,
add,,,,,name=Bea Quist; lot=4; sex=F; snatch=52; clean-and-jerk=62; flight=A; bodyweight=56,,08:00,O,
add,,,,,name=Cy Roe; lot=7; sex=M; snatch=60; clean-and-jerk=70; flight=A; bodyweight=66,,08:00,O,
weigh,9,,,55.2,,,08:01,O,
number,,,,,,,08:02,O,n
weigh,3,,,55.4,,,08:03,O,
undo,,,,,scale,,08:04,O,
undo,,,,,roster,,08:05,O,
weigh,9,,,55.6,,,08:06,O,
number,,,,,9=2; 4=9; 7=1,,08:07,O,
request,9,snatch,1,53,,,08:08,O,
clear,1,,,,yes; until=2026-12-01; who=Ms Q; why=form,,08:08,Nurse,
edit,2,,,,clearance=\"yes; snatch: up to 80 until 2026-11-30\",,08:08,O,
start,,snatch,,,A,,08:09,T,
call,,,,,,,08:10,T,
lights,,,,,www,,08:10:20,T,
disqualify,2,snatch,,,\"two warnings; the second for words\",,08:11,Jury,
undo,,,,,roster,,08:12,Jury,
disqualify,2,,,,threw the bar,,08:13,Jury,
edit,1,,,,lot=30; guest=yes,,08:14,O,
absent,30,,,,left,,08:15,O,
"
    );
    let written = round_trip(meet, &text);
    let numbers: Vec<String> = written
        .iter()
        .filter(|r| !r.athlete.is_empty())
        .map(|r| format!("{} {}", r.act, r.athlete))
        .collect();
    assert_eq!(
        numbers,
        [
            "weigh 9",
            "weigh 3",
            "weigh 9",
            "request 9",
            "clear 1",
            "edit 2",
            "call 2",
            "lights 2",
            "disqualify 2",
            "disqualify 2",
            "edit 1",
            "absent 30"
        ]
    );
    assert_eq!(
        details(&written, "number"),
        ["4=1; 7=2; 9=3", "9=2; 4=9; 7=1"]
    );
    assert_eq!(
        details(&written, "clear"),
        ["yes until 2026-12-01; who=Ms Q; why=form"]
    );
    assert_eq!(
        details(&written, "disqualify"),
        ["two warnings; the second for words", "threw the bar"]
    );
    assert_eq!(found(&written, "disqualify")[0].lift, "snatch");
    assert_eq!(details(&written, "edit")[1], "lot=30; guest=yes");
}

#[test]
fn requests_for_records_and_lost_challenges_replay() {
    let make = || {
        let lifts = ["back-squat", "bench-press", "deadlift"];
        made("powerlifting", Unit::Kg, &lifts, 1)
    };
    let text = format!(
        "{HEAD}\
set,,,,,record-step=0.5 kg; challenges=1; step=2.5 kg,,08:00,O,
add,,,,,name=Ada Noor; lot=1; sex=F; back-squat=100; bench-press=60; deadlift=120; flight=A; bodyweight=55; clearance=yes until 2026-11-20,,08:00,O,
add,,,,,name=Bea Quist; lot=2; sex=F; back-squat=105; bench-press=62.5; deadlift=125; flight=A; bodyweight=56; guest=yes; clearance=\"yes; deadlift: no until 2026-11-18\",,08:00,O,
start,,back-squat,,,A,,09:00,T,
call,1,back-squat,1,,,,09:01,T,
lights,,,,,wwr,,09:01:30,T,
request,1,back-squat,2,100.5,record,,09:02,T,
call,2,back-squat,1,,,,09:02:10,T,
lights,,,,,rrw,,09:02:40,T,c
challenge,2,back-squat,1,,no: not deep enough,,09:02:50,Jury,
request,2,back-squat,2,105,,,09:03,T,
call,1,back-squat,2,,,,09:04,T,
lights,,,,,www,,09:04:30,T,
loaded,1,back-squat,2,103,keep,,09:05,T,
correct,2,back-squat,1,,wwr,,09:06,T,
"
    );
    let written = round_trip(make, &text);
    let asked: Vec<(String, String)> = found(&written, "request")
        .into_iter()
        .map(|r| (r.load, r.detail))
        .collect();
    let pair = |a: &str, b: &str| (a.to_owned(), b.to_owned());
    assert_eq!(asked, [pair("100.5", "record"), pair("105", "")]);
    assert_eq!(details(&written, "challenge"), ["no: not deep enough"]);
    let adds = details(&written, "add");
    assert!(
        adds[0].contains("clearance=yes until 2026-11-20"),
        "{}",
        adds[0]
    );
    assert!(
        adds[1].contains("clearance=\"yes; deadlift: no until 2026-11-18\""),
        "{}",
        adds[1]
    );
    assert!(adds[1].contains("guest=yes"), "{}", adds[1]);
}

#[test]
fn the_rows_of_one_card_keep_their_own_times() {
    let text = format!(
        "{HEAD}\
add,,,,,name=Ann Lee; lot=1; clean=95; back-squat=135; flight=A,,08:00,O,
start,,clean,,,A,,08:01,T,
request,1,,1,100,,1,08:02,T,card/1
lights,1,clean,1,100,w,1,08:03,T,card/2
call,1,clean,2,105,,1,08:04,T,card/3
lights,1,clean,2,105,r,1,08:05,T,card/4
pass,1,clean,3,,,1,08:06,T,card/5
edit,1,,,,lot=7,,08:07,O,re/1
weigh,7,,,130,,,08:08,O,re/2
"
    );
    let written = round_trip(max_day, &text);
    let card: Vec<_> = written
        .iter()
        .filter(|r| r.id.starts_with("card"))
        .collect();
    let words: Vec<(&str, &str)> = card
        .iter()
        .map(|r| (r.act.as_str(), &r.at[11..16]))
        .collect();
    assert_eq!(
        words,
        [
            ("request", "08:02"),
            ("lights", "08:03"),
            ("call", "08:04"),
            ("lights", "08:05"),
            ("pass", "08:06")
        ]
    );
    assert_eq!(written.last().unwrap().cells()[..2], ["weigh", "7"]);
}

#[test]
fn what_new_gave_is_said_once() {
    let make = || {
        let mut day = Day::new();
        let mut rules = format_named("max-day").unwrap().rules(Unit::Kg).unwrap();
        rules.set("judges", "3").unwrap();
        let event = Event::DayMade {
            name: "Fall; day".to_owned(),
            date: date(),
            format: "max-day".to_owned(),
            bar_unit: Unit::Kg,
            scale_unit: Unit::Kg,
            rules: rules.words(),
            slots: vec![slot("snatch")],
            platforms: 1,
        };
        push(&mut day, "m", None, noon(), "", None, event);
        day
    };
    let first = rows(&make());
    assert_eq!(first.len(), 1);
    assert_eq!(
        first[0].detail,
        "name=\"Fall; day\"; date=2026-11-17; judges=3"
    );
    let mut plain = made("max-day", Unit::Kg, &["snatch"], 1);
    run(&mut plain, &first);
    assert_eq!(plain.facts(), make().facts());
    assert_eq!(rows(&plain), first);
}

#[test]
fn what_cannot_be_written_in_its_unit_is_written_in_kilograms() {
    let mass = crate::measure::Mass::parse("61.23", Unit::Kg).unwrap();
    assert_eq!(
        show(&Weight::computed(mass, Unit::Lb), Unit::Lb),
        "61.23 kg"
    );
    let typed = Weight::parse("62.50kg", Unit::Lb).unwrap();
    assert_eq!(show(&typed, Unit::Lb), "62.50 kg");
    assert_eq!(show(&typed, Unit::Kg), "62.50");
}
