//! The test chamber: settled readouts of built-in systems.

use media::moist_air::{STANDARD_PRESSURE_PA, humidity_ratio_from_wet_bulb};
use media::units::{celsius_from_fahrenheit, kelvin_from_fahrenheit};
use plant::{
    Fault, FaultKind, Inputs, Mode, Plant, Readout, Room, SteadyConditions, SteadyState, System, Weather,
    solve_steady_state,
};

/// Dry bulb outdoors, dry and wet bulb indoors, °F.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    pub outdoor_f: f64,
    pub dry_f: f64,
    pub wet_f: f64,
}

/// Rating points of AHRI 210/240: A, B, and C (dry coil; D is C in cycles).
pub const A: Point = Point { outdoor_f: 95.0, dry_f: 80.0, wet_f: 67.0 };
pub const B: Point = Point { outdoor_f: 82.0, ..A };
pub const C: Point = Point { wet_f: 57.0, ..B };

/// The system that most checks run on.
pub fn valve() -> System {
    named("split-3-ton-r410a-txv")
}

/// Its twin with a fixed orifice.
pub fn orifice() -> System {
    named("split-3-ton-r410a-orifice")
}

pub fn named(name: &str) -> System {
    System::built_in(name).expect("a built-in system")
}

pub fn humidity_ratio(dry_f: f64, wet_f: f64) -> f64 {
    humidity_ratio_from_wet_bulb(
        celsius_from_fahrenheit(dry_f),
        celsius_from_fahrenheit(wet_f),
        STANDARD_PRESSURE_PA,
    )
}

pub fn fault(kind: FaultKind, severity: f64) -> Fault {
    Fault { kind, place: None, severity, onset_s: 0.0 }
}

/// SteadyState with a share of the plate's charge and faults.
pub fn settled(system: &System, at: Point, charge_share: f64, faults: &[Fault]) -> SteadyState {
    let conditions = SteadyConditions {
        outdoor_k: kelvin_from_fahrenheit(at.outdoor_f),
        indoor_dry_bulb_k: kelvin_from_fahrenheit(at.dry_f),
        indoor_humidity_ratio: humidity_ratio(at.dry_f, at.wet_f),
        charge_share,
        faults: faults.to_vec(),
        time_max_s: 5400.0,
    };
    solve_steady_state(system, &conditions).expect("the plant stays finite")
}

/// Readout of a sound system.
pub fn sound(system: &System, at: Point) -> Readout {
    settled(system, at, 1.0, &[]).readout
}

/// A plant at rest in a chamber that is held, with its plate's charge.
pub fn at_rest(system: &System, at: Point) -> Plant {
    at_rest_with(system, at, 1.0)
}

/// The same with a share of the plate's charge.
pub fn at_rest_with(system: &System, at: Point, charge_share: f64) -> Plant {
    let room = Room::Held {
        dry_bulb_k: kelvin_from_fahrenheit(at.dry_f),
        humidity_ratio: humidity_ratio(at.dry_f, at.wet_f),
    };
    let weather = Weather::held(kelvin_from_fahrenheit(at.outdoor_f));
    Plant::new(system, room, weather, charge_share * system.plate_charge_kg, &[])
}

/// A thermostat that calls without end.
pub fn calling() -> Inputs {
    let mut inputs = Inputs::default();
    inputs.thermostat.mode = Mode::Cool;
    inputs.thermostat.set_point_k = 250.0;
    inputs
}

/// A thermostat that is off.
pub fn off() -> Inputs {
    let mut inputs = Inputs::default();
    inputs.thermostat.mode = Mode::Off;
    inputs
}

/// Compressor, outdoor fan and blower, W.
pub fn total_power_w(r: &Readout) -> f64 {
    outdoor_power_w(r) + r.blower_power_w
}

/// Compressor and outdoor fan, W.
pub fn outdoor_power_w(r: &Readout) -> f64 {
    r.compressor_power_w + r.outdoor_fan_power_w
}

/// Gross coefficient of performance: gross cooling over all power.
pub fn gross_cop(r: &Readout) -> f64 {
    r.gross_cooling_w / total_power_w(r)
}
