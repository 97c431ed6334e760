//! The wiring: what a meter reads, fault by fault; laws of the network.

mod common;

use common::electric::*;
use common::{cooling_to_f, fault, held_room, new_plant, txv};
use media::units::kelvin_from_fahrenheit;
use plant::{
    BlowerKind, CapacitanceReading, Capacitor, Conductor, FanSetting, FaultKind, Inputs, Leads, Mode, Motor,
    OhmReading, Plant, Switch, System, Terminal, Weather, advance,
};
use proptest::prelude::*;

use Terminal as T;

#[test]
fn sound_plants_draw_what_their_plates_say() {
    for name in System::names() {
        let system = system(name);
        let (plant, inputs) = after(&system, &[], 900.0);
        let (plate, r) = (&system.plate, plant.readout());
        let compressor_a = plant.current_a(&inputs, Conductor::CompressorCommon);
        // Below the rated load current at rating conditions, with the power factor of a motor with run capacitor.
        assert!(compressor_a < plate.rated_load_a && compressor_a > 0.6 * plate.rated_load_a, "{name}");
        let power_factor = r.compressor_power_w / (239.0 * compressor_a);
        assert!((0.92..0.99).contains(&power_factor), "{name}: {power_factor}");
        let fan_a = plant.current_a(&inputs, Conductor::FanCommon);
        assert!((0.6..1.0).contains(&(fan_a / plate.fan_full_load_a)), "{name}: fan {fan_a} A");
        // Capacitors of this kind are made for 370 or 440 V (common practice, no source).
        for capacitor in Capacitor::ALL {
            let (a, b) = Plant::capacitor_terminals(capacitor);
            assert!(plant.voltage_v(&inputs, a, b) < 440.0, "{name} {capacitor:?}");
        }
        // Class 2 control circuit: 40 VA at 24 V is 1.67 A, up to 30 V (NEC class 2, from memory).
        assert!(plant.current_a(&inputs, Conductor::ControlHot) < 1.67);
        assert!((24.0..30.0).contains(&plant.voltage_v(&inputs, T::R, T::C)), "{name}");
    }
}

/// With the rotor locked the motor draws what the plate says, within 3 %.
#[test]
fn locked_rotor_current_is_that_of_the_plate() {
    for name in System::names() {
        let system = system(name);
        let (plant, inputs) = after(&system, &[(FaultKind::WeakCompressorCapacitor, 1.0)], 3.0);
        assert!(plant.hums(Motor::Compressor), "{name}");
        let locked_a = plant.current_a(&inputs, Conductor::CompressorCommon);
        approx::assert_relative_eq!(locked_a, system.plate.locked_rotor_a, max_relative = 0.03);
    }
}

/// What the watt meters at both supplies read is what the plant says that its motors take, plus the control circuit.
#[test]
fn power_balances() {
    for (system, faults) in [
        (txv(), vec![]),
        (ecm(), vec![]),
        (system("split-5-ton-r410a-txv-ecm"), vec![(FaultKind::LoadedFilter, 0.6)]),
        (system("split-2-ton-r410a-orifice"), vec![(FaultKind::LoadedFilter, 0.7)]),
        (txv(), vec![(FaultKind::WeakBlowerCapacitor, 0.5)]),
        (txv(), vec![(FaultKind::WeakCompressorCapacitor, 0.4)]),
        (txv(), vec![(FaultKind::WeakFanCapacitor, 0.3)]),
    ] {
        let (plant, inputs) = after(&system, &faults, 900.0);
        let r = plant.readout();
        let outdoor_w = r.compressor_power_w + plant.outdoor_fan_power_w();
        approx::assert_relative_eq!(plant.outdoor_power_w(&inputs), outdoor_w, max_relative = 0.03);
        let indoor_w = plant.indoor_power_w(&inputs);
        let control_w = 8.0;
        let gap = indoor_w - r.blower_power_w;
        assert!(
            (-0.07 * r.blower_power_w..control_w + 0.07 * r.blower_power_w).contains(&gap),
            "{} {faults:?}: {indoor_w} against {}",
            system.name,
            r.blower_power_w
        );
    }
}

