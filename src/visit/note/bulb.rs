//! Notes of the sensing bulb.

use serde::{Deserialize, Serialize};

/// What the sensing bulb and the suction gauge show together.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum BulbNote {
    /// Suction pressure climbs while the bulb warms.
    ValveOpens {
        /// By how much, Pa.
        rise_difference_pa: f64,
    },
    /// It does not.
    NoRise,
    /// The bulb is still in the hand.
    InHand,
    /// Without gauges nothing is seen.
    NoGauges,
    /// The compressor started only meanwhile.
    StartedMeanwhile,
    /// The compressor is off, so the valve has nothing to answer with.
    CompressorOff,
    /// Suction pressure was as low before as a closed valve would hold it.
    AsLowBefore,
    /// Suction pressure falls to a coil below freezing.
    ValveCloses {
        /// By how much, Pa.
        fall_difference_pa: f64,
    },
    /// It stays above what a bulb in ice asks for.
    DoesNotClose {
        /// By how much it fell, Pa.
        fall_difference_pa: f64,
    },
    /// The compressor went off before anything had been told.
    WentOff,
    /// The bulb is still in the ice water.
    InIceWater,
    /// It is back on the line as it was found.
    PutBack,
    /// It is strapped and wrapped.
    Insulated,
    /// The hand was needed elsewhere; the bulb hangs off the line.
    LetGo,
}
