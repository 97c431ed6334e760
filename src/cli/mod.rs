//! The command line. Each command is a file; this one reads the arguments and hands over.
//!
//! Exit status: 0 when all is well, 1 when problems were found or a file could not be used, 2 when the
//! command line itself is wrong.

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
mod steady_rows;

use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Parser, Subcommand, ValueEnum};

use self::quantity::FaultArgument;
use ::quantity::Amount;
use ::quantity::typed::IndoorAir;
use output::{Failure, Output};

/// Diagnose and repair a simulated air conditioner that is freezing up.
///
/// Without a command, the window opens.
#[derive(Debug, Parser)]
#[command(name = "rimebench", version, about, after_help = EXAMPLES, args_conflicts_with_subcommands = true)]
struct Arguments {
    #[command(subcommand)]
    command: Option<Command>,
    #[cfg(feature = "window")]
    #[command(flatten)]
    window: WindowArguments,
}

/// What the window opens with.
#[cfg(feature = "window")]
#[derive(Debug, clap::Args)]
struct WindowArguments {
    /// For the window: call to choose in the list, built in or the path of a call file
    #[arg(long)]
    call: Option<String>,
    /// For the window: seed of the call
    #[arg(long)]
    seed: Option<u64>,
    /// For the window: folder for visit records; without it, the one in the settings
    #[arg(long, value_name = "FOLDER")]
    records: Option<PathBuf>,
}

const EXAMPLES: &str = "\
Examples:
  rimebench
  rimebench calls
  rimebench play CALL --moves my-visit.ron --seed 7 --record my-visit.record.ron
  rimebench grade my-visit.record.ron
  rimebench grade folder-of-a-class
  rimebench review my-visit.record.ron --html my-visit.html
  rimebench check my-call.ron
  rimebench steady --system split-3-ton-r410a-txv --outdoor 95F --indoor 80F/67F --fault loaded-filter=0.5";

#[derive(Debug, Subcommand)]
enum Command {
    /// Work a call from a file of moves: prints the notebook as it fills, then the review
    Play(PlayArguments),
    /// Grade visit records by working them again; an edited record is refused
    Grade(GradeArguments),
    /// Take the moves out of a visit record, of this version or an older one, as a file of moves
    Moves(MovesArguments),
    /// Write the review of a visit record as one HTML file, with figures, that prints
    Review(ReviewArguments),
    /// Check call files and report every problem with its line
    Check(CheckArguments),
    /// Let a system settle at held conditions and print what its instruments would show
    Steady(SteadyArguments),
    /// List the built-in calls
    Calls,
    /// List the kinds of fault, with the places of those that have one
    Faults,
    /// List the built-in systems
    Systems,
}

#[derive(Debug, clap::Args)]
struct PlayArguments {
    /// A built-in call (see `rimebench calls`) or the path of a call file
    call: String,
    /// File with the list of moves
    #[arg(long, value_name = "FILE")]
    moves: PathBuf,
    /// Number that closes the call's ranges; the same number gives the same visit
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Where to write the visit record
    #[arg(long, value_name = "OUT")]
    record: Option<PathBuf>,
    /// Units of readings and review
    #[arg(long, value_enum, default_value_t = UnitSystem::Ip)]
    units: UnitSystem,
}

/// What a record is held against.
#[derive(Debug, clap::Args)]
struct HeldOptions {
    /// Built-in call or call file that the record is of; without it, it is found by its name: built in, or in a file beside the
    /// record
    #[arg(long, value_name = "CALL")]
    call: Option<String>,
    /// Take records in which faults were injected, worsened or cleared during the visit too: only if you did so and kept them yourself
    #[arg(long)]
    with_events: bool,
}

#[derive(Debug, clap::Args)]
struct GradeArguments {
    /// Visit records, or folders: of those every file whose name ends in .ron, but calls
    #[arg(required = true, value_name = "RECORD")]
    records: Vec<PathBuf>,
    #[command(flatten)]
    held: HeldOptions,
    /// How to print the review; JSON holds SI values, its keys carry their unit
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Units of the text
    #[arg(long, value_enum, default_value_t = UnitSystem::Ip)]
    units: UnitSystem,
}

#[derive(Debug, clap::Args)]
struct MovesArguments {
    /// Visit record
    #[arg(value_name = "RECORD")]
    record: PathBuf,
}

#[derive(Debug, clap::Args)]
struct ReviewArguments {
    /// Visit record
    #[arg(value_name = "RECORD")]
    record: PathBuf,
    /// Where to write the page
    #[arg(long, value_name = "OUT")]
    html: PathBuf,
    #[command(flatten)]
    held: HeldOptions,
    /// Units of the page
    #[arg(long, value_enum, default_value_t = UnitSystem::Ip)]
    units: UnitSystem,
    /// Hours that the plant runs on after the visit
    #[arg(long, value_name = "HOURS", default_value_t = report::USUAL_HOURS, value_parser = quantity::hours)]
    hours: f64,
    /// Leave the sound path through the call out: it takes by far the longest
    #[arg(long)]
    without_path: bool,
}

#[derive(Debug, clap::Args)]
struct CheckArguments {
    /// Built-in calls or call files
    #[arg(required = true, value_name = "CALL")]
    calls: Vec<String>,
}

#[derive(Debug, clap::Args)]
struct SteadyArguments {
    /// Built-in system (see `rimebench systems`)
    #[arg(long, value_name = "NAME", default_value = "split-3-ton-r410a-txv")]
    system: String,
    /// Outdoor air with its unit, like 95F or 35C
    #[arg(long, value_name = "TEMPERATURE", value_parser = quantity::temperature, allow_hyphen_values = true)]
    outdoor: Amount,
    /// Return air: dry bulb and wet bulb like 80F/67F, or dry bulb and relative humidity like 26.7C/50%
    #[arg(long, value_name = "DRY/WET", value_parser = quantity::indoor_air, allow_hyphen_values = true)]
    indoor: IndoorAir,
    /// A fault with its severity from 0 to 1, like loaded-filter=0.5; can be given several times
    #[arg(long = "fault", value_name = "KIND=SEVERITY", value_parser = quantity::fault)]
    faults: Vec<FaultArgument>,
    /// Charge as a share of the data plate's charge, like 0.9 or 90%
    #[arg(long, value_name = "SHARE", default_value = "1.0", value_parser = quantity::share, allow_hyphen_values = true)]
    charge: f64,
    /// How to print it
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Units of the output; JSON keys carry them
    #[arg(long, value_enum, default_value_t = UnitSystem::Ip)]
    units: UnitSystem,
}

/// How output is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For people.
    Text,
    /// For programs.
    Json,
}

/// Units of the output.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum UnitSystem {
    /// psig, °F, cfm, Btu/h, lb.
    Ip,
    /// Pa, °C, m³/s, W, kg.
    Si,
}

impl From<UnitSystem> for words::Words {
    fn from(units: UnitSystem) -> Self {
        match units {
            UnitSystem::Ip => words::Words::in_units(words::Units::Ip),
            UnitSystem::Si => words::Words::in_units(words::Units::Si),
        }
    }
}

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
fn open_window(arguments: WindowArguments) -> Result<(), Failure> {
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
