//! What the state of the site forbids of service on the refrigerant circuit, in the words of a person.

use plant::Switch;

use crate::forbid::{CYLINDER_EMPTY, CYLINDER_FULL, NO_HOSES, NOTHING_LEFT, forbids_mass};
use crate::limits::{is_charge_target, is_recovery_depth, is_test_pressure, is_vacuum, is_wait};
use crate::moves::Move;
use crate::notebook::Measured;
use crate::site::Circuit;
use crate::visit::Visit;

/// Highest pressure at which a vacuum is watched, Pa absolute: the micron gauge's range.
const VACUUM_PA: f64 = 20.0e3;

impl Visit {
    /// Why a service move cannot be made now; `None` if it can.
    pub(crate) fn forbids_service(&self, action: &Move) -> Option<String> {
        if let Some(reason) = self.no_gauges(NO_HOSES) {
            return Some(reason.to_owned());
        }
        let reason = match action {
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
                    Some("The regulator can be set from nothing to 650 psig (4.5 MPa).")
                }
            }
            Move::PurgeWithNitrogen => self.forbids_nitrogen(),
            Move::VentNitrogen | Move::StandingTest(_) if self.site.circuit != Circuit::UnderNitrogen => {
                Some("There is no nitrogen on the circuit.")
            }
            Move::StandingTest(span) if !is_wait(span.seconds()) => {
                Some("A test lasts longer than nothing and no longer than 12 hours.")
            }
            Move::EvacuateTo { target, within } => {
                if !is_vacuum(target.absolute_pa()) {
                    Some("A pump reaches 25 micron (3 Pa) at best, and starts at atmospheric pressure.")
                } else if is_wait(within.seconds()) {
                    return self.forbids_vacuum();
                } else {
                    Some("An evacuation lasts longer than nothing and no longer than 12 hours.")
                }
            }
            Move::DecayTest(span) => self.forbids_decay_test(span.seconds()),
            Move::ChargeTo { by, target, at_most, within } => {
                if let Some(reason) = forbids_mass(*at_most) {
                    return Some(reason);
                }
                let (_, pipe) = by.measured_at();
                if !is_wait(within.seconds()) {
                    Some("Charging lasts longer than nothing and no longer than 12 hours.")
                } else if !is_charge_target(target.kelvin()) {
                    Some("A charge is adjusted to between 1 and 72 °F (0.5 and 40 K).")
                } else if !self.is_attached(Measured::PipeTemperature(pipe)) {
                    return Some(format!(
                        "No thermometer is clamped on the {}; read it once first.",
                        pipe.label()
                    ));
                } else {
                    self.forbids_charging_a_running_system()
                }
            }
            _ => None,
        };
        reason.map(str::to_owned)
    }

    fn forbids_recovery(&self, down_to_pa: f64) -> Option<&'static str> {
        if self.recovery_cylinder_is_full() {
            return Some(CYLINDER_FULL);
        }
        if !is_recovery_depth(down_to_pa) {
            return Some(
                "The machine recovers down to 28 inches of mercury below atmospheric pressure at best.",
            );
        }
        match self.site.circuit {
            Circuit::Charged => None,
            Circuit::Recovered if down_to_pa < media::units::STANDARD_ATMOSPHERE_PA - 1.0 => None,
            _ => Some(NOTHING_LEFT),
        }
    }

    fn forbids_nitrogen(&self) -> Option<&'static str> {
        (self.site.circuit == Circuit::Charged)
            .then_some("There is refrigerant in the circuit, and nitrogen would spoil it. Recover first.")
    }

    fn forbids_decay_test(&self, seconds: f64) -> Option<&'static str> {
        if !is_wait(seconds) {
            return Some("A test lasts longer than nothing and no longer than 12 hours.");
        }
        let truth = self.truth();
        (truth.suction_pressure_pa.max(truth.liquid_pressure_pa) > VACUUM_PA)
            .then_some("There is no vacuum on the circuit to watch.")
    }

    fn forbids_charging_a_running_system(&self) -> Option<&'static str> {
        if self.site.circuit != Circuit::Charged {
            Some("There is no charge in the circuit to adjust; weigh it in.")
        } else if self.charging_cylinder_is_empty() {
            Some(CYLINDER_EMPTY)
        } else if self.recovery_cylinder_is_full() {
            Some(CYLINDER_FULL)
        } else if self.inputs.outdoor_disconnect == Switch::Open || !self.compressor_runs() {
            Some("The compressor stands; a charge is adjusted on the running system.")
        } else {
            None
        }
    }
}
