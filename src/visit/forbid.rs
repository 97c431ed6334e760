//! What the state of the site forbids, as facts.

use plant::{Capacitor, Conductor, LeakPlace, Metering, Mode, Switch, Terminal, Work};
use quantity::Mass;

use crate::limits::{is_cylinder_mass, is_set_point, is_wait};
use crate::mend::job;
use crate::moves::{AirPoint, Location, Move, Panel, PipePoint, Place};
use crate::notebook::Measured;
use crate::refusal::Refusal;
use crate::site::{Circuit, Gauges};
use crate::visit::{VISIT_LIMIT_S, Visit};

/// Gauge pressure above which a vacuum pump must not be opened to the circuit, Pa.
const PUMP_LIMIT_PA: f64 = 15.0e3;

const CABINET_CLOSED: Refusal = Refusal::BehindPanel(Panel::CoilCabinet);

impl Visit {
    /// Why a move cannot be made now; `None` if it can.
    pub(crate) fn forbidden(&self, action: &Move) -> Option<Refusal> {
        if self.site.closed {
            return Some(Refusal::TicketClosed);
        }
        if self.time_s() - self.arrival_s >= VISIT_LIMIT_S {
            return Some(Refusal::WeekOver);
        }
        let reason = match action {
            Move::Look(Place::MeteringDevice) => {
                self.closed(Panel::CoilCabinet, Refusal::CabinetHidesMeteringDevice)?
            }
            Move::Look(Place::ControlBoard) => {
                self.closed(Panel::BlowerCompartment, Refusal::PanelHidesTerminalStrip)?
            }
            Move::WatchBlower => self.closed(Panel::BlowerCompartment, Refusal::PanelHidesWheel)?,
            Move::SetThermostat { set_point, .. } => {
                if is_set_point(set_point.kelvin()) {
                    return None;
                }
                Refusal::SetPointOutOfRange
            }
            Move::OutdoorDisconnect(switch) if *switch == self.inputs.outdoor_disconnect => match switch {
                Switch::Open => Refusal::DisconnectOutAlready,
                Switch::Closed => Refusal::DisconnectInAlready,
            },
            Move::IndoorServiceSwitch(switch) if *switch == self.inputs.indoor_service_switch => match switch
            {
                Switch::Open => Refusal::AirHandlerOffAlready,
                Switch::Closed => Refusal::AirHandlerOnAlready,
            },
            Move::OpenPanel(panel) if self.site.is_open(*panel) => {
                return Some(Refusal::PanelOpenAlready(*panel));
            }
            Move::ClosePanel(panel) if !self.site.is_open(*panel) => {
                return Some(Refusal::PanelClosedAlready(*panel));
            }
            Move::MeasureVoltage { from, to } => {
                if let Some(reason) = self.forbids_probes(*from, *to) {
                    return Some(reason);
                }
                if !from.is_ecm_phase() && !to.is_ecm_phase() {
                    return None;
                }
                Refusal::NoVoltageAtMotorPlug
            }
            Move::MeasureResistance { from, to } | Move::MeasureCapacitance { from, to } => {
                return self.forbids_probes(*from, *to);
            }
            Move::ClampCurrent(conductor) => return self.forbids_clamp(*conductor),
            Move::ConnectGauges if self.site.gauges == Gauges::On => Refusal::HosesOnAlready,
            Move::DisconnectGauges if self.site.gauges == Gauges::Off => Refusal::NoHosesOn,
            Move::ReadGauge(_) => self.no_gauges(Refusal::NoGauges)?,
            Move::ReadPipe(point) => return self.forbids_pipe(*point),
            Move::WarmBulb | Move::ChillBulb | Move::PutBulbBack | Move::InsulateBulb => {
                return self.forbids_bulb(action);
            }
            Move::SearchLeak(LeakPlace::IndoorCoil, _) => self.closed(Panel::CoilCabinet, CABINET_CLOSED)?,
            Move::RepairLeak(LeakPlace::IndoorCoil) => self.closed(Panel::CoilCabinet, CABINET_CLOSED)?,
            Move::ReplaceMeteringDevice => self.closed(Panel::CoilCabinet, CABINET_CLOSED)?,
            Move::Mend(work) => return self.forbids_mending(*work),
            Move::DischargeCapacitor(capacitor) => return self.forbids_discharge(*capacitor),
            Move::Recover if self.recovery_cylinder_is_full() => Refusal::RecoveryCylinderFull,
            Move::Recover => match self.site.circuit {
                Circuit::Charged => self.no_gauges(Refusal::NoHoses)?,
                _ => Refusal::NothingToRecover,
            },
            Move::RecoverTo(_)
            | Move::RemoveRefrigerant(_)
            | Move::PressurizeWithNitrogen(_)
            | Move::PurgeWithNitrogen
            | Move::VentNitrogen
            | Move::StandingTest(_)
            | Move::EvacuateTo { .. }
            | Move::DecayTest(_)
            | Move::ChargeTo { .. } => return self.forbids_service(action),
            Move::Evacuate => return self.forbids_vacuum(),
            Move::WeighIn(mass) => return self.forbids_weighing_in(*mass),
            Move::AddRefrigerant(mass) | Move::AddVapor(mass) => return self.forbids_adding(*mass),
            Move::Wait(duration) => {
                if is_wait(duration.seconds()) {
                    return None;
                }
                Refusal::WaitOutOfRange
            }
            Move::Verify => {
                if self.site.circuit != Circuit::Charged {
                    Refusal::NoChargeToRun
                } else if self.inputs.outdoor_disconnect == Switch::Open {
                    Refusal::NothingStartsDisconnectOut
                } else if self.inputs.indoor_service_switch == Switch::Open {
                    Refusal::NothingStartsAirHandlerOff
                } else if self.inputs.thermostat.mode == Mode::Off {
                    Refusal::NothingStartsThermostatOff
                } else {
                    return None;
                }
            }
            _ => return None,
        };
        Some(reason)
    }

