//! The sensing bulb.

use call::Milestone;
use plant::{BulbHandling, Work};

use super::row::never;
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::Caution;
use crate::measured::Measured;
use crate::note::BulbNote;
use crate::place::{Panel, Port};
use crate::refusal::Refusal;
use crate::sight::Observation;
use crate::site::{BulbState, Gauges};
use crate::timing::INSULATION_COST;
use crate::visit::{Task, Visit, act, pass, until};

/// Rise of suction pressure that counts as an answer, Pa: about 2 psi, twice what one gauge can err in a difference
/// (engineering value). A valve that stands wide open in mild weather has little left to open.
const ANSWER_PA: f64 = 14.0e3;
/// A valve that meters to a bulb at 0 °C holds the coil at its superheat below that, some three kelvins; one that is stuck open keeps it
/// near the ice or above. Saturation at the suction gauge below which it counts as closed, K: 2 K below the ice (engineering value).
const CLOSED_BELOW_K: f64 = 271.15;
/// Getting the bulb off the line before it warms, s.
const UNSTRAP_S: f64 = 60.0;

/// The bulb in a warm hand.
pub(super) fn warm() -> Row {
    Row {
        at: At::Bulb,
        panel: Some((Panel::CoilCabinet, Refusal::BehindPanel(Panel::CoilCabinet))),
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 240.0,
        price: 0.0,
        caution: Some(Caution::SensingBulb),
        lacks: no_bulb,
        refusal: off_the_line,
        plan: |_, action| {
            vec![
                pass(UNSTRAP_S),
                act(take_in_hand),
                until(watch, action.takes_s() - UNSTRAP_S),
                act(judge_answer),
            ]
        },
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::TestsBulb,
    }
}

/// The bulb in ice and water.
pub(super) fn chill() -> Row {
    Row {
        at: At::Bulb,
        panel: Some((Panel::CoilCabinet, Refusal::BehindPanel(Panel::CoilCabinet))),
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 240.0,
        price: 0.0,
        caution: Some(Caution::SensingBulb),
        lacks: no_bulb,
        refusal: off_the_line,
        plan: |_, action| {
            vec![
                pass(UNSTRAP_S),
                act(put_into_ice_water),
                until(watch_it_fall, action.takes_s() - UNSTRAP_S),
                act(judge_fall),
            ]
        },
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::TestsBulb,
    }
}

/// The bulb back as it was.
pub(super) fn put_back_row() -> Row {
    Row {
        at: At::Bulb,
        panel: Some((Panel::CoilCabinet, Refusal::BehindPanel(Panel::CoilCabinet))),
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 180.0,
        price: 0.0,
        caution: Some(Caution::SensingBulb),
        lacks: no_bulb,
        refusal: |visit, _| (!visit.site.bulb.is_off_the_line()).then_some(Refusal::BulbOnLine),
        plan: |_, action| vec![pass(action.takes_s()), act(put_back)],
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::Prepares,
    }
}

/// The bulb strapped and insulated.
pub(super) fn insulate_row() -> Row {
    Row {
        at: At::Bulb,
        panel: Some((Panel::CoilCabinet, Refusal::BehindPanel(Panel::CoilCabinet))),
        hoses: None,
        dead: Dead::BlowerStands,
        values: Vec::new(),
        takes_s: 600.0,
        price: INSULATION_COST,
        caution: Some(Caution::SensingBulb),
        lacks: no_bulb,
        refusal: never,
        plan: |_, action| vec![pass(action.takes_s()), act(insulate)],
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::PartReplaced),
        circuit: OnCircuit::Untouched,
        effect: Effect::Repairs,
    }
}

fn no_bulb(visit: &Visit, _: &Move) -> Option<Refusal> {
    (!visit.has_bulb()).then_some(Refusal::NoBulb)
}

fn off_the_line(visit: &Visit, _: &Move) -> Option<Refusal> {
    visit.site.bulb.is_off_the_line().then_some(Refusal::BulbOffLine)
}

fn suction_gauge_pa(visit: &Visit, task: &Task) -> Option<f64> {
    if visit.site.gauges == Gauges::Off || !visit.compressor_runs() {
        return None;
    }
    visit.read(Measured::GaugePressure(Port::Suction), task.number).map(|reading| reading.value)
}

