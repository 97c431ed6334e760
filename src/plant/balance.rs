//! The balances of one step: what the fluxes do to levels, metal, ledgers.

use media::refrigerant::Saturation;

use crate::Inputs;
use crate::compressor::ShellHeats;
use crate::condenser::Condensing;
use crate::contents::THIN_GAS_KG_M3;
use crate::control::Events;
use crate::evaporator::Evaporating;
use crate::event::Event;
use crate::fault::Effects;
use crate::flows::Flows;
use crate::gas::step as move_gas;
use crate::leak::{Mixture, escape_kg_s, leaks};
use crate::level::{LevelState, available_kg};
use crate::limit::Bound;
use crate::service::{PortFlows, follow_hoses, move_water};
use crate::state::Plant;
use crate::tangents::{PLACE, stretch_by_quality};

/// Everything that flows in one step.
pub(crate) struct Fluxes<'a> {
    pub flows: &'a Flows,
    pub condensing: Condensing,
    pub evaporating: Evaporating,
    /// Enthalpy of what flows back from the evaporator through the metering device, J/kg.
    pub back_flow_h: f64,
    /// Saturation on the low side.
    pub low_sat: &'a Saturation,
}

/// Rates of the levels and of the motor, but for leaks, service ports and relief.
pub(crate) struct LevelRates {
    pub high_kg_s: f64,
    pub high_w: f64,
    pub line_kg_s: f64,
    pub line_w: f64,
    pub low_kg_s: f64,
    pub low_w: f64,
    /// Net heat to the motor, and to scrolls and dome, W.
    pub motor_w: f64,
    pub dome_w: f64,
    /// Refrigerant into the sump.
    pub sump_kg_s: f64,
    /// Heat from the air around the liquid line, W.
    pub line_heat_w: f64,
    /// Heat from the shell to outdoor air, W.
    pub shell_to_air_w: f64,
    /// Quality of what stands in the liquid line.
    pub line_quality: f64,
}

impl LevelRates {
    /// The rates; `dt_s` bounds the exchange of a liquid line that is nearly empty.
    pub(crate) fn of(plant: &mut Plant, f: &Fluxes<'_>, dt_s: f64) -> LevelRates {
        let Flows { compressor_kg_s, valve_kg_s, outlet_kg_s, line_enthalpy_j_kg, standing, .. } = *f.flows;
        let standing_w = standing.flow_kg_s * standing.enthalpy_j_kg;
        let flows = f.flows;
        let h_o = if outlet_kg_s >= 0.0 { f.condensing.outlet_enthalpy_j_kg } else { line_enthalpy_j_kg };
        let h_v = if valve_kg_s >= 0.0 { line_enthalpy_j_kg } else { f.back_flow_h };
        let fluid = plant.system.refrigerant.tables();
        let arguments = [plant.line.pressure_pa, line_enthalpy_j_kg];
        let [in_line_k, line_quality] = plant.tangents.in_line.follow([], arguments, PLACE, |a| {
            let (temperature_k, quality) = fluid.isobar(a[0]).temperature_k_and_quality(a[1]);
            ([temperature_k, quality], stretch_by_quality(quality))
        });
        let slow = &plant.slow;
        let lines = &plant.system.lines;
        let line_limit = 0.5 * plant.line.mass_kg * 900.0 / dt_s;
        let line_heat_w = lines.liquid_ua_w_k.min(line_limit) * (slow.room_k - in_line_k);
        let discharge_heat = compressor_kg_s * flows.compression.discharge_enthalpy_j_kg;
        let gas_power = flows.compression.power_w - flows.compression.motor_heat_w;
        let at_scrolls = compressor_kg_s * flows.inlet_j_kg;
        // The shell: what the suction line brings, less what falls into the sump, with what boils out of it, leaves to the
        // scrolls; the motor gives the rest.
        let stream = flows.suction_kg_s;
        let falls_kg_s = flows.sump.falls_share * stream;
        let sat = f.low_sat;
        let suction_w = stream * flows.stream_enthalpy_j_kg;
        let motor_to_gas_w = at_scrolls
            - (suction_w - falls_kg_s * sat.liquid_enthalpy_j_kg)
            - flows.sump.boils_kg_s * sat.vapour_enthalpy_j_kg
            + flows.resting_gas_w;
        let sump_to_shell_w = flows.sump.heat_to_shell_w(sat, stream);
        // What the gas at the port does not carry of the work, it left on its way round inside: in the scrolls as it slipped
        // through them, in the motor as the relief let it out over it.
        let in_scrolls_w = flows.compression.left_in_scrolls_w;
        let over_motor_w = gas_power - (discharge_heat - at_scrolls) - in_scrolls_w;
        let shell = ShellHeats::of(
            &plant.system.compressor,
            &flows.compression,
            [plant.motor_k, plant.dome_k, slow.outdoor_k],
            flows.gas_to_dome_w,
            motor_to_gas_w,
        );
        LevelRates {
            high_kg_s: compressor_kg_s + standing.flow_kg_s - outlet_kg_s,
            high_w: discharge_heat + standing_w
                - flows.gas_to_dome_w
                - outlet_kg_s * h_o
                - f.condensing.heat_to_wall_w
                - f.condensing.heat_to_air_w,
            line_kg_s: outlet_kg_s - valve_kg_s,
            line_w: outlet_kg_s * h_o - valve_kg_s * h_v + line_heat_w,
            low_kg_s: valve_kg_s - stream - standing.flow_kg_s,
            low_w: valve_kg_s * h_v
                + f.evaporating.heat_to_refrigerant_w
                + flows.line_heat_w
                + flows.resting_gas_w
                - suction_w
                - standing_w,
            motor_w: shell.motor_w + over_motor_w + sump_to_shell_w,
            sump_kg_s: falls_kg_s - flows.sump.boils_kg_s,
            dome_w: shell.dome_w,
            line_heat_w,
            shell_to_air_w: shell.to_air_w,
            line_quality,
        }
    }
}

