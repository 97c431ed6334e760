//! One step of the plant: flows and heats from the present state, then one balance per level.

use media::moist_air;
use media::refrigerant::{Fluid, Phase, Refrigerant, Saturation};
use media::units::celsius_from_kelvin;

use crate::air::{air_path, coil_passage, covered_share, filter_factor};
use crate::compressor::{Compression, compress};
use crate::condenser::{self, Condensing};
use crate::control::{Events, Sensed};
use crate::evaporator::{self, Evaporating, freezing_heat_w, wet_bulb_k};
use crate::metering::{Flow, Path, txv_opening};
use crate::service::PortFlows;
use crate::state::{Effects, Event, Plant, StepError};
use crate::system::Metering;
use crate::{BulbHandling, FilterSlot, Inputs};

/// Time step of the refrigerant side used by [`advance`], s.
pub const BASE_STEP_S: f64 = 0.25;
/// Period of the slow part (airflow, house, weather), s.
const SLOW_STEP_S: f64 = 1.0;
/// Time in which the liquid line follows its hydraulic state, s.
const LINE_TIME_S: f64 = 2.0;
/// Density that no flow takes a level below, kg/m³ (a fraction of a pascal).
const TRACE_KG_M3: f64 = 1.0e-5;
/// Gas constant of air, J/(kg K).
pub(crate) const AIR_GAS_CONSTANT: f64 = 287.05;
/// Atmospheric pressure at the site, Pa.
pub(crate) const ATMOSPHERE_PA: f64 = moist_air::STANDARD_PRESSURE_PA;

/// Everything one step knows about a pressure level.
pub(crate) struct LevelState {
    pub fluid: Fluid,
    pub sat: Saturation,
    pub liquid_volume_m3: f64,
    /// Refrigerant and air together, Pa.
    pub total_pa: f64,
    /// Largest conductance that an explicit exchange of one step may use, W/K.
    pub exchange_limit_w_k: f64,
}

impl LevelState {
    pub(crate) fn of(
        fluid_tables: &Refrigerant,
        level: &crate::state::Level,
        volume_m3: f64,
        dt_s: f64,
    ) -> LevelState {
        let mass = level.mass_kg.max(1.0e-9);
        let fluid = fluid_tables.flash_uv(level.energy_j / mass, volume_m3 / mass, level.pressure_pa);
        let sat = fluid_tables.saturation(fluid.pressure_pa);
        let liquid_volume_m3 = match fluid.phase {
            Phase::Vapour => 0.0,
            Phase::TwoPhase => mass * (1.0 - fluid.quality) / sat.liquid_density_kg_m3,
            Phase::Liquid => volume_m3,
        };
        let gas_m3 = (volume_m3 - liquid_volume_m3).max(1.0e-5);
        let air_pa = level.air_kg * AIR_GAS_CONSTANT * fluid.temperature_k / gas_m3;
        // Heat capacity at constant volume: sensible, and in the dome the heat of the vapour that must form.
        let capacity = if fluid.phase == Phase::TwoPhase {
            let hfg = sat.vapour_enthalpy_j_kg - sat.liquid_enthalpy_j_kg;
            let slope = hfg / (sat.dew_k * (1.0 / sat.vapour_density_kg_m3 - 1.0 / sat.liquid_density_kg_m3));
            mass * 900.0 + gas_m3 * sat.vapour_density_kg_m3 / fluid.pressure_pa * slope * hfg
        } else {
            mass * 800.0
        };
        LevelState {
            fluid,
            sat,
            liquid_volume_m3,
            total_pa: fluid.pressure_pa + air_pa,
            exchange_limit_w_k: 0.6 * capacity / dt_s,
        }
    }
}

/// Move the plant on by `dt_s` (above 0, at most 0.5 s).
///
/// A pure function of plant, inputs and step. Errors: [`StepError::TimeStep`] for a step out of range,
/// [`StepError::NonFinite`] when a state is no longer a number; the plant is then not to be used on.
pub fn step(plant: &mut Plant, inputs: &Inputs, dt_s: f64) -> Result<Events, StepError> {
    if !(dt_s > 0.0 && dt_s <= 0.5) {
        return Err(StepError::TimeStep { dt_s });
    }
    let mut events = Events::default();
    let effects = plant.effects();
    if plant.slow.due_in_s <= 1.0e-9 {
        slow_step(plant, inputs, &effects);
        plant.slow.due_in_s = SLOW_STEP_S;
    }
    fast_step(plant, inputs, &effects, dt_s, &mut events);
    plant.time_s += dt_s;
    plant.slow.due_in_s -= dt_s;
    check_finite(plant)?;
    Ok(events)
}

