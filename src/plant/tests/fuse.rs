//! The low-voltage fuse and a shorted conductor: it melts by its own current, and a new one melts again.

mod common;

use common::electric::*;
use common::{cooling_to_f, fault, new_plant, txv};
use plant::{
    Conductor, FanSetting, FaultKind, Inputs, Mode, OhmReading, Plant, Switch, System, Terminal, Work,
    advance,
};

use Terminal as T;

fn shorted(system: &System, onset_s: f64) -> Plant {
    let mut short = fault(FaultKind::ShortedYConductor, 1.0);
    short.onset_s = onset_s;
    new_plant(system, 95.0, 80.0, 67.0, &[short])
}

fn seconds_until_blown(plant: &mut Plant, inputs: &Inputs, most_s: u32) -> Option<f64> {
    (1..=4 * most_s).map(|n| 0.25 * f64::from(n)).find(|_| {
        advance(plant, inputs, 0.25).expect("finite");
        plant.control_fuse_is_blown()
    })
}

/// The chain of the real repair: it blows within a second or two of the call, a new one blows again, with the conductor
/// mended a new one holds.
#[test]
fn a_shorted_conductor_blows_one_fuse_after_the_other_until_it_is_mended() {
    for system in [txv(), ecm()] {
        let inputs = cooling_to_f(60.0);
        let mut plant = shorted(&system, 0.0);
        assert!(!plant.control_fuse_is_blown());
        for again in 0..3 {
            let blew_s = seconds_until_blown(&mut plant, &inputs, 30).expect("blows");
            println!("{} fuse {again}: {blew_s} s", system.name);
            assert!(blew_s <= 3.0, "{blew_s}");
            advance(&mut plant, &inputs, 60.0).expect("finite");
            assert_eq!(turning(&plant), [false; 3]);
            // As at any blown fuse: 24 V before and across it, none behind.
            for (a, b) in [(T::FuseSupply, T::FuseLoad), (T::FuseSupply, T::C)] {
                let volt = plant.voltage_v(&inputs, a, b);
                assert!((24.0..30.0).contains(&volt), "{a:?} {b:?}: {volt} V");
            }
            assert!(plant.voltage_v(&inputs, T::R, T::C) < 0.1);
            let outcome = plant.apply(Work::ReplaceControlFuse);
            assert_eq!(outcome.cleared, [FaultKind::BlownControlFuse]);
            assert!(!plant.control_fuse_is_blown() && plant.has(FaultKind::ShortedYConductor));
        }
        seconds_until_blown(&mut plant, &inputs, 30).expect("blows");
        assert_eq!(plant.apply(Work::RepairConductor).cleared, [FaultKind::ShortedYConductor]);
        assert!(plant.has(FaultKind::BlownControlFuse), "mending the wire brings no fuse back");
        plant.apply(Work::ReplaceControlFuse);
        assert_eq!(seconds_until_blown(&mut plant, &inputs, 600), None);
        assert_eq!(turning(&plant), [true; 3]);
        assert!(plant.apply(Work::ReplaceControlFuse).cleared.is_empty(), "a sound fuse is no finding");
    }
}

/// Amps flow only while Y is energised: off, with the fan alone, and before the call the fuse holds.
#[test]
fn the_short_draws_nothing_until_y_is_energised() {
    let mut plant = shorted(&txv(), 0.0);
    let mut inputs = cooling_to_f(60.0);
    inputs.thermostat.mode = Mode::Off;
    inputs.thermostat.fan = FanSetting::On;
    assert_eq!(seconds_until_blown(&mut plant, &inputs, 600), None);
    assert_eq!(turning(&plant), [false, false, true]);
    assert!(plant.current_a(&inputs, Conductor::FuseToR) < 0.3);
    inputs.thermostat.mode = Mode::Cool;
    assert!(seconds_until_blown(&mut plant, &inputs, 30).is_some());
    advance(&mut plant, &inputs, 60.0).expect("finite");
    assert_eq!(turning(&plant), [false; 3]);
}

