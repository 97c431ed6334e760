//! Terminals where a meter probe can be put, and conductors that a clamp can be put around.

use serde::{Deserialize, Serialize};

/// Resistance of a wire within a cabinet, ohm (typ.). Those between the units have theirs by length, see [`Conductor::ohm`].
pub(crate) const WIRE_OHM: f64 = 0.005;

/// A point where a meter probe can be put.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Terminal {
    /// Low-voltage terminal R at the air handler (24 V hot, behind the fuse).
    R,
    /// Low-voltage terminal C at the air handler (common).
    C,
    /// Low-voltage terminal Y at the air handler (call for the compressor).
    Y,
    /// Low-voltage terminal G at the air handler (call for the blower).
    G,
    /// Contactor coil at the outdoor unit, Y side.
    ContactorCoilY,
    /// Contactor coil at the outdoor unit, C side.
    ContactorCoilC,
    /// Line 1 at the supply side of the outdoor disconnect.
    DisconnectLine1,
    /// Line 2 at the supply side of the outdoor disconnect.
    DisconnectLine2,
    /// Line 1 at the load side of the outdoor disconnect.
    DisconnectLoad1,
    /// Line 2 at the load side of the outdoor disconnect.
    DisconnectLoad2,
    /// Switched pole of the contactor, leg 1 (compressor and outdoor fan).
    ContactorLoad1,
    /// Switched pole of the contactor, leg 2.
    ContactorLoad2,
    /// Blower motor, line lead of leg 1 (behind the blower relay on a PSC motor).
    BlowerMotor1,
    /// Blower motor, line lead of leg 2.
    BlowerMotor2,
    /// Metal of the cabinets (equipment ground).
    Ground,
    /// R at the thermostat.
    ThermostatR,
    /// Y at the thermostat.
    ThermostatY,
    /// G at the thermostat.
    ThermostatG,
    /// Control transformer, line side, leg 1.
    TransformerPrimary1,
    /// Control transformer, line side, leg 2.
    TransformerPrimary2,
    /// Control transformer, 24 V side, hot.
    TransformerSecondary1,
    /// Control transformer, 24 V side, common.
    TransformerSecondary2,
    /// Low-voltage fuse, side of the transformer.
    FuseSupply,
    /// Low-voltage fuse, side of R.
    FuseLoad,
    /// Condensate float switch, side of the thermostat.
    FloatSwitchIn,
    /// Condensate float switch, side of the outdoor unit.
    FloatSwitchOut,
    /// Indoor service switch, supply side, leg 1.
    ServiceLine1,
    /// Indoor service switch, supply side, leg 2.
    ServiceLine2,
    /// Indoor service switch, load side, leg 1.
    ServiceLoad1,
    /// Indoor service switch, load side, leg 2.
    ServiceLoad2,
    /// Blower relay on the board, line side of its contact.
    BlowerRelayCommon,
    /// Blower relay on the board, motor side of its contact.
    BlowerRelayOut,
    /// Coil of the blower relay on the board, G side (behind what the board does with G).
    BlowerRelayCoilG,
    /// Coil of the blower relay, C side.
    BlowerRelayCoilC,
    /// Blower capacitor, line side.
    BlowerCapacitor1,
    /// Blower capacitor, side of the start winding.
    BlowerCapacitor2,
    /// Blower motor, lead of the start winding.
    BlowerMotorStart,
    /// Line plug of the ECM module, leg 1.
    EcmLine1,
    /// Line plug of the ECM module, leg 2.
    EcmLine2,
    /// Connector of the board for the ECM, command pin: where the board puts the command out.
    EcmBoardCommand,
    /// Control plug of the ECM module, command pin.
    EcmCommand,
    /// Control plug of the ECM module, common pin.
    EcmCommon,
    /// Three-pin plug between module and ECM motor, pulled: the motor's first phase.
    EcmMotor1,
    /// The motor's second phase.
    EcmMotor2,
    /// The motor's third phase.
    EcmMotor3,
    /// Low-voltage connection Y in the outdoor unit.
    OutdoorY,
    /// Low-voltage connection C in the outdoor unit.
    OutdoorC,
    /// High-pressure switch, side of Y.
    HighPressureIn,
    /// High-pressure switch, side of the contactor.
    HighPressureOut,
    /// Low-pressure switch, side of Y (a jumper where none is fitted).
    LowPressureIn,
    /// Low-pressure switch, side of the contactor.
    LowPressureOut,
    /// Contactor, line side, leg 1.
    ContactorLine1,
    /// Contactor, line side, leg 2.
    ContactorLine2,
    /// Dual capacitor, common terminal C.
    CapacitorCommon,
    /// Dual capacitor, terminal Herm (compressor).
    CapacitorHerm,
    /// Dual capacitor, terminal Fan.
    CapacitorFan,
    /// Compressor terminal C (common of both windings, behind the overload).
    CompressorCommon,
    /// Compressor terminal S (start winding).
    CompressorStart,
    /// Compressor terminal R (run winding).
    CompressorRun,
    /// Outdoor fan motor, common lead.
    FanMotorCommon,
    /// Outdoor fan motor, run lead.
    FanMotorRun,
    /// Outdoor fan motor, start lead.
    FanMotorStart,
}

