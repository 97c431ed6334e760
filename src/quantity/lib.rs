//! Quantities as people write them in files and on the command line: a number with its unit. SI is what comes of them.
//!
//! - [`Duration`], [`Mass`], [`Pressure`], [`Temperature`] and [`TemperatureDifference`]: as calls, moves and records hold them, `Minutes(15)`.
//! - [`Amount`]: a number in any [`Unit`], both ways, for what is told of a file; [`Bounds`]: what is allowed, in SI, told in any unit.
//! - [`mod@typed`]: as they are typed on the command line, `95F` or `90%`.

mod amount;
pub mod typed;
mod written;

pub use amount::{Amount, Bounds, Unit};
pub use written::{Duration, Mass, Pressure, Temperature, TemperatureDifference};
