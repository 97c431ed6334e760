//! Evacuation and the decay test.

use call::{Duration, Milestone, Pressure};
use plant::{PortConnection, Switch};

use super::row::never;
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::{Caution, Hazard};
use crate::limits::Value;
use crate::measured::Measured;
use crate::note::VacuumNote;
use crate::notebook::Outcome;
use crate::place::Location;
use crate::refusal::Refusal;
use crate::site::Circuit;
use crate::tick::TICK_S;
use crate::timing::{DECAY_TEST_S, HOOK_UP_S, MACHINE_LIMIT_S, clean_wait_s};
use crate::visit::{GoalMet, Task, Visit, act, pass, until};

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

/// The pump, to 500 micron, and ten minutes of watching.
pub(super) fn evacuate() -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: HOOK_UP_S + 1500.0 + DECAY_TEST_S,
        price: 0.0,
        caution: Some(Caution::Evacuation),
        lacks: never,
        refusal: no_vacuum_here,
        plan: |_, _| {
            vec![
                pass(HOOK_UP_S),
                act(start_pump),
                until(is_evacuated, MACHINE_LIMIT_S),
                act(valve_off_pump),
                pass(DECAY_TEST_S),
                act(end_evacuation),
            ]
        },
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::Evacuated),
        circuit: OnCircuit::LetsOff,
        effect: Effect::Serves,
    }
}

/// The pump, to a target or for so long.
pub(super) fn evacuate_to(target: Pressure, within: Duration) -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: vec![Value::vacuum(target), Value::within(within, Refusal::EvacuationOutOfRange)],
        takes_s: clean_wait_s(within),
        price: 0.0,
        caution: Some(Caution::Evacuation),
        lacks: never,
        refusal: no_vacuum_here,
        plan: |_, action| {
            let Move::EvacuateTo { within, .. } = action else { return Vec::new() };
            vec![pass(HOOK_UP_S), act(start_pump), until(is_at_target, within.seconds()), act(end_by_target)]
        },
        end: End::Within {
            seconds: within.seconds(),
            act: end_by_target,
            again: |action, within| match action {
                Move::EvacuateTo { target, .. } => Move::EvacuateTo { target: *target, within },
                other => other.clone(),
            },
        },
        reaches: Reaches::IfWell(Milestone::Evacuated),
        circuit: OnCircuit::LetsOff,
        effect: Effect::Serves,
    }
}

/// The micron gauge watched with the pump valved off.
pub(super) fn decay_test(span: Duration) -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: vec![Value::wait(span, Refusal::TestOutOfRange)],
        takes_s: clean_wait_s(span),
        price: 0.0,
        caution: Some(Caution::Evacuation),
        lacks: never,
        refusal: |visit, _| {
            let truth = visit.truth();
            let highest_pa = truth.suction_pressure_pa.max(truth.liquid_pressure_pa);
            (highest_pa > WATCHED_BELOW_PA).then_some(Refusal::NoVacuumToWatch)
        },
        plan: |_, action| {
            vec![
                act(start_gauge),
                pass(GAUGE_SETTLES_S),
                act(first_reading),
                pass(action.takes_s() / 2.0),
                act(middle_reading),
                pass(action.takes_s() / 2.0),
                act(last_reading),
            ]
        },
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::VacuumHeld),
        circuit: OnCircuit::Untouched,
        effect: Effect::Serves,
    }
}

/// Highest pressure at which a vacuum is watched, Pa absolute: the micron gauge's range.
const WATCHED_BELOW_PA: f64 = 20.0e3;
/// Gauge pressure above which a vacuum pump must not be opened to the circuit, Pa.
const PUMP_LIMIT_PA: f64 = 15.0e3;

fn no_vacuum_here(visit: &Visit, _: &Move) -> Option<Refusal> {
    if visit.compressor_runs() {
        return Some(Refusal::CompressorRunsInVacuum);
    }
    let truth = visit.truth();
    let highest_pa = truth.suction_pressure_pa.max(truth.liquid_pressure_pa);
    (highest_pa > media::units::STANDARD_ATMOSPHERE_PA + PUMP_LIMIT_PA)
        .then_some(Refusal::CircuitUnderPressure)
}

