//! The balances of one step: what the fluxes do to levels, metal, ledgers.

use media::moist_air;

use crate::Inputs;
use crate::condenser::Condensing;
use crate::control::Events;
use crate::evaporator::Evaporating;
use crate::flows::Flows;
use crate::leak::leaks;
use crate::level::LevelState;
use crate::service::{PortFlows, follow_hoses, move_water};
use crate::state::{Effects, Event, Plant};

/// Atmospheric pressure at the site, Pa.
pub(crate) const ATMOSPHERE_PA: f64 = moist_air::STANDARD_PRESSURE_PA;

/// Everything that flows in one step.
pub(crate) struct Fluxes<'a> {
    pub flows: &'a Flows,
    pub condensing: Condensing,
    pub evaporating: Evaporating,
    /// Enthalpy of what flows back from the evaporator through the metering device, J/kg.
    pub back_flow_h: f64,
}

/// Rates of the levels and of the motor, but for leaks, service ports and relief.
pub(crate) struct LevelRates {
    pub high_kg_s: f64,
    pub high_w: f64,
    pub line_kg_s: f64,
    pub line_w: f64,
    pub low_kg_s: f64,
    pub low_w: f64,
    /// Net heat to the motor, W.
    pub motor_w: f64,
    /// Heat from the air around the liquid line, W.
    pub line_heat_w: f64,
    /// Heat from the shell to outdoor air, W.
    pub shell_to_air_w: f64,
    /// Quality of what stands in the liquid line.
    pub line_quality: f64,
}

impl LevelRates {
    /// The rates; `dt_s` bounds the exchange of a liquid line that is nearly empty.
    pub(crate) fn of(plant: &Plant, f: &Fluxes<'_>, dt_s: f64) -> LevelRates {
        let Flows { compressor_kg_s, valve_kg_s, outlet_kg_s, line_enthalpy_j_kg, .. } = *f.flows;
        let flows = f.flows;
        let slow = &plant.slow;
        let lines = &plant.system.lines;
        let h_o = if outlet_kg_s >= 0.0 { f.condensing.outlet_enthalpy_j_kg } else { line_enthalpy_j_kg };
        let h_v = if valve_kg_s >= 0.0 { line_enthalpy_j_kg } else { f.back_flow_h };
        let in_line = plant.system.refrigerant.tables().at_ph(plant.line.pressure_pa, line_enthalpy_j_kg);
        let line_limit = 0.5 * plant.line.mass_kg * 900.0 / dt_s;
        let line_heat_w = lines.liquid_ua_w_k.min(line_limit) * (slow.room_k - in_line.temperature_k);
        let discharge_heat = compressor_kg_s * flows.compression.discharge_enthalpy_j_kg;
        let gas_power = flows.compression.power_w - flows.compression.motor_heat_w;
        // What the gas at the port does not carry of the work, it left on its way round inside: gas that leaks back goes
        // through the shell and warms the metal, not the coil.
        let low_out = compressor_kg_s * flows.inlet.enthalpy_j_kg;
        let left_inside_w = gas_power - (discharge_heat - low_out);
        let motor = &plant.system.compressor;
        let shell_to_air_w = motor.shell_to_air_w_k * (plant.motor_k - slow.outdoor_k);
        LevelRates {
            high_kg_s: compressor_kg_s - outlet_kg_s,
            high_w: discharge_heat
                - flows.discharge_to_motor_w
                - outlet_kg_s * h_o
                - f.condensing.heat_to_wall_w
                - f.condensing.heat_to_air_w,
            line_kg_s: outlet_kg_s - valve_kg_s,
            line_w: outlet_kg_s * h_o - valve_kg_s * h_v + line_heat_w,
            low_kg_s: valve_kg_s - compressor_kg_s,
            low_w: valve_kg_s * h_v
                + f.evaporating.heat_to_refrigerant_w
                + flows.line_heat_w
                + flows.motor_to_gas_w
                - low_out,
            motor_w: flows.compression.motor_heat_w + left_inside_w + flows.discharge_to_motor_w
                - flows.motor_to_gas_w
                - shell_to_air_w,
            line_heat_w,
            shell_to_air_w,
            line_quality: in_line.quality,
        }
    }
}

