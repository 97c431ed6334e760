//! Arriving at a call: the plant runs through its history, and nobody has looked yet.

use std::collections::VecDeque;

use call::{Call, Seeded};
use plant::{Inputs, Plant, StepError};

use crate::cycle::Cycle;
use crate::event::Wrong;
use crate::instruments::InstrumentBag;
use crate::running::Running;
use crate::site::Site;
use crate::tick::{TICK_S, whole_ticks};
use crate::trend::Trend;
use crate::visit::{Pace, Spin, Visit};

/// How the plant of a shadow is stepped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShadowPace {
    /// In long strides where nothing happens.
    Strides,
    /// As the real plant: slow, to hold the other against.
    EveryTick,
}

/// Who makes a visit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Who {
    Learner,
    Member,
}

impl Visit {
    /// Arrives at a call: closes its ranges by the seed and runs the plant's history with the customer's
    /// thermostat.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers during its history.
    pub fn start(call: &Call, seed: u64) -> Result<Visit, StepError> {
        let seeded = call::seed(call, seed);
        Visit::arrive(call, seeded, Pace::EveryTick, Who::Learner)
    }

    /// The same arrival (house, weather, history, instruments) with other faults and another charge in place
    /// of the seeded ones: a rival plant, to hold its readings against those taken.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers during its history.
    pub fn start_with(
        call: &Call,
        seed: u64,
        faults: &[plant::Fault],
        charge_kg: f64,
    ) -> Result<Visit, StepError> {
        Visit::arrive(call, with(call, seed, faults, charge_kg), Pace::EveryTick, Who::Learner)
    }

    /// The arrival of a shadow: what would be met if these faults and this charge were in place, in house and weather as
    /// the call's file tells them and not as a seed drew them. Its instruments show what they have settled to, without
    /// error and without steps of the display, and its plant goes in long strides where nothing happens. Its entries are predictions,
    /// not readings; their uncertainty is by how much the value has swung lately. A search on it finds what would be found
    /// if there were a leak: whether there is one is for who asks to say.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers during its history.
    pub fn start_shadow(
        call: &Call,
        shares: call::SurroundingShares,
        faults: &[plant::Fault],
        charge_kg: f64,
        pace: ShadowPace,
    ) -> Result<Visit, StepError> {
        let (room, weather) = call::surroundings_at(call, shares);
        let seeded = Seeded { seed: 0, room, weather, charge_kg, faults: faults.to_vec() };
        let pace = match pace {
            ShadowPace::Strides => Pace::strides(),
            ShadowPace::EveryTick => Pace::EveryTick,
        };
        Visit::arrive(call, seeded, pace, Who::Member)
    }

    fn arrive(call: &Call, seeded: Seeded, mut pace: Pace, who: Who) -> Result<Visit, StepError> {
        let mut plant = Plant::new(
            &call.system,
            seeded.room.clone(),
            seeded.weather.clone(),
            seeded.charge_kg,
            &seeded.faults,
        );
        let inputs = Inputs { thermostat: call.thermostat.clone(), ..Inputs::default() };
        let mut running = Running::default();
        let mut cycle = (who == Who::Member).then(Cycle::default);
        let mut left = libm::round(call.history_s / TICK_S) as u64;
        while left > 0 {
            let ticks = match &mut pace {
                Pace::EveryTick => {
                    plant::step(&mut plant, &inputs, TICK_S)?;
                    1
                }
                Pace::Strides { strides, .. } => {
                    whole_ticks(strides.go(&mut plant, &inputs, left as f64 * TICK_S)?)
                }
            };
            running.follow(&plant, ticks as f64 * TICK_S);
            left -= ticks;
            if let Some(cycle) = &mut cycle {
                cycle.follow(&running, &plant);
            }
        }
        let time_s = plant.time_s();
        let wrong = seeded.faults.iter().map(|fault| Wrong { fault: fault.clone(), until_s: None }).collect();
        let seed = seeded.seed;
        let kit = match who {
            Who::Learner => InstrumentBag::new(seed, &seeded.weather),
            Who::Member => InstrumentBag::without_error(&seeded.weather),
        };
        Ok(Visit {
            spin_before: Spin::of(plant.readout()),
            trend: Trend::new(plant.readout()),
            kit,
            running,
            pace,
            cycle,
            site: Site::on_arrival(inputs.thermostat.clone()),
            plant,
            inputs,
            notebook: Vec::new(),
            milestones: Vec::new(),
            hazards: Vec::new(),
            timed: Vec::new(),
            wrong,
            paused: false,
            task: None,
            queue: VecDeque::new(),
            credit_s: 0.0,
            arrival_s: time_s,
            call: call.clone(),
            seeded,
            seed,
        })
    }
}

/// A seeded call with other faults and another charge.
fn with(call: &Call, seed: u64, faults: &[plant::Fault], charge_kg: f64) -> Seeded {
    Seeded { faults: faults.to_vec(), charge_kg, ..call::seed(call, seed) }
}
