//! Notes of recovery and its cylinder.

use serde::{Deserialize, Serialize};

/// Of recovery and its cylinder.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum RecoveryNote {
    /// The system's own compressor still runs.
    OwnCompressorRuns,
    /// What was recovered by the scale.
    Recovered {
        /// What the scale shows, kg.
        weighed_kg: f64,
    },
    /// The float switch has stopped the machine.
    CylinderFull {
        /// What the cylinder holds, kg.
        holds_kg: f64,
    },
    /// Pressure is left in the circuit.
    NotEmpty {
        /// How much, Pa gauge.
        left_gauge_pa: f64,
    },
    /// The gauges rose after the machine had stopped, and it was run again.
    RanAgain {
        /// How far they rose the first time, Pa.
        rise_difference_pa: f64,
        /// How often it was run again.
        times: u32,
    },
    /// The gauges stay at the vacuum that was asked for.
    AtSetVacuum,
    /// The gauges stay at zero or below.
    AtZero,
    /// After an hour they are still above it.
    StillAbove,
    /// What was drawn off by the scale.
    DrawnOff {
        /// What the scale shows, kg.
        weighed_kg: f64,
    },
    /// Less than was wanted.
    StopsShort,
    /// A full charging cylinder stands on the scale.
    ChargingCylinderFetched,
    /// An empty recovery cylinder stands on the scale.
    RecoveryCylinderFetched,
}
