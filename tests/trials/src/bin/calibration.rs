//! Simulation-based calibration (Talts and others 2018): truths drawn from what the engine believes before the first reading,
//! pairs and sound plants with them. If the engine reckons right, the true amount's rank within what it believes of it is as often low as
//! high, and of what it calls so likely so much is true.

use clap::Parser;
use plant::StepError;
use suspects::{Prior, Suspect, Suspects, suspects_of};
use trials::{Draw, Go, case, fixed_routine, reliability, work_all};
use visit::Visit;

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

struct Result_ {
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

fn work(number: u64) -> Result<Result_, StepError> {
    let call = case(number).call;
    let mut draw = Draw::new(number ^ 0x5bd1_e995);
    let (truth, amounts) = truth_of(&call, &mut draw);
    let (faults, charge_kg) = truth.plant(&call.system, &amounts, 0.0);
    // A charge that nobody got wrong is right to one in a hundred.
    let charge_kg = charge_kg * (1.0 + 0.01 * 3.0_f64.sqrt() * draw.between(-1.0, 1.0));
    let mut visit = Visit::start_with(&call, number, &faults, charge_kg)?;
    let Some(mut suspects) = Suspects::arrive(&call, &Prior::Even, &|_| true)? else {
        unreachable!("nobody stops it")
    };
    fixed_routine(&mut visit, &mut |visit: &Visit| {
        if let Some(entry) = visit.notebook().last() {
            suspects.follow(entry, &|_| true)?;
        }
        Ok(Go::On)
    })?;
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
    println!(
        "{number} {truth} {amounts:.2?}: {of_truth:.3}, ranks {ranks:.3?}, first {}",
        standing[0].suspect
    );
    Ok(Result_ {
        ranks,
        stated,
        first: (standing[0].probability, standing[0].suspect == truth),
        log_score: -of_truth.max(1.0e-12).ln(),
    })
}

/// A suspect and its amounts, by what is believed beforehand.
fn truth_of(call: &call::Call, draw: &mut Draw) -> (Suspect, Vec<f64>) {
    let names = suspects_of(call);
    let chances = Prior::Even.of(&names);
    let mut left = draw.between(0.0, 1.0);
    let index = chances
        .iter()
        .position(|chance| {
            left -= chance;
            left < 0.0
        })
        .unwrap_or(0);
    let amounts = names[index].amounts().iter().map(|(low, high)| draw.between(*low, *high)).collect();
    (names[index].clone(), amounts)
}