    /// The refusal if the panel is closed; `None`, all well, if it is open.
    fn closed(&self, panel: Panel, refusal: Refusal) -> Option<Refusal> {
        (!self.site.is_open(panel)).then_some(refusal)
    }

    /// The refusal if the gauges are off.
    pub(crate) fn no_gauges(&self, refusal: Refusal) -> Option<Refusal> {
        (self.site.gauges == Gauges::Off).then_some(refusal)
    }

    fn forbids_probes(&self, from: Terminal, to: Terminal) -> Option<Refusal> {
        if from == to {
            return Some(Refusal::SameTerminal);
        }
        if let Some(absent) =
            [from, to].into_iter().find(|probe| !self.plant.terminals().any(|t| t == *probe))
        {
            return Some(Refusal::NoSuchTerminal(absent));
        }
        if probes_location(from, to).is_none() {
            return Some(Refusal::LeadsTooShort);
        }
        [from, to]
            .into_iter()
            .filter_map(terminal_panel)
            .find_map(|panel| self.closed(panel, Refusal::TerminalsBehindPanel(panel)))
    }

    fn forbids_clamp(&self, conductor: Conductor) -> Option<Refusal> {
        if !self.plant.conductors().any(|known| known == conductor) {
            return Some(Refusal::NoSuchWire(conductor));
        }
        let panel = match conductor_place(conductor) {
            Place::OutdoorUnit => Panel::OutdoorElectrical,
            Place::Thermostat => return None,
            _ => Panel::BlowerCompartment,
        };
        self.closed(panel, Refusal::BehindPanel(panel))
    }

    fn forbids_pipe(&self, point: PipePoint) -> Option<Refusal> {
        if point == PipePoint::SensingBulb && !self.has_bulb() {
            return Some(Refusal::NoBulb);
        }
        if self.is_attached(Measured::PipeTemperature(point)) || point.location() == Location::Outdoors {
            return None;
        }
        self.closed(Panel::CoilCabinet, CABINET_CLOSED)
    }

    fn forbids_bulb(&self, action: &Move) -> Option<Refusal> {
        if !self.has_bulb() {
            return Some(Refusal::NoBulb);
        }
        if let Some(closed) = self.closed(Panel::CoilCabinet, CABINET_CLOSED) {
            return Some(closed);
        }
        if *action == Move::PutBulbBack && !self.site.bulb.is_off_the_line() {
            return Some(Refusal::BulbOnLine);
        }
        if action.tests_the_bulb() && self.site.bulb.is_off_the_line() {
            return Some(Refusal::BulbOffLine);
        }
        None
    }

