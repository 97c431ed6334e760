//! Call files: read, check, seed.
//!
//! - [`read`] turns the text of a call file into a checked [`Call`], or tells every mistake with its place.
//! - [`seed`] closes the ranges of a call: one seed, one variant, the same on every machine.
//! - [`built_in`] holds the calls that come with the program.
//! - [`parse_ron`] reads any RON text with the same manner of telling mistakes; moves files use it too.
#![cfg_attr(test, allow(clippy::unwrap_used, reason = "a test that meets an error has failed"))]

mod built_in;
mod check;
mod digest;
mod names;
mod plain_text;
mod problem;
mod quantity;
mod raw;
mod ron_text;
mod sample;
mod scan;
mod spec;

pub use built_in::built_in;
pub use check::{is_call, read};
pub use digest::{fnv1a_64, text_digest};
pub use names::{FormerName, former_names, nearest};
pub use problem::Problem;
pub use quantity::{Duration, Mass, Pressure, Temperature, TemperatureDifference};
pub use ron_text::{Parsed, parse_ron, parse_ron_on};
pub use sample::{SurroundingShares, seed, surroundings_at};
pub use spec::{
    Call, FaultSpec, Hints, HouseSpec, Milestone, Prerequisite, Question, Range, Seeded, Solved, WeatherSpec,
};
