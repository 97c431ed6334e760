//! A leap: every state of a plant that runs evenly goes on in a straight line.
//!
//! What is conserved is a sum of states and of terms of the ledgers. All of them go on at rates that were measured over the
//! same time, so what holds for the states holds for the rates, and after the leap it still holds.

use crate::pan::{Drain, FLOAT_OPENS_KG};
use crate::reading::watch_step;
use crate::service::warm_cylinders;
use crate::state::Plant;
use crate::{Inputs, PortConnection, Protection};

/// Number of states that go on at their rates.
pub(crate) const COUNT: usize = 80;

/// How many of them are watched, the first ones, and by how much a leap may miss each, in its unit: shares of what a gauge, a
/// clamp or an eye tells (engineering values).
const WATCHED: usize = 33;
const MAY_MISS: [f64; WATCHED] = [
    130.0,  // high.pressure_pa
    150.0,  // low.pressure_pa
    150.0,  // last.suction_pa
    0.02,   // plant.condenser_wall_k
    0.02,   // wall_1_k
    0.02,   // wall_2_k
    0.02,   // wall_3_k
    0.02,   // plant.bulb_k
    0.1,    // last.evaporator_outlet_k
    0.05,   // last.suction_outdoor_k
    0.05,   // plant.motor_k
    0.05,   // plant.dome_k
    0.03,   // plant.cabinet_k
    5.0e-4, // high.mass_kg
    1.0e-3, // line.mass_kg
    1.0e-3, // low.mass_kg
    1.0e-3, // plant.sump_kg
    1.0e-5, // high.air_kg
    1.0e-5, // low.air_kg
    1.0e-3, // frost.mass_kg
    1.0e-3, // frost.iced_share
    1.0e-3, // frost.closed_share
    1.0,    // frost.density_kg_m3
    2.0e-3, // frost.water_kg
    0.05,   // control.electric.disc_rise_k
    0.2,    // control.electric.fan_rise_k
    0.2,    // control.electric.blower_rise_k
    1.0e-4, // high.water_kg
    1.0e-4, // low.water_kg
    1.0e-4, // high.steam_kg
    1.0e-4, // low.steam_kg
    1.0e-3, // service.area.refrigerant_kg
    0.02,   // plant.slow.room_k
];

/// A value for each state.
pub(crate) type States = [f64; COUNT];

/// Every state that moves by itself, but for house and air, which the next slow step moves, and for timers.
fn states(plant: &mut Plant) -> [&mut f64; COUNT] {
    let Plant { high, line, low, frost, last, ledger, energy, wear, service, control, .. } = plant;
    let [wall_1_k, wall_2_k, wall_3_k] = &mut plant.coil_walls_k;
    let [from_wall_1_w, from_wall_2_w, from_wall_3_w] = &mut last.coil_from_wall_w;
    let [charge_1_v, charge_2_v, charge_3_v] = &mut control.electric.charge_v;
    [
        &mut high.pressure_pa,
        &mut low.pressure_pa,
        &mut last.suction_pa,
        &mut plant.condenser_wall_k,
        wall_1_k,
        wall_2_k,
        wall_3_k,
        &mut plant.bulb_k,
        &mut last.evaporator_outlet_k,
        &mut last.suction_outdoor_k,
        &mut plant.motor_k,
        &mut plant.dome_k,
        &mut plant.cabinet_k,
        &mut high.mass_kg,
        &mut line.mass_kg,
        &mut low.mass_kg,
        &mut plant.sump_kg,
        &mut high.air_kg,
        &mut low.air_kg,
        &mut frost.mass_kg,
        &mut frost.iced_share,
        &mut frost.closed_share,
        &mut frost.density_kg_m3,
        &mut frost.water_kg,
        &mut control.electric.disc_rise_k,
        &mut control.electric.fan_rise_k,
        &mut control.electric.blower_rise_k,
        &mut high.water_kg,
        &mut low.water_kg,
        &mut high.steam_kg,
        &mut low.steam_kg,
        &mut service.area.refrigerant_kg,
        &mut plant.slow.room_k,
        // The rest follows what is watched, or is an account.
        &mut high.energy_j,
        &mut line.energy_j,
        &mut line.pressure_pa,
        &mut low.energy_j,
        &mut frost.from_air_kg,
        &mut frost.drained_kg,
        charge_1_v,
        charge_2_v,
        charge_3_v,
        &mut control.electric.module_charge_v,
        &mut last.valve_flow_kg_s,
        &mut last.outlet_flow_kg_s,
        &mut last.compressor_flow_kg_s,
        &mut last.suction_flow_kg_s,
        &mut last.joined_flow_kg_s,
        &mut last.compressor_power_w,
        &mut last.discharge_enthalpy_j_kg,
        &mut last.evaporator_outlet_enthalpy_j_kg,
        &mut last.outlet_density_kg_m3,
        &mut last.outlet_enthalpy_j_kg,
        &mut last.condenser_to_wall_w,
        from_wall_1_w,
        from_wall_2_w,
        from_wall_3_w,
        &mut last.high_k,
        &mut last.low_k,
        &mut ledger.added_kg,
        &mut ledger.recovered_kg,
        &mut ledger.leaked_kg,
        &mut ledger.vented_kg,
        &mut ledger.hoses_kg,
        &mut ledger.trapped_kg,
        &mut energy.from_room_air_j,
        &mut energy.compressor_j,
        &mut energy.to_outdoor_air_j,
        &mut energy.from_line_air_j,
        &mut energy.to_melting_j,
        &mut energy.with_refrigerant_j,
        &mut wear.liquid_kg,
        &mut wear.overheated_k_s,
        &mut service.hoses.suction_kg,
        &mut service.hoses.liquid_kg,
        &mut service.drier.water_kg,
        &mut service.gas.in_kg,
        &mut service.gas.out_kg,
        &mut service.water.in_kg,
        &mut service.water.out_kg,
    ]
}

