//! What quantities a move can be given: one table for moves files, refusals, the window's dialogs and the command line.

use std::ops::RangeInclusive;

use call::{Duration, Mass, Pressure, Temperature, TemperatureDifference};
use media::units::STANDARD_ATMOSPHERE_PA;
use quantity::{Amount, Bounds};
use strum::VariantArray;

use crate::file_mistake::{Asked, FileMistake};
use crate::refusal::Refusal;

/// Coldest set point of the thermostat on the wall, K: 50 °F.
pub(crate) const SET_POINT_MIN_K: f64 = 283.15;
/// Warmest set point, K: 90 °F.
const SET_POINT_MAX_K: f64 = 305.372_222_222_222_2;
/// What a full cylinder of refrigerant holds, kg: 25 lb.
const CYLINDER_KG: f64 = 11.339_809_25;
/// Least that a charging scale tells from nothing, kg: its accuracy (typ. of its class).
pub(crate) const SCALE_TELLS_KG: f64 = 0.005;
/// Longest single wait, s: 12 h.
pub(crate) const WAIT_LIMIT_S: f64 = 12.0 * 3600.0;
/// Highest pressure that the nitrogen regulator can be set to, Pa gauge: 650 psi (typ.).
const REGULATOR_PA: f64 = 4.5e6;
/// Rounding that a conversion of units may bring to a temperature, K.
const ROUNDING_K: f64 = 1.0e-6;
/// The same of a pressure, Pa.
const ROUNDING_PA: f64 = 1.0;

/// A quantity that a move is given and that has its limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, VariantArray)]
pub enum Limited {
    /// Set point of the thermostat.
    SetPoint,
    /// Refrigerant out of a cylinder or into one, by the scale.
    Mass,
    /// A time that passes at once.
    Wait,
    /// The latest end of a move.
    Within,
    /// What the nitrogen regulator is set to.
    TestPressure,
    /// How deep a recovery goes.
    RecoveryDepth,
    /// How deep a pump is asked to go.
    Vacuum,
    /// Superheat or subcooling that a charge is adjusted to.
    ChargeTarget,
}

/// Between what a quantity lies.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// Least and most that a move can be given, in SI: K, kg, s, Pa (gauge for a regulator, absolute otherwise).
    pub range: RangeInclusive<f64>,
    /// What a dialog lets be entered in inches and pounds: °F, oz, min, psig, inHg of vacuum, micron. Round numbers within the range; a
    /// vacuum ends where nobody calls it one.
    pub entered_ip: RangeInclusive<f64>,
    /// The same in metric units: °C, g, min, kPa gauge, kPa of vacuum, Pa.
    pub entered_si: RangeInclusive<f64>,
}

impl Limited {
    /// The row of the table.
    pub fn limit(self) -> Limit {
        let (range, entered_ip, entered_si) = match self {
            Limited::SetPoint => {
                (SET_POINT_MIN_K - ROUNDING_K..=SET_POINT_MAX_K + ROUNDING_K, 50.0..=90.0, 10.0..=32.0)
            }
            Limited::Mass => (SCALE_TELLS_KG..=CYLINDER_KG, 0.2..=400.0, 5.0..=11_300.0),
            Limited::Wait | Limited::Within => (f64::MIN_POSITIVE..=WAIT_LIMIT_S, 1.0..=720.0, 1.0..=720.0),
            Limited::TestPressure => (f64::MIN_POSITIVE..=REGULATOR_PA, 1.0..=650.0, 1.0..=4500.0),
            Limited::RecoveryDepth => (5.0e3..=STANDARD_ATMOSPHERE_PA + ROUNDING_PA, 0.0..=28.0, 0.0..=95.0),
            Limited::Vacuum => (3.0..=STANDARD_ATMOSPHERE_PA - ROUNDING_PA, 25.0..=20_000.0, 3.0..=2600.0),
            Limited::ChargeTarget => (0.5..=40.0, 1.0..=72.0, 0.5..=40.0),
        };
        Limit { range, entered_ip, entered_si }
    }

    /// What a file is told of it.
    fn asked(self) -> Asked {
        match self {
            Limited::SetPoint => Asked::SetPoint,
            Limited::Mass => Asked::Refrigerant,
            Limited::Wait => Asked::Wait,
            Limited::Within => Asked::Limit,
            Limited::TestPressure => Asked::TestPressure,
            Limited::RecoveryDepth => Asked::Recovery,
            Limited::Vacuum => Asked::Vacuum,
            Limited::ChargeTarget => Asked::ChargeTarget,
        }
    }

    /// The limits in round numbers, in the SI unit of an [`Amount`]: pressures are absolute there.
    fn bounds(self) -> Bounds {
        const INCH_OF_MERCURY_PA: f64 = 3_386.389;
        match self {
            Limited::SetPoint => Bounds::new(SET_POINT_MIN_K, SET_POINT_MAX_K),
            Limited::Mass => Bounds::new(SCALE_TELLS_KG, CYLINDER_KG),
            Limited::Wait | Limited::Within => Bounds::new(0.0, WAIT_LIMIT_S),
            Limited::TestPressure => {
                Bounds::new(STANDARD_ATMOSPHERE_PA, STANDARD_ATMOSPHERE_PA + REGULATOR_PA)
            }
            Limited::RecoveryDepth => {
                Bounds::new(STANDARD_ATMOSPHERE_PA - 28.0 * INCH_OF_MERCURY_PA, STANDARD_ATMOSPHERE_PA)
            }
            Limited::Vacuum => Bounds::new(*self.limit().range.start(), STANDARD_ATMOSPHERE_PA),
            Limited::ChargeTarget => Bounds::new(0.5, 40.0),
        }
    }
}

