//! Simulation-based calibration (Talts and others 2018): truths drawn from what the engine believes before the first reading,
//! pairs and sound plants with them. If the engine reckons right, the true amount's rank within what it believes of it is as often low as
//! high, and of what it calls so likely so much is true.

use clap::Parser;
use diagnosis::{Hypotheses, Prior};
use plant::StepError;
use trials::{Go, drawn, fixed_routine, reliability, work_all};
use visit::Visit;
use words::Words;

/// Ranks of true amounts, and what was true of what was stated.
#[derive(Parser)]
struct Arguments {
    /// How many calls.
    #[arg(long, default_value_t = 400)]
    count: u64,
    /// Number of the first.
    #[arg(long, default_value_t = 20_000)]
    from: u64,
    /// Visits at the same time.
    #[arg(long, default_value_t = 1)]
    threads: usize,
}

const BINS: usize = 25;

struct Ranked {
    ranks: Vec<f64>,
    stated: Vec<(f64, bool)>,
    first: (f64, bool),
    log_score: f64,
}

fn main() -> Result<(), StepError> {
    let arguments = Arguments::parse();
    let numbers = arguments.from..arguments.from + arguments.count;
    let results = work_all(numbers, arguments.threads, work)?;
    let ranks: Vec<f64> = results.iter().flat_map(|result| result.ranks.iter().copied()).collect();
    let mut bins = [0_usize; BINS];
    for rank in &ranks {
        bins[((rank * BINS as f64) as usize).min(BINS - 1)] += 1;
    }
    let expected = ranks.len() as f64 / BINS as f64;
    let chi_square: f64 = bins.iter().map(|count| (*count as f64 - expected).powi(2) / expected).sum();
    println!("ranks of {} amounts in {BINS} bins: {bins:?}", ranks.len());
    println!("chi-square {chi_square:.1} with {} degrees of freedom (36.4 is passed once in 20)", BINS - 1);
    reliability("at the end", results.iter().map(|result| result.stated.as_slice()));
    let firsts: Vec<[(f64, bool); 1]> = results.iter().map(|result| [result.first]).collect();
    reliability("first places", firsts.iter().map(<[(f64, bool); 1]>::as_slice));
    let mean = results.iter().map(|result| result.log_score).sum::<f64>() / results.len().max(1) as f64;
    println!("log score of the true suspect: {mean:.3} nats");
    Ok(())
}

fn work(number: u64) -> Result<Ranked, StepError> {
    let mut drawn = drawn(number)?;
    let call = drawn.visit.call().clone();
    let arrived_kg = drawn.visit.plant().circuit_kg();
    let Some(mut suspects) = Hypotheses::arrive(&call, &Prior::Even, &diagnosis::Unwatched)? else {
        unreachable!("nobody stops it")
    };
    fixed_routine(&mut drawn.visit, &mut |visit: &Visit| {
        if let Some(entry) = visit.notebook().last() {
            suspects.follow(entry, &diagnosis::Unwatched)?;
        }
        Ok(Go::On)
    })?;
    // A hole goes on losing: what is gone is what was gone half way through.
    let amounts = drawn.amounts_at(0.5 * (arrived_kg + drawn.visit.plant().circuit_kg()));
    let truth = drawn.truth;
    let ranks: Vec<f64> = amounts
        .iter()
        .enumerate()
        .filter_map(|(cause, amount)| suspects.rank(&truth, cause, *amount))
        .collect();
    let standing = suspects.standing();
    let stated: Vec<(f64, bool)> = standing
        .iter()
        .filter(|chance| chance.probability > 0.005)
        .map(|chance| (chance.probability, chance.suspect == truth))
        .collect();
    let of_truth = suspects.chance_where(&suspects.probabilities(), |suspect| *suspect == truth);
    let believed = standing.iter().find(|chance| chance.suspect == truth).map(|chance| &chance.amounts);
    let words = Words::default();
    println!(
        "{number} {} {amounts:.2?}: {of_truth:.3}, ranks {ranks:.3?}, believed {believed:.3?}, first {}",
        words.say(&truth),
        words.say(&standing[0].suspect)
    );
    Ok(Ranked {
        ranks,
        stated,
        first: (standing[0].probability, standing[0].suspect == truth),
        log_score: -libm::log(of_truth.max(1.0e-12)),
    })
}