impl Terminal {
    /// Whether it is the end of a motor's winding.
    pub fn is_of_a_winding(self) -> bool {
        use Terminal::*;
        matches!(
            self,
            FanMotorCommon
                | FanMotorRun
                | FanMotorStart
                | CompressorCommon
                | CompressorRun
                | CompressorStart
                | BlowerMotor1
                | BlowerMotor2
                | BlowerMotorStart
        )
    }

    /// Every terminal.
    pub const ALL: [Terminal; 62] = [
        Terminal::R,
        Terminal::C,
        Terminal::Y,
        Terminal::G,
        Terminal::ContactorCoilY,
        Terminal::ContactorCoilC,
        Terminal::DisconnectLine1,
        Terminal::DisconnectLine2,
        Terminal::DisconnectLoad1,
        Terminal::DisconnectLoad2,
        Terminal::ContactorLoad1,
        Terminal::ContactorLoad2,
        Terminal::BlowerMotor1,
        Terminal::BlowerMotor2,
        Terminal::Ground,
        Terminal::ThermostatR,
        Terminal::ThermostatY,
        Terminal::ThermostatG,
        Terminal::TransformerPrimary1,
        Terminal::TransformerPrimary2,
        Terminal::TransformerSecondary1,
        Terminal::TransformerSecondary2,
        Terminal::FuseSupply,
        Terminal::FuseLoad,
        Terminal::FloatSwitchIn,
        Terminal::FloatSwitchOut,
        Terminal::ServiceLine1,
        Terminal::ServiceLine2,
        Terminal::ServiceLoad1,
        Terminal::ServiceLoad2,
        Terminal::BlowerRelayCommon,
        Terminal::BlowerRelayOut,
        Terminal::BlowerRelayCoilG,
        Terminal::BlowerRelayCoilC,
        Terminal::BlowerCapacitor1,
        Terminal::BlowerCapacitor2,
        Terminal::BlowerMotorStart,
        Terminal::EcmLine1,
        Terminal::EcmLine2,
        Terminal::EcmBoardCommand,
        Terminal::EcmCommand,
        Terminal::EcmCommon,
        Terminal::EcmMotor1,
        Terminal::EcmMotor2,
        Terminal::EcmMotor3,
        Terminal::OutdoorY,
        Terminal::OutdoorC,
        Terminal::HighPressureIn,
        Terminal::HighPressureOut,
        Terminal::LowPressureIn,
        Terminal::LowPressureOut,
        Terminal::ContactorLine1,
        Terminal::ContactorLine2,
        Terminal::CapacitorCommon,
        Terminal::CapacitorHerm,
        Terminal::CapacitorFan,
        Terminal::CompressorCommon,
        Terminal::CompressorStart,
        Terminal::CompressorRun,
        Terminal::FanMotorCommon,
        Terminal::FanMotorRun,
        Terminal::FanMotorStart,
    ];

