//! Notes of leaks and of cutting into the circuit.

use plant::LeakPlace;
use serde::{Deserialize, Serialize};

/// Of leaks, and of cutting into the circuit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum LeakNote {
    /// The detector finds a leak.
    FoundByDetector(LeakPlace),
    /// Bubbles show a leak.
    FoundByBubbles(LeakPlace),
    /// Nothing is found.
    Nothing(LeakPlace),
    /// Ice covers the coil; bubbles show nothing under it.
    UnderIce,
    /// The detector smells refrigerant and not nitrogen.
    SmellsNoNitrogen,
    /// There is too little pressure for a leak to show.
    TooLittlePressure,
    /// The circuit is opened with the disconnect in.
    DisconnectIn,
    /// What is left in the circuit can burn, and a torch is lit.
    TorchOnGas,
    /// The circuit is cut under nitrogen.
    NitrogenBlowsOff,
    /// The circuit is cut with refrigerant in it.
    Vented {
        /// What escapes, kg.
        vented_kg: f64,
    },
    /// The hole is closed.
    HoleClosed(LeakPlace),
    /// There was no hole.
    NoHole(LeakPlace),
    /// A new metering device and a new drier are in.
    MeteringDeviceIn,
    /// The old device does not move as it should.
    MeteringWasFaulty,
    /// The old device moves as it should.
    MeteringWasSound,
}