#[expect(clippy::too_many_arguments, reason = "the one place where all fluxes of a step meet")]
pub(crate) fn balance(
    plant: &mut Plant,
    effects: &Effects,
    inputs: &Inputs,
    f: &Fluxes<'_>,
    high: &LevelState,
    low: &LevelState,
    dt_s: f64,
    events: &mut Events,
) {
    let rates = LevelRates::of(plant, f, dt_s);
    let m_c = f.flows.compressor_kg_s;
    plant.high.mass_kg += dt_s * rates.high_kg_s;
    plant.high.energy_j += dt_s * rates.high_w;
    plant.line.mass_kg += dt_s * rates.line_kg_s;
    plant.line.energy_j += dt_s * rates.line_w;
    plant.low.mass_kg += dt_s * rates.low_kg_s;
    plant.low.energy_j += dt_s * rates.low_w;

    // Air that got in is pumped to the condenser with the gas and stays there; it comes back only with
    // vapour that reaches the metering device.
    if plant.low.air_kg > 0.0 && m_c > 0.0 {
        let moved = plant.low.air_kg * (m_c * dt_s / plant.low.mass_kg.max(1.0e-9)).min(0.2);
        plant.low.air_kg -= moved;
        plant.high.air_kg += moved;
    }
    if plant.low.air_kg > 0.0 && low.total_pa > high.total_pa && high.liquid_volume_m3 < 1.0e-6 {
        let moved = plant.low.air_kg * (mixing_1_s(low.total_pa - high.total_pa) * dt_s).min(0.2);
        plant.low.air_kg -= moved;
        plant.high.air_kg += moved;
    }
    if plant.high.air_kg > 0.0 {
        let dp = (high.total_pa - low.total_pa).max(0.0);
        let vapour_share = rates.line_quality * f.flows.valve_kg_s.max(0.0) / plant.high.mass_kg.max(1.0e-9);
        // With the system empty of liquid the two sides equalise through the metering device.
        let open = if high.liquid_volume_m3 < 1.0e-6 { mixing_1_s(dp) } else { 0.0 };
        let moved = plant.high.air_kg * ((vapour_share + open) * dt_s).min(0.2);
        plant.high.air_kg -= moved;
        plant.low.air_kg += moved;
    }

    leaks(plant, effects, high, low, f.flows.line_enthalpy_j_kg, dt_s);
    let ports = PortFlows::of(plant, inputs, high, low, dt_s);
    ports.book(plant, dt_s);
    follow_hoses(plant, inputs, high, low, dt_s);
    move_water(plant, f.flows.outlet_kg_s, m_c, dt_s);
    relief(plant, high, dt_s, events);

    // Walls, motor.
    plant.condenser_wall_k = f.condensing.wall_k;
    plant.coil_walls_k = f.evaporating.walls_k;
    settle_thin_gas(plant);
    plant.motor_k += dt_s * rates.motor_w / plant.system.compressor.motor_capacity_j_k;

    let e = &mut plant.energy;
    e.from_room_air_j += dt_s * (f.evaporating.sensible_w + f.evaporating.latent_w);
    e.compressor_j += dt_s * f.flows.compression.power_w;
    e.to_outdoor_air_j +=
        dt_s * (f.condensing.wall_to_air_w + f.condensing.heat_to_air_w + rates.shell_to_air_w);
    e.from_line_air_j += dt_s * (f.flows.line_heat_w + rates.line_heat_w);
    e.to_melting_j += dt_s * f.evaporating.melt_w;

    let s = &mut plant.slow;
    s.sensible_j += dt_s * f.evaporating.sensible_w;
    s.water_kg += dt_s * f.evaporating.water_kg_s;
    s.blower_j += dt_s * s.blower_power_w;
    s.elapsed_s += dt_s;
}

/// Share of the gas of an empty side that passes the metering device in a second at a difference of pressure, Pa (typ.).
fn mixing_1_s(difference_pa: f64) -> f64 {
    0.02 * difference_pa / (difference_pa + 1.0e4)
}

/// The relief device: opens above its setting before the tables end.
fn relief(plant: &mut Plant, high: &LevelState, dt_s: f64, events: &mut Events) {
    let excess = high.total_pa - plant.system.controls.relief_pa;
    if excess <= 0.0 {
        return;
    }
    let flow = 1.0 * (excess / 1.0e5).min(2.0);
    let lost = (flow * dt_s).min(0.05 * plant.high.mass_kg);
    // Gas that does not condense leaves with it.
    let gas = plant.high.air_kg * (0.05 * (excess / 1.0e5).min(1.0));
    plant.high.air_kg -= gas;
    plant.service.gas.out_kg += gas;
    let h = high.sat.vapour_enthalpy_j_kg.min(high.fluid.enthalpy_j_kg.max(high.sat.liquid_enthalpy_j_kg));
    plant.high.mass_kg -= lost;
    plant.high.energy_j -= lost * h;
    plant.ledger.vented_kg += lost;
    plant.energy.with_refrigerant_j -= lost * h;
    events.push(Event::ReliefOpened);
}

/// Gas this thin has the temperature of the metal around it, kg/m³ (a few kilopascals).
pub(crate) const THIN_GAS_KG_M3: f64 = 0.1;

/// Thin gas takes the temperature of its walls at once; the few joules are booked as heat of the walls.
fn settle_thin_gas(plant: &mut Plant) {
    let fluid = plant.system.refrigerant.tables();
    let volumes = plant.system.volumes();
    let energy_at = |mass_kg: f64, pressure_pa: f64, wall_k: f64| {
        mass_kg * fluid.at_pt_vapour(pressure_pa.clamp(1.0e-2, 5.0e3), wall_k).internal_energy_j_kg()
    };
    if plant.high.mass_kg < THIN_GAS_KG_M3 * volumes.high_m3 {
        let energy_j = energy_at(plant.high.mass_kg, plant.high.pressure_pa, plant.condenser_wall_k);
        plant.condenser_wall_k -=
            (energy_j - plant.high.energy_j) / plant.system.condenser.metal_capacity_j_k;
        plant.high.energy_j = energy_j;
    }
    if plant.low.mass_kg < THIN_GAS_KG_M3 * volumes.low_m3 {
        let energy_j = energy_at(plant.low.mass_kg, plant.low.pressure_pa, plant.coil_wall_k());
        let colder_k = (energy_j - plant.low.energy_j) / plant.system.evaporator.metal_capacity_j_k;
        for wall_k in &mut plant.coil_walls_k {
            *wall_k -= colder_k;
        }
        plant.low.energy_j = energy_j;
    }
    if plant.line.mass_kg < THIN_GAS_KG_M3 * volumes.line_m3 {
        let energy_j = energy_at(plant.line.mass_kg, plant.line.pressure_pa, plant.slow.room_k);
        plant.energy.from_line_air_j += energy_j - plant.line.energy_j;
        plant.line.energy_j = energy_j;
    }
}
