//! Nitrogen: the standing pressure test, and purging.

use call::Milestone;
use media::units::{STANDARD_ATMOSPHERE_PA, fahrenheit_from_kelvin, pa_from_psig, psi_from_pa};
use plant::PortConnection;

use super::area::ALARM_SHARE;
use super::{GoalMet, Step, Task, act, pass, until};
use crate::hazard::Hazard;
use crate::moves::{AirPoint, Bulb, Move, Port};
use crate::notebook::{Measured, Outcome};
use crate::site::Circuit;
use crate::timing::{NITROGEN_COST, NITROGEN_HOOK_UP_S, base_s};
use crate::visit::Visit;

/// Longest filling or letting off, s.
const FLOW_LIMIT_S: f64 = 3600.0;
/// The gauges agree with the regulator if they stand so close to it, share of the gauge pressure and Pa.
const REACHED_SHARE: f64 = 0.005;
const REACHED_PA: f64 = 4.0e3;
/// What stands above atmospheric pressure counts as let off below this, Pa gauge.
const OFF_PA: f64 = 2.0e3;
/// Filling warms the gas, and the two sides even out: so long until the gauge is read, s (engineering value).
const SETTLE_S: f64 = 600.0;
/// Purging: so often up to so much (common practice: three times).
const PURGES: usize = 3;
const PURGE_PSIG: f64 = 50.0;
/// A circuit whose refrigerant burns is flushed: nitrogen off, the pump on, the vacuum broken with nitrogen, again and again
/// until nothing is left (IEC 60335-2-40 annex DD, removal and evacuation; from memory). Nitrogen alone thins out the gas and leaves
/// what the oil holds. So long is the pump on, s, and the hose watched after the last nitrogen, s, in so many rounds at most
/// (engineering values: twice, and once, the time in which oil at rest gives off its refrigerant).
const FLUSH_PUMP_S: f64 = 600.0;
const FLUSH_WATCH_S: f64 = 300.0;
const FLUSHES_MAX: u32 = 6;
/// A standing test counts if it lasted so long, s, and what is left after the correction is within so much of the
/// absolute pressure (engineering values: ten minutes; twice what two thermometers and a gauge leave open).
const TEST_S: f64 = 600.0;
const HELD_SHARE: f64 = 0.012;

pub(super) fn plan(action: &Move) -> Vec<Step> {
    match action {
        Move::PressurizeWithNitrogen(_) => vec![
            pass(NITROGEN_HOOK_UP_S),
            act(open_regulator),
            until(is_up, FLOW_LIMIT_S),
            act(close_valves),
            pass(SETTLE_S),
            act(tell_pressure),
        ],
        Move::StandingTest(_) => vec![act(first_reading), pass(base_s(action)), act(last_reading)],
        Move::VentNitrogen => {
            vec![act(open_hoses), until(is_off, FLOW_LIMIT_S), act(close_valves), act(let_off)]
        }
        _ => vec![pass(NITROGEN_HOOK_UP_S), act(start_purging)],
    }
}

/// Nitrogen on, and off again.
fn sweep() -> [Step; 4] {
    [act(open_regulator), until(is_up, FLOW_LIMIT_S), act(open_hoses), until(is_off, FLOW_LIMIT_S)]
}

fn start_purging(visit: &mut Visit, task: &mut Task) {
    let mut steps = Vec::new();
    if visit.plant.circuit_share_of_flammability_limit().is_some() {
        steps.extend(sweep());
        steps.extend(flush());
    } else {
        steps.extend((0..PURGES).flat_map(|_| sweep()));
        steps.extend([act(close_valves), act(purged)]);
    }
    task.next(steps);
}

/// The pump on a swept circuit, nitrogen into its vacuum, and a look at the detector.
fn flush() -> Vec<Step> {
    let mut steps = vec![act(start_pump), pass(FLUSH_PUMP_S)];
    steps.extend(sweep());
    steps.extend([act(close_valves), pass(FLUSH_WATCH_S), act(flushed)]);
    steps
}

fn set_to_pa(task: &Task) -> f64 {
    match task.action {
        Move::PressurizeWithNitrogen(to) => to.absolute_pa(),
        _ => pa_from_psig(PURGE_PSIG, STANDARD_ATMOSPHERE_PA),
    }
}

fn on_both(visit: &mut Visit, connection: PortConnection) {
    visit.inputs.suction_port = connection;
    visit.inputs.liquid_port = connection;
}

fn open_regulator(visit: &mut Visit, task: &mut Task) {
    let regulated_pa = set_to_pa(task);
    let design_pa = visit.plant.system().plate.low_test_gauge_pa;
    if regulated_pa - STANDARD_ATMOSPHERE_PA > 1.005 * design_pa {
        task.hazards.push(Hazard::TestedAboveDesignPressure);
        task.note(format!(
            "The data plate tests the low side with {:.0} psig; above that a coil or a shell can burst. Let it off.",
            psi_from_pa(design_pa)
        ));
    }
    on_both(visit, PortConnection::Nitrogen { regulated_pa, opening: 1.0 });
    visit.site.circuit = Circuit::UnderNitrogen;
    visit.site.cost +=
        NITROGEN_COST / if task.action == Move::PurgeWithNitrogen { PURGES as f64 } else { 1.0 };
}

fn is_up(visit: &mut Visit, task: &mut Task) -> bool {
    let truth = visit.truth();
    let lowest_pa = truth.suction_pressure_pa.min(truth.liquid_pressure_pa);
    let set_to_pa = set_to_pa(task);
    lowest_pa >= set_to_pa - REACHED_PA - REACHED_SHARE * (set_to_pa - STANDARD_ATMOSPHERE_PA)
}