/// The values of the states.
pub(crate) fn values(plant: &mut Plant) -> States {
    states(plant).map(|state| *state)
}

/// Rates between two values of the states.
pub(crate) fn rates_between(from: &States, to: &States, seconds: f64) -> States {
    let mut rates = *to;
    for (rate, from) in rates.iter_mut().zip(from) {
        *rate = (*rate - from) / seconds;
    }
    rates
}

/// By how much a leap misses whose rates turn out to be others, over what it may: the worst of what is watched.
pub(crate) fn miss(used: &States, found: &States, seconds: f64) -> f64 {
    let misses = used.iter().zip(found).zip(MAY_MISS);
    misses.map(|((used, found), may_miss)| (used - found).abs() * seconds / may_miss).fold(0.0, f64::max)
}

/// Step in which cylinders that are not in use come to the temperature of the air, s.
const CYLINDER_STEP_S: f64 = 5.0;

/// Moves a plant on at these rates.
pub(crate) fn leap(plant: &mut Plant, inputs: &Inputs, rates: &States, seconds: f64) {
    for (state, rate) in states(plant).into_iter().zip(rates) {
        *state += rate * seconds;
    }
    plant.frost.stay_within();
    share_traces(plant);
    plant.control.pass(seconds);
    watch_step(plant, seconds);
    let slices = libm::ceil(seconds / CYLINDER_STEP_S);
    for _ in 0..slices as u32 {
        warm_cylinders(plant, inputs, seconds / slices);
    }
    // House and air take what the coil did in the last second for as long.
    let slow = &mut plant.slow;
    let longer = (slow.elapsed_s + seconds) / slow.elapsed_s;
    for sum in [
        &mut slow.sensible_j,
        &mut slow.water_kg,
        &mut slow.blower_j,
        &mut slow.cabinet_j,
        &mut slow.to_lines_j,
        &mut slow.elapsed_s,
    ] {
        *sum *= longer;
    }
    slow.due_in_s = 0.0;
    plant.time_s += seconds;
}

/// A trace of gas or water that a leap took too much of is made up from the high side, where what the compressor carries goes.
fn share_traces(plant: &mut Plant) {
    let Plant { high, low, service, .. } = plant;
    for water_kg in [&mut low.water_kg, &mut low.steam_kg, &mut high.steam_kg] {
        if *water_kg < 0.0 {
            high.water_kg += *water_kg;
            *water_kg = 0.0;
        }
    }
    if high.water_kg < 0.0 {
        service.drier.water_kg += high.water_kg;
        high.water_kg = 0.0;
    }
    if low.air_kg < 0.0 {
        high.air_kg += low.air_kg;
        low.air_kg = 0.0;
    }
    service.area.refrigerant_kg = service.area.refrigerant_kg.max(0.0);
}

/// Share of what is left of something that one leap may take.
const MOST_SHARE: f64 = 0.3;
/// What is less than this, kg or V, does not keep a leap short: it dies away for ever.
const TRACE: f64 = 1.0e-6;
/// How far ahead of an event a leap ends, s: the rates are not quite those of the last second.
const AHEAD_S: f64 = 1.0;

