//! One step of the plant: flows and heats from the present state, then one balance per level.

use media::moist_air;
use media::units::celsius_from_kelvin;

use crate::air::{Passages, coil_passage, covered_share, filter_factor};
use crate::balance::{ATMOSPHERE_PA, Fluxes, balance};
use crate::compressor::compress;
use crate::condenser;
use crate::control::{Events, Sensed};
use crate::evaporator::{self, Evaporating};
use crate::house::AirMoved;
use crate::level::{LevelState, available_kg};
use crate::metering::{Flow, Path, txv_opening};
use crate::readout::Snapshot;
use crate::state::{Effects, Event, Last, Plant, Slow, StepError};
use crate::system::Metering;
use crate::watch::watch_step;
use crate::{BulbHandling, FilterSlot, Inputs};

/// Time step of the refrigerant side used by [`advance`], s.
pub const BASE_STEP_S: f64 = 0.25;
/// Period of the slow part (airflow, house, weather), s.
const SLOW_STEP_S: f64 = 1.0;
/// Time in which the liquid line follows its hydraulic state, s.
const LINE_TIME_S: f64 = 2.0;

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
        let air_kg_s = slow.airflow_m3_s
            / moist_air::specific_volume_m3_kg(
                celsius_from_kelvin(slow.return_k),
                slow.return_humidity_ratio,
                ATMOSPHERE_PA,
            );
        let moved = AirMoved {
            cooling_w: (slow.sensible_j - slow.blower_j) / slow.elapsed_s,
            water_kg_s: slow.water_kg / slow.elapsed_s,
            air_kg_s,
            air_cp_j_kg_k: moist_air::cp_j_kg_k(slow.return_humidity_ratio),
            supply_k: plant.readout.supply_dry_bulb_k,
        };
        plant.room.step(&plant.weather, plant.time_s, &moved, slow.elapsed_s);
    }
    let (room_k, humidity_ratio) = plant.room.air();
    let (return_k, return_humidity_ratio) =
        plant.room.return_air(&plant.weather, plant.time_s, plant.control.blower_speed);
    // Once the filter has collapsed onto the coil, an empty slot no longer helps.
    let loading = effects.filter_loading;
    let covered = covered_share(loading);
    let face_share = (1.0 - covered) * effects.coil_face_share;
    let filter = match inputs.filter {
        FilterSlot::Fitted => filter_factor(loading),
        FilterSlot::Removed if covered > 0.0 => filter_factor(loading),
        FilterSlot::Removed => 0.0,
    };
    let evaporator = &plant.system.evaporator;
    let passages = Passages {
        filter_resistance: filter,
        coil_share: coil_passage(plant.frost.open_share(evaporator), face_share),
        return_share: effects.return_share,
        supply_share: effects.supply_share,
        wheel_share: effects.wheel_share,
    };
    let path = plant.control.blower_path(&plant.system, &passages);
    plant.retire_charge_faults();
    plant.slow = Slow {
        due_in_s: 0.0,
        outdoor_k: plant.weather.outdoor_k(plant.time_s),
        room_k,
        humidity_ratio,
        return_k,
        return_humidity_ratio,
        airflow_m3_s: path.flow_m3_s,
        blower_power_w: path.blower_power_w,
        blower_inlet_static_pa: -(path.filter_drop_pa + path.return_drop_pa),
        supply_static_pa: path.supply_drop_pa,
        face_share,
        ..Slow::default()
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
    let sensed = Sensed {
        room_k: slow.room_k,
        high_side_pa: high.total_pa,
        suction_pa: suction_port_pa(plant, &low),
        winding_k: plant.motor_k,
        compressor_power_w: plant.last.compressor_power_w,
    };
    plant.control.step(&plant.system, &plant.faults, plant.time_s, inputs, &sensed, dt_s, events);

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
        motor.internal_leak.max(effects.compressor_leak) + plant.wear.internal_leak(),
    );
    // No step may take more than a fifth of the level's mass.
    let most = 0.2 * available_kg(plant.low.mass_kg, volumes.low_m3) / dt_s;
    if compression.flow_kg_s > most {
        let share = most / compression.flow_kg_s;
        compression.flow_kg_s = most;
        compression.power_w *= share;
        compression.motor_heat_w *= share;
    }
    plant.control.load_compressor(&mut compression);
    let m_c = compression.flow_kg_s;

    let opening = metering_opening(plant, effects, &low);
    let flow = metering_flow(plant, effects, &high, &low, opening);
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
            fluid,
            outdoor_k: slow.outdoor_k,
            fan_speed: plant.control.outdoor_fan_speed * effects.condenser_air_share,
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
            fluid,
            room_k: slow.return_k,
            room_humidity_ratio: slow.return_humidity_ratio,
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
    wear_step(plant, &inlet, m_c, port_k, dt_s);

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

    let before = plant.last;
    plant.last = Last {
        valve_flow_kg_s: m_v,
        outlet_flow_kg_s: m_o,
        compressor_flow_kg_s: m_c,
        compressor_power_w: compression.power_w,
        discharge_enthalpy_j_kg: if m_c > 0.0 {
            compression.discharge_enthalpy_j_kg
        } else {
            before.discharge_enthalpy_j_kg
        },
        evaporator_outlet_k: evaporating.outlet_k,
        evaporator_outlet_enthalpy_j_kg: evaporating.outlet_enthalpy_j_kg,
        outlet_density_kg_m3: condensing.outlet_density_kg_m3,
        outlet_enthalpy_j_kg: condensing.outlet_enthalpy_j_kg,
        ..before
    };
    if plant.slow.due_in_s - dt_s <= 1.0e-9 {
        plant.write_readout(&Snapshot {
            high: &high,
            low: &low,
            flow: &flow,
            condensing: &condensing,
            evaporating: &evaporating,
            opening,
            discharge_k,
            suction_pa,
        });
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
                plant.system.refrigerant.tables().dew_pressure_pa(plant.bulb_k).min(*bulb_pressure_max_pa)
                    * effects.bulb_charge_share;
            txv_opening(&plant.system.metering, bulb_pa, low.total_pa)
        }
        Metering::Orifice { .. } => 1.0,
    };
    natural.max(effects.opening_min).min(effects.opening_max.max(0.002))
}

