//! One case from start to end.

use plant::{Event, Inputs, Mode, ThermostatSettings, step};

use super::bounds::{BOUNDS, Hums, Look, Reading, When};
use super::case::Case;

/// After a start nothing is looked at for so long, s.
const STARTS_FOR_S: f64 = 180.0;
/// Step, s: that of the program.
const STEP_S: f64 = plant::BASE_STEP_S;
/// Steps between two looks at a rotor that may be locked: 5 s.
const HUM_EVERY: u32 = 20;

/// A bound that was passed for longer than a protection takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Breach {
    /// Which of [`BOUNDS`].
    pub bound: usize,
    /// When it was first passed for too long, s of plant time.
    pub first_s: f64,
    /// The worst reading from then on, and by how much it passes the bound.
    pub worst: Reading,
    /// In the unit of the reading.
    pub by: f64,
}

/// Lives through a case that is called for all the time, with a look every minute.
///
/// # Panics
/// When the plant leaves the finite numbers, which no fault may make it do.
#[must_use]
pub fn live(case: &Case, hours: f64) -> Vec<Breach> {
    let mut plant = case.plant();
    let system = plant.system().clone();
    let inputs = Inputs {
        thermostat: ThermostatSettings {
            mode: Mode::Cool,
            set_point_k: 250.0,
            ..Inputs::default().thermostat
        },
        ..Inputs::default()
    };
    let mut in_a_row = [0_u32; BOUNDS.len()];
    let mut breaches: Vec<Breach> = Vec::new();
    for _ in 0..(hours * 60.0) as u32 {
        let mut starts = 0;
        // A locked rotor that its overload lets go and takes back within the minute hums at some looks and not at others.
        let mut hums = Hums::Yes;
        for at in 0..(60.0 / STEP_S) as u32 {
            if at % HUM_EVERY == 0 {
                hums = if hums == Hums::Yes { Hums::of(&plant) } else { Hums::No };
            }
            match step(&mut plant, &inputs, STEP_S) {
                Ok(events) => {
                    starts +=
                        events.iter().map(|event| u32::from(event == Event::CompressorStarted)).sum::<u32>();
                }
                Err(error) => panic!("{case}: {error}"),
            }
        }
        let runs = plant.compressor_on_for_s() > STARTS_FOR_S;
        let look = Look::of(case, &system, &plant, &inputs, starts, hums);
        for (at, bound) in BOUNDS.iter().enumerate() {
            let looked_at = runs || bound.when == When::Always;
            let Some((by, reading)) = looked_at.then(|| (bound.passed)(&look)).flatten() else {
                in_a_row[at] = 0;
                continue;
            };
            in_a_row[at] += 1;
            if in_a_row[at] <= bound.allowed_minutes {
                continue;
            }
            match breaches.iter_mut().find(|breach| breach.bound == at) {
                Some(breach) if by > breach.by => (breach.worst, breach.by) = (reading, by),
                Some(_) => {}
                None => breaches.push(Breach { bound: at, first_s: plant.time_s(), worst: reading, by }),
            }
        }
    }
    breaches
}
