//! What the state of the site forbids of service on the refrigerant circuit, as facts.

use plant::Switch;

use crate::forbid::forbids_mass;
use crate::limits::{is_charge_target, is_recovery_depth, is_test_pressure, is_vacuum, is_wait};
use crate::moves::Move;
use crate::notebook::Measured;
use crate::refusal::Refusal;
use crate::site::Circuit;
use crate::visit::Visit;

/// Highest pressure at which a vacuum is watched, Pa absolute: the micron gauge's range.
const VACUUM_PA: f64 = 20.0e3;

impl Visit {
    /// Why a service move cannot be made now; `None` if it can.
    pub(crate) fn forbids_service(&self, action: &Move) -> Option<Refusal> {
        if let Some(reason) = self.no_gauges(Refusal::NoHoses) {
            return Some(reason);
        }
        match action {
            Move::RecoverTo(depth) => self.forbids_recovery(depth.absolute_pa()),
            Move::RemoveRefrigerant(mass) => {
                if let Some(reason) = forbids_mass(*mass) {
                    return Some(reason);
                }
                self.forbids_recovery(media::units::STANDARD_ATMOSPHERE_PA)
            }
            Move::PressurizeWithNitrogen(pressure) => {
                if is_test_pressure(pressure.gauge_pa()) {
                    self.forbids_nitrogen()
                } else {
                    Some(Refusal::RegulatorOutOfRange)
                }
            }
            Move::PurgeWithNitrogen => self.forbids_nitrogen(),
            Move::VentNitrogen | Move::StandingTest(_) if self.site.circuit != Circuit::UnderNitrogen => {
                Some(Refusal::NoNitrogen)
            }
            Move::StandingTest(span) if !is_wait(span.seconds()) => Some(Refusal::TestOutOfRange),
            Move::EvacuateTo { target, within } => {
                if !is_vacuum(target.absolute_pa()) {
                    Some(Refusal::VacuumOutOfRange)
                } else if is_wait(within.seconds()) {
                    self.forbids_vacuum()
                } else {
                    Some(Refusal::EvacuationOutOfRange)
                }
            }
            Move::DecayTest(span) => self.forbids_decay_test(span.seconds()),
            Move::ChargeTo { by, target, at_most, within } => {
                if let Some(reason) = forbids_mass(*at_most) {
                    return Some(reason);
                }
                let (_, pipe) = by.measured_at();
                if !is_wait(within.seconds()) {
                    Some(Refusal::ChargingOutOfRange)
                } else if !is_charge_target(target.kelvin()) {
                    Some(Refusal::TargetOutOfRange)
                } else if !self.is_attached(Measured::PipeTemperature(pipe)) {
                    Some(Refusal::NoThermometer(pipe))
                } else {
                    self.forbids_charging_a_running_system()
                }
            }
            _ => None,
        }
    }

    fn forbids_recovery(&self, down_to_pa: f64) -> Option<Refusal> {
        if self.recovery_cylinder_is_full() {
            return Some(Refusal::RecoveryCylinderFull);
        }
        if !is_recovery_depth(down_to_pa) {
            return Some(Refusal::RecoveryOutOfRange);
        }
        match self.site.circuit {
            Circuit::Charged => None,
            Circuit::Recovered if down_to_pa < media::units::STANDARD_ATMOSPHERE_PA - 1.0 => None,
            _ => Some(Refusal::NothingToRecover),
        }
    }

    fn forbids_nitrogen(&self) -> Option<Refusal> {
        (self.site.circuit == Circuit::Charged).then_some(Refusal::RefrigerantInCircuit)
    }

    fn forbids_decay_test(&self, seconds: f64) -> Option<Refusal> {
        if !is_wait(seconds) {
            return Some(Refusal::TestOutOfRange);
        }
        let truth = self.truth();
        (truth.suction_pressure_pa.max(truth.liquid_pressure_pa) > VACUUM_PA)
            .then_some(Refusal::NoVacuumToWatch)
    }

    fn forbids_charging_a_running_system(&self) -> Option<Refusal> {
        if self.site.circuit != Circuit::Charged {
            Some(Refusal::NoChargeToAdjust)
        } else if self.charging_cylinder_is_empty() {
            Some(Refusal::ChargingCylinderEmpty)
        } else if self.recovery_cylinder_is_full() {
            Some(Refusal::RecoveryCylinderFull)
        } else if self.inputs.outdoor_disconnect == Switch::Open || !self.compressor_runs() {
            Some(Refusal::CompressorOff)
        } else {
            None
        }
    }
}
