//! Pairs of faults: visits that the program makes up from a case number and lives through under its own eyes.
//!
//! A case is a system, two faults, weather, and a day of random moves out of those that the visit offers. After every
//! move everything that can be known is held against the laws. A case number gives the same case on every machine.

mod case;
mod dice;
mod laws;
mod live;
mod moves;
mod tally;

pub use case::{Case, Hypothesis, every_pair};
pub(crate) use dice::Dice;
pub use laws::{Extreme, Extremes};
pub use live::{Broken, Lived, Plan, live};
pub(crate) use moves::draw;
pub use tally::Tally;
