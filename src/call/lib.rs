//! Call files: read, check, seed.

mod spec;

pub use spec::{
    Call, FaultSpec, HouseSpec, Milestone, Prerequisite, Question, Range, Seeded, Solved, WeatherSpec,
};
