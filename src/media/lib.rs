//! Properties of what flows through the equipment: refrigerant, moist air, and the units people quote them in.
//!
//! - [`refrigerant`]: tables of a reference equation of state, any state from two of pressure, enthalpy, temperature,
//!   entropy, volume and internal energy.
//! - [`moist_air`]: psychrometrics after the ASHRAE Handbook.
//! - [`units`]: conversions between SI and the units of the trade, both ways.
//! - [`elementary`]: exponential, logarithm and power for laws that are asked often.
//!
//! Everything is a pure function of its arguments; transcendental functions come from `libm` or are written out in
//! [`elementary`], so that results are the same bits on every machine. No file is read: the tables are part of the program.

pub mod elementary;
pub mod moist_air;
pub mod refrigerant;
mod steam;
pub mod units;
