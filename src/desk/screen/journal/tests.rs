//! The journal's line: filters, corrections, previews.

use super::filter::word_of;
use super::*;
use crate::desk::widget::grid::trial::{at, enter, max_day, submit};
use crate::exchange::acts::{WORDS, command, read_acts};
use crate::exchange::acts_out::rows;

fn context() -> Context {
    Context {
        at: at(10_000),
        hand: "table".into(),
        draw: 1,
    }
}

/// Lots 1 to 3 in flight A on platform 1 and lot 4 in flight B on Rack Two.
fn day() -> Day {
    let mut day = max_day();
    let set = |key: &str, value: &str| (key.to_owned(), value.to_owned());
    for number in 1..=4 {
        let flight = if number == 4 { "B" } else { "A" };
        enter(&mut day, number, "Ann", flight, "60");
    }
    let settings = vec![set("flight.1/B", "2"), set("platform.2", "Rack Two")];
    submit(&mut day, &Command::Set(settings)).unwrap();
    acted(&mut day, "start,,clean,,,A,1\nstart,,clean,,,B,2");
    day
}

fn acted(day: &mut Day, lines: &str) {
    let text = format!("act,athlete,lift,attempt,load,detail,platform\n{lines}\n");
    for row in read_acts(&text).unwrap() {
        let command = command(day, &row).unwrap();
        submit(day, &command).unwrap_or_else(|e| panic!("{row:?}: {e}"));
    }
}

fn typed(journal: &mut Journal, day: &Day, text: &str) {
    let _ = journal.update(Message::Typed(text.into()), day, &context());
}

fn entered(journal: &mut Journal, day: &Day) -> Option<Out> {
    journal.update(Message::Entered, day, &context())
}

fn listed(journal: &Journal, day: &Day) -> Vec<String> {
    let acts = journal.acts(day).into_iter();
    acts.map(|act| Journal::shown(day, act).unwrap().words)
        .collect()
}

#[test]
fn acts_are_found_by_athlete_platform_and_word() {
    let mut day = day();
    acted(
        &mut day,
        "request,2,clean,1,62.5,,\nlights,1,,,60,w,1\nlights,4,,,60,r,2\nundo,,,,,,2",
    );
    let mut journal = Journal::new();
    let all = journal.acts(&day).len();
    let mut words = |text: &str| {
        typed(&mut journal, &day, text);
        listed(&journal, &day)
    };
    assert_eq!(words("2 request").len(), 1);
    assert!(words("2 request")[0].contains("lot 2, Ann Test asks for 62.5 kg"));
    // An undo is about whom its act was about.
    assert_eq!(words("4").len(), 3, "{:?}", words("4"));
    assert!(words("4 on 2")[0].starts_with("undone: lot 4"));
    assert_eq!(words("on rack two lights").len(), 1);
    assert_eq!(words("Rack Two").len(), 3);
    assert_eq!(words("lights on 1").len(), 1);
    assert_eq!(words("only undo").len(), 1);
    assert_eq!(words("99").len(), 0);
    assert_eq!(words("").len(), all);
    // What is no filter leaves the list alone.
    assert_eq!(words("load=85").len(), all);
    assert_eq!(words("annul typed twice").len(), all);
    typed(&mut journal, &day, "only squid");
    let _ = entered(&mut journal, &day);
    let said = journal.said.clone().unwrap().unwrap_err();
    assert!(
        said.starts_with("“squid” is no table number, platform or act; the acts are add"),
        "{said}"
    );
}

#[test]
fn a_filter_is_kept_by_enter_until_esc() {
    let mut day = day();
    acted(&mut day, "request,2,clean,1,62.5,,\nrequest,3,clean,1,65,,");
    let mut journal = Journal::new();
    typed(&mut journal, &day, "3 request");
    assert_eq!(entered(&mut journal, &day), None);
    assert_eq!((journal.line.as_str(), journal.acts(&day).len()), ("", 1));
    // Now the act in hand is corrected, with why.
    typed(&mut journal, &day, "load=67.5; reason=read wrong");
    assert_eq!(entered(&mut journal, &day), None);
    let armed = journal.armed.clone().unwrap();
    assert_eq!(
        armed.changes,
        [
            "queue of platform 1 from place 3: lot 3 attempt 1 at 67.5 kg instead of lot 3 \
          attempt 1 at 65 kg"
        ]
    );
    let Some(Out::Submit(command)) = entered(&mut journal, &day) else {
        panic!()
    };
    assert!(
        matches!(&command, Command::Correct { reason, .. } if reason == "read wrong")
    );
    assert_eq!(submit(&mut day, &command), Ok(()));
    journal.answered(Ok(()), &day);
    assert!(!journal.acts(&day).is_empty());
    assert!(journal.acts(&day).len() < 3);
    journal.clear(&day);
    assert!(journal.acts(&day).len() > 3);
}

