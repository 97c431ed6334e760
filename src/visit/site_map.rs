//! The map of the site: where terminals, conductors, pipes and air points are, behind which panel, and what is measured where.

use plant::{Capacitor, Conductor, LeakPlace, Terminal};

use crate::place::{AirPoint, Location, Panel, PipePoint, Place, StaticTap};

impl Place {
    /// On which side of the wall it is.
    pub fn location(self) -> Location {
        match self {
            Place::LineSet | Place::Drier | Place::OutdoorUnit | Place::OutdoorDisconnect => {
                Location::Outdoors
            }
            Place::Thermostat
            | Place::ReturnGrille
            | Place::SupplyRegister
            | Place::FilterSlot
            | Place::Blower
            | Place::IndoorCoil
            | Place::MeteringDevice
            | Place::ControlBoard => Location::Indoors,
        }
    }
}

impl Panel {
    /// On which side of the wall it is.
    pub fn location(self) -> Location {
        match self {
            Panel::OutdoorElectrical => Location::Outdoors,
            Panel::BlowerCompartment | Panel::CoilCabinet => Location::Indoors,
        }
    }
}

impl PipePoint {
    /// On which side of the wall it is.
    pub fn location(self) -> Location {
        match self {
            PipePoint::SuctionAtBulb | PipePoint::LiquidAtMeteringDevice | PipePoint::SensingBulb => {
                Location::Indoors
            }
            PipePoint::SuctionAtServiceValve
            | PipePoint::LiquidAtServiceValve
            | PipePoint::LiquidBeforeDrier
            | PipePoint::LiquidAfterDrier
            | PipePoint::Discharge => Location::Outdoors,
        }
    }
}

impl AirPoint {
    /// On which side of the wall it is.
    pub fn location(self) -> Location {
        match self {
            AirPoint::Outdoor => Location::Outdoors,
            AirPoint::Return | AirPoint::Supply => Location::Indoors,
        }
    }
}

/// On which side of the wall refrigerant may escape.
pub(crate) fn leak_location(place: LeakPlace) -> Location {
    match place {
        LeakPlace::IndoorCoil => Location::Indoors,
        LeakPlace::SuctionServiceValve | LeakPlace::LiquidLine => Location::Outdoors,
    }
}

/// Behind which panel a capacitor is.
pub(crate) fn capacitor_panel(capacitor: Capacitor) -> Panel {
    match capacitor {
        Capacitor::Blower => Panel::BlowerCompartment,
        Capacitor::Compressor | Capacitor::OutdoorFan => Panel::OutdoorElectrical,
    }
}

/// Where a terminal is; `None` for the metal of the cabinets, which is on both sides.
pub fn terminal_location(terminal: Terminal) -> Option<Location> {
    match terminal {
        Terminal::Ground => None,
        _ if terminal.is_outdoors() => Some(Location::Outdoors),
        _ => Some(Location::Indoors),
    }
}

/// Where both probes reach; `None` if they don't.
pub(crate) fn probes_location(from: Terminal, to: Terminal) -> Option<Location> {
    match (terminal_location(from), terminal_location(to)) {
        (Some(one), Some(other)) => (one == other).then_some(one),
        (one, other) => one.or(other).or(Some(Location::Indoors)),
    }
}

/// Behind which panel a terminal is; `None` for boxes that open by their own lid, and for the cabinet's metal.
pub(crate) fn terminal_panel(terminal: Terminal) -> Option<Panel> {
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
pub(crate) fn conductor_place(conductor: Conductor) -> Place {
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
        Place::Thermostat
        | Place::ReturnGrille
        | Place::SupplyRegister
        | Place::FilterSlot
        | Place::IndoorCoil
        | Place::MeteringDevice
        | Place::LineSet
        | Place::Drier
        | Place::OutdoorDisconnect => &[],
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
        Place::Thermostat
        | Place::ReturnGrille
        | Place::SupplyRegister
        | Place::FilterSlot
        | Place::IndoorCoil
        | Place::MeteringDevice
        | Place::LineSet
        | Place::Drier => &[],
    }
}

/// Where air is measured from a place.
pub(crate) fn air_point(place: Place) -> Option<AirPoint> {
    match place {
        Place::ReturnGrille => Some(AirPoint::Return),
        Place::SupplyRegister => Some(AirPoint::Supply),
        Place::OutdoorUnit => Some(AirPoint::Outdoor),
        Place::Thermostat
        | Place::FilterSlot
        | Place::Blower
        | Place::IndoorCoil
        | Place::MeteringDevice
        | Place::LineSet
        | Place::Drier
        | Place::OutdoorDisconnect
        | Place::ControlBoard => None,
    }
}

/// Taps whose difference tells of a place, for lists: from the higher pressure to the lower one.
pub(crate) fn static_pairs(place: Place) -> &'static [(StaticTap, StaticTap)] {
    match place {
        Place::ReturnGrille => &[(StaticTap::Room, StaticTap::Return)],
        Place::FilterSlot => &[(StaticTap::Return, StaticTap::BeforeCoil)],
        Place::IndoorCoil => &[(StaticTap::BeforeCoil, StaticTap::AfterCoil)],
        Place::Blower => &[StaticTap::EXTERNAL],
        Place::SupplyRegister => &[(StaticTap::Supply, StaticTap::Room)],
        Place::Thermostat
        | Place::MeteringDevice
        | Place::LineSet
        | Place::Drier
        | Place::OutdoorUnit
        | Place::OutdoorDisconnect
        | Place::ControlBoard => &[],
    }
}
