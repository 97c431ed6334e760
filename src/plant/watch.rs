//! Tells when the plant has settled.

use serde::{Deserialize, Serialize};

use crate::readout::Readout;

/// How many quantities must stand still, and how many say how far the air around has moved meanwhile.
const COUNT: usize = 11;
const AIRS: usize = 3;
/// Means that must agree: six whole minutes, so five from the oldest to the newest.
const MINUTES: usize = 6;
/// Seconds of a minute, one sample each.
const MINUTE_S: f64 = 60.0;

/// One watched quantity, by the readout and the refrigerant in the circuit, kg: how far its mean over a minute may lie from the one before. From the oldest mean of the window to
/// the newest it may go half as far: what hunts goes to and fro by a band, what drifts adds up.
#[derive(Clone, Copy)]
struct Watched {
    sample: fn(&Readout, f64) -> f64,
    band: Band,
    /// How far it follows air that gets warmer or damper, in the unit of the band for each K. A house cools while the machine
    /// runs; readings that go with it have settled as far as they ever do.
    follows_per_k: f64,
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

const fn watched(sample: fn(&Readout, f64) -> f64, band: Band, follows_per_k: f64) -> Watched {
    Watched { sample, band, follows_per_k }
}

/// Everything that must stand still. Pressures and temperatures by the resolution of gauges and clamps (typ.: 1 % and half a
/// kelvin; a discharge line, far from everything else and read to 1 K, twice that). With the air a pressure goes by 3 % for
/// each kelvin (slope of saturation at the coil), a temperature by one and a half (the superheat of an orifice by the rule of
/// target superheat, the most of all). What is stored must stand still too, however little the readings feel of it yet
/// (typ.): 2 g of ice in five minutes would be 24 g in an hour, half a thousandth of the charge 0.6 %. Whatever else comes
/// to be stored belongs here as one more row.
const WATCHED: [Watched; COUNT] = [
    watched(|r, _| r.suction_pressure_pa, Band::Share(0.01), 0.03),
    watched(|r, _| r.liquid_pressure_pa, Band::Share(0.01), 0.03),
    watched(|r, _| r.suction_line_outdoor_k, Band::Width(0.5), 1.5),
    watched(|r, _| r.liquid_service_valve_k, Band::Width(0.5), 1.5),
    watched(|r, _| r.supply_dry_bulb_k, Band::Width(0.3), 1.5),
    watched(|r, _| r.superheat_k, Band::Width(0.5), 1.5),
    watched(|r, _| r.discharge_k, Band::Width(1.0), 1.5),
    watched(|r, _| r.frost_mass_kg, Band::Width(4.0e-3), 0.0),
    watched(|r, _| r.iced_share, Band::Width(0.01), 0.0),
    watched(|r, _| r.coil_water_kg, Band::Width(0.02), 0.05),
    watched(|_, circuit_kg| circuit_kg, Band::ShareOfCharge(1.0e-3), 0.0),
];

/// The air around: temperatures that readings follow.
const AIR: [fn(&Readout) -> f64; AIRS] = [|r| r.return_dry_bulb_k, |r| r.return_wet_bulb_k, |r| r.outdoor_k];

/// What one mean holds: everything of [`WATCHED`], then of [`AIR`].
type Values = [f64; COUNT + AIRS];

/// Means over the last whole minutes of a run, which tell when the plant has settled. Means, because a valve that meets
/// flash gas hunts around a steady state.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct SteadyWatch {
    /// Sums of the running minute, and over how many seconds.
    sums: Values,
    seconds: f64,
    /// Means of the last whole minutes, the oldest first, and how many of them this run has filled (the last ones).
    means: [Values; MINUTES],
    filled: u32,
    /// Whether they agree.
    agree: bool,
}

impl SteadyWatch {
    /// Whether the readings have stood still, see [`Plant::is_steady`](crate::Plant::is_steady).
    pub(crate) fn agrees(&self) -> bool {
        self.agree
    }

    /// A run has ended: the next one begins anew.
    pub(crate) fn rest(&mut self) {
        if self.seconds > 0.0 || self.filled > 0 {
            *self = SteadyWatch::default();
        }
    }

