//! Parts and jobs: where a piece of work is done, what must be open and dead for it, what it takes and tells.

use plant::{BlowerKind, Capacitor, Switch, Work};

use crate::moves::{Panel, Place};
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
    /// Imperative, sentence case.
    pub label: &'static str,
    /// What was done.
    pub done: &'static str,
    /// What the old part or the place showed if it had been faulty, and if not.
    pub faulty: &'static str,
    pub sound: &'static str,
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
            label: "Wash the indoor coil",
            done: "The coil is washed and rinsed.",
            faulty: "A felt of lint came off its face.",
            sound: "The water ran off as clear as it went on.",
        },
        Work::PeelFilterMedium => Job {
            places: &[Place::IndoorCoil],
            panel: Some(CoilCabinet),
            power: IndoorOff,
            minutes: 15.0,
            cost: 0.0,
            label: "Peel the filter medium off the coil face",
            done: "The face is bare again; what lay on it is in the bag.",
            faulty: "It came off in strips, grey and thick with lint.",
            sound: "There was nothing on it.",
        },
        Work::RestoreReturnDuct => Job {
            places: &[Place::ReturnGrille],
            panel: None,
            power: Any,
            minutes: 75.0,
            cost: 45.0,
            label: "Hang and seal the return duct",
            done: "The return duct hangs in its straps, its joints sealed.",
            faulty: "It had sagged and fallen in on itself.",
            sound: "It stood open all along before you touched it.",
        },
        Work::OpenSupplies => Job {
            places: &[Place::SupplyRegister],
            panel: None,
            power: Any,
            minutes: 15.0,
            cost: 0.0,
            label: "Open and clear the supply registers",
            done: "You have walked every room; all registers stand open and clear.",
            faulty: "Several were shut or stood under furniture.",
            sound: "They all stood open before.",
        },
        Work::CleanBlowerWheel => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 75.0,
            cost: 10.0,
            label: "Take the blower wheel out and clean it",
            done: "The wheel is brushed out, balanced and back in.",
            faulty: "Its blades were filled with packed dust.",
            sound: "Its blades had kept their shape; hardly any dust came off.",
        },
        Work::SetSpeedTap => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 15.0,
            cost: 0.0,
            label: "Set the blower to its cooling speed tap",
            done: "The blower is on the tap that the wiring diagram names for cooling.",
            faulty: "It was on another one.",
            sound: "It was on that one before.",
        },
        Work::ReplaceBlowerCapacitor => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 20.0,
            cost: 22.0,
            label: "Replace the blower capacitor",
            done: "A new run capacitor of the same rating is in.",
            faulty: "The old one measures well below its rating.",
            sound: "The old one measures what its label says.",
        },
        Work::ReplaceBlowerMotor => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 105.0,
            cost: 320.0,
            label: "Replace the blower motor",
            done: "A new motor carries the wheel.",
            faulty: "The old one is dead on the bench.",
            sound: "On the bench the old one runs.",
        },
        Work::ReplaceBlowerModule => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 40.0,
            cost: 240.0,
            label: "Replace the module of the blower motor",
            done: "A new module sits on the motor.",
            faulty: "The board of the old one is burnt.",
            sound: "Nothing shows on the old one.",
        },
        Work::ReconnectBlowerCommand => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 25.0,
            cost: 12.0,
            label: "Mend the command harness of the blower",
            done: "The harness is mended from the board to the plug of the module, and every pin holds.",
            faulty: "One of its wires made no contact.",
            sound: "All its wires had contact before.",
        },
        Work::ReplaceBoard => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 45.0,
            cost: 160.0,
            label: "Replace the control board",
            done: "A new control board with its blower relay is in, wire by wire as the old one.",
            faulty: "The old one does not do its work on the bench.",
            sound: "On the bench the old one does all it should.",
        },
        Work::ReplaceThermostat => Job {
            places: &[Place::Thermostat],
            panel: None,
            power: Any,
            minutes: 30.0,
            cost: 80.0,
            label: "Replace the thermostat",
            done: "A new thermostat is on the wall, set as the old one was.",
            faulty: "The old one does not close all its contacts.",
            sound: "The old one closes all its contacts.",
        },
        Work::RepairConductor => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            power: Any,
            minutes: 45.0,
            cost: 15.0,
            label: "Mend the Y conductor to the outdoor unit",
            done: "Y has continuity to the outdoor unit, and none to common.",
            faulty: "Its sheath was worn through on the way, and the copper damaged.",
            sound: "It had continuity before, and its sheath was whole.",
        },
        Work::ReplaceControlFuse => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 5.0,
            cost: 3.0,
            label: "Replace the low-voltage fuse",
            done: "A new fuse of the same rating is in.",
            faulty: "The wire in the old one is gone.",
            sound: "The wire in the old one is whole.",
        },
        Work::ReplaceTransformer => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            power: IndoorOff,
            minutes: 40.0,
            cost: 38.0,
            label: "Replace the control transformer",
            done: "A new transformer is in.",
            faulty: "One winding of the old one is open.",
            sound: "Both windings of the old one are whole.",
        },
        Work::RestoreCondensateSwitch => Job {
            places: &[Place::ControlBoard, Place::IndoorCoil],
            panel: Some(CoilCabinet),
            power: Any,
            minutes: 35.0,
            cost: 18.0,
            label: "Clear the drain and put the float switch right",
            done: "Water poured into the pan runs off, and the float falls and rises freely.",
            faulty: "The float had hung at the top.",
            sound: "The float had moved freely before.",
        },
        Work::ReplaceContactor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            power: OutdoorOff,
            minutes: 30.0,
            cost: 32.0,
            label: "Replace the contactor",
            done: "A new contactor is in.",
            faulty: "The old one does not make and break as it should.",
            sound: "The old one pulls in and lets go as it should.",
        },
        Work::ReplaceDrier => Job {
            places: &[Place::Drier],
            panel: None,
            power: OutdoorOff,
            minutes: 60.0,
            cost: 55.0,
            label: "Replace the liquid-line drier",
            done: "A new drier is in; nitrogen holds on the joints.",
            faulty: "Nitrogen hardly passes the old one.",
            sound: "Nitrogen passes the old one freely.",
        },
        Work::ReplaceLiquidLine => Job {
            places: &[Place::LineSet],
            panel: None,
            power: OutdoorOff,
            minutes: 75.0,
            cost: 70.0,
            label: "Replace the first length of the liquid line",
            done: "A new length of liquid line is in at the outdoor unit; nitrogen holds on the joints.",
            faulty: "The old length was folded almost flat.",
            sound: "The old length was round from end to end.",
        },
        Work::ReplaceSuctionLine => Job {
            places: &[Place::LineSet],
            panel: None,
            power: OutdoorOff,
            minutes: 90.0,
            cost: 95.0,
            label: "Replace the last length of the suction line",
            done: "A new length of suction line is in before the outdoor unit, insulated; nitrogen holds on the joints.",
            faulty: "The old length was folded at the bend.",
            sound: "The old length was round from end to end.",
        },
        Work::CleanCondenser => Job {
            places: &[Place::OutdoorUnit],
            panel: None,
            power: OutdoorOff,
            minutes: 45.0,
            cost: 18.0,
            label: "Wash the outdoor coil",
            done: "The outdoor coil is washed from inside out.",
            faulty: "Grey water and fluff ran out of it.",
            sound: "The water ran out of it clear.",
        },
        Work::ReplaceFanCapacitor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            power: OutdoorOff,
            minutes: 20.0,
            cost: 24.0,
            label: "Replace the run capacitor of the outdoor fan",
            done: "A new run capacitor serves the fan.",
            faulty: "The old section measures well below its rating.",
            sound: "The old section measures what its label says.",
        },
        Work::ReplaceFanMotor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            power: OutdoorOff,
            minutes: 75.0,
            cost: 190.0,
            label: "Replace the outdoor fan motor",
            done: "A new motor carries the blade, turning the right way.",
            faulty: "The shaft of the old one does not turn.",
            sound: "The shaft of the old one turns freely.",
        },
        Work::ReplaceCompressorCapacitor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            power: OutdoorOff,
            minutes: 20.0,
            cost: 28.0,
            label: "Replace the run capacitor of the compressor",
            done: "A new run capacitor serves the compressor.",
            faulty: "The old section measures well below its rating.",
            sound: "The old section measures what its label says.",
        },
        Work::ReplaceCompressor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            power: OutdoorOff,
            minutes: 240.0,
            cost: 1150.0,
            label: "Replace the compressor",
            done: "A new compressor is in; nitrogen holds on the joints.",
            faulty: "Turned by hand, the old one holds no pressure.",
            sound: "Turned by hand, the old one holds its pressure.",
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

    /// The sentence if this system has no such part.
    pub(crate) fn part_is_missing(&self, work: Work) -> Option<&'static str> {
        match (work, self.plant.blower_kind()) {
            (Work::ReplaceBlowerCapacitor, BlowerKind::Ecm) => {
                Some("This blower has an ECM; it has no run capacitor.")
            }
            (Work::ReplaceBlowerModule, BlowerKind::Psc) => {
                Some("This blower has a plain capacitor motor; it has no module.")
            }
            (Work::ReconnectBlowerCommand, BlowerKind::Psc) => Some(
                "This blower has a plain capacitor motor; the relay switches it and there is no command harness.",
            ),
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
