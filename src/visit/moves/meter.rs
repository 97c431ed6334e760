//! Ohms, microfarads and amperes.

use plant::{CapacitanceReading, Capacitor, Conductor, Leads, Motor, OhmReading, Plant, Terminal};

use super::row::{TELLS, TELLS_AT_REST, TELLS_OF_AIR, never};
use super::{At, Dead, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::{Caution, Hazard};
use crate::measured::Measured;
use crate::note::MeterNote;
use crate::notebook::Outcome;
use crate::place::{Panel, Place};
use crate::refusal::Refusal;
use crate::sight::Observation;
use crate::site_map::{conductor_place, probes_location, terminal_panel};
use crate::timing::METER_FUSE_COST;
use crate::visit::{Task, Visit, act, pass};

/// Ohms between two terminals.
pub(super) fn resistance_row(from: Terminal, to: Terminal) -> Row {
    Row {
        at: probes_location(from, to).map_or(At::Anywhere, At::Side),
        panel: None,
        hoses: None,
        dead: Dead::AtProbes,
        values: Vec::new(),
        takes_s: 120.0,
        price: 0.0,
        caution: Some(if of_ecm_motor(from, to) { Caution::EcmResistance } else { Caution::Resistance }),
        lacks: lacks_terminals,
        refusal: refusal_of_probes,
        plan: |_, action| match action {
            Move::MeasureResistance { from, to } if of_ecm_motor(*from, *to) => {
                vec![act(pull_motor_plug), pass(action.takes_s()), act(measure_at_motor_plug)]
            }
            _ => vec![pass(action.takes_s()), act(measure)],
        },
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: TELLS_AT_REST,
    }
}

/// Microfarads between two terminals.
pub(super) fn capacitance_row(from: Terminal, to: Terminal) -> Row {
    Row {
        at: probes_location(from, to).map_or(At::Anywhere, At::Side),
        panel: None,
        hoses: None,
        dead: Dead::AtProbes,
        values: Vec::new(),
        takes_s: 120.0,
        price: 0.0,
        caution: Some(Caution::Capacitance),
        lacks: lacks_terminals,
        refusal: refusal_of_probes,
        plan: |_, action| vec![pass(action.takes_s()), act(measure)],
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: TELLS_AT_REST,
    }
}

/// Amperes in a conductor.
pub(super) fn current_row(conductor: Conductor) -> Row {
    let place = conductor_place(conductor);
    let panel = match place {
        Place::OutdoorUnit => Some(Panel::OutdoorElectrical),
        Place::Thermostat => None,
        Place::Blower | Place::ControlBoard => Some(Panel::BlowerCompartment),
        Place::ReturnGrille
        | Place::SupplyRegister
        | Place::FilterSlot
        | Place::IndoorCoil
        | Place::MeteringDevice
        | Place::LineSet
        | Place::Drier
        | Place::OutdoorDisconnect => None,
    };
    Row {
        at: At::Side(place.location()),
        panel: panel.map(|panel| (panel, Refusal::BehindPanel(panel))),
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 60.0,
        price: 0.0,
        caution: Some(Caution::ClampCurrent),
        lacks: |visit, action| {
            let Move::ClampCurrent(conductor) = action else { return None };
            let is_there = visit.plant.conductors().any(|known| known == *conductor);
            (!is_there).then_some(Refusal::NoSuchWire(*conductor))
        },
        refusal: never,
        plan: |_, action| vec![pass(action.takes_s()), act(measure)],
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: if hangs_on_the_air(conductor) { TELLS_OF_AIR } else { TELLS },
    }
}

/// Conductors whose current the call and the blower alone decide.
fn hangs_on_the_air(conductor: Conductor) -> bool {
    matches!(
        conductor,
        Conductor::IndoorLeg1
            | Conductor::IndoorLeg2
            | Conductor::RelayFeed
            | Conductor::BlowerLine
            | Conductor::BlowerReturn
            | Conductor::BlowerStart
            | Conductor::ThermostatG
            | Conductor::EcmCommand
            | Conductor::EcmCommon
    )
}

fn probes(action: &Move) -> Option<[Terminal; 2]> {
    match action {
        Move::MeasureVoltage { from, to }
        | Move::MeasureResistance { from, to }
        | Move::MeasureCapacitance { from, to } => Some([*from, *to]),
        _ => None,
    }
}

/// A terminal that the system has not got.
pub(super) fn lacks_terminals(visit: &Visit, action: &Move) -> Option<Refusal> {
    let [from, to] = probes(action)?;
    if from == to {
        return Some(Refusal::SameTerminal);
    }
    let is_absent = |probe: &Terminal| !visit.plant.terminals().any(|known| known == *probe);
    [from, to].into_iter().find(is_absent).map(Refusal::NoSuchTerminal)
}

/// Why two probes can't be put where they shall.
pub(super) fn refusal_of_probes(visit: &Visit, action: &Move) -> Option<Refusal> {
    let [from, to] = probes(action)?;
    if probes_location(from, to).is_none() {
        return Some(Refusal::LeadsTooShort);
    }
    [from, to]
        .into_iter()
        .filter_map(terminal_panel)
        .find(|panel| !visit.site.is_open(*panel))
        .map(Refusal::TerminalsBehindPanel)
}

fn of_ecm_motor(from: Terminal, to: Terminal) -> bool {
    from.is_ecm_phase() || to.is_ecm_phase()
}

/// The plug between module and motor is pulled first: under voltage it arcs, and nothing is measured.
fn pull_motor_plug(visit: &mut Visit, task: &mut Task) {
    let live_v = visit.plant.voltage_v(&visit.inputs, Terminal::EcmLine1, Terminal::EcmLine2);
    if live_v > super::repair::DANGEROUS_CHARGE_V {
        task.hazards.push(Hazard::WiringWorkWithPowerOn);
        task.note(MeterNote::ModuleLive);
    } else if visit.plant.module_charge_v() > super::repair::DANGEROUS_CHARGE_V {
        task.hazards.push(Hazard::ChargedCapacitorTouched);
        task.note(MeterNote::ModuleCharged);
    } else {
        visit.plant.set_motor_leads(Motor::Blower, Leads::Off);
    }
}

fn measure_at_motor_plug(visit: &mut Visit, task: &mut Task) {
    if visit.plant.motor_leads(Motor::Blower) == Leads::Off {
        task.note(MeterNote::AtMotorPlug);
        measure(visit, task);
        visit.plant.set_motor_leads(Motor::Blower, Leads::On);
    }
}

fn measure(visit: &mut Visit, task: &mut Task) {
    match task.action {
        Move::MeasureResistance { from, to } => resistance(visit, task, from, to),
        Move::MeasureCapacitance { from, to } => capacitance(visit, task, from, to),
        Move::ClampCurrent(conductor) => {
            let amps = visit.plant.current_a(&visit.inputs, conductor);
            write(visit, task, Measured::Current(conductor), amps);
        }
        _ => {}
    }
}

fn resistance(visit: &mut Visit, task: &mut Task, from: Terminal, to: Terminal) {
    // A winding is measured with its leads off, or what lies beside it is measured with it.
    let motor = motor_between(from, to).filter(|motor| visit.plant.motor_leads(*motor) == Leads::On);
    let first = visit.plant.resistance_ohm(&visit.inputs, from, to);
    let shown = match (first, motor) {
        (OhmReading::Resistance { .. } | OhmReading::Open, Some(motor)) => {
            visit.plant.set_motor_leads(motor, Leads::Off);
            let shown = visit.plant.resistance_ohm(&visit.inputs, from, to);
            visit.plant.set_motor_leads(motor, Leads::On);
            task.note(MeterNote::MotorLeadsOff);
            shown
        }
        _ => first,
    };
    match shown {
        OhmReading::Resistance { ohm } => write(visit, task, Measured::Resistance(from, to), ohm),
        OhmReading::Open => {
            task.note(MeterNote::NoContinuity);
            task.see(vec![Observation::NoContinuity(from, to)]);
        }
        OhmReading::Disturbed { .. } => disturbed(task),
        OhmReading::MeterDamaged { .. } => meter_fuse_blows(visit, task, from, to),
    }
}

fn capacitance(visit: &mut Visit, task: &mut Task, from: Terminal, to: Terminal) {
    let capacitor =
        capacitor_between(from, to).filter(|capacitor| visit.plant.capacitor_leads(*capacitor) == Leads::On);
    let first = visit.plant.capacitance_f(&visit.inputs, from, to);
    let dead =
        !matches!(first, CapacitanceReading::MeterDamaged { .. } | CapacitanceReading::Disturbed { .. });
    let shown = match capacitor {
        Some(capacitor) if dead => {
            visit.plant.set_capacitor_leads(capacitor, Leads::Off);
            let shown = visit.plant.capacitance_f(&visit.inputs, from, to);
            visit.plant.set_capacitor_leads(capacitor, Leads::On);
            task.note(MeterNote::CapacitorLeadsOff);
            shown
        }
        _ => first,
    };
    match shown {
        CapacitanceReading::Capacitance { farad } => {
            write(visit, task, Measured::Capacitance(from, to), farad);
        }
        CapacitanceReading::Open => {
            task.note(MeterNote::NoCapacitance);
            task.see(vec![Observation::NoCapacitance(from, to)]);
        }
        CapacitanceReading::Shunted => {
            task.note(MeterNote::Shunted);
        }
        CapacitanceReading::Disturbed { .. } => disturbed(task),
        CapacitanceReading::MeterDamaged { .. } => meter_fuse_blows(visit, task, from, to),
    }
}

/// A number that means nothing is not written down.
fn disturbed(task: &mut Task) {
    task.note(MeterNote::Disturbed);
}

fn meter_fuse_blows(visit: &mut Visit, task: &mut Task, from: Terminal, to: Terminal) {
    let charged = capacitor_between(from, to)
        .is_some_and(|_| visit.plant.voltage_v(&visit.inputs, from, to) < super::repair::DANGEROUS_CHARGE_V);
    visit.site.cost += METER_FUSE_COST;
    task.hazards.push(if charged { Hazard::ChargedCapacitorTouched } else { Hazard::MeterOnLiveCircuit });
    task.note(if charged { MeterNote::OnChargedCapacitor } else { MeterNote::OnVoltage });
}

fn write(visit: &Visit, task: &mut Task, quantity: Measured, truth: f64) {
    task.outcome = Outcome::Read(visit.metered(quantity, truth, task.number));
}

fn capacitor_between(from: Terminal, to: Terminal) -> Option<Capacitor> {
    Capacitor::ALL.into_iter().find(|capacitor| {
        let (first, second) = Plant::capacitor_terminals(*capacitor);
        (first, second) == (from, to) || (second, first) == (from, to)
    })
}

/// The motor whose winding lies between two terminals, or between one of its terminals and ground.
fn motor_between(from: Terminal, to: Terminal) -> Option<Motor> {
    let of = |terminal| match terminal {
        Terminal::CompressorCommon | Terminal::CompressorRun | Terminal::CompressorStart => {
            Some(Motor::Compressor)
        }
        Terminal::FanMotorCommon | Terminal::FanMotorRun | Terminal::FanMotorStart => Some(Motor::OutdoorFan),
        Terminal::BlowerMotor1 | Terminal::BlowerMotor2 | Terminal::BlowerMotorStart => Some(Motor::Blower),
        _ => None,
    };
    match (of(from), of(to)) {
        (Some(one), Some(other)) if one == other => Some(one),
        (Some(one), None) if to == Terminal::Ground => Some(one),
        (None, Some(one)) if from == Terminal::Ground => Some(one),
        _ => None,
    }
}