    /// What it is called on the wiring diagram.
    pub fn label(self) -> &'static str {
        match self {
            Terminal::R => "R (24 V hot)",
            Terminal::C => "C (24 V common)",
            Terminal::Y => "Y (cooling call)",
            Terminal::G => "G (blower call)",
            Terminal::ContactorCoilY => "contactor coil, Y side",
            Terminal::ContactorCoilC => "contactor coil, C side",
            Terminal::DisconnectLine1 => "disconnect, line 1",
            Terminal::DisconnectLine2 => "disconnect, line 2",
            Terminal::DisconnectLoad1 => "disconnect, load 1",
            Terminal::DisconnectLoad2 => "disconnect, load 2",
            Terminal::ContactorLoad1 => "contactor, load 1",
            Terminal::ContactorLoad2 => "contactor, load 2",
            Terminal::BlowerMotor1 => "blower motor, lead 1",
            Terminal::BlowerMotor2 => "blower motor, lead 2",
            Terminal::Ground => "cabinet ground",
            Terminal::ThermostatR => "thermostat, R",
            Terminal::ThermostatY => "thermostat, Y",
            Terminal::ThermostatG => "thermostat, G",
            Terminal::TransformerPrimary1 => "transformer primary 1",
            Terminal::TransformerPrimary2 => "transformer primary 2",
            Terminal::TransformerSecondary1 => "transformer secondary 1 (hot)",
            Terminal::TransformerSecondary2 => "transformer secondary 2 (common)",
            Terminal::FuseSupply => "low-voltage fuse, transformer side",
            Terminal::FuseLoad => "low-voltage fuse, R side",
            Terminal::FloatSwitchIn => "float switch, thermostat side",
            Terminal::FloatSwitchOut => "float switch, outdoor side",
            Terminal::ServiceLine1 => "service switch, line 1",
            Terminal::ServiceLine2 => "service switch, line 2",
            Terminal::ServiceLoad1 => "service switch, load 1",
            Terminal::ServiceLoad2 => "service switch, load 2",
            Terminal::BlowerRelayCommon => "blower relay, common",
            Terminal::BlowerRelayOut => "blower relay, output",
            Terminal::BlowerRelayCoilG => "blower relay coil, G side",
            Terminal::BlowerRelayCoilC => "blower relay coil, C side",
            Terminal::BlowerCapacitor1 => "blower capacitor 1",
            Terminal::BlowerCapacitor2 => "blower capacitor 2",
            Terminal::BlowerMotorStart => "blower motor, start lead",
            Terminal::EcmLine1 => "ECM plug, line 1",
            Terminal::EcmLine2 => "ECM plug, line 2",
            Terminal::EcmBoardCommand => "board, ECM command out",
            Terminal::EcmCommand => "ECM plug, command",
            Terminal::EcmCommon => "ECM plug, common",
            Terminal::EcmMotor1 => "ECM motor plug, phase 1",
            Terminal::EcmMotor2 => "ECM motor plug, phase 2",
            Terminal::EcmMotor3 => "ECM motor plug, phase 3",
            Terminal::OutdoorY => "outdoor unit, Y",
            Terminal::OutdoorC => "outdoor unit, C",
            Terminal::HighPressureIn => "high-pressure switch, Y side",
            Terminal::HighPressureOut => "high-pressure switch, contactor side",
            Terminal::LowPressureIn => "low-pressure switch, Y side",
            Terminal::LowPressureOut => "low-pressure switch, contactor side",
            Terminal::ContactorLine1 => "contactor, line 1",
            Terminal::ContactorLine2 => "contactor, line 2",
            Terminal::CapacitorCommon => "dual capacitor, C",
            Terminal::CapacitorHerm => "dual capacitor, Herm",
            Terminal::CapacitorFan => "dual capacitor, Fan",
            Terminal::CompressorCommon => "compressor, C",
            Terminal::CompressorStart => "compressor, S",
            Terminal::CompressorRun => "compressor, R",
            Terminal::FanMotorCommon => "outdoor fan, common lead",
            Terminal::FanMotorRun => "outdoor fan, run lead",
            Terminal::FanMotorStart => "outdoor fan, start lead",
        }
    }

    /// Whether it is in the outdoor unit (or at its disconnect); the others are at the air handler or thermostat.
    pub fn is_outdoors(self) -> bool {
        use Terminal::*;
        matches!(
            self,
            ContactorCoilY
                | ContactorCoilC
                | DisconnectLine1
                | DisconnectLine2
                | DisconnectLoad1
                | DisconnectLoad2
                | ContactorLine1
                | ContactorLine2
                | ContactorLoad1
                | ContactorLoad2
                | OutdoorY
                | OutdoorC
                | HighPressureIn
                | HighPressureOut
                | LowPressureIn
                | LowPressureOut
                | CapacitorCommon
                | CapacitorHerm
                | CapacitorFan
                | CompressorCommon
                | CompressorStart
                | CompressorRun
                | FanMotorCommon
                | FanMotorRun
                | FanMotorStart
        )
    }

    /// Which kind of blower motor it belongs to; `None`: any.
    pub fn blower_only(self) -> Option<BlowerKind> {
        use Terminal::*;
        match self {
            BlowerRelayCommon | BlowerRelayOut | BlowerRelayCoilG | BlowerRelayCoilC | BlowerCapacitor1
            | BlowerCapacitor2 | BlowerMotorStart => Some(BlowerKind::Psc),
            EcmLine1 | EcmLine2 | EcmBoardCommand | EcmCommand | EcmCommon => Some(BlowerKind::Ecm),
            phase if phase.is_ecm_phase() => Some(BlowerKind::Ecm),
            _ => None,
        }
    }

    /// Whether it is a phase of the ECM motor at the motor's half of its plug. It is only reached with that plug pulled.
    pub fn is_ecm_phase(self) -> bool {
        matches!(self, Terminal::EcmMotor1 | Terminal::EcmMotor2 | Terminal::EcmMotor3)
    }

    pub(crate) const fn node(self) -> usize {
        self as usize
    }
}