/// Move the plant on by `seconds`, rounded to whole steps of [`BASE_STEP_S`]. Events are dropped.
pub fn advance(plant: &mut Plant, inputs: &Inputs, seconds: f64) -> Result<(), StepError> {
    let steps = libm::round(seconds / BASE_STEP_S) as u64;
    for _ in 0..steps {
        step(plant, inputs, BASE_STEP_S)?;
    }
    Ok(())
}

fn slow_step(plant: &mut Plant, inputs: &Inputs, effects: &Effects) {
    let slow = plant.slow;
    if slow.elapsed_s > 0.0 {
        plant.room.step(
            &plant.weather,
            plant.time_s,
            (slow.sensible_j - slow.blower_j) / slow.elapsed_s,
            slow.water_kg / slow.elapsed_s,
            slow.elapsed_s,
        );
    }
    let (room_k, humidity_ratio) = plant.room.air();
    // Once the filter has collapsed onto the coil, an empty slot no longer helps.
    let loading = effects.filter_loading;
    let covered = covered_share(loading);
    let filter = match inputs.filter {
        FilterSlot::Fitted => filter_factor(loading),
        FilterSlot::Removed if covered > 0.0 => filter_factor(loading),
        FilterSlot::Removed => 0.0,
    };
    let evaporator = &plant.system.evaporator;
    let passage = coil_passage(plant.frost.open_share(evaporator), loading);
    let path = air_path(&plant.system.air, plant.control.blower_speed, filter, passage);
    plant.slow = crate::state::Slow {
        due_in_s: 0.0,
        outdoor_k: plant.weather.outdoor_k(plant.time_s),
        room_k,
        humidity_ratio,
        airflow_m3_s: path.flow_m3_s,
        blower_power_w: path.blower_power_w,
        blower_inlet_static_pa: -(path.filter_drop_pa + path.return_drop_pa),
        supply_static_pa: path.supply_drop_pa,
        face_share: 1.0 - covered,
        ..crate::state::Slow::default()
    };
}

