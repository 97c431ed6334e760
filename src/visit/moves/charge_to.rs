//! Charging a running system to a target of subcooling or superheat: a small step in or out, a quarter of an hour of
//! settling, a look at the instruments, and again. What is decided is decided by what they show, errors included.

use call::{Duration, Mass, Milestone, TemperatureDifference};
use plant::{Mode, PortConnection, Switch, ThermostatSettings};

use super::charge::{liquid_cylinder, open_valves};
use super::recovery::cylinder_full;
use super::row::never;
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::Caution;
use crate::limits::{SET_POINT_MIN_K, Value, scale_tells};
use crate::margin::{Margin, ShownMargin};
use crate::measured::Measured;
use crate::note::ChargeNote;
use crate::notebook::Outcome;
use crate::place::{ChargeBy, Location};
use crate::refusal::Refusal;
use crate::site::Circuit;
use crate::timing::{HOOK_UP_S, REFRIGERANT_COST_PER_KG, clean_wait_s};
use crate::visit::{GoalMet, Task, Visit, act, pass, until};

/// Settling before a reading counts, s: 15 minutes (California Title 24 RA3.2, 2008).
const SETTLE_S: f64 = 900.0;
/// On target within so much, K: 3 °F of subcooling, 5 °F of superheat (California Title 24 RA3.2, 2008, from memory).
const SUBCOOLING_TOLERANCE_K: f64 = 3.0 / 1.8;
const SUPERHEAT_TOLERANCE_K: f64 = 5.0 / 1.8;
/// What a careful hand moves for one kelvin off target, and at a time, kg (engineering values: an ounce is one to two
/// kelvins on a system of three tons).
const STEP_KG_PER_K: f64 = 0.02;
const STEP_MIN_KG: f64 = 0.02;
const STEP_MAX_KG: f64 = 0.15;
/// Longest single step, s.
const STEP_LIMIT_S: f64 = 900.0;
/// Most steps; after that a hand gives up.
const STEPS_MAX: u32 = 24;
/// Remaining mass below which the valve is opened little by little, kg.
const THROTTLE_KG: f64 = 0.05;
/// The room must be so much above the set point for the system to keep running, K.
const ROOM_ABOVE_K: f64 = 2.0;
/// How far below the room the set point is put otherwise, K.
const KEEP_RUNNING_K: f64 = 4.0;

/// Charging the running system to a target.
pub(super) fn row(target: TemperatureDifference, at_most: Mass, within: Duration) -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: vec![
            Value::mass(at_most),
            Value::within(within, Refusal::ChargingOutOfRange),
            Value::charge_target(target),
        ],
        takes_s: clean_wait_s(within),
        price: 0.0,
        caution: Some(Caution::Charging),
        lacks: never,
        refusal: |visit, action| {
            let Move::ChargeTo { by, .. } = action else { return None };
            let (_, pipe) = by.measured_at();
            if !visit.is_attached(Measured::PipeTemperature(pipe)) {
                Some(Refusal::NoThermometer(pipe))
            } else if visit.site.circuit != Circuit::Charged {
                Some(Refusal::NoChargeToAdjust)
            } else if visit.charging_cylinder_is_empty() {
                Some(Refusal::ChargingCylinderEmpty)
            } else if visit.recovery_cylinder_is_full() {
                Some(Refusal::RecoveryCylinderFull)
            } else if visit.inputs.outdoor_disconnect == Switch::Open || !visit.compressor_runs() {
                Some(Refusal::CompressorOff)
            } else {
                None
            }
        },
        plan: |_, _| vec![pass(HOOK_UP_S), act(start), pass(SETTLE_S), act(decide)],
        end: End::Within {
            seconds: within.seconds(),
            act: end,
            again: |action, within| match action {
                Move::ChargeTo { by, target, at_most, .. } => {
                    Move::ChargeTo { by: *by, target: *target, at_most: *at_most, within }
                }
                other => other.clone(),
            },
        },
        reaches: Reaches::IfWell(Milestone::RefrigerantAdded),
        circuit: OnCircuit::Adds,
        effect: Effect::ChangesContents,
    }
}

