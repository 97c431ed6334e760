//! Charging by weight: into the evacuated circuit, or into the circuit as it is.

use call::{Mass, Milestone};
use plant::{CylinderPhase, Mode, PortConnection, ThermostatSettings};

use super::row::never;
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::Caution;
use crate::limits::{SET_POINT_MIN_K, Value, scale_tells};
use crate::measured::Measured;
use crate::note::ChargeNote;
use crate::notebook::Outcome;
use crate::place::Location;
use crate::refusal::Refusal;
use crate::site::Circuit;
use crate::timing::{CHARGING_LIMIT_S, HOOK_UP_S, REFRIGERANT_COST_PER_KG};
use crate::visit::{GoalMet, Step, Task, Visit, act, pass, until};

/// A weighed-in charge counts if so much of it went in.
const COMPLETE_SHARE: f64 = 0.95;
/// The scale stands still if less than this goes in within a minute, kg.
const STALLED_KG: f64 = 0.004;
/// Below this remaining mass a careful hand closes the valve little by little, kg.
const THROTTLE_KG: f64 = 0.1;
/// How far the suction-side valve is opened at most: enough to charge in minutes, little enough that what enters
/// as liquid boils off on the compressor's motor before it reaches the scrolls (engineering value).
const SUCTION_OPENING: f64 = 0.25;
/// How far below the room the set point is put to keep the system running, K.
const KEEP_RUNNING_K: f64 = 4.0;

/// Refrigerant into the evacuated circuit.
pub(super) fn weigh_in(mass: Mass) -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: vec![Value::mass(mass)],
        takes_s: HOOK_UP_S + 600.0,
        price: mass.kilograms() * REFRIGERANT_COST_PER_KG,
        caution: Some(Caution::Charging),
        lacks: never,
        refusal: |visit, _| {
            if visit.charging_cylinder_is_empty() {
                return Some(Refusal::ChargingCylinderEmpty);
            }
            match visit.site.circuit {
                Circuit::Evacuated => None,
                Circuit::Charged => Some(Refusal::TopUpIsNotWeighingIn),
                Circuit::Recovered | Circuit::Opened | Circuit::UnderNitrogen => {
                    Some(Refusal::NoVacuumToWeighInto)
                }
            }
        },
        plan: |_, _| {
            vec![
                pass(HOOK_UP_S),
                act(start_liquid),
                until(liquid_is_in_or_stalls, CHARGING_LIMIT_S),
                act(go_on_through_suction),
                act(end),
            ]
        },
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::WeighedIn),
        circuit: OnCircuit::Fills,
        effect: Effect::ChangesContents,
    }
}

/// Refrigerant into the circuit as it is.
pub(super) fn add(mass: Mass) -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: vec![Value::mass(mass)],
        takes_s: HOOK_UP_S + 300.0,
        price: mass.kilograms() * REFRIGERANT_COST_PER_KG,
        caution: Some(Caution::Charging),
        lacks: never,
        refusal: nothing_to_add_to,
        plan: through_suction,
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::RefrigerantAdded),
        circuit: OnCircuit::Adds,
        effect: Effect::ChangesContents,
    }
}

/// The same, as vapour.
pub(super) fn add_vapor(mass: Mass) -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: vec![Value::mass(mass)],
        takes_s: HOOK_UP_S + 900.0,
        price: mass.kilograms() * REFRIGERANT_COST_PER_KG,
        caution: Some(Caution::Charging),
        lacks: never,
        refusal: nothing_to_add_to,
        plan: through_suction,
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::RefrigerantAdded),
        circuit: OnCircuit::Adds,
        effect: Effect::ChangesContents,
    }
}

fn nothing_to_add_to(visit: &Visit, _: &Move) -> Option<Refusal> {
    if visit.charging_cylinder_is_empty() {
        return Some(Refusal::ChargingCylinderEmpty);
    }
    match visit.site.circuit {
        Circuit::Evacuated => Some(Refusal::WeighWholeChargeIn),
        Circuit::UnderNitrogen => Some(Refusal::NitrogenInCircuit),
        Circuit::Charged | Circuit::Recovered | Circuit::Opened => None,
    }
}

fn through_suction(_: &Visit, _: &Move) -> Vec<Step> {
    vec![pass(HOOK_UP_S), act(start_suction), until(is_in, CHARGING_LIMIT_S), act(end)]
}

fn target_kg(task: &Task) -> f64 {
    match task.action {
        Move::WeighIn(mass) | Move::AddRefrigerant(mass) | Move::AddVapor(mass) => mass.kilograms(),
        _ => 0.0,
    }
}

fn added_kg(visit: &Visit, task: &Task) -> f64 {
    visit.scale_total_kg(Measured::AddedMass) - task.memo.mass_before_kg
}

/// Opens the cylinder on a port; closed again when the target is reached.
fn set_valve(visit: &mut Visit, task: &Task) {
    let remaining_kg = target_kg(task) - added_kg(visit, task);
    let careful = (remaining_kg / THROTTLE_KG).clamp(0.02, 1.0);
    open_valves(visit, if remaining_kg > 0.0 { careful } else { 0.0 });
}

/// Opens the manifold's valves to the cylinder by a share of what each may be opened.
pub(super) fn open_valves(visit: &mut Visit, share: f64) {
    let ports = [(&mut visit.inputs.liquid_port, 1.0), (&mut visit.inputs.suction_port, SUCTION_OPENING)];
    for (port, most_as_liquid) in ports {
        if let PortConnection::ChargingCylinder { phase, opening } = port {
            *opening = share * if *phase == CylinderPhase::Liquid { most_as_liquid } else { 1.0 };
        }
    }
}