fn fast_step(plant: &mut Plant, inputs: &Inputs, effects: &Effects, dt_s: f64, events: &mut Events) {
    let fluid = plant.system.refrigerant.tables();
    let volumes = plant.system.volumes();
    let high = LevelState::of(fluid, &plant.high, volumes.high_m3, dt_s);
    let low = LevelState::of(fluid, &plant.low, volumes.low_m3, dt_s);
    plant.high.pressure_pa = high.fluid.pressure_pa;
    plant.low.pressure_pa = low.fluid.pressure_pa;

    let slow = plant.slow;
    let sensed = Sensed { room_k: slow.room_k, high_side_pa: high.total_pa, winding_k: plant.motor_k };
    plant.control.step(&plant.system, inputs, &sensed, dt_s, events);

    // Suction: pressure drop of the line at the last flow, then the scroll.
    let lines = &plant.system.lines;
    let last_flow = plant.last.compressor_flow_kg_s;
    let suction_pa = suction_port_pa(plant, &low);
    let outlet_h = plant.last.evaporator_outlet_enthalpy_j_kg;
    let line_heat_w = if last_flow > 1.0e-6 {
        let cp_flow = last_flow * low.sat.vapour_cp_j_kg_k;
        let from_k = plant.last.evaporator_outlet_k;
        cp_flow * (slow.outdoor_k - from_k) * (1.0 - libm::exp(-(lines.suction_ua_w_k / cp_flow).min(50.0)))
    } else {
        0.0
    };
    let suction_h =
        if last_flow > 1.0e-6 { outlet_h + line_heat_w / last_flow } else { low.fluid.enthalpy_j_kg };
    let at_valve = fluid.at_ph(suction_pa.min(low.fluid.pressure_pa), suction_h);
    plant.last.suction_outdoor_k = at_valve.temperature_k;

    let motor = &plant.system.compressor;
    let flow_share = last_flow / motor.rated_flow_kg_s;
    let motor_ua = motor.motor_to_gas_w_k * libm::sqrt(flow_share.max(0.0)) + 2.0;
    let motor_ua = motor_ua.min(low.exchange_limit_w_k);
    let gas_k = if last_flow > 1.0e-6 { at_valve.temperature_k } else { low.fluid.temperature_k };
    let motor_to_gas_w = motor_ua * (plant.motor_k - gas_k);
    let inlet_h = if last_flow > 1.0e-6 {
        suction_h + (motor_to_gas_w / last_flow).clamp(-2.0e4, 6.0e4)
    } else {
        suction_h
    };
    let motor_to_gas_w = if last_flow > 1.0e-6 { (inlet_h - suction_h) * last_flow } else { motor_to_gas_w };
    let inlet = fluid.at_ph(suction_pa.min(low.fluid.pressure_pa), inlet_h);
    let mut compression = compress(
        motor,
        fluid,
        &inlet,
        high.total_pa,
        plant.last.discharge_enthalpy_j_kg,
        plant.control.compressor_speed,
    );
    // No step may take more than a fifth of the level's mass.
    let most = 0.2 * available_kg(plant.low.mass_kg, volumes.low_m3) / dt_s;
    if compression.flow_kg_s > most {
        let share = most / compression.flow_kg_s;
        compression.flow_kg_s = most;
        compression.power_w *= share;
        compression.motor_heat_w *= share;
    }
    let m_c = compression.flow_kg_s;

    let opening = metering_opening(plant, effects, &low);
    let flow = metering_flow(plant, &high, &low, opening);
    plant.line.pressure_pa = 0.5 * (flow.after_drier_pa + flow.valve_inlet_pa);
    let (m_v, m_o) = line_flows(plant, &flow, volumes.line_m3, dt_s);
    let line_h = line_enthalpy(plant, volumes.line_m3);

    // Hot discharge gas warms the top of the shell, and with it motor and overload.
    let port_k = fluid.at_ph(high.fluid.pressure_pa, compression.discharge_enthalpy_j_kg).temperature_k;
    let discharge_to_motor_w = if m_c > 1.0e-5 {
        (motor.discharge_to_motor_w_k * (port_k - plant.motor_k)).clamp(-2.0e4 * m_c, 8.0e4 * m_c)
    } else {
        0.0
    };
    let discharge_h = if m_c > 1.0e-5 {
        compression.discharge_enthalpy_j_kg - discharge_to_motor_w / m_c
    } else {
        compression.discharge_enthalpy_j_kg
    };
    let discharge_k = fluid.at_ph(high.fluid.pressure_pa, discharge_h).temperature_k;
    let condensing = condenser::condense(
        &plant.system.condenser,
        &condenser::Around {
            outdoor_k: slow.outdoor_k,
            fan_speed: plant.control.outdoor_fan_speed,
            inlet_flow_kg_s: m_c,
            inlet_enthalpy_j_kg: discharge_h,
            outlet_flow_kg_s: m_o.max(0.0),
            liquid_volume_m3: high.liquid_volume_m3,
            dt_s,
        },
        &high.fluid,
        &high.sat,
        discharge_k,
        plant.condenser_wall_k,
        high.exchange_limit_w_k,
    );
    let had_frost = plant.frost.mass_kg > 0.0;
    let mut frost = plant.frost;
    let evaporating = evaporator::evaporate(
        &plant.system.evaporator,
        &evaporator::Around {
            room_k: slow.room_k,
            room_humidity_ratio: slow.humidity_ratio,
            airflow_m3_s: slow.airflow_m3_s,
            rated_airflow_m3_s: plant.system.air.rated_flow_m3_s,
            blower_speed: plant.control.blower_speed,
            face_share: slow.face_share,
            inlet_enthalpy_j_kg: line_h,
            inlet_flow_kg_s: m_v,
            outlet_flow_kg_s: m_c,
            rated_flow_kg_s: motor.rated_flow_kg_s,
            liquid_volume_m3: low.liquid_volume_m3,
            exchange_limit_w_k: low.exchange_limit_w_k,
            dt_s,
        },
        &low.fluid,
        &low.sat,
        plant.coil_wall_k,
        &mut frost,
    );
    plant.frost = frost;
    match (had_frost, plant.frost.mass_kg > 0.0) {
        (false, true) => events.push(Event::FrostBegan),
        (true, false) => events.push(Event::FrostGone),
        _ => {}
    }
    if evaporating.wetted_share > 1.2 && m_c > 0.0 {
        events.push(Event::FloodBack);
    }

    balance(
        plant,
        effects,
        inputs,
        &Fluxes {
            m_c,
            m_v,
            m_o,
            line_h,
            compression,
            condensing,
            evaporating,
            motor_to_gas_w,
            discharge_to_motor_w,
            line_heat_w,
            back_flow_h: low.fluid.enthalpy_j_kg,
        },
        &high,
        &low,
        dt_s,
        events,
    );
    bulb_step(plant, inputs, effects, &evaporating, dt_s);

    let speed_before = plant.last;
    plant.last = crate::state::Last {
        valve_flow_kg_s: m_v,
        outlet_flow_kg_s: m_o,
        compressor_flow_kg_s: m_c,
        compressor_power_w: compression.power_w,
        discharge_enthalpy_j_kg: if m_c > 0.0 {
            compression.discharge_enthalpy_j_kg
        } else {
            speed_before.discharge_enthalpy_j_kg
        },
        evaporator_outlet_k: evaporating.outlet_k,
        evaporator_outlet_enthalpy_j_kg: evaporating.outlet_enthalpy_j_kg,
        outlet_density_kg_m3: condensing.outlet_density_kg_m3,
        outlet_enthalpy_j_kg: condensing.outlet_enthalpy_j_kg,
        ..speed_before
    };
    if plant.slow.due_in_s - dt_s <= 1.0e-9 {
        plant.write_readout(&high, &low, &flow, &condensing, &evaporating, opening, discharge_k, suction_pa);
        watch_step(plant);
    }
}

