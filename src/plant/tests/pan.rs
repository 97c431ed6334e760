//! The drain pan: a plugged drain fills it until the float stops the outdoor unit, and cleared it runs empty.

mod common;

use common::electric::{ecm, ohm, turning};
use common::{cooling_to_f, fault, new_plant, orifice, txv};
use plant::{FaultKind, Inputs, Plant, Strides, System, Terminal as T, Work, advance};

fn plugged(system: &System) -> Plant {
    new_plant(system, 95.0, 80.0, 70.0, &[fault(FaultKind::PluggedCondensateDrain, 1.0)])
}

/// Minutes until the compressor stops; `None` if it does not within ten hours.
fn minutes_until_stop(plant: &mut Plant, inputs: &Inputs) -> Option<u32> {
    advance(plant, inputs, 300.0).expect("finite");
    (6..600).find(|_| {
        advance(plant, inputs, 60.0).expect("finite");
        !plant.compressor_runs()
    })
}

/// In humid air three tons take up to 5 kg/h out of the air (some 30 % of their capacity; any psychrometric chart): the pan takes from half
/// an hour to some hours. Then there is no voltage at the contactor, and the blower runs on.
#[test]
fn a_plugged_drain_stops_the_outdoor_unit_once_the_pan_is_full() {
    for system in [txv(), orifice(), ecm()] {
        let inputs = cooling_to_f(60.0);
        let mut plant = plugged(&system);
        advance(&mut plant, &inputs, 600.0).expect("finite");
        assert!(plant.compressor_runs() && !plant.float_is_up(), "at first it cools");
        let minutes = 10 + minutes_until_stop(&mut plant, &inputs).expect("it stops");
        println!("{}: {minutes} min, {:.2} kg", system.name, plant.pan_water_kg());
        assert!((30..240).contains(&minutes), "{minutes} min");
        assert!(plant.float_is_up() && (2.4..3.0).contains(&plant.pan_water_kg()));
        advance(&mut plant, &inputs, 300.0).expect("finite");
        assert_eq!(turning(&plant), [false, false, true]);
        assert!(
            plant.voltage_v(&inputs, T::FloatSwitchIn, T::FloatSwitchOut) > 20.0,
            "24 V across the switch"
        );
        // All that came off the coil stands in it.
        assert!((plant.pan_water_kg() - plant.coil_water().drained_kg).abs() < 1.0e-12);
        assert_eq!(plant.apply(Work::RestoreCondensateSwitch).cleared, [FaultKind::PluggedCondensateDrain]);
        advance(&mut plant, &inputs, 300.0).expect("finite");
        assert_eq!(turning(&plant), [true; 3]);
        assert!(!plant.float_is_up() && plant.pan_water_kg() == 0.0);
    }
}

#[test]
fn nothing_stands_in_a_pan_whose_drain_is_open() {
    let inputs = cooling_to_f(60.0);
    let mut plant = new_plant(&txv(), 95.0, 80.0, 70.0, &[]);
    assert_eq!(minutes_until_stop(&mut plant, &inputs), None);
    assert!(plant.coil_water().drained_kg > 5.0 && plant.pan_water_kg() == 0.0);
}

/// A dry house gives no water: the drain is plugged all the same, and nobody notices.
#[test]
fn dry_air_fills_no_pan() {
    let mut plant = new_plant(&txv(), 95.0, 80.0, 56.0, &[fault(FaultKind::PluggedCondensateDrain, 1.0)]);
    assert_eq!(minutes_until_stop(&mut plant, &cooling_to_f(60.0)), None);
}

