//! States of a refrigerant as values, and the pressures between which they are worked out.

/// Lowest pressure that any function here works with or returns, Pa absolute; anything lower counts as this.
pub const LOWEST_PRESSURE_PA: f64 = 1e-3;
/// Highest pressure that any function here works with or returns, Pa absolute; anything higher counts as this.
pub const HIGHEST_PRESSURE_PA: f64 = 1e9;

/// The two saturated states at one pressure: liquid at bubble, vapour at dew.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Saturation {
    /// Absolute pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature of the saturated liquid, K.
    pub bubble_k: f64,
    /// Temperature of the saturated vapour, K.
    pub dew_k: f64,
    /// Density of the saturated liquid, kg/m³.
    pub liquid_density_kg_m3: f64,
    /// Density of the saturated vapour, kg/m³.
    pub vapour_density_kg_m3: f64,
    /// Specific enthalpy of the saturated liquid, J/kg.
    pub liquid_enthalpy_j_kg: f64,
    /// Specific enthalpy of the saturated vapour, J/kg.
    pub vapour_enthalpy_j_kg: f64,
    /// Specific entropy of the saturated liquid, J/(kg K).
    pub liquid_entropy_j_kg_k: f64,
    /// Specific entropy of the saturated vapour, J/(kg K).
    pub vapour_entropy_j_kg_k: f64,
    /// Isobaric heat capacity of the saturated liquid, J/(kg K). Grows without bound towards the critical point.
    pub liquid_cp_j_kg_k: f64,
    /// Isobaric heat capacity of the saturated vapour, J/(kg K). Grows without bound towards the critical point.
    pub vapour_cp_j_kg_k: f64,
}

/// Where a state lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// Subcooled or saturated liquid.
    Liquid,
    /// Inside the dome.
    TwoPhase,
    /// Superheated or saturated vapour.
    Vapour,
}

/// One equilibrium state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fluid {
    /// Where the state lies.
    pub phase: Phase,
    /// Absolute pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature, K. Inside the dome between bubble and dew.
    pub temperature_k: f64,
    /// Density, kg/m³.
    pub density_kg_m3: f64,
    /// Specific enthalpy, J/kg.
    pub enthalpy_j_kg: f64,
    /// Specific entropy, J/(kg K).
    pub entropy_j_kg_k: f64,
    /// Vapour mass fraction, 0 for liquid to 1 for vapour.
    pub quality: f64,
}

impl Fluid {
    /// Specific internal energy `h - p/rho`, J/kg.
    #[must_use]
    pub fn internal_energy_j_kg(&self) -> f64 {
        self.enthalpy_j_kg - self.pressure_pa / self.density_kg_m3
    }

    /// Specific volume, m³/kg.
    #[must_use]
    pub fn specific_volume_m3_kg(&self) -> f64 {
        1.0 / self.density_kg_m3
    }
}
