//! What the plant did over a visit, for the plots of the review. Never shown while the visit is open.

use visit::{Onlooker, Visit};

/// Samples of true values over a visit.
#[derive(Clone, Debug, Default)]
pub struct Trace {
    samples: Vec<Sample>,
    interval_s: f64,
}

/// True values at one instant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// Time since arrival, s.
    pub since_arrival_s: f64,
    /// Suction pressure, Pa gauge.
    pub suction_gauge_pa: f64,
    /// Liquid pressure, Pa gauge.
    pub liquid_gauge_pa: f64,
    /// Mean coil surface, K.
    pub coil_surface_k: f64,
    /// Supply air, K.
    pub supply_k: f64,
    /// Room air, K.
    pub room_k: f64,
    /// Ice on the coil, kg.
    pub frost_mass_kg: f64,
}

/// Time between samples at first, s.
const FIRST_INTERVAL_S: f64 = 10.0;
/// Most samples kept; then every second one goes and the interval doubles.
const MOST_SAMPLES: usize = 4000;

impl Trace {
    /// Takes a sample if one is due.
    pub fn sample(&mut self, visit: &Visit) {
        let truth = visit.truth();
        let atmosphere_pa = media::units::STANDARD_ATMOSPHERE_PA;
        self.push(Sample {
            since_arrival_s: visit.time_s() - visit.arrival_s(),
            suction_gauge_pa: truth.suction_pressure_pa - atmosphere_pa,
            liquid_gauge_pa: truth.liquid_pressure_pa - atmosphere_pa,
            coil_surface_k: truth.coil_surface_k,
            supply_k: truth.supply_dry_bulb_k,
            room_k: truth.room_k,
            frost_mass_kg: truth.frost_mass_kg,
        });
    }

    fn push(&mut self, sample: Sample) {
        self.interval_s = self.interval_s.max(FIRST_INTERVAL_S);
        let is_due = self
            .samples
            .last()
            .is_none_or(|last| sample.since_arrival_s - last.since_arrival_s >= self.interval_s - 1.0e-6);
        if !is_due {
            return;
        }
        self.samples.push(sample);
        if self.samples.len() > MOST_SAMPLES {
            let mut index = 0;
            self.samples.retain(|_| {
                index += 1;
                index % 2 == 1
            });
            self.interval_s *= 2.0;
        }
    }

    /// The samples, oldest first.
    pub fn samples(&self) -> &[Sample] {
        &self.samples
    }
}

impl Onlooker for Trace {
    fn arrives(&mut self, visit: &Visit, _until_s: f64) {
        *self = Trace::default();
        self.sample(visit);
    }

    fn interval_s(&self) -> f64 {
        FIRST_INTERVAL_S
    }

    fn looks(&mut self, visit: &Visit) {
        self.sample(visit);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(since_arrival_s: f64) -> Sample {
        Sample {
            since_arrival_s,
            suction_gauge_pa: 0.0,
            liquid_gauge_pa: 0.0,
            coil_surface_k: 0.0,
            supply_k: 0.0,
            room_k: 0.0,
            frost_mass_kg: 0.0,
        }
    }

    #[test]
    fn a_week_stays_small_and_in_order() {
        let mut trace = Trace::default();
        for step in 0..120_960 {
            trace.push(at(step as f64 * 5.0));
        }
        let samples = trace.samples();
        assert!(samples.len() <= MOST_SAMPLES && samples.len() > MOST_SAMPLES / 4);
        assert!(samples.windows(2).all(|pair| pair[0].since_arrival_s < pair[1].since_arrival_s));
        assert_eq!(samples[0].since_arrival_s, 0.0);
    }

    #[test]
    fn samples_are_ten_seconds_apart_at_first() {
        let mut trace = Trace::default();
        for step in 0..100 {
            trace.push(at(step as f64));
        }
        assert_eq!(trace.samples().len(), 10);
    }
}
