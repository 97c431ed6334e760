//! Where refrigerant escapes, and how large the hole is.

use serde::{Deserialize, Serialize};

/// Where refrigerant escapes.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, strum::IntoStaticStr,
)]
#[strum(serialize_all = "kebab-case")]
pub enum LeakPlace {
    /// The indoor coil: low side, mostly vapour.
    IndoorCoil,
    /// The suction service valve at the outdoor unit: low side, vapour.
    SuctionServiceValve,
    /// A joint of the liquid line between the units: liquid.
    LiquidLine,
}

impl LeakPlace {
    /// Every place.
    pub const ALL: [LeakPlace; 3] =
        [LeakPlace::IndoorCoil, LeakPlace::SuctionServiceValve, LeakPlace::LiquidLine];

    /// Its name on the command line: lower case with hyphens.
    pub fn kebab(self) -> &'static str {
        self.into()
    }
}

/// Diameter of the hole of a leak, m, from its severity: 0.02 mm at 0, 1 mm at 1, logarithmic.
/// Zero severity is no hole. Engineering scale of our own: a pinhole that takes weeks to a rubbed-through tube.
pub(crate) fn hole_diameter_m(severity: f64) -> f64 {
    if severity <= 0.0 { 0.0 } else { 2.0e-5 * libm::pow(50.0, severity.min(1.0)) }
}
