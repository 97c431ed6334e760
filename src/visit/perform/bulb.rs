//! The sensing bulb.

use plant::{BulbHandling, Work};
use serde::{Deserialize, Serialize};

use super::{Step, Task, act, pass, until};
use crate::moves::{Move, Port};
use crate::notebook::Measured;
use crate::sight::Observation;
use crate::site::{BulbState, Gauges};
use crate::timing::{INSULATION_COST, base_s};
use crate::visit::Visit;

/// Rise of suction pressure that counts as an answer, Pa: about 2 psi, twice what one gauge can err in a difference
/// (engineering value). A valve that stands wide open in mild weather has little left to open.
const ANSWER_PA: f64 = 14.0e3;
/// A valve that meters to a bulb at 0 °C holds the coil at its superheat below that, some three kelvins; one that is stuck open keeps it
/// near the ice or above. Saturation at the suction gauge below which it counts as closed, K: 2 K below the ice (engineering value).
const CLOSED_BELOW_K: f64 = 271.15;
/// Getting the bulb off the line before it warms, s.
const UNSTRAP_S: f64 = 60.0;

/// What the sensing bulb and the suction gauge show together.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum BulbNote {
    /// Suction pressure climbs while the bulb warms.
    ValveOpens {
        /// By how much, Pa.
        rise_difference_pa: f64,
    },
    /// It does not.
    NoRise,
    /// The bulb is still in the hand.
    InHand,
    /// Without gauges nothing is seen.
    NoGauges,
    /// The compressor started only meanwhile.
    StartedMeanwhile,
    /// The compressor is off, so the valve has nothing to answer with.
    CompressorOff,
    /// Suction pressure was as low before as a closed valve would hold it.
    AsLowBefore,
    /// Suction pressure falls to a coil below freezing.
    ValveCloses {
        /// By how much, Pa.
        fall_difference_pa: f64,
    },
    /// It stays above what a bulb in ice asks for.
    DoesNotClose {
        /// By how much it fell, Pa.
        fall_difference_pa: f64,
    },
    /// The compressor went off before anything had been told.
    WentOff,
    /// The bulb is still in the ice water.
    InIceWater,
    /// It is back on the line as it was found.
    PutBack,
    /// It is strapped and wrapped.
    Insulated,
    /// The hand was needed elsewhere; the bulb hangs off the line.
    LetGo,
}

pub(super) fn plan(action: &Move) -> Vec<Step> {
    match action {
        Move::WarmBulb => vec![
            pass(UNSTRAP_S),
            act(take_in_hand),
            until(watch, base_s(action) - UNSTRAP_S),
            act(judge_answer),
        ],
        Move::ChillBulb => vec![
            pass(UNSTRAP_S),
            act(put_into_ice_water),
            until(watch_it_fall, base_s(action) - UNSTRAP_S),
            act(judge_fall),
        ],
        Move::PutBulbBack => vec![pass(base_s(action)), act(put_back)],
        _ => vec![pass(base_s(action)), act(insulate)],
    }
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
