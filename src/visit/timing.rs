//! What a move takes in time and money.
//!
//! Times are engineering values for a practised technician with the tools at hand; prices are those of our
//! own scenario. No source for either.

use crate::limits::WAIT_LIMIT_S;
use crate::mend::job;
use crate::moves::{LeakMethod, Move};

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
    base_s(action) / 60.0
}

/// What a move costs in parts and material, money of the price list. For moves that end when an instrument says so it is
/// what was asked for; nitrogen is left out.
pub fn price(action: &Move) -> f64 {
    match action {
        Move::ReplaceFilter => FILTER_COST,
        Move::InsulateBulb => INSULATION_COST,
        Move::ReplaceMeteringDevice => METERING_COST,
        Move::RepairLeak(_) => REPAIR_COST,
        Move::Mend(work) => job(*work).map_or(0.0, |job| job.cost),
        Move::WeighIn(mass) | Move::AddRefrigerant(mass) | Move::AddVapor(mass) => {
            mass.kilograms() * REFRIGERANT_COST_PER_KG
        }
        _ => 0.0,
    }
}

/// Minutes of a move where it is made, in s.
pub(crate) fn base_s(action: &Move) -> f64 {
    match action {
        Move::Look(_) | Move::Ask(_) | Move::ReadDataPlate => 60.0,
        Move::SetThermostat { .. } => 30.0,
        Move::OutdoorDisconnect(_) | Move::IndoorServiceSwitch(_) => 30.0,
        Move::OpenPanel(_) | Move::ClosePanel(_) => 120.0,
        Move::InspectFilter => 120.0,
        Move::ReplaceFilter => 180.0,
        Move::WatchBlower => 60.0,
        Move::MeasureVoltage { .. } | Move::ClampCurrent(_) => 60.0,
        Move::MeasureResistance { .. } | Move::MeasureCapacitance { .. } => 120.0,
        Move::ConnectGauges => 240.0,
        Move::DisconnectGauges => 180.0,
        Move::ReadGauge(_) => GLANCE_S,
        Move::ReadPipe(_) => 90.0,
        Move::ReadAir(_, crate::moves::Bulb::Dry) => 90.0,
        Move::ReadAir(_, crate::moves::Bulb::Wet) => 150.0,
        Move::WarmBulb | Move::ChillBulb => 240.0,
        Move::PutBulbBack => 180.0,
        Move::InsulateBulb => 600.0,
        Move::SearchLeak(_, LeakMethod::ElectronicDetector) => 600.0,
        Move::SearchLeak(_, LeakMethod::Bubbles) => 480.0,
        // Some thirty minutes of the machine on three tons, and twice five of watching the gauges.
        Move::Recover | Move::RecoverTo(_) => HOOK_UP_S + 2400.0,
        Move::RemoveRefrigerant(_) => HOOK_UP_S + 120.0,
        Move::PressurizeWithNitrogen(_) => NITROGEN_HOOK_UP_S + 900.0,
        Move::StandingTest(duration) => clean_wait_s(duration.seconds()),
        Move::VentNitrogen => 300.0,
        // A circuit that burns is flushed: three times as long.
        Move::PurgeWithNitrogen => NITROGEN_HOOK_UP_S + 660.0,
        Move::EvacuateTo { within, .. } | Move::ChargeTo { within, .. } => clean_wait_s(within.seconds()),
        Move::DecayTest(duration) => clean_wait_s(duration.seconds()),
        Move::ChangeCylinder(_) => 240.0,
        Move::MakeAreaSafe(_) => 300.0,
        Move::RepairLeak(_) => 3600.0,
        Move::ReplaceMeteringDevice => 5400.0,
        Move::Mend(work) => job(*work).map_or(REFUSED_S, |job| job.minutes * 60.0),
        Move::DischargeCapacitor(_) => 60.0,
        Move::Evacuate => HOOK_UP_S + 1500.0 + DECAY_TEST_S,
        Move::WeighIn(_) => HOOK_UP_S + 600.0,
        Move::AddRefrigerant(_) => HOOK_UP_S + 300.0,
        Move::AddVapor(_) => HOOK_UP_S + 900.0,
        Move::Wait(duration) => clean_wait_s(duration.seconds()),
        Move::Declare(_) => 120.0,
        Move::Verify => VERIFY_RUN_S + 120.0,
        Move::CloseTicket => 300.0,
    }
}

/// A wait within its bounds, for display; what is out of bounds is refused when it is made.
fn clean_wait_s(seconds: f64) -> f64 {
    if seconds.is_finite() { seconds.clamp(0.0, WAIT_LIMIT_S) } else { 0.0 }
}
