//! What a shadow at the true severity is off by, quantity by quantity, on development calls.
//!
//! `z` is the residual in standard deviations as the engine has them: 1 r.m.s. if it knows what it doesn't know.

use std::collections::BTreeMap;

use clap::Parser;
use diagnosis::{Hypothesis, Residual, residuals, strides};
use plant::{FaultKind, StepError};
use trials::{Drawn, Go, Numbers, case, drawn, fixed_routine, work_all};
use visit::{Measured, Visit, instrument};
use words::Words;

/// Residuals of shadows at the true severity.
#[derive(Parser)]
struct Arguments {
    #[command(flatten)]
    numbers: Numbers,
    /// Prints every reading that is off by more than this many standard deviations.
    #[arg(long, default_value_t = 4.0)]
    far: f64,
    /// Puts the real plant in the middle of the call's ranges, where the shadows are: what is left is the shadows' own.
    #[arg(long)]
    middle: bool,
    /// Draws the truth from what the engine believes before the first reading.
    #[arg(long)]
    drawn: bool,
    /// Holds shadows against such as step as the real plant does, read without error: what strides make of them.
    #[arg(long)]
    strides: bool,
}

fn main() -> Result<(), StepError> {
    let arguments = Arguments::parse();
    let numbers = arguments.numbers.range();
    let mut all: Vec<(u64, Vec<Residual>)> =
        work_all(numbers, arguments.numbers.threads, |number| Ok((number, of_call(number, &arguments)?)))?;
    all.sort_by_key(|(number, _)| *number);
    let mut groups: BTreeMap<(String, String), Vec<Residual>> = BTreeMap::new();
    for residual in all.iter().flat_map(|(_, residuals)| residuals) {
        let key = (class(residual), format!("{:?}", residual.trust));
        groups.entry(key).or_default().push(*residual);
    }
    println!("quantity | trust | n | mean off | r.m.s. off | z r.m.s. | z max | beyond 2 | beyond 3");
    for ((quantity, trust), residuals) in groups {
        let count = residuals.len() as f64;
        let mean = residuals.iter().map(|one| one.off).sum::<f64>() / count;
        let rms = |value: fn(&Residual) -> f64| {
            (residuals.iter().map(|one| value(one) * value(one)).sum::<f64>() / count).sqrt()
        };
        let beyond = |z: f64| residuals.iter().filter(|one| one.z.abs() > z).count() as f64 / count;
        println!(
            "{quantity} | {trust} | {} | {mean:.4} | {:.4} | {:.2} | {:.1} | {:.3} | {:.3}",
            residuals.len(),
            rms(|one| one.off),
            rms(|one| one.z),
            residuals.iter().map(|one| one.z.abs()).fold(0.0, f64::max),
            beyond(2.0),
            beyond(3.0),
        );
    }
    Ok(())
}

fn of_call(number: u64, arguments: &Arguments) -> Result<Vec<Residual>, StepError> {
    if arguments.drawn {
        let drawn = drawn(number)?;
        let amounts = drawn.amounts_at(drawn.visit.plant().circuit_kg());
        let Drawn { mut visit, truth, .. } = drawn;
        fixed_routine(&mut visit, &mut |_| Ok(Go::On))?;
        return told(number, &visit, &truth, &amounts, arguments);
    }
    let mut case = case(number);
    if arguments.middle {
        let call = &mut case.call;
        let ranges = [
            &mut call.house.air_k,
            &mut call.house.relative_humidity,
            &mut call.weather.mean_k,
            &mut call.charge_share,
        ];
        for range in ranges {
            let middle = 0.5 * (range.low + range.high);
            (range.low, range.high) = (middle, middle);
        }
    }
    let mut visit = Visit::start(&case.call, number)?;
    let charge_kg = visit.plant().circuit_kg();
    fixed_routine(&mut visit, &mut |_| Ok(Go::On))?;
    let amount = match case.fault.kind {
        FaultKind::RefrigerantLeak => {
            // As it is when the technician stands before it.
            1.0 - charge_kg / case.call.system.plate_charge_kg
        }
        _ => case.fault.severity,
    };
    let suspect = Hypothesis::single(case.fault.kind, case.fault.place);
    told(number, &visit, &suspect, &[amount], arguments)
}

fn told(
    number: u64,
    visit: &Visit,
    truth: &Hypothesis,
    amounts: &[f64],
    arguments: &Arguments,
) -> Result<Vec<Residual>, StepError> {
    let all =
        if arguments.strides { strides(visit, truth, amounts) } else { residuals(visit, truth, amounts) }?;
    for one in all.iter().filter(|one| one.z.abs() > arguments.far) {
        println!(
            "{number} {} {amounts:.2?} {} entry {} {:?} {:?}: {:.4}, off {:.4}, z {:.1}",
            Words::default().say(truth),
            visit.call().system.name,
            one.entry,
            one.quantity,
            one.trust,
            one.value,
            one.off,
            one.z
        );
    }
    Ok(all)
}

/// What is counted together. A meter without a sign shows nothing in place of what it would show below nothing, so that readings there
/// scatter less than any normal error; they stand by themselves.
fn class(residual: &Residual) -> String {
    let nothing = residual.value.abs() < 3.0 * instrument(residual.quantity).accuracy_at(0.0);
    match residual.quantity {
        Measured::Voltage(..) if nothing => "voltage, next to nothing".to_owned(),
        Measured::Resistance(..) if nothing => "resistance, next to nothing".to_owned(),
        Measured::Current(_) if nothing => "current, next to nothing".to_owned(),
        Measured::Capacitance(..) if nothing => "capacitance, next to nothing".to_owned(),
        Measured::Voltage(..) => "voltage".to_owned(),
        Measured::Resistance(from, _) if from.is_of_a_winding() => "resistance of a winding".to_owned(),
        Measured::Resistance(..) => "resistance".to_owned(),
        Measured::Capacitance(..) => "capacitance".to_owned(),
        Measured::Current(conductor) => format!("current {conductor:?}"),
        other => format!("{other:?}"),
    }
}