/// C to S and C to R add up to R to S (common practice, no source); winding resistances are plausible.
#[test]
fn windings_measure_dead_and_add_up() {
    let (mut plant, mut inputs) = after(&txv(), &[], 300.0);
    made_safe(&mut plant, &mut inputs);
    for motor in Motor::ALL {
        plant.set_motor_leads(motor, Leads::Off);
    }
    for (common, start, run) in [
        (T::CompressorCommon, T::CompressorStart, T::CompressorRun),
        (T::FanMotorCommon, T::FanMotorStart, T::FanMotorRun),
    ] {
        let (cs, cr) = (ohm(&plant, &inputs, common, start), ohm(&plant, &inputs, common, run));
        approx::assert_relative_eq!(ohm(&plant, &inputs, start, run), cs + cr, max_relative = 0.02);
        assert!(cs > 1.5 * cr, "{common:?}: {cs} and {cr}");
        // No winding to the shell.
        assert_eq!(plant.resistance_ohm(&inputs, run, T::Ground), OhmReading::Open);
    }
    assert!((0.5..3.0).contains(&ohm(&plant, &inputs, T::CompressorCommon, T::CompressorRun)));
    assert!((8.0..30.0).contains(&ohm(&plant, &inputs, T::ContactorCoilY, T::ContactorCoilC)));
    assert!(ohm(&plant, &inputs, T::FuseSupply, T::FuseLoad) < 0.1);
    assert!(ohm(&plant, &inputs, T::DisconnectLoad1, T::ContactorLine1) < 0.1);
    assert_eq!(plant.resistance_ohm(&inputs, T::ContactorLine1, T::ContactorLoad1), OhmReading::Open);
}

/// In a chain of switches the whole 24 V stand across the one that is open, none across those that are closed.
#[test]
fn the_open_switch_shows_the_voltage() {
    let chain = [
        (T::FuseSupply, T::FuseLoad),
        (T::ThermostatR, T::ThermostatY),
        (T::FloatSwitchIn, T::FloatSwitchOut),
        (T::FloatSwitchOut, T::OutdoorY),
        (T::HighPressureIn, T::HighPressureOut),
        (T::LowPressureIn, T::LowPressureOut),
    ];
    let (sound, inputs) = after(&txv(), &[], 300.0);
    // A few hundredths of a volt over a contact, a tenth over 15 m of cable.
    assert!(chain.into_iter().all(|(a, b)| sound.voltage_v(&inputs, a, b) < 0.12));
    for (place, kind) in [
        (1, FaultKind::ThermostatNoY),
        (2, FaultKind::OpenCondensateSwitch),
        (3, FaultKind::BrokenYConductor),
    ] {
        let (plant, inputs) = after(&txv(), &[(kind, 1.0)], 300.0);
        for (at, (a, b)) in chain.into_iter().enumerate() {
            let volt = plant.voltage_v(&inputs, a, b);
            if at == place {
                assert!((24.0..30.0).contains(&volt), "{kind:?} {a:?}: {volt}");
            } else {
                assert!(volt < 0.12, "{kind:?} {a:?}: {volt}");
            }
        }
        // Everything before the open place still has its 24 V, nothing behind it.
        assert!(plant.voltage_v(&inputs, T::ThermostatR, T::C) > 24.0);
        assert!(plant.voltage_v(&inputs, T::ContactorCoilY, T::ContactorCoilC) < 0.1);
        assert!(!plant.compressor_runs());
        assert!(plant.readout().blower_speed > 0.99, "{kind:?} leaves the blower on");
    }
}

#[test]
fn pressure_switches_break_the_coil_and_show_it() {
    // Nearly no charge: the low-pressure switch opens.
    let small = system("split-3-ton-r410a-txv-small-condenser");
    let mut plant = Plant::new(
        &small,
        held_room(80.0, 67.0),
        Weather::held(kelvin_from_fahrenheit(95.0)),
        0.15 * small.plate_charge_kg,
        &[],
    );
    let inputs = cooling_to_f(60.0);
    let mut opened = false;
    for _ in 0..240 {
        advance(&mut plant, &inputs, 5.0).expect("finite");
        if plant.voltage_v(&inputs, T::LowPressureIn, T::LowPressureOut) > 24.0 {
            opened = true;
            assert!(!plant.compressor_runs() || plant.compressor_on_for_s() > 0.0);
            assert!(plant.voltage_v(&inputs, T::ContactorCoilY, T::ContactorCoilC) < 0.1);
        }
    }
    assert!(opened);
    // No outdoor fan: the high-pressure switch opens.
    let (mut plant, inputs) = after(&txv(), &[(FaultKind::DeadFanMotor, 1.0)], 0.0);
    let opened = (0..600).any(|_| {
        advance(&mut plant, &inputs, 1.0).expect("finite");
        plant.voltage_v(&inputs, T::HighPressureIn, T::HighPressureOut) > 24.0
    });
    assert!(opened);
}

