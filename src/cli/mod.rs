//! The command line.
//!
//! Every verb exits non-zero on failure, says why on standard error in one
//! sentence, and leaves files as they were. Knows clap; decides nothing.

mod args;
mod moment;
mod verbs;

use std::io::Write;
use std::process::ExitCode;

use clap::Parser;
use clap::error::ErrorKind;

use args::{Arguments, Verb};

/// Why a verb failed: the sentence for standard error.
#[derive(Debug)]
struct Failure(String);

impl<E: std::fmt::Display> From<E> for Failure {
    fn from(error: E) -> Self {
        Self(error.to_string())
    }
}

/// Runs the program with the process's own arguments.
pub fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => return usage(&error),
    };
    match run(arguments.verb) {
        Ok(()) => ExitCode::SUCCESS,
        Err(Failure(sentence)) => {
            if !sentence.is_empty() {
                let _ = writeln!(std::io::stderr(), "maxday: {sentence}");
            }
            ExitCode::FAILURE
        }
    }
}

/// Help goes to standard output; a wrong call is said in one sentence.
fn usage(error: &clap::Error) -> ExitCode {
    match error.kind() {
        ErrorKind::DisplayHelp
        | ErrorKind::DisplayVersion
        | ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand => {
            let _ = error.print();
            ExitCode::SUCCESS
        }
        _ => {
            let text = error.render().to_string();
            let lines: Vec<&str> = text
                .lines()
                .take_while(|l| !l.starts_with("Usage:") && !l.starts_with("For more"))
                .map(str::trim)
                .filter(|l| !l.is_empty())
                .collect();
            let sentence = lines.join(" ").replacen("error: ", "", 1);
            let _ = writeln!(
                std::io::stderr(),
                "maxday: {}; see maxday --help.",
                sentence.trim_end_matches('.')
            );
            ExitCode::from(2)
        }
    }
}

fn run(verb: Option<Verb>) -> Result<(), Failure> {
    match verb {
        None => verbs::desk::run(None, false),
        Some(Verb::Desk { file, sample }) => verbs::desk::run(file, sample),
        Some(Verb::New(new)) => verbs::new::run(&new),
        Some(Verb::Roster {
            file,
            roster,
            dates,
            update,
        }) => verbs::roster::run(&file, &roster, dates.as_deref(), update),
        Some(Verb::Apply {
            file,
            acts,
            keep_going,
        }) => verbs::apply::run(&file, &acts, keep_going),
        Some(Verb::Acts { file }) => verbs::acts::run(&file),
        Some(Verb::Queue {
            file,
            platform,
            at,
            posted,
        }) => verbs::show::queue(&file, platform, at.as_deref(), posted),
        Some(Verb::Standings {
            file,
            by,
            score,
            choices,
            age_factors,
            posted,
        }) => {
            let asked = verbs::score::Asked {
                names: &score,
                choices: &choices,
                ages: age_factors,
            };
            verbs::show::standings(&file, by, &asked, posted)
        }
        Some(Verb::Attempts { file, posted }) => verbs::show::attempts(&file, posted),
        Some(Verb::Papers {
            file,
            out,
            size,
            only,
            norms,
            posted,
        }) => verbs::papers::run(&file, &out, &size, &only, norms.as_deref(), posted),
        Some(Verb::Export { file, out, posted }) => {
            verbs::export::run(&file, &out, posted)
        }
        Some(Verb::Records {
            file,
            import,
            posted,
        }) => match import {
            Some(book) => verbs::records::import(&file, &book),
            None => verbs::records::print(&file, posted),
        },
        Some(Verb::History {
            file,
            with,
            matches,
        }) => verbs::history::run(&file, &with, matches.as_deref()),
        Some(Verb::Training {
            file,
            team,
            percent,
            posted,
        }) => verbs::training::run(&file, team.as_deref(), &percent, posted),
        Some(Verb::Norms {
            file,
            norms,
            posted,
        }) => verbs::norms::run(&file, &norms, posted),
        Some(Verb::School {
            file,
            name,
            picture,
            no_picture,
        }) => {
            let (name, picture) = (name.as_deref(), picture.as_deref());
            verbs::school::run(&file, name, picture, no_picture)
        }
        Some(Verb::Check { file }) => verbs::check::run(&file),
        Some(Verb::Erase { file, number, yes }) => verbs::erase::run(&file, number, yes),
        Some(Verb::Recover { file, out }) => verbs::recover::run(&file, &out),
        Some(Verb::Score(score)) => verbs::score::run(&score),
        Some(Verb::Formulas) => verbs::formulas::run(),
        Some(Verb::Lifts) => verbs::know::lifts(),
        Some(Verb::Formats) => verbs::know::formats(),
    }
}

/// Writes to standard output; a reader that went away is no failure.
fn print(bytes: &[u8]) -> Result<(), Failure> {
    let mut out = std::io::stdout().lock();
    match out.write_all(bytes).and_then(|()| out.flush()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => {
            Err(Failure(format!("The output can't be written: {error}.")))
        }
        _ => Ok(()),
    }
}
