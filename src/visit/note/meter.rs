//! Notes of the meter.

use serde::{Deserialize, Serialize};

/// Of the meter and what its leads meet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum MeterNote {
    /// There is power on the module; an arc at the plug.
    ModuleLive,
    /// The capacitors of the module were still charged; an arc at the plug.
    ModuleCharged,
    /// Measured at the motor's half of its plug.
    AtMotorPlug,
    /// Measured with the leads of the motor off.
    MotorLeadsOff,
    /// The meter shows no continuity.
    NoContinuity,
    /// Measured with the leads of the start winding off the capacitor.
    CapacitorLeadsOff,
    /// The meter shows nothing that holds a charge.
    NoCapacitance,
    /// Something that conducts lies across the probes.
    Shunted,
    /// The display jumps: there is voltage between the probes.
    Disturbed,
    /// The meter met a charged capacitor.
    OnChargedCapacitor,
    /// The meter met voltage while it measured ohms or microfarads.
    OnVoltage,
}
