//! Makes random visits in more than one manner and compares what they come to (`bench::digests`).
//!
//! `cargo run --release -p bench --bin digests -- --visits 1000 --threads 2 --from-seed 0 --resumed`. One line for each visit (number,
//! call, seed, entries, digest) and a digest over all. The exit status is 1 if two manners differ or a visit breaks; the first
//! difference is told on standard error.

use std::path::PathBuf;
use std::process::ExitCode;

use bench::digests::{Line, Manner, digest_of_all, first_difference, golden, lines};
use clap::Parser;

/// Random visits, the same in every manner.
#[derive(Parser)]
struct Arguments {
    /// How many visits.
    #[arg(long, default_value_t = 100)]
    visits: u64,
    /// How many threads the second and third manner have; the first has one. With one there is no second.
    #[arg(long, default_value_t = 2)]
    threads: u64,
    /// Number of the first visit; call, seed and moves are drawn from the number.
    #[arg(long, default_value_t = 0)]
    from_seed: u64,
    /// Make them a third time, each written as a record after every move, read back and made again.
    #[arg(long)]
    resumed: bool,
    /// Print the digests of the visits that come with the program instead, as tests/golden/digests.txt has them.
    #[arg(long)]
    golden: bool,
    /// Folder of the files of moves for `--golden`.
    #[arg(long, default_value = "scenarios/visits")]
    folder: PathBuf,
}

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    if !arguments.golden {
        return compare(&arguments);
    }
    match golden(&arguments.folder) {
        Ok(text) => {
            print!("{text}");
            ExitCode::SUCCESS
        }
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

fn compare(arguments: &Arguments) -> ExitCode {
    let numbers = arguments.from_seed..arguments.from_seed.saturating_add(arguments.visits);
    let first = lines(numbers.clone(), 1, Manner::Straight);
    for line in &first {
        println!("{line}");
    }
    println!("all {}", digest_of_all(&first));
    let many = arguments.threads.max(1);
    let mut others = Vec::new();
    if many > 1 {
        others.push((format!("on {many} threads"), many, Manner::Straight));
    }
    if arguments.resumed {
        others.push(("resumed after every move".to_owned(), many, Manner::Resumed));
    }
    for (name, threads, manner) in others {
        let other = lines(numbers.clone(), threads, manner);
        if let Some((one, other)) = first_difference(&first, &other) {
            let told = |line: Option<&Line>| line.map_or_else(|| "nothing".to_owned(), Line::to_string);
            eprintln!("one thread: {}\n{name}: {}", told(one), told(other));
            return ExitCode::FAILURE;
        }
        eprintln!("{name}: the same {} visits", other.len());
    }
    ExitCode::SUCCESS
}