    fn forbids_mending(&self, work: Work) -> Option<Refusal> {
        let Some(job) = job(work) else {
            return Some(Refusal::HasMoveOfItsOwn(work));
        };
        if let Some(missing) = self.part_is_missing(work) {
            return Some(missing);
        }
        if let Some(closed) = job.panel.and_then(|panel| self.closed(panel, Refusal::BehindPanel(panel))) {
            return Some(closed);
        }
        let ice = self.truth().frost_mass_kg > crate::observe::CLEAR_FROST_KG;
        let reason = match work {
            Work::CleanCoil if ice => Refusal::IceBeforeWash,
            Work::PeelFilterMedium if ice => Refusal::IceBeforePeel,
            Work::PeelFilterMedium if self.plant.coil_covered_share() <= 0.0 => Refusal::NoMediumOnCoil,
            _ => return None,
        };
        Some(reason)
    }

    fn forbids_discharge(&self, capacitor: Capacitor) -> Option<Refusal> {
        let panel = match capacitor {
            Capacitor::Blower => Panel::BlowerCompartment,
            Capacitor::Compressor | Capacitor::OutdoorFan => Panel::OutdoorElectrical,
        };
        if capacitor == Capacitor::Blower
            && let Some(missing) = self.part_is_missing(Work::ReplaceBlowerCapacitor)
        {
            return Some(missing);
        }
        self.closed(panel, Refusal::BehindPanel(panel))
    }

    pub(crate) fn forbids_vacuum(&self) -> Option<Refusal> {
        if let Some(reason) = self.no_gauges(Refusal::NoHoses) {
            return Some(reason);
        }
        if self.compressor_runs() {
            return Some(Refusal::CompressorRunsInVacuum);
        }
        let truth = self.truth();
        let highest_pa = truth.suction_pressure_pa.max(truth.liquid_pressure_pa);
        if highest_pa > media::units::STANDARD_ATMOSPHERE_PA + PUMP_LIMIT_PA {
            return Some(Refusal::CircuitUnderPressure);
        }
        None
    }

    fn forbids_weighing_in(&self, mass: Mass) -> Option<Refusal> {
        if let Some(reason) = self.no_gauges(Refusal::NoHoses).or_else(|| forbids_mass(mass)) {
            return Some(reason);
        }
        if self.charging_cylinder_is_empty() {
            return Some(Refusal::ChargingCylinderEmpty);
        }
        match self.site.circuit {
            Circuit::Evacuated => None,
            Circuit::Charged => Some(Refusal::TopUpIsNotWeighingIn),
            Circuit::Recovered | Circuit::Opened | Circuit::UnderNitrogen => {
                Some(Refusal::NoVacuumToWeighInto)
            }
        }
    }

    fn forbids_adding(&self, mass: Mass) -> Option<Refusal> {
        if let Some(reason) = self.no_gauges(Refusal::NoHoses).or_else(|| forbids_mass(mass)) {
            return Some(reason);
        }
        if self.charging_cylinder_is_empty() {
            return Some(Refusal::ChargingCylinderEmpty);
        }
        match self.site.circuit {
            Circuit::Evacuated => Some(Refusal::WeighWholeChargeIn),
            Circuit::UnderNitrogen => Some(Refusal::NitrogenInCircuit),
            _ => None,
        }
    }

    /// Whether the metering device has a sensing bulb.
    pub(crate) fn has_bulb(&self) -> bool {
        matches!(self.plant.system().metering, Metering::Txv { .. })
    }

