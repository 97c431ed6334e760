//! Notes of flames, air and the detector.

use serde::{Deserialize, Serialize};

/// What is found and done about flames and air where refrigerant may burn.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum AreaNote {
    /// The refrigerant is of class A1.
    DoesNotBurn,
    /// Outdoors the detector stays silent.
    SilentOutdoors,
    /// At the air handler the detector stays silent.
    SilentIndoors,
    /// At the air handler the detector shows refrigerant.
    Detected {
        /// Share of the lower flammability limit.
        share: f64,
    },
    /// It shows so much that the place is left until it has cleared.
    LeftUntilClear {
        /// Share of the lower flammability limit.
        share: f64,
    },
    /// Flames and sparks are out, the place is aired.
    SafeIndoors,
    /// No flame near, an extinguisher at hand.
    SafeOutdoors,
    /// Refrigerant that burns was handled where nobody had made the place safe.
    NotMadeSafe,
}