/// Marks a vacuum on a unit that can start.
pub(super) fn mark_power(visit: &Visit, task: &mut Task) {
    if visit.inputs.outdoor_disconnect == Switch::Closed {
        task.hazards.push(Hazard::CircuitWorkWithPowerOn);
        task.note(VacuumNote::DisconnectIn);
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
    let after_s = task.ticks_in_step() as f64 * TICK_S;
    // A note now and then of how it comes down: dry falls through, wet hangs.
    if task.ticks_in_step() == Task::ticks(10.0 * LOOK_S)
        || task.ticks_in_step() == Task::ticks(20.0 * LOOK_S)
    {
        let shown_vacuum_pa = shown_pa(visit, task);
        task.note(VacuumNote::Falls { after_s, shown_vacuum_pa });
    }
    if is_there {
        task.note(VacuumNote::StoodAtTarget { after_s });
    }
    is_there
}

/// The end of an evacuation to a target: reached, out of time, or stopped.
pub(super) fn end_by_target(visit: &mut Visit, task: &mut Task) {
    let Some(reading) = visit.read(Measured::Vacuum, task.number) else {
        task.note(VacuumNote::NotStarted);
        return;
    };
    visit.gauges_on_ports();
    visit.kit.stop_micron_gauge();
    task.note(VacuumNote::ValvedOff { shown_vacuum_pa: reading.value });
    visit.site.circuit = if reading.value <= NO_VACUUM_PA { Circuit::Evacuated } else { Circuit::Opened };
    if task.memo.goal_met == GoalMet::Yes && reading.value <= VACUUM_PA {
        task.reached.push(Milestone::Evacuated);
    }
    if task.memo.goal_met == GoalMet::No {
        task.note(VacuumNote::TargetNotReached);
    }
    task.outcome = Outcome::Read(reading);
}

fn valve_off_pump(visit: &mut Visit, _: &mut Task) {
    visit.gauges_on_ports();
}

fn end_evacuation(visit: &mut Visit, task: &mut Task) {
    let mut shown_pa = f64::INFINITY;
    if let Some(reading) = visit.read(Measured::Vacuum, task.number) {
        task.note(VacuumNote::TenMinutesLater { shown_vacuum_pa: reading.value });
        shown_pa = reading.value;
        task.outcome = Outcome::Read(reading);
    }
    visit.kit.stop_micron_gauge();
    let held = shown_pa <= DECAYED_PA;
    if task.memo.goal_met == GoalMet::Yes && held {
        visit.site.circuit = Circuit::Evacuated;
        task.reached.push(Milestone::Evacuated);
        task.note(VacuumNote::Holds);
        return;
    }
    visit.site.circuit = Circuit::Opened;
    if task.memo.goal_met == GoalMet::Yes {
        task.note(VacuumNote::DoesNotHold);
    } else {
        task.note(VacuumNote::NotReached);
    }
}

fn start_gauge(visit: &mut Visit, _: &mut Task) {
    visit.gauges_on_ports();
    visit.kit.start_micron_gauge(&visit.plant.readout().clone());
}

fn first_reading(visit: &mut Visit, task: &mut Task) {
    let shown_pa = shown_pa(visit, task);
    task.memo.pressure_before_pa = Some(shown_pa);
    task.note(VacuumNote::TestBegins { shown_vacuum_pa: shown_pa });
}

fn middle_reading(visit: &mut Visit, task: &mut Task) {
    let shown_pa = shown_pa(visit, task);
    task.memo.pressure_peak_pa = shown_pa;
    task.note(VacuumNote::HalfWay { shown_vacuum_pa: shown_pa });
}

fn last_reading(visit: &mut Visit, task: &mut Task) {
    let Some(reading) = visit.read(Measured::Vacuum, task.number) else { return };
    visit.kit.stop_micron_gauge();
    let first_pa = task.memo.pressure_before_pa.unwrap_or_default();
    task.note(VacuumNote::TestEnds {
        shown_vacuum_pa: reading.value,
        first_half_vacuum_pa: (task.memo.pressure_peak_pa - first_pa).max(0.0),
        second_half_vacuum_pa: (reading.value - task.memo.pressure_peak_pa).max(0.0),
    });
    let lasted = matches!(task.action, Move::DecayTest(span) if span.seconds() >= DECAY_TEST_S);
    let holds = reading.value <= DECAYED_PA;
    if holds && lasted {
        task.reached.push(Milestone::VacuumHeld);
    }
    task.note(match (holds, lasted) {
        (true, true) => VacuumNote::Holds,
        (true, false) => VacuumNote::TooShort,
        (false, _) => VacuumNote::Above,
    });
    if reading.value > NO_VACUUM_PA {
        visit.site.circuit = Circuit::Opened;
    }
    task.outcome = Outcome::Read(reading);
}
