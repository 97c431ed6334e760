//! What lies between the two units: lines with the drier, metering device.

use serde::{Deserialize, Serialize};

/// Liquid line with drier, suction line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lines {
    /// Volume of the liquid line with drier and service valve, m³.
    pub liquid_volume_m3: f64,
    /// Flow resistance of the drier, Pa·(kg/m³)/(kg/s)²: dp = K m²/rho.
    pub drier_resistance: f64,
    /// Flow resistance of the liquid line, same unit.
    pub liquid_resistance: f64,
    /// Flow resistance of the suction line, same unit.
    pub suction_resistance: f64,
    /// Volume of the suction line, m³.
    pub suction_volume_m3: f64,
    /// Conductance of the suction line to the air around it, W/K.
    pub suction_ua_w_k: f64,
    /// Conductance of the liquid line to the air around it, W/K.
    pub liquid_ua_w_k: f64,
}

/// Metering device.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Metering {
    /// Thermostatic expansion valve, externally equalised, bulb charged with the system's refrigerant.
    Txv {
        /// Flow area fully open (discharge coefficient included), m².
        area_m2: f64,
        /// Spring pressure: the bulb must exceed the evaporator by this before the valve opens, Pa.
        spring_pa: f64,
        /// Pressure difference for the full stroke, Pa.
        gradient_pa: f64,
        /// Smallest opening (bleed), 0 to 1.
        bleed: f64,
        /// Time constant of the bulb strapped to the line, s.
        bulb_time_s: f64,
        /// Largest pressure of the bulb charge (MOP), Pa.
        bulb_pressure_max_pa: f64,
    },
    /// Fixed orifice (piston).
    Orifice {
        /// Flow area (discharge coefficient included), m².
        area_m2: f64,
    },
}
