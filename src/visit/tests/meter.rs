//! Ohms, microfarads, amperes: what a sound plant reads, what a fault changes, and what a wrong use costs.

mod common;

use common::{all, cool, fault, off, perform, reading, refusal, sound, with};
use plant::{Capacitor, Conductor, FaultKind, Plant, Switch, Terminal};
use quantity::Duration;
use visit::{Caution, Hazard, Move, Observation, Outcome, Panel, Place, Refusal, Visit};

fn ohms(from: Terminal, to: Terminal) -> Move {
    Move::MeasureResistance { from, to }
}

fn microfarads(capacitor: Capacitor) -> Move {
    let (from, to) = Plant::capacitor_terminals(capacitor);
    Move::MeasureCapacitance { from, to }
}

/// Run for a few minutes, then dead, both panels open.
fn dead(mut visit: Visit) -> Visit {
    all(
        &mut visit,
        &[
            cool(55.0),
            Move::Wait(Duration::Minutes(6.0)),
            off(),
            Move::IndoorServiceSwitch(Switch::Open),
            Move::OpenPanel(Panel::BlowerCompartment),
            Move::OutdoorDisconnect(Switch::Open),
            Move::OpenPanel(Panel::OutdoorElectrical),
        ],
    );
    visit
}

#[test]
fn a_capacitor_reads_its_label_and_a_weak_one_less() {
    for (severity, share) in [(0.0, 1.0), (0.4, 0.6)] {
        let mut visit = dead(with(4, &[fault(FaultKind::WeakFanCapacitor, None, severity)]));
        let label_f = visit.plant().system().plate.fan_capacitor_f;
        all(&mut visit, &[Move::DischargeCapacitor(Capacitor::OutdoorFan)]);
        let read = reading(&mut visit, &microfarads(Capacitor::OutdoorFan));
        // Accuracy of the meter: 2 % and 0.1 µF.
        let expected_f = label_f * share;
        assert!((read.value - expected_f).abs() < 0.03 * expected_f + 2.0e-7, "{read:?} for {expected_f}");
        assert!(visit.hazards().is_empty());
    }
    let mut open = dead(with(4, &[fault(FaultKind::WeakFanCapacitor, None, 1.0)]));
    all(&mut open, &[Move::DischargeCapacitor(Capacitor::OutdoorFan)]);
    let (from, to) = Plant::capacitor_terminals(Capacitor::OutdoorFan);
    let entry = perform(&mut open, &microfarads(Capacitor::OutdoorFan));
    assert_eq!(entry.outcome, Outcome::Seen(vec![Observation::NoCapacitance(from, to)]));
}

#[test]
fn an_undischarged_capacitor_and_a_live_circuit_blow_the_meters_fuse() {
    let mut charged = dead(sound(4));
    let cost = charged.cost();
    perform(&mut charged, &microfarads(Capacitor::OutdoorFan));
    assert_eq!(
        charged.hazards().iter().map(|(hazard, _)| *hazard).collect::<Vec<_>>(),
        [Hazard::ChargedCapacitorTouched]
    );
    assert!(charged.cost() > cost);

    let mut live = sound(4);
    all(&mut live, &[Move::OpenPanel(Panel::BlowerCompartment)]);
    let across = ohms(Terminal::TransformerPrimary1, Terminal::TransformerPrimary2);
    let entry = perform(&mut live, &across);
    assert_eq!(entry.outcome, Outcome::Done);
    assert_eq!(live.hazards(), [(Hazard::MeterOnLiveCircuit, 2)]);
}

#[test]
fn windings_and_fuses_read_as_they_are() {
    let mut visit = dead(sound(4));
    let fuse = reading(&mut visit, &ohms(Terminal::FuseSupply, Terminal::FuseLoad));
    assert!(fuse.value < 1.0, "{fuse:?}");
    let run = reading(&mut visit, &ohms(Terminal::CompressorCommon, Terminal::CompressorRun)).value;
    let start = reading(&mut visit, &ohms(Terminal::CompressorCommon, Terminal::CompressorStart)).value;
    // The start winding has the thinner wire (common practice).
    assert!(run > 0.2 && start > run && start < 20.0, "{run} and {start} ohm");
    let mut blown = dead(with(4, &[fault(FaultKind::BlownControlFuse, None, 1.0)]));
    let entry = perform(&mut blown, &ohms(Terminal::FuseSupply, Terminal::FuseLoad));
    assert_eq!(
        entry.outcome,
        Outcome::Seen(vec![Observation::NoContinuity(Terminal::FuseSupply, Terminal::FuseLoad)])
    );
}

