//! Cylinders: the one that is charged from, and the one that is recovered into.
//!
//! A cylinder is a rigid vessel of refrigerant in a steel wall. Its pressure follows from what it holds and from its
//! temperature; drawn vapour boils off the liquid that is left and cools it, and the air around warms it again. The
//! composition of a blend stays as it is: what boils off a real one is richer in the more volatile part, so a blend is
//! drawn as liquid.

use media::refrigerant::Refrigerant;
use serde::{Deserialize, Serialize};

use super::Service;
use crate::contents::Level;
use crate::level::{LevelState, available_kg};
use crate::state::Plant;
use crate::system::{RefrigerantName, SafetyClass};
use crate::{CylinderPhase, Inputs, PortConnection};

/// Inner volume of a charging cylinder, m³ (typ. of a small disposable one).
const SUPPLY_VOLUME_M3: f64 = 0.0135;
/// What a full one holds, kg: 25 lb of class A1, 20 lb of class A2L (typ.).
const SUPPLY_A1_KG: f64 = 11.339_809_25;
const SUPPLY_A2L_KG: f64 = 9.071_847_4;
/// Heat capacity of its wall, J/K (typ., about 3 kg of steel).
const SUPPLY_WALL_J_K: f64 = 1.4e3;
/// Inner volume of a recovery cylinder, m³ (typ., 26 lb of water).
const RECOVERY_VOLUME_M3: f64 = 0.0119;
/// Heat capacity of its wall, J/K (typ., about 7 kg of steel).
const RECOVERY_WALL_J_K: f64 = 3.2e3;
/// Largest share of a recovery cylinder that liquid may fill; the machine's switch stops it there (80 %, the fill
/// limit of 49 CFR 173.304a and AHRI Guideline K as commonly taught; from memory).
pub(crate) const FILL_LIMIT: f64 = 0.8;
/// Heat between wall and contents, W/K (typ. of boiling against a wetted wall).
const WALL_TO_CONTENTS_W_K: f64 = 60.0;
/// Heat between still air and wall, W/K (typ., 0.35 m² at 9 W/(m² K)).
const AIR_TO_WALL_W_K: f64 = 3.2;
/// Pressure that a new recovery cylinder is evacuated to, Pa (typ.).
const EVACUATED_PA: f64 = 1.0e3;

/// A cylinder.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Cylinder {
    pub contents: Level,
    pub wall_k: f64,
    volume_m3: f64,
    wall_j_k: f64,
}

/// A cylinder as it is now. Its pressure is what a gauge on its valve would show.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CylinderReadout {
    /// Refrigerant in it, kg.
    pub mass_kg: f64,
    /// Temperature of the contents, K.
    pub temperature_k: f64,
    /// Absolute pressure, Pa.
    pub pressure_pa: f64,
    /// Share of the volume that liquid fills, 0 to 1.
    pub liquid_share: f64,
}

impl Cylinder {
    /// A full charging cylinder at a temperature.
    fn full(name: RefrigerantName, temperature_k: f64) -> Cylinder {
        let fluid = name.tables();
        let mass_kg = match name.safety_class() {
            SafetyClass::A1 => SUPPLY_A1_KG,
            SafetyClass::A2L => SUPPLY_A2L_KG,
        };
        let pressure_pa = fluid.bubble_pressure_pa(temperature_k);
        let at = fluid.at_pv(pressure_pa, SUPPLY_VOLUME_M3 / mass_kg);
        Cylinder {
            contents: Level {
                mass_kg,
                energy_j: mass_kg * at.internal_energy_j_kg(),
                pressure_pa,
                ..Level::default()
            },
            wall_k: temperature_k,
            volume_m3: SUPPLY_VOLUME_M3,
            wall_j_k: SUPPLY_WALL_J_K,
        }
    }

    /// An empty, evacuated recovery cylinder at a temperature. The trace in it is its own and stays out of the ledger.
    fn evacuated(fluid: &Refrigerant, temperature_k: f64) -> Cylinder {
        let at = fluid.at_pt_vapour(EVACUATED_PA, temperature_k);
        let mass_kg = at.density_kg_m3 * RECOVERY_VOLUME_M3;
        Cylinder {
            contents: Level {
                mass_kg,
                energy_j: mass_kg * at.internal_energy_j_kg(),
                pressure_pa: EVACUATED_PA,
                ..Level::default()
            },
            wall_k: temperature_k,
            volume_m3: RECOVERY_VOLUME_M3,
            wall_j_k: RECOVERY_WALL_J_K,
        }
    }

    pub(crate) fn state(&self, fluid: &'static Refrigerant, dt_s: f64) -> LevelState {
        LevelState::of(fluid, &self.contents, self.volume_m3, dt_s)
    }

