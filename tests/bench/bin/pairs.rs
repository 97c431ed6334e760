//! Lives through any number of cases of `bench::pairs` and counts what broke.
//!
//! `cargo run --release -p bench --bin pairs -- --cases 10000 --threads 2 --from 0`. The exit status is 1 if a case broke.

use std::io::Write as _;
use std::process::ExitCode;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

use bench::pairs::{Case, Plan, Tally, live};
use clap::Parser;

/// Pairs of faults, weather and random legal moves, held to the laws.
#[derive(Parser)]
struct Arguments {
    /// How many cases.
    #[arg(long, default_value_t = 100)]
    cases: u64,
    /// How many threads.
    #[arg(long, default_value_t = 1)]
    threads: u64,
    /// Number of the first case.
    #[arg(long, default_value_t = 0)]
    from: u64,
    /// Plant time of a case, h.
    #[arg(long, default_value_t = 24.0)]
    hours: f64,
    /// Every how many cases the record is made again.
    #[arg(long, default_value_t = 8)]
    replay_every: u64,
    /// One case with its call and, if it breaks, its moves.
    #[arg(long)]
    case: Option<u64>,
}

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let plan = Plan { day_s: arguments.hours * 3600.0, replay_every: arguments.replay_every };
    match arguments.case {
        Some(number) => one(number, plan),
        None => many(&arguments, plan),
    }
}

fn one(number: u64, plan: Plan) -> ExitCode {
    println!("{}", Case::of(number, plan.day_s).call_text);
    match live(number, plan) {
        Ok(lived) => {
            println!("case {number}: {} moves, nothing broke", lived.moves);
            for extreme in lived.extremes.list() {
                println!("  {:40} {:e}", extreme.name, extreme.value);
            }
            ExitCode::SUCCESS
        }
        Err(broken) => {
            for (index, action) in broken.moves.iter().enumerate() {
                println!("{:4} {action:?}", index + 1);
            }
            println!("case {number} breaks after {} moves: {}", broken.moves.len(), broken.why);
            ExitCode::FAILURE
        }
    }
}

fn many(arguments: &Arguments, plan: Plan) -> ExitCode {
    let end = arguments.from + arguments.cases;
    let next = AtomicU64::new(arguments.from);
    let tally = Mutex::new((Tally::default(), Instant::now()));
    let begun = Instant::now();
    std::thread::scope(|scope| {
        for _ in 0..arguments.threads.max(1) {
            scope.spawn(|| {
                loop {
                    let number = next.fetch_add(1, Ordering::Relaxed);
                    if number >= end {
                        return;
                    }
                    let case = Case::of(number, plan.day_s);
                    let result = live(number, plan);
                    if let Err(broken) = &result {
                        println!(
                            "case {number} ({}, {} and {}) breaks after {} moves: {}",
                            case.system,
                            case.pair.0,
                            case.pair.1,
                            broken.moves.len(),
                            broken.why
                        );
                    }
                    let mut held = tally.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
                    held.0.count(&case, &result);
                    if held.1.elapsed() > Duration::from_secs(10) {
                        held.1 = Instant::now();
                        progress(&held.0, arguments.cases, begun);
                    }
                }
            });
        }
    });
    let (tally, _) = tally.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner);
    let seconds = begun.elapsed().as_secs_f64();
    println!(
        "{} cases from {} in {seconds:.0} s on {} threads: {:.2} cases per second\n\n{tally}",
        arguments.cases,
        arguments.from,
        arguments.threads.max(1),
        arguments.cases as f64 / seconds
    );
    if tally.broken().is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

fn progress(tally: &Tally, cases: u64, begun: Instant) {
    let done = tally.lived() + tally.broken().len() as u64;
    let speed = done as f64 / begun.elapsed().as_secs_f64();
    eprintln!(
        "{done} of {cases} cases, {} broken, {speed:.2} cases per second, {:.0} s to go",
        tally.broken().len(),
        (cases - done) as f64 / speed
    );
    let _ = std::io::stdout().flush();
}