#[expect(clippy::too_many_arguments, reason = "the one place where all fluxes of a step meet")]
pub(crate) fn balance(
    plant: &mut Plant,
    effects: &Effects,
    inputs: &Inputs,
    ports: &PortFlows,
    f: &Fluxes<'_>,
    high: &LevelState,
    low: &LevelState,
    dt_s: f64,
    events: &mut Events,
) {
    let rates = LevelRates::of(plant, f, dt_s);
    let from_line_air_before_j = plant.energy.from_line_air_j;
    let m_c = f.flows.compressor_kg_s;
    plant.high.mass_kg += dt_s * rates.high_kg_s;
    plant.high.energy_j += dt_s * rates.high_w;
    plant.line.mass_kg += dt_s * rates.line_kg_s;
    plant.line.energy_j += dt_s * rates.line_w;
    plant.low.mass_kg += dt_s * rates.low_kg_s;
    plant.low.energy_j += dt_s * rates.low_w;
    plant.sump_kg += dt_s * rates.sump_kg_s;

    move_gas(plant, f.flows, rates.line_quality, high, low, dt_s);
    leaks(plant, effects, high, low, f.flows.line_enthalpy_j_kg, dt_s);
    ports.book(plant, dt_s);
    follow_hoses(plant, inputs, high, low, dt_s);
    move_water(plant, f.flows.outlet_kg_s, m_c, dt_s);
    relief(plant, high, dt_s, events);

    // Walls, motor.
    plant.condenser_wall_k = f.condensing.wall_k;
    plant.coil_walls_k = f.evaporating.walls_k;
    settle_thin_gas(plant);
    plant.motor_k += dt_s * rates.motor_w / plant.system.compressor.motor_capacity_j_k;
    plant.dome_k += dt_s * rates.dome_w / plant.system.compressor.dome_capacity_j_k;

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
    s.to_lines_j += plant.energy.from_line_air_j - from_line_air_before_j;
    s.elapsed_s += dt_s;
}

/// Passage of the relief device when it is wide open, m² (typ. of a plug or valve of a quarter inch, 5 mm clear).
const RELIEF_AREA_M2: f64 = 2.0e-5;
/// Rise of the pressure over its setting at which it is wide open, Pa (typ.; narrow, so that it acts before the property
/// tables end).
const RELIEF_SPAN_PA: f64 = 1.0e5;
/// Largest share of the high side that it takes in one step (numerical).
const RELIEF_MOST_SHARE: f64 = 0.05;

/// The relief device lets out what stands in the high side as a whole, liquid with its gas, by the choked flow of a hole.
fn relief(plant: &mut Plant, high: &LevelState, dt_s: f64, events: &mut Events) {
    let excess_pa = high.total_pa - plant.system.controls.relief_pa;
    if excess_pa <= 0.0 {
        return;
    }
    let volume_m3 = plant.system.volumes().high_m3;
    let level = &mut plant.high;
    let mixture = Mixture {
        refrigerant_kg_m3: level.mass_kg / volume_m3,
        gas_kg_m3: level.air_kg / volume_m3,
        steam_kg_m3: level.steam_kg / volume_m3,
        pressure_pa: high.total_pa,
    };
    let area_m2 = RELIEF_AREA_M2 * (excess_pa / RELIEF_SPAN_PA).min(1.0);
    // All of it has one composition, so that it goes by one share.
    let taken_1_s = escape_kg_s(area_m2, &mixture) / (mixture.density_kg_m3() * volume_m3);
    let share = plant.limiter.at_most(Bound::Relief, taken_1_s * dt_s, RELIEF_MOST_SHARE);
    let (gas, steam) = (share * level.air_kg, share * level.steam_kg);
    let lost = share * available_kg(level.mass_kg, volume_m3);
    level.air_kg -= gas;
    level.steam_kg -= steam;
    level.mass_kg -= lost;
    level.energy_j -= lost * high.fluid.enthalpy_j_kg;
    plant.service.gas.out_kg += gas;
    plant.service.water.out_kg += steam;
    plant.ledger.vented_kg += lost;
    plant.energy.with_refrigerant_j -= lost * high.fluid.enthalpy_j_kg;
    events.push(Event::ReliefOpened);
}

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
