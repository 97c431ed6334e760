//! Lives through the cases of `bench::sense` and tells which readings no real equipment shows.
//!
//! `cargo run --release -p bench --bin sense -- --cases 3000 --pairs 500 --threads 2 --json`. The exit status is 1 if a bound was
//! passed.

use std::process::ExitCode;
use std::sync::Mutex;
use std::time::{Duration, Instant};

use bench::sense::{Case, live_all, random_pair, singles};
use clap::Parser;

/// Every fault on every system in a dozen weathers, and random pairs: does every reading make sense?
#[derive(Parser)]
struct Arguments {
    /// How many cases of one fault; all, if it is not given. The first few are a fair sample.
    #[arg(long)]
    cases: Option<usize>,
    /// Cases of one fault to leave out at the beginning: to spread the whole over several runs.
    #[arg(long, default_value_t = 0)]
    skip: usize,
    /// How many random pairs of faults.
    #[arg(long, default_value_t = 2000)]
    pairs: u64,
    /// How many threads.
    #[arg(long, default_value_t = 1)]
    threads: usize,
    /// Plant time of a case, h.
    #[arg(long, default_value_t = 3.0)]
    hours: f64,
    /// The result as JSON, with every case.
    #[arg(long)]
    json: bool,
}

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let mut cases: Vec<Case> =
        singles().into_iter().skip(arguments.skip).take(arguments.cases.unwrap_or(usize::MAX)).collect();
    cases.extend((0..arguments.pairs).map(random_pair));
    let begun = Instant::now();
    let told = Mutex::new(begun);
    let tally = live_all(&cases, arguments.hours, arguments.threads, |done| {
        let mut told = told.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        if told.elapsed() > Duration::from_secs(10) {
            *told = Instant::now();
            let left_s = begun.elapsed().as_secs_f64() / done as f64 * (cases.len() - done) as f64;
            eprintln!("{done} of {} cases, {left_s:.0} s to go", cases.len());
        }
    });
    if arguments.json {
        println!("{:#}", tally.to_json());
    } else {
        print!("{tally}");
    }
    if tally.broken() == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
