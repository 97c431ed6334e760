//! Superheat and subcooling: a pipe's temperature against saturation, or why there is nothing to compare.

use plant::Plant;
use serde::{Deserialize, Serialize};

use crate::place::ChargeBy;
use crate::running::START_UP_S;

/// What gauge and clamp together can be off by, K: half a kelvin of the clamp, and 1 psi of the gauge (half a kelvin at the
/// suction pressures of R-410A and its like). A value so little below zero is shown as it is; further below there is none.
const NOISE_K: f64 = 1.0;

/// A superheat or a subcooling.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Margin {
    /// So much, K.
    Kelvin(f64),
    /// There is none.
    Absent(Absence),
}

/// Why there is no superheat or no subcooling.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Absence {
    /// The compressor stands.
    AtRest,
    /// The compressor has just started.
    StartingUp,
    /// No liquid meets vapour in that part of the circuit: there is no saturation to compare with.
    NoLiquid,
    /// Liquid and vapour are both at the point.
    TwoPhase,
}

/// A superheat or a subcooling as the notebook says it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum ShownMargin {
    /// So much superheat.
    Superheat {
        /// How much, K.
        difference_k: f64,
    },
    /// So little superheat that instruments can't tell it from none.
    SaturatedVapor {
        /// How much, K.
        difference_k: f64,
    },
    /// No superheat, and why.
    NoSuperheat(Absence),
    /// So much subcooling.
    Subcooling {
        /// How much, K.
        difference_k: f64,
    },
    /// So little subcooling that instruments can't tell it from none.
    SaturatedLiquid {
        /// How much, K.
        difference_k: f64,
    },
    /// No subcooling, and why.
    NoSubcooling(Absence),
}

impl Margin {
    /// The true one of this instant, if there is one.
    pub(crate) fn of(plant: &Plant, by: ChargeBy) -> Margin {
        if !plant.compressor_runs() {
            return Margin::Absent(Absence::AtRest);
        }
        if plant.compressor_on_for_s() < START_UP_S {
            return Margin::Absent(Absence::StartingUp);
        }
        let saturated = plant.saturated();
        let value_k = match by {
            // A condenser without liquid feeds the coil with vapour.
            ChargeBy::Superheat => saturated.condensing_k.and(saturated.superheat_k),
            ChargeBy::Subcooling => saturated.subcooling_k,
        };
        value_k.map_or(Margin::Absent(Absence::NoLiquid), Margin::shown)
    }

    /// What a gauge and a clamp together say of a running machine.
    pub fn shown(value_k: f64) -> Margin {
        if value_k < -NOISE_K { Margin::Absent(Absence::TwoPhase) } else { Margin::Kelvin(value_k) }
    }

    /// Rounded to a tenth of a kelvin.
    pub(crate) fn to_tenths(self) -> Margin {
        match self {
            // Without the sign of a negative zero.
            Margin::Kelvin(value_k) => Margin::Kelvin(libm::round(value_k * 10.0) / 10.0 + 0.0),
            absent @ Margin::Absent(_) => absent,
        }
    }

    /// The value, K.
    pub fn kelvin(self) -> Option<f64> {
        match self {
            Margin::Kelvin(value_k) => Some(value_k),
            Margin::Absent(_) => None,
        }
    }

    /// The same as a fact of superheat or of subcooling.
    pub fn of_what(self, by: ChargeBy) -> ShownMargin {
        match (by, self) {
            (ChargeBy::Superheat, Margin::Kelvin(difference_k)) if difference_k.abs() <= NOISE_K => {
                ShownMargin::SaturatedVapor { difference_k }
            }
            (ChargeBy::Superheat, Margin::Kelvin(difference_k)) => ShownMargin::Superheat { difference_k },
            (ChargeBy::Superheat, Margin::Absent(absence)) => ShownMargin::NoSuperheat(absence),
            (ChargeBy::Subcooling, Margin::Kelvin(difference_k)) if difference_k.abs() <= NOISE_K => {
                ShownMargin::SaturatedLiquid { difference_k }
            }
            (ChargeBy::Subcooling, Margin::Kelvin(difference_k)) => ShownMargin::Subcooling { difference_k },
            (ChargeBy::Subcooling, Margin::Absent(absence)) => ShownMargin::NoSubcooling(absence),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_below_zero_by_more_than_instruments_err_is_none() {
        let shown = |value_k: f64, by| Margin::shown(value_k).to_tenths().of_what(by);
        use ShownMargin as S;
        assert_eq!(shown(5.04, ChargeBy::Superheat), S::Superheat { difference_k: 5.0 });
        assert_eq!(shown(5.04, ChargeBy::Subcooling), S::Subcooling { difference_k: 5.0 });
        assert_eq!(shown(-0.31, ChargeBy::Superheat), S::SaturatedVapor { difference_k: -0.3 });
        let nothing = shown(-0.04, ChargeBy::Subcooling);
        assert!(
            matches!(nothing, S::SaturatedLiquid { difference_k } if difference_k.to_bits() == 0),
            "{nothing:?} has the sign of a negative zero"
        );
        assert_eq!(shown(-3.0, ChargeBy::Superheat), S::NoSuperheat(Absence::TwoPhase));
        assert_eq!(shown(-40.0, ChargeBy::Subcooling), S::NoSubcooling(Absence::TwoPhase));
    }
}
