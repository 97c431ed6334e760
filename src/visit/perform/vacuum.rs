//! Evacuation and the decay test.

use call::Milestone;
use media::units::micron_from_pa;
use plant::{PortConnection, Switch};

use super::{GoalMet, Step, Task, act, pass, until};
use crate::hazard::Hazard;
use crate::moves::Move;
use crate::notebook::{Measured, Outcome};
use crate::site::Circuit;
use crate::timing::{DECAY_TEST_S, HOOK_UP_S, MACHINE_LIMIT_S, base_s};
use crate::visit::Visit;

/// 500 micron, Pa (common practice, no source).
const VACUUM_PA: f64 = 66.7;
/// How long the pump stays on after it is reached, s (engineering value).
const VACUUM_HOLD_S: f64 = 60.0;
/// The decay test is passed if the vacuum stays under 1000 micron, Pa (common practice, no source).
const DECAYED_PA: f64 = 133.3;
/// Above this a circuit counts as filled with air, Pa: nobody would charge into it by mistake.
const NO_VACUUM_PA: f64 = 5.0e3;
/// The gauge comes to rest after the pump is valved off, s.
const GAUGE_SETTLES_S: f64 = 15.0;
/// Shortest decay test that shows anything, s (common practice, no source: five minutes or more).
const DECAY_MIN_S: f64 = 300.0;
/// What the gauge shows is looked at so often, s.
const LOOK_S: f64 = 60.0;

pub(super) fn plan(action: &Move) -> Vec<Step> {
    match action {
        Move::EvacuateTo { within, .. } => {
            vec![pass(HOOK_UP_S), act(start_pump), until(is_at_target, within.seconds()), act(end_by_target)]
        }
        Move::DecayTest(_) => vec![
            act(start_gauge),
            pass(GAUGE_SETTLES_S),
            act(first_reading),
            pass(base_s(action) / 2.0),
            act(middle_reading),
            pass(base_s(action) / 2.0),
            act(last_reading),
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

/// Marks a vacuum on a unit that can start.
pub(super) fn mark_power(visit: &Visit, task: &mut Task) {
    if visit.inputs.outdoor_disconnect == Switch::Closed {
        task.hazards.push(Hazard::CircuitWorkWithPowerOn);
        task.note("The disconnect is in: if the unit starts in a vacuum, its windings burn. Pull it.");
    }
}

fn start_pump(visit: &mut Visit, task: &mut Task) {
    mark_power(visit, task);
    visit.kit.start_micron_gauge(&visit.plant.readout().clone());
    visit.inputs.suction_port = PortConnection::VacuumPump;
    visit.inputs.liquid_port = PortConnection::VacuumPump;
}

/// What the micron gauge shows, Pa.
fn shown_pa(visit: &Visit, task: &Task) -> f64 {
    visit.read(Measured::Vacuum, task.number).map_or(f64::INFINITY, |reading| reading.value)
}

fn is_evacuated(visit: &mut Visit, task: &mut Task) -> bool {
    let holding = shown_pa(visit, task) <= VACUUM_PA;
    task.holds_for(holding, VACUUM_HOLD_S)
}

fn is_at_target(visit: &mut Visit, task: &mut Task) -> bool {
    let Move::EvacuateTo { target, .. } = task.action else { return true };
    let holding = shown_pa(visit, task) <= target.absolute_pa();
    let is_there = task.holds_for(holding, VACUUM_HOLD_S);
    // A note now and then of how it comes down: dry falls through, wet hangs.
    if task.ticks_in_step() == Task::ticks(10.0 * LOOK_S)
        || task.ticks_in_step() == Task::ticks(20.0 * LOOK_S)
    {
        let minutes = task.ticks_in_step() as f64 * crate::visit::TICK_S / 60.0;
        let micron = micron_from_pa(shown_pa(visit, task));
        task.note(format!("After {minutes:.0} min the micron gauge shows {micron:.0} micron."));
    }
    is_there
}

/// The end of an evacuation to a target: reached, out of time, or stopped.
pub(super) fn end_by_target(visit: &mut Visit, task: &mut Task) {
    let Some(reading) = visit.read(Measured::Vacuum, task.number) else {
        task.note("The pump had not been started yet.");
        return;
    };
    visit.gauges_on_ports();
    visit.kit.stop_micron_gauge();
    task.note(format!(
        "The pump is valved off at {:.0} micron. Watch whether it holds before you charge.",
        micron_from_pa(reading.value)
    ));
    visit.site.circuit = if reading.value <= NO_VACUUM_PA { Circuit::Evacuated } else { Circuit::Opened };
    if task.memo.goal_met == GoalMet::Yes && reading.value <= VACUUM_PA {
        task.reached.push(Milestone::Evacuated);
    }
    if task.memo.goal_met == GoalMet::No {
        task.note("The target was not reached.");
    }
    task.outcome = Outcome::Read(reading);
}

fn valve_off_pump(visit: &mut Visit, _: &mut Task) {
    visit.gauges_on_ports();
}

fn end_evacuation(visit: &mut Visit, task: &mut Task) {
    let mut shown_pa = f64::INFINITY;
    if let Some(reading) = visit.read(Measured::Vacuum, task.number) {
        task.note(format!(
            "Five minutes after the pump is valved off, the micron gauge shows {:.0} micron.",
            micron_from_pa(reading.value)
        ));
        shown_pa = reading.value;
        task.outcome = Outcome::Read(reading);
    }
    visit.kit.stop_micron_gauge();
    let held = shown_pa <= DECAYED_PA;
    if task.memo.goal_met == GoalMet::Yes && held {
        visit.site.circuit = Circuit::Evacuated;
        task.reached.push(Milestone::Evacuated);
        task.note("The vacuum holds.");
        return;
    }
    visit.site.circuit = Circuit::Opened;
    if task.memo.goal_met == GoalMet::Yes {
        task.note("The vacuum does not hold: air comes in somewhere, or water is left in it.");
    } else {
        task.note("After an hour the pump has not reached 500 micron.");
    }
}

fn start_gauge(visit: &mut Visit, _: &mut Task) {
    visit.gauges_on_ports();
    visit.kit.start_micron_gauge(&visit.plant.readout().clone());
}

fn first_reading(visit: &mut Visit, task: &mut Task) {
    let shown_pa = shown_pa(visit, task);
    task.memo.pressure_before_pa = Some(shown_pa);
    task.note(format!("The pump is valved off: {:.0} micron.", micron_from_pa(shown_pa)));
}

fn middle_reading(visit: &mut Visit, task: &mut Task) {
    let micron = micron_from_pa(shown_pa(visit, task));
    task.note(format!("Half way through: {micron:.0} micron."));
}

fn last_reading(visit: &mut Visit, task: &mut Task) {
    let Some(reading) = visit.read(Measured::Vacuum, task.number) else { return };
    visit.kit.stop_micron_gauge();
    task.note(format!(
        "At the end: {:.0} micron. A dry, tight circuit stays low; a wet one rises and levels off; a leak rises on and on.",
        micron_from_pa(reading.value)
    ));
    let lasted = matches!(task.action, Move::DecayTest(span) if span.seconds() >= DECAY_MIN_S);
    if lasted && reading.value <= DECAYED_PA {
        task.reached.push(Milestone::VacuumHeld);
    }
    if reading.value > NO_VACUUM_PA {
        visit.site.circuit = Circuit::Opened;
    }
    task.outcome = Outcome::Read(reading);
}
