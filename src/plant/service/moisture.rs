//! Moisture in the circuit: water held by oil, metal and drier, and water vapour in the gas.
//!
//! An opened circuit takes up water from the air around it. Under a vacuum it gives it off again: the vapour can reach
//! the saturation pressure of water at the temperature of the metal, no more. That is what a micron gauge shows of a
//! wet circuit: with the pump on it hangs above a dry one's reading, with the pump off it rises and levels off.

use media::moist_air::{STANDARD_PRESSURE_PA, saturation_pressure_pa};
use media::units::celsius_from_kelvin;
use serde::{Deserialize, Serialize};

use crate::contents::Level;
use crate::level::{STEAM_GAS_CONSTANT, WATER_TO_AIR_MOLAR_MASS};
use crate::state::Plant;

/// Conductance with which one level gives off the water that it holds, kg/(s Pa) (typ. of a thin film and oil; a pump at
/// the end of its hose then hangs at about a quarter of the saturation pressure as long as there is a film).
const RELEASE_KG_S_PA: f64 = 1.5e-10;
/// Water of one level below which it is a film no longer, and gives off in proportion to what is left, kg (typ.).
const FILM_KG: f64 = 2.0e-4;
/// What an opened circuit takes up, kg/(s Pa) of vapour pressure in the air around it (typ.: a polyolester oil that
/// takes 100 ppm in an hour behind a pipe's opening).
const UPTAKE_KG_S_PA: f64 = 2.3e-11;
/// What a new drier can hold of it, kg (typ. of a 16 cubic inch core).
const DRIER_KG: f64 = 0.010;

/// The liquid-line drier: what water it holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Drier {
    pub water_kg: f64,
}

/// Moves water within a level and takes it to the drier. `refrigerant` is the flow into the liquid line.
pub(crate) fn step(plant: &mut Plant, to_line_kg_s: f64, compressor_kg_s: f64, dt_s: f64) {
    if plant.high.holds_no_water() && plant.low.holds_no_water() {
        return;
    }
    let volumes = plant.system.volumes();
    give_off(&mut plant.high, volumes.high_m3, plant.condenser_wall_k, dt_s);
    let coil_wall_k = plant.coil_wall_k();
    give_off(&mut plant.low, volumes.low_m3, coil_wall_k, dt_s);
    // Flowing refrigerant takes water along, round the circuit and into the drier.
    if compressor_kg_s > 0.0 {
        let share = (compressor_kg_s * dt_s / plant.low.mass_kg.max(1.0e-9)).min(0.2);
        let (water_kg, steam_kg) = (plant.low.water_kg * share, plant.low.steam_kg * share);
        plant.low.water_kg -= water_kg;
        plant.low.steam_kg -= steam_kg;
        plant.high.water_kg += water_kg + steam_kg;
    }
    if compressor_kg_s > 0.0 && to_line_kg_s > 0.0 {
        let share = (to_line_kg_s * dt_s / plant.high.mass_kg.max(1.0e-9)).min(0.2);
        let room_kg = (DRIER_KG - plant.service.drier.water_kg).max(0.0);
        let taken_kg = (plant.high.water_kg * share).min(room_kg);
        plant.high.water_kg -= taken_kg;
        plant.service.drier.water_kg += taken_kg;
    }
    // Without liquid the gas on both sides mixes through the metering device.
    if compressor_kg_s <= 0.0 {
        let vapour_kg_m3 = [plant.high.steam_kg / volumes.high_m3, plant.low.steam_kg / volumes.low_m3];
        let moved_kg =
            0.01 * dt_s * (vapour_kg_m3[0] - vapour_kg_m3[1]) * volumes.high_m3.min(volumes.low_m3);
        plant.high.steam_kg -= moved_kg;
        plant.low.steam_kg += moved_kg;
    }
}

/// Evaporation, or condensation above the saturation pressure, towards what the film holds.
fn give_off(level: &mut Level, volume_m3: f64, wall_k: f64, dt_s: f64) {
    let saturation_pa = saturation_pressure_pa(celsius_from_kelvin(wall_k));
    let steam_pa = level.steam_kg * STEAM_GAS_CONSTANT * wall_k / volume_m3;
    let held = (level.water_kg / FILM_KG).min(1.0);
    let given_kg = RELEASE_KG_S_PA * (saturation_pa * held - steam_pa) * dt_s;
    let above_kg = level.steam_kg - saturation_pa * volume_m3 / (STEAM_GAS_CONSTANT * wall_k);
    let given_kg = if above_kg > 0.0 { -above_kg } else { given_kg };
    let given_kg = given_kg.clamp(-level.steam_kg, 0.1 * level.water_kg);
    level.water_kg -= given_kg;
    level.steam_kg += given_kg;
}

impl Level {
    fn holds_no_water(&self) -> bool {
        self.water_kg <= 0.0 && self.steam_kg <= 0.0
    }
}

impl Plant {
    /// The circuit has stood open to the room's air for so long, s: it has taken up moisture.
    pub fn expose_circuit(&mut self, open_s: f64) {
        let air_pa = self.slow.humidity_ratio * STANDARD_PRESSURE_PA
            / (WATER_TO_AIR_MOLAR_MASS + self.slow.humidity_ratio);
        self.wet_circuit(UPTAKE_KG_S_PA * air_pa * open_s.max(0.0));
    }

    /// Water gets into the circuit, kg: rain, a washed-out line, oil that stood open.
    pub fn wet_circuit(&mut self, water_kg: f64) {
        let volumes = self.system.volumes();
        let water_kg = water_kg.max(0.0);
        let to_high = volumes.high_m3 / (volumes.high_m3 + volumes.low_m3);
        self.high.water_kg += water_kg * to_high;
        self.low.water_kg += water_kg * (1.0 - to_high);
        self.service.water.in_kg += water_kg;
    }

    /// The humid air of the surroundings is in the circuit now; what vapour it had before is gone.
    pub(super) fn fill_with_humid_air(&mut self) {
        let volumes = self.system.volumes();
        for (level, volume_m3) in [(&mut self.high, volumes.high_m3), (&mut self.low, volumes.low_m3)] {
            self.service.water.out_kg += level.steam_kg;
            level.steam_kg = level.air_kg * self.slow.humidity_ratio;
            // Never more than the gas can hold at the room's temperature.
            let most_kg = saturation_pressure_pa(celsius_from_kelvin(self.slow.room_k))
                .min(STANDARD_PRESSURE_PA)
                * volume_m3
                / (STEAM_GAS_CONSTANT * self.slow.room_k);
            level.steam_kg = level.steam_kg.min(most_kg);
            self.service.water.in_kg += level.steam_kg;
        }
    }

    /// A new drier: what the old one held leaves with it.
    pub(super) fn fit_new_drier(&mut self) {
        self.service.water.out_kg += self.service.drier.water_kg;
        self.service.drier.water_kg = 0.0;
    }

    /// Water in circuit and drier, kg.
    pub fn water_kg(&self) -> f64 {
        self.high.water_kg
            + self.high.steam_kg
            + self.low.water_kg
            + self.low.steam_kg
            + self.service.drier.water_kg
    }

    /// Water that the drier holds, kg.
    pub fn drier_water_kg(&self) -> f64 {
        self.service.drier.water_kg
    }
}
