//! Call files: read, check, seed.
//!
//! - [`read`] turns the text of a call file into a checked [`Call`], or tells every mistake with its place.
//! - [`seed`] closes the ranges of a call: one seed, one variant, the same on every machine.
//! - [`built_in`] holds the calls that come with the program.
//! - [`CallMistake`] is what can be wrong with a call file, as a fact; [`OLD_NAMES`] are read as the names of today in all files.
//! - [`Text`] is what a learner reads, in one language or more.
#![cfg_attr(test, allow(clippy::unwrap_used, reason = "a test that meets an error has failed"))]

mod built_in;
mod check;
mod digest;
mod names;
mod problem;
mod raw;
mod sample;
mod spec;
mod text;

pub use ::quantity::{Duration, Mass, Pressure, Temperature, TemperatureDifference};
pub use built_in::built_in;
pub use check::{is_call, read, read_with_notes};
pub use digest::{fnv1a_64, text_digest};
pub use names::OLD_NAMES;
pub use problem::{Advice, CallMistake, CallProblems, Meaning};
pub use sample::{SurroundingShares, seed, surroundings_at};
pub use spec::{
    Call, FaultSpec, Hints, HouseSpec, Milestone, Prerequisite, Question, Range, Seeded, Solved, WeatherSpec,
};
pub use text::{ENGLISH, Text};