#[test]
fn a_preview_names_bests_places_queue_and_calls() {
    let mut day = day();
    acted(
        &mut day,
        "lights,1,,,60,w,1\nlights,2,,,60,w,1\nlights,3,,,60,w,1\nrequest,1,clean,2,65,,\n\
         request,2,clean,2,70,,\nrequest,3,clean,2,75,,\nlights,1,,,65,w,1\ncall,2,,,,,1",
    );
    let mut journal = Journal::new();
    typed(&mut journal, &day, "1 lights");
    let _ = entered(&mut journal, &day);
    typed(&mut journal, &day, "ruling=no");
    assert_eq!(entered(&mut journal, &day), None);
    let armed = journal.armed.clone().unwrap();
    let said = journal.said.clone().unwrap().unwrap();
    assert!(
        said.starts_with("Corrects: lot 1, Ann Test, clean attempt 2"),
        "{said}"
    );
    assert!(
        said.ends_with("no lift instead of good lift. Enter again does it."),
        "{said}"
    );
    let has = |start: &str| {
        let found = armed.changes.iter().any(|c| c.starts_with(start));
        assert!(found, "{start} {:?}", armed.changes);
    };
    has("lot 1 best in clean: 60 kg instead of 65 kg");
    has("lot 2 place in clean: 1 instead of 2");
    // The attempt is taken anew where its ruling is annulled.
    typed(&mut journal, &day, "annul wrong lot");
    let _ = entered(&mut journal, &day);
    let armed = journal.armed.clone().unwrap();
    assert_eq!(
        armed.changes.last().unwrap(),
        "queue of platform 1: lot 1 attempt 2 at 65 kg, lot 2 attempt 2 at 70 kg, lot 3 \
         attempt 2 at 75 kg instead of lot 2 attempt 2 at 70 kg, lot 3 attempt 2 at 75 kg, \
         lot 1 attempt 3, load owed"
    );
    // A bare call can be annulled, and who would be called is named.
    journal.clear(&day);
    journal.clear(&day);
    typed(&mut journal, &day, "call on 1");
    let _ = entered(&mut journal, &day);
    typed(&mut journal, &day, "annul");
    let _ = entered(&mut journal, &day);
    let armed = journal.armed.clone().unwrap();
    let last = armed.changes.last().unwrap();
    assert_eq!(last, "called on platform 1: nobody instead of lot 2");
    // A longer list is turned over by keys.
    journal.armed.as_mut().unwrap().changes = vec!["x".into(); 10];
    let _ = journal.update(Message::Moved(15), &day, &context());
    assert_eq!(journal.armed.as_ref().unwrap().from, CHANGES);
    let _ = journal.update(Message::Moved(15), &day, &context());
    let _ = journal.update(Message::Moved(-15), &day, &context());
    assert_eq!(journal.armed.as_ref().unwrap().from, 0);
    let _ = journal.update(Message::Moved(1), &day, &context());
    assert!(journal.armed.is_none());
}

#[test]
fn act_words_are_those_of_a_file_of_acts() {
    let mut day = day();
    acted(
        &mut day,
        "check,,,,,Ms Bell,1\nweigh,1,,,61.4,,\nclear,1,clean,,,yes; who=Dr Vane; why=seen,\n\
         cap,2,clean,,80,who=Coach Orr; why=knee,\nlights,1,,,60,w,1\ntally,2,clean,1,60,no,\n\
         pass,3,clean,1,,,\nrequest,1,clean,2,65,,\ncall,1,,,,,1\nundo,,,,,,1\nbreak,,,,,5,1\nnote,1,,,,slipped,\n\
         away,3,,,,,\nback,3,,,,,\nhere,2,,,,,\nrequest,2,clean,2,65,,\n\
         stop,2,clean,2,,technique,\nloaded,1,clean,1,62.5,keep,\n\
         overrule,1,clean,1,,no: seen again,\nextra,1,clean,,,by leave,\n\
         edit,2,,,,team=Larks,\nwithdraw,3,back-squat,,,,\nabsent,4,,,,,\nundo,,,,,,1\n\
         redo,,,,,,1",
    );
    let mut seen = 0;
    for row in rows(&day) {
        let id = row.id.split('/').next().unwrap();
        let Some(act) = day.act_by_id(id) else {
            continue;
        };
        let words: Vec<&str> = day.act(act).map(|r| word_of(&r.event)).collect();
        assert!(words.contains(&row.act.as_str()), "{row:?} {words:?}");
        seen += 1;
    }
    assert!(seen > 25, "{seen}");
    for recorded in day.journal() {
        let word = word_of(&recorded.event);
        assert!(word.is_empty() || WORDS.contains(&word), "{word}");
    }
}

