//! Recovery and evacuation.

use call::Milestone;
use media::units::STANDARD_ATMOSPHERE_PA;
use plant::{PortConnection, Switch};

use super::{GoalMet, Step, Task, act, pass, until};
use crate::hazard::Hazard;
use crate::moves::Move;
use crate::notebook::{Measured, Outcome};
use crate::site::Circuit;
use crate::timing::{DECAY_TEST_S, HOOK_UP_S, MACHINE_LIMIT_S};
use crate::visit::Visit;

/// Required level: 0 inHg for a high-pressure appliance with under 200 lb (40 CFR 82.156 table 1), with what a
/// gauge can tell, Pa.
const RECOVERED_PA: f64 = STANDARD_ATMOSPHERE_PA + 2.0e3;
/// The level must hold for so long, since oil and cold spots give off refrigerant, s (engineering value).
const RECOVERED_HOLD_S: f64 = 60.0;
/// 500 micron, Pa (common practice).
const VACUUM_PA: f64 = 66.7;
/// How long the pump stays on after it is reached, s (engineering value).
const VACUUM_HOLD_S: f64 = 60.0;
/// The decay test is passed if the vacuum stays under 1000 micron, Pa (common practice, no source).
const DECAYED_PA: f64 = 133.3;

pub(super) fn plan(action: &Move) -> Vec<Step> {
    match action {
        Move::Recover => vec![
            pass(HOOK_UP_S),
            act(start_recovery),
            until(is_recovered, MACHINE_LIMIT_S),
            act(end_recovery),
        ],
        _ => vec![
            pass(HOOK_UP_S),
            act(start_pump),
            until(is_evacuated, MACHINE_LIMIT_S),
            act(valve_off_pump),
            pass(DECAY_TEST_S),
            act(end_evacuation),
        ],
    }
}

fn start_recovery(visit: &mut Visit, task: &mut Task) {
    visit.kit.start_scale(Measured::RecoveredMass, visit.scale_total_kg(Measured::RecoveredMass));
    visit.inputs.suction_port = PortConnection::RecoveryMachine;
    visit.inputs.liquid_port = PortConnection::RecoveryMachine;
    if visit.compressor_runs() {
        task.note(
            "The system's own compressor still runs. Stop it: it has less and less gas to cool its motor.",
        );
    }
}

fn is_recovered(visit: &mut Visit, task: &mut Task) -> bool {
    let truth = visit.truth();
    let highest_pa = truth.suction_pressure_pa.max(truth.liquid_pressure_pa);
    task.holds_for(highest_pa <= RECOVERED_PA, RECOVERED_HOLD_S)
}

fn end_recovery(visit: &mut Visit, task: &mut Task) {
    visit.gauges_on_ports();
    if let Some(reading) = visit.read(Measured::RecoveredMass, task.number) {
        task.note(format!("The scale shows {:.1} oz recovered.", media::units::oz_from_kg(reading.value)));
        task.outcome = Outcome::Read(reading);
    }
    visit.kit.stop_scale();
    if task.memo.goal_met == GoalMet::Yes {
        visit.site.circuit = Circuit::Recovered;
        task.reached.push(Milestone::Recovered);
        task.note("The gauges stand at zero and stay there.");
    } else {
        task.note("After an hour the gauges still stand above zero; the circuit is not empty.");
    }
}

fn start_pump(visit: &mut Visit, task: &mut Task) {
    if visit.inputs.outdoor_disconnect == Switch::Closed {
        task.hazards.push(Hazard::CircuitWorkWithPowerOn);
        task.note("The disconnect is in: if the unit starts in a vacuum, its windings burn. Pull it.");
    }
    visit.kit.start_micron_gauge(&visit.plant.readout().clone());
    visit.inputs.suction_port = PortConnection::VacuumPump;
    visit.inputs.liquid_port = PortConnection::VacuumPump;
}

fn is_evacuated(visit: &mut Visit, task: &mut Task) -> bool {
    let truth = visit.truth();
    let highest_pa = truth.suction_pressure_pa.max(truth.liquid_pressure_pa);
    task.holds_for(highest_pa <= VACUUM_PA, VACUUM_HOLD_S)
}

fn valve_off_pump(visit: &mut Visit, _: &mut Task) {
    visit.gauges_on_ports();
}

fn end_evacuation(visit: &mut Visit, task: &mut Task) {
    if let Some(reading) = visit.read(Measured::Vacuum, task.number) {
        task.note(format!(
            "Five minutes after the pump is valved off, the micron gauge shows {:.0} micron.",
            media::units::micron_from_pa(reading.value)
        ));
        task.outcome = Outcome::Read(reading);
    }
    visit.kit.stop_micron_gauge();
    let held = visit.truth().suction_pressure_pa <= DECAYED_PA;
    if task.memo.goal_met == GoalMet::Yes && held {
        visit.site.circuit = Circuit::Evacuated;
        task.reached.push(Milestone::Evacuated);
        task.note("The vacuum holds.");
        return;
    }
    visit.site.circuit = Circuit::Opened;
    if task.memo.goal_met == GoalMet::Yes {
        task.note("The vacuum does not hold: air comes in somewhere.");
    } else {
        task.note("After an hour the pump has not reached 500 micron.");
    }
}
