//! Notes of nitrogen.

use serde::{Deserialize, Serialize};

/// Of nitrogen.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum NitrogenNote {
    /// More was put on than the data plate tests the low side with.
    AbovePlate {
        /// Test pressure of the low side, Pa gauge.
        plate_gauge_pa: f64,
    },
    /// The regulator is shut.
    Shut {
        /// What the gauge shows, Pa gauge.
        shown_gauge_pa: f64,
    },
    /// What gauge and thermometers showed at start and end.
    Stood {
        /// At the start, Pa gauge.
        first_gauge_pa: f64,
        /// Mean of the air at the start, K.
        first_k: f64,
        /// At the end, Pa gauge.
        last_gauge_pa: f64,
        /// Mean of the air at the end, K.
        last_k: f64,
    },
    /// Corrected for temperature nothing is lost or gained.
    NoDrop {
        /// What the temperature makes of the first pressure, Pa gauge.
        expected_gauge_pa: f64,
    },
    /// Corrected for temperature pressure is lost.
    Dropped {
        /// What the temperature makes of the first pressure, Pa gauge.
        expected_gauge_pa: f64,
        /// How much is lost, Pa.
        drop_difference_pa: f64,
    },
    /// Corrected for temperature pressure is gained.
    Rose {
        /// What the temperature makes of the first pressure, Pa gauge.
        expected_gauge_pa: f64,
        /// How much is gained, Pa.
        rise_difference_pa: f64,
    },
    /// So short a test shows only a large hole.
    TooShort,
    /// It is not off yet.
    StillHisses,
    /// Refrigerant went with it that had not been recovered.
    RefrigerantWent {
        /// How much, kg.
        vented_kg: f64,
    },
    /// The gauges are at zero.
    AtZero,
    /// Nitrogen on and off, then pump and nitrogen again.
    Flushed {
        /// How often.
        times: u32,
    },
    /// The detector at the hose stays far below the flammability limit.
    DetectorSilent,
    /// It still sounds.
    DetectorSounds,
    /// Three times on and off.
    Purged,
}