/// Pressure at the suction port, Pa: evaporator less the drop of the line.
fn suction_port_pa(plant: &Plant, low: &LevelState) -> f64 {
    let m = plant.last.compressor_flow_kg_s;
    let drop = plant.system.lines.suction_resistance * m * m / low.sat.vapour_density_kg_m3.max(1.0);
    (low.total_pa - drop).max(0.3 * low.total_pa)
}

/// Opening of the metering device with its faults, 0 to 1.
fn metering_opening(plant: &Plant, effects: &Effects, low: &LevelState) -> f64 {
    let natural = match &plant.system.metering {
        Metering::Txv { bulb_pressure_max_pa, .. } => {
            let bulb_pa =
                plant.system.refrigerant.tables().dew_pressure_pa(plant.bulb_k).min(*bulb_pressure_max_pa);
            txv_opening(&plant.system.metering, bulb_pa, low.total_pa)
        }
        Metering::Orifice { .. } => 1.0,
    };
    natural.max(effects.opening_min).min(effects.opening_max.max(0.002))
}

fn metering_flow(plant: &Plant, high: &LevelState, low: &LevelState, opening: f64) -> Flow {
    let area = match &plant.system.metering {
        Metering::Txv { area_m2, .. } | Metering::Orifice { area_m2 } => *area_m2,
    };
    Path {
        fluid: plant.system.refrigerant.tables(),
        condenser_pa: high.total_pa,
        outlet_density_kg_m3: plant.last.outlet_density_kg_m3.max(0.1),
        line_enthalpy_j_kg: line_enthalpy(plant, plant.system.lines.liquid_volume_m3),
        drier_resistance: plant.system.lines.drier_resistance,
        line_resistance: plant.system.lines.liquid_resistance,
        evaporator_pa: low.total_pa,
        area_m2: area * opening,
        metering: &plant.system.metering,
    }
    .solve(plant.last.valve_flow_kg_s)
}

/// Enthalpy of what stands in the liquid line, J/kg.
pub(crate) fn line_enthalpy(plant: &Plant, volume_m3: f64) -> f64 {
    let line = &plant.line;
    let h = (line.energy_j + line.pressure_pa * volume_m3) / line.mass_kg.max(1.0e-9);
    // Bounds keep the last milligrams of an evacuated line harmless.
    h.clamp(1.2e5, 5.2e5)
}

/// Flow through the metering device and out of the condenser, kg/s. The line fills towards the mass that its
/// hydraulic state asks for; no flow takes more than a fifth of what is there in one step.
fn line_flows(plant: &Plant, flow: &Flow, volume_m3: f64, dt_s: f64) -> (f64, f64) {
    let volumes = plant.system.volumes();
    let line_most = 0.2 * available_kg(plant.line.mass_kg, volume_m3) / dt_s;
    let low_most = 0.2 * available_kg(plant.low.mass_kg, volumes.low_m3) / dt_s;
    let high_most = 0.2 * available_kg(plant.high.mass_kg, volumes.high_m3) / dt_s;
    let m_v = flow.flow_kg_s.clamp(-low_most, line_most);
    let wanted = volume_m3 * flow.line_density_kg_m3;
    let fill = (wanted - plant.line.mass_kg) / LINE_TIME_S;
    let m_o = (m_v + fill).clamp(-line_most, high_most).clamp(-0.2, 0.4);
    (m_v, m_o)
}

/// Mass that may leave a level: a last trace stays, so that its state stays a state, kg.
pub(crate) fn available_kg(mass_kg: f64, volume_m3: f64) -> f64 {
    (mass_kg - TRACE_KG_M3 * volume_m3).max(0.0)
}

