//! `maxday formulas`

use crate::cli::Failure;
use crate::cli::verbs::know::print_rows;
use crate::score::{
    Certainty, MOST_REPS, age_lists, cycles, equations, formulas, spread,
};
use crate::standings::load_chart;

/// Every formula with what it is for and how sure it is; then the age factors,
/// and the equations that estimate a max.
pub(in crate::cli) fn run() -> Result<(), Failure> {
    let header = [
        "name",
        "for",
        "bounds",
        "validity",
        "source",
        "certainty",
        "kind",
    ];
    let mut rows: Vec<Vec<String>> = vec![header.map(str::to_owned).to_vec()];
    let mut add = |cells: [&str; 7]| rows.push(cells.map(str::to_owned).to_vec());
    for formula in formulas() {
        let about = formula.about();
        add([
            formula.name(),
            &about.purpose,
            &about.bounds,
            &about.valid,
            &about.source,
            &sure(about.certainty, &about.memory),
            "score",
        ]);
    }
    for cycle in cycles() {
        let span = format!("{} to {}", cycle.from, cycle.until);
        add([
            &format!("sinclair {}-{}", cycle.from, cycle.until),
            "the total of snatch and clean and jerk in these years",
            "as sinclair",
            &span,
            &cycle.source,
            cycle.certainty.word(),
            "constants of sinclair",
        ]);
    }
    for list in age_lists() {
        let from = (list.from > 0).then(|| format!("from {}", list.from));
        let until = (list.until > 0).then(|| format!("until {}", list.until));
        let valid: Vec<String> = [from, until].into_iter().flatten().collect();
        let valid = if valid.is_empty() {
            "any day".to_owned()
        } else {
            valid.join(" ")
        };
        add([
            &list.name,
            &format!("{} ({})", list.purpose(), list.title),
            &format!("ages {}", list.known()),
            &valid,
            &list.source,
            &sure(list.certainty, &list.memory),
            "age factor",
        ]);
    }
    let reps = format!("1 to {MOST_REPS} repetitions; one repetition is itself");
    let chart = load_chart();
    add([
        &chart.name,
        "the max from several repetitions, as standings estimate it",
        &reps,
        "any day",
        &chart.source,
        Certainty::Published.word(),
        "max from repetitions",
    ]);
    for equation in equations() {
        let mut purpose =
            format!("the max from several repetitions: {}", equation.formula);
        if !equation.found.is_empty() {
            purpose.push_str(&format!("; {}", equation.found));
        }
        add([
            &equation.name,
            &purpose,
            &format!("{reps}. {}", spread()),
            "any day",
            &equation.source,
            Certainty::Published.word(),
            "max from repetitions",
        ]);
    }
    print_rows(&rows)
}

/// How sure it is, with what of it is from memory.
fn sure(certainty: Certainty, memory: &str) -> String {
    if memory.is_empty() {
        certainty.word().to_owned()
    } else {
        format!("{}: {memory}", certainty.word())
    }
}