#[test]
fn the_chosen_act_stays_in_hand_while_something_is_typed() {
    let mut day = day();
    acted(
        &mut day,
        "lights,1,,,60,w,1\nlights,2,,,60,w,1\nlights,3,,,60,w,1\nrequest,1,clean,2,65,,",
    );
    let mut journal = Journal::new();
    // The lights of lot 2, two below the newest.
    let _ = journal.update(Message::Moved(1), &day, &context());
    let _ = journal.update(Message::Moved(1), &day, &context());
    let chosen = journal.in_hand(&day);
    // On the way to the whole text the list shows lights only, then requests.
    for text in ["l", "li", "lights", "lights=", "lights=r", "3", "request"] {
        typed(&mut journal, &day, text);
    }
    typed(&mut journal, &day, "lights=r");
    assert_eq!(journal.in_hand(&day), chosen);
    // Esc empties the line, and the act is still in hand.
    journal.clear(&day);
    assert_eq!((journal.line.as_str(), journal.in_hand(&day)), ("", chosen));
    typed(&mut journal, &day, "r");
    assert_eq!(entered(&mut journal, &day), None);
    let said = journal.said.clone().unwrap().unwrap();
    assert!(said.contains("lot 2") || said.contains("Lot 2"), "{said}");
    let Some(Out::Submit(command)) = entered(&mut journal, &day) else {
        panic!()
    };
    assert_eq!(submit(&mut day, &command), Ok(()));
    journal.answered(Ok(()), &day);
    assert_eq!(journal.in_hand(&day), chosen, "the corrected act");
    let facts = day.facts();
    let entry = facts.entry_by_number(2).unwrap().clone();
    let slot = facts.slots[0].slot.clone();
    let ruled = facts.attempt(entry.key, &slot, 1).unwrap().ruled.as_ref();
    assert!(ruled.unwrap().fact.ruling.is_no_lift());
    // A reason alone leaves the lights as they are.
    typed(&mut journal, &day, "cleaned");
    assert_eq!(entered(&mut journal, &day), None);
    let Some(Out::Submit(command)) = entered(&mut journal, &day) else {
        panic!("{:?}", journal.said)
    };
    assert_eq!(submit(&mut day, &command), Ok(()));
    let ruled = day
        .facts()
        .attempt(entry.key, &slot, 1)
        .unwrap()
        .ruled
        .clone();
    let fact = ruled.unwrap().fact;
    assert_eq!(fact.faults[0].code, "cleaned-in-two");
    assert!(fact.ruling.is_no_lift());
    journal.answered(Ok(()), &day);
    // What isn't an attempt has no lights.
    let _ = journal.update(Message::Moved(-15), &day, &context());
    typed(&mut journal, &day, "r");
    let _ = entered(&mut journal, &day);
    assert!(journal.said.clone().unwrap().is_err());
}

/// What became of an act, in words; nothing where nothing did.
fn fate(day: &Day, act: u64) -> String {
    let fates = tell::fates(day);
    fates.get(&act).map(tell::Fate::words).unwrap_or_default()
}

/// The place of the newest act whose words begin so.
fn newest(day: &Day, words: &str) -> u64 {
    let acts = Journal::new().acts(day);
    let found = acts
        .into_iter()
        .find(|act| Journal::shown(day, *act).unwrap().words.starts_with(words));
    found.unwrap_or_else(|| panic!("{words}"))
}

