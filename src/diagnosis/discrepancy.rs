//! What a shadow at the true severity is off by, measured.
//!
//! A shadow takes longer steps than the real plant. How much that makes of a settled plant was measured on development calls
//! (numbers from 10,000 on), quantity by quantity and without the errors of instruments: `cargo run --release -p trials --bin
//! residuals -- --drawn --strides`. What passes is more than that: by how much a plant that has just started, stands or carries ice lies
//! elsewhere in other surroundings (without `--strides`).

use plant::Conductor;
use visit::{AirPoint, Measured, PipePoint, Trust};

/// One standard deviation, in the quantity's SI unit: what stays all visit long, and what is off at the moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Discrepancy {
    /// What stays.
    pub standing: f64,
    /// What passes.
    pub passing: f64,
}

/// Voltages below this are those of the control circuit, V.
const CONTROL_BELOW_V: f64 = 60.0;

/// Discrepancy of a quantity at a value, for a reading that could be relied on so far.
pub(crate) fn discrepancy(quantity: Measured, value: f64, trust: Trust) -> Discrepancy {
    let of_trust = |sound: f64, stopped: f64, unsettled: f64, iced: f64| match trust {
        Trust::Sound => sound,
        Trust::CompressorStopped => stopped,
        Trust::Unsettled => unsettled,
        Trust::IceOnCoil => iced,
    };
    let (standing, passing) = match quantity {
        Measured::GaugePressure(_) => (200.0, of_trust(0.0, 6.0e3, 20.0e3, 45.0e3)),
        Measured::PipeTemperature(PipePoint::Discharge) => (0.02, of_trust(0.0, 0.8, 3.0, 7.0)),
        Measured::PipeTemperature(PipePoint::SuctionAtServiceValve | PipePoint::SuctionAtBulb) => {
            (0.02, of_trust(0.0, 0.3, 1.5, 3.0))
        }
        Measured::PipeTemperature(_) => (0.01, of_trust(0.0, 0.2, 1.5, 0.6)),
        Measured::AirTemperature(AirPoint::Supply, _) => (0.01, of_trust(0.0, 0.15, 0.8, 0.5)),
        Measured::AirTemperature(AirPoint::Return, _) => (0.015, of_trust(0.0, 0.0, 0.1, 0.2)),
        Measured::AirTemperature(..) => (0.002, 0.0),
        // A contactor more or less pulls a control transformer down by as much.
        Measured::Voltage(..) if value.abs() < CONTROL_BELOW_V => (0.01, 0.02),
        Measured::Voltage(..) => (0.01, 0.01),
        Measured::Resistance(from, _) if from.is_of_a_winding() => (0.0, 0.002 * value.abs()),
        Measured::Resistance(..) | Measured::Capacitance(..) => (0.0, 0.0),
        Measured::Current(Conductor::FanCommon) => (2.0e-4 * value.abs(), 0.0),
        Measured::Current(conductor) => {
            let share = if conductor == Conductor::CompressorCommon { 1.5e-3 } else { 2.0e-4 };
            (share * value.abs(), of_trust(0.0, 0.0, 0.03, 0.08) * value.abs())
        }
        Measured::RecoveredMass | Measured::AddedMass => (0.02 + 0.01 * value.abs(), 0.0),
        Measured::Vacuum => (20.0 + 0.2 * value.abs(), 0.0),
    };
    Discrepancy { standing, passing }
}