/// What flows is what transformer, cable and the touch of the wires let through; a 40 VA transformer into a short gives
/// some 8 to 15 A (common practice, no source). The contactor has lost its voltage, the unit stops.
#[test]
fn the_transformer_limits_the_current_of_a_short() {
    let mut plant = shorted(&txv(), 300.1);
    let inputs = cooling_to_f(60.0);
    advance(&mut plant, &inputs, 300.0).expect("finite");
    assert_eq!(turning(&plant), [true; 3]);
    assert!(plant.current_a(&inputs, Conductor::FuseToR) < 0.6);
    advance(&mut plant, &inputs, 0.5).expect("finite");
    let ampere = plant.current_a(&inputs, Conductor::FuseToR);
    println!("{ampere:.1} A");
    assert!((8.0..15.0).contains(&ampere), "{ampere} A");
    assert!(plant.voltage_v(&inputs, T::ContactorCoilY, T::ContactorCoilC) < 9.0);
    // Nothing of it comes through the cabinet: the control circuit floats.
    assert!(plant.voltage_v(&inputs, T::OutdoorC, T::Ground) < 30.0);
    seconds_until_blown(&mut plant, &inputs, 30).expect("blows");
}

/// With the power off Y to C reads near nothing, least of all where the wires touch; sound, it reads the coil.
#[test]
fn an_ohmmeter_finds_the_short() {
    let read = |faults: &[(FaultKind, f64)], at: (Terminal, Terminal)| {
        let (mut plant, mut inputs) = after(&txv(), faults, 30.0);
        made_safe(&mut plant, &mut inputs);
        ohm(&plant, &inputs, at.0, at.1)
    };
    let (indoors, outdoors) = ((T::Y, T::C), (T::OutdoorY, T::OutdoorC));
    let bad = [(FaultKind::ShortedYConductor, 1.0)];
    let [there, here] = [indoors, outdoors].map(|at| read(&bad, at));
    println!("{there:.2} ohm indoors, {here:.2} outdoors");
    assert!(here < 0.5 && there < 1.5 && here < there, "{here} and {there} ohm");
    for at in [indoors, outdoors] {
        assert!((8.0..30.0).contains(&read(&[], at)));
    }
    let (mut blown, mut inputs) = after(&txv(), &bad, 30.0);
    made_safe(&mut blown, &mut inputs);
    assert_eq!(blown.resistance_ohm(&inputs, T::FuseSupply, T::FuseLoad), OhmReading::Open);
}

/// A fuse that blew of a surge long ago: a new one holds. The whole voltage stands across the old one.
#[test]
fn a_fuse_that_blew_before_is_replaced_once() {
    let (mut plant, inputs) = after(&txv(), &[(FaultKind::BlownControlFuse, 1.0)], 60.0);
    let volt = plant.voltage_v(&inputs, T::FuseSupply, T::FuseLoad);
    assert!((24.0..30.0).contains(&volt), "{volt} V");
    assert_eq!(plant.apply(Work::ReplaceControlFuse).cleared, [FaultKind::BlownControlFuse]);
    assert_eq!(seconds_until_blown(&mut plant, &inputs, 600), None);
    assert_eq!(turning(&plant), [true; 3]);
}

/// A sound control circuit of every system leaves the fuse cold, through starts and stops.
#[test]
fn a_sound_circuit_never_blows_it() {
    for name in System::names() {
        let (mut plant, mut inputs) = after(&system(name), &[], 60.0);
        for _ in 0..4 {
            for mode in [Mode::Off, Mode::Cool] {
                inputs.thermostat.mode = mode;
                advance(&mut plant, &inputs, 240.0).expect("finite");
            }
            inputs.indoor_service_switch = Switch::Open;
            advance(&mut plant, &inputs, 1.0).expect("finite");
            inputs.indoor_service_switch = Switch::Closed;
        }
        assert!(!plant.control_fuse_is_blown(), "{name}");
    }
}

/// The warmth of the fuse is state: saved in the middle of melting, the plant goes on to the same bytes.
#[test]
fn saving_while_the_fuse_melts_changes_nothing() {
    let mut plant = shorted(&txv(), 30.0);
    let inputs = cooling_to_f(60.0);
    advance(&mut plant, &inputs, 30.25).expect("finite");
    let text = ron::to_string(&plant).expect("serialises");
    let mut loaded: Plant = ron::from_str(&text).expect("parses");
    assert_eq!(loaded, plant);
    for plant in [&mut plant, &mut loaded] {
        assert!(!plant.control_fuse_is_blown());
        advance(plant, &inputs, 120.0).expect("finite");
        assert!(plant.control_fuse_is_blown());
    }
    assert_eq!(ron::to_string(&plant).expect("serialises"), ron::to_string(&loaded).expect("serialises"));
}