/// Kind of blower motor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum BlowerKind {
    /// Permanent split capacitor motor.
    Psc,
    /// Electronically commutated motor.
    Ecm,
}

/// A conductor that a clamp can be put around. Its positive direction is the one in which the wire leaves the point
/// named first in the table below: towards the load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Conductor {
    /// Outdoor supply, leg 1.
    SupplyLeg1,
    /// Outdoor supply, leg 2.
    SupplyLeg2,
    /// Wire to compressor C.
    CompressorCommon,
    /// Wire to compressor R.
    CompressorRun,
    /// Wire from Herm to compressor S.
    CompressorStart,
    /// Wire to the dual capacitor's C.
    CapacitorCommon,
    /// Common lead of the outdoor fan.
    FanCommon,
    /// Run lead of the outdoor fan.
    FanRun,
    /// Start lead of the outdoor fan.
    FanStart,
    /// Indoor supply, leg 1.
    IndoorLeg1,
    /// Indoor supply, leg 2.
    IndoorLeg2,
    /// Wire to the blower relay.
    RelayFeed,
    /// Blower lead 1.
    BlowerLine,
    /// Blower lead 2.
    BlowerReturn,
    /// Start lead of the blower.
    BlowerStart,
    /// Wire to the transformer's primary.
    TransformerFeed,
    /// Wire from the transformer's primary.
    TransformerReturn,
    /// 24 V hot wire of the transformer.
    ControlHot,
    /// 24 V common wire of the transformer.
    ControlCommon,
    /// Wire from the fuse to R.
    FuseToR,
    /// Thermostat cable, R.
    ThermostatR,
    /// Thermostat cable, Y.
    ThermostatY,
    /// Thermostat cable, G.
    ThermostatG,
    /// Wire to the float switch.
    FloatSwitch,
    /// Y conductor to the outdoor unit.
    YToOutdoor,
    /// C conductor to the outdoor unit.
    CommonToOutdoor,
    /// Wire to the high-pressure switch.
    HighPressureSwitch,
    /// Wire to the low-pressure switch.
    LowPressureSwitch,
    /// Wire to the contactor coil.
    ContactorCoil,
    /// Wire from the contactor coil.
    CoilCommon,
    /// Command wire of the ECM.
    EcmCommand,
    /// Common wire of the ECM.
    EcmCommon,
}

