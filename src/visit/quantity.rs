//! Quantities as people write them in a moves file: a number with its unit.

use serde::{Deserialize, Serialize};

/// A temperature with its unit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Temperature {
    /// Degrees Fahrenheit.
    Fahrenheit(f64),
    /// Degrees Celsius.
    Celsius(f64),
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
