//! What can stand on the command line.

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

use super::quantity::{self, FaultArgument};
use ::quantity::Amount;
use ::quantity::typed::IndoorAir;

/// Diagnose and repair a simulated air conditioner that is freezing up.
///
/// Without a command, the window opens.
#[derive(Debug, Parser)]
#[command(name = "rimebench", version, about, after_help = EXAMPLES, args_conflicts_with_subcommands = true)]
pub(super) struct Arguments {
    #[command(subcommand)]
    pub(super) command: Option<Command>,
    #[cfg(feature = "window")]
    #[command(flatten)]
    pub(super) window: WindowArguments,
}

/// What the window opens with.
#[cfg(feature = "window")]
#[derive(Debug, clap::Args)]
pub(super) struct WindowArguments {
    /// For the window: call to choose in the list, built in or the path of a call file
    #[arg(long)]
    pub(super) call: Option<String>,
    /// For the window: seed of the call
    #[arg(long)]
    pub(super) seed: Option<u64>,
    /// For the window: folder for visit records; without it, the one in the settings
    #[arg(long, value_name = "FOLDER")]
    pub(super) records: Option<PathBuf>,
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
pub(super) enum Command {
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
pub(super) struct PlayArguments {
    /// A built-in call (see `rimebench calls`) or the path of a call file
    pub(super) call: String,
    /// File with the list of moves
    #[arg(long, value_name = "FILE")]
    pub(super) moves: PathBuf,
    /// Number that closes the call's ranges; the same number gives the same visit
    #[arg(long, default_value_t = 1)]
    pub(super) seed: u64,
    /// Where to write the visit record
    #[arg(long, value_name = "OUT")]
    pub(super) record: Option<PathBuf>,
    /// Units of readings and review
    #[arg(long, value_enum, default_value_t = UnitSystem::Ip)]
    pub(super) units: UnitSystem,
}

/// What a record is held against.
#[derive(Debug, clap::Args)]
pub(super) struct HeldOptions {
    /// Built-in call or call file that the record is of; without it, it is found by its name: built in, or in a file beside the
    /// record
    #[arg(long, value_name = "CALL")]
    pub(super) call: Option<String>,
    /// Take records in which faults were injected, worsened or cleared during the visit too: only if you did so and kept them yourself
    #[arg(long)]
    pub(super) with_events: bool,
}

#[derive(Debug, clap::Args)]
pub(super) struct GradeArguments {
    /// Visit records, or folders: of those every file whose name ends in .ron, but calls
    #[arg(required = true, value_name = "RECORD")]
    pub(super) records: Vec<PathBuf>,
    #[command(flatten)]
    pub(super) held: HeldOptions,
    /// How to print the review; JSON holds SI values, its keys carry their unit
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(super) format: Format,
    /// Units of the text
    #[arg(long, value_enum, default_value_t = UnitSystem::Ip)]
    pub(super) units: UnitSystem,
}

#[derive(Debug, clap::Args)]
pub(super) struct MovesArguments {
    /// Visit record
    #[arg(value_name = "RECORD")]
    pub(super) record: PathBuf,
}

#[derive(Debug, clap::Args)]
pub(super) struct ReviewArguments {
    /// Visit record
    #[arg(value_name = "RECORD")]
    pub(super) record: PathBuf,
    /// Where to write the page
    #[arg(long, value_name = "OUT")]
    pub(super) html: PathBuf,
    #[command(flatten)]
    pub(super) held: HeldOptions,
    /// Units of the page
    #[arg(long, value_enum, default_value_t = UnitSystem::Ip)]
    pub(super) units: UnitSystem,
    /// Hours that the plant runs on after the visit
    #[arg(long, value_name = "HOURS", default_value_t = report::USUAL_HOURS, value_parser = quantity::hours)]
    pub(super) hours: f64,
    /// Leave the sound path through the call out: it takes by far the longest
    #[arg(long)]
    pub(super) without_path: bool,
}

#[derive(Debug, clap::Args)]
pub(super) struct CheckArguments {
    /// Built-in calls or call files
    #[arg(required = true, value_name = "CALL")]
    pub(super) calls: Vec<String>,
}

#[derive(Debug, clap::Args)]
pub(super) struct SteadyArguments {
    /// Built-in system (see `rimebench systems`)
    #[arg(long, value_name = "NAME", default_value = "split-3-ton-r410a-txv")]
    pub(super) system: String,
    /// Outdoor air with its unit, like 95F or 35C
    #[arg(long, value_name = "TEMPERATURE", value_parser = quantity::temperature, allow_hyphen_values = true)]
    pub(super) outdoor: Amount,
    /// Return air: dry bulb and wet bulb like 80F/67F, or dry bulb and relative humidity like 26.7C/50%
    #[arg(long, value_name = "DRY/WET", value_parser = quantity::indoor_air, allow_hyphen_values = true)]
    pub(super) indoor: IndoorAir,
    /// A fault with its severity from 0 to 1, like loaded-filter=0.5; can be given several times
    #[arg(long = "fault", value_name = "KIND=SEVERITY", value_parser = quantity::fault)]
    pub(super) faults: Vec<FaultArgument>,
    /// Charge as a share of the data plate's charge, like 0.9 or 90%
    #[arg(long, value_name = "SHARE", default_value = "1.0", value_parser = quantity::share, allow_hyphen_values = true)]
    pub(super) charge: f64,
    /// How to print it
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(super) format: Format,
    /// Units of the output; JSON keys carry them
    #[arg(long, value_enum, default_value_t = UnitSystem::Ip)]
    pub(super) units: UnitSystem,
}

/// How output is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// For people.
    Text,
    /// For programs.
    Json,
}

/// Units of the output.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum UnitSystem {
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