// ---------------------------------------------------------------- every fault, by meter

enum Check {
    /// Volts between two terminals, within bounds.
    Volt(Terminal, Terminal, f64, f64),
    /// Amperes of a conductor, within bounds.
    Ampere(Conductor, f64, f64),
}

use Check::{Ampere, Volt};

const LINE: (f64, f64) = (236.0, 241.0);
const CONTROL: (f64, f64) = (24.0, 30.0);
const NONE: (f64, f64) = (0.0, 0.1);

fn volt(a: Terminal, b: Terminal, (from, to): (f64, f64)) -> Check {
    Volt(a, b, from, to)
}

fn check(plant: &Plant, inputs: &Inputs, what: &str, checks: &[Check]) {
    for check in checks {
        match check {
            Volt(a, b, from, to) => {
                let v = plant.voltage_v(inputs, *a, *b);
                assert!((*from..=*to).contains(&v), "{what}: {v} V from {a:?} to {b:?}");
            }
            Ampere(c, from, to) => {
                let a = plant.current_a(inputs, *c);
                assert!((*from..=*to).contains(&a), "{what}: {a} A in {c:?}");
            }
        }
    }
}

/// System, fault, severity, who turns (compressor, outdoor fan, blower), readings.
type Row = (System, FaultKind, f64, [bool; 3], Vec<Check>);

