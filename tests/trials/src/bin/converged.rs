//! The usual reckoning against the full slow one: how far the probabilities after each entry lie apart.

use clap::{Parser, ValueEnum};
use diagnosis::{Care, Hypotheses, Prior};
use plant::StepError;
use trials::{Go, Numbers, case, fixed_routine, work_all};
use visit::Visit;
use words::Words;

/// Probabilities of the usual reckoning against those of the slow one.
#[derive(Parser)]
struct Arguments {
    #[command(flatten)]
    numbers: Numbers,
    /// What the usual reckoning is held against.
    #[arg(long, value_enum, default_value_t = Against::Slow)]
    against: Against,
    /// Prints both after each entry.
    #[arg(long)]
    verbose: bool,
}

/// Reckonings with more care than the usual one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Against {
    /// All of it.
    Slow,
    /// The usual one with shadows that step as the real plant does.
    Ticks,
    /// The usual one with twice as many severities from the start, and more of them refined.
    Severities,
}

impl Against {
    fn care(self) -> Care {
        match self {
            Against::Slow => Care::SLOW,
            Against::Ticks => Care { pace: Care::SLOW.pace, ..Care::USUAL },
            Against::Severities => Care { pace: Care::USUAL.pace, ..Care::SLOW },
        }
    }
}

fn main() -> Result<(), StepError> {
    let arguments = Arguments::parse();
    let numbers = arguments.numbers.range();
    let all = work_all(numbers, arguments.numbers.threads, |number| {
        let apart = of_call(number, arguments.against.care(), arguments.verbose)?;
        let (entry, most) =
            apart.iter().copied().enumerate().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or((0, 0.0));
        let far = apart.iter().filter(|apart| **apart > 0.05).count();
        println!("{number}: most {most:.3} at entry {}, {far} of {} beyond 0.05", entry + 1, apart.len());
        Ok(apart)
    })?;
    let mut entries: Vec<f64> = all.into_iter().flatten().collect();
    entries.sort_by(f64::total_cmp);
    let count = entries.len().max(1) as f64;
    for most in [0.02, 0.05, 0.1] {
        let within = entries.iter().filter(|apart| **apart <= most).count() as f64;
        println!("{:.1} % of {count} entries within {most}", 100.0 * within / count);
    }
    Ok(())
}

/// Largest difference of any suspect's probability, after each entry.
fn of_call(number: u64, careful: Care, verbose: bool) -> Result<Vec<f64>, StepError> {
    let call = case(number).call;
    let mut visit = Visit::start(&call, number)?;
    let arrive = |care| Hypotheses::arrive_with(&call, &Prior::Even, care, &diagnosis::Unwatched);
    let Some((mut usual, mut slow)) = arrive(Care::USUAL)?.zip(arrive(careful)?) else {
        unreachable!("nobody stops it")
    };
    let mut apart = Vec::new();
    fixed_routine(&mut visit, &mut |visit: &Visit| {
        if let Some(entry) = visit.notebook().last() {
            usual.follow(entry, &diagnosis::Unwatched)?;
            slow.follow(entry, &diagnosis::Unwatched)?;
            let pairs = usual.probabilities().into_iter().zip(slow.probabilities());
            apart.push(pairs.map(|(usual, slow)| (usual - slow).abs()).fold(0.0, f64::max));
            if verbose {
                println!("{} {:?} -> {:?}", entry.number, entry.action, entry.outcome);
                for suspects in [&usual, &slow] {
                    println!("    {}", first_of(suspects));
                }
            }
        }
        Ok(Go::On)
    })?;
    Ok(apart)
}

/// The likeliest suspects with their amounts.
fn first_of(suspects: &Hypotheses) -> String {
    let standing = suspects.standing();
    let told = standing.iter().take(4).map(|chance| {
        let amount = chance.amounts.first().map_or(String::new(), |(mean, sd)| format!(" {mean:.3}±{sd:.3}"));
        format!("{} {:.3}{amount}", Words::default().say(&chance.suspect), chance.probability)
    });
    told.collect::<Vec<String>>().join(" | ")
}