fn take_in_hand(visit: &mut Visit, task: &mut Task) {
    task.memo.pressure_before_pa = suction_gauge_pa(visit, task);
    task.memo.pressure_peak_pa = f64::NEG_INFINITY;
    visit.site.bulb = BulbState::InHand;
    visit.inputs.bulb = BulbHandling::HeldInHand;
}

/// Never ends the wait early: the whole time is watched.
fn watch(visit: &mut Visit, task: &mut Task) -> bool {
    if let Some(pressure_pa) = suction_gauge_pa(visit, task) {
        task.memo.pressure_peak_pa = task.memo.pressure_peak_pa.max(pressure_pa);
    }
    false
}

fn judge_answer(visit: &mut Visit, task: &mut Task) {
    let (Some(before_pa), true) = (task.memo.pressure_before_pa, visit.compressor_runs()) else {
        tell_why_nothing_was_seen(visit, task);
        return;
    };
    let rise_difference_pa = task.memo.pressure_peak_pa - before_pa;
    if rise_difference_pa > ANSWER_PA {
        task.note(BulbNote::ValveOpens { rise_difference_pa });
        task.see(vec![Observation::BulbAnswered]);
    } else {
        task.note(BulbNote::NoRise);
        task.see(vec![Observation::BulbDidNotAnswer]);
    }
    task.note(BulbNote::InHand);
}

fn put_into_ice_water(visit: &mut Visit, task: &mut Task) {
    task.memo.pressure_before_pa = suction_gauge_pa(visit, task);
    task.memo.pressure_least_pa = f64::INFINITY;
    visit.site.bulb = BulbState::InIceWater;
    visit.inputs.bulb = BulbHandling::InIceWater;
}

/// Never ends the wait early either.
fn watch_it_fall(visit: &mut Visit, task: &mut Task) -> bool {
    if let Some(pressure_pa) = suction_gauge_pa(visit, task) {
        task.memo.pressure_least_pa = task.memo.pressure_least_pa.min(pressure_pa);
    }
    false
}

/// Saturation at a reading of the suction gauge, K.
fn dew_k(visit: &Visit, gauge_pa: f64) -> f64 {
    let pressure_pa = media::units::absolute_pa_from_gauge_pa(gauge_pa, media::units::STANDARD_ATMOSPHERE_PA);
    visit.plant.system().refrigerant.tables().dew_k(pressure_pa)
}

/// Without a gauge reading from before there is nothing to hold the answer against.
fn tell_why_nothing_was_seen(visit: &Visit, task: &mut Task) {
    task.note(if visit.site.gauges == Gauges::Off {
        BulbNote::NoGauges
    } else if visit.compressor_runs() {
        BulbNote::StartedMeanwhile
    } else {
        BulbNote::CompressorOff
    });
    task.see(Vec::new());
}

fn judge_fall(visit: &mut Visit, task: &mut Task) {
    let least_pa = task.memo.pressure_least_pa;
    let Some(before_pa) = task.memo.pressure_before_pa.filter(|_| least_pa.is_finite()) else {
        tell_why_nothing_was_seen(visit, task);
        return;
    };
    let fall_difference_pa = (before_pa - least_pa).max(0.0);
    if dew_k(visit, before_pa) < CLOSED_BELOW_K {
        // Ice on the coil, too little air or too little refrigerant.
        task.note(BulbNote::AsLowBefore);
        task.see(Vec::new());
    } else if dew_k(visit, least_pa) < CLOSED_BELOW_K {
        task.note(BulbNote::ValveCloses { fall_difference_pa });
        task.see(vec![Observation::ChilledBulbClosedValve]);
    } else if visit.compressor_runs() {
        task.note(BulbNote::DoesNotClose { fall_difference_pa });
        task.see(vec![Observation::ChilledBulbDidNotCloseValve]);
    } else {
        task.note(BulbNote::WentOff);
        task.see(Vec::new());
    }
    task.note(BulbNote::InIceWater);
}

fn put_back(visit: &mut Visit, task: &mut Task) {
    visit.site.bulb = BulbState::AsFound;
    visit.inputs.bulb = BulbHandling::AsInstalled;
    task.note(BulbNote::PutBack);
}

fn insulate(visit: &mut Visit, task: &mut Task) {
    visit.inputs.bulb = BulbHandling::AsInstalled;
    let outcome = visit.plant.apply(Work::StrapAndInsulateBulb);
    visit.site.bulb = BulbState::Strapped;
    visit.site.cost += INSULATION_COST;
    task.note(BulbNote::Insulated);
    task.see(super::leak::part(&outcome));
}