fn with_ecm(faults: &[plant::Fault]) -> Visit {
    let mut call = common::short_call();
    call.system = plant::System::built_in("split-3-ton-r32-txv-ecm").expect("built in");
    Visit::start_with(&call, 4, faults, call.system.plate_charge_kg).expect("the history is finite")
}

const PHASES: [(Terminal, Terminal); 3] = [
    (Terminal::EcmMotor1, Terminal::EcmMotor2),
    (Terminal::EcmMotor2, Terminal::EcmMotor3),
    (Terminal::EcmMotor3, Terminal::EcmMotor1),
];

#[test]
fn the_motor_plug_of_an_ecm_is_pulled_once_its_module_has_run_down() {
    let mut visit = with_ecm(&[]);
    let across = ohms(PHASES[0].0, PHASES[0].1);
    // What is offered, with its caution, and what has to be done before it.
    let offers = visit.offers(Place::Blower);
    for (from, to) in PHASES {
        let offer = offers.iter().find(|offer| offer.action == ohms(from, to)).expect("offered");
        assert_eq!(offer.caution, Some(Caution::EcmResistance), "{offer:?}");
    }
    let mut first = visit.needed_first(&across).expect("possible");
    assert_eq!(
        first,
        [
            Move::OpenPanel(Panel::BlowerCompartment),
            Move::IndoorServiceSwitch(Switch::Open),
            Move::Wait(Duration::Minutes(5.0))
        ]
    );
    let volts = Move::MeasureVoltage { from: PHASES[0].0, to: PHASES[0].1 };
    let wait = first.pop();
    all(&mut visit, &first);
    assert_eq!(refusal(&mut visit, &volts), Refusal::NoVoltageAtMotorPlug);
    // Too early: the module is still charged.
    let mut early = visit.clone();
    assert_eq!(perform(&mut early, &across).outcome, Outcome::Done);
    assert_eq!(early.hazards().last().map(|(hazard, _)| *hazard), Some(Hazard::ChargedCapacitorTouched));
    all(&mut visit, &[wait.expect("a wait")]);
    assert_eq!(visit.needed_first(&across), Some(Vec::new()));
    let cost = visit.cost();
    for (from, to) in PHASES {
        let read = reading(&mut visit, &ohms(from, to));
        assert!((0.5..20.0).contains(&read.value), "{read:?}");
    }
    let to_ground = perform(&mut visit, &ohms(Terminal::EcmMotor1, Terminal::Ground));
    assert_eq!(
        to_ground.outcome,
        Outcome::Seen(vec![Observation::NoContinuity(Terminal::EcmMotor1, Terminal::Ground)])
    );
    assert!(visit.hazards().is_empty() && visit.cost() == cost);
    // The plug is back in, and the blower runs again.
    all(
        &mut visit,
        &[Move::IndoorServiceSwitch(Switch::Closed), cool(55.0), Move::Wait(Duration::Minutes(6.0))],
    );
    assert!(visit.truth().blower_speed > 0.5);
    // On a live module it is not even pulled.
    let entry = perform(&mut visit, &across);
    assert_eq!(entry.outcome, Outcome::Done);
    assert_eq!(visit.hazards().last().map(|(hazard, _)| *hazard), Some(Hazard::WiringWorkWithPowerOn));
    all(&mut visit, &[Move::Wait(Duration::Minutes(1.0))]);
    assert!(visit.truth().blower_speed > 0.5);

    let mut burnt = with_ecm(&[fault(FaultKind::OpenBlowerWinding, None, 1.0)]);
    all(&mut burnt, &first);
    all(&mut burnt, &[Move::Wait(Duration::Minutes(5.0))]);
    let entry = perform(&mut burnt, &across);
    assert_eq!(entry.outcome, Outcome::Seen(vec![Observation::NoContinuity(PHASES[0].0, PHASES[0].1)]));
}

