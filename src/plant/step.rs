//! One step of the plant: flows and heats from the present state, then one balance per level.

use media::moist_air;
use media::units::celsius_from_kelvin;

use crate::air::{Face, Passages, coil_passage};
use crate::balance::{Fluxes, balance};
use crate::cabinet::{blown, capacity_j_k as cabinet_capacity_j_k};
use crate::condenser;
use crate::control::{Events, Sensed};
use crate::draught::Draught;
use crate::electric::Refresh;
use crate::evaporator::{self, Evaporating};
use crate::event::{BASE_STEP_S, Event, StepError};
use crate::fault::Effects;
use crate::flows::{condenser_sees, evaporator_sees, refrigerant_flows, suction_port_pa};
use crate::house::{AirMoved, Outdoors};
use crate::level::LevelState;
use crate::metering::RootLimits;
use crate::reading::Snapshot;
use crate::reading::watch_step;
use crate::service::{PortFlows, is_shut, warm_cylinders};
use crate::state::{Last, Plant, Slow};
use crate::states::States;
use crate::sump::oil_saturation_pa;
use crate::system::Metering;
use crate::tangents::FOLLOWED_FROM_PA;
use crate::wear::Wear;
use crate::{BulbHandling, Inputs};
use media::moist_air::STANDARD_PRESSURE_PA;

/// Period of the slow part (airflow, house, weather), s.
const SLOW_STEP_S: f64 = 1.0;

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
    plant.service.bring_cylinders(plant.system.refrigerant, inputs, plant.slow.outdoor_k);
    if plant.slow.due_in_s <= 1.0e-9 {
        slow_step(plant, inputs, &effects);
        plant.slow.due_in_s = SLOW_STEP_S;
    }
    fast_step(plant, inputs, &effects, dt_s, &mut events);
    plant.time_s += dt_s;
    plant.slow.due_in_s -= dt_s;
    match States::not_finite(plant) {
        Some(state) => Err(StepError::NonFinite { state, time_s: plant.time_s }),
        None => Ok(events),
    }
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
    let outdoors = plant.weather.at(plant.time_s);
    if slow.elapsed_s > 0.0 {
        let air_kg_s = slow.airflow_m3_s
            / moist_air::specific_volume_m3_kg(
                celsius_from_kelvin(slow.return_k),
                slow.return_humidity_ratio,
                STANDARD_PRESSURE_PA,
            );
        let moved = AirMoved {
            cooling_w: (slow.sensible_j - slow.blower_j - slow.cabinet_j) / slow.elapsed_s,
            water_kg_s: slow.water_kg / slow.elapsed_s,
            air_kg_s,
            air_cp_j_kg_k: moist_air::cp_j_kg_k(slow.return_humidity_ratio),
            supply_k: plant.readout.supply_dry_bulb_k,
            return_leak_share: slow.return_leak_share,
            to_lines_w: slow.to_lines_j / slow.elapsed_s,
        };
        plant.room.step(&outdoors, &moved, slow.elapsed_s);
    }
    plant.retire_charge_faults();
    plant.filter.tear(effects);
    plant.slow = surroundings(plant, effects, &outdoors);
    drive_fans(plant, inputs, effects, Refresh::WhenMoved);
    move_air(plant, inputs, effects);
    plant.service.area.step(inputs, plant.slow.airflow_m3_s, SLOW_STEP_S);
    warm_cylinders(plant, inputs, SLOW_STEP_S);
}

/// What changes slowly, in this weather: air, oil, valve and coil face; the airflow is still to come, see [`move_air`].
pub(crate) fn surroundings(plant: &Plant, effects: &Effects, outdoors: &Outdoors) -> Slow {
    let fluid = plant.system.refrigerant.tables();
    let blower_speed = plant.control.blower_speed;
    let (room_k, humidity_ratio) = plant.room.air();
    let (return_k, return_humidity_ratio) = plant.room.return_air(outdoors, blower_speed);
    Slow {
        outdoor_k: outdoors.air_k,
        oil_saturation_pa: oil_saturation_pa(fluid, plant.motor_k),
        valve_opens_k: plant.slow.valve_opens_k,
        room_k,
        humidity_ratio,
        return_k,
        return_humidity_ratio,
        return_leak_share: plant.room.return_leak_share(blower_speed),
        face: face(plant, effects),
        ..Slow::default()
    }
}

