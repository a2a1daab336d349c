//! The same through the program itself: files in, CSV and papers out.

use crate::bin::{Folder, Sheet};

/// A powerlifting day in kilograms in two own classes, with guests and teams.
fn house_meet() -> Folder {
    let folder = Folder::new();
    folder.write(
        "rules.toml",
        "base = \"powerlifting\"\ncategories = \"F 57 +57; M 75 +75\"\n\
         reps = \"multiple\"\n",
    );
    let _ = folder.ok("new d.maxday --rules rules.toml --date 2026-11-14");
    let _ = folder.roster(
        "d.maxday",
        "lot,name,sex,team,bodyweight,flight,back-squat,bench-press,deadlift,guest\n\
         1,Ada Quinn,F,Otters,55,A,80,40,100,\n\
         2,Bea Moss,F,Herons,56.5,A,85,42.5,102.5,\n\
         3,Cy Reed,M,Otters,74,A,120,80,150,yes\n\
         4,Dov Lane,M,Herons,75,A,125,82.5,155,\n\
         5,Eli Park,M,,75.1,A,110,70,140,\n",
    );
    let mut rows = String::new();
    for (lot, loads) in [
        (1, ["80", "40", "100"]),
        (2, ["85", "42.5", "102.5"]),
        (3, ["120", "80", "150"]),
        (4, ["125", "82.5", "155"]),
        (5, ["110", "70", "140"]),
    ] {
        for (lift, load) in ["back-squat", "bench-press", "deadlift"].iter().zip(loads) {
            let five = lot == 5 && *lift == "back-squat";
            let detail = if five { "good; reps=5" } else { "good" };
            rows.push_str(&format!("tally,{lot},{lift},,{load},{detail},,,,\n"));
        }
    }
    rows.push_str("disqualify,4,,,,threw the bar,,,,\n");
    folder.apply("d.maxday", &rows);
    folder.sound("d.maxday");
    folder
}

#[test]
fn the_standings_of_a_day_with_guests_estimates_and_disqualified() {
    let folder = house_meet();
    let sheet = Sheet::read(&folder.ok("standings d.maxday"));
    let column = |name: &str| sheet.all(name);
    assert_eq!(column("lot"), ["2", "1", "3", "4", "5"]);
    assert_eq!(column("group"), ["F 57", "F 57", "M 75", "M 75", "M 75+"]);
    assert_eq!(column("place"), ["1", "2", "", "", ""]);
    // 85 + 42.5 + 102.5 and so on; lot 5 has no tested squat.
    assert_eq!(column("total"), ["230", "220", "350", "", ""]);
    assert_eq!(column("back-squat place"), ["1", "2", "", "", "1"]);
    // 110 / 0.87 = 126.43, cut down.
    assert_eq!(column("back-squat estimate"), ["", "", "", "", "126.4"]);
    assert_eq!(column("back-squat 1 ruling")[4], "good x5");
    let attempts = Sheet::read(&folder.ok("attempts d.maxday"));
    assert!(attempts.all("ruling").contains(&"good x5"));
}

#[test]
fn standings_by_team() {
    let folder = house_meet();
    // From memory: 12 for a first place, 9 for a second.
    assert_eq!(
        folder.ok("standings d.maxday --by team"),
        "place,team,points,athletes\n1,Herons,12,Bea Moss (12)\n2,Otters,9,Ada Quinn (9)\n"
    );
    folder.apply(
        "d.maxday",
        "set,,,,,posting-name=initial,,,,\nedit,3,,,,guest=no,,,,",
    );
    assert_eq!(
        folder.ok("standings d.maxday --by team --posted"),
        "place,team,points,athletes\n1,Otters,21,Cy R. (12); Ada Q. (9)\n\
         2,Herons,12,Bea M. (12)\n"
    );
    folder.apply("d.maxday", "set,,,,,team-points=none,,,,");
    let ran = folder.run("standings d.maxday --by team");
    assert_eq!(ran.out, "place,team,points,athletes\n");
    assert!(ran.err.contains("give teams no points"), "{}", ran.err);
}

#[test]
fn the_results_come_with_a_twin_of_the_teams() {
    let folder = house_meet();
    folder.apply(
        "d.maxday",
        "close,,,,,,,,,\nreopen,,,,,a late slip,,,,\nclose,,,,,,,,,",
    );
    let made = folder.ok("papers d.maxday --out p --only results --posted");
    assert_eq!(
        made.lines().collect::<Vec<_>>(),
        ["results.pdf", "results.csv", "results-by-team.csv"]
    );
    let twin = String::from_utf8(folder.bytes("p/results-by-team.csv")).unwrap();
    assert!(
        twin.starts_with("\u{FEFF}place,team,points,athletes\r\n"),
        "{twin}"
    );
    // A day that is told by its own acts has the same standings.
    let acts = folder.ok("acts d.maxday");
    folder.write("again.csv", acts);
    let _ = folder.ok("new e.maxday --rules rules.toml --date 2026-11-14");
    let _ = folder.ok("apply e.maxday again.csv");
    for by in ["category", "division", "slot", "team"] {
        let told = |day: &str| folder.ok(&format!("standings {day} --by {by}"));
        assert_eq!(told("d.maxday"), told("e.maxday"), "{by}");
    }
}
