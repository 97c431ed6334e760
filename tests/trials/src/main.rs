//! Prints what the suspects make of scripted visits.

use std::time::Instant;

use clap::Parser;
use suspects::{Prior, Suspects};
use trials::{case, fixed_routine};
use visit::Visit;

/// Scripted technicians on generated calls.
#[derive(Parser)]
struct Arguments {
    /// How many calls.
    #[arg(long, default_value_t = 39)]
    count: u64,
    /// Number of the first.
    #[arg(long, default_value_t = 0)]
    from: u64,
    /// Prints the suspects after each entry.
    #[arg(long)]
    verbose: bool,
}

fn main() -> Result<(), plant::StepError> {
    let arguments = Arguments::parse();
    let mut first = 0;
    for number in arguments.from..arguments.from + arguments.count {
        let case = case(number);
        let mut visit = Visit::start(&case.call, number)?;
        fixed_routine(&mut visit)?;
        let begun = Instant::now();
        let Some(mut suspects) = Suspects::arrive(&case.call, number, &Prior::Even, &|_| true)? else {
            continue;
        };
        let arrived_s = begun.elapsed().as_secs_f64();
        for entry in visit.notebook() {
            suspects.follow(entry, &|_| true)?;
            if arguments.verbose {
                let top: Vec<String> = suspects
                    .standing()
                    .iter()
                    .take(4)
                    .map(|chance| {
                        format!("{} {:.3} {:.2?}", chance.suspect, chance.probability, chance.amounts.first())
                    })
                    .collect();
                println!(
                    "  {:2} {:?} -> {:?}\n       {} {:?}",
                    entry.number,
                    entry.action,
                    entry.outcome,
                    top.join(" | "),
                    suspects.following()
                );
            }
        }
        let standing = suspects.standing();
        let hit =
            standing[0].suspect.causes.len() == 1 && standing[0].suspect.causes[0].kind == case.fault.kind;
        first += u64::from(hit);
        println!(
            "{number:3} {} {:?} {:.2} {:?} | {} {:.3} | {} {:.3} | true {:.3} | arrive {:.1} s, follow {:.1} s, {:.0} min, {:?}",
            if hit { "ok  " } else { "MISS" },
            case.fault.kind,
            case.fault.severity,
            case.call.system.name,
            standing[0].suspect,
            standing[0].probability,
            standing[1].suspect,
            standing[1].probability,
            suspects.chance_of(case.fault.kind),
            arrived_s,
            begun.elapsed().as_secs_f64() - arrived_s,
            visit.clock_minutes(),
            suspects.following(),
        );
    }
    println!("{first} of {}", arguments.count);
    Ok(())
}
