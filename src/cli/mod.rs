//! The command line. Each command is a file; this one reads the arguments (`arguments.rs`) and hands over.
//!
//! Exit status: 0 when all is well, 1 when problems were found or a file could not be used, 2 when the
//! command line itself is wrong.

mod arguments;
mod check;
mod grade;
mod lists;
mod moves;
mod output;
mod play;
mod progress;
mod quantity;
mod review;
mod source;
mod steady;
mod steady_course;
mod steady_row;
mod steady_rows;

use std::process::ExitCode;

use clap::Parser;

use arguments::{Arguments, Command};
use output::{Failure, Output};

/// Reads the command line and does what it says.
pub(crate) fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(message) => return ended(output::parser_message(&message)),
    };
    let mut output = Output::new();
    let result = match arguments.command {
        #[cfg(feature = "window")]
        None => open_window(arguments.window),
        #[cfg(not(feature = "window"))]
        None => no_window(),
        Some(Command::Play(arguments)) => play::run(&arguments, &mut output),
        Some(Command::Grade(arguments)) => grade::run(&arguments, &mut output),
        Some(Command::Moves(arguments)) => moves::run(&arguments, &mut output),
        Some(Command::Review(arguments)) => review::run(&arguments, &mut output),
        Some(Command::Check(arguments)) => check::run(&arguments, &mut output),
        Some(Command::Steady(arguments)) => steady::run(&arguments, &mut output),
        Some(Command::Calls) => lists::calls(&mut output),
        Some(Command::Faults) => lists::faults(&mut output),
        Some(Command::Systems) => lists::systems(&mut output),
    };
    // What was written before a failure belongs before its message.
    let flushed = output.flush();
    ended(result.and(flushed))
}

/// Tells of a failure, and the exit status.
fn ended(result: Result<(), Failure>) -> ExitCode {
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(Failure::Problems(text)) => {
            output::tell(&text);
            ExitCode::from(1)
        }
        Err(Failure::Usage(text)) => {
            output::tell(&text);
            ExitCode::from(2)
        }
        // Told already.
        Err(Failure::Misread) => ExitCode::from(2),
        // Whoever read the output has seen enough.
        Err(Failure::OutputClosed) => ExitCode::SUCCESS,
    }
}

#[cfg(feature = "window")]
fn open_window(arguments: arguments::WindowArguments) -> Result<(), Failure> {
    let options =
        session::Options { call: arguments.call, seed: arguments.seed, record_dir: arguments.records };
    app::run(&options).map_err(Failure::Problems)
}

#[cfg(not(feature = "window"))]
fn no_window() -> Result<(), Failure> {
    Err(Failure::Usage(
        "error: this build has no window; name a command (rimebench --help lists them)".to_owned(),
    ))
}
