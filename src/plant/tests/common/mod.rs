//! Conditions shared by the checks.
#![allow(dead_code, reason = "each test binary uses its own part")]

pub mod electric;

use media::moist_air::{STANDARD_PRESSURE_PA, humidity_ratio_from_wet_bulb};
use media::units::{celsius_from_fahrenheit, kelvin_from_celsius, kelvin_from_fahrenheit};
use plant::{
    Fault, FaultKind, Inputs, Mode, Plant, Readout, Room, SteadyConditions, SteadyState, System, Weather,
};

pub fn txv() -> System {
    System::built_in("split-3-ton-r410a-txv").expect("built in")
}

pub fn orifice() -> System {
    System::built_in("split-3-ton-r410a-orifice").expect("built in")
}

pub fn humidity_ratio_f(dry_f: f64, wet_f: f64) -> f64 {
    humidity_ratio_from_wet_bulb(
        celsius_from_fahrenheit(dry_f),
        celsius_from_fahrenheit(wet_f),
        STANDARD_PRESSURE_PA,
    )
}

/// Outdoors, indoors dry and wet bulb in °F.
pub fn conditions(outdoor_f: f64, dry_f: f64, wet_f: f64) -> SteadyConditions {
    SteadyConditions {
        outdoor_k: kelvin_from_fahrenheit(outdoor_f),
        indoor_dry_bulb_k: kelvin_from_celsius(celsius_from_fahrenheit(dry_f)),
        indoor_humidity_ratio: humidity_ratio_f(dry_f, wet_f),
        charge_share: 1.0,
        faults: vec![],
        time_max_s: 5400.0,
    }
}

pub fn solve_steady_state(system: &System, conditions: &SteadyConditions) -> SteadyState {
    plant::solve_steady_state(system, conditions).expect("finite")
}

/// Rating point A of AHRI 210/240: 95 °F outdoors, 80/67 °F indoors.
pub fn at_a(system: &System) -> Readout {
    solve_steady_state(system, &conditions(95.0, 80.0, 67.0)).readout
}

pub fn at_a_with_charge(system: &System, share: f64) -> Readout {
    solve_steady_state(system, &SteadyConditions { charge_share: share, ..conditions(95.0, 80.0, 67.0) })
        .readout
}

pub fn fault(kind: FaultKind, severity: f64) -> Fault {
    let place = kind.needs_place().then_some(plant::LeakPlace::IndoorCoil);
    Fault { kind, place, severity, onset_s: 0.0 }
}

pub fn total_power_w(r: &Readout) -> f64 {
    r.compressor_power_w + r.outdoor_fan_power_w + r.blower_power_w
}

pub fn held_room(dry_f: f64, wet_f: f64) -> Room {
    Room::Held { dry_bulb_k: kelvin_from_fahrenheit(dry_f), humidity_ratio: humidity_ratio_f(dry_f, wet_f) }
}

pub fn new_plant(system: &System, outdoor_f: f64, dry_f: f64, wet_f: f64, faults: &[Fault]) -> Plant {
    Plant::new(
        system,
        held_room(dry_f, wet_f),
        Weather::held(kelvin_from_fahrenheit(outdoor_f)),
        system.plate_charge_kg,
        faults,
    )
}

pub fn cooling_to_f(set_point_f: f64) -> Inputs {
    let mut inputs = Inputs::default();
    inputs.thermostat.mode = Mode::Cool;
    inputs.thermostat.set_point_k = kelvin_from_fahrenheit(set_point_f);
    inputs
}