/// Resistance of drier and, before it, a kink: each shut share acts by the inverse square of what is open.
fn drier_resistance(lines: &crate::system::Lines, effects: &Effects) -> f64 {
    let kink = 1.0 / (effects.line_share * effects.line_share) - 1.0;
    lines.drier_resistance / (effects.drier_share * effects.drier_share) + lines.drier_resistance * kink
}

fn metering_flow(
    plant: &Plant,
    effects: &Effects,
    high: &LevelState,
    low: &LevelState,
    opening: f64,
) -> Flow {
    let area = match &plant.system.metering {
        Metering::Txv { area_m2, .. } | Metering::Orifice { area_m2 } => *area_m2,
    };
    Path {
        fluid: plant.system.refrigerant.tables(),
        condenser_pa: high.total_pa,
        outlet_density_kg_m3: plant.last.outlet_density_kg_m3.max(0.1),
        line_enthalpy_j_kg: line_enthalpy(plant, plant.system.lines.liquid_volume_m3),
        drier_resistance: drier_resistance(&plant.system.lines, effects),
        line_resistance: plant.system.lines.liquid_resistance,
        evaporator_pa: low.total_pa,
        area_m2: area * opening * effects.orifice_share,
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

/// Discharge temperature above which the oil suffers, K (typ. limit of scroll makers, 135 °C).
const DISCHARGE_LIMIT_K: f64 = 408.15;

/// Liquid that reaches the scrolls and gas that is too hot leave their marks.
fn wear_step(
    plant: &mut Plant,
    inlet: &media::refrigerant::Fluid,
    flow_kg_s: f64,
    discharge_k: f64,
    dt_s: f64,
) {
    if flow_kg_s <= 0.0 {
        return;
    }
    plant.wear.liquid_kg += (1.0 - inlet.quality) * flow_kg_s * dt_s;
    plant.wear.overheated_k_s += (discharge_k - DISCHARGE_LIMIT_K).max(0.0) * dt_s;
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
            let strapped = (1.0 - exposure) * e.outlet_k + exposure * e.cold_end_k;
            let warm = effects.bulb_warm_exposure;
            ((1.0 - warm) * strapped + warm * plant.slow.room_k, bulb_time_s)
        }
        // A hand is about 33 °C at the skin; air alone couples three times more slowly.
        BulbHandling::HeldInHand => (306.15, bulb_time_s),
        BulbHandling::HungInRoomAir => (plant.slow.room_k, 3.0 * bulb_time_s),
    };
    plant.bulb_k += (target - plant.bulb_k) * (dt_s / time_s).min(1.0);
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
