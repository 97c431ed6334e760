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
    let minutes = task.ticks_in_step() as f64 * crate::visit::TICK_S / 60.0;
    // A note now and then of how it comes down: dry falls through, wet hangs.
    if task.ticks_in_step() == Task::ticks(10.0 * LOOK_S)
        || task.ticks_in_step() == Task::ticks(20.0 * LOOK_S)
    {
        let micron = micron_from_pa(shown_pa(visit, task));
        task.note(format!("After {minutes:.0} min the micron gauge shows {micron:.0} micron."));
    }
    if is_there {
        task.note(format!("After {minutes:.0} min of pumping it has stood at the target for a minute."));
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
        "The pump is valved off at {:.0} micron. Whether that holds, this does not show: a decay test of ten minutes or more \
         does (common practice). Make it before you charge.",
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
            "Ten minutes after the pump is valved off, the micron gauge shows {:.0} micron.",
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
        task.note("The vacuum holds: it stays under 1000 micron.");
        return;
    }
    visit.site.circuit = Circuit::Opened;
    if task.memo.goal_met == GoalMet::Yes {
        task.note("The vacuum does not hold, it has risen above 1000 micron: air comes in somewhere, or water is left in it.");
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

/// How far the micron gauge went up.
fn rise(by_pa: f64) -> String {
    format!("up by {:.0}", micron_from_pa(by_pa.max(0.0)))
}

fn middle_reading(visit: &mut Visit, task: &mut Task) {
    let shown_pa = shown_pa(visit, task);
    task.memo.pressure_peak_pa = shown_pa;
    task.note(format!("Half way through: {:.0} micron.", micron_from_pa(shown_pa)));
}

fn last_reading(visit: &mut Visit, task: &mut Task) {
    let Some(reading) = visit.read(Measured::Vacuum, task.number) else { return };
    visit.kit.stop_micron_gauge();
    task.note(format!(
        "At the end: {:.0} micron; {} in the first half, {} in the second. A dry, tight circuit stays low; a wet one rises and \
         levels off; a leak rises on and on.",
        micron_from_pa(reading.value),
        rise(task.memo.pressure_peak_pa - task.memo.pressure_before_pa.unwrap_or_default()),
        rise(reading.value - task.memo.pressure_peak_pa),
    ));
    let lasted = matches!(task.action, Move::DecayTest(span) if span.seconds() >= DECAY_TEST_S);
    let holds = reading.value <= DECAYED_PA;
    if holds && lasted {
        task.reached.push(Milestone::VacuumHeld);
    }
    task.note(match (holds, lasted) {
        (true, true) => "It stays under 1000 micron: the vacuum holds.",
        (true, false) => {
            "It is under 1000 micron, but so short a test does not show that it holds: that takes ten minutes or more (common \
             practice)."
        }
        (false, _) => "It is above 1000 micron: the vacuum does not hold.",
    });
    if reading.value > NO_VACUUM_PA {
        visit.site.circuit = Circuit::Opened;
    }
    task.outcome = Outcome::Read(reading);
}