#[test]
fn what_became_of_an_act_is_told_beside_it() {
    let mut day = day();
    acted(
        &mut day,
        "lights,1,,,60,w,1\nlights,2,,,60,w,1\nlights,3,,,60,r,1\nlights,4,,,60,w,2\n\
         request,1,clean,2,65,,\nrequest,2,clean,2,65,,\nundo,,,,,,1",
    );
    let first = newest(&day, "lot 1, Ann Test, clean attempt 1");
    let third = newest(&day, "lot 3");
    let fourth = newest(&day, "lot 4");
    let asked = newest(&day, "lot 2, Ann Test asks");
    let undo = newest(&day, "undone: lot 2, Ann Test asks");
    // The day of these tests has one hand and one time.
    let by = |what: &str| {
        let at = day.recorded(first).unwrap();
        format!("{what} at {} by {}", at.at.clock_time(), at.hand)
    };
    let (corrected, annulled) = (by("corrected"), by("annulled"));
    let (undone, brought) = (by("undone"), by("brought back"));
    let overruled = by("overruled");
    assert_eq!((fate(&day, asked), fate(&day, first)), (undone, "".into()));
    acted(&mut day, "redo,,,,,,1");
    assert_eq!((fate(&day, asked), fate(&day, undo)), ("".into(), brought));

    let mut change = |act: u64, reason: &str, values: &[(&str, &str)]| {
        let values = values.iter().map(|(k, v)| ((*k).into(), (*v).into()));
        let of = crate::day::CorrectionOf::Act {
            act,
            values: values.collect(),
        };
        let reason = reason.to_owned();
        submit(&mut day, &Command::Correct { of, reason }).unwrap();
    };
    change(first, "read wrong", &[("load", "62.5")]);
    change(first, "", &[("load", "57.5"), ("ruling", "no")]);
    change(asked, "", &[("load", "67.5")]);
    let reason = "wrong lot".to_owned();
    submit(
        &mut day,
        &Command::Annul {
            act: fourth,
            reason,
        },
    )
    .unwrap();
    acted(&mut day, "overrule,3,clean,1,,good: seen again,");
    assert_eq!(fate(&day, first), corrected);
    assert_eq!(fate(&day, fourth), annulled);
    assert_eq!(fate(&day, third), overruled);
    let rows = listed(&Journal::new(), &day);
    assert_eq!(
        rows[..5],
        [
            "overruled for lot 3, Ann Test, clean attempt 1: good; seen again",
            "annulled: lot 4, Ann Test, clean attempt 1 at 60 kg: good lift; wrong lot",
            "corrected: request of lot 2, Ann Test, clean attempt 2: 67.5 kg instead of 65 kg",
            "corrected: lot 1, Ann Test, clean attempt 1: 57.5 kg instead of 62.5 kg, no lift \
             instead of good lift",
            "corrected: lot 1, Ann Test, clean attempt 1: 62.5 kg instead of 60 kg; read wrong",
        ]
    );
    // An annulled correction leaves the first one, and its own row says so.
    let second = newest(&day, "corrected: lot 1");
    submit(
        &mut day,
        &Command::Annul {
            act: second,
            reason: String::new(),
        },
    )
    .unwrap();
    assert_eq!(fate(&day, first), corrected);
    assert_eq!(fate(&day, second), annulled);
    assert!(
        listed(&Journal::new(), &day).contains(
            &"corrected: lot 1, Ann Test, clean attempt 1: 57.5 kg instead of \
                        62.5 kg, no lift instead of good lift"
                .to_owned()
        )
    );
}

#[test]
fn corrected_details_are_named_without_what_is_private() {
    let mut day = day();
    acted(&mut day, "weigh,1,,,61.4,,\nedit,2,,,,team=Larks,");
    let mut correct = |words: &str, key: &str, value: &str| {
        let of = crate::day::CorrectionOf::Act {
            act: newest(&day, words),
            values: vec![(key.into(), value.into())],
        };
        let reason = String::new();
        submit(&mut day, &Command::Correct { of, reason }).unwrap();
        listed(&Journal::new(), &day).swap_remove(0)
    };
    assert_eq!(
        correct("weigh-in of lot 1", "bodyweight", "61.9"),
        "corrected: weigh-in of lot 1, Ann Test: another bodyweight"
    );
    assert_eq!(
        correct("details of lot 2", "grade", "10"),
        "corrected: details of lot 2, Ann Test: grade"
    );
    assert_eq!(
        correct("entry of lot 3", "lot", "33"),
        "corrected: entry of lot 33, Ann Test: lot 33 instead of 3"
    );
}

#[test]
fn several_lights_are_listed_with_the_judge_of_each_reason() {
    let mut day = day();
    let three = vec![("judges".to_owned(), "3".to_owned())];
    submit(&mut day, &Command::Set(three)).unwrap();
    acted(
        &mut day,
        "lights,1,,,60,\"w,r.elbow-on-thigh,w\",1\nlights,2,,,60,rrw,1\n\
         tally,3,clean,1,60,no,",
    );
    let rows = listed(&Journal::new(), &day);
    assert_eq!(
        rows[0],
        "lot 3, Ann Test, clean attempt 1 at 60 kg: no lift"
    );
    assert_eq!(
        rows[1],
        "lot 2, Ann Test, clean attempt 1 at 60 kg: no lift; lights rrw"
    );
    assert!(
        rows[2].contains(": good lift; lights wrw, judge 2 "),
        "{}",
        rows[2]
    );
}