/// Long strides end before the float lifts its switch: it opens when ordinary steps open it.
#[test]
fn strides_stop_for_the_float() {
    let inputs = cooling_to_f(60.0);
    let stepped = f64::from(minutes_until_stop(&mut plugged(&txv()), &inputs).expect("it stops"));
    let mut plant = plugged(&txv());
    let mut strides = Strides::default();
    while !plant.float_is_up() && plant.time_s() < 36_000.0 {
        strides.go(&mut plant, &inputs, 600.0).expect("finite");
    }
    let strode = plant.time_s() / 60.0;
    println!("{stepped} and {strode:.1} min, {:?}", strides.made());
    assert!((strode - stepped).abs() < 2.0, "{stepped} and {strode} min");
    assert!(plant.pan_water_kg() < 2.5, "{} kg", plant.pan_water_kg());
    assert!(strides.made().leaps > 3, "it strode");
}

/// A shorted coil: near nothing where a sound one has some 14 ohm, and the cable before it reads a little more.
#[test]
fn an_ohmmeter_finds_a_shorted_coil() {
    use common::electric::{after, made_safe};
    let read = |kind: Option<FaultKind>, from: T, to: T| {
        let faults: Vec<(FaultKind, f64)> = kind.into_iter().map(|kind| (kind, 1.0)).collect();
        let (mut plant, mut inputs) = after(&txv(), &faults, 30.0);
        made_safe(&mut plant, &mut inputs);
        ohm(&plant, &inputs, from, to)
    };
    let shorted = Some(FaultKind::ShortedContactorCoil);
    let coil = read(shorted, T::ContactorCoilY, T::ContactorCoilC);
    let cable = read(shorted, T::OutdoorY, T::OutdoorC);
    println!("{coil:.2} ohm at the coil, {cable:.2} at the cable");
    assert!(coil < 1.0 && coil < cable && cable < 1.5);
    assert!((8.0..20.0).contains(&read(None, T::ContactorCoilY, T::ContactorCoilC)));
    // Where the conductor is chafed it is the other way round.
    let chafed = Some(FaultKind::ShortedYConductor);
    assert!(read(chafed, T::ContactorCoilY, T::ContactorCoilC) > read(chafed, T::OutdoorY, T::OutdoorC));
}

/// It pulls nothing in, drags the transformer down and melts one fuse after the other, until there is another contactor.
#[test]
fn a_shorted_coil_melts_one_fuse_after_the_other_until_the_contactor_is_another() {
    for system in [txv(), ecm()] {
        let inputs = cooling_to_f(60.0);
        let mut short = fault(FaultKind::ShortedContactorCoil, 1.0);
        short.onset_s = 300.1;
        let mut plant = new_plant(&system, 95.0, 80.0, 67.0, &[short]);
        advance(&mut plant, &inputs, 300.0).expect("finite");
        assert_eq!(turning(&plant), [true; 3]);
        advance(&mut plant, &inputs, 0.5).expect("finite");
        let volt = plant.voltage_v(&inputs, T::R, T::C);
        let ampere = plant.current_a(&inputs, plant::Conductor::FuseToR);
        println!("{}: {volt:.1} V, {ampere:.1} A", system.name);
        assert!((5.0..15.0).contains(&volt), "the transformer sags to {volt} V");
        // Less than into a dead short, and more than the fuse stands (6.25 A).
        assert!((6.5..15.0).contains(&ampere), "{ampere} A");
        for _ in 0..3 {
            // The thermostat waits five minutes after a stop before it calls again.
            advance(&mut plant, &inputs, 400.0).expect("finite");
            assert!(plant.control_fuse_is_blown());
            assert_eq!(turning(&plant), [false; 3]);
            plant.apply(Work::ReplaceControlFuse);
        }
        advance(&mut plant, &inputs, 60.0).expect("finite");
        assert_eq!(plant.apply(Work::RepairConductor).cleared, [], "the cable is whole");
        assert_eq!(plant.apply(Work::ReplaceContactor).cleared, [FaultKind::ShortedContactorCoil]);
        plant.apply(Work::ReplaceControlFuse);
        advance(&mut plant, &inputs, 600.0).expect("finite");
        assert!(!plant.control_fuse_is_blown());
        assert_eq!(turning(&plant), [true; 3]);
    }
}