fn start(visit: &mut Visit, task: &mut Task) {
    let before_kg = visit.scale_total_kg(Measured::AddedMass);
    task.memo.mass_before_kg = before_kg;
    task.memo.recovered_before_kg = visit.scale_total_kg(Measured::RecoveredMass);
    visit.kit.start_scale(Measured::AddedMass, before_kg);
    let settings = visit.inputs.thermostat.clone();
    let room_k = visit.truth().room_k;
    if settings.mode == Mode::Cool && settings.set_point_k + ROOM_ABOVE_K > room_k {
        let set_point_k = (room_k - KEEP_RUNNING_K).max(SET_POINT_MIN_K);
        task.memo.thermostat_before = Some(settings.clone());
        visit.set_thermostat(ThermostatSettings { set_point_k, ..settings });
        task.note(ChargeNote::SetPointDown);
    }
}

/// What the instruments show of superheat or subcooling now, K; `None` if one of them is gone.
fn shown_k(visit: &Visit, task: &Task, by: ChargeBy) -> Option<f64> {
    let (port, pipe) = by.measured_at();
    let gauge_pa = visit.read(Measured::GaugePressure(port), task.number)?.value;
    let pipe_k = visit.read(Measured::PipeTemperature(pipe), task.number)?.value;
    let pressure_pa = media::units::absolute_pa_from_gauge_pa(gauge_pa, media::units::STANDARD_ATMOSPHERE_PA);
    let fluid = visit.plant.system().refrigerant.tables();
    Some(match by {
        ChargeBy::Subcooling => fluid.bubble_k(pressure_pa) - pipe_k,
        ChargeBy::Superheat => pipe_k - fluid.dew_k(pressure_pa),
    })
}

fn added_kg(visit: &Visit, task: &Task) -> f64 {
    visit.scale_total_kg(Measured::AddedMass) - task.memo.mass_before_kg
}

fn drawn_kg(visit: &Visit, task: &Task) -> f64 {
    visit.scale_total_kg(Measured::RecoveredMass) - task.memo.recovered_before_kg
}

fn decide(visit: &mut Visit, task: &mut Task) {
    let Move::ChargeTo { by, target, at_most, .. } = task.action else { return };
    let Some(shown_k) = shown_k(visit, task, by) else {
        return conclude(visit, task, ChargeNote::InstrumentsGone);
    };
    if !visit.compressor_runs() {
        return conclude(visit, task, ChargeNote::CompressorStopped { by });
    }
    let shown = shown_margin(by, shown_k);
    // More refrigerant is more subcooling and less superheat.
    let (missing_k, tolerance_k) = match by {
        ChargeBy::Subcooling => (target.kelvin() - shown_k, SUBCOOLING_TOLERANCE_K),
        ChargeBy::Superheat => (shown_k - target.kelvin(), SUPERHEAT_TOLERANCE_K),
    };
    if missing_k.abs() <= tolerance_k {
        return conclude(visit, task, ChargeNote::OnTarget { shown });
    }
    let left_kg = at_most.kilograms() - added_kg(visit, task);
    if missing_k > 0.0 && left_kg < STEP_MIN_KG {
        return conclude(visit, task, ChargeNote::AllIn { shown });
    }
    if task.memo.steps_made >= STEPS_MAX {
        return conclude(visit, task, ChargeNote::GoingInCircles { shown });
    }
    if missing_k > 0.0 && visit.charging_cylinder_is_empty() {
        return conclude(visit, task, ChargeNote::NothingToAdd { shown });
    }
    if missing_k < 0.0 && visit.recovery_cylinder_is_full() {
        task.note(cylinder_full(visit));
        return conclude(visit, task, ChargeNote::NoRoomForIt { shown });
    }
    // A step that overshot is answered with a smaller one.
    let wanted_kg = (STEP_KG_PER_K * missing_k.abs()).clamp(STEP_MIN_KG, STEP_MAX_KG);
    let turns = task.memo.step_kg * missing_k < 0.0;
    let size_kg = if turns { wanted_kg.min(0.5 * task.memo.step_kg.abs()) } else { wanted_kg };
    task.memo.steps_made += 1;
    task.memo.mass_a_minute_ago_kg = added_kg(visit, task) - drawn_kg(visit, task);
    if missing_k > 0.0 {
        task.memo.step_kg = size_kg.min(left_kg);
        task.note(ChargeNote::StepIn { shown, step_kg: task.memo.step_kg });
        visit.inputs.suction_port = liquid_cylinder(1.0);
        open_valves(visit, 1.0);
    } else {
        task.memo.step_kg = -size_kg;
        task.note(ChargeNote::StepOut { shown, step_kg: size_kg });
        visit.inputs.liquid_port = PortConnection::RecoveryMachine;
    }
    task.next(vec![until(step_is_made, STEP_LIMIT_S), act(close_valves), pass(SETTLE_S), act(decide)]);
}

