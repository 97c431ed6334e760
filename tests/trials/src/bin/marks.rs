//! Prints the marks of four technicians on the built-in calls.

use clap::Parser;
use judge::Area;
use plant::StepError;
use trials::{Manner, call_of, marks_of, work_all};

/// Four technicians on the built-in calls.
#[derive(Parser)]
struct Arguments {
    /// How many seeds; the calls take turns.
    #[arg(long, default_value_t = 50)]
    seeds: u64,
    /// Visits at the same time.
    #[arg(long, default_value_t = 1)]
    threads: usize,
    /// Prints every mark.
    #[arg(long)]
    verbose: bool,
}

fn main() -> Result<(), StepError> {
    let arguments = Arguments::parse();
    let marked = work_all(1..arguments.seeds + 1, arguments.threads, |seed| mark(seed, arguments.verbose))?;
    let totals: Vec<(Manner, f64)> = marked.into_iter().flatten().collect();
    println!("manner | visits | lowest | mean | highest");
    for manner in Manner::ALL {
        let mut of: Vec<f64> =
            totals.iter().filter(|(one, _)| *one == manner).map(|(_, total)| *total).collect();
        of.sort_by(f64::total_cmp);
        let (Some(lowest), Some(highest)) = (of.first(), of.last()) else { continue };
        let mean = of.iter().sum::<f64>() / of.len() as f64;
        println!("{manner:?} | {} | {lowest:.1} | {mean:.1} | {highest:.1}", of.len());
    }
    Ok(())
}

fn mark(seed: u64, verbose: bool) -> Result<Vec<(Manner, f64)>, StepError> {
    let call = call_of(seed);
    let mut marked = Vec::new();
    for (manner, marks) in marks_of(seed)? {
        let areas: Vec<String> =
            Area::ALL.iter().map(|area| format!("{:?} {:.1}", area, marks.points_in(*area))).collect();
        println!("{seed} {} {manner:?} {:.1}: {}", call.id, marks.total, areas.join(", "));
        if verbose {
            for item in &marks.items {
                println!(
                    "    {:?} {:.1}/{:.1} {:?} {:?}",
                    item.area, item.points, item.of, item.reason, item.entry
                );
            }
        }
        marked.push((manner, marks.total));
    }
    Ok(marked)
}