/// Gas this thin has the temperature of the metal around it, kg/m³ (a few kilopascals).
const THIN_GAS_KG_M3: f64 = 0.1;

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
        let energy_j = energy_at(plant.low.mass_kg, plant.low.pressure_pa, plant.coil_wall_k);
        plant.coil_wall_k -= (energy_j - plant.low.energy_j) / plant.system.evaporator.metal_capacity_j_k;
        plant.low.energy_j = energy_j;
    }
    if plant.line.mass_kg < THIN_GAS_KG_M3 * volumes.line_m3 {
        let energy_j = energy_at(plant.line.mass_kg, plant.line.pressure_pa, plant.slow.room_k);
        plant.energy.from_line_air_j += energy_j - plant.line.energy_j;
        plant.line.energy_j = energy_j;
    }
}

struct Fluxes {
    m_c: f64,
    m_v: f64,
    m_o: f64,
    line_h: f64,
    compression: Compression,
    condensing: Condensing,
    evaporating: Evaporating,
    motor_to_gas_w: f64,
    discharge_to_motor_w: f64,
    line_heat_w: f64,
    back_flow_h: f64,
}

#[expect(clippy::too_many_arguments, reason = "the one place where all fluxes of a step meet")]
fn balance(
    plant: &mut Plant,
    effects: &Effects,
    inputs: &Inputs,
    f: &Fluxes,
    high: &LevelState,
    low: &LevelState,
    dt_s: f64,
    events: &mut Events,
) {
    let slow = plant.slow;
    let lines = &plant.system.lines;
    let running = f.m_c > 1.0e-9;

    // Flows between the levels.
    let h_o = if f.m_o >= 0.0 { f.condensing.outlet_enthalpy_j_kg } else { f.line_h };
    let h_v = if f.m_v >= 0.0 { f.line_h } else { f.back_flow_h };
    let line_k_state = plant.system.refrigerant.tables().at_ph(plant.line.pressure_pa, f.line_h);
    let line_limit = 0.5 * plant.line.mass_kg * 900.0 / dt_s;
    let line_heat = lines.liquid_ua_w_k.min(line_limit) * (slow.room_k - line_k_state.temperature_k);
    // The compressor takes out of the low side what it delivers less the work it did on it.
    let discharge_heat = f.m_c * f.compression.discharge_enthalpy_j_kg;
    let gas_power = f.compression.power_w - f.compression.motor_heat_w;
    let low_out = if running { discharge_heat - gas_power } else { 0.0 };
    plant.high.mass_kg += dt_s * (f.m_c - f.m_o);
    plant.high.energy_j += dt_s
        * (discharge_heat
            - f.discharge_to_motor_w
            - f.m_o * h_o
            - f.condensing.heat_to_wall_w
            - f.condensing.heat_to_air_w);
    plant.line.mass_kg += dt_s * (f.m_o - f.m_v);
    plant.line.energy_j += dt_s * (f.m_o * h_o - f.m_v * h_v + line_heat);
    plant.low.mass_kg += dt_s * (f.m_v - f.m_c);
    plant.low.energy_j += dt_s
        * (f.m_v * h_v + f.evaporating.heat_to_refrigerant_w + f.line_heat_w + f.motor_to_gas_w - low_out);

    // Air that got in is pumped to the condenser with the gas and stays there; it comes back only with
    // vapour that reaches the metering device.
    if plant.low.air_kg > 0.0 && f.m_c > 0.0 {
        let moved = plant.low.air_kg * (f.m_c * dt_s / plant.low.mass_kg.max(1.0e-9)).min(0.2);
        plant.low.air_kg -= moved;
        plant.high.air_kg += moved;
    }
    if plant.high.air_kg > 0.0 {
        let dp = (high.total_pa - low.total_pa).max(0.0);
        let vapour_share = line_k_state.quality * f.m_v.max(0.0) / plant.high.mass_kg.max(1.0e-9);
        // With the system empty of liquid the two sides equalise through the metering device.
        let open = if high.liquid_volume_m3 < 1.0e-6 { 0.02 * dp / (dp + 1.0e4) } else { 0.0 };
        let moved = plant.high.air_kg * ((vapour_share + open) * dt_s).min(0.2);
        plant.high.air_kg -= moved;
        plant.low.air_kg += moved;
    }

    leaks(plant, effects, high, low, f.line_h, dt_s);
    let ports = PortFlows::of(plant, inputs, high, low, dt_s);
    ports.book(plant, dt_s);
    relief(plant, high, dt_s, events);

    // Walls, motor.
    plant.condenser_wall_k = f.condensing.wall_k;
    plant.coil_wall_k = f.evaporating.wall_k;
    settle_thin_gas(plant);
    let motor = &plant.system.compressor;
    let to_air = motor.shell_to_air_w_k * (plant.motor_k - slow.outdoor_k);
    plant.motor_k += dt_s * (f.compression.motor_heat_w + f.discharge_to_motor_w - f.motor_to_gas_w - to_air)
        / motor.motor_capacity_j_k;

    let e = &mut plant.energy;
    e.from_room_air_j += dt_s * (f.evaporating.sensible_w + f.evaporating.latent_w);
    e.compressor_j += dt_s * f.compression.power_w;
    e.to_outdoor_air_j += dt_s * (f.condensing.wall_to_air_w + f.condensing.heat_to_air_w + to_air);
    e.from_line_air_j += dt_s * (f.line_heat_w + line_heat);
    e.to_melting_j += dt_s * f.evaporating.melt_w;

    let s = &mut plant.slow;
    s.sensible_j += dt_s * f.evaporating.sensible_w;
    s.water_kg += dt_s * f.evaporating.water_kg_s;
    s.blower_j += dt_s * s.blower_power_w;
    s.elapsed_s += dt_s;
}

