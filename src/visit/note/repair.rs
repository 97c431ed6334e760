//! Notes of parts replaced and put right.

use plant::Work;
use serde::{Deserialize, Serialize};

/// Of parts replaced and put right.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum WorkNote {
    /// The outdoor unit had power while it was worked on.
    OutdoorPowerOn,
    /// The air handler had power while it was worked on.
    IndoorPowerOn,
    /// A capacitor was touched that still held its charge.
    CapacitorSnaps,
    /// What was done.
    Done(Work),
    /// What the old part or the place showed: it had been faulty.
    WasFaulty(Work),
    /// The same: it had been sound.
    WasSound(Work),
    /// There is air in the circuit now.
    AirInCircuit,
    /// There is power on the capacitor; it stays charged.
    ResistorHot,
    /// The charge is drawn off.
    ChargeDrawnOff,
    /// There was none left.
    NoChargeLeft,
}
