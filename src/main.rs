//! Rimebench on the command line: opens the window, or works headless.

mod cli;

fn main() -> std::process::ExitCode {
    cli::main()
}
