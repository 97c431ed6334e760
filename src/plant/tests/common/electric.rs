//! Plants and meter readings for the checks of the wiring.
#![allow(dead_code, reason = "each test binary uses its own part")]

use super::{cooling_to_f, fault, new_plant};
use plant::{
    CapacitanceReading, Capacitor, FaultKind, Inputs, OhmReading, Plant, Switch, System, Terminal, advance,
};

pub fn system(name: &str) -> System {
    System::built_in(name).expect("built in")
}

pub fn ecm() -> System {
    system("split-3-ton-r32-txv-ecm")
}

/// A plant with these faults from the start, called for at 95 °F outdoors for a time.
pub fn after(system: &System, faults: &[(FaultKind, f64)], seconds: f64) -> (Plant, Inputs) {
    let faults: Vec<_> = faults.iter().map(|(kind, severity)| fault(*kind, *severity)).collect();
    let mut plant = new_plant(system, 95.0, 80.0, 67.0, &faults);
    let inputs = cooling_to_f(60.0);
    advance(&mut plant, &inputs, seconds).expect("finite");
    (plant, inputs)
}

/// Both units switched off and every capacitor discharged.
pub fn made_safe(plant: &mut Plant, inputs: &mut Inputs) {
    inputs.outdoor_disconnect = Switch::Open;
    inputs.indoor_service_switch = Switch::Open;
    advance(plant, inputs, 30.0).expect("finite");
    for capacitor in Capacitor::ALL {
        plant.discharge_capacitor(capacitor);
    }
}

pub fn ohm(plant: &Plant, inputs: &Inputs, a: Terminal, b: Terminal) -> f64 {
    match plant.resistance_ohm(inputs, a, b) {
        OhmReading::Resistance { ohm } => ohm,
        OhmReading::Open => f64::INFINITY,
        wrong => panic!("{a:?} to {b:?}: {wrong:?}"),
    }
}

pub fn microfarad(plant: &Plant, inputs: &Inputs, capacitor: Capacitor) -> f64 {
    let (a, b) = Plant::capacitor_terminals(capacitor);
    match plant.capacitance_f(inputs, a, b) {
        CapacitanceReading::Capacitance { farad } => farad * 1.0e6,
        CapacitanceReading::Open => 0.0,
        wrong => panic!("{capacitor:?}: {wrong:?}"),
    }
}

// ---------------------------------------------------------------- the sound plant

/// Speeds of compressor, outdoor fan and blower: whether each turns.
pub fn turning(plant: &Plant) -> [bool; 3] {
    let r = plant.readout();
    [r.compressor_speed, r.outdoor_fan_speed, r.blower_speed].map(|s| s > 0.1)
}