    /// Where the learner must stand for a move; `None` if it does not matter.
    pub(crate) fn location_of(&self, action: &Move) -> Option<Location> {
        Some(match action {
            Move::Look(place) => place.location(),
            Move::OpenPanel(panel) | Move::ClosePanel(panel) => panel.location(),
            Move::MeasureVoltage { from, to }
            | Move::MeasureResistance { from, to }
            | Move::MeasureCapacitance { from, to } => probes_location(*from, *to)?,
            Move::ClampCurrent(conductor) => conductor_place(*conductor).location(),
            Move::ReadPipe(point) => {
                if self.is_attached(Measured::PipeTemperature(*point)) {
                    return None;
                }
                point.location()
            }
            Move::ReadAir(point, bulb) => {
                if self.is_attached(Measured::AirTemperature(*point, *bulb)) {
                    return None;
                }
                point.location()
            }
            Move::SearchLeak(place, _) | Move::RepairLeak(place) => match place {
                LeakPlace::IndoorCoil => Location::Indoors,
                LeakPlace::SuctionServiceValve | LeakPlace::LiquidLine => Location::Outdoors,
            },
            Move::ReadDataPlate
            | Move::OutdoorDisconnect(_)
            | Move::ConnectGauges
            | Move::DisconnectGauges
            | Move::Recover
            | Move::Evacuate
            | Move::WeighIn(_)
            | Move::AddRefrigerant(_)
            | Move::AddVapor(_)
            | Move::RecoverTo(_)
            | Move::RemoveRefrigerant(_)
            | Move::PressurizeWithNitrogen(_)
            | Move::VentNitrogen
            | Move::PurgeWithNitrogen
            | Move::StandingTest(_)
            | Move::EvacuateTo { .. }
            | Move::DecayTest(_)
            | Move::ChargeTo { .. }
            | Move::ChangeCylinder(_)
            | Move::Verify => Location::Outdoors,
            Move::MakeAreaSafe(location) => *location,
            Move::Ask(_)
            | Move::SetThermostat { .. }
            | Move::IndoorServiceSwitch(_)
            | Move::InspectFilter
            | Move::ReplaceFilter
            | Move::WatchBlower
            | Move::WarmBulb
            | Move::ChillBulb
            | Move::PutBulbBack
            | Move::InsulateBulb
            | Move::ReplaceMeteringDevice
            | Move::CloseTicket => Location::Indoors,
            Move::Mend(work) => job(*work)?.places.first()?.location(),
            Move::DischargeCapacitor(Capacitor::Blower) => Location::Indoors,
            Move::DischargeCapacitor(_) => Location::Outdoors,
            // Gauges send to the hand; waiting and thinking is done anywhere.
            Move::ReadGauge(_) | Move::Wait(_) | Move::Declare(_) => return None,
        })
    }
}

pub(crate) fn forbids_mass(mass: Mass) -> Option<Refusal> {
    if is_cylinder_mass(mass.kilograms()) {
        return None;
    }
    Some(Refusal::MassOutOfRange)
}

/// Where a terminal is; `None` for the metal of the cabinets, which is on both sides.
fn terminal_location(terminal: Terminal) -> Option<Location> {
    match terminal {
        Terminal::Ground => None,
        _ if terminal.is_outdoors() => Some(Location::Outdoors),
        _ => Some(Location::Indoors),
    }
}

/// Where both probes reach; `None` if they don't.
fn probes_location(from: Terminal, to: Terminal) -> Option<Location> {
    match (terminal_location(from), terminal_location(to)) {
        (Some(one), Some(other)) => (one == other).then_some(one),
        (one, other) => one.or(other).or(Some(Location::Indoors)),
    }
}

/// Behind which panel a terminal is; `None` for boxes that open by their own lid, and for the cabinet's metal.
fn terminal_panel(terminal: Terminal) -> Option<Panel> {
    match terminal {
        Terminal::DisconnectLine1
        | Terminal::DisconnectLine2
        | Terminal::DisconnectLoad1
        | Terminal::DisconnectLoad2
        | Terminal::ServiceLine1
        | Terminal::ServiceLine2
        | Terminal::ServiceLoad1
        | Terminal::ServiceLoad2
        | Terminal::ThermostatR
        | Terminal::ThermostatY
        | Terminal::ThermostatG
        | Terminal::Ground => None,
        _ if terminal.is_outdoors() => Some(Panel::OutdoorElectrical),
        _ => Some(Panel::BlowerCompartment),
    }
}

