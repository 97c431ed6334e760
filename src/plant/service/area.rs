//! The space around the air handler: refrigerant that a leak of the indoor coil puts into its air.

use serde::{Deserialize, Serialize};

use crate::Inputs;
use crate::state::Plant;

/// Air of the closet or room corner that the air handler stands in, m³ (typ.: 2.2 m by 2.2 m by 2.4 m).
const AREA_M3: f64 = 12.0;
/// Its air changes with the rest of the house, 1/s: half an hour each by itself, eight seconds of blower air as soon as
/// the blower runs (typ.).
const CHANGES_STILL_1_S: f64 = 1.0 / 1800.0;
/// Air changes with doors and windows open and a fan set up, 1/s (typ.: one in three minutes).
const CHANGES_VENTILATED_1_S: f64 = 1.0 / 180.0;

/// Refrigerant in the air around the air handler.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Area {
    pub(crate) refrigerant_kg: f64,
}

/// How much refrigerant the air around the air handler carries.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct AreaReadout {
    /// Concentration, kg/m³.
    pub concentration_kg_m3: f64,
    /// The same over the lower flammability limit; `None` for a refrigerant of class A1.
    pub share_of_flammability_limit: Option<f64>,
}

impl Area {
    pub(crate) fn leaked_in(&mut self, mass_kg: f64) {
        self.refrigerant_kg += mass_kg;
    }

    /// Mixes the air of the area with that of the house, which is taken as clean: it is forty times as large.
    pub(crate) fn step(&mut self, inputs: &Inputs, blower_m3_s: f64, dt_s: f64) {
        let changes = match inputs.ventilation {
            crate::Ventilation::AsFound => CHANGES_STILL_1_S,
            crate::Ventilation::Open => CHANGES_VENTILATED_1_S,
        };
        let changes_1_s = changes + blower_m3_s / AREA_M3;
        self.refrigerant_kg *= libm::exp(-changes_1_s * dt_s);
    }
}

impl Plant {
    /// Refrigerant in the gas of the low side over the lower flammability limit: below 1 what comes out of the opened
    /// circuit cannot burn. `None` for a refrigerant of class A1.
    pub fn circuit_share_of_flammability_limit(&self) -> Option<f64> {
        let limit_kg_m3 = self.system.refrigerant.lower_flammability_limit_kg_m3()?;
        Some(self.low.mass_kg / self.system.volumes().low_m3 / limit_kg_m3)
    }

    /// Share of the mass in the low side that is refrigerant, 0 to 1: what a detector of refrigerant can smell.
    pub fn refrigerant_mass_share(&self) -> f64 {
        self.low.mass_kg / (self.low.mass_kg + self.low.air_kg).max(1.0e-12)
    }

    /// The air around the air handler.
    pub fn area(&self) -> AreaReadout {
        let concentration_kg_m3 = self.service.area.refrigerant_kg / AREA_M3;
        let limit_kg_m3 = self.system.refrigerant.lower_flammability_limit_kg_m3();
        AreaReadout {
            concentration_kg_m3,
            share_of_flammability_limit: limit_kg_m3.map(|limit| concentration_kg_m3 / limit),
        }
    }
}
