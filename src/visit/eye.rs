//! What an eye can rest on, and how much of it there is.

use plant::{FaultKind, Inputs, Plant, Terminal};

use crate::place::Panel;
use crate::site::Site;

/// Share of the coil under ice, and of its air passages closed, from which it is a block.
const BLOCK_ICED_SHARE: f64 = 0.6;
const BLOCK_OPEN_SHARE: f64 = 0.5;
/// Below this share of its running speed a wheel counts as standing.
pub(crate) const STILL_SPEED: f64 = 0.2;
/// Voltage below which a contactor coil has no call, V.
const NO_CALL_V: f64 = 5.0;

/// The equipment before an eye.
#[derive(Clone, Copy)]
pub(crate) struct Eye<'a> {
    pub plant: &'a Plant,
    pub inputs: &'a Inputs,
    pub site: &'a Site,
}

impl Eye<'_> {
    /// Whether what lies on the fins shows with the cabinet open: a block of ice hides it.
    pub(crate) fn sees_coil_face(&self) -> bool {
        let truth = self.plant.readout();
        truth.iced_share < BLOCK_ICED_SHARE || truth.open_share > BLOCK_OPEN_SHARE
    }

    /// Whether the blades of the blower wheel can be seen: behind an open panel, and if it does not turn.
    pub(crate) fn sees_blades(&self) -> bool {
        self.site.is_open(Panel::BlowerCompartment) && self.plant.readout().blower_speed <= STILL_SPEED
    }

    /// Whether the contactor can be seen while nothing calls.
    pub(crate) fn sees_contactor_without_call(&self) -> bool {
        let coil_v = self.plant.voltage_v(self.inputs, Terminal::ContactorCoilY, Terminal::ContactorCoilC);
        self.sees_outdoor_wiring() && coil_v < NO_CALL_V
    }

    /// Whether the panel before the wiring of the outdoor unit is off.
    pub(crate) fn sees_outdoor_wiring(&self) -> bool {
        self.site.is_open(Panel::OutdoorElectrical)
    }

    /// Severity of a kind of fault that has set in if it can be seen now, or else 0.
    pub(crate) fn severity_if(&self, is_seen: impl Fn(&Self) -> bool, kind: FaultKind) -> f64 {
        if is_seen(self) { self.severity_of(kind) } else { 0.0 }
    }

    /// Severity of a kind of fault that has set in, 0 if there is none.
    pub(crate) fn severity_of(&self, kind: FaultKind) -> f64 {
        let time_s = self.plant.time_s();
        self.plant
            .faults()
            .iter()
            .filter(|fault| fault.kind == kind && fault.onset_s <= time_s)
            .map(|fault| fault.severity)
            .fold(0.0, f64::max)
    }
}
