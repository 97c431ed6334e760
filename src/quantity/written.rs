//! Quantities as calls, moves and records hold them: a number with its unit.

use media::units;
use serde::{Deserialize, Serialize};

/// A temperature with its unit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Temperature {
    /// Degrees Fahrenheit.
    Fahrenheit(f64),
    /// Degrees Celsius.
    Celsius(f64),
}

impl Temperature {
    /// In K.
    #[must_use]
    pub fn kelvin(self) -> f64 {
        match self {
            Temperature::Fahrenheit(t_f) => units::kelvin_from_fahrenheit(t_f),
            Temperature::Celsius(t_c) => units::kelvin_from_celsius(t_c),
        }
    }
}

/// A difference of two temperatures with its unit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum TemperatureDifference {
    /// Fahrenheit degrees between two temperatures.
    FahrenheitDifference(f64),
    /// Celsius degrees between two temperatures.
    CelsiusDifference(f64),
}

impl TemperatureDifference {
    /// In K.
    #[must_use]
    pub fn kelvin(self) -> f64 {
        match self {
            TemperatureDifference::FahrenheitDifference(difference_f) => {
                units::kelvin_difference_from_fahrenheit_difference(difference_f)
            }
            TemperatureDifference::CelsiusDifference(difference_c) => difference_c,
        }
    }
}

/// A mass with its unit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Mass {
    /// Ounces (avoirdupois).
    Ounces(f64),
    /// Pounds (avoirdupois).
    Pounds(f64),
    /// Grams.
    Grams(f64),
    /// Kilograms.
    Kilograms(f64),
}

impl Mass {
    /// In kg.
    #[must_use]
    pub fn kilograms(self) -> f64 {
        match self {
            Mass::Ounces(mass_oz) => units::kg_from_oz(mass_oz),
            Mass::Pounds(mass_lb) => units::kg_from_lb(mass_lb),
            Mass::Grams(mass_g) => mass_g / 1000.0,
            Mass::Kilograms(mass_kg) => mass_kg,
        }
    }
}

/// A span of plant time with its unit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Duration {
    /// Seconds.
    Seconds(f64),
    /// Minutes.
    Minutes(f64),
    /// Hours.
    Hours(f64),
}

impl Duration {
    /// In s.
    #[must_use]
    pub fn seconds(self) -> f64 {
        match self {
            Duration::Seconds(time_s) => time_s,
            Duration::Minutes(time_min) => time_min * 60.0,
            Duration::Hours(time_h) => time_h * 3600.0,
        }
    }
}

/// A pressure with its unit, or a vacuum with its.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Pressure {
    /// Pounds per square inch over atmospheric pressure.
    PoundsGauge(f64),
    /// Kilopascals over atmospheric pressure.
    KilopascalsGauge(f64),
    /// Inches of mercury below atmospheric pressure.
    InchesOfVacuum(f64),
    /// Microns of mercury, absolute.
    Microns(f64),
    /// Pascals, absolute.
    PascalsAbsolute(f64),
}

impl Pressure {
    /// Absolute, in Pa, under the standard atmosphere.
    #[must_use]
    pub fn absolute_pa(self) -> f64 {
        let atmosphere_pa = units::STANDARD_ATMOSPHERE_PA;
        match self {
            Pressure::PoundsGauge(pressure_psi) => units::pa_from_psig(pressure_psi, atmosphere_pa),
            Pressure::KilopascalsGauge(pressure_kpa) => {
                units::absolute_pa_from_gauge_pa(1000.0 * pressure_kpa, atmosphere_pa)
            }
            Pressure::InchesOfVacuum(vacuum_in_hg) => {
                atmosphere_pa - units::pa_from_inches_of_mercury(vacuum_in_hg)
            }
            Pressure::Microns(pressure_micron) => units::pa_from_micron(pressure_micron),
            Pressure::PascalsAbsolute(pressure_pa) => pressure_pa,
        }
    }

    /// Over atmospheric pressure, in Pa; negative for a vacuum.
    #[must_use]
    pub fn gauge_pa(self) -> f64 {
        units::gauge_pa_from_absolute_pa(self.absolute_pa(), units::STANDARD_ATMOSPHERE_PA)
    }
}
