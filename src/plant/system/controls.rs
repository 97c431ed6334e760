//! Pressure switches, relief device, thermostat.

use serde::{Deserialize, Serialize};

/// Protections and thermostat.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Controls {
    /// High-pressure switch opens at this absolute pressure, Pa.
    pub high_pressure_opens_pa: f64,
    /// High-pressure switch closes again below this absolute pressure, Pa.
    pub high_pressure_closes_pa: f64,
    /// Low-pressure switch opens at this absolute pressure at the suction port, Pa; `None`: no such switch.
    pub low_pressure_opens_pa: Option<f64>,
    /// Low-pressure switch closes again above this absolute pressure, Pa; `None`: no such switch.
    pub low_pressure_closes_pa: Option<f64>,
    /// Shortest pause between two compressor runs that the thermostat keeps, s.
    pub off_time_min_s: f64,
    /// Thermostat differential, K.
    pub differential_k: f64,
    /// Relief device opens at this absolute pressure, Pa.
    pub relief_pa: f64,
}
