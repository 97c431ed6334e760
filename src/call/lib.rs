//! Call files: read, check, seed.

mod quantity;
mod spec;

pub use quantity::{Duration, Mass, Temperature, TemperatureDifference};
pub use spec::{
    Call, FaultSpec, HouseSpec, Milestone, Prerequisite, Question, Range, Seeded, Solved, WeatherSpec,
};