/// The fans in line with what the air has to pass.
pub(crate) fn drive_fans(plant: &mut Plant, inputs: &Inputs, effects: &Effects, refresh: Refresh) {
    let passages = passages(plant, inputs, effects);
    plant.control.drive_fans(&plant.system, &passages, refresh);
}

/// The airflow at the blower's speed and through the frost as they are.
pub(crate) fn move_air(plant: &mut Plant, inputs: &Inputs, effects: &Effects) {
    let passages = passages(plant, inputs, effects);
    let path = plant.control.blower_path(&plant.system, &passages);
    let slow = &mut plant.slow;
    slow.draught = Draught::of(&plant.system, &passages, path.wheel_pa);
    slow.airflow_m3_s = path.flow_m3_s;
    slow.blower_power_w = path.blower_power_w;
    slow.statics = path.statics;
}

/// What dirt and torn filter medium leave of the coil's face.
pub(crate) fn face(plant: &Plant, effects: &Effects) -> Face {
    Face::of(plant.filter.covered_share(), effects.coil_face_share)
}

/// What the air has to pass.
fn passages(plant: &Plant, inputs: &Inputs, effects: &Effects) -> Passages {
    let (filter_resistance, mat_resistance) = plant.filter.resistances(effects, inputs.filter);
    Passages {
        filter_resistance,
        mat_resistance,
        coil_share: coil_passage(
            plant.frost.shape(&plant.system.evaporator).open_share(),
            face(plant, effects),
        ),
        return_share: effects.return_share,
        supply_share: effects.supply_share,
        wheel_share: effects.wheel_share,
    }
}

fn fast_step(plant: &mut Plant, inputs: &Inputs, effects: &Effects, dt_s: f64, events: &mut Events) {
    let fluid = plant.system.refrigerant.tables();
    let volumes = plant.system.volumes();
    let is_open = !is_shut(inputs.suction_port) || !is_shut(inputs.liquid_port);
    if is_open || plant.high.pressure_pa.min(plant.low.pressure_pa) < FOLLOWED_FROM_PA {
        plant.tangents.forget();
    }
    let high = LevelState::followed(&mut plant.tangents.high, fluid, &plant.high, volumes.high_m3, dt_s);
    let low = LevelState::followed(&mut plant.tangents.low, fluid, &plant.low, volumes.low_m3, dt_s);
    plant.high.pressure_pa = high.fluid.pressure_pa;
    plant.low.pressure_pa = low.fluid.pressure_pa;

    let slow = plant.slow;
    let sensed = Sensed {
        room_k: slow.room_k,
        high_side_pa: high.total_pa,
        suction_pa: suction_port_pa(plant, effects, &low, dt_s),
        winding_k: plant.motor_k,
        dome_k: plant.dome_k,
        compressor_power_w: plant.last.compressor_power_w,
    };
    let blower_speed = plant.control.blower_speed;
    plant.control.step(&plant.system, effects.wiring, inputs, &sensed, dt_s, events);
    // The air follows the blower at once; a second late, the coil would be off by a third of a kelvin after a stop.
    if plant.control.blower_speed != blower_speed {
        move_air(plant, inputs, effects);
    }

    let ports = PortFlows::of(plant, inputs, &high, &low, dt_s);
    let at_port = (sensed.suction_pa, ports.joining());
    let flows = refrigerant_flows(plant, effects, &high, &low, at_port, RootLimits::STEP, dt_s);
    let condensing = condenser::condense(
        &plant.system.condenser,
        &condenser_sees(plant, effects, &flows, &high, dt_s),
        plant.condenser_wall_k,
        &mut plant.condenser_films,
        &mut plant.tangents.condenser,
    );
    let had_frost = plant.frost.mass_kg > 0.0;
    let mut frost = plant.frost;
    let evaporating = evaporator::evaporate(
        &plant.system.evaporator,
        &evaporator_sees(plant, &flows, &low, dt_s),
        &plant.coil_walls_k,
        &mut frost,
        &mut plant.coil_films,
        &mut plant.tangents.coil,
    );
    plant.frost = frost;
    plant.pan.step(frost.drained_kg, effects.drain);
    match (had_frost, plant.frost.mass_kg > 0.0) {
        (false, true) => events.push(Event::FrostBegan),
        (true, false) => events.push(Event::FrostGone),
        _ => {}
    }
    let wet_at_port = flows.joined_kg_s > 0.0 && flows.suction_outdoor_quality < 1.0;
    if flows.compressor_kg_s > 0.0 && (evaporating.wetted_share > 1.0 || wet_at_port) {
        events.push(Event::FloodBack);
    }
    wear_step(plant, flows.inlet_quality, flows.compressor_kg_s, flows.port_k, dt_s);

    balance(
        plant,
        effects,
        inputs,
        &ports,
        &Fluxes {
            flows: &flows,
            condensing,
            evaporating,
            back_flow_h: low.vapour_enthalpy_j_kg(),
            low_sat: &low.sat,
        },
        &high,
        &low,
        dt_s,
        events,
    );
    bulb_step(plant, inputs, effects, &evaporating, dt_s);

    plant.last = Last::of(&plant.last, &flows, &condensing, &evaporating, [&high, &low]);
    if plant.slow.due_in_s - dt_s <= 1.0e-9 {
        move_cabinet(plant, &evaporating);
        plant.write_readout(&Snapshot {
            high: &high,
            low: &low,
            flow: &flows.path,
            condensing: &condensing,
            evaporating: &evaporating,
            opening: flows.opening,
            discharge_k: flows.discharge_k,
            suction_pa: flows.suction_pa,
        });
        watch_step(plant, SLOW_STEP_S);
    }
}

