//! Tests of the whole catalogue, row by row, and of both ways of naming.
//!
//! Where a comment names no source, the check is common practice of the trade.

use std::collections::{BTreeMap, BTreeSet};

use super::naming::{all_parts, spellings, squash};
use super::*;

fn parts(family: Family, start: Start, catch: Catch, form: Option<Form>) -> Parts {
    Parts {
        family,
        start,
        catch,
        form,
    }
}

fn lift(slug: &str) -> &'static Lift {
    catalogue()
        .get(slug)
        .unwrap_or_else(|| panic!("no lift {slug}"))
}

fn faults_of(slug: &str) -> Vec<&'static str> {
    faults_for(&lift(slug).parts)
}

#[test]
fn every_row_is_sound() {
    let mut shorts = BTreeSet::new();

    for lift in catalogue().lifts() {
        let slug = lift.slug.as_str();

        assert_eq!(name_of(&lift.parts).as_deref(), Some(&*lift.name), "{slug}");
        assert_eq!(parts_of(&lift.name), Some(lift.parts), "{slug}");
        assert_eq!(parts_of(slug), Some(lift.parts), "{slug}");
        assert_eq!(lift.name.replace(' ', "-"), slug);
        assert!(!lift.slug.is_own(), "{slug}");
        assert!((1..=14).contains(&lift.short.chars().count()), "{slug}");
        assert!(shorts.insert(lift.short.clone()), "{slug}: {}", lift.short);
        assert_eq!(catalogue().get(slug), Some(lift));
        assert_eq!(catalogue().of(&lift.parts), Some(lift));
        assert_eq!(lift.faults, faults_for(&lift.parts), "{slug}");
    }
}

#[test]
fn the_fixed_slugs_are_there_with_their_parts() {
    use Catch as C;
    use Family as F;
    use Start as S;
    let fixed = [
        ("snatch", F::Snatch, S::Floor, C::Any, None),
        ("power-snatch", F::Snatch, S::Floor, C::Power, None),
        ("hang-snatch", F::Snatch, S::Hang, C::Full, None),
        ("hang-power-snatch", F::Snatch, S::Hang, C::Power, None),
        ("clean", F::Clean, S::Floor, C::Full, None),
        ("power-clean", F::Clean, S::Floor, C::Power, None),
        ("hang-clean", F::Clean, S::Hang, C::Full, None),
        ("hang-power-clean", F::Clean, S::Hang, C::Power, None),
        ("clean-and-jerk", F::CleanAndJerk, S::Floor, C::Any, None),
        ("push-press", F::Press, S::Rack, C::Press, Some(Form::Push)),
        ("push-jerk", F::Jerk, S::Rack, C::Push, None),
        ("split-jerk", F::Jerk, S::Rack, C::Split, None),
        ("back-squat", F::Squat, S::Rack, C::None, Some(Form::Back)),
        ("front-squat", F::Squat, S::Rack, C::None, Some(Form::Front)),
        (
            "overhead-squat",
            F::Squat,
            S::Rack,
            C::None,
            Some(Form::Overhead),
        ),
        ("bench-press", F::Bench, S::Rack, C::None, Some(Form::Flat)),
        (
            "deadlift",
            F::Deadlift,
            S::Floor,
            C::None,
            Some(Form::Conventional),
        ),
        (
            "sumo-deadlift",
            F::Deadlift,
            S::Floor,
            C::None,
            Some(Form::Sumo),
        ),
        (
            "hex-bar-deadlift",
            F::Deadlift,
            S::Floor,
            C::None,
            Some(Form::HexBar),
        ),
        (
            "strict-press",
            F::Press,
            S::Rack,
            C::Press,
            Some(Form::Strict),
        ),
    ];

    for (slug, family, start, catch, form) in fixed {
        assert_eq!(
            lift(slug).parts,
            parts(family, start, catch, form),
            "{slug}"
        );
    }
}

