//! The laws of a plant that are followed along their tangents.

use serde::{Deserialize, Serialize};

use crate::condenser::CondenserTangent;
use crate::evaporator::CoilTangent;
use crate::level::LevelTangent;
use crate::metering::PathTangent;
use crate::shell::ShellTangent;
use crate::tangent::{Stretch, Tangent};

/// Temperature and quality at a place by pressure, Pa, and enthalpy, J/kg, and how far these may be from where they were looked up.
pub(crate) type PlaceTangent = Tangent<2, 2, 0>;
pub(crate) const PLACE_NEAR: [f64; 2] = [600.0, 30.0];

/// The stretches of such a place: liquid, two phases, vapour.
pub(crate) fn stretch_by_quality(quality: f64) -> Stretch {
    Some(u8::from(quality > 0.0) + u8::from(quality >= 1.0))
}

/// Each law where it was last worked out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Tangents {
    pub high: LevelTangent,
    pub low: LevelTangent,
    /// Temperature and quality at the service valve of the suction line and in the liquid line, by pressure and enthalpy.
    pub at_valve: PlaceTangent,
    pub in_line: PlaceTangent,
    /// Pressure of the bulb.
    pub bulb: Tangent<1, 1, 1>,
    /// Temperatures read along the liquid line: service valve, before the drier, after it, at the metering device.
    pub liquid: [Tangent<2, 1, 0>; 4],
    /// Wet bulbs of return and supply air.
    pub wet_bulbs: [Tangent<2, 1, 0>; 2],
    pub shell: ShellTangent,
    pub path: PathTangent,
    pub condenser: CondenserTangent,
    pub coil: CoilTangent,
}

impl Tangents {
    /// Every law worked out whenever it is asked for.
    pub(crate) fn exact() -> Tangents {
        Tangents {
            high: Tangent::exact(),
            low: Tangent::exact(),
            at_valve: Tangent::exact(),
            in_line: Tangent::exact(),
            bulb: Tangent::exact(),
            liquid: [Tangent::exact(); 4],
            wet_bulbs: [Tangent::exact(); 2],
            shell: Tangent::exact(),
            path: Tangent::exact(),
            condenser: Tangent::exact(),
            coil: Tangent::exact(),
        }
    }
}
