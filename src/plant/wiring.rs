//! Terminals of the wiring and the voltages between them.

use serde::{Deserialize, Serialize};

/// A point where a meter probe can be put.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Terminal {
    /// Low-voltage terminal R at the air handler (24 V hot).
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
    /// Blower motor terminal, leg 1 (behind the blower relay).
    BlowerMotor1,
    /// Blower motor terminal, leg 2.
    BlowerMotor2,
}
