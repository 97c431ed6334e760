//! Recovery: the whole charge, deeper than required, or a little; and cylinders.

use call::{Mass, Milestone, Pressure};
use media::units::{STANDARD_ATMOSPHERE_PA, gauge_pa_from_absolute_pa};
use plant::PortConnection;

use super::row::never;
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::Caution;
use crate::limits::Value;
use crate::measured::Measured;
use crate::note::RecoveryNote;
use crate::notebook::Outcome;
use crate::place::{CylinderUse, Location};
use crate::refusal::Refusal;
use crate::site::Circuit;
use crate::tick::TICK_S;
use crate::timing::{HOOK_UP_S, MACHINE_LIMIT_S};
use crate::visit::{GoalMet, Step, Task, Visit, act, pass, until};

/// What a gauge can tell at the required level, Pa.
const GAUGE_PA: f64 = 2.0e3;
/// The machine is set so low and runs until the gauges stand so low, shares of the required absolute pressure: what oil and cold
/// spots give off afterwards is not to lift them above it (common practice, no source).
const SET_SHARE: f64 = 0.90;
const REACHED_SHARE: f64 = 0.95;
/// For so long, s (engineering value).
const REACHED_HOLD_S: f64 = 60.0;
/// Then the machine stands and the gauges are watched, s: a few minutes (what the certification for handling refrigerant
/// teaches under 40 CFR 82.161: wait, and if the pressure rises, there is refrigerant left in the oil or as liquid; from memory).
const STANDING_S: f64 = 300.0;

/// The refrigerant into a recovery cylinder: some thirty minutes of the machine on three tons, and twice five of watching the gauges.
pub(super) fn recover() -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: HOOK_UP_S + 2400.0,
        price: 0.0,
        caution: Some(Caution::Recovery),
        lacks: never,
        refusal: |visit, _| {
            if visit.recovery_cylinder_is_full() {
                return Some(Refusal::RecoveryCylinderFull);
            }
            match visit.site.circuit {
                Circuit::Charged => visit.no_gauges(Refusal::NoHoses),
                Circuit::Recovered | Circuit::Opened | Circuit::Evacuated | Circuit::UnderNitrogen => {
                    Some(Refusal::NothingToRecover)
                }
            }
        },
        plan: draw_down,
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::Recovered),
        circuit: OnCircuit::Handles,
        effect: Effect::ChangesContents,
    }
}

/// The same, deeper.
pub(super) fn recover_to(depth: Pressure) -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: vec![Value::recovery_depth(depth)],
        takes_s: HOOK_UP_S + 2400.0,
        price: 0.0,
        caution: Some(Caution::Recovery),
        lacks: never,
        refusal: |visit, action| {
            let Move::RecoverTo(depth) = action else { return None };
            nothing_to_draw(visit, depth.absolute_pa())
        },
        plan: draw_down,
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::Recovered),
        circuit: OnCircuit::Handles,
        effect: Effect::ChangesContents,
    }
}

/// A little off the charge.
pub(super) fn remove(mass: Mass) -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: vec![Value::mass(mass)],
        takes_s: HOOK_UP_S + 120.0,
        price: 0.0,
        caution: Some(Caution::Recovery),
        lacks: never,
        refusal: |visit, _| nothing_to_draw(visit, STANDARD_ATMOSPHERE_PA),
        plan: |_, _| {
            vec![pass(HOOK_UP_S), act(start_drawing), until(is_drawn_off, MACHINE_LIMIT_S), act(end_drawing)]
        },
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Handles,
        effect: Effect::ChangesContents,
    }
}

/// Another cylinder from the van.
pub(super) fn change_cylinder() -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 240.0,
        price: 0.0,
        caution: Some(Caution::Cylinders),
        lacks: never,
        refusal: never,
        plan: |_, action| vec![pass(action.takes_s()), act(change)],
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::Serves,
    }
}

fn nothing_to_draw(visit: &Visit, down_to_pa: f64) -> Option<Refusal> {
    if visit.recovery_cylinder_is_full() {
        return Some(Refusal::RecoveryCylinderFull);
    }
    match visit.site.circuit {
        Circuit::Charged => None,
        Circuit::Recovered if down_to_pa < STANDARD_ATMOSPHERE_PA - 1.0 => None,
        Circuit::Recovered | Circuit::Opened | Circuit::Evacuated | Circuit::UnderNitrogen => {
            Some(Refusal::NothingToRecover)
        }
    }
}

fn draw_down(_: &Visit, _: &Move) -> Vec<Step> {
    let mut steps = vec![pass(HOOK_UP_S), act(start_recovery)];
    steps.extend(run(MACHINE_LIMIT_S));
    steps
}

/// Required level: 0 inHg for a high-pressure appliance with under 200 lb (40 CFR 82.156 table 1), or what was asked.
fn depth_pa(task: &Task) -> f64 {
    match task.action {
        Move::RecoverTo(depth) => depth.absolute_pa().min(STANDARD_ATMOSPHERE_PA),
        _ => STANDARD_ATMOSPHERE_PA,
    }
}

/// The machine runs, and stands for the look at the gauges.
fn run(at_most_s: f64) -> Vec<Step> {
    vec![act(start_machine), until(is_drawn_down, at_most_s), act(stop_machine), pass(STANDING_S), act(look)]
}

fn start_recovery(visit: &mut Visit, task: &mut Task) {
    visit.kit.start_scale(Measured::RecoveredMass, visit.scale_total_kg(Measured::RecoveredMass));
    if visit.compressor_runs() {
        task.note(RecoveryNote::OwnCompressorRuns);
    }
}

