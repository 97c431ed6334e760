//! Parts and jobs: where a piece of work is done, what must be open and dead for it, what it takes and tells.

use plant::{BlowerKind, Capacitor, Switch, Work};

use crate::moves::{Panel, Place};
use crate::refusal::Refusal;
use crate::visit::Visit;

/// Charge of a capacitor that a person feels badly, V (engineering value, common practice).
pub(crate) const DANGEROUS_CHARGE_V: f64 = 50.0;

/// A job that has a price and a place. Minutes are engineering values for a practised technician with the part at
/// hand; prices are those of our own scenario. No source for either.
pub(crate) struct Job {
    /// Where it is done; the first decides on which side of the wall.
    pub places: &'static [Place],
    /// What must be open.
    pub panel: Option<Panel>,
    /// What must be dead.
    pub power: Power,
    pub minutes: f64,
    pub cost: f64,
}

/// What must be dead for a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Power {
    /// Nothing.
    Any,
    /// The air handler.
    IndoorOff,
    /// The outdoor unit.
    OutdoorOff,
}

/// The job of a piece of work; `None` for those that have a move of their own.
pub(crate) fn job(work: Work) -> Option<Job> {
    use Panel::{BlowerCompartment, CoilCabinet, OutdoorElectrical};
    use Power::{Any, IndoorOff, OutdoorOff};
    Some(match work {
        Work::ReplaceFilter
        | Work::StrapAndInsulateBulb
        | Work::ReplaceMeteringDevice
        | Work::RepairLeak(_) => return None,
        Work::CleanCoil => Job {
            places: &[Place::IndoorCoil],
            panel: Some(CoilCabinet),
            power: IndoorOff,
            minutes: 60.0,
            cost: 35.0,
        },
        Work::PeelFilterMedium => Job {
            places: &[Place::IndoorCoil],
            panel: Some(CoilCabinet),
            power: IndoorOff,
            minutes: 15.0,
            cost: 0.0,
        },
        Work::RestoreReturnDuct => {
            Job { places: &[Place::ReturnGrille], panel: None, power: Any, minutes: 75.0, cost: 45.0 }
        }
        Work::OpenSupplies => {
            Job { places: &[Place::SupplyRegister], panel: None, power: Any, minutes: 15.0, cost: 0.0 }
        }
        Work::CleanBlowerWheel => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 75.0,
            cost: 10.0,
        },
        Work::SetSpeedTap => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 15.0,
            cost: 0.0,
        },
        Work::ReplaceBlowerCapacitor => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 20.0,
            cost: 22.0,
        },
        Work::ReplaceBlowerMotor => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 105.0,
            cost: 320.0,
        },
        Work::ReplaceBlowerModule => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 40.0,
            cost: 240.0,
        },
        Work::ReconnectBlowerCommand => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 25.0,
            cost: 12.0,
        },
        Work::ReplaceBoard => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 45.0,
            cost: 160.0,
        },
        Work::ReplaceThermostat => {
            Job { places: &[Place::Thermostat], panel: None, power: Any, minutes: 30.0, cost: 80.0 }
        }
        Work::RepairConductor => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            power: Any,
            minutes: 45.0,
            cost: 15.0,
        },
        Work::ReplaceControlFuse => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 5.0,
            cost: 3.0,
        },
        Work::ReplaceTransformer => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 40.0,
            cost: 38.0,
        },
        Work::RestoreCondensateSwitch => Job {
            places: &[Place::ControlBoard, Place::IndoorCoil],
            panel: Some(CoilCabinet),
            power: Any,
            minutes: 35.0,
            cost: 18.0,
        },
        Work::ReplaceContactor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            power: OutdoorOff,
            minutes: 30.0,
            cost: 32.0,
        },
        Work::ReplaceDrier => {
            Job { places: &[Place::Drier], panel: None, power: OutdoorOff, minutes: 60.0, cost: 55.0 }
        }
        Work::ReplaceLiquidLine => {
            Job { places: &[Place::LineSet], panel: None, power: OutdoorOff, minutes: 75.0, cost: 70.0 }
        }
        Work::ReplaceSuctionLine => {
            Job { places: &[Place::LineSet], panel: None, power: OutdoorOff, minutes: 90.0, cost: 95.0 }
        }
        Work::CleanCondenser => {
            Job { places: &[Place::OutdoorUnit], panel: None, power: OutdoorOff, minutes: 45.0, cost: 18.0 }
        }
        Work::ReplaceFanCapacitor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            power: OutdoorOff,
            minutes: 20.0,
            cost: 24.0,
        },
        Work::ReplaceFanMotor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            power: OutdoorOff,
            minutes: 75.0,
            cost: 190.0,
        },
        Work::ReplaceCompressorCapacitor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            power: OutdoorOff,
            minutes: 20.0,
            cost: 28.0,
        },
        Work::ReplaceCompressor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            power: OutdoorOff,
            minutes: 240.0,
            cost: 1150.0,
        },
    })
}

/// What the own move of a piece of work is called, for those that have no job.
pub(crate) fn own_move(work: Work) -> &'static str {
    match work {
        Work::ReplaceFilter => "ReplaceFilter",
        Work::StrapAndInsulateBulb => "InsulateBulb",
        Work::ReplaceMeteringDevice => "ReplaceMeteringDevice",
        Work::RepairLeak(_) => "RepairLeak",
        _ => "Mend",
    }
}

/// The capacitor that a piece of work takes out.
pub(crate) fn capacitor_of(work: Work) -> Option<Capacitor> {
    match work {
        Work::ReplaceBlowerCapacitor => Some(Capacitor::Blower),
        Work::ReplaceFanCapacitor => Some(Capacitor::OutdoorFan),
        Work::ReplaceCompressorCapacitor => Some(Capacitor::Compressor),
        _ => None,
    }
}

impl Visit {
    /// Jobs at a place, of parts that this system has.
    pub(crate) fn jobs_at(&self, place: Place) -> Vec<Work> {
        Work::PARTS
            .into_iter()
            .filter(|work| job(*work).is_some_and(|job| job.places.contains(&place)))
            .filter(|work| self.part_is_missing(*work).is_none())
            .collect()
    }

    /// The refusal if this system has no such part.
    pub(crate) fn part_is_missing(&self, work: Work) -> Option<Refusal> {
        match (work, self.plant.blower_kind()) {
            (Work::ReplaceBlowerCapacitor, BlowerKind::Ecm) => Some(Refusal::EcmHasNoRunCapacitor),
            (Work::ReplaceBlowerModule, BlowerKind::Psc) => Some(Refusal::PscHasNoModule),
            (Work::ReconnectBlowerCommand, BlowerKind::Psc) => Some(Refusal::PscHasNoHarness),
            _ => None,
        }
    }

    /// Whether what must be dead for a job is dead.
    pub(crate) fn is_dead(&self, power: Power) -> bool {
        match power {
            Power::Any => true,
            Power::IndoorOff => self.inputs.indoor_service_switch == Switch::Open,
            Power::OutdoorOff => self.inputs.outdoor_disconnect == Switch::Open,
        }
    }
}
