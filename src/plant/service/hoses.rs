//! Hoses: what they take out of the circuit while they are on, and what is lost when they come off.

use serde::{Deserialize, Serialize};

use crate::level::{LevelState, available_kg};
use crate::state::Plant;
use crate::{Inputs, PortConnection};

/// Volume of one hose with its share of the manifold, m³ (1/4 inch, 1.5 m; typ.).
const HOSE_VOLUME_M3: f64 = 2.5e-5;
/// Time in which a hose follows the pressure at its port, s (typ.).
const FILLING_TIME_S: f64 = 2.0;
/// How far the port's pressure must lie above saturation at the hose's temperature for it to fill with liquid, Pa: the
/// width over which it passes from gas to liquid (numerical).
const CONDENSING_PA: f64 = 5.0e4;
/// Share of a hose's content that a low-loss fitting lets go as it is taken off (typ., no source).
const LOW_LOSS_SHARE: f64 = 0.1;
/// The liquid side must stand so much above the suction side for its hose to be drained there, Pa.
const DRAINING_PA: f64 = 1.0e5;

/// What stands in the hoses, kg. Closed at both ends they keep it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Hoses {
    pub suction_kg: f64,
    pub liquid_kg: f64,
}

/// How a hose ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum HoseEnds {
    /// Fittings that close by themselves: what is in the hose stays in it but for what stands in the fitting.
    LowLoss,
    /// Open ends: what is in the hose is lost.
    Open,
}

/// What stands at a port for a hose to take.
struct AtPort {
    density_kg_m3: f64,
    enthalpy_j_kg: f64,
}

fn vapour(level: &LevelState) -> AtPort {
    AtPort {
        density_kg_m3: level.sat.vapour_density_kg_m3.min(level.fluid.density_kg_m3),
        enthalpy_j_kg: level.fluid.enthalpy_j_kg.max(level.sat.vapour_enthalpy_j_kg),
    }
}

/// A hose on the hot side of a running unit is colder than the gas that enters it: it fills with liquid.
fn at_liquid_port(plant: &Plant, high: &LevelState) -> AtPort {
    let hose_pa = plant.system.refrigerant.tables().bubble_pressure_pa(plant.slow.outdoor_k);
    let share = ((high.fluid.pressure_pa - hose_pa) / CONDENSING_PA).clamp(0.0, 1.0);
    let gas = vapour(high);
    AtPort {
        density_kg_m3: gas.density_kg_m3 + share * (high.sat.liquid_density_kg_m3 - gas.density_kg_m3),
        enthalpy_j_kg: gas.enthalpy_j_kg + share * (high.sat.liquid_enthalpy_j_kg - gas.enthalpy_j_kg),
    }
}

/// Lets the hoses that are on follow the pressures at their ports.
pub(crate) fn step(plant: &mut Plant, inputs: &Inputs, high: &LevelState, low: &LevelState, dt_s: f64) {
    let volumes = plant.system.volumes();
    let share = (dt_s / FILLING_TIME_S).min(1.0);
    if inputs.suction_port != PortConnection::Capped {
        let at = vapour(low);
        let wanted_kg = share * (HOSE_VOLUME_M3 * at.density_kg_m3 - plant.service.hoses.suction_kg);
        let taken_kg = wanted_kg.min(0.1 * available_kg(plant.low.mass_kg, volumes.low_m3));
        plant.low.mass_kg -= taken_kg;
        plant.low.energy_j -= taken_kg * at.enthalpy_j_kg;
        plant.energy.with_refrigerant_j -= taken_kg * at.enthalpy_j_kg;
        plant.service.hoses.suction_kg += taken_kg;
    }
    if inputs.liquid_port != PortConnection::Capped {
        let at = at_liquid_port(plant, high);
        let wanted_kg = share * (HOSE_VOLUME_M3 * at.density_kg_m3 - plant.service.hoses.liquid_kg);
        let taken_kg = wanted_kg.min(0.1 * available_kg(plant.high.mass_kg, volumes.high_m3));
        plant.high.mass_kg -= taken_kg;
        plant.high.energy_j -= taken_kg * at.enthalpy_j_kg;
        plant.energy.with_refrigerant_j -= taken_kg * at.enthalpy_j_kg;
        plant.service.hoses.liquid_kg += taken_kg;
    }
    plant.ledger.trapped_kg = plant.service.hoses.suction_kg + plant.service.hoses.liquid_kg;
}

impl Plant {
    /// Takes the hoses off both ports; returns what is lost, kg. With the unit running, the liquid hose is first drawn
    /// empty into the suction side through the manifold. What low-loss fittings keep in the hoses stays there, booked
    /// as trapped, and goes back into the circuit when they are put on again.
    pub fn disconnect_hoses(&mut self, ends: HoseEnds) -> f64 {
        let fluid = self.system.refrigerant.tables();
        let volumes = self.system.volumes();
        let high = LevelState::of(fluid, &self.high, volumes.high_m3, crate::BASE_STEP_S);
        let low = LevelState::of(fluid, &self.low, volumes.low_m3, crate::BASE_STEP_S);
        if high.total_pa > low.total_pa + DRAINING_PA {
            let left_kg = (HOSE_VOLUME_M3 * vapour(&low).density_kg_m3).min(self.service.hoses.liquid_kg);
            let drained_kg = self.service.hoses.liquid_kg - left_kg;
            self.service.hoses.liquid_kg = left_kg;
            self.low.mass_kg += drained_kg;
            let drained_j = drained_kg * at_liquid_port(self, &high).enthalpy_j_kg;
            self.low.energy_j += drained_j;
            self.energy.with_refrigerant_j += drained_j;
        }
        let share = match ends {
            HoseEnds::LowLoss => LOW_LOSS_SHARE,
            HoseEnds::Open => 1.0,
        };
        let hoses = &mut self.service.hoses;
        let lost_kg = share * (hoses.suction_kg + hoses.liquid_kg);
        hoses.suction_kg *= 1.0 - share;
        hoses.liquid_kg *= 1.0 - share;
        self.ledger.trapped_kg = hoses.suction_kg + hoses.liquid_kg;
        self.ledger.hoses_kg += lost_kg;
        lost_kg
    }
}
