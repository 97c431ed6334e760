//! Proving the repair.

use call::Milestone;
use plant::{FaultKind, Mode, Switch, ThermostatSettings};

use super::row::never;
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::limits::SET_POINT_MIN_K;
use crate::margin::Margin;
use crate::note::VerifyNote;
use crate::notebook::{Outcome, Verification};
use crate::place::{ChargeBy, Location};
use crate::refusal::Refusal;
use crate::site::Circuit;
use crate::timing::{VERIFY_PATIENCE_S, VERIFY_RUN_S};
use crate::visit::{GoalMet, Step, Task, Visit, act, pass, until};

/// Measuring everything once it stands still, s.
const MEASURE_S: f64 = 120.0;
/// The room must be so much above the set point for the system to keep running, K.
const ROOM_ABOVE_K: f64 = 2.0;
/// How far below the room the set point is put otherwise, K.
const KEEP_RUNNING_K: f64 = 4.0;

/// Below this outdoor temperature superheat and subcooling do not judge a charge, K: 55 °F (California Title 24 RA3.2, 2008).
const CHARGE_JUDGED_FROM_K: f64 = 285.927_777_777_777_8;

/// The system run, and the repair looked at.
pub(super) fn row() -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: VERIFY_RUN_S + 120.0,
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: |visit, _| {
            if visit.site.circuit != Circuit::Charged {
                Some(Refusal::NoChargeToRun)
            } else if visit.inputs.outdoor_disconnect == Switch::Open {
                Some(Refusal::NothingStartsDisconnectOut)
            } else if visit.inputs.indoor_service_switch == Switch::Open {
                Some(Refusal::NothingStartsAirHandlerOff)
            } else if visit.inputs.thermostat.mode == Mode::Off {
                Some(Refusal::NothingStartsThermostatOff)
            } else {
                None
            }
        },
        plan: |visit, _| plan(visit),
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::RepairVerified),
        circuit: OnCircuit::Untouched,
        effect: Effect::Proves,
    }
}

fn plan(visit: &Visit) -> Vec<Step> {
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
    task.note(VerifyNote::SetPointDown { set_point_k });
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
        task.note(VerifyNote::CompressorOff);
    } else {
        task.note(VerifyNote::StillMoving);
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
    faults_left.extend(FaultKind::ALL.into_iter().filter(|kind| visit.plant.has_been_left(*kind)));
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
    if truth.outdoor_k < CHARGE_JUDGED_FROM_K {
        task.note(VerifyNote::TooColdToJudgeCharge);
    }
    task.outcome = Outcome::Verified(found);
    if let Some(before) = task.memo.thermostat_before.take() {
        visit.set_thermostat(before);
        task.note(VerifyNote::SetPointBack);
    }
}

fn tenths(value: f64) -> f64 {
    libm::round(value * 10.0) / 10.0
}
