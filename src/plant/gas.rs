//! Gas that does not condense, air or nitrogen: how it moves between the two sides of the circuit.

use crate::contents::Level;
use crate::flows::Flows;
use crate::level::{AIR_GAS_CONSTANT, LevelState, SEALED_M3, available_kg};
use crate::limit::{Bound, Limiter, MOST_OF_SIDE};
use crate::state::Plant;

/// Share of the gas of an empty side that passes the metering device in a second at a large difference of pressure, 1/s, and
/// the difference at which it is half of that, Pa (typ.).
const OPEN_1_S: f64 = 0.02;
const OPEN_HALF_PA: f64 = 1.0e4;
/// Rate at which the gas of the two sides mixes while the compressor stands and nothing drives a flow, 1/s of the smaller side
/// (typ., as for steam: some minutes by warm and cold parts of the lines and by diffusion; no source).
const MIXING_1_S: f64 = 0.01;
/// Difference of total pressure at which a flow leaves half of that mixing, Pa (numerical: a gauge's division).
const MIXING_HALF_PA: f64 = 1.0e4;
/// Pressure that keeps quotients finite where nothing is left, Pa (numerical).
const TRACE_PA: f64 = 1.0e-3;

fn move_kg(from: &mut Level, to: &mut Level, limiter: &mut Limiter, share: f64) {
    let moved_kg = from.air_kg * limiter.at_most(Bound::CarriedGas, share, MOST_OF_SIDE);
    from.air_kg -= moved_kg;
    to.air_kg += moved_kg;
}

/// Moves gas that does not condense with what flows, and mixes it at rest. `line_quality` is that of the liquid line.
pub(crate) fn step(
    plant: &mut Plant,
    flows: &Flows,
    line_quality: f64,
    high: &LevelState,
    low: &LevelState,
    dt_s: f64,
) {
    if plant.high.air_kg <= 0.0 && plant.low.air_kg <= 0.0 {
        return;
    }
    let volumes = plant.system.volumes();
    let low_gas_m3 = low.gas_m3(volumes.low_m3);
    // Air that got in is pumped to the condenser with the gas and stays there; it comes back only with vapour that reaches
    // the metering device.
    let drawn_kg_s = flows.compressor_kg_s - flows.joined_kg_s;
    let drawn_1_s = drawn_kg_s / plant.low.mass_kg.max(1.0e-9);
    // Through standing scrolls, and back through the metering device, it goes with the gas by volume.
    let standing_1_s = flows.standing.gas_m3_s / low_gas_m3;
    let back_1_s = (-flows.valve_kg_s).max(0.0) / (low.vapour_density_kg_m3().max(1.0e-9) * low_gas_m3);
    move_kg(
        &mut plant.low,
        &mut plant.high,
        &mut plant.limiter,
        (drawn_1_s + standing_1_s + back_1_s) * dt_s,
    );

    let forward_1_s = line_quality * flows.valve_kg_s.max(0.0) / plant.high.mass_kg.max(1.0e-9);
    // With the system empty of liquid the two sides equalise through the metering device.
    let difference_pa = (high.total_pa - low.total_pa).max(0.0);
    let open_1_s = if high.liquid_volume_m3 < SEALED_M3 {
        OPEN_1_S * difference_pa / (difference_pa + OPEN_HALF_PA)
    } else {
        0.0
    };
    move_kg(&mut plant.high, &mut plant.low, &mut plant.limiter, (forward_1_s + open_1_s) * dt_s);

    if plant.control.compressor_speed <= 0.0 {
        mix(plant, high, low, dt_s);
    }
}

/// Exchange of equal volumes of gas at rest: what does not condense goes one way, refrigerant the other, until both sides have
/// the same mixture. It moves no pressure, whatever the temperatures.
fn mix(plant: &mut Plant, high: &LevelState, low: &LevelState, dt_s: f64) {
    let volumes = plant.system.volumes();
    let mean_pa = 0.5 * (high.total_pa + low.total_pa).max(TRACE_PA);
    let richer_pa =
        mean_pa * (high.air_pa / high.total_pa.max(TRACE_PA) - low.air_pa / low.total_pa.max(TRACE_PA));
    let apart = (high.total_pa - low.total_pa) / MIXING_HALF_PA;
    let least_m3 = high.gas_m3(volumes.high_m3).min(low.gas_m3(volumes.low_m3));
    let exchanged_j = MIXING_1_S * least_m3 / (1.0 + apart * apart) * richer_pa * dt_s;
    // From the side that is richer in it.
    let mean_k = 0.5 * (high.fluid.temperature_k + low.fluid.temperature_k);
    let wanted_kg = exchanged_j / (AIR_GAS_CONSTANT * mean_k);
    let (least_kg, most_kg) = (-MOST_OF_SIDE * plant.low.air_kg, MOST_OF_SIDE * plant.high.air_kg);
    let air_kg = plant.limiter.between(Bound::MixedGas, wanted_kg, least_kg, most_kg);
    plant.high.air_kg -= air_kg;
    plant.low.air_kg += air_kg;
    // And refrigerant from the other.
    let (gives, from, to, of_m3) = if exchanged_j > 0.0 {
        (low, &mut plant.low, &mut plant.high, volumes.low_m3)
    } else {
        (high, &mut plant.high, &mut plant.low, volumes.high_m3)
    };
    let kg_j = gives.vapour_density_kg_m3() / gives.fluid.pressure_pa.max(TRACE_PA);
    let most_kg = MOST_OF_SIDE * available_kg(from.mass_kg, of_m3);
    let back_kg = plant.limiter.at_most(Bound::MixedGas, exchanged_j.abs() * kg_j, most_kg);
    let carried_j = back_kg * gives.vapour_enthalpy_j_kg();
    from.mass_kg -= back_kg;
    from.energy_j -= carried_j;
    to.mass_kg += back_kg;
    to.energy_j += carried_j;
}
