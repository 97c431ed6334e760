//! Numbers with a unit, both ways, and the bounds of what is allowed.

use media::units;
use serde::{Deserialize, Serialize};

use crate::{Duration, Mass, Pressure, Temperature, TemperatureDifference};

/// A unit in which people write a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Unit {
    /// A bare number.
    One,
    /// A share from 0 to 1, never in percent.
    Share,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Degrees Celsius.
    Celsius,
    /// Fahrenheit degrees between two temperatures.
    FahrenheitDifference,
    /// Celsius degrees between two temperatures.
    CelsiusDifference,
    /// Ounces.
    Ounce,
    /// Pounds.
    Pound,
    /// Grams.
    Gram,
    /// Kilograms.
    Kilogram,
    /// Seconds.
    Second,
    /// Minutes.
    Minute,
    /// Hours.
    Hour,
    /// Pounds per square inch over atmospheric pressure.
    PoundGauge,
    /// Kilopascals over atmospheric pressure.
    KilopascalGauge,
    /// Inches of mercury below atmospheric pressure.
    InchOfVacuum,
    /// Microns of mercury, absolute.
    Micron,
    /// Pascals, absolute.
    PascalAbsolute,
    /// W.
    Watt,
    /// W/K.
    WattPerKelvin,
    /// J/K.
    JoulePerKelvin,
    /// W/m².
    WattPerSquareMeter,
    /// K per W/m².
    KelvinPerWattPerSquareMeter,
    /// kg/s.
    KilogramPerSecond,
    /// m².
    SquareMeter,
}

impl Unit {
    /// From a number in this unit to SI: K, kg, s, Pa absolute; other units are SI.
    pub fn si_of(self, number: f64) -> f64 {
        match self {
            Unit::Fahrenheit => Temperature::Fahrenheit(number).kelvin(),
            Unit::Celsius => Temperature::Celsius(number).kelvin(),
            Unit::FahrenheitDifference => TemperatureDifference::FahrenheitDifference(number).kelvin(),
            Unit::Ounce => Mass::Ounces(number).kilograms(),
            Unit::Pound => Mass::Pounds(number).kilograms(),
            Unit::Gram => Mass::Grams(number).kilograms(),
            Unit::Minute => Duration::Minutes(number).seconds(),
            Unit::Hour => Duration::Hours(number).seconds(),
            Unit::PoundGauge => Pressure::PoundsGauge(number).absolute_pa(),
            Unit::KilopascalGauge => Pressure::KilopascalsGauge(number).absolute_pa(),
            Unit::InchOfVacuum => Pressure::InchesOfVacuum(number).absolute_pa(),
            Unit::Micron => Pressure::Microns(number).absolute_pa(),
            Unit::One
            | Unit::Share
            | Unit::CelsiusDifference
            | Unit::Kilogram
            | Unit::Second
            | Unit::PascalAbsolute
            | Unit::Watt
            | Unit::WattPerKelvin
            | Unit::JoulePerKelvin
            | Unit::WattPerSquareMeter
            | Unit::KelvinPerWattPerSquareMeter
            | Unit::KilogramPerSecond
            | Unit::SquareMeter => number,
        }
    }

    /// From SI to a number in this unit.
    pub fn number_of(self, si: f64) -> f64 {
        match self {
            Unit::Fahrenheit => units::fahrenheit_from_kelvin(si),
            Unit::Celsius => units::celsius_from_kelvin(si),
            Unit::FahrenheitDifference => units::fahrenheit_difference_from_kelvin_difference(si),
            Unit::Ounce => units::oz_from_kg(si),
            Unit::Pound => units::lb_from_kg(si),
            Unit::Gram => 1000.0 * si,
            Unit::Minute => si / 60.0,
            Unit::Hour => si / 3600.0,
            Unit::PoundGauge => units::psi_from_pa(si - units::STANDARD_ATMOSPHERE_PA),
            Unit::KilopascalGauge => (si - units::STANDARD_ATMOSPHERE_PA) / 1000.0,
            Unit::InchOfVacuum => units::inches_of_mercury_from_pa(units::STANDARD_ATMOSPHERE_PA - si),
            Unit::Micron => units::micron_from_pa(si),
            Unit::One
            | Unit::Share
            | Unit::CelsiusDifference
            | Unit::Kilogram
            | Unit::Second
            | Unit::PascalAbsolute
            | Unit::Watt
            | Unit::WattPerKelvin
            | Unit::JoulePerKelvin
            | Unit::WattPerSquareMeter
            | Unit::KelvinPerWattPerSquareMeter
            | Unit::KilogramPerSecond
            | Unit::SquareMeter => si,
        }
    }

    /// An SI value in this unit.
    pub fn of_si(self, si: f64) -> Amount {
        Amount { written: self.number_of(si), unit: self }
    }
}

/// A number as it is written, with its unit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Amount {
    /// The number, in the unit.
    pub written: f64,
    /// The unit.
    pub unit: Unit,
}

impl Amount {
    /// A number in a unit.
    pub const fn new(written: f64, unit: Unit) -> Amount {
        Amount { written, unit }
    }

    /// In SI, as [`Unit::si_of`].
    pub fn si(self) -> f64 {
        self.unit.si_of(self.written)
    }
}

impl From<Temperature> for Amount {
    fn from(written: Temperature) -> Amount {
        match written {
            Temperature::Fahrenheit(number) => Amount::new(number, Unit::Fahrenheit),
            Temperature::Celsius(number) => Amount::new(number, Unit::Celsius),
        }
    }
}

