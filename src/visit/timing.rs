//! What a move takes in time and money.
//!
//! Times are engineering values for a practised technician with the tools at hand; prices are those of our
//! own scenario. No source for either.

use call::Duration;

use crate::action::Move;
use crate::limits::WAIT_LIMIT_S;

/// Walking from indoors to the outdoor unit or back, s.
pub(crate) const WALK_S: f64 = 60.0;
/// Finding out that something cannot be done, s.
pub(crate) const REFUSED_S: f64 = 60.0;
/// Reading an instrument that is already in place, s.
pub(crate) const GLANCE_S: f64 = 15.0;
/// Hooking up machine, scale and hoses before recovery, evacuation or charging, s.
pub(crate) const HOOK_UP_S: f64 = 300.0;
/// Hooking up the nitrogen cylinder with its regulator, s.
pub(crate) const NITROGEN_HOOK_UP_S: f64 = 180.0;
/// Longest recovery, evacuation, s.
pub(crate) const MACHINE_LIMIT_S: f64 = 3600.0;
/// Watching the micron gauge with the pump valved off, s; less shows nothing (common practice, no source: ten minutes or more).
pub(crate) const DECAY_TEST_S: f64 = 600.0;
/// Longest charging, s.
pub(crate) const CHARGING_LIMIT_S: f64 = 1800.0;
/// Shortest run before a verification means anything, s: 15 minutes of settling as in the refrigerant
/// charge protocol of California Title 24 RA3.2 (2008).
pub(crate) const VERIFY_RUN_S: f64 = 900.0;
/// How much longer than its shortest run a verification waits for steadiness, s.
pub(crate) const VERIFY_PATIENCE_S: f64 = 300.0;

/// A filter.
pub(crate) const FILTER_COST: f64 = 15.0;
/// Metering device with drier.
pub(crate) const METERING_COST: f64 = 190.0;
/// Rod, nitrogen and fittings for closing a leak.
pub(crate) const REPAIR_COST: f64 = 60.0;
/// Fuse of the multimeter.
pub(crate) const METER_FUSE_COST: f64 = 8.0;
/// Strap and insulation.
pub(crate) const INSULATION_COST: f64 = 6.0;
/// Nitrogen of one filling.
pub(crate) const NITROGEN_COST: f64 = 8.0;
/// Refrigerant, per kg.
pub(crate) const REFRIGERANT_COST_PER_KG: f64 = 45.0;

/// Minutes that a move takes once the learner stands where it is made. For moves that end when an instrument
/// says so (recovery, evacuation, charging, verification) it is what they commonly take.
pub fn minutes(action: &Move) -> f64 {
    action.takes_s() / 60.0
}

/// What a move costs in parts and material, money of the price list. For moves that end when an instrument says so it is
/// what was asked for; nitrogen is left out.
pub fn price(action: &Move) -> f64 {
    action.row().price
}

/// A wait within its bounds, s, for display; what is out of bounds is refused when it is made.
pub(crate) fn clean_wait_s(span: Duration) -> f64 {
    let seconds = span.seconds();
    if seconds.is_finite() { seconds.clamp(0.0, WAIT_LIMIT_S) } else { 0.0 }
}