    fn readout(&self, fluid: &'static Refrigerant) -> CylinderReadout {
        let state = self.state(fluid, 0.25);
        CylinderReadout {
            mass_kg: self.contents.mass_kg,
            temperature_k: state.fluid.temperature_k,
            pressure_pa: state.total_pa,
            liquid_share: state.liquid_volume_m3 / self.volume_m3,
        }
    }

    /// Refrigerant that can be drawn, kg.
    pub(crate) fn available_kg(&self) -> f64 {
        available_kg(self.contents.mass_kg, self.volume_m3)
    }

    /// Whether liquid fills it as far as it may.
    pub(crate) fn is_at_limit(&self, state: &LevelState) -> bool {
        state.liquid_volume_m3 >= FILL_LIMIT * self.volume_m3
    }

    /// Density and enthalpy of what the valve gives: liquid as long as there is some.
    pub(crate) fn drawn(state: &LevelState, phase: CylinderPhase) -> (f64, f64) {
        match phase {
            CylinderPhase::Liquid if state.liquid_volume_m3 > 1.0e-5 => {
                (state.sat.liquid_density_kg_m3, state.sat.liquid_enthalpy_j_kg)
            }
            _ => (
                state.sat.vapour_density_kg_m3.min(state.fluid.density_kg_m3),
                state.fluid.enthalpy_j_kg.max(state.sat.vapour_enthalpy_j_kg),
            ),
        }
    }

    /// Takes mass out (negative: puts it in) with its enthalpy.
    pub(crate) fn take(&mut self, mass_kg: f64, enthalpy_j_kg: f64) {
        self.contents.mass_kg -= mass_kg;
        self.contents.energy_j -= mass_kg * enthalpy_j_kg;
    }

    /// Heat from the wall to the contents and from the air to the wall.
    pub(crate) fn warm(&mut self, state: &LevelState, air_k: f64, dt_s: f64) {
        self.contents.pressure_pa = state.fluid.pressure_pa;
        let to_contents_w =
            WALL_TO_CONTENTS_W_K.min(state.exchange_limit_w_k) * (self.wall_k - state.fluid.temperature_k);
        let to_wall_w = AIR_TO_WALL_W_K * (air_k - self.wall_k);
        self.contents.energy_j += to_contents_w * dt_s;
        self.wall_k += (to_wall_w - to_contents_w) * dt_s / self.wall_j_k;
    }
}

impl Service {
    /// Puts the cylinders beside the unit that the ports ask for.
    pub(crate) fn bring_cylinders(&mut self, name: RefrigerantName, inputs: &Inputs, outdoor_k: f64) {
        for connection in [inputs.suction_port, inputs.liquid_port] {
            match connection {
                PortConnection::ChargingCylinder { .. } if self.supply.is_none() => {
                    self.supply = Some(Cylinder::full(name, outdoor_k));
                }
                PortConnection::RecoveryMachine | PortConnection::RecoveryMachineTo { .. }
                    if self.recovery.is_none() =>
                {
                    self.recovery = Some(Cylinder::evacuated(name.tables(), outdoor_k));
                }
                _ => {}
            }
        }
    }
}

impl Plant {
    /// The charging cylinder; `None` as long as it has not been used.
    pub fn charging_cylinder(&self) -> Option<CylinderReadout> {
        let fluid = self.system.refrigerant.tables();
        self.service.supply.as_ref().map(|cylinder| cylinder.readout(fluid))
    }

    /// The recovery cylinder; `None` as long as it has not been used.
    pub fn recovery_cylinder(&self) -> Option<CylinderReadout> {
        let fluid = self.system.refrigerant.tables();
        self.service.recovery.as_ref().map(|cylinder| cylinder.readout(fluid))
    }

    /// Whether the recovery cylinder is filled as far as it may be.
    pub fn recovery_cylinder_is_full(&self) -> bool {
        // What liquid may fill, with what the switch's float can tell.
        self.recovery_cylinder().is_some_and(|cylinder| cylinder.liquid_share >= FILL_LIMIT - 1.0e-3)
    }

    /// A full charging cylinder in place of the one that was used.
    pub fn change_charging_cylinder(&mut self) {
        self.service.supply = Some(Cylinder::full(self.system.refrigerant, self.slow.outdoor_k));
    }

    /// An empty recovery cylinder in place of the one that was used.
    pub fn change_recovery_cylinder(&mut self) {
        let fluid = self.system.refrigerant.tables();
        self.service.recovery = Some(Cylinder::evacuated(fluid, self.slow.outdoor_k));
    }
}