impl Conductor {
    /// Every conductor.
    pub const ALL: [Conductor; 32] = [
        Conductor::SupplyLeg1,
        Conductor::SupplyLeg2,
        Conductor::CompressorCommon,
        Conductor::CompressorRun,
        Conductor::CompressorStart,
        Conductor::CapacitorCommon,
        Conductor::FanCommon,
        Conductor::FanRun,
        Conductor::FanStart,
        Conductor::IndoorLeg1,
        Conductor::IndoorLeg2,
        Conductor::RelayFeed,
        Conductor::BlowerLine,
        Conductor::BlowerReturn,
        Conductor::BlowerStart,
        Conductor::TransformerFeed,
        Conductor::TransformerReturn,
        Conductor::ControlHot,
        Conductor::ControlCommon,
        Conductor::FuseToR,
        Conductor::ThermostatR,
        Conductor::ThermostatY,
        Conductor::ThermostatG,
        Conductor::FloatSwitch,
        Conductor::YToOutdoor,
        Conductor::CommonToOutdoor,
        Conductor::HighPressureSwitch,
        Conductor::LowPressureSwitch,
        Conductor::ContactorCoil,
        Conductor::CoilCommon,
        Conductor::EcmCommand,
        Conductor::EcmCommon,
    ];

    /// What a technician calls it.
    pub fn label(self) -> &'static str {
        match self {
            Conductor::SupplyLeg1 => "outdoor supply, leg 1",
            Conductor::SupplyLeg2 => "outdoor supply, leg 2",
            Conductor::CompressorCommon => "wire to compressor C",
            Conductor::CompressorRun => "wire to compressor R",
            Conductor::CompressorStart => "wire from Herm to compressor S",
            Conductor::CapacitorCommon => "wire to the dual capacitor's C",
            Conductor::FanCommon => "common lead of the outdoor fan",
            Conductor::FanRun => "run lead of the outdoor fan",
            Conductor::FanStart => "start lead of the outdoor fan",
            Conductor::IndoorLeg1 => "indoor supply, leg 1",
            Conductor::IndoorLeg2 => "indoor supply, leg 2",
            Conductor::RelayFeed => "wire to the blower relay",
            Conductor::BlowerLine => "blower lead 1",
            Conductor::BlowerReturn => "blower lead 2",
            Conductor::BlowerStart => "start lead of the blower",
            Conductor::TransformerFeed => "wire to the transformer's primary",
            Conductor::TransformerReturn => "wire from the transformer's primary",
            Conductor::ControlHot => "24 V hot wire of the transformer",
            Conductor::ControlCommon => "24 V common wire of the transformer",
            Conductor::FuseToR => "wire from the fuse to R",
            Conductor::ThermostatR => "thermostat cable, R",
            Conductor::ThermostatY => "thermostat cable, Y",
            Conductor::ThermostatG => "thermostat cable, G",
            Conductor::FloatSwitch => "wire to the float switch",
            Conductor::YToOutdoor => "Y conductor to the outdoor unit",
            Conductor::CommonToOutdoor => "C conductor to the outdoor unit",
            Conductor::HighPressureSwitch => "wire to the high-pressure switch",
            Conductor::LowPressureSwitch => "wire to the low-pressure switch",
            Conductor::ContactorCoil => "wire to the contactor coil",
            Conductor::CoilCommon => "wire from the contactor coil",
            Conductor::EcmCommand => "command wire of the ECM",
            Conductor::EcmCommon => "common wire of the ECM",
        }
    }

    /// Which kind of blower motor it belongs to; `None`: any.
    pub fn blower_only(self) -> Option<BlowerKind> {
        match self {
            Conductor::RelayFeed | Conductor::BlowerStart => Some(BlowerKind::Psc),
            Conductor::EcmCommand | Conductor::EcmCommon => Some(BlowerKind::Ecm),
            _ => None,
        }
    }

    /// Resistance, ohm. Cables between thermostat, air handler and outdoor unit: 18 AWG copper has 21 mohm/m at 20 °C (standard
    /// wire table); 12 m to the thermostat and 15 m to the outdoor unit (typ. of a house).
    pub(crate) const fn ohm(self) -> f64 {
        const CABLE_OHM_M: f64 = 0.021;
        match self {
            Conductor::ThermostatR | Conductor::ThermostatY | Conductor::ThermostatG => 12.0 * CABLE_OHM_M,
            Conductor::YToOutdoor | Conductor::CommonToOutdoor => 15.0 * CABLE_OHM_M,
            _ => WIRE_OHM,
        }
    }

    /// The nodes that it joins.
    pub(crate) const fn ends(self) -> (usize, usize) {
        match self {
            Conductor::SupplyLeg1 => (Terminal::DisconnectLoad1.node(), Terminal::ContactorLine1.node()),
            Conductor::SupplyLeg2 => (Terminal::DisconnectLoad2.node(), Terminal::ContactorLine2.node()),
            Conductor::CompressorCommon => {
                (Terminal::ContactorLoad1.node(), Terminal::CompressorCommon.node())
            }
            Conductor::CompressorRun => (Terminal::ContactorLoad2.node(), Terminal::CompressorRun.node()),
            Conductor::CompressorStart => (Terminal::CapacitorHerm.node(), Terminal::CompressorStart.node()),
            Conductor::CapacitorCommon => (Terminal::ContactorLoad2.node(), Terminal::CapacitorCommon.node()),
            Conductor::FanCommon => (Terminal::ContactorLoad1.node(), Terminal::FanMotorCommon.node()),
            Conductor::FanRun => (Terminal::CapacitorCommon.node(), Terminal::FanMotorRun.node()),
            Conductor::FanStart => (Terminal::CapacitorFan.node(), Terminal::FanMotorStart.node()),
            Conductor::IndoorLeg1 => (Terminal::ServiceLoad1.node(), FEED1),
            Conductor::IndoorLeg2 => (Terminal::ServiceLoad2.node(), FEED2),
            Conductor::RelayFeed => (FEED1, Terminal::BlowerRelayCommon.node()),
            Conductor::BlowerLine => (BLOWER_LINE, Terminal::BlowerMotor1.node()),
            Conductor::BlowerReturn => (FEED2, Terminal::BlowerMotor2.node()),
            Conductor::BlowerStart => (Terminal::BlowerCapacitor2.node(), Terminal::BlowerMotorStart.node()),
            Conductor::TransformerFeed => (FEED1, Terminal::TransformerPrimary1.node()),
            Conductor::TransformerReturn => (FEED2, Terminal::TransformerPrimary2.node()),
            Conductor::ControlHot => (Terminal::TransformerSecondary1.node(), Terminal::FuseSupply.node()),
            Conductor::ControlCommon => (Terminal::TransformerSecondary2.node(), Terminal::C.node()),
            Conductor::FuseToR => (Terminal::FuseLoad.node(), Terminal::R.node()),
            Conductor::ThermostatR => (Terminal::R.node(), Terminal::ThermostatR.node()),
            Conductor::ThermostatY => (Terminal::ThermostatY.node(), Terminal::Y.node()),
            Conductor::ThermostatG => (Terminal::ThermostatG.node(), Terminal::G.node()),
            Conductor::FloatSwitch => (Terminal::Y.node(), Terminal::FloatSwitchIn.node()),
            Conductor::YToOutdoor => (Terminal::FloatSwitchOut.node(), Terminal::OutdoorY.node()),
            Conductor::CommonToOutdoor => (Terminal::C.node(), Terminal::OutdoorC.node()),
            Conductor::HighPressureSwitch => (Terminal::OutdoorY.node(), Terminal::HighPressureIn.node()),
            Conductor::LowPressureSwitch => {
                (Terminal::HighPressureOut.node(), Terminal::LowPressureIn.node())
            }
            Conductor::ContactorCoil => (Terminal::LowPressureOut.node(), Terminal::ContactorCoilY.node()),
            Conductor::CoilCommon => (Terminal::OutdoorC.node(), Terminal::ContactorCoilC.node()),
            Conductor::EcmCommand => (Terminal::EcmBoardCommand.node(), Terminal::EcmCommand.node()),
            Conductor::EcmCommon => (Terminal::C.node(), Terminal::EcmCommon.node()),
        }
    }
}

/// Inner nodes, behind the terminals: the star points of the motors, the indoor feed, the blower's side of its switch.
pub(crate) const COMPRESSOR_STAR: usize = Terminal::ALL.len();
pub(crate) const FAN_STAR: usize = COMPRESSOR_STAR + 1;
pub(crate) const BLOWER_STAR: usize = COMPRESSOR_STAR + 2;
pub(crate) const FEED1: usize = COMPRESSOR_STAR + 3;
pub(crate) const FEED2: usize = COMPRESSOR_STAR + 4;
pub(crate) const BLOWER_LINE: usize = COMPRESSOR_STAR + 5;
/// Number of nodes.
pub(crate) const NODES: usize = COMPRESSOR_STAR + 6;
