//! Proving the repair.

use plant::{FaultKind, Mode, ThermostatSettings};

use super::{GoalMet, Step, Task, act, pass, until};
use crate::limits::SET_POINT_MIN_K;
use crate::margin::Margin;
use crate::moves::ChargeBy;
use crate::notebook::{Outcome, Verification};
use crate::timing::{VERIFY_PATIENCE_S, VERIFY_RUN_S};
use crate::visit::Visit;

/// Measuring everything once it stands still, s.
const MEASURE_S: f64 = 120.0;
/// The room must be so much above the set point for the system to keep running, K.
const ROOM_ABOVE_K: f64 = 2.0;
/// How far below the room the set point is put otherwise, K.
const KEEP_RUNNING_K: f64 = 4.0;

/// Below this outdoor temperature superheat and subcooling do not judge a charge, K: 55 °F (California Title 24 RA3.2, 2008).
const CHARGE_JUDGED_FROM_K: f64 = 285.927_777_777_777_8;

pub(super) fn plan(visit: &Visit) -> Vec<Step> {
    let left_s = (needed_run_s(visit) - visit.plant.compressor_on_for_s()).max(0.0);
    let start_s = if visit.compressor_runs() { 0.0 } else { visit.plant.system().controls.off_time_min_s };
    vec![
        act(keep_running),
        until(is_proven, left_s + start_s + VERIFY_PATIENCE_S),
        act(note_patience),
        pass(MEASURE_S),
        act(write_down),
    ]
}

/// How long the compressor must have run, s.
fn needed_run_s(visit: &Visit) -> f64 {
    visit.call.solved.proven_for_s.max(VERIFY_RUN_S)
}

fn keep_running(visit: &mut Visit, task: &mut Task) {
    let settings = visit.inputs.thermostat.clone();
    let room_k = visit.truth().room_k;
    if settings.set_point_k + ROOM_ABOVE_K <= room_k {
        return;
    }
    let set_point_k = (room_k - KEEP_RUNNING_K).max(SET_POINT_MIN_K);
    if set_point_k >= settings.set_point_k {
        return;
    }
    task.note(format!(
        "You put the set point to {:.0} °F for the test, so that the system keeps running.",
        media::units::fahrenheit_from_kelvin(set_point_k)
    ));
    task.memo.thermostat_before = Some(settings.clone());
    visit.set_thermostat(ThermostatSettings { mode: Mode::Cool, set_point_k, ..settings });
}

fn is_proven(visit: &mut Visit, _: &mut Task) -> bool {
    visit.plant.compressor_on_for_s() >= needed_run_s(visit) && visit.plant.is_steady()
}

fn note_patience(visit: &mut Visit, task: &mut Task) {
    if task.memo.goal_met == GoalMet::Yes {
        return;
    }
    if !visit.compressor_runs() {
        task.note("The compressor does not run.");
    } else {
        task.note("The readings are still moving; you write down what you have.");
    }
}

fn write_down(visit: &mut Visit, task: &mut Task) {
    let truth = visit.truth();
    let time_s = visit.time_s();
    let mut faults_left: Vec<FaultKind> = visit
        .plant
        .faults()
        .iter()
        .filter(|fault| fault.severity > 0.0 && fault.onset_s <= time_s)
        .map(|fault| fault.kind)
        .collect();
    if visit.plant.control_fuse_is_blown() {
        faults_left.push(FaultKind::BlownControlFuse);
    }
    faults_left.extend(FaultKind::ALL.into_iter().filter(|kind| visit.plant.left_behind(*kind).is_some()));
    faults_left.sort();
    faults_left.dedup();
    let steady = task.memo.goal_met == GoalMet::Yes && visit.compressor_runs();
    let found = Verification {
        ran_for_s: visit.plant.compressor_on_for_s(),
        superheat: Margin::of(&visit.plant, ChargeBy::Superheat).to_tenths(),
        subcooling: Margin::of(&visit.plant, ChargeBy::Subcooling).to_tenths(),
        temperature_split_k: tenths(truth.return_dry_bulb_k - truth.supply_dry_bulb_k),
        frost_mass_kg: truth.frost_mass_kg,
        faults_left,
        steady,
    };
    let in_f = |difference_k: f64| {
        format!("{:.1} °F", media::units::fahrenheit_difference_from_kelvin_difference(difference_k))
    };
    task.note(format!(
        "Ran for {:.0} min: {}, {}, {} from return to supply.",
        found.ran_for_s / 60.0,
        found.superheat.text(ChargeBy::Superheat, in_f),
        found.subcooling.text(ChargeBy::Subcooling, in_f),
        in_f(found.temperature_split_k),
    ));
    if truth.outdoor_k < CHARGE_JUDGED_FROM_K {
        task.note(
            "It is below 55 °F outside: superheat and subcooling do not judge the charge, the scale does.",
        );
    }
    task.note(if found.frost_mass_kg > crate::observe::CLEAR_FROST_KG {
        "There is ice on the coil."
    } else {
        "No ice on the coil."
    });
    task.outcome = Outcome::Verified(found);
    if let Some(before) = task.memo.thermostat_before.take() {
        visit.set_thermostat(before);
        task.note("The set point is back where it was.");
    }
}

fn tenths(value: f64) -> f64 {
    libm::round(value * 10.0) / 10.0
}