/// Whether the step is in or out by the scales.
fn step_is_made(visit: &mut Visit, task: &mut Task) -> bool {
    let moved_kg = added_kg(visit, task) - drawn_kg(visit, task) - task.memo.mass_a_minute_ago_kg;
    let remaining_kg = (task.memo.step_kg - moved_kg) * task.memo.step_kg.signum();
    open_valves(visit, (remaining_kg / THROTTLE_KG).clamp(0.05, 1.0));
    let is_over =
        if task.memo.step_kg > 0.0 { visit.charging_cylinder_is_empty() } else { visit.float_switch_opens() };
    remaining_kg <= 0.0 || is_over
}

fn close_valves(visit: &mut Visit, _: &mut Task) {
    visit.gauges_on_ports();
}

/// Ends the charging by what was found: the aim is reached, or can't be.
fn conclude(visit: &mut Visit, task: &mut Task, reason: ChargeNote) {
    task.note(reason);
    task.memo.goal_met = GoalMet::Yes;
    end(visit, task);
}

/// How far a charging has come that ends before its aim.
fn note_unfinished(visit: &Visit, task: &mut Task) {
    let Move::ChargeTo { by, target, .. } = task.action else { return };
    task.note(ChargeNote::TimeOver { target_difference_k: target.kelvin(), steps: task.memo.steps_made });
    task.note(match shown_k(visit, task, by) {
        _ if !visit.compressor_runs() => ChargeNote::CompressorStopped { by },
        Some(now_k) => ChargeNote::Now { shown: shown_margin(by, now_k) },
        None => ChargeNote::InstrumentsGone,
    });
}

/// The end of the charging: on target, given up, out of time, or stopped.
pub(super) fn end(visit: &mut Visit, task: &mut Task) {
    if visit.kit.scale_counts() != Some(Measured::AddedMass) {
        task.note(ChargeNote::NotConnected);
        return;
    }
    if task.memo.goal_met == GoalMet::No {
        note_unfinished(visit, task);
    }
    visit.gauges_on_ports();
    let (added_kg, drawn_kg) = (added_kg(visit, task), drawn_kg(visit, task));
    let reading = visit.read(Measured::AddedMass, task.number);
    visit.kit.stop_scale();
    visit.site.cost += added_kg * REFRIGERANT_COST_PER_KG;
    if let Some(before) = task.memo.thermostat_before.take() {
        visit.set_thermostat(before);
        task.note(ChargeNote::ThermostatBack);
    }
    if scale_tells(drawn_kg) {
        task.note(ChargeNote::IntoRecovery { weighed_kg: drawn_kg });
    }
    if let Some(reading) = reading {
        task.notes.insert(0, ChargeNote::Weighed { weighed_kg: reading.value }.into());
        task.outcome = Outcome::Read(reading);
    }
    if scale_tells(added_kg) {
        // A trim after a weighed-in charge is part of weighing in.
        let weighed = visit.milestones.iter().any(|(milestone, _)| *milestone == Milestone::WeighedIn);
        task.reached.push(if weighed { Milestone::WeighedIn } else { Milestone::RefrigerantAdded });
    }
}

/// What the instruments show, as the notebook says it.
fn shown_margin(by: ChargeBy, shown_k: f64) -> ShownMargin {
    Margin::shown(shown_k).of_what(by)
}