/// A quantity that a move was given, and what refuses one that is out of its limits.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Value {
    pub of: Limited,
    pub si: f64,
    /// As it was written.
    pub amount: Amount,
    pub refusal: Refusal,
}

impl Value {
    pub(crate) fn set_point(given: Temperature) -> Value {
        Value {
            of: Limited::SetPoint,
            si: given.kelvin(),
            amount: given.into(),
            refusal: Refusal::SetPointOutOfRange,
        }
    }

    pub(crate) fn mass(given: Mass) -> Value {
        Value {
            of: Limited::Mass,
            si: given.kilograms(),
            amount: given.into(),
            refusal: Refusal::MassOutOfRange,
        }
    }

    pub(crate) fn wait(given: Duration, refusal: Refusal) -> Value {
        Value { of: Limited::Wait, si: given.seconds(), amount: given.into(), refusal }
    }

    pub(crate) fn within(given: Duration, refusal: Refusal) -> Value {
        Value { of: Limited::Within, si: given.seconds(), amount: given.into(), refusal }
    }

    pub(crate) fn test_pressure(given: Pressure) -> Value {
        Value {
            of: Limited::TestPressure,
            si: given.gauge_pa(),
            amount: given.into(),
            refusal: Refusal::RegulatorOutOfRange,
        }
    }

    pub(crate) fn recovery_depth(given: Pressure) -> Value {
        Value {
            of: Limited::RecoveryDepth,
            si: given.absolute_pa(),
            amount: given.into(),
            refusal: Refusal::RecoveryOutOfRange,
        }
    }

    pub(crate) fn vacuum(given: Pressure) -> Value {
        Value {
            of: Limited::Vacuum,
            si: given.absolute_pa(),
            amount: given.into(),
            refusal: Refusal::VacuumOutOfRange,
        }
    }

    pub(crate) fn charge_target(given: TemperatureDifference) -> Value {
        Value {
            of: Limited::ChargeTarget,
            si: given.kelvin(),
            amount: given.into(),
            refusal: Refusal::TargetOutOfRange,
        }
    }

    /// What a file is told of one that is out of its limits.
    pub(crate) fn impossible(self) -> FileMistake {
        let (low, high) = self.of.bounds().ends(self.amount.unit);
        FileMistake::Impossible { asked: self.of.asked(), amount: self.amount, low, high }
    }

    /// Whether it is within its limits.
    pub(crate) fn is_allowed(self) -> bool {
        self.of.limit().range.contains(&self.si)
    }
}

/// Whether a charging scale tells so much from nothing, kg.
pub fn scale_tells(mass_kg: f64) -> bool {
    mass_kg >= SCALE_TELLS_KG
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a dialog lets be entered at its ends can be made, and a little more can't, but where a dialog ends earlier.
    #[test]
    fn what_can_be_entered_is_allowed() {
        let si_of = |of: Limited, ip: f64, si: f64| match of {
            Limited::SetPoint => [Temperature::Fahrenheit(ip).kelvin(), Temperature::Celsius(si).kelvin()],
            Limited::Mass => [Mass::Ounces(ip).kilograms(), Mass::Grams(si).kilograms()],
            Limited::Wait | Limited::Within => {
                [Duration::Minutes(ip).seconds(), Duration::Minutes(si).seconds()]
            }
            Limited::TestPressure => {
                [Pressure::PoundsGauge(ip).gauge_pa(), Pressure::KilopascalsGauge(si).gauge_pa()]
            }
            Limited::RecoveryDepth => {
                [Pressure::InchesOfVacuum(ip).absolute_pa(), Pressure::KilopascalsGauge(-si).absolute_pa()]
            }
            Limited::Vacuum => {
                [Pressure::Microns(ip).absolute_pa(), Pressure::PascalsAbsolute(si).absolute_pa()]
            }
            Limited::ChargeTarget => [
                TemperatureDifference::FahrenheitDifference(ip).kelvin(),
                TemperatureDifference::CelsiusDifference(si).kelvin(),
            ],
        };
        for of in Limited::VARIANTS {
            let limit = of.limit();
            let ends = [
                si_of(*of, *limit.entered_ip.start(), *limit.entered_si.start()),
                si_of(*of, *limit.entered_ip.end(), *limit.entered_si.end()),
            ];
            for value in ends.into_iter().flatten() {
                assert!(limit.range.contains(&value), "{of:?}: {value} is not in {:?}", limit.range);
            }
            assert!(!limit.range.contains(&(limit.range.end() + 0.01 * limit.range.end().abs())), "{of:?}");
        }
    }
}
