//! Tells when the plant has settled.

use serde::{Deserialize, Serialize};

use crate::readout::Readout;
use crate::state::Plant;

/// How many quantities are watched.
const COUNT: usize = 11;
/// Means that must agree: six whole minutes, so five from the oldest to the newest.
const MINUTES: usize = 6;
/// Samples of a minute.
const SAMPLES: u32 = 60;

/// One watched quantity: how far its mean over a minute may lie from the one before. From the oldest mean of the window to
/// the newest it may go half as far: what hunts goes to and fro by a band, what drifts adds up.
#[derive(Clone, Copy)]
struct Watched {
    sample: fn(&Plant, &Readout) -> f64,
    band: Band,
}

/// How far a mean may move in a minute.
#[derive(Clone, Copy)]
enum Band {
    /// A share of the value.
    Share(f64),
    /// In the unit of the value.
    Width(f64),
    /// A share of the charge of the data plate.
    ShareOfCharge(f64),
}

/// Everything that must stand still. Pressures and temperatures by the resolution of gauges and clamps (typ.: 1 % and half a
/// kelvin; a discharge line, far from everything else and read to 1 K, twice that). What is stored must stand still
/// too, however little the readings feel of it yet (typ.): 2 g of ice in five minutes would be 24 g in an hour, half a
/// thousandth of the charge 0.6 %. Whatever else comes to be stored belongs here as one more row.
const WATCHED: [Watched; COUNT] = [
    Watched { sample: |_, r| r.suction_pressure_pa, band: Band::Share(0.01) },
    Watched { sample: |_, r| r.liquid_pressure_pa, band: Band::Share(0.01) },
    Watched { sample: |_, r| r.suction_line_outdoor_k, band: Band::Width(0.5) },
    Watched { sample: |_, r| r.liquid_service_valve_k, band: Band::Width(0.5) },
    Watched { sample: |_, r| r.supply_dry_bulb_k, band: Band::Width(0.3) },
    Watched { sample: |_, r| r.superheat_k, band: Band::Width(0.5) },
    Watched { sample: |_, r| r.discharge_k, band: Band::Width(1.0) },
    Watched { sample: |_, r| r.frost_mass_kg, band: Band::Width(4.0e-3) },
    Watched { sample: |_, r| r.iced_share, band: Band::Width(0.01) },
    Watched { sample: |_, r| r.coil_water_kg, band: Band::Width(0.02) },
    Watched { sample: |plant, _| plant.circuit_kg(), band: Band::ShareOfCharge(1.0e-3) },
];

/// Means over the last whole minutes of a run, which tell when the plant has settled. Means, because a valve that meets
/// flash gas hunts around a steady state.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct SteadyWatch {
    /// Sums of the running minute, as in [`WATCHED`], and of how many samples.
    sums: [f64; COUNT],
    samples: u32,
    /// Means of the last whole minutes, the oldest first, and how many of them this run has filled (the last ones).
    means: [[f64; COUNT]; MINUTES],
    filled: u32,
    /// Whether they agree.
    agree: bool,
}

impl Plant {
    /// Whether the readings have stood still over the last minutes of a run. The means of six minutes in a row agree: each with
    /// the one before within 1 % of pressure, 0.5 K of line and superheat, 1 K of discharge and 0.3 K of supply
    /// temperature, the newest with the oldest within half of that; and ice, the part of the coil that it covers, and the
    /// refrigerant in the circuit neither grow nor shrink. A coil that goes on icing and a circuit that leaks are
    /// not steady, however slowly the gauges follow.
    pub fn is_steady(&self) -> bool {
        self.compressor_runs() && self.watch.agree
    }
}

/// Samples the readout, a second old at most, and closes a mean each minute.
pub(crate) fn watch_step(plant: &mut Plant) {
    if !plant.compressor_runs() {
        plant.watch = SteadyWatch::default();
        return;
    }
    let sample = WATCHED.map(|watched| (watched.sample)(plant, &plant.readout));
    let charge_kg = plant.system.plate_charge_kg;
    plant.watch.add(&sample, charge_kg);
}

impl SteadyWatch {
    fn add(&mut self, sample: &[f64; COUNT], charge_kg: f64) {
        for (sum, value) in self.sums.iter_mut().zip(sample) {
            *sum += value;
        }
        self.samples += 1;
        if self.samples < SAMPLES {
            return;
        }
        self.means.rotate_left(1);
        self.means[MINUTES - 1] = self.sums.map(|sum| sum / f64::from(SAMPLES));
        (self.sums, self.samples) = ([0.0; COUNT], 0);
        self.filled = (self.filled + 1).min(MINUTES as u32);
        self.agree = self.filled == MINUTES as u32
            && WATCHED.iter().enumerate().all(|(at, watched)| {
                let mean = |minute: usize| self.means[minute][at];
                let band = match watched.band {
                    Band::Share(share) => share * mean(MINUTES - 1).abs(),
                    Band::Width(width) => width,
                    Band::ShareOfCharge(share) => share * charge_kg,
                };
                (1..MINUTES).all(|minute| (mean(minute) - mean(minute - 1)).abs() <= band)
                    && (mean(MINUTES - 1) - mean(0)).abs() <= 0.5 * band
            });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Minutes of samples that all stand at 1 but for one, which follows `course` by the minute.
    fn watched(at: usize, course: impl Fn(f64) -> f64) -> bool {
        let mut watch = SteadyWatch::default();
        for second in 0..60 * MINUTES {
            let mut sample = [1.0; COUNT];
            sample[at] = course((second / 60) as f64);
            watch.add(&sample, 1.0);
        }
        watch.agree
    }

    /// Each row of its own: standing still and swinging by less than a band is steady; a drift whose every minute lies within
    /// the band, but whose sum does not, is not; nor is one jump.
    #[test]
    fn drift_is_told_from_hunting_in_every_quantity() {
        for (at, row) in WATCHED.iter().enumerate() {
            let (Band::Share(band) | Band::Width(band) | Band::ShareOfCharge(band)) = row.band;
            assert!(watched(at, |_| 1.0), "row {at} at rest");
            assert!(watched(at, |minute| 1.0 + 0.2 * band * (minute % 2.0)), "row {at} hunting");
            assert!(!watched(at, |minute| 1.0 + 0.2 * band * minute), "row {at} drifting");
            assert!(!watched(at, |minute| if minute < 3.0 { 1.0 } else { 1.0 + 2.0 * band }), "row {at}");
        }
    }
}
