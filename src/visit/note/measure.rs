//! Notes of gauges, clamps and probes.

use serde::{Deserialize, Serialize};

/// Of gauges, clamps and probes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum GaugeNote {
    /// The hoses are on and purged.
    HosesOn,
    /// At rest both gauges show nearly the same.
    BothTheSame,
    /// The hoses are off, the ports capped.
    HosesOff {
        /// Lost at the fittings, kg.
        lost_kg: f64,
        /// Shut in the hoses, kg.
        kept_kg: f64,
    },
    /// The display has not come to rest.
    NotAtRest,
    /// The compressor is off: nothing is said of a running system.
    CompressorOff,
    /// There was ice on the coil when it was last seen.
    IceWhenLastSeen,
    /// The discharge line is hot enough to burn.
    DischargeBurns,
    /// Hardly any air passes the probe.
    HardlyAnyAir,
    /// What the plate of the air handler allows outside it.
    PlateAllowsStatic {
        /// Most total external static pressure, Pa.
        most_static_pa: f64,
    },
}