/// One row a fault: who turns after 30 s of a call, and what a meter reads where.
#[test]
fn every_fault_reads_as_it_should() {
    let coil = |range| volt(T::ContactorCoilY, T::ContactorCoilC, range);
    let rows: Vec<Row> = vec![
        (
            txv(),
            FaultKind::WeakBlowerCapacitor,
            1.0,
            [true, true, false],
            vec![
                volt(T::BlowerMotor1, T::BlowerMotor2, LINE),
                Ampere(Conductor::BlowerStart, 0.0, 0.01),
                Ampere(Conductor::BlowerLine, 3.9, 4.5),
            ],
        ),
        (
            txv(),
            FaultKind::SeizedBlowerMotor,
            1.0,
            [true, true, false],
            vec![
                volt(T::BlowerMotor1, T::BlowerMotor2, LINE),
                Ampere(Conductor::BlowerStart, 0.3, 1.5),
                Ampere(Conductor::BlowerLine, 3.8, 4.4),
            ],
        ),
        (
            txv(),
            FaultKind::OpenBlowerWinding,
            1.0,
            [true, true, false],
            vec![volt(T::BlowerMotor1, T::BlowerMotor2, LINE), Ampere(Conductor::BlowerLine, 0.1, 1.5)],
        ),
        (
            ecm(),
            FaultKind::DeadBlowerModule,
            1.0,
            [true, true, false],
            vec![
                volt(T::EcmLine1, T::EcmLine2, LINE),
                volt(T::EcmCommand, T::EcmCommon, CONTROL),
                volt(T::EcmBoardCommand, T::C, CONTROL),
                Ampere(Conductor::BlowerLine, 0.0, 0.01),
            ],
        ),
        (
            ecm(),
            FaultKind::NoBlowerCommand,
            1.0,
            [true, true, false],
            vec![
                volt(T::EcmLine1, T::EcmLine2, LINE),
                volt(T::EcmCommand, T::EcmCommon, NONE),
                volt(T::EcmBoardCommand, T::C, CONTROL),
                volt(T::G, T::C, CONTROL),
                Ampere(Conductor::BlowerLine, 0.01, 0.1),
            ],
        ),
        (
            txv(),
            FaultKind::OpenBlowerRelay,
            1.0,
            [true, true, false],
            vec![
                volt(T::G, T::C, CONTROL),
                volt(T::BlowerRelayCoilG, T::BlowerRelayCoilC, CONTROL),
                volt(T::BlowerRelayCommon, T::BlowerRelayOut, LINE),
                volt(T::BlowerMotor1, T::BlowerMotor2, NONE),
                Ampere(Conductor::ThermostatG, 0.1, 0.3),
            ],
        ),
        (
            txv(),
            FaultKind::DeadBoard,
            1.0,
            [true, true, false],
            vec![
                volt(T::G, T::C, CONTROL),
                volt(T::BlowerRelayCoilG, T::BlowerRelayCoilC, NONE),
                volt(T::BlowerMotor1, T::BlowerMotor2, NONE),
                Ampere(Conductor::ThermostatG, 0.0, 0.001),
                coil(CONTROL),
            ],
        ),
        (
            ecm(),
            FaultKind::DeadBoard,
            1.0,
            [true, true, false],
            vec![
                volt(T::G, T::C, CONTROL),
                volt(T::EcmBoardCommand, T::C, NONE),
                volt(T::EcmCommand, T::EcmCommon, NONE),
            ],
        ),
        (
            txv(),
            FaultKind::ThermostatNoG,
            1.0,
            [true, true, false],
            vec![
                volt(T::G, T::C, NONE),
                volt(T::ThermostatR, T::ThermostatG, CONTROL),
                volt(T::Y, T::C, CONTROL),
            ],
        ),
        (
            txv(),
            FaultKind::ThermostatNoY,
            1.0,
            [false, false, true],
            vec![volt(T::Y, T::C, NONE), volt(T::R, T::Y, CONTROL), volt(T::G, T::C, CONTROL)],
        ),
        (
            txv(),
            FaultKind::BrokenYConductor,
            1.0,
            [false, false, true],
            vec![volt(T::Y, T::C, CONTROL), coil(NONE), Ampere(Conductor::YToOutdoor, 0.0, 1.0e-6)],
        ),
        (
            txv(),
            FaultKind::BlownControlFuse,
            1.0,
            [false, false, false],
            vec![
                volt(T::TransformerSecondary1, T::TransformerSecondary2, CONTROL),
                volt(T::R, T::C, NONE),
                volt(T::FuseSupply, T::C, CONTROL),
            ],
        ),
        (
            txv(),
            FaultKind::OpenTransformer,
            1.0,
            [false, false, false],
            vec![
                volt(T::TransformerPrimary1, T::TransformerPrimary2, LINE),
                volt(T::TransformerSecondary1, T::TransformerSecondary2, NONE),
                Ampere(Conductor::TransformerFeed, 0.0, 0.0001),
            ],
        ),
        (
            txv(),
            FaultKind::OpenCondensateSwitch,
            1.0,
            [false, false, true],
            vec![volt(T::FloatSwitchIn, T::FloatSwitchOut, CONTROL), volt(T::Y, T::C, CONTROL), coil(NONE)],
        ),
        (
            txv(),
            FaultKind::OpenContactorCoil,
            1.0,
            [false, false, true],
            vec![
                coil(CONTROL),
                Ampere(Conductor::ContactorCoil, 0.0, 0.001),
                volt(T::ContactorLine1, T::ContactorLine2, LINE),
                volt(T::ContactorLoad1, T::ContactorLoad2, NONE),
            ],
        ),
        (
            txv(),
            FaultKind::WeakFanCapacitor,
            1.0,
            [true, false, true],
            vec![Ampere(Conductor::FanCommon, 1.9, 2.3), Ampere(Conductor::FanStart, 0.0, 0.01)],
        ),
        (
            txv(),
            FaultKind::DeadFanMotor,
            1.0,
            [true, false, true],
            vec![volt(T::FanMotorCommon, T::FanMotorRun, LINE), Ampere(Conductor::FanCommon, 0.0, 1.0e-6)],
        ),
    ];
    for (system, kind, severity, turns, checks) in rows {
        let what = format!("{kind:?} on {}", system.name);
        let (plant, inputs) = after(&system, &[(kind, severity)], 20.0);
        assert_eq!(turning(&plant), turns, "{what}");
        check(&plant, &inputs, &what, &checks);
        // The sound plant reads otherwise, at least at one of these points.
        let (sound, _) = after(&system, &[], 20.0);
        assert_eq!(turning(&sound), [true; 3]);
        let same = checks.iter().all(|c| match c {
            Volt(a, b, from, to) => (*from..=*to).contains(&sound.voltage_v(&inputs, *a, *b)),
            Ampere(c, from, to) => (*from..=*to).contains(&sound.current_a(&inputs, *c)),
        });
        assert!(!same, "{what}: a sound plant reads the same");
    }
}

