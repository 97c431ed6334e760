//! What the sides of the circuit hold.

use serde::{Deserialize, Serialize};

/// Gas this thin has the temperature of the metal around it, kg/m³ (a few kilopascals).
pub(crate) const THIN_GAS_KG_M3: f64 = 0.1;

/// Refrigerant of one pressure level, with what else got in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Level {
    pub mass_kg: f64,
    pub energy_j: f64,
    /// Gas that does not condense: air, nitrogen.
    pub air_kg: f64,
    /// Water held by oil and metal.
    pub water_kg: f64,
    /// Water vapour.
    pub steam_kg: f64,
    /// Refrigerant pressure of the last flash, its next first guess, Pa.
    pub pressure_pa: f64,
}

/// The liquid line: filled through the drier, emptied by the metering device.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct LineLevel {
    pub mass_kg: f64,
    pub energy_j: f64,
    pub pressure_pa: f64,
}