/// Escape through holes: choked orifice flow of what stands at the place, going to zero at atmospheric
/// pressure; below it air comes in.
fn leaks(plant: &mut Plant, effects: &Effects, high: &LevelState, low: &LevelState, line_h: f64, dt_s: f64) {
    let fluid = plant.system.refrigerant.tables();
    for (slot, area) in effects.hole_m2.iter().copied().enumerate() {
        if area <= 0.0 {
            continue;
        }
        let liquid_line = slot == 2;
        let pressure = if liquid_line { plant.line.pressure_pa.min(high.total_pa) } else { low.total_pa };
        let excess = pressure - ATMOSPHERE_PA;
        let ramp = excess / libm::sqrt(excess * excess + 1.0e4 * 1.0e4);
        if excess <= 0.0 {
            let inflow = 0.6 * area * 200.0 * 1.2 * -ramp * dt_s;
            if liquid_line {
                plant.high.air_kg += inflow;
            } else {
                plant.low.air_kg += inflow;
            }
            continue;
        }
        let (density, h) = if liquid_line {
            let at = fluid.at_ph(plant.line.pressure_pa, line_h);
            (at.density_kg_m3, line_h)
        } else {
            let h = low.fluid.enthalpy_j_kg.max(low.sat.vapour_enthalpy_j_kg);
            (low.sat.vapour_density_kg_m3.min(low.fluid.density_kg_m3.max(0.01)), h)
        };
        // 0.6 discharge coefficient; 0.67 the choked factor of a gas with an exponent near 1.15; a liquid
        // that flashes in the hole is limited in a similar way.
        let flow = 0.6 * 0.67 * area * libm::sqrt(density * pressure) * ramp;
        let mass = if liquid_line { plant.line.mass_kg } else { plant.low.mass_kg };
        let lost = (flow * dt_s).min(0.02 * mass);
        if liquid_line {
            plant.line.mass_kg -= lost;
            plant.line.energy_j -= lost * h;
        } else {
            plant.low.mass_kg -= lost;
            plant.low.energy_j -= lost * h;
        }
        plant.ledger.leaked_kg += lost;
    }
}

/// The relief device: opens above its setting before the tables end.
fn relief(plant: &mut Plant, high: &LevelState, dt_s: f64, events: &mut Events) {
    let excess = high.total_pa - plant.system.controls.relief_pa;
    if excess <= 0.0 {
        return;
    }
    let flow = 1.0 * (excess / 1.0e5).min(2.0);
    let lost = (flow * dt_s).min(0.05 * plant.high.mass_kg);
    plant.high.mass_kg -= lost;
    plant.high.energy_j -=
        lost * high.sat.vapour_enthalpy_j_kg.min(high.fluid.enthalpy_j_kg.max(high.sat.liquid_enthalpy_j_kg));
    plant.ledger.vented_kg += lost;
    events.push(Event::ReliefOpened);
}

