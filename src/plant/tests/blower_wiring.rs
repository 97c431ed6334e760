//! What a meter reads of a blower that stands: relay coil, motor plug and module.

mod common;

use common::electric::*;
use common::txv;
use plant::{FaultKind, Inputs, Leads, Motor, OhmReading, Plant, Strides, Switch, System, Terminal, advance};

use Terminal as T;

const PHASES: [Terminal; 3] = [T::EcmMotor1, T::EcmMotor2, T::EcmMotor3];

/// Dead, with the module run down.
fn plug_pulled(system: &System, faults: &[(FaultKind, f64)]) -> (Plant, Inputs) {
    let (mut plant, mut inputs) = after(system, faults, 30.0);
    made_safe(&mut plant, &mut inputs);
    advance(&mut plant, &inputs, 300.0).expect("finite");
    plant.set_motor_leads(Motor::Blower, Leads::Off);
    (plant, inputs)
}

/// Three phases of equal, low ohms and none to the frame: what makers of ECM motors ask for before a module is replaced
/// (less than 20 ohm between phases, within 10 %; common practice, from memory). Only a burnt winding reads otherwise: a dead module, a
/// missing command and a seized rotor leave the windings as they are.
#[test]
fn the_windings_of_an_ecm_tell_a_burnt_motor_from_a_dead_module() {
    for faults in [
        vec![],
        vec![(FaultKind::DeadBlowerModule, 1.0)],
        vec![(FaultKind::NoBlowerCommand, 1.0)],
        vec![(FaultKind::SeizedBlowerMotor, 1.0)],
    ] {
        let (plant, inputs) = plug_pulled(&ecm(), &faults);
        let [first, second, third] =
            [(0, 1), (1, 2), (2, 0)].map(|(a, b)| ohm(&plant, &inputs, PHASES[a], PHASES[b]));
        assert!((0.5..20.0).contains(&first), "{faults:?}: {first} ohm");
        for other in [second, third] {
            approx::assert_relative_eq!(first, other, max_relative = 0.1);
        }
        for phase in PHASES {
            assert_eq!(plant.resistance_ohm(&inputs, phase, T::Ground), OhmReading::Open, "{faults:?}");
            assert_eq!(plant.resistance_ohm(&inputs, phase, T::EcmLine1), OhmReading::Open, "{faults:?}");
        }
    }
    let (burnt, inputs) = plug_pulled(&ecm(), &[(FaultKind::OpenBlowerWinding, 1.0)]);
    assert_eq!(burnt.resistance_ohm(&inputs, T::EcmMotor1, T::EcmMotor2), OhmReading::Open);
    assert_eq!(burnt.resistance_ohm(&inputs, T::EcmMotor3, T::EcmMotor1), OhmReading::Open);
    // Two of the phases are whole: one pair alone proves nothing.
    assert!(ohm(&burnt, &inputs, T::EcmMotor2, T::EcmMotor3) < 20.0);
}

/// The module's capacitor stands at the peak of 240 V, damages a meter at the plug until it has run down, and is empty after five
/// minutes without power; a dead module holds none.
#[test]
fn the_module_of_an_ecm_keeps_its_charge_for_minutes() {
    let (mut plant, mut inputs) = after(&ecm(), &[], 60.0);
    approx::assert_relative_eq!(plant.module_charge_v(), FULL_V, max_relative = 0.01);
    let read = |plant: &Plant, inputs: &Inputs| plant.resistance_ohm(inputs, T::EcmMotor1, T::EcmMotor2);
    assert!(matches!(read(&plant, &inputs), OhmReading::MeterDamaged { across_v } if across_v > 300.0));
    inputs.indoor_service_switch = Switch::Open;
    advance(&mut plant, &inputs, 30.0).expect("finite");
    assert!(matches!(read(&plant, &inputs), OhmReading::MeterDamaged { .. }));
    advance(&mut plant, &inputs, 90.0).expect("finite");
    assert!(matches!(read(&plant, &inputs), OhmReading::Disturbed { .. }));
    advance(&mut plant, &inputs, 180.0).expect("finite");
    assert!(matches!(read(&plant, &inputs), OhmReading::Resistance { .. }));
    // With the plug pulled nothing of the module is at the motor.
    let (mut pulled, inputs) = after(&ecm(), &[], 60.0);
    pulled.set_motor_leads(Motor::Blower, Leads::Off);
    assert!(matches!(read(&pulled, &inputs), OhmReading::Resistance { .. }));
    let (dead, _) = after(&ecm(), &[(FaultKind::DeadBlowerModule, 1.0)], 60.0);
    assert_eq!(dead.module_charge_v(), 0.0);
    assert_eq!(after(&txv(), &[], 60.0).0.module_charge_v(), 0.0);
}

