//! Parts replaced and things put right.

use plant::Capacitor;

use super::{Step, Task, act, pass};
use crate::hazard::Hazard;
use crate::mend::{DANGEROUS_CHARGE_V, Power, capacitor_of, job};
use crate::moves::Move;
use crate::notebook::{Observation, Outcome};
use crate::timing::base_s;
use crate::visit::Visit;

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
            Power::OutdoorOff => {
                "The disconnect is in: line voltage and a fan that can start are at your hands. Pull it first."
            }
            _ => "The air handler has power: line voltage and a wheel that can start are at your hands. Switch it off \
                  first.",
        });
    } else if let Some(capacitor) = capacitor_of(work)
        && visit.plant.capacitor_charge_v(capacitor) > DANGEROUS_CHARGE_V
    {
        task.hazards.push(Hazard::ChargedCapacitorTouched);
        task.note("The capacitor still holds its charge and snaps at your pliers. Discharge it first.");
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
    task.note(job.done);
    task.note(if faulty { job.faulty } else { job.sound });
    if work.opens_circuit() {
        visit.plant.expose_circuit(base_s(&task.action) * 2.0 / 3.0);
        task.note("There is air in the circuit now: evacuate before charging.");
    }
}

fn discharge(visit: &mut Visit, task: &mut Task) {
    let Move::DischargeCapacitor(capacitor) = task.action else { return };
    if !visit.is_dead(power_of(capacitor)) {
        task.hazards.push(Hazard::WiringWorkWithPowerOn);
        task.note("There is power on it: the resistor gets hot and the capacitor stays charged. Cut the power first.");
        return;
    }
    let held = visit.plant.capacitor_charge_v(capacitor) > DANGEROUS_CHARGE_V;
    visit.plant.discharge_capacitor(capacitor);
    task.note(if held {
        "The resistor draws the charge off; the capacitor is dead."
    } else {
        "There was no charge left on it."
    });
}

/// What must be dead before a capacitor can be discharged.
pub(super) fn power_of(capacitor: Capacitor) -> Power {
    match capacitor {
        Capacitor::Compressor | Capacitor::OutdoorFan => Power::OutdoorOff,
        Capacitor::Blower => Power::IndoorOff,
    }
}
