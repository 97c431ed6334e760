//! Leaks: what escapes through holes, and what comes in through them below atmospheric pressure.

use crate::LeakPlace;
use crate::contents::Level;
use crate::fault::Effects;
use crate::level::{LevelState, available_kg};
use crate::limit::Bound;
use crate::state::Plant;
use media::moist_air::STANDARD_PRESSURE_PA;

/// Share of what is there that one step lets out of a leak at most (numerical).
const MOST_SHARE: f64 = 0.02;
/// Discharge coefficient of a hole (typ. of a sharp edge).
const DISCHARGE: f64 = 0.6;
/// Choked factor of a gas with an exponent near 1.15; a liquid that flashes in the hole is limited in a similar way.
/// For air and nitrogen (exponent 1.4) it is 0.685, 2 % more: one value serves both.
const CHOKED: f64 = 0.67;
/// Mass flux of air that is sucked in, kg/(s m²): choked at one atmosphere.
const AIR_FLUX_KG_S_M2: f64 = 0.6 * 200.0 * 1.2;
/// Width over which a flow goes to zero about atmospheric pressure, Pa.
const RAMP_PA: f64 = 1.0e4;

/// What stands behind a hole.
pub(crate) struct Mixture {
    pub refrigerant_kg_m3: f64,
    /// Gas that does not condense.
    pub gas_kg_m3: f64,
    pub steam_kg_m3: f64,
    pub pressure_pa: f64,
}

impl Mixture {
    /// The gas of a level.
    pub(crate) fn gas_of(state: &LevelState, stored: &Level, volume_m3: f64) -> Mixture {
        let gas_m3 = state.gas_m3(volume_m3);
        Mixture {
            refrigerant_kg_m3: state.vapour_density_kg_m3(),
            gas_kg_m3: stored.air_kg / gas_m3,
            steam_kg_m3: stored.steam_kg / gas_m3,
            pressure_pa: state.total_pa,
        }
    }

    pub(crate) fn density_kg_m3(&self) -> f64 {
        self.refrigerant_kg_m3 + self.gas_kg_m3 + self.steam_kg_m3
    }

    /// Mass shares of refrigerant, gas and steam.
    pub(crate) fn shares(&self) -> [f64; 3] {
        let density = self.density_kg_m3().max(1.0e-12);
        [self.refrigerant_kg_m3 / density, self.gas_kg_m3 / density, self.steam_kg_m3 / density]
    }
}

/// Flow through a hole to the air, kg/s: choked orifice flow of what stands behind it, going to zero at atmospheric
/// pressure; below it, negative, the air that comes in.
pub(crate) fn escape_kg_s(area_m2: f64, behind: &Mixture) -> f64 {
    let excess = behind.pressure_pa - STANDARD_PRESSURE_PA;
    let ramp = excess / libm::sqrt(excess * excess + RAMP_PA * RAMP_PA);
    if excess <= 0.0 {
        return AIR_FLUX_KG_S_M2 * area_m2 * ramp;
    }
    DISCHARGE * CHOKED * area_m2 * libm::sqrt(behind.density_kg_m3() * behind.pressure_pa) * ramp
}

/// Books what passes the holes of the leaks in a step.
pub(crate) fn leaks(
    plant: &mut Plant,
    effects: &Effects,
    high: &LevelState,
    low: &LevelState,
    line_h: f64,
    dt_s: f64,
) {
    let fluid = plant.system.refrigerant.tables();
    let volumes = plant.system.volumes();
    for place in LeakPlace::ALL {
        let area = effects.holes.at_m2(place);
        if area <= 0.0 {
            continue;
        }
        let liquid_line = place == LeakPlace::LiquidLine;
        let (level, state, volume_m3) =
            if liquid_line { (plant.high, high, volumes.high_m3) } else { (plant.low, low, volumes.low_m3) };
        // Gas fills the liquid line as it does the condenser, once there is no liquid between them.
        let with_gas = !liquid_line || high.liquid_volume_m3 < 1.0e-6;
        let gas_m3 = (volume_m3 - state.liquid_volume_m3).max(1.0e-5);
        let gas_density = |mass_kg: f64| if with_gas { mass_kg / gas_m3 } else { 0.0 };
        let (refrigerant_kg_m3, h) = if !liquid_line {
            let h = low.fluid.enthalpy_j_kg.max(low.sat.vapour_enthalpy_j_kg);
            (low.sat.vapour_density_kg_m3.min(low.fluid.density_kg_m3.max(0.01)), h)
        } else if level.air_kg > 0.0 && with_gas {
            (plant.line.mass_kg / volumes.line_m3, line_h)
        } else {
            (fluid.at_ph(plant.line.pressure_pa, line_h).density_kg_m3, line_h)
        };
        let mixture = Mixture {
            refrigerant_kg_m3,
            gas_kg_m3: gas_density(level.air_kg),
            steam_kg_m3: gas_density(level.steam_kg),
            pressure_pa: if liquid_line { plant.line.pressure_pa.min(high.total_pa) } else { low.total_pa },
        };
        let flow_kg = escape_kg_s(area, &mixture) * dt_s;
        let [refrigerant, gas, steam] = mixture.shares();
        let from = if liquid_line { &mut plant.high } else { &mut plant.low };
        if flow_kg <= 0.0 {
            // The coil hangs in room air, the rest outdoors.
            let humidity_ratio = if place == LeakPlace::IndoorCoil {
                plant.slow.humidity_ratio
            } else {
                plant.weather.humidity_ratio()
            };
            from.air_kg -= flow_kg;
            from.steam_kg -= flow_kg * humidity_ratio;
            plant.service.gas.in_kg -= flow_kg;
            plant.service.water.in_kg -= flow_kg * humidity_ratio;
            continue;
        }
        let limiter = &mut plant.limiter;
        let gas_kg = limiter.at_most(Bound::Leak, flow_kg * gas, MOST_SHARE * from.air_kg);
        let steam_kg = limiter.at_most(Bound::Leak, flow_kg * steam, MOST_SHARE * from.steam_kg);
        from.air_kg -= gas_kg;
        from.steam_kg -= steam_kg;
        plant.service.gas.out_kg += gas_kg;
        plant.service.water.out_kg += steam_kg;
        let (mass_kg, energy_j, of_m3) = if liquid_line {
            (&mut plant.line.mass_kg, &mut plant.line.energy_j, volumes.line_m3)
        } else {
            (&mut plant.low.mass_kg, &mut plant.low.energy_j, volumes.low_m3)
        };
        let most_kg = MOST_SHARE * available_kg(*mass_kg, of_m3);
        let lost = plant.limiter.at_most(Bound::Leak, flow_kg * refrigerant, most_kg);
        *mass_kg -= lost;
        *energy_j -= lost * h;
        plant.ledger.leaked_kg += lost;
        plant.energy.with_refrigerant_j -= lost * h;
        if place == LeakPlace::IndoorCoil {
            plant.service.area.leaked_in(lost);
        }
    }
}