#[test]
fn all_parts_with_a_name_come_back_from_every_spelling() {
    let mut seen: BTreeMap<String, Parts> = BTreeMap::new();
    let mut named = 0;

    for parts in all_parts() {
        let Some(name) = name_of(&parts) else {
            continue;
        };

        named += 1;
        assert_eq!(parts_of(&name), Some(parts), "{name}");
        for spelling in spellings(&parts) {
            assert_eq!(parts_of(&spelling), Some(parts), "{spelling}");
            let other = seen.insert(squash(&spelling), parts);
            assert!(other.is_none_or(|o| o == parts), "{spelling} is two lifts");
        }
    }

    assert!(named >= catalogue().lifts().len());
}

#[test]
fn names_say_start_and_catch() {
    let hang_power = parts(Family::Clean, Start::Hang, Catch::Power, None);
    assert_eq!(name_of(&hang_power).as_deref(), Some("hang power clean"));
    for text in [
        "Hang Power Clean",
        "hang_power_clean",
        "HANGPOWERCLEAN",
        " hang  power - clean ",
        "power hang clean",
        "power clean from the hang",
    ] {
        assert_eq!(parts_of(text), Some(hang_power), "{text}");
    }

    let low = parts(Family::Snatch, Start::LowHang, Catch::Full, None);
    assert_eq!(name_of(&low).as_deref(), Some("low hang snatch"));
    assert_eq!(parts_of("Squat snatch from low hang"), Some(low));

    // Alone, the clean is a full squat clean and the snatch is as in a meet.
    assert_eq!(parts_of("squat clean"), Some(lift("clean").parts));
    assert_eq!(parts_of("squat snatch"), Some(lift("full-snatch").parts));
    assert_ne!(lift("full-snatch").parts, lift("snatch").parts);
}

#[test]
fn parts_without_a_name_have_none() {
    for unnamed in [
        parts(Family::Clean, Start::Rack, Catch::Power, None),
        parts(Family::Clean, Start::Floor, Catch::Any, None),
        parts(Family::Jerk, Start::Floor, Catch::Split, None),
        parts(Family::Jerk, Start::Rack, Catch::Power, None),
        parts(Family::Squat, Start::Rack, Catch::None, None),
        parts(Family::Squat, Start::Floor, Catch::None, Some(Form::Back)),
        parts(Family::Bench, Start::Rack, Catch::None, Some(Form::Sumo)),
        parts(Family::Snatch, Start::Hang, Catch::Any, None),
        parts(Family::Press, Start::Rack, Catch::Push, Some(Form::Push)),
    ] {
        assert_eq!(name_of(&unnamed), None, "{unnamed:?}");
    }
}

#[test]
fn nothing_is_guessed() {
    for text in [
        "",
        " - ",
        "hang",
        "power",
        "push",
        "press",
        "row",
        "block",
        "clean and",
        "and jerk",
        "clean pull",
        "clean pull shrug",
        "snatch pull",
        "snatch balance",
        "squat clean snatch",
        "power full clean",
        "hang hang clean",
        "power jerk",
        "power jerk press",
        "push press jerk",
        "hang squat",
        "split squat",
        "sumo",
        "bench squat",
        "deadlift from blocks floor",
        "clean from the",
        "power clean and jerk",
        "powre clean",
        "cleans",
        "class",
        "x-clean",
        "total",
    ] {
        assert_eq!(parts_of(text), None, "{text:?}");
        assert!(catalogue().find(text).is_none(), "{text:?}");
    }
}

#[test]
fn trade_words_find_their_lift() {
    for (text, slug) in [
        ("C&J", "clean-and-jerk"),
        ("c + j", "clean-and-jerk"),
        ("Clean & Jerk", "clean-and-jerk"),
        ("clean_and_jerk", "clean-and-jerk"),
        ("Squat", "back-squat"),
        ("BENCH", "bench-press"),
        ("Benchpress", "bench-press"),
        ("dead lift", "deadlift"),
        ("DL", "deadlift"),
        ("Trap Bar Deadlift", "hex-bar-deadlift"),
        ("OHP", "strict-press"),
        ("military press", "strict-press"),
        ("close grip bench", "close-grip-bench-press"),
        ("Hang Squat Clean", "hang-clean"),
        ("split jerk from blocks", "block-split-jerk"),
        ("power-clean", "power-clean"),
    ] {
        let found = catalogue().find(text).map(|l| l.slug.as_str());
        assert_eq!(found, Some(slug), "{text}");
    }
    assert!(catalogue().get("Power Clean").is_none());
    assert!(catalogue().get("bench").is_none());
    assert!(catalogue().get("").is_none());
}

