//! Pressure switches, relief device, thermostat.

use super::difference::part;

part! {
    /// Protections and thermostat.
    Controls (ControlsDifference) {
        /// High-pressure switch opens at this absolute pressure, Pa.
        high_pressure_opens_pa: f64,
        /// High-pressure switch closes again below this absolute pressure, Pa.
        high_pressure_closes_pa: f64,
        /// Low-pressure switch opens at this absolute pressure at the suction port, Pa; `None`: no such switch.
        low_pressure_opens_pa: Option<f64>,
        /// Low-pressure switch closes again above this absolute pressure, Pa; `None`: no such switch.
        low_pressure_closes_pa: Option<f64>,
        /// Shortest pause between two compressor runs that the thermostat keeps, s.
        off_time_min_s: f64,
        /// Thermostat differential, K.
        differential_k: f64,
        /// Relief device opens at this absolute pressure, Pa.
        relief_pa: f64,
    }
}