fn close_valves(visit: &mut Visit, _: &mut Task) {
    visit.gauges_on_ports();
}

fn tell_pressure(visit: &mut Visit, task: &mut Task) {
    let Some(reading) = visit.read(Measured::GaugePressure(Port::Suction), task.number) else { return };
    task.note(format!(
        "The regulator is shut and the valves are closed; the gauge shows {:.1} psig.",
        psi_from_pa(reading.value)
    ));
    task.outcome = Outcome::Read(reading);
}

/// Mean of the air outdoors and indoors by the thermometer, K: the circuit stands in both.
fn air_k(visit: &Visit, task: &Task) -> f64 {
    let truth = visit.truth();
    let shown = |point, truth_k| {
        visit.metered(Measured::AirTemperature(point, Bulb::Dry), truth_k, task.number).value
    };
    0.5 * (shown(AirPoint::Outdoor, truth.outdoor_k) + shown(AirPoint::Return, truth.room_k))
}

fn first_reading(visit: &mut Visit, task: &mut Task) {
    task.memo.pressure_before_pa =
        visit.read(Measured::GaugePressure(Port::Suction), task.number).map(|reading| reading.value);
    task.memo.temperature_before_k = air_k(visit, task);
}

fn last_reading(visit: &mut Visit, task: &mut Task) {
    let Some(reading) = visit.read(Measured::GaugePressure(Port::Suction), task.number) else { return };
    let (Some(first_gauge_pa), first_k) = (task.memo.pressure_before_pa, task.memo.temperature_before_k)
    else {
        return;
    };
    let last_k = air_k(visit, task);
    // Gay-Lussac: at constant volume the absolute pressure of a gas goes with its absolute temperature.
    let first_pa = first_gauge_pa + STANDARD_ATMOSPHERE_PA;
    let expected_gauge_pa = first_pa * last_k / first_k - STANDARD_ATMOSPHERE_PA;
    let left_pa = reading.value - expected_gauge_pa;
    task.note(format!(
        "At the start {:.1} psig at {:.1} °F, now {:.1} psig at {:.1} °F (mean of the air outdoors and indoors).",
        psi_from_pa(first_gauge_pa),
        fahrenheit_from_kelvin(first_k),
        psi_from_pa(reading.value),
        fahrenheit_from_kelvin(last_k),
    ));
    task.note(format!(
        "By the gas law the temperature alone makes {:.1} psig of it (absolute pressure goes with absolute temperature); \
         {:+.1} psi are left over.",
        psi_from_pa(expected_gauge_pa),
        psi_from_pa(left_pa),
    ));
    let lasted = matches!(task.action, Move::StandingTest(span) if span.seconds() >= TEST_S);
    if !lasted {
        task.note("So short a test shows only a large hole.");
    }
    if lasted && left_pa >= -HELD_SHARE * first_pa {
        task.reached.push(Milestone::PressureTested);
    }
    task.outcome = Outcome::Read(reading);
}

fn open_hoses(visit: &mut Visit, task: &mut Task) {
    task.memo.mass_before_kg = visit.plant.ledger().vented_kg;
    on_both(visit, PortConnection::OpenHose { opening: 1.0 });
}

fn is_off(visit: &mut Visit, _: &mut Task) -> bool {
    let truth = visit.truth();
    truth.suction_pressure_pa.max(truth.liquid_pressure_pa) <= STANDARD_ATMOSPHERE_PA + OFF_PA
}

fn let_off(visit: &mut Visit, task: &mut Task) {
    if task.memo.goal_met == GoalMet::No {
        task.note("It still hisses; the gauges stand above zero.");
        return;
    }
    visit.site.circuit = Circuit::Opened;
    let vented_kg = visit.plant.ledger().vented_kg - task.memo.mass_before_kg;
    if vented_kg > visit.plant.left_by_recovery_kg() {
        task.hazards.push(Hazard::RefrigerantVented);
        task.note(format!(
            "{:.1} oz of refrigerant went with it: it had not been recovered.",
            media::units::oz_from_kg(vented_kg)
        ));
    }
    task.note("The gauges stand at zero. Nitrogen and air are in the circuit: evacuate before charging.");
}

fn start_pump(visit: &mut Visit, task: &mut Task) {
    if task.memo.steps_made == 0 {
        super::vacuum::mark_power(visit, task);
    }
    task.memo.steps_made += 1;
    on_both(visit, PortConnection::VacuumPump);
}

fn flushed(visit: &mut Visit, task: &mut Task) {
    visit.site.circuit = Circuit::Opened;
    let share = visit.plant.circuit_share_of_flammability_limit().unwrap_or_default();
    if share >= ALARM_SHARE && task.memo.steps_made < FLUSHES_MAX {
        task.next(flush());
        return;
    }
    task.note(format!(
        "Nitrogen to 50 psig and off, then {} times the vacuum pump and nitrogen again: what the oil gave off went with it.",
        task.memo.steps_made
    ));
    task.note(if share < ALARM_SHARE {
        "Five minutes after the last nitrogen the detector at the open hose stays far below the flammability limit."
    } else {
        "The detector at the open hose still sounds; there is too much refrigerant left for a flame."
    });
}

fn purged(visit: &mut Visit, task: &mut Task) {
    visit.site.circuit = Circuit::Opened;
    task.note("Three times up to 50 psig and off again: what refrigerant was left is thinned out.");
}
