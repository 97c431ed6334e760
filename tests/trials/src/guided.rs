//! A technician that follows the next best test.

use plant::{StepError, Switch};
use suspects::{Suspects, When};
use visit::{Move, Panel, Place, Visit};

use crate::routine::{Go, is_iced, make, thaw_and_start};

/// Expected gain below which nothing is worth doing, bit.
const WORTH_DOING_BITS: f64 = 0.02;
/// Most tests of one visit.
const MOST_TESTS: usize = 60;
/// Probability from which the likeliest suspect is declared.
pub const SURE: f64 = 0.95;

/// Works a visit by the next best test until one suspect is sure, nothing tells more, or `limit_min` is over.
/// Returns the suspects at the end.
///
/// # Errors
/// If a plant leaves the finite numbers.
pub fn guided(visit: &mut Visit, mut suspects: Suspects, limit_min: f64) -> Result<Suspects, StepError> {
    let mut ran_up = false;
    for _ in 0..MOST_TESTS {
        if is_sure(&suspects) || visit.clock_minutes() > limit_min {
            break;
        }
        let Some(tests) = suspects.best_tests(visit, &|_| true)? else { break };
        // Once the plant has been run up, what only a running plant would show shows now or never.
        let best = tests
            .into_iter()
            .filter(|test| test.gain_bits > WORTH_DOING_BITS)
            .find(|test| !(ran_up && test.when == When::RunningClear));
        let Some(best) = best else { break };
        let mut follow = |visit: &Visit| {
            if let Some(entry) = visit.notebook().last() {
                suspects.follow(entry, &|_| true)?;
            }
            Ok(Go::On)
        };
        if best.when == When::RunningClear {
            if !visit.site().is_open(Panel::CoilCabinet) {
                make(visit, &Move::OpenPanel(Panel::CoilCabinet), &mut follow)?;
            }
            make(visit, &Move::Look(Place::IndoorCoil), &mut follow)?;
            thaw_and_start(visit, &mut follow)?;
            ran_up = !is_iced(visit);
            continue;
        }
        for action in best.first.iter().chain([&best.action]) {
            make(visit, action, &mut follow)?;
        }
        // Power that was cut for an ohmmeter comes back, or nothing runs for the next test.
        if best.first.contains(&Move::OutdoorDisconnect(Switch::Open)) {
            make(visit, &Move::OutdoorDisconnect(Switch::Closed), &mut follow)?;
        }
        if best.first.contains(&Move::IndoorServiceSwitch(Switch::Open)) {
            make(visit, &Move::IndoorServiceSwitch(Switch::Closed), &mut follow)?;
        }
    }
    Ok(suspects)
}

/// Whether one kind of fault stands out.
pub fn is_sure(suspects: &Suspects) -> bool {
    suspects.standing().first().is_some_and(|first| first.probability >= SURE)
}
