//! The one binary: the desk and the command line.

use std::process::ExitCode;

fn main() -> ExitCode {
    maxday::cli::main()
}
