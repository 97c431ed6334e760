//! Service: what a technician changes with tools, and what hangs on the service ports.

use serde::{Deserialize, Serialize};

use crate::{FaultKind, LeakPlace};

/// Work on the plant. Work that opens the refrigerant circuit vents what is left above atmospheric
/// pressure and lets air in: recover first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Work {
    /// A new filter in the slot (and, if the old one had collapsed, the coil face cleared).
    ReplaceFilter,
    /// A new metering device with a new liquid-line drier. Opens the circuit.
    ReplaceMeteringDevice,
    /// The bulb strapped to the suction line and insulated.
    StrapAndInsulateBulb,
    /// A leak closed. Opens the circuit.
    RepairLeak(LeakPlace),
}

impl Work {
    /// Whether the refrigerant circuit must be opened for it.
    pub fn opens_circuit(self) -> bool {
        matches!(self, Work::ReplaceMeteringDevice | Work::RepairLeak(_))
    }
}

/// What came of a piece of work.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WorkOutcome {
    /// Refrigerant that escaped to the air because of the work, kg.
    pub vented_kg: f64,
    /// Kinds of fault that it removed (empty: the part was sound).
    pub cleared: Vec<FaultKind>,
}
