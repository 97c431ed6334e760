//! Nitrogen: the standing pressure test, and purging.

use call::{Duration, Milestone, Pressure};
use media::units::{STANDARD_ATMOSPHERE_PA, pa_from_psig};
use plant::PortConnection;

use super::area::ALARM_SHARE;
use super::row::never;
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::{Caution, Hazard};
use crate::limits::Value;
use crate::measured::Measured;
use crate::note::NitrogenNote;
use crate::notebook::Outcome;
use crate::place::{AirPoint, Bulb, Location, Port};
use crate::refusal::Refusal;
use crate::site::Circuit;
use crate::timing::{NITROGEN_COST, NITROGEN_HOOK_UP_S, clean_wait_s};
use crate::visit::{GoalMet, Step, Task, Visit, act, pass, until};

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
/// Less than this no gauge shows, Pa: half a step of its display.
const SHOWN_PA: f64 = 350.0;

/// Nitrogen on, up to a pressure.
pub(super) fn pressurize(to: Pressure) -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: vec![Value::test_pressure(to)],
        takes_s: NITROGEN_HOOK_UP_S + 900.0,
        price: 0.0,
        caution: Some(Caution::Nitrogen),
        lacks: never,
        refusal: still_holds_refrigerant,
        plan: |_, _| {
            vec![
                pass(NITROGEN_HOOK_UP_S),
                act(open_regulator),
                until(is_up, FLOW_LIMIT_S),
                act(close_valves),
                pass(SETTLE_S),
                act(tell_pressure),
            ]
        },
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::ChangesContents,
    }
}

/// The gauge watched while nitrogen stands.
pub(super) fn standing_test(span: Duration) -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: vec![Value::wait(span, Refusal::TestOutOfRange)],
        takes_s: clean_wait_s(span),
        price: 0.0,
        caution: Some(Caution::Nitrogen),
        lacks: never,
        refusal: no_nitrogen,
        plan: |_, action| vec![act(first_reading), pass(action.takes_s()), act(last_reading)],
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::PressureTested),
        circuit: OnCircuit::Untouched,
        effect: Effect::Serves,
    }
}

/// Nitrogen let off.
pub(super) fn vent() -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 300.0,
        price: 0.0,
        caution: Some(Caution::BleedNitrogen),
        lacks: never,
        refusal: no_nitrogen,
        plan: |_, _| vec![act(open_hoses), until(is_off, FLOW_LIMIT_S), act(close_valves), act(let_off)],
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::LetsOff,
        effect: Effect::Serves,
    }
}

/// Nitrogen on and off; a circuit that burns is flushed, which takes three times as long.
pub(super) fn purge() -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: Some(Refusal::NoHoses),
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: NITROGEN_HOOK_UP_S + 660.0,
        price: 0.0,
        caution: Some(Caution::Nitrogen),
        lacks: never,
        refusal: still_holds_refrigerant,
        plan: |_, _| vec![pass(NITROGEN_HOOK_UP_S), act(start_purging)],
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::LetsOff,
        effect: Effect::Serves,
    }
}

fn still_holds_refrigerant(visit: &Visit, _: &Move) -> Option<Refusal> {
    (visit.site.circuit == Circuit::Charged).then_some(Refusal::RefrigerantInCircuit)
}

fn no_nitrogen(visit: &Visit, _: &Move) -> Option<Refusal> {
    (visit.site.circuit != Circuit::UnderNitrogen).then_some(Refusal::NoNitrogen)
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
        task.note(NitrogenNote::AbovePlate { plate_gauge_pa: design_pa });
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
    task.note(NitrogenNote::Shut { shown_gauge_pa: reading.value });
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
    task.note(NitrogenNote::Stood { first_gauge_pa, first_k, last_gauge_pa: reading.value, last_k });
    task.note(if left_pa.abs() < SHOWN_PA {
        NitrogenNote::NoDrop { expected_gauge_pa }
    } else if left_pa < 0.0 {
        NitrogenNote::Dropped { expected_gauge_pa, drop_difference_pa: -left_pa }
    } else {
        NitrogenNote::Rose { expected_gauge_pa, rise_difference_pa: left_pa }
    });
    let lasted = matches!(task.action, Move::StandingTest(span) if span.seconds() >= TEST_S);
    if !lasted {
        task.note(NitrogenNote::TooShort);
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
        task.note(NitrogenNote::StillHisses);
        return;
    }
    visit.site.circuit = Circuit::Opened;
    let vented_kg = visit.plant.ledger().vented_kg - task.memo.mass_before_kg;
    if vented_kg > visit.plant.left_by_recovery_kg() {
        task.hazards.push(Hazard::RefrigerantVented);
        task.note(NitrogenNote::RefrigerantWent { vented_kg });
    }
    task.note(NitrogenNote::AtZero);
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
    task.note(NitrogenNote::Flushed { times: task.memo.steps_made });
    task.note(if share < ALARM_SHARE { NitrogenNote::DetectorSilent } else { NitrogenNote::DetectorSounds });
}

fn purged(visit: &mut Visit, task: &mut Task) {
    visit.site.circuit = Circuit::Opened;
    task.note(NitrogenNote::Purged);
}