/// The metal of the air handler follows the air of the second that ends.
fn move_cabinet(plant: &mut Plant, e: &Evaporating) {
    let heat_w = blown(plant, e).from_metal_w;
    plant.slow.cabinet_j = heat_w * plant.slow.elapsed_s;
    plant.cabinet_k -= plant.slow.cabinet_j / cabinet_capacity_j_k(plant);
}

/// Temperature at the discharge port above which the oil suffers, K (typ. limit of scroll makers, 135 °C in the line, some 10 K
/// more at the port).
pub(crate) const PORT_LIMIT_K: f64 = 418.15;

/// Liquid that reaches the scrolls and gas that is too hot leave their marks.
fn wear_step(plant: &mut Plant, inlet_quality: f64, flow_kg_s: f64, port_k: f64, dt_s: f64) {
    if flow_kg_s <= 0.0 {
        return;
    }
    let running_for_s = plant.compressor_on_for_s();
    plant.wear.liquid_kg += Wear::harmful_liquid_kg_s(inlet_quality, flow_kg_s, running_for_s) * dt_s;
    plant.wear.overheated_k_s += (port_k - PORT_LIMIT_K).max(0.0) * dt_s;
}

fn bulb_step(plant: &mut Plant, inputs: &Inputs, effects: &Effects, e: &Evaporating, dt_s: f64) {
    match bulb_follows(plant, inputs, effects, e) {
        Some((target_k, time_s)) => {
            plant.bulb_k += (target_k - plant.bulb_k) * (dt_s / time_s).min(1.0);
        }
        None => plant.bulb_k = e.outlet_k,
    }
}

/// What the bulb of a valve follows, K, and in what time, s; none where there is no bulb.
pub(crate) fn bulb_follows(
    plant: &Plant,
    inputs: &Inputs,
    effects: &Effects,
    e: &Evaporating,
) -> Option<(f64, f64)> {
    let Metering::Txv { bulb_time_s, .. } = plant.system.metering else { return None };
    Some(match inputs.bulb {
        BulbHandling::AsInstalled => {
            // A bare bulb at the foot of the coil takes the temperature of the air and the drip off the coldest rows.
            let exposure = effects.bulb_exposure;
            let strapped = (1.0 - exposure) * e.outlet_k + exposure * e.cold_end_k;
            let warm = effects.bulb_warm_exposure;
            ((1.0 - warm) * strapped + warm * plant.slow.room_k, bulb_time_s)
        }
        // A hand is about 33 °C at the skin; air alone couples three times more slowly.
        BulbHandling::HeldInHand => (306.15, bulb_time_s),
        // Ice that melts in water holds 0 °C; it couples as the strap does (engineering value).
        BulbHandling::InIceWater => (273.15, bulb_time_s),
        BulbHandling::HungInRoomAir => (plant.slow.room_k, 3.0 * bulb_time_s),
    })
}