/// A dead fan motor and an open winding show in ohms once the leads are off.
#[test]
fn open_windings_show_in_ohms() {
    let (mut plant, mut inputs) =
        after(&txv(), &[(FaultKind::DeadFanMotor, 1.0), (FaultKind::OpenBlowerWinding, 1.0)], 30.0);
    made_safe(&mut plant, &mut inputs);
    // With its leads on the fan motor's terminals read through the compressor's winding: no proof of anything.
    assert!(ohm(&plant, &inputs, T::FanMotorCommon, T::FanMotorRun) < 5.0);
    plant.set_motor_leads(Motor::OutdoorFan, Leads::Off);
    assert_eq!(plant.resistance_ohm(&inputs, T::FanMotorCommon, T::FanMotorRun), OhmReading::Open);
    assert!(ohm(&plant, &inputs, T::FanMotorStart, T::FanMotorRun) > 50.0);
    assert_eq!(plant.resistance_ohm(&inputs, T::BlowerMotor1, T::BlowerMotor2), OhmReading::Open);
    assert!(ohm(&plant, &inputs, T::BlowerMotorStart, T::BlowerMotor2) > 30.0);
    for (kind, a, b) in [
        (FaultKind::OpenTransformer, T::TransformerPrimary1, T::TransformerPrimary2),
        (FaultKind::BlownControlFuse, T::FuseSupply, T::FuseLoad),
        (FaultKind::OpenContactorCoil, T::ContactorCoilY, T::ContactorCoilC),
    ] {
        let (mut broken, mut off) = after(&txv(), &[(kind, 1.0)], 30.0);
        made_safe(&mut broken, &mut off);
        let (mut sound, mut sound_off) = after(&txv(), &[], 30.0);
        made_safe(&mut sound, &mut sound_off);
        // Nothing else joins the two sides of these but the rest of the dead circuit.
        assert!(
            ohm(&broken, &off, a, b) > 3.0 * ohm(&sound, &sound_off, a, b) + 1.0,
            "{kind:?}: {} against {}",
            ohm(&broken, &off, a, b),
            ohm(&sound, &sound_off, a, b)
        );
    }
}

/// The outdoor unit keeps running when the thermostat is satisfied, the blower stops, and the coil freezes; the disconnect
/// still stops it.
#[test]
fn a_welded_contactor_freezes_the_coil() {
    let mut plant = new_plant(&txv(), 80.0, 74.0, 63.0, &[fault(FaultKind::WeldedContactor, 1.0)]);
    let mut inputs = cooling_to_f(60.0);
    advance(&mut plant, &inputs, 600.0).expect("finite");
    inputs.thermostat.mode = Mode::Off;
    advance(&mut plant, &inputs, 1800.0).expect("finite");
    assert_eq!(turning(&plant), [true, true, false]);
    assert!(plant.voltage_v(&inputs, T::ContactorCoilY, T::ContactorCoilC) < 0.1);
    assert!(plant.voltage_v(&inputs, T::ContactorLine1, T::ContactorLoad1) < 0.5);
    assert!(plant.readout().frost_mass_kg > 0.1, "{} kg", plant.readout().frost_mass_kg);
    inputs.outdoor_disconnect = Switch::Open;
    advance(&mut plant, &inputs, 30.0).expect("finite");
    assert_eq!(turning(&plant), [false; 3]);
    // The indoor switch alone does not stop it; starved as it is, its thermal disc does some minutes later.
    inputs.outdoor_disconnect = Switch::Closed;
    inputs.indoor_service_switch = Switch::Open;
    advance(&mut plant, &inputs, 120.0).expect("finite");
    assert!(plant.compressor_runs());
}

#[test]
fn faults_set_in_at_their_onset() {
    let mut late = fault(FaultKind::ThermostatNoG, 1.0);
    late.onset_s = 120.0;
    let mut plant = new_plant(&txv(), 95.0, 80.0, 67.0, &[late]);
    let inputs = cooling_to_f(60.0);
    advance(&mut plant, &inputs, 119.0).expect("finite");
    assert_eq!(turning(&plant), [true; 3]);
    advance(&mut plant, &inputs, 30.0).expect("finite");
    assert_eq!(turning(&plant), [true, true, false]);
}