#[test]
fn every_word_means_one_lift() {
    let mut words: BTreeMap<String, &str> = BTreeMap::new();

    for lift in catalogue().lifts() {
        let slug = lift.slug.as_str();
        let spelt = spellings(&lift.parts);
        assert!(words.insert(squash(slug), slug).is_none(), "{slug}");

        for alias in &lift.aliases {
            assert!(words.insert(squash(alias), slug).is_none(), "{alias}");
            assert!(parts_of(alias).is_none(), "{alias} needs no alias");
        }
        for spelling in spelt {
            let other = words.insert(squash(&spelling), slug);
            assert!(other.is_none_or(|o| o == slug), "{spelling}");
        }
    }
}

#[test]
fn every_fault_exists_and_is_used() {
    let mut used = BTreeSet::new();

    for parts in all_parts().filter(|p| name_of(p).is_some()) {
        let codes = faults_for(&parts);
        let once: BTreeSet<_> = codes.iter().collect();

        assert!(!codes.is_empty(), "{parts:?}");
        assert_eq!(once.len(), codes.len(), "{parts:?}");
        for code in codes {
            assert!(catalogue().fault(code).is_some(), "{code}");
            let _ = used.insert(code);
        }
    }

    for fault in catalogue().faults() {
        assert!(
            used.contains(fault.code.as_str()),
            "{} is unused",
            fault.code
        );
        assert!(Slug::new(fault.code.as_str()).is_ok(), "{}", fault.code);
        assert!(
            (1..=40).contains(&fault.text.chars().count()),
            "{}",
            fault.code
        );
        assert!(!fault.text.ends_with('.'), "{}", fault.code);
        assert!(!fault.source.is_empty(), "{}", fault.code);
    }
    assert!(catalogue().fault("no-such-fault").is_none());
}

/// Failure cards as published by affiliates of the IPF: red is reason 1, blue
/// 2, yellow 3 (USA Powerlifting rulebook 2.10.2 and affiliates' guides; the
/// deadlift's stance and thigh support from memory).
#[test]
fn the_three_lifts_are_judged_by_failure_cards() {
    let groups = |slug: &str| {
        let groups = lift(slug).fault_groups().iter();
        groups
            .map(|g| (g.card.map(Card::number), g.faults.join(" ")))
            .collect::<Vec<_>>()
    };
    let wanted = |list: [&str; 3]| {
        let cards = (1..=3).map(Some);
        cards.zip(list.map(str::to_owned)).collect::<Vec<_>>()
    };

    assert_eq!(
        groups("back-squat"),
        wanted([
            "not-deep-enough",
            "knees-not-locked not-upright double-bounce downward-movement",
            "feet-moved signal-ignored elbows-on-legs spotter-touched bar-dumped",
        ])
    );
    assert_eq!(
        groups("bench-press"),
        wanted([
            "chest-not-touched belt-touched",
            "not-locked-out downward-movement",
            "bar-heaved body-moved feet-moved signal-ignored spotter-touched feet-on-bench",
        ])
    );
    for deadlift in ["deadlift", "sumo-deadlift"] {
        assert_eq!(
            groups(deadlift),
            wanted([
                "knees-not-locked not-erect",
                "downward-movement thighs-helped",
                "lowered-early let-drop feet-moved",
            ])
        );
    }
    // A weightlifting referee shows no cards.
    assert_eq!(groups("snatch").len(), 1);
    assert_eq!(groups("snatch")[0].0, None);
    assert_eq!(lift("back-squat").card("double-bounce"), Some(Card::Blue));
    assert_eq!(lift("back-squat").card("press-out"), None);
    assert_eq!(Card::of_number(4), None);
    assert_eq!(Card::Yellow.to_string(), "3 yellow");
}

