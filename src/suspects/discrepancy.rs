//! What a shadow at the true severity is off by, measured: `cargo run --release -p trials --bin residuals`.
//!
//! A shadow takes longer steps than the real plant, and small things that it cannot know differ. How much that makes was
//! measured on development calls (numbers from 10,000 on), by quantity and by how far the reading could be relied on.

use visit::{AirPoint, Measured, PipePoint, Trust};

/// One standard deviation, in the quantity's SI unit: what stays all visit long, and what is off at the moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Discrepancy {
    /// What stays.
    pub standing: f64,
    /// What passes.
    pub passing: f64,
}

/// Discrepancy of a quantity at a value, for a reading that could be relied on so far.
pub(crate) fn discrepancy(quantity: Measured, value: f64, trust: Trust) -> Discrepancy {
    let of_trust = |sound: f64, stopped: f64, unsettled: f64, iced: f64| match trust {
        Trust::Sound => sound,
        Trust::CompressorStopped => stopped,
        Trust::Unsettled => unsettled,
        Trust::IceOnCoil => iced,
    };
    let (standing, passing) = match quantity {
        Measured::GaugePressure(_) => (1.5e3, of_trust(0.0, 6.0e3, 20.0e3, 45.0e3)),
        Measured::PipeTemperature(PipePoint::Discharge) => (0.2, of_trust(0.0, 0.8, 3.0, 7.0)),
        Measured::PipeTemperature(PipePoint::SuctionAtServiceValve | PipePoint::SuctionAtBulb) => {
            (0.1, of_trust(0.0, 0.3, 1.5, 3.0))
        }
        Measured::PipeTemperature(_) => (0.05, of_trust(0.0, 0.2, 1.5, 0.6)),
        Measured::AirTemperature(AirPoint::Supply, _) => (0.05, of_trust(0.0, 0.15, 0.8, 0.5)),
        Measured::AirTemperature(AirPoint::Return, _) => (0.05, of_trust(0.0, 0.0, 0.1, 0.2)),
        Measured::AirTemperature(..) => (0.05, 0.0),
        Measured::Voltage(..) => (0.02 + 0.0005 * value.abs(), 0.0),
        Measured::Resistance(from, _) if from.is_of_a_winding() => (0.02, 0.005 * value.abs()),
        Measured::Resistance(..) => (0.02 + 0.001 * value.abs(), 0.0),
        Measured::Current(_) => (0.002 * value.abs(), of_trust(0.0, 0.0, 0.03, 0.08) * value.abs()),
        Measured::Capacitance(..) => (1.0e-8 + 0.0005 * value.abs(), 0.0),
        Measured::RecoveredMass | Measured::AddedMass => (0.02 + 0.01 * value.abs(), 0.0),
        Measured::Vacuum => (20.0 + 0.2 * value.abs(), 0.0),
    };
    Discrepancy { standing, passing }
}