// ---------------------------------------------------------------- motors

/// Within the label's tolerance, commonly 6 % (label; IEC 60252-1), on every system; a weak one by its share.
#[test]
fn capacitors_measure_as_labelled() {
    for name in System::names() {
        let system = system(name);
        let lost = [
            (FaultKind::WeakCompressorCapacitor, 0.4),
            (FaultKind::WeakFanCapacitor, 0.2),
            (FaultKind::WeakBlowerCapacitor, 0.9),
        ];
        for faults in [&[][..], &lost[..]] {
            let (mut plant, mut inputs) = after(&system, faults, 60.0);
            made_safe(&mut plant, &mut inputs);
            let labels = [
                Some(system.plate.compressor_capacitor_f),
                Some(system.plate.fan_capacitor_f),
                system.plate.blower_capacitor_f,
            ];
            for ((capacitor, label), at) in Capacitor::ALL.into_iter().zip(labels).zip(0..) {
                let Some(label) = label else {
                    assert_eq!(microfarad(&plant, &inputs, capacitor), 0.0);
                    continue;
                };
                let left = faults.get(at).map_or(1.0, |(_, lost): &(FaultKind, f64)| 1.0 - lost);
                plant.set_capacitor_leads(capacitor, Leads::Off);
                let share = microfarad(&plant, &inputs, capacitor) / (label * 1.0e6);
                assert!((share / left - 1.0).abs() < 0.06, "{name} {capacitor:?}: {share}");
            }
        }
    }
}

#[test]
fn a_capacitor_measured_with_its_leads_on_is_shunted_by_windings() {
    let (mut plant, mut inputs) = after(&txv(), &[], 60.0);
    made_safe(&mut plant, &mut inputs);
    let (a, b) = Plant::capacitor_terminals(Capacitor::Compressor);
    assert_eq!(plant.capacitance_f(&inputs, a, b), CapacitanceReading::Shunted);
    plant.set_capacitor_leads(Capacitor::Compressor, Leads::Off);
    assert!(matches!(plant.capacitance_f(&inputs, a, b), CapacitanceReading::Capacitance { .. }));
    // Forgotten, the compressor does not start.
    inputs = cooling_to_f(60.0);
    advance(&mut plant, &inputs, 300.0).expect("finite");
    assert!(!plant.compressor_runs());
    plant.set_capacitor_leads(Capacitor::Compressor, Leads::On);
    advance(&mut plant, &inputs, 1800.0).expect("finite");
    assert!(plant.compressor_runs());
}

/// Switched off, capacitors keep their charge for minutes; measured so, the meter is damaged; discharged, it reads.
#[test]
fn capacitors_keep_their_charge() {
    let (mut plant, mut inputs) = after(&txv(), &[], 60.0);
    inputs.outdoor_disconnect = Switch::Open;
    inputs.indoor_service_switch = Switch::Open;
    advance(&mut plant, &inputs, 60.0).expect("finite");
    for capacitor in Capacitor::ALL {
        let (a, b) = Plant::capacitor_terminals(capacitor);
        let charge_v = plant.capacitor_charge_v(capacitor);
        assert!((400.0..600.0).contains(&charge_v), "{capacitor:?}: {charge_v} V");
        plant.set_capacitor_leads(capacitor, Leads::Off);
        assert!(matches!(plant.capacitance_f(&inputs, a, b), CapacitanceReading::MeterDamaged { .. }));
        assert!(matches!(plant.resistance_ohm(&inputs, b, a), OhmReading::MeterDamaged { .. }));
        plant.discharge_capacitor(capacitor);
        assert!(matches!(plant.capacitance_f(&inputs, a, b), CapacitanceReading::Capacitance { .. }));
        plant.set_capacitor_leads(capacitor, Leads::On);
    }
    // Left alone it fades over the better part of an hour.
    let (mut plant, _) = after(&txv(), &[], 60.0);
    let full = plant.capacitor_charge_v(Capacitor::Compressor);
    advance(&mut plant, &inputs, 900.0).expect("finite");
    let faded = plant.capacitor_charge_v(Capacitor::Compressor) / full;
    approx::assert_relative_eq!(faded, libm::exp(-1.0), max_relative = 0.02);
    let (a, b) = Plant::capacitor_terminals(Capacitor::Compressor);
    plant.set_capacitor_leads(Capacitor::Compressor, Leads::Off);
    advance(&mut plant, &inputs, 2400.0).expect("finite");
    assert!(matches!(plant.capacitance_f(&inputs, a, b), CapacitanceReading::Disturbed { .. }));
}