/// The cylinder on its scale beside the unit, upside down: blends are drawn as liquid.
pub(super) fn liquid_cylinder(opening: f64) -> PortConnection {
    PortConnection::ChargingCylinder { phase: CylinderPhase::Liquid, opening }
}

fn start(visit: &mut Visit, task: &mut Task) {
    let before_kg = visit.scale_total_kg(Measured::AddedMass);
    task.memo.mass_before_kg = before_kg;
    visit.kit.start_scale(Measured::AddedMass, before_kg);
}

fn start_liquid(visit: &mut Visit, task: &mut Task) {
    start(visit, task);
    if visit.inputs.thermostat.mode == Mode::Cool {
        task.memo.thermostat_before = Some(visit.inputs.thermostat.clone());
        visit.set_thermostat(ThermostatSettings { mode: Mode::Off, ..visit.inputs.thermostat.clone() });
        task.note(ChargeNote::ThermostatOff);
    }
    visit.inputs.liquid_port = liquid_cylinder(1.0);
}

fn is_in(visit: &mut Visit, task: &mut Task) -> bool {
    set_valve(visit, task);
    added_kg(visit, task) >= target_kg(task) || visit.charging_cylinder_is_empty()
}

fn liquid_is_in_or_stalls(visit: &mut Visit, task: &mut Task) -> bool {
    if is_in(visit, task) {
        return true;
    }
    if task.ticks_in_step() >= task.memo.mass_looked_at_tick + Task::ticks(60.0) {
        let now_kg = added_kg(visit, task);
        let gained_kg = now_kg - task.memo.mass_a_minute_ago_kg;
        task.memo.mass_a_minute_ago_kg = now_kg;
        task.memo.mass_looked_at_tick = task.ticks_in_step();
        return gained_kg < STALLED_KG;
    }
    false
}

/// If the liquid stopped short, the rest goes through the suction side of the running system.
fn go_on_through_suction(visit: &mut Visit, task: &mut Task) {
    if added_kg(visit, task) >= target_kg(task) {
        return;
    }
    visit.gauges_on_ports();
    if visit.charging_cylinder_is_empty() || !scale_tells(added_kg(visit, task)) {
        // Nothing more comes, and a compressor is not started on an empty circuit.
        return;
    }
    let Some(before) = task.memo.thermostat_before.clone().filter(|_| visit.has_power()) else {
        task.note(ChargeNote::StopsAtPressure);
        return;
    };
    let set_point_k = before.set_point_k.min(visit.truth().room_k - KEEP_RUNNING_K).max(SET_POINT_MIN_K);
    visit.set_thermostat(ThermostatSettings { mode: Mode::Cool, set_point_k, ..before });
    task.note(ChargeNote::GoesOnThroughSuction);
    visit.inputs.suction_port = liquid_cylinder(SUCTION_OPENING);
    visit.site.circuit = Circuit::Charged;
    task.next(vec![until(is_in, CHARGING_LIMIT_S)]);
}

fn start_suction(visit: &mut Visit, task: &mut Task) {
    start(visit, task);
    visit.inputs.suction_port = match task.action {
        Move::AddVapor(_) => {
            if visit.plant.system().refrigerant.is_blend() {
                task.note(ChargeNote::BlendAsVapor);
            }
            PortConnection::ChargingCylinder { phase: CylinderPhase::Vapour, opening: 1.0 }
        }
        _ => liquid_cylinder(SUCTION_OPENING),
    };
    if !visit.compressor_runs() {
        task.note(ChargeNote::CompressorOff);
    }
}

fn end(visit: &mut Visit, task: &mut Task) {
    visit.gauges_on_ports();
    let added_kg = added_kg(visit, task);
    let reading = visit.read(Measured::AddedMass, task.number);
    visit.kit.stop_scale();
    visit.site.cost += added_kg * REFRIGERANT_COST_PER_KG;
    if let Some(before) = task.memo.thermostat_before.take() {
        visit.set_thermostat(before);
        task.note(ChargeNote::ThermostatBack);
    }
    if let Some(reading) = reading {
        task.notes.insert(0, ChargeNote::Weighed { weighed_kg: reading.value }.into());
        task.outcome = Outcome::Read(reading);
    }
    let any = scale_tells(added_kg);
    if any {
        visit.site.circuit = Circuit::Charged;
    }
    match task.action {
        Move::WeighIn(_) if added_kg >= COMPLETE_SHARE * target_kg(task) => {
            task.reached.push(Milestone::WeighedIn);
        }
        Move::WeighIn(_) if visit.charging_cylinder_is_empty() => {
            task.note(ChargeNote::CylinderEmpty);
            task.note(ChargeNote::ShortOfWanted);
        }
        Move::WeighIn(_) => task.note(ChargeNote::ShortOfWanted),
        _ => {
            if visit.charging_cylinder_is_empty() {
                task.note(ChargeNote::CylinderEmpty);
            } else if task.memo.goal_met == GoalMet::No {
                task.note(ChargeNote::HalfHourOver);
            }
            if !any {
                return;
            }
            // A trim after a weighed-in charge is part of weighing in.
            let weighed = visit.milestones.iter().any(|(milestone, _)| *milestone == Milestone::WeighedIn);
            task.reached.push(if weighed { Milestone::WeighedIn } else { Milestone::RefrigerantAdded });
        }
    }
}

/// What a cylinder gives up no more, kg: its vapour at about the pressure of the suction side.
const EMPTY_KG: f64 = 0.5;

impl Visit {
    /// Whether the charging cylinder has nothing left to give.
    pub(crate) fn charging_cylinder_is_empty(&self) -> bool {
        self.plant
            .charging_cylinder()
            .is_some_and(|cylinder| cylinder.liquid_share <= 1.0e-6 && cylinder.mass_kg < EMPTY_KG)
    }
}