/// The coil itself is whole with either fault of the board: only its voltage tells them apart.
#[test]
fn the_coil_of_the_blower_relay_measures_whole() {
    for faults in [vec![], vec![(FaultKind::DeadBoard, 1.0)], vec![(FaultKind::OpenBlowerRelay, 1.0)]] {
        let (mut plant, mut inputs) = after(&txv(), &faults, 30.0);
        made_safe(&mut plant, &mut inputs);
        let coil = ohm(&plant, &inputs, T::BlowerRelayCoilG, T::BlowerRelayCoilC);
        assert!((80.0..110.0).contains(&coil), "{faults:?}: {coil} ohm");
        let through_board = ohm(&plant, &inputs, T::G, T::BlowerRelayCoilG);
        assert_eq!(
            through_board < 0.1,
            faults.first() != Some(&(FaultKind::DeadBoard, 1.0)),
            "{through_board} ohm"
        );
    }
}

/// Faults of the other kind of blower change nothing at all.
#[test]
fn kinds_of_the_other_blower_do_nothing() {
    for (system, kinds) in [
        (txv(), [FaultKind::DeadBlowerModule, FaultKind::NoBlowerCommand]),
        (ecm(), [FaultKind::WeakBlowerCapacitor, FaultKind::OpenBlowerRelay]),
    ] {
        let (sound, _) = after(&system, &[], 600.0);
        for kind in kinds {
            let (plant, _) = after(&system, &[(kind, 1.0)], 600.0);
            assert_eq!(plant.readout(), sound.readout(), "{kind:?}");
        }
    }
}

/// Peak of 240 V less what the supply loses, V.
const FULL_V: f64 = 338.0;

/// Led by long strides, as a plant that nobody looks at, the module runs down as by ordinary steps.
#[test]
fn strides_run_a_module_down() {
    let (by_steps, mut inputs) = after(&ecm(), &[], 60.0);
    inputs.indoor_service_switch = Switch::Open;
    let (mut by_strides, mut by_steps) = (by_steps.clone(), by_steps);
    let (from_s, mut strides) = (by_steps.time_s(), Strides::default());
    for minute in 1..=5 {
        advance(&mut by_steps, &inputs, 60.0).expect("finite");
        while by_strides.time_s() < from_s + f64::from(minute) * 60.0 {
            let left_s = from_s + f64::from(minute) * 60.0 - by_strides.time_s();
            strides.go(&mut by_strides, &inputs, left_s).expect("finite");
        }
        let (steps_v, strides_v) = (by_steps.module_charge_v(), by_strides.module_charge_v());
        // A straight leap takes at most 0.3 of what is left, which is -ln(0.7)/0.3 = 1.19 times as fast.
        let fastest_v = FULL_V * libm::pow(steps_v / FULL_V, 1.19);
        assert!(
            (fastest_v - 0.3..steps_v + 0.3).contains(&strides_v),
            "{minute} min: {steps_v} and {strides_v} V"
        );
    }
    assert!(by_strides.module_charge_v() < 0.3, "{} V", by_strides.module_charge_v());
}