/// Both ends of the command wire: what the board puts out, and what arrives.
#[test]
fn the_command_is_read_at_both_ends_of_its_wire() {
    let at_board = Move::MeasureVoltage { from: Terminal::EcmBoardCommand, to: Terminal::C };
    let at_plug = Move::MeasureVoltage { from: Terminal::EcmCommand, to: Terminal::EcmCommon };
    for (kind, board, plug) in [
        (None, true, true),
        (Some(FaultKind::DeadBlowerModule), true, true),
        (Some(FaultKind::NoBlowerCommand), true, false),
        (Some(FaultKind::DeadBoard), false, false),
    ] {
        let faults: Vec<_> = kind.map(|kind| fault(kind, None, 1.0)).into_iter().collect();
        let mut visit = with_ecm(&faults);
        assert!(visit.offers(Place::ControlBoard).iter().any(|offer| offer.action == at_board));
        assert!(visit.offers(Place::Blower).iter().any(|offer| offer.action == at_plug));
        all(
            &mut visit,
            &[cool(55.0), Move::OpenPanel(Panel::BlowerCompartment), Move::Wait(Duration::Minutes(1.0))],
        );
        for (action, there) in [(&at_board, board), (&at_plug, plug)] {
            let volt = reading(&mut visit, action).value;
            let expected = if there { 24.0..30.0 } else { 0.0..0.5 };
            assert!(expected.contains(&volt), "{kind:?}, {action:?}: {volt} V");
        }
    }
    // A PSC blower has neither, but a relay with a coil.
    let psc = sound(4);
    let offered = |place: Place, action: &Move| psc.offers(place).iter().any(|offer| offer.action == *action);
    assert!(!offered(Place::ControlBoard, &at_board) && !offered(Place::Blower, &at_plug));
    let coil = Move::MeasureVoltage { from: Terminal::BlowerRelayCoilG, to: Terminal::BlowerRelayCoilC };
    assert!(offered(Place::ControlBoard, &coil));
}

#[test]
fn a_clamp_reads_the_running_compressor_and_nothing_when_it_stands() {
    let mut visit = sound(4);
    all(&mut visit, &[cool(55.0), Move::Wait(Duration::Minutes(6.0))]);
    let clamp = Move::ClampCurrent(Conductor::CompressorCommon);
    assert_eq!(refusal(&mut visit, &clamp), Refusal::BehindPanel(Panel::OutdoorElectrical));
    all(&mut visit, &[Move::OpenPanel(Panel::OutdoorElectrical)]);
    let running = reading(&mut visit, &Move::ClampCurrent(Conductor::CompressorCommon));
    let truth_a = visit.plant().current_a(visit.inputs(), Conductor::CompressorCommon);
    assert!(
        truth_a > 3.0 && (running.value - truth_a).abs() < 0.04 * truth_a + 0.3,
        "{running:?}, {truth_a} A"
    );
    all(&mut visit, &[off(), Move::Wait(Duration::Minutes(1.0))]);
    assert!(reading(&mut visit, &Move::ClampCurrent(Conductor::CompressorCommon)).value < 0.3);
}

#[test]
fn probes_reach_the_cabinet_and_terminals_that_are_there() {
    let mut visit = dead(sound(4));
    all(&mut visit, &[ohms(Terminal::CompressorCommon, Terminal::Ground)]);
    let volts = Move::MeasureVoltage { from: Terminal::ThermostatR, to: Terminal::ThermostatY };
    all(&mut visit, &[volts]);
    let command = ohms(Terminal::EcmCommand, Terminal::EcmCommon);
    assert_eq!(refusal(&mut visit, &command), Refusal::NoSuchTerminal(Terminal::EcmCommand));
    let clamp = Move::ClampCurrent(Conductor::EcmCommand);
    assert_eq!(refusal(&mut visit, &clamp), Refusal::NoSuchWire(Conductor::EcmCommand));
}
