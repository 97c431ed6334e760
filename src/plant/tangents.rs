//! The laws of a plant that are followed along their tangents.

use serde::{Deserialize, Serialize};

use crate::condenser::CondenserTangent;
use crate::flows::ValveTangent;
use crate::level::LevelTangent;
use crate::metering::PathTangent;
use crate::shell::ShellTangent;
use crate::tangent::Tangent;

/// Each law where it was last worked out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Tangents {
    pub high: LevelTangent,
    pub low: LevelTangent,
    pub at_valve: ValveTangent,
    pub shell: ShellTangent,
    pub path: PathTangent,
    pub condenser: CondenserTangent,
}

impl Tangents {
    /// Every law worked out whenever it is asked for.
    pub(crate) fn exact() -> Tangents {
        Tangents {
            high: Tangent::exact(),
            low: Tangent::exact(),
            at_valve: Tangent::exact(),
            shell: Tangent::exact(),
            path: Tangent::exact(),
            condenser: Tangent::exact(),
        }
    }
}