fn start_machine(visit: &mut Visit, task: &mut Task) {
    let machine = PortConnection::RecoveryMachineTo { pressure_pa: SET_SHARE * depth_pa(task) };
    visit.inputs.suction_port = machine;
    visit.inputs.liquid_port = machine;
    task.memo.steps_made += 1;
}

fn stop_machine(visit: &mut Visit, task: &mut Task) {
    visit.gauges_on_ports();
    task.memo.pressure_before_pa = Some(highest_pa(visit));
    if visit.site.recovery_cylinder_full && !is_reached(visit, task) {
        // The machine can't go on, so there is nothing to stand and watch for.
        task.cut_short(end_at_full_cylinder);
    }
}

/// The higher of the two gauges, Pa absolute.
fn highest_pa(visit: &Visit) -> f64 {
    let truth = visit.truth();
    truth.suction_pressure_pa.max(truth.liquid_pressure_pa)
}

fn is_empty(visit: &Visit, task: &Task) -> bool {
    highest_pa(visit) <= depth_pa(task) + GAUGE_PA
}

fn is_reached(visit: &Visit, task: &Task) -> bool {
    highest_pa(visit) <= REACHED_SHARE * depth_pa(task)
}

fn is_drawn_down(visit: &mut Visit, task: &mut Task) -> bool {
    let holding = is_reached(visit, task);
    task.holds_for(holding, REACHED_HOLD_S) || visit.float_switch_opens()
}

/// After the machine has stood: done, or once more as long as the hour lasts.
fn look(visit: &mut Visit, task: &mut Task) {
    let left_s = HOOK_UP_S + MACHINE_LIMIT_S - task.ticks_done as f64 * TICK_S;
    let is_over = is_empty(visit, task)
        || task.memo.goal_met == GoalMet::No
        || visit.site.recovery_cylinder_full
        || left_s <= REACHED_HOLD_S;
    if is_over {
        end_recovery(visit, task);
        return;
    }
    if task.memo.steps_made == 1 {
        task.memo.pressure_peak_pa = highest_pa(visit) - task.memo.pressure_before_pa.unwrap_or_default();
    }
    task.next(run(left_s));
}

fn note_recovered(visit: &mut Visit, task: &mut Task) {
    if let Some(reading) = visit.read(Measured::RecoveredMass, task.number) {
        task.note(RecoveryNote::Recovered { weighed_kg: reading.value });
        task.outcome = Outcome::Read(reading);
    }
    visit.kit.stop_scale();
}

fn end_at_full_cylinder(visit: &mut Visit, task: &mut Task) {
    note_recovered(visit, task);
    task.note(cylinder_full(visit));
    let left_pa = gauge_pa_from_absolute_pa(highest_pa(visit), STANDARD_ATMOSPHERE_PA);
    if left_pa > GAUGE_PA {
        task.note(RecoveryNote::NotEmpty { left_gauge_pa: left_pa });
    }
}

/// The cylinder is full and how much that is.
pub(super) fn cylinder_full(visit: &Visit) -> RecoveryNote {
    let holds_kg = visit.plant.recovery_cylinder().map_or(0.0, |cylinder| cylinder.mass_kg);
    RecoveryNote::CylinderFull { holds_kg }
}

fn end_recovery(visit: &mut Visit, task: &mut Task) {
    note_recovered(visit, task);
    let again = task.memo.steps_made.saturating_sub(1);
    if again > 0 {
        task.note(RecoveryNote::RanAgain { rise_difference_pa: task.memo.pressure_peak_pa, times: again });
    }
    if is_empty(visit, task) {
        visit.site.circuit = Circuit::Recovered;
        task.reached.push(Milestone::Recovered);
        task.note(match task.action {
            Move::RecoverTo(_) => RecoveryNote::AtSetVacuum,
            _ => RecoveryNote::AtZero,
        });
    } else if visit.site.recovery_cylinder_full {
        task.note(cylinder_full(visit));
    } else {
        task.note(RecoveryNote::StillAbove);
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
        || visit.float_switch_opens()
}

fn end_drawing(visit: &mut Visit, task: &mut Task) {
    visit.gauges_on_ports();
    let reading = visit.read(Measured::RecoveredMass, task.number);
    visit.kit.stop_scale();
    let Move::RemoveRefrigerant(mass) = task.action else { return };
    if let Some(reading) = reading {
        task.note(RecoveryNote::DrawnOff { weighed_kg: reading.value });
        task.outcome = Outcome::Read(reading);
    }
    if drawn_kg(visit, task) < mass.kilograms() {
        task.note(RecoveryNote::StopsShort);
        if visit.site.recovery_cylinder_full {
            task.note(cylinder_full(visit));
        }
    }
}

fn change(visit: &mut Visit, task: &mut Task) {
    let Move::ChangeCylinder(cylinder) = task.action else { return };
    match cylinder {
        CylinderUse::Charging => {
            visit.plant.change_charging_cylinder();
            task.note(RecoveryNote::ChargingCylinderFetched);
        }
        CylinderUse::Recovery => {
            visit.plant.change_recovery_cylinder();
            visit.site.recovery_cylinder_full = false;
            task.note(RecoveryNote::RecoveryCylinderFetched);
        }
    }
}

impl Visit {
    /// Whether the machine's float switch stands open, or opens now.
    pub(super) fn float_switch_opens(&mut self) -> bool {
        self.site.recovery_cylinder_full = self.recovery_cylinder_is_full();
        self.site.recovery_cylinder_full
    }

    /// Whether nothing more may go into the recovery cylinder.
    pub(crate) fn recovery_cylinder_is_full(&self) -> bool {
        self.site.recovery_cylinder_full || self.plant.recovery_cylinder_is_full()
    }
}
