//! Whether the plant is still moving: each watched value against its own slow average.

use plant::Readout;

/// Time constant of the slow average, s. A value that drifts at a steady rate stands off its average by
/// rate times this, so the tolerances below are drifts per two minutes (engineering values).
const AVERAGE_S: f64 = 120.0;

/// Slow averages of the values that decide whether a reading means anything.
#[derive(Clone, Debug)]
pub(crate) struct Trend {
    averages: [f64; WATCHED],
    share_per_tick: f64,
}

const WATCHED: usize = 5;

/// Suction and liquid pressure, Pa; suction line, liquid line and supply air, K.
const TOLERANCES: [f64; WATCHED] = [12.0e3, 20.0e3, 0.8, 0.6, 0.4];

fn watched(truth: &Readout) -> [f64; WATCHED] {
    [
        truth.suction_pressure_pa,
        truth.liquid_pressure_pa,
        truth.suction_line_outdoor_k,
        truth.liquid_before_drier_k,
        truth.supply_dry_bulb_k,
    ]
}

/// Whether the compressor turns.
pub(crate) fn compressor_runs(truth: &Readout) -> bool {
    truth.compressor_speed > 0.5
}

impl Trend {
    pub(crate) fn new(truth: &Readout, tick_s: f64) -> Trend {
        Trend { averages: watched(truth), share_per_tick: 1.0 - libm::exp(-tick_s / AVERAGE_S) }
    }

    pub(crate) fn tick(&mut self, truth: &Readout) {
        for (average, value) in self.averages.iter_mut().zip(watched(truth)) {
            *average += (value - *average) * self.share_per_tick;
        }
    }

    /// Whether every watched value stands close to its slow average.
    pub(crate) fn is_still(&self, truth: &Readout) -> bool {
        self.averages
            .iter()
            .zip(watched(truth))
            .zip(TOLERANCES)
            .all(|((average, value), tolerance)| (value - average).abs() <= tolerance)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ramp_is_moving_and_a_level_is_still() {
        let mut truth = Readout { suction_pressure_pa: 8.0e5, ..Readout::default() };
        let mut trend = Trend::new(&truth, 1.0);
        assert!(trend.is_still(&truth));
        for _ in 0..300 {
            truth.suction_pressure_pa += 200.0;
            trend.tick(&truth);
        }
        assert!(!trend.is_still(&truth), "12 kPa a minute is moving");
        for _ in 0..600 {
            trend.tick(&truth);
        }
        assert!(trend.is_still(&truth));
    }
}
