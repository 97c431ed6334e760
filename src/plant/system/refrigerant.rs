//! Which refrigerant a system holds, and how it is classed.

use media::refrigerant::Refrigerant;
use serde::{Deserialize, Serialize};

use crate::metering::Critical;

/// Refrigerants the program has tables for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum RefrigerantName {
    /// R-410A.
    R410A,
    ///
    R32,
    /// R-454B, a blend with a glide.
    R454B,
    ///
    R22,
}

/// Safety class of a refrigerant after ASHRAE 34: toxicity by letter, flammability by number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SafetyClass {
    /// Lower toxicity, no flame propagation.
    A1,
    /// Lower toxicity, lower flammability (burns slowly).
    A2L,
}

impl RefrigerantName {
    /// Every refrigerant.
    pub const ALL: [RefrigerantName; 4] =
        [RefrigerantName::R410A, RefrigerantName::R32, RefrigerantName::R454B, RefrigerantName::R22];

    /// Its property tables.
    pub fn tables(self) -> &'static Refrigerant {
        match self {
            RefrigerantName::R410A => Refrigerant::r410a(),
            RefrigerantName::R32 => Refrigerant::r32(),
            RefrigerantName::R454B => Refrigerant::r454b(),
            RefrigerantName::R22 => Refrigerant::r22(),
        }
    }

    /// Critical point, after the equations of state of the tables; the temperature of R-454B is from memory (its use here, the
    /// subcooling of a fixed orifice, meets no system that holds it).
    pub(crate) fn critical(self) -> Critical {
        let (pressure_pa, temperature_k) = match self {
            RefrigerantName::R410A => (4.9012e6, 344.494),
            RefrigerantName::R32 => (5.7826e6, 351.255),
            RefrigerantName::R454B => (5.304e6, 351.3),
            RefrigerantName::R22 => (4.990e6, 369.295),
        };
        Critical { pressure_pa, temperature_k }
    }

    /// As written on a data plate.
    pub fn label(self) -> &'static str {
        match self {
            RefrigerantName::R410A => "R-410A",
            RefrigerantName::R32 => "R-32",
            RefrigerantName::R454B => "R-454B",
            RefrigerantName::R22 => "R-22",
        }
    }

    /// Safety class after ASHRAE 34.
    pub fn safety_class(self) -> SafetyClass {
        match self {
            RefrigerantName::R410A | RefrigerantName::R22 => SafetyClass::A1,
            RefrigerantName::R32 | RefrigerantName::R454B => SafetyClass::A2L,
        }
    }

    /// Whether it is a blend, whose vapour has another composition than its liquid.
    pub fn is_blend(self) -> bool {
        matches!(self, RefrigerantName::R410A | RefrigerantName::R454B)
    }

    /// Lower flammability limit in air, kg/m³ (ASHRAE 34, UL 60335-2-40); `None` for class A1.
    pub fn lower_flammability_limit_kg_m3(self) -> Option<f64> {
        match self {
            RefrigerantName::R32 => Some(0.306),
            RefrigerantName::R454B => Some(0.296),
            RefrigerantName::R410A | RefrigerantName::R22 => None,
        }
    }
}

impl SafetyClass {
    /// As written on a data plate.
    pub fn label(self) -> &'static str {
        match self {
            SafetyClass::A1 => "A1",
            SafetyClass::A2L => "A2L",
        }
    }
}