#[test]
fn every_fault_of_a_lift_is_in_one_group() {
    for lift in catalogue().lifts() {
        let groups = lift.fault_groups();
        let mut grouped: Vec<&String> = groups.iter().flat_map(|g| &g.faults).collect();
        let mut all: Vec<&String> = lift.faults.iter().collect();
        grouped.sort();
        all.sort();
        assert_eq!(grouped, all, "{}", lift.slug);
        assert!(groups.iter().all(|g| !g.faults.is_empty()), "{}", lift.slug);
    }
}

#[test]
fn faults_follow_the_parts() {
    let has = |slug: &str, code: &str| faults_of(slug).contains(&code);

    // A second bend of the knees tells the push jerk from the push press
    // (exercise texts on the push press and the push jerk).
    assert!(has("push-press", "knees-re-bent"));
    assert!(!has("push-jerk", "knees-re-bent"));
    assert!(has("push-jerk", "not-re-bent"));
    assert!(!has("split-jerk", "not-re-bent"));
    // The arms of a push press press out by nature, as in a muscle snatch.
    assert!(has("push-jerk", "press-out"));
    assert!(!has("push-press", "press-out"));
    assert!(!has("muscle-snatch", "press-out"));

    for lift in catalogue().lifts() {
        let slug = lift.slug.as_str();
        let power = lift.parts.catch == Catch::Power;
        let full = lift.parts.catch == Catch::Full;
        assert_eq!(has(slug, "caught-too-low"), power, "{slug}");
        assert_eq!(has(slug, "caught-too-high"), full, "{slug}");
    }

    // In a meet the receiving depth is free (competition rules of the IWF).
    assert!(has("snatch", "press-out"));
    assert!(has("clean-and-jerk", "press-out"));
    assert!(!has("clean", "press-out"));
    assert!(has("clean", "elbow-on-thigh"));
    assert!(!has("snatch", "elbow-on-thigh"));
    assert!(has("power-clean", "pulled-from-hang"));
    assert!(!has("hang-power-clean", "pulled-from-hang"));
    assert!(has("hang-power-clean", "started-from-floor"));
    assert!(has("high-hang-clean", "wrong-height"));
    assert!(!has("hang-clean", "wrong-height"));
    assert!(has("strict-press", "knees-helped"));
    assert!(!has("push-press", "knees-helped"));
    // Failure cards of the IPF.
    assert!(has("back-squat", "not-deep-enough"));
    assert!(!has("box-squat", "not-deep-enough"));
    assert!(has("bench-press", "signal-ignored"));
    assert!(has("deadlift", "thighs-helped"));
    assert!(!has("hex-bar-deadlift", "thighs-helped"));
}

#[test]
fn cautions_fit_the_lift_and_defer() {
    for lift in catalogue().lifts() {
        let slug = lift.slug.as_str();
        let all = lift.cautions.join(" ");
        let fast = matches!(
            lift.parts.family,
            Family::Snatch | Family::Clean | Family::Jerk | Family::CleanAndJerk
        ) || lift.parts.form == Some(Form::Push);

        assert!(lift.cautions.iter().all(|c| c.ends_with('.')), "{slug}");
        let last = lift.cautions.last().unwrap();
        assert!(last.contains("local policy"), "{slug}");
        assert!(last.contains("qualified supervisor"), "{slug}");

        // Textbook advice on spotting, from memory: fast lifts aren't spotted.
        if fast {
            assert_eq!(lift.spotters, 0, "{slug}");
            assert!(all.contains("Nobody spots"), "{slug}");
            assert!(all.contains("miss first"), "{slug}");
        }
        match (lift.parts.family, lift.parts.start) {
            (Family::Jerk | Family::Press, Start::Rack) => {
                assert!(all.contains("stands are in the way"), "{slug}");
            }
            (Family::Jerk | Family::Press, Start::Blocks) => {
                assert!(all.contains("blocks are in the way"), "{slug}");
            }
            _ => {}
        }
    }

    for slug in ["back-squat", "front-squat", "box-squat", "bench-press"] {
        let all = lift(slug).cautions.join(" ");
        assert!(lift(slug).spotters > 0, "{slug}");
        assert!(all.to_lowercase().contains("safety arms"), "{slug}");
    }
    // Three spotters for a squat in schools: a school coaching magazine.
    assert_eq!(lift("back-squat").spotters, 3);
    // A clean is missed forward, a snatch to either side.
    assert!(lift("power-clean").cautions[1].contains("missed forward"));
    assert!(lift("snatch").cautions[1].contains("forward or backward"));
}

