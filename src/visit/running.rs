//! What runs, and for how long.

use plant::{Plant, Readout};
use serde::{Deserialize, Serialize};

/// A plant that has run for less than this is still starting up, s (engineering value; a charge check waits 15
/// minutes by California Title 24 RA3.2, 2008).
pub const START_UP_S: f64 = 300.0;

/// Whether the blower wheel turns.
pub(crate) fn blower_turns(truth: &Readout) -> bool {
    truth.blower_speed > 0.2
}

/// Whether the compressor turns.
pub(crate) fn compressor_runs(truth: &Readout) -> bool {
    truth.compressor_speed > 0.5
}

/// What ran at a time, and for how long it had been so.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Running {
    /// Whether the compressor ran.
    pub compressor: bool,
    /// Time since it had started or stopped, s.
    pub compressor_for_s: f64,
    /// Whether the blower turned.
    pub blower: bool,
    /// Time since it had started or stopped, s.
    pub blower_for_s: f64,
    /// Whether the thermostat called for cooling.
    pub called: bool,
    /// Time since it had begun or ceased to, s.
    pub called_for_s: f64,
}

impl Running {
    /// What runs a step later.
    pub(crate) fn follow(&mut self, plant: &Plant, step_s: f64) {
        let follow = |was: &mut bool, for_s: &mut f64, is: bool| {
            *for_s = if is == *was { *for_s + step_s } else { 0.0 };
            *was = is;
        };
        follow(&mut self.compressor, &mut self.compressor_for_s, compressor_runs(plant.readout()));
        follow(&mut self.blower, &mut self.blower_for_s, blower_turns(plant.readout()));
        follow(&mut self.called, &mut self.called_for_s, plant.thermostat_calls());
    }
}
