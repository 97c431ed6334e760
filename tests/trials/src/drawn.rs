//! Visits whose truth is drawn from what the engine believes before the first reading.

use call::Call;
use diagnosis::{Cause, Hypothesis, Prior, hypotheses_of};
use plant::StepError;
use visit::Visit;

use crate::calls::{Draw, case};

/// A visit with its truth.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// The visit on arrival.
    pub visit: Visit,
    /// What is wrong: nothing, one cause or two.
    pub truth: Hypothesis,
    /// How much of each; of a leak the share of the charge that was gone at the start.
    pub amounts: Vec<f64>,
    /// What the plant was charged with before anything was wrong, as a share of the plate's charge.
    pub charge_share: f64,
}

impl Drawn {
    /// How much of each cause there is with a charge, kg, in the circuit: a hole goes on losing after the start.
    pub fn amounts_at(&self, circuit_kg: f64) -> Vec<f64> {
        let charged_kg = self.charge_share * self.visit.call().system.plate_charge_kg;
        let of_cause = |(cause, amount): (&Cause, &f64)| match cause.place {
            Some(_) => 1.0 - circuit_kg / charged_kg,
            None => *amount,
        };
        self.truth.causes.iter().zip(&self.amounts).map(of_cause).collect()
    }
}

/// The visit of a number: system, house and weather of [`case`], with a suspect in place of the fault, every kind as likely.
///
/// # Errors
/// If the plant leaves the finite numbers.
pub fn drawn(number: u64) -> Result<Drawn, StepError> {
    let call = case(number).call;
    let mut draw = Draw::new(number ^ 0x5bd1_e995);
    let (truth, amounts) = truth_of(&call, &mut draw);
    let (faults, charge_kg) = truth.plant(&call.system, &amounts, 0.0);
    // A charge that nobody got wrong is right to one in a hundred.
    let charge_share = 1.0 + 0.01 * 3.0_f64.sqrt() * draw.between(-1.0, 1.0);
    let visit = Visit::start_with(&call, number, &faults, charge_share * charge_kg)?;
    Ok(Drawn { visit, truth, amounts, charge_share })
}

/// A suspect and its amounts, by what is believed beforehand.
fn truth_of(call: &Call, draw: &mut Draw) -> (Hypothesis, Vec<f64>) {
    let names = hypotheses_of(call);
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
