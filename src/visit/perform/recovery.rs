//! Recovery: the whole charge, deeper than required, or a little; and cylinders.

use call::Milestone;
use media::units::{STANDARD_ATMOSPHERE_PA, oz_from_kg};
use plant::PortConnection;

use super::{GoalMet, Step, Task, act, pass, until};
use crate::moves::{CylinderUse, Move};
use crate::notebook::{Measured, Outcome};
use crate::site::Circuit;
use crate::timing::{HOOK_UP_S, MACHINE_LIMIT_S, base_s};
use crate::visit::Visit;

/// What a gauge can tell at the required level, Pa.
const GAUGE_PA: f64 = 2.0e3;
/// The level must hold for so long, since oil and cold spots give off refrigerant, s (engineering value).
const RECOVERED_HOLD_S: f64 = 60.0;

pub(super) fn plan(action: &Move) -> Vec<Step> {
    match action {
        Move::RemoveRefrigerant(_) => {
            vec![pass(HOOK_UP_S), act(start_drawing), until(is_drawn_off, MACHINE_LIMIT_S), act(end_drawing)]
        }
        Move::ChangeCylinder(_) => vec![pass(base_s(action)), act(change)],
        _ => vec![
            pass(HOOK_UP_S),
            act(start_recovery),
            until(is_recovered, MACHINE_LIMIT_S),
            act(end_recovery),
        ],
    }
}

/// Required level: 0 inHg for a high-pressure appliance with under 200 lb (40 CFR 82.156 table 1), or what was asked.
fn depth_pa(task: &Task) -> f64 {
    match task.action {
        Move::RecoverTo(depth) => depth.absolute_pa().min(STANDARD_ATMOSPHERE_PA),
        _ => STANDARD_ATMOSPHERE_PA,
    }
}

fn start_recovery(visit: &mut Visit, task: &mut Task) {
    visit.kit.start_scale(Measured::RecoveredMass, visit.scale_total_kg(Measured::RecoveredMass));
    let machine = match task.action {
        // The machine is set a little below, so that it gets there.
        Move::RecoverTo(_) => PortConnection::RecoveryMachineTo { pressure_pa: 0.97 * depth_pa(task) },
        _ => PortConnection::RecoveryMachine,
    };
    visit.inputs.suction_port = machine;
    visit.inputs.liquid_port = machine;
    if visit.compressor_runs() {
        task.note(
            "The system's own compressor still runs. Stop it: it has less and less gas to cool its motor.",
        );
    }
}

fn is_empty(visit: &Visit, task: &Task) -> bool {
    let truth = visit.truth();
    truth.suction_pressure_pa.max(truth.liquid_pressure_pa) <= depth_pa(task) + GAUGE_PA
}

fn is_recovered(visit: &mut Visit, task: &mut Task) -> bool {
    let holding = is_empty(visit, task);
    task.holds_for(holding, RECOVERED_HOLD_S) || visit.plant.recovery_cylinder_is_full()
}

fn end_recovery(visit: &mut Visit, task: &mut Task) {
    visit.gauges_on_ports();
    if let Some(reading) = visit.read(Measured::RecoveredMass, task.number) {
        task.note(format!("The scale shows {:.1} oz recovered.", oz_from_kg(reading.value)));
        task.outcome = Outcome::Read(reading);
    }
    visit.kit.stop_scale();
    if task.memo.goal_met == GoalMet::Yes && is_empty(visit, task) {
        visit.site.circuit = Circuit::Recovered;
        task.reached.push(Milestone::Recovered);
        task.note(match task.action {
            Move::RecoverTo(_) => "The gauges stand at the vacuum you set and stay there.",
            _ => "The gauges stand at zero and stay there.",
        });
    } else if visit.plant.recovery_cylinder_is_full() {
        task.note("The machine has stopped: the recovery cylinder is 80 % full. Go on with another one.");
    } else {
        task.note("After an hour the gauges still stand above it; the circuit is not empty.");
    }
}

fn start_drawing(visit: &mut Visit, task: &mut Task) {
    let total_kg = visit.scale_total_kg(Measured::RecoveredMass);
    task.memo.recovered_before_kg = total_kg;
    visit.kit.start_scale(Measured::RecoveredMass, total_kg);
    visit.inputs.liquid_port = PortConnection::RecoveryMachine;
}

fn drawn_kg(visit: &Visit, task: &Task) -> f64 {
    visit.scale_total_kg(Measured::RecoveredMass) - task.memo.recovered_before_kg
}

fn is_drawn_off(visit: &mut Visit, task: &mut Task) -> bool {
    let Move::RemoveRefrigerant(mass) = task.action else { return true };
    let highest_pa = visit.truth().liquid_pressure_pa;
    drawn_kg(visit, task) >= mass.kilograms()
        || highest_pa <= STANDARD_ATMOSPHERE_PA + GAUGE_PA
        || visit.plant.recovery_cylinder_is_full()
}

fn end_drawing(visit: &mut Visit, task: &mut Task) {
    visit.gauges_on_ports();
    let reading = visit.read(Measured::RecoveredMass, task.number);
    visit.kit.stop_scale();
    let Move::RemoveRefrigerant(mass) = task.action else { return };
    if let Some(reading) = reading {
        task.note(format!("The scale shows {:.1} oz drawn off.", oz_from_kg(reading.value)));
        task.outcome = Outcome::Read(reading);
    }
    if drawn_kg(visit, task) < mass.kilograms() {
        task.note("It stops short of what you wanted to draw off.");
    }
}

fn change(visit: &mut Visit, task: &mut Task) {
    let Move::ChangeCylinder(cylinder) = task.action else { return };
    match cylinder {
        CylinderUse::Charging => {
            visit.plant.change_charging_cylinder();
            task.note("A full charging cylinder stands on the scale.");
        }
        CylinderUse::Recovery => {
            visit.plant.change_recovery_cylinder();
            task.note("An empty, evacuated recovery cylinder stands on the scale.");
        }
    }
}