/// How long a leap at these rates may be so that nothing happens in it, s; 0 where a plant is not to be leapt with at all.
pub(crate) fn clear_s(plant: &mut Plant, inputs: &Inputs, rates: &States) -> f64 {
    let is_closed = |port| matches!(port, PortConnection::Capped | PortConnection::Gauge);
    if !is_closed(inputs.suction_port)
        || !is_closed(inputs.liquid_port)
        || plant.slow.elapsed_s <= 0.0
        || !plant.control.turns_evenly()
    {
        return 0.0;
    }
    let mut clear_s = plant.control.timers_s(&plant.system);
    for fault in plant.faults.iter().filter(|fault| fault.onset_s > plant.time_s) {
        clear_s = clear_s.min(fault.onset_s - plant.time_s);
    }
    // What there is stays more than nothing.
    let states = states(plant);
    for at in AMOUNTS {
        let (there, rate) = (*states[at], rates[at]);
        if rate < 0.0 && there > TRACE {
            clear_s = clear_s.min(MOST_SHARE * there / -rate);
        }
    }
    clear_s.min(until_switched_s(plant, inputs, rates) - AHEAD_S)
}

/// Time until a thermostat or a protection switches at these rates, s.
fn until_switched_s(plant: &Plant, inputs: &Inputs, rates: &States) -> f64 {
    let crossing_s = |value: f64, rate: f64, at: f64| {
        let seconds = (at - value) / rate;
        if seconds > 0.0 { seconds } else { f64::INFINITY }
    };
    let (controls, compressor) = (&plant.system.controls, &plant.system.compressor);
    let one_of = |is_open: bool, closes: f64, opens: f64| if is_open { closes } else { opens };
    let half_k = 0.5 * controls.differential_k;
    let room_at_k = inputs.thermostat.set_point_k + one_of(plant.control.y, -half_k, half_k);
    let high_pa = one_of(
        plant.is_open(Protection::HighPressureSwitch),
        controls.high_pressure_closes_pa,
        controls.high_pressure_opens_pa,
    );
    let low_pa = one_of(
        plant.is_open(Protection::LowPressureSwitch),
        controls.low_pressure_closes_pa.unwrap_or(0.0),
        controls.low_pressure_opens_pa.unwrap_or(0.0),
    );
    let winding_k = one_of(
        plant.is_open(Protection::WindingOverload),
        compressor.overload_closes_k,
        compressor.overload_opens_k,
    );
    let dome_k =
        one_of(plant.is_open(Protection::ThermalDisc), compressor.disc_closes_k, compressor.disc_opens_k);
    let until_float_lifts_s = match plant.effects().drain {
        Drain::Open => f64::INFINITY,
        Drain::Plugged => crossing_s(plant.pan_water_kg(), rates[DRAINED], FLOAT_OPENS_KG),
    };
    let felt_k = plant.motor_k + plant.control.electric.disc_rise_k;
    [
        crossing_s(plant.slow.room_k, rates[ROOM], room_at_k),
        crossing_s(plant.readout.liquid_pressure_pa, rates[HIGH], high_pa),
        crossing_s(plant.last.suction_pa, rates[SUCTION], low_pa),
        crossing_s(felt_k, rates[MOTOR] + rates[DISC], winding_k),
        crossing_s(plant.dome_k, rates[DOME], dome_k),
        until_float_lifts_s,
    ]
    .into_iter()
    .fold(f64::INFINITY, f64::min)
}