fn bulb_step(plant: &mut Plant, inputs: &Inputs, effects: &Effects, e: &Evaporating, dt_s: f64) {
    let Metering::Txv { bulb_time_s, .. } = plant.system.metering else {
        plant.bulb_k = e.outlet_k;
        return;
    };
    let (target, time_s) = match inputs.bulb {
        BulbHandling::AsInstalled => {
            // A bare bulb at the foot of the coil takes the temperature of the air and the drip off the coldest rows.
            let exposure = effects.bulb_exposure;
            ((1.0 - exposure) * e.outlet_k + exposure * e.cold_end_k, bulb_time_s)
        }
        // A hand is about 33 °C at the skin; air alone couples three times more slowly.
        BulbHandling::HeldInHand => (306.15, bulb_time_s),
        BulbHandling::HungInRoomAir => (plant.slow.room_k, 3.0 * bulb_time_s),
    };
    plant.bulb_k += (target - plant.bulb_k) * (dt_s / time_s).min(1.0);
}

/// Samples the readout, a second old at most, and closes a mean each minute.
fn watch_step(plant: &mut Plant) {
    if !plant.compressor_runs() {
        plant.watch = crate::state::SteadyWatch::default();
        return;
    }
    let r = &plant.readout;
    let sample = [
        r.suction_pressure_pa,
        r.liquid_pressure_pa,
        r.suction_line_outdoor_k,
        r.liquid_before_drier_k,
        r.supply_dry_bulb_k,
    ];
    let w = &mut plant.watch;
    for (sum, value) in w.sums.iter_mut().zip(sample) {
        *sum += value;
    }
    w.count += 1.0;
    if w.count < 60.0 {
        return;
    }
    let means = w.sums.map(|sum| sum / w.count);
    let bands = [0.01 * w.means[0], 0.01 * w.means[1], 0.5, 0.5, 0.3];
    let agrees = (0..5).all(|i| (means[i] - w.means[i]).abs() <= bands[i]);
    *w = crate::state::SteadyWatch {
        sums: [0.0; 5],
        count: 0.0,
        means,
        agreeing: if agrees { w.agreeing + 1 } else { 0 },
    };
}

fn check_finite(plant: &Plant) -> Result<(), StepError> {
    let states = [
        ("high-side mass", plant.high.mass_kg),
        ("high-side energy", plant.high.energy_j),
        ("liquid-line mass", plant.line.mass_kg),
        ("liquid-line energy", plant.line.energy_j),
        ("low-side mass", plant.low.mass_kg),
        ("low-side energy", plant.low.energy_j),
        ("condenser wall temperature", plant.condenser_wall_k),
        ("coil wall temperature", plant.coil_wall_k),
        ("motor temperature", plant.motor_k),
        ("bulb temperature", plant.bulb_k),
        ("frost mass", plant.frost.mass_kg),
        ("room temperature", plant.slow.room_k),
    ];
    for (state, value) in states {
        if !value.is_finite() {
            return Err(StepError::NonFinite { state, time_s: plant.time_s });
        }
    }
    Ok(())
}

impl Plant {
    /// Readout of a plant that has just been made or changed by hand.
    pub(crate) fn refresh_readout(&mut self) {
        let fluid = self.system.refrigerant.tables();
        let volumes = self.system.volumes();
        let high = LevelState::of(fluid, &self.high, volumes.high_m3, BASE_STEP_S);
        let low = LevelState::of(fluid, &self.low, volumes.low_m3, BASE_STEP_S);
        let line_h = line_enthalpy(self, volumes.line_m3);
        let flow = Flow {
            flow_kg_s: 0.0,
            after_drier_pa: high.total_pa,
            valve_inlet_pa: high.total_pa,
            line_density_kg_m3: self.line.mass_kg / volumes.line_m3,
        };
        let condensing = Condensing {
            outlet_enthalpy_j_kg: line_h,
            wall_k: self.condenser_wall_k,
            ..Condensing::default()
        };
        let evaporating = Evaporating {
            outlet_enthalpy_j_kg: low.fluid.enthalpy_j_kg,
            outlet_k: low.fluid.temperature_k,
            wall_k: self.coil_wall_k,
            coil_leaving_k: self.slow.room_k,
            coil_leaving_humidity_ratio: self.slow.humidity_ratio,
            cabinet_air_k: self.coil_wall_k,
            ..Evaporating::default()
        };
        let suction_pa = low.total_pa;
        self.write_readout(
            &high,
            &low,
            &flow,
            &condensing,
            &evaporating,
            0.0,
            self.slow.outdoor_k,
            suction_pa,
        );
    }

