//! Metal of the air handler behind the coil: wheel, scroll and motor of the blower, and the walls that the cold air passes.
//!
//! It has to be cooled at each start before the supply air is as cold as it will be, and warms up again in the room's air while
//! the blower stands: cooling that a cycle pays for and nobody gets.

use media::elementary::{exp, power};
use media::moist_air::{STANDARD_PRESSURE_PA, dew_point_c, saturation_humidity_ratio};
use media::units::{celsius_from_kelvin, kelvin_from_celsius};

use crate::evaporator::Evaporating;
use crate::state::Plant;

/// Heat capacity over the rated airflow, J/K per m³/s: 15 kg of steel and copper behind the coil of three tons (0.566 m³/s),
/// of some 60 kg that such an air handler weighs (typ.).
const CAPACITY_J_S_K_M3: f64 = 12.4e3;
/// Conductance between the metal and the air at the rated flow, over that flow, W/K per m³/s: 2.5 m² at 18 W/(m² K) on three
/// tons (typ.); it goes with the power 0.8 of the flow (turbulent flow along walls, any heat transfer text).
const CONDUCTANCE_W_S_K_M3: f64 = 80.0;
/// The same in air at rest: what comes through the lining and up from the ducts, W/K per m³/s (2.5 m² at 3 W/(m² K), typ.).
const AT_REST_W_S_K_M3: f64 = 13.0;

/// Heat capacity, J/K.
pub(crate) fn capacity_j_k(plant: &Plant) -> f64 {
    CAPACITY_J_S_K_M3 * plant.system.air.rated_flow_m3_s
}

/// Heat from the metal to the air that passes it, W, with the air as it leaves the blower, K, and its capacity flow, W/K; to
/// the room's air while there is none.
fn to_air_w(plant: &Plant, blown_k: f64, air_w_k: f64) -> f64 {
    let rated_m3_s = plant.system.air.rated_flow_m3_s;
    let at_rest_w_k = AT_REST_W_S_K_M3 * rated_m3_s;
    if air_w_k <= 1.0e-3 {
        return at_rest_w_k * (plant.cabinet_k - plant.slow.room_k);
    }
    let share = (plant.slow.airflow_m3_s / rated_m3_s).max(0.0);
    let film_w_k = CONDUCTANCE_W_S_K_M3 * rated_m3_s * power(share, 0.8);
    let effect = 1.0 - exp(-(film_w_k.max(at_rest_w_k) / air_w_k).min(30.0));
    air_w_k * effect * (plant.cabinet_k - blown_k)
}

/// Air behind the coil and the blower on its way through the cabinet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Blown {
    /// As it comes into the supply, K.
    pub supply_k: f64,
    /// Heat that the metal gives it, W.
    pub from_metal_w: f64,
}

/// What the cabinet makes of the air that leaves the coil.
pub(crate) fn blown(plant: &Plant, e: &Evaporating) -> Blown {
    let slow = &plant.slow;
    let dry_air_kg_s = e.dry_air_kg_s;
    // A trickle carries nothing that could be read.
    if dry_air_kg_s <= 1.0e-2 {
        return Blown { supply_k: slow.room_k, from_metal_w: to_air_w(plant, slow.room_k, 0.0) };
    }
    let air_w_k = dry_air_kg_s * e.air_cp_j_kg_k;
    let blown_k = e.coil_leaving_k + slow.blower_power_w / air_w_k;
    let mut from_metal_w = to_air_w(plant, blown_k, air_w_k);
    if from_metal_w < 0.0 {
        // Metal that is still cold from a coil that no longer cools: water that falls on it gives back the heat that cools
        // the air further, so the air stops at its dew point.
        let (w, end_c) =
            (e.coil_leaving_humidity_ratio, celsius_from_kelvin(blown_k + from_metal_w / air_w_k));
        if saturation_humidity_ratio(end_c, STANDARD_PRESSURE_PA) < w {
            let dew_k = kelvin_from_celsius(dew_point_c(w, STANDARD_PRESSURE_PA));
            from_metal_w = from_metal_w.max(air_w_k * (dew_k - blown_k).min(0.0));
        }
    }
    Blown { supply_k: blown_k + from_metal_w / air_w_k, from_metal_w }
}
