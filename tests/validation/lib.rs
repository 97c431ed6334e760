//! The plant held against published values. Each module is one topic: the published numbers with their source, the run
//! that gives ours, the band, and pictures. The tests assert every check; `cargo run --release -p validation -- docs`
//! writes the same numbers into docs/validation.md and draws docs/images/validation. A check that disagrees says so and
//! why, and its test holds the size of the gap. A value that tuned a parameter is marked so and counts for nothing; checks of
//! tables and formulas are counted apart from those of the plant.

mod airflow;
mod chamber;
mod charge;
pub mod check;
mod compressor;
mod compressor_rating;
mod condenser;
mod cycling;
mod directions;
pub mod document;
mod electric;
mod field;
mod frost;
mod gases;
mod low_charge;
mod map;
mod orifice_flow;
pub mod picture;
mod pressures;
mod protection;
mod published;
mod restriction;
mod sensible;
mod superheat;
mod superheat_chart;
pub mod tuned;
mod weather;

use check::Topic;

/// A topic's name in the document and what computes it.
type Maker = (&'static str, fn() -> Topic);

/// Every topic, in the order of the document.
const MAKERS: [Maker; 20] = [
    ("charge", charge::topic),
    ("low charge", low_charge::topic),
    ("airflow", airflow::topic),
    ("condenser", condenser::topic),
    ("restriction", restriction::topic),
    ("non-condensables", gases::topic),
    ("weather", weather::topic),
    ("pressures", pressures::topic),
    ("sensible", sensible::topic),
    ("compressor", compressor::topic),
    ("compressor alone", compressor_rating::topic),
    ("protection", protection::topic),
    ("field", field::topic),
    ("superheat", superheat::topic),
    ("orifice flow", orifice_flow::topic),
    ("directions", directions::topic),
    ("cycling", cycling::topic),
    ("frost", frost::topic),
    ("properties", gases::water_topic),
    ("electric", electric::topic),
];

/// Names of all topics.
pub fn names() -> [&'static str; MAKERS.len()] {
    MAKERS.map(|(name, _)| name)
}

/// Compute every topic, on all cores. The order and every value are the same on each machine.
pub fn all() -> Vec<Topic> {
    some(&names())
}

/// Compute the topics of these names, in the order of the document.
pub fn some(names: &[&str]) -> Vec<Topic> {
    let wanted = MAKERS.iter().filter(|(name, _)| names.contains(name));
    std::thread::scope(|scope| {
        let running: Vec<_> = wanted.map(|(_, make)| scope.spawn(make)).collect();
        running.into_iter().map(|handle| handle.join().expect("a topic does not panic")).collect()
    })
}