#[test]
fn no_lift_with_a_reason_of_the_lift_corrects_the_reason() {
    let mut day = day();
    acted(&mut day, "lights,1,,,60,r,1\nlights,2,,,60,w,1");
    let mut journal = Journal::new();
    let _ = journal.update(Message::Moved(1), &day, &context());
    let fact = |day: &Day, number: u16| {
        let facts = day.facts();
        let entry = facts.entry_by_number(number).unwrap();
        let slot = &facts.slots[0].slot;
        let ruled = facts.attempt(entry.key, slot, 1).unwrap().ruled.clone();
        ruled.unwrap().fact
    };
    typed(&mut journal, &day, "ruling=no; reason=cleaned");
    assert_eq!(entered(&mut journal, &day), None);
    let said = journal.said.clone().unwrap().unwrap();
    assert!(
        said.starts_with("Corrects: lot 1, Ann Test, clean attempt 1: reason ")
            && said
                .contains("cleaned in two movements. No best, total, place, queue or "),
        "{said}"
    );
    let Some(Out::Submit(command)) = entered(&mut journal, &day) else {
        panic!("{:?}", journal.said)
    };
    assert_eq!(submit(&mut day, &command), Ok(()));
    journal.answered(Ok(()), &day);
    let now = fact(&day, 1);
    assert_eq!(now.faults[0].code, "cleaned-in-two");
    assert_eq!(now.lights, [crate::day::Light::Red], "the light stands");
    // What is annulled is told with what became of it.
    typed(&mut journal, &day, "annul");
    assert_eq!(entered(&mut journal, &day), None);
    let said = journal.said.clone().unwrap().unwrap();
    assert!(said.contains(": no lift, corrected at "), "{said}");
    // What is no reason of the lift changes nothing, and the list says what there is.
    typed(&mut journal, &day, "ruling=no; reason=video");
    assert_eq!(entered(&mut journal, &day), None);
    let said = journal.said.clone().unwrap().unwrap_err();
    assert!(said.starts_with("“video” is no fault of the "), "{said}");
    assert!(said.contains("cleaned-in-two"), "{said}");
    // A good lift becomes no lift: the same words name the reason, others say why.
    let _ = journal.update(Message::Moved(-15), &day, &context());
    let _ = journal.update(Message::Moved(1), &day, &context());
    for (text, code, why) in [
        ("ruling=no; reason=cleaned", Some("cleaned-in-two"), ""),
        ("ruling=no; reason=video", None, "video"),
    ] {
        let mut trial = day.clone();
        typed(&mut journal, &trial, text);
        assert_eq!(entered(&mut journal, &trial), None);
        let Some(Out::Submit(command)) = entered(&mut journal, &trial) else {
            panic!("{:?}", journal.said)
        };
        assert!(matches!(&command, Command::Correct { reason, .. } if reason == why));
        assert_eq!(submit(&mut trial, &command), Ok(()));
        let now = fact(&trial, 2);
        assert!(now.ruling.is_no_lift());
        assert_eq!(now.faults.first().map(|f| f.code.as_str()), code);
    }
}

#[test]
fn lights_their_reason_and_why_go_in_one_line() {
    let mut day = day();
    acted(&mut day, "lights,1,,,60,w,1\nlights,2,,,60,w,1");
    let mut journal = Journal::new();
    // The lights of lot 1, under those of lot 2.
    let _ = journal.update(Message::Moved(1), &day, &context());
    let chosen = journal.in_hand(&day);
    // Something is entered at the table; the screen is shown again.
    acted(&mut day, "note,2,,,,sore shoulder,");
    journal.shown_again(&day);
    assert_eq!(journal.in_hand(&day), chosen);
    for (line, fault) in [
        ("r elbow; why=the judges' paper", Some("elbow-on-thigh")),
        ("lights=r; reason=the judges' paper", None),
    ] {
        typed(&mut journal, &day, line);
        assert_eq!(entered(&mut journal, &day), None, "{line}");
        let Some(Out::Submit(Command::Correct { of, reason })) =
            entered(&mut journal, &day)
        else {
            panic!("{line}: {:?}", journal.said)
        };
        assert_eq!(reason, "the judges' paper");
        let crate::day::CorrectionOf::Attempt {
            outcome: Some(outcome),
            ..
        } = of
        else {
            panic!("{of:?}")
        };
        let named = outcome.faults.first().map(|f| f.code.as_str());
        assert_eq!(named, fault, "{line}");
    }
    typed(&mut journal, &day, "r judges' paper");
    assert_eq!(entered(&mut journal, &day), None);
    let why = journal.said.clone().unwrap().unwrap_err();
    assert!(why.contains("goes behind it: ; why="), "{why}");
}
