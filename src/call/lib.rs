//! Call files: read, check, seed.

mod names;
mod problem;
mod quantity;
mod ron_text;
mod scan;
mod spec;

pub use names::nearest;
pub use problem::Problem;
pub use quantity::{Duration, Mass, Temperature, TemperatureDifference};
pub use ron_text::{Parsed, parse_ron, parse_ron_on};
pub use spec::{
    Call, FaultSpec, HouseSpec, Milestone, Prerequisite, Question, Range, Seeded, Solved, WeatherSpec,
};