#[test]
fn bodies_follow_the_family() {
    for lift in catalogue().lifts() {
        let upper = match lift.parts.family {
            Family::Jerk | Family::Press | Family::Bench | Family::Row => true,
            Family::Snatch
            | Family::Clean
            | Family::CleanAndJerk
            | Family::Squat
            | Family::Deadlift => false,
        };
        assert_eq!(lift.body == Body::Upper, upper, "{}", lift.slug);
    }
}

#[test]
fn slugs_have_limits() {
    for good in ["clean", "hang-power-clean", "x-axle-clean", "x-5-rep"] {
        let slug = Slug::new(good).unwrap();
        assert_eq!(slug.as_str(), good);
        assert_eq!(slug.to_string(), good);
        assert_eq!(slug.is_own(), good.starts_with("x-"));
    }
    for bad in [
        "",
        "-",
        "x-",
        "-clean",
        "power--clean",
        "Power-Clean",
        "power clean",
        "power_clean",
        "épaulé",
        "a-very-long-name-for-a-lift-that-nobody-would-ever-type",
    ] {
        assert!(Slug::new(bad).is_err(), "{bad:?}");
    }
}

#[test]
fn words_and_slugs_are_stored_as_they_print() {
    #[derive(Debug, PartialEq, serde::Serialize, serde::Deserialize)]
    struct Own {
        slug: Slug,
        parts: Parts,
    }
    let text = "slug = \"x-axle-clean\"\n\
                parts = { family = \"clean\", start = \"low-hang\", catch = \"power\" }\n";
    let own: Own = toml::from_str(text).unwrap();

    assert_eq!(own.slug, Slug::new("x-axle-clean").unwrap());
    assert_eq!(own.parts.start.word(), "low-hang");
    assert_eq!(name_of(&own.parts).as_deref(), Some("low hang power clean"));
    assert!(toml::from_str::<Own>(&text.replace("x-axle", "X axle")).is_err());
    assert!(toml::from_str::<Own>(&text.replace("low-hang", "knee")).is_err());
}

#[test]
fn unsound_resources_are_refused() {
    const FAULTS: &str = include_str!("../../resources/faults.toml");
    const CAUTION: &str = "[caution]\npolicy = \"Ask.\"\n";
    let row = |slug: &str, start: &str, more: &str| {
        format!(
            "[[lift]]\nslug = \"{slug}\"\nfamily = \"clean\"\nstart = \"{start}\"\n\
             catch = \"power\"\nbody = \"lower\"\n{more}\n"
        )
    };
    let read = |rows: &str| Catalogue::read(&format!("{CAUTION}{rows}"), FAULTS);
    let policy = "cautions = [\"policy\"]";
    let sound = row("power-clean", "floor", policy);

    assert_eq!(read(&sound).unwrap().lifts().len(), 1);
    assert!(matches!(
        read(&row("power-clean", "rack", policy)),
        Err(CatalogueError::Nameless(_))
    ));
    assert!(matches!(
        read(&row("power-clean", "floor", "cautions = [\"none\"]")),
        Err(CatalogueError::Caution { .. })
    ));
    assert!(matches!(
        read(&row("hang-power-clean", "hang", policy)),
        Err(CatalogueError::Short(_))
    ));
    let twice = format!(
        "{sound}{}",
        row(
            "block-clean",
            "blocks",
            "short = \"bl\"\naliases = [\"Power Clean\"]\ncautions = []"
        )
    );
    assert!(matches!(
        read(&twice),
        Err(CatalogueError::Ambiguous { .. })
    ));
    assert!(matches!(
        Catalogue::read(&format!("{CAUTION}{sound}"), "fault = []"),
        Err(CatalogueError::Fault { .. })
    ));
    assert!(matches!(read("nonsense"), Err(CatalogueError::Toml(_))));
}