impl From<TemperatureDifference> for Amount {
    fn from(written: TemperatureDifference) -> Amount {
        match written {
            TemperatureDifference::FahrenheitDifference(number) => {
                Amount::new(number, Unit::FahrenheitDifference)
            }
            TemperatureDifference::CelsiusDifference(number) => Amount::new(number, Unit::CelsiusDifference),
        }
    }
}

impl From<Mass> for Amount {
    fn from(written: Mass) -> Amount {
        match written {
            Mass::Ounces(number) => Amount::new(number, Unit::Ounce),
            Mass::Pounds(number) => Amount::new(number, Unit::Pound),
            Mass::Grams(number) => Amount::new(number, Unit::Gram),
            Mass::Kilograms(number) => Amount::new(number, Unit::Kilogram),
        }
    }
}

impl From<Duration> for Amount {
    fn from(written: Duration) -> Amount {
        match written {
            Duration::Seconds(number) => Amount::new(number, Unit::Second),
            Duration::Minutes(number) => Amount::new(number, Unit::Minute),
            Duration::Hours(number) => Amount::new(number, Unit::Hour),
        }
    }
}

impl From<Pressure> for Amount {
    fn from(written: Pressure) -> Amount {
        match written {
            Pressure::PoundsGauge(number) => Amount::new(number, Unit::PoundGauge),
            Pressure::KilopascalsGauge(number) => Amount::new(number, Unit::KilopascalGauge),
            Pressure::InchesOfVacuum(number) => Amount::new(number, Unit::InchOfVacuum),
            Pressure::Microns(number) => Amount::new(number, Unit::Micron),
            Pressure::PascalsAbsolute(number) => Amount::new(number, Unit::PascalAbsolute),
        }
    }
}

/// What is allowed: from a lowest to a highest value in SI, both included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Lowest, SI.
    pub low: f64,
    /// Highest, SI.
    pub high: f64,
}

/// Rounding that a conversion of units may bring, as a share of the larger end and at least of one.
const ROUNDING: f64 = 1.0e-12;

impl Bounds {
    /// From a lowest to a highest value, SI.
    pub const fn new(low: f64, high: f64) -> Bounds {
        Bounds { low, high }
    }

    /// Whether a value in SI lies within, but for the rounding of a conversion.
    pub fn holds(self, si: f64) -> bool {
        let rounding = ROUNDING * self.low.abs().max(self.high.abs()).max(1.0);
        (self.low - rounding..=self.high + rounding).contains(&si)
    }

    /// Both ends in the unit of somebody's own.
    pub fn ends(self, unit: Unit) -> (Amount, Amount) {
        let (one, other) = (unit.of_si(self.low), unit.of_si(self.high));
        // A vacuum is deeper the lower the pressure is.
        if one.written <= other.written { (one, other) } else { (other, one) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Unit; 25] = [
        Unit::One,
        Unit::Share,
        Unit::Fahrenheit,
        Unit::Celsius,
        Unit::FahrenheitDifference,
        Unit::CelsiusDifference,
        Unit::Ounce,
        Unit::Pound,
        Unit::Gram,
        Unit::Kilogram,
        Unit::Second,
        Unit::Minute,
        Unit::Hour,
        Unit::PoundGauge,
        Unit::KilopascalGauge,
        Unit::InchOfVacuum,
        Unit::Micron,
        Unit::PascalAbsolute,
        Unit::Watt,
        Unit::WattPerKelvin,
        Unit::JoulePerKelvin,
        Unit::WattPerSquareMeter,
        Unit::KelvinPerWattPerSquareMeter,
        Unit::KilogramPerSecond,
        Unit::SquareMeter,
    ];

    #[test]
    fn every_unit_goes_there_and_back() {
        for unit in ALL {
            for number in [-20.0, 0.0, 1.0, 28.0, 500.0] {
                let back = unit.of_si(unit.si_of(number)).written;
                assert!((back - number).abs() < 1.0e-6, "{unit:?}: {number} came back as {back}");
            }
        }
    }

    #[test]
    fn amounts_are_those_of_the_tables() {
        // NIST SP 811, appendix B: 1 lb, 1 psi over the standard atmosphere, 28 inHg below it, 500 microns.
        for (amount, si) in [
            (Amount::from(Mass::Pounds(1.0)), 0.453_592_37),
            (Amount::from(Pressure::PoundsGauge(1.0)), 101_325.0 + 6_894.757),
            (Amount::from(Pressure::InchesOfVacuum(28.0)), 101_325.0 - 94_818.9),
            (Amount::from(Pressure::Microns(500.0)), 66.661),
            (Amount::from(Temperature::Fahrenheit(95.0)), 308.15),
            (Amount::from(TemperatureDifference::FahrenheitDifference(18.0)), 10.0),
            (Amount::from(Duration::Hours(2.0)), 7200.0),
        ] {
            assert!((amount.si() - si).abs() < 1.0e-3 * si.abs(), "{amount:?}: {}", amount.si());
        }
    }

    #[test]
    fn the_ends_of_bounds_are_within_in_every_unit() {
        let bounds = Bounds::new(248.15, 333.15);
        for number in [-13.0, 140.0] {
            assert!(bounds.holds(Unit::Fahrenheit.si_of(number)), "{number}");
        }
        assert!(bounds.holds(Unit::Celsius.si_of(-25.0)) && !bounds.holds(Unit::Celsius.si_of(-25.01)));
        assert!(!bounds.holds(f64::NAN) && !bounds.holds(f64::INFINITY));
        let (low, high) = Bounds::new(6_505.0, 101_325.0).ends(Unit::InchOfVacuum);
        assert!(low.written.abs() < 1.0e-9 && (high.written - 28.0).abs() < 0.01, "{low:?} {high:?}");
    }
}