    /// Samples a readout, a second old at most, for so many seconds of a run, and closes a mean each minute.
    pub(crate) fn sample(&mut self, readout: &Readout, circuit_kg: f64, charge_kg: f64, seconds: f64) {
        let mut sample = [0.0; COUNT + AIRS];
        for (value, watched) in sample.iter_mut().zip(WATCHED) {
            *value = (watched.sample)(readout, circuit_kg);
        }
        for (value, air) in sample[COUNT..].iter_mut().zip(AIR) {
            *value = air(readout);
        }
        self.add(&sample, seconds, charge_kg);
    }

    fn add(&mut self, sample: &Values, seconds: f64, charge_kg: f64) {
        for (sum, value) in self.sums.iter_mut().zip(sample) {
            *sum += value * seconds;
        }
        self.seconds += seconds;
        if self.seconds < MINUTE_S {
            return;
        }
        self.means.rotate_left(1);
        self.means[MINUTES - 1] = self.sums.map(|sum| sum / self.seconds);
        (self.sums, self.seconds) = ([0.0; COUNT + AIRS], 0.0);
        self.filled = (self.filled + 1).min(MINUTES as u32);
        self.agree = self.filled == MINUTES as u32 && self.means_agree(charge_kg);
    }

    fn means_agree(&self, charge_kg: f64) -> bool {
        let change = |at: usize, from: usize, to: usize| (self.means[to][at] - self.means[from][at]).abs();
        let air_moved_k: f64 = (COUNT..COUNT + AIRS).map(|at| change(at, 0, MINUTES - 1)).sum();
        WATCHED.iter().enumerate().all(|(at, watched)| {
            let (band, unit) = match watched.band {
                Band::Share(share) => (share, self.means[MINUTES - 1][at].abs()),
                Band::Width(width) => (width, 1.0),
                Band::ShareOfCharge(share) => (share, charge_kg),
            };
            (1..MINUTES).all(|to| change(at, to - 1, to) <= band * unit)
                && change(at, 0, MINUTES - 1) <= (0.5 * band + watched.follows_per_k * air_moved_k) * unit
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Minutes of samples that all stand at 1 but for one, which follows `course` by the minute, and for the room's air,
    /// which cools by `cools_k` each minute.
    fn is_steady(at: usize, course: impl Fn(f64) -> f64, cools_k: f64) -> bool {
        let mut watch = SteadyWatch::default();
        for second in 0..60 * MINUTES {
            let minute = (second / 60) as f64;
            let mut sample = [1.0; COUNT + AIRS];
            sample[at] = course(minute);
            sample[COUNT] -= cools_k * minute;
            watch.add(&sample, 1.0, 1.0);
        }
        watch.agree
    }

    /// Each row of its own: standing still and swinging by less than a band is steady; a drift whose every minute lies within
    /// the band, but whose sum does not, is not; nor is one jump.
    #[test]
    fn drift_is_told_from_hunting_in_every_quantity() {
        for (at, row) in WATCHED.iter().enumerate() {
            let (Band::Share(band) | Band::Width(band) | Band::ShareOfCharge(band)) = row.band;
            assert!(is_steady(at, |_| 1.0, 0.0), "row {at} at rest");
            assert!(is_steady(at, |minute| 1.0 + 0.2 * band * (minute % 2.0), 0.0), "row {at} hunting");
            assert!(!is_steady(at, |minute| 1.0 + 0.2 * band * minute, 0.0), "row {at} drifting");
            assert!(!is_steady(at, |minute| 1.0 + 2.0 * band * f64::from(minute > 2.0), 0.0), "row {at}");
        }
    }

    /// Readings may follow the air of a house that cools; ice and charge do not.
    #[test]
    fn readings_follow_the_air_and_what_is_stored_does_not() {
        for (at, row) in WATCHED.iter().enumerate() {
            let (Band::Share(band) | Band::Width(band) | Band::ShareOfCharge(band)) = row.band;
            let drifts = |minute: f64| 1.0 - 0.2 * band * minute;
            let cools_k = 0.12;
            assert_eq!(is_steady(at, drifts, cools_k), row.follows_per_k > 0.0, "row {at}");
        }
    }
}
