//! Parts replaced and things put right.

use plant::{Capacitor, Work};
use serde::{Deserialize, Serialize};

use super::{Step, Task, act, pass};
use crate::hazard::Hazard;
use crate::mend::{DANGEROUS_CHARGE_V, Power, capacitor_of, job};
use crate::moves::Move;
use crate::notebook::Outcome;
use crate::sight::Observation;
use crate::timing::base_s;
use crate::visit::Visit;

/// Of parts replaced and put right.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum WorkNote {
    /// The outdoor unit had power while it was worked on.
    OutdoorPowerOn,
    /// The air handler had power while it was worked on.
    IndoorPowerOn,
    /// A capacitor was touched that still held its charge.
    CapacitorSnaps,
    /// What was done.
    Done(Work),
    /// What the old part or the place showed: it had been faulty.
    WasFaulty(Work),
    /// The same: it had been sound.
    WasSound(Work),
    /// There is air in the circuit now.
    AirInCircuit,
    /// There is power on the capacitor; it stays charged.
    ResistorHot,
    /// The charge is drawn off.
    ChargeDrawnOff,
    /// There was none left.
    NoChargeLeft,
}

pub(super) fn plan(action: &Move) -> Vec<Step> {
    match action {
        Move::DischargeCapacitor(_) => vec![pass(base_s(action)), act(discharge)],
        // As with other work on the circuit: a third of the time until the old part is out.
        _ => vec![pass(base_s(action) / 3.0), act(take_out), pass(base_s(action) * 2.0 / 3.0), act(put_in)],
    }
}

fn take_out(visit: &mut Visit, task: &mut Task) {
    let Move::Mend(work) = task.action else { return };
    if work.opens_circuit() {
        super::leak::cut_in(visit, task);
        return;
    }
    let Some(job) = job(work) else { return };
    if !visit.is_dead(job.power) {
        task.hazards.push(Hazard::WiringWorkWithPowerOn);
        task.note(match job.power {
            Power::OutdoorOff => WorkNote::OutdoorPowerOn,
            _ => WorkNote::IndoorPowerOn,
        });
    } else if let Some(capacitor) = capacitor_of(work)
        && visit.plant.capacitor_charge_v(capacitor) > DANGEROUS_CHARGE_V
    {
        task.hazards.push(Hazard::ChargedCapacitorTouched);
        task.note(WorkNote::CapacitorSnaps);
    }
    if let Some(capacitor) = capacitor_of(work) {
        visit.plant.discharge_capacitor(capacitor);
    }
    let outcome = visit.plant.apply(work);
    task.see(super::leak::part(&outcome));
}

fn put_in(visit: &mut Visit, task: &mut Task) {
    let Move::Mend(work) = task.action else { return };
    let Some(job) = job(work) else { return };
    let faulty = matches!(
        &task.outcome,
        Outcome::Seen(seen) if seen.iter().any(|one| matches!(one, Observation::PartWasFaulty(_)))
    );
    visit.site.cost += job.cost;
    task.note(WorkNote::Done(work));
    task.note(if faulty { WorkNote::WasFaulty(work) } else { WorkNote::WasSound(work) });
    if work.opens_circuit() {
        visit.plant.expose_circuit(base_s(&task.action) * 2.0 / 3.0);
        task.note(WorkNote::AirInCircuit);
    }
}

fn discharge(visit: &mut Visit, task: &mut Task) {
    let Move::DischargeCapacitor(capacitor) = task.action else { return };
    if !visit.is_dead(power_of(capacitor)) {
        task.hazards.push(Hazard::WiringWorkWithPowerOn);
        task.note(WorkNote::ResistorHot);
        return;
    }
    let held = visit.plant.capacitor_charge_v(capacitor) > DANGEROUS_CHARGE_V;
    visit.plant.discharge_capacitor(capacitor);
    task.note(if held { WorkNote::ChargeDrawnOff } else { WorkNote::NoChargeLeft });
}

/// What must be dead before a capacitor can be discharged.
pub(super) fn power_of(capacitor: Capacitor) -> Power {
    match capacitor {
        Capacitor::Compressor | Capacitor::OutdoorFan => Power::OutdoorOff,
        Capacitor::Blower => Power::IndoorOff,
    }
}
