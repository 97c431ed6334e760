//! Ohms, microfarads and amperes.

use plant::{CapacitanceReading, Capacitor, Leads, Motor, OhmReading, Plant, Terminal};
use serde::{Deserialize, Serialize};

use super::{Step, Task, act, pass};
use crate::hazard::Hazard;
use crate::moves::Move;
use crate::notebook::{Measured, Outcome};
use crate::sight::Observation;
use crate::timing::{METER_FUSE_COST, base_s};
use crate::visit::Visit;

/// Of the meter and what its leads meet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum MeterNote {
    /// There is power on the module; an arc at the plug.
    ModuleLive,
    /// The capacitors of the module were still charged; an arc at the plug.
    ModuleCharged,
    /// Measured at the motor's half of its plug.
    AtMotorPlug,
    /// Measured with the leads of the motor off.
    MotorLeadsOff,
    /// The meter shows no continuity.
    NoContinuity,
    /// Measured with the leads of the start winding off the capacitor.
    CapacitorLeadsOff,
    /// The meter shows nothing that holds a charge.
    NoCapacitance,
    /// Something that conducts lies across the probes.
    Shunted,
    /// The display jumps: there is voltage between the probes.
    Disturbed,
    /// The meter met a charged capacitor.
    OnChargedCapacitor,
    /// The meter met voltage while it measured ohms or microfarads.
    OnVoltage,
}

pub(super) fn plan(action: &Move) -> Vec<Step> {
    match action {
        Move::MeasureResistance { from, to } if of_ecm_motor(*from, *to) => {
            vec![act(pull_motor_plug), pass(base_s(action)), act(measure_at_motor_plug)]
        }
        _ => vec![pass(base_s(action)), act(measure)],
    }
}

fn of_ecm_motor(from: Terminal, to: Terminal) -> bool {
    from.is_ecm_phase() || to.is_ecm_phase()
}

/// The plug between module and motor is pulled first: under voltage it arcs, and nothing is measured.
fn pull_motor_plug(visit: &mut Visit, task: &mut Task) {
    let live_v = visit.plant.voltage_v(&visit.inputs, Terminal::EcmLine1, Terminal::EcmLine2);
    if live_v > crate::mend::DANGEROUS_CHARGE_V {
        task.hazards.push(Hazard::WiringWorkWithPowerOn);
        task.note(MeterNote::ModuleLive);
    } else if visit.plant.module_charge_v() > crate::mend::DANGEROUS_CHARGE_V {
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
        .is_some_and(|_| visit.plant.voltage_v(&visit.inputs, from, to) < crate::mend::DANGEROUS_CHARGE_V);
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
