//! Whether what is measured still moves: each value against its own slow average.

use plant::Readout;

use crate::measured::Measured;
use crate::place::{AirPoint, Bulb, PipePoint, Port};

/// Time constant of the slow average, s. A value that drifts at a steady rate stands off its average by
/// rate times this, so the tolerances in the rows of the quantities are drifts per two minutes (engineering values).
const AVERAGE_S: f64 = 120.0;
/// What a running compressor moves: the quantities whose rows say how far they may stand off.
pub(crate) const WATCHED: [Measured; 12] = [
    Measured::GaugePressure(Port::Suction),
    Measured::GaugePressure(Port::Liquid),
    Measured::PipeTemperature(PipePoint::SuctionAtServiceValve),
    Measured::PipeTemperature(PipePoint::SuctionAtBulb),
    Measured::PipeTemperature(PipePoint::LiquidAtServiceValve),
    Measured::PipeTemperature(PipePoint::LiquidBeforeDrier),
    Measured::PipeTemperature(PipePoint::LiquidAfterDrier),
    Measured::PipeTemperature(PipePoint::LiquidAtMeteringDevice),
    Measured::PipeTemperature(PipePoint::Discharge),
    Measured::PipeTemperature(PipePoint::SensingBulb),
    Measured::AirTemperature(AirPoint::Supply, Bulb::Dry),
    Measured::AirTemperature(AirPoint::Supply, Bulb::Wet),
];

/// Slow averages of everything that a running compressor moves.
#[derive(Clone, Debug)]
pub(crate) struct Trend {
    averages: [f64; WATCHED.len()],
    /// Mean squares of the distances from the averages.
    squares: [f64; WATCHED.len()],
}

impl Trend {
    pub(crate) fn new(truth: &Readout) -> Trend {
        Trend { averages: WATCHED.map(|quantity| true_value(truth, quantity)), squares: [0.0; WATCHED.len()] }
    }

    /// Follows what is true at the end of a step.
    pub(crate) fn tick(&mut self, truth: &Readout, step_s: f64) {
        let share = 1.0 - libm::exp(-step_s / AVERAGE_S);
        for ((average, square), quantity) in self.averages.iter_mut().zip(&mut self.squares).zip(WATCHED) {
            let off = true_value(truth, quantity) - *average;
            *average += off * share;
            *square += (off * off - *square) * share;
        }
    }

    /// By how much a value has swung around its slow average lately: root of the mean square, 0 for what no
    /// compressor moves.
    pub(crate) fn swing(&self, quantity: Measured) -> f64 {
        let index = WATCHED.iter().position(|watched| *watched == quantity);
        index.map_or(0.0, |index| libm::sqrt(self.squares[index]))
    }

    /// Whether a value stands close to its slow average; what no compressor moves is always still.
    pub(crate) fn is_still(&self, truth: &Readout, quantity: Measured) -> bool {
        let Some(index) = WATCHED.iter().position(|watched| *watched == quantity) else { return true };
        (true_value(truth, quantity) - self.averages[index]).abs()
            <= quantity.row().still_within.unwrap_or(f64::INFINITY)
    }
}

pub(crate) fn true_value(truth: &Readout, quantity: Measured) -> f64 {
    // The dew point matters for outdoor air alone, which is not watched.
    quantity.truth(truth, truth.outdoor_k).unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::StaticTap;

    #[test]
    fn a_ramp_is_moving_and_a_level_is_still() {
        let suction = Measured::GaugePressure(Port::Suction);
        let liquid = Measured::GaugePressure(Port::Liquid);
        let mut truth = Readout { suction_pressure_pa: 8.0e5, ..Readout::default() };
        let mut trend = Trend::new(&truth);
        assert!(trend.is_still(&truth, suction));
        for _ in 0..300 {
            truth.suction_pressure_pa += 200.0;
            trend.tick(&truth, 1.0);
        }
        assert!(!trend.is_still(&truth, suction), "12 kPa a minute is moving");
        assert!(trend.is_still(&truth, liquid));
        for _ in 0..600 {
            trend.tick(&truth, 1.0);
        }
        assert!(trend.is_still(&truth, suction));
    }

    #[test]
    fn what_has_a_tolerance_is_watched() {
        let pipes = PipePoint::ALL.into_iter().map(Measured::PipeTemperature);
        let airs = [AirPoint::Return, AirPoint::Supply, AirPoint::Outdoor]
            .into_iter()
            .flat_map(|point| [Bulb::Dry, Bulb::Wet].map(|bulb| Measured::AirTemperature(point, bulb)));
        let gauges = [Port::Suction, Port::Liquid].into_iter().map(Measured::GaugePressure);
        let (terminal, conductor) = (plant::Terminal::R, plant::Conductor::BlowerLine);
        let others = [
            Measured::Voltage(terminal, terminal),
            Measured::Resistance(terminal, terminal),
            Measured::Capacitance(terminal, terminal),
            Measured::Current(conductor),
            Measured::RecoveredMass,
            Measured::Vacuum,
            Measured::AddedMass,
            Measured::StaticPressure(StaticTap::Room, StaticTap::Return),
        ];
        for quantity in gauges.chain(pipes).chain(airs).chain(others) {
            assert_eq!(quantity.row().still_within.is_some(), WATCHED.contains(&quantity), "{quantity:?}");
        }
    }
}
