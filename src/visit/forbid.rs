//! What the state of the site forbids, in the words of a person.

use call::Mass;
use plant::{Capacitor, Conductor, LeakPlace, Metering, Mode, Switch, Terminal, Work};

use crate::limits::{is_cylinder_mass, is_set_point, is_wait};
use crate::mend::{job, own_move};
use crate::moves::{AirPoint, Location, Move, Panel, PipePoint, Place};
use crate::notebook::Measured;
use crate::site::{Circuit, Gauges};
use crate::visit::{VISIT_LIMIT_S, Visit};

/// Gauge pressure above which a vacuum pump must not be opened to the circuit, Pa.
const PUMP_LIMIT_PA: f64 = 15.0e3;

pub(crate) const CYLINDER_FULL: &str = "The recovery cylinder is 80 % full; fetch another one first.";
pub(crate) const CYLINDER_EMPTY: &str = "The charging cylinder is empty; fetch another one first.";
pub(crate) const NOTHING_LEFT: &str = "There is nothing left to recover.";
pub(crate) const NO_HOSES: &str = "The hoses are not on the service ports; connect the gauges first.";
const CABINET_CLOSED: &str = "The coil cabinet is closed; you can't get to what is inside.";

fn panel_closed(panel: Panel) -> &'static str {
    match panel {
        Panel::BlowerCompartment => "The blower panel is still on; you can't get to the terminals behind it.",
        Panel::CoilCabinet => CABINET_CLOSED,
        Panel::OutdoorElectrical => {
            "The electrical panel of the outdoor unit is still on; you can't get to the contactor."
        }
    }
}

fn panel_closed_for_work(panel: Panel) -> &'static str {
    match panel {
        Panel::BlowerCompartment => "The blower panel is still on; you can't get to what is behind it.",
        Panel::CoilCabinet => CABINET_CLOSED,
        Panel::OutdoorElectrical => {
            "The electrical panel of the outdoor unit is still on; you can't get to what is behind it."
        }
    }
}

impl Visit {
    /// Why a move cannot be made now; `None` if it can.
    pub(crate) fn forbidden(&self, action: &Move) -> Option<String> {
        if self.site.closed {
            return Some("The ticket is closed; you have left.".to_owned());
        }
        if self.time_s() - self.arrival_s >= VISIT_LIMIT_S {
            return Some("A week is over; close the ticket in a new visit.".to_owned());
        }
        let reason: &str = match action {
            Move::Look(Place::MeteringDevice) => self.closed(
                Panel::CoilCabinet,
                "The coil cabinet is closed; you can't see the metering device.",
            )?,
            Move::Look(Place::ControlBoard) => self.closed(
                Panel::BlowerCompartment,
                "The blower panel is still on; the low-voltage terminals are behind it.",
            )?,
            Move::WatchBlower => self
                .closed(Panel::BlowerCompartment, "The blower panel is still on; you can't see the wheel.")?,
            Move::SetThermostat { set_point, .. } => {
                if is_set_point(set_point.kelvin()) {
                    return None;
                }
                "The thermostat only goes from 50 to 90 °F (10 to 32 °C)."
            }
            Move::OutdoorDisconnect(switch) if *switch == self.inputs.outdoor_disconnect => match switch {
                Switch::Open => "The disconnect is out already.",
                Switch::Closed => "The disconnect is in already.",
            },
            Move::IndoorServiceSwitch(switch) if *switch == self.inputs.indoor_service_switch => match switch
            {
                Switch::Open => "The air handler is switched off already.",
                Switch::Closed => "The air handler is switched on already.",
            },
            Move::OpenPanel(panel) if self.site.is_open(*panel) => {
                return Some(format!("The {} is open already.", panel.label()));
            }
            Move::ClosePanel(panel) if !self.site.is_open(*panel) => {
                return Some(format!("The {} is closed already.", panel.label()));
            }
            Move::MeasureVoltage { from, to } => {
                if let Some(reason) = self.forbids_probes(*from, *to) {
                    return Some(reason);
                }
                if !from.is_ecm_phase() && !to.is_ecm_phase() {
                    return None;
                }
                "The plug of the motor is only pulled with the power off; there is no voltage to read at it. Measure ohms."
            }
            Move::MeasureResistance { from, to } | Move::MeasureCapacitance { from, to } => {
                return self.forbids_probes(*from, *to);
            }
            Move::ClampCurrent(conductor) => return self.forbids_clamp(*conductor),
            Move::ConnectGauges if self.site.gauges == Gauges::On => "The hoses are on already.",
            Move::DisconnectGauges if self.site.gauges == Gauges::Off => "No hoses are on.",
            Move::ReadGauge(_) => {
                self.no_gauges("The gauges are not connected; there is no pressure to read.")?
            }
            Move::ReadPipe(point) => return self.forbids_pipe(*point),
            Move::WarmBulb | Move::ChillBulb | Move::PutBulbBack | Move::InsulateBulb => {
                return self.forbids_bulb(action);
            }
            Move::SearchLeak(LeakPlace::IndoorCoil, _) => self.closed(Panel::CoilCabinet, CABINET_CLOSED)?,
            Move::RepairLeak(LeakPlace::IndoorCoil) => self.closed(Panel::CoilCabinet, CABINET_CLOSED)?,
            Move::ReplaceMeteringDevice => self.closed(Panel::CoilCabinet, CABINET_CLOSED)?,
            Move::Mend(work) => return self.forbids_mending(*work),
            Move::DischargeCapacitor(capacitor) => return self.forbids_discharge(*capacitor),
            Move::Recover if self.recovery_cylinder_is_full() => CYLINDER_FULL,
            Move::Recover => match self.site.circuit {
                Circuit::Charged => self.no_gauges(NO_HOSES)?,
                _ => NOTHING_LEFT,
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
                "A wait is longer than nothing and no longer than 12 hours."
            }
            Move::Verify => {
                if self.site.circuit != Circuit::Charged {
                    "There is no charge in the circuit; it can't run."
                } else if self.inputs.outdoor_disconnect == Switch::Open {
                    "The outdoor disconnect is out; nothing will start."
                } else if self.inputs.indoor_service_switch == Switch::Open {
                    "The air handler is switched off; nothing will start."
                } else if self.inputs.thermostat.mode == Mode::Off {
                    "The thermostat is off; nothing will start."
                } else {
                    return None;
                }
            }
            _ => return None,
        };
        Some(reason.to_owned())
    }