/// Places of some states.
const HIGH: usize = 0;
const SUCTION: usize = 2;
const MOTOR: usize = 10;
const DOME: usize = 11;
const DISC: usize = 24;
const ROOM: usize = 32;
const DRAINED: usize = 38;
/// Those of masses (refrigerant, gas, water and ice) and of charges of capacitors.
const AMOUNTS: [usize; 17] = [13, 14, 15, 16, 17, 18, 19, 23, 27, 28, 29, 30, 31, 39, 40, 41, 42];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::Plant;
    use crate::{BASE_STEP_S, Fault, FaultKind, LeakPlace, Room, System, Weather, step};

    /// Every number in a saved plant, by its place in the text.
    fn numbers(plant: &Plant) -> Vec<(String, f64)> {
        let text = ron::ser::to_string_pretty(plant, ron::ser::PrettyConfig::new()).expect("plain data");
        let mut numbers = Vec::new();
        let mut path: Vec<String> = Vec::new();
        for line in text.lines().map(str::trim) {
            let (name, value) = line.split_once(": ").unwrap_or(("", line));
            let (opens, closes) = (value.ends_with(['(', '[']), line.starts_with([')', ']']));
            if closes {
                path.pop();
            }
            if opens {
                path.push(name.to_owned());
            } else if !closes && let Ok(value) = value.trim_end_matches(',').parse() {
                numbers.push((format!("{}.{name} {}", path.join("."), numbers.len()), value));
            }
        }
        numbers
    }

    /// What runs evenly: a coil that ices, a leak, a wet circuit with air in it, gauges on.
    fn running() -> (Plant, Inputs) {
        let system = System::built_in("split-3-ton-r410a-txv").expect("built in");
        let fault = |kind, severity, place| Fault { kind, place, severity, onset_s: 0.0 };
        let faults = [
            fault(FaultKind::MeteringRestricted, 0.6, None),
            fault(FaultKind::RefrigerantLeak, 0.3, Some(LeakPlace::IndoorCoil)),
            fault(FaultKind::NonCondensables, 0.3, None),
        ];
        let room = Room::Held { dry_bulb_k: 298.0, humidity_ratio: 0.011 };
        let mut plant = Plant::new(&system, room, Weather::held(305.0), system.plate_charge_kg, &faults);
        plant.wet_circuit(1.0e-3);
        let mut inputs = Inputs::default();
        inputs.thermostat.mode = crate::Mode::Cool;
        inputs.thermostat.set_point_k = 285.0;
        inputs.suction_port = PortConnection::Gauge;
        inputs.liquid_port = PortConnection::Gauge;
        crate::advance(&mut plant, &inputs, 5400.0).expect("finite");
        (plant, inputs)
    }

    /// Twenty seconds in a leap and twenty seconds in steps: whatever a plant saves has moved by about the same.
    #[test]
    fn everything_that_moves_goes_on() {
        let (mut plant, inputs) = running();
        let before = values(&mut plant);
        crate::advance(&mut plant, &inputs, 1.0).expect("finite");
        let rates = rates_between(&before, &values(&mut plant), 1.0);
        let from = numbers(&plant);
        let (mut leapt, mut stepped) = (plant.clone(), plant);
        let clear = clear_s(&mut leapt, &inputs, &rates);
        assert!(clear >= 20.0, "{clear}");
        leap(&mut leapt, &inputs, &rates, 20.0);
        crate::advance(&mut stepped, &inputs, 20.0).expect("finite");
        for one in [&mut leapt, &mut stepped] {
            for _ in 0..8 {
                step(one, &inputs, BASE_STEP_S).expect("finite");
            }
        }
        let (leapt, stepped) = (numbers(&leapt), numbers(&stepped));
        assert_eq!((leapt.len(), stepped.len()), (from.len(), from.len()));
        let mut moved = 0;
        for ((name, from), ((_, leapt), (_, stepped))) in from.iter().zip(leapt.iter().zip(&stepped)) {
            // Where a law was last worked out is no state that moves.
            if name.starts_with(".tangents") {
                continue;
            }
            let by = stepped - from;
            if from.abs().max(stepped.abs()) < TRACE {
                continue;
            }
            if by.abs() > 1.0e-6 * from.abs().max(1.0e-9) {
                moved += 1;
                let off = (leapt - stepped).abs();
                // Heats of a second, of which what the metal of the air handler takes up is the least: laws that are followed are off
                // by millionths of a kelvin, which some hundred watts a kelvin carry.
                let least = if name.starts_with(".slow.") && name.contains("_j ") { 1.0e-3 } else { 0.0 };
                assert!(
                    off < 0.3 * by.abs() + 1.0e-5 * from.abs() + least,
                    "{name}: from {from} by {by} in steps and by {} in a leap",
                    leapt - from
                );
            }
        }
        assert!(moved > 60, "{moved} numbers moved");
    }

    /// A leap ends before something switches: thermostat, protections, timers, faults that set in.
    #[test]
    fn a_leap_stays_clear_of_events() {
        let (mut plant, inputs) = running();
        let mut rates = [0.0; COUNT];
        let clear = |plant: &mut Plant, inputs: &Inputs, rates: &States| clear_s(plant, inputs, rates);
        assert_eq!(clear(&mut plant, &inputs, &rates), f64::INFINITY);

        rates[MOTOR] = 1.0;
        let to_go_k =
            plant.system.compressor.overload_opens_k - plant.motor_k - plant.control.electric.disc_rise_k;
        approx::assert_relative_eq!(clear(&mut plant, &inputs, &rates), to_go_k - AHEAD_S, epsilon = 1e-9);
        rates[MOTOR] = 0.0;

        rates[ROOM] = -0.01;
        let to_go_k =
            plant.slow.room_k - inputs.thermostat.set_point_k + 0.5 * plant.system.controls.differential_k;
        approx::assert_relative_eq!(
            clear(&mut plant, &inputs, &rates),
            to_go_k / 0.01 - AHEAD_S,
            epsilon = 1e-6
        );
        rates[ROOM] = 0.0;

        plant.faults.push(Fault {
            kind: FaultKind::LoadedFilter,
            place: None,
            severity: 0.5,
            onset_s: plant.time_s + 17.0,
        });
        approx::assert_relative_eq!(clear(&mut plant, &inputs, &rates), 17.0, epsilon = 1e-9);
        let open = Inputs { suction_port: PortConnection::VacuumPump, ..inputs.clone() };
        assert_eq!(clear(&mut plant, &open, &rates), 0.0);
    }
}
