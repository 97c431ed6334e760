//! Notes of switches, panels, declarations and the way out.

use plant::FaultKind;
use serde::{Deserialize, Serialize};

use crate::place::Panel;

/// Of switches, panels, declarations and the way out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum SiteNote {
    /// The thermostat was turned off.
    ThermostatOff {
        /// What it reads in the room, K.
        wall_k: f64,
    },
    /// The thermostat was set to cool.
    ThermostatCool {
        /// Set point, K.
        set_point_k: f64,
        /// What it reads in the room, K.
        wall_k: f64,
    },
    /// The panel was opened on exposed live parts.
    LivePanel,
    /// The disconnect is out, the outdoor unit dead behind it.
    DisconnectOut,
    /// The disconnect is in.
    DisconnectIn,
    /// The air handler is dead, and with it the low voltage.
    AirHandlerDead,
    /// The air handler has power.
    AirHandlerPowered,
    /// The outdoor unit is heard to run on all the same.
    RunsOn,
    /// Water is heard to run into the drain pan.
    WaterRuns,
    /// A cause is named.
    CauseNamed {
        /// Which.
        cause: FaultKind,
    },
    /// An entry is cited that is not there.
    NoSuchEntry {
        /// Its number.
        entry: u32,
    },
    /// The cause has places, and none was said.
    PlaceNotSaid,
    /// No entry is cited that supports it.
    NothingCited,
    /// It replaces what was declared before.
    ReplacesEarlier,
    /// A panel is put back on.
    PanelBackOn(Panel),
    /// The technician leaves with the disconnect out.
    LeftDisconnectOut,
    /// The technician leaves with the air handler switched off.
    LeftAirHandlerOff,
    /// The technician leaves with the thermostat off.
    LeftThermostatOff,
    /// The technician leaves with the bulb off the line.
    LeftBulbOff,
    /// The technician leaves with no charge in the circuit.
    LeftWithoutCharge,
    /// The customer signs.
    TicketClosed,
}