    #[expect(clippy::too_many_arguments, reason = "gathers every result of a step once a second")]
    fn write_readout(
        &mut self,
        high: &LevelState,
        low: &LevelState,
        flow: &Flow,
        condensing: &Condensing,
        e: &Evaporating,
        opening: f64,
        discharge_k: f64,
        suction_pa: f64,
    ) {
        let fluid = self.system.refrigerant.tables();
        let slow = self.slow;
        let before = fluid.at_ph(high.total_pa, condensing.outlet_enthalpy_j_kg);
        let line_h = line_enthalpy(self, self.system.lines.liquid_volume_m3);
        let after = fluid.at_ph(flow.after_drier_pa, condensing.outlet_enthalpy_j_kg);
        let indoor = fluid.at_ph(flow.valve_inlet_pa, line_h);
        let dry_air = e.dry_air_kg_s;
        let supply_k = if dry_air > 1.0e-2 {
            e.coil_leaving_k + slow.blower_power_w / (dry_air * e.air_cp_j_kg_k)
        } else {
            slow.room_k
        };
        let supply_w = if dry_air > 1.0e-2 { e.coil_leaving_humidity_ratio } else { slow.humidity_ratio };
        let low_liquid_kg = low.liquid_volume_m3 * low.sat.liquid_density_kg_m3;
        let volumes = self.system.volumes();
        let gas_density =
            (self.low.mass_kg - low_liquid_kg).max(0.0) / (volumes.low_m3 - low.liquid_volume_m3).max(1.0e-6);
        let suction_volume = self.system.lines.suction_volume_m3 + self.system.compressor.shell_volume_m3;
        let suction_kg = (gas_density * suction_volume).min(self.low.mass_kg);
        let gross = e.sensible_w + e.latent_w - freezing_heat_w(e);
        let suction_dew_k = fluid.dew_k(suction_pa);
        let stopped = !self.compressor_runs();
        self.readout = crate::Readout {
            suction_pressure_pa: suction_pa,
            liquid_pressure_pa: high.total_pa,
            evaporator_pressure_pa: low.total_pa,
            evaporating_k: fluid.dew_k(low.total_pa),
            condensing_k: fluid.dew_k(high.total_pa),
            superheat_k: self.last.suction_outdoor_k - suction_dew_k,
            subcooling_k: fluid.bubble_k(high.total_pa) - before.temperature_k,
            suction_line_indoor_k: if stopped { self.coil_wall_k } else { e.outlet_k },
            suction_line_outdoor_k: self.last.suction_outdoor_k,
            liquid_before_drier_k: before.temperature_k,
            liquid_after_drier_k: after.temperature_k,
            liquid_indoor_k: indoor.temperature_k,
            discharge_k: if stopped { self.motor_k } else { discharge_k },
            bulb_k: self.bulb_k,
            metering_opening: opening,
            metering_flow_kg_s: flow.flow_kg_s,
            compressor_flow_kg_s: self.last.compressor_flow_kg_s,
            return_dry_bulb_k: slow.room_k,
            return_wet_bulb_k: wet_bulb_k(slow.room_k, slow.humidity_ratio),
            supply_dry_bulb_k: supply_k,
            supply_wet_bulb_k: wet_bulb_k(supply_k, supply_w).min(supply_k),
            cabinet_air_k: e.cabinet_air_k,
            airflow_m3_s: slow.airflow_m3_s,
            blower_inlet_static_pa: slow.blower_inlet_static_pa,
            supply_static_pa: slow.supply_static_pa,
            gross_cooling_w: gross,
            sensible_cooling_w: e.sensible_w,
            net_cooling_w: gross - slow.blower_power_w,
            compressor_power_w: self.last.compressor_power_w,
            outdoor_fan_power_w: self.system.condenser.fan_power_w * self.control.outdoor_fan_speed,
            blower_power_w: slow.blower_power_w,
            heat_to_outdoors_w: condensing.wall_to_air_w + condensing.heat_to_air_w,
            frost_mass_kg: self.frost.mass_kg,
            iced_share: self.frost.iced_share,
            open_share: self.frost.open_share(&self.system.evaporator),
            coil_surface_k: self.coil_wall_k,
            outdoor_k: slow.outdoor_k,
            room_k: slow.room_k,
            room_relative_humidity: moist_air::relative_humidity(
                celsius_from_kelvin(slow.room_k),
                slow.humidity_ratio,
                ATMOSPHERE_PA,
            ),
            winding_k: self.motor_k,
            charge_condenser_kg: self.high.mass_kg,
            charge_liquid_line_kg: self.line.mass_kg,
            charge_evaporator_kg: self.low.mass_kg - suction_kg,
            charge_suction_kg: suction_kg,
            charge_total_kg: self.circuit_kg(),
            blower_speed: self.control.blower_speed,
            compressor_speed: self.control.compressor_speed,
            outdoor_fan_speed: self.control.outdoor_fan_speed,
        };
    }
}