    /// The sentence if the panel is closed; `None`, all well, if it is open.
    fn closed(&self, panel: Panel, sentence: &'static str) -> Option<&'static str> {
        (!self.site.is_open(panel)).then_some(sentence)
    }

    /// The sentence if the gauges are off.
    pub(crate) fn no_gauges(&self, sentence: &'static str) -> Option<&'static str> {
        (self.site.gauges == Gauges::Off).then_some(sentence)
    }

    fn forbids_probes(&self, from: Terminal, to: Terminal) -> Option<String> {
        if from == to {
            return Some("Both probes would sit on the same terminal.".to_owned());
        }
        if let Some(absent) =
            [from, to].into_iter().find(|probe| !self.plant.terminals().any(|t| t == *probe))
        {
            return Some(format!("This system has no such terminal: {}.", absent.label()));
        }
        if probes_location(from, to).is_none() {
            return Some(
                "One terminal is indoors and one at the outdoor unit; the leads don't reach.".to_owned(),
            );
        }
        let closed = [from, to]
            .into_iter()
            .filter_map(terminal_panel)
            .find_map(|panel| self.closed(panel, panel_closed(panel)));
        closed.map(str::to_owned)
    }

    fn forbids_clamp(&self, conductor: Conductor) -> Option<String> {
        if !self.plant.conductors().any(|known| known == conductor) {
            return Some(format!("This system has no such wire: {}.", conductor.label()));
        }
        let panel = match conductor_place(conductor) {
            Place::OutdoorUnit => Panel::OutdoorElectrical,
            Place::Thermostat => return None,
            _ => Panel::BlowerCompartment,
        };
        self.closed(panel, panel_closed_for_work(panel)).map(str::to_owned)
    }

    fn forbids_pipe(&self, point: PipePoint) -> Option<String> {
        if point == PipePoint::SensingBulb && !self.has_bulb() {
            return Some("This system has a fixed orifice; there is no bulb.".to_owned());
        }
        if self.is_attached(Measured::PipeTemperature(point)) || point.location() == Location::Outdoors {
            return None;
        }
        self.closed(Panel::CoilCabinet, CABINET_CLOSED).map(str::to_owned)
    }

    fn forbids_bulb(&self, action: &Move) -> Option<String> {
        if !self.has_bulb() {
            return Some("This system has a fixed orifice; there is no bulb.".to_owned());
        }
        if let Some(closed) = self.closed(Panel::CoilCabinet, CABINET_CLOSED) {
            return Some(closed.to_owned());
        }
        if *action == Move::PutBulbBack && !self.site.bulb.is_off_the_line() {
            return Some("The bulb is on the line already.".to_owned());
        }
        if action.tests_the_bulb() && self.site.bulb.is_off_the_line() {
            return Some(
                "The bulb is off the line. Strap it back first: its answer is told against that.".to_owned(),
            );
        }
        None
    }

    fn forbids_mending(&self, work: Work) -> Option<String> {
        let Some(job) = job(work) else {
            return Some(format!("This job has a move of its own: {}.", own_move(work)));
        };
        if let Some(missing) = self.part_is_missing(work) {
            return Some(missing.to_owned());
        }
        if let Some(closed) = job.panel.and_then(|panel| self.closed(panel, panel_closed_for_work(panel))) {
            return Some(closed.to_owned());
        }
        let ice = self.truth().frost_mass_kg > crate::observe::CLEAR_FROST_KG;
        let reason = match work {
            Work::CleanCoil if ice => "There is ice on the coil; let it thaw before you wash it.",
            Work::PeelFilterMedium if ice => {
                "There is ice on the coil; what lies on its face is frozen to the fins and takes them along. Let it \
                 thaw first."
            }
            Work::PeelFilterMedium if self.plant.coil_covered_share() <= 0.0 => {
                "No filter medium lies on the face of the coil; there is nothing to peel off."
            }
            _ => return None,
        };
        Some(reason.to_owned())
    }

    fn forbids_discharge(&self, capacitor: Capacitor) -> Option<String> {
        let panel = match capacitor {
            Capacitor::Blower => Panel::BlowerCompartment,
            Capacitor::Compressor | Capacitor::OutdoorFan => Panel::OutdoorElectrical,
        };
        if capacitor == Capacitor::Blower
            && let Some(missing) = self.part_is_missing(Work::ReplaceBlowerCapacitor)
        {
            return Some(missing.to_owned());
        }
        self.closed(panel, panel_closed_for_work(panel)).map(str::to_owned)
    }

    pub(crate) fn forbids_vacuum(&self) -> Option<String> {
        if let Some(reason) = self.no_gauges(NO_HOSES) {
            return Some(reason.to_owned());
        }
        if self.compressor_runs() {
            return Some("The compressor is running; in a vacuum it burns out. Stop it first.".to_owned());
        }
        let truth = self.truth();
        let highest_pa = truth.suction_pressure_pa.max(truth.liquid_pressure_pa);
        if highest_pa > media::units::STANDARD_ATMOSPHERE_PA + PUMP_LIMIT_PA {
            return Some(
                "The circuit is under pressure; the pump would blow refrigerant into the air. Recover first."
                    .to_owned(),
            );
        }
        None
    }

    fn forbids_weighing_in(&self, mass: Mass) -> Option<String> {
        if let Some(reason) = self.no_gauges(NO_HOSES).map(str::to_owned).or_else(|| forbids_mass(mass)) {
            return Some(reason);
        }
        if self.charging_cylinder_is_empty() {
            return Some(CYLINDER_EMPTY.to_owned());
        }
        match self.site.circuit {
            Circuit::Evacuated => None,
            Circuit::Charged => Some(
                "The circuit still holds refrigerant; what you weigh in now is a top-up. To do that, add \
                 refrigerant; for a full charge, recover and evacuate first."
                    .to_owned(),
            ),
            Circuit::Recovered | Circuit::Opened | Circuit::UnderNitrogen => {
                Some("There is no vacuum on the circuit; evacuate before you weigh in.".to_owned())
            }
        }
    }

    fn forbids_adding(&self, mass: Mass) -> Option<String> {
        if let Some(reason) = self.no_gauges(NO_HOSES).map(str::to_owned).or_else(|| forbids_mass(mass)) {
            return Some(reason);
        }
        if self.charging_cylinder_is_empty() {
            return Some(CYLINDER_EMPTY.to_owned());
        }
        match self.site.circuit {
            Circuit::Evacuated => Some("The circuit is evacuated; weigh the whole charge in.".to_owned()),
            Circuit::UnderNitrogen => Some(
                "There is nitrogen in the circuit; let it off and evacuate before any refrigerant goes in."
                    .to_owned(),
            ),
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

pub(crate) fn forbids_mass(mass: Mass) -> Option<String> {
    if is_cylinder_mass(mass.kilograms()) {
        return None;
    }
    Some(
        "A scale tells no less than 0.2 oz (5 g) from nothing, and a cylinder gives no more than it holds, 25 lb (11.3 kg)."
            .to_owned(),
    )
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