/// Where a clamp is put around a conductor.
fn conductor_place(conductor: Conductor) -> Place {
    match conductor {
        Conductor::SupplyLeg1
        | Conductor::SupplyLeg2
        | Conductor::CompressorCommon
        | Conductor::CompressorRun
        | Conductor::CompressorStart
        | Conductor::CapacitorCommon
        | Conductor::FanCommon
        | Conductor::FanRun
        | Conductor::FanStart
        | Conductor::HighPressureSwitch
        | Conductor::LowPressureSwitch
        | Conductor::ContactorCoil
        | Conductor::CoilCommon => Place::OutdoorUnit,
        Conductor::ThermostatR | Conductor::ThermostatY | Conductor::ThermostatG => Place::Thermostat,
        Conductor::BlowerLine
        | Conductor::BlowerReturn
        | Conductor::BlowerStart
        | Conductor::EcmCommand
        | Conductor::EcmCommon => Place::Blower,
        Conductor::IndoorLeg1
        | Conductor::IndoorLeg2
        | Conductor::RelayFeed
        | Conductor::TransformerFeed
        | Conductor::TransformerReturn
        | Conductor::ControlHot
        | Conductor::ControlCommon
        | Conductor::FuseToR
        | Conductor::FloatSwitch
        | Conductor::YToOutdoor
        | Conductor::CommonToOutdoor => Place::ControlBoard,
    }
}

/// Conductors worth a clamp at a place, for lists.
pub(crate) fn conductors_at(place: Place) -> impl Iterator<Item = Conductor> {
    Conductor::ALL.into_iter().filter(move |conductor| conductor_place(*conductor) == place)
}

/// Pairs of terminals worth an ohmmeter at a place, for lists.
pub(crate) fn ohm_pairs(place: Place) -> &'static [(Terminal, Terminal)] {
    use Terminal as T;
    match place {
        Place::ControlBoard => &[
            (T::FuseSupply, T::FuseLoad),
            (T::TransformerPrimary1, T::TransformerPrimary2),
            (T::TransformerSecondary1, T::TransformerSecondary2),
            (T::FloatSwitchIn, T::FloatSwitchOut),
        ],
        Place::Blower => &[
            (T::BlowerMotor1, T::BlowerMotor2),
            (T::BlowerMotor1, T::BlowerMotorStart),
            (T::EcmMotor1, T::EcmMotor2),
            (T::EcmMotor2, T::EcmMotor3),
            (T::EcmMotor3, T::EcmMotor1),
            (T::EcmMotor1, T::Ground),
        ],
        Place::OutdoorUnit => &[
            (T::ContactorCoilY, T::ContactorCoilC),
            (T::CompressorCommon, T::CompressorRun),
            (T::CompressorCommon, T::CompressorStart),
            (T::CompressorCommon, T::Ground),
            (T::FanMotorCommon, T::FanMotorRun),
            (T::FanMotorCommon, T::FanMotorStart),
        ],
        _ => &[],
    }
}

/// Pairs of terminals worth a measurement at a place, for lists.
pub(crate) fn terminal_pairs(place: Place) -> &'static [(Terminal, Terminal)] {
    match place {
        Place::ControlBoard => &[
            (Terminal::R, Terminal::C),
            (Terminal::Y, Terminal::C),
            (Terminal::G, Terminal::C),
            (Terminal::BlowerRelayCoilG, Terminal::BlowerRelayCoilC),
            (Terminal::EcmBoardCommand, Terminal::C),
        ],
        Place::Blower => &[
            (Terminal::BlowerMotor1, Terminal::BlowerMotor2),
            (Terminal::EcmLine1, Terminal::EcmLine2),
            (Terminal::EcmCommand, Terminal::EcmCommon),
        ],
        Place::OutdoorUnit => &[
            (Terminal::ContactorCoilY, Terminal::ContactorCoilC),
            (Terminal::ContactorLoad1, Terminal::ContactorLoad2),
        ],
        Place::OutdoorDisconnect => &[
            (Terminal::DisconnectLine1, Terminal::DisconnectLine2),
            (Terminal::DisconnectLoad1, Terminal::DisconnectLoad2),
        ],
        _ => &[],
    }
}

/// Where air is measured from a place.
pub(crate) fn air_point(place: Place) -> Option<AirPoint> {
    match place {
        Place::ReturnGrille => Some(AirPoint::Return),
        Place::SupplyRegister => Some(AirPoint::Supply),
        Place::OutdoorUnit => Some(AirPoint::Outdoor),
        _ => None,
    }
}