#[test]
fn ohms_on_a_live_circuit() {
    let (plant, inputs) = after(&txv(), &[], 60.0);
    assert!(matches!(
        plant.resistance_ohm(&inputs, T::ContactorLoad1, T::ContactorLoad2),
        OhmReading::MeterDamaged { across_v } if across_v > 230.0
    ));
    assert!(matches!(
        plant.resistance_ohm(&inputs, T::R, T::C),
        OhmReading::Disturbed { ohm, .. } if !(1.0..100.0).contains(&ohm)
    ));
    assert!(matches!(
        plant.capacitance_f(&inputs, T::CapacitorCommon, T::CapacitorHerm),
        CapacitanceReading::MeterDamaged { .. }
    ));
    // A supply that the disconnect does not switch is live with everything off.
    let mut off = inputs.clone();
    off.outdoor_disconnect = Switch::Open;
    assert!(matches!(
        plant.resistance_ohm(&off, T::DisconnectLine1, T::DisconnectLine2),
        OhmReading::MeterDamaged { .. }
    ));
}

// ---------------------------------------------------------------- laws

#[test]
fn saving_in_the_middle_of_a_trip_changes_nothing() {
    let faults = [(FaultKind::WeakCompressorCapacitor, 0.9), (FaultKind::WeakBlowerCapacitor, 0.8)];
    let (mut plant, inputs) = after(&txv(), &faults, 33.25);
    let text = ron::to_string(&plant).expect("serialises");
    let mut loaded: Plant = ron::from_str(&text).expect("parses");
    assert_eq!(loaded, plant);
    advance(&mut plant, &inputs, 900.0).expect("finite");
    advance(&mut loaded, &inputs, 900.0).expect("finite");
    assert_eq!(ron::to_string(&plant).expect("serialises"), ron::to_string(&loaded).expect("serialises"));
}

#[test]
fn terminals_and_conductors_have_their_own_labels() {
    let mut labels: Vec<&str> = Terminal::ALL.iter().map(|t| t.label()).collect();
    labels.sort_unstable();
    labels.dedup();
    assert_eq!(labels.len(), Terminal::ALL.len());
    let mut labels: Vec<&str> = Conductor::ALL.iter().map(|c| c.label()).collect();
    labels.sort_unstable();
    labels.dedup();
    assert_eq!(labels.len(), Conductor::ALL.len());
    let (plant, _) = after(&ecm(), &[], 1.0);
    assert_eq!(plant.blower_kind(), BlowerKind::Ecm);
    assert!(
        plant.terminals().any(|t| t == T::EcmCommand) && !plant.terminals().any(|t| t == T::BlowerCapacitor1)
    );
    for terminal in [T::EcmMotor1, T::EcmMotor2, T::EcmMotor3, T::EcmBoardCommand] {
        assert_eq!(terminal.blower_only(), Some(BlowerKind::Ecm));
    }
    assert!(
        [T::BlowerRelayCoilG, T::BlowerRelayCoilC].iter().all(|t| t.blower_only() == Some(BlowerKind::Psc))
    );
}

const ELECTRIC: [FaultKind; 20] = [
    FaultKind::WrongSpeedTap,
    FaultKind::WeakBlowerCapacitor,
    FaultKind::SeizedBlowerMotor,
    FaultKind::OpenBlowerWinding,
    FaultKind::DeadBlowerModule,
    FaultKind::NoBlowerCommand,
    FaultKind::OpenBlowerRelay,
    FaultKind::DeadBoard,
    FaultKind::ThermostatNoG,
    FaultKind::ThermostatNoY,
    FaultKind::BrokenYConductor,
    FaultKind::ShortedYConductor,
    FaultKind::BlownControlFuse,
    FaultKind::OpenTransformer,
    FaultKind::OpenCondensateSwitch,
    FaultKind::WeldedContactor,
    FaultKind::OpenContactorCoil,
    FaultKind::WeakFanCapacitor,
    FaultKind::DeadFanMotor,
    FaultKind::WeakCompressorCapacitor,
];

