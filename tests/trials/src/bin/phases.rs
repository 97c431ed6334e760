//! In which phases visits were met, beside how likely a shadow at the true severity had them.

use clap::Parser;
use diagnosis::{PhaseMet, phases};
use plant::StepError;
use trials::{Drawn, Go, Numbers, drawn, fixed_routine, work_all};
use words::Words;

/// Phases met.
#[derive(Parser)]
struct Arguments {
    #[command(flatten)]
    numbers: Numbers,
}

fn main() -> Result<(), StepError> {
    let arguments = Arguments::parse();
    let all: Vec<Vec<PhaseMet>> = work_all(arguments.numbers.range(), arguments.numbers.threads, |number| {
        let Drawn { mut visit, truth, amounts, .. } = drawn(number)?;
        fixed_routine(&mut visit, &mut |_| Ok(Go::On))?;
        let met = phases(&visit, &truth, &amounts)?;
        for one in &met {
            let told = Words::default().say(&truth);
            println!("{number} {told} {:?} {} {one:?}", amounts, visit.call().system.name);
        }
        Ok(met)
    })?;
    let all: Vec<PhaseMet> = all.into_iter().flatten().collect();
    println!("{}", all.len());
    Ok(())
}