fn flip(s: Switch) -> Switch {
    if s == Switch::Open { Switch::Closed } else { Switch::Open }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Whatever is broken and switched: currents sum to zero at every motor and over both legs of every load, voltages stay
    /// within what the sources can give, no load makes power, and isolated circuits show next to nothing between them.
    #[test]
    fn kirchhoff_holds(
        which in 0..System::names().len(),
        faults in proptest::collection::vec((0..ELECTRIC.len(), 0.0..=1.0_f64), 0..3),
        switches in proptest::collection::vec((0..8_u8, 0.25..400.0_f64), 1..6),
        pair in (0..Terminal::ALL.len(), 0..Terminal::ALL.len()),
    ) {
        let system = System::built_in(System::names()[which]).expect("built in");
        let faults: Vec<_> = faults.into_iter().map(|(kind, s)| fault(ELECTRIC[kind], s)).collect();
        let mut plant = new_plant(&system, 90.0, 78.0, 65.0, &faults);
        let mut inputs = cooling_to_f(60.0);
        for (switch, seconds) in switches {
            match switch {
                0 => inputs.outdoor_disconnect = flip(inputs.outdoor_disconnect),
                1 => inputs.indoor_service_switch = flip(inputs.indoor_service_switch),
                2 => inputs.thermostat.mode = Mode::Off,
                3 => inputs.thermostat.fan = FanSetting::On,
                4 => plant.set_capacitor_leads(Capacitor::ALL[which % 3], Leads::Off),
                5 => plant.set_motor_leads(Motor::ALL[which % 3], Leads::Off),
                6 => plant.set_motor_leads(Motor::ALL[which % 3], Leads::On),
                _ => {}
            }
            advance(&mut plant, &inputs, seconds).expect("finite");
            let around = |all: &[Conductor]| plant.current_around_a(&inputs, all);
            for nothing in [
                &[Conductor::CompressorCommon, Conductor::CompressorRun, Conductor::CompressorStart][..],
                &[Conductor::FanCommon, Conductor::FanRun, Conductor::FanStart],
                &[Conductor::SupplyLeg1, Conductor::SupplyLeg2],
                &[Conductor::IndoorLeg1, Conductor::IndoorLeg2],
                &[Conductor::BlowerLine, Conductor::BlowerReturn],
                &[Conductor::TransformerFeed, Conductor::TransformerReturn],
                &[Conductor::ControlHot, Conductor::ControlCommon],
            ] {
                prop_assert!(around(nothing) < 1.0e-6, "{nothing:?}: {} A", around(nothing));
            }
            let (outdoor_w, indoor_w) = (plant.outdoor_power_w(&inputs), plant.indoor_power_w(&inputs));
            prop_assert!((-1.0e-3..40.0e3).contains(&outdoor_w) && (-1.0e-3..2.0e3).contains(&indoor_w));
            let (a, b) = (Terminal::ALL[pair.0], Terminal::ALL[pair.1]);
            let v = plant.voltage_v(&inputs, a, b);
            // No terminal is further from ground than a 440 V capacitor may be; the floating control circuit adds its 30 V.
            let [va, vb] = [a, b].map(|t| plant.voltage_v(&inputs, t, T::Ground));
            prop_assert!(va < 440.0 && vb < 440.0 && v <= va + vb + 30.0, "{a:?} {va}, {b:?} {vb}: {v}");
            prop_assert!((v - plant.voltage_v(&inputs, b, a)).abs() < 1.0e-6);
            prop_assert!(plant.voltage_v(&inputs, T::R, T::DisconnectLine1) < 5.0);
            if inputs.outdoor_disconnect == Switch::Open {
                prop_assert!(plant.voltage_v(&inputs, T::DisconnectLoad1, T::DisconnectLoad2) < 0.1);
                prop_assert!(outdoor_w.abs() < 1.0e-3);
            }
            match plant.resistance_ohm(&inputs, a, b) {
                OhmReading::Resistance { ohm } => prop_assert!(ohm >= 0.0 && ohm.is_finite()),
                OhmReading::Disturbed { across_v, .. } => prop_assert!((0.3..=60.0).contains(&across_v)),
                OhmReading::MeterDamaged { across_v } => prop_assert!(across_v > 60.0),
                OhmReading::Open => {}
            }
        }
    }
}
